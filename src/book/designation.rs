//! What a designation itself says: the heater in its first figure or letter, the base in its last digits, the make in its suffix.
//!
//! Two systems speak: the American one of 1933 (RMA, RETMA, EIA: figure, letters, figure, suffix) and the European one of 1934
//! (Mullard-Philips: letters, digits). Plain numbers (27, 80, 5654) say nothing, and neither do the numbers of the services (CV, VT) and of
//! the JAN system (2C51). Sources: Radiotron Designer's Handbook, fourth edition, on numbering; Mullard's own account of its type
//! nomenclature; both as excerpts.

use super::tube::Base;

/// What a designation says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Designation {
    /// The system it belongs to.
    pub system: System,
    /// What it says of the heater.
    pub heater: Heater,
    /// Bases it may have; empty when it does not say.
    pub bases: &'static [Base],
    /// What it says, piece by piece, in words.
    pub says: Vec<String>,
}

/// A numbering system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// RMA 1933, later RETMA and EIA.
    American,
    /// Mullard-Philips.
    European,
    /// A number that says nothing.
    Number,
}

/// What a designation says of the heater.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Heater {
    /// Nothing.
    Silent,
    /// Volts between two figures, of the whole heater or of its halves in parallel.
    Volts(f64, f64),
    /// Amperes.
    Amps(f64),
    /// No heater at all.
    Cold,
}

/// European first letters: heater.
const EUROPEAN_HEATERS: [(char, Heater, &str); 12] = [
    ('A', Heater::Volts(3.9, 4.1), "4 V"),
    ('C', Heater::Amps(0.2), "200 mA"),
    ('D', Heater::Volts(0.5, 1.5), "battery, up to 1.5 V"),
    ('E', Heater::Volts(6.0, 6.6), "6.3 V"),
    ('G', Heater::Volts(4.9, 5.1), "5 V"),
    ('H', Heater::Amps(0.15), "150 mA"),
    ('K', Heater::Volts(1.9, 2.1), "battery, 2 V"),
    ('L', Heater::Amps(0.45), "450 mA"),
    ('P', Heater::Amps(0.3), "300 mA"),
    ('U', Heater::Amps(0.1), "100 mA"),
    ('V', Heater::Amps(0.05), "50 mA"),
    ('X', Heater::Amps(0.6), "600 mA"),
];

/// European further letters: systems in the bulb.
const EUROPEAN_SYSTEMS: [(char, &str); 13] = [
    ('A', "signal diode"),
    ('B', "two signal diodes"),
    ('C', "triode"),
    ('D', "output triode"),
    ('E', "tetrode"),
    ('F', "pentode"),
    ('H', "hexode or heptode"),
    ('K', "octode or heptode"),
    ('L', "output pentode"),
    ('M', "tuning indicator"),
    ('Q', "nonode"),
    ('Y', "half-wave rectifier"),
    ('Z', "full-wave rectifier"),
];

/// American suffixes, as they may follow the last figure one after the other.
const SUFFIXES: [(&str, &str); 8] = [
    ("GT/G", "tubular glass, marked for G and GT"),
    ("GT", "tubular glass"),
    ("GY", "glass, low-loss base"),
    ("G", "large glass"),
    ("WA", "improved ruggedised version"),
    ("WB", "improved ruggedised version"),
    ("W", "ruggedised"),
    ("Y", "low-loss base"),
];

/// Reads a designation as the book writes it.
pub fn read(name: &str) -> Designation {
    american(name).or_else(|| european(name)).unwrap_or(Designation {
        system: System::Number,
        heater: Heater::Silent,
        bases: &[],
        says: vec!["A plain number: it says nothing of the tube.".to_owned()],
    })
}

fn american(name: &str) -> Option<Designation> {
    // JAN numbers (2C51, 2D21) look alike and say nothing.
    let jan = |letters: &str, last: &str| letters.len() == 1 && last.len() == 2;
    let digits = name.chars().take_while(char::is_ascii_digit).count();
    let (first, rest) = name.split_at(digits);
    let letters_end = rest.chars().take_while(char::is_ascii_uppercase).count();
    let (letters, rest) = rest.split_at(letters_end);
    let last_end = rest.chars().take_while(char::is_ascii_digit).count();
    let (last, suffix) = rest.split_at(last_end);
    if first.is_empty()
        || first.len() > 3
        || letters.is_empty()
        || letters.len() > 3
        || last.is_empty()
        || last.len() > 2
    {
        return None;
    }
    if jan(letters, last) {
        return None;
    }
    let figure: f64 = first.parse().ok()?;
    // L first among two letters, or 7 and 14 with a lock-in base, mark the lock-in series; its 7 means 6.3 V and its 14 12.6 V.
    let heater = match first {
        "0" => Heater::Cold,
        "1" => Heater::Volts(0.6, 2.1),
        "2" => Heater::Volts(1.9, 2.9),
        "3" => Heater::Volts(2.5, 3.6),
        "7" => Heater::Volts(6.2, 7.6),
        "14" => Heater::Volts(12.4, 14.6),
        _ => Heater::Volts(0.925 * figure, 1.075 * figure + 0.3),
    };
    let mut says = Vec::new();
    says.push(match heater {
        Heater::Cold => "0: no heater".to_owned(),
        _ if first == "7" => "7: 6.3 V in the lock-in series, else about 7 V".to_owned(),
        _ if first == "14" => "14: 12.6 V in the lock-in series, else about 14 V".to_owned(),
        Heater::Volts(least, most) => format!("{first}: heater {least:.1} to {most:.1} V"),
        _ => String::new(),
    });
    says.push(format!("{letters}: order of registration; rectifiers count back from Z"));
    says.push(format!("{last}: useful elements brought out"));
    let mut rest = suffix;
    while !rest.is_empty() {
        if let Some((text, words)) = SUFFIXES.iter().find(|(text, _)| rest.starts_with(text)) {
            says.push(format!("{text}: {words}"));
            rest = rest.get(text.len()..).unwrap_or("");
        } else {
            let letter = rest.chars().next()?;
            if matches!(letter, 'A'..='F' | 'P') {
                says.push(format!("{letter}: later version that replaces the earlier ones"));
            }
            rest = rest.get(letter.len_utf8()..).unwrap_or("");
        }
    }
    let glass_octal = suffix.starts_with('G');
    let bases: &'static [Base] = if glass_octal { &[Base::Octal] } else { &[] };
    Some(Designation { system: System::American, heater, bases, says })
}

fn european(name: &str) -> Option<Designation> {
    let letters_end = name.chars().take_while(char::is_ascii_uppercase).count();
    let (letters, rest) = name.split_at(letters_end);
    let digits_end = rest.chars().take_while(char::is_ascii_digit).count();
    let digits = rest.get(..digits_end)?;
    if letters.len() < 2 || letters.len() > 4 || digits.is_empty() || digits.len() > 3 {
        return None;
    }
    let mut all = letters.chars();
    let first = all.next()?;
    let (_, heater, words) = EUROPEAN_HEATERS.iter().find(|row| row.0 == first)?;
    let mut says = vec![format!("{first}: heater {words}")];
    for letter in all {
        // KT66 and its like are Marconi-Osram names with letters of another system.
        let (_, system) = EUROPEAN_SYSTEMS.iter().find(|row| row.0 == letter)?;
        says.push(format!("{letter}: {system}"));
    }
    let bases: &'static [Base] = match (digits.len(), digits.as_bytes().first()?) {
        (1, _) => &[Base::SideContact, Base::SteelEight, Base::Octal, Base::Loctal],
        (2, b'1') => &[Base::SteelEight, Base::SideContact, Base::Octal],
        (2, b'2') => &[Base::Loctal, Base::Octal, Base::SideContact, Base::SteelEight],
        (2, b'3') => &[Base::Octal],
        (2, b'4') => &[Base::Rimlock],
        (2, b'9') => &[Base::MiniatureSeven],
        (3, b'5') => &[Base::Magnoval],
        (2 | 3, b'8') => &[Base::MiniatureNine],
        (3, b'1') if digits.starts_with("18") => &[Base::MiniatureNine],
        (3, b'1') if digits.starts_with("19") => &[Base::MiniatureSeven],
        _ => &[],
    };
    says.push(match bases {
        [base] => format!("{digits}: {} base", base.words()),
        [] => format!("{digits}: serial number"),
        _ => format!("{digits}: serial number; several bases used it"),
    });
    Some(Designation { system: System::European, heater: *heater, bases, says })
}
