//! A reading, and what was assumed, in words.

use super::{CapacitorKind, CapacitorReading, Case};
use crate::passive::{Assumed, CapacitorHint, CapacitorMark, Line, TemperatureCode, Tolerance, kind_of};
use crate::quantity::{farad, plain_figure, significant, volt};

/// One reading as the contract has it.
pub(super) fn reading(mark: &CapacitorMark, hint: CapacitorHint) -> CapacitorReading {
    let tolerance = mark.tolerance.unwrap_or_else(|| customary(kind_of(mark, hint).0));
    CapacitorReading {
        says: says(mark),
        sections_f: mark.sections.iter().map(|section| section.farad).collect(),
        rated_v: mark.sections.iter().filter_map(|section| section.volts).collect(),
        tolerance_percent: Some((round(tolerance.below_percent), round(tolerance.above_percent))),
        assumed: mark.assumed.iter().map(|assumed| assumed_says(*assumed).to_owned()).collect(),
    }
}

/// "8 + 8 + 20 uF, 450/450/25 V", "0.02 uF (20 nF), 400 V", "0.047 uF (47 nF), 10 %, 630 V".
pub(super) fn says(mark: &CapacitorMark) -> String {
    let farads: Vec<f64> = mark.sections.iter().map(|section| section.farad).collect();
    let mut parts = vec![match farads.as_slice() {
        [one] => farad(*one),
        several if several.iter().all(|farad| *farad >= 1e-6) => {
            let counts: Vec<String> = several.iter().map(|farad| significant(farad * 1e6, 3)).collect();
            format!("{} uF", counts.join(" + "))
        }
        several => several.iter().map(|one| farad(*one)).collect::<Vec<_>>().join(" + "),
    }];
    if let Some(tolerance) = mark.tolerance {
        parts.push(tolerance_says(tolerance));
    }
    if let Some(code) = mark.temperature {
        parts.push(temperature_says(code));
    }
    let volts: Vec<f64> = mark.sections.iter().filter_map(|section| section.volts).collect();
    let unit = if mark.ac { " AC" } else { "" };
    match volts.as_slice() {
        [] => {}
        [first, rest @ ..] if rest.iter().all(|volts| volts == first) => parts.push(format!("{}{unit}", volt(*first))),
        several => {
            let several: Vec<String> = several.iter().map(|volts| significant(*volts, 3)).collect();
            parts.push(format!("{} V{unit}", several.join("/")));
        }
    }
    if let Some(class) = mark.class {
        parts.push(format!("class {}", class.name()));
    }
    parts.join(", ")
}

/// "20 %", "-20 to +100 %".
pub(super) fn tolerance_says(tolerance: Tolerance) -> String {
    let (below, above) = (significant(tolerance.below_percent, 2), significant(tolerance.above_percent, 3));
    if tolerance.below_percent == tolerance.above_percent {
        format!("{below} %")
    } else {
        format!("-{below} to +{above} %")
    }
}

/// "N750", "-55 to 125 C".
fn temperature_says(code: TemperatureCode) -> String {
    match code {
        TemperatureCode::Class1 { .. } => code.class1_name().unwrap_or_default(),
        TemperatureCode::Class2 { low_c, high_c, change } => {
            format!(
                "class 2 ceramic ({} over {} to {} C)",
                tolerance_says(change),
                plain_figure(low_c),
                plain_figure(high_c)
            )
        }
    }
}

/// What is customary when no tolerance is marked.
pub(super) fn customary(kind: CapacitorKind) -> Tolerance {
    match kind {
        CapacitorKind::Electrolytic => Tolerance::ELECTROLYTIC,
        CapacitorKind::Mica | CapacitorKind::Ceramic => Tolerance::SMALL,
        CapacitorKind::Paper | CapacitorKind::Film => Tolerance::PAPER,
    }
}

fn assumed_says(assumed: Assumed) -> &'static str {
    match assumed {
        Assumed::DecimalIsMicrofarad => "A figure below 1 without a unit is in microfarads.",
        Assumed::WholeIsMicrofarad => "The whole figure is in microfarads, as on electrolytics.",
        Assumed::WholeIsPicofarad => "The whole figure is in picofarads, as printed plainly on older small parts.",
        Assumed::ThreeFigureCode => "Three figures are a code: two figures and the number of zeros, in picofarads.",
        Assumed::ThousandPicofarad => "The K is the thousand, in picofarads.",
        Assumed::LastIsVolts => "The figure after the value is the working volts.",
        Assumed::AllAreSections => "Every figure is the value of a section; no volts are marked.",
        Assumed::HighestVoltsForAll => {
            "There are not as many volts as sections, so every section is taken to need the highest."
        }
        Assumed::CommonNegative => "The sections share their negative lead, as is usual; check it on the can.",
        // These two belong to resistors.
        Assumed::MIsThousand | Assumed::MIsMillion => "",
    }
}

/// What the whole answer assumes.
pub(super) fn assumed(case: &Case<'_>) -> Vec<String> {
    let mut assumed = Vec::new();
    let Some(mark) = case.readings.first() else {
        return assumed;
    };
    if case.kind_guessed {
        assumed.push(format!("Taken to be {}, by its value and marking.", kind_says(case.kind)));
    }
    if mark.tolerance.is_none() {
        assumed.push(format!(
            "No tolerance marked: {} is customary for {}.",
            tolerance_says(customary(case.kind)),
            kind_says(case.kind)
        ));
    }
    if case.at_line() {
        match (case.line, case.question.line_hz) {
            (None, _) => {
                let [_, harsher] = Line::USUAL;
                assumed.push(format!(
                    "The line is not given: figured for {}, {} Hz, the harsher of the usual ones.",
                    volt(harsher.volt),
                    significant(harsher.hertz, 3)
                ));
            }
            (Some(line), None) => {
                assumed.push(format!("Line frequency taken as {} Hz.", significant(line.hertz, 3)));
            }
            (Some(_), Some(_)) => {}
        }
    } else if case.circuit_v.is_some() {
        assumed
            .push("The volts of the place are taken at the nominal line; a line 10 % high is allowed for.".to_owned());
    }
    if case.question.circuit_v.is_none() && case.circuit_v.is_some() {
        assumed.push(
            "Until the tubes are warm it stands at the crest of the line, as there is no transformer before such a tube."
                .to_owned(),
        );
    }
    if case.chosen().any(|choice| choice.own_low_volts) {
        assumed.push(
            "The volts of the place belong to the high-voltage sections; a low-voltage one keeps its own.".to_owned(),
        );
    }
    if case.role_by_mark {
        assumed.push("Its marking is that of a part made for the line, so it is judged as one.".to_owned());
    }
    assumed
}

/// "a paper capacitor".
pub(super) fn kind_says(kind: CapacitorKind) -> &'static str {
    match kind {
        CapacitorKind::Paper => "a paper capacitor",
        CapacitorKind::Electrolytic => "an electrolytic",
        CapacitorKind::Mica => "a mica capacitor",
        CapacitorKind::Ceramic => "a ceramic capacitor",
        CapacitorKind::Film => "a film capacitor",
    }
}

fn round(percent: f64) -> f64 {
    (percent * 100.0).round() / 100.0
}
