//! The figures of the whole set, and the set in one sentence.

use super::{Danger, SheetPurchase, SheetTotal, SheetTrouble, Whole};
use crate::finding::{Mark, Outcome, Verdict};
use crate::quantity::{significant, volt, whole as whole_figure};

/// The heading of tubes on the shopping list counts apart from the parts.
const TUBES: &str = "Tubes";

/// How many tubes and how many other things are on a shopping list.
fn counted(shopping: &[SheetPurchase]) -> (usize, usize) {
    let sum = |tubes: bool| shopping.iter().filter(|row| (row.group == TUBES) == tubes).map(|row| row.count).sum();
    (sum(true), sum(false))
}

/// String, B+, what is to be found and bought, what is open.
pub(super) fn totals(whole: &Whole<'_, '_>, trouble: &[SheetTrouble], shopping: &[SheetPurchase]) -> Vec<SheetTotal> {
    let mut totals = Vec::new();
    let mut add = |what: &str, value: Option<String>, mark: Mark| {
        let mark = if value.is_some() { mark } else { Mark::Unknown };
        let value = value.unwrap_or_else(|| "cannot tell".to_owned());
        totals.push(SheetTotal { what: what.to_owned(), value, mark });
    };
    let heaters = whole.heaters.answer();
    let parallel = whole.sheet.winding_v.is_some() && heaters.is_some_and(|told| told.warm_up.is_empty());
    let load = heaters.map(|told| {
        let amps = significant(told.current_a, 3);
        match whole.sheet.winding_a.filter(|_| parallel) {
            Some(most_a) => format!("{amps} A of {} A", significant(most_a, 3)),
            None if parallel => format!("{amps} A at {}", volt(told.line_v)),
            None => format!("{amps} A, {} V of {}", whole_figure(told.sum_v), volt(told.line_v)),
        }
    });
    if whole.has_heaters() {
        add(whole.heaters_name(), load, heaters.map_or(Mark::Unknown, |told| told.verdict.mark));
    }
    if whole.has_b_plus() {
        let lines = whole.supply.lines();
        add("B+ cold", lines.map(|[_, nominal, _]| volt(nominal.cold_v)), cold_mark(whole));
        add("B+ warm", lines.map(|[_, nominal, _]| volt(nominal.warm_v)), Mark::Yes);
    }
    let (tubes, parts) = counted(shopping);
    let bought = |count: usize| if count == 0 { Mark::Yes } else { Mark::Care };
    add("Tubes to find", Some(tubes.to_string()), bought(tubes));
    add("Parts to buy", Some(parts.to_string()), bought(parts));
    let open = trouble.iter().filter(|row| row.danger == Danger::Open).count();
    add("Open questions", Some(open.to_string()), if open == 0 { Mark::Yes } else { Mark::Unknown });
    totals
}

/// Cold B+ is too much where a filter is rated below it.
fn cold_mark(whole: &Whole<'_, '_>) -> Mark {
    let told = whole
        .supply
        .answer()
        .is_some_and(|told| told.findings.iter().any(|row| row.check == "cold start" && row.outcome == Outcome::Fails));
    if told || whole.parts.iter().any(|line| line.rated_below(&whole.supply).is_some()) { Mark::No } else { Mark::Yes }
}

/// The set in one sentence: whatever hurts first, then what is to be done, then what is open.
pub(super) fn verdict(trouble: &[SheetTrouble], shopping: &[SheetPurchase], hard: &[String]) -> Verdict {
    let places = |danger: Danger| {
        let mut all: Vec<&str> = Vec::new();
        for row in trouble.iter().filter(|row| row.danger == danger) {
            for place in row.place.split(", ") {
                if !all.contains(&place) {
                    all.push(place);
                }
            }
        }
        match all.len() {
            0 => String::new(),
            1..=4 => all.join(", "),
            more => format!("{} and {} others", all[..3].join(", "), more - 3),
        }
    };
    let (person, set, work, open) =
        (places(Danger::Person), places(Danger::Set), places(Danger::Work), places(Danger::Open));
    let (tubes, parts) = counted(shopping);
    let (mark, word) = match (person.is_empty(), set.is_empty(), work.is_empty() && tubes + parts == 0, open.is_empty())
    {
        (false, ..) => (Mark::No, "Not on the line yet."),
        (_, false, ..) => (Mark::No, "Not to be switched on yet."),
        (.., false) => (Mark::Unknown, "Cannot tell all of it yet."),
        (_, _, false, _) => (Mark::Care, "With this work."),
        _ => (Mark::Yes, "Ready to be brought up."),
    };
    let mut said = Vec::new();
    let mut say = |places: &str, what: &str| {
        if !places.is_empty() {
            said.push(format!("{what}: {places}"));
        }
    };
    say(&person, "can hurt somebody");
    say(&set, "can ruin something");
    say(&work, "needs work");
    say(&hard.join(", "), "hard to find");
    say(&open, "open");
    let count = |count: usize, one: &str, many: &str| format!("{count} {}", if count == 1 { one } else { many });
    if tubes + parts > 0 {
        say(&format!("{}, {}", count(tubes, "tube", "tubes"), count(parts, "part", "parts")), "to buy");
    }
    let says = if said.is_empty() {
        "Nothing is open, nothing is to be bought.".to_owned()
    } else {
        format!("{}.", crate::finding::capital(&said.join("; ")))
    };
    Verdict { mark, word: word.to_owned(), says }
}
