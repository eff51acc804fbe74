//! Everything that can be asked for besides edits of the document.

use super::command_info::CommandInfo;
use super::commands::COMMANDS;

/// Everything that can be asked for besides edits of the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Command {
    /// Start a twist from a classic, a family or nothing.
    Start,
    /// A new empty document.
    NewDocument,
    /// Open a document.
    Open,
    /// Open a copy of the demo.
    OpenDemo,
    /// Save.
    Save,
    /// Save under another name.
    SaveAs,
    /// Take ingredients from a table.
    ImportLarder,
    /// Write the ingredients as a table.
    ExportLarder,
    /// Take a recipe from a file.
    ImportRecipe,
    /// Write the sheet on screen to a file.
    SaveSheet,
    /// Write the sheet once more as it was written last.
    RepeatExport,
    /// Take the last step back.
    Undo,
    /// Do it again.
    Redo,
    /// Show every step that can be undone or redone.
    History,
    /// Take the focus to the search on screen.
    Find,
    /// Grow a new trial from the one on screen.
    NewTrial,
    /// Show the trial before.
    PreviousTrial,
    /// Show the trial after.
    NextTrial,
    /// Add a pour from the larder.
    AddPour,
    /// Replace ingredients and give the balance back.
    Swap,
    /// Substitutes for every pour.
    Substitutions,
    /// Bring today's batch of a juice to the approved one.
    BringToSpec,
    /// Apply the first proposal.
    ApplyFirst,
    /// Keep the first proposal as a new trial.
    KeepFirst,
    /// Preview the next proposal.
    NextProposal,
    /// Take the drink on screen out of the document.
    RemoveDrink,
    /// Title, measures and noticeable differences.
    Assumptions,
    /// Choose what to aim at.
    AimAt,
    /// Set the target to the point on screen.
    TargetHere,
    /// Frame the map on the drink or on the whole field.
    WholeField,
    /// Other axes on the map.
    NextAxes,
    /// Grams per litre or noticeable differences.
    Scale,
    /// Show or hide references.
    References,
    /// Show or hide the trail of trials.
    Trail,
    /// Show or hide starred trials.
    Starred,
    /// Show or hide published ranges.
    Regions,
    /// Show or hide how far figures may be off.
    Spread,
    /// Show charts as tables.
    Tables,
    /// Light, dark or as the desktop says.
    Theme,
    /// Looks, and what new documents begin with.
    Settings,
    /// Everything larger.
    Larger,
    /// Everything smaller.
    Smaller,
    /// Everything in its usual size.
    UsualSize,
    /// Show or hide what stands at the left of the page.
    LeftPanel,
    /// Show or hide what stands at the right of the page.
    RightPanel,
    /// Show or hide what stands below the map.
    BottomPanel,
    /// Panels and charts as at the first start.
    UsualLayout,
    /// Another unit for all amounts of the document.
    NextUnit,
    /// Show the drink on screen: pours, map, proposals.
    BalanceView,
    /// Show what is made in the house.
    HouseView,
    /// Show the page of trials and tastings.
    TrialsView,
    /// Show rules, sheet, batch and plan.
    SubmissionView,
    /// Show the other one of two trials.
    FlickTrial,
    /// Show the larder.
    LarderView,
    /// Take the focus to the next panel.
    NextPanel,
    /// Take the focus to the panel before.
    PreviousPanel,
    /// All commands by name.
    Palette,
    /// Keys and what they do.
    Help,
    /// What the page on screen shows and how far to trust it.
    AboutView,
    /// Begin the guided start.
    Guide,
    /// Everything that was said in this run.
    Messages,
    /// Read the licences.
    Licences,
    /// End the program.
    Quit,
}

impl Command {
    /// Its row in the table; the first row stands in for one that is missing, which a test refuses.
    pub fn info(self) -> &'static CommandInfo {
        COMMANDS
            .iter()
            .find(|info| info.command == self)
            .unwrap_or(&COMMANDS[0])
    }
}
