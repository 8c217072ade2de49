//! Another rectifier tube instead of the one fitted: heater, drop, peaks, first filter, ratings.

use super::RectifierQuestion;
use super::original::{Original, plates_in_parallel, tube_law};
use super::plan::Plan;
use crate::ask::{ErrorAnswer, tube};
use crate::book::{Book, Function, HeaterKind, Tube};
use crate::finding::{Change, Finding, Mark, Outcome, Verdict};
use crate::quantity::{milliamp, ohm, percent, significant, volt};
use crate::series::Series;
use crate::supply::{Circuit, inverse_needed_v, steady};

/// Heater current above the original's that a winding bears with a mention, and with a doubt, amperes. Common practice, no source.
const LITTLE_MORE_A: f64 = 0.1;
const MORE_A: f64 = 0.3;
/// First filters looked at for the largest allowed, microfarads.
const LEAST_UF: f64 = 1.0;
const MOST_UF: f64 = 47.0;

pub(super) struct TubeSwap<'b> {
    tube: &'b Tube,
    pub findings: Vec<Finding>,
}

impl<'b> TubeSwap<'b> {
    /// Judges the tube named in `replacement`; none when none is named.
    ///
    /// # Errors
    /// A type that is not in the book or is no rectifier.
    pub fn of(
        book: &'b Book,
        question: &RectifierQuestion,
        original: Option<&Original<'b>>,
        plan: &Plan,
    ) -> Result<Option<Self>, ErrorAnswer> {
        let Some(typed) = &question.replacement else { return Ok(None) };
        let tube = tube::find(book, "replacement", typed)?.tube;
        let Some(unit) = tube.unit_of(Function::Rectifier) else {
            return Err(ErrorAnswer::new("replacement", format!("{}, no rectifier", tube.name), "a rectifier tube"));
        };
        let old = original.and_then(|original| original.tube);
        let mut findings: Vec<Finding> = old.into_iter().flat_map(|old| against(old, tube, question)).collect();
        let plates = plates_in_parallel(tube, question);
        let needed_v = inverse_needed_v(plan.circuit.topology, plan.circuit.line_v);
        let mut rating = |check: &str, most: Option<f64>, found: f64, unit: fn(f64) -> String, says: &str| {
            let (outcome, wanted) = match most {
                None => (Outcome::Unknown, "not in the book".to_owned()),
                Some(most) if found <= most => (Outcome::Ok, format!("{} at the most", unit(most))),
                Some(most) => (Outcome::Fails, format!("{} at the most", unit(most))),
            };
            findings.push(Finding::figures(check, outcome, wanted, unit(found), says.replace('#', &unit(found))));
        };
        rating(
            "inverse volts",
            unit.figures.peak_inverse_max_v,
            needed_v,
            volt,
            "With no load on a line 10 % high each plate stands #.",
        );
        rating("load", unit.figures.dc_out_max_ma, question.load_ma, milliamp, "The set draws #.");
        let drop = unit.figures.drop_v.zip(unit.figures.drop_ma);
        let Some((drop_v, drop_ma)) = drop else {
            let says = format!("The book has no tube drop for {}: the B+ it would give cannot be told.", tube.name);
            findings.push(Finding::plain("B+", Outcome::Unknown, says));
            return Ok(Some(Self { tube, findings }));
        };
        let circuit = plan.with_load.with_rectifier(tube_law(tube, (drop_v, drop_ma), 1.0, plates));
        let high = circuit.with_line_v(1.1 * circuit.line_v);
        if let (Ok(warm), Ok(high)) = (steady(&circuit), steady(&high)) {
            let peak_ma = high.peak_a * 1e3 / plates;
            rating(
                "peak current",
                unit.figures.plate_peak_max_ma,
                peak_ma,
                milliamp,
                "With the first filter fitted each plate gets peaks of # on a line 10 % high.",
            );
            let off = (warm.first_v / plan.target_v - 1.0) * 100.0;
            findings.push(Finding::figures(
                "B+",
                if off.abs() <= 5.0 {
                    Outcome::Ok
                } else if off.abs() <= 15.0 {
                    Outcome::Differs
                } else {
                    Outcome::Fails
                },
                volt(plan.target_v),
                volt(warm.first_v),
                format!(
                    "{} drops {} at {}: B+ at the first filter is {}, {}.",
                    tube.name,
                    volt(drop_v),
                    milliamp(drop_ma),
                    volt(warm.first_v),
                    percent(off)
                ),
            ));
        }
        findings.push(first_filter(question, tube, unit.figures.first_filter_max_uf, |first_uf| {
            let with = Circuit { first_uf, ..circuit.with_line_v(1.1 * circuit.line_v) };
            Some(steady(&with).ok()?.peak_a * 1e3 / plates <= unit.figures.plate_peak_max_ma?)
        }));
        if let Some(least_ohm) = unit.figures.supply_min_ohm {
            let here_ohm = circuit.source_ohm;
            let outcome = if here_ohm >= least_ohm { Outcome::Ok } else { Outcome::NeedsChange };
            let says = format!(
                "{} wants {} or more in each plate lead (at its highest volts); here are {}.{}",
                tube.name,
                ohm(least_ohm),
                ohm(here_ohm),
                if outcome == Outcome::Ok {
                    String::new()
                } else {
                    format!(" Add {} to each.", ohm((least_ohm - here_ohm).ceil()))
                }
            );
            findings.push(Finding::figures("plate lead", outcome, ohm(least_ohm), ohm(here_ohm), says));
        }
        Ok(Some(Self { tube, findings }))
    }

    fn worst(&self) -> Outcome {
        self.findings.iter().map(|finding| finding.outcome).max().unwrap_or(Outcome::Unknown)
    }

    pub fn verdict(&self) -> Verdict {
        let name = &self.tube.name;
        let (mark, word) = match self.worst() {
            Outcome::Ok => (Mark::Yes, "Yes, as it stands."),
            Outcome::Differs => (Mark::Care, "Yes, with a difference."),
            Outcome::NeedsChange => (Mark::Care, "Only after changes."),
            Outcome::Unknown => (Mark::Unknown, "Cannot tell."),
            Outcome::Fails => (Mark::No, "No."),
        };
        let says = match self.worst() {
            Outcome::Ok => format!("{name} gives what the set wants and is within its ratings here."),
            _ => self.reasons().iter().map(|finding| finding.says.as_str()).collect::<Vec<_>>().join(" "),
        };
        Verdict { mark, word: word.to_owned(), says }
    }

    /// What decides: the worst, two at the most.
    pub fn reasons(&self) -> Vec<Finding> {
        let worst = self.worst();
        self.findings.iter().filter(|finding| finding.outcome == worst).take(2).cloned().collect()
    }

    pub fn changes(&self) -> Vec<Change> {
        if self.worst() == Outcome::Fails {
            return Vec::new();
        }
        let needed = self.findings.iter().filter(|finding| finding.outcome == Outcome::NeedsChange);
        needed.map(|finding| Change::plain(finding.says.clone())).collect()
    }
}

/// The tube against the one it replaces: base, heater, how soon it conducts.
fn against(old: &Tube, new: &Tube, question: &RectifierQuestion) -> Vec<Finding> {
    let mut findings = Vec::new();
    let (outcome, says) = match (&old.pins, &new.pins) {
        _ if old.base.is_some() && new.base.is_some() && old.base != new.base => (
            Outcome::NeedsChange,
            format!("{} has another base than {}: it takes another socket or an adapter.", new.name, old.name),
        ),
        (Some(old_pins), Some(new_pins)) if old_pins == new_pins => {
            (Outcome::Ok, format!("{} has the pins of {}.", new.name, old.name))
        }
        (Some(_), Some(_)) => (
            Outcome::NeedsChange,
            format!(
                "The pins of {} are not those of {}: compare them (question `swap`) before it goes in.",
                new.name, old.name
            ),
        ),
        _ => (Outcome::Unknown, format!("The pins of {} or {} are not in the book.", new.name, old.name)),
    };
    findings.push(Finding::plain("pins", outcome, says));
    let heater = |tube: &Tube| tube.figures.heater_v.zip(tube.figures.heater_a);
    let words = |(v, a): (f64, f64)| format!("{}, {} A", significant(v, 3), significant(a, 3)).replacen(',', " V,", 1);
    findings.push(match (heater(old), heater(new)) {
        (Some(of_old), Some(of_new)) => {
            let more_a = of_new.1 - of_old.1;
            let series = question.secondary_v.is_none();
            let like = |new: f64, old: f64| (new / old - 1.0).abs() <= 0.05;
            let (outcome, says) = if !like(of_new.0, of_old.0) || series && !like(of_new.1, of_old.1) {
                (
                    Outcome::Fails,
                    format!("The heater of {} is another: {} for {}.", new.name, words(of_new), words(of_old)),
                )
            } else if more_a <= 0.05 * of_old.1 {
                (Outcome::Ok, "The heater takes no more than before.".to_owned())
            } else {
                let says = format!(
                    "The heater takes {} A instead of {} A: the winding has to give {} A more, and gets hotter.",
                    significant(of_new.1, 3),
                    significant(of_old.1, 3),
                    significant(more_a, 2)
                );
                let outcome = if more_a <= LITTLE_MORE_A {
                    Outcome::Ok
                } else if more_a <= MORE_A {
                    Outcome::Differs
                } else {
                    Outcome::Fails
                };
                (outcome, says)
            };
            Finding::figures("heater", outcome, words(of_old), words(of_new), says)
        }
        _ => Finding::plain("heater", Outcome::Unknown, "The book lacks a heater rating of one of the two."),
    });
    if old.heater_kind == Some(HeaterKind::Heater) && new.heater_kind == Some(HeaterKind::Filament) {
        findings.push(Finding::plain(
            "warm-up",
            Outcome::Differs,
            format!("{} is directly heated and gives B+ within seconds, before the tubes draw: the filter capacitors stand at the crest until then.", new.name),
        ));
    }
    findings
}

/// The first filter fitted against the largest allowed: by the book, else by the peaks.
fn first_filter(
    question: &RectifierQuestion,
    tube: &Tube,
    most_uf: Option<f64>,
    bears: impl Fn(f64) -> Option<bool>,
) -> Finding {
    let uf = |uf: f64| format!("{} uF", significant(uf, 3));
    let fitted_uf = question.first_filter_uf;
    let by_peaks = || {
        let values = std::iter::successors(Some(LEAST_UF), |uf| Series::E6.next_above(*uf));
        bears(LEAST_UF)?;
        Some(values.take_while(|uf| *uf <= MOST_UF && bears(*uf) == Some(true)).last())
    };
    match most_uf {
        Some(most_uf) => {
            let outcome = if fitted_uf <= 1.2 * most_uf { Outcome::Ok } else { Outcome::NeedsChange };
            let says = format!(
                "{} takes a first filter of {} at the most; {} is fitted.",
                tube.name,
                uf(most_uf),
                uf(fitted_uf)
            );
            Finding::figures("first filter", outcome, uf(most_uf), uf(fitted_uf), says)
        }
        None => match by_peaks() {
            None => Finding::plain(
                "first filter",
                Outcome::Unknown,
                format!("The book knows neither the largest first filter of {} nor its peak current.", tube.name),
            ),
            Some(largest) => {
                let most = largest.map_or_else(|| format!("less than {}", uf(LEAST_UF)), uf);
                let outcome = if largest.is_some_and(|most| fitted_uf <= 1.2 * most) {
                    Outcome::Ok
                } else {
                    Outcome::NeedsChange
                };
                let says = format!(
                    "The book has no largest first filter for {}; by its warm peaks it bears {} here; {} is fitted. Switched on hot it gets far more than that: fit no more than the set had.",
                    tube.name,
                    most,
                    uf(fitted_uf)
                );
                Finding::figures("first filter", outcome, most, uf(fitted_uf), says)
            }
        },
    }
}
