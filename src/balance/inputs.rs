//! Everything about a drink that is not known exactly.

use super::drink::{Drink, DrinkError, Line, as_served};
use super::kernel::Ice;
use super::load::Load;
use super::moves::{Manner, Move};
use super::pantry::Pantry;
use super::scatter::{dilution_sigma, pour_sigma};
use crate::model::{Added, Amount, Figure, Pour, Precision, Senses, Weighing, Weights};
use std::sync::Arc;

/// What errors are taken from and judged by.
#[derive(Clone, Copy, Debug)]
pub struct Assumed<'a> {
    /// The trial's pours, in the order that [`Line::index`] counts.
    pub pours: &'a [Pour],
    /// How exactly things are poured.
    pub precision: &'a Precision,
    /// Weighings that the drink's own dilution rests on; none when they are set aside.
    pub weighings: &'a [Weighing],
    /// When a difference is noticed.
    pub senses: &'a Senses,
    /// How much each axis counts.
    pub weights: &'a Weights,
}

/// One thing that is not known exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Input {
    /// The amount of the pour at this place in the trial.
    Pour(usize),
    /// A figure of an ingredient, whatever number of pours it has.
    Figure {
        /// Place of its first pour in the trial.
        pour: usize,
        /// Which figure.
        figure: Figure,
    },
    /// The water from ice.
    Dilution,
}

/// A line with its errors.
#[derive(Clone, Debug)]
pub(super) struct UncertainLine<'a> {
    pub line: &'a Line,
    /// Chilled and diluted; else added afterwards.
    pub chilled: bool,
    /// Standard deviation of the amount, in the pour's own measure.
    pub sigma: f64,
    /// Units of the moves in one unit of the amount.
    pub scale: f64,
    /// How one unit follows the figures.
    pub moves: Arc<[Move]>,
    /// Number of this ingredient's first figure among all figures of the drink.
    pub first_figure: usize,
}

/// A drink with its errors.
#[derive(Clone, Debug)]
pub(super) struct Inputs<'a> {
    pub lines: Vec<UncertainLine<'a>>,
    pub chilled: Load<f64>,
    pub after: Load<f64>,
    pub ice: Ice,
    /// Standard deviation of the water from ice, as a share of it.
    pub dilution_sigma: f64,
    /// How many figures of ingredients have a range.
    pub figures: usize,
}

impl<'a> Inputs<'a> {
    /// The errors of a drink; one ingredient has the same figures in all of its pours.
    pub(super) fn of(
        assumed: &Assumed<'_>,
        drink: &'a Drink,
        pantry: &mut Pantry,
    ) -> Result<Self, DrinkError> {
        let (chilled, after) = drink.loads();
        let (chilled, after, ice) = as_served(&chilled, &after, &drink.ice)?;
        let chills = |line: &Line| line.added == Added::With;
        let any_chilled = drink
            .lines
            .iter()
            .any(|line| chills(line) && line.grams() > 0.0);
        let mut lines: Vec<UncertainLine<'a>> = Vec::with_capacity(drink.lines.len());
        let mut figures = 0;
        for line in &drink.lines {
            let pour = assumed.pours.get(line.index);
            let (moves, scale) = moves_of(line, pour, pantry)?;
            let same =
                |known: &&UncertainLine<'_>| Arc::ptr_eq(&known.line.ingredient, &line.ingredient);
            let first_figure = lines.iter().find(same).map_or(figures, |l| l.first_figure);
            figures = figures.max(first_figure + moves.len());
            lines.push(UncertainLine {
                line,
                chilled: !any_chilled || chills(line),
                sigma: pour.map_or(0.0, |pour| pour_sigma(assumed.precision, pour, line.amount)),
                scale,
                moves,
                first_figure,
            });
        }
        Ok(Self {
            lines,
            chilled,
            after,
            ice,
            dilution_sigma: dilution_sigma(assumed.precision, assumed.weighings, drink),
            figures,
        })
    }
}

/// How a line follows the figures, per unit, and the units in one unit of its amount.
fn moves_of(
    line: &Line,
    pour: Option<&Pour>,
    pantry: &mut Pantry,
) -> Result<(Arc<[Move]>, f64), DrinkError> {
    let by_volume = pour.is_some_and(|pour| matches!(pour.amount, Amount::Ml(_)));
    let manner = Manner {
        by_volume,
        cold_celsius: (line.per_unit.cold_kj != 0.0).then_some(line.celsius),
    };
    let scale = if by_volume {
        line.grams_per_unit / line.contents.density_g_per_ml
    } else {
        line.grams_per_unit
    };
    Ok((pantry.moves(&line.ingredient, &manner)?, scale))
}
