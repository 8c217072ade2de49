//! `rectifier`: what silicon diode and what series resistor (or what other tube) replace this rectifier, what does a reading tell?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::Book;
use crate::caution;
use crate::finding::{Caution, Change, Finding, Mark, Verdict};

mod checks;
mod load;
mod original;
mod plan;
mod portable;
mod reading;
mod story;
mod tube_swap;

use original::Original;
pub(super) use plan::{LINE_OHM, winding_source_ohm};
use plan::{LineFigures, Plan};
pub(in crate::ask) use reading::SAW_TOOTH;
use story::Story;

/// Line volts and hertz where none are given.
pub(super) const LINE_V: f64 = 120.0;
pub(super) const LINE_HZ: f64 = 60.0;

/// How the rectifiers are wired.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(rename_all = "snake_case"))]
pub enum RectifierTopology {
    /// One rectifier.
    HalfWave,
    /// Two on a winding with a centre tap.
    CentreTap,
    /// Four, two in every pulse.
    Bridge,
    /// Two capacitors in series, the line between them.
    FullWaveDoubler,
    /// A capacitor in the line lead.
    HalfWaveDoubler,
}

/// A set whose rectifier is to be replaced by silicon or by another tube, or whose B+ is to be explained.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RectifierQuestion {
    /// Line volts rms as measured, 20 to 300.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub line_v: f64,
    /// Line frequency in hertz, 16 to 400.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub line_hz: f64,
    /// How the rectifiers are wired; left out: half-wave.
    #[cfg_attr(test, ts(optional, as = "Option<RectifierTopology>"))]
    pub topology: RectifierTopology,
    /// Volts rms of the unloaded winding at that line, from one end to the tap where there is one; left out: straight from the
    /// line.
    #[cfg_attr(test, ts(optional))]
    pub secondary_v: Option<f64>,
    /// Ohms of that winding, from one end to the tap where there is one; needed with `secondary_v`.
    #[cfg_attr(test, ts(optional))]
    pub secondary_ohm: Option<f64>,
    /// Ohms of the primary; left out: taken to count as much as the secondary.
    #[cfg_attr(test, ts(optional))]
    pub primary_ohm: Option<f64>,
    /// What is or was fitted; left out when nobody knows.
    #[cfg_attr(test, ts(optional))]
    pub original: Option<OriginalRectifier>,
    /// Another rectifier tube that is to go in instead.
    #[cfg_attr(test, ts(optional))]
    pub replacement: Option<String>,
    /// B+ wanted at the first filter, volts, from a drawing; never a reading taken on a tired rectifier. Left out: what the
    /// original gave when fresh.
    #[cfg_attr(test, ts(optional))]
    pub target_v: Option<f64>,
    /// First filter capacitor (of a full-wave doubler one of the two), microfarads.
    pub first_filter_uf: f64,
    /// The other capacitor of a doubler, microfarads; left out: like the first filter.
    #[cfg_attr(test, ts(optional))]
    pub doubler_uf: Option<f64>,
    /// Filter resistor, or the ohms of the filter choke's winding, between first and second filter.
    #[cfg_attr(test, ts(optional))]
    pub filter_ohm: Option<f64>,
    /// Henries of the filter choke; left out: a resistor.
    #[cfg_attr(test, ts(optional))]
    pub filter_henry: Option<f64>,
    /// Second filter capacitor, microfarads.
    #[cfg_attr(test, ts(optional))]
    pub second_filter_uf: Option<f64>,
    /// How much of the load passes the filter resistor, milliamps; the rest (as a rule the plate of the output tube) is fed
    /// from the first filter. Left out: the volts after the filter resistor cannot be told.
    #[cfg_attr(test, ts(optional))]
    pub after_filter_ma: Option<f64>,
    /// What the set draws from B+, milliamps, warm; or `load_ohm`, or `load_tubes`.
    #[cfg_attr(test, ts(optional, as = "Option<f64>"))]
    pub load_ma: f64,
    /// The load as a resistance, ohms.
    #[cfg_attr(test, ts(optional))]
    pub load_ohm: Option<f64>,
    /// The tubes on B+, whose typical plate and screen currents are summed.
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub load_tubes: Vec<String>,
    /// Series resistance already in the set and staying there, ohms.
    #[cfg_attr(test, ts(optional))]
    pub fitted_ohm: Option<f64>,
    /// Rated volts of the filter capacitors that are fitted or at hand.
    #[cfg_attr(test, ts(optional))]
    pub filter_rated_v: Option<f64>,
    /// What is read at the first filter now, warm, volts DC.
    #[cfg_attr(test, ts(optional))]
    pub measured_v: Option<f64>,
    /// What a meter on its AC range reads there, volts rms.
    #[cfg_attr(test, ts(optional))]
    pub measured_ripple_v: Option<f64>,
    /// Battery tubes whose filaments are fed in series from B+ (three-way portables).
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub filament_tubes: Vec<String>,
    /// The resistor between B+ and those filaments, ohms.
    #[cfg_attr(test, ts(optional))]
    pub filament_ohm: Option<f64>,
}

impl From<&Fields<'_>> for RectifierQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        let number = |name| fields.number(name);
        Self {
            line_v: number("line_v").unwrap_or(LINE_V),
            line_hz: number("line_hz").unwrap_or(LINE_HZ),
            topology: match fields.get_text("topology") {
                Some("centre_tap") => RectifierTopology::CentreTap,
                Some("bridge") => RectifierTopology::Bridge,
                Some("full_wave_doubler") => RectifierTopology::FullWaveDoubler,
                Some("half_wave_doubler") => RectifierTopology::HalfWaveDoubler,
                _ => RectifierTopology::HalfWave,
            },
            secondary_v: number("secondary_v"),
            secondary_ohm: number("secondary_ohm"),
            primary_ohm: number("primary_ohm"),
            replacement: fields.get_text("replacement").map(str::to_owned),
            original: fields.record("original").map(|original| OriginalRectifier::from(&original)),
            target_v: number("target_v"),
            // The table has seen to it that it is there.
            first_filter_uf: number("first_filter_uf").unwrap_or_default(),
            doubler_uf: number("doubler_uf"),
            filter_henry: number("filter_henry"),
            load_ohm: number("load_ohm"),
            load_tubes: fields.texts("load_tubes").unwrap_or_default(),
            measured_v: number("measured_v"),
            measured_ripple_v: number("measured_ripple_v"),
            filament_tubes: fields.texts("filament_tubes").unwrap_or_default(),
            filament_ohm: number("filament_ohm"),
            filter_ohm: number("filter_ohm"),
            second_filter_uf: number("second_filter_uf"),
            after_filter_ma: number("after_filter_ma"),
            load_ma: number("load_ma").unwrap_or_default(),
            fitted_ohm: number("fitted_ohm"),
            filter_rated_v: number("filter_rated_v"),
        }
    }
}

/// The rectifier being replaced.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(tag = "kind", rename_all = "snake_case"))]
pub enum OriginalRectifier {
    /// A selenium stack.
    Selenium {
        /// Plates in the stack, when counted.
        #[cfg_attr(test, ts(optional))]
        plates: Option<f64>,
    },
    /// A rectifier tube.
    Tube {
        /// Its type.
        r#type: String,
        /// Its tube drop from a data sheet, volts, when the book has none or another.
        #[cfg_attr(test, ts(optional))]
        drop_v: Option<f64>,
        /// The current of that drop, milliamps.
        #[cfg_attr(test, ts(optional))]
        drop_ma: Option<f64>,
    },
    /// A silicon diode already, whose resistor is in question.
    Silicon,
}

impl From<&Fields<'_>> for OriginalRectifier {
    fn from(fields: &Fields<'_>) -> Self {
        let number = |name| fields.number(name);
        match fields.text("kind").as_str() {
            "selenium" => Self::Selenium { plates: number("plates") },
            "tube" => Self::Tube { r#type: fields.text("type"), drop_v: number("drop_v"), drop_ma: number("drop_ma") },
            _ => Self::Silicon,
        }
    }
}

/// The set solved at one line voltage with the parts chosen.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineCase {
    /// "low", "nominal" or "high".
    pub line: String,
    /// Line volts rms.
    pub line_v: f64,
    /// First filter before the tubes draw: the crest of the line, volts.
    pub cold_v: f64,
    /// First filter warm, mean volts.
    pub warm_v: f64,
    /// After the filter resistor, warm, mean volts; absent when there is none, or its share of the load is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub filtered_v: Option<f64>,
    /// Ripple on the first filter, peak to peak volts.
    pub ripple_v: f64,
    /// Ripple on the second filter, peak to peak volts.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub filtered_ripple_v: Option<f64>,
    /// Mean current, milliamps.
    pub dc_ma: f64,
    /// Rms of the current pulses through diode and resistor, milliamps.
    pub rms_ma: f64,
    /// Crest of the pulses, amperes.
    pub peak_a: f64,
    /// Worst switch-on current, amperes.
    pub inrush_a: f64,
    /// Heat in the chosen resistor, watts, from the rms current.
    pub resistor_w: f64,
    /// Ripple current in the first filter capacitor, milliamps rms.
    pub capacitor_ma: f64,
}

/// The diode to fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct DiodeChoice {
    /// JEDEC number.
    pub name: String,
    /// Its peak inverse volts.
    pub peak_inverse_v: f64,
    /// The peak inverse volts the place can put on it at high line.
    pub needed_inverse_v: f64,
    /// Its mean forward amperes.
    pub forward_a: f64,
    /// Its surge rating, amperes for one half cycle.
    pub surge_a: f64,
}

/// The series resistor to fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ResistorChoice {
    /// The preferred value (E12) to fit, ohms, in addition to what is fitted already.
    pub ohm: f64,
    /// The exact value that gives the target, ohms.
    pub exact_ohm: f64,
    /// Lower end of the band the uncertain original leaves, ohms.
    pub least_ohm: f64,
    /// Upper end of that band, ohms.
    pub most_ohm: f64,
    /// Heat at nominal line, watts.
    pub dissipates_w: f64,
    /// Rating to buy, watts: at least twice the heat at high line, from the sizes sold.
    pub rated_w: f64,
    /// One switch-on's energy, joules, that it has to stand.
    pub pulse_j: f64,
    /// A value of the finer series E24 whose B+ is clearly closer to the target; absent where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub closer: Option<CloserResistor>,
}

/// A value of E24 in place of the one of E12, which a drawer is more likely to hold.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CloserResistor {
    /// Ohms, in addition to what is fitted already.
    pub ohm: f64,
    /// First filter warm with it, volts.
    pub warm_v: f64,
    /// Rating to buy, watts.
    pub rated_w: f64,
}

/// What the first filter capacitor has to stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FilterCapacitor {
    /// Worst volts across it (in a full-wave doubler across each of the two): cold start at high line.
    pub worst_v: f64,
    /// The lowest rated voltage that is enough.
    pub least_rated_v: f64,
    /// Today's ratings judged one by one.
    pub ratings: Vec<RatedVoltage>,
}

/// One rated voltage judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RatedVoltage {
    /// Rated volts.
    pub rated_v: f64,
    /// Whether it may be used.
    pub enough: bool,
    /// Why, in a few words.
    pub says: String,
}

/// How the warm B+ and the heat depend on the resistor.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SweepPoint {
    /// Series resistor, ohms.
    pub ohm: f64,
    /// First filter warm, volts.
    pub warm_v: f64,
    /// Heat in it, watts.
    pub dissipates_w: f64,
}

/// One point of one cycle in the steady state, for drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WaveformPoint {
    /// Milliseconds into the cycle.
    pub ms: f64,
    /// First filter, volts.
    pub first_filter_v: f64,
    /// Diode current, milliamps.
    pub current_ma: f64,
}

/// B+ at one moment after switching on, with silicon.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StartPoint {
    /// Seconds after switching on.
    pub s: f64,
    /// First filter, volts.
    pub first_filter_v: f64,
    /// After the filter resistor or choke, volts.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub filtered_v: Option<f64>,
}

/// What to fit and what it does.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RectifierAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The figures that decide, one or two.
    pub reasons: Vec<Finding>,
    /// What to do, in order.
    pub changes: Vec<Change>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Everything looked at.
    pub findings: Vec<Finding>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// What was assumed, because it was not given.
    pub assumed: Vec<String>,
    /// B+ aimed at, volts.
    pub target_v: f64,
    /// The diode.
    pub diode: DiodeChoice,
    /// The resistor; absent when none is needed beyond the surge resistor fitted.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub resistor: Option<ResistorChoice>,
    /// The set at line -10 %, as given, +10 %.
    pub lines: Vec<LineCase>,
    /// What the first filter capacitor sees.
    pub first_filter: FilterCapacitor,
    /// Neighbouring resistor values.
    pub sweep: Vec<SweepPoint>,
    /// One cycle at nominal line.
    pub waveform: Vec<WaveformPoint>,
    /// The first minute after switching on.
    pub start: Vec<StartPoint>,
    /// What goes when a rectifier tube goes: heater volts, lamp, delay.
    pub lost: Vec<Finding>,
    /// What the volts measured mean; empty when none are given.
    pub reading: Vec<Finding>,
    /// The other rectifier tube asked about; empty when none is. Then `verdict`, `reasons` and `changes` are about it, and diode and
    /// resistor are the way without a tube.
    pub tube_swap: Vec<Finding>,
    /// The filaments fed from B+, before and after; empty when none are.
    pub filaments: Vec<Finding>,
}

/// Answers `rectifier`.
///
/// # Errors
/// A figure or type that is not accepted, a target that cannot be told from what is given, a load the supply cannot carry.
pub fn answer(book: &Book, question: &RectifierQuestion) -> Result<RectifierAnswer, ErrorAnswer> {
    let (question, counted) = load::settled(book, question)?;
    let question = &question;
    let original = Original::of(book, question)?;
    let plan = Plan::make(question, original.as_ref())?;
    let story = Story { question, original: original.as_ref(), plan: &plan };
    let swap = tube_swap::TubeSwap::of(book, question, original.as_ref(), &plan)?;
    let mut assumed = story.assumed();
    assumed.extend(counted);
    // Of one tube for another the heat of a resistor and the volts of a diode say nothing.
    let mut findings = swap.as_ref().map_or_else(|| story.findings(), |swap| swap.findings.clone());
    let mut cautions = story.cautions();
    let filaments = portable::filaments(book, question, &plan)?;
    let reading = reading::reading(question, original.as_ref(), &plan);
    findings.extend(reading.iter().chain(&filaments).cloned());
    if !filaments.is_empty() {
        cautions.push(caution::FILAMENTS);
    }
    let (mut verdict, mut reasons, changes) = match &swap {
        Some(swap) => (swap.verdict(), swap.reasons(), swap.changes()),
        None => (story.verdict(), story.reasons(), story.changes()),
    };
    // Filaments that burn out outweigh a B+ that comes out right. With a tube instead, these figures of silicon tell nothing.
    if let Some(burns) = filaments.iter().find(|one| portable::is_fatal(one)).filter(|_| swap.is_none()) {
        if verdict.mark != Mark::No {
            verdict.mark = Mark::Care;
            "The filaments first.".clone_into(&mut verdict.word);
        }
        verdict.says = format!("{} {}", burns.says, verdict.says);
        reasons.insert(0, burns.clone());
    }
    Ok(RectifierAnswer {
        verdict,
        reasons,
        changes,
        measure: story.measure(),
        findings,
        cautions,
        assumed,
        target_v: tidy(plan.target_v, 1),
        diode: plan.diode_choice(),
        resistor: plan.resistor_choice(),
        lines: plan.lines.iter().map(LineFigures::view).collect(),
        first_filter: story.first_filter(),
        sweep: plan.sweep(),
        waveform: plan.waveform(question)?,
        start: plan.start(question)?,
        lost: original.as_ref().map(|original| original.lost(question)).unwrap_or_default(),
        reading,
        tube_swap: swap.map(|swap| swap.findings).unwrap_or_default(),
        filaments,
    })
}

/// Rounds a figure to so many decimals for the answer; more would only look exact.
fn tidy(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}
