//! Rows of cells, kept one after the other in one text: a hundred thousand rows are three blocks of memory, not millions.

/// Rows, each of as many cells as it came with.
#[derive(Debug, Clone, Default)]
pub struct Rows {
    text: String,
    /// Where each cell ends in `text`.
    ends: Vec<u32>,
    /// Where each row ends in `ends`.
    row_ends: Vec<u32>,
}

impl Rows {
    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.row_ends.len()
    }

    /// Puts a cell at the end of the row that is being written.
    pub fn push_cell(&mut self, cell: &str) {
        self.text.push_str(cell);
        self.ends.push(self.text.len() as u32);
    }

    /// Adds a row as it was read.
    pub fn write_row(&mut self, cells: &csv::StringRecord) {
        cells.iter().for_each(|cell| self.push_cell(cell));
        self.end_row();
    }

    /// Ends the row that is being written; its place.
    pub fn end_row(&mut self) -> u32 {
        self.row_ends.push(self.ends.len() as u32);
        self.row_ends.len() as u32 - 1
    }

    /// Adds a row of other rows; its place.
    pub fn push_row(&mut self, row: Row<'_>) -> u32 {
        let (from, to) = (row.start, self.text.len());
        self.text.push_str(row.whole());
        self.ends.extend(row.ends.iter().map(|&end| (end as usize - from + to) as u32));
        self.end_row()
    }

    /// Takes every row out, keeping the memory for others.
    pub fn clear(&mut self) {
        self.text.clear();
        self.ends.clear();
        self.row_ends.clear();
    }

    /// A row; beyond the last one it has no cells.
    pub fn row(&self, at: u32) -> Row<'_> {
        let at = at as usize;
        let end_of = |ends: &[u32], before: usize| {
            before.checked_sub(1).and_then(|at| ends.get(at)).map_or(0, |&end| end as usize)
        };
        let first = end_of(&self.row_ends, at);
        let last = self.row_ends.get(at).map_or(first, |&end| end as usize);
        Row {
            text: &self.text,
            start: end_of(&self.ends, first),
            ends: self.ends.get(first..last).unwrap_or(&[]),
            line: 0,
        }
    }
}

/// One row: cells by column.
#[derive(Debug, Clone, Copy)]
pub struct Row<'t> {
    text: &'t str,
    start: usize,
    ends: &'t [u32],
    /// Line in the file it came from; 0 when that was an earlier file.
    pub line: u32,
}

impl<'t> Row<'t> {
    /// How many cells it has.
    pub fn width(&self) -> usize {
        self.ends.len()
    }

    /// The same row with its line.
    #[must_use]
    pub fn at_line(self, line: u32) -> Self {
        Self { line, ..self }
    }

    /// All cells, one after the other.
    pub fn whole(&self) -> &'t str {
        self.text.get(self.start..self.ends.last().map_or(0, |&end| end as usize)).unwrap_or("")
    }

    /// Whether no cell says anything.
    pub fn is_blank(&self) -> bool {
        self.whole().trim().is_empty()
    }

    /// The cell as it came; empty when absent.
    pub fn text(&self, column: usize) -> &'t str {
        let start = match column {
            0 => self.start,
            _ => self.ends.get(column - 1).map_or(usize::MAX, |&end| end as usize),
        };
        let end = self.ends.get(column).map_or(0, |&end| end as usize);
        self.text.get(start..end).unwrap_or("")
    }

    /// The trimmed cell, `None` when empty or absent.
    pub fn cell(&self, column: Option<usize>) -> Option<&'t str> {
        let cell = self.text(column?);
        // Most cells are empty, and most others have nothing to trim.
        if let [first, .., last] | [first @ last] = cell.as_bytes()
            && first.is_ascii_graphic()
            && last.is_ascii_graphic()
        {
            return Some(cell);
        }
        let cell = cell.trim();
        (!cell.is_empty()).then_some(cell)
    }
}
