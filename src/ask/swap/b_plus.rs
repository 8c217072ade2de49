//! B+ of a half-wave set with either rectifier, by the supply engine; elsewhere, what would settle it.

use super::socket::SocketQuestion;
use crate::book::{Function, Tube};
use crate::finding::{Finding, Outcome};
use crate::quantity::{significant, volt};
use crate::supply::{Circuit, Load, Rectifier, Topology, steady};
use crate::swap::words::Pair;
use crate::swap::{NOMINAL_LINE_V, Socket, Supply};

/// A table set where nothing else is said: 60 mA from 40 uF, 1 ohm in the line. Common practice, no source.
const LOAD_MA: f64 = 60.0;
const FIRST_UF: f64 = 40.0;
const LINE_OHM: f64 = 1.0;
/// Output power and dissipation of an output tube go with the 5/2 power of B+, by the 3/2-power law of its current.
const POWER: f64 = 2.5;

/// The finding; none where there is no half-wave rectifier across a line that is known, or a tube drop is missing.
pub(super) fn b_plus(pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Option<Finding> {
    let Supply::Series { amps, line_v, .. } = socket.supply else { return None };
    let string_a = amps.or(pair.original.figures.heater_a);
    // In a string of 0.1 A the line may be any.
    let line_v = line_v.or(string_a.filter(|string_a| *string_a > 0.14).map(|_| NOMINAL_LINE_V))?;
    let load_ma = question.load_ma.unwrap_or(LOAD_MA);
    let first_uf = question.first_filter_uf.unwrap_or(FIRST_UF);
    let with = |tube: &Tube| {
        let mut plates = tube.units.iter().filter(|unit| unit.function == Function::Rectifier);
        let (unit, None) = (plates.next()?, plates.next()) else { return None };
        let rectifier = Rectifier::Vacuum { drop_v: unit.figures.drop_v?, drop_ma: unit.figures.drop_ma? };
        let circuit = Circuit {
            topology: Topology::HalfWave,
            line_v,
            line_hz: if line_v > 160.0 { 50.0 } else { 60.0 },
            rectifier,
            source_ohm: LINE_OHM,
            series_ohm: 0.0,
            first_uf,
            first_load: Load::Current { ma: load_ma },
            filter: None,
        };
        steady(&circuit).ok().map(|warm| (warm.first_v, circuit.crest_v()))
    };
    let ((own_v, crest_v), (other_v, _)) = (with(pair.original)?, with(pair.candidate)?);
    let by_percent = 100.0 * ((other_v / own_v).powf(POWER) - 1.0);
    let outcome = if (other_v / own_v - 1.0).abs() <= 0.05 { Outcome::Ok } else { Outcome::Differs };
    let taken = [
        (question.load_ma.is_none(), "`load_ma`"),
        (question.first_filter_uf.is_none(), "`first_filter_uf`"),
        (!matches!(socket.supply, Supply::Series { line_v: Some(_), .. }), "`line_v`"),
    ];
    let taken: Vec<&str> = taken.iter().filter(|fact| fact.0).map(|fact| fact.1).collect();
    let taken = if taken.is_empty() {
        String::new()
    } else {
        format!(" Not given, and taken as common: {}.", taken.join(", "))
    };
    let says = format!(
        "With {} mA from {} uF on a {} line; the output tube then works with about {} % of its power. Until the tubes draw, the filter capacitors stand at {} with either.{taken}",
        significant(load_ma, 3),
        significant(first_uf, 3),
        volt(line_v),
        significant(100.0 + by_percent, 3),
        volt(crest_v)
    );
    Some(Finding::figures("B+ warm", outcome, volt(own_v), volt(other_v), says))
}

/// What is said of a B+ that is only told by the tube drops, and what would settle it. No winding and no wiring is made up.
pub(super) fn unsettled(pair: &Pair<'_>, socket: &Socket) -> &'static str {
    let lone = |tube: &Tube| tube.units.iter().filter(|unit| unit.function == Function::Rectifier).count() == 1;
    match socket.supply {
        Supply::Series { line_v: None, .. } if lone(pair.original) && lone(pair.candidate) => {
            " That is only the difference of the two tube drops: with the line volts (`line_v`) B+ itself is worked out."
        }
        Supply::Series { .. } => {
            " That is only the difference of the two tube drops: how the plates are wired, the line, the load and the first filter settle it; the question `rectifier` with `replacement` works B+ out from them."
        }
        _ => {
            " That is only the difference of the two tube drops: the winding's volts and ohms, the load and the first filter settle it; the question `rectifier` with `replacement` works B+ out from them."
        }
    }
}
