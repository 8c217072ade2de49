//! What of a list lies in stock. A tube counts under any name of its type; another part only where its marking surely reads as the same value, made
//! the same way, for at least the volts or watts that are asked for.

use super::parts_list::line::{Line, Part};
use super::sheet::shopping::{Article, Group};
use crate::book::{Book, StockItem, Tube};
use crate::on_sale::Body;
use crate::passive::{CapacitorHint, CapacitorKind, CapacitorMark, ResistorMark, read_capacitor, read_resistor};

/// Tubes in stock, row by row, without rows that are used up.
pub(super) fn tubes(book: &Book) -> Vec<(&StockItem, &Tube)> {
    let there = book.stock().iter().filter(|item| item.count > 0);
    there.filter_map(|item| Some((item, book.tube_in_stock(&item.marking)?.tube))).collect()
}

/// How many of a type, under any of its names.
pub(super) fn count(tubes: &[(&StockItem, &Tube)], tube: &Tube) -> usize {
    tubes.iter().filter(|row| row.1.name == tube.name).map(|row| row.0.count).sum()
}

/// A part in stock whose marking has one reading.
enum Reads {
    Capacitor(CapacitorMark),
    Resistor(ResistorMark),
}

/// Everything in stock, read once for a whole list.
pub(super) struct Held<'b> {
    book: &'b Book,
    tubes: Vec<(&'b StockItem, &'b Tube)>,
    parts: Vec<(&'b StockItem, Reads)>,
}

impl<'b> Held<'b> {
    /// Reads the stock.
    pub fn of(book: &'b Book) -> Self {
        let tubes = tubes(book);
        let other = book.stock().iter().filter(|item| item.count > 0 && book.tube_in_stock(&item.marking).is_none());
        let parts = other.filter_map(|item| Some((item, read(&item.marking)?))).collect();
        Self { book, tubes, parts }
    }

    /// How many of an article.
    pub fn count(&self, article: &Article) -> usize {
        match article.group {
            Group::Tubes => {
                let name = article.shop.split(" (").next().unwrap_or_default();
                self.book.look_up(name).map_or(0, |found| count(&self.tubes, found.tube))
            }
            _ => self.parts.iter().filter(|row| serves(article, row)).map(|row| row.0.count).sum(),
        }
    }
}

/// The one thing that a marking says; nothing when it can be read in two ways, or something in it is assumed.
fn read(marking: &str) -> Option<Reads> {
    let line = Line::read(marking, usize::MAX);
    match line.part {
        Part::Capacitor { marking, kind, .. } if line.count == 1 => {
            let mut marks = read_capacitor(&marking, CapacitorHint { kind, role: None }).ok()?;
            let mut mark = marks.pop().filter(|mark| marks.is_empty() && mark.assumed.is_empty())?;
            mark.kind = mark.kind.or(kind);
            Some(Reads::Capacitor(mark))
        }
        Part::Resistor { marking, measured_ohm: None, .. } if line.count == 1 => {
            let mut marks = read_resistor(&marking, None, None).ok()?.readings;
            let mark = marks.pop().filter(|mark| marks.is_empty() && mark.assumed.is_none())?;
            Some(Reads::Resistor(mark))
        }
        _ => None,
    }
}

/// Whether a part in stock is what is asked for.
fn serves(article: &Article, (item, reads): &(&StockItem, Reads)) -> bool {
    let same = |value: f64| (value / article.size - 1.0).abs() < 1e-6;
    let asked = |word: &str| article.shop.contains(word);
    match reads {
        Reads::Capacitor(mark) => {
            let [section] = mark.sections.as_slice() else { return false };
            // A part of class 1 is chosen for how it drifts, which its marking in stock need not say.
            let made = match article.group {
                Group::Safety => mark.ac && mark.class.is_some_and(|class| asked(&format!("class {} ", class.name()))),
                _ if mark.ac || mark.class.is_some() => false,
                Group::Electrolytics => mark.kind == Some(CapacitorKind::Electrolytic),
                Group::Film => mark.kind == Some(CapacitorKind::Film),
                Group::MicaAndCeramic if asked("mica") => mark.kind == Some(CapacitorKind::Mica),
                Group::MicaAndCeramic if asked("ceramic disc") => mark.kind == Some(CapacitorKind::Ceramic),
                _ => false,
            };
            made && same(section.farad) && section.volts.is_some_and(|volts| volts >= article.rating * (1.0 - 1e-9))
        }
        Reads::Resistor(mark) => {
            let text = item.marking.to_ascii_lowercase();
            let made = Body::CONSTRUCTIONS.iter().find(|(word, _)| asked(word));
            let says = |word: &str| !asked(word) || text.contains(word);
            let close = mark.tolerance.is_none_or(|tolerance| {
                let most = if asked(" 1 %") { 1.0 } else { 5.0 };
                tolerance.above_percent.max(tolerance.below_percent) <= most
            });
            article.group == Group::Resistors
                && made.is_some_and(|(word, _)| text.contains(word))
                && ["flameproof", "fusible"].into_iter().all(says)
                && close
                && same(mark.ohm)
                && mark.watts.is_some_and(|watts| watts >= article.rating * (1.0 - 1e-9))
        }
    }
}
