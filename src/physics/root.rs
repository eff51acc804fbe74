//! Root of a function of one variable, kept inside a bracket.

/// Most steps of one solve. Halving alone needs about 60 for full precision.
const MOST_STEPS: usize = 100;

/// The root of `function` between `low` and `high`, to `tolerance` in the variable.
///
/// `function` returns value and slope. A Newton step that leaves the bracket is replaced by
/// halving, so it always converges. `None` when the ends do not differ in sign.
pub fn bracketed_root(
    mut low: f64,
    mut high: f64,
    guess: f64,
    tolerance: f64,
    function: impl Fn(f64) -> (f64, f64),
) -> Option<f64> {
    let (at_low, _) = function(low);
    let (at_high, _) = function(high);
    if at_low == 0.0 {
        return Some(low);
    }
    if at_high == 0.0 {
        return Some(high);
    }
    let ends_differ = at_low * at_high < 0.0;
    if !ends_differ {
        return None;
    }
    let mut x = guess.clamp(low, high);
    for _ in 0..MOST_STEPS {
        let (value, slope) = function(x);
        if (value < 0.0) == (at_low < 0.0) {
            low = x;
        } else {
            high = x;
        }
        let step = value / slope;
        if value == 0.0 {
            return Some(x);
        }
        if step.abs() <= tolerance {
            return Some((x - step).clamp(low, high));
        }
        let newton = x - step;
        x = if newton > low && newton < high {
            newton
        } else {
            0.5 * (low + high)
        };
        if high - low <= tolerance {
            break;
        }
    }
    Some(x)
}

/// An end of a bracket.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Low,
    High,
}

/// The root of `function` between `low` and `high`, to `tolerance` in its value.
///
/// False position with the Illinois correction: an end that stays twice in a row counts half, so
/// that both ends close in. `None` when the ends do not differ in sign or a value is no number.
pub fn bracketed_secant(
    mut low: f64,
    mut high: f64,
    tolerance: f64,
    function: impl Fn(f64) -> f64,
) -> Option<f64> {
    let (mut at_low, mut at_high) = (function(low), function(high));
    let ends_differ = at_low * at_high <= 0.0;
    if !ends_differ {
        return None;
    }
    let mut stayed = None;
    for _ in 0..MOST_STEPS {
        let x = (low * at_high - high * at_low) / (at_high - at_low);
        let value = function(x);
        if value.is_nan() {
            return None;
        }
        if value.abs() <= tolerance || (high - low).abs() <= 1.0e-13 * (1.0 + x.abs()) {
            return Some(x);
        }
        if (value < 0.0) == (at_low < 0.0) {
            (low, at_low) = (x, value);
            if stayed == Some(End::High) {
                at_high *= 0.5;
            }
            stayed = Some(End::High);
        } else {
            (high, at_high) = (x, value);
            if stayed == Some(End::Low) {
                at_low *= 0.5;
            }
            stayed = Some(End::Low);
        }
    }
    None
}
