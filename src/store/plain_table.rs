//! Tables of figures for spreadsheets, written as the table of ingredients is.

use super::table_cells::guarded;
use super::table_write::records;
use super::write::SaveError;
use crate::units::read_exact;

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
    let rows = rows.map(|cells| cells.iter().map(|cell| written(cell)));
    records(table.heads.iter().map(|head| guarded(head)), rows)
}

/// A number below zero begins like a formula, but is none.
fn written(cell: &str) -> String {
    match read_exact(cell, false) {
        Some(_) => cell.to_owned(),
        None => guarded(cell),
    }
}
