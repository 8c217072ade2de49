//! `colour_code`: what do these bands or dots say?
//!
//! The figures come from [`crate::passive`]; here they become sentences.

mod words;

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::finding::{Mark, Verdict};
use crate::passive::{
    CapacitorKind, Colour, ColourReading as Reading, Family, Style, TemperatureCode, Way, read_colours,
};
use words::{mark_says, notes, says};

/// A row of colours to read.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ColourCodeQuestion {
    /// What is marked, and how: `resistor_bands`, `body_end_dot`, `mica_dots`, `paper_bands`, `ceramic`.
    pub code: String,
    /// The colours, `none` for a mark that is missing. Bands from the end they stand near to; body, end, dot; dots in two rows: the upper row
    /// left to right, then the lower one, with the arrow to the right or the maker's name upright.
    pub colours: Vec<String>,
    /// The first band is twice as wide as the others.
    #[cfg_attr(test, ts(optional))]
    pub wide_first: Option<bool>,
    /// What a meter reads with one end lifted, ohms.
    #[cfg_attr(test, ts(optional))]
    pub measured_ohm: Option<f64>,
    /// What a meter reads with one end lifted: picofarads, or text with the unit, as in "22 n" or "0.02 uF".
    #[cfg_attr(test, ts(optional, type = "number | string"))]
    pub measured_pf: Option<f64>,
}

impl From<&Fields<'_>> for ColourCodeQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            code: fields.text("code"),
            colours: fields.texts("colours").unwrap_or_default(),
            wide_first: fields.flag("wide_first"),
            measured_ohm: fields.number("measured_ohm"),
            measured_pf: fields.picofarads("measured_pf"),
        }
    }
}

/// The codes, and what is accepted as their number of marks.
pub(super) const CODES: [&str; 5] = ["resistor_bands", "body_end_dot", "mica_dots", "paper_bands", "ceramic"];
const FAMILIES: [(Family, &str); 5] = [
    (Family::ResistorBands, "3 to 6 bands, or one black one"),
    (Family::BodyEndDot, "body, end and dot, and the other end where it has a colour: 3 or 4"),
    (Family::MicaDots, "3, 5 or 6 dots"),
    (Family::PaperBands, "5 or 6 bands: two figures, multiplier, tolerance, volts"),
    (Family::Ceramic, "3, 5 or 6 marks"),
];

/// One way the colours can be read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ColourReading {
    /// As the trade writes it: "0.0047 uF (4.7 nF), 10 %, 300 V"; `capacitor` and `resistor` read it as a marking.
    pub says: String,
    /// Ohms, or farads of a capacitor.
    pub value: f64,
    /// What a capacitor of this layout is made of.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub kind: Option<CapacitorKind>,
    /// The layout: "JAN mica, six dots".
    pub layout: String,
    /// What each mark says in that layout: "red: times 100".
    pub marks: Vec<String>,
    /// What to know of this reading.
    pub notes: Vec<String>,
}

/// Every reading, and how to tell them apart.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ColourCodeAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// Readings of the colours as given, the likeliest first.
    pub readings: Vec<ColourReading>,
    /// Readings that would be right if one mark had faded (brown, red and orange; violet, grey and blue), the likeliest first.
    pub faded: Vec<ColourReading>,
    /// Colours that cannot stand where they are, one sentence each.
    pub impossible: Vec<String>,
    /// What to look at and measure.
    pub measure: Vec<String>,
}

/// Answers `colour_code`.
///
/// # Errors
/// `code` and `colours`, when there is no such code, no such colour, or no layout with so many marks.
pub fn answer(question: &ColourCodeQuestion) -> Result<ColourCodeAnswer, ErrorAnswer> {
    let known = CODES.iter().zip(FAMILIES).find(|(code, _)| **code == question.code);
    let Some((_, (family, counts))) = known else {
        return Err(ErrorAnswer::new("code", format!("\"{}\"", question.code), CODES.join(" | ")));
    };
    let mut colours = Vec::new();
    for (at, word) in question.colours.iter().enumerate().take(20) {
        let colour = Colour::read(word);
        colours.push(colour.ok_or_else(|| {
            let found = format!("\"{}\"", word.chars().take(40).collect::<String>());
            ErrorAnswer::new(format!("colours[{at}]"), found, Colour::WORDS.join(" | "))
        })?);
    }
    let resistor = matches!(family, Family::ResistorBands | Family::BodyEndDot);
    let measured = if resistor { question.measured_ohm } else { question.measured_pf.map(|pf| pf / 1e12) };
    let all = read_colours(family, &colours, measured.filter(|measured| *measured > 0.0));
    if all.link {
        let says = "A single black band marks a link of 0 ohm, made since the 1970s; it is no resistor.";
        return Ok(of_verdict(Mark::Yes, "A link, 0 ohm.", says.to_owned()));
    }
    if all.readings.is_empty() && all.impossible.is_empty() {
        return Err(ErrorAnswer::new("colours", format!("{} colours", question.colours.len()), counts));
    }
    let wide = question.wide_first == Some(true);
    let view = |reading: &Reading| view(reading, wide);
    let impossible: Vec<String> = all.impossible.iter().map(|one| words::impossible(*one)).collect();
    let mut answer = of_verdict(Mark::Unknown, "", String::new());
    answer.readings = all.readings.iter().map(view).collect();
    answer.faded = all.faded.iter().map(view).collect();
    answer.verdict = verdict(&all.readings, all.likely, &answer, impossible.first());
    answer.measure = measure(&all.readings, &all.faded, family);
    answer.impossible = impossible;
    Ok(answer)
}

fn of_verdict(mark: Mark, word: &str, says: String) -> ColourCodeAnswer {
    let verdict = Verdict { mark, word: word.to_owned(), says };
    ColourCodeAnswer { verdict, readings: Vec::new(), faded: Vec::new(), impossible: Vec::new(), measure: Vec::new() }
}

fn verdict(readings: &[Reading], likely: usize, answer: &ColourCodeAnswer, impossible: Option<&String>) -> Verdict {
    let of = |mark: Mark, word: &str, says: String| Verdict { mark, word: word.to_owned(), says };
    let list = |views: &[ColourReading]| {
        views.iter().take(4).map(|reading| reading.says.as_str()).collect::<Vec<_>>().join(" or ")
    };
    let faded = list(&answer.faded);
    let (Some(first), Some(says)) = (readings.first(), answer.readings.first().map(|reading| reading.says.clone()))
    else {
        let why = impossible.map_or("", String::as_str);
        let says = if faded.is_empty() {
            format!("{why} Start at the other end, or look at the part again in daylight.")
        } else {
            format!("{why} If a mark has faded, it can be {faded}: measure it.")
        };
        return of(Mark::Unknown, "No such code.", says);
    };
    if !first.usual {
        let faded = if faded.is_empty() { String::new() } else { format!(" If a mark has faded, it can be {faded}.") };
        let says = format!("The colours say {says}, a value that was not made.{faded} Measure it.");
        return of(Mark::Unknown, "Doubtful: measure it.", says);
    }
    if !first.agrees {
        let says = format!("No reading agrees with what it measures; the colours say {says}.");
        return of(Mark::Unknown, "Cannot tell.", says);
    }
    if likely > 1 {
        let all = list(answer.readings.get(..likely).unwrap_or(&[]));
        return of(Mark::Unknown, "More than one reading: measure it.", format!("It can be {all}."));
    }
    let others = readings.iter().skip(1).filter(|reading| reading.usual && reading.agrees).count();
    let other = if others == 0 { "" } else { " The other readings are less likely." };
    // A reading of marks that would have to be something else than was said is no certain one.
    let (mark, word) =
        if others == 0 && first.way == Way::Given { (Mark::Yes, "Read.") } else { (Mark::Care, "Most likely.") };
    let way = words::way(first);
    let way = if way.is_empty() { way.to_owned() } else { format!(" {way}") };
    of(mark, word, format!("{says}.{way}{other}"))
}

/// What tells the readings apart.
fn measure(readings: &[Reading], faded: &[Reading], family: Family) -> Vec<String> {
    let mut values: Vec<f64> = Vec::new();
    for reading in readings.iter().chain(faded) {
        if !values.iter().any(|value| (value - reading.value).abs() <= value * 1e-6) {
            values.push(reading.value);
        }
    }
    let mut measure = Vec::new();
    if values.len() > 1 {
        let says: Vec<String> = values.iter().take(6).map(|value| words::value(*value, family)).collect();
        measure.push(format!("Lift one end and measure; these are told apart so: {}.", says.join(", ")));
    }
    measure.push(words::hold(family).to_owned());
    measure
}

fn view(reading: &Reading, wide: bool) -> ColourReading {
    let layout = reading.layout;
    let kind = match layout.style {
        Style::MouldedPaper | Style::PaperTubular => Some(CapacitorKind::Paper),
        Style::Ceramic | Style::CeramicExtended | Style::CeramicPlain => Some(CapacitorKind::Ceramic),
        _ if layout.family == Family::MicaDots => Some(CapacitorKind::Mica),
        _ => None,
    };
    let mut all = notes(reading);
    if wide && kind.is_none() && reading.way != Way::Turned {
        all.push("The wide first band says that it is wire-wound.".to_owned());
    }
    ColourReading {
        says: says(reading),
        value: reading.value,
        kind,
        layout: words::layout(layout),
        marks: layout
            .fields
            .iter()
            .zip(&reading.colours)
            .map(|(field, colour)| mark_says(reading, *field, *colour))
            .collect(),
        notes: all,
    }
}

/// The temperature coefficient as the trade writes it.
fn ppm(code: TemperatureCode) -> String {
    code.class1_name().unwrap_or_default()
}
