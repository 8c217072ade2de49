//! Readings of colours in words.

use super::{Reading, ppm};
use crate::passive::{Colour, Family, Field, Impossible, Layout, Mould, Style, Way};
use crate::quantity::{farad, ohm, significant, volt};

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

/// "yellow: a figure, 4".
pub(super) fn mark_says(what: Field, colour: Colour) -> String {
    format!("{}: {}", colour.name(), field(what))
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

/// What to know of a reading.
pub(super) fn notes(reading: &Reading) -> Vec<String> {
    let family = reading.layout.family;
    let mut notes: Vec<String> = Vec::new();
    if let Some((mark, colour)) = reading.faded {
        notes.push(format!("If mark {} was {} when new.", mark + 1, colour.name()));
    }
    let way = match reading.way {
        Way::Given => "",
        Way::Turned => "Read from the other end.",
        Way::OtherStyle if family == Family::BodyEndDot => "If it is an old part and these are its end, body and dot.",
        Way::OtherStyle => "If these are bands after all, read from the end.",
    };
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
        && reading.value <= 10.0001e-12
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
