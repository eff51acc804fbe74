//! Rows of a text whose cells stand between delimiters, quoted as RFC 4180 says.
//!
//! Ours rather than the crate that reads the built-in tables, because a quote that is never closed
//! must be an error: otherwise the rows behind it would vanish into one cell.

/// Most cells of one row.
pub(super) const MAX_CELLS: usize = 200;

/// A row that cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SplitError {
    /// A quote is opened and never closed.
    OpenQuote,
    /// The row has more than [`MAX_CELLS`] cells.
    TooWide,
}

/// The rows of a text, blank lines included, read one by one; ends with the first error.
#[derive(Clone, Debug)]
pub(super) struct Records<'a> {
    rest: &'a str,
    delimiter: char,
}

impl<'a> Records<'a> {
    pub(super) const fn new(text: &'a str, delimiter: char) -> Self {
        Self {
            rest: text,
            delimiter,
        }
    }

    /// The next cell; true when it is the last of its row.
    fn cell(&mut self) -> Result<(String, bool), SplitError> {
        let mut cell = String::new();
        if let Some(quoted) = self.rest.strip_prefix('"') {
            self.rest = quoted;
            loop {
                let closed = self.rest.split_once('"');
                let (inside, after) = closed.ok_or(SplitError::OpenQuote)?;
                cell.push_str(inside);
                self.rest = after;
                // Two quotes stand for one.
                let Some(after) = self.rest.strip_prefix('"') else {
                    break;
                };
                cell.push('"');
                self.rest = after;
            }
        }
        let end = self.rest.find([self.delimiter, '\n', '\r']);
        let (bare, after) = self.rest.split_at(end.unwrap_or(self.rest.len()));
        cell.push_str(bare);
        if let Some(after) = after.strip_prefix(self.delimiter) {
            self.rest = after;
            return Ok((cell, false));
        }
        self.rest = after
            .strip_prefix("\r\n")
            .or_else(|| after.strip_prefix(['\n', '\r']))
            .unwrap_or(after);
        Ok((cell, true))
    }

    fn record(&mut self) -> Result<Vec<String>, SplitError> {
        let mut cells = Vec::new();
        loop {
            let (cell, last) = self.cell()?;
            if cells.len() == MAX_CELLS {
                return Err(SplitError::TooWide);
            }
            cells.push(cell);
            if last {
                return Ok(cells);
            }
        }
    }
}

impl Iterator for Records<'_> {
    type Item = Result<Vec<String>, SplitError>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.rest.is_empty() {
            return None;
        }
        let record = self.record();
        if record.is_err() {
            self.rest = "";
        }
        Some(record)
    }
}
