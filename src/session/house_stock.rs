//! What a preparation would have to be for the drink on screen to balance.

use super::house_build::{add_input, free_stream};
use super::house_view::HouseView;
use super::open_document::Session;
use crate::balance::Pantry;
use crate::model::{
    Ingredient, IngredientId, Preparation, PreparationId, Process, Quantity, Source, Step, Wait,
};
use crate::rebalance::{StockAdditions, WantedStock, wanted_stock};
use std::sync::Arc;

/// Sugar, acid and water of the built-in larder.
const ADDED: [&str; 3] = ["granulated-sugar", "citric-acid", "water"];
/// Less than this is not weighed, g in a batch.
const LEAST_G: f64 = 0.005;

/// An output that the drink on screen pours, and what it would have to be.
#[derive(Clone, Debug, PartialEq)]
pub struct StockFor {
    /// Place of the pour in the trial.
    pub pour: usize,
    /// Name of the stream.
    pub output: String,
    /// The answer, or why there is none.
    pub wanted: Result<WantedStock, String>,
}

/// Answers for every pour of the trial on screen that is an output of the preparation.
pub fn stocks_for(session: &Session, id: &PreparationId) -> Vec<StockFor> {
    let (Some(spec), Some(trial)) = (session.spec(), session.trial()) else {
        return Vec::new();
    };
    let Some(rows) = added_rows(session) else {
        return Vec::new();
    };
    let [sugar, acid, water] = &rows;
    let with = StockAdditions {
        sugar: (&sugar.0, &sugar.1),
        acid: (&acid.0, &acid.1),
        water: (&water.0, &water.1),
    };
    let mut pantry = Pantry::default();
    let pours = trial.pours.iter().enumerate();
    pours
        .filter_map(|(pour, line)| match &line.source {
            Source::Preparation {
                preparation,
                output,
            } if preparation == id => Some((pour, output.clone())),
            _ => None,
        })
        .map(|(pour, output)| {
            let asked = wanted_stock(session.document(), spec, trial, pour, with, &mut pantry);
            StockFor {
                pour,
                output,
                wanted: asked.map_err(|error| error.to_string()),
            }
        })
        .collect()
}

/// Rows of the larder that are added: those of the document where it has them.
fn added_rows(session: &Session) -> Option<[(IngredientId, Arc<Ingredient>); 3]> {
    let (own, built_in) = (&session.document().ingredients, &session.builtin().larder);
    let row = |id: &str| {
        let id = IngredientId::from(id);
        let item = own.get(&id).or_else(|| built_in.get(&id))?;
        Some((id, Arc::clone(item)))
    };
    let [sugar, acid, water] = ADDED;
    Some([row(sugar)?, row(acid)?, row(water)?])
}

/// Adds to a preparation what the answer asks for: the additions as inputs and a last step that takes
/// them in. Gives the rows that the inputs need; `None` when the output is not there.
pub fn take_stock(
    session: &Session,
    view: &HouseView,
    made: &mut Preparation,
    (output, wanted): (&str, &WantedStock),
) -> Option<Vec<(IngredientId, Arc<Ingredient>)>> {
    let batch = view.outputs.iter().find(|found| found.stream == output)?;
    made.outputs.get(output)?;
    let litres = batch.ml / 1000.0;
    let mut from = vec![output.to_owned()];
    let mut needed = Vec::new();
    let amounts = [wanted.sugar_g, wanted.acid_g, wanted.water_g];
    for ((id, item), per_litre) in added_rows(session)?.into_iter().zip(amounts) {
        let grams = per_litre * litres;
        if grams < LEAST_G {
            continue;
        }
        let source = Source::Ingredient(id.clone());
        add_input(made, &item.name, source, Quantity::Grams(grams));
        from.extend(made.inputs.last().map(|input| input.name.clone()));
        needed.push((id, item));
    }
    let to = free_stream(made, &format!("{output}, adjusted"));
    made.steps.push(Step {
        does: Process::Dissolve,
        from,
        to: vec![to],
        lost: 0.0,
        hands_on_min: 2.0,
        wait: Wait::default(),
        celsius: None,
        equipment: vec!["scale".to_owned()],
        note: String::new(),
    });
    Some(needed)
}
