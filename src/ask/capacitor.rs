//! `capacitor`: what replaces this capacitor?
//!
//! The figures come from [`crate::passive`]; here they become sentences.

mod cautions;
mod findings;
mod judged;
mod readings;
#[cfg(test)]
mod tests;
mod verdict;

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::Book;
use crate::finding::{Caution, Change, Finding, Verdict};
use crate::passive::{
    CapacitorHint, CapacitorMark, CapacitorPart, CapacitorPlace, Choice, Dielectric, Line, NoPart, SafetyClass,
    choose_capacitor, kind_of, part_code, read_capacitor,
};
pub use crate::passive::{CapacitorKind, CapacitorRole, Joined};
use crate::quantity::{farad, plain_figure, significant, volt};

/// One capacitor to replace.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorQuestion {
    /// What is written on it: `.02 mfd 400v`, `16-450`, `103`.
    pub marking: String,
    /// What it is made of, when known.
    #[cfg_attr(test, ts(optional))]
    pub kind: Option<CapacitorKind>,
    /// What it does, when known.
    #[cfg_attr(test, ts(optional))]
    pub role: Option<CapacitorRole>,
    /// The highest DC volts the place can put on it at cold start, when known.
    #[cfg_attr(test, ts(optional))]
    pub circuit_v: Option<f64>,
    /// Line volts rms, for parts at the line.
    #[cfg_attr(test, ts(optional))]
    pub line_v: Option<f64>,
    /// Line frequency in hertz, for parts at the line.
    #[cfg_attr(test, ts(optional))]
    pub line_hz: Option<f64>,
    /// What a meter reads: picofarads, or text with the unit, as in "22 n" or "0.02 uF".
    #[cfg_attr(test, ts(optional, type = "number | string"))]
    pub measured_pf: Option<f64>,
    /// It was measured with both ends connected and the tube in.
    #[cfg_attr(test, ts(optional))]
    pub in_circuit: Option<bool>,
    /// Positive DC volts it causes at the next grid, with that tube out; 0 for none.
    #[cfg_attr(test, ts(optional))]
    pub grid_v: Option<f64>,
    /// The resistor from that grid to ground, ohms.
    #[cfg_attr(test, ts(optional))]
    pub grid_ohm: Option<f64>,
    /// Equivalent series resistance of an electrolytic, ohms.
    #[cfg_attr(test, ts(optional))]
    pub esr_ohm: Option<f64>,
    /// Direct current of the supply it filters, milliamps.
    #[cfg_attr(test, ts(optional))]
    pub load_ma: Option<f64>,
    /// The rectifier tube before a first filter.
    #[cfg_attr(test, ts(optional))]
    pub rectifier: Option<String>,
}

impl CapacitorQuestion {
    /// The question about a marking of which nothing else is known.
    pub fn of(marking: &str) -> Self {
        Self { marking: marking.to_owned(), ..Self::default() }
    }
}

impl From<&Fields<'_>> for CapacitorQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            marking: fields.text("marking"),
            kind: fields.word("kind"),
            role: fields.word("role"),
            circuit_v: fields.number("circuit_v"),
            line_v: fields.number("line_v"),
            line_hz: fields.number("line_hz"),
            measured_pf: fields.picofarads("measured_pf"),
            in_circuit: fields.flag("in_circuit"),
            grid_v: fields.number("grid_v"),
            grid_ohm: fields.number("grid_ohm"),
            esr_ohm: fields.number("esr_ohm"),
            load_ma: fields.number("load_ma"),
            rectifier: fields.get_text("rectifier").map(str::to_owned),
        }
    }
}

/// One way the marking can be read; the likeliest first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorReading {
    /// As the trade writes it: "0.02 uF (20 nF), 400 V".
    pub says: String,
    /// Farads of each section.
    pub sections_f: Vec<f64>,
    /// Rated volts of each section, when marked.
    pub rated_v: Vec<f64>,
    /// Tolerance in percent below and above, when marked or customary.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub tolerance_percent: Option<(f64, f64)>,
    /// What was assumed to read it so.
    pub assumed: Vec<String>,
}

/// The part to buy for one section.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorStandIn {
    /// Which section of the reading it belongs to, counted from 1.
    pub section: usize,
    /// How it is joined to the other part of the same section, when one part will not do.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub joined: Option<Joined>,
    /// Value as the trade writes it: "0.022 uF (22 nF)".
    pub value: String,
    /// Farads.
    pub farad: f64,
    /// Difference from the old value, percent; of both together, when two are joined.
    pub difference_percent: f64,
    /// Rated volts to ask for: "630 V DC", "250 V AC".
    pub rating: String,
    /// Rated volts as a number.
    pub rated_v: f64,
    /// Dielectric or construction: "polypropylene film", "aluminium electrolytic, 105 C".
    pub dielectric: String,
    /// Safety class of IEC 60384-14, where the place asks for one: "Y2".
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub safety_class: Option<String>,
    /// The code printed on the new part: "223", "22n".
    pub marked: String,
    /// How to ask for it in a shop: "film 0.047 uF (47 nF), 630 V DC, marked 473J 630V or 47n".
    pub shop: String,
    /// The same as `dielectric`, for the other asks.
    #[serde(skip)]
    #[cfg_attr(test, ts(skip))]
    pub(super) made: Dielectric,
}

/// What to buy, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CapacitorAnswer {
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
    pub readings: Vec<CapacitorReading>,
    /// The part for each section of the likeliest reading.
    pub stand_ins: Vec<CapacitorStandIn>,
    /// Touch current through the part offered, milliamps, for a part from line to chassis.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub touch_ma: Option<f64>,
}

/// The word of the verdict that leaves a good part in.
pub(super) const LEAVE: &str = "Leave a good one in.";

/// What is accepted as a marking.
const ACCEPTED: &str =
    "a value with its unit or as printed, and the volts: .02 mfd 400v, 16-450, 20-20/150, 103, 4n7K, 250 mmf";

/// How the readings of a marking differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Doubt {
    /// In the value; a meter tells.
    Value,
    /// In how many sections there are; the leads tell.
    Sections,
}

/// Everything that is known when the sentences are made.
struct Case<'q> {
    question: &'q CapacitorQuestion,
    /// The role, or what a safety mark or AC volts say it must be.
    role: Option<CapacitorRole>,
    /// The role was not given, and the marking says it belongs at the line.
    role_by_mark: bool,
    kind: CapacitorKind,
    kind_guessed: bool,
    line: Option<Line>,
    readings: Vec<CapacitorMark>,
    /// The choice for each section of the likeliest reading.
    choices: Vec<Result<Choice, NoPart>>,
    /// What was measured says of the old part.
    judged: Option<judged::Judged>,
    /// Why a first filter is bounded so.
    most_says: Option<String>,
    /// The volts of the place, given or the crest of the line after its rectifier.
    circuit_v: Option<f64>,
}

impl Case<'_> {
    /// Choices that came to a part.
    fn chosen(&self) -> impl Iterator<Item = &Choice> {
        self.choices.iter().filter_map(|choice| choice.as_ref().ok())
    }

    /// How the readings differ in what they say the part is.
    fn doubt(&self) -> Option<Doubt> {
        let differ = |of: fn(&CapacitorMark) -> Option<f64>| {
            self.readings.windows(2).any(|pair| pair.first().map(of) != pair.last().map(of))
        };
        if differ(|mark| mark.sections.first().map(|section| section.farad)) {
            return Some(Doubt::Value);
        }
        // A cathode bypass is a single one, so its second figure is the volts.
        let sections = differ(|mark| Some(mark.sections.len() as f64));
        (sections && self.role != Some(CapacitorRole::CathodeBypass)).then_some(Doubt::Sections)
    }

    /// What was measured lets it stay: never at the line, where its class counts and not its health.
    fn stays(&self) -> bool {
        self.judged.as_ref().is_some_and(|judged| judged.keep) && !self.at_line() && !self.may_be_at_line()
    }

    /// Whether it sits at the line.
    fn at_line(&self) -> bool {
        self.role.is_some_and(CapacitorRole::at_line)
    }

    /// A DC place of unknown role where a wrong guess would put a DC part at the line.
    fn may_be_at_line(&self) -> bool {
        self.role.is_none() && self.kind != CapacitorKind::Electrolytic
    }
}

/// Answers `capacitor`.
///
/// # Errors
/// `marking` when it cannot be read; `circuit_v`, `line_v`, `line_hz` when they are no such figures.
pub fn answer(book: &Book, question: &CapacitorQuestion) -> Result<CapacitorAnswer, ErrorAnswer> {
    within("circuit_v", question.circuit_v, 0.1, 10e3, "volts from 0.1 to 10000")?;
    within("line_v", question.line_v, 90.0, 270.0, "volts rms from 90 to 270")?;
    within("line_hz", question.line_hz, 15.0, 440.0, "hertz from 15 to 440")?;
    within(
        "measured_pf",
        question.measured_pf,
        0.01,
        1e12,
        "picofarads from 0.01 to 1000000000000; leave it out when it reads open",
    )?;
    within("grid_v", question.grid_v, 0.0, 1000.0, "positive volts from 0 to 1000")?;
    within("grid_ohm", question.grid_ohm, 1000.0, 1e9, "ohms from 1000 to 1000000000")?;
    within("esr_ohm", question.esr_ohm, 0.0, 1e6, "ohms from 0 to 1000000")?;
    within("load_ma", question.load_ma, 0.1, 2000.0, "milliamps from 0.1 to 2000")?;
    let hint = CapacitorHint { kind: question.kind, role: question.role };
    let readings = read_capacitor(&question.marking, hint).map_err(|unreadable| {
        let found = found(&question.marking, &unreadable.found);
        ErrorAnswer::new("marking", found, ACCEPTED)
    })?;
    let Some(mark) = readings.first() else {
        return Err(ErrorAnswer::new("marking", found(&question.marking, &question.marking), ACCEPTED));
    };
    if mark.sections.len() > 1 && (question.measured_pf.is_some() || question.esr_ohm.is_some()) {
        let accepted = "one section at a time: ask for each alone with what it measures";
        return Err(ErrorAnswer::new("marking", format!("{} sections", mark.sections.len()), accepted));
    }
    let (role, role_by_mark) = role(question.role, mark);
    let (kind, kind_guessed) = kind_of(mark, hint);
    let line =
        question.line_v.map(|volt| Line { volt, hertz: question.line_hz.unwrap_or_else(|| Line::usual_hertz(volt)) });
    let after = judged::rectifier(book, question, mark.sections.first().map_or(0.0, |section| section.farad * 1e6))?;
    let (first_filter_most, most_says) = after.most.unzip();
    let circuit_v = question.circuit_v.or(after.cold_v);
    let place = CapacitorPlace { role, circuit_v, line, first_filter_most };
    let choices = choose_capacitor(mark, kind, place, &book.on_sale());
    let judged = judged::judge(question, mark, kind);
    let case = Case {
        question,
        role,
        role_by_mark,
        kind,
        kind_guessed,
        line,
        readings,
        choices,
        judged,
        most_says,
        circuit_v,
    };
    Ok(CapacitorAnswer {
        verdict: verdict::verdict(&case),
        reasons: findings::reasons(&case),
        changes: findings::changes(&case),
        measure: findings::measure(&case),
        findings: findings::findings(&case),
        cautions: cautions::cautions(&case),
        assumed: readings::assumed(&case),
        readings: case.readings.iter().map(|mark| readings::reading(mark, hint)).collect(),
        stand_ins: stand_ins(&case),
        touch_ma: case.chosen().find_map(|choice| choice.barrier).map(|barrier| barrier.line.touch_ma(barrier.farad)),
    })
}

/// The role given; else what the marking itself says of a part made for the line. Of the two places at the line the stricter
/// is taken when only AC volts tell.
fn role(given: Option<CapacitorRole>, mark: &CapacitorMark) -> (Option<CapacitorRole>, bool) {
    match (given, mark.class) {
        (Some(role), _) => (Some(role), false),
        (None, Some(class)) if !SafetyClass::is_y(class) => (Some(CapacitorRole::AcrossLine), true),
        (None, Some(_)) => (Some(CapacitorRole::LineToChassis), true),
        (None, None) if mark.ac => (Some(CapacitorRole::LineToChassis), true),
        (None, None) => (None, false),
    }
}

/// What was found in a marking that cannot be read; empty for no marking at all.
pub(super) fn found(marking: &str, piece: &str) -> String {
    let marking = marking.trim();
    if marking.is_empty() {
        String::new()
    } else if piece == marking || marking.len() > 60 {
        format!("`{piece}`")
    } else {
        format!("`{piece}` in `{marking}`")
    }
}

/// Refuses a figure that is none or is out of range.
pub(super) fn within(
    field: &str,
    figure: Option<f64>,
    least: f64,
    most: f64,
    accepted: &str,
) -> Result<(), ErrorAnswer> {
    match figure {
        Some(figure) if !(least..=most).contains(&figure) => {
            Err(ErrorAnswer::new(field, plain_figure(figure), accepted))
        }
        _ => Ok(()),
    }
}

/// The parts to buy.
fn stand_ins(case: &Case<'_>) -> Vec<CapacitorStandIn> {
    let mut stand_ins = Vec::new();
    for (index, choice) in case.choices.iter().enumerate() {
        let Ok(choice) = choice else { continue };
        stand_ins.extend(choice.parts.iter().map(|part| CapacitorStandIn {
            section: index + 1,
            joined: part.joined,
            value: farad(part.farad),
            farad: part.farad,
            difference_percent: (choice.difference_percent() * 100.0).round() / 100.0,
            rating: rating(part),
            rated_v: part.rated_v,
            dielectric: dielectric(part.dielectric),
            safety_class: part.class.map(|class| class.name().to_owned()),
            marked: part_code(part.farad, part.dielectric == Dielectric::Electrolytic),
            shop: shop(part),
            made: part.dielectric,
        }));
    }
    stand_ins
}

/// How to ask for it: what it is, value, rating, and what is printed on it.
fn shop(part: &CapacitorPart) -> String {
    let what = match part.dielectric {
        Dielectric::Film => "film",
        Dielectric::Electrolytic => "electrolytic, 105 C,",
        Dielectric::Mica => "silvered mica or C0G",
        Dielectric::Class1(_) => "class 1 ceramic",
        Dielectric::Class2 => "ceramic disc",
        Dielectric::SafetyFilm | Dielectric::SafetyBarrier => "suppression capacitor",
    };
    let temperature = match part.dielectric {
        Dielectric::Class1(code) => code.class1_name().map(|name| format!(" {name}")).unwrap_or_default(),
        _ => String::new(),
    };
    let class = part.class.map(|class| format!(" class {}", class.name())).unwrap_or_default();
    let marked = match (part.dielectric, part_code(part.farad, false).split_once(" or ")) {
        (Dielectric::Film, Some((code, lettered))) => {
            format!(", marked {code}J {0}V or {code}K {0}V or {lettered}", significant(part.rated_v, 4))
        }
        (Dielectric::Electrolytic, _) | (_, None) => String::new(),
        (_, Some((code, lettered))) => format!(", marked {code} or {lettered}"),
    };
    format!("{what}{temperature}{class} {}, {}{marked}", farad(part.farad), rating(part))
}

/// "630 V DC", "250 V AC".
fn rating(part: &CapacitorPart) -> String {
    format!("{} {}", volt(part.rated_v), if part.class.is_some() { "AC" } else { "DC" })
}

/// What the new part is made of, in words.
fn dielectric(dielectric: Dielectric) -> String {
    match dielectric {
        Dielectric::Film => "polypropylene or polyester film".to_owned(),
        Dielectric::Electrolytic => "aluminium electrolytic, 105 C".to_owned(),
        Dielectric::Mica => "silvered mica, or C0G (NP0) ceramic".to_owned(),
        Dielectric::Class1(code) => match code.class1_name() {
            Some(name) => format!("{name} ceramic, the same drift as the old one"),
            None => "class 1 ceramic".to_owned(),
        },
        Dielectric::Class2 => "ceramic disc (X7R or Y5P)".to_owned(),
        Dielectric::SafetyFilm => "polypropylene film made for the line".to_owned(),
        Dielectric::SafetyBarrier => "ceramic or film made for line to chassis".to_owned(),
    }
}
