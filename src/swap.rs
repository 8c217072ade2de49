//! Can this tube go where that one was? Thirteen things are looked at; the worst of them grades the swap.
//!
//! A judgement is figures and outcomes. Its sentences are made in `words`, when somebody reads them, so that a whole book can be
//! judged against one socket in a moment. Missing data never passes: where it concerns socket, pins, heater, function or a
//! rating that guards the tube or the set, the grade is `unknown`.

mod base;
mod behaviour;
mod capacitance;
mod cut_off;
mod heater;
mod heater_cathode;
mod operating_point;
mod pinout;
mod ratings;
mod shield;
mod size;
mod structure;
mod warm_up;
pub mod words;

use serde::{Deserialize, Serialize};

use crate::book::{Base, Function, Tube, Unit};
use crate::finding::Outcome;

pub use behaviour::GainFact;
pub use capacitance::CapacitanceFact;
pub use cut_off::CutOffFact;
pub use heater::HeaterFact;
pub use heater_cathode::HeaterCathodeFact;
pub use operating_point::PointFact;
pub use pinout::{PinFact, moves};
pub use ratings::RatingFact;
pub use size::SizeFact;
pub use structure::{Structure, StructureFact};

/// How well a candidate fits, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Another marking of the same tube.
    Same,
    /// Plug it in.
    AsIs,
    /// Safe as it stands; the set will behave differently.
    AsIsDifferent,
    /// Only after changes.
    AfterChanges,
    /// Not to be done.
    No,
    /// The book lacks what it takes to tell.
    Unknown,
}

/// Line volts a string is taken for when nobody says: the nominal figure of American data sheets.
pub const NOMINAL_LINE_V: f64 = 117.0;

/// How the heaters of the set are fed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supply {
    /// One string across the line.
    Series {
        /// String current; `None`: the original's.
        amps: Option<f64>,
        /// Line volts; `None`: not known.
        line_v: Option<f64>,
        /// Rated volts of the other heaters in the string; `None`: the string is taken to sum to the line.
        others_v: Option<f64>,
        /// Resistance in series with the string, ohms; `None`: not known of.
        dropper_ohm: Option<f64>,
        /// Rated volts of the heaters between this one and chassis; `None`: its place is not known.
        chassis_v: Option<f64>,
    },
    /// All heaters across one winding.
    Parallel {
        /// Heater volts; `None`: the original's.
        volts: Option<f64>,
        /// Amperes to spare.
        spare_amps: Option<f64>,
    },
    /// Filaments on dry batteries.
    Battery,
}

impl Supply {
    /// A string of which nothing is known.
    pub const SERIES: Self =
        Self::Series { amps: None, line_v: None, others_v: None, dropper_ohm: None, chassis_v: None };
    /// A winding of which nothing is known.
    pub const PARALLEL: Self = Self::Parallel { volts: None, spare_amps: None };
}

/// What is known of the socket.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Socket {
    /// How the heaters are fed.
    pub supply: Supply,
    /// Highest DC plate volts.
    pub plate_v: Option<f64>,
    /// Highest DC screen volts.
    pub screen_v: Option<f64>,
    /// Plate current, milliamps.
    pub plate_ma: Option<f64>,
    /// Pins the original leaves empty that are wired, as a bit mask; `None`: nobody looked.
    pub tie_points: Option<u16>,
    /// Whether the stage is under automatic gain control.
    pub agc: Option<bool>,
    /// Cathode resistor, ohms.
    pub cathode_ohm: Option<f64>,
    /// Plate load: a resistor, or what an output transformer shows, kilohms.
    pub load_kohm: Option<f64>,
    /// B+ that the plate load hangs on, volts.
    pub b_plus_v: Option<f64>,
    /// What the stage is tuned to, kilohertz.
    pub tuned_khz: Option<f64>,
    /// Capacitance across its coil, picofarads.
    pub tuned_pf: Option<f64>,
    /// First filter capacitor behind a rectifier, microfarads.
    pub first_filter_uf: Option<f64>,
}

impl Socket {
    /// A socket of which only the supply is known.
    pub const fn fed_by(supply: Supply) -> Self {
        Self {
            supply,
            plate_v: None,
            screen_v: None,
            plate_ma: None,
            tie_points: None,
            agc: None,
            cathode_ohm: None,
            load_kohm: None,
            b_plus_v: None,
            tuned_khz: None,
            tuned_pf: None,
            first_filter_uf: None,
        }
    }
}

/// What a check looked at, with its figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fact {
    /// One base or two.
    Base(Option<Base>, Option<Base>),
    /// Units matched one to one.
    Structure(StructureFact),
    /// Electrode by electrode.
    Pins(PinFact),
    /// Volts and amperes of the heater.
    Heater(HeaterFact),
    /// Heater-cathode volts.
    HeaterCathode(HeaterCathodeFact),
    /// Remote, semi-remote or sharp.
    CutOff(CutOffFact),
    /// Ratings.
    Rating(RatingFact),
    /// Current and dissipation under the original's bias.
    Point(PointFact),
    /// Gain, output, tube drop.
    Gain(GainFact),
    /// Capacitances of tuned stages.
    Capacitance(CapacitanceFact),
    /// Metal shell lost.
    Shield {
        /// Whether the bulb of either is not known.
        unknown: bool,
    },
    /// Room for the bulb.
    Size(SizeFact),
    /// Controlled warm-up, original and candidate.
    WarmUp(Option<bool>, Option<bool>),
}

/// One check's outcome.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// The figures.
    pub fact: Fact,
    /// How it came out.
    pub outcome: Outcome,
    /// Whether an `Unknown` here makes the whole swap unknown.
    pub decisive: bool,
    /// Whether there is something to say even when the outcome is `Ok`.
    pub notice: bool,
    /// Whether it grades the swap at all; a remark does not, whatever its outcome.
    pub grades: bool,
}

impl Check {
    const fn new(fact: Fact, outcome: Outcome) -> Self {
        Self { fact, outcome, decisive: true, notice: false, grades: true }
    }

    const fn minor(mut self) -> Self {
        self.decisive = false;
        self
    }

    const fn remark(mut self) -> Self {
        self.grades = false;
        self.minor()
    }

    const fn noticed(mut self, notice: bool) -> Self {
        self.notice = notice;
        self
    }
}

/// How many checks there are.
pub const CHECKS: usize = 13;

/// Each check by the name its finding has, with what it looks at and why it matters.
pub const WHY: [(&str, &str); CHECKS + 1] = [
    ("base", base::WHY),
    ("function", structure::WHY),
    ("pinout", pinout::WHY),
    ("heater", heater::WHY),
    ("heater to cathode", heater_cathode::WHY),
    ("cutoff", cut_off::WHY),
    ("rating", ratings::WHY),
    ("bias", operating_point::WHY),
    ("gain", behaviour::WHY),
    ("B+", behaviour::B_PLUS_WHY),
    ("capacitance", capacitance::WHY),
    ("shield", shield::WHY),
    ("size", size::WHY),
    ("warm-up", warm_up::WHY),
];

/// A swap judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// The grade.
    pub grade: Grade,
    /// Every check in the order they were made; none when it is the same tube.
    pub checks: Option<[Check; CHECKS]>,
}

/// Judges a swap. `same` says that both names lead to one type of the book.
pub fn judge(original: &Tube, candidate: &Tube, socket: &Socket, same: bool) -> Judgement {
    if same {
        return Judgement { grade: Grade::Same, checks: None };
    }
    let structure = Structure::match_units(original, candidate);
    let checks = [
        base::check(original, candidate),
        structure.check(),
        pinout::check(original, candidate, &structure, socket),
        heater::check(original, candidate, socket),
        heater_cathode::check(original, candidate, socket),
        cut_off::check(original, candidate, &structure, socket),
        ratings::check(original, candidate, &structure, socket),
        operating_point::check(original, candidate, &structure, socket),
        behaviour::check(original, candidate, &structure, socket),
        capacitance::check(original, candidate, &structure, socket),
        shield::check(original, candidate),
        size::check(original, candidate),
        warm_up::check(original, candidate, socket),
    ];
    Judgement { grade: grade(&checks), checks: Some(checks) }
}

/// Whether the swap is `no` in every one of these sockets, as far as function and heater tell in a moment; used to pass over most of a
/// large book.
pub fn hopeless(original: &Tube, candidate: &Tube, sockets: &[Socket]) -> bool {
    use Function::{Pentode, Tetrode};
    let Some(wanted) = original.units.first().map(|unit| unit.function) else { return true };
    let like = candidate.units.iter().any(|unit| {
        unit.function == wanted || matches!((wanted, unit.function), (Pentode, Tetrode) | (Tetrode, Pentode))
    });
    !like || sockets.iter().all(|socket| heater::check(original, candidate, socket).outcome == Outcome::Fails)
}

/// Crest of the line that feeds a set with its heaters in series, volts: such a set has no transformer.
///
/// `None` on a winding or battery, and for strings of 0.1 A unless the line is given, because those were made for 110 to 240 V.
fn line_crest(original: &Tube, socket: &Socket) -> Option<f64> {
    let Supply::Series { amps, line_v, .. } = socket.supply else { return None };
    // A damper of a television set sees the flyback's kilovolts, whatever feeds its heater.
    if original.unit_of(Function::Damper).is_some() {
        return None;
    }
    let string_a = amps.or(original.figures.heater_a)?;
    let line_v = line_v.or((string_a > 0.14).then_some(NOMINAL_LINE_V))?;
    Some(std::f64::consts::SQRT_2 * line_v)
}

/// Whether a triode is one of those that work into a plate resistor of their own size, which bounds current and dissipation whatever its
/// bias: high amplification, low transconductance (12AX7, 6SQ7), and not the high-frequency kind (12AT7, ECC85). The figures are a judgement, no source.
fn resistance_coupled(unit: &Unit) -> bool {
    unit.function == Function::Triode
        && unit.figures.mu.is_some_and(|mu| mu >= 50.0)
        && unit.figures.gm_ms.is_some_and(|gm_ms| gm_ms <= 3.0)
}

/// Whether a triode is one of those made for tuners, mostly two of them one above the other (6BQ7A, 6DJ8): told by its transconductance. The
/// figure is a judgement, no source.
fn high_frequency(unit: &Unit) -> bool {
    unit.function == Function::Triode && unit.figures.gm_ms.is_some_and(|gm_ms| gm_ms >= 6.0)
}

fn grade(checks: &[Check; CHECKS]) -> Grade {
    let any = |outcome: Outcome| checks.iter().any(|check| check.grades && check.outcome == outcome);
    if any(Outcome::Fails) {
        return Grade::No;
    }
    if checks.iter().any(|check| check.outcome == Outcome::Unknown && check.decisive) {
        return Grade::Unknown;
    }
    // A heater that needs a resistor, in a tube that then still amplifies very differently, is work for nothing.
    let mended = checks.iter().any(|check| match check.fact {
        Fact::Heater(fact) => fact.shunt_ohm.or(fact.series_ohm).is_some(),
        _ => false,
    });
    if mended {
        for check in checks {
            if let Fact::Gain(fact) = check.fact {
                if check.outcome == Outcome::Unknown {
                    return Grade::Unknown;
                }
                if fact.far_off() {
                    return Grade::No;
                }
            }
        }
    }
    if any(Outcome::NeedsChange) {
        Grade::AfterChanges
    } else if any(Outcome::Differs) || any(Outcome::Unknown) {
        Grade::AsIsDifferent
    } else {
        Grade::AsIs
    }
}
