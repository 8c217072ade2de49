//! The TypeScript declarations of questions and answers, made from the Rust types so that they are never written twice.

use ts_rs::{Config, TS};

use super::*;

/// Every declaration, in one file.
pub fn text() -> String {
    let config = Config::default();
    let mut text = String::from(
        "// Generated from the Rust types by the test `declarations_are_current`; do not edit.\n// To renew: UPDATE_DECLARATIONS=1 cargo test declarations\n\n",
    );
    macro_rules! declare {
        ($($name:ty),* $(,)?) => { $(
            let docs = <$name>::docs().unwrap_or_default();
            if !docs.is_empty() { text.push_str(&docs); }
            text.push_str("export ");
            text.push_str(&<$name>::decl(&config));
            text.push_str("\n\n");
        )* };
    }
    declare!(
        Question,
        TubeQuestion,
        RowQuestion,
        OwnQuestion,
        SearchQuestion,
        SwapQuestion,
        SocketQuestion,
        SupplyQuestion,
        CandidatesQuestion,
        ServesQuestion,
        LineUpQuestion,
        HeaterStringQuestion,
        RectifierQuestion,
        RectifierTopology,
        OriginalRectifier,
        CapacitorQuestion,
        CapacitorKind,
        CapacitorRole,
        ResistorQuestion,
        ResistorRole,
        ColourCodeQuestion,
        PartsListQuestion,
        SheetQuestion,
        JobSheet,
        SheetHeaters,
        TubeState,
        SheetTube,
        SheetPart,
        PartRole,
        SheetReading,
        SheetLinesQuestion,
        SheetFileQuestion,
        WantsQuestion,
        OnTheTableQuestion,
        ShoppingQuestion,
        StockQuestion,
        Answer,
        ErrorAnswer,
        TubeAnswer,
        TubeView,
        PinView,
        UnitView,
        RowAnswer,
        ColumnView,
        RowView,
        CellView,
        OwnAnswer,
        OwnView,
        SearchAnswer,
        SearchMatch,
        SwapAnswer,
        MissingFact,
        Way,
        CandidatesAnswer,
        Ranked,
        ServesAnswer,
        LineUpAnswer,
        LineUpTube,
        HeaterStringAnswer,
        HeaterRow,
        WarmUpPoint,
        Dropper,
        RectifierAnswer,
        LineCase,
        DiodeChoice,
        ResistorChoice,
        CloserResistor,
        FilterCapacitor,
        RatedVoltage,
        SweepPoint,
        WaveformPoint,
        StartPoint,
        CapacitorAnswer,
        CapacitorReading,
        CapacitorStandIn,
        Joined,
        ResistorAnswer,
        ResistorReading,
        ResistorStandIn,
        ColourCodeAnswer,
        ColourReading,
        PartsListAnswer,
        LineState,
        ListLine,
        ShoppingItem,
        SheetAnswer,
        Danger,
        SheetSection,
        SheetTrouble,
        SheetTubeAnswer,
        SheetPartAnswer,
        SheetTotal,
        SheetPurchase,
        BringUpMoment,
        BringUpStep,
        BringUpReading,
        SheetLinesAnswer,
        SheetFileAnswer,
        WantsAnswer,
        Want,
        WantedMarkings,
        OnlyThere,
        StockHeld,
        OnTheTableAnswer,
        TableFind,
        TableServes,
        ShoppingAnswer,
        StockAnswer,
        StockRow,
        LoadReport,
        FaultReport,
        ChangeReport,
        crate::swap::Grade,
        crate::finding::Mark,
        crate::finding::Outcome,
        crate::finding::Verdict,
        crate::finding::Finding,
        crate::finding::Move,
        crate::finding::PartToFit,
        crate::finding::Change,
        crate::finding::Caution,
    );
    text
}

/// The checked-in file is what the types say. Run with `UPDATE_DECLARATIONS=1` to renew it.
#[test]
#[allow(clippy::disallowed_methods)]
fn declarations_are_current() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/www/answers.d.ts");
    let now = text();
    if std::env::var("UPDATE_DECLARATIONS").is_ok() {
        std::fs::write(path, &now).unwrap();
    }
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    assert!(
        kept == now,
        "www/answers.d.ts has drifted from the Rust types; run UPDATE_DECLARATIONS=1 cargo test declarations"
    );
}
