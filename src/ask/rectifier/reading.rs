//! What a voltage read at the first filter means: is the rectifier weak, the first filter worn, the resistor wrong?

use super::RectifierQuestion;
use super::original::{Kind, Original};
use super::plan::Plan;
use crate::finding::{Finding, Outcome};
use crate::quantity::{milliamp, ohm, significant, volt};
use crate::supply::{Circuit, by_capacitance, by_load, by_resistance, steady};

/// A reading this close to what is expected agrees with it, as a share.
const AGREES: f64 = 0.05;
/// Ripple this close to that of a cause speaks for it, as a factor.
const RIPPLE_LIKE: f64 = 1.35;
/// Rms of a saw-tooth against its height from peak to peak.
const SAW_TOOTH: f64 = 3.464;

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
        let says = format!("{} agrees with what {} gives here, {expected}.", volt(read_v), original.words);
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
    let mut cause = |check: &str, circuit: Option<Circuit>, says: &dyn Fn(&Circuit) -> String| {
        let Some((circuit, warm)) =
            circuit.and_then(|circuit| Some((steady(&circuit).ok()?, circuit)).map(|(w, c)| (c, w)))
        else {
            return;
        };
        let ripple_v = warm.first_ripple_v / SAW_TOOTH;
        let outcome = match question.measured_ripple_v {
            None => Outcome::Unknown,
            Some(read_v) if read_v < RIPPLE_LIKE * ripple_v && ripple_v < RIPPLE_LIKE * read_v => Outcome::NeedsChange,
            Some(_) => Outcome::Ok,
        };
        let verdict = match outcome {
            Outcome::NeedsChange => "The ripple read fits.",
            Outcome::Ok => "The ripple read does not fit.",
            _ => "",
        };
        let ripple = |v: f64| format!("{} V of ripple", significant(v, 2));
        found.push(Finding::figures(
            check,
            outcome,
            ripple(ripple_v),
            question.measured_ripple_v.map_or_else(|| "not measured".to_owned(), ripple),
            format!("{} A meter on AC would read about {} there. {verdict}", says(&circuit), ripple(ripple_v))
                .trim_end()
                .to_owned(),
        ));
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
    found
}
