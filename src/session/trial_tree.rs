//! The trials of a drink as a tree, flattened into rows.

use crate::model::{Spec, Trial, TrialId};
use std::collections::HashMap;

/// One row of the tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TreeRow {
    /// Place of the trial in its drink.
    pub place: usize,
    /// How many branches off the main line it lies.
    pub depth: usize,
}

/// Rows of the trials that `is_shown`, each below the one it grew from.
///
/// The first that grew from a trial goes on in its line; every later one is a branch, one deeper, and
/// stands before the line goes on. What grew from a hidden trial hangs on the nearest shown one above.
pub fn trial_tree(spec: &Spec, is_shown: impl Fn(&Trial) -> bool) -> Vec<TreeRow> {
    let places: HashMap<TrialId, usize> = spec
        .trials
        .iter()
        .enumerate()
        .map(|(place, trial)| (trial.id, place))
        .collect();
    let binned: HashMap<TrialId, Option<TrialId>> = spec
        .bin
        .iter()
        .map(|trial| (trial.id, trial.parent))
        .collect();
    let mut above: Vec<Option<usize>> = Vec::with_capacity(spec.trials.len());
    for (place, trial) in spec.trials.iter().enumerate() {
        let mut parent = trial.parent;
        let mut found = None;
        while let Some(id) = parent {
            if let Some(&there) = places.get(&id).filter(|there| **there < place) {
                // What is above a hidden one was worked out before it.
                found = if is_shown(&spec.trials[there]) {
                    Some(there)
                } else {
                    above[there]
                };
                break;
            }
            // Ids fall from child to parent, so that damaged parents cannot loop.
            parent = binned.get(&id).copied().flatten().filter(|next| *next < id);
        }
        above.push(found);
    }
    let shown = |place: &usize| is_shown(&spec.trials[*place]);
    let mut below: Vec<Vec<usize>> = vec![Vec::new(); spec.trials.len()];
    let mut roots = Vec::new();
    for place in (0..spec.trials.len()).filter(shown) {
        match above[place] {
            Some(parent) => below[parent].push(place),
            None => roots.push(place),
        }
    }
    let mut rows = Vec::with_capacity(spec.trials.len());
    let mut waiting: Vec<TreeRow> = Vec::new();
    let push = |waiting: &mut Vec<TreeRow>, children: &[usize], depth: usize| {
        // The last one pushed comes first: branches in order, then the line.
        let mut children = children.iter();
        if let Some(&place) = children.next() {
            waiting.push(TreeRow { place, depth });
        }
        let branches = children.rev();
        waiting.extend(branches.map(|&place| TreeRow {
            place,
            depth: depth + 1,
        }));
    };
    for root in roots {
        waiting.push(TreeRow {
            place: root,
            depth: 0,
        });
        while let Some(row) = waiting.pop() {
            rows.push(row);
            push(&mut waiting, &below[row.place], row.depth);
        }
    }
    rows
}
