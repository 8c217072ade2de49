//! `resistor`: what replaces this resistor, or is it still good?

use serde::{Deserialize, Serialize};

use super::ErrorAnswer;
use crate::finding::{Caution, Change, Finding, Verdict};
pub use crate::passive::ResistorRole;

/// One resistor to judge or replace.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ResistorQuestion {
    /// What is written on it or on the drawing: `500k 20%`, `50M`, `4k7 1W`.
    pub marking: String,
    /// What a meter reads with one end lifted, ohms.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub measured_ohm: Option<f64>,
    /// What it does, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub role: Option<ResistorRole>,
    /// Volts across it, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub circuit_v: Option<f64>,
    /// Milliamps through it, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub circuit_ma: Option<f64>,
    /// Watts of the old part, when known and not in the marking.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub watts: Option<f64>,
}

/// One way the marking can be read; the likeliest first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorReading {
    /// As the trade writes it: "500 kohm, 20 %".
    pub says: String,
    /// Ohms.
    pub ohm: f64,
    /// Tolerance in percent, when marked or customary.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub tolerance_percent: Option<f64>,
    /// Watts, when marked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub watts: Option<f64>,
    /// What was assumed to read it so.
    pub assumed: Vec<String>,
}

/// The part to buy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorStandIn {
    /// Value as the trade writes it: "470 kohm".
    pub value: String,
    /// Ohms.
    pub ohm: f64,
    /// Difference from the old value, percent.
    pub difference_percent: f64,
    /// Rating to buy, watts.
    pub rated_w: f64,
    /// Construction: "metal film", "wire-wound, flameproof".
    pub construction: String,
    /// The most volts the body may see; absent where not asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub working_v: Option<f64>,
}

/// Keep it or replace it, and by what.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The figures that decide.
    pub reasons: Vec<Finding>,
    /// What to do, in order.
    pub changes: Vec<Change>,
    /// What to measure.
    pub measure: Vec<String>,
    /// Everything looked at.
    pub findings: Vec<Finding>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// What was assumed, because it was not given.
    pub assumed: Vec<String>,
    /// Every way the marking can be read.
    pub readings: Vec<ResistorReading>,
    /// The parts that can stand in, the best first.
    pub stand_ins: Vec<ResistorStandIn>,
}

/// Answers `resistor`.
pub fn answer(_question: &ResistorQuestion) -> Result<ResistorAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "resistor", "not built yet"))
}
