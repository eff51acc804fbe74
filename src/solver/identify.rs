//! The active-set walk: which unknowns move when the pull is an exact absolute value.
//!
//! On a face (some unknowns on a bound or at the kink of their pull, the others moving on one
//! side of it) the model is a quadratic. The walk goes to the minimum of the face, takes in
//! whatever stops it on the way, and once there lets go the unknown that gains most.

use super::walk::{Ground, Place, Walk};

/// An unknown counts as at its kink within this many smoothing lengths.
const KINK_WIDTH: f64 = 10.0;

/// Walks from the centre to the minimum of the model with exact absolute values.
///
/// Ends early, at a point no worse than the last face's minimum, if a matrix is singular or
/// the walk does not settle.
pub(super) fn identify(walk: &mut Walk, ground: &Ground, centre: &[f64]) {
    walk.restart(ground, centre);
    walk.diagonal.fill(ground.model.damping);
    classify(walk, ground);
    for _ in 0..8 * centre.len() + 16 {
        let Some(settled) = to_face_minimum(walk, ground) else {
            return;
        };
        if settled && !release(walk, ground) {
            return;
        }
    }
}

/// Reads off where each unknown stands.
fn classify(walk: &mut Walk, ground: &Ground) {
    let width = KINK_WIDTH * ground.smoothing;
    let (lower, upper) = ground.bounds();
    for (i, &at) in walk.point.iter().enumerate() {
        let pulled = ground.limits.pull[i] > 0.0;
        walk.side[i] = if pulled { 1.0_f64.copysign(at) } else { 0.0 };
        walk.place[i] = if at <= lower[i] {
            Place::Lower
        } else if at >= upper[i] {
            Place::Upper
        } else if pulled && at.abs() <= width {
            Place::Kink
        } else {
            Place::Free
        };
    }
}

/// Goes towards the minimum of the face; tells whether it was reached, or None if there is none.
fn to_face_minimum(walk: &mut Walk, ground: &Ground) -> Option<bool> {
    walk.face.members.clear();
    for (i, &place) in walk.place.iter().enumerate() {
        if place == Place::Free {
            walk.face.members.push(i);
            walk.total_slope[i] = walk.slope[i] + walk.side[i] * ground.limits.pull[i];
        }
    }
    if walk.face.members.is_empty() {
        return Some(true);
    }
    if !walk.solve_face(ground) {
        return None;
    }
    let (share, stopped) = walk.first_stop(|i| end_of_side(walk, ground, i));
    ground.model.multiply(&walk.face.step, &mut walk.product);
    walk.advance(share);
    let Some((i, end)) = stopped else {
        return Some(true);
    };
    walk.point[i] = end;
    let (lower, upper) = ground.bounds();
    walk.place[i] = if end <= lower[i] {
        Place::Lower
    } else if end >= upper[i] {
        Place::Upper
    } else {
        Place::Kink
    };
    Some(false)
}

/// Where an unknown has to stop in the direction of its step: a bound or its kink.
fn end_of_side(walk: &Walk, ground: &Ground, i: usize) -> f64 {
    let (lower, upper) = ground.bounds();
    let at = walk.point[i];
    if walk.face.step[i] > 0.0 {
        if walk.side[i] < 0.0 {
            upper[i].min(at.max(0.0))
        } else {
            upper[i]
        }
    } else if walk.side[i] > 0.0 {
        lower[i].max(at.min(0.0))
    } else {
        lower[i]
    }
}

/// Slopes of the model when an unknown goes down and when it goes up, where it may.
fn slopes(walk: &Walk, ground: &Ground, i: usize) -> (f64, f64) {
    let (slope, pull) = (walk.slope[i], ground.limits.pull[i]);
    let (place, at) = (walk.place[i], walk.point[i]);
    if place == Place::Free {
        let slope = slope + walk.side[i] * pull;
        return (slope, slope);
    }
    let kink = place == Place::Kink;
    let down = if kink || at <= 0.0 {
        slope - pull
    } else {
        slope + pull
    };
    let up = if kink || at >= 0.0 {
        slope + pull
    } else {
        slope - pull
    };
    match place {
        Place::Lower => (f64::NEG_INFINITY, up),
        Place::Upper => (down, f64::INFINITY),
        Place::Kink | Place::Free => (down, up),
    }
}

/// Lets go what gains most by moving; false if nothing does.
fn release(walk: &mut Walk, ground: &Ground) -> bool {
    walk.multiplier = 0.0;
    if let Some(weights) = ground.weights() {
        if let Some(multiplier) = multiplier_of_moving(walk, ground, weights) {
            walk.multiplier = multiplier;
        } else if release_pair(walk, ground, weights) {
            return true;
        }
    }
    let mut worst = (ground.tolerance, None);
    for i in 0..walk.point.len() {
        if walk.place[i] == Place::Free {
            continue;
        }
        let level = ground
            .weights()
            .map_or(0.0, |weights| walk.multiplier * weights[i]);
        let (down, up) = slopes(walk, ground, i);
        if down - level > worst.0 {
            worst = (down - level, Some((i, -1.0)));
        }
        if level - up > worst.0 {
            worst = (level - up, Some((i, 1.0)));
        }
    }
    match worst.1 {
        Some((i, direction)) => {
            let_go(walk, ground, i, direction);
            true
        }
        None => false,
    }
}

/// The least-squares multiplier of the held total, if a moving unknown counts in it.
fn multiplier_of_moving(walk: &Walk, ground: &Ground, weights: &[f64]) -> Option<f64> {
    let (mut product, mut square) = (0.0, 0.0);
    for (i, &weight) in weights.iter().enumerate() {
        if walk.place[i] == Place::Free {
            product += weight * slopes(walk, ground, i).0;
            square += weight * weight;
        }
    }
    (square > 0.0).then(|| product / square)
}

/// With no moving unknown in the held total, two have to move at once: lets go the pair that
/// gains most. If none gains, sets the multiplier that explains the point.
fn release_pair(walk: &mut Walk, ground: &Ground, weights: &[f64]) -> bool {
    let mut least = (f64::NEG_INFINITY, None);
    let mut most = (f64::INFINITY, None);
    for (i, &weight) in weights.iter().enumerate() {
        if weight.abs() <= 0.0 {
            continue;
        }
        let (down, up) = slopes(walk, ground, i);
        // The multiplier has to lie between the two slopes per weight.
        let (low, high, sense) = if weight > 0.0 {
            (down / weight, up / weight, 1.0)
        } else {
            (up / weight, down / weight, -1.0)
        };
        if low > least.0 {
            least = (low, Some((i, -sense)));
        }
        if high < most.0 {
            most = (high, Some((i, sense)));
        }
    }
    if let ((low, Some(one)), (high, Some(other))) = (least, most)
        && low - high > ground.tolerance
    {
        let_go(walk, ground, one.0, one.1);
        let_go(walk, ground, other.0, other.1);
        return true;
    }
    walk.multiplier = if least.0 <= most.0 {
        0.0_f64.clamp(least.0, most.0)
    } else {
        0.5 * (least.0 + most.0)
    };
    false
}

fn let_go(walk: &mut Walk, ground: &Ground, i: usize, direction: f64) {
    // Off the kink the side is where the unknown stands, whatever way it moves.
    let at = walk.point[i];
    walk.side[i] = if ground.limits.pull[i] <= 0.0 {
        0.0
    } else if walk.place[i] == Place::Kink || at.abs() <= 0.0 {
        direction
    } else {
        1.0_f64.copysign(at)
    };
    walk.place[i] = Place::Free;
}
