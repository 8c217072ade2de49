//! Reads a question and says, of each field, what is accepted there: one table for checking, for the words of the error, and for
//! the ranges. What passes the table is then taken over field by field, and needs no further check.

use serde_json::{Map, Value};

use super::{ErrorAnswer, Question};
use crate::quantity::{number, plain_figure, read_farad, tidy};

mod mended;
mod table;
#[cfg(test)]
mod tests;

pub(super) use mended::mended_sheet;
use table::QUESTIONS;

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
    /// Picofarads from least to most: a number, or text with its unit.
    Picofarads(f64, f64),
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

    pub(super) fn picofarads(&self, name: &str) -> Option<f64> {
        picofarads(self.0.get(name)?)
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
        (Is::Picofarads(least, most), _) => match picofarads(value) {
            Some(pf) if pf >= *least && pf <= *most => Ok(()),
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

/// A capacitance as a number of picofarads, or as a meter shows it; a bare figure is picofarads.
fn picofarads(value: &Value) -> Option<f64> {
    match value {
        Value::String(text) => number(text).or_else(|| Some(tidy(read_farad(text)? * 1e12))),
        other => other.as_f64(),
    }
}

/// What a field accepts, in words.
fn accepts(is: &Is) -> String {
    match is {
        Is::Text(what) | Is::Long(what) => format!("text: {what}"),
        Is::Number(least, most, unit) => {
            format!("a number of {unit} from {} to {}", plain_figure(*least), plain_figure(*most))
        }
        Is::Picofarads(least, most) => {
            format!(
                "250 pF, 22 n, 0.02 uF or bare picofarads, from {} to {} pF",
                plain_figure(*least),
                plain_figure(*most)
            )
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
