//! Colour codes of resistors and capacitors: what a row of bands or dots can mean, in every layout that has so many marks.
//!
//! A layout is a list of fields, one for each mark; what a colour means in a field is said once, in `meaning`. Reading tries every layout of
//! the kind of part, as given and from the other end; a colour that cannot stand in its field rules the layout out, and is told as such. Apart
//! from that stands fading: brown, red and orange are taken for each other, and so are violet, grey and blue, so the readings that one such
//! change gives are offered too, when they come to a value parts were made in.
//!
//! Sources: IEC 60062 (bands; the 2016 edition for orange, yellow, grey and pink), RMA body-end-dot, RMA and JAN (AWS) mica dots, RETMA
//! REC-115A (mica characteristic), EIA RS-198 (ceramic), from excerpts and lists; what is from memory alone is marked so beside it.

mod layout;
mod meaning;

pub use layout::{Layout, Style};
pub use meaning::{Colour, Field, Mould, Says, small_ceramic_pf};

use super::{TemperatureCode, Tolerance};
use crate::order::sort_few;
use crate::quantity::tidy;
use crate::series::Series;

/// Which part is marked, and with what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Bands round a resistor.
    ResistorBands,
    /// Body, end and dot of an old resistor, given in this order; a fourth is the other end.
    BodyEndDot,
    /// Dots on a flat mica (or moulded paper) capacitor: the upper row left to right, then the lower row left to right.
    MicaDots,
    /// Bands round a moulded paper tubular, volts last.
    PaperBands,
    /// Dots or bands of a ceramic tubular or disc.
    Ceramic,
}

/// How a part has to be looked at for a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// As it was given.
    Given,
    /// From the other end.
    Turned,
    /// Bands as body, end and dot, or the other way round.
    OtherStyle,
}

/// What one row of colours can mean.
#[derive(Debug, Clone, PartialEq)]
pub struct ColourReading {
    /// The layout it was read in.
    pub layout: &'static Layout,
    /// The colours in the order of the layout's fields.
    pub colours: Vec<Colour>,
    /// Ohms or farads.
    pub value: f64,
    /// Tolerance, marked or implied by a missing mark.
    pub tolerance: Option<Tolerance>,
    /// Rated volts, marked or implied.
    pub volts: Option<f64>,
    /// Temperature coefficient of a ceramic capacitor.
    pub temperature: Option<TemperatureCode>,
    /// Temperature coefficient of a resistor, parts per million per kelvin, either way.
    pub tcr_ppm: Option<f64>,
    /// Characteristic letter of a mica capacitor.
    pub characteristic: Option<char>,
    /// Failures of a military resistor, percent in 1000 hours.
    pub failure_percent: Option<f64>,
    /// How the part has to be looked at.
    pub way: Way,
    /// The mark that would have to be faded, counted from 0 as it was given, and what it was.
    pub faded: Option<(usize, Colour)>,
    /// Whether parts were made in this value.
    pub usual: bool,
    /// Whether the meter agrees, or nothing was measured.
    pub agrees: bool,
}

/// A colour that cannot stand where it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Impossible {
    /// The layout it was tried in.
    pub layout: &'static Layout,
    /// Which mark, counted from 0 as it was given.
    pub mark: usize,
    /// Its colour.
    pub colour: Colour,
    /// What it would have to say there.
    pub field: Field,
}

/// Every reading of a row of colours.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ColourReadings {
    /// One black band alone: a link, and no resistor.
    pub link: bool,
    /// Readings of the colours as given, the likeliest first.
    pub readings: Vec<ColourReading>,
    /// How many of the first are equally likely.
    pub likely: usize,
    /// Readings with one mark faded, the likeliest first.
    pub faded: Vec<ColourReading>,
    /// Why a layout is ruled out, one colour each.
    pub impossible: Vec<Impossible>,
}

/// The most readings with a faded mark that are worth a look.
const MOST_FADED: usize = 8;

/// A measured value this near, as a ratio, is that of the part.
const SAME_PART: f64 = 1.6;

/// Reads a row of colours. `measured`, in ohms or farads, tells readings apart.
///
/// No reading when no layout has so many marks, or every one is ruled out.
pub fn read_colours(family: Family, given: &[Colour], measured: Option<f64>) -> ColourReadings {
    let mut all = ColourReadings {
        link: family == Family::ResistorBands && given == [Colour::Black],
        ..ColourReadings::default()
    };
    let layouts = |family: Family| {
        Layout::ALL.iter().filter(move |layout| layout.family == family && layout.fields.len() == given.len())
    };
    let mut ranked: Vec<(u8, ColourReading)> = Vec::new();
    let take = |reading: ColourReading, into: &mut Vec<(u8, ColourReading)>| {
        let mut reading = reading;
        into.push((reading.rank(measured), reading));
    };
    let turned: Vec<Colour> = given.iter().rev().copied().collect();
    for layout in layouts(family) {
        match layout.read(given) {
            Ok(reading) => take(reading, &mut ranked),
            Err(mark) => all.impossible.extend(layout.impossible(given, mark)),
        }
        if layout.turns
            && turned != given
            && let Ok(reading) = layout.read(&turned)
        {
            take(ColourReading { way: Way::Turned, ..reading }, &mut ranked);
        }
    }
    // The end, the body and the dot of an old part look like three bands of a later one.
    let other = match family {
        Family::ResistorBands => Some(Family::BodyEndDot),
        Family::BodyEndDot => Some(Family::ResistorBands),
        _ => None,
    };
    if let ([first, second, rest @ ..], Some(other)) = (given, other)
        && rest.len() <= 2
    {
        let swapped = [&[*second, *first], rest].concat();
        for reading in layouts(other).filter_map(|layout| layout.read(&swapped).ok()) {
            // Nobody made old ones above 22 Mohm.
            if reading.usual && reading.value <= 22e6 && !ranked.iter().any(|(_, known)| known.says_as(&reading)) {
                take(ColourReading { way: Way::OtherStyle, ..reading }, &mut ranked);
            }
        }
    }
    sort_few(&mut ranked, |(rank, _)| *rank);
    let best = ranked.first().map_or(0, |(rank, _)| *rank);
    all.likely = ranked.iter().filter(|(rank, _)| *rank == best).count();
    let mut faded: Vec<(u8, ColourReading)> = Vec::new();
    for (mark, colour) in given.iter().enumerate() {
        for other in colour.fades_into() {
            let mut changed = given.to_vec();
            if let Some(slot) = changed.get_mut(mark) {
                *slot = *other;
            }
            for reading in layouts(family).filter_map(|layout| layout.read(&changed).ok()) {
                if reading.usual && !ranked.iter().chain(&faded).any(|(_, known)| known.says_as(&reading)) {
                    take(ColourReading { faded: Some((mark, *other)), ..reading }, &mut faded);
                }
            }
        }
    }
    sort_few(&mut faded, |(rank, _)| *rank);
    faded.truncate(MOST_FADED);
    all.readings = ranked.into_iter().map(|(_, reading)| reading).collect();
    all.faded = faded.into_iter().map(|(_, reading)| reading).collect();
    all
}

impl ColourReading {
    /// How unlikely it is: what the meter says before all, then whether the value was made, then how it has to be held.
    fn rank(&mut self, measured: Option<f64>) -> u8 {
        self.agrees = measured.is_none_or(|measured| (1.0 / SAME_PART..=SAME_PART).contains(&(measured / self.value)));
        let way = match self.way {
            Way::Given => 0,
            // More bands than three may begin at either end. Three crowd to one, and an arrow or the maker's name tells how to hold dots.
            Way::Turned if self.layout.family == Family::ResistorBands && self.colours.len() > 3 => 0,
            Way::Turned => 2,
            Way::OtherStyle => 3,
        };
        u8::from(!self.agrees) * 16 + u8::from(!self.usual) * 4 + way
    }

    /// Whether another reading says the same of the part.
    fn says_as(&self, other: &Self) -> bool {
        let same = |one: f64, other: f64| (one - other).abs() <= other.abs() * 1e-6;
        same(self.value, other.value)
            && self.tolerance == other.tolerance
            && self.volts == other.volts
            && self.temperature == other.temperature
    }
}

impl Layout {
    /// What the colours mean in this layout; else the first mark that cannot stand in its field.
    pub fn read(&'static self, colours: &[Colour]) -> Result<ColourReading, usize> {
        let mut reading = ColourReading {
            layout: self,
            colours: colours.to_vec(),
            value: 0.0,
            tolerance: self.tolerance,
            volts: self.volts,
            temperature: None,
            tcr_ppm: None,
            characteristic: None,
            failure_percent: None,
            way: Way::Given,
            faded: None,
            usual: false,
            agrees: true,
        };
        let (mut figures, mut power, mut begun) = (0.0, 1.0, false);
        let mut tolerance_mark = None;
        let mut ppm = None;
        for (mark, (field, given)) in self.fields.iter().zip(colours).enumerate() {
            // On body-end-dot parts a mark that cannot be found has the colour of the body.
            let colour = match (*given, self.style) {
                (Colour::None, Style::BodyEndDot) if mark > 0 && mark < 3 => colours.first().copied().unwrap_or(*given),
                _ => *given,
            };
            match meaning::meaning(*field, self.family, colour).ok_or(mark)? {
                Says::Figure(figure) => {
                    // A code does not begin with 0.
                    if figure == 0.0 && !begun {
                        return Err(mark);
                    }
                    begun = true;
                    figures = figures * 10.0 + figure;
                }
                Says::Times(times) => power = times,
                Says::Tolerance(percent) => {
                    tolerance_mark = Some((mark, colour));
                    reading.tolerance = percent;
                }
                Says::Volts(volts) => reading.volts = Some(volts),
                Says::MoreVolts(volts) => reading.volts = reading.volts.map(|first| first * 10.0 + volts),
                Says::Ppm(this) => ppm = Some(this),
                Says::PpmTimes(times) => ppm = ppm.map(|ppm| if ppm == 0.0 { 0.0 } else { ppm * times }),
                Says::Resistance(this) => reading.tcr_ppm = Some(this),
                Says::Characteristic(letter) => reading.characteristic = Some(letter),
                Says::Failures(percent) => reading.failure_percent = Some(percent),
                Says::Nothing => {}
            }
        }
        // Military composition parts had 5 or 10 %.
        if self.style == Style::BandsWithFailures && reading.tolerance.is_none_or(|percent| percent.above_percent < 5.0)
        {
            return Err(3);
        }
        reading.value = tidy(figures * power * self.unit);
        reading.temperature = ppm.map(|ppm_per_k| TemperatureCode::Class1 { ppm_per_k, tolerance_ppm_per_k: None });
        if self.family == Family::Ceramic
            && let Some((mark, colour)) = tolerance_mark
        {
            // Up to 10 pF the tolerance is in picofarads, and grey is for such parts alone.
            if reading.value <= 10.0001e-12 {
                let size = meaning::small_ceramic_pf(colour).ok_or(mark)?;
                reading.tolerance = Some(Tolerance::even(size / (reading.value * 1e12) * 100.0));
            } else if reading.tolerance.is_none() {
                return Err(mark);
            }
        }
        // AN 16-40BC224-2: 500 V below 6800 pF, 300 V from there to 10 000 pF.
        if self.style == Style::JanMica {
            reading.volts = Some(if reading.value < 6799e-12 { 500.0 } else { 300.0 });
        }
        reading.usual = usual(reading.value / self.unit, self.fields);
        Ok(reading)
    }

    fn impossible(&'static self, given: &[Colour], mark: usize) -> Option<Impossible> {
        Some(Impossible { layout: self, mark, colour: *given.get(mark)?, field: *self.fields.get(mark)? })
    }

    /// The colours that say this in the layout; `None` where it has no way to say it. Of two colours for the same the first of the spectrum
    /// is given.
    pub fn colours(&'static self, reading: &ColourReading) -> Option<Vec<Colour>> {
        let count = figures_of(self.fields);
        let units = reading.value / self.unit;
        if !(1e-3..=1e12).contains(&units) {
            return None;
        }
        let exponent = (units * (1.0 + 1e-9)).log10().floor() as i32 + 1 - count;
        let figures = (units / 10f64.powi(exponent)).round();
        if (figures * 10f64.powi(exponent) - units).abs() > units * 1e-6 {
            return None;
        }
        let mut left = count;
        let mut colours = Vec::new();
        for (mark, field) in self.fields.iter().enumerate() {
            let fits = |colour: Colour| {
                let Some(says) = meaning::meaning(*field, self.family, colour) else { return false };
                match says {
                    Says::Figure(this) => this == (figures / 10f64.powi(left - 1)).floor() % 10.0,
                    Says::Times(times) => (times / 10f64.powi(exponent) - 1.0).abs() < 1e-9,
                    // Everything else is as it was read there.
                    _ => reading.colours.get(mark) == Some(&colour),
                }
            };
            colours.push(Colour::ALL.into_iter().find(|colour| fits(*colour))?);
            left -= i32::from(*field == Field::Figure);
        }
        Some(colours)
    }
}

/// The bands of a resistor that is sold: two figures with 5 %, three with 1 %. `None` for a value they cannot say.
pub fn resistor_bands(ohm: f64, percent: f64) -> Option<Vec<Colour>> {
    use Colour::{Black, Brown, Gold};
    let pattern: &[Colour] =
        if percent < 2.0 { &[Brown, Black, Black, Black, Brown] } else { &[Brown, Black, Black, Gold] };
    let layout =
        Layout::ALL.iter().find(|layout| layout.style == Style::Bands && layout.fields.len() == pattern.len())?;
    layout.colours(&ColourReading { value: ohm, ..layout.read(pattern).ok()? })
}

/// How many figures a value has in these fields.
fn figures_of(fields: &[Field]) -> i32 {
    fields.iter().map(|field| i32::from(*field == Field::Figure)).sum()
}

/// Figures in hundredths that parts were made in before preferred values; common practice, no source.
const OLD_FIGURES: [u32; 21] =
    [100, 125, 150, 175, 200, 225, 250, 275, 300, 350, 400, 450, 500, 550, 600, 700, 750, 800, 850, 900, 950];

/// Whether a count of ohms or picofarads was made: a preferred value of IEC 60063, or a round figure of the time before it.
fn usual(count: f64, fields: &[Field]) -> bool {
    let three = figures_of(fields) > 2;
    let finest = if three { Series::E192 } else { Series::E24 };
    let hundredths = count / 10f64.powf((count * (1.0 + 1e-9)).log10().floor() - 2.0);
    (0.1..=100e6).contains(&count)
        && (finest.contains(count)
            || Series::E24.contains(count)
            || OLD_FIGURES.iter().any(|old| (f64::from(*old) - hundredths).abs() < 1e-6))
}
