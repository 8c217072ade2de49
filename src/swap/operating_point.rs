//! Where does it settle under the original's bias and volts?
//!
//! Each tube is taken through its handbook point by the 3/2-power law, I = I0 (E/E0)^1.5 with
//! E = Vg + V/mu', whose slope there gives E0 = 1.5 I0/gm; V is the screen's volts, or the plate's of a triode. Source: Child's law in any
//! textbook on tubes. Indirectly heated tubes keep the original's cathode resistor, filaments its grid volts; where the
//! book has no grid volts, each tube is taken at its own bias. An output tube is tried with both, for a stage may have either. A triode's plate volts fall by its load where load and B+ are known. The thresholds are a judgement, no source.

use super::structure::Structure;
use super::{Check, Fact, Socket, resistance_coupled};
use crate::book::{Function, HeaterKind, Tube, Unit};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "Current and heat of the candidate under the original's bias. A tube that wants more bias than the stage gives draws far more current and burns, whatever its ratings: 50C5 (-8 V) in the place of 50EH5 (62 ohm in the cathode).";

/// How far a dissipation rating may be passed before something has to change: the law and the book are no better.
const OVER: f64 = 1.25;
/// The same for small pentodes, whose screens are mostly fed through a resistor that holds them back: only the plate is looked at.
const OVER_SMALL: f64 = 1.75;
const SMALL_PART: f64 = 0.6;
/// And from which it is said at all.
const MENTIONED: f64 = 1.1;
/// Plate current against the original's from which an output stage has to change, and from which any stage is said to differ.
const FAR_MORE: f64 = 1.5;
const MORE: f64 = 1.3;
const LESS: f64 = 0.7;
/// And below which it is all but cut off.
const CUT: f64 = 0.25;
/// Amplification factors further apart than this, and a triode's bias is another one altogether.
const FAR_MU: f64 = 2.5;
/// Amplification factor from which a triode is one of those for small signals only. These four are a judgement, no source.
const HIGH_MU: f64 = 50.0;
/// Plate resistor of the triodes that have one, where the set's is not known, kilohms.
const STAGE_LOAD_KOHM: f64 = 100.0;

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
    /// And its cathode current there, milliamps.
    pub cathode_ma: f64,
    /// Plate volts of original and candidate, where plate load and B+ are known.
    pub plate_v: Option<(f64, f64)>,
}

/// The stage as far as it is known.
struct Stage {
    /// Volts the plate, or its load, hangs on.
    supply_v: f64,
    /// Screen volts; `None` for a triode, whose plate draws the current.
    screen_v: Option<f64>,
    /// Plate load, kilohms; zero where it is not known, or has next to no resistance for direct current.
    load_kohm: f64,
    /// Cathode resistor, kilohms, or else the grid volts that are fixed.
    bias: Result<f64, f64>,
}

/// A unit's handbook point, in volts and milliamps.
struct Point {
    plate_v: f64,
    /// Volts of the electrode that draws the current: screen, or plate of a triode.
    draw_v: f64,
    grid_v: Option<f64>,
    bias_known: bool,
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
        let bias_known = figures.typ_grid_v.is_some();
        // Grid volts beyond the drive's sign mean a point outside the law, such as zero-bias class B.
        let grid_v = figures.typ_grid_v.filter(|grid_v| *grid_v < 0.0);
        Some(Self { plate_v, draw_v, grid_v, bias_known, plate_ma, screen_ma, drive_v })
    }

    fn cathode_ma(&self) -> f64 {
        self.plate_ma + self.screen_ma
    }
}

/// The 3/2 power by a square root, which is one instruction where a power is a library call.
fn three_halves(ratio: f64) -> f64 {
    ratio * ratio.sqrt()
}

impl Stage {
    fn plate_v(&self, plate_ma: f64) -> f64 {
        (self.supply_v - self.load_kohm * plate_ma).max(0.0)
    }

    /// Cathode current of a tube in this stage, milliamps. A point without grid volts is taken at its own bias.
    fn settle(&self, point: &Point) -> f64 {
        let current = |ma: f64| {
            let draw_v = self.screen_v.unwrap_or_else(|| self.plate_v(ma));
            let part = draw_v / point.draw_v;
            let drive_v = match (point.grid_v, self.bias) {
                (None, _) => part * point.drive_v,
                (Some(grid_v), Ok(resistor_kohm)) => part * (point.drive_v - grid_v) - resistor_kohm * ma,
                (Some(grid_v), Err(fixed_v)) => part * (point.drive_v - grid_v) + fixed_v,
            };
            point.cathode_ma() * three_halves(drive_v.max(0.0) / point.drive_v)
        };
        // What flows falls as the bias and the drop it makes rise: one root between nothing and the current without either.
        let (mut least, mut most) = (0.0, current(0.0));
        for _ in 0..30 {
            let middle = 0.5 * (least + most);
            if current(middle) > middle { least = middle } else { most = middle }
        }
        0.5 * (least + most)
    }
}

/// Whether two triodes amplify so differently, or may, that one's bias tells nothing of the other's.
fn far_mu(own: &Unit, other: &Unit) -> bool {
    own.function == Function::Triode
        && !own.figures.mu.zip(other.figures.mu).is_some_and(|(x, y)| y <= FAR_MU * x && x <= FAR_MU * y)
}

fn applies(unit: &Unit, other: &Unit, socket: &Socket) -> bool {
    match unit.function {
        Function::Triode => {
            !resistance_coupled(unit) || far_mu(unit, other) || socket.load_kohm.zip(socket.b_plus_v).is_some()
        }
        Function::PowerTriode
        | Function::Pentode
        | Function::Tetrode
        | Function::GatedDetector
        | Function::PowerPentode => true,
        // A converter's current hangs on its oscillator; what has no grid, or glows instead of amplifying, has no such point.
        Function::Heptode
        | Function::Diode
        | Function::Rectifier
        | Function::Damper
        | Function::TuningIndicator
        | Function::Regulator => false,
    }
}

/// The check; the worst pair of units counts.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let mut worst = Check::new(Fact::Point(PointFact::default()), Outcome::Ok);
    let fixed = original.heater_kind == Some(HeaterKind::Filament);
    for (own, other) in structure.pairs(original, candidate) {
        if !applies(own, other, socket) {
            continue;
        }
        let (mut fact, mut outcome) = pair(own, other, socket, fixed);
        let output = matches!(own.function, Function::PowerPentode | Function::PowerTriode);
        if output && !fixed && socket.cathode_ohm.is_none() {
            let at_fixed = pair(own, other, socket, true);
            if at_fixed.1 > outcome {
                (fact, outcome) = at_fixed;
            }
        }
        // Of pairs that come out alike the first with figures is kept, to be shown.
        let bare = matches!(worst.fact, Fact::Point(PointFact { other_ma: None, .. })) && worst.outcome == Outcome::Ok;
        if outcome > worst.outcome || (bare && outcome == Outcome::Ok) {
            worst = Check::new(Fact::Point(fact), outcome);
        }
    }
    worst
}

fn pair(own_unit: &Unit, other_unit: &Unit, socket: &Socket, fixed: bool) -> (PointFact, Outcome) {
    let triode = matches!(own_unit.function, Function::Triode | Function::PowerTriode);
    let output = matches!(own_unit.function, Function::PowerPentode | Function::PowerTriode);
    let far_mu = far_mu(own_unit, other_unit);
    // An output tube whose bias the book does not know might draw anything; so might a battery tube, whose grid volts are fixed, or a candidate triode that amplifies very differently.
    let point = |unit| Point::of(unit).filter(|point| point.bias_known || !(output || fixed));
    let other = point(other_unit).filter(|point| point.bias_known || !far_mu);
    let (Some(own), Some(other)) = (point(own_unit), other) else {
        // Currents stand for which of the two points are known.
        let ma = |unit| point(unit).map(|point| point.plate_ma);
        let fact = PointFact { own_ma: ma(own_unit), other_ma: ma(other_unit), ..PointFact::default() };
        return (fact, Outcome::Unknown);
    };
    // The primary of an output transformer has next to no resistance.
    let told = socket.load_kohm.zip(socket.b_plus_v).filter(|_| !output);
    let hung = told.or(resistance_coupled(own_unit).then(|| {
        let b_plus_v = socket.b_plus_v.unwrap_or(own.plate_v);
        (socket.load_kohm.unwrap_or(STAGE_LOAD_KOHM), b_plus_v)
    }));
    let own_resistor_kohm = own.grid_v.map(|grid_v| -grid_v / own.cathode_ma());
    let stage = Stage {
        supply_v: hung.map(|row| row.1).or(socket.plate_v).unwrap_or(own.plate_v),
        screen_v: if triode { None } else { Some(socket.screen_v.unwrap_or(own.draw_v)) },
        load_kohm: hung.map_or(0.0, |row| row.0),
        bias: match own.grid_v {
            Some(grid_v) if fixed => Err(grid_v),
            _ => Ok(socket.cathode_ohm.map(|ohm| ohm / 1000.0).or(own_resistor_kohm).unwrap_or(0.0)),
        },
    };
    // Where nobody knows the bias of the original, each tube is taken at its own.
    let known = fixed || socket.cathode_ohm.or(own.grid_v).is_some();
    let unbiased = |point: &Point| Point { grid_v: point.grid_v.filter(|_| known), ..*point };
    let cathode_ma = stage.settle(&unbiased(&other));
    let plate_ma = cathode_ma * other.plate_ma / other.cathode_ma();
    let own_ma = stage.settle(&unbiased(&own)) * own.plate_ma / own.cathode_ma();
    let plate_v = stage.plate_v(plate_ma);
    let draw_v = stage.screen_v.unwrap_or(plate_v);
    let figures = &other_unit.figures;
    // Without a rating its own handbook point is the most that is known to be good for it.
    let plate_limit_w = figures.plate_max_w.unwrap_or(other.plate_v * other.plate_ma / 1000.0);
    let screen_limit_w = figures.screen_max_w.unwrap_or(other.draw_v * other.screen_ma / 1000.0);
    // Triodes of high amplification take little and work with little.
    let high_mu = [own_unit, other_unit].iter().any(|unit| triode && unit.figures.mu.is_some_and(|mu| mu >= HIGH_MU));
    // Where the original's bias is not known, a triode is taken to draw what the original does at the least; those for 12 V burn nothing.
    let least_ma = if known || !triode || own.plate_v < 50.0 || high_mu || hung.is_some() { 0.0 } else { own.plate_ma };
    let plate_w = (plate_v * plate_ma / 1000.0).max(own.plate_v * least_ma / 1000.0);
    let screen_w = draw_v * (cathode_ma - plate_ma) / 1000.0;
    let small_pentode = !triode && !output;
    let screen_worst = !triode && !small_pentode && screen_w / screen_limit_w > plate_w / plate_limit_w;
    let watts = if screen_worst { (screen_w, screen_limit_w, true) } else { (plate_w, plate_limit_w, false) };
    // A small pentode rated below what the original takes at its handbook point by far is of another size, and is allowed nothing above.
    let own_w = own.plate_v * own.plate_ma / 1000.0;
    let over = match () {
        () if small_pentode && !fixed && plate_limit_w < SMALL_PART * own_w => 1.0,
        () if small_pentode => OVER_SMALL,
        () => OVER,
    };
    let fact = PointFact {
        own_ma: Some(own_ma),
        other_ma: Some(plate_ma),
        watts: Some(watts),
        cathode_ohm: other.grid_v.filter(|_| !fixed).map(|grid_v| -1000.0 * grid_v / other.cathode_ma()),
        cathode_ma: other.cathode_ma(),
        plate_v: told.map(|_| (stage.plate_v(own_ma), plate_v)),
    };
    let ratio = plate_ma / own_ma;
    let cut_off = ratio < CUT && (output || triode) && !high_mu;
    let outcome = if watts.0 > over * watts.1 || ((output || fixed) && ratio > FAR_MORE) || cut_off {
        Outcome::NeedsChange
    } else if watts.0 > MENTIONED * watts.1 || !(LESS..=MORE).contains(&ratio) {
        Outcome::Differs
    } else {
        Outcome::Ok
    };
    (fact, outcome)
}
