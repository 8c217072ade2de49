//! The parts of a sheet, each read and judged as a line of a parts list is, with what the supply knows of its place.

use super::shopping::Basket;
use super::supply::Supply;
use super::{JobSheet, SheetPart, SheetPartAnswer};
use crate::ask::accepted::word;
use crate::ask::parts_list::judge::{Judged, Known, judge};
use crate::ask::parts_list::line::{Line, Part, Told, reference};
use crate::ask::{CapacitorRole, LineState, OriginalRectifier, ResistorRole};
use crate::book::Book;
use crate::finding::Mark;
use crate::passive::SafetyClass;
use crate::quantity::{ohm, read_farad, read_ohm};

/// Lines for which a part at the line can be reckoned.
const AC_LINE_V: std::ops::RangeInclusive<f64> = 90.0..=270.0;
const AC_LINE_HZ: std::ops::RangeInclusive<f64> = 15.0..=440.0;
/// A value for the place this much below the old one is not the old one, as a share.
const LESS: f64 = 0.7;
/// What people write for a part that does not work.
const FAULTY: [&str; 9] = ["open", "ol", "o.l", "infinite", "short", "shorted", "leaky", "dead", "bad"];

/// A part line.
pub(in crate::ask) struct PartLine<'s> {
    pub part: &'s SheetPart,
    /// "C4"; without a reference what is written on it.
    pub name: String,
    /// How many of it the line is for.
    pub count: usize,
    pub judged: Judged,
    /// What a capacitor does.
    pub role: Option<CapacitorRole>,
    /// Whether it parts the power line from something, or lies across it.
    pub at_line: bool,
    /// What was measured is no value and no fault.
    pub reading_unread: bool,
    /// A resistor that nobody has measured yet: it may be as good as ever.
    pub unmeasured: bool,
}

/// The role of a part line.
fn told(part: &SheetPart) -> Told {
    let role = part.role.as_deref().unwrap_or_default();
    Told { capacitor: word(role), resistor: word(role) }
}

/// The line as a parts list has it.
fn read(part: &SheetPart) -> Line {
    let label = part.reference.as_deref().unwrap_or_default().trim();
    let text = match reference(&label.to_ascii_lowercase()) {
        Some(_) => format!("{label} {}", part.marking),
        None => part.marking.clone(),
    };
    // No line of a sheet is numbered.
    Line::read_with(&text, usize::MAX, told(part))
}

/// "C4"; without a reference what is written on it.
pub(in crate::ask) fn name(part: &SheetPart) -> String {
    let label = part.reference.as_deref().map(str::trim).filter(|label| !label.is_empty());
    label.unwrap_or_else(|| part.marking.trim()).to_owned()
}

/// Name and microfarads of the first filter, where a part says so and its marking has one reading.
pub(super) fn first_filter_uf(book: &Book, sheet: &JobSheet) -> Option<(String, f64)> {
    let part = sheet.parts.iter().find(|part| told(part).capacitor == Some(CapacitorRole::FirstFilter))?;
    let farad = judge(book, &read(part), &Known::default()).farad?;
    Some((name(part), farad * 1e6))
}

/// Every part judged.
pub(in crate::ask) fn judged<'s>(book: &Book, sheet: &'s JobSheet, supply: &Supply) -> Vec<PartLine<'s>> {
    sheet.parts.iter().map(|part| line(book, sheet, supply, part)).collect()
}

fn line<'s>(book: &Book, sheet: &JobSheet, supply: &Supply, part: &'s SheetPart) -> PartLine<'s> {
    let read = read(part);
    let mut known = Known {
        line_v: sheet.line_v.filter(|v| AC_LINE_V.contains(v)),
        line_hz: sheet.line_hz.filter(|hz| AC_LINE_HZ.contains(hz)),
        ..Known::default()
    };
    let role = told(part).capacitor;
    if matches!(role, Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter)) {
        known.circuit_v = cold_v(supply, role);
    }
    // What parts the chassis from the line has the line across it.
    if matches!(&read.part, Part::Resistor { role: Some(ResistorRole::BusToChassis), .. }) {
        known.circuit_v = known.line_v;
    }
    if role == Some(CapacitorRole::FirstFilter)
        && let Some(question) = supply.question.as_ref().filter(|_| supply.answer().is_some())
        && let Some(OriginalRectifier::Tube { r#type, .. }) = &question.original
    {
        known.rectifier = Some(question.replacement.as_ref().unwrap_or(r#type).clone());
        known.load_ma = Some(question.load_ma).filter(|ma| *ma > 0.0);
    }
    let measured = part.measured.as_deref().map(str::trim).filter(|text| !text.is_empty());
    let mut reading_unread = false;
    if let Some(text) = measured {
        let low = text.to_ascii_lowercase();
        known.faulty = low
            .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';'))
            .any(|word| FAULTY.contains(&word.trim_end_matches('.')));
        known.measured_pf = read_farad(text).map(|farad| farad * 1e12);
        known.measured_ohm = read_ohm(text);
        reading_unread = !known.faulty && known.measured_pf.is_none() && known.measured_ohm.is_none();
    }
    let mut judged = judge(book, &read, &known);
    // A reading that does not go with the part (one figure for three sections) must not cost the part itself.
    if judged.state == LineState::Unread && known.measured_pf.is_some() {
        known.measured_pf = None;
        reading_unread = true;
        judged = judge(book, &read, &known);
    }
    let unmeasured = judged.state == LineState::Buy
        && measured.is_none()
        && matches!(&read.part, Part::Resistor { measured_ohm: None, role, .. } if *role != Some(ResistorRole::BusToChassis));
    if unmeasured {
        let stays = judged.stays_ohm.map_or_else(
            || "inside its tolerance it stays".to_owned(),
            |(least, most)| format!("from {} to {} it stays", ohm(least), ohm(most)),
        );
        judged.says = format!("Measure it with one end lifted: {stays}. If it has to go: {}.", judged.buy.join(", "));
        (judged.state, judged.mark) = (LineState::Check, Mark::Unknown);
    }
    let (role, at_line) = match &read.part {
        Part::Resistor { role, .. } => (None, *role == Some(ResistorRole::BusToChassis)),
        Part::Capacitor { role, .. } => (*role, role.is_some_and(CapacitorRole::at_line)),
        _ => (role, role.is_some_and(CapacitorRole::at_line)),
    };
    PartLine { part, name: name(part), count: read.count, judged, role, at_line, reading_unread, unmeasured }
}

/// The most volts a filter gets, cold, on a line 10 % high; of a doubler's two the first gets half of what is behind them.
fn cold_v(supply: &Supply, role: Option<CapacitorRole>) -> Option<f64> {
    match role {
        Some(CapacitorRole::FirstFilter) => Some(supply.answer()?.first_filter.worst_v),
        Some(CapacitorRole::SecondFilter) => Some(supply.lines()?[2].cold_v),
        _ => None,
    }
}

impl PartLine<'_> {
    /// Whether something is bought for it.
    pub fn is_bought(&self) -> bool {
        !self.part.done && self.judged.state == LineState::Buy
    }

    /// Whether it may stay at the power line: a class for the place, and no more than lets little through to metal that is touched.
    pub fn bears_line(&self) -> bool {
        let judged = &self.judged;
        let class = match self.role {
            Some(CapacitorRole::AcrossLine) => judged.class.is_some(),
            _ => judged.class.is_some_and(SafetyClass::is_y),
        };
        let new_farad = judged.articles.first().map(|article| article.size);
        let less = judged.farad.zip(new_farad).is_none_or(|(old, new)| new < LESS * old);
        class && !less
    }

    /// The volts it is rated for and the volts it gets, when the old part is still in and they are more.
    pub fn rated_below(&self, supply: &Supply) -> Option<(f64, f64)> {
        let volts = self.judged.rated_v.zip(cold_v(supply, self.role))?;
        (!self.part.done && volts.0 < volts.1).then_some(volts)
    }

    /// Puts what is to be bought for it into the basket.
    pub fn shop(&self, basket: &mut Basket, place: &str) {
        if self.is_bought() {
            for article in &self.judged.articles {
                basket.add(article, self.count, place);
            }
        }
    }

    /// The line for the answer.
    pub fn answer(&self, at: usize) -> SheetPartAnswer {
        let reference = self.part.reference.as_deref().unwrap_or_default().trim().to_owned();
        let judged = &self.judged;
        if self.part.done {
            return SheetPartAnswer {
                at,
                reference,
                state: LineState::Leave,
                mark: Mark::Yes,
                reads: judged.reads.clone(),
                buy: Vec::new(),
                says: "It is replaced.".to_owned(),
            };
        }
        let mut says = judged.says.clone();
        if self.reading_unread {
            says = format!("What was measured cannot be read as a value of it and is left out. {says}");
        }
        SheetPartAnswer {
            at,
            reference,
            state: judged.state,
            mark: judged.mark,
            reads: judged.reads.clone(),
            buy: if self.is_bought() { judged.buy.clone() } else { Vec::new() },
            says,
        }
    }
}
