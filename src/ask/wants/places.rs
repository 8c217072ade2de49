//! The tube sockets of all sheets, each as far as its sheet tells it, and what a tube does there.

use crate::ask::JobSheet;
use crate::ask::sheet::socket::{Line, Sockets, is_wanted};
use crate::ask::swap::{Judged, sockets};
use crate::book::{Book, Tube};
use crate::swap::{Grade, Socket};

/// One socket.
pub(super) struct Place<'b> {
    /// Which sheet, counted from 0.
    pub sheet: usize,
    /// What its owner calls the set.
    pub set: String,
    /// "V2"; empty when the line does not say.
    pub at: String,
    /// The type the set wants there.
    pub wants: &'b Tube,
    /// Whether that set looks for one.
    pub wanted: bool,
    /// Whether it is told how the heaters are fed.
    pub fed: bool,
    /// The ways its heater may be fed.
    pub sockets: Vec<Socket>,
}

/// A line that is wanted and of which the book knows nothing.
pub(super) struct Unread {
    /// As it was typed.
    pub typed: String,
    /// "kitchen set, V2".
    pub name: String,
    /// Why.
    pub says: String,
}

/// Every tube socket of the sheets, in their order.
pub(super) fn places<'b>(book: &'b Book, sheets: &[JobSheet]) -> (Vec<Place<'b>>, Vec<Unread>) {
    let (mut places, mut unread) = (Vec::new(), Vec::new());
    for (sheet, job) in sheets.iter().enumerate() {
        let set = set_name(job, sheet);
        let told = Sockets::of(book, job);
        for (at, (line, tube)) in told.lines.iter().zip(&job.tubes).enumerate() {
            let place = tube.place.as_deref().unwrap_or_default().trim();
            match line {
                Line::Tube { wants, .. } => places.push(Place {
                    sheet,
                    set: set.clone(),
                    at: place.to_owned(),
                    wants,
                    wanted: is_wanted(tube),
                    fed: job.heaters.is_some(),
                    // What the sheet tells was looked up before; where it does not hold together nothing fits.
                    sockets: sockets(book, wants, Some(&told.socket(at))).unwrap_or_default(),
                }),
                Line::Unread(error) if is_wanted(tube) => unread.push(Unread {
                    typed: tube.r#type.trim().to_owned(),
                    name: in_set(&set, place),
                    says: error.says.clone(),
                }),
                Line::Unread(_) | Line::Item(_) => {}
            }
        }
    }
    (places, unread)
}

/// What a set is called.
pub(super) fn set_name(sheet: &JobSheet, at: usize) -> String {
    match sheet.name.trim() {
        "" => format!("set {}", at + 1),
        name => name.to_owned(),
    }
}

/// "kitchen set, V2".
pub(super) fn in_set(set: &str, place: &str) -> String {
    if place.is_empty() { set.to_owned() } else { format!("{set}, {place}") }
}

impl Place<'_> {
    /// "kitchen set, V2".
    pub fn name(&self) -> String {
        in_set(&self.set, &self.at)
    }

    /// How a tube fits here.
    pub fn grade(&self, tube: &Tube) -> Grade {
        Judged::grade(self.wants, tube, &self.sockets)
    }
}

/// What a tube is sold under: its own name first.
pub(super) fn markings(book: &Book, tube: &Tube) -> Vec<String> {
    std::iter::once(&tube.name).chain(book.names_of(tube).map(|name| &name.name)).cloned().collect()
}

/// "A, B and C"; of many the first ones.
pub(super) fn listed(names: &[String], most: usize) -> String {
    let more = names.len().saturating_sub(most);
    let shown = names.get(..names.len() - more).unwrap_or_default();
    match shown {
        [] => String::new(),
        [one] if more == 0 => one.clone(),
        [first @ .., last] if more == 0 => format!("{} and {last}", first.join(", ")),
        _ => format!("{} and {more} more", shown.join(", ")),
    }
}
