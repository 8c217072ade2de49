//! Does it stand what the set puts on it?
//!
//! The set's own volts are used when known, else the original's ratings. An amplifier's rating that is lower by less
//! than a fifth counts as a difference only: design-centre and design-maximum figures of one tube differ by as much, and so do the books
//! (6L6 of 19 W and of 24 W), unless the original's own handbook point is above it. A rectifier's must be within a tenth, for when it fails the
//! transformer goes with it.
//! Source: JEDEC's definitions of design-centre and design-maximum ratings; the two fractions are a judgement, no source.

use super::structure::Structure;
use super::{Check, Fact, Socket, line_crest, resistance_coupled};
use crate::book::{Function, HeaterKind, Tube, Unit, UnitFigures};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "Plate and screen volts, dissipation, a rectifier's inverse volts and current: a tube past its ratings fails, and a rectifier or output tube takes the transformer with it. A 5Y3GT (125 mA) is no 5U4G (225 mA).";

/// The rating that decides.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RatingFact {
    /// Column of `UnitFigures` and what it is; empty when every rating is enough.
    pub column: &'static str,
    /// What is asked: the set's figure, or the original's rating.
    pub own: Option<f64>,
    /// The candidate's rating.
    pub other: Option<f64>,
    /// Whether `own` is the set's own figure.
    pub from_set: bool,
    /// Whether the candidate's rating is well above.
    pub higher: bool,
    /// What is wrong beside the figures.
    pub why: RatingWhy,
}

/// What is wrong beside the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RatingWhy {
    /// Nothing.
    #[default]
    Figures,
    /// The original is made for the 12 V of a car battery on its plate and the candidate is not.
    LowPlate,
    /// The candidate's cathode is far smaller than that of a tube made for large currents.
    WeakCathode,
    /// Nothing says that the original drives a loudspeaker.
    Pulses,
}

/// One rating to compare.
struct Rating {
    column: &'static str,
    of: fn(&UnitFigures) -> Option<f64>,
    /// The set's own figure, when known.
    set: Option<f64>,
    /// Whether it decides: a rating that does not is said, and no more, whether too low or not known.
    decisive: bool,
    /// The volts of the handbook point, for ratings of volts.
    typ: Option<fn(&UnitFigures) -> Option<f64>>,
}

/// Least part of the original's rating that an amplifier and a rectifier must reach.
const AMPLIFIER_PART: f64 = 0.8;
const OUTPUT_PART: f64 = 0.85;
const RECTIFIER_PART: f64 = 0.9;
/// How far the watts of the original's screen may pass the candidate's rating where its volts do.
const SCREEN_PART: f64 = 1.2;
/// Plate volts up to which a tube is one of those made for 12 V on the plate; ordinary ones are rated 90 V and more.
const LOW_PLATE_V: f64 = 50.0;
/// Plate volts from which an output tube may be one that sweeps a picture tube, where its cathode gives all it can; few books rate the current, so the
/// heater's watts tell: at less than half of them the cathode is another size. A judgement, no source.
const SWEEP_PLATE_V: f64 = 500.0;
const CATHODE_PART: f64 = 0.5;

fn ratings_for(own: &Unit, socket: &Socket, original: &Tube) -> ([Option<Rating>; 4], bool) {
    let function = own.function;
    let rating = |column, of, set, decisive| Some(Rating { column, of, set, decisive, typ: None });
    let volts = |column, of, set, typ| Some(Rating { column, of, set, decisive: true, typ: Some(typ) });
    let plate_v = volts("plate_max_v", |f: &UnitFigures| f.plate_max_v, socket.plate_v, |f| f.typ_plate_v);
    let screen_v = volts("screen_max_v", |f: &UnitFigures| f.screen_max_v, socket.screen_v, |f| f.typ_screen_v);
    let set_w = socket.plate_v.zip(socket.plate_ma).map(|(v, ma)| v * ma / 1000.0);
    let plate_w = |decisive| rating("plate_max_w", |f: &UnitFigures| f.plate_max_w, set_w, decisive);
    let screen_w = rating("screen_max_w", |f: &UnitFigures| f.screen_max_w, None, false);
    let none = || None;
    let battery = original.heater_kind == Some(HeaterKind::Filament)
        && original.figures.heater_v.is_some_and(|volts| volts <= 3.0);
    // Into a capacitor a rectifier sees twice the crest of the line.
    let inverse = line_crest(original, socket).map(|crest| 2.0 * crest);
    match function {
        Function::Triode if resistance_coupled(own) => ([plate_v, none(), none(), none()], true),
        // Most small triodes were published with a limit of volts alone, and their bias and plate resistor keep them far below their
        // dissipation: it is said, and does not decide.
        Function::Triode => ([plate_v, plate_w(false), none(), none()], true),
        Function::PowerTriode => ([plate_v, plate_w(true), none(), none()], true),
        // Battery tubes are rated by their volts, not by dissipation.
        Function::PowerPentode | Function::Pentode | Function::Tetrode if battery => {
            ([plate_v, screen_v, none(), none()], true)
        }
        Function::PowerPentode => ([plate_v, screen_v, plate_w(true), screen_w], true),
        Function::Pentode | Function::Tetrode | Function::GatedDetector => {
            ([plate_v, screen_v, plate_w(false), none()], true)
        }
        Function::Heptode => ([plate_v, screen_v, none(), none()], true),
        Function::TuningIndicator => ([plate_v, none(), none(), none()], true),
        Function::Rectifier | Function::Damper => (
            [
                rating("peak_inverse_max_v", |f: &UnitFigures| f.peak_inverse_max_v, inverse, true),
                rating("dc_out_max_ma", |f: &UnitFigures| f.dc_out_max_ma, None, true),
                // The flyback's pulse through a damper is what wears it out.
                rating("plate_peak_max_ma", |f: &UnitFigures| f.plate_peak_max_ma, None, function == Function::Damper),
                // Asked when the set's capacitor is known; few books give the limit, so a missing one is said and does not decide.
                socket.first_filter_uf.and_then(|uf| {
                    rating("first_filter_max_uf", |f: &UnitFigures| f.first_filter_max_uf, Some(uf), false)
                }),
            ],
            true,
        ),
        // Signal diodes carry a fraction of a milliamp in a radio.
        Function::Diode => ([none(), none(), none(), none()], true),
        Function::Regulator => (
            [
                rating("typ_plate_v", |f: &UnitFigures| f.typ_plate_v, None, true),
                // What the set no longer draws goes through the regulator.
                rating("cathode_max_ma", |f: &UnitFigures| f.cathode_max_ma, socket.plate_ma, true),
                none(),
                none(),
            ],
            true,
        ),
    }
}

/// The check.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let mut worst = Check::new(Fact::Rating(RatingFact::default()), Outcome::Ok);
    let mut raised: Option<RatingFact> = None;
    let heater_w = |tube: &Tube| tube.figures.heater_v.zip(tube.figures.heater_a).map(|(volts, amps)| volts * amps);
    let small = heater_w(candidate).zip(heater_w(original)).is_some_and(|(other, own)| other < CATHODE_PART * own);
    for (own, other) in structure.pairs(original, candidate) {
        if small
            && own.function == Function::PowerPentode
            && own.figures.plate_max_v.is_some_and(|volts| volts >= SWEEP_PLATE_V)
        {
            let fact = RatingFact {
                column: "cathode_max_ma",
                own: own.figures.cathode_max_ma,
                other: other.figures.cathode_max_ma,
                why: RatingWhy::WeakCathode,
                ..RatingFact::default()
            };
            return Check::new(Fact::Rating(fact), Outcome::Fails);
        }
        let of_own = &own.figures;
        // An output tube published without load and watts may be one that deflects a picture tube; those rated for hundreds of volts more
        // are told by that.
        let silent = own.function == Function::PowerPentode
            && of_own.load_kohm.or(of_own.output_w).or(socket.load_kohm).is_none()
            && of_own.plate_max_v.is_some_and(|volts| volts < SWEEP_PLATE_V);
        if silent && worst.outcome < Outcome::Unknown {
            let fact = RatingFact { column: "load_kohm", why: RatingWhy::Pulses, ..RatingFact::default() };
            worst = Check::new(Fact::Rating(RatingFact { other: other.figures.load_kohm, ..fact }), Outcome::Unknown);
        }
        let (list, strict) = ratings_for(own, socket, original);
        let rectifier = matches!(own.function, Function::Rectifier | Function::Damper);
        let output = matches!(own.function, Function::PowerPentode | Function::PowerTriode);
        let part = match (rectifier, output) {
            (true, _) => RECTIFIER_PART,
            (_, true) => OUTPUT_PART,
            _ => AMPLIFIER_PART,
        };
        // Few books give a converter's screen volts, and none a tuning indicator's.
        let amplifies = !matches!(own.function, Function::TuningIndicator | Function::Heptode);
        // A screen bears a few more volts where its dissipation stays within what it may be.
        let screen_w = of_own.typ_screen_v.zip(of_own.typ_screen_ma).map(|(volts, ma)| volts * ma / 1000.0);
        let screen_bears =
            screen_w.zip(other.figures.screen_max_w).is_some_and(|(watts, most)| watts <= SCREEN_PART * most);
        for rating in list.into_iter().flatten() {
            let wanted = rating.set.or((rating.of)(&own.figures));
            let found = (rating.of)(&other.figures);
            let mut fact = RatingFact {
                column: rating.column,
                own: wanted,
                other: found,
                from_set: rating.set.is_some(),
                higher: false,
                why: RatingWhy::Figures,
            };
            let low = |volts: Option<f64>| volts.is_some_and(|volts| volts <= LOW_PLATE_V);
            if rating.column == "plate_max_v" && low(wanted) && !low(other.figures.typ_plate_v) {
                fact.why = RatingWhy::LowPlate;
            }
            let outcome = match (wanted, found) {
                (Some(wanted), Some(found)) if rating.column == "first_filter_max_uf" && found < wanted => {
                    Outcome::NeedsChange
                }
                // At 12 V on the plate an ordinary tube hardly conducts, whatever its ratings.
                _ if fact.why == RatingWhy::LowPlate => Outcome::Fails,
                (Some(wanted), Some(found)) if rating.column == "typ_plate_v" => {
                    if (found / wanted - 1.0).abs() <= 0.02 { Outcome::Ok } else { Outcome::Fails }
                }
                (Some(wanted), Some(found)) if found >= wanted => {
                    fact.higher = found > 1.1 * wanted && !fact.from_set;
                    Outcome::Ok
                }
                // A hundredth is lost in the rounding of published figures (330 V for a 117 V line).
                (Some(wanted), Some(found)) if rating.set.is_some() && found >= 0.99 * wanted => Outcome::Ok,
                (Some(wanted), Some(found)) if found >= part * wanted && rating.set.is_none() => {
                    // A little lower is enough where the original's handbook point is known to be within it.
                    match rating.typ.filter(|_| amplifies).map(|typ| typ(of_own)) {
                        Some(None) => Outcome::Unknown,
                        Some(Some(typ)) if found < 0.99 * typ && !(screen_bears && rating.column == "screen_max_v") => {
                            Outcome::Fails
                        }
                        _ => Outcome::Differs,
                    }
                }
                (Some(_), Some(_)) if rating.decisive && strict => Outcome::Fails,
                (Some(_), Some(_)) => Outcome::Differs,
                _ => Outcome::Unknown,
            };
            if fact.higher && raised.is_none() {
                raised = Some(fact);
            }
            // Watts that are not known pass, where they pass, only with volts that are as high.
            let unlike =
                rating.column == "plate_max_w" && found.is_none() && other.figures.plate_max_v < of_own.plate_max_v;
            let check =
                Check { decisive: (rating.decisive || unlike) && strict, ..Check::new(Fact::Rating(fact), outcome) };
            let weight = |check: &Check| (check.outcome, check.outcome == Outcome::Unknown && check.decisive);
            if weight(&check) > weight(&worst) {
                worst = check;
            }
        }
    }
    if worst.outcome == Outcome::Ok
        && let Some(fact) = raised
    {
        return Check::new(Fact::Rating(fact), Outcome::Ok).noticed(true);
    }
    worst
}
