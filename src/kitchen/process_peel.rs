//! Peel under sugar, which draws its oil and water.

use super::process::{Worked, Wrong};
use super::process_field::{RELEASED, TAKES, release as checked};
use super::process_part::strained;
use super::process_release::{released, together};
use super::stream::Stream;
use crate::model::{Release, Retained};

/// Lets sugar draw from peel, then takes the peel out with what sticks to it.
pub(super) fn sugar_on_peel(
    release: &Release,
    retained: &Retained,
    taken: Vec<Stream>,
) -> Result<Worked, Wrong> {
    checked(RELEASED, release)?;
    let whole = together(&taken);
    let missing = |what: &str| {
        let reason = format!("sugar on peel takes peel and sugar: {what} is missing");
        Err((TAKES, reason))
    };
    if whole.solid.mass_g() <= 0.0 {
        return missing("peel");
    }
    if whole.liquid.mass_g() <= 0.0 {
        return missing("sugar");
    }
    let (sugar, peel) = strained(&released(&whole, release), retained)?;
    Ok(Worked {
        made: vec![sugar, peel],
        taken,
        ..Worked::default()
    })
}
