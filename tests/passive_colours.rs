//! Colour codes against worked examples and published tables, and reading as the inverse of encoding.

use proptest::prelude::*;
use stand_in::passive::{
    CapacitorHint, Colour, ColourReading, Family, Layout, TemperatureCode, Way, read_capacitor, read_colours,
    read_resistor, resistor_bands,
};
use stand_in::series::Series;

const EXAMPLES: &str = include_str!("tables/colour_examples.csv");

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= other.abs() * 1e-4
}

fn family(code: &str) -> Family {
    match code {
        "resistor_bands" => Family::ResistorBands,
        "body_end_dot" => Family::BodyEndDot,
        "mica_dots" => Family::MicaDots,
        "paper_bands" => Family::PaperBands,
        "ceramic" => Family::Ceramic,
        _ => unreachable!("a code of the table"),
    }
}

fn colours(words: &str) -> Vec<Colour> {
    words
        .split_whitespace()
        .map(|word| Colour::read(word).unwrap_or_else(|| unreachable!("{word} is a colour")))
        .collect()
}

/// What each mark says, with its figure. The codes are those of the table's sources; how they are said is our own.
#[test]
fn every_mark_says_by_how_much() {
    for (code, given, says) in [
        ("resistor_bands", "yellow violet orange silver", "yellow: 4, violet: 7, orange: times 1,000, silver: 10 %"),
        ("resistor_bands", "brown black green gold", "brown: 1, black: 0, green: times 100,000, gold: 5 %"),
        ("resistor_bands", "red red gold none", "red: 2, red: 2, gold: times 0.1, none: 20 %"),
        ("body_end_dot", "green black yellow", "green: 5, black: 0, yellow: times 10,000"),
        (
            "mica_dots",
            "black red green red silver brown",
            "black: the type dot, black for JAN mica, red: 2, green: 5, red: characteristic C, silver: 10 %, brown: times 10",
        ),
        (
            "paper_bands",
            "red violet orange black green",
            "red: 2, violet: 7, orange: times 1,000, black: 20 %, green: 500 V",
        ),
        (
            "ceramic",
            "violet brown black brown green",
            "violet: -750 ppm per kelvin, brown: 1, black: 0, brown: times 10, green: 5 %",
        ),
        // Up to 10 pF the tolerance is in picofarads.
        (
            "ceramic",
            "black green black white green",
            "black: 0 ppm per kelvin, green: 5, black: 0, white: times 0.1, green: tolerance 0.5 pF",
        ),
    ] {
        let question =
            serde_json::json!({ "ask": "colour_code", "code": code, "colours": given.split(' ').collect::<Vec<_>>() });
        let text = stand_in::ask::answer_text(&stand_in::book::Book::default(), &question.to_string());
        let answer: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let marks: Vec<&str> =
            answer["readings"][0]["marks"].as_array().into_iter().flatten().filter_map(|mark| mark.as_str()).collect();
        assert_eq!(marks.join(", "), says, "{given}");
    }
}

/// 5.4 kohm was not made; as end, body and dot of an old part it is 4.5 kohm, which nobody said it is.
#[test]
fn a_reading_of_another_part_than_was_said_is_not_certain() {
    let question = r#"{"ask":"colour_code","code":"resistor_bands","colours":["green","yellow","red","silver"]}"#;
    let text = stand_in::ask::answer_text(&stand_in::book::Book::default(), question);
    let answer: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(answer["verdict"]["mark"], "care");
    insta::assert_snapshot!(answer["verdict"]["says"].as_str().unwrap_or(""), @"4.5 kohm, 10 %. If it is an old part and these are its end, body and dot.");
}

#[test]
fn worked_examples_are_read() {
    let mut walked = 0;
    for row in csv::Reader::from_reader(EXAMPLES.as_bytes()).records() {
        let row = row.expect("row");
        let all = read_colours(family(&row[0]), &colours(&row[1]), None);
        let figure = |column: usize| row[column].parse::<f64>().ok();
        let agrees = |reading: &ColourReading| {
            let ppm = match reading.temperature {
                Some(TemperatureCode::Class1 { ppm_per_k, .. }) => Some(ppm_per_k),
                _ => None,
            };
            let tolerance = reading.tolerance.expect("a tolerance");
            near(reading.value, figure(3).expect("value"))
                && figure(4).is_none_or(|below| near(tolerance.below_percent, below))
                && figure(5).is_none_or(|above| near(tolerance.above_percent, above))
                && reading.volts == figure(6)
                && ppm == figure(7)
        };
        let found = &all.readings;
        match &row[2] {
            "only" => assert!(found.len() == 1 && agrees(&found[0]), "{row:?}: {found:?}"),
            "first" => assert!(found.first().is_some_and(agrees), "{row:?}: {found:?}"),
            "tie" => assert!(all.likely > 1 && found[..all.likely].iter().any(agrees), "{row:?}: {found:?}"),
            "any" => assert!(found.iter().any(agrees), "{row:?}: {found:?}"),
            other => panic!("no such column: {other}"),
        }
        walked += 1;
    }
    assert_eq!(walked, 93);
}

/// Impossible is one thing, faded another. Common practice, no source.
#[test]
fn colours_that_cannot_stand_are_told_from_faded_ones() {
    let gold = read_colours(Family::ResistorBands, &colours("gold brown silver red"), None);
    assert!(gold.readings.is_empty() && gold.impossible.iter().any(|one| one.mark == 0 && one.colour == Colour::Gold));
    // 710 ohm was not made; a violet that was grey would be 810, which was not either.
    let odd = read_colours(Family::ResistorBands, &colours("violet brown brown gold"), None);
    assert!(!odd.readings[0].usual && odd.impossible.is_empty());
    // Brown, red and orange: 3.3 k, 2.2 k and 330 ohm are all one faded band away from orange orange red.
    let faded = read_colours(Family::ResistorBands, &colours("orange orange red silver"), None).faded;
    for value in [1300.0, 3600.0, 330.0, 33e3] {
        let one = faded.iter().any(|reading| near(reading.value, value));
        assert_eq!(one, value != 3600.0, "{value}: {faded:?}");
    }
    assert!(faded.iter().all(|reading| reading.usual && reading.faded.is_some()));
    // Yellow, green, black and white do not fade into another.
    assert!(read_colours(Family::ResistorBands, &colours("yellow green green gold"), None).faded.is_empty());
    // A white tolerance stands on a tubular and on a ceramic, and on no resistor.
    let white = read_colours(Family::ResistorBands, &colours("red red red white"), None);
    assert!(
        white.readings.iter().all(|reading| reading.way == Way::Turned && !reading.usual)
            && white.impossible[0].mark == 3
    );
    // Grey is 0.25 pF for parts up to 10 pF, and no tolerance above.
    assert!(read_colours(Family::Ceramic, &colours("black yellow violet black grey"), None).readings.is_empty());
}

#[test]
fn a_meter_tells_readings_apart() {
    let bands = colours("brown brown black black brown");
    for (measured, value) in [(108.0, 110.0), (1010.0, 1000.0)] {
        let all = read_colours(Family::ResistorBands, &bands, Some(measured));
        assert!(all.likely == 1 && near(all.readings[0].value, value) && all.readings[0].agrees);
    }
    assert!(!read_colours(Family::ResistorBands, &bands, Some(47e3)).readings[0].agrees);
    // A faded band is found by the meter.
    let faded = read_colours(Family::ResistorBands, &colours("red red red silver"), Some(22.5e3)).faded;
    assert!(near(faded[0].value, 22e3), "{faded:?}");
}

#[test]
fn every_preferred_value_has_its_bands() {
    for (series, percent, decades) in [(Series::E24, 5.0, -1..=7), (Series::E96, 1.0, 0..=7), (Series::E24, 1.0, 0..=7)]
    {
        for decade in decades {
            for member in series.members() {
                let ohm = member * 10f64.powi(decade);
                let bands = resistor_bands(ohm, percent).unwrap_or_else(|| panic!("no bands for {ohm}"));
                let all = read_colours(Family::ResistorBands, &bands, None);
                let first = &all.readings[0];
                assert!(near(first.value, ohm) && first.tolerance.is_some_and(|read| read.above_percent == percent));
            }
        }
    }
    assert_eq!(resistor_bands(47e3, 5.0), Some(colours("yellow violet orange gold")));
    assert_eq!(resistor_bands(47e3, 1.0), Some(colours("yellow violet black red brown")));
    for bad in [0.0, -5.0, f64::NAN, f64::INFINITY, 1e30, 1e-9, 123.45] {
        assert_eq!(resistor_bands(bad, 5.0), None, "{bad}");
    }
}

/// Colours that mean the same in a field: 5 and 10 % have two each.
fn same_meaning(one: Colour, other: Colour) -> bool {
    let pair = |a: Colour, b: Colour| (one, other) == (a, b) || (one, other) == (b, a);
    one == other || pair(Colour::Green, Colour::Gold) || pair(Colour::White, Colour::Silver)
}

proptest! {
    #[test]
    fn a_decoded_part_encodes_to_its_colours(layout in 0usize..Layout::ALL.len(), picks in proptest::collection::vec(0usize..14, 6)) {
        let layout = &Layout::ALL[layout];
        let given: Vec<Colour> = picks.iter().take(layout.fields.len()).map(|pick| Colour::ALL[*pick]).collect();
        if let Ok(reading) = layout.read(&given) {
            let written = layout.colours(&reading).expect("what was read can be written");
            let again = layout.read(&written).expect("what was written can be read");
            prop_assert!(near(again.value, reading.value) && again.tolerance == reading.tolerance && again.volts == reading.volts);
            // Body-end-dot marks that were not to be found are written in the colour of the body.
            let known = |(one, other): (&Colour, &Colour)| *one == Colour::None || same_meaning(*one, *other);
            prop_assert!(given.iter().zip(&written).all(known), "{:?} {:?}", given, written);
        }
    }

    #[test]
    fn what_a_reading_says_is_read_as_a_marking(family in 0usize..5, picks in proptest::collection::vec(0usize..14, 1..7)) {
        let codes = ["resistor_bands", "body_end_dot", "mica_dots", "paper_bands", "ceramic"];
        let words: Vec<&str> = picks.iter().map(|pick| Colour::ALL[*pick].name()).collect();
        let question = serde_json::json!({ "ask": "colour_code", "code": codes[family], "colours": words });
        let text = stand_in::ask::answer_text(&stand_in::book::Book::default(), &question.to_string());
        let answer: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        for reading in answer["readings"].as_array().into_iter().flatten() {
            let (says, value) = (reading["says"].as_str().expect("text"), reading["value"].as_f64().expect("figure"));
            if family < 2 {
                if (0.01..=100e6).contains(&value) {
                    let marks = read_resistor(says, None, None).expect(says);
                    prop_assert!((marks.readings[0].ohm / value - 1.0).abs() < 0.006, "{}", says);
                }
            } else if (0.1e-12..=0.1).contains(&value) {
                let marks = read_capacitor(says, CapacitorHint::default()).expect(says);
                prop_assert!((marks[0].sections[0].farad / value - 1.0).abs() < 0.006, "{}", says);
            }
        }
    }
}
