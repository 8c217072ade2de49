//! `parts_list`: a pasted list, line by line, into what to buy.
//!
//! Every line comes back: with its part, or with the reason why there is none. What cannot be read is kept and marked, never dropped.

pub(super) mod judge;
pub(super) mod line;

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::Book;
use crate::finding::{Caution, Mark, Verdict};
use judge::{Known, judge};
use line::Line;

/// A list of old parts.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PartsListQuestion {
    /// The lines as pasted: `C4 .02 mfd 400v coupling`, `R7 500k 1/2W`, `R9 yellow violet orange silver`.
    pub lines: Vec<String>,
    /// Line volts rms, for parts at the line.
    #[cfg_attr(test, ts(optional))]
    pub line_v: Option<f64>,
    /// Line frequency in hertz, for parts at the line.
    #[cfg_attr(test, ts(optional))]
    pub line_hz: Option<f64>,
}

impl From<&Fields<'_>> for PartsListQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            lines: fields.texts("lines").unwrap_or_default(),
            line_v: fields.number("line_v"),
            line_hz: fields.number("line_hz"),
        }
    }
}

/// What became of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LineState {
    /// It is on the shopping list.
    Buy,
    /// A good one stays in; it is not on the shopping list.
    Leave,
    /// Something has to be looked at first; it is not on the shopping list.
    Check,
    /// No fixed capacitor or resistor.
    Other,
    /// It cannot be read.
    Unread,
}

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ListLine {
    /// Its number, counted from 1 in the lines as given.
    pub line: usize,
    /// As it was pasted.
    pub text: String,
    /// What became of it.
    pub state: LineState,
    /// Its reference: "C4"; empty when it has none.
    pub reference: String,
    /// As it was read: "0.02 uF (20 nF), 400 V"; empty when it was not.
    pub reads: String,
    /// What to buy for it, when it is to be bought.
    pub buy: Vec<String>,
    /// What to know of it.
    pub says: String,
    /// Words of the line that were not understood and not used.
    pub unused: Vec<String>,
}

/// One entry of the shopping list.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ShoppingItem {
    /// How to ask for it.
    pub shop: String,
    /// How many.
    pub count: usize,
    /// For which lines.
    pub lines: Vec<usize>,
}

/// Every line, and what to buy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PartsListAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// Every line that is not blank, in its order.
    pub lines: Vec<ListLine>,
    /// What to buy.
    pub shopping: Vec<ShoppingItem>,
    /// Warnings that belong to the parts, each once.
    pub cautions: Vec<Caution>,
}

/// Answers `parts_list`.
///
/// # Errors
/// `lines` when there is none, or one that is longer than any line of a parts list.
pub fn answer(book: &Book, question: &PartsListQuestion) -> Result<PartsListAnswer, ErrorAnswer> {
    let mut answer = PartsListAnswer {
        verdict: Verdict { mark: Mark::Yes, word: String::new(), says: String::new() },
        lines: Vec::new(),
        shopping: Vec::new(),
        cautions: Vec::new(),
    };
    // Whether a capacitor is bought of which it is not said where it sits.
    let mut place_open = false;
    for (at, text) in question.lines.iter().enumerate() {
        if text.trim().is_empty() {
            continue;
        }
        let number = answer.lines.len() + 1;
        let read = Line::read(text, number);
        let known = Known { line_v: question.line_v, line_hz: question.line_hz, ..Known::default() };
        let judged = judge(book, &read, &known);
        place_open |= judged.place_open;
        for caution in judged.cautions {
            if !answer.cautions.contains(&caution) {
                answer.cautions.push(caution);
            }
        }
        let row = ListLine {
            line: at + 1,
            text: text.clone(),
            state: judged.state,
            buy: if judged.state == LineState::Buy { judged.buy } else { Vec::new() },
            reference: read.reference,
            reads: judged.reads,
            says: judged.says,
            unused: read.unused,
        };
        for shop in &row.buy {
            let known = answer.shopping.iter_mut().find(|item| item.shop == *shop);
            if let Some(item) = known {
                item.count += read.count;
                if item.lines.last() != Some(&row.line) {
                    item.lines.push(row.line);
                }
            } else {
                answer.shopping.push(ShoppingItem { shop: shop.clone(), count: read.count, lines: vec![row.line] });
            }
        }
        answer.lines.push(row);
    }
    if answer.lines.is_empty() {
        return Err(ErrorAnswer::new("lines", "", "the lines of a parts list, such as C4 .02 mfd 400v"));
    }
    answer.verdict = verdict(&answer, place_open);
    Ok(answer)
}

/// How many lines came to what.
fn verdict(answer: &PartsListAnswer, place_open: bool) -> Verdict {
    let count = |state: LineState| answer.lines.iter().filter(|line| line.state == state).count();
    let all = answer.lines.len();
    let said: Vec<String> = [
        (LineState::Buy, "to buy for"),
        (LineState::Leave, "to leave in when good"),
        (LineState::Check, "to look at first"),
        (LineState::Other, "no capacitor or resistor"),
        (LineState::Unread, "cannot be read"),
    ]
    .into_iter()
    .filter(|(state, _)| count(*state) > 0)
    .map(|(state, words)| format!("{} {words}", count(state)))
    .collect();
    let open = count(LineState::Check) + count(LineState::Unread);
    let (mark, word) =
        if open == 0 { (Mark::Yes, "Every line is read.") } else { (Mark::Care, "Some lines are open.") };
    let lines = if all == 1 { "1 line".to_owned() } else { format!("{all} lines") };
    let tail = if place_open {
        " Capacitors of which the line does not say where they sit are taken for ordinary DC places: one at the power line \
         needs safety class X2 or Y2."
    } else {
        ""
    };
    let mark = if place_open { Mark::Care } else { mark };
    Verdict { mark, word: word.to_owned(), says: format!("{lines}: {}.{tail}", said.join(", ")) }
}
