//! A CSV table kept whole: every column and row as it came, known or not, so that export loses nothing.

use super::fault::Fault;

/// The most faults kept of one file; the rest are counted.
const MOST_FAULTS: usize = 200;

/// A header and its records, with the line each record began on.
#[derive(Debug, Clone, Default)]
pub struct Table {
    header: Vec<String>,
    records: Vec<csv::StringRecord>,
    lines: Vec<u64>,
}

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

impl Table {
    /// Reads CSV text. `None` when it is not a table at all (empty, binary, without the `required` column); the faults say
    /// why. Rows with a wrong number of cells are kept: missing cells are empty, cells beyond the header are a fault.
    pub fn read(name: &str, text: &str, required: &str, faults: &mut Faults) -> Option<Self> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.trim().is_empty() {
            faults.push(Fault::new(name, 0, "", "an empty file", "a CSV file whose first line names its columns"));
            return None;
        }
        if text.contains('\0') || text.chars().take(4096).filter(|&c| c == char::REPLACEMENT_CHARACTER).count() > 8 {
            faults.push(Fault::new(name, 0, "", "a binary file", "a CSV file: plain text in UTF-8"));
            return None;
        }
        let mut reader = csv::ReaderBuilder::new().flexible(true).has_headers(true).from_reader(text.as_bytes());
        let header: Vec<String> = match reader.headers() {
            Ok(header) => header.iter().map(|cell| cell.trim().to_owned()).collect(),
            Err(error) => {
                faults.push(Fault::new(name, 1, "", &error.to_string(), "a first line that names the columns"));
                return None;
            }
        };
        if !header.iter().any(|column| column == required) {
            let found = header.join(",");
            faults.push(Fault::new(name, 1, required, &found, format!("a column named `{required}`")));
            return None;
        }
        for (at, column) in header.iter().enumerate() {
            if !column.is_empty() && header.iter().take(at).any(|earlier| earlier == column) {
                faults.push(Fault::new(name, 1, column, "the column twice", "each column once; the first is read"));
            }
        }
        let mut table = Self { header, records: Vec::new(), lines: Vec::new() };
        let mut record = csv::StringRecord::new();
        loop {
            match reader.read_record(&mut record) {
                Ok(true) => {
                    let line = record.position().map_or(0, csv::Position::line);
                    if record.iter().all(|cell| cell.trim().is_empty()) {
                        continue;
                    }
                    if record.len() > table.header.len() {
                        let found = format!("{} cells", record.len());
                        let accepted = format!("{} cells, as the header has", table.header.len());
                        faults.push(Fault::new(name, line, "", &found, accepted));
                        record.truncate(table.header.len());
                    }
                    table.records.push(record.clone());
                    table.lines.push(line);
                }
                Ok(false) => break,
                Err(error) => {
                    let line = error.position().map_or(0, csv::Position::line);
                    faults.push(Fault::new(name, line, "", &error.to_string(), "text in UTF-8, quotes in pairs"));
                }
            }
        }
        Some(table)
    }

    /// The column's place in the header.
    pub fn column(&self, name: &str) -> Option<usize> {
        self.header.iter().position(|column| column == name)
    }

    /// The header.
    pub fn header(&self) -> &[String] {
        &self.header
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.records.len()
    }

    /// Whether there are no rows.
    pub fn is_empty(&self) -> bool {
        self.records.is_empty()
    }

    /// A row with its line in the file it came from.
    pub fn row(&self, at: usize) -> Option<Row<'_>> {
        Some(Row { record: self.records.get(at)?, line: self.lines.get(at).copied().unwrap_or(0) })
    }

    /// Lays `new` over this table. Rows are told apart by `key` (the text of the named columns): a row whose key is here
    /// already replaces the cells of the columns it has; other rows are added at the end. A key that `new` has twice is a fault, and its first
    /// row stands. Columns this table does not know are added at the end. Rows from before have no line any more.
    pub fn lay_over(&mut self, name: &str, new: &Table, key: &[&str], faults: &mut Faults) {
        self.lines.fill(0);
        for column in &new.header {
            if self.column(column).is_none() {
                self.header.push(column.clone());
            }
        }
        let places: Vec<Option<usize>> = new.header.iter().map(|column| self.column(column)).collect();
        let own_key: Vec<Option<usize>> = key.iter().map(|column| self.column(column)).collect();
        let new_key: Vec<Option<usize>> = key.iter().map(|column| new.column(column)).collect();
        let key_of = |record: &csv::StringRecord, columns: &[Option<usize>]| -> Vec<String> {
            columns
                .iter()
                .zip(key)
                .map(|(column, name)| key_cell(name, column.and_then(|at| record.get(at)).unwrap_or("")))
                .collect()
        };
        let mut known: std::collections::HashMap<Vec<String>, usize> =
            self.records.iter().enumerate().map(|(at, record)| (key_of(record, &own_key), at)).collect();
        let width = self.header.len();
        for (record, line) in new.records.iter().zip(&new.lines) {
            let key = key_of(record, &new_key);
            let at = known.get(&key).copied();
            if at.and_then(|at| self.lines.get(at)).is_some_and(|&earlier| earlier > 0) {
                let accepted = "each only once; the first row stands";
                faults.push(Fault::new(name, *line, key_name(key.len()), &key.join(", "), accepted));
                continue;
            }
            let mut cells: Vec<&str> = match at.and_then(|at| self.records.get(at)) {
                Some(old) => old.iter().collect(),
                None => Vec::new(),
            };
            cells.resize(width, "");
            for (cell, place) in record.iter().zip(&places) {
                // What tells rows apart stays as this table writes it.
                if at.is_some() && own_key.contains(place) {
                    continue;
                }
                if let Some(slot) = place.and_then(|place| cells.get_mut(place)) {
                    *slot = cell;
                }
            }
            let merged = csv::StringRecord::from(cells);
            if let Some(at) = at {
                self.records[at] = merged;
                self.lines[at] = *line;
            } else {
                known.insert(key, self.records.len());
                self.records.push(merged);
                self.lines.push(*line);
            }
        }
    }

    /// The table as CSV text.
    pub fn write(&self) -> String {
        let mut writer = csv::WriterBuilder::new().flexible(false).from_writer(Vec::new());
        let width = self.header.len();
        // Writing to memory cannot fail, and every record is padded to the header's width.
        let _ = writer.write_record(&self.header);
        for record in &self.records {
            let cells = record.iter().chain(std::iter::repeat("")).take(width);
            let _ = writer.write_record(cells);
        }
        let bytes = writer.into_inner().unwrap_or_default();
        String::from_utf8(bytes).unwrap_or_default()
    }
}

/// A cell by which rows are told apart: capitals, no blanks around. Of a range of units the first counts, which an empty cell means too.
fn key_cell(column: &str, cell: &str) -> String {
    let cell = cell.trim();
    if column == "unit" {
        let first = cell.split('-').next().unwrap_or(cell).trim();
        return if first.is_empty() { "1" } else { first }.to_owned();
    }
    cell.to_ascii_uppercase()
}

fn key_name(columns: usize) -> &'static str {
    if columns > 1 { "type" } else { "name" }
}

/// One row: cells by column.
#[derive(Debug, Clone, Copy)]
pub struct Row<'t> {
    record: &'t csv::StringRecord,
    /// Line in the file.
    pub line: u64,
}

impl<'t> Row<'t> {
    /// The trimmed cell, `None` when empty or absent.
    pub fn cell(&self, column: Option<usize>) -> Option<&'t str> {
        let cell = self.record.get(column?)?.trim();
        (!cell.is_empty()).then_some(cell)
    }
}
