//! `swap`: can this tube go where that one was?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use super::tube::{self, TubeView};
use crate::book::pins::MOST_PINS;
use crate::book::{Book, HeaterKind, Tube};
use crate::caution::{FILAMENT_STRING, HOT_CHASSIS, STORED_CHARGE};
use crate::finding::{Caution, Mark, Verdict};
use crate::swap::words::{self, Pair};
use crate::swap::{Fact, Grade, Socket, Supply, WHY, judge};

mod b_plus;
mod candidates;
mod judged;
mod line_up;
mod note;
mod serves;
mod socket;
mod string;
mod way;

pub use candidates::{CandidatesAnswer, CandidatesQuestion, Ranked, candidates, ranked};
pub(in crate::ask) use judged::Judged;
pub use line_up::{LineUpAnswer, LineUpQuestion, LineUpTube, line_up};
pub(in crate::ask) use note::types;
pub use serves::{ServesAnswer, ServesQuestion, serves};
pub(in crate::ask) use socket::heater_volts_at;
pub use socket::{SocketQuestion, SupplyQuestion};
pub use way::{MissingFact, Way};

pub(in crate::ask) use socket::sockets;
use way::way;

/// Can the candidate go where the original was?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SwapQuestion {
    /// The type the set wants.
    pub original: String,
    /// The type at hand.
    pub candidate: String,
    /// What is known of the socket.
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
}

impl From<&Fields<'_>> for SwapQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            original: fields.text("original"),
            candidate: fields.text("candidate"),
            socket: fields.record("socket").map(|socket| SocketQuestion::from(&socket)),
        }
    }
}

/// A swap judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SwapAnswer {
    /// The answer in one sentence; when the ways differ it says so.
    pub verdict: Verdict,
    /// The grade that holds whichever way the heaters are fed: the worse one.
    pub grade: Grade,
    /// One entry when the supply is known, else one for each way.
    pub ways: Vec<Way>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// The tube the set wants.
    pub original: TubeView,
    /// The tube at hand.
    pub candidate: TubeView,
    /// Pins that need a look before the candidate goes in: empty in the original, used in the candidate.
    pub danger_pins: Vec<String>,
    /// For each check by its name: what it looks at and why it matters.
    pub why: Vec<(&'static str, &'static str)>,
}

/// Answers `swap`.
pub fn answer(book: &Book, question: &SwapQuestion) -> Result<SwapAnswer, ErrorAnswer> {
    let original = tube::find(book, "original", &question.original)?;
    let candidate = tube::find(book, "candidate", &question.candidate)?;
    let sockets = sockets(book, original.tube, question.socket.as_ref())?;
    let same = original.place == candidate.place;
    let pair = Pair { original: original.tube, candidate: candidate.tube };
    let labels = (question.original.trim(), question.candidate.trim());
    let empty = SocketQuestion::default();
    let asked = (question.socket.as_ref().unwrap_or(&empty), labels);
    let ways: Vec<Way> = sockets.iter().map(|socket| way(book, &pair, socket, same, asked)).collect();
    let grade = ways.iter().map(|way| way.grade).max().unwrap_or(Grade::Unknown);
    let verdict = whole_verdict(&ways, grade);
    let danger_pins = danger_pins(&pair, &sockets, same);
    // Where no way of feeding the heaters lets it in nobody touches the set.
    let cautions =
        if ways.iter().all(|way| way.grade == Grade::No) { Vec::new() } else { cautions(original.tube, &sockets) };
    Ok(SwapAnswer {
        verdict,
        grade,
        ways,
        cautions,
        original: tube::view(book, original.tube),
        candidate: tube::view(book, candidate.tube),
        danger_pins,
        why: WHY.to_vec(),
    })
}

fn whole_verdict(ways: &[Way], grade: Grade) -> Verdict {
    let Some(first) = ways.first() else {
        return Verdict { mark: Mark::Unknown, word: "Cannot tell.".to_owned(), says: String::new() };
    };
    if ways.iter().all(|way| way.grade == first.grade) {
        return first.verdict.clone();
    }
    let parts: Vec<String> = ways
        .iter()
        .map(|way| {
            let feed = way.supply_words.split(',').next().unwrap_or(&way.supply_words);
            format!("{feed}: {}", way.verdict.word.trim_end_matches('.').to_ascii_lowercase())
        })
        .collect();
    let best = ways.iter().map(|way| way.grade).min().unwrap_or(grade);
    let mark = if words::mark(best) == Mark::No { Mark::No } else { Mark::Care };
    Verdict {
        mark,
        word: "It depends on how the heaters are fed.".to_owned(),
        says: format!("With {}.", parts.join("; with ")),
    }
}

fn danger_pins(pair: &Pair<'_>, sockets: &[Socket], same: bool) -> Vec<String> {
    let Some(socket) = sockets.first() else { return Vec::new() };
    let judgement = judge(pair.original, pair.candidate, socket, same);
    let mut mask = 0u16;
    for check in judgement.checks.iter().flatten() {
        if let Fact::Pins(fact) = check.fact {
            mask |= fact.ties | fact.clashes | fact.joined;
        }
    }
    (0..=MOST_PINS)
        .filter(|pin| mask & 1 << pin != 0)
        .map(|pin| if pin == 0 { "cap".to_owned() } else { pin.to_string() })
        .collect()
}

fn cautions(original: &Tube, sockets: &[Socket]) -> Vec<Caution> {
    let mut all = vec![STORED_CHARGE];
    if sockets.iter().any(|socket| matches!(socket.supply, Supply::Series { .. })) {
        all.push(HOT_CHASSIS);
        if original.heater_kind == Some(HeaterKind::Filament) {
            all.push(FILAMENT_STRING);
        }
    }
    all
}
