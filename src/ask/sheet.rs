//! `sheet`: a whole set at once. Which of its tubes and parts need what, does its string work, what does its supply give, what is to be bought, and
//! how is it first switched on?
//!
//! A job sheet holds what a person wrote down of one set. Every line of it is put to the engine that answers for such a line; here the answers are
//! gathered, the dangerous ones first. What is not told stays open and is said to be open.

use serde::{Deserialize, Serialize};

use super::accepted::Fields;
use super::{
    CapacitorRole, ErrorAnswer, HeaterStringAnswer, LineState, Ranked, RectifierAnswer, RectifierQuestion, ResistorRole,
};
use crate::book::Book;
use crate::finding::{Caution, Mark, Verdict};

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
#[derive(Debug, Clone, PartialEq)]
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

/// The whole set, answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetAnswer {
    /// The set in one sentence: can it be brought back, and with how much work?
    pub verdict: Verdict,
    /// Faults and open questions, the most dangerous first.
    pub trouble: Vec<SheetTrouble>,
    /// Every tube line, in order.
    pub tubes: Vec<SheetTubeAnswer>,
    /// The heater string, or the load of the winding; absent while too little is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub heaters: Option<Box<HeaterStringAnswer>>,
    /// The supply; absent while too little is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub supply: Option<Box<RectifierAnswer>>,
    /// Every part line, in order.
    pub parts: Vec<SheetPartAnswer>,
    /// The figures of the whole set.
    pub totals: Vec<SheetTotal>,
    /// What to buy, like with like.
    pub shopping: Vec<SheetPurchase>,
    /// What to do and to measure when it is first switched on, in order.
    pub bring_up: Vec<BringUpStep>,
    /// Warnings that belong to this set, each once.
    pub cautions: Vec<Caution>,
}

/// How dangerous a trouble is; in this order they are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Danger {
    /// It can hurt a person or set fire.
    Person,
    /// It can ruin tubes, a transformer or other parts.
    Set,
    /// The set will not work as it should.
    Work,
    /// It cannot be told yet: a fact is missing.
    Open,
}

/// Which line of the sheet something is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SheetSection {
    /// `tubes`.
    Tubes,
    /// The heater string as a whole.
    Heaters,
    /// `rectifier`.
    Supply,
    /// `parts`.
    Parts,
}

/// A fault or an open question of the set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetTrouble {
    /// How dangerous.
    pub danger: Danger,
    /// The mark to draw.
    pub mark: Mark,
    /// Of which part of the sheet.
    pub section: SheetSection,
    /// Which line of it, counted from 0; absent for the whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub at: Option<usize>,
    /// What it is about, as a person would call it: "V3 12SQ7", "C4", "Heater string".
    pub place: String,
    /// One plain sentence.
    pub says: String,
}

/// One tube line answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetTubeAnswer {
    /// Which line, counted from 0.
    pub at: usize,
    /// The type as the book writes it, or the item as it was typed.
    pub r#type: String,
    /// Whether it is a tube; else it is a resistor, lamp or the like in the string.
    pub tube: bool,
    /// Whether another is looked for.
    pub wanted: bool,
    /// The mark to draw.
    pub mark: Mark,
    /// A few words: "Stays in.", "Look for one of 4 markings.", "Not in the book."
    pub word: String,
    /// One plain sentence.
    pub says: String,
    /// Markings of the same tube that need no thought: its own first.
    pub markings: Vec<String>,
    /// What else can go in, best first; judged in this set's own socket.
    pub stand_ins: Vec<Ranked>,
    /// The type that was chosen to go in, judged; absent when none is.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub fitted: Option<Ranked>,
}

/// One part line answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetPartAnswer {
    /// Which line, counted from 0.
    pub at: usize,
    /// "C4"; empty when it has none.
    pub reference: String,
    /// What becomes of it.
    pub state: LineState,
    /// The mark to draw.
    pub mark: Mark,
    /// As it was read: "0.02 uF (20 nF), 400 V"; empty when it was not.
    pub reads: String,
    /// What to buy for it; empty when nothing is.
    pub buy: Vec<String>,
    /// What to know of it.
    pub says: String,
}

/// A figure of the whole set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetTotal {
    /// What it is: "Heater string", "B+ cold", "B+ warm", "Tubes to find", "Parts to buy".
    pub name: String,
    /// Its value with its unit: "0.150 A, 117 V of 120 V", "167 V", "12".
    pub value: String,
    /// How it came out.
    pub mark: Mark,
}

/// One entry of the shopping list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetPurchase {
    /// Under which heading: "Tubes", "Film capacitors", "Electrolytics", "Safety capacitors", "Resistors", "Rectifier and fuse".
    pub group: String,
    /// How to ask for it.
    pub shop: String,
    /// What is printed on a new one: "223", "brown black orange gold"; empty when nothing helps to know it by.
    pub code: String,
    /// How many.
    pub count: usize,
    /// For which lines, as a person would call them: "C4", "V2"; with the name of the set when there are several.
    pub places: Vec<String>,
    /// How many of it are in stock.
    pub in_stock: usize,
}

/// When something is done on the way to the first sound.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BringUpMoment {
    /// Plug pulled, capacitors discharged.
    BeforePower,
    /// Through a lamp or a variable transformer.
    FirstPower,
    /// In the first seconds, before the tubes draw current.
    Cold,
    /// After some minutes.
    Warm,
}

/// One step of the bring-up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct BringUpStep {
    /// Names the point, the same for the same point as long as the sheet has it: `b_plus_first`, `heater.2`.
    pub key: String,
    /// When.
    pub moment: BringUpMoment,
    /// What to do or where to measure, one sentence.
    pub says: String,
    /// What to expect, with its unit: "150 to 172 V"; empty when nothing is measured or nothing can be told.
    pub expect: String,
    /// What a difference means, or what to do if it is not so.
    pub otherwise: String,
    /// Whether a figure is to be written down.
    pub measure: bool,
    /// What was read there, and how it comes out; absent while nothing was.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub read: Option<BringUpReading>,
}

/// A reading held against what was expected.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct BringUpReading {
    /// What was read.
    pub value: f64,
    /// How it comes out.
    pub mark: Mark,
    /// One plain sentence.
    pub says: String,
}

/// What was pasted or brought as CSV, to be made lines of a sheet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetLinesQuestion {
    /// Free text, or CSV with the columns `reference`, `marking`, `role`, `measured`, `note` (of a tube the marking is its type).
    pub text: String,
}

/// The lines of a sheet that were found in a text. Every line that is not blank is in one of the lists.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetLinesAnswer {
    /// The text in one sentence: "5 tubes, 25 parts, 1 line not understood."
    pub verdict: Verdict,
    /// Tubes and items of a heater string, in order.
    #[cfg_attr(test, ts(type = "Array<SheetTube>"))]
    pub tubes: Vec<serde_json::Value>,
    /// Capacitors and resistors, in order; a line that cannot be read is one of them, with its text as the marking.
    #[cfg_attr(test, ts(type = "Array<SheetPart>"))]
    pub parts: Vec<serde_json::Value>,
    /// Lines that were not understood, with why; they are among the parts too.
    pub doubtful: Vec<String>,
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

/// Sheets as a file: what was written, or what was read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SheetFileAnswer {
    /// The file, JSON with its format and version.
    pub text: String,
    /// The same as plain words, to be sent to somebody who has no such page.
    pub words: String,
    /// The sheets in it.
    #[cfg_attr(test, ts(type = "Array<JobSheet>"))]
    pub sheets: Vec<serde_json::Value>,
    /// What in a sheet could not be taken, and was left out: which field, what was found, what is accepted.
    pub faults: Vec<ErrorAnswer>,
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

/// Answers `sheet`.
pub fn answer(_: &Book, _: &SheetQuestion) -> Result<SheetAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet", "to be written"))
}

/// Answers `sheet_lines`.
pub fn lines(_: &Book, _: &SheetLinesQuestion) -> Result<SheetLinesAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet_lines", "to be written"))
}

/// Answers `sheet_file`.
pub fn file(_: &Book, _: &SheetFileQuestion) -> Result<SheetFileAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "sheet_file", "to be written"))
}
