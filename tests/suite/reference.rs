//! Reader of the reference tables beside the tests.

use std::collections::HashMap;

/// One row of a table: cells by column name.
pub(crate) struct Row {
    cells: HashMap<String, String>,
}

impl Row {
    /// The cell as text, without surrounding spaces.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.cells
            .get(column)
            .unwrap_or_else(|| panic!("the table has no column {column}"))
            .trim()
    }

    /// The cell as a number; `None` when it is empty.
    pub(crate) fn maybe(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| {
            text.parse()
                .unwrap_or_else(|_| panic!("{column}: {text} is no number"))
        })
    }

    /// The cell as a number, which must be there.
    pub(crate) fn number(&self, column: &str) -> f64 {
        self.maybe(column)
            .unwrap_or_else(|| panic!("{column} is empty"))
    }
}

/// All rows of a table in `tests/suite/reference`; lines that start with `#` carry its sources.
pub(crate) fn rows(file: &str) -> Vec<Row> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/suite/reference/");
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(format!("{folder}{file}"))
        .unwrap_or_else(|error| panic!("{file}: {error}"));
    let columns = reader.headers().expect("a header row").clone();
    let rows: Vec<Row> = reader
        .records()
        .map(|record| {
            let record = record.unwrap_or_else(|error| panic!("{file}: {error}"));
            let cells = columns.iter().zip(&record);
            Row {
                cells: cells
                    .map(|(column, cell)| (column.to_owned(), cell.to_owned()))
                    .collect(),
            }
        })
        .collect();
    assert!(!rows.is_empty(), "{file} has no rows");
    rows
}

/// The largest deviation seen over the rows of a table, and where.
#[derive(Default)]
pub(crate) struct Worst {
    deviation: f64,
    place: String,
    rows: usize,
}

impl Worst {
    /// Counts a row, and fails when it deviates by more than `tolerance`.
    pub(crate) fn check(&mut self, place: &str, found: f64, expected: f64, tolerance: f64) {
        let deviation = (found - expected).abs();
        assert!(
            deviation <= tolerance,
            "{place}: {found} where {expected} is expected, {deviation} apart, {tolerance} allowed"
        );
        self.rows += 1;
        if deviation >= self.deviation {
            self.deviation = deviation;
            place.clone_into(&mut self.place);
        }
    }

    #[expect(
        clippy::print_stderr,
        reason = "the figures to quote, shown when the tests run with their output"
    )]
    /// Fails unless at least `least` rows were checked; says what was found.
    pub(crate) fn finish(&self, title: &str, least: usize) {
        eprintln!(
            "{title}: {} rows, worst {:.6} at {}",
            self.rows, self.deviation, self.place
        );
        assert!(self.rows >= least, "{title}: only {} rows", self.rows);
    }
}
