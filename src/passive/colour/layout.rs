//! The layouts: which mark says what.

use super::Family;
use super::meaning::Field::{
    self, Characteristic as C, Failures, Figure as F, MoreVolts, Multiplier as M, Ppm, PpmFigure, PpmTimes, Resistance,
    Tolerance as T, Type, Volts as V,
};
use super::meaning::Mould;
use crate::passive::Tolerance;

/// A layout's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Bands of IEC 60062.
    Bands,
    /// Bands with a last one for the failure rate, on military composition parts of the 1950s to 1970s (from memory).
    BandsWithFailures,
    /// Body, end, dot.
    BodyEndDot,
    /// RMA mica, dots in one row.
    RmaMica,
    /// RMA mica with three figures: the upper row, then volts, tolerance, multiplier below (from memory).
    RmaMicaThreeFigures,
    /// RMA mica with three figures and no volts (from memory).
    RmaMicaNoVolts,
    /// JAN (AWS) mica: a black type dot.
    JanMica,
    /// EIA mica: a white type dot.
    EiaMica,
    /// Moulded paper in a mica case: a silver type dot.
    MouldedPaper,
    /// Moulded paper tubular.
    PaperTubular,
    /// Ceramic with a temperature coefficient.
    Ceramic,
    /// Ceramic with a coefficient of two marks (EIA extended range, from memory).
    CeramicExtended,
    /// Ceramic for general purpose.
    CeramicPlain,
}

/// What each mark of a part says.
#[derive(Debug, PartialEq)]
pub struct Layout {
    /// The part it is on.
    pub family: Family,
    /// Its name.
    pub style: Style,
    /// What each mark says, in the order the marks are given.
    pub fields: &'static [Field],
    /// One of what the value counts: an ohm, a picofarad.
    pub unit: f64,
    /// The tolerance without a mark.
    pub tolerance: Option<Tolerance>,
    /// The volts without a mark.
    pub volts: Option<f64>,
    /// Whether it can be read from the wrong end.
    pub turns: bool,
}

impl Eq for Layout {}

const TWENTY: Option<Tolerance> = Some(Tolerance::even(20.0));

const fn resistor(family: Family, style: Style, fields: &'static [Field]) -> Layout {
    let turns = matches!(style, Style::Bands);
    let tolerance = if fields.len() == 3 { TWENTY } else { None };
    Layout { family, style, fields, unit: 1.0, tolerance, volts: None, turns }
}

const fn capacitor(family: Family, style: Style, fields: &'static [Field], volts: Option<f64>, turns: bool) -> Layout {
    let tolerance = if fields.len() == 3 { TWENTY } else { None };
    Layout { family, style, fields, unit: 1e-12, tolerance, volts, turns }
}

impl Layout {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        resistor(Family::ResistorBands, Style::Bands, &[F, F, M]),
        resistor(Family::ResistorBands, Style::Bands, &[F, F, M, T]),
        resistor(Family::ResistorBands, Style::Bands, &[F, F, F, M, T]),
        resistor(Family::ResistorBands, Style::BandsWithFailures, &[F, F, M, T, Failures]),
        resistor(Family::ResistorBands, Style::Bands, &[F, F, F, M, T, Resistance]),
        resistor(Family::BodyEndDot, Style::BodyEndDot, &[F, F, M]),
        resistor(Family::BodyEndDot, Style::BodyEndDot, &[F, F, M, T]),
        capacitor(Family::MicaDots, Style::RmaMica, &[F, F, M], Some(500.0), true),
        capacitor(Family::MicaDots, Style::RmaMica, &[F, F, M, V, T], Some(500.0), false),
        capacitor(Family::MicaDots, Style::RmaMicaNoVolts, &[F, F, F, T, M], Some(500.0), false),
        capacitor(Family::MicaDots, Style::RmaMicaThreeFigures, &[F, F, F, V, T, M], Some(500.0), false),
        capacitor(Family::MicaDots, Style::JanMica, &[Type(Mould::Jan), F, F, C, T, M], None, true),
        capacitor(Family::MicaDots, Style::EiaMica, &[Type(Mould::Eia), F, F, C, T, M], None, true),
        capacitor(
            Family::MicaDots,
            Style::MouldedPaper,
            &[Type(Mould::Paper), F, F, Field::PaperCharacteristic, T, M],
            None,
            true,
        ),
        capacitor(Family::PaperBands, Style::PaperTubular, &[F, F, M, T, V], None, true),
        capacitor(Family::PaperBands, Style::PaperTubular, &[F, F, M, T, V, MoreVolts], None, true),
        capacitor(Family::Ceramic, Style::CeramicPlain, &[F, F, M], Some(500.0), true),
        capacitor(Family::Ceramic, Style::Ceramic, &[Ppm, F, F, M, T], None, true),
        capacitor(Family::Ceramic, Style::CeramicExtended, &[PpmFigure, PpmTimes, F, F, M, T], None, true),
    ];
}
