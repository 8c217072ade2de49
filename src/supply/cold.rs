//! Switching on: nothing drawn yet, capacitors empty.

use super::network::Network;
use super::{Circuit, Trouble};

/// What the parts see before the tubes draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdStart {
    /// First filter before the tubes draw: the crest of the line, volts. What the rectifier keeps is left out, as it
    /// vanishes with the current.
    pub crest_v: f64,
    /// Worst switch-on current, amperes: switched on at the crest, first capacitor empty, rectifier warm.
    pub inrush_a: f64,
    /// Energy one charge of the first capacitor leaves in the resistance of the circuit, joules: C Vp^2 / 2.
    pub pulse_j: f64,
}

/// The cold start of a circuit.
///
/// # Errors
/// A figure out of range.
pub fn cold_start(circuit: &Circuit) -> Result<ColdStart, Trouble> {
    circuit.check()?;
    let crest_v = circuit.crest_v();
    Ok(ColdStart {
        crest_v,
        inrush_a: Network::new(circuit).inrush_a(),
        pulse_j: 0.5 * circuit.first_uf * 1e-6 * crest_v * crest_v,
    })
}
