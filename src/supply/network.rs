//! One cycle of the half-wave circuit, cut at the points where the rectifier opens and shuts.
//!
//! A cycle starts at the negative crest of the line, where the rectifier is shut, so that exactly one pulse lies inside.
//! Between switching points the circuit is advanced in panels. In each panel the rectifier and the loads are replaced by
//! their tangents at the panel's middle and the resulting linear circuit is solved exactly: straight-line laws carry no
//! error at all, curved ones an error that falls with the square of the panel's width.

use std::f64::consts::{FRAC_PI_2, PI};

use super::Circuit;
use super::law::Law;
use super::linear::{Matrix, Phase, Step, System, Volts};
use super::load::{Line, Load};
use super::root::root;

/// Panels over the span in which the rectifier can conduct.
const OPEN_PANELS: f64 = 48.0;
/// Width of a panel with the rectifier shut, radians.
const SHUT_WIDTH: f64 = PI / 24.0;
/// No panel is narrower, radians, so that every cycle ends.
const LEAST_WIDTH: f64 = 1e-4;
/// The negative crest before and the one after.
const BEGIN: f64 = -FRAC_PI_2;
const END: f64 = 3.0 * FRAC_PI_2;

/// The circuit in SI units, ready to be integrated.
#[derive(Debug, Clone)]
pub(super) struct Network {
    pub crest_v: f64,
    pub omega: f64,
    /// Below this a fixed-current load lets go.
    pub floor_v: f64,
    law: Law,
    first_farad: f64,
    first_load: Load,
    second: Option<Second>,
}

#[derive(Debug, Clone)]
struct Second {
    siemens: f64,
    farad: f64,
    load: Load,
}

/// The circuit at one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct Instant {
    /// Radians after the upward zero crossing of the line.
    pub angle: f64,
    phase: Phase,
    pub volts: Volts,
    /// Through the rectifier.
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
    pub(super) fn integral(&self, of: impl Fn(&Instant) -> f64) -> f64 {
        (self.end.angle - self.start.angle) / 6.0 * (of(&self.start) + 4.0 * of(&self.middle) + of(&self.end))
    }
}

/// Where one cycle ended.
pub(super) struct Closed {
    pub end: Volts,
    /// How the end moves with the start.
    pub carry: Matrix,
}

impl Network {
    /// Brings a checked circuit into SI units.
    pub(super) fn new(circuit: &Circuit) -> Self {
        let crest_v = circuit.crest_v();
        Self {
            crest_v,
            omega: 2.0 * PI * circuit.line_hz,
            floor_v: 0.01 * crest_v,
            law: Law::new(&circuit.rectifier, circuit.source_ohm + circuit.series_ohm),
            first_farad: circuit.first_uf * 1e-6,
            first_load: circuit.first_load,
            second: circuit.filter.as_ref().map(|filter| Second {
                siemens: 1.0 / filter.ohm,
                farad: filter.uf * 1e-6,
                load: filter.load,
            }),
        }
    }

    pub(super) fn has_second(&self) -> bool {
        self.second.is_some()
    }

    /// Whether nothing at all is drawn.
    pub(super) fn is_unloaded(&self) -> bool {
        self.first_load == Load::None && self.second.as_ref().is_none_or(|second| second.load == Load::None)
    }

    /// First filter of the unloaded circuit: the crest, less what the rectifier keeps.
    pub(super) fn unloaded_v(&self) -> f64 {
        (self.crest_v - self.law.threshold_v()).max(0.0)
    }

    /// Current with the first capacitor empty at the crest.
    pub(super) fn inrush_a(&self) -> f64 {
        self.law.amps(self.crest_v)
    }

    /// A first guess at the volts at the negative crest.
    pub(super) fn guess(&self) -> Volts {
        let first = 0.8 * self.crest_v;
        let second = self.second.as_ref().map_or(0.0, |second| {
            (first - second.load.amps(first, self.floor_v) / second.siemens).clamp(0.0, self.crest_v)
        });
        Volts { first, second }
    }

    /// Whether a load of fixed current finds its capacitor empty.
    pub(super) fn starves(&self, least: Volts) -> bool {
        let starving = |load: Load, volts: f64| matches!(load, Load::Current { .. }) && volts < self.floor_v;
        starving(self.first_load, least.first)
            || self.second.as_ref().is_some_and(|second| starving(second.load, least.second))
    }

    /// Current into the first capacitor.
    pub(super) fn charging_a(&self, at: &Instant) -> f64 {
        let filter_a = self.second.as_ref().map_or(0.0, |second| (at.volts.first - at.volts.second) * second.siemens);
        at.amps - self.first_load.amps(at.volts.first, self.floor_v) - filter_a
    }

    /// Integrates one cycle from the negative crest and shows every panel to `look`.
    pub(super) fn cycle(&self, start: Volts, look: impl FnMut(&Panel)) -> Closed {
        let phase = Phase::at(BEGIN);
        let mut walk = Walk {
            network: self,
            at: Instant { angle: BEGIN, phase, volts: start, amps: 0.0 },
            carry: Matrix::UNIT,
            prepared: None,
            look,
        };
        walk.shut(FRAC_PI_2);
        if walk.at.angle < FRAC_PI_2 {
            walk.open();
        }
        walk.shut(END);
        Closed { end: walk.at.volts, carry: walk.carry }
    }

    /// Volts across rectifier and series resistance, above the threshold.
    fn drive_v(&self, phase: Phase, volts: Volts) -> f64 {
        self.crest_v * phase.sin - volts.first - self.law.threshold_v()
    }

    /// The linear circuit about `volts`, with the rectifier as a straight line.
    fn system(&self, volts: Volts, rectifier: Line) -> System {
        let load = self.first_load.line(volts.first, self.floor_v);
        let mut system = System {
            matrix: Matrix { ff: -(rectifier.siemens + load.siemens) / self.first_farad, fs: 0.0, sf: 0.0, ss: 0.0 },
            constant: Volts { first: (rectifier.fixed_a - load.fixed_a) / self.first_farad, second: 0.0 },
            sine: rectifier.siemens * self.crest_v / self.first_farad,
            omega: self.omega,
        };
        if let Some(second) = &self.second {
            let load = second.load.line(volts.second, self.floor_v);
            system.matrix.ff -= second.siemens / self.first_farad;
            system.matrix.fs = second.siemens / self.first_farad;
            system.matrix.sf = second.siemens / second.farad;
            system.matrix.ss = -(second.siemens + load.siemens) / second.farad;
            system.constant.second = -load.fixed_a / second.farad;
        }
        system
    }
}

/// A system with its step, kept while neither changes.
#[derive(Clone, Copy)]
struct Prepared {
    system: System,
    half_s: f64,
    step: Step,
}

struct Walk<'a, Look> {
    network: &'a Network,
    at: Instant,
    carry: Matrix,
    prepared: Option<Prepared>,
    look: Look,
}

impl<Look: FnMut(&Panel)> Walk<'_, Look> {
    /// Walks with the rectifier shut, to `limit` or to the point where it opens.
    fn shut(&mut self, limit: f64) {
        while self.at.angle < limit {
            let width = (limit - self.at.angle).min(SHUT_WIDTH);
            let panel = self.panel(width, false);
            // Past the crest of the line the rectifier does not open again in this cycle.
            let opens = limit <= FRAC_PI_2 && self.network.drive_v(panel.end.phase, panel.end.volts) > 0.0;
            if opens {
                let width = self.crossing(width);
                let panel = self.panel(width, false);
                self.accept(&panel, panel.end.angle);
                return;
            }
            // The last panel ends on the limit itself, not a rounding away from it.
            let end = if width < SHUT_WIDTH { limit } else { panel.end.angle };
            self.accept(&panel, end);
        }
    }

    /// Walks with the rectifier open until it shuts.
    fn open(&mut self) {
        // The pulse ends near the mirror image of its start about the crest.
        let width = ((PI - 2.0 * self.at.angle) / OPEN_PANELS).max(LEAST_WIDTH);
        while self.at.angle < END {
            let width = width.min(END - self.at.angle).max(LEAST_WIDTH);
            let panel = self.panel(width, true);
            if self.network.drive_v(panel.end.phase, panel.end.volts) < 0.0 {
                let width = self.crossing(width);
                let panel = self.panel(width, true);
                self.accept(&panel, panel.end.angle);
                return;
            }
            self.accept(&panel, panel.end.angle);
        }
    }

    fn accept(&mut self, panel: &Panel, end: f64) {
        (self.look)(panel);
        if let Some(prepared) = self.prepared {
            self.carry = prepared.step.carry * (prepared.step.carry * self.carry);
        }
        self.at = Instant { angle: end, ..panel.end };
    }

    /// The panel of `width` radians from here, by tangents at its middle.
    fn panel(&mut self, width: f64, open: bool) -> Panel {
        let half_s = 0.5 * width / self.network.omega;
        let middle_phase = Phase::at(self.at.angle + 0.5 * width);
        let end_phase = Phase::at(self.at.angle + width);
        // The tangents of the panel before, or else those at this panel's start, tell roughly where the middle will be.
        let rough = match self.prepared {
            Some(prepared) if prepared.half_s == half_s && (prepared.system.sine != 0.0) == open => prepared.step,
            _ => self.prepare(self.at.volts, self.at.phase, half_s, open),
        };
        let rough_middle = rough.advance(self.at.volts, self.at.phase, middle_phase);
        let step = self.prepare(rough_middle, middle_phase, half_s, open);
        let middle = step.advance(self.at.volts, self.at.phase, middle_phase);
        let end = step.advance(middle, middle_phase, end_phase);
        Panel {
            start: self.at,
            middle: self.instant(self.at.angle + 0.5 * width, middle_phase, middle, open),
            end: self.instant(self.at.angle + width, end_phase, end, open),
        }
    }

    fn instant(&self, angle: f64, phase: Phase, volts: Volts, open: bool) -> Instant {
        let drive_v = self.network.crest_v * phase.sin - volts.first;
        Instant { angle, phase, volts, amps: if open { self.network.law.amps(drive_v) } else { 0.0 } }
    }

    /// The step by tangents at `volts`, made anew only when something changed.
    fn prepare(&mut self, volts: Volts, phase: Phase, half_s: f64, open: bool) -> Step {
        let network = self.network;
        let rectifier = if open {
            let threshold_v = network.law.threshold_v();
            let across = |phase: Phase, volts: Volts| network.crest_v * phase.sin - volts.first;
            let there_v = across(phase, volts);
            // A rough middle may lie beyond the point where the rectifier shuts; the start of the panel does not.
            let at_v = if there_v > threshold_v { there_v } else { across(self.at.phase, self.at.volts) };
            network.law.line(at_v.max(threshold_v))
        } else {
            Line::default()
        };
        let system = network.system(volts, rectifier);
        match self.prepared {
            Some(prepared) if prepared.system == system && prepared.half_s == half_s => prepared.step,
            _ => {
                let step = system.step(half_s);
                self.prepared = Some(Prepared { system, half_s, step });
                step
            }
        }
    }

    /// Radians from here to where the rectifier switches, which lies within `width`; by regula falsi with the Illinois
    /// rule, on the linear circuit prepared last.
    fn crossing(&self, width: f64) -> f64 {
        let Some(Prepared { system, .. }) = self.prepared else { return width };
        let drive_v = |angle: f64| {
            let phase = Phase::at(self.at.angle + angle);
            let volts = system.step(angle / self.network.omega).advance(self.at.volts, self.at.phase, phase);
            self.network.drive_v(phase, volts)
        };
        root(drive_v, 0.0, width, 1e-10 * self.network.crest_v, 60)
    }
}
