//! The figures of the answer: the string as fitted, the resistors it needs, the string with them.

use super::wired::Wired;
use super::{Dropper, HeaterRow, HeaterStringQuestion, round};
use crate::ask::ErrorAnswer;
use crate::book::Tube;
use crate::finding::Outcome;
use crate::heater::{Heater, HeaterState, Solved, Trouble, dropper, preferred_ohm, same_a, shunt, solve};
use crate::series::{Series, power_rating_w};

/// Volts this far from the rating are as good as it, and tolerable, percent. Common practice, no source.
pub(super) const OK_PERCENT: f64 = 5.0;
pub(super) const TOLERABLE_PERCENT: f64 = 10.0;

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

/// The worst of a string.
pub(super) fn worst(solved: &Solved) -> Outcome {
    solved.heaters.iter().map(outcome).max().unwrap_or(Outcome::Ok)
}

impl Plan {
    pub fn make(question: &HeaterStringQuestion, string: &Wired<'_>) -> Result<Self, ErrorAnswer> {
        Self::of(question, string).map_err(|trouble| refused(&trouble))
    }

    fn of(question: &HeaterStringQuestion, string: &Wired<'_>) -> Result<Self, Trouble> {
        let heaters = string.heaters();
        let fitted_ohm = question.dropper_ohm.unwrap_or(0.0);
        let now = solve(&heaters, fitted_ohm, question.line_v)?;
        let shunts = shunts(&heaters, string.string_a);
        let mut mended = heaters.clone();
        for fit in &shunts {
            if let Some(heater) = mended.get_mut(fit.place) {
                *heater = heater.with_shunt(fit.ohm);
            }
        }
        let starved = heaters
            .iter()
            .enumerate()
            .filter(|(_, heater)| heater.rated_a > string.string_a && !same_a(heater.rated_a, string.string_a))
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
        let serves = shunts.is_empty() && worst(&now) == Outcome::Ok;
        let changed = !shunts.is_empty() || proper_ohm != fitted_ohm;
        let then = if changed && !serves { Some(solve(&mended, proper_ohm, question.line_v)?) } else { None };
        Ok(Self { now, shunts, starved, dropper, then })
    }

    pub fn rows(&self, string: &Wired<'_>) -> Vec<HeaterRow> {
        string
            .places
            .iter()
            .zip(&self.now.heaters)
            .map(|(place, state)| row(place.tube, &place.heater, state))
            .collect()
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
    }
}

/// A resistor across every heater that takes less than the string.
fn shunts(heaters: &[Heater], string_a: f64) -> Vec<ShuntFit> {
    let fit = |(place, heater): (usize, &Heater)| {
        let exact = shunt(heater, string_a)?;
        let ohm = Series::E24.nearest(exact.ohm).unwrap_or(exact.ohm);
        let dissipates_w = heater.rated_v * heater.rated_v / ohm;
        Some(ShuntFit { place, ohm, dissipates_w, rated_w: power_rating_w(dissipates_w) })
    };
    heaters.iter().enumerate().filter_map(fit).collect()
}

/// What the engine will not take, as a field of the question.
fn refused(trouble: &Trouble) -> ErrorAnswer {
    match *trouble {
        Trouble::NoHeaters => ErrorAnswer::new("tubes", "an empty list", "at least one tube designation"),
        Trouble::OutOfRange { heater: Some(place), field, found, least, most } => ErrorAnswer::new(
            format!("tubes[{place}]"),
            format!("a type with {field} of {found} in the book"),
            format!("a heater with {field} from {least} to {most}"),
        ),
        Trouble::OutOfRange { heater: None, field, found, least, most } => {
            let field = if field == "series_ohm" { "dropper_ohm" } else { field };
            ErrorAnswer::new(field, found.to_string(), format!("a number from {least} to {most}"))
        }
    }
}
