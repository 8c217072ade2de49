//! The heaters of the set, put to `heater_string` with the types that are in place: one string across the line, or the load of a winding.

use super::socket::{Line, Sockets, has_heater};
use super::supply::LINE_V;
use super::{JobSheet, SheetHeaters};
use crate::ask::heater_string;
use crate::ask::{ErrorAnswer, HeaterStringAnswer, HeaterStringQuestion};
use crate::book::Book;

/// What came of it.
pub(super) struct Heaters {
    pub told: Option<Result<Box<HeaterStringAnswer>, ErrorAnswer>>,
    /// Of each heater of the answer, its line on the sheet.
    pub lines: Vec<usize>,
}

impl Heaters {
    /// Puts the heaters of a sheet to the engine. Not asked: filaments on batteries, and lines of which one is not known.
    pub fn of(book: &Book, sheet: &JobSheet, sockets: &Sockets<'_, '_>) -> Self {
        let mut question = HeaterStringQuestion {
            line_v: sheet.line_v.unwrap_or(LINE_V),
            line_hz: sheet.line_hz.unwrap_or(60.0),
            tubes: Vec::new(),
            designed_v: sheet.designed_v,
            winding_v: None,
            winding_a: None,
            dropper_ohm: None,
        };
        let mut lines = Vec::new();
        let parallel = match sheet.heaters {
            Some(SheetHeaters::Series) => false,
            Some(SheetHeaters::Parallel) => true,
            _ => return Self { told: None, lines },
        };
        if parallel {
            let Some(winding_v) = sheet.winding_v else { return Self { told: None, lines } };
            question.winding_v = Some(winding_v);
            question.winding_a = sheet.winding_a;
        }
        for (at, (line, tube)) in sockets.lines.iter().zip(&sheet.tubes).enumerate() {
            match (line, line.in_place()) {
                // Where one is not known, current and volts of all are not.
                (Line::Unread(_), _) | (Line::Tube { .. }, None) => return Self { told: None, lines },
                (Line::Tube { .. }, Some(tube)) => {
                    if has_heater(tube) && !(parallel && sockets.has_own_winding(tube)) {
                        question.tubes.push(tube.name.clone());
                        lines.push(at);
                    }
                }
                (Line::Item(_), _) => {
                    question.tubes.push(tube.r#type.clone());
                    lines.push(at);
                }
            }
        }
        if question.tubes.is_empty() {
            return Self { told: None, lines };
        }
        Self { told: Some(heater_string::answer(book, &question).map(Box::new)), lines }
    }

    /// The answer, if there is one.
    pub fn answer(&self) -> Option<&HeaterStringAnswer> {
        self.told.as_ref()?.as_ref().ok().map(AsRef::as_ref)
    }
}
