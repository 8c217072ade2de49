//! A pasted list: every line comes back, and what can be bought is counted.

#![allow(clippy::expect_used, clippy::cast_possible_truncation)]

use proptest::prelude::*;
use serde_json::{Value, json};
use stand_in::ask::answer_text;
use stand_in::book::Book;

/// A list of our own invention, of an AC/DC set that never was; what becomes of each line, and what is bought for it.
const LIST: [(&str, &str, &str); 27] = [
    ("1. C1 .05 mfd 400 V line to chassis", "buy", "class Y2 0.0033 uF"),
    ("2. C2 .02 400v coupling", "buy", "film 0.022 uF (22 nF), 630 V DC, marked 223J 630V"),
    ("3. C3 .02-400 coupling to output grid", "buy", "film 0.022 uF (22 nF), 630 V DC, marked 223J 630V"),
    ("C4\t250 mmf mica 500V", "leave", ""),
    ("C5 40-20/150 filter", "buy", "47 uF, 200 V DC"),
    ("C6: 20 mfd 25 V cathode bypass", "buy", "22 uF, 25 V DC"),
    ("C7 .1 200v AVC", "buy", "film 0.1 uF (100 nF), 630 V DC"),
    ("C8 .005 600 plate bypass", "buy", "film 0.0047 uF (4.7 nF), 1000 V DC"),
    ("C9 .1 line", "check", ""),
    ("C10 .1 across the line", "buy", "class X2 0.1 uF"),
    ("C11 16 bananas", "check", ""),
    ("C12 red green brown", "check", ""),
    ("C13 473K 630V", "buy", "film 0.047 uF (47 nF), 630 V DC, marked 473J 630V"),
    ("C14 .008 1600 V buffer", "buy", "film 0.0082 uF (8.2 nF), 1600 V DC"),
    ("R1 220k", "buy", "220 kohm, 1 W metal oxide"),
    ("R2 470K 20% 1/2 W grid leak", "buy", "bands yellow violet black orange brown"),
    ("R3 10 meg grid", "buy", "10 Mohm, 1/4 W metal film"),
    ("R4 1 meg 1/4W at 300V plate", "buy", "1 Mohm, 1 W metal oxide"),
    ("R5 yellow violet orange silver", "check", ""),
    ("R6 500k measures 610k", "buy", "470 kohm, 1/2 W metal film"),
    ("R7 500k measures 560k", "leave", ""),
    ("R8 300+40 ohm 10 W dropper", "buy", "wire-wound"),
    ("470k", "check", ""),
    ("smudged, brown body", "unread", ""),
    ("R9 volume control 500k", "other", ""),
    ("V1 a rectifier", "other", ""),
    ("condenser, .25 mfd 200 V bypass qty 2", "buy", "film 0.22 uF (220 nF), 630 V DC"),
];

fn ask(lines: &[&str]) -> Value {
    let question = json!({ "ask": "parts_list", "lines": lines, "line_v": 120 });
    serde_json::from_str(&answer_text(&Book::default(), &question.to_string())).expect("JSON")
}

#[test]
fn every_line_is_accounted_for() {
    let mut lines: Vec<&str> = LIST.iter().map(|(text, ..)| *text).collect();
    lines.insert(5, "   ");
    let answer = ask(&lines);
    let rows = answer["lines"].as_array().expect("rows");
    assert_eq!(rows.len(), LIST.len());
    for (row, (text, state, buy)) in rows.iter().zip(LIST) {
        assert_eq!((row["text"].as_str(), row["state"].as_str()), (Some(text), Some(state)), "{row}");
        assert_eq!(row["line"].as_u64().map(|line| lines[line as usize - 1]), Some(text));
        assert!(row["says"].as_str().is_some_and(|says| !says.is_empty()), "{row}");
        let bought = row["buy"].as_array().expect("a list");
        assert_eq!(bought.is_empty(), state != "buy", "{row}");
        assert!(
            bought.is_empty() || bought.iter().any(|part| part.as_str().is_some_and(|part| part.contains(buy))),
            "{row}"
        );
    }
    let words: Vec<&str> = rows[10]["unused"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    assert_eq!(words, ["bananas"]);
    insta::assert_snapshot!(answer["verdict"]["says"].as_str().unwrap_or(""), @"27 lines: 17 to buy for, 2 to leave in when good, 5 to look at first, 2 no capacitor or resistor, 1 cannot be read. Capacitors of which the line does not say where they sit are taken for ordinary DC places: one at the power line needs safety class X2 or Y2.");
    // What is bought is what the lines ask for, no more and no less.
    let shopping = answer["shopping"].as_array().expect("a list");
    let count: u64 = shopping.iter().filter_map(|item| item["count"].as_u64()).sum();
    let asked: usize = rows.iter().map(|row| row["buy"].as_array().map_or(0, Vec::len)).sum();
    // One line is for two.
    assert_eq!(count as usize, asked + 1);
    let coupling =
        shopping.iter().find(|item| item["shop"].as_str().is_some_and(|shop| shop.starts_with("film 0.022")));
    assert_eq!(coupling.map(|item| (item["count"].clone(), item["lines"].clone())), Some((json!(2), json!([2, 3]))));
    // The sections of a dropper keep their values within 5 %, wire-wound.
    let dropper: Vec<&str> = rows[21]["buy"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    assert_eq!(dropper, ["300 ohm, 10 W wire-wound", "39 ohm, 5 W wire-wound"]);
}

/// The lines that would hurt somebody if they were bought for without a word. Common practice, no source.
#[test]
fn nothing_is_bought_at_the_line_without_a_class() {
    for text in [
        ".05 400 V line bypass",
        "C1 .1 600v line",
        "C2 .05 line to chassis",
        ".1 400 across the line",
        "C3 .1 mains filter",
        "C4 .1 400v across primary",
        "C5 .05 hot side to ground",
        "C6 .01 AC input",
        "C7 .05 antenna",
        "C8 .1 chassis to ground",
        "C10 .02 power switch",
        ".02 mfd power switch",
        "C9 .01 plug",
        "C11 .01 mains to chassis",
        "C12 .05 live to chassis",
        "C13 .05 neutral to earth",
        "C14 .1 aerial",
        "C15 .1 HT- to chassis",
        "C16 .1 HT negative to chassis",
    ] {
        let answer = ask(&[text]);
        assert!(answer["lines"][0]["state"] != "other" && answer["lines"][0]["state"] != "leave", "{text}");
        for item in answer["shopping"].as_array().into_iter().flatten() {
            let shop = item["shop"].as_str().unwrap_or("");
            assert!(shop.contains("class X2") || shop.contains("class Y"), "{text}: {shop}");
        }
    }
    // At the mains by either name.
    for (us, gb) in
        [("C1 .05 line to chassis", "C1 .05 mains to chassis"), (".1 across the line", ".1 across the mains")]
    {
        assert_eq!(ask(&[us])["lines"][0]["buy"], ask(&[gb])["lines"][0]["buy"], "{gb}");
    }
    let open = ask(&["C1 .05 400"]);
    assert!(open["verdict"]["says"].as_str().is_some_and(|says| says.contains("class X2 or Y2")));
    assert_eq!(ask(&["", "  "])["answer"], "error");
}

/// What a line says in American and in British words is the same part in the same place.
#[test]
fn words_of_both_countries_are_read() {
    for (us, gb) in [
        ("C1 16 mfd 450 V first filter", "C1 16 mfd 450 V reservoir"),
        ("C2 16 mfd 450 V second filter", "C2 16 mfd 450 V second smoothing"),
        ("C3 .005 600 plate bypass", "C3 .005 600 anode bypass"),
        ("C4 .05 400 line to chassis", "C4 .05 400 mains to chassis"),
        ("C5 .05 400 hot to chassis", "C5 .05 400 live to chassis"),
        ("C6 .1 400 B- to chassis", "C6 .1 400 HT- to chassis"),
        ("C6 .1 400 B- to chassis", "C6 .1 400 HT negative to chassis"),
        ("C7 .01 antenna isolation", "C7 .01 aerial isolation"),
        ("C8 .01 ground", "C8 .01 earth"),
        ("R1 220k plate load", "R1 220k anode load"),
        ("R2 1.5k 2W filter", "R2 1.5k 2W smoothing"),
        ("V1 12SK7 tube", "V1 12SK7 valve"),
    ] {
        let answer = ask(&[us, gb]);
        let told = |at: usize| {
            let row = &answer["lines"][at];
            assert_eq!(row["unused"], json!([]), "{row}");
            (row["state"].clone(), row["reads"].clone(), row["buy"].clone(), row["says"].clone())
        };
        assert_eq!(told(0), told(1), "{us} and {gb}");
        assert_ne!(told(0).0, "unread", "{us}");
    }
}

proptest! {
    #[test]
    fn no_line_is_dropped_and_none_panics(lines in proptest::collection::vec("\\PC{0,40}", 1..30)) {
        let texts: Vec<&str> = lines.iter().map(String::as_str).collect();
        let wanted: Vec<&str> = texts.iter().copied().filter(|text| !text.trim().is_empty()).collect();
        let answer = ask(&texts);
        let rows: Vec<&str> = answer["lines"].as_array().into_iter().flatten().filter_map(|row| row["text"].as_str()).collect();
        prop_assert_eq!(rows, wanted);
    }

    #[test]
    fn no_near_line_is_dropped(lines in proptest::collection::vec("(C[0-9]|R[0-9]|) ?[0-9./+x-]{1,6} ?(mfd|meg|k|ohm|mmf|v|)( coupling| line| filter| qty 2| measures|)", 1..20)) {
        let texts: Vec<&str> = lines.iter().map(String::as_str).collect();
        let rows = ask(&texts);
        prop_assert_eq!(rows["lines"].as_array().map_or(0, Vec::len), texts.len());
        for row in rows["lines"].as_array().into_iter().flatten() {
            prop_assert_eq!(row["state"] == "buy", row["buy"].as_array().is_some_and(|buy| !buy.is_empty()));
        }
    }
}
