//! Tables of figures for spreadsheets and texts in Markdown, written as the table of ingredients is.

use super::table_cells::guarded;
use super::table_read::table_text;
use super::table_write::{ExportError, put_table, records};
use super::write::{SaveError, put_text};
use std::path::Path;

/// A table as texts: one row of heads, then the others.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlainTable {
    /// Heads of the columns.
    pub heads: Vec<String>,
    /// Rows, each with a cell for every head.
    pub rows: Vec<Vec<String>>,
}

/// The table with commas; texts that begin like a formula carry an apostrophe.
pub fn write_plain_table(table: &PlainTable) -> Result<String, SaveError> {
    let rows = table.rows.iter();
    let rows = rows.map(|cells| cells.iter().map(|cell| guarded(cell)));
    records(table.heads.iter().map(|head| guarded(head)), rows)
}

/// Writes the table to a file, whole or not at all.
///
/// A file there is replaced only when `replace` is set, and only if it is a table with the same
/// heads; it stays beside the new one as `.bak`.
pub fn save_plain_table(table: &PlainTable, path: &Path, replace: bool) -> Result<(), ExportError> {
    let heads: Vec<String> = table.heads.iter().map(|head| guarded(head)).collect();
    put_table(path, replace, &heads, || write_plain_table(table))
}

/// Writes a text in Markdown to a file, whole or not at all.
///
/// A file there is replaced only when `replace` is set, and only if one of its lines is `mark`, by
/// which such a text is known; it stays beside the new one as `.bak`.
pub fn save_markdown(
    text: &str,
    mark: &str,
    path: &Path,
    replace: bool,
) -> Result<(), ExportError> {
    if path.is_file() {
        if !replace {
            return Err(ExportError::Exists);
        }
        let there = table_text(path);
        if !there.is_ok_and(|there| there.lines().any(|line| line == mark)) {
            return Err(ExportError::Foreign);
        }
    }
    put_text(path, text)?;
    Ok(())
}
