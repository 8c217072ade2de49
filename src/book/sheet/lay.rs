//! A file laid over a table, row by row.

use super::{CellChange, Entry, Kind, MOST_COLUMNS, NONE, Place, Sheet, Touch};
use crate::book::cells::unguarded;
use crate::book::fault::{Fault, Faults};
use crate::book::names::push_key;
use crate::book::parts::NUMBERS;
use crate::book::pins::MOST_UNITS;
use crate::book::read::UNITS;
use crate::book::rows::Row;
use crate::book::stock::row_key;
use crate::book::tube::figure_of;
use crate::quantity::decimal;

/// Which column of a file goes where.
#[derive(Debug, Clone, Default)]
pub struct Columns {
    /// For each column of the table that of the file.
    from: Vec<Option<usize>>,
    key: Option<usize>,
    /// The further column that tells rows apart.
    part: Option<usize>,
    /// Columns of the file's header.
    count: usize,
    /// Whether the file has the columns of the table, in its order.
    straight: bool,
}

impl Columns {
    /// The file's cell for a column of the table, without its guard; `None` when the file has no such column.
    fn cell<'r>(&self, row: Row<'r>, column: usize, number: bool) -> Option<&'r str> {
        let at = *self.from.get(column)?.as_ref()?;
        Some(unguarded(row.text(at), number))
    }
}

impl Sheet {
    /// Makes ready for a file with this header: columns the table does not know are added. Rows from before have no line any more.
    pub fn begin(&mut self, header: Row<'_>, faults: &mut Faults) -> Option<Columns> {
        let names: Vec<&str> = (0..header.width()).map(|at| unguarded(header.text(at), false).trim()).collect();
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
                self.numbers.push(figure_of(name).is_some() || NUMBERS.contains(name));
                self.header.len() - 1
            });
            columns.from.resize(self.header.len().max(columns.from.len()), None);
            if let Some(slot @ None) = columns.from.get_mut(place) {
                *slot = Some(at);
            } else {
                let accepted = "each column once; the first is read";
                faults.push(Fault::new(self.kind.name(), 1, name, "the column twice", accepted));
            }
        }
        columns.straight = columns.from.iter().enumerate().all(|(at, from)| *from == Some(at));
        columns.key = self.column(required);
        columns.part = self.kind.part().and_then(|part| self.column(part));
        for place in &mut self.places {
            place.line = 0;
        }
        for entry in &mut self.entries {
            entry.touch = Touch::Not;
        }
        Some(columns)
    }

    /// Lays a row of a file over the table; the entry it belongs to when that is met for the first time in this file. `change` is told of
    /// each cell that changes in an entry that was there.
    pub fn lay(
        &mut self,
        columns: &Columns,
        row: Row<'_>,
        shipping: bool,
        faults: &mut Faults,
        change: impl FnMut(&dyn Fn() -> CellChange),
    ) -> Option<usize> {
        let mut fault = |column: &str, found: &str, accepted: &str| {
            faults.push(Fault::new(self.kind.name(), row.line, column, found, accepted));
        };
        if row.width() > columns.count {
            let accepted = format!("{} cells, as the header has", columns.count);
            fault("", &format!("{} cells", row.width()), &accepted);
        }
        let text =
            |column: Option<usize>| column.and_then(|column| columns.cell(row, column, false)).unwrap_or("").trim();
        let (name, part) = (text(columns.key), text(columns.part));
        let mut key = String::with_capacity(16);
        if self.kind == Kind::Stock {
            key.push_str(&row_key(name, part));
        } else {
            push_key(name, &mut key);
        }
        if key.is_empty() {
            let accepted = match self.kind {
                Kind::Tubes => "a tube designation, such as 12SK7",
                Kind::Names => "a name and the `type` it points at",
                Kind::Capacitors | Kind::Resistors => "the name of a part",
                Kind::Stock => "what is printed on the part, such as 12SK7",
            };
            fault(self.kind.key(), name, accepted);
            return None;
        }
        let unit = if self.kind == Kind::Stock { Ok(0) } else { first_unit(part) };
        let end = self.entries.len() as u32;
        let entry = *self.index.entry(key).or_insert(end);
        if entry == end {
            self.entries.push(Entry { rows: [NONE; MOST_UNITS], item: NONE, touch: Touch::Not });
        }
        let slot = self.entries.get_mut(entry as usize)?;
        let fresh = entry == end || slot.touch == Touch::New;
        let next = self.places.len() as u32;
        let place = match unit {
            Ok(unit) => slot.rows.get_mut(unit)?,
            Err(text) => {
                fault("unit", text, UNITS);
                self.odd.entry(format!("{entry} {text}")).or_insert(NONE)
            }
        };
        if *place == NONE {
            *place = next;
            self.places.push(Place { shipped: None, own: None, line: 0 });
        }
        let place = *place as usize;
        if self.places.get(place)?.line > 0 {
            let found = match unit {
                _ if self.kind == Kind::Stock && !part.is_empty() => format!("{name}, {part}"),
                _ if self.kind != Kind::Tubes => name.to_owned(),
                Ok(unit) => format!("{name}, {}", unit + 1),
                Err(unit) => format!("{name}, {unit}"),
            };
            fault(self.kind.key(), &found, "each only once; the first row stands");
            return None;
        }
        let changed = self.merge(columns, row, place, shipping, fresh, change);
        let slot = self.entries.get_mut(entry as usize)?;
        let first = slot.touch == Touch::Not;
        slot.touch = slot.touch.max(match changed {
            _ if fresh => Touch::New,
            true => Touch::Changed,
            false => Touch::Kept,
        });
        first.then_some(entry as usize)
    }

    /// Puts a row of a file over what stands in its place, if anything; whether that changes a cell.
    fn merge(
        &mut self,
        columns: &Columns,
        row: Row<'_>,
        place: usize,
        shipping: bool,
        fresh: bool,
        mut change: impl FnMut(&dyn Fn() -> CellChange),
    ) -> bool {
        let Some(&stood) = self.places.get(place) else { return false };
        let mut merged = std::mem::take(&mut self.merged);
        merged.clear();
        let old = self.row(stood);
        let mut changed = old.is_none();
        // A new row that has every column in its place and no guards is stored as it came.
        let plain = fresh && columns.straight && row.width() == self.header.len() && !row.whole().contains('\'');
        if !plain {
            for (column, &number) in self.numbers.iter().enumerate() {
                let before = old.map_or("", |old| old.text(column));
                // What tells rows apart stays as this table writes it.
                let keyed = old.is_some() && (Some(column) == columns.key || Some(column) == columns.part);
                let now = columns.cell(row, column, number).filter(|_| !keyed).unwrap_or(before);
                let alike = if old.is_some() { same(before, now, number) } else { now.is_empty() };
                merged.push_cell(if alike { before } else { now });
                changed |= !alike;
                if !alike && !fresh {
                    let said = |column: Option<usize>| {
                        let text = old.and_then(|old| old.cell(column)).or_else(|| columns.cell(row, column?, false));
                        text.unwrap_or("").trim().to_owned()
                    };
                    change(&|| CellChange {
                        name: said(columns.key),
                        unit: said(columns.part),
                        column: self.header.get(column).cloned().unwrap_or_default(),
                        old: before.to_owned(),
                        new: now.to_owned(),
                    });
                }
            }
            merged.end_row();
        }
        let whole = if plain { row } else { merged.row(0) };
        let mut stored = Place { line: row.line, ..stood };
        if shipping {
            stored.shipped = Some(self.shipped.push_row(whole));
        } else if stood.shipped.is_some_and(|at| self.alike(self.shipped.row(at), whole)) {
            stored.own = None;
        } else if changed {
            stored.own = Some(self.own.push_row(whole));
        }
        self.merged = merged;
        if let Some(slot) = self.places.get_mut(place) {
            *slot = stored;
        }
        changed
    }

    fn alike(&self, one: Row<'_>, other: Row<'_>) -> bool {
        self.numbers.iter().enumerate().all(|(column, &number)| same(one.text(column), other.text(column), number))
    }
}

/// Whether two cells say the same: a spreadsheet writes 3 for 3.0.
fn same(before: &str, now: &str, number: bool) -> bool {
    let (before, now) = (before.trim(), now.trim());
    before == now || number && matches!((decimal(before), decimal(now)), (Some(a), Some(b)) if a == b)
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
