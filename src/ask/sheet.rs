//! `sheet`: a whole set at once. Which of its tubes and parts need what, does its string work, what does its supply give, what is to be bought, and
//! how is it first switched on?
//!
//! A job sheet holds what a person wrote down of one set. Every line of it is put to the engine that answers for such a line; here the answers are
//! gathered, the dangerous ones first. What is not told stays open and is said to be open.

mod answer;
mod bring_up;
mod file;
mod heaters;
mod lines;
mod parts;
mod question;
pub(super) mod shopping;
pub(super) mod socket;
mod supply;
mod totals;
mod trouble;
mod tubes;

use super::LineState;
use crate::book::{Book, FoundToday, HeaterKind};
use crate::caution;
use crate::finding::{Caution, PartToFit};
use crate::swap::Grade;
use heaters::Heaters;
use parts::PartLine;
use shopping::{Article, Basket, Group};
use socket::{Line, Sockets, rectifies};
use supply::Supply;
use tubes::TubeLine;

pub use answer::{
    BringUpMoment, BringUpReading, BringUpStep, Danger, SheetAnswer, SheetFileAnswer, SheetLinesAnswer,
    SheetPartAnswer, SheetPurchase, SheetSection, SheetTotal, SheetTrouble, SheetTubeAnswer,
};
pub use file::file;
pub use lines::lines;
pub use question::{
    JobSheet, PartRole, SheetFileQuestion, SheetHeaters, SheetLinesQuestion, SheetPart, SheetQuestion, SheetReading,
    SheetTube, TubeState,
};

/// A sheet with everything the engines say of it.
struct Whole<'s, 'b> {
    sheet: &'s JobSheet,
    sockets: Sockets<'s, 'b>,
    tubes: Vec<TubeLine>,
    heaters: Heaters,
    supply: Supply,
    parts: Vec<PartLine<'s>>,
}

impl<'s, 'b> Whole<'s, 'b> {
    fn of(book: &'b Book, sheet: &'s JobSheet, stand_ins: bool) -> Self {
        let sockets = Sockets::of(book, sheet);
        let tubes = tubes::judged(book, &sheet.tubes, &sockets, stand_ins);
        let heaters = Heaters::of(book, sheet, &sockets);
        let supply = Supply::of(book, sheet, &sockets);
        let parts = parts::judged(book, sheet, &supply);
        Self { sheet, sockets, tubes, heaters, supply, parts }
    }

    fn heaters_name(&self) -> &'static str {
        match self.sheet.heaters {
            Some(SheetHeaters::Series) => "Heater string",
            Some(SheetHeaters::Parallel) => "Heater winding",
            _ => "Heaters",
        }
    }

    /// Whether it has heaters that are fed from the line.
    fn has_heaters(&self) -> bool {
        self.sheet.heaters != Some(SheetHeaters::Battery) && !self.sheet.tubes.is_empty()
    }

    /// Whether it makes B+ of the line.
    fn has_b_plus(&self) -> bool {
        self.supply.question.is_some() || self.sockets.lines.iter().filter_map(Line::wants).any(rectifies)
    }

    /// Whether the chassis may be at the line: while nobody says otherwise, and in a portable that works on the line without a transformer.
    fn may_be_hot(&self) -> bool {
        let winding = self.sheet.rectifier.as_ref().is_some_and(|supply| supply.secondary_v.is_some());
        match self.sheet.heaters {
            Some(SheetHeaters::Parallel) => false,
            Some(SheetHeaters::Battery) => self.has_b_plus() && !winding,
            _ => true,
        }
    }

    /// Whether filaments hang on the line or, as far as is told, may hang on B+: too much of it burns out all of them at once.
    fn filaments_at_risk(&self) -> bool {
        let filament = |line: &Line<'_>| {
            line.in_place().is_some_and(|tube| tube.heater_kind == Some(HeaterKind::Filament) && !rectifies(tube))
        };
        let fed = match self.sheet.heaters {
            Some(SheetHeaters::Series) => true,
            Some(SheetHeaters::Battery) => self.has_b_plus(),
            _ => false,
        };
        fed && self.sockets.lines.iter().any(filament)
            || self.supply.answer().is_some_and(|told| !told.filaments.is_empty())
    }

    /// Fills the basket; places are named behind the name of the set, where there are several.
    fn shop(&self, book: &Book, basket: &mut Basket, set: &str) {
        let place = |name: &str| format!("{set} {name}").trim().to_owned();
        for ((judged, tube), line) in self.tubes.iter().zip(&self.sheet.tubes).zip(&self.sockets.lines) {
            let named = tube.place.as_deref().map(str::trim).filter(|name| !name.is_empty());
            judged.shop(book, line, basket, &place(named.unwrap_or(&judged.answer.r#type)));
        }
        for line in &self.parts {
            line.shop(basket, &place(&line.name));
        }
        if self.supply.by_selenium() {
            let told = self.supply.answer();
            for part in told.into_iter().flat_map(|told| &told.changes).filter_map(|change| change.part.as_ref()) {
                basket.add(&fitted(Group::RectifierAndFuse, part), 1, &place("rectifier"));
            }
            let fuse = Article::new(Group::RectifierAndFuse, "slow fuse with holder, for the line lead", f64::MAX);
            basket.add(&fuse, 1, &place("line lead"));
        }
        let heaters = self.heaters.answer();
        for part in heaters.into_iter().flat_map(|told| &told.changes).filter_map(|change| change.part.as_ref()) {
            basket.add(&fitted(Group::Resistors, part), 1, &place(self.heaters_name()));
        }
    }

    /// Warnings, each once.
    fn cautions(&self) -> Vec<Caution> {
        let mut all: Vec<Caution> = Vec::new();
        let mut add = |caution: &Caution| {
            if !all.iter().any(|known| known.topic == caution.topic) {
                all.push(*caution);
            }
        };
        if self.may_be_hot() {
            add(&caution::HOT_CHASSIS);
        }
        if self.filaments_at_risk() {
            add(&caution::FILAMENT_STRING);
        }
        add(&caution::STORED_CHARGE);
        for caution in self.heaters.answer().iter().flat_map(|told| &told.cautions) {
            add(caution);
        }
        // Where a tube stays the rectifier, what is said of a diode does not belong.
        let silicon = |caution: &&Caution| {
            !self.supply.by_tube() || **caution != caution::LINE_FUSE && **caution != caution::HOT_RESISTOR
        };
        for caution in self.supply.answer().iter().flat_map(|told| &told.cautions).filter(silicon) {
            add(caution);
        }
        for caution in self.parts.iter().filter(|line| !line.part.done).flat_map(|line| &line.judged.cautions) {
            add(caution);
        }
        // The rules come last, whoever named them first.
        all.retain(|caution| caution.topic != caution::LICENSED_PRACTICE.topic);
        all.push(caution::LICENSED_PRACTICE);
        all
    }

    /// Tubes that are looked for, scarce, and without a stand-in that is easily found.
    fn hard(&self) -> Vec<String> {
        let easy = |found: &Option<String>| matches!(found.as_deref(), Some("common" | "findable"));
        let lines = self.tubes.iter().zip(&self.sockets.lines);
        let hard = lines.filter_map(|(judged, line)| {
            let wants = line.wants()?;
            let stands_in =
                judged.answer.stand_ins.iter().any(|row| row.grade <= Grade::AsIsDifferent && easy(&row.found_today));
            (judged.answer.wanted && wants.found_today == Some(FoundToday::Scarce) && !stands_in)
                .then(|| wants.name.clone())
        });
        hard.collect()
    }
}

/// A part of a change as an article.
fn fitted(group: Group, part: &PartToFit) -> Article {
    Article::new(group, &format!("{}, {}, {}", part.part, part.value, part.rating), 0.0)
}

/// Answers `sheet`. What cannot be told of it is one of its open questions, never an error.
pub fn answer(book: &Book, question: &SheetQuestion) -> SheetAnswer {
    let whole = Whole::of(book, &question.sheet, true);
    let mut basket = Basket::default();
    whole.shop(book, &mut basket, "");
    let shopping = basket.counted(book);
    let trouble = trouble::gather(&whole);
    SheetAnswer {
        verdict: totals::verdict(&trouble, &shopping, &whole.hard()),
        totals: totals::totals(&whole, &trouble, &shopping),
        bring_up: bring_up::steps(book, &whole, &trouble),
        cautions: whole.cautions(),
        parts: whole.parts.iter().enumerate().map(|(at, line)| line.answer(at)).collect(),
        tubes: whole.tubes.into_iter().map(|line| line.answer).collect(),
        heaters: whole.heaters.told.and_then(Result::ok),
        supply: whole.supply.told.and_then(Result::ok).map(|mut told| {
            told.assumed.extend(whole.supply.taken);
            told
        }),
        trouble,
        shopping,
    }
}

/// What is to be bought for a sheet, what of it is open, and the warnings; stand-ins are not looked for, so that many sheets are done in a moment.
pub(super) fn bought(book: &Book, sheet: &JobSheet, set: &str, basket: &mut Basket) -> (Vec<String>, Vec<Caution>) {
    let whole = Whole::of(book, sheet, false);
    whole.shop(book, basket, set);
    let open = |line: &PartLine<'_>| {
        let state = line.judged.state;
        let waits = !line.part.done && !line.unmeasured && matches!(state, LineState::Check | LineState::Unread);
        waits.then(|| format!("{}: {}", format!("{set} {}", line.name).trim(), line.judged.says))
    };
    let mut all: Vec<String> = whole.parts.iter().filter_map(open).collect();
    let unmeasured = whole.parts.iter().filter(|line| line.unmeasured && !line.part.done);
    let unmeasured: Vec<&str> = unmeasured.map(|line| line.name.as_str()).collect();
    if !unmeasured.is_empty() {
        all.push(format!("{}: {}", format!("{set} {}", unmeasured.join(", ")).trim(), trouble::UNMEASURED));
    }
    (all, whole.cautions())
}
