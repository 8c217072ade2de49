//! One swap judged under one way of feeding the heaters, put into words.

use serde::Serialize;

use super::b_plus::{b_plus, unsettled};
use super::socket::{SocketQuestion, supply_name, supply_words};
use super::string::string;
use crate::ask::heater_string::HeaterRow;
use crate::book::{Book, FoundToday, Function, HeaterKind, UnitFigures};
use crate::finding::{Change, Finding, Outcome, Verdict};
use crate::order::sort_few;
use crate::quantity::significant;
use crate::swap::words::{self, Pair};
use crate::swap::{CapacitanceFact, Check, Fact, Grade, Judgement, Socket, Supply, judge};

/// A fact the book lacks, that would settle an unknown.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct MissingFact {
    /// "most plate volts of 6AU6".
    pub says: String,
    /// The column of the book, or the first of several, that would hold it.
    pub column: &'static str,
    /// The types of which it is missing.
    pub types: Vec<String>,
}

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
    /// How much work it is, in plain words; empty when it is not to be done.
    pub work: String,
    /// What an expert would add: that the original is easily had; absent when there is nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub advice: Option<String>,
    /// The one or two findings that decide.
    pub reasons: Vec<Finding>,
    /// What has to change, in order.
    pub changes: Vec<Change>,
    /// Every check, the deciding one first.
    pub findings: Vec<Finding>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Facts missing, that would settle an unknown.
    pub missing: Vec<MissingFact>,
    /// The heater string with the candidate in it and nothing else changed, from the line end; empty unless the other tubes are given.
    pub string: Vec<HeaterRow>,
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
        _ if !check.grades => u8::from(check.notice),
        Outcome::Fails => 6,
        Outcome::Unknown if check.decisive => 5,
        Outcome::NeedsChange => 4,
        Outcome::Differs => 3,
        Outcome::Unknown => 2,
        Outcome::Ok if check.notice => 1,
        Outcome::Ok => 0,
    }
}

pub(super) fn way(
    book: &Book,
    pair: &Pair<'_>,
    socket: &Socket,
    same: bool,
    (question, labels): (&SocketQuestion, (&str, &str)),
) -> Way {
    let judgement = judge(pair.original, pair.candidate, socket, same);
    let grade = judgement.grade;
    let mut reasons = reasons(pair, &judgement);
    let mut findings: Vec<Finding> = Vec::new();
    let mut missing: Vec<MissingFact> = Vec::new();
    if let Some(checks) = &judgement.checks {
        let mut order: Vec<&Check> = checks.iter().collect();
        sort_few(&mut order, |check| std::cmp::Reverse(weight(check)));
        findings = order.into_iter().map(|check| pair.finding(check)).collect();
        missing = checks.iter().filter_map(|check| missing_fact(pair, check)).collect();
        let solved = if grade == Grade::No { None } else { b_plus(pair, socket, question) };
        let told = |check: &Check| matches!(check.fact, Fact::Gain(fact) if fact.raised_v().is_some());
        if grade != Grade::No && solved.is_none() && checks.iter().any(told) {
            let both = findings.iter_mut().chain(&mut reasons);
            both.filter(|one| one.check == "B+").for_each(|one| one.says.push_str(unsettled(pair, socket)));
        }
        if !matches!(grade, Grade::No | Grade::Unknown) {
            findings.extend(solved);
            if let Some(note) = &pair.candidate.note {
                let says = format!("The book on {}: {note}.", pair.candidate.name);
                findings.push(Finding::plain("note", Outcome::Ok, says));
            }
        }
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
        Grade::Unknown => {
            let facts: Vec<&str> = missing.iter().map(|fact| fact.says.as_str()).collect();
            format!("The book lacks what it takes to tell: {}.", facts.join("; "))
        }
    };
    let verdict = Verdict { mark: words::mark(grade), word: words::grade_words(grade).to_owned(), says };
    Way {
        work: work(&judgement, &changes),
        advice: advice(pair, grade),
        string: string(book, pair, socket, question),
        supply: supply_name(socket).to_owned(),
        supply_words: supply_words(socket, pair.original),
        grade,
        verdict,
        reasons,
        changes,
        measure: measure(pair, socket, &judgement),
        findings,
        missing,
    }
}

fn missing_fact(pair: &Pair<'_>, check: &Check) -> Option<MissingFact> {
    if check.outcome != Outcome::Unknown || !check.grades {
        return None;
    }
    let (column, what, own, other) = match check.fact {
        Fact::Base(own, other) => ("base", "base", own.is_none(), other.is_none()),
        Fact::Pins(_) => ("pins", "pins", pair.original.pins.is_none(), pair.candidate.pins.is_none()),
        Fact::Heater(fact) => ("heater_v", "heater volts and amperes", fact.own.is_none(), fact.other.is_none()),
        Fact::HeaterCathode(fact) => {
            ("heater_cathode_max_v", "most heater-cathode volts", fact.own_v.is_none(), fact.other_v.is_none())
        }
        Fact::CutOff(fact) => ("cut_off", "cut-off", fact.own.is_none(), fact.other.is_none()),
        Fact::Rating(fact) => {
            let words =
                UnitFigures::COLUMNS.iter().find(|column| column.0 == fact.column).map_or("rating", |column| column.1);
            (fact.column, words, fact.own.is_none(), fact.other.is_none())
        }
        Fact::Point(fact) => {
            ("typ_plate_ma", "typical plate current and volts", fact.own_ma.is_none(), fact.other_ma.is_none())
        }
        Fact::Gain(fact) => {
            ("gm_ms", "transconductance or amplification factor", fact.own.is_none(), fact.other.is_none())
        }
        Fact::Shield { .. } => {
            ("envelope", "bulb", pair.original.envelope.is_none(), pair.candidate.envelope.is_none())
        }
        Fact::WarmUp(own, other) => ("warm_up", "warm-up", own.is_none(), other.is_none()),
        Fact::Structure(_) | Fact::Capacitance(_) | Fact::Size(_) => return None,
    };
    let types: Vec<String> = [(&pair.original.name, own), (&pair.candidate.name, other || !own)]
        .into_iter()
        .filter(|(_, lacks)| *lacks)
        .map(|(name, _)| name.clone())
        .collect();
    Some(MissingFact { says: format!("{what} of {}", types.join(" and ")), column, types })
}

/// How much work the changes are, in plain words.
fn work(judgement: &Judgement, changes: &[Change]) -> String {
    let needs = |wanted: fn(&Fact) -> bool| {
        judgement.checks.iter().flatten().any(|check| check.outcome == Outcome::NeedsChange && wanted(&check.fact))
    };
    let wires: usize = changes.iter().map(|change| change.moves.len()).sum();
    let parts = changes.iter().filter(|change| change.part.is_some()).count();
    match judgement.grade {
        Grade::No | Grade::Unknown => String::new(),
        Grade::Same | Grade::AsIs | Grade::AsIsDifferent => "None: pull one, plug the other.".to_owned(),
        _ if needs(|fact| matches!(fact, Fact::Base(..))) => {
            let parts = if parts > 0 { ", and parts to solder in the set" } else { "" };
            format!("An adapter to make or buy, or a new socket with every wire moved{parts}.")
        }
        Grade::AfterChanges => {
            let mut jobs = Vec::new();
            if wires > 0 {
                jobs.push(if wires == 1 { "1 wire to move".to_owned() } else { format!("{wires} wires to move") });
            }
            if parts > 0 {
                jobs.push(if parts == 1 { "1 part to solder".to_owned() } else { format!("{parts} parts to solder") });
            }
            if needs(|fact| matches!(fact, Fact::Gain(_))) {
                jobs.push("a look at what the filter capacitors stand, and perhaps a resistor".to_owned());
            }
            if jobs.is_empty() {
                jobs.push("a look under the chassis, and perhaps a wire to move".to_owned());
            }
            let mut text = jobs.join(", ");
            text.push('.');
            text
        }
    }
}

/// Where the original is easily had, work is for nothing.
fn advice(pair: &Pair<'_>, grade: Grade) -> Option<String> {
    let common = pair.original.found_today == Some(FoundToday::Common);
    (common && grade >= Grade::AfterChanges)
        .then(|| format!("{} itself is common: look for one before you change the set.", pair.original.name))
}

/// What to measure after the swap; common practice, no source.
fn measure(pair: &Pair<'_>, socket: &Socket, judgement: &Judgement) -> Vec<String> {
    if matches!(judgement.grade, Grade::No | Grade::Unknown | Grade::Same) {
        return Vec::new();
    }
    let mut all = Vec::new();
    if let Some(volts) = pair.candidate.figures.heater_v
        && matches!(socket.supply, Supply::Series { .. })
    {
        let what = if pair.candidate.heater_kind == Some(HeaterKind::Filament) { "Filament" } else { "Heater" };
        all.push(format!("{what} volts, warm: {} V within 10 %.", words::figure(volts)));
    }
    for check in judgement.checks.iter().flatten() {
        if let Fact::Capacitance(CapacitanceFact { moved: Some((khz, at_khz, _)), .. }) = check.fact
            && check.notice
        {
            all.push(format!(
                "The trimmers of the stage: they may want a touch, by about {} kHz at {} kHz.",
                significant(khz.abs(), 2),
                words::figure(at_khz)
            ));
        }
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
