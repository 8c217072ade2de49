//! Series heater strings: which current settles, and how far from its rating that leaves every heater.
//!
//! A hot heater takes `I = I0 (V/V0)^n`. One source gives 5 percent more volts as about 3 percent more amperes near the
//! rating, n = 0.61; the theory of a radiating tungsten wire gives 0.54 to 0.61. Here n = 0.6, good to perhaps 0.05. With
//! n = 1 everything reduces to Ohm's law. The law holds near the rating; beyond 150 percent of the rated volts a heater
//! fails, and the figure says no more than that.

mod dropper;
mod warm;

pub use dropper::{
    Dropper, Shunt, capacitor_current_a, capacitor_uf, dropper, half_wave_v, preferred_ohm, same_a, shunt,
    string_rated_a,
};
pub use warm::{CONTROLLED_S, Mass, Part, WarmPoint, warm_up};

/// Above this share of its rated volts a heater fails, percent.
const FAILS_PERCENT: f64 = 150.0;

/// One heater of a string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heater {
    /// Rated volts, 0.5 to 300.
    pub rated_v: f64,
    /// Rated amperes, 0.005 to 10.
    pub rated_a: f64,
    /// Exponent n of the heater law, 0.3 to 1.
    pub exponent: f64,
    /// Resistor soldered across it, ohms, 0.1 to 1 000 000.
    pub shunt_ohm: Option<f64>,
    /// Current that joins the string's in this heater, amperes, 0 to 1: plate and screen current of battery tubes that finds its way
    /// through the filaments.
    pub added_a: f64,
}

/// A heater at the current that settles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeaterState {
    /// Volts across it.
    pub v: f64,
    /// Amperes through the heater itself, without its shunt.
    pub a: f64,
    /// Volts as a percentage of its rating.
    pub percent: f64,
    /// Power as a percentage of its rating.
    pub power_percent: f64,
}

/// A string at the current that settles.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// Amperes in the string.
    pub current_a: f64,
    /// Each heater, in the order given.
    pub heaters: Vec<HeaterState>,
    /// Volts across the resistance in series.
    pub series_v: f64,
    /// Heat in the resistance in series, watts.
    pub series_w: f64,
}

/// Why a string has no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// The string has no heater in it.
    NoHeaters,
    /// A figure lies outside what is accepted (or is not a number).
    OutOfRange {
        /// Which heater, counted from zero; none for a figure of the whole string.
        heater: Option<usize>,
        /// The field.
        field: &'static str,
        /// What was found.
        found: f64,
        /// The lowest accepted.
        least: f64,
        /// The highest accepted.
        most: f64,
    },
}

impl Heater {
    /// Exponent of the heater law where a row of the book says nothing else.
    pub const EXPONENT: f64 = 0.6;

    /// A heater with the usual exponent and nothing across it.
    pub fn new(rated_v: f64, rated_a: f64) -> Self {
        Self { rated_v, rated_a, exponent: Self::EXPONENT, shunt_ohm: None, added_a: 0.0 }
    }

    /// The same heater with a resistor across it.
    #[must_use]
    pub fn with_shunt(self, shunt_ohm: f64) -> Self {
        Self { shunt_ohm: Some(shunt_ohm), ..self }
    }

    fn check(&self, heater: Option<usize>) -> Result<(), Trouble> {
        within(heater, "rated_v", self.rated_v, 0.5, 300.0)?;
        within(heater, "rated_a", self.rated_a, 0.005, 10.0)?;
        within(heater, "exponent", self.exponent, 0.3, 1.0)?;
        within(heater, "added_a", self.added_a, 0.0, 1.0)?;
        self.shunt_ohm.map_or(Ok(()), |ohm| within(heater, "shunt_ohm", ohm, 0.1, 1e6))
    }

    /// Volts across heater and shunt when `current_a` flows in the string, and the slope dV/dI in ohms.
    fn volts(&self, current_a: f64) -> (f64, f64) {
        let current_a = current_a + self.added_a;
        if current_a <= 0.0 {
            return (0.0, 0.0);
        }
        let bare_v = self.rated_v * (current_a / self.rated_a).powf(1.0 / self.exponent);
        let Some(shunt_ohm) = self.shunt_ohm else { return (bare_v, bare_v / current_a / self.exponent) };
        // In units of heater current h: h + V(h) / shunt = current. The left side bends upward, so Newton from above (all
        // current in the heater, or all in the shunt) falls onto the root without passing it.
        let shunt_only_a = self.rated_a * (current_a * shunt_ohm / self.rated_v).powf(self.exponent);
        let mut heater_a = current_a.min(shunt_only_a);
        let mut at = (0.0, 0.0);
        for _ in 0..32 {
            let v = self.rated_v * (heater_a / self.rated_a).powf(1.0 / self.exponent);
            let slope_ohm = v / heater_a / self.exponent;
            at = (v, slope_ohm / (1.0 + slope_ohm / shunt_ohm));
            let step = (heater_a + v / shunt_ohm - current_a) / (1.0 + slope_ohm / shunt_ohm);
            heater_a -= step;
            if step.abs() <= 1e-12 * heater_a {
                break;
            }
        }
        at
    }

    /// The heater when `current_a` (as [`current_a`] gives it) flows in the string.
    pub fn at(&self, current_a: f64) -> HeaterState {
        let (v, _) = self.volts(current_a);
        let a = current_a + self.added_a - self.shunt_ohm.map_or(0.0, |ohm| v / ohm);
        HeaterState {
            v,
            a,
            percent: 100.0 * v / self.rated_v,
            power_percent: 100.0 * v * a / (self.rated_v * self.rated_a),
        }
    }
}

impl HeaterState {
    /// Whether the heater fails, so that the figures mean nothing else.
    pub fn fails(&self) -> bool {
        self.percent > FAILS_PERCENT
    }
}

/// The current that settles in a string across `line_v` (1 to 1000 volts rms) with `series_ohm` (0 to 1 000 000) in series.
/// It allocates nothing.
///
/// # Errors
/// No heater at all, or a figure out of range.
pub fn current_a(heaters: &[Heater], series_ohm: f64, line_v: f64) -> Result<f64, Trouble> {
    if heaters.is_empty() {
        return Err(Trouble::NoHeaters);
    }
    within(None, "series_ohm", series_ohm, 0.0, 1e6)?;
    within(None, "line_v", line_v, 1.0, 1000.0)?;
    for (place, heater) in heaters.iter().enumerate() {
        heater.check(Some(place))?;
    }
    // The volts of the string bend upward with the current. From any start Newton's first step lands at or above the root,
    // and from there it falls onto it.
    let mut current_a = heaters.iter().map(|heater| heater.rated_a).fold(f64::INFINITY, f64::min);
    for _ in 0..64 {
        let (mut string_v, mut slope_ohm) = (series_ohm * current_a, series_ohm);
        for heater in heaters {
            let (v, ohm) = heater.volts(current_a);
            string_v += v;
            slope_ohm += ohm;
        }
        let step = (string_v - line_v) / slope_ohm;
        current_a -= step;
        if step.abs() <= 1e-10 * current_a {
            break;
        }
    }
    Ok(current_a)
}

/// The string at the current that settles; arguments as in [`current_a`].
///
/// # Errors
/// As [`current_a`].
pub fn solve(heaters: &[Heater], series_ohm: f64, line_v: f64) -> Result<Solved, Trouble> {
    let current_a = current_a(heaters, series_ohm, line_v)?;
    Ok(Solved {
        current_a,
        heaters: heaters.iter().map(|heater| heater.at(current_a)).collect(),
        series_v: series_ohm * current_a,
        series_w: series_ohm * current_a * current_a,
    })
}

/// The string with another heater in the place counted from zero; a place beyond the string leaves it as it is.
pub fn with_replaced(heaters: &[Heater], place: usize, heater: Heater) -> Vec<Heater> {
    let mut replaced = heaters.to_vec();
    if let Some(old) = replaced.get_mut(place) {
        *old = heater;
    }
    replaced
}

fn within(heater: Option<usize>, field: &'static str, found: f64, least: f64, most: f64) -> Result<(), Trouble> {
    if (least..=most).contains(&found) {
        Ok(())
    } else {
        Err(Trouble::OutOfRange { heater, field, found, least, most })
    }
}
