//! What was looked at, what to do and what to measure.

use super::readings::tolerance_says;
use super::{CapacitorKind, CapacitorRole, Case, Choice, Dielectric, Doubt, Joined, dielectric, rating, stand_ins};
use crate::finding::{Change, Finding, Outcome, PartToFit};
use crate::order::sort_few;
use crate::passive::{Barrier, Basis, CapacitorPart, Line, TOUCH_NOTICE_MA, TOUCH_TARGET_MA, part_code};
use crate::quantity::{farad, milliamp, ohm, percent, significant, volt};

/// The findings that decide, at most three, what forbids it first.
pub(super) fn reasons(case: &Case<'_>) -> Vec<Finding> {
    let all = findings(case);
    let mut reasons: Vec<Finding> =
        all.iter().filter(|finding| finding.outcome != Outcome::Ok && finding.wanted.is_some()).cloned().collect();
    for finding in all {
        if reasons.len() >= 2 {
            break;
        }
        if !reasons.contains(&finding) && finding.wanted.is_some() {
            reasons.push(finding);
        }
    }
    reasons.truncate(3);
    sort_few(&mut reasons, |finding| finding.outcome != Outcome::Fails);
    reasons
}

/// Everything looked at.
pub(super) fn findings(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    if case.doubt().is_some() {
        findings.push(Finding::plain(
            "marking",
            Outcome::Unknown,
            "The marking has more than one meaning; see the readings.",
        ));
    }
    if case.may_be_at_line() {
        findings.push(Finding::plain(
            "place",
            Outcome::Unknown,
            "What the part does was not said. At the power line it needs a safety class, whatever its DC rating.",
        ));
    }
    findings.extend(case.judged.iter().flat_map(|judged| judged.findings.iter().cloned()));
    for choice in case.chosen() {
        findings.push(value(choice));
        match choice.barrier {
            Some(barrier) => findings.extend(touch(case, choice, barrier)),
            None if choice.parts.iter().any(|part| part.class.is_some()) => findings.extend(line_rating(case, choice)),
            None => findings.extend(ratings(case, choice)),
        }
        findings.extend(class(choice, case.role));
        if let Some(most) = choice.most {
            findings.push(first_filter(case, choice, most));
        }
        if let Some(pair) = choice.exact_pair {
            let says = format!(
                "{} and {} in {} come nearer ({}), where a trimmer cannot make it up.",
                farad(pair.first),
                farad(pair.second),
                if pair.joined == Joined::Parallel { "parallel" } else { "series" },
                percent((pair.together(Joined::Parallel) - choice.old.farad) / choice.old.farad * 100.0)
            );
            findings.push(Finding::plain("nearer value", Outcome::Ok, says));
        }
        if let Some(nearer) = choice.nearer {
            let difference = (nearer - choice.old.farad) / choice.old.farad * 100.0;
            findings.push(Finding::plain(
                "nearer value",
                Outcome::Ok,
                format!("{} is nearer ({}), if you find one; it is not needed.", farad(nearer), percent(difference)),
            ));
        }
    }
    findings
}

fn value(choice: &Choice) -> Finding {
    let difference = choice.difference_percent();
    let (wanted, found) = (
        format!("{}, {}", farad(choice.old.farad), tolerance_says(choice.tolerance)),
        format!("{}, {}", farad(choice.farad()), percent(difference)),
    );
    if choice.tolerance.allows(difference) {
        let says = if difference.abs() < 0.05 {
            "The same value is sold.".to_owned()
        } else {
            format!("{} is inside what the old part was allowed.", percent(difference))
        };
        return Finding::figures("value", Outcome::Ok, wanted, found, says);
    }
    let says = "The value is smaller on purpose: the old one lets too much current through.";
    Finding::figures("value", Outcome::Differs, wanted, found, says)
}

/// AC volts of a part across the line.
fn line_rating(case: &Case<'_>, choice: &Choice) -> Option<Finding> {
    let part = choice.parts.first()?;
    let [_, harsher] = Line::USUAL;
    let line_v = case.line.unwrap_or(harsher).volt;
    let wanted = format!("{} line, {} when 10 % high", volt(line_v), volt(line_v * 1.1));
    let says = "Rated in AC volts, for a line that may stand 10 % high. A higher rating does as well.";
    Some(Finding::figures("ratings", Outcome::Ok, wanted, format!("{} or more", rating(part)), says))
}

fn ratings(case: &Case<'_>, choice: &Choice) -> Option<Finding> {
    let part = choice.parts.first()?;
    let old = choice.old.volts.map(|volts| format!("{} on the old part", volt(volts)));
    let place = case.circuit_v.filter(|_| !choice.own_low_volts).map(|volts| format!("{} at cold start", volt(volts)));
    let wanted: Vec<String> = old.into_iter().chain(place).collect();
    let wanted = if wanted.is_empty() { "not known".to_owned() } else { wanted.join(", ") };
    let Some(chosen) = choice.rating else {
        let says =
            "Two in series share the volts, with a resistor of the same value across each so that they share evenly.";
        return Some(Finding::figures("ratings", Outcome::NeedsChange, wanted, format!("2 x {}", rating(part)), says));
    };
    let good_to = volt(chosen.good_to_v.floor());
    let (outcome, says) = match chosen.basis {
        Basis::Old => {
            (Outcome::Ok, format!("Not below the old rating. Good for up to {good_to} at cold start, nominal line."))
        }
        Basis::Place => (Outcome::Ok, format!("Good for up to {good_to} at cold start, nominal line.")),
        Basis::PlaceBelowOld => (
            Outcome::Differs,
            format!(
                "Below the old rating, which is not sold; the place allows it: good for up to {good_to} at cold start."
            ),
        ),
        Basis::Usual => {
            (Outcome::Unknown, format!("The usual rating. Measure: it is good for up to {good_to} at cold start."))
        }
    };
    Some(Finding::figures("ratings", outcome, wanted, rating(part), says))
}

/// The old value against the new in milliamps through a person.
fn touch(case: &Case<'_>, choice: &Choice, barrier: Barrier) -> Vec<Finding> {
    let limit = format!("{} to aim at, {} not to pass", milliamp(TOUCH_TARGET_MA), milliamp(TOUCH_NOTICE_MA));
    let lines = case.line.map_or(Line::USUAL.to_vec(), |line| vec![line]);
    let at_lines = |farad: f64| {
        let figures: Vec<String> = lines
            .iter()
            .map(|line| {
                let (volts, hertz) = (volt(line.volt), significant(line.hertz, 3));
                format!("{} at {volts}, {hertz} Hz", milliamp(line.touch_ma(farad)))
            })
            .collect();
        figures.join("; ")
    };
    let mut findings = Vec::new();
    if barrier.reduced {
        let over = barrier.line.touch_ma(choice.old.farad) > TOUCH_NOTICE_MA;
        findings.push(Finding::figures(
            "touch current",
            if over { Outcome::Fails } else { Outcome::NeedsChange },
            limit.clone(),
            at_lines(choice.old.farad),
            format!("The old value, {}, must not go back in.", farad(choice.old.farad)),
        ));
    }
    let worst = barrier.line.worst_touch_ma(barrier.farad);
    findings.push(Finding::figures(
        "touch current",
        Outcome::Ok,
        limit,
        at_lines(barrier.farad),
        format!("Through {}; with the line 10 % and the part 20 % high {}.", farad(barrier.farad), milliamp(worst)),
    ));
    if let Some(most) =
        barrier.line.largest_e6(TOUCH_NOTICE_MA, true).filter(|most| barrier.reduced && *most > barrier.farad)
    {
        findings.push(Finding::plain(
            "touch current",
            Outcome::Ok,
            format!(
                "If reception or hum asks for more, {} is the most that stays below {}.",
                farad(most),
                milliamp(TOUCH_NOTICE_MA)
            ),
        ));
    }
    findings
}

fn class(choice: &Choice, role: Option<CapacitorRole>) -> Option<Finding> {
    let class = choice.parts.first()?.class?;
    let says = match role {
        Some(CapacitorRole::AcrossLine) => {
            "Across the line a failing part means fire: class X2, or Y2. A film part rated in DC volts is refused."
        }
        _ => {
            "Between the line and metal that can be touched a failing part means shock: class Y only. A film part rated in \
             DC volts and a class X part are refused."
        }
    };
    Some(Finding::figures(
        "safety class",
        Outcome::NeedsChange,
        format!("class {}", class.name()),
        "ordinary part",
        says,
    ))
}

fn first_filter(case: &Case<'_>, choice: &Choice, most: f64) -> Finding {
    let larger = choice.difference_percent() > 0.0 || choice.farad() > most * (1.0 + 1e-9);
    let says = case.most_says.as_deref().unwrap_or(
        "A vacuum rectifier limits the first filter: do not go further above the old value than this unless its data sheet \
         allows it.",
    );
    let (wanted, found) = (format!("up to {}", farad(most)), farad(choice.farad()));
    Finding::figures("rectifier", if larger { Outcome::Differs } else { Outcome::Ok }, wanted, found, says)
}

/// What to do, in order.
pub(super) fn changes(case: &Case<'_>) -> Vec<Change> {
    let mut changes = Vec::new();
    if case.stays() {
        return changes;
    }
    if case.choices.len() > 1 && case.kind == CapacitorKind::Electrolytic {
        changes.push(Change::plain(
            "Fit a separate capacitor for each section and disconnect the can; it can stay as an ornament.",
        ));
        changes.push(Change::plain(
            "The can's negative is common: take every new minus end to the point where that went. If it is insulated from the \
             chassis, the set has back bias there: never take it to the chassis. A can with its own minus lead for a section \
             keeps that section's minus apart.",
        ));
    }
    for (choice, section) in case.choices.iter().zip(1..) {
        let Ok(choice) = choice else { continue };
        let which = if case.choices.len() > 1 { format!("Section {section}: ") } else { String::new() };
        changes.extend(choice.parts.iter().map(|part| {
            let says = format!("{which}{}", fit_says(part));
            Change::with_part(says, part_to_fit(part))
        }));
        if let Some(bleed_ohm) = choice.bleed_ohm {
            changes.push(Change::plain(format!(
                "Fit {} across it as well (two resistors of half the value in series), so that the plug pins are dead \
                 within a second.",
                ohm(bleed_ohm)
            )));
        }
        if let Some((each, rated_v)) = choice.barrier.and_then(|barrier| barrier.two_y2) {
            changes.push(Change::plain(format!(
                "Or, instead of the class Y1 part, two class Y2 parts of {} for {} AC in series.",
                farad(each),
                volt(rated_v)
            )));
        }
        if choice.parts.first().is_some_and(|part| part.joined == Some(Joined::Series)) {
            changes.push(Change::plain(
                "Put equal resistors across the two, 220 kohm 1 W each (common practice), so that they share the volts.",
            ));
        }
    }
    changes
}

fn fit_says(part: &CapacitorPart) -> &'static str {
    match (part.joined, part.dielectric) {
        (Some(Joined::Parallel), _) => "Fit this, in parallel with the other.",
        (Some(Joined::Series), _) => "Fit this, in series with the other.",
        (None, Dielectric::Electrolytic) => {
            "Fit this with its plus end where the old one had it, and disconnect the old one."
        }
        (None, _) if part.class.is_some() => "Fit this, marked with its class by a testing house.",
        (None, _) => "Fit this.",
    }
}

fn part_to_fit(part: &CapacitorPart) -> PartToFit {
    let value = farad(part.farad);
    let code = part_code(part.farad, part.dielectric == Dielectric::Electrolytic);
    let value = match value.strip_suffix(')') {
        Some(open) => format!("{open}, marked {code})"),
        None if part.dielectric == Dielectric::Electrolytic => value,
        None => format!("{value} (marked {code})"),
    };
    let rating = match part.class {
        Some(class) => format!("class {}, {}", class.name(), rating(part)),
        None => rating(part),
    };
    PartToFit { part: format!("capacitor, {}", dielectric(part.dielectric)), value, dissipates_w: None, rating }
}

/// What to measure.
pub(super) fn measure(case: &Case<'_>) -> Vec<String> {
    let mut measure: Vec<&str> = Vec::new();
    match case.doubt() {
        Some(Doubt::Value) => measure.push("Lift one end and measure its capacitance; that settles the marking."),
        Some(Doubt::Sections) => {
            measure.push("Count its leads: one section has two, several have one more than there are sections.");
        }
        None => {}
    }
    if matches!(case.kind, CapacitorKind::Mica | CapacitorKind::Ceramic) {
        measure.push("Before replacing it: lift one end, measure its value and, at working volts, its leakage.");
    }
    if stand_ins(case).is_empty() {
        measure.push("Trace both leads of the old part and say where they go.");
        return measure.into_iter().map(str::to_owned).collect();
    }
    match case.role {
        Some(CapacitorRole::Coupling) => {
            measure.push("Set warm: the next grid shows 0 V DC or its bias; any positive volts there mean leakage.");
        }
        Some(CapacitorRole::FirstFilter | CapacitorRole::SecondFilter) => {
            measure.push("Before you take a minus end to the chassis: ohms from the old minus to the chassis, set off; anything above 0 is back bias.");
            measure.push("From cold: the highest volts across it in the first minute stay below its rating.");
            measure.push("Set warm: B+ against the drawing, and the hum.");
        }
        Some(CapacitorRole::CathodeBypass) => {
            measure.push("Set warm: the cathode volts are what they were. A larger value does no harm here.");
        }
        Some(CapacitorRole::Tuned) => measure.push("Touch up the trimmer of the circuit it belongs to."),
        Some(CapacitorRole::Bypass | CapacitorRole::Tone) => {
            measure.push("Set warm: the volts at the point it bypasses are what the drawing says.");
        }
        Some(CapacitorRole::Agc) => {
            measure.push("Set warm, no station: the AGC line is what the drawing says; leakage pulls it towards zero.");
        }
        Some(CapacitorRole::Buffer) => {
            measure.push("Vibrator running: the supply current is what the label says, and the contacts do not spark.");
        }
        Some(CapacitorRole::LineToChassis | CapacitorRole::BusToChassis | CapacitorRole::AerialIsolation) => {
            measure.push(
                "AC volts across a 2 kohm resistor from the metal to ground, plug both ways, switch on and off: 0.5 V is \
                 0.25 mA.",
            );
        }
        Some(CapacitorRole::AcrossLine) => {
            measure.push("Plug pulled: the volts between its pins after a second or two.");
        }
        None => measure.push("Trace both leads first: if one goes to the power line, ask again with that place."),
    }
    measure.into_iter().map(str::to_owned).collect()
}
