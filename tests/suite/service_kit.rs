//! Drinks and plans for tests of a service.

use crate::house_made::larder;
use equipour::model::{
    Added, Amount, Dilution, Document, Method, Pour, Role, ServicePlan, Source, Spec, SpecId,
    Technique, Trial, TrialId,
};
use equipour::service::{Batch, batch};
use equipour::units::Unit;
use std::sync::Arc;

/// A pour of a row.
pub(crate) fn pour(row: &str, amount: Amount) -> Pour {
    let unit = match amount {
        Amount::Grams(_) => Unit::Gram,
        Amount::Pieces(_) => Unit::Piece,
        Amount::Ml(_) | Amount::Words(_) => Unit::Ml,
    };
    Pour {
        amount,
        unit,
        ..Pour::of(&row.into(), 0.0, Role::Other)
    }
}

/// A pour in ml.
pub(crate) fn ml(row: &str, ml: f64) -> Pour {
    pour(row, Amount::Ml(ml))
}

/// A pour of what a preparation makes.
pub(crate) fn made_in_house(preparation: &str, output: &str, amount: Amount) -> Pour {
    Pour {
        source: Source::Preparation {
            preparation: preparation.into(),
            output: output.to_owned(),
        },
        ..pour("", amount)
    }
}

/// The same pour, added afterwards.
pub(crate) fn after(pour: Pour) -> Pour {
    Pour {
        added: Added::After,
        ..pour
    }
}

/// A stirred drink of these pours in the document, with a quarter of its volume as water.
pub(crate) fn drink(document: &mut Document, pours: Vec<Pour>) -> (Spec, Trial) {
    let technique = Technique::new(Method::Stirred, Dilution::Fraction(0.25));
    let trial = Trial::new(TrialId(document.take_number()), "First", technique, pours);
    let id = SpecId(document.take_number());
    let spec = Spec::new(id, "Test drink", vec![Arc::new(trial.clone())]);
    document.specs.push(spec.clone());
    (spec, trial)
}

/// A document of invented rows with one drink.
pub(crate) fn with_drink(pours: Vec<Pour>) -> (Document, Spec, Trial) {
    let mut document = larder();
    let (spec, trial) = drink(&mut document, pours);
    (document, spec, trial)
}

/// So many drinks without a spare, on an evening in May.
pub(crate) fn serving(serves: u32) -> ServicePlan {
    ServicePlan {
        serves,
        spare_pct: 0.0,
        on: "2026-05-20".to_owned(),
        at: "19:00".to_owned(),
        ..ServicePlan::default()
    }
}

/// The batch of a drink.
pub(crate) fn batched(
    (document, spec, trial): &(Document, Spec, Trial),
    plan: &ServicePlan,
) -> Batch {
    batch(document, spec, trial, plan).expect("it can be batched")
}

/// Equal but for rounding.
pub(crate) fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1.0)
}
