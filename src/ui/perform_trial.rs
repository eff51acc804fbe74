//! Commands of the trial on screen: grow it, take a proposal, aim at it.

use super::page::Page;
use super::taking::Taking;
use super::window::Window;
use crate::model::{MadeBy, Target, Trial};
use crate::service::Field;
use crate::session::{Command, Edit};

impl Window {
    pub(super) fn trial_command(&mut self, command: Command) {
        let Some(trial) = self.session.trial().cloned() else {
            return;
        };
        if command == Command::NextProposal {
            if !self.view.cards.step(&self.session) {
                self.say_in_passing("There is no proposal to preview.");
            }
            return;
        }
        let edit = match command {
            Command::NewTrial => Some(Edit::GrowTrial {
                from: trial.id,
                reason: String::new(),
                changes: Vec::new(),
                made_by: MadeBy::Hand,
            }),
            Command::ApplyFirst | Command::KeepFirst => self.take_first(&trial, command),
            Command::TargetHere => self.target_here(),
            Command::RemoveDrink => self
                .session
                .selection()
                .spec
                .map(|spec| Edit::RemoveSpec { spec }),
            _ => None,
        };
        match edit {
            Some(edit) => {
                if let Err(error) = self.session.edit(&edit) {
                    self.say(format!("{}: {error}.", edit.label()));
                }
            }
            None if command == Command::TargetHere => {
                self.say_in_passing("There is no balance to aim at: pour something first.");
            }
            None => self.say_in_passing("There is no proposal to take."),
        }
    }

    /// Applies or keeps what is ticked of the first proposal; `None` where there is nothing to take.
    fn take_first(&self, trial: &Trial, command: Command) -> Option<Edit> {
        let answer = self.session.derived()?.answer.as_ref().ok()?;
        let proposal = answer.proposals.first()?;
        let taken = self.view.cards.taken(&self.session, 0, proposal);
        let taking = Taking {
            session: &self.session,
            trial,
            proposal,
            taken: &taken,
        };
        (!taken.is_empty()).then(|| match command {
            Command::KeepFirst => taking.keep(),
            _ => taking.apply(),
        })
    }

    fn target_here(&self) -> Option<Edit> {
        let figures = self.session.derived()?.figures.as_ref().ok()?;
        Some(Edit::SetTarget {
            spec: self.session.selection().spec?,
            target: Some(Target::at(
                figures.point,
                self.session.trial()?.name.clone(),
            )),
        })
    }

    /// Shows the other one of the two trials that stand side by side.
    pub(super) fn flick(&mut self) {
        let compare = &mut self.view.trials.compare;
        let Some((one, other)) = compare.pair(&self.session) else {
            self.say_in_passing("There is no second trial to flick to.");
            return;
        };
        // What is not ticked follows the trial on screen, so the pair is kept before that changes.
        compare.keep(one, other);
        let here = self.session.selection().trial;
        self.session
            .select_trial(if here == Some(other) { one } else { other });
    }

    pub(super) fn step_trial(&mut self, forward: bool) {
        let Some(spec) = self.session.spec() else {
            return;
        };
        let here = spec
            .trials
            .iter()
            .position(|trial| Some(trial.id) == self.session.selection().trial);
        let next = here.and_then(|here| {
            let there = if forward {
                here.checked_add(1)?
            } else {
                here.checked_sub(1)?
            };
            spec.trials.get(there)
        });
        if let Some(id) = next.map(|trial| trial.id) {
            self.session.select_trial(id);
        }
    }

    /// Shows where something of an entry is written.
    pub(super) fn lead_to(&mut self, field: Field) {
        let here = self.view.submission.lead_to(field);
        self.view.page = match field {
            _ if here => Page::Submission,
            Field::HouseMade => Page::House,
            Field::Allergens => Page::Larder,
            _ => Page::Balance,
        };
    }
}
