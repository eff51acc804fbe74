//! How a command is named, reached and found.

use super::command::Command;
use super::command_words::search_words;
use super::shortcut::Shortcut;

/// How a command is named, reached and found.
#[derive(Clone, Copy, Debug)]
pub struct CommandInfo {
    /// The command.
    pub command: Command,
    /// Menu it stands in.
    pub menu: &'static str,
    /// Its words; `…` when a dialog follows.
    pub name: &'static str,
    /// What it does, for tooltips and the palette.
    pub explain: &'static str,
    /// Its key.
    pub shortcut: Option<Shortcut>,
    /// Other words that people look for it by, in small letters.
    pub words: &'static str,
}

/// A row of the table.
pub(super) const fn info(
    command: Command,
    menu: &'static str,
    name: &'static str,
    shortcut: Option<Shortcut>,
    explain: &'static str,
) -> CommandInfo {
    CommandInfo {
        command,
        menu,
        name,
        explain,
        shortcut,
        words: search_words(command),
    }
}
