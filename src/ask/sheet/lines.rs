//! `sheet_lines`: a pasted text, or CSV, into lines of a sheet. Every line that is not blank comes back as a tube or a part; nothing is dropped, and
//! what is not understood is kept as it was written.

mod words;

use serde_json::{Map, Value};

use super::{SheetLinesAnswer, SheetLinesQuestion};
use crate::ask::ErrorAnswer;
use crate::ask::accepted::word;
use crate::ask::parts_list::line::{Line, PLACES, Part, reference};
use crate::ask::{CapacitorRole, ResistorRole};
use crate::book::Book;
use crate::book::cells::{Read, Reader, first_line, unguarded};
use crate::finding::{Mark, Verdict};
use words::{FILLERS, bare_type, begins_with_type, is_item, is_suffix, low, row, state, tube_reference};

/// The columns of CSV, with the words people head them with.
const COLUMNS: [(&str, &[&str]); 8] = [
    ("reference", &["reference", "ref", "part", "designator"]),
    ("marking", &["marking", "value", "description"]),
    ("role", &["role", "function", "use"]),
    ("measured", &["measured", "reading", "reads"]),
    ("note", &["note", "notes", "remark", "remarks", "comment"]),
    ("type", &["type", "tube"]),
    ("place", &["place", "socket", "position"]),
    ("state", &["state", "condition", "tested"]),
];

/// What a line came to.
#[derive(Default)]
struct Lines {
    tubes: Vec<Value>,
    parts: Vec<Value>,
    doubtful: Vec<String>,
}

/// Answers `sheet_lines`.
///
/// # Errors
/// `text` when it is blank.
pub fn lines(book: &Book, question: &SheetLinesQuestion) -> Result<SheetLinesAnswer, ErrorAnswer> {
    let mut found = Lines::default();
    match columns(&question.text) {
        Some(columns) => found.csv(book, &question.text, &columns),
        None => {
            for line in question.text.lines().map(str::trim).filter(|line| !line.is_empty()) {
                found.line(book, line);
            }
        }
    }
    let Lines { tubes, parts, doubtful } = found;
    if tubes.is_empty() && parts.is_empty() {
        return Err(ErrorAnswer::new(
            "text",
            "",
            "tubes and parts, one a line, such as V1 12SA7 dead or C4 .02 mfd 400v",
        ));
    }
    let count = |count: usize, what: &str| format!("{count} {what}{}", if count == 1 { "" } else { "s" });
    let mut says = format!("{}, {}", count(tubes.len(), "tube"), count(parts.len(), "part"));
    let (mark, word) = if doubtful.is_empty() {
        (Mark::Yes, "Every line is understood.")
    } else {
        says = format!("{says}; {} not understood", count(doubtful.len(), "line"));
        (Mark::Care, "Some lines are open.")
    };
    let verdict = Verdict { mark, word: word.to_owned(), says: says + "." };
    Ok(SheetLinesAnswer { verdict, tubes, parts, doubtful })
}

/// A record with the fields that say something.
fn record(fields: &[(&str, &str)]) -> Value {
    let said = fields.iter().filter(|field| !field.1.is_empty());
    Value::Object(said.map(|(name, text)| ((*name).to_owned(), Value::from(*text))).collect::<Map<_, _>>())
}

impl Lines {
    fn line(&mut self, book: &Book, text: &str) {
        if let Some((place, rest)) = tube_reference(text) {
            return self.tube(book, place, rest);
        }
        if is_item(text) {
            return self.tubes.push(record(&[("type", text)]));
        }
        let first = text.split_whitespace().next().unwrap_or_default();
        if reference(&first.to_lowercase()).is_some() {
            return self.part(text);
        }
        let row = row(book, text);
        if !row.is_empty() {
            for (count, typed) in row {
                for _ in 0..count {
                    self.tubes.push(record(&[("type", typed)]));
                }
            }
            return;
        }
        if begins_with_type(book, text) {
            return self.tube(book, "", text);
        }
        self.part(text);
    }

    /// A tube with what stands behind its type: how it was found, and the rest as its note.
    fn tube(&mut self, book: &Book, place: &str, text: &str) {
        if is_item(text) {
            return self.tubes.push(record(&[("type", text), ("place", place)]));
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        // "ECC 83", "12SQ7 GT": two words may be one type.
        let joined =
            words.get(..2).map(<[&str]>::concat).filter(|two| book.find(two).is_ok() && state(&words[1..2]).is_none());
        let apart = joined.is_some()
            && (words.first().is_some_and(|one| book.find(one).is_err())
                || is_suffix(words.get(1).copied().unwrap_or_default()));
        let taken = if apart { 2 } else { 1 };
        let r#type = words.get(..taken).map(|type_words| type_words.join(" ")).unwrap_or_default();
        let rest = words.get(taken..).unwrap_or_default();
        let state = state(rest);
        let note: Vec<&str> = match state {
            // What the state was read from is in the state.
            Some((_, at)) => rest
                .iter()
                .enumerate()
                .filter(|(place, word)| *place != at && !FILLERS.contains(&low(word).as_str()))
                .map(|row| *row.1)
                .collect(),
            None => rest.to_vec(),
        };
        let typed = bare_type(&r#type);
        self.tubes.push(record(&[
            ("type", typed),
            ("place", place),
            ("state", state.map_or("", |state| state.0)),
            ("note", &note.join(" ")),
        ]));
    }

    fn part(&mut self, text: &str) {
        let read = Line::read(text, self.parts.len() + 1);
        let words: Vec<&str> = text.split_whitespace().collect();
        let labelled = !read.reference.is_empty();
        let at = words.iter().position(|word| labelled && reference(&word.to_lowercase()).is_some());
        // A number in front of a line that has a reference is that of the list.
        let (label, rest) = match at {
            Some(at) => {
                (words[at].trim_end_matches([':', '.', ',', ';', ')']), words.get(at + 1..).unwrap_or_default())
            }
            None => ("", words.as_slice()),
        };
        let measures =
            |word: &&str| matches!(low(word).as_str(), "measures" | "measured" | "meas" | "reads" | "reading");
        let (rest, measured) = match rest.iter().position(measures) {
            Some(at) if at + 1 < rest.len() => (&rest[..at], rest[at + 1..].join(" ")),
            _ => (rest, String::new()),
        };
        let role = role_of(&read.part);
        // What the role was read from is in the role.
        let place = |word: &str| PLACES.iter().any(|place| place.contains(&low(word).as_str()));
        let kept: Vec<&str> = rest.iter().copied().filter(|word| role.is_empty() || !place(word)).collect();
        let mut marking = kept.join(" ");
        if role == "bus_to_chassis" || role == "line_to_chassis" {
            let bare = marking.trim_end_matches(" to").trim_end_matches(" from").len();
            marking.truncate(bare);
        }
        let whole = if marking.is_empty() { rest.join(" ") } else { marking };
        self.push_part(
            record(&[("reference", label), ("marking", &whole), ("role", &role), ("measured", &measured)]),
            &read,
            text,
        );
    }

    fn push_part(&mut self, mut part: Value, read: &Line, text: &str) {
        if let Some(fields) = part.as_object_mut() {
            fields.entry("marking").or_insert_with(|| Value::from(""));
        }
        let why = match &read.part {
            Part::Unreadable => Some("neither a capacitor nor a resistor can be read in it."),
            Part::Doubtful(why) => Some(why.as_str()),
            _ => None,
        };
        self.doubtful.extend(why.map(|why| format!("{text}: {why}")));
        self.parts.push(part);
    }

    fn csv(&mut self, book: &Book, text: &str, columns: &[Option<&'static str>]) {
        let mut reader = Reader::new(text.to_owned());
        let mut header = Vec::new();
        loop {
            let (row, whole) = match reader.row() {
                Read::End => return,
                Read::Row(row, _) => (row, true),
                Read::OpenQuote(row, _) => (row, false),
            };
            let cells: Vec<String> = row.iter().map(|cell| unguarded(cell, false).trim().to_owned()).collect();
            if header.is_empty() {
                if cells.iter().any(|cell| !cell.is_empty()) {
                    header = cells;
                }
                continue;
            }
            if cells.iter().all(String::is_empty) {
                continue;
            }
            if !whole {
                self.doubtful.push(format!("{}: a quote in it is never closed.", cells.join(" ")));
            }
            self.csv_row(book, &header, columns, &cells);
        }
    }

    fn csv_row(&mut self, book: &Book, header: &[String], columns: &[Option<&'static str>], cells: &[String]) {
        let of = |name: &str| {
            let all: Vec<&str> = cells
                .iter()
                .zip(columns)
                .filter(|(cell, column)| **column == Some(name) && !cell.is_empty())
                .map(|row| row.0.as_str())
                .collect();
            all.join(" ")
        };
        // What stands in a column that is no field of the line is kept as a note.
        let others = cells
            .iter()
            .enumerate()
            .filter(|(at, cell)| !cell.is_empty() && columns.get(*at).copied().flatten().is_none());
        let mut notes = vec![of("note")];
        notes.extend(others.map(|(at, cell)| match header.get(at).filter(|name| !name.is_empty()) {
            Some(name) => format!("{name} {cell}"),
            None => cell.clone(),
        }));
        let (label, marking, role, measured) = (of("reference"), of("marking"), of("role"), of("measured"));
        let (typed, place, condition) = (of("type"), of("place"), of("state"));
        let label_or_place = if label.is_empty() { &place } else { &label };
        let named = tube_reference(&format!("{label_or_place} x")).is_some();
        let all = format!("{typed} {marking}");
        let is_tube = !typed.is_empty() && reference(&label.to_lowercase()).is_none_or(|_| named)
            || named
            || is_item(all.trim())
            || label.is_empty() && (!row(book, &marking).is_empty() || begins_with_type(book, &marking));
        let note =
            |notes: Vec<String>| notes.into_iter().filter(|note| !note.is_empty()).collect::<Vec<_>>().join("; ");
        if is_tube {
            let words: Vec<&str> = condition.split_whitespace().collect();
            let found = state(&words);
            let mut both = vec![role, measured];
            if found.is_none_or(|_| words.len() > 1) {
                both.push(condition.clone());
            }
            if !label.is_empty() && !place.is_empty() {
                both.push(place.clone());
            }
            both.extend(notes);
            self.tubes.push(record(&[
                ("type", all.trim()),
                ("place", label_or_place),
                ("state", found.map_or("", |found| found.0)),
                ("note", &note(both)),
            ]));
            return;
        }
        let text = format!("{label} {marking}").trim().to_owned();
        if word::<CapacitorRole>(&role).is_some() || word::<ResistorRole>(&role).is_some() {
            let read = Line::read(&text, usize::MAX);
            notes.extend([typed, place, condition]);
            let part = record(&[
                ("reference", &label),
                ("marking", &marking),
                ("role", &role),
                ("measured", &measured),
                ("note", &note(notes)),
            ]);
            // With its role told it may be read where the line alone is doubtful.
            let read = if matches!(read.part, Part::Doubtful(_)) { Line { part: Part::Other, ..read } } else { read };
            return self.push_part(part, &read, &text);
        }
        let text = format!("{text} {role}").trim().to_owned();
        let read = Line::read(&text, usize::MAX);
        let read_role = role_of(&read.part);
        if read_role.is_empty() {
            notes.push(role);
        }
        notes.extend([typed, place, condition]);
        let part = record(&[
            ("reference", &label),
            ("marking", &marking),
            ("role", &read_role),
            ("measured", &measured),
            ("note", &note(notes)),
        ]);
        self.push_part(part, &read, &text);
    }
}

/// The columns of a text that is CSV: of each whether it is a field of a line.
fn columns(text: &str) -> Option<Vec<Option<&'static str>>> {
    let mut reader = Reader::new(first_line(text).to_owned());
    let Read::Row(row, _) = reader.row() else { return None };
    let field = |cell: &str| {
        let cell = cell.trim_start_matches('\u{feff}').trim().to_lowercase();
        COLUMNS.iter().find(|column| column.1.contains(&cell.as_str())).map(|column| column.0)
    };
    let columns: Vec<_> = row.iter().map(field).collect();
    let told = columns.iter().flatten().count();
    (row.len() > 1 && told > 1 && columns.iter().flatten().any(|name| matches!(*name, "marking" | "type")))
        .then_some(columns)
}

/// The word of the role that was read.
fn role_of(part: &Part) -> String {
    match part {
        Part::Capacitor { role: Some(role), .. } => role_word(role),
        Part::Resistor { role: Some(role), .. } => role_word(role),
        _ => String::new(),
    }
}

/// The word of a role, as serde has it.
fn role_word(role: &impl serde::Serialize) -> String {
    serde_json::to_value(role).ok().and_then(|word| word.as_str().map(str::to_owned)).unwrap_or_default()
}
