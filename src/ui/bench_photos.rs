//! Pictures of a trial: attached by path, by the desktop's dialog or by dropping them on the window.

use super::dialogs::{FileBrowser, Wanted};
use super::empty;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use crate::model::{Photo, Trial, TrialId};
use crate::session::{Command, Session};
use crate::store::{Thumbnail, read_photo, thumbnail};
use eframe::egui::{ColorImage, Context, RichText, TextEdit, TextureHandle, TextureOptions, Ui};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, channel};

/// Longest side of a small picture, pixels.
const SIDE: u32 = 240;

/// A small picture on its way to the screen.
enum Small {
    /// Being read.
    Coming(Receiver<Option<Thumbnail>>),
    /// On screen.
    Shown(TextureHandle),
    /// The file is missing, too large or no picture.
    None,
}

/// What is typed, and the small pictures.
#[derive(Default)]
pub(super) struct BenchPhotos {
    path: String,
    browser: FileBrowser,
    small: BTreeMap<String, Small>,
    /// The document and the trial that they belong to.
    of: Option<(PathBuf, TrialId)>,
}

impl std::fmt::Debug for BenchPhotos {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("BenchPhotos")
            .field("path", &self.path)
            .finish_non_exhaustive()
    }
}

impl BenchPhotos {
    /// Shows the pictures and how to attach one.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        trial: &Trial,
        outbox: &mut Outbox,
    ) {
        ui.add_space(8.0);
        ui.label(RichText::new("Pictures").strong());
        let Some(path) = session.pictures_of() else {
            let words = "Save the document first: pictures are kept in a folder beside it.";
            ui.label(RichText::new(words).color(Tokens::of(ui).weak));
            empty::way(ui, Command::Save, outbox);
            return;
        };
        // Pictures of another trial are let go, and one that was missing is looked for again.
        let of = Some((path.clone(), trial.id));
        if self.of != of {
            self.small.clear();
            self.of = of;
        }
        if trial.photos.is_empty() {
            empty::say(
                ui,
                "No picture of this trial yet: drop one on the window, or browse for it.",
            );
        }
        ui.horizontal_wrapped(|ui| {
            for (place, photo) in trial.photos.iter().enumerate() {
                self.one(ui, session, (trial.id, place, photo), outbox);
            }
        });
        self.attach(ui, trial.id, outbox);
    }

    fn attach(&mut self, ui: &mut Ui, trial: TrialId, outbox: &mut Outbox) {
        if let Some(path) = self.browser.answer() {
            outbox.intent(Intent::AttachPhoto(trial, path));
        }
        let dropped = ui.input(|input| input.raw.dropped_files.clone());
        for path in dropped.iter().map(|file| file.path()) {
            outbox.intent(Intent::AttachPhoto(trial, path.to_path_buf()));
        }
        ui.horizontal_wrapped(|ui| {
            let field = TextEdit::singleline(&mut self.path)
                .hint_text("Path of a JPEG or PNG, or drop it here")
                .desired_width(300.0);
            named(
                ui.add(field),
                "Path of a picture",
                "A JPEG or PNG of at most 12 MB; it is copied beside the document",
            );
            let typed = !self.path.trim().is_empty();
            let attach = ui.add_enabled(typed, eframe::egui::Button::new("Attach"));
            if named(attach, "Attach the picture", "Copy it beside the document").clicked() {
                let path = PathBuf::from(self.path.trim());
                outbox.intent(Intent::AttachPhoto(trial, path));
                self.path.clear();
            }
            let browse = ui.button("Browse…");
            if named(
                browse,
                "Browse for a picture",
                "Choose it in the desktop's dialog",
            )
            .clicked()
            {
                self.browser.ask(Wanted::Picture, ui.ctx());
            }
            if let Some(trouble) = self.browser.trouble() {
                ui.label(RichText::new(trouble).color(Tokens::of(ui).caution));
            }
        });
    }

    fn one(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        (trial, place, photo): (TrialId, usize, &Photo),
        outbox: &mut Outbox,
    ) {
        ui.vertical(|ui| {
            let small = self
                .small
                .entry(photo.file.clone())
                .or_insert_with(|| begin(ui.ctx(), session, photo));
            settle(ui.ctx(), small, &photo.file);
            match small {
                Small::Shown(texture) => {
                    let shown = ui.image((texture.id(), texture.size_vec2()));
                    named(shown, &photo.file, "A picture of this trial");
                }
                Small::Coming(_) => {
                    ui.spinner();
                }
                Small::None => {
                    let words = format!("{} is missing or no picture", photo.file);
                    ui.label(RichText::new(words).color(Tokens::of(ui).caution));
                }
            }
            let detach = ui.button("Detach");
            let name = format!("Detach {}", photo.file);
            let teach = "Take it out of the trial; the file stays beside the document";
            if named(detach, &name, teach).clicked() {
                outbox.intent(Intent::DetachPhoto(trial, place));
            }
        });
    }
}

/// Reads and decodes a picture away from the window.
fn begin(ctx: &Context, session: &Session, photo: &Photo) -> Small {
    let Some(document) = session.pictures_of().cloned() else {
        return Small::None;
    };
    let (say, hear) = channel();
    let (wake, file) = (ctx.clone(), photo.file.clone());
    let spawned = std::thread::Builder::new()
        .name("small picture".to_owned())
        .spawn(move || {
            // Nobody listens any more when the window has closed.
            let found = read_photo(&document, &file).ok();
            let found = found.and_then(|bytes| thumbnail(&bytes, SIDE));
            if say.send(found).is_ok() {
                wake.request_repaint();
            }
        });
    spawned.map_or(Small::None, |_| Small::Coming(hear))
}

/// Puts a picture that has come onto the screen.
fn settle(ctx: &Context, small: &mut Small, name: &str) {
    let Small::Coming(hear) = small else {
        return;
    };
    let found = match hear.try_recv() {
        Ok(found) => found,
        Err(std::sync::mpsc::TryRecvError::Empty) => return,
        Err(std::sync::mpsc::TryRecvError::Disconnected) => None,
    };
    *small = found.map_or(Small::None, |found| {
        let image = ColorImage::from_rgba_unmultiplied(found.size, &found.rgba);
        Small::Shown(ctx.load_texture(name, image, TextureOptions::LINEAR))
    });
}
