//! The sentences of the answer.

use super::HeaterStringQuestion;
use super::items::Kind;
use super::plan::{DropperFit, Plan, ShuntFit, TOLERABLE_PERCENT, outcome_of, worst};
use super::wired::{Place, Wired};
use crate::caution;
use crate::finding::{Caution, Change, Finding, Mark, Outcome, PartToFit, Verdict};
use crate::heater::{HeaterState, Solved};
use crate::quantity::{ohm, significant, tenth, volt, watt, whole};

/// Everything there is to tell about.
pub(super) struct Story<'a, 'b> {
    pub question: &'a HeaterStringQuestion,
    pub string: &'a Wired<'b>,
    pub plan: &'a Plan,
}

impl Story<'_, '_> {
    pub fn verdict(&self) -> Verdict {
        let (mark, word, says) = self.judged();
        Verdict { mark, word: word.to_owned(), says }
    }

    fn judged(&self) -> (Mark, &'static str, String) {
        let sum = self.sum_words();
        if let Some(&place) = self.plan.starved.first() {
            let name = self.name(place);
            return (
                Mark::No,
                "No, not in this string.",
                format!(
                    "{name} wants {} and the string is meant for {}: it stays cold, and no resistor across it mends that.",
                    amps(self.rated_a(place)),
                    amps(self.string.string_a)
                ),
            );
        }
        let now = worst(self.string, &self.plan.now);
        let remedy = self.remedy();
        match (now, remedy) {
            (Outcome::Ok, _) => {
                (Mark::Yes, "Yes, as it stands.", format!("{sum}, and the heaters get {}.", self.span(&self.plan.now)))
            }
            (Outcome::Differs, remedy) => (
                Mark::Care,
                "Yes, with a difference.",
                format!(
                    "{sum}, and the heaters get {}: it works, within 10 % of the ratings.{}",
                    self.span(&self.plan.now),
                    remedy.map(|remedy| format!(" {remedy}")).unwrap_or_default()
                ),
            ),
            (_, Some(remedy)) => {
                let fails = if now == Outcome::Fails { "As it is, a heater fails. " } else { "" };
                (Mark::Care, "Only after changes.", format!("{fails}{sum}. {remedy}"))
            }
            (_, None) if self.plan.now.heaters.iter().any(|state| state.percent > 100.0 + TOLERABLE_PERCENT) => (
                Mark::No,
                "No, not as it is wired.",
                format!(
                    "{sum}: the heaters get {}, and neither dropper nor shunts mend that.",
                    self.span(&self.plan.now)
                ),
            ),
            (_, None) => (
                Mark::No,
                "No, the line is too low.",
                format!("{sum}: the heaters get only {}, and a resistor cannot raise that.", self.span(&self.plan.now)),
            ),
        }
    }

    /// "The string adds up to 122.8 V on a 120 V line".
    fn sum_words(&self) -> String {
        let fitted = match self.question.dropper_ohm {
            Some(fitted_ohm) if fitted_ohm > 0.0 => format!(" with {} in series", ohm(fitted_ohm)),
            _ => String::new(),
        };
        format!(
            "The string adds up to {} on a {} line{fitted}",
            volts(self.string.sum_v()),
            volts(self.question.line_v)
        )
    }

    /// What would bring every heater within 10 percent; none when nothing does.
    fn remedy(&self) -> Option<String> {
        let then = self.plan.then.as_ref().filter(|then| worst(self.string, then) <= Outcome::Differs)?;
        let mut parts: Vec<String> = self
            .plan
            .shunts
            .iter()
            .map(|fit| format!("{} across the heater of {}", ohm(fit.ohm), self.name(fit.place)))
            .collect();
        match (&self.plan.dropper, self.question.dropper_ohm) {
            (Some(fit), Some(fitted_ohm)) if fitted_ohm == fit.part.ohm => {}
            (Some(fit), _) => parts.push(format!("{} in series", dropper_words(fit))),
            (None, Some(fitted_ohm)) if fitted_ohm > 0.0 => parts.push("no dropper".to_owned()),
            (None, _) => {}
        }
        Some(format!("With {} the heaters get {}.", parts.join(" and "), self.span(then)))
    }

    pub fn reasons(&self) -> Vec<Finding> {
        let mut reasons = vec![self.sum()];
        let states = self.plan.now.heaters.iter();
        let off = |state: &HeaterState| (state.percent - 100.0).abs();
        if let Some((place, state)) = self
            .string
            .places
            .iter()
            .zip(states)
            .filter(|(place, _)| place.kind == Kind::Tube)
            .max_by(|left, right| off(left.1).total_cmp(&off(right.1)))
        {
            reasons.push(heater(place, state));
        }
        reasons
    }

    fn sum(&self) -> Finding {
        let (sum_v, line_v) = (self.string.sum_v(), self.question.line_v);
        let outcome = worst(self.string, &self.plan.now);
        let says = match &self.plan.dropper {
            Some(fit) => format!(
                "{}: {} have to be dropped, {} at {}.",
                self.sum_words(),
                volts(line_v - sum_v),
                ohm(fit.part.exact_ohm),
                amps(self.string.string_a)
            ),
            None => format!("{}: no dropper is needed.", self.sum_words()),
        };
        Finding::figures("string", outcome, volts(line_v), volts(sum_v), says)
    }

    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = vec![self.sum()];
        let states = self.string.places.iter().zip(&self.plan.now.heaters);
        findings.extend(states.map(|(place, state)| heater(place, state)));
        findings.extend(self.mixed());
        findings.extend(
            self.string
                .places
                .iter()
                .filter_map(|place| Some(Finding::plain("marking", Outcome::Unknown, place.says.clone()?))),
        );
        if let Some(then) = &self.plan.then {
            findings.push(Finding::plain(
                "after the changes",
                worst(self.string, then),
                format!("After these changes {} flow and the heaters get {}.", amps(then.current_a), self.span(then)),
            ));
        }
        for place in &self.string.places {
            if place.halves {
                findings.push(Finding::plain(
                    "connection",
                    Outcome::NeedsChange,
                    format!(
                        "The {} heater is tapped: in this string its halves go in parallel, {} {}.",
                        place.name,
                        volts(place.heater.rated_v),
                        amps(place.heater.rated_a)
                    ),
                ));
            }
            if let Some(tap_v) = place.tube.and_then(|tube| tube.figures.lamp_tap_v) {
                findings.push(Finding::plain(
                    "dial lamp",
                    Outcome::Ok,
                    format!(
                        "The dial lamp sits on a {} tap of the {} heater. A dead lamp overloads that section: replace it before the set is used.",
                        volts(tap_v),
                        place.name
                    ),
                ));
            }
        }
        findings
    }

    /// A word on heaters of several currents in one string.
    fn mixed(&self) -> Option<Finding> {
        // Where plate current joins on the way the heaters themselves are alike.
        let joined = self.string.places.iter().any(|place| place.heater.added_a > 0.0);
        if joined || self.plan.shunts.is_empty() && self.plan.starved.is_empty() {
            return None;
        }
        let odd: Vec<String> = self
            .plan
            .shunts
            .iter()
            .map(|fit| fit.place)
            .chain(self.plan.starved.iter().copied())
            .map(|place| format!("{} {}", self.name(place), amps(self.rated_a(place))))
            .collect();
        let outcome = if self.plan.starved.is_empty() { Outcome::NeedsChange } else { Outcome::Fails };
        Some(Finding::figures(
            "heater currents",
            outcome,
            amps(self.string.string_a),
            odd.join(", "),
            "Heaters of different current are in one string. The one of lower current takes more than its share of the volts, the one of higher current stays cold.",
        ))
    }

    pub fn changes(&self) -> Vec<Change> {
        // Where no heater current fits, resistors are no answer.
        if !self.plan.starved.is_empty() || self.plan.then.is_none() {
            return Vec::new();
        }
        let mut changes: Vec<Change> = self.plan.shunts.iter().map(|fit| self.shunt(fit)).collect();
        match (&self.plan.dropper, self.question.dropper_ohm) {
            (Some(fit), Some(fitted_ohm)) if fitted_ohm == fit.part.ohm => {}
            (Some(fit), fitted) => {
                let instead = match fitted {
                    Some(fitted_ohm) if fitted_ohm > 0.0 => format!(", in place of the {} fitted", ohm(fitted_ohm)),
                    _ => String::new(),
                };
                changes.push(Change::with_part(
                    format!("Put the dropper in series with the heaters alone, at the line end{instead}."),
                    PartToFit {
                        part: "wire-wound resistor, flameproof".to_owned(),
                        value: ohm(fit.part.ohm),
                        dissipates_w: Some(fit.part.dissipates_w),
                        rating: fit
                            .rated_w
                            .map_or_else(|| format!("{} in all, shared by several", watt(fit.part.rated_w)), watt),
                    },
                ));
            }
            (None, Some(fitted_ohm)) if fitted_ohm > 0.0 => {
                changes.push(Change::plain(format!(
                    "Bridge or remove the {} dropper: the string takes the whole line.",
                    ohm(fitted_ohm)
                )));
            }
            (None, _) => {}
        }
        changes
    }

    fn shunt(&self, fit: &ShuntFit) -> Change {
        let joined = self.string.places.get(fit.place).is_some_and(|place| place.heater.added_a > 0.0);
        Change::with_part(
            if joined {
                format!(
                    "The resistor goes across the filament pins of {}, unless the set has one there already: it takes the plate current that would go through the filament.",
                    self.name(fit.place)
                )
            } else {
                format!(
                    "Solder the resistor straight across the heater pins of {}, firmly: should it come off, the heater fails.",
                    self.name(fit.place)
                )
            },
            PartToFit {
                part: "wire-wound or metal-oxide resistor".to_owned(),
                value: ohm(fit.ohm),
                dissipates_w: Some(super::round(fit.dissipates_w, 2)),
                rating: fit.rated_w.map_or_else(|| format!("{} or more", watt(2.0 * fit.dissipates_w)), watt),
            },
        )
    }

    pub fn measure(&self) -> Vec<String> {
        let mut measure = vec![
            "The line, with the set running: everything here follows it.".to_owned(),
            "AC volts across every heater after two minutes, pin to pin: within 10 % of its rating.".to_owned(),
        ];
        if self.plan.dropper.is_some() || !self.plan.shunts.is_empty() {
            measure.push("The heat about the resistors after half an hour, cabinet closed.".to_owned());
        }
        measure
    }

    pub fn cautions(&self) -> Vec<Caution> {
        let mut cautions = vec![caution::HOT_CHASSIS, caution::ISOLATION];
        if self.plan.dropper.is_some() || self.question.dropper_ohm.is_some_and(|fitted_ohm| fitted_ohm > 0.0) {
            cautions.extend([caution::RESISTANCE_CORD, caution::ASBESTOS]);
        }
        if self.plan.dropper.is_some() || !self.plan.shunts.is_empty() {
            cautions.push(caution::HOT_RESISTOR);
        }
        cautions.push(caution::LICENSED_PRACTICE);
        cautions
    }

    /// "98 % of their volts", "95 to 103 % of their volts"; figures beyond failing are not told.
    fn span(&self, solved: &Solved) -> String {
        let tubes = || {
            let pairs = self.string.places.iter().zip(&solved.heaters);
            pairs.filter(|(place, _)| place.kind == Kind::Tube).map(|(_, state)| state)
        };
        let percents = || tubes().map(|state| state.percent);
        let (least, most) = (percents().fold(f64::INFINITY, f64::min), percents().fold(0.0, f64::max));
        if tubes().any(HeaterState::fails) {
            return "up to so much that one fails".to_owned();
        }
        if most - least < 1.0 {
            format!("{} % of their volts", whole(0.5 * (least + most)))
        } else {
            format!("{} to {} % of their volts", whole(least), whole(most))
        }
    }

    fn name(&self, place: usize) -> &str {
        self.string.places.get(place).map_or("", |place| place.name.as_str())
    }

    fn rated_a(&self, place: usize) -> f64 {
        self.string.places.get(place).map_or(0.0, |place| place.heater.rated_a)
    }
}

/// One heater against its rating; of a resistor its heat.
fn heater(place: &Place<'_>, state: &HeaterState) -> Finding {
    let name = &place.name;
    let rated = volts(place.heater.rated_v);
    if !matches!(place.kind, Kind::Tube | Kind::Lamp) {
        let heat_w = state.v * state.a;
        let says = format!(
            "{name} drops {} and makes {} of heat: it has to be rated twice that.",
            volts(state.v),
            watt(heat_w)
        );
        return Finding::figures("dropper", Outcome::Ok, watt(2.0 * heat_w), watt(heat_w), says);
    }
    if state.fails() {
        let says = format!("{name} gets more than one and a half times its {rated}: it fails.");
        return Finding::figures("heater", Outcome::Fails, rated, "it fails", says);
    }
    let percent = whole(state.percent) + " %";
    let says = if place.kind == Kind::Lamp && state.percent <= 100.0 + TOLERABLE_PERCENT {
        format!(
            "{name} gets {} of {rated}: it lights so bright. In series with cold heaters it flashes up at switch-on, and when it dies the string is dark.",
            volts(state.v)
        )
    } else if (state.percent - 100.0).abs() <= TOLERABLE_PERCENT {
        format!("{name} gets {} of {rated}, {percent}.", volts(state.v))
    } else if state.percent > 100.0 {
        format!("{name} gets {} instead of {rated}, {percent}: it does not live long.", volts(state.v))
    } else {
        format!("{name} gets {} instead of {rated}, {percent}: it emits too little.", volts(state.v))
    };
    Finding::figures("heater", outcome_of(place, state), rated, volts(state.v), says)
}

/// Volts to a tenth where it shows: "12.6 V", "122.8 V", "120 V".
#[inline(never)]
pub(super) fn volts(v: f64) -> String {
    if v.abs() < 1000.0 { format!("{} V", tenth(v)) } else { volt(v) }
}

#[inline(never)]
pub(super) fn amps(a: f64) -> String {
    format!("{} A", significant(a, 3))
}

fn dropper_words(fit: &DropperFit) -> String {
    fit.rated_w.map_or_else(|| ohm(fit.part.ohm), |rated_w| format!("{}, {}", ohm(fit.part.ohm), watt(rated_w)))
}
