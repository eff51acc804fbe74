//! Proven bounds of the served volume over whole boxes of amounts.
//!
//! Every amount that the kernel sums is linear in the pours; the served volume bends only where
//! liquids contract and where the water from ice follows the strength. Each bend is a function of
//! one ratio, so its distance from a tangent has a closed form: for T·h(p) with p = e/T it is
//! ½·h″(ξ)·(e − p₀·T)²/T, for e²/V it is (e − A₀·V)²/V exactly. The brackets are linear in the
//! pours, so their ranges over a box are found pour by pour. The result is the kernel's volume as a
//! linear function, and by how much it may lie below or above.

use super::bends::{Bends, LEAST_SOLVENT_G, Tangent};
use super::hints::{Form, Hints, Row};
use super::kernel::Ice;
use super::load::Load;
use super::span::Span;
use super::tangent_melt::Melt;
use crate::physics::ethanol::ETHANOL_G_PER_ML;

/// Rounds of cutting ranges by ratios, each with the volume that the last one left.
const ROUNDS: usize = 3;
/// Rounding of the volume and of the tangents' coefficients, as a share of all terms: their own
/// errors are below 2e-10 (see `RELATIVE_ERROR` in `physics::mixture`).
const ROUNDING: f64 = 1.0e-9;

/// The served volume as a linear function of the amounts, and how far it may lie from it.
#[derive(Clone, Debug)]
pub struct Enclosure {
    /// The linear function, ml.
    volume: Form,
    melt: Melt,
    /// Volume of the chilled part by its tangent, ml, and its bends.
    chilled: (Form, Bends),
    /// e/κ − A₀·V of the chilled part, ml.
    bracket: Form,
    /// Water from ice as a linear function, g; it may have to be cut at zero.
    water: Form,
    /// The linear volume holds that water; else the drink at hand melts none.
    melts: bool,
    /// Bends of the whole drink.
    whole: Bends,
    /// Volume of a gram of water in the whole drink, ml.
    per_water_g: f64,
    /// Room for rounding, ml.
    slack: f64,
}

impl Enclosure {
    /// Value of the linear function at no amounts, ml.
    pub fn constant(&self) -> f64 {
        self.volume.constant
    }

    /// Its slopes, ml per unit.
    pub fn slopes(&self) -> &[f64] {
        &self.volume.slopes
    }

    /// The range of the linear function in a part of the box, ml.
    pub fn linear(&self, lower: &[f64], upper: &[f64]) -> Span {
        self.volume.range(lower, upper)
    }

    /// How far the volume may lie from it in a part of the box, ml; infinite where nothing is known.
    pub fn rest(&self, lower: &[f64], upper: &[f64]) -> Span {
        let ends = (lower, upper);
        let chilled_rest = self.chilled.1.rest(ends, Span::default());
        let chilled = self.chilled.0.range(lower, upper).plus(1.0, chilled_rest);
        let mut melted = Span::default().plus(self.melt.per_ml, chilled_rest);
        if self.melt.bent != 0.0 {
            let bracket = self.bracket.range(lower, upper);
            let bracket = bracket.plus(-self.melt.strength, chilled_rest);
            melted = melted.plus(self.melt.bent, self.melt.ratio(bracket, chilled));
        }
        if self.melt.cut {
            let linear = self.water.range(lower, upper);
            melted = cut_at_zero(linear, melted, self.melts);
        }
        let whole = self.whole.rest(ends, melted);
        Span {
            low: -self.slack,
            high: self.slack,
        }
        .plus(self.per_water_g, melted)
        .plus(1.0, whole)
    }
}

/// How far max(0, linear + rest) lies from `linear` if it is counted, else from nothing.
fn cut_at_zero(linear: Span, rest: Span, counted: bool) -> Span {
    let reached = linear.plus(1.0, rest);
    if !counted {
        Span {
            low: reached.low.max(0.0),
            high: reached.high.max(0.0),
        }
    } else if reached.high <= 0.0 {
        Span::default().plus(-1.0, linear)
    } else {
        Span {
            low: rest.low,
            high: rest.high + (-reached.low).max(0.0),
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
pub struct Encloser {
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
    pub fn new(fixed: (&Load<f64>, &Load<f64>), moving: &[(Load<f64>, bool)], ice: Ice) -> Self {
        Self {
            fixed: Part::of(fixed.0, true).plus(&Part::of(fixed.1, false), 1.0),
            moving: moving
                .iter()
                .map(|(load, chilled)| Part::of(load, *chilled))
                .collect(),
            ice,
        }
    }

    /// Encloses the served volume for every choice of amounts in a box that is as `known`.
    ///
    /// The tangents touch at `at`. `None` where too little is poured to say anything.
    pub fn enclose(
        &self,
        (lower, upper): (&[f64], &[f64]),
        at: &[f64],
        known: &Hints,
    ) -> Option<Enclosure> {
        let totals: Vec<Row> = known.totals.iter().map(Row::of_total).collect();
        let mut found = self.enclose_by((lower, upper), at, &totals, &[])?;
        for _ in 0..ROUNDS {
            let rest = found.rest(lower, upper);
            let most = found.linear(lower, upper).high + rest.high;
            if known.ratios.is_empty() || !most.is_finite() {
                break;
            }
            let row = |ratio| Row::of_ratio(ratio, at, &found.volume, rest, most);
            let ratios: Vec<Row> = known.ratios.iter().map(row).collect();
            found = self.enclose_by((lower, upper), at, &totals, &ratios)?;
        }
        Some(found)
    }

    fn enclose_by(
        &self,
        (lower, upper): (&[f64], &[f64]),
        at: &[f64],
        totals: &[Row],
        ratios: &[Row],
    ) -> Option<Enclosure> {
        let parts = self.moving.iter().zip(at);
        let here = parts.fold(self.fixed, |sum, (part, amount)| sum.plus(part, *amount));
        let tangent = Tangent::at(liquid(&here.chilled));
        let volume_of = |part: &[f64; 6]| tangent.volume(liquid(part)) + part[3];
        let chilled_ml = volume_of(&here.chilled);
        if chilled_ml <= LEAST_SOLVENT_G {
            return None;
        }
        let melt = Melt::of(&self.ice, here.chilled[0] / ETHANOL_G_PER_ML / chilled_ml);
        let form = |of: &dyn Fn(&[f64; 6]) -> f64| {
            let slopes = self.moving.iter().map(|part| of(&part.chilled));
            Form::new(of(&self.fixed.chilled), slopes.collect())
        };
        let mut volume = form(&volume_of);
        let mut bracket =
            form(&|part| part[0] / ETHANOL_G_PER_ML - melt.strength * volume_of(part));
        let mut water = form(&|part| melt.linear(part, volume_of(part)));
        water.constant += melt.constant;
        let chilled: Vec<[f64; 3]> = self
            .moving
            .iter()
            .map(|part| liquid(&part.chilled))
            .collect();
        let mut bends = Bends::of(tangent.fractions, liquid(&self.fixed.chilled), &chilled);
        bends.cut_by(totals, ratios);
        for total in totals {
            volume.cut_by(total);
        }
        bracket.cut_by_most_like(ratios);
        let melted = water.at(at);
        let melts = !melt.cut || melted > 0.0;
        let mut found = self.serve((&here, if melts { melted } else { 0.0 }), &water, melts);
        found.1.cut_by(totals, ratios);
        let (mut served, whole, per_water_g) = found;
        for total in totals {
            served.cut_by(total);
        }
        served.cut_by_both(totals, ratios);
        let ends = lower.iter().zip(upper).zip(&served.slopes);
        let size = ends.fold(served.constant.abs(), |size, ((lower, upper), slope)| {
            size + slope.abs() * lower.abs().max(upper.abs())
        });
        Some(Enclosure {
            volume: served,
            melt,
            chilled: (volume, bends),
            bracket,
            water,
            melts,
            whole,
            per_water_g,
            slack: ROUNDING * size,
        })
    }

    /// The served volume by its tangent, the bends of the whole drink, and the volume of a gram of
    /// water in it.
    fn serve(&self, (here, melted): (&Part, f64), water: &Form, melts: bool) -> (Form, Bends, f64) {
        let wet = |amounts: &[f64; 4], melt: f64| [amounts[0], amounts[1] + melt, amounts[2]];
        let melt = |grams: f64| if melts { grams } else { 0.0 };
        let tangent = Tangent::at(wet(&here.whole, melted));
        let fixed = wet(&self.fixed.whole, melt(water.constant));
        let pairs = self.moving.iter().zip(&water.slopes);
        let parts: Vec<[f64; 3]> = pairs
            .map(|(part, slope)| wet(&part.whole, melt(*slope)))
            .collect();
        let rests = self.moving.iter().map(|part| part.whole[3]);
        let slopes = parts.iter().zip(rests);
        let volume = Form::new(
            tangent.volume(fixed) + self.fixed.whole[3],
            slopes
                .map(|(part, rest)| tangent.volume(*part) + rest)
                .collect(),
        );
        let bends = Bends::of(tangent.fractions, fixed, &parts);
        (volume, bends, tangent.water)
    }
}
