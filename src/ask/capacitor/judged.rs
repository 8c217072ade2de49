//! Keep it, replace it, or measure it out of the circuit: what the meter says of the old part.

use super::readings::{customary, tolerance_says};
use super::{Book, CapacitorKind, CapacitorMark, CapacitorQuestion, CapacitorRole, ErrorAnswer};
use crate::ask::tube;
use crate::book::Function;
use crate::finding::{Finding, Mark, Outcome};
use crate::passive::{FIRST_FILTER_MOST, LEAKS_V, Line, NO_LEAK_V, leak, most_esr_ohm, ripple_v};
use crate::quantity::{farad, milliamp, ohm, percent, significant, volt};
use crate::series::Series;
use crate::supply::{Circuit, Load, Rectifier, Topology, steady};

/// A verdict on the old part.
pub(super) struct Judged {
    pub mark: Mark,
    pub word: &'static str,
    /// Why.
    pub says: String,
    /// It stays in.
    pub keep: bool,
    pub findings: Vec<Finding>,
}

/// Judges the old part; `None` when nothing was measured.
pub(super) fn judge(question: &CapacitorQuestion, mark: &CapacitorMark, kind: CapacitorKind) -> Option<Judged> {
    let section = mark.sections.first()?;
    let mut findings: Vec<Finding> = Vec::new();
    findings.extend(question.grid_v.map(|grid_v| leakage(question, grid_v)));
    findings.extend(question.measured_pf.map(|pf| value(question, mark, kind, pf / 1e12)));
    if let Some(esr_ohm) = question.esr_ohm {
        findings.extend(resistance(question, section.farad, esr_ohm, kind));
    }
    let worst = findings.iter().map(|finding| finding.outcome).max()?;
    let why = |outcome: Outcome| {
        let all: Vec<&str> =
            findings.iter().filter(|finding| finding.outcome == outcome).map(|finding| finding.says.as_str()).collect();
        all.join(" ")
    };
    let bad = findings.iter().any(|finding| finding.outcome == Outcome::NeedsChange);
    let (mark, word, says, keep) = if bad {
        (Mark::Care, "Replace it.", why(Outcome::NeedsChange), false)
    } else if worst == Outcome::Unknown {
        (Mark::Unknown, "Measure it out of the circuit.", why(Outcome::Unknown), false)
    } else {
        let open = match kind {
            CapacitorKind::Paper if question.grid_v.is_none() => {
                "The value says nothing of its leakage, and paper leaks with age: measure that at working volts, or replace it."
            }
            CapacitorKind::Paper => {
                "Paper leaks sooner or later: look again after some hours of use, or replace it now."
            }
            CapacitorKind::Electrolytic if question.esr_ohm.is_none() || question.measured_pf.is_none() => {
                "Value, series resistance and leakage at working volts all count: measure the others too."
            }
            CapacitorKind::Electrolytic => "Its leakage at working volts is not known yet: it should stay cool there.",
            _ => "",
        };
        let says = format!("{} {open}", why(Outcome::Ok)).trim_end().to_owned();
        let (mark, word) = if open.is_empty() { (Mark::Yes, "Leave it in.") } else { (Mark::Care, "Good so far.") };
        (mark, word, says, true)
    };
    Some(Judged { mark, word, says, keep, findings })
}

fn leakage(question: &CapacitorQuestion, grid_v: f64) -> Finding {
    let outcome = match grid_v {
        _ if question.in_circuit == Some(true) && grid_v >= NO_LEAK_V => Outcome::Unknown,
        _ if grid_v < NO_LEAK_V => Outcome::Ok,
        _ if grid_v < LEAKS_V => Outcome::Unknown,
        _ => Outcome::NeedsChange,
    };
    let flows = question.grid_ohm.map_or(String::new(), |grid_ohm| {
        let leak = leak(grid_v, grid_ohm, question.circuit_v);
        let insulation =
            leak.insulation_ohm.map(|insulation| format!(", an insulation of {}", ohm(insulation))).unwrap_or_default();
        format!("; through the {} grid leak it is {} uA{insulation}", ohm(grid_ohm), significant(leak.microamp, 2))
    });
    let says = match outcome {
        Outcome::Ok => "No leakage is seen at the grid.".to_owned(),
        Outcome::Unknown if question.in_circuit == Some(true) => format!(
            "{} at the grid can come from the capacitor or from the tube: pull the tube, or lift the grid end, and measure again.",
            volt(grid_v)
        ),
        Outcome::Unknown => {
            format!("{} at the grid is at the edge of what a meter shows: measure again, warm.", volt(grid_v))
        }
        _ => format!("It leaks: {} at the grid, which shifts the bias by as much{flows}.", volt(grid_v)),
    };
    let wanted = format!("below {}", volt(NO_LEAK_V));
    Finding::figures("leakage", outcome, wanted, volt(grid_v), says)
}

fn value(question: &CapacitorQuestion, mark: &CapacitorMark, kind: CapacitorKind, measured: f64) -> Finding {
    let old = mark.sections.first().map_or(0.0, |section| section.farad);
    let tolerance = mark.tolerance.unwrap_or_else(|| customary(kind));
    let difference = (measured - old) / old * 100.0;
    let allowed = tolerance_says(tolerance);
    let (outcome, says) = if question.in_circuit == Some(true) {
        let says =
            "Other parts lie across it in the circuit, and a meter counts them in: lift one end and measure again.";
        (Outcome::Unknown, says.to_owned())
    } else if tolerance.allows(difference) {
        (Outcome::Ok, format!("{} is inside its {allowed}.", farad(measured)))
    } else if difference > 0.0 && kind == CapacitorKind::Paper {
        (Outcome::NeedsChange, format!("{} is {}: a leaky one reads high.", farad(measured), percent(difference)))
    } else if difference > 0.0 && kind == CapacitorKind::Electrolytic {
        let says = format!("{} is {}: many meters read a leaky one high.", farad(measured), percent(difference));
        (Outcome::NeedsChange, says)
    } else {
        let says = format!("{} is {}, outside its {allowed}.", farad(measured), percent(difference));
        (Outcome::NeedsChange, says)
    };
    Finding::figures("measured", outcome, format!("{}, {allowed}", farad(old)), farad(measured), says)
}

/// Series resistance, and at the first filter the ripple it makes.
fn resistance(question: &CapacitorQuestion, old: f64, esr_ohm: f64, kind: CapacitorKind) -> Vec<Finding> {
    if kind != CapacitorKind::Electrolytic {
        let says = "Series resistance tells of electrolytics; of this part leakage and value do.";
        return vec![Finding::plain("series resistance", Outcome::Unknown, says)];
    }
    let most = most_esr_ohm(old);
    let (outcome, says) = if esr_ohm > most {
        (Outcome::NeedsChange, format!("{} in series is more than any new one of this value may have.", ohm(esr_ohm)))
    } else if esr_ohm > most / 3.0 {
        let says = format!(
            "{} in series: at 120 Hz that passes, but a meter that works at 100 kHz should show far less.",
            ohm(esr_ohm)
        );
        (Outcome::Unknown, says)
    } else {
        (Outcome::Ok, format!("{} in series is what a good one has.", ohm(esr_ohm)))
    };
    let mut findings = vec![Finding::figures(
        "series resistance",
        outcome,
        format!("up to {} at 120 Hz", ohm(most)),
        ohm(esr_ohm),
        says,
    )];
    if let (Some(load_ma), Some(CapacitorRole::FirstFilter)) = (question.load_ma, question.role) {
        let line_v = question.line_v.unwrap_or(120.0);
        let line_hz = question.line_hz.unwrap_or_else(|| Line::usual_hertz(line_v));
        let (by_value, by_esr) = ripple_v(old, esr_ohm, load_ma, line_hz);
        let outcome = if by_esr > by_value { Outcome::NeedsChange } else { Outcome::Ok };
        let says = format!(
            "At {} half-wave its value alone gives about {} of ripple, peak to peak; its resistance adds about {}.",
            milliamp(load_ma),
            volt(by_value),
            volt(by_esr)
        );
        findings.push(Finding::figures("ripple", outcome, volt(by_value), volt(by_value + by_esr), says));
    }
    findings
}

/// What the rectifier tube says of a filter behind it.
#[derive(Default)]
pub(super) struct AfterRectifier {
    /// The most it allows as first filter, farads, and why.
    pub most: Option<(f64, String)>,
    /// Volts before the tubes draw: the crest of the line, after a single plate at the line itself.
    pub cold_v: Option<f64>,
}

/// Looks up the rectifier tube, if one is named.
///
/// The book's own figure where it has one. Else, for a half-wave tube with its drop and peak current, the largest E6 value with which the peak
/// current on a line 10 % high stays below the rating, where that is less than [`FIRST_FILTER_MOST`] allows.
pub(super) fn rectifier(book: &Book, question: &CapacitorQuestion, old_uf: f64) -> Result<AfterRectifier, ErrorAnswer> {
    let Some(wanted) = &question.rectifier else { return Ok(AfterRectifier::default()) };
    let tube = tube::find(book, "rectifier", wanted)?.tube;
    let units: Vec<_> = tube.units.iter().filter(|unit| unit.function == Function::Rectifier).collect();
    let Some(unit) = units.first() else {
        let accepted = "a rectifier tube of the book";
        return Err(ErrorAnswer::new("rectifier", format!("{}, which is none", tube.name), accepted));
    };
    let figures = &unit.figures;
    let filter = matches!(question.role, Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter));
    // One plate, and a heater for a string: it rectifies the line itself.
    let at_line = filter && units.len() == 1 && tube.figures.heater_v.is_some_and(|heater_v| heater_v > 20.0);
    let cold_v = question.line_v.filter(|_| at_line).map(|line_v| line_v * std::f64::consts::SQRT_2);
    if let Some(most_uf) = figures.first_filter_max_uf {
        let says = format!("The book gives {} as the most after the {}.", farad(most_uf / 1e6), tube.name);
        return Ok(AfterRectifier { most: Some((most_uf / 1e6, says)), cold_v });
    }
    let (Some(line_v), Some(load_ma), Some(drop_v), Some(drop_ma), Some(peak_ma), 1) =
        (question.line_v, question.load_ma, figures.drop_v, figures.drop_ma, figures.plate_peak_max_ma, units.len())
    else {
        return Ok(AfterRectifier { most: None, cold_v });
    };
    let peak_of = |first_uf: f64| {
        let circuit = Circuit {
            topology: Topology::HalfWave,
            line_v: line_v * 1.1,
            line_hz: question.line_hz.unwrap_or_else(|| Line::usual_hertz(line_v)),
            rectifier: Rectifier::Vacuum { drop_v, drop_ma },
            source_ohm: 5.0,
            series_ohm: figures.supply_min_ohm.unwrap_or(0.0),
            first_uf,
            first_load: Load::Current { ma: load_ma },
            filter: None,
        };
        steady(&circuit).ok().map(|steady| steady.peak_a * 1e3)
    };
    // The peak tells when less has to do; that more would do, it does not tell: switched on hot, a tube passes far more.
    let mut most: Option<(f64, f64)> = None;
    let mut first_uf = 1.0;
    let bounded = loop {
        // Too small a value cannot carry the load at all, and says nothing of the peaks.
        match peak_of(first_uf) {
            Some(peak) if peak > peak_ma => {
                most = most.or(Some((first_uf, peak)));
                break true;
            }
            Some(peak) => most = Some((first_uf, peak)),
            None => {}
        }
        first_uf = Series::E6.next_above(first_uf).unwrap_or(f64::MAX);
        if first_uf > old_uf * FIRST_FILTER_MOST {
            break false;
        }
    };
    let most = most.filter(|_| bounded);
    let most = most.map(|(most_uf, peak)| {
        let says = format!(
            "With {} the {} passes peaks of {} on a line 10 % high, and {} is its rating; half-wave, computed.",
            farad(most_uf / 1e6),
            tube.name,
            milliamp(peak),
            milliamp(peak_ma)
        );
        (most_uf / 1e6, says)
    });
    Ok(AfterRectifier { most, cold_v })
}
