//! `heater_string`: does this series heater string work on this line?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::Book;
use crate::finding::{Caution, Change, Finding, Verdict};

mod plan;
mod story;
mod wired;

use plan::Plan;
pub(super) use plan::row;
use story::Story;
use wired::Wired;

/// Line volts where none are given.
const LINE_V: f64 = 120.0;

/// Tubes in series across the line.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HeaterStringQuestion {
    /// Line volts rms as measured, 20 to 300.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub line_v: f64,
    /// Types in the order they are wired, from the line end to the chassis end.
    pub tubes: Vec<String>,
    /// Dropper or line-cord resistor fitted in series, ohms; left out when there is none or when it is asked for.
    #[cfg_attr(test, ts(optional))]
    pub dropper_ohm: Option<f64>,
}

impl From<&Fields<'_>> for HeaterStringQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            line_v: fields.number("line_v").unwrap_or(LINE_V),
            tubes: fields.texts("tubes").unwrap_or_default(),
            dropper_ohm: fields.number("dropper_ohm"),
        }
    }
}

/// One heater of the string.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HeaterRow {
    /// The type as found in the book.
    pub r#type: String,
    /// Rated volts.
    pub rated_v: f64,
    /// Rated amperes.
    pub rated_a: f64,
    /// Volts it takes in this string.
    pub v: f64,
    /// That as a percentage of its rating.
    pub percent: f64,
    /// Its heating power as a percentage of its rating.
    pub power_percent: f64,
    /// How it comes out: within 5 % ok, within 10 % differs, beyond that needs a change; above 150 % it fails, and the figures
    /// say no more than that.
    pub outcome: crate::finding::Outcome,
}

/// The resistor in series with the string.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Dropper {
    /// Exact ohms for rated current.
    pub exact_ohm: f64,
    /// Preferred value to fit, ohms.
    pub ohm: f64,
    /// Heat in it, watts.
    pub dissipates_w: f64,
    /// Rating to buy, watts: at least twice that, from the sizes sold.
    pub rated_w: f64,
}

/// The string solved.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HeaterStringAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The figures that decide.
    pub reasons: Vec<Finding>,
    /// What to do, in order.
    pub changes: Vec<Change>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Everything looked at.
    pub findings: Vec<Finding>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// Sum of the rated volts.
    pub sum_v: f64,
    /// Current in the string as fitted, amperes.
    pub current_a: f64,
    /// Each heater in order.
    pub heaters: Vec<HeaterRow>,
    /// The dropper the string needs on this line; absent when it needs none, or adds up to more than the line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub dropper: Option<Dropper>,
}

/// Answers `heater_string`.
///
/// # Errors
/// A type that is not in the book or has no heater rating there, an empty string, a figure that is not accepted.
pub fn answer(book: &Book, question: &HeaterStringQuestion) -> Result<HeaterStringAnswer, ErrorAnswer> {
    let string = Wired::find(book, question)?;
    let plan = Plan::make(question, &string)?;
    let story = Story { question, string: &string, plan: &plan };
    Ok(HeaterStringAnswer {
        verdict: story.verdict(),
        reasons: story.reasons(),
        changes: story.changes(),
        measure: story.measure(),
        findings: story.findings(),
        cautions: story.cautions(),
        sum_v: round(string.sum_v(), 2),
        current_a: round(plan.now.current_a, 5),
        heaters: plan.rows(&string),
        dropper: plan.dropper.as_ref().map(|fit| fit.part.clone()),
    })
}

/// Rounds a figure to so many decimals for the answer; more would only look exact.
fn round(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}
