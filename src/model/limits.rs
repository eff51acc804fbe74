//! What a document may say: finite numbers, bounded sizes, references that lead somewhere.

use super::document::Document;
use super::field_path::FieldPath;
use super::ingredient::{Ingredient, Range};
use super::pour::{Amount, Pour, Source};
use super::spec::{Point, Spec};
use super::technique::Dilution;
use super::trial::Trial;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Longest text of one field, in characters.
const MAX_TEXT: usize = 4_000;
/// Most ingredients of one document.
const MAX_INGREDIENTS: usize = 5_000;
/// Most specs of one document.
const MAX_SPECS: usize = 500;
/// Most trials of one spec.
const MAX_TRIALS: usize = 2_000;
/// Most pours of one trial.
const MAX_POURS: usize = 60;
/// Largest number of a spec or trial; far from what the type holds, so that counting up is safe.
const MAX_SERIAL: u32 = 1_000_000_000;
/// Largest amount or figure accepted anywhere.
const MAX_NUMBER: f64 = 1.0e6;

/// A field that cannot stand, and why.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{field}: {reason}")]
pub struct FieldError {
    /// Path of the field, such as `specs[0].trials[2].pours[1].amount`.
    pub field: String,
    /// What is wrong with it.
    pub reason: String,
}

type Checked = Result<(), FieldError>;

fn refuse(at: &FieldPath<'_>, reason: impl Into<String>) -> Checked {
    Err(FieldError {
        field: at.to_string(),
        reason: reason.into(),
    })
}

/// Checks a whole document and names the first field that cannot stand.
pub fn check(document: &Document) -> Result<(), FieldError> {
    check_all(document, None)
}

/// Checks a document that grew from a sound one: what the two share needs no second look.
pub fn check_since(document: &Document, sound: &Document) -> Result<(), FieldError> {
    check_all(document, Some(sound))
}

fn check_all(document: &Document, sound: Option<&Document>) -> Checked {
    text(&FieldPath::root("title"), &document.title)?;
    text(&FieldPath::root("notes"), &document.notes)?;
    text(&FieldPath::root("currency"), &document.currency)?;
    if let Err(reason) = document.measures.validate() {
        return refuse(&FieldPath::root("measures"), reason);
    }
    check_senses(document)?;
    let same_larder = |sound: &&Document| Arc::ptr_eq(&sound.ingredients, &document.ingredients);
    // Trials lean on the larder: only with the same one can they be taken as sound.
    let sound = sound.filter(same_larder);
    if sound.is_none() {
        check_larder(document)?;
    }
    let at = FieldPath::root("specs");
    count(&at, document.specs.len(), MAX_SPECS)?;
    let mut numbers = BTreeSet::new();
    for (place, spec) in document.specs.iter().enumerate() {
        check_spec(document, sound, &at.index(place), spec, &mut numbers)?;
    }
    if document.next_number > MAX_SERIAL {
        let reason = format!("is above {MAX_SERIAL}");
        return refuse(&FieldPath::root("next_number"), reason);
    }
    match numbers.last() {
        Some(&largest) if largest >= document.next_number => refuse(
            &FieldPath::root("next_number"),
            format!("must be above {largest}, the largest number in use"),
        ),
        _ => Ok(()),
    }
}

fn check_senses(document: &Document) -> Checked {
    let senses = &document.senses;
    let at = FieldPath::root("senses");
    for (name, threshold) in [
        ("sweet", senses.sweet),
        ("sour", senses.sour),
        ("strength", senses.strength),
    ] {
        let at = at.field(name);
        number(&at.field("weber"), threshold.weber)?;
        number(&at.field("detection"), threshold.detection)?;
        if threshold.weber < 0.001 {
            return refuse(&at.field("weber"), "must be 0.001 or more");
        }
        if threshold.detection < 1.0e-6 {
            return refuse(&at.field("detection"), "must be above 0");
        }
    }
    Ok(())
}

fn check_larder(document: &Document) -> Checked {
    let held = &document.ingredients;
    let at = FieldPath::root("ingredients");
    count(&at, held.len(), MAX_INGREDIENTS)?;
    for (id, ingredient) in held.iter() {
        text(&at, &id.0)?;
        check_ingredient(&at.key(&id.0), ingredient)?;
    }
    let at = FieldPath::root("preparations");
    count(&at, document.preparations.len(), MAX_INGREDIENTS)?;
    for (id, made) in &document.preparations {
        let at = at.key(&id.0);
        text(&at.field("name"), &made.name)?;
        for (output, ingredient) in &made.outputs {
            if !held.contains_key(ingredient) {
                let reason = format!("unknown ingredient \"{ingredient}\"");
                return refuse(&at.field("outputs").key(output), reason);
            }
        }
    }
    let at = FieldPath::root("lots");
    count(&at, document.lots.len(), MAX_INGREDIENTS)?;
    for (id, lot) in &document.lots {
        text(&at.key(&id.0).field("label"), &lot.label)?;
        if !held.contains_key(&lot.ingredient) {
            let reason = format!("unknown ingredient \"{}\"", lot.ingredient);
            return refuse(&at.key(&id.0).field("ingredient"), reason);
        }
    }
    Ok(())
}

fn check_ingredient(at: &FieldPath<'_>, item: &Ingredient) -> Checked {
    text(&at.field("name"), &item.name)?;
    text(&at.field("kind"), &item.kind)?;
    text(&at.field("note"), &item.note)?;
    text(&at.field("allergens"), &item.allergens)?;
    check_ranges(at, item)?;
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
        optional(&at.field(name), value)?;
    }
    match item.density {
        Some(density) if !(0.5..=2.5).contains(&density.g_per_ml) => refuse(
            &at.field("density.g_per_ml"),
            format!("{} is outside 0.5 to 2.5 g/ml", density.g_per_ml),
        ),
        _ => Ok(()),
    }
}

fn check_ranges(at: &FieldPath<'_>, item: &Ingredient) -> Checked {
    let acids = &item.acids;
    for (name, range, most) in [
        ("strength_pct_vol", item.strength_pct_vol, 100.0),
        ("sugar_g", item.sugar_g, 200.0),
        ("acids.citric", acids.citric, 200.0),
        ("acids.malic", acids.malic, 200.0),
        ("acids.tartaric", acids.tartaric, 200.0),
        ("acids.acetic", acids.acetic, 200.0),
        ("acids.lactic", acids.lactic, 200.0),
        ("acids.phosphoric", acids.phosphoric, 200.0),
        ("ph", item.ph, 14.0),
    ] {
        if let Some(range) = range {
            check_range(&at.field(name), range, most)?;
        }
    }
    Ok(())
}

fn check_range(at: &FieldPath<'_>, range: Range, most: f64) -> Checked {
    for (name, value) in [
        ("low", range.low),
        ("typical", range.typical),
        ("high", range.high),
    ] {
        number(&at.field(name), value)?;
        if value > most {
            return refuse(&at.field(name), format!("{value} is above {most}"));
        }
    }
    if range.low > range.typical || range.typical > range.high {
        return refuse(at, "must run low ≤ typical ≤ high");
    }
    Ok(())
}

fn check_spec(
    document: &Document,
    sound: Option<&Document>,
    at: &FieldPath<'_>,
    spec: &Spec,
    numbers: &mut BTreeSet<u32>,
) -> Checked {
    text(&at.field("name"), &spec.name)?;
    text(&at.field("family"), &spec.family)?;
    text(&at.field("glass.name"), &spec.glass.name)?;
    if !numbers.insert(spec.id.0) {
        return refuse(&at.field("id"), format!("{} is used twice", spec.id));
    }
    number(&at.field("glass.capacity_ml"), spec.glass.capacity_ml)?;
    if !(0.0..=0.9).contains(&spec.glass.ice_share) {
        return refuse(&at.field("glass.ice_share"), "must lie in 0 to 0.9");
    }
    if let Some(target) = &spec.target {
        text(&at.field("target.label"), &target.label)?;
        check_point(&at.field("target.point"), &target.point)?;
    }
    let weights = &spec.balancing.weights;
    number(&at.field("balancing.weights.sweet"), weights.sweet)?;
    number(&at.field("balancing.weights.sour"), weights.sour)?;
    number(&at.field("balancing.weights.strength"), weights.strength)?;
    number(&at.field("balancing.reluctance"), spec.balancing.reluctance)?;
    let at = at.field("trials");
    if spec.trials.is_empty() {
        return refuse(&at, "must hold at least one trial");
    }
    count(&at, spec.trials.len(), MAX_TRIALS)?;
    let known = sound.and_then(|sound| sound.spec(spec.id));
    let mut earlier = BTreeSet::new();
    for (place, trial) in spec.trials.iter().enumerate() {
        let at = at.index(place);
        if !numbers.insert(trial.id.0) {
            return refuse(&at.field("id"), format!("{} is used twice", trial.id));
        }
        if let Some(parent) = trial.parent
            && !earlier.contains(&parent)
        {
            let reason = format!("{parent} is no earlier trial of this spec");
            return refuse(&at.field("parent"), reason);
        }
        earlier.insert(trial.id);
        let known = known.and_then(|spec| spec.trials.get(place));
        if !known.is_some_and(|known| Arc::ptr_eq(known, trial)) {
            check_trial(document, &at, trial)?;
        }
    }
    Ok(())
}

fn check_point(at: &FieldPath<'_>, point: &Point) -> Checked {
    number(&at.field("sweet_g_per_l"), point.sweet_g_per_l)?;
    number(&at.field("sour_g_per_l"), point.sour_g_per_l)?;
    number(&at.field("strength_pct_vol"), point.strength_pct_vol)?;
    number(&at.field("bitter_per_ml"), point.bitter_per_ml)
}

fn check_trial(document: &Document, at: &FieldPath<'_>, trial: &Trial) -> Checked {
    text(&at.field("name"), &trial.name)?;
    text(&at.field("reason"), &trial.reason)?;
    text(&at.field("verdict"), &trial.verdict)?;
    count(&at.field("frozen"), trial.frozen.len(), MAX_POURS)?;
    for (id, ingredient) in &trial.frozen {
        check_ingredient(&at.field("frozen").key(&id.0), ingredient)?;
    }
    let pours = at.field("pours");
    count(&pours, trial.pours.len(), MAX_POURS)?;
    for (place, pour) in trial.pours.iter().enumerate() {
        let at = pours.index(place);
        check_pour(&at, pour)?;
        if document.settle(trial, pour).is_none() {
            return refuse(&at.field("source"), unknown_source(&pour.source));
        }
    }
    let at = at.field("technique.dilution");
    match trial.technique.dilution {
        Dilution::Fraction(fraction) if !(0.0..=5.0).contains(&fraction) => {
            refuse(&at, format!("fraction {fraction} is outside 0 to 5"))
        }
        Dilution::ByMethod | Dilution::Fraction(_) => Ok(()),
        Dilution::IceGrams(grams) => number(&at, grams),
        Dilution::Weighed { before_g, after_g } => {
            number(&at, before_g)?;
            number(&at, after_g)?;
            if before_g <= 0.0 || after_g < before_g {
                return refuse(&at, "needs 0 < before ≤ after");
            }
            Ok(())
        }
    }
}

fn unknown_source(source: &Source) -> String {
    match source {
        Source::Ingredient(id) => format!("unknown ingredient \"{id}\""),
        Source::Preparation {
            preparation,
            output,
        } => format!("unknown output \"{output}\" of preparation \"{preparation}\""),
        Source::Lot(lot) => format!("unknown lot \"{lot}\""),
    }
}

fn check_pour(at: &FieldPath<'_>, pour: &Pour) -> Checked {
    text(&at.field("note"), &pour.note)?;
    match &pour.amount {
        Amount::Words(words) => text(&at.field("amount"), words)?,
        Amount::Ml(value) | Amount::Grams(value) | Amount::Pieces(value) => {
            number(&at.field("amount"), *value)?;
        }
    }
    optional(&at.field("step"), pour.step)?;
    optional(&at.field("minimum"), pour.minimum)?;
    optional(&at.field("maximum"), pour.maximum)?;
    if pour.step.is_some_and(|step| step < 0.001) {
        return refuse(&at.field("step"), "must be 0.001 or more");
    }
    if pour.minimum.unwrap_or(0.0) > pour.maximum.unwrap_or(f64::INFINITY) {
        return refuse(&at.field("minimum"), "is above the maximum");
    }
    Ok(())
}

fn optional(at: &FieldPath<'_>, value: Option<f64>) -> Checked {
    value.map_or(Ok(()), |value| number(at, value))
}

fn number(at: &FieldPath<'_>, value: f64) -> Checked {
    if !value.is_finite() {
        return refuse(at, "is not a finite number");
    }
    if value < 0.0 {
        return refuse(at, format!("{value} is negative"));
    }
    if value > MAX_NUMBER {
        return refuse(at, format!("{value} is above {MAX_NUMBER}"));
    }
    Ok(())
}

fn text(at: &FieldPath<'_>, value: &str) -> Checked {
    // Bytes are never fewer than characters: most texts need no counting.
    if value.len() > MAX_TEXT && value.chars().count() > MAX_TEXT {
        return refuse(at, format!("is longer than {MAX_TEXT} characters"));
    }
    Ok(())
}

fn count(at: &FieldPath<'_>, value: usize, most: usize) -> Checked {
    if value > most {
        return refuse(at, format!("holds {value} entries, at most {most}"));
    }
    Ok(())
}
