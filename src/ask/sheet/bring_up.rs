//! What to do and to measure when the set is first switched on, in order. Only points that the engines know are measured, and every reading is held
//! against what they expect: what a difference means they tell too.
//!
//! The order is that of restorers: look and replace with the plug pulled, resistance before power, a lamp in series first, then B+ cold, then warm.
//! Common practice, no source.

mod warm;

use super::socket::{Line, is_wanted, name};
use super::supply;
use super::{BringUpMoment, BringUpReading, BringUpStep, SheetHeaters, SheetSection, SheetTrouble, Whole};
use crate::ask::heater_string::items::Kind;
use crate::book::Book;
use crate::caution;
use crate::finding::Mark;
use crate::quantity::{ohm, volt};

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
    fn todo(&mut self, key: &str, moment: BringUpMoment, says: &str, otherwise: &str) {
        self.all.push(BringUpStep {
            key: key.to_owned(),
            moment,
            says: says.to_owned(),
            expect: String::new(),
            otherwise: otherwise.to_owned(),
            measure: false,
            read: None,
        });
    }

    /// A point that is measured; `judge` tells how a reading comes out.
    fn point(
        &mut self,
        key: &str,
        moment: BringUpMoment,
        says: &str,
        expect: String,
        otherwise: &str,
        judge: &dyn Fn(f64) -> (Mark, String),
    ) {
        let read = self.read(key).map(|value| {
            let (mark, says) = if expect.is_empty() { (Mark::Unknown, UNTOLD.to_owned()) } else { judge(value) };
            BringUpReading { value, mark, says }
        });
        let otherwise = if expect.is_empty() { UNTOLD } else { otherwise }.to_owned();
        self.all.push(BringUpStep {
            key: key.to_owned(),
            moment,
            says: says.to_owned(),
            expect,
            otherwise,
            measure: true,
            read,
        });
    }

    fn read(&self, key: &str) -> Option<f64> {
        supply::read(self.whole.sheet, key)
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
                &says,
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
                &format!("Replaced before any power: {}.", danger.join(", ")),
                "They can ruin tubes or a transformer.",
            );
        }
        if whole.supply.by_selenium() {
            let says = whole.supply.answer().map_or_else(
                || "Silicon in place of the selenium stack, with its resistor.".to_owned(),
                |told| told.verdict.says.clone(),
            );
            self.todo("rectifier", BeforePower, &says, caution::SELENIUM_FUMES.says);
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
                &|value| match least_ohm {
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
        if whole.filaments_at_risk() {
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
            self.todo("tubes", BeforePower, "Every tube in its own socket, the rectifier too.", &otherwise);
        }
        // While nobody says how the heaters are fed, the chassis may be hot.
        if whole.may_be_hot() {
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
            &|value| match lines {
                Some([_, _, high]) if value > high.cold_v => (Mark::No, format!("{} is more than the line can give: measure the line.", volt(value))),
                Some([low, ..]) if !tube && value < low.cold_v => (Mark::Care, format!("{} is less than the crest of the line: a leaky first filter, a weak rectifier, or a lamp still in series.", volt(value))),
                _ => (Mark::Yes, format!("{} is what it should be.", volt(value))),
            },
        );
    }
}
