//! Exact binomial probabilities, intervals and critical numbers.

use super::confidence_interval::ConfidenceInterval;

/// Halvings after which an interval's end is exact to the last bit.
const HALVINGS: usize = 60;

/// P(X ≥ `least`) for X binomial with `trials` and `chance`, exact up to rounding.
///
/// A sum of positive terms, each from its neighbour, starting at the most probable one: nothing
/// cancels and nothing overflows.
pub fn upper_tail(least: u32, trials: u32, chance: f64) -> f64 {
    if least == 0 {
        return 1.0;
    }
    if least > trials || chance <= 0.0 {
        return 0.0;
    }
    if chance >= 1.0 {
        return 1.0;
    }
    let odds = chance / (1.0 - chance);
    let mode = ((f64::from(trials) + 1.0) * chance).floor() as u32;
    let mode = mode.min(trials);
    let (mut below, mut above) = (0.0, 0.0);
    let mut add = |count: u32, term: f64| {
        if count < least {
            below += term;
        } else {
            above += term;
        }
    };
    let mut term = 1.0;
    add(mode, term);
    for count in mode..trials {
        term *= odds * f64::from(trials - count) / f64::from(count + 1);
        add(count + 1, term);
    }
    term = 1.0;
    for count in (1..=mode).rev() {
        term *= f64::from(count) / (odds * f64::from(trials - count + 1));
        add(count - 1, term);
    }
    above / (below + above)
}

/// Two-sided probability of so many of one kind among `trials` when both are as likely: the smaller
/// tail doubled, at most 1.
pub fn two_sided_probability(count: u32, trials: u32) -> f64 {
    let more = count.max(trials.saturating_sub(count));
    (2.0 * upper_tail(more, trials, 0.5)).min(1.0)
}

/// Interval of the true share after `count` of `trials` (Clopper and Pearson, Biometrika 1934;26:404),
/// which holds it at least as often as `confidence` says, 0 to 1. Without trials it is 0 to 1.
pub fn clopper_pearson(count: u32, trials: u32, confidence: f64) -> ConfidenceInterval {
    let outside = (1.0 - confidence) / 2.0;
    // The tail rises with the chance, so halving finds where it reaches a level.
    let reaching = |least: u32, level: f64| {
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if upper_tail(least, trials, middle) < level {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    };
    let low = match count {
        0 => 0.0,
        count => reaching(count, outside),
    };
    let high = if count >= trials {
        1.0
    } else {
        reaching(count + 1, 1.0 - outside)
    };
    ConfidenceInterval { low, high }
}

/// The smallest count whose upper tail is at most `level`; `None` when not even all of them would do.
///
/// For a two-sided test give half the level.
pub fn least_significant(trials: u32, chance: f64, level: f64) -> Option<u32> {
    // The tail falls as the count rises, so halving the range finds the first that is small enough.
    let (mut low, mut high) = (0, trials + 1);
    while low < high {
        let middle = low + (high - low) / 2;
        if upper_tail(middle, trials, chance) <= level {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    (low <= trials).then_some(low)
}
