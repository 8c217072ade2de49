//! Up to four storing parts in a linear circuit driven by a sine, advanced exactly.
//!
//! `y' = A y + c + d sin(w t)` with `y` the volts on the capacitors and the current in the choke. The matrix exponential and its
//! integral come from one series, on a step halved until it is short and then doubled back; the sine's steady response is
//! solved for. What is not in the circuit has a row of zeros, and stays where it is.

/// First capacitor, second capacitor of a doubler, current of the choke, capacitor behind the filter.
pub(super) type State = [f64; 4];

/// A 4 x 4 matrix by rows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Matrix(pub [State; 4]);

/// The series runs on steps no longer than this (as the norm of `A h`); the first term left out is then below 6e-10.
const SHORT: f64 = 0.5;
/// Terms of the series after the first.
const TERMS: u32 = 8;

/// The entries of two states joined one by one.
pub(super) fn joined(left: &State, right: &State, of: impl Fn(f64, f64) -> f64) -> State {
    std::array::from_fn(|at| of(left[at], right[at]))
}

impl Matrix {
    pub(super) const ZERO: Self = Self([[0.0; 4]; 4]);
    pub(super) const UNIT: Self =
        Self([[1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [0.0, 0.0, 0.0, 1.0]]);

    pub(super) fn times(&self, right: &Self) -> Self {
        let mut product = Self::ZERO;
        for (row, out) in self.0.iter().zip(&mut product.0) {
            for (share, line) in row.iter().zip(&right.0) {
                for (sum, entry) in out.iter_mut().zip(line) {
                    *sum += share * entry;
                }
            }
        }
        product
    }

    pub(super) fn apply(&self, state: &State) -> State {
        self.0.map(|row| row.iter().zip(state).map(|(entry, value)| entry * value).sum())
    }

    /// `scale` times this, plus `unit` on the diagonal.
    fn shifted(&self, scale: f64, unit: f64) -> Self {
        let mut shifted = Self(self.0.map(|row| row.map(|entry| scale * entry)));
        for (at, row) in shifted.0.iter_mut().enumerate() {
            row[at] += unit;
        }
        shifted
    }

    /// This taken from the unit matrix.
    pub(super) fn less_than_unit(&self) -> Self {
        self.shifted(-1.0, 1.0)
    }

    /// The state that the matrix turns into `right`, by Gauss's elimination. A row of zeros leaves its entry at zero when
    /// nothing is asked of it, else there is no number for an answer.
    pub(super) fn solve(&self, right: &State) -> State {
        let (mut rows, mut right) = (self.0, *right);
        for at in 0..4 {
            let best =
                (at..4).fold(at, |best, row| if rows[row][at].abs() > rows[best][at].abs() { row } else { best });
            rows.swap(at, best);
            right.swap(at, best);
            if rows[at][at] == 0.0 {
                continue;
            }
            for row in at + 1..4 {
                let share = rows[row][at] / rows[at][at];
                rows[row] = joined(&rows[row], &rows[at], |entry, above| entry - share * above);
                right[row] -= share * right[at];
            }
        }
        let mut found = [0.0; 4];
        for at in (0..4).rev() {
            let known: f64 = (at + 1..4).map(|column| rows[at][column] * found[column]).sum();
            let left = right[at] - known;
            found[at] = if left == 0.0 { 0.0 } else { left / rows[at][at] };
        }
        found
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

/// The coefficients of the equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct System {
    /// `A`, 1/s between volts.
    pub matrix: Matrix,
    /// `c`, V/s.
    pub constant: State,
    /// `d`, V/s.
    pub sine: State,
    /// `w`, rad/s.
    pub omega: f64,
}

/// A system prepared for steps of one length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Step {
    /// exp(A h).
    pub carry: Matrix,
    /// What the constant adds over one step.
    add: State,
    /// Steady response to the sine: in phase and in quadrature.
    in_phase: State,
    quadrature: State,
}

impl System {
    /// Prepares steps of `seconds` (at least zero).
    pub(super) fn step(&self, seconds: f64) -> Step {
        let rows = self.matrix.0.iter().map(|row| row.iter().map(|entry| entry.abs()).sum::<f64>());
        let mut norm = rows.fold(0.0, f64::max) * seconds;
        let mut halvings = 0;
        // 1e18 of them would still be only 60.
        while norm > SHORT && halvings < 60 {
            norm *= 0.5;
            halvings += 1;
        }
        let mut span = seconds * 0.5_f64.powi(halvings);
        let short = self.matrix.shifted(span, 0.0);
        // With X = A h: 1 + X/2! + X^2/3! + ..., by Horner's rule from the last term.
        let mut mean = Matrix::UNIT;
        for term in (0..TERMS).rev() {
            mean = short.times(&mean).shifted(1.0 / f64::from(term + 2), 1.0);
        }
        let mut carry = short.times(&mean).shifted(1.0, 1.0);
        for _ in 0..halvings {
            mean = mean.times(&carry.shifted(0.5, 0.5));
            carry = carry.times(&carry);
            span *= 2.0;
        }
        let (in_phase, quadrature) = self.response();
        Step { carry, add: mean.apply(&self.constant).map(|entry| span * entry), in_phase, quadrature }
    }

    /// Steady response to `d sin(w t)`: with `z = (A^2 + w^2)^-1 d` it is `-A z` in phase and `-w z` in quadrature.
    fn response(&self) -> (State, State) {
        if self.sine == [0.0; 4] {
            return ([0.0; 4], [0.0; 4]);
        }
        let square = self.matrix.times(&self.matrix).shifted(1.0, self.omega * self.omega);
        let z = square.solve(&self.sine);
        (self.matrix.apply(&z).map(|entry| -entry), z.map(|entry| -self.omega * entry))
    }
}

impl Step {
    fn steady(&self, phase: Phase) -> State {
        joined(&self.in_phase, &self.quadrature, |sine, cosine| sine * phase.sin + cosine * phase.cos)
    }

    /// The state one step later; the phases are those at the start and at the end of the step.
    pub(super) fn advance(&self, state: &State, from: Phase, to: Phase) -> State {
        let free = self.carry.apply(&joined(state, &self.steady(from), |all, forced| all - forced));
        let forced = joined(&self.add, &self.steady(to), |add, forced| add + forced);
        joined(&free, &forced, |free, forced| free + forced)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two hundred thousand midpoint steps of the same equation, an independent way to the same state.
    fn by_small_steps(system: &System, mut y: State, seconds: f64) -> State {
        let count = 200_000;
        let h = seconds / f64::from(count);
        let slope = |y: &State, t: f64| {
            let drive = (system.omega * t).sin();
            let drift = joined(&system.matrix.apply(y), &system.constant, |drift, constant| drift + constant);
            joined(&drift, &system.sine, |drift, sine| drift + sine * drive)
        };
        for n in 0..count {
            let t = f64::from(n) * h;
            let mid = joined(&y, &slope(&y, t), |y, k| y + 0.5 * h * k);
            y = joined(&y, &slope(&mid, t + 0.5 * h), |y, k| y + h * k);
        }
        y
    }

    #[test]
    fn one_exact_step_equals_many_small_ones() {
        let start = [120.0, 60.0, 0.05, 90.0];
        let two =
            |ff: f64, fs: f64, sf: f64, ss: f64| Matrix([[ff, 0.0, 0.0, fs], [0.0; 4], [0.0; 4], [sf, 0.0, 0.0, ss]]);
        for (matrix, sine) in [
            (two(-400.0, 25.0, 20.0, -20.0), 60_000.0),
            (two(-25.0, 25.0, 20.0, -20.0), 0.0), // shut: the sum of the charges stays, one eigenvalue is zero
            (Matrix::ZERO, 0.0),                  // one capacitor, fixed current
            (two(-300.0, 0.0, 0.0, -300.0), 50_000.0), // two equal eigenvalues
            (two(-20_000.0, 0.0, 0.0, 0.0), 2e6), // one capacitor, conducting behind little resistance
            // 40 uF, 10 H with 300 ohm, 40 uF: complex eigenvalues.
            (
                Matrix([[-300.0, 0.0, -25_000.0, 0.0], [0.0; 4], [0.1, 0.0, -30.0, -0.1], [0.0, 0.0, 25_000.0, -4.0]]),
                50_000.0,
            ),
        ] {
            let system =
                System { matrix, constant: [-1000.0, 0.0, 0.0, -500.0], sine: [sine, 0.0, 0.0, 0.0], omega: 377.0 };
            let exact = system.step(0.01).advance(&start, Phase::at(0.0), Phase::at(3.77));
            let small = by_small_steps(&system, start, 0.01);
            for (exact, small) in exact.iter().zip(&small) {
                assert!((exact - small).abs() < 2e-5, "{matrix:?}: {exact} {small}");
            }
        }
    }

    #[test]
    fn what_cannot_be_solved_is_no_number() {
        let found = Matrix::ZERO.solve(&[0.0, 1.0, 0.0, 0.0]);
        assert!(!found[1].is_finite());
    }
}
