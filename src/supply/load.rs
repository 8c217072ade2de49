//! What the set draws: a fixed current, a resistance, or the 3/2-power law of vacuum tubes.

use super::{Trouble, within};

/// Current drawn from a filter capacitor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// Nothing.
    None,
    /// The same current whatever the volts.
    Current {
        /// Milliamps, 0.1 to 10 000.
        ma: f64,
    },
    /// A resistance.
    Resistance {
        /// Ohms, 10 to 10 000 000.
        ohm: f64,
    },
    /// Tubes: current rises as the volts to the power 3/2.
    ThreeHalves {
        /// Milliamps, 0.1 to 10 000 ...
        ma: f64,
        /// ... at these volts, 1 to 1000.
        at_v: f64,
    },
}

/// A current as a straight line about one point: amperes = `fixed_a` + `siemens` * volts.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Line {
    pub fixed_a: f64,
    pub siemens: f64,
}

impl Load {
    pub(super) fn check(&self) -> Result<(), Trouble> {
        match *self {
            Self::None => Ok(()),
            Self::Current { ma } => within("load.ma", ma, 0.1, 1e4),
            Self::Resistance { ohm } => within("load.ohm", ohm, 10.0, 1e7),
            Self::ThreeHalves { ma, at_v } => {
                within("load.ma", ma, 0.1, 1e4)?;
                within("load.at_v", at_v, 1.0, 1000.0)
            }
        }
    }

    /// A load that draws so many times as much (a resistance stands for tubes too); next to nothing is nothing.
    pub(super) fn scaled(&self, share: f64) -> Self {
        match *self {
            Self::Current { ma } | Self::ThreeHalves { ma, .. } if ma * share < 0.1 => Self::None,
            Self::Current { ma } => Self::Current { ma: ma * share },
            Self::ThreeHalves { ma, at_v } => Self::ThreeHalves { ma: ma * share, at_v },
            Self::Resistance { ohm } if share * 1e7 > ohm => Self::Resistance { ohm: ohm / share },
            Self::None | Self::Resistance { .. } => Self::None,
        }
    }

    /// Amperes at `volts`. A fixed current lets go linearly below `floor_v`, as no load draws from an empty capacitor; a
    /// solution that dips there is refused afterwards, so the shape of the release never shows in a figure.
    pub(super) fn amps(&self, volts: f64, floor_v: f64) -> f64 {
        let line = self.line(volts, floor_v);
        line.fixed_a + line.siemens * volts
    }

    /// The tangent at `volts`.
    pub(super) fn line(&self, volts: f64, floor_v: f64) -> Line {
        match *self {
            Self::None => Line::default(),
            Self::Current { ma } if volts >= floor_v => Line { fixed_a: ma / 1e3, siemens: 0.0 },
            Self::Current { ma } => Line { fixed_a: 0.0, siemens: ma / 1e3 / floor_v },
            Self::Resistance { ohm } => Line { fixed_a: 0.0, siemens: 1.0 / ohm },
            Self::ThreeHalves { ma, at_v } => {
                let ratio = (volts / at_v).max(0.0);
                let amps = ma / 1e3 * ratio * ratio.sqrt();
                let siemens = 1.5 * ma / 1e3 / at_v * ratio.sqrt();
                Line { fixed_a: amps - siemens * volts, siemens }
            }
        }
    }
}
