//! A pair judged in every socket that is thought of, without words, so that many pairs take no time; the sentence is made for those shown.

use super::way::reasons;
use crate::book::Tube;
use crate::finding::Outcome;
use crate::swap::words::Pair;
use crate::swap::{Grade, Judgement, Socket, hopeless, judge};

/// How a candidate fits.
pub(in crate::ask) struct Judged {
    /// The worst grade: it holds whichever of the sockets it is.
    pub grade: Grade,
    /// The best grade.
    pub best: Grade,
    /// How many things have to change or are not known.
    pub work: u64,
    /// Socket by socket.
    pub(super) sockets: Vec<Judgement>,
}

impl Judged {
    /// Judges a pair. Without any socket it cannot be told how the two fit.
    pub fn of(pair: &Pair<'_>, sockets: &[Socket]) -> Self {
        let same = pair.original.name == pair.candidate.name;
        let sockets: Vec<Judgement> =
            sockets.iter().map(|socket| judge(pair.original, pair.candidate, socket, same)).collect();
        let grades = || sockets.iter().map(|judgement| judgement.grade);
        let (grade, best) = (grades().max().unwrap_or(Grade::Unknown), grades().min().unwrap_or(Grade::Unknown));
        let checks = sockets.iter().filter_map(|judgement| judgement.checks.as_ref()).flatten();
        let work = checks.filter(|check| check.outcome >= Outcome::NeedsChange && check.grades).count() as u64;
        Self { grade, best, work, sockets }
    }

    /// The grade alone; most of a large book is passed over in a moment.
    pub fn grade(original: &Tube, candidate: &Tube, sockets: &[Socket]) -> Grade {
        if original.name != candidate.name && !sockets.is_empty() && hopeless(original, candidate, sockets) {
            return Grade::No;
        }
        Self::of(&Pair { original, candidate }, sockets).grade
    }

    /// The sentence that decides; empty when there is nothing to say.
    pub fn says(&self, pair: &Pair<'_>) -> String {
        let deciding = self.sockets.iter().max_by_key(|judgement| judgement.grade);
        let found = deciding.and_then(|judgement| reasons(pair, judgement).into_iter().next());
        found.map(|finding| finding.says).unwrap_or_default()
    }
}
