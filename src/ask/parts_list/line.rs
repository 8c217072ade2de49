//! One line of a parts list: its reference, what the part is, what it does, and the marking that is left.

use crate::ask::{CapacitorKind, CapacitorRole, ResistorRole};
use crate::passive::{CapacitorHint, Colour, Family, read_capacitor, read_colours, read_resistor};
use crate::quantity::{CapacitanceUnit, decimal, ohm, plain, plain_figure, read_ohm};

/// A line taken apart.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::ask) struct Line {
    pub reference: String,
    pub count: usize,
    pub part: Part,
    /// Words that were not used.
    pub unused: Vec<String>,
}

/// What a line is about.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::ask) enum Part {
    Capacitor {
        marking: String,
        kind: Option<CapacitorKind>,
        role: Option<CapacitorRole>,
    },
    Resistor {
        marking: String,
        role: Option<ResistorRole>,
        measured_ohm: Option<f64>,
        circuit_v: Option<f64>,
    },
    /// Something that only the user can tell, said in a sentence.
    Doubtful(String),
    /// Another part of the set.
    Other,
    Unreadable,
}

/// Words for parts that can be set.
const ADJUSTABLE: &[&str] = &["pot", "potentiometer", "control", "trimmer", "variable", "gang", "tuning", "rheostat"];

/// Words for other parts, where no reference says that it is a capacitor or a resistor beside one.
const OTHERS: &[&str] = &[
    "coil",
    "choke",
    "transformer",
    "speaker",
    "lamp",
    "fuse",
    "tube",
    "valve",
    "switch",
    "socket",
    "plug",
    "knob",
    "crystal",
];

/// Words that say nothing about the part.
const FILLERS: &[&str] = &[
    "the", "a", "an", "of", "for", "at", "to", "in", "on", "old", "orig", "original", "marked", "value", "type",
    "fixed", "no", "and", "with",
];

/// What is known of the place of a part beside its line.
#[derive(Debug, Clone, Copy, Default)]
pub(in crate::ask) struct Told {
    pub capacitor: Option<CapacitorRole>,
    pub resistor: Option<ResistorRole>,
}

impl Told {
    /// What letter its reference would begin with, when only one kind of part does that.
    fn letter(self) -> Option<u8> {
        match (self.capacitor, self.resistor) {
            (Some(_), None) => Some(b'C'),
            (None, Some(_)) => Some(b'R'),
            _ => None,
        }
    }
}

impl Line {
    /// Takes a line apart; `number` is its place, for lists that are numbered.
    pub fn read(text: &str, number: usize) -> Self {
        Self::read_with(text, number, Told::default())
    }

    /// The same for a part of which it is known what it does.
    pub fn read_with(text: &str, number: usize, told: Told) -> Self {
        let text = plain(text);
        let mut words: Vec<&str> = text.split_whitespace().collect();
        let mut line = Self { reference: String::new(), count: 1, part: Part::Unreadable, unused: Vec::new() };
        if let [first, _, ..] = words.as_slice()
            && (*first == format!("{number}.") || *first == format!("{number})"))
        {
            words.remove(0);
        }
        if let [first, _, ..] = words.as_slice()
            && let Some(reference) = reference(first)
        {
            line.reference = reference;
            words.remove(0);
        }
        line.take_count(&mut words);
        let measured = take_measured(&mut words);
        let letter = told.letter().or_else(|| line.reference.bytes().next());
        let has = |all: &[&str]| words.iter().any(|word| all.contains(&bare(word)));
        let named = letter.map(|letter| matches!(letter, b'C' | b'R'));
        if has(ADJUSTABLE)
            || named == Some(false)
            || named.is_none() && has(OTHERS) && !words.iter().any(|word| has_farads(word))
        {
            line.part = Part::Other;
            return line;
        }
        let resistor = letter == Some(b'R') || has(&["resistor", "res", "ohm", "ohms", "meg", "megs", "watt", "watts"]);
        let capacitor = letter == Some(b'C')
            || has(&["capacitor", "condenser", "cond", "cap", "mica", "electrolytic", "paper", "ceramic"])
            || words.iter().any(|word| has_farads(word));
        let colours: Vec<Colour> = words.iter().filter_map(|word| Colour::read(bare(word))).collect();
        if colours.len() >= 3 && colours.len() + 1 >= words.len() {
            line.part = if resistor { of_bands(&colours, measured, told.resistor) } else { which_code(&colours) };
            return line;
        }
        let mut roles = roles(&words);
        if told.capacitor.is_some() {
            roles.capacitor = Ok(told.capacitor);
        }
        roles.resistor = told.resistor.or(roles.resistor);
        let kind = kind(&words);
        let circuit_v = if resistor && !capacitor { take_volts(&mut words) } else { None };
        // What says where the part sits is not part of its marking.
        words.retain(|word| !FILLERS.contains(&bare(word)) && !PLACES.iter().any(|place| place.contains(&bare(word))));
        let as_capacitor = || marking(&words, &|text| read_capacitor(text, CapacitorHint::default()).is_ok());
        let as_resistor = || marking(&words, &|text| read_resistor(text, None, None).is_ok());
        let read = match (capacitor, resistor) {
            (true, false) => (as_capacitor(), None),
            (false, true) => (None, as_resistor()),
            _ => (as_capacitor(), as_resistor()),
        };
        line.part = match read {
            (Some(_), Some(_)) => {
                Part::Doubtful("It can be a capacitor or a resistor: begin the line with C or R.".to_owned())
            }
            (Some((marking, unused)), None) => {
                line.unused = unused;
                match roles.capacitor {
                    Err(why) => Part::Doubtful(why.to_owned()),
                    Ok(role) => Part::Capacitor { marking, kind, role },
                }
            }
            (None, Some((marking, unused))) => {
                line.unused = unused;
                Part::Resistor { marking, role: roles.resistor, measured_ohm: measured, circuit_v }
            }
            // The error of the reader says more than that nothing was read.
            (None, None) if capacitor && !resistor => {
                Part::Capacitor { marking: words.join(" "), kind, role: roles.capacitor.ok().flatten() }
            }
            // Sections of one body are read further on.
            (None, None) if resistor && !capacitor => {
                Part::Resistor { marking: words.join(" "), role: roles.resistor, measured_ohm: measured, circuit_v }
            }
            (None, None) => Part::Unreadable,
        };
        line
    }

    /// "qty 3", "3 pcs", "3 off".
    fn take_count(&mut self, words: &mut Vec<&str>) {
        let whole = |word: &str| word.parse::<usize>().ok().filter(|count| (1..=99).contains(count));
        let found = words.windows(2).enumerate().find_map(|(at, pair)| match pair {
            [first, second] if matches!(*first, "qty" | "qty:" | "quantity") => Some((at, whole(second)?)),
            [first, second] if matches!(bare(second), "pcs" | "pc" | "off" | "pieces") => Some((at, whole(first)?)),
            _ => None,
        });
        if let Some((at, count)) = found {
            self.count = count;
            words.drain(at..at + 2);
        }
    }
}

/// The word without what punctuates it.
pub(in crate::ask) fn bare(word: &str) -> &str {
    word.trim_matches(|c: char| matches!(c, ',' | ';' | ':' | '(' | ')' | '.' | '"' | '\''))
}

/// `c12`, `r3a:`, `c-4`, in capitals; `None` for any other word.
pub(in crate::ask) fn reference(word: &str) -> Option<String> {
    let word = bare(word);
    let letters = word.find(|c: char| !c.is_ascii_alphabetic())?;
    let (name, rest) = word.split_at_checked(letters)?;
    let rest = rest.strip_prefix('-').unwrap_or(rest);
    let figures = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let known =
        matches!(name, "c" | "r" | "v" | "l" | "t" | "vr" | "rv" | "vc" | "ct" | "s" | "p" | "sp" | "vt" | "ch");
    let tail = rest.get(figures..)?;
    let plain = tail.is_empty() || tail.len() == 1 && tail.bytes().all(|byte| byte.is_ascii_lowercase());
    // "R47K" and "c10p" would be values.
    let value = matches!(tail, "k" | "m" | "p" | "n" | "u" | "r");
    (known && (1..=3).contains(&figures) && plain && !value).then(|| word.to_ascii_uppercase())
}

/// Takes the meter reading off the end of a line: "measures 610k".
fn take_measured(words: &mut Vec<&str>) -> Option<f64> {
    let at = words
        .iter()
        .position(|word| matches!(bare(word), "measures" | "measured" | "meas" | "reads" | "reading" | "now"))?;
    let measured = words.get(at + 1..).and_then(|rest| read_ohm(&rest.join(" ")))?;
    words.truncate(at);
    Some(measured)
}

/// Takes the volts across a resistor: "at 300V".
fn take_volts(words: &mut Vec<&str>) -> Option<f64> {
    let volts = |word: &str| decimal(bare(word).strip_suffix('v')?).filter(|volts| *volts > 0.0);
    let at = words.iter().position(|word| volts(word).is_some())?;
    volts(words.remove(at))
}

/// Whether a word has a unit of capacitance that no resistor has.
pub(in crate::ask) fn has_farads(word: &str) -> bool {
    let unit = bare(word).trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '/'));
    unit.len() > 1 && CapacitanceUnit::read(unit).is_some()
}

/// The longest marking that can be read when words without figures are left out one after the other, and those words.
fn marking(words: &[&str], reads: &dyn Fn(&str) -> bool) -> Option<(String, Vec<String>)> {
    let mut kept: Vec<&str> = words.to_vec();
    let mut unused = Vec::new();
    loop {
        let text = kept.join(" ");
        if reads(&text) {
            return Some((text, unused));
        }
        // A word that has a figure may be the value or its volts: it is never passed over.
        let at = kept.iter().rposition(|word| {
            !word.bytes().any(|byte| byte.is_ascii_digit())
                && CapacitanceUnit::read(bare(word)).is_none()
                && !matches!(
                    bare(word),
                    "v" | "volt" | "volts" | "w" | "watt" | "watts" | "ohm" | "ohms" | "meg" | "k" | "m" | "%"
                )
        })?;
        unused.insert(0, kept.remove(at).to_owned());
    }
}

/// What it is made of, by a word.
fn kind(words: &[&str]) -> Option<CapacitorKind> {
    [
        ("mica", CapacitorKind::Mica),
        ("electrolytic", CapacitorKind::Electrolytic),
        ("ceramic", CapacitorKind::Ceramic),
        ("paper", CapacitorKind::Paper),
        ("film", CapacitorKind::Film),
    ]
    .into_iter()
    .find_map(|(word, kind)| words.iter().any(|one| bare(one) == word).then_some(kind))
}

/// Words that say where a part sits.
pub(in crate::ask) const PLACES: [&[&str]; 2] = [
    &[
        "coupling",
        "bypass",
        "by-pass",
        "decoupling",
        "cathode",
        "screen",
        "plate",
        "anode",
        "grid",
        "avc",
        "agc",
        "tone",
        "padder",
        "padding",
        "osc",
        "oscillator",
        "if",
        "trap",
        "filter",
        "reservoir",
        "smoothing",
        "line",
        "mains",
        "hot",
        "live",
        "neutral",
        "antenna",
        "aerial",
        "ground",
        "earth",
        "chassis",
        "buffer",
        "load",
        "leak",
        "bias",
        "dropper",
        "dropping",
    ],
    &[
        "ac",
        "across",
        "first",
        "1st",
        "input",
        "second",
        "2nd",
        "output",
        "b-",
        "ht-",
        "h.t.-",
        "ht",
        "h.t",
        "negative",
        "bus",
        "isolation",
        "surge",
        "cord",
        "flex",
        "from",
        "detector",
    ],
];

/// The place in the set, for either part.
struct Roles {
    capacitor: Result<Option<CapacitorRole>, &'static str>,
    resistor: Option<ResistorRole>,
}

fn roles(words: &[&str]) -> Roles {
    let any = |all: &[&str]| words.iter().any(|one| all.contains(&bare(one)));
    let has = |word: &str| any(&[word]);
    let line = any(&["line", "mains", "live", "neutral", "ac", "primary", "hot", "plug", "cord", "flex", "a.c"]);
    let negative = any(&["b-", "bus", "ht-", "h.t.-", "negative"]);
    let capacitor = if line && has("across") {
        Ok(Some(CapacitorRole::AcrossLine))
    } else if line && has("chassis") {
        Ok(Some(CapacitorRole::LineToChassis))
    } else if line {
        Err(
            "It sits at the power line, or may: say \"across line\", \"line to chassis\" or \"isolation\". There it needs a \
             safety class.",
        )
    } else if negative && has("chassis") {
        Ok(Some(CapacitorRole::BusToChassis))
    } else {
        let role = [
            (any(&["isolation"]), CapacitorRole::AerialIsolation),
            (has("buffer"), CapacitorRole::Buffer),
            (has("coupling"), CapacitorRole::Coupling),
            (has("cathode"), CapacitorRole::CathodeBypass),
            (any(&["avc", "agc"]), CapacitorRole::Agc),
            (any(&["tone", "plate", "anode"]), CapacitorRole::Tone),
            (any(&["bypass", "by-pass", "decoupling", "screen"]), CapacitorRole::Bypass),
            (any(&["padder", "padding", "osc", "oscillator", "if", "trap"]), CapacitorRole::Tuned),
            (any(&["filter", "smoothing"]) && any(&["second", "2nd", "output"]), CapacitorRole::SecondFilter),
            // Of the two the one that asks for more.
            (any(&["filter", "reservoir", "smoothing"]), CapacitorRole::FirstFilter),
        ]
        .into_iter()
        .find_map(|(said, role)| said.then_some(role));
        // The terminals of an AC/DC set are metal that is touched, and its circuit is at the line.
        if role.is_none() && any(&["antenna", "aerial", "ant", "ground", "gnd", "earth", "chassis", "switch", "power"])
        {
            Err(
                "It may part the power line from metal that is touched: say \"isolation\", \"line to chassis\", or what else it \
                 does.",
            )
        } else {
            Ok(role)
        }
    };
    let resistor = [
        (line || any(&["dropper", "cord"]), ResistorRole::HeaterDropper),
        (negative && has("chassis"), ResistorRole::BusToChassis),
        (has("surge"), ResistorRole::Surge),
        (any(&["cathode", "bias"]), ResistorRole::Cathode),
        (has("screen"), ResistorRole::ScreenFeed),
        (any(&["plate", "anode", "load"]), ResistorRole::PlateLoad),
        (any(&["grid", "leak", "avc", "agc"]), ResistorRole::GridLeak),
        (any(&["filter", "smoothing", "dropping"]), ResistorRole::Filter),
    ]
    .into_iter()
    .find_map(|(said, role)| said.then_some(role));
    Roles { capacitor, resistor }
}

/// A resistor given by its bands.
fn of_bands(colours: &[Colour], measured_ohm: Option<f64>, role: Option<ResistorRole>) -> Part {
    let all = read_colours(Family::ResistorBands, colours, measured_ohm);
    match all.readings.first() {
        Some(first) if all.likely == 1 && first.usual && first.agrees => {
            let tolerance = first
                .tolerance
                .map(|percent| format!(", {} %", plain_figure(percent.above_percent)))
                .unwrap_or_default();
            Part::Resistor { marking: format!("{}{tolerance}", ohm(first.value)), role, measured_ohm, circuit_v: None }
        }
        _ => Part::Doubtful("Its bands have no reading, or more than one: look at them by themselves.".to_owned()),
    }
}

fn which_code(colours: &[Colour]) -> Part {
    let said: Vec<&str> = colours.iter().map(|colour| colour.name()).collect();
    Part::Doubtful(format!("Say which code {} is, as colours by themselves.", said.join(" ")))
}
