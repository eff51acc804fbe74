//! What panels ask for.

use super::guide::GuideAsk;
use super::places::Place;
use super::rules_view::RulesIntent;
use crate::model::{IngredientId, LotId, PreparationId, SpecId, TrialId};
use crate::service::Field;
use crate::session::{Command, Edit, ReportAsk, SaveWhere, Start, SwapAsk};
use crate::store::Settings;
use std::path::PathBuf;

/// What the larder is opened for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum PickFor {
    /// A new pour.
    NewPour,
    /// Another ingredient for this pour.
    Swap(usize),
    /// What goes into a preparation: at this place of its inputs, or as a new one.
    Input(PreparationId, Option<usize>),
}

/// Something asked for of the table in the open dialog.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TableIntent {
    /// Read the table whose path was given.
    Read,
    /// Write the table, in place of another when `replace` is set.
    Write {
        /// A file of that name may be replaced.
        replace: bool,
    },
}

/// Something asked for that is neither an edit nor a command.
#[derive(Clone, Debug)]
#[expect(private_interfaces, reason = "only panels of this folder make these")]
pub enum Intent {
    /// Show a trial.
    ShowTrial(TrialId),
    /// Show a drink.
    ShowSpec(SpecId),
    /// Copy a picture beside the document and name it in a trial.
    AttachPhoto(TrialId, PathBuf),
    /// Take the picture at that place out of a trial.
    DetachPhoto(TrialId, usize),
    /// Show where something of an entry is written.
    LeadTo(Field),
    /// Show a preparation on its page.
    ShowPreparation(PreparationId),
    /// Open the larder.
    Pick(PickFor),
    /// Start a drink.
    StartWith(Box<Start>),
    /// Open a file, after asking about unsaved work.
    OpenPath(PathBuf),
    /// Open the version before a file that cannot be read.
    OpenBefore(PathBuf),
    /// Stop waiting for a save or for a document that is read.
    GiveUpFiles,
    /// Save.
    Save(SaveWhere),
    /// Describe the trial on screen.
    DescribeTrial,
    /// Show every notice of the trial on screen.
    ShowNotices,
    /// Ask how much ice a blended drink needs.
    AskIce,
    /// Measure a lot: this one, or a new one of the ingredient.
    MeasureLot {
        /// The ingredient.
        of: IngredientId,
        /// The lot, if it is kept already.
        lot: Option<LotId>,
    },
    /// Show where the figures of the pour at this place come from.
    AskSources(usize),
    /// Weigh drinks before and after ice.
    Weigh,
    /// Show the report of how sure the trial is.
    AskReport,
    /// Draw a report.
    Report(ReportAsk),
    /// Stop drawing.
    CancelReport,
    /// Stop working out the trade-off.
    StopTradeOff,
    /// Work the trade-off out after all.
    ResumeTradeOff,
    /// Open the swap of the pour at this place.
    OpenSwap(usize),
    /// Look for swaps.
    AskSwap(Box<SwapAsk>),
    /// Stop looking for swaps.
    CancelSwap,
    /// Look for ingredients that bring a trial nearer to its target.
    AskAdditions(TrialId),
    /// Stop looking for ingredients.
    CancelAdditions,
    /// Write a draft of the larder into the document.
    KeepIngredient {
        /// The row.
        id: IngredientId,
        /// Even over what changed in the document meanwhile.
        over: bool,
    },
    /// Throw a draft of the larder away.
    DiscardDraft(IngredientId),
    /// Show a part of a page.
    GoTo(Place),
    /// Go to where so many steps are in the past.
    GoToStep(usize),
    /// Go on with the guided start, or end it.
    Guide(GuideAsk),
    /// Close what is open above the panels.
    CloseDialog,
    /// Go on with what was asked, leaving unsaved changes behind.
    LeaveUnsaved,
    /// Save, then go on with what was asked.
    SaveAndLeave,
    /// Restore the unsaved work at this place of the list.
    Restore(usize),
    /// Throw the unsaved work at this place of the list away.
    Discard(usize),
    /// Read or write a table of ingredients.
    Table(TableIntent),
    /// Read or write a set of rules.
    Rules(RulesIntent),
    /// Take other settings.
    Settle(Box<Settings>),
}

/// What was asked for during one frame.
#[derive(Debug, Default)]
pub struct Outbox {
    pub(super) edits: Vec<Edit>,
    pub(super) commands: Vec<Command>,
    pub(super) intents: Vec<Intent>,
}

impl Outbox {
    /// Asks for an undoable change.
    pub fn edit(&mut self, edit: Edit) {
        self.edits.push(edit);
    }

    /// Asks for a command.
    pub fn command(&mut self, command: Command) {
        self.commands.push(command);
    }

    /// Asks for anything else.
    pub fn intent(&mut self, intent: Intent) {
        self.intents.push(intent);
    }

    /// True when nothing was asked.
    pub fn is_empty(&self) -> bool {
        self.edits.is_empty() && self.commands.is_empty() && self.intents.is_empty()
    }
}
