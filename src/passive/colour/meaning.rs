//! What a colour means in a field.

use super::Family;
use crate::passive::Tolerance;

/// A colour of a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Colour {
    /// 0.
    Black,
    /// 1.
    Brown,
    /// 2.
    Red,
    /// 3.
    Orange,
    /// 4.
    Yellow,
    /// 5.
    Green,
    /// 6.
    Blue,
    /// 7.
    Violet,
    /// 8.
    Grey,
    /// 9.
    White,
    /// No figure.
    Gold,
    /// No figure.
    Silver,
    /// No figure.
    Pink,
    /// A mark that is not there or cannot be made out.
    None,
}

impl Colour {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::Black,
        Self::Brown,
        Self::Red,
        Self::Orange,
        Self::Yellow,
        Self::Green,
        Self::Blue,
        Self::Violet,
        Self::Grey,
        Self::White,
        Self::Gold,
        Self::Silver,
        Self::Pink,
        Self::None,
    ];

    /// Their names, in the same order.
    pub const WORDS: [&'static str; 14] = [
        "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "gold", "silver",
        "pink", "none",
    ];

    /// "red".
    pub fn name(self) -> &'static str {
        Self::WORDS.get(self as usize).copied().unwrap_or("none")
    }

    /// The colour of a word, with the words in use beside these; `None` for any other text.
    pub fn read(word: &str) -> Option<Self> {
        let word = word.trim().to_ascii_lowercase();
        let word = match word.as_str() {
            "gray" | "slate" => "grey",
            "purple" | "lilac" => "violet",
            "tan" => "brown",
            "-" | "?" | "" | "no" => "none",
            other => other,
        };
        Self::ALL.into_iter().find(|colour| colour.name() == word)
    }

    /// Colours that this one may have been before it faded.
    pub fn fades_into(self) -> &'static [Self] {
        match self {
            Self::Brown => &[Self::Red, Self::Orange],
            Self::Red => &[Self::Orange, Self::Brown],
            Self::Orange => &[Self::Red, Self::Brown],
            Self::Violet => &[Self::Blue, Self::Grey],
            Self::Grey => &[Self::Violet, Self::Blue],
            Self::Blue => &[Self::Violet, Self::Grey],
            _ => &[],
        }
    }
}

/// What a type dot says the part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mould {
    /// Black: mica to the joint Army and Navy standard.
    Jan,
    /// White: mica to EIA.
    Eia,
    /// Silver: paper.
    Paper,
}

/// What a mark says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// A figure of the value.
    Figure,
    /// How often to multiply by ten.
    Multiplier,
    /// Tolerance.
    Tolerance,
    /// Volts, in hundreds.
    Volts,
    /// A second figure of the volts.
    MoreVolts,
    /// What the part is.
    Type(Mould),
    /// Characteristic of a mica capacitor.
    Characteristic,
    /// Characteristic of a paper capacitor; of no use here.
    PaperCharacteristic,
    /// Temperature coefficient of a ceramic capacitor.
    Ppm,
    /// Its figure alone.
    PpmFigure,
    /// What that is multiplied by.
    PpmTimes,
    /// Temperature coefficient of a resistor.
    Resistance,
    /// Failure rate of a resistor.
    Failures,
}

/// What a colour says in a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Says {
    /// A figure of the value.
    Figure(f64),
    /// What the figures are multiplied by.
    Times(f64),
    /// Not known for a colour that means picofarads alone.
    Tolerance(Option<Tolerance>),
    /// Rated volts.
    Volts(f64),
    /// Volts to be added to ten times the first ones.
    MoreVolts(f64),
    /// Temperature coefficient of a capacitor, parts per million per kelvin.
    Ppm(f64),
    /// What that is multiplied by.
    PpmTimes(f64),
    /// Temperature coefficient of a resistor, parts per million per kelvin, either way.
    Resistance(f64),
    /// Letter of a mica capacitor.
    Characteristic(char),
    /// Failures, percent in 1000 hours.
    Failures(f64),
    /// Nothing that changes the value.
    Nothing,
}

impl Field {
    /// What a colour says here; `None` where it cannot stand.
    pub fn says(self, family: Family, colour: Colour) -> Option<Says> {
        meaning(self, family, colour)
    }
}

/// The figure of a colour.
pub(super) fn figure(colour: Colour) -> Option<f64> {
    let figure = colour as u8;
    (figure <= 9).then_some(f64::from(figure))
}

/// What a colour says in a field of this kind of part; `None` where it cannot stand.
pub(super) fn meaning(field: Field, family: Family, colour: Colour) -> Option<Says> {
    use Colour::{
        Black, Blue, Brown, Gold, Green, Grey, None as Missing, Orange, Pink, Red, Silver, Violet, White, Yellow,
    };
    let percent = |percent: f64| Some(Says::Tolerance(Some(Tolerance::even(percent))));
    match (field, family, colour) {
        (Field::Figure, ..) => figure(colour).map(Says::Figure),
        // Fields that leave the value as it is may be missing or past reading.
        (Field::PaperCharacteristic, ..)
        | (Field::Characteristic | Field::Resistance | Field::Failures, _, Missing)
        | (Field::Volts, Family::PaperBands, Missing) => Some(Says::Nothing),
        (Field::Multiplier, Family::Ceramic, Grey) => Some(Says::Times(0.01)),
        (Field::Multiplier, Family::Ceramic, White) => Some(Says::Times(0.1)),
        (Field::Multiplier, Family::PaperBands, Silver) => None,
        (Field::Multiplier, _, Silver) if family != Family::Ceramic => Some(Says::Times(0.01)),
        (Field::Multiplier, _, Gold) if family != Family::Ceramic => Some(Says::Times(0.1)),
        (Field::Multiplier, Family::ResistorBands | Family::BodyEndDot, Pink) => Some(Says::Times(0.001)),
        (Field::Multiplier, ..) => times(colour, family),
        // Without a mark: 20 % everywhere.
        (Field::Tolerance, _, Missing) => percent(20.0),
        (Field::Tolerance, Family::ResistorBands | Family::BodyEndDot, _) => percent(match colour {
            Brown => 1.0,
            Red => 2.0,
            // The 2016 edition; 3 and 4 % on older charts.
            Orange => 0.05,
            Yellow => 0.02,
            Green => 0.5,
            Blue => 0.25,
            Violet => 0.1,
            Grey => 0.01,
            Gold => 5.0,
            Silver => 10.0,
            _ => return None,
        }),
        // Yellow as 4 % is found in RMA lists only.
        (Field::Tolerance, Family::MicaDots, _) => percent(match colour {
            Black => 20.0,
            Brown => 1.0,
            // One Army text has blue for 2 %, the charts red.
            Red | Blue => 2.0,
            Orange => 3.0,
            Yellow => 4.0,
            Green | Gold => 5.0,
            Silver => 10.0,
            _ => return None,
        }),
        (Field::Tolerance, Family::PaperBands, _) => percent(match colour {
            Black => 20.0,
            Orange => 30.0,
            Yellow => 40.0,
            Green | Gold => 5.0,
            White | Silver => 10.0,
            _ => return None,
        }),
        (Field::Tolerance, Family::Ceramic, _) => match colour {
            Grey => Some(Says::Tolerance(None)),
            _ => percent(match colour {
                Black => 20.0,
                Brown => 1.0,
                Red => 2.0,
                Orange => 3.0,
                Green => 5.0,
                White => 10.0,
                _ => return None,
            }),
        },
        // Without a dot: 500 V.
        (Field::Volts, Family::MicaDots, Missing) => Some(Says::Volts(500.0)),
        (Field::Volts, Family::MicaDots, Silver) => Some(Says::Volts(2000.0)),
        (Field::Volts, _, Gold) => Some(Says::Volts(1000.0)),
        (Field::Volts, ..) => figure(colour).filter(|figure| *figure > 0.0).map(|figure| Says::Volts(figure * 100.0)),
        (Field::MoreVolts, ..) => figure(colour).map(|figure| Says::MoreVolts(figure * 100.0)),
        (Field::Type(mould), ..) => {
            let wanted = match mould {
                Mould::Jan => Black,
                Mould::Eia => White,
                Mould::Paper => Silver,
            };
            (colour == wanted).then_some(Says::Nothing)
        }
        (Field::Characteristic, ..) => Some(Says::Characteristic(match colour {
            Black => 'A',
            Brown => 'B',
            Red => 'C',
            Orange => 'D',
            Yellow => 'E',
            Green => 'F',
            Grey => 'I',
            White => 'J',
            _ => return None,
        })),
        // EIA RS-198; older charts print -30 and -80 for brown and red. Grey, white and silver mark by-pass parts without a steady one.
        (Field::Ppm, ..) => Some(Says::Ppm(match colour {
            Black => 0.0,
            Brown => -33.0,
            Red => -75.0,
            Orange => -150.0,
            Yellow => -220.0,
            Green => -330.0,
            Blue => -470.0,
            Violet => -750.0,
            Gold => 100.0,
            Grey | White | Silver => return Some(Says::Nothing),
            _ => return None,
        })),
        (Field::PpmFigure, ..) => Some(Says::Ppm(match colour {
            Black => 0.0,
            Red => 1.0,
            Orange => 1.5,
            Yellow => 2.2,
            Green => 3.3,
            Blue => 4.7,
            Violet => 7.5,
            _ => return None,
        })),
        (Field::PpmTimes, ..) => Some(Says::PpmTimes(match colour {
            Black => -1.0,
            Brown => -10.0,
            Red => -100.0,
            Orange => -1000.0,
            Green => 1.0,
            Blue => 10.0,
            Violet => 100.0,
            Grey => 1000.0,
            _ => return None,
        })),
        // IEC 60062, from memory.
        (Field::Resistance, ..) => Some(Says::Resistance(match colour {
            Black => 250.0,
            Brown => 100.0,
            Red => 50.0,
            Orange => 15.0,
            Yellow => 25.0,
            Green => 20.0,
            Blue => 10.0,
            Violet => 5.0,
            Grey => 1.0,
            _ => return None,
        })),
        (Field::Failures, ..) => Some(Says::Failures(match colour {
            Brown => 1.0,
            Red => 0.1,
            Orange => 0.01,
            Yellow => 0.001,
            _ => return None,
        })),
    }
}

/// Times ten for each of the colour's figure, as far as parts of this kind go.
fn times(colour: Colour, family: Family) -> Option<Says> {
    let most = match family {
        Family::ResistorBands | Family::BodyEndDot => 9.0,
        Family::PaperBands => 6.0,
        Family::MicaDots | Family::Ceramic => 4.0,
    };
    figure(colour).filter(|figure| *figure <= most).map(|figure| Says::Times(10f64.powi(figure as i32)))
}

/// What a tolerance colour means on a ceramic capacitor of 10 pF and less, picofarads; brown is from memory.
pub fn small_ceramic_pf(colour: Colour) -> Option<f64> {
    Some(match colour {
        Colour::Black | Colour::None => 2.0,
        Colour::Brown => 0.1,
        Colour::Green => 0.5,
        Colour::Grey => 0.25,
        Colour::White => 1.0,
        _ => return None,
    })
}
