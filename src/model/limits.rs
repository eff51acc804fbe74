//! What a document may say: finite numbers, bounded sizes, references that lead somewhere.

use super::bound_limits::{check_bounds, check_jiggers, check_target};
use super::day::is_day;
use super::document::Document;
use super::entry_limits::{check_entry, check_glass_form, check_service, check_stage};
use super::field_path::FieldPath;
use super::ids::TrialId;
use super::ingredient::Ingredient;
use super::larder_limits::{check_ingredient, check_larder};
use super::pour::{Amount, Pour, Source};
use super::rule_limits::check_rule_sets;
use super::spec::Spec;
use super::tasting_limits::{check_photos, check_runs, check_tastings};
use super::technique_limits::{check_technique, check_weighings};
use super::trial::{MadeBy, Trial};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Longest text of one field, in characters.
const MAX_TEXT: usize = 4_000;
/// Most ingredients of one document.
pub const MAX_INGREDIENTS: usize = 5_000;
/// Most specs of one document.
const MAX_SPECS: usize = 500;
/// Most trials of one spec.
const MAX_TRIALS: usize = 10_000;
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

pub(super) type Checked = Result<(), FieldError>;

pub(super) fn refuse(at: &FieldPath<'_>, reason: impl Into<String>) -> Checked {
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

/// Checks one ingredient on its own and names the first field that cannot stand, such as
/// `strength_pct_vol.low`.
pub fn check_one_ingredient(item: &Ingredient) -> Result<(), FieldError> {
    check_ingredient(&FieldPath::root("ingredient"), item).map_err(|mut error| {
        if let Some(field) = error.field.strip_prefix("ingredient.") {
            error.field = field.to_owned();
        }
        error
    })
}

fn check_all(document: &Document, sound: Option<&Document>) -> Checked {
    text(&FieldPath::root("title"), &document.title)?;
    text(&FieldPath::root("notes"), &document.notes)?;
    text(&FieldPath::root("currency"), &document.currency)?;
    if let Err(reason) = document.measures.validate() {
        return refuse(&FieldPath::root("measures"), reason);
    }
    check_jiggers(&document.jiggers_ml)?;
    check_senses(document)?;
    check_weighings(document)?;
    let same_larder = |sound: &&Document| {
        Arc::ptr_eq(&sound.ingredients, &document.ingredients)
            && Arc::ptr_eq(&sound.preparations, &document.preparations)
            && Arc::ptr_eq(&sound.lots, &document.lots)
    };
    // Trials lean on the larder: only with the same one can they be taken as sound.
    let sound = sound.filter(same_larder);
    if sound.is_none() {
        check_larder(document)?;
    }
    check_rule_sets(document)?;
    let at = FieldPath::root("specs");
    count(&at, document.specs.len(), MAX_SPECS)?;
    let mut numbers = BTreeSet::new();
    for (place, spec) in document.specs.iter().enumerate() {
        check_spec(document, sound, &at.index(place), spec, &mut numbers)?;
    }
    let known = sound.is_some_and(|sound| {
        Arc::ptr_eq(&sound.tastings, &document.tastings) && sound.learning == document.learning
    });
    if known {
        numbers.extend(document.tastings.keys().map(|id| id.0));
    } else {
        check_tastings(document, &mut numbers)?;
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
    let not_sour = &at.field("not_sour_g_per_l");
    number(not_sour, senses.not_sour_g_per_l)?;
    if senses.not_sour_g_per_l < 0.0 {
        return refuse(not_sour, "must be 0 or more");
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
    number(&at.field("glass.melt_g_per_min"), spec.glass.melt_g_per_min)?;
    check_glass_form(&at.field("glass.form"), &spec.glass.form)?;
    check_entry(document, &at.field("entry"), &spec.entry)?;
    check_service(&at.field("service"), &spec.service)?;
    check_stage(&at.field("stage"), &spec.stage)?;
    if let Some(target) = &spec.target {
        check_target(&at.field("target"), target)?;
    }
    check_bounds(&at.field("bounds"), &spec.bounds)?;
    let weights = &spec.balancing.weights;
    number(&at.field("balancing.weights.sweet"), weights.sweet)?;
    number(&at.field("balancing.weights.sour"), weights.sour)?;
    number(&at.field("balancing.weights.strength"), weights.strength)?;
    number(&at.field("balancing.reluctance"), spec.balancing.reluctance)?;
    let whole = at;
    let at = at.field("trials");
    if spec.trials.is_empty() {
        return refuse(&at, "must hold at least one trial");
    }
    count(&at, spec.trials.len(), MAX_TRIALS)?;
    count(&at, spec.bin.len(), MAX_TRIALS)?;
    let known = sound.and_then(|sound| sound.spec(spec.id));
    // A trial that was thrown away stays the parent of those that grew from it.
    let mut earlier: BTreeSet<TrialId> = spec.bin.iter().map(|trial| trial.id).collect();
    check_bin(document, &whole.field("bin"), spec, known, numbers)?;
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
        if !known.is_some_and(|spec| stood_near(&spec.trials, place, trial)) {
            check_trial(document, &at, trial)?;
        }
    }
    Ok(())
}

fn check_bin(
    document: &Document,
    at: &FieldPath<'_>,
    spec: &Spec,
    known: Option<&Spec>,
    numbers: &mut BTreeSet<u32>,
) -> Checked {
    for (place, trial) in spec.bin.iter().enumerate() {
        let at = at.index(place);
        if !numbers.insert(trial.id.0) {
            return refuse(&at.field("id"), format!("{} is used twice", trial.id));
        }
        if !known.is_some_and(|spec| stood_near(&spec.bin, place, trial)) {
            check_trial(document, &at, trial)?;
        }
    }
    Ok(())
}

/// True when a list held the very same trial at a place or beside it: one that leaves or comes back
/// moves the others by one.
fn stood_near(list: &[Arc<Trial>], place: usize, trial: &Arc<Trial>) -> bool {
    let near = [Some(place), place.checked_sub(1), place.checked_add(1)];
    let mut near = near.into_iter().flatten();
    near.any(|place| {
        list.get(place)
            .is_some_and(|known| Arc::ptr_eq(known, trial))
    })
}

pub(super) fn check_trial(document: &Document, at: &FieldPath<'_>, trial: &Trial) -> Checked {
    text(&at.field("name"), &trial.name)?;
    text(&at.field("reason"), &trial.reason)?;
    text(&at.field("verdict"), &trial.verdict)?;
    if let MadeBy::Proposal(words) | MadeBy::Swap(words) | MadeBy::Remedy(words) = &trial.made_by {
        text(&at.field("made_by"), words)?;
    }
    day(&at.field("made_on"), &trial.made_on)?;
    check_runs(&at.field("runs"), &trial.runs, MAX_POURS)?;
    check_photos(&at.field("photos"), &trial.photos)?;
    count(&at.field("frozen"), trial.frozen.len(), MAX_POURS)?;
    for (id, ingredient) in &trial.frozen {
        check_ingredient(&at.field("frozen").key(&id.0), ingredient)?;
    }
    if let Some(own) = &trial.own_dilution {
        number(&at.field("own_dilution.scale"), own.scale)?;
        optional(&at.field("own_dilution.scatter"), own.scatter)?;
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
    check_technique(&at.field("technique"), &trial.technique)
}

/// A day of the calendar, or nothing.
pub(super) fn day(at: &FieldPath<'_>, value: &str) -> Checked {
    if value.is_empty() || is_day(value) {
        return Ok(());
    }
    refuse(at, format!("\"{value}\" is no day such as 2026-05-04"))
}

pub(super) fn unknown_source(source: &Source) -> String {
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

pub(super) fn optional(at: &FieldPath<'_>, value: Option<f64>) -> Checked {
    value.map_or(Ok(()), |value| number(at, value))
}

pub(super) fn number(at: &FieldPath<'_>, value: f64) -> Checked {
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

pub(super) fn text(at: &FieldPath<'_>, value: &str) -> Checked {
    // Bytes are never fewer than characters: most texts need no counting.
    if value.len() > MAX_TEXT && value.chars().count() > MAX_TEXT {
        return refuse(at, format!("is longer than {MAX_TEXT} characters"));
    }
    Ok(())
}

pub(super) fn count(at: &FieldPath<'_>, value: usize, most: usize) -> Checked {
    if value > most {
        return refuse(at, format!("holds {value} entries, at most {most}"));
    }
    Ok(())
}
