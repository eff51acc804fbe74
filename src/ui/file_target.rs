//! Where a file is written: its path, and what came of writing.

use super::amount_field::select_all;
use super::dialogs::{FileBrowser, Wanted};
use super::intent::{Intent, Outbox, TableIntent};
use super::naming::named;
use super::table_files::browse;
use super::theme::Tokens;
use crate::store::{ExportError, lands_at};
use eframe::egui::{Button, Key, RichText, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// What came of writing.
#[derive(Clone, Debug)]
enum Outcome {
    Written(String),
    Exists,
    Failed(String),
}

/// The path of a file that is to be written.
#[derive(Clone, Debug)]
pub(super) struct FileTarget {
    path: String,
    /// Extension that is added where it is missing.
    extension: &'static str,
    /// "table" or "file".
    what: &'static str,
    /// Not shown yet: the field takes the focus.
    fresh: bool,
    outcome: Option<Outcome>,
}

impl FileTarget {
    /// A table of that name.
    pub(super) fn of(name: &Path) -> Self {
        Self {
            path: name.display().to_string(),
            extension: "csv",
            what: "table",
            fresh: true,
            outcome: None,
        }
    }

    /// A file of any kind under that name.
    pub(super) fn file(name: &Path, extension: &'static str) -> Self {
        Self {
            what: "file",
            extension,
            ..Self::of(&name.with_extension(extension))
        }
    }

    /// Another kind of file: the name keeps its stem.
    pub(super) fn becomes(&mut self, extension: &'static str) {
        let path = PathBuf::from(self.path.trim());
        if path.extension().is_some_and(|kind| kind == self.extension) {
            self.path = path.with_extension(extension).display().to_string();
        }
        self.extension = extension;
        self.outcome = None;
    }

    /// The path as it is written to.
    pub(super) fn path(&self) -> PathBuf {
        with_extension(self.path.trim(), self.extension)
    }

    /// Shows the path and what came of writing; `verb` is on the button.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        (verb, wanted): (&str, Wanted),
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) {
        ui.label(format!("Path of the {}", self.what));
        let entered = self.path_field(ui);
        let typed = !self.path.trim().is_empty();
        if typed {
            landing(ui, &self.path());
        }
        ui.horizontal(|ui| {
            let write = ui.add_enabled(typed, Button::new(verb));
            let teach = format!("Write the {}; a file there is asked about", self.what);
            let write = named(write, verb, &teach);
            if write.clicked() || (entered && typed) {
                outbox.intent(Intent::Table(TableIntent::Write { replace: false }));
            }
            browse(ui, browser, wanted);
            if ui.button("Close").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
        if let Some(chosen) = browser.answer() {
            self.path = chosen.display().to_string();
            self.outcome = None;
        }
        let warn = Tokens::of(ui).warn;
        if let Some(trouble) = browser.trouble() {
            ui.label(RichText::new(trouble).color(warn));
        }
        self.outcome(ui, outbox);
    }

    /// The path; true when Enter was pressed in it.
    fn path_field(&mut self, ui: &mut Ui) -> bool {
        let hint = format!("…/{}.{}", self.what, self.extension);
        let edit = TextEdit::singleline(&mut self.path).hint_text(hint);
        let field = ui.add(edit.desired_width(420.0));
        if self.fresh {
            field.request_focus();
            select_all(ui, field.id, &self.path);
            self.fresh = false;
        }
        if field.changed() {
            self.outcome = None;
        }
        let extension = self.extension;
        let teach =
            format!("Type or paste the whole path; .{extension} is added when it is missing");
        let field = named(field, "Path", &teach);
        field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter))
    }

    fn outcome(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let warn = Tokens::of(ui).warn;
        match &self.outcome {
            None => {}
            Some(Outcome::Written(words)) => {
                ui.label(words);
            }
            Some(Outcome::Failed(words)) => {
                ui.label(RichText::new(words).color(warn));
            }
            Some(Outcome::Exists) => {
                let words = if self.what == "table" {
                    "There is a file of that name. If it is such a table, this one can take its place; the old one stays beside it as .bak."
                } else {
                    "There is a file of that name. This one can take its place; the old one stays beside it as .bak."
                };
                ui.label(words);
                if ui.button("Replace it").clicked() {
                    outbox.intent(Intent::Table(TableIntent::Write { replace: true }));
                }
            }
        }
    }

    /// Writes the file and remembers what came of it.
    pub(super) fn write(&mut self, save: impl FnOnce(&Path) -> Result<(), ExportError>) {
        let path = self.path();
        let said = path.display().to_string();
        self.came_of(save(&path).map(|()| said));
    }

    /// Remembers what came of writing: where to, or why not.
    pub(super) fn came_of(&mut self, written: Result<String, ExportError>) {
        self.outcome = Some(match written {
            Ok(said) => Outcome::Written(format!("Written to {said}.")),
            Err(ExportError::Exists) => Outcome::Exists,
            Err(error) => Outcome::Failed(format!("Not written: {error}.")),
        });
    }

    /// Remembers why nothing was written, in words.
    pub(super) fn failed(&mut self, why: &str) {
        self.outcome = Some(Outcome::Failed(format!("Not written: {why}.")));
    }
}

/// Says where a file that is named in a field will lie.
pub(super) fn landing(ui: &mut Ui, path: &Path) {
    let words = format!("Will be written as {}", lands_at(path));
    ui.label(RichText::new(words).small().weak());
}

/// Appended, not replaced: "syrups v1.2" keeps its name.
fn with_extension(typed: &str, extension: &str) -> PathBuf {
    let path = PathBuf::from(typed);
    if path.extension().is_some_and(|kind| kind == extension) {
        return path;
    }
    PathBuf::from(format!("{typed}.{extension}"))
}
