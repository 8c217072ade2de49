//! Reads what is written on a resistor or beside it on the drawing into every plausible reading, the likeliest first.

use super::resistor::ResistorRole;
use super::token::{Comma, Piece, Token, pieces, tokens};
use super::{Assumed, Tolerance, Unreadable};
use crate::order::sort_few;
use crate::quantity::{letter_point, number, tidy};

/// One reading of a marking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ResistorMark {
    /// Ohms.
    pub ohm: f64,
    /// The tolerance, when marked.
    pub tolerance: Option<Tolerance>,
    /// Watts, when marked.
    pub watts: Option<f64>,
    /// What was assumed of an `M`.
    pub assumed: Option<Assumed>,
    /// It is marked as flameproof or fusible, and so must the new one be.
    pub fusible: bool,
}

/// Every reading of a marking.
#[derive(Debug, Clone, PartialEq)]
pub struct ResistorMarks {
    /// The readings, the likeliest first; at least one.
    pub readings: Vec<ResistorMark>,
    /// Whether the first is the only one that agrees with what is known of the part.
    pub settled: bool,
}

/// Smallest and largest figures that any marking means.
const OHMS: std::ops::RangeInclusive<f64> = 0.01..=100e6;
const WATTS: std::ops::RangeInclusive<f64> = 0.05..=1000.0;
const PERCENT: std::ops::RangeInclusive<f64> = 0.01..=50.0;

/// From this count on `M` is a thousand before it is a million: 25M is 25 kohm.
const MORE_LIKELY_THOUSAND: f64 = 25.0;

/// A part reads at most so many times its marking, or so small a part of it, and is still the same part.
const SAME_PART: f64 = 10.0;

/// Reads a marking.
///
/// `role` and `measured_ohm`, when known, decide what an `M` means.
///
/// # Errors
/// [`Unreadable`] names the piece that has no meaning, or the whole text when it holds no value or one no part can have.
pub fn read_resistor(
    marking: &str,
    role: Option<ResistorRole>,
    measured_ohm: Option<f64>,
) -> Result<ResistorMarks, Unreadable> {
    let whole = || Unreadable::new(marking.trim());
    let mut sheet = Sheet::default();
    for token in tokens(marking, Comma::InFigures).ok_or_else(|| Unreadable::new("a text longer than any marking"))? {
        sheet.take(&token)?;
    }
    sheet.close_bare().ok_or_else(whole)?;
    let values = sheet.values.ok_or_else(whole)?;
    let mut readings: Vec<ResistorMark> = values
        .into_iter()
        .filter(|(ohm, _)| OHMS.contains(ohm))
        .map(|(ohm, assumed)| ResistorMark {
            ohm,
            tolerance: sheet.tolerance,
            watts: sheet.watts,
            assumed,
            fusible: sheet.fusible,
        })
        .collect();
    let fits = |reading: &ResistorMark| {
        let ratio = measured_ohm.map(|measured| measured / reading.ohm);
        ratio.is_none_or(|ratio| (1.0 / SAME_PART..=SAME_PART).contains(&ratio))
            && ResistorRole::usual_ohms(role).contains(&reading.ohm)
    };
    sort_few(&mut readings, |reading| !fits(reading));
    let fitting = readings.iter().filter(|reading| fits(reading)).count();
    if readings.is_empty() {
        return Err(whole());
    }
    Ok(ResistorMarks { settled: readings.len() == 1 || fitting == 1, readings })
}

/// Ohms, and what was assumed of an `M`.
type Value = (f64, Option<Assumed>);

/// What has been understood.
#[derive(Debug, Default)]
struct Sheet {
    /// A figure whose unit has not come yet.
    figure: Option<f64>,
    /// A small whole figure before a fraction: the 1 of `1 1/2 meg`, or the 1 ohm of `1 1/2 W`.
    before_fraction: Option<f64>,
    /// The value in every reading.
    values: Option<Vec<Value>>,
    tolerance: Option<Tolerance>,
    watts: Option<f64>,
    fusible: bool,
    /// Inside brackets a value is said a second time.
    bracket: bool,
}

impl Sheet {
    fn take(&mut self, token: &Token) -> Result<(), Unreadable> {
        match token {
            Token::Sign('(') => self.bracket = true,
            Token::Sign(')') => self.bracket = false,
            _ if self.bracket => {}
            Token::Sign('%') => {
                let percent = self.figure.take().filter(|percent| PERCENT.contains(percent));
                self.tolerance = Some(Tolerance::even(percent.ok_or_else(|| Unreadable::new("%"))?));
            }
            Token::Sign('-' | '+' | '/' | ',' | ';' | ':' | '\u{b1}' | '=') => {}
            Token::Sign(other) => return Err(Unreadable::new(*other)),
            Token::Text(text) => self.text(text).ok_or_else(|| Unreadable::new(text))?,
        }
        Ok(())
    }

    /// Takes a text; `None` when it has no meaning here.
    fn text(&mut self, text: &str) -> Option<()> {
        if let Some((figure, factor, rest)) = letter_point(text, &[('r', 1.0), ('e', 1.0), ('k', 1e3), ('m', 1e6)]) {
            self.close_bare()?;
            self.value(vec![(tidy(figure * factor), None)])?;
            return self.after_value(rest);
        }
        for piece in pieces(text) {
            match piece {
                Piece::Figure(figure) => {
                    let small = |whole: &f64| *whole < 10.0 && whole.fract() == 0.0;
                    if figure.contains('/') && self.before_fraction.is_none() {
                        self.before_fraction = self.figure.take_if(|whole| small(whole));
                    }
                    if self.before_fraction.is_none() {
                        self.close_bare()?;
                    }
                    self.figure = Some(number(&figure)?);
                }
                Piece::Word(word) => self.word(&word)?,
            }
        }
        Some(())
    }

    fn word(&mut self, word: &str) -> Option<()> {
        match word {
            "w" | "watt" | "watts" => {
                let watts = self.figure.take().filter(|watts| WATTS.contains(watts) && self.watts.is_none())?;
                self.watts = Some(watts);
                return match self.before_fraction.take() {
                    Some(ohm) => self.value(vec![(ohm, None)]),
                    None => Some(()),
                };
            }
            "flameproof" | "fusible" => {
                self.fusible = true;
                return Some(());
            }
            "carbon" | "comp" | "composition" | "wirewound" | "wire" | "wound" | "ww" | "film" | "metal" | "oxide"
            | "resistor" | "res" | "tol" | "insulated" => return Some(()),
            _ => {}
        }
        let Some(figure) = self.figure else {
            // "470 k ohm": the unit in two words.
            return if self.values.is_some() { self.after_value(word) } else { None };
        };
        let (values, rest) = with_unit(figure + self.before_fraction.take().unwrap_or(0.0), word)?;
        self.figure = None;
        self.value(values)?;
        self.after_value(rest)
    }

    /// What may follow a value: the word ohm, a tolerance letter.
    fn after_value(&mut self, rest: &str) -> Option<()> {
        let mut letters = rest.chars();
        match (letters.next(), letters.next()) {
            (None, _) => Some(()),
            (Some(letter), None) => {
                self.tolerance = Some(Tolerance::resistor_letter(letter)?);
                Some(())
            }
            _ => matches!(rest, "ohm" | "ohms").then_some(()),
        }
    }

    /// A resistor has one value.
    fn value(&mut self, values: Vec<Value>) -> Option<()> {
        if self.values.is_some() {
            return None;
        }
        self.values = Some(values);
        Some(())
    }

    /// A figure that got no unit is ohms.
    fn close_bare(&mut self) -> Option<()> {
        if self.before_fraction.is_some() {
            return None;
        }
        match self.figure.take() {
            Some(figure) => self.value(vec![(figure, None)]),
            None => Some(()),
        }
    }
}

/// The value in every reading, and what is left of the word behind its unit.
fn with_unit(figure: f64, word: &str) -> Option<(Vec<Value>, &str)> {
    for unit in ["megohms", "megohm", "mohms", "mohm", "megs", "meg"] {
        if let Some(rest) = word.strip_prefix(unit) {
            return Some((vec![(tidy(figure * 1e6), None)], rest));
        }
    }
    for unit in ["kohms", "kohm", "k", "t"] {
        if let Some(rest) = word.strip_prefix(unit) {
            return Some((vec![(tidy(figure * 1e3), None)], rest));
        }
    }
    for unit in ["ohms", "ohm", "r", "e"] {
        if let Some(rest) = word.strip_prefix(unit) {
            return Some((vec![(figure, None)], rest));
        }
    }
    let rest = word.strip_prefix('m')?;
    let million = (tidy(figure * 1e6), Some(Assumed::MIsMillion));
    let thousand = (tidy(figure * 1e3), Some(Assumed::MIsThousand));
    let values = if figure < 1.0 {
        vec![(million.0, None)]
    } else if figure >= MORE_LIKELY_THOUSAND {
        vec![thousand, million]
    } else {
        vec![million, thousand]
    };
    Some((values, rest))
}
