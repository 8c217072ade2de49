//! Units matched one to one.
//!
//! A spare triode may serve as the detector diode, grid and plate joined, where the other one is alike (7C6 replaced by 12AX7). Source:
//! common practice, no source.

use super::{Check, Fact};
use crate::book::pins::{MOST_UNITS, Part};
use crate::book::{Function, Tube};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "A tube that lacks one of the original's units, or whose units do something else, cannot do its work: 12AT6 (two diodes and a triode) and 12AT7 (two triodes) differ by one figure and share nothing.";

/// Units of the original matched with units of the candidate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Structure {
    /// For each unit of the original the candidate's unit that takes its place.
    pub partner: [Option<u8>; MOST_UNITS],
    /// For each unit of the candidate the number it gets in the original's numbering.
    pub order: [u8; MOST_UNITS],
    /// How it came out.
    pub fact: StructureFact,
    outcome: Outcome,
}

/// How the units match.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StructureFact {
    /// One to one.
    Match {
        /// Units the candidate has beyond that.
        spare: u8,
    },
    /// A tetrode stands for a pentode, or the other way round.
    TetrodeForPentode,
    /// A spare triode is wired as the diode.
    TriodeAsDiode {
        /// How many diodes of the original it has to serve.
        diodes: u8,
    },
    /// A unit of the original has no partner.
    Missing(Function),
    /// Grids grouped for another kind of converter.
    OtherConverter,
}

impl Structure {
    /// Matches units of like function; of several like ones the pairing with the fewest moved pins.
    pub fn match_units(original: &Tube, candidate: &Tube) -> Self {
        let (own, other) = (&original.units, &candidate.units);
        let mut partner = [None; MOST_UNITS];
        let mut taken = [false; MOST_UNITS];
        let mut fact = None;
        for (at, unit) in own.iter().enumerate().take(MOST_UNITS) {
            let free = |wanted: Function, taken: &[bool; MOST_UNITS]| {
                other.iter().take(MOST_UNITS).position_with(|at, unit| unit.function == wanted && !taken[at])
            };
            let found = free(unit.function, &taken).or_else(|| {
                let near = match unit.function {
                    Function::Tetrode => Function::Pentode,
                    Function::Pentode => Function::Tetrode,
                    _ => return None,
                };
                let found = free(near, &taken);
                if found.is_some() {
                    fact = Some(StructureFact::TetrodeForPentode);
                }
                found
            });
            if let Some(found) = found {
                partner[at] = Some(found as u8);
                taken[found] = true;
            }
        }
        let missing: UnitList = UnitList::of((0..own.len().min(MOST_UNITS)).filter(|&at| partner[at].is_none()));
        let spare = (0..other.len().min(MOST_UNITS)).filter(|&at| !taken[at]).count();
        let (fact, outcome) = if let Some(first) = missing.first() {
            let spare_triode =
                other.iter().take(MOST_UNITS).position_with(|at, unit| unit.function == Function::Triode && !taken[at]);
            let all_diodes = missing.iter().all(|at| own[at].function == Function::Diode);
            match spare_triode {
                Some(triode) if all_diodes && missing.len() <= 2 && like_triodes(original, candidate) => {
                    partner[first] = Some(triode as u8);
                    (StructureFact::TriodeAsDiode { diodes: missing.len() as u8 }, Outcome::NeedsChange)
                }
                _ => (StructureFact::Missing(own[first].function), Outcome::Fails),
            }
        } else if other_converter(original, candidate, partner) {
            (StructureFact::OtherConverter, Outcome::Fails)
        } else {
            let fact = fact.unwrap_or(StructureFact::Match { spare: spare as u8 });
            let outcome = if fact == StructureFact::TetrodeForPentode { Outcome::Differs } else { Outcome::Ok };
            (fact, outcome)
        };
        let mut structure = Self { partner, order: order_of(partner, own.len()), fact, outcome };
        structure.settle_like_units(original, candidate);
        structure
    }

    /// Of two like units either may stand for either: takes the pairing that leaves most electrodes on their pins.
    fn settle_like_units(&mut self, original: &Tube, candidate: &Tube) {
        let (Some(own), Some(other)) = (&original.pins, &candidate.pins) else { return };
        let kept = |order: &[u8; MOST_UNITS]| {
            let map = other.renumbered(order);
            own.pins.iter().zip(&map.pins).map(|(a, b)| a.common(*b).0.count_ones()).sum::<u32>()
        };
        let mut best = kept(&self.order);
        // Every swap of two partners of like function, repeated until none helps; four units at the most.
        for _ in 0..MOST_UNITS {
            let mut better = None;
            for a in 0..MOST_UNITS {
                for b in a + 1..MOST_UNITS {
                    let (Some(x), Some(y)) = (self.partner[a], self.partner[b]) else { continue };
                    let like = candidate.units.get(usize::from(x)).map(|unit| unit.function)
                        == candidate.units.get(usize::from(y)).map(|unit| unit.function);
                    if !like {
                        continue;
                    }
                    let mut partner = self.partner;
                    partner.swap(a, b);
                    let order = order_of(partner, original.units.len());
                    let count = kept(&order);
                    if count > best {
                        best = count;
                        better = Some((partner, order));
                    }
                }
            }
            let Some((partner, order)) = better else { return };
            (self.partner, self.order) = (partner, order);
        }
    }

    /// The check.
    pub fn check(&self) -> Check {
        let notice = !matches!(self.fact, StructureFact::Match { spare: 0 });
        Check::new(Fact::Structure(self.fact), self.outcome).noticed(notice)
    }

    /// Pairs of matched units, original first.
    pub fn pairs<'t>(
        &self,
        original: &'t Tube,
        candidate: &'t Tube,
    ) -> impl Iterator<Item = (&'t crate::book::Unit, &'t crate::book::Unit)> {
        let partner = self.partner;
        original.units.iter().zip(partner).filter_map(|(unit, partner)| {
            let other = candidate.units.get(usize::from(partner?))?;
            (unit.function == other.function || matches!(other.function, Function::Tetrode | Function::Pentode))
                .then_some((unit, other))
        })
    }
}

/// Whether the amplifying triodes are near enough alike that so makeshift a diode is worth the work: amplification factor within a quarter,
/// plate resistance within a factor of two.
fn like_triodes(original: &Tube, candidate: &Tube) -> bool {
    let triode =
        |tube: &Tube| tube.unit_of(Function::Triode).and_then(|unit| unit.figures.mu.zip(unit.figures.rp_kohm));
    match (triode(original), triode(candidate)) {
        (Some((mu, rp)), Some((other_mu, other_rp))) => {
            (other_mu / mu - 1.0).abs() <= 0.25 && other_rp / rp <= 2.0 && rp / other_rp <= 2.0
        }
        _ => false,
    }
}

/// The original's numbering for the candidate's units; units without partner get numbers beyond the original's.
fn order_of(partner: [Option<u8>; MOST_UNITS], own: usize) -> [u8; MOST_UNITS] {
    let mut order = [u8::MAX; MOST_UNITS];
    for (at, partner) in partner.iter().enumerate() {
        if let Some(slot) = partner.and_then(|unit| order.get_mut(usize::from(unit))) {
            *slot = at as u8;
        }
    }
    let mut free = (own..MOST_UNITS).chain(0..own).map(|at| at as u8);
    for at in 0..MOST_UNITS {
        if order[at] == u8::MAX {
            order[at] = free.by_ref().find(|number| !order.contains(number)).unwrap_or(3);
        }
    }
    order
}

/// Pentagrid converters come in two kinds that want different circuits: with an oscillator plate (grid 2 on its own) and
/// without (grids 2 and 4 joined). They are told apart by which grids come out together. A mixer that has its oscillator beside it, in a triode of its own
/// or in another bulb, is a third kind: it takes the signal on grid 1, which then sits on the cap.
fn other_converter(original: &Tube, candidate: &Tube, partner: [Option<u8>; MOST_UNITS]) -> bool {
    let beside = |tube: &Tube| tube.unit_of(Function::Triode).is_some();
    let alone = !beside(original);
    if alone && beside(candidate) && original.unit_of(Function::Heptode).is_some() {
        return true;
    }
    let grouping = |tube: &Tube, unit: usize| {
        let pins = tube.pins.as_ref()?;
        let grid = |part| crate::book::pins::Electrodes::part(unit, part);
        let joined = |a, b| pins.pins.iter().any(|on| on.meets(grid(a)) && on.meets(grid(b)));
        let signal_first = alone && pins.pins[0].meets(grid(Part::Grid1));
        Some((joined(Part::Grid2, Part::Grid4), joined(Part::Grid3, Part::Grid5), signal_first))
    };
    original.units.iter().zip(partner).enumerate().any(|(at, (unit, partner))| {
        unit.function == Function::Heptode
            && partner.is_some_and(|other| match (grouping(original, at), grouping(candidate, usize::from(other))) {
                (Some(a), Some(b)) => a != b,
                _ => false,
            })
    })
}

/// `position` that gives the place to the predicate too.
trait PositionWith: Iterator + Sized {
    fn position_with(self, test: impl Fn(usize, Self::Item) -> bool) -> Option<usize> {
        self.enumerate().find_map(|(at, item)| test(at, item).then_some(at))
    }
}

impl<I: Iterator> PositionWith for I {}

/// Up to four unit numbers, without the heap.
struct UnitList {
    items: [usize; MOST_UNITS],
    len: usize,
}

impl UnitList {
    fn of(all: impl Iterator<Item = usize>) -> Self {
        let mut this = Self { items: [0; MOST_UNITS], len: 0 };
        for item in all.take(MOST_UNITS) {
            this.items[this.len] = item;
            this.len += 1;
        }
        this
    }

    fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        self.items.iter().take(self.len).copied()
    }

    fn first(&self) -> Option<usize> {
        self.iter().next()
    }

    fn len(&self) -> usize {
        self.len
    }
}
