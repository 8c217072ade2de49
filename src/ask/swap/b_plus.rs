//! B+ of a half-wave set with either rectifier, by the supply engine.

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
    let string_a = amps.or(pair.original.figures.heater_a)?;
    let line_v = line_v.or((string_a > 0.14).then_some(NOMINAL_LINE_V))?;
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
    let says = format!(
        "With {} mA from {} uF on a {} line; the output tube then works with about {} % of its power. Until the tubes draw, the filter capacitors stand at {} with either.",
        significant(load_ma, 3),
        significant(first_uf, 3),
        volt(line_v),
        significant(100.0 + by_percent, 3),
        volt(crest_v)
    );
    Some(Finding::figures("B+ warm", outcome, volt(own_v), volt(other_v), says))
}
