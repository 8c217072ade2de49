//! Capacitor values written as a code in one piece: `103K`, `4n7K`, `2p2B`, `u22K`, `3K3`, `470JN`, `2A103J`, `.22K`.

use super::{Assumed, TemperatureCode, Tolerance};
use crate::quantity::{CapacitanceUnit, decimal, letter_point, number, tidy};
use crate::series::Series;

/// One way to read a code.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Coded {
    pub farad: f64,
    pub tolerance: Option<Tolerance>,
    pub temperature: Option<TemperatureCode>,
    pub volts: Option<f64>,
    pub assumed: Option<Assumed>,
}

/// Volts codes before the figures, as on small film parts (JIS C 5101; from memory).
const VOLTS: [(&str, f64); 7] =
    [("1h", 50.0), ("2a", 100.0), ("2d", 200.0), ("2e", 250.0), ("2g", 400.0), ("2j", 630.0), ("3a", 1000.0)];

/// Every way to read the text as a code, the likeliest first; empty when it is none.
pub(super) fn read_code(text: &str) -> Vec<Coded> {
    for (code, volts) in VOLTS {
        if let Some(rest) = text.strip_prefix(code).filter(|rest| rest.len() >= 3) {
            let mut readings = three_figures(rest);
            for reading in &mut readings {
                reading.volts = Some(volts);
            }
            if !readings.is_empty() {
                return readings;
            }
        }
    }
    let readings = with_letter_point(text);
    if !readings.is_empty() {
        return readings;
    }
    let readings = three_figures(text);
    if !readings.is_empty() {
        return readings;
    }
    figure_with_letter(text)
}

/// `4n7`, `4n7k`, `u22k`, `2p2b`, `3k3`, `4r7`.
fn with_letter_point(text: &str) -> Vec<Coded> {
    let points = [('p', 1e12), ('n', 1e9), ('u', 1e6), ('k', 1e9), ('r', 1e12)];
    let Some((figure, divisor, rest)) = letter_point(text, &points) else {
        return Vec::new();
    };
    let farad = tidy(figure / divisor);
    let assumed = text.contains('k').then_some(Assumed::ThousandPicofarad).filter(|_| {
        // Only the first letter is the point; a last K is the tolerance.
        text.trim_start_matches(|c: char| c.is_ascii_digit()).starts_with('k')
    });
    let rest = rest.strip_prefix('f').filter(|rest| rest.len() <= 1).unwrap_or(rest);
    let Some((tolerance, temperature)) = letters(rest, farad) else {
        return Vec::new();
    };
    vec![Coded { farad, tolerance, temperature, volts: None, assumed }]
}

/// `103`, `473k`, `470jn`; not `250` on its own, which the place decides.
fn three_figures(text: &str) -> Vec<Coded> {
    let Some((figures, rest)) = text.split_at_checked(3) else {
        return Vec::new();
    };
    // `100nJ` is 100 nF of 5 %, not 100 pF with two letters.
    let unit_and_letter = rest.len() == 2 && rest.starts_with(['n', 'p']);
    if !figures.bytes().all(|byte| byte.is_ascii_digit())
        || rest == "v"
        || unit_and_letter
        || CapacitanceUnit::read(rest).is_some()
    {
        return Vec::new();
    }
    let plain_farad = decimal(figures).map_or(0.0, |count| CapacitanceUnit::Picofarad.farad(count));
    let mut readings = Vec::new();
    let mut add = |farad: f64, assumed: Assumed| {
        if let Some((tolerance, temperature)) = letters(rest, farad) {
            readings.push(Coded { farad, tolerance, temperature, volts: None, assumed: Some(assumed) });
        }
    };
    let code = code_farad(figures);
    if figures.ends_with('0') {
        // An older part prints plain picofarads, a newer one the code; a temperature letter is found on the older alone.
        add(plain_farad, Assumed::WholeIsPicofarad);
        if let Some(code) = code.filter(|_| rest.len() < 2) {
            add(code, Assumed::ThreeFigureCode);
        }
    } else if let Some(code) = code {
        add(code, Assumed::ThreeFigureCode);
    }
    readings
}

/// What three figures mean as a code: two figures and the zeros after them, in picofarads; 8 and 9 divide by 100 and 10.
///
/// `None` when the two figures are not a preferred value, because no part is coded so.
pub(super) fn code_farad(figures: &str) -> Option<f64> {
    let (value, zeros) = figures.split_at_checked(2)?;
    let value = decimal(value)?;
    if value < 10.0 || !Series::E24.contains(value) {
        return None;
    }
    let exponent = match zeros.parse::<i32>().ok()? {
        8 => -2,
        9 => -1,
        zeros => zeros,
    };
    Some(tidy(value * 10f64.powi(exponent) / 1e12))
}

/// `.22k`, `0.1j`, `22j`, `10k`, `4700k`: a figure and a tolerance letter.
fn figure_with_letter(text: &str) -> Vec<Coded> {
    let at = text.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(text.len());
    let (figure_text, rest) = text.split_at(at);
    let Some(figure) = number(figure_text).filter(|_| rest.len() == 1 && CapacitanceUnit::read(rest).is_none()) else {
        return Vec::new();
    };
    let mut readings = Vec::new();
    let mut add = |farad: f64, rest: &str, assumed: Assumed| {
        if let Some((tolerance, temperature)) = letters(rest, farad) {
            readings.push(Coded { farad, tolerance, temperature, volts: None, assumed: Some(assumed) });
        }
    };
    if figure < 1.0 {
        add(CapacitanceUnit::Microfarad.farad(figure), rest, Assumed::DecimalIsMicrofarad);
    } else {
        add(CapacitanceUnit::Picofarad.farad(figure), rest, Assumed::WholeIsPicofarad);
        if rest == "k" && figure < 100.0 {
            add(CapacitanceUnit::Nanofarad.farad(figure), "", Assumed::ThousandPicofarad);
        }
    }
    readings
}

/// A tolerance letter and, after it, a temperature letter; both may be missing. `None` for any other text.
fn letters(rest: &str, farad: f64) -> Option<(Option<Tolerance>, Option<TemperatureCode>)> {
    let mut letters = rest.chars();
    let Some(first) = letters.next() else {
        return Some((None, None));
    };
    let tolerance = Tolerance::letter(first, farad)?;
    let Some(second) = letters.next() else {
        return Some((Some(tolerance), None));
    };
    let temperature = TemperatureCode::letter(second)?;
    letters.next().is_none().then_some((Some(tolerance), Some(temperature)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_code_is_left_alone() {
        for text in
            ["", "k", "450v", "100pf", "16uf", "999", "048", "4n", "n", "470xx", "1e9", "\u{f1}\u{f1}\u{f1}", "10v"]
        {
            assert_eq!(read_code(text), [], "{text}");
        }
    }

    #[test]
    fn zero_as_third_figure_is_read_both_ways() {
        let farads = |text| read_code(text).iter().map(|reading| reading.farad).collect::<Vec<_>>();
        assert_eq!(farads("470k"), [470e-12, 47e-12]);
        assert_eq!(farads("250j"), [250e-12]);
        assert_eq!(farads("479"), [4.7e-12]);
        assert_eq!(farads("2a103j"), [10e-9]);
    }
}
