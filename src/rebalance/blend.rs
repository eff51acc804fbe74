//! The drink as a function of its unlocked amounts, with its gradient.

use super::question::Question;
use crate::balance::{self, Encloser, Hint, Hints, Ice, Load, Served, serve};
use crate::model::{Added, Axis, Point, Threshold};
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::physics::number::{Dual, Number};
use crate::solver::{Enclosure, Known, Mixture, Ranged, RatioAxis, Residuals};

/// One axis that counts.
#[derive(Clone, Copy, Debug)]
struct Counted {
    axis: Axis,
    threshold: Threshold,
    /// Square root of the weight over ln(1 + w).
    scale: f64,
    /// ln(target + c0).
    aim: f64,
    /// Figure and threshold together count as at least this.
    least: f64,
}

/// The drink as a function of its unlocked amounts.
#[derive(Clone, Debug)]
pub(crate) struct Blend {
    fixed: (Load<f64>, Load<f64>),
    /// What one unit of each unknown brings, and whether it is chilled; close together in memory.
    moving: Vec<(Load<f64>, bool)>,
    axes: Vec<Counted>,
    /// What ice does; nothing when nothing is chilled and all of it is served as it is.
    ice: Ice,
    encloser: Encloser,
}

/// Less chilled liquid than this (g) has no meaningful point.
const LEAST_MASS_G: f64 = 0.01;

impl Blend {
    pub(crate) fn new(question: &Question) -> Self {
        let mut moves = vec![false; question.drink.lines.len()];
        for unknown in &question.unknowns {
            moves[unknown.line] = true;
        }
        let unchilled = question
            .drink
            .lines
            .iter()
            .zip(&moves)
            .all(|(line, moves)| line.added != Added::With || !*moves && line.amount <= 0.0);
        let (mut chilled, mut after) = (Load::ZERO, Load::ZERO);
        for (line, _) in question
            .drink
            .lines
            .iter()
            .zip(&moves)
            .filter(|(_, moves)| !**moves)
        {
            if unchilled || line.added == Added::With {
                chilled = chilled.plus_units(line.amount, &line.per_unit);
            } else {
                after = after.plus_units(line.amount, &line.per_unit);
            }
        }
        let moving = question.unknowns.iter().map(|unknown| {
            let line = &question.drink.lines[unknown.line];
            (line.per_unit, unchilled || line.added == Added::With)
        });
        let moving: Vec<(Load<f64>, bool)> = moving.collect();
        let ice = if unchilled {
            Ice::NONE
        } else {
            question.drink.ice
        };
        Self {
            encloser: Encloser::new((&chilled, &after), &moving, ice),
            fixed: (chilled, after),
            moving,
            axes: counted(question),
            ice,
        }
    }

    /// The axes as ratios of linear amounts to the served volume.
    pub(crate) fn ratio_axes(&self) -> Vec<RatioAxis> {
        let whole = self.fixed.0.plus(&self.fixed.1);
        let axis = |counted: &Counted| RatioAxis {
            constant: amount_of(&whole, counted.axis),
            per_unit: self
                .moving
                .iter()
                .map(|(per_unit, _)| amount_of(per_unit, counted.axis))
                .collect(),
            offset: counted.threshold.detection,
            aim: counted.aim,
            weight: counted.scale * counted.scale,
            least: counted.least,
        };
        self.axes.iter().map(axis).collect()
    }

    /// Sums of the chilled part and of what is added to it.
    fn loads(&self, x: &[f64]) -> (Load<f64>, Load<f64>) {
        let (mut chilled, mut after) = self.fixed;
        for ((per_unit, is_chilled), amount) in self.moving.iter().zip(x) {
            let part = if *is_chilled {
                &mut chilled
            } else {
                &mut after
            };
            *part = part.plus_units(*amount, per_unit);
        }
        (chilled, after)
    }

    /// The drink as served with these amounts; `None` when next to nothing is chilled.
    pub(crate) fn served(&self, x: &[f64]) -> Option<Served<f64>> {
        let (chilled, after) = self.loads(x);
        (chilled.mass_g > LEAST_MASS_G).then(|| serve(&chilled, &after, &self.ice))
    }

    /// The point with these amounts.
    pub(crate) fn point(&self, x: &[f64]) -> Option<Point> {
        self.served(x).map(|served| Point::from(&served))
    }

    /// The drink with slopes for the unknowns `first..first + N`.
    fn served_dual<const N: usize>(&self, x: &[f64], first: usize) -> Option<Served<Dual<N>>> {
        let (chilled, after) = self.loads(x);
        if chilled.mass_g <= LEAST_MASS_G {
            return None;
        }
        let mut chilled: Load<Dual<N>> = Load::lift(&chilled);
        let mut after: Load<Dual<N>> = Load::lift(&after);
        for (slot, (per_unit, is_chilled)) in self.moving.iter().skip(first).take(N).enumerate() {
            let part = if *is_chilled {
                &mut chilled
            } else {
                &mut after
            };
            tilt(part, slot, per_unit);
        }
        Some(serve(&chilled, &after, &self.ice))
    }

    /// Served volume and its slope in every unknown.
    pub(crate) fn volume_and_slopes(&self, x: &[f64]) -> Option<(f64, Vec<f64>)> {
        let mut slopes = Vec::with_capacity(x.len());
        let mut volume = 0.0;
        for first in (0..x.len()).step_by(8) {
            let served = self.served_dual::<8>(x, first)?;
            volume = served.volume_ml.value;
            let here = served.volume_ml.slope;
            slopes.extend(here.iter().take(x.len() - first));
        }
        Some((volume, slopes))
    }

    fn fill<const N: usize>(&self, x: &[f64], first: usize, r: &mut [f64], j: &mut [f64]) -> bool {
        let Some(served) = self.served_dual::<N>(x, first) else {
            return false;
        };
        for (row, counted) in self.axes.iter().enumerate() {
            let value = counted.residual(axis_of(&served, counted.axis));
            r[row] = value.value;
            for (slot, slope) in value.slope.iter().take(x.len() - first).enumerate() {
                j[row * x.len() + first + slot] = *slope;
            }
        }
        true
    }
}

/// The axes with a weight.
fn counted(question: &Question) -> Vec<Counted> {
    let weights = question.balancing.weights;
    [
        (Axis::Sweet, weights.sweet, question.senses.sweet),
        (Axis::Sour, weights.sour, question.senses.sour),
        (Axis::Strength, weights.strength, question.senses.strength),
    ]
    .into_iter()
    .filter(|(_, weight, _)| *weight > 0.0)
    .map(|(axis, weight, threshold)| Counted {
        axis,
        threshold,
        scale: weight.sqrt() / (1.0 + threshold.weber).ln(),
        aim: (question.target.on(axis).max(0.0) + threshold.detection).ln(),
        least: question.senses.least_counted(axis) + threshold.detection,
    })
    .collect()
}

/// Makes unknown number `slot` move this load.
fn tilt<const N: usize>(load: &mut Load<Dual<N>>, slot: usize, per_unit: &Load<f64>) {
    load.mass_g.slope[slot] = per_unit.mass_g;
    load.water_g.slope[slot] = per_unit.water_g;
    load.ethanol_g.slope[slot] = per_unit.ethanol_g;
    load.sucrose_g.slope[slot] = per_unit.sucrose_g;
    load.rest_ml.slope[slot] = per_unit.rest_ml;
    load.sweet_g.slope[slot] = per_unit.sweet_g;
    load.sour_g.slope[slot] = per_unit.sour_g;
    load.bitter.slope[slot] = per_unit.bitter;
    load.cold_kj.slope[slot] = per_unit.cold_kj;
}

fn axis_of<N: Number>(served: &Served<N>, axis: Axis) -> N {
    match axis {
        Axis::Sweet => served.sweet_g_per_l,
        Axis::Sour => served.sour_g_per_l,
        Axis::Strength => served.strength_pct_vol,
        Axis::Bitter => served.bitter_per_ml,
    }
}

/// The amount whose ratio to the served volume in ml is the figure of an axis.
fn amount_of(load: &Load<f64>, axis: Axis) -> f64 {
    match axis {
        Axis::Sweet => 1000.0 * load.sweet_g,
        Axis::Sour => 1000.0 * load.sour_g,
        Axis::Strength => 100.0 / ETHANOL_G_PER_ML * load.ethanol_g,
        Axis::Bitter => load.bitter,
    }
}

fn hint<'a>(ranged: &Ranged<'a>) -> Hint<'a> {
    Hint {
        constant: ranged.constant,
        per_unit: ranged.per_unit,
        low: ranged.low,
        high: ranged.high,
    }
}

impl Mixture for Blend {
    fn volume(&self, x: &[f64]) -> Option<f64> {
        self.served(x).map(|served| served.volume_ml)
    }

    fn enclose<'a>(
        &'a self,
        ends: (&[f64], &[f64]),
        at: &[f64],
        known: &Known,
    ) -> Option<Box<dyn Enclosure + 'a>> {
        let totals: Vec<Hint<'_>> = known.totals.iter().map(hint).collect();
        let ratios: Vec<Hint<'_>> = known.ratios.iter().map(hint).collect();
        let hints = Hints {
            totals: &totals,
            ratios: &ratios,
        };
        let found = self.encloser.enclose(ends, at, &hints)?;
        Some(Box::new(EnclosedVolume(found)))
    }
}

/// The served volume of a blend over a box.
struct EnclosedVolume(balance::Enclosure);

impl Enclosure for EnclosedVolume {
    fn constant(&self) -> f64 {
        self.0.constant()
    }

    fn slopes(&self) -> &[f64] {
        self.0.slopes()
    }

    fn linear(&self, lower: &[f64], upper: &[f64]) -> (f64, f64) {
        let range = self.0.linear(lower, upper);
        (range.low, range.high)
    }

    fn rest(&self, lower: &[f64], upper: &[f64]) -> (f64, f64) {
        let rest = self.0.rest(lower, upper);
        (rest.low, rest.high)
    }
}

impl Counted {
    /// Weighted steps from the target.
    fn residual<N: Number>(&self, value: N) -> N {
        value
            .at_least(0.0)
            .offset(self.threshold.detection)
            .at_least(self.least)
            .ln()
            .offset(-self.aim)
            .scale(self.scale)
    }
}

impl Residuals for Blend {
    fn count(&self) -> usize {
        self.axes.len()
    }

    fn evaluate(&self, x: &[f64], r: &mut [f64], jacobian: Option<&mut [f64]>) -> bool {
        let Some(jacobian) = jacobian else {
            let Some(served) = self.served(x) else {
                return false;
            };
            for (row, counted) in self.axes.iter().enumerate() {
                r[row] = counted.residual(axis_of(&served, counted.axis));
            }
            return true;
        };
        match x.len() {
            0..=4 => self.fill::<4>(x, 0, r, jacobian),
            5..=8 => self.fill::<8>(x, 0, r, jacobian),
            _ => (0..x.len())
                .step_by(12)
                .all(|first| self.fill::<12>(x, first, r, jacobian)),
        }
    }
}
