//! Switching on: nothing drawn yet, capacitors empty.

use super::network::Network;
use super::{Circuit, Topology, Trouble};

/// What the parts see before the tubes draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdStart {
    /// First filter before the tubes draw: the crest of the line, twice that of a doubler, volts. What the rectifier keeps is
    /// left out, as it vanishes with the current.
    pub crest_v: f64,
    /// Worst switch-on current, amperes: switched on at the crest, first capacitor empty, rectifier warm.
    pub inrush_a: f64,
    /// Energy one charging leaves in the resistance of the circuit, joules: C Vp^2 / 2 for each capacitor charged from empty,
    /// and of a half-wave doubler C Vp^2 / 2 for the capacitor in the line lead and 2 C Vp^2 for the other (what the line
    /// gives less what is stored).
    pub pulse_j: f64,
}

/// The cold start of a circuit.
///
/// # Errors
/// A figure out of range.
pub fn cold_start(circuit: &Circuit) -> Result<ColdStart, Trouble> {
    circuit.check()?;
    let crest_v = circuit.crest_v();
    let charged_uf = match circuit.topology {
        Topology::HalfWave | Topology::CentreTap | Topology::Bridge => circuit.first_uf,
        Topology::FullWaveDoubler { other_uf } => circuit.first_uf + other_uf,
        Topology::HalfWaveDoubler { series_uf } => series_uf + 4.0 * circuit.first_uf,
    };
    Ok(ColdStart {
        crest_v: circuit.topology.crests() * crest_v,
        inrush_a: Network::new(circuit).inrush_a(),
        pulse_j: 0.5 * charged_uf * 1e-6 * crest_v * crest_v,
    })
}
