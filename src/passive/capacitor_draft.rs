//! One reading of a capacitor marking while it is put together, piece by piece.

use super::bare_figures::{Split, units};
use super::capacitor_code::Coded;
use super::{Assumed, CapacitorHint, MarkedSection, TemperatureCode, Tolerance};

/// No can has more sections.
const MOST_SECTIONS: usize = 6;

/// A reading that grows.
#[derive(Debug, Clone, Default)]
pub(super) struct Draft {
    pub sections: Vec<MarkedSection>,
    /// Volts that came before any value, or after every section had its own.
    spare_volts: Option<f64>,
    pub tolerance: Option<Tolerance>,
    pub temperature: Option<TemperatureCode>,
    pub assumed: Vec<Assumed>,
}

impl Draft {
    pub fn has_value(&self) -> bool {
        !self.sections.is_empty()
    }

    pub fn assuming(mut self, assumed: Assumed) -> Self {
        if !self.assumed.contains(&assumed) {
            self.assumed.push(assumed);
        }
        self
    }

    pub fn with_values(mut self, farads: &[f64]) -> Self {
        self.sections.extend(farads.iter().map(|farad| MarkedSection { farad: *farad, volts: None }));
        self
    }

    pub fn with_code(mut self, code: &Coded) -> Self {
        self.sections.push(MarkedSection { farad: code.farad, volts: code.volts });
        self.tolerance = self.tolerance.or(code.tolerance);
        self.temperature = self.temperature.or(code.temperature);
        match code.assumed {
            Some(assumed) => self.assuming(assumed),
            None => self,
        }
    }

    /// Volts belong to the sections before them that have none yet.
    pub fn with_volts(mut self, volts: &[f64]) -> Self {
        let highest = volts.iter().copied().fold(0.0, f64::max);
        let mut open: Vec<&mut MarkedSection> =
            self.sections.iter_mut().filter(|section| section.volts.is_none()).collect();
        if open.is_empty() {
            self.spare_volts = Some(self.spare_volts.unwrap_or(0.0).max(highest));
            return self;
        }
        let one_to_one = open.len() == volts.len();
        let mismatch = !one_to_one && volts.len() > 1;
        for (index, section) in open.iter_mut().enumerate() {
            section.volts = Some(if one_to_one { volts.get(index).copied().unwrap_or(highest) } else { highest });
        }
        if mismatch { self.assuming(Assumed::HighestVoltsForAll) } else { self }
    }

    /// Every reading of figures without a unit, as continuations of this one.
    pub fn with_split(&self, split: &Split, volts_elsewhere: Option<f64>, hint: CapacitorHint) -> Vec<Self> {
        let volts = split.volts.first().copied().or(volts_elsewhere);
        units(&split.values, volts, hint)
            .into_iter()
            .map(|(farads, assumed)| {
                let mut next = self.clone().with_values(&farads).assuming(assumed);
                if !split.volts.is_empty() {
                    next = next.with_volts(&split.volts);
                }
                match split.assumed {
                    Some(assumed) => next.assuming(assumed),
                    None => next,
                }
            })
            .collect()
    }

    /// The draft when nothing more comes; `None` when it has no section, or more than any can has.
    pub fn finish(mut self) -> Option<Self> {
        if self.sections.is_empty() || self.sections.len() > MOST_SECTIONS {
            return None;
        }
        // Volts written before the value, or a second figure behind it: never less than the highest.
        if let Some(volts) = self.spare_volts {
            for section in &mut self.sections {
                section.volts = Some(section.volts.unwrap_or(volts).max(volts));
            }
        }
        Some(if self.sections.len() > 1 { self.assuming(Assumed::CommonNegative) } else { self })
    }
}
