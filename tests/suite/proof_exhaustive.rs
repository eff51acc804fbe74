//! Every kind of proposal against every point of its grid: no disagreement is allowed.

use crate::proof_enumeration::{Grid, Spot};
use crate::proof_questions::seeded;
use equipour::rebalance::{Kind, Proposal, Question, nearest, propose};
use equipour::solver::Proof;

/// Two objectives are the same.
const SAME: f64 = 1e-8;
const KINDS: [Kind; 4] = [
    Kind::SmallestChange,
    Kind::FewestPours,
    Kind::EasiestToMeasure,
    Kind::Cheapest,
];

/// The best of every kind by enumeration.
struct Best {
    nearest: f64,
    /// In the order of [`KINDS`].
    within_one: [f64; 4],
    fewest: usize,
    /// What the cheapest saves.
    saved: f64,
}

fn enumerate(grid: &Grid) -> Best {
    let mut best = Best {
        nearest: f64::INFINITY,
        within_one: [f64::INFINITY; 4],
        fewest: usize::MAX,
        saved: 0.0,
    };
    let now = grid.spot_at(&grid.question.present());
    grid.each_legal(|spot: &Spot| {
        let near = grid
            .objective(Kind::Nearest, spot)
            .expect("it always counts");
        best.nearest = best.nearest.min(near);
        for (kind, least) in KINDS.into_iter().zip(&mut best.within_one) {
            let Some(value) = grid.objective(kind, spot) else {
                continue;
            };
            if kind == Kind::Cheapest && value < *least {
                best.saved = now.price - spot.price;
            }
            if kind != Kind::FewestPours || spot.changed == best.fewest {
                *least = least.min(value);
            } else if spot.changed < best.fewest {
                (best.fewest, *least) = (spot.changed, value);
            }
        }
    });
    best
}

/// The unknowns' amounts once a proposal is taken.
pub(crate) fn taken(question: &Question, proposal: &Proposal) -> Vec<f64> {
    let unknowns = question.unknowns.iter();
    unknowns
        .map(|unknown| {
            let mut changes = proposal.changes.iter();
            let change = changes.find(|change| change.pour == unknown.pour);
            change.map_or(unknown.present, |change| change.to)
        })
        .collect()
}

/// What is wrong with the evidence of a kind: the proof is not complete, or something is left.
fn unproved(proposal: &Proposal, kind: Kind) -> Result<(), String> {
    let found = proposal.evidence.iter().find(|each| each.kind == kind);
    let found = found.ok_or_else(|| format!("no evidence of {kind:?}"))?;
    let whole = found.proof == Proof::Complete && found.gap == 0.0;
    whole.then_some(()).ok_or_else(|| format!("{found:?}"))
}

/// The spot where a proposal of a kind lands, which must be legal and as good as the best.
fn agrees(grid: &Grid, kind: Kind, proposal: &Proposal, best: f64) -> Result<Spot, String> {
    let spot = grid.spot_at(&taken(&grid.question, proposal));
    if !spot.legal {
        return Err(format!("{kind:?} breaks a limit: {:?}", spot.x));
    }
    let value = grid.objective(kind, &spot);
    let value = value.ok_or_else(|| format!("{kind:?} is not asked for"))?;
    if (value - best).abs() > SAME {
        let at = &spot.x;
        return Err(format!("{kind:?} {value} at {at:?}, by enumeration {best}"));
    }
    unproved(proposal, kind)?;
    Ok(spot)
}

/// Compares all kinds of one seed; how many of them had an answer.
fn compare(seed: u64) -> Result<usize, String> {
    let document = seeded(seed);
    let grid = Grid::of(&document);
    assert!(grid.points() <= 20_000, "{seed}: {} points", grid.points());
    let best = enumerate(&grid);
    let found = nearest(&grid.question).map_err(|error| error.to_string())?;
    let answer = propose(&grid.question).map_err(|error| error.to_string())?;
    let Some(found) = found else {
        let none = best.nearest.is_infinite() && answer.proposals.is_empty();
        let said = || format!("said to be infeasible, by enumeration {}", best.nearest);
        return none.then_some(0).ok_or_else(said);
    };
    agrees(&grid, Kind::Nearest, &found, best.nearest)?;
    let offered = |kind| answer.proposals.iter().find(|p| p.kinds.contains(&kind));
    // A drink that is near already is left as it is unless half a difference is gained or it breaks
    // a limit.
    let now = grid.squared_now.sqrt();
    let legal = grid.spot_at(&grid.question.present()).legal;
    let worth = now > 1.0 || found.distance < now - 0.5 || !legal;
    if offered(Kind::Nearest).is_some() != (worth && !found.changes.is_empty()) {
        return Err("nearest() and propose() differ".to_owned());
    }
    let mut answered = 1;
    for (kind, best_of_kind) in KINDS.into_iter().zip(best.within_one) {
        if let Some(proposal) = offered(kind) {
            let spot = agrees(&grid, kind, proposal, best_of_kind)?;
            if kind == Kind::FewestPours && spot.changed != best.fewest {
                return Err(format!("{} changed, not {}", spot.changed, best.fewest));
            }
            answered += 1;
            continue;
        }
        // Not asked for, or best left as it is.
        let now = grid.spot_at(&grid.question.present());
        let now = grid.objective(kind, &now).filter(|_| now.legal);
        let stays = now.is_some_and(|now| (now - best_of_kind).abs() < SAME);
        // A saving below a twentieth of the cost is none.
        let trifle = kind == Kind::Cheapest && best.saved <= 0.05 * grid.cost_now() + SAME;
        if found.distance <= 1.0 && best_of_kind.is_finite() && !stays && !trifle {
            return Err(format!(
                "no {kind:?}, by enumeration {best_of_kind}, now {now:?}"
            ));
        }
    }
    Ok(answered)
}

/// Compares a run of seeds, all of which must agree, with so many answers at least.
fn compare_all(seeds: core::ops::Range<u64>, at_least: usize) {
    let (mut answered, mut wrong) = (0, Vec::new());
    for seed in seeds {
        match compare(seed) {
            Ok(count) => answered += count,
            Err(error) => wrong.push(format!("question {seed}: {error}")),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(answered >= at_least, "only {answered} answers to compare");
}

#[test]
fn every_kind_of_proposal_is_the_best_point_of_its_grid_in_the_first_questions() {
    compare_all(0..250, 400);
}

#[test]
fn every_kind_of_proposal_is_the_best_point_of_its_grid_in_the_second_questions() {
    compare_all(250..500, 400);
}

#[test]
fn every_kind_of_proposal_is_the_best_point_of_its_grid_in_the_third_questions() {
    compare_all(500..750, 400);
}

#[test]
fn every_kind_of_proposal_is_the_best_point_of_its_grid_in_the_fourth_questions() {
    compare_all(750..1_000, 400);
}

#[test]
fn a_limit_on_the_number_of_pours_rules_out_no_pour_that_another_could_replace() {
    // Questions in which the best point leaves out a pour that the bound wanted to keep.
    compare_all(2752..2753, 1);
    compare_all(4302..4303, 1);
}
