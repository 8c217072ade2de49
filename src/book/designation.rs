//! What a designation itself says: the heater in its first figure or letter, the base in its last digits, the make in its suffix.
//!
//! Two systems speak: the American one of 1933 (RMA, RETMA, EIA: figure, letters, figure, suffix) and the European one of 1934
//! (Mullard-Philips: letters, digits). Plain numbers (27, 80, 5654) say nothing, and neither do the numbers of the services (CV, VT) and of
//! the JAN system (2C51). Sources: Radiotron Designer's Handbook, fourth edition, on numbering; Mullard's own account of its type
//! nomenclature; both as excerpts.

use super::tube::Base;
use crate::quantity::{decimal, significant};

/// What a designation says of itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Designation {
    /// The system it belongs to.
    pub system: System,
    /// What it says of the heater.
    pub heater: Heater,
    /// Bases it may have; empty when it does not say.
    pub bases: &'static [Base],
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
    if let Some(number) = American::read(name) {
        return Designation { system: System::American, heater: number.heater(), bases: number.bases() };
    }
    let silent = Designation { system: System::Number, heater: Heater::Silent, bases: &[] };
    European::read(name).map_or(silent, |number| Designation {
        system: System::European,
        heater: number.heater.0,
        bases: number.bases(),
    })
}

/// What a designation says, piece by piece, in words.
pub fn says(name: &str) -> Vec<String> {
    American::read(name)
        .map(|number| number.says())
        .or_else(|| European::read(name).map(|number| number.says()))
        .unwrap_or_else(|| vec!["A plain number: it says nothing of the tube.".to_owned()])
}

/// Splits off the leading characters of a kind.
fn leading(text: &str, kind: impl Fn(&u8) -> bool) -> (&str, &str) {
    text.split_at(text.bytes().take_while(kind).count())
}

/// 12SK7GT in its pieces.
struct American<'n> {
    first: &'n str,
    letters: &'n str,
    last: &'n str,
    suffix: &'n str,
}

impl<'n> American<'n> {
    fn read(name: &'n str) -> Option<Self> {
        let (first, rest) = leading(name, u8::is_ascii_digit);
        let (letters, rest) = leading(rest, u8::is_ascii_uppercase);
        let (last, suffix) = leading(rest, u8::is_ascii_digit);
        // JAN numbers (2C51, 2D21) look alike and say nothing.
        let jan = letters.len() == 1 && last.len() == 2;
        let fits = (1..=3).contains(&first.len()) && (1..=3).contains(&letters.len()) && (1..=2).contains(&last.len());
        (fits && !jan).then_some(Self { first, letters, last, suffix })
    }

    fn heater(&self) -> Heater {
        // L first among two letters, or 7 and 14 with a lock-in base, mark the lock-in series; its 7 means 6.3 V and its 14 12.6 V.
        match self.first {
            "0" => Heater::Cold,
            "1" => Heater::Volts(0.6, 2.1),
            "2" => Heater::Volts(1.9, 2.9),
            "3" => Heater::Volts(2.5, 3.6),
            "7" => Heater::Volts(6.2, 7.6),
            "14" => Heater::Volts(12.4, 14.6),
            first => {
                decimal(first).map_or(Heater::Silent, |figure| Heater::Volts(0.925 * figure, 1.075 * figure + 0.3))
            }
        }
    }

    fn bases(&self) -> &'static [Base] {
        if self.suffix.starts_with('G') { &[Base::Octal] } else { &[] }
    }

    fn says(&self) -> Vec<String> {
        let Self { first, letters, last, suffix } = *self;
        let mut says = vec![match self.heater() {
            Heater::Cold => "0: no heater".to_owned(),
            _ if first == "7" => "7: 6.3 V in the lock-in series, else about 7 V".to_owned(),
            _ if first == "14" => "14: 12.6 V in the lock-in series, else about 14 V".to_owned(),
            Heater::Volts(least, most) => {
                format!("{first}: heater {} to {} V", significant(least, 3), significant(most, 3))
            }
            _ => String::new(),
        }];
        says.push(format!("{letters}: order of registration; rectifiers count back from Z"));
        says.push(format!("{last}: useful elements brought out"));
        let mut rest = suffix;
        while let Some(letter) = rest.chars().next() {
            let known = SUFFIXES.iter().find(|(text, _)| rest.starts_with(text));
            if let Some((text, words)) = known {
                says.push(format!("{text}: {words}"));
            } else if matches!(letter, 'A'..='F' | 'P') {
                says.push(format!("{letter}: later version that replaces the earlier ones"));
            }
            rest = rest.get(known.map_or(letter.len_utf8(), |(text, _)| text.len())..).unwrap_or("");
        }
        says
    }
}

/// EBF89 in its pieces.
struct European<'n> {
    heater: (Heater, &'static str),
    letters: &'n str,
    digits: &'n str,
}

impl<'n> European<'n> {
    fn read(name: &'n str) -> Option<Self> {
        let (letters, rest) = leading(name, u8::is_ascii_uppercase);
        let (digits, _) = leading(rest, u8::is_ascii_digit);
        if !(2..=4).contains(&letters.len()) || !(1..=3).contains(&digits.len()) {
            return None;
        }
        let mut all = letters.chars();
        let first = all.next()?;
        let &(_, heater, words) = EUROPEAN_HEATERS.iter().find(|row| row.0 == first)?;
        // KT66 and its like are Marconi-Osram names with letters of another system.
        all.all(|letter| system(letter).is_some()).then_some(Self { heater: (heater, words), letters, digits })
    }

    fn bases(&self) -> &'static [Base] {
        match (self.digits.len(), self.digits.as_bytes()) {
            (1, _) => &[Base::SideContact, Base::SteelEight, Base::Octal, Base::Loctal],
            (2, [b'1', ..]) => &[Base::SteelEight, Base::SideContact, Base::Octal],
            (2, [b'2', ..]) => &[Base::Loctal, Base::Octal, Base::SideContact, Base::SteelEight],
            (2, [b'3', ..]) => &[Base::Octal],
            (2, [b'4', ..]) => &[Base::Rimlock],
            (2, [b'8', ..]) | (3, [b'8', ..] | [b'1', b'8', ..]) => &[Base::MiniatureNine],
            (2, [b'9', ..]) | (3, [b'1', b'9', ..]) => &[Base::MiniatureSeven],
            (3, [b'5', ..]) => &[Base::Magnoval],
            _ => &[],
        }
    }

    fn says(&self) -> Vec<String> {
        let (first, systems) = self.letters.split_at(1);
        let mut says = vec![format!("{first}: heater {}", self.heater.1)];
        says.extend(systems.chars().filter_map(|letter| Some(format!("{letter}: {}", system(letter)?))));
        let digits = self.digits;
        says.push(match self.bases() {
            [base] => format!("{digits}: {} base", base.words()),
            [] => format!("{digits}: serial number"),
            _ => format!("{digits}: serial number; several bases used it"),
        });
        says
    }
}

/// What a European letter says of a system in the bulb.
fn system(letter: char) -> Option<&'static str> {
    EUROPEAN_SYSTEMS.iter().find(|row| row.0 == letter).map(|row| row.1)
}
