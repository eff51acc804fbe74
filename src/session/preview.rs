//! The drink as it would be with some pours changed, before anything is changed.

use super::derived::{Deriver, assumed, contributions_of, on_ice, path_of};
use super::edit_apply::take_changes;
use super::open_document::{Selection, Session};
use crate::balance::{
    Contribution, Drink, Figures, PathPoint, Steps, Uncertainty, figures, step_of, steps_between,
};
use crate::model::{Document, Spec, Trial};
use crate::rebalance::Change;

/// Previews kept at once: what is pointed at, and the cards of which only a part is taken.
const MOST_KEPT: usize = 8;

/// The drink on screen as it would be with some pours changed.
#[derive(Clone, Debug)]
pub struct Preview {
    /// The changes.
    pub changes: Vec<Change>,
    /// Sum of the changes, in notches of each pour.
    pub change_steps: f64,
    /// Every figure.
    pub figures: Figures,
    /// Steps from the target.
    pub from_target: Option<Steps>,
    /// Weighted distance from the target, noticeable steps.
    pub distance: Option<f64>,
    /// How far the figures may be off.
    pub uncertainty: Option<Uncertainty>,
    /// What each pour would bring.
    pub contributions: Vec<Contribution>,
    /// Strength and coldest temperature over dilution.
    pub path: Vec<PathPoint>,
}

/// Previews of one state of the document and of the trial on screen.
#[derive(Debug, Default)]
pub(super) struct Previews {
    of: (u64, Selection),
    kept: Vec<Preview>,
}

impl Session {
    /// The trial on screen with these changes, worked out as an edit would be; nothing is changed.
    ///
    /// `None` when no trial is on screen, a pour is gone, or nothing could be served. Kept until the
    /// document or the selection changes.
    pub fn preview(&mut self, changes: &[Change]) -> Option<&Preview> {
        let of = (self.revision(), self.selection());
        if self.previews.of != of {
            self.previews = Previews {
                of,
                kept: Vec::new(),
            };
        }
        if self.previewed(changes).is_none() {
            let document = self.document().clone();
            let (spec, trial) = document.trial(self.selection().trial?)?;
            let found = self.deriver.preview(&document, spec, trial, changes)?;
            let kept = &mut self.previews.kept;
            if kept.len() >= MOST_KEPT {
                kept.remove(0);
            }
            kept.push(found);
        }
        self.previewed(changes)
    }

    /// A preview that was worked out already; for panels, which only read.
    pub fn previewed(&self, changes: &[Change]) -> Option<&Preview> {
        let fresh = self.previews.of == (self.revision(), self.selection());
        let mut kept = self.previews.kept.iter().filter(|_| fresh);
        kept.find(|known| known.changes == changes)
    }
}

impl Deriver {
    /// Works out a trial with some pours changed.
    fn preview(
        &mut self,
        document: &Document,
        spec: &Spec,
        trial: &Trial,
        changes: &[Change],
    ) -> Option<Preview> {
        let mut changed = trial.clone();
        take_changes(&mut changed, changes).ok()?;
        let drink = Drink::of_trial(document, &changed, &mut self.pantry).ok()?;
        let found = figures(&drink).ok()?;
        let from_target = spec
            .target
            .as_ref()
            .map(|target| steps_between(&found.point, &target.point, &document.senses));
        let assumed = assumed(document, spec, &changed);
        let uncertainty = Uncertainty::of(&assumed, &drink, found.ph, &mut self.pantry).ok();
        Some(Preview {
            changes: changes.to_vec(),
            change_steps: change_steps(document, trial, changes),
            from_target,
            distance: from_target.map(|steps| steps.distance(&spec.balancing.weights)),
            uncertainty,
            contributions: contributions_of(document, &changed, Some(&drink)),
            path: path_of(Some((&drink, &found)), &on_ice(spec, Some(&found))),
            figures: found,
        })
    }
}

/// Sum of changes in notches.
fn change_steps(document: &Document, trial: &Trial, changes: &[Change]) -> f64 {
    let notches = changes.iter().filter_map(|change| {
        let step = step_of(trial.pours.get(change.pour)?, &document.measures);
        (step > 0.0).then(|| (change.to - change.from).abs() / step)
    });
    notches.sum()
}
