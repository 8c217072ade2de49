//! What is looked at, one finding each.

use super::plan::Does;
use super::reading::AGREES;
use super::story::{NEAR, RIPPLE_SHARE, Story, heat};
use super::{FilterCapacitor, RatedVoltage, RectifierTopology, tidy};
use crate::finding::{Finding, Outcome, capital};
use crate::quantity::{milliamp, percent, significant, volt, watt};
use crate::supply::filter_ratings;

impl Story<'_, '_> {
    pub(super) fn b_plus(&self) -> Finding {
        let plan = self.plan;
        let outcome = if self.is_on_target() { Outcome::Ok } else { Outcome::Differs };
        let without = if plan.does == Does::Nothing {
            String::new()
        } else {
            format!(" Without a resistor silicon would give {}.", volt(plan.bare_v))
        };
        let low = if self.warm_v() < (1.0 - NEAR) * plan.target_v {
            " The line gives no more: a resistor can only take B+ away."
        } else {
            ""
        };
        Finding::figures(
            "B+",
            outcome,
            volt(plan.target_v),
            volt(self.warm_v()),
            format!(
                "Warm, {} at the first filter against {} ({}).{without}{low}",
                volt(self.warm_v()),
                volt(plan.target_v),
                percent((self.warm_v() / plan.target_v - 1.0) * 100.0)
            ),
        )
    }

    pub(super) fn cold_start(&self) -> Finding {
        let worst_v = self.plan.worst_v();
        let crest = format!(
            "Until the tubes draw, the filter capacitors stand at {}: {}, and {} on a line 10 % high.{}",
            self.crest(),
            volt(self.plan.each_share() * self.plan.nominal().cold.crest_v),
            volt(worst_v),
            self.both_in_series()
        );
        let least =
            self.least_rated_v().map_or_else(|| "more than 500 V".to_owned(), |v| format!("{} or more", volt(v)));
        let (outcome, found, says) = match self.fitted_rating() {
            None => (Outcome::Unknown, "not given".to_owned(), format!("{crest} They have to be rated {least}.")),
            Some(rating) => {
                let rated = volt(rating.rated_v);
                if !rating.is_enough() {
                    (Outcome::Fails, rated.clone(), format!("{crest} {rated} is not enough: {least}."))
                } else if rating.is_close() {
                    (
                        Outcome::Differs,
                        rated.clone(),
                        format!("{crest} {rated} is enough with less than 10 % to spare."),
                    )
                } else {
                    (Outcome::Ok, rated.clone(), format!("{crest} {rated} is enough."))
                }
            }
        };
        Finding::figures("cold start", outcome, format!("{} or more", volt(worst_v)), found, says)
    }

    pub fn findings(&self) -> Vec<Finding> {
        let plan = self.plan;
        let mut findings = vec![self.b_plus(), self.cold_start()];
        findings.extend(self.target_doubt());
        findings.extend(self.ageing());
        if let Some(original) = self.original {
            findings.extend(original.doubts.iter().cloned());
        }
        if plan.does != Does::Nothing {
            findings.push(self.resistor_heat());
            findings.push(self.pulse());
        }
        findings.push(self.inrush());
        findings.push(self.inverse());
        findings.push(Finding::plain(
            "ripple current",
            Outcome::Ok,
            format!(
                "The first filter carries {} rms of ripple: buy it for {} or more at 100/120 Hz.",
                milliamp(plan.nominal().warm.capacitor_ma),
                milliamp(plan.high().warm.capacitor_ma / RIPPLE_SHARE)
            ),
        ));
        findings
    }

    /// Whether the target looks like a reading on a tired rectifier.
    pub(super) fn target_doubt(&self) -> Option<Finding> {
        let ([low_v, usual_v, high_v], target_v, original) =
            (self.plan.original_v?, self.question.target_v?, self.original?);
        let range = format!("{} to {}", volt(low_v), volt(high_v));
        let (outcome, says) = if target_v < (1.0 - NEAR) * low_v {
            (
                Outcome::Differs,
                format!(
                    "{} gives {range} here. {} is less: if it was read on the old rectifier, that one was tired and it is no target; only a figure from the drawing is.",
                    capital(&original.words),
                    volt(target_v)
                ),
            )
        } else if target_v > (1.0 + NEAR) * high_v {
            (
                Outcome::Differs,
                format!(
                    "{} gives {range} here. {} is more: look at line, load and drawing again.",
                    capital(&original.words),
                    volt(target_v)
                ),
            )
        } else {
            (Outcome::Ok, format!("{} gives {range} here, which agrees.", capital(&original.words)))
        };
        Some(Finding::figures("target", outcome, volt(target_v), volt(usual_v), says))
    }

    /// What a selenium stack gives fresh and aged: a band, as nobody knows how far it has aged.
    fn ageing(&self) -> Option<Finding> {
        let ([fresh_low_v, _, fresh_high_v], [aged_low_v, aged_high_v]) = (self.plan.original_v?, self.plan.aged_v?);
        let band = |low_v: f64, high_v: f64| format!("{} to {}", volt(low_v), volt(high_v));
        let (fresh, aged) = (band(fresh_low_v, fresh_high_v), band(aged_low_v, aged_high_v));
        let (outcome, now) = match self.question.measured_v {
            None => (Outcome::Unknown, "how far this one has aged only a reading can tell".to_owned()),
            Some(read_v) if read_v >= (1.0 - AGREES) * fresh_low_v => {
                (Outcome::Ok, format!("{} is that of a fresh one", volt(read_v)))
            }
            Some(read_v) => (Outcome::Differs, format!("{} is less than a fresh one gives", volt(read_v))),
        };
        let target = match self.question.target_v {
            None => "The target is the fresh figure, never the sagging reading.",
            Some(_) => "A target is a figure from the drawing, never the sagging reading.",
        };
        let says = format!(
            "Between fresh and aged the stack gives {}: {fresh} fresh, {aged} aged (assumed, no published curve); {now}. {target}",
            band(aged_low_v, fresh_high_v)
        );
        Some(Finding::figures("selenium ageing", outcome, fresh, aged, says))
    }

    fn resistor_heat(&self) -> Finding {
        let (nominal, high) = (&self.plan.nominal().warm, &self.plan.high().warm);
        let by_mean_w = (nominal.dc_ma / 1e3).powi(2) * self.chosen_ohm();
        let sold = self.plan.rated_w();
        let outcome = if sold.is_some() { Outcome::Ok } else { Outcome::NeedsChange };
        Finding::figures(
            "resistor heat",
            outcome,
            format!("{} or more", heat(2.0 * high.series_w)),
            sold.map_or_else(|| "not sold so large".to_owned(), watt),
            format!(
                "The pulses are {} rms and make {} of heat ({} on a high line). Reckoned with the mean {} it would look like {}.",
                milliamp(nominal.rms_ma),
                heat(nominal.series_w),
                heat(high.series_w),
                milliamp(nominal.dc_ma),
                heat(by_mean_w)
            ),
        )
    }

    fn pulse(&self) -> Finding {
        let cold = &self.plan.high().cold;
        Finding::plain(
            "switch-on pulse",
            Outcome::Ok,
            format!(
                "Each switch-on puts up to {} J into the resistor, at up to {} A. A 5 W wire-wound part bears some 20 J; a film part of the same watts may not.",
                significant(cold.pulse_j, 2),
                significant(cold.inrush_a, 2)
            ),
        )
    }

    fn inrush(&self) -> Finding {
        let (inrush_a, diode) = (self.plan.high().cold.inrush_a, &self.plan.diode);
        Finding::figures(
            "inrush",
            Outcome::Ok,
            format!("{} A at the most", significant(diode.surge_a, 3)),
            format!("{} A", significant(inrush_a, 2)),
            format!(
                "Switched on at the crest of a high line, the diode gets {} A; the {} bears {} A for one half cycle.",
                significant(inrush_a, 2),
                diode.name,
                significant(diode.surge_a, 3)
            ),
        )
    }

    fn inverse(&self) -> Finding {
        let (needed_v, diode) = (self.plan.needed_inverse_v, &self.plan.diode);
        let inverse_v = diode.inverse_v * f64::from(self.plan.diode_count);
        let tight = inverse_v < 1.2 * needed_v;
        Finding::figures(
            "inverse volts",
            if tight { Outcome::Differs } else { Outcome::Ok },
            format!("{} or more", volt(needed_v)),
            volt(inverse_v),
            format!(
                "{} to stand {} of a high line, {}. {}",
                if self.question.topology.rectifiers() == 1 { "The diode has" } else { "Each diode has" },
                if self.question.topology == RectifierTopology::Bridge { "a crest" } else { "two crests" },
                volt(needed_v),
                if self.plan.diode_count > 1 {
                    "No diode in common use does: several in series do, each with 1 Mohm, 1/2 W, 500 V or more, across it."
                } else if tight {
                    "The highest rating in common use leaves little to spare; two in series, each with 1 Mohm across it, leave more."
                } else {
                    "A lower rating than 1000 V would do and costs the same."
                }
            ),
        )
    }

    pub fn first_filter(&self) -> FilterCapacitor {
        let worst_v = self.plan.worst_v();
        let ratings = filter_ratings(worst_v)
            .into_iter()
            .map(|rating| RatedVoltage {
                rated_v: rating.rated_v,
                enough: rating.is_enough(),
                says: if !rating.is_enough() {
                    format!("no: {} cold on a high line", volt(worst_v))
                } else if rating.is_close() {
                    format!("just enough: {} to spare", percent(rating.margin_percent).trim_start_matches('+'))
                } else {
                    format!("enough: {} to spare", percent(rating.margin_percent).trim_start_matches('+'))
                },
            })
            .collect();
        FilterCapacitor {
            worst_v: tidy(worst_v, 1),
            least_rated_v: self.least_rated_v().unwrap_or_else(|| worst_v.ceil()),
            ratings,
        }
    }
}
