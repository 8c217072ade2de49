//! Is a metal shell lost that shielded the stage? Source: club newsletter on interchangeable types, February 1991.

use super::{Check, Fact};
use crate::book::{Envelope, Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "A metal shell is a shield. Glass in its place in a high-frequency stage may whistle or hum until a shield can is fitted and the trimmers are touched up: 12SK7GT for 12SK7.";

/// The check: stages that work at high frequency only.
pub fn check(original: &Tube, candidate: &Tube) -> Check {
    let high_frequency = original
        .units
        .iter()
        .any(|unit| matches!(unit.function, Function::Pentode | Function::Tetrode | Function::Heptode));
    if !high_frequency {
        return Check::new(Fact::Shield { unknown: false }, Outcome::Ok).minor();
    }
    let outcome = match (original.envelope, candidate.envelope) {
        (Some(Envelope::Metal), Some(other)) if other != Envelope::Metal => Outcome::Differs,
        (Some(_), Some(_)) => Outcome::Ok,
        // A glass original was shielded, if at all, by a can that stays.
        (Some(own), None) if own != Envelope::Metal => Outcome::Ok,
        _ => Outcome::Unknown,
    };
    Check::new(Fact::Shield { unknown: outcome == Outcome::Unknown }, outcome).minor()
}
