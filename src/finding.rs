//! Words every engine answers in: verdict, finding, change, caution.
//!
//! These are plain data. They carry sentences a person reads, never arithmetic.

use serde::{Deserialize, Serialize};

/// The mark beside a verdict, so that it is never told by colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// It can be done as it stands.
    Yes,
    /// It can be done, with a difference or a change to know of.
    Care,
    /// It must not be done.
    No,
    /// The facts do not suffice.
    Unknown,
}

/// One plain sentence that answers the question, with its mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Verdict {
    /// The mark to draw.
    pub mark: Mark,
    /// A few words: "Yes, as it stands."
    pub word: String,
    /// The sentence in full.
    pub says: String,
}

/// How one check came out. `Unknown` never passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Nothing to do, nothing to notice.
    Ok,
    /// Safe, and the set will behave differently.
    Differs,
    /// Safe only after a change.
    NeedsChange,
    /// The facts do not suffice.
    Unknown,
    /// Not to be done.
    Fails,
}

/// One thing looked at: figure against figure and one plain sentence.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Finding {
    /// What was looked at, as one lower-case word or two: "heater", "ratings", "inrush".
    pub check: String,
    /// How it came out.
    pub outcome: Outcome,
    /// The figure asked for, with its unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub wanted: Option<String>,
    /// The figure found, with its unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found: Option<String>,
    /// One plain sentence.
    pub says: String,
}

/// One wire to move at a socket, pins counted from below.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Move {
    /// The electrode in words: "plate", "cathode of the second triode".
    pub electrode: String,
    /// Where the wire is now: "2", "cap".
    pub from: String,
    /// Where it has to go.
    pub to: String,
}

/// A part to fit, with its figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PartToFit {
    /// What it is: "wire-wound resistor", "silicon diode 1N4007".
    pub part: String,
    /// Its value as the trade writes it: "68 ohm", "0.022 uF (22 nF, marked 223)".
    pub value: String,
    /// What it turns into heat, watts; absent where it has no meaning.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub dissipates_w: Option<f64>,
    /// The rating to buy, as sold: "5 W", "250 V", "class Y2".
    pub rating: String,
}

/// Something that has to be done for the answer to hold.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Change {
    /// What to do, one sentence.
    pub says: String,
    /// The part it takes, if any.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub part: Option<PartToFit>,
    /// The wires it moves.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<Move>>"))]
    pub moves: Vec<Move>,
}

/// A warning that belongs to an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Caution {
    /// What it is about, in a word or two; the same topic is shown once.
    pub topic: &'static str,
    /// What to know and do.
    pub says: &'static str,
    /// Where it comes from: a publication, or "common practice, no source".
    pub source: &'static str,
}

impl Finding {
    /// A finding with no figures.
    pub fn plain(check: &str, outcome: Outcome, says: impl Into<String>) -> Self {
        Self::of(check, outcome, None, None, says.into())
    }

    /// One copy of what every finding is made by.
    #[inline(never)]
    fn of(check: &str, outcome: Outcome, wanted: Option<String>, found: Option<String>, says: String) -> Self {
        Self { check: check.to_owned(), outcome, wanted, found, says }
    }

    /// A finding that sets one figure against another.
    pub fn figures(
        check: &str,
        outcome: Outcome,
        wanted: impl Into<String>,
        found: impl Into<String>,
        says: impl Into<String>,
    ) -> Self {
        Self::of(check, outcome, Some(wanted.into()), Some(found.into()), says.into())
    }
}

impl Change {
    /// A change that takes no part and moves no wire.
    pub fn plain(says: impl Into<String>) -> Self {
        Self { says: says.into(), part: None, moves: Vec::new() }
    }

    /// A change that takes a part.
    pub fn with_part(says: impl Into<String>, part: PartToFit) -> Self {
        Self { says: says.into(), part: Some(part), moves: Vec::new() }
    }
}

/// The words with a capital at the front.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| std::iter::once(first.to_ascii_uppercase()).chain(letters).collect())
}
