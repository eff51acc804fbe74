//! The one table of commands: menus, palette, shortcuts, help and README read it.

use super::command::Command;
use super::command_info::{CommandInfo, info};
use super::commands_layout::LAYOUT;
use super::shortcut::{ctrl, ctrl_shift, plain};

/// Every command, in menu order.
pub const COMMANDS: &[CommandInfo] = &joined();

/// Both tables, one after the other.
const fn joined() -> [CommandInfo; WORK.len() + LAYOUT.len()] {
    let mut all = [WORK[0]; WORK.len() + LAYOUT.len()];
    let mut place = 1;
    while place < all.len() {
        all[place] = if place < WORK.len() {
            WORK[place]
        } else {
            LAYOUT[place - WORK.len()]
        };
        place += 1;
    }
    all
}

/// Commands for the work itself.
const WORK: &[CommandInfo] = &[
    info(
        Command::Start,
        "Drink",
        "Start a drink…",
        Some(ctrl("N")),
        "Start from a classic, from a family's ratio or from nothing",
    ),
    info(
        Command::NewTrial,
        "Drink",
        "New trial",
        Some(ctrl("T")),
        "Grow a new trial from the one on screen",
    ),
    info(
        Command::PreviousTrial,
        "Drink",
        "Previous trial",
        Some(plain("PageUp")),
        "Show the trial made before this one",
    ),
    info(
        Command::NextTrial,
        "Drink",
        "Next trial",
        Some(plain("PageDown")),
        "Show the trial made after this one",
    ),
    info(
        Command::FlickTrial,
        "Drink",
        "Flick between two trials",
        Some(plain("F6")),
        "Show the other one of the two trials that stand side by side, here and on the Balance page",
    ),
    info(
        Command::AddPour,
        "Drink",
        "Add a pour…",
        Some(ctrl("L")),
        "Choose an ingredient of the larder and pour it",
    ),
    info(
        Command::Swap,
        "Drink",
        "Swap…",
        Some(ctrl("R")),
        "Replace ingredients and get the balance back: what fits, how near, what it gives up",
    ),
    info(
        Command::Substitutions,
        "Drink",
        "Substitution table…",
        None,
        "The best substitutes for every pour, for the recipe",
    ),
    info(
        Command::BringToSpec,
        "Drink",
        "Bring to spec…",
        Some(ctrl("B")),
        "Two readings of today's juice say what to weigh in, so that the recipe stands",
    ),
    info(
        Command::ApplyFirst,
        "Drink",
        "Apply the first proposal",
        Some(ctrl("Enter")),
        "Take the amounts of the proposal at the top of the list",
    ),
    info(
        Command::KeepFirst,
        "Drink",
        "Keep the first proposal as a new trial",
        Some(ctrl_shift("Enter")),
        "Grow a new trial with the proposed amounts and its reason written in",
    ),
    info(
        Command::NextProposal,
        "Drink",
        "Next proposal",
        Some(plain("F3")),
        "Preview the next proposal on all charts; Tab goes on to its ticks and buttons",
    ),
    info(
        Command::AimAt,
        "Drink",
        "Aim at…",
        Some(ctrl_shift("G")),
        "Aim between several classics and trials, at a family's ratio or into a published range",
    ),
    info(
        Command::TargetHere,
        "Drink",
        "Aim here",
        Some(ctrl("G")),
        "Make the balance on screen the target",
    ),
    info(
        Command::RemoveDrink,
        "Drink",
        "Remove this drink",
        None,
        "Take the drink with all its trials out of the document; undo brings it back",
    ),
    info(
        Command::Assumptions,
        "Edit",
        "Document and assumptions…",
        None,
        "Title, size of ounce, spoons and dash, and when a difference is noticed",
    ),
    info(
        Command::NewDocument,
        "File",
        "New document",
        Some(ctrl_shift("N")),
        "Close this document and begin an empty one",
    ),
    info(
        Command::Open,
        "File",
        "Open…",
        Some(ctrl("O")),
        "Open a document by file dialog or by typing its path",
    ),
    info(
        Command::OpenDemo,
        "File",
        "Open the demo as a copy",
        None,
        "Open a fresh copy of the demo document; nothing of yours is touched",
    ),
    info(
        Command::Save,
        "File",
        "Save",
        Some(ctrl("S")),
        "Save the document; the previous version stays beside it as .bak",
    ),
    info(
        Command::SaveAs,
        "File",
        "Save as…",
        Some(ctrl_shift("S")),
        "Save under another name",
    ),
    info(
        Command::ImportLarder,
        "File",
        "Import ingredients…",
        None,
        "Take ingredients from a table of a spreadsheet, all of them or none; undo takes them out",
    ),
    info(
        Command::ExportLarder,
        "File",
        "Export ingredients…",
        None,
        "Write the document's ingredients as a table for a spreadsheet",
    ),
    info(
        Command::ImportRecipe,
        "File",
        "Import a recipe…",
        None,
        "Begin a drink from a schema.org recipe; ingredients that are not certain stay open",
    ),
    info(
        Command::SaveSheet,
        "File",
        "Save the sheet…",
        Some(ctrl("E")),
        "Write the sheet of the drink on screen: PDF, pictures, Markdown, text, schema.org, chart",
    ),
    info(
        Command::RepeatExport,
        "File",
        "Save the sheet again",
        Some(ctrl_shift("E")),
        "Write the last sheet once more, to the same place in the same way",
    ),
    info(
        Command::Quit,
        "File",
        "Quit",
        Some(ctrl("Q")),
        "End the program; unsaved work is asked about",
    ),
    info(
        Command::Undo,
        "Edit",
        "Undo",
        Some(ctrl("Z")),
        "Take the last step back",
    ),
    info(
        Command::Redo,
        "Edit",
        "Redo",
        Some(ctrl_shift("Z")),
        "Do the undone step again",
    ),
    info(
        Command::History,
        "Edit",
        "History…",
        Some(ctrl("H")),
        "Every step that can be undone or redone, by name; choose where to go",
    ),
    info(
        Command::BalanceView,
        "Show",
        "Balance",
        Some(ctrl("1")),
        "Show the drink on screen: pours, balance map and proposals",
    ),
    info(
        Command::HouseView,
        "Show",
        "House-made",
        Some(ctrl("2")),
        "Show preparations as flows: inputs, steps, outputs, card, time and cost",
    ),
    info(
        Command::TrialsView,
        "Show",
        "Trials",
        Some(ctrl("3")),
        "Show the tree of trials, compare them side by side, and taste them",
    ),
    info(
        Command::SubmissionView,
        "Show",
        "Submission",
        Some(ctrl("4")),
        "Show the rule check, the sheet as it prints, batch, shopping list, plan and stage",
    ),
    info(
        Command::LarderView,
        "Show",
        "Larder",
        Some(ctrl("5")),
        "Show every ingredient with its figures, to search, sort and edit",
    ),
    info(
        Command::WholeField,
        "Show",
        "Whole field",
        Some(plain("F")),
        "Frame the map on the drink and its family, or on all classics",
    ),
    info(
        Command::NextAxes,
        "Show",
        "Other axes",
        Some(plain("A")),
        "Change what the map shows across and up",
    ),
    info(
        Command::Scale,
        "Show",
        "Noticeable differences",
        Some(plain("D")),
        "Read the map in units or in noticeable differences from the target",
    ),
    info(
        Command::References,
        "Show",
        "Classics",
        Some(plain("C")),
        "Show or hide the classics on the map",
    ),
    info(
        Command::Trail,
        "Show",
        "Trail of trials",
        Some(plain("T")),
        "Show or hide where earlier trials lie",
    ),
    info(
        Command::Starred,
        "Show",
        "Starred trials",
        Some(plain("S")),
        "Show or hide starred trials as named references on the map",
    ),
    info(
        Command::Regions,
        "Show",
        "Published ranges",
        Some(plain("R")),
        "Show or hide the ranges published per technique; they are recalled from memory",
    ),
    info(
        Command::Spread,
        "Show",
        "How far it may be off",
        Some(plain("E")),
        "Show or hide the ellipse and the band in which 19 of 20 such drinks would lie",
    ),
    info(
        Command::Tables,
        "Show",
        "Charts as tables",
        Some(ctrl("D")),
        "Show every chart as a table that a screen reader can read",
    ),
    info(
        Command::Theme,
        "Show",
        "Light or dark",
        Some(ctrl_shift("L")),
        "Change between light, dark and the desktop's choice",
    ),
    info(
        Command::NextUnit,
        "Show",
        "Write all amounts in another unit",
        Some(ctrl("U")),
        "Write every jiggered pour of the document in ml, cl, oz or fl oz, in turn; how much is poured stays, sheets and rules follow",
    ),
    info(
        Command::NextPanel,
        "Show",
        "Next panel",
        Some(ctrl("F6")),
        "Take the focus to the first control of the next panel",
    ),
    info(
        Command::PreviousPanel,
        "Show",
        "Panel before",
        Some(ctrl_shift("F6")),
        "Take the focus to the first control of the panel before",
    ),
    info(
        Command::Palette,
        "Help",
        "All commands…",
        Some(ctrl("P")),
        "Find a command by typing a few letters",
    ),
    info(
        Command::Help,
        "Help",
        "Keys…",
        Some(plain("F1")),
        "What the keys do",
    ),
    info(
        Command::AboutView,
        "Help",
        "About this view",
        Some(plain("F2")),
        "What this page shows, by which model, how far to trust it, and what it leaves out",
    ),
    info(
        Command::Guide,
        "Help",
        "Guided start",
        None,
        "Two minutes through the main job, on the document that is open",
    ),
    info(
        Command::Messages,
        "Help",
        "Messages of this run…",
        None,
        "Everything that was said since the program began, dismissed messages too",
    ),
];
