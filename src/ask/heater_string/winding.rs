//! Heaters in parallel on a winding: what it has to give.

use super::plan::outcome;
use super::story::{amps, volts};
use super::wired::Wired;
use super::{HeaterRow, HeaterStringAnswer, HeaterStringQuestion, round};
use crate::ask::ErrorAnswer;
use crate::caution;
use crate::finding::{Finding, Mark, Outcome, Verdict};
use crate::heater::Heater;
use crate::quantity::tenth;

/// The winding with everything on it.
///
/// # Errors
/// A resistor in the list: in parallel it has no place.
pub(super) fn answer(
    question: &HeaterStringQuestion,
    string: &Wired<'_>,
    winding_v: f64,
) -> Result<HeaterStringAnswer, ErrorAnswer> {
    let mut heaters = Vec::new();
    let mut findings = Vec::new();
    for (at, place) in string.places.iter().enumerate() {
        if place.heater.exponent == 1.0 {
            let accepted = "tubes and lamps, when they are in parallel on a winding";
            return Err(ErrorAnswer::new(format!("tubes[{at}]"), place.name.clone(), accepted));
        }
        // The other connection of a tapped heater, when that is what the winding gives.
        let parallel = place.tube.and_then(|tube| tube.figures.heater_parallel_v.zip(tube.figures.heater_parallel_a));
        let rated = place.tube.and_then(|tube| tube.figures.heater_v.zip(tube.figures.heater_a));
        let (rated_v, rated_a) = [rated, parallel]
            .into_iter()
            .flatten()
            .min_by(|left, right| (left.0 - winding_v).abs().total_cmp(&(right.0 - winding_v).abs()))
            .unwrap_or((place.heater.rated_v, place.heater.rated_a));
        let a = rated_a * (winding_v / rated_v).powf(Heater::EXPONENT);
        let percent = 100.0 * winding_v / rated_v;
        let state = crate::heater::HeaterState { v: winding_v, a, percent, power_percent: percent * a / rated_a };
        let outcome = outcome(&state);
        let row = HeaterRow {
            r#type: place.name.clone(),
            rated_v,
            rated_a,
            v: winding_v,
            percent: round(percent, 1),
            power_percent: round(state.power_percent, 1),
            outcome,
            heater_cathode_v: None,
        };
        let says = if state.fails() {
            format!("{} is made for {}: on {} it fails.", row.r#type, volts(rated_v), volts(winding_v))
        } else {
            format!("{} is made for {} and takes {}.", row.r#type, volts(rated_v), amps(a))
        };
        findings.push(Finding::figures("heater", outcome, volts(rated_v), volts(winding_v), says));
        heaters.push((row, a));
    }
    let sum_a: f64 = heaters.iter().map(|(_, a)| a).sum();
    let worst = heaters.iter().map(|(row, _)| row.outcome).max().unwrap_or(Outcome::Ok);
    let load = format!("The heaters take {} at {}, {} W.", amps(sum_a), volts(winding_v), tenth(sum_a * winding_v));
    let (outcome, wanted, says) = match question.winding_a {
        None => {
            (Outcome::Unknown, "not given".to_owned(), format!("{load} What the winding is made for is not given."))
        }
        Some(most_a) if sum_a <= 1.02 * most_a => (Outcome::Ok, amps(most_a), load),
        Some(most_a) => {
            (Outcome::Fails, amps(most_a), format!("{load} The winding is made for {}: it overheats.", amps(most_a)))
        }
    };
    // A heater on the wrong volts decides, whatever the winding bears.
    let decides = if worst >= Outcome::NeedsChange { worst } else { worst.max(outcome) };
    let (mark, word) = match decides {
        Outcome::Ok => (Mark::Yes, "Yes, as it stands."),
        Outcome::Differs => (Mark::Care, "Yes, with a difference."),
        Outcome::NeedsChange | Outcome::Fails => (Mark::No, "No."),
        Outcome::Unknown => (Mark::Unknown, "Cannot tell."),
    };
    let wrong =
        findings.iter().filter(|finding| finding.outcome >= Outcome::NeedsChange).map(|finding| finding.says.as_str());
    let verdict = Verdict {
        mark,
        word: word.to_owned(),
        says: [says.as_str()].into_iter().chain(wrong).collect::<Vec<_>>().join(" "),
    };
    let reason = Finding::figures("winding", outcome, wanted, amps(sum_a), says);
    findings.insert(0, reason.clone());
    Ok(HeaterStringAnswer {
        verdict,
        reasons: vec![reason],
        changes: Vec::new(),
        measure: vec!["AC volts at the heater pins with all tubes in, warm: within 10 % of the rating.".to_owned()],
        findings,
        cautions: vec![caution::LICENSED_PRACTICE],
        line_v: winding_v,
        sum_v: round(heaters.iter().map(|(row, _)| row.rated_v).sum(), 2),
        current_a: round(sum_a, 4),
        dropper_v: 0.0,
        heaters: heaters.into_iter().map(|(row, _)| row).collect(),
        dropper: None,
        alternatives: Vec::new(),
        remedies: Vec::new(),
        warm_up: Vec::new(),
    })
}
