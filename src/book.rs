//! The parts book: what the shipped CSV files and the user's own say, as typed rows that are quick to look up.
//!
//! Reading never fails whole: it gives what could be read and a list of faults. A cell that cannot be read is a fault and counts
//! as not known; an empty cell is not known and no fault. Export gives back every row and column, known or not.

pub(crate) mod cells;
pub mod consistency;
pub mod designation;
mod fault;
mod load;
mod names;
mod parts;
pub mod pins;
mod read;
mod rows;
mod sheet;
mod stock;
mod tube;

use crate::on_sale::{Body, Capacitors, OnSale};
pub use consistency::Advice;
use consistency::Consistency;
pub use fault::{Fault, Faults};
pub use load::{Loaded, Loading, Told};
pub use names::{Name, Relation, fit, key, slips};
pub use read::TEXT as TEXT_COLUMNS;
pub use rows::Row;
pub use sheet::{BothRows, CellChange};
use sheet::{Kind, Sheet};
pub use stock::{COLUMNS as STOCK_COLUMNS, StockItem};
pub use tube::{
    Base, BulbFigures, CutOff, Envelope, FoundToday, Function, HeaterKind, Tube, Unit, UnitFigures, WarmUp, figure_of,
};

const SHIPPED_TUBES: &str = include_str!("../data/tubes.csv");
const SHIPPED_NAMES: &str = include_str!("../data/names.csv");
const SHIPPED_CAPACITORS: &str = include_str!("../data/capacitors.csv");
const SHIPPED_RESISTORS: &str = include_str!("../data/resistors.csv");

/// The book.
#[derive(Debug, Clone)]
pub struct Book {
    tubes_sheet: Sheet,
    names_sheet: Sheet,
    tubes: Vec<Tube>,
    names: Vec<Name>,
    capacitors_sheet: Sheet,
    resistors_sheet: Sheet,
    capacitors: Vec<Capacitors>,
    bodies: Vec<Body>,
    stock_sheet: Sheet,
    stock: Vec<StockItem>,
    /// Counts what was laid over it, so that a file on its way in notices another one before it.
    laid: u32,
}

impl Default for Book {
    /// An empty book.
    fn default() -> Self {
        Self {
            tubes_sheet: Sheet::new(Kind::Tubes),
            names_sheet: Sheet::new(Kind::Names),
            tubes: Vec::new(),
            names: Vec::new(),
            capacitors_sheet: Sheet::new(Kind::Capacitors),
            resistors_sheet: Sheet::new(Kind::Resistors),
            capacitors: Vec::new(),
            bodies: Vec::new(),
            stock_sheet: Sheet::new(Kind::Stock),
            stock: Vec::new(),
            laid: 0,
        }
    }
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
        [
            (Kind::Tubes, SHIPPED_TUBES),
            (Kind::Names, SHIPPED_NAMES),
            (Kind::Capacitors, SHIPPED_CAPACITORS),
            (Kind::Resistors, SHIPPED_RESISTORS),
        ]
        .into_iter()
        .fold(Self::default(), |book, (kind, csv)| Loading::begin(book, kind, csv.to_owned(), true).finish().0)
    }

    /// Lays a CSV file over the book: rows that are here already get the cells of the columns the file has, other rows are added.
    /// `table` is `tubes`, `names`, `capacitors`, `resistors` or `stock`, or empty when the file's columns are to tell; `None` for any other.
    pub fn load(&mut self, table: &str, csv: &str) -> Option<Loaded> {
        let loading = self.begin_load(table, csv.to_owned())?;
        Some(self.finish_load(loading))
    }

    /// Begins to lay a CSV file over a copy of the book; `Loading::step` goes on with it and `finish_load` puts it in place.
    pub fn begin_load(&self, table: &str, csv: String) -> Option<Loading> {
        let kind = if table.is_empty() { Kind::of(&csv) } else { Kind::read(table)? };
        Some(Loading::begin(self.clone(), kind, csv, false))
    }

    /// Puts a file in place, finishing what is left to do. Where another file was laid over the book meanwhile, it is laid over that.
    pub fn finish_load(&mut self, mut loading: Loading) -> Loaded {
        if loading.book.laid != self.laid {
            loading = loading.again(self.clone());
        }
        let laid = self.laid.wrapping_add(1);
        let (book, loaded) = loading.finish();
        *self = Self { laid, ..book };
        loaded
    }

    /// Takes the user's rows of a type or name out of a table, so that what was shipped stands again; of the stock the row whose key it is
    /// (`StockItem::key`). `None` when he has none there.
    pub fn forget(&mut self, table: &str, name: &str) -> Option<()> {
        let kind = Kind::read(table)?;
        let sheet = self.sheet_mut(kind);
        let entry = sheet.find(&kind.key_of(name))?;
        sheet.own().find(|(own, _)| *own == entry)?;
        let left = sheet.forget(entry);
        let item = sheet.entry_mut(entry)?.item();
        self.laid = self.laid.wrapping_add(1);
        let faults = &mut Faults::default();
        match kind {
            Kind::Tubes => {
                let columns = read::Columns::of(&self.tubes_sheet);
                let tube = read::read_tube(&columns, self.tubes_sheet.rows_of(entry), faults).filter(|_| left);
                renew(&mut self.tubes, &mut self.tubes_sheet, item, tube);
            }
            Kind::Names => {
                let columns = names::Columns::of(&self.names_sheet);
                let row = self.names_sheet.rows_of(entry).next();
                let name = row.and_then(|row| names::read_name(&columns, row, faults)).filter(|_| left);
                renew(&mut self.names, &mut self.names_sheet, item, name);
            }
            Kind::Capacitors => {
                let sheet = &mut self.capacitors_sheet;
                let row = sheet.rows_of(entry).next();
                let said = row.and_then(|row| parts::read_capacitors(sheet, row, faults)).filter(|_| left);
                renew(&mut self.capacitors, sheet, item, said);
            }
            Kind::Resistors => {
                let sheet = &mut self.resistors_sheet;
                let row = sheet.rows_of(entry).next();
                let body = row.and_then(|row| parts::read_body(sheet, row, faults)).filter(|_| left);
                renew(&mut self.bodies, sheet, item, body);
            }
            Kind::Stock => renew(&mut self.stock, &mut self.stock_sheet, item, None),
        }
        Some(())
    }

    /// The user's types (with the units of his rows), names (with the types they point at), parts (with what they are made of or for), or
    /// markings in stock (with where they lie).
    pub fn own(&self, table: &str) -> Vec<(&str, String)> {
        let (sheet, beside) = match Kind::read(table) {
            Some(Kind::Tubes) => (&self.tubes_sheet, "unit"),
            Some(Kind::Names) => (&self.names_sheet, "type"),
            Some(Kind::Capacitors) => (&self.capacitors_sheet, "series"),
            Some(Kind::Resistors) => (&self.resistors_sheet, "construction"),
            Some(Kind::Stock) => (&self.stock_sheet, "place"),
            None => return Vec::new(),
        };
        let beside = sheet.column(beside);
        let says = |rows: Vec<Row<'_>>| rows.iter().filter_map(|row| row.cell(beside)).collect::<Vec<_>>().join(", ");
        sheet.own().map(|(entry, rows)| (sheet.name_of(entry), says(rows))).collect()
    }

    fn sheet_mut(&mut self, kind: Kind) -> &mut Sheet {
        match kind {
            Kind::Tubes => &mut self.tubes_sheet,
            Kind::Names => &mut self.names_sheet,
            Kind::Capacitors => &mut self.capacitors_sheet,
            Kind::Resistors => &mut self.resistors_sheet,
            Kind::Stock => &mut self.stock_sheet,
        }
    }

    /// A table as CSV, with every row and column it was loaded with: `tubes`, `names`, `capacitors`, `resistors`, `stock`; the user's rows alone:
    /// `own_tubes` and so on.
    /// `None` for any other.
    pub fn export(&self, table: &str) -> Option<String> {
        let own = table.strip_prefix("own_");
        let sheet = match Kind::read(own.unwrap_or(table))? {
            Kind::Tubes => &self.tubes_sheet,
            Kind::Names => &self.names_sheet,
            Kind::Capacitors => &self.capacitors_sheet,
            Kind::Resistors => &self.resistors_sheet,
            Kind::Stock => &self.stock_sheet,
        };
        Some(sheet.write(own.is_some()))
    }

    /// What is sold, by the tables of capacitors and resistors; what is built in where they say nothing.
    pub fn on_sale(&self) -> OnSale {
        OnSale::with(&self.capacitors, &self.bodies)
    }

    /// Every tube.
    pub fn tubes(&self) -> &[Tube] {
        &self.tubes
    }

    /// What does not agree in the whole book.
    pub fn consistency(&self) -> Vec<Advice> {
        let mut consistency = Consistency::default();
        for tube in &self.tubes {
            consistency.check(tube);
        }
        consistency.advice
    }

    /// Every other name.
    pub fn names(&self) -> &[Name] {
        &self.names
    }

    /// Finds a designation as typed. `Err` gives near names, the nearest first.
    pub fn find(&self, typed: &str) -> Result<Found<'_>, Vec<String>> {
        self.look_up(typed).ok_or_else(|| self.near(typed, 3))
    }

    /// Finds a designation as typed, in a moment; near names take longer.
    pub fn look_up(&self, typed: &str) -> Option<Found<'_>> {
        names::keys(typed).iter().find_map(|key| self.find_key(key))
    }

    fn find_key(&self, wanted: &str) -> Option<Found<'_>> {
        if let Some(place) = self.tubes_sheet.item(wanted) {
            return Some(Found { tube: self.tubes.get(place)?, place, name: None });
        }
        let name = self.names.get(self.names_sheet.item(wanted)?)?;
        let place = self.place_of(&name.of)?;
        Some(Found { tube: self.tubes.get(place)?, place, name: Some(name) })
    }

    /// The place of a type in the book.
    pub fn place_of(&self, name: &str) -> Option<usize> {
        self.tubes_sheet.item(&key(name))
    }

    /// Names near to what was typed.
    pub fn near(&self, typed: &str, limit: usize) -> Vec<String> {
        let types = self.tubes.iter().map(|tube| (tube.name.as_str(), tube.found_today));
        let others = self.names.iter().map(|name| (name.name.as_str(), None));
        names::near(typed, types.chain(others), limit)
    }

    /// The columns of the tubes, in the order of their cells.
    pub fn columns(&self) -> &[String] {
        self.tubes_sheet.header()
    }

    /// The rows of a type as they are written, with what was shipped, in the order of its units; none for a type that is not in the book.
    pub fn rows(&self, name: &str) -> impl Iterator<Item = BothRows<'_>> {
        self.tubes_sheet.find(&key(name)).into_iter().flat_map(|entry| self.tubes_sheet.both_rows_of(entry))
    }

    /// Other names of a type, in the book's order.
    pub fn names_of(&self, tube: &Tube) -> impl Iterator<Item = &Name> {
        let wanted = key(&tube.name);
        self.names.iter().filter(move |name| name.of_key == wanted)
    }
}

/// Puts what is read now in the place of what was; where nothing is, the place goes.
fn renew<T>(items: &mut Vec<T>, sheet: &mut Sheet, at: Option<usize>, now: Option<T>) {
    match (at, now) {
        (Some(at), Some(now)) => {
            if let Some(slot) = items.get_mut(at) {
                *slot = now;
            }
        }
        (Some(at), None) if at < items.len() => {
            items.remove(at);
            sheet.drop_item(at);
        }
        _ => {}
    }
}
