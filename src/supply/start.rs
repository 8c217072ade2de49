//! The first minute: capacitors fill within a few cycles to the unloaded peak, tubes begin to draw, B+ settles.

use super::network::{Network, SECOND};
use super::{Circuit, Trouble, steady};

/// The tubes draw half of their current after so many seconds, and get from a quarter to three quarters in about twice the
/// second figure. From memory; sets differ by 8 to 20 s.
const HALF_WARM_S: f64 = 12.0;
const SPREAD_S: f64 = 2.0;
/// Filling is walked for this long, seconds; afterwards the capacitors follow the tubes.
const FILLING_S: f64 = 0.4;
/// Moments told afterwards, seconds.
const MOMENTS_S: [f64; 15] = [3.0, 6.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 16.0, 18.0, 20.0, 25.0, 30.0, 60.0];
/// Points told of the filling.
const FILLING_POINTS: u32 = 10;

/// One moment after switching on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartPoint {
    /// Seconds after switching on.
    pub s: f64,
    /// First filter, volts.
    pub first_v: f64,
    /// Second filter, volts; none when there is none.
    pub second_v: Option<f64>,
}

/// How much of its warm current a set with indirectly heated tubes draws so long after switching on, from 0 to 1.
pub fn warm_share(seconds: f64) -> f64 {
    1.0 / (1.0 + ((HALF_WARM_S - seconds) / SPREAD_S).exp())
}

impl Circuit {
    /// The same circuit with loads that draw so many times as much; a resistance stands for tubes as well.
    #[must_use]
    pub fn with_load(&self, share: f64) -> Self {
        let filter =
            self.filter.as_ref().map(|filter| super::Filter { load: filter.load.scaled(share), ..filter.clone() });
        Self { first_load: self.first_load.scaled(share), filter, ..self.clone() }
    }
}

/// B+ from switching on, with everything cold and empty and a rectifier that conducts at once.
///
/// # Errors
/// As [`steady`].
pub fn start_up(circuit: &Circuit) -> Result<Vec<StartPoint>, Trouble> {
    circuit.check()?;
    let cold = Network::new(&circuit.with_load(0.0));
    let told = |s: f64, first_v: f64, second_v: f64| StartPoint {
        s,
        first_v,
        second_v: circuit.filter.as_ref().map(|_| second_v),
    };
    let mut points = vec![told(0.0, 0.0, 0.0)];
    let (begin, end) = cold.span();
    let cycle_s = (end - begin) / cold.omega;
    let cycles = (FILLING_S / cycle_s).ceil().min(80.0) as u32;
    let mut state = [0.0; 4];
    for cycle in 1..=cycles {
        state = cold.cycle(&state, &mut |_| ()).end;
        // The first three one by one, as most of it happens there.
        if cycle <= 3 || cycle % cycles.div_ceil(FILLING_POINTS) == 0 {
            points.push(told(f64::from(cycle) * cycle_s, cold.output_v(&state), state[SECOND]));
        }
    }
    for s in MOMENTS_S {
        let warm = steady(&circuit.with_load(warm_share(s)))?;
        points.push(told(s, warm.first_v, warm.second_v.unwrap_or(0.0)));
    }
    Ok(points)
}
