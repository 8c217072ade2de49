//! A CSV file laid over the book, a few thousand rows at a time, so that a page can show how far it is and answer meanwhile.
//!
//! The work goes on in a copy of the book. What it would do can be looked at before it is done; what is dropped halfway has changed nothing.

use super::Book;
use super::cells::{Read, Reader};
use super::consistency::{Advice, Consistency};
use super::fault::{Fault, Faults};
use super::names::{self, key, read_name};
use super::parts;
use super::read::{self, read_tube};
use super::rows::Rows;
use super::sheet::{CellChange, Columns, Entry, Kind, Touch};
use super::stock;

/// The most names, changes and sentences of advice kept of one file; the rest are counted.
const MOST_TOLD: usize = 200;

/// The first of many, and how many there are.
#[derive(Debug, Clone, PartialEq)]
pub struct Told<T> {
    /// The first ones.
    pub first: Vec<T>,
    /// All of them.
    pub count: usize,
}

impl<T> Default for Told<T> {
    fn default() -> Self {
        Self { first: Vec::new(), count: 0 }
    }
}

impl<T> Told<T> {
    /// How many are not among the first.
    pub fn more(&self) -> usize {
        self.count - self.first.len()
    }

    fn push(&mut self, make: impl FnOnce() -> T) {
        self.count += 1;
        if self.first.len() < MOST_TOLD {
            self.first.push(make());
        }
    }
}

/// What loading a file does.
#[derive(Debug, Clone, Default)]
pub struct Loaded {
    /// Rows read.
    pub rows: usize,
    /// Types or names that were not in the book before.
    pub new: Told<String>,
    /// Types or names that were and are now as the file has them.
    pub changed: Told<String>,
    /// Types or names that the file has as the book has them.
    pub kept: usize,
    /// Cells of changed types or names, before and after.
    pub changes: Told<CellChange>,
    /// What was wrong.
    pub faults: Faults,
    /// What does not agree in the types that are new or changed.
    pub advice: Told<Advice>,
}

/// A file on its way into the book.
#[derive(Debug)]
pub struct Loading {
    /// The book as it will be.
    pub(super) book: Book,
    kind: Kind,
    shipping: bool,
    reader: Reader,
    /// `None` when the file is no table.
    columns: Option<Columns>,
    /// The row that is being read.
    row: Rows,
    /// Entries that the file speaks of, and how many of them have been read.
    touched: Vec<usize>,
    read: usize,
    tube_columns: read::Columns,
    name_columns: names::Columns,
    /// Begun when all rows are laid.
    consistency: Option<Consistency>,
    loaded: Loaded,
}

impl Loading {
    /// Begins to lay a file over a book.
    pub(super) fn begin(mut book: Book, kind: Kind, text: String, shipping: bool) -> Self {
        let mut faults = Faults::default();
        let mut row = Rows::default();
        let sheet = book.sheet_mut(kind);
        sheet.tidy();
        let name = kind.name();
        let replacements = text.chars().take(4096).filter(|&c| c == char::REPLACEMENT_CHARACTER).count();
        let (empty, binary) = (text.trim().is_empty(), text.contains('\0') || replacements > 8);
        let mut reader = Reader::new(text);
        let columns = if empty {
            faults.push(Fault::new(name, 0, "", "an empty file", "a CSV file whose first line names its columns"));
            None
        } else if binary {
            faults.push(Fault::new(name, 0, "", "a binary file", "a CSV file: plain text in UTF-8"));
            None
        } else {
            if let Read::Row(cells, _) | Read::OpenQuote(cells, _) = reader.row() {
                row.write_row(cells);
            }
            sheet.begin(row.row(0), &mut faults)
        };
        faults.of_this_file = true;
        let tube_columns = read::Columns::of(&book.tubes_sheet);
        let name_columns = names::Columns::of(&book.names_sheet);
        Self {
            book,
            kind,
            shipping,
            reader,
            columns,
            row,
            touched: Vec::new(),
            read: 0,
            tube_columns,
            name_columns,
            consistency: None,
            loaded: Loaded { faults, ..Loaded::default() },
        }
    }

    /// Goes on by so many rows or types; how much is done then, from 0 to 1.
    pub fn step(&mut self, rows: usize) -> f64 {
        let Some(columns) = &self.columns else { return 1.0 };
        let mut left = rows.max(1);
        while left > 0 && self.reader.done() < 1.0 {
            left -= 1;
            self.row.clear();
            let Loaded { rows: rows_read, faults, changes, .. } = &mut self.loaded;
            let (cells, line) = match self.reader.row() {
                Read::End => break,
                Read::Row(cells, line) => (cells, line),
                Read::OpenQuote(cells, line) => {
                    let accepted = "quotes in pairs";
                    faults.push(Fault::new(self.kind.name(), line, "", "a quote that is never closed", accepted));
                    (cells, line)
                }
            };
            self.row.write_row(cells);
            let row = self.row.row(0).at_line(line);
            if row.is_blank() {
                continue;
            }
            *rows_read += 1;
            let sheet = self.book.sheet_mut(self.kind);
            let tell = |change: &dyn Fn() -> CellChange| changes.push(change);
            self.touched.extend(sheet.lay(columns, row, self.shipping, faults, tell));
        }
        if self.read == 0 && left > 0 && self.kind == Kind::Tubes {
            self.book.tubes.reserve(self.touched.len());
        }
        while left > 0 && self.read < self.touched.len() {
            left -= 1;
            self.read_touched();
        }
        // Reading a row and making a tube of it take about the same time.
        let all = self.touched.len();
        0.5 * self.reader.done() + 0.5 * if all == 0 { 1.0 } else { self.read as f64 / all as f64 }
    }

    /// Checks that know the pins of the tubes which the file does not speak of.
    fn consistency(book: &Book) -> Consistency {
        let mut consistency = Consistency::default();
        for entry in book.tubes_sheet.entries().iter().filter(|entry| entry.touch == Touch::Not) {
            if let Some(tube) = entry.item().and_then(|at| book.tubes.get(at)) {
                consistency.learn(tube);
            }
        }
        consistency
    }

    /// Reads what the next entry of the file has become.
    fn read_touched(&mut self) {
        let Some(&at) = self.touched.get(self.read) else { return };
        self.read += 1;
        let (book, loaded) = (&mut self.book, &mut self.loaded);
        let mut advice = Vec::new();
        let sheet = match self.kind {
            Kind::Tubes => {
                let tube = read_tube(&self.tube_columns, book.tubes_sheet.rows_of(at), &mut loaded.faults);
                if let Some(tube) = &tube
                    && !self.shipping
                {
                    let checks = self.consistency.get_or_insert_with(|| Self::consistency(book));
                    checks.check(tube);
                    advice = std::mem::take(&mut checks.advice);
                }
                let entry = book.tubes_sheet.entry_mut(at);
                put(&mut book.tubes, entry, tube);
                &mut book.tubes_sheet
            }
            Kind::Names => {
                let row = book.names_sheet.rows_of(at).next();
                let name = row.and_then(|row| read_name(&self.name_columns, row, &mut loaded.faults));
                if let (Some(name), Some(row)) = (&name, row)
                    && book.tubes_sheet.item(&key(&name.of)).is_none()
                {
                    loaded.faults.push(Fault::new("names", row.line, "type", &name.of, "a type that is in tubes.csv"));
                }
                let entry = book.names_sheet.entry_mut(at);
                put(&mut book.names, entry, name);
                &mut book.names_sheet
            }
            Kind::Capacitors => {
                let sheet = &mut book.capacitors_sheet;
                let row = sheet.rows_of(at).next();
                let said = row.and_then(|row| parts::read_capacitors(sheet, row, &mut loaded.faults));
                put(&mut book.capacitors, sheet.entry_mut(at), said);
                sheet
            }
            Kind::Resistors => {
                let sheet = &mut book.resistors_sheet;
                let row = sheet.rows_of(at).next();
                let body = row.and_then(|row| parts::read_body(sheet, row, &mut loaded.faults));
                put(&mut book.bodies, sheet.entry_mut(at), body);
                sheet
            }
            Kind::Stock => {
                let sheet = &mut book.stock_sheet;
                let row = sheet.rows_of(at).next();
                let item = row.and_then(|row| stock::read_item(sheet, row, &mut loaded.faults));
                put(&mut book.stock, sheet.entry_mut(at), item);
                sheet
            }
        };
        // What cannot be read is no news; its fault has been told.
        let touch =
            sheet.entries().get(at).filter(|entry| entry.item().is_some()).map_or(Touch::Not, |entry| entry.touch);
        let told = match touch {
            Touch::New => Some(&mut loaded.new),
            Touch::Changed => Some(&mut loaded.changed),
            Touch::Kept => {
                loaded.kept += 1;
                None
            }
            Touch::Not => None,
        };
        let Some(told) = told else { return };
        told.push(|| sheet.name_of(at).to_owned());
        for advice in advice {
            loaded.advice.push(|| advice);
        }
    }

    /// The table the file is for.
    pub fn table(&self) -> &'static str {
        self.kind.name()
    }

    /// What loading the file does; what is left to do for that is done first.
    pub fn loaded(&mut self) -> &Loaded {
        self.complete();
        &self.loaded
    }

    fn complete(&mut self) {
        while self.step(usize::MAX) < 1.0 {}
    }

    /// The same file anew over another book.
    pub(super) fn again(self, book: Book) -> Self {
        Self::begin(book, self.kind, self.reader.into_text(), self.shipping)
    }

    /// The book as it is with the file, and what was done.
    pub(super) fn finish(mut self) -> (Book, Loaded) {
        self.complete();
        (self.book, self.loaded)
    }
}

/// Puts what was read of an entry in its place. Where nothing could be read, what was read before stays until the row is mended.
fn put<T>(items: &mut Vec<T>, entry: Option<&mut Entry>, read: Option<T>) {
    let (Some(entry), Some(item)) = (entry, read) else { return };
    if let Some(slot) = entry.item().and_then(|at| items.get_mut(at)) {
        *slot = item;
    } else {
        entry.set_item(items.len());
        items.push(item);
    }
}
