//! Whole answers, as a person reads them.

use super::*;

/// An answer as the page would read it out.
fn read_out(question: &ResistorQuestion) -> String {
    let answer = match answer(question) {
        Ok(answer) => answer,
        Err(error) => return error.says,
    };
    let mut lines = vec![format!("{:?}: {}", answer.verdict.mark, answer.verdict.word), answer.verdict.says];
    lines.extend(answer.reasons.iter().map(|finding| {
        let figure = |figure: &Option<String>| figure.clone().unwrap_or_default();
        let (wanted, found) = (figure(&finding.wanted), figure(&finding.found));
        format!("{} {:?}: {wanted} | {found} | {}", finding.check, finding.outcome, finding.says)
    }));
    lines.extend(answer.changes.iter().map(|change| match &change.part {
        Some(part) => {
            format!("do: {} {}, {}, {}, {:?} W", change.says, part.part, part.value, part.rating, part.dissipates_w)
        }
        None => format!("do: {}", change.says),
    }));
    lines.extend(answer.measure.iter().map(|says| format!("measure: {says}")));
    lines.extend(answer.assumed.iter().map(|says| format!("assumed: {says}")));
    lines.extend(answer.cautions.iter().map(|caution| format!("caution: {}", caution.topic)));
    lines.join("\n")
}

fn question(marking: &str, role: Option<ResistorRole>) -> ResistorQuestion {
    ResistorQuestion {
        marking: marking.to_owned(),
        measured_ohm: None,
        role,
        circuit_v: None,
        circuit_ma: None,
        watts: None,
    }
}

#[test]
fn dump() {
    for (m, r, meas, v, ma, w) in [
        ("500k 20%", Some(ResistorRole::GridLeak), Some(560e3), None, None, None),
        ("250k", Some(ResistorRole::PlateLoad), Some(390e3), Some(180.0), None, None),
        ("50M", None, None, None, None, None),
        ("2M", None, None, None, None, None),
        ("2M", Some(ResistorRole::GridLeak), None, None, None, None),
        ("220k", Some(ResistorRole::BusToChassis), None, Some(230.0), None, None),
        ("470k", Some(ResistorRole::BusToChassis), None, None, None, None),
        ("68 ohm 5W", Some(ResistorRole::Surge), None, None, Some(60.0), None),
        ("25 ohm", Some(ResistorRole::Surge), None, None, Some(60.0), None),
        ("150 ohm", Some(ResistorRole::Cathode), Some(120.0), None, Some(50.0), None),
        ("1500", None, None, None, None, None),
        ("1 meg", Some(ResistorRole::PlateLoad), None, Some(400.0), None, None),
        ("25k 10W", None, None, Some(350.0), Some(14.0), None),
        ("220 ohm", Some(ResistorRole::HeaterDropper), None, None, Some(150.0), None),
        ("10k", None, Some(1e6), None, None, Some(1.0)),
        ("zebra", None, None, None, None, None),
    ] {
        let q = ResistorQuestion { measured_ohm: meas, circuit_v: v, circuit_ma: ma, watts: w, ..question(m, r) };
        println!("=== {m} {r:?} {meas:?} {v:?} {ma:?}\n{}\n", read_out(&q));
    }
}
