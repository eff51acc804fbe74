//! What the window shows and how; never part of a document.

use super::aim_dialog::AimDialog;
use super::bottom::BottomTab;
use super::bring_dialog::BringDialog;
use super::cards::Cards;
use super::document_dialog::DocumentDialog;
use super::export_dialog::ExportDialog;
use super::guide::Guide;
use super::house_page::HousePage;
use super::ice_dialog::IceDialog;
use super::import_dialog::ImportDialog;
use super::larder_page::LarderPage;
use super::larder_picker::LarderPicker;
use super::linking::PourLinks;
use super::lot_dialog::LotDialog;
use super::page::Page;
use super::palette::PaletteDialog;
use super::previewing::{Ghost, Previewing};
use super::recipe_dialog::RecipeDialog;
use super::report_dialog::ReportDialog;
use super::rules_view::RulesView;
use super::sheet_dialog::SheetDialog;
use super::sources_dialog::SourcesDialog;
use super::start_dialog::StartDialog;
use super::submission_page::SubmissionPage;
use super::swap_dialog::SwapDialog;
use super::trial_dialog::TrialDialog;
use super::trials_page::TrialsPage;
use super::weighing_dialog::WeighingDialog;
use crate::chart::Frame;
use crate::model::{Axis, SpecId, Trial};
use crate::session::{Selection, Session};
use crate::units::Unit;
use egui_plot::PlotBounds;
use std::path::PathBuf;

/// Something open above the panels.
#[derive(Debug)]
pub(super) enum Dialog {
    /// Starting points.
    Start(StartDialog),
    /// The larder.
    Larder(LarderPicker),
    /// Name, reason and verdict of a trial.
    Trial(TrialDialog),
    /// What to aim at.
    Aim(AimDialog),
    /// How much ice.
    Ice(IceDialog),
    /// How sure the trial is.
    Report(ReportDialog),
    /// Other ingredients with the balance given back.
    Swap(Box<SwapDialog>),
    /// Where the figures of a pour come from.
    Sources(Box<SourcesDialog>),
    /// A measured lot.
    Lot(LotDialog),
    /// Bring a batch to spec.
    Bring(BringDialog),
    /// Own dilution.
    Weighing(WeighingDialog),
    /// Title and assumptions of the document.
    Document(DocumentDialog),
    /// A path typed by hand.
    Path(PathDialog),
    /// Ingredients from a table.
    Import(Box<ImportDialog>),
    /// Ingredients to a table.
    Export(ExportDialog),
    /// A recipe from a file.
    Recipe(Box<RecipeDialog>),
    /// The sheet to a file.
    Sheet(Box<SheetDialog>),
    /// Unsaved changes, before going on.
    Unsaved,
    /// The file changed outside, or another window has it open.
    Changed {
        /// The file that was to be written.
        path: PathBuf,
        /// Another window has it open.
        elsewhere: bool,
    },
    /// Leaving waits for a save.
    Waiting,
    /// There is a document of that name already.
    Replace(PathBuf),
    /// Unsaved work of an earlier run.
    Recover,
    /// Looks and beginnings.
    Settings,
    /// All commands.
    Palette(PaletteDialog),
    /// Keys, and what is looked for among them.
    Help(String),
    /// Steps that can be undone or redone.
    History,
    /// What was said in this run.
    Messages,
    /// All notices of the trial on screen.
    Notices,
    /// Licences of the program and of what is built in.
    Licences,
}

/// A path typed by hand.
#[derive(Clone, Debug)]
pub(super) struct PathDialog {
    /// To save rather than to open.
    pub(super) saving: bool,
    /// What was typed.
    pub(super) text: String,
    /// Not shown yet: the field takes the focus.
    pub(super) fresh: bool,
    /// Documents opened lately, and whether each was there when the dialog opened.
    pub(super) recent: Vec<(PathBuf, bool)>,
}

/// What the map was framed on last.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct FrameKey {
    pub(super) spec: Option<SpecId>,
    pub(super) axes: (Axis, Axis),
    pub(super) in_steps: bool,
    pub(super) frame: Frame,
    pub(super) search: String,
    pub(super) times: u32,
}

/// View state of the window.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own on screen"
)]
#[derive(Debug)]
pub struct View {
    /// What fills the window below the bar.
    pub(super) page: Page,
    /// The preparation on screen and what is shown of it.
    pub(super) house: HousePage,
    /// The page of trials.
    pub(super) trials: TrialsPage,
    /// The page of what is handed in.
    pub(super) submission: SubmissionPage,
    /// The larder's search, choice and drafts.
    pub(super) larder: LarderPage,
    /// What is typed on the panels of rules.
    pub(super) rules: RulesView,
    /// Tab below the charts.
    pub(super) bottom: BottomTab,
    /// Axes chosen by hand.
    pub(super) axes: Option<(Axis, Axis)>,
    /// Read the map in noticeable differences.
    pub(super) in_steps: bool,
    /// What the map is framed on.
    pub(super) frame: Frame,
    /// Classics on the map.
    pub(super) show_references: bool,
    /// Earlier trials on the map.
    pub(super) show_trail: bool,
    /// Starred trials on the map.
    pub(super) show_starred: bool,
    /// Published ranges on the map.
    pub(super) show_regions: bool,
    /// How far figures may be off, on the charts.
    pub(super) show_spread: bool,
    /// Charts as tables.
    pub(super) tables: bool,
    /// Search among the classics.
    pub(super) search: String,
    /// Whether pours move together.
    pub(super) links: PourLinks,
    /// Cards of proposals.
    pub(super) cards: Cards,
    /// What the charts preview.
    pub(super) previewing: Previewing,
    /// The revision and the selection that the trade-off was chosen from, and which of its proposals.
    pub(super) traded: Option<((u64, Selection), usize)>,
    /// What the map was framed on last.
    pub(super) framed: Option<FrameKey>,
    /// What the map showed last, of which revision and trial.
    pub(super) seen: Option<(PlotBounds, (u64, Selection))>,
    /// The map was zoomed or panned by hand and stays so until it is framed anew.
    pub(super) map_by_hand: bool,
    /// Raised to frame the map anew.
    pub(super) reframe: u32,
    /// Unit of new pours and volumes where no pour says it.
    pub(super) unit: Unit,
    /// The page of help that lies beside the panels.
    pub(super) help: Option<&'static str>,
    /// The guided start, while it goes on.
    pub(super) guide: Option<Guide>,
    /// Open above the panels.
    pub(super) dialog: Option<Dialog>,
    /// It is asked whether what was written in the dialog may go.
    pub(super) throwing_away: bool,
    /// Raised with every document that comes on screen.
    pub(super) documents: u32,
}

impl Default for View {
    fn default() -> Self {
        Self {
            page: Page::default(),
            house: HousePage::default(),
            trials: TrialsPage::default(),
            submission: SubmissionPage::default(),
            larder: LarderPage::default(),
            rules: RulesView::default(),
            bottom: BottomTab::default(),
            axes: None,
            in_steps: false,
            frame: Frame::default(),
            show_references: true,
            show_trail: true,
            show_starred: true,
            show_regions: false,
            show_spread: true,
            tables: false,
            search: String::new(),
            links: PourLinks::default(),
            cards: Cards::default(),
            previewing: Previewing::default(),
            traded: None,
            framed: None,
            seen: None,
            map_by_hand: false,
            reframe: 0,
            unit: Unit::Ml,
            help: None,
            guide: None,
            dialog: None,
            throwing_away: false,
            documents: 0,
        }
    }
}

impl View {
    /// Lets go of all that was chosen or typed for the document before: ids of another one mean other
    /// things. What the panels show, and how, stays.
    pub(super) fn for_another_document(&mut self) {
        self.documents += 1;
        let (tab, share) = (self.house.tab, self.house.share);
        self.house = HousePage::default();
        (self.house.tab, self.house.share) = (tab, share);
        let tab = self.trials.tab;
        self.trials = TrialsPage::default();
        self.trials.tab = tab;
        self.larder = LarderPage::default();
        self.rules = RulesView {
            by: std::mem::take(&mut self.rules.by),
            ..RulesView::default()
        };
        self.links.begin_anew();
        self.cards = Cards::default();
        self.previewing = Previewing::default();
        (self.traded, self.framed, self.seen) = (None, None, None);
    }

    /// Whether the charts show how far the drink may be off.
    pub const fn shows_spread(&self) -> bool {
        self.show_spread
    }

    /// The unit in use: that of a trial's jiggered pours, or the one chosen last.
    pub(super) fn unit_of(&self, trial: Option<&Trial>) -> Unit {
        trial.and_then(Trial::unit).unwrap_or(self.unit)
    }

    /// Whether the trade-off is on screen.
    pub(super) fn shows_trade_off(&self) -> bool {
        self.page == Page::Balance && self.bottom == BottomTab::TradeOff
    }

    /// What the charts preview, once it is worked out.
    pub(super) fn ghost<'a>(&'a self, session: &'a Session) -> Option<Ghost<'a>> {
        self.previewing.ghost(session)
    }

    /// The name of what the charts preview.
    pub fn previewed<'a>(&'a self, session: &'a Session) -> Option<&'a str> {
        self.ghost(session).map(|ghost| ghost.name)
    }
}
