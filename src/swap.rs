//! Can this tube go where that one was? Twelve things are looked at; the worst of them grades the swap.

use serde::{Deserialize, Serialize};

/// How well a candidate fits, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Another marking of the same tube.
    Same,
    /// Plug it in.
    AsIs,
    /// Safe as it stands; the set will behave differently.
    AsIsDifferent,
    /// Only after changes.
    AfterChanges,
    /// Not to be done.
    No,
    /// The book lacks what it takes to tell.
    Unknown,
}
