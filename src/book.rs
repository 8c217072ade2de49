//! The parts book: what the shipped CSV files and the user's own say, as typed rows that are quick to look up.
//!
//! Reading never fails whole: it gives what could be read and a list of faults. A cell that cannot be read is a fault and counts
//! as not known; an empty cell is not known and no fault. Export gives back every row and column, known or not.

pub mod designation;
mod fault;
mod names;
pub mod pins;
mod table;
mod tube;

use std::collections::HashMap;

pub use fault::Fault;
pub use names::{Name, Relation, key, slips};
pub use table::{Faults, Table};
pub use tube::{
    Base, BulbFigures, CutOff, Envelope, FoundToday, Function, HeaterKind, Tube, Unit, UnitFigures, WarmUp,
};

const SHIPPED_TUBES: &str = include_str!("../data/tubes.csv");
const SHIPPED_NAMES: &str = include_str!("../data/names.csv");

/// What loading a table did.
#[derive(Debug, Clone, Default)]
pub struct Loaded {
    /// Rows read.
    pub rows: usize,
    /// Types or names that were not in the book before.
    pub new: Vec<String>,
    /// Types or names that were and are now as the file has them.
    pub changed: Vec<String>,
    /// What was wrong.
    pub faults: Faults,
}

/// The book.
#[derive(Debug, Clone, Default)]
pub struct Book {
    tubes_table: Table,
    names_table: Table,
    tubes: Vec<Tube>,
    names: Vec<Name>,
    /// Key of every designation to the tube's place.
    index: HashMap<String, usize>,
    /// Key of every other name to its place in `names`.
    aliases: HashMap<String, usize>,
    /// Keys of `tubes` and of `names`, in their order.
    keys: Vec<String>,
    name_keys: Vec<String>,
    /// Keys of the types that `names` point at, in their order.
    name_of_keys: Vec<String>,
}

/// A designation found.
#[derive(Debug, Clone, Copy)]
pub struct Found<'b> {
    /// The tube.
    pub tube: &'b Tube,
    /// Its place in the book, which tells tubes apart.
    pub place: usize,
    /// The name it was found under, when that is not the type's own.
    pub name: Option<&'b Name>,
}

impl Book {
    /// The book that comes with the program.
    pub fn shipped() -> Self {
        let mut book = Self::default();
        book.load("tubes", SHIPPED_TUBES);
        book.load("names", SHIPPED_NAMES);
        book
    }

    /// Lays a CSV file over the book: rows of a type that is here already replace the cells of the columns the file has, other rows are
    /// added. `table` is `tubes` or `names`; `None` for any other.
    pub fn load(&mut self, table: &str, csv: &str) -> Option<Loaded> {
        let mut loaded = Loaded::default();
        match table {
            "tubes" => {
                if let Some(new) = Table::read("tubes", csv, "type", &mut loaded.faults) {
                    self.load_tubes(&new, &mut loaded);
                }
            }
            "names" => {
                if let Some(new) = Table::read("names", csv, "name", &mut loaded.faults) {
                    self.load_names(&new, &mut loaded);
                }
            }
            _ => return None,
        }
        Some(loaded)
    }

    fn load_tubes(&mut self, new: &Table, loaded: &mut Loaded) {
        loaded.rows = new.len();
        loaded.faults.of_this_file = true;
        self.tubes_table.lay_over("tubes", new, &["type", "unit"], &mut loaded.faults);
        let tubes = tube::read_tubes(&self.tubes_table, &mut loaded.faults);
        for tube in &tubes {
            match self.index.get(&key(&tube.name)).and_then(|&at| self.tubes.get(at)) {
                None => loaded.new.push(tube.name.clone()),
                Some(old) if old != tube => loaded.changed.push(tube.name.clone()),
                Some(_) => {}
            }
        }
        self.tubes = tubes;
        self.keys = self.tubes.iter().map(|tube| key(&tube.name)).collect();
        self.index = self.keys.iter().cloned().zip(0..).collect();
        self.index_names();
    }

    fn load_names(&mut self, new: &Table, loaded: &mut Loaded) {
        loaded.rows = new.len();
        loaded.faults.of_this_file = true;
        self.names_table.lay_over("names", new, &["name"], &mut loaded.faults);
        let names = names::read_names(&self.names_table, &mut loaded.faults);
        for name in &names {
            match self.aliases.get(&key(&name.name)).and_then(|&at| self.names.get(at)) {
                None => loaded.new.push(name.name.clone()),
                Some(old) if old.of != name.of => loaded.changed.push(name.name.clone()),
                Some(_) => {}
            }
            if !self.index.contains_key(&key(&name.of)) {
                loaded.faults.push(Fault::new("names", name.line, "type", &name.of, "a type that is in tubes.csv"));
            }
        }
        self.names = names;
        self.index_names();
    }

    fn index_names(&mut self) {
        self.name_keys = self.names.iter().map(|name| key(&name.name)).collect();
        self.name_of_keys = self.names.iter().map(|name| key(&name.of)).collect();
        self.aliases = self.name_keys.iter().cloned().zip(0..).collect();
    }

    /// The table as CSV, with every row and column it was loaded with; `None` for a table the book does not have.
    pub fn export(&self, table: &str) -> Option<String> {
        match table {
            "tubes" => Some(self.tubes_table.write()),
            "names" => Some(self.names_table.write()),
            _ => None,
        }
    }

    /// Every tube.
    pub fn tubes(&self) -> &[Tube] {
        &self.tubes
    }

    /// Every other name.
    pub fn names(&self) -> &[Name] {
        &self.names
    }

    /// Finds a designation as typed. `Err` gives near names, the nearest first.
    pub fn find(&self, typed: &str) -> Result<Found<'_>, Vec<String>> {
        for key in names::keys(typed) {
            if let Some(found) = self.find_key(&key) {
                return Ok(found);
            }
        }
        Err(self.near(typed, 3))
    }

    fn find_key(&self, wanted: &str) -> Option<Found<'_>> {
        if let Some(&place) = self.index.get(wanted) {
            return Some(Found { tube: self.tubes.get(place)?, place, name: None });
        }
        let name = self.names.get(*self.aliases.get(wanted)?)?;
        let place = *self.index.get(&key(&name.of))?;
        Some(Found { tube: self.tubes.get(place)?, place, name: Some(name) })
    }

    /// Names near to what was typed.
    pub fn near(&self, typed: &str, limit: usize) -> Vec<String> {
        let types = self.keys.iter().zip(&self.tubes);
        let types = types.map(|(key, tube)| (key.as_str(), tube.name.as_str(), tube.found_today));
        let others = self.name_keys.iter().zip(&self.names).map(|(key, name)| (key.as_str(), name.name.as_str(), None));
        names::near(typed, types.chain(others), limit)
    }

    /// Other names of a type, in the book's order.
    pub fn names_of(&self, tube: &Tube) -> impl Iterator<Item = &Name> {
        let wanted = key(&tube.name);
        self.names.iter().zip(&self.name_of_keys).filter(move |(_, of)| **of == wanted).map(|(name, _)| name)
    }
}
