//! The speed budgets, measured. Timings on a shared machine are noisy: compare the figures of one run with each other.
#![allow(clippy::print_stdout, clippy::disallowed_methods, clippy::unwrap_used)]

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use stand_in::ask::answer_text;
use stand_in::book::Book;
use stand_in::supply::{Circuit, Filter, Load, Rectifier, Topology, steady};
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

/// The same circuit in ngspice, as short a run as settles it to 0.1 %, start of the program and reading of the deck included.
fn against_ngspice(circuit: &Circuit, solve_us: f64) {
    let crest_v = circuit.crest_v();
    let deck = format!(
        "half-wave\nVline line 0 SIN(0 {crest_v} 60 0 0 90)\nR1 line anode {}\nD1 anode first silicon\n.model silicon D(IS=7.0277n N=1.80803 RS=0.034151)\n\
         C1 first 0 40u IC=0\nB1 first 0 I=0.055*min(max(v(first)/5,0),1)\n.options method=gear maxord=2\n.tran 83.3u 0.6 0 83.3u uic\n\
         .meas tran first_v AVG v(first) from=0.4 to=0.6\n.end\n",
        circuit.source_ohm + circuit.series_ohm
    );
    let run = || {
        let mut child = Command::new("ngspice")
            .arg("-b")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .ok()?;
        child.stdin.take()?.write_all(deck.as_bytes()).ok()?;
        let output = child.wait_with_output().ok()?;
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        text.lines().find_map(|line| {
            line.strip_prefix("first_v")?.split('=').nth(1)?.split_whitespace().next()?.parse::<f64>().ok()
        })
    };
    let Some(theirs_v) = run() else {
        println!("ngspice not found or without an answer: no ratio");
        return;
    };
    let ours_v = steady(circuit).unwrap().first_v;
    let spice_us = least_us(5, 1, || {
        black_box(run());
    });
    println!(
        "the same in ngspice: {:.1} ms, {:.0} times as long ({theirs_v:.2} V there, {ours_v:.2} V here)",
        spice_us / 1e3,
        spice_us / solve_us
    );
}

fn main() {
    let book = Book::shipped();
    let tubes = book.tubes();
    let socket = Socket::fed_by(Supply::PARALLEL);
    let pairs = (tubes.len() * tubes.len()) as f64;
    let all = least_us(3, 1, || {
        for original in tubes {
            for candidate in tubes {
                black_box(judge(original, candidate, &socket, false));
            }
        }
    });
    println!("one swap judgement, averaged over {pairs} pairs: {:.3} us (budget 2 us)", all / pairs);

    for (way, supply) in [("series", Supply::SERIES), ("parallel", Supply::PARALLEL), ("battery", Supply::Battery)] {
        let socket = Socket::fed_by(supply);
        let mut counts = std::collections::BTreeMap::new();
        for (at, original) in tubes.iter().enumerate() {
            for (other, candidate) in tubes.iter().enumerate() {
                *counts.entry(judge(original, candidate, &socket, at == other).grade).or_insert(0_u32) += 1;
            }
        }
        println!("grades of all ordered pairs, {way}: {counts:?}");
    }

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
    let large = Circuit {
        topology: Topology::HalfWaveDoubler { series_uf: 100.0 },
        first_uf: 100.0,
        first_load: Load::ThreeHalves { ma: 60.0, at_v: 240.0 },
        filter: Some(Filter { ohm: 60.0, henry: 1.5, uf: 100.0, load: Load::ThreeHalves { ma: 120.0, at_v: 230.0 } }),
        series_ohm: 7.5,
        ..circuit.clone()
    };
    let doubler = least_us(5, 50, || {
        let _ = black_box(steady(black_box(&large)));
    });
    println!("a doubler with a choke, tubes as load: {doubler:.1} us (budget 500 us)");
    against_ngspice(&circuit, solve);

    let sheet = format!(r#"{{"ask":"sheet","sheet":{}}}"#, include_str!("../tables/demo_sheet.json"));
    let whole = least_us(5, 5, || {
        black_box(answer_text(&book, &sheet));
    });
    println!("a whole set of 5 tubes and 25 parts: {:.1} ms (budget 30 ms)", whole / 1e3);

    // 30 sets with a dead tube each, 20 types on the table, 300 rows in stock.
    let sets = vec![include_str!("../tables/demo_sheet.json").replacen("\"good\"", "\"dead\"", 1); 30].join(",");
    let types: Vec<&str> = tubes.iter().map(|tube| tube.name.as_str()).collect();
    let stock = types.iter().take(300).map(|name| format!("\"{name}\",2")).collect::<Vec<_>>().join("\n");
    let mut stocked = book.clone();
    stocked.load("stock", &format!("marking,count\n{stock}"));
    let typed = types.iter().step_by(types.len() / 20).copied().collect::<Vec<_>>().join(" ");
    for (ask, budget_ms, text) in [("on_the_table", 50, format!(r#""text":"{typed}","#)), ("wants", 100, String::new())]
    {
        let question = format!(r#"{{"ask":"{ask}",{text}"sheets":[{sets}]}}"#);
        let all = least_us(5, 2, || {
            black_box(answer_text(&stocked, &question));
        });
        println!("{ask} for 30 sets and 300 rows in stock: {:.1} ms (budget {budget_ms} ms)", all / 1e3);
    }

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
