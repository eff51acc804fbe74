//! Which pour brings how much, and what one step more of it would do.

use super::compare::{Steps, steps_between};
use super::drink::{Drink, DrinkError, Line, serve_loads};
use super::load::Load;
use crate::model::{Added, Point, Senses};

/// What one pour brings to the drink.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// Place in the trial's list of pours.
    pub index: usize,
    /// Name to show.
    pub name: String,
    /// Share of the sweetness, 0 to 1.
    pub sweet: f64,
    /// Share of the acid, 0 to 1; a pour that neutralises acid has a negative share.
    pub sour: f64,
    /// Share of the alcohol, 0 to 1.
    pub strength: f64,
    /// Share of the bitterness, 0 to 1.
    pub bitter: f64,
    /// Share of the known cost, 0 to 1; `None` without a price.
    pub cost: Option<f64>,
    /// Volume in the drink, ml.
    pub volume_ml: f64,
    /// Mass in the drink, g.
    pub grams: f64,
    /// Where one step more of this pour would move the drink, in noticeable steps.
    pub one_step_more: Steps,
}

/// Contributions of every counted pour; `step_of` gives the step of a pour by its place.
pub fn contributions(
    drink: &Drink,
    senses: &Senses,
    step_of: impl Fn(usize) -> f64,
) -> Result<Vec<Contribution>, DrinkError> {
    let (chilled, after) = drink.loads();
    let now = serve_loads(&chilled, &after, &drink.ice)?;
    let here = Point::from(&now);
    let whole = chilled.plus(&after);
    let cost = drink
        .lines
        .iter()
        .filter_map(|line| Some(line.price_per_unit()? * line.amount))
        .sum::<f64>();
    let share = |part: f64, all: f64| if all.abs() > 1e-9 { part / all } else { 0.0 };
    drink
        .lines
        .iter()
        .map(|line| {
            let there = with_more(drink, (&chilled, &after), (line, step_of(line.index)))?;
            let unit = &line.per_unit;
            Ok(Contribution {
                index: line.index,
                name: line.name().to_owned(),
                sweet: share(unit.sweet_g * line.amount, whole.sweet_g),
                sour: share(unit.sour_g * line.amount, whole.sour_g),
                strength: share(unit.ethanol_g * line.amount, whole.ethanol_g),
                bitter: share(unit.bitter * line.amount, whole.bitter),
                cost: line
                    .price_per_unit()
                    .map(|price| share(price * line.amount, cost)),
                volume_ml: line.volume_ml(),
                grams: line.grams(),
                one_step_more: steps_between(&there, &here, senses),
            })
        })
        .collect()
}

/// The point with so much more of one line.
fn with_more(
    drink: &Drink,
    (chilled, after): (&Load<f64>, &Load<f64>),
    (line, step): (&Line, f64),
) -> Result<Point, DrinkError> {
    let served = if line.added == Added::With {
        serve_loads(&chilled.plus_units(step, &line.per_unit), after, &drink.ice)
    } else {
        serve_loads(chilled, &after.plus_units(step, &line.per_unit), &drink.ice)
    };
    Ok(Point::from(&served?))
}
