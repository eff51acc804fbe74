//! A swap in words: which pours change, what is given up and what it brings.
//!
//! From what on a difference is worth a word is our convention, no source.

use super::swap::Swap;
use super::swap_difference::Difference;
use super::swap_original::{Original, name_of};
use crate::model::Trial;
use crate::units::{money, number, signed};

/// Smaller differences of body (g/L) are not worth a word.
const BODY_WORTH: f64 = 0.5;
/// Smaller differences of bitterness are not worth a word.
const BITTER_WORTH: f64 = 0.05;
/// Smaller differences of carbon dioxide (g/L) are not worth a word.
const FIZZ_WORTH: f64 = 0.05;
/// Smaller differences of salt (g/L) are not worth a word.
const SALT_WORTH: f64 = 0.05;
/// Smaller differences of the served volume (ml) are not worth a word.
const VOLUME_WORTH: f64 = 0.5;
/// Smaller differences of pH are not worth a word.
const PH_WORTH: f64 = 0.05;

/// One pour of a swapped drink that is not as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct SwappedPour {
    /// Place in the swapped trial's list of pours.
    pub pour: usize,
    /// What was poured, with its amount; `None` for a pour that was added.
    pub was: Option<(String, String)>,
    /// What is poured, with its amount.
    pub now: (String, String),
    /// Another ingredient, not only another amount.
    pub other: bool,
}

impl SwappedPour {
    /// "lemon juice 22.5 ml → yuzu juice 20 ml", "gin 45 ml → 50 ml", "add 10 ml of lime juice".
    pub fn words(&self) -> String {
        let (name, amount) = &self.now;
        match &self.was {
            None => format!("add {amount} of {name}"),
            Some((old, before)) if self.other => format!("{old} {before} → {name} {amount}"),
            Some((_, before)) => format!("{name} {before} → {amount}"),
        }
    }
}

/// Pours of a swapped trial that are not as they were, in the order of the recipe.
pub(super) fn swapped_pours(
    original: &Original<'_>,
    swapped: &Trial,
    was: &[Option<usize>],
) -> Vec<SwappedPour> {
    let document = original.document;
    let written = |trial: &Trial, place: usize| {
        let pour = trial.pours.get(place);
        let amount = pour.map_or_else(String::new, |pour| {
            pour.amount_text(pour.amount.value().unwrap_or(0.0), &document.measures)
        });
        (name_of(document, trial, place).to_owned(), amount)
    };
    let mut found = Vec::new();
    for (place, (pour, was)) in swapped.pours.iter().zip(was).enumerate() {
        let before = was.and_then(|was| original.trial.pours.get(was));
        let same_source = before.is_some_and(|before| before.source == pour.source);
        if same_source && before.is_some_and(|before| before.amount == pour.amount) {
            continue;
        }
        found.push(SwappedPour {
            pour: place,
            was: was.map(|was| written(&original.trial, was)),
            now: written(swapped, place),
            other: !same_source,
        });
    }
    found
}

impl Swap {
    /// What was replaced in a few words: "swap lemon juice for lime juice", "split lemon juice with
    /// lime juice", "rebalance" when nothing was.
    pub fn title(&self) -> String {
        let mut parts = Vec::new();
        let changed = self.changed.iter().filter(|one| one.other);
        for one in changed {
            let Some((old, _)) = &one.was else {
                let before = one.pour.checked_sub(1);
                let first = before.and_then(|place| self.names.get(place));
                let first = first.map_or("a pour", String::as_str);
                return format!("split {first} with {}", one.now.0);
            };
            parts.push(format!("{old} for {}", one.now.0));
        }
        if parts.is_empty() {
            return "rebalance".to_owned();
        }
        format!("swap {}", parts.join(" and "))
    }
}

impl Difference {
    /// Body, bitterness, fizz, salt, size and pH where they move enough to be worth a word.
    pub fn figures_in_words(&self) -> Vec<String> {
        let mut words = Vec::new();
        let mut say = |name: &str, value: f64, worth: f64, decimals: usize, unit: &str| {
            if value.abs() >= worth {
                words.push(format!("{name} {}{unit}", signed(value, decimals)));
            }
        };
        say("body", self.body_g_per_l, BODY_WORTH, 0, " g/L");
        say("bitter", self.bitter_per_ml, BITTER_WORTH, 1, "");
        say("fizz", self.co2_g_per_l, FIZZ_WORTH, 1, " g/L");
        say("salt", self.salt_g_per_l, SALT_WORTH, 1, " g/L");
        say("served", self.served_ml, VOLUME_WORTH, 0, " ml");
        if let (Some(before), Some(after)) = self.ph {
            let (was, is) = (number(before, 1), number(after, 1));
            if (after - before).abs() >= PH_WORTH && was != is {
                words.push(format!("pH {was} → {is}"));
            }
        }
        words
    }

    /// Flavour words that are lost and gained: "without grapefruit, pith; with yuzu".
    pub fn flavours_in_words(&self) -> Vec<String> {
        let mut words = Vec::new();
        for (list, begin) in [
            (&self.flavours_lost, "without"),
            (&self.flavours_gained, "with"),
        ] {
            if !list.is_empty() {
                words.push(format!("{begin} {}", list.join(", ")));
            }
        }
        words
    }

    /// Allergens that are new, gone or not stated: "+ milk", "− eggs", "not stated: house orgeat".
    pub fn allergens_in_words(&self) -> Vec<String> {
        let gained = self.allergens_gained.iter().map(|word| format!("+ {word}"));
        let lost = self.allergens_lost.iter().map(|word| format!("− {word}"));
        let unstated = self.allergens_unstated.iter();
        let unstated = unstated.map(|name| format!("not stated: {name}"));
        gained.chain(lost).chain(unstated).collect()
    }

    /// "+0.35 EUR"; blank when the cost is not known or stays.
    pub fn cost_in_words(&self, currency: &str) -> String {
        match self.cost {
            Some(cost) if cost.abs() >= 0.005 => {
                let sign = if cost > 0.0 { "+" } else { "" };
                format!("{sign}{}", money(cost, currency))
            }
            _ => String::new(),
        }
    }
}
