//! The supply of the set, put to `rectifier` with what the rest of the sheet tells of it: the line, the rectifier tube, the first filter among the
//! parts, the tubes that draw from B+.

use super::parts;
use super::socket::{Line, Sockets, rectifies};
use super::{JobSheet, SheetHeaters};
use crate::ask::rectifier::{self, SAW_TOOTH};
use crate::ask::{ErrorAnswer, LineCase, OriginalRectifier, RectifierAnswer, RectifierQuestion, RectifierTopology};
use crate::book::{Book, Function, Tube, Unit};
use crate::finding::Finding;
use crate::quantity::significant;

/// Line volts where none are told, as the other asks take them.
pub(super) const LINE_V: f64 = 120.0;

/// The points of the bring-up at which B+ and its ripple are read.
pub(super) const READ_B_PLUS: &str = "b_plus_first";
pub(super) const READ_RIPPLE: &str = "b_plus_ripple";

/// What came of it.
pub(super) struct Supply {
    /// The question as it was put; none where the set has no B+ to be worked out, or nothing of it is told.
    pub question: Option<RectifierQuestion>,
    pub told: Option<Result<Box<RectifierAnswer>, ErrorAnswer>>,
    /// What was taken from the rest of the sheet, in sentences.
    pub taken: Vec<String>,
}

impl Supply {
    /// Puts the supply of a sheet to the engine.
    pub fn of(book: &Book, sheet: &JobSheet, sockets: &Sockets<'_, '_>) -> Self {
        let mut taken = Vec::new();
        let question = question(book, sheet, sockets, &mut taken);
        let told = question.as_ref().map(|question| match sheet.line_hz {
            Some(0.0) => {
                let mut error = ErrorAnswer::new("line_hz", "0, a DC line", "16 to 400 hertz");
                "On a DC line the rectifier only passes the line on: B+ is not worked out here."
                    .clone_into(&mut error.says);
                Err(error)
            }
            _ if question.first_filter_uf <= 0.0 => {
                Err(ErrorAnswer::new("first_filter_uf", "", "0.5 to 1000 microfarads"))
            }
            _ => rectifier::answer(book, question).map(Box::new),
        });
        Self { question, told, taken }
    }

    /// The answer, if there is one.
    pub fn answer(&self) -> Option<&RectifierAnswer> {
        self.told.as_ref()?.as_ref().ok().map(AsRef::as_ref)
    }

    /// The set at line -10 %, as given, +10 %.
    pub fn lines(&self) -> Option<[&LineCase; 3]> {
        match self.answer()?.lines.as_slice() {
            [low, nominal, high] => Some([low, nominal, high]),
            _ => None,
        }
    }

    /// Whether a rectifier tube is what makes B+.
    pub fn by_tube(&self) -> bool {
        matches!(
            self.question.as_ref().and_then(|question| question.original.as_ref()),
            Some(OriginalRectifier::Tube { .. })
        )
    }

    /// Whether a selenium stack is to go.
    pub fn by_selenium(&self) -> bool {
        matches!(
            self.question.as_ref().and_then(|question| question.original.as_ref()),
            Some(OriginalRectifier::Selenium { .. })
        )
    }

    /// What a reading at the first filter means. Where a selenium stack is to go, silicon with its resistor is in by then.
    pub fn explained(&self, book: &Book, sheet: &JobSheet) -> Option<Vec<Finding>> {
        let told = self.answer()?;
        if !self.by_selenium() {
            return Some(told.reading.clone());
        }
        let mut question = self.question.clone()?;
        question.original = Some(OriginalRectifier::Silicon);
        question.target_v = Some(told.target_v);
        let added_ohm = told.resistor.as_ref().map_or(0.0, |resistor| resistor.ohm);
        question.fitted_ohm = Some(question.fitted_ohm.unwrap_or(0.0) + added_ohm);
        question.measured_v = within(sheet, READ_B_PLUS, 1.0, 1500.0);
        question.measured_ripple_v = within(sheet, READ_RIPPLE, 0.01, 300.0);
        rectifier::answer(book, &question).ok().map(|told| told.reading)
    }
}

/// Rms of a ripple, from its height from peak to peak.
pub(super) fn ripple_rms_v(line: &LineCase) -> f64 {
    line.ripple_v / SAW_TOOTH
}

/// The question with what the rest of the sheet tells.
fn question(
    book: &Book,
    sheet: &JobSheet,
    sockets: &Sockets<'_, '_>,
    taken: &mut Vec<String>,
) -> Option<RectifierQuestion> {
    let rectifier = sockets.lines.iter().find_map(|line| match line {
        Line::Tube { wants, fitted } if rectifies(wants) => Some((*wants, fitted)),
        _ => None,
    });
    let mut question = match sheet.rectifier.as_deref() {
        Some(told) => told.clone(),
        // A string and a rectifier: the line itself, half-wave. Anything else has to be told.
        None if sheet.heaters == Some(SheetHeaters::Series) && rectifier.is_some() => blank(),
        None => return None,
    };
    question.line_v = sheet.line_v.unwrap_or(question.line_v);
    if let Some(line_hz) = sheet.line_hz.filter(|hertz| *hertz > 0.0) {
        question.line_hz = line_hz;
    }
    if let Some((wants, fitted)) = rectifier {
        if question.original.is_none() {
            let r#type = wants.name.clone();
            question.original = Some(OriginalRectifier::Tube { r#type, drop_v: None, drop_ma: None });
        }
        if let Ok(fitted) = fitted
            && question.replacement.is_none()
            && fitted.name != wants.name
        {
            question.replacement = Some(fitted.name.clone());
        }
    }
    if question.first_filter_uf <= 0.0
        && let Some((name, uf)) = parts::first_filter_uf(book, sheet)
    {
        question.first_filter_uf = uf;
        taken.push(format!("The first filter of {} uF is {name}.", significant(uf, 3)));
    }
    if question.load_ma <= 0.0 && question.load_ohm.is_none() && question.load_tubes.is_empty() {
        // One that is not known leaves the load unknown; of one without typical currents those of the type the set wants are taken.
        let mut known = true;
        for line in &sockets.lines {
            let tube = match line {
                Line::Item(_) => continue,
                Line::Unread(_) => None,
                Line::Tube { wants, .. } => Some(line.in_place().filter(|tube| drawn_ma(tube) > 0.0).unwrap_or(wants)),
            };
            known &= tube.is_some();
            question.load_tubes.extend(tube.filter(|tube| draws(tube)).map(|tube| tube.name.clone()));
        }
        if !known {
            question.load_tubes.clear();
        }
        if !question.load_tubes.is_empty() {
            taken.push("The load is what the tubes of the sheet draw, by their typical currents.".to_owned());
        }
    }
    // What a reading means is told of the rectifier that is in: a stack that is to go is not what was measured (see `after_repair`).
    let stack = matches!(question.original, Some(OriginalRectifier::Selenium { .. }));
    if !stack && let Some(value) = within(sheet, READ_B_PLUS, 1.0, 1500.0) {
        question.measured_v = Some(value);
        question.measured_ripple_v = within(sheet, READ_RIPPLE, 0.01, 300.0);
    }
    Some(question)
}

/// What was read at a point of the bring-up.
pub(super) fn read(sheet: &JobSheet, key: &str) -> Option<f64> {
    sheet.readings.iter().rev().find(|reading| reading.key == key).map(|reading| reading.value)
}

/// A reading that can be one, in the range that `rectifier` takes.
fn within(sheet: &JobSheet, key: &str, least: f64, most: f64) -> Option<f64> {
    read(sheet, key).filter(|value| (least..=most).contains(value))
}

/// Whether it draws from B+: all but rectifiers, diodes and regulators.
fn draws(tube: &Tube) -> bool {
    use Function::{Damper, Diode, Rectifier, Regulator};
    tube.units.iter().any(|unit| !matches!(unit.function, Rectifier | Diode | Damper | Regulator))
}

/// Its typical plate and screen currents, milliamps.
fn drawn_ma(tube: &Tube) -> f64 {
    let of = |unit: &Unit| unit.figures.typ_plate_ma.unwrap_or(0.0) + unit.figures.typ_screen_ma.unwrap_or(0.0);
    tube.units.iter().map(of).sum()
}

/// A supply of which nothing is told.
fn blank() -> RectifierQuestion {
    let nothing = serde_json::Map::new();
    RectifierQuestion {
        topology: RectifierTopology::HalfWave,
        ..RectifierQuestion::from(&crate::ask::accepted::Fields::new(&nothing))
    }
}
