//! A substitution table for spreadsheets, written as the table of ingredients is.

use super::table_cells::guarded;
use super::table_write::{ExportError, put_table, records};
use super::write::SaveError;
use crate::rebalance::Substitutions;
use std::path::Path;

/// The table with commas and one row of heads; texts that begin like a formula carry an apostrophe.
pub fn write_substitutions(table: &Substitutions) -> Result<String, SaveError> {
    let rows = table
        .cells()
        .map(|cells| cells.into_iter().map(|cell| guarded(&cell)));
    records(heads().into_iter(), rows)
}

/// Writes the table to a file, whole or not at all.
///
/// A file there is replaced only when `replace` is set, and only if it is such a table; it stays
/// beside the new one as `.bak`.
pub fn save_substitutions(
    table: &Substitutions,
    path: &Path,
    replace: bool,
) -> Result<(), ExportError> {
    put_table(path, replace, &heads(), || write_substitutions(table))
}

fn heads() -> Vec<String> {
    Substitutions::HEADS.map(str::to_owned).to_vec()
}
