//! `swap` and `candidates`: can this tube go where that one was, and which could?

use serde::{Deserialize, Serialize};

use super::ErrorAnswer;
use super::tube::TubeView;
use crate::book::Book;
use crate::finding::{Caution, Change, Finding, Verdict};
use crate::swap::Grade;

/// How the heaters of the set are fed.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SupplyQuestion {
    /// One string across the line.
    Series {
        /// String current, amperes; left out: the original's heater current.
        #[serde(default)]
        #[cfg_attr(test, ts(optional))]
        amps: Option<f64>,
        /// Line volts; left out: 117.
        #[serde(default)]
        #[cfg_attr(test, ts(optional))]
        line_v: Option<f64>,
        /// The other types in the string, when known.
        #[serde(default)]
        #[cfg_attr(test, ts(optional))]
        others: Option<Vec<String>>,
    },
    /// All heaters across one winding or battery.
    Parallel {
        /// Heater volts of the set; left out: the original's.
        #[serde(default)]
        #[cfg_attr(test, ts(optional))]
        volts: Option<f64>,
        /// Current the winding has to spare, amperes.
        #[serde(default)]
        #[cfg_attr(test, ts(optional))]
        spare_amps: Option<f64>,
    },
    /// Dry batteries, filament tubes.
    Battery,
}

/// What is known of the socket.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SocketQuestion {
    /// How the heaters are fed; left out: both ways are answered side by side.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub supply: Option<SupplyQuestion>,
    /// The highest DC volts the set puts on the plate.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub plate_v: Option<f64>,
    /// The highest DC volts the set puts on the screen.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub screen_v: Option<f64>,
    /// The plate current in the set, milliamps.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub plate_ma: Option<f64>,
    /// Pins the original leaves empty that have something soldered to them; an empty list says: looked, nothing there.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub tie_points: Option<Vec<u8>>,
    /// Whether the stage is controlled by AGC (automatic gain control).
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub agc: Option<bool>,
}

/// Can the candidate go where the original was?
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SwapQuestion {
    /// The type the set wants.
    pub original: String,
    /// The type at hand.
    pub candidate: String,
    /// What is known of the socket.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
}

/// What could go in instead?
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CandidatesQuestion {
    /// The type the set wants.
    pub original: String,
    /// What is known of the socket.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
    /// The worst grade wanted in the list; left out: `after_changes`.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub least_grade: Option<Grade>,
    /// How many at the most; left out: 40.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

/// The swap judged under one way of feeding the heaters.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Way {
    /// "series", "parallel" or "battery".
    pub supply: String,
    /// In words: "heaters in series, 0.15 A".
    pub supply_words: String,
    /// The grade.
    pub grade: Grade,
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The one or two findings that decide.
    pub reasons: Vec<Finding>,
    /// What has to change, in order.
    pub changes: Vec<Change>,
    /// Every check, the deciding one first.
    pub findings: Vec<Finding>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Facts missing, that would settle an unknown.
    pub missing: Vec<String>,
}

/// A swap judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SwapAnswer {
    /// The answer in one sentence; when the ways differ it says so.
    pub verdict: Verdict,
    /// The grade that holds whichever way the heaters are fed: the worse one.
    pub grade: Grade,
    /// One entry when the supply is known, else one for each way.
    pub ways: Vec<Way>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// The tube the set wants.
    pub original: TubeView,
    /// The tube at hand.
    pub candidate: TubeView,
    /// Pins that need a look before the candidate goes in: empty in the original, used in the candidate.
    pub danger_pins: Vec<String>,
}

/// One candidate in the ranking.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ranked {
    /// The type.
    pub r#type: String,
    /// Its grade: the worse one when the supply is unknown.
    pub grade: Grade,
    /// "Yes, as it stands."
    pub word: String,
    /// Grades per way of feeding the heaters, when they differ: ("series", `no`).
    pub ways: Vec<(String, Grade)>,
    /// The sentence that decides.
    pub says: String,
    /// `common`, `findable`, `scarce`, or absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found_today: Option<String>,
    /// Other markings it is sold under.
    pub names: Vec<String>,
}

/// All candidates, best first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CandidatesAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The tube the set wants.
    pub original: TubeView,
    /// Best first.
    pub ranked: Vec<Ranked>,
    /// How many of the book's types were looked at.
    pub looked_at: u32,
}

/// Answers `swap`.
pub fn answer(_book: &Book, _question: &SwapQuestion) -> Result<SwapAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "swap", "not built yet"))
}

/// Answers `candidates`.
pub fn candidates(_book: &Book, _question: &CandidatesQuestion) -> Result<CandidatesAnswer, ErrorAnswer> {
    Err(ErrorAnswer::new("ask", "candidates", "not built yet"))
}
