//! What is asked about a whole set, and the lines of a job sheet.

use serde::Deserialize;

use crate::ask::accepted::Fields;
use crate::ask::{CapacitorRole, RectifierQuestion, ResistorRole};

/// How the heaters of a set are fed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(rename_all = "snake_case"))]
#[serde(rename_all = "snake_case")]
pub enum SheetHeaters {
    /// One after the other, across the line.
    Series,
    /// Side by side, on a winding.
    Parallel,
    /// Filaments from a battery.
    Battery,
}

/// How a tube was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(rename_all = "snake_case"))]
#[serde(rename_all = "snake_case")]
pub enum TubeState {
    /// Tested good: it stays.
    Good,
    /// Tested weak: another is looked for.
    Weak,
    /// Heater open, shorted, gassy: another is needed.
    Dead,
    /// Nothing in the socket.
    Missing,
}

/// What is written down of one set.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct JobSheet {
    /// What its owner calls it.
    pub name: String,
    /// Anything to remember.
    #[cfg_attr(test, ts(optional))]
    pub note: Option<String>,
    /// How the heaters are fed; left out while it is not known.
    #[cfg_attr(test, ts(optional))]
    pub heaters: Option<SheetHeaters>,
    /// Line volts rms as measured, 20 to 300.
    #[cfg_attr(test, ts(optional))]
    pub line_v: Option<f64>,
    /// Line frequency in hertz, 0 for DC.
    #[cfg_attr(test, ts(optional))]
    pub line_hz: Option<f64>,
    /// Line volts the set is made for, from its plate.
    #[cfg_attr(test, ts(optional))]
    pub designed_v: Option<f64>,
    /// Volts of the heater winding.
    #[cfg_attr(test, ts(optional))]
    pub winding_v: Option<f64>,
    /// Amperes that winding is made for.
    #[cfg_attr(test, ts(optional))]
    pub winding_a: Option<f64>,
    /// Tubes, and what else is in a heater string (`cord 180 ohm`, `lamp 47`), in the order wired: from the line end to the chassis end.
    pub tubes: Vec<SheetTube>,
    /// The supply as far as it is told, in the fields of `rectifier`; the line and, where no load is told, the set's tubes are taken from the sheet.
    #[cfg_attr(test, ts(optional, type = "Partial<RectifierQuestion>"))]
    pub rectifier: Option<Box<RectifierQuestion>>,
    /// Capacitors and resistors.
    pub parts: Vec<SheetPart>,
    /// What was read at the points of the bring-up.
    #[cfg_attr(test, ts(optional, as = "Option<Vec<SheetReading>>"))]
    pub readings: Vec<SheetReading>,
}

/// One tube of the set, or what else is in its heater string.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetTube {
    /// The type the set wants, or an item of the string as `heater_string` takes it.
    pub r#type: String,
    /// Where it sits: `V1`.
    #[cfg_attr(test, ts(optional))]
    pub place: Option<String>,
    /// How it was found; left out while it is not tested.
    #[cfg_attr(test, ts(optional))]
    pub state: Option<TubeState>,
    /// The type that goes in instead: string and supply are worked out with it.
    #[cfg_attr(test, ts(optional))]
    pub fitted: Option<String>,
    /// Anything to remember.
    #[cfg_attr(test, ts(optional))]
    pub note: Option<String>,
}

/// One capacitor or resistor of the set.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetPart {
    /// `C4`, `R7`.
    #[cfg_attr(test, ts(optional))]
    pub reference: Option<String>,
    /// What is written on it, or its colours: `.02 mfd 400v`, `yellow violet orange silver`.
    pub marking: String,
    /// What it does, when known.
    #[cfg_attr(test, ts(optional, as = "Option<PartRole>"))]
    pub role: Option<String>,
    /// What a meter reads, as it reads it: `560k`, `31 nF`.
    #[cfg_attr(test, ts(optional))]
    pub measured: Option<String>,
    /// Anything to remember.
    #[cfg_attr(test, ts(optional))]
    pub note: Option<String>,
    /// It is replaced: nothing is bought for it any more.
    #[cfg_attr(test, ts(optional, as = "Option<bool>"))]
    pub done: bool,
}

/// What a part does: the role of a capacitor or of a resistor.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(untagged))]
pub enum PartRole {
    /// Of a capacitor.
    Capacitor(CapacitorRole),
    /// Of a resistor.
    Resistor(ResistorRole),
}

/// A voltage read while the set was brought up.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetReading {
    /// The point, by the `key` of its row in the bring-up.
    pub key: String,
    /// What the meter read there, in the unit of that row.
    pub value: f64,
}

/// A whole set put to all engines.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetQuestion {
    /// The sheet.
    pub sheet: JobSheet,
}

/// What was pasted or brought as CSV, to be made lines of a sheet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetLinesQuestion {
    /// Free text, or CSV with the columns `reference`, `marking`, `role`, `measured`, `note` (of a tube the marking is its type).
    pub text: String,
}

/// Sheets to be written as a file, or a file to be read.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetFileQuestion {
    /// The text of a file that is brought.
    #[cfg_attr(test, ts(optional))]
    pub text: Option<String>,
    /// The sheets that are to be written.
    #[cfg_attr(test, ts(optional, as = "Option<Vec<JobSheet>>"))]
    pub sheets: Vec<serde_json::Value>,
}

impl From<&Fields<'_>> for JobSheet {
    fn from(fields: &Fields<'_>) -> Self {
        let (text, number) = (|name| fields.get_text(name).map(str::to_owned), |name| fields.number(name));
        Self {
            name: fields.text("name"),
            note: text("note"),
            heaters: fields.word("heaters"),
            line_v: number("line_v"),
            line_hz: number("line_hz"),
            designed_v: number("designed_v"),
            winding_v: number("winding_v"),
            winding_a: number("winding_a"),
            tubes: fields.records("tubes").map(|tube| SheetTube::from(&tube)).collect(),
            rectifier: fields.record("rectifier").map(|supply| Box::new(RectifierQuestion::from(&supply))),
            parts: fields.records("parts").map(|part| SheetPart::from(&part)).collect(),
            readings: fields
                .records("readings")
                .map(|reading| SheetReading {
                    key: reading.text("key"),
                    value: reading.number("value").unwrap_or_default(),
                })
                .collect(),
        }
    }
}

impl From<&Fields<'_>> for SheetTube {
    fn from(fields: &Fields<'_>) -> Self {
        let text = |name| fields.get_text(name).map(str::to_owned);
        Self {
            r#type: fields.text("type"),
            place: text("place"),
            state: fields.word("state"),
            fitted: text("fitted"),
            note: text("note"),
        }
    }
}

impl From<&Fields<'_>> for SheetPart {
    fn from(fields: &Fields<'_>) -> Self {
        let text = |name| fields.get_text(name).map(str::to_owned);
        Self {
            reference: text("reference"),
            marking: fields.text("marking"),
            role: text("role"),
            measured: text("measured"),
            note: text("note"),
            done: fields.flag("done").unwrap_or_default(),
        }
    }
}

impl From<&Fields<'_>> for SheetQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        let nothing = serde_json::Map::new();
        Self { sheet: JobSheet::from(&fields.record("sheet").unwrap_or(Fields::new(&nothing))) }
    }
}

impl From<&Fields<'_>> for SheetLinesQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { text: fields.text("text") }
    }
}

impl From<&Fields<'_>> for SheetFileQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { text: fields.get_text("text").map(str::to_owned), sheets: fields.values("sheets").to_vec() }
    }
}
