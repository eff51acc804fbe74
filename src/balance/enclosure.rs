//! Proven bounds of the served volume over whole boxes of amounts.
//!
//! Every amount that the kernel sums is linear in the pours; the served volume bends only where
//! liquids contract and where the water from ice follows the strength. Each bend is a function of
//! one ratio, so its distance from a tangent has a closed form: for T·h(p) with p = e/T it is
//! ½·h″(ξ)·(e − p₀·T)²/T, for e²/V it is (e − A₀·V)²/V exactly. The brackets are linear in the
//! pours, so their ranges over a box are found pour by pour. The result is the kernel's volume as a
//! linear function, and by how much it may lie below or above.

use super::kernel::{Ice, Rule, Spare};
use super::load::Load;
use crate::physics::curvature;
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::ethanol::{self, ETHANOL_G_PER_ML};
use crate::physics::number::Interval;
use crate::physics::sucrose;

/// Less chilled liquid than this (g of water and ethanol) is not enclosed.
const LEAST_SOLVENT_G: f64 = 1.0e-3;
/// Rounding of the volume and of the tangents' coefficients, as a share of all terms: their own
/// errors are below 2e-10 (see `RELATIVE_ERROR` in `physics::mixture`).
const ROUNDING: f64 = 1.0e-9;

/// A linear function of the amounts, and how far the volume may lie from it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Enclosure {
    /// Value at no amounts, ml; the slopes are written elsewhere.
    pub constant: f64,
    /// How far the volume lies from it, ml.
    pub rest: Span,
}

/// From the least to the most that a linear function reaches in a box.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Span {
    pub low: f64,
    pub high: f64,
}

impl Enclosure {
    /// Range of the volume in a box, cut by rows.
    fn volume(&self, (lower, upper): (&[f64], &[f64]), slopes: &[f64], rows: &Rows) -> Span {
        let mut span = Span::point(self.constant);
        for (slope, (lower, upper)) in slopes.iter().zip(lower.iter().zip(upper)) {
            span.add(*slope, *lower, *upper);
        }
        for row in rows.totals() {
            row.tighten(&mut span, self.constant, |i| slopes[i], (lower, upper));
        }
        span.plus(1.0, self.rest)
    }
}

impl Span {
    const WHOLE: Self = Self {
        low: f64::NEG_INFINITY,
        high: f64::INFINITY,
    };

    const fn point(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    /// Adds a term that runs from `slope·lower` to `slope·upper`.
    #[inline]
    fn add(&mut self, slope: f64, lower: f64, upper: f64) {
        let (one, other) = (slope * lower, slope * upper);
        self.low += one.min(other);
        self.high += one.max(other);
    }

    /// Sum with a multiple of another.
    #[inline]
    fn plus(self, factor: f64, other: Self) -> Self {
        // Zero times a remainder that is not known is nothing, not NaN.
        if factor == 0.0 {
            return self;
        }
        let (one, another) = (factor * other.low, factor * other.high);
        Self {
            low: self.low + one.min(another),
            high: self.high + one.max(another),
        }
    }

    /// Range of the square.
    fn square(self) -> Self {
        let (one, other) = (self.low * self.low, self.high * self.high);
        Self {
            low: if self.low <= 0.0 && self.high >= 0.0 {
                0.0
            } else {
                one.min(other)
            },
            high: one.max(other),
        }
    }
}

/// What the bends need of one pour, per unit.
#[derive(Clone, Copy, Debug)]
struct Part {
    /// Chilled: ethanol, water, sucrose (g), other volume (ml), mass (g), cold (kJ).
    chilled: [f64; 6],
    /// Altogether: ethanol, water, sucrose (g), other volume (ml).
    whole: [f64; 4],
}

impl Part {
    fn of(load: &Load<f64>, chilled: bool) -> Self {
        let amounts = [load.ethanol_g, load.water_g, load.sucrose_g, load.rest_ml];
        let [e, w, s, r] = amounts;
        Self {
            chilled: if chilled {
                [e, w, s, r, load.mass_g, load.cold_kj]
            } else {
                [0.0; 6]
            },
            whole: amounts,
        }
    }

    fn plus(mut self, other: &Self, amount: f64) -> Self {
        for (sum, each) in self.chilled.iter_mut().zip(other.chilled) {
            *sum += amount * each;
        }
        for (sum, each) in self.whole.iter_mut().zip(other.whole) {
            *sum += amount * each;
        }
        self
    }
}

/// Encloses the served volume of what is poured: amounts that stay and amounts that move.
#[derive(Clone, Debug)]
pub(crate) struct Encloser {
    fixed: Part,
    moving: Vec<Part>,
    ice: Ice,
}

/// Tangent of the volume of ethanol, water and sucrose at one mixture: the volume of a gram each.
#[derive(Clone, Copy, Debug)]
struct Tangent {
    /// Mass fraction of ethanol in ethanol and water, of sucrose in sucrose and water.
    fractions: [f64; 2],
    ethanol: f64,
    water: f64,
    sucrose: f64,
}

impl Tangent {
    fn at([e, w, s]: [f64; 3]) -> Self {
        let share = |part: f64, rest: f64| {
            if part > 0.0 {
                part / (part + rest.max(0.0))
            } else {
                0.0
            }
        };
        let (p, q) = (share(e, w), share(s, w));
        let (h, h_slope) = ethanol::specific_volume_20(p);
        let (k, k_slope) = sucrose::specific_volume_20(q);
        let (solvent, solution) = (h - p * h_slope, k - q * k_slope);
        Self {
            fractions: [p, q],
            ethanol: solvent + h_slope,
            water: solvent + solution - sucrose::WATER_ML_PER_G,
            sucrose: solution + k_slope,
        }
    }

    #[inline]
    fn volume(&self, [e, w, s]: [f64; 3]) -> f64 {
        self.ethanol * e + self.water * w + self.sucrose * s
    }
}

/// Ranges that the two bends of a liquid's volume hang on.
#[derive(Clone, Copy, Debug)]
struct Bends {
    /// Ethanol and water (g), and ethanol less its share of them at the tangent (g).
    solvent: (Span, Span),
    /// The same of sucrose and water.
    solution: (Span, Span),
    fractions: [f64; 2],
}

impl Bends {
    fn at(fractions: [f64; 2], [e, w, s]: [f64; 3]) -> Self {
        let [p, q] = fractions;
        Self {
            solvent: (Span::point(e + w), Span::point(e - p * (e + w))),
            solution: (Span::point(s + w), Span::point(s - q * (s + w))),
            fractions,
        }
    }

    #[inline]
    fn add(&mut self, [e, w, s]: [f64; 3], lower: f64, upper: f64) {
        let [p, q] = self.fractions;
        self.solvent.0.add(e + w, lower, upper);
        self.solvent.1.add(e - p * (e + w), lower, upper);
        self.solution.0.add(s + w, lower, upper);
        self.solution.1.add(s - q * (s + w), lower, upper);
    }

    /// Cuts the range of ethanol and water by a row.
    fn tighten_whole(
        &mut self,
        row: &Row,
        constant: [f64; 3],
        part: impl Fn(usize) -> [f64; 3],
        ends: (&[f64], &[f64]),
    ) {
        let solvent = |[e, w, _]: [f64; 3]| e + w;
        let whole = &mut self.solvent.0;
        row.tighten(whole, solvent(constant), |i| solvent(part(i)), ends);
    }

    /// Cuts the range of ethanol less its share at the tangent by a row.
    fn tighten_off(
        &mut self,
        row: &Row,
        constant: [f64; 3],
        part: impl Fn(usize) -> [f64; 3],
        ends: (&[f64], &[f64]),
    ) {
        let p = self.fractions[0];
        let off = |[e, w, _]: [f64; 3]| e - p * (e + w);
        row.tighten(&mut self.solvent.1, off(constant), |i| off(part(i)), ends);
    }

    /// Adds water that is known but for a remainder.
    fn add_water(&mut self, rest: Span) {
        let [p, q] = self.fractions;
        self.solvent.0 = self.solvent.0.plus(1.0, rest);
        self.solvent.1 = self.solvent.1.plus(-p, rest);
        self.solution.0 = self.solution.0.plus(1.0, rest);
        self.solution.1 = self.solution.1.plus(-q, rest);
    }

    /// How far the volume lies from the tangent, ml.
    fn rest(&self) -> Span {
        let [p, q] = self.fractions;
        bend(p, self.solvent, curvature::ethanol_water)
            .plus(1.0, bend(q, self.solution, curvature::sucrose_water))
    }
}

/// T·h(p) less its tangent at p₀: ½·h″·(part − p₀·T)²/T.
fn bend(fraction: f64, (whole, off): (Span, Span), curvature: fn(Interval) -> Interval) -> Span {
    if off.low.abs().max(off.high.abs()) <= 0.0 {
        return Span::default();
    }
    if !off.low.is_finite() || !off.high.is_finite() {
        return Span::WHOLE;
    }
    let square = off.square();
    let (range, quotient) = if whole.low < LEAST_SOLVENT_G {
        (Interval::new(0.0, 1.0), f64::INFINITY)
    } else {
        let least = if off.low < 0.0 { whole.low } else { whole.high };
        let most = if off.high > 0.0 {
            whole.low
        } else {
            whole.high
        };
        // A hair wider than its rounding; a mass fraction never leaves 0 to 1.
        let range = Interval {
            low: (fraction + off.low / least - 1.0e-12).clamp(0.0, fraction),
            high: (fraction + off.high / most + 1.0e-12).clamp(fraction, 1.0),
        };
        (range, square.high / whole.low)
    };
    // T·(p − p₀)²: the square over T, or by the range of p.
    let farthest = (range.high - fraction).max(fraction - range.low);
    let least = square.low / whole.high.max(LEAST_SOLVENT_G);
    let most = quotient.min(whole.high * farthest * farthest);
    let curve = curvature(range);
    Span {
        low: 0.5 * (curve.low * least).min(curve.low * most),
        high: 0.5 * (curve.high * least).max(curve.high * most),
    }
}

/// Water from ice as c_V·V + c_e·e + a constant, less cold, with V and e of the chilled part.
#[derive(Clone, Copy, Debug)]
struct Melt {
    per_ml: f64,
    per_ethanol_g: f64,
    per_mass_g: f64,
    per_cold_kj: f64,
    constant: f64,
    /// Factor of (e/κ − A₀·V)²/V.
    bent: f64,
    /// A₀.
    strength: f64,
    /// It may not fall below zero.
    cut: bool,
}

impl Melt {
    fn of(ice: &Ice, strength: f64) -> Self {
        let kept = ice.spare.map_or(1.0, |spare| spare.kept);
        let mut melt = Self {
            per_ml: 0.0,
            per_ethanol_g: 0.0,
            per_mass_g: 0.0,
            per_cold_kj: 0.0,
            constant: 0.0,
            bent: 0.0,
            strength,
            cut: ice.spare.is_some(),
        };
        match ice.rule {
            Rule::None => {}
            Rule::Curve([still, first, second]) => {
                let grams = kept * MELT_WATER_G_PER_ML;
                melt.per_ml = grams * (still - second * strength * strength);
                melt.per_ethanol_g = grams * (first + 2.0 * second * strength) / ETHANOL_G_PER_ML;
                melt.bent = grams * second;
            }
            Rule::WaterGrams(grams) => melt.constant = kept * grams,
            Rule::MassFraction(fraction) => melt.per_mass_g = kept * fraction,
        }
        if let Some(Spare {
            g_per_kj, vessel_g, ..
        }) = ice.spare
        {
            melt.per_cold_kj = -g_per_kj;
            melt.constant -= vessel_g;
        }
        melt
    }

    /// Range of (e/κ − A₀·V)²/V from those of the bracket and of V.
    fn ratio(&self, bracket: Span, volume: Span) -> Span {
        let square = bracket.square();
        // V·(A − A₀)²: the square over V, or by a strength of 0 to 1.
        let farthest = self.strength.max(1.0 - self.strength);
        let quotient = if volume.low < LEAST_SOLVENT_G {
            f64::INFINITY
        } else {
            square.high / volume.low
        };
        Span {
            low: square.low / volume.high.max(LEAST_SOLVENT_G),
            high: quotient.min(volume.high.max(0.0) * farthest * farthest),
        }
    }

    /// The linear part, from the tangent's volume of the same chilled amounts.
    #[inline]
    fn linear(&self, chilled: &[f64; 6], volume_ml: f64) -> f64 {
        self.per_ml * volume_ml
            + self.per_ethanol_g * chilled[0]
            + self.per_mass_g * chilled[4]
            + self.per_cold_kj * chilled[5]
    }
}

#[inline]
fn liquid(amounts: &[f64]) -> [f64; 3] {
    [amounts[0], amounts[1], amounts[2]]
}

impl Encloser {
    /// What stays, chilled and afterwards, and what one unit of each moving pour brings.
    pub(crate) fn new(
        fixed: (&Load<f64>, &Load<f64>),
        moving: &[(Load<f64>, bool)],
        ice: Ice,
    ) -> Self {
        Self {
            fixed: Part::of(fixed.0, true).plus(&Part::of(fixed.1, false), 1.0),
            moving: moving
                .iter()
                .map(|(load, chilled)| Part::of(load, *chilled))
                .collect(),
            ice,
        }
    }

    /// Encloses the served volume for every choice of amounts in the box that is as `known`.
    ///
    /// The tangents touch at `at`. Writes the slopes, ml per unit. `None` where too little is
    /// poured to say anything.
    pub(crate) fn enclose(
        &self,
        ends: (&[f64], &[f64]),
        at: &[f64],
        known: &Hints,
        slopes: &mut [f64],
    ) -> Option<Enclosure> {
        let parts = self.moving.iter().zip(at);
        let here = parts.fold(self.fixed, |sum, (part, amount)| sum.plus(part, *amount));
        let mut rows = Rows::of_totals(if at.len() <= MOST_PROJECTED {
            known.totals
        } else {
            &[]
        });
        let mut found = self.enclose_by(ends, at, &here, &rows, slopes)?;
        if at.len() <= MOST_PROJECTED {
            for _ in 0..MOST_ROUNDS {
                let width = found.rest.high - found.rest.low;
                let volume = found.volume(ends, slopes, &rows);
                if known.ratios.is_empty() || width <= WIDE * volume.high {
                    break;
                }
                rows.set_ratios(known.ratios, at, (&found, slopes), volume.high);
                let next = self.enclose_by(ends, at, &here, &rows, slopes)?;
                let gained = width - (next.rest.high - next.rest.low);
                found = next;
                if gained < 0.3 * width {
                    break;
                }
            }
        }
        (found.rest.low.is_finite() && found.rest.high.is_finite()).then_some(found)
    }

    fn enclose_by(
        &self,
        ends: (&[f64], &[f64]),
        at: &[f64],
        here: &Part,
        rows: &Rows,
        slopes: &mut [f64],
    ) -> Option<Enclosure> {
        let tangent = Tangent::at(liquid(&here.chilled));
        let chilled_ml = tangent.volume(liquid(&here.chilled)) + here.chilled[3];
        if chilled_ml <= LEAST_SOLVENT_G {
            return None;
        }
        let melt = Melt::of(&self.ice, here.chilled[0] / ETHANOL_G_PER_ML / chilled_ml);
        let (constant, rest) = self.melt(ends, &tangent, &melt, rows, slopes);
        let melted = slopes.iter().zip(at).map(|(m, x)| m * x).sum::<f64>();
        let here_wet = (here, constant + melted);
        Some(self.serve(ends, here_wet, (constant, rest), rows, slopes))
    }

    /// Water from ice as a linear function, its slopes in `slopes`, and its remainder.
    fn melt(
        &self,
        (lower, upper): (&[f64], &[f64]),
        tangent: &Tangent,
        melt: &Melt,
        rows: &Rows,
        slopes: &mut [f64],
    ) -> (f64, Span) {
        let fixed = &self.fixed.chilled;
        let volume_of = |part: &[f64; 6]| tangent.volume(liquid(part)) + part[3];
        let fixed_ml = volume_of(fixed);
        let off = |part: &[f64; 6], ml: f64| part[0] / ETHANOL_G_PER_ML - melt.strength * ml;
        let mut bends = Bends::at(tangent.fractions, liquid(fixed));
        let mut volume = Span::point(fixed_ml);
        let mut bent = Span::point(off(fixed, fixed_ml));
        let constant = melt.constant + melt.linear(fixed, fixed_ml);
        let mut water = Span::point(constant);
        let ends = lower.iter().zip(upper);
        for ((part, out), (&lower, &upper)) in self.moving.iter().zip(&mut *slopes).zip(ends) {
            let ml = volume_of(&part.chilled);
            bends.add(liquid(&part.chilled), lower, upper);
            volume.add(ml, lower, upper);
            bent.add(off(&part.chilled, ml), lower, upper);
            let slope = melt.linear(&part.chilled, ml);
            water.add(slope, lower, upper);
            *out = slope;
        }
        let ends = (lower, upper);
        let of = |i: usize| &self.moving[i].chilled;
        for row in rows.totals() {
            row.tighten(&mut volume, fixed_ml, |i| volume_of(of(i)), ends);
            bends.tighten_whole(row, liquid(fixed), |i| liquid(of(i)), ends);
        }
        let off_of = |i: usize| off(of(i), volume_of(of(i)));
        if let Some(row) = rows.most_like(lower.len(), off_of) {
            row.tighten(&mut bent, off(fixed, fixed_ml), off_of, ends);
            bends.tighten_off(row, liquid(fixed), |i| liquid(of(i)), ends);
        }
        let volume_rest = bends.rest();
        let volume = volume.plus(1.0, volume_rest);
        let mut rest = Span::default().plus(melt.per_ml, volume_rest);
        if melt.bent != 0.0 {
            rest = rest.plus(
                melt.bent,
                melt.ratio(bent.plus(-melt.strength, volume_rest), volume),
            );
        }
        let reached = water.plus(1.0, rest);
        if melt.cut && reached.high <= 0.0 {
            slopes.fill(0.0);
            return (0.0, Span::default());
        }
        if melt.cut && reached.low < 0.0 {
            rest.high -= reached.low;
        }
        (constant, rest)
    }

    /// The served volume with its water from ice.
    fn serve(
        &self,
        (lower, upper): (&[f64], &[f64]),
        (here, melted_here): (&Part, f64),
        (melt_constant, melt_rest): (f64, Span),
        rows: &Rows,
        slopes: &mut [f64],
    ) -> Enclosure {
        let wet = |amounts: &[f64; 4], melt: f64| [amounts[0], amounts[1] + melt, amounts[2]];
        let tangent = Tangent::at(wet(&here.whole, melted_here.max(0.0)));
        let fixed = wet(&self.fixed.whole, melt_constant);
        let mut bends = Bends::at(tangent.fractions, fixed);
        let constant = tangent.volume(fixed) + self.fixed.whole[3];
        let mut size = constant.abs();
        for (i, part) in self.moving.iter().enumerate() {
            bends.add(wet(&part.whole, slopes[i]), lower[i], upper[i]);
        }
        let ends = (lower, upper);
        let p = tangent.fractions[0];
        let of = |i: usize| wet(&self.moving[i].whole, slopes[i]);
        for row in rows.totals() {
            bends.tighten_whole(row, fixed, of, ends);
        }
        let off = |i: usize| of(i)[0] - p * (of(i)[0] + of(i)[1]);
        if let Some(row) = rows.most_like(lower.len(), off) {
            bends.tighten_off(row, fixed, of, ends);
        }
        for (i, part) in self.moving.iter().enumerate() {
            slopes[i] = tangent.volume(wet(&part.whole, slopes[i])) + part.whole[3];
            size += slopes[i].abs() * lower[i].abs().max(upper[i].abs());
        }
        bends.add_water(melt_rest);
        let slack = ROUNDING * size;
        let rest = Span {
            low: -slack,
            high: slack,
        }
        .plus(tangent.water, melt_rest)
        .plus(1.0, bends.rest());
        Enclosure { constant, rest }
    }
}

/// Most totals, and most ratios, that ranges are tightened by.
const MOST_ROWS: usize = 3;
/// Most moving pours for which that is done.
const MOST_PROJECTED: usize = 24;
/// Rounds of tightening by ratios, each with the volume that the last one left.
const MOST_ROUNDS: usize = 2;
/// A remainder below this share of the volume is small enough.
const WIDE: f64 = 5.0e-4;

/// A linear function of the amounts with a range, for tightening others.
#[derive(Clone, Copy, Debug)]
struct Row {
    constant: f64,
    slopes: [f64; MOST_PROJECTED],
    range: Span,
    /// Sum of the squares of its slopes.
    square: f64,
}

/// Linear functions of the amounts that ranges are tightened by.
#[derive(Clone, Copy, Debug)]
struct Rows {
    totals: [Row; MOST_ROWS],
    ratios: [Row; MOST_ROWS],
    counts: (usize, usize),
}

impl Rows {
    fn of_totals(totals: &[Hint]) -> Self {
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

    fn set_ratios(
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

    fn totals(&self) -> &[Row] {
        &self.totals[..self.counts.0]
    }

    /// The ratio that is most nearly a multiple of a linear function.
    fn most_like(&self, n: usize, slope: impl Fn(usize) -> f64) -> Option<&Row> {
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
    fn tighten(
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
