//! The boundary: JSON text in, JSON text out; nothing else lives here.

use wasm_bindgen::prelude::*;

use crate::ask::{self, Begun};
use crate::book::Book;

/// The bench: the parts book with everything that can be asked of it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Bench {
    book: Book,
    begun: Option<Begun>,
}

#[wasm_bindgen]
impl Bench {
    /// A bench with the shipped book.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        // A panic is a bug; where one happens all the same, its place goes to the console before the instance traps.
        std::panic::set_hook(Box::new(|panic| web_sys::console::error_1(&panic.to_string().into())));
        Self { book: Book::shipped(), begun: None }
    }

    /// Answers a question: JSON in, JSON out.
    pub fn ask(&self, question: &str) -> String {
        ask::answer_text(&self.book, question)
    }

    /// Lays a CSV file over a table of the book; answers with a report as JSON.
    pub fn load(&mut self, table: &str, csv: String) -> String {
        let begun = ask::begin(&self.book, table, csv);
        ask::finish_text(&mut self.book, Some(begun))
    }

    /// What laying a CSV file over a table would do, as the same report, without doing it.
    pub fn preview(&self, table: &str, csv: String) -> String {
        ask::preview_text(&mut Some(ask::begin(&self.book, table, csv)))
    }

    /// Begins to lay a large file over a table. Then `load_step` until it gives 1, with a pause for the page after each;
    /// `load_preview` to see what it does; `load_finish` to put it in place. Until then the bench answers from the book as it was, and
    /// another `load_begin` drops it.
    pub fn load_begin(&mut self, table: &str, csv: String) {
        self.begun = Some(ask::begin(&self.book, table, csv));
    }

    /// Goes on by so many rows; gives how much is done, from 0 to 1.
    pub fn load_step(&mut self, rows: usize) -> f64 {
        self.begun.as_mut().and_then(|begun| begun.as_mut().ok()).map_or(1.0, |loading| loading.step(rows))
    }

    /// What the file that was begun does, as JSON; what is left to do for that is done first.
    pub fn load_preview(&mut self) -> String {
        ask::preview_text(&mut self.begun)
    }

    /// Puts the file that was begun in place, finishing what is left to do; answers with a report as JSON.
    pub fn load_finish(&mut self) -> String {
        ask::finish_text(&mut self.book, self.begun.take())
    }

    /// Takes the user's rows of a type (`tubes`), a name (`names`) or a part out, so that what was shipped stands again; or a row of the
    /// `stock`, by the key that the answer `stock` gives; false when he has none.
    pub fn forget(&mut self, table: &str, name: &str) -> bool {
        self.book.forget(table, name).is_some()
    }

    /// A table of the book as CSV: `tubes`, `names`, `capacitors`, `resistors`, `stock`; the user's rows alone: `own_tubes` and so on.
    pub fn export(&self, table: &str) -> String {
        ask::export_text(&self.book, table)
    }
}
