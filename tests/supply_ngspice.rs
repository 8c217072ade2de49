//! The solver against ngspice, a general-purpose circuit simulator (Debian package `ngspice`).
//!
//! Every circuit is simulated from empty capacitors, switched on at the crest of the line, for 1.6 s; the last twelve
//! cycles are measured. Gear order 2, reltol 1e-5, 400 steps a cycle: a finer step moves the figures by less than 1e-4.

use std::collections::HashMap;
use std::io::Write;
use std::process::{Command, Stdio};

use stand_in::supply::{Circuit, Filter, Load, Rectifier, cold_start, steady};

/// The figures ngspice is asked for: name and measurement over the steady cycles.
const MEASURED: [(&str, &str); 9] = [
    ("first_v", "AVG v(first)"),
    ("first_ripple_v", "PP v(first)"),
    ("second_v", "AVG v(second)"),
    ("second_ripple_v", "PP v(second)"),
    ("dc_a", "AVG i(vpulse)"),
    ("rms_a", "RMS i(vpulse)"),
    ("peak_a", "MAX i(vpulse)"),
    ("capacitor_a", "RMS i(vcapacitor)"),
    ("inverse_v", "MAX v(inverse)"),
];

fn load_card(name: &str, node: &str, load: Load) -> String {
    match load {
        Load::None => String::new(),
        // A fixed current would pull an empty capacitor below zero: let go below 5 V.
        Load::Current { ma } => format!("B{name} {node} 0 I={}*min(max(v({node})/5,0),1)\n", ma / 1e3),
        Load::Resistance { ohm } => format!("R{name} {node} 0 {ohm}\n"),
        Load::ThreeHalves { ma, at_v } => {
            format!("B{name} {node} 0 I={}*pow(max(v({node}),0)/{at_v},1.5)\n", ma / 1e3)
        }
    }
}

/// The circuit as a SPICE deck; written from the circuit's physics, with none of the solver's figures.
fn deck(circuit: &Circuit) -> String {
    let cycle = 1.0 / circuit.line_hz;
    let (from, to) = (1.6 - 12.0 * cycle, 1.6);
    let mut deck = format!(
        "half-wave\nVline line 0 SIN(0 {} {} 0 0 90)\nRseries line anode {}\n",
        circuit.line_v * 2.0_f64.sqrt(),
        circuit.line_hz,
        circuit.source_ohm + circuit.series_ohm
    );
    deck += &match circuit.rectifier {
        Rectifier::Silicon => {
            "D1 anode cathode silicon\n.model silicon D(IS=7.0277n N=1.80803 RS=0.034151)\n".to_owned()
        }
        Rectifier::ConstantDrop { .. } => unreachable!("no case here uses it"),
        Rectifier::Selenium { plates, plate_v, plate_ohm } => {
            format!("B1 anode cathode I=max(v(anode,cathode)-{},0)/{}\n", plates * plate_v, plates * plate_ohm)
        }
        Rectifier::Vacuum { drop_v, drop_ma } => {
            format!("B1 anode cathode I={}*pow(max(v(anode,cathode),0)/{drop_v},1.5)\n", drop_ma / 1e3)
        }
    };
    deck += &format!("Vpulse cathode first 0\nVcapacitor first c1 0\nC1 c1 0 {}u IC=0\n", circuit.first_uf);
    deck += &load_card("load1", "first", circuit.first_load);
    if let Some(filter) = &circuit.filter {
        deck += &format!("Rfilter first second {}\nC2 second 0 {}u IC=0\n", filter.ohm, filter.uf);
        deck += &load_card("load2", "second", filter.load);
    }
    deck += "Binverse inverse 0 V=v(first)-v(line)\n";
    deck +=
        &format!(".options method=gear maxord=2 reltol=1e-5\n.tran {step} 1.6 0 {step} uic\n", step = cycle / 400.0);
    for (name, measure) in MEASURED {
        if circuit.filter.is_some() || !name.starts_with("second") {
            deck += &format!(".meas tran {name} {measure} from={from} to={to}\n");
        }
    }
    deck += ".meas tran inrush_a MAX i(vpulse) from=0 to=1m\n.end\n";
    deck
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

const TUBE_35: Rectifier = Rectifier::Vacuum { drop_v: 18.0, drop_ma: 200.0 };
const FRESH_STACK: Rectifier = Rectifier::Selenium { plates: 5.0, plate_v: 0.8, plate_ohm: 4.0 };

/// Line V and Hz, rectifier, source and series ohms, first capacitor and its load, filter.
type Case = (&'static str, f64, f64, Rectifier, (f64, f64), f64, Load, Option<(f64, f64, Load)>);

fn cases() -> Vec<Case> {
    use Rectifier::{Selenium, Silicon, Vacuum};
    let current = |ma| Load::Current { ma };
    let tubes = |ma, at_v| Load::ThreeHalves { ma, at_v };
    vec![
        ("silicon, 68 ohm, fixed current", 123.0, 60.0, Silicon, (1.0, 68.0), 40.0, current(55.0), None),
        (
            "silicon, 22 ohm, CRC",
            117.0,
            60.0,
            Silicon,
            (2.0, 22.0),
            50.0,
            current(35.0),
            Some((1200.0, 30.0, current(18.0))),
        ),
        (
            "silicon, all behind the filter",
            120.0,
            60.0,
            Silicon,
            (1.0, 47.0),
            47.0,
            Load::None,
            Some((330.0, 47.0, tubes(50.0, 110.0))),
        ),
        ("silicon, nearly no resistance", 120.0, 60.0, Silicon, (1.0, 4.5), 150.0, current(60.0), None),
        (
            "silicon, 230 V 50 Hz",
            230.0,
            50.0,
            Silicon,
            (5.0, 120.0),
            47.0,
            current(20.0),
            Some((1000.0, 47.0, tubes(40.0, 200.0))),
        ),
        ("selenium, fresh", 117.0, 60.0, FRESH_STACK, (2.0, 22.0), 40.0, current(53.0), None),
        (
            "selenium, aged, CRC",
            117.0,
            60.0,
            Selenium { plates: 5.0, plate_v: 1.0, plate_ohm: 24.0 },
            (2.0, 22.0),
            40.0,
            tubes(35.0, 110.0),
            Some((1000.0, 40.0, tubes(15.0, 90.0))),
        ),
        (
            "selenium, 230 V 50 Hz",
            230.0,
            50.0,
            Selenium { plates: 10.0, plate_v: 0.7, plate_ohm: 6.0 },
            (4.0, 50.0),
            50.0,
            Load::Resistance { ohm: 4300.0 },
            None,
        ),
        ("35 V tube, no resistor", 117.0, 60.0, TUBE_35, (2.5, 0.0), 40.0, current(58.0), None),
        (
            "35 V tube, resistance load",
            117.0,
            60.0,
            Vacuum { drop_v: 21.0, drop_ma: 200.0 },
            (1.0, 0.0),
            30.0,
            Load::Resistance { ohm: 2200.0 },
            None,
        ),
        (
            "35 V tube, 100 V 50 Hz, CRC",
            100.0,
            50.0,
            TUBE_35,
            (1.0, 15.0),
            30.0,
            current(30.0),
            Some((1500.0, 30.0, tubes(18.0, 80.0))),
        ),
        (
            "38 V tube, 230 V, small first filter",
            230.0,
            50.0,
            Vacuum { drop_v: 22.0, drop_ma: 110.0 },
            (4.0, 100.0),
            8.0,
            current(60.0),
            Some((1000.0, 32.0, Load::None)),
        ),
    ]
}

#[test]
fn the_solver_agrees_with_ngspice() {
    let mut worst: HashMap<&str, (f64, &str)> = HashMap::new();
    let mut failures = Vec::new();
    for (name, line_v, line_hz, rectifier, (source_ohm, series_ohm), first_uf, first_load, filter) in cases() {
        let filter = filter.map(|(ohm, uf, load)| Filter { ohm, uf, load });
        let circuit = Circuit { line_v, line_hz, rectifier, source_ohm, series_ohm, first_uf, first_load, filter };
        let found = simulate(&circuit);
        let warm = steady(&circuit).expect("solved");
        let cold = cold_start(&circuit).expect("solved");
        let mut compared = vec![
            ("first_v", warm.first_v, 0.002),
            ("first_ripple_v", warm.first_ripple_v, 0.01),
            // ngspice's own mean is 0.3 % off the 60 mA drawn where the pulses are shortest.
            ("dc_a", warm.dc_ma / 1e3, 0.005),
            ("rms_a", warm.rms_ma / 1e3, 0.01),
            ("capacitor_a", warm.capacitor_ma / 1e3, 0.01),
            ("peak_a", warm.peak_a, 0.02),
            ("inverse_v", warm.inverse_v, 0.002),
            ("inrush_a", cold.inrush_a, 0.02),
        ];
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
            let entry = worst.entry(figure).or_insert((0.0, name));
            if off > entry.0 {
                *entry = (off, name);
            }
        }
    }
    let mut summary: Vec<_> = worst.into_iter().collect();
    summary.sort_by_key(|(figure, _)| *figure);
    let summary: String = summary
        .iter()
        .map(|(figure, (off, name))| format!("  {figure}: at worst {:.4} % ({name})\n", off * 100.0))
        .collect();
    assert!(failures.is_empty(), "{}\nworst per figure:\n{summary}", failures.join("\n"));
    // Shown with `cargo test -- --nocapture`.
    std::io::stderr().write_all(summary.as_bytes()).expect("standard error takes text");
}
