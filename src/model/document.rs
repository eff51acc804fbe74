//! The whole document.

use super::ids::{IngredientId, LotId, PreparationId, RuleSetId, SpecId, TastingId, TrialId};
use super::ingredient::Ingredient;
use super::lot::Lot;
use super::pour::{Pour, Source};
use super::precision::{Precision, Weighing};
use super::preparation::Preparation;
use super::rule::RuleSet;
use super::senses::Senses;
use super::spec::Spec;
use super::tasting::{Learning, Tasting};
use super::technique::Method;
use super::trial::Trial;
use crate::units::Measures;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The whole document; it owns every ingredient that it uses.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Document {
    /// Title of the document.
    pub title: String,
    /// Free remarks; comments of a hand-edited file are lost on saving, these are not.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Currency of all prices.
    pub currency: String,
    /// Sizes of ounce, spoons, dash and drop.
    pub measures: Measures,
    /// Sizes of the jiggers at hand, ml, in rising order.
    #[serde(default = "usual_jiggers", skip_serializing_if = "is_usual")]
    pub jiggers_ml: Vec<f64>,
    /// When a difference is noticed.
    pub senses: Senses,
    /// Next free number for specs and trials.
    pub next_number: u32,
    /// Ingredients in use; shared as a whole by the steps of history that leave them alone.
    pub ingredients: Arc<BTreeMap<IngredientId, Arc<Ingredient>>>,
    /// House-made ingredients.
    #[serde(default, skip_serializing_if = "is_empty_shared")]
    pub preparations: Arc<BTreeMap<PreparationId, Arc<Preparation>>>,
    /// Measured batches; shared as a whole by the steps of history that leave them alone.
    #[serde(default, skip_serializing_if = "is_empty_shared")]
    pub lots: Arc<BTreeMap<LotId, Lot>>,
    /// How exactly things are poured.
    #[serde(default)]
    pub precision: Precision,
    /// Drinks weighed before and after ice, shared likewise.
    #[serde(default, skip_serializing_if = "is_empty_list")]
    pub weighings: Arc<Vec<Weighing>>,
    /// Methods whose weighings are kept but not used.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub uncalibrated: BTreeSet<Method>,
    /// Rules of competitions; shared as a whole by the steps of history that leave them alone.
    #[serde(default, skip_serializing_if = "is_empty_shared")]
    pub rule_sets: Arc<BTreeMap<RuleSetId, Arc<RuleSet>>>,
    /// Drinks being developed.
    pub specs: Vec<Spec>,
    /// Tastings; shared as a whole by the steps of history that leave them alone.
    #[serde(default, skip_serializing_if = "is_empty_shared")]
    pub tastings: Arc<BTreeMap<TastingId, Arc<Tasting>>>,
    /// How far answers may suggest a shift of the target.
    #[serde(default, skip_serializing_if = "Learning::is_usual")]
    pub learning: Learning,
}

/// What a pour's source comes down to.
#[derive(Clone, Debug)]
pub struct Settled<'a> {
    /// Ingredient that describes it.
    pub id: &'a IngredientId,
    /// Its figures.
    pub ingredient: &'a Arc<Ingredient>,
    /// Name to show: the ingredient's, the preparation's or the lot's.
    pub name: &'a str,
}

/// Jiggers that many bars have, ml: common practice, no source.
const USUAL_JIGGERS_ML: [f64; 8] = [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 45.0, 60.0];

fn usual_jiggers() -> Vec<f64> {
    USUAL_JIGGERS_ML.to_vec()
}

fn is_usual(jiggers: &[f64]) -> bool {
    jiggers == USUAL_JIGGERS_ML
}

impl Default for Document {
    fn default() -> Self {
        Self {
            title: "Untitled".to_owned(),
            notes: String::new(),
            currency: "EUR".to_owned(),
            measures: Measures::default(),
            jiggers_ml: usual_jiggers(),
            senses: Senses::default(),
            next_number: 1,
            ingredients: Arc::default(),
            preparations: Arc::default(),
            lots: Arc::default(),
            precision: Precision::default(),
            weighings: Arc::default(),
            uncalibrated: BTreeSet::new(),
            rule_sets: Arc::default(),
            specs: Vec::new(),
            tastings: Arc::default(),
            learning: Learning::default(),
        }
    }
}

impl Document {
    /// The spec of that number.
    pub fn spec(&self, id: SpecId) -> Option<&Spec> {
        self.specs.iter().find(|spec| spec.id == id)
    }

    /// The spec of that number, to change.
    pub fn spec_mut(&mut self, id: SpecId) -> Option<&mut Spec> {
        self.specs.iter_mut().find(|spec| spec.id == id)
    }

    /// The trial of that number and the spec it belongs to.
    pub fn trial(&self, id: TrialId) -> Option<(&Spec, &Arc<Trial>)> {
        self.specs
            .iter()
            .find_map(|spec| spec.trial(id).map(|trial| (spec, trial)))
    }

    /// The trial of that number, to change; copies it if history still shares it.
    pub fn trial_mut(&mut self, id: TrialId) -> Option<&mut Trial> {
        self.specs
            .iter_mut()
            .flat_map(|spec| spec.trials.iter_mut())
            .find(|trial| trial.id == id)
            .map(Arc::make_mut)
    }

    /// Equal to another, looking only at what the two do not share.
    pub fn is_same(&self, other: &Self) -> bool {
        let alike = |a: &Spec, b: &Spec| {
            same_trials(&a.trials, &b.trials)
                && same_trials(&a.bin, &b.bin)
                && a.without_trials() == b.without_trials()
        };
        self.specs.len() == other.specs.len()
            && (&self.title, &self.notes, &self.currency)
                == (&other.title, &other.notes, &other.currency)
            && (self.measures, self.senses) == (other.measures, other.senses)
            && self.jiggers_ml == other.jiggers_ml
            && self.next_number == other.next_number
            && same(&self.preparations, &other.preparations)
            && same(&self.lots, &other.lots)
            && self.precision == other.precision
            && same(&self.weighings, &other.weighings)
            && self.uncalibrated == other.uncalibrated
            && same(&self.rule_sets, &other.rule_sets)
            && same(&self.tastings, &other.tastings)
            && self.learning == other.learning
            && self.same_larder(other)
            && self
                .specs
                .iter()
                .zip(&other.specs)
                .all(|(a, b)| alike(a, b))
    }

    /// Ingredients equal to another's, looking only at those the two do not share.
    fn same_larder(&self, other: &Self) -> bool {
        let alike = |a: &Arc<Ingredient>, b: &Arc<Ingredient>| Arc::ptr_eq(a, b) || a == b;
        let (mine, theirs) = (&self.ingredients, &other.ingredients);
        Arc::ptr_eq(mine, theirs)
            || mine.len() == theirs.len()
                && mine
                    .iter()
                    .zip(theirs.iter())
                    .all(|((a, x), (b, y))| a == b && alike(x, y))
    }

    /// Lots of an ingredient, in the order of their ids.
    pub fn lots_of<'a>(
        &'a self,
        id: &'a IngredientId,
    ) -> impl Iterator<Item = (&'a LotId, &'a Lot)> + 'a {
        self.lots
            .iter()
            .filter(move |(_, lot)| lot.of.as_ref() == Some(id))
    }

    /// Places in a trial that pour an ingredient or a lot of it.
    pub fn pours_of<'a>(
        &'a self,
        trial: &'a Trial,
        of: &'a IngredientId,
    ) -> impl Iterator<Item = usize> + 'a {
        let is_of = move |pour: &Pour| match &pour.source {
            Source::Ingredient(id) => id == of,
            Source::Lot(lot) => self
                .lots
                .get(lot)
                .is_some_and(|lot| lot.of.as_ref() == Some(of)),
            Source::Preparation {
                preparation,
                output,
            } => self
                .preparations
                .get(preparation)
                .is_some_and(|made| made.outputs.get(output) == Some(of)),
        };
        let pours = trial.pours.iter().enumerate();
        pours
            .filter(move |(_, pour)| is_of(pour))
            .map(|(place, _)| place)
    }

    /// Names of the files of all pictures, those of trials in the bin too.
    pub fn photo_files(&self) -> impl Iterator<Item = &str> {
        let trials = self.specs.iter().flat_map(Spec::trials_and_bin);
        let photos = trials.flat_map(|trial| &trial.photos);
        photos.map(|photo| photo.file.as_str())
    }

    /// Takes the next free number.
    pub fn take_number(&mut self) -> u32 {
        let number = self.next_number;
        self.next_number += 1;
        number
    }

    /// The ingredient that describes a source; `None` when nothing does.
    pub fn row_of<'a>(&'a self, source: &'a Source) -> Option<&'a IngredientId> {
        match source {
            Source::Ingredient(id) => Some(id),
            Source::Preparation {
                preparation,
                output,
            } => self.preparations.get(preparation)?.outputs.get(output),
            Source::Lot(lot) => Some(&self.lots.get(lot)?.ingredient),
        }
    }

    /// What a pour of `trial` comes down to; a tasted trial's frozen copies come first.
    pub fn settle<'a>(&'a self, trial: &'a Trial, pour: &'a Pour) -> Option<Settled<'a>> {
        let id = self.row_of(&pour.source)?;
        let own_name = match &pour.source {
            Source::Lot(lot) => self.lots.get(lot).map(|lot| lot.label.as_str()),
            Source::Ingredient(_) | Source::Preparation { .. } => None,
        };
        let ingredient = trial.frozen.get(id).or_else(|| self.ingredients.get(id))?;
        Some(Settled {
            id,
            ingredient,
            name: own_name.unwrap_or(&ingredient.name),
        })
    }
}

/// Equal, looking only at what the two do not share.
fn same<T: PartialEq>(one: &Arc<T>, other: &Arc<T>) -> bool {
    Arc::ptr_eq(one, other) || one == other
}

/// Trials equal to others, looking only at those that the two do not share.
fn same_trials(mine: &[Arc<Trial>], theirs: &[Arc<Trial>]) -> bool {
    let pairs = mine.iter().zip(theirs);
    mine.len() == theirs.len() && pairs.into_iter().all(|(a, b)| same(a, b))
}

fn is_empty_shared<K, V>(map: &Arc<BTreeMap<K, V>>) -> bool {
    map.is_empty()
}

fn is_empty_list(list: &Arc<Vec<Weighing>>) -> bool {
    list.is_empty()
}
