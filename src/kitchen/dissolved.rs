//! Dissolved solids of a liquid as a share of its mass.

use crate::physics::component::Component;
use crate::physics::composition::Composition;

/// With less water than this share a liquid is paste or powder (our convention, no source); honey
/// has 0.17.
const WET: f64 = 0.15;

/// What is dissolved in a liquid, and what it is dissolved in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Dissolved {
    /// Everything but water, alcohol, fat and starch, g.
    pub(super) solids_g: f64,
    /// Everything but fat and starch, g.
    pub(super) clear_g: f64,
}

impl Dissolved {
    pub(super) fn of(liquid: &Composition) -> Self {
        let mut found = Self {
            solids_g: 0.0,
            clear_g: 0.0,
        };
        for component in Component::ALL {
            match component {
                // Only suspended: a refractometer does not see it.
                Component::Fat | Component::Starch => {}
                Component::Water | Component::Ethanol => found.clear_g += liquid[component],
                _ => {
                    found.solids_g += liquid[component];
                    found.clear_g += liquid[component];
                }
            }
        }
        found
    }

    /// °Bx; 0 for nothing.
    pub(super) fn brix(self) -> f64 {
        if self.clear_g > 0.0 {
            100.0 * self.solids_g / self.clear_g
        } else {
            0.0
        }
    }
}

/// Dissolved solids, °Bx: their share of the mass of a liquid without its fat and starch, which are
/// only suspended; 0 for nothing.
///
/// Sugars, acids, glycerol, salt, protein, gums and other solids count alike, as
/// [`crate::physics::refraction`] sees them; exact for sucrose in water. A refractometer also counts
/// alcohol, so it shows more for a spirit.
pub fn dissolved_brix(liquid: &Composition) -> f64 {
    Dissolved::of(liquid).brix()
}

/// Dissolved solids that a refractometer could show, °Bx: `None` for what is all but dry, which shows
/// nothing.
pub fn readable_brix(liquid: &Composition) -> Option<f64> {
    let is_wet = liquid[Component::Water] > WET * liquid.mass_g();
    is_wet.then(|| dissolved_brix(liquid))
}
