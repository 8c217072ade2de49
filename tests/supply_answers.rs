//! The answers `rectifier` and `heater_string` as a page gets them: JSON in, JSON out.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking, its helping functions too")]

use std::sync::OnceLock;

use proptest::prelude::*;
use serde_json::{Value, json};
use stand_in::ask::answer_text;
use stand_in::book::Book;
use stand_in::series::Series;
use stand_in::supply::{Circuit, Load, Rectifier, Topology, steady};

fn ask(question: &Value) -> Value {
    static BOOK: OnceLock<Book> = OnceLock::new();
    let book = BOOK.get_or_init(|| {
        // The shipped book and a rectifier of which nobody knows the drop.
        let mut book = Book::shipped();
        book.load(
            "tubes",
            "type,unit,function,base,heater_kind,heater_v,heater_a\nNODROP1,1,rectifier,octal,heater,35,0.15\n",
        );
        book
    });
    serde_json::from_str(&answer_text(book, &question.to_string())).unwrap()
}

/// What a person reads first, one line each.
fn told(answer: &Value) -> String {
    let verdict = &answer["verdict"];
    let text = |value: &Value| value.as_str().unwrap_or("?").to_owned();
    let mut lines = vec![format!("[{}] {} {}", text(&verdict["mark"]), text(&verdict["word"]), text(&verdict["says"]))];
    for reason in answer["reasons"].as_array().unwrap() {
        lines.push(format!(
            "because {} ({}): {}",
            text(&reason["check"]),
            text(&reason["outcome"]),
            text(&reason["says"])
        ));
    }
    for change in answer["changes"].as_array().unwrap() {
        let part = &change["part"];
        let part = if part.is_null() {
            String::new()
        } else {
            format!(" -> {}, {}, {}", text(&part["part"]), text(&part["value"]), text(&part["rating"]))
        };
        lines.push(format!("do {}{part}", text(&change["says"])));
    }
    lines.join("\n")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// Four-tube AC/DC set with 140 V at the first filter on the drawing: 68 ohm (common practice, no source), within one step of
/// E12.
#[test]
fn the_set_with_140_v_on_its_drawing() {
    for load_ma in [55, 58, 60] {
        let answer = ask(
            &json!({"ask": "rectifier", "line_v": 123, "target_v": 140, "first_filter_uf": 40, "load_ma": load_ma, "filter_rated_v": 150}),
        );
        let resistor = &answer["resistor"];
        assert!([56.0, 68.0, 82.0].contains(&number(&resistor["ohm"])), "{resistor}");
        let [low, nominal, high] = &answer["lines"].as_array().unwrap()[..] else { panic!("three lines") };
        // Heat is that of the rms current; the rating is twice that of a high line.
        let rms_w = (number(&nominal["rms_ma"]) / 1e3).powi(2) * number(&resistor["ohm"]);
        assert!((number(&resistor["dissipates_w"]) - rms_w).abs() < 0.02, "{resistor}");
        assert!(number(&resistor["rated_w"]) >= 2.0 * number(&high["resistor_w"]));
        assert!((number(&nominal["warm_v"]) - 140.0).abs() < 3.0);
        assert!(number(&low["warm_v"]) < 130.0 && number(&high["warm_v"]) > 150.0);
        // 172 to 175 V cold (common practice, no source); 150 V capacitors are refused, 200 V asked for.
        assert!((172.0..175.0).contains(&number(&nominal["cold_v"])));
        let filter = &answer["first_filter"];
        assert!((number(&filter["worst_v"]) - 191.3).abs() < 0.1);
        assert_eq!(number(&filter["least_rated_v"]), 200.0);
        for rating in filter["ratings"].as_array().unwrap() {
            assert_eq!(rating["enough"].as_bool().unwrap(), number(&rating["rated_v"]) >= 200.0, "{rating}");
        }
        // What forbids it is the first reason.
        assert_eq!(answer["reasons"][0]["outcome"], "fails");
        assert_eq!(answer["changes"][0]["part"]["rating"].as_str().unwrap().split(',').next(), Some("250 V"));
        assert_eq!(answer["waveform"].as_array().unwrap().len(), 60);
        assert_eq!(answer["diode"]["name"], "1N4007");
        assert!(answer["sweep"].as_array().unwrap().iter().any(|point| point["ohm"] == resistor["ohm"]));
    }
}

/// 90 ohm in all and 55 mA on 123 V: 135 to 138 V warm, 172 to 175 V cold (common practice, no source).
#[test]
fn silicon_with_its_resistor_left_in() {
    let answer = ask(
        &json!({"ask": "rectifier", "line_v": 123, "original": {"kind": "silicon"}, "first_filter_uf": 40, "load_ma": 55, "fitted_ohm": 90}),
    );
    let nominal = &answer["lines"][1];
    assert!((135.0..138.0).contains(&number(&nominal["warm_v"])), "{nominal}");
    assert!((172.0..175.0).contains(&number(&nominal["cold_v"])), "{nominal}");
    assert!(answer.get("resistor").is_none());
    // Whether that is right nobody can tell without the drawing.
    assert_eq!(answer["verdict"]["mark"], "unknown");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_heater_question_is_answered(figures in proptest::collection::vec(any_number(), 6), given in any::<u16>()) {
        let items = ["12BE6", "35W4", "25L6GT", "lamp 47", "150 ohm", "ballast K49C", "ntc 1500/40 ohm", "1R5", "cord 180 ohm", "50C5"];
        let tubes: Vec<&str> = items.iter().enumerate().filter(|(at, _)| given >> at & 1 == 1).map(|(_, item)| *item).collect();
        let mut question = json!({"ask": "heater_string", "tubes": tubes});
        let names = ["line_v", "line_hz", "dropper_ohm", "designed_v", "winding_v", "winding_a"];
        for (at, (name, figure)) in names.iter().zip(&figures).enumerate() {
            if given >> (10 + at) & 1 == 1 {
                question[*name] = figure.clone();
            }
        }
        let answer = ask(&question);
        match answer["answer"].as_str() {
            Some("error") => prop_assert!(!answer["field"].as_str().unwrap().is_empty(), "{question} {answer}"),
            Some("heater_string") => prop_assert!(number(&answer["current_a"]) > 0.0 && !answer.to_string().contains("NaN"), "{answer}"),
            other => prop_assert!(false, "{other:?}"),
        }
    }
}

#[test]
fn what_a_person_reads_of_a_rectifier() {
    let answer = ask(
        &json!({"ask": "rectifier", "line_v": 120, "original": {"kind": "selenium", "plates": 5}, "first_filter_uf": 40, "load_ma": 53, "fitted_ohm": 22, "filter_rated_v": 150}),
    );
    insta::assert_snapshot!(told(&answer), @"
    [care] New filter capacitors first. A 1N4007 with 22 ohm, 2 W in series gives 145 V at the first filter on a 120 V line; a fresh selenium stack of 5 plates gives 145 V. How much the original dropped is uncertain: 12 ohm to 39 ohm may turn out right, so measure and adjust. First the 150 V filter capacitors must go: cold they get up to 187 V.
    because cold start (fails): Until the tubes draw, the filter capacitors stand at the crest of the line: 170 V, and 187 V on a line 10 % high. 150 V is not enough: 200 V or more.
    because B+ (ok): Warm, 145 V at the first filter against 145 V (+0.4 %). Without a resistor silicon would give 153 V.
    do Replace the filter capacitors, the second as well as the first: cold, both get 187 V. -> electrolytic capacitor, first filter, 40 uF, 250 V, ripple 189 mA or more at 100/120 Hz
    do Take both leads off the selenium stack. It may stay in place for its looks, but connected to nothing.
    do Connect the diode in place of the old rectifier: the banded end (cathode) to the plus of the first filter, the other end towards the line. -> silicon diode 1N4007, 1000 V peak inverse, 1 A, 1000 V
    do Put the resistor in series with the diode, on the line side, beside the 22 ohm that stays. Wire-wound, fusible or flameproof: a carbon or small film resistor does not survive the switch-on pulses. -> wire-wound resistor, fusible or flameproof, 22 ohm, 2 W
    do Put a label under the chassis that says what was changed, and keep the old part.
    ");
}

/// Every value of E24 is solved by the engine: the first offer is of E12, and the one beside it is named where, and only where, it is half a percent
/// of B+ closer.
#[test]
fn a_finer_value_is_named_where_it_comes_clearly_closer() {
    let (mut named, mut alone) = (0, 0);
    for step in 0..60 {
        let target_v = 110.0 + 0.75 * f64::from(step);
        let answer = ask(
            &json!({"ask": "rectifier", "line_v": 123, "target_v": target_v, "first_filter_uf": 40, "load_ma": 58, "fitted_ohm": 10}),
        );
        let Some(resistor) = answer.get("resistor") else { continue };
        let ohm = number(&resistor["ohm"]);
        assert!(Series::E12.contains(ohm), "{resistor}");
        let missed_v = |series_ohm: f64| {
            let circuit = Circuit {
                topology: Topology::HalfWave,
                line_v: 123.0,
                line_hz: 60.0,
                rectifier: Rectifier::Silicon,
                source_ohm: 11.0,
                series_ohm,
                first_uf: 40.0,
                first_load: Load::ThreeHalves { ma: 58.0, at_v: target_v },
                filter: None,
            };
            (steady(&circuit).unwrap().first_v - target_v).abs()
        };
        // The surge of 15 A on a line 10 % high wants 1.8 ohm or more beside the 11 ohm that are there.
        let values =
            (0..3).flat_map(|decade| Series::E24.members().into_iter().map(move |value| value * 10_f64.powi(decade)));
        let best_v = values.filter(|value| *value >= 2.0).map(missed_v).fold(f64::INFINITY, f64::min);
        let says = answer["verdict"]["says"].as_str().unwrap();
        if let Some(closer) = resistor.get("closer") {
            let finer_ohm = number(&closer["ohm"]);
            assert!(Series::E24.contains(finer_ohm) && !Series::E12.contains(finer_ohm), "{resistor}");
            assert!((missed_v(finer_ohm) - best_v).abs() < 1e-6, "{target_v} V: {resistor}");
            assert!(missed_v(ohm) - best_v >= 0.005 * target_v, "{target_v} V: {resistor}");
            assert!((number(&closer["warm_v"]) - target_v).abs() - best_v < 0.051, "{target_v} V: {resistor}");
            assert!(says.contains(&format!(", or {finer_ohm} ohm, ")) && says.contains(" (E24): "), "{says}");
            named += 1;
        } else {
            assert!(missed_v(ohm) - best_v < 0.005 * target_v, "{target_v} V: {resistor}, {best_v} V off at best");
            assert!(!says.contains("E24"), "{says}");
            alone += 1;
        }
    }
    assert!(named >= 10 && alone >= 10, "{named} with a finer value, {alone} without");
    // Where the original leaves more open than a step of E12, half a step would only look exact.
    let (mut tubes, mut wide) = (0, 0);
    for load_ma in 40..70 {
        let answer = ask(
            &json!({"ask": "rectifier", "original": {"kind": "tube", "type": "35W4"}, "first_filter_uf": 40, "load_ma": load_ma}),
        );
        tubes += 1;
        if answer["verdict"]["says"].as_str().unwrap().contains("may turn out right") {
            assert!(answer["resistor"].get("closer").is_none(), "{answer}");
            wide += 1;
        }
    }
    assert!(2 * wide > tubes, "{wide} of {tubes}");
}

/// A B+ read on an aged stack is no target: the answer says so before anything else.
#[test]
fn a_sagging_target_is_doubted() {
    let question = |target_v: f64| json!({"ask": "rectifier", "original": {"kind": "selenium", "plates": 5}, "target_v": target_v, "first_filter_uf": 40, "load_ma": 53, "fitted_ohm": 22});
    let tired = ask(&question(112.0));
    assert_eq!(
        (tired["reasons"][0]["check"].as_str(), tired["reasons"][0]["outcome"].as_str()),
        (Some("target"), Some("differs"))
    );
    assert!(tired["verdict"]["says"].as_str().unwrap().contains("tired"));
    let fresh = ask(&question(144.0));
    assert_eq!(fresh["reasons"][0]["check"], "B+");
    assert!(!fresh["verdict"]["says"].as_str().unwrap().contains("tired"));
}

/// Five plates on 117 V behind 25 ohm with 53 mA: 112.7 V aged (1 V a plate, 120 ohm), 138.4 V fresh (0.8 V, 20 ohm), both by ngspice at a fixed current
/// (tests/tables/supply_restoring_resistor.csv). Tubes draw less as B+ sags, so the aged end lies above 112.7 V. What plates drop is assumed.
#[test]
fn a_selenium_stack_gives_a_band_from_fresh_to_aged() {
    let question = json!({"ask": "rectifier", "line_v": 117, "original": {"kind": "selenium", "plates": 5}, "first_filter_uf": 40, "load_ma": 53, "fitted_ohm": 24});
    let answer = ask(&question);
    let ageing = finding(&answer, "findings", "selenium ageing");
    let target_v = number(&answer["target_v"]);
    let stack_v = |plate_v: f64, stack_ohm: f64, first_load: Load| {
        let circuit = Circuit {
            topology: Topology::HalfWave,
            line_v: 117.0,
            line_hz: 60.0,
            rectifier: Rectifier::Selenium { plates: 5.0, plate_v, plate_ohm: stack_ohm / 5.0 },
            source_ohm: 25.0,
            series_ohm: 0.0,
            first_uf: 40.0,
            first_load,
            filter: None,
        };
        steady(&circuit).unwrap().first_v
    };
    let fixed = Load::Current { ma: 53.0 };
    let tubes = Load::ThreeHalves { ma: 53.0, at_v: target_v };
    assert!((stack_v(1.0, 120.0, fixed) - 112.7).abs() < 0.8 && (stack_v(0.8, 20.0, fixed) - 138.4).abs() < 0.8);
    let fresh = [stack_v(1.0, 20.0, fixed), stack_v(0.7, 8.0, fixed)];
    let aged = [stack_v(1.0, 120.0, tubes), stack_v(0.7, 60.0, tubes)];
    assert!(112.7 < aged[0] && aged[0] < aged[1] && aged[1] < fresh[0] && fresh[0] < 138.4 && 138.4 < fresh[1]);
    let band = |[low_v, high_v]: [f64; 2]| format!("{low_v:.0} V to {high_v:.0} V");
    assert_eq!((ageing["wanted"].as_str(), ageing["found"].as_str()), (Some(&*band(fresh)), Some(&*band(aged))));
    let says = ageing["says"].as_str().unwrap();
    for words in [
        &*band([aged[0], fresh[1]]),
        "assumed, no published curve",
        "The target is the fresh figure, never the sagging reading.",
    ] {
        assert!(says.contains(words), "{words} in {says}");
    }
    // The target is the fresh figure, whatever is read.
    assert!(fresh[0] < target_v && target_v < fresh[1], "{answer}");
    assert!(answer["assumed"].to_string().contains("no published curve"), "{answer}");
    let outcome = |field: &str, v: f64| {
        let mut with = question.clone();
        with[field] = v.into();
        let answer = ask(&with);
        if field == "measured_v" {
            assert_eq!(number(&answer["target_v"]), target_v);
        }
        let ageing = finding(&answer, "findings", "selenium ageing");
        (ageing["outcome"].as_str().unwrap().to_owned(), ageing["says"].as_str().unwrap().to_owned())
    };
    assert_eq!(ageing["outcome"], "unknown");
    assert_eq!(outcome("measured_v", 138.0).0, "ok");
    assert_eq!(outcome("measured_v", 118.0).0, "differs");
    assert!(outcome("target_v", 138.0).1.contains("from the drawing, never the sagging reading"));
    // Of a tube, and of silicon, nothing of the kind is said.
    for original in [json!({"kind": "tube", "type": "35W4"}), json!({"kind": "silicon"})] {
        let mut with = question.clone();
        with["original"] = original;
        assert!(!ask(&with).to_string().contains("ageing"));
    }
}

#[test]
fn an_uncertain_original_gives_a_band() {
    let of = |original: Value| {
        ask(&json!({"ask": "rectifier", "original": original, "first_filter_uf": 40, "load_ma": 58}))["resistor"]
            .clone()
    };
    for resistor in [
        of(json!({"kind": "selenium"})),
        of(json!({"kind": "selenium", "plates": 5})),
        of(json!({"kind": "tube", "type": "35W4", "drop_v": 18, "drop_ma": 200})),
        of(json!({"kind": "tube", "type": "25Z6GT"})),
    ] {
        let (least, exact, most) =
            (number(&resistor["least_ohm"]), number(&resistor["exact_ohm"]), number(&resistor["most_ohm"]));
        assert!(least < exact && exact < most, "{resistor}");
    }
    // Uncounted plates leave more open than counted ones.
    let width = |resistor: &Value| number(&resistor["most_ohm"]) - number(&resistor["least_ohm"]);
    assert!(width(&of(json!({"kind": "selenium"}))) > width(&of(json!({"kind": "selenium", "plates": 5}))));
}

#[test]
fn what_goes_with_a_rectifier_tube_is_told() {
    let answer = ask(
        &json!({"ask": "rectifier", "original": {"kind": "tube", "type": "35W4"}, "target_v": 130, "first_filter_uf": 40, "load_ma": 58}),
    );
    let lost: Vec<&str> =
        answer["lost"].as_array().unwrap().iter().filter_map(|finding| finding["check"].as_str()).collect();
    assert_eq!(lost, ["heater", "dial lamp", "warm-up delay"]);
    // 35 V at 0.15 A: 233 ohm and 5.25 W, by hand; 240 ohm of E24 and 15 W as sold.
    assert!(answer["lost"][0]["says"].as_str().unwrap().contains("240 ohm, 15 W"));
    // With another section in use the tube stays, and so do heater and lamp.
    let combined = ask(
        &json!({"ask": "rectifier", "original": {"kind": "tube", "type": "70L7GT"}, "target_v": 120, "first_filter_uf": 40, "load_ma": 50}),
    );
    let lost: Vec<&str> =
        combined["lost"].as_array().unwrap().iter().filter_map(|finding| finding["check"].as_str()).collect();
    assert!(!lost.contains(&"heater"), "{lost:?}");
}

#[test]
fn trouble_names_the_field() {
    for (question, field, says) in [
        (json!({"ask": "rectifier", "first_filter_uf": 40, "load_ma": 55}), "target_v", "cannot be told"),
        (
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "35W44"}, "first_filter_uf": 40, "load_ma": 55}),
            "original.type",
            "35W4",
        ),
        (
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "12SK7"}, "first_filter_uf": 40, "load_ma": 55}),
            "original.type",
            "rectifier",
        ),
        (
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "5Y3GT"}, "first_filter_uf": 40, "load_ma": 55}),
            "original.type",
            "winding",
        ),
        (
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "NODROP1"}, "first_filter_uf": 40, "load_ma": 55}),
            "target_v",
            "tube drop",
        ),
        (
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "35W4", "drop_v": 18}, "first_filter_uf": 40, "load_ma": 55}),
            "original.drop_ma",
            "missing",
        ),
        // 170 V crest behind 1000 ohm cannot give more than 54 mA even into a short circuit.
        (
            json!({"ask": "rectifier", "target_v": 120, "fitted_ohm": 1000, "first_filter_uf": 40, "load_ma": 60}),
            "load_ma",
            "cannot deliver",
        ),
        (
            json!({"ask": "rectifier", "target_v": 120, "first_filter_uf": 40, "load_ma": 55, "after_filter_ma": 20}),
            "filter_ohm",
            "missing",
        ),
        (
            json!({"ask": "rectifier", "target_v": 120, "first_filter_uf": 40, "load_ma": 20, "after_filter_ma": 55, "filter_ohm": 1000, "second_filter_uf": 30}),
            "after_filter_ma",
            "no more than",
        ),
        (json!({"ask": "heater_string", "tubes": []}), "tubes", "at least one"),
        (json!({"ask": "heater_string", "tubes": ["12BE6", "12BA66"]}), "tubes[1]", "12BA6"),
        (json!({"ask": "heater_string", "tubes": ["12BE6", "0Z4"]}), "tubes[1]", "no heater"),
    ] {
        let answer = ask(&question);
        assert_eq!((answer["answer"].as_str(), answer["field"].as_str()), (Some("error"), Some(field)), "{answer}");
        assert!(answer["says"].as_str().unwrap().contains(says), "{answer}");
    }
}

/// A target above what the line gives is no error: silicon without a resistor is the best there is.
#[test]
fn a_target_too_high_is_answered() {
    let answer =
        ask(&json!({"ask": "rectifier", "target_v": 165, "first_filter_uf": 40, "load_ma": 55, "fitted_ohm": 22}));
    assert_eq!(answer["verdict"]["mark"], "care");
    assert_eq!(answer["reasons"][0]["outcome"], "differs");
    assert!(answer.get("resistor").is_none());
}

#[test]
fn the_volts_after_the_filter_are_told_only_when_its_load_is() {
    let mut question = json!({"ask": "rectifier", "target_v": 130, "first_filter_uf": 40, "load_ma": 55, "filter_ohm": 1200, "second_filter_uf": 30});
    assert!(ask(&question)["lines"][1].get("filtered_v").is_none());
    question["after_filter_ma"] = 18.into();
    let nominal = ask(&question)["lines"][1].clone();
    // Ohm's law: 18 mA through 1200 ohm are 21.6 V.
    let drop_v = number(&nominal["warm_v"]) - number(&nominal["filtered_v"]);
    assert!((drop_v - 21.6).abs() < 0.5, "{nominal}");
    assert!(number(&nominal["filtered_ripple_v"]) < 0.1 * number(&nominal["ripple_v"]));
}

#[test]
fn what_a_person_reads_of_a_string() {
    let five = ["12BE6", "12BA6", "12AV6", "50C5", "35W4"];
    insta::assert_snapshot!(told(&ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": five}))), @r#"
    [yes] Yes, as it stands. The string adds up to 122.8 V on a 120 V line, and the heaters get 98 % of their volts.
    because string (ok): The string adds up to 122.8 V on a 120 V line: no dropper is needed.
    because heater (ok): 12AV6 gets 12.3 V of 12.6 V, 98 %.
    "#);
    insta::assert_snapshot!(told(&ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": five[..4]}))), @r#"
    [care] Only after changes. The string adds up to 87.8 V on a 120 V line. With 220 ohm, 10 W in series the heaters get 99 % of their volts.
    because string (needs_change): The string adds up to 87.8 V on a 120 V line: 32.2 V have to be dropped, 215 ohm at 0.15 A.
    because heater (needs_change): 50C5 gets 68.3 V instead of 50 V, 137 %: it does not live long.
    do Put the dropper in series with the heaters alone, at the line end. -> wire-wound resistor, flameproof, 220 ohm, 10 W
    "#);
    let mixed = ["12BE6", "UCH81", "12AV6", "50C5", "35W4"];
    insta::assert_snapshot!(told(&ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": mixed}))), @r#"
    [care] Only after changes. As it is, a heater fails. The string adds up to 129.2 V on a 120 V line. With 390 ohm across the heater of UCH81 the heaters get 93 to 95 % of their volts.
    because string (fails): The string adds up to 129.2 V on a 120 V line: no dropper is needed.
    because heater (fails): UCH81 gets more than one and a half times its 19 V: it fails.
    do Solder the resistor straight across the heater pins of UCH81, firmly: should it come off, the heater fails. -> wire-wound or metal-oxide resistor, 390 ohm, 2 W
    "#);
}

/// The rectifier out of the string of five, 120 V: 215 ohm and 4.83 W (computed apart from this code).
#[test]
fn the_dropper_of_a_string_of_four() {
    let answer = ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": ["12BE6", "12BA6", "12AV6", "50C5"]}));
    let dropper = &answer["dropper"];
    assert!((number(&dropper["exact_ohm"]) - 215.0).abs() < 0.5, "{dropper}");
    assert!((number(&dropper["dissipates_w"]) - 4.83).abs() < 0.1, "{dropper}");
    assert!(number(&dropper["rated_w"]) >= 2.0 * number(&dropper["dissipates_w"]));
    assert_eq!(answer["verdict"]["mark"], "care");
    let with = ask(
        &json!({"ask": "heater_string", "line_v": 120, "tubes": ["12BE6", "12BA6", "12AV6", "50C5"], "dropper_ohm": dropper["ohm"]}),
    );
    assert_eq!(with["verdict"]["mark"], "yes");
    assert!(with["changes"].as_array().unwrap().is_empty());
}

/// A heater that fails gets no figure in any sentence.
#[test]
fn a_heater_that_fails_is_said_to_fail() {
    let answer =
        ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": ["12BE6", "UCH81", "12AV6", "50C5", "35W4"]}));
    assert_eq!(answer["heaters"][1]["outcome"], "fails");
    let found = answer["findings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|finding| finding["outcome"] == "fails" && finding["check"] == "heater");
    assert_eq!(found.unwrap()["found"], "it fails");
    // A 0.6 A heater among 0.15 A ones is not to be helped.
    let starved =
        ask(&json!({"ask": "heater_string", "line_v": 120, "tubes": ["12BE6", "6SN7GT", "12AV6", "50C5", "35W4"]}));
    assert_eq!(starved["verdict"]["mark"], "no");
    assert!(starved["changes"].as_array().unwrap().is_empty());
}

fn outcomes(findings: &Value) -> Vec<(&str, &str)> {
    let all = findings.as_array().unwrap().iter();
    all.map(|finding| (finding["check"].as_str().unwrap(), finding["outcome"].as_str().unwrap())).collect()
}

fn finding<'a>(answer: &'a Value, list: &str, check: &str) -> &'a Value {
    answer[list]
        .as_array()
        .unwrap()
        .iter()
        .find(|finding| finding["check"] == check)
        .unwrap_or_else(|| panic!("no {check}: {answer}"))
}

/// Published drops (from memory; 5Y3GT and 5U4G also in public SPICE models from the makers' data): a load of that current through the tube leaves
/// less than silicon by about its drop at the pulses' crest, so by more than the drop at the mean.
#[test]
fn a_full_wave_set_with_its_rectifier_tube() {
    let question = json!({"ask": "rectifier", "line_v": 120, "topology": "centre_tap", "secondary_v": 350, "secondary_ohm": 140,
        "original": {"kind": "tube", "type": "5Y3GT"}, "first_filter_uf": 10, "filter_ohm": 300, "filter_henry": 10,
        "second_filter_uf": 16, "load_ma": 90, "after_filter_ma": 60, "filter_rated_v": 450});
    let answer = ask(&question);
    assert_eq!(answer["answer"], "rectifier", "{answer}");
    let nominal = &answer["lines"][1];
    assert!((number(&nominal["warm_v"]) / number(&answer["target_v"]) - 1.0).abs() < 0.03);
    // 350-0-350 stands at 495 V off load; 450 V capacitors must go.
    assert!((number(&nominal["cold_v"]) - 495.0).abs() < 0.5);
    assert_eq!(answer["verdict"]["word"], "New filter capacitors first.");
    // Each diode stands two crests of the high line, 1089 V: one 1000 V part does not do.
    assert!((number(&answer["diode"]["needed_inverse_v"]) - 1089.0).abs() < 1.0);
    assert!(number(&answer["diode"]["peak_inverse_v"]) > 1.2 * 1089.0);
    assert!(answer["changes"].to_string().contains("joined cathodes"));
    assert!(!answer["cautions"].to_string().contains("hot chassis"));
    // The first minute: up to the crest, then down to the warm volts.
    let start = answer["start"].as_array().unwrap();
    let volts = |point: &Value| number(&point["first_filter_v"]);
    assert_eq!(volts(&start[0]), 0.0);
    assert!((475.0..495.0).contains(&start.iter().map(volts).fold(0.0, f64::max)));
    assert!((volts(start.last().unwrap()) - number(&nominal["warm_v"])).abs() < 0.5);
    for (field, says) in [("secondary_v", "winding"), ("secondary_ohm", "measure")] {
        let mut without = question.clone();
        without.as_object_mut().unwrap().remove(field);
        let error = ask(&without);
        assert!(error["accepted"].as_str().unwrap_or_default().contains(says), "{error}");
    }
}

/// Each capacitor of a full-wave doubler stands one crest (187 V on a 120 V line 10 % high), what lies across both two; of a half-wave doubler the first
/// filter itself stands two. By hand: 120 * 1.1 * 1.414 = 186.7 V.
#[test]
fn the_capacitors_of_a_doubler() {
    let doubler = |topology: &str| {
        ask(
            &json!({"ask": "rectifier", "line_v": 120, "topology": topology, "original": {"kind": "selenium", "plates": 5}, "first_filter_uf": 100,
            "load_ma": 250, "fitted_ohm": 5, "filter_rated_v": 200}),
        )
    };
    let full = doubler("full_wave_doubler");
    assert!((number(&full["first_filter"]["worst_v"]) - 186.7).abs() < 0.1);
    assert!((number(&full["lines"][2]["cold_v"]) - 373.4).abs() < 0.1);
    let cold = finding(&full, "findings", "cold start");
    assert_eq!(cold["outcome"], "differs");
    assert!(cold["says"].as_str().unwrap().contains("gets 373 V"), "{cold}");
    let half = doubler("half_wave_doubler");
    assert!((number(&half["first_filter"]["worst_v"]) - 373.4).abs() < 0.1);
    assert_eq!(half["verdict"]["word"], "New filter capacitors first.");
}

/// A 5U4G takes 3 A of a winding that gives 2 A and raises B+ (both common practice); a 5V4G drops less.
#[test]
fn one_rectifier_tube_for_another() {
    let swap = |candidate: &str| {
        ask(
            &json!({"ask": "rectifier", "topology": "centre_tap", "secondary_v": 350, "secondary_ohm": 140, "original": {"kind": "tube", "type": "5Y3GT"},
            "replacement": candidate, "first_filter_uf": 10, "load_ma": 90}),
        )
    };
    let larger = swap("5U4G");
    assert_eq!(larger["verdict"]["mark"], "no");
    assert_eq!(finding(&larger, "tube_swap", "heater")["outcome"], "fails");
    assert_eq!(finding(&larger, "tube_swap", "B+")["outcome"], "differs");
    assert!(larger["changes"].as_array().unwrap().is_empty());
    let same = swap("5Y3G");
    assert_eq!(finding(&same, "tube_swap", "heater")["outcome"], "ok");
    assert_eq!(finding(&same, "tube_swap", "B+")["outcome"], "ok");
    assert_ne!(same["verdict"]["mark"], "no");
    // What the book does not know is not passed.
    assert_eq!(swap("5X4G")["verdict"]["mark"], "no");
    assert_eq!(finding(&swap("5X4G"), "tube_swap", "B+")["outcome"], "unknown");
    assert_eq!(swap("12SK7")["field"], "replacement");
}

/// A stack that has 120 ohm and 1 V a plate (assumed, as in the table of restoring resistors) reads 112.7 V with little ripple; a first filter that has
/// lost capacitance reads as low with much. The circuits are solved apart by the engine and read back here.
#[test]
fn a_low_reading_is_told_by_its_ripple() {
    use stand_in::supply::{Circuit, Load, Rectifier, Topology, steady};
    let circuit = |law, first_uf| Circuit {
        topology: Topology::HalfWave,
        line_v: 117.0,
        line_hz: 60.0,
        rectifier: law,
        source_ohm: 23.0,
        series_ohm: 0.0,
        first_uf,
        first_load: Load::Current { ma: 53.0 },
        filter: None,
    };
    let aged = Rectifier::Selenium { plates: 5.0, plate_v: 1.0, plate_ohm: 24.0 };
    let fresh = Rectifier::Selenium { plates: 5.0, plate_v: 0.85, plate_ohm: 2.8 };
    for (faulty, cause, other) in [
        (circuit(aged, 40.0), "weak stack", "worn first filter"),
        (circuit(fresh, 7.0), "worn first filter", "weak stack"),
    ] {
        let warm = steady(&faulty).unwrap();
        let answer = ask(
            &json!({"ask": "rectifier", "line_v": 117, "original": {"kind": "selenium", "plates": 5}, "first_filter_uf": 40, "load_ma": 53,
            "fitted_ohm": 22, "measured_v": warm.first_v, "measured_ripple_v": warm.first_ripple_v / 12_f64.sqrt()}),
        );
        let reading = outcomes(&answer["reading"]);
        assert!(
            reading.contains(&("reading", "differs")) && reading.contains(&(cause, "needs_change")),
            "{}",
            answer["reading"]
        );
        assert!(reading.contains(&(other, "ok")), "{reading:?}");
    }
    let fine = ask(
        &json!({"ask": "rectifier", "line_v": 117, "original": {"kind": "selenium", "plates": 5}, "first_filter_uf": 40, "load_ma": 53, "fitted_ohm": 22, "measured_v": 140}),
    );
    assert_eq!(outcomes(&fine["reading"]), [("reading", "ok")]);
    let unknown =
        ask(&json!({"ask": "rectifier", "target_v": 130, "first_filter_uf": 40, "load_ma": 53, "measured_v": 110}));
    assert_eq!(outcomes(&unknown["reading"]), [("reading", "unknown")]);
}

#[test]
fn the_load_in_three_ways() {
    let with = |load: Value| {
        let mut question =
            json!({"ask": "rectifier", "original": {"kind": "tube", "type": "35W4"}, "first_filter_uf": 40});
        question.as_object_mut().unwrap().extend(load.as_object().unwrap().clone());
        ask(&question)
    };
    let warm = |answer: &Value| number(&answer["lines"][1]["warm_v"]);
    let by_ma = with(json!({"load_ma": 55}));
    let by_ohm = with(json!({"load_ohm": warm(&by_ma) / 0.055}));
    assert!((warm(&by_ohm) - warm(&by_ma)).abs() < 3.0, "{by_ohm}");
    assert!(
        with(json!({"load_tubes": ["12BE6", "12BA6", "12AV6", "50C5"]}))["assumed"]
            .to_string()
            .contains("sum of the typical")
    );
    assert_eq!(with(json!({}))["field"], "load_ma");
    assert_eq!(with(json!({"load_ma": 55, "load_ohm": 2000}))["field"], "load_ma");
}

/// Filaments of a portable follow B+: 50 mA types behind a resistor chosen for a sagging stack burn on silicon.
#[test]
fn the_filaments_of_a_portable() {
    let portable = |filament_ohm: f64| {
        ask(&json!({"ask": "rectifier", "line_v": 117, "target_v": 140, "first_filter_uf": 40, "load_ma": 70,
            "filament_tubes": ["1R5", "1U4", "1U5", "3V4"], "filament_ohm": filament_ohm}))
    };
    // (B+ - 7 V) / 50 mA, by hand.
    let b_plus_v = number(&portable(2700.0)["lines"][1]["warm_v"]);
    let proper_ohm = (b_plus_v - 7.0) / 0.05;
    assert_eq!(finding(&portable(proper_ohm), "filaments", "filaments after")["outcome"], "ok");
    assert_eq!(finding(&portable(0.75 * proper_ohm), "filaments", "filaments after")["outcome"], "fails");
    assert_eq!(finding(&portable(0.75 * proper_ohm), "filaments", "filament resistor")["outcome"], "needs_change");
    // The verdict says so first, whatever the B+.
    assert_eq!(portable(0.75 * proper_ohm)["verdict"]["word"], "The filaments first.");
    assert_eq!(portable(0.75 * proper_ohm)["reasons"][0]["check"], "filaments after");
    assert!(portable(2700.0)["cautions"].to_string().contains("burn out"));
    assert_eq!(
        ask(
            &json!({"ask": "rectifier", "target_v": 130, "first_filter_uf": 40, "load_ma": 60, "filament_tubes": ["1R5"]})
        )["field"],
        "filament_ohm"
    );
}

/// A 0.3 A set with a line cord and a lamp (6.3 V 0.15 A, 42 ohm across it take the other half): by hand, 117 V less 75.2 V of heaters at 0.3 A are 139 ohm.
#[test]
fn a_line_cord_a_lamp_and_the_order_of_wiring() {
    let string = |cord: &str| {
        ask(
            &json!({"ask": "heater_string", "line_v": 117, "tubes": [cord, "25Z6GT", "25L6GT", "6SK7", "6SA7", "6SQ7", "lamp 47 with 42 ohm"]}),
        )
    };
    let answer = string("cord 139 ohm");
    assert_eq!(answer["verdict"]["mark"], "yes", "{answer}");
    assert!((number(&answer["current_a"]) - 0.3).abs() < 0.002);
    let row = |place: usize| &answer["heaters"][place];
    assert!((number(&row(6)["percent"]) - 100.0).abs() < 1.0, "{}", row(6));
    assert!((number(&row(0)["v"]) - 41.7).abs() < 0.3);
    // Crest of what lies below and in each heater: 6SQ7 12.6 V, 6SA7 18.9 V, 6SK7 25.2 V, 25L6 50.2 V; the rectifier's cathode is at B+ besides.
    for (place, wanted_v) in [(5, 12.6), (4, 18.9), (3, 25.2), (2, 50.2), (1, 75.2 + 117.0)] {
        let found_v = number(&row(place)["heater_cathode_v"]);
        assert!((found_v - wanted_v * 2_f64.sqrt()).abs() < 2.0, "{}", row(place));
    }
    // The settled end of the warm-up is the string as solved.
    let last = answer["warm_up"].as_array().unwrap().last().unwrap();
    assert!((number(&last["a"]) - 0.3).abs() < 0.003);
    // The worst moment of the lamp's curve is what the finding says, beside that of the quickest heater: it flashes up at switch-on.
    let curve = answer["warm_up"].as_array().unwrap().iter().map(|point| number(&point["v"][6]));
    let flash_percent = 100.0 * curve.fold(0.0, f64::max) / 6.3;
    assert!(flash_percent > 150.0, "{flash_percent}");
    let warm_up = finding(&answer, "findings", "warm-up");
    assert_eq!(warm_up["outcome"], "differs", "{warm_up}");
    // The curve's volts are rounded to tenths.
    for text in [&warm_up["found"], &warm_up["says"]] {
        let near = [flash_percent - 0.8, flash_percent, flash_percent + 0.8];
        let told = |percent: f64| text.as_str().unwrap().contains(&format!(" {percent:.0} %"));
        assert!(near.into_iter().any(told), "{flash_percent} in {warm_up}");
    }
    assert!(warm_up["says"].as_str().unwrap().contains("should "), "{warm_up}");
    assert!(warm_up["says"].as_str().unwrap().contains("eases"), "{warm_up}");
    // With a thermistor (600 ohm cold, 39 ohm hot) for part of the cord there is none to advise; without a lamp nothing flashes.
    let with = |tubes: &[&str]| ask(&json!({"ask": "heater_string", "line_v": 117, "tubes": tubes}));
    let eased =
        with(&["ntc 600/39 ohm", "cord 100 ohm", "25Z6GT", "25L6GT", "6SK7", "6SA7", "6SQ7", "lamp 47 with 42 ohm"]);
    assert!(!finding(&eased, "findings", "warm-up")["says"].as_str().unwrap().contains("eases"), "{eased}");
    let plain = with(&["cord 139 ohm", "25Z6GT", "25L6GT", "6SK7", "6SA7", "6SQ7"]);
    assert!(!finding(&plain, "findings", "warm-up")["says"].as_str().unwrap().contains("flashes"), "{plain}");
    // A cord cut short puts the heaters over.
    // A cord cut short puts the heaters over.
    assert_eq!(string("cord 60 ohm")["verdict"]["mark"], "care");
    assert_eq!(ask(&json!({"ask": "heater_string", "tubes": ["150 ohm"]}))["field"], "tubes");
    assert_eq!(ask(&json!({"ask": "heater_string", "tubes": ["12BE6", "lamp 999"]}))["field"], "tubes[1]");
}

/// UCH81, UF89, UABC80, UL84, UY85 on 220 V 50 Hz without a dropper: 769 ohm 7.69 W, or a diode and 124.6 ohm 1.25 W (computed apart from this code); on DC
/// neither capacitor nor diode does anything.
#[test]
fn other_ways_than_a_dropper() {
    let string = |line_hz: f64| {
        ask(
            &json!({"ask": "heater_string", "line_v": 220, "line_hz": line_hz, "tubes": ["UY85", "UL84", "UABC80", "UF89", "UCH81"]}),
        )
    };
    let ways = string(50.0)["alternatives"].clone();
    assert_eq!(ways.as_array().unwrap().len(), 2);
    assert!(ways[0]["says"].as_str().unwrap().contains("electrolytic or a DC film part explodes"));
    assert!(
        ways[1]["says"].as_str().unwrap().contains("156 V true rms")
            && ways[1]["says"].as_str().unwrap().contains("120 ohm")
    );
    assert!(string(0.0)["alternatives"].as_array().unwrap().is_empty());
    let fitted = ask(
        &json!({"ask": "heater_string", "line_v": 220, "tubes": ["UY85", "UL84", "UABC80", "UF89", "UCH81"], "dropper_ohm": 769}),
    );
    assert!((number(&fitted["dropper_v"]) - 76.9).abs() < 0.2 && fitted["line_v"] == 220.0, "{fitted}");
}

#[test]
fn a_line_the_set_is_not_made_for() {
    let on = |line_v: f64, designed_v: f64| {
        ask(
            &json!({"ask": "heater_string", "line_v": line_v, "designed_v": designed_v, "tubes": ["35W4", "50C5", "12BE6", "12BA6", "12AV6"]}),
        )
    };
    let far = on(240.0, 120.0);
    assert_eq!(far["verdict"]["mark"], "no");
    // No way that leaves B+ at twice its volts.
    assert!(
        far["alternatives"].as_array().unwrap().is_empty() && !far["changes"].to_string().contains("heaters alone")
    );
    let near = on(122.0, 110.0);
    assert_eq!(near["verdict"]["mark"], "care");
    assert!(near["remedies"].to_string().contains("12.6 V winding"), "{near}");
    assert!(on(118.0, 117.0)["remedies"].as_array().unwrap().is_empty());
}

/// By hand: three of 0.3 A, one of 0.45 A, a 12AX7 in parallel 0.3 A at 6.3 V are 1.65 A.
#[test]
fn heaters_on_a_winding() {
    let with = |winding_a: Option<f64>, first: &str| {
        ask(
            &json!({"ask": "heater_string", "winding_v": 6.3, "winding_a": winding_a, "tubes": [first, "6BA6", "6AV6", "6AQ5", "12AX7"]}),
        )
    };
    let answer = with(Some(2.0), "6BE6");
    assert!((number(&answer["current_a"]) - 1.65).abs() < 1e-6, "{answer}");
    assert_eq!(answer["verdict"]["mark"], "yes");
    assert_eq!(with(Some(1.5), "6BE6")["verdict"]["mark"], "no");
    assert_eq!(with(None, "6BE6")["verdict"]["mark"], "unknown");
    assert_eq!(with(Some(5.0), "12BE6")["verdict"]["mark"], "no");
}

/// Plate current through the filaments of a battery set: the one at the chassis end carries that of all.
#[test]
fn filaments_carry_the_plate_current() {
    let answer = ask(
        &json!({"ask": "heater_string", "line_v": 90, "line_hz": 0, "tubes": ["3V4", "1U5", "1U4", "1R5"], "dropper_ohm": 1650}),
    );
    let v = |place: usize| number(&answer["heaters"][place]["percent"]);
    assert!(v(0) < v(1) && v(1) < v(2) && v(2) < v(3), "{answer}");
    assert!(answer["changes"].to_string().contains("unless the set has one"));
    // On AC nothing of the kind is said.
    assert!(
        !ask(&json!({"ask": "heater_string", "line_v": 90, "tubes": ["3V4", "1U5"]}))
            .to_string()
            .contains("plate current")
    );
}

fn any_number() -> impl Strategy<Value = Value> {
    prop_oneof![
        (-10.0..500.0).prop_map(Value::from),
        (-3.0..6.0).prop_map(|power| Value::from(10_f64.powf(power))),
        Just(Value::Null),
        Just(json!("120")),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_rectifier_question_is_answered(
        figures in proptest::collection::vec(any_number(), 10),
        kind in 0..6,
        given in any::<u16>(),
    ) {
        let names = ["line_v", "line_hz", "target_v", "first_filter_uf", "load_ma", "filter_ohm", "second_filter_uf",
            "after_filter_ma", "fitted_ohm", "filter_rated_v"];
        let mut question = json!({"ask": "rectifier", "first_filter_uf": 40, "load_ma": 55});
        for (at, (name, figure)) in names.iter().zip(&figures).enumerate() {
            if given >> at & 1 == 1 && !(figure.is_null() && name.starts_with("line")) {
                question[*name] = figure.clone();
            }
        }
        match kind {
            0 => question["original"] = json!({"kind": "silicon"}),
            1 => question["original"] = json!({"kind": "selenium", "plates": figures[0]}),
            2 => question["original"] = json!({"kind": "tube", "type": "25Z6GT", "drop_v": figures[1], "drop_ma": figures[2]}),
            3 => question["original"] = json!({"kind": "tube", "type": "6X5GT"}),
            4 => question["original"] = json!({"kind": "selenium"}),
            _ => {}
        }
        let topologies = ["half_wave", "centre_tap", "bridge", "full_wave_doubler", "half_wave_doubler"];
        question["topology"] = topologies[usize::from(given) % 5].into();
        let more = ["secondary_v", "secondary_ohm", "measured_v", "measured_ripple_v", "filter_henry", "doubler_uf", "filament_ohm"];
        for (at, (name, figure)) in more.iter().zip(figures.iter().rev()).enumerate() {
            if given >> (9 + at) & 1 == 1 {
                question[*name] = figure.clone();
            }
        }
        if given & 3 == 3 {
            question["replacement"] = "5U4G".into();
            question["filament_tubes"] = json!(["1R5", "3V4"]);
        }
        let answer = ask(&question);
        match answer["answer"].as_str() {
            Some("error") => prop_assert!(!answer["field"].as_str().unwrap().is_empty(), "{question} {answer}"),
            Some("rectifier") => {
                prop_assert!(number(&answer["lines"][1]["warm_v"]) > 0.0);
                if let Some(resistor) = answer.get("resistor") {
                    prop_assert!(number(&resistor["rated_w"]) >= 1.99 * number(&answer["lines"][2]["resistor_w"]));
                }
            }
            other => prop_assert!(false, "{other:?}"),
        }
    }
}
