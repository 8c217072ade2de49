//! Warnings that belong to a capacitor.

use super::{CapacitorKind, CapacitorRole, Case};
use crate::caution::{HOT_CHASSIS, LICENSED_PRACTICE, PCB, STORED_CHARGE};
use crate::finding::Caution;

const CAUTION_LEAKY_COUPLING: Caution = Caution {
    topic: "leaky coupling capacitor",
    says: "A leaky one drives the output tube's grid positive and ruins tube and transformer: change it before the set is \
           run at all.",
    source: "common practice, no source",
};

const CAUTION_OLD_ELECTROLYTIC: Caution = Caution {
    topic: "old electrolytics",
    says: "Disconnect the old section when you fit the new one; left in parallel it still leaks and can burst.",
    source: "restorers' magazine text, 1993",
};

/// From this value up paper comes in oil-filled cans.
const CANNED_PAPER: f64 = 0.5e-6;

/// Volts that bite.
const SHOCKING_V: f64 = 50.0;

/// The warnings, the most urgent first.
pub(super) fn cautions(case: &Case<'_>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if case.at_line() {
        cautions.extend([HOT_CHASSIS, LICENSED_PRACTICE]);
    }
    let volts = case.chosen().flat_map(|choice| &choice.parts).map(|part| part.rated_v).fold(0.0, f64::max);
    if volts > SHOCKING_V && !case.at_line() {
        cautions.push(STORED_CHARGE);
    }
    if case.role == Some(CapacitorRole::Coupling) {
        cautions.push(CAUTION_LEAKY_COUPLING);
    }
    let mark = case.readings.first();
    let largest = mark.map_or(0.0, |mark| mark.sections.iter().map(|section| section.farad).fold(0.0, f64::max));
    match case.kind {
        CapacitorKind::Electrolytic => cautions.push(CAUTION_OLD_ELECTROLYTIC),
        CapacitorKind::Paper if largest >= CANNED_PAPER => cautions.push(PCB),
        _ => {}
    }
    cautions
}
