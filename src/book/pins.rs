//! Which electrode comes out on which pin, as a set of bits per pin, so that two tubes can be compared pin by pin at speed.
//!
//! A pin map is written as `1=shell 2=h 3=p 4=g2 5=g1 6=- 7=h 8=k+g3 cap=g1`: pins are counted from below, `-` is a pin
//! with nothing on it (or no pin at all), `ic` an internal connection that must not be used, `?` a pin nobody is sure of (nothing,
//! a shell or an internal connection), `+` joins electrodes inside the bulb, `@2` says to which unit an electrode belongs. Without
//! `@` it belongs to every unit that has such an electrode and whose own is not named elsewhere.

use super::tube::Function;

/// The most pins a base has (compactron), not counting the cap.
pub const MOST_PINS: usize = 12;
/// The most units (electrode systems) in one bulb.
pub const MOST_UNITS: usize = 4;

const SHARED_BITS: u32 = 16;
const UNIT_BITS: u32 = 12;

/// Electrodes that belong to the bulb as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Shared {
    /// A heater end.
    Heater = 0,
    /// Centre or section tap of a heater.
    HeaterTap = 1,
    /// Dial-lamp tap of a rectifier's heater.
    LampTap = 2,
    /// A filament end.
    Filament = 3,
    /// Negative filament end of a battery tube.
    FilamentNegative = 4,
    /// Positive filament end of a battery tube.
    FilamentPositive = 5,
    /// Mid-point of a battery tube's filament.
    FilamentTap = 6,
    /// Internal connection.
    Internal = 7,
    /// Metal shell or base sleeve.
    Shell = 8,
    /// Internal shield.
    Shield = 9,
    /// Nobody is sure: nothing, a shell or an internal connection.
    Unsure = 10,
}

/// Electrodes of a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Part {
    /// Cathode.
    Cathode = 0,
    /// Grids one to seven, counted from the cathode.
    Grid1 = 1,
    /// Second grid.
    Grid2 = 2,
    /// Third grid.
    Grid3 = 3,
    /// Fourth grid.
    Grid4 = 4,
    /// Fifth grid.
    Grid5 = 5,
    /// Sixth grid.
    Grid6 = 6,
    /// Seventh grid.
    Grid7 = 7,
    /// Plate, of a diode too.
    Plate = 8,
    /// Beam plates.
    Beam = 9,
    /// Fluorescent target.
    Target = 10,
    /// Ray-control electrode.
    RayControl = 11,
}

const SHARED: [(Shared, &str, &str); 11] = [
    (Shared::Heater, "h", "heater"),
    (Shared::HeaterTap, "hm", "heater tap"),
    (Shared::LampTap, "hl", "dial-lamp tap of the heater"),
    (Shared::Filament, "f", "filament"),
    (Shared::FilamentNegative, "f-", "filament, negative"),
    (Shared::FilamentPositive, "f+", "filament, positive"),
    (Shared::FilamentTap, "fm", "filament mid-point"),
    (Shared::Internal, "ic", "internal connection, leave free"),
    (Shared::Shell, "shell", "shell"),
    (Shared::Shield, "s", "internal shield"),
    (Shared::Unsure, "?", "not sure: nothing, a shell or an internal connection"),
];

const PARTS: [(Part, &str, &str); 12] = [
    (Part::Cathode, "k", "cathode"),
    (Part::Grid1, "g1", "control grid"),
    (Part::Grid2, "g2", "grid 2 (screen)"),
    (Part::Grid3, "g3", "grid 3"),
    (Part::Grid4, "g4", "grid 4"),
    (Part::Grid5, "g5", "grid 5"),
    (Part::Grid6, "g6", "grid 6"),
    (Part::Grid7, "g7", "grid 7"),
    (Part::Plate, "p", "plate"),
    (Part::Beam, "bp", "beam plates"),
    (Part::Target, "t", "target"),
    (Part::RayControl, "rc", "ray-control electrode"),
];

/// A set of electrodes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub struct Electrodes(pub u64);

impl Electrodes {
    /// None at all.
    pub const NONE: Self = Self(0);

    /// The bit of a shared electrode.
    pub const fn shared(electrode: Shared) -> Self {
        Self(1 << electrode as u32)
    }

    /// The bit of a unit's electrode; units count from 0.
    pub const fn part(unit: usize, part: Part) -> Self {
        Self(1 << (SHARED_BITS + unit as u32 * UNIT_BITS + part as u32))
    }

    /// All bits of one unit.
    pub const fn unit(unit: usize) -> Self {
        Self(((1 << UNIT_BITS) - 1) << (SHARED_BITS + unit as u32 * UNIT_BITS))
    }

    /// Both together.
    #[must_use]
    pub const fn with(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// What both have.
    #[must_use]
    pub const fn common(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// What this has and the other has not.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Whether there is none.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether they share one at least.
    pub const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// The same electrodes with the units renumbered: unit `u` becomes `order[u]`.
    #[must_use]
    pub fn renumbered(self, order: &[u8; MOST_UNITS]) -> Self {
        let mut bits = self.0 & ((1 << SHARED_BITS) - 1);
        for (unit, &to) in order.iter().enumerate() {
            let own = (self.0 >> (SHARED_BITS + unit as u32 * UNIT_BITS)) & ((1 << UNIT_BITS) - 1);
            bits |= own << (SHARED_BITS + u32::from(to) * UNIT_BITS);
        }
        Self(bits)
    }

    /// Each electrode on its own.
    pub fn each(self) -> impl Iterator<Item = Self> {
        let mut rest = self.0;
        std::iter::from_fn(move || {
            let bit = rest & rest.wrapping_neg();
            rest &= !bit;
            (bit != 0).then_some(Self(bit))
        })
    }

    /// The unit an electrode belongs to, counted from 0; `None` for a shared one.
    fn owner(self) -> Option<usize> {
        (0..MOST_UNITS).find(|&unit| self.meets(Self::unit(unit)))
    }

    /// Names the electrodes: `short` as in the book, else in words. Units are named when the tube has several of a kind.
    fn name(self, functions: &[Function], short: bool) -> String {
        let mut names: Vec<String> = Vec::new();
        for (electrode, text, words) in SHARED {
            if self.meets(Self::shared(electrode)) {
                names.push(if short { text } else { words }.to_owned());
            }
        }
        for (part, text, words) in PARTS {
            let owners: Vec<usize> = (0..MOST_UNITS).filter(|&unit| self.meets(Self::part(unit, part))).collect();
            if owners.is_empty() {
                continue;
            }
            let having = functions.iter().filter(|function| function.has(part)).count();
            let all = owners.len() >= having;
            let function = owners.first().and_then(|&unit| functions.get(unit)).copied();
            let text = match (part, function) {
                (Part::Plate, Some(Function::Diode)) => "d",
                (Part::Grid1, Some(Function::Triode | Function::PowerTriode | Function::TuningIndicator)) => "g",
                _ => text,
            };
            let words = match (part, function) {
                (Part::Plate, Some(Function::Diode)) => "diode plate",
                (Part::Grid1, Some(Function::Triode | Function::PowerTriode | Function::TuningIndicator)) => "grid",
                (Part::Grid2, Some(Function::Tetrode | Function::Pentode | Function::PowerPentode)) => "screen grid",
                (Part::Grid3, Some(Function::Pentode | Function::PowerPentode)) => "suppressor grid",
                _ => words,
            };
            // A part that every unit has is shared or the only one; else the unit is said.
            if all {
                names.push(if short { text } else { words }.to_owned());
            } else {
                for unit in owners {
                    names.push(if short {
                        format!("{text} ({})", unit + 1)
                    } else {
                        let function = functions.get(unit).map_or("unit", |function| function.words());
                        format!("{words} of unit {} ({function})", unit + 1)
                    });
                }
            }
        }
        if names.is_empty() {
            if short { "-" } else { "no connection" }.to_owned()
        } else {
            names.join(if short { "+" } else { " and " })
        }
    }

    /// Short label for a drawing: "k+g3", "p (2)", "-".
    pub fn label(self, functions: &[Function]) -> String {
        self.name(functions, true)
    }

    /// In words: "cathode and suppressor grid".
    pub fn words(self, functions: &[Function]) -> String {
        self.name(functions, false)
    }

    /// All heater and filament ends and taps.
    pub const HEATER: Self = Self(0b111_1111);
    /// Internal connection, or a pin nobody is sure of.
    pub const INTERNAL: Self = Self::shared(Shared::Internal).with(Self::shared(Shared::Unsure));
    /// Shell and internal shield.
    pub const SHIELDING: Self = Self::shared(Shared::Shell).with(Self::shared(Shared::Shield));
}

/// Every pin of a tube with what is on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PinMap {
    /// How many pins the base has.
    pub count: u8,
    /// Index 0 is the top cap, 1 to `count` the pins.
    pub pins: [Electrodes; MOST_PINS + 1],
    /// Whether the tube has a top cap.
    pub cap: bool,
}

impl PinMap {
    /// Reads a pin map for a base with `count` pins and units of these functions. The error says what is accepted.
    pub fn read(text: &str, count: u8, functions: &[Function]) -> Result<Self, String> {
        let mut map = Self { count, pins: [Electrodes::NONE; MOST_PINS + 1], cap: false };
        let mut seen = [false; MOST_PINS + 1];
        let named = named_units(text);
        for word in text.split_ascii_whitespace() {
            let (pin, electrodes) = word.split_once('=').ok_or_else(|| format!("pin=electrode, found `{word}`"))?;
            let at = if pin == "cap" {
                map.cap = true;
                0
            } else {
                let number: usize = pin.parse().map_err(|_| format!("a pin number or `cap`, found `{pin}`"))?;
                if number == 0 || number > usize::from(count) {
                    return Err(format!("pins 1 to {count} of this base, found pin {number}"));
                }
                number
            };
            if seen[at] {
                return Err(format!("each pin once, found `{pin}` twice"));
            }
            seen[at] = true;
            map.pins[at] = electrodes_of(electrodes, functions, &named)?;
        }
        if let Some(missing) = (1..=usize::from(count)).find(|&pin| !seen[pin]) {
            return Err(format!(
                "all {count} pins of this base, pin {missing} is missing (`{missing}=-` if it is not there)"
            ));
        }
        Ok(map)
    }

    /// The pins (0 = cap) on which any of these electrodes comes out.
    pub fn places(&self, electrodes: Electrodes) -> impl Iterator<Item = usize> + '_ {
        self.pins.iter().enumerate().filter(move |(_, on)| on.meets(electrodes)).map(|(pin, _)| pin)
    }

    /// What comes out at all.
    pub fn all(&self) -> Electrodes {
        self.pins.iter().fold(Electrodes::NONE, |all, &on| all.with(on))
    }

    /// The same map with the units renumbered: unit `u` becomes `order[u]`.
    #[must_use]
    pub fn renumbered(&self, order: &[u8; MOST_UNITS]) -> Self {
        let mut map = *self;
        for on in &mut map.pins {
            *on = on.renumbered(order);
        }
        map
    }
}

/// Electrodes written with a unit of their own: `k@2` anywhere says that a plain `k` is not unit 2's.
fn named_units(text: &str) -> Vec<(&str, usize)> {
    // Most tubes have a single unit.
    if !text.contains('@') {
        return Vec::new();
    }
    text.split(|c: char| c.is_ascii_whitespace() || c == '+' || c == '=')
        .filter_map(|word| {
            let (name, unit) = word.split_once('@')?;
            Some((usual(name), unit.parse::<usize>().ok()?.checked_sub(1)?))
        })
        .collect()
}

/// The book's word for an electrode: `g` is a first grid, and an anode (`a` on British and European drawings) is a plate.
fn usual(name: &str) -> &str {
    match name {
        "g" => "g1",
        "a" => "p",
        _ => name,
    }
}

fn electrodes_of(text: &str, functions: &[Function], named: &[(&str, usize)]) -> Result<Electrodes, String> {
    if text == "-" {
        return Ok(Electrodes::NONE);
    }
    let mut all = Electrodes::NONE;
    let mut rest = Some(text);
    while let Some(text) = rest {
        // The sign that joins electrodes also marks the positive end of a filament.
        let own = if text.starts_with("f+") { 2 } else { 0 };
        let joint = text.bytes().skip(own).position(|sign| sign == b'+').map(|at| at + own);
        let (word, more) = text.split_at(joint.unwrap_or(text.len()));
        rest = more.strip_prefix('+');
        let (name, unit) = match word.split_once('@') {
            Some((name, unit)) => {
                let number: usize = unit.parse().map_err(|_| format!("a unit number after @, found `{word}`"))?;
                if number == 0 || number > functions.len() {
                    return Err(format!("units 1 to {} of this tube, found `{word}`", functions.len()));
                }
                (name, Some(number - 1))
            }
            None => (word, None),
        };
        let name = usual(name);
        if let Some((shared, ..)) = SHARED.iter().find(|(_, text, _)| *text == name) {
            all = all.with(Electrodes::shared(*shared));
            continue;
        }
        let diode = name == "d";
        let part =
            if diode { Some(Part::Plate) } else { PARTS.iter().find(|(_, text, _)| *text == name).map(|row| row.0) };
        let Some(part) = part else {
            return Err(format!(
                "electrode words (h hm hl f f- f+ fm k g1..g7 p or a, d bp s shell t rc ic ? -), found `{name}`"
            ));
        };
        let mut found = false;
        for (at, function) in functions.iter().enumerate().take(MOST_UNITS) {
            let own = || if part == Part::Plate { diode == (*function == Function::Diode) } else { function.has(part) };
            if unit.map_or_else(|| own() && !named.contains(&(name, at)), |unit| unit == at) {
                all = all.with(Electrodes::part(at, part));
                found = true;
            }
        }
        if !found {
            return Err(format!("an electrode that one of the units has, found `{name}`"));
        }
    }
    Ok(all)
}

/// For a single electrode: the unit it belongs to, counted from 0.
pub fn owner(electrode: Electrodes) -> Option<usize> {
    electrode.owner()
}
