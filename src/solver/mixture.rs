//! What the proof needs to know of a mixture: ratios of linear amounts to a volume.

/// A volume that is nearly linear in the unknowns.
pub trait Mixture: Sync {
    /// The volume at a point, above zero; `None` where there is no mixture.
    fn volume(&self, x: &[f64]) -> Option<f64>;

    /// Encloses the volume for every point of the box, given by its ends, that is as `known`.
    ///
    /// The linear function is best near `at`. `None` if nothing can be said.
    fn enclose<'a>(
        &'a self,
        ends: (&[f64], &[f64]),
        at: &[f64],
        known: &Known,
    ) -> Option<Box<dyn Enclosure + 'a>>;
}

/// A linear function, and how far a volume lies from it.
pub trait Enclosure {
    /// Value of the function at zero.
    fn constant(&self) -> f64;

    /// Slopes of the function.
    fn slopes(&self) -> &[f64];

    /// The range of the function in a part of the box for points that matter; it must hold
    /// whatever the rounding, and may be infinite.
    fn linear(&self, lower: &[f64], upper: &[f64]) -> (f64, f64);

    /// How far the volume may lie below (not positive) and above (not negative) in a part of the
    /// box, likewise.
    fn rest(&self, lower: &[f64], upper: &[f64]) -> (f64, f64);
}

/// What is known of the points that matter, besides their box.
#[derive(Clone, Copy, Debug, Default)]
pub struct Known<'a> {
    /// Linear functions that lie within a range.
    pub totals: &'a [Ranged<'a>],
    /// Linear functions whose ratio to the volume lies within a range.
    pub ratios: &'a [Ranged<'a>],
}

/// A linear function of the unknowns with a range.
#[derive(Clone, Copy, Debug)]
pub struct Ranged<'a> {
    /// Its value at zero.
    pub constant: f64,
    /// Its slopes.
    pub per_unit: &'a [f64],
    /// Smallest value; −∞ for none.
    pub low: f64,
    /// Largest value; +∞ for none.
    pub high: f64,
}

/// One axis of the distance: weight·(ln(max(amount, 0)/volume + offset) − aim)².
#[derive(Clone, Debug, PartialEq)]
pub struct RatioAxis {
    /// The amount at zero.
    pub constant: f64,
    /// What one unit of each unknown adds to the amount.
    pub per_unit: Vec<f64>,
    /// Added to the ratio, above zero.
    pub offset: f64,
    /// Logarithm of what ratio and offset should add up to.
    pub aim: f64,
    /// Weight of the square, above zero.
    pub weight: f64,
    /// Ratio and offset together count as at least this; 0 for as they are.
    pub least: f64,
}

impl RatioAxis {
    /// The amount at a point.
    pub(super) fn amount(&self, x: &[f64]) -> f64 {
        let terms = self.per_unit.iter().zip(x);
        self.constant + terms.map(|(each, x)| each * x).sum::<f64>()
    }

    /// The weighted square at an amount and a volume.
    pub(super) fn square(&self, amount: f64, volume: f64) -> f64 {
        self.square_at(amount.max(0.0) / volume + self.offset)
    }

    /// The weighted square where ratio and offset add up to `z`.
    pub(super) fn square_at(&self, z: f64) -> f64 {
        let off = z.max(self.least).ln() - self.aim;
        self.weight * off * off
    }

    /// The largest weighted square that any ratio makes: that of none, or of the largest number.
    pub(super) fn farthest(&self) -> f64 {
        let most = f64::MAX.ln().max(self.offset.ln());
        let off = (self.offset.ln() - self.aim)
            .abs()
            .max((most - self.aim).abs());
        self.weight * off * off
    }

    /// A line below the square for every z from `fewest`, above zero, to `most`: its value at zero
    /// and its slope; it touches at `z` if it can.
    ///
    /// The square is convex up to e times the aim and bends down beyond, so a tangent from the
    /// convex part stays below as long as it does so at `most`. Below the least that counts it is
    /// flat, so that a falling tangent stays below as long as it does so at `fewest`.
    pub(super) fn support(&self, z: f64, fewest: f64, most: f64) -> (f64, f64) {
        let bottom = self.aim.exp();
        if z < bottom && fewest < self.least {
            return self.falling(z, fewest);
        }
        let mut at = z.min(bottom * core::f64::consts::E);
        if most > bottom * core::f64::consts::E {
            let end = self.square_at(most);
            // Halve the way to the bottom, where the tangent is flat and always below.
            for _ in 0..MOST_HALVINGS {
                let (start, slope) = self.tangent(at);
                if start + slope * most <= end {
                    break;
                }
                at = 0.5 * (at + bottom);
            }
            let (start, slope) = self.tangent(at);
            if start + slope * most > end {
                return (0.0, 0.0);
            }
        }
        self.tangent(at)
    }

    /// The same from the falling side, with a flat part below the least that counts.
    fn falling(&self, z: f64, fewest: f64) -> (f64, f64) {
        let (bottom, flat) = (self.aim.exp(), self.square_at(fewest));
        let mut at = z.max(self.least);
        for _ in 0..MOST_HALVINGS {
            if at >= bottom {
                break;
            }
            let (start, slope) = self.tangent(at);
            if start + slope * fewest <= flat {
                return (start, slope);
            }
            // Halve the way to the bottom, where the tangent is flat and always below.
            at = 0.5 * (at + bottom);
        }
        (0.0, 0.0)
    }

    fn tangent(&self, at: f64) -> (f64, f64) {
        let off = at.ln() - self.aim;
        let slope = 2.0 * self.weight * off / at;
        (self.weight * off * off - slope * at, slope)
    }
}

/// Halvings until a tangent that is too steep counts as flat.
const MOST_HALVINGS: usize = 40;
