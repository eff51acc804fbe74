//! The desktop's file dialog, on its own thread; never the only way to a path.

use eframe::egui::Context;
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// An answer sooner than this was no person's: there is no file dialog on this desktop.
const TOO_QUICK: Duration = Duration::from_millis(200);

/// Asks for a path without blocking the window.
#[derive(Debug, Default)]
pub(super) struct FileBrowser {
    waiting: Option<(Receiver<Option<PathBuf>>, Instant)>,
    trouble: Option<&'static str>,
}

impl FileBrowser {
    /// Opens the desktop's dialog unless one is open already.
    pub(super) fn ask(&mut self, saving: bool, ctx: &Context) {
        if self.waiting.is_some() {
            return;
        }
        self.trouble = None;
        let (say, hear) = channel();
        let ctx = ctx.clone();
        let spawned = thread::Builder::new()
            .name("file dialog".to_owned())
            .spawn(move || {
                let dialog = rfd::FileDialog::new().add_filter("Documents", &["ron"]);
                let chosen = if saving {
                    dialog.set_file_name("twist.ron").save_file()
                } else {
                    dialog.pick_file()
                };
                if say.send(chosen).is_ok() {
                    ctx.request_repaint();
                }
            });
        match spawned {
            Ok(_) => self.waiting = Some((hear, Instant::now())),
            Err(_) => self.trouble = Some("No file dialog could be started: type the path."),
        }
    }

    /// The path that was chosen, once.
    pub(super) fn answer(&mut self) -> Option<PathBuf> {
        let (hear, since) = self.waiting.as_ref()?;
        let answer = match hear.try_recv() {
            Ok(answer) => answer,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => {
                self.trouble = Some("The file dialog ended without an answer: type the path.");
                None
            }
        };
        if answer.is_none() && since.elapsed() < TOO_QUICK {
            self.trouble = Some("This desktop offers no file dialog: type the path.");
        }
        self.waiting = None;
        answer
    }

    /// What went wrong, in words.
    pub(super) fn trouble(&self) -> Option<&'static str> {
        self.trouble
    }
}
