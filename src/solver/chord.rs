//! The distance from below, where it is part of the objective.

use super::span::Span;

/// weight·D ≥ constant + slope·(L − middle·V) for every point that may be better.
///
/// With s = L − middle·V ≤ V·(D − middle) the quotient s/V is at least s over the largest V where s
/// is positive and over the smallest where it is negative; that is concave in s, so the chord between
/// the ends of s lies below it. Below the lower end D ≥ 0 says as much.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chord {
    pub(super) constant: f64,
    pub(super) slope: f64,
    pub(super) middle: f64,
}

impl Chord {
    pub(super) fn of(weight: f64, most: f64, length: f64, price: f64, volume: Span) -> Self {
        if weight <= 0.0 || price <= 0.0 || !most.is_finite() {
            return Self {
                constant: 0.0,
                slope: 0.0,
                middle: 0.0,
            };
        }
        let residual = length / (2.0 * price);
        let middle = (residual * residual).min(0.999 * most);
        let (low, high) = (-middle * volume.0, (most - middle) * volume.1);
        let run = (high - low).max(1.0e-12 * volume.1);
        let slope = most / run;
        Self {
            constant: weight * (middle + (most - middle) - slope * high),
            slope: weight * slope,
            middle,
        }
    }
}
