//! What countries call a standard drink.

/// The table, with sources.
const TABLE: &str = include_str!("../../sample_data/standard_drinks.csv");

/// What a country calls a standard drink.
#[derive(Clone, Debug, PartialEq)]
pub struct StandardDrink {
    /// Country, or the body whose questionnaire counts in it.
    pub country: String,
    /// Ethanol, g; the lower figure where sources disagree.
    pub low_g: f64,
    /// Ethanol, g; the higher figure.
    pub high_g: f64,
    /// Source keys.
    pub source: String,
    /// What sources disagree about.
    pub note: String,
}

/// Every standard drink that is known, in the order of the table.
pub fn standard_drinks() -> Vec<StandardDrink> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(TABLE.as_bytes());
    reader
        .records()
        .filter_map(|record| {
            let record = record.ok()?;
            Some(StandardDrink {
                country: record.get(0)?.to_owned(),
                low_g: record.get(1)?.parse().ok()?,
                high_g: record.get(2)?.parse().ok()?,
                source: record.get(3)?.to_owned(),
                note: record.get(4)?.to_owned(),
            })
        })
        .collect()
}

/// The standard drink of a country, whatever the case of its name.
pub fn standard_drink(country: &str) -> Option<StandardDrink> {
    let wanted = country.trim().to_lowercase();
    standard_drinks()
        .into_iter()
        .find(|known| known.country.to_lowercase() == wanted)
}
