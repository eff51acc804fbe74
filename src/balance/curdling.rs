//! Which pours of a drink may curdle, and the pour order that is gentlest to them.

use super::drink::Drink;
use crate::kitchen::{Band, band_of, gentlest_order};
use crate::model::Added;

/// A pour whose protein meets more acid than it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Curdling {
    /// Place in the trial's list of pours.
    pub index: usize,
    /// Name to show.
    pub name: String,
    /// Where it curdles.
    pub band: Band,
    /// Places of the chilled pours in the order that keeps the pH up longest.
    pub order: Vec<usize>,
}

/// Pours that the drink's pH, an order of magnitude only, lies in or below the band of.
pub(super) fn curdling(drink: &Drink, ph: Option<f64>) -> Vec<Curdling> {
    let Some(ph) = ph else {
        return Vec::new();
    };
    let meets = |line: &&super::drink::Line| line.amount > 0.0;
    let found: Vec<(usize, String, Band)> = drink
        .lines
        .iter()
        .filter(meets)
        .filter_map(|line| Some((line, band_of(&line.ingredient)?)))
        .filter(|(_, band)| ph <= band.high)
        .map(|(line, band)| (line.index, line.name().to_owned(), band))
        .collect();
    if found.is_empty() {
        return Vec::new();
    }
    let parts: Vec<_> = drink
        .lines
        .iter()
        .filter(meets)
        .filter(|line| line.added == Added::With)
        .map(|line| (line.index, line.contents.per_gram.scaled(line.grams())))
        .collect();
    let order = gentlest_order(&parts);
    found
        .into_iter()
        .map(|(index, name, band)| Curdling {
            index,
            name,
            band,
            order: order.clone(),
        })
        .collect()
}
