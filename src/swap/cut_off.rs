//! Remote, semi-remote or sharp?
//!
//! Looks at: how the control grid cuts off. Why it matters: under automatic gain control a sharp cut-off tube chokes on strong
//! stations, and a remote one in a detector or limiter works poorly; neither harms anything. Example: 12BA6 (remote) and 12AU6 (sharp).
//! Source: receiving-tube manuals.

use super::structure::Structure;
use super::{Check, Fact};
use crate::book::{CutOff, Function, Tube};
use crate::finding::Outcome;

/// The first pair that differs or is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CutOffFact {
    /// Original.
    pub own: Option<CutOff>,
    /// Candidate.
    pub other: Option<CutOff>,
}

/// The check: units with a controlled grid only.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure) -> Check {
    let mut worst = (Outcome::Ok, CutOffFact::default());
    for (own, other) in structure.pairs(original, candidate) {
        use Function::{Heptode, Pentode, Tetrode, TuningIndicator};
        if !matches!(own.function, Pentode | Tetrode | Heptode | TuningIndicator) {
            continue;
        }
        let fact = CutOffFact { own: own.cut_off, other: other.cut_off };
        let outcome = match (fact.own, fact.other) {
            (Some(a), Some(b)) if a == b => Outcome::Ok,
            (Some(_), Some(_)) => Outcome::Differs,
            _ => Outcome::Unknown,
        };
        if outcome >= worst.0 {
            worst = (outcome, fact);
        }
    }
    Check::new(Fact::CutOff(worst.1), worst.0).minor()
}
