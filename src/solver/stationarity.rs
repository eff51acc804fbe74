//! How far a point is from meeting the first-order conditions.

/// The multiplier of the held total and the steepest slope left open.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stationarity {
    /// d objective / d total; zero without a held total.
    pub(super) multiplier: f64,
    /// Largest slope that neither the bounds nor the total take up.
    pub(super) residual: f64,
}

impl Stationarity {
    /// Measures the slopes of the objective at a point within its bounds.
    ///
    /// The multiplier is the least-squares one of the unknowns between their bounds; if all sit
    /// on bounds, the value nearest zero that explains them.
    pub(super) fn measure(
        slope: &[f64],
        point: &[f64],
        bounds: (&[f64], &[f64]),
        weights: Option<&[f64]>,
    ) -> Self {
        let multiplier = weights.map_or(0.0, |weights| multiplier(slope, point, bounds, weights));
        let mut residual = 0.0_f64;
        for (i, &steepness) in slope.iter().enumerate() {
            let rest = steepness - weights.map_or(0.0, |weights| multiplier * weights[i]);
            let open = if point[i] <= bounds.0[i] {
                -rest
            } else if point[i] >= bounds.1[i] {
                rest
            } else {
                rest.abs()
            };
            residual = residual.max(open);
        }
        Self {
            multiplier,
            residual,
        }
    }
}

fn multiplier(slope: &[f64], point: &[f64], bounds: (&[f64], &[f64]), weights: &[f64]) -> f64 {
    let (mut product, mut square) = (0.0, 0.0);
    let (mut least, mut most) = (f64::NEG_INFINITY, f64::INFINITY);
    for (i, &weight) in weights.iter().enumerate() {
        if weight.abs() <= 0.0 {
            continue;
        }
        let ratio = slope[i] / weight;
        if point[i] > bounds.0[i] && point[i] < bounds.1[i] {
            product += slope[i] * weight;
            square += weight * weight;
        } else if (point[i] <= bounds.0[i]) == (weight > 0.0) {
            most = most.min(ratio);
        } else {
            least = least.max(ratio);
        }
    }
    if square > 0.0 {
        product / square
    } else if least <= most {
        0.0_f64.clamp(least, most)
    } else {
        0.5 * (least + most)
    }
}
