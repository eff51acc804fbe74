//! Takes a recipe from a schema.org file or page: what was read, what stays open.

use super::dialogs::{FileBrowser, Wanted};
use super::intent::{Intent, Outbox, TableIntent};
use super::naming::named;
use super::recentred::recentre;
use super::table_files::browse;
use super::theme::Tokens;
use crate::model::{Ingredient, IngredientId};
use crate::session::{Edit, Session, import_larder, recipe_draft};
use crate::store::{ImportedLine, LineFound, MatchedBy, import_recipe, recipe_text};
use eframe::egui::{Button, Grid, Key, RichText, ScrollArea, TextEdit, Ui};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// A recipe that was read, and the drink that it makes.
#[derive(Debug)]
struct ReadRecipe {
    name: String,
    /// Lines as written, what they are taken as, and whether that is open.
    lines: Vec<(String, String, bool)>,
    notices: Vec<String>,
    draft: Edit,
}

/// State of the dialog.
#[derive(Debug)]
pub(super) struct RecipeDialog {
    path: String,
    /// Not shown yet: the field takes the focus.
    fresh: bool,
    read: Option<ReadRecipe>,
    trouble: Option<String>,
    /// Height when it was last shown, points.
    height: f32,
}

impl Default for RecipeDialog {
    fn default() -> Self {
        Self {
            path: String::new(),
            fresh: true,
            read: None,
            trouble: None,
            height: 0.0,
        }
    }
}

impl RecipeDialog {
    /// Shows the path, what was read, and the button that begins the drink.
    pub(super) fn ui(&mut self, ui: &mut Ui, browser: &mut FileBrowser, outbox: &mut Outbox) {
        self.file(ui, browser, outbox);
        let warn = Tokens::of(ui).warn;
        for said in browser.trouble().into_iter().chain(self.trouble.as_deref()) {
            ui.label(RichText::new(said).color(warn));
        }
        if let Some(read) = &self.read {
            ui.separator();
            show(ui, read);
        }
        ui.separator();
        ui.horizontal(|ui| {
            let start = ui.add_enabled(self.read.is_some(), Button::new("Start the drink"));
            let teach =
                "A draft with these lines; what stays open is marked and left out of the figures";
            if named(start, "Start the drink", teach).clicked()
                && let Some(read) = &self.read
            {
                outbox.edit(read.draft.clone());
                outbox.intent(Intent::CloseDialog);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
        recentre(ui, &mut self.height);
    }

    fn file(&mut self, ui: &mut Ui, browser: &mut FileBrowser, outbox: &mut Outbox) {
        ui.label("Path of the recipe");
        ui.horizontal(|ui| {
            let edit = TextEdit::singleline(&mut self.path).hint_text("…/recipe.json");
            let field = ui.add(edit.desired_width(420.0));
            if self.fresh {
                field.request_focus();
                self.fresh = false;
            }
            let teach = "A schema.org recipe as JSON-LD, alone or inside a saved page";
            let field = named(field, "Path", teach);
            let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            let typed = !self.path.trim().is_empty();
            let read = ui.add_enabled(typed, Button::new("Read"));
            let read = named(read, "Read", "Read the file; nothing is started yet");
            if read.clicked() || (entered && typed) {
                outbox.intent(Intent::Table(TableIntent::Read));
            }
            browse(ui, browser, Wanted::Recipe);
        });
        if let Some(chosen) = browser.answer() {
            self.path = chosen.display().to_string();
            outbox.intent(Intent::Table(TableIntent::Read));
        }
    }

    /// Reads the file whose path was given.
    pub(super) fn read(&mut self, session: &Session) {
        let larder = import_larder(session.document(), session.builtin());
        let measures = session.document().measures;
        let read = recipe_text(Path::new(self.path.trim()))
            .and_then(|text| import_recipe(&text, &larder, &measures));
        match read {
            Ok(read) => {
                let draft = recipe_draft(session.document(), session.builtin(), &read);
                let notices = [read.notices.clone(), draft.notices].concat();
                let line = |line: &ImportedLine| {
                    let (taken, is_open) = taken_as(&line.found, &larder);
                    (line.text.clone(), taken, is_open)
                };
                self.read = Some(ReadRecipe {
                    lines: read.lines.iter().map(line).collect(),
                    name: read.name,
                    notices,
                    draft: draft.edit,
                });
                self.trouble = None;
            }
            Err(error) => {
                (self.read, self.trouble) = (None, Some(format!("Not read: {error}.")));
            }
        }
    }
}

/// What a line is taken as, and whether it stays open.
fn taken_as(found: &LineFound, larder: &BTreeMap<IngredientId, Arc<Ingredient>>) -> (String, bool) {
    match found {
        LineFound::Matched { id, by } => {
            let name = larder.get(id).map_or(id.0.as_str(), |item| &item.name);
            let sure = match by {
                MatchedBy::Name => "",
                MatchedBy::Words => " (by its words)",
                MatchedBy::Part => " (a part of the name: check)",
            };
            (format!("{name}{sure}"), false)
        }
        LineFound::Unresolved { .. } => ("stays open: choose an ingredient".to_owned(), true),
    }
}

fn show(ui: &mut Ui, read: &ReadRecipe) {
    ui.label(RichText::new(&read.name).strong());
    ScrollArea::vertical().max_height(360.0).show(ui, |ui| {
        Grid::new("recipe lines")
            .num_columns(2)
            .striped(true)
            .show(ui, |ui| {
                for words in ["as written", "taken as"] {
                    ui.label(RichText::new(words).small().weak());
                }
                ui.end_row();
                for (text, taken, is_open) in &read.lines {
                    ui.label(text);
                    let words = RichText::new(taken);
                    let open = Tokens::of(ui).caution;
                    ui.label(if *is_open { words.color(open) } else { words });
                    ui.end_row();
                }
            });
        for notice in &read.notices {
            ui.label(RichText::new(notice).small().weak());
        }
    });
}
