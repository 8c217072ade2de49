//! The sentences of the answer.

use super::original::{Kind, Original};
use super::plan::{Does, LINE_OHM, Plan};
use super::{RectifierQuestion, RectifierTopology, tidy};
use crate::caution;
use crate::finding::{Caution, Change, Finding, Mark, Outcome, PartToFit, Verdict};
use crate::quantity::{milliamp, ohm, significant, volt, watt};
use crate::series::Series;
use crate::supply::{CapacitorRating, filter_ratings};

/// A B+ this far from the target is the target still, as a share of it.
pub(super) const NEAR: f64 = 0.03;
/// Ripple ratings are for 100 or 120 Hz; at 50 or 60 Hz a capacitor bears about this share. From memory.
pub(super) const RIPPLE_SHARE: f64 = 0.8;

/// Everything there is to tell about.
pub(super) struct Story<'a, 'b> {
    pub question: &'a RectifierQuestion,
    pub original: Option<&'a Original<'b>>,
    pub plan: &'a Plan,
}

impl Story<'_, '_> {
    pub(super) fn warm_v(&self) -> f64 {
        self.plan.nominal().warm.first_v
    }

    pub(super) fn chosen_ohm(&self) -> f64 {
        self.plan.circuit.series_ohm
    }

    /// "the crest of the line".
    pub(super) fn crest(&self) -> &'static str {
        let twice = self.plan.each_share() * self.plan.circuit.topology.crests() > 1.0;
        match (self.question.secondary_v.is_some(), twice) {
            (false, false) => "the crest of the line",
            (false, true) => "twice the crest of the line",
            (true, false) => "the crest of the winding",
            (true, true) => "twice the crest of the winding",
        }
    }

    /// What a full-wave doubler puts across both its capacitors and the filter behind them; nothing elsewhere.
    pub(super) fn both_in_series(&self) -> String {
        if self.plan.each_share() < 1.0 {
            let whole = volt(self.plan.high().cold.crest_v);
            format!(
                " That is each of the doubler's two; a capacitor across both, or after the filter resistor or choke, gets {whole} and has to be rated for that."
            )
        } else {
            String::new()
        }
    }

    fn kind(&self) -> Option<Kind> {
        self.original.map(|original| original.kind)
    }

    /// "68 ohm, 5 W".
    fn resistor(&self) -> String {
        let value = ohm(self.chosen_ohm());
        self.plan.rated_w().map_or_else(|| value.clone(), |rated_w| format!("{value}, {}", watt(rated_w)))
    }

    /// ", or 75 ohm, 5 W (E24): 135 V".
    fn or_closer(&self) -> String {
        self.plan.closer.as_ref().map_or_else(String::new, |closer| {
            format!(", or {}, {} (E24): {}", ohm(closer.ohm), watt(closer.rated_w), volt(closer.warm_v))
        })
    }

    /// Where the target comes from: "140 V is wanted".
    fn target_words(&self) -> String {
        let target = volt(self.plan.target_v);
        match (self.question.target_v, self.original) {
            (None, Some(original)) if original.kind == Kind::Silicon => {
                "whether that is what the set wants, only its drawing can tell (`target_v`)".to_owned()
            }
            (None, Some(original)) => format!("{} gives {target}", original.words),
            _ => format!("{target} is wanted"),
        }
    }

    pub(super) fn fitted_rating(&self) -> Option<CapacitorRating> {
        self.question.filter_rated_v.map(|rated_v| CapacitorRating::of(rated_v, self.plan.worst_v()))
    }

    pub(super) fn least_rated_v(&self) -> Option<f64> {
        filter_ratings(self.plan.worst_v()).into_iter().find(CapacitorRating::is_enough).map(|rating| rating.rated_v)
    }

    /// The rating to buy: the lowest with a tenth to spare, else the lowest that is enough.
    fn rating_to_buy_v(&self) -> f64 {
        let ratings = filter_ratings(self.plan.worst_v());
        let easy = ratings.iter().find(|rating| rating.is_enough() && !rating.is_close());
        easy.map(|rating| rating.rated_v).or(self.least_rated_v()).unwrap_or_else(|| self.plan.worst_v().ceil())
    }

    pub fn verdict(&self) -> Verdict {
        let plan = self.plan;
        let (mark, word, says) = self.choice();
        let mut sentences = vec![says];
        if plan.is_wide() {
            sentences.push(format!(
                "How much the original dropped is uncertain: {} may turn out right, so measure and adjust.",
                between(plan.least_ohm, plan.most_ohm)
            ));
        }
        sentences.extend(self.target_doubt().filter(|doubt| doubt.outcome != Outcome::Ok).map(|doubt| doubt.says));
        let unfit = self.fitted_rating().filter(|rating| !rating.is_enough() && mark != Mark::No);
        if let Some(rating) = unfit {
            sentences.push(format!(
                "First the {} filter capacitors must go: cold they get up to {}.",
                volt(rating.rated_v),
                volt(plan.worst_v())
            ));
        }
        let (mark, word) = match unfit {
            Some(_) => (Mark::Care, "New filter capacitors first.".to_owned()),
            None => (mark, word),
        };
        Verdict { mark, word, says: sentences.join(" ") }
    }

    /// What to fit, before the doubts.
    fn choice(&self) -> (Mark, String, String) {
        let plan = self.plan;
        let (diode, line, warm) = (plan.diode_words(), volt(self.question.line_v), volt(self.warm_v()));
        let (resistor, target, closer) = (self.resistor(), self.target_words(), self.or_closer());
        match plan.does {
            Does::Restores | Does::LimitsSurge if plan.rated_w().is_none() => (
                Mark::No,
                "Not with a resistor.".to_owned(),
                format!(
                    "It would take {resistor} and turn {} into heat. Lower the line with a transformer instead; {target}.",
                    heat(plan.high().warm.series_w)
                ),
            ),
            Does::Restores => (
                Mark::Care,
                format!("Fit {resistor}."),
                format!(
                    "A {diode} with {resistor} in series gives {warm} at the first filter on a {line} line{closer}; {target}."
                ),
            ),
            Does::LimitsSurge => (
                Mark::Care,
                format!("Fit {resistor} for the surge."),
                format!(
                    "A {diode} needs {resistor} in series only to limit the switch-on surge; the first filter is then at {warm} on a {line} line{closer}; {target}."
                ),
            ),
            Does::Nothing if self.kind() == Some(Kind::Silicon) && self.question.target_v.is_none() => (
                Mark::Unknown,
                format!("{warm} as it stands."),
                format!(
                    "The silicon diode with the resistance fitted gives {warm} at the first filter on a {line} line; {target}."
                ),
            ),
            Does::Nothing => (
                if self.is_on_target() { Mark::Yes } else { Mark::Care },
                "No further resistor.".to_owned(),
                format!(
                    "A {diode} gives {warm} at the first filter on a {line} line with the resistance already fitted; {target}."
                ),
            ),
        }
    }

    pub(super) fn is_on_target(&self) -> bool {
        (self.warm_v() / self.plan.target_v - 1.0).abs() <= NEAR
    }

    /// The one or two that decide, the worse first: a doubtful target instead of the B+ it leads to.
    pub fn reasons(&self) -> Vec<Finding> {
        let doubt = self.target_doubt().filter(|doubt| doubt.outcome != Outcome::Ok);
        let (b_plus, cold) = (doubt.unwrap_or_else(|| self.b_plus()), self.cold_start());
        // What forbids it goes first.
        if cold.outcome == Outcome::Fails { vec![cold, b_plus] } else { vec![b_plus, cold] }
    }

    pub fn changes(&self) -> Vec<Change> {
        let (question, plan) = (self.question, self.plan);
        let mut changes = Vec::new();
        if self.choice().0 == Mark::No {
            return changes;
        }
        if self.fitted_rating().is_some_and(|rating| !rating.is_enough()) {
            changes.push(self.new_capacitors());
        }
        changes.extend(self.disconnect());
        changes.push(self.diode());
        if plan.does != Does::Nothing {
            let beside = match question.fitted_ohm {
                Some(fitted_ohm) if fitted_ohm > 0.0 => format!(", beside the {} that stays", ohm(fitted_ohm)),
                _ => String::new(),
            };
            changes.push(Change::with_part(
                format!(
                    "Put the resistor {}{beside}. Wire-wound, fusible or flameproof: a carbon or small film resistor does not survive the switch-on pulses.",
                    question.topology.place()
                ),
                PartToFit {
                    part: "wire-wound resistor, fusible or flameproof".to_owned(),
                    value: ohm(self.chosen_ohm()),
                    dissipates_w: Some(tidy(plan.nominal().warm.series_w, 2)),
                    rating: plan.rated_w().map_or_else(
                        || format!("{} in all, shared by several in series", heat(2.0 * plan.high().warm.series_w)),
                        watt,
                    ),
                },
            ));
        }
        changes.push(Change::plain("Put a label under the chassis that says what was changed, and keep the old part."));
        changes
    }

    fn disconnect(&self) -> Option<Change> {
        let original = self.original?;
        let name = original.tube.map_or("", |tube| tube.name.as_str());
        Some(Change::plain(match original.kind {
            Kind::Silicon => return None,
            Kind::Selenium => {
                "Take both leads off the selenium stack. It may stay in place for its looks, but connected to nothing."
                    .to_owned()
            }
            Kind::Tube if self.question.secondary_v.is_some() => format!(
                "Take the {name} out. The diodes go from its plate contacts to its cathode (or filament) contact; mark the socket so that no tube goes in again."
            ),
            Kind::Tube => format!(
                "Take the wires off plate and cathode of the {name} socket, and leave the tube in for its heater if that is in a string."
            ),
            Kind::CombinedTube => format!(
                "Take the wires off plate and cathode of the rectifier section of the {name}; its other section stays in use."
            ),
        }))
    }

    fn diode(&self) -> Change {
        let diode = &self.plan.diode;
        if self.kind() == Some(Kind::Silicon) {
            return Change::plain(format!(
                "The diode fitted may stay if it is rated {} or more and 1 A; else take a {}.",
                volt(self.plan.needed_inverse_v),
                diode.name
            ));
        }
        let rectifiers = self.question.topology.rectifiers();
        let says = match self.question.topology {
            RectifierTopology::HalfWave => {
                "Connect the diode in place of the old rectifier: the banded end (cathode) to the plus of the first filter, the other end towards the line."
            }
            RectifierTopology::CentreTap => {
                "Connect two diodes in place of the old rectifier: one from each end of the winding, both banded ends (cathodes) joined towards the plus of the first filter."
            }
            RectifierTopology::Bridge => {
                "Connect four diodes in place of the old rectifiers: two banded ends (cathodes) joined at the plus of the first filter, two plain ends at its minus, the AC leads at the two joints between."
            }
            _ => {
                "Connect a diode in place of each old rectifier, banded end (cathode) where its cathode was (on a selenium stack the end marked + or red)."
            }
        };
        Change::with_part(
            says,
            PartToFit {
                part: format!(
                    "silicon diode {}{}",
                    self.plan.diode_words(),
                    if rectifiers > 1 { format!(", {rectifiers} times") } else { String::new() }
                ),
                value: format!("{} peak inverse, {} A", volt(diode.inverse_v), significant(diode.forward_a, 3)),
                dissipates_w: None,
                rating: volt(diode.inverse_v),
            },
        )
    }

    fn new_capacitors(&self) -> Change {
        let rated_v = self.rating_to_buy_v();
        let ripple_ma = self.plan.high().warm.capacitor_ma / RIPPLE_SHARE;
        Change::with_part(
            if self.plan.each_share() < 1.0 {
                format!(
                    "Replace the doubler's two capacitors: cold, each gets {}.{}",
                    volt(self.plan.worst_v()),
                    self.both_in_series()
                )
            } else {
                format!(
                    "Replace the filter capacitors, the second as well as the first: cold, both get {}.",
                    volt(self.plan.worst_v())
                )
            },
            PartToFit {
                part: "electrolytic capacitor, first filter".to_owned(),
                value: format!("{} uF", significant(self.question.first_filter_uf, 3)),
                dissipates_w: None,
                rating: format!("{}, ripple {} or more at 100/120 Hz", volt(rated_v), milliamp(ripple_ma)),
            },
        )
    }

    pub fn measure(&self) -> Vec<String> {
        let plan = self.plan;
        let mut measure = vec![
            "Measure the line with the set running; everything here follows it.".to_owned(),
            format!(
                "At switch-on the first filter goes to about {} and must not pass {}.",
                volt(plan.nominal().cold.crest_v),
                volt(plan.high().cold.crest_v)
            ),
            format!("Warm, after two minutes: about {} at the first filter.", volt(self.warm_v())),
        ];
        if let Some(second_v) = plan.nominal().warm.second_v {
            measure.push(format!("And about {} after the filter resistor.", volt(second_v)));
        }
        if plan.does == Does::Restores {
            measure.push(
                "If B+ comes out more than 5 % off, the load is not what was said: take the next value up or down."
                    .to_owned(),
            );
        }
        measure.push(
            "Cathode volts of the output tube against the drawing: they tell whether the tubes run as meant."
                .to_owned(),
        );
        measure
    }

    pub fn cautions(&self) -> Vec<Caution> {
        // Behind a winding the chassis is not on the line.
        let mut cautions = if self.question.secondary_v.is_none() {
            vec![caution::HOT_CHASSIS, caution::ISOLATION]
        } else {
            Vec::new()
        };
        cautions.push(caution::STORED_CHARGE);
        if self.kind() == Some(Kind::Selenium) {
            cautions.push(caution::SELENIUM_FUMES);
        }
        if self.plan.does != Does::Nothing {
            cautions.push(caution::HOT_RESISTOR);
        }
        cautions.extend([caution::LINE_FUSE, caution::DIM_BULB, caution::LICENSED_PRACTICE]);
        cautions
    }

    pub fn assumed(&self) -> Vec<String> {
        let question = self.question;
        let mut assumed = vec![
            format!(
                "Line, cord and plug have {} between them; the line is a sine (a real one is flat-topped, B+ then comes out 2 to 4 % lower).",
                ohm(LINE_OHM)
            ),
            format!(
                "The set draws {} at {}, and more or less with the volts as tubes do (3/2-power law).",
                milliamp(question.load_ma),
                volt(self.plan.target_v)
            ),
        ];
        match (question.secondary_v, question.secondary_ohm) {
            (Some(volts), Some(winding_ohm)) => {
                assumed.push(format!(
                    "The winding gives {} without load and has {}; {}. A figure from a drawing is often that under load: unloaded it is then some percent higher.",
                    volt(volts),
                    ohm(winding_ohm),
                    match question.primary_ohm {
                        Some(primary_ohm) => format!("the primary has {}", ohm(primary_ohm)),
                        None => "the primary is taken to add as much again".to_owned(),
                    }
                ));
            }
            _ => assumed.push(format!("The rectifier works {} straight from the line.", question.topology.words())),
        }
        if question.after_filter_ma.is_none() && (question.filter_ohm.is_some() || question.second_filter_uf.is_some())
        {
            assumed.push(
                "How much of the load passes the filter resistor was not given (`after_filter_ma`): the whole load is taken at the first filter, and the volts after the resistor cannot be told."
                    .to_owned(),
            );
        }
        if let Some(original) = self.original {
            assumed.extend(original.assumed.iter().cloned());
        }
        assumed
    }
}

/// Watts of heat to two figures.
pub(super) fn heat(watts: f64) -> String {
    format!("{} W", significant(watts, 2))
}

/// "22 ohm to 47 ohm", the values of E12 at the ends of the band or outside it; "nothing to 22 ohm".
fn between(least_ohm: f64, most_ohm: f64) -> String {
    let least = match Series::E12.at_most(least_ohm) {
        Some(value) if value >= 1.0 => ohm(value),
        _ => "nothing".to_owned(),
    };
    format!("{least} to {}", ohm(Series::E12.at_least(most_ohm.max(1.0)).unwrap_or(most_ohm)))
}

#[cfg(test)]
mod tests {
    use super::between;

    #[test]
    fn a_band_is_rounded_outward() {
        for (least_ohm, most_ohm, says) in [
            (11.3, 49.6, "10 ohm to 56 ohm"),
            (5.6, 33.0, "5.6 ohm to 33 ohm"),
            (5.7, 32.9, "5.6 ohm to 33 ohm"),
            (0.99, 21.0, "nothing to 22 ohm"),
            (0.0, 0.4, "nothing to 1 ohm"),
            (95.0, 1001.0, "82 ohm to 1.2 kohm"),
        ] {
            assert_eq!(between(least_ohm, most_ohm), says);
        }
    }
}
