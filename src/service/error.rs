//! Why something of a service cannot be worked out.

use crate::balance::DrinkError;
use crate::kitchen::{Cycle, FlowError};
use crate::model::{Document, PreparationId};

/// Why something of a service cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ServiceError {
    /// The trial cannot be resolved.
    #[error(transparent)]
    Drink(#[from] DrinkError),
    /// A preparation cannot be worked through.
    #[error("{name}: {error}")]
    Preparation {
        /// Which.
        id: PreparationId,
        /// Its name.
        name: String,
        /// What is wrong with it.
        error: FlowError,
    },
    /// Preparations use each other in a circle.
    #[error(transparent)]
    Circle(#[from] Cycle),
    /// A field of the plan cannot stand.
    #[error("{field}: {reason}")]
    Field {
        /// The field, in the words of the form.
        field: &'static str,
        /// Why it cannot stand.
        reason: String,
    },
}

impl ServiceError {
    /// A field that cannot stand.
    pub(super) fn field(field: &'static str, reason: impl Into<String>) -> Self {
        Self::Field {
            field,
            reason: reason.into(),
        }
    }

    /// What is wrong with a preparation.
    pub(super) fn preparation(
        document: &Document,
        id: &PreparationId,
    ) -> impl Fn(FlowError) -> Self {
        let found = document.preparations.get(id);
        let name = found.map_or_else(|| id.0.clone(), |made| made.name.clone());
        let id = id.clone();
        move |error| Self::Preparation {
            id: id.clone(),
            name: name.clone(),
            error,
        }
    }
}
