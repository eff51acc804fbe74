//! Stable names by which parts of a document point at each other.

use serde::{Deserialize, Serialize};

macro_rules! word_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub String);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                Self(text.to_owned())
            }
        }
    };
}

macro_rules! number_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
        )]
        #[serde(transparent)]
        pub struct $name(pub u32);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                write!(f, "{}", self.0)
            }
        }
    };
}

word_id! {
    /// Names an ingredient of a document or of the built-in larder; never its display name.
    IngredientId
}
word_id! {
    /// Names a published classic.
    ClassicId
}
word_id! {
    /// Names a preparation of a document.
    PreparationId
}
word_id! {
    /// Names a measured batch of an ingredient.
    LotId
}
word_id! {
    /// Names a set of rules of a document.
    RuleSetId
}
number_id! {
    /// Names a spec of a document.
    SpecId
}
number_id! {
    /// Names a trial of a document; unique over all specs.
    TrialId
}
number_id! {
    /// Names a tasting of a document.
    TastingId
}

/// Most names made from the same words.
const MOST_ALIKE: u32 = 1_000_000;

/// A name that is not `taken`, made from the words of a display name.
pub fn free_name(words: &str, taken: impl Fn(&str) -> bool) -> String {
    let stem = slug(words);
    if !taken(&stem) {
        return stem;
    }
    (2..=MOST_ALIKE)
        .map(|number| format!("{stem}-{number}"))
        .find(|name| !taken(name))
        .unwrap_or(stem)
}

/// Lower-case words joined by hyphens; "item" when nothing is left.
fn slug(name: &str) -> String {
    let mut slug = String::new();
    for letter in name.chars().flat_map(char::to_lowercase).take(60) {
        if letter.is_alphanumeric() {
            slug.push(letter);
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() {
        "item".to_owned()
    } else {
        slug.to_owned()
    }
}
