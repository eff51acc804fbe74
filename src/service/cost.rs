//! What a drink costs to pour, and what it would have to be sold for.

use super::batch::{Batch, BatchLine};
use crate::kitchen::{ONLY_WATER, contents};
use crate::model::{Document, Entry, Source};
use crate::physics::Component;

/// What a drink costs, in the document's currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DrinkCost {
    /// What one drink that is served costs, spares included, as far as prices are known.
    pub per_serve: f64,
    /// The same without spares.
    pub without_spare: f64,
    /// Ingredients of which the price is known; water is.
    pub known: usize,
    /// All ingredients.
    pub of: usize,
    /// Ingredients without a price.
    pub unpriced: Vec<String>,
    /// Price on the menu without tax.
    pub net_price: Option<f64>,
    /// Cost of what is poured, % of the net price.
    pub pour_cost_pct: Option<f64>,
    tax_pct: f64,
}

impl DrinkCost {
    /// Whether anything is known of the cost: water alone, which costs nothing, says nothing of it.
    pub fn is_known(&self) -> bool {
        self.per_serve > 0.0 || self.unpriced.is_empty()
    }

    /// Of how many ingredients the price is known: "7 of 9 ingredients have prices".
    pub fn known_words(&self) -> String {
        let verb = match (self.known, self.of) {
            (1, _) => "has a price",
            _ => "have prices",
        };
        let noun = if self.of == 1 {
            "ingredient"
        } else {
            "ingredients"
        };
        if self.known == self.of && self.of > 1 {
            format!("all {} {noun} {verb}", self.of)
        } else {
            format!("{} of {} {noun} {verb}", self.known, self.of)
        }
    }

    /// Price on the menu, tax included, at which the pour cost is so many % of the net price; at least
    /// that while prices are missing. `None` for 0 % and below.
    pub fn price_for(&self, pour_cost_pct: f64) -> Option<f64> {
        let net = 100.0 * self.per_serve / pour_cost_pct;
        (pour_cost_pct > 0.0).then(|| net * (1.0 + self.tax_pct / 100.0))
    }
}

/// Works out what one drink of a batch costs, and what share of its price on the menu that is.
///
/// House-made ingredients cost what their row says: all that goes in, on the main output. Ice, garnish
/// without a price, gas and work are not in it.
pub fn drink_cost(document: &Document, batch: &Batch, entry: &Entry) -> DrinkCost {
    let mut cost = DrinkCost {
        tax_pct: entry.tax_pct,
        ..DrinkCost::default()
    };
    let mut whole = 0.0;
    for line in &batch.lines {
        cost.of += 1;
        match price_of(document, line) {
            Some(price) => {
                whole += price;
                cost.known += 1;
            }
            None => cost.unpriced.push(line.name.clone()),
        }
    }
    cost.per_serve = whole / f64::from(batch.serves.max(1));
    cost.without_spare = whole / batch.made;
    cost.net_price = entry
        .price
        .map(|price| price / (1.0 + entry.tax_pct / 100.0));
    let sold = cost.net_price.filter(|price| *price > 0.0);
    cost.pour_cost_pct = sold.map(|price| 100.0 * cost.per_serve / price);
    cost
}

/// Price of a whole line; a batch of something costs what that costs unless its own row says.
fn price_of(document: &Document, line: &BatchLine) -> Option<f64> {
    let grams = line.grams?;
    let of_lot = match &line.source {
        Source::Lot(id) => document.lots.get(id).and_then(|lot| lot.of.as_ref()),
        _ => None,
    };
    let rows = [Some(&line.row), of_lot].into_iter().flatten();
    let mut rows = rows.filter_map(|row| document.ingredients.get(row));
    rows.find_map(|item| {
        let held = contents(item).ok()?;
        let is_water = 1.0 - held.per_gram[Component::Water] < ONLY_WATER;
        let free = is_water.then_some(0.0);
        item.price_per_g(held.density_g_per_ml).or(free)
    })
    .map(|per_g| per_g * grams)
}
