//! The book held against itself: what a designation says against heater and base, pins against tubes of the same base designation, figures
//! against each other.
//!
//! What does not agree is advice, never a refusal: makers broke their own rules (a 6AX7 that runs on 3.15 V too), and which of two figures is
//! wrong only a data sheet tells. A check whose figures are not known says nothing.

use std::collections::HashMap;

use super::designation::{self, Heater};
use super::pins::{Electrodes, MOST_UNITS, Part, PinMap, Shared};
use super::tube::{Base, Function, HeaterKind, Tube, Unit};
use crate::quantity::{plain_figure, significant};

/// How far `mu` may be from `gm_ms` times `rp_kohm`. Each of the three is printed with two figures, so each may be off by up to 5 %
/// (1.0 stands for 0.95 to 1.05): 16 % together, and a little for figures read off curves.
const MU_TOLERANCE: f64 = 0.2;
/// How far a typical figure may lie above its rating: both are printed with two or three figures.
const RATING_TOLERANCE: f64 = 0.02;
/// How far a heater's current may be from what a European letter says.
const AMPS_TOLERANCE: f64 = 0.05;

/// Two things in the book that do not agree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// The type.
    pub tube: String,
    /// The column to look at first.
    pub column: &'static str,
    /// What the book says.
    pub found: String,
    /// What would agree, and with what.
    pub agrees: String,
}

impl std::fmt::Display for Advice {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}, column {}: {}; would agree: {}", self.tube, self.column, self.found, self.agrees)
    }
}

/// The checks, with the tube that each base designation was first met on.
#[derive(Debug, Default)]
pub struct Consistency {
    firsts: Vec<First>,
    /// Base designation to its place in `firsts`.
    index: HashMap<String, u32>,
    /// What does not agree.
    pub advice: Vec<Advice>,
}

/// The first tube of a base designation, against which the others are held.
#[derive(Debug)]
struct First {
    base: Base,
    tube: String,
    functions: Vec<Function>,
    pins: PinMap,
}

impl Consistency {
    /// Takes a tube's pins as those of its base designation, unless one was met before.
    pub fn learn(&mut self, tube: &Tube) {
        let Some((basing, base, pins)) = basing_of(tube) else { return };
        let next = self.firsts.len() as u32;
        if *self.index.entry(basing.to_owned()).or_insert(next) == next {
            self.firsts.push(First { base, tube: tube.name.clone(), functions: tube.functions(), pins: *pins });
        }
    }

    /// Holds a tube against its designation, against the first tube of its base designation, and its figures against each other.
    pub fn check(&mut self, tube: &Tube) {
        self.check_designation(tube);
        self.check_pins(tube);
        // Like neighbours share a row, and its advice.
        let mut last = None;
        for unit in tube.units.iter().filter(|unit| last.replace(*unit) != Some(*unit)) {
            self.check_unit(tube, unit);
        }
    }

    fn advise(&mut self, tube: &Tube, column: &'static str, found: String, agrees: String) {
        self.advice.push(Advice { tube: tube.name.clone(), column, found, agrees });
    }

    fn check_designation(&mut self, tube: &Tube) {
        let designation = designation::read(&tube.name);
        let figures = &tube.figures;
        let shown = |pair: [Option<f64>; 2], unit: &str| {
            let all: Vec<String> = pair.into_iter().flatten().map(|figure| print(figure, unit)).collect();
            all.join(" or ")
        };
        let any = |pair: [Option<f64>; 2], test: &dyn Fn(f64) -> bool| pair.into_iter().flatten().any(test);
        match designation.heater {
            Heater::Volts(least, most) => {
                let volts = [figures.heater_v, figures.heater_parallel_v];
                if figures.heater_v.is_some() && !any(volts, &|volts| volts >= least && volts <= most) {
                    let agrees = format!("{} to {}, as the designation says", significant(least, 3), print(most, "V"));
                    self.advise(tube, "heater_v", shown(volts, "V"), agrees);
                }
            }
            Heater::Amps(wanted) => {
                let amps = [figures.heater_a, figures.heater_parallel_a];
                if figures.heater_a.is_some() && !any(amps, &|amps| (amps / wanted - 1.0).abs() <= AMPS_TOLERANCE) {
                    self.advise(
                        tube,
                        "heater_a",
                        shown(amps, "A"),
                        format!("{}, as the designation says", print(wanted, "A")),
                    );
                }
            }
            Heater::Cold => {
                if let Some(kind) = tube.heater_kind.filter(|&kind| kind != HeaterKind::Cold) {
                    self.advise(
                        tube,
                        "heater_kind",
                        kind.words().to_owned(),
                        "a cold cathode, as the designation says".to_owned(),
                    );
                }
            }
            Heater::Silent => {}
        }
        if let Some(base) = tube.base
            && !designation.bases.is_empty()
            && !designation.bases.contains(&base)
        {
            let bases: Vec<&str> = designation.bases.iter().map(|base| base.words()).collect();
            self.advise(
                tube,
                "base",
                base.words().to_owned(),
                format!("{}, as the designation says", bases.join(" or ")),
            );
        }
    }

    fn check_pins(&mut self, tube: &Tube) {
        let Some((basing, base, pins)) = basing_of(tube) else { return };
        let Some(first) = self.index.get(basing).and_then(|&at| self.firsts.get(at as usize)) else {
            return self.learn(tube);
        };
        if first.base != base || first.pins == *pins {
            return;
        }
        let functions = tube.functions();
        let Some(pin) = parting_pin((&first.pins, &first.functions), (pins, &functions)) else { return };
        let place = if pin == 0 { "cap".to_owned() } else { format!("pin {pin}") };
        let found = format!("{place} {}", pins.pins[pin].label(&functions));
        let agrees = format!(
            "{place} {}, as on {} of the same base designation {basing}",
            first.pins.pins[pin].label(&first.functions),
            first.tube
        );
        self.advise(tube, "pins", found, agrees);
    }

    fn check_unit(&mut self, tube: &Tube, unit: &Unit) {
        let figures = &unit.figures;
        // What is printed as a converter's transconductance is its conversion transconductance, which mu does not follow from.
        if unit.function != Function::Heptode
            && let (Some(mu), Some(gm), Some(rp)) = (figures.mu, figures.gm_ms, figures.rp_kohm)
            && (gm * rp / mu - 1.0).abs() > MU_TOLERANCE
        {
            let agrees =
                format!("about {}: {} mS times {} kohm", significant(gm * rp, 2), plain_figure(gm), plain_figure(rp));
            self.advise(tube, "mu", significant(mu, 4), agrees);
        }
        let watts = |volts: Option<f64>, ma: Option<f64>| Some(volts? * ma? / 1000.0);
        let cathode_ma = figures.typ_plate_ma.map(|ma| ma + figures.typ_screen_ma.unwrap_or(0.0));
        for (column, unit, most, typical) in [
            ("plate_max_v", "V", figures.plate_max_v, figures.typ_plate_v),
            ("screen_max_v", "V", figures.screen_max_v, figures.typ_screen_v),
            ("plate_max_w", "W", figures.plate_max_w, watts(figures.typ_plate_v, figures.typ_plate_ma)),
            ("screen_max_w", "W", figures.screen_max_w, watts(figures.typ_screen_v, figures.typ_screen_ma)),
            ("cathode_max_ma", "mA", figures.cathode_max_ma, cathode_ma),
        ] {
            if let (Some(most), Some(typical)) = (most, typical)
                && typical > most * (1.0 + RATING_TOLERANCE)
            {
                self.advise(
                    tube,
                    column,
                    print(most, unit),
                    format!("at least {} of the typical point", print(typical, unit)),
                );
            }
        }
    }
}

fn print(figure: f64, unit: &str) -> String {
    format!("{} {unit}", significant(figure, 4))
}

fn basing_of(tube: &Tube) -> Option<(&str, Base, &PinMap)> {
    Some((tube.basing.as_deref()?, tube.base?, tube.pins.as_ref()?))
}

/// The first pin (0 = cap) on which two tubes part, like units taken in any order; `None` when they have the same pins.
///
/// Shells, internal shields, internal connections and free pins differ between the metal and the glass version of a tube. Beam plates, and a
/// suppressor joined to the cathode inside, come out nowhere of their own. An AC filament has no polarity.
fn parting_pin(one: (&PinMap, &[Function]), other: (&PinMap, &[Function])) -> Option<usize> {
    let polarity = Electrodes::shared(Shared::FilamentNegative).with(Electrodes::shared(Shared::FilamentPositive));
    let polar = one.0.all().meets(polarity) && other.0.all().meets(polarity);
    let outside = |pins: &PinMap| {
        let mut pins = *pins;
        for on in &mut pins.pins {
            if !polar && on.meets(polarity) {
                *on = on.without(polarity).with(Electrodes::shared(Shared::Filament));
            }
            *on = on.without(Electrodes::INTERNAL).without(Electrodes::SHIELDING);
            for unit in 0..MOST_UNITS {
                *on = on.without(Electrodes::part(unit, Part::Beam));
                let source = Electrodes::part(unit, Part::Cathode).with(Electrodes::HEATER);
                if on.meets(source) {
                    *on = on.without(Electrodes::part(unit, Part::Grid3));
                }
            }
        }
        pins
    };
    let (a, b) = (outside(one.0), outside(other.0));
    let parting = |b: &PinMap| a.pins.iter().zip(&b.pins).position(|(a, b)| a != b);
    let first = parting(&b)?;
    // Every order of the units that puts like in the place of like.
    let function = |of: &[Function], unit: usize| of.get(unit).copied();
    let like = |order: &[u8; MOST_UNITS]| {
        order.iter().enumerate().all(|(unit, &to)| {
            let to = usize::from(to);
            function(other.1, unit) == function(one.1, to)
                || function(other.1, unit) == function(other.1, to)
                || function(one.1, unit) == function(one.1, to)
        })
    };
    let mut orders = (0..1u16 << (2 * MOST_UNITS)).map(|code| [0, 2, 4, 6].map(|shift| (code >> shift & 3) as u8));
    let fits = |order: [u8; MOST_UNITS]| {
        let all = order.iter().fold(0, |all, unit| all | 1 << unit);
        all == 0b1111 && like(&order) && parting(&b.renumbered(&order)).is_none()
    };
    if orders.any(fits) { None } else { Some(first) }
}
