//! The solver against ngspice, a general-purpose circuit simulator (Debian package `ngspice`).
//!
//! Every circuit is simulated from empty capacitors, switched on at the crest of the line, for 1.6 s; the last twelve
//! cycles are measured. Gear order 2, reltol 1e-5, 400 steps a cycle: a finer step moves the figures by less than 1e-4.

#![allow(clippy::expect_used, clippy::panic, reason = "a test fails by panicking, its helping functions too")]

use std::collections::{BTreeMap, HashMap};
use std::io::Write;
use std::process::{Command, Stdio};

use stand_in::supply::{Circuit, Filter, Load, Rectifier, Topology, cold_start, steady};

mod common;

/// The figures ngspice is asked for: name and measurement over the steady cycles.
const MEASURED: [(&str, &str); 14] = [
    ("first_v", "AVG v(first)"),
    ("first_ripple_v", "PP v(first)"),
    ("second_v", "AVG v(second)"),
    ("second_ripple_v", "PP v(second)"),
    ("dc_a", "AVG i(vpulse)"),
    ("rms_a", "RMS v(lead)"),
    ("peak_a", "MAX i(vpulse)"),
    ("peak2_a", "MAX i(vleg2)"),
    ("each_a", "RMS i(vleg)"),
    ("other_a", "RMS i(vleg2)"),
    ("heat_w", "AVG v(heat)"),
    ("capacitor_a", "RMS i(vcapacitor)"),
    ("capacitor2_a", "RMS i(vcapacitor2)"),
    ("inverse_v", "MAX v(inverse)"),
];

fn load_card(name: &str, node: &str, load: Load) -> String {
    match load {
        Load::None => "* no load".to_owned(),
        // A fixed current would pull an empty capacitor below zero: let go below 5 V.
        Load::Current { ma } => format!("B{name} {node} 0 I={}*min(max(v({node})/5,0),1)", ma / 1e3),
        Load::Resistance { ohm } => format!("R{name} {node} 0 {ohm}"),
        Load::ThreeHalves { ma, at_v } => format!("B{name} {node} 0 I={}*pow(max(v({node}),0)/{at_v},1.5)", ma / 1e3),
    }
}

/// One rectifier between two nodes.
fn rectifier_card(name: &str, rectifier: Rectifier, anode: &str, cathode: &str) -> String {
    match rectifier {
        Rectifier::Silicon => format!("D{name} {anode} {cathode} silicon"),
        Rectifier::ConstantDrop { drop_v } => {
            format!("B{name} {anode} {cathode} I=max(v({anode},{cathode})-{drop_v},0)*1e3")
        }
        Rectifier::Selenium { plates, plate_v, plate_ohm } => format!(
            "B{name} {anode} {cathode} I=max(v({anode},{cathode})-{},0)/{}",
            plates * plate_v,
            plates * plate_ohm
        ),
        Rectifier::Vacuum { drop_v, drop_ma } => {
            format!("B{name} {anode} {cathode} I={}*pow(max(v({anode},{cathode}),0)/{drop_v},1.5)", drop_ma / 1e3)
        }
    }
}

/// The circuit as a SPICE deck; written from the circuit's physics, with none of the solver's figures.
fn deck(circuit: &Circuit) -> String {
    let cycle = 1.0 / circuit.line_hz;
    let crest_v = circuit.line_v * 2.0_f64.sqrt();
    let source = |name: &str, plus: &str, minus: &str, crest_v: f64| {
        format!("V{name} {plus} {minus} SIN(0 {crest_v} {} 0 0 90)", circuit.line_hz)
    };
    let ohm = circuit.source_ohm + circuit.series_ohm;
    let rectifier = |name: &str, anode: &str, cathode: &str| rectifier_card(name, circuit.rectifier, anode, cathode);
    let first = format!("C1 c1 0 {}u IC=0", circuit.first_uf);
    let mut cards = vec!["supply".to_owned(), ".model silicon D(IS=7.0277n N=1.80803 RS=0.034151)".to_owned()];
    let mut add = |added: &[String]| cards.extend_from_slice(added);
    let share = circuit.series_ohm / ohm;
    let heat = format!("Bheat heat 0 V={share}*v(line,anode)*v(line,anode)/{ohm}");
    let plain = |text: &str| text.to_owned();
    match circuit.topology {
        Topology::HalfWave => add(&[
            source("line", "line", "0", crest_v),
            format!("Rseries line anode {ohm}"),
            rectifier("one", "anode", "cathode"),
            plain("Vleg cathode joint 0"),
            plain("Vpulse joint first 0"),
            plain("Vcapacitor first c1 0"),
            first,
            plain("Binverse inverse 0 V=v(first)-v(line)"),
            plain("Blead lead 0 V=i(vpulse)"),
            heat,
        ]),
        Topology::CentreTap => add(&[
            source("line", "line", "0", crest_v),
            source("other", "line2", "0", -crest_v),
            format!("Rseries line anode {ohm}"),
            format!("Rseries2 line2 anode2 {ohm}"),
            rectifier("one", "anode", "cathode"),
            rectifier("two", "anode2", "joint"),
            plain("Vleg cathode joint 0"),
            plain("Vpulse joint first 0"),
            plain("Vcapacitor first c1 0"),
            first,
            plain("Binverse inverse 0 V=v(first)-v(line)"),
            plain("Blead lead 0 V=i(vpulse)"),
            format!("Bheat heat 0 V={share}*(v(line,anode)*v(line,anode)+v(line2,anode2)*v(line2,anode2))/{ohm}"),
        ]),
        Topology::Bridge => add(&[
            source("line", "line", "other", crest_v),
            format!("Rseries line anode {ohm}"),
            rectifier("one", "anode", "cathode"),
            rectifier("two", "other", "joint"),
            rectifier("three", "0", "anode"),
            rectifier("four", "0", "other"),
            // With all four shut the line would float.
            plain("Rleak1 anode 0 10meg"),
            plain("Rleak2 other 0 10meg"),
            plain("Vleg cathode joint 0"),
            plain("Vpulse joint first 0"),
            plain("Vcapacitor first c1 0"),
            first,
            plain("Blead lead 0 V=i(vpulse)"),
            heat,
        ]),
        Topology::FullWaveDoubler { other_uf } => add(&[
            source("line", "line", "middle", crest_v),
            format!("Rseries line anode {ohm}"),
            rectifier("one", "anode", "cathode"),
            rectifier("two", "foot", "anode"),
            plain("Vleg cathode joint 0"),
            plain("Vpulse joint first 0"),
            plain("Vleg2 0 foot 0"),
            plain("Vcapacitor first c1 0"),
            format!("C1 c1 middle {}u IC=0", circuit.first_uf),
            plain("Vcapacitor2 middle c3 0"),
            format!("C3 c3 0 {other_uf}u IC=0"),
            plain("Binverse inverse 0 V=max(v(first)-v(anode),v(anode))"),
            format!("Blead lead 0 V=v(line,anode)/{ohm}"),
            heat,
        ]),
        Topology::HalfWaveDoubler { series_uf } => add(&[
            source("line", "line", "0", crest_v),
            format!("Rseries line anode {ohm}"),
            plain("Vcapacitor2 anode c3 0"),
            format!("C3 c3 pump {series_uf}u IC=0"),
            rectifier("two", "foot", "pump"),
            plain("Vleg2 0 foot 0"),
            rectifier("one", "pump", "cathode"),
            plain("Vleg cathode joint 0"),
            plain("Vpulse joint first 0"),
            plain("Vcapacitor first c1 0"),
            first,
            plain("Binverse inverse 0 V=max(v(first)-v(pump),v(pump))"),
            format!("Blead lead 0 V=v(line,anode)/{ohm}"),
            heat,
        ]),
    }
    cards.push(load_card("load1", "first", circuit.first_load));
    if let Some(filter) = &circuit.filter {
        if filter.henry > 0.0 {
            cards.push(format!("Rfilter first choke {}\nL1 choke second {} IC=0", filter.ohm, filter.henry));
        } else {
            cards.push(format!("Rfilter first second {}", filter.ohm));
        }
        cards.push(format!("C2 second 0 {}u IC=0", filter.uf));
        cards.push(load_card("load2", "second", filter.load));
    }
    cards.push(".options method=gear maxord=2 reltol=1e-5".to_owned());
    cards.push(format!(".tran {step} 1.6 0 {step} uic", step = cycle / 400.0));
    let text = cards.join("\n").to_lowercase();
    for (name, measure) in MEASURED {
        let node = measure.split(['(', ')']).nth(1).unwrap_or_default();
        if text.contains(&format!("{node} ")) {
            cards.push(format!(".meas tran {name} {measure} from={} to=1.6", 1.6 - 12.0 * cycle));
        }
    }
    // The first charge of all; later ones of a doubler's other capacitor are no higher.
    cards.push(".meas tran inrush_a MAX v(lead) from=0 to=1m".to_owned());
    cards.push(".end\n".to_owned());
    cards.join("\n")
}

fn simulate(circuit: &Circuit) -> HashMap<String, f64> {
    let mut child = Command::new("ngspice")
        .arg("-b")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("this test runs `ngspice`: install it (on Debian: apt-get install ngspice)");
    child.stdin.take().expect("piped").write_all(deck(circuit).as_bytes()).expect("ngspice reads its deck");
    let output = child.wait_with_output().expect("ngspice ends");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let figures: HashMap<String, f64> = text
        .lines()
        .filter_map(|line| line.split_once('='))
        .filter_map(|(name, rest)| Some((name.trim().to_owned(), rest.split_whitespace().next()?.parse().ok()?)))
        .collect();
    assert!(
        figures.contains_key("first_v") && figures.contains_key("inrush_a"),
        "ngspice measured nothing:\n{text}\n{}",
        String::from_utf8_lossy(&output.stderr)
    );
    figures
}

#[derive(serde::Deserialize)]
struct Row {
    circuit: String,
    topology: String,
    line_v: f64,
    line_hz: f64,
    law: String,
    a: Option<f64>,
    b: Option<f64>,
    c: Option<f64>,
    source_ohm: f64,
    series_ohm: f64,
    first_uf: f64,
    doubler_uf: Option<f64>,
    first_load: String,
    filter_ohm: Option<f64>,
    filter_henry: Option<f64>,
    second_uf: Option<f64>,
    second_load: String,
}

fn circuits() -> Vec<(String, Circuit)> {
    let table = include_str!("tables/supply_circuits.csv");
    let rows = csv::Reader::from_reader(table.as_bytes()).into_deserialize();
    rows.map(|row| {
        let row: Row = row.expect("a row of the table");
        let filter = row.filter_ohm.zip(row.second_uf);
        let topology = match (row.topology.as_str(), row.doubler_uf) {
            ("half_wave", None) => Topology::HalfWave,
            ("centre_tap", None) => Topology::CentreTap,
            ("bridge", None) => Topology::Bridge,
            ("full_wave_doubler", Some(other_uf)) => Topology::FullWaveDoubler { other_uf },
            ("half_wave_doubler", Some(series_uf)) => Topology::HalfWaveDoubler { series_uf },
            other => panic!("no topology: {other:?}"),
        };
        let circuit = Circuit {
            topology,
            line_v: row.line_v,
            line_hz: row.line_hz,
            rectifier: common::rectifier(&row.law, row.a, row.b, row.c).expect("a rectifier"),
            source_ohm: row.source_ohm,
            series_ohm: row.series_ohm,
            first_uf: row.first_uf,
            first_load: common::load(&row.first_load),
            filter: filter.map(|(ohm, uf)| Filter {
                ohm,
                henry: row.filter_henry.unwrap_or(0.0),
                uf,
                load: common::load(&row.second_load),
            }),
        };
        (row.circuit, circuit)
    })
    .collect()
}

#[test]
fn the_solver_agrees_with_ngspice() {
    let mut worst: BTreeMap<&str, (f64, String)> = BTreeMap::new();
    let mut failures = Vec::new();
    let circuits = circuits();
    assert!(circuits.len() >= 40);
    for (name, circuit) in circuits {
        let mut found = simulate(&circuit);
        for (figure, other) in [("each_a", "other_a"), ("capacitor_a", "capacitor2_a"), ("peak_a", "peak2_a")] {
            let busier = found.get(other).copied().unwrap_or(0.0);
            found.entry(figure.to_owned()).and_modify(|amps| *amps = amps.max(busier));
        }
        let warm = steady(&circuit).unwrap_or_else(|trouble| panic!("{name}: {trouble:?}"));
        let cold = cold_start(&circuit).expect("solved");
        let mut compared = vec![
            ("first_v", warm.first_v, 0.002),
            ("first_ripple_v", warm.first_ripple_v, 0.01),
            // ngspice's own mean is 0.3 % off the 60 mA drawn where the pulses are shortest.
            ("dc_a", warm.dc_ma / 1e3, 0.004),
            ("rms_a", warm.rms_ma / 1e3, 0.01),
            ("each_a", warm.each_rms_ma / 1e3, 0.01),
            ("capacitor_a", warm.capacitor_ma / 1e3, 0.01),
            ("peak_a", warm.peak_a, 0.02),
            ("inrush_a", cold.inrush_a, 0.02),
        ];
        if circuit.series_ohm > 0.0 {
            compared.push(("heat_w", warm.series_w, 0.01));
        }
        match circuit.topology {
            // Two in series share it there.
            Topology::Bridge => {}
            _ => compared.push(("inverse_v", warm.inverse_v, 0.005)),
        }
        if circuit.filter.is_some() {
            compared.push(("second_v", warm.second_v.expect("second filter"), 0.002));
            compared.push(("second_ripple_v", warm.second_ripple_v.expect("second filter"), 0.01));
        }
        for (figure, ours, allowed) in compared {
            let theirs = *found.get(figure).unwrap_or_else(|| panic!("{name}: ngspice gave no {figure}"));
            let off = (ours / theirs - 1.0).abs();
            if off.is_nan() || off > allowed {
                failures.push(format!("{name}: {figure} {ours} here, {theirs} in ngspice, {:.3} % off", off * 100.0));
            }
            let entry = worst.entry(figure).or_default();
            if off > entry.0 {
                *entry = (off, name.clone());
            }
        }
    }
    assert!(failures.is_empty(), "{}\n{worst:#?}", failures.join("\n"));
    // Shown with `cargo test -- --nocapture`: the largest difference in each figure, as a share, and where.
    writeln!(std::io::stderr(), "{worst:#?}").expect("standard error takes text");
}
