//! The ellipse in which a drink lies with 95 % probability.

use core::f64::consts::TAU;

/// Radius that holds 95 % of a normal distribution in two dimensions, in standard deviations.
///
/// The root of the 95 % point of χ² with two degrees of freedom, −2 ln 0.05 = 5.991.
pub const RADIUS: f64 = 2.447_746_830_680_816;

/// An ellipse around a point.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ellipse {
    /// Longer half-axis.
    pub major: f64,
    /// Shorter half-axis.
    pub minor: f64,
    /// Angle of the longer half-axis from x towards y, radians.
    pub angle: f64,
}

impl Ellipse {
    /// The 95 % ellipse of these (co)variances.
    pub(super) fn of(xx: f64, xy: f64, yy: f64) -> Self {
        let middle = 0.5 * (xx + yy);
        let half = (0.5 * (xx - yy)).hypot(xy);
        let (large, determinant) = (middle + half, xx * yy - xy * xy);
        // The product of the two, not their difference: exact for a very thin ellipse too.
        let small = if large > 0.0 {
            determinant / large
        } else {
            0.0
        };
        Self {
            major: RADIUS * large.max(0.0).sqrt(),
            minor: RADIUS * small.max(0.0).sqrt(),
            angle: 0.5 * (2.0 * xy).atan2(xx - yy),
        }
    }

    /// Points on it around a centre, evenly by angle; the last does not repeat the first.
    pub fn points(&self, centre: [f64; 2], count: usize) -> Vec<[f64; 2]> {
        let (sin, cos) = self.angle.sin_cos();
        (0..count)
            .map(|number| {
                let turn = TAU * number as f64 / count as f64;
                let (along, across) = (self.major * turn.cos(), self.minor * turn.sin());
                [
                    centre[0] + along * cos - across * sin,
                    centre[1] + along * sin + across * cos,
                ]
            })
            .collect()
    }
}
