//! Figures on a capacitor that have no unit: which are values, which are volts, and what the values count.

use super::capacitor_code::code_farad;
use super::{Assumed, CapacitorHint, CapacitorKind, CapacitorRole};
use crate::quantity::CapacitanceUnit;

/// Working volts printed on old and new parts; other figures are not taken for volts without their unit.
const RATINGS: [f64; 40] = [
    6.0, 6.3, 10.0, 12.0, 15.0, 16.0, 25.0, 35.0, 40.0, 50.0, 63.0, 75.0, 100.0, 150.0, 160.0, 200.0, 250.0, 300.0,
    350.0, 400.0, 450.0, 475.0, 500.0, 525.0, 550.0, 600.0, 630.0, 700.0, 750.0, 800.0, 1000.0, 1200.0, 1250.0, 1500.0,
    1600.0, 2000.0, 2500.0, 3000.0, 4000.0, 6000.0,
];

/// Volts up to which a part with a whole figure is an electrolytic: small parts are not sold so low in a tube set.
const LOW_VOLTS: f64 = 63.0;

/// A figure and the signs between it and the figure before.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    pub text: String,
    pub value: f64,
    pub signs: String,
}

impl Figure {
    /// Written as a whole number.
    fn whole(&self) -> bool {
        self.text.bytes().all(|byte| byte.is_ascii_digit())
    }

    /// Written as a common fraction.
    pub(super) fn is_fraction(&self) -> bool {
        self.text.contains('/')
    }

    /// Whether this is a figure that ratings are printed with.
    pub(super) fn is_rating(&self) -> bool {
        RATINGS.contains(&self.value)
    }
}

/// One way to part bare figures into values and volts.
#[derive(Debug, Clone)]
pub(super) struct Split {
    pub values: Vec<Figure>,
    pub volts: Vec<f64>,
    pub assumed: Option<Assumed>,
}

/// `2 x 8` is 8 twice.
pub(super) fn repeated(figures: &[Figure]) -> Vec<Figure> {
    match figures {
        [count, figure] if figure.signs == "x" && [2.0, 3.0, 4.0].contains(&count.value) && figure.value < 100.0 => {
            vec![figure.clone(); count.value as usize]
        }
        other => other.to_vec(),
    }
}

/// Every way to part bare figures into values and volts, the likeliest first; `None` when there is none.
pub(super) fn splits(figures: &[Figure], volts_unit: Option<f64>) -> Option<Vec<Split>> {
    let figures = repeated(figures);
    let (last, before) = figures.split_last()?;
    let first = figures.first()?;
    if figures.iter().any(Figure::is_fraction) && (figures.len() > 1 || volts_unit.is_some()) {
        return None;
    }
    let sections = |assumed: Option<Assumed>| Split { values: figures.clone(), volts: Vec::new(), assumed };
    let with_volts = |at: usize, factor: f64, assumed: Option<Assumed>| Split {
        values: figures.iter().take(at).cloned().collect(),
        volts: figures.iter().skip(at).map(|figure| figure.value * factor).collect(),
        assumed,
    };
    if before.is_empty() {
        return Some(vec![sections(None)]);
    }
    // Volts may be written for each section: `20-20-150-150`, `20-20/150-25`.
    let half = figures.len() / 2;
    let halves = figures.len().is_multiple_of(2)
        && figures.iter().take(half).all(|figure| figure.value <= 100.0)
        && figures.iter().skip(half).all(|figure| figure.value >= 100.0);
    let bar = figures.iter().rposition(|figure| figure.signs.contains('/'));
    // One gap parts the values from the volts: `40/20/20 150/150/25`, `16-8 450`.
    let mut gaps = figures.iter().enumerate().skip(1).filter(|(_, figure)| figure.signs.is_empty());
    if let (Some((at, _)), None) = (gaps.next(), gaps.next())
        && (at > 1 || figures.len() - at > 1)
        && (figures.len() - at == 1 || figures.len() - at == at)
        && figures.iter().skip(at).all(Figure::is_rating)
    {
        let assumed = if volts_unit.is_some() { None } else { Some(Assumed::LastIsVolts) };
        return Some(vec![with_volts(at, volts_unit.unwrap_or(1.0), assumed)]);
    }
    if let Some(factor) = volts_unit {
        let at = match bar {
            Some(at) => at,
            None if halves => half,
            None => before.len(),
        };
        return Some(vec![with_volts(at, factor, None)]);
    }
    let assumed = Some(Assumed::LastIsVolts);
    let largest = before.iter().map(|figure| figure.value).fold(0.0, f64::max);
    let rating = last.is_rating();
    let splits = match bar {
        Some(at) if figures.iter().skip(at).all(Figure::is_rating) => {
            vec![with_volts(at, 1.0, assumed)]
        }
        _ if halves && figures.len() > 2 => vec![with_volts(half, 1.0, assumed)],
        _ if last.signs.contains(['+', '&']) || !rating => vec![sections(Some(Assumed::AllAreSections))],
        _ if first.value < 1.0 && last.value >= 25.0 => vec![with_volts(before.len(), 1.0, assumed)],
        _ if last.value > largest && last.value >= 100.0 => vec![with_volts(before.len(), 1.0, assumed)],
        _ if before.len() == 1 && [25.0, 50.0].contains(&last.value) => {
            vec![with_volts(1, 1.0, assumed), sections(Some(Assumed::AllAreSections))]
        }
        _ => vec![sections(Some(Assumed::AllAreSections)), with_volts(before.len(), 1.0, assumed)],
    };
    Some(splits)
}

/// What bare figures can count, the likeliest first, in farads.
pub(super) fn units(values: &[Figure], volts: Option<f64>, hint: CapacitorHint) -> Vec<(Vec<f64>, Assumed)> {
    let all = |unit: CapacitanceUnit| values.iter().map(|figure| unit.farad(figure.value)).collect::<Vec<_>>();
    let decimal = || (all(CapacitanceUnit::Microfarad), Assumed::DecimalIsMicrofarad);
    let microfarad = || (all(CapacitanceUnit::Microfarad), Assumed::WholeIsMicrofarad);
    let picofarad = || (all(CapacitanceUnit::Picofarad), Assumed::WholeIsPicofarad);
    if values.iter().any(|figure| figure.value < 1.0) {
        return vec![decimal()];
    }
    let [figure] = values else {
        return vec![microfarad()];
    };
    if figure.whole() && figure.text.starts_with('0') {
        return Vec::new();
    }
    if is_large(hint) {
        return vec![microfarad()];
    }
    let small = match hint.kind {
        Some(kind) => matches!(kind, CapacitorKind::Mica | CapacitorKind::Ceramic),
        None => hint.role == Some(CapacitorRole::Tuned),
    };
    if !figure.whole() {
        return match hint.kind {
            _ if small => vec![picofarad()],
            Some(_) => vec![microfarad()],
            None => vec![microfarad(), picofarad()],
        };
    }
    let code = (figure.text.len() == 3).then(|| code_farad(&figure.text)).flatten();
    if let Some(code) = code {
        let code = (vec![code], Assumed::ThreeFigureCode);
        let open = hint.kind.is_none() && !small;
        return if figure.text.ends_with('0') {
            match volts {
                Some(volts) if open && volts <= LOW_VOLTS => vec![microfarad(), code],
                Some(_) if open && figure.value <= 100.0 => vec![microfarad(), picofarad()],
                _ => vec![picofarad(), code],
            }
        } else if figure.text.ends_with('5') && small {
            // Mica parts print plain figures such as 125 and 175; read as a code they would be whole microfarads.
            vec![picofarad()]
        } else if figure.text.ends_with('5') {
            vec![code, picofarad()]
        } else {
            vec![code]
        };
    }
    match (hint.kind, volts) {
        _ if small => vec![picofarad()],
        (Some(_), _) if figure.value <= 10.0 => vec![microfarad()],
        (None, Some(volts)) if volts <= LOW_VOLTS || figure.value <= 40.0 => vec![microfarad()],
        (None, Some(_)) if figure.value <= 100.0 => vec![microfarad(), picofarad()],
        (None, None) if figure.value <= 10.0 => vec![microfarad(), picofarad()],
        (None, None) if figure.value < 100.0 => vec![picofarad(), microfarad()],
        _ => vec![picofarad()],
    }
}

/// Whether the part is known to be an electrolytic, by its kind or by its place.
fn is_large(hint: CapacitorHint) -> bool {
    match hint.kind {
        Some(kind) => kind == CapacitorKind::Electrolytic,
        None => matches!(
            hint.role,
            Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter | CapacitorRole::CathodeBypass)
        ),
    }
}
