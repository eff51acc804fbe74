//! The pours of a trial as rules look at them.

use super::rule_check::Handed;
use super::rule_garnish::{NamedGarnish, named_garnishes};
use crate::balance::Line;
use crate::kitchen::{ALCOHOLIC_ABOVE_PCT_VOL, is_kind, is_weighed, is_whole};
use crate::model::{
    Amount, Document, Ingredient, IngredientId, Pour, Preparation, PreparationId, Role, Source,
};
use crate::units::Unit;
use std::collections::{BTreeMap, BTreeSet};

/// What a pour counts as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Counts {
    /// Poured in a measured amount.
    Measured,
    /// Dashes and drops.
    Drops,
    /// Laid on or beside the drink.
    Garnish,
    /// Salt, spices and solids.
    Solid,
    /// Plain water and soda.
    Water,
}

/// One pour that brings something.
#[derive(Clone, Debug)]
pub(super) struct PourFact<'a> {
    /// Place in the trial's list.
    pub(super) place: usize,
    pub(super) pour: &'a Pour,
    /// The ingredient, that of a lot being the one it is a batch of.
    pub(super) id: &'a IngredientId,
    /// Name to show.
    pub(super) name: &'a str,
    pub(super) item: &'a Ingredient,
    /// Its volume as written in the recipe, ml; `None` where nothing says it.
    pub(super) ml: Option<f64>,
    /// Volume of one unit of its own measure, ml; `None` where nothing says it.
    pub(super) ml_per_unit: Option<f64>,
    pub(super) counts: Counts,
    /// The preparation that makes it.
    pub(super) made: Option<&'a PreparationId>,
}

impl PourFact<'_> {
    /// Whether alcohol is in it, at its typical strength.
    pub(super) fn is_alcoholic(&self) -> bool {
        is_alcoholic(self.item)
    }

    /// Bitters and the like, of which dashes and drops are usual.
    pub(super) const fn is_bitters(&self) -> bool {
        matches!(self.pour.role, Role::Aroma | Role::Seasoning)
            || matches!(self.item.role, Role::Aroma | Role::Seasoning)
    }
}

/// Whether an ingredient holds so much alcohol that it counts as alcoholic.
pub(super) fn is_alcoholic(item: &Ingredient) -> bool {
    let strength = item.strength_pct_vol;
    strength.is_some_and(|strength| strength.typical > ALCOHOLIC_ABOVE_PCT_VOL)
}

/// Everything that a trial pours.
#[derive(Clone, Debug)]
pub(super) struct Poured<'a> {
    /// Pours that bring something, in the order of the recipe.
    pub(super) pours: Vec<PourFact<'a>>,
    /// Pours that name something the document does not hold.
    pub(super) lost: Vec<usize>,
    /// Garnishes made in house that the entry names and no pour is.
    pub(super) garnish: Vec<NamedGarnish<'a>>,
}

impl<'a> Poured<'a> {
    pub(super) fn of(handed: &Handed<'a>) -> Self {
        let mut found = Self::with_blank(handed);
        found.pours.retain(|fact| !fact.pour.is_left_out());
        found
    }

    /// Every pour, those of nothing too.
    pub(super) fn with_blank(handed: &Handed<'a>) -> Self {
        let document = handed.document;
        let makers = makers(document);
        let mut found = Self {
            pours: Vec::new(),
            lost: Vec::new(),
            garnish: Vec::new(),
        };
        for (place, pour) in handed.trial.pours.iter().enumerate() {
            let Some(settled) = document.settle(handed.trial, pour) else {
                found.lost.push(place);
                continue;
            };
            let id = batch_of(document, &pour.source).unwrap_or(settled.id);
            let lines = handed.drink.map_or(&[][..], |drink| &drink.lines);
            let line = lines.iter().find(|line| line.index == place);
            let made = makers.get(id).or_else(|| makers.get(settled.id)).copied();
            let ml_per_unit = ml_per_unit(pour, line);
            found.pours.push(PourFact {
                place,
                pour,
                id,
                name: settled.name,
                item: settled.ingredient,
                ml: pour
                    .amount
                    .value()
                    .zip(ml_per_unit)
                    .map(|(one, ml)| one * ml),
                ml_per_unit,
                counts: counts_as(document, (pour, id, settled.ingredient), made, line),
                made,
            });
        }
        found.garnish = named_garnishes(handed, &found.pours);
        found
    }

    /// Pours that are this ingredient or a batch of it.
    pub(super) fn of_row<'s>(
        &'s self,
        id: &'s IngredientId,
    ) -> impl Iterator<Item = &'s PourFact<'a>> + 's {
        self.pours.iter().filter(move |fact| fact.id == id)
    }

    /// Preparations that are poured, in the order of their ids.
    pub(super) fn preparations(&self) -> BTreeSet<&'a PreparationId> {
        self.pours.iter().filter_map(|fact| fact.made).collect()
    }

    /// Preparations that are poured or garnish the drink, and those that they are made with, each once.
    pub(super) fn all_preparations(&self, document: &'a Document) -> BTreeSet<&'a PreparationId> {
        let makers = makers(document);
        let mut found = BTreeSet::new();
        let mut open: Vec<&PreparationId> = self.preparations().into_iter().collect();
        open.extend(self.garnish.iter().map(|own| own.made));
        while let Some(id) = open.pop() {
            if !found.insert(id) {
                continue;
            }
            let inputs = document.preparations.get(id).into_iter();
            let inputs = inputs.flat_map(|made| &made.inputs);
            open.extend(inputs.filter_map(|input| made_by(document, &makers, &input.source)));
        }
        found
    }
}

/// Which preparation makes each row.
pub(super) type Makers<'a> = BTreeMap<&'a IngredientId, &'a PreparationId>;

pub(super) fn makers(document: &Document) -> Makers<'_> {
    let made = document.preparations.iter();
    made.flat_map(|(id, made)| made.outputs.values().map(move |row| (row, id)))
        .collect()
}

/// The preparation that makes what a source names.
pub(super) fn made_by<'a>(
    document: &'a Document,
    makers: &Makers<'a>,
    source: &'a Source,
) -> Option<&'a PreparationId> {
    let row = batch_of(document, source).or_else(|| document.row_of(source))?;
    makers.get(row).copied()
}

/// The ingredient that a lot is a batch of.
pub(super) fn batch_of<'a>(document: &'a Document, source: &'a Source) -> Option<&'a IngredientId> {
    match source {
        Source::Lot(lot) => document.lots.get(lot)?.of.as_ref(),
        Source::Ingredient(_) | Source::Preparation { .. } => None,
    }
}

/// Volume of one unit of a pour's measure as written; of a rinse before it is thrown out.
fn ml_per_unit(pour: &Pour, line: Option<&Line>) -> Option<f64> {
    match pour.amount {
        Amount::Ml(_) => Some(1.0),
        Amount::Words(_) => None,
        Amount::Grams(_) => line.map(|line| 1.0 / line.contents.density_g_per_ml),
        Amount::Pieces(_) => {
            let line = line?;
            Some(line.ingredient.piece_g? / line.contents.density_g_per_ml)
        }
    }
}

/// The row is laid on or beside a drink.
fn is_garnish(preparation: &Preparation, row: &IngredientId) -> bool {
    let outputs = preparation.outputs.iter();
    outputs
        .filter(|(_, made)| *made == row)
        .any(|(stream, _)| preparation.garnishes.contains_key(stream))
}

/// Plain water and soda: sweetened fillers and tonic are ingredients.
fn is_water(item: &Ingredient) -> bool {
    let holds_nothing = item.sugar_g.is_none_or(|sugar| sugar.typical < 0.5);
    is_kind(item, "water") || is_kind(item, "soda") && holds_nothing
}

fn counts_as(
    document: &Document,
    (pour, id, item): (&Pour, &IngredientId, &Ingredient),
    made: Option<&PreparationId>,
    line: Option<&Line>,
) -> Counts {
    let preparation = made.and_then(|made| document.preparations.get(made));
    if is_kind(item, "garnish") || preparation.is_some_and(|made| is_garnish(made, id)) {
        return Counts::Garnish;
    }
    if matches!(pour.unit, Unit::Dash | Unit::Drop) {
        return Counts::Drops;
    }
    if is_water(item) {
        return Counts::Water;
    }
    // A syrup or an egg that was weighed is no solid: only what would not pour.
    let weighed = matches!(pour.amount, Amount::Grams(_) | Amount::Pieces(_));
    let solid = line.map_or_else(
        || is_whole(item),
        |line| is_weighed(item, &line.contents) && (weighed || is_whole(item)),
    );
    if solid || is_kind(item, "salt") {
        return Counts::Solid;
    }
    Counts::Measured
}
