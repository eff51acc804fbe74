//! Limits that nothing on the grid can keep together.

use super::binding::Limit;
use super::field::Field;
use crate::model::Bounded;
use crate::solver::{GridProblem, GridSettings, Proof, search_grid};

/// Most boxes looked at for one set of limits.
const MOST_NODES: usize = 50;

/// The limits that contradict each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Conflict {
    /// One limit cannot be kept whatever is poured within the pours' own bounds.
    One(Limit),
    /// Two limits cannot be kept together.
    Two(Limit, Limit),
    /// Only three or more of them together leave nothing.
    Several,
}

/// Names the fewest limits that leave nothing on the grid.
pub(super) fn conflict(field: &Field) -> Conflict {
    let mut all: Vec<Limit> = field.limits.iter().map(|(limit, _)| *limit).collect();
    if field.poured.0.is_some() {
        all.push(Limit::Least(Bounded::Pours));
    }
    if field.poured.1.is_some() {
        all.push(Limit::Most(Bounded::Pours));
    }
    if let Some(one) = all.iter().find(|limit| !possible(field, &[**limit])) {
        return Conflict::One(*one);
    }
    for (place, one) in all.iter().enumerate() {
        for other in &all[place + 1..] {
            if !possible(field, &[*one, *other]) {
                return Conflict::Two(*one, *other);
            }
        }
    }
    Conflict::Several
}

/// Whether some point keeps these limits: by the grid where that is soon settled, else on the
/// continuum.
fn possible(field: &Field, limits: &[Limit]) -> bool {
    let whole = field.problem(0.0, None, |_, _| 0.0);
    let counts = |limit| limits.contains(&limit);
    let problem = GridProblem {
        axes: Vec::new(),
        rows: field
            .limits
            .iter()
            .filter(|(limit, _)| counts(*limit))
            .map(|(_, row)| row.clone())
            .collect(),
        least_poured: whole
            .least_poured
            .filter(|_| counts(Limit::Least(Bounded::Pours))),
        most_poured: whole
            .most_poured
            .filter(|_| counts(Limit::Most(Bounded::Pours))),
        ..whole
    };
    let settings = GridSettings {
        max_nodes: MOST_NODES,
        ..GridSettings::default()
    };
    if let Ok(found) = search_grid(&problem, &[field.question.present()], &settings)
        && (found.best.is_some() || found.proof == Proof::Complete)
    {
        return found.best.is_some();
    }
    // The continuum says whether the limits come near each other at all.
    field.keeps(&problem)
}
