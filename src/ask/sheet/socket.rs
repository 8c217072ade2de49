//! The tubes of a sheet with their types in the book, and the socket of each as far as the sheet tells it: which others are in its string, what its
//! winding has to spare.

use super::{JobSheet, SheetHeaters, SheetTube, TubeState};
use crate::ask::heater_string::items::{self, Item};
use crate::ask::swap::heater_volts_at;
use crate::ask::{ErrorAnswer, SocketQuestion, SupplyQuestion, tube};
use crate::book::{Book, Function, HeaterKind, Tube};
use crate::heater::{Heater, string_rated_a};

/// Heater volts of a rectifier this far from the winding's mean that it has a winding of its own, as a share. Common practice, no source.
const OTHER_WINDING: f64 = 0.1;

/// Whether another tube is looked for.
pub(in crate::ask) fn is_wanted(tube: &SheetTube) -> bool {
    matches!(tube.state, Some(TubeState::Weak | TubeState::Dead | TubeState::Missing))
}

/// "V3 12SQ7", "V3 cord 180 ohm"; without its place the type alone.
pub(in crate::ask) fn name(tube: &SheetTube) -> String {
    let place = tube.place.as_deref().unwrap_or_default().trim();
    format!("{place} {}", tube.r#type.trim()).trim().to_owned()
}

/// What a line of the tubes is.
pub(in crate::ask) enum Line<'b> {
    /// A type that is in the book.
    Tube {
        /// The type the set wants.
        wants: &'b Tube,
        /// The type that is taken to be in its socket: the one that was chosen to go in, or else the one the set wants.
        fitted: Result<&'b Tube, ErrorAnswer>,
    },
    /// What else is in a heater string.
    Item(Item),
    /// A type the book lacks, or an item that cannot be read.
    Unread(ErrorAnswer),
}

impl<'b> Line<'b> {
    fn read(book: &'b Book, tube: &SheetTube) -> Self {
        match items::read("type", &tube.r#type) {
            Err(error) => return Self::Unread(error),
            Ok(Some(item)) => return Self::Item(item),
            Ok(None) => {}
        }
        let chosen = tube.fitted.as_deref().map(str::trim).filter(|typed| !typed.is_empty());
        match tube::find(book, "type", &tube.r#type) {
            Err(error) => Self::Unread(error),
            Ok(found) => {
                let wants = found.tube;
                let fitted =
                    chosen.map_or(Ok(wants), |typed| tube::find(book, "fitted", typed).map(|found| found.tube));
                Self::Tube { wants, fitted }
            }
        }
    }

    /// The tube in the socket, when the book has it.
    pub fn in_place(&self) -> Option<&'b Tube> {
        match self {
            Self::Tube { fitted, .. } => fitted.as_ref().ok().copied(),
            _ => None,
        }
    }

    /// The type the set wants, when the book has it.
    pub fn wants(&self) -> Option<&'b Tube> {
        match self {
            Self::Tube { wants, .. } => Some(wants),
            _ => None,
        }
    }
}

/// The tubes of a sheet and their sockets.
pub(in crate::ask) struct Sockets<'s, 'b> {
    sheet: &'s JobSheet,
    /// Every line of the tubes, in order.
    pub lines: Vec<Line<'b>>,
    /// The current of the string, amperes; none while it cannot be told.
    string_a: Option<f64>,
}

impl<'s, 'b> Sockets<'s, 'b> {
    /// Looks the tubes of a sheet up.
    pub fn of(book: &'b Book, sheet: &'s JobSheet) -> Self {
        let lines: Vec<Line<'b>> = sheet.tubes.iter().map(|tube| Line::read(book, tube)).collect();
        // A tapped heater follows the others; only where all are tapped do they decide.
        let of = |tapped: bool| -> Vec<Heater> {
            let tubes = lines.iter().filter_map(Line::wants).filter(|tube| has_heater(tube));
            tubes
                .filter(|tube| tapped || tube.figures.heater_parallel_a.is_none())
                .filter_map(|tube| Some(Heater::new(tube.figures.heater_v?, tube.figures.heater_a?)))
                .collect()
        };
        let string_a = string_rated_a(&of(false)).or_else(|| string_rated_a(&of(true)));
        Self { sheet, lines, string_a }
    }

    /// What the sheet tells of the socket of a line.
    pub fn socket(&self, at: usize) -> SocketQuestion {
        let supply = match self.sheet.heaters {
            None => None,
            Some(SheetHeaters::Battery) => Some(SupplyQuestion::Battery),
            Some(SheetHeaters::Series) => Some(self.series(at)),
            Some(SheetHeaters::Parallel) => Some(self.parallel(at)),
        };
        let rectifies = self.lines.get(at).and_then(Line::wants).is_some_and(rectifies);
        let told = self.sheet.rectifier.as_deref().filter(|_| rectifies);
        let given = |figure: f64| (figure > 0.0).then_some(figure);
        SocketQuestion {
            supply,
            load_ma: told.and_then(|supply| given(supply.load_ma)),
            first_filter_uf: told.and_then(|supply| given(supply.first_filter_uf)),
            secondary_v: told.and_then(|supply| supply.secondary_v),
            secondary_ohm: told.and_then(|supply| supply.secondary_ohm),
            ..SocketQuestion::default()
        }
    }

    fn series(&self, at: usize) -> SupplyQuestion {
        let others = self.others(at);
        let ohms: Vec<f64> = self
            .lines
            .iter()
            .filter_map(|line| if let Line::Item(item) = line { Some(item.hot_ohm()) } else { None })
            .collect();
        let below = self.lines.get(at + 1..).unwrap_or_default();
        // Where a resistor or lamp lies between the tube and chassis, its volts are not counted below: the place is then not told.
        let plain = !below.iter().any(|line| matches!(line, Line::Item(_)));
        let below = below.iter().filter_map(Line::in_place).filter(|tube| has_heater(tube)).count();
        SupplyQuestion::Series {
            amps: self.string_a,
            line_v: self.sheet.line_v,
            chassis_side: others.as_ref().filter(|_| plain).map(|_| below as u32),
            others,
            dropper_ohm: (!ohms.is_empty()).then(|| ohms.iter().sum()),
        }
    }

    /// The other types in the string; none unless every one is known and takes the string's current.
    fn others(&self, at: usize) -> Option<Vec<String>> {
        let mut others = Vec::new();
        for (place, line) in self.lines.iter().enumerate() {
            if place == at || matches!(line, Line::Item(_)) {
                continue;
            }
            let tube = line.in_place()?;
            if has_heater(tube) {
                heater_volts_at(tube, self.string_a)?;
                others.push(tube.name.clone());
            }
        }
        Some(others)
    }

    fn parallel(&self, at: usize) -> SupplyQuestion {
        let own = self.lines.get(at).and_then(Line::wants).is_some_and(|tube| self.has_own_winding(tube));
        if own {
            return SupplyQuestion::Parallel { volts: None, spare_amps: None };
        }
        let amps = |(place, line): (usize, &Line<'b>)| -> Option<f64> {
            if let Line::Item(item) = line {
                return Some(item.lamp.map_or(0.0, |lamp| lamp.rated_a));
            }
            let tube = if place == at { line.wants() } else { line.in_place() }?;
            if !has_heater(tube) || self.has_own_winding(tube) {
                return Some(0.0);
            }
            heater_amps_at(tube, self.sheet.winding_v)
        };
        let spare_amps = self.sheet.winding_a.and_then(|most_a| {
            let sum_a: Option<f64> = self.lines.iter().enumerate().map(amps).sum();
            Some((most_a - sum_a?).max(0.0))
        });
        SupplyQuestion::Parallel { volts: self.sheet.winding_v, spare_amps }
    }

    /// Whether a rectifier is fed from another winding than the other tubes.
    pub fn has_own_winding(&self, tube: &Tube) -> bool {
        let other = |winding_v: f64| heater_amps_at(tube, Some(winding_v)).is_none();
        rectifies(tube) && (tube.heater_kind == Some(HeaterKind::Filament) || self.sheet.winding_v.is_some_and(other))
    }
}

/// Whether it has a heater at all: gas rectifiers and regulators have none.
pub(in crate::ask) fn has_heater(tube: &Tube) -> bool {
    tube.heater_kind != Some(HeaterKind::Cold)
}

/// Whether it feeds B+.
pub(in crate::ask) fn rectifies(tube: &Tube) -> bool {
    tube.unit_of(Function::Rectifier).is_some()
}

/// Amperes of the connection of a heater that is made for these volts; of the whole heater when the volts are not known.
fn heater_amps_at(tube: &Tube, volts: Option<f64>) -> Option<f64> {
    let figures = &tube.figures;
    let ways = [figures.heater_v.zip(figures.heater_a), figures.heater_parallel_v.zip(figures.heater_parallel_a)];
    let fits = |v: f64| volts.is_none_or(|volts| (v / volts - 1.0).abs() <= OTHER_WINDING);
    ways.into_iter().flatten().find(|(v, _)| fits(*v)).map(|row| row.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(heaters: SheetHeaters, types: &[&str]) -> JobSheet {
        let tubes =
            types.iter().map(|typed| SheetTube { r#type: (*typed).to_owned(), ..SheetTube::default() }).collect();
        JobSheet { heaters: Some(heaters), tubes, ..JobSheet::default() }
    }

    #[test]
    fn a_place_in_a_string() {
        let book = Book::shipped();
        let mut sheet = sheet(SheetHeaters::Series, &["cord 180 ohm", "35Z5", "50L6", "12SQ7", "12SK7", "12SA7"]);
        sheet.line_v = Some(121.0);
        let sockets = Sockets::of(&book, &sheet);
        let Some(SupplyQuestion::Series { amps, line_v, others, chassis_side, dropper_ohm }) = sockets.socket(3).supply
        else {
            panic!("a string")
        };
        assert_eq!((amps, line_v, chassis_side, dropper_ohm), (Some(0.15), Some(121.0), Some(2), Some(180.0)));
        assert_eq!(others.unwrap(), ["35Z5GT", "50L6GT", "12SK7", "12SA7"]);
        // Another is in the place of one; a lamp at the chassis end lifts the tubes before it by volts that are not counted.
        sheet.tubes[4].fitted = Some("12SG7".to_owned());
        sheet.tubes.push(SheetTube { r#type: "lamp 47".to_owned(), ..SheetTube::default() });
        let sockets = Sockets::of(&book, &sheet);
        let Some(SupplyQuestion::Series { others, chassis_side, dropper_ohm, .. }) = sockets.socket(3).supply else {
            panic!("a string")
        };
        assert_eq!((others.unwrap()[2].as_str(), chassis_side, dropper_ohm), ("12SG7", None, Some(222.0)));
        // One that is not known leaves the rest of the string untold.
        sheet.tubes[1].r#type = "35QQ9".to_owned();
        let sockets = Sockets::of(&book, &sheet);
        assert!(matches!(
            sockets.socket(3).supply,
            Some(SupplyQuestion::Series { others: None, chassis_side: None, .. })
        ));
    }

    #[test]
    fn what_a_winding_has_to_spare() {
        let book = Book::shipped();
        // 0.3 A each, 0.45 A for the output tube (common practice); the rectifier has a winding of its own.
        let mut sheet = sheet(SheetHeaters::Parallel, &["6SK7", "6SQ7", "6V6GT", "5Y3GT", "lamp 6.3 V 0.15 A"]);
        (sheet.winding_v, sheet.winding_a) = (Some(6.3), Some(1.5));
        let spare = |sheet: &JobSheet, at: usize| match Sockets::of(&book, sheet).socket(at).supply {
            Some(SupplyQuestion::Parallel { volts, spare_amps }) => (volts, spare_amps.map(|a| (a * 1e3).round())),
            _ => panic!("a winding"),
        };
        assert_eq!(spare(&sheet, 0), (Some(6.3), Some(300.0)));
        assert_eq!(spare(&sheet, 3), (None, None));
        sheet.tubes[1].r#type = "6QQ99".to_owned();
        assert_eq!(spare(&sheet, 0), (Some(6.3), None));
    }
}
