//! What the words of a line say: a type, a place, how a tube tests, tubes in a row.

use crate::ask::heater_string::items;
use crate::ask::parts_list::line::{bare, has_farads};
use crate::book::{Book, key};
use crate::quantity::plain;

/// Words for how a tube was found.
const STATES: [(&str, &[&str]); 4] = [
    ("dead", &["dead", "open", "shorted", "short", "gassy", "burnt", "bad"]),
    ("weak", &["weak", "low", "tired"]),
    ("missing", &["missing", "gone", "empty"]),
    ("good", &["good", "ok", "fine", "strong", "new"]),
];
/// With one of these beside it the state is not what its word says.
const DOUBTS: [&str; 7] = ["not", "no", "maybe", "perhaps", "never", "if", "or"];
/// Words that say nothing beside a state.
pub(super) const FILLERS: [&str; 5] = ["tests", "tested", "test", "is", "was"];

/// In small letters, without what punctuates it.
pub(super) fn low(word: &str) -> String {
    bare(&plain(word)).to_owned()
}

/// "V3: 12SQ7 weak": the place of a tube and what stands behind it.
pub(super) fn tube_reference(text: &str) -> Option<(&str, &str)> {
    let (first, rest) = text.split_once(char::is_whitespace)?;
    let label = first.trim_end_matches([':', '.', ',', ';', ')']);
    let figures = label.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    let letters = label.len().checked_sub(figures.len()).and_then(|at| label.get(..at))?;
    let tube = matches!(letters.to_ascii_lowercase().as_str(), "v" | "vt" | "tube" | "valve");
    let numbered = (1..=2).contains(&figures.len()) && figures.bytes().all(|byte| byte.is_ascii_digit());
    (tube && numbered && !rest.trim().is_empty()).then(|| (label, rest.trim()))
}

/// Whether it is what else is in a heater string. A resistor by its ohms alone is a part.
pub(super) fn is_item(text: &str) -> bool {
    let first = low(text.split_whitespace().next().unwrap_or_default());
    matches!(first.as_str(), "cord" | "lamp" | "ballast" | "ntc" | "thermistor")
        && matches!(items::read("", text), Ok(Some(_)))
}

/// Tubes in a row: "12SA7, 2x 12SK7, 35Z5GT", each with its count; empty when the line is anything else.
pub(super) fn row<'t>(book: &Book, text: &'t str) -> Vec<(usize, &'t str)> {
    let of = |pieces: &[&'t str]| {
        let mut row: Vec<(usize, &'t str)> = Vec::new();
        let (mut found, mut lettered) = (0, 0);
        for piece in pieces {
            let (count, typed) = counted(piece.trim());
            if typed.is_empty() {
                return Vec::new();
            }
            found += usize::from(book.find(typed).is_ok());
            lettered += usize::from(has_letter_and_figure(typed));
            if book.find(typed).is_err() && !looks_like_type(typed) {
                return Vec::new();
            }
            row.push((count, typed));
        }
        // "80" and "47" are types only beside others that can be nothing else.
        let tubes = pieces.len() == 1 && lettered == 1 && found == 1
            || pieces.len() > 1 && lettered > 0 && 2 * found >= pieces.len();
        if tubes { row } else { Vec::new() }
    };
    let by_sign: Vec<&str> =
        text.split([',', ';', '\t', '/', '+', '&']).map(str::trim).filter(|piece| !piece.is_empty()).collect();
    let row = of(&by_sign);
    if !row.is_empty() {
        return row;
    }
    let by_sign: Vec<&str> = text.split([',', ';', '\t']).map(str::trim).filter(|piece| !piece.is_empty()).collect();
    let row = of(&by_sign);
    if !row.is_empty() {
        return row;
    }
    of(&text
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';'))
        .filter(|piece| !piece.is_empty())
        .collect::<Vec<_>>())
}

/// "2x 12SK7", "12SK7 x2", "2 x 12SK7": how many, and of what.
pub(super) fn counted(piece: &str) -> (usize, &str) {
    let count = |text: &str| text.trim().parse::<usize>().ok().filter(|count| (1..=9).contains(count));
    let signs = ['x', 'X', '\u{d7}', '*'];
    if let Some((before, typed)) = piece.split_once(signs)
        && let Some(count) = count(before)
        && !typed.trim().is_empty()
        && typed.trim().starts_with(|c: char| c.is_ascii_alphanumeric())
        && (typed.starts_with(char::is_whitespace) || before.ends_with(char::is_whitespace))
    {
        return (count, typed.trim());
    }
    if let Some((typed, after)) = piece.rsplit_once(signs)
        && let Some(count) = count(after)
        && typed.ends_with(char::is_whitespace)
    {
        return (count, typed.trim());
    }
    (1, piece)
}

pub(super) fn has_letter_and_figure(text: &str) -> bool {
    text.bytes().any(|byte| byte.is_ascii_digit()) && text.bytes().any(|byte| byte.is_ascii_alphabetic())
}

/// "12QQ99GT": figures, letters, figures, as American types have them, and no value of a part.
pub(super) fn looks_like_type(text: &str) -> bool {
    let key = key(text);
    let run = |text: &str, of: fn(&u8) -> bool| text.bytes().take_while(of).count();
    let figures = run(&key, u8::is_ascii_digit);
    let letters = run(key.get(figures..).unwrap_or_default(), u8::is_ascii_alphabetic);
    let last = run(key.get(figures + letters..).unwrap_or_default(), u8::is_ascii_digit);
    let tail = key.get(figures + letters + last..).unwrap_or_default();
    (1..=3).contains(&figures)
        && (1..=3).contains(&letters)
        && (1..=3).contains(&last)
        && tail.len() <= 4
        && tail.bytes().all(|byte| byte.is_ascii_alphabetic() || byte == b'/')
        && !has_farads(&text.to_lowercase())
        && crate::quantity::read_ohm(text).is_none()
        && crate::quantity::read_farad(text).is_none()
}

/// Whether a line begins with a type that can be nothing else, and nothing in it speaks of a part.
pub(super) fn begins_with_type(book: &Book, text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some((first, rest)) = words.split_first() else { return false };
    let part = rest.iter().any(|word| {
        has_farads(&word.to_lowercase())
            || matches!(
                low(word).as_str(),
                "ohm"
                    | "ohms"
                    | "meg"
                    | "v"
                    | "volt"
                    | "volts"
                    | "w"
                    | "watt"
                    | "watts"
                    | "mfd"
                    | "k"
                    | "capacitor"
                    | "resistor"
                    | "condenser"
            )
    });
    let typed = bare_type(first);
    let two = words.get(..2).map(<[&str]>::concat).filter(|two| has_letter_and_figure(two) && book.find(two).is_ok());
    let known = has_letter_and_figure(typed) && book.find(typed).is_ok();
    // A number alone is a type where somebody says how it tests.
    let number = book.find(typed).is_ok() && state(rest).is_some();
    !part && (known || number || two.is_some() || looks_like_type(typed) && (rest.is_empty() || state(rest).is_some()))
}

/// A type without what punctuates it.
pub(super) fn bare_type(typed: &str) -> &str {
    let bare = typed.trim_matches(|c: char| matches!(c, ',' | ';' | ':' | '(' | ')' | '.' | '"' | '\''));
    if bare.is_empty() { typed } else { bare }
}

pub(super) fn is_suffix(word: &str) -> bool {
    matches!(key(word).as_str(), "G" | "GT" | "GT/G" | "GC" | "GB" | "A" | "B")
}

/// How a tube was found, by a word, and which word that is; none where another word puts it in doubt.
pub(super) fn state(words: &[&str]) -> Option<(&'static str, usize)> {
    let doubted = words.iter().any(|word| word.contains('?') || DOUBTS.contains(&low(word).as_str()));
    if doubted {
        return None;
    }
    let mut found = None;
    for (at, word) in words.iter().enumerate() {
        let Some((state, _)) = STATES.iter().find(|state| state.1.contains(&low(word).as_str())) else { continue };
        match found {
            // The worse of two; that of "good" and another is never good.
            Some((known, _)) if known != "good" => {}
            _ => found = Some((*state, at)),
        }
    }
    found
}
