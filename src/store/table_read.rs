//! Reading a table of text, such as a spreadsheet exports it.

use super::read::{ReadError, text_of};
use super::table_split::{MAX_CELLS, Records, SplitError};
use crate::units::read_exact;
use std::path::Path;

/// Most rows read at once, blank ones included, the header not.
const MAX_ROWS: usize = 5_000;
/// Rows looked at to find the delimiter and the decimal mark.
const LOOKED_AT: usize = 50;

/// What stands between two cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Delimiter {
    /// `;`
    Semicolon,
    /// Tabulator.
    Tab,
    /// `,`
    Comma,
}

impl Delimiter {
    /// Every delimiter; of two that fit equally well the earlier is taken.
    pub const ALL: [Self; 3] = [Self::Semicolon, Self::Tab, Self::Comma];

    /// The character.
    pub const fn mark(self) -> char {
        match self {
            Self::Semicolon => ';',
            Self::Tab => '\t',
            Self::Comma => ',',
        }
    }

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Semicolon => "semicolon",
            Self::Tab => "tab",
            Self::Comma => "comma",
        }
    }
}

/// One row below the header.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetRow {
    /// Row as a spreadsheet counts it, from 1, header and blank rows included.
    pub number: usize,
    /// Cells from the left; there may be more or fewer than columns.
    pub cells: Vec<String>,
}

/// A table as it was read: texts only, nothing is decided about what they mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// What stands between two cells.
    pub delimiter: Delimiter,
    /// Numbers have a decimal comma rather than a decimal point.
    pub decimal_comma: bool,
    /// Row of the header, from 1.
    pub header_row: usize,
    /// The header's cells.
    pub columns: Vec<String>,
    /// The rows below it; blank ones are left out.
    pub rows: Vec<SheetRow>,
}

/// Why a table could not be read; nothing was changed.
#[derive(Debug, thiserror::Error)]
pub enum TableError {
    /// No file, too large, or no UTF-8 text.
    #[error(transparent)]
    File(#[from] ReadError),
    /// A quote that swallows the rest of the file.
    #[error("row {row}: a quote (\") is opened and never closed")]
    OpenQuote {
        /// Row, from 1.
        row: usize,
    },
    /// More cells than any table of ingredients has.
    #[error("row {row}: has more than {MAX_CELLS} cells")]
    TooWide {
        /// Row, from 1.
        row: usize,
    },
    /// Too many rows; the rest was not looked at.
    #[error("has more than {MAX_ROWS} rows, the most that are read at once; nothing was imported")]
    TooLong,
    /// There is not even a header.
    #[error("is empty; its first row must name the columns")]
    Empty,
}

/// The text of a table of at most 32 MB, UTF-8, with or without a byte-order mark.
pub fn table_text(path: &Path) -> Result<String, TableError> {
    Ok(text_of(path)?)
}

/// Reads a table; what is not said of delimiter and decimal mark is found out from its first rows.
pub fn read_sheet(
    text: &str,
    delimiter: Option<Delimiter>,
    decimal_comma: Option<bool>,
) -> Result<Sheet, TableError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let delimiter = delimiter.unwrap_or_else(|| likely_delimiter(text));
    let mut header = None;
    let mut rows = Vec::new();
    for (place, record) in Records::new(text, delimiter.mark()).enumerate() {
        let number = place + 1;
        let cells = record.map_err(|error| match error {
            SplitError::OpenQuote => TableError::OpenQuote { row: number },
            SplitError::TooWide => TableError::TooWide { row: number },
        })?;
        if place > MAX_ROWS {
            return Err(TableError::TooLong);
        }
        if is_blank(&cells) {
            continue;
        }
        if header.is_none() {
            header = Some((number, cells));
        } else {
            rows.push(SheetRow { number, cells });
        }
    }
    let (header_row, columns) = header.ok_or(TableError::Empty)?;
    Ok(Sheet {
        delimiter,
        decimal_comma: decimal_comma.unwrap_or_else(|| likely_decimal_comma(&rows)),
        header_row,
        columns,
        rows,
    })
}

fn is_blank(cells: &[String]) -> bool {
    cells.iter().all(|cell| cell.trim().is_empty())
}

/// The delimiter that cuts the most rows into as many cells as the header has, and into many.
fn likely_delimiter(text: &str) -> Delimiter {
    let mut best = (Delimiter::Comma, 0);
    for delimiter in Delimiter::ALL {
        let counts: Vec<usize> = Records::new(text, delimiter.mark())
            .take(LOOKED_AT)
            .map_while(Result::ok)
            .filter(|cells| !is_blank(cells))
            .map(|cells| cells.len())
            .collect();
        let width = counts.first().copied().unwrap_or(0);
        let alike = counts.iter().filter(|count| **count == width).count();
        let merit = width.saturating_sub(1) * alike;
        if merit > best.1 {
            best = (delimiter, merit);
        }
    }
    best.0
}

/// True when more cells are numbers with a comma than with a point.
fn likely_decimal_comma(rows: &[SheetRow]) -> bool {
    let cells = || rows.iter().take(LOOKED_AT).flat_map(|row| &row.cells);
    let count = |mark: char, comma: bool| {
        cells()
            .filter(|cell| cell.contains(mark) && read_exact(cell, comma).is_some())
            .count()
    };
    count(',', true) > count('.', false)
}
