//! Bodies that resistors are sold in, and the volts each may see.

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
}

impl Body {
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
        Self { construction: Construction::MetalFilm, watts, limit_v: Some(limit_v) }
    }

    const fn oxide(watts: f64, limit_v: f64) -> Self {
        Self { construction: Construction::MetalOxide, watts, limit_v: Some(limit_v) }
    }

    const fn wire_wound(watts: f64) -> Self {
        Self { construction: Construction::WireWound, watts, limit_v: None }
    }

    /// The most volts it may see at this value: the lesser of sqrt(P R) and its limit (MIL-R-10509 3.6).
    pub fn working_v(self, ohm: f64) -> f64 {
        let by_heat = (self.watts * ohm).sqrt();
        self.limit_v.map_or(by_heat, |limit_v| by_heat.min(limit_v))
    }
}
