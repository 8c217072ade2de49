//! Two parts for one value.

use super::Joined;
use crate::quantity::tidy;
use crate::series::Series;

/// Two preferred values that together come nearest to one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The larger or equal one.
    pub first: f64,
    /// The other.
    pub second: f64,
    /// How they are joined.
    pub joined: Joined,
}

impl Pair {
    /// The value of both together: `adds` says how they are joined when their values add.
    pub fn together(self, adds: Joined) -> f64 {
        if self.joined == adds {
            self.first + self.second
        } else {
            self.first * self.second / (self.first + self.second)
        }
    }
}

/// The best pair of a series for a value, when it is nearer than the best single one. Ohms add in series, farads in parallel: `adds` says which.
///
/// `None` when a single one is as near, or the value is no positive finite number.
pub fn best_pair(value: f64, series: Series, adds: Joined) -> Option<Pair> {
    let other = if adds == Joined::Series { Joined::Parallel } else { Joined::Series };
    let off = |together: f64| (together - value).abs() / value;
    let mut least = off(series.nearest(value)?) * (1.0 - 1e-9) - 1e-9;
    let mut best = None;
    let mut take = |first: f64, second: Option<f64>, joined: Joined| {
        let Some(second) = second.filter(|second| *second > value / 1000.0 && *second < value * 1000.0) else { return };
        let pair = Pair { first: first.max(second), second: first.min(second), joined };
        let this = off(pair.together(adds));
        if this < least {
            least = this;
            best = Some(pair);
        }
    };
    // From the value down for a sum, up for the other: two decades are enough for a difference that matters.
    let mut down = series.at_most(value)?;
    let mut up = series.next_above(value)?;
    for _ in 0..2 * series.per_decade() {
        take(down, series.nearest(tidy(value - down)), adds);
        take(up, series.nearest(tidy(value * up / (up - value))), other);
        down = series.next_below(down)?;
        up = series.next_above(up)?;
    }
    best
}
