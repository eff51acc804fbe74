//! Saving, opening and leaving: nothing unsaved is left behind without a question.

use super::asking::file_name_of;
use super::larder_page::LarderPage;
use super::view::{Dialog, PathDialog};
use super::window::Window;
use crate::session::{SaveOutcome, SaveWhere};
use crate::store::{DEMO, SaveError, read_text};
use eframe::egui::{Context, ViewportCommand};
use std::path::PathBuf;

/// What to do once unsaved changes are dealt with.
#[derive(Clone, Debug)]
pub(super) enum After {
    New,
    Demo,
    Open(PathBuf),
    Quit,
}

impl Window {
    pub(super) fn ask_path(&mut self, saving: bool) {
        let text = match self.session.path() {
            Some(path) if saving => path.display().to_string(),
            _ if saving => file_name_of(&self.session.document().title),
            _ => String::new(),
        };
        self.view.dialog = Some(Dialog::Path(PathDialog {
            saving,
            text,
            fresh: true,
        }));
    }

    pub(super) fn leave_to(&mut self, ctx: &Context, after: After) {
        self.around.after = Some(after);
        if self.has_unkept() {
            self.view.dialog = Some(Dialog::Unsaved);
        } else {
            self.go_on(ctx);
        }
    }

    /// Goes on with what waited for unsaved changes.
    pub(super) fn go_on(&mut self, ctx: &Context) {
        self.view.dialog = None;
        match self.around.after.take() {
            None => {}
            Some(After::New) => {
                self.let_go();
                let document = self.around.settings.beginning.document();
                self.session.take_untitled(document);
            }
            Some(After::Demo) => match read_text(DEMO) {
                Ok(opened) => {
                    self.let_go();
                    self.session.take_untitled(opened.document);
                }
                Err(error) => self.say(format!("The demo is damaged: {error}.")),
            },
            Some(After::Open(path)) => match self.session.open(&path) {
                Ok(notices) => {
                    self.let_go();
                    self.around.file_trouble = None;
                    self.around.settings.remember(&path);
                    self.remember();
                    for notice in notices {
                        self.say(notice);
                    }
                }
                Err(error) => {
                    self.around.file_trouble = Some(format!("{}: {error}.", path.display()));
                }
            },
            Some(After::Quit) => {
                self.keep_last_layout(ctx);
                self.let_go();
                self.around.leaving = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
        self.view.reframe += 1;
    }

    pub(super) fn save(&mut self, ctx: &Context, to: &SaveWhere) {
        match self.session.save(to) {
            SaveOutcome::Saved(path) => {
                self.view.dialog = None;
                self.discard_restored();
                self.around.file_trouble = None;
                self.around.settings.remember(&path);
                self.remember();
                if self.around.after.is_some() {
                    self.go_on(ctx);
                }
            }
            SaveOutcome::NeedsName => self.ask_path(true),
            SaveOutcome::Exists(path) => self.view.dialog = Some(Dialog::Replace(path)),
            SaveOutcome::Failed(SaveError::ChangedOutside) => {
                self.view.dialog = Some(Dialog::Changed);
            }
            SaveOutcome::Failed(error) => {
                self.around.file_trouble = Some(format!("Not saved: {error}."));
            }
        }
    }

    /// Changes that are not saved, or drafts that are not in the document yet.
    fn has_unkept(&self) -> bool {
        self.session.is_dirty() || self.view.larder.unkept().next().is_some()
    }

    /// What is open is left behind on purpose: nothing of it needs keeping any more.
    pub(super) fn let_go(&mut self) {
        self.view.larder = LarderPage::default();
        self.session.abandon();
        self.discard_restored();
    }

    fn discard_restored(&mut self) {
        for one in std::mem::take(&mut self.around.restored) {
            self.discard(&one);
        }
    }

    /// The desktop wants the window closed: ask about unsaved work first.
    pub(super) fn close_request(&mut self, ctx: &Context) {
        if !ctx.input(|input| input.viewport().close_requested()) || self.around.leaving {
            return;
        }
        if self.has_unkept() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.leave_to(ctx, After::Quit);
        } else {
            self.keep_last_layout(ctx);
            self.let_go();
        }
    }
}
