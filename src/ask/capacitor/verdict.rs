//! The answer in one sentence.

use super::{CapacitorKind, CapacitorRole, Case, Choice, Dielectric, Doubt, Joined, LEAVE, NoPart, rating, readings};
use crate::finding::{Mark, Verdict};
use crate::passive::{Basis, CapacitorPart, Rating};
use crate::quantity::{farad, milliamp, volt};

/// What to say wherever the place is not known.
const IF_AT_LINE: &str = "If it sits at the power line, across it or from the line to the chassis, this answer is wrong: there \
                          it needs safety class X2 or Y2.";

/// The verdict: whatever hurts first, then what is doubtful, then what fits.
pub(super) fn verdict(case: &Case<'_>) -> Verdict {
    let Some(mark) = case.readings.first() else {
        return verdict_of(Mark::Unknown, "Cannot tell.", "The marking cannot be read.");
    };
    let old = readings::says(mark);
    if let Some(no_part) = case.choices.iter().find_map(|choice| choice.as_ref().err()) {
        return no(*no_part);
    }
    let parts = parts_say(case);
    let tail = if case.may_be_at_line() { format!(" {IF_AT_LINE}") } else { String::new() };
    if let Some(doubt) = case.doubt() {
        let all: Vec<String> = case.readings.iter().map(readings::says).collect();
        let (word, ask) = match doubt {
            Doubt::Value => ("Cannot tell yet: measure it.", "measure it first"),
            Doubt::Sections => ("Cannot tell yet: count its leads.", "count its leads first"),
        };
        let says = format!("The marking can mean {}: {ask}. If it is {old}, fit {parts}.{tail}", either(&all));
        return verdict_of(Mark::Unknown, word, says);
    }
    if case.at_line() {
        return at_line(case, &old, &parts);
    }
    if let Some(judged) = &case.judged {
        let says = match judged.mark {
            // A part that may sit at the line is not left in for its health.
            _ if judged.keep => format!("{}{tail}", judged.says),
            Mark::Unknown => format!("{} If it proves bad, fit {parts}.{tail}", judged.says),
            _ => format!("{} For {old} fit {parts}.{tail}", judged.says),
        };
        let mark = if judged.keep && !case.stays() { Mark::Care } else { judged.mark };
        let word = if judged.keep && !case.stays() { "Good so far." } else { judged.word };
        return verdict_of(mark, word, says);
    }
    if let Some(says) = &case.most_says
        && case.chosen().any(|choice| choice.most.is_some_and(|most| choice.farad() > most * (1.0 + 1e-9)))
    {
        let says = format!(
            "{says} For {old} {parts} is nearest, which is more: add resistance before the rectifier, or use less."
        );
        return verdict_of(Mark::Care, "More than the rectifier bears.", says);
    }
    if case.chosen().flat_map(|choice| &choice.parts).any(|part| part.joined == Some(Joined::Series)) {
        let says = format!("No single part is sold for so many volts; for {old} fit {parts}.{tail}");
        return verdict_of(Mark::Care, "Only as two in series.", says);
    }
    let unknown_volts = case.chosen().find_map(|choice| choice.rating.filter(|rating| rating.basis == Basis::Usual));
    if matches!(case.kind, CapacitorKind::Mica | CapacitorKind::Ceramic) {
        let bound = unknown_volts.map(|rating| format!(" {}", volts_bound(rating))).unwrap_or_default();
        let says = format!(
            "Leave {} in that measures right; only a bad one of {old} is replaced, by {parts}.{bound}{tail}",
            readings::kind_says(case.kind)
        );
        return verdict_of(Mark::Care, LEAVE, says);
    }
    if let Some(rating) = unknown_volts {
        let says = format!("For {old} fit {parts}. {}{tail}", volts_bound(rating));
        return if case.kind == CapacitorKind::Electrolytic {
            verdict_of(Mark::Unknown, "Cannot tell the volts.", says)
        } else {
            verdict_of(Mark::Care, "Yes, if the volts are right.", says)
        };
    }
    if case.may_be_at_line() {
        let says = format!("For {old} in an ordinary DC place fit {parts}. {IF_AT_LINE}");
        return verdict_of(Mark::Care, "Yes, in an ordinary DC place.", says);
    }
    verdict_of(Mark::Yes, "Yes.", format!("For {old} fit {parts}."))
}

/// Up to where a rating is right that was chosen without any volts.
fn volts_bound(rating: Rating) -> String {
    let good_to = volt(rating.good_to_v.floor());
    format!(
        "No volts are marked or given: that rating is right where the place has no more than {good_to} at cold start."
    )
}

fn at_line(case: &Case<'_>, old: &str, parts: &str) -> Verdict {
    let barrier = case.chosen().find_map(|choice| Some((choice.old.farad, choice.barrier?)));
    let Some((old_farad, barrier)) = barrier else {
        let says = format!("For {old} across the line fit {parts}; a film part rated in DC volts is not made for it.");
        return verdict_of(Mark::Care, "Only with a class X2 part.", says);
    };
    let touch = milliamp(barrier.line.touch_ma(barrier.farad));
    if barrier.reduced {
        let old_touch = milliamp(barrier.line.touch_ma(old_farad));
        let says = format!(
            "Not {} again: it would let {old_touch} through a person who touches the metal. Fit {parts}; it lets {touch} \
             through at {}.",
            farad(old_farad),
            volt(barrier.line.volt)
        );
        return verdict_of(Mark::Care, "Not the old value.", says);
    }
    let word = format!("Only with a class {} part.", barrier.class.name());
    let says = format!("For {old} fit {parts}; it lets {touch} through at {}.", volt(barrier.line.volt));
    let place = match case.role {
        Some(CapacitorRole::LineToChassis) if case.role_by_mark => {
            " If it sits across the line instead, a class X2 part of the old value does."
        }
        _ => "",
    };
    verdict_of(Mark::Care, &word, says + place)
}

fn no(no_part: NoPart) -> Verdict {
    let says = match no_part {
        NoPart::ElectrolyticAtLine => {
            "An electrolytic, or any part of 2 uF and more, does not sit directly at the AC line. Check the place: after \
             the rectifier it is the first filter."
                .to_owned()
        }
        NoPart::Volts(volts) => format!("Nothing is sold for {}, alone or two in series.", volt(volts)),
        NoPart::Value => "No value that is sold, alone or two in parallel, comes within its tolerance.".to_owned(),
    };
    verdict_of(Mark::No, "No.", says)
}

/// "a 0.022 uF (22 nF) film capacitor for 630 V DC", sections joined by "and".
fn parts_say(case: &Case<'_>) -> String {
    let mut said: Vec<(String, usize)> = Vec::new();
    for choice in case.chosen() {
        let says = choice_says(choice);
        match said.iter_mut().find(|(known, _)| *known == says) {
            Some((_, count)) => *count += 1,
            None => said.push((says, 1)),
        }
    }
    let said: Vec<String> =
        said.into_iter().map(|(says, count)| if count > 1 { format!("{count} x {says}") } else { says }).collect();
    said.join(" and ")
}

fn choice_says(choice: &Choice) -> String {
    match choice.parts.as_slice() {
        [one, two] if one.joined == Some(Joined::Parallel) => {
            format!("{} in parallel with {}", part_says(one), part_says(two))
        }
        [one, _] => format!("two of {} in series", part_says(one)),
        parts => parts.iter().map(part_says).collect(),
    }
}

fn part_says(part: &CapacitorPart) -> String {
    let what = match part.dielectric {
        Dielectric::Film => "film",
        Dielectric::Electrolytic => "electrolytic",
        Dielectric::Mica => "silvered mica or C0G",
        Dielectric::Class1(_) => "ceramic of the same drift",
        Dielectric::Class2 => "ceramic disc",
        Dielectric::SafetyFilm | Dielectric::SafetyBarrier => match part.class {
            Some(class) => return format!("class {} {}, {}", class.name(), farad(part.farad), rating(part)),
            None => "film",
        },
    };
    format!("{} {what}, {}", farad(part.farad), rating(part))
}

/// "a or b", "a, b or c".
fn either(all: &[String]) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

fn verdict_of(mark: Mark, word: &str, says: impl Into<String>) -> Verdict {
    Verdict { mark, word: word.to_owned(), says: says.into() }
}
