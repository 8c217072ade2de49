//! `capacitor`: what replaces this capacitor?

use serde::{Deserialize, Serialize};

use super::ErrorAnswer;
use crate::finding::{Caution, Change, Finding, Verdict};
pub use crate::passive::{CapacitorKind, CapacitorRole};

/// One capacitor to replace.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CapacitorQuestion {
    /// What is written on it: `.02 mfd 400v`, `16-450`, `103`.
    pub marking: String,
    /// What it is made of, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub kind: Option<CapacitorKind>,
    /// What it does, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub role: Option<CapacitorRole>,
    /// The highest DC volts the place can put on it at cold start, when known.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub circuit_v: Option<f64>,
    /// Line volts rms, for parts at the line.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub line_v: Option<f64>,
    /// Line frequency in hertz, for parts at the line.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub line_hz: Option<f64>,
}

/// One way the marking can be read; the likeliest first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorReading {
    /// As the trade writes it: "0.02 uF (20 nF), 400 V".
    pub says: String,
    /// Farads of each section.
    pub sections_f: Vec<f64>,
    /// Rated volts of each section, when marked.
    pub rated_v: Vec<f64>,
    /// Tolerance in percent below and above, when marked or customary.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub tolerance_percent: Option<(f64, f64)>,
    /// What was assumed to read it so.
    pub assumed: Vec<String>,
}

/// The part to buy for one section.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorStandIn {
    /// Value as the trade writes it: "0.022 uF (22 nF)".
    pub value: String,
    /// Farads.
    pub farad: f64,
    /// Difference from the old value, percent.
    pub difference_percent: f64,
    /// Rated volts to ask for: "630 V DC", "250 V AC".
    pub rating: String,
    /// Rated volts as a number.
    pub rated_v: f64,
    /// Dielectric or construction: "polypropylene film", "aluminium electrolytic, 105 C".
    pub dielectric: String,
    /// Safety class of IEC 60384-14, where the place asks for one: "Y2".
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub safety_class: Option<String>,
    /// The code printed on the new part: "223", "22n".
    pub marked: String,
}

/// What to buy, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorAnswer {
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
    pub readings: Vec<CapacitorReading>,
    /// The part for each section of the likeliest reading.
    pub stand_ins: Vec<CapacitorStandIn>,
    /// Touch current through the part offered, milliamps, for a part from line to chassis.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub touch_ma: Option<f64>,
}

/// Answers `capacitor`.
pub fn answer(_question: &CapacitorQuestion) -> Result<CapacitorAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "capacitor", "not built yet"))
}
