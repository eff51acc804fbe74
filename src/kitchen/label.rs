//! What stands on the bottle.

use super::carried::allergens;
use super::flow_error::{At, FlowError};
use super::garnish::{garnish_words, pieces_in};
use super::keeping::{Keeping, keeping};
use super::kinds::is_whole;
use super::made::{Made, made};
use super::shelf::ShelfClass;
use super::unstated::unstated;
use crate::model::{Document, Ingredient, PreparationId, is_day};
use crate::units::percent_vol;

/// Strength above which a drink counts as alcoholic and says how strong it is, % vol: Regulation (EU)
/// No 1169/2011, article 9(1)(k), from memory.
pub const ALCOHOLIC_ABOVE_PCT_VOL: f64 = 1.2;

/// The label of an output that is made on a day such as `2026-05-04`: name, days, allergens in the
/// words of EU 1169/2011 Annex II, strength above 1.2 % vol, pieces of a garnish and how to keep it.
///
/// Fails as the flow does, for an output that does not leave and for what is no day. A kitchen's
/// label, not one for sale.
pub fn label(
    document: &Document,
    id: &PreparationId,
    output: &str,
    made_on: &str,
) -> Result<String, FlowError> {
    let refuse = |field, reason: &str| FlowError::new(At::Output(output.to_owned()), field, reason);
    if !is_day(made_on) {
        return Err(refuse("made on", "must be a day such as 2026-05-04"));
    }
    let made = made(document, id)?;
    let row = made.rows.get(output);
    let row = row.ok_or_else(|| refuse("stream", "no output of this name leaves"))?;
    let kept = keeping(document, id)?;
    let kept = kept.get(output);
    let mut lines = vec![row.name.clone(), format!("Made on {made_on}")];
    lines.push(match kept.and_then(|kept| kept.best_before(made_on)) {
        Some(day) => format!("Use by {day}"),
        None => "Use by: nobody says how long it keeps; write your own day".to_owned(),
    });
    lines.extend(allergen_lines(document, id, row));
    let strength = row.strength_pct_vol.map_or(0.0, |range| range.typical);
    if strength > ALCOHOLIC_ABOVE_PCT_VOL {
        lines.push(format!("Alcohol {}", percent_vol(strength)));
    }
    lines.extend(garnish_line(document, id, output, &made));
    lines.push(where_kept(row, kept).to_owned());
    lines.push("Follow the local food code.".to_owned());
    Ok(lines.join("\n") + "\n")
}

/// Pieces of a batch and how they are used, where it is a garnish.
fn garnish_line(
    document: &Document,
    id: &PreparationId,
    output: &str,
    made: &Made,
) -> Option<String> {
    let preparation = document.preparations.get(id)?;
    let garnish = preparation.garnishes.get(output)?;
    // Without steps no stream says how much there is.
    let stream = made.flow.streams.get(output);
    let pieces = stream.map_or(
        Some(garnish.pieces).filter(|pieces| *pieces > 0.0),
        |stream| pieces_in(document, preparation, output, stream),
    );
    let words = garnish_words(garnish, pieces);
    (!words.is_empty()).then(|| format!("Garnish: {}", words.join("; ")))
}

/// What it holds for certain, and what it may hold.
fn allergen_lines(document: &Document, id: &PreparationId, row: &Ingredient) -> Vec<String> {
    let held = if row.allergens.trim().is_empty() {
        String::new()
    } else {
        allergens(&[row])
    };
    let (mut sure, mut possible) = (Vec::new(), Vec::new());
    for term in held
        .split("; ")
        .filter(|term| !term.is_empty() && *term != "none")
    {
        let lower = term.to_lowercase();
        match lower.strip_prefix("possible ") {
            Some(words) => possible.push(words.to_owned()),
            None => sure.push(term.to_owned()),
        }
    }
    let mut lines = Vec::new();
    if !sure.is_empty() {
        lines.push(format!("Contains {}", sure.join(", ")));
    }
    if !possible.is_empty() {
        lines.push(format!("May contain {}", possible.join(", ")));
    }
    if !unstated(document, id).is_empty() || held.is_empty() {
        lines.push("Allergens of some of what is in it are not stated: check".to_owned());
    } else if lines.is_empty() {
        lines.push("No allergens of EU 1169/2011 Annex II stated".to_owned());
    }
    lines
}

fn where_kept(row: &Ingredient, kept: Option<&Keeping>) -> &'static str {
    let class = kept.map(|kept| kept.shelf.class);
    match class {
        Some(ShelfClass::Strong) => "Keep cool and dark.",
        Some(ShelfClass::Dry) if is_whole(row) => "Keep airtight and dry.",
        Some(ShelfClass::Dry) => "Keep cool and closed.",
        Some(ShelfClass::Acid) => "Keep cold.",
        _ => "Keep cold, at 5 °C or below.",
    }
}
