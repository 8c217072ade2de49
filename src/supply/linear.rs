//! Two capacitors in a linear circuit driven by a sine, advanced exactly.
//!
//! `y' = A y + c + d sin(w t)` with `y` the volts on both capacitors. Functions of the 2 x 2 matrix are taken by divided
//! differences of its two real eigenvalues, which stay good when they coincide or vanish.

use std::ops::{Add, Mul, Sub};

/// Volts on the first and second filter capacitor.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Volts {
    pub first: f64,
    pub second: f64,
}

impl Add for Volts {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { first: self.first + other.first, second: self.second + other.second }
    }
}

impl Sub for Volts {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { first: self.first - other.first, second: self.second - other.second }
    }
}

/// A 2 x 2 matrix by rows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Matrix {
    pub ff: f64,
    pub fs: f64,
    pub sf: f64,
    pub ss: f64,
}

impl Matrix {
    pub(super) const UNIT: Self = Self { ff: 1.0, fs: 0.0, sf: 0.0, ss: 1.0 };

    /// `value` on the diagonal plus `slope * (self - at)`: the matrix function with that value at eigenvalue `at`.
    fn function(&self, value: f64, slope: f64, at: f64) -> Self {
        Self {
            ff: value + slope * (self.ff - at),
            fs: slope * self.fs,
            sf: slope * self.sf,
            ss: value + slope * (self.ss - at),
        }
    }
}

impl Mul for Matrix {
    type Output = Self;
    fn mul(self, right: Self) -> Self {
        Self {
            ff: self.ff * right.ff + self.fs * right.sf,
            fs: self.ff * right.fs + self.fs * right.ss,
            sf: self.sf * right.ff + self.ss * right.sf,
            ss: self.sf * right.fs + self.ss * right.ss,
        }
    }
}

impl Mul<Volts> for Matrix {
    type Output = Volts;
    fn mul(self, volts: Volts) -> Volts {
        Volts {
            first: self.ff * volts.first + self.fs * volts.second,
            second: self.sf * volts.first + self.ss * volts.second,
        }
    }
}

/// A moment of the sine: sine and cosine of its phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Phase {
    pub sin: f64,
    pub cos: f64,
}

impl Phase {
    pub(super) fn at(angle: f64) -> Self {
        let (sin, cos) = angle.sin_cos();
        Self { sin, cos }
    }
}

/// The coefficients of the equation. The sine drives the first capacitor only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct System {
    /// `A`, 1/s. Its off-diagonal entries have the same sign, so that both eigenvalues are real.
    pub matrix: Matrix,
    /// `c`, V/s.
    pub constant: Volts,
    /// First entry of `d`, V/s.
    pub sine: f64,
    /// `w`, rad/s.
    pub omega: f64,
}

/// A system prepared for steps of one length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Step {
    /// exp(A h).
    pub carry: Matrix,
    /// What the constant adds over one step.
    add: Volts,
    /// Steady response to the sine: in phase and in quadrature.
    in_phase: Volts,
    quadrature: Volts,
}

impl System {
    /// Prepares steps of `seconds` (at least zero).
    pub(super) fn step(&self, seconds: f64) -> Step {
        let Matrix { ff, fs, sf, ss } = self.matrix;
        let half_gap = (0.25 * (ff - ss) * (ff - ss) + fs * sf).max(0.0).sqrt();
        let middle = 0.5 * (ff + ss);
        let (upper, lower) = (middle + half_gap, middle - half_gap);
        let gap = upper - lower;
        let (at_lower, at_upper) = (exponential(lower, seconds), exponential(upper, seconds));
        let (carry_slope, integral_slope) = if gap * seconds > 1e-5 {
            ((at_upper.value - at_lower.value) / gap, (at_upper.integral - at_lower.integral) / gap)
        } else {
            (seconds * at_lower.value, integral_derivative(lower, seconds, &at_lower))
        };
        let carry = self.matrix.function(at_lower.value, carry_slope, lower);
        let integral = self.matrix.function(at_lower.integral, integral_slope, lower);
        let (in_phase, quadrature) = self.response();
        Step { carry, add: integral * self.constant, in_phase, quadrature }
    }

    /// Steady response to `d sin(w t)`: (j w - A) Y = d, of which Y's real part goes with the sine.
    fn response(&self) -> (Volts, Volts) {
        if self.sine == 0.0 {
            return (Volts::default(), Volts::default());
        }
        let Matrix { ff, fs, sf, ss } = self.matrix;
        let (re, im) = (ff * ss - fs * sf - self.omega * self.omega, -self.omega * (ff + ss));
        let scale = self.sine / (re * re + im * im);
        // (-ss + j w) * conj(det) and sf * conj(det).
        (
            Volts { first: scale * (-ss * re + self.omega * im), second: scale * sf * re },
            Volts { first: scale * (self.omega * re + ss * im), second: -scale * sf * im },
        )
    }
}

/// exp(a h) and its integral over the step.
struct Exponential {
    value: f64,
    integral: f64,
}

fn exponential(rate: f64, seconds: f64) -> Exponential {
    let less_one = (rate * seconds).exp_m1();
    Exponential { value: less_one + 1.0, integral: if rate == 0.0 { seconds } else { less_one / rate } }
}

/// Derivative of the integral with respect to the rate.
fn integral_derivative(rate: f64, seconds: f64, at: &Exponential) -> f64 {
    if (rate * seconds).abs() < 1e-4 {
        seconds * seconds * (0.5 + rate * seconds / 3.0)
    } else {
        (seconds * at.value - at.integral) / rate
    }
}

impl Step {
    fn steady(&self, phase: Phase) -> Volts {
        Volts {
            first: self.in_phase.first * phase.sin + self.quadrature.first * phase.cos,
            second: self.in_phase.second * phase.sin + self.quadrature.second * phase.cos,
        }
    }

    /// Volts one step later; the phases are those at the start and at the end of the step.
    pub(super) fn advance(&self, volts: Volts, from: Phase, to: Phase) -> Volts {
        self.carry * (volts - self.steady(from)) + self.add + self.steady(to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two hundred thousand Euler-midpoint steps of the same equation, an independent way to the same volts.
    fn by_small_steps(system: &System, mut y: Volts, seconds: f64) -> Volts {
        let count = 200_000;
        let h = seconds / f64::from(count);
        let slope = |y: Volts, t: f64| {
            let drift = system.matrix * y;
            Volts {
                first: drift.first + system.constant.first + system.sine * (system.omega * t).sin(),
                second: drift.second + system.constant.second,
            }
        };
        for n in 0..count {
            let t = f64::from(n) * h;
            let k = slope(y, t);
            let mid = Volts { first: y.first + 0.5 * h * k.first, second: y.second + 0.5 * h * k.second };
            let k = slope(mid, t + 0.5 * h);
            y = Volts { first: y.first + h * k.first, second: y.second + h * k.second };
        }
        y
    }

    #[test]
    fn one_exact_step_equals_many_small_ones() {
        let start = Volts { first: 120.0, second: 90.0 };
        for (ff, fs, sf, ss, sine) in [
            (-400.0, 25.0, 20.0, -20.0, 60_000.0),
            (-25.0, 25.0, 20.0, -20.0, 0.0), // shut: the sum of the charges stays, one eigenvalue is zero
            (0.0, 0.0, 0.0, 0.0, 0.0),       // one capacitor, fixed current
            (-300.0, 0.0, 0.0, -300.0, 50_000.0), // two equal eigenvalues
            (-300.0, 0.0, 0.0, 0.0, 50_000.0), // one capacitor, conducting
        ] {
            let system = System {
                matrix: Matrix { ff, fs, sf, ss },
                constant: Volts { first: -1000.0, second: -500.0 },
                sine,
                omega: 377.0,
            };
            let exact = system.step(0.01).advance(start, Phase::at(0.0), Phase::at(3.77));
            let small = by_small_steps(&system, start, 0.01);
            assert!((exact - small).first.abs() < 1e-5, "{ff} {exact:?} {small:?}");
            assert!((exact - small).second.abs() < 1e-5, "{ff} {exact:?} {small:?}");
        }
    }
}
