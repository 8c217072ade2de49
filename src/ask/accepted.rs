//! Reads a question and says, of each field, what is accepted there.

use super::{ErrorAnswer, Question};

/// Reads a question from JSON text.
pub fn read(question: &str) -> Result<Question, ErrorAnswer> {
    serde_json::from_str(question).map_err(|error| ErrorAnswer::new("", error.to_string(), "a question"))
}
