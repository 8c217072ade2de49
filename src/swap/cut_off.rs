//! Remote, semi-remote or sharp? Source: receiving-tube manuals.

use super::structure::Structure;
use super::{Check, Fact, Socket};
use crate::book::{CutOff, Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "Under automatic gain control (AGC) a grid that cuts off sharply chokes on strong stations; a remote one in a detector or limiter works poorly. Neither harms anything: 12AU6 (sharp) for 12BA6 (remote).";

/// The first pair that differs or is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CutOffFact {
    /// Original.
    pub own: Option<CutOff>,
    /// Candidate.
    pub other: Option<CutOff>,
    /// Whether the stage is under automatic gain control, when that is known.
    pub agc: Option<bool>,
}

/// The check: units with a controlled grid only.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let mut worst = (Outcome::Ok, CutOffFact::default());
    for (own, other) in structure.pairs(original, candidate) {
        use Function::{Heptode, Pentode, Tetrode, Triode, TuningIndicator};
        let named = |cut_off: Option<CutOff>| matches!(cut_off, Some(CutOff::Remote | CutOff::SemiRemote));
        match own.function {
            Pentode | Tetrode | Heptode | TuningIndicator => {}
            // A triode cuts off as triodes do, unless it was made for control; only then does the book say so.
            Triode if named(own.cut_off) != named(other.cut_off) && socket.agc != Some(false) => {
                let fact = CutOffFact { own: own.cut_off, other: other.cut_off, agc: socket.agc };
                return Check::new(Fact::CutOff(fact), Outcome::Differs).minor();
            }
            _ => continue,
        }
        let fact = CutOffFact { own: own.cut_off, other: other.cut_off, agc: socket.agc };
        let outcome = match (fact.own, fact.other) {
            (Some(a), Some(b)) if a == b => Outcome::Ok,
            // Without control the grid works at one point, and the bend beyond it is never reached.
            (Some(_), Some(_)) if socket.agc == Some(false) && own.function != TuningIndicator => Outcome::Ok,
            (Some(_), Some(_)) => Outcome::Differs,
            _ => Outcome::Unknown,
        };
        if outcome >= worst.0 {
            worst = (outcome, fact);
        }
    }
    Check::new(Fact::CutOff(worst.1), worst.0).minor()
}
