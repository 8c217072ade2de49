//! Reads what is written on a capacitor into every plausible reading, the likeliest first.

use super::bare_figures::{Figure, repeated, splits};
use super::capacitor_code::{Coded, read_code};
use super::capacitor_draft::Draft;
use super::token::{Comma, Piece, Token, pieces, tokens};
use super::{Assumed, CapacitorKind, CapacitorRole, SafetyClass, TemperatureCode, Tolerance, Unreadable};
use crate::quantity::{CapacitanceUnit, number};

/// One section of a marking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkedSection {
    /// Farads.
    pub farad: f64,
    /// Rated volts, when marked.
    pub volts: Option<f64>,
}

/// One reading of a marking.
#[derive(Debug, Clone, PartialEq)]
pub struct CapacitorMark {
    /// The sections in the order written; at least one.
    pub sections: Vec<MarkedSection>,
    /// The tolerance, when marked.
    pub tolerance: Option<Tolerance>,
    /// The temperature code, when marked.
    pub temperature: Option<TemperatureCode>,
    /// The volts are AC volts.
    pub ac: bool,
    /// The safety class, when marked.
    pub class: Option<SafetyClass>,
    /// What it is made of, when a word says so.
    pub kind: Option<CapacitorKind>,
    /// What was assumed.
    pub assumed: Vec<Assumed>,
}

/// What is known of the part beside its marking; it decides between readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CapacitorHint {
    /// What it is made of.
    pub kind: Option<CapacitorKind>,
    /// What it does in the set.
    pub role: Option<CapacitorRole>,
}

/// Smallest and largest values and volts that any marking means.
const FARADS: std::ops::RangeInclusive<f64> = 0.1e-12..=0.1;
const VOLTS: std::ops::RangeInclusive<f64> = 1.0..=50e3;

/// Reads a marking.
///
/// # Errors
/// [`Unreadable`] names the piece that has no meaning, or the whole text when it holds no value or one no part can have.
pub fn read_capacitor(marking: &str, hint: CapacitorHint) -> Result<Vec<CapacitorMark>, Unreadable> {
    let whole = || Unreadable::new(marking.trim());
    if let Some(doubtful) = doubtful_comma(marking) {
        return Err(Unreadable::new(doubtful));
    }
    let mut sheet = Sheet::default();
    for token in
        tokens(marking, Comma::BetweenFigures).ok_or_else(|| Unreadable::new("a text longer than any marking"))?
    {
        sheet.take(&token)?;
    }
    let hint = CapacitorHint { kind: sheet.kind.or(hint.kind), ..hint };
    let mut readings = sheet.readings(hint).ok_or_else(whole)?;
    readings.retain(|reading| {
        reading
            .sections
            .iter()
            .all(|section| FARADS.contains(&section.farad) && section.volts.is_none_or(|volts| VOLTS.contains(&volts)))
    });
    if readings.is_empty() { Err(whole()) } else { Ok(readings) }
}

/// `2,2`, which may be two parts of 2 or one of 2.2.
fn doubtful_comma(marking: &str) -> Option<String> {
    let (before, after) = marking.split_once(',')?;
    let before: String = before.chars().rev().take_while(|c| !c.is_whitespace()).collect();
    let digits = after.bytes().take_while(u8::is_ascii_digit).count();
    let lone = before.len() == 1 && before != "0" && before.bytes().all(|byte| byte.is_ascii_digit());
    (lone && (1..=2).contains(&digits) && !after.contains(','))
        .then(|| format!("{before},{}", after.get(..digits).unwrap_or_default()))
}

/// What has been understood, in the order written.
#[derive(Debug, Clone, PartialEq)]
enum Entry {
    /// Values with their unit, in every reading.
    Values(Vec<Vec<f64>>),
    /// One value as a code, in every reading.
    Code(Vec<Coded>),
    /// Working volts.
    Volts(Vec<f64>),
    /// Figures and, when `volts` is set, the factor of the volts unit after the last.
    Bare { figures: Vec<Figure>, volts: Option<f64> },
}

/// A marking being read.
#[derive(Debug, Default)]
struct Sheet {
    entries: Vec<Entry>,
    figures: Vec<Figure>,
    signs: String,
    tolerance: Option<Tolerance>,
    tolerance_letter: Option<char>,
    temperature: Option<TemperatureCode>,
    class: Option<SafetyClass>,
    kind: Option<CapacitorKind>,
    ac: bool,
    surge: bool,
    /// Inside brackets a value is said a second time.
    bracket: bool,
}

impl Sheet {
    fn take(&mut self, token: &Token) -> Result<(), Unreadable> {
        match token {
            Token::Sign('(') => self.bracket = true,
            Token::Sign(')') => self.bracket = false,
            _ if self.bracket => {}
            Token::Sign('%') => self.percent()?,
            Token::Sign('~') => self.ac = true,
            Token::Sign(sign @ ('-' | '+' | '/' | '&' | ',' | ';' | ':' | '\u{b1}' | '=')) => self.signs.push(*sign),
            Token::Sign(other) => return Err(Unreadable::new(*other)),
            Token::Text(text) => self.text(text)?,
        }
        Ok(())
    }

    fn text(&mut self, text: &str) -> Result<(), Unreadable> {
        if let Some(class) = SafetyClass::read(text) {
            self.class = Some(class);
            return Ok(());
        }
        // `250VX2`: the class behind the volts, without a gap.
        if let Some((before, class)) = text.len().checked_sub(2).and_then(|at| text.split_at_checked(at))
            && before.ends_with(['v', 'c'])
            && let Some(class) = SafetyClass::read(class)
        {
            self.class = Some(class);
            return self.text(before);
        }
        if let Some(temperature) = TemperatureCode::read(text) {
            self.temperature = Some(temperature);
            return Ok(());
        }
        // Three bare figures may be a code, picofarads or microfarads: the place decides, later.
        let readings = if text.bytes().all(|byte| byte.is_ascii_digit()) { Vec::new() } else { read_code(text) };
        if !readings.is_empty() {
            self.close_bare(None);
            self.signs.clear();
            self.entries.push(Entry::Code(readings));
            return Ok(());
        }
        for piece in pieces(text) {
            match piece {
                Piece::Figure(figure) => {
                    let value = number(&figure).ok_or_else(|| Unreadable::new(text))?;
                    let signs = std::mem::take(&mut self.signs);
                    self.figures.push(Figure { text: figure, value, signs });
                }
                Piece::Word(word) => self.word(&word).ok_or_else(|| Unreadable::new(text))?,
            }
        }
        Ok(())
    }

    /// Takes a word; `None` when it has no meaning here.
    fn word(&mut self, word: &str) -> Option<()> {
        if let Some(unit) = CapacitanceUnit::read(word) {
            return self.unit(unit);
        }
        match word {
            "v" | "volt" | "volts" | "vdc" | "vdcw" | "vw" | "wv" | "wvdc" | "dcwv" | "dcv" | "dcw" | "vwdc"
            | "vwkg" => {
                self.volts(1.0)?;
            }
            "kv" | "kvdc" => self.volts(1000.0)?,
            "vac" | "vca" | "acv" => {
                self.ac = true;
                self.volts(1.0)?;
            }
            "ac" => self.ac = true,
            "x" => self.signs.push('x'),
            "surge" | "peak" | "pk" | "pv" => self.surge(),
            "paper" | "wax" | "oil" => self.kind = Some(CapacitorKind::Paper),
            "mica" | "silvered" | "silver" => self.kind = Some(CapacitorKind::Mica),
            "ceramic" | "disc" | "disk" => self.kind = Some(CapacitorKind::Ceramic),
            "film" | "mylar" | "polyester" | "polypropylene" | "polystyrene" | "styrol" => {
                self.kind = Some(CapacitorKind::Film);
            }
            "electrolytic" | "elect" | "elec" | "lytic" => self.kind = Some(CapacitorKind::Electrolytic),
            "dc" | "dry" | "wet" | "tubular" | "moulded" | "molded" | "condenser" | "capacitor" | "cap" | "wkg"
            | "working" | "tol" => {}
            other => return self.tolerance_letter(other),
        }
        Some(())
    }

    /// A unit closes the figures before it.
    fn unit(&mut self, unit: CapacitanceUnit) -> Option<()> {
        // `20 mfd 450-20 mfd 25`: behind a value with its unit the first figures are its volts. Below 100 they may be either: that is refused.
        if matches!(self.entries.last(), Some(Entry::Values(_))) && self.figures.len() > 1 {
            let last = self.figures.pop()?;
            let volts: Vec<f64> = self.figures.drain(..).map(|figure| figure.value).collect();
            let rated = |volts: &f64| *volts >= 100.0;
            if volts.iter().any(rated) {
                if !volts.iter().all(rated) {
                    return None;
                }
                self.entries.push(Entry::Volts(volts));
                self.figures.push(last);
            } else {
                return None;
            }
        }
        let figures = std::mem::take(&mut self.figures);
        let values = match figures.as_slice() {
            [] => return None,
            [whole, part] if part.is_fraction() && part.signs.is_empty() && !whole.is_fraction() => {
                vec![unit.farad(whole.value + part.value)]
            }
            [_, _, ..] if figures.iter().any(Figure::is_fraction) => return None,
            _ => repeated(&figures).iter().map(|figure| unit.farad(figure.value)).collect(),
        };
        let mut readings = vec![values];
        // `2-.25 mfd` is two of .25 on American lists.
        if let [count, figure] = figures.as_slice()
            && figure.signs == "-"
            && figure.value < 1.0
            && [2.0, 3.0, 4.0].contains(&count.value)
        {
            readings.insert(0, vec![unit.farad(figure.value); count.value as usize]);
        }
        self.entries.push(Entry::Values(readings));
        self.signs.clear();
        Some(())
    }

    /// Volts close the figures before them. Which of those are volts is decided at the end.
    fn volts(&mut self, factor: f64) -> Option<()> {
        if self.figures.is_empty() {
            // "400 V DC W.V.": a second word for the same volts.
            return matches!(self.entries.last(), Some(Entry::Volts(_) | Entry::Bare { volts: Some(_), .. }))
                .then_some(());
        }
        if self.surge {
            // Surge volts are no working volts.
            self.surge = false;
            self.figures.pop();
            self.close_bare(None);
            return Some(());
        }
        self.close_bare(Some(factor));
        Some(())
    }

    fn surge(&mut self) {
        if self.figures.is_empty() && matches!(self.entries.last(), Some(Entry::Volts(_))) && self.entries.len() > 2 {
            // "450 V 525 V surge": the word follows its volts.
            self.entries.pop();
        } else {
            self.surge = true;
        }
    }

    fn percent(&mut self) -> Result<(), Unreadable> {
        let last = self.figures.pop().ok_or_else(|| Unreadable::new("%"))?;
        let falls = |figure: &Figure| figure.signs.contains('-') && !figure.signs.contains('+');
        let rises = |figure: &Figure| figure.signs.contains('+') && !figure.signs.contains('-');
        let first = self.figures.pop_if(|first| falls(first) && rises(&last) || rises(first) && falls(&last));
        self.tolerance = Some(match first {
            Some(first) if first.signs.contains('-') => Tolerance::uneven(first.value, last.value),
            Some(first) => Tolerance::uneven(last.value, first.value),
            None => Tolerance::even(last.value),
        });
        let sane = self.tolerance.is_some_and(|tolerance| {
            (0.0..=100.0).contains(&tolerance.below_percent) && (0.0..=200.0).contains(&tolerance.above_percent)
        });
        if sane { Ok(()) } else { Err(Unreadable::new(format!("{} %", last.text))) }
    }

    /// `nk`, `k`: a tolerance letter, on its own or behind a unit.
    fn tolerance_letter(&mut self, word: &str) -> Option<()> {
        let letter = word.chars().last()?;
        Tolerance::letter(letter, 1e-9)?;
        let before = word.strip_suffix(letter)?;
        if !before.is_empty() {
            self.unit(CapacitanceUnit::read(before)?)?;
        } else if self.figures.is_empty() && self.entries.is_empty() {
            return None;
        }
        self.tolerance_letter = Some(letter);
        Some(())
    }

    /// Closes figures that have no unit of capacitance.
    fn close_bare(&mut self, volts: Option<f64>) {
        let figures = std::mem::take(&mut self.figures);
        if figures.is_empty() {
            return;
        }
        let has_value = self.entries.iter().any(|entry| !matches!(entry, Entry::Volts(_)));
        match volts {
            Some(factor) if has_value || figures.len() == 1 => {
                self.entries.push(Entry::Volts(figures.iter().map(|figure| figure.value * factor).collect()));
            }
            _ => self.entries.push(Entry::Bare { figures, volts }),
        }
    }

    /// A finished draft with what was marked beside the values; `None` when it has no value, or more sections than any can.
    fn mark(&self, draft: Draft) -> Option<CapacitorMark> {
        let draft = draft.finish()?;
        let farad = draft.sections.first()?.farad;
        let by_letter = self.tolerance_letter.and_then(|letter| Tolerance::letter(letter, farad));
        Some(CapacitorMark {
            sections: draft.sections,
            tolerance: self.tolerance.or(by_letter).or(draft.tolerance),
            temperature: self.temperature.or(draft.temperature),
            ac: self.ac,
            class: self.class,
            kind: self.kind,
            assumed: draft.assumed,
        })
    }

    /// Every reading; `None` when there is no value in the marking.
    fn readings(mut self, hint: CapacitorHint) -> Option<Vec<CapacitorMark>> {
        if self.surge {
            // "450 V surge 525": the figure without a unit.
            self.figures.pop();
        }
        self.close_bare(None);
        let mut drafts = vec![Draft::default()];
        let entries = std::mem::take(&mut self.entries);
        let volts_elsewhere = entries.iter().find_map(|entry| match entry {
            Entry::Volts(volts) => volts.first().copied(),
            _ => None,
        });
        for entry in &entries {
            drafts = match entry {
                Entry::Values(readings) => drafts
                    .iter()
                    .flat_map(|draft| readings.iter().map(|farads| draft.clone().with_values(farads)))
                    .collect(),
                Entry::Volts(volts) => drafts.into_iter().map(|draft| draft.with_volts(volts)).collect(),
                Entry::Code(readings) => drafts
                    .iter()
                    .flat_map(|draft| readings.iter().map(|reading| draft.clone().with_code(reading)))
                    .collect(),
                Entry::Bare { figures, volts: None } if drafts.iter().all(Draft::has_value) => {
                    if !figures.iter().all(Figure::is_rating) {
                        return None;
                    }
                    let volts: Vec<f64> = figures.iter().map(|figure| figure.value).collect();
                    drafts.into_iter().map(|draft| draft.with_volts(&volts).assuming(Assumed::LastIsVolts)).collect()
                }
                Entry::Bare { figures, volts } => {
                    let splits = splits(figures, *volts)?;
                    let mut next = Vec::new();
                    for draft in &drafts {
                        for split in &splits {
                            next.extend(draft.with_split(split, volts_elsewhere, hint));
                        }
                    }
                    next
                }
            };
            if drafts.len() > 8 {
                return None;
            }
        }
        let mut marks = Vec::new();
        for draft in drafts {
            let mark = self.mark(draft)?;
            if !marks.contains(&mark) {
                marks.push(mark);
            }
        }
        Some(marks)
    }
}
