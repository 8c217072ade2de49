//! `wants`: what do I look for, and under which markings may I take it?
//!
//! Sockets that want the same type are one want. What may be taken is good in every one of them: the worst grade counts. What does for some of them
//! only is told apart, with those places.

use super::places::{Place, listed, markings, places};
use super::{OnlyThere, StockHeld, Want, WantedMarkings, WantsAnswer, WantsQuestion};
use crate::ask::swap::Judged;
use crate::ask::{ErrorAnswer, held};
use crate::book::{Book, FoundToday, StockItem, Tube};
use crate::finding::{Mark, Verdict};
use crate::order::in_order;
use crate::swap::words::{self, Pair, grade_words};
use crate::swap::{Grade, Socket, hopeless};

/// How many types that do only after changes are named: those with the least work.
const AFTER_CHANGES: usize = 8;
/// Grades that may be taken, the best first.
const TAKEN: [Grade; 4] = [Grade::Same, Grade::AsIs, Grade::AsIsDifferent, Grade::AfterChanges];

/// How a tube fits the sockets of a want.
struct Fit<'b> {
    tube: &'b Tube,
    /// Place by place.
    grades: Vec<Grade>,
    worst: Grade,
}

/// Tubes that fit the same ones of the sockets.
struct Partly<'b> {
    grade: Grade,
    places: Vec<String>,
    /// The worst grade in the other sockets.
    elsewhere: Grade,
    tubes: Vec<&'b Tube>,
}

/// Answers `wants`.
pub fn wants(book: &Book, question: &WantsQuestion) -> Result<WantsAnswer, ErrorAnswer> {
    let (places, unread) = places(book, &question.sheets);
    let mut groups: Vec<(&Tube, Vec<&Place<'_>>)> = Vec::new();
    for place in places.iter().filter(|place| place.wanted) {
        match groups.iter_mut().find(|group| group.0.name == place.wants.name) {
            Some(group) => group.1.push(place),
            None => groups.push((place.wants, vec![place])),
        }
    }
    let held = held::tubes(book);
    let mut all: Vec<Want> = Vec::new();
    let mut keyed = Vec::new();
    for line in unread {
        match all.iter_mut().find(|want| want.r#type == line.typed) {
            Some(want) => (want.count, want.places) = (want.count + 1, [&want.places[..], &[line.name]].concat()),
            None => {
                keyed.push((0, all.len() as u32));
                all.push(Want {
                    r#type: line.typed,
                    count: 1,
                    places: vec![line.name],
                    take: Vec::new(),
                    in_stock: Vec::new(),
                    only: Vec::new(),
                    says: line.says,
                });
            }
        }
    }
    for (tube, places) in groups {
        let want = fold(book, tube, &places, &held);
        let plug_in: usize =
            want.take.iter().filter(|row| row.grade <= Grade::AsIsDifferent).map(|row| row.markings.len()).sum();
        let easy = FoundToday::Scarce as u64 - tube.found_today.unwrap_or(FoundToday::Scarce) as u64;
        keyed.push((1 + (easy << 16 | plug_in.min(0xffff) as u64), all.len() as u32));
        all.push(want);
    }
    let mut slots: Vec<Option<Want>> = all.into_iter().map(Some).collect();
    let wants: Vec<Want> = in_order(keyed).filter_map(|at| slots.get_mut(at)?.take()).collect();
    Ok(WantsAnswer { verdict: verdict(&wants), wants })
}

/// One type in all sockets that want it.
fn fold(book: &Book, tube: &Tube, places: &[&Place<'_>], held: &[(&StockItem, &Tube)]) -> Want {
    let fits = fits(book, tube, places);
    let name = |place: &&Place<'_>| place.name();
    let row = |grade: Grade, tubes: &[&Tube]| {
        let named = if grade == Grade::AfterChanges { tubes.len().min(AFTER_CHANGES) } else { tubes.len() };
        WantedMarkings {
            grade,
            word: grade_words(grade).to_owned(),
            mark: words::mark(grade),
            markings: tubes.iter().take(named).flat_map(|tube| markings(book, tube)).collect(),
            more: tubes.len() - named,
        }
    };
    let take = TAKEN.into_iter().filter_map(|grade| {
        let all: Vec<&Tube> = fits.iter().filter(|fit| fit.worst == grade).map(|fit| fit.tube).collect();
        (!all.is_empty()).then(|| row(grade, &all))
    });
    let take: Vec<WantedMarkings> = take.collect();
    let mut only: Vec<Partly<'_>> = Vec::new();
    for fit in &fits {
        let Some((grade, limit)) = fit.there() else { continue };
        let (there, elsewhere): (Vec<_>, Vec<_>) = places.iter().zip(&fit.grades).partition(|row| *row.1 <= limit);
        let there: Vec<String> = there.into_iter().map(|row| row.0.name()).collect();
        let other = elsewhere.iter().map(|row| *row.1).max().unwrap_or(Grade::Unknown);
        match only.iter_mut().find(|row| row.grade == grade && row.places == there && row.elsewhere == other) {
            Some(row) => row.tubes.push(fit.tube),
            None => only.push(Partly { grade, places: there, elsewhere: other, tubes: vec![fit.tube] }),
        }
    }
    let mut in_stock = Vec::new();
    for fit in &fits {
        let there = fit.there();
        for (item, _) in held.iter().filter(|row| row.1.name == fit.tube.name) {
            in_stock.push(StockHeld {
                marking: item.marking.clone(),
                count: item.count,
                place: item.place.clone(),
                tested: item.tested.clone(),
                grade: there.map_or(fit.worst, |row| row.0),
                only: there.map_or(Vec::new(), |(_, limit)| {
                    let there = places.iter().zip(&fit.grades).filter(|row| *row.1 <= limit);
                    there.map(|row| row.0.name()).collect()
                }),
            });
        }
    }
    crate::order::sort_few(&mut in_stock, |row| (!row.only.is_empty(), row.grade));
    Want {
        r#type: tube.name.clone(),
        count: places.len(),
        places: places.iter().map(name).collect(),
        says: says(tube, &take, &only, &in_stock, places),
        take,
        in_stock,
        only: only
            .into_iter()
            .map(|partly| {
                let WantedMarkings { grade, word, mark, markings, more } = row(partly.grade, &partly.tubes);
                OnlyThere { grade, word, mark, markings, more, places: partly.places }
            })
            .collect(),
    }
}

/// Every tube that goes in somewhere, best first, then with the least work, then the commonest.
fn fits<'b>(book: &'b Book, tube: &'b Tube, places: &[&Place<'_>]) -> Vec<Fit<'b>> {
    // Like sockets are judged once.
    let mut kinds: Vec<&[Socket]> = Vec::new();
    let kind_of: Vec<usize> = places
        .iter()
        .map(|place| {
            kinds.iter().position(|kind| *kind == place.sockets).unwrap_or_else(|| {
                kinds.push(&place.sockets);
                kinds.len() - 1
            })
        })
        .collect();
    let mut fits: Vec<Option<Fit<'b>>> = Vec::new();
    let mut keyed = Vec::new();
    for candidate in book.tubes() {
        let pair = Pair { original: tube, candidate };
        let mut work = 0;
        let mut judge = |sockets: &&[Socket]| {
            if candidate.name != tube.name && hopeless(tube, candidate, sockets) {
                return Grade::No;
            }
            let judged = Judged::of(&pair, sockets);
            work += judged.work;
            judged.grade
        };
        let grades: Vec<Grade> = kinds.iter().map(&mut judge).collect();
        if grades.iter().all(|grade| *grade > Grade::AfterChanges) {
            continue;
        }
        let worst = grades.iter().copied().max().unwrap_or(Grade::Unknown);
        let rare = candidate.found_today.unwrap_or(FoundToday::Scarce) as u64;
        keyed.push(((worst as u64) << 24 | work.min(255) << 8 | rare, fits.len() as u32));
        let grades = kind_of.iter().filter_map(|kind| grades.get(*kind).copied()).collect();
        fits.push(Some(Fit { tube: candidate, grades, worst }));
    }
    in_order(keyed).filter_map(|at| fits.get_mut(at)?.take()).collect()
}

impl Fit<'_> {
    /// Where it does for some of the sockets only, or goes into some as it stands and needs changes in others: the grade it has there, and the
    /// worst grade that is counted among them.
    fn there(&self) -> Option<(Grade, Grade)> {
        let best = self.grades.iter().copied().min()?;
        let limit = if best <= Grade::AsIsDifferent { Grade::AsIsDifferent } else { Grade::AfterChanges };
        let there = self.grades.iter().copied().filter(|grade| *grade <= limit).max()?;
        (self.worst > limit).then_some((there, limit))
    }
}

/// What to know before one buys.
fn says(
    tube: &Tube,
    take: &[WantedMarkings],
    only: &[Partly<'_>],
    in_stock: &[StockHeld],
    places: &[&Place<'_>],
) -> String {
    let easy = match tube.found_today {
        Some(FoundToday::Common) => "Common.",
        Some(FoundToday::Findable) => "Turns up with patience.",
        Some(FoundToday::Scarce) => "Scarce.",
        None => "",
    };
    let mut said = vec![easy.to_owned()];
    let plug_in = |grade: Grade| grade <= Grade::AsIsDifferent;
    let named: usize = take.iter().filter(|row| plug_in(row.grade)).map(|row| row.markings.len()).sum();
    let partly: Vec<&Partly<'_>> = only.iter().filter(|row| plug_in(row.grade)).collect();
    if named == 1 && partly.is_empty() {
        said.push("Nothing else goes in as it stands.".to_owned());
    }
    for row in partly.iter().take(2) {
        let types: Vec<String> = row.tubes.iter().map(|tube| tube.name.clone()).collect();
        let elsewhere = match row.elsewhere {
            Grade::AfterChanges => "elsewhere it takes changes",
            Grade::No => "elsewhere it does not go in",
            _ => "elsewhere the book cannot tell",
        };
        said.push(format!("{} as it stands only in {}; {elsewhere}.", listed(&types, 3), listed(&row.places, 3)));
    }
    let held = |now: bool| -> usize {
        let all = in_stock.iter().filter(|row| row.only.is_empty() && plug_in(row.grade) == now);
        all.map(|row| row.count).sum()
    };
    match (held(true), held(false)) {
        (0, 0) => {}
        (0, work) => said.push(format!("{work} in stock that would take changes.")),
        (there, _) => said.push(format!("{there} in stock.")),
    }
    let mut untold: Vec<String> = places.iter().filter(|place| !place.fed).map(|place| place.set.clone()).collect();
    untold.dedup();
    if !untold.is_empty() {
        said.push(format!(
            "It is not told how the heaters of {} are fed, so only what goes in either way is named.",
            listed(&untold, 3)
        ));
    }
    said.retain(|sentence| !sentence.is_empty());
    said.join(" ")
}

fn verdict(wants: &[Want]) -> Verdict {
    let count: usize = wants.iter().map(|want| want.count).sum();
    let (mark, word, says) = match (wants.first(), count) {
        (None, _) | (_, 0) => (Mark::Yes, "Nothing to find.".to_owned(), "No set looks for a tube.".to_owned()),
        (Some(first), _) => {
            let held =
                wants.iter().filter(|want| want.in_stock.iter().any(|row| row.grade <= Grade::AsIsDifferent)).count();
            let word = if count == 1 { "1 tube to find.".to_owned() } else { format!("{count} tubes to find.") };
            let of = match wants.len() {
                1 => format!("It is {}.", first.r#type),
                many => format!("Of {many} types; the hardest to find is {}.", first.r#type),
            };
            let stock = match (held, wants.len()) {
                (0, _) => String::new(),
                (_, 1) => " Something in stock goes in as it stands.".to_owned(),
                (held, _) => format!(" For {held} of them something in stock goes in as it stands."),
            };
            let says = of + &stock;
            (Mark::Care, word, says)
        }
    };
    Verdict { mark, word, says }
}
