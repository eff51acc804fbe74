//! Notices below the charts: what deserves a word, why, and a way to act.

use super::filing;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::overlays::list_height;
use super::theme::Tokens;
use super::window::Around;
use crate::session::{Action, Notice, Session, Severity};
use eframe::egui::{Align, Layout, RichText, ScrollArea, Ui};
use std::path::Path;

/// Most notices below the charts; the others stand in a list of their own.
const LISTED: usize = 3;
/// Height of messages and notices before they scroll, points.
const ROOM: f32 = 96.0;
/// Height of title and button of the list, and of the space around them, points.
const AROUND: f32 = 160.0;

/// Shows the notices; messages of the window come first and stay until dismissed, but
/// for a word in passing, which the next action takes away.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    around: &mut Around,
    of_trial: bool,
    outbox: &mut Outbox,
) {
    let more = if of_trial {
        session.notices().len().saturating_sub(LISTED)
    } else {
        0
    };
    // The button stands beside the lines, so that they keep their height.
    ui.with_layout(Layout::right_to_left(Align::TOP), |ui| {
        if more > 0 {
            let button = ui.small_button(format!("{more} more…"));
            let teach = "All that there is to note of this trial, the weightiest first";
            if named(button, "More notices", teach).clicked() {
                outbox.intent(Intent::ShowNotices);
            }
        }
        ui.with_layout(Layout::top_down(Align::LEFT), |ui| {
            lines(ui, session, around, of_trial, outbox);
        });
    });
}

/// Messages and the weightiest notices.
fn lines(ui: &mut Ui, session: &Session, around: &mut Around, of_trial: bool, outbox: &mut Outbox) {
    ScrollArea::vertical()
        .id_salt("notices")
        .max_height(ROOM)
        .min_scrolled_height(ROOM)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 18.0;
            let now = ui.input(|input| input.time);
            if let Some(words) = around.under_way.words(session, now) {
                filing::line(ui, &words, outbox);
            }
            if let Some(trouble) = &around.file_trouble
                && message(ui, trouble)
            {
                around.file_trouble = None;
                around.under_way.damaged = None;
            }
            if let Some(damaged) = &around.under_way.damaged {
                version_before(ui, damaged, outbox);
            }
            around.messages.retain(|said| !message(ui, said));
            if let Some(said) = &around.passing {
                ui.label(said);
            }
            let quiet = around.messages.is_empty()
                && around.file_trouble.is_none()
                && around.passing.is_none();
            if !of_trial {
                return;
            }
            if session.notices().is_empty() && quiet {
                ui.label(RichText::new("Nothing to note.").weak());
            }
            for notice in session.notices().iter().take(LISTED) {
                line(ui, notice, outbox);
            }
        });
}

/// Shows every notice of the trial on screen, the weightiest first.
pub(super) fn all(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    if session.notices().is_empty() {
        ui.label(RichText::new("Nothing to note.").weak());
    }
    ScrollArea::vertical()
        .max_height(list_height(ui, AROUND))
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for notice in session.notices() {
                line(ui, notice, outbox);
            }
        });
    if ui.button("Close").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}

/// What deserves a word, why, and a way to act.
fn line(ui: &mut Ui, notice: &Notice, outbox: &mut Outbox) {
    let tokens = Tokens::of(ui);
    let (glyph, color) = match notice.severity {
        Severity::Warning => ("▲", tokens.warn),
        Severity::Caution => ("◆", tokens.caution),
        Severity::Remark => ("·", tokens.weak),
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(glyph).color(color))
            .on_hover_text(notice.severity.name());
        ui.label(RichText::new(&notice.text).color(color))
            .on_hover_text(&notice.reason);
        ui.label(RichText::new(&notice.reason).small().weak());
        match &notice.action {
            Some(Action::Edit(words, edit)) if ui.small_button(words).clicked() => {
                outbox.edit(Box::as_ref(edit).clone());
            }
            Some(Action::Command(command)) => {
                let info = command.info();
                if ui
                    .small_button(info.name)
                    .on_hover_text(info.explain)
                    .clicked()
                {
                    outbox.command(*command);
                }
            }
            _ => {}
        }
    });
}

/// Offers the version before a file that cannot be read.
fn version_before(ui: &mut Ui, damaged: &Path, outbox: &mut Outbox) {
    let button = ui.small_button("Open the version before");
    let teach = "Opens what was saved before the last save as a document without a file; the damaged file stays as it is";
    if named(button, "Open the version before", teach).clicked() {
        outbox.intent(Intent::OpenBefore(damaged.to_owned()));
    }
}

/// One message; true when it was dismissed.
fn message(ui: &mut Ui, text: &str) -> bool {
    let warn = Tokens::of(ui).warn;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("!").strong().color(warn));
        ui.label(RichText::new(text).color(warn));
        let button = ui.small_button("Dismiss");
        let is_dismissed = button.on_hover_text("Take this message away").clicked();
        if is_dismissed {
            // It is drawn already in this frame.
            ui.ctx().request_repaint();
        }
        is_dismissed
    })
    .inner
}
