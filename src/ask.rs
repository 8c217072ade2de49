//! Question and Answer: the one contract between the core and whoever asks.
//!
//! A question is one JSON object tagged `ask`; an answer is one JSON object tagged `answer`. Trouble in the question is an
//! answer too (`error`), never a panic. The TypeScript declarations in `www/answers.d.ts` are generated from these types
//! by a test in this file, and the same test fails when they drift.

use serde::Serialize;

use crate::book::Book;
use crate::quantity::plain_figure;

mod accepted;
mod capacitor;
mod colour_code;
#[cfg(test)]
mod declarations;
mod heater_string;
mod held;
mod load;
mod own;
mod parts_list;
mod rectifier;
mod resistor;
mod row;
mod search;
mod sheet;
mod swap;
mod tube;
mod wants;

pub use accepted::read;
pub use capacitor::{
    CapacitorAnswer, CapacitorKind, CapacitorQuestion, CapacitorReading, CapacitorRole, CapacitorStandIn, Joined,
};
pub use colour_code::{ColourCodeAnswer, ColourCodeQuestion, ColourReading};
pub use heater_string::{Dropper, HeaterRow, HeaterStringAnswer, HeaterStringQuestion, WarmUpPoint};
pub use load::{Begun, ChangeReport, FaultReport, LoadReport, begin, export_text, finish_text, preview_text};
pub use own::{OwnAnswer, OwnQuestion, OwnView};
pub use parts_list::{LineState, ListLine, PartsListAnswer, PartsListQuestion, ShoppingItem};
pub use rectifier::{
    CloserResistor, DiodeChoice, FilterCapacitor, LineCase, OriginalRectifier, RatedVoltage, RectifierAnswer,
    RectifierQuestion, RectifierTopology, ResistorChoice, StartPoint, SweepPoint, WaveformPoint,
};
pub use resistor::{ResistorAnswer, ResistorQuestion, ResistorReading, ResistorRole, ResistorStandIn};
pub use row::{CellView, ColumnView, RowAnswer, RowQuestion, RowView};
pub use search::{SearchAnswer, SearchMatch, SearchQuestion};
pub use sheet::{
    BringUpMoment, BringUpReading, BringUpStep, Danger, JobSheet, PartRole, SheetAnswer, SheetFileAnswer,
    SheetFileQuestion, SheetHeaters, SheetLinesAnswer, SheetLinesQuestion, SheetPart, SheetPartAnswer, SheetPurchase,
    SheetQuestion, SheetReading, SheetSection, SheetTotal, SheetTrouble, SheetTube, SheetTubeAnswer, TubeState,
};
pub use swap::{
    CandidatesAnswer, CandidatesQuestion, LineUpAnswer, LineUpQuestion, LineUpTube, MissingFact, Ranked, ServesAnswer,
    ServesQuestion, SocketQuestion, SupplyQuestion, SwapAnswer, SwapQuestion, Way,
};
pub use tube::{PinView, TubeAnswer, TubeQuestion, TubeView, UnitView};
pub use wants::{
    OnTheTableAnswer, OnTheTableQuestion, OnlyThere, ShoppingAnswer, ShoppingQuestion, StockAnswer, StockHeld,
    StockQuestion, StockRow, TableFind, TableServes, Want, WantedMarkings, WantsAnswer, WantsQuestion,
};

/// Everything that can be asked: one JSON object, tagged `ask`.
///
/// Read by `accepted::read`, which checks every field against its table and then hands each kind to serde on its own. A derived reader for the
/// tagged enum would say less when something is wrong, and weigh as much in the download as the whole parts book.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[cfg_attr(test, ts(tag = "ask", rename_all = "snake_case"))]
pub enum Question {
    /// What is this tube?
    Tube(TubeQuestion),
    /// How does the book write this tube?
    Row(RowQuestion),
    /// What has the user put into the book?
    Own(OwnQuestion),
    /// Which tubes have such a number, base, heater, function?
    Search(SearchQuestion),
    /// Can the candidate go where the original was?
    Swap(SwapQuestion),
    /// What could go in instead of the original?
    Candidates(CandidatesQuestion),
    /// What could this one do for me?
    Serves(ServesQuestion),
    /// Is this set really unobtainable?
    LineUp(LineUpQuestion),
    /// Does this series heater string work?
    HeaterString(HeaterStringQuestion),
    /// What diode and resistor replace this rectifier?
    Rectifier(Box<RectifierQuestion>),
    /// What replaces this capacitor?
    Capacitor(CapacitorQuestion),
    /// What replaces this resistor, or is it still good?
    Resistor(ResistorQuestion),
    /// What do these bands or dots say?
    ColourCode(ColourCodeQuestion),
    /// What is to be bought for this list?
    PartsList(PartsListQuestion),
    /// What does this whole set need?
    Sheet(Box<SheetQuestion>),
    /// Which tubes and parts are in this text?
    SheetLines(SheetLinesQuestion),
    /// How are these sheets written as a file, or which sheets are in this file?
    SheetFile(SheetFileQuestion),
    /// What do I look for, for all my sets?
    Wants(WantsQuestion),
    /// What on this table serves one of my sets?
    OnTheTable(OnTheTableQuestion),
    /// What is to be bought for all these sets?
    Shopping(ShoppingQuestion),
    /// What do I have?
    Stock(StockQuestion),
}

/// Everything that can be answered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum Answer {
    /// To `tube`.
    Tube(Box<TubeAnswer>),
    /// To `row`.
    Row(Box<RowAnswer>),
    /// To `own`.
    Own(Box<OwnAnswer>),
    /// To `search`.
    Search(Box<SearchAnswer>),
    /// To `swap`.
    Swap(Box<SwapAnswer>),
    /// To `candidates`.
    Candidates(Box<CandidatesAnswer>),
    /// To `serves`.
    Serves(Box<ServesAnswer>),
    /// To `line_up`.
    LineUp(Box<LineUpAnswer>),
    /// To `heater_string`.
    HeaterString(Box<HeaterStringAnswer>),
    /// To `rectifier`.
    Rectifier(Box<RectifierAnswer>),
    /// To `capacitor`.
    Capacitor(Box<CapacitorAnswer>),
    /// To `resistor`.
    Resistor(Box<ResistorAnswer>),
    /// To `colour_code`.
    ColourCode(Box<ColourCodeAnswer>),
    /// To `parts_list`.
    PartsList(Box<PartsListAnswer>),
    /// To `sheet`.
    Sheet(Box<SheetAnswer>),
    /// To `sheet_lines`.
    SheetLines(Box<SheetLinesAnswer>),
    /// To `sheet_file`.
    SheetFile(Box<SheetFileAnswer>),
    /// To `wants`.
    Wants(Box<WantsAnswer>),
    /// To `on_the_table`.
    OnTheTable(Box<OnTheTableAnswer>),
    /// To `shopping`.
    Shopping(Box<ShoppingAnswer>),
    /// To `stock`.
    Stock(Box<StockAnswer>),
    /// To a question that cannot be answered as it was put.
    Error(Box<ErrorAnswer>),
}

/// Which field is wrong, what was found there, what is accepted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ErrorAnswer {
    /// The path of the field: `tubes[2]`, `socket.supply.amps`; empty when the question as a whole cannot be read.
    pub field: String,
    /// What was found there.
    pub found: String,
    /// What is accepted there.
    pub accepted: String,
    /// One plain sentence.
    pub says: String,
    /// Near names, when a type was not found.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub near: Vec<String>,
}

impl ErrorAnswer {
    /// An error about one field.
    pub fn new(field: impl Into<String>, found: impl Into<String>, accepted: impl Into<String>) -> Self {
        let (field, found, accepted) = (field.into(), found.into(), accepted.into());
        let says = match (field.is_empty(), found.is_empty()) {
            (true, _) => format!("This question cannot be read: found {found}; accepted: {accepted}."),
            (false, true) => format!("`{field}` is missing; accepted: {accepted}."),
            (false, false) => format!("`{field}` is {found}; accepted: {accepted}."),
        };
        Self { field, found, accepted, says, near: Vec::new() }
    }
}

/// Answers a question put as JSON text, with JSON text. Never fails: what cannot be read is answered with `error`.
pub fn answer_text(book: &Book, question: &str) -> String {
    let answer = match accepted::read(question) {
        Ok(question) => answer(book, &question),
        Err(error) => Answer::Error(Box::new(error)),
    };
    json(&answer)
}

/// What the page is told, as JSON text.
pub(crate) fn json(told: &impl Serialize) -> String {
    let mut text = Vec::new();
    // Answers and reports are maps of strings and finite numbers, which serde_json always writes.
    match told.serialize(&mut serde_json::Serializer::with_formatter(&mut text, Figures)) {
        Ok(()) => String::from_utf8(text).unwrap_or_default(),
        Err(_) => String::new(),
    }
}

/// Numbers with at most twelve figures: what is worked out here is not known any closer, and 0.1 + 0.2 is 0.3.
struct Figures;

impl serde_json::ser::Formatter for Figures {
    fn write_f64<W: std::io::Write + ?Sized>(&mut self, writer: &mut W, value: f64) -> std::io::Result<()> {
        writer.write_all(plain_figure(value).as_bytes())
    }
}

/// Answers a question. Dispatch only.
pub fn answer(book: &Book, question: &Question) -> Answer {
    let answered = match question {
        Question::Tube(question) => tube::answer(book, question).map(|answer| Answer::Tube(Box::new(answer))),
        Question::Row(question) => row::answer(book, question).map(|answer| Answer::Row(Box::new(answer))),
        Question::Own(question) => Ok(Answer::Own(Box::new(own::answer(book, question)))),
        Question::Search(question) => search::answer(book, question).map(|answer| Answer::Search(Box::new(answer))),
        Question::Swap(question) => swap::answer(book, question).map(|answer| Answer::Swap(Box::new(answer))),
        Question::Candidates(question) => {
            swap::candidates(book, question).map(|answer| Answer::Candidates(Box::new(answer)))
        }
        Question::Serves(question) => swap::serves(book, question).map(|answer| Answer::Serves(Box::new(answer))),
        Question::LineUp(question) => swap::line_up(book, question).map(|answer| Answer::LineUp(Box::new(answer))),
        Question::HeaterString(question) => {
            heater_string::answer(book, question).map(|answer| Answer::HeaterString(Box::new(answer)))
        }
        Question::Rectifier(question) => {
            rectifier::answer(book, question).map(|answer| Answer::Rectifier(Box::new(answer)))
        }
        Question::Capacitor(question) => {
            capacitor::answer(book, question).map(|answer| Answer::Capacitor(Box::new(answer)))
        }
        Question::Resistor(question) => {
            resistor::answer(book, question).map(|answer| Answer::Resistor(Box::new(answer)))
        }
        Question::ColourCode(question) => {
            colour_code::answer(question).map(|answer| Answer::ColourCode(Box::new(answer)))
        }
        Question::PartsList(question) => {
            parts_list::answer(book, question).map(|answer| Answer::PartsList(Box::new(answer)))
        }
        Question::Sheet(question) => Ok(Answer::Sheet(Box::new(sheet::answer(book, question)))),
        Question::SheetLines(question) => {
            sheet::lines(book, question).map(|answer| Answer::SheetLines(Box::new(answer)))
        }
        Question::SheetFile(question) => sheet::file(book, question).map(|answer| Answer::SheetFile(Box::new(answer))),
        Question::Wants(question) => Ok(Answer::Wants(Box::new(wants::wants(book, question)))),
        Question::OnTheTable(question) => Ok(Answer::OnTheTable(Box::new(wants::on_the_table(book, question)))),
        Question::Shopping(question) => Ok(Answer::Shopping(Box::new(wants::shopping(book, question)))),
        Question::Stock(question) => Ok(Answer::Stock(Box::new(wants::stock(book, question)))),
    };
    answered.unwrap_or_else(|error| Answer::Error(Box::new(error)))
}
