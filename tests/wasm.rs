//! The core as the page meets it: in a browser, through the boundary.
#![cfg(target_arch = "wasm32")]

use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn ask(question: &str) -> serde_json::Value {
    let bench = stand_in::Bench::new();
    serde_json::from_str(&bench.ask(question)).expect("an answer is JSON")
}

#[wasm_bindgen_test]
fn a_swap_is_answered() {
    let answer = ask(r#"{"ask":"swap","original":"ecc 83","candidate":"12AX7"}"#);
    assert_eq!(answer["answer"], "swap");
    assert_eq!(answer["grade"], "same");
}

#[wasm_bindgen_test]
fn what_is_no_question_is_answered_with_an_error() {
    for question in
        ["", "no json", "[]", "{}", r#"{"ask":"weather"}"#, "\u{0}", "{\"ask\":\"tube\",\"type\":\"\u{202e}💥\"}"]
    {
        let answer = ask(question);
        assert!(answer["answer"] == "error" || answer["answer"] == "tube", "{question}: {answer}");
    }
}

#[wasm_bindgen_test]
fn a_broken_file_leaves_the_book_whole() {
    let mut bench = stand_in::Bench::new();
    let before = bench.export("tubes");
    for csv in ["", "\u{0}\u{1}binary", "no,such,columns\n1,2,3\n"] {
        let report: serde_json::Value =
            serde_json::from_str(&bench.load("tubes", csv.to_owned())).expect("a report is JSON");
        assert_eq!(report["faults"].as_array().map(Vec::len), Some(1), "{report}");
    }
    assert_eq!(bench.export("tubes"), before);
}

/// Rows of made-up tubes, so many megabytes of them; the text and how many rows.
fn large(megabytes: usize) -> (String, u32) {
    let mut csv = String::from("type,unit,function,base,pins,heater_v,heater_a,source\n");
    let mut rows = 0u32;
    while csv.len() < megabytes << 20 {
        csv.push_str(&format!("ZZ{rows},1,triode,octal,1=- 2=h 3=p 4=- 5=g1 6=- 7=h 8=k,6.3,0.3,a test that makes long rows so that the file grows\n"));
        rows += 1;
    }
    (csv, rows)
}

#[wasm_bindgen_test]
fn a_file_of_twenty_megabytes_is_read() {
    let (csv, rows) = large(20);
    let mut bench = stand_in::Bench::new();
    let report: serde_json::Value = serde_json::from_str(&bench.load("tubes", csv)).expect("a report is JSON");
    assert_eq!(report["rows"], rows);
    assert_eq!(report["new"], rows);
    assert_eq!(report["faults"].as_array().map(Vec::len), Some(0));
}

/// The bench answers from the book as it was while a file comes in, and from the new one afterwards.
#[wasm_bindgen_test]
fn a_large_file_comes_in_by_steps() {
    let (csv, rows) = large(4);
    let mut bench = stand_in::Bench::new();
    let known = |bench: &stand_in::Bench| {
        let answer: serde_json::Value =
            serde_json::from_str(&bench.ask(r#"{"ask":"tube","type":"ZZ7"}"#)).expect("JSON");
        answer["tube"].is_object()
    };
    bench.load_begin("tubes", csv);
    let (mut done, mut steps) = (0.0, 0);
    while done < 1.0 {
        let now = bench.load_step(1000);
        assert!(now > done && !known(&bench), "{now} after {done}");
        (done, steps) = (now, steps + 1);
    }
    assert!(steps > 10, "{steps} steps");
    let read = |text: &str| serde_json::from_str::<serde_json::Value>(text).expect("JSON");
    assert_eq!(read(&bench.load_preview())["new"], rows);
    assert!(!known(&bench), "a preview does nothing");
    assert_eq!(read(&bench.load_finish())["new"], rows);
    assert!(known(&bench));
    // Nothing is left of it.
    assert_eq!(read(&bench.load_finish())["answer"], "error");
    assert_eq!(bench.load_step(1), 1.0);
    bench.load_begin("weather", String::new());
    assert_eq!((bench.load_step(1), read(&bench.load_finish())["field"].as_str()), (1.0, Some("table")));
}
