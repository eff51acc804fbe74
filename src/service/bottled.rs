//! A batch with its water in bottles: how strong, how cold it may stand, how many bottles.

use super::batch::{BatchLine, Mix, mixed};
use crate::balance::Served;
use crate::model::Bottling;
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::ethanol::{LOWEST_CELSIUS, density_kg_m3};
use crate::physics::freezing::liquidus;
use crate::physics::mixture::expansion_from_20;
use crate::physics::root::bracketed_secant;
use crate::physics::{Component, Composition};

/// Share of the water as ice from which nothing pours any more (our convention, no source).
const STIFF: f64 = 0.5;
/// How exactly a mixture meets the temperature at which part of it is ice, K.
const MET_K: f64 = 1.0e-6;
/// A bottle less full than this share of itself is none (rounding).
const NO_BOTTLE: f64 = 1.0e-9;

/// What a bottle does where it is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BottleState {
    /// Without ice.
    Pours,
    /// With some ice in it.
    Slushes,
    /// Too much ice to pour; the bottle may burst.
    Freezes,
}

impl BottleState {
    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pours => "pours, without ice",
            Self::Slushes => "slushes: some of its water is ice",
            Self::Freezes => "freezes: take it out earlier, the bottle may burst",
        }
    }
}

/// A batch with its water in bottles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottled {
    /// Water over the volume before ice.
    pub dilution: f64,
    /// Water that is added, ml at 20 °C.
    pub water_ml: f64,
    /// Water that is added, g.
    pub water_g: f64,
    /// Mass of what is bottled, g.
    pub grams: f64,
    /// Strength of what is bottled, % vol.
    pub strength_pct_vol: f64,
    /// Where it begins to freeze, °C; `None` without water and below −60 °C.
    pub freezing_celsius: Option<f64>,
    /// How far that may be off, K.
    pub freezing_error_k: f64,
    /// Where it is kept, °C.
    pub keep_celsius: f64,
    /// How far above freezing it is kept, K; below 0 there is ice. `None` without a freezing point.
    pub margin_k: Option<f64>,
    /// Share of its water that is ice, from 0 to 1.
    pub ice_share: f64,
    /// What it does where it is kept.
    pub state: BottleState,
    /// It may be otherwise: the margin is smaller than the error of the freezing point.
    pub is_close: bool,
    /// Volumes of all parts and the water before they are mixed, ml at 20 °C.
    pub parts_ml: f64,
    /// Volume of the mixture, ml at 20 °C.
    pub ml: f64,
    /// Volume when it is filled, ml.
    pub filled_ml: f64,
    /// Volume where it is kept, ml; `None` with ice in it.
    pub kept_ml: Option<f64>,
    /// How the change with temperature is worked out.
    pub by: &'static str,
    /// What goes into one bottle when it is filled, ml.
    pub in_bottle_ml: f64,
    /// Bottles, the last one included.
    pub bottles: u32,
    /// What the last bottle holds when it is filled, ml.
    pub last_ml: f64,
    /// Room left in a full bottle where it is kept, % of the bottle; below 0 it does not fit. `None`
    /// with ice in it.
    pub kept_headspace_pct: Option<f64>,
    /// What is poured for one drink, ml at 20 °C, before what is added on the day.
    pub each_ml: f64,
}

impl Bottled {
    /// How much smaller the mixture is than its parts, ml at 20 °C.
    pub fn contraction_ml(&self) -> f64 {
        self.parts_ml - self.ml
    }
}

/// Adds the water and fills the bottles; `None` where there is nothing to fill.
///
/// The water is that of the whole drink, what is added on the day included, so that a drink poured
/// from the bottle has the balance of the drink from the ice. Ice in a bottle is worked out from the
/// freezing point of what stays liquid.
pub(super) fn bottled(
    lines: &[BatchLine],
    served: &Served<f64>,
    bottling: &Bottling,
    (made, mix): (f64, &Mix),
) -> Option<Bottled> {
    let water_g = match bottling.dilution {
        Some(dilution) => dilution * served.chilled_ml * MELT_WATER_G_PER_ML * made,
        None => served.melt_g * made,
    };
    let water_ml = Composition::water(water_g).volume_ml();
    let whole = mixed(lines) + Composition::water(water_g);
    let ml = whole.volume_ml();
    let in_bottle_ml = bottling.bottle_ml * (1.0 - bottling.headspace_pct / 100.0);
    let is_something = ml > 0.0 && in_bottle_ml > 0.0;
    if !is_something {
        return None;
    }
    let filled_ml = ml * expansion(&whole, bottling.fill_celsius);
    let full = ((filled_ml / in_bottle_ml) - NO_BOTTLE).ceil().max(1.0);
    let keep_celsius = bottling.keep_celsius;
    let freezing = liquidus(&whole);
    let margin_k = freezing.map(|freezing| keep_celsius - freezing.celsius);
    let ice_share = ice_share(&whole, keep_celsius);
    let freezing_error_k = freezing.map_or(0.0, |freezing| freezing.error_celsius);
    let kept_ml = (ice_share <= 0.0).then(|| ml * expansion(&whole, keep_celsius));
    let kept_headspace_pct = kept_ml.map(|kept| {
        let in_bottle = in_bottle_ml * kept / filled_ml;
        100.0 * (1.0 - in_bottle / bottling.bottle_ml)
    });
    Some(Bottled {
        dilution: water_g / MELT_WATER_G_PER_ML / made / served.chilled_ml,
        water_ml,
        water_g,
        grams: whole.mass_g(),
        strength_pct_vol: whole.percent_vol(),
        freezing_celsius: freezing.map(|freezing| freezing.celsius),
        freezing_error_k,
        keep_celsius,
        margin_k,
        ice_share,
        state: state(ice_share),
        is_close: margin_k.is_some_and(|margin| margin.abs() < freezing_error_k),
        parts_ml: mix.parts_ml + water_ml,
        ml,
        filled_ml,
        kept_ml,
        by: by(&whole),
        in_bottle_ml,
        bottles: full as u32,
        last_ml: filled_ml - (full - 1.0) * in_bottle_ml,
        kept_headspace_pct,
        each_ml: ml / made,
    })
}

fn state(ice_share: f64) -> BottleState {
    if ice_share <= 0.0 {
        BottleState::Pours
    } else if ice_share < STIFF {
        BottleState::Slushes
    } else {
        BottleState::Freezes
    }
}

/// Share of the water that is ice at a temperature: what is left has its freezing point there.
fn ice_share(whole: &Composition, celsius: f64) -> f64 {
    let freezing = |share: f64| {
        let mut liquid = *whole;
        liquid[Component::Water] *= 1.0 - share;
        liquidus(&liquid).map_or(crate::physics::freezing::LOWEST_CELSIUS, |own| own.celsius)
    };
    let water_g = whole[Component::Water];
    if water_g <= 0.0 || freezing(0.0) <= celsius {
        return 0.0;
    }
    // With next to nothing dissolved all of it freezes.
    bracketed_secant(0.0, 1.0 - 1.0e-9, MET_K, |share| freezing(share) - celsius).unwrap_or(1.0)
}

fn dissolved_g(whole: &Composition) -> f64 {
    whole.mass_g() - whole[Component::Ethanol] - whole[Component::Water]
}

/// Volume at a temperature over that at 20 °C.
///
/// Down to 0 °C by OIML R 22 and the density of sucrose solutions; below, where the latter ends, by
/// R 22 for alcohol and water alone, which ends at −20 °C.
pub(super) fn expansion(whole: &Composition, celsius: f64) -> f64 {
    let (ethanol, water) = (whole[Component::Ethanol], whole[Component::Water]);
    let to_zero = expansion_from_20(ethanol, water, dissolved_g(whole), celsius.clamp(0.0, 40.0));
    if celsius >= 0.0 || ethanol + water <= 0.0 {
        return to_zero;
    }
    let share = ethanol / (ethanol + water);
    let density = |celsius: f64| density_kg_m3(share, celsius);
    let solvent_ml = 1000.0 * (ethanol + water) / density(0.0);
    let solvent_share = (solvent_ml / (whole.volume_ml() * to_zero)).min(1.0);
    let shrunk = density(0.0) / density(celsius.max(LOWEST_CELSIUS));
    to_zero * (1.0 + solvent_share * (shrunk - 1.0))
}

/// How [`expansion`] is worked out for a mixture.
fn by(whole: &Composition) -> &'static str {
    let dissolved = dissolved_g(whole);
    if dissolved <= 1.0e-6 * whole.mass_g() {
        "OIML R 22 for alcohol and water"
    } else if whole[Component::Ethanol] <= 0.0 {
        "the density of sucrose solutions; all that is dissolved expands as sucrose does"
    } else {
        "OIML R 22 for alcohol and water; what is dissolved expands as sucrose does in water, and not at all below 0 °C"
    }
}
