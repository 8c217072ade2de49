//! One table of the book: the shipped rows, and apart from them the user's rows that are laid over them.
//!
//! Rows are told apart by type and first unit (or by name). A row of the user is whole: where his file has few columns, the others are taken
//! from the row it is laid over. So it says the same tomorrow, when an update brings another shipped row, and both can be shown. A row that
//! says what the shipped one says is not kept as the user's, and follows the updates.

use std::collections::HashMap;

use super::cells::{self, unguarded};
use super::fault::{Fault, Faults};
use super::names::push_key;
use super::pins::MOST_UNITS;
use super::read::UNITS;
use super::rows::{Row, Rows};
use super::tube::figure_of;

/// The most columns of a table.
pub const MOST_COLUMNS: usize = 500;
/// No row, no item.
const NONE: u32 = u32::MAX;

/// Which table: what it is called and how its rows are told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The tubes: several rows to a type, told apart by `unit`.
    Tubes,
    /// Their other names.
    Names,
}

impl Kind {
    /// The table of this name.
    pub fn read(name: &str) -> Option<Self> {
        [Self::Tubes, Self::Names].into_iter().find(|kind| kind.name() == name)
    }

    /// "tubes", "names".
    pub fn name(self) -> &'static str {
        if self == Self::Tubes { "tubes" } else { "names" }
    }

    /// The column whose cells are looked up.
    pub fn key(self) -> &'static str {
        if self == Self::Tubes { "type" } else { "name" }
    }
}

/// One table of the book.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// What it holds.
    pub kind: Kind,
    header: Vec<String>,
    /// Whether each column holds numbers.
    numbers: Vec<bool>,
    shipped: Rows,
    own: Rows,
    /// Every row, in the order of the files.
    places: Vec<Place>,
    entries: Vec<Entry>,
    index: HashMap<String, u32>,
    /// Rows of units that cannot be, by entry and unit.
    odd: HashMap<(u32, String), u32>,
    /// The row that is being put together.
    merged: Rows,
}

/// Where a row stands.
#[derive(Debug, Clone, Copy)]
struct Place {
    shipped: Option<u32>,
    own: Option<u32>,
    /// Line in the file that is being laid over; 0 when the row is not from it.
    line: u32,
}

/// All rows of a key, and what was read from them.
#[derive(Debug, Clone, Copy)]
pub struct Entry {
    rows: [u32; MOST_UNITS],
    /// Place of what was read from the rows.
    item: u32,
    /// What the file that is being laid over does to it.
    pub touch: Touch,
}

/// What a file does to an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touch {
    /// Not in the file.
    Not,
    /// As it was.
    Kept,
    /// Some cell differs.
    Changed,
    /// Not in the book before.
    New,
}

/// A cell that a file changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CellChange {
    /// The type or name.
    pub name: String,
    /// The unit, as the book writes it; empty in a table without units.
    pub unit: String,
    /// The column.
    pub column: String,
    /// What the book says.
    pub old: String,
    /// What the file says.
    pub new: String,
}

impl Entry {
    /// Place of what was read from its rows.
    pub fn item(&self) -> Option<usize> {
        (self.item != NONE).then_some(self.item as usize)
    }

    /// Sets it.
    pub fn set_item(&mut self, item: Option<usize>) {
        self.item = item.map_or(NONE, |item| item as u32);
    }
}

/// Which column of a file goes where.
#[derive(Debug, Clone, Default)]
pub struct Columns {
    /// For each column of the table that of the file.
    from: Vec<Option<usize>>,
    key: Option<usize>,
    unit: Option<usize>,
    /// Columns of the file's header.
    count: usize,
}

impl Sheet {
    /// An empty table.
    pub fn new(kind: Kind) -> Self {
        Self {
            kind,
            header: Vec::new(),
            numbers: Vec::new(),
            shipped: Rows::default(),
            own: Rows::default(),
            places: Vec::new(),
            entries: Vec::new(),
            index: HashMap::new(),
            odd: HashMap::new(),
            merged: Rows::default(),
        }
    }

    /// The column's place.
    pub fn column(&self, name: &str) -> Option<usize> {
        self.header.iter().position(|column| column == name)
    }

    /// The columns.
    pub fn header(&self) -> &[String] {
        &self.header
    }

    /// The entry of a key.
    pub fn find(&self, key: &str) -> Option<usize> {
        self.index.get(key).map(|&at| at as usize)
    }

    /// An entry.
    pub fn entry_mut(&mut self, at: usize) -> Option<&mut Entry> {
        self.entries.get_mut(at)
    }

    /// All entries.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// All entries.
    pub fn entries_mut(&mut self) -> &mut [Entry] {
        &mut self.entries
    }

    /// The item that was read from the rows of a key.
    pub fn item(&self, key: &str) -> Option<usize> {
        self.entries.get(self.find(key)?)?.item()
    }

    /// The rows of an entry that speak of possible units, by their first unit.
    pub fn rows_of(&self, entry: usize) -> impl Iterator<Item = Row<'_>> {
        self.places_of(entry).filter_map(|place| self.row(*self.places.get(place)?))
    }

    /// The same rows as they are, and as they were shipped when that differs; `None` for a row that is the user's alone.
    pub fn both_rows_of(&self, entry: usize) -> impl Iterator<Item = (Row<'_>, Option<Row<'_>>)> {
        self.places_of(entry).filter_map(|place| {
            let place = *self.places.get(place)?;
            Some((self.row(place)?, place.shipped.map(|at| self.shipped.row(at))))
        })
    }

    fn places_of(&self, entry: usize) -> impl Iterator<Item = usize> {
        let rows = self.entries.get(entry).map_or([NONE; MOST_UNITS], |entry| entry.rows);
        rows.into_iter().filter(|&row| row != NONE).map(|row| row as usize)
    }

    fn row(&self, place: Place) -> Option<Row<'_>> {
        let row = match (place.own, place.shipped) {
            (Some(at), _) => self.own.row(at),
            (None, Some(at)) => self.shipped.row(at),
            (None, None) => return None,
        };
        Some(row.at_line(place.line))
    }

    /// The type or name as the table writes it.
    pub fn name_of(&self, entry: usize) -> &str {
        self.rows_of(entry).next().and_then(|row| row.cell(self.column(self.kind.key()))).unwrap_or("")
    }

    /// Makes ready for a file with this header: columns the table does not know are added. Rows from before have no line any more.
    pub fn begin(&mut self, header: Row<'_>, faults: &mut Faults) -> Option<Columns> {
        let names: Vec<&str> = (0..header.len()).map(|at| unguarded(header.text(at), false).trim()).collect();
        let required = self.kind.key();
        if names.len() > MOST_COLUMNS {
            let accepted = format!("at most {MOST_COLUMNS} columns");
            faults.push(Fault::new(self.kind.name(), 1, "", &format!("{} columns", names.len()), accepted));
            return None;
        }
        if !names.contains(&required) {
            let accepted = format!("a column named `{required}`");
            faults.push(Fault::new(self.kind.name(), 1, required, &names.join(","), accepted));
            return None;
        }
        let mut columns = Columns { count: names.len(), ..Columns::default() };
        for (at, name) in names.iter().enumerate() {
            let place = self.column(name).unwrap_or_else(|| {
                self.header.push((*name).to_owned());
                self.numbers.push(figure_of(name).is_some());
                self.header.len() - 1
            });
            columns.from.resize(self.header.len().max(columns.from.len()), None);
            match columns.from.get_mut(place) {
                Some(slot @ None) => *slot = Some(at),
                _ => {
                    let accepted = "each column once; the first is read";
                    faults.push(Fault::new(self.kind.name(), 1, name, "the column twice", accepted));
                }
            }
        }
        columns.key = self.column(required);
        columns.unit = if self.kind == Kind::Tubes { self.column("unit") } else { None };
        for place in &mut self.places {
            place.line = 0;
        }
        for entry in &mut self.entries {
            entry.touch = Touch::Not;
        }
        Some(columns)
    }

    /// Lays a row of a file over the table; the entry it belongs to when that is met for the first time in this file. `change` is told of
    /// each cell that changes.
    pub fn lay(
        &mut self,
        columns: &Columns,
        row: Row<'_>,
        shipping: bool,
        faults: &mut Faults,
        mut change: impl FnMut(&dyn Fn() -> CellChange),
    ) -> Option<usize> {
        if row.len() > columns.count {
            let accepted = format!("{} cells, as the header has", columns.count);
            faults.push(Fault::new(self.kind.name(), row.line, "", &format!("{} cells", row.len()), accepted));
        }
        let file_cell = |column: usize| {
            let at = *columns.from.get(column)?.as_ref()?;
            let number = self.numbers.get(column).copied().unwrap_or(false);
            Some(unguarded(row.text(at), number))
        };
        let name = columns.key.and_then(file_cell).unwrap_or("").trim();
        let unit = columns.unit.and_then(file_cell).unwrap_or("").trim();
        let mut key = String::with_capacity(16);
        push_key(name, &mut key);
        if key.is_empty() {
            let accepted = if self.kind == Kind::Tubes {
                "a tube designation, such as 12SK7"
            } else {
                "a name and the `type` it points at"
            };
            faults.push(Fault::new(self.kind.name(), row.line, self.kind.key(), name, accepted));
            return None;
        }
        let at = self.index.get(&key).copied();
        let unit = first_unit(unit);
        let place = at.and_then(|at| match unit {
            Ok(unit) => self.entries.get(at as usize)?.rows.get(unit).copied().filter(|&place| place != NONE),
            Err(text) => self.odd.get(&(at, text.to_owned())).copied(),
        });
        let place = place.map(|place| place as usize);
        let old = place.and_then(|place| self.places.get(place)).copied();
        if old.is_some_and(|old| old.line > 0) {
            let found = match unit {
                _ if self.kind == Kind::Names => name.to_owned(),
                Ok(unit) => format!("{name}, {}", unit + 1),
                Err(unit) => format!("{name}, {unit}"),
            };
            let accepted = "each only once; the first row stands";
            faults.push(Fault::new(self.kind.name(), row.line, self.kind.key(), &found, accepted));
            return None;
        }
        let mut changed = false;
        let mut merged = std::mem::take(&mut self.merged);
        merged.clear();
        let old_row = old.and_then(|old| self.row(old));
        for column in 0..self.header.len() {
            let before = old_row.map_or("", |row| row.text(column));
            let number = self.numbers.get(column) == Some(&true);
            // What tells rows apart stays as this table writes it.
            let keyed = old.is_some() && (Some(column) == columns.key || Some(column) == columns.unit);
            match file_cell(column) {
                Some(cell) if old.is_none() || !keyed && !same(before, cell, number) => {
                    changed = true;
                    merged.push_cell(cell);
                    if at.is_some() && !cell.trim().is_empty() | old.is_some() {
                        change(&|| CellChange {
                            name: old_row.and_then(|row| row.cell(columns.key)).unwrap_or(name).to_owned(),
                            unit: old_row
                                .and_then(|row| row.cell(columns.unit))
                                .or_else(|| file_cell(columns.unit?))
                                .unwrap_or("")
                                .to_owned(),
                            column: self.header.get(column).cloned().unwrap_or_default(),
                            old: before.to_owned(),
                            new: cell.to_owned(),
                        });
                    }
                }
                _ => merged.push_cell(before),
            }
        }
        merged.end_row();
        let whole = merged.row(0);
        let shipped = old.and_then(|old| old.shipped);
        let stored = if shipping {
            Place { shipped: Some(self.shipped.push_row(whole)), own: None, line: row.line }
        } else if shipped.is_some_and(|at| self.alike(self.shipped.row(at), whole)) {
            Place { shipped, own: None, line: row.line }
        } else if let (Some(old), false) = (old, changed) {
            Place { line: row.line, ..old }
        } else {
            Place { shipped, own: Some(self.own.push_row(whole)), line: row.line }
        };
        self.merged = merged;
        let entry = at.unwrap_or_else(|| {
            self.entries.push(Entry { rows: [NONE; MOST_UNITS], item: NONE, touch: Touch::Not });
            let at = self.entries.len() as u32 - 1;
            self.index.insert(key, at);
            at
        });
        if let Some(slot) = place.and_then(|place| self.places.get_mut(place)) {
            *slot = stored;
        } else {
            let place = self.places.len() as u32;
            self.places.push(stored);
            match (unit, self.entries.get_mut(entry as usize)) {
                (Ok(unit), Some(entry)) => entry.rows[unit] = place,
                (Err(text), _) => {
                    faults.push(Fault::new(self.kind.name(), row.line, "unit", text, UNITS));
                    self.odd.insert((entry, text.to_owned()), place);
                }
                _ => {}
            }
        }
        let slot = self.entries.get_mut(entry as usize)?;
        let first = slot.touch == Touch::Not;
        let touch = match (at, changed) {
            (None, _) => Touch::New,
            (_, true) => Touch::Changed,
            _ => Touch::Kept,
        };
        slot.touch = slot.touch.max(touch);
        first.then_some(entry as usize)
    }

    fn alike(&self, one: Row<'_>, other: Row<'_>) -> bool {
        self.numbers.iter().enumerate().all(|(column, &number)| same(one.text(column), other.text(column), number))
    }

    /// The table as CSV for a spreadsheet, with every row and column it was loaded with, or the user's rows alone.
    pub fn write(&self, own_alone: bool) -> String {
        let mut out = String::new();
        let mut line = |row: &mut dyn Iterator<Item = (&str, bool)>| {
            let mut first = true;
            for (cell, number) in row {
                if !std::mem::take(&mut first) {
                    out.push(',');
                }
                cells::write(&mut out, cell, number);
            }
            out.push('\n');
        };
        line(&mut self.header.iter().map(|column| (column.as_str(), false)));
        for &place in self.places.iter().filter(|place| place.own.is_some() || !own_alone) {
            if let Some(row) = self.row(place) {
                line(&mut self.numbers.iter().enumerate().map(|(column, &number)| (row.text(column), number)));
            }
        }
        // Spreadsheets take text without this mark for one of their own character sets.
        if !out.is_ascii() {
            out.insert(0, '\u{feff}');
        }
        out
    }

    /// Gives back the memory of rows of the user that others have taken the place of.
    pub fn tidy(&mut self) {
        let used = self.places.iter().filter(|place| place.own.is_some()).count();
        if self.own.len() > 2 * used + 100 {
            let mut own = Rows::default();
            for at in self.places.iter_mut().filter_map(|place| place.own.as_mut()) {
                *at = own.push_row(self.own.row(*at));
            }
            self.own = own;
        }
    }
}

/// Whether two cells say the same: a spreadsheet writes 3 for 3.0.
fn same(before: &str, now: &str, number: bool) -> bool {
    let (before, now) = (before.trim(), now.trim());
    before == now || number && matches!((before.parse::<f64>(), now.parse::<f64>()), (Ok(a), Ok(b)) if a == b)
}

/// The first unit a row speaks of, counted from 0: of `1-2` the first, and an empty cell means that too. Else the text.
fn first_unit(text: &str) -> Result<usize, &str> {
    let first = text.split('-').next().unwrap_or(text).trim();
    match first.parse::<usize>() {
        _ if first.is_empty() => Ok(0),
        Ok(unit) if (1..=MOST_UNITS).contains(&unit) => Ok(unit - 1),
        _ => Err(text),
    }
}
