//! Small questions: a path, unsaved changes, a file changed outside, work to restore.

use super::amount_field::select_all;
use super::file_target::landing;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::view::PathDialog;
use crate::session::{SaveWhere, Session, moment};
use crate::store::Recovered;
use eframe::egui::{Context, Id, Key, Modal, Response, RichText, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// A path typed by hand; the file dialog, where there is one, only fills it in.
pub(super) fn path(ui: &mut Ui, dialog: &mut PathDialog, browse: &mut bool, outbox: &mut Outbox) {
    let words = if dialog.saving { "Save as" } else { "Open" };
    ui.label("Path of the document");
    let field = ui.add(
        TextEdit::singleline(&mut dialog.text)
            .desired_width(420.0)
            .hint_text("…/twist.ron"),
    );
    if dialog.fresh {
        field.request_focus();
        select_all(ui, field.id, &dialog.text);
        dialog.fresh = false;
    }
    let field = named(
        field,
        "Path",
        "Type or paste the whole path; .ron is added when it is missing",
    );
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let typed = dialog.text.trim().to_owned();
    if dialog.saving && !typed.is_empty() {
        landing(ui, &with_extension(&typed));
    }
    ui.horizontal(|ui| {
        let go = ui.add_enabled(!typed.is_empty(), eframe::egui::Button::new(words));
        if go.clicked() || (entered && !typed.is_empty()) {
            if dialog.saving {
                outbox.intent(Intent::Save(SaveWhere::At(with_extension(&typed))));
            } else {
                outbox.intent(Intent::OpenPath(PathBuf::from(&typed)));
            }
        }
        let button = ui.button("Browse…");
        *browse = named(
            button,
            "Browse…",
            "Use the desktop's file dialog, where it has one",
        )
        .clicked();
        if ui.button("Cancel").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    });
    if !dialog.saving && !dialog.recent.is_empty() {
        ui.separator();
        ui.label(RichText::new("Opened lately").weak());
        for (known, is_there) in &dialog.recent {
            let text = known.display().to_string();
            if ui
                .add_enabled(*is_there, eframe::egui::Button::new(text))
                .clicked()
            {
                outbox.intent(Intent::OpenPath(known.clone()));
            }
        }
    }
}

/// Gives the focus to the button that loses nothing when its question opens, so that Enter is safe.
fn begin_with(ui: &Ui, safe: &Response) {
    let shown = Id::unique("a question with a safe button is open");
    let pass = ui.ctx().cumulative_pass_nr();
    let before = ui.data(|data| data.get_temp::<u64>(shown));
    if before.is_none_or(|before| before + 1 < pass) {
        safe.request_focus();
    }
    ui.data_mut(|data| data.insert_temp(shown, pass));
}

pub(super) fn with_extension(typed: &str) -> PathBuf {
    let path = PathBuf::from(typed);
    if path.extension().is_some_and(|kind| kind == "ron") {
        return path;
    }
    // Appended, not replaced: "margarita v1.2" keeps its name.
    PathBuf::from(format!("{typed}.ron"))
}

/// Whether what was written in the dialog below may go; `None` while nobody answered.
///
/// Esc, like the button that begins with the focus, goes on writing.
pub(super) fn throw_away(ctx: &Context, escaped: bool) -> Option<bool> {
    let id = Id::unique("throw away what was written");
    let shown = Modal::new(id).show(ctx, |ui| {
        ui.set_width(360.0);
        ui.heading("Not kept yet");
        ui.label("What was written here goes with this window.");
        let mut answer = None;
        ui.horizontal(|ui| {
            let safe = ui.button("Keep writing");
            begin_with(ui, &safe);
            if safe.clicked() {
                answer = Some(false);
            }
            if ui.button("Throw away").clicked() {
                answer = Some(true);
            }
        });
        answer
    });
    shown.inner.or(escaped.then_some(false))
}

/// Unsaved changes, before going on.
///
/// `unkept` names rows of the larder whose changes are not in the document yet.
pub(super) fn unsaved(ui: &mut Ui, session: &Session, unkept: &[String], outbox: &mut Outbox) {
    if session.is_dirty() {
        ui.label(format!(
            "\"{}\" has changes that are not saved.",
            session.document().title
        ));
    }
    if !unkept.is_empty() {
        ui.label(format!(
            "Changes in the larder are not kept yet, and saving leaves them out: {}.",
            unkept.join(", ")
        ));
    }
    ui.horizontal(|ui| {
        let safe = ui.button("Save");
        begin_with(ui, &safe);
        if safe.clicked() {
            outbox.intent(Intent::SaveAndLeave);
        }
        if ui.button("Leave without saving").clicked() {
            outbox.intent(Intent::LeaveUnsaved);
        }
        if ui.button("Cancel").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    });
}

/// The file that was to be written changed outside, or another window has it open.
pub(super) fn changed(
    ui: &mut Ui,
    session: &Session,
    (path, elsewhere): (&Path, bool),
    outbox: &mut Outbox,
) {
    let is_own = session.path().is_some_and(|own| own == path);
    if !is_own {
        ui.label(path.display().to_string());
    }
    ui.label(if elsewhere {
        "The document is open in another window, whose next save would then ask about yours."
    } else {
        "Somebody else changed the file since it was opened."
    });
    ui.label("Their version is kept beside it as .bak if you write over it.");
    ui.horizontal(|ui| {
        let safe = ui.button("Save under another name…");
        begin_with(ui, &safe);
        if safe.clicked() {
            outbox.command(crate::session::Command::SaveAs);
        }
        if ui.button("Write over it").clicked() {
            outbox.intent(Intent::Save(if is_own {
                SaveWhere::SameAnyway
            } else {
                SaveWhere::AtAnyway(path.to_owned())
            }));
        }
        if ui.button("Load theirs").clicked() {
            outbox.intent(Intent::OpenPath(path.to_owned()));
        }
        if ui.button("Cancel").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    });
}

/// There is a document of that name already.
pub(super) fn replace(ui: &mut Ui, path: &Path, outbox: &mut Outbox) {
    ui.label(path.display().to_string());
    ui.label(
        "If it is a document, this one can take its place; the old one stays beside it as .bak.",
    );
    ui.horizontal(|ui| {
        let safe = ui.button("Save under another name…");
        begin_with(ui, &safe);
        if safe.clicked() {
            outbox.command(crate::session::Command::SaveAs);
        }
        if ui.button("Replace it").clicked() {
            outbox.intent(Intent::Save(SaveWhere::AtAnyway(path.to_owned())));
        }
        if ui.button("Cancel").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    });
}

/// When a piece of unsaved work was kept, for a name that tells it from the others.
fn kept(one: &Recovered) -> String {
    let at = one.at.and_then(moment);
    at.map_or_else(String::new, |at| format!(", kept {at}"))
}

/// What tells one piece of unsaved work from another.
fn holds(one: &Recovered) -> String {
    let specs = &one.document.specs;
    let trials: usize = specs.iter().map(|spec| spec.trials.len()).sum();
    let last = specs.iter().flat_map(|spec| {
        let trials = spec.trials.iter();
        trials.map(move |trial| (trial.id, &spec.name, &trial.name))
    });
    let last = last.max_by_key(|(id, _, _)| *id);
    let last = last.map_or_else(String::new, |(_, spec, trial)| {
        format!(", the newest {spec}, {trial}")
    });
    format!("{} drinks, {trials} trials{last}{}", specs.len(), kept(one))
}

/// Unsaved work of an earlier run.
pub(super) fn recover(ui: &mut Ui, recovered: &[Recovered], outbox: &mut Outbox) {
    ui.label("The program ended before this work was saved:");
    let several = recovered.len() > 1;
    for (index, one) in recovered.iter().enumerate() {
        ui.separator();
        let place = one.path.as_ref().map_or_else(
            || "not saved yet".to_owned(),
            |path| path.display().to_string(),
        );
        ui.label(RichText::new(&one.document.title).strong());
        ui.label(RichText::new(place).small().weak());
        ui.label(RichText::new(holds(one)).small());
        if one.is_older {
            ui.label("The file was saved after this was kept, so it may hold all of it.");
        }
        ui.horizontal(|ui| {
            let button = ui.button("Restore");
            if index == 0 {
                begin_with(ui, &button);
            }
            let when = if several { kept(one) } else { String::new() };
            let name = format!("Restore {}{when}", one.document.title);
            if named(
                button,
                &name,
                "Open it with its unsaved changes; the file stays as it is until you save",
            )
            .clicked()
            {
                outbox.intent(Intent::Restore(index));
            }
            let button = ui.button("Throw away");
            let name = format!("Throw {}{when} away", one.document.title);
            if named(button, &name, "Delete this unsaved work").clicked() {
                outbox.intent(Intent::Discard(index));
            }
        });
    }
    ui.separator();
    if ui.button("Decide later").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}
