//! Do all heaters of a television string come up together? Source: Mullard Outlook, February 1963 (1.5 times nominal during warm-up is the
//! limit).

use super::{Check, Fact, Socket, Supply};
use crate::book::{Tube, WarmUp};
use crate::finding::Outcome;

/// What it looks at, why it matters, an example: for the page.
pub const WHY: &str = "In a television string made for controlled (11 s) warm-up, a heater that warms sooner takes far more than its volts at switch-on and may burn out: 6SN7GT in place of 6SN7GTB.";

/// The check.
pub fn check(original: &Tube, candidate: &Tube, socket: &Socket) -> Check {
    let controlled = |tube: &Tube| tube.warm_up.map(|warm_up| warm_up == WarmUp::Controlled);
    let (own, other) = (controlled(original), controlled(candidate));
    let fact = Fact::WarmUp(own, other);
    let string = matches!(socket.supply, Supply::Series { .. });
    match (own, other) {
        (Some(true), Some(false)) if string => Check::new(fact, Outcome::Fails),
        (Some(true), None) if string => Check::new(fact, Outcome::Unknown),
        _ => Check::new(fact, Outcome::Ok).noticed(own.unwrap_or(false) != other.unwrap_or(false)),
    }
}
