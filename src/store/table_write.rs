//! Ingredients as a table for spreadsheets: commas, decimal points, one header row.
//!
//! A text that begins with `=`, `+`, `-`, `@`, a tab or a line end, behind any number of apostrophes,
//! is written with one apostrophe more, so that no spreadsheet takes it for a formula; reading takes
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
    #[error("the file there is no table of ingredients as written here, so it is left alone")]
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
    let failed = |error: &dyn std::fmt::Display| SaveError::Text(error.to_string());
    let columns = Column::written();
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer
        .write_record(columns.iter().map(|column| column.header()))
        .map_err(|error| failed(&error))?;
    for item in items {
        writer
            .write_record(columns.iter().map(|column| cell(item, *column)))
            .map_err(|error| failed(&error))?;
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
    if path.is_file() {
        if !replace {
            return Err(ExportError::Exists);
        }
        if !is_ours(path) {
            return Err(ExportError::Foreign);
        }
    }
    put_text(path, &write_table(exported(document, lots))?)?;
    Ok(())
}

/// True for a table whose header is the one written here.
fn is_ours(path: &Path) -> bool {
    let own: Vec<String> = Column::written()
        .iter()
        .map(|column| column.header())
        .collect();
    table_text(path)
        .and_then(|text| read_sheet(&text, None, None))
        .is_ok_and(|sheet| sheet.columns == own)
}
