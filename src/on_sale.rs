//! What is sold: values, ratings and bodies of new capacitors and resistors.
//!
//! The tables `capacitors.csv` and `resistors.csv` of the book say it, and a user may say otherwise of his drawers and his country; what is
//! built in here is what the shipped tables say (a test holds them together), for an engine that is asked without a book.

use crate::series::{Series, VoltageLadder};

/// What a capacitor is made of, as far as shops tell them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelf {
    /// Polypropylene or polyester film.
    Film,
    /// Aluminium electrolytic.
    Electrolytic,
    /// Silvered mica and class 1 ceramic.
    Mica,
    /// Class 2 ceramic disc.
    CeramicDisc,
    /// Class X2.
    ClassX2,
    /// Class Y2.
    ClassY2,
    /// Class Y1.
    ClassY1,
}

impl Shelf {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Film, Self::Electrolytic, Self::Mica, Self::CeramicDisc, Self::ClassX2, Self::ClassY2, Self::ClassY1];
    /// Their names, in the same order.
    pub const WORDS: [&'static str; 7] =
        ["film", "electrolytic", "mica", "ceramic disc", "class X2", "class Y2", "class Y1"];
}

/// What one kind of capacitor is sold in.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacitors {
    /// Which kind.
    pub shelf: Shelf,
    /// The smallest and the largest, farads.
    pub farads: (f64, f64),
    /// The series in stock, the one in every drawer first.
    pub series: Vec<Series>,
    /// Rated volts, ascending; AC for the safety classes.
    pub volts: Vec<f64>,
}

impl Capacitors {
    /// The least rating that is not below these volts; `None` when nothing is sold so high, or the figure is no positive finite number.
    pub fn at_least(&self, volts: f64) -> Option<f64> {
        if !(volts > 0.0 && volts.is_finite()) {
            return None;
        }
        self.volts.iter().copied().find(|step| *step >= volts * (1.0 - 1e-9))
    }
}

/// Everything that is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct OnSale {
    /// In the order of [`Shelf::ALL`].
    capacitors: [Capacitors; 7],
    /// Bodies of resistors, the smallest first.
    pub bodies: Vec<Body>,
}

impl Default for OnSale {
    /// What the shipped tables say. Ranges and series: from memory of what is stocked.
    fn default() -> Self {
        use Series::{E6, E12, E24};
        let ladder = |shelf: Shelf, least: f64, most: f64, series: &[Series], ladder: VoltageLadder| Capacitors {
            shelf,
            farads: (least, most),
            series: series.to_vec(),
            volts: ladder.volts().to_vec(),
        };
        Self {
            capacitors: [
                ladder(Shelf::Film, 0.1e-9, 50e-6, &[E6, E12, E24], VoltageLadder::FilmDc),
                ladder(Shelf::Electrolytic, 0.47e-6, 10e-3, &[E6], VoltageLadder::Electrolytic),
                ladder(Shelf::Mica, 0.1e-12, 10e-9, &[E12, E24], VoltageLadder::Mica),
                ladder(Shelf::CeramicDisc, 1e-12, 100e-9, &[E6, E12, E24], VoltageLadder::CeramicDisc),
                ladder(Shelf::ClassX2, 1e-9, 10e-6, &[E6], VoltageLadder::X2Ac),
                ladder(Shelf::ClassY2, 10e-12, 10e-9, &[E6], VoltageLadder::Y2Ac),
                ladder(Shelf::ClassY1, 10e-12, 4.7e-9, &[E6], VoltageLadder::Y1Ac),
            ],
            bodies: Body::ALL.to_vec(),
        }
    }
}

impl OnSale {
    /// What is built in, with what tables say over it.
    pub fn with(capacitors: &[Capacitors], bodies: &[Body]) -> Self {
        let mut on_sale = Self::default();
        for said in capacitors {
            if let Some(slot) = on_sale.capacitors.iter_mut().find(|slot| slot.shelf == said.shelf) {
                slot.clone_from(said);
            }
        }
        if !bodies.is_empty() {
            on_sale.bodies = bodies.to_vec();
            crate::order::sort_few(&mut on_sale.bodies, |body| (body.watts * 1000.0) as u32);
        }
        on_sale
    }

    /// What one kind of capacitor is sold in.
    pub fn capacitors(&self, shelf: Shelf) -> &Capacitors {
        // Every kind is there: `default` puts them in, and `with` only replaces them.
        &self.capacitors[shelf as usize]
    }
}

/// How the new resistor is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Construction {
    /// Metal film.
    MetalFilm,
    /// Metal oxide film, flameproof.
    MetalOxide,
    /// Wire-wound.
    WireWound,
}

/// One body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// How it is made.
    pub construction: Construction,
    /// Rated watts.
    pub watts: f64,
    /// The most volts it may see whatever its value; `None` where the maker's sheet has to be asked.
    pub limit_v: Option<f64>,
    /// The series it is stocked in.
    pub series: Series,
    /// The smallest and the largest value, ohms.
    pub ohms: (f64, f64),
}

impl Body {
    /// The constructions, as the table names them.
    pub const CONSTRUCTIONS: [(&'static str, Construction); 3] = [
        ("metal film", Construction::MetalFilm),
        ("metal oxide", Construction::MetalOxide),
        ("wire-wound", Construction::WireWound),
    ];

    /// Whether it is made in about this value.
    pub fn made_in(&self, ohm: f64) -> bool {
        let (least, most) = self.ohms;
        (least * (1.0 - 1e-9)..=most * (1.0 + 1e-9)).contains(&ohm)
    }

    /// The bodies in stock, the smallest first.
    ///
    /// Limits: makers' sheets of film resistors, the lower figure where makers differ (1/2 W 300 or 350 V, 1 W 350 to 500 V, 2 W
    /// 500 to 750 V). No sheet was seen for 3 W; a larger body bears no less, so it has the limit of 2 W.
    pub const ALL: [Self; 9] = [
        Self::film(0.25, 250.0),
        Self::film(0.5, 300.0),
        Self::oxide(1.0, 350.0),
        Self::oxide(2.0, 500.0),
        Self::oxide(3.0, 500.0),
        Self::wire_wound(5.0),
        Self::wire_wound(10.0),
        Self::wire_wound(25.0),
        Self::wire_wound(50.0),
    ];

    const fn film(watts: f64, limit_v: f64) -> Self {
        Self {
            construction: Construction::MetalFilm,
            watts,
            limit_v: Some(limit_v),
            series: Series::E24,
            ohms: (1.0, 22e6),
        }
    }

    const fn oxide(watts: f64, limit_v: f64) -> Self {
        Self {
            construction: Construction::MetalOxide,
            watts,
            limit_v: Some(limit_v),
            series: Series::E24,
            ohms: (0.1, 10e6),
        }
    }

    const fn wire_wound(watts: f64) -> Self {
        Self { construction: Construction::WireWound, watts, limit_v: None, series: Series::E12, ohms: (0.1, 100e3) }
    }

    /// The most volts it may see at this value: the lesser of sqrt(P R) and its limit (MIL-R-10509 3.6).
    pub fn working_v(self, ohm: f64) -> f64 {
        let by_heat = (self.watts * ohm).sqrt();
        self.limit_v.map_or(by_heat, |limit_v| by_heat.min(limit_v))
    }
}
