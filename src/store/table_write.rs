//! Ingredients as a table for spreadsheets: commas, decimal points, one header row.
//!
//! A text that begins with `=`, `+`, `-`, `@`, a tab or a line end, behind any number of apostrophes
//! and blanks, is written with one apostrophe more, so that no spreadsheet takes it for a formula; reading takes
//! that apostrophe away again. Numbers are never negative and need no such care.

use super::table_columns::Column;
use super::table_ingredient::cell;
use super::table_read::{read_sheet, table_text};
use super::write::{SaveError, put_text};
use crate::model::{Document, Ingredient, batch_rows};
use std::collections::BTreeSet;
use std::path::Path;

/// Why a table was not written; the file on disk is as it was.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// There is a file of that name; it is replaced only when that was asked for.
    #[error("there is a file of that name already")]
    Exists,
    /// The file there was not written by this program as a table.
    #[error("the file there is no table as this one is written, so it is left alone")]
    Foreign,
    /// The file system refused.
    #[error(transparent)]
    Save(#[from] SaveError),
}

/// The ingredients of a document that stand for themselves, and with `lots` those of its lots too.
pub fn exported(document: &Document, lots: bool) -> impl Iterator<Item = &Ingredient> {
    let own = if lots {
        BTreeSet::new()
    } else {
        batch_rows(document)
    };
    document
        .ingredients
        .iter()
        .filter(move |(id, _)| !own.contains(id))
        .map(|(_, item)| item.as_ref())
}

/// Ingredients as a table; read back, they are the same but for their origin, for blanks around a
/// text, for semicolons and commas within a flavour word, and for commas between allergens, which
/// become semicolons.
pub fn write_table<'a>(
    items: impl IntoIterator<Item = &'a Ingredient>,
) -> Result<String, SaveError> {
    let columns = Column::written();
    let heads = columns.iter().map(|column| column.header());
    let rows = items
        .into_iter()
        .map(|item| columns.iter().map(|column| cell(item, *column)));
    records(heads, rows)
}

/// A table as text: one row of heads, then the others.
pub(super) fn records<Row: Iterator<Item = String>>(
    heads: impl Iterator<Item = String>,
    rows: impl Iterator<Item = Row>,
) -> Result<String, SaveError> {
    let failed = |error: &dyn std::fmt::Display| SaveError::Text(error.to_string());
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(heads).map_err(|error| failed(&error))?;
    for row in rows {
        writer.write_record(row).map_err(|error| failed(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| failed(&error))?;
    String::from_utf8(bytes).map_err(|error| failed(&error))
}

/// Writes the ingredients of a document to a file, whole or not at all.
///
/// A file there is replaced only when `replace` is set, and only if it is a table that was written
/// here; it stays beside the new one as `.bak`.
pub fn save_table(
    document: &Document,
    lots: bool,
    path: &Path,
    replace: bool,
) -> Result<(), ExportError> {
    let own: Vec<String> = Column::written()
        .iter()
        .map(|column| column.header())
        .collect();
    put_table(path, replace, &own, || {
        write_table(exported(document, lots))
    })
}

/// Puts a table in place; another file there is replaced only by a table with the same heads, and
/// only when that was asked for.
pub(super) fn put_table(
    path: &Path,
    replace: bool,
    heads: &[String],
    text: impl FnOnce() -> Result<String, SaveError>,
) -> Result<(), ExportError> {
    if path.is_file() {
        if !replace {
            return Err(ExportError::Exists);
        }
        if !is_ours(path, heads) {
            return Err(ExportError::Foreign);
        }
    }
    put_text(path, &text()?)?;
    Ok(())
}

/// True for a table whose header is the one written here.
fn is_ours(path: &Path, heads: &[String]) -> bool {
    table_text(path)
        .and_then(|text| read_sheet(&text, None, None))
        .is_ok_and(|sheet| sheet.columns == heads)
}
