//! Rows of house-made outputs that were worked out by other figures than today's.
//!
//! A file written by hand, or before the arithmetic of the kitchen changed, keeps the rows it came
//! with: a drink must not move because it was opened. What differs is said, and brought up to date
//! when asked for.

use super::edit::Edit;
use super::house_edit::HouseEdit;
use super::notices::{Action, Notice, Severity, notice};
use crate::kitchen::{made, making_order};
use crate::model::{
    Density, Document, Figure, Ingredient, IngredientId, Lot, LotId, Preparation, PreparationId,
    Range,
};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Figures that differ by no more than this share of themselves are the same.
const ALIKE: f64 = 1.0e-6;
/// Less than this is nothing, in any unit.
const NOTHING: f64 = 1.0e-12;
/// Most rows that are named before the rest is counted.
const NAMED: usize = 4;

/// A row of the document as it would be.
type Row = (IngredientId, Arc<Ingredient>);

/// What the rows were compared with, kept while it stays as it is.
#[derive(Clone, Debug)]
struct Seen {
    preparations: Arc<BTreeMap<PreparationId, Arc<Preparation>>>,
    ingredients: Arc<BTreeMap<IngredientId, Arc<Ingredient>>>,
    lots: Arc<BTreeMap<LotId, Lot>>,
}

/// One preparation, everything that it was worked out from, and its rows that differ.
#[derive(Clone, Debug)]
struct Compared {
    recipe: Arc<Preparation>,
    drawn: Vec<(IngredientId, Option<Arc<Ingredient>>)>,
    differ: Vec<Row>,
}

/// Rows that differ from what working them out gives; only what changed is worked out again.
#[derive(Clone, Debug, Default)]
pub(super) struct Outdated {
    seen: Option<Seen>,
    compared: BTreeMap<PreparationId, Compared>,
    rows: Vec<Row>,
    notice: Option<Notice>,
}

impl Outdated {
    /// Compares every row of the document with what working it out gives today.
    pub(super) fn refresh(&mut self, document: &Document) {
        let same = self.seen.as_ref().is_some_and(|seen| {
            Arc::ptr_eq(&seen.preparations, &document.preparations)
                && Arc::ptr_eq(&seen.ingredients, &document.ingredients)
                && Arc::ptr_eq(&seen.lots, &document.lots)
        });
        if same {
            return;
        }
        self.rows = self.compare(document);
        self.notice = said(&self.rows);
        self.seen = Some(Seen {
            preparations: Arc::clone(&document.preparations),
            ingredients: Arc::clone(&document.ingredients),
            lots: Arc::clone(&document.lots),
        });
    }

    /// What is said of them; `None` when all are as they should be.
    pub(super) const fn notice(&self) -> Option<&Notice> {
        self.notice.as_ref()
    }

    /// In the order of making, each by rows that are as they should be already.
    fn compare(&mut self, document: &Document) -> Vec<Row> {
        let mut was = std::mem::take(&mut self.compared);
        let mut next = document.clone();
        let mut all = Vec::new();
        for id in making_order(document).unwrap_or_default() {
            let Some(recipe) = document.preparations.get(&id) else {
                continue;
            };
            if !recipe.is_worked_out() {
                continue;
            }
            let drawn = drawn(&next, recipe);
            let known = was
                .remove(&id)
                .filter(|known| known.recipe == *recipe && same_rows(&known.drawn, &drawn));
            let known = known.unwrap_or_else(|| Compared {
                recipe: Arc::clone(recipe),
                differ: differing(&next, &id, recipe),
                drawn,
            });
            for (row, item) in &known.differ {
                Arc::make_mut(&mut next.ingredients).insert(row.clone(), Arc::clone(item));
            }
            all.extend_from_slice(&known.differ);
            self.compared.insert(id, known);
        }
        all
    }
}

/// Rows of house-made outputs that differ from what working them out gives today, each as it would
/// be, in the order of making; rows of preparations that cannot be worked out are left out.
pub fn outdated_rows(document: &Document) -> Vec<(IngredientId, Arc<Ingredient>)> {
    Outdated::default().compare(document)
}

/// Every row that a preparation reads or describes.
fn drawn(
    document: &Document,
    recipe: &Preparation,
) -> Vec<(IngredientId, Option<Arc<Ingredient>>)> {
    let inputs = recipe.inputs.iter();
    let inputs = inputs.filter_map(|input| document.row_of(&input.source));
    let rows = inputs.chain(recipe.likes()).chain(recipe.outputs.values());
    rows.map(|row| (row.clone(), document.ingredients.get(row).cloned()))
        .collect()
}

fn same_rows(
    one: &[(IngredientId, Option<Arc<Ingredient>>)],
    other: &[(IngredientId, Option<Arc<Ingredient>>)],
) -> bool {
    let alike = |a: &Option<Arc<Ingredient>>, b: &Option<Arc<Ingredient>>| match (a, b) {
        (Some(a), Some(b)) => Arc::ptr_eq(a, b) || a == b,
        (None, None) => true,
        _ => false,
    };
    one.len() == other.len()
        && one
            .iter()
            .zip(other)
            .all(|((a, x), (b, y))| a == b && alike(x, y))
}

fn differing(document: &Document, id: &PreparationId, recipe: &Preparation) -> Vec<Row> {
    let Ok(found) = made(document, id) else {
        return Vec::new();
    };
    let rows = found.rows.into_iter();
    rows.filter_map(|(output, item)| {
        let row = recipe.outputs.get(&output)?;
        let held = document.ingredients.get(row)?;
        let same = same_figures(held, &item) && same_price(held, &item);
        (!same).then(|| (row.clone(), Arc::new(item)))
    })
    .collect()
}

/// Equal in everything that a drink is worked out from, and in allergens.
pub(super) fn same_figures(one: &Ingredient, other: &Ingredient) -> bool {
    let typical = |range: Option<Range>| range.map(|range| range.typical);
    let ends = |range: Option<Range>| range.map(|range| [range.low, range.high]);
    let ranges = Figure::ALL.into_iter().all(|figure| {
        let (a, b) = (figure.of(one), figure.of(other));
        let ([a_low, a_high], [b_low, b_high]) = (both(ends(a)), both(ends(b)));
        alike(typical(a), typical(b)) && alike(a_low, b_low) && alike(a_high, b_high)
    });
    let singles = singles(one)
        .into_iter()
        .zip(singles(other))
        .all(|(a, b)| alike(a, b));
    let measured = |item: &Ingredient| item.density.is_some_and(|density| density.measured);
    ranges
        && singles
        && measured(one) == measured(other)
        && (one.basis, one.acid_basis, one.pure_acid)
            == (other.basis, other.acid_basis, other.pure_acid)
        && one.allergens == other.allergens
}

fn both(ends: Option<[f64; 2]>) -> [Option<f64>; 2] {
    ends.map_or([None, None], |ends| ends.map(Some))
}

/// Figures without a range.
fn singles(item: &Ingredient) -> [Option<f64>; 15] {
    let split = &item.split;
    [
        split.sucrose_g,
        split.glucose_g,
        split.fructose_g,
        split.lactose_g,
        split.maltose_g,
        item.fat_g,
        item.protein_g,
        item.salt_g,
        item.gum_g,
        item.starch_g,
        item.glycerol_g,
        item.water_g,
        item.co2_g_per_l,
        item.bitter_per_ml,
        item.density.map(|Density { g_per_ml, .. }| g_per_ml),
    ]
}

/// Equal in what a gram costs.
pub(super) fn same_price(one: &Ingredient, other: &Ingredient) -> bool {
    let price = |item: &Ingredient| item.price_per_g(1.0);
    let by_mass = |item: &Ingredient| item.price.as_ref().map(|price| price.pack_is_mass);
    alike(price(one), price(other)) && by_mass(one) == by_mass(other)
}

fn alike(one: Option<f64>, other: Option<f64>) -> bool {
    match (one, other) {
        (Some(a), Some(b)) => (a - b).abs() <= ALIKE * a.abs().max(b.abs()) + NOTHING,
        (None, None) => true,
        _ => false,
    }
}

fn said(rows: &[Row]) -> Option<Notice> {
    let rows_were = match rows.len() {
        0 => return None,
        1 => "1 house-made row was".to_owned(),
        many => format!("{many} house-made rows were"),
    };
    let mut names: Vec<String> = rows.iter().map(|(_, item)| item.name.clone()).collect();
    let more = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    let mut found = notice(
        Severity::Caution,
        format!("{rows_were} worked out by other figures than today's"),
        format!(
            "{}: drinks are poured with the figures of the file until the rows are brought up to date.",
            names.join(", ")
        ),
    );
    found.action = Some(Action::Edit(
        "Bring rows up to date".to_owned(),
        Box::new(Edit::House(HouseEdit::BringUpToDate)),
    ));
    Some(found)
}
