//! Whole answers, as a person reads them.

use proptest::prelude::*;

use super::*;

/// An answer as the page would read it out.
fn read_out(question: &ResistorQuestion) -> String {
    let answer = match answer(&Book::default(), question) {
        Ok(answer) => answer,
        Err(error) => return error.says,
    };
    let mut lines = vec![format!("{:?}: {}", answer.verdict.mark, answer.verdict.word), answer.verdict.says];
    lines.extend(answer.reasons.iter().map(|finding| {
        let figure = |figure: &Option<String>| figure.clone().unwrap_or_default();
        let (wanted, found) = (figure(&finding.wanted), figure(&finding.found));
        format!("{} {:?}: {wanted} | {found} | {}", finding.check, finding.outcome, finding.says)
    }));
    lines.extend(answer.changes.iter().map(|change| match &change.part {
        Some(part) => {
            format!("do: {} {}, {}, {}, {:?} W", change.says, part.part, part.value, part.rating, part.dissipates_w)
        }
        None => format!("do: {}", change.says),
    }));
    lines.extend(answer.measure.iter().map(|says| format!("measure: {says}")));
    lines.extend(answer.assumed.iter().map(|says| format!("assumed: {says}")));
    lines.extend(answer.cautions.iter().map(|caution| format!("caution: {}", caution.topic)));
    lines.join("\n")
}

fn question(marking: &str, role: Option<ResistorRole>) -> ResistorQuestion {
    ResistorQuestion { role, ..ResistorQuestion::of(marking) }
}

#[test]
fn a_drift_inside_the_old_tolerance() {
    let question = ResistorQuestion { measured_ohm: Some(560e3), ..question("500k", Some(ResistorRole::GridLeak)) };
    insta::assert_snapshot!(read_out(&question), @r"
    Yes: Leave it in.
    560 kohm is 12 % above the marking of 500 kohm, inside its 20 %: leave it in.
    drift Ok: 500 kohm, 20 % | 560 kohm, +12 % | Judged by the customary 20 %.
    value Ok: 500 kohm, 20 % | 470 kohm, -6 % | -6 % is inside what the old part was allowed.
    watts Ok: no heat to speak of | 1/4 W | A grid leak carries no current to speak of; not below the old part.
    measure: If both ends were connected, it may be higher than it reads: lift one end to be sure.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    assumed: It was measured with one end lifted.
    caution: stored charge
    ");
}

/// Parts across a resistor make it read low, never high. Common practice, no source.
#[test]
fn in_the_circuit_a_resistor_only_reads_low() {
    let told = |measured: f64| {
        let question =
            ResistorQuestion { measured_ohm: Some(measured), in_circuit: Some(true), ..question("470k 10%", None) };
        let answer = answer(&Book::default(), &question).unwrap();
        (answer.verdict.word, answer.changes.is_empty())
    };
    assert_eq!(told(450e3), ("Lift one end and measure again.".to_owned(), false));
    assert_eq!(told(200e3), ("Lift one end and measure again.".to_owned(), false));
    assert_eq!(told(600e3), ("Replace it.".to_owned(), false));
}

#[test]
fn a_fusible_one_is_replaced_by_a_fusible_one() {
    for marking in ["27 ohm 1/2W fusible", "100 ohm flameproof 1/4 W"] {
        let answer = answer(&Book::default(), &question(marking, None)).unwrap();
        assert!(!answer.stand_ins.is_empty());
        for part in answer.stand_ins {
            assert!(part.construction.contains("flameproof or fusible"), "{marking}: {}", part.construction);
        }
    }
}

#[test]
fn sections_of_one_body_become_resistors_of_their_own() {
    let question = ResistorQuestion { circuit_ma: Some(50.0), ..question("3000-2000-500 20W", None) };
    let answer = answer(&Book::default(), &question).unwrap();
    // I I R: 7.5, 5 and 1.25 W; at least twice that.
    let wanted = [(1, 3300.0, 25.0), (2, 2200.0, 10.0), (3, 470.0, 3.0)];
    for (section, ohm, watts) in wanted {
        let part = answer.stand_ins.iter().find(|part| part.section == section).unwrap();
        assert_eq!((part.ohm, part.rated_w), (ohm, watts));
    }
    assert!(answer.changes[0].says.contains("disconnect the old body at every tap"));
    assert!(super::answer(&Book::default(), &ResistorQuestion { measured_ohm: Some(5e3), ..question }).is_err());
}

#[test]
fn a_drifted_plate_load() {
    let question = ResistorQuestion {
        measured_ohm: Some(390e3),
        circuit_v: Some(180.0),
        ..question("250k", Some(ResistorRole::PlateLoad))
    };
    insta::assert_snapshot!(read_out(&question), @r"
    Care: Replace it.
    390 kohm is 56 % above the marking of 250 kohm, outside its 20 %: fit 240 kohm, 1/2 W metal film.
    drift NeedsChange: 250 kohm, 20 % | 390 kohm, +56 % | Judged by the customary 20 %.
    value Ok: 250 kohm, 20 % | 240 kohm, -4 % | -4 % is inside what the old part was allowed.
    watts Ok: 0.13 W of heat, 0.259 W asked for | 1/2 W | The heat is figured from the volts; at least twice that is asked for, and not less than the old part.
    do: Fit this, a little off the board so that air gets round it. resistor, metal film, 240 kohm, 1/2 W, Some(0.13) W
    do: Or 270 kohm, 1/2 W metal film.
    measure: If both ends were connected, lift one and measure again: in the circuit it can only read low.
    measure: Set warm: plate and screen volts against the drawing.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    assumed: It was measured with one end lifted.
    caution: stored charge
    ");
}

#[test]
fn a_marking_with_two_meanings() {
    let question = question("2M", None);
    insta::assert_snapshot!(read_out(&question), @r"
    Unknown: Cannot tell yet: measure it.
    The marking can mean 2 Mohm or 2 kohm: measure it, or say what it does. If it is 2 Mohm, fit 2 Mohm, 1/2 W metal film.
    value Ok: 2 Mohm, 20 % | 2 Mohm, 0 % | The same value is sold.
    watts Ok: 0.045 W of heat, 0.09 W asked for | 1/2 W | The heat is figured at the most, by its value; at least twice that is asked for, and not less than the old part.
    volts Ok: 300 V | 300 V | The lesser of the body's limit and what its watts allow; a line 10 % high is allowed for.
    do: Fit this, a little off the board so that air gets round it. resistor, metal film, 2 Mohm, 1/2 W, None W
    do: Or 2 x 1 Mohm in series, each 1/4 W metal film.
    measure: Set cold and discharged, one end lifted: its ohms. In the circuit it can only read low.
    assumed: M is a million, as elsewhere and later.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    assumed: No more than 300 V across it; if it can have more, say so.
    caution: stored charge
    ");
}

#[test]
fn a_surge_resistor_carries_pulses() {
    let question = ResistorQuestion { circuit_ma: Some(60.0), ..question("68 ohm 5W", Some(ResistorRole::Surge)) };
    insta::assert_snapshot!(read_out(&question), @"
    Yes: Yes.
    For 68 ohm, 5 W: fit 68 ohm, 5 W wire-wound, flameproof or fusible.
    value Ok: 68 ohm, 20 % | 68 ohm, 0 % | The same value is sold.
    watts Ok: 1.41 W of heat, 5 W asked for | 5 W | The heat is figured from pulses of 2.4 times the direct current; at least twice that is asked for, and not less than the old part.
    volts Ok: 10.8 V | 18 V | The lesser of the body's limit and what its watts allow; a line 10 % high is allowed for.
    do: Fit this, a little off the board so that air gets round it. resistor, wire-wound, flameproof or fusible, 68 ohm, 5 W, Some(1.41) W
    measure: Set cold and discharged, one end lifted: its ohms. In the circuit it can only read low.
    measure: Set warm: B+ against the drawing, and after ten minutes how hot it runs.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    assumed: The current comes in pulses: 2.4 times the direct current rms (computed for 40 uF and about 60 ohm).
    caution: stored charge
    caution: hot resistor
    ");
}

#[test]
fn between_bus_and_chassis() {
    let question = ResistorQuestion { circuit_v: Some(120.0), ..question("220k", Some(ResistorRole::BusToChassis)) };
    insta::assert_snapshot!(read_out(&question), @r"
    Care: Not the old value.
    Not 220 kohm again: alone it would let 0.545 mA through a person who touches the metal at 120 V. Fit 2 x 150 kohm in series, each 1/2 W metal film, or one high-voltage resistor.
    value Differs: 220 kohm, 20 % | 300 kohm, +36.4 % | The value is higher on purpose: the old one lets too much current through.
    touch current Fails: 0.25 mA to aim at, 0.5 mA not to pass | 0.545 mA through 220 kohm at 120 V | The old value must not go back in.
    touch current Differs: 0.25 mA to aim at, 0.5 mA not to pass | 0.4 mA through 300 kohm at 120 V | Beside the current of the capacitor. A higher value, up to about 1 Mohm, lets less through and still bleeds the chassis.
    do: Fit this, a little off the board so that air gets round it. resistor, metal film, or one high-voltage resistor, 2 x 150 kohm in series, 1/2 W, Some(0.03) W
    do: Use two in series, so that one that fails shorted does not put the chassis on the line.
    measure: Set cold and discharged, one end lifted: its ohms. In the circuit it can only read low.
    measure: AC volts across a 2 kohm resistor from the metal to ground, plug both ways: 0.5 V is 0.25 mA.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    caution: hot chassis
    caution: stored charge
    ");
}

#[test]
fn watts_that_cannot_be_told() {
    let question = question("1500", Some(ResistorRole::ScreenFeed));
    insta::assert_snapshot!(read_out(&question), @r"
    Unknown: Cannot tell the watts.
    For 1.5 kohm: 1.5 kohm is the value, but the watts cannot be told: give the volts across it, the milliamps through it, or the watts of the old part.
    watts Unknown: volts, milliamps or the old watts | none of them | Neither volts, milliamps nor the watts of the old part are known, so the watts cannot be told.
    value Ok: 1.5 kohm, 20 % | 1.5 kohm, 0 % | The same value is sold.
    measure: Set cold and discharged, one end lifted: its ohms. In the circuit it can only read low.
    measure: Set warm: plate and screen volts against the drawing.
    assumed: No tolerance marked: 20 % is customary for a composition resistor.
    caution: stored charge
    ");
}

#[test]
fn a_single_old_resistor_is_no_barrier() {
    let question = ResistorQuestion { measured_ohm: Some(480e3), ..question("470k", Some(ResistorRole::BusToChassis)) };
    let answer = answer(&Book::default(), &question).expect("an answer");
    assert_eq!(answer.verdict.mark, Mark::Care);
    assert_eq!(answer.stand_ins.first().map(|part| part.in_series), Some(2));
    assert!(!answer.changes.is_empty());
}

#[test]
fn figures_that_are_none_are_refused_by_field() {
    for bad in [f64::NAN, f64::INFINITY, 0.0, -5.0, 1e30] {
        let fields = [
            ResistorQuestion { measured_ohm: Some(bad), ..question("10k", None) },
            ResistorQuestion { circuit_v: Some(bad), ..question("10k", None) },
            ResistorQuestion { circuit_ma: Some(bad), ..question("10k", None) },
            ResistorQuestion { watts: Some(bad), ..question("10k", None) },
        ];
        for (question, field) in fields.iter().zip(["measured_ohm", "circuit_v", "circuit_ma", "watts"]) {
            assert_eq!(answer(&Book::default(), question).map_err(|error| error.field), Err(field.to_owned()), "{bad}");
        }
    }
    assert_eq!(
        answer(&Book::default(), &question("zebra", None)).map_err(|error| error.found).err().as_deref(),
        Some("`zebra`")
    );
}

proptest! {
    #[test]
    fn every_answer_is_words_and_finite_figures(
        text in "[0-9.,/ kKMmegRohWw%]{1,10}", measured_ohm in proptest::option::of(0.01f64..1e8),
        circuit_v in proptest::option::of(0.01f64..1e4), circuit_ma in proptest::option::of(1e-3f64..1e4),
    ) {
        if let Ok(answer) = answer(&Book::default(), &ResistorQuestion { measured_ohm, circuit_v, circuit_ma, ..question(&text, None) }) {
            prop_assert!(!serde_json::to_string(&answer).unwrap().contains("null"));
            prop_assert!(!answer.verdict.says.contains("unknown") && !answer.verdict.says.contains("NaN"));
            for part in answer.stand_ins {
                prop_assert!(part.rated_w > 0.0 && part.ohm > 0.0);
            }
        }
    }
}
