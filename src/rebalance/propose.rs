//! Looks for proposals: continuous first, then rounded to the pour steps.

use super::blend::Blend;
use super::obstacle::{Verdict, verdict};
use super::proposal::{Change, Kind, Proposal};
use super::question::Question;
use crate::balance::steps_between;
use crate::model::ScaleRule;
use crate::solver::{
    ExchangeSettings, Grid, Held, Problem, ProblemError, Settings, Solution, minimise,
    minimise_multistart, round_to_grid,
};

/// One noticeable difference.
pub(crate) const NOTICEABLE: f64 = 1.0;
/// Cost of lying beyond one noticeable difference: more steps of change than any drink has.
const BEYOND: f64 = 1.0e5;
/// Rounds of linearising a held served volume; it converges quadratically.
const VOLUME_ROUNDS: usize = 4;
/// Halvings of the search for the strongest pull that still lands within one step.
const PULL_HALVINGS: usize = 14;
/// Places between the bounds from which a far target is looked for again.
const OTHER_STARTS: [f64; 3] = [0.1, 0.5, 0.9];
/// Sizes tried on the grid when nothing holds the size of the drink.
const SIZES: [f64; 5] = [1.0, 0.6, 0.8, 1.25, 1.6];

/// What the solver has to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Proposals that change something, best first.
    pub proposals: Vec<Proposal>,
    /// Whether the target can be reached, and what stops it.
    pub verdict: Verdict,
    /// Distance of the drink as it is.
    pub distance_now: f64,
}

/// Answers a question.
pub fn propose(question: &Question) -> Result<Answer, ProblemError> {
    let blend = Blend::new(question);
    let near = solve(&blend, question, question.balancing.reluctance)?;
    let distance_now = distance(&blend, question, &question.present());
    let mut proposals = Vec::new();
    let mut starts = Vec::new();
    let sizes = sizes(question, &near.x);
    if let Some((amounts, found)) = round(&blend, question, &near, Kind::Nearest, &sizes) {
        // What changes least starts here too, so that it never changes more than the nearest.
        starts.push(amounts);
        proposals.push(found);
    }
    if distance_now > NOTICEABLE {
        let soft = softest(&blend, question, &near)?.unwrap_or(near);
        starts.push(soft.x.clone());
        if let Some((_, found)) = round(&blend, question, &soft, Kind::SmallestChange, &starts)
            && found.distance <= NOTICEABLE
        {
            merge(&mut proposals, found);
        }
    }
    proposals.retain(|proposal| !proposal.changes.is_empty());
    Ok(Answer {
        verdict: verdict(&blend, question)?,
        proposals,
        distance_now,
    })
}

/// The proposal nearest to the target alone; it may change nothing. `None` when there is no drink.
pub fn nearest(question: &Question) -> Result<Option<Proposal>, ProblemError> {
    let blend = Blend::new(question);
    let near = solve(&blend, question, question.balancing.reluctance)?;
    let starts = sizes(question, &near.x);
    let found = round(&blend, question, &near, Kind::Nearest, &starts);
    Ok(found.map(|(_, proposal)| proposal))
}

/// Two proposals that change the same pours alike become one that says both kinds.
fn merge(proposals: &mut Vec<Proposal>, found: Proposal) {
    match proposals
        .iter_mut()
        .find(|known| known.changes == found.changes)
    {
        Some(known) => known.kinds.extend(found.kinds),
        None => proposals.push(found),
    }
}

/// Weighted distance from the target; infinite where there is no drink.
pub(crate) fn distance(blend: &Blend, question: &Question, x: &[f64]) -> f64 {
    blend.point(x).map_or(f64::INFINITY, |point| {
        steps_between(&point, &question.target, &question.senses)
            .distance(&question.balancing.weights)
    })
}

/// The continuous optimum alone, before anything is rounded to pour steps.
pub fn continuous(question: &Question) -> Result<Solution, ProblemError> {
    solve(
        &Blend::new(question),
        question,
        question.balancing.reluctance,
    )
}

/// The continuous optimum with `pull` squared steps per step of change.
pub(crate) fn solve(
    blend: &Blend,
    question: &Question,
    pull: f64,
) -> Result<Solution, ProblemError> {
    let present = question.present();
    match question.balancing.scale_rule {
        ScaleRule::None | ScaleRule::BasePour => run(blend, question, pull, None, &present),
        ScaleRule::PouredTotal => run(
            blend,
            question,
            pull,
            Some(poured_total(question)),
            &present,
        ),
        ScaleRule::ServedVolume => solve_served_volume(blend, question, pull, &present),
    }
}

/// The poured total, held where it is.
fn poured_total(question: &Question) -> Held {
    let weights: Vec<f64> = question.unknowns.iter().map(|u| u.ml_per_unit).collect();
    let total = dot(&weights, &question.present());
    Held { weights, total }
}

/// A held served volume is not linear: hold its tangent, move, and hold the next one.
fn solve_served_volume(
    blend: &Blend,
    question: &Question,
    pull: f64,
    present: &[f64],
) -> Result<Solution, ProblemError> {
    let Some((wanted, _)) = blend.volume_and_slopes(present) else {
        return run(blend, question, pull, None, present);
    };
    let mut x = present.to_vec();
    let mut best = None;
    for _ in 0..VOLUME_ROUNDS {
        let Some((volume, weights)) = blend.volume_and_slopes(&x) else {
            break;
        };
        let total = dot(&weights, &x) + wanted - volume;
        let held = Held { weights, total };
        let Ok(found) = run(blend, question, pull, Some(held), &x) else {
            break;
        };
        x.clone_from(&found.x);
        best = Some(found);
    }
    best.map_or_else(|| run(blend, question, pull, None, present), Ok)
}

/// As exact as amounts deserve: to a ten-thousandth of a notch, far below what rounding moves.
fn enough() -> Settings {
    Settings {
        f_tolerance: 1.0e-9,
        x_tolerance: 1.0e-7,
        g_tolerance: 1.0e-5,
        ..Settings::default()
    }
}

fn run(
    blend: &Blend,
    question: &Question,
    pull: f64,
    held: Option<Held>,
    start: &[f64],
) -> Result<Solution, ProblemError> {
    let unknowns = &question.unknowns;
    let problem = Problem {
        residuals: blend,
        lower: unknowns.iter().map(|u| u.lower).collect(),
        upper: unknowns.iter().map(|u| u.upper).collect(),
        reference: question.present(),
        scale: unknowns.iter().map(|u| u.step).collect(),
        pull: vec![pull; unknowns.len()],
        held,
    };
    let found = minimise(&problem, start, &enough())?;
    let away: f64 = found.residuals.iter().map(|r| r * r).sum();
    if away <= NOTICEABLE {
        return Ok(found);
    }
    // Far from the target the hills between may matter: look from other places, too.
    let mut starts = vec![found.x.clone()];
    starts.extend(OTHER_STARTS.map(|share| {
        let spans = unknowns.iter().enumerate();
        spans
            .map(|(place, u)| {
                // Every second unknown starts at the other end of its span.
                let share = if place % 2 == 0 { share } else { 1.0 - share };
                u.lower + share * (u.upper - u.lower)
            })
            .collect()
    }));
    minimise_multistart(&problem, &starts, &enough())
}

/// The strongest pull whose optimum still lies within one noticeable difference.
fn softest(
    blend: &Blend,
    question: &Question,
    near: &Solution,
) -> Result<Option<Solution>, ProblemError> {
    let base = question.balancing.reluctance.max(1.0e-4);
    let mut low = base;
    let mut best = near.clone();
    if distance(blend, question, &near.x) > NOTICEABLE {
        // Reluctance alone may keep it away: ask again with next to none.
        low = 1.0e-4;
        best = solve(blend, question, low)?;
        if distance(blend, question, &best.x) > NOTICEABLE {
            return Ok(None);
        }
    }
    let mut high = 64.0_f64.max(base * 64.0);
    for _ in 0..PULL_HALVINGS {
        let middle = (low * high).sqrt();
        let found = solve(blend, question, middle)?;
        if distance(blend, question, &found.x) <= NOTICEABLE {
            low = middle;
            best = found;
        } else {
            high = middle;
        }
    }
    Ok(Some(best))
}

/// Rounds several starts to the pour steps; gives the best amounts and describes them.
fn round(
    blend: &Blend,
    question: &Question,
    found: &Solution,
    kind: Kind,
    starts: &[Vec<f64>],
) -> Option<(Vec<f64>, Proposal)> {
    let grids: Vec<Grid> = question
        .unknowns
        .iter()
        .map(|u| Grid::new(u.step, u.lower, u.upper, u.present))
        .collect::<Result<_, _>>()
        // A step or bound that makes no grid leaves the pours as they are.
        .ok()?;
    let holds = held_on_grid(blend, question);
    let mut worth = |x: &[f64]| -> Option<f64> {
        if !holds(x) {
            return None;
        }
        let away = distance(blend, question, x);
        let change = change_steps(question, x);
        away.is_finite().then_some(match kind {
            Kind::Nearest => away * away + question.balancing.reluctance * change,
            Kind::SmallestChange if away <= NOTICEABLE => change,
            // However little it lies beyond one step of distance, no saved change makes up for it.
            Kind::SmallestChange => change + BEYOND * (1.0 + away - NOTICEABLE),
        })
    };
    let settings = ExchangeSettings::default();
    let rounded = starts
        .iter()
        .filter_map(|start| round_to_grid(&mut worth, &grids, start, &settings))
        .min_by(|one, other| one.objective.total_cmp(&other.objective))?;
    let described = describe(blend, question, &rounded.x, found, kind)?;
    Some((rounded.x, described))
}

/// The answer in the sizes that it may have: with nothing held every multiple of it is as near, and
/// the grid decides which is measured best.
fn sizes(question: &Question, x: &[f64]) -> Vec<Vec<f64>> {
    let factors: &[f64] = match question.balancing.scale_rule {
        ScaleRule::None => &SIZES,
        _ => &[1.0],
    };
    let scaled = |factor: &f64| {
        let parts = question.unknowns.iter().zip(x);
        parts
            .map(|(u, amount)| (amount * factor).clamp(u.lower, u.upper))
            .collect()
    };
    factors.iter().map(scaled).collect()
}

/// On a grid "held" means within half the largest unlocked step.
fn held_on_grid<'a>(blend: &'a Blend, question: &'a Question) -> impl Fn(&[f64]) -> bool + 'a {
    let slack = question
        .unknowns
        .iter()
        .map(|u| u.step * u.ml_per_unit)
        .fold(0.0_f64, f64::max)
        / 2.0
        + 1.0e-9;
    let present = question.present();
    let held = poured_total(question);
    let volume = blend
        .served(&present)
        .map_or(0.0, |served| served.volume_ml);
    move |x| match question.balancing.scale_rule {
        ScaleRule::None | ScaleRule::BasePour => true,
        ScaleRule::PouredTotal => (dot(&held.weights, x) - held.total).abs() <= slack,
        ScaleRule::ServedVolume => blend
            .served(x)
            .is_some_and(|served| (served.volume_ml - volume).abs() <= slack),
    }
}

fn change_steps(question: &Question, x: &[f64]) -> f64 {
    let parts = question.unknowns.iter().zip(x);
    parts.map(|(u, to)| (to - u.present).abs() / u.step).sum()
}

fn describe(
    blend: &Blend,
    question: &Question,
    x: &[f64],
    found: &Solution,
    kind: Kind,
) -> Option<Proposal> {
    let served = blend.served(x)?;
    let point = (&served).into();
    let steps = steps_between(&point, &question.target, &question.senses);
    let lines = &question.drink.lines;
    let mut amounts: Vec<f64> = lines.iter().map(|line| line.amount).collect();
    let mut changes = Vec::new();
    for (unknown, to) in question.unknowns.iter().zip(x) {
        amounts[unknown.line] = *to;
        if (to - unknown.present).abs() > 1.0e-9 {
            changes.push(Change {
                pour: unknown.pour,
                from: unknown.present,
                to: *to,
            });
        }
    }
    changes.sort_by_key(|change| change.pour);
    let cost = lines.iter().zip(&amounts);
    Some(Proposal {
        kinds: vec![kind],
        changes,
        point,
        steps,
        distance: steps.distance(&question.balancing.weights),
        distance_unrounded: distance(blend, question, &found.x),
        change_steps: change_steps(question, x),
        served_ml: served.volume_ml,
        // The sum of nothing is −0.
        cost: cost
            .filter_map(|(line, amount)| Some(line.price_per_unit()? * amount))
            .sum::<f64>()
            + 0.0,
        binding: Vec::new(),
        ending: found.status.text(),
    })
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
