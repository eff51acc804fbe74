//! The state of the search for one step: where it stands and what it has found out.

use super::face::Face;
use super::local_model::LocalModel;
use super::presolve::Presolve;

/// What an unknown does during the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// Stays on its lower bound.
    Lower,
    /// Stays on its upper bound.
    Upper,
    /// Stays at the kink of its pull.
    Kink,
    /// Moves.
    Free,
}

/// What one search may read.
pub(super) struct Ground<'a> {
    pub(super) limits: &'a Presolve<'a>,
    pub(super) model: &'a LocalModel,
    pub(super) smoothing: f64,
    /// Slope that counts as none.
    pub(super) tolerance: f64,
}

impl Ground<'_> {
    /// Weights of the held total.
    pub(super) fn weights(&self) -> Option<&[f64]> {
        self.limits.weights.as_deref()
    }

    /// Both bounds.
    pub(super) fn bounds(&self) -> (&[f64], &[f64]) {
        (&self.limits.lower, &self.limits.upper)
    }
}

/// An unknown and where it has to stop.
pub(super) type Stop = Option<(usize, f64)>;

/// The point of the search and its working memory.
pub(super) struct Walk {
    /// Where the search stands, in steps from the reference.
    pub(super) point: Vec<f64>,
    /// Slope of the squared residuals' model there.
    pub(super) slope: Vec<f64>,
    /// What each unknown does.
    pub(super) place: Vec<Place>,
    /// Side of the kink a moving unknown is on: −1 or 1, 0 without a pull.
    pub(super) side: Vec<f64>,
    /// Slope with the pull.
    pub(super) total_slope: Vec<f64>,
    /// Curvature added to the Hessian's diagonal.
    pub(super) diagonal: Vec<f64>,
    /// The unknowns that move and their step.
    pub(super) face: Face,
    /// Hessian times step.
    pub(super) product: Vec<f64>,
    /// Multiplier of the held total.
    pub(super) multiplier: f64,
    /// The last face's matrix was not positive definite.
    pub(super) singular: bool,
}

impl Walk {
    /// Room for `n` unknowns.
    pub(super) fn new(n: usize) -> Self {
        Self {
            point: vec![0.0; n],
            slope: vec![0.0; n],
            place: vec![Place::Free; n],
            side: vec![0.0; n],
            total_slope: vec![0.0; n],
            diagonal: vec![0.0; n],
            face: Face::new(n),
            product: vec![0.0; n],
            multiplier: 0.0,
            singular: false,
        }
    }

    /// Goes back to the point of the linearisation.
    pub(super) fn restart(&mut self, ground: &Ground, centre: &[f64]) {
        self.point.copy_from_slice(centre);
        self.slope.copy_from_slice(ground.model.gradient.as_slice());
    }

    /// Finds the step of the face; false if its matrix is singular.
    pub(super) fn solve_face(&mut self, ground: &Ground) -> bool {
        self.singular = !self.face.solve(
            ground.model.hessian(),
            &self.diagonal,
            &self.total_slope,
            ground.weights(),
        );
        !self.singular
    }

    /// How much of the face's step can be gone before an unknown meets its end, and which does.
    pub(super) fn first_stop(&self, end_of: impl Fn(usize) -> f64) -> (f64, Stop) {
        let (mut share, mut stop) = (1.0, None);
        for &i in &self.face.members {
            let (step, end) = (self.face.step[i], end_of(i));
            let room = end - self.point[i];
            if step.abs() > 0.0 && share * step.abs() >= room.abs() {
                share = room / step;
                stop = Some((i, end));
            }
        }
        (share, stop)
    }

    /// Goes a share of the face's step. `product` must hold Hessian times step.
    pub(super) fn advance(&mut self, share: f64) {
        for &i in &self.face.members {
            self.point[i] += share * self.face.step[i];
        }
        for (slope, product) in self.slope.iter_mut().zip(&self.product) {
            *slope += share * product;
        }
    }

    /// By how much the squared residuals' model, damping left out, lies lower here than at
    /// `centre`.
    pub(super) fn smooth_gain(&self, ground: &Ground, centre: &[f64]) -> f64 {
        let slopes = self.slope.iter().zip(ground.model.gradient.iter());
        let moves = self.point.iter().zip(centre);
        let mut gain = 0.0;
        for ((to, from), (slope, gradient)) in moves.zip(slopes) {
            let step = to - from;
            // The slope grew by (H + damping)·step; half of what H adds is the quadratic's rise.
            gain -= step * 0.5 * (slope + gradient - ground.model.damping * step);
        }
        gain
    }
}
