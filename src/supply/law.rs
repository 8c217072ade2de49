//! Rectifier laws in series with a resistance: the current for given volts across both.

use super::Rectifier;
use super::load::Line;

/// Saturation current, emission coefficient and bulk resistance of the 1N4007 in a public SPICE library (0.91 V at 1 A,
/// inside the 1.0 to 1.1 V maximum of five makers' sheets).
const SATURATION_A: f64 = 7.0277e-9;
const EMISSION: f64 = 1.80803;
const BULK_OHM: f64 = 0.034151;
/// kT/q at 27 C, volts.
const THERMAL_V: f64 = 0.025_865;
/// Below this current a silicon diode counts as shut, amperes. It is taken off every current, so that the law begins at
/// zero without a jump.
const SHUT_A: f64 = 1e-5;

/// A rectifier together with everything resistive in its lead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Law {
    /// A threshold and a resistance.
    Straight { threshold_v: f64, siemens: f64 },
    /// The diode law with so many volts to a factor of e, and `ohm` in series.
    Exponential { unit_v: f64, ohm: f64 },
    /// `i = perveance * v^1.5` with `ohm` in series.
    ThreeHalves { perveance: f64, ohm: f64 },
}

impl Law {
    /// The law of `count` like rectifiers in series (two in a bridge) behind `ohm` (above zero).
    pub(super) fn new(rectifier: &Rectifier, ohm: f64, count: f64) -> Self {
        match *rectifier {
            Rectifier::Silicon => {
                Self::Exponential { unit_v: count * EMISSION * THERMAL_V, ohm: ohm + count * BULK_OHM }
            }
            Rectifier::ConstantDrop { drop_v } => Self::Straight { threshold_v: count * drop_v, siemens: 1.0 / ohm },
            Rectifier::Selenium { plates, plate_v, plate_ohm } => {
                let plates = count * plates;
                Self::Straight { threshold_v: plates * plate_v, siemens: 1.0 / (ohm + plates * plate_ohm) }
            }
            Rectifier::Vacuum { drop_v, drop_ma } => {
                let drop_v = count * drop_v;
                Self::ThreeHalves { perveance: drop_ma / 1e3 / (drop_v * drop_v.sqrt()), ohm }
            }
        }
    }

    /// Volts at which current starts to count.
    pub(super) fn threshold_v(&self) -> f64 {
        match *self {
            Self::Straight { threshold_v, .. } => threshold_v,
            Self::Exponential { unit_v, ohm } => unit_v * (SHUT_A / SATURATION_A).ln_1p() + SHUT_A * ohm,
            Self::ThreeHalves { .. } => 0.0,
        }
    }

    /// Amperes at `volts`; below the threshold none.
    pub(super) fn amps(&self, volts: f64) -> f64 {
        if volts < self.threshold_v() { 0.0 } else { self.current(volts).0 }
    }

    /// The tangent at `volts`, which are above the threshold.
    pub(super) fn line(&self, volts: f64) -> Line {
        match *self {
            // The same figures at every point, bit by bit, so that a prepared step can be used again.
            Self::Straight { threshold_v, siemens } => Line { fixed_a: -threshold_v * siemens, siemens },
            Self::Exponential { .. } | Self::ThreeHalves { .. } => {
                let (amps, siemens) = self.current(volts);
                Line { fixed_a: amps - siemens * volts, siemens }
            }
        }
    }

    /// Amperes and siemens at `volts`, which are not below the threshold.
    fn current(&self, volts: f64) -> (f64, f64) {
        match *self {
            Self::Straight { threshold_v, siemens } => ((volts - threshold_v) * siemens, siemens),
            Self::Exponential { unit_v, ohm } => {
                // volts = n VT ln(1 + i/IS) + i R is solved by the Wright omega function w + ln w = x.
                let scale = SATURATION_A * ohm / unit_v;
                let omega = wright_omega(scale.ln() + scale + volts / unit_v);
                (omega * unit_v / ohm - SATURATION_A - SHUT_A, omega / (1.0 + omega) / ohm)
            }
            Self::ThreeHalves { perveance, ohm } => {
                // With x = sqrt(tube drop): perveance * ohm * x^3 + x^2 = volts. Newton from above falls monotonically.
                let cubic = perveance * ohm;
                let mut root = volts.sqrt().min((volts / cubic).cbrt());
                for _ in 0..24 {
                    let slope = (3.0 * cubic * root + 2.0) * root;
                    if slope <= 0.0 {
                        return (0.0, 0.0);
                    }
                    let step = ((cubic * root + 1.0) * root * root - volts) / slope;
                    root -= step;
                    if step.abs() <= 1e-12 * root {
                        break;
                    }
                }
                (perveance * root * root * root, 1.0 / (ohm + 2.0 / (3.0 * perveance * root)))
            }
        }
    }
}

/// Solves `w + ln w = x`: a starting value, then two steps of the fourth-order iteration of Fritsch, Shafer and Crowley
/// (Communications of the ACM 16, 1973, 123-124).
fn wright_omega(x: f64) -> f64 {
    let mut w = if x > 1.5 {
        x - x.ln()
    } else if x > -2.0 {
        (0.5671 * (0.64 * x).exp()).max(1e-3)
    } else {
        x.exp()
    };
    for _ in 0..2 {
        let residue = x - w - w.ln();
        let next = 1.0 + w;
        let twice = 2.0 * next * (next + 2.0 / 3.0 * residue);
        w *= 1.0 + residue / next * (twice - residue) / (twice - 2.0 * residue);
    }
    w
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_diode_law_is_solved_where_its_own_equation_holds() {
        for ohm in [0.05, 1.0, 22.0, 470.0, 1e5] {
            let law = Law::new(&Rectifier::Silicon, ohm, 1.0);
            for volts in [0.35, 0.5, 0.7, 1.0, 5.0, 50.0, 400.0] {
                let (amps, siemens) = law.current(volts);
                let back = EMISSION * THERMAL_V * ((amps + SHUT_A) / SATURATION_A).ln_1p()
                    + (amps + SHUT_A) * (ohm + BULK_OHM);
                assert!((back - volts).abs() < 1e-9 * volts.max(1.0), "{ohm} ohm at {volts} V: {back}");
                let slope = (law.current(volts + 1e-6).0 - law.current(volts - 1e-6).0) / 2e-6;
                assert!((slope / siemens - 1.0).abs() < 1e-3, "{ohm} ohm at {volts} V: slope {slope} {siemens}");
            }
        }
    }

    /// Forward volts computed from IS, N and RS of the same public library, to its three decimals.
    #[test]
    fn the_silicon_drop_is_that_of_the_library() {
        for (amps, drop_v) in [(0.1, 0.773), (1.0, 0.912), (3.0, 1.031)] {
            let (found, _) = Law::new(&Rectifier::Silicon, 1.0, 1.0).current(drop_v + amps);
            assert!((found - amps).abs() < 1e-3, "{amps} A: {found}");
        }
    }

    #[test]
    fn a_vacuum_diode_passes_its_published_point() {
        let law = Law::new(&Rectifier::Vacuum { drop_v: 18.0, drop_ma: 200.0 }, 68.0, 1.0);
        let (amps, siemens) = law.current(18.0 + 0.2 * 68.0);
        assert!((amps - 0.2).abs() < 1e-12);
        // dv/di of i = K v^1.5 is (2/3) v/i.
        assert!((1.0 / siemens - (68.0 + 2.0 / 3.0 * 18.0 / 0.2)).abs() < 1e-9);
        assert_eq!(law.amps(-1.0), 0.0);
        assert_eq!(law.amps(0.0), 0.0);
    }
}
