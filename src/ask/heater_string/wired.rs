//! The tubes of the string as the book has them, each with the heater connection that fits the string.

use super::HeaterStringQuestion;
use crate::ask::{ErrorAnswer, tube};
use crate::book::{Book, HeaterKind, Tube};
use crate::heater::{Heater, same_a, string_rated_a};

/// One tube in its place.
pub(super) struct Place<'b> {
    pub tube: &'b Tube,
    pub heater: Heater,
    /// Whether the halves of a tapped heater are taken in parallel.
    pub halves: bool,
}

/// The string.
pub(super) struct Wired<'b> {
    pub places: Vec<Place<'b>>,
    /// The current it is meant for, amperes.
    pub string_a: f64,
}

impl<'b> Wired<'b> {
    /// Looks the types up.
    pub fn find(book: &'b Book, question: &HeaterStringQuestion) -> Result<Self, ErrorAnswer> {
        let mut places = Vec::new();
        for (at, typed) in question.tubes.iter().enumerate() {
            let field = format!("tubes[{at}]");
            let tube = tube::find(book, &field, typed)?.tube;
            let rating = tube.figures.heater_v.zip(tube.figures.heater_a);
            let Some((rated_v, rated_a)) = rating.filter(|_| tube.heater_kind != Some(HeaterKind::Cold)) else {
                let found = if tube.heater_kind == Some(HeaterKind::Cold) {
                    format!("{}, which has no heater", tube.name)
                } else {
                    format!("{}, of which the book does not know heater volts and amperes", tube.name)
                };
                return Err(ErrorAnswer::new(field, found, "a type whose heater rating is in the book"));
            };
            places.push(Place { tube, heater: Heater::new(rated_v, rated_a), halves: false });
        }
        // Tapped heaters follow the others; only where all are tapped do they decide.
        let plain: Vec<Heater> =
            places.iter().filter(|place| halves(place.tube).is_none()).map(|place| place.heater).collect();
        let all: Vec<Heater> = places.iter().map(|place| place.heater).collect();
        let Some(string_a) = string_rated_a(&plain).or_else(|| string_rated_a(&all)) else {
            return Err(ErrorAnswer::new("tubes", "an empty list", "at least one tube designation"));
        };
        for place in &mut places {
            if let Some(halves) = halves(place.tube)
                && !same_a(place.heater.rated_a, string_a)
                && same_a(halves.rated_a, string_a)
            {
                place.heater = halves;
                place.halves = true;
            }
        }
        Ok(Self { places, string_a })
    }

    pub fn heaters(&self) -> Vec<Heater> {
        self.places.iter().map(|place| place.heater).collect()
    }

    /// Sum of the rated volts.
    pub fn sum_v(&self) -> f64 {
        self.places.iter().map(|place| place.heater.rated_v).sum()
    }
}

/// The other connection of a tapped heater.
fn halves(tube: &Tube) -> Option<Heater> {
    let (rated_v, rated_a) = tube.figures.heater_parallel_v.zip(tube.figures.heater_parallel_a)?;
    Some(Heater::new(rated_v, rated_a))
}
