//! Chooses the part for one section at a DC place: what it is made of, its value, its rating.

use super::capacitor::{SMALL, SMALLEST_ELECTROLYTIC, difference_percent};
use super::rating::{ELECTROLYTIC_MARGIN, FILM_MARGIN, RatingRule, TONE_MARGIN};
use super::{
    CapacitorKind, CapacitorMark, CapacitorPart, CapacitorPlace, CapacitorRole, Choice, Dielectric, Joined,
    MarkedSection, NoPart, TemperatureCode, Tolerance, best_pair,
};
use crate::on_sale::{Capacitors, OnSale, Shelf};
use crate::series::Series;

/// The least a filter or bypass electrolytic may be of its old value: the trade fits 22 for 25.
const ELECTROLYTIC_LEAST: f64 = 0.88;

/// The most a first filter may be of its old value after a vacuum rectifier, unless its sheet allows more.
pub const FIRST_FILTER_MOST: f64 = 1.5;

/// Largest silvered mica.
const LARGEST_MICA: f64 = 10e-9;

/// A tuned circuit is not asked to bear more than this, whatever the old part's tolerance was.
const TUNED_PERCENT: f64 = 5.0;

/// A buffer is matched to its vibrator transformer, and bears its back kick: at least so many volts (common practice, no source).
const BUFFER_PERCENT: f64 = 10.0;
const BUFFER_V: f64 = 1600.0;

/// Old parts for 150 V stand at the crest of the line until the tubes are warm: 187 V on 120 V, 10 % high, and 200 V is the next step.
const LINE_OPERATED_V: f64 = 200.0;

/// In series, each part is bought for this share of the volts, because they do not share them evenly.
const SERIES_SHARE: f64 = 0.6;

/// The part for a DC place.
pub(super) fn choose_dc(
    mark: &CapacitorMark,
    old: MarkedSection,
    kind: CapacitorKind,
    place: CapacitorPlace,
    on_sale: &OnSale,
) -> Result<Choice, NoPart> {
    let dielectric = dielectric(mark, old, kind, place.role);
    let tolerance = tolerance(mark, dielectric, place.role);
    let sold = on_sale.capacitors(shelf(dielectric));
    let mut farads = farads(old.farad, dielectric, tolerance, place.role, sold).ok_or(NoPart::Value)?;
    let most = (place.role == Some(CapacitorRole::FirstFilter))
        .then(|| place.first_filter_most.unwrap_or(old.farad * FIRST_FILTER_MOST));
    // The rectifier's limit comes before a larger value, as long as the smaller one is no less than the set needs.
    if let (Some(most), [farad]) = (most, farads.as_mut_slice())
        && *farad > most
        && let Some(less) =
            Series::E6.at_most(most).filter(|less| tolerance.allows(difference_percent(old.farad, *less)))
    {
        *farad = less;
    }
    if farads.iter().any(|farad| *farad > sold.farads.1) {
        return Err(NoPart::Value);
    }
    let rule = rule(dielectric, old, place, sold);
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
                Dielectric::Electrolytic => electrolytic_farad(old.farad * 2.0, sold),
                _ => Series::E6.nearest(old.farad * 2.0),
            };
            let farad = doubled
                .filter(|farad| tolerance.allows(difference_percent(old.farad, farad / 2.0)))
                .ok_or(NoPart::Value)?;
            (vec![part(farad, rated_v, Some(Joined::Series)); 2], None)
        }
    };
    let nearer = match (farads.as_slice(), dielectric) {
        ([farad], Dielectric::Film | Dielectric::Class2) => Series::E12
            .nearest(old.farad)
            .filter(|finer| (finer - old.farad).abs() < (farad - old.farad).abs() * (1.0 - 1e-9)),
        _ => None,
    };
    let exact_pair = match farads.as_slice() {
        [farad] if dielectric == Dielectric::Mica && !same(*farad, old.farad) => {
            best_pair(old.farad, Series::E24, Joined::Parallel)
        }
        _ => None,
    };
    Ok(Choice {
        old,
        tolerance,
        parts,
        rating,
        nearer,
        exact_pair,
        most,
        barrier: None,
        bleed_ohm: None,
        own_low_volts: false,
    })
}

/// The shelf it stands on.
fn shelf(dielectric: Dielectric) -> Shelf {
    match dielectric {
        Dielectric::Film => Shelf::Film,
        Dielectric::Electrolytic => Shelf::Electrolytic,
        Dielectric::Mica | Dielectric::Class1(_) => Shelf::Mica,
        Dielectric::Class2 => Shelf::CeramicDisc,
        Dielectric::SafetyFilm => Shelf::ClassX2,
        Dielectric::SafetyBarrier => Shelf::ClassY2,
    }
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
        // High pulses, or a line of megohms: neither bears an electrolytic or a class 2 disc.
        _ if matches!(role, Some(CapacitorRole::Buffer | CapacitorRole::Agc)) && old.farad >= SMALL => Dielectric::Film,
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
    match role {
        Some(CapacitorRole::Buffer) => old.no_wider_than(BUFFER_PERCENT),
        _ if exact => old.no_wider_than(TUNED_PERCENT),
        _ => old,
    }
}

/// One value, or two to be joined in parallel.
fn farads(
    old_farad: f64,
    dielectric: Dielectric,
    tolerance: Tolerance,
    role: Option<CapacitorRole>,
    sold: &Capacitors,
) -> Option<Vec<f64>> {
    let allowed = |farad: &f64| tolerance.allows(difference_percent(old_farad, *farad));
    // Where the value counts the finest series in stock, else the one in every drawer first.
    let finest = sold.series.last().map(std::slice::from_ref).unwrap_or_default();
    let series = match dielectric {
        Dielectric::Electrolytic => return electrolytic_farad(old_farad, sold).map(|farad| vec![farad]),
        Dielectric::Mica | Dielectric::Class1(_) if role.is_none() => finest,
        _ if role == Some(CapacitorRole::Tuned) => finest,
        _ => &sold.series,
    };
    if let Some(farad) = series.iter().filter_map(|series| series.nearest(old_farad)).find(allowed) {
        return Some(vec![farad]);
    }
    // In parallel each bears the volts alone; in series their sharing would have to be looked at.
    let pair = best_pair(old_farad, Series::E24, Joined::Parallel).filter(|pair| pair.joined == Joined::Parallel)?;
    allowed(&(pair.first + pair.second)).then(|| vec![pair.first, pair.second])
}

/// The least value in stock that is not more than 12 % below the old one.
fn electrolytic_farad(old_farad: f64, sold: &Capacitors) -> Option<f64> {
    let farad = sold.series.first()?.at_least(old_farad * ELECTROLYTIC_LEAST * (1.0 - 1e-9))?;
    // The one E6 value of the first decade that is not stocked.
    if (farad - 1.5e-6).abs() < 1e-12 { Some(2.2e-6) } else { Some(farad) }
}

/// How its rating is chosen.
fn rule(dielectric: Dielectric, old: MarkedSection, place: CapacitorPlace, ladder: &Capacitors) -> RatingRule<'_> {
    let tone = place.role == Some(CapacitorRole::Tone);
    if place.role == Some(CapacitorRole::Buffer) {
        return RatingRule { ladder, margin: FILM_MARGIN, floor_v: BUFFER_V, usual_v: BUFFER_V };
    }
    match dielectric {
        Dielectric::Electrolytic => RatingRule {
            ladder,
            margin: ELECTROLYTIC_MARGIN,
            floor_v: if line_operated(old, place) { LINE_OPERATED_V } else { 0.0 },
            usual_v: if place.role == Some(CapacitorRole::CathodeBypass) { 63.0 } else { 450.0 },
        },
        Dielectric::Mica | Dielectric::Class1(_) => {
            RatingRule { ladder, margin: FILM_MARGIN, floor_v: 0.0, usual_v: 500.0 }
        }
        Dielectric::Class2 => RatingRule { ladder, margin: FILM_MARGIN, floor_v: 0.0, usual_v: 500.0 },
        Dielectric::Film | Dielectric::SafetyFilm | Dielectric::SafetyBarrier => RatingRule {
            ladder,
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

/// Whether it filters the supply of a set without a transformer on a line of about 120 V, as its old volts tell.
fn line_operated(old: MarkedSection, place: CapacitorPlace) -> bool {
    let filter = matches!(place.role, None | Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter));
    filter && place.circuit_v.is_none() && old.volts.is_some_and(|volts| (100.0..=175.0).contains(&volts))
}

/// The same value, but for a rounding.
fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= other * 1e-6
}
