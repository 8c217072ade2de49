//! Will the set behave as before?
//!
//! A triode stage is compared into 100 kilohms by mu RL / (RL + rp), bare by mu and into a small load by its transconductance, and the
//! largest difference counts; a pentode by its transconductance, times RL rp / (RL + rp). With the load given that load counts alone. A
//! converter is compared by its conversion transconductance. An output tube's handbook output falls with the load's distance from its own: below it the
//! current is the limit, P = P0 R/R0, above it the volts, P = P0 R0/R. Source: small-signal stage gain, any textbook; 3 dB as the least difference
//! that is heard in a radio is common practice, no source.

use super::structure::Structure;
use super::{Check, Fact, Socket, high_frequency};
use crate::book::{Function, HeaterKind, Tube, Unit, UnitFigures};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "The set may be louder, weaker, or run at another B+; nothing is harmed. 12AX7 (amplification factor 100) and 12AU7 (17) have the same pins and a fivefold difference in gain.";

/// Load a triode stage is compared into, kilohms.
const STAGE_LOAD_KOHM: f64 = 100.0;
/// Decibels from which a stage is said to differ, and to differ far.
const DIFFERS_DB: f64 = 3.0;
const FAR_DB: f64 = 6.0;
/// Volts of B+ from which a rectifier is said to differ. A judgement, no source.
pub(super) const DROP_NOTICED_V: f64 = 10.0;
/// A change of B+ below this is none, volts.
const LEAST_CHANGE_V: f64 = 0.5;
/// Rise of B+ that filter capacitors and output tube have to be looked at for first: a tenth of what a common set has. A judgement, no source.
pub(super) const RISE_V: f64 = 30.0;
/// Drops taken where the book has none: of a rectifier with a filament and with a heater as an original, and of any as a candidate. From memory:
/// receiving-tube manuals.
const MOST_DROP_V: f64 = 60.0;
const HEATER_DROP_V: f64 = 25.0;
const LEAST_DROP_V: f64 = 10.0;

/// The same for rectifiers.
pub const B_PLUS_WHY: &str = "A rectifier that drops fewer volts raises B+, and filter capacitors and output tube must stand it: a 5AR4 in place of a 5Y3GT gives some 50 V more.";

/// The comparison that says most.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GainFact {
    /// What was compared.
    pub of: GainOf,
    /// The original's figure.
    pub own: Option<f64>,
    /// The candidate's figure.
    pub other: Option<f64>,
    /// Difference in decibels where it is a gain.
    pub db: Option<f64>,
    /// Output of original and candidate into the set's load, watts, and that load, kilohms.
    pub output: Option<(f64, f64, f64)>,
}

/// What was compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GainOf {
    /// Nothing that amplifies.
    #[default]
    Nothing,
    /// Amplification factor of a triode.
    Mu,
    /// Transconductance.
    Gm,
    /// Conversion transconductance.
    Conversion,
    /// Load of an output tube, kilohms.
    Load,
    /// Grid bias of an output tube at like plate volts.
    Bias,
    /// Drop of a rectifier at like current, volts.
    Drop,
}

impl GainFact {
    /// Volts by which B+ comes out higher, as far as the tube drops tell: their difference. None where it is nothing worth a word, where
    /// one of them is not known, or of anything but a rectifier.
    pub fn raised_v(&self) -> Option<f64> {
        let by = self.own.zip(self.other).filter(|_| self.of == GainOf::Drop).map(|(own, other)| own - other);
        by.filter(|by| by.abs() >= LEAST_CHANGE_V)
    }

    /// Whether the gain differs by far.
    pub fn far_off(&self) -> bool {
        self.db.is_some_and(|db| db.abs() > FAR_DB)
    }
}

/// The check.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let mut worst = Check::new(Fact::Gain(GainFact::default()), Outcome::Ok).minor();
    let filament = original.heater_kind != Some(HeaterKind::Heater);
    for (own, other) in structure.pairs(original, candidate) {
        for (fact, outcome) in compare(own, other, socket, filament).into_iter().flatten() {
            let better = |check: &Check| match check.fact {
                Fact::Gain(fact) => (check.outcome, fact.db.map_or(0, |db| (db.abs() * 1000.0) as i64)),
                _ => (check.outcome, 0),
            };
            let check =
                Check::new(Fact::Gain(fact), outcome).minor().noticed(fact.db.is_some_and(|db| db.abs() >= 0.1));
            if better(&check) > better(&worst) || matches!(worst.fact, Fact::Gain(GainFact { of: GainOf::Nothing, .. }))
            {
                worst = check;
            }
        }
    }
    worst
}

type Compared = Option<(GainFact, Outcome)>;

fn compare(own: &Unit, other: &Unit, socket: &Socket, filament: bool) -> [Compared; 3] {
    let (a, b) = (&own.figures, &other.figures);
    match own.function {
        Function::Triode => {
            let load_kohm = socket.load_kohm.unwrap_or(STAGE_LOAD_KOHM);
            let gain = |unit: &Unit| {
                let figures = &unit.figures;
                let mu = figures.mu?;
                Some(figures.rp_kohm.map_or(mu, |rp| mu * load_kohm / (load_kohm + rp)))
            };
            // The set's load is not known here: the amplification factors are compared as they are and into a plate resistor, and
            // the larger difference counts.
            let bare = in_db(GainOf::Mu, a.mu, b.mu, a.mu, b.mu);
            let loaded = in_db(GainOf::Mu, a.mu, b.mu, gain(own), gain(other));
            let both = a.rp_kohm.is_some() && b.rp_kohm.is_some();
            if socket.load_kohm.is_some() && both {
                return [Some(loaded), None, None];
            }
            let size = |row: &(GainFact, Outcome)| row.0.db.map_or(0.0, f64::abs);
            // Into a small load, as at high frequency, the gain goes with the transconductance.
            let mut into_little = in_db(GainOf::Gm, a.gm_ms, b.gm_ms, a.gm_ms, b.gm_ms);
            if high_frequency(own) && into_little.0.far_off() && b.gm_ms < a.gm_ms {
                into_little.1 = Outcome::Fails;
            }
            [Some(if both && size(&loaded) > size(&bare) { loaded } else { bare }), Some(into_little), None]
        }
        Function::Pentode | Function::Tetrode => {
            // Into a load that is known the plate resistances count too.
            let loaded = |unit: &Unit| {
                let shared =
                    socket.load_kohm.zip(own.figures.rp_kohm.and(other.figures.rp_kohm).and(unit.figures.rp_kohm));
                Some(unit.figures.gm_ms? * shared.map_or(1.0, |(load, rp)| rp / (load + rp)))
            };
            [Some(in_db(GainOf::Gm, a.gm_ms, b.gm_ms, loaded(own), loaded(other))), None, None]
        }
        Function::Heptode => [Some(in_db(GainOf::Conversion, a.gm_ms, b.gm_ms, a.gm_ms, b.gm_ms)), None, None],
        Function::PowerPentode | Function::PowerTriode => {
            let like_volts = a.typ_plate_v.zip(b.typ_plate_v).is_some_and(|(x, y)| (x / y - 1.0).abs() <= 0.1);
            let shown = |x: Option<f64>, y: Option<f64>| if like_volts { (x, y) } else { (None, None) };
            let (load_a, load_b) = shown(socket.load_kohm.or(a.load_kohm), b.load_kohm);
            let output = load_a.zip(load_b).and_then(|(set, best)| {
                let into = |watts: Option<f64>, best: f64| Some(watts? * (set / best).min(best / set));
                Some((into(a.output_w, a.load_kohm?)?, into(b.output_w, best)?, set))
            });
            let (bias_a, bias_b) = shown(a.typ_grid_v, b.typ_grid_v);
            let mut load = in_parts(GainOf::Load, load_a, load_b, 0.3);
            // At one and the same handbook point both want the same load, whatever it is.
            let point = |f: &UnitFigures| {
                [
                    f.typ_plate_v,
                    f.typ_plate_ma,
                    f.gm_ms,
                    f.typ_grid_v,
                    f.typ_screen_v.or(f.mu),
                    f.typ_screen_ma.or(f.mu),
                ]
            };
            if load.1 == Outcome::Unknown && point(a) == point(b) && point(a).iter().all(Option::is_some) {
                load.1 = Outcome::Ok;
            }
            [in_db(GainOf::Gm, a.gm_ms, b.gm_ms, a.gm_ms, b.gm_ms), load, in_parts(GainOf::Bias, bias_a, bias_b, 0.25)]
                .map(|(fact, outcome)| Some((GainFact { output, ..fact }, outcome)))
        }
        Function::Rectifier => {
            // Television's high-voltage rectifiers carry a fraction of a milliamp: their drop is of no weight.
            if a.dc_out_max_ma.is_some_and(|most_ma| most_ma < 10.0) {
                return [None, None, None];
            }
            // Both drops brought to the original's current by the 3/2-power law.
            let at = a.drop_ma;
            let scaled = |unit: &Unit| {
                let (drop, drop_ma) = unit.figures.drop_v.zip(unit.figures.drop_ma)?;
                Some(drop * (at? / drop_ma).powf(2.0 / 3.0))
            };
            let (x, y) = (scaled(own), scaled(other));
            // A drop that is not known is taken at its worst for the set.
            let rise_v = x.unwrap_or(if filament { MOST_DROP_V } else { HEATER_DROP_V }) - y.unwrap_or(LEAST_DROP_V);
            let outcome = match (x, y) {
                _ if rise_v > RISE_V => Outcome::NeedsChange,
                (Some(x), Some(y)) if (x - y).abs() <= DROP_NOTICED_V => Outcome::Ok,
                (Some(_), Some(_)) => Outcome::Differs,
                _ => Outcome::Unknown,
            };
            [Some((GainFact { of: GainOf::Drop, own: x, other: y, ..GainFact::default() }, outcome)), None, None]
        }
        Function::GatedDetector => [Some(in_db(GainOf::Gm, a.gm_ms, b.gm_ms, a.gm_ms, b.gm_ms)), None, None],
        Function::Diode | Function::Damper | Function::TuningIndicator | Function::Regulator => [None, None, None],
    }
}

fn in_db(of: GainOf, own: Option<f64>, other: Option<f64>, x: Option<f64>, y: Option<f64>) -> (GainFact, Outcome) {
    let db = x.zip(y).map(|(x, y)| 20.0 * (y / x).log10());
    let outcome = match db {
        Some(db) if db.abs() < DIFFERS_DB => Outcome::Ok,
        Some(_) => Outcome::Differs,
        None => Outcome::Unknown,
    };
    (GainFact { of, own, other, db, output: None }, outcome)
}

fn in_parts(of: GainOf, own: Option<f64>, other: Option<f64>, most: f64) -> (GainFact, Outcome) {
    let outcome = match own.zip(other) {
        Some((x, y)) if (y / x - 1.0).abs() <= most => Outcome::Ok,
        Some(_) => Outcome::Differs,
        None => Outcome::Unknown,
    };
    (GainFact { of, own, other, ..GainFact::default() }, outcome)
}
