//! The socket as far as it was described: one supply when it is known, else every way the original's heater may be fed.

use super::super::ErrorAnswer;
use super::super::accepted::Fields;
use super::super::tube;
use crate::book::pins::MOST_PINS;
use crate::book::{Book, Function, HeaterKind, Tube};
use crate::heater::same_a;
use crate::swap::words;
use crate::swap::{Socket, Supply};

/// How the heaters of the set are fed; tagged `kind`.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(tag = "kind", rename_all = "snake_case"))]
pub enum SupplyQuestion {
    /// One string across the line.
    Series {
        /// String current, amperes; left out: the original's heater current.
        #[cfg_attr(test, ts(optional))]
        amps: Option<f64>,
        /// Line volts; left out: 117 is taken where only the sum of the string matters.
        #[cfg_attr(test, ts(optional))]
        line_v: Option<f64>,
        /// The other types in the string, when known.
        #[cfg_attr(test, ts(optional))]
        others: Option<Vec<String>>,
        /// How many of the others, the last ones, lie between this tube and chassis; the others in the order they are wired, from the line end.
        #[cfg_attr(test, ts(optional))]
        chassis_side: Option<u32>,
        /// Dropper, ballast or line-cord resistor in series with the string, ohms.
        #[cfg_attr(test, ts(optional))]
        dropper_ohm: Option<f64>,
    },
    /// All heaters across one winding or battery.
    Parallel {
        /// Heater volts of the set; left out: the original's.
        #[cfg_attr(test, ts(optional))]
        volts: Option<f64>,
        /// Current the winding has to spare, amperes.
        #[cfg_attr(test, ts(optional))]
        spare_amps: Option<f64>,
    },
    /// Dry batteries, filament tubes.
    Battery,
}

impl From<&Fields<'_>> for SupplyQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        let number = |name| fields.number(name);
        match fields.text("kind").as_str() {
            "series" => Self::Series {
                amps: number("amps"),
                line_v: number("line_v"),
                others: fields.texts("others"),
                chassis_side: fields.whole("chassis_side"),
                dropper_ohm: number("dropper_ohm"),
            },
            "parallel" => Self::Parallel { volts: number("volts"), spare_amps: number("spare_amps") },
            _ => Self::Battery,
        }
    }
}

/// What is known of the socket.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SocketQuestion {
    /// How the heaters are fed; left out: both ways are answered side by side.
    #[cfg_attr(test, ts(optional))]
    pub supply: Option<SupplyQuestion>,
    /// The highest DC volts the set puts on the plate.
    #[cfg_attr(test, ts(optional))]
    pub plate_v: Option<f64>,
    /// The highest DC volts the set puts on the screen.
    #[cfg_attr(test, ts(optional))]
    pub screen_v: Option<f64>,
    /// The plate current in the set, milliamps.
    #[cfg_attr(test, ts(optional))]
    pub plate_ma: Option<f64>,
    /// Pins the original leaves empty that have something soldered to them; an empty list says: looked, nothing there.
    #[cfg_attr(test, ts(optional))]
    pub tie_points: Option<Vec<u8>>,
    /// Whether the stage is controlled by AGC (automatic gain control).
    #[cfg_attr(test, ts(optional))]
    pub agc: Option<bool>,
    /// Cathode resistor of the stage, ohms.
    #[cfg_attr(test, ts(optional))]
    pub cathode_ohm: Option<f64>,
    /// Plate load of the stage, or what the output transformer shows, kilohms.
    #[cfg_attr(test, ts(optional))]
    pub load_kohm: Option<f64>,
    /// B+ that the plate load hangs on, volts.
    #[cfg_attr(test, ts(optional))]
    pub b_plus_v: Option<f64>,
    /// What the stage is tuned to, kilohertz.
    #[cfg_attr(test, ts(optional))]
    pub tuned_khz: Option<f64>,
    /// Capacitance across its coil, picofarads.
    #[cfg_attr(test, ts(optional))]
    pub tuned_pf: Option<f64>,
    /// For a rectifier: what the set draws, milliamps.
    #[cfg_attr(test, ts(optional))]
    pub load_ma: Option<f64>,
    /// For a rectifier: the first filter capacitor, microfarads.
    #[cfg_attr(test, ts(optional))]
    pub first_filter_uf: Option<f64>,
    /// For a rectifier on a winding: its volts rms without load, from one end to the tap where there is one.
    #[cfg_attr(test, ts(optional))]
    pub secondary_v: Option<f64>,
    /// Ohms of that winding, from one end to the tap where there is one.
    #[cfg_attr(test, ts(optional))]
    pub secondary_ohm: Option<f64>,
}

impl From<&Fields<'_>> for SocketQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            supply: fields.record("supply").map(|supply| SupplyQuestion::from(&supply)),
            plate_v: fields.number("plate_v"),
            screen_v: fields.number("screen_v"),
            plate_ma: fields.number("plate_ma"),
            tie_points: fields.pins("tie_points"),
            agc: fields.flag("agc"),
            cathode_ohm: fields.number("cathode_ohm"),
            load_kohm: fields.number("load_kohm"),
            b_plus_v: fields.number("b_plus_v"),
            tuned_khz: fields.number("tuned_khz"),
            tuned_pf: fields.number("tuned_pf"),
            load_ma: fields.number("load_ma"),
            first_filter_uf: fields.number("first_filter_uf"),
            secondary_v: fields.number("secondary_v"),
            secondary_ohm: fields.number("secondary_ohm"),
        }
    }
}

/// The sockets to judge: one when the supply is known, else one for each way the original's heater may be fed.
pub(in crate::ask) fn sockets(
    book: &Book,
    original: &Tube,
    asked: Option<&SocketQuestion>,
) -> Result<Vec<Socket>, ErrorAnswer> {
    let empty = SocketQuestion::default();
    let asked = asked.unwrap_or(&empty);
    let supplies = match &asked.supply {
        Some(supply) => vec![supply_of(book, original, supply)?],
        None => both_ways(original),
    };
    let tie_points = match &asked.tie_points {
        Some(pins) => {
            let mut mask = 0u16;
            for (at, &pin) in pins.iter().enumerate() {
                if usize::from(pin) > MOST_PINS {
                    let field = format!("socket.tie_points[{at}]");
                    return Err(ErrorAnswer::new(
                        field,
                        pin.to_string(),
                        format!("pin numbers 1 to {MOST_PINS}, 0 for the cap"),
                    ));
                }
                mask |= 1 << pin;
            }
            Some(mask)
        }
        None => None,
    };
    let socket = |supply| Socket {
        plate_v: asked.plate_v,
        screen_v: asked.screen_v,
        plate_ma: asked.plate_ma,
        tie_points,
        agc: asked.agc,
        cathode_ohm: asked.cathode_ohm,
        load_kohm: asked.load_kohm,
        b_plus_v: asked.b_plus_v,
        tuned_khz: asked.tuned_khz,
        tuned_pf: asked.tuned_pf,
        first_filter_uf: asked.first_filter_uf,
        ..Socket::fed_by(supply)
    };
    Ok(supplies.into_iter().map(socket).collect())
}

fn both_ways(original: &Tube) -> Vec<Supply> {
    let low = original.figures.heater_v.is_some_and(|volts| volts <= 3.0);
    let rectifier = original.units.iter().all(|unit| unit.function == Function::Rectifier);
    match original.heater_kind {
        Some(HeaterKind::Filament) if low && !rectifier => {
            vec![Supply::SERIES, Supply::Battery, Supply::PARALLEL]
        }
        Some(HeaterKind::Filament) => vec![Supply::PARALLEL],
        _ => vec![Supply::SERIES, Supply::PARALLEL],
    }
}

fn supply_of(book: &Book, original: &Tube, supply: &SupplyQuestion) -> Result<Supply, ErrorAnswer> {
    Ok(match supply {
        SupplyQuestion::Series { amps, line_v, others, chassis_side, dropper_ohm } => {
            let mut sum: Option<f64> = None;
            let count = others.as_ref().map_or(0, Vec::len);
            let chassis_side = chassis_side.map(|side| side as usize);
            if let Some(side) = chassis_side.filter(|side| *side > count) {
                let accepted = format!("at most {count}, the number of the others");
                return Err(ErrorAnswer::new("socket.supply.chassis_side", side.to_string(), accepted));
            }
            let mut chassis_v = chassis_side.map(|_| 0.0);
            for (at, name) in others.iter().flatten().enumerate() {
                let field = format!("socket.supply.others[{at}]");
                let other = tube::find(book, &field, name)?.tube;
                let amps = amps.or(original.figures.heater_a);
                let volts = heater_volts_at(other, amps).ok_or_else(|| {
                    ErrorAnswer::new(
                        &field,
                        format!("{}, whose heater does not take the string's current", other.name),
                        "types of one heater current",
                    )
                })?;
                sum = Some(sum.unwrap_or(0.0) + volts);
                if chassis_side.is_some_and(|side| at + side >= count) {
                    chassis_v = chassis_v.map(|below| below + volts);
                }
            }
            Supply::Series { amps: *amps, line_v: *line_v, others_v: sum, dropper_ohm: *dropper_ohm, chassis_v }
        }
        SupplyQuestion::Parallel { volts, spare_amps } => Supply::Parallel { volts: *volts, spare_amps: *spare_amps },
        SupplyQuestion::Battery => Supply::Battery,
    })
}

/// Volts of the connection of a heater that takes these amperes.
pub(in crate::ask) fn heater_volts_at(tube: &Tube, amps: Option<f64>) -> Option<f64> {
    let figures = &tube.figures;
    let ways = [figures.heater_v.zip(figures.heater_a), figures.heater_parallel_v.zip(figures.heater_parallel_a)];
    ways.into_iter().flatten().find(|(_, a)| amps.is_none_or(|amps| same_a(*a, amps))).map(|row| row.0)
}

pub(super) fn supply_name(socket: &Socket) -> &'static str {
    match socket.supply {
        Supply::Series { .. } => "series",
        Supply::Parallel { .. } => "parallel",
        Supply::Battery => "battery",
    }
}

pub(super) fn supply_words(socket: &Socket, original: &Tube) -> String {
    match socket.supply {
        Supply::Series { amps, .. } => match amps.or(original.figures.heater_a) {
            Some(amps) => format!("heaters in series, {} A", words::figure(amps)),
            None => "heaters in series".to_owned(),
        },
        Supply::Parallel { volts, .. } => match volts.or(original.figures.heater_v) {
            Some(volts) => format!("heaters in parallel, {} V", words::figure(volts)),
            None => "heaters in parallel".to_owned(),
        },
        Supply::Battery => "filaments on dry batteries".to_owned(),
    }
}
