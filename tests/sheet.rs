//! A whole set at once: a job sheet of our own invention, put to all engines.

#![allow(clippy::expect_used, clippy::cast_possible_truncation)]

use serde_json::{Value, json};
use stand_in::ask::answer_text;
use stand_in::book::Book;

/// Asks the core.
fn ask(question: &Value) -> Value {
    serde_json::from_str(&answer_text(&Book::shipped(), &question.to_string())).expect("JSON")
}

fn answer(sheet: &Value) -> Value {
    let answer = ask(&json!({ "ask": "sheet", "sheet": sheet }));
    assert_eq!(answer["answer"], "sheet", "{answer}");
    answer
}

/// A five-tube AC/DC superhet that never was, with everything a flea market adds to it.
fn demo() -> Value {
    let part = |reference: &str, marking: &str, role: &str| match role {
        "" => json!({ "reference": reference, "marking": marking }),
        role => json!({ "reference": reference, "marking": marking, "role": role }),
    };
    let mut parts = vec![
        part("C1", ".05 mfd 400 V", "line_to_chassis"),
        part("C2", ".1 mfd 400 V", "across_line"),
        part("C3", "40 mfd 150 V", "first_filter"),
        part("C4", "20 mfd 150 V", "second_filter"),
        part("C5", ".02 mfd 400 V", "coupling"),
        part("C6", ".005 mfd 600 V", "tone"),
        part("C7", ".05 mfd 200 V", "agc"),
        part("C8", "250 mmf mica", "bypass"),
        part("C9", ".1 mfd 200 V", ""),
        part("C10", "20 mfd 25 V", "cathode_bypass"),
        part("C11", "100 mmf mica", "tuned"),
        part("C12", ".01 mfd 400 V", "coupling"),
        part("C13", ".2 mfd 400 V", "bus_to_chassis"),
        part("R1", "22k 1/2W", "grid_leak"),
        part("R2", "3.3 meg", "grid_leak"),
        part("R3", "500k", "plate_load"),
        part("R4", "150 ohm 1/2W", "cathode"),
        part("R5", "1200 ohm 1W", "filter"),
        part("R6", "220k", "bus_to_chassis"),
        part("R7", "10 meg", "grid_leak"),
        part("R8", "470k", "grid_leak"),
        part("R9", "33 ohm 1W", "surge"),
        part("R10", "volume control 500k", ""),
        part("R11", "47k 1/2W", "plate_load"),
        part("R12", "smudged, brown body", ""),
    ];
    parts[15]["measured"] = "680k".into();
    parts[20]["measured"] = "490k".into();
    parts[9]["done"] = true.into();
    json!({
        "name": "Bench set",
        "heaters": "series",
        "line_v": 120,
        "line_hz": 60,
        "tubes": [
            { "type": "35Z5GT", "place": "V5", "state": "good" },
            { "type": "50L6GT", "place": "V4", "state": "weak" },
            { "type": "12SK7", "place": "V2", "state": "dead", "fitted": "12SG7" },
            { "type": "12SA7", "place": "V1", "state": "good" },
            { "type": "12SQ7", "place": "V3" },
        ],
        "rectifier": { "filter_ohm": 1200, "second_filter_uf": 20, "after_filter_ma": 20 },
        "parts": parts,
        "readings": [{ "key": "b_plus_first", "value": 88 }, { "key": "heater.V5", "value": 34 }],
    })
}

/// The whole answer as a person reads it.
fn told(answer: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or("").to_owned();
    let rows = |name: &str| answer[name].as_array().cloned().unwrap_or_default();
    let list = |value: &Value| value.as_array().into_iter().flatten().map(text).collect::<Vec<_>>().join("; ");
    let mut lines = vec![format!(
        "{} {} {}",
        text(&answer["verdict"]["mark"]),
        text(&answer["verdict"]["word"]),
        text(&answer["verdict"]["says"])
    )];
    for row in rows("totals") {
        lines.push(format!("# {}: {} ({})", text(&row["name"]), text(&row["value"]), text(&row["mark"])));
    }
    for row in rows("trouble") {
        lines.push(format!(
            "! {} {} {} {} | {}: {}",
            text(&row["danger"]),
            text(&row["mark"]),
            text(&row["section"]),
            row["at"],
            text(&row["place"]),
            text(&row["says"])
        ));
    }
    for row in rows("tubes") {
        lines.push(format!(
            "T {} {}{} | {} | {} | {}",
            text(&row["mark"]),
            text(&row["type"]),
            if row["wanted"] == true { " wanted" } else { "" },
            text(&row["word"]),
            text(&row["says"]),
            list(&row["markings"])
        ));
        for stand_in in row["stand_ins"].as_array().into_iter().flatten() {
            lines.push(format!("    {} {}", text(&stand_in["grade"]), text(&stand_in["type"])));
        }
    }
    for row in rows("parts") {
        lines.push(format!(
            "P {} {} {} | {} | {} | {}",
            text(&row["reference"]),
            text(&row["state"]),
            text(&row["mark"]),
            text(&row["reads"]),
            list(&row["buy"]),
            text(&row["says"])
        ));
    }
    for row in rows("shopping") {
        lines.push(format!(
            "$ {} | {} x {} | {} | {}",
            text(&row["group"]),
            row["count"],
            text(&row["shop"]),
            text(&row["code"]),
            list(&row["places"])
        ));
    }
    for row in rows("bring_up") {
        let read = match &row["read"] {
            Value::Object(read) => format!(" [{} {} {}]", read["value"], text(&read["mark"]), text(&read["says"])),
            _ => String::new(),
        };
        lines.push(format!(
            "> {} {}{} | {} | {} | {}{read}",
            text(&row["moment"]),
            text(&row["key"]),
            if row["measure"] == true { " measured" } else { "" },
            text(&row["says"]),
            text(&row["expect"]),
            text(&row["otherwise"])
        ));
    }
    for row in rows("cautions") {
        lines.push(format!("* {}", text(&row["topic"])));
    }
    lines.join("\n")
}

#[test]
fn the_whole_set_as_a_person_reads_it() {
    insta::assert_snapshot!(told(&answer(&demo())));
}
