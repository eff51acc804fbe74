//! What is known of the amounts that matter, besides their box, and how it cuts other ranges.

use super::enclosure::Enclosure;
use super::span::Span;

/// Most totals, and most ratios, that ranges are tightened by.
const MOST_ROWS: usize = 3;
/// Most moving pours for which that is done.
pub(super) const MOST_PROJECTED: usize = 24;

/// A linear function of the amounts with a range, for tightening others.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    constant: f64,
    slopes: [f64; MOST_PROJECTED],
    range: Span,
    /// Sum of the squares of its slopes.
    square: f64,
}

/// Linear functions of the amounts that ranges are tightened by.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rows {
    totals: [Row; MOST_ROWS],
    ratios: [Row; MOST_ROWS],
    counts: (usize, usize),
}

impl Rows {
    pub(super) fn of_totals(totals: &[Hint]) -> Self {
        let mut rows = Self {
            totals: [Row::NONE; MOST_ROWS],
            ratios: [Row::NONE; MOST_ROWS],
            counts: (totals.len().min(MOST_ROWS), 0),
        };
        for (row, total) in rows.totals.iter_mut().zip(totals) {
            *row = Row::of_total(total);
        }
        rows
    }

    pub(super) fn set_ratios(
        &mut self,
        ratios: &[Hint],
        at: &[f64],
        found: (&Enclosure, &[f64]),
        volume_high: f64,
    ) {
        self.counts.1 = ratios.len().min(MOST_ROWS);
        for (row, ratio) in self.ratios.iter_mut().zip(ratios) {
            *row = Row::of_ratio(ratio, at, found, volume_high);
        }
    }

    pub(super) fn totals(&self) -> &[Row] {
        &self.totals[..self.counts.0]
    }

    /// The ratio that is most nearly a multiple of a linear function.
    pub(super) fn most_like(&self, n: usize, slope: impl Fn(usize) -> f64) -> Option<&Row> {
        let likeness = |row: &Row| {
            let product: f64 = (0..n).map(|i| slope(i) * row.slopes[i]).sum();
            product * product / row.square.max(1.0e-300)
        };
        self.ratios[..self.counts.1]
            .iter()
            .max_by(|one, other| likeness(one).total_cmp(&likeness(other)))
    }
}

impl Row {
    const NONE: Self = Self {
        constant: 0.0,
        slopes: [0.0; MOST_PROJECTED],
        range: Span::WHOLE,
        square: 0.0,
    };

    fn of_total(total: &Hint) -> Self {
        let mut row = Self {
            constant: total.constant,
            range: Span {
                low: total.low,
                high: total.high,
            },
            ..Self::NONE
        };
        for (slope, each) in row.slopes.iter_mut().zip(total.per_unit) {
            *slope = *each;
            row.square += each * each;
        }
        row
    }

    /// low·V ≤ amount ≤ high·V as amount − m·(linear volume), m being the ratio at hand.
    fn of_ratio(
        ratio: &Hint,
        at: &[f64],
        (found, slopes): (&Enclosure, &[f64]),
        volume_high: f64,
    ) -> Self {
        let terms = ratio.per_unit.iter().zip(slopes).zip(at);
        let (amount, volume) = terms.fold(
            (ratio.constant, found.constant),
            |(amount, volume), ((each, slope), x)| (amount + each * x, volume + slope * x),
        );
        let m = if volume > 0.0 { amount / volume } else { 0.0 };
        let reach = |end: f64| {
            // The side of the ratio that may exceed m times the volume is widest at the largest.
            (end - m) * volume_high
        };
        let mut row = Self {
            constant: ratio.constant - m * found.constant,
            range: Span {
                low: reach(ratio.low).min(0.0),
                high: reach(ratio.high).max(0.0),
            }
            .plus(m, found.rest),
            ..Self::NONE
        };
        let pairs = ratio.per_unit.iter().zip(slopes);
        for (out, (each, slope)) in row.slopes.iter_mut().zip(pairs) {
            *out = each - m * slope;
            row.square += *out * *out;
        }
        row
    }

    /// Cuts the range of a linear function of the amounts by what this row leaves of it.
    #[inline]
    pub(super) fn tighten(
        &self,
        span: &mut Span,
        constant: f64,
        slope: impl Fn(usize) -> f64,
        (lower, upper): (&[f64], &[f64]),
    ) {
        if self.square <= 0.0 {
            return;
        }
        let n = lower.len();
        let product: f64 = (0..n).map(|i| slope(i) * self.slopes[i]).sum();
        let share = product / self.square;
        let mut left = Span::point(constant - share * self.constant);
        for i in 0..n {
            left.add(slope(i) - share * self.slopes[i], lower[i], upper[i]);
        }
        let cut = left.plus(share, self.range);
        // Far more than the rounding of these sums.
        let slack = 1.0e-11 * (cut.low.abs() + cut.high.abs() + constant.abs());
        let low = span.low.max(cut.low - slack);
        let high = span.high.min(cut.high + slack);
        // An empty range means that nothing in the box is as it is known to be: anything holds.
        if low <= high {
            *span = Span { low, high };
        }
    }
}

/// What is known of the amounts that matter, besides their box.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Hints<'a> {
    /// Linear functions that lie within a range.
    pub totals: &'a [Hint<'a>],
    /// Linear functions whose ratio to the served volume lies within a range.
    pub ratios: &'a [Hint<'a>],
}

/// A linear function of the amounts with a range.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Hint<'a> {
    pub constant: f64,
    pub per_unit: &'a [f64],
    pub low: f64,
    pub high: f64,
}
