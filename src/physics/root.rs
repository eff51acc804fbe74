//! Root of a function of one variable: Newton steps kept inside a bracket.

/// Most steps of one solve. Halving alone needs about 60 for full precision.
const MOST_STEPS: usize = 100;

/// The root of `function` between `low` and `high`, to `tolerance` in the variable.
///
/// `function` returns value and slope. A Newton step that leaves the bracket is replaced by
/// halving, so it always converges. `None` when the ends do not differ in sign.
pub(super) fn bracketed_root(
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
