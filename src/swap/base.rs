//! Does it go into the socket? Source: JEDEC base outlines.

use super::{Check, Fact};
use crate::book::Tube;
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "The base decides the socket: another one needs an adapter, or a new socket and every wire moved. The octal 12SQ7 and the 7-pin 12AV6 do one job on two bases.";

/// The check.
pub fn check(original: &Tube, candidate: &Tube) -> Check {
    let outcome = match (original.base, candidate.base) {
        (Some(a), Some(b)) if a == b => Outcome::Ok,
        (Some(_), Some(_)) => Outcome::NeedsChange,
        _ => Outcome::Unknown,
    };
    Check::new(Fact::Base(original.base, candidate.base), outcome)
}
