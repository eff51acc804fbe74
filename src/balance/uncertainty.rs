//! How far a predicted drink may be off, by linear propagation of every error.

use super::drink::{Drink, DrinkError};
use super::ellipse::Ellipse;
use super::figures::compositions;
use super::gradient::{
    BITTER, DILUTION, Gradient, OUTPUTS, PH, Response, SOUR, STRENGTH, SWEET, VOLUME,
};
use super::inputs::{Assumed, Input, Inputs, UncertainLine};
use super::kernel::Served;
use super::moves::{Acidic, Delta};
use super::pantry::Pantry;
use crate::kitchen::Contents;
use crate::model::{Axis, Senses, Weights};
use crate::physics::acidity::{Acidity, MODEL_SIGMA};
use crate::physics::composition::Composition;
use core::f64::consts::FRAC_2_PI;

/// Standard deviations within which 19 of 20 normal values lie.
pub const TWO_SIDED: f64 = 1.96;

/// Axes of the covariance.
const AXES: usize = 4;

/// How much of the whole error one input brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Where the error comes from.
    pub input: Input,
    /// Share of the variance in weighted squared noticeable steps, 0 to 1.
    pub share: f64,
    /// Share of the variance of sweet.
    pub sweet: f64,
    /// Share of the variance of sour.
    pub sour: f64,
    /// Share of the variance of strength.
    pub strength: f64,
}

/// How far a predicted drink may be off.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertainty {
    covariance: [[f64; AXES]; AXES],
    shift: [f64; AXES],
    /// Standard deviation of the served volume, ml.
    pub volume_ml: f64,
    /// Standard deviation of the dilution (water from ice over the volume before).
    pub dilution: f64,
    /// Standard deviation of pH, the model's own error included; `None` without a pH.
    pub ph: Option<f64>,
    /// Where it comes from, the largest first; inputs without any effect are left out.
    pub shares: Vec<Share>,
}

/// What one input does to the served drink, per standard deviation of it.
#[derive(Clone, Copy, Debug)]
struct Effect {
    input: Input,
    /// Probability of the low side.
    low_share: f64,
    down: Response,
    up: Response,
}

impl Effect {
    /// An input that errs alike to both sides.
    fn even(input: Input, up: Response) -> Self {
        Self {
            input,
            low_share: 0.5,
            down: up.map(|each| -each),
            up,
        }
    }
}

/// Mean and covariance of what one input does.
#[derive(Clone, Copy, Debug)]
struct Moments<'a> {
    effect: &'a Effect,
    mean: Response,
}

impl<'a> Moments<'a> {
    /// Of a split normal: of |z| the mean is √(2/π) and the mean square 1, on either side.
    fn of(effect: &'a Effect) -> Self {
        let root = FRAC_2_PI.sqrt();
        let (low, high) = (root * effect.low_share, root * (1.0 - effect.low_share));
        let mean = |place: usize| low * effect.down[place] + high * effect.up[place];
        Self {
            effect,
            mean: core::array::from_fn(mean),
        }
    }

    /// Covariance of two figures. With one slope on both sides their standard deviations σ₁ and σ₂
    /// give (1 − 2/π)(σ₂ − σ₁)² + σ₁σ₂.
    fn covariance(&self, a: usize, b: usize) -> f64 {
        let Effect {
            low_share: low,
            down,
            up,
            ..
        } = self.effect;
        low * down[a] * down[b] + (1.0 - low) * up[a] * up[b] - self.mean[a] * self.mean[b]
    }
}

/// Variance of a split normal that does `down` or `up` per standard deviation of either side.
pub(super) fn variance_of_sides(low_share: f64, down: f64, up: f64) -> f64 {
    let mean = FRAC_2_PI.sqrt() * (low_share * down + (1.0 - low_share) * up);
    low_share * down * down + (1.0 - low_share) * up * up - mean * mean
}

impl Uncertainty {
    /// The errors of a drink as served.
    ///
    /// Every figure with a range is a split normal, one for all pours of its ingredient; pours and
    /// the water from ice are normal. `ph` is the drink's own, if it has one.
    pub fn of(
        assumed: &Assumed<'_>,
        drink: &Drink,
        ph: Option<f64>,
        pantry: &mut Pantry,
    ) -> Result<Self, DrinkError> {
        let inputs = Inputs::of(assumed, drink, pantry)?;
        let mut gradient = Gradient::at(&inputs.chilled, &inputs.after, &inputs.ice);
        if let Some(acidity) = ph.and_then(|ph| acidity(drink, gradient.served.melt_g, ph)) {
            gradient = gradient.with_ph(&acidity);
        }
        Ok(Self::from_effects(
            &effects(&inputs, &gradient),
            &gradient,
            assumed,
        ))
    }

    /// Standard deviation on an axis, in its unit.
    pub fn sigma(&self, axis: Axis) -> f64 {
        self.covariance(axis, axis).max(0.0).sqrt()
    }

    /// Covariance of two axes, in the product of their units.
    pub fn covariance(&self, one: Axis, other: Axis) -> f64 {
        self.covariance[place(one)][place(other)]
    }

    /// How far the mean lies above the prediction: uneven ranges pull it to their longer side.
    pub fn shift(&self, axis: Axis) -> f64 {
        self.shift[place(axis)]
    }

    /// The ellipse that holds 95 % of what may be served, on two axes.
    pub fn ellipse(&self, x: Axis, y: Axis) -> Ellipse {
        Ellipse::of(
            self.covariance(x, x),
            self.covariance(x, y),
            self.covariance(y, y),
        )
    }

    fn from_effects(effects: &[Effect], gradient: &Gradient, assumed: &Assumed<'_>) -> Self {
        let mut covariance = [[0.0; AXES]; AXES];
        let mut shift = [0.0; AXES];
        let mut variance = [0.0; OUTPUTS];
        let mut shares = Vec::with_capacity(effects.len());
        let per_unit = squared_steps(&gradient.served, assumed.senses, assumed.weights);
        for effect in effects {
            let moments = Moments::of(effect);
            for (a, row) in covariance.iter_mut().enumerate() {
                shift[a] += moments.mean[a];
                for (b, sum) in row.iter_mut().enumerate() {
                    *sum += moments.covariance(a, b);
                }
            }
            let own: Response = core::array::from_fn(|place| moments.covariance(place, place));
            for (sum, own) in variance.iter_mut().zip(own) {
                *sum += own;
            }
            shares.push(Share {
                input: effect.input,
                share: per_unit
                    .iter()
                    .zip(own)
                    .map(|(steps, own)| steps * own)
                    .sum(),
                sweet: own[SWEET],
                sour: own[SOUR],
                strength: own[STRENGTH],
            });
        }
        let ph = || variance[PH].sqrt().hypot(MODEL_SIGMA);
        Self {
            covariance,
            shift,
            volume_ml: variance[VOLUME].sqrt(),
            dilution: variance[DILUTION].sqrt(),
            ph: gradient.follows_ph().then(ph),
            shares: normalised(shares, &variance),
        }
    }
}

/// Place of an axis in a response.
const fn place(axis: Axis) -> usize {
    match axis {
        Axis::Sweet => SWEET,
        Axis::Sour => SOUR,
        Axis::Strength => STRENGTH,
        Axis::Bitter => BITTER,
    }
}

/// Weighted squared noticeable steps per squared unit of sweet, sour and strength.
pub(super) fn squared_steps(served: &Served<f64>, senses: &Senses, weights: &Weights) -> [f64; 3] {
    [
        weights.sweet * senses.sweet.steps_per_unit(served.sweet_g_per_l).powi(2),
        weights.sour * senses.sour_steps_per_unit(served.sour_g_per_l).powi(2),
        weights.strength
            * senses
                .strength
                .steps_per_unit(served.strength_pct_vol)
                .powi(2),
    ]
}

/// Variances turned into shares of their sums, sorted.
fn normalised(mut shares: Vec<Share>, variance: &Response) -> Vec<Share> {
    let total: f64 = shares.iter().map(|share| share.share).sum();
    let of = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
    shares.retain(|each| each.share + each.sweet + each.sour + each.strength > 0.0);
    for each in &mut shares {
        each.share = of(each.share, total);
        each.sweet = of(each.sweet, variance[SWEET]);
        each.sour = of(each.sour, variance[SOUR]);
        each.strength = of(each.strength, variance[STRENGTH]);
    }
    shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    shares
}

/// Acidity of the whole drink with its water from ice.
fn acidity(drink: &Drink, melt_g: f64, ph: f64) -> Option<Acidity> {
    let (chilled, after) = compositions(drink);
    Acidity::at(&(chilled + after + Composition::water(melt_g)), ph)
}

/// What every input does, figures of one ingredient summed over its pours.
fn effects(inputs: &Inputs<'_>, gradient: &Gradient) -> Vec<Effect> {
    let mut effects: Vec<Effect> = Vec::with_capacity(inputs.figures + inputs.lines.len() + 1);
    for line in &inputs.lines {
        add_figures(&mut effects, line, gradient);
    }
    for line in inputs.lines.iter().filter(|line| line.sigma > 0.0) {
        let response = gradient.of(&unit(line), line.chilled);
        let input = Input::Pour(line.line.index);
        effects.push(Effect::even(input, response.map(|each| each * line.sigma)));
    }
    if inputs.dilution_sigma > 0.0 {
        let response = gradient.scatter.map(|each| each * inputs.dilution_sigma);
        effects.push(Effect::even(Input::Dilution, response));
    }
    effects
}

/// Adds what the figures of a line's ingredient do in this line.
fn add_figures(effects: &mut Vec<Effect>, line: &UncertainLine<'_>, gradient: &Gradient) {
    let units = line.line.amount * line.scale;
    for (number, each) in line.moves.iter().enumerate() {
        let down = gradient.of(&each.down, line.chilled);
        let up = gradient.of(&each.up, line.chilled);
        if let Some(known) = effects.get_mut(line.first_figure + number) {
            for place in 0..OUTPUTS {
                known.down[place] += units * down[place];
                known.up[place] += units * up[place];
            }
            continue;
        }
        effects.push(Effect {
            input: Input::Figure {
                pour: line.line.index,
                figure: each.moved.figure,
            },
            low_share: each.moved.low_share(),
            down: down.map(|each| each * units),
            up: up.map(|each| each * units),
        });
    }
}

/// What one more unit of a pour brings.
pub(super) fn unit(line: &UncertainLine<'_>) -> Delta {
    let Contents { per_gram, .. } = line.line.contents.as_ref();
    let grams = line.line.grams_per_unit;
    let acidic = Acidic::of(per_gram);
    Delta {
        load: line.line.per_unit,
        acidic: Acidic {
            acid_g: acidic.acid_g.map(|each| each * grams),
            cation_mmol: acidic.cation_mmol * grams,
        },
    }
}
