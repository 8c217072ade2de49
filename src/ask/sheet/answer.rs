//! What is answered about a whole set.

use serde::Serialize;

use crate::ask::{ErrorAnswer, HeaterStringAnswer, LineState, Ranked, RectifierAnswer};
use crate::finding::{Caution, Mark, Verdict};

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
    pub what: String,
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
