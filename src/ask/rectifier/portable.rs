//! Three-way portables: battery tubes whose filaments hang on B+ follow every volt a new rectifier adds.

use super::RectifierQuestion;
use super::plan::Plan;
use crate::ask::{ErrorAnswer, tube};
use crate::book::Book;
use crate::finding::{Finding, Outcome};
use crate::heater::{Heater, solve};
use crate::quantity::{ohm, significant, volt, watt, whole};
use crate::series::{Series, power_rating_w};

/// Filament volts this far above the rating are as much as is borne, percent. Common practice, no source.
const MOST_OVER: f64 = 10.0;

/// Whether it says that the filaments get too much in the set as it will be, all tubes in.
pub(super) fn is_fatal(finding: &Finding) -> bool {
    finding.outcome == Outcome::Fails
        && matches!(finding.check.as_str(), "filaments after" | "filaments on a high line")
}

/// The filaments before and after; empty when none are named.
///
/// # Errors
/// A tube without a filament rating, or no resistor given.
pub(super) fn filaments(book: &Book, question: &RectifierQuestion, plan: &Plan) -> Result<Vec<Finding>, ErrorAnswer> {
    if question.filament_tubes.is_empty() {
        return Ok(Vec::new());
    }
    let Some(fitted_ohm) = question.filament_ohm else {
        return Err(ErrorAnswer::new("filament_ohm", "", "the resistor from B+ to the filaments, 0 to 100000 ohm"));
    };
    let mut heaters = Vec::new();
    for (at, typed) in question.filament_tubes.iter().enumerate() {
        let field = format!("filament_tubes[{at}]");
        let tube = tube::find(book, &field, typed)?.tube;
        let Some((v, a)) = tube.figures.heater_v.zip(tube.figures.heater_a) else {
            let found = format!("{}, of which the book does not know filament volts and amperes", tube.name);
            return Err(ErrorAnswer::new(field, found, "a tube whose filament rating is in the book"));
        };
        heaters.push(Heater::new(v, a));
    }
    let sum_v: f64 = heaters.iter().map(|heater| heater.rated_v).sum();
    let rated_a = heaters.iter().map(|heater| heater.rated_a).fold(f64::INFINITY, f64::min);
    let at = |b_plus_v: f64| {
        solve(&heaters, fitted_ohm, b_plus_v).ok().map(|solved| {
            let most = solved.heaters.iter().map(|state| state.percent).fold(0.0, f64::max);
            (solved.current_a, most)
        })
    };
    let nominal = &plan.nominal().warm;
    let after_v = nominal.second_v.unwrap_or(nominal.first_v);
    let share = after_v / nominal.first_v;
    let mut found = Vec::new();
    let mut told = |check: &str, b_plus_v: f64, what: &str| {
        let Some((amps, most)) = at(b_plus_v) else { return };
        let outcome = if most > 100.0 + MOST_OVER {
            Outcome::Fails
        } else if (most - 100.0).abs() <= 5.0 {
            Outcome::Ok
        } else {
            Outcome::Differs
        };
        found.push(Finding::figures(
            check,
            outcome,
            format!("{} A", significant(rated_a, 3)),
            format!("{} A", significant(amps, 3)),
            format!(
                "{what}, {} on the filament resistor: the fullest filament gets {} % of its volts.",
                volt(b_plus_v),
                whole(most)
            ),
        ));
    };
    if let Some([_, original_v, _]) = plan.original_v {
        told("filaments before", share * original_v, "With the original when fresh");
    }
    told("filaments after", after_v, "With silicon and its resistor");
    let high = &plan.high().warm;
    told("filaments on a high line", high.second_v.unwrap_or(high.first_v), "On a line 10 % high");
    told(
        "filaments alone on B+",
        plan.nominal().cold.crest_v,
        "With nothing else drawing (a pulled tube, an open output transformer)",
    );
    let exact_ohm = (after_v - sum_v) / rated_a;
    if exact_ohm > 0.0 {
        let fit = Series::E24.at_least(exact_ohm).unwrap_or(exact_ohm);
        let heat_w = fit * rated_a * rated_a;
        found.push(Finding::figures(
            "filament resistor",
            if (fit / fitted_ohm.max(1.0) - 1.0).abs() <= 0.05 { Outcome::Ok } else { Outcome::NeedsChange },
            ohm(exact_ohm),
            ohm(fitted_ohm),
            format!(
                "For {} A out of {} it takes {}, {} ({} of heat). Try it first on {} in place of the tubes, as a dummy load.",
                significant(rated_a, 3),
                volt(after_v),
                ohm(fit),
                power_rating_w(heat_w).map_or_else(|| "more than 100 W".to_owned(), watt),
                watt(heat_w),
                ohm(sum_v / rated_a)
            ),
        ));
    }
    Ok(found)
}
