//! Figures as the trade writes them.

use super::decimal::{rounded, write};

/// Figures printed; parts are sold to three at the most.
const FIGURES: usize = 3;

/// The value rounded to so many significant figures, without an exponent and without idle zeros: "0.0047", "470000".
///
/// A value that is not a finite number prints as "unknown".
#[inline(never)]
pub fn significant(value: f64, figures: usize) -> String {
    if !value.is_finite() {
        return "unknown".to_owned();
    }
    write(value, figures)
}

/// Ohms: "68 ohm", "4.7 kohm", "2.2 Mohm".
#[inline(never)]
pub fn ohm(ohm: f64) -> String {
    let size = rounded(ohm, FIGURES).abs();
    if size < 1e3 {
        scaled(ohm, 1.0, "ohm")
    } else if size < 1e6 {
        scaled(ohm, 1e3, "kohm")
    } else {
        scaled(ohm, 1e6, "Mohm")
    }
}

/// Farads: "250 pF", "0.022 uF (22 nF)", "16 uF". From 1 nF to below 1 uF both the old unit and today's are given.
#[inline(never)]
pub fn farad(farad: f64) -> String {
    let size = rounded(farad, FIGURES).abs();
    if size < 1e-9 {
        scaled(farad, 1e-12, "pF")
    } else if size < 1e-6 {
        format!("{} ({})", scaled(farad, 1e-6, "uF"), scaled(farad, 1e-9, "nF"))
    } else {
        scaled(farad, 1e-6, "uF")
    }
}

/// Volts: "137 V".
#[inline(never)]
pub fn volt(volt: f64) -> String {
    scaled(volt, 1.0, "V")
}

/// Milliamps: "0.213 mA", and from 1000 mA up amps: "1.5 A".
#[inline(never)]
pub fn milliamp(milliamp: f64) -> String {
    if rounded(milliamp, FIGURES).abs() < 1e3 { scaled(milliamp, 1.0, "mA") } else { scaled(milliamp, 1e3, "A") }
}

/// Watts of heat: "0.32 W".
#[inline(never)]
pub fn watt(watt: f64) -> String {
    scaled(watt, 1.0, "W")
}

/// Watts as sold: "1/4 W", "1/2 W", "5 W".
pub fn watt_rating(watt: f64) -> String {
    match watt {
        0.125 => "1/8 W".to_owned(),
        0.25 => "1/4 W".to_owned(),
        0.5 => "1/2 W".to_owned(),
        other => scaled(other, 1.0, "W"),
    }
}

/// A difference in percent with its sign, to a tenth: "+10 %", "-6.2 %", "0 %".
#[inline(never)]
pub fn percent(percent: f64) -> String {
    if !percent.is_finite() {
        return "unknown".to_owned();
    }
    let tenths = tenth(percent);
    let sign = if tenths == "0" || percent < 0.0 { "" } else { "+" };
    format!("{sign}{tenths} %")
}

/// The value to the nearest whole number: "104".
pub fn whole(value: f64) -> String {
    write(value.round(), 15)
}

/// The value to the nearest tenth: "6.2".
pub fn tenth(value: f64) -> String {
    write((value * 10.0).round() / 10.0, 15)
}

/// The value in a unit so many times the base unit.
fn scaled(value: f64, unit: f64, name: &str) -> String {
    format!("{} {name}", significant(value / unit, FIGURES))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_trade_writes_it_so() {
        // Forms: common practice, no source.
        for (printed, expected) in [
            (ohm(68.0), "68 ohm"),
            (ohm(0.47), "0.47 ohm"),
            (ohm(4700.0), "4.7 kohm"),
            (ohm(999.9), "1 kohm"),
            (ohm(470e3), "470 kohm"),
            (ohm(2.2e6), "2.2 Mohm"),
            (farad(250e-12), "250 pF"),
            (farad(2.2e-12), "2.2 pF"),
            (farad(22e-9), "0.022 uF (22 nF)"),
            (farad(999.9e-12), "0.001 uF (1 nF)"),
            (farad(1e-6), "1 uF"),
            (farad(16e-6), "16 uF"),
            (volt(136.74), "137 V"),
            (volt(1250.0), "1250 V"),
            (milliamp(0.21257), "0.213 mA"),
            (milliamp(1500.0), "1.5 A"),
            (watt(0.3249), "0.325 W"),
            (watt_rating(0.5), "1/2 W"),
            (watt_rating(5.0), "5 W"),
            (percent(10.0), "+10 %"),
            (percent(-6.25), "-6.3 %"),
            (percent(-0.01), "0 %"),
            (significant(0.0, 3), "0"),
            (significant(-0.0, 3), "0"),
        ] {
            assert_eq!(printed, expected);
        }
    }

    #[test]
    fn what_is_no_number_is_not_printed_as_one() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(percent(value), "unknown");
            assert!(ohm(value).starts_with("unknown") && farad(value).starts_with("unknown"));
            assert!(volt(value).starts_with("unknown") && watt(value).starts_with("unknown"));
        }
    }
}
