//! The warm supply: one cycle that closes on itself, and the figures read from it.

use super::linear::{Matrix, State, joined};
use super::network::{Instant, Network, Panel, SECOND, difference};
use super::{Circuit, Topology, Trouble};

/// Newton steps allowed. Ordinary radios take four to seven.
const MOST_STEPS: u32 = 60;
/// A correction below this share of the crest ends the search ...
const SETTLED: f64 = 1e-7;
/// ... and below this one it is good enough when no step is left.
const NEARLY_SETTLED: f64 = 1e-3;

/// The supply in its steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steady {
    /// Mean volts on the first filter capacitor.
    pub first_v: f64,
    /// Peak to peak ripple on it, volts.
    pub first_ripple_v: f64,
    /// Mean volts on the second filter capacitor, if there is one.
    pub second_v: Option<f64>,
    /// Peak to peak ripple on it, volts.
    pub second_ripple_v: Option<f64>,
    /// Mean current the rectifiers give, milliamps.
    pub dc_ma: f64,
    /// Rms current in the series resistor, milliamps: of all pulses together.
    pub rms_ma: f64,
    /// Crest of the current through a rectifier, amperes.
    pub peak_a: f64,
    /// Mean current through one rectifier, milliamps.
    pub each_dc_ma: f64,
    /// Rms current through one rectifier (the busier of a doubler's two), milliamps.
    pub each_rms_ma: f64,
    /// Heat in the series resistor, watts, from the rms current.
    pub series_w: f64,
    /// Rms current in the first filter capacitor (the busier of a doubler's two), milliamps.
    pub capacitor_ma: f64,
    /// The most the rectifier stands in reverse with this load, volts. A rating has to go by
    /// [`inverse_needed_v`](super::inverse_needed_v) instead: without load it is higher. In a bridge the crest.
    pub inverse_v: f64,
}

/// One moment of the closed cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CyclePoint {
    /// Milliseconds into the cycle of the line.
    pub ms: f64,
    /// First filter, volts.
    pub first_v: f64,
    /// Second filter, volts; zero when there is none.
    pub second_v: f64,
    /// Through the rectifiers, milliamps.
    pub rectifier_ma: f64,
}

/// Solves the circuit warm.
///
/// # Errors
/// A figure out of range, a load of fixed current that the supply cannot carry, or a cycle that does not settle
/// (not met in a million half-wave circuits drawn at random).
pub fn steady(circuit: &Circuit) -> Result<Steady, Trouble> {
    let Solved { network, gauge, .. } = solve(circuit)?;
    let (begin, end) = network.span();
    let turn = end - begin;
    let rms = |square: f64| (square / turn).max(0.0).sqrt();
    let [one, two] = gauge.paths;
    let rms_a = rms(one.squared + two.squared);
    let mean_a = (one.mean + two.mean) / turn;
    // Of a doubler's two rectifiers each carries the whole output, of a full-wave pair half of it.
    let (dc_a, each_dc_a, each_rms_a) = match circuit.topology {
        Topology::HalfWave => (mean_a, mean_a, rms_a),
        Topology::CentreTap | Topology::Bridge => (mean_a, 0.5 * mean_a, rms_a * std::f64::consts::FRAC_1_SQRT_2),
        Topology::FullWaveDoubler { .. } | Topology::HalfWaveDoubler { .. } => {
            (0.5 * mean_a, 0.5 * mean_a, rms(one.squared.max(two.squared)))
        }
    };
    let second = network.has_second();
    Ok(Steady {
        first_v: gauge.first / turn,
        first_ripple_v: gauge.most_v - gauge.least_v,
        second_v: second.then_some(gauge.second / turn),
        second_ripple_v: second.then_some(gauge.most[SECOND] - gauge.least[SECOND]),
        dc_ma: dc_a * 1e3,
        rms_ma: rms_a * 1e3,
        peak_a: gauge.peak_a,
        each_dc_ma: each_dc_a * 1e3,
        each_rms_ma: each_rms_a * 1e3,
        series_w: rms_a * rms_a * circuit.series_ohm,
        capacitor_ma: rms(gauge.charging_squared[0].max(gauge.charging_squared[1])) * 1e3,
        inverse_v: gauge.inverse_v,
    })
}

/// The settled cycle of the line at `count` evenly spaced moments, the first at its start and the last just before its end.
///
/// # Errors
/// As [`steady`].
pub fn cycle(circuit: &Circuit, count: u32) -> Result<Vec<CyclePoint>, Trouble> {
    let Solved { network, start, .. } = solve(circuit)?;
    let mut knots: Vec<Instant> = Vec::new();
    network.cycle(&start, &mut |panel| knots.extend([panel.start, panel.middle, panel.end]));
    let (begin, end) = network.span();
    let mut points = Vec::new();
    let mut at = 0;
    for n in 0..count {
        let turned = 2.0 * std::f64::consts::PI * f64::from(n) / f64::from(count);
        // A full-wave cycle is half a period long and comes twice.
        let angle = begin + turned % (end - begin);
        if knots.get(at).is_some_and(|knot| knot.angle > angle) {
            at = 0;
        }
        while knots.get(at + 1).is_some_and(|knot| knot.angle < angle) {
            at += 1;
        }
        let Some((left, right)) = knots.get(at).zip(knots.get(at + 1)) else { break };
        let width = right.angle - left.angle;
        let share = if width > 0.0 { ((angle - left.angle) / width).clamp(0.0, 1.0) } else { 0.0 };
        let between = |from: f64, to: f64| from + share * (to - from);
        points.push(CyclePoint {
            ms: turned / network.omega * 1e3,
            first_v: between(network.output_v(&left.state), network.output_v(&right.state)),
            second_v: between(left.state[SECOND], right.state[SECOND]),
            rectifier_ma: between(left.amps, right.amps) * 1e3,
        });
    }
    Ok(points)
}

/// A network, the state at which its cycle closes on itself, and what is read in that cycle.
struct Solved {
    network: Network,
    start: State,
    gauge: Gauge,
}

fn solve(circuit: &Circuit) -> Result<Solved, Trouble> {
    circuit.check()?;
    let network = Network::new(circuit);
    let start = settle(&network)?;
    let mut gauge = Gauge::default();
    network.cycle(&start, &mut |panel| gauge.take(&network, panel));
    if network.starves(&gauge.least, gauge.least_v) {
        return Err(Trouble::CannotDeliver);
    }
    Ok(Solved { network, start, gauge })
}

/// Finds the state that comes back after one cycle.
fn settle(network: &Network) -> Result<State, Trouble> {
    if network.is_unloaded() {
        return Ok(network.unloaded());
    }
    if network.never_opens() {
        return Ok([0.0; 4]);
    }
    let mut start = network.guess();
    let mut missed_v = f64::INFINITY;
    let mut held = false;
    for step in 0..MOST_STEPS {
        let closed = network.cycle(&start, &mut |_| ());
        let wanted = corrected(&start, &closed.end, &closed.carry);
        let inside = network.inside(&wanted);
        let moved = difference(&inside, &start);
        missed_v = moved.iter().fold(0.0, |most, move_v| move_v.abs().max(most));
        held = network.is_above(&wanted);
        if missed_v < SETTLED * network.crest_v {
            if !held {
                return Ok(joined(&start, &moved, |volts, move_v| volts + move_v));
            }
            // Held at the top with no rectifier open, nothing would ever move again: the search goes on from below.
            start = start.map(|volts| 0.5 * volts);
            continue;
        }
        // A few circuits in a million, nearly unloaded or nearly starved, have a cycle that jumps at the very root (a pulse
        // that just fails to open, a load that just lets go). Shorter and shorter steps close in on the jump.
        let share = (8.0 / f64::from(step + 1)).min(1.0);
        start = joined(&start, &moved, |volts, move_v| volts + share * move_v);
    }
    if missed_v < NEARLY_SETTLED * network.crest_v && !held { Ok(start) } else { Err(Trouble::NotSettled) }
}

/// Newton's correction: solves (1 - carry) * correction = end - start. The charge a cycle brings falls with the volts at
/// its start and bends upward, so from below Newton closes in from below; a start so high that no rectifier opens
/// has no usable slope and is thrown back to the bottom.
fn corrected(start: &State, end: &State, carry: &Matrix) -> State {
    let correction = carry.less_than_unit().solve(&difference(end, start));
    joined(start, &correction, |start, correction| start + correction)
}

/// Integrals over one path's pulse.
#[derive(Debug, Clone, Copy, Default)]
struct Pulse {
    mean: f64,
    squared: f64,
}

/// What is read while a cycle passes by. Integrals are over the angle.
#[derive(Debug, Clone, Copy)]
struct Gauge {
    first: f64,
    second: f64,
    paths: [Pulse; 2],
    charging_squared: [f64; 2],
    peak_a: f64,
    inverse_v: f64,
    least: State,
    most: State,
    least_v: f64,
    most_v: f64,
}

impl Default for Gauge {
    fn default() -> Self {
        Self {
            first: 0.0,
            second: 0.0,
            paths: [Pulse::default(); 2],
            charging_squared: [0.0; 2],
            peak_a: 0.0,
            inverse_v: 0.0,
            least: [f64::INFINITY; 4],
            most: [f64::NEG_INFINITY; 4],
            least_v: f64::INFINITY,
            most_v: f64::NEG_INFINITY,
        }
    }
}

impl Gauge {
    fn take(&mut self, network: &Network, panel: &Panel) {
        self.first += panel.integral(&|at| network.output_v(&at.state));
        self.second += panel.integral(&|at| at.state[SECOND]);
        if let Some(path) = panel.middle.open {
            self.paths[path].mean += panel.integral(&|at| at.amps);
            self.paths[path].squared += panel.integral(&|at| at.amps * at.amps);
        }
        for (place, sum) in self.charging_squared.iter_mut().enumerate() {
            *sum += panel.integral(&|at| network.charging_a(at, place).powi(2));
        }
        for at in [panel.start, panel.middle, panel.end] {
            self.peak_a = self.peak_a.max(at.amps);
            self.inverse_v = self.inverse_v.max(network.inverse_v(&at));
            self.least = joined(&self.least, &at.state, f64::min);
            self.most = joined(&self.most, &at.state, f64::max);
            self.least_v = self.least_v.min(network.output_v(&at.state));
            self.most_v = self.most_v.max(network.output_v(&at.state));
        }
    }
}
