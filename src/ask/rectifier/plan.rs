//! The figures of the answer: target, resistor, diode, and the set solved at three line voltages.

use super::original::Original;
use super::{
    CloserResistor, DiodeChoice, LineCase, RectifierQuestion, RectifierTopology, ResistorChoice, StartPoint,
    SweepPoint, WaveformPoint, tidy,
};
use crate::ask::ErrorAnswer;
use crate::quantity::{milliamp, ohm, plain_figure, volt};
use crate::series::{Series, power_rating_w};
use crate::supply::{
    Circuit, ColdStart, Diode, Filter, Load, Rectifier, Steady, Topology, Trouble, cold_start, cycle, diode_for,
    inverse_needed_v, nearest_in_effect, neighbours, series_for, start_up, steady, winding_ohm,
};

/// House wiring, cord and plug, ohms. Common practice, no source; a smaller figure would only raise the inrush.
pub(in crate::ask) const LINE_OHM: f64 = 1.0;
/// How far the line is taken to swing either way.
pub(super) const LINE_SWING: f64 = 0.1;
/// The switch-on surge is held to this, amperes: half of what the smallest diode bears.
const INRUSH_A: f64 = 15.0;
/// Peak inverse volts are to be had with this to spare, where a diode is made for it.
const INVERSE_MARGIN: f64 = 1.2;
/// A B+ this close to the target needs no resistor, as a share of it.
const CLOSE: f64 = 0.015;
/// A value of E24 is worth a look where it comes so much closer to the target than that of E12, as a share of the target.
const CLOSER: f64 = 0.005;
/// A wire-wound part bears about 5 J for each watt of its rating in a pulse of a millisecond (a maker's pulse note: 24.5 J for
/// a 5 W part); four times the energy of one switch-on is asked for.
const PULSE_J_PER_W: f64 = 4.9 / 4.0;
const WAVEFORM_POINTS: u32 = 60;
const SWEEP_POINTS: usize = 5;

/// What the chosen resistor does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Does {
    /// It brings B+ to the target.
    Restores,
    /// It only limits the surge; B+ is at or below the target without one.
    LimitsSurge,
    /// None is needed.
    Nothing,
}

/// The set at one line voltage.
#[derive(Debug, Clone)]
pub(super) struct LineFigures {
    pub name: &'static str,
    pub line_v: f64,
    pub warm: Steady,
    pub cold: ColdStart,
}

/// Everything the sentences draw on.
pub(super) struct Plan {
    /// Silicon with the chosen resistor, at the line voltage given.
    pub circuit: Circuit,
    /// The same without the chosen resistor.
    pub with_load: Circuit,
    pub target_v: f64,
    /// B+ of the original with the most, the usual and the least drop, lowest first; none when its law is not known.
    pub original_v: Option<[f64; 3]>,
    /// B+ of an aged selenium stack, lowest first; none of anything else, or where it could not carry the load.
    pub aged_v: Option<[f64; 2]>,
    /// B+ of silicon without a further resistor.
    pub bare_v: f64,
    pub does: Does,
    /// A value of E24 that comes clearly closer to the target than the one chosen, if there is one.
    pub closer: Option<CloserResistor>,
    pub exact_ohm: f64,
    pub least_ohm: f64,
    pub most_ohm: f64,
    /// At -10 %, as given, +10 %.
    pub lines: [LineFigures; 3],
    pub diode: Diode,
    /// How many of them in series stand the inverse volts, as a rule one.
    pub diode_count: u32,
    pub needed_inverse_v: f64,
}

impl Plan {
    pub fn make(question: &RectifierQuestion, original: Option<&Original<'_>>) -> Result<Self, ErrorAnswer> {
        let said = |trouble: Trouble| refused(question, &trouble);
        let fixed = circuit(question, None)?;
        // A load of fixed current shows whether the set can draw it at all.
        let bare = steady(&fixed).map_err(said)?;
        let original_v = match original.and_then(|original| original.laws) {
            None => None,
            Some(laws) => {
                let v = |law: Rectifier| steady(&fixed.with_rectifier(law)).map(|warm| warm.first_v);
                match laws.map(v) {
                    [Ok(least_drop), Ok(usual), Ok(most_drop)] => Some([most_drop, usual, least_drop]),
                    // With a target given the original is only a comparison.
                    _ if question.target_v.is_some() => None,
                    [least_drop, usual, most_drop] => {
                        return Err(least_drop.and(usual).and(most_drop).map_or_else(said, |_| no_target(original)));
                    }
                }
            }
        };
        let Some(target_v) = question.target_v.or(original_v.map(|[_, usual, _]| usual)) else {
            return Err(no_target(original));
        };
        let circuit = circuit(question, Some(target_v))?;
        let resistance = |target_v: f64| match series_for(&circuit, target_v) {
            Err(Trouble::TargetTooHigh { .. }) => Ok(0.0),
            other => other.map_err(said),
        };
        let exact_ohm = resistance(target_v)?;
        let (least_ohm, most_ohm) = match (question.target_v, original_v) {
            (None, Some([low_v, _, high_v])) => (resistance(high_v)?, resistance(low_v)?),
            _ => (exact_ohm, exact_ohm),
        };
        // The tubes draw less as B+ sags.
        let aged_v = original.and_then(|original| original.aged).and_then(|[least_drop, most_drop]| {
            let v = |law| steady(&circuit.with_rectifier(law)).ok().map(|warm| warm.first_v);
            Some([v(most_drop)?, v(least_drop)?])
        });
        let surge_ohm = (1.0 + LINE_SWING) * circuit.crest_v() / INRUSH_A - circuit.source_ohm;
        let (does, ohm) = choose(&circuit, target_v, bare.first_v, exact_ohm, surge_ohm).map_err(said)?;
        let with_load = circuit;
        let circuit = with_load.with_series_ohm(ohm);
        let line = |name, share: f64| -> Result<LineFigures, Trouble> {
            let there = circuit.with_line_v(share * circuit.line_v);
            Ok(LineFigures { name, line_v: share * question.line_v, warm: steady(&there)?, cold: cold_start(&there)? })
        };
        let lines = [
            line("low", 1.0 - LINE_SWING).map_err(said)?,
            line("nominal", 1.0).map_err(said)?,
            line("high", 1.0 + LINE_SWING).map_err(said)?,
        ];
        let [_, _, high] = &lines;
        let needed_inverse_v = inverse_needed_v(circuit.topology, circuit.line_v);
        // One diode, with a margin if it is to be had; above that several in series, with the margin.
        let (diode_count, diode) =
            [(1, INVERSE_MARGIN), (1, 1.0), (2, INVERSE_MARGIN), (3, INVERSE_MARGIN), (5, INVERSE_MARGIN)]
                .into_iter()
                .find_map(|(count, margin)| {
                    let inverse_v = margin * needed_inverse_v / f64::from(count);
                    Some((count, diode_for(inverse_v, high.warm.each_dc_ma / 1e3, high.cold.inrush_a)?))
                })
                .ok_or_else(|| {
                    let accepted = "a line and load for which one diode in common use is made";
                    ErrorAnswer::new("load_ma", milliamp(question.load_ma), accepted)
                })?;
        let mut plan = Self {
            circuit,
            with_load,
            target_v,
            original_v,
            aged_v,
            bare_v: bare.first_v,
            does,
            closer: None,
            exact_ohm,
            least_ohm,
            most_ohm,
            lines,
            diode,
            diode_count,
            needed_inverse_v,
        };
        plan.closer = plan.closer(surge_ohm);
        Ok(plan)
    }

    /// Whether the band of the original is wider than the step to the next value.
    pub fn is_wide(&self) -> bool {
        let chosen_ohm = self.circuit.series_ohm;
        let near = neighbours(Series::E12, chosen_ohm, 2);
        let first = near.first().copied().unwrap_or(0.0);
        let next = near.iter().copied().find(|value| *value > chosen_ohm).unwrap_or(f64::INFINITY);
        self.does == Does::Restores && (self.least_ohm <= first || self.most_ohm >= next)
    }

    /// The value of E24 that comes clearly closer to the target than the one chosen, and holds the surge too. A target that is
    /// itself less certain than a step of E12 has none.
    fn closer(&self, surge_ohm: f64) -> Option<CloserResistor> {
        let (circuit, target_v) = (&self.with_load, self.target_v);
        let ohm = match self.does {
            Does::Restores if !self.is_wide() => {
                nearest_in_effect(Series::E24, circuit, target_v, self.exact_ohm).ok()?
            }
            Does::LimitsSurge => Series::E24.at_least(surge_ohm.max(1.0))?,
            _ => return None,
        };
        let with = circuit.with_series_ohm(ohm);
        let warm_v = steady(&with).ok()?.first_v;
        let missed_v = |v: f64| (v - target_v).abs();
        if ohm < surge_ohm || missed_v(self.nominal().warm.first_v) - missed_v(warm_v) < CLOSER * target_v {
            return None;
        }
        let high = with.with_line_v((1.0 + LINE_SWING) * with.line_v);
        let rated_w = rated_w(&steady(&high).ok()?, &cold_start(&high).ok()?)?;
        Some(CloserResistor { ohm, warm_v: tidy(warm_v, 1), rated_w })
    }

    pub fn nominal(&self) -> &LineFigures {
        let [_, nominal, _] = &self.lines;
        nominal
    }

    pub fn high(&self) -> &LineFigures {
        let [_, _, high] = &self.lines;
        high
    }

    /// The most volts a first filter capacitor gets: cold, at high line; in a full-wave doubler each of the two.
    pub fn worst_v(&self) -> f64 {
        self.each_share() * self.high().cold.crest_v
    }

    /// What part of the output stands across one first filter capacitor.
    pub fn each_share(&self) -> f64 {
        if matches!(self.circuit.topology, Topology::FullWaveDoubler { .. }) { 0.5 } else { 1.0 }
    }

    /// Watts to buy for the resistor: twice the heat at high line, and enough wire for the switch-on pulse; none when none
    /// that large is sold.
    pub fn rated_w(&self) -> Option<f64> {
        let high = self.high();
        rated_w(&high.warm, &high.cold)
    }

    /// "1N4007", "two 1N4007 in series".
    pub fn diode_words(&self) -> String {
        match self.diode_count {
            1 => self.diode.name.to_owned(),
            count => format!("{count} x {} in series", self.diode.name),
        }
    }

    pub fn start(&self, question: &RectifierQuestion) -> Result<Vec<StartPoint>, ErrorAnswer> {
        let points = start_up(&self.circuit).map_err(|trouble| refused(question, &trouble))?;
        Ok(points
            .into_iter()
            .map(|point| StartPoint {
                s: tidy(point.s, 3),
                first_filter_v: tidy(point.first_v, 1),
                filtered_v: point.second_v.map(|v| tidy(v, 1)),
            })
            .collect())
    }

    pub fn diode_choice(&self) -> DiodeChoice {
        DiodeChoice {
            name: self.diode_words(),
            peak_inverse_v: self.diode.inverse_v * f64::from(self.diode_count),
            needed_inverse_v: tidy(self.needed_inverse_v, 0),
            forward_a: self.diode.forward_a,
            surge_a: self.diode.surge_a,
        }
    }

    pub fn resistor_choice(&self) -> Option<ResistorChoice> {
        // A band is never told narrower than it is.
        let outward = |end_ohm: f64, whole: fn(f64) -> f64| {
            if self.least_ohm < self.most_ohm { whole(10.0 * end_ohm) / 10.0 } else { tidy(end_ohm, 1) }
        };
        (self.does != Does::Nothing).then(|| ResistorChoice {
            ohm: self.circuit.series_ohm,
            exact_ohm: tidy(self.exact_ohm, 1),
            least_ohm: outward(self.least_ohm, f64::floor),
            most_ohm: outward(self.most_ohm, f64::ceil),
            dissipates_w: tidy(self.nominal().warm.series_w, 2),
            rated_w: self.rated_w().unwrap_or_else(|| (2.0 * self.high().warm.series_w).ceil()),
            pulse_j: tidy(self.high().cold.pulse_j, 2),
            closer: self.closer.clone(),
        })
    }

    /// Warm B+ and heat for the preferred values about the one chosen.
    pub fn sweep(&self) -> Vec<SweepPoint> {
        let about = if self.does == Does::Nothing { 22.0 } else { self.circuit.series_ohm };
        neighbours(Series::E12, about, 3)
            .into_iter()
            .take(SWEEP_POINTS)
            .filter_map(|ohm| {
                let warm = steady(&self.circuit.with_series_ohm(ohm)).ok()?;
                Some(SweepPoint { ohm, warm_v: tidy(warm.first_v, 1), dissipates_w: tidy(warm.series_w, 2) })
            })
            .collect()
    }

    pub fn waveform(&self, question: &RectifierQuestion) -> Result<Vec<WaveformPoint>, ErrorAnswer> {
        let points = cycle(&self.circuit, WAVEFORM_POINTS).map_err(|trouble| refused(question, &trouble))?;
        Ok(points
            .into_iter()
            .map(|point| WaveformPoint {
                ms: tidy(point.ms, 3),
                first_filter_v: tidy(point.first_v, 2),
                current_ma: tidy(point.rectifier_ma, 1),
            })
            .collect())
    }
}

impl LineFigures {
    pub fn view(&self) -> LineCase {
        LineCase {
            line: self.name.to_owned(),
            line_v: tidy(self.line_v, 1),
            cold_v: tidy(self.cold.crest_v, 1),
            warm_v: tidy(self.warm.first_v, 1),
            filtered_v: self.warm.second_v.map(|v| tidy(v, 1)),
            ripple_v: tidy(self.warm.first_ripple_v, 1),
            filtered_ripple_v: self.warm.second_ripple_v.map(|v| tidy(v, 2)),
            dc_ma: tidy(self.warm.dc_ma, 1),
            rms_ma: tidy(self.warm.rms_ma, 1),
            peak_a: tidy(self.warm.peak_a, 3),
            inrush_a: tidy(self.cold.inrush_a, 1),
            resistor_w: tidy(self.warm.series_w, 2),
            capacitor_ma: tidy(self.warm.capacitor_ma, 1),
        }
    }
}

/// The value to fit, and what it does there.
fn choose(
    circuit: &Circuit,
    target_v: f64,
    bare_v: f64,
    exact_ohm: f64,
    surge_ohm: f64,
) -> Result<(Does, f64), Trouble> {
    let restores = bare_v - target_v > CLOSE * target_v;
    if restores {
        let ohm = nearest_in_effect(Series::E12, circuit, target_v, exact_ohm)?;
        if ohm >= surge_ohm {
            return Ok((Does::Restores, ohm));
        }
    }
    if surge_ohm <= 0.0 {
        return Ok((Does::Nothing, 0.0));
    }
    Ok((Does::LimitsSurge, Series::E12.at_least(surge_ohm.max(1.0)).unwrap_or(surge_ohm)))
}

/// Watts to buy for the resistor of a set on a high line; none when none that large is sold.
fn rated_w(warm: &Steady, cold: &ColdStart) -> Option<f64> {
    power_rating_w(warm.series_w.max(0.5 * cold.pulse_j / PULSE_J_PER_W))
}

/// Silicon in the set, without further resistor. With the target known the tubes draw their current there and follow the
/// volts by the 3/2-power law; before, the load is a fixed current.
fn circuit(question: &RectifierQuestion, target_v: Option<f64>) -> Result<Circuit, ErrorAnswer> {
    let load = |ma: f64, at_v: Option<f64>| match at_v {
        _ if ma <= 0.0 => Load::None,
        _ if question.load_ohm.is_some() => Load::Resistance { ohm: question.load_ohm.unwrap_or_default() },
        Some(at_v) => Load::ThreeHalves { ma, at_v },
        None => Load::Current { ma },
    };
    let mut first_ma = question.load_ma;
    let mut filter = None;
    if question.load_ohm.is_some() && question.after_filter_ma.is_some() {
        return Err(ErrorAnswer::new(
            "load_ohm",
            "with after_filter_ma",
            "one of the two; `load_ma` with `after_filter_ma`",
        ));
    }
    if let Some(after_ma) = question.after_filter_ma {
        if after_ma > question.load_ma {
            let accepted = format!("no more than the whole load, {}", milliamp(question.load_ma));
            return Err(ErrorAnswer::new("after_filter_ma", milliamp(after_ma), accepted));
        }
        let Some(filter_ohm) = question.filter_ohm else {
            return Err(ErrorAnswer::new("filter_ohm", "", "the filter resistor, when `after_filter_ma` passes it"));
        };
        let Some(uf) = question.second_filter_uf else {
            return Err(ErrorAnswer::new(
                "second_filter_uf",
                "",
                "the second filter, when `after_filter_ma` is drawn from it",
            ));
        };
        let drop_v = after_ma / 1e3 * filter_ohm;
        if target_v.is_some_and(|target_v| drop_v > 0.9 * target_v) {
            let accepted = format!("a resistor that leaves something of B+; this one drops {}", volt(drop_v));
            return Err(ErrorAnswer::new("filter_ohm", ohm(filter_ohm), accepted));
        }
        first_ma -= after_ma;
        // Under a tenth of a milliamp is nothing.
        first_ma = if first_ma < 0.1 { 0.0 } else { first_ma };
        filter = Some(Filter {
            ohm: filter_ohm,
            henry: question.filter_henry.unwrap_or(0.0),
            uf,
            load: load(after_ma, target_v.map(|v| v - drop_v)),
        });
    }
    let doubler_uf = question.doubler_uf.unwrap_or(question.first_filter_uf);
    let (topology, winding) = match question.topology {
        RectifierTopology::HalfWave => (Topology::HalfWave, false),
        RectifierTopology::CentreTap => (Topology::CentreTap, true),
        RectifierTopology::Bridge => (Topology::Bridge, false),
        RectifierTopology::FullWaveDoubler => (Topology::FullWaveDoubler { other_uf: doubler_uf }, false),
        RectifierTopology::HalfWaveDoubler => (Topology::HalfWaveDoubler { series_uf: doubler_uf }, false),
    };
    let ratio = question.fed_v() / question.line_v;
    let source_ohm = match (question.secondary_v, question.secondary_ohm) {
        (None, _) if winding => {
            return Err(ErrorAnswer::new(
                "secondary_v",
                "",
                "volts rms of the winding without load, from one end to the tap",
            ));
        }
        (None, _) => LINE_OHM,
        (Some(_), None) => {
            return Err(ErrorAnswer::new(
                "secondary_ohm",
                "",
                "ohms of the winding, from one end to the tap where there is one: measure them cold",
            ));
        }
        (Some(_), Some(ohm)) => match question.primary_ohm {
            Some(primary_ohm) => winding_ohm(ohm, question.fed_v(), primary_ohm + LINE_OHM, question.line_v),
            None => winding_source_ohm(ohm, ratio),
        },
    };
    Ok(Circuit {
        topology,
        line_v: question.fed_v(),
        line_hz: question.line_hz,
        rectifier: Rectifier::Silicon,
        source_ohm: source_ohm + question.fitted_ohm.unwrap_or(0.0),
        series_ohm: 0.0,
        first_uf: question.first_filter_uf,
        first_load: load(first_ma, target_v),
        filter,
    })
}

/// Ohms in the lead of a rectifier on a winding of which only its own ohms are known: the primary is taken to count as much, and the line's
/// ohms with the square of the ratio of its volts.
pub(in crate::ask) fn winding_source_ohm(secondary_ohm: f64, ratio: f64) -> f64 {
    2.0 * secondary_ohm + LINE_OHM * ratio * ratio
}

impl RectifierQuestion {
    /// Volts rms that feed the rectifier.
    pub(super) fn fed_v(&self) -> f64 {
        self.secondary_v.unwrap_or(self.line_v)
    }
}

impl RectifierTopology {
    /// "half-wave".
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::HalfWave => "half-wave",
            Self::CentreTap => "full-wave",
            Self::Bridge => "bridge",
            Self::FullWaveDoubler | Self::HalfWaveDoubler => "doubling",
        }
    }

    /// How many rectifiers there are.
    pub(super) fn rectifiers(self) -> u32 {
        match self {
            Self::HalfWave => 1,
            Self::CentreTap | Self::FullWaveDoubler | Self::HalfWaveDoubler => 2,
            Self::Bridge => 4,
        }
    }

    /// Where the resistor goes so that all pulses pass it.
    pub(super) fn place(self) -> &'static str {
        match self {
            Self::HalfWave => "in series with the diode, on the line side",
            Self::CentreTap => {
                "between the joined cathodes of the two diodes and the first filter (or one of the same ohms in each plate lead, where each makes half of the heat)"
            }
            Self::Bridge => "in one of the two AC leads of the bridge",
            Self::FullWaveDoubler => {
                "in the lead from the line (or winding) to the two diodes, not in the one to the capacitors' joint alone"
            }
            Self::HalfWaveDoubler => "in the line lead, ahead of the doubler's capacitor",
        }
    }
}

/// Neither a target nor an original that tells one.
fn no_target(original: Option<&Original<'_>>) -> ErrorAnswer {
    let drawing = "B+ at the first filter from the set's drawing, 10 to 450 V";
    let (accepted, says) = match original {
        None => (
            format!("{drawing}; or `original`, the rectifier the set was made with"),
            "Neither the B+ wanted (`target_v`) nor the rectifier the set was made with (`original`) is given, so which resistor to fit cannot be told. Give one of them; a B+ measured on a tired rectifier does not do.".to_owned(),
        ),
        Some(original) => (
            format!("{drawing}; or `original.drop_v` and `original.drop_ma` from a data sheet"),
            format!(
                "The book has no tube drop for {}, so the B+ it gave cannot be told. Give the B+ at the first filter from the drawing (`target_v`), or the drop from a data sheet (`original.drop_v` at `original.drop_ma`).",
                original.words
            ),
        ),
    };
    ErrorAnswer { says, ..ErrorAnswer::new("target_v", "", accepted) }
}

/// What an engine will not take, as a field of the question.
fn refused(question: &RectifierQuestion, trouble: &Trouble) -> ErrorAnswer {
    match *trouble {
        Trouble::OutOfRange { field, found, least, most } => {
            let (field, least, most) = match field {
                "first_uf" => ("first_filter_uf", least, most),
                "filter.henry" => ("filter_henry", least, most),
                "filter.uf" => ("second_filter_uf", least, most),
                "filter.ohm" => ("filter_ohm", least, most),
                "source_ohm" => ("fitted_ohm", 0.0, most - LINE_OHM),
                "load.ma" | "load.at_v" => ("load_ma", 0.1, most),
                "plates" => ("original.plates", least, most),
                "drop_v" => ("original.drop_v", least, most),
                "drop_ma" => ("original.drop_ma", least, most),
                other => (other, least, most),
            };
            ErrorAnswer::new(
                field,
                plain_figure(found),
                format!("a number from {} to {}", plain_figure(least), plain_figure(most)),
            )
        }
        Trouble::TargetTooLow => ErrorAnswer::new(
            "target_v",
            question.target_v.map(volt).unwrap_or_default(),
            format!("a B+ at which the set still draws {}", milliamp(question.load_ma)),
        ),
        Trouble::TargetTooHigh { most_v } => ErrorAnswer::new(
            "target_v",
            question.target_v.map(volt).unwrap_or_default(),
            format!("at most {}, which is all the line gives", volt(most_v)),
        ),
        Trouble::CannotDeliver | Trouble::NotSettled => {
            let mut error = ErrorAnswer::new("load_ma", milliamp(question.load_ma), "a load this supply can carry");
            error.says = format!(
                "A {} rectifier on {} with {} in the lead cannot deliver {}: B+ would collapse. Look at the load and at the resistance again.",
                question.topology.words(),
                volt(question.fed_v()),
                ohm(question.secondary_ohm.unwrap_or(LINE_OHM) + question.fitted_ohm.unwrap_or(0.0)),
                milliamp(question.load_ma)
            );
            error
        }
    }
}
