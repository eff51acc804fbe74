//! Shortcuts from the table of commands.

use super::chart_letters::are_heard;
use super::intent::Outbox;
use super::number_moves::are_pages_kept;
use super::page::Page;
use super::view::View;
use crate::session::{COMMANDS, Command, CommandInfo, Shortcut};
use eframe::egui::{Context, Key, KeyboardShortcut, Modifiers};

/// Pushes the commands whose keys were pressed; longest modifiers first, plain keys never while a
/// text field has focus or a dialog is open, letters only where a chart takes them.
pub(super) fn listen(ctx: &Context, view: &View, outbox: &mut Outbox) {
    // What is open above the panels is answered first.
    if view.dialog.is_some() {
        return;
    }
    let typing = ctx.text_edit_focused();
    let pages_kept = are_pages_kept(ctx);
    let mut table: Vec<(&CommandInfo, Shortcut)> = COMMANDS
        .iter()
        .filter_map(|info| Some((info, info.shortcut?)))
        .collect();
    table.sort_by_key(|(_, shortcut)| !shortcut.shift);
    for (info, shortcut) in table {
        let plain = !shortcut.command && !is_function_key(shortcut.key);
        // Page keys go through the trials that the charts show, and so does the key of proposals.
        let of_page = plain || info.command == Command::NextProposal;
        if (plain && typing) || (of_page && view.page != Page::Balance) {
            continue;
        }
        if shortcut.is_letter() && !are_heard(ctx, info.command) {
            continue;
        }
        // A control that steps keeps the page keys.
        if pages_kept && shortcut.key.starts_with("Page") {
            continue;
        }
        // While typing, undo and redo belong to the text.
        if typing && matches!(info.command, Command::Undo | Command::Redo) {
            continue;
        }
        if let Some(found) = keyboard(shortcut)
            && ctx.input_mut(|input| input.consume_shortcut(&found))
        {
            outbox.command(info.command);
        }
    }
    // The plus of many keyboards needs Shift; its key alone does as well.
    if ctx.input_mut(|input| input.consume_key(Modifiers::COMMAND, Key::Equals)) {
        outbox.command(Command::Larger);
    }
}

/// Whether a key of this name is F1, F2 and so on, and not the letter.
pub(super) fn is_function_key(name: &str) -> bool {
    name.strip_prefix('F')
        .is_some_and(|place| !place.is_empty() && place.bytes().all(|byte| byte.is_ascii_digit()))
}

/// The toolkit's shortcut; `None` for a key it does not know, which a test refuses.
pub(super) fn keyboard(shortcut: Shortcut) -> Option<KeyboardShortcut> {
    let mut modifiers = Modifiers::NONE;
    if shortcut.command {
        modifiers = modifiers.plus(Modifiers::COMMAND);
    }
    if shortcut.shift {
        modifiers = modifiers.plus(Modifiers::SHIFT);
    }
    Some(KeyboardShortcut::new(
        modifiers,
        Key::from_name(shortcut.key)?,
    ))
}

#[cfg(test)]
mod tests {
    use super::{is_function_key, keyboard};
    use crate::session::COMMANDS;
    use std::collections::HashSet;

    #[test]
    fn the_letter_f_is_no_function_key() {
        assert!(["F1", "F6", "F12"].into_iter().all(is_function_key));
        assert!(!["F", "Find", "1", ""].into_iter().any(is_function_key));
    }

    #[test]
    fn every_shortcut_names_a_key_and_none_clash() {
        let mut seen = HashSet::new();
        for info in COMMANDS {
            if let Some(shortcut) = info.shortcut {
                assert!(keyboard(shortcut).is_some(), "{}", info.name);
                assert!(seen.insert(shortcut), "{} clashes", info.name);
            }
        }
    }
}
