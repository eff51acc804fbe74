//! One pour split over two ingredients.

use super::propose::nearest;
use super::question::Question;
use super::swap::{Begun, Replacement, Swap, counted, described, lend, poured_ml, swap, take};
use super::swap_original::{Original, SwapError};
use super::swap_start::{Poured, on_step, replaced};
use crate::balance::Pantry;
use crate::model::{Ingredient, IngredientId, Pour, Role, ScaleRule, Trial};
use std::sync::Arc;

/// Reluctance that leaves the distance alone to decide, yet keeps the answer unique.
const NEXT_TO_NONE: f64 = 1.0e-6;

/// What a split must hold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SplitRule {
    /// At least one step of each.
    #[default]
    Both,
    /// Either may go down to nothing where that comes nearer: never farther from the aim than the
    /// better one alone.
    Any,
}

/// A pour split over two ingredients.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    /// The drink with both pours, the second right behind the first; one that came out at nothing
    /// is left out.
    pub swap: Swap,
    /// Distance with the first ingredient alone, rebalanced; `None` when that makes no drink.
    pub first_alone: Option<f64>,
    /// Distance with the second ingredient alone, rebalanced.
    pub second_alone: Option<f64>,
}

impl Split {
    /// Noticeable differences nearer to the aim than the better one alone; negative when the split
    /// costs some. `None` when neither alone makes a drink.
    pub fn gain(&self) -> Option<f64> {
        let alone = [self.first_alone, self.second_alone].into_iter().flatten();
        let better = alone.min_by(f64::total_cmp)?;
        Some(better - self.swap.distance)
    }
}

/// Splits a pour between what it pours and a second ingredient.
///
/// Both begin with half of what the pour is there for and are free, even if the pour is locked; its
/// lock holds again for both in the answer. Its smallest amount is for the whole and is dropped, its
/// largest stays for each. Where the base pour is held and it is the one that is split, the poured
/// total is held instead. The other pours move as for any swap.
///
/// Fails like [`super::swap`], and when both would be the same.
pub fn split(
    original: &Original<'_>,
    second: &Replacement,
    rule: SplitRule,
    pantry: &mut Pantry,
) -> Result<Split, SwapError> {
    let locked = original.trial.pours.get(second.pour);
    let locked = locked.is_some_and(|pour| pour.locked);
    let original = &freed(original, second.pour);
    let first_alone = swap(original, &[], pantry);
    let second_alone = swap(original, std::slice::from_ref(second), pantry);
    let mut found = Vec::new();
    for reluctance in [original.spec.balancing.reluctance, NEXT_TO_NONE] {
        found.push(halved(original, second, (rule, reluctance), pantry)?);
    }
    let distance = |alone: &Result<Swap, SwapError>| alone.as_ref().ok().map(|swap| swap.distance);
    let alone = (distance(&first_alone), distance(&second_alone));
    if rule == SplitRule::Any {
        found.extend(first_alone.into_iter().chain(second_alone));
    }
    let better = alone.0.into_iter().chain(alone.1);
    let bar = match rule {
        SplitRule::Both => f64::INFINITY,
        SplitRule::Any => better.fold(f64::INFINITY, f64::min),
    };
    let mut swap = least_change(original, found, bar).ok_or(SwapError::Nothing)?;
    lock_again(original, second.pour, locked, &mut swap.trial);
    Ok(Split {
        swap,
        first_alone: alone.0,
        second_alone: alone.1,
    })
}

/// What costs least in distance and change among what is no farther than the bar, if anything is.
fn least_change(original: &Original<'_>, found: Vec<Swap>, bar: f64) -> Option<Swap> {
    let worth = |swap: &Swap| {
        let reluctance = original.spec.balancing.reluctance;
        let cost = swap.distance * swap.distance + reluctance * swap.change_steps;
        (swap.distance > bar + 1.0e-12, cost)
    };
    found.into_iter().min_by(|one, other| {
        let ((one_beyond, one_cost), (other_beyond, other_cost)) = (worth(one), worth(other));
        one_beyond
            .cmp(&other_beyond)
            .then(one_cost.total_cmp(&other_cost))
    })
}

/// The original with the pour free to move and to be shared.
fn freed<'a>(original: &Original<'a>, place: usize) -> Original<'a> {
    let mut freed = original.clone();
    let pours = &mut freed.trial.pours;
    let first_base = pours.iter().position(|pour| pour.role == Role::Base);
    if let Some(pour) = pours.get_mut(place) {
        pour.locked = false;
        pour.minimum = None;
    }
    let rule = &mut freed.spec.balancing.scale_rule;
    if *rule == ScaleRule::BasePour && first_base == Some(place) {
        *rule = ScaleRule::PouredTotal;
    }
    freed
}

/// Both halves, moved as near to the aim as their steps allow.
fn halved(
    original: &Original<'_>,
    second: &Replacement,
    (rule, reluctance): (SplitRule, f64),
    pantry: &mut Pantry,
) -> Result<Swap, SwapError> {
    let mut trial = original.trial.clone();
    let item = lend(original, &mut trial, second);
    let (first, other) = halves(original, second.pour, (&second.id, &item), pantry)?;
    let places = [second.pour, second.pour + 1];
    if let Some(pour) = trial.pours.get_mut(second.pour) {
        *pour = first;
    }
    trial.pours.insert(places[1], other);
    let mut was: Vec<Option<usize>> = (0..original.trial.pours.len()).map(Some).collect();
    was.insert(places[1], None);
    let ingredients = vec![(second.id.clone(), item)];
    let begun = Begun::sized(original, trial, ingredients, was, pantry)?;
    let mut spec = original.spec.clone();
    spec.balancing.reluctance = reluctance;
    let mut question = Question::of_trial(original.document, &spec, &begun.trial, begun.drink)?;
    question.guessed = true;
    for unknown in &mut question.unknowns {
        if places.contains(&unknown.pour) {
            let least = match rule {
                SplitRule::Both => unknown.step,
                SplitRule::Any => 0.0,
            };
            unknown.lower = least.min(unknown.present);
        }
    }
    let proposal = nearest(&question)?.ok_or(SwapError::Nothing)?;
    let (mut trial, mut was) = (begun.trial, begun.was);
    take(&mut trial, &proposal.changes);
    leave_out_nothing(&mut trial, &mut was, places);
    described(original, (trial, begun.ingredients, was), pantry)
}

/// Takes out the parts that came out at nothing.
fn leave_out_nothing(trial: &mut Trial, was: &mut Vec<Option<usize>>, places: [usize; 2]) {
    for place in places.into_iter().rev() {
        let pour = trial.pours.get(place);
        if pour.is_some_and(|pour| pour.amount.value() == Some(0.0)) {
            trial.pours.remove(place);
            was.remove(place);
        }
    }
}

/// The pour with half of what it is there for, and the other half of the second ingredient.
fn halves(
    original: &Original<'_>,
    place: usize,
    (id, item): (&IngredientId, &Arc<Ingredient>),
    pantry: &mut Pantry,
) -> Result<(Pour, Pour), SwapError> {
    let (pour, line) = counted(original, place)?;
    let settled = original.document.settle(&original.trial, pour);
    if settled.is_some_and(|settled| settled.id == id) {
        return Err(SwapError::Same {
            name: original.name(place).to_owned(),
        });
    }
    let measures = &original.document.measures;
    let contents = pantry.contents(item)?;
    let old = Poured {
        item: &line.ingredient,
        contents: &line.contents,
    };
    let new = Poured {
        item,
        contents: &contents,
    };
    let mut first = pour.clone();
    let half = pour.amount.value().unwrap_or(0.0) / 2.0;
    first.amount = pour
        .amount
        .with_value(on_step(pour, half, measures))
        .quantised();
    let ml = poured_ml(pour, old) / 2.0;
    let around = (&original.trial, measures);
    Ok((first, replaced(pour, id, (old, ml), new, around)))
}

/// The lock of the whole holds for both parts.
fn lock_again(original: &Original<'_>, place: usize, locked: bool, trial: &mut Trial) {
    let split = original.trial.pours.len() + 1 == trial.pours.len();
    for place in place..=place + usize::from(split) {
        if let Some(pour) = trial.pours.get_mut(place) {
            pour.locked = locked;
        }
    }
}
