//! Commands for settings, sizes and panels.

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
        Command::Settings,
        "Show",
        "Settings…",
        Some(ctrl("Comma")),
        "Looks, and what new documents and drinks begin with",
    ),
];
