//! The desktop's file dialog, on its own thread; never the only way to a path.

use eframe::egui::Context;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// A refusal sooner than this was no person's: there is no file dialog on this desktop.
const TOO_QUICK: Duration = Duration::from_millis(700);
/// After this long without an answer a word is due: the dialog may never have appeared.
const PATIENCE: Duration = Duration::from_secs(2);

/// What a path is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// A document to open.
    Document,
    /// A name to save a document under.
    DocumentName,
    /// A table to import.
    Table,
    /// A name to write a table under.
    TableName,
    /// A name to write a sheet under.
    SheetName,
    /// A recipe to import.
    Recipe,
    /// A picture to attach.
    Picture,
    /// A name to write a substitution table under.
    SubstitutionsName,
}

/// What the dialog's thread says: the path, and how long it took.
type Answer = (Option<PathBuf>, Duration);

/// Asks for a path without blocking the window.
#[derive(Debug, Default)]
pub(super) struct FileBrowser {
    waiting: Option<(Receiver<Answer>, Instant)>,
    trouble: Option<&'static str>,
    /// Where a path was chosen last.
    folder: Option<PathBuf>,
}

impl FileBrowser {
    /// Opens the desktop's dialog unless one is open already.
    pub(super) fn ask(&mut self, wanted: Wanted, ctx: &Context) {
        if self.waiting.is_some() {
            return;
        }
        self.trouble = None;
        let (say, hear) = channel();
        let wake = ctx.clone();
        let since = Instant::now();
        let folder = self.folder.clone().filter(|folder| folder.is_dir());
        let spawned = thread::Builder::new()
            .name("file dialog".to_owned())
            .spawn(move || {
                let dialog = rfd::FileDialog::new();
                let dialog = match folder {
                    Some(folder) => dialog.set_directory(folder),
                    None => dialog,
                };
                let documents = |dialog: rfd::FileDialog| dialog.add_filter("Documents", &["ron"]);
                let tables = |dialog: rfd::FileDialog| {
                    dialog.add_filter("Tables", &["csv", "tsv", "tab", "txt"])
                };
                let chosen = match wanted {
                    Wanted::Document => documents(dialog).pick_file(),
                    Wanted::DocumentName => {
                        documents(dialog).set_file_name("twist.ron").save_file()
                    }
                    Wanted::Table => tables(dialog).pick_file(),
                    Wanted::Picture => dialog
                        .add_filter("Pictures", &["jpg", "jpeg", "png"])
                        .pick_file(),
                    Wanted::Recipe => dialog
                        .add_filter("Recipes", &["json", "jsonld", "html", "htm"])
                        .pick_file(),
                    Wanted::SheetName => dialog.set_file_name("sheet.pdf").save_file(),
                    Wanted::SubstitutionsName => {
                        tables(dialog).set_file_name("substitutes.csv").save_file()
                    }
                    Wanted::TableName => tables(dialog).set_file_name("larder.csv").save_file(),
                };
                if say.send((chosen, since.elapsed())).is_ok() {
                    wake.request_repaint();
                }
            });
        match spawned {
            Ok(_) => {
                self.waiting = Some((hear, since));
                ctx.request_repaint_after(PATIENCE);
            }
            Err(_) => self.trouble = Some("No file dialog could be started: type the path."),
        }
    }

    /// The path that was chosen, once.
    pub(super) fn answer(&mut self) -> Option<PathBuf> {
        let (hear, since) = self.waiting.as_ref()?;
        match hear.try_recv() {
            Ok((answer, took)) => {
                self.waiting = None;
                let refused = answer.is_none() && took < TOO_QUICK;
                self.trouble =
                    refused.then_some("This desktop offers no file dialog: type the path.");
                if let Some(folder) = answer.as_ref().and_then(|path| path.parent()) {
                    self.folder = Some(folder.to_owned());
                }
                answer
            }
            Err(TryRecvError::Empty) => {
                if since.elapsed() >= PATIENCE {
                    self.trouble = Some("No dialog has appeared? Type the path.");
                }
                None
            }
            Err(TryRecvError::Disconnected) => {
                self.waiting = None;
                self.trouble = Some("The file dialog ended without an answer: type the path.");
                None
            }
        }
    }

    /// Opens the next dialog in this folder.
    pub(super) fn begin_in(&mut self, folder: Option<PathBuf>) {
        self.folder = folder.filter(|folder| !folder.as_os_str().is_empty());
    }

    /// Where a path was chosen last.
    pub(super) fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// What went wrong, in words.
    pub(super) fn trouble(&self) -> Option<&'static str> {
        self.trouble
    }
}
