//! Pin maps against what other people wrote down: Debian's library of schematic symbols, another open symbol library, base drawings.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, clippy::disallowed_methods)]

use std::collections::BTreeMap;

use stand_in::book::pins::{Electrodes, MOST_UNITS, Part, PinMap, Shared};
use stand_in::book::{Book, Tube};

const LIBRARY: &str = "/usr/share/kicad/symbols/Valve.kicad_sym";

/// Symbols of the library that need not be in the book: hearing-aid tubes, a nameless regulator, and the EF83.
const STRANGERS: [&str; 6] = ["CK6418", "CK548DX", "JAN6418", "NOS-6418", "STABI", "EF83"];

/// Where the library is known to be wrong or to leave something out: symbol, pin, what it says, what the pin is, why.
const QUIRKS: [(&str, usize, &str, &str, &str); 5] = [
    ("EF80", 3, "F1", "k", "the pin is drawn at the cathode and named as a heater"),
    ("EF85", 3, "F1", "k", "an alias of EF80"),
    ("EF80", 1, "", "k", "the cathode's second pin is not drawn"),
    ("EF85", 1, "", "k", "an alias of EF80"),
    ("EL34", 8, "F1", "k", "the pin is drawn at the cathode and named as a heater"),
];

/// Electrodes without regard to units: heater ends and taps together, a bit for each part of a unit.
fn parts(on: Electrodes) -> u32 {
    let mut bits =
        u32::from(on.meets(Electrodes::HEATER)) | u32::from(on.meets(Electrodes::shared(Shared::Shield))) << 1;
    for part in PARTS {
        if (0..MOST_UNITS).any(|unit| on.meets(Electrodes::part(unit, part))) {
            bits |= 4 << part as u32;
        }
    }
    bits
}

const PARTS: [Part; 12] = [
    Part::Cathode,
    Part::Grid1,
    Part::Grid2,
    Part::Grid3,
    Part::Grid4,
    Part::Grid5,
    Part::Grid6,
    Part::Grid7,
    Part::Plate,
    Part::Beam,
    Part::Target,
    Part::RayControl,
];

/// What may be joined to another electrode inside and is left out of drawings: suppressors, beam plates, shields.
fn joined_inside() -> u32 {
    2 | 4 << Part::Grid3 as u32 | 4 << Part::Grid5 as u32 | 4 << Part::Beam as u32
}

/// Electrodes written one or several to a pin: `k`, `K_G3`, `g2+g4`, `F1`, `hm`; shells are passed over.
fn written(text: &str) -> u32 {
    text.split(['+', '_'])
        .map(|word| match word.to_ascii_lowercase().as_str() {
            "f" | "f1" | "f2" | "h" | "hm" | "hl" => 1,
            "s" => 2,
            "k" => 4 << Part::Cathode as u32,
            "g" | "g1" => 4 << Part::Grid1 as u32,
            "g2" => 4 << Part::Grid2 as u32,
            "g3" => 4 << Part::Grid3 as u32,
            "g4" => 4 << Part::Grid4 as u32,
            "g5" => 4 << Part::Grid5 as u32,
            "p" | "d" | "a" | "a1" | "a2" | "a3" => 4 << Part::Plate as u32,
            "l" => 4 << Part::Target as u32,
            "st" => 4 << Part::RayControl as u32,
            other => panic!("no electrode: {other:?} in {text:?}"),
        })
        .fold(0, |all, bit| all | bit)
}

/// Whether a pin of the book is what was written down: all of it, and beyond it only what is joined inside.
fn agrees(pins: &PinMap, pin: usize, wanted: u32) -> bool {
    let has = parts(pins.pins[pin]);
    has & wanted == wanted && has & !wanted & !joined_inside() == 0
}

/// A symbol: its pins by number, each with name and the unit it is drawn in.
type Symbol = BTreeMap<usize, (String, usize)>;

/// Symbols of a library file by name, aliases included.
fn symbols(text: &str) -> BTreeMap<String, Symbol> {
    let mut all: BTreeMap<String, Symbol> = BTreeMap::new();
    let quoted = |text: &str| text.split('"').next().unwrap().to_owned();
    for block in text.split("\n  (symbol \"").skip(1) {
        let name = quoted(block);
        let mut symbol = Symbol::new();
        if let Some((_, parent)) = block.split_once("(extends \"") {
            symbol = all[&quoted(parent)].clone();
        }
        for unit in block.split("\n    (symbol \"").skip(1) {
            let number: usize = quoted(unit).rsplit('_').nth(1).unwrap().parse().unwrap();
            for pin in unit.split("(pin ").skip(1) {
                let after = |word: &str| quoted(pin.split_once(word).expect(word).1);
                // `~` is a pin without a number: drawn once more for another unit.
                if let Ok(at) = after("(number \"").parse() {
                    symbol.insert(at, (after("(name \""), number));
                }
            }
        }
        all.insert(name, symbol);
    }
    all
}

/// Every tube of the symbol library that the book knows has the library's pins, and its units own the electrodes that the library draws together.
#[test]
fn pins_are_those_of_the_symbol_library() {
    let text = std::fs::read_to_string(LIBRARY).unwrap_or_else(|error| {
        panic!("{LIBRARY}: {error}; install Debian's package kicad-symbols (scripts/test does)")
    });
    let book = Book::shipped();
    let (mut strangers, mut compared, mut quirks) = (Vec::new(), 0, 0);
    for (name, symbol) in symbols(&text) {
        let Ok(found) = book.find(&name) else {
            strangers.push(name);
            continue;
        };
        let tube = found.tube;
        let pins = tube.pins.unwrap_or_else(|| panic!("{name} is {} without pins", tube.name));
        let quirk = |pin: usize, said: &str| {
            QUIRKS.iter().find(|row| (row.0, row.1, row.2) == (name.as_str(), pin, said)).map(|row| written(row.3))
        };
        for pin in 1..=usize::from(pins.count) {
            let said = symbol.get(&pin).map_or("", |row| row.0.as_str());
            let wanted = quirk(pin, said)
                .inspect(|_| quirks += 1)
                .unwrap_or_else(|| if said.is_empty() { 0 } else { written(said) });
            assert!(
                agrees(&pins, pin, wanted),
                "{name}: pin {pin} is {said} in the library, {} in the book",
                pins.pins[pin].label(&tube.functions())
            );
            compared += 1;
        }
        units_are_drawn_together(&name, tube, &pins, &symbol);
    }
    strangers.retain(|name| !STRANGERS.contains(&name.as_str()));
    assert!(strangers.is_empty(), "tubes of the library that the book does not know: {strangers:?}");
    assert_eq!(quirks, QUIRKS.len(), "a quirk of the library is gone");
    assert!(compared > 150, "only {compared} pins compared");
}

fn units_are_drawn_together(name: &str, tube: &Tube, pins: &PinMap, symbol: &Symbol) {
    let drawn: std::collections::BTreeSet<usize> = symbol.values().map(|row| row.1).collect();
    for unit in drawn {
        let together: Vec<Electrodes> = symbol
            .iter()
            .filter(|(_, (said, in_unit))| *in_unit == unit && !said.starts_with('F') && said != "S")
            .map(|(&pin, _)| pins.pins[pin])
            .collect();
        // The double diode of the EABC80 is drawn as one unit.
        let diodes = together.iter().all(|on| parts(*on) & !(4 << Part::Cathode as u32 | 4 << Part::Plate as u32) == 0);
        let owned = (0..MOST_UNITS).any(|unit| together.iter().all(|on| on.meets(Electrodes::unit(unit))));
        assert!(owned || diodes, "{name} ({}): what is drawn as unit {unit} is not one unit of the book", tube.name);
    }
}

/// Pins of types and of base designations, from other symbol libraries and base drawings; pins not named there are not looked at.
#[test]
fn pins_are_those_written_down_elsewhere() {
    let book = Book::shipped();
    let mut reader = csv::Reader::from_reader(include_str!("tables/pin_maps.csv").as_bytes());
    let mut compared = 0;
    for row in reader.records() {
        let row = row.unwrap();
        let (basing, types, pins) = (&row[0], &row[1], &row[2]);
        let mut tubes: Vec<&Tube> = Vec::new();
        for name in types.split(' ') {
            let tube = book.find(name).unwrap_or_else(|_| panic!("{name} is not in the book")).tube;
            assert!(
                basing.is_empty() || tube.basing.as_deref() == Some(basing),
                "{name}: {:?}, not {basing}",
                tube.basing
            );
            tubes.push(tube);
        }
        if !basing.is_empty() {
            tubes.extend(book.tubes().iter().filter(|tube| tube.basing.as_deref() == Some(basing)));
        }
        for tube in tubes {
            let Some(map) = tube.pins else { continue };
            for pin in pins.split(' ') {
                let (number, text) = pin.split_once('=').unwrap();
                let at = if number == "cap" { 0 } else { number.parse().unwrap() };
                assert!(
                    agrees(&map, at, written(text)),
                    "{} ({basing}): pin {number} is {text} by {}, {} in the book",
                    tube.name,
                    &row[3],
                    map.pins[at].label(&tube.functions())
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 1000, "only {compared} pins compared");
}
