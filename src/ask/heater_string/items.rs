//! What else than tubes is in a string: resistors, line cords, dial lamps, ballast tubes, thermistors, as people write them.
//!
//! `150 ohm`, `cord 180 ohm`, `lamp 47`, `lamp 6.3 V 0.15 A`, `lamp 47 with 50 ohm`, `ballast K49C`, `ntc 1500/40 ohm`. The figures of lamps and the
//! ballast code are from memory.

use crate::ask::ErrorAnswer;
use crate::heater::Heater;
use crate::quantity::{decimal, ohm, plain_figure, significant};

/// Radio panel lamps: number, volts, amperes.
const LAMPS: [(&str, f64, f64); 10] = [
    ("40", 6.3, 0.15),
    ("41", 2.5, 0.5),
    ("43", 2.5, 0.5),
    ("44", 6.3, 0.25),
    ("46", 6.3, 0.25),
    ("47", 6.3, 0.15),
    ("49", 2.0, 0.06),
    ("50", 7.5, 0.22),
    ("51", 7.5, 0.22),
    ("1847", 6.3, 0.15),
];
/// Exponent of a lamp's current over its volts.
const LAMP_EXPONENT: f64 = 0.55;
/// The current at which a ballast tube's figure holds, amperes.
const BALLAST_A: f64 = 0.3;

/// What an item is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::ask) enum Kind {
    Tube,
    Lamp,
    /// A dropper of any make.
    Resistor,
    Cord,
    Ballast,
    /// With its cold resistance over the hot one, when known.
    Thermistor(Option<f64>),
}

/// An item that is no tube: a lamp with its rating, or ohms.
pub(in crate::ask) struct Item {
    pub kind: Kind,
    pub lamp: Option<Heater>,
    pub ohm: f64,
    /// What has to be said of it.
    pub says: Option<String>,
}

impl Item {
    /// Its ohms at its rated current.
    pub fn hot_ohm(&self) -> f64 {
        self.lamp.map_or(self.ohm, |lamp| {
            let own_ohm = lamp.rated_v / lamp.rated_a;
            lamp.shunt_ohm.map_or(own_ohm, |shunt_ohm| own_ohm * shunt_ohm / (own_ohm + shunt_ohm))
        })
    }
}

const ACCEPTED: &str = "a tube designation, `150 ohm`, `cord 180 ohm`, `lamp 47`, `lamp 6.3 V 0.15 A with 50 ohm`, `ballast K49C` or `ntc 1500/40 ohm`";

/// Reads an item; none when it is taken for a tube.
///
/// # Errors
/// An item that begins like one of these and cannot be read.
pub(in crate::ask) fn read(field: &str, typed: &str) -> Result<Option<Item>, ErrorAnswer> {
    let text = typed.trim().to_lowercase().replace('#', " lamp ").replace("ohms", "ohm");
    let text = text.trim();
    // "line cord" and, in Britain, "mains lead".
    let text = ["line ", "mains "].iter().find_map(|word| text.strip_prefix(word)).unwrap_or(text);
    let refuse = || ErrorAnswer::new(field, format!("\"{}\"", text.chars().take(60).collect::<String>()), ACCEPTED);
    let word = |word: &str| text.split_whitespace().next() == Some(word);
    let item = |kind, lamp, ohm, says| Item { kind, lamp, ohm, says };
    let ohms = |text: &str| before(text, "ohm").filter(|ohm| (0.1..=1e5).contains(ohm));
    Ok(Some(if word("lamp") {
        let (lamp, shunt) = text.split_once("with").map_or((text, None), |(lamp, shunt)| (lamp, Some(shunt)));
        let number = lamp.split_whitespace().nth(1).unwrap_or_default();
        let listed = LAMPS.iter().find(|row| row.0 == number).map(|row| (row.1, row.2));
        let amps = || before(lamp, "a").or_else(|| before(lamp, "ma").map(|ma| ma / 1e3));
        let Some((v, a)) = before(lamp, "v").zip(amps()).or(listed) else { return Err(refuse()) };
        let shunt_ohm = match shunt {
            Some(shunt) => Some(ohms(shunt).ok_or_else(refuse)?),
            None => None,
        };
        if !(0.5..=60.0).contains(&v) || !(0.02..=2.0).contains(&a) {
            return Err(refuse());
        }
        item(Kind::Lamp, Some(Heater { exponent: LAMP_EXPONENT, shunt_ohm, ..Heater::new(v, a) }), 0.0, None)
    } else if word("ballast") {
        let (ohm, says) = ballast(text.split_whitespace().nth(1).unwrap_or_default()).ok_or_else(refuse)?;
        item(Kind::Ballast, None, ohm, Some(says))
    } else if word("ntc") || word("thermistor") {
        let cold = text.split_once('/').and_then(|(cold, _)| cold.split_whitespace().last().and_then(decimal));
        let hot = ohms(text.rsplit('/').next().unwrap_or_default()).ok_or_else(refuse)?;
        let ratio = cold.map(|cold| cold / hot).filter(|ratio| (1.0..=1000.0).contains(ratio));
        let says = ratio.is_none().then(|| "How the thermistor starts cannot be told without its cold ohms (`ntc 1500/40 ohm`): it is taken as hot from the start, so the warm-up is milder than shown.".to_owned());
        item(Kind::Thermistor(ratio), None, hot, says)
    } else if text.ends_with("ohm") || word("cord") || word("lead") {
        item(
            if word("cord") || word("lead") { Kind::Cord } else { Kind::Resistor },
            None,
            ohms(text).ok_or_else(refuse)?,
            None,
        )
    } else {
        return Ok(None);
    }))
}

/// The number before a unit that stands alone or is joined to it: "6.3 v", "6.3v".
fn before(text: &str, unit: &str) -> Option<f64> {
    let mut last = None;
    for word in text.split_whitespace() {
        if word == unit {
            return last;
        }
        if let Some(number) = word.strip_suffix(unit).and_then(decimal) {
            return Some(number);
        }
        last = decimal(word);
    }
    None
}

/// A ballast tube's marking: its ohms, and every reading of it. Letters for the lamps (K 0.15 A, L 0.25 A, M 0.2 A, X none; B before them: it
/// steadies the current), the volts at 0.3 A, a letter for the wiring; or the ohms and an R.
fn ballast(marking: &str) -> Option<(f64, String)> {
    let marking = marking.to_uppercase().replace('-', "");
    let start = marking.find(|c: char| c.is_ascii_digit())?;
    let (letters, rest) = marking.split_at(start);
    let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let (figure, last) = rest.split_at(end);
    let figure = decimal(figure)?;
    if !(5.0..=400.0).contains(&figure) {
        return None;
    }
    if letters.is_empty() && last.starts_with('R') {
        return Some((
            figure,
            format!(
                "{marking} is read as {} in all; figures after the R tell the taps, which are to be measured.",
                ohm(figure)
            ),
        ));
    }
    let lamp = match letters.trim_start_matches('B') {
        "K" => Some(("6.3 V 0.15 A", 6.3)),
        "L" => Some(("6.3 V 0.25 A", 6.3)),
        "M" => Some(("6 to 8 V 0.2 A", 7.0)),
        "" | "X" => None,
        _ => return None,
    };
    let (all_ohm, drop_v) = (figure / BALLAST_A, plain_figure(figure));
    let wiring = if last.is_empty() {
        ""
    } else {
        " The last letter tells how the pins are wired; lists differ, so trace them with an ohmmeter."
    };
    Some((
        all_ohm,
        match lamp {
            None => {
                format!("{marking} drops {drop_v} V at 0.3 A, {}, and has no tap for a lamp.{wiring}", ohm(all_ohm))
            }
            Some((lamp, lamp_v)) => format!(
                "{marking} has two readings: {drop_v} V at 0.3 A with the tap for the {lamp} lamp in it, {} in all (taken here); or {drop_v} V beside the lamp's {} V, {} in all. Measure it.{wiring}",
                ohm(all_ohm),
                plain_figure(lamp_v),
                ohm((figure + lamp_v) / BALLAST_A)
            ),
        },
    ))
}

/// "135 ohm", "line cord of 180 ohm".
pub(in crate::ask) fn name(item: &Item) -> String {
    match (item.kind, item.lamp) {
        (Kind::Cord, _) => format!("line cord {}", ohm(item.ohm)),
        (Kind::Ballast, _) => format!("ballast {}", ohm(item.ohm)),
        (Kind::Thermistor(_), _) => format!("thermistor {}", ohm(item.ohm)),
        (_, Some(lamp)) => format!("lamp {} V {} A", significant(lamp.rated_v, 3), significant(lamp.rated_a, 3)),
        _ => ohm(item.ohm),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn items_as_people_write_them() {
        let read = |text: &str| read("tubes[0]", text).unwrap();
        for (text, wanted) in [
            ("150 ohm", 150.0),
            ("135ohms", 135.0),
            ("cord 180 ohm", 180.0),
            ("line cord 180 ohm", 180.0),
            ("mains lead 180 ohm", 180.0),
            ("ballast 185R8", 185.0),
            ("ntc 1500/40 ohm", 40.0),
        ] {
            assert_eq!(read(text).unwrap().ohm, wanted, "{text}");
        }
        // 49 V at 0.3 A.
        assert!((read("ballast K49C").unwrap().ohm - 163.3).abs() < 0.1);
        assert!(read("ballast BL-42-D").unwrap().says.unwrap().contains("two readings"));
        for text in ["lamp 47", "#47", "lamp 6.3 V 0.15 A", "lamp 6.3v 150ma"] {
            let lamp = read(text).unwrap().lamp.unwrap();
            assert_eq!((lamp.rated_v, lamp.rated_a), (6.3, 0.15), "{text}");
        }
        assert_eq!(read("lamp 47 with 50 ohm").unwrap().lamp.unwrap().shunt_ohm, Some(50.0));
        for text in ["12SK7", "47", "50C5", "117L7GT"] {
            assert!(read(text).is_none(), "{text} is a tube");
        }
        for text in [
            "lamp",
            "lamp 999",
            "ballast",
            "ballast Q7",
            "ohm",
            "0 ohm",
            "-5 ohm",
            "nan ohm",
            "cord",
            "ntc",
            "lamp 6.3 V 1e9 A",
            "lamp 47 with inf ohm",
        ] {
            assert!(super::read("tubes[0]", text).is_err(), "{text}");
        }
    }
}
