//! `resistor`: what replaces this resistor, or is it still good?
//!
//! The figures come from [`crate::passive`]; here they become sentences.

mod findings;
mod sections;
#[cfg(test)]
mod tests;
mod verdict;

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use super::capacitor::{found, within};
use crate::book::Book;
use crate::finding::{Caution, Change, Finding, Mark, Verdict};
pub use crate::passive::ResistorRole;
use crate::passive::{
    Assumed, Construction, Drift, HeatFrom, MOST_PLACE_V, ResistorChoice, ResistorMark, ResistorPart, ResistorPlace,
    Tolerance, choose_resistor, drift, read_resistor, resistor_bands,
};
use crate::quantity::{ohm, significant, volt, watt_rating};

/// One resistor to judge or replace.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorQuestion {
    /// What is written on it or on the drawing: `500k 20%`, `50M`, `4k7 1W`.
    pub marking: String,
    /// What a meter reads, ohms; with one end lifted, unless `in_circuit`.
    #[cfg_attr(test, ts(optional))]
    pub measured_ohm: Option<f64>,
    /// It was measured with both ends connected, where it can only read low.
    #[cfg_attr(test, ts(optional))]
    pub in_circuit: Option<bool>,
    /// What it does, when known.
    #[cfg_attr(test, ts(optional))]
    pub role: Option<ResistorRole>,
    /// Volts across it, when known.
    #[cfg_attr(test, ts(optional))]
    pub circuit_v: Option<f64>,
    /// Milliamps through it, when known.
    #[cfg_attr(test, ts(optional))]
    pub circuit_ma: Option<f64>,
    /// Watts of the old part, when known and not in the marking.
    #[cfg_attr(test, ts(optional))]
    pub watts: Option<f64>,
}

impl ResistorQuestion {
    /// The question about a marking of which nothing else is known.
    pub fn of(marking: &str) -> Self {
        Self { marking: marking.to_owned(), ..Self::default() }
    }
}

impl From<&Fields<'_>> for ResistorQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            marking: fields.text("marking"),
            measured_ohm: fields.number("measured_ohm"),
            in_circuit: fields.flag("in_circuit"),
            role: fields.word("role"),
            circuit_v: fields.number("circuit_v"),
            circuit_ma: fields.number("circuit_ma"),
            watts: fields.number("watts"),
        }
    }
}

/// One way the marking can be read; the likeliest first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorReading {
    /// As the trade writes it: "500 kohm, 20 %".
    pub says: String,
    /// Ohms.
    pub ohm: f64,
    /// Tolerance in percent, when marked or customary.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub tolerance_percent: Option<f64>,
    /// Watts, when marked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub watts: Option<f64>,
    /// What was assumed to read it so.
    pub assumed: Vec<String>,
}

/// The part to buy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorStandIn {
    /// Which section it belongs to, counted from 1; of several with the same number any one does, the best first.
    pub section: usize,
    /// Value as the trade writes it: "470 kohm", "2 x 240 kohm in series".
    pub value: String,
    /// Ohms; of all together, when there are several in series.
    pub ohm: f64,
    /// How many alike in series make it up.
    pub in_series: u32,
    /// Difference from the old value, percent.
    pub difference_percent: f64,
    /// Rating to buy, watts, of each.
    pub rated_w: f64,
    /// Construction: "metal film", "wire-wound, flameproof".
    pub construction: String,
    /// The most volts it may see, all together; absent where the maker's sheet has to be asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub working_v: Option<f64>,
    /// The bands of the new part; none where the value is printed on it.
    pub bands: Vec<String>,
    /// How to ask for it in a shop: "470 kohm, 1/2 W metal film 1 %, bands yellow violet black orange brown".
    pub shop: String,
}

/// Keep it or replace it, and by what.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The figures that decide.
    pub reasons: Vec<Finding>,
    /// What to do, in order.
    pub changes: Vec<Change>,
    /// What to measure.
    pub measure: Vec<String>,
    /// Everything looked at.
    pub findings: Vec<Finding>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// What was assumed, because it was not given.
    pub assumed: Vec<String>,
    /// Every way the marking can be read.
    pub readings: Vec<ResistorReading>,
    /// The parts that can stand in, the best first.
    pub stand_ins: Vec<ResistorStandIn>,
}

/// What is accepted as a marking.
const ACCEPTED: &str =
    "one value, and where known tolerance and watts: 500k 20%, 50M, .5 meg, 4k7 1W, 2M2J, 470R, 68 ohm 5W";

/// Everything that is known when the sentences are made.
struct Case<'q> {
    question: &'q ResistorQuestion,
    readings: Vec<ResistorMark>,
    /// Whether what is known of the part leaves one reading.
    settled: bool,
    /// The likeliest reading.
    mark: ResistorMark,
    drift: Option<Drift>,
    choice: ResistorChoice,
}

impl Case<'_> {
    /// It reads within its tolerance or low, but in the circuit, where other parts across it make it read low.
    fn masked(&self) -> bool {
        self.question.in_circuit == Some(true) && self.drift.is_some_and(|drift| drift.within() || drift.percent < 0.0)
    }
}

/// Answers `resistor`.
///
/// # Errors
/// `marking` when it cannot be read; `measured_ohm`, `circuit_v`, `circuit_ma`, `watts` when they are no such figures.
pub fn answer(book: &Book, question: &ResistorQuestion) -> Result<ResistorAnswer, ErrorAnswer> {
    match sections::split(question) {
        Some(sections) => sections::answer(book, question, &sections),
        None => answer_one(book, question),
    }
}

/// Answers for one resistor.
fn answer_one(book: &Book, question: &ResistorQuestion) -> Result<ResistorAnswer, ErrorAnswer> {
    within(
        "measured_ohm",
        question.measured_ohm,
        1e-3,
        1e9,
        "ohms from 0.001 to 1000000000; leave it out when it reads open",
    )?;
    within("circuit_v", question.circuit_v, 1e-3, 10e3, "volts from 0.001 to 10000")?;
    within("circuit_ma", question.circuit_ma, 1e-6, 10e3, "milliamps from 0.000001 to 10000")?;
    within("watts", question.watts, 0.05, 1000.0, "watts from 0.05 to 1000")?;
    let refuse = |piece: &str| ErrorAnswer::new("marking", found(&question.marking, piece), ACCEPTED);
    let marks = read_resistor(&question.marking, question.role, question.measured_ohm)
        .map_err(|unreadable| refuse(&unreadable.found))?;
    let Some(mark) = marks.readings.first().copied() else {
        return Err(refuse(&question.marking));
    };
    let place = ResistorPlace {
        role: question.role,
        circuit_v: question.circuit_v,
        circuit_ma: question.circuit_ma,
        old_w: question.watts,
    };
    let case = Case {
        question,
        settled: marks.settled,
        readings: marks.readings,
        mark,
        drift: question.measured_ohm.map(|measured| drift(&mark, measured)),
        choice: choose_resistor(&mark, place, &book.on_sale()),
    };
    Ok(ResistorAnswer {
        verdict: verdict::verdict(&case),
        reasons: findings::reasons(&case),
        changes: findings::changes(&case),
        measure: findings::measure(&case),
        findings: findings::findings(&case),
        cautions: findings::cautions(&case),
        assumed: assumed(&case),
        readings: case.readings.iter().map(reading).collect(),
        stand_ins: case.choice.parts.iter().map(|part| stand_in(part, &case)).collect(),
    })
}

/// One reading as the contract has it.
fn reading(mark: &ResistorMark) -> ResistorReading {
    ResistorReading {
        says: says(mark),
        ohm: mark.ohm,
        tolerance_percent: Some(mark.tolerance.unwrap_or(Tolerance::RESISTOR).above_percent),
        watts: mark.watts,
        assumed: mark.assumed.map(assumed_says).into_iter().collect(),
    }
}

/// "500 kohm, 20 %, 1 W".
fn says(mark: &ResistorMark) -> String {
    let mut parts = vec![ohm(mark.ohm)];
    parts.extend(mark.tolerance.map(|tolerance| format!("{} %", significant(tolerance.above_percent, 3))));
    parts.extend(mark.watts.map(watt_rating));
    parts.join(", ")
}

fn assumed_says(assumed: Assumed) -> String {
    match assumed {
        Assumed::MIsThousand => "M is a thousand, as on drawings of the United States to about 1950.".to_owned(),
        Assumed::MIsMillion => "M is a million, as elsewhere and later.".to_owned(),
        // The others belong to capacitors.
        _ => String::new(),
    }
}

/// The part to buy as the contract has it.
fn stand_in(part: &ResistorPart, case: &Case<'_>) -> ResistorStandIn {
    let each = part.ohm / f64::from(part.in_series);
    let construction = construction(part, case);
    let (percent, bands) = match part.body.construction {
        Construction::MetalFilm => (" 1 %", resistor_bands(each, 1.0)),
        Construction::MetalOxide => (" 5 %", resistor_bands(each, 5.0)),
        Construction::WireWound => ("", None),
    };
    let bands: Vec<String> = bands.unwrap_or_default().iter().map(|colour| colour.name().to_owned()).collect();
    let drawn = if bands.is_empty() { String::new() } else { format!(", bands {}", bands.join(" ")) };
    ResistorStandIn {
        section: 1,
        shop: format!("{}, {} {construction}{percent}{drawn}", ohm(each), watt_rating(part.body.watts)),
        bands,
        value: part_value(part),
        ohm: part.ohm,
        in_series: part.in_series,
        difference_percent: ((part.ohm - case.mark.ohm) / case.mark.ohm * 1e4).round() / 100.0,
        rated_w: part.body.watts,
        construction,
        working_v: part.body.limit_v.map(|_| part.working_v.round()),
    }
}

/// "470 kohm", "2 x 240 kohm in series".
fn part_value(part: &ResistorPart) -> String {
    if part.in_series > 1 {
        format!("{} x {} in series", part.in_series, ohm(part.ohm / f64::from(part.in_series)))
    } else {
        ohm(part.ohm)
    }
}

/// "metal film", "wire-wound, flameproof".
fn construction(part: &ResistorPart, case: &Case<'_>) -> String {
    let role = if case.mark.fusible { Some(ResistorRole::Surge) } else { case.question.role };
    match (part.body.construction, role) {
        (Construction::WireWound, Some(ResistorRole::Surge)) => "wire-wound, flameproof or fusible",
        (Construction::WireWound, _) => "wire-wound",
        (Construction::MetalOxide, Some(ResistorRole::Surge)) => "metal oxide, flameproof or fusible",
        (Construction::MetalOxide, _) => "metal oxide, flameproof",
        (Construction::MetalFilm, Some(ResistorRole::BusToChassis)) => "metal film, or one high-voltage resistor",
        (Construction::MetalFilm, _) => "metal film",
    }
    .to_owned()
}

/// What the whole answer assumes.
fn assumed(case: &Case<'_>) -> Vec<String> {
    let mut assumed: Vec<String> = case.mark.assumed.map(assumed_says).into_iter().collect();
    if case.mark.tolerance.is_none() {
        assumed.push("No tolerance marked: 20 % is customary for a composition resistor.".to_owned());
    }
    match case.choice.heat.map(|heat| heat.from) {
        Some(HeatFrom::HighValue) => {
            assumed.push(format!("No more than {} across it; if it can have more, say so.", volt(MOST_PLACE_V)));
        }
        Some(HeatFrom::Pulses) => assumed.push(
            "The current comes in pulses: 2.4 times the direct current rms (computed for 40 uF and about 60 ohm)."
                .to_owned(),
        ),
        _ => {}
    }
    if let (Some(line_v), None) = (case.choice.line_v, case.question.circuit_v) {
        assumed.push(format!("The line is not given: figured for {}, the harsher of the usual ones.", volt(line_v)));
    }
    if case.drift.is_some() && case.question.in_circuit != Some(true) {
        assumed.push("It was measured with one end lifted.".to_owned());
    }
    assumed
}
