//! B+ with either rectifier, by the supply engine, where it is told what feeds them; elsewhere, what would settle it.

use super::socket::SocketQuestion;
use crate::ask::rectifier;
use crate::book::{Function, Tube};
use crate::finding::{Finding, Outcome};
use crate::passive::Line;
use crate::quantity::{ohm, significant, volt, whole};
use crate::supply::{Circuit, Load, Rectifier, Topology, steady};
use crate::swap::words::Pair;
use crate::swap::{NOMINAL_LINE_V, Socket, Supply};

/// A table set where nothing else is said: 60 mA from 40 uF. Common practice, no source.
const LOAD_MA: f64 = 60.0;
const FIRST_UF: f64 = 40.0;
/// Output power and dissipation of an output tube go with the 5/2 power of B+, by the 3/2-power law of its current.
const POWER: f64 = 2.5;

/// What feeds the plates, as far as it is told or may be taken as common.
struct Fed {
    topology: Topology,
    volts: f64,
    hertz: f64,
    source_ohm: f64,
    load_ma: f64,
    first_uf: f64,
    /// "on a 120 V line".
    words: String,
    /// Facts that were not told.
    taken: Vec<&'static str>,
}

/// How many plates rectify.
fn plates(tube: &Tube) -> usize {
    tube.units.iter().filter(|unit| unit.function == Function::Rectifier).count()
}

impl Fed {
    /// None where there is no rectifier, where the two have not as many plates, or where it is not told what feeds them.
    fn of(pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Option<Self> {
        let count = plates(pair.original);
        if count != plates(pair.candidate) {
            return None;
        }
        match (count, question.secondary_v.zip(question.secondary_ohm)) {
            (1 | 2, Some((volts, secondary_ohm))) => Some(Self {
                topology: if count == 2 { Topology::CentreTap } else { Topology::HalfWave },
                volts,
                hertz: rectifier::LINE_HZ,
                source_ohm: rectifier::winding_source_ohm(secondary_ohm, volts / rectifier::LINE_V),
                // Nothing is common to the supplies of all transformer sets.
                load_ma: question.load_ma?,
                first_uf: question.first_filter_uf?,
                words: format!(
                    "on a winding of {} and {} at {} Hz",
                    volt(volts),
                    ohm(secondary_ohm),
                    whole(rectifier::LINE_HZ)
                ),
                taken: Vec::new(),
            }),
            (1, None) => Self::of_line(pair, socket, question),
            _ => None,
        }
    }

    /// One plate straight on the line.
    fn of_line(pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Option<Self> {
        let Supply::Series { amps, line_v, .. } = socket.supply else { return None };
        let string_a = amps.or(pair.original.figures.heater_a);
        // In a string of 0.1 A the line may be any.
        let volts = line_v.or(string_a.filter(|string_a| *string_a > 0.14).map(|_| NOMINAL_LINE_V))?;
        let taken = [
            (question.load_ma.is_none(), "`load_ma`"),
            (question.first_filter_uf.is_none(), "`first_filter_uf`"),
            (line_v.is_none(), "`line_v`"),
        ];
        Some(Self {
            topology: Topology::HalfWave,
            volts,
            hertz: Line::usual_hertz(volts),
            source_ohm: rectifier::LINE_OHM,
            load_ma: question.load_ma.unwrap_or(LOAD_MA),
            first_uf: question.first_filter_uf.unwrap_or(FIRST_UF),
            words: format!("on a {} line", volt(volts)),
            taken: taken.iter().filter(|fact| fact.0).map(|fact| fact.1).collect(),
        })
    }

    /// B+ at the first filter with a tube in place, volts, and the crest at which the capacitors stand until the tubes draw.
    fn with(&self, tube: &Tube, first_load: Load) -> Option<(f64, f64)> {
        let unit = tube.unit_of(Function::Rectifier)?;
        let circuit = Circuit {
            topology: self.topology,
            line_v: self.volts,
            line_hz: self.hertz,
            rectifier: Rectifier::Vacuum { drop_v: unit.figures.drop_v?, drop_ma: unit.figures.drop_ma? },
            source_ohm: self.source_ohm,
            series_ohm: 0.0,
            first_uf: self.first_uf,
            first_load,
            filter: None,
        };
        steady(&circuit).ok().map(|warm| (warm.first_v, circuit.crest_v()))
    }
}

/// The finding; none where it is not told what feeds the plates, or a tube drop is missing.
pub(super) fn b_plus(pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Option<Finding> {
    let fed = Fed::of(pair, socket, question)?;
    let ma = fed.load_ma;
    let (own_v, crest_v) = fed.with(pair.original, Load::Current { ma })?;
    // What the set draws with the original it draws more of where B+ comes out higher.
    let (other_v, _) = fed.with(pair.candidate, Load::ThreeHalves { ma, at_v: own_v })?;
    let by_percent = 100.0 * ((other_v / own_v).powf(POWER) - 1.0);
    let outcome = if (other_v / own_v - 1.0).abs() <= 0.05 { Outcome::Ok } else { Outcome::Differs };
    let taken = if fed.taken.is_empty() {
        String::new()
    } else {
        format!(" Not given, and taken as common: {}.", fed.taken.join(", "))
    };
    let says = format!(
        "With {} mA from {} uF {}, drawn with the original; the output tube then works with about {} % of its power. Until the tubes draw, the filter capacitors stand at {} with either.{taken}",
        significant(ma, 3),
        significant(fed.first_uf, 3),
        fed.words,
        significant(100.0 + by_percent, 3),
        volt(crest_v)
    );
    Some(Finding::figures("B+ warm", outcome, volt(own_v), volt(other_v), says))
}

/// What is said of a B+ that is only told by the tube drops, and what would settle it. No winding and no wiring is made up.
pub(super) fn unsettled(pair: &Pair<'_>, socket: &Socket) -> &'static str {
    let lone = |tube: &Tube| plates(tube) == 1;
    match socket.supply {
        Supply::Series { line_v: None, .. } if lone(pair.original) && lone(pair.candidate) => {
            " That is only the difference of the two tube drops: with the line volts (`line_v`) B+ itself is worked out."
        }
        Supply::Series { .. } => {
            " That is only the difference of the two tube drops: how the plates are wired, the line, the load and the first filter settle it; the question `rectifier` with `replacement` works B+ out from them."
        }
        _ => {
            " That is only the difference of the two tube drops: with the winding's volts and ohms (`secondary_v`, `secondary_ohm`), `load_ma` and `first_filter_uf` B+ itself is worked out."
        }
    }
}
