//! Names as people type them, found in the book; what is not found is met with near names, never with a guess.

use super::fault::Fault;
use super::table::{Faults, Table};
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
    /// How it stands to it.
    pub relation: Relation,
    /// A remark.
    pub note: Option<String>,
    /// Where it comes from.
    pub source: String,
    /// Line in the file it came from; 0 when that was an earlier file.
    pub line: u64,
}

/// A designation with everything dropped that people write in different ways: case, spaces, dots, hyphens; the letter O for a
/// leading zero. A slash is kept: it joins two markings.
pub fn key(text: &str) -> String {
    let mut key: String = text
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '.' | '-' | '_' | '\'' | '"'))
        .map(|c| c.to_ascii_uppercase())
        .take(40)
        .collect();
    // OZ4, OA2, O1A: the zero that stands for a cold cathode or the old number 01A is often written as a letter.
    let mut rest = key.chars();
    if rest.next() == Some('O') && (rest.clone().any(|c| c.is_ascii_digit())) && rest.clone().count() >= 2 {
        key.replace_range(0..1, "0");
    }
    key
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

/// Reads `names.csv`.
pub fn read_names(table: &Table, faults: &mut Faults) -> Vec<Name> {
    let (name, of) = (table.column("name"), table.column("type"));
    let (relation, note, source) = (table.column("relation"), table.column("note"), table.column("source"));
    let mut all: Vec<Name> = Vec::with_capacity(table.len());
    for at in 0..table.len() {
        let Some(row) = table.row(at) else { continue };
        let (Some(name), Some(of)) = (row.cell(name), row.cell(of)) else {
            faults.push(Fault::new("names", row.line, "name", "", "a name and the `type` it points at"));
            continue;
        };
        let relation = match row.cell(relation) {
            Some("same") | None => Relation::Same,
            Some("selection") => Relation::Selection,
            Some(other) => {
                faults.push(Fault::new("names", row.line, "relation", other, "same | selection"));
                continue;
            }
        };
        all.push(Name {
            name: name.to_owned(),
            of: of.to_owned(),
            relation,
            note: row.cell(note).map(str::to_owned),
            source: row.cell(source).unwrap_or("not said").to_owned(),
            line: row.line,
        });
    }
    all
}

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

/// Names near to what was typed, nearest first: those it begins, then those a slip or two away, then those it is part of; of equally near
/// ones the commoner, then the shorter. `all` gives key, name and how easily found.
pub fn near<'n>(
    typed: &str,
    all: impl Iterator<Item = (&'n str, &'n str, Option<FoundToday>)>,
    limit: usize,
) -> Vec<String> {
    let typed = key(typed);
    if typed.is_empty() {
        return Vec::new();
    }
    let long = typed.chars().count();
    let most = if long <= 3 { 1 } else { 2 };
    let mut names: Vec<&str> = Vec::new();
    let mut keyed: Vec<(u64, u32)> = Vec::new();
    for (key, name, found_today) in all {
        let rank = if key.starts_with(&typed) {
            0
        } else {
            let slips = slips(key, &typed, most);
            if slips <= most {
                slips
            } else if long >= 3 && key.contains(&typed) {
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
