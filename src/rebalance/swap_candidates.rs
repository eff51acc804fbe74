//! Which ingredients of the larder can take a pour's place, and how near they come.

use super::continuous::{NOTICEABLE, continuous};
use super::question::Question;
use super::swap::{Begun, LarderItem, Replacement, Swap, counted, rebalanced};
use super::swap_difference::{Difference, Side};
use super::swap_original::{Original, SwapError};
use super::swap_role::fills_role;
use crate::balance::{Line, Pantry, steps_between};
use crate::model::{Ingredient, IngredientId, Point, Pour, rules_out_allergens};
use std::cmp::Ordering;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering as Memory};

/// So many candidates are rounded to the steps for every one that nobody states allergens of.
const UNSTATED_SHARE: usize = 4;

/// What stands first among candidates.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum CandidateOrder {
    /// Nearest to the aim, to a tenth of a noticeable difference, which nobody could tell apart;
    /// then what changes least of the character, costs less (unknown last), brings fewer new
    /// allergens, and by name.
    #[default]
    Nearest,
    /// What nobody could tell from the aim, least change of the character first, where a noticeable
    /// difference counts as one point; beyond one by how far. Then as for the nearest.
    Character,
}

/// Which pour is to be replaced, and what the new ingredient must be.
#[derive(Clone, Debug, PartialEq)]
pub struct CandidateAsk {
    /// Place in the trial's list of pours.
    pub pour: usize,
    /// Other pours that are replaced at the same time.
    pub with: Vec<Replacement>,
    /// Groups of Annex II to Regulation (EU) No 1169/2011 that must not be in it.
    pub without: Vec<&'static str>,
    /// How many are rounded to the pour steps.
    pub rounded: usize,
    /// What stands first, and so is rounded.
    pub order: CandidateOrder,
}

/// An ingredient that can take the pour's place.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its name in the document or in the built-in larder.
    pub id: IngredientId,
    /// Its figures.
    pub item: Arc<Ingredient>,
    /// Distance from the aim, noticeable steps: on the pour steps where `swap` is there, else
    /// before rounding.
    pub distance: f64,
    /// What it gives up and brings, at the same amounts.
    pub difference: Difference,
    /// The swapped drink on the pour steps, for the leading ones.
    pub swap: Option<Swap>,
}

/// An ingredient that could not be tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Skipped {
    /// Its name.
    pub name: String,
    /// Why, in words.
    pub why: String,
}

/// Everything that can take a pour's place, best first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Candidates {
    /// What may be used: first those on the pour steps, then those that were only screened.
    pub found: Vec<Candidate>,
    /// Nobody says whether the groups asked for are in these; read the label first.
    pub unstated: Vec<Candidate>,
    /// Ingredients whose contents cannot be worked out, or with which there is no drink.
    pub skipped: Vec<Skipped>,
    /// Ingredients that could take the job but hold one of the groups, for certain or possibly.
    pub ruled_out: usize,
}

impl Skipped {
    pub(super) fn of(item: &Ingredient, error: &SwapError) -> Self {
        Self {
            name: item.name.clone(),
            why: error.to_string(),
        }
    }
}

impl CandidateAsk {
    /// Parts of the work, as `progress` counts them.
    pub fn parts(&self, larder: usize) -> usize {
        larder + self.rounded + self.rounded / UNSTATED_SHARE
    }
}

/// Tries every ingredient of a larder in one pour's place.
///
/// All that can take the job ([`fills_role`]) are screened with the continuous optimum; the leading
/// ones are then rounded to the pour steps by [`super::swap`] and ordered anew by where they really
/// land. [`CandidateOrder`] says what stands first. What was only screened stands behind what was
/// rounded.
///
/// `progress` counts up to [`CandidateAsk::parts`]; `None` when `cancel` was set. Fails like
/// [`super::swap`] when the question itself cannot be asked.
pub fn candidates(
    original: &Original<'_>,
    larder: &[LarderItem],
    ask: &CandidateAsk,
    pantry: &mut Pantry,
    (progress, cancel): (&AtomicUsize, &AtomicBool),
) -> Result<Option<Candidates>, SwapError> {
    let (pour, line) = counted(original, ask.pour)?;
    original.can_be_asked()?;
    let settled = original.document.settle(&original.trial, pour);
    let present = settled.map(|settled| settled.id.clone());
    let mut all = Candidates::default();
    for one in larder {
        if cancel.load(Memory::Relaxed) {
            return Ok(None);
        }
        progress.fetch_add(1, Memory::Relaxed);
        if present.as_ref() != Some(&one.0) {
            consider(&mut all, original, ask, (pour, line, one), pantry);
        }
    }
    let apart = ask.rounded / UNSTATED_SHARE;
    let skipped = &mut all.skipped;
    for (list, most) in [(&mut all.found, ask.rounded), (&mut all.unstated, apart)] {
        if !round_leading(
            original,
            ask,
            (list, skipped),
            most,
            pantry,
            (progress, cancel),
        ) {
            return Ok(None);
        }
    }
    Ok(Some(all))
}

/// Screens one ingredient and puts it where it belongs.
fn consider(
    all: &mut Candidates,
    original: &Original<'_>,
    ask: &CandidateAsk,
    (pour, line, (id, item)): (&Pour, &Line, &LarderItem),
    pantry: &mut Pantry,
) {
    let contents = match pantry.contents(item) {
        Ok(contents) => contents,
        Err(error) => return all.skipped.push(Skipped::of(item, &error.into())),
    };
    let replaced = (&*line.ingredient, &*line.contents);
    if !fills_role(pour.role, (item, &contents), replaced) {
        return;
    }
    let free = rules_out(item, &ask.without);
    if free == Some(false) {
        all.ruled_out += 1;
        return;
    }
    match screened(original, ask, (id, item), pantry) {
        Ok(candidate) if free.is_none() => all.unstated.push(candidate),
        Ok(candidate) => all.found.push(candidate),
        Err(error) => all.skipped.push(Skipped::of(item, &error)),
    }
}

/// Whether an ingredient is free of the groups; without any group there is nothing to say.
fn rules_out(item: &Ingredient, without: &[&str]) -> Option<bool> {
    if without.is_empty() {
        return Some(true);
    }
    rules_out_allergens(&item.allergens, without)
}

fn replacements(
    ask: &CandidateAsk,
    (id, item): (&IngredientId, &Arc<Ingredient>),
) -> Vec<Replacement> {
    let mut all: Vec<Replacement> = Vec::with_capacity(ask.with.len() + 1);
    all.extend(ask.with.iter().filter(|one| one.pour != ask.pour).cloned());
    all.push(Replacement {
        pour: ask.pour,
        id: id.clone(),
        item: Arc::clone(item),
    });
    all
}

/// How near an ingredient comes before anything is rounded.
fn screened(
    original: &Original<'_>,
    ask: &CandidateAsk,
    one: (&IngredientId, &Arc<Ingredient>),
    pantry: &mut Pantry,
) -> Result<Candidate, SwapError> {
    let Begun { trial, drink, .. } = Begun::with(original, &replacements(ask, one), pantry)?;
    let document = original.document;
    let question = Question::of_trial(document, &original.spec, &trial, drink)?;
    let found = continuous(&question).map_err(super::propose::SolveError::from)?;
    let mut drink = question.drink;
    for (unknown, amount) in question.unknowns.iter().zip(&found.x) {
        if let Some(line) = drink.lines.get_mut(unknown.line) {
            line.amount = *amount;
        }
    }
    let served = drink.served()?;
    let point = Point::from(&served);
    let steps = steps_between(&point, &original.aim(), &document.senses);
    let side = Side::served(document, &trial, &drink, &served);
    Ok(Candidate {
        id: one.0.clone(),
        item: Arc::clone(one.1),
        distance: steps.distance(&original.spec.balancing.weights),
        difference: Difference::between(&original.side, &side),
        swap: None,
    })
}

/// Orders a list, rounds its leading ones and orders it again; false when it was cancelled.
fn round_leading(
    original: &Original<'_>,
    ask: &CandidateAsk,
    (list, skipped): (&mut Vec<Candidate>, &mut Vec<Skipped>),
    most: usize,
    pantry: &mut Pantry,
    (progress, cancel): (&AtomicUsize, &AtomicBool),
) -> bool {
    let order = |one: &Candidate, other: &Candidate| ask.order.compare(one, other);
    list.sort_by(order);
    let rest = list.split_off(most.min(list.len()));
    let mut rounded = Vec::with_capacity(list.len() + rest.len());
    for candidate in list.drain(..) {
        if cancel.load(Memory::Relaxed) {
            return false;
        }
        progress.fetch_add(1, Memory::Relaxed);
        let one = (&candidate.id, &candidate.item);
        let found = Begun::with(original, &replacements(ask, one), pantry)
            .and_then(|begun| rebalanced(original, begun, pantry));
        match found {
            Ok(swap) => rounded.push(Candidate {
                distance: swap.distance,
                difference: swap.difference.clone(),
                swap: Some(swap),
                ..candidate
            }),
            Err(error) => skipped.push(Skipped::of(&candidate.item, &error)),
        }
    }
    rounded.sort_by(order);
    rounded.extend(rest);
    *list = rounded;
    true
}

impl CandidateOrder {
    /// Which of two candidates stands first.
    pub fn compare(self, one: &Candidate, other: &Candidate) -> Ordering {
        let away = |candidate: &Candidate| match self {
            Self::Nearest => (candidate.distance * 10.0).round(),
            Self::Character => (candidate.distance - NOTICEABLE).max(0.0),
        };
        let points = |candidate: &Candidate| match self {
            Self::Nearest => candidate.difference.points(),
            Self::Character => candidate.difference.points() + candidate.distance,
        };
        let cost = |candidate: &Candidate| candidate.difference.cost.unwrap_or(f64::INFINITY);
        let allergens = |candidate: &Candidate| candidate.difference.allergens_gained.len();
        away(one)
            .total_cmp(&away(other))
            .then_with(|| points(one).total_cmp(&points(other)))
            .then_with(|| cost(one).total_cmp(&cost(other)))
            .then_with(|| allergens(one).cmp(&allergens(other)))
            .then_with(|| one.item.name.cmp(&other.item.name))
    }
}
