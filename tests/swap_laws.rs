//! Laws every judgement obeys, tried on the whole shipped book.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;

use proptest::prelude::*;
use stand_in::ask::{Answer, answer, read};
use stand_in::book::{Book, BulbFigures, Function, Tube, UnitFigures};
use stand_in::swap::{Grade, Socket, Supply, judge};

fn supplies() -> [Supply; 3] {
    [Supply::SERIES, Supply::PARALLEL, Supply::Battery]
}

/// How much a grade allows: `no` and `unknown` alike allow nothing.
fn rank(grade: Grade) -> u8 {
    match grade {
        Grade::Same => 4,
        Grade::AsIs => 3,
        Grade::AsIsDifferent => 2,
        Grade::AfterChanges => 1,
        Grade::No | Grade::Unknown => 0,
    }
}

/// Every ordered pair of the book under every supply: none panics, none is the same tube as another type, and a candidate that plugs in has its
/// electrodes where the original has them.
#[test]
fn every_pair_of_the_book_is_judged() {
    let book = Book::shipped();
    let tubes = book.tubes();
    for supply in supplies() {
        let socket = Socket::fed_by(supply);
        let mut counts: BTreeMap<Grade, usize> = BTreeMap::new();
        for (at, original) in tubes.iter().enumerate() {
            for (other, candidate) in tubes.iter().enumerate() {
                let judgement = judge(original, candidate, &socket, at == other);
                *counts.entry(judgement.grade).or_default() += 1;
                assert_eq!(judgement.grade == Grade::Same, at == other, "{} for {}", candidate.name, original.name);
                if matches!(judgement.grade, Grade::AsIs | Grade::AsIsDifferent) {
                    assert_eq!(original.base, candidate.base, "{} for {}", candidate.name, original.name);
                    assert!(
                        original.pins.is_some() && candidate.pins.is_some(),
                        "{} for {}",
                        candidate.name,
                        original.name
                    );
                }
            }
        }
        let known = counts.get(&Grade::AsIs).copied().unwrap_or(0);
        assert!(known > 50, "{supply:?}: {counts:?}");
        // Shown with `cargo test -- --nocapture`.
        #[allow(clippy::print_stdout)]
        {
            println!("{supply:?}: {counts:?}");
        }
    }
}

/// How many facts of a tube there are to take away: five of the bulb that are no figures, the cut-off, and every figure.
const FACTS: usize = 6 + BulbFigures::COLUMNS.len() + UnitFigures::COLUMNS.len();
const CUT_OFF: usize = 0;
const WARM_UP: usize = 1;

/// The same law on every pair that plugs in or goes in after changes, and every fact of both: what random pairs seldom meet.
#[test]
fn missing_data_never_raises_the_grade_of_what_fits() {
    let book = Book::shipped();
    let mut raised = Vec::new();
    for supply in supplies() {
        let socket = Socket::fed_by(supply);
        for original in book.tubes() {
            for candidate in book.tubes() {
                let before = judge(original, candidate, &socket, false).grade;
                if rank(before) == 0 || original.name == candidate.name {
                    continue;
                }
                for (fact, own, last) in (0..FACTS).flat_map(|fact| {
                    [(fact, true, true), (fact, true, false), (fact, false, true), (fact, false, false)]
                }) {
                    if silence_speaks(original, own, fact) {
                        continue;
                    }
                    let Some(poorer) = without(if own { original } else { candidate }, fact, last) else { continue };
                    let (o, c) = if own { (&poorer, candidate) } else { (original, &poorer) };
                    let after = judge(o, c, &socket, false).grade;
                    if rank(after) > rank(before) {
                        raised.push(format!(
                            "{} for {}, fact {fact} of own {own}: {before:?} became {after:?}",
                            candidate.name, original.name
                        ));
                    }
                }
            }
        }
    }
    assert!(
        raised.is_empty(),
        "{} raised:\n{}",
        raised.len(),
        raised.iter().take(40).cloned().collect::<Vec<_>>().join("\n")
    );
}

/// A function that no check of ratings or of the point covers would let a candidate pass of which next to nothing is known.
#[test]
fn a_candidate_without_ratings_or_without_a_point_never_goes_in() {
    let book = Book::shipped();
    let stripped = |tube: &Tube, typical: bool| {
        let mut tube = tube.clone();
        for unit in &mut tube.units {
            for (column, slot) in UnitFigures::COLUMNS.iter().zip(unit.figures.slots()) {
                let point = column.0.starts_with("typ_") || matches!(column.0, "gm_ms" | "mu");
                if (column.0.contains("_max_") && !typical) || (point && typical) {
                    *slot = None;
                }
            }
        }
        tube
    };
    let mut passed = Vec::new();
    for typical in [false, true] {
        let bare: Vec<Tube> = book.tubes().iter().map(|tube| stripped(tube, typical)).collect();
        for original in book.tubes() {
            let guarded = original.units.iter().any(|unit| match unit.function {
                Function::Triode
                | Function::PowerTriode
                | Function::Tetrode
                | Function::Pentode
                | Function::PowerPentode
                | Function::GatedDetector
                | Function::Regulator => true,
                // A converter's current hangs on its oscillator; the others have no grid that sets it.
                Function::Heptode | Function::TuningIndicator | Function::Rectifier | Function::Damper => !typical,
                // A signal diode carries a fraction of a milliamp.
                Function::Diode => false,
            });
            for candidate in bare.iter().filter(|tube| guarded && tube.name != original.name) {
                for supply in supplies() {
                    let grade = judge(original, candidate, &Socket::fed_by(supply), false).grade;
                    if rank(grade) > 0 {
                        passed.push(format!("{} for {}, {supply:?}: {grade:?}", candidate.name, original.name));
                    }
                }
            }
        }
    }
    assert!(passed.is_empty(), "{} passed:\n{}", passed.len(), passed[..passed.len().min(20)].join("\n"));
}

/// Two names of one type are the same tube whichever of them is asked for, and nothing else is.
#[test]
fn same_is_the_same_both_ways() {
    let book = Book::shipped();
    let grade = |original: &str, candidate: &str| {
        let question = format!(r#"{{"ask":"swap","original":"{original}","candidate":"{candidate}"}}"#);
        match answer(&book, &read(&question).unwrap()) {
            Answer::Swap(swap) => swap.grade,
            other => panic!("{other:?}"),
        }
    };
    for name in book.names() {
        assert_eq!(grade(&name.name, &name.of), Grade::Same, "{} for {}", name.of, name.name);
        assert_eq!(grade(&name.of, &name.name), Grade::Same, "{} for {}", name.name, name.of);
        assert_eq!(grade(&name.name, &name.name), Grade::Same, "{}", name.name);
    }
}

/// Takes one fact away from a tube, of its first or its last unit; `None` when it was not known before.
fn without(tube: &Tube, fact: usize, last: bool) -> Option<Tube> {
    let mut tube = tube.clone();
    let unit = if last { tube.units.last_mut()? } else { tube.units.first_mut()? };
    let had = match fact {
        CUT_OFF => unit.cut_off.take().is_some(),
        WARM_UP => tube.warm_up.take().is_some(),
        2 => tube.base.take().is_some(),
        3 => tube.pins.take().is_some(),
        4 => tube.heater_kind.take().is_some(),
        5 => tube.envelope.take().is_some(),
        _ => {
            let figures = tube.figures.slots().into_iter().chain(unit.figures.slots());
            figures.into_iter().nth(fact - 6)?.take().is_some()
        }
    };
    had.then_some(tube)
}

/// Facts whose absence says something itself, so that taking them away may raise a grade.
fn silence_speaks(original: &Tube, own: bool, fact: usize) -> bool {
    let column = fact.checked_sub(6 + BulbFigures::COLUMNS.len()).and_then(|at| UnitFigures::COLUMNS.get(at));
    match (fact, column) {
        // A type not published as controlled in its warm-up is one that no string was designed around.
        (WARM_UP, _) => own,
        // Nor is a triode made for control unless the book says so.
        (CUT_OFF, _) => original.units.iter().any(|unit| unit.function == Function::Triode),
        // Small tubes without published grid volts get their bias from a cathode resistor of their own and are compared each at its own.
        (_, Some(("typ_grid_v", ..))) => {
            !original.units.iter().any(|unit| matches!(unit.function, Function::PowerPentode | Function::PowerTriode))
        }
        _ => false,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, max_global_rejects: 200_000, ..ProptestConfig::default() })]

    #[test]
    fn missing_data_never_raises_a_grade(a in any::<prop::sample::Index>(), b in any::<prop::sample::Index>(), fact in 0..FACTS, (own, last) in any::<(bool, bool)>(), supply in 0usize..3) {
        let book = SHIPPED.get_or_init(Book::shipped);
        let original = a.get(book.tubes());
        // Pairs with one function are few; a candidate is sought among them.
        let alike: Vec<&Tube> = book.tubes().iter().filter(|tube| tube.units[0].function == original.units[0].function && tube.name != original.name).collect();
        prop_assume!(!alike.is_empty());
        let candidate = *b.get(&alike);
        let socket = Socket::fed_by(supplies()[supply]);
        prop_assume!(!silence_speaks(original, own, fact));
        let poorer = without(if own { original } else { candidate }, fact, last);
        prop_assume!(poorer.is_some());
        let poorer = poorer.unwrap();
        let (o, c) = if own { (&poorer, candidate) } else { (original, &poorer) };
        let (before, after) = (judge(original, candidate, &socket, false).grade, judge(o, c, &socket, false).grade);
        prop_assert!(rank(after) <= rank(before), "{} for {}, fact {fact} of {}: {before:?} became {after:?}", candidate.name, original.name, if own { "the original" } else { "the candidate" });
    }

    #[test]
    fn a_higher_rating_never_lowers_a_grade(a in any::<prop::sample::Index>(), b in any::<prop::sample::Index>(), which in 0usize..6, by in 1.0f64..3.0, supply in 0usize..3) {
        let book = SHIPPED.get_or_init(Book::shipped);
        let original = a.get(book.tubes());
        let alike: Vec<&Tube> = book.tubes().iter().filter(|tube| tube.units[0].function == original.units[0].function).collect();
        let candidate = *b.get(&alike);
        prop_assume!(candidate.name != original.name);
        let mut better = candidate.clone();
        {
            let figures = &mut better.units[0].figures;
            let slot = match which {
                0 => &mut figures.plate_max_v,
                1 => &mut figures.screen_max_v,
                2 => &mut figures.plate_max_w,
                3 => &mut figures.peak_inverse_max_v,
                4 => &mut figures.dc_out_max_ma,
                _ => &mut better.figures.heater_cathode_max_v,
            };
            prop_assume!(slot.is_some());
            *slot = slot.map(|value| value * by);
        }
        let socket = Socket::fed_by(supplies()[supply]);
        let before = judge(original, candidate, &socket, false).grade;
        let after = judge(original, &better, &socket, false).grade;
        prop_assert!(rank(after) >= rank(before), "{} for {}: {before:?} became {after:?}", candidate.name, original.name);
    }
}

static SHIPPED: std::sync::OnceLock<Book> = std::sync::OnceLock::new();
