//! How strong a house-made ingredient would have to be for a drink to balance at the amount it is
//! poured.

use super::blend::Blend;
use super::continuous::{distance, solve};
use super::field::NEXT_TO_NO_PULL;
use super::question::{Question, QuestionError};
use crate::balance::{Drink, Pantry};
use crate::kitchen::dissolved_brix;
use crate::model::{
    Amount, Bounds, Document, Ingredient, IngredientId, Pour, Role, ScaleRule, Spec, Trial,
};
use crate::physics::Composition;
use crate::solver::ProblemError;
use std::sync::Arc;

/// Less of the ingredient than this share of the amount is none of it.
const LEAST_SHARE: f64 = 1.0e-3;

/// Sugar and acid of a liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Dissolved solids, °Bx.
    pub brix: f64,
    /// Titratable acid as citric acid, g/L.
    pub acid_g_per_l: f64,
}

/// What an ingredient would have to be, and how to get there from what it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WantedStock {
    /// What is poured of it, ml.
    pub poured_ml: f64,
    /// As it is.
    pub now: Strength,
    /// As the drink wants it.
    pub wanted: Strength,
    /// Sugar to add to a litre of it as it is, g.
    pub sugar_g: f64,
    /// Acid to add to that litre, g.
    pub acid_g: f64,
    /// Water to add to that litre, g.
    pub water_g: f64,
    /// Distance of the drink as it is, noticeable differences.
    pub distance_now: f64,
    /// Distance with the ingredient as it is wanted.
    pub distance: f64,
}

/// Why nothing can be said.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StockError {
    /// The drink cannot be asked about.
    #[error(transparent)]
    Question(#[from] QuestionError),
    /// The solver refused the question.
    #[error(transparent)]
    Solver(#[from] ProblemError),
    /// There is no such pour, or nothing of it is poured.
    #[error("the drink pours none of it")]
    NotPoured,
    /// The drink would rather do without.
    #[error("the drink comes nearest without any of it: sugar, acid and water alone do better")]
    Without,
}

/// What sweetens, sours and thins a stock: an ingredient each.
#[derive(Clone, Copy, Debug)]
pub struct StockAdditions<'a> {
    /// Sugar, weighed.
    pub sugar: (&'a IngredientId, &'a Arc<Ingredient>),
    /// Acid, weighed.
    pub acid: (&'a IngredientId, &'a Arc<Ingredient>),
    /// Water.
    pub water: (&'a IngredientId, &'a Arc<Ingredient>),
}

/// Works out the stock that brings the drink nearest to its target when as much of it is poured as
/// now and every other pour stays.
///
/// Sugar, acid and water may be added to it, nothing taken out, so its fruit is thinned rather than
/// changed. Limits of the spec are not looked at: the amounts poured do not change.
pub fn wanted_stock(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    pour: usize,
    with: StockAdditions<'_>,
    pantry: &mut Pantry,
) -> Result<WantedStock, StockError> {
    let mut document = document.clone();
    let held = Arc::make_mut(&mut document.ingredients);
    let mut trial = trial.clone();
    for pour in &mut trial.pours {
        pour.locked = true;
    }
    let stock = trial.pours.get_mut(pour).ok_or(StockError::NotPoured)?;
    (stock.locked, stock.minimum, stock.maximum) = (false, None, None);
    let (added, place) = (stock.added, stock.place);
    for (id, item) in [with.sugar, with.acid, with.water] {
        held.entry(id.clone()).or_insert_with(|| Arc::clone(item));
        trial.pours.push(Pour {
            amount: Amount::Grams(0.0),
            added,
            place,
            ..Pour::of(id, 0.0, Role::Other)
        });
    }
    let mut spec = spec.clone();
    spec.balancing.scale_rule = ScaleRule::PouredTotal;
    (spec.bounds, spec.balancing.reluctance) = (Bounds::default(), NEXT_TO_NO_PULL);
    let drink = Drink::of_trial(&document, &trial, pantry).map_err(QuestionError::from)?;
    let question = Question::of_trial(&document, &spec, &trial, drink)?;
    answer(&question, pour)
}

fn answer(question: &Question, pour: usize) -> Result<WantedStock, StockError> {
    let known = question.unknowns.iter().position(|u| u.pour == pour);
    let stock = known.ok_or(StockError::NotPoured)?;
    let unknown = &question.unknowns[stock];
    let poured_ml = unknown.present * unknown.ml_per_unit;
    if poured_ml <= 0.0 {
        return Err(StockError::NotPoured);
    }
    let blend = Blend::new(question);
    let found = solve(&blend, question, NEXT_TO_NO_PULL)?;
    if found.x[stock] < LEAST_SHARE * unknown.present {
        return Err(StockError::Without);
    }
    let contents = |place: usize, amount: f64| {
        let line = &question.drink.lines[question.unknowns[place].line];
        let grams = amount * line.grams_per_unit;
        line.contents.per_gram.scaled(grams)
    };
    let amounts = found.x.iter().enumerate();
    let mixed = amounts.fold(Composition::ZERO, |sum, (place, amount)| {
        sum + contents(place, *amount)
    });
    // What goes to a litre of the stock that is left in the pour.
    let per_litre = 1000.0 / (found.x[stock] * unknown.ml_per_unit);
    let added: Vec<f64> = (0..found.x.len())
        .filter(|place| *place != stock)
        .map(|place| contents(place, found.x[place]).mass_g() * per_litre)
        .collect();
    let [sugar_g, acid_g, water_g] = added[..] else {
        return Err(StockError::NotPoured);
    };
    Ok(WantedStock {
        poured_ml,
        now: strength(&contents(stock, unknown.present)),
        wanted: strength(&mixed),
        sugar_g,
        acid_g,
        water_g,
        distance_now: distance(&blend, question, &question.present()),
        distance: distance(&blend, question, &found.x),
    })
}

fn strength(liquid: &Composition) -> Strength {
    Strength {
        brix: dissolved_brix(liquid),
        acid_g_per_l: liquid.sour_g_per_l(),
    }
}
