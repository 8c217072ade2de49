//! What has to change for a swap to hold: wires, parts, things to look at first.

use super::{Pair, figure, pins_text};
use crate::book::pins::{Electrodes, MOST_PINS, PinMap, Shared};
use crate::book::{Function, Tube};
use crate::finding::{Change, Move, Outcome, PartToFit};
use crate::heater::same_a;
use crate::quantity::{self, watt_rating};
use crate::series::{Series, power_rating_w};
use crate::swap::behaviour::{DROP_NOTICED_V, GainOf};
use crate::swap::heater::HeaterWhy;
use crate::swap::pinout::{CATHODES, SUPPRESSORS, WireMove, moves};
use crate::swap::structure::Structure;
use crate::swap::{
    Fact, GainFact, Grade, HeaterCathodeFact, HeaterFact, Judgement, PinFact, PointFact, RatingFact, StructureFact,
};

impl Pair<'_> {
    /// What has to change, in order of the work.
    pub fn changes(&self, judgement: &Judgement) -> Vec<Change> {
        let mut changes = Vec::new();
        let Some(checks) = &judgement.checks else { return changes };
        if matches!(judgement.grade, Grade::No | Grade::Unknown) {
            return changes;
        }
        let structure = Structure::match_units(self.original, self.candidate);
        for check in checks {
            match check.fact {
                Fact::Base(..) if check.outcome == Outcome::NeedsChange => changes.push(Change::plain(
                    "Make or buy an adapter from the old base to the new one, or change the socket. An adapter leaves the set as it was built.",
                )),
                Fact::Structure(StructureFact::TriodeAsDiode { diodes }) => {
                    let mut says = "Join grid and plate of the spare triode and use them as the diode plate.".to_owned();
                    if diodes > 1 {
                        says.push_str(" The original has two diodes: if the set uses them for two jobs (detector and AGC), the second needs a diode of its own.");
                    }
                    changes.push(Change::plain(says));
                }
                Fact::Pins(fact) if check.outcome == Outcome::NeedsChange => self.pin_changes(&fact, &structure, &mut changes),
                Fact::Heater(fact) => {
                    if check.outcome == Outcome::NeedsChange {
                        heater_changes(&fact, &mut changes);
                    }
                    self.lamp_change(&fact, &mut changes);
                }
                Fact::Point(PointFact { cathode_ohm, cathode_ma, .. }) if check.outcome == Outcome::NeedsChange => changes.push(match cathode_ohm {
                    Some(ohm) => Change::with_part(
                        "Change the bias before it goes in: this resistor in the cathode gives its handbook point, with plate and screen volts as there.",
                        resistor("resistor", ohm, ohm * cathode_ma * cathode_ma * 1e-6),
                    ),
                    None => Change::plain(
                        "Change the bias before it goes in, so that it draws no more than its data sheet allows at the set's volts.",
                    ),
                }),
                Fact::Rating(RatingFact { other: Some(most_uf), .. }) if check.outcome == Outcome::NeedsChange => changes.push(
                    Change::plain(format!("Fit a first filter capacitor of at most {} uF before it goes in.", figure(most_uf))),
                ),
                Fact::HeaterCathode(HeaterCathodeFact { other_v: Some(volts), .. }) if check.outcome == Outcome::NeedsChange => {
                    changes.push(Change::plain(format!(
                        "Wire its heater nearer the chassis end of the string, where it is no further from chassis than {} V (that is {} V AC).",
                        figure(volts),
                        figure((volts / std::f64::consts::SQRT_2).floor())
                    )));
                }
                Fact::Gain(GainFact { of: GainOf::Drop, own: Some(own), other: Some(other), .. }) if own - other > DROP_NOTICED_V => {
                    changes.push(Change::plain(format!(
                        "Before it goes in, see that filter capacitors and output tube stand {} V more than the set has now. If they do not, a resistor between rectifier and first filter takes it off: these volts divided by the set's B+ amperes.",
                        figure((own - other).round())
                    )));
                }
                Fact::Gain(GainFact { of: GainOf::Drop, .. }) if check.outcome == Outcome::NeedsChange => changes.push(Change::plain(
                    "Before it goes in, see that filter capacitors and output tube stand some 50 V more than the set has now; the book does not know both tube drops. Then measure B+.",
                )),
                Fact::Shield { unknown: false } if check.outcome == Outcome::Differs => changes.push(Change::plain(
                    "If it whistles or hums, put a grounded shield can over the glass; touch up the trimmers of the stage.",
                )),
                _ => {}
            }
        }
        changes
    }

    /// A tapped rectifier heater feeds the dial lamp, and through the tap often the plate; a heater without tap does neither.
    fn lamp_change(&self, fact: &HeaterFact, changes: &mut Vec<Change>) {
        let tapped = |tube: &Tube| {
            tube.figures.lamp_tap_v.is_some()
                || tube.pins.is_some_and(|pins| pins.all().meets(Electrodes::shared(Shared::HeaterTap)))
        };
        let Some((string_a, _)) = fact.string else { return };
        if !(self.original.unit_of(Function::Rectifier).is_some() && tapped(self.original) && !tapped(self.candidate)) {
            return;
        }
        changes.push(Change::plain("If the plate wire was joined to the heater tap, join it to the line end of the heater: the candidate has no tap."));
        changes.push(if same_a(string_a, LAMP_A) {
            Change::with_part(
                "Keep the dial lamp alive: put a 6.3 V, 0.15 A lamp (No. 47) in series with the candidate's heater, with this resistor across the lamp. The resistor holds back the surge at switch-on and keeps the string going when the lamp burns out.",
                resistor(WIRE_WOUND, LAMP_SHUNT_OHM, string_a * string_a * LAMP_SHUNT_OHM),
            )
        } else {
            Change::plain("The dial lamp loses its feed: give it one of its own, such as a small 6.3 V transformer.")
        });
    }

    fn pin_changes(&self, fact: &PinFact, structure: &Structure, changes: &mut Vec<Change>) {
        let functions = self.original.functions();
        let all = moves(self.original, self.candidate, structure);
        // A suppressor that shares its pin with an electrode that stays takes no wire with it: its new pin is joined besides.
        let moved = all.iter().fold(Electrodes::NONE, |moved, wire| moved.with(wire.electrode));
        let stays = |wire: &WireMove| {
            let shared = |pin: usize| {
                let on = self.original.pins.map_or(Electrodes::NONE, |pins| pins.pins[pin]);
                wire.from & 1 << pin != 0
                    && on.meets(wire.electrode)
                    && !on.without(moved).without(Electrodes::SHIELDING).is_empty()
            };
            wire.to != 0 && wire.electrode.meets(SUPPRESSORS) && (0..=MOST_PINS).any(shared)
        };
        for wire in all.iter().filter(|wire| stays(wire)) {
            let on_shell = |pins: &PinMap| {
                (0..=MOST_PINS).any(|pin| wire.to & 1 << pin != 0 && pins.pins[pin].meets(Electrodes::SHIELDING))
            };
            let to = if self.candidate.pins.as_ref().is_some_and(on_shell) {
                "chassis, for the candidate has its shell there too".to_owned()
            } else {
                pins_text(wire.from)
            };
            changes.push(Change::plain(format!(
                "Join {} to {to}: the candidate's {} comes out there. The wires on {} stay.",
                pins_text(wire.to),
                wire.electrode.words(&functions),
                pins_text(wire.from)
            )));
        }
        let wires: Vec<Move> = all
            .iter()
            .filter(|wire| !stays(wire))
            // A cathode that the candidate has only once goes where the other one on the same pin goes.
            .filter(|wire| {
                let shared = all.iter().any(|other| other.to != 0 && other.from & wire.from != 0);
                wire.to != 0 || !(wire.electrode.meets(CATHODES) && shared)
            })
            .map(|WireMove { electrode, from, to }| Move {
                electrode: electrode.words(&functions),
                from: pin_list(*from),
                to: if *to == 0 { "nowhere: the candidate does not bring it out".to_owned() } else { pin_list(*to) },
            })
            .collect();
        if !wires.is_empty() {
            let says = if self.original.base == self.candidate.base {
                "Move these wires at the socket (pins seen from below)."
            } else {
                "Wire the adapter so (old socket pin to new socket pin, both seen from below)."
            };
            changes.push(Change { says: says.to_owned(), part: None, moves: wires });
        }
        let spare_as_diode = matches!(structure.fact, StructureFact::TriodeAsDiode { .. });
        if !fact.floating.is_empty() && !spare_as_diode {
            let names: Vec<String> = fact.floating.each().map(|electrode| electrode.words(&functions)).collect();
            changes.push(Change::plain(format!(
                "Connect what the original did not have: {}. A suppressor grid goes to the cathode.",
                names.join(", ")
            )));
        }
        if !fact.fused.is_empty() {
            let names: Vec<String> = fact.fused.each().map(|electrode| electrode.words(&functions)).collect();
            changes.push(Change::plain(format!(
                "Look first whether your set ties these together: {}. The candidate joins them inside; if your set does not, it will not do.",
                names.join(", ")
            )));
        }
        if fact.joined != 0 && fact.moved.is_empty() && fact.fused.is_empty() {
            changes.push(Change::plain(format!(
                "Look whether {} are wired together in your set; if not, lift one wire, for the candidate joins them inside.",
                pins_text(fact.joined)
            )));
        }
        if fact.ties != 0 {
            changes.push(Change::plain(format!(
                "Look at {} of the socket: the original leaves it empty, the candidate does not. If a wire or part is tied there, move it to a separate tie point first.",
                pins_text(fact.ties)
            )));
        }
    }
}

fn heater_changes(fact: &HeaterFact, changes: &mut Vec<Change>) {
    let (Some((other_v, _)), Some((string_a, _))) = (fact.other, fact.string) else {
        if let (Some(ohm), Some((_, other_a))) = (fact.series_ohm, fact.other) {
            changes.push(Change::with_part(
                "Put a resistor in series with one heater pin of the candidate, where its heat can escape.",
                resistor(WIRE_WOUND, ohm, other_a * other_a * ohm),
            ));
        }
        if fact.why == HeaterWhy::BatteryAmps {
            changes.push(Change::plain("Find out whether the filaments are in series. On separate cells nothing has to change; in a series string leave it."));
        } else if fact.reconnect {
            changes.push(Change::plain("Connect the heater sections for the set's volts, as the pin map shows."));
        }
        return;
    };
    if fact.reconnect {
        changes.push(Change::plain("Connect the heater sections for the string's current, as the pin map shows."));
    }
    if let Some(ohm) = fact.shunt_ohm {
        let watts = other_v * other_v / ohm;
        changes.push(Change::with_part(
            "Put a resistor across the candidate's heater pins, to carry the rest of the string's current.",
            resistor(WIRE_WOUND, ohm, watts),
        ));
    }
    match fact.dropper_ohm {
        Some(ohm) if ohm < 1.0 => changes.push(Change::plain("Take the dropper of the heater string out.")),
        Some(ohm) => changes.push(Change::with_part(
            if fact.fitted_ohm > 0.0 {
                "Change the dropper of the heater string to this value, where its heat can escape."
            } else {
                "Add a resistor in series with the heater string, where its heat can escape."
            },
            resistor(WIRE_WOUND, ohm, string_a * string_a * ohm),
        )),
        None => {}
    }
}

/// A dial lamp for strings of 0.15 A, and the resistor across it: the two together take 4.4 V of the string, so that the lamp lives long.
const LAMP_A: f64 = 0.15;
const LAMP_SHUNT_OHM: f64 = 150.0;
const WIRE_WOUND: &str = "wire-wound resistor";

/// A resistor of a value that is sold, run at half its rating at the most.
fn resistor(part: &str, ohm: f64, dissipates_w: f64) -> PartToFit {
    let value = Series::E24.nearest(ohm).unwrap_or(ohm);
    let rating = power_rating_w(dissipates_w).unwrap_or(2.0 * dissipates_w);
    PartToFit {
        part: part.to_owned(),
        value: quantity::ohm(value),
        dissipates_w: Some((dissipates_w * 100.0).round() / 100.0),
        rating: watt_rating(rating),
    }
}

fn pin_list(mask: u16) -> String {
    let mut names: Vec<String> =
        (1..=MOST_PINS).filter(|pin| mask & 1 << pin != 0).map(|pin| pin.to_string()).collect();
    if mask & 1 != 0 {
        names.push("cap".to_owned());
    }
    names.join(" and ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heater::Heater;

    /// By the heater law: 4.4 V on a 6.3 V lamp, seven tenths of its volts.
    #[test]
    fn the_resistor_spares_the_dial_lamp() {
        let lamp = Heater::new(6.3, LAMP_A).with_shunt(LAMP_SHUNT_OHM).at(LAMP_A);
        assert!((lamp.v - 4.4).abs() < 0.1, "{lamp:?}");
    }
}
