//! What each process does to the streams it takes.

use super::stream::Stream;
use super::supply::{Supplies, Supply};
use crate::model::Process;
use crate::physics::composition::Composition;

/// What a step has in hand.
#[derive(Clone, Debug)]
pub(super) enum Taken {
    /// A stream of a known amount.
    Stream(Stream),
    /// An input that the step takes as much of as it needs.
    AsNeeded(Supply),
}

/// What came of a process; every component closes.
#[derive(Clone, Debug, Default)]
pub(super) struct Worked {
    /// What was taken, in the order of the step, as-needed inputs included.
    pub(super) taken: Vec<Stream>,
    /// What was made, in the order of the process.
    pub(super) made: Vec<Stream>,
    /// What left as vapour.
    pub(super) vapour: Composition,
    /// What the cook should know.
    pub(super) remarks: Vec<String>,
}

/// A field of the step and what is wrong with it.
pub(super) type Wrong = (&'static str, String);

/// Does the work of one process; fails with the field and the reason.
pub(super) fn work(
    process: &Process,
    taken: &[Taken],
    _supplies: &Supplies,
) -> Result<Worked, Wrong> {
    let mut streams = Vec::with_capacity(taken.len());
    for one in taken {
        match one {
            Taken::Stream(stream) => streams.push(*stream),
            Taken::AsNeeded(_) => {
                let reason = format!("{} does not work out an amount", process.name());
                return Err(("takes", reason));
            }
        }
    }
    let whole = streams
        .iter()
        .fold(Stream::default(), |sum, stream| sum + *stream);
    Ok(Worked {
        taken: streams,
        made: vec![whole],
        ..Worked::default()
    })
}
