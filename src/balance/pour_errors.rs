//! How far each pour puts the balance off, per unit of it: errors as a sum over pours.

use super::drink::{Drink, DrinkError};
use super::gradient::{Gradient, Response, SOUR, STRENGTH, SWEET};
use super::inputs::{Assumed, Inputs, UncertainLine};
use super::pantry::Pantry;
use super::uncertainty::{squared_steps, unit, variance_of_sides};

/// What one pour adds to the variance of the balance, in weighted squared noticeable steps.
///
/// With x units in a drink of V ml the ranges of its ingredient add `of_figures`·(x/V)², and a
/// standard deviation of s units `of_pouring`·(s/V)². Pours of one ingredient count as if their
/// errors had nothing to do with each other.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PourError {
    /// From the ranges of its figures, ml² per unit².
    pub of_figures: f64,
    /// From pouring, ml² per unit².
    pub of_pouring: f64,
}

/// The errors of every line of a drink, worked out at the drink as it is.
pub fn pour_errors(
    assumed: &Assumed<'_>,
    drink: &Drink,
    pantry: &mut Pantry,
) -> Result<Vec<PourError>, DrinkError> {
    let inputs = Inputs::of(assumed, drink, pantry)?;
    let gradient = Gradient::at(&inputs.chilled, &inputs.after, &inputs.ice);
    let served = &gradient.served;
    let per_unit = squared_steps(served, assumed.senses, assumed.weights);
    let volume_ml2 = served.volume_ml * served.volume_ml;
    let sum = |variance: &dyn Fn(usize) -> f64| -> f64 {
        let axes = [SWEET, SOUR, STRENGTH].into_iter().zip(per_unit);
        volume_ml2
            * axes
                .map(|(place, steps)| steps * variance(place))
                .sum::<f64>()
    };
    let of_line = |line: &UncertainLine<'_>| {
        let of_figures = line.moves.iter().map(|each| {
            let scaled = |response: Response| response.map(|value| value * line.scale);
            let down = scaled(gradient.of(&each.down, line.chilled));
            let up = scaled(gradient.of(&each.up, line.chilled));
            let low = each.moved.low_share();
            sum(&|place| variance_of_sides(low, down[place], up[place]))
        });
        let poured = gradient.of(&unit(line), line.chilled);
        PourError {
            of_figures: of_figures.sum(),
            of_pouring: sum(&|place| poured[place] * poured[place]),
        }
    };
    Ok(inputs.lines.iter().map(of_line).collect())
}
