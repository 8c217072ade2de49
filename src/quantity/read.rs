//! Figures and units as written on parts and drawings, read.

/// Units of capacitance found on parts and drawings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CapacitanceUnit {
    /// mf, mfd, uF. In radio papers before about 1970 never milli- or megafarad.
    Microfarad,
    /// nF.
    Nanofarad,
    /// mmf, mmfd, uuf, pF.
    Picofarad,
    /// cm, Central Europe to the 1940s; 1.11265 pF.
    Centimetre,
    /// jar, Royal Navy; 1/900 uF.
    Jar,
}

impl CapacitanceUnit {
    /// The unit a word stands for, in any case and with or without full stops.
    pub fn read(word: &str) -> Option<Self> {
        Some(match plain(word).replace(['.', ' '], "").as_str() {
            "uf" | "ufd" | "mf" | "mfd" | "mfds" | "mfarad" | "microfarad" | "microfarads" | "u" => Self::Microfarad,
            "nf" | "nfd" | "n" | "nanofarad" | "nanofarads" => Self::Nanofarad,
            "pf" | "pfd" | "p" | "mmf" | "mmfd" | "mmfds" | "uuf" | "uufd" | "picofarad" | "picofarads" => {
                Self::Picofarad
            }
            "cm" | "cms" => Self::Centimetre,
            "jar" | "jars" => Self::Jar,
            _ => return None,
        })
    }

    /// So many of this unit, in farads.
    pub fn farad(self, count: f64) -> f64 {
        tidy(match self {
            Self::Microfarad => count / 1e6,
            Self::Nanofarad => count / 1e9,
            Self::Picofarad => count / 1e12,
            // The electrostatic unit: 1 F = 8.98755e11 cm.
            Self::Centimetre => count / 8.98755e11,
            Self::Jar => count / 900e6,
        })
    }
}

/// One number as written on parts and drawings: `400`, `.05`, `0,05`, `10,000`, `1/2`, `1 1/2`.
///
/// A comma before exactly three figures groups thousands, unless nothing but 0 stands before it; any other comma is a
/// decimal point. No sign, no exponent. `None` when the text is anything else.
pub fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    if let Some((whole, fraction)) = text.split_once(' ') {
        return (!whole.contains('/') && fraction.contains('/')).then(|| Some(number(whole)? + number(fraction)?))?;
    }
    if let Some((over, under)) = text.split_once('/') {
        let (over, under) = (decimal(over)?, decimal(under)?);
        return (under > 0.0).then(|| over / under);
    }
    decimal(text)
}

/// One capacitance with its unit: `.02 mfd`, `250 mmf`, `4n7`, `0.022 uF (22 nF)`. In farads.
///
/// `None` when there is no unit, or anything else stands beside it; the second figure in brackets may repeat the first in
/// another unit and is not read.
pub fn read_farad(text: &str) -> Option<f64> {
    let text = plain(text);
    let text = text.split_once('(').map_or(text.as_str(), |(first, _)| first).trim();
    let figures = letter_point(text, &[('p', 1e12), ('n', 1e9), ('u', 1e6)]);
    if let Some((figure, divisor, "" | "f")) = figures {
        return Some(tidy(figure / divisor));
    }
    let (figure, unit) = split_unit(text);
    positive(CapacitanceUnit::read(unit)?.farad(number(figure)?))
}

/// One resistance: `470`, `4.7 kohm`, `4k7`, `R47`, `1/2 meg`, `2.2 Mohm`. In ohms.
///
/// A bare `M` is a million here, as it is today; the older meaning of a thousand is a second reading of a marking, see
/// [`crate::passive`]. `None` for any other text.
pub fn read_ohm(text: &str) -> Option<f64> {
    let text = plain(text);
    let text = text.trim();
    if let Some((figure, factor, "" | "ohm" | "ohms")) = letter_point(text, &[('r', 1.0), ('k', 1e3), ('m', 1e6)]) {
        return Some(tidy(figure * factor));
    }
    let (figure, unit) = split_unit(text);
    let factor = match unit.replace(['.', ' '], "").as_str() {
        "" | "r" | "ohm" | "ohms" => 1.0,
        "k" | "t" | "kohm" | "kohms" => 1e3,
        "m" | "mohm" | "mohms" | "meg" | "megs" | "megohm" | "megohms" => 1e6,
        _ => return None,
    };
    positive(tidy(number(figure)? * factor))
}

/// Lower case, one spelling for each sign: `u` for micro, `ohm` for the Greek letter, `-` for every dash, 1/2 in full.
pub(crate) fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars().flat_map(char::to_lowercase) {
        match letter {
            '\u{b5}' | '\u{3bc}' => plain.push('u'),
            '\u{3c9}' => plain.push_str("ohm"),
            '\u{2010}'..='\u{2015}' | '\u{2212}' => plain.push('-'),
            '\u{d7}' => plain.push('x'),
            '\u{bd}' => plain.push_str(" 1/2"),
            '\u{bc}' => plain.push_str(" 1/4"),
            '\u{be}' => plain.push_str(" 3/4"),
            other => plain.push(other),
        }
    }
    plain.trim().to_owned()
}

/// A figure with a letter for its decimal point (IEC 60062): `4k7`, `R47`, `2p2b`. Gives the figure, what the letter stands for
/// in `letters`, and the text after the last figure. `None` unless figures follow the letter.
pub(crate) fn letter_point<'t>(text: &'t str, letters: &[(char, f64)]) -> Option<(f64, f64, &'t str)> {
    let at = text.find(|c: char| !c.is_ascii_digit())?;
    let (before, rest) = text.split_at(at);
    let letter = rest.chars().next()?;
    let (_, stands_for) = letters.iter().find(|(known, _)| *known == letter)?;
    let rest = rest.get(letter.len_utf8()..)?;
    let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let (after, rest) = rest.split_at(end);
    if after.is_empty() || before.len() + after.len() > 9 {
        return None;
    }
    let figure = super::decimal::read(&format!("0{before}.{after}"))?;
    (figure > 0.0).then_some((figure, *stands_for, rest))
}

/// The same number without the last-place dirt of a multiplication: ten figures are kept.
pub(crate) fn tidy(value: f64) -> f64 {
    super::decimal::rounded(value, 10)
}

/// Cuts the text where the unit begins.
fn split_unit(text: &str) -> (&str, &str) {
    let at = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let (figure, unit) = text.split_at(at);
    (figure.trim(), unit.trim())
}

/// Figures with at most one decimal point.
fn decimal(text: &str) -> Option<f64> {
    let text = text.trim();
    let text = match text.split_once(',') {
        Some((before, after)) if !groups_thousands(before, after) => format!("{before}.{after}"),
        _ => text.replace(',', ""),
    };
    let figures = text.bytes().filter(u8::is_ascii_digit).count();
    let points = text.bytes().filter(|byte| *byte == b'.').count();
    (figures > 0 && figures <= 15 && points <= 1 && figures + points == text.len())
        .then(|| super::decimal::read(&text))?
}

/// Whether a comma between these two is a thousands mark.
fn groups_thousands(before: &str, after: &str) -> bool {
    (1..=3).contains(&before.len())
        && before != "0"
        && after.split(',').all(|group| group.split('.').next().is_some_and(|whole| whole.len() == 3))
}

/// The value if it can be one of a part.
fn positive(value: f64) -> Option<f64> {
    (value > 0.0 && value.is_finite()).then_some(value)
}
