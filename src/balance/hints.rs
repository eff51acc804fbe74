//! Linear functions of the amounts, and how what is known of some cuts the range of others.

use super::span::Span;

/// What is known of the amounts that matter, besides their box.
#[derive(Clone, Copy, Debug)]
pub struct Hints<'a> {
    /// Linear functions that lie within a range.
    pub totals: &'a [Hint<'a>],
    /// Linear functions whose ratio to the served volume lies within a range.
    pub ratios: &'a [Hint<'a>],
}

/// A linear function of the amounts with a range.
#[derive(Clone, Copy, Debug)]
pub struct Hint<'a> {
    /// Its value at no amounts.
    pub constant: f64,
    /// Its slopes, per unit of each amount.
    pub per_unit: &'a [f64],
    /// Smallest value; −∞ for none.
    pub low: f64,
    /// Largest value; +∞ for none.
    pub high: f64,
}

/// A linear function of the amounts that lies within a range.
#[derive(Clone, Debug)]
pub(super) struct Row {
    constant: f64,
    slopes: Vec<f64>,
    range: Span,
    /// Sum of the squares of its slopes.
    square: f64,
}

impl Row {
    fn new(constant: f64, slopes: Vec<f64>, range: Span) -> Self {
        Self {
            constant,
            square: slopes.iter().map(|slope| slope * slope).sum(),
            slopes,
            range,
        }
    }

    pub(super) fn of_total(total: &Hint) -> Self {
        let range = Span {
            low: total.low,
            high: total.high,
        };
        Self::new(total.constant, total.per_unit.to_vec(), range)
    }

    /// low·V ≤ amount ≤ high·V, as amount − m·(V as a linear function), m being the ratio at `at`.
    ///
    /// V lies within `rest` of the linear function and is at most `most`.
    pub(super) fn of_ratio(ratio: &Hint, at: &[f64], volume: &Form, rest: Span, most: f64) -> Self {
        let amount = Form::new(ratio.constant, ratio.per_unit.to_vec()).at(at);
        let here = volume.at(at);
        let m = if here > 0.0 { amount / here } else { 0.0 };
        // Whichever way the ratio leaves m, it does so the farthest in the largest volume.
        let reach = |end: f64| (end - m) * most;
        let range = Span {
            low: reach(ratio.low).min(0.0),
            high: reach(ratio.high).max(0.0),
        };
        let pairs = ratio.per_unit.iter().zip(&volume.slopes);
        Self::new(
            ratio.constant - m * volume.constant,
            pairs.map(|(each, slope)| each - m * slope).collect(),
            range.plus(m, rest),
        )
    }
}

/// A linear function of the amounts, with what cuts its range.
#[derive(Clone, Debug)]
pub(super) struct Form {
    pub(super) constant: f64,
    pub(super) slopes: Vec<f64>,
    cuts: Vec<Cut>,
}

/// The function is a linear rest plus a multiple of a row, whose range is known.
#[derive(Clone, Debug)]
struct Cut {
    constant: f64,
    slopes: Vec<f64>,
    multiple: Span,
}

impl Form {
    pub(super) fn new(constant: f64, slopes: Vec<f64>) -> Self {
        Self {
            constant,
            slopes,
            cuts: Vec::new(),
        }
    }

    /// The value at a point.
    pub(super) fn at(&self, x: &[f64]) -> f64 {
        let terms = self.slopes.iter().zip(x);
        self.constant + terms.map(|(slope, x)| slope * x).sum::<f64>()
    }

    fn product(&self, row: &Row) -> f64 {
        let pairs = self.slopes.iter().zip(&row.slopes);
        pairs.map(|(one, other)| one * other).sum()
    }

    /// Lets a row cut the range.
    pub(super) fn cut_by(&mut self, row: &Row) {
        if row.square <= 0.0 {
            return;
        }
        let share = self.product(row) / row.square;
        let pairs = self.slopes.iter().zip(&row.slopes);
        let multiple = Span::default().plus(share, row.range);
        if !multiple.low.is_finite() && !multiple.high.is_finite() {
            return;
        }
        self.cuts.push(Cut {
            constant: self.constant - share * row.constant,
            slopes: pairs.map(|(one, other)| one - share * other).collect(),
            multiple,
        });
    }

    /// Lets the row cut the range of which this is most nearly a multiple.
    pub(super) fn cut_by_most_like(&mut self, rows: &[Row]) {
        let likeness = |row: &Row| self.product(row).powi(2) / row.square.max(1.0e-300);
        let like = rows
            .iter()
            .max_by(|one, other| likeness(one).total_cmp(&likeness(other)));
        if let Some(row) = like {
            self.cut_by(row);
        }
    }

    /// Lets a total and a ratio cut the range together, the ratio that leaves the least of it.
    pub(super) fn cut_by_both(&mut self, totals: &[Row], ratios: &[Row]) {
        let mut best: Option<(f64, Cut)> = None;
        for total in totals {
            for ratio in ratios {
                if let Some((left, cut)) = self.both(total, ratio)
                    && best.as_ref().is_none_or(|(least, _)| left < *least)
                {
                    best = Some((left, cut));
                }
            }
        }
        self.cuts.extend(best.map(|(_, cut)| cut));
    }

    /// What is left without the best multiples of two rows, and its size.
    fn both(&self, one: &Row, other: &Row) -> Option<(f64, Cut)> {
        let across: f64 = one
            .slopes
            .iter()
            .zip(&other.slopes)
            .map(|(a, b)| a * b)
            .sum();
        let determinant = one.square * other.square - across * across;
        if determinant <= 1.0e-9 * one.square * other.square {
            return None;
        }
        let (with_one, with_other) = (self.product(one), self.product(other));
        let share = (with_one * other.square - with_other * across) / determinant;
        let other_share = (with_other * one.square - with_one * across) / determinant;
        let multiple = Span::default()
            .plus(share, one.range)
            .plus(other_share, other.range);
        let rows = one.slopes.iter().zip(&other.slopes);
        let slopes: Vec<f64> = self
            .slopes
            .iter()
            .zip(rows)
            .map(|(slope, (a, b))| slope - share * a - other_share * b)
            .collect();
        let left = slopes.iter().map(|slope| slope * slope).sum();
        let constant = self.constant - share * one.constant - other_share * other.constant;
        let finite = multiple.low.is_finite() || multiple.high.is_finite();
        finite.then_some((
            left,
            Cut {
                constant,
                slopes,
                multiple,
            },
        ))
    }

    /// The range over a box.
    pub(super) fn range(&self, lower: &[f64], upper: &[f64]) -> Span {
        let mut span = Span::of(self.constant, &self.slopes, lower, upper);
        for cut in &self.cuts {
            let left = Span::of(cut.constant, &cut.slopes, lower, upper).plus(1.0, cut.multiple);
            // Far more than the rounding of these sums.
            let slack = 1.0e-11 * (left.low.abs() + left.high.abs() + self.constant.abs());
            let low = span.low.max(left.low - slack);
            let high = span.high.min(left.high + slack);
            // An empty range means that nothing in the box is as it is known to be: all holds.
            if low <= high {
                span = Span { low, high };
            }
        }
        span
    }
}
