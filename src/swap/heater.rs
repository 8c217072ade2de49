//! Will its heater get its volts and amperes, and leave the others theirs? Source: string law in `heater`; tolerances of 5 and 10 %
//! are common practice, no source.

use super::{Check, Fact, NOMINAL_LINE_V, Socket, Supply};
use crate::book::pins::{Electrodes, Part, Shared};
use crate::book::{Function, HeaterKind, Tube};
use crate::finding::Outcome;
use crate::heater::{self, Heater, same_a};

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "In a string all heaters share one current: a 0.3 A heater in a 0.15 A string stays dark, a 0.1 A one burns out. On a winding the volts must agree and the winding must carry the amperes. A 5814A (0.175 A) is no 12AU7 (0.15 A) in a string.";

/// Amperes more than the original that a winding of unknown reserve is trusted with, without and with a remark.
const SMALL_EXTRA_A: f64 = 0.105;
const LARGE_EXTRA_A: f64 = 0.305;
/// Part of a winding's volts that must be to spare before a resistor in series with one heater is offered, and the most heat in it, watts. Half a
/// volt more or less in the wiring decides over a smaller one. A judgement, no source.
const DROP_PART: f64 = 0.3;
const DROP_W: f64 = 10.0;

/// Volts and amperes compared.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HeaterFact {
    /// Original: volts and amperes as the socket uses it.
    pub own: Option<(f64, f64)>,
    /// Candidate: volts and amperes as it would be used.
    pub other: Option<(f64, f64)>,
    /// In a string: its current and the share of its rated volts every heater then gets (1.0 = all of it).
    pub string: Option<(f64, f64)>,
    /// Shunt across the candidate's heater, ohms.
    pub shunt_ohm: Option<f64>,
    /// Resistance the string then wants in series, ohms: all of it.
    pub dropper_ohm: Option<f64>,
    /// Resistance it has in series now, ohms; zero when none is known of.
    pub fitted_ohm: f64,
    /// Resistor in series with the candidate's heater on a winding of higher volts, ohms.
    pub series_ohm: Option<f64>,
    /// Why it fails or needs a change.
    pub why: HeaterWhy,
    /// Whether the candidate's heater sections have to be connected another way.
    pub reconnect: bool,
}

/// What decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum HeaterWhy {
    /// Nothing to say.
    #[default]
    Fits,
    /// Figures are missing.
    Missing,
    /// Heater against filament or cold cathode.
    OtherKind,
    /// Directly heated rectifier: B+ comes at once.
    Sooner,
    /// Volts differ.
    Volts,
    /// Volts are lower than the winding's by so much that a resistor takes the rest.
    Dropped,
    /// More amperes than the original.
    MoreAmps,
    /// Fewer amperes than the original, on a winding.
    FewerAmps,
    /// Fewer amperes than the string: shunt.
    Shunt,
    /// More amperes than the string.
    Starves,
    /// Volts and amperes both differ from the string's.
    BothWrong,
    /// The string then adds up to less than the line.
    StringLow,
    /// The string then adds up to more than the line.
    StringHigh,
    /// Battery filaments of other current.
    BatteryAmps,
}

/// Ways a heater can be connected: whole, and with its halves in parallel. Neither is known when one of a tapped heater's is not.
fn ways(tube: &Tube) -> [Option<(f64, f64)>; 2] {
    let figures = &tube.figures;
    let whole = figures.heater_v.zip(figures.heater_a);
    let halves = figures.heater_parallel_v.zip(figures.heater_parallel_a);
    let tap = Electrodes::shared(Shared::HeaterTap).with(Electrodes::shared(Shared::FilamentTap));
    let tapped = tube.pins.is_some_and(|pins| pins.all().meets(tap));
    if whole.is_none() || (tapped && halves.is_none()) { [None, None] } else { [whole, halves] }
}

/// The check.
pub fn check(original: &Tube, candidate: &Tube, socket: &Socket) -> Check {
    let (own_kind, other_kind) = (original.heater_kind, candidate.heater_kind);
    let rectifier = original.units.first().is_some_and(|unit| unit.function == Function::Rectifier);
    match (own_kind, other_kind) {
        (Some(HeaterKind::Cold), Some(HeaterKind::Cold)) => return ok(HeaterFact::default()),
        (Some(a), Some(b)) if a == b => {}
        // A filament in place of a cathode of its own would put B+ on whatever else the winding feeds.
        (Some(HeaterKind::Heater), Some(HeaterKind::Filament))
            if rectifier && cathode_on_heater(original) && !matches!(socket.supply, Supply::Battery) => {}
        (Some(HeaterKind::Filament), Some(HeaterKind::Heater))
            if rectifier && !matches!(socket.supply, Supply::Battery) => {}
        (Some(_), Some(_)) => {
            let fact = HeaterFact {
                why: HeaterWhy::OtherKind,
                own: ways(original)[0],
                other: ways(candidate)[0],
                ..HeaterFact::default()
            };
            return Check::new(Fact::Heater(fact), Outcome::Fails);
        }
        _ => return missing(original, candidate),
    }
    // A rectifier whose heater is at B+ has a winding of its own: in a string across the line its socket has no place.
    let own_winding = rectifier && (own_kind == Some(HeaterKind::Filament) || cathode_on_heater(original));
    if own_winding && matches!(socket.supply, Supply::Series { .. }) {
        let fact = HeaterFact {
            why: HeaterWhy::OtherKind,
            own: ways(original)[0],
            other: ways(candidate)[0],
            ..HeaterFact::default()
        };
        return Check::new(Fact::Heater(fact), Outcome::Fails);
    }
    let mut check = match socket.supply {
        Supply::Parallel { volts, spare_amps } => parallel(original, candidate, volts, spare_amps),
        Supply::Series { amps, line_v, others_v, dropper_ohm, .. } => {
            series(original, candidate, amps, (line_v, others_v, dropper_ohm))
        }
        Supply::Battery => battery(original, candidate),
    };
    if rectifier
        && own_kind == Some(HeaterKind::Heater)
        && other_kind == Some(HeaterKind::Filament)
        && check.outcome <= Outcome::Differs
    {
        if let Fact::Heater(fact) = &mut check.fact {
            fact.why = HeaterWhy::Sooner;
        }
        check.outcome = Outcome::Differs;
    }
    check
}

/// Whether the cathode is joined to a heater end inside the bulb, so that the winding is the rectifier's own.
fn cathode_on_heater(tube: &Tube) -> bool {
    let cathode = Electrodes::part(0, Part::Cathode);
    tube.pins.is_some_and(|pins| pins.pins.iter().any(|on| on.meets(cathode) && on.meets(Electrodes::HEATER)))
}

fn ok(fact: HeaterFact) -> Check {
    Check::new(Fact::Heater(fact), Outcome::Ok).noticed(fact.why != HeaterWhy::Fits)
}

fn missing(original: &Tube, candidate: &Tube) -> Check {
    let fact = HeaterFact {
        own: ways(original)[0],
        other: ways(candidate)[0],
        why: HeaterWhy::Missing,
        ..HeaterFact::default()
    };
    Check::new(Fact::Heater(fact), Outcome::Unknown)
}

/// On a winding: the volts must agree, the amperes must be there.
fn parallel(original: &Tube, candidate: &Tube, volts: Option<f64>, spare_amps: Option<f64>) -> Check {
    let mut worst: Option<Check> = None;
    let own_ways = ways(original);
    let fitting = |volts: f64| own_ways.iter().flatten().any(|(v, _)| (v / volts - 1.0).abs() <= 0.1);
    for (at, own) in own_ways.iter().enumerate() {
        let Some((own_v, own_a)) = *own else { continue };
        // With the set's volts known only the connection that suits them is looked at; a set that suits neither is judged by its volts.
        if volts.is_some_and(|volts| (own_v / volts - 1.0).abs() > 0.1 && fitting(volts)) {
            continue;
        }
        let wanted_v = volts.unwrap_or(own_v);
        let check = parallel_way(candidate, (own_v, own_a), wanted_v, spare_amps, at);
        if worst.is_none_or(|worst| check.outcome > worst.outcome) {
            worst = Some(check);
        }
    }
    worst.unwrap_or_else(|| missing(original, candidate))
}

fn parallel_way(candidate: &Tube, own: (f64, f64), wanted_v: f64, spare_amps: Option<f64>, at: usize) -> Check {
    let best = ways(candidate)
        .into_iter()
        .enumerate()
        .filter_map(|(way, figures)| figures.map(|figures| (way, figures)))
        .min_by(|(_, a), (_, b)| (a.0 - wanted_v).abs().total_cmp(&(b.0 - wanted_v).abs()));
    let Some((way, (other_v, other_a))) = best else {
        let fact = HeaterFact { own: Some(own), why: HeaterWhy::Missing, ..HeaterFact::default() };
        return Check::new(Fact::Heater(fact), Outcome::Unknown);
    };
    let mut fact =
        HeaterFact { own: Some((wanted_v, own.1)), other: Some((other_v, other_a)), ..HeaterFact::default() };
    let mut off = (wanted_v / other_v - 1.0).abs();
    let spare_v = wanted_v - other_v;
    if off > 0.1 {
        // A resistor serves where there is much to drop and little heat in doing it; rectifiers and filaments keep their own volts.
        let room = spare_v >= DROP_PART * wanted_v && spare_v * other_a <= DROP_W;
        let signal =
            !candidate.units.iter().any(|unit| matches!(unit.function, Function::Rectifier | Function::Damper));
        if !(room && signal && candidate.heater_kind == Some(HeaterKind::Heater)) {
            fact.why = HeaterWhy::Volts;
            return Check::new(Fact::Heater(fact), Outcome::Fails);
        }
        fact.series_ohm = Some(spare_v / other_a);
        off = 0.0;
    }
    if way != at && (ways(candidate)[1].is_some() || at == 1) {
        fact.reconnect = true;
    }
    let extra = other_a - own.1;
    let mut outcome = if off > 0.05 + 1e-9 { Outcome::Differs } else { Outcome::Ok };
    if outcome == Outcome::Differs {
        fact.why = HeaterWhy::Volts;
    }
    if extra > 0.005 {
        fact.why = HeaterWhy::MoreAmps;
        let by_amps = match spare_amps {
            Some(spare) if extra <= spare => Outcome::Ok,
            None if extra <= SMALL_EXTRA_A => Outcome::Ok,
            None if extra <= LARGE_EXTRA_A => Outcome::Differs,
            _ => Outcome::Fails,
        };
        outcome = outcome.max(by_amps);
    } else if extra < -0.005 && outcome == Outcome::Ok {
        fact.why = HeaterWhy::FewerAmps;
    }
    if fact.reconnect {
        outcome = outcome.max(Outcome::NeedsChange);
    }
    if fact.series_ohm.is_some() {
        if outcome != Outcome::Fails {
            fact.why = HeaterWhy::Dropped;
        }
        outcome = outcome.max(Outcome::NeedsChange);
    }
    if outcome == Outcome::Ok { ok(fact) } else { Check::new(Fact::Heater(fact), outcome) }
}

/// In a string: the amperes must agree, and the volts be close enough that every heater gets its own. `line` is the line's volts, the sum of the
/// other heaters', and the resistance in series, as far as they are known.
fn series(
    original: &Tube,
    candidate: &Tube,
    amps: Option<f64>,
    line: (Option<f64>, Option<f64>, Option<f64>),
) -> Check {
    let line_v = line.0.unwrap_or(NOMINAL_LINE_V);
    let own_ways = ways(original);
    // The original's own connection in this string: the one whose amperes are the string's.
    let (at, own) = match amps {
        Some(amps) => match own_ways.iter().enumerate().find(|(_, way)| way.is_some_and(|(_, a)| same_a(a, amps))) {
            Some((at, way)) => (at, *way),
            None => (0, own_ways[0]),
        },
        None => (0, own_ways[0]),
    };
    let Some((own_v, own_a)) = own else { return missing(original, candidate) };
    let string_a = amps.unwrap_or(own_a);
    let all = ways(candidate);
    let matching = all
        .iter()
        .enumerate()
        .filter_map(|(way, figures)| figures.map(|figures| (way, figures)))
        .filter(|(_, (_, a))| same_a(*a, string_a))
        .min_by(|(_, a), (_, b)| (a.0 - own_v).abs().total_cmp(&(b.0 - own_v).abs()));
    let Some((other_v, other_a)) = matching.map(|(_, figures)| figures).or(all[0]) else {
        return missing(original, candidate);
    };
    let mut fact = HeaterFact { own: Some((own_v, own_a)), other: Some((other_v, other_a)), ..HeaterFact::default() };
    // Filaments of a portable: the place in the string is the grid bias of its neighbours, so the volts must stay.
    if original.heater_kind == Some(HeaterKind::Filament) && (other_v / own_v - 1.0).abs() > 0.1 {
        fact.string = Some((string_a, 1.0));
        fact.why = HeaterWhy::Volts;
        return Check::new(Fact::Heater(fact), Outcome::Fails);
    }
    let Some((way, _)) = matching else {
        return other_amps(fact, string_a);
    };
    fact.reconnect = way != at && (all[1].is_some() || at == 1);
    fact.fitted_ohm = line.2.unwrap_or(0.0);
    // The other heaters' volts when nobody gives them: with the original the string is taken to suit its line.
    let others_v = line.1.unwrap_or((line_v - own_v - fact.fitted_ohm * string_a).max(0.0));
    let sum_v = others_v + other_v;
    let share = share(sum_v, string_a, fact.fitted_ohm, line_v);
    fact.string = Some((string_a, share));
    let off = (share - 1.0).abs();
    let wanted_ohm = (line_v - sum_v) / string_a;
    let mut outcome = if off <= 0.05 {
        Outcome::Ok
    } else if off <= 0.10 {
        Outcome::Differs
    } else if share > 1.0 {
        fact.dropper_ohm = Some(wanted_ohm);
        Outcome::NeedsChange
    } else if fact.fitted_ohm > 0.0 && line_v >= 0.9 * sum_v {
        fact.dropper_ohm = Some(wanted_ohm.max(0.0));
        Outcome::NeedsChange
    } else {
        Outcome::Fails
    };
    if off > 0.01 {
        fact.why = if share > 1.0 { HeaterWhy::StringLow } else { HeaterWhy::StringHigh };
    }
    if fact.reconnect {
        outcome = outcome.max(Outcome::NeedsChange);
    }
    if outcome == Outcome::Ok { ok(fact) } else { Check::new(Fact::Heater(fact), outcome) }
}

/// The part of its volts that every heater of a string gets. Heaters of one rated current share the volts in proportion, whatever their law; with a
/// resistor in series the current that settles decides.
fn share(sum_v: f64, string_a: f64, series_ohm: f64, line_v: f64) -> f64 {
    let law = Heater::new(sum_v, string_a);
    match heater::current_a(&[law], series_ohm, line_v) {
        Ok(current_a) if series_ohm > 0.0 => law.at(current_a).percent / 100.0,
        _ => line_v / sum_v,
    }
}

/// A heater whose rated current is not the string's.
fn other_amps(mut fact: HeaterFact, string_a: f64) -> Check {
    let (Some((own_v, _)), Some((other_v, other_a))) = (fact.own, fact.other) else {
        return Check::new(Fact::Heater(fact), Outcome::Unknown);
    };
    fact.string = Some((string_a, 1.0));
    if other_a > string_a {
        fact.why = HeaterWhy::Starves;
        return Check::new(Fact::Heater(fact), Outcome::Fails);
    }
    if (other_v / own_v - 1.0).abs() > 0.1 {
        fact.why = HeaterWhy::BothWrong;
        return Check::new(Fact::Heater(fact), Outcome::Fails);
    }
    fact.why = HeaterWhy::Shunt;
    fact.shunt_ohm = heater::shunt(&Heater::new(other_v, other_a), string_a).map(|shunt| shunt.ohm);
    Check::new(Fact::Heater(fact), Outcome::NeedsChange)
}

/// On dry batteries: the volts must agree; other amperes drain the cells sooner, and upset a set whose filaments are in series.
fn battery(original: &Tube, candidate: &Tube) -> Check {
    let (own_ways, other_ways) = (ways(original), ways(candidate));
    let (Some(own), Some(other)) = (own_ways[0], other_ways[0]) else { return missing(original, candidate) };
    let mut fact = HeaterFact { own: Some(own), other: Some(other), ..HeaterFact::default() };
    if (other.0 / own.0 - 1.0).abs() > 0.1 || own_ways[1].is_some() != other_ways[1].is_some() {
        fact.why = HeaterWhy::Volts;
        return Check::new(Fact::Heater(fact), Outcome::Fails);
    }
    if !same_a(other.1, own.1) {
        fact.why = HeaterWhy::BatteryAmps;
        return Check::new(Fact::Heater(fact), Outcome::NeedsChange);
    }
    ok(fact)
}
