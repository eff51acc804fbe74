//! Trials side by side as a table to paste or to calculate with.

use super::side_by_side::{PourCell, SideBySide};
use super::trial_history::plain_cell;
use crate::store::PlainTable;

impl SideBySide {
    /// Pours and figures, one column for each trial, with what differs from the trial at `baseline`.
    pub fn table(&self, baseline: usize) -> PlainTable {
        let mut heads = vec![String::new()];
        heads.extend(self.columns.iter().enumerate().map(|(place, column)| {
            if place == baseline {
                format!("{} (compared with)", column.name)
            } else {
                column.name.clone()
            }
        }));
        let pours = self.pours.iter().map(|row| {
            let cells = row
                .cells
                .iter()
                .map(|cell| cell.as_ref().map_or_else(String::new, pour));
            [row.job.to_owned()].into_iter().chain(cells).collect()
        });
        let figures = self.figures.iter().map(|row| {
            let cells = row.cells.iter().map(|(value, more)| figure(value, more));
            [row.name.to_owned()].into_iter().chain(cells).collect()
        });
        PlainTable {
            heads,
            rows: pours.chain(figures).collect(),
        }
    }

    /// The same in Markdown.
    pub fn markdown(&self, baseline: usize) -> String {
        let table = self.table(baseline);
        let line = |cells: &[String]| {
            let cells: Vec<String> = cells.iter().map(|cell| plain_cell(cell)).collect();
            format!("| {} |", cells.join(" | "))
        };
        let rule = format!("|{}", " --- |".repeat(table.heads.len()));
        let mut lines = vec![line(&table.heads), rule];
        lines.extend(table.rows.iter().map(|row| line(row)));
        lines.join("\n") + "\n"
    }
}

fn pour(cell: &PourCell) -> String {
    let words = format!("{} {}", cell.amount, cell.name);
    figure(words.trim(), &cell.change)
}

fn figure(value: &str, more: &str) -> String {
    if more.is_empty() {
        value.to_owned()
    } else {
        format!("{value} ({more})")
    }
}
