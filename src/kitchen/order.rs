//! Which preparation uses which, and the order in which they are made.

use crate::model::{Document, IngredientId, Preparation, PreparationId, Source};
use std::collections::{BTreeMap, BTreeSet};

/// Preparations that use each other in a circle.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", circle(.names))]
pub struct Cycle {
    /// Each uses the next one, and the last uses the first; the smallest id comes first.
    pub members: Vec<PreparationId>,
    /// Their display names, in the same order.
    pub names: Vec<String>,
}

fn circle(names: &[String]) -> String {
    let [first, rest @ ..] = names else {
        return "preparations use each other in a circle".to_owned();
    };
    if rest.is_empty() {
        return format!("\"{first}\" uses itself");
    }
    let links: Vec<String> = rest.iter().map(|name| format!("\"{name}\"")).collect();
    let links = links.join(", which uses ");
    format!("\"{first}\" uses {links}, which uses \"{first}\"")
}

/// Which preparation makes each row.
struct Makers<'a> {
    document: &'a Document,
    of_row: BTreeMap<&'a IngredientId, &'a PreparationId>,
}

impl<'a> Makers<'a> {
    fn of(document: &'a Document) -> Self {
        let rows = document.preparations.iter().flat_map(|(id, made)| {
            // A row that a person wrote waits for nothing.
            let worked_out = made.is_worked_out();
            made.outputs
                .values()
                .filter(move |_| worked_out)
                .map(move |row| (row, id))
        });
        Self {
            document,
            of_row: rows.collect(),
        }
    }

    /// Preparations that one uses, in the order of their ids.
    fn used_in(&self, preparation: &'a Preparation) -> BTreeSet<&'a PreparationId> {
        let inputs = preparation.inputs.iter().filter_map(|input| {
            if let Source::Preparation { preparation, .. } = &input.source {
                return self
                    .document
                    .preparations
                    .get_key_value(preparation)
                    .map(|(id, _)| id);
            }
            let row = self.document.row_of(&input.source)?;
            self.of_row.get(row).copied()
        });
        let likes = preparation.likes();
        let likes = likes.filter_map(|row| self.of_row.get(row).copied());
        inputs.chain(likes).collect()
    }
}

/// Preparations that one uses itself: by its inputs, or because a juice is said to be like their
/// output; in the order of their ids.
pub fn uses(document: &Document, id: &PreparationId) -> BTreeSet<PreparationId> {
    let makers = Makers::of(document);
    let found = document.preparations.get(id);
    found.map_or_else(BTreeSet::new, |preparation| {
        makers.used_in(preparation).into_iter().cloned().collect()
    })
}

/// Preparations that use one themselves, in the order of their ids.
pub fn used_by(document: &Document, id: &PreparationId) -> BTreeSet<PreparationId> {
    let makers = Makers::of(document);
    let users = document
        .preparations
        .iter()
        .filter(|(_, preparation)| makers.used_in(preparation).contains(id));
    users.map(|(user, _)| user.clone()).collect()
}

/// Preparations in an order in which each comes after those that it uses.
///
/// Those that do not wait for each other come in the order of their ids. Fails with the members of
/// a circle.
pub fn making_order(document: &Document) -> Result<Vec<PreparationId>, Cycle> {
    let everything: Vec<&PreparationId> = document.preparations.keys().collect();
    ordered(document, &everything).map(|order| order.into_iter().cloned().collect())
}

/// A preparation and everything below it, each after those that it uses; it comes last itself.
pub fn making_order_of(
    document: &Document,
    id: &PreparationId,
) -> Result<Vec<PreparationId>, Cycle> {
    let from = document.preparations.get_key_value(id).map(|(id, _)| id);
    let from: Vec<&PreparationId> = from.into_iter().collect();
    ordered(document, &from).map(|order| order.into_iter().cloned().collect())
}

/// How far a preparation has been looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Seen {
    /// It waits for one of those that it uses.
    Open,
    /// It stands in the order.
    Done,
}

/// A walk into the depth with a stack of its own: nesting is as deep as a file makes it.
fn ordered<'a>(
    document: &'a Document,
    from: &[&'a PreparationId],
) -> Result<Vec<&'a PreparationId>, Cycle> {
    let makers = Makers::of(document);
    let used = |id: &PreparationId| -> Vec<&'a PreparationId> {
        let preparation = document.preparations.get(id);
        let found = preparation.map(|preparation| makers.used_in(preparation));
        // The walk takes from the end.
        found.into_iter().flatten().rev().collect()
    };
    let mut seen: BTreeMap<&PreparationId, Seen> = BTreeMap::new();
    let mut order = Vec::new();
    for start in from {
        if seen.contains_key(start) {
            continue;
        }
        seen.insert(start, Seen::Open);
        let mut path: Vec<(&PreparationId, Vec<&PreparationId>)> = vec![(start, used(start))];
        while let Some((here, waiting)) = path.last_mut() {
            let here = *here;
            match waiting.pop() {
                None => {
                    seen.insert(here, Seen::Done);
                    order.push(here);
                    path.pop();
                }
                Some(next) => match seen.get(next) {
                    Some(Seen::Done) => {}
                    Some(Seen::Open) => {
                        let names = path.iter().map(|(id, _)| *id);
                        let circle = names.skip_while(|id| *id != next).collect();
                        return Err(cycle(document, circle));
                    }
                    None => {
                        seen.insert(next, Seen::Open);
                        path.push((next, used(next)));
                    }
                },
            }
        }
    }
    Ok(order)
}

/// The circle with the smallest id first, so that it reads the same wherever the walk began.
fn cycle(document: &Document, mut members: Vec<&PreparationId>) -> Cycle {
    let smallest = members
        .iter()
        .enumerate()
        .min_by_key(|(_, id)| **id)
        .map_or(0, |(place, _)| place);
    members.rotate_left(smallest);
    let name = |id: &PreparationId| {
        let found = document.preparations.get(id);
        found.map_or_else(|| id.0.clone(), |preparation| preparation.name.clone())
    };
    Cycle {
        names: members.iter().map(|id| name(id)).collect(),
        members: members.into_iter().cloned().collect(),
    }
}
