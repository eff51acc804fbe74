//! Kinds of rules by name, each with what it teaches and how a new one begins.

use crate::model::{AlcoholMeasure, Counted, EU_ALLERGENS, Practice, Required, RuleKind, VolumeOf};
use crate::units::Unit;
use std::mem::discriminant;

/// A kind of rule on the menu.
pub(super) struct Kind {
    pub(super) name: &'static str,
    pub(super) teach: &'static str,
    /// A new rule of the kind; numbers as usual rules have them (common practice, no source).
    pub(super) new: fn() -> RuleKind,
}

const fn kind(name: &'static str, teach: &'static str, new: fn() -> RuleKind) -> Kind {
    Kind { name, teach, new }
}

fn product() -> String {
    "the product".to_owned()
}

/// Every kind, in menu order.
pub(super) const KINDS: [Kind; 20] = [
    kind(
        "Number of ingredients",
        "At most so many; what counts differs from rules to rules",
        || RuleKind::Ingredients {
            most: 6,
            counts: Counted::default(),
        },
    ),
    kind(
        "Least of a product",
        "At least so many ml of the organiser's product; several pours of it add up",
        || RuleKind::ProductAtLeast {
            product: product(),
            ml: 40.0,
        },
    ),
    kind(
        "Most of a product",
        "At most so many ml of a product",
        || RuleKind::ProductAtMost {
            product: product(),
            ml: 60.0,
        },
    ),
    kind(
        "Only one of its kind",
        "No other ingredient of the product's kind, such as a second base spirit",
        || RuleKind::OnlyOfItsKind { product: product() },
    ),
    kind(
        "Most alcohol",
        "A cap on one drink, in pure alcohol or in alcoholic ingredients",
        || RuleKind::AlcoholAtMost {
            measure: AlcoholMeasure::PureMl,
            most: 40.0,
        },
    ),
    kind(
        "Strength",
        "Strength as served, % vol, water from ice included",
        || RuleKind::Strength {
            least: None,
            most: Some(25.0),
        },
    ),
    kind(
        "Volume",
        "Volume of one drink, ml, before or after ice",
        || RuleKind::Volume {
            of: VolumeOf::Served,
            least: Some(60.0),
            most: None,
        },
    ),
    kind(
        "House-made",
        "How many house-made ingredients, how much of each, made with how many",
        || RuleKind::HouseMade {
            most: 2,
            most_ml: None,
            most_parts: None,
            garnish_counts: false,
        },
    ),
    kind(
        "Measures",
        "Units that amounts may be written in, and the steps they come in",
        || RuleKind::Measures {
            units: vec![Unit::Ml],
            drops_for_bitters: true,
            notch_ml: None,
        },
    ),
    kind(
        "Techniques",
        "Ways to chill and mix that are allowed",
        || RuleKind::Methods {
            allowed: Vec::new(),
        },
    ),
    kind(
        "Identical drinks",
        "How many are made at once on the stage",
        || RuleKind::Serves { count: 3 },
    ),
    kind(
        "Time on the stage",
        "Minutes to make the drinks, and to set up",
        || RuleKind::StageTime {
            minutes: 5.0,
            set_up: 0.0,
        },
    ),
    kind(
        "Preparation time",
        "Minutes of work in the preparation room",
        || RuleKind::PreparationTime { minutes: 20.0 },
    ),
    kind(
        "Forbidden",
        "A practice that is banned; what no recipe shows a person has to look at",
        || RuleKind::Banned {
            practice: Practice::Batching,
        },
    ),
    kind(
        "No allergen",
        "A group of EU Annex II that must not be in it",
        || RuleKind::NoAllergen {
            allergen: EU_ALLERGENS[6].to_owned(),
        },
    ),
    kind(
        "Length of the story",
        "Words of the story, from and to",
        || RuleKind::StoryWords {
            least: 0,
            most: 300,
        },
    ),
    kind(
        "Name",
        "Words that the name must not hold; whether it offends a person says",
        || RuleKind::NameWords { banned: Vec::new() },
    ),
    kind("To be stated", "What has to stand on the sheet", || {
        RuleKind::Stated {
            required: vec![
                Required::Name,
                Required::Amounts,
                Required::Method,
                Required::Glass,
            ],
        }
    }),
    kind(
        "Deadline",
        "The last day to hand in, and how long before it the recipe is locked",
        || RuleKind::Deadline {
            on: "2027-06-30".to_owned(),
            locked_days: 0,
        },
    ),
    kind(
        "For a person",
        "Anything that only a person can judge, as a question to tick",
        || RuleKind::Asked {
            words: "The garnish can be eaten".to_owned(),
        },
    ),
];

/// The kind of a rule; every rule has one, the first stands in for none.
pub(super) fn kind_of(asks: &RuleKind) -> &'static Kind {
    let mut kinds = KINDS.iter();
    let found = kinds.find(|kind| discriminant(&(kind.new)()) == discriminant(asks));
    found.unwrap_or(&KINDS[0])
}
