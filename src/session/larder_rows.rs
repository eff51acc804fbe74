//! The larder as the rows of one table: what the document holds, then what the program brings along.

use super::larder_edit::use_counts;
use crate::balance::Pantry;
use crate::model::{Basis, Confidence, Document, Ingredient, IngredientId, batch_rows};
use crate::store::Builtin;
use std::cmp::Ordering;
use std::sync::Arc;

/// Where a row stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LarderPlace {
    /// Written, but not in the document yet.
    Draft,
    /// In the document.
    Document,
    /// Brought along by the program.
    BuiltIn,
}

impl LarderPlace {
    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Draft => "draft",
            Self::Document => "in this document",
            Self::BuiltIn => "built in",
        }
    }
}

/// A column of the table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LarderColumn {
    /// Display name.
    #[default]
    Name,
    /// Group in the larder.
    Kind,
    /// In the document or built in.
    Place,
    /// % vol.
    Strength,
    /// g per 100 ml of liquid.
    Sugar,
    /// All acids, g per 100 ml.
    Acid,
    /// pH at 25 °C.
    Ph,
    /// g/ml at 20 °C, measured or worked out.
    Density,
    /// Price of a litre or a kilogram, as it is sold.
    Price,
    /// Allergens of EU 1169/2011 Annex II.
    Allergens,
    /// Trust in the row.
    Confidence,
    /// How many trials, preparations and lots lean on it.
    Uses,
}

impl LarderColumn {
    /// Every column, from the left.
    pub const ALL: [Self; 12] = [
        Self::Name,
        Self::Kind,
        Self::Place,
        Self::Strength,
        Self::Sugar,
        Self::Acid,
        Self::Ph,
        Self::Density,
        Self::Price,
        Self::Allergens,
        Self::Confidence,
        Self::Uses,
    ];
}

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct LarderRow {
    /// Its name in the document or in the built-in larder.
    pub id: IngredientId,
    /// Its figures.
    pub item: Arc<Ingredient>,
    /// Where it stands.
    pub place: LarderPlace,
    /// g/ml at 20 °C, measured or worked out; `None` when its figures do not belong together.
    pub density_g_per_ml: Option<f64>,
    /// How many trials, preparations and lots lean on it.
    pub uses: usize,
    /// What the search looks through, in lower case.
    words: String,
}

impl LarderRow {
    /// A row of the table.
    pub fn new(
        id: IngredientId,
        item: Arc<Ingredient>,
        place: LarderPlace,
        uses: usize,
        pantry: &mut Pantry,
    ) -> Self {
        let contents = pantry.contents(&item).ok();
        let words = [&item.name, &item.kind, &item.note, &item.allergens];
        let mut words: Vec<String> = words.iter().map(|text| text.to_lowercase()).collect();
        words.extend(item.notes.iter().map(|note| note.to_lowercase()));
        Self {
            id,
            place,
            density_g_per_ml: contents.map(|contents| contents.density_g_per_ml),
            uses,
            words: words.join("\n"),
            item,
        }
    }

    /// The figure in a column of figures; `None` when it is not known or the column holds words.
    pub fn figure(&self, column: LarderColumn) -> Option<f64> {
        let item = &self.item;
        match column {
            LarderColumn::Strength => item.strength_pct_vol.map(|range| range.typical),
            LarderColumn::Sugar => {
                let sugar = item.sugar_g?.typical;
                Some(match item.basis {
                    Basis::Per100Ml => sugar,
                    Basis::Per100G => sugar * self.density_g_per_ml?,
                })
            }
            LarderColumn::Acid => item.acids.typical_g(),
            LarderColumn::Ph => item.ph.map(|range| range.typical),
            LarderColumn::Density => self.density_g_per_ml,
            LarderColumn::Price => {
                let price = item.price.as_ref().filter(|price| price.pack_size > 0.0)?;
                Some(price.pack_price / price.pack_size * 1000.0)
            }
            LarderColumn::Uses => Some(self.uses as f64),
            _ => None,
        }
    }

    /// The words in a column of words; empty in a column of figures.
    pub fn words(&self, column: LarderColumn) -> String {
        match column {
            LarderColumn::Name => self.item.name.clone(),
            LarderColumn::Kind => self.item.kind.clone(),
            LarderColumn::Place => self.place.name().to_owned(),
            // Nothing said is not nothing in it.
            LarderColumn::Allergens if self.item.allergens.trim().is_empty() => "?".to_owned(),
            LarderColumn::Allergens => self.item.allergen_terms().collect::<Vec<_>>().join("; "),
            LarderColumn::Confidence => self.item.confidence.name().to_owned(),
            _ => String::new(),
        }
    }
}

/// Everything to choose from: the document's rows, then built-in ones that it holds no copy of.
/// The own rows of lots are left out; they stand under the ingredient they are a batch of.
pub fn larder_rows(document: &Document, builtin: &Builtin, pantry: &mut Pantry) -> Vec<LarderRow> {
    let uses = use_counts(document);
    let batches = batch_rows(document);
    let own = document
        .ingredients
        .iter()
        .filter(|(id, _)| !batches.contains(id))
        .map(|row| (row, LarderPlace::Document));
    let brought = builtin
        .larder
        .iter()
        .filter(|(id, _)| !document.ingredients.contains_key(*id))
        .map(|row| (row, LarderPlace::BuiltIn));
    own.chain(brought)
        .map(|((id, item), place)| {
            let uses = uses.get(id).copied().unwrap_or(0);
            LarderRow::new(id.clone(), Arc::clone(item), place, uses, pantry)
        })
        .collect()
}

/// What the table shows, and in which order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LarderQuery {
    /// Letters of a name, kind, note, flavour or allergen.
    pub search: String,
    /// Column to sort by.
    pub sort: LarderColumn,
    /// Largest or last first.
    pub descending: bool,
    /// Retired rows as well.
    pub retired: bool,
    /// Only rows that stand there.
    pub place: Option<LarderPlace>,
}

/// Places of the rows that fit, in order; rows without a value come last either way.
pub fn arranged(rows: &[LarderRow], query: &LarderQuery) -> Vec<usize> {
    let search = query.search.trim().to_lowercase();
    let fits = |row: &LarderRow| {
        (query.retired || !row.item.retired)
            && query.place.is_none_or(|place| place == row.place)
            && row.words.contains(&search)
    };
    let mut found: Vec<(SortKey, String, usize)> = rows
        .iter()
        .enumerate()
        .filter(|(_, row)| fits(row))
        .map(|(place, row)| {
            let name = row.item.name.to_lowercase();
            (sort_key(row, query.sort), name, place)
        })
        .collect();
    found.sort_by(|(a, a_name, _), (b, b_name, _)| {
        compare(a, b, query.descending).then_with(|| a_name.cmp(b_name))
    });
    found.into_iter().map(|(_, _, place)| place).collect()
}

enum SortKey {
    Figure(f64),
    Words(String),
    Blank,
}

fn sort_key(row: &LarderRow, column: LarderColumn) -> SortKey {
    if column == LarderColumn::Confidence {
        return SortKey::Figure(match row.item.confidence {
            Confidence::Low => 0.0,
            Confidence::Medium => 1.0,
            Confidence::High => 2.0,
        });
    }
    if let Some(figure) = row.figure(column) {
        return SortKey::Figure(figure);
    }
    match row.words(column).to_lowercase() {
        words if words.is_empty() => SortKey::Blank,
        words => SortKey::Words(words),
    }
}

fn compare(a: &SortKey, b: &SortKey, descending: bool) -> Ordering {
    let order = match (a, b) {
        (SortKey::Figure(a), SortKey::Figure(b)) => a.total_cmp(b),
        (SortKey::Words(a), SortKey::Words(b)) => a.cmp(b),
        (SortKey::Blank, SortKey::Blank) => return Ordering::Equal,
        (SortKey::Blank, _) => return Ordering::Greater,
        (_, SortKey::Blank) => return Ordering::Less,
        (SortKey::Figure(_), SortKey::Words(_)) => Ordering::Less,
        (SortKey::Words(_), SortKey::Figure(_)) => Ordering::Greater,
    };
    if descending { order.reverse() } else { order }
}
