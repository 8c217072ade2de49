//! How far does it pull the tuned circuits on its pins?
//!
//! A coil with C across it moves by df = -f dC / 2C when dC is added: Thomson's formula for small changes. Where frequency and capacitance are not given, a 455 kHz
//! intermediate-frequency coil with 100 pF is taken (common practice, no source). A trimmer makes up for it, so it never grades a swap.

use super::structure::Structure;
use super::{Check, Fact, Socket};
use crate::book::{Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "The tube's own capacitance is part of the tuned circuits on its pins. Some picofarads more or less move them by kilohertz until the trimmers are touched up: 6AC7 (11 pF) for 6SK7 (6 pF).";

/// The stage taken when none is described.
const USUAL_KHZ: f64 = 455.0;
const USUAL_PF: f64 = 100.0;
/// Part of the frequency from which it is worth a touch of the trimmer.
const NOTICED: f64 = 0.002;

/// The pair of capacitances that differs most.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CapacitanceFact {
    /// Original, picofarads.
    pub own_pf: Option<f64>,
    /// Candidate, picofarads.
    pub other_pf: Option<f64>,
    /// Whether it is the output, the plate's side.
    pub output: bool,
    /// Kilohertz the circuit moves, the frequency it is tuned to, and the picofarads across it.
    pub moved: Option<(f64, f64, f64)>,
}

impl CapacitanceFact {
    /// Kilohertz moved, when that is worth a touch of the trimmer.
    pub fn noticed_khz(&self) -> Option<f64> {
        self.moved.filter(|(moved, at, _)| moved.abs() >= NOTICED * at).map(|row| row.0)
    }
}

/// The check: stages that may be tuned.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    use Function::{Heptode, Pentode, Tetrode, Triode};
    let mut worst = CapacitanceFact::default();
    let (mut asked, mut known) = (false, true);
    let at_khz = socket.tuned_khz.unwrap_or(USUAL_KHZ);
    let across_pf = socket.tuned_pf.unwrap_or(USUAL_PF);
    for (own, other) in structure.pairs(original, candidate) {
        let tuned = matches!(own.function, Pentode | Tetrode | Heptode)
            || (own.function == Triode && socket.tuned_khz.is_some());
        if !tuned {
            continue;
        }
        asked = true;
        let (a, b) = (&own.figures, &other.figures);
        for (own_pf, other_pf, output) in [(a.input_pf, b.input_pf, false), (a.output_pf, b.output_pf, true)] {
            let moved = own_pf.zip(other_pf).map(|(x, y)| (-at_khz * (y - x) / (2.0 * across_pf), at_khz, across_pf));
            known &= moved.is_some();
            let size = |moved: Option<(f64, f64, f64)>| moved.map_or(-1.0, |row| row.0.abs());
            if size(moved) > size(worst.moved) {
                worst = CapacitanceFact { own_pf, other_pf, output, moved };
            }
        }
    }
    let outcome = if asked && !known { Outcome::Unknown } else { Outcome::Ok };
    Check::new(Fact::Capacitance(worst), outcome).remark().noticed(worst.noticed_khz().is_some())
}
