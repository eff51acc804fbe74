//! The squared residuals, linearised at the present point.

use nalgebra::{DMatrix, DVector, DVectorView};

/// Least curvature along the last step, as a share of the linearised one, that is believed.
const LEAST_BENDING: f64 = 0.02;

/// |r + J p|² as gradient and Hessian in the step p, plus damping.
pub(super) struct LocalModel {
    /// Jacobian turned on its side: one column per residual, which is how a row-major
    /// Jacobian lies in memory.
    pub(super) jacobian: DMatrix<f64>,
    /// 2 Jᵀ r.
    pub(super) gradient: DVector<f64>,
    hessian: DMatrix<f64>,
    /// The Jacobian at the point before.
    pub(super) earlier: DMatrix<f64>,
    along: DVector<f64>,
    bent: DVector<f64>,
    /// Added to every diagonal entry of the Hessian.
    pub(super) damping: f64,
}

impl LocalModel {
    /// Room for `n` unknowns and `count` residuals.
    pub(super) fn new(n: usize, count: usize) -> Self {
        Self {
            jacobian: DMatrix::zeros(n, count),
            gradient: DVector::zeros(n),
            hessian: DMatrix::zeros(n, n),
            earlier: DMatrix::zeros(n, count),
            along: DVector::zeros(n),
            bent: DVector::zeros(n),
            damping: 0.0,
        }
    }

    /// Takes the residuals that belong to the Jacobian written before.
    pub(super) fn linearise(&mut self, residuals: &[f64]) {
        let residuals = DVectorView::from_slice(residuals, residuals.len());
        self.gradient.gemv(2.0, &self.jacobian, &residuals, 0.0);
        self.hessian.fill(0.0);
        for column in self.jacobian.column_iter() {
            self.hessian.ger(2.0, &column, &column, 1.0);
        }
    }

    /// Corrects the curvature along the step that led here by what the slopes say about it.
    ///
    /// The squared residuals are curved by 2 JᵀJ and by the residuals' own bending, which
    /// linearising leaves out and which matters where the residuals stay large. The last step
    /// shows the bending along itself: 2 (J − J₀)ᵀ r. A BFGS update puts it in and keeps the
    /// matrix positive; it is made anew at each point.
    pub(super) fn bend(&mut self, step: &[f64], residuals: &[f64]) {
        let step = DVectorView::from_slice(step, step.len());
        self.along.gemv(1.0, &self.hessian, &step, 0.0);
        self.bent.copy_from(&self.along);
        let columns = self.jacobian.column_iter().zip(self.earlier.column_iter());
        for ((column, earlier), &residual) in columns.zip(residuals) {
            self.bent.axpy(2.0 * residual, &column, 1.0);
            self.bent.axpy(-2.0 * residual, &earlier, 1.0);
        }
        let (straight, mut bent) = (self.along.dot(&step), self.bent.dot(&step));
        if straight <= 0.0 {
            return;
        }
        let least = LEAST_BENDING * straight;
        if bent < least {
            // Powell's mixture (1978, from memory): just enough of the old keeps it positive.
            let share = (straight - least) / (straight - bent);
            self.bent.axpy(1.0 - share, &self.along, share);
            bent = least;
        }
        self.hessian
            .ger(-straight.recip(), &self.along, &self.along, 1.0);
        self.hessian.ger(bent.recip(), &self.bent, &self.bent, 1.0);
    }

    /// The undamped Hessian, row by row.
    pub(super) fn hessian(&self) -> &[f64] {
        self.hessian.as_slice()
    }

    /// The largest curvature, kept above zero.
    pub(super) fn largest_curvature(&self) -> f64 {
        self.hessian
            .diagonal()
            .iter()
            .copied()
            .fold(1e-12, f64::max)
    }

    /// Writes (H + damping) · step; rows of zeros in the step cost nothing.
    pub(super) fn multiply(&self, step: &[f64], product: &mut [f64]) {
        let n = step.len();
        for (out, &along) in product.iter_mut().zip(step) {
            *out = self.damping * along;
        }
        for (line, &along) in self.hessian().chunks_exact(n.max(1)).zip(step) {
            if along.abs() > 0.0 {
                for (out, entry) in product.iter_mut().zip(line) {
                    *out += entry * along;
                }
            }
        }
    }
}
