//! What stands where there is nothing yet: a sentence, and the ways to go on.

use super::intent::Outbox;
use super::naming::named;
use crate::session::{Command, Session, shortcut_words};
use eframe::egui::{RichText, Ui};

/// One sentence in place of what is not there.
pub(super) fn say(ui: &mut Ui, sentence: &str) {
    ui.label(RichText::new(sentence).weak());
}

/// Where no drink is on screen: what would be here, and the ways to one.
///
/// The demo is offered where the document holds nothing; unsaved work is asked about first.
pub(super) fn no_drink(ui: &mut Ui, session: &Session, sentence: &str, outbox: &mut Outbox) {
    say(ui, sentence);
    way(ui, Command::Start, outbox);
    if is_blank(session) {
        way(ui, Command::OpenDemo, outbox);
    }
}

/// Whether the document holds neither a drink nor anything made in the house.
pub(super) fn is_blank(session: &Session) -> bool {
    let document = session.document();
    document.specs.is_empty() && document.preparations.is_empty()
}

/// A command as a button.
pub(super) fn way(ui: &mut Ui, command: Command, outbox: &mut Outbox) {
    let info = command.info();
    let teach = match info.shortcut {
        Some(_) => format!("{} ({})", info.explain, shortcut_words(info.shortcut)),
        None => info.explain.to_owned(),
    };
    if named(ui.button(info.name), info.name, &teach).clicked() {
        outbox.command(command);
    }
}
