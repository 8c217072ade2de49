//! The README shows real answers: every question in it is asked, and the answer has to be the one printed below it.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, clippy::format_push_string)]

use stand_in::ask::answer_text;
use stand_in::book::{Base, Book, Function};

/// Words and sentence of an answer, folded to lines a page can show.
fn shown(book: &Book, question: &str) -> String {
    let answer: serde_json::Value = serde_json::from_str(&answer_text(book, question)).unwrap();
    let verdict = &answer["verdict"];
    let text = format!("{} {}", verdict["word"].as_str().unwrap(), verdict["says"].as_str().unwrap());
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let last = lines.last_mut().unwrap();
        if last.len() + word.len() > 100 {
            lines.push(word.to_owned());
        } else {
            last.push_str(if last.is_empty() { "" } else { " " });
            last.push_str(word);
        }
    }
    lines.join("\n")
}

/// How many types the book holds, family by family.
fn counts(book: &Book) -> String {
    let tubes = book.tubes();
    let list = |all: Vec<(String, usize)>| {
        let all: Vec<String> =
            all.into_iter().filter(|row| row.1 > 0).map(|(words, count)| format!("{words} {count}")).collect();
        all.join(", ")
    };
    let every = |words: &[&'static str]| 0..words.len();
    let bases = every(Base::WORDS).filter_map(Base::at).map(|base| {
        let count = tubes.iter().filter(|tube| tube.base == Some(base)).count();
        (base.text().to_owned(), count)
    });
    let functions = every(Function::WORDS).filter_map(Function::at).map(|function| {
        let count = tubes.iter().filter(|tube| tube.functions().first() == Some(&function)).count();
        (function.words().to_owned(), count)
    });
    let amps = [0.1, 0.15, 0.3, 0.45, 0.6].map(|amps: f64| {
        let count = tubes.iter().filter(|tube| tube.figures.heater_a == Some(amps)).count();
        (format!("{amps} A"), count)
    });
    let pins = tubes.iter().filter(|tube| tube.pins.is_some()).count();
    format!(
        "`data/tubes.csv` holds {} types, {pins} of them with every pin, and `data/names.csv` {} other names. By base: {}. By what the first unit does: {}. Heaters for strings of {}.",
        tubes.len(),
        book.names().len(),
        list(bases.collect()),
        list(functions.collect()),
        list(amps.to_vec())
    )
}

/// Run with `UPDATE_README=1` to renew the answers after looking at what changed.
#[test]
#[allow(clippy::disallowed_methods)]
fn the_six_answers_are_real() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/README.md");
    let readme = std::fs::read_to_string(path).unwrap();
    let book = Book::shipped();
    let mut now = String::new();
    let mut asked = 0;
    let mut rest = readme.as_str();
    while let Some(start) = rest.find("```json\n") {
        let (before, tail) = rest.split_at(start + "```json\n".len());
        let (question, tail) = tail.split_once("\n```\n```text\n").expect("an answer below the question");
        let (_, tail) = tail.split_once("```\n").expect("the answer's end");
        now.push_str(before);
        now.push_str(&format!("{question}\n```\n```text\n{}\n```\n", shown(&book, question)));
        rest = tail;
        asked += 1;
    }
    now.push_str(rest);
    assert_eq!(asked, 6);
    let (before, after) = now.split_once("`data/tubes.csv` holds ").expect("the counts");
    let (_, after) = after.split_once("\n\n").expect("a paragraph after the counts");
    let now = format!("{before}{}\n\n{after}", counts(&book));
    if std::env::var("UPDATE_README").is_ok() {
        std::fs::write(path, &now).unwrap();
        return;
    }
    assert!(
        now == readme,
        "the README's answers or counts are no longer what they are; look at `UPDATE_README=1 cargo test --test readme`"
    );
}
