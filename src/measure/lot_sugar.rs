//! Sugar, strength and density of a batch, from the instruments that read them.

use super::error::MeasureError;
use super::expected::{NOTICED_PCT_VOL, of_composition};
use super::instruments::{
    Quantity, density_at_20, dissolved_g, index_read, spirit_density_at_20, strength_at_20,
    sugar_density_at_20,
};
use super::lot::Reader;
use super::sweetness::{Seen, around, model_density, sweetened, sweetened_and_strengthened};
use crate::kitchen::Contents;
use crate::model::{Density, Range};
use crate::physics::{Component, ethanol};
use crate::units::{grams_per_litre, number, percent_vol, signed};

/// Rounds in which a density read warm or cold settles: its correction depends on what is found.
const ROUNDS: usize = 6;
/// Above this share of dissolved solids an alcoholmeter is off by more than its error: 1 g/L of
/// sugar hides about 0.25 % vol (from the densities of R 22 and SPS-4).
const OBSCURING_SHARE: f64 = 0.001;

impl Reader<'_> {
    /// Reads all that says sugar, strength or density, in the order that each needs the others.
    pub(super) fn read_sugar_and_strength(&mut self) -> Result<(), MeasureError> {
        (self.sugar_read, self.strength_read) = (false, false);
        let contents = self.batch.contents()?;
        self.read_alcoholmeter(&contents)?;
        let contents = self.batch.contents()?;
        let index = self.index()?;
        let density = self.density(&contents)?;
        let has_alcohol = self.batch.strength_pct_vol() > NOTICED_PCT_VOL;
        match (index, density) {
            (Some(index), Some(_)) if has_alcohol && !self.strength_read => {
                self.solve_together(index)?;
            }
            (Some(index), density) => {
                if let Some(density) = density {
                    self.set_density(density);
                }
                self.read_refractometer(index)?;
                self.contradict(density)?;
            }
            (None, Some(density)) => self.read_density(density, &contents)?,
            (None, None) => {}
        }
        Ok(())
    }

    /// The refractometer's reading as an index.
    fn index(&self) -> Result<Option<Quantity>, MeasureError> {
        let Some(reading) = &self.latest.refractometer else {
            return Ok(None);
        };
        index_read(reading)
            .map(Some)
            .ok_or_else(|| MeasureError::AboveScale {
                name: self.parent.name.clone(),
            })
    }

    /// The density at 20 °C of what was read at another temperature.
    fn density(&self, contents: &Contents) -> Result<Option<Quantity>, MeasureError> {
        let Some((read, celsius)) = self.latest.density else {
            return Ok(None);
        };
        let held = &contents.per_gram;
        let found = if is_spirit(contents) {
            spirit_density_at_20(read, celsius)
        } else if held[Component::Ethanol] <= 0.0 && is_mostly_sugar(contents) {
            sugar_density_at_20(read, celsius)
        } else {
            Some(density_at_20(read, celsius, held))
        };
        found.map(Some).ok_or(MeasureError::OutsideTables {
            instrument: "hydrometer",
        })
    }

    fn read_alcoholmeter(&mut self, contents: &Contents) -> Result<(), MeasureError> {
        let Some((read, celsius)) = self.latest.alcoholmeter else {
            return Ok(());
        };
        let solids = dissolved_g(&contents.per_gram);
        if solids > OBSCURING_SHARE {
            self.say(format!(
                "the alcoholmeter is not used: {} of dissolved solids hold it up, so it reads too \
                 low; distil, or read a refractometer and a density",
                grams_per_litre(1000.0 * solids * contents.density_g_per_ml)
            ));
            return Ok(());
        }
        let strength = strength_at_20(read, celsius).ok_or(MeasureError::OutsideTables {
            instrument: "alcoholmeter",
        })?;
        self.set_strength(strength)
    }

    fn set_strength(&mut self, strength: Quantity) -> Result<(), MeasureError> {
        let range = around(strength.value, strength.error);
        self.batch.item.strength_pct_vol = Some(Range {
            high: range.high.min(100.0),
            ..range
        });
        self.strength_read = true;
        self.batch.refit()
    }

    fn set_density(&mut self, density: Quantity) {
        self.batch.item.density = Some(Density {
            g_per_ml: density.value,
            measured: true,
        });
    }

    /// Sugar and alcohol from both readings; the density at 20 °C depends a little on them.
    fn solve_together(&mut self, index: Quantity) -> Result<(), MeasureError> {
        for _ in 0..ROUNDS {
            let contents = self.batch.contents()?;
            let Some(density) = self.density(&contents)? else {
                return Ok(());
            };
            self.batch = sweetened_and_strengthened(&self.batch, index, density)?;
        }
        self.sugar_read = true;
        self.strength_read = true;
        Ok(())
    }

    fn read_refractometer(&mut self, index: Quantity) -> Result<(), MeasureError> {
        self.batch = sweetened(&self.batch, Seen::Index, index)?;
        self.sugar_read = true;
        self.say_what_else_it_shows()
    }

    /// What a refractometer shows beside sugar.
    fn say_what_else_it_shows(&mut self) -> Result<(), MeasureError> {
        let contents = self.batch.contents()?;
        let expected = of_composition(&contents.per_gram);
        if expected.has_alcohol && !self.strength_read {
            self.say(format!(
                "alcohol bends light, too: the °Bx are not sugar. The sugar holds only if it has \
                 {}; read a density as well, and both are found",
                percent_vol(self.batch.strength_pct_vol())
            ));
        }
        if expected.is_cloudy {
            self.say("fat and starch are not dissolved: the edge is soft, read it several times");
        } else if contents.per_gram[Component::Other] > 0.0 {
            self.say(
                "pulp makes the edge soft: strain it. Other solids count as dissolved, as much \
                 as in the parent",
            );
        }
        if let Some(brix) = expected.brix {
            let sugar = 100.0 * contents.per_gram.sugar_g();
            if !expected.has_alcohol && brix - sugar > 1.0 {
                self.say(format!(
                    "of {} °Bx {} are sugar: acids, salts and other solids are the rest",
                    number(brix, 1),
                    number(sugar, 1)
                ));
            }
        }
        Ok(())
    }

    /// A density without a refractometer.
    fn read_density(&mut self, density: Quantity, contents: &Contents) -> Result<(), MeasureError> {
        let has_alcohol = self.batch.strength_pct_vol() > NOTICED_PCT_VOL;
        if is_spirit(contents) && has_alcohol && !self.strength_read {
            let strength = |kg_m3: f64| {
                ethanol::mass_fraction_from_density(kg_m3, 20.0).map(ethanol::percent_vol)
            };
            let kg_m3 = 1000.0 * density.value;
            let outside = MeasureError::OutsideTables {
                instrument: "hydrometer",
            };
            let value = strength(kg_m3).ok_or(outside)?;
            let lighter = strength(kg_m3 - 1000.0 * density.error).unwrap_or(100.0);
            self.set_density(density);
            self.set_strength(Quantity {
                value,
                error: lighter - value,
            })
        } else if !has_alcohol && is_mostly_sugar(contents) {
            self.batch.item.density = None;
            self.batch = sweetened(&self.batch, Seen::Density, density)?;
            self.set_density(density);
            self.sugar_read = true;
            self.say("sugar from the density: most of what is dissolved in it is sugar");
            Ok(())
        } else {
            self.set_density(density);
            self.batch.refit()?;
            self.contradict(Some(density))
        }
    }

    /// Says how far a measured density lies from what the composition gives.
    fn contradict(&mut self, density: Option<Quantity>) -> Result<(), MeasureError> {
        let Some(density) = density else {
            return Ok(());
        };
        let computed = model_density(&self.batch.contents()?.per_gram);
        let apart = density.value - computed;
        let (read, computed) = (number(density.value, 4), number(computed, 4));
        self.say(if apart.abs() <= density.error {
            format!("the density read, {read} g/ml, agrees with the composition, {computed}")
        } else {
            format!(
                "the density read, {read} g/ml, is {} off what the composition gives, {computed}: \
                 the reading is used",
                signed(apart, 4)
            )
        });
        Ok(())
    }
}

/// Nothing but water and alcohol.
fn is_spirit(contents: &Contents) -> bool {
    let held = &contents.per_gram;
    held[Component::Ethanol] > 0.0 && dissolved_g(held) <= OBSCURING_SHARE
}

/// At least half of what is dissolved is sugar, so that a density says how much.
fn is_mostly_sugar(contents: &Contents) -> bool {
    let sugar = contents.per_gram.sugar_g();
    sugar > 0.0 && sugar >= 0.5 * dissolved_g(&contents.per_gram)
}
