//! Rated voltages of filter capacitors, judged against the worst volts of the place.

/// Rated volts of electrolytics at which a person may have one in hand: today's, the 315 V of some makers, the 150 V of old.
/// (What can be counted on in a shop is the shorter list in `series`.)
const LADDER_V: [f64; 9] = [150.0, 160.0, 200.0, 250.0, 315.0, 350.0, 400.0, 450.0, 500.0];

/// One rated voltage against the worst volts across the first filter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapacitorRating {
    /// Rated volts.
    pub rated_v: f64,
    /// Rating over worst volts, percent; negative when too low.
    pub margin_percent: f64,
}

impl CapacitorRating {
    /// Judges one rating.
    pub fn of(rated_v: f64, worst_v: f64) -> Self {
        Self { rated_v, margin_percent: (rated_v / worst_v - 1.0) * 100.0 }
    }

    /// Whether it bears the worst volts at all.
    pub fn is_enough(&self) -> bool {
        self.margin_percent >= 0.0
    }

    /// Whether it does so with less than 10 percent to spare.
    pub fn is_close(&self) -> bool {
        self.is_enough() && self.margin_percent < 10.0
    }
}

/// Every rating of the ladder judged, lowest first.
pub fn filter_ratings(worst_v: f64) -> Vec<CapacitorRating> {
    LADDER_V.into_iter().map(|rated_v| CapacitorRating::of(rated_v, worst_v)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1.1 times the crest of 123 V is 191.3 V.
    #[test]
    fn the_ladder_is_judged_step_by_step() {
        let ratings = filter_ratings(191.3);
        let enough: Vec<f64> =
            ratings.iter().filter(|rating| rating.is_enough()).map(|rating| rating.rated_v).collect();
        assert_eq!(enough, [200.0, 250.0, 315.0, 350.0, 400.0, 450.0, 500.0]);
        let close: Vec<f64> = ratings.iter().filter(|rating| rating.is_close()).map(|rating| rating.rated_v).collect();
        assert_eq!(close, [200.0]);
    }
}
