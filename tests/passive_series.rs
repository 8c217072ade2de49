//! Preferred numbers and rated voltages against the published lists.

use proptest::prelude::*;
use stand_in::series::{Series, VoltageLadder};

const SERIES: &str = include_str!("tables/e_series.csv");
const VOLTAGES: &str = include_str!("tables/rated_voltage.csv");

#[test]
fn every_series_of_iec_60063_has_its_printed_members() {
    let mut walked = 0;
    for row in csv::Reader::from_reader(SERIES.as_bytes()).records() {
        let row = row.expect("row");
        let series = Series::ALL.into_iter().find(|series| series.name() == &row[0]).expect("series");
        let members: Vec<f64> = row[3].split(' ').map(|figure| figure.parse().expect("figure")).collect();
        assert_eq!(series.per_decade().to_string(), row[2], "count of {}", &row[0]);
        assert_eq!(series.members(), members, "members of {}", &row[0]);
        assert_eq!(series.tolerance_percent(), row[1].parse().ok(), "tolerance of {}", &row[0]);
        walked += 1;
    }
    assert_eq!(walked, 7);
}

#[test]
fn the_finer_series_hold_the_coarser_within_their_family() {
    // IEC 60063: E3 in E6 in E12 in E24; E48 in E96 in E192; E24 is no part of E96 (4.70 is not in it).
    for (coarse, fine) in [(0, 1), (1, 2), (2, 3), (4, 5), (5, 6)] {
        for member in Series::ALL[coarse].members() {
            assert!(Series::ALL[fine].contains(member), "{member} of {}", Series::ALL[coarse].name());
        }
    }
    assert!(!Series::E96.contains(4.7));
}

#[test]
fn every_voltage_step_is_on_a_published_list() {
    let mut walked = 0;
    for row in csv::Reader::from_reader(VOLTAGES.as_bytes()).records() {
        let row = row.expect("row");
        let ladder = match &row[0] {
            "electrolytic" => VoltageLadder::Electrolytic,
            "film DC" => VoltageLadder::FilmDc,
            "mica" => VoltageLadder::Mica,
            "ceramic disc" => VoltageLadder::CeramicDisc,
            "X2 AC" => VoltageLadder::X2Ac,
            "Y2 AC" => VoltageLadder::Y2Ac,
            "Y1 AC" => VoltageLadder::Y1Ac,
            other => panic!("no ladder named {other}"),
        };
        let published: Vec<f64> = row[1].split(' ').map(|figure| figure.parse().expect("figure")).collect();
        for step in ladder.volts() {
            assert!(published.contains(step), "{step} V {}", &row[0]);
        }
        walked += 1;
    }
    assert_eq!(walked, 7);
}

proptest! {
    #[test]
    fn neighbours_enclose_and_are_members(mantissa in 1.0f64..10.0, exponent in -14i32..12, which in 0usize..7) {
        let value = mantissa * 10f64.powi(exponent);
        let series = Series::ALL[which];
        let (below, above) = (series.at_most(value).unwrap(), series.at_least(value).unwrap());
        let nearest = series.nearest(value).unwrap();
        prop_assert!(below <= value * 1.000001 && above >= value * 0.999999);
        prop_assert!(nearest == below || nearest == above);
        prop_assert!((nearest - value).abs() <= (below - value).abs().min((above - value).abs()) * 1.000001);
        prop_assert!(series.contains(below) && series.contains(above));
        prop_assert!(below == above || series.next_above(below) == Some(above));
        prop_assert!(series.next_below(below).unwrap() < below && series.next_above(above).unwrap() > above);
    }
}
