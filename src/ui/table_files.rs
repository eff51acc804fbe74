//! Reading and writing tables and sheets, as their dialogs ask.

use super::dialogs::{FileBrowser, Wanted};
use super::export_dialog::ExportDialog;
use super::intent::TableIntent;
use super::naming::named;
use super::sheet_dialog::SheetDialog;
use super::view::Dialog;
use super::window::Window;
use crate::session::Command;
use eframe::egui::{Context, Ui};

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

    pub(super) fn table(&mut self, ctx: &Context, what: TableIntent) {
        let document = self.session.document();
        match (what, &mut self.view.dialog) {
            (TableIntent::Read, Some(Dialog::Import(import))) => import.read(document),
            (TableIntent::Read, Some(Dialog::Recipe(recipe))) => recipe.read(&self.session),
            (TableIntent::Write { replace }, Some(Dialog::Export(export))) => {
                export.write(document, replace);
            }
            (TableIntent::Write { replace }, Some(Dialog::Swap(swap))) => {
                swap.write(&self.session, replace);
            }
            (TableIntent::Write { replace }, Some(Dialog::Sheet(sheet))) => {
                sheet.write(ctx, replace);
            }
            _ => {}
        }
    }

    /// Opens the dialog that writes the sheet on screen.
    pub(super) fn open_sheet(&mut self) {
        let page = &mut self.view.submission;
        match page.preview.view(&self.session, page.reader) {
            Some(view) => {
                let dialog = SheetDialog::of(
                    &self.session,
                    view,
                    page.reader,
                    self.around.layout.export.as_ref(),
                );
                self.view.dialog = dialog.map(|dialog| Dialog::Sheet(Box::new(dialog)));
            }
            None => self.say_in_passing("There is no drink yet: start one first."),
        }
    }
}
