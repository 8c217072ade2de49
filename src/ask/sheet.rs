//! `sheet`: a whole set at once. Which of its tubes and parts need what, does its string work, what does its supply give, what is to be bought, and
//! how is it first switched on?
//!
//! A job sheet holds what a person wrote down of one set. Every line of it is put to the engine that answers for such a line; here the answers are
//! gathered, the dangerous ones first. What is not told stays open and is said to be open.

mod answer;
mod question;
pub(super) mod shopping;
pub(super) mod socket;

use super::ErrorAnswer;
use crate::book::Book;

pub use answer::{
    BringUpMoment, BringUpReading, BringUpStep, Danger, SheetAnswer, SheetFileAnswer, SheetLinesAnswer,
    SheetPartAnswer, SheetPurchase, SheetSection, SheetTotal, SheetTrouble, SheetTubeAnswer,
};
pub use question::{
    JobSheet, PartRole, SheetFileQuestion, SheetHeaters, SheetLinesQuestion, SheetPart, SheetQuestion, SheetReading,
    SheetTube, TubeState,
};

/// Answers `sheet`.
pub fn answer(_: &Book, _: &SheetQuestion) -> Result<SheetAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet", "to be written"))
}

/// Answers `sheet_lines`.
pub fn lines(_: &Book, _: &SheetLinesQuestion) -> Result<SheetLinesAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet_lines", "to be written"))
}

/// Answers `sheet_file`.
pub fn file(_: &Book, _: &SheetFileQuestion) -> Result<SheetFileAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet_file", "to be written"))
}
