//! Judges one resistor against its meter reading, and chooses what stands in for it.

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

use super::{Body, Construction, Line, ResistorMark, TOUCH_NOTICE_MA, Tolerance};
use crate::on_sale::OnSale;
use crate::order::sort_few;
use crate::series::Series;

/// What the resistor does in the set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ResistorRole {
    /// Feeds a plate.
    PlateLoad,
    /// Feeds a screen.
    ScreenFeed,
    /// From a grid to ground, AGC feed.
    GridLeak,
    /// Sets the bias of a tube.
    Cathode,
    /// Filter resistor between first and second filter.
    Filter,
    /// In series with the rectifier.
    Surge,
    /// In the heater circuit.
    HeaterDropper,
    /// From the common bus to the chassis of an AC/DC set, beside the safety capacitor.
    BusToChassis,
}

impl ResistorRole {
    /// The values such a place has, drawn wide, ohms (common practice, no source). They decide what an `M` means.
    pub(super) fn usual_ohms(role: Option<Self>) -> RangeInclusive<f64> {
        match role {
            Some(Self::PlateLoad) => 1e3..=2.2e6,
            Some(Self::ScreenFeed) => 1e3..=5e6,
            Some(Self::GridLeak) => 10e3..=30e6,
            Some(Self::Cathode) => 10.0..=50e3,
            Some(Self::Filter) => 10.0..=100e3,
            Some(Self::Surge) => 1.0..=1e3,
            Some(Self::HeaterDropper) => 1.0..=10e3,
            Some(Self::BusToChassis) => 47e3..=10e6,
            None => 0.01..=30e6,
        }
    }

    /// Whether the value sets a working point, so that the old 20 % is not to be used up.
    pub fn is_exact(self) -> bool {
        matches!(self, Self::Cathode | Self::HeaterDropper)
    }
}

/// The place of the part in the set, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ResistorPlace {
    /// What the part does.
    pub role: Option<ResistorRole>,
    /// Volts across it.
    pub circuit_v: Option<f64>,
    /// Milliamps through it.
    pub circuit_ma: Option<f64>,
    /// Watts of the old part.
    pub old_w: Option<f64>,
}

/// How far a meter reading lies from the marking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Percent of the marked value.
    pub percent: f64,
    /// What the old part was allowed.
    pub tolerance: Tolerance,
    /// Whether that was marked; customary otherwise.
    pub marked: bool,
}

impl Drift {
    /// Whether the part is still what its marking promised.
    pub fn within(self) -> bool {
        self.tolerance.allows(self.percent)
    }
}

/// Compares a meter reading with the marking.
pub fn drift(mark: &ResistorMark, measured_ohm: f64) -> Drift {
    Drift {
        percent: (measured_ohm - mark.ohm) / mark.ohm * 100.0,
        tolerance: mark.tolerance.unwrap_or(Tolerance::RESISTOR),
        marked: mark.tolerance.is_some(),
    }
}

/// What the heat was figured from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeatFrom {
    /// Volts and milliamps; the largest of V I, V V / R and I I R.
    Both,
    /// V V / R.
    Volts,
    /// I I R.
    Amps,
    /// As a surge resistor it carries pulses, 2.4 times the direct current rms.
    Pulses,
    /// Nothing is known, and the value is so high that [`MOST_PLACE_V`] cannot heat it much.
    HighValue,
    /// A grid leak carries no current to speak of.
    NoCurrent,
}

/// What the part turns into heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// Watts.
    pub watts: f64,
    /// What it was figured from.
    pub from: HeatFrom,
}

/// Volts taken to be the most across a resistor of a receiver when nothing is known (common practice, no source).
pub const MOST_PLACE_V: f64 = 300.0;

/// Rms current through a surge resistor, times the direct current of a half-wave supply (computed for 40 uF and about 60 ohm).
const PULSE_FORM: f64 = 2.4;

/// Rated watts, times the real heat.
const WATTS_MARGIN: f64 = 2.0;

/// Rated volts, times the volts of the place: the line may stand 10 % high.
const VOLTS_MARGIN: f64 = 1.1;

/// An E12 value as near as this is taken before a nearer E24 one: the trade fits 470k for 500k.
const NEAR_ENOUGH_PERCENT: f64 = 6.5;

/// Largest body that the value alone may decide, watts.
const HIGH_VALUE_MOST_W: f64 = 2.0;

/// The heat in a part of this value; `None` when it cannot be told.
pub fn heat(ohm: f64, place: ResistorPlace) -> Option<Heat> {
    let volts = place.circuit_v;
    let amps = place.circuit_ma.map(|ma| ma / 1e3);
    let by_volts = volts.map(|volts| volts * volts / ohm);
    let by_amps = amps.map(|amps| amps * amps * ohm);
    let (watts, from) = match (by_volts, by_amps) {
        (Some(by_volts), Some(by_amps)) => {
            let product = volts.unwrap_or(0.0) * amps.unwrap_or(0.0);
            (by_volts.max(by_amps).max(product), HeatFrom::Both)
        }
        (Some(watts), None) => (watts, HeatFrom::Volts),
        (None, Some(watts)) => (watts, HeatFrom::Amps),
        (None, None) if place.role == Some(ResistorRole::GridLeak) => (0.0, HeatFrom::NoCurrent),
        (None, None) => {
            let watts = MOST_PLACE_V * MOST_PLACE_V / ohm;
            let told_by_value = place.old_w.is_none() && watts * WATTS_MARGIN <= HIGH_VALUE_MOST_W;
            return told_by_value.then_some(Heat { watts, from: HeatFrom::HighValue });
        }
    };
    if place.role == Some(ResistorRole::Surge) {
        return Some(Heat { watts: watts * PULSE_FORM * PULSE_FORM, from: HeatFrom::Pulses });
    }
    Some(Heat { watts, from })
}

/// One part, or several alike in series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ResistorPart {
    /// Ohms of all together.
    pub ohm: f64,
    /// How many in series.
    pub in_series: u32,
    /// The body of each.
    pub body: Body,
    /// Volts all together may see.
    pub working_v: f64,
}

/// What was chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct ResistorChoice {
    /// Values that stand in, in order of choice, ohms; found even when the watts are not known.
    pub values: Vec<f64>,
    /// The difference that was allowed.
    pub tolerance: Tolerance,
    /// What it turns into heat, when that can be told.
    pub heat: Option<Heat>,
    /// Watts asked for: twice the heat, and not below the old part; `None` when neither is known.
    pub needed_w: Option<f64>,
    /// Volts it has to bear, when known.
    pub needed_v: Option<f64>,
    /// Between bus and chassis: the line it was figured for, volts rms; 230 V when not given.
    pub line_v: Option<f64>,
    /// The old value would let more than [`TOUCH_NOTICE_MA`] through a person, so a higher one was chosen.
    pub raised: bool,
    /// The parts, the best first; empty when the watts are not known or no body bears them.
    pub parts: Vec<ResistorPart>,
}

/// Chooses what stands in for a resistor of this marking.
pub fn choose_resistor(mark: &ResistorMark, place: ResistorPlace, on_sale: &OnSale) -> ResistorChoice {
    let old = mark.tolerance.unwrap_or(Tolerance::RESISTOR);
    let exact = place.role.is_some_and(ResistorRole::is_exact);
    let tolerance = if exact { old.no_wider_than(5.0) } else { old };
    let [_, harsher] = Line::USUAL;
    let line_v = (place.role == Some(ResistorRole::BusToChassis)).then_some(place.circuit_v.unwrap_or(harsher.volt));
    let place = ResistorPlace { old_w: mark.watts.or(place.old_w), circuit_v: line_v.or(place.circuit_v), ..place };
    // V / mA = kohm.
    let least_ohm = line_v.map_or(0.0, |volts| volts / TOUCH_NOTICE_MA * 1e3);
    let raised = mark.ohm < least_ohm;
    let values =
        if raised { Series::E12.at_least(least_ohm).into_iter().collect() } else { values(mark.ohm, tolerance) };
    let heat = heat(mark.ohm.max(least_ohm), place);
    let needed_w = match (heat, place.old_w) {
        (Some(heat), old_w) => Some((heat.watts * WATTS_MARGIN).max(old_w.unwrap_or(0.0))),
        (None, old_w) => old_w,
    };
    let by_ma = place.circuit_ma.map(|ma| ma / 1e3 * mark.ohm);
    let needed_v = match (place.circuit_v, by_ma) {
        (Some(volts), Some(by_ma)) => Some(volts.max(by_ma) * VOLTS_MARGIN),
        (volts @ Some(_), None) | (None, volts @ Some(_)) => volts.map(|volts| volts * VOLTS_MARGIN),
        (None, None) => heat.filter(|heat| heat.from == HeatFrom::HighValue).map(|_| MOST_PLACE_V),
    };
    // The rms of the pulses, as for the heat.
    let pulses = if place.role == Some(ResistorRole::Surge) { PULSE_FORM } else { 1.0 };
    let needed_v = needed_v.map(|volts| volts * pulses);
    // Marked as fusible, it guards something: film that burns is no stand-in.
    let mut guarded = on_sale.clone();
    guarded.bodies.retain(|body| !mark.fusible || body.construction != Construction::MetalFilm);
    let on_sale = &guarded;
    let mut parts = Vec::new();
    if let Some(needed_w) = needed_w {
        for ohm in &values {
            parts.extend(
                bodies(*ohm, needed_w, needed_v, place.role, on_sale)
                    .into_iter()
                    .filter(|part| raised || tolerance.allows((part.ohm - mark.ohm) / mark.ohm * 100.0)),
            );
        }
    }
    // What is in the series of its body comes before what has to be ordered.
    sort_few(&mut parts, |part| !part.body.series.contains(part.ohm / f64::from(part.in_series)));
    ResistorChoice { values, tolerance, heat, needed_w, needed_v, line_v, raised, parts }
}

/// Values within the tolerance: the one in every drawer first when it is as near as 470k is to 500k, else the nearest first.
fn values(ohm: f64, tolerance: Tolerance) -> Vec<f64> {
    let difference = |value: f64| (value - ohm).abs() / ohm * 100.0;
    let allowed = |series: Series| series.nearest(ohm).filter(|value| tolerance.allows((value - ohm) / ohm * 100.0));
    match (allowed(Series::E12), allowed(Series::E24)) {
        (Some(common), Some(near)) if difference(near) >= difference(common) - 1e-6 => vec![common],
        (Some(common), Some(near)) if difference(common) <= NEAR_ENOUGH_PERCENT => vec![common, near],
        (Some(common), Some(near)) => vec![near, common],
        (None, Some(near)) => vec![near],
        (common, None) => common.or_else(|| allowed(Series::E96)).into_iter().collect(),
    }
}

/// The bodies for one value: a single one, and two in series when the volts ask for a larger one than the watts do, or no single
/// one bears them; a barrier always takes two.
fn bodies(
    ohm: f64,
    needed_w: f64,
    needed_v: Option<f64>,
    role: Option<ResistorRole>,
    on_sale: &OnSale,
) -> Vec<ResistorPart> {
    let single = body(ohm, needed_w, needed_v, role, on_sale);
    let part = |body: Body, in_series: u32, ohm: f64| ResistorPart {
        ohm,
        in_series,
        body,
        working_v: body.working_v(ohm / f64::from(in_series)) * f64::from(in_series),
    };
    let pair = |needed_v: Option<f64>| {
        let half = match role {
            // Never less than asked for: it limits the current through a person.
            Some(ResistorRole::BusToChassis) => Series::E24.at_least(ohm / 2.0)?,
            _ => Series::E24.nearest(ohm / 2.0)?,
        };
        Some(part(body(half, needed_w / 2.0, needed_v, role, on_sale)?, 2, half * 2.0))
    };
    if role == Some(ResistorRole::BusToChassis) {
        // Should one of the two fail shorted, the other has to bear the line alone.
        return pair(needed_v).into_iter().collect();
    }
    let by_watts = body(ohm, needed_w, None, role, on_sale);
    let half_volts = || pair(needed_v.map(|volts| volts / 2.0));
    match single {
        Some(single) if by_watts.is_some_and(|smaller| smaller.watts < single.watts) => {
            std::iter::once(part(single, 1, ohm)).chain(half_volts()).collect()
        }
        Some(single) => vec![part(single, 1, ohm)],
        None => half_volts().into_iter().collect(),
    }
}

/// The smallest body that bears the watts and the volts and suits the place.
fn body(ohm: f64, needed_w: f64, needed_v: Option<f64>, role: Option<ResistorRole>, on_sale: &OnSale) -> Option<Body> {
    let suits = |body: &Body| match role {
        Some(ResistorRole::Surge) => body.construction != Construction::MetalFilm && body.watts >= 2.0,
        Some(ResistorRole::HeaterDropper) => body.construction == Construction::WireWound,
        Some(ResistorRole::Filter) => body.construction != Construction::MetalFilm,
        Some(ResistorRole::BusToChassis) => body.construction != Construction::WireWound && body.watts >= 0.5,
        _ => true,
    };
    on_sale
        .bodies
        .iter()
        .copied()
        .filter(|body| suits(body) && body.made_in(ohm))
        .find(|body| body.watts >= needed_w * (1.0 - 1e-9) && needed_v.is_none_or(|volts| body.working_v(ohm) >= volts))
}
