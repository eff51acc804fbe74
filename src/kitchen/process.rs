//! What each process does to the streams it takes.

use super::process_acid::adjust_acid;
use super::process_clarify::clarify;
use super::process_dilute::{dilute, stock};
use super::process_fat::fat_wash;
use super::process_gas::{aerate, carbonate};
use super::process_gather::{combine, dissolve};
use super::process_heat::{dehydrate, heat};
use super::process_juice::juice;
use super::process_part::{divide, strain};
use super::process_peel::sugar_on_peel;
use super::process_reduce::reduce;
use super::process_release::{give_off, soak};
use super::process_sweeten::sweeten_to;
use super::stream::Stream;
use super::supply::{Supplies, Supply};
use crate::model::{Process, Step};
use crate::physics::composition::Composition;

/// What a step has in hand.
#[derive(Clone, Debug)]
#[expect(
    clippy::large_enum_variant,
    reason = "nearly all are streams, which are copied as they are"
)]
pub(super) enum Taken {
    /// A stream of a known amount.
    Stream(Stream),
    /// An input that the step takes as much of as it needs.
    AsNeeded(Supply),
}

/// What came of a process; every component closes.
///
/// In every parting the strong cations go with what dissolves, the carbon dioxide with the water and
/// the difference of a measured density with the mass.
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

/// Does the work of one step; fails with the field and the reason.
pub(super) fn work(step: &Step, taken: &[Taken], supplies: &Supplies) -> Result<Worked, Wrong> {
    if taken.is_empty() {
        return Err(("takes", format!("{} takes nothing", step.does.name())));
    }
    match &step.does {
        Process::AdjustAcid { to } => adjust_acid(to, taken),
        Process::SweetenTo { brix } => sweeten_to(*brix, taken),
        Process::Dilute { to } => dilute(to, taken),
        Process::Stock { percent } => stock(*percent, taken, step.celsius),
        Process::Clarify {
            with,
            dose_pct,
            takes_out,
            held_back,
        } => clarify(*with, *dose_pct, takes_out, held_back, taken),
        _ => work_on_known(step, all_known(step, taken)?, supplies),
    }
}

/// The streams of a step that does not work out an amount.
fn all_known(step: &Step, taken: &[Taken]) -> Result<Vec<Stream>, Wrong> {
    let known = taken.iter().map(|one| match one {
        Taken::Stream(stream) => Ok(*stream),
        Taken::AsNeeded(_) => {
            let name = step.does.name();
            let reason = format!("{name} does not work out how much it needs: give an amount");
            Err(("takes", reason))
        }
    });
    known.collect()
}

fn work_on_known(step: &Step, taken: Vec<Stream>, supplies: &Supplies) -> Result<Worked, Wrong> {
    match &step.does {
        Process::Soak { uptake, release } => soak(uptake, release, taken),
        Process::Infuse { release }
        | Process::Blend { release }
        | Process::FreezeThaw { release } => give_off(release, taken),
        Process::Strain { retained } | Process::Press { retained } => strain(retained, taken),
        Process::Juice {
            yielded,
            release,
            like,
        } => juice(yielded, release, like.as_ref(), taken, supplies),
        Process::Dissolve => Ok(dissolve(taken, step.celsius)),
        Process::Reduce { to, alcohol_left } => reduce(to, *alcohol_left, taken),
        Process::Heat { steam } => heat(steam, taken),
        Process::Dehydrate { to } => dehydrate(to, taken),
        Process::SugarOnPeel { release, retained } => sugar_on_peel(release, retained, taken),
        Process::FatWash { fat_removed, held } => fat_wash(*fat_removed, held, taken),
        Process::Carbonate { bar, kept } => carbonate(*bar, kept, step.celsius, taken),
        Process::Aerate { overrun } => aerate(overrun, taken),
        Process::Divide { part } => divide(*part, taken),
        // The others work out an amount and are done already.
        Process::Combine
        | Process::Rest
        | Process::AdjustAcid { .. }
        | Process::SweetenTo { .. }
        | Process::Dilute { .. }
        | Process::Stock { .. }
        | Process::Clarify { .. } => Ok(combine(taken, step.celsius)),
    }
}
