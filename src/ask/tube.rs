//! `tube`: what is this tube?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::designation;
use crate::book::pins::Electrodes;
use crate::book::{Base, Book, BulbFigures, Found, Function, HeaterKind, Relation, Tube, Unit, UnitFigures, key};
use crate::finding::{Finding, Mark, Outcome, Verdict, capital};
use crate::swap::words::{figure, heater_text};

/// A type as typed, however sloppily.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TubeQuestion {
    /// "12sk7 gt/g", "ecc 83".
    pub r#type: String,
}

impl From<&Fields<'_>> for TubeQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { r#type: fields.text("type") }
    }
}

/// One pin of the socket seen from below, for drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PinView {
    /// "1" to "12", or "cap".
    pub pin: String,
    /// Angle in degrees, clockwise from straight down (where the key or gap is drawn); absent for the cap.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub angle_deg: Option<f64>,
    /// Short label for the drawing: "p", "g1", "k+g3", "h", "-".
    pub label: String,
    /// In words: "plate", "cathode and suppressor grid", "no connection".
    pub words: String,
    /// One of `heater`, `electrode`, `empty`, `internal`, `shell`.
    pub part: String,
}

/// One electrode system of the tube.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct UnitView {
    /// "pentode", "signal diode".
    pub function: String,
    /// How many units are alike.
    pub alike: u32,
    /// Name and figure with unit, in the order of the book's columns; empty fields left out.
    pub figures: Vec<(String, String)>,
}

/// A tube as the page shows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TubeView {
    /// The type as the book writes it.
    pub r#type: String,
    /// "pentode, remote cut-off".
    pub is: String,
    /// "octal".
    pub base: String,
    /// EIA base designation, when known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub basing: Option<String>,
    /// "12.6 V, 0.15 A".
    pub heater: String,
    /// What the designation itself says, piece by piece.
    pub designation: Vec<String>,
    /// Pins on the base, for drawing.
    pub pin_count: u32,
    /// Every pin, from below; empty when the book has no pin map.
    pub pins: Vec<PinView>,
    /// Other names.
    pub names: Vec<String>,
    /// Its units.
    pub units: Vec<UnitView>,
    /// `common`, `findable` or `scarce`: a judgement; absent when nobody judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found_today: Option<String>,
    /// Where the row comes from.
    pub source: String,
    /// Figures on which two recollections differed, left empty, in words.
    pub unsure: Vec<String>,
    /// A remark of the book.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub note: Option<String>,
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TubeAnswer {
    /// "12SK7GT is a remote cut-off pentode", or that it is not in the book.
    pub verdict: Verdict,
    /// The tube; absent when not found.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub tube: Option<TubeView>,
    /// Near names: completions of what was typed, or what it may have meant.
    pub near: Vec<String>,
    /// How it was understood, and what to know.
    pub findings: Vec<Finding>,
}

/// Answers `tube`. A type that is not in the book is an answer with near names, not an error.
pub fn answer(book: &Book, question: &TubeQuestion) -> Result<TubeAnswer, ErrorAnswer> {
    let typed = question.r#type.trim();
    if typed.is_empty() {
        return Err(ErrorAnswer::new("type", "empty", "a tube designation, such as 12SK7"));
    }
    let Ok(found) = book.find(typed) else {
        let near = book.near(typed, 8);
        let says = format!("`{typed}` is not in the book.");
        let verdict = Verdict { mark: Mark::Unknown, word: "Not found.".to_owned(), says };
        return Ok(TubeAnswer { verdict, tube: None, near, findings: Vec::new() });
    };
    let tube = view(book, found.tube);
    let mut findings = Vec::new();
    if let Some(name) = found.name {
        let says = match name.relation {
            Relation::Same => format!("{} is another name of {}.", name.name, found.tube.name),
            Relation::Selection => {
                format!("{} is a selected or ruggedised {}: it fits any socket of it.", name.name, found.tube.name)
            }
        };
        findings.push(Finding::plain("name", Outcome::Ok, says));
    } else if key(typed) != key(&found.tube.name) {
        findings.push(Finding::plain("name", Outcome::Ok, format!("`{typed}` was read as {}.", found.tube.name)));
    }
    let verdict = Verdict {
        mark: Mark::Yes,
        word: tube.r#type.clone(),
        says: format!("{}: {}. {} base, heater {}.", tube.r#type, tube.is, capital(&tube.base), tube.heater),
    };
    let near = book.near(typed, 8).into_iter().filter(|name| *name != tube.r#type).collect();
    Ok(TubeAnswer { verdict, tube: Some(tube), near, findings })
}

/// Finds a tube for another question; the error names the field and gives near names.
pub(super) fn find<'b>(book: &'b Book, field: &str, typed: &str) -> Result<Found<'b>, ErrorAnswer> {
    book.find(typed).map_err(|near| {
        let mut error = ErrorAnswer::new(field, format!("\"{}\"", typed.trim()), "a tube type that is in the book");
        error.says = if near.is_empty() {
            format!("`{}` is not in the book.", typed.trim())
        } else {
            format!("`{}` is not in the book. Near to it: {}.", typed.trim(), near.join(", "))
        };
        error.near = near;
        error
    })
}

/// A tube as the page shows it.
pub(super) fn view(book: &Book, tube: &Tube) -> TubeView {
    let functions = tube.functions();
    let pins = match (tube.base, &tube.pins) {
        (Some(base), Some(map)) => {
            let mut pins: Vec<PinView> = (1..=map.count)
                .map(|pin| pin_view(map.pins[usize::from(pin)], pin.to_string(), Some(base.angle_deg(pin)), &functions))
                .collect();
            if map.cap {
                pins.push(pin_view(map.pins[0], "cap".to_owned(), None, &functions));
            }
            pins
        }
        _ => Vec::new(),
    };
    TubeView {
        r#type: tube.name.clone(),
        is: kind(tube),
        base: tube.base.map_or("base not known", Base::words).to_owned(),
        basing: tube.basing.clone(),
        heater: heater(tube),
        designation: designation::says(&tube.name),
        pin_count: tube.base.map_or(0, |base| u32::from(base.pin_count())),
        pins,
        names: book.names_of(tube).map(|name| name.name.clone()).collect(),
        units: units(tube),
        found_today: tube.found_today.map(|found| found.words().to_owned()),
        source: tube.source.clone(),
        unsure: tube.unsure.iter().map(|column| super::row::words(column).to_owned()).collect(),
        note: tube.note.clone(),
    }
}

fn pin_view(on: Electrodes, pin: String, angle_deg: Option<f64>, functions: &[Function]) -> PinView {
    let part = if on.is_empty() {
        "empty"
    } else if on.meets(Electrodes::INTERNAL) {
        "internal"
    } else if on.meets(Electrodes::HEATER) {
        "heater"
    } else if on.without(Electrodes::SHIELDING).is_empty() {
        "shell"
    } else {
        "electrode"
    };
    PinView { pin, angle_deg, label: on.label(functions), words: on.words(functions), part: part.to_owned() }
}

/// "pentode, remote cut-off"; like units counted.
pub(super) fn kind(tube: &Tube) -> String {
    let mut parts: Vec<(String, usize)> = Vec::new();
    for unit in &tube.units {
        let mut text = unit.function.words().to_owned();
        if let Some(cut_off) = unit.cut_off {
            text = format!("{text}, {}", cut_off.words());
        }
        match parts.iter_mut().find(|(known, _)| *known == text) {
            Some((_, count)) => *count += 1,
            None => parts.push((text, 1)),
        }
    }
    let names: Vec<String> = parts
        .into_iter()
        .map(|(text, count)| match count {
            1 => text,
            2 if text == Function::Rectifier.words() => "full-wave rectifier".to_owned(),
            2 => format!("two {text}s"),
            3 => format!("three {text}s"),
            _ => format!("four {text}s"),
        })
        .collect();
    names.join(" + ")
}

pub(super) fn heater(tube: &Tube) -> String {
    let figures = &tube.figures;
    if tube.heater_kind == Some(HeaterKind::Cold) {
        return "none (cold cathode)".to_owned();
    }
    let pair = |v: Option<f64>, a: Option<f64>| v.zip(a).map(|(v, a)| heater_text(v, a));
    match (pair(figures.heater_v, figures.heater_a), pair(figures.heater_parallel_v, figures.heater_parallel_a)) {
        (Some(whole), Some(halves)) => format!("{whole} (or {halves})"),
        (Some(whole), None) => whole,
        _ => "not known".to_owned(),
    }
}

/// Units with their figures, like neighbours counted as one.
fn units(tube: &Tube) -> Vec<UnitView> {
    let mut views: Vec<(UnitView, &Unit)> = Vec::new();
    for unit in &tube.units {
        if let Some((view, last)) = views.last_mut()
            && *last == unit
        {
            view.alike += 1;
            continue;
        }
        let mut figures: Vec<(String, String)> = Vec::new();
        if let Some(cut_off) = unit.cut_off {
            figures.push(("grid".to_owned(), cut_off.words().to_owned()));
        }
        for ((_, words, unit_name, ..), value) in UnitFigures::COLUMNS.iter().zip(unit.figures.values()) {
            if let Some(value) = value {
                figures.push(((*words).to_owned(), format!("{} {unit_name}", figure(value)).trim_end().to_owned()));
            }
        }
        views.push((UnitView { function: unit.function.words().to_owned(), alike: 1, figures }, unit));
    }
    if let Some((view, _)) = views.first_mut() {
        for ((column, words, unit_name, ..), value) in BulbFigures::COLUMNS.iter().zip(tube.figures.values()) {
            let shown = matches!(*column, "lamp_tap_v" | "heater_cathode_max_v");
            if let (true, Some(value)) = (shown, value) {
                view.figures.push(((*words).to_owned(), format!("{} {unit_name}", figure(value))));
            }
        }
        if let Some(warm_up) = tube.warm_up {
            view.figures.push(("warm-up".to_owned(), warm_up.words().to_owned()));
        }
        if let Some(envelope) = tube.envelope {
            view.figures.push(("bulb".to_owned(), envelope.words().to_owned()));
        }
    }
    views.into_iter().map(|row| row.0).collect()
}
