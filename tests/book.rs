//! The parts book: reading, faults, names as typed, and the round trip out and back in.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stand_in::book::{Book, Function, Relation};

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
        (loaded.new.count, loaded.changed.first.as_slice()),
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

/// The user's rows are kept apart: they come out alone, and laid over the book that an update brings they say what they said.
#[test]
fn an_update_does_not_overwrite_the_users_row() {
    let mut book = Book::shipped();
    let header = book.export("own_tubes").unwrap();
    assert_eq!(header.lines().count(), 1, "nothing is the user's yet");
    book.load(
        "tubes",
        "type,unit,function,heater_a,shelf\n12SK7,1,pentode,0.16,B4\n12QQ7,1,triode,0.15,\n6SK7,1,pentode,0.3,\n",
    )
    .unwrap();
    book.load("names", "name,type\nQX1,12SK7\n").unwrap();
    let (own_tubes, own_names) = (book.export("own_tubes").unwrap(), book.export("own_names").unwrap());
    let own: Vec<&str> = own_tubes.lines().skip(1).map(|line| line.split(',').next().unwrap()).collect();
    assert_eq!(own, ["12SK7", "12QQ7"], "6SK7 says what is shipped");
    assert_eq!(own_names.lines().skip(1).collect::<Vec<_>>(), ["QX1,12SK7,,,"]);

    // An update is played by a book in which the shipped row of the 12SK7 is another one.
    let mut updated = Book::shipped();
    updated.load("tubes", "type,unit,plate_max_v\n12SK7,1,299\n").unwrap();
    updated.load("tubes", &own_tubes).unwrap();
    updated.load("names", &own_names).unwrap();
    for name in ["12SK7", "12QQ7", "6SK7"] {
        assert_eq!(updated.find(name).unwrap().tube, book.find(name).unwrap().tube);
    }
    assert_eq!(updated.find("QX1").unwrap().tube.name, "12SK7");
    let row = updated.rows("12SK7").next().unwrap();
    let at = updated.columns().iter().position(|column| column == "heater_a").unwrap();
    assert_eq!((row.own, row.now.text(at), row.shipped.unwrap().text(at)), (true, "0.16", "0.15"));

    // Laid over the shipped book again, everything is as it was.
    let mut again = Book::shipped();
    again.load("tubes", &own_tubes).unwrap();
    again.load("names", &own_names).unwrap();
    for table in ["tubes", "names", "own_tubes", "own_names"] {
        assert_eq!(again.export(table), book.export(table), "{table}");
    }
}

/// A file on its way in changes nothing until it is finished, however it is cut into steps, and another file laid over meanwhile is not lost.
#[test]
fn a_file_is_laid_over_in_steps() {
    let csv = Book::shipped().export("tubes").unwrap().replace(",memory", ",another source");
    let mut whole = Book::shipped();
    let at_once = whole.load("tubes", &csv).unwrap();
    assert_eq!(at_once.changed.count, whole.tubes().len());
    for rows in [1, 7, 1000, usize::MAX] {
        let mut book = Book::shipped();
        let mut loading = book.begin_load("tubes", csv.clone()).unwrap();
        let (mut done, mut steps) = (0.0, 0);
        while done < 1.0 {
            let now = loading.step(rows);
            assert!(now >= done && now <= 1.0, "{now} after {done}");
            (done, steps) = (now, steps + 1);
        }
        assert!(rows > 7 || steps > 200, "{steps} steps of {rows}");
        assert_eq!(book.export("tubes"), Book::shipped().export("tubes"));
        book.load("tubes", "type,unit,function\n12QQ7,1,triode\n").unwrap();
        assert_eq!(book.finish_load(loading).changed.count, at_once.changed.count);
        assert!(book.find("12QQ7").is_ok(), "the file laid over meanwhile is lost");
        assert_eq!(book.find("12SK7").unwrap().tube.source, "another source");
    }
}

/// Nothing that could be read before is lost by a row that cannot be read.
#[test]
fn a_broken_row_leaves_the_tube_as_it_was() {
    let before = Book::shipped().find("6SN7GT").unwrap().tube.clone();
    for row in ["6SN7GT,1,trioda", "6SN7GT,1,", "6SN7GT,1-2,trioda", "6SN7GT,4,triode", "6SN7GT,x,triode"] {
        let (book, said) = faults("tubes", &format!("type,unit,function\n{row}\n"));
        assert_eq!(book.find("6SN7GT").unwrap().tube.units, before.units, "{row}");
        assert!(!said.is_empty(), "{row}");
    }
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

    /// Whatever the user lays over the book comes out as his rows, and these laid over the shipped book give the same book.
    #[test]
    fn what_is_laid_over_is_kept(cells in proptest::collection::vec("(12SK7|6SN7GT|QQ1|[-=@+'0-9a-zE., \"\n\t]{0,8})", 0..60), few: bool) {
        let header = if few { "type,unit,typ_grid_v" } else { "type,unit,function,typ_grid_v,note,my own" };
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(header.split(',')).unwrap();
        let width = header.split(',').count();
        for row in cells.chunks_exact(width) {
            writer.write_record(row).unwrap();
        }
        let csv = String::from_utf8(writer.into_inner().unwrap()).unwrap();
        let mut book = Book::shipped();
        book.load("tubes", &csv).unwrap();
        let mut again = Book::shipped();
        again.load("tubes", &book.export("own_tubes").unwrap()).unwrap();
        for table in ["tubes", "own_tubes"] {
            prop_assert_eq!(again.export(table), book.export(table));
        }
        let mut anew = Book::default();
        anew.load("tubes", &book.export("tubes").unwrap()).unwrap();
        prop_assert_eq!(anew.export("tubes"), book.export("tubes"));
    }

    /// Whatever stands in any column comes out again, to the letter, however it is guarded against spreadsheets on its way.
    #[test]
    fn cells_come_out_as_they_went_in(notes in proptest::collection::vec("'{0,2}[-=+@0-9.]{0,3}[^\u{0}\r\u{fffd}]{0,20}", 1..12)) {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(["type", "unit", "function", "my notes"]).unwrap();
        for (at, note) in notes.iter().enumerate() {
            writer.write_record([format!("Q{at}").as_str(), "1", "triode", note]).unwrap();
        }
        let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
        let mut book = Book::default();
        book.load("tubes", &text).unwrap();
        // What a guard was taken off on the way in is a cell that gets it back on the way out.
        let out = book.export("tubes").unwrap();
        let mut reader = csv::Reader::from_reader(out.trim_start_matches('\u{feff}').as_bytes());
        for (row, note) in reader.records().zip(&notes) {
            let cell = row.unwrap()[3].to_owned();
            prop_assert!(cell == *note || cell == format!("'{note}"), "{note:?} came out as {cell:?}");
        }
        let mut again = Book::default();
        again.load("tubes", &out).unwrap();
        prop_assert_eq!(again.export("tubes").unwrap(), out);
    }
}

/// What the user takes back is as it was shipped, or gone; nothing else moves.
#[test]
fn what_is_taken_back_is_as_it_was() {
    let mut book = Book::shipped();
    let shipped = book.export("tubes").unwrap();
    let count = book.tubes().len();
    book.load("tubes", "type,unit,function,heater_a\nMY1,1,triode,\n12SK7,1,,0.2\nMY2,1,triode,0.3\nMY2,2,diode,\n")
        .unwrap();
    book.load("names", "name,type\nMY NAME,12SK7\nVT-131,12SQ7\n").unwrap();
    assert_eq!(book.own("tubes"), [("12SK7", "1".to_owned()), ("MY1", "1".to_owned()), ("MY2", "1, 2".to_owned())]);
    assert_eq!(book.own("names").len(), 2);

    assert_eq!(book.forget("tubes", "my-1"), Some(()));
    assert!(book.find("MY1").is_err());
    assert_eq!(book.find("my2").unwrap().tube.units.len(), 2);
    assert_eq!(book.tubes().len(), count + 1);
    assert_eq!(book.forget("tubes", "12SK7"), Some(()));
    assert_eq!(book.find("12SK7").unwrap().tube.figures.heater_a, Some(0.15));
    assert_eq!(book.forget("tubes", "12SK7"), None, "nothing of the user's is left there");
    assert_eq!(book.forget("tubes", "80"), None, "what is shipped cannot be taken out");
    assert_eq!(book.forget("names", "MY NAME"), Some(()));
    assert!(book.find("MYNAME").is_err());
    // A name that was turned to another type points where it did.
    assert_eq!(book.find("VT-131").unwrap().tube.name, "12SQ7");
    assert_eq!(book.forget("names", "VT131"), Some(()));
    assert_eq!(book.find("VT-131").unwrap().tube.name, "12SK7");
    assert_eq!(book.forget("tubes", "MY2"), Some(()));
    assert_eq!(book.export("tubes").unwrap(), shipped);

    // Put in again it is new again.
    let again = book.load("tubes", "type,unit,function\nMY1,1,pentode\n").unwrap();
    assert_eq!((again.new.count, again.changed.count), (1, 0));
}

/// A file without a table's name goes where its columns say.
#[test]
fn the_columns_tell_which_table_a_file_is_for() {
    let mut book = Book::shipped();
    assert_eq!(book.load("", "\u{feff}\n\"name\";type\nMY NAME;12SK7\n").unwrap().new.count, 1);
    assert_eq!(book.find("my name").unwrap().tube.name, "12SK7");
    assert_eq!(book.load("", "\u{feff}name,type\r\nMINE,12SK7\r\n").unwrap().new.count, 1);
    assert_eq!(book.load("", "type,unit,function,note\nMY1,1,triode,name\n").unwrap().new.count, 1);
    assert!(book.load("shelf", "type\n80\n").is_none());
}
