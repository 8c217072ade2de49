//! What else there is to tell of a string: insulation along it, filaments that carry plate current, the first seconds, other ways to drop, another line.

use super::items::Kind;
use super::plan::{TOLERABLE_PERCENT, heater_cathode};
use super::story::{Story, amps, volts};
use super::wired::Place;
use crate::book::{Function, HeaterKind, WarmUp};
use crate::finding::{Change, Finding, Mark, Outcome, PartToFit, Verdict};
use crate::heater::{
    CONTROLLED_S, Mass, WarmPoint, capacitor_current_a, capacitor_uf, half_wave_v, same_a, solve, warm_up,
};
use crate::quantity::{farad, ohm, significant, volt, watt, whole};
use crate::series::{Series, power_rating_w};

/// A heater may go so far over its rated volts while warming, percent (Mullard Outlook, February 1963).
const WARMING_PERCENT: f64 = 150.0;
/// A heater that is not controlled may warm in this share of the time of the others. An assumption.
const QUICK: f64 = 0.6;
/// What a capacitor dropper lets through at switch-on is held to this, amperes.
const SURGE_A: f64 = 4.0;
/// A line this far from the one the set is made for is another, as a share.
const FAR: f64 = 0.25;
/// Seconds in which the bleeder empties it to a third.
const BLEED_S: f64 = 0.5;
/// Volts of small transformer windings sold.
const WINDINGS_V: [f64; 6] = [5.0, 6.3, 9.0, 12.6, 24.0, 48.0];

impl Story<'_, '_> {
    /// Heaters further from their cathodes than the book allows, with the string as it should be.
    pub fn heater_cathode(&self) -> Vec<Finding> {
        let found = heater_cathode(self.string, self.question, self.plan.proper());
        let over = |(place, found_v): (&Place<'_>, Option<f64>)| {
            let (found_v, tube) = (found_v?, place.tube?);
            let most_v = tube.figures.heater_cathode_max_v?;
            let rectifier = tube.unit_of(Function::Rectifier).is_some();
            // A rectifier's figure is for the line of its day (330 V for 117 V): today's is no news.
            let allowed = if rectifier { 1.15 } else { 1.01 };
            (found_v > allowed * most_v).then(|| {
                let says = format!(
                    "Between heater and cathode of {} are up to {} here; the book allows {}.{}",
                    place.name,
                    volt(found_v),
                    volt(most_v),
                    if rectifier { "" } else { " Nearer the chassis end of the string it has less." }
                );
                Finding::figures("heater-cathode", Outcome::Differs, volt(most_v), volt(found_v), says)
            })
        };
        self.string.places.iter().zip(found).filter_map(over).collect()
    }

    /// Filaments that carry the plate current of others.
    pub fn cathode_currents(&self) -> Vec<Finding> {
        let joined = |place: &Place<'_>| {
            let added_a = place.heater.added_a;
            (added_a > 0.01 * self.string.string_a).then(|| {
                let exact_ohm = place.heater.rated_v / added_a;
                Finding::figures(
                    "plate current",
                    Outcome::Differs,
                    amps(place.heater.rated_a),
                    amps(added_a),
                    format!(
                        "Through the filament of {} goes {} mA of plate and screen current besides (typical currents of the book). {} across it takes that; look for such a resistor in the set before adding one.",
                        place.name,
                        significant(added_a * 1e3, 2),
                        ohm(Series::E12.nearest(exact_ohm).unwrap_or(exact_ohm))
                    ),
                )
            })
        };
        self.string.places.iter().filter_map(joined).collect()
    }

    /// The fullest heater in the first seconds, and what a quick one would get.
    pub fn warm_up(&self, points: &[WarmPoint]) -> Option<Finding> {
        if points.is_empty()
            || self
                .string
                .places
                .iter()
                .any(|place| place.tube.is_some_and(|tube| tube.heater_kind == Some(HeaterKind::Filament)))
        {
            return None;
        }
        let first_a = points.first().map_or(0.0, |point| point.a);
        // The smallest heater of a type that is not controlled.
        let quick = self
            .string
            .places
            .iter()
            .enumerate()
            .filter(|(_, place)| place.tube.is_some_and(|tube| tube.warm_up != Some(WarmUp::Controlled)))
            .min_by(|left, right| {
                let power = |place: &Place<'_>| place.heater.rated_v * place.heater.rated_a;
                power(left.1).total_cmp(&power(right.1))
            });
        let settles_a = self.plan.proper().current_a;
        let start = format!(
            "Cold, the string takes {} at first, {} times what it settles at.",
            amps(first_a),
            significant(first_a / settles_a, 2)
        );
        let controlled = |place: &Place<'_>| place.tube.is_some_and(|tube| tube.warm_up == Some(WarmUp::Controlled));
        let Some((at, place)) = quick else {
            let says = format!("{start} All its tubes are made to warm alike.");
            return Some(Finding::plain("warm-up", Outcome::Ok, says));
        };
        let (mut parts, series_ohm) = self.plan.warming(self.string, self.question);
        parts.get_mut(at)?.mass = Mass::Heater(QUICK * CONTROLLED_S);
        let points = warm_up(&parts, series_ohm, self.question.line_v, 15).ok()?;
        let most_v = points.iter().filter_map(|point| point.v.get(at)).copied().fold(0.0, f64::max);
        let percent = 100.0 * most_v / place.heater.rated_v;
        // Among types that are all uncontrolled it was always so; among controlled ones it was not.
        let odd = self.string.places.iter().any(controlled) && percent > WARMING_PERCENT;
        let outcome = if odd { Outcome::Differs } else { Outcome::Ok };
        Some(Finding::figures(
            "warm-up",
            outcome,
            whole(WARMING_PERCENT) + " % at the most",
            whole(percent) + " %",
            format!(
                "{start} How fast types without controlled warm-up warm is not published: should {} take 0.6 of the time of the others, it gets up to {} % of its volts for some seconds.{}",
                place.name,
                whole(percent),
                if outcome == Outcome::Ok { "" } else { " A thermistor in the string, or a resistor, spares it." }
            ),
        ))
    }

    /// A capacitor or a diode in place of the dropper.
    pub fn alternatives(&self) -> Vec<Change> {
        let (line_v, line_hz, string_a) = (self.question.line_v, self.question.line_hz, self.string.string_a);
        let sum_v = self.string.sum_v();
        let plain = self.string.places.iter().all(|place| same_a(place.heater.rated_a, string_a));
        if self.plan.dropper.is_none() || line_hz < 16.0 || !plain || self.is_far() {
            return Vec::new();
        }
        let mut ways = Vec::new();
        let heaters = self.string.heaters();
        // The surge resistor's own volts count with those of the string.
        let surge_ohm = Series::E12.at_least(1.1 * line_v * std::f64::consts::SQRT_2 / SURGE_A).unwrap_or(68.0);
        let exact_uf = capacitor_uf(line_v, line_hz, sum_v + string_a * surge_ohm, string_a);
        if exact_uf.is_finite() {
            // Of the two values sold, the one that leaves the heaters nearer their rating.
            let with = |uf: f64| {
                let a = capacitor_current_a(&heaters, surge_ohm, line_v, line_hz, uf).ok()?;
                Some((uf, heaters.first()?.at(a).percent))
            };
            let sold = [Series::E12.at_most(exact_uf), Series::E12.at_least(exact_uf)];
            let best = sold
                .into_iter()
                .flatten()
                .filter_map(with)
                .min_by(|left, right| (left.1 - 98.0).abs().total_cmp(&(right.1 - 98.0).abs()));
            let (uf, percent) = best.map_or((exact_uf, None), |(uf, percent)| (uf, Some(percent)));
            let bleed_ohm = Series::E12.at_most(BLEED_S / (uf * 1e-6)).unwrap_or(100e3);
            ways.push(Change::with_part(
                format!(
                    "A capacitor in series instead, on AC only: {} exactly{}. With {}, {} in series for the surge and {} across the capacitor, which else stays charged after the plug is out. It does not soften switching on as a dropper does. Film for AC only (class X2, or a motor-run capacitor); an electrolytic or a DC film part explodes or burns here.",
                    farad(exact_uf * 1e-6),
                    percent
                        .map(|percent| {
                            let value = farad(uf * 1e-6);
                            format!("; with {value} the heaters get {} % of their volts, and two in parallel come nearer", whole(percent))
                        })
                        .unwrap_or_default(),
                    ohm(surge_ohm),
                    power_rating_w(string_a * string_a * surge_ohm).map_or_else(|| "100 W or more".to_owned(), watt),
                    ohm(bleed_ohm),
                ),
                PartToFit {
                    part: "film capacitor for AC, class X2 or motor-run".to_owned(),
                    value: farad(uf * 1e-6),
                    dissipates_w: None,
                    rating: if line_v > 150.0 { "275 V AC or more; 400 V AC above 240 V" } else { "250 V AC or more" }.to_owned(),
                },
            ));
        }
        let left_v = half_wave_v(line_v) - sum_v;
        if left_v >= -0.05 * sum_v {
            let left_ohm = left_v / string_a;
            let fit = Series::E24.nearest(left_ohm.max(0.1)).filter(|_| left_v > 0.02 * sum_v);
            let solved = solve(&heaters, fit.unwrap_or(0.0), half_wave_v(line_v)).ok();
            let percent = solved.as_ref().and_then(|solved| Some(whole(solved.heaters.first()?.percent)));
            ways.push(Change::with_part(
                format!(
                    "A silicon diode in series instead: half the waves, {} true rms for the string{}{}. Only a true-rms meter reads it. When the diode shorts, the heaters get the whole line and burn out: fit a fuse. The line does not like the direct current; a transformer ahead of the set (isolating ones too) may saturate and heat.",
                    volt(half_wave_v(line_v)),
                    fit.map(|fit| format!(", with {} in series, {}", ohm(fit), power_rating_w(string_a * string_a * fit).map_or_else(|| "100 W or more".to_owned(), watt))).unwrap_or_default(),
                    percent.map(|percent| format!("; the heaters get {percent} % of their volts")).unwrap_or_default(),
                ),
                PartToFit {
                    part: "silicon diode 1N4007".to_owned(),
                    value: "1000 V peak inverse, 1 A".to_owned(),
                    dissipates_w: None,
                    rating: "1000 V".to_owned(),
                },
            ));
        }
        ways
    }

    /// Today's line against the one the set is made for.
    pub fn made_for(&self) -> Option<Finding> {
        Some(made_for(self.question.designed_v?, self.question.line_v))
    }

    /// The verdict of a line too far from the one the set is made for: it comes before what the heaters alone would take.
    pub fn wrong_line(&self) -> Option<(Verdict, Finding)> {
        let finding = self.made_for().filter(|finding| finding.outcome == Outcome::NeedsChange)?;
        let far = (self.question.line_v / self.question.designed_v? - 1.0).abs() > 0.25;
        let (mark, word) =
            if far { (Mark::No, "Not on this line.") } else { (Mark::Care, "Bring the line right first.") };
        Some((Verdict { mark, word: word.to_owned(), says: finding.says.clone() }, finding))
    }

    /// Whether the line is another one altogether: then the heaters are the least of it, as B+ follows the line too.
    fn is_far(&self) -> bool {
        self.question.designed_v.is_some_and(|designed_v| (self.question.line_v / designed_v - 1.0).abs() > FAR)
    }

    /// What brings the set back to the line it is made for.
    pub fn remedies(&self) -> Vec<Change> {
        let line_v = self.question.line_v;
        let Some(designed_v) = self.question.designed_v.filter(|v| (line_v / v - 1.0).abs() > 0.05) else {
            return Vec::new();
        };
        let off_v = line_v - designed_v;
        let mut ways = vec![Change::plain(
            "If the set has a voltage selector, taps or a mains adaptor, set it for the line as measured.",
        )];
        let winding_v = WINDINGS_V
            .into_iter()
            .min_by(|left, right| (left - off_v.abs()).abs().total_cmp(&(right - off_v.abs()).abs()));
        if let Some(winding_v) = winding_v.filter(|v| (v / off_v.abs() - 1.0).abs() < 0.5) {
            ways.push(Change::plain(format!(
                "A small transformer with its {} winding in series with the line, {}: the set gets about {}. The winding has to carry the current of the whole set (watts on its plate over {}, and half as much again). Measure before the set is plugged in: the wrong way round it does the opposite.",
                volts(winding_v),
                if off_v > 0.0 { "against it" } else { "with it" },
                volt(line_v - winding_v.copysign(off_v)),
                volt(designed_v)
            )));
        } else {
            ways.push(Change::plain(format!(
                "A transformer from {} to {} for the watts of the set (an autotransformer does, but does not isolate).",
                volt(line_v),
                volt(designed_v)
            )));
        }
        if off_v > 0.0 && !self.is_far() && self.string.places.iter().any(|place| place.kind == Kind::Tube) {
            let exact_ohm = off_v / self.string.string_a;
            let fit = Series::E24.nearest(exact_ohm).unwrap_or(exact_ohm);
            let heat_w = off_v * self.string.string_a;
            ways.push(Change::with_part(
                "Or, for the heaters alone, more resistance in the string. B+ stays high then: see to the filter capacitors and to the resistor at the rectifier.",
                PartToFit {
                    part: "wire-wound resistor, flameproof".to_owned(),
                    value: ohm(fit),
                    dissipates_w: Some(super::round(heat_w, 2)),
                    rating: power_rating_w(heat_w).map_or_else(|| format!("{} or more in all", watt((2.0 * heat_w).ceil())), watt),
                },
            ));
        }
        ways
    }
}

/// A line against the one a set is made for.
pub(in crate::ask) fn made_for(designed_v: f64, line_v: f64) -> Finding {
    let over = 100.0 * (line_v / designed_v - 1.0);
    let outcome = if over.abs() <= 5.0 {
        Outcome::Ok
    } else if over.abs() <= TOLERABLE_PERCENT {
        Outcome::Differs
    } else {
        Outcome::NeedsChange
    };
    let says = format!(
        "The set is made for {} and gets {}: every voltage in it, B+ and capacitors too, is {} % {}.",
        volt(designed_v),
        volt(line_v),
        whole(over.abs()),
        if over >= 0.0 { "high" } else { "low" }
    );
    Finding::figures("line", outcome, volt(designed_v), volt(line_v), says)
}
