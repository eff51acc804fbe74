//! The last sheet once more: the same kind to the same place, in one step.

use super::view::Dialog;
use super::window::Window;
use crate::session::{
    Over, Session, SheetExport, SheetExportError, SheetFile, export_sheet, exported_sheet,
    service_papers,
};
use crate::store::{ExportError, LastExport, fingerprint};
use eframe::egui::Context;
use std::path::PathBuf;
use std::sync::Arc;

/// A sheet that is being written once more, and how.
#[derive(Debug)]
pub(super) struct Repeating {
    job: SheetExport,
    how: LastExport,
}

/// The drink on screen, as an export remembers it: its document and its name.
pub(super) fn drink_said(session: &Session) -> String {
    let title = &session.document().title;
    let drink = session.spec().map_or("", |spec| spec.name.as_str());
    format!("{drink} ({title})")
}

/// What was written, to be known again.
pub(super) fn known_again(paths: &[PathBuf]) -> Vec<(PathBuf, u64)> {
    let known = paths.iter();
    known
        .filter_map(|path| Some((path.clone(), fingerprint(path)?)))
        .collect()
}

impl Window {
    /// Writes the last sheet once more; what is not its own is left alone.
    pub(super) fn export_again(&mut self, ctx: &Context) {
        let Some(how) = self.around.layout.export.clone() else {
            self.say_in_passing("No sheet was written yet: choose how to write it first.");
            self.open_sheet();
            return;
        };
        let kind = SheetFile::ALL
            .into_iter()
            .find(|kind| kind.name() == how.kind);
        let drink = drink_said(&self.session);
        let Some(kind) = kind.filter(|_| how.drink == drink) else {
            self.say_in_passing(&format!(
                "The last sheet was of {}, this is {drink}: choose how to write it.",
                how.drink
            ));
            self.open_sheet();
            return;
        };
        let view = self.view.submission.preview.view(&self.session, how.reader);
        let Some((view, papers)) = view.zip(service_papers(&self.session)) else {
            self.say_in_passing("There is no drink yet: start one first.");
            return;
        };
        let waker = ctx.clone();
        let to = (how.path.clone(), Over::Own(how.written.clone()));
        let wake = move || waker.request_repaint();
        match export_sheet((&view, &Arc::new(papers)), kind, how.chart_px, to, wake) {
            Ok(job) => self.around.repeating = Some(Repeating { job, how }),
            Err(error) => self.say(format!("Not written: {error}.")),
        }
    }

    /// Says what came of writing once more, and keeps how the dialog wrote last.
    pub(super) fn finish_exports(&mut self) {
        if let Some(Dialog::Sheet(sheet)) = &mut self.view.dialog
            && let Some(how) = sheet.take_written()
        {
            self.around
                .browser
                .begin_in(how.path.parent().map(ToOwned::to_owned));
            self.around.layout.export = Some(how);
            self.save_kept_layout();
        }
        let Some(repeating) = &mut self.around.repeating else {
            return;
        };
        let Some(ended) = exported_sheet(&mut repeating.job) else {
            return;
        };
        let Some(Repeating { mut how, .. }) = self.around.repeating.take() else {
            return;
        };
        match ended {
            Ok(paths) => {
                let said: Vec<String> = paths.iter().map(|path| path.display().to_string()).collect();
                self.say_in_passing(&format!("Written again: {}.", said.join(", ")));
                how.written = known_again(&paths);
                self.around.layout.export = Some(how);
                self.save_kept_layout();
            }
            Err(SheetExportError::Written(ExportError::Exists)) => self.say(format!(
                "Not written: at {} there is a file that was not written from here, or was changed since. Save the sheet… asks whether to replace it.",
                how.path.display()
            )),
            Err(SheetExportError::Written(error)) => self.say(format!("Not written: {error}.")),
            Err(SheetExportError::Made(why)) => self.say(format!("Not written: {why}.")),
        }
    }
}
