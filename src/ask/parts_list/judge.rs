//! What becomes of one part of a list: bought for, left in, or looked at first.

use super::LineState;
use super::line::{Line, Part};
use crate::ask::sheet::shopping::{Article, Group};
use crate::ask::{CapacitorQuestion, ResistorQuestion, capacitor, resistor};
use crate::book::Book;
use crate::finding::{Caution, Mark};
use crate::passive::{CapacitorHint, CapacitorKind, Dielectric, SafetyClass, kind_of, read_capacitor};

/// What is known of a part beside its line.
#[derive(Debug, Clone, Default)]
pub(in crate::ask) struct Known {
    /// Line volts and hertz, for parts at the line.
    pub line_v: Option<f64>,
    pub line_hz: Option<f64>,
    /// The highest volts across it.
    pub circuit_v: Option<f64>,
    /// What a meter reads.
    pub measured_pf: Option<f64>,
    pub measured_ohm: Option<f64>,
    /// It is found open, shorted or leaky: it does not stay.
    pub faulty: bool,
    /// The rectifier tube before a first filter, and what is drawn from it.
    pub rectifier: Option<String>,
    pub load_ma: Option<f64>,
}

/// What became of it.
#[derive(Debug, Clone)]
pub(in crate::ask) struct Judged {
    pub state: LineState,
    pub mark: Mark,
    /// As it was read; empty when it was not.
    pub reads: String,
    pub says: String,
    /// How to ask for what stands in for it, whether it is to be bought or not.
    pub buy: Vec<String>,
    /// The same for a shopping list.
    pub articles: Vec<Article>,
    pub cautions: Vec<Caution>,
    /// It is bought for, and it is not said where it sits.
    pub place_open: bool,
    /// Least and most ohms with which a resistor stays, where its marking has one reading.
    pub stays_ohm: Option<(f64, f64)>,
    /// It is an old part of paper.
    pub paper: bool,
    /// The safety class it bears.
    pub class: Option<SafetyClass>,
    /// Farads and rated volts of a capacitor's first section, where its marking has one reading.
    pub farad: Option<f64>,
    pub rated_v: Option<f64>,
}

impl Judged {
    fn unread(state: LineState, says: String) -> Self {
        Self {
            state,
            mark: Mark::Unknown,
            reads: String::new(),
            says,
            buy: Vec::new(),
            articles: Vec::new(),
            cautions: Vec::new(),
            place_open: false,
            stays_ohm: None,
            paper: false,
            class: None,
            farad: None,
            rated_v: None,
        }
    }
}

/// Judges a part.
pub(in crate::ask) fn judge(book: &Book, read: &Line, known: &Known) -> Judged {
    match &read.part {
        Part::Capacitor { marking, kind, role } => {
            let asked = CapacitorQuestion {
                kind: *kind,
                role: *role,
                circuit_v: known.circuit_v,
                line_v: known.line_v,
                line_hz: known.line_hz,
                measured_pf: known.measured_pf,
                rectifier: known.rectifier.clone(),
                load_ma: known.load_ma,
                ..CapacitorQuestion::of(marking)
            };
            of_capacitor(book, &asked, known)
        }
        Part::Resistor { marking, role, measured_ohm, circuit_v } => {
            let asked = ResistorQuestion {
                role: *role,
                measured_ohm: known.measured_ohm.or(*measured_ohm),
                circuit_v: circuit_v.or(known.circuit_v),
                ..ResistorQuestion::of(marking)
            };
            of_resistor(book, &asked, known)
        }
        Part::Doubtful(why) => Judged::unread(LineState::Check, why.clone()),
        Part::Other => {
            Judged::unread(LineState::Other, "No fixed capacitor or resistor; it is not looked at here.".to_owned())
        }
        Part::Unreadable => {
            Judged::unread(LineState::Unread, "Neither a capacitor nor a resistor can be read in it.".to_owned())
        }
    }
}

fn of_capacitor(book: &Book, asked: &CapacitorQuestion, known: &Known) -> Judged {
    let told = match capacitor::answer(book, asked) {
        Ok(told) => told,
        Err(error) => return Judged::unread(LineState::Unread, error.says),
    };
    let hint = CapacitorHint { kind: asked.kind, role: asked.role };
    let marks = read_capacitor(&asked.marking, hint).unwrap_or_default();
    let mark = marks.first();
    let section = mark.filter(|_| marks.len() == 1).and_then(|mark| mark.sections.first());
    let leave = told.verdict.word == capacitor::LEAVE;
    let stays = leave || asked.measured_pf.is_some() && told.changes.is_empty();
    let articles = told.stand_ins.iter().map(|part| {
        let group = match part.made {
            _ if part.safety_class.is_some() => Group::Safety,
            Dielectric::Electrolytic => Group::Electrolytics,
            Dielectric::Mica | Dielectric::Class1(_) | Dielectric::Class2 => Group::MicaAndCeramic,
            _ => Group::Film,
        };
        Article::new(group, &part.shop, part.farad).rated(part.rated_v)
    });
    Judged {
        state: state(told.verdict.mark, stays && !known.faulty),
        mark: told.verdict.mark,
        reads: told.readings.first().map(|reading| reading.says.clone()).unwrap_or_default(),
        buy: told.stand_ins.iter().map(|part| part.shop.clone()).collect(),
        articles: articles.collect(),
        says: told.verdict.says,
        cautions: told.cautions,
        place_open: asked.role.is_none() && !leave,
        stays_ohm: None,
        paper: mark.is_some_and(|mark| kind_of(mark, hint).0 == CapacitorKind::Paper),
        class: mark.and_then(|mark| mark.class),
        farad: section.map(|section| section.farad),
        rated_v: section.and_then(|section| section.volts),
    }
}

fn of_resistor(book: &Book, asked: &ResistorQuestion, known: &Known) -> Judged {
    let told = match resistor::answer(book, asked) {
        Ok(told) => told,
        Err(error) => return Judged::unread(LineState::Unread, error.says),
    };
    let (mut buy, mut articles, mut section) = (Vec::new(), Vec::new(), 0);
    for part in &told.stand_ins {
        // The best of each section.
        if part.section > section {
            section = part.section;
            for _ in 0..part.in_series {
                buy.push(part.shop.clone());
                let each = Article::new(Group::Resistors, &part.shop, part.ohm / f64::from(part.in_series));
                articles.push(each.rated(part.rated_w));
            }
        }
    }
    let stays = asked.measured_ohm.is_some() && told.changes.is_empty() && !known.faulty;
    let stays_ohm = if let [reading] = told.readings.as_slice() {
        let band = |percent: f64| (reading.ohm * (1.0 - percent / 100.0), reading.ohm * (1.0 + percent / 100.0));
        reading.tolerance_percent.map(band)
    } else {
        None
    };
    Judged {
        stays_ohm,
        state: state(told.verdict.mark, stays),
        mark: told.verdict.mark,
        reads: told.readings.first().map(|reading| reading.says.clone()).unwrap_or_default(),
        buy,
        articles,
        cautions: told.cautions,
        ..Judged::unread(LineState::Buy, told.verdict.says)
    }
}

fn state(mark: Mark, stays: bool) -> LineState {
    match mark {
        Mark::Unknown | Mark::No => LineState::Check,
        _ if stays => LineState::Leave,
        _ => LineState::Buy,
    }
}
