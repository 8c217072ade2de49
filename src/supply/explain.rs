//! What would make a supply read as it reads: more resistance, a first filter that has lost capacitance, another load.

use super::root::root;
use super::{Circuit, Trouble, series_for, steady};

/// Volts this close are the reading.
const CLOSE_V: f64 = 0.02;
/// A capacitor is not looked for below this, microfarads, nor a load above so many times its own.
const LEAST_UF: f64 = 0.5;
const MOST_LOAD: f64 = 8.0;

/// The circuit with so much resistance more in series that the first filter reads `reading_v`; none when no resistance does it.
pub fn by_resistance(circuit: &Circuit, reading_v: f64) -> Option<Circuit> {
    let ohm = series_for(circuit, reading_v).ok()?;
    (ohm > circuit.series_ohm).then(|| circuit.with_series_ohm(ohm))
}

/// The circuit with a first filter so small that it reads `reading_v`; none when even the least capacitance does not.
pub fn by_capacitance(circuit: &Circuit, reading_v: f64) -> Option<Circuit> {
    let with = |first_uf: f64| Circuit { first_uf, ..circuit.clone() };
    let found = between(LEAST_UF, circuit.first_uf, reading_v, &|uf| steady(&with(uf)))?;
    Some(with(found))
}

/// The circuit with so much load that the first filter reads `reading_v`, and how many times its own that is.
pub fn by_load(circuit: &Circuit, reading_v: f64) -> Option<(Circuit, f64)> {
    let share = between(0.0, MOST_LOAD, reading_v, &|share| steady(&circuit.with_load(share)))?;
    Some((circuit.with_load(share), share))
}

fn between(low: f64, high: f64, reading_v: f64, at: &dyn Fn(f64) -> Result<super::Steady, Trouble>) -> Option<f64> {
    // Where nothing can be delivered there are no volts.
    let off_v = |x: f64| at(x).map_or(0.0, |warm| warm.first_v) - reading_v;
    if (off_v(low) > 0.0) == (off_v(high) > 0.0) {
        return None;
    }
    let found = root(&off_v, low, high, CLOSE_V, 40);
    (off_v(found).abs() < 0.01 * reading_v).then_some(found)
}
