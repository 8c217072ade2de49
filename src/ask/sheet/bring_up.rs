//! What to do and to measure when the set is first switched on, in order. Only points that the engines know are measured, and every reading is held
//! against what they expect: what a difference means they tell too.
//!
//! The order is that of restorers: look and replace with the plug pulled, resistance before power, a lamp in series first, then B+ cold, then warm.
//! Common practice, no source.

use super::socket::{Line, is_wanted, name};
use super::supply::{LINE_V, ripple_rms_v};
use super::{BringUpMoment, BringUpReading, BringUpStep, SheetHeaters, SheetSection, SheetTrouble, Whole};
use crate::ask::heater_string::items::Kind;
use crate::ask::{CapacitorQuestion, CapacitorRole, LineState, capacitor, rectifier};
use crate::book::{Book, Function, HeaterKind};
use crate::caution;
use crate::finding::{Mark, Outcome};
use crate::quantity::{ohm, significant, tenth, volt};

/// Heater volts this far from the rating are tolerable, percent; the line, as a share, that B+ was worked out for.
const HEATER_PERCENT: f64 = 10.0;
const SAME_LINE: f64 = 0.03;
/// A ripple up to so many times what is expected is within what a load known so badly leaves open; beyond it the first filter is doubted.
const RIPPLE_MOST: f64 = 2.0;

const LOW: &str = "Less: a worn rectifier, a worn first filter, or too much drawn (a leaky capacitor, an output tube without bias). More: too little is drawn, or the line is higher.";
const UNTOLD: &str = "What to expect cannot be told yet: fill in the supply.";

/// Every step.
pub(super) fn steps(book: &Book, whole: &Whole<'_, '_>, trouble: &[SheetTrouble]) -> Vec<BringUpStep> {
    let mut steps = Steps { book, whole, all: Vec::new() };
    steps.before_power(trouble);
    steps.first_power();
    if whole.has_b_plus() {
        steps.cold();
    }
    steps.warm();
    steps.all
}

struct Steps<'w, 's, 'b> {
    book: &'b Book,
    whole: &'w Whole<'s, 'b>,
    all: Vec<BringUpStep>,
}

impl Steps<'_, '_, '_> {
    fn todo(&mut self, key: &str, moment: BringUpMoment, says: impl Into<String>, otherwise: impl Into<String>) {
        self.all.push(BringUpStep {
            key: key.to_owned(),
            moment,
            says: says.into(),
            expect: String::new(),
            otherwise: otherwise.into(),
            measure: false,
            read: None,
        });
    }

    /// A point that is measured; `judge` tells how a reading comes out.
    fn point(
        &mut self,
        key: &str,
        moment: BringUpMoment,
        says: impl Into<String>,
        expect: String,
        otherwise: &str,
        judge: impl FnOnce(f64) -> (Mark, String),
    ) {
        let read = self.read(key).map(|value| {
            let (mark, says) = if expect.is_empty() { (Mark::Unknown, UNTOLD.to_owned()) } else { judge(value) };
            BringUpReading { value, mark, says }
        });
        let otherwise = if expect.is_empty() { UNTOLD } else { otherwise }.to_owned();
        self.all.push(BringUpStep {
            key: key.to_owned(),
            moment,
            says: says.into(),
            expect,
            otherwise,
            measure: true,
            read,
        });
    }

    fn read(&self, key: &str) -> Option<f64> {
        self.whole.sheet.readings.iter().rev().find(|reading| reading.key == key).map(|reading| reading.value)
    }

    fn before_power(&mut self, trouble: &[SheetTrouble]) {
        use BringUpMoment::BeforePower;
        let whole = self.whole;
        let battery = whole.sheet.heaters == Some(SheetHeaters::Battery) && !whole.has_b_plus();
        if !battery {
            let cord =
                whole.sockets.lines.iter().any(|line| matches!(line, Line::Item(item) if item.kind == Kind::Cord));
            let otherwise = if cord {
                caution::RESISTANCE_CORD.says
            } else {
                "Fit a new cord first, with a knot or clamp where it comes in."
            };
            self.todo(
                "cord",
                BeforePower,
                "Line cord and plug: no cracks, no bare wire, held where it comes in.",
                otherwise,
            );
            self.todo("fuse", BeforePower, "A slow fuse in the line lead.", caution::LINE_FUSE.says);
            let at_line: Vec<&str> = whole
                .parts
                .iter()
                .filter(|line| line.at_line && !line.part.done)
                .map(|line| line.name.as_str())
                .collect();
            let says = if at_line.is_empty() {
                "No old capacitor lies across the line or from the line to the chassis.".to_owned()
            } else {
                format!("At the line, replaced by parts with a safety class: {}.", at_line.join(", "))
            };
            self.todo(
                "line_capacitors",
                BeforePower,
                says,
                "An old one there can put the line on the chassis: no power before it is replaced.",
            );
        }
        let danger: Vec<&str> = trouble
            .iter()
            .filter(|row| {
                row.danger <= super::Danger::Set && row.section == SheetSection::Parts && !self.is_at_line(row)
            })
            .map(|row| row.place.as_str())
            .collect();
        if !danger.is_empty() {
            self.todo(
                "parts",
                BeforePower,
                format!("Replaced before any power: {}.", danger.join(", ")),
                "They can ruin tubes or a transformer.",
            );
        }
        if whole.supply.by_selenium() {
            let says = whole.supply.answer().map_or_else(
                || "Silicon in place of the selenium stack, with its resistor.".to_owned(),
                |told| told.verdict.says.clone(),
            );
            self.todo("rectifier", BeforePower, says, caution::SELENIUM_FUMES.says);
        }
        if whole.has_b_plus() {
            // A set that works draws so much; one that is cold draws less, or something is shorted.
            let least_ohm = whole.supply.lines().map(|[_, nominal, _]| 1e3 * nominal.warm_v / nominal.dc_ma);
            self.point(
                "b_plus_ohm",
                BeforePower,
                "Ohms from B+ at the first filter to B- (the chassis, where B- is on it), cold, once the reading has settled; plus of the meter to B+.",
                least_ohm.map(|least_ohm| format!("more than {}", ohm(least_ohm))).unwrap_or_default(),
                "Less than the running set draws: a shorted filter or bypass capacitor, or a wire. No power before it is found.",
                |value| match least_ohm {
                    Some(least_ohm) if value < least_ohm => (Mark::No, format!("{} is less than the running set would draw: something is shorted.", ohm(value))),
                    _ => (Mark::Yes, "Nothing is shorted there.".to_owned()),
                },
            );
        }
        self.tubes_in();
    }

    /// Whether a trouble is about a part at the line, which has a step of its own.
    fn is_at_line(&self, row: &SheetTrouble) -> bool {
        row.at.and_then(|at| self.whole.parts.get(at)).is_some_and(|line| line.at_line)
    }

    fn tubes_in(&mut self) {
        use BringUpMoment::BeforePower;
        let whole = self.whole;
        let filament = |line: &Line<'_>| {
            line.in_place()
                .is_some_and(|tube| tube.heater_kind == Some(HeaterKind::Filament) && !super::socket::rectifies(tube))
        };
        let string = whole.sheet.heaters == Some(SheetHeaters::Series) && whole.sockets.lines.iter().any(filament)
            || whole.supply.answer().is_some_and(|told| !told.filaments.is_empty());
        if string {
            self.todo(
                "filament_current",
                BeforePower,
                "The filament current, set with a resistor in place of the tubes.",
                caution::FILAMENTS.says,
            );
        }
        let missing: Vec<String> = whole.sheet.tubes.iter().filter(|tube| is_wanted(tube)).map(name).collect();
        let otherwise = if missing.is_empty() {
            "A tube in the wrong socket ruins itself or others.".to_owned()
        } else {
            format!("Still to be found: {}.", missing.join(", "))
        };
        if !whole.sheet.tubes.is_empty() {
            self.todo("tubes", BeforePower, "Every tube in its own socket, the rectifier too.", otherwise);
        }
        if whole.sheet.heaters == Some(SheetHeaters::Series) {
            self.todo("isolation", BeforePower, "The set on an isolation transformer.", caution::ISOLATION.says);
        }
    }

    fn first_power(&mut self) {
        use BringUpMoment::FirstPower;
        if self.whole.sheet.heaters == Some(SheetHeaters::Battery) && !self.whole.has_b_plus() {
            return;
        }
        self.todo("lamp", FirstPower, "Through a lamp in series: it lights up, then goes dim.", caution::DIM_BULB.says);
    }

    fn cold(&mut self) {
        let lines = self.whole.supply.lines();
        let (tube, selenium) = (self.whole.supply.by_tube(), self.whole.supply.by_selenium());
        let expect = lines.map(|[low, _, high]| {
            if tube {
                format!("at most {}", volt(high.cold_v))
            } else {
                format!("{} to {}", volt(low.cold_v), volt(high.cold_v))
            }
        });
        let says = if tube {
            "DC volts at the first filter in the first half minute: they rise as the rectifier warms."
        } else if selenium {
            "DC volts at the first filter in the first seconds, with silicon in."
        } else {
            "DC volts at the first filter in the first seconds."
        };
        self.point(
            "b_plus_cold",
            BringUpMoment::Cold,
            says,
            expect.unwrap_or_default(),
            "More: the line is higher than was said. Less and falling: a leaky first filter or a weak rectifier; switch off.",
            |value| match lines {
                Some([_, _, high]) if value > high.cold_v => (Mark::No, format!("{} is more than the line can give: measure the line.", volt(value))),
                Some([low, ..]) if !tube && value < low.cold_v => (Mark::Care, format!("{} is less than the crest of the line: a leaky first filter, a weak rectifier, or a lamp still in series.", volt(value))),
                _ => (Mark::Yes, format!("{} is what it should be.", volt(value))),
            },
        );
    }

    fn warm(&mut self) {
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
                |value| {
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
        let band = |of: &dyn Fn(&crate::ask::LineCase) -> Option<f64>| {
            let [low, nominal, high] = lines?;
            Some(format!(
                "{} ({} to {} with the line 10 % either way)",
                volt(of(nominal)?),
                volt(of(low)?),
                volt(of(high)?)
            ))
        };
        let book = self.book;
        let (read_v, read_ripple_v) = (self.read("b_plus_first"), self.read("b_plus_ripple"));
        // The engine tells what a reading means with the rectifier that is in by now.
        let explained = |value: f64| {
            let mut question = whole.supply.after_repair()?;
            question.measured_v = Some(value);
            question.measured_ripple_v = read_ripple_v;
            rectifier::answer(book, &question).ok().map(|told| told.reading)
        };
        self.point(
            "b_plus_first",
            BringUpMoment::Warm,
            "DC volts at the first filter after two minutes.",
            band(&|line| Some(line.warm_v)).unwrap_or_default(),
            LOW,
            |value| match explained(value).as_deref() {
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
            "b_plus_ripple",
            BringUpMoment::Warm,
            "AC volts at the first filter, by a meter that keeps DC out.",
            ripple_v.map(|v| format!("about {} V", significant(v, 2))).unwrap_or_default(),
            "Far more: a worn first filter, or too much drawn.",
            |value| match ripple_v {
                Some(v) if value > RIPPLE_MOST * v => (Mark::Care, "Far more than expected: a worn first filter, or too much drawn; the reading of B+ beside it tells which.".to_owned()),
                _ if read_v.is_none() => (Mark::Yes, "Not too much; write down B+ beside it.".to_owned()),
                _ => (Mark::Yes, "Not too much.".to_owned()),
            },
        );
        if let Some(expect) = band(&|line| line.filtered_v)
            && let Some([low, _, high]) = lines
        {
            let (low_v, high_v) = (low.filtered_v.unwrap_or(0.0), high.filtered_v.unwrap_or(0.0));
            self.point("b_plus_second", BringUpMoment::Warm, "DC volts at the second filter.", expect, LOW, |value| {
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
        self.point(key, BringUpMoment::Warm, says, expect, otherwise, |value| {
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
            format!("DC volts at the control grid of {tube}: nothing positive, by a meter of 10 Mohm."),
            "0 V or negative".to_owned(),
            "Positive: the coupling capacitor leaks, or the tube has gas: switch off before the tube is ruined.",
            |value| match judged(value) {
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
