//! `tube`: what is this tube?

use serde::{Deserialize, Serialize};

use super::ErrorAnswer;
use crate::book::Book;
use crate::finding::{Finding, Verdict};

/// A type as typed, however sloppily.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct TubeQuestion {
    /// "12sk7 gt/g", "ecc 83".
    pub r#type: String,
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
    /// Columns on which two recollections differed, left empty.
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

/// Answers `tube`.
pub fn answer(_book: &Book, _question: &TubeQuestion) -> Result<TubeAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "tube", "not built yet"))
}
