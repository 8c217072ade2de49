//! The speed budgets, measured. Timings on a shared machine are noisy: compare the figures of one run with each other.
#![allow(clippy::print_stdout, clippy::disallowed_methods, clippy::unwrap_used)]

use std::hint::black_box;
use std::time::Instant;

use stand_in::ask::answer_text;
use stand_in::book::Book;
use stand_in::supply::{Circuit, Load, Rectifier, Topology, steady};
use stand_in::swap::{Socket, Supply, judge};

/// Microseconds a call takes, the least of several rounds.
fn least_us(rounds: u32, calls: u32, mut call: impl FnMut()) -> f64 {
    (0..rounds)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..calls {
                call();
            }
            start.elapsed().as_secs_f64() * 1e6 / f64::from(calls)
        })
        .fold(f64::INFINITY, f64::min)
}

fn main() {
    let book = Book::shipped();
    let tubes = book.tubes();
    let socket = Socket::fed_by(Supply::Parallel { volts: None, spare_amps: None });
    let pairs = (tubes.len() * tubes.len()) as f64;
    let all = least_us(3, 1, || {
        for original in tubes {
            for candidate in tubes {
                black_box(judge(original, candidate, &socket, false));
            }
        }
    });
    println!("one swap judgement, averaged over {pairs} pairs: {:.3} us (budget 2 us)", all / pairs);

    let circuit = Circuit {
        topology: Topology::HalfWave,
        line_v: 120.0,
        line_hz: 60.0,
        rectifier: Rectifier::Silicon,
        source_ohm: 1.0,
        series_ohm: 68.0,
        first_uf: 40.0,
        first_load: Load::Current { ma: 55.0 },
        filter: None,
    };
    let solve = least_us(5, 200, || {
        let _ = black_box(steady(black_box(&circuit)));
    });
    println!("one rectifier circuit solved: {solve:.1} us (budget 500 us)");

    // A book of 10,000 rows: the shipped one over and over under other names.
    let shipped = book.export("tubes").unwrap();
    let mut reader = csv::Reader::from_reader(shipped.as_bytes());
    let header = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let many = |count: usize| {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(&header).unwrap();
        for at in 0..count {
            let row = &rows[at % rows.len()];
            let mut cells: Vec<String> = row.iter().map(str::to_owned).collect();
            cells[0] = format!("{}#{}", cells[0], at / rows.len());
            writer.write_record(&cells).unwrap();
        }
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    };
    let mut large = Book::shipped();
    large.load("tubes", &many(10_000));
    let question = r#"{"ask":"candidates","original":"12SK7","socket":{"supply":{"kind":"series"}}}"#;
    let candidates = least_us(5, 5, || {
        black_box(answer_text(&large, question));
    });
    println!("candidates over {} types, native: {:.2} ms", large.tubes().len(), candidates / 1000.0);

    let text = many(100_000);
    let parse = least_us(3, 1, || {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        black_box(reader.records().flatten().count());
    });
    // Taking the book apart again is no part of loading it.
    let load = (0..5)
        .map(|_| {
            let mut book = Book::default();
            let start = Instant::now();
            black_box(book.load("tubes", &text));
            start.elapsed().as_secs_f64() * 1e6
        })
        .fold(f64::INFINITY, f64::min);
    println!(
        "100,000 rows ({} MB): csv crate alone {:.0} ms, load and check {:.0} ms, {:.2} times (budget 3)",
        text.len() >> 20,
        parse / 1000.0,
        load / 1000.0,
        load / parse
    );
}
