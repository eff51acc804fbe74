//! One's own dilution, learned from drinks weighed before and after ice.

use super::kernel::Rule;
use crate::model::{Document, Method, OwnDilution, Trial, TrialState, Weighing};
use crate::physics::dilution::{
    BLENDED, BUILT, CRUSHED, MELT_WATER_G_PER_ML, SHAKEN, STIRRED, THROWN,
};
use crate::physics::number::Number;

/// The published or customary curve of a method: a polynomial in strength; `None` without ice.
pub const fn usual_curve(method: Method) -> Option<[f64; 3]> {
    Some(match method {
        Method::Shaken => SHAKEN,
        Method::Stirred => STIRRED,
        Method::Built => [BUILT, 0.0, 0.0],
        Method::Thrown => [THROWN, 0.0, 0.0],
        Method::Swizzled => [CRUSHED, 0.0, 0.0],
        Method::Blended => [BLENDED, 0.0, 0.0],
        Method::Bottled | Method::NoIce => return None,
    })
}

/// How a bar's own dilution differs from the usual curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Calibration {
    /// Own water over that of the usual curve.
    pub scale: f64,
    /// Standard deviation of a next drink's water, as a share of it, from the residuals and from
    /// how well the scale itself is known; `None` for a single weighing.
    pub scatter: Option<f64>,
    /// Weighings it rests on.
    pub count: usize,
}

/// A weighing as a point over the curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeighedPoint {
    /// Strength before ice, as a fraction by volume.
    pub strength: f64,
    /// Water from ice over the volume before ice.
    pub fraction: f64,
}

impl WeighedPoint {
    /// The point that a weighing shows.
    pub fn of(weighing: &Weighing) -> Self {
        // The curve stands for everything at room temperature and wet ice.
        let gained_g = weighing.after_g - weighing.before_g;
        let water_ml = (gained_g + weighing.spared_g) / MELT_WATER_G_PER_ML;
        let before_ml = weighing.before_g / weighing.density_g_per_ml;
        Self {
            strength: weighing.strength_pct_vol / 100.0,
            fraction: water_ml / before_ml,
        }
    }
}

/// Least squares of the usual curve's height on the weighings of one method.
///
/// Minimises Σ (dᵢ − k f(Aᵢ))². `None` without a weighing or for a method without ice.
pub fn calibrate(weighings: &[Weighing], method: Method) -> Option<Calibration> {
    let curve = usual_curve(method)?;
    let points: Vec<(f64, f64)> = weighings
        .iter()
        .filter(|weighing| weighing.method == method)
        .map(|weighing| {
            let point = WeighedPoint::of(weighing);
            (f64::horner(&curve, point.strength), point.fraction)
        })
        .collect();
    let count = points.len();
    let squares: f64 = points.iter().map(|(usual, _)| usual * usual).sum();
    if squares <= 0.0 {
        return None;
    }
    let scale = points.iter().map(|(usual, own)| usual * own).sum::<f64>() / squares;
    let mean = scale * points.iter().map(|(usual, _)| usual).sum::<f64>() / count as f64;
    let residuals: f64 = points
        .iter()
        .map(|(usual, own)| (own - scale * usual).powi(2))
        .sum();
    let scatter = (count > 1 && mean > 0.0).then(|| {
        let one = residuals / (count - 1) as f64;
        (one * (1.0 + 1.0 / count as f64)).sqrt() / mean
    });
    Some(Calibration {
        scale,
        scatter,
        count,
    })
}

/// The curve of a method with its calibration, if there is one.
pub(super) fn rule_with(method: Method, own: Option<&OwnDilution>) -> Rule {
    let scale = own.map_or(1.0, |own| own.scale);
    usual_curve(method).map_or(Rule::None, |curve| {
        Rule::Curve(curve.map(|each| each * scale))
    })
}

/// The own dilution that a trial is served with: the weighings in use, and for a tasted or
/// submitted trial those that were in use then.
pub fn own_dilution(document: &Document, trial: &Trial) -> Option<OwnDilution> {
    if trial.state != TrialState::Draft {
        return trial.own_dilution;
    }
    let method = trial.technique.method;
    if document.uncalibrated.contains(&method) {
        return None;
    }
    calibrate(&document.weighings, method).map(|own| OwnDilution {
        scale: own.scale,
        scatter: own.scatter,
    })
}
