//! A chart in rows and columns.

use crate::chart::{Chart, Table};
use eframe::egui::{Context, Grid, Id, RichText, ScrollArea, Ui};

/// Least height of the rows, points.
const LEAST: f32 = 40.0;

fn kept() -> Id {
    Id::unique("charts as tables")
}

/// Notes once a frame whether charts are shown as tables.
pub(super) fn choose(ctx: &Context, tables: bool) {
    ctx.data_mut(|data| data.insert_temp(kept(), tables));
}

/// Whether charts are shown as tables.
pub(super) fn is_chosen(ui: &Ui) -> bool {
    ui.data(|data| data.get_temp(kept())).unwrap_or(false)
}

/// Shows a chart's sentence and its table in `height` points, however long the sentence is.
pub(super) fn table(ui: &mut Ui, id: &str, chart: &Chart, height: f32) {
    plain(ui, id, (&chart.summary, &chart.table), height);
}

/// Shows a sentence and a table of words in `height` points.
pub(super) fn plain(ui: &mut Ui, id: &str, said: (&str, &Table), height: f32) {
    rows_of(ui, id, said, height, |ui, _, cell| {
        ui.label(cell);
    });
}

/// The same with a first column of one's own, which is asked for by row and text.
pub(super) fn rows(
    ui: &mut Ui,
    id: &str,
    chart: &Chart,
    height: f32,
    first: impl FnMut(&mut Ui, usize, &str),
) {
    rows_of(ui, id, (&chart.summary, &chart.table), height, first);
}

fn rows_of(
    ui: &mut Ui,
    id: &str,
    (summary, table): (&str, &Table),
    height: f32,
    mut first: impl FnMut(&mut Ui, usize, &str),
) {
    let top = ui.cursor().top();
    ui.label(RichText::new(summary).italics());
    let left = height - (ui.cursor().top() - top);
    ScrollArea::both()
        .id_salt(id)
        .max_height(left.max(LEAST))
        .auto_shrink(false)
        .show(ui, |ui| {
            Grid::new(id).striped(true).show(ui, |ui| {
                for column in &table.columns {
                    ui.label(RichText::new(column).strong());
                }
                ui.end_row();
                for (place, row) in table.rows.iter().enumerate() {
                    for (column, cell) in row.iter().enumerate() {
                        if column == 0 {
                            first(ui, place, cell);
                        } else {
                            ui.label(cell);
                        }
                    }
                    ui.end_row();
                }
            });
        });
}
