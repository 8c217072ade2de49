//! `stock`: what do I have, and where does it lie?

use super::{StockAnswer, StockQuestion, StockRow};
use crate::book::{Book, StockItem, key};
use crate::order::in_order;

/// Answers `stock`.
pub fn stock(book: &Book, question: &StockQuestion) -> StockAnswer {
    let find = question.find.as_deref().unwrap_or("").trim();
    let text = find.to_lowercase();
    // The same tube under any of its names; and a marking however it is typed.
    let (tube, typed) = (book.look_up(find).map(|found| found.place), key(find));
    let limit = question.limit.unwrap_or(100) as usize;
    let mut found = Vec::new();
    let mut keyed = Vec::new();
    let (mut tubes, mut parts) = (0, 0);
    let mut types = vec![false; book.tubes().len()];
    for item in book.stock() {
        let of = book.tube_in_stock(&item.marking);
        let has = |cell: &str| cell.to_lowercase().contains(&text);
        let fits = [&item.marking, &item.place, &item.tested, &item.note].into_iter().any(|cell| has(cell))
            || (!typed.is_empty() && key(&item.marking).contains(&typed))
            || of.is_some_and(|of| Some(of.place) == tube || has(&of.tube.name));
        if !fits {
            continue;
        }
        match of {
            Some(of) => {
                tubes += item.count;
                if let Some(known) = types.get_mut(of.place) {
                    *known |= item.count > 0;
                }
            }
            None => parts += item.count,
        }
        keyed.push((order(&item.marking), found.len() as u32));
        found.push((item, of.map_or("", |of| of.tube.name.as_str())));
    }
    let shown = in_order(keyed).take(limit).filter_map(|at| found.get(at));
    let rows: Vec<StockRow> = shown.map(|(item, r#type)| row(item, r#type)).collect();
    let kinds = types.into_iter().filter(|known| *known).count();
    let says = match (book.stock().is_empty(), found.is_empty()) {
        (true, _) => "Nothing is in stock yet.".to_owned(),
        (_, true) => format!("Nothing in stock fits \"{find}\"."),
        _ => says(tubes, kinds, parts),
    };
    StockAnswer { says, more: found.len() - rows.len(), rows }
}

/// "300 tubes of 84 types, 40 other parts."
fn says(tubes: usize, kinds: usize, parts: usize) -> String {
    let some = |count: usize, one: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") };
    let tubes = (tubes > 0).then(|| format!("{} of {}", some(tubes, "tube"), some(kinds, "type")));
    let other = if tubes.is_some() { "other part" } else { "part" };
    let parts = (parts > 0).then(|| some(parts, other));
    let said: Vec<String> = tubes.into_iter().chain(parts).collect();
    if said.is_empty() { "All of it is used up.".to_owned() } else { format!("{}.", said.join(", ")) }
}

fn row(item: &StockItem, r#type: &str) -> StockRow {
    StockRow {
        key: item.key(),
        marking: item.marking.clone(),
        r#type: r#type.to_owned(),
        count: item.count,
        place: item.place.clone(),
        tested: item.tested.clone(),
        note: item.note.clone(),
    }
}

/// In the order of a drawer: the figure it begins with, then the letters, so that 6SK7 lies before 12SK7.
fn order(marking: &str) -> u64 {
    // With its point, which a key has not: 1.5k lies before 12AX7.
    let key: String = marking.split_whitespace().collect::<String>().to_ascii_uppercase();
    let letters = key.trim_start_matches(|c: char| c.is_ascii_digit());
    let figure =
        key.get(..key.len() - letters.len()).and_then(|figure| figure.parse().ok()).unwrap_or(u64::from(u16::MAX));
    let figure = if letters.len() == key.len() { 0 } else { figure.min(u64::from(u16::MAX)) };
    let first = letters.bytes().chain(std::iter::repeat(0)).take(6);
    first.fold(figure, |all, byte| all << 8 | u64::from(byte))
}
