//! A tube as the book knows it: the bulb with its base and heater, and one unit per electrode system.

use super::pins::{Part, PinMap};

/// Makes an enum whose members are written in the book as plain words.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$member_doc:meta])* $member:ident = $text:literal, $words:literal;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[$member_doc])* $member,)* }
        impl $name {
            /// The words the book writes, in the order of the members.
            pub const WORDS: &'static [&'static str] = &[$($text,)*];
            /// The member of the word at this place.
            pub fn at(at: usize) -> Option<Self> {
                [$(Self::$member,)*].get(at).copied()
            }
            /// Reads the book's word.
            pub fn read(text: &str) -> Option<Self> {
                Self::at(Self::WORDS.iter().position(|word| *word == text)?)
            }
            /// The word the book writes.
            pub fn text(self) -> &'static str {
                match self { $(Self::$member => $text,)* }
            }
            /// In words a person reads.
            pub fn words(self) -> &'static str {
                match self { $(Self::$member => $words,)* }
            }
        }
    };
}

words! {
    /// What a unit does.
    Function {
        /// Voltage-amplifier triode.
        Triode = "triode", "triode";
        /// Output triode.
        PowerTriode = "power_triode", "output triode";
        /// Screen-grid tube.
        Tetrode = "tetrode", "tetrode";
        /// Voltage-amplifier pentode.
        Pentode = "pentode", "pentode";
        /// Output pentode or beam power tube.
        PowerPentode = "power_pentode", "output pentode or beam tube";
        /// Detector or separator with two control grids or a gated beam (6BN6, 6DT6A, 6CS6): no amplifier.
        GatedDetector = "gated_detector", "gated or dual-control detector";
        /// Converter or mixer with one electron stream; hexodes and octodes too.
        Heptode = "heptode", "converter (heptode)";
        /// Signal diode.
        Diode = "diode", "signal diode";
        /// Power rectifier.
        Rectifier = "rectifier", "rectifier";
        /// Damper diode of a television set.
        Damper = "damper", "damper diode";
        /// Tuning eye.
        TuningIndicator = "tuning_indicator", "tuning indicator";
        /// Gas voltage regulator.
        Regulator = "regulator", "voltage regulator";
    }
}

impl Function {
    /// Whether units of this function have such an electrode of their own.
    pub fn has(self, part: Part) -> bool {
        use Function as F;
        match part {
            Part::Cathode | Part::Plate => true,
            Part::Grid1 => !matches!(self, F::Diode | F::Rectifier | F::Damper | F::Regulator),
            // Dual-grid output triodes (46, 49) bring out their second grid.
            Part::Grid2 => matches!(
                self,
                F::GatedDetector | F::PowerTriode | F::Tetrode | F::Pentode | F::PowerPentode | F::Heptode
            ),
            Part::Grid3 => matches!(self, F::GatedDetector | F::Pentode | F::PowerPentode | F::Heptode),
            Part::Grid4 | Part::Grid5 | Part::Grid6 | Part::Grid7 => matches!(self, F::GatedDetector | F::Heptode),
            Part::Beam => matches!(self, F::PowerPentode | F::Pentode),
            Part::Target | Part::RayControl => matches!(self, F::TuningIndicator),
        }
    }
}

words! {
    /// The base, which decides the socket.
    Base {
        /// American four-pin.
        Four = "4-pin", "4-pin";
        /// American five-pin.
        Five = "5-pin", "5-pin";
        /// American six-pin.
        Six = "6-pin", "6-pin";
        /// American seven-pin, small circle.
        SevenSmall = "7-pin-small", "small 7-pin";
        /// American seven-pin, medium circle.
        SevenMedium = "7-pin-medium", "medium 7-pin";
        /// Octal.
        Octal = "octal", "octal";
        /// Lock-in, loctal, B8G.
        Loctal = "loctal", "lock-in (loctal)";
        /// Seven-pin miniature, B7G.
        MiniatureSeven = "miniature-7", "7-pin miniature";
        /// Nine-pin miniature, noval, B9A.
        MiniatureNine = "miniature-9", "9-pin miniature (noval)";
        /// Rimlock, B8A.
        Rimlock = "rimlock", "rimlock (B8A)";
        /// European side-contact, P8A.
        SideContact = "side-contact", "side-contact (P8A)";
        /// European eight-pin of the steel tubes, Y8A.
        SteelEight = "steel-8", "8-pin steel (Y8A)";
        /// Magnoval, B9D.
        Magnoval = "magnoval", "magnoval (B9D)";
        /// Decal, B10B.
        Decal = "decal", "decal (B10B)";
        /// Novar.
        Novar = "novar", "novar";
        /// Compactron, twelve pins.
        Compactron = "compactron", "compactron (12-pin)";
        /// Nine-pin glass base of the EF50, B9G.
        NineGlass = "b9g", "B9G";
        /// Wire ends.
        Wire = "wire", "wire ends";
    }
}

impl Base {
    /// How many pins the base has.
    pub fn pin_count(self) -> u8 {
        match self {
            Self::Four => 4,
            Self::Five => 5,
            Self::Six => 6,
            Self::SevenSmall | Self::SevenMedium | Self::MiniatureSeven => 7,
            Self::Octal | Self::Loctal | Self::Rimlock | Self::SideContact | Self::SteelEight | Self::Wire => 8,
            Self::MiniatureNine | Self::Magnoval | Self::Novar | Self::NineGlass => 9,
            Self::Decal => 10,
            Self::Compactron => 12,
        }
    }

    /// Angle of a pin seen from below, degrees clockwise from the middle of the key or gap, which is drawn straight down.
    ///
    /// Octal and lock-in: eight pins 45 degrees apart, the key between 8 and 1. Miniatures: 7 pins in eighths, 9 pins in
    /// tenths of the circle, the gap between last and first (JEDEC E7-1, E9-1). American 4- to 7-pin bases: equal parts,
    /// the thick pins (first and last) at the bottom. Others: equal parts.
    pub fn angle_deg(self, pin: u8) -> f64 {
        let count = f64::from(self.pin_count());
        let pin = f64::from(pin);
        match self {
            Self::MiniatureSeven | Self::MiniatureNine | Self::Novar | Self::Magnoval | Self::Decal => {
                360.0 / (count + 1.0) * pin
            }
            Self::Compactron => 360.0 / 13.0 * pin,
            _ => 360.0 / count * (pin - 0.5),
        }
    }
}

words! {
    /// The bulb.
    Envelope {
        /// Metal shell.
        Metal = "metal", "metal";
        /// Shouldered glass bulb.
        GlassSt = "glass-st", "large glass (G)";
        /// Tubular glass bulb.
        GlassTubular = "glass-tubular", "tubular glass (GT)";
        /// Miniature glass bulb.
        GlassMiniature = "glass-miniature", "miniature glass";
        /// Lock-in glass bulb with metal skirt.
        LockIn = "lock-in", "lock-in";
        /// Any other glass bulb.
        GlassOther = "glass-other", "glass";
    }
}

words! {
    /// What heats the cathode.
    HeaterKind {
        /// Indirectly heated.
        Heater = "heater", "heater";
        /// Directly heated.
        Filament = "filament", "filament";
        /// Cold cathode.
        Cold = "none", "cold cathode";
    }
}

words! {
    /// How a control grid cuts off.
    CutOff {
        /// Remote: for AGC-controlled stages.
        Remote = "remote", "remote cut-off";
        /// In between.
        SemiRemote = "semi_remote", "semi-remote cut-off";
        /// Sharp.
        Sharp = "sharp", "sharp cut-off";
    }
}

words! {
    /// Controlled (11 s) heater warm-up for television strings.
    WarmUp {
        /// Published with controlled warm-up.
        Controlled = "controlled", "controlled warm-up";
        /// Surely not.
        No = "no", "no controlled warm-up";
    }
}

words! {
    /// How easily a type is found at dealers and meets: a judgement.
    FoundToday {
        /// By the box.
        Common = "common", "common";
        /// With some patience.
        Findable = "findable", "findable";
        /// Hard to get.
        Scarce = "scarce", "scarce";
    }
}

/// Column, words, unit, least and most value of a figure.
pub type Figure = (&'static str, &'static str, &'static str, f64, f64);

/// The figure of a column; `None` for a column of text.
pub fn figure_of(column: &str) -> Option<&'static Figure> {
    BulbFigures::COLUMNS.iter().chain(UnitFigures::COLUMNS).find(|figure| figure.0 == column)
}

/// Makes the struct of a row's numbers, its column list and its reader from one list.
macro_rules! figures {
    ($(#[$doc:meta])* $name:ident { $($(#[$member_doc:meta])* $field:ident, $words:literal, $unit:literal, $least:literal, $most:literal;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Default)]
        pub struct $name { $($(#[$member_doc])* pub $field: Option<f64>,)* }
        impl $name {
            /// Column, words, unit, least and most value of each figure.
            pub const COLUMNS: &'static [Figure] = &[$((stringify!($field), $words, $unit, $least, $most),)*];
            /// The figures in column order, to be filled in.
            pub fn slots(&mut self) -> [&mut Option<f64>; Self::COLUMNS.len()] { [$(&mut self.$field,)*] }
            /// The figures in column order.
            pub fn values(&self) -> [Option<f64>; Self::COLUMNS.len()] { [$(self.$field,)*] }
        }
    };
}

figures! {
    /// Figures of the bulb.
    BulbFigures {
        /// Across the whole heater or filament, volts.
        heater_v, "heater", "V", 0.1, 150.0;
        /// Through the whole heater or filament, amperes.
        heater_a, "heater", "A", 0.005, 30.0;
        /// The other connection of a tapped heater, volts.
        heater_parallel_v, "heater, halves in parallel", "V", 0.1, 150.0;
        /// The other connection of a tapped heater, amperes.
        heater_parallel_a, "heater, halves in parallel", "A", 0.005, 30.0;
        /// Volts of the dial-lamp section of a rectifier heater.
        lamp_tap_v, "dial-lamp section of the heater", "V", 0.5, 50.0;
        /// Most volts between heater and cathode, heater negative, peak.
        heater_cathode_max_v, "most heater-cathode volts", "V", 10.0, 7000.0;
    }
}

figures! {
    /// Figures of a unit.
    UnitFigures {
        /// Most DC plate volts.
        plate_max_v, "most plate volts", "V", 1.0, 10000.0;
        /// Most DC screen volts.
        screen_max_v, "most screen volts", "V", 1.0, 10000.0;
        /// Most plate dissipation, watts.
        plate_max_w, "most plate dissipation", "W", 0.01, 2000.0;
        /// Most screen dissipation, watts.
        screen_max_w, "most screen dissipation", "W", 0.001, 200.0;
        /// Most DC cathode current, milliamps.
        cathode_max_ma, "most cathode current", "mA", 0.1, 5000.0;
        /// Peak inverse volts of a rectifier plate.
        peak_inverse_max_v, "peak inverse volts", "V", 10.0, 50000.0;
        /// Most peak plate current of a rectifier, milliamps.
        plate_peak_max_ma, "most peak plate current", "mA", 0.1, 50000.0;
        /// DC output of a rectifier, the whole tube, milliamps.
        dc_out_max_ma, "most DC output", "mA", 0.1, 5000.0;
        /// Largest first filter capacitor, microfarads.
        first_filter_max_uf, "largest first filter", "uF", 0.1, 1000.0;
        /// Least supply impedance per plate, ohms.
        supply_min_ohm, "least supply impedance per plate", "ohm", 0.0, 5000.0;
        /// Tube drop of a rectifier plate at `drop_ma`, volts.
        drop_v, "tube drop", "V", 0.1, 500.0;
        /// Current of `drop_v`, milliamps.
        drop_ma, "tube drop taken at", "mA", 0.1, 5000.0;
        /// Typical point: plate volts.
        typ_plate_v, "typical plate volts", "V", 0.5, 10000.0;
        /// Typical point: screen volts.
        typ_screen_v, "typical screen volts", "V", 0.5, 10000.0;
        /// Typical point: grid volts, negative.
        typ_grid_v, "typical grid volts", "V", -1000.0, 100.0;
        /// Typical point: plate current, milliamps.
        typ_plate_ma, "typical plate current", "mA", 0.001, 5000.0;
        /// Typical point: screen current, milliamps.
        typ_screen_ma, "typical screen current", "mA", 0.001, 1000.0;
        /// Transconductance (of a converter: conversion transconductance), mS.
        gm_ms, "transconductance", "mS", 0.001, 200.0;
        /// Amplification factor.
        mu, "amplification factor", "", 0.1, 10000.0;
        /// Plate resistance, kilohms.
        rp_kohm, "plate resistance", "kohm", 0.01, 50000.0;
        /// Load for the typical output, kilohms.
        load_kohm, "load", "kohm", 0.01, 10000.0;
        /// Typical output, watts.
        output_w, "output", "W", 0.001, 5000.0;
        /// Input capacitance, picofarads.
        input_pf, "input capacitance", "pF", 0.01, 200.0;
        /// Output capacitance, picofarads.
        output_pf, "output capacitance", "pF", 0.01, 200.0;
        /// Grid to plate, picofarads.
        grid_plate_pf, "grid-plate capacitance", "pF", 0.00001, 50.0;
    }
}

/// One electrode system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// What it does.
    pub function: Function,
    /// How its grid cuts off.
    pub cut_off: Option<CutOff>,
    /// Its numbers.
    pub figures: UnitFigures,
}

/// A type.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube {
    /// The designation as the book writes it.
    pub name: String,
    /// Its base.
    pub base: Option<Base>,
    /// EIA base designation.
    pub basing: Option<String>,
    /// Its pin map; `None` when nobody is sure.
    pub pins: Option<PinMap>,
    /// Its bulb.
    pub envelope: Option<Envelope>,
    /// Heater, filament or cold.
    pub heater_kind: Option<HeaterKind>,
    /// Numbers of the bulb.
    pub figures: BulbFigures,
    /// Controlled warm-up.
    pub warm_up: Option<WarmUp>,
    /// How easily found.
    pub found_today: Option<FoundToday>,
    /// Where the row comes from.
    pub source: String,
    /// Columns on which two recollections differed.
    pub unsure: Vec<String>,
    /// A remark.
    pub note: Option<String>,
    /// Its units, one to four.
    pub units: Vec<Unit>,
}

impl Tube {
    /// The functions of its units, in order.
    pub fn functions(&self) -> Vec<Function> {
        self.units.iter().map(|unit| unit.function).collect()
    }

    /// The first unit of a function.
    pub fn unit_of(&self, function: Function) -> Option<&Unit> {
        self.units.iter().find(|unit| unit.function == function)
    }
}
