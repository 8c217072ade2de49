//! Sentences for a judgement: made when somebody reads it, never while judging.

mod changes;
mod stage;

use super::heater::HeaterWhy;
use super::{Check, Fact, Grade, HeaterFact, PinFact, StructureFact};
use crate::book::pins::{Electrodes, MOST_PINS};
use crate::book::{Function, Tube};
use crate::finding::{Finding, Mark, Outcome, capital};
use crate::quantity::{significant, whole};

/// The grade in a few words.
pub fn grade_words(grade: Grade) -> &'static str {
    match grade {
        Grade::Same => "Same tube, another name.",
        Grade::AsIs => "Yes, as it stands.",
        Grade::AsIsDifferent => "Yes, but the set will behave differently.",
        Grade::AfterChanges => "Only after changes.",
        Grade::No => "No.",
        Grade::Unknown => "Cannot tell.",
    }
}

/// The mark of a grade.
pub fn mark(grade: Grade) -> Mark {
    match grade {
        Grade::Same | Grade::AsIs => Mark::Yes,
        Grade::AsIsDifferent | Grade::AfterChanges => Mark::Care,
        Grade::No => Mark::No,
        Grade::Unknown => Mark::Unknown,
    }
}

/// A figure of the book as it is printed there: four figures at the most.
pub fn figure(value: f64) -> String {
    significant(value, 4)
}

/// "12.6 V, 0.15 A".
pub fn heater_text(volts: f64, amps: f64) -> String {
    format!("{} V, {} A", figure(volts), figure(amps))
}

/// A list of pins: "pin 1", "pins 2 and 7", "the cap".
pub fn pins_text(mask: u16) -> String {
    let mut names: Vec<String> =
        (1..=MOST_PINS).filter(|pin| mask & 1 << pin != 0).map(|pin| pin.to_string()).collect();
    let word = if names.len() > 1 { "pins" } else { "pin" };
    let cap = mask & 1 != 0;
    let last = names.pop();
    let listed = match (names.is_empty(), last) {
        (_, None) => String::new(),
        (true, Some(last)) => format!("{word} {last}"),
        (false, Some(last)) => format!("{word} {} and {last}", names.join(", ")),
    };
    match (listed.is_empty(), cap) {
        (true, true) => "the cap".to_owned(),
        (false, true) => format!("{listed} and the cap"),
        (true, false) => "no pin".to_owned(),
        (false, false) => listed,
    }
}

/// Original and candidate, for the sentences.
#[derive(Clone, Copy)]
pub struct Pair<'t> {
    /// The tube the set wants.
    pub original: &'t Tube,
    /// The tube at hand.
    pub candidate: &'t Tube,
}

impl Pair<'_> {
    /// One check as a finding.
    pub fn finding(&self, check: &Check) -> Finding {
        let outcome = check.outcome;
        match check.fact {
            Fact::Base(own, other) => {
                let name = |base: Option<crate::book::Base>| base.map_or("not known", crate::book::Base::words);
                let says = match outcome {
                    Outcome::Ok => format!("Both have the {} base.", name(own)),
                    Outcome::Unknown => "The book does not know both bases.".to_owned(),
                    _ => format!(
                        "The socket is {}, the candidate's base is {}: it takes an adapter or another socket.",
                        name(own),
                        name(other)
                    ),
                };
                Finding::figures("base", outcome, name(own), name(other), says)
            }
            Fact::Structure(fact) => self.structure(fact, outcome),
            Fact::Pins(fact) => self.pins(&fact, outcome),
            Fact::Heater(fact) => Self::heater(&fact, outcome),
            Fact::HeaterCathode(fact) => {
                let text =
                    |volts: Option<f64>| volts.map_or("not known".to_owned(), |volts| format!("{} V", figure(volts)));
                let says = match outcome {
                    _ if !fact.asked => "Heater and cathode sit close together here; their insulation is not put to the test.".to_owned(),
                    Outcome::Unknown => "The book does not know what both stand between heater and cathode, and this place asks for it.".to_owned(),
                    Outcome::Ok if fact.other_v < fact.own_v && fact.place_v.is_some() => {
                        format!("It stands the {} V that this place may put there.", whole(fact.place_v.unwrap_or_default()))
                    }
                    Outcome::Ok => "It stands as much between heater and cathode as the original.".to_owned(),
                    Outcome::NeedsChange => "It stands less between heater and cathode than the original, so its heater must not sit where the original's may.".to_owned(),
                    _ => "It stands less between heater and cathode than the original, and this place may ask for all of it.".to_owned(),
                };
                Finding::figures("heater to cathode", outcome, text(fact.own_v), text(fact.other_v), says)
            }
            Fact::CutOff(fact) => {
                let text = |cut_off: Option<crate::book::CutOff>| match (cut_off, outcome) {
                    (Some(cut_off), _) => cut_off.words(),
                    (None, Outcome::Differs) => "a plain triode's",
                    _ => "not known",
                };
                let eye = self.original.unit_of(Function::TuningIndicator).is_some();
                let effect = if eye {
                    "the shadow closes at another strength of station"
                } else if fact.agc == Some(true) {
                    "this stage is under automatic gain control (AGC), and there a sharper grid distorts strong stations, a more remote one holds them back more"
                } else {
                    "a stage under automatic gain control (AGC) distorts or holds back otherwise than before"
                };
                let says = match outcome {
                    Outcome::Unknown => {
                        format!("The book does not know how the grid of both cuts off; if it differs, {effect}.")
                    }
                    Outcome::Ok if fact.own != fact.other => {
                        "The grids cut off otherwise, which a stage without automatic gain control does not mind."
                            .to_owned()
                    }
                    Outcome::Ok => "The cut-off is of one kind, or does not matter here.".to_owned(),
                    _ => format!(
                        "The original has {}, the candidate {} (cutoff): harmless, but {effect}.",
                        text(fact.own),
                        text(fact.other)
                    ),
                };
                Finding::figures("cutoff", outcome, text(fact.own), text(fact.other), says)
            }
            Fact::Rating(fact) => stage::rating(&fact, outcome),
            Fact::Point(fact) => stage::point(&fact, outcome),
            Fact::Gain(fact) => stage::gain(&fact, outcome),
            Fact::Capacitance(fact) => stage::capacitance(&fact, outcome),
            Fact::Shield { unknown } => {
                let says = if unknown {
                    "The book does not know both bulbs; glass for metal may need a shield."
                } else if outcome == Outcome::Differs {
                    "The original's shell was its shield; bare glass in its place may whistle or hum until a shield can is fitted and the trimmers are touched up."
                } else {
                    "No shield is lost."
                };
                Finding::plain("shield", outcome, says)
            }
            Fact::Size(fact) => {
                let says = match (fact.shoulder, fact.adapter) {
                    (true, true) => {
                        "Its bulb has a shoulder and is taller and wider, and an adapter lifts it further: look whether there is room."
                    }
                    (true, false) => {
                        "Its bulb has a shoulder and is taller and wider: look whether it goes under the shield can and the lid."
                    }
                    (false, true) => "An adapter lifts it by its own height: look whether there is room.",
                    (false, false) if fact.unknown => "The book does not know both bulbs; look whether there is room.",
                    (false, false) => "Its kind of bulb takes no more room.",
                };
                Finding::plain("size", outcome, says)
            }
            Fact::WarmUp(own, other) => {
                let says = match (own.unwrap_or(false), other.unwrap_or(false), outcome) {
                    (true, false, Outcome::Fails) => {
                        "The string is made for controlled warm-up and the candidate has none: it would take far too many volts at switch-on."
                    }
                    (true, false, Outcome::Unknown) => {
                        "The string is made for controlled warm-up (11 s), and the book does not know whether the candidate has it."
                    }
                    (true, false, _) => "The original has controlled warm-up, which only a series string needs.",
                    (false, true, _) => "The candidate has controlled warm-up, which does no harm.",
                    _ => "Warm-up makes no difference.",
                };
                Finding::plain("warm-up", outcome, says)
            }
        }
    }

    fn structure(&self, fact: StructureFact, outcome: Outcome) -> Finding {
        let list = |tube: &Tube| {
            let names: Vec<&str> = tube.units.iter().map(|unit| unit.function.words()).collect();
            names.join(" + ")
        };
        let says = match fact {
            StructureFact::Match { spare: 0 } => "They hold the same units.".to_owned(),
            StructureFact::Match { .. } => {
                "The candidate holds what the original holds and more; the rest stays idle.".to_owned()
            }
            StructureFact::TetrodeForPentode => "One is a tetrode and the other a pentode of the same use.".to_owned(),
            StructureFact::TriodeAsDiode { .. } => {
                "The candidate has no diode; its spare triode, grid and plate joined, can serve as one.".to_owned()
            }
            StructureFact::Missing(function) => {
                format!(
                    "Another function: the original has a {} and the candidate has none to take its place.",
                    function.words()
                )
            }
            StructureFact::OtherConverter => {
                "Another function: its grids are made for another kind of oscillator circuit.".to_owned()
            }
        };
        Finding::figures("function", outcome, list(self.original), list(self.candidate), says)
    }

    fn pins(&self, fact: &PinFact, outcome: Outcome) -> Finding {
        let functions = self.original.functions();
        let words = |electrodes: Electrodes| {
            let names: Vec<String> = electrodes.each().map(|electrode| electrode.words(&functions)).collect();
            names.join(", ")
        };
        let mut says: Vec<String> = Vec::new();
        if fact.unknown {
            says.push("The book has no pin map for both, so the pinout cannot be compared.".to_owned());
        } else if self.original.base != self.candidate.base {
            says.push("With another base every wire has its new pin; the list shows each.".to_owned());
        } else {
            if !fact.moved.is_empty() {
                says.push(format!("The pinout differs: {} on other pins.", words(fact.moved)));
            }
            if !fact.lost.is_empty() {
                says.push(format!("The candidate does not bring out: {}.", words(fact.lost)));
            }
            if !fact.floating.is_empty() {
                says.push(format!(
                    "The candidate needs a connection the socket does not have: {}.",
                    words(fact.floating)
                ));
            }
            if fact.joined != 0 && fact.moved.is_empty() && fact.fused.is_empty() {
                says.push(format!(
                    "The candidate joins {} inside; in the pinout of the original they are apart.",
                    pins_text(fact.joined)
                ));
            }
            if fact.clashes != 0 && fact.moved.is_empty() && fact.lost.is_empty() {
                says.push(format!(
                    "{} of the socket meets another electrode (pinout).",
                    capital(&pins_text(fact.clashes))
                ));
            }
            if fact.ties != 0 {
                says.push(format!(
                    "The original leaves {} empty and the candidate does not: make sure that no wire is tied there.",
                    pins_text(fact.ties)
                ));
            }
            if says.is_empty() && fact.fused.is_empty() {
                says.push("Every electrode meets its wire.".to_owned());
            }
        }
        if !fact.fused.is_empty() {
            says.push(format!(
                "The candidate joins inside what the original keeps apart (pinout): {}.",
                words(fact.fused)
            ));
        }
        Finding::plain("pinout", outcome, says.join(" "))
    }

    fn heater(fact: &HeaterFact, outcome: Outcome) -> Finding {
        let text = |heater: Option<(f64, f64)>| heater.map_or("not known".to_owned(), |(v, a)| heater_text(v, a));
        let string_a = fact.string.map_or(0.0, |string| string.0);
        let percent = whole(fact.string.map_or(100.0, |string| 100.0 * string.1)) + " %";
        let mut says = match fact.why {
            HeaterWhy::Fits if fact.own.is_none() => "Neither has a heater.".to_owned(),
            HeaterWhy::Fits => "The heater fits.".to_owned(),
            HeaterWhy::Missing => "The book does not know both heaters.".to_owned(),
            HeaterWhy::OtherKind => "One has a heater, the other a filament or none: it cannot be fed the same way.".to_owned(),
            HeaterWhy::Sooner => "The candidate is directly heated: B+ comes up at once and stands at its peak until the other tubes warm.".to_owned(),
            HeaterWhy::Volts => "The heater volts differ.".to_owned(),
            HeaterWhy::Dropped => "Its heater wants less than the winding gives: a resistor in series with it takes the rest.".to_owned(),
            HeaterWhy::MoreAmps => {
                let extra = fact.own.zip(fact.other).map_or(0.0, |(own, other)| other.1 - own.1);
                let (wanted, tail) = (figure(extra), match outcome {
                    Outcome::Ok => "",
                    Outcome::Fails => ", and nothing says that the winding can spare it",
                    _ => ": see that the winding can spare it and stays cool",
                });
                format!("Its heater takes {wanted} A more from the winding{tail}.")
            }
            HeaterWhy::FewerAmps => "Its heater takes less current, which a winding does not mind.".to_owned(),
            HeaterWhy::Shunt => format!("Its heater takes less than the string's {} A: it needs a shunt resistor, or it burns out.", figure(string_a)),
            HeaterWhy::Starves => format!("Its heater needs more than the string's {} A and would stay too cold.", figure(string_a)),
            HeaterWhy::BothWrong => format!("Its heater has other volts and other amperes than the {} A string wants: too much to mend.", figure(string_a)),
            HeaterWhy::StringHigh if fact.dropper_ohm.is_some() => format!("The string then adds up to more than before: with its dropper as it is every heater gets {percent} of its volts."),
            HeaterWhy::StringLow => format!("The string then adds up to less than the line: every heater gets {percent} of its volts."),
            HeaterWhy::StringHigh if outcome == Outcome::Fails => format!("The string then adds up to more than the line: every heater gets {percent} of its volts. Only a set with a dropper to take out could bear it."),
            HeaterWhy::StringHigh => format!("The string then adds up to a little more than the line: every heater gets {percent} of its volts."),
            HeaterWhy::BatteryAmps => "Its filament takes another current: harmless on separate cells, but in a set with its filaments in series it needs a shunt. Find out which.".to_owned(),
        };
        if fact.reconnect {
            says.push_str(" Its heater sections have to be connected another way than the original's.");
        }
        Finding::figures("heater", outcome, text(fact.own), text(fact.other), says)
    }
}
