//! A preparation worked through: every stream, what each step lost and what is left over.

use super::flow_error::{At, FlowError};
use super::process::{Taken, Wrong, work};
use super::process_field::share;
use super::stream::Stream;
use super::supply::{Supplies, Supply};
use crate::model::{Input, Preparation, Quantity, Step};
use crate::physics::composition::Composition;
use std::collections::BTreeMap;

/// What one step did.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StepResult {
    /// Water, alcohol and gas that left as vapour, g by component.
    pub vapour: Composition,
    /// What stayed in vessels and on tools.
    pub lost: Stream,
    /// What the cook should know: a dose out of range, sugar that will not dissolve.
    pub remarks: Vec<String>,
}

/// A preparation worked through.
///
/// Of every component, what the inputs bring equals what leaves as outputs, waste, losses and vapour.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flow {
    /// Every stream by name, inputs included.
    pub streams: BTreeMap<String, Stream>,
    /// Grams of each input, also of those that were taken as needed.
    pub inputs_g: BTreeMap<String, f64>,
    /// What each step did, in order.
    pub steps: Vec<StepResult>,
    /// Streams that leave as outputs, in the order of their names.
    pub outputs: Vec<String>,
    /// Streams that leave and are not used.
    pub waste: Vec<String>,
}

/// Works through a preparation; fails at the first thing that cannot stand.
pub fn flow(preparation: &Preparation, supplies: &Supplies) -> Result<Flow, FlowError> {
    let mut found = Flow::default();
    let mut open: BTreeMap<String, Taken> = BTreeMap::new();
    for input in &preparation.inputs {
        let at = At::Input(input.name.clone());
        let supply = supplies
            .inputs
            .get(&input.name)
            .ok_or_else(|| FlowError::new(at.clone(), "source", "is not known"))?;
        let taken = match grams(input, supply)? {
            Some(grams) => {
                let stream = supply.poured(grams);
                found.inputs_g.insert(input.name.clone(), grams);
                found.streams.insert(input.name.clone(), stream);
                Taken::Stream(stream)
            }
            None => Taken::AsNeeded(supply.clone()),
        };
        if open.insert(input.name.clone(), taken).is_some() {
            return Err(FlowError::new(at, "name", "names two inputs"));
        }
    }
    for (place, step) in preparation.steps.iter().enumerate() {
        take_step(place, step, supplies, &mut open, &mut found)?;
    }
    leave(preparation, &open, &mut found)?;
    Ok(found)
}

/// Grams of an input; `None` when a step works them out.
fn grams(input: &Input, supply: &Supply) -> Result<Option<f64>, FlowError> {
    let refuse =
        |reason: &str| FlowError::new(At::Input(input.name.clone()), "amount", reason.to_owned());
    if input.quantity == Quantity::AsNeeded {
        return Ok(None);
    }
    let grams = supply.grams(input.quantity);
    let grams = grams.ok_or_else(|| refuse("the weight of one piece is not known"))?;
    if grams.is_finite() && grams >= 0.0 {
        Ok(Some(grams))
    } else {
        Err(refuse("must be 0 or more"))
    }
}

/// Takes one step: its streams are closed, those it makes are opened.
fn take_step(
    place: usize,
    step: &Step,
    supplies: &Supplies,
    open: &mut BTreeMap<String, Taken>,
    found: &mut Flow,
) -> Result<(), FlowError> {
    let refuse = |(field, reason)| FlowError::new(At::Step(place), field, reason);
    share("lost", step.lost).map_err(refuse)?;
    let taken = close(step, open, found).map_err(refuse)?;
    let (name, asked, given) = (step.does.name(), step.does.makes(), step.to.len());
    if given != asked {
        let reason = format!("{name} makes {asked}, not {given}");
        return Err(refuse(("makes", reason)));
    }
    let worked = work(step, &taken, supplies).map_err(refuse)?;
    for (name, (was, used)) in step.from.iter().zip(taken.iter().zip(&worked.taken)) {
        if matches!(was, Taken::AsNeeded(_)) {
            found.inputs_g.insert(name.clone(), used.mass_g());
        }
        found.streams.insert(name.clone(), *used);
    }
    let mut lost = Stream::default();
    for (name, made) in step.to.iter().zip(worked.made) {
        let kept = made.scaled(1.0 - step.lost);
        lost = lost + made.scaled(step.lost);
        if found.streams.insert(name.clone(), kept).is_some() || open.contains_key(name) {
            let reason = format!("\"{name}\" is the name of another stream");
            return Err(refuse(("makes", reason)));
        }
        open.insert(name.clone(), Taken::Stream(kept));
    }
    found.steps.push(StepResult {
        vapour: worked.vapour,
        lost,
        remarks: worked.remarks,
    });
    Ok(())
}

/// The streams that a step takes, which nobody else can take any more.
fn close(
    step: &Step,
    open: &mut BTreeMap<String, Taken>,
    found: &Flow,
) -> Result<Vec<Taken>, Wrong> {
    let take = |name: &String| {
        open.remove(name).ok_or_else(|| {
            let is_twice = step.from.iter().filter(|other| *other == name).count() > 1;
            let why = if is_twice || found.streams.contains_key(name) {
                "is taken already"
            } else {
                "is not there yet"
            };
            ("takes", format!("\"{name}\" {why}"))
        })
    };
    step.from.iter().map(take).collect()
}

/// Parts the streams that no step took into outputs and waste.
fn leave(
    preparation: &Preparation,
    open: &BTreeMap<String, Taken>,
    found: &mut Flow,
) -> Result<(), FlowError> {
    for (name, taken) in open {
        if matches!(taken, Taken::AsNeeded(_)) {
            let reason = "no step says how much is needed";
            return Err(FlowError::new(At::Input(name.clone()), "amount", reason));
        }
        let leaving = if preparation.outputs.contains_key(name) {
            &mut found.outputs
        } else {
            &mut found.waste
        };
        leaving.push(name.clone());
    }
    match preparation
        .outputs
        .keys()
        .find(|name| !open.contains_key(*name))
    {
        Some(name) => Err(FlowError::new(
            At::Output(name.clone()),
            "stream",
            "no stream of this name is left at the end",
        )),
        None => Ok(()),
    }
}
