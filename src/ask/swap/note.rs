//! Types read from a note: a label inside the cabinet, a list in an advertisement, "2x 12SK7, 12SA7 GT".

use crate::book::{Book, Found, key};

/// A type of the note, and how often it is there.
pub(in crate::ask) struct Noted<'b> {
    /// As it was written.
    pub typed: String,
    pub found: Found<'b>,
    pub count: u32,
}

/// Suffixes that are often written apart.
const SUFFIXES: [&str; 6] = ["G", "GT", "GT/G", "GC", "A", "GB"];
/// Units that make a figure no type.
const UNITS: [&str; 17] = [
    "V", "VAC", "VOLT", "VOLTS", "W", "WATT", "WATTS", "HZ", "CY", "CYCLE", "CYCLES", "AMP", "AMPS", "MA", "KC", "MC",
    "KHZ",
];

/// Every type of the text in the order they come, and the words that look like types and are not in the book. In a note on a cabinet a bare figure
/// that is no type is something else; where there are only types `figures` has it told.
pub(in crate::ask) fn types<'b>(
    book: &'b Book,
    text: &str,
    figures: bool,
    noted: &mut Vec<Noted<'b>>,
    not_found: &mut Vec<String>,
) {
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | ':' | '+' | '&' | '|' | '(' | ')' | '*'))
        .filter(|word| !word.is_empty())
        .collect();
    let word = |at: usize| words.get(at).map_or(String::new(), |word| key(word));
    let mut at = 0;
    let mut times = 1;
    while let Some(typed) = words.get(at) {
        let (this, next) = (word(at), word(at + 1));
        let number: Option<u32> = this.parse().ok();
        if UNITS.iter().any(|unit| this == *unit || measured(&this, unit) || (number.is_some() && next == *unit)) {
            at += 1;
            continue;
        }
        if let Some(count) = this.strip_suffix('X').or(this.strip_prefix('X')).and_then(|count| count.parse().ok()) {
            // "2x 12SK7" and "12SK7 x2".
            match (this.starts_with('X'), noted.last_mut()) {
                (true, Some(last)) => last.count = count,
                _ => times = count,
            }
            at += 1;
            continue;
        }
        let joined = format!("{this}{next}");
        let letters = this.chars().all(|c| c.is_ascii_alphabetic());
        let apart = (number.is_some() && book.look_up(&next).is_none()) || letters || SUFFIXES.contains(&next.as_str());
        let whole = if apart && !next.is_empty() { book.look_up(&joined) } else { None };
        let (found, used) = match whole {
            Some(found) => (Some(found), 2),
            None => (book.look_up(&this), 1),
        };
        at += used;
        let typed = if used == 2 { joined } else { (*typed).to_owned() };
        match found {
            Some(found) => {
                match noted.iter_mut().find(|known| known.found.place == found.place) {
                    Some(known) => known.count += times,
                    None => noted.push(Noted { typed, found, count: times }),
                }
                times = 1;
            }
            None => match number {
                Some(count) if (1..=9).contains(&count) => times = count,
                _ => {
                    let figure = this.chars().any(|c| c.is_ascii_digit());
                    if figure && (figures || number.is_none() && this.len() <= 12) {
                        not_found.push(typed);
                    }
                }
            },
        }
    }
}

/// "117V", "60CY": a figure with its unit.
fn measured(word: &str, unit: &str) -> bool {
    word.strip_suffix(unit).is_some_and(|figure| !figure.is_empty() && figure.bytes().all(|byte| byte.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Vec<(String, u32)>, Vec<String>) {
        let book = Book::shipped();
        let (mut noted, mut not_found) = (Vec::new(), Vec::new());
        types(&book, text, false, &mut noted, &mut not_found);
        (noted.iter().map(|row| (row.found.tube.name.clone(), row.count)).collect(), not_found)
    }

    #[test]
    fn notes_as_people_write_them() {
        for (text, expect) in [
            ("12SA7, 2x 12SK7, 12SQ7 / 50L6-GT + 35Z5", "12SA7 12SK7*2 12SQ7 50L6GT 35Z5GT"),
            ("50 C5 12 BE6; 117 V 60 cycles", "50C5 12BE6"),
            ("ECC 83 (x2), EL 84, EZ80", "12AX7*2 6BQ5 6V4"),
            ("2 6V6 GT\n5Y3 GT\n80", "6V6GT*2 5Y3GT 80"),
            ("1 2A6", "2A6"),
            ("6SN7 GT and 6SN7GT", "6SN7GT*2"),
            ("tubes missing, see label 115V 30W", ""),
        ] {
            let (found, _) = read(text);
            let said: Vec<String> = found
                .into_iter()
                .map(|(name, count)| if count == 1 { name } else { format!("{name}*{count}") })
                .collect();
            assert_eq!(said.join(" "), expect, "{text}");
        }
    }

    #[test]
    fn what_is_not_in_the_book_is_named() {
        assert_eq!(read("12SK7 12QQ99").1, ["12QQ99"]);
    }
}
