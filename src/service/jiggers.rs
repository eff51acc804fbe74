//! Amounts rounded to what can be measured, and what that does to the drink.

use super::batch::Batch;
use super::error::ServiceError;
use crate::balance::{Drink, Ice, Pantry, Rule, Steps, steps_between};
use crate::model::{Amount, Document, Point, Pour, Trial, Weights};
use crate::units::{Measures, Unit, show, trimmed};

/// Two volumes closer than this are the same, ml.
const SAME_ML: f64 = 1.0e-6;

/// One pour as it can be measured.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredPour {
    /// Place in the trial's list of pours.
    pub pour: usize,
    /// As written, in its own measure (ml, g or pieces).
    pub wanted: f64,
    /// As it can be measured.
    pub measured: f64,
    /// With what, such as "45 + 15 ml" or "1½ bar spoons".
    pub how: String,
}

impl MeasuredPour {
    /// It can be measured as it is written.
    pub fn is_exact(&self) -> bool {
        (self.wanted - self.measured).abs() <= SAME_ML
    }
}

/// A drink of rounded amounts beside the one that is written.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounding {
    /// Every pour with an amount.
    pub pours: Vec<MeasuredPour>,
    /// The drink as written.
    pub written: Point,
    /// The drink of the rounded amounts.
    pub rounded: Point,
    /// Steps from the written to the rounded one, in noticeable differences.
    pub steps: Steps,
    /// How far apart they are, in noticeable differences, all axes counting alike.
    pub distance: f64,
}

/// What batches are measured to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Practical {
    /// Volumes, ml.
    pub ml: f64,
    /// Weights, g.
    pub grams: f64,
    /// Pieces.
    pub pieces: f64,
}

impl Default for Practical {
    /// 5 ml, 1 g and whole pieces (common practice, no source).
    fn default() -> Self {
        Self {
            ml: 5.0,
            grams: 1.0,
            pieces: 1.0,
        }
    }
}

/// Rounds every volume to what the jiggers and spoons at hand measure: one of them, two of them, or
/// more of the largest; dashes and drops are counted. Weights and pieces stay as they are.
///
/// Fails where the trial cannot be resolved.
pub fn by_jiggers(document: &Document, trial: &Trial) -> Result<Rounding, ServiceError> {
    let mut rounded = trial.clone();
    let mut pours = Vec::new();
    for (place, pour) in rounded.pours.iter_mut().enumerate() {
        if pour.is_left_out() {
            continue;
        }
        let Some(wanted) = pour.amount.value() else {
            continue;
        };
        let (measured, how) = measured(pour, wanted, document);
        pour.amount = pour.amount.with_value(measured);
        pours.push(MeasuredPour {
            pour: place,
            wanted,
            measured,
            how,
        });
    }
    let written = point(document, trial, None)?;
    let rounded = point(document, &rounded, None)?;
    Ok(compared(document, pours, written, rounded))
}

/// Rounds what goes into a batch, and the water of bottles, to practical measures.
///
/// What is added on the day stays as it is written. Fails where the trial cannot be resolved.
pub fn by_practical(
    document: &Document,
    trial: &Trial,
    batch: &Batch,
    to: Practical,
) -> Result<Rounding, ServiceError> {
    let mut rounded = trial.clone();
    let mut pours = Vec::new();
    for line in batch.mixed() {
        let Some((place, wanted)) = line.pour.zip(line.amount) else {
            continue;
        };
        let Some(pour) = rounded.pours.get_mut(place) else {
            continue;
        };
        let notch = match pour.amount {
            Amount::Ml(_) => to.ml,
            Amount::Grams(_) => to.grams,
            Amount::Pieces(_) => to.pieces,
            Amount::Words(_) => continue,
        };
        let measured = to_notch(wanted, notch);
        pour.amount = pour.amount.with_value(measured / batch.made);
        pours.push(MeasuredPour {
            pour: place,
            wanted,
            measured,
            how: show(measured, line.unit, &document.measures),
        });
    }
    let water = batch.bottled.map(|bottled| bottled.water_g);
    let each = water.map(|grams| grams / batch.made);
    let rounded_each = water.map(|grams| to_notch(grams, to.ml) / batch.made);
    let written = point(document, trial, each)?;
    let rounded = point(document, &rounded, rounded_each)?;
    Ok(compared(document, pours, written, rounded))
}

fn compared(
    document: &Document,
    pours: Vec<MeasuredPour>,
    written: Point,
    rounded: Point,
) -> Rounding {
    let steps = steps_between(&rounded, &written, &document.senses);
    Rounding {
        pours,
        written,
        rounded,
        steps,
        distance: steps.distance(&Weights::default()),
    }
}

/// The served point, with measured water instead of ice where it is bottled.
fn point(document: &Document, trial: &Trial, water_g: Option<f64>) -> Result<Point, ServiceError> {
    let mut drink = Drink::of_trial(document, trial, &mut Pantry::default())?;
    if let Some(grams) = water_g {
        drink.ice = Ice::by(Rule::WaterGrams(grams));
    }
    Ok(Point::from(&drink.served()?))
}

/// To the next multiple, but never to nothing.
fn to_notch(value: f64, notch: f64) -> f64 {
    if notch <= 0.0 || value <= 0.0 {
        return value;
    }
    ((value / notch).round() * notch).max(notch)
}

fn measured(pour: &Pour, wanted: f64, document: &Document) -> (f64, String) {
    let measures = &document.measures;
    let unit = pour.unit;
    let as_written = |value: f64| (value, pour.amount_text(value, measures));
    if !matches!(pour.amount, Amount::Ml(_)) || wanted <= 0.0 {
        return as_written(wanted);
    }
    match unit {
        Unit::Dash | Unit::Drop => as_written(to_notch(wanted, unit.base_per_unit(measures))),
        Unit::BarSpoon | Unit::Teaspoon => {
            as_written(to_notch(wanted, 0.5 * unit.base_per_unit(measures)))
        }
        _ => jiggered(wanted, &document.jiggers_ml, measures),
    }
}

/// The nearest volume that jiggers and spoons measure, and with what.
fn jiggered(wanted: f64, jiggers: &[f64], measures: &Measures) -> (f64, String) {
    let spoon = measures.bar_spoon_ml;
    let jigger = |ml: &f64| (*ml, format!("{} ml", trimmed(*ml, 2)));
    let mut tools: Vec<(f64, String)> =
        jiggers.iter().filter(|ml| **ml > 0.0).map(jigger).collect();
    // A spoon is no better than a jigger of its size, so it comes after them.
    tools.extend([0.5 * spoon, spoon].map(|ml| (ml, show(ml, Unit::BarSpoon, measures))));
    let largest = jiggers.iter().copied().fold(spoon, f64::max);
    let whole = ((wanted / largest).floor() - 1.0).max(0.0);
    let rest = wanted - whole * largest;
    let mut best: Option<(f64, String)> = None;
    let mut offer = |ml: f64, how: String| {
        let is_better = best
            .as_ref()
            .is_none_or(|(known, _)| (ml - rest).abs() + SAME_ML < (known - rest).abs());
        if is_better {
            best = Some((ml, how));
        }
    };
    // One tool before two, so that of equal volumes the simpler one is taken.
    for (ml, how) in &tools {
        offer(*ml, how.clone());
    }
    for (place, (one, how)) in tools.iter().enumerate() {
        for (other, and) in &tools[place..] {
            offer(one + other, format!("{how} + {and}"));
        }
    }
    let (ml, how) = best.unwrap_or((rest, show(rest, Unit::Ml, measures)));
    if whole > 0.0 {
        let times = format!("{} × {} ml", trimmed(whole, 0), trimmed(largest, 2));
        return (whole * largest + ml, format!("{times} + {how}"));
    }
    (ml, how)
}
