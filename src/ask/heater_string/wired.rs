//! The parts of the string, the tubes as the book has them, each with the heater connection that fits the string.

use super::HeaterStringQuestion;
use super::items::{self, Kind};
use crate::ask::{ErrorAnswer, tube};
use crate::book::{Book, HeaterKind, Tube};
use crate::heater::{Heater, same_a, string_rated_a};

/// One part in its place.
pub(super) struct Place<'b> {
    pub name: String,
    pub kind: Kind,
    /// The tube, if it is one.
    pub tube: Option<&'b Tube>,
    /// Its rating; a resistor counts as a heater of exponent 1 at the current of the string.
    pub heater: Heater,
    /// Whether the halves of a tapped heater are taken in parallel.
    pub halves: bool,
    /// What has to be said of it.
    pub says: Option<String>,
}

/// The string.
pub(super) struct Wired<'b> {
    pub places: Vec<Place<'b>>,
    /// The current it is meant for, amperes.
    pub string_a: f64,
}

impl<'b> Wired<'b> {
    /// Looks the types up and reads the rest.
    pub fn find(book: &'b Book, question: &HeaterStringQuestion) -> Result<Self, ErrorAnswer> {
        let mut places = Vec::new();
        let mut resistors = Vec::new();
        for (at, typed) in question.tubes.iter().enumerate() {
            let field = format!("tubes[{at}]");
            let place = |name, kind, tube, heater, says| Place { name, kind, tube, heater, halves: false, says };
            if let Some(item) = items::read(&field, typed)? {
                if item.lamp.is_none() {
                    resistors.push((at, item.ohm));
                }
                let heater = item.lamp.unwrap_or(Heater::new(1.0, 1.0));
                places.push(place(items::name(&item), item.kind, None, heater, item.says));
                continue;
            }
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
            places.push(place(tube.name.clone(), Kind::Tube, Some(tube), Heater::new(rated_v, rated_a), None));
        }
        // Tapped heaters follow the others; only where all are tapped do they decide.
        let of = |wanted: &dyn Fn(&Tube) -> bool| -> Vec<Heater> {
            places.iter().filter(|place| place.tube.is_some_and(wanted)).map(|place| place.heater).collect()
        };
        let string_a = string_rated_a(&of(&|tube| halves(tube).is_none())).or_else(|| string_rated_a(&of(&|_| true)));
        let Some(string_a) = string_a else {
            return Err(ErrorAnswer::new("tubes", "a list without a tube", "at least one tube designation"));
        };
        for place in &mut places {
            if let Some(halves) = place.tube.and_then(halves)
                && !same_a(place.heater.rated_a, string_a)
                && same_a(halves.rated_a, string_a)
            {
                place.heater = halves;
                place.halves = true;
            }
        }
        for (at, ohm) in resistors {
            if let Some(place) = places.get_mut(at) {
                place.heater = Heater { exponent: 1.0, ..Heater::new(ohm * string_a, string_a) };
            }
        }
        let mut string = Self { places, string_a };
        if question.line_hz == 0.0 {
            string.join_cathodes();
        }
        Ok(string)
    }

    /// On DC the plate and screen current of every battery tube goes on through the filaments between it and the chassis, and through half
    /// of its own.
    fn join_cathodes(&mut self) {
        let mut above_a = 0.0;
        for place in &mut self.places {
            let Some(tube) = place.tube.filter(|tube| tube.heater_kind == Some(HeaterKind::Filament)) else { continue };
            let of = |unit: &crate::book::Unit| {
                unit.figures.typ_plate_ma.unwrap_or(0.0) + unit.figures.typ_screen_ma.unwrap_or(0.0)
            };
            let own_a = tube.units.iter().map(of).sum::<f64>() / 1e3;
            place.heater.added_a = above_a + 0.5 * own_a;
            above_a += own_a;
        }
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
