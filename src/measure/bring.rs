//! What to add to today's batch so that it tastes like the approved one.

use crate::kitchen::{ContentsError, contents};
use crate::model::{Ingredient, PureAcid};
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::physics::root::bracketed_secant;
use crate::physics::{Component, Composition};
use crate::units::{grams_per_litre, percent_vol};

/// The usual caution, to stand beside every proposed addition.
pub const CAUTION: &str = "Food-grade acid only: dry and strong acid burns eyes and skin. Taste \
    before the whole batch. What keeps safely, and how it must be labelled, local food rules say.";

/// Grams of sugar that dissolve in a gram of water at 20 °C (textbooks: 2.0).
const SATURATED: f64 = 2.0;
/// The batch may grow to at most this many times itself.
const MOST_GROWTH: f64 = 50.0;
/// No more than this counts as none: an amount in g or ml, a concentration in g/L, % vol or per ml.
const NONE: f64 = 1.0e-9;
/// How far above an aim counts as at it, as a share.
const AT: f64 = 1.0e-12;

/// What makes it sourer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourWith {
    /// A powder of one acid.
    Pure(PureAcid),
    /// The acids of the approved batch, in its proportions.
    Approved,
}

/// What a batch comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reached {
    /// Sweetness as sucrose, g/L.
    pub sweet_g_per_l: f64,
    /// Titratable acid as citric, g/L.
    pub sour_g_per_l: f64,
    /// Strength, % vol.
    pub strength_pct_vol: f64,
}

impl Reached {
    fn of(composition: &Composition) -> Self {
        let litres = composition.volume_ml() / 1000.0;
        Self {
            sweet_g_per_l: composition.sweet_g() / litres,
            sour_g_per_l: composition.sour_g() / litres,
            strength_pct_vol: composition.percent_vol(),
        }
    }
}

/// What to weigh in, and what comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Additions {
    /// Sugar (sucrose), g.
    pub sugar_g: f64,
    /// Acid, all kinds together, g.
    pub acid_g: f64,
    /// Each acid with its grams; those of which nothing is needed are left out.
    pub acids: Vec<(Component, f64)>,
    /// Water, g.
    pub water_g: f64,
    /// The whole batch afterwards.
    pub composition: Composition,
    /// Its volume, ml at 20 °C.
    pub final_ml: f64,
    /// Sweetness, acid and strength afterwards.
    pub reached: Reached,
    /// More sugar than dissolves at 20 °C: some of it will stay at the bottom.
    pub is_saturated: bool,
}

/// Why a batch cannot be brought to the approved one.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BringError {
    /// Figures that cannot belong to one ingredient.
    #[error(transparent)]
    Contents(#[from] ContentsError),
    /// There is no batch.
    #[error("a batch of more than 0 ml is needed")]
    NoBatch,
    /// The approved batch has none of something, and today's has: nothing takes it out.
    #[error("the approved batch has no {what} and this one has: nothing takes it out again")]
    CannotRemove {
        /// "sugar", "acid" or "alcohol".
        what: &'static str,
    },
    /// Diluting it, or adding what is missing, makes it weaker than the approved batch.
    #[error(
        "it would come out {} too weak: sugar, acid and water only weaken it. The closest has {}",
        percent_vol(*.short_pct_vol), percent_vol(.closest.reached.strength_pct_vol)
    )]
    TooWeak {
        /// Strength that is missing in the closest, % vol.
        short_pct_vol: f64,
        /// Sweetness and acid met, as little weakened as can be.
        closest: Box<Additions>,
    },
    /// No acid is at hand: the approved batch has none to take as a pattern.
    #[error("{} of acid are missing, and the approved batch names no acid to add", grams_per_litre(*.short_g_per_l))]
    NoAcid {
        /// Titratable acid that is missing, g/L.
        short_g_per_l: f64,
    },
    /// No amount of dry sugar and acid gets there.
    #[error("dry sugar and acid cannot make it that concentrated")]
    TooConcentrated,
}

/// Grams of sugar, acid and water that bring today's batch to the approved one in sweetness,
/// titratable acid and strength.
///
/// `batch_ml` at 20 °C; sweetened with sucrose. Just enough water that nothing is above its aim,
/// then sugar and acid: no smaller additions do it. Mass adds exactly and volume is that of the
/// resulting composition, so the aims are met to 1e-6; the figures of both batches are as good as
/// what was measured. A strength that would fall below the aim is an error that carries the
/// closest: sweetness and acid met.
pub fn bring_to_spec(
    today: &Ingredient,
    approved: &Ingredient,
    batch_ml: f64,
    sour_with: SourWith,
) -> Result<Additions, BringError> {
    let held = contents(today)?;
    let pattern = contents(approved)?.per_gram;
    if !(batch_ml > 0.0 && batch_ml.is_finite()) {
        return Err(BringError::NoBatch);
    }
    let task = Task {
        batch: held.per_gram.scaled(batch_ml * held.density_g_per_ml),
        aim: Reached::of(&pattern),
        acid: acid_of(sour_with, &pattern),
    };
    task.solve()
}

/// One gram of the acid to add; nothing when there is none to take as a pattern.
fn acid_of(sour_with: SourWith, pattern: &Composition) -> Composition {
    let mut acid = Composition::ZERO;
    match sour_with {
        SourWith::Pure(PureAcid::Citric) => acid[Component::Citric] = 1.0,
        SourWith::Pure(PureAcid::Malic) => acid[Component::Malic] = 1.0,
        SourWith::Pure(PureAcid::Tartaric) => acid[Component::Tartaric] = 1.0,
        SourWith::Pure(PureAcid::Ascorbic) => acid[Component::Ascorbic] = 1.0,
        SourWith::Approved => {
            let total = pattern.acid_g();
            for component in Component::ACIDS {
                acid[component] = if total > 0.0 {
                    pattern[component] / total
                } else {
                    0.0
                };
            }
        }
    }
    acid
}

struct Task {
    batch: Composition,
    aim: Reached,
    /// One gram of acid.
    acid: Composition,
}

impl Task {
    fn solve(&self) -> Result<Additions, BringError> {
        let ethanol_ml = self.batch[Component::Ethanol] / ETHANOL_G_PER_ML;
        // The volume at which each of the three has come down to its aim.
        let sweet_ml = least_ml(
            self.batch.sweet_g(),
            self.aim.sweet_g_per_l / 1000.0,
            "sugar",
        )?;
        let sour_ml = least_ml(self.batch.sour_g(), self.aim.sour_g_per_l / 1000.0, "acid")?;
        let strong_ml = least_ml(ethanol_ml, self.aim.strength_pct_vol / 100.0, "alcohol")?;
        self.refuse_missing_acid()?;
        let least = sweet_ml.max(sour_ml).max(strong_ml);
        let volume_ml = self.smallest_volume(least)?;
        let added = self.added(volume_ml);
        let short = self.aim.strength_pct_vol - added.reached.strength_pct_vol;
        if short > self.aim.strength_pct_vol * 1.0e-9 + NONE {
            return Err(BringError::TooWeak {
                short_pct_vol: short,
                closest: Box::new(added),
            });
        }
        Ok(added)
    }

    fn refuse_missing_acid(&self) -> Result<(), BringError> {
        let now = Reached::of(&self.batch).sour_g_per_l;
        let short = self.aim.sour_g_per_l.max(0.0) - now;
        if self.acid.sour_g() <= 0.0 && short > NONE {
            return Err(BringError::NoAcid {
                short_g_per_l: short,
            });
        }
        Ok(())
    }

    /// The smallest final volume, ml, from `least` on at which no water would have to be taken
    /// out.
    fn smallest_volume(&self, least: f64) -> Result<f64, BringError> {
        let spare = |volume_ml: f64| volume_ml - self.without_water(volume_ml).volume_ml();
        let start = least.max(self.batch.volume_ml());
        // Rounding must not ask for water that is not needed.
        if spare(least) >= -AT * start {
            return Ok(least);
        }
        bracketed_secant(least, MOST_GROWTH * start, 1.0e-13 * start, spare)
            .ok_or(BringError::TooConcentrated)
    }

    /// Sugar and acid, g, that a final volume in ml asks for.
    fn sugar_and_acid(&self, volume_ml: f64) -> (f64, f64) {
        let litres = volume_ml / 1000.0;
        let sugar_g = self.aim.sweet_g_per_l * litres - self.batch.sweet_g();
        let sour_g = self.aim.sour_g_per_l.max(0.0) * litres - self.batch.sour_g();
        let per_gram = self.acid.sour_g();
        let acid_g = if per_gram > 0.0 {
            (sour_g / per_gram).max(0.0)
        } else {
            0.0
        };
        (sugar_g.max(0.0), acid_g)
    }

    /// The batch with the sugar and the acid of a final volume, before water.
    fn without_water(&self, volume_ml: f64) -> Composition {
        let (sugar_g, acid_g) = self.sugar_and_acid(volume_ml);
        let mut mixed = self.batch + self.acid.scaled(acid_g);
        mixed[Component::Sucrose] += sugar_g;
        mixed
    }

    fn added(&self, volume_ml: f64) -> Additions {
        let (sugar_g, acid_g) = self.sugar_and_acid(volume_ml);
        let dry = self.without_water(volume_ml);
        let above = |water_g: f64| (dry + Composition::water(water_g)).volume_ml() - volume_ml;
        // Water takes at least 0.9 ml/g in anything poured, so this brackets it.
        let most = 2.0 * volume_ml;
        let water_g = bracketed_secant(0.0, most, 1.0e-13 * volume_ml, above)
            .unwrap_or(0.0)
            .max(0.0);
        let composition = dry + Composition::water(water_g);
        let acids = Component::ACIDS
            .into_iter()
            .map(|component| (component, self.acid[component] * acid_g))
            .filter(|(_, grams)| *grams > 0.0)
            .collect();
        Additions {
            sugar_g,
            acid_g,
            acids,
            water_g,
            composition,
            final_ml: composition.volume_ml(),
            reached: Reached::of(&composition),
            is_saturated: composition[Component::Sucrose]
                > SATURATED * composition[Component::Water],
        }
    }
}

/// Volume, ml, at which an amount has come down to a concentration per ml.
fn least_ml(amount: f64, per_ml: f64, what: &'static str) -> Result<f64, BringError> {
    if amount <= NONE {
        return Ok(0.0);
    }
    if per_ml <= NONE {
        return Err(BringError::CannotRemove { what });
    }
    Ok(amount / per_ml)
}
