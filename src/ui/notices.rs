//! Notices below the charts: what deserves a word, why, and a way to act.

use super::filing;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::window::Around;
use crate::session::{Action, Session, Severity};
use eframe::egui::{RichText, ScrollArea, Ui};
use std::path::Path;

/// Shows the notices; messages of the window come first and stay until dismissed, but
/// for a word in passing, which the next action takes away.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    around: &mut Around,
    of_trial: bool,
    outbox: &mut Outbox,
) {
    let tokens = Tokens::of(ui);
    ScrollArea::vertical()
        .id_salt("notices")
        .max_height(96.0)
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
            for notice in session.notices() {
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
