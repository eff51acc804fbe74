//! Which ingredient of the larder would bring a drink nearer to its target, poured beside the rest.

use super::continuous::NOTICEABLE;
use super::question::{Question, Unknown};
use super::remedy::{Chilled, Present, Remedy, RemedyKind, WORTH, room_ml, rounded};
use super::remedy_round::on_the_continuum;
use super::remedy_tries::Try;
use super::swap::{LarderItem, Replacement, lend};
use super::swap_candidates::Skipped;
use super::swap_original::{Original, SwapError};
use super::swap_start::jigger_unit;
use crate::balance::{Drink, Line, Pantry, figures, step_of};
use crate::kitchen::{Contents, is_dashed, is_weighed, is_whole};
use crate::model::{
    Added, Amount, Dilution, Ingredient, IngredientId, Method, Pour, Technique, Trial,
};
use crate::units::Unit;
use std::cmp::Ordering;
use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering as Memory};

/// Most of a new pour that is jiggered, ml (our convention, no source): more makes another drink.
const MOST_ML: f64 = 45.0;
/// Most of a new pour of sugar and the like, g (our convention, no source).
const MOST_G: f64 = 20.0;
/// Most of a new pour of a pure acid, g (our convention, no source).
const MOST_ACID_G: f64 = 3.0;
/// Most dashes of a new pour (our convention, no source).
const MOST_DASHES: f64 = 4.0;
/// An amount of no more than this is nothing, in the pour's own measure.
const NOTHING: f64 = 1.0e-9;

/// An ingredient that would bring the drink nearer.
#[derive(Clone, Debug, PartialEq)]
pub struct Addition {
    /// Its name in the document or in the built-in larder.
    pub id: IngredientId,
    /// Its figures.
    pub item: Arc<Ingredient>,
    /// The document holds it already.
    pub is_own: bool,
    /// Volume of it, ml.
    pub volume_ml: f64,
    /// What it costs in the document's currency; `None` without a price.
    pub cost: Option<f64>,
    /// Allergens that are not in the drink yet.
    pub allergens: Vec<String>,
    /// Distance from the target, noticeable steps: on the pour steps where `remedy` is there, else
    /// before rounding.
    pub distance: f64,
    /// The drink with it on the pour steps, for the leading ones.
    pub remedy: Option<Remedy>,
}

/// Every ingredient that would bring the drink nearer, best first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Additions {
    /// Distance of the nearest drink on the pour steps as things are; `None` when nothing keeps the
    /// limits.
    pub present: Option<f64>,
    /// First those on the pour steps, then those that were only screened.
    pub found: Vec<Addition>,
    /// Ingredients whose contents cannot be worked out, or with which there is no drink.
    pub skipped: Vec<Skipped>,
}

/// Parts of the work, as `progress` counts them.
pub const fn addition_parts(larder: usize, rounded: usize) -> usize {
    larder + rounded
}

/// Tries every ingredient of a larder that is not poured yet as one pour more; none when the target
/// can be reached.
///
/// It begins at nothing and is poured in its own measure: by the dash, by weight or by the jigger,
/// carbonated ones on top, all others with the rest. What needs work in the kitchen before it pours,
/// such as a fruit, is left out, and so is what would overflow the glass. All are screened with the
/// continuous optimum downhill from the nearest drink without it; the `leading` ones are rounded to
/// the pour steps and ordered anew by where they really land. Only what gains a twentieth of a
/// noticeable difference is kept, nearest first to a tenth of one; then what the document holds
/// already (our convention: it is at hand), then the smaller volume, the lower cost (unknown last),
/// fewer new allergens, and by name.
///
/// `progress` counts up to [`addition_parts`]; `None` when `cancel` was set. Fails when the question
/// itself cannot be asked.
pub fn additions(
    original: &Original<'_>,
    larder: &[LarderItem],
    leading: usize,
    pantry: &mut Pantry,
    (progress, cancel): (&AtomicUsize, &AtomicBool),
) -> Result<Option<Additions>, SwapError> {
    let search = Search::of(original)?;
    let mut all = Additions {
        present: search.now.stated(),
        ..Additions::default()
    };
    if search.now.distance <= NOTICEABLE {
        return Ok(Some(all));
    }
    for one in larder {
        if cancel.load(Memory::Relaxed) {
            return Ok(None);
        }
        progress.fetch_add(1, Memory::Relaxed);
        if search.poured.contains(&one.0) || is_whole(&one.1) {
            continue;
        }
        match search.screened(one, pantry) {
            Ok(found) => all.found.extend(found),
            Err(error) => all.skipped.push(Skipped::of(&one.1, &error)),
        }
    }
    all.found.sort_by(Addition::compare);
    let rest = all.found.split_off(leading.min(all.found.len()));
    let mut landed = Vec::with_capacity(all.found.len() + rest.len());
    for one in all.found.drain(..) {
        if cancel.load(Memory::Relaxed) {
            return Ok(None);
        }
        progress.fetch_add(1, Memory::Relaxed);
        let item = Arc::clone(&one.item);
        match search.landed(one, pantry) {
            Ok(found) => landed.extend(found),
            Err(error) => all.skipped.push(Skipped::of(&item, &error)),
        }
    }
    landed.sort_by(Addition::compare);
    landed.extend(rest);
    all.found = landed;
    Ok(Some(all))
}

impl Addition {
    /// Which of two stands first.
    pub fn compare(&self, other: &Self) -> Ordering {
        let tenths = |one: &Self| (one.distance * 10.0).round();
        let cost = |one: &Self| one.cost.unwrap_or(f64::INFINITY);
        tenths(self)
            .total_cmp(&tenths(other))
            .then_with(|| other.is_own.cmp(&self.is_own))
            .then_with(|| self.volume_ml.total_cmp(&other.volume_ml))
            .then_with(|| cost(self).total_cmp(&cost(other)))
            .then_with(|| self.allergens.len().cmp(&other.allergens.len()))
            .then_with(|| self.item.name.cmp(&other.item.name))
    }

    /// With the volume and the cost of an amount of the last line of a question.
    fn poured(self, question: &Question, amount: f64) -> Self {
        let Some(line) = question.drink.lines.last() else {
            return self;
        };
        Self {
            volume_ml: amount * line.grams_per_unit / line.contents.density_g_per_ml,
            cost: line.price_per_unit().map(|price| price * amount),
            ..self
        }
    }
}

/// What all tries have in common.
struct Search<'o, 'd> {
    original: &'o Original<'d>,
    now: Present,
    /// What a drink with one pour more may fill, ml.
    room_ml: f64,
    before: Chilled,
    poured: BTreeSet<IngredientId>,
    allergens: BTreeSet<String>,
}

impl<'o, 'd> Search<'o, 'd> {
    fn of(original: &'o Original<'d>) -> Result<Self, SwapError> {
        let (document, trial) = (original.document, &original.trial);
        let settled = trial.pours.iter();
        let poured = settled.filter_map(|pour| document.settle(trial, pour));
        let lines = original.drink.lines.iter();
        let said = lines
            .filter(|line| line.amount > 0.0)
            .flat_map(|line| line.contents.nature.allergens.iter());
        Ok(Self {
            now: Present::of(original)?,
            room_ml: room_ml(original),
            before: Chilled::of(&figures(&original.drink)?),
            poured: poured.map(|settled| settled.id.clone()).collect(),
            allergens: said.map(|term| term.to_lowercase()).collect(),
            original,
        })
    }

    /// How near an ingredient comes before anything is rounded; `None` when it does not help.
    fn screened(
        &self,
        (id, item): &LarderItem,
        pantry: &mut Pantry,
    ) -> Result<Option<Addition>, SwapError> {
        let contents = pantry.contents(item)?;
        let pour = new_pour(&self.original.trial, (id, item), &contents);
        let Some(question) = self.with(&pour, item, pantry)? else {
            return Ok(None);
        };
        let (distance, amounts) = self.smooth(&question)?;
        let amount = amounts.last().copied().unwrap_or(0.0);
        if distance > self.now.distance - WORTH || amount <= NOTHING {
            return Ok(None);
        }
        let found = Addition {
            id: id.clone(),
            item: Arc::clone(item),
            is_own: self.original.document.ingredients.contains_key(id),
            volume_ml: 0.0,
            cost: None,
            allergens: self.new_allergens(&contents),
            distance,
            remedy: None,
        };
        Ok(Some(found.poured(&question, amount)))
    }

    /// Distance and amounts before anything is rounded, downhill from the nearest drink without the
    /// new pour.
    fn smooth(&self, question: &Question) -> Result<(f64, Vec<f64>), SwapError> {
        let mut start = self.now.smooth.clone();
        start.push(0.0);
        on_the_continuum(question, Some(&start)).ok_or(SwapError::Nothing)
    }

    fn new_allergens(&self, contents: &Contents) -> Vec<String> {
        let said = contents.nature.allergens.iter();
        let said = said.map(|term| term.to_lowercase());
        said.filter(|term| !self.allergens.contains(term)).collect()
    }

    /// The question with one pour more; `None` when nobody can say how much of it is in the drink.
    fn with(
        &self,
        pour: &Pour,
        item: &Arc<Ingredient>,
        pantry: &mut Pantry,
    ) -> Result<Option<Question>, SwapError> {
        // A pour of nothing leaves the ice of the drink as it is, so that none is worked out here.
        let still = Technique::new(Method::NoIce, Dilution::ByMethod);
        let alone = [(pour, item, item.name.as_str())].into_iter();
        let Some(mut line) = Drink::of_pours(alone, still, pantry)?.lines.pop() else {
            return Ok(None);
        };
        line.index = self.original.trial.pours.len();
        let mut question = self.now.question.clone();
        question.glass_ml.get_or_insert(self.room_ml);
        let place = question.drink.lines.len();
        question.unknowns.push(self.unknown(pour, &line, place));
        question.drink.lines.push(line);
        Ok(Some(question))
    }

    /// A new pour that may move from nothing to the most that is added of it.
    fn unknown(&self, pour: &Pour, line: &Line, place: usize) -> Unknown {
        let measures = &self.original.document.measures;
        let step = step_of(pour, measures);
        let most = match (&pour.amount, pour.unit) {
            (_, Unit::Dash) => MOST_DASHES * measures.dash_ml,
            (Amount::Pieces(_), _) => 1.0,
            (Amount::Grams(_), _) if line.ingredient.pure_acid.is_some() => MOST_ACID_G,
            (Amount::Grams(_), _) => MOST_G,
            _ => MOST_ML,
        };
        Unknown {
            line: place,
            pour: line.index,
            lower: 0.0,
            upper: most.max(step),
            present: 0.0,
            step,
            ml_per_unit: line.grams_per_unit / line.contents.density_g_per_ml,
            by_jigger: matches!(pour.amount, Amount::Ml(_)) && pour.unit != Unit::Dash,
            held: false,
            must_move: false,
        }
    }

    /// An ingredient on the pour steps; `None` when it does not help there.
    fn landed(&self, one: Addition, pantry: &mut Pantry) -> Result<Option<Addition>, SwapError> {
        let original = self.original;
        let mut trial = original.trial.clone();
        let place = trial.pours.len();
        let replacement = Replacement {
            pour: place,
            id: one.id.clone(),
            item: Arc::clone(&one.item),
        };
        let item = lend(original, &mut trial, &replacement);
        let contents = pantry.contents(&item)?;
        let pour = new_pour(&original.trial, (&one.id, &item), &contents);
        let Some(question) = self.with(&pour, &item, pantry)? else {
            return Ok(None);
        };
        trial.pours.push(pour);
        let (spec, drink) = (original.spec.clone(), question.drink.clone());
        let tried = Try::of(RemedyKind::Add(place), spec, trial, drink);
        let ingredients = vec![(one.id.clone(), item)];
        let brings = (self.before, ingredients);
        let (_, smooth) = self.smooth(&question)?;
        let remedy = rounded(original, (tried, &question, smooth), brings, pantry)?;
        let poured = remedy.swap.trial.pours.get(place);
        let amount = poured.and_then(|pour| pour.amount.value()).unwrap_or(0.0);
        let helps = remedy.distance() <= self.now.distance - WORTH;
        if amount <= NOTHING || !helps || !remedy.fits(self.room_ml) {
            return Ok(None);
        }
        let found = Addition {
            distance: remedy.distance(),
            remedy: Some(remedy),
            ..one
        };
        Ok(Some(found.poured(&question, amount)))
    }
}

/// A pour of nothing yet, in the measure that an ingredient is poured in.
fn new_pour(trial: &Trial, (id, item): (&IngredientId, &Ingredient), contents: &Contents) -> Pour {
    let mut pour = Pour::of(id, 0.0, item.role);
    (pour.amount, pour.unit) = if item.piece_g.is_some() {
        (Amount::Pieces(0.0), Unit::Piece)
    } else if is_weighed(item, contents) {
        (Amount::Grams(0.0), Unit::Gram)
    } else if is_dashed(item) {
        (Amount::Ml(0.0), Unit::Dash)
    } else {
        (Amount::Ml(0.0), jigger_unit(trial))
    };
    if contents.per_gram.co2_g > 0.0 {
        pour.added = Added::After;
    }
    pour
}
