//! Whole answers, as a person reads them.

use super::*;
use crate::finding::{Change, Finding};

/// An answer as the page would read it out.
fn read_out(question: &CapacitorQuestion) -> String {
    let answer = match answer(question) {
        Ok(answer) => answer,
        Err(error) => return error.says,
    };
    let mut lines = vec![format!("{:?}: {}", answer.verdict.mark, answer.verdict.word), answer.verdict.says];
    lines.extend(answer.reasons.iter().map(finding_line));
    lines.extend(answer.changes.iter().map(change_line));
    lines.extend(answer.measure.iter().map(|says| format!("measure: {says}")));
    lines.extend(answer.assumed.iter().map(|says| format!("assumed: {says}")));
    lines.extend(answer.cautions.iter().map(|caution| format!("caution: {}", caution.topic)));
    lines.join("\n")
}

fn finding_line(finding: &Finding) -> String {
    let figure = |figure: &Option<String>| figure.clone().unwrap_or_default();
    format!(
        "{} {:?}: {} | {} | {}",
        finding.check,
        finding.outcome,
        figure(&finding.wanted),
        figure(&finding.found),
        finding.says
    )
}

fn change_line(change: &Change) -> String {
    match &change.part {
        Some(part) => format!("do: {} {}, {}, {}", change.says, part.part, part.value, part.rating),
        None => format!("do: {}", change.says),
    }
}

fn question(marking: &str, role: Option<CapacitorRole>) -> CapacitorQuestion {
    CapacitorQuestion { marking: marking.to_owned(), kind: None, role, circuit_v: None, line_v: None, line_hz: None }
}

#[test]
fn dump() {
    for (m, k, r, c, l) in [
        (".02 mfd 400v", None, Some(CapacitorRole::Coupling), None, None),
        (".02 mfd 400v", None, None, None, None),
        (".05 mfd 400v", None, Some(CapacitorRole::LineToChassis), None, Some(117.0)),
        (".05 mfd 400v", None, Some(CapacitorRole::LineToChassis), None, None),
        (".05 mfd 400v", None, Some(CapacitorRole::AcrossLine), None, Some(120.0)),
        (".25", None, Some(CapacitorRole::AcrossLine), None, Some(230.0)),
        ("470", None, None, None, None),
        ("8-8-20 mfd 450-450-25 V", None, Some(CapacitorRole::FirstFilter), Some(360.0), None),
        ("16-525", None, None, None, None),
        ("250 mmf", Some(CapacitorKind::Mica), Some(CapacitorRole::Tuned), None, None),
        (".005 600", None, Some(CapacitorRole::Tone), None, None),
        ("25-25", None, Some(CapacitorRole::CathodeBypass), None, None),
        ("40 mfd", None, Some(CapacitorRole::AcrossLine), None, None),
        ("16 bananas", None, None, None, None),
        (".1 uF 275V~ X2", None, None, None, None),
        ("470JN", None, None, None, None),
        (".01", None, Some(CapacitorRole::AerialIsolation), None, Some(240.0)),
        ("103K 1KV", Some(CapacitorKind::Ceramic), Some(CapacitorRole::Bypass), None, None),
        (".1 mfd 1600 V 2%", None, Some(CapacitorRole::Bypass), Some(300.0), None),
    ] {
        let q = CapacitorQuestion { kind: k, circuit_v: c, line_v: l, ..question(m, r) };
        println!("=== {m} {r:?} {c:?} {l:?}\n{}\n", read_out(&q));
    }
}
