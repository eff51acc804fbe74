//! Yields that were weighed against the one predicted, and what they say of a step.

use super::batch::{Batch, batch};
use super::flow::flow;
use super::flow_error::{At, FlowError};
use super::upstream::Upstream;
use crate::model::{Document, PreparationId, Range, Reading, StepFigure, StepFigureKind};
use crate::physics::root::bracketed_secant;
use crate::units::{percent, trimmed};

/// Lots with a yield from which a figure is worked out again.
const ENOUGH: usize = 3;
/// Standard deviations between the mean and either end of the new range.
const SIGMAS: f64 = 2.0;
/// How exactly the mean yield is met, as a share.
const MET: f64 = 1.0e-10;
/// Largest figure that is tried where a share has no natural end, g per g.
const MOST_PER_GRAM: f64 = 50.0;
/// A share of everything is no step any more.
const NEARLY_ALL: f64 = 0.999;

/// A figure of a step as the lots show it; never taken over by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YieldProposal {
    /// Which figure of which step.
    pub figure: StepFigure,
    /// As it stands.
    pub from: Range,
    /// As the lots show it: their mean yield, and two standard deviations to either side.
    pub to: Range,
    /// Lots it rests on.
    pub lots: usize,
}

/// What the lots of an output say of its yield.
#[derive(Clone, Debug, PartialEq)]
pub struct YieldSaid {
    /// Predicted yield: mass of the output over mass of all inputs, from 0.
    pub predicted: f64,
    /// Label and weighed yield of each lot, in the order of their ids.
    pub lots: Vec<(String, f64)>,
    /// Mean of the weighed yields; `None` without any.
    pub mean: Option<f64>,
    /// The figure as the lots show it; `None` where they show none, and then `words` say why.
    pub proposal: Option<YieldProposal>,
    /// The outcome in words.
    pub words: String,
}

/// Holds the weighed yields of an output's lots against the predicted one.
///
/// Each lot's last reading of a yield counts. From three lots on the last figure before the output
/// that decides its mass (liquid left behind, juice, moisture, steam, liquid held back) is worked out
/// again so that the flow gives their mean; the scatter of the lots becomes its range. Fails as the
/// flow does and for an output that does not leave.
pub fn yield_said(
    document: &Document,
    id: &PreparationId,
    output: &str,
) -> Result<YieldSaid, FlowError> {
    let batch = batch(document, id)?;
    let at = || At::Output(output.to_owned());
    let row = batch.preparation.outputs.get(output);
    let row = row.ok_or_else(|| FlowError::new(at(), "stream", "no output of this name leaves"))?;
    let predicted = predicted(&batch, output, None)
        .ok_or_else(|| FlowError::new(at(), "yield", "nothing goes in"))?;
    let mut said = YieldSaid {
        predicted,
        lots: Vec::new(),
        mean: None,
        proposal: None,
        words: String::new(),
    };
    for (_, lot) in document.lots_of(row) {
        let readings = lot.measurements.iter().rev();
        let weighed = readings.map(|own| own.reading).find_map(own_yield);
        if let Some(share) = weighed.filter(|share| *share > 1.0) {
            said.words = too_much(&lot.label, share);
            return Ok(said);
        }
        said.lots
            .extend(weighed.map(|share| (lot.label.clone(), share)));
    }
    let Some((mean, sigma)) = mean_and_scatter(&mut said) else {
        return Ok(said);
    };
    propose(document, &batch, output, (mean, sigma), &mut said);
    Ok(said)
}

fn too_much(label: &str, share: f64) -> String {
    format!(
        "\"{label}\" weighs more than went in, {}: a weight is wrong, or water went in that was not weighed",
        percent(share, 1)
    )
}

/// Mean and standard deviation of the lots' yields, once there are enough of them.
fn mean_and_scatter(said: &mut YieldSaid) -> Option<(f64, f64)> {
    let shares: Vec<f64> = said.lots.iter().map(|(_, share)| *share).collect();
    let count = shares.len();
    let mean = shares.iter().sum::<f64>() / count.max(1) as f64;
    said.mean = (count > 0).then_some(mean);
    if count < ENOUGH {
        let lots = if count == 1 { "lot" } else { "lots" };
        let (count, enough) = (trimmed(count as f64, 0), trimmed(ENOUGH as f64, 0));
        said.words =
            format!("{count} {lots} with a weighed yield; a figure is worked out from {enough} on");
        return None;
    }
    let squares: f64 = shares.iter().map(|share| (share - mean).powi(2)).sum();
    Some((mean, (squares / (count - 1) as f64).sqrt()))
}

fn own_yield(reading: Reading) -> Option<f64> {
    match reading {
        Reading::Yield { in_g, out_g } if in_g > 0.0 => Some(out_g / in_g),
        _ => None,
    }
}

/// The yield that a batch gives, with one figure changed.
fn predicted(batch: &Batch<'_>, output: &str, figure: Option<(StepFigure, f64)>) -> Option<f64> {
    let share = |flow: &super::flow::Flow| {
        let stream = flow.streams.get(output)?;
        let taken: f64 = flow.inputs_g.values().sum();
        (taken > 0.0).then(|| stream.mass_g() / taken)
    };
    match figure {
        None => share(&batch.flow),
        Some((figure, value)) => {
            let changed = batch.preparation.with(figure, value);
            share(&flow(&changed, &batch.supplies).ok()?)
        }
    }
}

/// The last figure before an output that decides how much of it there is.
fn deciding(document: &Document, batch: &Batch<'_>, output: &str) -> Option<StepFigure> {
    let upstream = Upstream::of(document, batch, output);
    let kinds = upstream.steps.iter().rev();
    kinds
        .filter_map(|(step, own)| Some((*step, own.uncertain()?.0)))
        .find(|(_, kind)| decides(*kind))
        .map(|(step, kind)| StepFigure { step, kind })
}

const fn decides(kind: StepFigureKind) -> bool {
    !matches!(kind, StepFigureKind::GasKept | StepFigureKind::Overrun)
}

/// Works the deciding figure out again so that the flow gives the mean yield.
fn propose(
    document: &Document,
    batch: &Batch<'_>,
    output: &str,
    (mean, sigma): (f64, f64),
    said: &mut YieldSaid,
) {
    let figure = deciding(document, batch, output);
    let known = figure.and_then(|figure| Some((figure, figure.of(batch.preparation)?)));
    let Some((figure, from)) = known else {
        "no figure of a step decides how much of it there is".clone_into(&mut said.words);
        return;
    };
    let name = format!("step {}, {}", figure.step + 1, figure.kind.name());
    let solved = |share: f64| matching(batch, output, figure, share);
    let Some(typical) = solved(mean) else {
        said.words = format!(
            "{name}: no value of it gives the mean yield of {}; something else is off",
            percent(mean, 1)
        );
        return;
    };
    // Where an end cannot be reached the figure lies at its own end.
    let (least, most) = ends(batch, output, figure);
    let rises = predicted(batch, output, Some((figure, most)))
        >= predicted(batch, output, Some((figure, least)));
    let at_end =
        |share: f64, up: bool| solved(share).unwrap_or(if up == rises { most } else { least });
    let (one, other) = (
        at_end(mean - SIGMAS * sigma, false),
        at_end(mean + SIGMAS * sigma, true),
    );
    let to = Range {
        low: one.min(other).min(typical),
        typical,
        high: one.max(other).max(typical),
    };
    let lots = said.lots.len();
    said.words = format!(
        "{name}: {} instead of {} gives the mean yield of {} lots, {}",
        trimmed(to.typical, 3),
        trimmed(from.typical, 3),
        trimmed(lots as f64, 0),
        percent(mean, 1)
    );
    said.proposal = Some(YieldProposal {
        figure,
        from,
        to,
        lots,
    });
}

/// The value of a figure with which the output is this share of what goes in.
fn matching(batch: &Batch<'_>, output: &str, figure: StepFigure, share: f64) -> Option<f64> {
    let (least, most) = ends(batch, output, figure);
    bracketed_secant(least, most, MET, |value| {
        predicted(batch, output, Some((figure, value))).map_or(f64::NAN, |own| own - share)
    })
    .filter(|value| value.is_finite())
}

/// The widest values of a figure between which the batch can be worked through.
fn ends(batch: &Batch<'_>, output: &str, figure: StepFigure) -> (f64, f64) {
    let typical = figure
        .of(batch.preparation)
        .map_or(0.0, |range| range.typical);
    let works = |value: f64| predicted(batch, output, Some((figure, value))).is_some();
    let most = if figure.kind.most() <= 1.0 {
        NEARLY_ALL
    } else {
        MOST_PER_GRAM.max(typical)
    };
    (towards(typical, 0.0, works), towards(typical, most, works))
}

/// The point nearest to `end` that works, on the way from one that does.
fn towards(from: f64, end: f64, works: impl Fn(f64) -> bool) -> f64 {
    if works(end) {
        return end;
    }
    let (mut good, mut bad) = (from, end);
    for _ in 0..50 {
        let middle = 0.5 * (good + bad);
        if works(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}
