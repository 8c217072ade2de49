//! What a voltage read at the first filter means: is the rectifier weak, the first filter worn, the resistor wrong?

use super::RectifierQuestion;
use super::original::{Kind, Original};
use super::plan::Plan;
use crate::finding::{Finding, Outcome};
use crate::quantity::{milliamp, ohm, significant, volt};
use crate::supply::{Circuit, by_capacitance, by_load, by_resistance, steady};

/// A reading this close to what is expected agrees with it, as a share.
pub(super) const AGREES: f64 = 0.05;
/// The cause whose ripple is nearest the one read is the one, if no farther from it than this factor; others so much farther are as
/// likely still. The load at that reading is never known well.
const MOST_OFF: f64 = 2.0;
const LIKE: f64 = 1.2;
/// Rms of a saw-tooth against its height from peak to peak.
pub(in crate::ask) const SAW_TOOTH: f64 = 3.464;

/// The reading explained; empty when there is none.
pub(super) fn reading(question: &RectifierQuestion, original: Option<&Original<'_>>, plan: &Plan) -> Vec<Finding> {
    let Some(read_v) = question.measured_v else { return Vec::new() };
    let Some((original, [low_v, _, high_v])) = original.zip(plan.original_v) else {
        let says =
            "What this reading means cannot be told without the rectifier that is fitted (`original`) and its drop.";
        return vec![Finding::plain("reading", Outcome::Unknown, says)];
    };
    let Some([_, law, _]) = original.laws else { return Vec::new() };
    let fitted = plan.with_load.with_rectifier(law);
    let expected = if high_v - low_v < 1.0 { volt(low_v) } else { format!("{} to {}", volt(low_v), volt(high_v)) };
    if read_v >= (1.0 - AGREES) * low_v && read_v <= (1.0 + AGREES) * high_v {
        // A twentieth is what meter and load leave open.
        let how = if read_v < low_v || read_v > high_v { "is within 5 % of" } else { "agrees with" };
        let says = format!("{} {how} what {} gives here, {expected}.", volt(read_v), original.words);
        return vec![Finding::figures("reading", Outcome::Ok, expected, volt(read_v), says)];
    }
    let low = read_v < low_v;
    let says = if low {
        format!(
            "{} is less than {} gives, {expected}. Three things do that, and the ripple tells them apart.",
            volt(read_v),
            original.words
        )
    } else {
        format!(
            "{} is more than {} gives, {expected}: the set draws too little, the line is higher, or less resistance is fitted than was said.",
            volt(read_v),
            original.words
        )
    };
    let mut found = vec![Finding::figures("reading", Outcome::Differs, expected, volt(read_v), says)];
    let rectifier = match original.kind {
        Kind::Selenium => "weak stack",
        Kind::Tube | Kind::CombinedTube => "weak tube",
        Kind::Silicon => "wrong resistor",
    };
    let mut causes: Vec<(&str, f64, String)> = Vec::new();
    let mut cause = |check, circuit: Option<Circuit>, says: &dyn Fn(&Circuit) -> String| {
        if let Some(circuit) = circuit
            && let Ok(warm) = steady(&circuit)
        {
            causes.push((check, warm.first_ripple_v / SAW_TOOTH, says(&circuit)));
        }
    };
    if low {
        cause(rectifier, by_resistance(&fitted, read_v), &|circuit| {
            let more_ohm = ohm(circuit.series_ohm.round());
            match original.kind {
                Kind::Silicon => {
                    format!("As if {more_ohm} more were in series: read the resistor, and look for a bad joint.")
                }
                _ => format!(
                    "As if the rectifier had {more_ohm} more than a fresh one: it is worn. This reading is no target."
                ),
            }
        });
        cause("worn first filter", by_capacitance(&fitted, read_v), &|circuit| {
            format!(
                "As if the first filter had only {} uF left: put a good one across it for a moment, discharged, and see.",
                significant(circuit.first_uf, 2)
            )
        });
    }
    let by_load = by_load(&fitted, read_v);
    let share = by_load.as_ref().map_or(1.0, |found| found.1);
    cause(if low { "too much drawn" } else { "too little drawn" }, by_load.map(|found| found.0), &|_| {
        let drawn = milliamp(share * question.load_ma);
        if low {
            format!(
                "As if {drawn} were drawn: a leaky filter capacitor (it gets warm), a leaky coupling capacitor, or an output tube without bias."
            )
        } else {
            format!(
                "As if only {drawn} were drawn: a tube that is cold or spent, or an open screen or cathode resistor."
            )
        }
    });
    // How far the ripple of a cause is from the one read, as a factor.
    let off = |ripple_v: f64| question.measured_ripple_v.map(|read_v| (read_v / ripple_v).max(ripple_v / read_v));
    let least = causes.iter().filter_map(|cause| off(cause.1)).fold(f64::INFINITY, f64::min);
    let ripple = |v: f64| format!("{} V of ripple", significant(v, 2));
    found.extend(causes.into_iter().map(|(check, ripple_v, says)| {
        let (outcome, verdict) = match off(ripple_v) {
            None => (Outcome::Unknown, ""),
            Some(off) if off <= MOST_OFF.min(least * LIKE) => (Outcome::NeedsChange, " The ripple read fits."),
            Some(_) => (Outcome::Ok, " The ripple read does not fit."),
        };
        let read = question.measured_ripple_v.map_or_else(|| "not measured".to_owned(), ripple);
        let says = format!("{says} A meter on AC would read about {} there.{verdict}", ripple(ripple_v));
        Finding::figures(check, outcome, ripple(ripple_v), read, says)
    }));
    found
}
