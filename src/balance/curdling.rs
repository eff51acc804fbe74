//! Which pours of a drink may curdle, and the pour order that is gentlest to them.

use super::drink::{Drink, Line};
use crate::kitchen::{Band, gentlest_order};
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
}

/// Pours whose band the drink's pH lies in or below; beside protein that pH is an order of magnitude
/// only.
pub(super) fn curdling(drink: &Drink, ph: Option<f64>) -> Vec<Curdling> {
    let Some(ph) = ph else {
        return Vec::new();
    };
    poured(drink)
        .filter_map(|line| Some((line, line.contents.nature.band?)))
        .filter(|(_, band)| ph <= band.high)
        .map(|(line, band)| Curdling {
            index: line.index,
            name: line.name().to_owned(),
            band,
        })
        .collect()
}

/// Places of the chilled pours in the order that keeps the pH up longest.
///
/// Solves a pH for every pour still to come, about a hundred times the work of all other figures:
/// for when it is shown.
pub fn gentlest_pours(drink: &Drink) -> Vec<usize> {
    let parts: Vec<_> = poured(drink)
        .filter(|line| line.added == Added::With)
        .map(|line| (line.index, line.contents.per_gram.scaled(line.grams())))
        .collect();
    gentlest_order(&parts)
}

fn poured(drink: &Drink) -> impl Iterator<Item = &Line> {
    drink.lines.iter().filter(|line| line.amount > 0.0)
}
