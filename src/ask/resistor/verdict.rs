//! Keep it or replace it, in one sentence.

use super::{Case, Drift, ResistorPart, ResistorRole, construction, part_value, says};
use crate::finding::{Mark, Verdict};
use crate::quantity::{milliamp, ohm, percent, significant, volt, watt_rating};

/// Beyond this a part that sets a working point is doubted, although the old 20 % allow it.
const WORKING_POINT_PERCENT: f64 = 10.0;

/// The verdict: the marking first, then the meter, then what to fit.
pub(super) fn verdict(case: &Case<'_>) -> Verdict {
    let fit = fit(case);
    if case.choice.raised {
        let old = milliamp(case.choice.line_v.unwrap_or(0.0) / case.mark.ohm * 1e3);
        let says = format!(
            "Not {} again: alone it would let {old} through a person who touches the metal at {}. {}",
            ohm(case.mark.ohm),
            volt(case.choice.line_v.unwrap_or(0.0)),
            sentence(&fit)
        );
        return replace(case, Mark::Care, "Not the old value.", &says);
    }
    if !case.settled {
        let all: Vec<String> = case.readings.iter().map(says).collect();
        let (word, ask) = match case.drift {
            None => ("Cannot tell yet: measure it.", "measure it, or say what it does"),
            Some(_) => ("Cannot tell.", "what it reads does not settle which; say what it does"),
        };
        let says = format!("The marking can mean {}: {ask}. If it is {}, {fit}", all.join(" or "), says(&case.mark));
        return verdict_of(Mark::Unknown, word, says);
    }
    let Some(drift) = case.drift else {
        let (mark, word) = match case.choice.line_v {
            Some(_) => (Mark::Care, "Only as a pair."),
            None => (Mark::Yes, "Yes."),
        };
        return replace(case, mark, word, &format!("For {}: {fit}", says(&case.mark)));
    };
    let measured = case.question.measured_ohm.map(ohm).unwrap_or_default();
    let allowed = format!("{} %", significant(drift.tolerance.above_percent, 3));
    if case.masked() {
        let says = format!(
            "{measured} in the circuit is {}: parts across it make it read low, and composition drifts up, so it may be \
             higher than it reads. Lift one end; if it is outside its {allowed}, {fit}",
            off(drift)
        );
        return verdict_of(Mark::Unknown, "Lift one end and measure again.", says);
    }
    let exact = case.question.role.is_some_and(ResistorRole::is_exact);
    if drift.within() && exact && drift.percent.abs() > WORKING_POINT_PERCENT {
        let says = format!(
            "{measured} is {} of {}: inside its {allowed}, but here the value sets a working point. Unless the volts are \
             right, {fit}",
            off(drift),
            ohm(case.mark.ohm)
        );
        return replace(case, Mark::Care, "In tolerance; check the volts.", &says);
    }
    if drift.within() && case.choice.line_v.is_some() {
        let says = format!(
            "{measured} is {} of {}, inside its {allowed}; but a single old resistor is all that parts the metal from the \
             line: {fit}",
            off(drift),
            ohm(case.mark.ohm)
        );
        return replace(case, Mark::Care, "In tolerance; fit a pair.", &says);
    }
    if drift.within() {
        let says =
            format!("{measured} is {} of {}, inside its {allowed}: leave it in.", off(drift), ohm(case.mark.ohm));
        return verdict_of(Mark::Yes, "Leave it in.", says);
    }
    if drift.percent < 0.0 {
        let says = format!(
            "{measured} is {} of {}, outside its {allowed}. Composition drifts up, seldom down: make sure one end is \
             lifted, since a parallel path reads low. If it is, {fit}",
            off(drift),
            ohm(case.mark.ohm)
        );
        return verdict_of(Mark::Care, "Lift one end and measure again.", says);
    }
    let says = format!("{measured} is {} of {}, outside its {allowed}: {fit}", off(drift), ohm(case.mark.ohm));
    replace(case, Mark::Care, "Replace it.", &says)
}

/// A verdict that has a part to fit, if there is one.
fn replace(case: &Case<'_>, mark: Mark, word: &str, says: &str) -> Verdict {
    if case.choice.parts.is_empty() {
        let word = if case.choice.needed_w.is_none() { "Cannot tell the watts." } else { "No part." };
        let mark = if case.choice.needed_w.is_none() { Mark::Unknown } else { Mark::No };
        return verdict_of(mark, word, says);
    }
    verdict_of(mark, word, says)
}

/// "12 % above".
fn off(drift: Drift) -> String {
    let size = percent(drift.percent.abs()).trim_start_matches('+').to_owned();
    if drift.percent.abs() < 0.05 {
        "on the marking".to_owned()
    } else {
        format!("{size} {} the marking", if drift.percent < 0.0 { "below" } else { "above" })
    }
}

/// "fit 470 kohm, 1/2 W metal film."
fn fit(case: &Case<'_>) -> String {
    if let Some(part) = case.choice.parts.first() {
        return format!("fit {}.", part_says(part, case));
    }
    match (case.choice.values.first(), case.choice.needed_w) {
        (Some(value), None) => format!(
            "{} is the value, but the watts cannot be told: give the volts across it, the milliamps through it, or the \
             watts of the old part.",
            ohm(*value)
        ),
        (Some(value), Some(_)) => {
            format!("{} is the value, but no body that is sold bears the watts and volts there.", ohm(*value))
        }
        (None, _) => "no value that is sold comes within its tolerance.".to_owned(),
    }
}

/// "470 kohm, 1/2 W metal film", "2 x 110 kohm in series, each 1/2 W metal film".
pub(super) fn part_says(part: &ResistorPart, case: &Case<'_>) -> String {
    let each = if part.in_series > 1 { "each " } else { "" };
    let construction = construction(part, case);
    format!("{}, {each}{} {construction}", part_value(part), watt_rating(part.body.watts))
}

/// The same words as a sentence of their own.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().collect::<String>() + letters.as_str())
}

fn verdict_of(mark: Mark, word: &str, says: impl Into<String>) -> Verdict {
    Verdict { mark, word: word.to_owned(), says: says.into() }
}
