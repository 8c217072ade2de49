//! How the tables of supply circuits write a rectifier and a load.

use stand_in::supply::{Load, Rectifier};

/// `silicon`; `drop` with fixed volts; `selenium` with plates, volts a plate, ohms of the stack; `vacuum` with drop volts and milliamps; `unknown`.
pub fn rectifier(law: &str, a: Option<f64>, b: Option<f64>, c: Option<f64>) -> Option<Rectifier> {
    match (law, a, b, c) {
        ("silicon", None, None, None) => Some(Rectifier::Silicon),
        ("drop", Some(drop_v), None, None) => Some(Rectifier::ConstantDrop { drop_v }),
        ("selenium", Some(plates), Some(plate_v), Some(stack_ohm)) => {
            Some(Rectifier::Selenium { plates, plate_v, plate_ohm: stack_ohm / plates })
        }
        ("vacuum", Some(drop_v), Some(drop_ma), None) => Some(Rectifier::Vacuum { drop_v, drop_ma }),
        ("unknown", None, None, None) => None,
        other => panic!("no rectifier: {other:?}"),
    }
}

/// `none`, `55 mA`, `2200 ohm`, `50 mA at 110 V`.
pub fn load(written: &str) -> Load {
    let words: Vec<&str> = written.split(' ').collect();
    let figure = |text: &str| text.parse().unwrap_or_else(|_| panic!("no figure: {text}"));
    match words[..] {
        ["none"] => Load::None,
        [ma, "mA"] => Load::Current { ma: figure(ma) },
        [ohm, "ohm"] => Load::Resistance { ohm: figure(ohm) },
        [ma, "mA", "at", at_v, "V"] => Load::ThreeHalves { ma: figure(ma), at_v: figure(at_v) },
        _ => panic!("no load: {written}"),
    }
}
