//! The linear amounts that the kernel needs.

use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::physics::number::Number;

/// Amounts that add up pour by pour; everything the served point depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load<N> {
    /// Total mass, g.
    pub mass_g: N,
    /// Water, g.
    pub water_g: N,
    /// Ethanol, g.
    pub ethanol_g: N,
    /// Sucrose, g; its volume depends on the water around it.
    pub sucrose_g: N,
    /// Volume of all other solutes and the excess of measured densities, ml.
    pub rest_ml: N,
    /// Sucrose equivalent, g.
    pub sweet_g: N,
    /// Citric equivalent of the titratable acid, g; may be negative.
    pub sour_g: N,
    /// Bitterness × ml, the developer's own scale.
    pub bitter: N,
    /// Heat it lacks for being colder than 20 °C, kJ.
    pub cold_kj: N,
}

impl Load<f64> {
    /// Nothing.
    pub const ZERO: Self = Self {
        mass_g: 0.0,
        water_g: 0.0,
        ethanol_g: 0.0,
        sucrose_g: 0.0,
        rest_ml: 0.0,
        sweet_g: 0.0,
        sour_g: 0.0,
        bitter: 0.0,
        cold_kj: 0.0,
    };

    /// The linear amounts of a composition; `bitter` is bitterness × ml.
    pub fn of(composition: &Composition, bitter: f64) -> Self {
        Self {
            mass_g: composition.mass_g(),
            water_g: composition[Component::Water],
            ethanol_g: composition[Component::Ethanol],
            sucrose_g: composition[Component::Sucrose],
            rest_ml: composition.solute_volume_ml(),
            sweet_g: composition.sweet_g(),
            sour_g: composition.sour_g(),
            bitter,
            cold_kj: 0.0,
        }
    }
}

impl<N: Copy> Load<N> {
    /// Applies `change` to every amount.
    pub fn map<M>(&self, change: impl Fn(N) -> M) -> Load<M> {
        Load {
            mass_g: change(self.mass_g),
            water_g: change(self.water_g),
            ethanol_g: change(self.ethanol_g),
            sucrose_g: change(self.sucrose_g),
            rest_ml: change(self.rest_ml),
            sweet_g: change(self.sweet_g),
            sour_g: change(self.sour_g),
            bitter: change(self.bitter),
            cold_kj: change(self.cold_kj),
        }
    }
}

impl<N: Number> Load<N> {
    /// A load of plain numbers lifted to another number.
    pub fn lift(plain: &Load<f64>) -> Self {
        plain.map(N::from_f64)
    }

    /// Both loads poured together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            mass_g: self.mass_g + other.mass_g,
            water_g: self.water_g + other.water_g,
            ethanol_g: self.ethanol_g + other.ethanol_g,
            sucrose_g: self.sucrose_g + other.sucrose_g,
            rest_ml: self.rest_ml + other.rest_ml,
            sweet_g: self.sweet_g + other.sweet_g,
            sour_g: self.sour_g + other.sour_g,
            bitter: self.bitter + other.bitter,
            cold_kj: self.cold_kj + other.cold_kj,
        }
    }

    /// Adds `amount` units of a load that is given per unit.
    #[must_use]
    pub fn plus_units(&self, amount: N, per_unit: &Load<f64>) -> Self {
        self.plus(&per_unit.map(|each| amount.scale(each)))
    }
}
