//! What was looked at, what to do and what to measure.

use super::verdict::part_says;
use super::{Case, HeatFrom, ResistorPart, ResistorRole, construction, part_value};
use crate::caution::{ASBESTOS, HOT_CHASSIS, HOT_RESISTOR, STORED_CHARGE};
use crate::finding::{Caution, Change, Finding, Outcome, PartToFit};
use crate::order::sort_few;
use crate::passive::{Joined, TOUCH_NOTICE_MA, TOUCH_TARGET_MA, best_pair};
use crate::quantity::{milliamp, ohm, percent, significant, volt, watt, watt_rating};
use crate::series::Series;

/// Volts and amps that disagree with the value by more than this, as a ratio, are doubted.
const DISAGREE: f64 = 1.3;

/// Volts above which a wire-wound body's sheet has to be asked.
const ASK_SHEET_V: f64 = 350.0;

/// The findings that decide, at most three.
pub(super) fn reasons(case: &Case<'_>) -> Vec<Finding> {
    let mut reasons: Vec<Finding> = findings(case).into_iter().filter(|finding| finding.wanted.is_some()).collect();
    sort_few(&mut reasons, |finding| finding.outcome == Outcome::Ok);
    reasons.truncate(3);
    reasons
}

/// Everything looked at.
pub(super) fn findings(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    if case.readings.len() > 1 {
        let outcome = if case.settled { Outcome::Differs } else { Outcome::Unknown };
        let says = if case.settled {
            "The marking has another meaning, which does not agree with what is known of the part."
        } else {
            "The marking has more than one meaning; see the readings, and compare its neighbours on the drawing."
        };
        findings.push(Finding::plain("marking", outcome, says));
    }
    findings.extend(drift(case));
    findings.extend(value(case));
    findings.extend(nearer(case));
    findings.extend(heat(case));
    findings.extend(volts(case));
    findings.extend(disagreement(case));
    if let Some(line_v) = case.choice.line_v {
        findings.extend(touch(case, line_v));
    }
    findings
}

fn drift(case: &Case<'_>) -> Option<Finding> {
    let drift = case.drift?;
    let measured = case.question.measured_ohm?;
    let outcome = match (drift.within(), drift.percent < 0.0) {
        (true, _) if case.masked() => Outcome::Unknown,
        (true, _) => Outcome::Ok,
        (false, true) => Outcome::Unknown,
        (false, false) => Outcome::NeedsChange,
    };
    let says =
        if drift.marked { "Judged by the tolerance it is marked with." } else { "Judged by the customary 20 %." };
    let wanted = format!("{}, {} %", ohm(case.mark.ohm), significant(drift.tolerance.above_percent, 3));
    Some(Finding::figures("drift", outcome, wanted, format!("{}, {}", ohm(measured), percent(drift.percent)), says))
}

fn value(case: &Case<'_>) -> Option<Finding> {
    let value = case.choice.parts.first().map_or(case.choice.values.first().copied(), |part| Some(part.ohm))?;
    let difference = (value - case.mark.ohm) / case.mark.ohm * 100.0;
    let says = if case.choice.raised {
        "The value is higher on purpose: the old one lets too much current through.".to_owned()
    } else if difference.abs() < 0.05 {
        "The same value is sold.".to_owned()
    } else if case.question.role.is_some_and(ResistorRole::is_exact) {
        format!("{}; here the value sets a working point, so it is kept within 5 %.", percent(difference))
    } else {
        format!("{} is inside what the old part was allowed.", percent(difference))
    };
    let wanted = format!("{}, {} %", ohm(case.mark.ohm), significant(case.choice.tolerance.above_percent, 3));
    let outcome = if case.choice.raised { Outcome::Differs } else { Outcome::Ok };
    Some(Finding::figures("value", outcome, wanted, format!("{}, {}", ohm(value), percent(difference)), says))
}

/// Where the value sets a working point: two that come nearer, and how they share the heat.
fn nearer(case: &Case<'_>) -> Option<Finding> {
    let value = case.choice.parts.first()?.ohm;
    if !case.question.role.is_some_and(ResistorRole::is_exact) || (value - case.mark.ohm).abs() < case.mark.ohm * 0.01 {
        return None;
    }
    let pair = best_pair(case.mark.ohm, Series::E12, Joined::Series)?;
    let together = pair.together(Joined::Series);
    if (together - case.mark.ohm).abs() >= (value - case.mark.ohm).abs() {
        return None;
    }
    // In series the same current flows in both, in parallel the same volts stand across both.
    let (series, share) = match pair.joined {
        Joined::Series => ("series", pair.first / (pair.first + pair.second)),
        Joined::Parallel => ("parallel", pair.second / (pair.first + pair.second)),
    };
    let shared = case.choice.needed_w.map_or(String::new(), |needed_w| {
        format!(", of at least {} and {}", watt(needed_w * share), watt(needed_w * (1.0 - share)))
    });
    let says = format!(
        "{} and {} in {series}{shared} come nearer ({}).",
        ohm(pair.first),
        ohm(pair.second),
        percent((together - case.mark.ohm) / case.mark.ohm * 100.0)
    );
    Some(Finding::plain("nearer value", Outcome::Ok, says))
}

fn heat(case: &Case<'_>) -> Option<Finding> {
    let Some(needed_w) = case.choice.needed_w else {
        return Some(Finding::figures(
            "watts",
            Outcome::Unknown,
            "volts, milliamps or the old watts",
            "none of them",
            "Neither volts, milliamps nor the watts of the old part are known, so the watts cannot be told.",
        ));
    };
    let part = case.choice.parts.first()?;
    let rated = watt_rating(part.body.watts * f64::from(part.in_series));
    let (wanted, says) = match case.choice.heat {
        Some(heat) => {
            let from = match heat.from {
                HeatFrom::Both => "from the volts and the milliamps",
                HeatFrom::Volts => "from the volts",
                HeatFrom::Amps => "from the milliamps",
                HeatFrom::Pulses => "from pulses of 2.4 times the direct current",
                HeatFrom::HighValue | HeatFrom::NoCurrent => "at the most, by its value",
            };
            if heat.from == HeatFrom::NoCurrent {
                let says = "A grid leak carries no current to speak of; not below the old part.";
                return Some(Finding::figures("watts", Outcome::Ok, "no heat to speak of", rated, says));
            }
            let wanted = format!("{} of heat, {} asked for", watt(heat.watts), watt(needed_w));
            (
                wanted,
                format!(
                    "The heat is figured {from}; at least twice that is asked for, and not less than the old part."
                ),
            )
        }
        None => (format!("{} on the old part", watt_rating(needed_w)), "Not below the old part.".to_owned()),
    };
    Some(Finding::figures("watts", Outcome::Ok, wanted, rated, says))
}

fn volts(case: &Case<'_>) -> Option<Finding> {
    let part = case.choice.parts.first()?;
    let working = volt(part.working_v.floor());
    let Some(needed_v) = case.choice.needed_v else {
        let says = format!("The volts across it are not known; this part bears {working}.");
        return Some(Finding::plain("volts", Outcome::Unknown, says));
    };
    if part.body.limit_v.is_none() && needed_v > ASK_SHEET_V {
        return Some(Finding::figures(
            "volts",
            Outcome::Unknown,
            volt(needed_v),
            "not known",
            "Ask the maker's sheet for the volts this wire-wound body may see.",
        ));
    }
    let says = "The lesser of the body's limit and what its watts allow; a line 10 % high is allowed for.";
    Some(Finding::figures("volts", Outcome::Ok, volt(needed_v), working, says))
}

fn disagreement(case: &Case<'_>) -> Option<Finding> {
    let (volts, ma) = (case.question.circuit_v?, case.question.circuit_ma?);
    let by_ohm = volts / (ma / 1e3);
    let ratio = by_ohm / case.mark.ohm;
    if (1.0 / DISAGREE..=DISAGREE).contains(&ratio) {
        return None;
    }
    Some(Finding::figures(
        "ohm's law",
        Outcome::Unknown,
        ohm(case.mark.ohm),
        ohm(by_ohm),
        "Volts, milliamps and ohms do not agree; check them. The hottest case is reckoned with.",
    ))
}

/// What the resistor between bus and chassis alone lets through a person, the old value and the new.
fn touch(case: &Case<'_>, line_v: f64) -> Vec<Finding> {
    let wanted = format!("{} to aim at, {} not to pass", milliamp(TOUCH_TARGET_MA), milliamp(TOUCH_NOTICE_MA));
    let at = |value: f64| format!("{} through {} at {}", milliamp(line_v / value * 1e3), ohm(value), volt(line_v));
    let mut findings = Vec::new();
    if case.choice.raised {
        findings.push(Finding::figures(
            "touch current",
            Outcome::Fails,
            wanted.clone(),
            at(case.mark.ohm),
            "The old value must not go back in.",
        ));
    }
    if let Some(part) = case.choice.parts.first() {
        let over = line_v / part.ohm * 1e3 > TOUCH_TARGET_MA;
        let says = if over {
            "Beside the current of the capacitor. A higher value, up to about 1 Mohm, lets less through and still bleeds \
             the chassis."
        } else {
            "Beside the current of the capacitor."
        };
        let outcome = if over { Outcome::Differs } else { Outcome::Ok };
        findings.push(Finding::figures("touch current", outcome, wanted, at(part.ohm), says));
    }
    findings
}

/// What to do, in order.
pub(super) fn changes(case: &Case<'_>) -> Vec<Change> {
    // A single old resistor is no barrier, however well it measures.
    if case.settled && !case.masked() && case.choice.line_v.is_none() && case.drift.is_some_and(super::Drift::within) {
        return Vec::new();
    }
    let Some(part) = case.choice.parts.first() else {
        return Vec::new();
    };
    let mut changes =
        vec![Change::with_part("Fit this, a little off the board so that air gets round it.", part_to_fit(part, case))];
    if part.in_series > 1 && case.question.role == Some(ResistorRole::BusToChassis) {
        changes.push(Change::plain(
            "Use two in series, so that one that fails shorted does not put the chassis on the line.",
        ));
    }
    if let Some(other) = case.choice.parts.get(1) {
        changes.push(Change::plain(format!("Or {}.", part_says(other, case))));
    }
    changes
}

fn part_to_fit(part: &ResistorPart, case: &Case<'_>) -> PartToFit {
    let known = case.choice.heat.filter(|heat| !matches!(heat.from, HeatFrom::HighValue | HeatFrom::NoCurrent));
    PartToFit {
        part: format!("resistor, {}", construction(part, case)),
        value: part_value(part),
        dissipates_w: known.map(|heat| (heat.watts / f64::from(part.in_series) * 1e3).round() / 1e3),
        rating: watt_rating(part.body.watts),
    }
}

/// What to measure.
pub(super) fn measure(case: &Case<'_>) -> Vec<String> {
    let mut measure = Vec::new();
    if case.question.measured_ohm.is_none() {
        measure
            .push("Set cold and discharged, one end lifted: its ohms. In the circuit it can only read low.".to_owned());
    } else if !case.drift.is_some_and(super::Drift::within) {
        measure.push(
            "If both ends were connected, lift one and measure again: in the circuit it can only read low.".to_owned(),
        );
    } else {
        measure
            .push("If both ends were connected, it may be higher than it reads: lift one end to be sure.".to_owned());
    }
    match case.question.role {
        Some(ResistorRole::PlateLoad | ResistorRole::ScreenFeed) => {
            measure.push("Set warm: plate and screen volts against the drawing.".to_owned());
        }
        Some(ResistorRole::Cathode) => measure.push("Set warm: the cathode volts against the drawing.".to_owned()),
        Some(ResistorRole::Filter | ResistorRole::Surge) => {
            measure.push("Set warm: B+ against the drawing, and after ten minutes how hot it runs.".to_owned());
        }
        Some(ResistorRole::HeaterDropper) => {
            measure.push("Set warm: the volts of every heater, with a true-rms meter.".to_owned());
        }
        Some(ResistorRole::BusToChassis) => measure.push(
            "AC volts across a 2 kohm resistor from the metal to ground, plug both ways: 0.5 V is 0.25 mA.".to_owned(),
        ),
        Some(ResistorRole::GridLeak) | None => {}
    }
    measure
}

/// The warnings, the most urgent first.
pub(super) fn cautions(case: &Case<'_>) -> Vec<Caution> {
    match case.question.role {
        Some(ResistorRole::BusToChassis) => vec![HOT_CHASSIS, STORED_CHARGE],
        Some(ResistorRole::HeaterDropper) => vec![HOT_CHASSIS, HOT_RESISTOR, ASBESTOS],
        Some(ResistorRole::Surge | ResistorRole::Filter) => vec![STORED_CHARGE, HOT_RESISTOR],
        _ => vec![STORED_CHARGE],
    }
}
