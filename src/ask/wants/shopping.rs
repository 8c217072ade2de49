//! `shopping`.
use super::{ShoppingAnswer, ShoppingQuestion};
use crate::ask::ErrorAnswer;
use crate::book::Book;

/// Answers `shopping`.
pub fn shopping(_: &Book, _: &ShoppingQuestion) -> Result<ShoppingAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "shopping", "to be written"))
}
