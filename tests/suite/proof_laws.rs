//! Laws that every set of proposals keeps, on the questions of the exhaustive proof.

use crate::proof_enumeration::{Grid, Spot};
use crate::proof_exhaustive::taken;
use crate::proof_questions::{asked, resolved, seeded};
use crate::sample_drinks::{TRIAL, builtin};
use equipour::balance::{step_of, steps_between, usual_vessel_kj_per_k};
use equipour::model::{
    Bounded, Dilution, Document, IceLeft, Place, Point, Pour, ScaleRule, Spec, check,
};
use equipour::rebalance::{Kind, Proposal, front, nearest, propose};
use equipour::session::{Edit, Session};
use equipour::solver::Proof;
use std::sync::Arc;

fn pours_of(spec: &mut Spec) -> &mut Vec<Pour> {
    &mut Arc::make_mut(&mut spec.trials[0]).pours
}

/// The objective of the nearest proposal, once proved; +∞ if nothing keeps the limits.
fn nearest_objective(document: &Document) -> Option<f64> {
    let grid = Grid::of(document);
    let Some(found) = nearest(&grid.question).expect("the question is sound") else {
        return Some(f64::INFINITY);
    };
    if found.evidence[0].proof != Proof::Complete {
        return None;
    }
    let spot = grid.spot_at(&taken(&grid.question, &found));
    grid.objective(Kind::Nearest, &spot)
}

/// Every question with one limit relaxed, where there is one to relax.
fn relaxed(change: fn(&mut Spec) -> bool, at_least: usize) {
    let (mut compared, mut unproved) = (0, 0);
    for seed in 2_000..2_250 {
        let document = seeded(seed);
        let mut wider = document.clone();
        if !change(&mut wider.specs[0]) {
            continue;
        }
        check(&wider).expect("the document may say that");
        match (nearest_objective(&document), nearest_objective(&wider)) {
            (Some(before), Some(after)) => {
                assert!(after <= before + 1e-8, "{seed}: {after} above {before}");
                compared += 1;
            }
            _ => unproved += 1,
        }
    }
    assert!(compared >= at_least, "only {compared} compared");
    assert!(
        unproved * 20 <= compared,
        "{unproved} not proved, {compared} compared"
    );
}

#[test]
fn a_larger_maximum_never_worsens_the_nearest() {
    relaxed(
        |spec| {
            let pours = pours_of(spec);
            for pour in pours.iter_mut() {
                pour.maximum = pour.maximum.map(|most| 1.3 * most);
            }
            pours
                .iter()
                .any(|pour| !pour.locked && pour.maximum.is_some())
        },
        200,
    );
}

#[test]
fn a_smaller_minimum_never_worsens_the_nearest() {
    relaxed(
        |spec| {
            let pours = pours_of(spec);
            let any = pours
                .iter()
                .any(|pour| !pour.locked && pour.minimum.is_some());
            for pour in pours.iter_mut() {
                pour.minimum = None;
            }
            any
        },
        100,
    );
}

#[test]
fn wider_bounds_never_worsen_the_nearest() {
    relaxed(
        |spec| {
            for figure in Bounded::ALL {
                let bound = spec.bounds.of_mut(figure);
                // Counts of pours are whole numbers.
                let (less, more) = if figure == Bounded::Pours {
                    (0.0, 1.0)
                } else {
                    (0.9, 0.0)
                };
                bound.least = bound.least.map(|least| less * least);
                let factor = if figure == Bounded::Strength {
                    1.0
                } else {
                    1.1
                };
                bound.most = bound.most.map(|most| {
                    if more > 0.0 {
                        most + more
                    } else {
                        factor * most
                    }
                });
            }
            spec.glass.capacity_ml *= 1.05;
            !spec.bounds.is_blank()
        },
        60,
    );
}

#[test]
fn a_limit_switched_off_never_worsens_the_nearest() {
    relaxed(
        |spec| {
            let figure = Bounded::ALL
                .into_iter()
                .find(|figure| spec.bounds.of(*figure).binds());
            if let Some(figure) = figure {
                spec.bounds.of_mut(figure).on = false;
            }
            figure.is_some()
        },
        60,
    );
}

#[test]
fn another_unlocked_pour_never_worsens_the_nearest() {
    relaxed(
        |spec| {
            let held = spec.balancing.scale_rule == ScaleRule::BasePour;
            let mut pours = pours_of(spec).iter_mut().skip(usize::from(held));
            let locked = pours.find(|pour| pour.locked);
            locked.map(|pour| pour.locked = false).is_some()
        },
        60,
    );
}

#[test]
fn holding_nothing_never_worsens_the_nearest() {
    relaxed(
        |spec| {
            let held = spec.balancing.scale_rule != ScaleRule::None;
            spec.balancing.scale_rule = ScaleRule::None;
            held
        },
        150,
    );
}

#[test]
fn a_heavy_axis_never_leaves_a_legal_drink_without_a_nearest() {
    for seed in 2_300..2_360 {
        let mut document = seeded(seed);
        let weights = &mut document.specs[0].balancing.weights;
        for weight in [&mut weights.sweet, &mut weights.sour, &mut weights.strength] {
            *weight *= 1.0e5;
        }
        let grid = Grid::of(&document);
        let now = grid.spot_at(&grid.question.present());
        let found = nearest(&grid.question).expect("the question is sound");
        assert!(found.is_some() || !now.legal, "{seed}");
    }
}

/// Twice as much of everything that has a size, with nothing that keeps its own.
fn doubled(document: &Document) -> (Document, Document) {
    let mut single = document.clone();
    let uppers: Vec<(usize, f64)> = asked(document)
        .unknowns
        .iter()
        .map(|u| (u.pour, u.upper))
        .collect();
    let measures = document.measures;
    let spec = &mut single.specs[0];
    let trial = Arc::make_mut(&mut spec.trials[0]);
    let vessel = usual_vessel_kj_per_k(trial.technique.method);
    trial.technique.chilling.vessel_kj_per_k = Some(vessel);
    trial.technique.chilling.vessel = Place::Room;
    trial.technique.chilling.ice_left = IceLeft::AllMelted;
    for (pour, upper) in uppers {
        trial.pours[pour].step = Some(step_of(&trial.pours[pour], &measures));
        trial.pours[pour].maximum = Some(upper);
    }
    let mut twice = single.clone();
    let spec = &mut twice.specs[0];
    spec.glass.capacity_ml *= 2.0;
    for figure in [Bounded::ServedVolume, Bounded::Alcohol, Bounded::Cost] {
        let bound = spec.bounds.of_mut(figure);
        (bound.least, bound.most) = (bound.least.map(|x| 2.0 * x), bound.most.map(|x| 2.0 * x));
    }
    let trial = Arc::make_mut(&mut spec.trials[0]);
    trial.technique.chilling.vessel_kj_per_k = Some(2.0 * vessel);
    if let Dilution::IceGrams(grams) = &mut trial.technique.dilution {
        *grams *= 2.0;
    }
    for pour in &mut trial.pours {
        let amount = pour.amount.value().unwrap_or(0.0);
        pour.amount = pour.amount.with_value(2.0 * amount);
        for size in [&mut pour.step, &mut pour.minimum, &mut pour.maximum] {
            *size = size.map(|size| 2.0 * size);
        }
    }
    twice.jiggers_ml.iter_mut().for_each(|size| *size *= 2.0);
    (single, twice)
}

#[test]
fn twice_the_drink_with_twice_the_measures_has_the_same_answer() {
    let (mut compared, mut same) = (0, 0);
    for seed in 2_400..2_600 {
        let (single, twice) = doubled(&seeded(seed));
        let (one, other) = (Grid::of(&single), Grid::of(&twice));
        let found = [&one, &other].map(|grid| nearest(&grid.question).expect("it is sound"));
        let [Some(first), Some(second)] = found else {
            assert!(found.iter().all(Option::is_none), "{seed}: {found:?}");
            continue;
        };
        let (x, y) = (
            taken(&one.question, &first),
            taken(&other.question, &second),
        );
        let value = |grid: &Grid, x: &[f64]| grid.objective(Kind::Nearest, &grid.spot_at(x));
        let values = (value(&one, &x), value(&other, &y));
        let (Some(least), Some(least_of_twice)) = values else {
            panic!("{seed}: {values:?}");
        };
        assert!((least - least_of_twice).abs() < 1e-8, "{seed}: {values:?}");
        compared += 1;
        same += usize::from(x.iter().zip(&y).all(|(x, y)| 2.0 * x == *y));
    }
    assert!(compared >= 150, "only {compared} compared");
    // Two points may be equally good; that is rare.
    assert!(same * 100 >= compared * 97, "{same} of {compared} alike");
}

/// All proposals of a document.
fn all_proposals(grid: &Grid) -> Vec<Proposal> {
    let answer = propose(&grid.question).expect("the question is sound");
    let mut all = answer.proposals;
    all.extend(front(&grid.question).expect("the question is sound"));
    all
}

#[test]
fn a_proposal_that_is_taken_lands_where_it_says() {
    let (mut taken, mut cold) = (0, 0.0_f64);
    for seed in 2_600..2_700 {
        let document = seeded(seed);
        let grid = Grid::of(&document);
        // What cold things spare is the present drink's while pours move, and anew afterwards.
        let is_cold = grid.question.drink.ice.spare.is_some()
            || document.specs[0].trials[0].technique.chilling.ice_left == IceLeft::AsDrunk;
        for proposal in all_proposals(&grid) {
            let mut session = Session::new(Arc::clone(builtin()), document.clone());
            let edit = Edit::ApplyChanges {
                trial: TRIAL,
                changes: proposal.changes.clone(),
                label: "nearest".to_owned(),
            };
            session.edit(&edit).expect("it can be taken");
            let served = resolved(session.document())
                .served()
                .expect("it can be served");
            let (lands, says) = (Point::from(&served), proposal.point);
            let off = [
                lands.sweet_g_per_l - says.sweet_g_per_l,
                lands.sour_g_per_l - says.sour_g_per_l,
                lands.strength_pct_vol - says.strength_pct_vol,
                served.volume_ml - proposal.served_ml,
            ];
            let off = off
                .into_iter()
                .fold(0.0, |most: f64, off| most.max(off.abs()));
            if is_cold {
                let apart = steps_between(&lands, &says, &grid.question.senses);
                cold = cold.max(apart.distance(&grid.question.balancing.weights));
                continue;
            }
            assert!(off < 1e-9, "{seed}: {off}");
            taken += 1;
        }
    }
    assert!(taken > 180, "only {taken} taken");
    // A quarter of a noticeable step is where it stops being a matter of rounding.
    assert!(cold < 0.25, "a cold drink is {cold} noticeable steps off");
}

#[test]
fn no_proposal_breaks_a_limit_a_lock_a_step_or_a_bound() {
    let mut count = 0;
    for seed in 2_700..2_820 {
        let document = seeded(seed);
        let grid = Grid::of(&document);
        let pours = &document.specs[0].trials[0].pours;
        for proposal in all_proposals(&grid) {
            for change in &proposal.changes {
                let pour = &pours[change.pour];
                let now = pour.amount.value().expect("it has an amount");
                assert!(!pour.locked, "{seed}");
                assert_eq!(change.from, now);
                assert!(
                    change.to >= pour.least().unwrap_or(0.0).min(now) - 1e-12,
                    "{seed}"
                );
                assert!(
                    change.to <= pour.most().unwrap_or(f64::MAX).max(now) + 1e-12,
                    "{seed}"
                );
                let steps = change.to / step_of(pour, &document.measures);
                assert!((steps - steps.round()).abs() < 1e-9, "{seed}: {change:?}");
            }
            let spot = grid.spot_at(&taken(&grid.question, &proposal));
            assert!(spot.legal, "{seed}: {:?} at {:?}", proposal.kinds, spot.x);
            assert!((spot.squared.sqrt() - proposal.distance).abs() < 1e-9);
            assert!((spot.change - proposal.change_steps).abs() < 1e-9);
            count += 1;
        }
    }
    assert!(count > 300, "only {count} proposals");
}

/// The least change of all points that come within a distance.
fn least_change(spots: &[Spot], distance: f64) -> f64 {
    let within = spots
        .iter()
        .filter(|spot| spot.squared <= distance * distance);
    within
        .map(|spot| spot.change + 1.0e-3 * spot.squared)
        .fold(f64::INFINITY, f64::min)
}

#[test]
fn the_front_is_sorted_undominated_and_made_of_smallest_changes() {
    let mut points = 0;
    for seed in 2_820..2_900 {
        let document = seeded(seed);
        let grid = Grid::of(&document);
        let mut spots = Vec::new();
        grid.each_legal(|spot| spots.push(spot.clone()));
        let found = front(&grid.question).expect("the question is sound");
        let mut reach = grid.squared_now.sqrt();
        for proposal in &found {
            reach *= 0.75;
            let spot = grid.spot_at(&taken(&grid.question, proposal));
            let change = spot.change + 1.0e-3 * spot.squared;
            let least = least_change(&spots, reach);
            assert!(
                (change - least).abs() < 1e-8,
                "{seed}: {change}, not {least}"
            );
            assert_eq!(proposal.evidence[0].proof, Proof::Complete, "{seed}");
            reach = reach.min(proposal.distance);
        }
        for pair in found.windows(2) {
            let (one, other) = (&pair[0], &pair[1]);
            assert!(other.distance < one.distance, "{seed}: no nearer");
            assert!(
                other.change_steps > one.change_steps,
                "{seed}: out of order"
            );
        }
        for (one, other) in found
            .iter()
            .flat_map(|one| found.iter().map(move |o| (one, o)))
        {
            let dominated = other.distance < one.distance - 1e-9
                && other.change_steps <= one.change_steps - 1e-9;
            assert!(
                !dominated,
                "{seed}: {:?} by {:?}",
                one.changes, other.changes
            );
        }
        assert!(
            found.len() == 8 || least_change(&spots, reach * 0.75).is_infinite(),
            "{seed}"
        );
        points += found.len();
    }
    assert!(points > 100, "only {points} points");
}
