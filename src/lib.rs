//! `stand-in` finds the part that can stand in for the one a radio restorer cannot get.
//!
//! The rooms of the house, lowest floor first; each uses only the rooms above it in this list.

/// Words every engine answers in: verdicts, findings, changes, cautions.
pub mod finding;
/// Preferred numbers of IEC 60063 and the rated-voltage steps parts are sold in.
pub mod series;
/// Values and units as written on old and new parts, read and printed.
pub mod quantity;
/// The parts book: typed rows from CSV, names, faults.
pub mod book;
/// Old capacitors and resistors read, judged and replaced.
pub mod passive;
/// Rectifier and filter solved as a periodic steady state.
pub mod supply;
/// Heater strings solved for one current.
pub mod heater;
/// Can this tube go where that one was?
pub mod swap;
/// Question and Answer: the one contract.
pub mod ask;

#[cfg(target_arch = "wasm32")]
mod wasm;
