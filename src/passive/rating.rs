//! Which rated volts to buy for a DC place.

use crate::on_sale::Capacitors;

/// What the rating was chosen by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// The rating of the old part alone.
    Old,
    /// The volts of the place, with margin; and not below the old part.
    Place,
    /// The volts of the place, with margin; below the old rating, which is not sold.
    PlaceBelowOld,
    /// Neither is known: the rating that is usual.
    Usual,
}

/// Rated volts to buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// Rated volts DC of the part.
    pub rated_v: f64,
    /// The highest cold-start volts, at the nominal line, that this rating bears with its margin.
    pub good_to_v: f64,
    /// What it was chosen by.
    pub basis: Basis,
}

/// How ratings are chosen for one kind of part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RatingRule<'s> {
    /// The ratings sold.
    pub ladder: &'s Capacitors,
    /// Times the cold-start volts of the place.
    pub margin: f64,
    /// Not below this, because what is usually sold is not.
    pub floor_v: f64,
    /// When nothing is known.
    pub usual_v: f64,
}

impl RatingRule<'_> {
    /// The rating to buy; the least volts it must have, when none is sold so high.
    ///
    /// It is never below the old rating, unless nothing so high is sold and the place is known to allow less.
    pub fn choose(self, old_v: Option<f64>, circuit_v: Option<f64>) -> Result<Rating, f64> {
        let place_v = circuit_v.map(|volts| volts * self.margin);
        let (needed_v, basis) = match (old_v, place_v) {
            (None, None) => (self.usual_v, Basis::Usual),
            (Some(old_v), None) => (old_v, Basis::Old),
            (old_v, Some(place_v)) => (place_v.max(old_v.unwrap_or(0.0)), Basis::Place),
        };
        let rating = |rated_v: f64, basis: Basis| Rating { rated_v, good_to_v: rated_v / self.margin, basis };
        if let Some(rated_v) = self.ladder.at_least(needed_v.max(self.floor_v)) {
            return Ok(rating(rated_v, basis));
        }
        place_v
            .and_then(|place_v| self.ladder.at_least(place_v.max(self.floor_v)))
            .map(|rated_v| rating(rated_v, Basis::PlaceBelowOld))
            .ok_or(needed_v)
    }
}

/// Film bears 1.5 times the cold-start volts of its place.
pub(super) const FILM_MARGIN: f64 = 1.5;

/// At the plate of an output tube the volts swing to about twice the supply, and film wants 1.5 times that.
pub(super) const TONE_MARGIN: f64 = 3.0;

/// An electrolytic is bought for the cold-start volts of a line 10 % high; further derating gains it nothing.
pub(super) const ELECTROLYTIC_MARGIN: f64 = 1.1;
