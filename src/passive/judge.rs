//! Judges a capacitor by what a meter says of it: leakage from the grid volts it causes, and the resistance of an electrolytic.

use std::f64::consts::TAU;

/// Positive grid volts, tube out, below which no leakage is seen, and from which the part is to go: an ordinary meter shows no less, and a
/// tenth of a volt of bias already counts (common practice, no source).
pub const NO_LEAK_V: f64 = 0.05;
/// See [`NO_LEAK_V`].
pub const LEAKS_V: f64 = 0.2;

/// Makers allow a new high-voltage electrolytic a loss tangent of 0.25 at 120 Hz (from memory of their sheets).
const LOSS_TANGENT: f64 = 0.25;
const LOSS_HZ: f64 = 120.0;

/// Peak charging current of a half-wave supply in direct currents: 6 to 9 in computed circuits of 40 uF, 50 to 60 mA.
const PULSE_PEAK: f64 = 8.0;

/// Leakage of a coupling capacitor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leak {
    /// Microamps through the grid leak.
    pub microamp: f64,
    /// Its insulation resistance, when the volts on its other end are known, ohms.
    pub insulation_ohm: Option<f64>,
}

/// What flows through a coupling capacitor that makes a grid positive: the grid leak tells, by Ohm's law.
pub fn leak(grid_v: f64, grid_ohm: f64, plate_v: Option<f64>) -> Leak {
    let amp = grid_v / grid_ohm;
    let insulation_ohm =
        plate_v.filter(|plate_v| *plate_v > grid_v && amp > 0.0).map(|plate_v| (plate_v - grid_v) / amp);
    Leak { microamp: amp * 1e6, insulation_ohm }
}

/// The most equivalent series resistance a new electrolytic may have, ohms: tan d / (2 pi f C).
pub fn most_esr_ohm(farad: f64) -> f64 {
    LOSS_TANGENT / (TAU * LOSS_HZ * farad)
}

/// Ripple at a half-wave first filter, volts peak to peak: from its discharge between two pulses, I / (f C), and from the pulses in its
/// resistance.
pub fn ripple_v(farad: f64, esr_ohm: f64, load_ma: f64, line_hz: f64) -> (f64, f64) {
    let amp = load_ma / 1e3;
    (amp / (line_hz * farad), amp * PULSE_PEAK * esr_ohm)
}
