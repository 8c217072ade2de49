//! Electrode by electrode: does each wire of the socket meet the electrode it was meant for?
//!
//! Every pin of both tubes is looked at, from below. Source: EIA base designations; tie points are common practice, no source.

use super::structure::Structure;
use super::{Check, Fact, Socket};
use crate::book::pins::{Electrodes, MOST_PINS, MOST_UNITS, Part, PinMap, Shared, owner};
use crate::book::{Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "A wire that meets another electrode can put B+ on a grid or short a bias resistor: 50B5 and 50C5 have the same electrodes on other pins. A pin that the original leaves empty may hold a wire, a tie point, that the candidate would meet.";

/// How the pins compare. Masks have bit 0 for the cap and bit `n` for pin `n`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PinFact {
    /// Whether a pin map is missing.
    pub unknown: bool,
    /// Electrodes of the original that the candidate has on other pins.
    pub moved: Electrodes,
    /// Electrodes or taps of the original that the candidate does not bring out at all.
    pub lost: Electrodes,
    /// Electrodes of the candidate that would be left unconnected and must not be.
    pub floating: Electrodes,
    /// Pins that are empty in the original and used in the candidate: look for tie points.
    pub ties: u16,
    /// Pins with a wire in the original that are used otherwise in the candidate.
    pub clashes: u16,
    /// Pins that the candidate joins inside and the original does not.
    pub joined: u16,
    /// Electrodes that the candidate has on one pin and the original apart: no wiring parts them.
    pub fused: Electrodes,
}

impl PinFact {
    /// Whether wires have to move.
    pub fn rewire(&self) -> bool {
        !self.moved.is_empty()
            || !self.lost.is_empty()
            || !self.floating.is_empty()
            || self.clashes != 0
            || self.joined != 0
            || !self.fused.is_empty()
    }
}

const HEATER_ENDS: Electrodes = Electrodes::shared(Shared::Heater).with(Electrodes::shared(Shared::Filament));
/// Cathodes of every unit.
pub(super) const CATHODES: Electrodes = cathodes();

const fn cathodes() -> Electrodes {
    let mut all = Electrodes::NONE;
    let mut unit = 0;
    while unit < 4 {
        all = all.with(Electrodes::part(unit, Part::Cathode));
        unit += 1;
    }
    all
}

const fn suppressors() -> Electrodes {
    let mut all = Electrodes::NONE;
    let mut unit = 0;
    while unit < 4 {
        all = all
            .with(Electrodes::part(unit, Part::Grid3))
            .with(Electrodes::part(unit, Part::Grid5))
            .with(Electrodes::part(unit, Part::Grid6))
            .with(Electrodes::part(unit, Part::Beam));
        unit += 1;
    }
    all
}

/// Grid 3, beam plates, the grid 5 of a converter and the grid 6 of an octode: where they have no pin of their own they sit at the cathode.
pub(super) const SUPPRESSORS: Electrodes = suppressors();

fn mask(map: &PinMap, electrodes: Electrodes) -> u16 {
    map.places(electrodes).fold(0, |mask, pin| mask | 1 << pin)
}

/// What each pin of a tube means to the socket: a filament end counts as heater end, so that both kinds compare.
fn plain(on: Electrodes) -> Electrodes {
    if on.meets(HEATER_ENDS) { on.without(HEATER_ENDS).with(Electrodes::shared(Shared::Heater)) } else { on }
}

/// Compares two pin maps; the candidate's already in the original's unit numbers.
fn compare(own: &PinMap, other: &PinMap, heptode: Electrodes, same_basing: bool) -> PinFact {
    let mut fact = PinFact::default();
    let filament = |map: &PinMap| mask(map, Electrodes::shared(Shared::Filament));
    let (own_filament, other_filament) = (filament(own), filament(other));
    let count = MOST_PINS + 1;
    let own_pins: PinSet = std::array::from_fn(|pin| plain(own.pins[pin]));
    let other_pins: PinSet = std::array::from_fn(|pin| plain(other.pins[pin]));
    let not_circuit = Electrodes::SHIELDING.with(Electrodes::INTERNAL);
    let own_all = own_pins.iter().fold(Electrodes::NONE, |all, &on| all.with(on)).without(not_circuit);
    let other_all = other_pins.iter().fold(Electrodes::NONE, |all, &on| all.with(on)).without(not_circuit);
    let places = |pins: &PinSet, electrode: Electrodes| {
        pins.iter().enumerate().fold(0u16, |mask, (pin, on)| if on.meets(electrode) { mask | 1 << pin } else { mask })
    };
    for electrode in own_all.each() {
        let wanted = places(&own_pins, electrode);
        let mut found = places(&other_pins, electrode);
        if electrode.meets(CATHODES) && found == 0 && other_filament != 0 {
            // A directly heated rectifier in place of an indirectly heated one: its filament is its cathode.
            found = other_filament;
        }
        if found == 0 {
            // Grid 3 or beam plates that stay inside the candidate sit at its cathode: the wire simply ends.
            let suppressor = electrode.meets(SUPPRESSORS.without(heptode));
            if !suppressor {
                fact.lost = fact.lost.with(electrode);
            }
        } else if wanted & !found != 0 {
            let joined_suppressor = electrode.meets(SUPPRESSORS.without(heptode))
                && own_pins.iter().enumerate().all(|(pin, on)| {
                    !on.meets(electrode) || on.meets(CATHODES) || other_pins[pin].without(not_circuit).is_empty()
                })
                && other_pins.iter().all(|on| !on.meets(electrode) || on.meets(CATHODES));
            if !joined_suppressor {
                fact.moved = fact.moved.with(electrode);
            }
        }
    }
    // An indirectly heated rectifier in place of a directly heated one: B+ is taken from a filament pin, where its cathode must be.
    if own_filament != 0 && other_filament == 0 {
        let cathode = places(&other_pins, CATHODES);
        if cathode != 0 && cathode & own_filament == 0 {
            fact.moved = fact.moved.with(Electrodes::shared(Shared::Heater));
        }
    }
    for pin in 0..count {
        let (here, there) = (own_pins[pin], other_pins[pin]);
        let bit = 1u16 << pin;
        if there.is_empty() {
            continue;
        }
        let unsure = Electrodes::shared(Shared::Unsure);
        if here.is_empty() || here == unsure {
            if here == unsure && there == unsure && same_basing {
                continue;
            }
            fact.ties |= bit;
        } else if here.without(not_circuit).is_empty() {
            // A grounded shell pin must not meet an electrode; an internal connection of the original carries no wire.
            if here.meets(Electrodes::SHIELDING) && !there.without(Electrodes::SHIELDING).is_empty() {
                fact.clashes |= bit;
            }
        } else if there.without(Electrodes::SHIELDING).common(here).is_empty()
            && !there.without(Electrodes::SHIELDING).is_empty()
        {
            fact.clashes |= bit;
        }
        // An electrode that the original has nowhere, on a pin of its own, must be connected somewhere.
        let extra = there.without(own_all).without(not_circuit).without(CATHODES);
        if !extra.is_empty() && there.common(own_all).is_empty() && !there.meets(CATHODES) {
            for electrode in extra.each() {
                let of_matched = owner(electrode).is_some_and(|unit| own_all.meets(Electrodes::unit(unit)));
                if of_matched {
                    fact.floating = fact.floating.with(electrode);
                }
            }
        }
    }
    for there in other_pins {
        let together = there.common(own_all).without(SUPPRESSORS.without(heptode));
        if together.each().count() > 1 && !own_pins.iter().any(|here| together.without(*here).is_empty()) {
            fact.fused = fact.fused.with(together);
        }
    }
    // Pins that one electrode of the candidate joins must be joined in the original, or one of them empty.
    for electrode in other_all.without(Electrodes::HEATER).each() {
        let pins = places(&other_pins, electrode);
        if pins.count_ones() < 2 {
            continue;
        }
        let mut wired =
            (0..count).filter(|&pin| pins & 1 << pin != 0 && !own_pins[pin].without(not_circuit).is_empty());
        if let Some(first) = wired.next() {
            for pin in wired {
                if !own_pins[pin].meets(own_pins[first]) {
                    fact.joined |= 1 << pin | 1 << first;
                }
            }
        }
    }
    fact
}

type PinSet = [Electrodes; MOST_PINS + 1];

/// The check.
pub fn check(original: &Tube, candidate: &Tube, structure: &Structure, socket: &Socket) -> Check {
    let (Some(own), Some(other)) = (&original.pins, &candidate.pins) else {
        return Check::new(Fact::Pins(PinFact { unknown: true, ..PinFact::default() }), Outcome::Unknown);
    };
    let same_basing = original.basing.is_some() && original.basing == candidate.basing;
    let mut fact = compare(own, &other.renumbered(&structure.order), heptode_grids(original), same_basing);
    // A cathode joined to the heater puts B+ on every heater of the winding.
    if fact.fused.meets(Electrodes::HEATER) {
        return Check::new(Fact::Pins(fact), Outcome::Fails);
    }
    if original.base != candidate.base {
        // With another base every wire moves anyway; pin numbers mean nothing side by side, only lost or joined electrodes do.
        fact.ties = 0;
        fact.clashes = 0;
        return Check::new(Fact::Pins(fact), Outcome::NeedsChange);
    }
    if fact.rewire() {
        return Check::new(Fact::Pins(fact), Outcome::NeedsChange);
    }
    if let Some(wired) = socket.tie_points {
        fact.ties &= wired;
    }
    let outcome = if fact.ties == 0 { Outcome::Ok } else { Outcome::NeedsChange };
    Check::new(Fact::Pins(fact), outcome)
}

/// Grids of converters that are no mere suppressors: all but a grid 5 that is not joined to grid 3 as a screen.
fn heptode_grids(tube: &Tube) -> Electrodes {
    let mut all = Electrodes::NONE;
    for (unit, _) in tube
        .units
        .iter()
        .enumerate()
        .take(MOST_UNITS)
        .filter(|(_, unit)| matches!(unit.function, Function::Heptode | Function::GatedDetector))
    {
        let (grid3, grid5) = (Electrodes::part(unit, Part::Grid3), Electrodes::part(unit, Part::Grid5));
        let screen = tube.pins.is_some_and(|map| map.pins.iter().any(|on| on.meets(grid3) && on.meets(grid5)));
        let own = Electrodes::unit(unit).without(Electrodes::part(unit, Part::Grid6));
        all = all.with(if screen { own } else { own.without(grid5) });
    }
    all
}

/// One wire to move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WireMove {
    /// The electrode, in the original's unit numbers.
    pub electrode: Electrodes,
    /// Pins it is on in the original (mask).
    pub from: u16,
    /// Pins it is on in the candidate (mask); 0 when it has none.
    pub to: u16,
}

/// Every wire that has to move, in pin order of the original. With another base, every wire of the socket.
pub fn moves(original: &Tube, candidate: &Tube, structure: &Structure) -> Vec<WireMove> {
    let (Some(own), Some(other)) = (&original.pins, &candidate.pins) else { return Vec::new() };
    let other = other.renumbered(&structure.order);
    let same_base = original.base == candidate.base;
    let fact = compare(own, &other, heptode_grids(original), false);
    let not_circuit = Electrodes::SHIELDING.with(Electrodes::INTERNAL);
    let mut moves = Vec::new();
    let mut done = Electrodes::NONE;
    for on in own.pins.iter().skip(1).chain(own.pins.iter().take(1)) {
        for electrode in on.without(not_circuit).each() {
            if done.meets(electrode) {
                continue;
            }
            done = done.with(electrode);
            let as_heater = plain(electrode);
            let moved = fact.moved.meets(as_heater) || fact.lost.meets(as_heater);
            if same_base && !moved {
                continue;
            }
            let from = mask(own, electrode);
            let mut to = mask(&other, electrode);
            if electrode.meets(HEATER_ENDS) {
                to = mask(&other, HEATER_ENDS);
            }
            if electrode.meets(CATHODES) && to == 0 {
                to = mask(&other, Electrodes::shared(Shared::Filament));
            }
            moves.push(WireMove { electrode, from, to });
        }
    }
    moves
}
