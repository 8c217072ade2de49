//! Warnings that belong to a capacitor.

use super::{CapacitorKind, CapacitorRole, Case};
use crate::finding::Caution;

const CAUTION_STORED_CHARGE: Caution = Caution {
    topic: "stored charge",
    says: "Pull the plug, discharge the filter capacitors through a resistor of 2 to 20 kohm, then check with a meter that \
           they are below 50 V, before you touch anything.",
    source: "Cal/OSHA Title 8 section 2893 (50 V within 5 minutes; do not rely on internal resistors)",
};

const CAUTION_HOT_CHASSIS: Caution = Caution {
    topic: "hot chassis",
    says: "In an AC/DC set the chassis or the common bus can be at line potential whichever way the plug goes in, also with \
           the set switched off. Work behind an isolation transformer; an autotransformer does not isolate.",
    source: "restorers' safety pages",
};

const CAUTION_LICENCE: Caution = Caution {
    topic: "local rules",
    says: "Work at the line side may need a licensed person where you live, and an altered set loses its listing. No page \
           can certify a repair.",
    source: "NFPA 70, IEC 60364, national law (from memory)",
};

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

const CAUTION_PCB: Caution = Caution {
    topic: "PCB oil",
    says: "A sealed metal can with oil made before 1979 may hold PCB. Do not open, drill or heat it; gloves, and the \
           hazardous-waste route.",
    source: "EPA, June 1979 (44 FR 31514); Connecticut DEEP",
};

/// From this value up paper comes in oil-filled cans.
const CANNED_PAPER: f64 = 0.5e-6;

/// Volts that bite.
const SHOCKING_V: f64 = 50.0;

/// The warnings, the most urgent first.
pub(super) fn cautions(case: &Case<'_>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if case.at_line() {
        cautions.extend([CAUTION_HOT_CHASSIS, CAUTION_LICENCE]);
    }
    let volts = case.chosen().flat_map(|choice| &choice.parts).map(|part| part.rated_v).fold(0.0, f64::max);
    if volts > SHOCKING_V && !case.at_line() {
        cautions.push(CAUTION_STORED_CHARGE);
    }
    if case.role == Some(CapacitorRole::Coupling) {
        cautions.push(CAUTION_LEAKY_COUPLING);
    }
    let mark = case.readings.first();
    let largest = mark.map_or(0.0, |mark| mark.sections.iter().map(|section| section.farad).fold(0.0, f64::max));
    match case.kind {
        CapacitorKind::Electrolytic => cautions.push(CAUTION_OLD_ELECTROLYTIC),
        CapacitorKind::Paper if largest >= CANNED_PAPER => cautions.push(CAUTION_PCB),
        _ => {}
    }
    cautions
}
