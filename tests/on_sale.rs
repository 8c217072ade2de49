//! What is sold, as tables a user may edit.
#![allow(clippy::expect_used)]

use stand_in::ask::answer_text;
use stand_in::book::Book;
use stand_in::on_sale::OnSale;

fn verdict(book: &Book, question: &str) -> String {
    let answer: serde_json::Value = serde_json::from_str(&answer_text(book, question)).expect("JSON");
    answer["verdict"]["says"].as_str().unwrap_or("").to_owned()
}

/// An engine that is asked without a book knows what the shipped tables say, and no more.
#[test]
fn the_shipped_tables_say_what_is_built_in() {
    assert_eq!(Book::shipped().on_sale(), OnSale::default());
    assert_eq!(Book::default().on_sale(), OnSale::default());
}

#[test]
fn load_of_export_loses_nothing() {
    for table in ["capacitors", "resistors"] {
        let shipped = Book::shipped();
        let csv = shipped.export(table).expect("a table");
        let mut book = Book::shipped();
        let loaded = book.load(table, &csv).expect("a table");
        assert!(loaded.faults.is_empty() && loaded.new.count + loaded.changed.count == 0, "{table}");
        assert_eq!(book.export(table).expect("a table"), csv);
        assert_eq!(book.on_sale(), shipped.on_sale());
        let own = book.export(&format!("own_{table}")).expect("a table");
        assert_eq!(own.lines().count(), 1, "nothing is the user's own: {own}");
    }
}

#[test]
fn a_users_row_changes_what_is_offered() {
    let coupling = r#"{"ask":"capacitor","marking":".02 400v","role":"coupling"}"#;
    let load = r#"{"ask":"resistor","marking":"470k","circuit_v":280}"#;
    let mut book = Book::shipped();
    assert!(
        verdict(&book, coupling).contains("630 V DC") && verdict(&book, load).contains("470 kohm, 1 W metal oxide")
    );
    let report = book.load("capacitors", "part,volts,shop\nfilm,50 63 100 250 400 800 1600,corner\n").expect("a table");
    assert!(report.changed.count == 1 && report.faults.is_empty());
    // The usual stock is not below 630 V, so the next step.
    assert!(verdict(&book, coupling).contains("800 V DC"), "{}", verdict(&book, coupling));
    assert!(book.export("own_capacitors").is_some_and(|own| own.contains("corner")));
    // A body of 1/4 W that bears 350 V: 280 V and 10 % more are 308 V.
    let row = "part,construction,watts,working_v,series,from_ohm,to_ohm\nhigh-volt film,metal film,0.4,350,E24,1000,10000000\n";
    assert_eq!(book.load("resistors", row).map(|report| report.new.count), Some(1));
    assert!(verdict(&book, load).contains("0.4 W metal film"), "{}", verdict(&book, load));
}

#[test]
fn a_bad_row_leaves_what_was_known() {
    let rows = [
        ("capacitors", "part,volts\nfilm,lots\n"),
        ("capacitors", "part,volts\nfilm,400 250\n"),
        ("capacitors", "part,volts\nfilm,\n"),
        ("capacitors", "part,from_uf,to_uf\nfilm,10,1\n"),
        ("capacitors", "part,series\nfilm,E7\n"),
        ("capacitors", "part,volts\nmagic,100\n"),
        ("resistors", "part,watts\nmetal film 1/4 W,-1\n"),
        ("resistors", "part,working_v\nmetal film 1/4 W,\n"),
        ("resistors", "part,construction\nmetal film 1/4 W,clay\n"),
    ];
    for (table, csv) in rows {
        let mut book = Book::shipped();
        let report = book.load(table, csv).expect("a table");
        assert_eq!(report.faults.kept.len(), 1, "{csv}");
        assert_eq!(book.on_sale(), OnSale::default(), "{csv}");
    }
}

/// A quarter-watt part bears 250 V (makers' sheets): on 300 V it is refused, whatever the heat.
#[test]
fn a_quarter_watt_part_on_300_volts_is_refused() {
    let book = Book::shipped();
    let question = r#"{"ask":"resistor","marking":"1 meg 1/4 W","role":"plate_load","circuit_v":300}"#;
    let answer: serde_json::Value = serde_json::from_str(&answer_text(&book, question)).expect("JSON");
    let parts = answer["stand_ins"].as_array().expect("parts");
    assert!(!parts.is_empty());
    for part in parts {
        let single = part["in_series"] == 1;
        assert!(!single || part["rated_w"].as_f64() > Some(0.25), "{part}");
        assert!(part["working_v"].as_f64() >= Some(330.0), "{part}");
    }
}

/// Whatever a table says, a part at the line bears the line, or there is none.
#[test]
fn a_table_cannot_weaken_a_part_at_the_line() {
    let mut book = Book::shipped();
    let table = "part,volts,to_uf\nclass Y2,50 100,10\nclass Y1,100,10\nclass X2,100,10\n";
    assert!(book.load("capacitors", table).is_some_and(|report| report.faults.is_empty()));
    for role in ["line_to_chassis", "across_line", "bus_to_chassis", "aerial_isolation"] {
        for line_v in [120, 230] {
            let question = format!(r#"{{"ask":"capacitor","marking":".05 400","role":"{role}","line_v":{line_v}}}"#);
            let answer: serde_json::Value = serde_json::from_str(&answer_text(&book, &question)).expect("JSON");
            assert!(
                answer["stand_ins"].as_array().is_some_and(Vec::is_empty) && answer["verdict"]["mark"] == "no",
                "{answer}"
            );
        }
    }
}
