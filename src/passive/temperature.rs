//! Temperature codes of ceramic capacitors: NP0, N750, U2J, X7R, Z5U.

use super::Tolerance;

/// How a ceramic capacitor changes with temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TemperatureCode {
    /// Class 1: a steady change, for tuned circuits.
    Class1 {
        /// Parts per million per kelvin; negative falls with heat.
        ppm_per_k: f64,
        /// How far that figure may be off, where the code says.
        tolerance_ppm_per_k: Option<f64>,
    },
    /// Class 2: a wide change over a range, for bypass only.
    Class2 {
        /// Coldest, degrees Celsius.
        low_c: f64,
        /// Hottest, degrees Celsius.
        high_c: f64,
        /// Change of capacitance over the range.
        change: Tolerance,
    },
}

impl TemperatureCode {
    /// Reads a code in lower case: `np0`, `n750`, `p100`, `u2j` (EIA-198 class 1), `x7r` (class 2). `None` for any other text.
    pub fn read(code: &str) -> Option<Self> {
        let class1 = |ppm_per_k: f64| Self::Class1 { ppm_per_k, tolerance_ppm_per_k: None };
        if matches!(code, "np0" | "npo" | "cog") {
            return Some(class1(0.0));
        }
        for (sign, size) in [("n", -1.0), ("p", 1.0)] {
            // Fewer figures are a value: n47 is 0.47 nF.
            if let Some(figures) = code.strip_prefix(sign).filter(|figures| (3..=4).contains(&figures.len())) {
                return figures.parse::<u16>().ok().map(|ppm| class1(size * f64::from(ppm)));
            }
        }
        let mut letters = code.chars();
        let (first, second, third) = (letters.next()?, letters.next()?, letters.next()?);
        if letters.next().is_some() {
            return None;
        }
        Self::class2(first, second, third).or_else(|| Self::class1(first, second, third))
    }

    /// The temperature letter of an older maker's code, after the tolerance letter: the N of `470JN`.
    pub fn letter(letter: char) -> Option<Self> {
        let ppm_per_k = match letter {
            'w' => 470.0,
            'a' => 100.0,
            'b' => 30.0,
            'c' => 0.0,
            'd' => -30.0,
            'e' => -50.0,
            'f' => -80.0,
            'g' => -150.0,
            'h' => -220.0,
            'j' => -330.0,
            'k' => -470.0,
            'l' => -560.0,
            'n' => -750.0,
            _ => return None,
        };
        Some(Self::Class1 { ppm_per_k, tolerance_ppm_per_k: None })
    }

    fn class2(low: char, high: char, change: char) -> Option<Self> {
        let low_c = match low {
            'x' => -55.0,
            'y' => -30.0,
            'z' => 10.0,
            _ => return None,
        };
        let high_c = match high {
            '2' => 45.0,
            '4' => 65.0,
            '5' => 85.0,
            '6' => 105.0,
            '7' => 125.0,
            '8' => 150.0,
            '9' => 200.0,
            _ => return None,
        };
        let change = match change {
            'a' => Tolerance::even(1.0),
            'b' => Tolerance::even(1.5),
            'c' => Tolerance::even(2.2),
            'd' => Tolerance::even(3.3),
            'e' => Tolerance::even(4.7),
            'f' => Tolerance::even(7.5),
            'p' => Tolerance::even(10.0),
            'r' => Tolerance::even(15.0),
            's' => Tolerance::even(22.0),
            't' => Tolerance::uneven(33.0, 22.0),
            'u' => Tolerance::uneven(56.0, 22.0),
            'v' => Tolerance::uneven(82.0, 22.0),
            _ => return None,
        };
        Some(Self::Class2 { low_c, high_c, change })
    }

    fn class1(figure: char, multiplier: char, tolerance: char) -> Option<Self> {
        let figure = match figure {
            'c' => 0.0,
            'b' => 0.3,
            'l' => 0.8,
            'a' => 0.9,
            'm' => 1.0,
            'p' => 1.5,
            'r' => 2.2,
            's' => 3.3,
            't' => 4.7,
            'u' => 7.5,
            _ => return None,
        };
        let multiplier = match multiplier {
            '0' => -1.0,
            '1' => -10.0,
            '2' => -100.0,
            '3' => -1000.0,
            '5' => 1.0,
            '6' => 10.0,
            '7' => 100.0,
            '8' => 1000.0,
            _ => return None,
        };
        let tolerance = match tolerance {
            'g' => 30.0,
            'h' => 60.0,
            'j' => 120.0,
            'k' => 250.0,
            'l' => 500.0,
            'm' => 1000.0,
            'n' => 2500.0,
            _ => return None,
        };
        // -0 is no figure anybody writes.
        let ppm_per_k = if figure == 0.0 { 0.0 } else { figure * multiplier };
        Some(Self::Class1 { ppm_per_k, tolerance_ppm_per_k: Some(tolerance) })
    }

    /// As the trade writes it: "NP0", "N750", "P100"; class 2 has no such name.
    pub fn class1_name(self) -> Option<String> {
        match self {
            Self::Class1 { ppm_per_k: 0.0, .. } => Some("NP0".to_owned()),
            Self::Class1 { ppm_per_k, .. } => {
                let sign = if ppm_per_k < 0.0 { 'N' } else { 'P' };
                Some(format!("{sign}{:03}", ppm_per_k.abs().round() as u32))
            }
            Self::Class2 { .. } => None,
        }
    }
}
