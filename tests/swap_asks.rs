//! What a swap says beyond its grade: changes with values, behaviour computed, the string solved, the other way round, whole line-ups.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use stand_in::ask::{Answer, LineUpAnswer, ServesAnswer, SwapAnswer, Way, answer, read};
use stand_in::book::Book;
use stand_in::finding::{Finding, Mark, Outcome};
use stand_in::swap::Grade;

fn ask(question: &str) -> Answer {
    answer(&Book::shipped(), &read(question).unwrap_or_else(|error| panic!("{}: {question}", error.says)))
}

fn swap(original: &str, candidate: &str, socket: &str) -> SwapAnswer {
    let question = format!(r#"{{"ask":"swap","original":"{original}","candidate":"{candidate}","socket":{socket}}}"#);
    match ask(&question) {
        Answer::Swap(swap) => *swap,
        other => panic!("{question}: {other:?}"),
    }
}

fn one_way(original: &str, candidate: &str, socket: &str) -> Way {
    swap(original, candidate, socket).ways.into_iter().next().expect("a way")
}

fn finding<'w>(way: &'w Way, check: &str) -> &'w Finding {
    way.findings.iter().find(|finding| finding.check == check).unwrap_or_else(|| panic!("{check}: {:?}", way.findings))
}

fn parts(way: &Way) -> Vec<(String, String)> {
    let parts = way.changes.iter().filter_map(|change| change.part.as_ref());
    parts.map(|part| (part.value.clone(), part.rating.clone())).collect()
}

/// Ohm's law: 6.3 V at 0.45 A is 14 ohm, of which 13 and 15 are sold, and 2.8 W, so 7 W.
#[test]
fn a_heater_of_half_the_volts_gets_a_resistor() {
    let way = one_way("12V6GT", "6V6GT", r#"{"supply":{"kind":"parallel"}}"#);
    assert_eq!(way.grade, Grade::AfterChanges);
    assert_eq!(parts(&way), [("15 ohm".to_owned(), "7 W".to_owned())]);
    assert!(way.work.starts_with("1 part"), "{}", way.work);
}

/// A 50 V tube where 35 V were: 122.8 V of heaters on 117 V, and the 61 ohm that took 9 V of the line have to go; without them each heater has 95 %.
#[test]
fn a_dropper_gives_what_a_larger_heater_takes() {
    let socket = |dropper: &str| {
        let others = r#"["12SA7","12SK7","12SQ7","35Z5GT"]"#;
        format!(r#"{{"supply":{{"kind":"series","line_v":117,"others":{others}{dropper}}}}}"#)
    };
    let way = one_way("35L6GT", "50L6GT", &socket(r#","dropper_ohm":61"#));
    assert_eq!(finding(&way, "heater").outcome, Outcome::NeedsChange, "{:?}", finding(&way, "heater"));
    assert!(way.changes.iter().any(|change| change.says.contains("dropper") && change.says.contains("out")));
    let bare = one_way("35L6GT", "50L6GT", &socket(""));
    assert_eq!(finding(&bare, "heater").outcome, Outcome::Ok, "{:?}", finding(&bare, "heater"));
    // With the other tubes not known the string is taken to suit its line, and the larger heater starves it.
    assert_eq!(swap("35L6GT", "50L6GT", r#"{"supply":{"kind":"series","amps":0.15}}"#).grade, Grade::No);
    // The other way round, with 9.2 V to spare: each heater gets less than a tenth too much, which is borne.
    let way = one_way("50L6GT", "35L6GT", &socket(r#","dropper_ohm":10"#));
    assert_eq!(finding(&way, "heater").outcome, Outcome::Differs);
}

/// The heater law with every tube in its place: a 0.1 A heater bare in a 0.15 A string takes far more than its volts.
#[test]
fn every_heater_of_the_string_is_solved() {
    let others = r#"["12BE6","12BA6","12AV6","50C5"]"#;
    let socket = format!(r#"{{"supply":{{"kind":"series","line_v":120,"others":{others}}}}}"#);
    let way = one_way("35W4", "36AM3", &socket);
    assert_eq!(way.string.len(), 5);
    let last = way.string.last().expect("the candidate");
    assert_eq!((last.r#type.as_str(), last.outcome), ("36AM3", Outcome::NeedsChange));
    assert!(last.percent > 130.0, "{last:?}");
    // What it takes too much the others lack, and the volts add up to the line.
    let sum_v: f64 = way.string.iter().map(|row| row.v).sum();
    assert!((sum_v - 120.0).abs() < 0.1 && way.string[0].percent < 90.0, "{sum_v} {:?}", way.string);
    // In the place of the original itself every heater gets the same share.
    let own = one_way("35W4", "35W4", &socket);
    assert!(own.string.iter().all(|row| (row.percent - 97.7).abs() < 0.1), "{:?}", own.string);
}

/// The place in the string decides on the insulation: at its chassis end nothing is asked of it.
#[test]
fn heater_cathode_volts_follow_the_place_in_the_string() {
    let at = |side: u32| {
        let others = r#"["35W4","50C5","12BA6","12BE6"]"#;
        let socket =
            format!(r#"{{"supply":{{"kind":"series","line_v":240,"others":{others},"chassis_side":{side}}}}}"#);
        let way = one_way("12AU6", "12BA6", &socket);
        finding(&way, "heater to cathode").outcome
    };
    assert_eq!(at(0), Outcome::Ok);
    let error = r#"{"ask":"swap","original":"12AU6","candidate":"12BA6","socket":{"supply":{"kind":"series","others":["35W4"],"chassis_side":2}}}"#;
    assert!(matches!(ask(error), Answer::Error(error) if error.field == "socket.supply.chassis_side"));
}

/// Filaments of a portable: other volts would shift its neighbours' bias, and the danger to all of them is said.
#[test]
fn filament_strings_keep_their_volts() {
    let series = r#"{"supply":{"kind":"series","amps":0.05}}"#;
    let same = swap("1T4", "1U4", series);
    assert!(same.cautions.iter().any(|caution| caution.topic == "all filaments at once"));
    assert_eq!(swap("1T4", "DF96", series).ways[0].changes.iter().filter(|change| change.part.is_some()).count(), 1);
    let battery = swap("1T4", "1U4", r#"{"supply":{"kind":"battery"}}"#);
    assert!(battery.cautions.iter().all(|caution| caution.topic != "all filaments at once"));
}

/// A 35Z5GT lights the dial lamp from its tap; the 35Z4GT has none.
#[test]
fn the_dial_lamp_outlives_the_tap() {
    let way = one_way("35Z5GT", "35Z4GT", r#"{"supply":{"kind":"series","amps":0.15}}"#);
    assert!(
        way.changes.iter().any(|change| change.says.contains("dial lamp") && change.part.is_some()),
        "{:?}",
        way.changes
    );
    let kept = one_way("35Z5GT", "35W4", r#"{"supply":{"kind":"series","amps":0.15}}"#);
    assert!(kept.changes.iter().all(|change| !change.says.contains("dial lamp")), "{:?}", kept.changes);
}

/// Grid 5 of the 6SA7GT shares pin 6 with the cathode; the metal 6SA7 has it on pin 1 with its shell (base designations 8AD and 8R, from memory). The
/// cathode's wire must stay where it is.
#[test]
fn a_suppressor_takes_no_wire_of_its_neighbour() {
    let way = one_way("6SA7GT", "6SA7", r#"{"supply":{"kind":"parallel"}}"#);
    assert!(way.changes.iter().all(|change| change.moves.is_empty()), "{:?}", way.changes);
    let says: Vec<&str> = way.changes.iter().map(|change| change.says.as_str()).collect();
    assert!(says.iter().any(|says| says.starts_with("Join pin 1 to chassis")), "{says:?}");
}

/// mu RL / (RL + rp) of 100, 62.5 kohm and 17, 7.7 kohm into 220 kohm: 77.9 and 16.4, 13.5 dB less.
#[test]
fn gain_into_the_load_of_the_set() {
    let way = one_way("12AX7", "12AU7", r#"{"supply":{"kind":"parallel"},"load_kohm":220}"#);
    assert!(finding(&way, "gain").says.contains("13."), "{:?}", finding(&way, "gain"));
    let way = one_way(
        "12AX7",
        "12AU7",
        r#"{"supply":{"kind":"parallel"},"load_kohm":100,"b_plus_v":250,"cathode_ohm":1500}"#,
    );
    let bias = finding(&way, "bias");
    // A handbook's resistance-coupled 12AX7 (RC-series manuals, from memory) has about 0.8 mA from 250 V through 100 kohm and 1.5 kohm.
    let own_ma: f64 = bias
        .wanted
        .as_deref()
        .and_then(|text| text.strip_suffix(" mA"))
        .and_then(|text| text.parse().ok())
        .expect("milliamps");
    assert!((0.6..1.1).contains(&own_ma), "{bias:?}");
}

/// df = -f dC / 2C, the first term of Thomson's formula: 1 pF more on 100 pF at 455 kHz is 2.3 kHz down.
#[test]
fn detuning_in_kilohertz() {
    let way = one_way("6SK7", "6AC7", r#"{"supply":{"kind":"parallel"},"tuned_khz":455,"tuned_pf":100}"#);
    let found = finding(&way, "capacitance");
    let pf = |text: &Option<String>| text.as_deref().and_then(|text| text.strip_suffix(" pF")?.parse::<f64>().ok());
    if let (Some(own), Some(other)) = (pf(&found.wanted), pf(&found.found)) {
        let khz = stand_in::quantity::significant(455.0 * (other - own).abs() / 200.0, 2);
        assert!(found.says.contains(&khz), "{found:?}");
    } else {
        assert_eq!(found.outcome, Outcome::Unknown);
    }
    // Some pair of the book is known on both sides and is said to move.
    let book = Book::shipped();
    let known = book.tubes().iter().filter(|tube| tube.units[0].figures.input_pf.is_some()).count();
    assert!(known > 20, "{known}");
}

/// A stage that is not under AGC takes a sharp tube for a remote one as it stands.
#[test]
fn agc_decides_on_the_cut_off() {
    let with = |agc: bool| one_way("12BA6", "12AU6", &format!(r#"{{"supply":{{"kind":"parallel"}},"agc":{agc}}}"#));
    assert_eq!(finding(&with(true), "cutoff").outcome, Outcome::Differs);
    assert!(finding(&with(true), "cutoff").says.contains("distorts strong stations"));
    assert_eq!(finding(&with(false), "cutoff").outcome, Outcome::Ok);
}

/// A rectifier of less drop: the set's own B+ by the supply engine.
#[test]
fn b_plus_of_either_rectifier() {
    let way =
        one_way("35Z5GT", "35W4", r#"{"supply":{"kind":"series","amps":0.15},"load_ma":70,"first_filter_uf":50}"#);
    if let Some(found) = way.findings.iter().find(|finding| finding.check == "B+ warm") {
        let v = |text: &Option<String>| -> f64 { text.as_deref().unwrap().trim_end_matches(" V").parse().unwrap() };
        assert!((100.0..165.0).contains(&v(&found.wanted)) && (100.0..165.0).contains(&v(&found.found)), "{found:?}");
        assert!(found.says.contains("165 V"), "{found:?}");
    } else {
        panic!("both drops are in the book: {:?}", way.findings);
    }
    // 40 uF at most for a 35W4 (receiving-tube manuals, from memory); the set has 50.
    assert_eq!(finding(&way, "rating").outcome, Outcome::NeedsChange, "{:?}", finding(&way, "rating"));
    assert!(way.grade == Grade::AfterChanges && way.changes.iter().any(|change| change.says.contains("at most 40 uF")));
}

/// What was taken for want of the set's own is named, and only that; where the tube drops alone tell, it says so and what would settle it.
#[test]
fn a_b_plus_that_is_not_worked_out_says_what_would_settle_it() {
    for (socket, taken) in [
        (r#"{"supply":{"kind":"series","amps":0.15}}"#, &["`load_ma`", "`first_filter_uf`", "`line_v`"][..]),
        (r#"{"supply":{"kind":"series","amps":0.15,"line_v":115},"load_ma":70}"#, &["`first_filter_uf`"]),
        (r#"{"supply":{"kind":"series","line_v":115},"load_ma":70,"first_filter_uf":40}"#, &[]),
    ] {
        let way = one_way("35Z5GT", "35W4", socket);
        let says = &finding(&way, "B+ warm").says;
        assert_eq!(says.matches('`').count(), 2 * taken.len(), "{says}");
        assert!(taken.iter().all(|fact| says.contains(fact)), "{says}");
        assert!(!finding(&way, "B+").says.contains("only the difference"), "{:?}", finding(&way, "B+"));
    }
    for (original, candidate, socket, facts) in [
        (
            "5Y3GT",
            "5V4G",
            r#"{"supply":{"kind":"parallel"},"load_ma":90,"first_filter_uf":10,"b_plus_v":300}"#,
            "`secondary_v`",
        ),
        ("5V4G", "5AR4", r#"{"supply":{"kind":"parallel"}}"#, "`secondary_ohm`"),
        (
            "5V4G",
            "5AR4",
            r#"{"supply":{"kind":"parallel"},"secondary_v":300,"secondary_ohm":150,"load_ma":70}"#,
            "`first_filter_uf`",
        ),
    ] {
        let way = one_way(original, candidate, socket);
        let told = finding(&way, "B+");
        assert!(
            told.says.contains("only the difference of the two tube drops") && told.says.contains(facts),
            "{told:?}"
        );
        assert!(way.findings.iter().all(|finding| finding.check != "B+ warm"), "nothing is known of the winding");
        // What is read first is the same sentence.
        for reason in way.reasons.iter().filter(|reason| reason.check == "B+") {
            assert_eq!(reason.says, told.says);
        }
    }
    // Drops that are the same leave nothing to settle.
    let same = one_way("5Y3GT", "5Y3G", r#"{"supply":{"kind":"parallel"}}"#);
    assert!(same.findings.iter().all(|finding| !finding.says.contains("only the difference")), "{:?}", same.findings);
}

/// On a winding that is told B+ is worked out with both plates; the question about the supply gives the same with that tube as its replacement.
#[test]
fn a_full_wave_rectifier_in_a_swap_is_solved_like_its_supply() {
    for (original, candidate) in [("5Y3GT", "5V4G"), ("5U4G", "5AR4"), ("5Y3GT", "5AR4")] {
        let socket = r#"{"supply":{"kind":"parallel","spare_amps":3},"secondary_v":300,"secondary_ohm":150,"load_ma":70,"first_filter_uf":10}"#;
        let way = one_way(original, candidate, socket);
        let found = finding(&way, "B+ warm");
        let read_v = |text: &Option<String>| -> f64 {
            text.as_deref().and_then(|text| text.strip_suffix(" V")?.parse().ok()).expect("volts")
        };
        let asked = format!(
            r#"{{"ask":"rectifier","topology":"centre_tap","secondary_v":300,"secondary_ohm":150,"load_ma":70,"first_filter_uf":10,"original":{{"kind":"tube","type":"{original}"}},"replacement":"{candidate}"}}"#
        );
        let Answer::Rectifier(supply) = ask(&asked) else { panic!("{asked}") };
        let there = supply.findings.iter().find(|finding| finding.check == "B+").expect("its B+");
        for (here_v, there_v) in
            [(read_v(&found.wanted), read_v(&there.wanted)), (read_v(&found.found), read_v(&there.found))]
        {
            assert!((here_v / there_v - 1.0).abs() < 0.02, "{original} to {candidate}: {found:?} {there:?}");
        }
        assert!(found.says.contains("424 V"), "the crest of 300 V: {found:?}");
        assert!(!finding(&way, "B+").says.contains("only the difference"), "{:?}", finding(&way, "B+"));
    }
}

#[test]
fn every_check_says_why_it_matters() {
    let swap = swap("12SK7", "12SG7", "{}");
    for finding in swap.ways.iter().flat_map(|way| &way.findings) {
        let own = ["B+ warm", "note"].contains(&finding.check.as_str());
        assert!(own || swap.why.iter().any(|(check, _)| *check == finding.check), "{}", finding.check);
    }
}

#[test]
fn an_original_that_is_common_is_worth_a_word() {
    let way = one_way("12SQ7", "12AV6", r#"{"supply":{"kind":"series","amps":0.15}}"#);
    assert!(way.work.contains("adapter"), "{}", way.work);
    assert!(way.advice.as_deref().is_none_or(|advice| advice.contains("12SQ7")), "{:?}", way.advice);
    let as_is = one_way("6V6", "6V6GT", r#"{"supply":{"kind":"parallel"}}"#);
    assert!(as_is.work.starts_with("None") && as_is.advice.is_none());
}

fn serves(question: &str) -> ServesAnswer {
    match ask(question) {
        Answer::Serves(serves) => *serves,
        other => panic!("{other:?}"),
    }
}

/// The other way round is not the same: a 6L6GC does for a 6L6G, a 6L6G not for a 6L6GC.
#[test]
fn what_a_tube_serves() {
    let of = |candidate: &str, wanted: &str| {
        let question = format!(
            r#"{{"ask":"serves","candidate":"{candidate}","wanted":["{wanted}","99ZZ9"],"socket":{{"supply":{{"kind":"parallel"}}}}}}"#
        );
        let answer = serves(&question);
        assert_eq!(answer.not_found, ["99ZZ9"]);
        answer.ranked[0].grade
    };
    assert_eq!(of("6L6GC", "6L6G"), Grade::AsIs);
    assert_eq!(of("6L6G", "6L6GC"), Grade::No);
    assert_eq!(of("ECC83", "12AX7"), Grade::Same);
    let all = serves(r#"{"ask":"serves","candidate":"6L6GC","socket":{"supply":{"kind":"parallel"}}}"#);
    assert!(all.ranked.iter().any(|row| row.r#type == "6L6G" && row.grade == Grade::AsIs), "{:?}", all.ranked);
    assert!(all.ranked.windows(2).all(|pair| pair[0].grade <= pair[1].grade));
    // And each agrees with the swap asked the usual way.
    for row in &all.ranked {
        assert_eq!(swap(&row.r#type, "6L6GC", r#"{"supply":{"kind":"parallel"}}"#).grade, row.grade, "{}", row.r#type);
    }
}

#[test]
fn wanted_types_may_come_as_a_note() {
    let answer =
        serves(r#"{"ask":"serves","candidate":"12AU6","wanted":["12SK7 GT, 2x 12BA6","ECC 83","12BA6","letters"]}"#);
    let mut types: Vec<&str> = answer.ranked.iter().map(|row| row.r#type.as_str()).collect();
    types.sort_unstable();
    assert_eq!(types, ["12AX7", "12BA6", "12SK7GT"]);
    assert_eq!(answer.not_found, ["letters"]);
}

/// 5814A and 12AU7 differ in heater current alone: no in a string, yes on a winding, and there the set has to be discharged first.
#[test]
fn cautions_hold_where_one_way_lets_it_in() {
    let both = swap("12AU7", "5814A", "{}");
    assert_eq!(both.grade, Grade::No);
    assert!(both.cautions.iter().any(|caution| caution.topic == "stored charge"), "{:?}", both.cautions);
    assert!(swap("12AU7", "5814A", r#"{"supply":{"kind":"series"}}"#).cautions.is_empty());
}

fn line_up(question: &str) -> LineUpAnswer {
    match ask(question) {
        Answer::LineUp(answer) => *answer,
        other => panic!("{other:?}"),
    }
}

/// The commonest line-up there is, from a note; and a portable's, whose converter is the hard one (needs of collectors, club article of 1997).
#[test]
fn line_ups_from_a_note() {
    let set = line_up(r#"{"ask":"line_up","note":"12SA7, 12SK7 12SQ7 / 50L6 GT + 35Z5. Old label: 117 V 30 W 12ZZ9"}"#);
    let types: Vec<&str> = set.tubes.iter().map(|tube| tube.r#type.as_str()).collect();
    assert_eq!(types, ["12SA7", "12SK7", "12SQ7", "50L6GT", "35Z5GT"]);
    // All that are known can be had, and one is not known.
    assert!(set.tubes.iter().all(|tube| tube.mark == Mark::Yes), "{:?}", set.verdict);
    assert_eq!(set.verdict.mark, Mark::Unknown);
    assert!(set.verdict.says.contains("12ZZ9: not in the book"), "{:?}", set.verdict);
    assert_eq!(set.supply, "series");
    assert_eq!(set.not_found, ["12ZZ9"]);
    assert!(set.supply_words.contains("string"), "{}", set.supply_words);
    let portable = line_up(r#"{"ask":"line_up","tubes":["1L6","1U4","1U4","1U5","3V4"],"supply":{"kind":"battery"}}"#);
    assert_eq!(portable.tubes.len(), 4);
    assert_eq!(portable.tubes[1].count, 2);
    let hard: Vec<&str> =
        portable.tubes.iter().filter(|tube| tube.mark != Mark::Yes).map(|tube| tube.r#type.as_str()).collect();
    assert_eq!(hard, ["1L6"], "{:?}", portable.verdict);
    assert!(matches!(ask(r#"{"ask":"line_up","note":"nothing here"}"#), Answer::Error(_)));
}

/// Room: a bulb with a shoulder for a metal shell is said, and grades nothing. Outlines: JEDEC bulb series, ST against T.
#[test]
fn a_bulb_with_a_shoulder_is_said() {
    let size = |original: &str, candidate: &str| {
        let way = one_way(original, candidate, r#"{"supply":{"kind":"parallel"}}"#);
        finding(&way, "size").says.clone()
    };
    assert!(size("6K7", "6K7G").contains("shoulder"), "{}", size("6K7", "6K7G"));
    assert!(!size("6K7G", "6K7").contains("shoulder"));
    assert!(size("50C5", "50L6GT").contains("adapter"));
}
