//! Rectifier and filter: what a supply gives warm, what it does to its parts cold, and which parts to fit.
//!
//! A circuit is solved as a periodic steady state: one cycle is integrated exactly between switching points and the
//! starting volts are corrected by Newton's method until the cycle closes on itself. Nothing is simulated from power-on,
//! so the answer has no residue of a transient. Half-wave, full-wave, bridge and doubler circuits are one network with
//! different figures. The first minute after switching on is walked cycle by cycle until the capacitors are full and then
//! told from steady states, as tubes warm up far more slowly than capacitors charge.
//!
//! Model: an ideal sine behind a fixed resistance, one rectifier, capacitors without loss. A real line is flat-topped, so
//! a real B+ can be a few percent lower.

mod choose;
mod cold;
mod diode;
mod explain;
mod law;
mod linear;
mod load;
mod network;
mod rating;
mod root;
mod start;
mod steady;

pub use choose::{nearest_in_effect, neighbours, series_for};
pub use cold::{ColdStart, cold_start};
pub use diode::{Diode, diode_for, inverse_needed_v};
pub use explain::{by_capacitance, by_load, by_resistance};
pub use load::Load;
pub use rating::{CapacitorRating, filter_ratings};
pub use start::{StartPoint, start_up, warm_share};
pub use steady::{CyclePoint, Steady, cycle, steady};

/// How the rectifiers are wired.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Topology {
    /// One rectifier, a pulse at every other crest.
    HalfWave,
    /// Two rectifiers on a winding with a centre tap; the volts are those of one half.
    CentreTap,
    /// Four rectifiers, two of them in series in every pulse.
    Bridge,
    /// Two capacitors in series, each filled on its own half cycle; the output lies across both.
    FullWaveDoubler {
        /// The second of the two (the first is the circuit's `first_uf`), microfarads, 0.1 to 10 000.
        other_uf: f64,
    },
    /// A capacitor in the line lead, filled on one half cycle and emptied on top of the line into the first filter on the
    /// other; line and output have one lead in common.
    HalfWaveDoubler {
        /// The capacitor in the line lead, microfarads, 0.1 to 10 000.
        series_uf: f64,
    },
}

impl Topology {
    /// How many crests of the line the unloaded output stands at.
    pub fn crests(self) -> f64 {
        match self {
            Self::HalfWave | Self::CentreTap | Self::Bridge => 1.0,
            Self::FullWaveDoubler { .. } | Self::HalfWaveDoubler { .. } => 2.0,
        }
    }
}

/// Ohms in the lead of a rectifier that a transformer brings: half the winding's own (or the whole winding's where it has no
/// tap), and those of the primary times the square of the ratio of volts. Leakage inductance is left out.
pub fn winding_ohm(secondary_ohm: f64, secondary_v: f64, primary_ohm: f64, primary_v: f64) -> f64 {
    secondary_ohm + primary_ohm * (secondary_v / primary_v) * (secondary_v / primary_v)
}

/// A rectifier with capacitor input, with or without a second filter.
#[derive(Debug, Clone, PartialEq)]
pub struct Circuit {
    /// How the rectifiers are wired.
    pub topology: Topology,
    /// Volts rms that feed the rectifier: of the line, or of the unloaded winding (of one half of it with a centre tap), 10 to
    /// 1500.
    pub line_v: f64,
    /// Line frequency in hertz, 16 to 400.
    pub line_hz: f64,
    /// The rectifier.
    pub rectifier: Rectifier,
    /// Resistance of the line (or winding) itself, ohms, 0.01 to 10 000.
    pub source_ohm: f64,
    /// Resistor through which all the pulses go, ohms, 0 to 100 000.
    pub series_ohm: f64,
    /// First filter capacitor, microfarads, 0.1 to 10 000.
    pub first_uf: f64,
    /// What is drawn from the first filter capacitor itself.
    pub first_load: Load,
    /// Resistor and second capacitor behind the first.
    pub filter: Option<Filter>,
}

/// Filter resistor or choke and the capacitor behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Filter {
    /// Ohms between first and second capacitor, those of a choke's winding included, 1 to 1 000 000.
    pub ohm: f64,
    /// Henries of the choke, 0.1 to 1000; 0 for a resistor.
    pub henry: f64,
    /// Second filter capacitor, microfarads, 0.1 to 10 000.
    pub uf: f64,
    /// What is drawn from the second filter capacitor.
    pub load: Load,
}

/// What rectifies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rectifier {
    /// A silicon diode of the 1N4007 kind by its diode law, `i = IS (exp(v / (N VT)) - 1)` with its bulk resistance.
    Silicon,
    /// A silicon diode taken as a fixed drop; at 0.7 V the mean B+ of a radio is about 0.1 V above that of the diode law.
    ConstantDrop {
        /// Forward drop, volts, 0 to 20.
        drop_v: f64,
    },
    /// A selenium stack: each plate a threshold and a resistance.
    Selenium {
        /// Plates in series, 1 to 60.
        plates: f64,
        /// Threshold of one plate, volts, 0.1 to 3.
        plate_v: f64,
        /// Forward resistance of one plate, ohms, 0.1 to 1000.
        plate_ohm: f64,
    },
    /// A vacuum diode by the 3/2-power law of Child and Langmuir through one published point.
    Vacuum {
        /// Published tube drop, volts, 1 to 300.
        drop_v: f64,
        /// The current at that drop, milliamps, 1 to 5000.
        drop_ma: f64,
    },
}

/// Why a circuit has no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// A figure lies outside what is accepted (or is not a number).
    OutOfRange {
        /// The field of the circuit.
        field: &'static str,
        /// What was found.
        found: f64,
        /// The lowest accepted.
        least: f64,
        /// The highest accepted.
        most: f64,
    },
    /// The load asks for more current than the supply can give; its volts would collapse.
    CannotDeliver,
    /// The cycle did not close on itself.
    NotSettled,
    /// Even with no series resistor the target is out of reach.
    TargetTooHigh {
        /// The most the first filter can have, volts.
        most_v: f64,
    },
    /// No resistor gives so low a voltage and still passes what the load draws.
    TargetTooLow,
}

/// Passes a figure on if it is a number within the range, ends included.
fn within(field: &'static str, found: f64, least: f64, most: f64) -> Result<(), Trouble> {
    if (least..=most).contains(&found) { Ok(()) } else { Err(Trouble::OutOfRange { field, found, least, most }) }
}

impl Circuit {
    /// Crest of the line, volts.
    pub fn crest_v(&self) -> f64 {
        self.line_v * std::f64::consts::SQRT_2
    }

    /// The same circuit with another series resistor.
    #[must_use]
    pub fn with_series_ohm(&self, series_ohm: f64) -> Self {
        Self { series_ohm, ..self.clone() }
    }

    /// The same circuit on another line voltage.
    #[must_use]
    pub fn with_line_v(&self, line_v: f64) -> Self {
        Self { line_v, ..self.clone() }
    }

    /// The same circuit with another rectifier.
    #[must_use]
    pub fn with_rectifier(&self, rectifier: Rectifier) -> Self {
        Self { rectifier, ..self.clone() }
    }

    /// Checks every figure against its range.
    ///
    /// # Errors
    /// [`Trouble::OutOfRange`] names the first figure that is not accepted.
    pub fn check(&self) -> Result<(), Trouble> {
        within("line_v", self.line_v, 10.0, 1500.0)?;
        within("line_hz", self.line_hz, 16.0, 400.0)?;
        within("source_ohm", self.source_ohm, 0.01, 1e4)?;
        within("series_ohm", self.series_ohm, 0.0, 1e5)?;
        within("first_uf", self.first_uf, 0.1, 1e4)?;
        match self.topology {
            Topology::FullWaveDoubler { other_uf: uf } | Topology::HalfWaveDoubler { series_uf: uf } => {
                within("doubler_uf", uf, 0.1, 1e4)?;
            }
            Topology::HalfWave | Topology::CentreTap | Topology::Bridge => {}
        }
        self.first_load.check()?;
        if let Some(filter) = &self.filter {
            within("filter.ohm", filter.ohm, 1.0, 1e6)?;
            if filter.henry != 0.0 {
                within("filter.henry", filter.henry, 0.1, 1e3)?;
            }
            within("filter.uf", filter.uf, 0.1, 1e4)?;
            filter.load.check()?;
        }
        self.rectifier.check()
    }
}

impl Rectifier {
    fn check(&self) -> Result<(), Trouble> {
        match *self {
            Self::Silicon => Ok(()),
            Self::ConstantDrop { drop_v } => within("drop_v", drop_v, 0.0, 20.0),
            Self::Selenium { plates, plate_v, plate_ohm } => {
                within("plates", plates, 1.0, 60.0)?;
                within("plate_v", plate_v, 0.1, 3.0)?;
                within("plate_ohm", plate_ohm, 0.1, 1000.0)
            }
            Self::Vacuum { drop_v, drop_ma } => {
                within("drop_v", drop_v, 1.0, 300.0)?;
                within("drop_ma", drop_ma, 1.0, 5000.0)
            }
        }
    }
}
