//! The rectifier that is being replaced: its law, how uncertain that is, and what goes with it.

use super::{OriginalRectifier, RectifierQuestion, RectifierTopology};
use crate::ask::{ErrorAnswer, tube};
use crate::book::{Book, Function, HeaterKind, Tube};
use crate::finding::{Finding, Outcome};
use crate::quantity::{milliamp, ohm, plain_figure, significant, tenth, volt, watt, whole};
use crate::series::{Series, power_rating_w};
use crate::supply::Rectifier;

/// Volts rms a selenium plate is made for: 26 in the common stacks, up to 45 in later ones. From memory.
const PLATE_RMS_V: f64 = 26.0;
const LATE_PLATE_RMS_V: f64 = 45.0;
/// A fresh plate: threshold and resistance, least and most. A stack of five plates then has 8 to 20 ohm and drops about
/// 1 V a plate at its rated current, as restorers' notes say; the split between the two is an assumption.
const PLATE_V: (f64, f64) = (0.7, 1.0);
const PLATE_OHM: (f64, f64) = (1.6, 4.0);
/// An aged plate: ageing shows mainly as forward resistance, 60 to 120 ohm for a stack of five. Assumed: no curve of ohms against
/// hours was found published.
const AGED_PLATE_OHM: (f64, f64) = (12.0, 24.0);
/// Tubes of one type differ in drop by about this share either way. Common practice, no source.
const TUBE_SPREAD: f64 = 0.15;

const DELAY_LOST: &str = "The tube gave B+ only after 10 to 20 s, when the others were about to draw. Silicon gives it at once, so until the tubes are warm the filter capacitors stand at the crest of the line.";

/// What the original is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Selenium,
    /// A tube that does nothing but rectify.
    Tube,
    /// A tube with another section that stays in use.
    CombinedTube,
    Silicon,
}

/// The original and what is known of it.
pub(super) struct Original<'b> {
    /// In words: "a fresh selenium stack", "the 35W4".
    pub words: String,
    /// Its law with the least, the usual and the most drop; none when the drop of a tube is not known.
    pub laws: Option<[Rectifier; 3]>,
    /// Its law when aged, with the least and the most drop; only of a selenium stack.
    pub aged: Option<[Rectifier; 2]>,
    /// The tube, if it is one.
    pub tube: Option<&'b Tube>,
    /// What it is.
    pub kind: Kind,
    /// What was assumed of it.
    pub assumed: Vec<String>,
    /// What looks wrong in what was said of it.
    pub doubts: Vec<Finding>,
}

impl<'b> Original<'b> {
    /// Looks up what the question says was fitted.
    pub fn of(book: &'b Book, question: &RectifierQuestion) -> Result<Option<Self>, ErrorAnswer> {
        Ok(match &question.original {
            None => None,
            Some(OriginalRectifier::Silicon) => Some(Self {
                words: "the silicon diode fitted".to_owned(),
                laws: Some([Rectifier::Silicon; 3]),
                aged: None,
                tube: None,
                kind: Kind::Silicon,
                assumed: Vec::new(),
                doubts: Vec::new(),
            }),
            Some(OriginalRectifier::Selenium { plates }) => Some(selenium(*plates, question)),
            Some(OriginalRectifier::Tube { r#type, drop_v, drop_ma }) => {
                let drop = match (*drop_v, *drop_ma) {
                    (Some(volts), Some(ma)) => Some((volts, ma)),
                    (None, None) => None,
                    (Some(_), None) => {
                        return Err(half_a_drop("original.drop_ma", "the milliamps at which `drop_v` holds"));
                    }
                    (None, Some(_)) => return Err(half_a_drop("original.drop_v", "the volts dropped at `drop_ma`")),
                };
                Some(vacuum(tube::find(book, "original.type", r#type)?.tube, drop, question)?)
            }
        })
    }

    /// What goes when a rectifier tube goes.
    pub fn lost(&self, question: &RectifierQuestion) -> Vec<Finding> {
        let Some(tube) = self.tube else { return Vec::new() };
        let mut lost = Vec::new();
        if question.secondary_v.is_some() {
            lost.push(Finding::plain(
                "heater",
                Outcome::Ok,
                format!("If the {} has a heater winding of its own, that is left without load: keep its ends apart and insulated, and use it for no other heater, as it can be at B+.", tube.name),
            ));
            lost.push(Finding::plain(
                "warm-up delay",
                if tube.heater_kind == Some(HeaterKind::Heater) { Outcome::Differs } else { Outcome::Ok },
                if tube.heater_kind == Some(HeaterKind::Heater) { DELAY_LOST } else { "The tube was directly heated and gave B+ within seconds, before the others drew: silicon gives it at once, which is little worse." },
            ));
            return lost;
        }
        // A tube whose other section stays in use stays in its socket, heater and lamp tap and all.
        if self.kind == Kind::Tube {
            lost.push(heater_lost(tube));
            lost.extend(tube.figures.lamp_tap_v.map(|tap_v| lamp_lost(tube, tap_v)));
        }
        if tube.heater_kind == Some(HeaterKind::Heater) {
            lost.push(Finding::plain("warm-up delay", Outcome::Differs, DELAY_LOST));
        }
        lost
    }
}

fn half_a_drop(field: &str, accepted: &str) -> ErrorAnswer {
    ErrorAnswer::new(field, "", accepted)
}

fn heater_lost(tube: &Tube) -> Finding {
    let Some((heater_v, heater_a)) = tube.figures.heater_v.zip(tube.figures.heater_a) else {
        let says = format!(
            "The book has no heater rating for {}: if its heater is in a string, it has to stay there.",
            tube.name
        );
        return Finding::plain("heater", Outcome::Unknown, says);
    };
    let exact_ohm = heater_v / heater_a;
    let heat_w = heater_v * heater_a;
    let fitted_ohm = Series::E24.nearest(exact_ohm).unwrap_or(exact_ohm);
    let rating = power_rating_w(heat_w).map_or_else(|| "more than 100 W".to_owned(), watt);
    Finding::figures(
        "heater",
        Outcome::NeedsChange,
        format!("{}, {} A", volt(heater_v), significant(heater_a, 3)),
        "nothing without the tube",
        format!(
            "In a string the {} heater takes {} of the line. Leave the weak tube in its socket for that as long as its heater is whole; else {}, {} in its place ({} of heat).",
            tube.name,
            volt(heater_v),
            ohm(fitted_ohm),
            rating,
            watt(heat_w)
        ),
    )
}

fn lamp_lost(tube: &Tube, tap_v: f64) -> Finding {
    Finding::figures(
        "dial lamp",
        Outcome::NeedsChange,
        volt(tap_v),
        "nothing without the tube",
        format!(
            "The dial lamp is fed from a tap of the {} heater ({}), part of it by the plate current. With the tube out the lamp is dark; with the tube left in as a heater it glows a little less, since the plate current no longer passes the tap.",
            tube.name,
            volt(tap_v)
        ),
    )
}

/// How many plates of a tube work as one: all of them half-wave, else one in each place.
pub(super) fn plates_in_parallel(tube: &Tube, question: &RectifierQuestion) -> f64 {
    if question.topology == RectifierTopology::HalfWave {
        tube.units.iter().filter(|unit| unit.function == Function::Rectifier).count() as f64
    } else {
        1.0
    }
}

/// The law of a rectifier tube with a share of its published drop, so many plates as one. Mercury vapour drops the same at any
/// current.
pub(super) fn tube_law(tube: &Tube, (drop_v, drop_ma): (f64, f64), share: f64, plates: f64) -> Rectifier {
    if tube.note.as_ref().is_some_and(|note| note.contains("mercury")) {
        Rectifier::ConstantDrop { drop_v: share * drop_v }
    } else {
        Rectifier::Vacuum { drop_v: share * drop_v, drop_ma: plates * drop_ma }
    }
}

fn selenium<'b>(plates: Option<f64>, question: &RectifierQuestion) -> Original<'b> {
    // Each arm of a bridge stands half of what a lone stack stands.
    let line_v = question.fed_v() * if question.topology == RectifierTopology::Bridge { 0.5 } else { 1.0 };
    let usual = plates.unwrap_or_else(|| (line_v / PLATE_RMS_V).ceil());
    let least = plates.unwrap_or_else(|| (line_v / LATE_PLATE_RMS_V).ceil());
    let middle = |(low, high): (f64, f64)| 0.5 * (low + high);
    let stack = |plates, plate_v, plate_ohm| Rectifier::Selenium { plates, plate_v, plate_ohm };
    let mut assumed = Vec::new();
    if plates.is_none() {
        assumed.push(format!(
            "A stack of {} plates ({} V each, older stacks) down to {} (later ones): the plates were not counted.",
            whole(usual),
            whole(PLATE_RMS_V),
            whole(least)
        ));
    }
    assumed.push(format!(
        "A fresh plate drops {} to {} V and has {} to {} ohm, an aged one {} to {} ohm: assumed, no published curve of ohms against hours is known.",
        tenth(PLATE_V.0),
        tenth(PLATE_V.1),
        plain_figure(PLATE_OHM.0),
        plain_figure(PLATE_OHM.1),
        whole(AGED_PLATE_OHM.0),
        whole(AGED_PLATE_OHM.1)
    ));
    let mut doubts = Vec::new();
    if usual * LATE_PLATE_RMS_V < line_v {
        doubts.push(Finding::figures(
            "plates",
            Outcome::Differs,
            whole((line_v / LATE_PLATE_RMS_V).ceil()) + " or more",
            significant(usual, 3),
            format!("{} plates are too few for {}: count again.", whole(usual), volt(line_v)),
        ));
    }
    Original {
        words: if usual == least {
            format!("a fresh selenium stack of {} plates", whole(usual))
        } else {
            "a fresh selenium stack".to_owned()
        },
        laws: Some([
            stack(least, PLATE_V.0, PLATE_OHM.0),
            stack(usual, middle(PLATE_V), middle(PLATE_OHM)),
            stack(usual, PLATE_V.1, PLATE_OHM.1),
        ]),
        aged: Some([stack(least, PLATE_V.0, AGED_PLATE_OHM.0), stack(usual, PLATE_V.1, AGED_PLATE_OHM.1)]),
        tube: None,
        kind: Kind::Selenium,
        assumed,
        doubts,
    }
}

/// A rectifier tube, by the drop given or else the book's.
fn vacuum<'b>(
    tube: &'b Tube,
    drop: Option<(f64, f64)>,
    question: &RectifierQuestion,
) -> Result<Original<'b>, ErrorAnswer> {
    let Some(unit) = tube.unit_of(Function::Rectifier) else {
        let is = tube.units.first().map_or("no rectifier", |unit| unit.function.words());
        return Err(ErrorAnswer::new("original.type", format!("{}, {is}", tube.name), "a rectifier tube"));
    };
    if tube.heater_kind == Some(HeaterKind::Filament) && question.secondary_v.is_none() {
        return Err(ErrorAnswer::new(
            "original.type",
            format!("{}, a directly heated rectifier that is fed from a transformer", tube.name),
            "with it the winding: `topology` (as a rule centre_tap), `secondary_v`, `secondary_ohm`; or a half-wave rectifier of an AC/DC set",
        ));
    }
    let plates = tube.units.iter().filter(|unit| unit.function == Function::Rectifier).count();
    let from_sheet = drop.is_some();
    let drop = drop.or_else(|| unit.figures.drop_v.zip(unit.figures.drop_ma));
    let mut assumed = Vec::new();
    let mut doubts = Vec::new();
    let laws = drop.map(|(drop_v, drop_ma)| {
        let law = |share: f64| tube_law(tube, (drop_v, drop_ma), share, plates_in_parallel(tube, question));
        assumed.push(format!(
            "{} drops {} at {} ({}), as an average tube; others {} % more or less.",
            tube.name,
            volt(drop_v),
            milliamp(drop_ma),
            if from_sheet { "as given".to_owned() } else { format!("source: {}", tube.source) },
            significant(TUBE_SPREAD * 100.0, 2)
        ));
        [law(1.0 - TUBE_SPREAD), law(1.0), law(1.0 + TUBE_SPREAD)]
    });
    if plates > 1 && question.topology == RectifierTopology::HalfWave {
        assumed.push(format!("Both plates of the {} work in parallel, half-wave.", tube.name));
    }
    if let Some(most_ma) = unit.figures.dc_out_max_ma.filter(|most_ma| question.load_ma > *most_ma) {
        doubts.push(Finding::figures(
            "load",
            Outcome::Differs,
            format!("{} at the most", milliamp(most_ma)),
            milliamp(question.load_ma),
            format!("The load is more than a {} was made for: look at that figure again.", tube.name),
        ));
    }
    Ok(Original {
        words: format!("the {}", tube.name),
        laws,
        aged: None,
        tube: Some(tube),
        kind: if plates < tube.units.len() { Kind::CombinedTube } else { Kind::Tube },
        assumed,
        doubts,
    })
}
