//! Chooses what stands in for one capacitor, section by section.

use serde::{Deserialize, Serialize};

use super::rating::{ELECTROLYTIC_MARGIN, FILM_MARGIN, RatingRule, TONE_MARGIN};
use super::safety::bleed_ohm;
use super::{Assumed, Barrier, CapacitorHint, CapacitorMark, Line, MarkedSection, Rating, SafetyClass};
use super::{TemperatureCode, Tolerance};
use crate::series::{Series, VoltageLadder};

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
    /// Between the circuit and the aerial or earth terminal of an AC/DC set.
    AerialIsolation,
}

impl CapacitorRole {
    /// Whether the part needs a safety class there.
    pub fn at_line(self) -> bool {
        matches!(self, Self::AcrossLine | Self::LineToChassis | Self::AerialIsolation)
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

/// The least a filter or bypass electrolytic may be of its old value: the trade fits 22 for 25.
const ELECTROLYTIC_LEAST: f64 = 0.88;

/// The most a first filter may be of its old value after a vacuum rectifier, unless its sheet allows more.
const FIRST_FILTER_MOST: f64 = 1.5;

/// Below this an electrolytic is not bought; a film part does it better.
const SMALLEST_ELECTROLYTIC: f64 = 0.9e-6;

/// From this up a part without any other mark is an electrolytic.
const SURELY_ELECTROLYTIC: f64 = 2e-6;

/// Below this paper was not used, and film is not the natural part.
const SMALL: f64 = 1e-9;

/// Largest silvered mica.
const LARGEST_MICA: f64 = 10e-9;

/// A tuned circuit is not asked to bear more than this, whatever the old part's tolerance was.
const TUNED_PERCENT: f64 = 5.0;

/// In series, each part is bought for this share of the volts, because they do not share them evenly.
const SERIES_SHARE: f64 = 0.6;

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
) -> Vec<Result<Choice, NoPart>> {
    let highest = mark.sections.iter().filter_map(|section| section.volts).fold(0.0, f64::max);
    mark.sections
        .iter()
        .map(|section| {
            // A 25 V section in a 450 V can bypasses a cathode; the volts of the can are not its own.
            let own_low_volts =
                place.circuit_v.is_some() && section.volts.is_some_and(|volts| volts <= 100.0 && volts < highest / 2.0);
            let circuit_v = place.circuit_v.filter(|_| !own_low_volts);
            let place = CapacitorPlace { circuit_v, ..place };
            match place.role {
                Some(role) if role.at_line() => at_line(*section, kind, role, place.line),
                _ => dc(mark, *section, kind, place).map(|choice| Choice { own_low_volts, ..choice }),
            }
        })
        .collect()
}

/// The part for a place at the line.
fn at_line(old: MarkedSection, kind: CapacitorKind, role: CapacitorRole, line: Option<Line>) -> Result<Choice, NoPart> {
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
        most: None,
        barrier: None,
        bleed_ohm: None,
        own_low_volts: false,
    };
    if role == CapacitorRole::AcrossLine {
        let class = SafetyClass::X2;
        let rated_v = class.rated_v(line.volt).ok_or(NoPart::Volts(line.volt))?;
        let farad = Series::E6.nearest(old.farad).ok_or(NoPart::Value)?;
        let part =
            CapacitorPart { farad, rated_v, dielectric: Dielectric::SafetyFilm, class: Some(class), joined: None };
        return Ok(Choice { bleed_ohm: bleed_ohm(farad, line.volt), ..choice(part) });
    }
    let barrier = Barrier::choose(old.farad, line).ok_or(NoPart::Volts(line.volt))?;
    let part = CapacitorPart {
        farad: barrier.farad,
        rated_v: barrier.rated_v,
        dielectric: Dielectric::SafetyBarrier,
        class: Some(barrier.class),
        joined: None,
    };
    Ok(Choice { barrier: Some(barrier), ..choice(part) })
}

/// The part for a DC place.
fn dc(mark: &CapacitorMark, old: MarkedSection, kind: CapacitorKind, place: CapacitorPlace) -> Result<Choice, NoPart> {
    let dielectric = dielectric(mark, old, kind, place.role);
    let tolerance = tolerance(mark, dielectric, place.role);
    let farads = farads(old.farad, dielectric, tolerance, place.role).ok_or(NoPart::Value)?;
    let rule = rule(dielectric, old, place);
    // An AC rating stands for the DC its crest has.
    let old_v = old.volts.map(|volts| if mark.ac { volts * std::f64::consts::SQRT_2 } else { volts });
    let part = |farad: f64, rated_v: f64, joined: Option<Joined>| CapacitorPart {
        farad,
        rated_v,
        dielectric,
        class: None,
        joined,
    };
    let (parts, rating) = match rule.choose(old_v, place.circuit_v) {
        Ok(rating) => {
            let joined = (farads.len() > 1).then_some(Joined::Parallel);
            (farads.iter().map(|farad| part(*farad, rating.rated_v, joined)).collect(), Some(rating))
        }
        Err(needed_v) => {
            let rated_v = rule.ladder.at_least(needed_v * SERIES_SHARE).ok_or(NoPart::Volts(needed_v))?;
            let doubled = match dielectric {
                Dielectric::Electrolytic => electrolytic_farad(old.farad * 2.0),
                _ => Series::E6.nearest(old.farad * 2.0),
            };
            let farad = doubled.ok_or(NoPart::Value)?;
            (vec![part(farad, rated_v, Some(Joined::Series)); 2], None)
        }
    };
    let nearer = match (farads.as_slice(), dielectric) {
        ([farad], Dielectric::Film | Dielectric::Class2) => Series::E12
            .nearest(old.farad)
            .filter(|finer| (finer - old.farad).abs() < (farad - old.farad).abs() * (1.0 - 1e-9)),
        _ => None,
    };
    let most = (place.role == Some(CapacitorRole::FirstFilter)).then_some(old.farad * FIRST_FILTER_MOST);
    Ok(Choice { old, tolerance, parts, rating, nearer, most, barrier: None, bleed_ohm: None, own_low_volts: false })
}

/// What to make the new part of.
fn dielectric(
    mark: &CapacitorMark,
    old: MarkedSection,
    kind: CapacitorKind,
    role: Option<CapacitorRole>,
) -> Dielectric {
    let tuned = role == Some(CapacitorRole::Tuned);
    let class1 = mark.temperature.filter(|code| matches!(code, TemperatureCode::Class1 { .. }));
    match (kind, class1) {
        (_, Some(code)) if code.class1_name().is_some_and(|name| name != "NP0") => Dielectric::Class1(code),
        (_, Some(_)) if old.farad <= LARGEST_MICA => Dielectric::Mica,
        _ if tuned => {
            if old.farad <= LARGEST_MICA {
                Dielectric::Mica
            } else {
                Dielectric::Film
            }
        }
        (CapacitorKind::Electrolytic, _) if old.farad >= SMALLEST_ELECTROLYTIC => Dielectric::Electrolytic,
        (CapacitorKind::Mica, _) if old.farad <= LARGEST_MICA => Dielectric::Mica,
        _ if old.farad < SMALL => Dielectric::Mica,
        (CapacitorKind::Ceramic, _) if old.farad <= 100e-9 => Dielectric::Class2,
        _ => Dielectric::Film,
    }
}

/// The difference to allow.
fn tolerance(mark: &CapacitorMark, dielectric: Dielectric, role: Option<CapacitorRole>) -> Tolerance {
    let customary = match dielectric {
        Dielectric::Electrolytic => return Tolerance::ELECTROLYTIC,
        Dielectric::Mica | Dielectric::Class1(_) => Tolerance::SMALL,
        _ => Tolerance::PAPER,
    };
    let old = mark.tolerance.unwrap_or(customary);
    // Under 1 nF a part of unknown place may well be a tuned one.
    let exact = role == Some(CapacitorRole::Tuned)
        || matches!(dielectric, Dielectric::Class1(_))
        || dielectric == Dielectric::Mica && role.is_none();
    if exact { old.no_wider_than(TUNED_PERCENT) } else { old }
}

/// One value, or two to be joined in parallel.
fn farads(
    old_farad: f64,
    dielectric: Dielectric,
    tolerance: Tolerance,
    role: Option<CapacitorRole>,
) -> Option<Vec<f64>> {
    let allowed = |farad: &f64| tolerance.allows(difference_percent(old_farad, *farad));
    let series: &[Series] = match dielectric {
        Dielectric::Electrolytic => return electrolytic_farad(old_farad).map(|farad| vec![farad]),
        Dielectric::Mica | Dielectric::Class1(_) if role.is_none() || role == Some(CapacitorRole::Tuned) => {
            &[Series::E24]
        }
        Dielectric::Mica | Dielectric::Class1(_) => &[Series::E12, Series::E24],
        _ if role == Some(CapacitorRole::Tuned) => &[Series::E24],
        _ => &[Series::E6, Series::E12, Series::E24],
    };
    if let Some(farad) = series.iter().filter_map(|series| series.nearest(old_farad)).find(allowed) {
        return Some(vec![farad]);
    }
    let larger = Series::E24.at_most(old_farad)?;
    let rest = Series::E24.nearest(old_farad - larger)?;
    allowed(&(larger + rest)).then(|| vec![larger, rest])
}

/// The least value in stock that is not more than 12 % below the old one.
fn electrolytic_farad(old_farad: f64) -> Option<f64> {
    let farad = Series::E6.at_least(old_farad * ELECTROLYTIC_LEAST * (1.0 - 1e-9))?;
    // The one E6 value of the first decade that is not stocked.
    if (farad - 1.5e-6).abs() < 1e-12 { Some(2.2e-6) } else { Some(farad) }
}

/// How its rating is chosen.
fn rule(dielectric: Dielectric, old: MarkedSection, place: CapacitorPlace) -> RatingRule {
    let tone = place.role == Some(CapacitorRole::Tone);
    match dielectric {
        Dielectric::Electrolytic => RatingRule {
            ladder: VoltageLadder::Electrolytic,
            margin: ELECTROLYTIC_MARGIN,
            floor_v: 0.0,
            usual_v: if place.role == Some(CapacitorRole::CathodeBypass) { 63.0 } else { 450.0 },
        },
        Dielectric::Mica | Dielectric::Class1(_) => {
            RatingRule { ladder: VoltageLadder::Mica, margin: FILM_MARGIN, floor_v: 0.0, usual_v: 500.0 }
        }
        Dielectric::Class2 => {
            RatingRule { ladder: VoltageLadder::CeramicDisc, margin: FILM_MARGIN, floor_v: 0.0, usual_v: 500.0 }
        }
        Dielectric::Film | Dielectric::SafetyFilm | Dielectric::SafetyBarrier => RatingRule {
            ladder: VoltageLadder::FilmDc,
            margin: if tone { TONE_MARGIN } else { FILM_MARGIN },
            floor_v: match old.farad <= 1e-6 {
                true if tone && place.circuit_v.is_none() => 1000.0,
                true => 630.0,
                // Above 1 uF film for 630 V is large and is not bought without need.
                false => 100.0,
            },
            usual_v: if tone { 1000.0 } else { 630.0 },
        },
    }
}

/// Difference of the new from the old, percent of the old.
fn difference_percent(old: f64, new: f64) -> f64 {
    (new - old) / old * 100.0
}
