//! The book held against itself: every disagreement of the shipped book stands on a short list with its reason, and every check finds what
//! it is there to find.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeSet;

use stand_in::book::Book;

/// Type, column, reason of each exception.
fn exceptions() -> Vec<[String; 3]> {
    let mut reader = csv::Reader::from_reader(include_str!("tables/book_exceptions.csv").as_bytes());
    reader.records().map(|row| row.unwrap()).map(|row| [0, 1, 2].map(|at| row[at].to_owned())).collect()
}

#[test]
fn what_does_not_agree_in_the_shipped_book_has_a_reason() {
    let listed = exceptions();
    assert!(listed.iter().all(|row| row[2].len() > 20), "every exception needs its reason");
    let listed: BTreeSet<(String, String)> = listed.into_iter().map(|[tube, column, _]| (tube, column)).collect();
    let advice = Book::shipped().consistency();
    let found: BTreeSet<(String, String)> =
        advice.iter().map(|advice| (advice.tube.clone(), advice.column.to_owned())).collect();
    let said: Vec<String> = advice
        .iter()
        .filter(|advice| !listed.contains(&(advice.tube.clone(), advice.column.to_owned())))
        .map(ToString::to_string)
        .collect();
    assert!(said.is_empty(), "not on tests/tables/book_exceptions.csv:\n{}", said.join("\n"));
    let idle: Vec<_> = listed.difference(&found).collect();
    assert!(idle.is_empty(), "on tests/tables/book_exceptions.csv, yet nothing disagrees: {idle:?}");
}

/// Each check, bitten once and passed once: rows laid over the shipped book, and the advice they bring.
#[test]
fn every_check_finds_its_fault() {
    let head = "type,unit,function,base,basing,pins,heater_kind,heater_v,heater_a,heater_parallel_v,plate_max_v,screen_max_v,plate_max_w,screen_max_w,cathode_max_ma,typ_plate_v,typ_screen_v,typ_plate_ma,typ_screen_ma,gm_ms,mu,rp_kohm";
    let told: Vec<String> = [
        // Designations.
        "12QQ7,1,triode,,,,,6.3",
        "12QR7,1,triode,,,,,12.6,0.15",
        "12QS7,1,triode,,,,,25.2,0.15,12.6",
        "7QQ7,1,triode,,,,,6.3",
        "UQ99,1,triode,,,,,19,0.15",
        "UCC99,1,triode,miniature-7,,,,19,0.15",
        "0Q2,1,regulator,,,,heater",
        "6QQ6GT,1,triode,miniature-7",
        "ECC99,1,triode,miniature-9,,,,6.3,0.3",
        // Pins: units the other way round, a shell for a free pin, beam plates for a suppressor, and then a true difference.
        "Q1,1-2,triode,octal,8BD,1=g@1 2=p@1 3=k@1 4=g@2 5=p@2 6=k@2 7=h 8=h",
        "Q2,1-2,triode,octal,8BD,1=g@2 2=p@2 3=k@2 4=p@1 5=g@1 6=k@1 7=h 8=h",
        "Q3,1,power_pentode,octal,7S,1=ic 2=h 3=p 4=g2 5=g1 6=- 7=h 8=k+bp",
        "Q4,1,power_pentode,octal,7S,1=shell 2=h 3=p 4=g1 5=g2 6=- 7=h 8=k+g3",
        "Q5,1,triode,4-pin,4D,1=f 2=p 3=g 4=f",
        "Q6,1,triode,4-pin,4D,1=f- 2=p 3=g 4=f+",
        // Figures.
        "Q7,1,triode,,,,,,,,,,,,,,,,,2.0,20,10",
        "Q8,1,triode,,,,,,,,,,,,,,,,,2.0,20,12.5",
        "Q9,1,heptode,,,,,,,,,,,,,,,,,0.5,20,12.5",
        "Q10,1,pentode,,,,,,,,250,100,,,,255,102",
        "Q11,1,pentode,,,,,,,,250,100,,,,256,103",
        "Q12,1,pentode,,,,,,,,,,1.0,0.2,10,100,100,10.2,2.05",
    ]
    .iter()
    .map(|row| {
        let mut book = Book::shipped();
        let loaded = book.load("tubes", &format!("{head}\n{row}\n")).unwrap();
        assert!(loaded.faults.is_empty(), "{row}: {:?}", loaded.faults.kept);
        let said: Vec<String> = loaded.advice.first.iter().map(|advice| format!("  {advice}\n")).collect();
        format!("{}\n{}", row.split(',').next().unwrap(), said.concat())
    })
    .collect();
    insta::assert_snapshot!(told.concat(), @r"
    12QQ7
      12QQ7, column heater_v: 6.3 V; would agree: 11.1 to 13.2 V, as the designation says
    12QR7
    12QS7
    7QQ7
    UQ99
      UQ99, column heater_a: 0.15 A; would agree: 0.1 A, as the designation says
    UCC99
      UCC99, column heater_a: 0.15 A; would agree: 0.1 A, as the designation says
    0Q2
      0Q2, column heater_kind: heater; would agree: a cold cathode, as the designation says
    6QQ6GT
      6QQ6GT, column base: 7-pin miniature; would agree: octal, as the designation says
    ECC99
      ECC99, column base: 9-pin miniature (noval); would agree: 7-pin miniature, as the designation says
    Q1
    Q2
      Q2, column pins: pin 4 p (1); would agree: pin 4 g (1), as on 6SN7GT of the same base designation 8BD
    Q3
    Q4
      Q4, column pins: pin 4 g1; would agree: pin 4 g2, as on 6F6 of the same base designation 7S
    Q5
    Q6
      Q6, column pins: pin 1 f-; would agree: pin 1 f+, as on 01A of the same base designation 4D
    Q7
    Q8
      Q8, column mu: 20; would agree: about 25: 2 mS times 12.5 kohm
    Q9
    Q10
    Q11
      Q11, column plate_max_v: 250 V; would agree: at least 256 V of the typical point
      Q11, column screen_max_v: 100 V; would agree: at least 103 V of the typical point
    Q12
      Q12, column screen_max_w: 0.2 W; would agree: at least 0.205 W of the typical point
      Q12, column cathode_max_ma: 10 mA; would agree: at least 12.25 mA of the typical point
    ");
}

/// Where facts are missing nothing is said.
#[test]
fn what_is_not_known_is_not_advised_on() {
    let mut book = Book::shipped();
    for tube in Book::shipped().tubes() {
        let csv = format!("type,unit,function\n{} new,1,{}\n", tube.name, tube.units[0].function.text());
        assert_eq!(book.load("tubes", &csv).unwrap().advice.first, [], "{}", tube.name);
    }
}
