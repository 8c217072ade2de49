//! What is wrong with a file, said so that a person can mend it.

/// One fault in a table: where it is, what was found, what is accepted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The table: "tubes", "names".
    pub table: String,
    /// Line of the file, counted from 1 (the header is line 1); 0 when the file as a whole is meant.
    pub line: u64,
    /// Name of the column; empty when the row or the file as a whole is meant.
    pub column: String,
    /// What was found, shortened when long.
    pub found: String,
    /// What is accepted there.
    pub accepted: String,
}

impl Fault {
    /// A fault; what was found is shortened to 60 characters.
    pub fn new(table: &str, line: u64, column: &str, found: &str, accepted: impl Into<String>) -> Self {
        let mut shown: String = found.chars().take(60).collect();
        if shown.len() < found.len() {
            shown.push('…');
        }
        Self { table: table.to_owned(), line, column: column.to_owned(), found: shown, accepted: accepted.into() }
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
