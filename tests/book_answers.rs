//! The book as it is asked: search as people type, rows for a form, what a file would do.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use serde_json::{Value, json};
use stand_in::ask::{answer_text, begin, finish_text, preview_text};
use stand_in::book::Book;

fn ask(book: &Book, question: &Value) -> Value {
    serde_json::from_str(&answer_text(book, &question.to_string())).unwrap()
}

/// Type, or name and type, of each match.
fn found(book: &Book, question: &Value) -> Vec<String> {
    let answer = ask(book, question);
    assert_eq!(answer["answer"], "search", "{answer}");
    let matches = answer["matches"].as_array().unwrap().iter();
    matches
        .map(|row| {
            let (tube, name) = (row["type"].as_str().unwrap(), row["name"].as_str().unwrap());
            if tube == name { tube.to_owned() } else { format!("{name} = {tube}") }
        })
        .collect()
}

fn load(book: &mut Book, table: &str, csv: &str) -> Value {
    let begun = begin(book, table, csv.to_owned());
    serde_json::from_str(&finish_text(book, Some(begun))).unwrap()
}

fn preview(book: &Book, table: &str, csv: &str) -> Value {
    serde_json::from_str(&preview_text(&mut Some(begin(book, table, csv.to_owned())))).unwrap()
}

/// Whether a tube fits, given a test of nearness.
type Fits = fn(&stand_in::book::Tube, &dyn Fn(Option<f64>, f64) -> bool) -> bool;

/// Every match fits the whole question, and every tube of the book that fits is counted.
#[test]
fn search_finds_what_fits_and_nothing_else() {
    let book = Book::shipped();
    let heater = |v: Option<f64>, wanted: f64| v.is_some_and(|v| (v / wanted - 1.0).abs() <= 0.05);
    let cases: [(Value, Fits); 6] = [
        (json!({"base": "octal"}), |tube, _| tube.base.is_some_and(|base| base.text() == "octal")),
        (json!({"pins": 9}), |tube, _| tube.base.is_some_and(|base| base.pin_count() == 9)),
        (json!({"top_cap": true}), |tube, _| tube.pins.is_some_and(|pins| pins.cap)),
        (json!({"top_cap": false, "base": "octal"}), |tube, _| {
            tube.base.is_some_and(|base| base.text() == "octal") && tube.pins.is_some_and(|pins| !pins.cap)
        }),
        (json!({"heater_v": 6.3, "heater_a": 0.3}), |tube, near| {
            let f = &tube.figures;
            (near(f.heater_v, 6.3) || near(f.heater_v.and(f.heater_parallel_v), 6.3))
                && (near(f.heater_a, 0.3) || near(f.heater_a.and(f.heater_parallel_a), 0.3))
        }),
        (json!({"function": "heptode"}), |tube, _| {
            tube.functions().iter().any(|function| function.text() == "heptode")
        }),
    ];
    for (mut question, fits) in cases {
        question["ask"] = "search".into();
        question["limit"] = 1000.into();
        let mut wanted: Vec<&str> =
            book.tubes().iter().filter(|tube| fits(tube, &heater)).map(|tube| tube.name.as_str()).collect();
        let mut found = found(&book, &question);
        assert_eq!(ask(&book, &question)["count"], wanted.len(), "{question}");
        assert!(wanted.len() > 20, "{question} finds only {}", wanted.len());
        wanted.sort_unstable();
        found.sort_unstable();
        assert_eq!(found, wanted, "{question}");
    }
}

#[test]
fn a_worn_marking_is_completed() {
    let book = Book::shipped();
    let search = |text: &str| found(&book, &json!({"ask": "search", "text": text}));
    assert_eq!(search("12sk7 gt")[0], "12SK7GT");
    assert!(search("6?5GT").iter().all(|name| name.starts_with('6') && name.contains("5GT")), "{:?}", search("6?5GT"));
    assert!(search("6?5GT").contains(&"6J5GT".to_owned()));
    // The whole number first, then what begins so, then what holds it.
    let all = search("K7");
    assert!(all.iter().any(|name| name == "6SK7") && all.iter().all(|name| name.contains("K7")), "{all:?}");
    assert_eq!(search("6K7")[0], "6K7");
    // Other names are found too, and say which type they are.
    assert!(search("CC83").contains(&"ECC83 = 12AX7".to_owned()), "{:?}", search("CC83"));
    assert_eq!(search("ZZZZ"), [""; 0]);
    // Each question mark is one character.
    assert!(!search("12??7").contains(&"12K7GT".to_owned()));
    assert!(search("12??7").contains(&"12SK7".to_owned()));
    // What everybody calls 6 V and 12 V is 6.3 V and 12.6 V: common practice, no source.
    for (volts, name) in [(6, "6SK7"), (12, "12SK7")] {
        let found = found(&book, &json!({"ask": "search", "text": name, "heater_v": volts}));
        assert!(found.contains(&name.to_owned()), "{volts} V: {found:?}");
    }
}

#[test]
fn what_the_book_does_not_know_is_not_passed_as_fitting() {
    let mut book = Book::default();
    load(&mut book, "tubes", "type,unit,function,base\nQ1,1,triode,octal\nQ2,1,triode,\nQ3,1,triode,5-pin\n");
    let answer = ask(&book, &json!({"ask": "search", "text": "Q", "base": "octal"}));
    assert_eq!((&answer["count"], &answer["not_known"]), (&1.into(), &1.into()), "{answer}");
    assert_eq!(answer["says"], "1 type fits. 1 more type may fit: the book does not know enough of it to tell.");
}

#[test]
fn a_search_for_nothing_is_an_error() {
    let book = Book::shipped();
    for question in [json!({}), json!({"limit": 5}), json!({"text": " "}), json!({"text": "??"}), json!({"text": "-"})]
    {
        let mut question = question;
        question["ask"] = "search".into();
        let answer = ask(&book, &question);
        assert_eq!((&answer["answer"], &answer["field"]), (&"error".into(), &"text".into()), "{question}: {answer}");
    }
    // Worn off altogether, but something else is known.
    assert!(!found(&book, &json!({"ask": "search", "text": "????", "top_cap": true})).is_empty());
    for (question, field) in
        [(json!({"base": "sofa"}), "base"), (json!({"pins": 40}), "pins"), (json!({"heater_v": -1}), "heater_v")]
    {
        let mut question = question;
        question["ask"] = "search".into();
        assert_eq!(ask(&book, &question)["field"], field);
    }
}

/// The user's row and the shipped one beside it, each cell with what its column takes.
#[test]
fn a_row_shows_what_is_shipped_and_what_is_the_users() {
    let mut book = Book::shipped();
    let cell = |book: &Book, row: usize, column: &str| {
        let answer = ask(book, &json!({"ask": "row", "type": "12sk7"}));
        let at = answer["columns"].as_array().unwrap().iter().position(|view| view["column"] == column).expect(column);
        (answer["rows"][row]["from"].clone(), answer["rows"][row]["cells"][at].clone(), answer["columns"][at].clone())
    };
    let (from, heater, view) = cell(&book, 0, "heater_a");
    assert_eq!((from, heater), ("shipped".into(), json!({"text": "0.15"})));
    assert_eq!(
        view,
        json!({"column": "heater_a", "words": "heater", "unit": "A", "one_of": [], "least": 0.005, "most": 30, "of_bulb": true})
    );
    assert_eq!(cell(&book, 0, "base").2["one_of"].as_array().unwrap().len(), stand_in::book::Base::WORDS.len());
    assert_eq!(cell(&book, 0, "function").2["of_bulb"], false);

    load(&mut book, "tubes", "type,unit,heater_a,shelf\n12SK7,1,0.16,B4\n");
    let (from, heater, _) = cell(&book, 0, "heater_a");
    assert_eq!((from, heater), ("own".into(), json!({"text": "0.16", "shipped": "0.15"})));
    let (_, shelf, view) = cell(&book, 0, "shelf");
    assert_eq!((shelf, &view["words"]), (json!({"text": "B4", "shipped": ""}), &"shelf".into()));
    // What says again what is shipped is the shipped row again.
    load(&mut book, "tubes", "type,unit,heater_a,shelf\n12SK7,1,0.150,\n");
    assert_eq!(cell(&book, 0, "heater_a").0, "shipped");

    let blank = ask(&book, &json!({"ask": "row", "type": " 12QQ7 "}));
    assert_eq!((&blank["type"], &blank["rows"][0]["from"]), (&"12QQ7".into(), &"empty".into()));
    assert_eq!(
        (&blank["rows"][0]["cells"][0]["text"], &blank["rows"][0]["cells"][1]["text"]),
        (&"12QQ7".into(), &"1".into())
    );
    assert_eq!(ask(&book, &json!({"ask": "row", "type": "ecc 83"}))["type"], "12AX7");
}

/// A preview says what loading then does, and does nothing.
#[test]
fn a_preview_foresees_the_load() {
    let mut book = Book::shipped();
    let csv = "type,unit,function,heater_a,note\n12SK7,1,,0.16,\n6SK7,1,pentode,,\n12QQ7,1,triode,0.15,\"=1+1\"\n6V6GT,1,trioda,,\n";
    let csv = csv.replace("12SK7,1,,", "12SK7,1,pentode,").replace("6SK7,1,pentode,,", "6SK7,1,pentode,0.3,");
    let before = book.export("tubes");
    let mut foreseen = preview(&book, "tubes", &csv);
    assert_eq!(book.export("tubes"), before);
    assert_eq!(
        (&foreseen["new"], &foreseen["changed"], &foreseen["kept"]),
        (&1.into(), &2.into(), &1.into()),
        "{foreseen}"
    );
    let changes = foreseen["changes"].as_array().unwrap();
    assert!(
        changes.contains(&json!({"name": "12SK7", "unit": "1", "column": "heater_a", "old": "0.15", "new": "0.16"})),
        "{changes:?}"
    );
    assert_eq!(foreseen["faults"][0]["column"], "function");
    assert_eq!(foreseen["answer"], "preview");
    let done = load(&mut book, "tubes", &csv);
    foreseen["answer"] = "loaded".into();
    assert_eq!(done, foreseen);
    // Loaded again it changes nothing.
    let again = preview(&book, "tubes", &csv);
    assert_eq!((&again["new"], &again["changed"], &again["changes"]), (&0.into(), &0.into(), &json!([])), "{again}");
    // Errors are told as errors.
    assert_eq!(preview(&book, "weather", &csv)["field"], "table");
    let nothing: Value = serde_json::from_str(&finish_text(&mut book, None)).unwrap();
    assert_eq!(nothing["answer"], "error");
}
