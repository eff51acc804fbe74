//! Reading and writing tables of ingredients, as their dialogs ask.

use super::dialogs::{FileBrowser, Wanted};
use super::export_dialog::ExportDialog;
use super::intent::TableIntent;
use super::naming::named;
use super::view::Dialog;
use super::window::Window;
use crate::session::Command;
use eframe::egui::Ui;

/// The button that asks the desktop's file dialog for a path.
pub(super) fn browse(ui: &mut Ui, browser: &mut FileBrowser, wanted: Wanted) {
    let teach = "Use the desktop's file dialog, where it has one";
    if named(ui.button("Browse…"), "Browse…", teach).clicked() {
        browser.ask(wanted, ui.ctx());
    }
}

impl Window {
    pub(super) fn table_command(&mut self, command: Command) {
        let document = self.session.document();
        self.view.dialog = Some(match command {
            Command::ExportLarder => Dialog::Export(ExportDialog::of(document)),
            _ => Dialog::Import(Box::default()),
        });
    }

    pub(super) fn table(&mut self, what: TableIntent) {
        let document = self.session.document();
        match (what, &mut self.view.dialog) {
            (TableIntent::Read, Some(Dialog::Import(import))) => import.read(document),
            (TableIntent::Write { replace }, Some(Dialog::Export(export))) => {
                export.write(document, replace);
            }
            (TableIntent::Write { replace }, Some(Dialog::Swap(swap))) => {
                swap.write(&self.session, replace);
            }
            _ => {}
        }
    }
}
