//! Which ingredient the rules mean by a product.

use super::rule_check::{Ask, Handed, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_pours::Poured;
use crate::model::{Ingredient, IngredientId};

/// The ingredient that a product is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Product<'a> {
    pub(super) id: &'a IngredientId,
    pub(super) item: &'a Ingredient,
    /// Nobody chose it: its name is the rules' word.
    pub(super) guessed: bool,
}

impl Product<'_> {
    /// What has to be said of a guess; empty where somebody chose it.
    pub(super) fn guess_words(&self) -> &'static str {
        if self.guessed {
            " Taken by its name: choose the product to be sure."
        } else {
            ""
        }
    }
}

fn same_words(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// The ingredient that was chosen as the product, else one of that name: what is poured comes first.
pub(super) fn product_of<'a>(
    handed: &Handed<'a>,
    poured: &Poured<'a>,
    word: &str,
) -> Option<Product<'a>> {
    let rows = &handed.document.ingredients;
    let mut chosen = handed.spec.entry.products.iter();
    let chosen = chosen.find(|(product, _)| same_words(product, word));
    if let Some((_, id)) = chosen
        && let Some((id, item)) = rows.get_key_value(id)
    {
        return Some(Product {
            id,
            item,
            guessed: false,
        });
    }
    let mut pours = poured.pours.iter();
    let by_pour = pours
        .find(|fact| same_words(&fact.item.name, word) || same_words(fact.name, word))
        .map(|fact| (fact.id, fact.item));
    let by_row = || {
        let mut rows = rows.iter();
        rows.find(|(_, item)| same_words(&item.name, word))
            .map(|(id, item)| (id, &**item))
    };
    by_pour.or_else(by_row).map(|(id, item)| Product {
        id,
        item,
        guessed: true,
    })
}

/// That nobody said which ingredient the product is.
pub(super) fn no_product(word: &str) -> Outcome {
    Outcome::unknown(
        format!("No ingredient is chosen as \"{word}\", and none has that name."),
        format!("Choose which ingredient is \"{word}\"."),
    )
    .act(Act::Go(Field::Products))
}

impl<'a> Ask<'a> {
    pub(super) fn product(&self, word: &str) -> Option<Product<'a>> {
        product_of(self.handed, self.poured, word)
    }
}
