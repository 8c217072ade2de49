//! CSV text (RFC 4180) into cells and back, such that a spreadsheet in between does no harm.
//!
//! Read as loosely as spreadsheets write: commas, semicolons or tabs, any line end, rows of any length, quotes only where needed.
//!
//! A spreadsheet takes `6E5` for 600000, `007` for 7, `1-2` for a date and whatever begins with `=` for a formula. Export puts an apostrophe
//! before such a cell, which makes it text in every spreadsheet, and reading takes it off again. An apostrophe that was there before stays:
//! it is taken off only where export would have put it.

use std::io::Cursor;

use csv::{ReaderBuilder, StringRecord};

/// CSV text, read row by row.
#[derive(Debug)]
pub struct Reader {
    csv: csv::Reader<Cursor<Vec<u8>>>,
    delimiter: u8,
    record: StringRecord,
}

/// What a row was.
#[derive(Debug, PartialEq, Eq)]
pub enum Read<'r> {
    /// A row that begins on this line.
    Row(&'r StringRecord, u32),
    /// A row that begins on this line, with a quote that is never closed; it was taken for a letter, as all further quotes are.
    OpenQuote(&'r StringRecord, u32),
    /// Nothing was left.
    End,
}

impl Reader {
    /// A reader of this text; its first line tells what parts the cells.
    pub fn new(text: String) -> Self {
        let first = first_line(&text);
        let count = |sign: u8| first.bytes().filter(|&byte| byte == sign).count();
        let delimiter = if count(b',') >= count(b';').max(count(b'\t')) {
            b','
        } else if count(b';') > count(b'\t') {
            b';'
        } else {
            b'\t'
        };
        Self { csv: open(text.into_bytes(), delimiter, true), delimiter, record: StringRecord::new() }
    }

    /// Reads a row.
    pub fn row(&mut self) -> Read<'_> {
        let begun = self.csv.position().clone();
        // The text is a `String`, and a reader of memory does not fail.
        if !self.csv.read_record(&mut self.record).unwrap_or(false) {
            return Read::End;
        }
        let from = usize::try_from(begun.byte()).unwrap_or(usize::MAX);
        let raw = self.text().get(from..).unwrap_or(&[]);
        // Empty lines are no rows; the crate counts them to the row that follows.
        let empty = raw.iter().take_while(|byte| matches!(byte, b'\n' | b'\r')).filter(|byte| **byte == b'\n').count();
        let line = u32::try_from(begun.line()).unwrap_or(u32::MAX).saturating_add(empty as u32);
        if self.done() < 1.0 || !self.is_open(raw) {
            return Read::Row(&self.record, line);
        }
        // A quote that is never closed would swallow the rest of the file.
        let text = std::mem::take(self.csv.get_mut().get_mut());
        self.csv = open(text, self.delimiter, false);
        let read = self.csv.seek(begun).is_ok() && self.csv.read_record(&mut self.record).unwrap_or(false);
        if read { Read::OpenQuote(&self.record, line) } else { Read::End }
    }

    /// Whether the last row ends inside quotes: then a further quote closes it, and a letter behind that goes on with its last cell.
    fn is_open(&self, raw: &[u8]) -> bool {
        if !raw.contains(&b'"') {
            return false;
        }
        let mut again = open([raw, b"\"x"].concat(), self.delimiter, true);
        let mut record = StringRecord::new();
        let read = again.read_record(&mut record).unwrap_or(false);
        let last = |record: &StringRecord| record.get(record.len().wrapping_sub(1)).unwrap_or("").to_owned();
        read && record.len() == self.record.len() && last(&record) == last(&self.record) + "x"
    }

    fn text(&self) -> &[u8] {
        self.csv.get_ref().get_ref()
    }

    /// How much has been read, from 0 to 1.
    pub fn done(&self) -> f64 {
        let all = self.text().len();
        if all == 0 { 1.0 } else { (self.csv.position().byte() as f64 / all as f64).min(1.0) }
    }

    /// The text.
    pub fn into_text(self) -> String {
        String::from_utf8(self.csv.into_inner().into_inner()).unwrap_or_default()
    }
}

/// The first line that says anything.
pub fn first_line(text: &str) -> &str {
    text.trim_start_matches('\u{feff}').lines().find(|line| !line.trim().is_empty()).unwrap_or("")
}

fn open(text: Vec<u8>, delimiter: u8, quotes: bool) -> csv::Reader<Cursor<Vec<u8>>> {
    let mut builder = ReaderBuilder::new();
    builder.has_headers(false).flexible(true).delimiter(delimiter).quoting(quotes).from_reader(Cursor::new(text))
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
        let mut reader = Reader::new(text.to_owned());
        let (mut rows, mut whole) = (Vec::new(), true);
        loop {
            let record = match reader.row() {
                Read::End => return (rows, whole),
                Read::OpenQuote(record, _) => {
                    whole = false;
                    record
                }
                Read::Row(record, _) => record,
            };
            rows.push(record.iter().map(str::to_owned).collect());
        }
    }

    proptest! {
        /// Whatever a cell holds comes back, guarded or not.
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
        }

        /// Any text comes to an end, and rows whose quotes are closed are never taken for open ones.
        #[test]
        fn any_text_is_read(text in "[ab1\",\r\n=' é]{0,60}") {
            let (rows, whole) = read(&text);
            prop_assert!(rows.len() <= text.len());
            if text.bytes().filter(|&byte| byte == b'"').count() == 0 {
                prop_assert!(whole);
            }
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
        for closed in
            ["a,b\n1,\"2\n3\"", "a,b\n1,\"2\n3\"\n", "a,b\n1,5\" disk\n", "a,b\n1,\"\"\"2\"\"\"\n", "a,b\n1,\"\""]
        {
            assert!(read(closed).1, "{closed:?}");
        }
    }

    /// A fault is told with the line it is on, whatever came before it.
    #[test]
    fn lines_are_counted_as_an_editor_does() {
        let mut reader = Reader::new("a,b\r\n\r\n\n1,\"x\ny\"\n2,3".to_owned());
        let mut lines = Vec::new();
        while let Read::Row(_, line) = reader.row() {
            lines.push(line);
        }
        assert_eq!(lines, [1, 4, 6]);
    }
}
