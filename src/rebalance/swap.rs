//! Another ingredient in one or several pours, and the balance given back.

use super::proposal::Change;
use super::propose::nearest;
use super::question::Question;
use super::swap_difference::{Difference, Side};
use super::swap_original::{Original, SwapError, name_of};
use super::swap_size::keep_size;
use super::swap_start::{Poured, replaced};
use super::swap_words::{SwappedPour, swapped_pours};
use crate::balance::{Drink, Figures, Pantry, Steps, figures, steps_between};
use crate::model::{Amount, Ingredient, IngredientId, Point, Pour, Trial};
use crate::units::Measures;
use std::sync::Arc;

/// An ingredient of the document or of the built-in larder, with its name there.
pub type LarderItem = (IngredientId, Arc<Ingredient>);

/// Another ingredient for one pour.
#[derive(Clone, Debug, PartialEq)]
pub struct Replacement {
    /// Place in the trial's list of pours.
    pub pour: usize,
    /// Name of the new ingredient in the document or in the built-in larder.
    pub id: IngredientId,
    /// The new ingredient.
    pub item: Arc<Ingredient>,
}

/// A swapped drink with its balance given back.
#[derive(Clone, Debug, PartialEq)]
pub struct Swap {
    /// The trial as it would be: a draft with the new pours. Ingredients that the document may not
    /// hold are lent to it among its frozen copies; an edit copies them into the document instead.
    pub trial: Trial,
    /// The new ingredients.
    pub ingredients: Vec<LarderItem>,
    /// For each new pour the place of the pour that it was; `None` for one that was added.
    pub was: Vec<Option<usize>>,
    /// Names of what the new pours pour.
    pub names: Vec<String>,
    /// Pours that are not as they were, in words.
    pub changed: Vec<SwappedPour>,
    /// Where it lands, worked out again with the ice that the new pours melt.
    pub point: Point,
    /// Steps from the aim to it.
    pub steps: Steps,
    /// Distance from the aim, noticeable steps.
    pub distance: f64,
    /// Sum of changes of the pours that kept their ingredient, in their own steps.
    pub change_steps: f64,
    /// Every figure of the swapped drink.
    pub figures: Figures,
    /// What it gives up and brings.
    pub difference: Difference,
}

/// Replaces ingredients and moves the unlocked pours as near to the aim as their steps allow.
///
/// A replaced pour begins with the amount that brings the same of what it is there for: alcohol for
/// a base, sucrose equivalent for a sweetener, acid for a sour, the same volume otherwise. A held
/// size is that of the original. The solver then minimises squared distance and the cost of change
/// from there. Replacing an ingredient by itself is no change of that pour.
///
/// Fails with the pour's number or name when there is no such pour, when it has no amount, when it
/// is replaced twice, when every pour is locked, and when no amounts make a drink.
pub fn swap(
    original: &Original<'_>,
    replacements: &[Replacement],
    pantry: &mut Pantry,
) -> Result<Swap, SwapError> {
    let begun = Begun::with(original, replacements, pantry)?;
    rebalanced(original, begun, pantry)
}

/// A drink with its new ingredients, before the solver moves anything.
#[derive(Clone, Debug)]
pub(super) struct Begun {
    pub(super) trial: Trial,
    pub(super) drink: Drink,
    pub(super) ingredients: Vec<LarderItem>,
    pub(super) was: Vec<Option<usize>>,
}

impl Begun {
    /// The drink with all replacements in the amounts they begin with.
    pub(super) fn with(
        original: &Original<'_>,
        replacements: &[Replacement],
        pantry: &mut Pantry,
    ) -> Result<Self, SwapError> {
        let mut trial = original.trial.clone();
        let mut ingredients = Vec::with_capacity(replacements.len());
        for (place, one) in replacements.iter().enumerate() {
            if replacements
                .iter()
                .skip(place + 1)
                .any(|two| two.pour == one.pour)
            {
                let number = one.pour + 1;
                return Err(SwapError::Twice { number });
            }
            let item = lend(original, &mut trial, one);
            let next = beginning(original, (one.pour, &one.id, &item), pantry)?;
            if let Some(pour) = trial.pours.get_mut(one.pour) {
                *pour = next;
            }
            ingredients.push((one.id.clone(), item));
        }
        let was = (0..trial.pours.len()).map(Some).collect();
        Self::sized(original, trial, ingredients, was, pantry)
    }

    /// Resolves the pours and keeps the size of the drink.
    pub(super) fn sized(
        original: &Original<'_>,
        mut trial: Trial,
        ingredients: Vec<LarderItem>,
        was: Vec<Option<usize>>,
        pantry: &mut Pantry,
    ) -> Result<Self, SwapError> {
        let document = original.document;
        let mut drink = Drink::of_trial(document, &trial, pantry)?;
        keep_size(
            original.spec.balancing.scale_rule,
            &original.drink,
            (&mut trial, &mut drink),
            &document.measures,
        );
        Ok(Self {
            trial,
            drink,
            ingredients,
            was,
        })
    }
}

/// Lends an ingredient to the trial unless the document holds it; gives the one that is poured.
///
/// A draft has no frozen copies of its own, so the larder need not be copied for every swap.
pub(super) fn lend(
    original: &Original<'_>,
    trial: &mut Trial,
    new: &Replacement,
) -> Arc<Ingredient> {
    if let Some(own) = original.document.ingredients.get(&new.id) {
        return Arc::clone(own);
    }
    trial.frozen.insert(new.id.clone(), Arc::clone(&new.item));
    Arc::clone(&new.item)
}

/// What one replaced pour begins with.
fn beginning(
    original: &Original<'_>,
    (place, id, item): (usize, &IngredientId, &Arc<Ingredient>),
    pantry: &mut Pantry,
) -> Result<Pour, SwapError> {
    let (pour, line) = counted(original, place)?;
    let settled = original.document.settle(&original.trial, pour);
    if settled.is_some_and(|settled| settled.id == id) {
        return Ok(pour.clone());
    }
    let contents = pantry.contents(item)?;
    let old = Poured {
        item: &line.ingredient,
        contents: &line.contents,
    };
    let new = Poured {
        item,
        contents: &contents,
    };
    let around = (&original.trial, &original.document.measures);
    let ml = poured_ml(pour, old);
    Ok(replaced(pour, id, (old, ml), new, around))
}

/// The pour at a place and its line of the drink.
pub(super) fn counted<'o>(
    original: &'o Original<'_>,
    place: usize,
) -> Result<(&'o Pour, &'o crate::balance::Line), SwapError> {
    let pour = original.trial.pours.get(place);
    let pour = pour.ok_or(SwapError::NoPour { number: place + 1 })?;
    let mut lines = original.drink.lines.iter();
    let line = lines.find(|line| line.index == place && line.amount > 0.0);
    let line = line.ok_or_else(|| SwapError::NoAmount {
        name: original.name(place).to_owned(),
    })?;
    Ok((pour, line))
}

/// Volume of a pour as written, ml.
pub(super) fn poured_ml(pour: &Pour, old: Poured<'_>) -> f64 {
    let grams = match &pour.amount {
        Amount::Ml(ml) => return *ml,
        Amount::Grams(grams) => *grams,
        Amount::Pieces(pieces) => pieces * old.item.piece_g.unwrap_or(0.0),
        Amount::Words(_) => 0.0,
    };
    grams / old.contents.density_g_per_ml
}

/// Asks the solver and works the answer out again as a drink of its own.
pub(super) fn rebalanced(
    original: &Original<'_>,
    begun: Begun,
    pantry: &mut Pantry,
) -> Result<Swap, SwapError> {
    let Begun {
        trial,
        drink,
        ingredients,
        was,
    } = begun;
    let mut question = Question::of_trial(original.document, &original.spec, &trial, drink)?;
    question.guessed = true;
    let proposal = nearest(&question)?.ok_or(SwapError::Nothing)?;
    let mut trial = trial;
    take(&mut trial, &proposal.changes);
    described(original, (trial, ingredients, was), pantry)
}

/// Takes proposed amounts, as an edit would.
pub(super) fn take(trial: &mut Trial, changes: &[Change]) {
    for change in changes {
        if let Some(pour) = trial.pours.get_mut(change.pour) {
            pour.amount = pour.amount.with_value(change.to).quantised();
        }
    }
}

/// Works a swapped trial out as a drink of its own.
pub(super) fn described(
    original: &Original<'_>,
    (trial, ingredients, was): (Trial, Vec<LarderItem>, Vec<Option<usize>>),
    pantry: &mut Pantry,
) -> Result<Swap, SwapError> {
    let document = original.document;
    let drink = Drink::of_trial(document, &trial, pantry)?;
    let found = figures(&drink)?;
    let steps = steps_between(&found.point, &original.aim(), &document.senses);
    let side = Side::of(document, &trial, &drink)?.with_ph(found.ph);
    Ok(Swap {
        change_steps: change_steps(&original.trial, &trial, &was, &document.measures),
        point: found.point,
        distance: steps.distance(&original.spec.balancing.weights),
        steps,
        difference: Difference::between(&original.side, &side),
        figures: found,
        names: (0..trial.pours.len())
            .map(|pour| name_of(document, &trial, pour).to_owned())
            .collect(),
        changed: swapped_pours(original, &trial, &was),
        trial,
        ingredients,
        was,
    })
}

/// Sum of changes of the pours that kept their ingredient, in their own steps.
fn change_steps(old: &Trial, new: &Trial, was: &[Option<usize>], measures: &Measures) -> f64 {
    let pairs = new.pours.iter().zip(was).filter_map(|(now, was)| {
        let before = old.pours.get((*was)?)?;
        let moved = (now.amount.value()? - before.amount.value()?).abs();
        let kept = before.source == now.source;
        kept.then(|| moved / crate::balance::step_of(before, measures))
    });
    pairs.sum()
}
