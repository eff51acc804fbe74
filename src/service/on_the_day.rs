//! What of a drink can wait in a batch, and what is added when it is served.

use crate::kitchen::{Keeping, holds_egg, is_kind, keeping};
use crate::model::{
    Added, Amount, Document, Ingredient, IngredientId, Pour, PreparationId, ServicePlan,
};
use std::collections::BTreeMap;

/// Kinds of rows that do not keep once they are opened, pressed or mixed (common practice, no
/// source): they turn, curdle or lose their freshness within a day or two.
const FRESH: [&str; 6] = ["juice", "dairy", "plant", "purée", "coffee", "fruit"];
/// What a house-made ingredient must keep to go into a batch, days with the day of making (our
/// convention).
const KEEPS_DAYS: f64 = 2.0;
/// Carbon dioxide from which a liquid fizzes, g per litre (our convention; a still drink has less
/// than 1).
const FIZZES_G_PER_L: f64 = 1.5;

/// Why a pour is added on the day and not batched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnTheDay {
    /// It is topped up or floated on the chilled drink.
    After,
    /// It rinses the glass.
    Rinse,
    /// It would lose its gas.
    Fizzes,
    /// It does not keep.
    Fresh,
    /// The plan says so.
    Asked,
    /// It is laid on or beside the drink.
    Garnish,
}

impl OnTheDay {
    /// The reason in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::After => "topped up or floated",
            Self::Rinse => "rinses the glass",
            Self::Fizzes => "would lose its gas",
            Self::Fresh => "does not keep",
            Self::Asked => "kept apart by the plan",
            Self::Garnish => "garnish",
        }
    }
}

/// Days that every house-made output keeps, by its row; `None` where nobody says.
pub(super) struct Lives {
    by_row: BTreeMap<IngredientId, Option<f64>>,
}

impl Lives {
    /// Looks at every preparation of the document; one that cannot be worked out says nothing.
    pub(super) fn of<'a>(
        document: &Document,
        made: impl Iterator<Item = &'a PreparationId>,
    ) -> Self {
        let mut by_row = BTreeMap::new();
        for id in made {
            let Some(preparation) = document.preparations.get(id) else {
                continue;
            };
            let kept = keeping(document, id).unwrap_or_default();
            for (output, row) in &preparation.outputs {
                let days = kept.get(output).and_then(Keeping::days);
                by_row.insert(row.clone(), days);
            }
        }
        Self { by_row }
    }
}

/// Why a line waits until the day; `None` for what goes into the batch.
pub(super) fn on_the_day(
    pour: &Pour,
    (row, item): (&IngredientId, &Ingredient),
    plan: &ServicePlan,
    lives: &Lives,
) -> Option<OnTheDay> {
    match pour.added {
        // Words bring no liquid: it is laid on.
        Added::After if matches!(pour.amount, Amount::Words(_)) => return Some(OnTheDay::Garnish),
        Added::After => return Some(OnTheDay::After),
        Added::Rinse => return Some(OnTheDay::Rinse),
        Added::With => {}
    }
    if plan.on_the_day.contains(row) {
        return Some(OnTheDay::Asked);
    }
    if item.co2_g_per_l.unwrap_or(0.0) >= FIZZES_G_PER_L {
        return Some(OnTheDay::Fizzes);
    }
    let fresh = if let Some(Some(days)) = lives.by_row.get(row) {
        // What is made in the house says itself how long it keeps.
        *days < KEEPS_DAYS
    } else {
        let is_strong = item
            .strength_pct_vol
            .is_some_and(|strength| strength.typical > 0.0);
        FRESH.iter().any(|kind| is_kind(item, kind)) || (holds_egg(item) && !is_strong)
    };
    fresh.then_some(OnTheDay::Fresh)
}
