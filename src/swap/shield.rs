//! Is a metal shell lost that shielded the stage? Source: club newsletter on interchangeable types, February 1991.

use super::{Check, Fact};
use crate::book::pins::{Electrodes, MOST_UNITS, Part, Shared};
use crate::book::{Envelope, Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "A metal shell is a shield. Glass in its place in a high-frequency stage may whistle or hum until a shield can is fitted and the trimmers are touched up: 12SK7GT for 12SK7.";

/// The check: stages that work at high frequency, and triodes of high amplification whose grid is the cap, which hum without it.
pub fn check(original: &Tube, candidate: &Tube) -> Check {
    let cap_grid = original
        .pins
        .as_ref()
        .is_some_and(|map| (0..MOST_UNITS).any(|unit| map.pins[0].meets(Electrodes::part(unit, Part::Grid1))));
    // A tubular bulb with the shell of its base on a pin is shielded below; a tall one without is not.
    let shell =
        |tube: &Tube| tube.pins.as_ref().map(|map| map.places(Electrodes::shared(Shared::Shell)).next().is_some());
    let shell_lost = shell(original) == Some(true) && shell(candidate) == Some(false);
    let high_frequency = cap_grid
        || original
            .units
            .iter()
            .any(|unit| matches!(unit.function, Function::Pentode | Function::Tetrode | Function::Heptode));
    if !high_frequency {
        return Check::new(Fact::Shield { unknown: false }, Outcome::Ok).minor();
    }
    let outcome = match (original.envelope, candidate.envelope) {
        (Some(Envelope::Metal), Some(other)) if other != Envelope::Metal => Outcome::Differs,
        _ if shell_lost => Outcome::Differs,
        (Some(_), Some(_)) => Outcome::Ok,
        // A glass original was shielded, if at all, by a can that stays.
        (Some(own), None) if own != Envelope::Metal => Outcome::Ok,
        _ => Outcome::Unknown,
    };
    Check::new(Fact::Shield { unknown: outcome == Outcome::Unknown }, outcome).minor()
}
