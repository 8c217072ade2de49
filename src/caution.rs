//! Warnings, each in one place, shown only with answers they belong to.
//!
//! Every one says what to know and what to do, in a sentence or two, and where it comes from. None says that anything is
//! safe: a page can only list checks.

use crate::finding::Caution;

/// AC/DC sets.
pub const HOT_CHASSIS: Caution = Caution {
    topic: "hot chassis",
    says: "The chassis of an AC/DC set can be at line voltage, whichever way the plug is in and even when it is switched off. Work through an isolation transformer.",
    source: "restorers' safety pages; common practice",
};

/// What isolates and what does not.
pub const ISOLATION: Caution = Caution {
    topic: "isolation transformer",
    says: "Only a 1:1 transformer with a separate winding, of more watts than the set, isolates. A variable autotransformer or a voltage converter does not, and neither does a series lamp.",
    source: "restorers' safety pages; common practice",
};

/// Portables that run their filaments from the line.
pub const FILAMENT_STRING: Caution = Caution {
    topic: "all filaments at once",
    says: "In a portable with its filaments in series never pull or plug a tube while the set is on or its capacitors are charged: the filter capacitor empties through the string and burns out every filament at once. Before the first power set the string's current with resistors in place of the tubes.",
    source: "restorers' pages on portables; common practice",
};

/// Filter capacitors.
pub const STORED_CHARGE: Caution = Caution {
    topic: "stored charge",
    says: "Pull the plug and discharge the filter capacitors through a resistor before you touch the wiring; then measure.",
    source: "Cal/OSHA Title 8 section 2893",
};

/// First power after work on the supply.
pub const DIM_BULB: Caution = Caution {
    topic: "first start",
    says: "Give the first power through a lamp of 25 to 60 W in series. If it stays bright, switch off and look for the fault.",
    source: "common practice, no source",
};

/// A shorted diode puts line voltage on the electrolytics.
pub const LINE_FUSE: Caution = Caution {
    topic: "line fuse",
    says: "A silicon diode fails as a short, and then the filter capacitors get the bare line. Fit a slow fuse in the line lead: about 1 A for a small set on 120 V, 0.5 A on 230 V.",
    source: "common practice, no source",
};

/// Selenium stacks.
pub const SELENIUM_FUMES: Caution = Caution {
    topic: "selenium",
    says: "A burning selenium stack gives off poisonous fumes with a foul smell: switch off, air the room, stay out. Do not sand or scrape the plates.",
    source: "NIOSH Publication 81-123, guideline 0336 (hydrogen selenide)",
};

/// Old resistance cords and heat shields.
pub const ASBESTOS: Caution = Caution {
    topic: "asbestos",
    says: "The fluff in a resistance cord and old heat shields can be asbestos: wet it, bag it, do not cut or sand it.",
    source: "restorers' pages on line-cord resistors",
};

/// Resistance cords.
pub const RESISTANCE_CORD: Caution = Caution {
    topic: "resistance cord",
    says: "In a cord with three wires one wire is the dropper and is warm by design. Do not shorten it, and never put a plain cord in its place without a rated dropper in the set.",
    source: "restorers' pages on line-cord resistors",
};

/// Filament strings on B+.
pub const FILAMENTS: Caution = Caution {
    topic: "filaments",
    says: "The filaments of a portable burn out at once on too much B+, all of them. First set the current with a resistor of the string's ohms in their place, then put the tubes in; and never pull one while the set is on.",
    source: "common practice, no source",
};

/// Old oil-filled capacitors.
pub const PCB: Caution = Caution {
    topic: "PCB",
    says: "An oil-filled capacitor made before 1979 may hold PCB unless it says otherwise: wear gloves, do not heat or open it, take it to hazardous waste.",
    source: "EPA, PCB ban rule of 1979 (44 FR 31514)",
};

/// Droppers and surge resistors.
pub const HOT_RESISTOR: Caution = Caution {
    topic: "hot resistor",
    says: "A power resistor gets hot enough to burn skin and melt wax. Stand it off from wax capacitors, plastic and the cabinet, on its own tie points, with air around it.",
    source: "common practice, no source",
};

/// What this program cannot know.
pub const LICENSED_PRACTICE: Caution = Caution {
    topic: "rules",
    says: "Local electrical codes and the rules for licensed work come before anything said here; a set altered for use by others may have to be tested.",
    source: "NFPA 70, IEC 60364 and national law",
};
