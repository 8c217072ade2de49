//! What the user has: a table told apart by marking and place, in and out as CSV, and shown by `stock`. All rows are invented.
#![allow(clippy::expect_used)]

use std::sync::LazyLock;

use proptest::prelude::*;
use serde_json::{Value, json};
use stand_in::ask::answer_text;
use stand_in::book::Book;

static SHIPPED: LazyLock<Book> = LazyLock::new(Book::shipped);

fn with(csv: &str) -> (Book, Vec<String>) {
    let mut book = SHIPPED.clone();
    let loaded = book.load("stock", csv).expect("a table");
    (book, loaded.faults.kept.iter().map(ToString::to_string).collect())
}

fn ask(book: &Book, question: &Value) -> Value {
    serde_json::from_str(&answer_text(book, &question.to_string())).expect("JSON")
}

fn rows(book: &Book, find: &str) -> Vec<String> {
    let answer = ask(book, &json!({ "ask": "stock", "find": find }));
    let cell = |row: &Value, name: &str| row[name].as_str().unwrap_or_default().to_owned();
    let shown = answer["rows"].as_array().expect("rows").iter();
    shown
        .map(|row| {
            format!("{} | {} | {} | {}", cell(row, "marking"), cell(row, "type"), row["count"], cell(row, "place"))
        })
        .collect()
}

const STOCK: &str = "\
marking,count,place,tested,note,bought at
6SK7,2,drawer 3,85 %,,flea market
12SK7 GT,3,drawer 3,good,,
12SK7GT,1,attic,,pulls,
VT-131,,box,,,
.022 uF 630 V film,12,drawer 9,,yellow,
4.7k 1/2 W,30,drawer 9,,,
5749,1,drawer 3,,,
47 lamp,5,drawer 9,,,
";

#[test]
fn rows_are_told_apart_by_marking_and_place() {
    let (mut book, faults) = with(STOCK);
    assert_eq!(faults, [""; 0]);
    assert_eq!(
        rows(&book, "drawer 3"),
        ["6SK7 | 6SK7 | 2 | drawer 3", "12SK7 GT | 12SK7GT | 3 | drawer 3", "5749 | 6BA6 | 1 | drawer 3"]
    );
    // A row without a count is the one piece it speaks of; a figure is no tube.
    assert_eq!(rows(&book, "vt131"), ["VT-131 | 12SK7 | 1 | box"]);
    assert_eq!(rows(&book, "1/2 w"), ["4.7k 1/2 W |  | 30 | drawer 9"]);
    // Fewer columns, another case and blanks: the same row, and what the file does not speak of stays.
    let report = book.load("stock", "place,marking,count\n Drawer  3 ,12sk7  gt,2\n").expect("a table");
    assert_eq!((report.new.count, report.changed.count, report.changes.count), (0, 1, 1));
    let change = report.changes.first.first().expect("a change");
    assert_eq!(
        [&change.name, &change.unit, &change.column, &change.old, &change.new],
        ["12SK7 GT", "drawer 3", "count", "3", "2"]
    );
    assert!(book.export("own_stock").is_some_and(|own| own.contains("12SK7 GT,2,drawer 3,good,,\n")));
    // Another place is another row.
    assert_eq!(book.load("stock", "place,marking\ncellar,12SK7GT\n").map(|report| report.new.count), Some(1));
    assert_eq!(book.export("stock"), book.export("own_stock"), "nothing is shipped");
}

/// A point tells parts apart, though no tube.
#[test]
fn figures_with_and_without_a_point_are_two_parts() {
    let (book, faults) = with("marking,count\n1.5k,10\n15k,20\n0.1/400,1\n40/20 uF,1\n80,1\n12AX7/7025,1\n");
    assert_eq!(faults, [""; 0]);
    assert_eq!(
        rows(&book, ""),
        [
            "0.1/400 |  | 1 | ",
            "1.5k |  | 10 | ",
            "12AX7/7025 | 12AX7 | 1 | ",
            "15k |  | 20 | ",
            "40/20 uF |  | 1 | ",
            "80 | 80 | 1 | "
        ]
    );
}

#[test]
fn what_cannot_be_read_is_told_by_line_and_column() {
    let (book, faults) = with(
        "marking,count,place\n6SK7,some,a\n,3,b\n6SA7,1.5,c\n6SQ7,-1,d\n6V6GT,100001,e\n6SN7GT,2,f\n6sn7gt,3,F\n6SN7GT,4,g\n",
    );
    insta::assert_snapshot!(faults.join("\n"), @r#"
    stock.csv line 3, column marking: found "", accepted: what is printed on the part, such as 12SK7
    stock.csv line 8, column marking: found "6sn7gt, F", accepted: each only once; the first row stands
    stock.csv line 2, column count: found "some", accepted: a whole number from 0 to 100000
    stock.csv line 4, column count: found "1.5", accepted: a whole number from 0 to 100000
    stock.csv line 5, column count: found "-1", accepted: a whole number from 0 to 100000
    stock.csv line 6, column count: found "100001", accepted: a whole number from 0 to 100000
    "#);
    assert_eq!(rows(&book, ""), ["6SN7GT | 6SN7GT | 2 | f", "6SN7GT | 6SN7GT | 4 | g"]);
    // The rows are kept for whoever mends them.
    assert!(book.export("own_stock").is_some_and(|own| own.contains("6SK7,some,a")));
    let (mut mended, _) = with("marking,count,place\n6SK7,some,a\n");
    mended.load("stock", "marking,count,place\n6SK7,4,a\n").expect("a table");
    assert_eq!(rows(&mended, ""), ["6SK7 | 6SK7 | 4 | a"]);
}

#[test]
fn a_row_is_taken_out_by_its_key() {
    let (mut book, _) = with(STOCK);
    let answer = ask(&book, &json!({ "ask": "stock", "find": "attic" }));
    let key = answer["rows"][0]["key"].as_str().expect("a key").to_owned();
    assert_eq!(book.forget("stock", &key), Some(()));
    assert_eq!(book.forget("stock", &key), None, "it is gone");
    assert_eq!(book.forget("stock", "12SK7GT"), None, "none lies nowhere");
    assert_eq!(book.forget("stock", "6sk7\tDRAWER 3"), Some(()), "however it is typed");
    assert_eq!(book.stock().len(), 6);
    assert_eq!(rows(&book, "12SK7GT"), ["12SK7 GT | 12SK7GT | 3 | drawer 3"]);
    book.load("stock", "marking,place\n12SK7GT,attic\n").expect("a table");
    assert_eq!(book.stock().len(), 7);
    assert_eq!(rows(&book, "attic"), ["12SK7GT | 12SK7GT | 1 | attic"]);
}

#[test]
fn the_columns_tell_that_it_is_the_stock() {
    for csv in ["marking,count\n6SK7,1\n", "\u{feff}count;marking\n1;6SK7\n", "marking\n6SK7\n"] {
        let mut book = SHIPPED.clone();
        assert_eq!(book.load("", csv).map(|report| report.new.count), Some(1), "{csv}");
        assert_eq!(book.stock().len(), 1, "{csv}");
    }
    let mut book = SHIPPED.clone();
    book.load("", "reference,marking,role\nC4,.02 400v,coupling\n");
    assert!(book.stock().is_empty(), "a parts list is no stock");
}

#[test]
fn what_is_there_in_one_sentence() {
    let (book, _) = with(STOCK);
    let says = |question: Value| ask(&book, &question)["says"].as_str().unwrap_or_default().to_owned();
    assert_eq!(says(json!({ "ask": "stock" })), "8 tubes of 4 types, 47 other parts.");
    assert_eq!(says(json!({ "ask": "stock", "find": "yellow" })), "12 parts.");
    assert_eq!(says(json!({ "ask": "stock", "find": "zinc" })), "Nothing in stock fits \"zinc\".");
    let (used, _) = with("marking,count\n6SK7,0\n");
    assert_eq!(ask(&used, &json!({ "ask": "stock" }))["says"], "All of it is used up.");
    assert_eq!(ask(&SHIPPED, &json!({ "ask": "stock" }))["says"], "Nothing is in stock yet.");
    let few = ask(&book, &json!({ "ask": "stock", "limit": 2 }));
    assert_eq!((few["rows"].as_array().map(Vec::len), few["more"].as_u64()), (Some(2), Some(6)));
    // By another name of the same tube.
    assert_eq!(rows(&book, "6BA6"), ["5749 | 6BA6 | 1 | drawer 3"]);
}

proptest! {
    /// Whatever is put in comes out, and laid over the shipped book it gives the same stock.
    #[test]
    fn the_stock_goes_out_and_in(cells in proptest::collection::vec("(12SK7|6E5|1.5k|=1|[-=@+'0-9a-zE., \"\n\t]{0,8})", 0..60)) {
        let header = ["marking", "count", "place", "tested", "note", "my own"];
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(header).expect("a row");
        for (at, row) in cells.chunks_exact(header.len()).enumerate() {
            let mut row = row.to_vec();
            // Mostly counts that can be read.
            if at % 3 > 0 {
                row[1] = at.to_string();
            }
            writer.write_record(row).expect("a row");
        }
        let text = String::from_utf8(writer.into_inner().expect("text")).expect("UTF-8");
        let (book, _) = with(&text);
        let own = book.export("own_stock").expect("a table");
        let (again, _) = with(&own);
        prop_assert_eq!(again.export("own_stock").expect("a table"), own);
        prop_assert_eq!(again.stock(), book.stock());
        // Every row can be taken out by its key, and no other goes with it.
        let mut emptied = again;
        for left in (0..book.stock().len()).rev() {
            let key = emptied.stock().first().expect("a row").key();
            prop_assert_eq!(emptied.forget("stock", &key), Some(()));
            prop_assert_eq!(emptied.stock().len(), left);
        }
    }

    #[test]
    fn no_text_makes_it_stumble(csv in "\\PC{0,200}", find in "\\PC{0,20}") {
        let (book, _) = with(&format!("marking,count,place\n{csv}"));
        let answer = ask(&book, &json!({ "ask": "stock", "find": find }));
        prop_assert!(answer["answer"] == "stock" || answer["answer"] == "error", "{answer}");
    }
}
