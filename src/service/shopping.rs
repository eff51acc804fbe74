//! What has to be bought for a batch.

use super::batch::Batch;
use super::needs::NeededRow;
use crate::kitchen::{ONLY_WATER, contents};
use crate::model::{Document, Ingredient, IngredientId, Price, ServicePlan};
use crate::physics::Component;

/// A pack that is short of less than this share of itself is enough (rounding).
const SAME: f64 = 1.0e-9;

/// Packs of one thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Packs {
    /// How many.
    pub count: u32,
    /// Size of one, ml or g.
    pub size: f64,
    /// The size is a weight.
    pub by_mass: bool,
    /// What is left of them, ml or g as the size is.
    pub left_over: f64,
    /// What they cost, in the document's currency.
    pub cost: f64,
}

/// One thing to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingLine {
    /// The row.
    pub row: IngredientId,
    /// Its name.
    pub name: String,
    /// What is taken, g.
    pub grams: f64,
    /// What is taken, ml at 20 °C; `None` where its contents are not known.
    pub ml: Option<f64>,
    /// Pieces of it, where the row says what one weighs.
    pub pieces: Option<f64>,
    /// What of it is in the house, g, at most what is taken.
    pub at_hand_g: f64,
    /// What has to be bought, g.
    pub to_buy_g: f64,
    /// What has to be bought, ml at 20 °C.
    pub to_buy_ml: Option<f64>,
    /// Packs to buy; `None` without a price, for water without one, and where nothing has to be bought.
    pub packs: Option<Packs>,
    /// It is water: nobody buys it unless it has a price.
    pub is_water: bool,
    /// It is made in the house without a recipe that could be worked out.
    pub by_hand: bool,
    /// For what, each once.
    pub used_for: Vec<String>,
}

/// What has to be bought for a batch.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// Everything that is taken, by name.
    pub lines: Vec<ShoppingLine>,
    /// What the packs cost, in the document's currency, as far as it is known.
    pub cost: f64,
    /// Names of what has to be bought and has no price: nobody knows its packs.
    pub unpriced: Vec<String>,
    /// Water from the tap for the bottles, g; in no line.
    pub bottle_water_g: f64,
}

/// Lists what has to be bought for a batch, through all preparations, less what is at hand.
pub fn shopping(document: &Document, batch: &Batch, plan: &ServicePlan) -> Shopping {
    let bought = batch.needs.bought.iter().map(|line| (line, false));
    let by_hand = batch.needs.by_hand.iter().map(|line| (line, true));
    let mut list = Shopping {
        bottle_water_g: batch.bottled.map_or(0.0, |bottled| bottled.water_g),
        ..Shopping::default()
    };
    for ((row, needed), by_hand) in bought.chain(by_hand) {
        let Some(item) = document.ingredients.get(row) else {
            continue;
        };
        let mut line = line(item, row, needed, plan);
        line.by_hand = by_hand;
        list.cost += line.packs.map_or(0.0, |packs| packs.cost);
        let is_unknown = line.packs.is_none() && line.to_buy_g > 0.0 && !line.is_water;
        if is_unknown {
            list.unpriced.push(line.name.clone());
        }
        list.lines.push(line);
    }
    list.lines.sort_by(|a, b| {
        a.name
            .to_lowercase()
            .cmp(&b.name.to_lowercase())
            .then(a.row.cmp(&b.row))
    });
    list.unpriced.sort();
    list
}

fn line(
    item: &Ingredient,
    row: &IngredientId,
    needed: &NeededRow,
    plan: &ServicePlan,
) -> ShoppingLine {
    let held = contents(item).ok();
    let density = held.as_ref().map(|held| held.density_g_per_ml);
    let is_water = held.is_some_and(|held| 1.0 - held.per_gram[Component::Water] < ONLY_WATER);
    let at_hand = plan.at_hand_g.get(row).copied().unwrap_or(0.0);
    let at_hand_g = at_hand.min(needed.grams);
    let to_buy_g = needed.grams - at_hand_g;
    let price = item.price.as_ref().filter(|price| price.pack_size > 0.0);
    let piece_g = item.piece_g.filter(|grams| *grams > 0.0);
    ShoppingLine {
        row: row.clone(),
        name: item.name.clone(),
        grams: needed.grams,
        ml: density.map(|density| needed.grams / density),
        pieces: piece_g.map(|grams| needed.grams / grams),
        at_hand_g,
        to_buy_g,
        to_buy_ml: density.map(|density| to_buy_g / density),
        packs: price.and_then(|price| packs(price, to_buy_g, density)),
        is_water,
        by_hand: false,
        used_for: needed.used_for.clone(),
    }
}

fn packs(price: &Price, grams: f64, density: Option<f64>) -> Option<Packs> {
    let wanted = if price.pack_is_mass {
        grams
    } else {
        grams / density?
    };
    let count = (wanted / price.pack_size - SAME).ceil();
    (wanted > 0.0 && count >= 1.0).then(|| Packs {
        count: count as u32,
        size: price.pack_size,
        by_mass: price.pack_is_mass,
        left_over: (count * price.pack_size - wanted).max(0.0),
        cost: count * price.pack_price,
    })
}
