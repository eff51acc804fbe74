//! Notices below the charts: what deserves a word, why, and a way to act.

use super::intent::Outbox;
use super::theme::Tokens;
use crate::session::{Action, Session, Severity};
use eframe::egui::{RichText, ScrollArea, Ui};

/// Shows the notices; messages of the window come first and stay until dismissed.
pub(super) fn ui(ui: &mut Ui, session: &Session, messages: &mut Vec<String>, outbox: &mut Outbox) {
    let tokens = Tokens::of(ui);
    ScrollArea::vertical()
        .id_salt("notices")
        .auto_shrink(false)
        .show(ui, |ui| {
            let mut dismissed = None;
            for (index, message) in messages.iter().enumerate() {
                ui.horizontal_wrapped(|ui| {
                    ui.label(RichText::new("!").strong().color(tokens.warn));
                    ui.label(RichText::new(message).color(tokens.warn));
                    if ui
                        .small_button("Dismiss")
                        .on_hover_text("Take this message away")
                        .clicked()
                    {
                        dismissed = Some(index);
                    }
                });
            }
            if let Some(index) = dismissed {
                messages.remove(index);
            }
            if session.notices().is_empty() && messages.is_empty() {
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
