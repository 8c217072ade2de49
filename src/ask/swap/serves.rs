//! `serves`: what could this tube do for me? The wanted types, or the whole book, each judged with the tube at hand in its place: A for B is
//! not B for A.

use serde::Serialize;

use super::super::ErrorAnswer;
use super::super::accepted::Fields;
use super::super::tube::{self, TubeView};
use super::candidates::{Ranked, Ranking};
use super::note::types;
use super::socket::{SocketQuestion, SupplyQuestion, heater_volts_at, sockets};
use crate::book::{Book, FoundToday, Tube};
use crate::finding::{Mark, Verdict, capital};
use crate::swap::Grade;
use crate::swap::words::Pair;

/// What could this one do for me?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ServesQuestion {
    /// The type at hand.
    pub candidate: String,
    /// Types that are wanted, each as a type or as a note with several; left out: every type of the book.
    #[cfg_attr(test, ts(optional))]
    pub wanted: Option<Vec<String>>,
    /// What is known of the sockets they go into.
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
    /// The worst grade wanted in the list; left out: `after_changes`. Wanted types that are named are all listed.
    #[cfg_attr(test, ts(optional))]
    pub least_grade: Option<Grade>,
    /// How many at the most; left out: 40.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

impl From<&Fields<'_>> for ServesQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            candidate: fields.text("candidate"),
            wanted: fields.texts("wanted"),
            socket: fields.record("socket").map(|socket| SocketQuestion::from(&socket)),
            least_grade: fields.word("least_grade"),
            limit: fields.whole("limit"),
        }
    }
}

/// What it could do, best first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ServesAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The tube at hand.
    pub candidate: TubeView,
    /// Best first; within a grade the scarcest original first, for there it helps most.
    pub ranked: Vec<Ranked>,
    /// Wanted types that are not in the book.
    pub not_found: Vec<String>,
}

/// Answers `serves`.
pub fn serves(book: &Book, question: &ServesQuestion) -> Result<ServesAnswer, ErrorAnswer> {
    let candidate = tube::find(book, "candidate", &question.candidate)?;
    let mut not_found = Vec::new();
    let mut originals: Vec<&Tube> = Vec::new();
    for text in question.wanted.iter().flatten() {
        // One type, or a note with several: "12SK7 GT, 2x 12SA7".
        let (mut noted, known) = (Vec::new(), not_found.len());
        if let Ok(found) = book.find(text) {
            noted.push(found.tube);
        } else {
            let mut several = Vec::new();
            types(book, text, false, &mut several, &mut not_found);
            noted.extend(several.iter().map(|one| one.found.tube));
        }
        if noted.is_empty() && not_found.len() == known {
            not_found.push(text.trim().to_owned());
        }
        for tube in noted {
            if !originals.iter().any(|known| known.name == tube.name) {
                originals.push(tube);
            }
        }
    }
    let named = question.wanted.is_some();
    if !named {
        originals.extend(book.tubes().iter().filter(|tube| tube.name != candidate.tube.name));
    }
    let default = if named { Grade::Unknown } else { Grade::AfterChanges };
    let least = question.least_grade.unwrap_or(default);
    let mut ranking = Ranking::default();
    for original in originals {
        // A string of another current is no place for this original, so nobody wants it there.
        if let Some(SupplyQuestion::Series { amps: Some(amps), .. }) =
            question.socket.as_ref().and_then(|socket| socket.supply.as_ref())
            && !named
            && heater_volts_at(original, Some(*amps)).is_none()
        {
            continue;
        }
        let sockets = sockets(book, original, question.socket.as_ref())?;
        let common = FoundToday::Scarce as u64 - original.found_today.unwrap_or(FoundToday::Scarce) as u64;
        ranking.add(Pair { original, candidate: candidate.tube }, &sockets, least, common);
    }
    let ranked = ranking.finish(book, question.limit, true);
    Ok(ServesAnswer {
        verdict: verdict(&candidate.tube.name, &ranked),
        candidate: tube::view(book, candidate.tube),
        ranked,
        not_found,
    })
}

fn verdict(name: &str, ranked: &[Ranked]) -> Verdict {
    let list = |from: Grade, to: Grade| {
        let fit: Vec<&str> =
            ranked.iter().filter(|row| row.grade >= from && row.grade <= to).map(|row| row.r#type.as_str()).collect();
        let more = if fit.len() > 6 { " and more" } else { "" };
        let shown: Vec<&str> = fit.into_iter().take(6).collect();
        (!shown.is_empty()).then(|| format!("{}{more}", shown.join(", ")))
    };
    let (plug_in, work) = (list(Grade::Same, Grade::AsIsDifferent), list(Grade::AfterChanges, Grade::AfterChanges));
    let (mark, word) = match (&plug_in, &work) {
        (Some(_), _) => (Mark::Yes, "Yes, it is of use."),
        (None, Some(_)) => (Mark::Care, "Only with work."),
        (None, None) => (Mark::No, "Nothing it can do here."),
    };
    let mut parts = Vec::new();
    parts.extend(plug_in.map(|types| format!("{name} plugs in for {types}")));
    parts.extend(work.map(|types| format!("after changes for {types}")));
    let says = if parts.is_empty() {
        format!("{name} can stand in for none of them.")
    } else {
        format!("{}.", capital(&parts.join("; ")))
    };
    Verdict { mark, word: word.to_owned(), says }
}
