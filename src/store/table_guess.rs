//! Guesses what the columns of a table mean from the words of its header.

use super::table_columns::{Column, End, PlainFigure};
use super::table_read::Sheet;
use crate::model::{Figure, FigureGroup};
use std::collections::BTreeSet;

/// Words of other units: a guess would be wrong by their ratio, so none is made.
const OTHER_UNITS: &[&str] = &["l", "litre", "liter", "kg", "proof", "oz", "mg"];

/// Words of a header and what they mean, the telling ones first.
const WORDS: &[(&[&str], Column)] = &[
    (&["allergen", "allergens", "allergy"], Column::Allergens),
    (&["confidence", "trust"], Column::Confidence),
    (&["retired", "delisted", "inactive"], Column::Retired),
    (&["place", "storage", "kept", "stored"], Column::Place),
    (&["brix", "bx"], Column::Brix),
    (
        &["sucrose", "saccharose"],
        Column::Plain(PlainFigure::Sucrose),
    ),
    (
        &["glucose", "dextrose"],
        Column::Plain(PlainFigure::Glucose),
    ),
    (&["fructose"], Column::Plain(PlainFigure::Fructose)),
    (&["lactose"], Column::Plain(PlainFigure::Lactose)),
    (&["maltose"], Column::Plain(PlainFigure::Maltose)),
    (&["fat"], Column::Plain(PlainFigure::Fat)),
    (&["protein"], Column::Plain(PlainFigure::Protein)),
    (&["salt"], Column::Plain(PlainFigure::Salt)),
    (
        &["gum", "gums", "thickener"],
        Column::Plain(PlainFigure::Gum),
    ),
    (
        &["starch", "fibre", "fiber"],
        Column::Plain(PlainFigure::Starch),
    ),
    (
        &["glycerol", "glycerine", "glycerin"],
        Column::Plain(PlainFigure::Glycerol),
    ),
    (&["water"], Column::Plain(PlainFigure::Water)),
    (&["density"], Column::Plain(PlainFigure::Density)),
    (&["co2", "co₂"], Column::Plain(PlainFigure::Co2)),
    (
        &["bitter", "bitterness"],
        Column::Plain(PlainFigure::Bitter),
    ),
    (&["price", "cost"], Column::Plain(PlainFigure::PackPrice)),
    (&["piece"], Column::Plain(PlainFigure::Piece)),
    (
        &[
            "flavour", "flavours", "flavor", "flavors", "aroma", "aromas",
        ],
        Column::Notes,
    ),
    (
        &["remark", "remarks", "note", "notes", "comment", "comments"],
        Column::Note,
    ),
    (&["role", "job"], Column::Role),
    (&["basis"], Column::Basis),
    (&["kind", "type", "category", "group"], Column::Kind),
    (
        &["name", "ingredient", "product", "item", "description"],
        Column::Name,
    ),
];

/// Words of figures that have a range.
const RANGED: &[(&[&str], Figure)] = &[
    (&["abv", "alcohol", "alc", "strength"], Figure::Strength),
    (&["citric"], Figure::Citric),
    (&["malic"], Figure::Malic),
    (&["tartaric"], Figure::Tartaric),
    (&["acetic"], Figure::Acetic),
    (&["lactic"], Figure::Lactic),
    (&["phosphoric"], Figure::Phosphoric),
    (&["ascorbic"], Figure::Ascorbic),
    (&["succinic"], Figure::Succinic),
    (&["ph"], Figure::Ph),
    (&["sugar", "sugars"], Figure::Sugar),
];

/// Words of groups of figures that have a source.
const SOURCED: &[(&[&str], FigureGroup)] = &[
    (&["strength", "abv", "alcohol"], FigureGroup::Strength),
    (&["sugar", "sugars"], FigureGroup::Sugar),
    (&["acid", "acids"], FigureGroup::Acid),
    (&["ph"], FigureGroup::Ph),
    (&["density"], FigureGroup::Density),
    (&["other", "rest"], FigureGroup::Other),
];

/// What each column of a table seems to mean; `None` where its words say nothing.
///
/// Headers written by this program are always understood. No meaning is given twice: the first
/// column keeps it, one with our own header before all others.
pub fn guess(sheet: &Sheet) -> Vec<Option<Column>> {
    let own: Vec<(String, Column)> = Column::all()
        .into_iter()
        .map(|column| (column.header().to_lowercase(), column))
        .collect();
    let mut taken = BTreeSet::new();
    let mut guesses: Vec<Option<Column>> = sheet
        .columns
        .iter()
        .map(|header| {
            let header = header.trim().to_lowercase();
            let (_, column) = own.iter().find(|(known, _)| *known == header)?;
            taken.insert(*column).then_some(*column)
        })
        .collect();
    for (guess, header) in guesses.iter_mut().zip(&sheet.columns) {
        if guess.is_none() {
            *guess = by_words(header).filter(|column| taken.insert(*column));
        }
    }
    guesses
}

/// What the words of a header mean.
fn by_words(header: &str) -> Option<Column> {
    let header = header.to_lowercase();
    let words: Vec<&str> = header
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let says = |any: &[&str]| words.iter().any(|word| any.contains(word));
    if says(&["src", "source", "sources"]) {
        let found = SOURCED.iter().find(|(any, _)| says(any));
        return found.map(|(_, group)| Column::Source(*group));
    }
    if says(&["co2", "co₂"]) {
        return Some(Column::Plain(PlainFigure::Co2));
    }
    if says(OTHER_UNITS) {
        return None;
    }
    if says(&["acid"]) && says(&["basis"]) {
        return Some(Column::AcidBasis);
    }
    if says(&["pack", "bottle", "unit"]) && says(&["size", "volume", "content"]) {
        return Some(Column::Plain(PlainFigure::PackSize));
    }
    if let Some((_, figure)) = RANGED.iter().find(|(any, _)| says(any)) {
        return Some(Column::Range(*figure, end(&words)));
    }
    if header.contains('%') && says(&["vol"]) {
        return Some(Column::Range(Figure::Strength, end(&words)));
    }
    let found = WORDS.iter().find(|(any, _)| says(any));
    found.map(|(_, column)| *column)
}

fn end(words: &[&str]) -> End {
    let says = |any: &[&str]| words.iter().any(|word| any.contains(word));
    if says(&["low", "lowest", "min", "minimum"]) {
        End::Low
    } else if says(&["high", "highest", "max", "maximum"]) {
        End::High
    } else {
        End::Typical
    }
}
