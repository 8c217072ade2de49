//! Readings of colours in words.

use super::{Reading, ppm};
use crate::passive::{Colour, Family, Field, Impossible, Layout, Mould, Says, Style, Way, small_ceramic_pf};
use crate::quantity::{farad, ohm, significant, volt, whole};

/// Up to this value the tolerance of a ceramic part is in picofarads, farads.
const SMALL_CERAMIC_F: f64 = 10.0001e-12;

/// A value alone.
pub(super) fn value(value: f64, family: Family) -> String {
    match family {
        Family::ResistorBands | Family::BodyEndDot => ohm(value),
        _ => farad(value),
    }
}

/// "0.0047 uF (4.7 nF), 10 %, N750, 300 V".
pub(super) fn says(reading: &Reading) -> String {
    let mut parts = vec![value(reading.value, reading.layout.family)];
    // Of a part below 2 pF the tolerance can be more than the value; a note says it in picofarads.
    if let Some(tolerance) = reading.tolerance.filter(|tolerance| tolerance.above_percent <= 100.0) {
        parts.push(format!("{} %", significant(tolerance.above_percent, 3)));
    }
    parts.extend(reading.temperature.map(ppm));
    parts.extend(reading.volts.map(volt));
    parts.join(", ")
}

/// "JAN mica, six dots".
pub(super) fn layout(layout: &Layout) -> String {
    let what = match layout.style {
        Style::Bands => "resistor",
        Style::BandsWithFailures => "military resistor, the last for its failure rate",
        Style::BodyEndDot => return "body, end and dot".to_owned(),
        Style::RmaMica => "RMA mica",
        Style::RmaMicaThreeFigures | Style::RmaMicaNoVolts => "RMA mica with three figures",
        Style::JanMica => "JAN mica",
        Style::EiaMica => "EIA mica",
        Style::MouldedPaper => "moulded paper in the case of a mica",
        Style::PaperTubular => "moulded paper tubular",
        Style::Ceramic | Style::CeramicExtended => "ceramic with temperature coefficient",
        Style::CeramicPlain => "ceramic for general purpose",
    };
    let marks = match layout.family {
        Family::ResistorBands | Family::PaperBands => "bands",
        Family::MicaDots => "dots",
        _ => "marks",
    };
    format!("{what}, {} {marks}", layout.fields.len())
}

/// What a mark is for.
fn field(field: Field) -> &'static str {
    match field {
        Field::Figure => "a figure",
        Field::Multiplier => "the multiplier",
        Field::Tolerance => "the tolerance",
        Field::Volts | Field::MoreVolts => "the volts",
        Field::Type(Mould::Jan) => "the type dot, black for JAN mica",
        Field::Type(Mould::Eia) => "the type dot, white for EIA mica",
        Field::Type(Mould::Paper) => "the type dot, silver for paper",
        Field::Characteristic | Field::PaperCharacteristic => "the characteristic",
        Field::Ppm | Field::PpmFigure | Field::PpmTimes | Field::Resistance => "the temperature coefficient",
        Field::Failures => "the failure rate",
    }
}

/// "yellow: 4", "orange: times 1,000", "silver: 10 %".
pub(super) fn mark_says(reading: &Reading, what: Field, colour: Colour) -> String {
    let family = reading.layout.family;
    let small = (family == Family::Ceramic && reading.value <= SMALL_CERAMIC_F).then(|| small_ceramic_pf(colour));
    let says = match (what, what.says(family, colour)) {
        (Field::Tolerance, _) if small.flatten().is_some() => {
            format!("tolerance {} pF", significant(small.flatten().unwrap_or_default(), 2))
        }
        (_, Some(Says::Figure(figure))) => whole(figure),
        (_, Some(Says::Times(times) | Says::PpmTimes(times))) => format!("times {}", grouped(times)),
        (_, Some(Says::Tolerance(Some(tolerance)))) => format!("{} %", significant(tolerance.above_percent, 3)),
        // Where two marks make up the volts, neither says them alone.
        (_, Some(Says::Volts(_) | Says::MoreVolts(_))) if reading.layout.fields.contains(&Field::MoreVolts) => {
            format!("{} by two marks", reading.volts.map(volt).unwrap_or_default())
        }
        (_, Some(Says::Volts(volts))) => volt(volts),
        (_, Some(Says::Ppm(ppm) | Says::Resistance(ppm))) if what != Field::PpmFigure => {
            format!("{} ppm per kelvin", significant(ppm, 3))
        }
        (_, Some(Says::Ppm(figure))) => format!("{} of {}", significant(figure, 2), field(what)),
        (_, Some(Says::Characteristic(letter))) => format!("characteristic {letter}"),
        (_, Some(Says::Failures(percent))) => format!("{} % fail in 1000 hours", significant(percent, 3)),
        _ => field(what).to_owned(),
    };
    format!("{}: {says}", colour.name())
}

/// A power of ten with its thousands set apart: "1,000", "0.01", "-100".
fn grouped(times: f64) -> String {
    let plain = significant(times, 3);
    let digits = plain.trim_start_matches('-').len();
    if plain.contains('.') || digits < 4 {
        return plain;
    }
    let start = plain.len() - digits;
    let mut text = String::new();
    for (at, sign) in plain.chars().enumerate() {
        if at > start && (plain.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(sign);
    }
    text
}

/// "Mark 2, gold, cannot stand where resistor, 4 bands has a figure."
pub(super) fn impossible(one: Impossible) -> String {
    let leading = one.field == Field::Figure && one.colour == Colour::Black;
    let why = if leading { "the first figure, which is never 0" } else { field(one.field) };
    format!(
        "As {}: mark {} would be {why}; {} cannot stand there.",
        layout(one.layout),
        one.mark + 1,
        one.colour.name()
    )
}

/// How the part is held, or from which end it is read.
pub(super) fn hold(family: Family) -> &'static str {
    match family {
        Family::ResistorBands => "Begin at the band that stands nearest to an end; gold and silver are never first.",
        Family::BodyEndDot => {
            "The whole body is the first figure, the painted end the second, the dot or middle band the zeros."
        }
        Family::MicaDots => {
            "Hold it with the arrow to the right or the maker's name upright; the lower row counts from right to left."
        }
        Family::PaperBands => "Begin at the band that stands nearest to an end; the volts come last.",
        Family::Ceramic => "Begin at the end with the wide or set-apart mark, which is the temperature coefficient.",
    }
}

/// How the part has to be looked at for a reading; empty when as it was given.
pub(super) fn way(reading: &Reading) -> &'static str {
    match reading.way {
        Way::Given => "",
        Way::Turned => "Read from the other end.",
        Way::OtherStyle if reading.layout.family == Family::BodyEndDot => {
            "If it is an old part and these are its end, body and dot."
        }
        Way::OtherStyle => "If these are bands after all, read from the end.",
    }
}

/// What to know of a reading.
pub(super) fn notes(reading: &Reading) -> Vec<String> {
    let family = reading.layout.family;
    let mut notes: Vec<String> = Vec::new();
    if let Some((mark, colour)) = reading.faded {
        notes.push(format!("If mark {} was {} when new.", mark + 1, colour.name()));
    }
    let way = way(reading);
    if !way.is_empty() {
        notes.push(way.to_owned());
    }
    if !reading.usual {
        notes.push("No part was made in this value.".to_owned());
    }
    for (what, colour) in reading.layout.fields.iter().zip(&reading.colours) {
        notes.extend(note(*what, family, *colour).map(str::to_owned));
    }
    if let Some(ppm) = reading.tcr_ppm {
        notes.push(format!("Its value changes by up to {} ppm per kelvin.", significant(ppm, 3)));
    }
    if let Some(percent) = reading.failure_percent {
        notes.push(format!("Failure rate: {} % in 1000 hours.", significant(percent, 3)));
    }
    if let Some(letter) = reading.characteristic {
        notes.push(format!("Characteristic {letter}: {}.", characteristic(letter)));
    }
    if let (Family::Ceramic, Some(tolerance)) = (family, reading.tolerance)
        && reading.value <= SMALL_CERAMIC_F
    {
        let size = tolerance.above_percent / 100.0 * reading.value * 1e12;
        notes.push(format!("The tolerance is {} pF.", significant(size, 2)));
    }
    match reading.layout.style {
        Style::EiaMica => notes.push(
            "Its volts go by the body size: 500 V for small values, 300 V for the largest of each size; they are not marked."
                .to_owned(),
        ),
        Style::PaperTubular | Style::MouldedPaper => {
            notes.push("Moulded paper leaks by now: replace it by film.".to_owned());
        }
        _ => {}
    }
    notes
}

/// Where charts disagree, or a colour says that something is missing.
fn note(what: Field, family: Family, colour: Colour) -> Option<&'static str> {
    let resistor = matches!(family, Family::ResistorBands | Family::BodyEndDot);
    Some(match (what, colour) {
        (Field::Tolerance, Colour::Orange) if resistor => "Orange is 0.05 % since 2016; older charts print 3 %.",
        (Field::Tolerance, Colour::Yellow) if resistor => "Yellow is 0.02 % since 2016; older charts print 4 %.",
        (Field::Tolerance, Colour::Grey) if resistor => "Grey is 0.01 % since 2016; 0.05 % before.",
        (Field::Tolerance, Colour::Yellow) if family == Family::MicaDots => {
            "Yellow for 4 % is found in RMA lists only."
        }
        (Field::Tolerance, Colour::Blue) => "Blue for 2 % is found in one Army text; the charts print red.",
        (Field::Ppm, Colour::Brown) => "Older charts print -30 for the brown temperature mark.",
        (Field::Ppm, Colour::Red) => "Older charts print -80 for the red temperature mark.",
        (Field::Ppm, Colour::Grey) => "Grey: for general purpose, not for a tuned circuit.",
        (Field::Ppm, Colour::White | Colour::Silver) => "For by-passing, without a steady temperature coefficient.",
        (Field::PaperCharacteristic, _) => {
            "The lower left dot tells the temperature the part bears; it is not needed here."
        }
        _ => return None,
    })
}

/// RETMA REC-115A, mica; F from memory.
fn characteristic(letter: char) -> &'static str {
    match letter {
        'A' => "up to 1000 ppm per kelvin either way",
        'B' => "up to 500 ppm per kelvin either way",
        'C' => "up to 200 ppm per kelvin either way",
        'D' => "up to 100 ppm per kelvin either way",
        'E' => "-20 to +100 ppm per kelvin",
        'F' => "0 to +70 ppm per kelvin",
        'I' => "-50 to +150 ppm per kelvin",
        _ => "-50 to +100 ppm per kelvin",
    }
}
