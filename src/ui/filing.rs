//! Saving and opening away from the frame: what is under way, and what came of it.

use super::intent::{Intent, Outbox};
use super::leaving::After;
use super::naming::named;
use super::view::{Dialog, PathDialog};
use super::window::{PROGRESS, Window};
use crate::model::Ingredient;
use crate::session::{OpenFailure, Opening, SaveOutcome, SaveWhere, Session};
use crate::store::{SaveError, file_name_of};
use eframe::egui::{Context, Ui};
use std::path::{Path, PathBuf};

/// What takes longer than this is said, s; a quick disk does not make the window flicker.
const LONG: f64 = 0.3;

/// What is on its way between the window and its files.
#[derive(Debug, Default)]
pub(super) struct UnderWay {
    /// A document that is being read.
    opening: Option<Opening>,
    /// Drafts of the larder when that began.
    drafts_then: Vec<Ingredient>,
    /// When this began, s.
    since: Option<f64>,
    /// What has to be asked once no other dialog is open.
    held: Option<SaveOutcome>,
    /// Where it was to be saved, if that was typed.
    typed: Option<PathBuf>,
    /// Drafts that saving leaves out were named before this save.
    warned: bool,
    /// The file that could not be read, if the version before it can.
    pub(super) damaged: Option<PathBuf>,
}

impl UnderWay {
    /// What is going on, once it takes long.
    pub(super) fn words(&self, session: &Session, now: f64) -> Option<String> {
        let is_long = self.since.is_some_and(|since| now - since >= LONG);
        let name = |path: &Path| {
            let name = path.file_name().unwrap_or(path.as_os_str());
            name.to_string_lossy().into_owned()
        };
        let saving = session
            .saving_to()
            .map(|path| format!("Saving {}…", name(path)));
        let opening = self.opening.as_ref();
        let opening = || opening.map(|opening| format!("Opening {}…", name(&opening.path)));
        saving.or_else(opening).filter(|_| is_long)
    }
}

/// One line about what is going on, and the way out of it.
pub(super) fn line(ui: &mut Ui, words: &str, outbox: &mut Outbox) {
    ui.horizontal_wrapped(|ui| {
        ui.label(words);
        let button = ui.small_button("Give up");
        let teach = "Stop waiting for the file; nothing is half written, and the work goes on being kept safe";
        if named(button, "Give up", teach).clicked() {
            outbox.intent(Intent::GiveUpFiles);
        }
    });
}

/// Leaving waits for a save that is under way.
pub(super) fn waiting(ui: &mut Ui, outbox: &mut Outbox) {
    ui.label("The document is being saved; this goes on by itself when that is done.");
    ui.horizontal(|ui| {
        if ui.button("Stay here").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
        if ui.button("Stop saving").clicked() {
            outbox.intent(Intent::GiveUpFiles);
        }
    });
}

impl Window {
    /// True while a document is being saved or opened.
    pub fn is_filing(&self) -> bool {
        self.session.is_saving() || self.around.under_way.opening.is_some()
    }

    /// Begins to save; edits go on meanwhile.
    pub(super) fn save(&mut self, ctx: &Context, to: &SaveWhere) {
        let is_leaving = self.around.after.is_some();
        let under_way = &mut self.around.under_way;
        under_way.held = None;
        under_way.warned = is_leaving;
        under_way.typed = match to {
            SaveWhere::At(path) | SaveWhere::AtAnyway(path) => Some(path.clone()),
            _ => None,
        };
        self.view.dialog = is_leaving.then_some(Dialog::Waiting);
        let waker = ctx.clone();
        if let Some(outcome) = self.session.begin_save(to, move || waker.request_repaint()) {
            self.saved(ctx, outcome);
        }
    }

    /// Begins to read a document; the one on screen stays in use.
    pub(super) fn begin_open(&mut self, ctx: &Context, path: &Path) {
        let waker = ctx.clone();
        match self
            .session
            .begin_open(path, move || waker.request_repaint())
        {
            Ok(opening) => {
                self.around.under_way.opening = Some(opening);
                self.around.under_way.drafts_then = self.view.larder.drafted();
            }
            Err(error) => self.trouble(format!("{}: {error}.", path.display())),
        }
    }

    /// Takes what has ended since the last frame.
    pub(super) fn take_files(&mut self, ctx: &Context) {
        let waker = ctx.clone();
        if let Some(outcome) = self.session.take_save(move || waker.request_repaint()) {
            self.saved(ctx, outcome);
        }
        // What is written in a dialog is not taken away.
        if matches!(self.view.dialog, None | Some(Dialog::Waiting)) {
            if let Some(outcome) = self.around.under_way.held.take() {
                self.saved(ctx, outcome);
            }
            self.take_opening(ctx);
        }
        if self.is_filing() {
            let now = ctx.input(|input| input.time);
            self.around.under_way.since.get_or_insert(now);
            ctx.request_repaint_after(PROGRESS);
        } else {
            self.around.under_way.since = None;
        }
    }

    fn take_opening(&mut self, ctx: &Context) {
        // What waits for a save goes first: quitting is not forgotten over a document that arrives.
        if self.around.after.is_some() {
            return;
        }
        let Some(opening) = &mut self.around.under_way.opening else {
            return;
        };
        let Some(done) = opening.take() else {
            return;
        };
        let asked_at = opening.revision();
        self.around.under_way.opening = None;
        let drafts_then = std::mem::take(&mut self.around.under_way.drafts_then);
        let is_untouched =
            asked_at == self.session.revision() && drafts_then == self.view.larder.drafted();
        match done {
            Ok(found) => {
                let show = After::Show(Box::new(found));
                if is_untouched && !self.session.is_saving() {
                    self.around.after = Some(show);
                    self.go_on(ctx);
                } else {
                    // Something was changed while it was read.
                    self.leave_to(ctx, show);
                }
            }
            Err(failure) => self.say_not_opened(failure),
        }
    }

    /// What was asked for later counts: a document still on its way is not shown any more.
    pub(super) fn forget_opening(&mut self) {
        self.around.under_way.opening = None;
    }

    /// Says why a document was not opened, and offers the version before it.
    pub fn say_not_opened(&mut self, failure: OpenFailure) {
        let damaged = failure.before.is_some();
        self.trouble(format!("{failure}."));
        self.around.under_way.damaged = damaged.then_some(failure.path);
    }

    /// Stops waiting for files.
    pub(super) fn give_up_files(&mut self) {
        if self.session.is_saving() {
            self.session.give_up_save();
            self.trouble("Not saved: saving was given up; the changes are still here.".to_owned());
        }
        self.around.under_way.opening = None;
        if self.around.after.is_some() {
            self.view.dialog = Some(Dialog::Unsaved);
        }
    }

    pub(super) fn trouble(&mut self, words: String) {
        self.around.file_trouble = Some(words);
        self.around.under_way.damaged = None;
    }

    fn saved(&mut self, ctx: &Context, outcome: SaveOutcome) {
        match outcome {
            SaveOutcome::Saved(path) => self.is_saved(ctx, &path),
            SaveOutcome::Contested(path, error) => {
                let elsewhere = matches!(error, SaveError::OpenElsewhere);
                let ask = Dialog::Changed {
                    path: path.clone(),
                    elsewhere,
                };
                self.ask_of_save(ask, SaveOutcome::Contested(path, error));
            }
            SaveOutcome::Failed(error) => {
                self.trouble(format!("Not saved: {error}."));
                if !self.session.is_saving() {
                    self.ask_again();
                }
            }
            SaveOutcome::NeedsName => {
                let name = file_name_of(&self.session.document().title);
                self.ask_of_save(path_dialog(name), SaveOutcome::NeedsName);
            }
            SaveOutcome::Exists(path) => {
                let ask = Dialog::Replace(path.clone());
                self.ask_of_save(ask, SaveOutcome::Exists(path));
            }
        }
    }

    /// Opens a question about a save, now or once no other dialog is open.
    fn ask_of_save(&mut self, ask: Dialog, outcome: SaveOutcome) {
        if self.session.is_saving() {
            // Another name was chosen meanwhile.
            return;
        }
        if matches!(self.view.dialog, None | Some(Dialog::Waiting)) {
            self.view.dialog = Some(ask);
        } else {
            self.around.under_way.held = Some(outcome);
        }
    }

    /// A save failed: where it was asked for is shown again.
    fn ask_again(&mut self) {
        if !matches!(self.view.dialog, None | Some(Dialog::Waiting)) {
            return;
        }
        self.view.dialog = match self.around.under_way.typed.take() {
            Some(path) => Some(path_dialog(path.display().to_string())),
            None => self.around.after.as_ref().map(|_| Dialog::Unsaved),
        };
    }

    fn is_saved(&mut self, ctx: &Context, path: &Path) {
        self.discard_restored();
        self.around.file_trouble = None;
        self.around.settings.remember(path);
        self.remember();
        if self.around.after.is_none() || self.session.is_saving() {
            return;
        }
        let left_out = !self.around.under_way.warned && self.has_unkept();
        if self.session.is_dirty() || left_out {
            self.view.dialog = Some(Dialog::Unsaved);
        } else {
            self.go_on(ctx);
        }
    }
}

fn path_dialog(text: String) -> Dialog {
    Dialog::Path(PathDialog {
        saving: true,
        text,
        fresh: true,
        recent: Vec::new(),
    })
}
