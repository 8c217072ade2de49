//! What the set draws: milliamps as given, ohms, or the typical currents of its tubes.

use super::RectifierQuestion;
use crate::ask::{ErrorAnswer, tube};
use crate::book::Book;
use crate::quantity::{milliamp, ohm};

/// The question with its load in milliamps, and what was assumed to get there.
///
/// # Errors
/// No load given, or a tube whose typical currents the book does not know.
pub(super) fn settled(
    book: &Book,
    question: &RectifierQuestion,
) -> Result<(RectifierQuestion, Option<String>), ErrorAnswer> {
    let mut settled = question.clone();
    let ways = [question.load_ma > 0.0, question.load_ohm.is_some(), !question.load_tubes.is_empty()];
    if ways.iter().filter(|given| **given).count() > 1 {
        let accepted = "one of `load_ma`, `load_ohm` and `load_tubes`";
        return Err(ErrorAnswer::new("load_ma", "the load said twice", accepted));
    }
    if question.load_ma > 0.0 {
        return Ok((settled, None));
    }
    if let Some(load_ohm) = question.load_ohm {
        // Only for the words: the supply is solved with the resistance itself.
        let volts = question.target_v.unwrap_or_else(|| 1.2 * question.fed_v());
        settled.load_ma = (1e3 * volts / load_ohm).clamp(1.0, 500.0);
        return Ok((settled, Some(format!("The load is {}, whatever the volts.", ohm(load_ohm)))));
    }
    let mut sum_ma = 0.0;
    for (at, typed) in question.load_tubes.iter().enumerate() {
        let field = format!("load_tubes[{at}]");
        let tube = tube::find(book, &field, typed)?.tube;
        let cathode_ma: f64 = tube
            .units
            .iter()
            .filter_map(|unit| Some(unit.figures.typ_plate_ma? + unit.figures.typ_screen_ma.unwrap_or(0.0)))
            .sum();
        if cathode_ma <= 0.0 {
            let found = format!("{}, of which the book knows no typical current", tube.name);
            return Err(ErrorAnswer::new(field, found, "a tube with its typical currents in the book; or `load_ma`"));
        }
        sum_ma += cathode_ma;
    }
    if !(1.0..=500.0).contains(&sum_ma) {
        return Err(ErrorAnswer::new(
            "load_ma",
            if question.load_tubes.is_empty() { String::new() } else { milliamp(sum_ma) },
            "what the set draws from B+, 1 to 500 mA; or `load_ohm`, or `load_tubes`",
        ));
    }
    settled.load_ma = sum_ma;
    Ok((
        settled,
        Some(format!(
            "The load of {} is the sum of the typical currents of the tubes named; a set draws its own, often less.",
            milliamp(sum_ma)
        )),
    ))
}
