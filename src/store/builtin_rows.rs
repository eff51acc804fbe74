//! Rows of the built-in tables, by column name.

use crate::model::Range;
use std::collections::HashMap;

/// One row with its column names.
#[derive(Debug)]
pub(super) struct Row<'a> {
    pub(super) table: &'static str,
    pub(super) number: usize,
    columns: &'a HashMap<String, usize>,
    record: csv::StringRecord,
}

/// A built-in table that does not say what it should: a defect of the program.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("built-in table {table}, row {row}, column {column}: {reason}")]
pub struct BuiltinError {
    /// Table.
    pub table: &'static str,
    /// Row, from 1 after the header.
    pub row: usize,
    /// Column.
    pub column: String,
    /// What is wrong.
    pub reason: String,
}

impl Row<'_> {
    /// The text of a column; an error when there is no such column.
    pub(super) fn text(&self, column: &str) -> Result<&str, BuiltinError> {
        let place = self
            .columns
            .get(column)
            .ok_or_else(|| self.error(column, "no such column"))?;
        Ok(self.record.get(*place).unwrap_or("").trim())
    }

    /// The number in a column; `None` when blank.
    pub(super) fn number(&self, column: &str) -> Result<Option<f64>, BuiltinError> {
        let text = self.text(column)?;
        if text.is_empty() {
            return Ok(None);
        }
        match text.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Some(value)),
            _ => Err(self.error(column, &format!("\"{text}\" is not a number"))),
        }
    }

    /// The columns `…_low`, `…_typ`, `…_high`; a blank end takes the typical value.
    pub(super) fn range(&self, stem: &str) -> Result<Option<Range>, BuiltinError> {
        let low = self.number(&format!("{stem}_low"))?;
        let typical = self.number(&format!("{stem}_typ"))?;
        let high = self.number(&format!("{stem}_high"))?;
        Ok(typical.map(|typical| Range {
            low: low.unwrap_or(typical).min(typical),
            typical,
            high: high.unwrap_or(typical).max(typical),
        }))
    }

    pub(super) fn error(&self, column: &str, reason: &str) -> BuiltinError {
        BuiltinError {
            table: self.table,
            row: self.number,
            column: column.to_owned(),
            reason: reason.to_owned(),
        }
    }
}

/// Calls `take` for every row of a table.
pub(super) fn each_row(
    table: &'static str,
    text: &str,
    mut take: impl FnMut(&Row<'_>) -> Result<(), BuiltinError>,
) -> Result<(), BuiltinError> {
    let broken = |row: usize, error: &csv::Error| BuiltinError {
        table,
        row,
        column: String::new(),
        reason: error.to_string(),
    };
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let header = reader.headers().map_err(|error| broken(0, &error))?;
    let columns: HashMap<String, usize> = header
        .iter()
        .enumerate()
        .map(|(place, name)| (name.trim().to_owned(), place))
        .collect();
    for (index, record) in reader.records().enumerate() {
        let record = record.map_err(|error| broken(index + 1, &error))?;
        take(&Row {
            table,
            number: index + 1,
            columns: &columns,
            record,
        })?;
    }
    Ok(())
}
