//! `candidates`: every type of the book judged against one socket, best first, with the least work and the commonest first within a grade.

use serde::Serialize;

use super::super::ErrorAnswer;
use super::super::accepted::Fields;
use super::super::tube::{self, TubeView};
use super::judged::Judged;
use super::socket::{SocketQuestion, sockets, supply_name};
use crate::book::{Book, FoundToday, Tube};
use crate::finding::{Mark, Verdict};
use crate::order::in_order;
use crate::swap::words::{self, Pair};
use crate::swap::{Grade, Socket, hopeless};

/// What could go in instead?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CandidatesQuestion {
    /// The type the set wants.
    pub original: String,
    /// What is known of the socket.
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
    /// The worst grade wanted in the list; left out: `after_changes`.
    #[cfg_attr(test, ts(optional))]
    pub least_grade: Option<Grade>,
    /// How many at the most; left out: 40.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

impl From<&Fields<'_>> for CandidatesQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            original: fields.text("original"),
            socket: fields.record("socket").map(|socket| SocketQuestion::from(&socket)),
            least_grade: fields.word("least_grade"),
            limit: fields.whole("limit"),
        }
    }
}

/// One candidate in the ranking.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ranked {
    /// The type.
    pub r#type: String,
    /// Its grade: the worse one when the supply is unknown.
    pub grade: Grade,
    /// "Yes, as it stands."
    pub word: String,
    /// Grades per way of feeding the heaters, when they differ: ("series", `no`).
    pub ways: Vec<(String, Grade)>,
    /// The sentence that decides.
    pub says: String,
    /// `common`, `findable`, `scarce`, or absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found_today: Option<String>,
    /// Other markings it is sold under.
    pub names: Vec<String>,
}

/// All candidates, best first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CandidatesAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The tube the set wants.
    pub original: TubeView,
    /// Best first.
    pub ranked: Vec<Ranked>,
    /// How many of the book's types were looked at.
    pub looked_at: u32,
}

/// Answers `candidates`.
pub fn candidates(book: &Book, question: &CandidatesQuestion) -> Result<CandidatesAnswer, ErrorAnswer> {
    let original = tube::find(book, "original", &question.original)?;
    let sockets = sockets(book, original.tube, question.socket.as_ref())?;
    let least = question.least_grade.unwrap_or(Grade::AfterChanges);
    let mut ranking = Ranking::default();
    for (place, candidate) in book.tubes().iter().enumerate() {
        if place == original.place || (least <= Grade::AfterChanges && hopeless(original.tube, candidate, &sockets)) {
            continue;
        }
        let rare = candidate.found_today.unwrap_or(FoundToday::Scarce) as u64;
        ranking.add(Pair { original: original.tube, candidate }, &sockets, least, rare);
    }
    let ranked = ranking.finish(book, question.limit, false);
    let names: Vec<String> = book.names_of(original.tube).map(|name| name.name.clone()).collect();
    let verdict = candidates_verdict(original.tube, &names, &ranked);
    Ok(CandidatesAnswer {
        verdict,
        original: tube::view(book, original.tube),
        ranked,
        looked_at: book.tubes().len() as u32,
    })
}

/// One candidate judged in one socket.
pub fn ranked(book: &Book, original: &Tube, candidate: &Tube, socket: &SocketQuestion) -> Result<Ranked, ErrorAnswer> {
    let mut ranking = Ranking::default();
    ranking.add(Pair { original, candidate }, &sockets(book, original, Some(socket))?, Grade::Unknown, 0);
    let mut rows = ranking.finish(book, None, false);
    rows.pop().ok_or_else(|| ErrorAnswer::new("candidate", candidate.name.as_str(), "a tube type that is in the book"))
}

/// One pair judged in every socket that is thought of.
struct Entry<'b> {
    pair: Pair<'b>,
    sockets: Vec<Socket>,
    judged: Judged,
}

/// Pairs that are worth listing, best first once they are all in.
#[derive(Default)]
pub(super) struct Ranking<'b> {
    entries: Vec<Entry<'b>>,
    keyed: Vec<(u64, u32)>,
}

impl<'b> Ranking<'b> {
    /// Judges a pair and keeps it unless it is worse than `least`. Within a grade the least work comes first, then the lowest `last`.
    pub fn add(&mut self, pair: Pair<'b>, sockets: &[Socket], least: Grade, last: u64) {
        let judged = Judged::of(&pair, sockets);
        // With the supply unknown a type that fits one way is worth listing; the list says which way.
        if judged.best <= least {
            let key = (judged.grade as u64) << 24 | (judged.best as u64) << 16 | judged.work.min(255) << 8 | last;
            self.keyed.push((key, self.entries.len() as u32));
            self.entries.push(Entry { pair, sockets: sockets.to_vec(), judged });
        }
    }

    /// The best of them; of each pair the original is shown, or else the candidate.
    pub fn finish(self, book: &Book, limit: Option<u32>, original: bool) -> Vec<Ranked> {
        let limit = limit.unwrap_or(40).min(1000) as usize;
        let places = in_order(self.keyed).take(limit);
        places.filter_map(|at| Some(rank(book, self.entries.get(at)?, original))).collect()
    }
}

fn rank(book: &Book, Entry { pair, sockets, judged }: &Entry<'_>, original: bool) -> Ranked {
    let (grade, shown) = (judged.grade, if original { pair.original } else { pair.candidate });
    let ways = if judged.best == grade {
        Vec::new()
    } else {
        judged
            .sockets
            .iter()
            .zip(sockets)
            .map(|(judgement, socket)| (supply_name(socket).to_owned(), judgement.grade))
            .collect()
    };
    Ranked {
        r#type: shown.name.clone(),
        grade,
        word: words::grade_words(grade).to_owned(),
        ways,
        says: judged.says(pair),
        found_today: shown.found_today.map(|found| found.words().to_owned()),
        names: book.names_of(shown).map(|name| name.name.clone()).collect(),
    }
}

fn candidates_verdict(original: &Tube, names: &[String], ranked: &[Ranked]) -> Verdict {
    let count = |grade: Grade| ranked.iter().filter(|row| row.grade == grade).count();
    let plug_in = count(Grade::AsIs) + count(Grade::AsIsDifferent);
    let work = count(Grade::AfterChanges);
    let one_way = ranked.iter().filter(|row| row.grade >= Grade::No).count();
    let mut parts = Vec::new();
    if !names.is_empty() {
        parts.push(format!("{} is also sold as {}", original.name, names.join(", ")));
    }
    let types = |count: usize| if count == 1 { "1 type".to_owned() } else { format!("{count} types") };
    if plug_in > 0 {
        parts.push(format!("{} can go in as they stand", types(plug_in)));
    }
    if work > 0 {
        parts.push(format!("{} after changes", types(work)));
    }
    if one_way > 0 {
        parts.push(format!("{} only with one way of feeding the heaters", types(one_way)));
    }
    let (mark, word) = match (plug_in, work + one_way, names.is_empty()) {
        (0, 0, true) => (Mark::No, "Nothing in the book."),
        (0, 0, false) => (Mark::Yes, "Only under its other names."),
        (0, _, _) => (Mark::Care, "With work, or one way only."),
        _ => (Mark::Yes, "Yes, there are some."),
    };
    let says = if parts.is_empty() {
        format!("The book knows no stand-in for {}.", original.name)
    } else {
        format!("{}.", parts.join("; "))
    };
    Verdict { mark, word: word.to_owned(), says }
}
