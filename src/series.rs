//! Preferred numbers of IEC 60063 (E3 to E192) and the rated-voltage steps parts are sold in.
//!
//! Answers: which value that can be bought lies nearest, next above or next below this one? E3 to E24 are kept as the lists
//! the standard prints, because eight of the 24 do not follow the formula; E48, E96 and E192 are made by it.

/// A series of preferred numbers of IEC 60063.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Series {
    /// 3 values a decade.
    E3,
    /// 6 values a decade, 20 %.
    E6,
    /// 12 values a decade, 10 %.
    E12,
    /// 24 values a decade, 5 %.
    E24,
    /// 48 values a decade, 2 %.
    E48,
    /// 96 values a decade, 1 %.
    E96,
    /// 192 values a decade, 0.5 % and finer.
    E192,
}

/// E24 in hundredths, as printed. E12, E6 and E3 are every 2nd, 4th and 8th of it.
const E24_HUNDREDTHS: [u32; 24] = [
    100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820,
    910,
];

/// Values outside 1e-18 to 1e18 are no part of any radio, and inside it every power of ten below is exact.
const LEAST: f64 = 1e-18;
const MOST: f64 = 1e18;

/// Two figures that differ by less than this part of each other are the same figure written twice.
const SAME: f64 = 1e-9;

impl Series {
    /// Every series, the coarsest first.
    pub const ALL: [Self; 7] = [Self::E3, Self::E6, Self::E12, Self::E24, Self::E48, Self::E96, Self::E192];

    /// "E24".
    pub fn name(self) -> &'static str {
        match self {
            Self::E3 => "E3",
            Self::E6 => "E6",
            Self::E12 => "E12",
            Self::E24 => "E24",
            Self::E48 => "E48",
            Self::E96 => "E96",
            Self::E192 => "E192",
        }
    }

    /// How many values there are from 1 to below 10.
    pub fn per_decade(self) -> u32 {
        match self {
            Self::E3 => 3,
            Self::E6 => 6,
            Self::E12 => 12,
            Self::E24 => 24,
            Self::E48 => 48,
            Self::E96 => 96,
            Self::E192 => 192,
        }
    }

    /// The tolerance tied to the series, percent; E3 has none that is agreed.
    pub fn tolerance_percent(self) -> Option<f64> {
        match self {
            Self::E3 => None,
            Self::E6 => Some(20.0),
            Self::E12 => Some(10.0),
            Self::E24 => Some(5.0),
            Self::E48 => Some(2.0),
            Self::E96 => Some(1.0),
            Self::E192 => Some(0.5),
        }
    }

    /// The members of one decade, from 1 to below 10, ascending.
    pub fn members(self) -> Vec<f64> {
        (0..i64::from(self.per_decade())).map(|step| self.at(step)).collect()
    }

    /// Whether the value is one of the series.
    pub fn contains(self, value: f64) -> bool {
        self.around(value).is_some_and(|(below, above)| below == above)
    }

    /// The member with the least difference in percent; of two equally far, the larger.
    ///
    /// `None` unless the value is a finite number from 1e-18 to 1e18.
    pub fn nearest(self, value: f64) -> Option<f64> {
        let (below, above) = self.around(value)?;
        Some(if above - value <= (value - below) * (1.0 + SAME) { above } else { below })
    }

    /// The least member that is not below the value (the value itself when it is a member).
    ///
    /// `None` unless the value is a finite number from 1e-18 to 1e18.
    pub fn at_least(self, value: f64) -> Option<f64> {
        self.around(value).map(|(_, above)| above)
    }

    /// The greatest member that is not above the value (the value itself when it is a member).
    ///
    /// `None` unless the value is a finite number from 1e-18 to 1e18.
    pub fn at_most(self, value: f64) -> Option<f64> {
        self.around(value).map(|(below, _)| below)
    }

    /// The least member truly above the value.
    ///
    /// `None` unless the value is a finite number from 1e-18 to 1e18.
    pub fn next_above(self, value: f64) -> Option<f64> {
        self.steps_near(value)?.find(|member| *member > value * (1.0 + SAME))
    }

    /// The greatest member truly below the value.
    ///
    /// `None` unless the value is a finite number from 1e-18 to 1e18.
    pub fn next_below(self, value: f64) -> Option<f64> {
        self.steps_near(value)?.filter(|member| *member < value * (1.0 - SAME)).last()
    }

    /// The members that enclose the value; the same one twice when it is a member.
    fn around(self, value: f64) -> Option<(f64, f64)> {
        let (mut below, mut above) = (None, None);
        for member in self.steps_near(value)? {
            if (member - value).abs() <= value * SAME {
                return Some((member, member));
            }
            if member < value {
                below = Some(member);
            } else {
                above = above.or(Some(member));
            }
        }
        Some((below?, above?))
    }

    /// A handful of neighbouring members, ascending, that is sure to enclose the value.
    fn steps_near(self, value: f64) -> Option<impl Iterator<Item = f64>> {
        if !(LEAST..=MOST).contains(&value) {
            return None;
        }
        // No printed member lies a whole step from where the formula puts it, so two steps each way are enough.
        let step = (value.log10() * f64::from(self.per_decade())).floor() as i64;
        Some((step - 2..=step + 3).map(move |step| self.at(step)))
    }

    /// The member that many steps up from 1.
    fn at(self, step: i64) -> f64 {
        let per_decade = i64::from(self.per_decade());
        let hundredths = f64::from(self.hundredths(step.rem_euclid(per_decade) as u32));
        let exponent = step.div_euclid(per_decade) as i32 - 2;
        // Dividing by an exact power of ten gives the very number a person would write: 2.2e-8, not 2.2000000000000002e-8.
        if exponent < 0 { hundredths / 10f64.powi(-exponent) } else { hundredths * 10f64.powi(exponent) }
    }

    /// Hundredths of the member with this place in the decade.
    fn hundredths(self, place: u32) -> u32 {
        let per_decade = self.per_decade();
        if per_decade <= 24 {
            return E24_HUNDREDTHS.get((place * (24 / per_decade)) as usize).copied().unwrap_or(100);
        }
        let figure = (100.0 * 10f64.powf(f64::from(place) / f64::from(per_decade))).round() as u32;
        // The one member the standard prints otherwise than its formula gives.
        if figure == 919 { 920 } else { figure }
    }
}

/// Rated voltages that parts of one kind are sold in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum VoltageLadder {
    /// Aluminium electrolytics, volts DC.
    Electrolytic,
    /// Film capacitors, volts DC.
    FilmDc,
    /// Silvered mica and class 1 ceramic capacitors, volts DC.
    Mica,
    /// Class 2 ceramic discs, volts DC.
    CeramicDisc,
    /// Class X2 suppression capacitors, volts AC.
    X2Ac,
    /// Class Y2 suppression capacitors, volts AC.
    Y2Ac,
    /// Class Y1 suppression capacitors, volts AC.
    Y1Ac,
}

impl VoltageLadder {
    /// The steps, ascending.
    ///
    /// Electrolytic and film DC: makers' lists. Some makers add 315, 420, 475, 550 and 600 V electrolytics; they are left
    /// out because a restorer cannot count on finding them. Mica and ceramic discs: from memory. Safety classes: 250 and 300 V AC for Y2 and 500 V AC for Y1 are
    /// printed on makers' sheets; 275 and 305 V AC for X2 are common practice, no source.
    pub fn volts(self) -> &'static [f64] {
        match self {
            Self::Electrolytic => &[
                4.0, 6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 80.0, 100.0, 160.0, 200.0, 250.0, 350.0, 400.0, 450.0,
                500.0,
            ],
            Self::FilmDc => &[50.0, 63.0, 100.0, 160.0, 250.0, 400.0, 630.0, 1000.0, 1250.0, 1600.0, 2000.0],
            Self::Mica => &[300.0, 500.0, 1000.0],
            Self::CeramicDisc => &[50.0, 100.0, 500.0, 1000.0, 2000.0, 3000.0],
            Self::X2Ac => &[275.0, 305.0],
            Self::Y2Ac => &[250.0, 300.0],
            Self::Y1Ac => &[500.0],
        }
    }

    /// The least step that is not below these volts; `None` when nothing is sold that high, or the figure is not a
    /// positive finite number.
    pub fn at_least(self, volts: f64) -> Option<f64> {
        if !(volts > 0.0 && volts.is_finite()) {
            return None;
        }
        self.volts().iter().copied().find(|step| *step >= volts * (1.0 - SAME))
    }
}

/// Watts that wire-wound and flameproof power resistors are sold in. Common practice, no source.
const POWER_W: [f64; 12] = [0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0];

/// The smallest power resistor sold that runs at half its rating or less; `None` when even the largest is too small, or the
/// figure is not a number.
pub fn power_rating_w(dissipated_w: f64) -> Option<f64> {
    POWER_W.into_iter().find(|rated_w| *rated_w >= 2.0 * dissipated_w)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bad_figures_have_no_neighbours() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -47.0, 1e-19, 1e19, f64::MIN_POSITIVE, f64::MAX]
        {
            for series in Series::ALL {
                assert_eq!(series.nearest(value), None, "{} of {value}", series.name());
                assert_eq!(series.at_least(value), None);
                assert_eq!(series.at_most(value), None);
                assert_eq!(series.next_above(value), None);
                assert_eq!(series.next_below(value), None);
                assert!(!series.contains(value));
            }
            assert!(VoltageLadder::Electrolytic.at_least(value).is_none_or(|step| value > 0.0 && step >= value));
        }
    }

    #[test]
    fn the_whole_range_has_neighbours() {
        for series in Series::ALL {
            for value in [1e-18, 9.99e-13, 1.0, 0.999999999999, 9.5e17, 1e18] {
                let (below, above) = (series.at_most(value), series.at_least(value));
                assert!(below.is_some_and(|below| below <= value * (1.0 + SAME)), "{} below {value}", series.name());
                assert!(above.is_some_and(|above| above >= value * (1.0 - SAME)), "{} above {value}", series.name());
            }
        }
    }

    #[test]
    fn a_power_resistor_runs_at_half_its_rating() {
        assert_eq!(power_rating_w(1.0), Some(2.0));
        assert_eq!(power_rating_w(1.01), Some(3.0));
        assert_eq!(power_rating_w(2.1), Some(5.0));
        assert_eq!(power_rating_w(7.69), Some(20.0));
        assert_eq!(power_rating_w(50.1), None);
        assert_eq!(power_rating_w(f64::NAN), None);
    }

    #[test]
    fn neighbours_cross_the_decade() {
        assert_eq!(Series::E12.at_least(8.3e-9), Some(1e-8));
        assert_eq!(Series::E12.at_most(9.9e5), Some(8.2e5));
        assert_eq!(Series::E6.next_above(68e3), Some(100e3));
        assert_eq!(Series::E6.next_below(10.0), Some(6.8));
        assert_eq!(Series::E24.nearest(0.96), Some(1.0));
    }

    #[test]
    fn a_figure_off_by_a_rounding_is_still_the_member() {
        let computed = 0.047 * 1e-6;
        assert_eq!(Series::E12.at_least(computed), Some(47e-9));
        assert_eq!(Series::E12.at_most(computed), Some(47e-9));
        assert_eq!(Series::E12.next_above(computed), Some(56e-9));
        assert!(Series::E12.contains(0.1 + 0.2 + 0.03));
    }

    #[test]
    fn of_two_equally_far_the_larger() {
        assert_eq!(Series::E12.nearest(200.0), Some(220.0));
        assert_eq!(Series::E6.nearest(4e-9), Some(4.7e-9));
    }

    #[test]
    fn ladders_ascend_and_end() {
        for ladder in [
            VoltageLadder::Electrolytic,
            VoltageLadder::FilmDc,
            VoltageLadder::Mica,
            VoltageLadder::CeramicDisc,
            VoltageLadder::X2Ac,
            VoltageLadder::Y2Ac,
            VoltageLadder::Y1Ac,
        ] {
            assert!(ladder.volts().windows(2).all(|pair| pair.first() < pair.last()));
        }
        assert_eq!(VoltageLadder::FilmDc.at_least(400.0), Some(400.0));
        assert_eq!(VoltageLadder::FilmDc.at_least(401.0), Some(630.0));
        assert_eq!(VoltageLadder::Electrolytic.at_least(501.0), None);
        assert_eq!(VoltageLadder::Electrolytic.at_least(f64::NAN), None);
    }
}
