//! Rows of `tubes.csv` read into tubes. A cell that cannot be read is a fault and counts as not known.

use super::fault::{Fault, Faults};
use super::pins::{MOST_UNITS, PinMap};
use super::rows::Row;
use super::sheet::Sheet;
use super::tube::{
    Base, BulbFigures, CutOff, Envelope, Figure, FoundToday, Function, HeaterKind, Tube, Unit, UnitFigures, WarmUp,
};
use crate::quantity::{decimal, plain_figure};

/// Columns of text with their words, and the words they take when only a few are taken; in the order in which `Columns` holds their places.
pub const TEXT: [(&str, &str, &[&str]); 14] = [
    ("type", "type", &[]),
    ("unit", "unit, or a range of like units such as 1-2", &[]),
    ("function", "function", Function::WORDS),
    ("base", "base", Base::WORDS),
    ("basing", "base designation of the EIA", &[]),
    ("pins", "pins seen from below", &[]),
    ("envelope", "bulb", Envelope::WORDS),
    ("heater_kind", "cathode heated by", HeaterKind::WORDS),
    ("warm_up", "warm-up", WarmUp::WORDS),
    ("cut_off", "grid cut-off", CutOff::WORDS),
    ("found_today", "how easily found today", FoundToday::WORDS),
    ("source", "where the figures come from", &[]),
    ("unsure", "columns nobody is sure of", &[]),
    ("note", "remark", &[]),
];

/// Where each column of a tube stands in the table.
#[derive(Debug, Clone, Default)]
pub struct Columns {
    text: [Option<usize>; TEXT.len()],
    bulb: [Option<usize>; BulbFigures::COLUMNS.len()],
    unit: [Option<usize>; UnitFigures::COLUMNS.len()],
}

impl Columns {
    /// Their places in this table.
    pub fn of(sheet: &Sheet) -> Self {
        let place = |name: &str| sheet.column(name);
        Self {
            text: TEXT.map(|column| place(column.0)),
            bulb: std::array::from_fn(|at| place(BulbFigures::COLUMNS[at].0)),
            unit: std::array::from_fn(|at| place(UnitFigures::COLUMNS[at].0)),
        }
    }
}

/// Reads the tube that these rows speak of, which come in the order of their units; `None` when one of its units cannot be read: a tube that
/// lacks a unit would pass for another. A unit given twice is a fault and the first stands.
pub fn read_tube<'t>(columns: &Columns, rows: impl Iterator<Item = Row<'t>>, faults: &mut Faults) -> Option<Tube> {
    let [kind, unit_at, ..] = columns.text;
    let mut units = Vec::with_capacity(1);
    let mut functions = [Function::Triode; MOST_UNITS];
    let mut head: Option<Row<'_>> = None;
    let mut whole = true;
    for row in rows {
        let name = row.cell(kind).unwrap_or("");
        let Some((from, to)) = read_unit_range(row, unit_at, faults) else {
            whole = false;
            continue;
        };
        if from < units.len() {
            let accepted = format!("each unit of {name} once; the first row stands");
            faults.push(Fault::new("tubes", row.line, "type", name, accepted));
            continue;
        }
        if from > units.len() && whole {
            let accepted = format!("a row for unit {} of {name} too", units.len() + 1);
            faults.push(Fault::new("tubes", row.line, "unit", row.cell(unit_at).unwrap_or(""), accepted));
            whole = false;
        }
        head = head.or(Some(row));
        if let Some(unit) = read_unit(row, columns, name, faults) {
            units.resize(to + 1, unit);
            functions.get_mut(from..=to)?.fill(unit.function);
        } else {
            whole = false;
        }
    }
    let head = head.filter(|_| whole)?;
    let functions = functions.get(..units.len())?;
    let [_, _, _, base, basing, pins, envelope, heater_kind, warm_up, _, found_today, source, unsure, note] =
        columns.text;
    let base: Option<Base> = word(head, base, "base", Base::WORDS, faults).and_then(Base::at);
    let pins = head.cell(pins).and_then(|text| {
        let Some(base) = base else {
            faults.push(Fault::new("tubes", head.line, "pins", text, "pins only together with a known `base`"));
            return None;
        };
        PinMap::read(text, base.pin_count(), functions)
            .map_err(|accepted| faults.push(Fault::new("tubes", head.line, "pins", text, accepted)))
            .ok()
    });
    let mut figures = BulbFigures::default();
    numbers(head, BulbFigures::COLUMNS, &columns.bulb, &mut figures.slots(), faults);
    Some(Tube {
        name: head.cell(kind)?.to_owned(),
        base,
        basing: head.cell(basing).map(str::to_owned),
        pins,
        envelope: word(head, envelope, "envelope", Envelope::WORDS, faults).and_then(Envelope::at),
        heater_kind: word(head, heater_kind, "heater_kind", HeaterKind::WORDS, faults).and_then(HeaterKind::at),
        figures,
        warm_up: word(head, warm_up, "warm_up", WarmUp::WORDS, faults).and_then(WarmUp::at),
        found_today: word(head, found_today, "found_today", FoundToday::WORDS, faults).and_then(FoundToday::at),
        source: head.cell(source).unwrap_or("not said").to_owned(),
        unsure: head.cell(unsure).map(|text| text.split_whitespace().map(str::to_owned).collect()).unwrap_or_default(),
        note: head.cell(note).map(str::to_owned),
        units,
    })
}

/// Units a row speaks of, counted from 0: `1`, `2`, `1-2`; an empty cell means 1.
fn read_unit_range(row: Row<'_>, column: Option<usize>, faults: &mut Faults) -> Option<(usize, usize)> {
    let text = row.cell(column).unwrap_or("1");
    let (from, to) = text.split_once('-').unwrap_or((text, text));
    let range = from.trim().parse::<usize>().ok().zip(to.trim().parse::<usize>().ok());
    match range {
        Some((from, to)) if from >= 1 && from <= to && to <= MOST_UNITS => Some((from - 1, to - 1)),
        _ => {
            faults.push(Fault::new("tubes", row.line, "unit", text, UNITS));
            None
        }
    }
}

/// What a `unit` cell may hold.
pub const UNITS: &str = "1 to 4, or a range of like units such as 1-2";

fn read_unit(row: Row<'_>, columns: &Columns, name: &str, faults: &mut Faults) -> Option<Unit> {
    let [_, _, function_at, _, _, _, _, _, _, cut_off, ..] = columns.text;
    let function: Option<Function> = word(row, function_at, "function", Function::WORDS, faults).and_then(Function::at);
    let cut_off = word(row, cut_off, "cut_off", CutOff::WORDS, faults).and_then(CutOff::at);
    let Some(function) = function else {
        if row.cell(function_at).is_none() {
            let accepted = "what the unit does (triode, pentode, rectifier ...); without it the row is left out";
            faults.push(Fault::new("tubes", row.line, "function", name, accepted));
        }
        return None;
    };
    let mut figures = UnitFigures::default();
    numbers(row, UnitFigures::COLUMNS, &columns.unit, &mut figures.slots(), faults);
    Some(Unit { function, cut_off, figures })
}

/// Reads a cell that holds one of a few words; which of them.
fn word(
    row: Row<'_>,
    column: Option<usize>,
    name: &str,
    words: &'static [&'static str],
    faults: &mut Faults,
) -> Option<usize> {
    let text = row.cell(column)?;
    let found = words.iter().position(|word| *word == text);
    if found.is_none() {
        faults.push(Fault::new("tubes", row.line, name, text, words.join(" | ")));
    }
    found
}

/// Reads cells that hold numbers, each within its range.
fn numbers(
    row: Row<'_>,
    all: &[Figure],
    columns: &[Option<usize>],
    slots: &mut [&mut Option<f64>],
    faults: &mut Faults,
) {
    for ((figure, at), slot) in all.iter().zip(columns).zip(slots) {
        let Some(text) = row.cell(*at) else { continue };
        match decimal(text) {
            Some(value) if value >= figure.3 && value <= figure.4 => **slot = Some(value),
            _ => faults.push(Fault::new("tubes", row.line, figure.0, text, accepted_figure(figure))),
        }
    }
}

/// What a cell of a figure may hold.
pub fn accepted_figure(figure: &Figure) -> String {
    let (_, _, unit, least, most) = *figure;
    format!("a number of {unit} from {} to {}, or nothing when not known", plain_figure(least), plain_figure(most))
}
