//! How high a drink stands in its glass.

use super::error::ServiceError;
use crate::balance::{Drink, Pantry, figures};
use crate::model::{Document, Glass, GlassShape, Spec, Trial};
use crate::physics::glass::{Inside, Vessel};
use crate::units::number;

/// Less than this is no more than the glass holds, ml: it would read as nothing.
const RUNS_OVER_ML: f64 = 0.5;
/// Density of ice at 0 °C, g/ml (IAPWS-06: 916.7 kg/m³).
const ICE_G_PER_ML: f64 = 0.916_7;

/// How high a drink stands in its glass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WashLine {
    /// Liquid that comes into the glass, ml at 20 °C.
    pub liquid_ml: f64,
    /// Ice in the glass, ml.
    pub ice_ml: f64,
    /// Liquid that the ice pushes up, ml.
    pub displaced_ml: f64,
    /// Foam on top, ml.
    pub foam_ml: f64,
    /// From the rim to the lowest point, mm; `None` where shape or rim is not known.
    pub depth_mm: Option<f64>,
    /// From the rim down to the liquid, mm.
    pub liquid_below_rim_mm: Option<f64>,
    /// From the rim down to the top of the foam, mm: the wash line.
    pub below_rim_mm: Option<f64>,
    /// What runs over, foam included, ml; 0 for up to half a millilitre.
    pub overflow_ml: f64,
}

impl WashLine {
    /// The wash line as text; says what runs over, and what is missing.
    pub fn words(&self) -> String {
        if self.overflow_ml > 0.0 {
            return format!("runs over by {} ml", number(self.overflow_ml, 0));
        }
        match self.below_rim_mm {
            Some(below) => format!("{} mm below the rim", number(below.max(0.0), 0)),
            None => "no wash line: shape or width of the glass is not known".to_owned(),
        }
    }
}

/// Works out how high a trial stands in the glass of its drink. Fails where the trial cannot be
/// resolved.
pub fn wash_line(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
) -> Result<WashLine, ServiceError> {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default())?;
    let figures = figures(&drink)?;
    let density = figures.served_g / figures.served_ml;
    Ok(stands(&spec.glass, figures.served_ml, density))
}

/// How high so many ml of a density, g/ml, stand in a glass.
///
/// Floating ice pushes up what it weighs; where there is too little liquid to float it, it stands on the
/// floor and takes its share of the room up to the surface (taken as evenly spread). Volumes are those at
/// 20 °C: a cold drink is up to 1 % smaller.
pub fn stands(glass: &Glass, served_ml: f64, g_per_ml: f64) -> WashLine {
    let form = &glass.form;
    let liquid_ml = (served_ml - form.left_behind_ml).max(0.0);
    let ice_ml = glass.ice_share * glass.capacity_ml;
    let floating = (ice_ml * ICE_G_PER_ML / g_per_ml.max(ICE_G_PER_ML)).min(ice_ml);
    let standing = liquid_ml * glass.ice_share / (1.0 - glass.ice_share);
    let displaced_ml = floating.min(standing);
    let level_ml = liquid_ml + displaced_ml;
    let top_ml = level_ml + form.foam_ml;
    let over_ml = top_ml - glass.capacity_ml;
    let vessel = inside(glass).and_then(|inside| Vessel::new(inside, glass.capacity_ml));
    WashLine {
        liquid_ml,
        ice_ml,
        displaced_ml,
        foam_ml: form.foam_ml,
        depth_mm: vessel.map(|vessel| vessel.depth_mm()),
        liquid_below_rim_mm: vessel.map(|vessel| vessel.below_rim_mm(level_ml)),
        below_rim_mm: vessel.map(|vessel| vessel.below_rim_mm(top_ml)),
        overflow_ml: if over_ml > RUNS_OVER_ML { over_ml } else { 0.0 },
    }
}

fn inside(glass: &Glass) -> Option<Inside> {
    let form = &glass.form;
    let (rim, floor) = (0.5 * form.rim_mm, 0.5 * form.floor_mm);
    match form.shape {
        GlassShape::Unknown => None,
        GlassShape::Straight => Some(Inside::Straight { rim }),
        GlassShape::Tapered => Some(Inside::Tapered { rim, floor }),
        GlassShape::Cone => Some(Inside::Cone { rim }),
        GlassShape::Bowl => Some(Inside::Bowl { rim }),
    }
}
