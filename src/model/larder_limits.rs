//! What ingredients and lots may say.

use super::document::Document;
use super::field_path::FieldPath;
use super::figure_group::FigureGroup;
use super::ids::{IngredientId, LotId};
use super::ingredient::{Basis, Ingredient, Range};
use super::limits::{
    Checked, FieldError, MAX_INGREDIENTS, count, day, number, optional, refuse, text,
};
use super::lot::{Lot, Measurement, Reading};
use super::preparation_limits::check_preparations;
use std::collections::BTreeMap;

/// Densities that are believed of a row, g/ml: from foam with 19 parts of gas to one of
/// liquid to the densest salts and syrups (our convention).
pub const BELIEVED_DENSITY: core::ops::RangeInclusive<f64> = 0.05..=2.5;

/// Most measurements of one lot.
const MAX_MEASUREMENTS: usize = 200;
/// Most flavour words of one ingredient.
const MAX_NOTES: usize = 200;
/// Lowest pH that is believed of anything poured (our convention, no source): strong acids of the
/// laboratory lie below, no drink does.
pub const LEAST_PH: f64 = 0.5;
/// Highest pH that is believed of anything poured (our convention, no source): lye lies above.
pub const MOST_PH: f64 = 13.0;
/// Why an acid figure cannot be higher; solubilities at 20 °C, from memory.
const SOLUBILITY: &str = "about what dissolves in 100 ml at 20 °C";
/// With less water than this, g per 100 g, it is no solution: saturated citric acid holds 41 g at
/// 20 °C (handbook, from memory).
const LEAST_WATER: f64 = 40.0;
/// Why an acid figure of a weighed thing cannot be higher.
const WEIGHT: &str = "what 100 ml of it weigh";
/// Density of the pure acid (phosphoric: of the 85 % solution) times its purity, from memory:
/// acetic 1.05, lactic 1.21, phosphoric 1.69 g/ml of 85 % make 144, with room for stronger.
const PURE: &str = "the pure acid";
/// Sugar of solid sucrose, 1.587 g/ml (handbook, from memory), g per 100 ml.
const SOLID_SUGAR: f64 = 159.0;

pub(super) fn check_larder(document: &Document) -> Checked {
    let held = &document.ingredients;
    let at = FieldPath::root("ingredients");
    count(&at, held.len(), MAX_INGREDIENTS)?;
    for (id, ingredient) in held.iter() {
        text(&at, &id.0)?;
        check_ingredient(&at.key(&id.0), ingredient)?;
    }
    check_preparations(document)?;
    let at = FieldPath::root("lots");
    count(&at, document.lots.len(), MAX_INGREDIENTS)?;
    let mut rows: BTreeMap<&IngredientId, (&LotId, &Lot)> = BTreeMap::new();
    for (id, lot) in document.lots.iter() {
        let at = at.key(&id.0);
        check_lot(&at, document, lot)?;
        // What is measured of one lot would change the other. Files of format 1 name no parent:
        // there lots may share the row that they are made from.
        if let Some((other, earlier)) = rows.insert(&lot.ingredient, (id, lot))
            && (lot.of.is_some() || earlier.of.is_some())
        {
            let row = &lot.ingredient;
            let reason = format!("\"{row}\" is the row of lot \"{other}\" already");
            return refuse(&at.field("ingredient"), reason);
        }
    }
    Ok(())
}

fn check_lot(at: &FieldPath<'_>, document: &Document, lot: &Lot) -> Checked {
    text(&at.field("label"), &lot.label)?;
    text(&at.field("note"), &lot.note)?;
    let held = &document.ingredients;
    for (name, id) in [
        ("ingredient", Some(&lot.ingredient)),
        ("of", lot.of.as_ref()),
    ] {
        if let Some(id) = id.filter(|id| !held.contains_key(*id)) {
            return refuse(&at.field(name), format!("unknown ingredient \"{id}\""));
        }
    }
    if lot.of.as_ref() == Some(&lot.ingredient) {
        let reason = format!("\"{}\" is the lot's own row", lot.ingredient);
        return refuse(&at.field("of"), reason);
    }
    day(&at.field("made_on"), &lot.made_on)?;
    day(&at.field("best_before"), &lot.best_before)?;
    let made = lot.made_on.as_str();
    let before_made = |day: &str| !day.is_empty() && !made.is_empty() && day < made;
    if before_made(&lot.best_before) {
        let reason = format!("{} lies before it was made, {made}", lot.best_before);
        return refuse(&at.field("best_before"), reason);
    }
    if let Some(weighed) = &lot.weighed_in {
        let at = at.field("weighed_in");
        number(&at.field("batch_ml"), weighed.batch_ml)?;
        if weighed.batch_ml <= 0.0 {
            return refuse(&at.field("batch_ml"), "must be above 0");
        }
        for (name, grams) in weighed.named() {
            number(&at.field(name), grams)?;
        }
    }
    let at = at.field("measurements");
    count(&at, lot.measurements.len(), MAX_MEASUREMENTS)?;
    for (place, measurement) in lot.measurements.iter().enumerate() {
        let at = at.index(place);
        day(&at.field("on"), &measurement.on)?;
        if before_made(&measurement.on) {
            let reason = format!("measured {}, before it was made, {made}", measurement.on);
            return refuse(&at.field("on"), reason);
        }
        check_reading(&at, &measurement.reading)?;
    }
    Ok(())
}

/// Checks that every measurement is what its instrument can show.
pub fn check_measurements(measurements: &[Measurement]) -> Result<(), FieldError> {
    let at = FieldPath::root("measurements");
    count(&at, measurements.len(), MAX_MEASUREMENTS)?;
    for (place, measurement) in measurements.iter().enumerate() {
        let at = at.index(place);
        day(&at.field("on"), &measurement.on)?;
        check_reading(&at, &measurement.reading)?;
    }
    Ok(())
}

/// A reading that an instrument can show.
fn check_reading(at: &FieldPath<'_>, reading: &Reading) -> Checked {
    let fields: &[(&str, f64, f64, f64, &str)] = &match *reading {
        Reading::Brix(brix) => [("°Bx", brix, 0.0, 95.0, ""); 3],
        Reading::RefractiveIndex(n) => [("refractive index", n, 1.3, 1.55, ""); 3],
        Reading::Density { g_per_ml, celsius } => {
            let density = ("density", g_per_ml, 0.7, 1.6, "g/ml");
            [density, density, ("temperature", celsius, 0.0, 40.0, "°C")]
        }
        Reading::Alcoholmeter { pct_vol, celsius } => {
            let strength = ("strength", pct_vol, 0.0, 100.0, "% vol");
            [
                strength,
                strength,
                ("temperature", celsius, 0.0, 40.0, "°C"),
            ]
        }
        Reading::Titration {
            sample_ml,
            titrant_ml,
            normality,
        } => [
            ("sample", sample_ml, 0.01, 1_000.0, "ml"),
            ("titrant", titrant_ml, 0.0, 1_000.0, "ml"),
            ("normality", normality, 0.000_1, 10.0, "mol/L"),
        ],
        Reading::Ph(ph) => [("pH", ph, LEAST_PH, MOST_PH, ""); 3],
        Reading::Yield { in_g, out_g } => [
            ("weight in", in_g, 0.001, 1.0e6, "g"),
            ("weight out", out_g, 0.0, in_g, "g"),
            ("weight out", out_g, 0.0, in_g, "g"),
        ],
    };
    for (name, value, low, high, unit) in fields {
        if !(*low..=*high).contains(value) {
            let reason = format!("{name} {value} is outside {low} to {high} {unit}");
            return refuse(at, reason.trim_end());
        }
    }
    Ok(())
}

pub(super) fn check_ingredient(at: &FieldPath<'_>, item: &Ingredient) -> Checked {
    text(&at.field("name"), &item.name)?;
    text(&at.field("kind"), &item.kind)?;
    text(&at.field("note"), &item.note)?;
    text(&at.field("allergens"), &item.allergens)?;
    check_words(at, item)?;
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
        ("starch_g", item.starch_g),
        ("glycerol_g", item.glycerol_g),
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
        Some(density) if !BELIEVED_DENSITY.contains(&density.g_per_ml) => refuse(
            &at.field("density.g_per_ml"),
            format!(
                "{} is outside {} to {} g/ml",
                density.g_per_ml,
                BELIEVED_DENSITY.start(),
                BELIEVED_DENSITY.end()
            ),
        ),
        _ => Ok(()),
    }
}

/// Flavour words and source keys.
fn check_words(at: &FieldPath<'_>, item: &Ingredient) -> Checked {
    let notes = at.field("notes");
    count(&notes, item.notes.len(), MAX_NOTES)?;
    for (place, note) in item.notes.iter().enumerate() {
        text(&notes.index(place), note)?;
    }
    for group in FigureGroup::ALL {
        text(&at.field(group.field()), item.sources.of(group))?;
    }
    Ok(())
}

/// What cannot be in a liquid: more of an acid than dissolves, more sugar than there is room for.
fn check_ranges(at: &FieldPath<'_>, item: &Ingredient) -> Checked {
    let acids = &item.acids;
    // Blended powders and what is dried hold more acid than dissolves.
    let weighed = item.density.filter(|density| density.measured);
    let is_dry = item.water_g.is_some_and(|water| water < LEAST_WATER);
    let weighed = weighed.filter(|_| item.basis == Basis::Per100G && is_dry);
    let dry_g = weighed.map(|density| 100.0 * density.g_per_ml);
    for (name, range, most, why) in [
        ("strength_pct_vol", item.strength_pct_vol, 100.0, "% vol"),
        ("acids.citric", acids.citric, 80.0, SOLUBILITY),
        ("acids.malic", acids.malic, 60.0, SOLUBILITY),
        ("acids.tartaric", acids.tartaric, 80.0, SOLUBILITY),
        ("acids.acetic", acids.acetic, 105.0, PURE),
        ("acids.lactic", acids.lactic, 121.0, PURE),
        ("acids.phosphoric", acids.phosphoric, 160.0, PURE),
        ("acids.ascorbic", acids.ascorbic, 35.0, SOLUBILITY),
        ("acids.succinic", acids.succinic, 8.0, SOLUBILITY),
        ("ph", item.ph, MOST_PH, "the highest pH that is believed"),
    ] {
        if let Some(range) = range {
            let (most, why) = match dry_g {
                Some(weight) if name.starts_with("acids") && weight > most => (weight, WEIGHT),
                _ => (most, why),
            };
            check_range(&at.field(name), range, most, why)?;
        }
    }
    if let Some(ph) = item.ph.filter(|ph| ph.low < LEAST_PH) {
        let reason = format!("{} is below {LEAST_PH}: no drink is that sour", ph.low);
        return refuse(&at.field("ph.low"), reason);
    }
    let (most, why) = match item.basis {
        Basis::Per100G => (100.0, "per cent by weight"),
        Basis::Per100Ml => (SOLID_SUGAR, "g per 100 ml, solid sugar"),
    };
    item.sugar_g.map_or(Ok(()), |range| {
        check_range(&at.field("sugar_g"), range, most, why)
    })
}

pub(super) fn check_range(at: &FieldPath<'_>, range: Range, most: f64, why: &str) -> Checked {
    for (name, value) in [
        ("low", range.low),
        ("typical", range.typical),
        ("high", range.high),
    ] {
        number(&at.field(name), value)?;
        if value > most {
            return refuse(&at.field(name), format!("{value} is above {most}, {why}"));
        }
    }
    let Range { low, typical, high } = range;
    if low > typical {
        return refuse(at, format!("low {low} is above typical {typical}"));
    }
    if typical > high {
        return refuse(at, format!("typical {typical} is above high {high}"));
    }
    Ok(())
}
