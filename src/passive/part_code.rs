//! What is printed on the new part.

use crate::quantity::{significant, whole};

/// The codes to look for on a capacitor of this value: "223 or 22n", "470 or 47p", "22 uF".
///
/// `electrolytic` parts print plain microfarads; other parts print the three-figure code in picofarads (IEC 60062) or the value
/// with a letter for its decimal point. Empty for a value that is not a positive finite number.
pub fn part_code(farad: f64, electrolytic: bool) -> String {
    if !(farad > 0.0 && farad.is_finite()) {
        return String::new();
    }
    if electrolytic {
        return format!("{} uF", significant(farad * 1e6, 3));
    }
    let lettered = if farad < 0.9995e-9 {
        lettered(farad * 1e12, 'p')
    } else if farad < 0.9995e-6 {
        lettered(farad * 1e9, 'n')
    } else {
        lettered(farad * 1e6, 'u')
    };
    match three_figures(farad) {
        Some(code) => format!("{code} or {lettered}"),
        None => lettered,
    }
}

/// `4n7`, `22n`.
fn lettered(count: f64, letter: char) -> String {
    let figures = significant(count, 3);
    match figures.split_once('.') {
        Some((whole, part)) => format!("{whole}{letter}{part}"),
        None => format!("{figures}{letter}"),
    }
}

/// Two figures and the number of zeros; `None` below 10 pF and for values of three figures.
fn three_figures(farad: f64) -> Option<String> {
    let picofarad = (farad * 1e12).round();
    if picofarad < 10.0 {
        return None;
    }
    let zeros = picofarad.log10().floor() as i32 - 1;
    let value = picofarad / 10f64.powi(zeros);
    ((value - value.round()).abs() < 1e-6 && zeros <= 7 && (farad * 1e12 - picofarad).abs() < 1e-3 * picofarad)
        .then(|| format!("{}{zeros}", whole(value)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_of_iec_60062() {
        for (farad, code) in [
            (22e-9, "223 or 22n"),
            (4.7e-9, "472 or 4n7"),
            (47e-12, "470 or 47p"),
            (2.2e-12, "2p2"),
            (1e-6, "105 or 1u"),
            (100e-9, "104 or 100n"),
            (243e-12, "243p"),
        ] {
            assert_eq!(part_code(farad, false), code);
        }
        assert_eq!(part_code(22e-6, true), "22 uF");
        assert_eq!(part_code(f64::NAN, false), "");
        assert_eq!(part_code(0.0, true), "");
    }
}
