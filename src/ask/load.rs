//! Loading and exporting the book's tables: what came in, what was wrong with it, and everything back out.

use serde::Serialize;

use super::ErrorAnswer;
use crate::book::Book;

/// The tables the book has.
const TABLES: &str = "tubes | names";
/// The largest file read, in bytes.
const LARGEST_FILE: usize = 64 << 20;
/// The most advice told of one file; the rest is counted.
const MOST_ADVICE: usize = 200;

/// One fault of a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FaultReport {
    /// The file: "tubes.csv".
    pub file: String,
    /// Its line, counted from 1; 0 when the whole file is meant.
    pub line: u32,
    /// The column; empty when the row or file is meant.
    pub column: String,
    /// What was found.
    pub found: String,
    /// What is accepted.
    pub accepted: String,
    /// All of it as one sentence.
    pub says: String,
}

/// What loading a file did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LoadReport {
    /// The table.
    pub table: String,
    /// Rows read from the file.
    pub rows: u32,
    /// How many types or names are new.
    pub new: u32,
    /// How many were in the book and are changed by the file.
    pub changed: u32,
    /// Their names, the first hundred of each.
    pub new_names: Vec<String>,
    /// See `new_names`.
    pub changed_names: Vec<String>,
    /// What was wrong, the first two hundred.
    pub faults: Vec<FaultReport>,
    /// How many more faults there were.
    pub more_faults: u32,
    /// What does not agree in the new and changed types, the first two hundred sentences: advice, nothing was refused for it.
    pub advice: Vec<String>,
    /// How much more advice there was.
    pub more_advice: u32,
    /// One plain sentence.
    pub says: String,
}

#[derive(Serialize)]
#[serde(tag = "answer", rename_all = "snake_case")]
enum Reply {
    Loaded(LoadReport),
    Error(ErrorAnswer),
}

fn text(reply: &Reply) -> String {
    serde_json::to_string(reply).unwrap_or_default()
}

/// Loads CSV text over the book and answers with a report as JSON. The good rows stay, whatever else is wrong.
pub fn load_text(book: &mut Book, table: &str, csv: &str) -> String {
    if csv.len() > LARGEST_FILE {
        let found = format!("{} MB", csv.len() >> 20);
        return text(&Reply::Error(ErrorAnswer::new(
            "csv",
            found,
            format!("a file of at most {} MB", LARGEST_FILE >> 20),
        )));
    }
    let Some(loaded) = book.load(table, csv) else {
        return text(&Reply::Error(ErrorAnswer::new("table", format!("\"{table}\""), TABLES)));
    };
    let faults: Vec<FaultReport> = loaded
        .faults
        .kept
        .iter()
        .map(|fault| FaultReport {
            file: format!("{}.csv", fault.table),
            line: u32::try_from(fault.line).unwrap_or(u32::MAX),
            column: fault.column.clone(),
            found: fault.found.clone(),
            accepted: fault.accepted.clone(),
            says: fault.to_string(),
        })
        .collect();
    let wrong = loaded.faults.kept.len() + loaded.faults.more;
    let says = format!(
        "{} rows read: {} new, {} changed, {}.",
        loaded.rows,
        loaded.new.len(),
        loaded.changed.len(),
        match wrong {
            0 => "nothing wrong".to_owned(),
            1 => "1 fault".to_owned(),
            many => format!("{many} faults"),
        }
    );
    let first = |names: &[String]| names.iter().take(100).cloned().collect();
    text(&Reply::Loaded(LoadReport {
        table: table.to_owned(),
        rows: loaded.rows as u32,
        new: loaded.new.len() as u32,
        changed: loaded.changed.len() as u32,
        new_names: first(&loaded.new),
        changed_names: first(&loaded.changed),
        faults,
        more_faults: loaded.faults.more as u32,
        advice: loaded.advice.iter().take(MOST_ADVICE).map(ToString::to_string).collect(),
        more_advice: loaded.advice.len().saturating_sub(MOST_ADVICE) as u32,
        says,
    }))
}

/// The table as CSV, or an `error` answer as JSON for a table the book does not have (no CSV of ours begins with a brace).
pub fn export_text(book: &Book, table: &str) -> String {
    book.export(table).unwrap_or_else(|| text(&Reply::Error(ErrorAnswer::new("table", format!("\"{table}\""), TABLES))))
}
