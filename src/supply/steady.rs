//! The warm supply: one cycle that closes on itself, and the figures read from it.

use super::linear::{Matrix, Volts};
use super::network::{Network, Panel};
use super::{Circuit, Trouble};

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
    /// Mean current through the rectifier, milliamps.
    pub dc_ma: f64,
    /// Rms current through the rectifier, milliamps.
    pub rms_ma: f64,
    /// Crest of the current through the rectifier, amperes.
    pub peak_a: f64,
    /// Heat in the series resistor, watts, from the rms current.
    pub series_w: f64,
    /// Rms current in the first filter capacitor, milliamps.
    pub capacitor_ma: f64,
    /// The most the rectifier stands in reverse with this load, volts. A rating has to go by
    /// [`inverse_needed_v`](super::inverse_needed_v) instead: without load it is higher.
    pub inverse_v: f64,
}

/// One moment of the closed cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CyclePoint {
    /// Milliseconds after the negative crest of the line.
    pub ms: f64,
    /// First filter, volts.
    pub first_v: f64,
    /// Second filter, volts; zero when there is none.
    pub second_v: f64,
    /// Through the rectifier, milliamps.
    pub rectifier_ma: f64,
}

/// Solves the circuit warm.
///
/// # Errors
/// A figure out of range, a load of fixed current that the supply cannot carry, or a cycle that does not settle
/// (not met in a million circuits drawn at random).
pub fn steady(circuit: &Circuit) -> Result<Steady, Trouble> {
    let Solved { network, gauge, .. } = solve(circuit)?;
    let turn = 2.0 * std::f64::consts::PI;
    let rms = |square: f64| (square / turn).max(0.0).sqrt();
    let rms_a = rms(gauge.amps_squared);
    Ok(Steady {
        first_v: gauge.first / turn,
        first_ripple_v: gauge.most.first - gauge.least.first,
        second_v: network.has_second().then_some(gauge.second / turn),
        second_ripple_v: network.has_second().then_some(gauge.most.second - gauge.least.second),
        dc_ma: gauge.amps / turn * 1e3,
        rms_ma: rms_a * 1e3,
        peak_a: gauge.peak_a,
        series_w: rms_a * rms_a * circuit.series_ohm,
        capacitor_ma: rms(gauge.charging_squared) * 1e3,
        inverse_v: gauge.inverse_v,
    })
}

/// The settled cycle at `count` evenly spaced moments, from one negative crest of the line to just before the next.
///
/// # Errors
/// As [`steady`].
pub fn cycle(circuit: &Circuit, count: u32) -> Result<Vec<CyclePoint>, Trouble> {
    let Solved { network, start, .. } = solve(circuit)?;
    let mut knots = Vec::new();
    network.cycle(start, |panel| knots.extend([panel.start, panel.middle, panel.end]));
    let mut points = Vec::new();
    let mut pairs = knots.iter().zip(knots.iter().skip(1)).peekable();
    for n in 0..count {
        let turned = 2.0 * std::f64::consts::PI * f64::from(n) / f64::from(count);
        let angle = turned - std::f64::consts::FRAC_PI_2;
        while pairs.peek().is_some_and(|(_, right)| right.angle < angle) {
            pairs.next();
        }
        let Some((left, right)) = pairs.peek() else { break };
        let width = right.angle - left.angle;
        let share = if width > 0.0 { ((angle - left.angle) / width).clamp(0.0, 1.0) } else { 0.0 };
        let between = |from: f64, to: f64| from + share * (to - from);
        points.push(CyclePoint {
            ms: turned / network.omega * 1e3,
            first_v: between(left.volts.first, right.volts.first),
            second_v: between(left.volts.second, right.volts.second),
            rectifier_ma: between(left.amps, right.amps) * 1e3,
        });
    }
    Ok(points)
}

/// A network, the volts at which its cycle closes on itself, and what is read in that cycle.
struct Solved {
    network: Network,
    start: Volts,
    gauge: Gauge,
}

fn solve(circuit: &Circuit) -> Result<Solved, Trouble> {
    circuit.check()?;
    let network = Network::new(circuit);
    let start = settle(&network)?;
    let mut gauge = Gauge::default();
    network.cycle(start, |panel| gauge.take(&network, panel));
    if network.starves(gauge.least) {
        return Err(Trouble::CannotDeliver);
    }
    Ok(Solved { network, start, gauge })
}

/// Finds the volts at the negative crest that come back after one cycle.
fn settle(network: &Network) -> Result<Volts, Trouble> {
    if network.is_unloaded() {
        let volts = network.unloaded_v();
        return Ok(Volts { first: volts, second: if network.has_second() { volts } else { 0.0 } });
    }
    let mut start = network.guess();
    let mut missed_v = f64::INFINITY;
    for step in 0..MOST_STEPS {
        let closed = network.cycle(start, |_| ());
        let moved = corrected(network, start, closed.end, closed.carry) - start;
        missed_v = moved.first.abs().max(moved.second.abs());
        // A few circuits in a million, nearly unloaded or nearly starved, have a cycle that jumps at the very root (a pulse
        // that just fails to open, a load that just lets go). Shorter and shorter steps close in on the jump.
        let share = (8.0 / f64::from(step + 1)).min(1.0);
        start = Volts { first: start.first + share * moved.first, second: start.second + share * moved.second };
        if missed_v < SETTLED * network.crest_v {
            return Ok(start);
        }
    }
    if missed_v < NEARLY_SETTLED * network.crest_v { Ok(start) } else { Err(Trouble::NotSettled) }
}

/// Newton's correction: solves (1 - carry) * correction = end - start. The charge a cycle brings falls with the volts at
/// its start and bends upward, so from below Newton closes in from below; a start so high that the rectifier never opens
/// has no usable slope and is thrown back to the bottom.
fn corrected(network: &Network, start: Volts, end: Volts, carry: Matrix) -> Volts {
    let missed = end - start;
    let slope = Matrix { ff: 1.0 - carry.ff, fs: -carry.fs, sf: -carry.sf, ss: 1.0 - carry.ss };
    let correction = if network.has_second() {
        let scale = 1.0 / (slope.ff * slope.ss - slope.fs * slope.sf);
        Volts {
            first: scale * (slope.ss * missed.first - slope.fs * missed.second),
            second: scale * (slope.ff * missed.second - slope.sf * missed.first),
        }
    } else {
        Volts { first: missed.first / slope.ff, second: 0.0 }
    };
    let inside = |volts: f64| if volts.is_finite() { volts.clamp(0.0, network.crest_v) } else { 0.0 };
    Volts { first: inside(start.first + correction.first), second: inside(start.second + correction.second) }
}

/// What is read while a cycle passes by. Integrals are over the angle.
#[derive(Debug, Clone, Copy)]
struct Gauge {
    first: f64,
    second: f64,
    amps: f64,
    amps_squared: f64,
    charging_squared: f64,
    peak_a: f64,
    inverse_v: f64,
    least: Volts,
    most: Volts,
}

impl Default for Gauge {
    fn default() -> Self {
        Self {
            first: 0.0,
            second: 0.0,
            amps: 0.0,
            amps_squared: 0.0,
            charging_squared: 0.0,
            peak_a: 0.0,
            inverse_v: 0.0,
            least: Volts { first: f64::INFINITY, second: f64::INFINITY },
            most: Volts { first: f64::NEG_INFINITY, second: f64::NEG_INFINITY },
        }
    }
}

impl Gauge {
    fn take(&mut self, network: &Network, panel: &Panel) {
        self.first += panel.integral(|at| at.volts.first);
        self.second += panel.integral(|at| at.volts.second);
        self.amps += panel.integral(|at| at.amps);
        self.amps_squared += panel.integral(|at| at.amps * at.amps);
        self.charging_squared += panel.integral(|at| network.charging_a(at).powi(2));
        for at in [panel.start, panel.middle, panel.end] {
            self.peak_a = self.peak_a.max(at.amps);
            self.inverse_v = self.inverse_v.max(at.volts.first - network.crest_v * at.angle.sin());
            self.least.first = self.least.first.min(at.volts.first);
            self.least.second = self.least.second.min(at.volts.second);
            self.most.first = self.most.first.max(at.volts.first);
            self.most.second = self.most.second.max(at.volts.second);
        }
    }
}
