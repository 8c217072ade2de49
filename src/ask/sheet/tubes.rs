//! The tubes of a sheet, line by line: which are looked for, under what markings, what stands in for them in their own sockets.

use super::shopping::{Article, Basket, Group};
use super::socket::{Line, Sockets, is_wanted};
use super::{SheetTube, SheetTubeAnswer, TubeState};
use crate::ask::heater_string::items;
use crate::ask::swap::{self, CandidatesQuestion, Ranked};
use crate::book::{Book, FoundToday, Tube};
use crate::finding::Mark;
use crate::swap::{Grade, words};

/// How many stand-ins are shown.
const STAND_INS: u32 = 6;
/// How many other markings are told to a shop.
const MARKINGS: usize = 4;

/// A tube line judged.
pub(super) struct TubeLine {
    pub answer: SheetTubeAnswer,
    /// How the type that was chosen to go in fits; `Unknown` when the book lacks it.
    pub fits: Option<Grade>,
}

/// Every tube line judged.
pub(super) fn judged(book: &Book, tubes: &[SheetTube], sockets: &Sockets<'_, '_>, stand_ins: bool) -> Vec<TubeLine> {
    let lines = tubes.iter().zip(&sockets.lines).enumerate();
    lines.map(|(at, (tube, line))| judge(book, at, tube, line, sockets, stand_ins)).collect()
}

fn judge(
    book: &Book,
    at: usize,
    tube: &SheetTube,
    line: &Line<'_>,
    sockets: &Sockets<'_, '_>,
    stand_ins: bool,
) -> TubeLine {
    let mut answer = SheetTubeAnswer {
        at,
        r#type: tube.r#type.trim().to_owned(),
        tube: !matches!(line, Line::Item(_)),
        wanted: false,
        mark: Mark::Yes,
        word: String::new(),
        says: String::new(),
        markings: Vec::new(),
        stand_ins: Vec::new(),
        fitted: None,
    };
    let (wants, fitted) = match line {
        Line::Item(item) => {
            "In the heater string.".clone_into(&mut answer.word);
            answer.says =
                item.says.clone().unwrap_or_else(|| format!("It counts as {} in the string.", items::name(item)));
            return TubeLine { answer, fits: None };
        }
        Line::Unread(error) => {
            answer.mark = Mark::Unknown;
            "Not in the book.".clone_into(&mut answer.word);
            answer.says.clone_from(&error.says);
            answer.wanted = is_wanted(tube);
            return TubeLine { answer, fits: None };
        }
        Line::Tube { wants, fitted } => (*wants, fitted),
    };
    answer.r#type.clone_from(&wants.name);
    answer.wanted = is_wanted(tube);
    answer.markings = markings(book, wants);
    let socket = sockets.socket(at);
    let question = CandidatesQuestion {
        original: wants.name.clone(),
        socket: Some(socket.clone()),
        least_grade: None,
        limit: Some(STAND_INS),
    };
    // With the supply unknown, types that go in one way only are no stand-ins yet.
    if stand_ins {
        answer.stand_ins = swap::candidates(book, &question).map(|told| told.ranked).unwrap_or_default();
        answer.stand_ins.retain(|row| row.grade <= Grade::AfterChanges);
    }
    let chosen = tube.fitted.as_deref().is_some_and(|typed| !typed.trim().is_empty());
    let fits = match fitted {
        _ if !chosen => None,
        Err(error) => {
            answer.mark = Mark::Unknown;
            "What is chosen is not in the book.".clone_into(&mut answer.word);
            answer.says.clone_from(&error.says);
            return TubeLine { answer, fits: Some(Grade::Unknown) };
        }
        Ok(candidate) => swap::ranked(book, wants, candidate, &socket).ok(),
    };
    if let Some(row) = fits {
        let grade = row.grade;
        answer.mark = words::mark(grade);
        answer.word.clone_from(&row.word);
        answer.says = format!("{} for {}: {}", row.r#type, wants.name, row.says);
        answer.fitted = Some(row);
        return TubeLine { answer, fits: Some(grade) };
    }
    (answer.mark, answer.word, answer.says) = found(tube, wants, &answer.markings, &answer.stand_ins);
    TubeLine { answer, fits: chosen.then_some(Grade::Unknown) }
}

/// Its own name first, then the others it is sold under.
fn markings(book: &Book, tube: &Tube) -> Vec<String> {
    std::iter::once(tube.name.clone()).chain(book.names_of(tube).map(|name| name.name.clone())).collect()
}

/// What becomes of a tube for which nothing is chosen.
fn found(tube: &SheetTube, wants: &Tube, markings: &[String], stand_ins: &[Ranked]) -> (Mark, String, String) {
    match tube.state {
        Some(TubeState::Good) => (Mark::Yes, "Stays in.".to_owned(), "It tests good.".to_owned()),
        None => (Mark::Unknown, "Not tested.".to_owned(), "How it tests is not told.".to_owned()),
        Some(state) => {
            let word = if markings.len() > 1 {
                format!("Look for one of {} markings.", markings.len())
            } else {
                format!("Look for {}.", wants.name)
            };
            let is = match state {
                TubeState::Weak => "weak",
                TubeState::Dead => "dead",
                _ => "missing",
            };
            let easy = match wants.found_today {
                Some(FoundToday::Common) => ", and another is common",
                Some(FoundToday::Findable) => ", and another turns up with patience",
                Some(FoundToday::Scarce) => ", and another is scarce",
                None => "",
            };
            let plug_in: Vec<&str> = stand_ins
                .iter()
                .filter(|row| row.grade <= Grade::AsIsDifferent)
                .take(3)
                .map(|row| row.r#type.as_str())
                .collect();
            let or =
                if plug_in.is_empty() { String::new() } else { format!(" As it stands also {}.", plug_in.join(", ")) };
            (Mark::Care, word, format!("{} is {is}{easy}.{or}", wants.name))
        }
    }
}

impl TubeLine {
    /// Puts what is looked for into the basket: the type that was chosen to go in, if it does go in; else the one the set wants.
    pub fn shop(&self, book: &Book, line: &Line<'_>, basket: &mut Basket, place: &str) {
        if !self.answer.wanted {
            return;
        }
        let chosen = line.in_place().filter(|_| self.fits.is_some_and(|grade| grade <= Grade::AfterChanges));
        let shop = match chosen.or(line.wants()) {
            Some(tube) => {
                let names: Vec<String> = markings(book, tube).into_iter().skip(1).take(MARKINGS).collect();
                let other =
                    if names.is_empty() { String::new() } else { format!(" (also marked {})", names.join(", ")) };
                format!("{}{other}", tube.name)
            }
            None => self.answer.r#type.clone(),
        };
        basket.add(&Article::new(Group::Tubes, &shop, 0.0), 1, place);
    }
}
