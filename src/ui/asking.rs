//! Small questions: a path, unsaved changes, a file changed outside, work to restore.

use super::amount_field::select_all;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::view::PathDialog;
use crate::session::{COMMANDS, CommandInfo, SaveWhere, Session, Shortcut};
use crate::store::Recovered;
use eframe::egui::{Grid, Key, RichText, ScrollArea, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// A path typed by hand; the file dialog, where there is one, only fills it in.
pub(super) fn path(
    ui: &mut Ui,
    dialog: &mut PathDialog,
    recent: &[PathBuf],
    browse: &mut bool,
    outbox: &mut Outbox,
) {
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
    if !dialog.saving && !recent.is_empty() {
        ui.separator();
        ui.label(RichText::new("Opened lately").weak());
        for known in recent {
            let there = known.exists();
            let text = known.display().to_string();
            if ui
                .add_enabled(there, eframe::egui::Button::new(text))
                .clicked()
            {
                outbox.intent(Intent::OpenPath(known.clone()));
            }
        }
    }
}

pub(super) fn with_extension(typed: &str) -> PathBuf {
    let path = PathBuf::from(typed);
    if path.extension().is_some_and(|kind| kind == "ron") {
        return path;
    }
    // Appended, not replaced: "margarita v1.2" keeps its name.
    PathBuf::from(format!("{typed}.ron"))
}

/// A file name made from a title: small letters, digits and hyphens.
pub(super) fn file_name_of(title: &str) -> String {
    let letters = title.to_lowercase();
    let words: Vec<&str> = letters
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(4)
        .collect();
    if words.is_empty() {
        return "drinks.ron".to_owned();
    }
    format!("{}.ron", words.join("-"))
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
        if ui.button("Save").clicked() {
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

/// The file changed outside.
pub(super) fn changed(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    ui.label("Somebody else changed the file since it was opened.");
    ui.label("Their version is kept beside it as .bak if you write over it.");
    ui.horizontal(|ui| {
        if ui.button("Save under another name…").clicked() {
            outbox.command(crate::session::Command::SaveAs);
        }
        if ui.button("Write over it").clicked() {
            outbox.intent(Intent::Save(SaveWhere::SameAnyway));
        }
        let path = session.path().cloned();
        if let Some(path) = path.filter(|_| ui.button("Load theirs").clicked()) {
            outbox.intent(Intent::OpenPath(path));
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
        if ui.button("Save under another name…").clicked() {
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

/// Unsaved work of an earlier run.
pub(super) fn recover(ui: &mut Ui, recovered: &[Recovered], outbox: &mut Outbox) {
    ui.label("The program ended before this work was saved:");
    for (index, one) in recovered.iter().enumerate() {
        ui.separator();
        let place = one.path.as_ref().map_or_else(
            || "not saved yet".to_owned(),
            |path| path.display().to_string(),
        );
        ui.label(RichText::new(&one.document.title).strong());
        ui.label(RichText::new(place).small().weak());
        ui.horizontal(|ui| {
            let button = ui.button("Restore");
            let name = format!("Restore {}", one.document.title);
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
            let name = format!("Throw {} away", one.document.title);
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

/// All commands by name.
pub(super) fn palette(ui: &mut Ui, search: &mut String, outbox: &mut Outbox) {
    let field = ui.add(
        TextEdit::singleline(search)
            .hint_text("Letters of a command")
            .desired_width(360.0),
    );
    if !field.has_focus() && !field.lost_focus() {
        field.request_focus();
    }
    named(
        field,
        "Find a command",
        "Letters of its name or of what it does; Enter runs the first",
    );
    let words = search.trim().to_lowercase();
    let fits = |info: &&CommandInfo| {
        info.name.to_lowercase().contains(&words) || info.explain.to_lowercase().contains(&words)
    };
    let enter = ui.input(|input| input.key_pressed(Key::Enter));
    let mut chosen = COMMANDS.iter().find(fits).filter(|_| enter);
    ScrollArea::vertical().max_height(380.0).show(ui, |ui| {
        for info in COMMANDS.iter().filter(fits) {
            let button = eframe::egui::Button::new(info.name)
                .shortcut_text(shortcut_text(info.shortcut))
                .frame(false);
            if ui.add(button).on_hover_text(info.explain).clicked() {
                chosen = Some(info);
            }
        }
    });
    if let Some(info) = chosen {
        outbox.command(info.command);
    }
}

/// Keys and what they do.
pub(super) fn help(ui: &mut Ui, outbox: &mut Outbox) {
    ScrollArea::vertical().max_height(460.0).show(ui, |ui| {
        Grid::new("keys")
            .striped(true)
            .num_columns(3)
            .show(ui, |ui| {
                for info in COMMANDS.iter().filter(|info| info.shortcut.is_some()) {
                    ui.label(RichText::new(shortcut_text(info.shortcut)).monospace());
                    ui.label(info.name);
                    ui.label(RichText::new(info.explain).small().weak());
                    ui.end_row();
                }
                for (keys, name, what) in [
                    (
                        "← →",
                        "On a pour's slider",
                        "One notch less or more; Shift takes four",
                    ),
                    (
                        "Alt+↑ Alt+↓",
                        "On a pour's slider",
                        "Move the pour in the list",
                    ),
                    (
                        "arrows",
                        "On the target",
                        "A tenth of a noticeable difference",
                    ),
                    (
                        "+ − Home Alt+arrows",
                        "On a chart",
                        "Zoom, frame anew, pan; Ctrl+C copies its values, or those under the pointer",
                    ),
                    (
                        "Ctrl+plus Ctrl+minus",
                        "Anywhere",
                        "Larger or smaller; Ctrl+0 goes back",
                    ),
                    ("Tab", "Anywhere", "The next control"),
                ] {
                    ui.label(RichText::new(keys).monospace());
                    ui.label(name);
                    ui.label(RichText::new(what).small().weak());
                    ui.end_row();
                }
            });
    });
    if ui.button("Close").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}

/// "Ctrl+Shift+S".
pub(super) fn shortcut_text(shortcut: Option<Shortcut>) -> String {
    let Some(shortcut) = shortcut else {
        return String::new();
    };
    let mut text = String::new();
    if shortcut.command {
        text.push_str("Ctrl+");
    }
    if shortcut.shift {
        text.push_str("Shift+");
    }
    text.push_str(shortcut.key);
    text
}
