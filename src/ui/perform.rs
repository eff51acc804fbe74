//! Does what was asked: edits first, then commands, then everything else.

use super::aim_dialog::AimDialog;
use super::bring_dialog::BringDialog;
use super::document_dialog::DocumentDialog;
use super::finding;
use super::guide::Guide;
use super::ice_dialog::IceDialog;
use super::intent::{Intent, Outbox, PickFor};
use super::larder_picker::LarderPicker;
use super::leaving::After;
use super::lot_dialog::LotDialog;
use super::page::Page;
use super::palette::PaletteDialog;
use super::panel_jump;
use super::panels::{Panels, Side};
use super::report_dialog::ReportDialog;
use super::sources_dialog::SourcesDialog;
use super::start_dialog::StartDialog;
use super::trial_dialog::TrialDialog;
use super::view::Dialog;
use super::weighing_dialog::WeighingDialog;
use super::window::Window;
use crate::chart::{Frame, opening_axes};
use crate::model::{Axis, Spec, Trial};
use crate::session::{Command, Edit, ReportAsk, SaveWhere, Start, in_unit};
use crate::store::save_settings;
use crate::units::Unit;
use eframe::egui::Context;
use std::sync::Arc;

impl Window {
    pub(super) fn perform(&mut self, ctx: &Context, outbox: Outbox) {
        if !outbox.is_empty() {
            self.around.passing = None;
        }
        for edit in outbox.edits {
            if let Err(error) = self.session.edit(&edit) {
                self.say(format!("{}: {error}.", edit.label()));
            }
        }
        self.catch_up(ctx);
        for command in outbox.commands {
            self.command(ctx, command);
        }
        for intent in outbox.intents {
            self.intent(ctx, intent);
        }
    }

    fn command(&mut self, ctx: &Context, command: Command) {
        // The palette goes before what it opens.
        if matches!(self.view.dialog, Some(Dialog::Palette(_))) {
            self.view.dialog = None;
        }
        if let Some(page) = Page::of(command) {
            self.view.page = page;
            return;
        }
        match command {
            Command::Start => self.view.dialog = Some(Dialog::Start(StartDialog::default())),
            Command::NewDocument => self.leave_to(ctx, After::New),
            Command::OpenDemo => self.leave_to(ctx, After::Demo),
            Command::Quit => self.leave_to(ctx, After::Quit),
            Command::Open => self.ask_path(false),
            Command::SaveAs => self.ask_path(true),
            Command::Save => self.save(ctx, &SaveWhere::Same),
            Command::Undo | Command::Redo => self.take_step(command),
            Command::AddPour if self.session.trial().is_some() => self.pick(PickFor::NewPour),
            Command::PreviousTrial => self.step_trial(false),
            Command::NextTrial => self.step_trial(true),
            Command::FlickTrial => self.flick(),
            Command::Swap => self.open_swap(None),
            Command::Substitutions => self.open_substitutions(),
            Command::BringToSpec => {
                self.view.dialog = Some(Dialog::Bring(BringDialog::of(&self.session)));
            }
            Command::AimAt => {
                self.view.dialog = AimDialog::of(&mut self.session).map(Dialog::Aim);
            }
            Command::Palette
            | Command::Help
            | Command::History
            | Command::Messages
            | Command::Licences => self.view.dialog = listed(command),
            Command::Find => self.find(ctx),
            Command::AboutView => self.view.help = Some(self.view.page.help()),
            Command::Guide => self.view.guide = Some(Guide::default()),
            Command::ImportLarder | Command::ExportLarder => self.table_command(command),
            Command::SaveSheet => self.open_sheet(),
            Command::RepeatExport => self.export_again(ctx),
            Command::ImportRecipe => {
                self.view.dialog = Some(Dialog::Recipe(Box::default()));
            }
            Command::Assumptions => {
                let dialog = DocumentDialog::of(self.session.document());
                self.view.dialog = Some(Dialog::Document(dialog));
            }
            Command::NewTrial
            | Command::ApplyFirst
            | Command::KeepFirst
            | Command::NextProposal
            | Command::RemoveDrink
            | Command::TargetHere => self.trial_command(command),
            _ => self.show_command(ctx, command),
        }
    }

    fn show_command(&mut self, ctx: &Context, command: Command) {
        let view = &mut self.view;
        match command {
            Command::WholeField => {
                view.frame = match view.frame {
                    Frame::Family => Frame::WholeField,
                    Frame::WholeField => Frame::Family,
                };
                view.reframe += 1;
            }
            Command::Scale => view.in_steps = !view.in_steps,
            Command::References => view.show_references = !view.show_references,
            Command::Trail => view.show_trail = !view.show_trail,
            Command::Starred => view.show_starred = !view.show_starred,
            Command::Regions => view.show_regions = !view.show_regions,
            Command::Spread => view.show_spread = !view.show_spread,
            Command::Tables => view.tables = !view.tables,
            Command::NextPanel => panel_jump::step(ctx, true),
            Command::PreviousPanel => panel_jump::step(ctx, false),
            Command::NextAxes => self.next_axes(),
            Command::NextUnit => self.next_unit(),
            Command::Settings => view.dialog = Some(Dialog::Settings),
            Command::LeftPanel | Command::RightPanel | Command::BottomPanel => {
                self.hide_or_show(ctx, command);
            }
            Command::UsualLayout => self.usual_layout(ctx),
            Command::Theme | Command::Larger | Command::Smaller | Command::UsualSize => {
                self.look_command(ctx, command);
            }
            _ => {}
        }
    }

    /// Takes the focus to the search of the page; without one, all commands are looked through.
    fn find(&mut self, ctx: &Context) {
        match self.view.page {
            Page::Balance | Page::Larder => finding::ask(ctx),
            Page::Trials
                if self.view.trials.has_search()
                    && Panels::of(ctx).shows(Page::Trials, Side::Left) =>
            {
                finding::ask(ctx);
            }
            Page::Trials | Page::House | Page::Submission => {
                self.view.dialog = listed(Command::Palette);
            }
        }
    }

    fn next_axes(&mut self) {
        const PAIRS: [(Axis, Axis); 4] = [
            (Axis::Sour, Axis::Sweet),
            (Axis::Strength, Axis::Sweet),
            (Axis::Strength, Axis::Sour),
            (Axis::Bitter, Axis::Sweet),
        ];
        let point = self
            .session
            .derived()
            .and_then(|derived| derived.figures.as_ref().ok())
            .map(|figures| figures.point);
        let target = self.session.spec().and_then(|spec| spec.target.as_ref());
        let now = self
            .view
            .axes
            .unwrap_or_else(|| opening_axes(point.as_ref(), target));
        let place = PAIRS
            .iter()
            .position(|pair| *pair == now)
            .map_or(0, |place| place + 1);
        self.view.axes = Some(PAIRS[place % PAIRS.len()]);
    }

    /// The unit in use.
    fn unit(&self) -> Unit {
        self.view.unit_of(self.session.trial().map(Arc::as_ref))
    }

    /// Writes every jiggered pour of the document in the next unit; new drinks begin in it, too.
    fn next_unit(&mut self) {
        let now = self.unit();
        let place = Unit::JIGGERED
            .iter()
            .position(|unit| *unit == now)
            .map_or(0, |place| place + 1);
        let unit = Unit::JIGGERED[place % Unit::JIGGERED.len()];
        self.view.unit = unit;
        self.around.settings.unit = unit;
        self.remember();
        if self.session.document().specs.is_empty() {
            return;
        }
        let edit = Edit::SetUnit { unit };
        if let Err(error) = self.session.edit(&edit) {
            self.say(format!("The unit stays: {error}."));
        }
    }

    fn intent(&mut self, ctx: &Context, intent: Intent) {
        match intent {
            Intent::ShowTrial(id) => self.session.select_trial(id),
            Intent::ShowSpec(id) => self.session.select_spec(id),
            Intent::AttachPhoto(trial, path) => {
                if let Err(error) = self.session.attach_photo(trial, &path, "") {
                    self.say(format!("{}: {error}.", path.display()));
                }
            }
            Intent::DetachPhoto(trial, place) => {
                if let Err(error) = self.session.detach_photo(trial, place) {
                    self.say(format!("The picture stays: {error}."));
                }
            }
            Intent::LeadTo(field) => self.lead_to(field),
            Intent::ShowPreparation(id) => {
                self.view.page = Page::House;
                self.view.house.choose(id);
            }
            Intent::Pick(purpose) => self.pick(purpose),
            Intent::StartWith(start) => self.start_with(*start),
            Intent::OpenPath(path) => self.leave_to(ctx, After::Open(path)),
            Intent::OpenBefore(path) => self.leave_to(ctx, After::Before(path)),
            Intent::GiveUpFiles => self.give_up_files(),
            Intent::Save(to) => self.save(ctx, &to),
            Intent::DescribeTrial => self.describe_trial(),
            Intent::ShowNotices => self.view.dialog = Some(Dialog::Notices),
            Intent::AskIce => self.view.dialog = Some(Dialog::Ice(IceDialog::of(&self.session))),
            Intent::AskSources(pour) => {
                let sources = SourcesDialog::of(&self.session, pour);
                self.view.dialog = sources.map(|found| Dialog::Sources(Box::new(found)));
            }
            Intent::Weigh => {
                let dialog = WeighingDialog::of(&self.session);
                self.view.dialog = Some(Dialog::Weighing(dialog));
            }
            Intent::MeasureLot { of, lot } => {
                let dialog = LotDialog::of(self.session.document(), of, lot);
                self.view.dialog = dialog.map(|lot| Dialog::Lot(Box::new(lot)));
            }
            Intent::AskReport => self.view.dialog = Some(Dialog::Report(ReportDialog::default())),
            Intent::Report(ask) => self.draw_report(ctx, ask),
            Intent::CancelReport => self.session.cancel_report(),
            Intent::StopTradeOff => self.session.stop_trade_off(),
            Intent::ResumeTradeOff => self.session.resume_trade_off(),
            Intent::OpenSwap(pour) => self.open_swap(Some(pour)),
            Intent::AskSwap(ask) => self.ask_swap(ctx, *ask),
            Intent::CancelSwap => self.session.cancel_swap(),
            Intent::AskAdditions(trial) => self.ask_additions(ctx, trial),
            Intent::CancelAdditions => self.session.cancel_additions(),
            Intent::KeepIngredient { id, over } => {
                self.view.larder.keep(&mut self.session, &id, over);
            }
            Intent::DiscardDraft(id) => {
                self.view.larder.drafts.remove(&id);
                self.view.larder.generation += 1;
            }
            Intent::GoTo(place) => place.go(&mut self.view),
            Intent::GoToStep(count) => self.session.go_to_step(count),
            Intent::Guide(ask) => self.guide(ask),
            Intent::CloseDialog => {
                self.around.after = None;
                self.view.dialog = None;
            }
            Intent::LeaveUnsaved => self.go_on(ctx),
            Intent::SaveAndLeave => self.save(ctx, &SaveWhere::Same),
            Intent::Table(what) => self.table(ctx, what),
            Intent::Rules(what) => self.view.rules.file(&mut self.session, what),
            Intent::Settle(settings) => self.take_settings(ctx, *settings),
            Intent::Restore(index) => self.restore_kept(index),
            Intent::Discard(index) => self.discard_kept(index),
        }
    }

    /// Takes a step back or does it again; where that is not in sight it is said.
    fn take_step(&mut self, command: Command) {
        let seen = self.in_sight();
        let history = self.session.history();
        let (verb, label) = match command {
            Command::Undo => ("Undone", history.undo_label()),
            _ => ("Done again", history.redo_label()),
        };
        let said = label.map(|label| format!("{verb}: {label}."));
        match command {
            Command::Undo => self.session.undo(),
            _ => self.session.redo(),
        }
        let is_unseen = self.view.page == Page::Balance && seen == self.in_sight();
        if let Some(said) = said.filter(|_| is_unseen) {
            self.say_in_passing(&said);
        }
    }

    /// The trial on screen, and its drink without the others.
    fn in_sight(&self) -> (Option<Arc<Trial>>, Option<Spec>) {
        let spec = self.session.spec().map(|spec| Spec {
            trials: Vec::new(),
            ..spec.clone()
        });
        (self.session.trial().cloned(), spec)
    }

    fn pick(&mut self, purpose: PickFor) {
        let picker = LarderPicker::new(purpose, self.unit());
        self.view.dialog = Some(Dialog::Larder(picker));
    }

    fn start_with(&mut self, start: Start) {
        let (mut spec, ingredients) = in_unit(start, self.unit());
        let country = &self.around.settings.beginning.country;
        if spec.service.country != *country {
            Arc::make_mut(&mut spec.service).country.clone_from(country);
        }
        let edit = Edit::AddSpec {
            spec: Box::new(spec),
            ingredients,
        };
        if let Err(error) = self.session.edit(&edit) {
            self.say(format!("{error}."));
        }
    }

    fn describe_trial(&mut self) {
        let shown = self.session.spec().zip(self.session.trial());
        let dialog = shown.map(|(spec, trial)| TrialDialog::of(spec, trial));
        self.view.dialog = dialog.map(Dialog::Trial);
    }

    fn draw_report(&mut self, ctx: &Context, ask: ReportAsk) {
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        if let Err(error) = self.session.ask_report(ask, wake) {
            self.say(format!("No report: {error}."));
        }
    }

    /// Opens a copy that was kept when the program broke off.
    fn restore_kept(&mut self, index: usize) {
        if index < self.around.recovered.len() {
            let one = self.around.recovered.remove(index);
            self.session.restore(&one);
            self.another_on_screen();
            self.around.restored.push(one);
        }
        self.view.dialog = None;
    }

    /// Removes a copy that was kept when the program broke off.
    fn discard_kept(&mut self, index: usize) {
        if index < self.around.recovered.len() {
            let one = self.around.recovered.remove(index);
            self.discard(&one);
        }
        if self.around.recovered.is_empty() {
            self.view.dialog = None;
        }
    }

    pub(super) fn discard(&mut self, one: &crate::store::Recovered) {
        if let Err(error) = one.discard() {
            self.say(format!("The kept copy could not be removed: {error}."));
        }
    }

    /// Keeps the settings.
    pub(super) fn remember(&mut self) {
        let Some(folders) = &self.around.folders else {
            return;
        };
        if let Err(error) = save_settings(&self.around.settings, &folders.settings_file()) {
            self.say(format!("Settings could not be kept: {error}."));
        }
    }
}

/// The dialogs that list something.
fn listed(command: Command) -> Option<Dialog> {
    match command {
        Command::Palette => Some(Dialog::Palette(PaletteDialog::default())),
        Command::Help => Some(Dialog::Help(String::new())),
        Command::History => Some(Dialog::History),
        Command::Messages => Some(Dialog::Messages),
        Command::Licences => Some(Dialog::Licences),
        _ => None,
    }
}
