//! `line_up`: is this set really unobtainable? Each tube with the markings it is sold under and what can stand in, and one verdict for the set.

use serde::Serialize;

use super::super::ErrorAnswer;
use super::super::accepted::Fields;
use super::super::tube;
use super::candidates::{CandidatesQuestion, Ranked, candidates};
use super::note::{Noted, types};
use super::socket::{SocketQuestion, SupplyQuestion};
use crate::book::{Book, FoundToday, Function, HeaterKind};
use crate::finding::{Mark, Verdict};
use crate::heater::same_a;
use crate::quantity::{significant, whole};
use crate::swap::Grade;

/// Is this set really unobtainable? At least one of `tubes` and `note`.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineUpQuestion {
    /// The types of the set.
    #[cfg_attr(test, ts(optional))]
    pub tubes: Option<Vec<String>>,
    /// A note or label with the types in it.
    #[cfg_attr(test, ts(optional))]
    pub note: Option<String>,
    /// How the heaters are fed; left out: taken from the heaters themselves where they tell.
    #[cfg_attr(test, ts(optional))]
    pub supply: Option<SupplyQuestion>,
}

impl From<&Fields<'_>> for LineUpQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            tubes: fields.texts("tubes"),
            note: fields.get_text("note").map(str::to_owned),
            supply: fields.record("supply").map(|supply| SupplyQuestion::from(&supply)),
        }
    }
}

/// One type of the set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineUpTube {
    /// As it was written.
    pub typed: String,
    /// The type as the book writes it.
    pub r#type: String,
    /// How many of it the set has.
    pub count: u32,
    /// "pentode, remote cut-off".
    pub is: String,
    /// `yes`: it can be had; `care`: by another type; `no`: neither; `unknown`: the book does not say.
    pub mark: Mark,
    /// Whether the claim that it cannot be had holds, in one sentence.
    pub says: String,
    /// Other markings it is sold under.
    pub names: Vec<String>,
    /// How many types go in as they stand, differences or not.
    pub plug_in: u32,
    /// How many go in after changes.
    pub after_changes: u32,
    /// The best few.
    pub best: Vec<Ranked>,
}

/// The set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineUpAnswer {
    /// One verdict for the set.
    pub verdict: Verdict,
    /// How the heaters were taken to be fed: "series", "parallel", "battery"; empty when that is not known.
    pub supply: &'static str,
    /// The same in words, and why.
    pub supply_words: String,
    /// Each type, in the order given.
    pub tubes: Vec<LineUpTube>,
    /// Words that look like types and are not in the book.
    pub not_found: Vec<String>,
}

/// Heater volts from which a sum is the line's and not a winding's.
const STRING_V: f64 = 85.0;

/// Answers `line_up`.
pub fn line_up(book: &Book, question: &LineUpQuestion) -> Result<LineUpAnswer, ErrorAnswer> {
    let (mut noted, mut not_found) = (Vec::new(), Vec::new());
    for text in question.tubes.iter().flatten().chain(&question.note) {
        types(book, text, false, &mut noted, &mut not_found);
    }
    if noted.is_empty() {
        let found = if not_found.is_empty() { String::new() } else { not_found.join(", ") };
        return Err(ErrorAnswer::new("tubes", found, "at least one type that is in the book"));
    }
    let (supply, supply_words) = match &question.supply {
        Some(supply) => (Some(supply.clone()), "Heaters fed as you say.".to_owned()),
        None => supply_of(&noted),
    };
    let mut tubes = Vec::new();
    for one in &noted {
        tubes.push(tube(book, one, supply.as_ref())?);
    }
    let name = match supply {
        Some(SupplyQuestion::Series { .. }) => "series",
        Some(SupplyQuestion::Parallel { .. }) => "parallel",
        Some(SupplyQuestion::Battery) => "battery",
        None => "",
    };
    Ok(LineUpAnswer { verdict: verdict(&tubes, &not_found), supply: name, supply_words, tubes, not_found })
}

/// What the heaters say of their supply.
fn supply_of(noted: &[Noted<'_>]) -> (Option<SupplyQuestion>, String) {
    let heater = |one: &Noted<'_>| one.found.tube.figures.heater_v.zip(one.found.tube.figures.heater_a);
    let first_a = noted.first().and_then(heater).map_or(0.0, |row| row.1);
    let one_current = noted.iter().all(|one| heater(one).is_some_and(|(_, a)| same_a(a, first_a)));
    let sum_v: f64 = noted.iter().filter_map(|one| Some(heater(one)?.0 * f64::from(one.count))).sum();
    let own_winding = noted.iter().any(|one| {
        let tube = one.found.tube;
        tube.unit_of(Function::Rectifier).is_some() && tube.heater_kind == Some(HeaterKind::Filament)
    });
    if one_current && sum_v >= STRING_V {
        let series =
            SupplyQuestion::Series { amps: None, line_v: None, others: None, chassis_side: None, dropper_ohm: None };
        (
            Some(series),
            format!(
                "All heaters take {} A and add up to {} V: taken as one string.",
                significant(first_a, 3),
                whole(sum_v)
            ),
        )
    } else if own_winding {
        let parallel = SupplyQuestion::Parallel { volts: None, spare_amps: None };
        (Some(parallel), "The rectifier wants a winding of its own: taken as a set with a transformer.".to_owned())
    } else {
        (None, "How the heaters are fed is not known: what is counted goes in either way.".to_owned())
    }
}

fn tube(book: &Book, one: &Noted<'_>, supply: Option<&SupplyQuestion>) -> Result<LineUpTube, ErrorAnswer> {
    let original = one.found.tube;
    let question = CandidatesQuestion {
        original: original.name.clone(),
        socket: supply.map(|supply| SocketQuestion { supply: Some(supply.clone()), ..SocketQuestion::default() }),
        least_grade: None,
        limit: Some(1000),
    };
    let answer = candidates(book, &question)?;
    let ranked = answer.ranked;
    let fit = |least: Grade, most: Grade| ranked.iter().filter(move |row| (least..=most).contains(&row.grade));
    let names = answer.original.names;
    let easy = |row: &&Ranked| matches!(row.found_today.as_deref(), Some("common" | "findable"));
    let plug_in = fit(Grade::AsIs, Grade::AsIsDifferent).find(easy);
    let work = fit(Grade::AfterChanges, Grade::AfterChanges).find(easy);
    let name = &original.name;
    let (mark, says) = match (original.found_today, plug_in, work) {
        (Some(FoundToday::Common), ..) => (Mark::Yes, format!("{name} is common: it can be had.")),
        (Some(FoundToday::Findable), ..) => (Mark::Yes, format!("{name} turns up with some patience: it can be had.")),
        (_, Some(row), _) => (
            Mark::Care,
            format!(
                "{} goes in for {name} as it stands and is {}.",
                row.r#type,
                row.found_today.as_deref().unwrap_or("")
            ),
        ),
        (_, None, Some(row)) => (Mark::Care, format!("{} does for {name} after changes.", row.r#type)),
        (Some(FoundToday::Scarce), None, None) => (
            Mark::No,
            format!("{name} is scarce and the book has nothing easily found for it: this one is the hard one."),
        ),
        (None, None, None) => (Mark::Unknown, format!("The book does not say how easily {name} is found.")),
    };
    Ok(LineUpTube {
        typed: one.typed.clone(),
        r#type: name.clone(),
        count: one.count,
        is: tube::kind(original),
        mark,
        says,
        names,
        plug_in: fit(Grade::AsIs, Grade::AsIsDifferent).count() as u32,
        after_changes: fit(Grade::AfterChanges, Grade::AfterChanges).count() as u32,
        best: ranked.iter().take(3).cloned().collect(),
    })
}

fn verdict(tubes: &[LineUpTube], not_found: &[String]) -> Verdict {
    let list = |mark: Mark| {
        tubes.iter().filter(|row| row.mark == mark).map(|row| row.r#type.as_str()).collect::<Vec<_>>().join(", ")
    };
    let (hard, care, open) = (list(Mark::No), list(Mark::Care), list(Mark::Unknown));
    let count = tubes.iter().filter(|row| row.mark == Mark::No).count();
    let (mark, word) = match count {
        0 if !open.is_empty() || !not_found.is_empty() => (Mark::Unknown, "Cannot tell for all."),
        0 if care.is_empty() => (Mark::Yes, "Every tube of the set can be had."),
        0 => (Mark::Care, "Every place can be filled."),
        1 => (Mark::Care, "One hard tube."),
        _ => (Mark::No, "A hard set."),
    };
    let mut parts = Vec::new();
    for (types, what) in [
        (hard, "scarce, and nothing easily found stands in"),
        (care, "by another type"),
        (open, "not known how easily found"),
        (not_found.join(", "), "not in the book"),
    ] {
        if !types.is_empty() {
            parts.push(format!("{types}: {what}"));
        }
    }
    let says = if parts.is_empty() {
        "None of them is scarce.".to_owned()
    } else {
        format!("{}. The rest can be had.", parts.join("; "))
    };
    Verdict { mark, word: word.to_owned(), says }
}
