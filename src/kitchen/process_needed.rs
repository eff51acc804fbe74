//! Steps that work out how much they need of one input.

use super::process::{Taken, Worked, Wrong};
use super::process_field::TAKES;
use super::process_gather::oversweet;
use super::stream::Stream;
use super::supply::Supply;

/// What such a step has in hand.
pub(super) struct Needed<'a> {
    /// The first stream and all others of a known amount.
    pub(super) base: Stream,
    /// What is taken as needed.
    pub(super) supply: &'a Supply,
    taken: &'a [Taken],
}

impl<'a> Needed<'a> {
    /// Finds the one input whose amount is asked for; `what` names it in errors.
    pub(super) fn of(process: &str, what: &str, taken: &'a [Taken]) -> Result<Self, Wrong> {
        let (base, needed) = parted(process, taken)?;
        match needed.as_slice() {
            [supply] => Ok(Self {
                base,
                supply,
                taken,
            }),
            [] if taken.len() < 2 => {
                let reason = format!("{process} also takes {what}, as needed: it is missing");
                Err((TAKES, reason))
            }
            [] => {
                let reason = format!("{process} works out how much {what}: set it to as needed");
                Err((TAKES, reason))
            }
            _ => {
                let reason = format!("{process} can work out only one amount: give the others");
                Err((TAKES, reason))
            }
        }
    }

    /// One stream: the base with so many grams of the supply.
    pub(super) fn done(&self, grams: f64, celsius: Option<f64>) -> Worked {
        let added = self.supply.poured(grams);
        let made = self.base + added;
        let known = |one: &Taken| match one {
            Taken::Stream(stream) => *stream,
            Taken::AsNeeded(_) => added,
        };
        Worked {
            taken: self.taken.iter().map(known).collect(),
            made: vec![made],
            remarks: oversweet(&made.liquid, celsius).into_iter().collect(),
            ..Worked::default()
        }
    }

    /// Refuses a supply that does not mix, such as whole fruit.
    pub(super) fn must_mix(self, what: &str) -> Result<Self, Wrong> {
        if self.supply.is_solid {
            let reason = format!("{what} must be something that mixes, not a whole solid");
            Err((TAKES, reason))
        } else {
            Ok(self)
        }
    }
}

/// Known streams together, and what is taken as needed; the first must be known.
pub(super) fn parted<'a>(
    process: &str,
    taken: &'a [Taken],
) -> Result<(Stream, Vec<&'a Supply>), Wrong> {
    if let Some(Taken::AsNeeded(_)) = taken.first() {
        let reason = format!("the first stream of {process} is worked on: give its amount");
        return Err((TAKES, reason));
    }
    let mut base = Stream::default();
    let mut needed = Vec::new();
    for one in taken {
        match one {
            Taken::Stream(stream) => base = base + *stream,
            Taken::AsNeeded(supply) => needed.push(supply),
        }
    }
    Ok((base, needed))
}
