//! One cycle of a supply, cut at the points where a rectifier opens and shuts.
//!
//! Every topology is the same few figures: how each rectifier sees the line and the capacitors, which capacitors its current
//! fills, and between which the load lies. No two rectifiers conduct at once. Full-wave circuits are half a period of the line
//! long, since the other half is the same. Between switching points the circuit is advanced in panels. In each panel the
//! rectifier and the loads are replaced by their tangents at the panel's middle and the resulting linear circuit is solved
//! exactly: straight-line laws carry no error at all, curved ones an error that falls with the square of the panel's width.

use std::f64::consts::{FRAC_PI_2, PI};

use super::law::Law;
use super::linear::{Matrix, Phase, State, Step, System, joined};
use super::load::{Line, Load};
use super::root::root;
use super::{Circuit, Topology};

/// Panels over the span in which a rectifier can conduct.
const OPEN_PANELS: f64 = 48.0;
/// Width of a panel with the rectifiers shut, radians.
const SHUT_WIDTH: f64 = PI / 24.0;
/// No panel is narrower, radians, so that every cycle ends.
const LEAST_WIDTH: f64 = 1e-4;
/// Switching points in a cycle before a panel is taken whole, so that a circuit driven where it cannot go (a capacitor pulled
/// below zero) ends its cycle too. An ordinary one has two to four.
const MOST_SWITCHED: u32 = 24;
/// A tangent is taken anew, so many times at the most, while it tells less than this share of the law's current: behind next to no
/// resistance a first guess at the current of a small capacitor is a hundred times too high.
const MOST_TANGENTS: u32 = 8;
const NEAR_TANGENT: f64 = 0.7;
/// A panel is halved, so many times at the most, while its tangent's error at the end moves a capacitor by more than this share of the crest.
const MOST_HALVINGS: u32 = 5;
const SEEN: f64 = 1e-3;
/// A moment this close to a crest is at it, radians.
const AT_CREST: f64 = 1e-9;

/// A capacitor above its most by less than this share of the crest is at it.
const ROUNDING: f64 = 1e-9;

/// Places in the state.
const CHOKE: usize = 2;
pub(super) const SECOND: usize = 3;

/// How one rectifier is wired.
#[derive(Debug, Clone, Copy)]
struct Path {
    /// Which way round it sees the line.
    sign: f64,
    /// What of the two first capacitors stands across it besides.
    against: [f64; 2],
    /// What its current does to them, 1/F.
    fills: [f64; 2],
}

/// The circuit in SI units, ready to be integrated.
#[derive(Debug, Clone)]
pub(super) struct Network {
    pub crest_v: f64,
    pub omega: f64,
    /// Below this a fixed-current load lets go.
    pub floor_v: f64,
    pub topology: Topology,
    law: Law,
    /// Resistance of source and series resistor.
    lead_ohm: f64,
    paths: [Path; 2],
    /// How many of the paths there are.
    path_count: usize,
    /// Which of the two first capacitors the output lies across.
    pub output: [f64; 2],
    /// What the output current does to them, 1/F.
    drains: [f64; 2],
    farads: [f64; 2],
    first_load: Load,
    second: Option<Second>,
}

#[derive(Debug, Clone)]
struct Second {
    ohm: f64,
    henry: f64,
    farad: f64,
    load: Load,
}

/// The circuit at one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct Instant {
    /// Radians after the upward zero crossing of the line.
    pub angle: f64,
    phase: Phase,
    pub state: State,
    /// Which rectifier conducts ...
    pub open: Option<usize>,
    /// ... and how much.
    pub amps: f64,
}

/// A stretch of time with its two ends and its middle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub start: Instant,
    pub middle: Instant,
    pub end: Instant,
}

impl Panel {
    /// Integral over the panel's angle by Simpson's rule.
    pub(super) fn integral(&self, of: &dyn Fn(&Instant) -> f64) -> f64 {
        (self.end.angle - self.start.angle) / 6.0 * (of(&self.start) + 4.0 * of(&self.middle) + of(&self.end))
    }
}

/// Where one cycle ended.
pub(super) struct Closed {
    pub end: State,
    /// How the end moves with the start.
    pub carry: Matrix,
}

impl Network {
    /// Brings a checked circuit into SI units.
    pub(super) fn new(circuit: &Circuit) -> Self {
        let crest_v = circuit.crest_v();
        let first = circuit.first_uf * 1e-6;
        let lead_ohm = circuit.source_ohm + circuit.series_ohm;
        let path = |sign, against, fills| Path { sign, against, fills };
        let single = path(1.0, [-1.0, 0.0], [1.0 / first, 0.0]);
        let (paths, path_count, output, farads) = match circuit.topology {
            Topology::HalfWave | Topology::CentreTap | Topology::Bridge => {
                ([single; 2], 1, [1.0, 0.0], [first, f64::INFINITY])
            }
            Topology::FullWaveDoubler { other_uf } => {
                let other = other_uf * 1e-6;
                ([single, path(-1.0, [0.0, -1.0], [0.0, 1.0 / other])], 2, [1.0, 1.0], [first, other])
            }
            Topology::HalfWaveDoubler { series_uf } => {
                let series = series_uf * 1e-6;
                let fills = path(-1.0, [-1.0, 0.0], [1.0 / series, 0.0]);
                ([fills, path(1.0, [1.0, -1.0], [-1.0 / series, 1.0 / first])], 2, [0.0, 1.0], [series, first])
            }
        };
        Self {
            crest_v,
            omega: 2.0 * PI * circuit.line_hz,
            floor_v: 0.01 * crest_v,
            topology: circuit.topology,
            law: Law::new(&circuit.rectifier, lead_ohm, if circuit.topology == Topology::Bridge { 2.0 } else { 1.0 }),
            lead_ohm,
            paths,
            path_count,
            output,
            drains: [output[0] / farads[0], output[1] / farads[1]],
            farads,
            first_load: circuit.first_load,
            second: circuit.filter.as_ref().map(|filter| Second {
                ohm: filter.ohm,
                henry: filter.henry,
                farad: filter.uf * 1e-6,
                load: filter.load,
            }),
        }
    }

    /// Where a cycle begins and ends. A lone half-wave rectifier is surely shut at the negative crest, a full-wave one as the
    /// line passes zero.
    pub(super) fn span(&self) -> (f64, f64) {
        match self.topology {
            Topology::HalfWave => (-FRAC_PI_2, 3.0 * FRAC_PI_2),
            Topology::CentreTap | Topology::Bridge => (0.0, PI),
            _ => (0.0, 2.0 * PI),
        }
    }

    pub(super) fn has_second(&self) -> bool {
        self.second.is_some()
    }

    /// Volts across the first filter.
    pub(super) fn output_v(&self, state: &State) -> f64 {
        self.output[0] * state[0] + self.output[1] * state[1]
    }

    /// Whether nothing at all is drawn.
    pub(super) fn is_unloaded(&self) -> bool {
        self.first_load == Load::None && self.second.as_ref().is_none_or(|second| second.load == Load::None)
    }

    /// The most that one pulse can fill a capacitor to: the crest, less what the rectifier keeps.
    fn top_v(&self) -> f64 {
        (self.crest_v - self.law.threshold_v()).max(0.0)
    }

    /// Whether the rectifier keeps all of the crest, so that it never opens.
    pub(super) fn never_opens(&self) -> bool {
        self.top_v() == 0.0
    }

    /// The unloaded circuit.
    pub(super) fn unloaded(&self) -> State {
        self.filled(self.top_v())
    }

    /// Capacitors filled as one pulse of `volts` fills them, and the current that then flows through the filter.
    fn filled(&self, volts: f64) -> State {
        let second = if matches!(self.topology, Topology::HalfWaveDoubler { .. }) { 2.0 * volts } else { volts };
        let mut state = [volts, if self.path_count > 1 { second } else { 0.0 }, 0.0, 0.0];
        if let Some(filter) = &self.second {
            let output_v = self.output_v(&state);
            let amps = filter.load.amps(output_v, self.floor_v);
            // Not `clamp`: the panic it may end in prints floats, which weighs 9 kB in the download.
            state[SECOND] = (output_v - amps * filter.ohm).max(0.0).min(output_v);
            if filter.henry > 0.0 {
                state[CHOKE] = (output_v - state[SECOND]) / filter.ohm;
            }
        }
        state
    }

    /// A first guess at the state where the cycle begins.
    pub(super) fn guess(&self) -> State {
        self.filled(0.8 * self.top_v())
    }

    /// A state brought back to what can be: no capacitor reversed or above what the line can give it. A doubler's capacitor sent
    /// above that begins again from half of it, as at the top nothing may flow any more and nothing would bring it down.
    pub(super) fn inside(&self, state: &State) -> State {
        let doubles = self.path_count > 1;
        let mut inside = joined(state, &self.most(), |volts, most_v| {
            if !volts.is_finite() {
                0.0
            } else if doubles && volts > most_v {
                0.5 * most_v
            } else {
                volts.max(0.0).min(most_v)
            }
        });
        if state[CHOKE].is_finite() {
            inside[CHOKE] = state[CHOKE];
        }
        inside
    }

    /// The most that the line can give each capacitor.
    fn most(&self) -> State {
        let twice = if self.path_count > 1 { 2.0 } else { 1.0 };
        let second = self.output[1] * if self.output[0] > 0.0 { 1.0 } else { 2.0 };
        [1.0, second, 0.0, twice].map(|crests| crests * self.top_v())
    }

    /// Whether a state has a capacitor above what the line can give it.
    pub(super) fn is_above(&self, state: &State) -> bool {
        let most = self.most();
        [0, 1, SECOND]
            .into_iter()
            .any(|place| !state[place].is_finite() || state[place] > most[place] + ROUNDING * self.crest_v)
    }

    /// Current with the first capacitor empty at the crest.
    pub(super) fn inrush_a(&self) -> f64 {
        self.law.amps(self.crest_v)
    }

    /// Whether a load of fixed current finds its capacitor empty, or one of the output's capacitors is pulled below zero: a doubler's through the
    /// other, any by a choke.
    pub(super) fn starves(&self, least: &State, least_output_v: f64) -> bool {
        let starving = |load: Load, volts: f64| matches!(load, Load::Current { .. }) && volts < self.floor_v;
        starving(self.first_load, least_output_v)
            || self.second.as_ref().is_some_and(|second| starving(second.load, least[SECOND]))
            || ((self.path_count > 1 || self.second.as_ref().is_some_and(|second| second.henry > 0.0))
                && self.output.iter().zip(least).any(|(share, volts)| *share > 0.0 && *volts < -1e-6 * self.crest_v))
    }

    /// Current out of the first filter.
    fn drawn_a(&self, state: &State) -> f64 {
        let output_v = self.output_v(state);
        let filter_a = self.second.as_ref().map_or(0.0, |second| {
            if second.henry > 0.0 { state[CHOKE] } else { (output_v - state[SECOND]) / second.ohm }
        });
        self.first_load.amps(output_v, self.floor_v) + filter_a
    }

    /// Current into the capacitor in one of the two first places.
    pub(super) fn charging_a(&self, at: &Instant, place: usize) -> f64 {
        let filled = at.open.map_or(0.0, |open| self.paths[open].fills[place] * at.amps);
        let flow = filled - self.drains[place] * self.drawn_a(&at.state);
        if flow == 0.0 { 0.0 } else { flow * self.farads[place] }
    }

    /// The most volts a rectifier stands in reverse at this moment.
    pub(super) fn inverse_v(&self, at: &Instant) -> f64 {
        match self.topology {
            // The leg that rests sees the other half of the winding besides.
            Topology::CentreTap => at.state[0] + self.crest_v * at.phase.sin,
            Topology::Bridge => self.crest_v * at.phase.sin,
            // What the conducting one drops in the lead they share, the other does not see.
            _ => (0..self.path_count)
                .filter(|path| at.open != Some(*path))
                .map(|path| -self.across_v(path, at.phase, &at.state) - self.lead_ohm * at.amps)
                .fold(0.0, f64::max),
        }
    }

    /// Integrates one cycle and shows every panel to `look`.
    pub(super) fn cycle(&self, start: &State, look: &mut dyn FnMut(&Panel)) -> Closed {
        let (begin, end) = self.span();
        let phase = Phase::at(begin);
        let open = (0..self.path_count).find(|path| self.drive_v(*path, phase, start) > 0.0);
        let amps = open.map_or(0.0, |path| self.law.amps(self.across_v(path, phase, start)));
        let mut walk = Walk {
            network: self,
            at: Instant { angle: begin, phase, state: *start, open, amps },
            carry: Matrix::UNIT,
            prepared: None,
            switched: 0,
            look,
        };
        while walk.at.angle < end {
            match walk.at.open {
                None => walk.shut(end),
                Some(path) => walk.open(path, end),
            }
        }
        Closed { end: walk.at.state, carry: walk.carry }
    }

    /// Volts across a rectifier and the series resistance.
    fn across_v(&self, path: usize, phase: Phase, state: &State) -> f64 {
        let Path { sign, against, .. } = self.paths[path];
        sign * self.crest_v * phase.sin + against[0] * state[0] + against[1] * state[1]
    }

    /// The same above the threshold.
    fn drive_v(&self, path: usize, phase: Phase, state: &State) -> f64 {
        self.across_v(path, phase, state) - self.law.threshold_v()
    }

    /// The linear circuit about `state`, with a rectifier as a straight line.
    fn system(&self, state: &State, open: Option<(usize, Line)>) -> System {
        let load = self.first_load.line(self.output_v(state), self.floor_v);
        let mut matrix = Matrix::ZERO;
        let [mut constant, mut sine] = [[0.0; 4]; 2];
        let rows = &mut matrix.0;
        let straight = self.second.as_ref().filter(|second| second.henry == 0.0);
        let leak = load.siemens + straight.map_or(0.0, |second| 1.0 / second.ohm);
        for place in 0..2 {
            let drain = self.drains[place];
            constant[place] = -drain * load.fixed_a;
            for (entry, share) in rows[place].iter_mut().zip(self.output) {
                *entry = -drain * leak * share;
            }
            if let Some(second) = &self.second {
                if second.henry > 0.0 {
                    rows[place][CHOKE] = -drain;
                    rows[CHOKE][place] = self.output[place] / second.henry;
                } else {
                    rows[place][SECOND] = drain / second.ohm;
                    rows[SECOND][place] = self.output[place] / second.ohm / second.farad;
                }
            }
            if let Some((path, line)) = open {
                let Path { sign, against, fills } = self.paths[path];
                for (entry, share) in rows[place].iter_mut().zip(against) {
                    *entry += fills[place] * line.siemens * share;
                }
                constant[place] += fills[place] * line.fixed_a;
                sine[place] = fills[place] * line.siemens * sign * self.crest_v;
            }
        }
        if let Some(second) = &self.second {
            let load = second.load.line(state[SECOND], self.floor_v);
            constant[SECOND] = -load.fixed_a / second.farad;
            rows[SECOND][SECOND] = -load.siemens / second.farad;
            if second.henry > 0.0 {
                rows[SECOND][CHOKE] = 1.0 / second.farad;
                rows[CHOKE][CHOKE] = -second.ohm / second.henry;
                rows[CHOKE][SECOND] = -1.0 / second.henry;
            } else {
                rows[SECOND][SECOND] -= 1.0 / second.ohm / second.farad;
            }
        }
        System { matrix, constant, sine, omega: self.omega }
    }
}

/// A system with its step, kept while neither changes.
#[derive(Clone, Copy)]
struct Prepared {
    system: System,
    half_s: f64,
    open: Option<usize>,
    /// The rectifier that is open, and its tangent.
    line: Option<(usize, Line)>,
    step: Step,
}

struct Walk<'a> {
    network: &'a Network,
    at: Instant,
    carry: Matrix,
    prepared: Option<Prepared>,
    /// Switching points passed.
    switched: u32,
    look: &'a mut dyn FnMut(&Panel),
}

impl Walk<'_> {
    /// Walks with the rectifiers shut, to `end` or to the point where one opens. A panel ends on every crest, so that the
    /// smallest pulse is not missed.
    fn shut(&mut self, end: f64) {
        while self.at.angle < end {
            let turns = ((self.at.angle + AT_CREST) / FRAC_PI_2).floor();
            let limit = end.min((turns + 1.0) * FRAC_PI_2);
            let left = limit - self.at.angle;
            let width = left.min(SHUT_WIDTH);
            let panel = self.panel(width, None);
            let opens = (0..self.network.path_count)
                .find(|path| self.network.drive_v(*path, panel.end.phase, &panel.end.state) > 0.0);
            if let Some(path) = opens {
                let width = self.crossing(width, path);
                let panel = self.panel(width, None);
                self.accept(&panel, panel.end.angle);
                self.at.open = Some(path);
                return;
            }
            // The last panel ends on the limit itself, not a rounding away from it.
            self.accept(&panel, if width < SHUT_WIDTH { limit } else { panel.end.angle });
        }
    }

    /// Walks with a rectifier open until it shuts.
    fn open(&mut self, path: usize, end: f64) {
        // The pulse ends near the mirror image of its start about its crest.
        let crest = if self.network.paths[path].sign > 0.0 { FRAC_PI_2 } else { 3.0 * FRAC_PI_2 };
        let width = (2.0 * (crest - self.at.angle) / OPEN_PANELS).max(LEAST_WIDTH);
        while self.at.angle < end {
            let left = end - self.at.angle;
            let mut width = width.min(left);
            let mut panel = self.panel(width, Some(path));
            for _ in 0..MOST_HALVINGS {
                if !self.overshoots(&panel, path) {
                    break;
                }
                width *= 0.5;
                panel = self.panel(width, Some(path));
            }
            if self.network.drive_v(path, panel.end.phase, &panel.end.state) < 0.0 {
                let width = self.crossing(width, path);
                let panel = self.panel(width, Some(path));
                self.accept(&panel, panel.end.angle);
                self.at.open = None;
                self.at.amps = 0.0;
                return;
            }
            self.accept(&panel, if width < left { panel.end.angle } else { end });
        }
    }

    fn accept(&mut self, panel: &Panel, end: f64) {
        (self.look)(panel);
        if let Some(prepared) = &self.prepared {
            self.carry = prepared.step.carry.times(&prepared.step.carry.times(&self.carry));
        }
        self.at = Instant { angle: end, ..panel.end };
    }

    /// The panel of `width` radians from here, by tangents at its middle.
    fn panel(&mut self, width: f64, open: Option<usize>) -> Panel {
        let half_s = 0.5 * width / self.network.omega;
        let middle_phase = Phase::at(self.at.angle + 0.5 * width);
        let end_phase = Phase::at(self.at.angle + width);
        // The tangents of the panel before, or else those at this panel's start, tell roughly where the middle will be.
        let rough = match &self.prepared {
            Some(prepared) if prepared.half_s == half_s && prepared.open == open => prepared.step,
            _ => self.prepare(&self.at.state.clone(), self.at.phase, half_s, open),
        };
        let rough_middle = rough.advance(&self.at.state, self.at.phase, middle_phase);
        let middle_angle = self.at.angle + 0.5 * width;
        let mut step = self.prepare(&rough_middle, middle_phase, half_s, open);
        let mut middle = step.advance(&self.at.state, self.at.phase, middle_phase);
        let mut at_middle = self.instant(middle_angle, middle_phase, middle, open);
        for _ in 0..MOST_TANGENTS {
            if !self.strays(&at_middle) {
                break;
            }
            step = self.prepare(&middle, middle_phase, half_s, open);
            middle = step.advance(&self.at.state, self.at.phase, middle_phase);
            at_middle = self.instant(middle_angle, middle_phase, middle, open);
        }
        let end = step.advance(&middle, middle_phase, end_phase);
        Panel { start: self.at, middle: at_middle, end: self.instant(self.at.angle + width, end_phase, end, open) }
    }

    /// Whether the tangent prepared last tells far less current than the law, which bends upward.
    fn strays(&self, middle: &Instant) -> bool {
        let Some((path, line)) = self.prepared.as_ref().and_then(|prepared| prepared.line) else { return false };
        let told_a = line.fixed_a + line.siemens * self.network.across_v(path, middle.phase, &middle.state);
        told_a < NEAR_TANGENT * middle.amps
    }

    /// Whether the tangent, where it leaves the law at the panel's end, takes charge back that the rectifier does not, and enough to be seen
    /// on a capacitor.
    fn overshoots(&self, panel: &Panel, path: usize) -> bool {
        let Some(Prepared { half_s, line: Some((_, line)), .. }) = &self.prepared else { return false };
        let Path { fills, .. } = self.network.paths[path];
        let told_a = line.fixed_a + line.siemens * self.network.across_v(path, panel.end.phase, &panel.end.state);
        (panel.end.amps - told_a) * half_s * fills[0].abs().max(fills[1].abs()) > SEEN * self.network.crest_v
    }

    fn instant(&self, angle: f64, phase: Phase, state: State, open: Option<usize>) -> Instant {
        let network = self.network;
        let amps = open.map_or(0.0, |path| network.law.amps(network.across_v(path, phase, &state)));
        Instant { angle, phase, state, open, amps }
    }

    /// The step by tangents at `state`, made anew only when something changed.
    fn prepare(&mut self, state: &State, phase: Phase, half_s: f64, open: Option<usize>) -> Step {
        let network = self.network;
        let line = open.map(|path| {
            let threshold_v = network.law.threshold_v();
            let there_v = network.across_v(path, phase, state);
            // A rough middle may lie beyond the point where the rectifier shuts; the start of the panel does not.
            let at_v =
                if there_v > threshold_v { there_v } else { network.across_v(path, self.at.phase, &self.at.state) };
            (path, network.law.line(at_v.max(threshold_v)))
        });
        let system = network.system(state, line);
        match &self.prepared {
            Some(prepared) if prepared.system == system && prepared.half_s == half_s => prepared.step,
            _ => {
                let step = system.step(half_s);
                self.prepared = Some(Prepared { system, half_s, open, line, step });
                step
            }
        }
    }

    /// Radians from here to where a rectifier switches, which lies within `width`; by regula falsi with the Illinois
    /// rule, on the linear circuit prepared last.
    fn crossing(&mut self, width: f64, path: usize) -> f64 {
        self.switched += 1;
        let Some(Prepared { system, .. }) = &self.prepared else { return width };
        if self.switched > MOST_SWITCHED {
            return width;
        }
        let drive_v = |angle: f64| {
            let phase = Phase::at(self.at.angle + angle);
            let step = system.step(angle / self.network.omega);
            self.network.drive_v(path, phase, &step.advance(&self.at.state, self.at.phase, phase))
        };
        root(&drive_v, 0.0, width, 1e-10 * self.network.crest_v, 60)
    }
}

/// The difference of two states.
pub(super) fn difference(left: &State, right: &State) -> State {
    joined(left, right, |left, right| left - right)
}
