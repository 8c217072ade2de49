//! `wants`: all that is looked for, of all sets, folded by socket. `on_the_table`: what lies here, and which of my sets does it serve? `shopping`: what
//! is to be bought for all of them.

use serde::Serialize;

mod fold;
mod places;
mod shopping;
mod stock;
mod table;
#[cfg(test)]
mod tests;

pub use fold::wants;
pub use shopping::shopping;
pub use stock::stock;
pub use table::on_the_table;

use super::accepted::Fields;
use super::{JobSheet, SheetPurchase};
use crate::finding::{Caution, Mark, Verdict};
use crate::swap::Grade;

/// What do I look for?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WantsQuestion {
    /// The sheets; their parts may be left empty.
    pub sheets: Vec<JobSheet>,
}

/// Everything that is looked for.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WantsAnswer {
    /// In one sentence.
    pub verdict: Verdict,
    /// Type by type, the hardest to find first.
    pub wants: Vec<Want>,
}

/// One type that is looked for.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Want {
    /// The type.
    pub r#type: String,
    /// How many sockets want it.
    pub count: usize,
    /// In which sets: "kitchen set, V2".
    pub places: Vec<String>,
    /// What to take, grade by grade, the best first: good in every one of these sockets.
    pub take: Vec<WantedMarkings>,
    /// What of it is in stock.
    pub in_stock: Vec<StockHeld>,
    /// What goes into some of the sockets only, or better into some than `take` says.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<OnlyThere>>"))]
    pub only: Vec<OnlyThere>,
    /// What to know before one buys: "Only in the kitchen set, in the bedroom set it needs a change."
    pub says: String,
}

/// Markings that do for some of the sockets.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OnlyThere {
    /// How good, in the worst of these sockets.
    pub grade: Grade,
    /// "Yes, as it stands."
    pub word: String,
    /// The mark to draw.
    pub mark: Mark,
    /// What is printed on the glass.
    pub markings: Vec<String>,
    /// How many more types do there only after changes.
    #[serde(skip_serializing_if = "is_zero")]
    #[cfg_attr(test, ts(optional, as = "Option<usize>"))]
    pub more: usize,
    /// In which of the places.
    pub places: Vec<String>,
}

/// Markings that are as good as each other.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WantedMarkings {
    /// How good.
    pub grade: Grade,
    /// "Same tube", "Yes, as it stands."
    pub word: String,
    /// The mark to draw.
    pub mark: Mark,
    /// What is printed on the glass.
    pub markings: Vec<String>,
    /// How many more types do only after changes; those with the least work are named.
    #[serde(skip_serializing_if = "is_zero")]
    #[cfg_attr(test, ts(optional, as = "Option<usize>"))]
    pub more: usize,
}

/// Some of a type that is in stock.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StockHeld {
    /// The marking as it stands in the stock.
    pub marking: String,
    /// How many.
    pub count: usize,
    /// Where they lie.
    pub place: String,
    /// What a tester said of them.
    pub tested: String,
    /// As what grade it serves.
    pub grade: Grade,
    /// In which places, when not in all.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub only: Vec<String>,
}

/// What lies on the table?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OnTheTableQuestion {
    /// The types as they are read off the glass, separated by blanks, commas or line breaks.
    pub text: String,
    /// The sheets it may serve; their parts may be left empty.
    pub sheets: Vec<JobSheet>,
}

/// What lies on the table, type by type.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OnTheTableAnswer {
    /// "Take 12SG7." "For kitchen set."
    pub verdict: Verdict,
    /// Every type that was typed, those that serve a set first.
    pub found: Vec<TableFind>,
}

/// One type on the table.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TableFind {
    /// As it was typed.
    pub typed: String,
    /// The type in the book; empty when it is not there.
    pub r#type: String,
    /// The mark to draw.
    pub mark: Mark,
    /// "Take it." "Nothing of mine wants it." "Not in the book."
    pub word: String,
    /// One plain sentence.
    pub says: String,
    /// Which sockets of my sets it serves, the best first; wanted ones before others. Changes are thought of only where a tube is wanted.
    pub serves: Vec<TableServes>,
    /// How many further sockets it serves.
    #[serde(skip_serializing_if = "is_zero")]
    #[cfg_attr(test, ts(optional, as = "Option<usize>"))]
    pub more: usize,
    /// How many of it, under any of its names, are in stock.
    pub in_stock: usize,
    /// Near names, when it was not found.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub near: Vec<String>,
}

/// A socket that a type on the table serves.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TableServes {
    /// The set.
    pub sheet: String,
    /// Which sheet, counted from 0.
    pub at: usize,
    /// Where in it: "V2"; empty when the line does not say.
    pub place: String,
    /// What the set wants there.
    pub wants: String,
    /// Whether that set is looking for one.
    pub wanted: bool,
    /// As what grade.
    pub grade: Grade,
    /// "Yes, as it stands."
    pub word: String,
    /// The sentence that decides.
    pub says: String,
}

/// What is to be bought for several sets?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ShoppingQuestion {
    /// The sheets.
    pub sheets: Vec<JobSheet>,
}

/// One shopping list for several sets.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ShoppingAnswer {
    /// In one sentence.
    pub verdict: Verdict,
    /// What to buy, like with like.
    pub shopping: Vec<SheetPurchase>,
    /// What has to be looked at before anything is bought for it: "kitchen set, C4: ...".
    pub open: Vec<String>,
    /// Warnings, each once.
    pub cautions: Vec<Caution>,
}

/// What do I have?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StockQuestion {
    /// Part of a marking, type, place or note; left out: all.
    #[cfg_attr(test, ts(optional))]
    pub find: Option<String>,
    /// How many rows at the most; left out: 100.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

/// What is in stock.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StockAnswer {
    /// "300 tubes of 84 types, 40 other parts."
    pub says: String,
    /// The rows that were found, in the order of their markings.
    pub rows: Vec<StockRow>,
    /// How many others there are.
    pub more: usize,
}

/// One row of the stock.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StockRow {
    /// Names the row: its marking and place.
    pub key: String,
    /// What is printed on it.
    pub marking: String,
    /// The type in the book; empty when it is none, as of a capacitor.
    pub r#type: String,
    /// How many.
    pub count: usize,
    /// Where they lie.
    pub place: String,
    /// What a tester said.
    pub tested: String,
    /// Anything to remember.
    pub note: String,
}

/// Whether there is nothing to say.
fn is_zero(count: &usize) -> bool {
    *count == 0
}

/// The sheets of a question.
fn sheets(fields: &Fields<'_>) -> Vec<JobSheet> {
    fields.records("sheets").map(|sheet| JobSheet::from(&sheet)).collect()
}

impl From<&Fields<'_>> for WantsQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { sheets: sheets(fields) }
    }
}

impl From<&Fields<'_>> for OnTheTableQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { text: fields.text("text"), sheets: sheets(fields) }
    }
}

impl From<&Fields<'_>> for ShoppingQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { sheets: sheets(fields) }
    }
}

impl From<&Fields<'_>> for StockQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { find: fields.get_text("find").map(str::to_owned), limit: fields.whole("limit") }
    }
}
