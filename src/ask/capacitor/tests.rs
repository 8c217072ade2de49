//! Whole answers, as a person reads them.

use proptest::prelude::*;

use super::*;
use crate::finding::{Change, Finding, Mark};

/// An answer as the page would read it out.
fn read_out(question: &CapacitorQuestion) -> String {
    let answer = match answer(&Book::default(), question) {
        Ok(answer) => answer,
        Err(error) => return error.says,
    };
    let mut lines = vec![format!("{:?}: {}", answer.verdict.mark, answer.verdict.word), answer.verdict.says];
    lines.extend(answer.reasons.iter().map(finding_line));
    lines.extend(answer.changes.iter().map(change_line));
    lines.extend(answer.measure.iter().map(|says| format!("measure: {says}")));
    lines.extend(answer.assumed.iter().map(|says| format!("assumed: {says}")));
    lines.extend(answer.cautions.iter().map(|caution| format!("caution: {}", caution.topic)));
    lines.join("\n")
}

fn finding_line(finding: &Finding) -> String {
    let figure = |figure: &Option<String>| figure.clone().unwrap_or_default();
    format!(
        "{} {:?}: {} | {} | {}",
        finding.check,
        finding.outcome,
        figure(&finding.wanted),
        figure(&finding.found),
        finding.says
    )
}

fn change_line(change: &Change) -> String {
    match &change.part {
        Some(part) => format!("do: {} {}, {}, {}", change.says, part.part, part.value, part.rating),
        None => format!("do: {}", change.says),
    }
}

fn question(marking: &str, role: Option<CapacitorRole>) -> CapacitorQuestion {
    CapacitorQuestion { role, ..CapacitorQuestion::of(marking) }
}

#[test]
fn a_coupling_capacitor() {
    let question = question(".02 mfd 400v", Some(CapacitorRole::Coupling));
    insta::assert_snapshot!(read_out(&question), @r"
    Yes: Yes.
    For 0.02 uF (20 nF), 400 V fit 0.022 uF (22 nF) film, 630 V DC.
    value Ok: 0.02 uF (20 nF), 20 % | 0.022 uF (22 nF), +10 % | +10 % is inside what the old part was allowed.
    ratings Ok: 400 V on the old part | 630 V DC | Not below the old rating. Good for up to 420 V at cold start, nominal line.
    do: Fit this. capacitor, polypropylene or polyester film, 0.022 uF (22 nF, marked 223 or 22n), 630 V DC
    measure: Set warm: the next grid shows 0 V DC or its bias; any positive volts there mean leakage.
    assumed: Taken to be a paper capacitor, by its value and marking.
    assumed: No tolerance marked: 20 % is customary for a paper capacitor.
    caution: stored charge
    caution: leaky coupling capacitor
    ");
}

#[test]
fn a_part_of_unknown_role_may_sit_at_the_line() {
    let question = question(".05 400 V", None);
    insta::assert_snapshot!(read_out(&question), @r"
    Care: Yes, in an ordinary DC place.
    For 0.05 uF (50 nF), 400 V in an ordinary DC place fit 0.047 uF (47 nF) film, 630 V DC. If it sits at the power line, across it or from the line to the chassis, this answer is wrong: there it needs safety class X2 or Y2.
    value Ok: 0.05 uF (50 nF), 20 % | 0.047 uF (47 nF), -6 % | -6 % is inside what the old part was allowed.
    ratings Ok: 400 V on the old part | 630 V DC | Not below the old rating. Good for up to 420 V at cold start, nominal line.
    do: Fit this. capacitor, polypropylene or polyester film, 0.047 uF (47 nF, marked 473 or 47n), 630 V DC
    measure: Trace both leads first: if one goes to the power line, ask again with that place.
    assumed: Taken to be a paper capacitor, by its value and marking.
    assumed: No tolerance marked: 20 % is customary for a paper capacitor.
    caution: stored charge
    ");
}

#[test]
fn from_line_to_chassis_the_old_value_is_refused() {
    let question =
        CapacitorQuestion { line_v: Some(120.0), ..question(".05 mfd 400v", Some(CapacitorRole::LineToChassis)) };
    insta::assert_snapshot!(read_out(&question), @"
    Care: Not the old value.
    Not 0.05 uF (50 nF) again: it would let 2.26 mA through a person who touches the metal. Fit class Y2 0.0033 uF (3.3 nF), 250 V AC; it lets 0.149 mA through at 120 V.
    touch current Fails: 0.25 mA to aim at, 0.5 mA not to pass | 2.26 mA at 120 V, 60 Hz | The old value, 0.05 uF (50 nF), must not go back in.
    value Differs: 0.05 uF (50 nF), 20 % | 0.0033 uF (3.3 nF), -93.4 % | The value is smaller on purpose: the old one lets too much current through.
    safety class NeedsChange: class Y2 | ordinary part | Between the line and metal that can be touched a failing part means shock: class Y only. A film part rated in DC volts and a class X part are refused.
    do: Fit this, marked with its class by a testing house. capacitor, ceramic or film made for line to chassis, 0.0033 uF (3.3 nF, marked 332 or 3n3), class Y2, 250 V AC
    measure: AC volts across a 2 kohm resistor from the metal to ground, plug both ways, switch on and off: 0.5 V is 0.25 mA.
    assumed: Taken to be a paper capacitor, by its value and marking.
    assumed: No tolerance marked: 20 % is customary for a paper capacitor.
    assumed: Line frequency taken as 60 Hz.
    caution: hot chassis
    caution: rules
    ");
}

#[test]
fn across_the_line() {
    let question = CapacitorQuestion {
        line_v: Some(230.0),
        line_hz: Some(50.0),
        ..question(".25 mfd", Some(CapacitorRole::AcrossLine))
    };
    insta::assert_snapshot!(read_out(&question), @"
    Care: Only with a class X2 part.
    For 0.25 uF (250 nF) across the line fit class X2 0.22 uF (220 nF), 275 V AC; a film part rated in DC volts is not made for it.
    safety class NeedsChange: class X2 | ordinary part | Across the line a failing part means fire: class X2, or Y2. A film part rated in DC volts is refused.
    value Ok: 0.25 uF (250 nF), 20 % | 0.22 uF (220 nF), -12 % | -12 % is inside what the old part was allowed.
    do: Fit this, marked with its class by a testing house. capacitor, polypropylene film made for the line, 0.22 uF (220 nF, marked 224 or 220n), class X2, 275 V AC
    do: Fit 2.2 Mohm across it as well (two resistors of half the value in series), so that the plug pins are dead within a second.
    measure: Plug pulled: the volts between its pins after a second or two.
    assumed: Taken to be a paper capacitor, by its value and marking.
    assumed: No tolerance marked: 20 % is customary for a paper capacitor.
    caution: hot chassis
    caution: rules
    ");
}

#[test]
fn a_can_of_three_sections() {
    let question = CapacitorQuestion {
        circuit_v: Some(360.0),
        ..question("8-8-20 mfd 450-450-25 V", Some(CapacitorRole::FirstFilter))
    };
    insta::assert_snapshot!(read_out(&question), @r"
    Yes: Yes.
    For 8 + 8 + 20 uF, 450/450/25 V fit 2 x 10 uF electrolytic, 450 V DC and 22 uF electrolytic, 25 V DC.
    rectifier Differs: up to 12 uF | 10 uF | A vacuum rectifier limits the first filter: do not go further above the old value than this unless its data sheet allows it.
    value Ok: 8 uF, -20 to +100 % | 10 uF, +25 % | +25 % is inside what the old part was allowed.
    do: Fit a separate capacitor for each section and disconnect the can; it can stay as an ornament.
    do: The can's negative is common: take every new minus end to the point where that went. If it is insulated from the chassis, the set has back bias there: never take it to the chassis. A can with its own minus lead for a section keeps that section's minus apart.
    do: Section 1: Fit this with its plus end where the old one had it, and disconnect the old one. capacitor, aluminium electrolytic, 105 C, 10 uF, 450 V DC
    do: Section 2: Fit this with its plus end where the old one had it, and disconnect the old one. capacitor, aluminium electrolytic, 105 C, 10 uF, 450 V DC
    do: Section 3: Fit this with its plus end where the old one had it, and disconnect the old one. capacitor, aluminium electrolytic, 105 C, 22 uF, 25 V DC
    measure: Before you take a minus end to the chassis: ohms from the old minus to the chassis, set off; anything above 0 is back bias.
    measure: From cold: the highest volts across it in the first minute stay below its rating.
    measure: Set warm: B+ against the drawing, and the hum.
    assumed: Taken to be an electrolytic, by its value and marking.
    assumed: No tolerance marked: -20 to +100 % is customary for an electrolytic.
    assumed: The volts of the place are taken at the nominal line; a line 10 % high is allowed for.
    assumed: The volts of the place belong to the high-voltage sections; a low-voltage one keeps its own.
    caution: stored charge
    caution: old electrolytics
    ");
}

#[test]
fn a_marking_with_two_meanings() {
    let question = question("470", None);
    insta::assert_snapshot!(read_out(&question), @r"
    Unknown: Cannot tell yet: measure it.
    The marking can mean 470 pF or 47 pF: measure it first. If it is 470 pF, fit 470 pF silvered mica or C0G, 500 V DC. If it sits at the power line, across it or from the line to the chassis, this answer is wrong: there it needs safety class X2 or Y2.
    ratings Unknown: not known | 500 V DC | The usual rating. Measure: it is good for up to 333 V at cold start.
    value Ok: 470 pF, 5 % | 470 pF, 0 % | The same value is sold.
    do: Fit this. capacitor, silvered mica, or C0G (NP0) ceramic, 470 pF (marked 471 or 470p), 500 V DC
    measure: Lift one end and measure its capacitance; that settles the marking.
    measure: Before replacing it: lift one end, measure its value and, at working volts, its leakage.
    measure: Trace both leads first: if one goes to the power line, ask again with that place.
    assumed: Taken to be a mica capacitor, by its value and marking.
    assumed: No tolerance marked: 20 % is customary for a mica capacitor.
    caution: stored charge
    ");
}

#[test]
fn a_mica_in_a_tuned_circuit() {
    let question =
        CapacitorQuestion { kind: Some(CapacitorKind::Mica), ..question("250 mmf 500 V", Some(CapacitorRole::Tuned)) };
    insta::assert_snapshot!(read_out(&question), @r"
    Care: Leave a good one in.
    Leave a mica capacitor in that measures right; only a bad one of 250 pF, 500 V is replaced, by 240 pF silvered mica or C0G, 500 V DC.
    value Ok: 250 pF, 5 % | 240 pF, -4 % | -4 % is inside what the old part was allowed.
    ratings Ok: 500 V on the old part | 500 V DC | Not below the old rating. Good for up to 333 V at cold start, nominal line.
    do: Fit this. capacitor, silvered mica, or C0G (NP0) ceramic, 240 pF (marked 241 or 240p), 500 V DC
    measure: Before replacing it: lift one end, measure its value and, at working volts, its leakage.
    measure: Touch up the trimmer of the circuit it belongs to.
    assumed: No tolerance marked: 20 % is customary for a mica capacitor.
    caution: stored charge
    ");
}

#[test]
fn what_cannot_be_read() {
    let question = question("16 bananas", None);
    insta::assert_snapshot!(read_out(&question), @"`marking` is `bananas` in `16 bananas`; accepted: a value with its unit or as printed, and the volts: .02 mfd 400v, 16-450, 20-20/150, 103, 4n7K, 250 mmf.");
}

#[test]
fn figures_that_are_none_are_refused_by_field() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -5.0, 1e30] {
        let fields = [
            CapacitorQuestion { circuit_v: Some(bad), ..question(".05", None) },
            CapacitorQuestion { line_v: Some(bad), ..question(".05", None) },
            CapacitorQuestion { line_hz: Some(bad), ..question(".05", None) },
        ];
        for (question, field) in fields.iter().zip(["circuit_v", "line_v", "line_hz"]) {
            assert_eq!(answer(&Book::default(), question).map_err(|error| error.field), Err(field.to_owned()), "{bad}");
        }
    }
    assert_eq!(
        answer(&Book::default(), &question("", None)).map_err(|error| error.says).err().as_deref(),
        Some(
            "`marking` is missing; accepted: a value with its unit or as printed, and the volts: .02 mfd 400v, 16-450, 20-20/150, \
         103, 4n7K, 250 mmf."
        )
    );
}

/// Word and sentence of the verdict.
fn told(question: &CapacitorQuestion) -> String {
    answer(&Book::shipped(), question).map_or_else(
        |error| error.says,
        |answer| format!("{:?}: {} {}", answer.verdict.mark, answer.verdict.word, answer.verdict.says),
    )
}

#[test]
fn a_coupling_capacitor_is_judged_by_the_grid() {
    let coupling = |grid_v: f64| CapacitorQuestion {
        grid_v: Some(grid_v),
        grid_ohm: Some(470e3),
        circuit_v: Some(100.0),
        ..question(".02 400v", Some(CapacitorRole::Coupling))
    };
    insta::assert_snapshot!(told(&coupling(1.5)), @"Care: Replace it. It leaks: 1.5 V at the grid, which shifts the bias by as much; through the 470 kohm grid leak it is 3.2 uA, an insulation of 30.9 Mohm. For 0.02 uF (20 nF), 400 V fit 0.022 uF (22 nF) film, 630 V DC.");
    insta::assert_snapshot!(told(&coupling(0.0)), @"Care: Good so far. No leakage is seen at the grid. Paper leaks sooner or later: look again after some hours of use, or replace it now.");
    insta::assert_snapshot!(told(&CapacitorQuestion { in_circuit: Some(true), ..coupling(3.0) }), @"Unknown: Measure it out of the circuit. 3 V at the grid can come from the capacitor or from the tube: pull the tube, or lift the grid end, and measure again. If it proves bad, fit 0.022 uF (22 nF) film, 630 V DC.");
}

#[test]
fn an_electrolytic_is_judged_by_value_and_resistance() {
    let filter = |measured_uf: Option<f64>, esr_ohm: Option<f64>| CapacitorQuestion {
        measured_pf: measured_uf.map(|uf| uf * 1e6),
        esr_ohm,
        load_ma: Some(60.0),
        line_v: Some(120.0),
        ..question("40 mfd 150 V", Some(CapacitorRole::FirstFilter))
    };
    insta::assert_snapshot!(told(&filter(Some(44.0), Some(0.8))), @"Care: Good so far. 44 uF is inside its -20 to +100 %. 0.8 ohm in series is what a good one has. At 60 mA half-wave its value alone gives about 25 V of ripple, peak to peak; its resistance adds about 0.384 V. Its leakage at working volts is not known yet: it should stay cool there.");
    insta::assert_snapshot!(told(&filter(None, Some(12.0))), @"Care: Replace it. 12 ohm in series is more than any new one of this value may have. For 40 uF, 150 V fit 47 uF electrolytic, 200 V DC.");
    insta::assert_snapshot!(told(&filter(Some(9.0), None)), @"Care: Replace it. 9 uF is -77.5 %, outside its -20 to +100 %. For 40 uF, 150 V fit 47 uF electrolytic, 200 V DC.");
    let can = CapacitorQuestion { measured_pf: Some(20e6), ..question("20-20/150", None) };
    assert!(told(&can).contains("one section at a time"));
}

#[test]
fn a_first_filter_is_bounded_by_its_rectifier() {
    let behind = |marking: &str, tube: &str| CapacitorQuestion {
        rectifier: Some(tube.to_owned()),
        load_ma: Some(60.0),
        line_v: Some(120.0),
        ..question(marking, Some(CapacitorRole::FirstFilter))
    };
    // A maker's 40 uF for the 35W4: from memory of its sheet, in the book.
    let rectifier = |question: &CapacitorQuestion| {
        let answer = answer(&Book::shipped(), question).unwrap();
        let finding = answer.findings.into_iter().find(|finding| finding.check == "rectifier").unwrap();
        format!("{} | {}", finding.wanted.unwrap(), finding.says)
    };
    insta::assert_snapshot!(rectifier(&behind("30 mfd 150 V", "35W4")), @"up to 40 uF | The book gives 40 uF as the most after the 35W4.");
    // Nothing known but drop and peak current: the usual bound stays, since the peak alone allows far more than a hot start does.
    insta::assert_snapshot!(rectifier(&behind("30 mfd 150 V", "35Z5GT")), @"up to 45 uF | A vacuum rectifier limits the first filter: do not go further above the old value than this unless its data sheet allows it.");
    // A tube that may pass less, as a user's row: the peaks decide.
    let mut book = Book::shipped();
    book.load("tubes", "type,unit,plate_peak_max_ma\n35Z5GT,1,420\n").unwrap();
    let tight = answer(&book, &behind("30 mfd 150 V", "35Z5GT")).unwrap();
    let finding = tight.findings.into_iter().find(|finding| finding.check == "rectifier").unwrap();
    insta::assert_snapshot!(format!("{:?} {} | {}", finding.outcome, finding.wanted.unwrap(), finding.says), @"Differs up to 6.8 uF | With 6.8 uF the 35Z5GT passes peaks of 396 mA on a line 10 % high, and 420 mA is its rating; half-wave, computed.");
    insta::assert_snapshot!(told(&behind("60 mfd 150 V", "35W4")), @"Care: More than the rectifier bears. The book gives 40 uF as the most after the 35W4. For 60 uF, 150 V 68 uF electrolytic, 200 V DC is nearest, which is more: add resistance before the rectifier, or use less.");
    // At the line itself the crest decides the rating: 230 V gives 325 V, and 358 V when 10 % high.
    let high = CapacitorQuestion { line_v: Some(230.0), ..behind("30 mfd 250 V", "35Z5GT") };
    assert_eq!(answer(&Book::shipped(), &high).unwrap().stand_ins[0].rated_v, 400.0);
    assert!(told(&behind("8 mfd 450 V", "12SA7")).contains("which is none"));
}

/// Roles at the line.
const LINE_ROLES: [CapacitorRole; 4] = [
    CapacitorRole::AcrossLine,
    CapacitorRole::LineToChassis,
    CapacitorRole::AerialIsolation,
    CapacitorRole::BusToChassis,
];

proptest! {
    #[test]
    fn whatever_is_written_a_part_at_the_line_has_a_safety_class(
        text in "[0-9./ -]{1,6}( mfd| mmf| pf|n|K|)( [0-9]{2,4} ?[vV~]|)", role in 0usize..4, line_v in proptest::option::of(90.0f64..270.0),
    ) {
        let question = CapacitorQuestion { line_v, ..question(&text, Some(LINE_ROLES[role])) };
        if let Ok(answer) = answer(&Book::default(), &question) {
            prop_assert!(answer.verdict.mark != Mark::Yes);
            for stand_in in answer.stand_ins {
                let class = stand_in.safety_class.unwrap_or_default();
                prop_assert!(class.starts_with(if role == 0 { "X" } else { "Y" }), "{} for {}", class, text);
                prop_assert!(stand_in.rating.ends_with("AC"));
            }
        }
    }

    #[test]
    fn no_health_keeps_a_part_at_the_line(role in 0usize..4, pf in 1e3f64..1e6, grid_v in proptest::option::of(0.0f64..10.0)) {
        let question = CapacitorQuestion { measured_pf: Some(pf), grid_v, ..question(".05 400 V", Some(LINE_ROLES[role])) };
        let answer = answer(&Book::default(), &question).unwrap();
        prop_assert!(!answer.changes.is_empty() && answer.verdict.mark == Mark::Care);
        prop_assert!(!answer.verdict.word.starts_with("Leave") && !answer.verdict.word.starts_with("Good"));
    }

    #[test]
    fn without_a_role_the_line_is_named(text in "\\.[0-9]{1,4}( mfd|)( [246]00 ?v|)") {
        if let Ok(answer) = answer(&Book::default(), &question(&text, None)) {
            let named = answer.verdict.says.contains("X2 or Y2");
            prop_assert!(answer.verdict.mark != Mark::Yes && (named || answer.stand_ins.is_empty()), "{}", answer.verdict.says);
        }
    }

    #[test]
    fn every_answer_is_words_and_finite_figures(text in "\\PC{0,12}", circuit_v in proptest::option::of(0.1f64..1e4)) {
        if let Ok(answer) = answer(&Book::default(), &CapacitorQuestion { circuit_v, ..question(&text, None) }) {
            prop_assert!(!serde_json::to_string(&answer).unwrap().contains("null"));
            prop_assert!(!answer.verdict.says.contains("unknown") && !answer.verdict.says.contains("NaN"));
        }
    }
}
