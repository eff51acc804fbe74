//! What the figures of an ingredient come to, before anything is poured.

use crate::kitchen::{ContentsError, Shelf, contents, shelf_class};
use crate::measure::{ExpectedReading, expected_reading};
use crate::model::{Density, Ingredient};
use crate::physics::freezing::liquidus;

/// An ingredient worked out from its figures, per what is poured.
#[derive(Clone, Debug, PartialEq)]
pub struct ComesTo {
    /// Density at 20 °C, g/ml: measured where it is, else worked out.
    pub density_g_per_ml: f64,
    /// Density that the composition alone gives, g/ml, where a measured one is used instead.
    pub by_composition_g_per_ml: Option<f64>,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: f64,
    /// All sugar, g per 100 ml.
    pub sugar_g_per_100_ml: f64,
    /// Titratable acid as citric acid, g per 100 ml.
    pub sour_g_per_100_ml: f64,
    /// What a refractometer would show.
    pub reading: ExpectedReading,
    /// Where it begins to freeze, °C.
    pub freezes_celsius: Option<f64>,
    /// How it keeps, at the upper end of its pH; only liquids have a class that means something.
    pub shelf: Shelf,
    /// What does not fit together, in words.
    pub warnings: Vec<String>,
    /// What was evened out between rounded figures, in words.
    pub remarks: Vec<String>,
}

/// Works an ingredient out at its typical figures; fails when they cannot belong together.
pub fn comes_to(item: &Ingredient) -> Result<ComesTo, ContentsError> {
    let found = contents(item)?;
    let density = found.density_g_per_ml;
    let measured = item.density.filter(|density| density.measured);
    let by_composition_g_per_ml = measured.and_then(|measured| {
        let mut alone = item.clone();
        alone.density = Some(Density {
            measured: false,
            ..measured
        });
        contents(&alone).ok().map(|found| found.density_g_per_ml)
    });
    let per_100_ml = 100.0 * density;
    Ok(ComesTo {
        density_g_per_ml: density,
        by_composition_g_per_ml,
        strength_pct_vol: found.per_gram.percent_vol(),
        sugar_g_per_100_ml: found.per_gram.sugar_g() * per_100_ml,
        sour_g_per_100_ml: found.per_gram.sour_g() * per_100_ml,
        reading: expected_reading(item)?,
        freezes_celsius: liquidus(&found.per_gram).map(|found| found.celsius),
        shelf: shelf_class(&found.per_gram, item.ph.map(|ph| ph.high)),
        warnings: found.warnings,
        remarks: found.remarks,
    })
}
