//! Writes the document's ingredients as a table.

use super::dialogs::{FileBrowser, Wanted};
use super::file_target::FileTarget;
use super::intent::Outbox;
use super::naming::named;
use crate::model::Document;
use crate::session::Session;
use crate::store::{exported, file_name_of, save_table};
use eframe::egui::Ui;
use std::path::PathBuf;

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct ExportDialog {
    /// The own rows of lots are written too.
    lots: bool,
    to: FileTarget,
}

impl ExportDialog {
    pub(super) fn of(document: &Document) -> Self {
        let name = PathBuf::from(file_name_of(&document.title)).with_extension("csv");
        Self {
            lots: false,
            to: FileTarget::of(&name),
        }
    }

    /// Shows the path and what came of writing.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) {
        let document = session.document();
        if !document.lots.is_empty() {
            let lots = ui.checkbox(&mut self.lots, "Lots too");
            named(
                lots,
                "Lots too",
                "Write the measured figures of each lot as an ingredient of its own",
            );
        }
        let count = exported(document, self.lots).count();
        ui.label(format!(
            "{count} ingredients, separated by commas, with decimal points."
        ));
        let what = ("Export", Wanted::TableName);
        self.to.ui(ui, what, browser, outbox);
    }

    /// Writes the table.
    pub(super) fn write(&mut self, document: &Document, replace: bool) {
        let lots = self.lots;
        self.to
            .write(|path| save_table(document, lots, path, replace));
    }
}
