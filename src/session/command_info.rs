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

impl CommandInfo {
    /// Whether its key is a letter alone, which works on the map only.
    pub fn is_by_letter(&self) -> bool {
        self.shortcut.is_some_and(|shortcut| shortcut.is_letter())
    }
}
