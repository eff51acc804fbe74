//! What a document may say: finite numbers, bounded sizes, references that lead somewhere.

use super::document::Document;
use super::ingredient::{Ingredient, Range};
use super::pour::{Amount, Pour};
use super::spec::{Point, Spec};
use super::technique::Dilution;
use super::trial::Trial;
use std::collections::BTreeSet;

/// Longest text of one field, in characters.
pub(crate) const MAX_TEXT: usize = 4_000;
/// Most ingredients of one document.
pub(crate) const MAX_INGREDIENTS: usize = 5_000;
/// Most specs of one document.
pub(crate) const MAX_SPECS: usize = 500;
/// Most trials of one spec.
pub(crate) const MAX_TRIALS: usize = 2_000;
/// Most pours of one trial.
pub(crate) const MAX_POURS: usize = 60;
/// Largest amount or figure accepted anywhere.
pub(crate) const MAX_NUMBER: f64 = 1.0e6;

/// A field that cannot stand, and why.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{field}: {reason}")]
pub struct FieldError {
    /// Path of the field, such as `specs[0].trials[2].pours[1].amount`.
    pub field: String,
    /// What is wrong with it.
    pub reason: String,
}

fn refuse<T>(field: impl Into<String>, reason: impl Into<String>) -> Result<T, FieldError> {
    Err(FieldError {
        field: field.into(),
        reason: reason.into(),
    })
}

/// Checks a whole document and names the first field that cannot stand.
pub fn check(document: &Document) -> Result<(), FieldError> {
    text("title", &document.title)?;
    text("notes", &document.notes)?;
    text("currency", &document.currency)?;
    if let Err(reason) = document.measures.validate() {
        return refuse("measures", reason);
    }
    check_senses(document)?;
    count("ingredients", document.ingredients.len(), MAX_INGREDIENTS)?;
    for (id, ingredient) in &document.ingredients {
        check_ingredient(&format!("ingredients[\"{id}\"]"), ingredient)?;
    }
    for (id, made) in &document.preparations {
        for (output, ingredient) in &made.outputs {
            if !document.ingredients.contains_key(ingredient) {
                let field = format!("preparations[\"{id}\"].outputs[\"{output}\"]");
                return refuse(field, format!("unknown ingredient \"{ingredient}\""));
            }
        }
    }
    for (id, lot) in &document.lots {
        if !document.ingredients.contains_key(&lot.ingredient) {
            let field = format!("lots[\"{id}\"].ingredient");
            return refuse(field, format!("unknown ingredient \"{}\"", lot.ingredient));
        }
    }
    count("specs", document.specs.len(), MAX_SPECS)?;
    let mut numbers = BTreeSet::new();
    for (index, spec) in document.specs.iter().enumerate() {
        check_spec(document, &format!("specs[{index}]"), spec, &mut numbers)?;
    }
    match numbers.last() {
        Some(&largest) if largest >= document.next_number => refuse(
            "next_number",
            format!("must be above {largest}, the largest number in use"),
        ),
        _ => Ok(()),
    }
}

fn check_senses(document: &Document) -> Result<(), FieldError> {
    let senses = &document.senses;
    let axes = [
        ("sweet", senses.sweet),
        ("sour", senses.sour),
        ("strength", senses.strength),
    ];
    for (name, threshold) in axes {
        let field = format!("senses.{name}");
        number(&format!("{field}.weber"), threshold.weber)?;
        number(&format!("{field}.detection"), threshold.detection)?;
        if threshold.weber < 0.001 {
            return refuse(format!("{field}.weber"), "must be 0.001 or more");
        }
        if threshold.detection < 1.0e-6 {
            return refuse(format!("{field}.detection"), "must be above 0");
        }
    }
    Ok(())
}

fn check_ingredient(field: &str, item: &Ingredient) -> Result<(), FieldError> {
    text(&format!("{field}.name"), &item.name)?;
    text(&format!("{field}.note"), &item.note)?;
    text(&format!("{field}.allergens"), &item.allergens)?;
    let acids = &item.acids;
    let ranges = [
        ("strength_pct_vol", item.strength_pct_vol, 100.0),
        ("sugar_g", item.sugar_g, 200.0),
        ("acids.citric", acids.citric, 200.0),
        ("acids.malic", acids.malic, 200.0),
        ("acids.tartaric", acids.tartaric, 200.0),
        ("acids.acetic", acids.acetic, 200.0),
        ("acids.lactic", acids.lactic, 200.0),
        ("acids.phosphoric", acids.phosphoric, 200.0),
        ("ph", item.ph, 14.0),
    ];
    for (name, value, most) in ranges {
        if let Some(value) = value {
            check_range(&format!("{field}.{name}"), value, most)?;
        }
    }
    let split = &item.split;
    let figures = [
        ("split.sucrose_g", split.sucrose_g),
        ("split.glucose_g", split.glucose_g),
        ("split.fructose_g", split.fructose_g),
        ("split.lactose_g", split.lactose_g),
        ("split.maltose_g", split.maltose_g),
        ("fat_g", item.fat_g),
        ("protein_g", item.protein_g),
        ("salt_g", item.salt_g),
        ("gum_g", item.gum_g),
        ("water_g", item.water_g),
        ("piece_g", item.piece_g),
        ("co2_g_per_l", item.co2_g_per_l),
        ("bitter_per_ml", item.bitter_per_ml),
        (
            "price.pack_price",
            item.price.as_ref().map(|p| p.pack_price),
        ),
        ("price.pack_size", item.price.as_ref().map(|p| p.pack_size)),
    ];
    for (name, value) in figures {
        if let Some(value) = value {
            number(&format!("{field}.{name}"), value)?;
        }
    }
    match item.density {
        Some(density) if !(0.5..=2.5).contains(&density.g_per_ml) => refuse(
            format!("{field}.density.g_per_ml"),
            format!("{} is outside 0.5 to 2.5 g/ml", density.g_per_ml),
        ),
        _ => Ok(()),
    }
}

fn check_range(field: &str, range: Range, most: f64) -> Result<(), FieldError> {
    for (name, value) in [
        ("low", range.low),
        ("typical", range.typical),
        ("high", range.high),
    ] {
        number(&format!("{field}.{name}"), value)?;
        if value > most {
            return refuse(
                format!("{field}.{name}"),
                format!("{value} is above {most}"),
            );
        }
    }
    if range.low > range.typical || range.typical > range.high {
        return refuse(field, "must run low ≤ typical ≤ high");
    }
    Ok(())
}

fn check_spec(
    document: &Document,
    field: &str,
    spec: &Spec,
    numbers: &mut BTreeSet<u32>,
) -> Result<(), FieldError> {
    text(&format!("{field}.name"), &spec.name)?;
    if !numbers.insert(spec.id.0) {
        return refuse(format!("{field}.id"), format!("{} is used twice", spec.id));
    }
    number(
        &format!("{field}.glass.capacity_ml"),
        spec.glass.capacity_ml,
    )?;
    if !(0.0..=0.9).contains(&spec.glass.ice_share) {
        return refuse(format!("{field}.glass.ice_share"), "must lie in 0 to 0.9");
    }
    if let Some(target) = &spec.target {
        check_point(&format!("{field}.target.point"), &target.point)?;
    }
    let weights = &spec.balancing.weights;
    number(&format!("{field}.balancing.weights.sweet"), weights.sweet)?;
    number(&format!("{field}.balancing.weights.sour"), weights.sour)?;
    number(
        &format!("{field}.balancing.weights.strength"),
        weights.strength,
    )?;
    number(
        &format!("{field}.balancing.reluctance"),
        spec.balancing.reluctance,
    )?;
    if spec.trials.is_empty() {
        return refuse(format!("{field}.trials"), "must hold at least one trial");
    }
    count(&format!("{field}.trials"), spec.trials.len(), MAX_TRIALS)?;
    for (index, trial) in spec.trials.iter().enumerate() {
        let field = format!("{field}.trials[{index}]");
        if !numbers.insert(trial.id.0) {
            return refuse(format!("{field}.id"), format!("{} is used twice", trial.id));
        }
        if let Some(parent) = trial.parent
            && !spec.trials[..index].iter().any(|t| t.id == parent)
        {
            let reason = format!("{parent} is no earlier trial of this spec");
            return refuse(format!("{field}.parent"), reason);
        }
        check_trial(document, &field, trial)?;
    }
    Ok(())
}

fn check_point(field: &str, point: &Point) -> Result<(), FieldError> {
    number(&format!("{field}.sweet_g_per_l"), point.sweet_g_per_l)?;
    number(&format!("{field}.sour_g_per_l"), point.sour_g_per_l)?;
    number(&format!("{field}.strength_pct_vol"), point.strength_pct_vol)?;
    number(&format!("{field}.bitter_per_ml"), point.bitter_per_ml)
}

fn check_trial(document: &Document, field: &str, trial: &Trial) -> Result<(), FieldError> {
    text(&format!("{field}.name"), &trial.name)?;
    text(&format!("{field}.reason"), &trial.reason)?;
    text(&format!("{field}.verdict"), &trial.verdict)?;
    count(&format!("{field}.pours"), trial.pours.len(), MAX_POURS)?;
    for (id, ingredient) in &trial.frozen {
        check_ingredient(&format!("{field}.frozen[\"{id}\"]"), ingredient)?;
    }
    for (index, pour) in trial.pours.iter().enumerate() {
        let field = format!("{field}.pours[{index}]");
        check_pour(&field, pour)?;
        if document.settle(trial, pour).is_none() {
            return refuse(
                format!("{field}.source"),
                format!(
                    "names something the document does not hold: {:?}",
                    pour.source
                ),
            );
        }
    }
    let field = format!("{field}.technique.dilution");
    match trial.technique.dilution {
        Dilution::ByMethod => Ok(()),
        Dilution::Fraction(fraction) if !(0.0..=5.0).contains(&fraction) => {
            refuse(field, format!("fraction {fraction} is outside 0 to 5"))
        }
        Dilution::Fraction(_) => Ok(()),
        Dilution::IceGrams(grams) => number(&field, grams),
        Dilution::Weighed { before_g, after_g } => {
            number(&field, before_g)?;
            number(&field, after_g)?;
            if before_g <= 0.0 || after_g < before_g {
                return refuse(field, "needs 0 < before ≤ after");
            }
            Ok(())
        }
    }
}

fn check_pour(field: &str, pour: &Pour) -> Result<(), FieldError> {
    text(&format!("{field}.note"), &pour.note)?;
    match &pour.amount {
        Amount::Words(words) => text(&format!("{field}.amount"), words)?,
        Amount::Ml(value) | Amount::Grams(value) | Amount::Pieces(value) => {
            number(&format!("{field}.amount"), *value)?;
        }
    }
    for (name, value) in [
        ("step", pour.step),
        ("minimum", pour.minimum),
        ("maximum", pour.maximum),
    ] {
        if let Some(value) = value {
            number(&format!("{field}.{name}"), value)?;
        }
    }
    if pour.step.is_some_and(|step| step < 0.001) {
        return refuse(format!("{field}.step"), "must be 0.001 or more");
    }
    if pour.minimum.unwrap_or(0.0) > pour.maximum.unwrap_or(f64::INFINITY) {
        return refuse(format!("{field}.minimum"), "is above the maximum");
    }
    Ok(())
}

fn number(field: &str, value: f64) -> Result<(), FieldError> {
    if !value.is_finite() {
        return refuse(field, "is not a finite number");
    }
    if value < 0.0 {
        return refuse(field, format!("{value} is negative"));
    }
    if value > MAX_NUMBER {
        return refuse(field, format!("{value} is above {MAX_NUMBER}"));
    }
    Ok(())
}

fn text(field: &str, value: &str) -> Result<(), FieldError> {
    if value.chars().count() > MAX_TEXT {
        return refuse(field, format!("is longer than {MAX_TEXT} characters"));
    }
    Ok(())
}

fn count(field: &str, value: usize, most: usize) -> Result<(), FieldError> {
    if value > most {
        return refuse(field, format!("holds {value} entries, at most {most}"));
    }
    Ok(())
}
