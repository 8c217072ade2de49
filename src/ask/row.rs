//! `row`: the rows of a type as the book writes them, for a form in which they are edited. What the form gives goes back as CSV.

use serde::Serialize;

use super::ErrorAnswer;
use super::accepted::Fields;
use crate::book::{Book, BulbFigures, TEXT_COLUMNS, figure_of};

/// A type as typed.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RowQuestion {
    /// "12SK7"; a type that is not in the book gets empty rows to be filled in.
    pub r#type: String,
}

impl From<&Fields<'_>> for RowQuestion {
    fn from(fields: &Fields<'_>) -> Self {
        Self { r#type: fields.text("type") }
    }
}

/// A column: what it means and what it takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ColumnView {
    /// Its name in the file.
    pub column: String,
    /// What it means: "most plate volts"; the name again for a column of the user's own.
    pub words: String,
    /// The unit of its numbers: "V"; empty when there is none.
    pub unit: String,
    /// The words it takes; empty when it takes any text or numbers.
    pub one_of: &'static [&'static str],
    /// The least number it takes; absent when it takes text.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub least: Option<f64>,
    /// The greatest number it takes; absent when it takes text.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub most: Option<f64>,
    /// Whether it is read in the row of the first unit alone: base, pins, heater, bulb, source.
    pub of_bulb: bool,
}

/// A cell.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CellView {
    /// Its text; empty when not known.
    pub text: String,
    /// What the shipped book says, where that differs.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub shipped: Option<String>,
}

/// A row: a unit, or several like ones.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RowView {
    /// `shipped`, `own` (the user's, laid over the shipped one or new), `empty` (not in the book).
    pub from: &'static str,
    /// Its cells, in the order of the columns.
    pub cells: Vec<CellView>,
}

/// The rows of a type.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RowAnswer {
    /// The type as the book writes it, or as it was typed when it is new.
    pub r#type: String,
    /// The columns, the user's own last.
    pub columns: Vec<ColumnView>,
    /// Its rows, in the order of its units.
    pub rows: Vec<RowView>,
}

/// Answers `row`.
pub fn answer(book: &Book, question: &RowQuestion) -> Result<RowAnswer, ErrorAnswer> {
    let typed = question.r#type.trim();
    if typed.is_empty() {
        return Err(ErrorAnswer::new("type", "empty", "a tube designation, such as 12SK7"));
    }
    let name = book.find(typed).map_or(typed, |found| found.tube.name.as_str());
    let columns: Vec<ColumnView> = book.columns().iter().map(|column| view(column)).collect();
    let mut rows: Vec<RowView> = book
        .rows(name)
        .map(|row| RowView {
            from: if row.own { "own" } else { "shipped" },
            cells: (0..columns.len())
                .map(|column| {
                    let text = row.now.text(column).trim();
                    let shipped =
                        row.shipped.map(|shipped| shipped.text(column).trim()).filter(|shipped| *shipped != text);
                    CellView { text: text.to_owned(), shipped: shipped.map(str::to_owned) }
                })
                .collect(),
        })
        .collect();
    if rows.is_empty() {
        let text = |column: &ColumnView| match column.column.as_str() {
            "type" => typed,
            "unit" => "1",
            _ => "",
        };
        let cells = columns.iter().map(|column| CellView { text: text(column).to_owned(), shipped: None }).collect();
        rows.push(RowView { from: "empty", cells });
    }
    Ok(RowAnswer { r#type: name.to_owned(), columns, rows })
}

/// What a column means, in words; the name again for a column of the user's own.
pub(super) fn words(column: &str) -> &str {
    let text = TEXT_COLUMNS.iter().find(|row| row.0 == column);
    figure_of(column).map(|figure| figure.1).or(text.map(|row| row.1)).unwrap_or(column)
}

fn view(column: &str) -> ColumnView {
    let figure = figure_of(column);
    let text = TEXT_COLUMNS.iter().find(|row| row.0 == column);
    let of_unit = ["type", "unit", "function", "cut_off"];
    ColumnView {
        column: column.to_owned(),
        words: words(column).to_owned(),
        unit: figure.map_or("", |figure| figure.2).to_owned(),
        one_of: text.map_or(&[], |row| row.2),
        least: figure.map(|figure| figure.3),
        most: figure.map(|figure| figure.4),
        of_bulb: text.is_some_and(|row| !of_unit.contains(&row.0))
            || BulbFigures::COLUMNS.iter().any(|figure| figure.0 == column),
    }
}
