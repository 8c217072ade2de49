//! Values and units as written on old and new parts, printed and read.
//!
//! Answers: how does the trade write this figure, and what figure is meant by this text? Printing rounds to three figures, which
//! is more than any part here is made to. Reading takes one value with its unit; what a whole marking may mean, when a unit is
//! missing or has meant two things, is the business of [`crate::passive`].

mod decimal;
mod print;
mod read;

pub(crate) use decimal::{plain as plain_figure, read as decimal};
pub use print::{farad, milliamp, ohm, percent, significant, tenth, volt, watt, watt_rating, whole};
pub use read::{CapacitanceUnit, number, read_farad, read_ohm};
pub(crate) use read::{letter_point, plain, tidy};
