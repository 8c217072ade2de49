//! How far a part may lie from its marking.

/// How far the true value may lie below and above the marked one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    /// Percent below, positive.
    pub below_percent: f64,
    /// Percent above, positive.
    pub above_percent: f64,
}

impl Tolerance {
    /// Customary for a paper capacitor without a mark: 20 % (trade text; it was that or wider).
    pub const PAPER: Self = Self::even(20.0);
    /// Customary for a mica or ceramic capacitor without a mark: 20 % (RMA three-dot and disc parts).
    pub const SMALL: Self = Self::even(20.0);
    /// What a filter bears: the range makers give for replacing an electrolytic, -20 to +100 %.
    pub const ELECTROLYTIC: Self = Self::uneven(20.0, 100.0);
    /// Customary for a composition resistor without a tolerance mark: 20 %.
    pub const RESISTOR: Self = Self::even(20.0);

    /// The same both ways.
    pub const fn even(percent: f64) -> Self {
        Self { below_percent: percent, above_percent: percent }
    }

    /// Another above than below.
    pub const fn uneven(below_percent: f64, above_percent: f64) -> Self {
        Self { below_percent, above_percent }
    }

    /// Whether a difference in percent lies inside; on the limit is inside.
    pub fn allows(self, difference_percent: f64) -> bool {
        difference_percent >= -self.below_percent - 1e-6 && difference_percent <= self.above_percent + 1e-6
    }

    /// This one, but no wider than so many percent either way.
    #[must_use]
    pub fn no_wider_than(self, percent: f64) -> Self {
        Self { below_percent: self.below_percent.min(percent), above_percent: self.above_percent.min(percent) }
    }

    /// What a tolerance letter of IEC 60062 means on a capacitor of this value; `None` for a letter that is none.
    ///
    /// B, C, D and F are picofarads on small parts and are turned into percent here. The older maker's meanings of H, N and P
    /// are not used.
    pub fn letter(letter: char, farad: f64) -> Option<Self> {
        let picofarad = farad * 1e12;
        let of_picofarad = |size: f64| (picofarad > 0.0).then(|| Self::even(size / picofarad * 100.0));
        match letter {
            'b' => of_picofarad(0.1),
            'c' => of_picofarad(0.25),
            'd' if picofarad <= 10.0 => of_picofarad(0.5),
            'f' if picofarad < 10.0 => of_picofarad(1.0),
            'd' => Some(Self::even(0.5)),
            'f' => Some(Self::even(1.0)),
            'g' => Some(Self::even(2.0)),
            'h' => Some(Self::even(3.0)),
            'j' => Some(Self::even(5.0)),
            'k' => Some(Self::even(10.0)),
            'm' => Some(Self::even(20.0)),
            'n' => Some(Self::even(30.0)),
            'p' => Some(Self::uneven(0.0, 100.0)),
            'q' => Some(Self::uneven(10.0, 30.0)),
            's' => Some(Self::uneven(20.0, 50.0)),
            't' => Some(Self::uneven(10.0, 50.0)),
            'z' => Some(Self::uneven(20.0, 80.0)),
            _ => None,
        }
    }

    /// What a tolerance letter of IEC 60062 means on a resistor; `None` for a letter that is none.
    pub fn resistor_letter(letter: char) -> Option<Self> {
        Some(Self::even(match letter {
            'b' => 0.1,
            'c' => 0.25,
            'd' => 0.5,
            'f' => 1.0,
            'g' => 2.0,
            'j' => 5.0,
            'k' => 10.0,
            'm' => 20.0,
            _ => return None,
        }))
    }
}
