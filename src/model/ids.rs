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
number_id! {
    /// Names a spec of a document.
    SpecId
}
number_id! {
    /// Names a trial of a document; unique over all specs.
    TrialId
}
