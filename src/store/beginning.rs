//! What new documents and drinks begin with; one that is open keeps its own.

use crate::model::{Document, FieldError, Senses, ServicePlan, check};
use crate::units::Measures;
use serde::{Deserialize, Serialize};

/// What new documents and drinks begin with.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Beginning {
    /// What is called an ounce, ml; above 0 and at most 100.
    pub ounce_ml: f64,
    /// Sizes of the jiggers at hand, ml, rising.
    pub jiggers_ml: Vec<f64>,
    /// Country whose standard drink new drinks are told in.
    pub country: String,
    /// Currency of all prices.
    pub currency: String,
    /// When a difference is noticed.
    pub senses: Senses,
}

impl Default for Beginning {
    fn default() -> Self {
        let document = Document::default();
        Self {
            ounce_ml: document.measures.ounce_ml,
            jiggers_ml: document.jiggers_ml,
            country: ServicePlan::default().country,
            currency: document.currency,
            senses: document.senses,
        }
    }
}

impl Beginning {
    /// An empty document that begins so.
    pub fn document(&self) -> Document {
        Document {
            measures: Measures {
                ounce_ml: self.ounce_ml,
                ..Measures::default()
            },
            jiggers_ml: self.jiggers_ml.clone(),
            currency: self.currency.clone(),
            senses: self.senses,
            ..Document::default()
        }
    }

    /// Checks it as a document is checked; the error names the field.
    pub fn check(&self) -> Result<(), FieldError> {
        check(&self.document())?;
        if self.country.trim().is_empty() || self.country.chars().count() > LONGEST_COUNTRY {
            return Err(FieldError {
                field: "country".to_owned(),
                reason: format!("must have 1 to {LONGEST_COUNTRY} letters"),
            });
        }
        Ok(())
    }
}

/// Longest name of a country, letters.
const LONGEST_COUNTRY: usize = 200;
