//! Old capacitors and resistors: what a marking can mean, and what stands in for the part.
//!
//! Two steps that know nothing of each other: reading gives every plausible reading of a marking, the likeliest first, with what
//! was assumed; judging takes one reading and the place in the set and gives figures. Sentences are made in [`crate::ask`].

mod bare_figures;
mod capacitor;
mod capacitor_code;
mod capacitor_dc;
mod capacitor_draft;
mod capacitor_marking;
mod colour;
mod judge;
mod pair;
mod part_code;
mod rating;
mod resistor;
mod resistor_marking;
mod safety;
mod temperature;
mod token;
mod tolerance;

pub use crate::on_sale::{Body, Construction};
pub use capacitor::{
    CapacitorKind, CapacitorPart, CapacitorPlace, CapacitorRole, Choice, Dielectric, Joined, NoPart, choose_capacitor,
    kind_of,
};
pub use capacitor_dc::FIRST_FILTER_MOST;
pub use capacitor_marking::{CapacitorHint, CapacitorMark, MarkedSection, read_capacitor};
pub use colour::{
    Colour, ColourReading, ColourReadings, Family, Field, Impossible, Layout, Mould, Says, Style, Way, read_colours,
    resistor_bands, small_ceramic_pf,
};
pub use judge::{LEAKS_V, Leak, NO_LEAK_V, leak, most_esr_ohm, ripple_v};
pub use pair::{Pair, best_pair};
pub use part_code::part_code;
pub use rating::{Basis, Rating};
pub use resistor::{
    Drift, Heat, HeatFrom, MOST_PLACE_V, ResistorChoice, ResistorPart, ResistorPlace, ResistorRole, choose_resistor,
    drift, heat,
};
pub use resistor_marking::{ResistorMark, ResistorMarks, read_resistor};
pub use safety::{Barrier, Line, SafetyClass, TOUCH_NOTICE_MA, TOUCH_TARGET_MA};
pub use temperature::TemperatureCode;
pub use tolerance::Tolerance;

/// What had to be assumed to read a marking.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Assumed {
    /// A figure below 1 without a unit is in microfarads.
    DecimalIsMicrofarad,
    /// A whole figure without a unit is in microfarads, as on electrolytics.
    WholeIsMicrofarad,
    /// A whole figure without a unit is in picofarads, as on small parts.
    WholeIsPicofarad,
    /// Two figures and the number of zeros, in picofarads.
    ThreeFigureCode,
    /// A K between or after figures is the thousand, in picofarads (an older maker's code).
    ThousandPicofarad,
    /// The figure without a unit after the value is the working volts.
    LastIsVolts,
    /// Every figure is a section; none is volts.
    AllAreSections,
    /// The sections do not match the volts one to one, so each is taken to need the highest.
    HighestVoltsForAll,
    /// The sections share their negative lead, as is usual in one can.
    CommonNegative,
    /// `M` is a thousand, as on drawings of the United States to about 1950.
    MIsThousand,
    /// `M` is a million, as elsewhere and later.
    MIsMillion,
}

/// A text that cannot be read as a marking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// The piece that has no meaning here, as it was written.
    pub found: String,
}

impl Unreadable {
    /// This piece has no meaning in a marking.
    pub(crate) fn new(found: impl Into<String>) -> Self {
        Self { found: found.into() }
    }
}
