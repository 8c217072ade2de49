//! Markings against worked examples, and reading as the inverse of printing.

use proptest::prelude::*;
use stand_in::passive::{
    CapacitorHint, CapacitorKind, ResistorRole, TemperatureCode, Tolerance, read_capacitor, read_resistor,
};
use stand_in::quantity::{CapacitanceUnit, farad, number, ohm, read_farad, read_ohm};

const EXAMPLES: &str = include_str!("tables/decode_examples.csv");
const SECTIONS: &str = include_str!("tables/section_examples.csv");
const SPELLINGS: &str = include_str!("tables/unit_spellings.csv");
const TEMPERATURES: &str = include_str!("tables/temperature_codes.csv");

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= other.abs() * 1e-4
}

/// Value, tolerance and volts of one reading.
type Found = (f64, Option<Tolerance>, Option<f64>);

fn readings(part: &str, marking: &str) -> Vec<Found> {
    if part == "resistor" {
        let marks = read_resistor(marking, None, None).map_or(Vec::new(), |marks| marks.readings);
        return marks.iter().map(|mark| (mark.ohm, mark.tolerance, None)).collect();
    }
    let marks = read_capacitor(marking, CapacitorHint::default()).unwrap_or_default();
    marks.iter().map(|mark| (mark.sections[0].farad, mark.tolerance, mark.sections[0].volts)).collect()
}

#[test]
fn worked_examples_are_read() {
    let mut walked = 0;
    for row in csv::Reader::from_reader(EXAMPLES.as_bytes()).records() {
        let row = row.expect("row");
        let found = readings(&row[0], &row[1]);
        let figure = |column: usize| row[column].parse::<f64>().ok();
        let agrees = |(value, tolerance, volts): &Found| {
            near(*value, figure(3).expect("value"))
                && figure(4).is_none_or(|below| tolerance.is_some_and(|tolerance| near(tolerance.below_percent, below)))
                && figure(5).is_none_or(|above| tolerance.is_some_and(|tolerance| near(tolerance.above_percent, above)))
                && *volts == figure(6)
        };
        match &row[2] {
            "only" => assert!(found.len() == 1 && agrees(&found[0]), "{} {}: {found:?}", &row[0], &row[1]),
            "first" => assert!(found.first().is_some_and(agrees), "{} {}: {found:?}", &row[0], &row[1]),
            "any" => assert!(found.len() > 1 && found.iter().any(agrees), "{} {}: {found:?}", &row[0], &row[1]),
            other => panic!("no such column: {other}"),
        }
        walked += 1;
    }
    assert_eq!(walked, 90);
}

#[test]
fn sections_are_read() {
    for row in csv::Reader::from_reader(SECTIONS.as_bytes()).records() {
        let row = row.expect("row");
        let marks = read_capacitor(&row[0], CapacitorHint::default()).expect("readable");
        let farads: Vec<String> =
            marks[0].sections.iter().map(|section| format!("{:.0}", section.farad * 1e6)).collect();
        let volts: Vec<String> = marks[0]
            .sections
            .iter()
            .map(|section| section.volts.map_or(String::new(), |volts| volts.to_string()))
            .collect();
        assert_eq!((farads.join(" ").as_str(), volts.join(" ").trim()), (&row[1], &row[2]), "{}", &row[0]);
    }
}

#[test]
fn unit_spellings_are_read() {
    for row in csv::Reader::from_reader(SPELLINGS.as_bytes()).records() {
        let row = row.expect("row");
        let unit = CapacitanceUnit::read(&row[0]).unwrap_or_else(|| panic!("{} is no unit", &row[0]));
        assert!(near(unit.farad(1.0) * 1e12, row[1].parse().expect("figure")), "{}", &row[0]);
        let marks = read_capacitor(&format!("3 {}", &row[0]), CapacitorHint::default()).expect("readable");
        assert!(near(marks[0].sections[0].farad, unit.farad(3.0)), "3 {}", &row[0]);
    }
    for word in ["kf", "mh", "farads", "", "meg"] {
        assert_eq!(CapacitanceUnit::read(word), None, "{word}");
    }
}

#[test]
fn temperature_codes_are_read() {
    for row in csv::Reader::from_reader(TEMPERATURES.as_bytes()).records() {
        let row = row.expect("row");
        let figure = |column: usize| row[column].parse::<f64>().ok();
        let expected = if &row[1] == "1" {
            TemperatureCode::Class1 { ppm_per_k: figure(6).expect("ppm"), tolerance_ppm_per_k: figure(7) }
        } else {
            let change = Tolerance::uneven(figure(4).expect("below"), figure(5).expect("above"));
            TemperatureCode::Class2 { low_c: figure(2).expect("low"), high_c: figure(3).expect("high"), change }
        };
        let found = TemperatureCode::read(&row[0].to_lowercase());
        match (found, expected) {
            (
                Some(TemperatureCode::Class1 { ppm_per_k, tolerance_ppm_per_k }),
                TemperatureCode::Class1 { ppm_per_k: ppm, tolerance_ppm_per_k: tolerance },
            ) => assert!((ppm_per_k - ppm).abs() < 1e-9 && tolerance_ppm_per_k == tolerance, "{}", &row[0]),
            _ => assert_eq!(found, Some(expected), "{}", &row[0]),
        }
    }
}

#[test]
fn what_is_known_of_the_part_decides() {
    // Common practice, no source.
    let electrolytic = CapacitorHint { kind: Some(CapacitorKind::Electrolytic), role: None };
    let mica = CapacitorHint { kind: Some(CapacitorKind::Mica), role: None };
    assert!(near(read_capacitor("250", electrolytic).expect("readable")[0].sections[0].farad, 250e-6));
    assert!(near(read_capacitor("8", mica).expect("readable")[0].sections[0].farad, 8e-12));
    for (marking, role, measured, ohms) in [
        ("2M", Some(ResistorRole::GridLeak), None, 2e6),
        ("2M", Some(ResistorRole::Cathode), None, 2e3),
        ("2M", None, Some(2300.0), 2e3),
        ("2M", None, Some(3e6), 2e6),
        ("50M", None, None, 50e3),
        ("50M", Some(ResistorRole::PlateLoad), None, 50e3),
    ] {
        let marks = read_resistor(marking, role, measured).expect("readable");
        assert!(marks.settled && marks.readings[0].ohm == ohms && marks.readings.len() == 2, "{marking} {role:?}");
    }
    assert!(!read_resistor("2M", None, None).expect("readable").settled);
    assert!(!read_resistor("15M", None, None).expect("readable").settled);
}

#[test]
fn what_cannot_be_read_is_refused_and_named() {
    for (marking, piece) in [
        ("", ""),
        ("   ", ""),
        ("hello", "hello"),
        ("16 bananas", "bananas"),
        (".02 mfd 400v ?", "?"),
        ("400v", "400v"),
        ("0 mfd", "0 mfd"),
        ("2,2", "2,2"),
        ("99999999 mfd", "99999999 mfd"),
        ("047", "047"),
        // 50 uF more, or 50 V?
        ("10 mfd 50-50 mfd 150", "mfd"),
        ("%", "%"),
    ] {
        let refused = read_capacitor(marking, CapacitorHint::default()).expect_err(marking);
        assert_eq!(refused.found, piece, "{marking}");
    }
    for (marking, piece) in [
        ("", ""),
        ("500-600", "500-600"),
        ("1/2W", "1/2W"),
        ("470 xyz", "xyz"),
        ("0 ohm", "0 ohm"),
        ("k", "k"),
        ("10k 20k", "20k"),
        ("10k 300%", "%"),
    ] {
        assert_eq!(read_resistor(marking, None, None).expect_err(marking).found, piece, "{marking}");
    }
}

#[test]
fn numbers_are_read() {
    // Forms: common practice, no source.
    for (text, value) in [
        (".05", 0.05),
        ("0,05", 0.05),
        ("10,000", 10000.0),
        ("1,234,567", 1234567.0),
        ("1/2", 0.5),
        ("1 1/2", 1.5),
        ("5.", 5.0),
    ] {
        assert_eq!(number(text), Some(value), "{text}");
    }
    for text in ["", ".", "-5", "1e3", "1/0", "1/2/3", "NaN", "inf", "1 2", "5..3", "1.2.3", "\u{661}"] {
        assert_eq!(number(text), None, "{text}");
    }
    for (text, value) in [(".02 mfd", 20e-9), ("250 mmf", 250e-12), ("4n7", 4.7e-9), ("0.022 uF (22 nF)", 22e-9)] {
        assert_eq!(read_farad(text), Some(value), "{text}");
    }
    for (text, value) in [("470", 470.0), ("4k7", 4700.0), ("R47", 0.47), ("1/2 meg", 5e5), ("2.2 M\u{3a9}", 2.2e6)] {
        assert_eq!(read_ohm(text), Some(value), "{text}");
    }
    assert_eq!((read_farad("0.02"), read_farad("x"), read_ohm("0"), read_ohm("4k7k7")), (None, None, None, None));
}

proptest! {
    #[test]
    fn printed_farads_are_read_back(mantissa in 100u32..1000, exponent in -14i32..-5) {
        let value = f64::from(mantissa) * 10f64.powi(exponent);
        prop_assert!(near(read_farad(&farad(value)).unwrap(), value), "{}", farad(value));
        let marks = read_capacitor(&format!("{} 450 V", farad(value)), CapacitorHint::default()).unwrap();
        prop_assert!(marks.len() == 1 && near(marks[0].sections[0].farad, value));
        prop_assert_eq!(marks[0].sections[0].volts, Some(450.0));
    }

    #[test]
    fn printed_ohms_are_read_back(mantissa in 100u32..1000, exponent in -4i32..5) {
        let value = f64::from(mantissa) * 10f64.powi(exponent);
        prop_assert!(near(read_ohm(&ohm(value)).unwrap(), value), "{}", ohm(value));
        let marks = read_resistor(&format!("{} 20 % 1 W", ohm(value)), None, None).unwrap();
        prop_assert!(marks.readings.len() == 1 && near(marks.readings[0].ohm, value));
    }

    #[test]
    fn three_figures_are_what_is_printed(value in 1e-12f64..1e-3) {
        let read = read_farad(&farad(value)).unwrap();
        prop_assert!((read - value).abs() <= value * 0.0051);
        prop_assert_eq!(farad(read), farad(value));
    }

    #[test]
    fn no_text_panics(text in "\\PC*") {
        let _ = (number(&text), read_farad(&text), read_ohm(&text), CapacitanceUnit::read(&text));
        if let Ok(marks) = read_capacitor(&text, CapacitorHint::default()) {
            prop_assert!(!marks.is_empty() && marks.iter().all(|mark| !mark.sections.is_empty()));
        }
        if let Ok(marks) = read_resistor(&text, None, None) {
            prop_assert!(marks.readings.iter().all(|mark| mark.ohm > 0.0 && mark.ohm.is_finite()));
        }
    }

    #[test]
    fn no_near_marking_panics(text in "[0-9.,/ +xvkmfdpnuwrjohegVKM%~()-]{0,24}") {
        if let Ok(marks) = read_capacitor(&text, CapacitorHint::default()) {
            for section in marks.iter().flat_map(|mark| &mark.sections) {
                prop_assert!((0.1e-12..=0.1).contains(&section.farad));
                prop_assert!(section.volts.is_none_or(|volts| (1.0..=50e3).contains(&volts)));
            }
        }
        let _ = read_resistor(&text, Some(ResistorRole::PlateLoad), Some(1.0));
    }
}
