//! What the stage does with the candidate: ratings, gain and B+, capacitances, bias.

use std::fmt::Write;

use super::figure;
use crate::book::UnitFigures;
use crate::finding::{Finding, Outcome};
use crate::quantity::{significant, tenth, whole};
use crate::swap::behaviour::GainOf;
use crate::swap::ratings::RatingWhy;
use crate::swap::{CapacitanceFact, GainFact, PointFact, RatingFact};

pub(super) fn rating(fact: &RatingFact, outcome: Outcome) -> Finding {
    let Some(column) = UnitFigures::COLUMNS.iter().find(|column| column.0 == fact.column) else {
        return Finding::plain("rating", outcome, "Its ratings are enough.");
    };
    let (_, words, unit, ..) = *column;
    let text = |value: Option<f64>| value.map_or("not known".to_owned(), |value| format!("{} {unit}", figure(value)));
    let whose = if fact.from_set { "the set asks for" } else { "the original stands" };
    let says = match outcome {
        Outcome::Fails if fact.why == RatingWhy::WeakCathode => {
            "Its cathode is less than half the size, by the watts of its heater: it cannot give the original's current (rating).".to_owned()
        }
        _ if fact.why == RatingWhy::Pulses => {
            "The book gives the original no load and no output (rating): it may be one that deflects a picture tube, with kilovolts of pulses on its plate, which an ordinary output tube does not stand.".to_owned()
        }
        Outcome::Fails if fact.why == RatingWhy::LowPlate => {
            "The original works with 12 V on its plate (rating); an ordinary tube hardly conducts there.".to_owned()
        }
        Outcome::Ok if fact.higher => {
            format!("Its rating is higher: {words} {} against {}.", text(fact.other), text(fact.own))
        }
        Outcome::Ok => "Its ratings are enough.".to_owned(),
        Outcome::Unknown => format!("The book does not know the rating of both: {words}."),
        Outcome::NeedsChange => format!(
            "It charges at most {} (rating), and the set has {} behind it.",
            text(fact.other),
            text(fact.own)
        ),
        Outcome::Differs => {
            let (own, other) = (fact.own.unwrap_or_default(), fact.other.unwrap_or_default());
            // Design-centre and design-maximum ratings of one tube lie up to about 15 % apart: common practice, no source.
            let (how, so) = if other >= 0.85 * own {
                ("a little lower", "Data books differ by as much; do not run it at the limit.")
            } else {
                ("lower", "The original's usual working point is within it; a set that drives the original harder is not: measure.")
            };
            format!("Its rating is {how}: {words} {} where {whose} {}. {so}", text(fact.other), text(fact.own))
        }
        _ if fact.column == "typ_plate_v" => {
            format!("It regulates at {} and not at {}.", text(fact.other), text(fact.own))
        }
        Outcome::Fails => format!("Its rating is too low: {words} {} where {whose} {}.", text(fact.other), text(fact.own)),
    };
    Finding::figures("rating", outcome, text(fact.own), text(fact.other), says)
}

pub(super) fn gain(fact: &GainFact, outcome: Outcome) -> Finding {
    let (words, unit) = match fact.of {
        GainOf::Nothing => return Finding::plain("gain", outcome, "Nothing here amplifies."),
        GainOf::Mu => ("amplification factor", ""),
        GainOf::Gm => ("transconductance", " mS"),
        GainOf::Conversion => ("conversion transconductance", " mS"),
        GainOf::Load => ("load", " kohm"),
        GainOf::Bias => ("grid bias", " V"),
        GainOf::Drop => ("tube drop", " V"),
    };
    let text = |value: Option<f64>| value.map_or("not known".to_owned(), |value| format!("{}{unit}", figure(value)));
    let mut says = match (outcome, fact.of, fact.db) {
        (Outcome::Unknown | Outcome::NeedsChange, GainOf::Drop, _) if fact.own.and(fact.other).is_none() => {
            "The book does not know the drop of both, so B+ may come out higher or lower.".to_owned()
        }
        (Outcome::Unknown, _, _) => {
            let at = if matches!(fact.of, GainOf::Load | GainOf::Bias) { " at like plate volts" } else { "" };
            format!("The book does not know the {words} of both{at}, so gain or output may change.")
        }
        (_, GainOf::Drop, _) => match fact.raised_v() {
            None => "B+ stays as it was.".to_owned(),
            Some(by) => format!(
                "B+ comes out about {} V {}.",
                significant(by.abs(), 2),
                if by > 0.0 { "higher: look at the filter capacitors' rating" } else { "lower" }
            ),
        },
        (Outcome::Fails, ..) => "The original amplifies high frequencies, and the candidate has less than half its transconductance: in a tuner next to nothing would come through. An audio stage may bear it once its load is known.".to_owned(),
        (_, GainOf::Load | GainOf::Bias, _) if outcome == Outcome::Ok => "Load and bias suit it.".to_owned(),
        (_, GainOf::Load | GainOf::Bias, _) => format!(
            "It wants another {words}: less output or more distortion than before; measure the cathode volts and plate current."
        ),
        (_, GainOf::Conversion, Some(db)) if db.abs() >= 0.1 => {
            format!(
                "The converter's gain becomes about {} dB {}.",
                tenth(db.abs()),
                if db > 0.0 { "higher" } else { "lower" }
            )
        }
        (_, GainOf::Gm, Some(db)) if db > 6.0 => format!(
            "The stage gain becomes about {} dB higher: a high-frequency stage may break into oscillation.",
            tenth(db)
        ),
        (_, _, Some(db)) if db.abs() < 0.1 => "The gain stays the same.".to_owned(),
        (_, _, Some(db)) => {
            format!(
                "The stage gain becomes about {} dB {}.",
                tenth(db.abs()),
                if db > 0.0 { "higher" } else { "lower" }
            )
        }
        _ => format!("The {words} differs."),
    };
    if let Some((own_w, other_w, load_kohm)) = fact.output.filter(|(own, other, _)| (other / own - 1.0).abs() > 0.1) {
        let _ = write!(
            says,
            " Into {} kohm it gives about {} W, where the original gives {} W.",
            figure(load_kohm),
            significant(other_w, 2),
            significant(own_w, 2)
        );
    }
    let check = if fact.of == GainOf::Drop { "B+" } else { "gain" };
    Finding::figures(check, outcome, text(fact.own), text(fact.other), says)
}

pub(super) fn capacitance(fact: &CapacitanceFact, outcome: Outcome) -> Finding {
    let text = |pf: Option<f64>| pf.map_or("not known".to_owned(), |pf| format!("{} pF", figure(pf)));
    let says = match fact.moved {
        Some((khz, at_khz, across_pf)) if fact.noticed_khz().is_some() => format!(
            "Its {} capacitance moves a circuit tuned to {} kHz with {} pF by {} kHz {}, until the trimmer is touched up.",
            if fact.output { "output" } else { "input" },
            figure(at_khz),
            figure(across_pf),
            significant(khz.abs(), 2),
            if khz < 0.0 { "down" } else { "up" }
        ),
        Some(_) if outcome == Outcome::Ok => "It hardly moves a tuned circuit.".to_owned(),
        None if outcome == Outcome::Ok => "Nothing here is tuned.".to_owned(),
        _ => "The book does not know every capacitance of both: look whether the trimmers want a touch.".to_owned(),
    };
    Finding::figures("capacitance", outcome, text(fact.own_pf), text(fact.other_pf), says)
}

pub(super) fn point(fact: &PointFact, outcome: Outcome) -> Finding {
    let text = |ma: Option<f64>| ma.map_or("not known".to_owned(), |ma| format!("{} mA", significant(ma, 2)));
    let watts = fact.watts.map_or(String::new(), |(watts, limit, screen)| {
        format!(
            "{} {} W, where {} W are allowed",
            if screen { "its screen takes" } else { "its plate takes" },
            significant(watts, 2),
            figure(limit)
        )
    });
    let over = fact.watts.is_some_and(|(watts, limit, _)| watts > limit);
    let says = match outcome {
        Outcome::Unknown => "The book lacks the typical points, so what it draws under the original's bias cannot be told.".to_owned(),
        Outcome::NeedsChange if over => format!("Under the original's bias and volts {watts}: its bias has to change first."),
        Outcome::NeedsChange if fact.other_ma < fact.own_ma => format!(
            "Under the original's bias it is all but cut off: {} where the original draws {}. Its bias has to change first.",
            text(fact.other_ma),
            text(fact.own_ma)
        ),
        Outcome::NeedsChange => "Under the original's bias it draws far more current than the stage, its transformer and the supply are made for.".to_owned(),
        Outcome::Differs if over => format!(
            "Under the original's bias and handbook volts {watts}: measure, and keep plate and screen volts at its own figures."
        ),
        Outcome::Differs => format!(
            "Under the original's bias it draws {} where the original draws {}.",
            text(fact.other_ma),
            text(fact.own_ma)
        ),
        _ if fact.plate_v.is_some() => {
            let (own_v, other_v) = fact.plate_v.unwrap_or_default();
            format!("Under the original's bias and load its plate settles at about {} V, the original's at {} V.", whole(other_v), whole(own_v))
        }
        _ if fact.own_ma.is_none() => "Nothing here hangs on its bias, or the stage bounds its current.".to_owned(),
        _ => "Under the original's bias it draws about the same.".to_owned(),
    };
    Finding::figures("bias", outcome, text(fact.own_ma), text(fact.other_ma), says)
}
