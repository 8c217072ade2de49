//! Where does it settle under the original's bias and volts?
//!
//! Looks at: cathode current, plate and screen dissipation of the candidate in the original's stage. Why it matters: a tube that wants more
//! bias than the stage gives draws far more current and burns, whatever its own ratings are. Example: 50C5 (-8 V) in the place of
//! 50EH5 (62 ohm in the cathode). Each tube is taken through its handbook point by the 3/2-power law, I = I0 (E/E0)^1.5 with
//! E = Vg + V/mu', whose slope there gives E0 = 1.5 I0/gm; V is the screen's volts, or the plate's of a triode. Source: Child's law in any
//! textbook on tubes. Indirectly heated tubes keep the original's cathode resistor, filaments its grid volts; where the
//! book has no grid volts, each tube is taken at its own bias. The thresholds are a judgement, no source.

use super::structure::Structure;
use super::{Check, Fact, Socket, resistance_coupled};
use crate::book::{Function, HeaterKind, Tube, Unit};
use crate::finding::Outcome;

/// How far a dissipation rating may be passed before something has to change: the law and the book are no better.
const OVER: f64 = 1.25;
/// The same for small pentodes, whose screens are mostly fed through a resistor that holds them back: only the plate is looked at.
const OVER_SMALL: f64 = 1.75;
/// And from which it is said at all.
const MENTIONED: f64 = 1.1;
/// Plate current against the original's from which an output stage has to change, and from which any stage is said to differ.
const FAR_MORE: f64 = 1.5;
const MORE: f64 = 1.3;
const LESS: f64 = 0.7;

/// The stage with the candidate in it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PointFact {
    /// Plate current of the original at its handbook point, milliamps.
    pub own_ma: Option<f64>,
    /// Plate current of the candidate in its place, milliamps.
    pub other_ma: Option<f64>,
    /// Dissipation of the electrode that is worst off, and what it may be, watts; `true` when it is the screen.
    pub watts: Option<(f64, f64, bool)>,
    /// Cathode resistor that gives the candidate its own handbook bias, ohms.
    pub cathode_ohm: Option<f64>,
}

/// A unit's handbook point, in volts and milliamps.
struct Point {
    plate_v: f64,
    /// Volts of the electrode that draws the current: screen, or plate of a triode.
    draw_v: f64,
    grid_v: Option<f64>,
    plate_ma: f64,
    screen_ma: f64,
    /// Effective drive there, volts.
    drive_v: f64,
}

impl Point {
    fn of(unit: &Unit) -> Option<Self> {
        let figures = &unit.figures;
        let (plate_v, plate_ma, gm_ms) = (figures.typ_plate_v?, figures.typ_plate_ma?, figures.gm_ms?);
        let triode = matches!(unit.function, Function::Triode | Function::PowerTriode);
        let draw_v = if triode { plate_v } else { figures.typ_screen_v? };
        let screen_ma = if triode { 0.0 } else { figures.typ_screen_ma? };
        let drive_v = 1.5 * plate_ma / gm_ms;
        // Grid volts beyond the drive's sign mean a point outside the law, such as zero-bias class B.
        let grid_v = figures.typ_grid_v.filter(|grid_v| *grid_v < 0.0);
        Some(Self { plate_v, draw_v, grid_v, plate_ma, screen_ma, drive_v })
    }

    fn cathode_ma(&self) -> f64 {
        self.plate_ma + self.screen_ma
    }
}

/// The 3/2 power by a square root, which is one instruction where a power is a library call.
fn three_halves(ratio: f64) -> f64 {
    ratio * ratio.sqrt()
}

/// Cathode current of `other` where `own` was, milliamps.
fn settle(own: &Point, other: &Point, draw_v: f64, fixed: bool) -> f64 {
    let (Some(own_grid_v), Some(other_grid_v)) = (own.grid_v, other.grid_v) else {
        return other.cathode_ma() * three_halves(draw_v / other.draw_v);
    };
    let pull_v = draw_v / other.draw_v * (other.drive_v - other_grid_v);
    let resistor_kohm = if fixed { 0.0 } else { -own_grid_v / own.cathode_ma() };
    let fixed_v = if fixed { own_grid_v } else { 0.0 };
    let current = |ma: f64| {
        let drive_v = (pull_v + fixed_v - resistor_kohm * ma).max(0.0);
        other.cathode_ma() * three_halves(drive_v / other.drive_v)
    };
    // What flows falls as the bias it makes rises: one root between nothing and the unbiased current.
    let (mut least, mut most) = (0.0, current(0.0));
    for _ in 0..30 {
        let middle = 0.5 * (least + most);
        if current(middle) > middle { least = middle } else { most = middle }
    }
    0.5 * (least + most)
}

fn applies(unit: &Unit) -> bool {
    match unit.function {
        Function::Triode => !resistance_coupled(unit),
        Function::PowerTriode | Function::Pentode | Function::Tetrode | Function::PowerPentode => true,
        _ => false,
    }
}

/// The check; the worst pair of units counts.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let mut worst = Check::new(Fact::Point(PointFact::default()), Outcome::Ok);
    let fixed = original.heater_kind == Some(HeaterKind::Filament);
    for (own, other) in structure.pairs(original, candidate) {
        if !applies(own) {
            continue;
        }
        let (fact, outcome) = pair(own, other, socket, fixed);
        if outcome > worst.outcome {
            worst = Check::new(Fact::Point(fact), outcome);
        }
    }
    worst
}

fn pair(own_unit: &Unit, other_unit: &Unit, socket: &Socket, fixed: bool) -> (PointFact, Outcome) {
    let (Some(own), Some(other)) = (Point::of(own_unit), Point::of(other_unit)) else {
        return (PointFact::default(), Outcome::Unknown);
    };
    let triode = matches!(own_unit.function, Function::Triode | Function::PowerTriode);
    let plate_v = socket.plate_v.unwrap_or(own.plate_v);
    let draw_v = if triode { plate_v } else { socket.screen_v.unwrap_or(own.draw_v) };
    let cathode_ma = settle(&own, &other, draw_v, fixed);
    let plate_ma = cathode_ma * other.plate_ma / other.cathode_ma();
    let figures = &other_unit.figures;
    // Without a rating its own handbook point is the most that is known to be good for it.
    let plate_limit_w = figures.plate_max_w.unwrap_or(other.plate_v * other.plate_ma / 1000.0);
    let screen_limit_w = figures.screen_max_w.unwrap_or(other.draw_v * other.screen_ma / 1000.0);
    let plate_w = plate_v * plate_ma / 1000.0;
    let screen_w = draw_v * (cathode_ma - plate_ma) / 1000.0;
    let output = matches!(own_unit.function, Function::PowerPentode | Function::PowerTriode);
    let small_pentode = !triode && !output;
    let screen_worst = !triode && !small_pentode && screen_w / screen_limit_w > plate_w / plate_limit_w;
    let watts = if screen_worst { (screen_w, screen_limit_w, true) } else { (plate_w, plate_limit_w, false) };
    let over = if small_pentode { OVER_SMALL } else { OVER };
    let fact = PointFact {
        own_ma: Some(own.plate_ma),
        other_ma: Some(plate_ma),
        watts: Some(watts),
        cathode_ohm: other.grid_v.filter(|_| !fixed).map(|grid_v| -1000.0 * grid_v / other.cathode_ma()),
    };
    let ratio = plate_ma / own.plate_ma;
    let outcome = if watts.0 > over * watts.1 || ((output || fixed) && ratio > FAR_MORE) {
        Outcome::NeedsChange
    } else if watts.0 > MENTIONED * watts.1 || !(LESS..=MORE).contains(&ratio) {
        Outcome::Differs
    } else {
        Outcome::Ok
    };
    (fact, outcome)
}
