//! The heater string with the candidate in it, heater by heater.

use super::socket::{SocketQuestion, SupplyQuestion, heater_volts_at};
use crate::ask::heater_string::{HeaterRow, row};
use crate::book::Book;
use crate::heater::{Heater, solve};
use crate::swap::words::Pair;
use crate::swap::{NOMINAL_LINE_V, Socket, Supply};

/// Every heater from the line end, nothing changed but the tube; empty unless the other tubes are given and every heater is known.
pub(super) fn string(book: &Book, pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Vec<HeaterRow> {
    solved(book, pair, socket, question).unwrap_or_default()
}

fn solved(book: &Book, pair: &Pair<'_>, socket: &Socket, question: &SocketQuestion) -> Option<Vec<HeaterRow>> {
    let (Supply::Series { amps, line_v, .. }, Some(SupplyQuestion::Series { others, chassis_side, dropper_ohm, .. })) =
        (socket.supply, &question.supply)
    else {
        return None;
    };
    let string_a = amps.or(pair.original.figures.heater_a)?;
    let mut tubes: Vec<_> = others.as_ref()?.iter().filter_map(|name| Some(book.find(name).ok()?.tube)).collect();
    let place = tubes.len().saturating_sub(chassis_side.unwrap_or(0) as usize);
    tubes.insert(place, pair.candidate);
    let mut heaters = Vec::new();
    for tube in &tubes {
        // The connection that takes the string's current, or else the heater as a whole.
        heaters.push(match heater_volts_at(tube, Some(string_a)) {
            Some(volts) => Heater::new(volts, string_a),
            None => Heater::new(tube.figures.heater_v?, tube.figures.heater_a?),
        });
    }
    let solved = solve(&heaters, dropper_ohm.unwrap_or(0.0), line_v.unwrap_or(NOMINAL_LINE_V)).ok()?;
    let rows = tubes.iter().zip(&heaters).zip(&solved.heaters);
    Some(rows.map(|((tube, heater), state)| row(tube, heater, state)).collect())
}
