//! Chooses what stands in for one capacitor, section by section.

use serde::{Deserialize, Serialize};

use super::capacitor_dc::choose_dc;
use super::safety::bleed_ohm;
use super::{Assumed, Barrier, CapacitorHint, CapacitorMark, Line, MarkedSection, Pair, Rating, SafetyClass};
use super::{TemperatureCode, Tolerance};
use crate::on_sale::{OnSale, Shelf};
use crate::series::Series;

/// What the old part is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CapacitorKind {
    /// Wax paper, moulded paper, paper in oil.
    Paper,
    /// Electrolytic, wet or dry.
    Electrolytic,
    /// Mica or silvered mica.
    Mica,
    /// Ceramic.
    Ceramic,
    /// Plastic film, from an earlier repair or a late set.
    Film,
}

/// What the part does in the set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CapacitorRole {
    /// Between a plate and the next grid.
    Coupling,
    /// Bypass of a screen, plate supply or AGC line.
    Bypass,
    /// Across a cathode resistor.
    CathodeBypass,
    /// Tone control or plate of the output tube.
    Tone,
    /// In a tuned circuit, or a padder.
    Tuned,
    /// First filter, at the rectifier.
    FirstFilter,
    /// Second filter.
    SecondFilter,
    /// Directly across the line.
    AcrossLine,
    /// From the line (or the common bus of an AC/DC set) to the chassis.
    LineToChassis,
    /// From the common bus (B minus) of an AC/DC set to its chassis.
    BusToChassis,
    /// Between the circuit and the aerial or earth terminal of an AC/DC set.
    AerialIsolation,
    /// On the line of the automatic gain control.
    Agc,
    /// Across the transformer of a vibrator supply.
    Buffer,
}

impl CapacitorRole {
    /// Whether the part needs a safety class there.
    pub fn at_line(self) -> bool {
        matches!(self, Self::AcrossLine | Self::LineToChassis | Self::BusToChassis | Self::AerialIsolation)
    }
}

/// The place of the part in the set, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CapacitorPlace {
    /// What the part does.
    pub role: Option<CapacitorRole>,
    /// Highest DC volts at cold start, at the nominal line.
    pub circuit_v: Option<f64>,
    /// The power line; what stands at it is figured for 230 V, 50 Hz, the harsher of the two usual ones, when not given.
    pub line: Option<Line>,
    /// The most its rectifier tube allows as first filter, farads, where that is known.
    pub first_filter_most: Option<f64>,
}

/// What the new part is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Dielectric {
    /// Polypropylene or polyester film.
    Film,
    /// Aluminium electrolytic.
    Electrolytic,
    /// Silvered mica or class 1 ceramic without drift.
    Mica,
    /// Class 1 ceramic with the same drift as the old part.
    Class1(TemperatureCode),
    /// Class 2 ceramic disc.
    Class2,
    /// Film made for the line.
    SafetyFilm,
    /// Ceramic or film made for a barrier to touchable metal.
    SafetyBarrier,
}

/// How several parts make up one section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Joined {
    /// Side by side: their values add.
    Parallel,
    /// One after the other: their volts add.
    Series,
}

/// One part to buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapacitorPart {
    /// Farads.
    pub farad: f64,
    /// Rated volts; AC with a safety class, else DC.
    pub rated_v: f64,
    /// What it is made of.
    pub dielectric: Dielectric,
    /// Its safety class.
    pub class: Option<SafetyClass>,
    /// How it is joined to the other part of the same section.
    pub joined: Option<Joined>,
}

/// Why there is no part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoPart {
    /// An electrolytic, or a value only an electrolytic has, is never across the AC line.
    ElectrolyticAtLine,
    /// No part, nor two in series, is sold for so many volts.
    Volts(f64),
    /// No part, nor two in parallel, comes within the tolerance.
    Value,
}

/// What was chosen for one section.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The old section.
    pub old: MarkedSection,
    /// The difference that was allowed.
    pub tolerance: Tolerance,
    /// One part, or two joined.
    pub parts: Vec<CapacitorPart>,
    /// How the DC rating came about; absent at the line.
    pub rating: Option<Rating>,
    /// A value nearer to the old one that is less often in stock, farads.
    pub nearer: Option<f64>,
    /// Two values that come nearer to the old one, for a tuned circuit.
    pub exact_pair: Option<Pair>,
    /// The most a first filter may have after a vacuum rectifier without a look at its sheet, farads.
    pub most: Option<f64>,
    /// The barrier chosen, where it is one.
    pub barrier: Option<Barrier>,
    /// Bleed resistor for a large part across the line, ohms.
    pub bleed_ohm: Option<f64>,
    /// The volts of the place were not applied, because this section has its own low rating.
    pub own_low_volts: bool,
}

impl Choice {
    /// Farads of all its parts together.
    pub fn farad(&self) -> f64 {
        match self.parts.as_slice() {
            [one, two] if one.joined == Some(Joined::Series) => one.farad * two.farad / (one.farad + two.farad),
            parts => parts.iter().map(|part| part.farad).sum(),
        }
    }

    /// Difference from the old value, percent.
    pub fn difference_percent(&self) -> f64 {
        difference_percent(self.old.farad, self.farad())
    }
}

/// Below this an electrolytic is not bought; a film part does it better.
pub(super) const SMALLEST_ELECTROLYTIC: f64 = 0.9e-6;

/// From this up a part without any other mark is an electrolytic.
const SURELY_ELECTROLYTIC: f64 = 2e-6;

/// Below this paper was not used, and film is not the natural part.
pub(super) const SMALL: f64 = 1e-9;

/// What the part is made of, and whether that had to be guessed from its value and marking.
pub fn kind_of(mark: &CapacitorMark, hint: CapacitorHint) -> (CapacitorKind, bool) {
    if let Some(kind) = mark.kind.or(hint.kind) {
        return (kind, false);
    }
    let farad = mark.sections.first().map_or(0.0, |section| section.farad);
    let large_place = matches!(
        hint.role,
        Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter | CapacitorRole::CathodeBypass)
    );
    let kind = if mark.temperature.is_some() {
        CapacitorKind::Ceramic
    } else if farad >= SURELY_ELECTROLYTIC || large_place && farad >= SMALLEST_ELECTROLYTIC {
        CapacitorKind::Electrolytic
    } else if farad < SMALL {
        CapacitorKind::Mica
    } else if mark.assumed.contains(&Assumed::ThreeFigureCode) || mark.tolerance.is_some() {
        CapacitorKind::Film
    } else {
        CapacitorKind::Paper
    };
    (kind, true)
}

/// Chooses the part for every section of a reading.
pub fn choose_capacitor(
    mark: &CapacitorMark,
    kind: CapacitorKind,
    place: CapacitorPlace,
    on_sale: &OnSale,
) -> Vec<Result<Choice, NoPart>> {
    let highest = mark.sections.iter().filter_map(|section| section.volts).fold(0.0, f64::max);
    mark.sections
        .iter()
        .enumerate()
        .map(|(index, section)| {
            // A 25 V section in a 450 V can bypasses a cathode; the volts of the can are not its own.
            let own_low_volts =
                place.circuit_v.is_some() && section.volts.is_some_and(|volts| volts <= 100.0 && volts < highest / 2.0);
            let circuit_v = place.circuit_v.filter(|_| !own_low_volts);
            let place = CapacitorPlace { circuit_v, ..place };
            match place.role {
                Some(role) if role.at_line() => at_line(*section, kind, role, place.line, on_sale),
                // Only the first section sits at the rectifier.
                _ => choose_dc(mark, *section, kind, place, on_sale).map(|choice| Choice {
                    own_low_volts,
                    most: choice.most.filter(|_| index == 0),
                    ..choice
                }),
            }
        })
        .collect()
}

/// The part for a place at the line.
fn at_line(
    old: MarkedSection,
    kind: CapacitorKind,
    role: CapacitorRole,
    line: Option<Line>,
    on_sale: &OnSale,
) -> Result<Choice, NoPart> {
    let [_, harsher] = Line::USUAL;
    let line = line.unwrap_or(harsher);
    if kind == CapacitorKind::Electrolytic || old.farad >= SURELY_ELECTROLYTIC {
        return Err(NoPart::ElectrolyticAtLine);
    }
    let choice = |part: CapacitorPart| Choice {
        old,
        tolerance: Tolerance::PAPER,
        parts: vec![part],
        rating: None,
        nearer: None,
        exact_pair: None,
        most: None,
        barrier: None,
        bleed_ohm: None,
        own_low_volts: false,
    };
    if role == CapacitorRole::AcrossLine {
        let class = SafetyClass::X2;
        let rated_v = class.rated_v(line.volt, on_sale).ok_or(NoPart::Volts(line.volt))?;
        let series = on_sale.capacitors(Shelf::ClassX2).series.first().copied().unwrap_or(Series::E6);
        let farad = series.nearest(old.farad).ok_or(NoPart::Value)?;
        let part =
            CapacitorPart { farad, rated_v, dielectric: Dielectric::SafetyFilm, class: Some(class), joined: None };
        return Ok(Choice { bleed_ohm: bleed_ohm(farad, line.volt), ..choice(part) });
    }
    let barrier = Barrier::choose(old.farad, line, on_sale).ok_or(NoPart::Volts(line.volt))?;
    let part = CapacitorPart {
        farad: barrier.farad,
        rated_v: barrier.rated_v,
        dielectric: Dielectric::SafetyBarrier,
        class: Some(barrier.class),
        joined: None,
    };
    Ok(Choice { barrier: Some(barrier), ..choice(part) })
}

/// Difference of the new from the old, percent of the old.
pub(super) fn difference_percent(old: f64, new: f64) -> f64 {
    (new - old) / old * 100.0
}
