//! Loading and exporting the book's tables: what came in, what was wrong with it, and everything back out.

use serde::Serialize;

use super::ErrorAnswer;
use crate::book::{Book, Loaded, Loading, Told};

/// The tables the book has.
const TABLES: &str = "tubes | names | capacitors | resistors | stock, or nothing: then the file's columns tell";
/// What can be had as CSV.
const EXPORTS: &str = "tubes | names | capacitors | resistors | stock, and own_ before each";
/// The largest file read, in bytes.
const LARGEST_FILE: usize = 64 << 20;
/// The most names told of one file; the rest is counted.
const MOST_NAMES: usize = 100;

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

/// One cell that a file changes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ChangeReport {
    /// The type or name.
    pub name: String,
    /// The unit of the tube, such as "1" or "1-2", or where a part in stock lies; empty when the row does not say.
    pub unit: String,
    /// The column.
    pub column: String,
    /// What the book says; empty when it says nothing.
    pub old: String,
    /// What the file says; empty when it takes the figure away.
    pub new: String,
}

/// What loading a file does: done in `loaded`, foreseen in `preview`.
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
    /// How many the file has as the book has them.
    pub kept: u32,
    /// Their names, the first hundred of each.
    pub new_names: Vec<String>,
    /// See `new_names`.
    pub changed_names: Vec<String>,
    /// The cells that change in types or names that were in the book, the first two hundred.
    pub changes: Vec<ChangeReport>,
    /// How many more cells change.
    pub more_changes: u32,
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
    Preview(LoadReport),
    Error(ErrorAnswer),
}

fn text(reply: &Reply) -> String {
    super::json(reply)
}

fn error(field: &str, found: impl Into<String>, accepted: impl Into<String>) -> String {
    text(&Reply::Error(ErrorAnswer::new(field, found, accepted)))
}

/// A file on its way into the book, or why it cannot be.
pub type Begun = Result<Loading, String>;

/// Begins to lay a CSV file over the book.
pub fn begin(book: &Book, table: &str, csv: String) -> Begun {
    if csv.len() > LARGEST_FILE {
        let found = format!("{} MB", csv.len() >> 20);
        return Err(error("csv", found, format!("a file of at most {} MB", LARGEST_FILE >> 20)));
    }
    book.begin_load(table, csv).ok_or_else(|| error("table", format!("\"{table}\""), TABLES))
}

/// What a file would do to the book: `preview`, or an `error`.
pub fn preview_text(begun: &mut Option<Begun>) -> String {
    match begun {
        Some(Ok(loading)) => {
            let table = loading.table();
            text(&Reply::Preview(report(table, loading.loaded())))
        }
        Some(Err(error)) => error.clone(),
        None => nothing_begun(),
    }
}

/// Puts a file in place and answers with a report as JSON: `loaded`, or an `error`. The good rows stay, whatever else is wrong.
pub fn finish_text(book: &mut Book, begun: Option<Begun>) -> String {
    match begun {
        Some(Ok(loading)) => {
            let table = loading.table();
            text(&Reply::Loaded(report(table, &book.finish_load(loading))))
        }
        Some(Err(error)) => error,
        None => nothing_begun(),
    }
}

fn nothing_begun() -> String {
    error("csv", "no file", "a file that was begun with load_begin")
}

fn report(table: &str, loaded: &Loaded) -> LoadReport {
    let faults: Vec<FaultReport> = loaded
        .faults
        .kept
        .iter()
        .map(|fault| FaultReport {
            file: format!("{}.csv", fault.table),
            line: fault.line,
            column: fault.column.clone(),
            found: fault.found.clone(),
            accepted: fault.accepted.clone(),
            says: fault.to_string(),
        })
        .collect();
    let changes = loaded.changes.first.iter().map(|change| ChangeReport {
        name: change.name.clone(),
        unit: change.unit.clone(),
        column: change.column.clone(),
        old: change.old.clone(),
        new: change.new.clone(),
    });
    let says = format!(
        "{} rows read: {} new, {} changed, {} as they were, {}.",
        loaded.rows,
        loaded.new.count,
        loaded.changed.count,
        loaded.kept,
        match loaded.faults.kept.len() + loaded.faults.more {
            0 => "nothing wrong".to_owned(),
            1 => "1 fault".to_owned(),
            many => format!("{many} faults"),
        }
    );
    let names = |told: &Told<String>| told.first.iter().take(MOST_NAMES).cloned().collect();
    LoadReport {
        table: table.to_owned(),
        rows: loaded.rows as u32,
        new: loaded.new.count as u32,
        changed: loaded.changed.count as u32,
        kept: loaded.kept as u32,
        new_names: names(&loaded.new),
        changed_names: names(&loaded.changed),
        changes: changes.collect(),
        more_changes: loaded.changes.more() as u32,
        faults,
        more_faults: loaded.faults.more as u32,
        advice: loaded.advice.first.iter().map(ToString::to_string).collect(),
        more_advice: loaded.advice.more() as u32,
        says,
    }
}

/// A table as CSV, or an `error` answer as JSON for one the book does not have (no CSV of ours begins with a brace).
pub fn export_text(book: &Book, table: &str) -> String {
    book.export(table).unwrap_or_else(|| error("table", format!("\"{table}\""), EXPORTS))
}
