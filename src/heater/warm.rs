//! Warming up: who takes how much, when, from cold heaters to the settled string.
//!
//! Each heater is one mass of tungsten: `dT/dt = (T0/tau) (P/P0 - (T^m - Ta^m)/(T0^m - Ta^m))`, `R = R0 (T/T0)^1.2`, with T0 = 1400 K,
//! Ta = 300 K, m = 5 (radiation with an emissivity that rises; it gives the exponent 0.61 of the heater law). Cold it has 0.16 of its hot
//! resistance; published ratios are 1 to 5 up to 1 to 10. The time constant follows from the industry's warm-up test: four times the rated volts
//! through three times the hot resistance, 80 percent of the volts after 11 s. What has no mass to speak of (a lamp, a resistor)
//! follows its steady law at once.

use super::{Heater, Trouble, within};

/// Time constant that gives 11 s in the warm-up test of controlled types, seconds.
pub const CONTROLLED_S: f64 = 9.2;
/// Room temperature over that of the hot heater.
const COLD: f64 = 300.0 / 1400.0;
/// Exponent of resistance over temperature, of tungsten. From memory.
const RESISTANCE: f64 = 1.2;
/// Step of the integration (midpoint rule), seconds.
const STEP_S: f64 = 0.05;
/// Steps between two points told.
const STEPS_A_POINT: u32 = 20;
/// A thermistor follows its heat about so fast, seconds. An assumption.
const THERMISTOR_S: f64 = 15.0;

/// How a part of the string warms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mass {
    /// Not at all: it follows its law.
    None,
    /// A heater with its time constant, seconds, 0.1 to 100.
    Heater(f64),
    /// A thermistor that has so many times its hot resistance when cold, 1 to 1000.
    Thermistor(f64),
}

/// One part of the string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Its rating.
    pub heater: Heater,
    /// How it warms.
    pub mass: Mass,
}

/// One moment.
#[derive(Debug, Clone, PartialEq)]
pub struct WarmPoint {
    /// Seconds after switching on.
    pub s: f64,
    /// Amperes in the string.
    pub a: f64,
    /// Volts across each part.
    pub v: Vec<f64>,
}

/// The string from switching on, one point a second, `seconds` (1 to 120) long; `series_ohm` and `line_v` as in [`super::solve`].
///
/// # Errors
/// As [`super::solve`].
pub fn warm_up(parts: &[Part], series_ohm: f64, line_v: f64, seconds: u32) -> Result<Vec<WarmPoint>, Trouble> {
    let heaters: Vec<Heater> = parts.iter().map(|part| part.heater).collect();
    let mut amps = super::current_a(&heaters, series_ohm, line_v)?;
    for (place, part) in parts.iter().enumerate() {
        if let Mass::Heater(tau_s) = part.mass {
            within(Some(place), "tau_s", tau_s, 0.1, 100.0)?;
        }
        if let Mass::Thermistor(ratio) = part.mass {
            within(Some(place), "ratio", ratio, 1.0, 1000.0)?;
        }
    }
    let mut warmth: Vec<f64> = parts.iter().map(Part::cold).collect();
    let mut points = Vec::new();
    let steps = seconds.clamp(1, 120) * STEPS_A_POINT;
    for step in 0..=steps {
        amps = settled(parts, &warmth, series_ohm, line_v, amps);
        if step % STEPS_A_POINT == 0 {
            points.push(WarmPoint {
                s: f64::from(step) * STEP_S,
                a: amps,
                v: parts.iter().zip(&warmth).map(|(part, warmth)| part.volts(*warmth, amps).0).collect(),
            });
        }
        let before = warmth;
        let moved = |from: &[f64], amps: f64, span_s: f64| -> Vec<f64> {
            let rates = parts.iter().zip(from).map(|(part, warmth)| part.rate(*warmth, amps));
            before.iter().zip(rates).map(|(warmth, rate)| (warmth + span_s * rate).clamp(COLD, 3.0)).collect()
        };
        let middle = moved(&before, amps, 0.5 * STEP_S);
        let there = settled(parts, &middle, series_ohm, line_v, amps);
        warmth = moved(&middle, there, STEP_S);
    }
    Ok(points)
}

/// The current for the resistances of the moment, by Newton's method.
fn settled(parts: &[Part], warmth: &[f64], series_ohm: f64, line_v: f64, near_a: f64) -> f64 {
    let mut amps = near_a;
    for _ in 0..32 {
        let (mut volts, mut slope) = (series_ohm * amps, series_ohm);
        for (part, warmth) in parts.iter().zip(warmth) {
            let (v, ohm) = part.volts(*warmth, amps);
            volts += v;
            slope += ohm;
        }
        let step = (volts - line_v) / slope.max(1e-9);
        amps = (amps - step).max(0.1 * amps);
        if step.abs() <= 1e-9 * amps {
            break;
        }
    }
    amps
}

impl Part {
    /// A thermistor's warmth is 0 cold and 1 at its rated heat, kept here one step up so that it is never below the least.
    fn cold(&self) -> f64 {
        match self.mass {
            Mass::Thermistor(_) => 1.0,
            _ => COLD,
        }
    }

    /// Ohms at a warmth, without the shunt; none for what follows its law.
    fn ohm(&self, warmth: f64) -> Option<f64> {
        let hot_ohm = self.heater.rated_v / self.heater.rated_a;
        match self.mass {
            Mass::None => None,
            Mass::Heater(_) => Some(hot_ohm * warmth.powf(RESISTANCE)),
            Mass::Thermistor(ratio) => Some(hot_ohm * ratio.powf((2.0 - warmth).clamp(0.0, 1.0))),
        }
    }

    /// Volts, and ohms of the slope.
    fn volts(&self, warmth: f64, amps: f64) -> (f64, f64) {
        let Some(ohm) = self.ohm(warmth) else { return self.heater.volts(amps) };
        let both = self.heater.shunt_ohm.map_or(ohm, |shunt| ohm * shunt / (ohm + shunt));
        ((amps + self.heater.added_a) * both, both)
    }

    /// How fast the warmth rises, 1/s.
    fn rate(&self, warmth: f64, amps: f64) -> f64 {
        let Some(ohm) = self.ohm(warmth) else { return 0.0 };
        let (v, _) = self.volts(warmth, amps);
        let power = v * v / ohm / (self.heater.rated_v * self.heater.rated_a);
        match self.mass {
            Mass::Heater(tau_s) => (power - (warmth.powi(5) - COLD.powi(5)) / (1.0 - COLD.powi(5))) / tau_s,
            _ => (power - (warmth - 1.0)) / THERMISTOR_S,
        }
    }
}
