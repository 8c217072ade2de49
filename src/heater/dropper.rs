//! Resistors about a string: the dropper in series, the shunt across a heater of lower current.

use super::{Heater, Trouble, solve, within};
use crate::series::Series;

/// A preferred value may move the current of the string by this share, percent.
const CLOSE_PERCENT: f64 = 2.0;
/// Rated currents within this share of each other are the same, percent: 0.15 A types are all rated 150 mA.
const SAME_PERCENT: f64 = 1.0;

/// The resistor in series that gives every heater its rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dropper {
    /// Ohms at the rated current; zero or negative when the string adds up to the line or more.
    pub ohm: f64,
    /// Heat in it, watts; zero when there is nothing to drop.
    pub dissipates_w: f64,
}

/// The resistor across a heater of lower current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shunt {
    /// Ohms.
    pub ohm: f64,
    /// Heat in it, watts.
    pub dissipates_w: f64,
}

/// The current a string is meant for: the rated current that belongs to most of its volts. None for an empty string.
pub fn string_rated_a(heaters: &[Heater]) -> Option<f64> {
    let volts_of = |rated_a: f64| -> f64 {
        heaters.iter().filter(|heater| same_a(heater.rated_a, rated_a)).map(|heater| heater.rated_v).sum()
    };
    heaters.iter().map(|heater| heater.rated_a).max_by(|left, right| volts_of(*left).total_cmp(&volts_of(*right)))
}

/// Whether two rated currents are one: within 1 percent of each other.
pub fn same_a(left: f64, right: f64) -> bool {
    (left - right).abs() <= SAME_PERCENT / 100.0 * left.max(right)
}

/// The dropper for a string meant for `rated_a`, when every heater has its rated volts.
///
/// # Errors
/// A figure out of range, or no heater.
pub fn dropper(heaters: &[Heater], rated_a: f64, line_v: f64) -> Result<Dropper, Trouble> {
    if heaters.is_empty() {
        return Err(Trouble::NoHeaters);
    }
    within(None, "rated_a", rated_a, 0.005, 10.0)?;
    within(None, "line_v", line_v, 1.0, 1000.0)?;
    for (place, heater) in heaters.iter().enumerate() {
        heater.check(Some(place))?;
    }
    let drop_v = line_v - heaters.iter().map(|heater| heater.rated_v).sum::<f64>();
    Ok(Dropper { ohm: drop_v / rated_a, dissipates_w: (drop_v * rated_a).max(0.0) })
}

/// The capacitor in series that drops what a resistor would, microfarads: `I / (2 pi f sqrt(Vl^2 - Vs^2))`, as its volts stand at right
/// angles to those of the string. Not a number unless the line is above the string.
pub fn capacitor_uf(line_v: f64, line_hz: f64, string_v: f64, amps: f64) -> f64 {
    1e6 * amps / (2.0 * std::f64::consts::PI * line_hz * (line_v * line_v - string_v * string_v).sqrt())
}

/// The current that settles in a string with `series_ohm` behind a capacitor of `uf`.
///
/// # Errors
/// As [`solve`].
pub fn capacitor_current_a(
    heaters: &[Heater],
    series_ohm: f64,
    line_v: f64,
    line_hz: f64,
    uf: f64,
) -> Result<f64, Trouble> {
    within(None, "line_hz", line_hz, 1.0, 1e4)?;
    within(None, "uf", uf, 1e-3, 1e4)?;
    let reactance_ohm = 1e6 / (2.0 * std::f64::consts::PI * line_hz * uf);
    // The string's volts and the current they let through the capacitor close in on each other from both sides.
    let (mut low_v, mut high_v) = (1.0, line_v);
    let mut amps = 0.0;
    for _ in 0..60 {
        let string_v = 0.5 * (low_v + high_v);
        amps = super::current_a(heaters, series_ohm, string_v.max(1.0))?;
        let wanted_v = (string_v * string_v + (amps * reactance_ohm).powi(2)).sqrt();
        if wanted_v > line_v { high_v = string_v } else { low_v = string_v }
    }
    Ok(amps)
}

/// Volts rms behind a diode in series, as half the waves have half the heat.
pub fn half_wave_v(line_v: f64) -> f64 {
    line_v * std::f64::consts::FRAC_1_SQRT_2
}

/// The value to fit for `exact_ohm`: of E12 when that leaves the current of the string within 2 percent, else of E24.
///
/// # Errors
/// A figure out of range, or no heater.
pub fn preferred_ohm(heaters: &[Heater], exact_ohm: f64, line_v: f64) -> Result<f64, Trouble> {
    within(None, "exact_ohm", exact_ohm, 0.1, 1e6)?;
    let wanted_a = solve(heaters, exact_ohm, line_v)?.current_a;
    let coarse_ohm = Series::E12.nearest(exact_ohm).unwrap_or(exact_ohm);
    let found_a = solve(heaters, coarse_ohm, line_v)?.current_a;
    if (found_a / wanted_a - 1.0).abs() <= CLOSE_PERCENT / 100.0 {
        return Ok(coarse_ohm);
    }
    Ok(Series::E24.nearest(exact_ohm).unwrap_or(coarse_ohm))
}

/// The resistor across `heater` that lets it work at its rating in a string of `string_a`. None when the heater takes as
/// much as the string or more: then a resistor across it only makes it worse.
pub fn shunt(heater: &Heater, string_a: f64) -> Option<Shunt> {
    let spare_a = string_a - heater.rated_a;
    if spare_a.is_nan() || spare_a <= 0.0 || same_a(string_a, heater.rated_a) || heater.check(None).is_err() {
        return None;
    }
    Some(Shunt { ohm: heater.rated_v / spare_a, dissipates_w: heater.rated_v * spare_a })
}
