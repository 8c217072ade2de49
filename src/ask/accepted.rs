//! Reads a question and says, of each field, what is accepted there: one table for checking, for the words of the error, and for
//! the ranges. What passes the table is then taken over field by field, and needs no further check.

use serde_json::{Map, Value};

use super::colour_code::CODES;
use super::{ErrorAnswer, Question};
use crate::book::{Base, Function};
use crate::quantity::plain_figure;

mod mended;

pub(super) use mended::mended_sheet;

/// The longest question read, in bytes. A pasted parts list is a few kilobytes.
const LONGEST_QUESTION: usize = 1 << 20;
/// The most entries of a list in a question.
const LONGEST_LIST: usize = 500;

/// What a field may hold.
enum Is {
    /// Text, with what it should say.
    Text(&'static str),
    /// Text of any length, with what it should say.
    Long(&'static str),
    /// A number from least to most, with its unit.
    Number(f64, f64, &'static str),
    /// A whole number from least to most.
    Whole(u64, u64),
    /// True or false.
    Flag,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// A list of texts.
    Texts(&'static str),
    /// A list of pin numbers.
    Pins,
    /// A record of fields.
    Record(&'static [Field]),
    /// A record of fields of which any may be left out.
    Draft(&'static [Field]),
    /// A list of records.
    Records(&'static [Field]),
    /// A record whose `kind` says which fields it has.
    Kinds(&'static [(&'static str, &'static [Field])]),
}

struct Field {
    name: &'static str,
    needed: bool,
    is: Is,
}

const fn needed(name: &'static str, is: Is) -> Field {
    Field { name, needed: true, is }
}

const fn maybe(name: &'static str, is: Is) -> Field {
    Field { name, needed: false, is }
}

const TYPE: Is = Is::Text("a tube designation, such as 12SK7");
const LINE_V: Is = Is::Number(20.0, 300.0, "volts rms");
const LINE_HZ: Is = Is::Number(16.0, 400.0, "hertz");
const CIRCUIT_V: Is = Is::Number(0.1, 5000.0, "volts");
const GRADES: Is = Is::OneOf(&["same", "as_is", "as_is_different", "after_changes", "no", "unknown"]);

const SUPPLY: Is = Is::Kinds(&[
    (
        "series",
        &[
            maybe("amps", Is::Number(0.02, 3.0, "amperes")),
            maybe("line_v", LINE_V),
            maybe("others", Is::Texts("tube designations")),
            maybe("chassis_side", Is::Whole(0, 200)),
            maybe("dropper_ohm", Is::Number(0.0, 100_000.0, "ohm")),
        ],
    ),
    (
        "parallel",
        &[maybe("volts", Is::Number(0.5, 150.0, "volts")), maybe("spare_amps", Is::Number(0.0, 30.0, "amperes"))],
    ),
    ("battery", &[]),
]);

const SOCKET: Is = Is::Record(&[
    maybe("supply", SUPPLY),
    maybe("plate_v", CIRCUIT_V),
    maybe("screen_v", CIRCUIT_V),
    maybe("plate_ma", Is::Number(0.001, 2000.0, "milliamps")),
    maybe("tie_points", Is::Pins),
    maybe("agc", Is::Flag),
    maybe("cathode_ohm", Is::Number(1.0, 100_000.0, "ohm")),
    maybe("load_kohm", Is::Number(0.1, 10_000.0, "kilohms")),
    maybe("b_plus_v", CIRCUIT_V),
    maybe("tuned_khz", Is::Number(10.0, 1e6, "kilohertz")),
    maybe("tuned_pf", Is::Number(1.0, 5000.0, "picofarads")),
    maybe("load_ma", Is::Number(1.0, 500.0, "milliamps")),
    maybe("first_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
]);

/// The fields of a supply.
const RECTIFIER: &[Field] = &[
    maybe("line_v", LINE_V),
    maybe("line_hz", LINE_HZ),
    maybe("topology", Is::OneOf(&["centre_tap", "bridge", "full_wave_doubler", "half_wave_doubler", "half_wave"])),
    maybe("secondary_v", Is::Number(10.0, 1200.0, "volts rms, from end to tap where there is one")),
    maybe("secondary_ohm", Is::Number(0.1, 5000.0, "ohm")),
    maybe("primary_ohm", Is::Number(0.1, 1000.0, "ohm")),
    maybe(
        "original",
        Is::Kinds(&[
            ("selenium", &[maybe("plates", Is::Number(1.0, 40.0, "plates"))]),
            (
                "tube",
                &[
                    needed("type", TYPE),
                    maybe("drop_v", Is::Number(1.0, 300.0, "volts")),
                    maybe("drop_ma", Is::Number(1.0, 5000.0, "milliamps")),
                ],
            ),
            ("silicon", &[]),
        ]),
    ),
    maybe("replacement", TYPE),
    maybe("target_v", Is::Number(10.0, 1500.0, "volts")),
    needed("first_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("doubler_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("filter_ohm", Is::Number(1.0, 100_000.0, "ohm")),
    maybe("filter_henry", Is::Number(0.1, 200.0, "henries")),
    maybe("second_filter_uf", Is::Number(0.5, 1000.0, "microfarads")),
    maybe("after_filter_ma", Is::Number(0.1, 500.0, "milliamps")),
    maybe("load_ma", Is::Number(1.0, 500.0, "milliamps")),
    maybe("load_ohm", Is::Number(100.0, 1e6, "ohm")),
    maybe("load_tubes", Is::Texts("tube designations")),
    maybe("fitted_ohm", Is::Number(0.0, 2000.0, "ohm")),
    maybe("filter_rated_v", Is::Number(10.0, 1000.0, "volts")),
    maybe("measured_v", Is::Number(1.0, 1500.0, "volts")),
    maybe("measured_ripple_v", Is::Number(0.01, 300.0, "volts on the AC range")),
    maybe("filament_tubes", Is::Texts("tube designations, in series on B+")),
    maybe("filament_ohm", Is::Number(0.0, 100_000.0, "ohm")),
];

/// The fields of a job sheet.
const SHEET: &[Field] = &[
    needed("name", Is::Text("what the set is called")),
    maybe("note", Is::Text("anything to remember")),
    maybe("heaters", Is::OneOf(&["series", "parallel", "battery"])),
    maybe("line_v", LINE_V),
    maybe("line_hz", Is::Number(0.0, 400.0, "hertz, 0 for DC")),
    maybe("designed_v", LINE_V),
    maybe("winding_v", Is::Number(0.5, 150.0, "volts")),
    maybe("winding_a", Is::Number(0.01, 100.0, "amperes")),
    needed("tubes", Is::Records(SHEET_TUBE)),
    maybe("rectifier", Is::Draft(RECTIFIER)),
    needed("parts", Is::Records(SHEET_PART)),
    maybe("readings", Is::Records(SHEET_READING)),
];

const SHEET_TUBE: &[Field] = &[
    needed("type", Is::Text("a tube designation or an item of the heater string, such as 12SK7 or cord 180 ohm")),
    maybe("place", Is::Text("where it sits, such as V1")),
    maybe("state", Is::OneOf(&["good", "weak", "dead", "missing"])),
    maybe("fitted", TYPE),
    maybe("note", Is::Text("anything to remember")),
];

const SHEET_PART: &[Field] = &[
    maybe("reference", Is::Text("its reference, such as C4")),
    needed("marking", Is::Text("what is written on the part, such as .02 mfd 400v")),
    maybe(
        "role",
        Is::OneOf(&[
            "coupling",
            "bypass",
            "cathode_bypass",
            "tone",
            "tuned",
            "first_filter",
            "second_filter",
            "across_line",
            "line_to_chassis",
            "bus_to_chassis",
            "aerial_isolation",
            "agc",
            "buffer",
            "plate_load",
            "screen_feed",
            "grid_leak",
            "cathode",
            "filter",
            "surge",
            "heater_dropper",
        ]),
    ),
    maybe("measured", Is::Text("what a meter reads, such as 560k or 31 nF")),
    maybe("note", Is::Text("anything to remember")),
    maybe("done", Is::Flag),
];

const SHEET_READING: &[Field] = &[
    needed("key", Is::Text("the `key` of a step of the bring-up")),
    needed("value", Is::Number(-2000.0, 100_000.0, "the unit of that step")),
];

const SHEETS: Is = Is::Records(SHEET);

/// Every question with its fields.
const QUESTIONS: &[(&str, &[Field])] = &[
    ("tube", &[needed("type", TYPE)]),
    ("row", &[needed("type", TYPE)]),
    ("own", &[maybe("find", Is::Text("part of a type or name")), maybe("limit", Is::Whole(1, 1000))]),
    (
        "search",
        &[
            maybe("text", Is::Text("part of a number, `?` for a worn-off character, such as 6?5GT")),
            maybe("base", Is::OneOf(Base::WORDS)),
            maybe("pins", Is::Whole(4, 12)),
            maybe("top_cap", Is::Flag),
            maybe("heater_v", Is::Number(0.1, 150.0, "volts")),
            maybe("heater_a", Is::Number(0.005, 30.0, "amperes")),
            maybe("function", Is::OneOf(Function::WORDS)),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    ("swap", &[needed("original", TYPE), needed("candidate", TYPE), maybe("socket", SOCKET)]),
    (
        "candidates",
        &[
            needed("original", TYPE),
            maybe("socket", SOCKET),
            maybe("least_grade", GRADES),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    (
        "serves",
        &[
            needed("candidate", TYPE),
            maybe("wanted", Is::Texts("tube designations")),
            maybe("socket", SOCKET),
            maybe("least_grade", GRADES),
            maybe("limit", Is::Whole(1, 1000)),
        ],
    ),
    (
        "line_up",
        &[
            maybe("tubes", Is::Texts("tube designations")),
            maybe("note", Is::Text("what is written, with the types in it")),
            maybe("supply", SUPPLY),
        ],
    ),
    (
        "heater_string",
        &[
            maybe("line_v", LINE_V),
            maybe("line_hz", Is::Number(0.0, 400.0, "hertz, 0 for DC")),
            needed("tubes", Is::Texts("tube designations, in the order they are wired")),
            maybe("designed_v", LINE_V),
            maybe("winding_v", Is::Number(0.5, 150.0, "volts")),
            maybe("winding_a", Is::Number(0.01, 100.0, "amperes")),
            maybe("dropper_ohm", Is::Number(0.0, 100_000.0, "ohm")),
        ],
    ),
    ("rectifier", RECTIFIER),
    (
        "capacitor",
        &[
            needed("marking", Is::Text("what is written on the part, such as .02 mfd 400v")),
            maybe("kind", Is::OneOf(&["paper", "film", "electrolytic", "mica", "ceramic"])),
            maybe(
                "role",
                Is::OneOf(&[
                    "coupling",
                    "bypass",
                    "cathode_bypass",
                    "tone",
                    "tuned",
                    "first_filter",
                    "second_filter",
                    "across_line",
                    "line_to_chassis",
                    "bus_to_chassis",
                    "aerial_isolation",
                    "agc",
                    "buffer",
                ]),
            ),
            maybe("circuit_v", CIRCUIT_V),
            maybe("line_v", LINE_V),
            maybe("line_hz", LINE_HZ),
            maybe("measured_pf", Is::Number(0.01, 1e12, "picofarads")),
            maybe("in_circuit", Is::Flag),
            maybe("grid_v", Is::Number(0.0, 1000.0, "volts positive at the grid")),
            maybe("grid_ohm", Is::Number(1000.0, 1e9, "ohm")),
            maybe("esr_ohm", Is::Number(0.0, 1e6, "ohm")),
            maybe("load_ma", Is::Number(0.1, 2000.0, "milliamps")),
            maybe("rectifier", Is::Text("the rectifier tube, such as 35W4")),
        ],
    ),
    (
        "resistor",
        &[
            needed("marking", Is::Text("what is written on the part, such as 500k 20%")),
            maybe("measured_ohm", Is::Number(0.0, 1e9, "ohm")),
            maybe("in_circuit", Is::Flag),
            maybe(
                "role",
                Is::OneOf(&[
                    "plate_load",
                    "screen_feed",
                    "grid_leak",
                    "cathode",
                    "filter",
                    "surge",
                    "heater_dropper",
                    "bus_to_chassis",
                ]),
            ),
            maybe("circuit_v", CIRCUIT_V),
            maybe("circuit_ma", Is::Number(0.0001, 5000.0, "milliamps")),
            maybe("watts", Is::Number(0.05, 200.0, "watts")),
        ],
    ),
    (
        "colour_code",
        &[
            needed("code", Is::OneOf(&CODES)),
            needed("colours", Is::Texts("colours, such as red; none for a missing mark")),
            maybe("wide_first", Is::Flag),
            maybe("measured_ohm", Is::Number(0.0, 1e9, "ohm")),
            maybe("measured_pf", Is::Number(0.0, 1e12, "picofarads")),
        ],
    ),
    (
        "parts_list",
        &[
            needed("lines", Is::Texts("lines of a parts list, such as C4 .02 mfd 400v")),
            maybe("line_v", LINE_V),
            maybe("line_hz", LINE_HZ),
        ],
    ),
    ("sheet", &[needed("sheet", Is::Record(SHEET))]),
    ("sheet_lines", &[needed("text", Is::Long("a list of tubes and parts"))]),
    ("sheet_file", &[maybe("text", Is::Long("the text of a file of sheets")), maybe("sheets", SHEETS)]),
    ("wants", &[needed("sheets", SHEETS)]),
    ("on_the_table", &[needed("text", Is::Long("tube designations")), needed("sheets", SHEETS)]),
    ("shopping", &[needed("sheets", SHEETS)]),
    (
        "stock",
        &[maybe("find", Is::Text("part of a marking, type, place or note")), maybe("limit", Is::Whole(1, 10_000))],
    ),
];

/// Reads a question from JSON text.
pub fn read(question: &str) -> Result<Question, ErrorAnswer> {
    let kinds = || QUESTIONS.iter().map(|row| row.0).collect::<Vec<_>>().join(" | ");
    if question.len() > LONGEST_QUESTION {
        let found = format!("{} bytes", question.len());
        return Err(ErrorAnswer::new("", found, format!("a question of at most {LONGEST_QUESTION} bytes")));
    }
    let value: Value = serde_json::from_str(question)
        .map_err(|error| ErrorAnswer::new("", format!("no JSON ({error})"), "one JSON object with the field `ask`"))?;
    let Value::Object(fields) = &value else {
        return Err(ErrorAnswer::new("", found(&value), "one JSON object with the field `ask`"));
    };
    let kind = match fields.get("ask") {
        None => return Err(ErrorAnswer::new("ask", "", kinds())),
        Some(Value::String(kind)) => kind.as_str(),
        Some(other) => return Err(ErrorAnswer::new("ask", found(other), kinds())),
    };
    let Some((_, accepted)) = QUESTIONS.iter().find(|row| row.0 == kind) else {
        return Err(ErrorAnswer::new("ask", format!("\"{}\"", shortened(kind)), kinds()));
    };
    check_fields("", fields, accepted, &["ask"])?;
    let fields = &Fields(fields);
    Ok(match kind {
        "tube" => Question::Tube(fields.into()),
        "row" => Question::Row(fields.into()),
        "own" => Question::Own(fields.into()),
        "search" => Question::Search(fields.into()),
        "swap" => Question::Swap(fields.into()),
        "candidates" => Question::Candidates(fields.into()),
        "serves" => Question::Serves(fields.into()),
        "line_up" => Question::LineUp(fields.into()),
        "heater_string" => Question::HeaterString(fields.into()),
        "rectifier" => Question::Rectifier(Box::new(fields.into())),
        "capacitor" => Question::Capacitor(fields.into()),
        "resistor" => Question::Resistor(fields.into()),
        "colour_code" => Question::ColourCode(fields.into()),
        "parts_list" => Question::PartsList(fields.into()),
        "sheet" => Question::Sheet(Box::new(fields.into())),
        "sheet_lines" => Question::SheetLines(fields.into()),
        "sheet_file" => Question::SheetFile(fields.into()),
        "wants" => Question::Wants(fields.into()),
        "on_the_table" => Question::OnTheTable(fields.into()),
        "shopping" => Question::Shopping(fields.into()),
        _ => Question::Stock(fields.into()),
    })
}

/// A record that the table has let through: its fields are there when they are needed, and hold what they should.
pub(super) struct Fields<'v>(&'v Map<String, Value>);

impl<'v> Fields<'v> {
    pub(super) fn new(fields: &'v Map<String, Value>) -> Self {
        Self(fields)
    }

    pub(super) fn get_text(&self, name: &str) -> Option<&str> {
        self.0.get(name)?.as_str()
    }

    pub(super) fn text(&self, name: &str) -> String {
        self.get_text(name).unwrap_or_default().to_owned()
    }

    pub(super) fn number(&self, name: &str) -> Option<f64> {
        self.0.get(name)?.as_f64()
    }

    pub(super) fn whole(&self, name: &str) -> Option<u32> {
        u32::try_from(self.0.get(name)?.as_u64()?).ok()
    }

    pub(super) fn flag(&self, name: &str) -> Option<bool> {
        self.0.get(name)?.as_bool()
    }

    pub(super) fn texts(&self, name: &str) -> Option<Vec<String>> {
        let all = self.0.get(name)?.as_array()?;
        Some(all.iter().filter_map(|item| item.as_str().map(str::to_owned)).collect())
    }

    pub(super) fn pins(&self, name: &str) -> Option<Vec<u8>> {
        let all = self.0.get(name)?.as_array()?;
        Some(all.iter().filter_map(|item| u8::try_from(item.as_u64()?).ok()).collect())
    }

    pub(super) fn record(&self, name: &str) -> Option<Fields<'_>> {
        self.0.get(name)?.as_object().map(Fields)
    }

    /// The records of a list.
    pub(super) fn records(&self, name: &str) -> impl Iterator<Item = Fields<'_>> {
        self.values(name).iter().filter_map(Value::as_object).map(Fields)
    }

    /// A list as it was given.
    pub(super) fn values(&self, name: &str) -> &[Value] {
        self.0.get(name).and_then(Value::as_array).map_or(&[], Vec::as_slice)
    }

    /// One of the words of an enum, read by serde so that the words are written only there.
    pub(super) fn word<'de, T: serde::Deserialize<'de>>(&'de self, name: &str) -> Option<T> {
        word(self.0.get(name)?.as_str()?)
    }
}

/// One of the words of an enum.
pub(super) fn word<'de, T: serde::Deserialize<'de>>(word: &'de str) -> Option<T> {
    T::deserialize(serde::de::value::StrDeserializer::<NoSuchWord>::new(word)).ok()
}

/// Why a word is not taken; the table has told the user which ones are.
#[derive(Debug)]
struct NoSuchWord;

impl std::fmt::Display for NoSuchWord {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str("no such word")
    }
}

impl std::error::Error for NoSuchWord {}

impl serde::de::Error for NoSuchWord {
    fn custom<T: std::fmt::Display>(_: T) -> Self {
        Self
    }
}

fn check_fields(path: &str, fields: &Map<String, Value>, accepted: &[Field], tags: &[&str]) -> Result<(), ErrorAnswer> {
    for field in accepted.iter().filter(|field| field.needed) {
        if matches!(fields.get(field.name), None | Some(Value::Null)) {
            return Err(ErrorAnswer::new(within(path, field.name), "", accepts(&field.is)));
        }
    }
    check_draft(path, fields, accepted, tags)
}

/// The path of a field.
fn within(path: &str, name: &str) -> String {
    if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") }
}

/// Checks the fields that are there.
fn check_draft(path: &str, fields: &Map<String, Value>, accepted: &[Field], tags: &[&str]) -> Result<(), ErrorAnswer> {
    let at = |name: &str| within(path, name);
    for name in fields.keys() {
        if !tags.contains(&name.as_str()) && !accepted.iter().any(|field| field.name == name) {
            let known: Vec<&str> = accepted.iter().map(|field| field.name).collect();
            let known = if known.is_empty() {
                "no further field".to_owned()
            } else {
                format!("the fields {}", known.join(", "))
            };
            return Err(ErrorAnswer::new(at(&shortened(name)), "not a field here", known));
        }
    }
    for field in accepted {
        match fields.get(field.name) {
            None | Some(Value::Null) => {}
            Some(value) => check(&at(field.name), value, &field.is)?,
        }
    }
    Ok(())
}

fn check(path: &str, value: &Value, is: &Is) -> Result<(), ErrorAnswer> {
    let refuse = || Err(ErrorAnswer::new(path, found(value), accepts(is)));
    match (is, value) {
        (Is::Text(_), Value::String(text)) if text.len() <= 1000 => Ok(()),
        (Is::Number(least, most, _), Value::Number(number)) => match number.as_f64() {
            Some(number) if number >= *least && number <= *most => Ok(()),
            _ => refuse(),
        },
        (Is::Whole(least, most), Value::Number(number)) => match number.as_u64() {
            Some(number) if number >= *least && number <= *most => Ok(()),
            _ => refuse(),
        },
        (Is::Flag, Value::Bool(_)) | (Is::Long(_), Value::String(_)) => Ok(()),
        (Is::OneOf(words), Value::String(word)) if words.contains(&word.as_str()) => Ok(()),
        (Is::Texts(_), Value::Array(all)) if all.len() <= LONGEST_LIST => {
            for (at, item) in all.iter().enumerate() {
                if !item.is_string() {
                    return Err(ErrorAnswer::new(format!("{path}[{at}]"), found(item), "text"));
                }
            }
            Ok(())
        }
        (Is::Pins, Value::Array(all)) if all.len() <= 13 => {
            for (at, item) in all.iter().enumerate() {
                if item.as_u64().is_none_or(|pin| pin > 12) {
                    return Err(ErrorAnswer::new(
                        format!("{path}[{at}]"),
                        found(item),
                        "a pin number from 1 to 12, 0 for the cap",
                    ));
                }
            }
            Ok(())
        }
        (Is::Record(accepted), Value::Object(fields)) => check_fields(path, fields, accepted, &[]),
        (Is::Draft(accepted), Value::Object(fields)) => check_draft(path, fields, accepted, &[]),
        (Is::Records(accepted), Value::Array(all)) if all.len() <= LONGEST_LIST => {
            for (at, item) in all.iter().enumerate() {
                let path = format!("{path}[{at}]");
                match item {
                    Value::Object(fields) => check_fields(&path, fields, accepted, &[])?,
                    other => return Err(ErrorAnswer::new(path, found(other), accepts(&Is::Record(accepted)))),
                }
            }
            Ok(())
        }
        (Is::Kinds(kinds), Value::Object(fields)) => {
            let kind_path = format!("{path}.kind");
            let names = || kinds.iter().map(|row| row.0).collect::<Vec<_>>().join(" | ");
            match fields.get("kind") {
                None => Err(ErrorAnswer::new(kind_path, "", names())),
                Some(Value::String(kind)) if kinds.iter().any(|row| row.0 == kind) => {
                    let accepted = kinds.iter().find(|row| row.0 == kind).map_or(&[][..], |row| row.1);
                    check_fields(path, fields, accepted, &["kind"])
                }
                Some(other) => Err(ErrorAnswer::new(kind_path, found(other), names())),
            }
        }
        _ => refuse(),
    }
}

/// What a field accepts, in words.
fn accepts(is: &Is) -> String {
    match is {
        Is::Text(what) | Is::Long(what) => format!("text: {what}"),
        Is::Number(least, most, unit) => {
            format!("a number of {unit} from {} to {}", plain_figure(*least), plain_figure(*most))
        }
        Is::Whole(least, most) => format!("a whole number from {least} to {most}"),
        Is::Flag => "true or false".to_owned(),
        Is::OneOf(words) => words.join(" | "),
        Is::Texts(what) => format!("a list of at most {LONGEST_LIST} {what}"),
        Is::Pins => "a list of pin numbers from 1 to 12, 0 for the cap".to_owned(),
        Is::Record(fields) | Is::Draft(fields) => {
            format!(
                "an object with the fields {}",
                fields.iter().map(|field| field.name).collect::<Vec<_>>().join(", ")
            )
        }
        Is::Records(fields) => format!("a list of at most {LONGEST_LIST}: {}", accepts(&Is::Record(fields))),
        Is::Kinds(kinds) => {
            format!("an object with `kind`: {}", kinds.iter().map(|row| row.0).collect::<Vec<_>>().join(" | "))
        }
    }
}

/// A value as it is shown in an error.
fn found(value: &Value) -> String {
    match value {
        Value::String(text) => format!("\"{}\"", shortened(text)),
        Value::Array(all) => format!("a list of {}", all.len()),
        Value::Object(_) => "an object".to_owned(),
        other => shortened(&super::json(other)),
    }
}

fn shortened(text: &str) -> String {
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A value the table accepts.
    fn sample(is: &Is) -> Value {
        match is {
            Is::Text(_) | Is::Long(_) => "12SK7".into(),
            Is::Number(least, most, _) => (least.max(1.0)).min(*most).into(),
            Is::Whole(least, _) => (*least).into(),
            Is::Flag => true.into(),
            Is::OneOf(words) => words.first().copied().unwrap_or("").into(),
            Is::Texts(_) => vec!["12SK7"].into(),
            Is::Pins => vec![1].into(),
            Is::Record(fields) | Is::Draft(fields) => record(fields, None),
            Is::Records(fields) => vec![record(fields, None)].into(),
            Is::Kinds(kinds) => {
                kinds.first().map_or(Value::Null, |(kind, fields)| record(fields, Some(("kind", kind))))
            }
        }
    }

    fn record(fields: &[Field], tag: Option<(&str, &str)>) -> Value {
        let mut map: Map<String, Value> =
            fields.iter().map(|field| (field.name.to_owned(), sample(&field.is))).collect();
        if let Some((name, word)) = tag {
            map.insert(name.to_owned(), word.into());
        }
        Value::Object(map)
    }

    /// Every field the table accepts changes what is read: none is let through and then forgotten. Every word of a choice is told from the others.
    #[test]
    fn every_field_of_the_table_arrives() {
        for (kind, fields) in QUESTIONS {
            let whole = record(fields, Some(("ask", kind)));
            arrives(&whole, fields, &mut |changed| changed);
        }
    }

    /// Reads `whole` with each field left out or changed, put into a question by `wrap`, and finds another question each time.
    fn arrives(whole: &Value, fields: &[Field], wrap: &mut dyn FnMut(Value) -> Value) {
        let mut shown = |value: Value| {
            let text = wrap(value).to_string();
            format!("{:?}", read(&text).unwrap_or_else(|error| panic!("{}: {text}", error.says)))
        };
        let before = shown(whole.clone());
        for field in fields {
            let mut without = whole.clone();
            if field.needed {
                without[field.name] = match field.is {
                    Is::Text(_) | Is::Long(_) => "6V6".into(),
                    Is::Records(_) => Value::Array(Vec::new()),
                    // What is in it is changed further down.
                    Is::Record(_) => continue,
                    Is::Number(least, ..) => (least + 0.25).into(),
                    Is::OneOf(words) => words[1].into(),
                    _ => vec!["6V6"].into(),
                };
            } else {
                without.as_object_mut().unwrap().remove(field.name);
            }
            assert_ne!(shown(without), before, "`{}` is forgotten", field.name);
            if let Is::OneOf(words) = field.is {
                let mut seen = std::collections::BTreeSet::new();
                for word in words {
                    let mut one = whole.clone();
                    one[field.name] = (*word).into();
                    assert!(seen.insert(shown(one)), "`{}`: {word} is not told from another", field.name);
                }
            }
        }
        for field in fields {
            match field.is {
                Is::Records(inner) => arrives(&whole[field.name][0].clone(), inner, &mut |value| {
                    let mut outer = whole.clone();
                    outer[field.name] = vec![value].into();
                    wrap(outer)
                }),
                Is::Record(inner) | Is::Draft(inner) => arrives(&whole[field.name].clone(), inner, &mut |value| {
                    let mut outer = whole.clone();
                    outer[field.name] = value;
                    wrap(outer)
                }),
                Is::Kinds(kinds) => {
                    for (word, inner) in kinds {
                        arrives(&record(inner, Some(("kind", word))), inner, &mut |value| {
                            let mut outer = whole.clone();
                            outer[field.name] = value;
                            wrap(outer)
                        });
                    }
                }
                _ => {}
            }
        }
    }

    /// And the other way round: every field of the generated declarations is in the table.
    #[test]
    fn every_field_of_the_types_is_in_the_table() {
        let declared = crate::ask::declarations::text();
        for (kind, fields) in QUESTIONS {
            let name: String = kind.split('_').map(|part| part[..1].to_uppercase() + &part[1..]).collect();
            let start = declared.find(&format!("export type {name}Question = {{")).expect("the question is declared");
            let body = &declared[start..start + declared[start..].find("};").unwrap_or(0)];
            // Field names stand at the start of a line, before `:` or `?:`.
            for line in body.lines().skip(1) {
                let line = line.trim();
                let Some((field, _)) = line.split_once(':') else { continue };
                let field = field.trim_end_matches('?').trim_matches('"');
                if !field.is_empty() && field.chars().all(|c| c.is_ascii_lowercase() || c == '_') {
                    assert!(fields.iter().any(|row| row.name == field), "{kind}: `{field}` is not in the table");
                }
            }
        }
    }

    #[test]
    fn trouble_is_said_with_field_found_and_accepted() {
        let trouble = |question: &str| match read(question) {
            Err(error) => error.says,
            Ok(question) => panic!("accepted: {question:?}"),
        };
        insta::assert_snapshot!(trouble("tubes?"), @"This question cannot be read: found no JSON (expected ident at line 1 column 2); accepted: one JSON object with the field `ask`.");
        insta::assert_snapshot!(trouble("[1]"), @"This question cannot be read: found a list of 1; accepted: one JSON object with the field `ask`.");
        insta::assert_snapshot!(trouble("{}"), @"`ask` is missing; accepted: tube | row | own | search | swap | candidates | serves | line_up | heater_string | rectifier | capacitor | resistor | colour_code | parts_list | sheet | sheet_lines | sheet_file | wants | on_the_table | shopping | stock.");
        insta::assert_snapshot!(trouble(r#"{"ask":"weather"}"#), @r#"`ask` is "weather"; accepted: tube | row | own | search | swap | candidates | serves | line_up | heater_string | rectifier | capacitor | resistor | colour_code | parts_list | sheet | sheet_lines | sheet_file | wants | on_the_table | shopping | stock."#);
        insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6"}"#), @"`candidate` is missing; accepted: text: a tube designation, such as 12SK7.");
        insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6","candidate":6}"#), @"`candidate` is 6; accepted: text: a tube designation, such as 12SK7.");
        insta::assert_snapshot!(trouble(r#"{"ask":"tube","type":"6V6","tpye":""}"#), @"`tpye` is not a field here; accepted: the fields type.");
        insta::assert_snapshot!(trouble(r#"{"ask":"swap","original":"6V6","candidate":"6V6GT","socket":{"supply":{"kind":"series","amps":"lots"}}}"#), @r#"`socket.supply.amps` is "lots"; accepted: a number of amperes from 0.02 to 3."#);
        insta::assert_snapshot!(trouble(r#"{"ask":"rectifier","first_filter_uf":40,"load_ma":-5}"#), @"`load_ma` is -5; accepted: a number of milliamps from 1 to 500.");
        insta::assert_snapshot!(trouble(r#"{"ask":"heater_string","tubes":["12SK7",7]}"#), @"`tubes[1]` is 7; accepted: text.");
    }
}
