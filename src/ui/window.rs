//! The window: one frame is apply, refresh, show.

use super::dialogs::FileBrowser;
use super::export_again::Repeating;
use super::filing::UnderWay;
use super::intent::Outbox;
use super::message_log::MessageLog;
use super::page::Page;
use super::panels::{self, Side};
use super::rest_first::rest_first;
use super::view::{Dialog, View};
use super::{
    chart_table, focus_ring, guide, help_window, house_page, keys, larder_page, list_keys, notices,
    number_field, overlays, panel_jump, previewing, submission_page, top_bar, trials_page,
    word_field,
};
use crate::session::Session;
use crate::store::{Folders, Recovered, Settings, WindowLayout};
use eframe::egui::{Context, Panel, Rect, Ui, ViewportCommand};
use std::time::Duration;

/// How often the progress of a job is shown anew.
pub(super) const PROGRESS: Duration = Duration::from_millis(60);

/// What surrounds the document: settings, folders, questions that wait for an answer.
#[derive(Debug, Default)]
pub(super) struct Around {
    pub(super) settings: Settings,
    pub(super) folders: Option<Folders>,
    pub(super) recovered: Vec<Recovered>,
    /// Restored work, whose kept copy stays until the document is saved or left.
    pub(super) restored: Vec<Recovered>,
    pub(super) browser: FileBrowser,
    /// What to do once unsaved changes are dealt with.
    pub(super) after: Option<super::leaving::After>,
    /// Messages that stay until dismissed.
    pub(super) messages: Vec<String>,
    /// A word about the last action; gone with the next.
    pub(super) passing: Option<String>,
    /// What is on its way to a file or from one.
    pub(super) under_way: UnderWay,
    /// Why the last opening or saving failed; gone with the next that works.
    pub(super) file_trouble: Option<String>,
    /// Everything said in this run.
    pub(super) log: MessageLog,
    /// The program may end now.
    pub(super) leaving: bool,
    /// How the window was left, as it is kept.
    pub(super) layout: WindowLayout,
    /// When that was kept last, s.
    pub(super) layout_kept_at: f64,
    /// The window's place was looked at.
    pub(super) placed: bool,
    /// A sheet that is being written once more.
    pub(super) repeating: Option<Repeating>,
}

/// The window's state.
#[derive(Debug)]
pub struct Window {
    pub(super) session: Session,
    pub(super) view: View,
    pub(super) around: Around,
    outbox: Outbox,
    dressed: bool,
    titled: String,
}

impl Window {
    /// A window on a session.
    pub fn new(session: Session, settings: Settings, folders: Option<Folders>) -> Self {
        let view = View {
            unit: settings.unit,
            ..View::default()
        };
        Self {
            session,
            view,
            around: Around {
                settings,
                folders,
                ..Around::default()
            },
            outbox: Outbox::default(),
            dressed: false,
            titled: String::new(),
        }
    }

    /// The open session.
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// What the window shows and how.
    pub fn view(&self) -> &View {
        &self.view
    }

    /// Asks for an edit in the next frame, as a panel would.
    pub fn ask(&mut self, edit: crate::session::Edit) {
        self.outbox.edit(edit);
    }

    /// Says something that stays until dismissed.
    pub fn say(&mut self, message: String) {
        if !self.around.messages.contains(&message) {
            self.around.messages.push(message);
        }
    }

    /// Says something that the next action takes away.
    pub(super) fn say_in_passing(&mut self, message: &str) {
        self.around.passing = Some(message.to_owned());
    }

    /// Offers unsaved work of an earlier run.
    pub fn offer(&mut self, recovered: Vec<Recovered>) {
        if !recovered.is_empty() {
            self.around.recovered = recovered;
            self.view.dialog = Some(Dialog::Recover);
        }
    }

    /// Messages on screen.
    pub fn messages(&self) -> impl Iterator<Item = &String> {
        self.around.file_trouble.iter().chain(&self.around.messages)
    }

    fn note_messages(&mut self) {
        let around = &mut self.around;
        let shown = around.file_trouble.iter().chain(&around.messages);
        around.log.note(shown.chain(&around.passing));
    }

    /// One frame: what was asked in the last one is done, then everything is shown anew.
    pub fn frame(&mut self, ui: &mut Ui) {
        self.before(ui.ctx());
        self.show(ui);
    }

    /// Applies what was asked and brings derived values up to date.
    pub(super) fn before(&mut self, ctx: &Context) {
        if !self.dressed {
            self.dress(ctx);
            self.put_panels(ctx);
            self.dressed = true;
            self.greet();
        }
        for failure in self.session.background_failures() {
            self.say(failure);
        }
        let outbox = std::mem::take(&mut self.outbox);
        self.perform(ctx, outbox);
        self.take_files(ctx);
        self.settle(ctx);
        if let Some(trouble) = self.session.take_report() {
            self.say(trouble);
        }
        self.finish_exports();
        self.note_messages();
        self.session.take_swap();
        self.session.take_additions();
        let jobs = [
            self.session.swap_progress(),
            self.session.additions_progress(),
        ];
        let looking = jobs.iter().any(Option::is_some);
        if looking || self.session.report_progress().is_some() {
            ctx.request_repaint_after(PROGRESS);
        }
        self.catch_up(ctx);
        previewing::prepare(ctx, &mut self.session, &mut self.view);
        if self.session.is_trading_off() {
            ctx.request_repaint_after(PROGRESS);
        }
        self.watch_guide(ctx);
        self.close_request(ctx);
        self.retitle(ctx);
        self.stay_on_screen(ctx);
        self.keep_layout(ctx);
    }

    /// Brings derived values up to date; while something is dragged, those that are read meanwhile.
    pub(super) fn catch_up(&mut self, ctx: &Context) {
        if ctx.input(|input| input.pointer.any_down()) {
            self.session.follow();
        } else {
            self.session.refresh();
        }
    }

    /// Ends the gesture, or keeps its work safe while it goes on.
    fn settle(&mut self, ctx: &Context) {
        if !self.session.is_unsettled() {
            return;
        }
        let is_held = ctx.input(|input| input.pointer.any_down());
        // What is being written is one step of history, and safe all the same.
        if is_held || word_field::take_writing(ctx) {
            let now = ctx.input(|input| input.time);
            if let Some(wait) = self.session.keep_up(now) {
                ctx.request_repaint_after(wait);
            }
        } else {
            self.session.settle();
        }
    }

    /// Shows everything; what is asked goes to the outbox for the next frame.
    pub(super) fn show(&mut self, ui: &mut Ui) {
        let mut outbox = std::mem::take(&mut self.outbox);
        let ctx = ui.ctx().clone();
        focus_ring::follow(&ctx);
        panel_jump::begin(&ctx);
        chart_table::choose(&ctx, self.view.tables);
        keys::listen(&ctx, &self.view, &mut outbox);
        number_field::set_measures(ui, &self.session.document().measures);
        let subject = (self.session.selection(), &self.view.house.selected);
        number_field::set_subject(ui, (self.view.documents, subject));
        Panel::top("bar").show(ui, |ui| {
            panel_jump::panel(ui, "bar");
            top_bar::ui(ui, &self.session, &self.view, &mut outbox);
        });
        rest_first(
            ui,
            ("notices", Side::Bottom, 0.0),
            (&mut *self, &mut outbox),
            |window, ui, outbox| {
                panels::page_area(ui, window.view.page, |ui| window.page(ui, outbox));
            },
            Self::notices,
        );
        help_window::ui(&ctx, &mut self.view.help, self.view.dialog.is_some());
        guide::ui(&ctx, &self.session, &self.view, &mut outbox);
        overlays::ui(
            &ctx,
            &self.session,
            &mut self.view,
            &mut self.around,
            &mut outbox,
        );
        list_keys::follow(&ctx);
        focus_ring::paint(&ctx);
        if self.view.previewing.turn() || !outbox.is_empty() {
            ctx.request_repaint();
        }
        self.outbox = outbox;
    }

    /// What lies below everything; where it stands, if it is shown.
    fn notices(&mut self, ui: &mut Ui, outbox: &mut Outbox) -> Option<Rect> {
        // Notices are of the trial; beside the larder only messages matter.
        let trial = self.view.page == Page::Balance;
        let now = ui.input(|input| input.time);
        let said = self.messages().next().is_some() || self.around.passing.is_some();
        let waits = self.around.under_way.words(&self.session, now).is_some();
        if !trial && !said && !waits {
            return None;
        }
        let panel = Panel::bottom("notices").resizable(false).show(ui, |ui| {
            panel_jump::panel(ui, "notices");
            notices::ui(ui, &self.session, &mut self.around, trial, outbox);
        });
        Some(panel.response.rect)
    }

    fn page(&mut self, ui: &mut Ui, outbox: &mut Outbox) {
        let view = &mut self.view;
        match view.page {
            Page::Balance => self.balance(ui, outbox),
            Page::House => {
                let page = (&mut view.house, view.tables);
                house_page::ui(ui, &self.session, page, outbox);
            }
            Page::Trials => trials_page::ui(ui, &self.session, &mut view.trials, outbox),
            Page::Submission => {
                let page = (&mut view.submission, &mut view.rules);
                submission_page::ui(ui, &self.session, page, outbox);
            }
            Page::Larder => larder_page::ui(ui, &self.session, &mut view.larder, outbox),
        }
    }

    fn retitle(&mut self, ctx: &Context) {
        let mark = if self.session.is_dirty() { "● " } else { "" };
        let title = format!("{mark}{} – Equipour", self.session.document().title);
        if title != self.titled {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.titled = title;
        }
    }
}

impl eframe::App for Window {
    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        self.before(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        if !self.session.is_dirty() {
            self.let_go();
        }
        self.remember();
    }
}
