//! The boundary: JSON text in, JSON text out; nothing else lives here.

use wasm_bindgen::prelude::*;

use crate::ask;
use crate::book::Book;

/// The bench: the parts book with everything that can be asked of it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Bench {
    book: Book,
}

#[wasm_bindgen]
impl Bench {
    /// A bench with the shipped book.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        // A panic is a bug; where one happens all the same, its place goes to the console before the instance traps.
        std::panic::set_hook(Box::new(|panic| web_sys::console::error_1(&panic.to_string().into())));
        Self { book: Book::shipped() }
    }

    /// Answers a question: JSON in, JSON out.
    pub fn ask(&self, question: &str) -> String {
        ask::answer_text(&self.book, question)
    }

    /// Lays a CSV file over a table of the book; answers with a report as JSON.
    pub fn load(&mut self, table: &str, csv: &str) -> String {
        ask::load_text(&mut self.book, table, csv)
    }

    /// A table of the book as CSV.
    pub fn export(&self, table: &str) -> String {
        ask::export_text(&self.book, table)
    }
}
