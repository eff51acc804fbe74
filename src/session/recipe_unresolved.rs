//! Ingredients of an imported recipe that wait to be chosen.

use super::notices::{Notice, Severity, notice};
use crate::model::{Amount, Confidence, Document, Ingredient, Pour, Trial};
use crate::units::{Measures, Unit, parse_entry};

/// Stands before the name of an ingredient that waits to be chosen.
const MARK: &str = "? ";
/// Longest name, in characters.
const MAX_NAME: usize = 200;

/// The name of an ingredient that waits to be chosen.
pub(super) fn unresolved_name(written: &str) -> String {
    let short: String = written.chars().take(MAX_NAME).collect();
    format!("{MARK}{}", short.trim())
}

/// An ingredient of which only its name is known.
pub(super) fn unresolved(written: &str) -> Ingredient {
    Ingredient {
        name: unresolved_name(written),
        kind: "not resolved".to_owned(),
        confidence: Confidence::Low,
        note: "not resolved: choose an ingredient".to_owned(),
        ..Ingredient::default()
    }
}

/// Whether an ingredient waits to be chosen: its name begins with a question mark and a blank.
pub fn is_unresolved(item: &Ingredient) -> bool {
    item.name.starts_with(MARK)
}

/// Whether the ingredient of a pour waits to be chosen.
pub(super) fn pour_waits(document: &Document, trial: &Trial, pour: &Pour) -> bool {
    let settled = document.settle(trial, pour);
    settled.is_some_and(|settled| is_unresolved(settled.ingredient))
}

/// The amount that the words of a pour say, such as "45 ml"; `None` when they say none.
pub fn amount_said(words: &str, measures: &Measures) -> Option<(Amount, Unit)> {
    if !words.starts_with(char::is_numeric) {
        return None;
    }
    let entry = parse_entry(words, Unit::Piece, measures).ok()?;
    let amount = match entry.quantity {
        crate::units::Quantity::Ml(ml) => Amount::Ml(ml),
        crate::units::Quantity::Grams(grams) => Amount::Grams(grams),
        crate::units::Quantity::Pieces(pieces) => Amount::Pieces(pieces),
    };
    Some((amount.quantised(), entry.unit))
}

/// Pours of ingredients that wait to be chosen.
pub(super) fn waiting(document: &Document, trial: &Trial) -> Vec<Notice> {
    let pours = trial.pours.iter();
    pours
        .filter_map(|pour| {
            let item = document.settle(trial, pour)?.ingredient;
            if !is_unresolved(item) {
                return None;
            }
            let figures = match pour.amount {
                Amount::Words(_) => "the figures leave it out",
                _ => "the figures take it for water",
            };
            Some(notice(
                Severity::Warning,
                format!("{} waits to be chosen: {figures}", item.name),
                "Strength, balance, allergens and cost are not those of the recipe. Swap in an ingredient, then give it its amount.",
            ))
        })
        .collect()
}
