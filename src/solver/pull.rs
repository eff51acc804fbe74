//! The smoothed absolute value φ(d) = √(d² + ε²) − ε and its derivatives.

/// φ(d), written so that nothing cancels near zero.
pub(super) fn value(d: f64, smoothing: f64) -> f64 {
    d * d / (root(d, smoothing) + smoothing)
}

/// φ'(d), between −1 and 1.
pub(super) fn slope(d: f64, smoothing: f64) -> f64 {
    d / root(d, smoothing)
}

/// φ'(d) and φ''(d) together.
pub(super) fn slope_and_curvature(d: f64, smoothing: f64) -> (f64, f64) {
    let inverse = root(d, smoothing).recip();
    let ratio = smoothing * inverse;
    (d * inverse, ratio * ratio * inverse)
}

/// Curvature of the parabola that touches φ at `d` and lies above it everywhere.
pub(super) fn majorant_curvature(d: f64, smoothing: f64) -> f64 {
    root(d, smoothing).recip()
}

/// The d at which φ' has the given value, which is kept a little inside −1 and 1.
pub(super) fn place_of_slope(slope: f64, smoothing: f64) -> f64 {
    let slope = slope.clamp(-0.999, 0.999);
    smoothing * slope / (1.0 - slope * slope).sqrt()
}

fn root(d: f64, smoothing: f64) -> f64 {
    (d * d + smoothing * smoothing).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn derivatives_match_central_differences() {
        let (smoothing, h) = (1e-3, 1e-7);
        for d in [-0.3, -2e-3, -1e-4, 0.0, 5e-4, 1e-2] {
            let (first, second) = slope_and_curvature(d, smoothing);
            let difference = (value(d + h, smoothing) - value(d - h, smoothing)) / (2.0 * h);
            assert!((first - difference).abs() < 1e-6, "slope at {d}");
            let difference = (slope(d + h, smoothing) - slope(d - h, smoothing)) / (2.0 * h);
            assert!(
                (second - difference).abs() < 1e-4 * second.max(1.0),
                "curvature at {d}"
            );
        }
    }

    #[test]
    fn place_of_slope_inverts_the_slope() {
        for wanted in [-0.99, -0.5, 0.0, 0.3, 0.95] {
            let found = slope(place_of_slope(wanted, 1e-3), 1e-3);
            assert!((found - wanted).abs() < 1e-13);
        }
    }
}
