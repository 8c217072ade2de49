//! `own`: what the user has put into the book, as a list. His stock is no part of the book in this sense: `stock` shows it.

use serde::Serialize;

use super::accepted::Fields;
use crate::book::{Book, key};

/// Which of the user's rows.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OwnQuestion {
    /// Part of a type or name; all when it is not given.
    #[cfg_attr(test, ts(optional))]
    pub find: Option<String>,
    /// How many to give, at most; 20 when it is not given.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

impl From<&Fields<'_>> for OwnQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { find: fields.get_text("find").map(str::to_owned), limit: fields.whole("limit") }
    }
}

/// A type, name or part of the user.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OwnView {
    /// The table: "tubes", "names", "capacitors" or "resistors".
    pub table: &'static str,
    /// The type, name or part.
    pub name: String,
    /// The units of a type ("1, 2-3"), the type a name points at, or what a part is made of or comes in.
    pub says: String,
}

/// The user's rows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OwnAnswer {
    /// How many types he has corrected or added.
    pub tubes: u32,
    /// How many names.
    pub names: u32,
    /// How many parts that are sold.
    pub parts: u32,
    /// Those asked for, types first.
    pub shown: Vec<OwnView>,
    /// How many more fit.
    pub more: u32,
}

/// The user's rows.
pub fn answer(book: &Book, question: &OwnQuestion) -> OwnAnswer {
    let wanted = key(question.find.as_deref().unwrap_or(""));
    let limit = question.limit.unwrap_or(20) as usize;
    let mut answer = OwnAnswer { tubes: 0, names: 0, parts: 0, shown: Vec::new(), more: 0 };
    for table in ["tubes", "names", "capacitors", "resistors"] {
        let own = book.own(table);
        *match table {
            "tubes" => &mut answer.tubes,
            "names" => &mut answer.names,
            _ => &mut answer.parts,
        } += own.len() as u32;
        for (name, says) in own.into_iter().filter(|(name, _)| key(name).contains(&wanted)) {
            if answer.shown.len() < limit {
                answer.shown.push(OwnView { table, name: name.to_owned(), says });
            } else {
                answer.more += 1;
            }
        }
    }
    answer
}
