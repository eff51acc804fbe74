//! The full report of how sure a trial is: many seeded draws on a thread of their own.

use super::derived::assumed;
use super::job::{Ended, Job};
use super::open_document::Session;
use super::text::pour_name;
use crate::balance::{Drink, Input, MonteCarlo, Report, Share};
use crate::model::{Document, Trial, TrialId};
use crate::units::{number, percent};

/// Sources of error that the text names.
const NAMED: usize = 8;
/// Most draws of one report.
pub const MOST_DRAWS: usize = 1_000_000;

/// What was asked of a report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReportAsk {
    /// How many drinks are drawn.
    pub draws: usize,
    /// The same seed gives the same report.
    pub seed: u64,
}

impl Default for ReportAsk {
    fn default() -> Self {
        Self {
            draws: 10_000,
            seed: 1,
        }
    }
}

/// A finished report and what it is of.
#[derive(Clone, Debug)]
pub struct Reported {
    /// What was asked.
    pub ask: ReportAsk,
    /// The trial.
    pub trial: TrialId,
    /// Revision of the document it was drawn from.
    pub revision: u64,
    /// The report.
    pub report: Report,
    /// Where its error comes from, in words, with its share, the largest first.
    pub sources: Vec<(String, f64)>,
}

/// A report that is being drawn.
#[derive(Debug)]
struct Running {
    job: Job<Report>,
    ask: ReportAsk,
    trial: TrialId,
    sources: Vec<(String, f64)>,
}

/// The report that runs and the last one that ended.
#[derive(Debug, Default)]
pub(super) struct Reporting {
    running: Option<Running>,
    last: Option<Reported>,
}

impl Session {
    /// Begins a report of the trial on screen; one that runs is cancelled.
    ///
    /// `wake` is called when it ends. Fails in words when there is no drink to draw.
    pub fn ask_report(
        &mut self,
        ask: ReportAsk,
        wake: impl FnOnce() + Send + 'static,
    ) -> Result<(), String> {
        let document = self.document().clone();
        let (spec, trial) = self
            .selection()
            .trial
            .and_then(|id| document.trial(id))
            .ok_or("there is no trial on screen")?;
        let pantry = self.pantry();
        let target = spec.target.as_ref().map(|target| target.point);
        let prepared = Drink::of_trial(&document, trial, pantry)
            .and_then(|drink| {
                let assumed = assumed(&document, spec, trial);
                MonteCarlo::prepare(&assumed, &drink, target, pantry)
            })
            .map_err(|error| error.to_string())?;
        let draws = ask.draws.clamp(1, MOST_DRAWS);
        let revision = self.revision();
        let job = Job::start("report", draws, revision, wake, move |reins| {
            prepared.run(draws, ask.seed, &reins.done, &reins.cancelled)
        })
        .map_err(|error| error.to_string())?;
        let sources = sources(self, &document, trial);
        self.reporting.running = Some(Running {
            job,
            ask,
            trial: trial.id,
            sources,
        });
        Ok(())
    }

    /// Takes a report that has ended; its words when it went wrong.
    pub fn take_report(&mut self) -> Option<String> {
        let ended = self.reporting.running.as_mut()?.job.take()?;
        let Running {
            job,
            ask,
            trial,
            sources,
        } = self.reporting.running.take()?;
        match ended {
            Ended::Done(report) => {
                self.reporting.last = Some(Reported {
                    ask,
                    trial,
                    revision: job.revision(),
                    report,
                    sources,
                });
                None
            }
            Ended::Cancelled => None,
            Ended::Failed => Some("The report broke down; nothing was changed.".to_owned()),
        }
    }

    /// Share of the running report that is done, 0 to 1; `None` when none runs.
    pub fn report_progress(&self) -> Option<f32> {
        Some(self.reporting.running.as_ref()?.job.progress())
    }

    /// Stops the running report.
    pub fn cancel_report(&mut self) {
        if let Some(running) = &self.reporting.running {
            running.job.cancel();
        }
    }

    /// The last finished report of the trial on screen.
    pub fn report(&self) -> Option<&Reported> {
        self.reporting
            .last
            .as_ref()
            .filter(|last| Some(last.trial) == self.selection().trial)
    }
}

/// Where an error comes from, in words.
pub fn input_text(document: &Document, trial: &Trial, input: &Input) -> String {
    match input {
        Input::Dilution => "water from ice".to_owned(),
        Input::Pour(pour) => format!("pouring the {}", pour_name(document, trial, *pour)),
        Input::Figure { pour, figure } => {
            format!("{}: {}", pour_name(document, trial, *pour), figure.name())
        }
    }
}

/// What to measure next, in a sentence, for the largest source of error.
pub fn measure_next(document: &Document, trial: &Trial, largest: &Share) -> String {
    let share = percent(largest.share, 0);
    match largest.input {
        Input::Dilution => format!(
            "Weigh this drink before and after ice: {share} of the error is the water it takes up."
        ),
        Input::Pour(pour) => format!(
            "Pour the {} by weight: {share} of the error is the pouring itself.",
            pour_name(document, trial, pour)
        ),
        Input::Figure { pour, figure } => format!(
            "Measure the {} of the {} next: {share} of the error is there.",
            figure.name(),
            pour_name(document, trial, pour)
        ),
    }
}

/// The last report of the trial on screen as text; empty without one.
pub fn report_text(session: &Session) -> String {
    let (Some(found), Some(trial), Some(spec)) =
        (session.report(), session.trial(), session.spec())
    else {
        return String::new();
    };
    let report = &found.report;
    let mut lines = vec![
        format!("{} – {}", spec.name, trial.name),
        format!(
            "{} drinks drawn, seed {}. Predictions, not measurements.",
            found.ask.draws, found.ask.seed
        ),
    ];
    for (name, decimals, figure) in [
        ("sweet, g/L", 1, &report.sweet),
        ("sour, g/L", 2, &report.sour),
        ("strength, % vol", 2, &report.strength),
        ("served, ml", 1, &report.volume_ml),
        ("water over volume before ice", 3, &report.dilution),
    ] {
        let text = |value: f64| number(value, decimals);
        lines.push(format!(
            "{name}: {}; 19 of 20 from {} to {}",
            text(figure.mean),
            text(figure.low),
            text(figure.high)
        ));
    }
    if let Some(close) = &report.closeness {
        lines.push(format!(
            "within one noticeable difference of the target: {}",
            percent(close.within_one, 0)
        ));
    }
    for (name, share) in &found.sources {
        lines.push(format!("{} of the error: {name}", percent(*share, 0)));
    }
    if found.revision != session.revision() {
        lines.push("The document has changed since: draw again.".to_owned());
    }
    lines.join("\n")
}

/// Where the error of the trial on screen comes from, in words.
fn sources(session: &Session, document: &Document, trial: &Trial) -> Vec<(String, f64)> {
    let sure = session
        .derived()
        .and_then(|derived| derived.uncertainty.as_ref());
    let shares = sure.iter().flat_map(|sure| &sure.shares).take(NAMED);
    shares
        .map(|share| (input_text(document, trial, &share.input), share.share))
        .collect()
}
