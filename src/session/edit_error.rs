//! Why an edit is refused.

use crate::model::FieldError;

/// An edit that cannot be done; nothing was changed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum EditError {
    /// The trial was tasted or submitted.
    #[error("{name} was {state}: its figures are kept. Start a new trial from it")]
    Frozen {
        /// Trial.
        name: String,
        /// Its state.
        state: &'static str,
    },
    /// The part to change is gone.
    #[error("{what} is no longer there")]
    Gone {
        /// What.
        what: String,
    },
    /// Something else leans on it.
    #[error("{why}")]
    InUse {
        /// Why it must stay.
        why: String,
    },
    /// The new value cannot stand.
    #[error(transparent)]
    Field(#[from] FieldError),
    /// The document must not be changed.
    #[error("the document is open read-only: {why}")]
    ReadOnly {
        /// Why.
        why: String,
    },
}

impl EditError {
    /// The reason alone, for words beside the field itself.
    pub fn reason(&self) -> String {
        match self {
            Self::Field(field) => field.reason.clone(),
            other => other.to_string(),
        }
    }
}
