//! Is there room for it?
//!
//! The book knows the kind of bulb, not its height, so this is a remark and grades nothing. Bulbs with a shoulder (the "G" of early octal types) are taller and wider
//! than tubular, lock-in, miniature and metal ones: outlines of the JEDEC bulb series, ST-12 and larger against T-9, T-5 1/2 and metal shells.

use super::{Check, Fact};
use crate::book::{Envelope, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "A bulb with a shoulder is taller and wider than a tubular or metal one, and an adapter lifts any tube: 6K7G for 6K7 does not go under its shield can.";

/// Why the candidate may want more room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SizeFact {
    /// It has a shoulder where the original has none.
    pub shoulder: bool,
    /// It stands on an adapter, for its base is another.
    pub adapter: bool,
    /// The kind of one of the bulbs is not known.
    pub unknown: bool,
}

/// The remark.
pub fn check(original: &Tube, candidate: &Tube) -> Check {
    let shouldered = |tube: &Tube| tube.envelope.map(|envelope| envelope == Envelope::GlassSt);
    let (own, other) = (shouldered(original), shouldered(candidate));
    let fact = SizeFact {
        shoulder: own == Some(false) && other == Some(true),
        adapter: matches!((original.base, candidate.base), (Some(own), Some(other)) if own != other),
        unknown: own.is_none() || other.is_none(),
    };
    Check::new(Fact::Size(fact), Outcome::Ok).remark().noticed(fact.shoulder || fact.adapter)
}
