//! The Newton step of some unknowns while the others stay where they are.

/// The unknowns that move, and the room to find their step.
pub(super) struct Face {
    /// Positions of the unknowns that move.
    pub(super) members: Vec<usize>,
    /// The step found, one entry per unknown, zero for those that stay.
    pub(super) step: Vec<f64>,
    kept: Vec<usize>,
    matrix: Vec<f64>,
    solution: Vec<f64>,
}

impl Face {
    /// Room for `n` unknowns.
    pub(super) fn new(n: usize) -> Self {
        Self {
            members: Vec::with_capacity(n),
            step: vec![0.0; n],
            kept: Vec::with_capacity(n),
            matrix: vec![0.0; n * n],
            solution: Vec::with_capacity(n),
        }
    }

    /// Finds the step to the minimum of ½ sᵀ(H + diag) s + slope·s over the members.
    ///
    /// With weights, Σ weights·s = 0 holds by elimination of the member with the largest
    /// weight. False if the matrix is not positive definite.
    pub(super) fn solve(
        &mut self,
        hessian: &[f64],
        diagonal: &[f64],
        slope: &[f64],
        weights: Option<&[f64]>,
    ) -> bool {
        self.step.fill(0.0);
        let pivot = weights.and_then(|weights| self.heaviest(weights));
        self.kept.clear();
        self.kept
            .extend(self.members.iter().filter(|&&i| Some(i) != pivot));
        match (pivot, weights) {
            (Some(pivot), Some(weights)) => {
                self.assemble_reduced(hessian, diagonal, slope, pivot, weights);
            }
            _ => self.assemble(hessian, diagonal, slope),
        }
        let m = self.kept.len();
        if !solve_in_place(&mut self.matrix[..m * m], &mut self.solution) {
            return false;
        }
        for (&i, &value) in self.kept.iter().zip(&self.solution) {
            self.step[i] = value;
        }
        if let (Some(pivot), Some(weights)) = (pivot, weights) {
            let moved: f64 = self.kept.iter().map(|&i| weights[i] * self.step[i]).sum();
            self.step[pivot] = -moved / weights[pivot];
        }
        true
    }

    fn heaviest(&self, weights: &[f64]) -> Option<usize> {
        self.members
            .iter()
            .copied()
            .filter(|&i| weights[i].abs() > 0.0)
            .max_by(|&i, &j| weights[i].abs().total_cmp(&weights[j].abs()))
    }

    fn assemble(&mut self, hessian: &[f64], diagonal: &[f64], slope: &[f64]) {
        let (n, m) = (diagonal.len(), self.kept.len());
        self.solution.clear();
        for (row, &i) in self.kept.iter().enumerate() {
            let entries = &mut self.matrix[row * m + row..(row + 1) * m];
            let line = &hessian[i * n..(i + 1) * n];
            for (entry, &j) in entries.iter_mut().zip(&self.kept[row..]) {
                *entry = line[j];
            }
            entries[0] += diagonal[i];
            self.solution.push(-slope[i]);
        }
    }

    fn assemble_reduced(
        &mut self,
        hessian: &[f64],
        diagonal: &[f64],
        slope: &[f64],
        pivot: usize,
        weights: &[f64],
    ) {
        let (n, m) = (diagonal.len(), self.kept.len());
        let corner = hessian[pivot * n + pivot] + diagonal[pivot];
        let share = |i: usize| weights[i] / weights[pivot];
        self.solution.clear();
        for (row, &i) in self.kept.iter().enumerate() {
            let entries = &mut self.matrix[row * m + row..(row + 1) * m];
            let across = hessian[i * n + pivot];
            for (entry, &j) in entries.iter_mut().zip(&self.kept[row..]) {
                *entry = hessian[i * n + j] - share(i) * hessian[j * n + pivot]
                    + share(j) * (share(i) * corner - across);
            }
            entries[0] += diagonal[i];
            self.solution.push(share(i) * slope[pivot] - slope[i]);
        }
    }
}

/// Solves M s = b by Cholesky in place; reads the upper triangle of the row-major M.
///
/// Rows are worked off from the top (M = UᵀU), so that the inner loops run along rows. The
/// diagonal holds reciprocals.
fn solve_in_place(matrix: &mut [f64], right: &mut [f64]) -> bool {
    let m = right.len();
    for k in 0..m {
        let (upto, below) = matrix.split_at_mut((k + 1) * m);
        let row = &mut upto[k * m..];
        if row[k].is_nan() || row[k] <= 0.0 {
            return false;
        }
        let reciprocal = row[k].sqrt().recip();
        for entry in &mut row[k + 1..] {
            *entry *= reciprocal;
        }
        row[k] = reciprocal;
        right[k] *= reciprocal;
        let done = right[k];
        for (j, line) in below.chunks_exact_mut(m).enumerate() {
            let j = k + 1 + j;
            let factor = row[j];
            for (entry, above) in line[j..].iter_mut().zip(&row[j..]) {
                *entry -= factor * above;
            }
            right[j] -= factor * done;
        }
    }
    for k in (0..m).rev() {
        let row = &matrix[k * m..(k + 1) * m];
        let known: f64 = row[k + 1..]
            .iter()
            .zip(&right[k + 1..])
            .map(|(u, s)| u * s)
            .sum();
        right[k] = (right[k] - known) * row[k];
    }
    true
}
