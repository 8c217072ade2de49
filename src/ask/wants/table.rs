//! `on_the_table`: what lies here, and which of my sets does it serve? Answered while somebody types with one hand, so every socket is judged and
//! only what is shown is put into words.

use super::places::{Place, listed, places};
use super::{OnTheTableAnswer, OnTheTableQuestion, TableFind, TableServes};
use crate::ask::held;
use crate::ask::swap::{Judged, types};
use crate::book::{Book, Tube};
use crate::finding::{Mark, Verdict, capital};
use crate::order::in_order;
use crate::swap::Grade;
use crate::swap::words::{self, Pair, grade_words};

/// How many sockets are shown of one type.
const SHOWN: usize = 12;
/// Of how many types that are not in the book near names are looked for.
const NEAR: usize = 12;

/// What becomes of a type; in this order they are shown.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Use {
    /// Wanted, with its grade.
    Wanted(Grade),
    /// Nobody wants it, but it goes in as it stands.
    Spare,
    /// A set wants something, and the book cannot tell whether this does.
    Unknown,
    NotFound,
    Nothing,
}

/// Answers `on_the_table`.
pub fn on_the_table(book: &Book, question: &OnTheTableQuestion) -> OnTheTableAnswer {
    let (places, _) = places(book, &question.sheets);
    let held = held::tubes(book);
    let (mut noted, mut not_found) = (Vec::new(), Vec::new());
    types(book, &question.text, true, &mut noted, &mut not_found);
    let mut finds: Vec<Option<(TableFind, Use)>> = Vec::new();
    let mut keyed = Vec::new();
    let mut add = |find: TableFind, r#use: Use| {
        let rank = match r#use {
            Use::Wanted(grade) => grade as u64,
            Use::Spare => 10,
            Use::Unknown => 11,
            Use::NotFound => 12,
            Use::Nothing => 13,
        };
        keyed.push((rank, finds.len() as u32));
        finds.push(Some((find, r#use)));
    };
    for one in noted {
        let (find, r#use) = judge(&one.typed, one.found.tube, &places, held::count(&held, one.found.tube));
        add(find, r#use);
    }
    let mut known: Vec<String> = Vec::new();
    for typed in not_found {
        if known.contains(&typed) {
            continue;
        }
        let near = if known.len() < NEAR { book.near(&typed, 3) } else { Vec::new() };
        let says = match near.len() {
            0 => format!("{typed} is not in the book."),
            _ => format!("{typed} is not in the book. Near to it: {}.", near.join(", ")),
        };
        known.push(typed.clone());
        let word = "Not in the book.".to_owned();
        let (r#type, serves) = (String::new(), Vec::new());
        add(
            TableFind { typed, r#type, mark: Mark::Unknown, word, says, serves, more: 0, in_stock: 0, near },
            Use::NotFound,
        );
    }
    let found: Vec<(TableFind, Use)> = in_order(keyed).filter_map(|at| finds.get_mut(at)?.take()).collect();
    let verdict = verdict(&found, &places);
    OnTheTableAnswer { verdict, found: found.into_iter().map(|row| row.0).collect() }
}

/// One type against every socket.
fn judge(typed: &str, tube: &Tube, places: &[Place<'_>], in_stock: usize) -> (TableFind, Use) {
    let mut keyed = Vec::new();
    let mut cannot_tell: Option<&Place<'_>> = None;
    for (at, place) in places.iter().enumerate() {
        let grade = place.grade(tube);
        let most = if place.wanted { Grade::AfterChanges } else { Grade::AsIsDifferent };
        if grade <= most {
            keyed.push((u64::from(!place.wanted) << 8 | grade as u64, at as u32));
        } else if grade == Grade::Unknown && place.wanted {
            cannot_tell = cannot_tell.or(Some(place));
        }
    }
    let all = keyed.len();
    let up_to = |most: Grade| keyed.iter().filter(|row| row.0 <= most as u64).count();
    let (plug_in, wanted) = (up_to(Grade::AsIsDifferent), up_to(Grade::AfterChanges));
    let served: Vec<&Place<'_>> = in_order(keyed).filter_map(|at| places.get(at)).collect();
    let serves: Vec<TableServes> = served.iter().take(SHOWN).map(|place| serve(place, tube)).collect();
    let name = &tube.name;
    let (r#use, mark, word, mut says) = match (served.first(), serves.first(), cannot_tell) {
        (Some(place), Some(row), _) if place.wanted => {
            let (set, wants) = (place.name(), &place.wants.name);
            let (word, mut says) = match row.grade {
                Grade::Same => ("Take it.", format!("{set} wants {wants}.")),
                Grade::AsIs => ("Take it.", format!("{set} wants {wants}, and {name} goes in as it stands.")),
                Grade::AsIsDifferent => (
                    "Take it: the set will behave differently.",
                    format!("{set} wants {wants}, and {name} is safe there. {}", row.says),
                ),
                _ => ("Only after changes.", format!("{set} wants {wants}, and {name} takes work there. {}", row.says)),
            };
            let others = if row.grade <= Grade::AsIsDifferent { plug_in } else { wanted } - 1;
            if others > 0 {
                let also =
                    if row.grade <= Grade::AsIsDifferent { "It also goes" } else { "After changes it would also go" };
                let sockets = if others == 1 { "socket that wants" } else { "sockets that want" };
                says = format!("{says} {also} into {others} more {sockets} a tube.");
            }
            (Use::Wanted(row.grade), words::mark(row.grade), word, says)
        }
        (_, _, Some(place)) => {
            let says =
                format!("Whether {name} does for {} in {} the book cannot tell.", place.wants.name, place.name());
            (Use::Unknown, Mark::Unknown, "Cannot tell.", says)
        }
        (Some(place), ..) => {
            let says = format!("It would go into {}, where none is wanted.", place.name());
            (Use::Spare, Mark::Care, "Nothing of mine wants it.", says)
        }
        (None, _, None) => {
            let says = format!("{name} goes into no socket that wants a tube.");
            (Use::Nothing, Mark::No, "Nothing of mine wants it.", says)
        }
    };
    if in_stock > 0 {
        says = format!("{says} {in_stock} in stock.");
    }
    let find = TableFind {
        typed: typed.to_owned(),
        r#type: name.clone(),
        mark,
        word: word.to_owned(),
        says: capital(&says),
        more: all - serves.len(),
        serves,
        in_stock,
        near: Vec::new(),
    };
    (find, r#use)
}

/// One socket in words.
fn serve(place: &Place<'_>, tube: &Tube) -> TableServes {
    let pair = Pair { original: place.wants, candidate: tube };
    let judged = Judged::of(&pair, &place.sockets);
    let says = match judged.grade {
        Grade::Same => format!("It is the tube that {} wants.", place.name()),
        _ => judged.says(&pair),
    };
    TableServes {
        sheet: place.set.clone(),
        at: place.sheet,
        place: place.at.clone(),
        wants: place.wants.name.clone(),
        wanted: place.wanted,
        grade: judged.grade,
        word: grade_words(judged.grade).to_owned(),
        says,
    }
}

/// What to do at this table.
fn verdict(found: &[(TableFind, Use)], places: &[Place<'_>]) -> Verdict {
    let named = |wanted: &dyn Fn(Use) -> bool| -> Vec<String> {
        // By what is printed on the glass that lies there.
        let of = |find: &TableFind| find.typed.to_ascii_uppercase();
        found.iter().filter(|row| wanted(row.1)).map(|row| of(&row.0)).collect()
    };
    let take = named(&|r#use| matches!(r#use, Use::Wanted(grade) if grade <= Grade::AsIsDifferent));
    let work = named(&|r#use| r#use == Use::Wanted(Grade::AfterChanges));
    let unsure = named(&|r#use| matches!(r#use, Use::Unknown | Use::NotFound));
    let (mark, word, mut says) = if found.is_empty() {
        (Mark::Unknown, "Nothing typed yet.".to_owned(), "Type what is printed on the glass.".to_owned())
    } else if places.is_empty() {
        (Mark::Unknown, "No sets to look through.".to_owned(), "No sheet has a tube that is in the book.".to_owned())
    } else if let Some((first, _)) = found.first().filter(|_| !take.is_empty()) {
        let serves = found.iter().take(take.len()).filter_map(|row| row.0.serves.first());
        let mut sets: Vec<String> = Vec::new();
        for row in serves.filter(|row| row.wanted) {
            if !sets.contains(&row.sheet) {
                sets.push(row.sheet.clone());
            }
        }
        (first.mark, format!("Take {}.", listed(&take, 3)), format!("For {}.", listed(&sets, 3)))
    } else if !work.is_empty() {
        let says = format!("{} can serve once the set is changed.", listed(&work, 3));
        (Mark::Care, "Only after changes.".to_owned(), says)
    } else if !unsure.is_empty() {
        (Mark::Unknown, "Cannot tell.".to_owned(), String::new())
    } else if places.iter().any(|place| place.wanted) {
        (
            Mark::No,
            "Nothing here for my sets.".to_owned(),
            "None of it goes into a socket that wants a tube.".to_owned(),
        )
    } else {
        (Mark::No, "Nothing here for my sets.".to_owned(), "No set looks for a tube.".to_owned())
    };
    if !unsure.is_empty() && !places.is_empty() {
        let parted = if says.is_empty() { "" } else { " " };
        says = format!("{says}{parted}It cannot be told of {}.", listed(&unsure, 3));
    }
    Verdict { mark, word, says }
}
