//! Which ingredient would help the trial on screen: looked for on a thread, kept while it is true.

use super::job::Job;
use super::open_document::Session;
use super::rules_asked::UnderRules;
use super::swapping::swap_larder;
use crate::model::TrialId;
use crate::rebalance::{Additions, SwapAim, SwapError, addition_parts, additions};
use std::sync::Arc;

/// Ingredients that are rounded to the pour steps.
const ROUNDED: usize = 20;

/// An answer with the document it is true of; a reason in words where there is none.
#[derive(Clone, Debug)]
struct Answered {
    trial: TrialId,
    revision: u64,
    found: Result<Additions, String>,
}

/// A search that runs.
#[derive(Debug)]
struct Running {
    job: Job<Result<Additions, SwapError>>,
    trial: TrialId,
}

/// The search that runs and the last answer.
#[derive(Debug, Default)]
pub(super) struct Remedying {
    running: Option<Running>,
    answered: Option<Answered>,
}

impl Session {
    /// Begins to look for ingredients that bring a trial nearer to its target; a search that runs
    /// is cancelled. `wake` is called when it ends.
    ///
    /// Fails in words when there is no such trial or no thread.
    pub fn ask_additions(
        &mut self,
        trial: TrialId,
        wake: impl FnOnce() + Send + 'static,
    ) -> Result<(), String> {
        let document = Arc::clone(self.document());
        if document.trial(trial).is_none() {
            return Err("the trial is no longer there".to_owned());
        }
        let larder = swap_larder(&document, self.builtin());
        let parts = addition_parts(larder.len(), ROUNDED);
        // What is known of the larder is known to the thread, too.
        let mut pantry = self.pantry().clone();
        let revision = self.revision();
        let job = Job::start("remedy", parts, revision, wake, move |reins| {
            let (spec, trial) = document.trial(trial)?;
            let how = (SwapAim::Target, spec.balancing.scale_rule);
            let under = UnderRules::of(&document, spec, trial, &mut pantry);
            let original = match under.original(&document, how, &mut pantry) {
                Ok(original) => original,
                Err(error) => return Some(Err(error)),
            };
            let flags = (&reins.done, &reins.cancelled);
            let found = additions(&original, &larder, ROUNDED, &mut pantry, flags).transpose()?;
            Some(found.map(|mut all| {
                let remedies = all.found.iter_mut().filter_map(|one| one.remedy.as_mut());
                remedies.for_each(|remedy| under.give_remedy_back(remedy));
                all
            }))
        })
        .map_err(|error| error.to_string())?;
        self.remedying.running = Some(Running { job, trial });
        Ok(())
    }

    /// Takes an answer that has come. An answer about an earlier state of the document is dropped.
    pub fn take_additions(&mut self) {
        let running = self.remedying.running.as_mut();
        let Some(ended) = running.and_then(|running| running.job.take()) else {
            return;
        };
        let Some(Running { job, trial }) = self.remedying.running.take() else {
            return;
        };
        let Some(found) = ended.answer() else {
            return;
        };
        let revision = self.revision();
        if job.revision() == revision {
            self.remedying.answered = Some(Answered {
                trial,
                revision,
                found,
            });
        }
    }

    /// The ingredients that help a trial, if they were looked for and are still true.
    pub fn additions_of(&self, trial: TrialId) -> Option<Result<&Additions, &str>> {
        let known = self.remedying.answered.as_ref()?;
        let is_true = known.trial == trial && known.revision == self.revision();
        is_true.then(|| known.found.as_ref().map_err(String::as_str))
    }

    /// Share of the search that is done, 0 to 1; `None` when none runs.
    pub fn additions_progress(&self) -> Option<f32> {
        Some(self.remedying.running.as_ref()?.job.progress())
    }

    /// Stops the search that runs.
    pub fn cancel_additions(&mut self) {
        if let Some(running) = &self.remedying.running {
            running.job.cancel();
        }
    }
}
