//! Warnings, each in one place, shown only with answers they belong to.

use crate::finding::Caution;

/// AC/DC sets.
pub const HOT_CHASSIS: Caution = Caution {
    topic: "hot chassis",
    says: "The chassis of an AC/DC set can be at line voltage, whichever way the plug is in and even when it is switched off. Work through an isolation transformer.",
    source: "restorers' safety pages; common practice",
};

/// Filter capacitors.
pub const STORED_CHARGE: Caution = Caution {
    topic: "stored charge",
    says: "Pull the plug and discharge the filter capacitors through a resistor before you touch the wiring; then measure.",
    source: "Cal/OSHA Title 8 section 2893",
};
