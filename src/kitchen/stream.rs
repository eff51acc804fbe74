//! A stream of material between two steps of a preparation.

use crate::physics::composition::Composition;

/// What flows from one step to the next: liquid, and solids that lie in it.
///
/// A powder counts as liquid from the start: it is about to dissolve. Whole fruit, nuts, grain,
/// herbs, peel and pulp are solids, with the water that they hold inside.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stream {
    /// Liquid and what is dissolved or finely spread in it.
    pub liquid: Composition,
    /// Solids with all that they hold.
    pub solid: Composition,
}

impl Stream {
    /// Liquid and solids together.
    pub fn whole(&self) -> Composition {
        self.liquid + self.solid
    }

    /// Mass, g.
    pub fn mass_g(&self) -> f64 {
        self.liquid.mass_g() + self.solid.mass_g()
    }

    /// A share of the stream; each component in proportion.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            liquid: self.liquid.scaled(factor),
            solid: self.solid.scaled(factor),
        }
    }
}

impl core::ops::Add for Stream {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            liquid: self.liquid + other.liquid,
            solid: self.solid + other.solid,
        }
    }
}
