//! Takes ingredients from a table: the file, what its columns mean, what is wrong with its rows.

use super::dialogs::{FileBrowser, Wanted};
use super::import_preview;
use super::intent::{Intent, Outbox, TableIntent};
use super::naming::named;
use super::recentred::recentre;
use super::table_files::browse;
use super::theme::Tokens;
use crate::model::{Document, Ingredient};
use crate::session::{Session, import_edit};
use crate::store::{Column, Delimiter, Refusal, Sheet, guess, ingredients, read_sheet, table_text};
use eframe::egui::{Button, ComboBox, Grid, Key, RichText, ScrollArea, TextEdit, Ui};
use std::path::Path;
use std::sync::Arc;

/// A table that was read.
#[derive(Clone, Debug)]
struct Loaded {
    text: Arc<str>,
    sheet: Sheet,
    meanings: Vec<Option<Column>>,
    verdict: Result<Vec<Ingredient>, Refusal>,
}

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct ImportDialog {
    path: String,
    /// Not shown yet: the field takes the focus.
    fresh: bool,
    loaded: Option<Loaded>,
    trouble: Option<String>,
    /// Height when it was last shown, points.
    height: f32,
}

impl Default for ImportDialog {
    fn default() -> Self {
        Self {
            path: String::new(),
            fresh: true,
            loaded: None,
            trouble: None,
            height: 0.0,
        }
    }
}

impl ImportDialog {
    /// Shows the dialog; importing pushes one edit and closes it.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) {
        self.file(ui, browser, outbox);
        let warn = Tokens::of(ui).warn;
        for said in browser.trouble().into_iter().chain(self.trouble.as_deref()) {
            ui.label(RichText::new(said).color(warn));
        }
        if let Some(loaded) = &mut self.loaded {
            ui.separator();
            match loaded.ui(ui, session.document()) {
                Ok(false) => {}
                Ok(true) => self.trouble = None,
                Err(trouble) => self.trouble = Some(trouble),
            }
        }
        ui.separator();
        self.buttons(ui, session, outbox);
        recentre(ui, &mut self.height);
    }

    fn file(&mut self, ui: &mut Ui, browser: &mut FileBrowser, outbox: &mut Outbox) {
        ui.label("Path of the table");
        ui.horizontal(|ui| {
            let edit = TextEdit::singleline(&mut self.path).hint_text("…/larder.csv");
            let field = ui.add(edit.desired_width(520.0));
            if self.fresh {
                field.request_focus();
                self.fresh = false;
            }
            let field = named(
                field,
                "Path",
                "Type or paste the whole path of a table with commas, semicolons or tabs, in UTF-8",
            );
            let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            let typed = !self.path.trim().is_empty();
            let read = ui.add_enabled(typed, Button::new("Read"));
            let read = named(
                read,
                "Read",
                "Read the file and show its first rows; nothing is imported yet",
            );
            if read.clicked() || (entered && typed) {
                outbox.intent(Intent::Table(TableIntent::Read));
            }
            browse(ui, browser, Wanted::Table);
        });
        if let Some(chosen) = browser.answer() {
            self.path = chosen.display().to_string();
            outbox.intent(Intent::Table(TableIntent::Read));
        }
    }

    fn buttons(&self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let good = self
            .loaded
            .as_ref()
            .and_then(|loaded| loaded.verdict.as_ref().ok())
            .filter(|items| !items.is_empty());
        ui.horizontal(|ui| {
            let count = good.map_or(0, Vec::len);
            let words = format!("Import {count} ingredients");
            let import = ui.add_enabled(good.is_some(), Button::new(&words));
            let import = named(
                import,
                &words,
                "Add them all in one step; possible only while nothing is wrong with any row",
            );
            if let Some(items) = good.filter(|_| import.clicked()) {
                outbox.edit(import_edit(session, items.clone()));
                outbox.intent(Intent::CloseDialog);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
    }

    /// Reads the file whose path was given.
    pub(super) fn read(&mut self, document: &Document) {
        let typed = self.path.trim();
        let read = table_text(Path::new(typed))
            .and_then(|text| Ok((read_sheet(&text, None, None)?, text)));
        match read {
            Ok((sheet, text)) => {
                self.trouble = None;
                self.loaded = Some(Loaded::new(text.into(), sheet, document));
            }
            Err(error) => {
                self.trouble = Some(format!("{typed}: {error}."));
                self.loaded = None;
            }
        }
    }
}

impl Loaded {
    fn new(text: Arc<str>, sheet: Sheet, document: &Document) -> Self {
        let meanings = guess(&sheet);
        Self {
            text,
            verdict: ingredients(&sheet, &meanings, document),
            meanings,
            sheet,
        }
    }

    /// Shows how the table is read and what came of it; true when it was read in another way, an
    /// error when it cannot be read so.
    fn ui(&mut self, ui: &mut Ui, document: &Document) -> Result<bool, String> {
        let (mut delimiter, mut comma) = (self.sheet.delimiter, self.sheet.decimal_comma);
        ui.horizontal(|ui| {
            marks(ui, &mut delimiter, &mut comma);
        });
        let remapped = import_preview::ui(ui, &self.sheet, &mut self.meanings);
        ui.label(
            RichText::new(
                "Without a basis grams count per 100 ml; acids and strength always do. A row without allergens is no promise that there are none: check every label.",
            )
            .small()
            .weak(),
        );
        self.verdict(ui);
        if delimiter != self.sheet.delimiter {
            let sheet = read_sheet(&self.text, Some(delimiter), None);
            let sheet = sheet.map_err(|error| format!("With a {}: {error}.", delimiter.name()))?;
            *self = Self::new(Arc::clone(&self.text), sheet, document);
            return Ok(true);
        }
        if remapped || comma != self.sheet.decimal_comma {
            self.sheet.decimal_comma = comma;
            self.verdict = ingredients(&self.sheet, &self.meanings, document);
        }
        Ok(false)
    }

    /// How many rows are good, and what is wrong with the others.
    fn verdict(&self, ui: &mut Ui) {
        let rows = self.sheet.rows.len();
        let refusal = match &self.verdict {
            Ok(items) => {
                ui.label(format!("{rows} rows, {} good.", items.len()));
                return;
            }
            Err(refusal) => refusal,
        };
        let warn = Tokens::of(ui).warn;
        let words = format!(
            "{rows} rows, {} good; {} to put right in the file or above:",
            refusal.good_rows, refusal.count
        );
        ui.label(RichText::new(words).color(warn));
        ScrollArea::vertical()
            .id_salt("row errors")
            .max_height(150.0)
            .show(ui, |ui| {
                Grid::new("row errors")
                    .striped(true)
                    .num_columns(3)
                    .show(ui, |ui| {
                        for error in &refusal.errors {
                            ui.label(format!("row {}", error.row));
                            ui.label(&error.column);
                            ui.label(&error.reason);
                            ui.end_row();
                        }
                    });
                let more = refusal.count - refusal.errors.len();
                if more > 0 {
                    ui.label(format!("… and {more} more."));
                }
            });
    }
}

/// Delimiter and decimal mark, as found or as chosen.
fn marks(ui: &mut Ui, delimiter: &mut Delimiter, comma: &mut bool) {
    ui.label("Cells end with a");
    let combo = ComboBox::from_id_salt("delimiter")
        .selected_text(delimiter.name())
        .show_ui(ui, |ui| {
            for one in Delimiter::ALL {
                ui.selectable_value(delimiter, one, one.name());
            }
        });
    named(
        combo.response,
        "Delimiter",
        "What stands between two cells; found from the first rows",
    );
    ui.label("and numbers have a decimal");
    let name = |comma| if comma { "comma" } else { "point" };
    let combo = ComboBox::from_id_salt("decimal mark")
        .selected_text(name(*comma))
        .show_ui(ui, |ui| {
            for one in [false, true] {
                ui.selectable_value(comma, one, name(one));
            }
        });
    named(
        combo.response,
        "Decimal mark",
        "22,5 or 22.5; found from the first rows. Marks between thousands are refused",
    );
}
