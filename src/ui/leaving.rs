//! Saving, opening and leaving: nothing unsaved is left behind without a question.

use super::view::{Dialog, PathDialog};
use super::window::Window;
use crate::session::FoundDocument;
use crate::store::{DEMO, file_name_of, read_text, those_there};
use eframe::egui::{Context, ViewportCommand};
use std::path::PathBuf;

/// What to do once unsaved changes are dealt with.
#[derive(Debug)]
pub(super) enum After {
    New,
    Demo,
    /// Read a document, then show it.
    Open(PathBuf),
    /// Show a document that was read.
    Show(Box<FoundDocument>),
    /// Show the version before a file that cannot be read.
    Before(PathBuf),
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
            recent: if saving {
                Vec::new()
            } else {
                those_there(&self.around.settings.recent)
            },
        }));
    }

    pub(super) fn leave_to(&mut self, ctx: &Context, after: After) {
        self.around.after = Some(after);
        if self.session.is_saving() {
            self.view.dialog = Some(Dialog::Waiting);
        } else if self.has_unkept() {
            self.view.dialog = Some(Dialog::Unsaved);
        } else {
            self.go_on(ctx);
        }
    }

    /// Goes on with what waited for unsaved changes.
    pub(super) fn go_on(&mut self, ctx: &Context) {
        self.view.dialog = None;
        if self.around.after.is_some() {
            self.forget_opening();
        }
        match self.around.after.take() {
            None => {}
            Some(After::New) => {
                self.let_go();
                let document = self.around.settings.beginning.document();
                self.session.take_untitled(document);
                self.opened(Vec::new());
            }
            Some(After::Demo) => match read_text(DEMO) {
                Ok(opened) => {
                    self.let_go();
                    self.session.take_untitled(opened.document);
                    self.opened(Vec::new());
                }
                Err(error) => self.say(format!("The demo is damaged: {error}.")),
            },
            Some(After::Open(path)) => self.begin_open(ctx, &path),
            Some(After::Show(found)) => {
                let path = found.path.clone();
                let notices = self.session.show(*found);
                self.opened(notices);
                self.around.settings.remember(&path);
                self.remember();
            }
            Some(After::Before(path)) => match self.session.take_version_before(&path) {
                Ok(notices) => self.opened(notices),
                Err(error) => self.trouble(format!("{}: {error}.", path.display())),
            },
            Some(After::Quit) => {
                self.keep_last_layout(ctx);
                self.let_go();
                self.around.leaving = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
        self.view.reframe += 1;
        self.restart_guide_step();
    }

    /// Another document is on screen: what belonged to the one before is let go.
    fn opened(&mut self, notices: Vec<String>) {
        self.another_on_screen();
        self.discard_restored();
        for notice in notices {
            self.say(notice);
        }
    }

    /// The view and the trouble with files were those of the document before.
    pub(super) fn another_on_screen(&mut self) {
        self.view.for_another_document();
        self.around.file_trouble = None;
        self.around.under_way.damaged = None;
    }

    /// Changes that are not saved, or drafts that are not in the document yet.
    pub(super) fn has_unkept(&self) -> bool {
        self.session.is_dirty() || self.view.larder.unkept().next().is_some()
    }

    /// What is open is left behind on purpose: nothing of it needs keeping any more.
    pub(super) fn let_go(&mut self) {
        self.view.for_another_document();
        self.session.abandon();
        self.discard_restored();
    }

    pub(super) fn discard_restored(&mut self) {
        for one in std::mem::take(&mut self.around.restored) {
            self.discard(&one);
        }
    }

    /// The desktop wants the window closed: ask about unsaved work first.
    pub(super) fn close_request(&mut self, ctx: &Context) {
        if !ctx.input(|input| input.viewport().close_requested()) || self.around.leaving {
            return;
        }
        if self.has_unkept() || self.session.is_saving() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.leave_to(ctx, After::Quit);
        } else {
            self.keep_last_layout(ctx);
            self.let_go();
        }
    }
}
