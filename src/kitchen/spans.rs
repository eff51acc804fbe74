//! Between which figures an output is believed to lie.

use super::contents::acid_figures;
use super::stream::Stream;
use crate::model::{Acids, Ingredient, Range};
use crate::physics::component::CITRIC_EQUIVALENT_G;

/// Lowest and highest believed figure.
pub type Span = (f64, f64);

/// Between which figures an output is believed to lie; `None` where its row has no range.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spans {
    /// Dissolved solids of its liquid as far as the sugar goes, °Bx.
    pub brix: Option<Span>,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: Option<Span>,
    /// Titratable acid as citric acid, g/L.
    pub acid_g_per_l: Option<Span>,
    /// pH at 25 °C.
    pub ph: Option<Span>,
}

/// Ranges of a row, per 100 g, around the figures of the stream that it describes.
pub fn spans(row: &Ingredient, stream: &Stream, (brix, acid_g_per_l): (Option<f64>, f64)) -> Spans {
    let liquid_g = stream.liquid.mass_g();
    let around = |value: f64, range: Range, scale: f64| {
        let low = value - scale * (range.typical - range.low);
        let high = value + scale * (range.high - range.typical);
        (low.max(0.0), high)
    };
    let wide = |range: Option<Range>| range.filter(|range| range.high > range.low);
    let as_it_is = |range: Option<Range>| wide(range).map(|range| (range.low, range.high));
    Spans {
        // Sugar of the whole, dissolved in its liquid.
        brix: wide(row.sugar_g)
            .zip(brix)
            .filter(|_| liquid_g > 0.0)
            .map(|(range, brix)| around(brix, range, stream.mass_g() / liquid_g)),
        strength_pct_vol: as_it_is(row.strength_pct_vol),
        acid_g_per_l: wide(Some(sour_g_per_l(&row.acids)))
            .map(|range| around(acid_g_per_l, range, 1.0)),
        ph: as_it_is(row.ph),
    }
}

/// All acids as citric acid, g/L; their ranges are taken to be independent, as those of one row are
/// wherever figures are added.
fn sour_g_per_l(acids: &Acids) -> Range {
    let (mut typical, mut low, mut high) = (0.0, 0.0_f64, 0.0_f64);
    for (component, range) in acid_figures(acids) {
        let (Some(range), Some(molar_g)) = (range, component.molar_mass_g_per_mol()) else {
            continue;
        };
        // g per 100 ml to g per litre.
        let per_g = 10.0 * CITRIC_EQUIVALENT_G * component.protons() / molar_g;
        typical += per_g * range.typical;
        low += (per_g * (range.typical - range.low)).powi(2);
        high += (per_g * (range.high - range.typical)).powi(2);
    }
    Range {
        low: typical - low.sqrt(),
        typical,
        high: typical + high.sqrt(),
    }
}
