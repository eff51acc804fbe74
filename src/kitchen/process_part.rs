//! Liquid parted from solids, and a stream divided.

use super::process::{Worked, Wrong};
use super::process_field::{TAKES, grams, share, typical};
use super::process_release::together;
use super::stream::Stream;
use crate::model::{Retained, StepFigureKind};
use crate::physics::composition::Composition;

/// Strains or presses.
pub(super) fn strain(retained: &Retained, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let (liquid, solids) = strained(&together(&taken), retained)?;
    Ok(Worked {
        made: vec![liquid, solids],
        taken,
        ..Worked::default()
    })
}

/// The liquid that comes out, and the solids with the liquid that stays in them.
///
/// What stays has the composition of the liquid.
pub(super) fn strained(whole: &Stream, retained: &Retained) -> Result<(Stream, Stream), Wrong> {
    let there = whole.liquid.mass_g();
    if there <= 0.0 {
        return Err((TAKES, "there is no liquid to come out".to_owned()));
    }
    let out = match retained {
        Retained::PerGram(range) => {
            let kind = StepFigureKind::Retained;
            let stays = typical(kind, range)? * whole.solid.mass_g();
            if stays > there {
                let (stays, there) = (grams(stays), grams(there));
                let reason = format!("the solids would hold {stays}, but there are only {there}");
                return Err((kind.name(), reason));
            }
            1.0 - stays / there
        }
        Retained::Yield(range) => {
            let kind = StepFigureKind::Yield;
            let comes = typical(kind, range)? * whole.mass_g();
            if comes > there {
                let (comes, there) = (grams(comes), grams(there));
                let reason =
                    format!("{comes} would come out, but there are only {there} of liquid");
                return Err((kind.name(), reason));
            }
            comes / there
        }
    };
    let liquid = Stream {
        liquid: whole.liquid.scaled(out),
        solid: Composition::ZERO,
    };
    let solids = Stream {
        liquid: whole.liquid.scaled(1.0 - out),
        solid: whole.solid,
    };
    Ok((liquid, solids))
}

/// Divides; both parts have the same composition.
pub(super) fn divide(part: f64, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let part = share("part", part)?;
    let whole = together(&taken);
    Ok(Worked {
        made: vec![whole.scaled(part), whole.scaled(1.0 - part)],
        taken,
        ..Worked::default()
    })
}
