//! Parts at the line: safety classes of IEC 60384-14 and the current a person at the chassis would feel.

use std::f64::consts::TAU;

use crate::on_sale::{OnSale, Shelf};
use crate::quantity::plain;
use crate::series::Series;

/// Touch current to aim at, milliamps rms: what IEC 60950 table 5A allows for parts that are not connected to earth.
pub const TOUCH_TARGET_MA: f64 = 0.25;

/// Touch current not to pass, milliamps rms: the half milliamp of ANSI C101 and of the UL reasoning behind it.
pub const TOUCH_NOTICE_MA: f64 = 0.5;

/// Class Y parts are made to 20 %, so as much is kept in hand.
const PART_TOLERANCE: f64 = 1.2;

/// A line may stand 10 % above its nominal volts.
const HIGH_LINE: f64 = 1.1;

/// Above these volts one barrier of class Y2 is not enough where metal can be touched.
const Y2_ALONE_TO_V: f64 = 150.0;

/// The power line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Volts rms.
    pub volt: f64,
    /// Frequency.
    pub hertz: f64,
}

impl Line {
    /// The two lines most sets meet.
    pub const USUAL: [Self; 2] = [Self { volt: 120.0, hertz: 60.0 }, Self { volt: 230.0, hertz: 50.0 }];

    /// The frequency that usually goes with these volts: 60 Hz below 150 V, else 50 Hz.
    pub fn usual_hertz(volt: f64) -> f64 {
        if volt < 150.0 { 60.0 } else { 50.0 }
    }

    /// Current through a capacitor between the line and a person who is earthed, milliamps rms: I = 2 pi f C V.
    pub fn touch_ma(self, farad: f64) -> f64 {
        TAU * self.hertz * farad * self.volt * 1e3
    }

    /// The capacitance that lets so many milliamps through, farads.
    pub fn farad_for(self, touch_ma: f64) -> f64 {
        touch_ma / (TAU * self.hertz * self.volt * 1e3)
    }

    /// The largest E6 value that stays within the current, farads; `with_tolerance` allows for a part 20 % above its marking.
    pub fn largest_e6(self, touch_ma: f64, with_tolerance: bool) -> Option<f64> {
        let margin = if with_tolerance { PART_TOLERANCE } else { 1.0 };
        Series::E6.at_most(self.farad_for(touch_ma) / margin)
    }

    /// Touch current with everything against us: line 10 % high, part 20 % high, milliamps rms.
    pub fn worst_touch_ma(self, farad: f64) -> f64 {
        self.touch_ma(farad) * HIGH_LINE * PART_TOLERANCE
    }
}

/// Safety classes of IEC 60384-14.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SafetyClass {
    /// Line to line, overvoltage category III.
    X1,
    /// Line to line; the ordinary choice.
    X2,
    /// Line to line; dropped from recent editions.
    X3,
    /// Line to touchable metal; stands for double insulation.
    Y1,
    /// Line to chassis or earth; stands for basic insulation.
    Y2,
    /// As Y2 without impulse test; dropped from recent editions.
    Y3,
    /// Line to earth below 150 V.
    Y4,
}

impl SafetyClass {
    /// Reads `x2`, `Y1`, `x1y2` (of a double mark the Y class counts). `None` for any other text.
    pub fn read(text: &str) -> Option<Self> {
        let text = plain(text);
        let one = |text: &str| {
            Some(match text {
                "x1" => Self::X1,
                "x2" => Self::X2,
                "x3" => Self::X3,
                "y1" => Self::Y1,
                "y2" => Self::Y2,
                "y3" => Self::Y3,
                "y4" => Self::Y4,
                _ => return None,
            })
        };
        match text.split_at_checked(2) {
            Some((first, "")) => one(first),
            Some((first, second)) if first.starts_with('x') && second.starts_with('y') => one(first).and(one(second)),
            _ => None,
        }
    }

    /// "Y2".
    pub fn name(self) -> &'static str {
        match self {
            Self::X1 => "X1",
            Self::X2 => "X2",
            Self::X3 => "X3",
            Self::Y1 => "Y1",
            Self::Y2 => "Y2",
            Self::Y3 => "Y3",
            Self::Y4 => "Y4",
        }
    }

    /// The shelf that serves it.
    fn shelf(self) -> Shelf {
        match self {
            Self::X1 | Self::X2 | Self::X3 => Shelf::ClassX2,
            Self::Y1 => Shelf::ClassY1,
            Self::Y2 | Self::Y3 | Self::Y4 => Shelf::ClassY2,
        }
    }

    /// Whether it is one of the classes whose failure could shock.
    pub fn is_y(self) -> bool {
        matches!(self, Self::Y1 | Self::Y2 | Self::Y3 | Self::Y4)
    }

    /// The rating to buy for a line that may stand 10 % above these volts, volts AC; `None` when nothing is sold so high.
    pub fn rated_v(self, line_volt: f64, on_sale: &OnSale) -> Option<f64> {
        on_sale.capacitors(self.shelf()).at_least(line_volt * HIGH_LINE)
    }
}

/// The part that may stand between the line and metal a person can touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Barrier {
    /// Y2 up to 150 V, Y1 above.
    pub class: SafetyClass,
    /// Value to fit, farads.
    pub farad: f64,
    /// Rating to buy, volts AC.
    pub rated_v: f64,
    /// The line it was figured for.
    pub line: Line,
    /// Above 150 V instead of the Y1: the value of each of two Y2 parts in series, and their rating.
    pub two_y2: Option<(f64, f64)>,
    /// The old value is larger than the touch current allows.
    pub reduced: bool,
}

impl Barrier {
    /// Chooses the value: the old one when its touch current is small enough, else the largest E6 value that stays within
    /// [`TOUCH_TARGET_MA`] even when the part is 20 % high.
    ///
    /// `None` when no part is sold for such a line.
    pub fn choose(old_farad: f64, line: Line, on_sale: &OnSale) -> Option<Self> {
        let class = if line.volt <= Y2_ALONE_TO_V { SafetyClass::Y2 } else { SafetyClass::Y1 };
        let (_, most_sold) = on_sale.capacitors(class.shelf()).farads;
        let (_, y2_largest) = on_sale.capacitors(Shelf::ClassY2).farads;
        let most = line.largest_e6(TOUCH_TARGET_MA, true)?.min(most_sold);
        let same = Series::E6.nearest(old_farad)?;
        let farad = same.min(most);
        let y2_rated_v = SafetyClass::Y2.rated_v(line.volt, on_sale);
        let two_y2 = y2_rated_v
            .filter(|_| class == SafetyClass::Y1)
            .and_then(|rated_v| Some((Series::E6.at_most(farad * 2.0)?.min(y2_largest), rated_v)));
        Some(Self { class, farad, rated_v: class.rated_v(line.volt, on_sale)?, line, two_y2, reduced: same > most })
    }
}

/// Bleed resistor beside a part across the line above 0.1 uF: the largest E12 value that brings the plug pins from the crest
/// of a high line below 60 V within a second, ohms (common practice, no source).
pub(super) fn bleed_ohm(farad: f64, line_volt: f64) -> Option<f64> {
    let crest = line_volt * HIGH_LINE * std::f64::consts::SQRT_2;
    if !(farad > 0.1e-6 && crest > 60.0) {
        return None;
    }
    Series::E12.at_most(1.0 / (farad * (crest / 60.0).ln()))
}
