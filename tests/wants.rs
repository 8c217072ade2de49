//! What is looked for, what lies on the table, what is bought for several sets. The sets are of our own invention.
#![allow(clippy::expect_used)]

use std::sync::LazyLock;

use proptest::prelude::*;
use serde_json::{Value, json};
use stand_in::ask::answer_text;
use stand_in::book::Book;

static SHIPPED: LazyLock<Book> = LazyLock::new(Book::shipped);

fn ask(book: &Book, question: &Value) -> Value {
    serde_json::from_str(&answer_text(book, &question.to_string())).expect("JSON")
}

fn with_stock(csv: &str) -> Book {
    let mut book = SHIPPED.clone();
    assert!(book.load("stock", csv).expect("a table").faults.is_empty());
    book
}

fn tube(place: &str, r#type: &str, state: &str) -> Value {
    json!({ "type": r#type, "place": place, "state": state })
}

/// A string of 0.15 A that looks for two tubes.
fn kitchen() -> Value {
    json!({
        "name": "kitchen set",
        "heaters": "series",
        "line_v": 117,
        "tubes": [
            tube("V5", "35Z5GT", "good"), tube("V4", "50L6GT", "good"), tube("V2", "12SK7", "dead"),
            tube("V1", "12SA7", "good"), tube("V3", "12SQ7", "weak"),
        ],
        "parts": [
            { "reference": "C4", "marking": ".02 mfd 400v", "role": "coupling" },
            { "reference": "C9", "marking": ".05 mfd 400v", "role": "line_to_chassis" },
            { "reference": "R7", "marking": "500k 1/2W", "measured": "680k" },
            { "reference": "C8", "marking": "?? smudge" },
        ],
    })
}

/// A winding of 6.3 V.
fn parlour() -> Value {
    json!({
        "name": "parlour set",
        "heaters": "parallel",
        "winding_v": 6.3,
        "winding_a": 3,
        "tubes": [tube("V1", "6BE6", "good"), tube("V2", "6BA6", "missing"), tube("V3", "6AL5", "good"), { "type": "lamp 47" }],
        "parts": [{ "reference": "C2", "marking": ".02 mfd 400v", "role": "coupling" }],
    })
}

/// A string of 0.3 A that looks for the same pentode, and for a tube that nobody knows.
fn attic() -> Value {
    json!({
        "name": "attic set",
        "heaters": "series",
        "line_v": 117,
        "tubes": [tube("V1", "6BE6", "good"), tube("V2", "6BA6", "weak"), tube("V7", "6QQ99", "dead")],
        "parts": [],
    })
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

fn strings(value: &Value) -> Vec<String> {
    value.as_array().map(|all| all.iter().map(text).collect()).unwrap_or_default()
}

/// The want list as a person reads it.
fn read_wants(answer: &Value) -> String {
    let mut out = format!("{} {}\n", text(&answer["verdict"]["word"]), text(&answer["verdict"]["says"]));
    for want in answer["wants"].as_array().into_iter().flatten() {
        let places = strings(&want["places"]).join("; ");
        out += &format!("\n{} x {} ({places})\n  {}\n", want["count"], text(&want["type"]), text(&want["says"]));
        for row in want["take"].as_array().into_iter().flatten() {
            out += &format!("  {} {}\n", text(&row["word"]), strings(&row["markings"]).join(" "));
        }
        for row in want["only"].as_array().into_iter().flatten() {
            let places = strings(&row["places"]).join("; ");
            out += &format!("  only {places}: {} {}\n", text(&row["word"]), strings(&row["markings"]).join(" "));
        }
        for row in want["in_stock"].as_array().into_iter().flatten() {
            let only = strings(&row["only"]).join("; ");
            let (marking, place) = (text(&row["marking"]), text(&row["place"]));
            out += &format!("  held: {} {marking}, {place}, {} {only}\n", row["count"], text(&row["grade"]));
        }
    }
    out
}

#[test]
fn a_want_list() {
    let book = with_stock(
        "marking,count,place,tested\nVT-131,2,box,\n12SG7,1,drawer 3,good\n6BJ6,4,drawer 1,\n12SQ7,0,drawer 3,\n12SK7,9,,\n",
    );
    let answer = ask(&book, &json!({ "ask": "wants", "sheets": [kitchen(), parlour(), attic()] }));
    insta::assert_snapshot!(read_wants(&answer));
    // The worst grade of all sockets counts: 6BJ6 has half the heater current, so a winding feeds it and a string does not.
    let six = answer["wants"].as_array().expect("wants").iter().find(|want| want["type"] == "6BA6").expect("6BA6");
    assert_eq!(strings(&six["places"]), ["parlour set, V2", "attic set, V2"]);
    let taken: Vec<String> =
        six["take"].as_array().expect("take").iter().flat_map(|row| strings(&row["markings"])).collect();
    assert!(taken.contains(&"EF93".to_owned()));
    let plug_in = |row: &&Value| matches!(row["grade"].as_str(), Some("same" | "as_is" | "as_is_different"));
    let rows = six["take"].as_array().expect("take").iter().filter(plug_in);
    assert!(rows.flat_map(|row| strings(&row["markings"])).all(|marking| marking != "6BJ6"));
}

#[test]
fn nothing_is_looked_for() {
    for sheets in [json!([]), json!([{ "name": "", "tubes": [tube("", "12SK7", "good")], "parts": [] }])] {
        let answer = ask(&SHIPPED, &json!({ "ask": "wants", "sheets": sheets }));
        assert_eq!(
            (text(&answer["verdict"]["word"]), answer["wants"].as_array().map(Vec::len)),
            ("Nothing to find.".to_owned(), Some(0))
        );
    }
}

/// The table as a person reads it.
fn read_table(answer: &Value) -> String {
    let mut out = format!("{} {}\n", text(&answer["verdict"]["word"]), text(&answer["verdict"]["says"]));
    for find in answer["found"].as_array().into_iter().flatten() {
        out += &format!(
            "\n{} ({}): {} [{}] {}\n",
            text(&find["typed"]),
            text(&find["type"]),
            text(&find["word"]),
            text(&find["mark"]),
            text(&find["says"])
        );
        for row in find["serves"].as_array().into_iter().flatten() {
            out += &format!(
                "  {} {} {} wanted {}: {} {}\n",
                text(&row["sheet"]),
                text(&row["place"]),
                text(&row["wants"]),
                row["wanted"],
                text(&row["word"]),
                text(&row["says"])
            );
        }
    }
    out
}

#[test]
fn a_table_of_tubes() {
    let book = with_stock("marking,count,place\nVT-131,2,box\n12SK7GT,1,drawer 3\n");
    let question = json!({
        "ask": "on_the_table",
        "text": "12SG7, 12sk7 GT 35Z5 6BJ6\n12AX7 6BA7 12QQ5 8417 9999 12SQ7 12SQ7",
        "sheets": [kitchen(), parlour(), attic()],
    });
    let answer = ask(&book, &question);
    insta::assert_snapshot!(read_table(&answer));
    // Every word is accounted for, once.
    let typed: Vec<String> =
        answer["found"].as_array().expect("found").iter().map(|find| text(&find["typed"])).collect();
    assert_eq!(typed.len(), 10);
    for word in ["12QQ5", "9999", "12SQ7"] {
        assert_eq!(typed.iter().filter(|typed| *typed == word).count(), 1, "{word}");
    }
}

#[test]
fn an_empty_table_and_no_sets() {
    let word = |typed: &str, sheets: Value| {
        text(&ask(&SHIPPED, &json!({ "ask": "on_the_table", "text": typed, "sheets": sheets }))["verdict"]["word"])
    };
    assert_eq!(word(" ", json!([kitchen()])), "Nothing typed yet.");
    assert_eq!(word("12SK7", json!([])), "No sets to look through.");
    assert_eq!(word("12QQ5", json!([kitchen()])), "Cannot tell.");
    assert_eq!(word("5Y3GT", json!([kitchen()])), "Nothing here for my sets.");
    assert_eq!(word("12AX7", json!([kitchen()])), "Only after changes.");
    assert_eq!(word("12SK7", json!([kitchen()])), "Take 12SK7.");
}

fn read_shopping(answer: &Value) -> String {
    let mut out = format!("{} {}\n", text(&answer["verdict"]["word"]), text(&answer["verdict"]["says"]));
    for row in answer["shopping"].as_array().into_iter().flatten() {
        out += &format!(
            "{}: {} x {} | {} | {} | {} in stock\n",
            text(&row["group"]),
            row["count"],
            text(&row["shop"]),
            text(&row["code"]),
            strings(&row["places"]).join("; "),
            row["in_stock"]
        );
    }
    out += &format!("open: {}\n", strings(&answer["open"]).join("\n      "));
    let topics: Vec<String> =
        answer["cautions"].as_array().into_iter().flatten().map(|row| text(&row["topic"])).collect();
    out += &format!("cautions: {}\n", topics.join("; "));
    out
}

#[test]
fn one_list_for_several_sets() {
    let book = with_stock(
        "marking,count,place\nVT-131,2,box\n12SG7,1,drawer 3\n.022 uF 630 V film,12,drawer 9\n0.022 uF 1000 V film,1,drawer 9\n\
         .022 uF 400 V film,7,drawer 9\n.022 uF 630 V paper,5,drawer 9\n470k 1/2 W metal film,30,drawer 9\n470k 1/4 W metal film,8,drawer 9\n\
         510k 1/2 W metal film,4,drawer 9\n",
    );
    let answer = ask(&book, &json!({ "ask": "shopping", "sheets": [kitchen(), parlour(), attic()] }));
    insta::assert_snapshot!(read_shopping(&answer));
    // One set alone is not named at its places.
    let one = ask(&book, &json!({ "ask": "shopping", "sheets": [parlour()] }));
    let places: Vec<String> =
        one["shopping"].as_array().expect("rows").iter().flat_map(|row| strings(&row["places"])).collect();
    assert_eq!(places, ["V2", "C2"]);
}

/// Of stock only that counts of which it is sure: the same value, made the same way, for at least the same volts or watts.
#[test]
fn what_counts_as_in_stock() {
    let in_stock = |marking: &str, part: &Value| {
        let book = with_stock(&format!("marking,count\n\"{marking}\",3\n"));
        let sheet = json!({ "name": "set", "tubes": [], "parts": [part] });
        let answer = ask(&book, &json!({ "ask": "shopping", "sheets": [sheet] }));
        let rows = answer["shopping"].as_array().cloned().unwrap_or_default();
        assert_eq!(rows.len(), 1, "{answer}");
        (text(&rows[0]["shop"]), rows[0]["in_stock"].as_u64())
    };
    let coupling = json!({ "marking": ".02 mfd 400v", "reference": "C4", "role": "coupling" });
    let load = json!({ "marking": "470k 1/2W", "reference": "R4", "measured": "700k" });
    let filter = json!({ "marking": "20 mfd 450v electrolytic", "reference": "C1", "role": "second_filter" });
    let line = json!({ "marking": ".05 mfd 400v", "reference": "C9", "role": "across_line" });
    for (marking, part, counts) in [
        (".022 uF 630 V film", &coupling, true),
        ("film 22 nF 630V", &coupling, true),
        (".022 uF 1600 V film", &coupling, true),
        (".022 uF 400 V film", &coupling, false),
        (".022 uF film", &coupling, false),
        (".022 uF 630 V", &coupling, false),
        (".022 uF 630 V paper", &coupling, false),
        (".022 uF 630 V ceramic", &coupling, false),
        (".022 uF 630 VAC film", &coupling, false),
        (".02 uF 630 V film", &coupling, false),
        ("470k 1/2 W metal film", &load, true),
        ("470 kohm 1 W metal film 1 %", &load, true),
        ("470k 1/2 W carbon", &load, false),
        ("470k 1/4 W metal film", &load, false),
        ("470k metal film", &load, false),
        ("470k 1/2 W metal film 10 %", &load, false),
        ("22 uF 450 V electrolytic", &filter, true),
        ("22 uF 350 V electrolytic", &filter, false),
        ("22 uF 450 V film", &filter, false),
        (".047 uF 275 VAC X2", &line, true),
        (".047 uF 630 V film", &line, false),
        (".047 uF 275 VAC film", &line, false),
    ] {
        let (shop, count) = in_stock(marking, part);
        assert_eq!(count, Some(if counts { 3 } else { 0 }), "{marking} for {shop}");
    }
}

fn word() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("12SK7".to_owned()),
        Just("cord 180 ohm".to_owned()),
        Just("6QQ9".to_owned()),
        Just("35Z5GT".to_owned()),
        Just(".02 mfd 400v".to_owned()),
        Just("470k".to_owned()),
        "[-0-9a-zA-Z./ ,]{0,10}",
        "\\PC{0,6}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever a sheet says, there is an answer.
    #[test]
    fn any_sheet_is_answered(
        words in proptest::collection::vec(word(), 12),
        states in proptest::collection::vec(0usize..5, 4),
        heaters in 0usize..4,
        volts in 20.0..300.0f64,
        held in proptest::collection::vec(word(), 0..4),
    ) {
        let mut book = SHIPPED.clone();
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(["marking", "place"]).expect("a row");
        held.iter().for_each(|marking| writer.write_record([marking.as_str(), "x"]).expect("a row"));
        book.load("stock", &String::from_utf8(writer.into_inner().expect("text")).expect("UTF-8"));
        let state = |at: usize| ["good", "weak", "dead", "missing", "good"][states[at]];
        let mut sheet = json!({
            "name": words[0],
            "line_v": volts,
            "winding_v": volts / 10.0,
            "tubes": [tube(&words[1], &words[2], state(0)), tube("V2", &words[3], state(1)), tube(&words[4], &words[5], state(2)),
                { "type": words[6], "fitted": words[7], "state": state(3) }],
            "parts": [{ "marking": words[8], "reference": words[9] }, { "marking": words[10], "measured": words[11] }],
        });
        if let Some(fed) = [None, Some("series"), Some("parallel"), Some("battery")][heaters] {
            sheet["heaters"] = json!(fed);
        }
        let sheets = json!([sheet.clone(), sheet]);
        for question in [
            json!({ "ask": "wants", "sheets": sheets }),
            json!({ "ask": "on_the_table", "text": words.join(" "), "sheets": sheets }),
            json!({ "ask": "shopping", "sheets": sheets }),
        ] {
            let answer = ask(&book, &question);
            prop_assert!(answer["answer"] == question["ask"], "{answer}");
        }
    }
}
