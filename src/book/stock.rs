//! Rows of `stock.csv`: what the user has, tubes and other parts alike. Nothing of it is shipped.
//!
//! A row is told apart by marking and place: the same tube in two drawers is two rows. Only blanks and case are passed over there, for `1.5k` and
//! `15k` are two parts, while the keys of tube names drop the dot.

use super::Book;
use super::Found;
use super::fault::{Fault, Faults};
use super::names::key;
use super::rows::Row;
use super::sheet::Sheet;
use crate::quantity::decimal;

/// The columns with what they hold, in the order in which they are written. Further ones are kept as they come.
pub const COLUMNS: [(&str, &str); 5] = [
    ("marking", "what is printed on it: 12SK7GT, .022 uF 630 V film"),
    ("count", "how many, a whole number from 0 to 100000; empty: the one that the row speaks of"),
    ("place", "where it lies: drawer 3"),
    ("tested", "what a tester said: 85 %, good, shorted"),
    ("note", "anything to remember"),
];

/// The most of one row.
const MOST: f64 = 100_000.0;

/// What is in stock in one place under one marking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StockItem {
    /// As it is printed on the part.
    pub marking: String,
    /// How many.
    pub count: usize,
    /// Where; empty when it is not said.
    pub place: String,
    /// What a tester said; empty when nothing.
    pub tested: String,
    /// A remark; empty when there is none.
    pub note: String,
}

impl StockItem {
    /// Names its row: marking and place with a tab between.
    pub fn key(&self) -> String {
        row_key(&self.marking, &self.place)
    }
}

/// Names the row of a marking in a place. Empty without a marking.
pub fn row_key(marking: &str, place: &str) -> String {
    let squeezed = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_ascii_uppercase();
    match squeezed(marking) {
        none if none.is_empty() => none,
        marking => format!("{marking}\t{}", squeezed(place)),
    }
}

/// Reads a row.
pub fn read_item(sheet: &Sheet, row: Row<'_>, faults: &mut Faults) -> Option<StockItem> {
    let text = |at: usize| COLUMNS.get(at).and_then(|column| row.cell(sheet.column(column.0))).unwrap_or("");
    let count = match text(1) {
        "" => Some(1.0),
        cell => decimal(cell).filter(|count| count.fract() == 0.0 && (0.0..=MOST).contains(count)),
    };
    let Some(count) = count else {
        faults.push(Fault::new("stock", row.line, "count", text(1), "a whole number from 0 to 100000"));
        return None;
    };
    let own = |at: usize| text(at).to_owned();
    Some(StockItem { marking: own(0), count: count as usize, place: own(2), tested: own(3), note: own(4) })
}

impl Book {
    /// What is in stock, in the order of the rows.
    pub fn stock(&self) -> &[StockItem] {
        &self.stock
    }

    /// The tube of a marking in stock; `None` for any other part.
    ///
    /// Other parts lie in the same drawers, so a figure with a point (4.7) and the short figures of a double marking (40/20 uF) are no tubes,
    /// though the keys of names would make some of them.
    pub fn tube_in_stock(&self, marking: &str) -> Option<Found<'_>> {
        let figure = |half: &str| half.len() < 4 && half.bytes().all(|byte| byte.is_ascii_digit());
        let whole = key(marking);
        if marking.contains('.') || (whole.contains('/') && whole.split('/').any(figure)) {
            return None;
        }
        self.look_up(marking)
    }
}
