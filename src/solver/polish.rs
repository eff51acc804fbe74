//! Newton's method on the model with the smoothed pull, within the bounds.

use super::pull;
use super::stationarity::Stationarity;
use super::walk::{Ground, Place, Stop, Walk};

/// Most Newton steps of one search.
const MOST_STEPS: usize = 30;

/// Most halvings of a Newton step that climbs.
const MOST_HALVINGS: i32 = 6;

/// A step shorter than this share of the smoothing length needs no check of its gain.
const SURE_STEP: f64 = 0.01;

/// Goes from the walk's point to the minimum of the model; false if it was not reached.
///
/// `aimed`: the walk comes from [`identify`](super::identify::identify), whose multiplier tells
/// where an unknown at its kink will come to rest. Newton's method alone is slow to leave a kink.
pub(super) fn polish(walk: &mut Walk, ground: &Ground, aimed: bool) -> bool {
    for step in 0..MOST_STEPS {
        for i in 0..walk.point.len() {
            let (slope, curvature) = pull::slope_and_curvature(walk.point[i], ground.smoothing);
            let pull = ground.limits.pull[i];
            walk.total_slope[i] = walk.slope[i] + pull * slope;
            walk.diagonal[i] = ground.model.damping + pull * curvature;
        }
        let found = Stationarity::measure(
            &walk.total_slope,
            &walk.point,
            ground.bounds(),
            ground.weights(),
        );
        if found.residual <= ground.tolerance {
            return true;
        }
        choose_members(walk, ground, found.multiplier);
        if aimed && step == 0 {
            aim(walk, ground);
        }
        if !newton_step(walk, ground) && !cautious_step(walk, ground) {
            return false;
        }
    }
    false
}

/// All that is between its bounds moves, and what gains by leaving its bound.
fn choose_members(walk: &mut Walk, ground: &Ground, multiplier: f64) {
    let (lower, upper) = ground.bounds();
    walk.face.members.clear();
    for i in 0..walk.point.len() {
        let level = ground
            .weights()
            .map_or(0.0, |weights| multiplier * weights[i]);
        let rest = walk.total_slope[i] - level;
        let at = walk.point[i];
        let kept = (at <= lower[i] && rest >= -ground.tolerance)
            || (at >= upper[i] && rest <= ground.tolerance);
        if !kept {
            walk.face.members.push(i);
        }
    }
}

/// Replaces the curvature of unknowns at their kink by that of the chord to where they will rest.
fn aim(walk: &mut Walk, ground: &Ground) {
    for i in 0..walk.point.len() {
        let pull = ground.limits.pull[i];
        if walk.place[i] != Place::Kink || pull <= 0.0 {
            continue;
        }
        let level = ground
            .weights()
            .map_or(0.0, |weights| walk.multiplier * weights[i]);
        let rest = pull::place_of_slope((level - walk.slope[i]) / pull, ground.smoothing);
        let (at, smoothing) = (walk.point[i], ground.smoothing);
        if (rest - at).abs() > SURE_STEP * smoothing {
            let rise = pull::slope(rest, smoothing) - pull::slope(at, smoothing);
            walk.diagonal[i] = ground.model.damping + pull * rise / (rest - at);
        }
    }
}

/// Takes the step of the curvature set, or a share of it; false, and nothing moved, if it
/// gains nothing.
fn newton_step(walk: &mut Walk, ground: &Ground) -> bool {
    let Some((share, stopped)) = find_step(walk, ground) else {
        return false;
    };
    let lengths = walk.face.step.iter().map(|step| step.abs());
    let longest = lengths.fold(0.0, f64::max);
    if share * longest <= SURE_STEP * ground.smoothing || rise(walk, ground, share) <= 0.0 {
        take(walk, share, stopped);
        return true;
    }
    for halvings in 1..=MOST_HALVINGS {
        let part = share * 0.5_f64.powi(halvings);
        if rise(walk, ground, part) < 0.0 {
            take(walk, part, None);
            return true;
        }
    }
    false
}

/// Takes the step of the parabolas above the pull, which never climbs.
fn cautious_step(walk: &mut Walk, ground: &Ground) -> bool {
    for i in 0..walk.point.len() {
        let curvature = pull::majorant_curvature(walk.point[i], ground.smoothing);
        walk.diagonal[i] = ground.model.damping + ground.limits.pull[i] * curvature;
    }
    match find_step(walk, ground) {
        Some((share, stopped)) => {
            take(walk, share, stopped);
            true
        }
        None => false,
    }
}

/// Solves the face and finds the share of the step that stays within the bounds.
fn find_step(walk: &mut Walk, ground: &Ground) -> Option<(f64, Stop)> {
    let (lower, upper) = ground.bounds();
    loop {
        if walk.face.members.is_empty() || !walk.solve_face(ground) {
            return None;
        }
        let (step, point) = (&walk.face.step, &walk.point);
        let before = walk.face.members.len();
        // What was let go but would leave through its bound stays after all.
        walk.face.members.retain(|&i| {
            let outward =
                (point[i] <= lower[i] && step[i] < 0.0) || (point[i] >= upper[i] && step[i] > 0.0);
            !outward
        });
        if walk.face.members.len() == before {
            break;
        }
    }
    let (share, stopped) = walk.first_stop(|i| {
        if walk.face.step[i] > 0.0 {
            upper[i]
        } else {
            lower[i]
        }
    });
    ground.model.multiply(&walk.face.step, &mut walk.product);
    Some((share, stopped))
}

/// By how much the model rises along a share of the step.
fn rise(walk: &Walk, ground: &Ground, share: f64) -> f64 {
    let mut rise = 0.0;
    for &i in &walk.face.members {
        let step = share * walk.face.step[i];
        let at = walk.point[i];
        rise += step * (walk.slope[i] + 0.5 * share * walk.product[i]);
        rise += ground.limits.pull[i]
            * (pull::value(at + step, ground.smoothing) - pull::value(at, ground.smoothing));
    }
    rise
}

fn take(walk: &mut Walk, share: f64, stopped: Stop) {
    walk.advance(share);
    if let Some((i, end)) = stopped {
        walk.point[i] = end;
    }
}
