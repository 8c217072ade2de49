//! One table of the book: the shipped rows, and apart from them the user's rows that are laid over them.
//!
//! Rows are told apart by type and first unit (or by name). A row of the user is whole: where his file has few columns, the others are taken
//! from the row it is laid over. So it says the same tomorrow, when an update brings another shipped row, and both can be shown. A row that
//! says what the shipped one says is not kept as the user's, and follows the updates.

use std::collections::HashMap;

use super::cells;
use super::names::key;
use super::parts::NUMBERS;
use super::pins::MOST_UNITS;
use super::rows::{Row, Rows};
use super::stock::{COLUMNS, row_key};

mod lay;

pub use lay::Columns;

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
    /// Capacitors that are sold.
    Capacitors,
    /// Resistors that are sold.
    Resistors,
    /// What the user has: told apart by marking and `place`.
    Stock,
}

impl Kind {
    const ALL: [Self; 5] = [Self::Tubes, Self::Names, Self::Capacitors, Self::Resistors, Self::Stock];

    /// The table of this name.
    pub fn read(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// The table a file is for, by a column that only this table has.
    pub fn of(csv: &str) -> Self {
        let mut reader = cells::Reader::new(cells::first_line(csv).to_owned());
        let (cells::Read::Row(cells, _) | cells::Read::OpenQuote(cells, _)) = reader.row() else { return Self::Tubes };
        let has = |wanted: &str| cells.iter().any(|cell| cell.trim() == wanted);
        match (has(Self::Names.key()), has(Self::Capacitors.key()), has("working_v") || has("watts")) {
            (true, ..) => Self::Names,
            (_, true, false) => Self::Capacitors,
            (_, true, true) => Self::Resistors,
            // A parts list has markings too.
            _ if has(Self::Stock.key()) && !has("reference") => Self::Stock,
            _ => Self::Tubes,
        }
    }

    /// "tubes", "names", "capacitors", "resistors", "stock".
    pub fn name(self) -> &'static str {
        ["tubes", "names", "capacitors", "resistors", "stock"][self as usize]
    }

    /// The column whose cells are looked up.
    pub fn key(self) -> &'static str {
        ["type", "name", "part", "part", "marking"][self as usize]
    }

    /// The further column that tells its rows apart.
    fn part(self) -> Option<&'static str> {
        match self {
            Self::Tubes => Some("unit"),
            Self::Stock => Some("place"),
            _ => None,
        }
    }

    /// Under what a name is looked up, as it was typed; of a row in stock marking and place with a tab between.
    pub fn key_of(self, name: &str) -> String {
        match self {
            Self::Stock => {
                let (marking, place) = name.split_once('\t').unwrap_or((name, ""));
                row_key(marking, place)
            }
            _ => key(name),
        }
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
    odd: HashMap<String, u32>,
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

/// A row as it is, and as it was shipped.
#[derive(Debug, Clone, Copy)]
pub struct BothRows<'s> {
    /// As it is.
    pub now: Row<'s>,
    /// As it was shipped; `None` when it was not.
    pub shipped: Option<Row<'s>>,
    /// Whether it is the user's.
    pub own: bool,
}

/// A cell that a file changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CellChange {
    /// The type or name.
    pub name: String,
    /// The unit, as the book writes it, or where a part in stock lies; empty in a table without such a column.
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
    pub fn set_item(&mut self, item: usize) {
        self.item = item as u32;
    }
}

impl Sheet {
    /// An empty table.
    pub fn new(kind: Kind) -> Self {
        // Of the stock nothing is shipped that would bring the columns.
        let known: &[_] = if kind == Kind::Stock { &COLUMNS } else { &[] };
        Self {
            kind,
            header: known.iter().map(|column| column.0.to_owned()).collect(),
            numbers: known.iter().map(|column| NUMBERS.contains(&column.0)).collect(),
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

    /// The item that was read from the rows of a key.
    pub fn item(&self, key: &str) -> Option<usize> {
        self.entries.get(self.find(key)?)?.item()
    }

    /// The rows of an entry that speak of possible units, by their first unit.
    pub fn rows_of(&self, entry: usize) -> impl Iterator<Item = Row<'_>> {
        self.places_of(entry).filter_map(|place| self.row(*self.places.get(place)?))
    }

    /// The same rows with what was shipped.
    pub fn both_rows_of(&self, entry: usize) -> impl Iterator<Item = BothRows<'_>> {
        self.places_of(entry).filter_map(|place| {
            let place = *self.places.get(place)?;
            let shipped = place.shipped.map(|at| self.shipped.row(at));
            Some(BothRows { now: self.row(place)?, shipped, own: place.own.is_some() })
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

    /// The type or name as the table writes it; of a row in stock the marking.
    pub fn name_of(&self, entry: usize) -> &str {
        self.rows_of(entry).next().and_then(|row| row.cell(self.column(self.kind.key()))).unwrap_or("")
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

    /// Entries with rows of the user, with those rows.
    pub fn own(&self) -> impl Iterator<Item = (usize, Vec<Row<'_>>)> {
        (0..self.entries.len()).filter_map(|entry| {
            let own = |place: usize| self.places.get(place).and_then(|place| place.own).map(|at| self.own.row(at));
            let rows: Vec<Row<'_>> = self.places_of(entry).filter_map(own).collect();
            (!rows.is_empty()).then_some((entry, rows))
        })
    }

    /// Takes the user's rows of an entry away; whether shipped ones are left.
    pub fn forget(&mut self, entry: usize) -> bool {
        let odd = format!("{entry} ");
        let odd = self.odd.iter().filter(|(key, _)| key.starts_with(&odd)).map(|(_, &place)| place as usize);
        let all: Vec<usize> = self.places_of(entry).chain(odd).collect();
        let mut left = false;
        for place in all {
            if let Some(place) = self.places.get_mut(place) {
                place.own = None;
                left |= place.shipped.is_some();
            }
        }
        if !left {
            self.index.retain(|_, at| *at as usize != entry);
            if let Some(entry) = self.entries.get_mut(entry) {
                entry.rows = [NONE; MOST_UNITS];
            }
        }
        left
    }

    /// What was read from an entry is gone from its place, and what stood behind it has moved up.
    pub fn drop_item(&mut self, gone: usize) {
        for entry in &mut self.entries {
            entry.item = match entry.item() {
                Some(at) if at == gone => NONE,
                Some(at) if at > gone => entry.item - 1,
                _ => entry.item,
            };
        }
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
