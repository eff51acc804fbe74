//! One amount of an input in every unit.

use crate::kitchen::contents;
use crate::model::{Document, Input, Quantity};

/// The amount of an input in g, ml and pieces, and as needed; a round one where it cannot be worked out.
pub fn same_amounts(document: &Document, input: &Input) -> [Quantity; 4] {
    let item = document
        .row_of(&input.source)
        .and_then(|row| document.ingredients.get(row));
    let density = item
        .and_then(|item| contents(item).ok())
        .map_or(1.0, |known| known.density_g_per_ml);
    let piece = item.and_then(|item| item.piece_g);
    let grams = match input.quantity {
        Quantity::Grams(grams) => grams,
        Quantity::Ml(ml) => ml * density,
        Quantity::Pieces(pieces) => piece.map_or(100.0, |piece| pieces * piece),
        Quantity::AsNeeded => 100.0,
    };
    let rounded = |value: f64| (value * 1.0e3).round() / 1.0e3;
    let pieces = piece.map_or(1.0, |piece| grams / piece.max(1.0e-9));
    [
        Quantity::Grams(rounded(grams)),
        Quantity::Ml(rounded(grams / density)),
        Quantity::Pieces(rounded(pieces)),
        Quantity::AsNeeded,
    ]
}
