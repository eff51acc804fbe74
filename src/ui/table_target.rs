//! Where a table is written: its path, and what came of writing.

use super::amount_field::select_all;
use super::dialogs::{FileBrowser, Wanted};
use super::intent::{Intent, Outbox, TableIntent};
use super::naming::named;
use super::table_files::browse;
use super::theme::Tokens;
use crate::store::ExportError;
use eframe::egui::{Button, Key, RichText, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// What came of writing.
#[derive(Clone, Debug)]
enum Outcome {
    Written(String),
    Exists,
    Failed(String),
}

/// The path of a table that is to be written.
#[derive(Clone, Debug)]
pub(super) struct TableTarget {
    path: String,
    /// Not shown yet: the field takes the focus.
    fresh: bool,
    outcome: Option<Outcome>,
}

impl TableTarget {
    pub(super) fn of(name: &Path) -> Self {
        Self {
            path: name.display().to_string(),
            fresh: true,
            outcome: None,
        }
    }

    /// Shows the path and what came of writing; `verb` is on the button.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        (verb, wanted): (&str, Wanted),
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) {
        ui.label("Path of the table");
        let entered = self.path_field(ui);
        let typed = !self.path.trim().is_empty();
        ui.horizontal(|ui| {
            let write = ui.add_enabled(typed, Button::new(verb));
            let write = named(write, verb, "Write the table; a file there is asked about");
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
        let edit = TextEdit::singleline(&mut self.path).hint_text("…/table.csv");
        let field = ui.add(edit.desired_width(420.0));
        if self.fresh {
            field.request_focus();
            select_all(ui, field.id, &self.path);
            self.fresh = false;
        }
        if field.changed() {
            self.outcome = None;
        }
        let teach = "Type or paste the whole path; .csv is added when it is missing";
        let field = named(field, "Path", teach);
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
                ui.label("There is a file of that name. If it is such a table, this one can take its place; the old one stays beside it as .bak.");
                if ui.button("Replace it").clicked() {
                    outbox.intent(Intent::Table(TableIntent::Write { replace: true }));
                }
            }
        }
    }

    /// Writes the table and remembers what came of it.
    pub(super) fn write(&mut self, save: impl FnOnce(&Path) -> Result<(), ExportError>) {
        let path = with_extension(self.path.trim());
        self.outcome = Some(match save(&path) {
            Ok(()) => Outcome::Written(format!("Written to {}.", path.display())),
            Err(ExportError::Exists) => Outcome::Exists,
            Err(error) => Outcome::Failed(format!("Not written: {error}.")),
        });
    }
}

/// Appended, not replaced: "syrups v1.2" keeps its name.
fn with_extension(typed: &str) -> PathBuf {
    let path = PathBuf::from(typed);
    if path.extension().is_some_and(|kind| kind == "csv") {
        return path;
    }
    PathBuf::from(format!("{typed}.csv"))
}
