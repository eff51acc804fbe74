//! A rule on the steps that amounts come in, as notches of the pours.

use super::rule_bounds::{End, RuledLimit};
use super::rule_build::Build;
use crate::balance::step_of;
use crate::model::Rule;

/// Multiples of a notch that are tried for one that is a multiple of the person's own, too.
const MOST_TIMES: u32 = 200;
/// Two amounts closer than this share of a notch are the same.
const SAME: f64 = 1.0e-6;

/// Every jiggered pour moves in multiples of the notch, and of the person's own where both can be.
pub(super) fn notches(build: &mut Build<'_>, rule: &Rule, notch: f64) {
    let measures = build.handed.document.measures;
    build.done.spec.bounds.on_notch = true;
    for place in 0..build.done.trial.pours.len() {
        let Some(pour) = build.done.trial.pours.get_mut(place) else {
            continue;
        };
        if pour.jiggered_in().is_none() {
            continue;
        }
        let own = step_of(pour, &measures);
        let new = both(own, notch);
        if (new - own).abs() > SAME * own {
            pour.step = Some(new);
            build.note(rule, RuledLimit::Notch(place));
        }
    }
}

/// The limit that lies on the notches of its pour, where a rule asks for them: an amount between two
/// notches would break it.
pub(super) fn on_notch(build: &Build<'_>, place: usize, end: End, amount: f64) -> f64 {
    let pour = build.done.trial.pours.get(place);
    let jiggered =
        pour.filter(|pour| build.done.spec.bounds.on_notch && pour.jiggered_in().is_some());
    let Some(pour) = jiggered else {
        return amount;
    };
    let step = step_of(pour, &build.handed.document.measures);
    match end {
        End::Least => (amount / step - SAME).ceil() * step,
        End::Most => (amount / step + SAME).floor() * step,
    }
}

/// The smallest multiple of the notch that is one of the own step, too; the notch where there is none.
fn both(own: f64, notch: f64) -> f64 {
    let multiples = (1..=MOST_TIMES).map(|times| f64::from(times) * notch);
    let mut shared = multiples.filter(|step| {
        let times = step / own;
        (times - times.round()).abs() < SAME * times.max(1.0) && times > 0.5
    });
    shared.next().unwrap_or(notch)
}
