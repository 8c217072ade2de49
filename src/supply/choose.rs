//! The series resistor that gives a wanted B+.

use std::iter::successors;

use super::root::root;
use super::{Circuit, Trouble, steady};
use crate::series::Series;

/// The smallest resistor offered, ohms.
const LEAST_OHM: f64 = 1.0;
/// The largest resistor looked at, ohms; beyond it no radio gets its current.
const MOST_OHM: f64 = 1e5;
/// The search ends this close to the target, volts.
const CLOSE_V: f64 = 1e-3;
/// A B+ farther from the target than this is another one, volts.
const REACHED_V: f64 = 0.1;

/// The series resistance, ohms, that brings the mean volts on the first filter to `target_v`. The circuit's own
/// `series_ohm` is not regarded.
///
/// # Errors
/// [`Trouble::TargetTooHigh`] when no resistor at all is still too much, [`Trouble::TargetTooLow`] when the load cannot be
/// carried at so low a voltage, and the troubles of [`steady`].
pub fn series_for(circuit: &Circuit, target_v: f64) -> Result<f64, Trouble> {
    super::within("target_v", target_v, 1.0, 1000.0)?;
    let bare = steady(&circuit.with_series_ohm(0.0))?;
    if bare.first_v < target_v - CLOSE_V {
        return Err(Trouble::TargetTooHigh { most_v: bare.first_v });
    }
    // A resistor through which the load cannot be carried leaves nothing.
    let above_v = |ohm: f64| steady(&circuit.with_series_ohm(ohm)).map_or(0.0, |warm| warm.first_v) - target_v;
    let (mut low, mut high) = (0.0, 64.0);
    while above_v(high) > 0.0 {
        (low, high) = (high, 4.0 * high);
        if high > MOST_OHM {
            return Err(Trouble::TargetTooLow);
        }
    }
    let ohm = root(&above_v, low, high, CLOSE_V, 60);
    // Where the load can no longer be carried the volts drop to nothing at once, and the root found is no root.
    if above_v(ohm).abs() > REACHED_V { Err(Trouble::TargetTooLow) } else { Ok(ohm) }
}

/// Values of the series about `ohm`, ascending: up to `each_side` at or below it and as many above; none below 1 ohm.
pub fn neighbours(series: Series, ohm: f64, each_side: usize) -> Vec<f64> {
    let ohm = ohm.max(0.9 * LEAST_OHM);
    let below = successors(series.at_most(ohm), |value| series.next_below(*value));
    let above = successors(series.next_above(ohm), |value| series.next_above(*value));
    let mut values: Vec<f64> = below.take(each_side).take_while(|value| *value >= LEAST_OHM).collect();
    values.reverse();
    values.extend(above.take(each_side));
    values
}

/// Of the two values of the series about `exact_ohm`, the one whose B+ is nearer the target.
///
/// # Errors
/// As [`steady`].
pub fn nearest_in_effect(series: Series, circuit: &Circuit, target_v: f64, exact_ohm: f64) -> Result<f64, Trouble> {
    let mut best: Option<(f64, f64)> = None;
    for ohm in neighbours(series, exact_ohm, 1) {
        // The upper neighbour may starve the load; it is then no choice.
        let Ok(warm) = steady(&circuit.with_series_ohm(ohm)) else { continue };
        let missed_v = (warm.first_v - target_v).abs();
        if best.is_none_or(|(_, least_v)| missed_v < least_v) {
            best = Some((ohm, missed_v));
        }
    }
    best.map(|(ohm, _)| ohm).ok_or(Trouble::CannotDeliver)
}

#[cfg(test)]
mod tests {
    use super::neighbours;
    use crate::series::Series::{E12, E24};

    #[test]
    fn neighbours_cross_decades() {
        assert_eq!(neighbours(E12, 95.0, 2), [68.0, 82.0, 100.0, 120.0]);
        assert_eq!(neighbours(E12, 68.0, 1), [68.0, 82.0]);
        assert_eq!(neighbours(E12, 0.4, 2), [1.0, 1.2]);
        assert_eq!(neighbours(E12, 2.3, 2), [1.8, 2.2, 2.7, 3.3]);
        assert_eq!(neighbours(E24, 95.0, 2), [82.0, 91.0, 100.0, 110.0]);
    }
}
