//! `search`: which types have such a number, base, heater, function? For a tube whose marking is half worn off.

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use super::tube::{heater, kind};
use crate::book::{Base, Book, Function, Tube, fit, key};
use crate::order::in_order;

/// How far a heater's figures may be from those asked for: 6 V finds 6.3 V.
/// A hair more than 5 %, for 12.6 V is 12 V and 5 %, which binary fractions make a little more.
const HEATER_TOLERANCE: f64 = 0.0501;
/// How many are listed when the question does not say.
const LIMIT: u32 = 30;

/// What is known of the tube: at least one of these.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SearchQuestion {
    /// Part of a number, with `?` for a character that cannot be read: "6?5GT", "SK7".
    #[cfg_attr(test, ts(optional))]
    pub text: Option<String>,
    /// The base, as the book writes it: "octal", "miniature-7".
    #[cfg_attr(test, ts(optional, as = "Option<String>"))]
    pub base: Option<Base>,
    /// How many pins the base has, also where one is left out.
    #[cfg_attr(test, ts(optional))]
    pub pins: Option<u32>,
    /// Whether it has a top cap.
    #[cfg_attr(test, ts(optional))]
    pub top_cap: Option<bool>,
    /// Heater volts, of the whole heater or of its halves in parallel, within 5 %.
    #[cfg_attr(test, ts(optional))]
    pub heater_v: Option<f64>,
    /// Heater amperes, likewise.
    #[cfg_attr(test, ts(optional))]
    pub heater_a: Option<f64>,
    /// What one of its units does, as the book writes it: "triode", "power_pentode".
    #[cfg_attr(test, ts(optional, as = "Option<String>"))]
    pub function: Option<Function>,
    /// How many to list; 30 unless said.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

impl From<&Fields<'_>> for SearchQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            text: fields.get_text("text").map(str::to_owned),
            base: fields.get_text("base").and_then(Base::read),
            pins: fields.whole("pins"),
            top_cap: fields.flag("top_cap"),
            heater_v: fields.number("heater_v"),
            heater_a: fields.number("heater_a"),
            function: fields.get_text("function").and_then(Function::read),
            limit: fields.whole("limit"),
        }
    }
}

/// A type that fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SearchMatch {
    /// The type.
    pub r#type: String,
    /// The name that was matched: the type itself or one of its other names.
    pub name: String,
    /// "pentode, remote cut-off".
    pub is: String,
    /// "octal".
    pub base: String,
    /// "6.3 V, 0.3 A".
    pub heater: String,
    /// `common`, `findable` or `scarce`: a judgement; absent when nobody judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found_today: Option<String>,
}

/// What fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SearchAnswer {
    /// The best of them: the whole number first, then those that begin so; of equal ones the commoner.
    pub matches: Vec<SearchMatch>,
    /// How many fit.
    pub count: u32,
    /// How many more have such a number, of which the book does not know what else was asked for.
    pub not_known: u32,
    /// One plain sentence.
    pub says: String,
}

/// Answers `search`.
pub fn answer(book: &Book, question: &SearchQuestion) -> Result<SearchAnswer, ErrorAnswer> {
    let text = question.text.as_deref().map(key).filter(|text| !text.is_empty());
    let SearchQuestion { base, pins, top_cap, heater_v, heater_a, function, .. } = question;
    let nothing_else = base.is_none()
        && pins.or(top_cap.map(u32::from)).is_none()
        && heater_v.or(*heater_a).is_none()
        && function.is_none();
    if nothing_else && text.as_ref().is_none_or(|text| text.bytes().all(|byte| byte == b'?')) {
        let found = question.text.as_deref().map_or("", |_| "nothing that can be read");
        let accepted = "part of a number such as 6?5, or base, pins, top_cap, heater_v, heater_a, function";
        return Err(ErrorAnswer::new("text", found, accepted));
    }
    // The best name of each type: how well it fits, and where it stands among the other names.
    let mut best: Vec<Option<(u64, Option<usize>)>> = vec![None; book.tubes().len()];
    let mut meet = |place: usize, name: &str, other: Option<usize>| {
        let fit = text.as_deref().map_or(Some(0), |text| fit(&key(name), text));
        if let (Some(fit), Some(slot)) = (fit, best.get_mut(place)) {
            let now = (fit << 8 | name.len().min(255) as u64, other);
            *slot = Some(slot.map_or(now, |before| if now.0 < before.0 { now } else { before }));
        }
    };
    for (place, tube) in book.tubes().iter().enumerate() {
        meet(place, &tube.name, None);
    }
    if text.is_some() {
        for (at, name) in book.names().iter().enumerate() {
            if let Some(place) = book.place_of(&name.of) {
                meet(place, &name.name, Some(at));
            }
        }
    }
    let mut keyed = Vec::new();
    let mut not_known = 0;
    for ((place, best), tube) in best.iter().enumerate().zip(book.tubes()) {
        let Some((fit, _)) = best else { continue };
        match question.is_met_by(tube) {
            Some(true) => {
                let rare = tube.found_today.map_or(2, |found| found as u64);
                keyed.push((fit >> 8 << 16 | rare << 8 | fit & 255, place as u32));
            }
            Some(false) => {}
            None => not_known += 1,
        }
    }
    let count = keyed.len() as u32;
    let limit = question.limit.unwrap_or(LIMIT) as usize;
    let matches = in_order(keyed)
        .take(limit)
        .filter_map(|place| {
            let tube = book.tubes().get(place)?;
            let other = best.get(place).copied().flatten().and_then(|best| book.names().get(best.1?));
            Some(SearchMatch {
                r#type: tube.name.clone(),
                name: other.map_or(&tube.name, |name| &name.name).clone(),
                is: kind(tube),
                base: tube.base.map_or("base not known", Base::words).to_owned(),
                heater: heater(tube),
                found_today: tube.found_today.map(|found| found.words().to_owned()),
            })
        })
        .collect();
    let types = |count: u32| if count == 1 { "1 type".to_owned() } else { format!("{count} types") };
    let mut says = match count {
        0 => "No type in the book fits.".to_owned(),
        1 => "1 type fits.".to_owned(),
        _ => format!("{} fit.", types(count)),
    };
    if not_known > 0 {
        let (more, them) = if not_known == 1 { ("type", "it") } else { ("types", "them") };
        says = format!("{says} {not_known} more {more} may fit: the book does not know enough of {them} to tell.");
    }
    Ok(SearchAnswer { matches, count, not_known, says })
}

impl SearchQuestion {
    /// Whether a tube has what is asked for beside the number; `None` when the book does not know.
    fn is_met_by(&self, tube: &Tube) -> Option<bool> {
        let near = |wanted: Option<f64>, whole: Option<f64>, halves: Option<f64>| match (wanted, whole) {
            (None, _) => Some(true),
            (_, None) => None,
            (Some(wanted), _) => {
                let near = |figure: f64| (figure / wanted - 1.0).abs() <= HEATER_TOLERANCE;
                Some([whole, halves].into_iter().flatten().any(near))
            }
        };
        let figures = &tube.figures;
        let all = [
            self.base.map_or(Some(true), |base| Some(tube.base? == base)),
            self.pins.map_or(Some(true), |pins| Some(u32::from(tube.base?.pin_count()) == pins)),
            self.top_cap.map_or(Some(true), |cap| Some(tube.pins.as_ref()?.cap == cap)),
            near(self.heater_v, figures.heater_v, figures.heater_parallel_v),
            near(self.heater_a, figures.heater_a, figures.heater_parallel_a),
            self.function.map_or(Some(true), |function| Some(tube.unit_of(function).is_some())),
        ];
        if all.contains(&Some(false)) { Some(false) } else { all.iter().all(Option::is_some).then_some(true) }
    }
}
