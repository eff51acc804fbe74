//! Proven bounds of the served volume over whole boxes of amounts.
//!
//! Every amount that the kernel sums is linear in the pours; the served volume bends only where
//! liquids contract and where the water from ice follows the strength. Each bend is a function of
//! one ratio, so its distance from a tangent has a closed form: for T·h(p) with p = e/T it is
//! ½·h″(ξ)·(e − p₀·T)²/T, for e²/V it is (e − A₀·V)²/V exactly. The brackets are linear in the
//! pours, so their ranges over a box are found pour by pour. The result is the kernel's volume as a
//! linear function, and by how much it may lie below or above.

use super::bends::{Bends, LEAST_SOLVENT_G, Tangent};
use super::hints::{Hints, MOST_PROJECTED, Rows};
use super::kernel::Ice;
use super::load::Load;
use super::span::Span;
use super::tangent_melt::Melt;
use crate::physics::ethanol::ETHANOL_G_PER_ML;

/// Rounds of tightening by ratios, each with the volume that the last one left.
const MOST_ROUNDS: usize = 2;
/// A remainder below this share of the volume is small enough.
const WIDE: f64 = 5.0e-4;
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
