//! Does the insulation between heater and cathode stand what this socket puts on it?
//!
//! In a string a heater is as far from chassis as the heaters between them add up to, at the crest; where its place is not known, no further than
//! the crest of the line. A rectifier's cathode is at B+ besides; of two high-frequency triodes one above the other the upper cathode is at the lower plate's volts. Where the line is not known, the original's rating is the
//! measure. Source: receiving-tube ratings.

use super::{Check, Fact, Socket, Supply, high_frequency, line_crest};
use crate::book::{Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "Near the line end of a string, and at any rectifier, the heater is far from its cathode in volts. Insulation that breaks down there gives hum, or puts the line where it must not be: a 90 V tube at the line end of a string.";

/// Ratings compared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeaterCathodeFact {
    /// Original, volts.
    pub own_v: Option<f64>,
    /// Candidate, volts.
    pub other_v: Option<f64>,
    /// The most volts the line can put there, when the line is known.
    pub place_v: Option<f64>,
    /// Whether the place asks for it: a string, a rectifier, or triodes one above the other.
    pub asked: bool,
}

/// Allowance for the rounding of published figures (330 V for a 117 V line).
const ROUNDING: f64 = 0.99;
/// Least part of the original's rating that counts as the same: 100 V and 90 V are one figure in books of different years.
const LIKE_PART: f64 = 0.9;

/// What the upper cathode may see of the lower plate's handbook volts. A judgement, no source.
const STACKED_PART: f64 = 1.1;

/// The check. On a winding with the cathodes near chassis it is not asked; a directly heated tube has none.
pub fn check(original: &Tube, candidate: &Tube, socket: &Socket) -> Check {
    let rectifier = original.units.iter().any(|unit| matches!(unit.function, Function::Rectifier | Function::Damper));
    let string = matches!(socket.supply, Supply::Series { .. });
    let has_cathode = |tube: &Tube| tube.heater_kind == Some(crate::book::HeaterKind::Heater);
    let mut stacked_v = original.units.iter().filter(|unit| high_frequency(unit)).map(|unit| unit.figures.typ_plate_v);
    let first_v = stacked_v.next().flatten();
    let stacked = stacked_v.next().is_some();
    let asked = (string || rectifier || stacked) && has_cathode(candidate);
    let fact = HeaterCathodeFact {
        own_v: original.figures.heater_cathode_max_v,
        other_v: candidate.figures.heater_cathode_max_v,
        place_v: line_crest(original, socket).map(|crest| {
            let heater_v = place_v(candidate, socket).map_or(crest, |volts| volts.min(crest));
            if rectifier { crest + heater_v } else { heater_v }
        }),
        asked,
    };
    // Of a heater even at the very end of the string only one end is at the crest; a rectifier's cathode is at B+ besides.
    let part = if rectifier { ROUNDING } else { LIKE_PART };
    let below_v = if stacked { first_v.map(|volts| STACKED_PART * volts) } else { Some(0.0) };
    let place_v = if stacked && !string { below_v } else { fact.place_v };
    let enough = fact
        .other_v
        .zip(place_v)
        .zip(below_v)
        .is_some_and(|((other, place), below)| other >= (part * place).max(below));
    let outcome = if !asked || enough {
        Outcome::Ok
    } else if !has_cathode(original) {
        // A filament rectifier's socket has heater and cathode on one winding.
        Outcome::Ok
    } else {
        match (fact.own_v, fact.other_v) {
            (Some(own), Some(other)) if other >= LIKE_PART * own => Outcome::Ok,
            // Nearer the chassis end of the string any heater can be given less; a rectifier's cathode is at B+ wherever its heater is.
            (Some(_), Some(_)) if string && !rectifier => Outcome::NeedsChange,
            (Some(_), Some(_)) => Outcome::Fails,
            _ => Outcome::Unknown,
        }
    };
    Check::new(Fact::HeaterCathode(fact), outcome)
}

/// Crest volts between chassis and the far end of this heater, when its place in the string is known.
fn place_v(candidate: &Tube, socket: &Socket) -> Option<f64> {
    let Supply::Series { chassis_v, .. } = socket.supply else { return None };
    Some(std::f64::consts::SQRT_2 * (chassis_v? + candidate.figures.heater_v?))
}
