//! Distance against change for the trial on screen, worked out on a thread of its own.

use super::derived::question_of;
use super::job::{Job, Reins};
use super::open_document::{Selection, Session};
use super::rules_asked::UnderRules;
use crate::balance::Drink;
use crate::rebalance::{MOST_ON_FRONT, Proposal, front_while};
use std::sync::atomic::Ordering;

/// Between no change and nearest: proposals of which none comes nearer without changing more.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeOff {
    /// Distance of the drink as it is, noticeable steps.
    pub distance_now: f64,
    /// The proposals, the smallest change first; each changes something.
    pub points: Vec<Proposal>,
}

type Found = Result<TradeOff, String>;
/// Revision and selection that an answer belongs to.
type Asked = (u64, Selection);

/// The one that is being worked out, and the last one that is known.
#[derive(Debug, Default)]
pub(super) struct TradingOff {
    running: Option<(Job<Found>, Selection)>,
    last: Option<(Asked, Found)>,
    /// What a person does not want to be worked out.
    stopped: Option<Asked>,
}

impl Session {
    /// Sees to it that the trade-off of the trial on screen gets known; one is worked out at a time.
    ///
    /// `wake` is called when it is ready to be taken.
    pub fn want_trade_off(&mut self, wake: impl FnOnce() + Send + 'static) {
        let asked = (self.revision(), self.selection());
        let known = matches!(&self.trading_off.last, Some((of, _)) if *of == asked);
        let stopped = self.trading_off.stopped == Some(asked);
        if known || stopped || self.trading_off.running.is_some() {
            return;
        }
        let begun = self.begin_trade_off(wake);
        match begun {
            Ok(job) => self.trading_off.running = Some((job, asked.1)),
            Err(reason) => self.trading_off.last = Some((asked, Err(reason))),
        }
    }

    fn begin_trade_off(
        &mut self,
        wake: impl FnOnce() + Send + 'static,
    ) -> Result<Job<Found>, String> {
        let document = self.document().clone();
        let (spec, trial) = self
            .selection()
            .trial
            .and_then(|id| document.trial(id))
            .ok_or("there is no trial on screen")?;
        let drink = Drink::of_trial(&document, trial, self.pantry());
        let under = UnderRules::of(&document, spec, trial, self.pantry());
        let question = question_of(&document, &under, drink)?;
        let distance_now = self
            .derived()
            .and_then(|derived| derived.distance)
            .unwrap_or(f64::INFINITY);
        let nearest = self.nearest_card();
        let work = move |reins: &Reins| {
            let points = front_while(&question, |done| {
                reins.done.store(done, Ordering::Relaxed);
                !reins.cancelled.load(Ordering::Relaxed)
            });
            let mut points = points.map_err(|error| error.to_string())?;
            if let Some(nearest) = nearest.filter(|card| card.distance < distance_now) {
                end_with(&mut points, nearest);
            }
            Ok(TradeOff {
                distance_now,
                points,
            })
        };
        Job::start(
            "trade-off",
            MOST_ON_FRONT,
            self.revision(),
            wake,
            move |reins| {
                let found = work(reins);
                (!reins.cancelled.load(Ordering::Relaxed)).then_some(found)
            },
        )
        .map_err(|error| error.to_string())
    }

    /// The proposal on the cards that lands nearest.
    fn nearest_card(&self) -> Option<Proposal> {
        let answer = self.derived()?.answer.as_ref().ok()?;
        let cards = answer.proposals.iter();
        cards
            .min_by(|one, other| one.distance.total_cmp(&other.distance))
            .cloned()
    }

    /// Takes an answer that is ready; one that the document has overtaken is dropped.
    pub fn take_trade_off(&mut self) {
        let Some((job, of)) = &mut self.trading_off.running else {
            return;
        };
        let Some(ended) = job.take() else {
            return;
        };
        let asked = (job.revision(), *of);
        self.trading_off.running = None;
        let Some(found) = ended.answer() else {
            return;
        };
        if asked == (self.revision(), self.selection()) {
            self.trading_off.last = Some((asked, found));
        }
    }

    /// Gives up what is being worked out; its answer will be dropped.
    pub fn forget_trade_off(&mut self) {
        self.trading_off.running = None;
    }

    /// Stops working out the trade-off of the trial as it is, until it is asked for again.
    pub fn stop_trade_off(&mut self) {
        self.trading_off.running = None;
        self.trading_off.stopped = Some((self.revision(), self.selection()));
    }

    /// Wants the trade-off again after it was stopped.
    pub fn resume_trade_off(&mut self) {
        self.trading_off.stopped = None;
    }

    /// True when the trade-off of the trial as it is was stopped.
    pub fn is_trade_off_stopped(&self) -> bool {
        self.trading_off.stopped == Some((self.revision(), self.selection()))
    }

    /// How much of the trade-off is worked out, 0 to 1; `None` while none is.
    pub fn trade_off_progress(&self) -> Option<f32> {
        let (job, _) = self.trading_off.running.as_ref()?;
        Some(job.progress())
    }

    /// True while a trade-off is being worked out.
    pub fn is_trading_off(&self) -> bool {
        self.trading_off.running.is_some()
    }

    /// The trade-off of the trial on screen as it is now, or why there is none; `None` while it is
    /// not known.
    pub fn trade_off(&self) -> Option<Result<&TradeOff, &str>> {
        let (of, found) = self.trading_off.last.as_ref()?;
        let fresh = *of == (self.revision(), self.selection());
        fresh.then(|| found.as_ref().map_err(String::as_str))
    }

    /// The last known trade-off of the trial on screen, of before an edit; only to be looked at.
    pub fn earlier_trade_off(&self) -> Option<&TradeOff> {
        let ((_, of), found) = self.trading_off.last.as_ref()?;
        found.as_ref().ok().filter(|_| *of == self.selection())
    }
}

/// Puts the nearest proposal at the end, unless the points come as near already; what changes as much
/// without coming as near goes.
fn end_with(points: &mut Vec<Proposal>, nearest: Proposal) {
    let reached = |point: &Proposal| point.distance <= nearest.distance;
    if points.iter().any(reached) {
        return;
    }
    points.retain(|point| point.change_steps < nearest.change_steps);
    points.push(nearest);
}
