//! Decimal figures read and rounded: what is written on parts and in tables, not every number a computer can hold.
//!
//! The standard library does the same for any number at all, with a table of powers of ten that would be a twentieth of what a phone downloads.

/// Powers of ten that are exact.
const POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20,
    1e21, 1e22,
];

/// The number that a text writes: a sign, figures with at most one point, a power of ten (`-12.5`, `.05`, `1e-9`). `None` for anything else.
///
/// Up to 15 figures with a power from -22 to 22 give the nearest number there is; beyond that the last place may be off by a few.
pub(crate) fn read(text: &str) -> Option<f64> {
    let (negative, text) = match text.as_bytes() {
        [b'-', ..] => (true, text.get(1..)?),
        [b'+', ..] => (false, text.get(1..)?),
        _ => (false, text),
    };
    let (figures, power) = match text.split_once(['e', 'E']) {
        Some((figures, power)) => (figures, power.parse::<i32>().ok()?.clamp(-999, 999)),
        None => (text, 0),
    };
    let (mut whole, mut power, mut count, mut point) = (0u64, power, 0u32, false);
    for byte in figures.bytes() {
        match byte {
            b'0'..=b'9' => {
                count += 1;
                // Beyond eighteen figures there is nothing left to hold them.
                if whole < 100_000_000_000_000_000 {
                    whole = whole * 10 + u64::from(byte - b'0');
                    power -= i32::from(point);
                } else {
                    power += i32::from(!point);
                }
            }
            b'.' if !point => point = true,
            _ => return None,
        }
    }
    let value = times_power(whole as f64, power);
    (count > 0 && value.is_finite()).then_some(if negative { -value } else { value })
}

/// The value rounded to so many significant figures, a half away from zero. Not finite or zero, it comes back as it is.
pub(crate) fn rounded(value: f64, figures: usize) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let (scaled, places) = scaled(value.abs(), figures);
    times_power(scaled, -places).copysign(value)
}

/// The value with at most so many significant figures, 17 of them at the most, without an exponent and without idle zeros: `0.0047`, `470000`.
/// What is not finite is written as 0.
pub(crate) fn write(value: f64, figures: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return "0".to_owned();
    }
    let (scaled, places) = scaled(value.abs(), figures);
    let mut digits = (scaled as u64).to_string();
    let mut places = places;
    while places > 0 && digits.ends_with('0') {
        digits.pop();
        places -= 1;
    }
    if let Ok(places) = usize::try_from(places) {
        // As many zeros before it as it takes to have a figure before the point.
        digits.insert_str(0, &"0".repeat((places + 1).saturating_sub(digits.len())));
        if places > 0 {
            digits.insert(digits.len() - places, '.');
        }
    } else {
        digits.push_str(&"0".repeat(places.unsigned_abs() as usize));
    }
    if value < 0.0 {
        digits.insert(0, '-');
    }
    digits
}

/// The value with the twelve figures that anything here is known to at the most.
pub(crate) fn plain(value: f64) -> String {
    write(value, 12)
}

/// The whole number that has the leading figures of a positive value, and the power of ten it was multiplied by.
fn scaled(size: f64, figures: usize) -> (f64, i32) {
    let mut places = i32::try_from(figures).unwrap_or(17) - 1;
    let (least, most) = (times_power(1.0, places), times_power(1.0, places + 1));
    let mut scaled = times_power(size, places);
    // Brought between 10 to the figures less one and 10 to the figures; a number has at most 308 places before the point.
    while scaled >= most && places > -310 {
        places -= 1;
        scaled = times_power(size, places);
    }
    while scaled < least && places < 330 {
        places += 1;
        scaled = times_power(size, places);
    }
    (scaled.round(), places)
}

/// The value times a power of ten, in as few steps as can be.
fn times_power(value: f64, power: i32) -> f64 {
    let mut left = power.unsigned_abs() as usize;
    let mut value = value;
    while left > 0 && value != 0.0 && value.is_finite() {
        let step = left.min(POWERS.len() - 1);
        let factor = POWERS.get(step).copied().unwrap_or(1.0);
        value = if power < 0 { value / factor } else { value * factor };
        left -= step;
    }
    value
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// What people write is read as the standard library reads it, to the last bit.
        #[test]
        fn reads_as_the_standard_library_does(text in "[+-]?[0-9]{1,8}(\\.[0-9]{0,7})?([eE][+-]?(1[0-4]|[0-9]))?|\\.[0-9]{1,15}") {
            prop_assert_eq!(read(&text), text.parse().ok());
        }

        /// Any text is read or refused, and a number that is read is the one the standard library reads, but for its last places.
        #[test]
        fn any_text(text in "[-+.eE0-9]{0,30}|\\PC{0,8}") {
            if let Some(value) = read(&text) {
                let other: f64 = text.parse().unwrap();
                prop_assert!((value - other).abs() <= other.abs() * 1e-14 + 1e-300, "{text}: {value} against {other}");
            } else if let Ok(other) = text.parse::<f64>() {
                prop_assert!(!other.is_finite(), "{text} is {other}");
            }
        }

        /// Rounding gives the number whose text has so many figures, and once rounded it stays.
        #[test]
        fn rounds_to_what_is_written(whole in 1u32..1000, power in -18i32..15, dirt in 0f64..0.4) {
            let written: f64 = format!("{whole}e{power}").parse().unwrap();
            let off: f64 = format!("{}e{power}", f64::from(whole) + dirt * if whole < 10 { 0.01 } else if whole < 100 { 0.1 } else { 1.0 }).parse().unwrap();
            prop_assert_eq!(rounded(off, 3), written);
            prop_assert_eq!(rounded(written, 3), written);
            prop_assert_eq!(rounded(-written, 3), -written);
        }

        /// What is written is what the standard library writes of the rounded number, and is read again as that number.
        #[test]
        fn writes_as_the_standard_library_does(value in -1e9f64..1e9, power in -12i32..6, figures in 1usize..13) {
            let value = value * 10f64.powi(power);
            let text = write(value, figures);
            prop_assert_eq!(&text, &rounded(value, figures).to_string());
            prop_assert_eq!(read(&text), Some(rounded(value, figures)));
        }

        /// No number does harm.
        #[test]
        fn any_number(bits: u64, figures in 1usize..16) {
            let value = f64::from_bits(bits);
            let rounded = rounded(value, figures);
            let _ = write(value, figures);
            if value.is_finite() && (1e-290..1e290).contains(&value.abs()) {
                // Half a unit of the last figure, and what the steps to and from a far power of ten cost.
                let most = 0.5 * 10f64.powi(1 - i32::try_from(figures).unwrap()) + 1e-14;
                prop_assert!((rounded / value - 1.0).abs() <= most, "{value} to {rounded}");
            }
        }
    }

    #[test]
    fn what_is_no_figure_is_refused() {
        for text in ["", ".", "-", "1.2.3", "inf", "nan", "1e", "e5", "1_000", "0x10", " 1", "1 ", "1e999"] {
            assert_eq!(read(text), None, "{text:?}");
        }
    }
}
