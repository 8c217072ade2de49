//! One swap judged under one way of feeding the heaters, put into words.

use serde::Serialize;

use super::socket::{supply_name, supply_words};
use crate::book::{Function, HeaterKind, UnitFigures};
use crate::finding::{Change, Finding, Outcome, Verdict};
use crate::order::sort_few;
use crate::swap::words::{self, Pair};
use crate::swap::{Check, Fact, Grade, Judgement, Socket, Supply, judge};

/// The swap judged under one way of feeding the heaters.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Way {
    /// "series", "parallel" or "battery".
    pub supply: String,
    /// In words: "heaters in series, 0.15 A".
    pub supply_words: String,
    /// The grade.
    pub grade: Grade,
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The one or two findings that decide.
    pub reasons: Vec<Finding>,
    /// What has to change, in order.
    pub changes: Vec<Change>,
    /// Every check, the deciding one first.
    pub findings: Vec<Finding>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Facts missing, that would settle an unknown.
    pub missing: Vec<String>,
}

/// The findings that decide: the worst ones, two at the most; for a good grade what there is to notice.
pub(super) fn reasons(pair: &Pair<'_>, judgement: &Judgement) -> Vec<Finding> {
    let Some(checks) = &judgement.checks else { return Vec::new() };
    let mut order: Vec<&Check> = checks.iter().filter(|check| weight(check) > 0).collect();
    // Refused though no check fails alone: work on the heater for a tube that then amplifies far otherwise. The two are the reason.
    if judgement.grade == Grade::No && !checks.iter().any(|check| check.outcome == Outcome::Fails) {
        order.retain(|check| matches!(check.fact, Fact::Heater(_) | Fact::Gain(_)));
        return order.into_iter().map(|check| pair.finding(check)).collect();
    }
    sort_few(&mut order, |check| std::cmp::Reverse(weight(check)));
    let worst = order.first().map_or(0, |check| weight(check));
    // Beside the worst kind a second finding of another kind is shown; notices only where nothing weighs more.
    order.into_iter().take_while(|check| weight(check) + 2 >= worst).take(3).map(|check| pair.finding(check)).collect()
}

fn weight(check: &Check) -> u8 {
    match check.outcome {
        Outcome::Fails => 6,
        Outcome::Unknown if check.decisive => 5,
        Outcome::NeedsChange => 4,
        Outcome::Differs => 3,
        Outcome::Unknown => 2,
        Outcome::Ok if check.notice => 1,
        Outcome::Ok => 0,
    }
}

pub(super) fn way(pair: &Pair<'_>, socket: &Socket, same: bool, labels: (&str, &str)) -> Way {
    let judgement = judge(pair.original, pair.candidate, socket, same);
    let grade = judgement.grade;
    let mut reasons = reasons(pair, &judgement);
    let mut findings: Vec<Finding> = Vec::new();
    let mut missing = Vec::new();
    if let Some(checks) = &judgement.checks {
        let mut order: Vec<&Check> = checks.iter().collect();
        sort_few(&mut order, |check| std::cmp::Reverse(weight(check)));
        findings = order.into_iter().map(|check| pair.finding(check)).collect();
        missing = checks.iter().filter_map(|check| missing_fact(pair, check)).collect();
    } else {
        let says = format!("{} and {} are names of one type, {}.", labels.0, labels.1, pair.original.name);
        reasons.push(Finding::plain("name", Outcome::Ok, says));
    }
    let changes = pair.changes(&judgement);
    let (set, have) = (&pair.original.name, &pair.candidate.name);
    let by = |outcome: Outcome| {
        let all = findings.iter().filter(|finding| finding.outcome == outcome);
        all.map(|finding| finding.check.as_str()).collect::<Vec<_>>().join(", ")
    };
    let says = match grade {
        Grade::Same => format!("{} and {} are two names of one tube.", labels.1, labels.0),
        Grade::AsIs => format!("Plug {have} in where the set wants {set}."),
        Grade::AsIsDifferent => {
            let differs = by(Outcome::Differs);
            if differs.is_empty() {
                format!(
                    "{have} in place of {set} is safe, but how it will work is not all known: {}.",
                    by(Outcome::Unknown)
                )
            } else {
                format!("{have} in place of {set} is safe; what differs: {differs}.")
            }
        }
        Grade::AfterChanges if look_first(&judgement).is_some() => {
            let pins = words::pins_text(look_first(&judgement).unwrap_or_default());
            format!(
                "{have} goes in for {set} once you have looked at {pins} of the socket: nothing may be wired there."
            )
        }
        Grade::AfterChanges => format!("{have} in place of {set} takes work on: {}.", by(Outcome::NeedsChange)),
        Grade::No if by(Outcome::Fails).is_empty() => {
            format!("{have} in place of {set} would take work on its heater and then still amplify far otherwise.")
        }
        Grade::No => format!("{have} does not go in place of {set}: {}.", by(Outcome::Fails)),
        Grade::Unknown => format!("The book lacks what it takes to tell: {}.", missing.join("; ")),
    };
    let verdict = Verdict { mark: words::mark(grade), word: words::grade_words(grade).to_owned(), says };
    Way {
        supply: supply_name(socket).to_owned(),
        supply_words: supply_words(socket, pair.original),
        grade,
        verdict,
        reasons,
        changes,
        measure: measure(pair, socket, grade),
        findings,
        missing,
    }
}

fn missing_fact(pair: &Pair<'_>, check: &Check) -> Option<String> {
    if check.outcome != Outcome::Unknown {
        return None;
    }
    let whose = |own: bool, other: bool| match (own, other) {
        (true, true) => format!("{} and {}", pair.original.name, pair.candidate.name),
        (true, false) => pair.original.name.clone(),
        _ => pair.candidate.name.clone(),
    };
    let (what, own, other) = match check.fact {
        Fact::Base(own, other) => ("base", own.is_none(), other.is_none()),
        Fact::Pins(_) => ("pins", pair.original.pins.is_none(), pair.candidate.pins.is_none()),
        Fact::Heater(fact) => ("heater volts and amperes", fact.own.is_none(), fact.other.is_none()),
        Fact::HeaterCathode(fact) => ("most heater-cathode volts", fact.own_v.is_none(), fact.other_v.is_none()),
        Fact::CutOff(fact) => ("cut-off", fact.own.is_none(), fact.other.is_none()),
        Fact::Rating(fact) => {
            let words =
                UnitFigures::COLUMNS.iter().find(|column| column.0 == fact.column).map_or("rating", |column| column.1);
            (words, fact.own.is_none(), fact.other.is_none())
        }
        Fact::Point(fact) => ("typical point", fact.own_ma.is_none(), fact.other_ma.is_none()),
        Fact::Gain(fact) => ("typical figures", fact.own.is_none(), fact.other.is_none()),
        Fact::Shield { .. } => ("bulb", pair.original.envelope.is_none(), pair.candidate.envelope.is_none()),
        Fact::WarmUp(own, other) => ("warm-up", own.is_none(), other.is_none()),
        Fact::Structure(_) => return None,
    };
    Some(format!("{what} of {}", whose(own, other)))
}

/// What to measure after the swap; common practice, no source.
fn measure(pair: &Pair<'_>, socket: &Socket, grade: Grade) -> Vec<String> {
    if matches!(grade, Grade::No | Grade::Unknown | Grade::Same) {
        return Vec::new();
    }
    let mut all = Vec::new();
    if let Some(volts) = pair.candidate.figures.heater_v
        && matches!(socket.supply, Supply::Series { .. })
    {
        let what = if pair.candidate.heater_kind == Some(HeaterKind::Filament) { "Filament" } else { "Heater" };
        all.push(format!("{what} volts, warm: {} V within 10 %.", words::figure(volts)));
    }
    let has = |function: Function| pair.original.unit_of(function).is_some();
    if has(Function::Rectifier) {
        all.push("B+ at the first filter, cold and warm, against the capacitors' rating.".to_owned());
    }
    if has(Function::PowerPentode) || has(Function::PowerTriode) {
        all.push(if pair.original.heater_kind == Some(HeaterKind::Filament) {
            "Plate current of the output tube against its data.".to_owned()
        } else {
            "Cathode volts of the output tube, and that its grid sits at 0 V.".to_owned()
        });
    }
    all
}

/// The pins to look at, when that is all that stands between the candidate and the socket.
fn look_first(judgement: &Judgement) -> Option<u16> {
    let mut work = judgement.checks.iter().flatten().filter(|check| check.outcome == Outcome::NeedsChange);
    match (work.next()?.fact, work.next()) {
        (Fact::Pins(fact), None) if !fact.rewire() => Some(fact.ties),
        _ => None,
    }
}
