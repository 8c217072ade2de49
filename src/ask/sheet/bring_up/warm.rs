//! What is measured once the set is warm: the line, B+ with its ripple, every heater, the grid of the output tube.

use super::{Steps, UNTOLD};
use crate::ask::sheet::socket::{Line, name};
use crate::ask::sheet::supply::{LINE_V, READ_B_PLUS, READ_RIPPLE, ripple_rms_v};
use crate::ask::sheet::{BringUpMoment, SheetHeaters};
use crate::ask::{CapacitorQuestion, CapacitorRole, LineCase, LineState, capacitor};
use crate::book::Function;
use crate::finding::{Mark, Outcome};
use crate::quantity::{significant, tenth, volt};

/// Heater volts this far from the rating are tolerable, percent; the line, as a share, that B+ was worked out for.
const HEATER_PERCENT: f64 = 10.0;
/// Below this there is no B+.
const LEAST_V: f64 = 1.0;
const SAME_LINE: f64 = 0.03;
/// A ripple up to so many times what is expected is within what a load known so badly leaves open; beyond it the first filter is doubted.
const RIPPLE_MOST: f64 = 2.0;

const LOW: &str = "Less: a worn rectifier, a worn first filter, or too much drawn (a leaky capacitor, an output tube without bias). More: too little is drawn, or the line is higher.";
impl Steps<'_, '_, '_> {
    pub(super) fn warm(&mut self) {
        let whole = self.whole;
        let battery = whole.sheet.heaters == Some(SheetHeaters::Battery) && !whole.has_b_plus();
        if !battery {
            let line_v = whole.sheet.line_v.unwrap_or(LINE_V);
            self.point(
                "line_v",
                BringUpMoment::Warm,
                "The line with the set running, the lamp taken out: everything here follows it.",
                volt(line_v),
                "Write it into the sheet as the line: every volt here is then worked out for it.",
                &|value| {
                    if (value / line_v - 1.0).abs() <= SAME_LINE {
                        (Mark::Yes, "It is the line of this sheet.".to_owned())
                    } else {
                        (
                            Mark::Care,
                            format!("The sheet is worked out for {}: fill in {} there.", volt(line_v), volt(value)),
                        )
                    }
                },
            );
        }
        if whole.has_b_plus() {
            self.b_plus_warm();
        }
        self.heaters();
        self.output_grid();
    }

    fn b_plus_warm(&mut self) {
        let whole = self.whole;
        let lines = whole.supply.lines();
        let band = |of: &dyn Fn(&LineCase) -> Option<f64>| {
            let [low, nominal, high] = lines?;
            Some(format!(
                "{} ({} to {} with the line 10 % either way)",
                volt(of(nominal)?),
                volt(of(low)?),
                volt(of(high)?)
            ))
        };
        let book = self.book;
        let read_v = self.read(READ_B_PLUS);
        self.point(
            READ_B_PLUS,
            BringUpMoment::Warm,
            "DC volts at the first filter after two minutes.",
            band(&|line| Some(line.warm_v)).unwrap_or_default(),
            LOW,
            &|value| match whole.supply.explained(book, whole.sheet).as_deref() {
                _ if value < LEAST_V => {
                    (Mark::No, "No B+ at all: an open rectifier or resistor, or a short. Switch off.".to_owned())
                }
                Some([first, causes @ ..]) if first.outcome != Outcome::Unknown => {
                    let mark = if first.outcome == Outcome::Ok { Mark::Yes } else { Mark::Care };
                    // Where the ripple was read too, only what it fits; else every cause.
                    let fits = causes.iter().any(|cause| cause.outcome == Outcome::NeedsChange);
                    let shown = causes.iter().filter(|cause| !fits || cause.outcome == Outcome::NeedsChange);
                    let says: Vec<&str> = std::iter::once(first).chain(shown).map(|row| row.says.as_str()).collect();
                    (mark, says.join(" "))
                }
                Some([first, ..]) => (Mark::Unknown, first.says.clone()),
                _ => (Mark::Unknown, UNTOLD.to_owned()),
            },
        );
        let ripple_v = lines.map(|[_, nominal, _]| ripple_rms_v(nominal));
        self.point(
            READ_RIPPLE,
            BringUpMoment::Warm,
            "AC volts at the first filter, by a meter that keeps DC out.",
            ripple_v.map(|v| format!("about {} V", significant(v, 2))).unwrap_or_default(),
            "Far more: a worn first filter, or too much drawn.",
            &|value| match ripple_v {
                Some(v) if value > RIPPLE_MOST * v => (Mark::Care, "Far more than expected: a worn first filter, or too much drawn; the reading of B+ beside it tells which.".to_owned()),
                _ if read_v.is_none() => (Mark::Yes, "Not too much; write down B+ beside it.".to_owned()),
                _ => (Mark::Yes, "Not too much.".to_owned()),
            },
        );
        if let Some(expect) = band(&|line| line.filtered_v)
            && let Some([low, _, high]) = lines
        {
            let (low_v, high_v) = (low.filtered_v.unwrap_or(0.0), high.filtered_v.unwrap_or(0.0));
            self.point("b_plus_second", BringUpMoment::Warm, "DC volts at the second filter.", expect, LOW, &|value| {
                if value < low_v {
                    (
                        Mark::Care,
                        format!(
                            "{} is low: the filter resistor has drifted up, or too much is drawn behind it.",
                            volt(value)
                        ),
                    )
                } else if value > high_v {
                    (Mark::Care, format!("{} is high: too little is drawn behind the filter resistor.", volt(value)))
                } else {
                    (Mark::Yes, format!("{} is what it should be.", volt(value)))
                }
            });
        }
    }

    fn heaters(&mut self) {
        let whole = self.whole;
        let Some(told) = whole.heaters.answer() else { return };
        if whole.sheet.heaters == Some(SheetHeaters::Parallel) {
            return self.heater("heater_winding", "AC volts at the heater winding, all tubes in.", told.line_v, None);
        }
        let dc = whole.sheet.line_hz == Some(0.0);
        for (row, &at) in told.heaters.iter().zip(&whole.heaters.lines) {
            let Some(tube) =
                whole.sheet.tubes.get(at).filter(|_| !matches!(whole.sockets.lines.get(at), Some(Line::Item(_))))
            else {
                continue;
            };
            // The place is the name that stays when lines are moved.
            let place = tube.place.as_deref().map(str::trim).filter(|place| !place.is_empty());
            let alone = place.is_some_and(|place| {
                whole.sheet.tubes.iter().filter(|other| other.place.as_deref().map(str::trim) == Some(place)).count()
                    == 1
            });
            let key = match place.filter(|_| alone) {
                Some(place) => format!("heater.{place}"),
                None => format!("heater.{at}"),
            };
            let volts = if dc { "DC" } else { "AC" };
            let says = format!("{volts} volts across the heater of {}, pin to pin.", name(tube));
            self.heater(&key, &says, row.rated_v, Some(row.v));
        }
    }

    fn heater(&mut self, key: &str, says: &str, rated_v: f64, here_v: Option<f64>) {
        let (low_v, high_v) = (rated_v * (1.0 - HEATER_PERCENT / 100.0), rated_v * (1.0 + HEATER_PERCENT / 100.0));
        let here = here_v.map(|v| format!("about {} V, ", tenth(v))).unwrap_or_default();
        let expect = format!("{here}{} to {} V allowed", tenth(low_v), tenth(high_v));
        let otherwise = "More: it does not live long. Less: it emits too little, or another heater of the string takes more than its share.";
        self.point(key, BringUpMoment::Warm, says, expect, otherwise, &|value| {
            if value > high_v {
                (Mark::No, "More than 10 % over its rating: it does not live long.".to_owned())
            } else if value < low_v {
                (Mark::Care, "More than 10 % under its rating: it emits too little.".to_owned())
            } else {
                (Mark::Yes, "Within 10 % of its rating.".to_owned())
            }
        });
    }

    /// Leakage of the coupling capacitor, seen at the grid of the output tube.
    fn output_grid(&mut self) {
        let whole = self.whole;
        let output = |line: &Line<'_>| {
            line.in_place().is_some_and(|tube| {
                tube.unit_of(Function::PowerPentode).is_some() || tube.unit_of(Function::PowerTriode).is_some()
            })
        };
        let Some(at) = whole.sockets.lines.iter().position(output) else { return };
        let Some(coupling) = whole.parts.iter().find(|line| line.role == Some(CapacitorRole::Coupling)) else { return };
        if matches!(coupling.judged.state, LineState::Unread | LineState::Other) {
            return;
        }
        let tube = whole.sheet.tubes.get(at).map(name).unwrap_or_default();
        let book = self.book;
        let judged = |grid_v: f64| {
            let asked = CapacitorQuestion {
                role: Some(CapacitorRole::Coupling),
                grid_v: Some(grid_v.clamp(0.0, 1000.0)),
                ..CapacitorQuestion::of(&coupling.part.marking)
            };
            capacitor::answer(book, &asked).ok()?.findings.into_iter().find(|row| row.check == "leakage")
        };
        self.point(
            "output_grid",
            BringUpMoment::Warm,
            &format!("DC volts at the control grid of {tube}: nothing positive, by a meter of 10 Mohm."),
            "0 V or negative".to_owned(),
            "Positive: the coupling capacitor leaks, or the tube has gas: switch off before the tube is ruined.",
            &|value| match judged(value) {
                Some(leak) => (
                    match leak.outcome {
                        Outcome::Ok => Mark::Yes,
                        Outcome::Unknown => Mark::Unknown,
                        _ => Mark::No,
                    },
                    leak.says,
                ),
                None => (Mark::Unknown, UNTOLD.to_owned()),
            },
        );
    }
}
