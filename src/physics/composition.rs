//! What a liquid consists of, in grams, and the sums that follow from it.

use core::ops::{Add, AddAssign, Index, IndexMut};

use super::component::{CITRIC_EQUIVALENT_G, Component};
use super::ethanol::ETHANOL_G_PER_ML;
use super::mixture;

/// Grams of every component, with the signed amounts that mix like grams.
///
/// Grams are not negative. Everything adds: two liquids poured together have the sum of their
/// compositions, so mass is conserved exactly; volume is always derived.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    /// Grams of each component, indexed by [`Component`].
    pub grams: [f64; Component::COUNT],
    /// Strong cations not balanced by strong anions, mmol: what partly neutralises the acids.
    pub cation_mmol: f64,
    /// Volume by which a measured density differs from the model, ml; either sign.
    pub excess_ml: f64,
    /// Dissolved carbon dioxide, g; counts in neither mass nor volume.
    pub co2_g: f64,
}

impl Composition {
    /// Nothing at all.
    pub const ZERO: Self = Self {
        grams: [0.0; Component::COUNT],
        cation_mmol: 0.0,
        excess_ml: 0.0,
        co2_g: 0.0,
    };

    /// Pure water of this mass, g.
    pub fn water(grams: f64) -> Self {
        let mut water = Self::ZERO;
        water[Component::Water] = grams;
        water
    }

    /// The composition times a factor: every extensive amount scales, volume included.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            grams: self.grams.map(|grams| grams * factor),
            cation_mmol: self.cation_mmol * factor,
            excess_ml: self.excess_ml * factor,
            co2_g: self.co2_g * factor,
        }
    }

    /// Mass, g.
    pub fn mass_g(&self) -> f64 {
        self.grams.iter().sum()
    }

    /// Volume of all that is neither water, ethanol nor sucrose, with the excess, ml at 20 °C.
    pub fn solute_volume_ml(&self) -> f64 {
        let solutes: f64 = Component::ALL
            .into_iter()
            .map(|c| self[c] * c.specific_volume_ml_per_g().unwrap_or(0.0))
            .sum();
        solutes + self.excess_ml
    }

    /// Volume, ml at 20 °C: [`mixture::volume_ml`] with its error, plus the excess.
    pub fn volume_ml(&self) -> f64 {
        mixture::volume_ml(
            self[Component::Ethanol],
            self[Component::Water],
            self[Component::Sucrose],
            self.solute_volume_ml(),
        )
    }

    /// Density, g/ml at 20 °C; 0 for nothing.
    pub fn density_g_per_ml(&self) -> f64 {
        ratio_or_zero(self.mass_g(), self.volume_ml())
    }

    /// Strength, % vol at 20 °C; 0 for nothing.
    pub fn percent_vol(&self) -> f64 {
        let ethanol_ml = self[Component::Ethanol] / ETHANOL_G_PER_ML;
        100.0 * ratio_or_zero(ethanol_ml, self.volume_ml())
    }

    /// Raw sugar, g: sucrose, glucose, fructose, lactose and maltose.
    pub fn sugar_g(&self) -> f64 {
        self.total_g(&Component::SUGARS)
    }

    /// Sweetness as grams of sucrose, glycerol included.
    pub fn sweet_g(&self) -> f64 {
        Component::ALL
            .into_iter()
            .map(|c| self[c] * c.relative_sweetness())
            .sum()
    }

    /// Raw acid, g, free and bound.
    pub fn acid_g(&self) -> f64 {
        self.total_g(&Component::ACIDS)
    }

    /// Protons the acids can give up to pH 8.2, mmol, whether free or neutralised.
    pub fn acid_protons_mmol(&self) -> f64 {
        Component::ACIDS
            .into_iter()
            .filter_map(|c| {
                let molar_mass = c.molar_mass_g_per_mol()?;
                Some(1000.0 * c.protons() * self[c] / molar_mass)
            })
            .sum()
    }

    /// Sourness as grams of citric acid: what a titration to pH 8.2 finds.
    ///
    /// 64.04·(Σ z·n − S); negative when cations exceed the acids.
    pub fn sour_g(&self) -> f64 {
        CITRIC_EQUIVALENT_G * (self.acid_protons_mmol() - self.cation_mmol) / 1000.0
    }

    /// Titratable acid as citric acid, g/L; 0 for nothing and where cations exceed the acids.
    pub fn sour_g_per_l(&self) -> f64 {
        1000.0 * ratio_or_zero(self.sour_g().max(0.0), self.volume_ml())
    }

    /// Body, g: fat, protein, starch, gum and other dissolved solids.
    pub fn body_g(&self) -> f64 {
        self.total_g(&Component::BODY)
    }

    /// Grams of several components together.
    fn total_g(&self, components: &[Component]) -> f64 {
        components.iter().map(|c| self[*c]).sum()
    }
}

/// The quotient of two amounts, or 0 when there is nothing to divide by.
fn ratio_or_zero(amount: f64, whole: f64) -> f64 {
    if whole > 0.0 { amount / whole } else { 0.0 }
}

impl Default for Composition {
    fn default() -> Self {
        Self::ZERO
    }
}

impl Index<Component> for Composition {
    type Output = f64;

    fn index(&self, component: Component) -> &f64 {
        &self.grams[component as usize]
    }
}

impl IndexMut<Component> for Composition {
    fn index_mut(&mut self, component: Component) -> &mut f64 {
        &mut self.grams[component as usize]
    }
}

impl Add for Composition {
    type Output = Self;

    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}

impl AddAssign for Composition {
    fn add_assign(&mut self, other: Self) {
        for (own, added) in self.grams.iter_mut().zip(other.grams) {
            *own += added;
        }
        self.cation_mmol += other.cation_mmol;
        self.excess_ml += other.excess_ml;
        self.co2_g += other.co2_g;
    }
}
