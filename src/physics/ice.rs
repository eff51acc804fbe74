//! Ice in a drink: how cold it gets, how much melts, how much is left.
//!
//! A heat balance between what is chilled (drink, vessel, the blade's work) and what chills (ice
//! that warms, melts and mixes in). No heat comes from the room and heat of mixing is left out: a
//! real drink is up to about 1 °C warmer. Every heat capacity is taken at the mean of its start
//! and end temperature; ice and fusion 0.1 %, drinks 3 %. No temperature is given outside
//! [`BELIEVED_CELSIUS`]: heat capacities are not known there.

use super::component::Component;
use super::composition::Composition;
use super::freezing::{LOWEST_CELSIUS, liquidus};
use super::heat::{
    BELIEVED_CELSIUS, ICE_FUSION_KJ_PER_KG, ice_cp, mixture_cp_kj_per_kg_k, water_cp,
};
use super::root::bracketed_secant;

/// Most rounds of the temperature; each shrinks the error a hundredfold.
const MOST_ROUNDS: usize = 60;
/// Share of the drink's water that very cold ice may freeze out.
const MOST_FROZEN: f64 = 0.8;
/// Most ice that is looked at, as a multiple of the drink's mass.
const MOST_ICE: f64 = 20.0;
/// Halvings of the inverse questions: twenty times the mass down to 1e-13 of it.
const HALVINGS: usize = 48;

/// What is chilled: a liquid in a vessel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warm {
    /// The liquid.
    pub liquid: Composition,
    /// Its temperature, °C.
    pub celsius: f64,
    /// Heat capacity of the vessel, kJ/K.
    pub vessel_kj_per_k: f64,
    /// Temperature of the vessel, °C.
    pub vessel_celsius: f64,
    /// Work put in by a blade, kJ.
    pub work_kj: f64,
}

/// A drink that has met all its ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WithIce {
    /// Temperature of drink, ice and vessel, °C.
    pub celsius: f64,
    /// Ice that became water, g; negative when very cold ice froze some of the drink.
    pub melted_g: f64,
    /// Ice that is left, g.
    pub left_g: f64,
}

/// Heat that a kilogram of ice takes up until it is water at the drink's temperature, kJ/kg.
///
/// `ice_celsius` at or below 0; `end_celsius` of the drink.
pub fn ice_heat_kj_per_kg(ice_celsius: f64, end_celsius: f64) -> f64 {
    ice_cp(0.5 * ice_celsius) * -ice_celsius
        + ICE_FUSION_KJ_PER_KG
        + water_cp(0.5 * end_celsius) * end_celsius
}

/// Heat that something lacks for being at `celsius` instead of `room`, kJ; negative when warmer.
pub fn cold_kj(liquid: &Composition, celsius: f64, room: f64) -> f64 {
    let cp = mixture_cp_kj_per_kg_k(liquid, 0.5 * (celsius + room));
    liquid.mass_g() * cp * (room - celsius) / 1000.0
}

/// The temperature, where heat capacities are known well enough for it.
fn believed(celsius: f64) -> Option<f64> {
    Some(celsius).filter(|celsius| BELIEVED_CELSIUS.contains(celsius))
}

impl Warm {
    /// Heat that is given off on the way to `end` °C, kJ.
    fn gives_kj(&self, end: f64) -> f64 {
        -cold_kj(&self.liquid, self.celsius, end)
            + self.vessel_kj_per_k * (self.vessel_celsius - end)
            + self.work_kj
    }

    /// Temperature once `melt_g` of ice has become water in it, °C.
    ///
    /// Only the ice that melts counts. Not held back by the freezing point. `None` outside
    /// [`BELIEVED_CELSIUS`], and of nothing at all.
    pub fn after_melt(&self, melt_g: f64, ice_celsius: f64) -> Option<f64> {
        let mass_kg = self.liquid.mass_g() / 1000.0;
        let melt_kg = melt_g / 1000.0;
        let mut end = 0.0;
        for _ in 0..MOST_ROUNDS {
            let drink = mass_kg * mixture_cp_kj_per_kg_k(&self.liquid, 0.5 * (self.celsius + end));
            let water = melt_kg * water_cp(0.5 * end);
            let capacity = drink + self.vessel_kj_per_k + water;
            if capacity <= 0.0 {
                return None;
            }
            let heat =
                drink * self.celsius + self.vessel_kj_per_k * self.vessel_celsius + self.work_kj
                    - melt_kg * ice_heat_kj_per_kg(ice_celsius, 0.0);
            let previous = end;
            end = heat / capacity;
            if (end - previous).abs() <= 1.0e-12 {
                return believed(end);
            }
        }
        None
    }

    /// Heat that is left over when `melt_g` of ice has melted and all is at `end` °C, kJ.
    fn left_kj(&self, melt_g: f64, ice_celsius: f64, end: f64) -> f64 {
        self.gives_kj(end) - melt_g * ice_heat_kj_per_kg(ice_celsius, end) / 1000.0
    }

    /// Temperature of a drink that took up `melt_g` of water from ice, °C: from the heat balance,
    /// never below its freezing point. `None` without a freezing point and outside
    /// [`BELIEVED_CELSIUS`].
    pub fn stirred(&self, melt_g: f64, ice_celsius: f64) -> Option<f64> {
        let coldest = liquidus(&self.with_water(melt_g))?.celsius;
        if self.left_kj(melt_g, ice_celsius, coldest) <= 0.0 {
            return believed(coldest);
        }
        self.after_melt(melt_g, ice_celsius)
    }

    /// The drink with all of `ice_g` blended in: enthalpy and freezing point solved together.
    ///
    /// Ice that does not melt ends at the drink's temperature. `None` when what has melted leaves
    /// no freezing point, and outside [`BELIEVED_CELSIUS`].
    pub fn blended(&self, ice_g: f64, ice_celsius: f64) -> Option<WithIce> {
        if self.all_melts(ice_g, ice_celsius) {
            return Some(WithIce {
                celsius: self.after_melt(ice_g, ice_celsius)?,
                melted_g: ice_g,
                left_g: 0.0,
            });
        }
        let least = -MOST_FROZEN * self.liquid[Component::Water];
        let melted_g = bracketed_secant(least, ice_g, 1.0e-10, |melted| {
            self.surplus_kj(melted, ice_g, ice_celsius)
        })?;
        Some(WithIce {
            celsius: believed(liquidus(&self.with_water(melted_g))?.celsius)?,
            melted_g,
            left_g: ice_g - melted_g,
        })
    }

    /// Whether the drink has heat enough for all of the ice.
    fn all_melts(&self, ice_g: f64, ice_celsius: f64) -> bool {
        self.surplus_kj(ice_g, ice_g, ice_celsius) >= 0.0
    }

    /// Heat given off less heat taken up when `melted_g` has melted and all lies at the freezing
    /// point of the drink so diluted, kJ; falls with `melted_g`.
    ///
    /// What has no freezing point that is solved for, such as strong spirit before ice has melted
    /// in it, stands at the lowest temperature: ice melts in it at any rate.
    fn surplus_kj(&self, melted_g: f64, ice_g: f64, ice_celsius: f64) -> f64 {
        let freezing = liquidus(&self.with_water(melted_g));
        let end = freezing.map_or(LOWEST_CELSIUS, |found| found.celsius);
        let left_g = ice_g - melted_g;
        let warms = ice_cp(0.5 * (ice_celsius + end)) * (end - ice_celsius);
        let taken = melted_g * ice_heat_kj_per_kg(ice_celsius, end) + left_g * warms;
        self.gives_kj(end) - taken / 1000.0
    }

    fn with_water(&self, water_g: f64) -> Composition {
        let mut wet = self.liquid;
        wet[Component::Water] += water_g;
        wet
    }

    /// The most ice that melts completely, g, and the temperature it gives, °C: the coldest this
    /// drink can be blended without ice in it. `None` when some of it freezes without any ice,
    /// when it melts twenty times its weight, and outside [`BELIEVED_CELSIUS`].
    pub fn just_melts(&self, ice_celsius: f64) -> Option<(f64, f64)> {
        let grams = self.largest(0.0, |grams| Some(self.all_melts(grams, ice_celsius)))?;
        Some((grams, self.after_melt(grams, ice_celsius)?))
    }

    /// Whether liquid and vessel are so cold that some of it freezes without any ice.
    pub fn freezes_without_ice(&self) -> bool {
        !self.all_melts(0.0, 0.0)
    }

    /// The ice that blends to a temperature without any left, g; `None` when it is out of reach.
    pub fn ice_for_celsius(&self, celsius: f64, ice_celsius: f64) -> Option<f64> {
        let (most, coldest) = self.just_melts(ice_celsius)?;
        if celsius < coldest {
            return None;
        }
        self.largest(0.0, |grams| {
            Some(grams <= most && self.left_kj(grams, ice_celsius, celsius) >= 0.0)
        })
    }

    /// The ice that leaves this share of the whole as ice, g; `share` from 0 to below 1.
    pub fn ice_for_slush(&self, share: f64, ice_celsius: f64) -> Option<f64> {
        let (least, _) = self.just_melts(ice_celsius)?;
        let mass_g = self.liquid.mass_g();
        self.largest(least, |grams| {
            let with = self.blended(grams, ice_celsius)?;
            Some(with.left_g <= share * (mass_g + grams))
        })
    }

    /// The water that brings the drink to a strength, g; `None` when it is weaker already.
    pub fn water_for_strength(&self, percent_vol: f64) -> Option<f64> {
        if percent_vol <= 0.0 || self.liquid.percent_vol() < percent_vol {
            return None;
        }
        self.largest(0.0, |grams| {
            Some(self.with_water(grams).percent_vol() >= percent_vol)
        })
    }

    /// The largest amount of ice for which `holds`, g, from `least` on.
    fn largest(&self, least: f64, holds: impl Fn(f64) -> Option<bool>) -> Option<f64> {
        let (mut low, mut high) = (least, least + MOST_ICE * self.liquid.mass_g());
        if !holds(least)? || holds(high)? {
            return None;
        }
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if holds(middle)? {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(low)
    }
}
