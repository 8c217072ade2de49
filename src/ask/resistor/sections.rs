//! Resistance cords and metal-clad candohms: several sections in one body, replaced one by one.

use super::{Book, ErrorAnswer, Mark, ResistorAnswer, ResistorQuestion, answer_one, read_resistor};
use crate::finding::{Change, Verdict};
use crate::quantity::{ohm, plain};

/// One section: its marking and its ohms.
pub(super) struct Section {
    marking: String,
    ohm: f64,
}

/// The sections of `300+40 ohm 10 W`, `3000-2000-500`; `None` for a single resistor, or a text that is none.
pub(super) fn split(question: &ResistorQuestion) -> Option<Vec<Section>> {
    let text = plain(&question.marking);
    if read_resistor(&question.marking, question.role, question.measured_ohm).is_ok() {
        return None;
    }
    let sections: Option<Vec<Section>> = text
        .split(['+', '-', '&'])
        .map(|piece| {
            let marks = read_resistor(piece, question.role, None).ok()?;
            let mark = marks.readings.first().filter(|_| marks.settled)?;
            Some(Section { marking: piece.trim().to_owned(), ohm: mark.ohm })
        })
        .collect();
    sections.filter(|sections| (2..=8).contains(&sections.len()))
}

/// One resistor for each section, which carry the same current and share the volts and the watts by their ohms.
pub(super) fn answer(
    book: &Book,
    question: &ResistorQuestion,
    sections: &[Section],
) -> Result<ResistorAnswer, ErrorAnswer> {
    if question.measured_ohm.is_some() {
        let accepted = "nothing for several sections: ask for each alone with what it measures";
        return Err(ErrorAnswer::new("measured_ohm", "one reading", accepted));
    }
    let sum: f64 = sections.iter().map(|section| section.ohm).sum();
    let whole_w =
        sections.last().and_then(|last| read_resistor(&last.marking, None, None).ok()?.readings.first()?.watts);
    let mut whole: Option<ResistorAnswer> = None;
    for (section, number) in sections.iter().zip(1..) {
        let share = section.ohm / sum;
        let one = answer_one(
            book,
            &ResistorQuestion {
                // The watts at the end are those of the whole body.
                marking: ohm(section.ohm),
                circuit_v: question.circuit_v.map(|volts| volts * share),
                watts: question.watts.or(whole_w).map(|watts| (watts * share).max(0.05)),
                ..question.clone()
            },
        )?;
        let named = |says: &str| format!("Section {number}: {says}");
        let mut one = one;
        one.verdict.says = named(&one.verdict.says);
        one.readings.truncate(1);
        one.readings.iter_mut().for_each(|reading| reading.says = named(&reading.says));
        one.changes.iter_mut().for_each(|change| change.says = named(&change.says));
        one.findings.iter_mut().for_each(|finding| finding.says = named(&finding.says));
        one.stand_ins.iter_mut().for_each(|part| part.section = number);
        one.reasons.clear();
        whole = Some(match whole {
            None => one,
            Some(mut all) => {
                let worse = matches!(one.verdict.mark, Mark::Unknown | Mark::No) || all.verdict.mark == Mark::Yes;
                all.verdict = Verdict {
                    mark: if worse { one.verdict.mark } else { all.verdict.mark },
                    word: if worse { one.verdict.word } else { all.verdict.word },
                    says: format!("{} {}", all.verdict.says, one.verdict.says),
                };
                all.readings.extend(one.readings);
                all.changes.extend(one.changes);
                all.findings.extend(one.findings);
                all.stand_ins.extend(one.stand_ins);
                all
            }
        });
    }
    let mut whole = whole.ok_or_else(|| ErrorAnswer::new("marking", "", super::ACCEPTED))?;
    whole.changes.insert(
        0,
        Change::plain(
            "Fit one resistor for each section between the same two taps, and disconnect the old body at every tap.",
        ),
    );
    whole
        .assumed
        .push("The sections are in series, carry the same current and share the watts by their ohms.".to_owned());
    Ok(whole)
}
