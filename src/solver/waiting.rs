//! The pile of boxes that a search has still to look at.

use super::bound::Bounder;

/// Boxes that wait, one after the other in flat lists.
#[derive(Debug, Default)]
pub(super) struct Waiting {
    places: Vec<usize>,
    points: Vec<f64>,
    prices: Vec<f64>,
    bounds: Vec<f64>,
    rests: Vec<(f64, f64)>,
}

impl Waiting {
    /// Puts a box on top, with what its parent's examination left and with a bound.
    pub(super) fn push<const M: usize>(
        &mut self,
        (low, high): (&[usize], &[usize]),
        parent: &Bounder<M>,
        bound: f64,
    ) {
        self.places.extend_from_slice(low);
        self.places.extend_from_slice(high);
        self.points.extend_from_slice(&parent.relaxation.x);
        self.prices.extend_from_slice(&parent.relaxation.prices);
        self.bounds.push(bound);
        self.rests.push(parent.rest);
    }

    /// Takes the box on top; its bound.
    pub(super) fn pop<const M: usize>(
        &mut self,
        (low, high): (&mut [usize], &mut [usize]),
        parent: &mut Bounder<M>,
    ) -> Option<f64> {
        let bound = self.bounds.pop()?;
        parent.rest = self.rests.pop()?;
        let n = low.len();
        let at = self.places.len() - 2 * n;
        low.copy_from_slice(&self.places[at..at + n]);
        high.copy_from_slice(&self.places[at + n..]);
        self.places.truncate(at);
        let at = self.points.len() - n;
        parent.relaxation.x.copy_from_slice(&self.points[at..]);
        self.points.truncate(at);
        let at = self.prices.len() - M;
        parent.relaxation.prices.copy_from_slice(&self.prices[at..]);
        self.prices.truncate(at);
        Some(bound)
    }

    /// The least of the bounds of all that waits.
    pub(super) fn least(&self) -> f64 {
        self.bounds.iter().copied().fold(f64::INFINITY, f64::min)
    }
}
