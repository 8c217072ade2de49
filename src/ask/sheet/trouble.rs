//! Faults and open questions of the whole set, the dangerous ones first: what can hurt a person, what can ruin the set, what keeps it from working,
//! what cannot be told. Each is one sentence, and none is said twice.

use super::parts::PartLine;
use super::socket::{self, Line};
use super::{Danger, SheetHeaters, SheetSection, SheetTrouble, Whole};
use crate::ask::heater_string::made_for;
use crate::ask::{CapacitorRole, ErrorAnswer, LineState};
use crate::finding::{Finding, Mark, Outcome, capital};
use crate::quantity::volt;
use crate::swap::Grade;

/// Over this a heater does not live long, percent of its rated volts; under the other it emits too little. Common practice, no source.
const OVER_PERCENT: f64 = 110.0;
const UNDER_PERCENT: f64 = 90.0;

const SELENIUM: &str = "A selenium stack fails with age, and burning it gives off poisonous fumes: put silicon in its place before the set is run.";
const LEAKY: &str = "An old coupling capacitor leaks as a rule and drives the next grid positive, which ruins an output tube and its transformer: change it before the set is run.";
const AT_LINE: &str =
    "It is at the power line and shows no safety class: only a part of class X2 or Y2 may be fitted there.";
/// Old composition resistors drift upwards, many stay as they were: common practice, no source.
pub(super) const UNMEASURED: &str = "Not measured yet: old resistors drift upwards, and many are as good as ever. Lift one end and measure before you buy.";
const FILAMENTS: &str = "On the line they may hang on this B+: a rectifier that gives more burns out all of them at once. Fill in the filament tubes and the ohms before them in the supply, and leave the tubes out until the current is set.";
const UNREAD: &str =
    "What is written on it cannot be read: write its value with the unit, or say C or R before its colours.";
const PLACE_OPEN: &str = "It is not said where it sits: across the power line, or from the line to the chassis, only class X2 or Y2 may be fitted.";

/// Facts by the name of their field, as a person would call them.
const FACTS: [(&str, &str); 13] = [
    ("first_filter_uf", "first filter microfarads"),
    ("target_v", "the rectifier the set was made with, or B+ from the drawing"),
    ("load_ma", "what the set draws from B+, milliamps"),
    ("load_ohm", "the load once, as milliamps or as ohms"),
    ("load_tubes", "what the set draws from B+, milliamps"),
    ("secondary_v", "volts of the high-voltage winding"),
    ("secondary_ohm", "ohms of the high-voltage winding"),
    ("filter_ohm", "ohms of the filter resistor or choke"),
    ("second_filter_uf", "second filter microfarads"),
    ("filament_ohm", "ohms of the filament resistor"),
    ("original.drop_v", "tube drop of the rectifier from a data sheet"),
    ("original.drop_ma", "the current of that tube drop"),
    ("original.type", "the rectifier tube"),
];

/// The troubles as they are found.
#[derive(Default)]
struct List {
    all: Vec<SheetTrouble>,
}

impl List {
    fn add(&mut self, danger: Danger, mark: Mark, section: SheetSection, at: Option<usize>, place: &str, says: String) {
        // The same sentence for another line: said once, for both.
        if let Some(known) = self.all.iter_mut().find(|known| known.says == says) {
            if known.danger > danger {
                (known.danger, known.mark) = (danger, mark);
            }
            if !known.place.split(", ").any(|one| one == place) {
                known.place = format!("{}, {place}", known.place);
            }
            return;
        }
        self.all.push(SheetTrouble { danger, mark, section, at, place: place.to_owned(), says });
    }

    fn open(&mut self, section: SheetSection, place: &str, says: impl Into<String>) {
        self.add(Danger::Open, Mark::Unknown, section, None, place, says.into());
    }
}

/// Gathers the troubles of a set.
pub(super) fn gather(whole: &Whole<'_, '_>) -> Vec<SheetTrouble> {
    let mut list = List::default();
    tubes(whole, &mut list);
    heaters(whole, &mut list);
    supply(whole, &mut list);
    for (at, line) in whole.parts.iter().enumerate() {
        part(whole, line, at, &mut list);
    }
    // In the order found within each danger: the lines of the sheet.
    crate::order::sort_few(&mut list.all, |trouble| trouble.danger);
    list.all
}

fn tubes(whole: &Whole<'_, '_>, list: &mut List) {
    let section = SheetSection::Tubes;
    if whole.sheet.tubes.is_empty() {
        list.open(section, "Tubes", "No tube is listed: heaters and B+ cannot be told without them.");
    }
    let mut untested = Vec::new();
    let lines = whole.tubes.iter().zip(&whole.sheet.tubes).zip(&whole.sockets.lines).enumerate();
    for (at, ((judged, tube), line)) in lines {
        let place = socket::name(tube);
        let mut add =
            |danger, says: &str| list.add(danger, judged.answer.mark, section, Some(at), &place, says.to_owned());
        match (line, judged.fits) {
            (Line::Item(_), _) => continue,
            (Line::Unread(_), _) => {
                add(Danger::Open, &judged.answer.says);
                continue;
            }
            (_, Some(Grade::No | Grade::AfterChanges)) => add(Danger::Set, &judged.answer.says),
            (_, Some(Grade::Unknown)) => add(Danger::Open, &judged.answer.says),
            (_, None) if judged.answer.wanted => add(Danger::Work, &judged.answer.says),
            _ => {}
        }
        if judged.fits.is_some() && judged.answer.wanted {
            let chosen = tube.fitted.as_deref().unwrap_or_default().trim();
            let says = match judged.fits {
                Some(grade) if grade <= Grade::AfterChanges => {
                    format!("{chosen} is to go in and is still to be found.")
                }
                _ => format!("{} is still to be found.", judged.answer.r#type),
            };
            list.add(Danger::Work, Mark::Care, section, Some(at), &place, says);
        }
        if tube.state.is_none() {
            untested.push(place);
        }
    }
    if !untested.is_empty() {
        list.open(
            section,
            &untested.join(", "),
            "How these tubes test is not told: a weak or shorted one may be among them.",
        );
    }
}

fn heaters(whole: &Whole<'_, '_>, list: &mut List) {
    let (section, place) = (SheetSection::Heaters, whole.heaters_name());
    match (&whole.heaters.told, whole.sheet.heaters) {
        (_, None) => {
            let says = "How the heaters are fed is not told: fill in series, parallel or battery.";
            return list.open(section, "Heaters", says);
        }
        (None, Some(SheetHeaters::Parallel)) if whole.sheet.winding_v.is_none() => {
            return list.open(
                section,
                place,
                "What the heater winding gives is not told: fill in heater winding volts.",
            );
        }
        (None, _) => return,
        (Some(Err(error)), _) => return list.open(section, place, capital(&error.says)),
        (Some(Ok(_)), _) => {}
    }
    let Some(told) = whole.heaters.answer() else { return };
    if whole.sheet.heaters == Some(SheetHeaters::Series) && whole.sheet.line_v.is_none() {
        let says = "The line is not measured: 120 V is taken; fill in line volts.";
        list.open(section, place, says);
    }
    // The first finding is of the whole, the next are of the heaters in order.
    let mut own = told.findings.iter().skip(1);
    for (row, at) in told.heaters.iter().zip(&whole.heaters.lines) {
        let Some(finding) = own.next() else { break };
        let tube = whole.sheet.tubes.get(*at).map(socket::name).unwrap_or_default();
        let item = matches!(whole.sockets.lines.get(*at), Some(Line::Item(_)));
        if row.percent > OVER_PERCENT && finding.outcome >= Outcome::NeedsChange {
            list.add(Danger::Set, Mark::No, section, Some(*at), &tube, finding.says.clone());
        } else if row.percent < UNDER_PERCENT && finding.outcome >= Outcome::NeedsChange && !item {
            list.add(Danger::Work, Mark::Care, section, Some(*at), &tube, finding.says.clone());
        }
    }
    if told.verdict.mark == Mark::No {
        list.add(Danger::Set, Mark::No, section, None, place, told.verdict.says.clone());
    }
    let of_all = told.findings.iter().take(1).chain(own);
    let (insulation, of_all): (Vec<&Finding>, Vec<&Finding>) = of_all.partition(|one| one.check == "heater-cathode");
    if let [first, others @ ..] = insulation.as_slice() {
        let more = match others.len() {
            0 => String::new(),
            1 => " So it is with one more.".to_owned(),
            count => format!(" So it is with {count} more."),
        };
        let says = format!("{}{more} Are they wired in this order, the chassis end last?", first.says);
        list.add(Danger::Work, Mark::Care, section, None, place, says);
    }
    for finding in of_all {
        match (finding.check.as_str(), finding.outcome) {
            ("winding", Outcome::Unknown) => {
                list.open(section, place, "What the heater winding bears is not told: fill in heater winding amperes.");
            }
            ("winding", Outcome::Fails) => add_finding(list, Danger::Set, section, place, finding),
            ("heater currents" | "line", Outcome::NeedsChange | Outcome::Fails) => {
                add_finding(list, Danger::Set, section, place, finding);
            }
            ("warm-up" | "marking", outcome) if outcome > Outcome::Ok => {
                let danger = if outcome == Outcome::Unknown { Danger::Open } else { Danger::Work };
                add_finding(list, danger, section, place, finding);
            }
            _ => {}
        }
    }
}

fn add_finding(list: &mut List, danger: Danger, section: SheetSection, place: &str, finding: &Finding) {
    let mark = match finding.outcome {
        Outcome::Fails => Mark::No,
        Outcome::Unknown => Mark::Unknown,
        _ => Mark::Care,
    };
    list.add(danger, mark, section, None, place, finding.says.clone());
}

/// The line against the one the set is made for; a string tells that by its own volts.
fn line(whole: &Whole<'_, '_>, list: &mut List) {
    let section = SheetSection::Supply;
    match (whole.sheet.heaters, whole.sheet.designed_v.zip(whole.sheet.line_v)) {
        (Some(SheetHeaters::Parallel), None) => {
            let says =
                "Whether the set is made for this line is not told: fill in line volts and the volts on its plate.";
            list.open(section, "Line", says);
        }
        (heaters, Some((designed_v, line_v)))
            if heaters != Some(SheetHeaters::Series) || whole.heaters.answer().is_none() =>
        {
            let finding = made_for(designed_v, line_v);
            if finding.outcome == Outcome::NeedsChange {
                add_finding(list, Danger::Set, section, "Line", &finding);
            }
        }
        _ => {}
    }
}

fn supply(whole: &Whole<'_, '_>, list: &mut List) {
    let section = SheetSection::Supply;
    let place = "Supply";
    line(whole, list);
    if whole.supply.by_selenium() {
        list.add(Danger::Person, Mark::Care, section, None, place, SELENIUM.to_owned());
    }
    let told_of = whole.supply.answer().is_some_and(|told| !told.filaments.is_empty());
    if whole.sheet.heaters == Some(SheetHeaters::Battery) && whole.filaments_at_risk() && !told_of {
        list.add(Danger::Set, Mark::Care, section, None, "Filaments", FILAMENTS.to_owned());
    }
    match &whole.supply.told {
        None if whole.sheet.heaters == Some(SheetHeaters::Battery) => {}
        None => list.open(
            section,
            place,
            "Nothing is told of the supply: fill in how it rectifies, its winding or the line, and the first filter.",
        ),
        Some(Err(error)) => list.open(section, place, missing(error)),
        Some(Ok(told)) => {
            if whole.sheet.line_v.is_none() {
                list.open(section, place, "B+ follows the line, which is not measured: fill in line volts.");
            }
            let filter = whole.parts.iter().any(|line| line.role == Some(CapacitorRole::FirstFilter));
            for finding in told.findings.iter().chain(&told.tube_swap) {
                match (finding.check.as_str(), finding.outcome) {
                    ("cold start" | "filaments after" | "filaments on a high line", Outcome::Fails) => {
                        add_finding(list, Danger::Set, section, place, finding);
                    }
                    // A filter that is among the parts is judged there.
                    ("cold start", Outcome::Unknown) if !filter => {
                        add_finding(list, Danger::Open, section, place, finding);
                    }
                    ("target" | "plates" | "reading" | "load", Outcome::Differs) => {
                        add_finding(list, Danger::Work, section, place, finding);
                    }
                    _ => {}
                }
            }
            for finding in &told.tube_swap {
                match finding.outcome {
                    Outcome::Fails | Outcome::NeedsChange => add_finding(list, Danger::Set, section, place, finding),
                    Outcome::Unknown => add_finding(list, Danger::Open, section, place, finding),
                    _ => {}
                }
            }
        }
    }
}

/// What to fill in so that B+ can be told.
fn missing(error: &ErrorAnswer) -> String {
    let field = error.field.split('[').next().unwrap_or_default();
    let words = FACTS.iter().find(|fact| fact.0 == field).map(|fact| fact.1);
    match words {
        Some(words) if error.found.is_empty() => format!("B+ cannot be told yet: fill in {words}."),
        // Sentences made for a person name no field.
        _ if !error.says.contains('`') => format!("B+ cannot be told: {}", error.says),
        words => format!("B+ cannot be told from {}: fill in {}.", error.found, words.unwrap_or("the supply")),
    }
}

fn part(whole: &Whole<'_, '_>, line: &PartLine<'_>, at: usize, list: &mut List) {
    if line.part.done {
        return;
    }
    let (section, name, judged) = (SheetSection::Parts, line.name.as_str(), &line.judged);
    let mut add = |danger, mark, says: String| list.add(danger, mark, section, Some(at), name, says);
    if line.reading_unread {
        let measured = line.part.measured.as_deref().unwrap_or_default().trim();
        add(Danger::Open, Mark::Unknown, format!("\"{measured}\" cannot be read as a measured value of {name}."));
    }
    if line.at_line && !line.bears_line() {
        if judged.mark != Mark::Unknown {
            return add(Danger::Person, judged.mark, judged.says.clone());
        }
        add(Danger::Person, Mark::Care, AT_LINE.to_owned());
    }
    if line.role == Some(CapacitorRole::Coupling) && judged.paper {
        add(Danger::Set, Mark::Care, LEAKY.to_owned());
    }
    let told = whole.supply.question.as_ref().is_some_and(|question| question.filter_rated_v.is_some());
    if let Some((rated_v, cold_v)) = line.rated_below(&whole.supply)
        && !told
    {
        let says = format!(
            "It is rated {} and gets up to {} before the tubes draw, on a line 10 % high.",
            volt(rated_v),
            volt(cold_v)
        );
        add(Danger::Set, Mark::No, says);
    }
    match judged.state {
        LineState::Unread => add(Danger::Open, Mark::Unknown, UNREAD.to_owned()),
        LineState::Check if line.unmeasured => add(Danger::Open, Mark::Unknown, UNMEASURED.to_owned()),
        LineState::Check => add(Danger::Open, Mark::Unknown, judged.says.clone()),
        LineState::Buy if line.part.measured.is_some() && judged.mark != Mark::Yes && !line.at_line => {
            add(Danger::Work, Mark::Care, judged.says.clone());
        }
        _ => {}
    }
    if judged.place_open && judged.paper {
        list.add(Danger::Open, Mark::Unknown, section, Some(at), name, PLACE_OPEN.to_owned());
    }
}
