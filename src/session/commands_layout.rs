//! Commands for settings, sizes and panels, and what closes a menu.

use super::command::Command;
use super::command_info::{CommandInfo, info};
use super::shortcut::{ctrl, plain};

/// Their rows of the table, in menu order.
pub(super) const LAYOUT: &[CommandInfo] = &[
    info(
        Command::LeftPanel,
        "Show",
        "Left panel",
        Some(plain("F7")),
        "Hide what stands at the left of this page, or show it again",
    ),
    info(
        Command::RightPanel,
        "Show",
        "Right panel",
        Some(plain("F8")),
        "Hide what stands at the right of this page, or show it again",
    ),
    info(
        Command::BottomPanel,
        "Show",
        "Bottom panel",
        Some(plain("F9")),
        "Hide what stands below the map, or show it again",
    ),
    info(
        Command::UsualLayout,
        "Show",
        "Usual layout",
        None,
        "Put panels, tabs, columns and charts back to how they were at the first start",
    ),
    info(
        Command::Larger,
        "Show",
        "Larger",
        Some(ctrl("Plus")),
        "Show everything larger, up to 200 %",
    ),
    info(
        Command::Smaller,
        "Show",
        "Smaller",
        Some(ctrl("Minus")),
        "Show everything smaller, down to 100 %",
    ),
    info(
        Command::UsualSize,
        "Show",
        "Usual size",
        Some(ctrl("0")),
        "Show everything at 100 %",
    ),
    info(
        Command::Find,
        "Edit",
        "Find on this page",
        Some(ctrl("F")),
        "Take the cursor to the search of this page; where it has none, to the list of all commands",
    ),
    info(
        Command::Settings,
        "Edit",
        "Settings…",
        Some(ctrl("Comma")),
        "Looks, and what new documents and drinks begin with",
    ),
    info(
        Command::Licences,
        "Help",
        "Licences…",
        None,
        "The licences of the program and of everything built into it",
    ),
];
