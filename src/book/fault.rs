//! What is wrong with a file, said so that a person can mend it.

/// One fault in a table: where it is, what was found, what is accepted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The table: "tubes", "names".
    pub table: String,
    /// Line of the file, counted from 1 (the header is line 1); 0 when the file as a whole is meant.
    pub line: u32,
    /// Name of the column; empty when the row or the file as a whole is meant.
    pub column: String,
    /// What was found, shortened when long.
    pub found: String,
    /// What is accepted there.
    pub accepted: String,
}

impl Fault {
    /// A fault; what was found is shortened to 60 characters.
    pub fn new(table: &str, line: u32, column: &str, found: &str, accepted: impl Into<String>) -> Self {
        let mut shown: String = found.chars().take(60).collect();
        if shown.len() < found.len() {
            shown.push('…');
        }
        Self { table: table.to_owned(), line, column: column.to_owned(), found: shown, accepted: accepted.into() }
    }
}

/// The most faults kept of one file; the rest are counted.
const MOST_FAULTS: usize = 200;

/// Faults gathered while reading; beyond a limit they are counted, not kept.
#[derive(Debug, Clone, Default)]
pub struct Faults {
    /// The first ones.
    pub kept: Vec<Fault>,
    /// How many more there were.
    pub more: usize,
    /// Whether faults without a line, which lie in rows of earlier files, are passed over.
    pub of_this_file: bool,
}

impl Faults {
    /// Adds one, unless it lies in a row of an earlier file and only this file's are wanted.
    pub fn push(&mut self, fault: Fault) {
        if self.of_this_file && fault.line == 0 {
            return;
        }
        if self.kept.len() < MOST_FAULTS {
            self.kept.push(fault);
        } else {
            self.more += 1;
        }
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}.csv", self.table)?;
        if self.line > 0 {
            write!(f, " line {}", self.line)?;
        }
        if !self.column.is_empty() {
            write!(f, ", column {}", self.column)?;
        }
        write!(f, ": found \"{}\", accepted: {}", self.found, self.accepted)
    }
}
