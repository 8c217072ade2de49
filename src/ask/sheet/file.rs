//! `sheet_file`: sheets as a file of their own format, and back; and the same in plain words for somebody who has no such page.
//!
//! A file of a later version is refused as a whole: what this version does not know would be lost if it were written again.

use serde_json::{Map, Value};

use super::shopping::Basket;
use super::{JobSheet, SheetFileAnswer, SheetFileQuestion, SheetHeaters, TubeState, Whole, socket};
use crate::ask::ErrorAnswer;
use crate::ask::accepted::{self, Fields};
use crate::book::Book;
use crate::quantity::volt;

const FORMAT: &str = "stand-in sheets";
const VERSION: u64 = 1;

/// Answers `sheet_file`.
///
/// # Errors
/// `text` that is no file of sheets, or one of a later version; neither a file nor sheets.
pub fn file(book: &Book, question: &SheetFileQuestion) -> Result<SheetFileAnswer, ErrorAnswer> {
    let mut faults = Vec::new();
    let mut brought = question.sheets.clone();
    match &question.text {
        Some(text) => brought.extend(read(text)?),
        None if brought.is_empty() => {
            return Err(ErrorAnswer::new("text", "", "the text of a file of sheets; or `sheets`"));
        }
        None => {}
    }
    let mut sheets = Vec::new();
    for (at, sheet) in brought.into_iter().enumerate() {
        sheets.extend(accepted::mended_sheet(&format!("sheets[{at}]"), sheet, &mut faults));
    }
    let words: Vec<String> = sheets.iter().filter_map(Value::as_object).map(|sheet| words(book, sheet)).collect();
    Ok(SheetFileAnswer { text: written(&sheets), words: words.join("\n"), sheets, faults })
}

/// The sheets of a file.
fn read(text: &str) -> Result<Vec<Value>, ErrorAnswer> {
    let accepted = format!("a file with \"format\": \"{FORMAT}\", \"version\": {VERSION} and \"sheets\"");
    let text = text.trim_start_matches('\u{feff}');
    let value: Value = serde_json::from_str(text)
        .map_err(|error| ErrorAnswer::new("text", format!("no JSON ({error})"), accepted.as_str()))?;
    if value.get("format").and_then(Value::as_str) != Some(FORMAT) {
        return Err(ErrorAnswer::new("text", "another file", accepted));
    }
    match value.get("version").and_then(Value::as_u64) {
        Some(VERSION) => {}
        Some(later) if later > VERSION => {
            let mut error = ErrorAnswer::new("version", later.to_string(), format!("at most {VERSION}"));
            error.says = format!(
                "This file is of version {later}, made by a newer page; this one reads version {VERSION}. Nothing was taken, so that nothing is lost: bring the page up to date and open it again."
            );
            return Err(error);
        }
        _ => return Err(ErrorAnswer::new("version", "not given as a whole number", accepted)),
    }
    match value.get("sheets") {
        Some(Value::Array(sheets)) => Ok(sheets.clone()),
        _ => Err(ErrorAnswer::new("sheets", "no list", accepted)),
    }
}

/// The file: one sheet a line, so that a person can find one.
fn written(sheets: &[Value]) -> String {
    let lines: Vec<String> = sheets.iter().map(crate::ask::json).collect();
    format!("{{\"format\":\"{FORMAT}\",\"version\":{VERSION},\"sheets\":[\n{}\n]}}\n", lines.join(",\n"))
}

/// A sheet in plain words: its name, tubes with their state, parts, what to buy.
fn words(book: &Book, fields: &Map<String, Value>) -> String {
    let sheet = JobSheet::from(&Fields::new(fields));
    let whole = Whole::of(book, &sheet, false);
    let mut lines = vec![sheet.name.trim().to_owned()];
    lines.extend(sheet.note.clone());
    let fed = match sheet.heaters {
        Some(SheetHeaters::Series) => "Heaters in series",
        Some(SheetHeaters::Parallel) => "Heaters in parallel",
        Some(SheetHeaters::Battery) => "Battery set",
        None => "Heaters not told",
    };
    lines.push(match sheet.line_v {
        Some(line_v) => format!("{fed}, line {}.", volt(line_v)),
        None => format!("{fed}."),
    });
    let mut section = |head: &str, rows: Vec<String>| {
        if !rows.is_empty() {
            lines.push(String::new());
            lines.push(head.to_owned());
            lines.extend(rows);
        }
    };
    let tubes = sheet.tubes.iter().map(|tube| {
        let state = match tube.state {
            Some(TubeState::Good) => "good",
            Some(TubeState::Weak) => "weak",
            Some(TubeState::Dead) => "dead",
            Some(TubeState::Missing) => "missing",
            None => "",
        };
        let fitted = tube.fitted.as_ref().map(|fitted| format!("{fitted} instead"));
        listed(
            &socket::name(tube),
            &[state, fitted.as_deref().unwrap_or_default(), tube.note.as_deref().unwrap_or_default()],
        )
    });
    section("Tubes", tubes.collect());
    let parts = sheet.parts.iter().map(|part| {
        let text = |text: &Option<String>| text.clone().unwrap_or_default();
        let label = format!("{} {}", text(&part.reference), part.marking);
        let role = text(&part.role).replace('_', " ");
        let measured = part.measured.as_ref().map(|measured| format!("measures {measured}")).unwrap_or_default();
        listed(label.trim(), &[&role, &measured, &text(&part.note), if part.done { "replaced" } else { "" }])
    });
    section("Parts", parts.collect());
    let mut basket = Basket::default();
    whole.shop(book, &mut basket, "");
    let bought = basket.into_list().into_iter().map(|row| {
        let code = if row.code.is_empty() { String::new() } else { format!(" [{}]", row.code) };
        format!("{} x {}{code}: {}", row.count, row.shop, row.places.join(", "))
    });
    section("To buy", bought.collect());
    lines.push(String::new());
    lines.join("\n")
}

/// "V1 12SA7: dead, tested twice".
fn listed(name: &str, said: &[&str]) -> String {
    let said: Vec<&str> = said.iter().copied().filter(|text| !text.trim().is_empty()).collect();
    if said.is_empty() { name.to_owned() } else { format!("{name}: {}", said.join(", ")) }
}
