//! Words of a step for the history: what was changed, by name, and to what.

use super::edit::Edit;
use super::larder_edit::LarderEdit;
use super::text::pour_name;
use super::trial_edit::TrialEdit;
use crate::model::{Document, Source, SpecId, Trial, TrialId};

/// What an edit did: its own words, with the names and the values that the documents before and after it
/// know.
pub(super) fn step_label(edit: &Edit, before: &Document, after: &Document) -> String {
    let both = Both { before, after };
    let named = match edit {
        Edit::Trial(edit) => both.of_trials(edit),
        Edit::Larder(edit) => both.of_larder(edit),
        Edit::AddPour { .. }
        | Edit::RemovePour { .. }
        | Edit::MovePour { .. }
        | Edit::Swap { .. }
        | Edit::SetSource { .. } => both.of_list(edit),
        Edit::RenameSpec { .. }
        | Edit::DescribeTrial { .. }
        | Edit::SetState { .. }
        | Edit::GrowTrial { .. }
        | Edit::SetGlass { .. }
        | Edit::RemoveSpec { .. }
        | Edit::SetCurrency { .. }
        | Edit::SetTitle { .. } => both.of_drink(edit),
        edit => both.of_pour(edit),
    };
    named.unwrap_or_else(|| edit.label())
}

/// The document around a step.
#[derive(Clone, Copy)]
struct Both<'a> {
    before: &'a Document,
    after: &'a Document,
}

impl<'a> Both<'a> {
    /// A trial as it was, in the bin or not.
    fn trial(self, id: TrialId) -> Option<&'a Trial> {
        let specs = self.before.specs.iter();
        let mut all = specs.flat_map(|spec| spec.trials_and_bin());
        all.find(|trial| trial.id == id).map(|trial| &**trial)
    }

    fn drink(self, id: SpecId) -> Option<&'a str> {
        Some(&self.before.spec(id)?.name)
    }

    /// Name of a pour as it was.
    fn pour(self, trial: TrialId, pour: usize) -> Option<&'a str> {
        let trial = self.trial(trial)?;
        trial.pours.get(pour)?;
        Some(pour_name(self.before, trial, pour))
    }

    /// Name and amount of a pour as it is now.
    fn poured(self, trial: TrialId, pour: usize) -> Option<(&'a str, String)> {
        let (_, trial) = self.after.trial(trial)?;
        let found = trial.pours.get(pour)?;
        let amount = match found.amount.value() {
            Some(value) => found.amount_text(value, &self.after.measures),
            None => return None,
        };
        Some((pour_name(self.after, trial, pour), amount))
    }

    fn of_pour(self, edit: &Edit) -> Option<String> {
        Some(match edit {
            Edit::SetAmount { trial, pour, .. } => {
                let (name, amount) = self.poured(*trial, *pour)?;
                format!("{name}: {amount}")
            }
            Edit::MoveTogether { trial, pour, .. } => {
                let (name, amount) = self.poured(*trial, *pour)?;
                format!("{name}: {amount}, others along")
            }
            Edit::SetLocked {
                trial,
                pour,
                locked,
            } => {
                let verb = if *locked { "Lock" } else { "Unlock" };
                format!("{verb} {}", self.pour(*trial, *pour)?)
            }
            Edit::SetRole { trial, pour, role } => {
                format!("{}: job {}", self.pour(*trial, *pour)?, role.name())
            }
            Edit::SetAdded { trial, pour, added } => {
                format!("{}: {}", self.pour(*trial, *pour)?, added.name())
            }
            Edit::SetPlace {
                trial,
                pour: Some(pour),
                place,
            } => {
                let name = self.pour(*trial, *pour)?;
                match place {
                    Some(place) => format!("{name}: from the {}", place.name()),
                    None => format!("{name}: kept where usual"),
                }
            }
            Edit::SetLimits { trial, pour, .. } => {
                format!("{}: notch and limits", self.pour(*trial, *pour)?)
            }
            _ => return None,
        })
    }

    fn of_list(self, edit: &Edit) -> Option<String> {
        Some(match edit {
            Edit::AddPour { trial, .. } => {
                let (_, now) = self.after.trial(*trial)?;
                let last = now.pours.len().checked_sub(1)?;
                match self.poured(*trial, last) {
                    Some((name, amount)) => format!("Add {name}: {amount}"),
                    None => format!("Add {}", pour_name(self.after, now, last)),
                }
            }
            Edit::RemovePour { trial, pour } => format!("Remove {}", self.pour(*trial, *pour)?),
            Edit::MovePour { trial, from, to } => {
                let way = if to < from { "up" } else { "down" };
                format!("Move {} {way}", self.pour(*trial, *from)?)
            }
            Edit::Swap {
                trial,
                pour,
                ingredient,
                ..
            } => {
                let was = self.pour(*trial, *pour)?;
                format!("{} in place of {was}", ingredient.name)
            }
            Edit::SetSource {
                trial,
                pour,
                source,
            } => {
                let was = self.pour(*trial, *pour)?;
                match source {
                    Source::Lot(lot) => {
                        let lot = self.after.lots.get(lot)?;
                        format!("{was}: lot {}", lot.label)
                    }
                    Source::Ingredient(_) => format!("{was}: any lot"),
                    Source::Preparation { .. } => format!("{was}: the house-made one"),
                }
            }
            _ => return None,
        })
    }

    fn of_drink(self, edit: &Edit) -> Option<String> {
        Some(match edit {
            Edit::RenameSpec { spec, name } => format!("Rename {} to {name}", self.drink(*spec)?),
            Edit::DescribeTrial { trial, name, .. } => {
                let was = self.trial(*trial)?;
                if was.name == *name {
                    format!("Notes of {name}")
                } else {
                    format!("Rename {} to {name}", was.name)
                }
            }
            Edit::SetState { trial, state } => {
                format!("Mark {} as {}", self.trial(*trial)?.name, state.name())
            }
            Edit::GrowTrial { from, .. } => format!("New trial from {}", self.trial(*from)?.name),
            Edit::SetGlass { spec, glass } => {
                let was = self.before.spec(*spec)?.glass.name.clone();
                if was == glass.name {
                    format!("Change the glass: {was}")
                } else {
                    format!("Glass: {}", glass.name)
                }
            }
            Edit::RemoveSpec { spec } => format!("Remove {}", self.drink(*spec)?),
            Edit::SetCurrency { currency } => format!("Currency: {currency}"),
            Edit::SetTitle { title } => format!("Title: {title}"),
            _ => return None,
        })
    }

    fn of_trials(self, edit: &TrialEdit) -> Option<String> {
        let name = |id: &TrialId| self.trial(*id).map(|trial| trial.name.as_str());
        Some(match edit {
            TrialEdit::Star { trial, on: true } => format!("Star {}", name(trial)?),
            TrialEdit::Star { trial, .. } => format!("Take the star off {}", name(trial)?),
            TrialEdit::Archive { trial, on: true } => format!("Put {} aside", name(trial)?),
            TrialEdit::Archive { trial, .. } => format!("Take {} up again", name(trial)?),
            TrialEdit::Bin { trial } => format!("Throw {} away", name(trial)?),
            TrialEdit::Restore { trial } => format!("Bring {} back", name(trial)?),
            TrialEdit::Record { trial, .. } => {
                format!("Keep what was poured of {}", name(trial)?)
            }
            TrialEdit::ForgetRun { trial, .. } => {
                format!("Forget what was poured of {}", name(trial)?)
            }
            TrialEdit::GrowFromRun { trial, .. } => {
                format!("New trial as {} was poured", name(trial)?)
            }
            TrialEdit::CopyPour { from, to } => {
                let pour = self.pour(from.0, from.1)?;
                format!("{pour} of {} into {}", name(&from.0)?, name(to)?)
            }
            TrialEdit::CopyPours { from, to } => {
                format!("All pours of {} into {}", name(from)?, name(to)?)
            }
            TrialEdit::Merge { from, other, .. } => {
                format!("New trial from {} and {}", name(from)?, name(other)?)
            }
            TrialEdit::SetPhotos { trial, .. } => format!("Pictures of {}", name(trial)?),
            TrialEdit::Several(_) => return None,
        })
    }

    fn of_larder(self, edit: &LarderEdit) -> Option<String> {
        Some(match edit {
            LarderEdit::Remove(id) => {
                let row = self.before.ingredients.get(id)?;
                format!("Remove {}", row.name)
            }
            LarderEdit::RemoveLot(id) => {
                format!("Remove lot {}", self.before.lots.get(id)?.label)
            }
            _ => return None,
        })
    }
}
