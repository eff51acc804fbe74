//! Values of a chart on the clipboard: those under the pointer, or all of them.

use super::naming::named;
use crate::chart::Chart;
use eframe::egui::{Event, Id, OutputCommand, Response, Ui};

/// Copies what is under the pointer, or the whole chart when it has the focus; `reading` is what the
/// place under the pointer reads.
pub(super) fn copies(ui: &Ui, chart: &Chart, response: &Response, reading: Option<&str>) {
    let kept: Id = response.id.with("reading");
    if response.secondary_clicked()
        && let Some(reading) = reading
    {
        ui.data_mut(|data| data.insert_temp(kept, reading.to_owned()));
    }
    response.context_menu(|ui| {
        let held = ui.data(|data| data.get_temp::<String>(kept));
        if let Some(held) = held {
            let teach = "Put what the chart reads at this place on the clipboard; Ctrl+C does so for what is under the pointer";
            if named(ui.button("Copy the values"), "Copy the values", teach).clicked() {
                ui.ctx().copy_text(held);
                ui.close();
            }
        }
        let teach = "Put the whole chart on the clipboard, as a table with tabs; Ctrl+C does so while the chart has the focus";
        if named(ui.button("Copy the whole chart"), "Copy the whole chart", teach).clicked() {
            ui.ctx().copy_text(chart.as_text());
            ui.close();
        }
    });
    let asked = ui.input(|input| {
        input
            .events
            .iter()
            .any(|event| matches!(event, Event::Copy))
    });
    if !asked || ui.ctx().text_edit_focused() {
        return;
    }
    let frame = ui.ctx().cumulative_frame_nr();
    let pointed = Id::unique("frame of the chart copied under the pointer");
    if let Some(reading) = reading {
        // The chart under the pointer goes before the one with the focus, whichever is drawn first.
        ui.ctx().output_mut(|output| {
            let is_text = |command: &OutputCommand| matches!(command, OutputCommand::CopyText(_));
            output.commands.retain(|command| !is_text(command));
        });
        ui.ctx().copy_text(reading.to_owned());
        ui.data_mut(|data| data.insert_temp(pointed, frame));
    } else if response.has_focus() && ui.data(|data| data.get_temp::<u64>(pointed)) != Some(frame) {
        ui.ctx().copy_text(chart.as_text());
    }
}
