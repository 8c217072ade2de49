//! `swap` and `candidates`: can this tube go where that one was, and which could?

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use super::tube::{self, TubeView};
use crate::book::pins::MOST_PINS;
use crate::book::{Book, FoundToday, Function, HeaterKind, Tube, UnitFigures};
use crate::caution::{HOT_CHASSIS, STORED_CHARGE};
use crate::finding::{Caution, Change, Finding, Mark, Outcome, Verdict};
use crate::order::{in_order, sort_few};
use crate::swap::words::{self, Pair};
use crate::swap::{Check, Fact, Grade, Judgement, Socket, Supply, hopeless, judge};

/// How the heaters of the set are fed; tagged `kind`.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(tag = "kind", rename_all = "snake_case"))]
pub enum SupplyQuestion {
    /// One string across the line.
    Series {
        /// String current, amperes; left out: the original's heater current.
        #[cfg_attr(test, ts(optional))]
        amps: Option<f64>,
        /// Line volts; left out: 117 is taken where only the sum of the string matters.
        #[cfg_attr(test, ts(optional))]
        line_v: Option<f64>,
        /// The other types in the string, when known.
        #[cfg_attr(test, ts(optional))]
        others: Option<Vec<String>>,
    },
    /// All heaters across one winding or battery.
    Parallel {
        /// Heater volts of the set; left out: the original's.
        #[cfg_attr(test, ts(optional))]
        volts: Option<f64>,
        /// Current the winding has to spare, amperes.
        #[cfg_attr(test, ts(optional))]
        spare_amps: Option<f64>,
    },
    /// Dry batteries, filament tubes.
    Battery,
}

impl From<&Fields<'_>> for SupplyQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        let number = |name| fields.number(name);
        match fields.text("kind").as_str() {
            "series" => Self::Series { amps: number("amps"), line_v: number("line_v"), others: fields.texts("others") },
            "parallel" => Self::Parallel { volts: number("volts"), spare_amps: number("spare_amps") },
            _ => Self::Battery,
        }
    }
}

/// What is known of the socket.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SocketQuestion {
    /// How the heaters are fed; left out: both ways are answered side by side.
    #[cfg_attr(test, ts(optional))]
    pub supply: Option<SupplyQuestion>,
    /// The highest DC volts the set puts on the plate.
    #[cfg_attr(test, ts(optional))]
    pub plate_v: Option<f64>,
    /// The highest DC volts the set puts on the screen.
    #[cfg_attr(test, ts(optional))]
    pub screen_v: Option<f64>,
    /// The plate current in the set, milliamps.
    #[cfg_attr(test, ts(optional))]
    pub plate_ma: Option<f64>,
    /// Pins the original leaves empty that have something soldered to them; an empty list says: looked, nothing there.
    #[cfg_attr(test, ts(optional))]
    pub tie_points: Option<Vec<u8>>,
    /// Whether the stage is controlled by AGC (automatic gain control).
    #[cfg_attr(test, ts(optional))]
    pub agc: Option<bool>,
}

impl From<&Fields<'_>> for SocketQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            supply: fields.record("supply").map(|supply| SupplyQuestion::from(&supply)),
            plate_v: fields.number("plate_v"),
            screen_v: fields.number("screen_v"),
            plate_ma: fields.number("plate_ma"),
            tie_points: fields.pins("tie_points"),
            agc: fields.flag("agc"),
        }
    }
}

/// Can the candidate go where the original was?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SwapQuestion {
    /// The type the set wants.
    pub original: String,
    /// The type at hand.
    pub candidate: String,
    /// What is known of the socket.
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
}

impl From<&Fields<'_>> for SwapQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            original: fields.text("original"),
            candidate: fields.text("candidate"),
            socket: fields.record("socket").map(|socket| SocketQuestion::from(&socket)),
        }
    }
}

/// What could go in instead?
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CandidatesQuestion {
    /// The type the set wants.
    pub original: String,
    /// What is known of the socket.
    #[cfg_attr(test, ts(optional))]
    pub socket: Option<SocketQuestion>,
    /// The worst grade wanted in the list; left out: `after_changes`.
    #[cfg_attr(test, ts(optional))]
    pub least_grade: Option<Grade>,
    /// How many at the most; left out: 40.
    #[cfg_attr(test, ts(optional))]
    pub limit: Option<u32>,
}

impl From<&Fields<'_>> for CandidatesQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self {
            original: fields.text("original"),
            socket: fields.record("socket").map(|socket| SocketQuestion::from(&socket)),
            least_grade: fields.word("least_grade"),
            limit: fields.whole("limit"),
        }
    }
}

/// The swap judged under one way of feeding the heaters.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Way {
    /// "series", "parallel" or "battery".
    pub supply: String,
    /// In words: "heaters in series, 0.15 A".
    pub supply_words: String,
    /// The grade.
    pub grade: Grade,
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The one or two findings that decide.
    pub reasons: Vec<Finding>,
    /// What has to change, in order.
    pub changes: Vec<Change>,
    /// Every check, the deciding one first.
    pub findings: Vec<Finding>,
    /// What to measure afterwards.
    pub measure: Vec<String>,
    /// Facts missing, that would settle an unknown.
    pub missing: Vec<String>,
}

/// A swap judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SwapAnswer {
    /// The answer in one sentence; when the ways differ it says so.
    pub verdict: Verdict,
    /// The grade that holds whichever way the heaters are fed: the worse one.
    pub grade: Grade,
    /// One entry when the supply is known, else one for each way.
    pub ways: Vec<Way>,
    /// Warnings that belong to this answer.
    pub cautions: Vec<Caution>,
    /// The tube the set wants.
    pub original: TubeView,
    /// The tube at hand.
    pub candidate: TubeView,
    /// Pins that need a look before the candidate goes in: empty in the original, used in the candidate.
    pub danger_pins: Vec<String>,
}

/// One candidate in the ranking.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ranked {
    /// The type.
    pub r#type: String,
    /// Its grade: the worse one when the supply is unknown.
    pub grade: Grade,
    /// "Yes, as it stands."
    pub word: String,
    /// Grades per way of feeding the heaters, when they differ: ("series", `no`).
    pub ways: Vec<(String, Grade)>,
    /// The sentence that decides.
    pub says: String,
    /// `common`, `findable`, `scarce`, or absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub found_today: Option<String>,
    /// Other markings it is sold under.
    pub names: Vec<String>,
}

/// All candidates, best first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CandidatesAnswer {
    /// The answer in one sentence.
    pub verdict: Verdict,
    /// The tube the set wants.
    pub original: TubeView,
    /// Best first.
    pub ranked: Vec<Ranked>,
    /// How many of the book's types were looked at.
    pub looked_at: u32,
}

/// Answers `swap`.
pub fn answer(book: &Book, question: &SwapQuestion) -> Result<SwapAnswer, ErrorAnswer> {
    let original = tube::find(book, "original", &question.original)?;
    let candidate = tube::find(book, "candidate", &question.candidate)?;
    let sockets = sockets(book, original.tube, question.socket.as_ref())?;
    let same = original.place == candidate.place;
    let pair = Pair { original: original.tube, candidate: candidate.tube };
    let labels = (question.original.trim(), question.candidate.trim());
    let ways: Vec<Way> = sockets.iter().map(|socket| way(&pair, socket, same, labels)).collect();
    let grade = ways.iter().map(|way| way.grade).max().unwrap_or(Grade::Unknown);
    let verdict = whole_verdict(&ways, grade);
    let danger_pins = danger_pins(&pair, &sockets, same);
    let cautions = if matches!(grade, Grade::No) { Vec::new() } else { cautions(original.tube, &sockets) };
    Ok(SwapAnswer {
        verdict,
        grade,
        ways,
        cautions,
        original: tube::view(book, original.tube),
        candidate: tube::view(book, candidate.tube),
        danger_pins,
    })
}

/// Answers `candidates`.
pub fn candidates(book: &Book, question: &CandidatesQuestion) -> Result<CandidatesAnswer, ErrorAnswer> {
    let original = tube::find(book, "original", &question.original)?;
    let sockets = sockets(book, original.tube, question.socket.as_ref())?;
    let least = question.least_grade.unwrap_or(Grade::AfterChanges);
    let limit = question.limit.unwrap_or(40).min(1000) as usize;
    let mut judged: Vec<(usize, Grade, Vec<Judgement>)> = Vec::new();
    let mut keyed: Vec<(u64, u32)> = Vec::new();
    for (place, candidate) in book.tubes().iter().enumerate() {
        if place == original.place || (least <= Grade::AfterChanges && hopeless(original.tube, candidate, &sockets)) {
            continue;
        }
        let ways: Vec<Judgement> =
            sockets.iter().map(|socket| judge(original.tube, candidate, socket, false)).collect();
        let grade = ways.iter().map(|judgement| judgement.grade).max().unwrap_or(Grade::Unknown);
        // With the supply unknown a type that fits one way is worth listing; the list says which way.
        let best = ways.iter().map(|judgement| judgement.grade).min().unwrap_or(Grade::Unknown);
        if best > least {
            continue;
        }
        let checks = ways.iter().flat_map(|judgement| judgement.checks.iter().flatten());
        let work = checks.filter(|check| check.outcome >= Outcome::NeedsChange).count() as u64;
        let rare = candidate.found_today.unwrap_or(FoundToday::Scarce) as u64;
        keyed.push(((grade as u64) << 24 | (best as u64) << 16 | work.min(255) << 8 | rare, judged.len() as u32));
        judged.push((place, grade, ways));
    }
    let ranked: Vec<Ranked> = in_order(keyed)
        .take(limit)
        .filter_map(|at| {
            let (place, grade, ways) = judged.get(at)?;
            let candidate = book.tubes().get(*place)?;
            Some(rank(book, &Pair { original: original.tube, candidate }, *grade, ways, &sockets))
        })
        .collect();
    let names: Vec<String> = book.names_of(original.tube).map(|name| name.name.clone()).collect();
    let verdict = candidates_verdict(original.tube, &names, &ranked);
    Ok(CandidatesAnswer {
        verdict,
        original: tube::view(book, original.tube),
        ranked,
        looked_at: book.tubes().len() as u32,
    })
}

fn rank(book: &Book, pair: &Pair<'_>, grade: Grade, judged: &[Judgement], sockets: &[Socket]) -> Ranked {
    let differ = judged.iter().any(|judgement| judgement.grade != grade);
    let ways = if differ {
        judged
            .iter()
            .zip(sockets)
            .map(|(judgement, socket)| (supply_name(socket).to_owned(), judgement.grade))
            .collect()
    } else {
        Vec::new()
    };
    let deciding = judged.iter().max_by_key(|judgement| judgement.grade).map(|judgement| reasons(pair, judgement));
    let says = deciding.and_then(|reasons| reasons.into_iter().next()).map(|finding| finding.says).unwrap_or_default();
    Ranked {
        r#type: pair.candidate.name.clone(),
        grade,
        word: words::grade_words(grade).to_owned(),
        ways,
        says,
        found_today: pair.candidate.found_today.map(|found| found.words().to_owned()),
        names: book.names_of(pair.candidate).map(|name| name.name.clone()).collect(),
    }
}

fn candidates_verdict(original: &Tube, names: &[String], ranked: &[Ranked]) -> Verdict {
    let count = |grade: Grade| ranked.iter().filter(|row| row.grade == grade).count();
    let plug_in = count(Grade::AsIs) + count(Grade::AsIsDifferent);
    let work = count(Grade::AfterChanges);
    let one_way = ranked.iter().filter(|row| row.grade >= Grade::No).count();
    let mut parts = Vec::new();
    if !names.is_empty() {
        parts.push(format!("{} is also sold as {}", original.name, names.join(", ")));
    }
    let types = |count: usize| if count == 1 { "1 type".to_owned() } else { format!("{count} types") };
    if plug_in > 0 {
        parts.push(format!("{} can go in as they stand", types(plug_in)));
    }
    if work > 0 {
        parts.push(format!("{} after changes", types(work)));
    }
    if one_way > 0 {
        parts.push(format!("{} only with one way of feeding the heaters", types(one_way)));
    }
    let (mark, word) = match (plug_in, work + one_way, names.is_empty()) {
        (0, 0, true) => (Mark::No, "Nothing in the book."),
        (0, 0, false) => (Mark::Yes, "Only under its other names."),
        (0, _, _) => (Mark::Care, "With work, or one way only."),
        _ => (Mark::Yes, "Yes, there are some."),
    };
    let says = if parts.is_empty() {
        format!("The book knows no stand-in for {}.", original.name)
    } else {
        format!("{}.", parts.join("; "))
    };
    Verdict { mark, word: word.to_owned(), says }
}

/// The sockets to judge: one when the supply is known, else one for each way the original's heater may be fed.
fn sockets(book: &Book, original: &Tube, asked: Option<&SocketQuestion>) -> Result<Vec<Socket>, ErrorAnswer> {
    let empty = SocketQuestion::default();
    let asked = asked.unwrap_or(&empty);
    let supplies = match &asked.supply {
        Some(supply) => vec![supply_of(book, original, supply)?],
        None => both_ways(original),
    };
    let tie_points = match &asked.tie_points {
        Some(pins) => {
            let mut mask = 0u16;
            for (at, &pin) in pins.iter().enumerate() {
                if usize::from(pin) > MOST_PINS {
                    let field = format!("socket.tie_points[{at}]");
                    return Err(ErrorAnswer::new(
                        field,
                        pin.to_string(),
                        format!("pin numbers 1 to {MOST_PINS}, 0 for the cap"),
                    ));
                }
                mask |= 1 << pin;
            }
            Some(mask)
        }
        None => None,
    };
    let (plate_v, screen_v, plate_ma) = (asked.plate_v, asked.screen_v, asked.plate_ma);
    Ok(supplies.into_iter().map(|supply| Socket { supply, plate_v, screen_v, plate_ma, tie_points }).collect())
}

fn both_ways(original: &Tube) -> Vec<Supply> {
    let series = Supply::Series { amps: None, line_v: None, others_v: None };
    let low = original.figures.heater_v.is_some_and(|volts| volts <= 3.0);
    let rectifier = original.units.iter().all(|unit| unit.function == Function::Rectifier);
    match original.heater_kind {
        Some(HeaterKind::Filament) if low && !rectifier => {
            vec![series, Supply::Battery, Supply::Parallel { volts: None, spare_amps: None }]
        }
        Some(HeaterKind::Filament) => vec![Supply::Parallel { volts: None, spare_amps: None }],
        _ => vec![series, Supply::Parallel { volts: None, spare_amps: None }],
    }
}

fn supply_of(book: &Book, original: &Tube, supply: &SupplyQuestion) -> Result<Supply, ErrorAnswer> {
    Ok(match supply {
        SupplyQuestion::Series { amps, line_v, others } => {
            let mut sum: Option<f64> = None;
            for (at, name) in others.iter().flatten().enumerate() {
                let field = format!("socket.supply.others[{at}]");
                let other = tube::find(book, &field, name)?.tube;
                let amps = amps.or(original.figures.heater_a);
                let volts = heater_volts_at(other, amps).ok_or_else(|| {
                    ErrorAnswer::new(
                        &field,
                        format!("{}, whose heater does not take the string's current", other.name),
                        "types of one heater current",
                    )
                })?;
                sum = Some(sum.unwrap_or(0.0) + volts);
            }
            Supply::Series { amps: *amps, line_v: *line_v, others_v: sum }
        }
        SupplyQuestion::Parallel { volts, spare_amps } => Supply::Parallel { volts: *volts, spare_amps: *spare_amps },
        SupplyQuestion::Battery => Supply::Battery,
    })
}

/// Volts of the connection of a heater that takes these amperes.
fn heater_volts_at(tube: &Tube, amps: Option<f64>) -> Option<f64> {
    let figures = &tube.figures;
    let ways = [figures.heater_v.zip(figures.heater_a), figures.heater_parallel_v.zip(figures.heater_parallel_a)];
    ways.into_iter().flatten().find(|(_, a)| amps.is_none_or(|amps| (a / amps - 1.0).abs() <= 0.03)).map(|row| row.0)
}

fn supply_name(socket: &Socket) -> &'static str {
    match socket.supply {
        Supply::Series { .. } => "series",
        Supply::Parallel { .. } => "parallel",
        Supply::Battery => "battery",
    }
}

fn supply_words(socket: &Socket, original: &Tube) -> String {
    match socket.supply {
        Supply::Series { amps, .. } => match amps.or(original.figures.heater_a) {
            Some(amps) => format!("heaters in series, {} A", words::figure(amps)),
            None => "heaters in series".to_owned(),
        },
        Supply::Parallel { volts, .. } => match volts.or(original.figures.heater_v) {
            Some(volts) => format!("heaters in parallel, {} V", words::figure(volts)),
            None => "heaters in parallel".to_owned(),
        },
        Supply::Battery => "filaments on dry batteries".to_owned(),
    }
}

/// The findings that decide: the worst ones, two at the most; for a good grade what there is to notice.
fn reasons(pair: &Pair<'_>, judgement: &Judgement) -> Vec<Finding> {
    let Some(checks) = &judgement.checks else { return Vec::new() };
    let mut order: Vec<&Check> = checks.iter().filter(|check| weight(check) > 0).collect();
    sort_few(&mut order, |check| std::cmp::Reverse(weight(check)));
    let worst = order.first().map_or(0, |check| weight(check));
    // Beside the worst kind a second finding of another kind is shown; notices only where nothing weighs more.
    order.into_iter().take_while(|check| weight(check) + 2 >= worst).take(3).map(|check| pair.finding(check)).collect()
}

fn weight(check: &Check) -> u8 {
    match check.outcome {
        Outcome::Fails => 6,
        Outcome::Unknown if check.decisive => 5,
        Outcome::NeedsChange => 4,
        Outcome::Differs => 3,
        Outcome::Unknown => 2,
        Outcome::Ok if check.notice => 1,
        Outcome::Ok => 0,
    }
}

fn way(pair: &Pair<'_>, socket: &Socket, same: bool, labels: (&str, &str)) -> Way {
    let judgement = judge(pair.original, pair.candidate, socket, same);
    let grade = judgement.grade;
    let mut reasons = reasons(pair, &judgement);
    let mut findings: Vec<Finding> = Vec::new();
    let mut missing = Vec::new();
    if let Some(checks) = &judgement.checks {
        let mut order: Vec<&Check> = checks.iter().collect();
        sort_few(&mut order, |check| std::cmp::Reverse(weight(check)));
        findings = order.into_iter().map(|check| pair.finding(check)).collect();
        missing = checks.iter().filter_map(|check| missing_fact(pair, check)).collect();
    } else {
        let says = format!("{} and {} are names of one type, {}.", labels.0, labels.1, pair.original.name);
        reasons.push(Finding::plain("name", Outcome::Ok, says));
    }
    let changes = pair.changes(&judgement);
    let says = match grade {
        Grade::Same => format!("{} is {} under another name.", labels.1, labels.0),
        Grade::AsIs => format!("{} goes in for {} as it stands.", pair.candidate.name, pair.original.name),
        Grade::AsIsDifferent => {
            format!(
                "{} goes in for {} safely, but the set will behave differently.",
                pair.candidate.name, pair.original.name
            )
        }
        Grade::AfterChanges => {
            format!("{} can stand in for {} only after changes.", pair.candidate.name, pair.original.name)
        }
        Grade::No => format!("Do not put {} in for {}.", pair.candidate.name, pair.original.name),
        Grade::Unknown => {
            format!("The book cannot tell whether {} goes in for {}.", pair.candidate.name, pair.original.name)
        }
    };
    let verdict = Verdict { mark: words::mark(grade), word: words::grade_words(grade).to_owned(), says };
    Way {
        supply: supply_name(socket).to_owned(),
        supply_words: supply_words(socket, pair.original),
        grade,
        verdict,
        reasons,
        changes,
        measure: measure(pair, socket, grade),
        findings,
        missing,
    }
}

fn whole_verdict(ways: &[Way], grade: Grade) -> Verdict {
    let Some(first) = ways.first() else {
        return Verdict { mark: Mark::Unknown, word: "Cannot tell.".to_owned(), says: String::new() };
    };
    if ways.iter().all(|way| way.grade == first.grade) {
        return first.verdict.clone();
    }
    let parts: Vec<String> = ways
        .iter()
        .map(|way| {
            let feed = way.supply_words.split(',').next().unwrap_or(&way.supply_words);
            format!("{feed}: {}", way.verdict.word.trim_end_matches('.').to_ascii_lowercase())
        })
        .collect();
    let best = ways.iter().map(|way| way.grade).min().unwrap_or(grade);
    let mark = if words::mark(best) == Mark::No { Mark::No } else { Mark::Care };
    Verdict {
        mark,
        word: "It depends on how the heaters are fed.".to_owned(),
        says: format!("With {}.", parts.join("; with ")),
    }
}

fn missing_fact(pair: &Pair<'_>, check: &Check) -> Option<String> {
    if check.outcome != Outcome::Unknown {
        return None;
    }
    let whose = |own: bool, other: bool| match (own, other) {
        (true, true) => format!("{} and {}", pair.original.name, pair.candidate.name),
        (true, false) => pair.original.name.clone(),
        _ => pair.candidate.name.clone(),
    };
    let (what, own, other) = match check.fact {
        Fact::Base(own, other) => ("base", own.is_none(), other.is_none()),
        Fact::Pins(_) => ("pins", pair.original.pins.is_none(), pair.candidate.pins.is_none()),
        Fact::Heater(fact) => ("heater volts and amperes", fact.own.is_none(), fact.other.is_none()),
        Fact::HeaterCathode(fact) => ("most heater-cathode volts", fact.own_v.is_none(), fact.other_v.is_none()),
        Fact::CutOff(fact) => ("cut-off", fact.own.is_none(), fact.other.is_none()),
        Fact::Rating(fact) => {
            let words =
                UnitFigures::COLUMNS.iter().find(|column| column.0 == fact.column).map_or("rating", |column| column.1);
            (words, fact.own.is_none(), fact.other.is_none())
        }
        Fact::Gain(fact) => ("typical figures", fact.own.is_none(), fact.other.is_none()),
        Fact::Shield { .. } => ("bulb", pair.original.envelope.is_none(), pair.candidate.envelope.is_none()),
        Fact::WarmUp(own, other) => ("warm-up", own.is_none(), other.is_none()),
        Fact::Structure(_) => return None,
    };
    Some(format!("{what} of {}", whose(own, other)))
}

/// What to measure after the swap; common practice, no source.
fn measure(pair: &Pair<'_>, socket: &Socket, grade: Grade) -> Vec<String> {
    if matches!(grade, Grade::No | Grade::Unknown | Grade::Same) {
        return Vec::new();
    }
    let mut all = Vec::new();
    if let Some(volts) = pair.candidate.figures.heater_v
        && matches!(socket.supply, Supply::Series { .. })
    {
        all.push(format!("Heater volts, warm: {} V within 10 %.", words::figure(volts)));
    }
    let has = |function: Function| pair.original.unit_of(function).is_some();
    if has(Function::Rectifier) {
        all.push("B+ at the first filter, cold and warm, against the capacitors' rating.".to_owned());
    }
    if has(Function::PowerPentode) || has(Function::PowerTriode) {
        all.push("Cathode volts of the output tube, and that its grid sits at 0 V.".to_owned());
    }
    all
}

fn danger_pins(pair: &Pair<'_>, sockets: &[Socket], same: bool) -> Vec<String> {
    let Some(socket) = sockets.first() else { return Vec::new() };
    let judgement = judge(pair.original, pair.candidate, socket, same);
    let mut mask = 0u16;
    for check in judgement.checks.iter().flatten() {
        if let Fact::Pins(fact) = check.fact {
            mask |= fact.ties | fact.clashes | fact.joined;
        }
    }
    (0..=MOST_PINS)
        .filter(|pin| mask & 1 << pin != 0)
        .map(|pin| if pin == 0 { "cap".to_owned() } else { pin.to_string() })
        .collect()
}

fn cautions(original: &Tube, sockets: &[Socket]) -> Vec<Caution> {
    let mut all = vec![STORED_CHARGE];
    if sockets.iter().any(|socket| matches!(socket.supply, Supply::Series { .. }))
        && original.heater_kind == Some(HeaterKind::Heater)
    {
        all.push(HOT_CHASSIS);
    }
    all
}
