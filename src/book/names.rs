//! Names as people type them, found in the book; what is not found is met with near names, never with a guess.

use super::fault::{Fault, Faults};
use super::rows::Row;
use super::sheet::Sheet;
use super::tube::FoundToday;
use crate::order::in_order;

/// How a name stands to the type it points at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// Just another name.
    Same,
    /// A ruggedised, low-noise or long-life selection that fits any socket of the type.
    Selection,
}

/// Another name of a type.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    /// As the book writes it.
    pub name: String,
    /// The type it points at.
    pub of: String,
    /// Its key, made once: names are looked through by type for every candidate shown.
    pub of_key: String,
    /// How it stands to it.
    pub relation: Relation,
    /// A remark.
    pub note: Option<String>,
    /// Where it comes from.
    pub source: String,
}

/// A designation with everything dropped that people write in different ways: case, spaces, dots, hyphens; the letter O for a
/// leading zero. A slash is kept: it joins two markings.
pub fn key(text: &str) -> String {
    let mut key = String::with_capacity(text.len());
    push_key(text, &mut key);
    key
}

/// Puts the key of a designation into an empty text.
pub fn push_key(text: &str, key: &mut String) {
    let dropped = |c: &char| c.is_whitespace() || matches!(c, '.' | '-' | '_' | '\'' | '"');
    key.extend(text.chars().filter(|c| !dropped(c)).map(|c| c.to_ascii_uppercase()));
    // OZ4, OA2, O1A: the zero that stands for a cold cathode or the old number 01A is often written as a letter.
    if let [b'O', rest @ ..] = key.as_bytes()
        && rest.len() >= 2
        && rest.iter().any(u8::is_ascii_digit)
    {
        key.replace_range(0..1, "0");
    }
}

/// The keys under which a typed designation may be found, best first: as it is, with "/G" dropped (GT/G marks one bulb for
/// two), and each half of a double marking such as 6G5/6U5.
pub fn keys(text: &str) -> Vec<String> {
    let whole = key(text);
    let mut all = vec![whole.clone()];
    for suffix in ["/G", "/GT"] {
        if let Some(short) = whole.strip_suffix(suffix) {
            all.push(short.to_owned());
        }
    }
    if whole.contains('/') {
        all.push(whole.replace('/', ""));
        all.extend(whole.split('/').filter(|half| half.len() >= 2).map(str::to_owned));
    }
    all
}

/// Where each column of a name stands in the table: name, type, relation, note, source.
#[derive(Debug, Clone, Default)]
pub struct Columns([Option<usize>; 5]);

impl Columns {
    /// Their places in this table.
    pub fn of(sheet: &Sheet) -> Self {
        Self(["name", "type", "relation", "note", "source"].map(|name| sheet.column(name)))
    }
}

/// Reads a row of `names.csv`.
pub fn read_name(columns: &Columns, row: Row<'_>, faults: &mut Faults) -> Option<Name> {
    let [name, of, relation, note, source] = columns.0.map(|column| row.cell(column));
    let (Some(name), Some(of)) = (name, of) else {
        faults.push(Fault::new("names", row.line, "name", "", "a name and the `type` it points at"));
        return None;
    };
    let relation = match relation {
        Some("same") | None => Relation::Same,
        Some("selection") => Relation::Selection,
        Some(other) => {
            faults.push(Fault::new("names", row.line, "relation", other, RELATIONS));
            return None;
        }
    };
    Some(Name {
        name: name.to_owned(),
        of: of.to_owned(),
        of_key: key(of),
        relation,
        note: note.map(str::to_owned),
        source: source.unwrap_or("not said").to_owned(),
    })
}

/// What a `relation` cell may hold.
pub const RELATIONS: &str = "same | selection";

/// How many single-character slips part two keys: insert, drop, change, swap two neighbours (optimal string alignment).
/// Stops counting at `most + 1`.
pub fn slips(a: &str, b: &str, most: usize) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    if a.len().abs_diff(b.len()) > most {
        return most + 1;
    }
    let mut before: Vec<usize> = vec![0; b.len() + 1];
    let mut last: Vec<usize> = (0..=b.len()).collect();
    let mut now: Vec<usize> = vec![0; b.len() + 1];
    for i in 1..=a.len() {
        now[0] = i;
        for j in 1..=b.len() {
            let cost = usize::from(a[i - 1] != b[j - 1]);
            let mut best = (last[j] + 1).min(now[j - 1] + 1).min(last[j - 1] + cost);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                best = best.min(before[j - 2] + 1);
            }
            now[j] = best;
        }
        std::mem::swap(&mut before, &mut last);
        std::mem::swap(&mut last, &mut now);
    }
    last[b.len()]
}

/// How well a pattern fits a key: 0 the whole of it, 1 its beginning, 2 somewhere in it; `?` stands for any one character.
pub fn fit(key: &str, pattern: &str) -> Option<u64> {
    let (key, pattern) = (key.as_bytes(), pattern.as_bytes());
    let like = |part: &[u8]| part.iter().zip(pattern).all(|(byte, wanted)| byte == wanted || *wanted == b'?');
    let at = (0..=key.len().checked_sub(pattern.len())?).find(|&at| key.get(at..).is_some_and(like))?;
    Some(if key.len() == pattern.len() { 0 } else { 1 + u64::from(at > 0) })
}

/// Names near to what was typed, nearest first: those it begins, then those a slip or two away, then those it is part of; of equally near
/// ones the commoner, then the shorter. `all` gives name and how easily found.
pub fn near<'n>(typed: &str, all: impl Iterator<Item = (&'n str, Option<FoundToday>)>, limit: usize) -> Vec<String> {
    let typed = key(typed);
    if typed.is_empty() {
        return Vec::new();
    }
    let long = typed.chars().count();
    let most = if long <= 3 { 1 } else { 2 };
    let mut names: Vec<&str> = Vec::new();
    let mut keyed: Vec<(u64, u32)> = Vec::new();
    let mut key = String::new();
    for (name, found_today) in all {
        key.clear();
        push_key(name, &mut key);
        let rank = if key.starts_with(&typed) {
            0
        } else {
            let slips = slips(&key, &typed, most);
            if slips <= most {
                slips
            } else if long >= 3 && fit(&key, &typed).is_some() {
                most + 1
            } else {
                continue;
            }
        };
        let rare = match found_today {
            Some(FoundToday::Common) => 0,
            Some(FoundToday::Findable) => 1,
            Some(FoundToday::Scarce) | None => 2,
        };
        keyed.push(((rank as u64) << 16 | rare << 8 | name.len().min(255) as u64, names.len() as u32));
        names.push(name);
    }
    let mut found: Vec<String> = Vec::new();
    for place in in_order(keyed) {
        if let Some(name) = names.get(place)
            && !found.iter().any(|known| known == name)
        {
            found.push((*name).to_owned());
            if found.len() >= limit {
                break;
            }
        }
    }
    found
}
