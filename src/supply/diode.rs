//! Silicon diodes by their sheets, chosen by peak inverse volts, mean current and switch-on surge.

use super::Topology;

/// One diode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diode {
    /// JEDEC number.
    pub name: &'static str,
    /// Repetitive peak inverse volts.
    pub inverse_v: f64,
    /// Mean forward amperes into a resistive load.
    pub forward_a: f64,
    /// Surge amperes for one half cycle of 8.3 ms.
    pub surge_a: f64,
}

/// The 1000 V members of the 1N400x, 1N539x and 1N540x series, as several makers' sheets agree (the surge of the 1N540x is
/// 120 to 200 A by maker and suffix; the lower is taken). Lower voltages cost the same and are not offered.
const DIODES: [Diode; 3] = [
    Diode { name: "1N4007", inverse_v: 1000.0, forward_a: 1.0, surge_a: 30.0 },
    Diode { name: "1N5399", inverse_v: 1000.0, forward_a: 1.5, surge_a: 45.0 },
    Diode { name: "1N5408", inverse_v: 1000.0, forward_a: 3.0, surge_a: 120.0 },
];

/// A capacitor behind the diode takes 20 percent off its mean current, say most sheets.
const CAPACITOR_LOAD: f64 = 0.8;

/// The most inverse volts a supply with capacitor input puts on one rectifier: the capacitor stands at one crest of
/// the line while the line goes to the other, at 10 percent over the line voltage given. In a bridge two share that.
pub fn inverse_needed_v(topology: Topology, line_v: f64) -> f64 {
    let crests = if topology == Topology::Bridge { 1.0 } else { 2.0 };
    crests * std::f64::consts::SQRT_2 * 1.1 * line_v
}

/// The first diode of the table that bears all three; none when no diode does.
pub fn diode_for(inverse_v: f64, mean_a: f64, inrush_a: f64) -> Option<Diode> {
    DIODES.into_iter().find(|diode| {
        diode.inverse_v >= inverse_v && diode.forward_a * CAPACITOR_LOAD >= mean_a && diode.surge_a >= inrush_a
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twice 165 V and 10 percent more: 364 V at 117 V line.
    #[test]
    fn inverse_volts_are_two_crests_at_high_line() {
        assert!((inverse_needed_v(Topology::HalfWave, 117.0) - 364.0).abs() < 0.1);
    }

    #[test]
    fn surge_decides_when_nothing_limits_it() {
        assert_eq!(diode_for(364.0, 0.06, 8.0).map(|diode| diode.name), Some("1N4007"));
        assert_eq!(diode_for(364.0, 0.06, 100.0).map(|diode| diode.name), Some("1N5408"));
        assert_eq!(diode_for(364.0, 0.9, 8.0).map(|diode| diode.name), Some("1N5399"));
        assert_eq!(diode_for(1200.0, 0.06, 8.0), None);
        assert_eq!(diode_for(f64::NAN, 0.06, 8.0), None);
    }
}
