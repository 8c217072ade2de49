//! The figures of the answer: the string as fitted, the resistors it needs, the string with them.

use super::items::Kind;
use super::wired::{Place, Wired};
use super::{Dropper, HeaterRow, HeaterStringQuestion, round};
use crate::ask::ErrorAnswer;
use crate::book::{Function, HeaterKind, Tube};
use crate::finding::Outcome;
use crate::heater::{
    CONTROLLED_S, Heater, HeaterState, Mass, Part, Solved, Trouble, WarmPoint, dropper, preferred_ohm, same_a, shunt,
    solve, warm_up,
};
use crate::quantity::plain_figure;
use crate::series::{Series, power_rating_w};

/// Volts this far from the rating are as good as it, and tolerable, percent. Common practice, no source.
pub(super) const OK_PERCENT: f64 = 5.0;
pub(super) const TOLERABLE_PERCENT: f64 = 10.0;

/// How long the warm-up is shown, seconds.
const WARM_UP_S: u32 = 60;

/// A resistor across the heater in one place.
pub(super) struct ShuntFit {
    /// Its place in the string, from zero.
    pub place: usize,
    pub ohm: f64,
    pub dissipates_w: f64,
    pub rated_w: Option<f64>,
}

/// The resistor in series.
pub(super) struct DropperFit {
    pub part: Dropper,
    /// Watts sold that are enough; none when none is.
    pub rated_w: Option<f64>,
}

pub(super) struct Plan {
    /// The string as it is.
    pub now: Solved,
    pub shunts: Vec<ShuntFit>,
    /// Heaters that want more current than the string is meant for.
    pub starved: Vec<usize>,
    pub dropper: Option<DropperFit>,
    /// The string with shunts and dropper, when there is anything to change.
    pub then: Option<Solved>,
}

/// How a heater comes out.
pub(super) fn outcome(state: &HeaterState) -> Outcome {
    let off = (state.percent - 100.0).abs();
    if state.fails() {
        Outcome::Fails
    } else if off <= OK_PERCENT {
        Outcome::Ok
    } else if off <= TOLERABLE_PERCENT {
        Outcome::Differs
    } else {
        Outcome::NeedsChange
    }
}

/// How one part comes out. A resistor has no rating to be held to; a lamp that is dim does no harm.
pub(super) fn outcome_of(place: &Place<'_>, state: &HeaterState) -> Outcome {
    match place.kind {
        Kind::Tube => outcome(state),
        Kind::Lamp if state.percent > 100.0 + TOLERABLE_PERCENT => outcome(state),
        _ => Outcome::Ok,
    }
}

/// The worst of a string.
pub(super) fn worst(string: &Wired<'_>, solved: &Solved) -> Outcome {
    string
        .places
        .iter()
        .zip(&solved.heaters)
        .map(|(place, state)| outcome_of(place, state))
        .max()
        .unwrap_or(Outcome::Ok)
}

impl Plan {
    pub fn make(question: &HeaterStringQuestion, string: &Wired<'_>) -> Result<Self, ErrorAnswer> {
        Self::of(question, string).map_err(|trouble| refused(&trouble))
    }

    fn of(question: &HeaterStringQuestion, string: &Wired<'_>) -> Result<Self, Trouble> {
        let heaters = string.heaters();
        let fitted_ohm = question.dropper_ohm.unwrap_or(0.0);
        let now = solve(&heaters, fitted_ohm, question.line_v)?;
        let shunts = shunts(string);
        let mut mended = heaters.clone();
        for fit in &shunts {
            if let Some(heater) = mended.get_mut(fit.place) {
                *heater = heater.with_shunt(fit.ohm);
            }
        }
        let starved = heaters
            .iter()
            .enumerate()
            .filter(|(at, heater)| {
                string.places.get(*at).is_some_and(|place| place.kind == Kind::Tube)
                    && heater.rated_a > string.string_a
                    && !same_a(heater.rated_a, string.string_a)
            })
            .map(|(place, _)| place)
            .collect();
        // What every heater gets too much without a dropper is what the line is over the sum of their volts.
        let over_percent = 100.0 * (question.line_v / string.sum_v() - 1.0);
        let exact = dropper(&heaters, string.string_a, question.line_v)?;
        let dropper = if over_percent > OK_PERCENT {
            let ohm = preferred_ohm(&mended, exact.ohm, question.line_v)?;
            let heat_w = solve(&mended, ohm, question.line_v)?.series_w;
            let rated_w = power_rating_w(heat_w);
            let part = Dropper {
                exact_ohm: round(exact.ohm, 1),
                ohm,
                dissipates_w: round(heat_w, 2),
                rated_w: rated_w.unwrap_or_else(|| (2.0 * heat_w).ceil()),
            };
            Some(DropperFit { part, rated_w })
        } else {
            None
        };
        let proper_ohm = dropper.as_ref().map_or(0.0, |fit| fit.part.ohm);
        // A dropper that is fitted and serves is left alone.
        let serves = shunts.is_empty() && worst(string, &now) == Outcome::Ok;
        let changed = !shunts.is_empty() || proper_ohm != fitted_ohm;
        let then = if changed && !serves { Some(solve(&mended, proper_ohm, question.line_v)?) } else { None };
        Ok(Self { now, shunts, starved, dropper, then })
    }

    /// The string with what it needs, or as it is when it needs nothing.
    pub fn proper(&self) -> &Solved {
        self.then.as_ref().unwrap_or(&self.now)
    }

    pub fn rows(&self, string: &Wired<'_>, question: &HeaterStringQuestion) -> Vec<HeaterRow> {
        let insulation = heater_cathode(string, question, &self.now);
        let states = string.places.iter().zip(&self.now.heaters).zip(insulation);
        states
            .map(|((place, state), heater_cathode_v)| HeaterRow {
                r#type: place.name.clone(),
                rated_v: round(place.heater.rated_v, 2),
                rated_a: place.heater.rated_a,
                v: round(state.v, 2),
                percent: round(state.percent, 1),
                power_percent: round(state.power_percent, 1),
                outcome: outcome_of(place, state),
                heater_cathode_v,
            })
            .collect()
    }

    /// How the parts warm, and the ohms in series, with what the string needs in place.
    pub fn warming(&self, string: &Wired<'_>, question: &HeaterStringQuestion) -> (Vec<Part>, f64) {
        let mut parts: Vec<Part> = string.places.iter().map(Place::part).collect();
        if self.then.is_none() {
            return (parts, question.dropper_ohm.unwrap_or(0.0));
        }
        for fit in &self.shunts {
            if let Some(part) = parts.get_mut(fit.place) {
                part.heater = part.heater.with_shunt(fit.ohm);
            }
        }
        (parts, self.dropper.as_ref().map_or(0.0, |fit| fit.part.ohm))
    }

    /// The string from switching on.
    pub fn warm_up(&self, string: &Wired<'_>, question: &HeaterStringQuestion) -> Vec<WarmPoint> {
        let (parts, series_ohm) = self.warming(string, question);
        warm_up(&parts, series_ohm, question.line_v, WARM_UP_S).unwrap_or_default()
    }
}

/// One heater for the answer.
pub(in crate::ask) fn row(tube: &Tube, heater: &Heater, state: &HeaterState) -> HeaterRow {
    HeaterRow {
        r#type: tube.name.clone(),
        rated_v: heater.rated_v,
        rated_a: heater.rated_a,
        v: round(state.v, 2),
        percent: round(state.percent, 1),
        power_percent: round(state.power_percent, 1),
        outcome: outcome(state),
        heater_cathode_v: None,
    }
}

/// Of each heater the upper end over its cathode, crest volts, the string in the order wired: cathodes at the chassis, a rectifier's at
/// B+, which goes up to the crest of the line. None where there is no cathode.
pub(super) fn heater_cathode(string: &Wired<'_>, question: &HeaterStringQuestion, solved: &Solved) -> Vec<Option<f64>> {
    let crest = if question.line_hz == 0.0 { 1.0 } else { std::f64::consts::SQRT_2 };
    let mut above_v: f64 = solved.heaters.iter().map(|state| state.v).sum();
    let places = string.places.iter().zip(&solved.heaters);
    places
        .map(|(place, state)| {
            let place_v = above_v * crest;
            above_v -= state.v;
            let tube = place.tube.filter(|tube| tube.heater_kind == Some(HeaterKind::Heater))?;
            let b_plus_v = if tube.unit_of(Function::Rectifier).is_some() { question.line_v * crest } else { 0.0 };
            Some(round(place_v + b_plus_v, 0))
        })
        .collect()
}

/// A resistor across every heater that takes less than the string and has none.
fn shunts(string: &Wired<'_>) -> Vec<ShuntFit> {
    let fit = |(place, part): (usize, &Place<'_>)| {
        let heater = &part.heater;
        if heater.shunt_ohm.is_some() {
            return None;
        }
        let exact = shunt(heater, string.string_a + heater.added_a)?;
        let ohm = Series::E24.nearest(exact.ohm).unwrap_or(exact.ohm);
        let dissipates_w = heater.rated_v * heater.rated_v / ohm;
        Some(ShuntFit { place, ohm, dissipates_w, rated_w: power_rating_w(dissipates_w) })
    };
    string.places.iter().enumerate().filter_map(fit).collect()
}

impl Place<'_> {
    /// How it warms. Of types that are not controlled nobody knows the time: the controlled one is taken.
    pub fn part(&self) -> Part {
        let mass = match self.kind {
            Kind::Tube => Mass::Heater(CONTROLLED_S),
            Kind::Thermistor(Some(ratio)) => Mass::Thermistor(ratio),
            _ => Mass::None,
        };
        Part { heater: self.heater, mass }
    }
}

/// What the engine will not take, as a field of the question.
fn refused(trouble: &Trouble) -> ErrorAnswer {
    match *trouble {
        Trouble::NoHeaters => ErrorAnswer::new("tubes", "an empty list", "at least one tube designation"),
        Trouble::OutOfRange { heater: Some(place), field, found, least, most } => ErrorAnswer::new(
            format!("tubes[{place}]"),
            format!("a type with {field} of {} in the book", plain_figure(found)),
            format!("a heater with {field} from {} to {}", plain_figure(least), plain_figure(most)),
        ),
        Trouble::OutOfRange { heater: None, field, found, least, most } => {
            let field = if field == "series_ohm" { "dropper_ohm" } else { field };
            ErrorAnswer::new(
                field,
                plain_figure(found),
                format!("a number from {} to {}", plain_figure(least), plain_figure(most)),
            )
        }
    }
}
