//! Keys beside those of commands, and the sheet of all keys as text.

use super::command_info::CommandInfo;
use super::commands::COMMANDS;
use super::shortcut::Shortcut;

/// A key that works on one kind of control.
#[derive(Clone, Copy, Debug)]
pub struct OtherKey {
    /// Where it works.
    pub place: &'static str,
    /// Keys, or what the pointer does.
    pub keys: &'static str,
    /// What it does.
    pub what: &'static str,
}

const fn key(place: &'static str, keys: &'static str, what: &'static str) -> OtherKey {
    OtherKey { place, keys, what }
}

const ANYWHERE: &str = "Anywhere";
const SLIDER: &str = "On a pour's slider";
const FIELD: &str = "In a field of an amount or a figure";
const NUMBER: &str = "In or on a number";
const TARGET: &str = "On the target and the map";
const LETTERS: &str = "On the map, while it has the pointer or the focus";
const CHART: &str = "On a chart that has the focus";
const LIST: &str = "In lists, tables and searches";
const BENCH: &str = "At the bench";
const BALLOT: &str = "On ballots";

/// Keys of controls, grouped by where they work.
pub const OTHER_KEYS: &[OtherKey] = &[
    key(
        ANYWHERE,
        "Tab",
        "The next control; Shift+Tab the one before",
    ),
    key(
        ANYWHERE,
        "Space or Enter",
        "Press the button that has the focus",
    ),
    key(
        ANYWHERE,
        "Esc",
        "Close an open list, then the dialog; leave a field as it was",
    ),
    key(
        ANYWHERE,
        "Ctrl+plus, Ctrl+minus",
        "Everything larger or smaller; Ctrl+0 goes back",
    ),
    key(SLIDER, "← →", "One notch less or more; with Shift four"),
    key(SLIDER, "PageUp, PageDown", "Four notches more or less"),
    key(SLIDER, "Alt+↑, Alt+↓", "Move the pour in the list"),
    key(SLIDER, "Shift and drag", "Ten times finer"),
    key(
        SLIDER,
        "Double click",
        "Back to the amount of the trial before",
    ),
    key(
        FIELD,
        "Enter",
        "Take what was typed: 22.5, 22,5, 1 3/4 oz, =30+15",
    ),
    key(FIELD, "Esc", "Leave the amount as it was"),
    key(NUMBER, "↑ ↓", "One step more or less; with Shift ten"),
    key(NUMBER, "PageUp, PageDown", "Ten steps more or less"),
    key(NUMBER, "Ctrl and wheel", "One step more or less"),
    key(
        NUMBER,
        "Drag",
        "Change it; ten times finer with Shift, on whole steps with Ctrl",
    ),
    key(
        NUMBER,
        "Enter",
        "Take what was typed; an emptied field takes the usual value",
    ),
    key(NUMBER, "Esc", "Give back the number that stood before"),
    key(
        TARGET,
        "Arrows",
        "Move the target by a tenth of a noticeable difference; with Shift by a whole one",
    ),
    key(CHART, "+ − Home", "Zoom in, zoom out, frame anew"),
    key(CHART, "Alt+arrows", "Move what the chart shows"),
    key(
        CHART,
        "Ctrl+C",
        "Copy the values under the pointer, or the whole chart",
    ),
    key(
        TARGET,
        "Drag",
        "Move the target, ten times finer with Shift; beside it, move the map",
    ),
    key(
        TARGET,
        "Ctrl and wheel",
        "Zoom the map; a pinch does the same",
    ),
    key(LIST, "Enter", "In a search: take the first hit"),
    key(LIST, "↑ ↓", "In the list of all commands: choose a hit"),
    key(LIST, "Tab, Space", "In a table: go to a row, choose it"),
    key(
        LIST,
        "Ctrl+click, Ctrl+Space",
        "In the tree of trials: choose several, to star, put aside or throw away",
    ),
    key(BENCH, "Tab, Space", "Go to a pour and tick it off"),
    key(BENCH, "Enter", "In the remark: keep what was poured"),
    key(
        BALLOT,
        "PageUp, PageDown",
        "The taster before, the next taster",
    ),
    key(
        BALLOT,
        "↑ ↓",
        "On a taster's name: choose another; Enter goes to the first answer",
    ),
    key(BALLOT, "Digits", "Give an answer and go to the next"),
    key(BALLOT, "Enter", "The next answer without giving one"),
    key(BALLOT, "Backspace or Delete", "Take an answer back"),
];

/// A key as it is printed, such as "Ctrl+Shift+S", with where a letter works; empty without one.
pub fn shortcut_words(shortcut: Option<Shortcut>) -> String {
    let Some(shortcut) = shortcut else {
        return String::new();
    };
    let mut text = String::new();
    if shortcut.command {
        text.push_str("Ctrl+");
    }
    if shortcut.shift {
        text.push_str("Shift+");
    }
    text.push_str(shortcut.key);
    if shortcut.is_letter() {
        text.push_str(" on the map");
    }
    text
}

/// A group of the sheet: where its keys work, and for each its keys and what they do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyGroup {
    /// Menu of commands, or where the keys work.
    pub place: &'static str,
    /// Keys with what they do.
    pub rows: Vec<(String, String)>,
}

/// Every key that there is, grouped; only those whose keys or words hold `search`.
pub fn key_groups(search: &str) -> Vec<KeyGroup> {
    let search = search.trim().to_lowercase();
    let named = COMMANDS.iter().filter(|info| info.shortcut.is_some());
    let of_commands = named.map(|info| {
        let place = if info.is_by_letter() {
            LETTERS
        } else {
            info.menu
        };
        (place, shortcut_words(info.shortcut), told(info))
    });
    let others = OTHER_KEYS.iter();
    let others = others.map(|one| (one.place, one.keys.to_owned(), one.what.to_owned()));
    let mut groups: Vec<KeyGroup> = Vec::new();
    for (place, keys, what) in of_commands.chain(others) {
        let text = format!("{place} {keys} {what}").to_lowercase();
        if !text.contains(&search) {
            continue;
        }
        match groups.iter_mut().find(|group| group.place == place) {
            Some(group) => group.rows.push((keys, what)),
            None => groups.push(KeyGroup {
                place,
                rows: vec![(keys, what)],
            }),
        }
    }
    groups
}

fn told(info: &CommandInfo) -> String {
    format!("{}: {}", info.name.trim_end_matches('…'), info.explain)
}

/// The sheet as plain text, to be printed or pinned up.
pub fn keys_text() -> String {
    let mut text = String::from("Keys\n");
    for group in key_groups("") {
        text.push('\n');
        text.push_str(group.place);
        text.push('\n');
        for (keys, what) in group.rows {
            text.push_str(&format_row(&keys, &what));
        }
    }
    text
}

fn format_row(keys: &str, what: &str) -> String {
    format!("  {keys:<22} {what}\n")
}
