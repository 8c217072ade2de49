//! `heater_string`: does this series heater string work on this line?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::Book;
use crate::finding::{Caution, Change, Finding, Verdict};

mod further;
pub(in crate::ask) mod items;
mod plan;
mod story;
mod winding;
mod wired;

pub(in crate::ask) use further::made_for;
use plan::Plan;
pub(super) use plan::row;
use story::Story;
use wired::Wired;

/// Line volts and hertz where none are given.
const LINE_V: f64 = 120.0;
const LINE_HZ: f64 = 60.0;

/// Tubes in series across the line.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HeaterStringQuestion {
    /// Line volts rms as measured, 20 to 300.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub line_v: f64,
    /// Line frequency in hertz; 0 for DC.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub line_hz: f64,
    /// Types in the order they are wired, from the line end to the chassis end; between them `150 ohm`, `cord 180 ohm`, `lamp 47`,
    /// `lamp 6.3 V 0.15 A with 50 ohm`, `ballast K49C`, `ntc 1500/40 ohm`.
    pub tubes: Vec<String>,
    /// Line volts the set is made for, from its plate.
    #[cfg_attr(test, ts(optional))]
    pub designed_v: Option<f64>,
    /// Volts of the heater winding, when the heaters are in parallel on one; the line does not matter then.
    #[cfg_attr(test, ts(optional))]
    pub winding_v: Option<f64>,
    /// Amperes that winding is made for.
    #[cfg_attr(test, ts(optional))]
    pub winding_a: Option<f64>,
    /// Dropper or line-cord resistor fitted in series, ohms; left out when there is none or when it is asked for.
    #[cfg_attr(test, ts(optional))]
    pub dropper_ohm: Option<f64>,
}

impl From<&Fields<'_>> for HeaterStringQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            line_v: fields.number("line_v").unwrap_or(LINE_V),
            line_hz: fields.number("line_hz").unwrap_or(LINE_HZ),
            tubes: fields.texts("tubes").unwrap_or_default(),
            designed_v: fields.number("designed_v"),
            winding_v: fields.number("winding_v"),
            winding_a: fields.number("winding_a"),
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
    /// The most volts between heater and cathode here, crest, with the cathode at chassis (a rectifier's at B+); absent where there is no
    /// cathode.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub heater_cathode_v: Option<f64>,
}

/// The string at one moment after switching on.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WarmUpPoint {
    /// Seconds after switching on.
    pub s: f64,
    /// Amperes in the string.
    pub a: f64,
    /// Volts across each part, in order.
    pub v: Vec<f64>,
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
    /// Line volts rms (of the winding, when the heaters are in parallel).
    pub line_v: f64,
    /// Sum of the rated volts, resistors in the list included at the string's current.
    pub sum_v: f64,
    /// Current in the string as fitted (or out of the winding), amperes.
    pub current_a: f64,
    /// Volts on the dropper fitted.
    pub dropper_v: f64,
    /// Each part in order.
    pub heaters: Vec<HeaterRow>,
    /// The dropper the string needs on this line; absent when it needs none, or adds up to more than the line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub dropper: Option<Dropper>,
    /// Other ways than a dropper: a capacitor, a diode. Each with what it costs.
    pub alternatives: Vec<Change>,
    /// Ways to a line the set is not made for; empty when `designed_v` is not given or agrees.
    pub remedies: Vec<Change>,
    /// From cold heaters on, a point a second, with the changes made; empty in parallel.
    pub warm_up: Vec<WarmUpPoint>,
}

/// Answers `heater_string`.
///
/// # Errors
/// A type that is not in the book or has no heater rating there, an empty string, a figure that is not accepted.
pub fn answer(book: &Book, question: &HeaterStringQuestion) -> Result<HeaterStringAnswer, ErrorAnswer> {
    let string = Wired::find(book, question)?;
    if let Some(winding_v) = question.winding_v {
        return winding::answer(question, &string, winding_v);
    }
    let plan = Plan::make(question, &string)?;
    let story = Story { question, string: &string, plan: &plan };
    let heaters = plan.rows(&string, question);
    let warm = plan.warm_up(&string, question);
    let mut findings = story.findings();
    findings.extend(story.heater_cathode());
    findings.extend(story.cathode_currents());
    findings.extend(story.warm_up(&warm));
    findings.extend(story.made_for());
    let remedies = story.remedies();
    let (verdict, reasons, changes) = match story.wrong_line() {
        Some((verdict, finding)) => (verdict, vec![finding], remedies.clone()),
        None => (story.verdict(), story.reasons(), story.changes()),
    };
    Ok(HeaterStringAnswer {
        verdict,
        reasons,
        changes,
        measure: story.measure(),
        findings,
        cautions: story.cautions(),
        line_v: question.line_v,
        sum_v: round(string.sum_v(), 2),
        current_a: round(plan.now.current_a, 5),
        dropper_v: round(plan.now.series_v, 1),
        heaters,
        dropper: plan.dropper.as_ref().map(|fit| fit.part.clone()),
        alternatives: story.alternatives(),
        remedies,
        warm_up: warm
            .into_iter()
            .map(|point| WarmUpPoint {
                s: point.s,
                a: round(point.a, 4),
                v: point.v.into_iter().map(|v| round(v, 1)).collect(),
            })
            .collect(),
    })
}

/// Rounds a figure to so many decimals for the answer; more would only look exact.
fn round(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}
