//! Work that takes longer than a frame: on a thread of its own, with progress and cancel.

use std::fmt::Display;
use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread::{Builder, JoinHandle};

/// What a job shares with its thread.
#[derive(Debug, Default)]
pub struct Reins {
    /// Parts done so far.
    pub done: AtomicUsize,
    /// Set when the answer is no longer wanted.
    pub cancelled: AtomicBool,
}

/// A job that runs, or has just ended.
#[derive(Debug)]
pub struct Job<T> {
    reins: Arc<Reins>,
    total: usize,
    /// Revision of the document that it began with.
    revision: u64,
    thread: Option<JoinHandle<Option<T>>>,
}

/// How a job ended.
#[derive(Clone, Debug, PartialEq)]
pub enum Ended<T> {
    /// With an answer.
    Done(T),
    /// Cancelled before it had one.
    Cancelled,
    /// The thread broke down; nothing was changed.
    Failed,
}

impl<T, E: Display> Ended<Result<T, E>> {
    /// The answer of a search or why there is none, in words; `None` when it was cancelled.
    pub(super) fn answer(self) -> Option<Result<T, String>> {
        match self {
            Self::Done(found) => Some(found.map_err(|error| error.to_string())),
            Self::Cancelled => None,
            Self::Failed => Some(Err("the search broke down; nothing was changed".to_owned())),
        }
    }
}

impl<T: Send + 'static> Job<T> {
    /// Begins `work` of `total` parts on a named thread; `wake` is called when it ends.
    pub fn start(
        name: &str,
        total: usize,
        revision: u64,
        wake: impl FnOnce() + Send + 'static,
        work: impl FnOnce(&Reins) -> Option<T> + Send + 'static,
    ) -> io::Result<Self> {
        let reins = Arc::new(Reins::default());
        let shared = Arc::clone(&reins);
        let thread = Builder::new().name(name.to_owned()).spawn(move || {
            let found = work(&shared);
            wake();
            found
        })?;
        Ok(Self {
            reins,
            total,
            revision,
            thread: Some(thread),
        })
    }

    /// Share done, 0 to 1.
    pub fn progress(&self) -> f32 {
        let done = self.reins.done.load(Ordering::Relaxed);
        (done as f32 / self.total.max(1) as f32).min(1.0)
    }

    /// Revision of the document that it began with.
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    /// Asks the thread to stop; it ends soon.
    pub fn cancel(&self) {
        self.reins.cancelled.store(true, Ordering::Relaxed);
    }

    /// How it ended; `None` while it runs or once this was asked.
    pub fn take(&mut self) -> Option<Ended<T>> {
        if !self.thread.as_ref().is_some_and(JoinHandle::is_finished) {
            return None;
        }
        let found = self.thread.take()?.join();
        Some(match found {
            Ok(Some(answer)) => Ended::Done(answer),
            Ok(None) => Ended::Cancelled,
            Err(_) => Ended::Failed,
        })
    }
}

impl<T> Drop for Job<T> {
    fn drop(&mut self) {
        self.reins.cancelled.store(true, Ordering::Relaxed);
    }
}
