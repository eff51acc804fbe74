//! Why a row of the larder cannot be kept, with the field named as it stands on screen.

use crate::session::EditError;

/// Paths in a document and the words beside their fields.
const FIELDS: [(&str, &str); 33] = [
    ("name", "Name"),
    ("kind", "Kind"),
    ("note", "Note"),
    ("allergens", "Allergens"),
    ("strength_pct_vol", "Strength"),
    ("sugar_g", "Sugar"),
    ("acids.citric", "Citric acid"),
    ("acids.malic", "Malic acid"),
    ("acids.tartaric", "Tartaric acid"),
    ("acids.acetic", "Acetic acid"),
    ("acids.lactic", "Lactic acid"),
    ("acids.phosphoric", "Phosphoric acid"),
    ("acids.ascorbic", "Ascorbic acid"),
    ("acids.succinic", "Succinic acid"),
    ("ph", "pH"),
    ("split.sucrose_g", "Sucrose"),
    ("split.glucose_g", "Glucose"),
    ("split.fructose_g", "Fructose"),
    ("split.lactose_g", "Lactose"),
    ("split.maltose_g", "Maltose"),
    ("fat_g", "Fat"),
    ("protein_g", "Protein"),
    ("salt_g", "Salt"),
    ("gum_g", "Gum"),
    ("starch_g", "Starch and fibre"),
    ("glycerol_g", "Glycerol"),
    ("water_g", "Water"),
    ("piece_g", "One piece"),
    ("co2_g_per_l", "CO₂"),
    ("bitter_per_ml", "Bitterness"),
    ("density.g_per_ml", "Density"),
    ("price.pack_price", "Price"),
    ("price.pack_size", "Size of the pack"),
];

/// The reason in words; a path such as `ingredients["x"].sugar_g.low` becomes "Sugar, low".
pub(super) fn refusal(error: &EditError) -> String {
    let EditError::Field(field) = error else {
        return format!("Not kept: {error}.");
    };
    let path = field
        .field
        .rsplit_once("\"].")
        .map_or(&*field.field, |(_, path)| path);
    let known = FIELDS.iter().find_map(|(known, words)| {
        let rest = path.strip_prefix(known)?;
        let end = rest.strip_prefix('.');
        (rest.is_empty() || end.is_some()).then(|| match end {
            Some(end) => format!("{words}, {end}"),
            None => (*words).to_owned(),
        })
    });
    let name = known.unwrap_or_else(|| path.to_owned());
    format!("Not kept. {name}: {}.", field.reason)
}
