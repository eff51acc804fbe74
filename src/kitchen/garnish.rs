//! What a piece that is laid on or beside a drink is, in words and in number.

use super::stream::Stream;
use crate::model::{Document, Garnish, Preparation};
use crate::units::trimmed;

/// Pieces that a batch gives of an output: by what one piece weighs where its row says so, else as
/// many as are cut; `None` when nobody says.
pub(super) fn pieces_in(
    document: &Document,
    preparation: &Preparation,
    output: &str,
    stream: &Stream,
) -> Option<f64> {
    let row = preparation.outputs.get(output);
    let row = row.and_then(|row| document.ingredients.get(row));
    let piece_g = row.and_then(|row| row.piece_g).filter(|piece| *piece > 0.0);
    let cut = preparation.garnishes.get(output);
    let cut = cut.map(|cut| cut.pieces).filter(|pieces| *pieces > 0.0);
    piece_g.map(|piece| stream.mass_g() / piece).or(cut)
}

/// Pieces in a batch, their size, where they go and the oil expressed over a drink, as far as they
/// are stated.
pub(super) fn garnish_words(garnish: &Garnish, pieces: Option<f64>) -> Vec<String> {
    let mut words = Vec::new();
    let count = pieces.map(|pieces| {
        let shown = trimmed(pieces, 1);
        let noun = if shown == "1" { "piece" } else { "pieces" };
        format!("{shown} {noun}")
    });
    let size = garnish.size_mm.trim();
    match (count, size.is_empty()) {
        (Some(count), true) => words.push(count),
        (Some(count), false) => words.push(format!("{count} of {size} mm")),
        (None, false) => words.push(format!("pieces of {size} mm")),
        (None, true) => {}
    }
    let placement = garnish.placement.trim();
    if !placement.is_empty() {
        words.push(format!("placed: {placement}"));
    }
    if let Some(oil_ml) = garnish.oil_ml.filter(|oil| *oil > 0.0) {
        let shown = trimmed(oil_ml, 2);
        words.push(format!("{shown} ml of oil expressed over a drink"));
    }
    words
}
