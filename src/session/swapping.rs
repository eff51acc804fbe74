//! Swaps of the trial on screen: looked for on a thread of their own, kept as long as they are true.

use super::job::{Job, Reins};
use super::open_document::Session;
use super::rules_asked::UnderRules;
use crate::balance::Pantry;
use crate::model::{Document, ScaleRule, TrialId, batch_rows};
use crate::rebalance::{
    CandidateAsk, Candidates, LarderItem, Replacement, Split, SplitRule, SubstitutionAsk,
    Substitutions, Swap, SwapAim, SwapError, candidates, split, substitutions, swap,
};
use crate::store::Builtin;
use std::mem::discriminant;
use std::sync::Arc;

/// What is asked of a trial.
#[derive(Clone, Debug, PartialEq)]
pub struct SwapAsk {
    /// The trial.
    pub trial: TrialId,
    /// The balance that is to come back.
    pub aim: SwapAim,
    /// What stays fixed, at what it is in the trial.
    pub hold: ScaleRule,
    /// What is looked for.
    pub what: SwapWhat,
}

/// What is looked for.
#[derive(Clone, Debug, PartialEq)]
pub enum SwapWhat {
    /// Everything of the larder that can take a pour's place.
    Candidates(CandidateAsk),
    /// These ingredients in these pours.
    These(Vec<Replacement>),
    /// A pour split over what it pours and a second ingredient.
    Split(Replacement, SplitRule),
    /// The best substitutes for every pour.
    Table(SubstitutionAsk),
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum SwapFound {
    /// What can take a pour's place.
    Candidates(Candidates),
    /// One swap.
    These(Box<Swap>),
    /// One split.
    Split(Box<Split>),
    /// The best substitutes for every pour.
    Table(Substitutions),
}

/// An answer with the document it is true of; a reason in words where there is none.
#[derive(Clone, Debug)]
struct Answered {
    ask: SwapAsk,
    revision: u64,
    found: Result<SwapFound, String>,
}

/// A search that runs.
#[derive(Debug)]
struct Running {
    job: Job<Result<SwapFound, SwapError>>,
    ask: SwapAsk,
}

/// The search that runs and the last answer of each kind.
#[derive(Debug, Default)]
pub(super) struct Swapping {
    running: Option<Running>,
    answers: Vec<Answered>,
}

/// Ingredients to choose from: the document's own that are no lot and not retired, then built-in
/// ones that it holds no copy of.
pub fn swap_larder(document: &Document, builtin: &Builtin) -> Vec<LarderItem> {
    let batches = batch_rows(document);
    let own = document.ingredients.iter();
    let own = own.filter(|(id, item)| !item.retired && !batches.contains(id));
    let brought = builtin.larder.iter();
    let brought = brought.filter(|(id, _)| !document.ingredients.contains_key(*id));
    own.chain(brought)
        .map(|(id, item)| (id.clone(), Arc::clone(item)))
        .collect()
}

impl Session {
    /// Begins a search; one that runs is cancelled. `wake` is called when it ends.
    ///
    /// Fails in words when there is no such trial or no thread.
    pub fn ask_swap(
        &mut self,
        ask: SwapAsk,
        wake: impl FnOnce() + Send + 'static,
    ) -> Result<(), String> {
        let document = Arc::clone(self.document());
        let Some((_, trial)) = document.trial(ask.trial) else {
            return Err("the trial is no longer there".to_owned());
        };
        let larder = match ask.what {
            SwapWhat::Candidates(_) | SwapWhat::Table(_) => swap_larder(&document, self.builtin()),
            SwapWhat::These(_) | SwapWhat::Split(..) => Vec::new(),
        };
        let parts = match &ask.what {
            SwapWhat::Candidates(what) => what.parts(larder.len()),
            SwapWhat::Table(what) => what.parts(trial.pours.len(), larder.len()),
            SwapWhat::These(_) | SwapWhat::Split(..) => 1,
        };
        // What is known of the larder is known to the thread, too.
        let mut pantry = self.pantry().clone();
        let (asked, revision) = (ask.clone(), self.revision());
        let job = Job::start("swap", parts, revision, wake, move |reins| {
            found(&document, &asked, &larder, &mut pantry, reins).transpose()
        })
        .map_err(|error| error.to_string())?;
        self.swapping.running = Some(Running { job, ask });
        Ok(())
    }

    /// Takes an answer that has come. An answer about an earlier state of the document is dropped.
    pub fn take_swap(&mut self) {
        let running = self.swapping.running.as_mut();
        let Some(ended) = running.and_then(|running| running.job.take()) else {
            return;
        };
        let Some(Running { job, ask }) = self.swapping.running.take() else {
            return;
        };
        let Some(found) = ended.answer() else {
            return;
        };
        let revision = self.revision();
        let answers = &mut self.swapping.answers;
        let kind = discriminant(&ask.what);
        answers.retain(|one| one.revision == revision && discriminant(&one.ask.what) != kind);
        if job.revision() == revision {
            answers.push(Answered {
                ask,
                revision,
                found,
            });
        }
    }

    /// The answer to a question, if it has come and is still true.
    pub fn swap_answer(&self, ask: &SwapAsk) -> Option<Result<&SwapFound, &str>> {
        let mut answers = self.swapping.answers.iter();
        let known = answers.find(|one| one.revision == self.revision() && one.ask == *ask)?;
        Some(known.found.as_ref().map_err(String::as_str))
    }

    /// What is being looked for.
    pub fn swap_asked(&self) -> Option<&SwapAsk> {
        let running = self.swapping.running.as_ref()?;
        (running.job.revision() == self.revision()).then_some(&running.ask)
    }

    /// Share of the search that is done, 0 to 1; `None` when none runs.
    pub fn swap_progress(&self) -> Option<f32> {
        Some(self.swapping.running.as_ref()?.job.progress())
    }

    /// Stops the search that runs.
    pub fn cancel_swap(&mut self) {
        if let Some(running) = &self.swapping.running {
            running.job.cancel();
        }
    }
}

/// The answer; `None` when it was cancelled.
fn found(
    document: &Document,
    ask: &SwapAsk,
    larder: &[LarderItem],
    pantry: &mut Pantry,
    reins: &Reins,
) -> Result<Option<SwapFound>, SwapError> {
    let Some((spec, trial)) = document.trial(ask.trial) else {
        return Ok(None);
    };
    let under = UnderRules::of(document, spec, trial, pantry);
    let original = under.original(document, (ask.aim, ask.hold), pantry)?;
    let flags = (&reins.done, &reins.cancelled);
    let mut found = match &ask.what {
        SwapWhat::Candidates(what) => {
            candidates(&original, larder, what, pantry, flags)?.map(SwapFound::Candidates)
        }
        SwapWhat::Table(what) => {
            substitutions(&original, larder, what, pantry, flags)?.map(SwapFound::Table)
        }
        SwapWhat::These(replacements) => {
            let found = swap(&original, replacements, pantry)?;
            Some(SwapFound::These(Box::new(found)))
        }
        SwapWhat::Split(second, rule) => {
            let found = split(&original, second, *rule, pantry)?;
            Some(SwapFound::Split(Box::new(found)))
        }
    };
    for swap in found.iter_mut().flat_map(swaps) {
        under.give_back(swap);
    }
    Ok(found)
}

/// Every swap of an answer that can be taken.
fn swaps(found: &mut SwapFound) -> Vec<&mut Swap> {
    match found {
        SwapFound::Candidates(all) => {
            let all = all.found.iter_mut().chain(&mut all.unstated);
            all.filter_map(|one| one.swap.as_mut()).collect()
        }
        SwapFound::Table(table) => {
            let rows = table.rows.iter_mut();
            rows.filter_map(|row| row.candidate.swap.as_mut()).collect()
        }
        SwapFound::These(swap) => vec![swap],
        SwapFound::Split(split) => vec![&mut split.swap],
    }
}
