//! CSV text (RFC 4180) into cells and back, such that a spreadsheet in between does no harm.
//!
//! Read as loosely as spreadsheets write: commas, semicolons or tabs, any line end, rows of any length, quotes only where needed.
//!
//! A spreadsheet takes `6E5` for 600000, `007` for 7, `1-2` for a date and whatever begins with `=` for a formula. Export puts an apostrophe
//! before such a cell, which makes it text in every spreadsheet, and reading takes it off again. An apostrophe that was there before stays:
//! it is taken off only where export would have put it.

/// A place in CSV text, moved on row by row.
#[derive(Debug, Clone, Copy)]
pub struct Reader {
    /// Bytes read so far.
    pub at: usize,
    /// Line of the next row, counted from 1.
    pub line: u32,
    delimiter: u8,
    /// Whether quotes join cells: until one is met that is never closed.
    quotes: bool,
}

/// What a row was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Read {
    /// A row that begins on this line.
    Row(u32),
    /// A row that begins on this line, with a quote that is never closed; it was taken for a letter.
    OpenQuote(u32),
    /// Nothing was left.
    End,
}

impl Reader {
    /// A reader of this text; its first line tells what parts the cells.
    pub fn new(text: &str) -> Self {
        let at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or("");
        let count = |sign: u8| first.bytes().filter(|&byte| byte == sign).count();
        let delimiter = if count(b',') >= count(b';').max(count(b'\t')) {
            b','
        } else if count(b';') > count(b'\t') {
            b';'
        } else {
            b'\t'
        };
        Self { at, line: 1, delimiter, quotes: true }
    }

    /// Reads a row: its cells go one after the other into `text`, the end of each into `ends`.
    pub fn row(&mut self, from: &str, text: &mut String, ends: &mut Vec<u32>) -> Read {
        let bytes = from.as_bytes();
        // Empty lines are no rows.
        while let Some(&(b'\n' | b'\r')) = bytes.get(self.at) {
            self.end_line(bytes);
        }
        if self.at >= bytes.len() {
            return Read::End;
        }
        let line = self.line;
        let mut open = false;
        loop {
            if self.quotes && bytes.get(self.at) == Some(&b'"') {
                let (at, end) = (self.at, text.len());
                if !self.quoted(from, text) {
                    text.truncate(end);
                    (self.at, self.quotes, open) = (at, false, true);
                }
            }
            let start = self.at;
            let ends_cell = |byte: &u8| *byte == self.delimiter || *byte == b'\n' || *byte == b'\r';
            let rest = bytes.get(start..).unwrap_or(&[]);
            self.at = rest.iter().position(ends_cell).map_or(bytes.len(), |length| start + length);
            text.push_str(from.get(start..self.at).unwrap_or(""));
            ends.push(text.len() as u32);
            if bytes.get(self.at) != Some(&self.delimiter) {
                break;
            }
            self.at += 1;
        }
        self.end_line(bytes);
        if open { Read::OpenQuote(line) } else { Read::Row(line) }
    }

    /// Reads from the opening quote to behind the closing one; false when there is none.
    fn quoted(&mut self, from: &str, text: &mut String) -> bool {
        let begun = self.line;
        loop {
            let rest = from.get(self.at + 1..).unwrap_or("");
            let Some(length) = rest.find('"') else {
                self.line = begun;
                return false;
            };
            let inside = rest.get(..length).unwrap_or("");
            let lines = inside.bytes().filter(|&byte| byte == b'\n').count();
            self.line = self.line.saturating_add(lines as u32);
            text.push_str(inside);
            self.at += 1 + length;
            if from.as_bytes().get(self.at + 1) != Some(&b'"') {
                self.at += 1;
                return true;
            }
            text.push('"');
            self.at += 1;
        }
    }

    fn end_line(&mut self, bytes: &[u8]) {
        let rest = bytes.get(self.at..).unwrap_or(&[]);
        self.at += match rest {
            [b'\r', b'\n', ..] => 2,
            [] => 0,
            _ => 1,
        };
        self.line = self.line.saturating_add(1);
    }
}

/// Writes a cell for a spreadsheet; `number` says that its column holds numbers.
pub fn write(out: &mut String, cell: &str, number: bool) {
    let guard = if spreadsheet_changes(cell, number) { "'" } else { "" };
    if cell.contains(['"', ',', ';', '\t', '\n', '\r']) {
        for part in ["\"", guard, &cell.replace('"', "\"\""), "\""] {
            out.push_str(part);
        }
    } else {
        out.push_str(guard);
        out.push_str(cell);
    }
}

/// A cell without the apostrophe that `write` put there.
pub fn unguarded(cell: &str, number: bool) -> &str {
    match cell.strip_prefix('\'') {
        Some(inside) if spreadsheet_changes(inside, number) => inside,
        _ => cell,
    }
}

/// Whether a spreadsheet would take this cell for something else than its text. Apostrophes before it count as part of it, so that they
/// come back as they were.
fn spreadsheet_changes(cell: &str, number: bool) -> bool {
    let cell = cell.trim_start_matches('\'');
    let shown = cell.trim();
    match (cell.bytes().next(), shown.bytes().next()) {
        (Some(b'\t' | b'\r'), _) | (_, Some(b'=' | b'@')) => true,
        (_, Some(b'+' | b'-')) => !(number && is_figure(shown) || is_plain(shown)),
        (_, Some(b'0'..=b'9' | b'.')) => !number && is_figure(shown) && !is_plain(shown),
        _ => false,
    }
}

/// Made of what numbers, dates and times are made of, with a digit somewhere.
fn is_figure(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_digit() || b" .,:/+-%eE".contains(&byte))
        && text.bytes().any(|byte| byte.is_ascii_digit())
}

/// A number as a spreadsheet writes it itself: no zeros that could go, no more digits than it keeps.
fn is_plain(text: &str) -> bool {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, "1"));
    let number = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    number(whole)
        && number(fraction)
        && (whole == "0" || !whole.starts_with('0'))
        && !fraction.ends_with('0')
        && digits.len() <= 10
        && text != "-0"
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn read(text: &str) -> (Vec<Vec<String>>, bool) {
        let mut reader = Reader::new(text);
        let (mut rows, mut whole) = (Vec::new(), true);
        loop {
            let (mut cells, mut ends) = (String::new(), Vec::new());
            match reader.row(text, &mut cells, &mut ends) {
                Read::End => return (rows, whole),
                Read::OpenQuote(_) => whole = false,
                Read::Row(_) => {}
            }
            let mut start = 0;
            let row =
                ends.iter().map(|&end| cells[std::mem::replace(&mut start, end as usize)..end as usize].to_owned());
            rows.push(row.collect());
        }
    }

    fn by_the_csv_crate(text: &str) -> Vec<Vec<String>> {
        let mut reader = csv::ReaderBuilder::new().flexible(true).has_headers(false).from_reader(text.as_bytes());
        reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
    }

    proptest! {
        /// What the csv crate reads from any text whose quotes are closed is read here too.
        #[test]
        fn reads_as_the_csv_crate_does(text in "[,ab]{1,4}\n([ab1\",\r\n=' ]|\"\"|é){0,60}") {
            let (rows, whole) = read(&text);
            if whole {
                prop_assert_eq!(rows, by_the_csv_crate(&text));
            }
        }

        /// Whatever a cell holds comes back, guarded or not, and the csv crate sees the same cell apart from the guard.
        #[test]
        fn cells_come_back(cells in proptest::collection::vec("'{0,2}[ =+@\t\r\n\",;'a1E.0/-]{0,8}", 1..6), number: bool) {
            let mut line = String::from("x");
            for cell in &cells {
                line.push(',');
                write(&mut line, cell, number);
            }
            let (rows, whole) = read(&format!("{}\n{line}\n", "x,".repeat(9)));
            prop_assert!(whole);
            let back: Vec<String> = rows[1][1..].iter().map(|cell| unguarded(cell, number).to_owned()).collect();
            prop_assert_eq!(&back, &cells);
            prop_assert_eq!(&by_the_csv_crate(&line)[0], &rows[1]);
        }
    }

    #[test]
    fn what_a_spreadsheet_would_change_is_guarded() {
        for (cell, text, number) in [
            ("6E5", true, false),
            ("1E7", true, false),
            ("1E7GT", false, false),
            ("01A", false, false),
            ("007", true, false),
            ("0Z4", false, false),
            ("80", false, false),
            ("5654", false, false),
            ("1-2", true, false),
            ("39/44", true, false),
            ("1.10", true, false),
            ("-3", false, false),
            ("-12.5", false, false),
            ("-0.50", true, false),
            ("+5", true, false),
            ("=1+2", true, true),
            ("-x", true, true),
            ("@sum", true, true),
            ("\tx", true, true),
            ("-1+2*cmd()", true, true),
            ("-", true, true),
            ("'=1", true, true),
            ("'tis", false, false),
            ("12 May", false, false),
        ] {
            assert_eq!(spreadsheet_changes(cell, false), text, "{cell} in a column of text");
            assert_eq!(spreadsheet_changes(cell, true), number, "{cell} in a column of numbers");
        }
    }

    #[test]
    fn spreadsheets_of_any_country_are_read() {
        for text in ["type,unit\n80,1\n", "type;unit\r\n80;1", "\u{feff}type\tunit\n\n80\t1\r\n"] {
            assert_eq!(read(text).0, [["type", "unit"], ["80", "1"]], "{text:?}");
        }
    }

    /// A quote that is never closed costs its own cell, not the rest of the file.
    #[test]
    fn an_open_quote_does_not_swallow_the_file() {
        let (rows, whole) = read("a,b\n1,\"2\n3,4\n");
        assert_eq!((rows[1][1].as_str(), rows[2][1].as_str(), whole), ("\"2", "4", false));
    }
}
