//! Rows of `capacitors.csv` and `resistors.csv`: what is sold.
//!
//! A row that cannot be read leaves what was known before; a column that is empty where a figure is needed is a fault.

use super::fault::{Fault, Faults};
use super::rows::Row;
use super::sheet::Sheet;
use crate::on_sale::{Body, Capacitors, Shelf};
use crate::quantity::{decimal, plain_figure, tidy};
use crate::series::Series;

/// Columns of these and of the stock that hold numbers.
pub const NUMBERS: [&str; 7] = ["from_uf", "to_uf", "watts", "working_v", "from_ohm", "to_ohm", "count"];

/// A row that is being read.
struct Reading<'r> {
    sheet: &'r Sheet,
    row: Row<'r>,
    faults: &'r mut Faults,
}

impl<'r> Reading<'r> {
    fn cell(&self, column: &str) -> Option<&'r str> {
        self.row.cell(self.sheet.column(column))
    }

    fn fault<T>(&mut self, column: &str, accepted: &str) -> Option<T> {
        let found = self.cell(column).unwrap_or("");
        self.faults.push(Fault::new(self.sheet.kind.name(), self.row.line, column, found, accepted));
        None
    }

    fn number(&mut self, column: &str, least: f64, most: f64) -> Option<f64> {
        let number = self.cell(column).and_then(decimal);
        match number.filter(|number| (least..=most).contains(number)) {
            Some(number) => Some(number),
            None => self.fault(column, &format!("a number from {} to {}", plain_figure(least), plain_figure(most))),
        }
    }

    /// Two numbers, the second not below the first.
    fn range(&mut self, from: &str, to: &str, least: f64, most: f64) -> Option<(f64, f64)> {
        let (first, last) = (self.number(from, least, most)?, self.number(to, least, most)?);
        if last < first { self.fault(to, "not less than where it begins") } else { Some((first, last)) }
    }

    fn series(&mut self) -> Option<Vec<Series>> {
        let read = |word: &str| Series::ALL.into_iter().find(|series| series.name() == word);
        let all: Option<Vec<Series>> = self.cell("series").and_then(|cell| cell.split_whitespace().map(read).collect());
        match all.filter(|all| !all.is_empty()) {
            Some(all) => Some(all),
            None => self.fault("series", "series of IEC 60063 with blanks between, the commonest first: E6 E12 E24"),
        }
    }
}

/// Reads a row of `capacitors.csv`.
pub fn read_capacitors(sheet: &Sheet, row: Row<'_>, faults: &mut Faults) -> Option<Capacitors> {
    let mut reading = Reading { sheet, row, faults };
    let part = reading.cell("part").unwrap_or("");
    let Some((shelf, _)) = Shelf::ALL.into_iter().zip(Shelf::WORDS).find(|(_, word)| *word == part) else {
        return reading.fault("part", &Shelf::WORDS.join(" | "));
    };
    let (from_uf, to_uf) = reading.range("from_uf", "to_uf", 1e-7, 1e6)?;
    let series = reading.series()?;
    let volts: Option<Vec<f64>> = reading.cell("volts").and_then(|cell| {
        cell.split_whitespace().map(|word| decimal(word).filter(|v| (1.0..=1e5).contains(v))).collect()
    });
    let volts = volts.filter(|volts| !volts.is_empty() && volts.windows(2).all(|pair| pair.first() < pair.last()));
    let Some(volts) = volts else {
        return reading.fault("volts", "rated volts from 1 to 100000, ascending, with blanks between: 250 400 630");
    };
    Some(Capacitors { shelf, farads: (tidy(from_uf / 1e6), tidy(to_uf / 1e6)), series, volts })
}

/// Reads a row of `resistors.csv`.
pub fn read_body(sheet: &Sheet, row: Row<'_>, faults: &mut Faults) -> Option<Body> {
    let mut reading = Reading { sheet, row, faults };
    let made = reading.cell("construction").unwrap_or("");
    let Some((_, construction)) = Body::CONSTRUCTIONS.into_iter().find(|(word, _)| *word == made) else {
        return reading.fault("construction", &Body::CONSTRUCTIONS.map(|(word, _)| word).join(" | "));
    };
    let watts = reading.number("watts", 0.05, 1000.0)?;
    // Wire-wound parts have none: their maker's sheet has to be asked. A film part without one would pass for one that bears anything.
    let limit_v = match reading.cell("working_v") {
        None if made == "wire-wound" => None,
        _ => Some(reading.number("working_v", 10.0, 1e5)?),
    };
    let series = *reading.series()?.first()?;
    let ohms = reading.range("from_ohm", "to_ohm", 1e-3, 1e12)?;
    Some(Body { construction, watts, limit_v, series, ohms })
}
