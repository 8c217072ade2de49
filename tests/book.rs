//! The parts book: reading, faults, names as typed, and the round trip out and back in.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stand_in::book::designation::{self, Heater};
use stand_in::book::{Book, Function, HeaterKind, Relation};

fn faults(table: &str, csv: &str) -> (Book, Vec<String>) {
    let mut book = Book::shipped();
    let loaded = book.load(table, csv).expect("a table of the book");
    (book, loaded.faults.kept.iter().map(ToString::to_string).collect())
}

#[test]
fn the_shipped_book_has_no_faults() {
    let mut book = Book::default();
    for (table, csv) in [("tubes", include_str!("../data/tubes.csv")), ("names", include_str!("../data/names.csv"))] {
        let loaded = book.load(table, csv).expect("a table");
        let said: Vec<String> = loaded.faults.kept.iter().map(ToString::to_string).collect();
        assert!(said.is_empty(), "{}", said.join("\n"));
    }
    assert!(book.tubes().len() >= 150, "{} types", book.tubes().len());
    for tube in book.tubes() {
        assert!(tube.source != "not said", "{} has no source", tube.name);
    }
    for name in book.names() {
        let found =
            book.find(&name.of).unwrap_or_else(|_| panic!("{} points at {}, which is not there", name.name, name.of));
        assert!(found.name.is_none(), "{} points at {}, itself a name", name.name, name.of);
    }
}

/// What a designation says of heater and base against what the book says.
#[test]
fn the_book_agrees_with_the_designations() {
    let book = Book::shipped();
    let (mut heaters, mut bases) = (0, 0);
    for tube in book.tubes() {
        let designation = designation::read(&tube.name);
        let figures = &tube.figures;
        let any = |pair: [Option<f64>; 2], test: &dyn Fn(f64) -> bool| pair.into_iter().flatten().any(test);
        let volts = [figures.heater_v, figures.heater_parallel_v];
        let amps = [figures.heater_a, figures.heater_parallel_a];
        match designation.heater {
            Heater::Volts(least, most) if figures.heater_v.is_some() => {
                assert!(any(volts, &|volts| volts >= least && volts <= most), "{}: heater {volts:?} V", tube.name);
                heaters += 1;
            }
            Heater::Amps(wanted) if figures.heater_a.is_some() => {
                assert!(any(amps, &|amps| (amps / wanted - 1.0).abs() < 0.05), "{}: heater {amps:?} A", tube.name);
                heaters += 1;
            }
            Heater::Cold => assert_eq!(tube.heater_kind, Some(HeaterKind::Cold), "{}", tube.name),
            _ => {}
        }
        if let Some(base) = tube.base
            && !designation.bases.is_empty()
        {
            assert!(designation.bases.contains(&base), "{}: {base:?}, designation {:?}", tube.name, designation.bases);
            bases += 1;
        }
    }
    assert!(heaters > 400 && bases > 150, "only {heaters} heaters and {bases} bases could be looked at");
}

#[test]
fn sloppy_typing_finds_the_type() {
    let book = Book::shipped();
    for (typed, found) in [
        ("12sk7 gt/g", "12SK7GT"),
        (" 12 SK7-gt ", "12SK7GT"),
        ("ecc 83", "12AX7"),
        ("hbc91", "12AV6"),
        ("oz4", "0Z4"),
        ("O1A", "01A"),
        ("6g5/6u5", "6G5"),
        ("cv491", "12AU7"),
        ("39/44", "39/44"),
        ("44", "39/44"),
        ("5654", "6AK5"),
    ] {
        let tube = book.find(typed).unwrap_or_else(|near| panic!("{typed} not found, near: {near:?}")).tube;
        assert_eq!(tube.name, found, "typed {typed}");
    }
    assert_eq!(book.find("5749").unwrap().name.unwrap().relation, Relation::Selection);
}

#[test]
fn what_is_not_found_is_never_guessed() {
    let book = Book::shipped();
    for typed in ["12SK8", "6V6GTX", "", "   ", "💥", "6V", "12", "/", "//", "/G"] {
        assert!(book.find(typed).is_err(), "{typed:?} was taken for a type");
    }
    let near = book.find("12SK8").unwrap_err();
    assert!(near.contains(&"12SK7".to_owned()), "{near:?}");
    assert!(near.len() <= 3);
}

#[test]
fn faults_are_told_and_good_rows_stay() {
    let mut told = Vec::new();
    let cases = [
        ("an empty file", ""),
        ("a binary file", "\u{0}\u{1}\u{2}PNG"),
        ("a missing column", "name,heater\n12SK7,12.6\n"),
        ("a bad number", "type,unit,function,heater_v,heater_a\nQQ1,1,triode,six,0.3\nQQ2,1,triode,6.3,0.3\n"),
        ("a bad word", "type,unit,function,base\nQQ1,1,trioda,octal\nQQ2,1,triode,octal\n"),
        ("a duplicate type", "type,unit,function\nQQ2,1,triode\nQQ2,1,pentode\n"),
        (
            "a pin beyond the base",
            "type,unit,function,base,pins\nQQ2,1,triode,octal,1=- 2=h 3=p 4=- 5=g1 6=- 7=h 8=- 9=k\n",
        ),
        ("a pin left out", "type,unit,function,base,pins\nQQ2,1,triode,octal,1=- 2=h 3=p 5=g1 6=- 7=h 8=k\n"),
        (
            "an electrode nobody has",
            "type,unit,function,base,pins\nQQ2,1,triode,octal,1=- 2=h 3=p 4=g2 5=g1 6=- 7=h 8=k\n",
        ),
        ("too many cells", "type,unit,function\nQQ2,1,triode,and,more\n"),
        ("no type", "type,unit,function\n,1,triode\nQQ2,1,triode\n"),
    ];
    for (what, csv) in cases {
        let (book, said) = faults("tubes", csv);
        assert!(!said.is_empty(), "{what}: no fault told");
        told.push(format!("{what}\n  {}", said.join("\n  ")));
        if csv.contains("QQ2") {
            let tube = book.find("QQ2").unwrap_or_else(|_| panic!("{what}: the good row was lost")).tube;
            assert_eq!(tube.units[0].function, Function::Triode, "{what}");
        }
        assert!(book.find("12SK7").is_ok(), "{what}: the shipped book was lost");
    }
    insta::assert_snapshot!(told.join("\n"), @r#"
    an empty file
      tubes.csv: found "an empty file", accepted: a CSV file whose first line names its columns
    a binary file
      tubes.csv: found "a binary file", accepted: a CSV file: plain text in UTF-8
    a missing column
      tubes.csv line 1, column type: found "name,heater", accepted: a column named `type`
    a bad number
      tubes.csv line 2, column heater_v: found "six", accepted: a number of V from 0.1 to 150, or nothing when not known
    a bad word
      tubes.csv line 2, column function: found "trioda", accepted: triode | power_triode | tetrode | pentode | power_pentode | gated_detector | heptode | diode | rectifier | damper | tuning_indicator | regulator
    a duplicate type
      tubes.csv line 3, column type: found "QQ2, 1", accepted: each only once; the first row stands
    a pin beyond the base
      tubes.csv line 2, column pins: found "1=- 2=h 3=p 4=- 5=g1 6=- 7=h 8=- 9=k", accepted: pins 1 to 8 of this base, found pin 9
    a pin left out
      tubes.csv line 2, column pins: found "1=- 2=h 3=p 5=g1 6=- 7=h 8=k", accepted: all 8 pins of this base, pin 4 is missing (`4=-` if it is not there)
    an electrode nobody has
      tubes.csv line 2, column pins: found "1=- 2=h 3=p 4=g2 5=g1 6=- 7=h 8=k", accepted: an electrode that one of the units has, found `g2`
    too many cells
      tubes.csv line 2: found "5 cells", accepted: 3 cells, as the header has
    no type
      tubes.csv line 2, column type: found "", accepted: a tube designation, such as 12SK7
    "#);
}

#[test]
fn a_file_with_few_columns_changes_only_those() {
    let mut book = Book::shipped();
    let before = book.find("12SK7").unwrap().tube.clone();
    let loaded = book.load("tubes", "type,unit,heater_a,shelf\n12sk7,1,0.16,B4\n").unwrap();
    assert_eq!(
        (loaded.new.len(), loaded.changed.as_slice()),
        (0, &["12SK7".to_owned()][..]),
        "{:?}",
        loaded.faults.kept
    );
    let after = book.find("12SK7").unwrap().tube;
    assert_eq!(after.figures.heater_a, Some(0.16));
    assert_eq!((after.pins, &after.units), (before.pins, &before.units));
    // The unknown column survives.
    assert!(book.export("tubes").unwrap().contains(",B4\n"));
}

#[test]
fn export_and_load_lose_nothing() {
    let book = Book::shipped();
    for table in ["tubes", "names"] {
        let csv = book.export(table).unwrap();
        let mut again = Book::default();
        again.load("tubes", &book.export("tubes").unwrap()).unwrap();
        again.load(table, &csv).unwrap();
        assert_eq!(again.export(table).unwrap(), csv, "{table}");
    }
    assert_eq!(book.export("weather"), None);
}

proptest! {
    #[test]
    fn any_text_is_read_without_panic(text in "\\PC{0,400}") {
        let mut book = Book::default();
        let _ = book.load("tubes", &text);
        let _ = book.load("names", &text);
        let _ = book.find(&text);
    }

    #[test]
    fn any_cells_under_a_good_header_are_read_without_panic(cells in proptest::collection::vec("[-0-9a-zA-Z=+@., \"]{0,12}", 0..40)) {
        let mut csv = String::from("type,unit,function,base,pins,heater_v\n");
        for row in cells.chunks(6) {
            csv.push_str(&row.join(","));
            csv.push('\n');
        }
        let mut book = Book::default();
        let _ = book.load("tubes", &csv);
    }

    /// Whatever stands in unknown columns comes out again, to the letter.
    #[test]
    fn cells_come_out_as_they_went_in(notes in proptest::collection::vec("[^\u{0}\r\u{fffd}]{0,30}", 1..12)) {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(["type", "unit", "function", "my notes"]).unwrap();
        for (at, note) in notes.iter().enumerate() {
            writer.write_record([format!("Q{at}").as_str(), "1", "triode", note]).unwrap();
        }
        let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
        let mut book = Book::default();
        book.load("tubes", &text).unwrap();
        let out = book.export("tubes").unwrap();
        let mut reader = csv::Reader::from_reader(out.as_bytes());
        let back: Vec<String> = reader.records().map(|row| row.unwrap()[3].to_owned()).collect();
        prop_assert_eq!(back, notes);
    }
}
