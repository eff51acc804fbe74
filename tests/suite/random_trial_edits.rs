//! Edits of trials as a whole drawn at random.

use crate::random_edits::Draw;
use equipour::model::{Document, Photo, TrialId};
use equipour::session::{Edit, TrialEdit, planned};

/// Names of pictures, two of which a document cannot hold.
const FILES: [&str; 4] = ["sour.jpg", "sour-2.png", "../sour.jpg", ""];
/// Days of makings, one of which is none.
const DAYS: [&str; 3] = ["", "2026-05-04", "yesterday"];

impl Draw {
    /// A trial of a bin, now and then one that is in none.
    fn thrown_away(&self, document: &Document, trial: TrialId) -> TrialId {
        let bins = document.specs.iter().flat_map(|spec| &spec.bin);
        let all: Vec<TrialId> = bins.map(|trial| trial.id).collect();
        if all.is_empty() {
            trial
        } else {
            *self.one_of(&all)
        }
    }

    /// Any trial, now and then the same one again.
    fn another_trial(&self, document: &Document) -> TrialId {
        let all = document.specs.iter().flat_map(|spec| &spec.trials);
        let all: Vec<TrialId> = all.map(|trial| trial.id).collect();
        if all.is_empty() {
            TrialId(0)
        } else {
            *self.one_of(&all)
        }
    }

    /// Keeps a making in which one line was poured otherwise and another one left out.
    fn making(&self, document: &Document, trial: TrialId) -> TrialEdit {
        let found = document.trial(trial);
        let mut run = found.map_or_else(Default::default, |(_, trial)| {
            planned(trial, *self.one_of(&DAYS))
        });
        if let Some(line) = run.lines.first_mut() {
            line.poured = Some(line.planned.with_value(self.value));
        }
        if self.settles
            && let Some(line) = run.lines.last_mut()
        {
            line.poured = None;
        }
        run.note.clone_from(&self.text);
        TrialEdit::Record { trial, run }
    }

    /// All pours of one trial and one of another.
    fn merged(&self, document: &Document, from: TrialId, pour: usize) -> TrialEdit {
        let other = self.another_trial(document);
        let own = document.trial(from).map_or(0, |(_, t)| t.pours.len());
        let mut pours: Vec<(TrialId, usize)> = (0..own).map(|place| (from, place)).collect();
        pours.push((other, pour));
        TrialEdit::Merge {
            from,
            other,
            pours,
            reason: self.text.clone(),
        }
    }

    /// A change of trials as a whole.
    pub(crate) fn edit_of_trials(&self, document: &Document, trial: TrialId, pour: usize) -> Edit {
        let on = self.settles;
        let runs = document.trial(trial).map_or(0, |(_, t)| t.runs.len());
        let place = self.other % (runs + 1);
        Edit::Trial(match self.kind {
            60 => TrialEdit::Star { trial, on },
            61 => TrialEdit::Archive { trial, on },
            62 | 63 => TrialEdit::Bin { trial },
            64 | 65 => TrialEdit::Restore {
                trial: self.thrown_away(document, trial),
            },
            66 => self.making(document, trial),
            67 if self.settles => TrialEdit::ForgetRun { trial, place },
            67 | 68 => TrialEdit::GrowFromRun { trial, place },
            69 => TrialEdit::CopyPour {
                from: (self.another_trial(document), pour),
                to: trial,
            },
            70 => self.merged(document, trial, pour),
            _ => TrialEdit::SetPhotos {
                trial,
                photos: vec![Photo {
                    file: (*self.one_of(&FILES)).to_owned(),
                    caption: self.text.clone(),
                }],
            },
        })
    }
}
