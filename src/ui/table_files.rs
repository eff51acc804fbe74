//! Reading and writing tables of ingredients, as their dialogs ask.

use super::export_dialog::ExportDialog;
use super::intent::TableIntent;
use super::view::Dialog;
use super::window::Window;
use crate::session::Command;

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
            _ => {}
        }
    }
}
