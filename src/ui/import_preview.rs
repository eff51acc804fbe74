//! The first rows of a table, with what each column means.

use super::naming::named;
use crate::store::{Column, Sheet};
use eframe::egui::{ComboBox, Grid, RichText, ScrollArea, Ui};

/// Rows shown.
const ROWS: usize = 8;
/// Letters of a cell shown.
const LETTERS: usize = 22;

/// Shows the table; true when a column got another meaning.
pub(super) fn ui(ui: &mut Ui, sheet: &Sheet, meanings: &mut [Option<Column>]) -> bool {
    let mut changed = false;
    ScrollArea::both()
        .id_salt("preview")
        .max_height(250.0)
        .show(ui, |ui| {
            Grid::new("preview").striped(true).show(ui, |ui| {
                ui.label("");
                for header in &sheet.columns {
                    ui.label(RichText::new(in_short(header)).strong());
                }
                ui.end_row();
                ui.label("means");
                let headers = sheet.columns.iter();
                for (place, (meaning, header)) in meanings.iter_mut().zip(headers).enumerate() {
                    changed |= meaning_combo(ui, place, header, meaning);
                }
                ui.end_row();
                for row in sheet.rows.iter().take(ROWS) {
                    ui.label(RichText::new(format!("{}", row.number)).weak());
                    for cell in row.cells.iter().take(sheet.columns.len()) {
                        ui.label(in_short(cell));
                    }
                    ui.end_row();
                }
            });
        });
    changed
}

fn meaning_combo(ui: &mut Ui, place: usize, header: &str, meaning: &mut Option<Column>) -> bool {
    let before = *meaning;
    let shown = before.map_or_else(|| "not used".to_owned(), Column::header);
    let combo = ComboBox::from_id_salt(("meaning", place))
        .selected_text(shown)
        .width(130.0)
        .show_ui(ui, |ui| {
            ui.selectable_value(meaning, None, "not used");
            for column in Column::all() {
                ui.selectable_value(meaning, Some(column), column.header());
            }
        });
    let name = format!("Column {}: {}", place + 1, in_short(header));
    named(
        combo.response,
        &name,
        "What the column means, and the unit its numbers must have; nothing is converted",
    );
    *meaning != before
}

/// The beginning of a cell in one line.
fn in_short(cell: &str) -> String {
    let letters = cell.trim().chars();
    let mut short: String = letters
        .clone()
        .take(LETTERS)
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect();
    if letters.count() > LETTERS {
        short.push('…');
    }
    short
}
