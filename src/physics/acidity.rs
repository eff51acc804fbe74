//! How a drink's pH moves with what is in it.

use super::acids::{Solution, WaterIons, settle, ten_to};
use super::component::Component;
use super::composition::Composition;

/// Standard deviation of a drink's pH by this model: between what simple acids and
/// citrate–phosphate buffers show (see [`super::acids`]).
pub const MODEL_SIGMA: f64 = 0.1;

/// A drink at its pH, and how the pH would move.
///
/// From the charge balance at a fixed activity coefficient: that its ionic strength would move too
/// is left out, which costs a few per cent of a slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acidity {
    /// Buffer capacity: strong base per litre and unit of pH, mol/L.
    pub buffer_mol_per_l: f64,
    /// H⁺ less OH⁻, mol/L.
    excess_mol_per_l: f64,
    /// Mean charge of a molecule of each acid, in the order of [`Component::ACIDS`].
    charges: [f64; Component::ACIDS.len()],
}

impl Acidity {
    /// The acidity of a drink that is known to have this pH; `None` without water.
    pub fn at(composition: &Composition, ph: f64) -> Option<Self> {
        let solution = Solution::of(composition)?;
        let cation = composition.cation_mmol / 1000.0 / solution.litres;
        let mut found = None;
        settle(|gamma| {
            let ions = WaterIons::at(ph, gamma);
            let charges = solution.charges(ph, gamma);
            found = Some((gamma, ions, charges));
            Some(solution.ionic_strength(ions, charges, cation))
        })?;
        let (gamma, ions, charges) = found?;
        let per_activity = ten_to(ph);
        Some(Self {
            buffer_mol_per_l: core::f64::consts::LN_10
                * (ions.hydrogen + ions.hydroxide + charges.spread),
            excess_mol_per_l: ions.hydrogen - ions.hydroxide,
            charges: solution
                .acids
                .map(|acid| acid.charges(per_activity, gamma).charge),
        })
    }

    /// Slope of pH along each acid, 1/g, in the order of [`Component::ACIDS`], in so many ml.
    pub fn per_acid_g(&self, volume_ml: f64) -> [f64; Component::ACIDS.len()] {
        let capacity_mmol = self.buffer_mol_per_l * volume_ml;
        let mut slopes = self.charges;
        for (slope, acid) in slopes.iter_mut().zip(Component::ACIDS) {
            let molar_mass = acid.molar_mass_g_per_mol().unwrap_or(f64::INFINITY);
            *slope *= -1000.0 / molar_mass / capacity_mmol;
        }
        slopes
    }

    /// Slope of pH along the strong cation, 1/mmol, in so many ml.
    pub fn per_cation_mmol(&self, volume_ml: f64) -> f64 {
        1.0 / (self.buffer_mol_per_l * volume_ml)
    }

    /// Slope of pH along the volume of water around it, 1/ml, in so many ml.
    pub fn per_ml(&self, volume_ml: f64) -> f64 {
        self.excess_mol_per_l / (self.buffer_mol_per_l * volume_ml)
    }
}
