//! `stand-in` finds the part that can stand in for the one a radio restorer cannot get.
//!
//! The rooms of the house, lowest floor first; each uses only the rooms above it in this list.

/// Question and Answer: the one contract.
pub mod ask;
/// The parts book: typed rows from CSV, names, faults.
pub mod book;
/// Warnings, each in one place.
pub mod caution;
/// Words every engine answers in: verdicts, findings, changes, cautions.
pub mod finding;
/// Heater strings solved for one current.
pub mod heater;
/// What is sold: values, ratings, bodies.
pub mod on_sale;
/// Sorting for short lists.
mod order;
/// Old capacitors and resistors read, judged and replaced.
pub mod passive;
/// Values and units as written on old and new parts, read and printed.
pub mod quantity;
/// Preferred numbers of IEC 60063 and the rated-voltage steps parts are sold in.
pub mod series;
/// Rectifier and filter solved as a periodic steady state.
pub mod supply;
/// Can this tube go where that one was?
pub mod swap;

#[cfg(target_arch = "wasm32")]
mod wasm;

#[cfg(target_arch = "wasm32")]
pub use wasm::Bench;
