//! `wants`: what do I look for, and under which markings may I take it?
//!
//! Sockets that want the same type are one want. What may be taken is good in every one of them: the worst grade counts. What does for some of them
//! only is told apart, with those places.

use super::places::{Place, listed, markings, places};
use super::{OnlyThere, StockHeld, Want, WantedMarkings, WantsAnswer, WantsQuestion};
use crate::ask::ErrorAnswer;
use crate::ask::swap::Judged;
use crate::book::{Book, FoundToday, StockItem, Tube};
use crate::finding::{Mark, Verdict};
use crate::order::in_order;
use crate::swap::words::{self, Pair, grade_words};
use crate::swap::{Grade, Socket, hopeless};

/// Grades that may be taken, the best first.
const TAKEN: [Grade; 4] = [Grade::Same, Grade::AsIs, Grade::AsIsDifferent, Grade::AfterChanges];

/// How a tube fits the sockets of a want.
struct Fit<'b> {
    tube: &'b Tube,
    /// Place by place.
    grades: Vec<Grade>,
    worst: Grade,
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
    let in_stock = book.stock().iter().filter(|item| item.count > 0);
    let held: Vec<(&StockItem, &Tube)> =
        in_stock.filter_map(|item| Some((item, book.tube_in_stock(&item.marking)?.tube))).collect();
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
    let row = |grade: Grade, markings: Vec<String>| WantedMarkings {
        grade,
        word: grade_words(grade).to_owned(),
        mark: words::mark(grade),
        markings,
    };
    let take = TAKEN.into_iter().filter_map(|grade| {
        let of_grade = fits.iter().filter(|fit| fit.worst == grade);
        let all: Vec<String> = of_grade.flat_map(|fit| markings(book, fit.tube)).collect();
        (!all.is_empty()).then(|| row(grade, all))
    });
    let take: Vec<WantedMarkings> = take.collect();
    let mut only: Vec<(OnlyThere, Vec<String>, Grade)> = Vec::new();
    for fit in &fits {
        let Some((grade, limit)) = fit.there() else { continue };
        let (there, elsewhere): (Vec<_>, Vec<_>) = places.iter().zip(&fit.grades).partition(|row| *row.1 <= limit);
        let there: Vec<String> = there.into_iter().map(|row| row.0.name()).collect();
        let other = elsewhere.iter().map(|row| *row.1).max().unwrap_or(Grade::Unknown);
        let known = only.iter_mut().find(|row| row.0.grade == grade && row.0.places == there && row.2 == other);
        if let Some((row, types, _)) = known {
            row.markings.extend(markings(book, fit.tube));
            types.push(fit.tube.name.clone());
        } else {
            let WantedMarkings { grade, word, mark, markings } = row(grade, markings(book, fit.tube));
            only.push((OnlyThere { grade, word, mark, markings, places: there }, vec![fit.tube.name.clone()], other));
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
        says: says(&take, &only, &in_stock, places),
        take,
        in_stock,
        only: only.into_iter().map(|row| row.0).collect(),
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
    take: &[WantedMarkings],
    only: &[(OnlyThere, Vec<String>, Grade)],
    in_stock: &[StockHeld],
    places: &[&Place<'_>],
) -> String {
    let mut said = Vec::new();
    let plug_in: usize =
        take.iter().filter(|row| row.grade <= Grade::AsIsDifferent).map(|row| row.markings.len()).sum();
    if plug_in == 1 && only.iter().all(|row| row.0.grade > Grade::AsIsDifferent) {
        said.push("Nothing else goes in as it stands.".to_owned());
    }
    for (row, types, other) in only.iter().take(2) {
        let how = if row.grade <= Grade::AsIsDifferent { "as it stands" } else { "after changes" };
        let elsewhere = match other {
            Grade::AfterChanges => "elsewhere it takes changes",
            Grade::No => "elsewhere it does not go in",
            _ => "elsewhere the book cannot tell",
        };
        said.push(format!("{} {how} only in {}; {elsewhere}.", listed(types, 3), listed(&row.places, 3)));
    }
    let held: usize = in_stock.iter().filter(|row| row.only.is_empty()).map(|row| row.count).sum();
    if held > 0 {
        said.push(format!("{held} in stock."));
    }
    let mut untold: Vec<String> = places.iter().filter(|place| !place.fed).map(|place| place.set.clone()).collect();
    untold.dedup();
    if !untold.is_empty() {
        said.push(format!(
            "It is not told how the heaters of {} are fed, so only what goes in either way is named.",
            listed(&untold, 3)
        ));
    }
    said.join(" ")
}

fn verdict(wants: &[Want]) -> Verdict {
    let count: usize = wants.iter().map(|want| want.count).sum();
    let (mark, word, says) = match (wants.first(), count) {
        (None, _) | (_, 0) => (Mark::Yes, "Nothing to find.".to_owned(), "No set looks for a tube.".to_owned()),
        (Some(first), _) => {
            let held = wants.iter().filter(|want| !want.in_stock.is_empty()).count();
            let types = if wants.len() == 1 { "1 type".to_owned() } else { format!("{} types", wants.len()) };
            let word = if count == 1 { "1 tube to find.".to_owned() } else { format!("{count} tubes to find.") };
            let mut says = format!("Of {types}; the hardest to find is {}.", first.r#type);
            if wants.len() == 1 {
                says = format!("It is {}.", first.r#type);
            }
            if held > 0 {
                says.push_str(&format!(" For {held} of them something is in stock."));
            }
            (Mark::Care, word, says)
        }
    };
    Verdict { mark, word, says }
}
