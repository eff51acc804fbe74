//! The enclosure of the served volume against the kernel: random drinks, boxes, hints and points.

use crate::proof_questions::{Dice, asked, seeded};
use equipour::balance::{Encloser, Enclosure, Hint, Hints, Ice, Load, serve};
use equipour::model::Added;
use equipour::rebalance::Question;

/// What the kernel and the encloser need of a question.
struct Poured {
    fixed: (Load<f64>, Load<f64>),
    moving: Vec<(Load<f64>, bool)>,
    ice: Ice,
    present: Vec<f64>,
    steps: Vec<f64>,
}

impl Poured {
    fn of(question: &Question) -> Self {
        let (mut chilled, mut after) = (Load::ZERO, Load::ZERO);
        for (place, line) in question.drink.lines.iter().enumerate() {
            if question.unknowns.iter().any(|u| u.line == place) {
                continue;
            }
            let part = if line.added == Added::With {
                &mut chilled
            } else {
                &mut after
            };
            *part = part.plus_units(line.amount, &line.per_unit);
        }
        let moving = question.unknowns.iter().map(|unknown| {
            let line = &question.drink.lines[unknown.line];
            (line.per_unit, line.added == Added::With)
        });
        Self {
            fixed: (chilled, after),
            moving: moving.collect(),
            ice: question.drink.ice,
            present: question.present(),
            steps: question.unknowns.iter().map(|u| u.step).collect(),
        }
    }

    /// Served volume; `None` where next to nothing is chilled.
    fn volume(&self, x: &[f64]) -> Option<f64> {
        let (mut chilled, mut after) = self.fixed;
        for ((per_unit, is_chilled), amount) in self.moving.iter().zip(x) {
            let part = if *is_chilled {
                &mut chilled
            } else {
                &mut after
            };
            *part = part.plus_units(*amount, per_unit);
        }
        (chilled.mass_g > 0.01).then(|| serve(&chilled, &after, &self.ice).volume_ml)
    }

    /// A box: around the present amounts or all that may be poured, some unknowns held still.
    fn ends(&self, dice: &mut Dice) -> (Vec<f64>, Vec<f64>) {
        let reach = dice.pick(&[0.5, 2.0, 6.0, 30.0]);
        let end = |dice: &mut Dice, i: usize, sign: f64| {
            let way = if dice.chance(0.15) { 0.0 } else { dice.unit() };
            (self.present[i] + sign * way * reach * self.steps[i]).max(0.0)
        };
        let count = self.present.len();
        let lower = (0..count).map(|i| end(dice, i, -1.0)).collect();
        let upper = (0..count).map(|i| end(dice, i, 1.0)).collect();
        (lower, upper)
    }

    /// Mass, ethanol and sweetness as linear functions: constant and slopes.
    fn functions(&self) -> [(f64, Vec<f64>); 3] {
        let of = |read: fn(&Load<f64>) -> f64| {
            let slopes = self.moving.iter().map(|(load, _)| read(load)).collect();
            (read(&self.fixed.0) + read(&self.fixed.1), slopes)
        };
        [
            of(|load| load.mass_g),
            of(|load| load.ethanol_g),
            of(|load| load.sweet_g),
        ]
    }
}

fn value((constant, slopes): &(f64, Vec<f64>), x: &[f64]) -> f64 {
    constant
        + slopes
            .iter()
            .zip(x)
            .map(|(slope, x)| slope * x)
            .sum::<f64>()
}

/// A point of a box, often on its faces.
fn point(dice: &mut Dice, lower: &[f64], upper: &[f64]) -> Vec<f64> {
    let ends = lower.iter().zip(upper);
    ends.map(|(low, high)| match dice.below(5) {
        0 => *low,
        1 => *high,
        _ => dice.between(*low, *high),
    })
    .collect()
}

/// A part of a box that holds a point.
fn part(dice: &mut Dice, (lower, upper): (&[f64], &[f64]), x: &[f64]) -> (Vec<f64>, Vec<f64>) {
    let shrink = dice.pick(&[0.0, 0.1, 0.5, 1.0]);
    let towards = |end: f64, x: f64, dice: &mut Dice| x + (end - x) * shrink * dice.unit();
    let low = lower
        .iter()
        .zip(x)
        .map(|(end, x)| towards(*end, *x, dice).max(*end));
    let low: Vec<f64> = low.collect();
    let high = upper
        .iter()
        .zip(x)
        .map(|(end, x)| towards(*end, *x, dice).min(*end));
    (low, high.collect())
}

/// Checks one point in one part of the box; how wide the remainder is, as a share of the volume.
fn holds(found: &Enclosure, ends: (&[f64], &[f64]), x: &[f64], volume: f64) -> Result<f64, String> {
    let linear = found.constant()
        + found
            .slopes()
            .iter()
            .zip(x)
            .map(|(a, x)| a * x)
            .sum::<f64>();
    let (range, rest) = (found.linear(ends.0, ends.1), found.rest(ends.0, ends.1));
    let rounding = 1e-12 * (1.0 + volume);
    if linear < range.low - rounding || linear > range.high + rounding {
        return Err(format!(
            "linear {linear} outside {range:?} at {x:?} in {ends:?}"
        ));
    }
    let off = volume - linear;
    if off < rest.low - rounding || off > rest.high + rounding {
        return Err(format!("{off} outside {rest:?} at {x:?} in {ends:?}"));
    }
    Ok((rest.high - rest.low) / volume)
}

/// A hint by numbers: a linear function and its range.
type Known = ((f64, Vec<f64>), (f64, f64));

/// A range around a value, sometimes open on one side.
fn spread(dice: &mut Dice, at: f64, margin: f64) -> (f64, f64) {
    let (below, above) = (dice.unit(), dice.unit());
    let size = margin * at.abs();
    match dice.below(6) {
        0 => (f64::NEG_INFINITY, at + size * above),
        1 => (at - size * below, f64::INFINITY),
        _ => (at - size * below, at + size * above),
    }
}

/// A total and up to two ratios that the drink at `middle` has.
fn hints(dice: &mut Dice, poured: &Poured, middle: &[f64], volume: f64) -> [Vec<Known>; 2] {
    let margin = dice.pick(&[0.002, 0.02, 0.2]);
    let [mass, ethanol, sweet] = poured.functions();
    let total = spread(dice, value(&mass, middle), margin);
    let ratios = [ethanol, sweet].into_iter().take(dice.below(3));
    let ratios = ratios.map(|function| {
        let range = spread(dice, value(&function, middle) / volume, margin);
        (function, range)
    });
    let ratios = ratios.collect();
    [vec![(mass, total)], ratios]
}

fn hint(((constant, slopes), (low, high)): &Known) -> Hint<'_> {
    Hint {
        constant: *constant,
        per_unit: slopes,
        low: *low,
        high: *high,
    }
}

fn keeps((function, (low, high)): &Known, x: &[f64], whole: f64) -> bool {
    let amount = value(function, x);
    amount >= low * whole && amount <= high * whole
}

/// Checks points of one box of a drink; the widths that were found.
fn check_box(dice: &mut Dice, poured: &Poured, hinted: bool) -> Result<Vec<f64>, String> {
    let (lower, upper) = poured.ends(dice);
    let middle = point(dice, &lower, &upper);
    let mut widths = Vec::new();
    let Some(here) = poured.volume(&middle) else {
        return Ok(widths);
    };
    let [mut totals, mut ratios] = hints(dice, poured, &middle, here);
    if !hinted {
        totals.clear();
        ratios.clear();
    }
    let known = (
        totals.iter().map(hint).collect::<Vec<_>>(),
        ratios.iter().map(hint).collect::<Vec<_>>(),
    );
    let hints = Hints {
        totals: &known.0,
        ratios: &known.1,
    };
    let elsewhere = point(dice, &lower, &upper);
    let at = dice.pick(&[middle.clone(), elsewhere]);
    let Some(found) = poured.encloser().enclose((&lower, &upper), &at, &hints) else {
        return Ok(widths);
    };
    for _ in 0..20 {
        // With hints hardly any point of the box is as it is known to be, but those near the middle.
        let mut x = point(dice, &lower, &upper);
        let share = if hinted {
            dice.pick(&[0.0, 0.01, 0.1, 1.0])
        } else {
            1.0
        };
        for (x, middle) in x.iter_mut().zip(&middle) {
            *x = middle + share * (*x - middle);
        }
        let volume = poured.volume(&x).filter(|volume| {
            totals.iter().all(|known| keeps(known, &x, 1.0))
                && ratios.iter().all(|known| keeps(known, &x, *volume))
        });
        if let Some(volume) = volume {
            let (low, high) = part(dice, (&lower, &upper), &x);
            widths.push(holds(&found, (&low, &high), &x, volume)?);
        }
    }
    Ok(widths)
}

/// Checks ten boxes of every drink: so many points at least, and half of the remainders no wider
/// than that share of the volume.
fn check(seeds: core::ops::Range<u64>, hinted: bool, at_least: usize, widest: f64) {
    let mut widths = Vec::new();
    for seed in seeds {
        let poured = Poured::of(&asked(&seeded(seed)));
        let mut dice = Dice(seed ^ 0xB0B0);
        for _ in 0..10 {
            match check_box(&mut dice, &poured, hinted) {
                Ok(found) => widths.extend(found),
                Err(error) => panic!("drink {seed}: {error}"),
            }
        }
    }
    assert!(widths.len() >= at_least, "only {} points", widths.len());
    widths.sort_by(f64::total_cmp);
    let median = widths[widths.len() / 2];
    assert!(
        median < widest,
        "half of them are wider than {median} of the volume"
    );
}

impl Poured {
    fn encloser(&self) -> Encloser {
        Encloser::new((&self.fixed.0, &self.fixed.1), &self.moving, self.ice)
    }
}

#[test]
fn the_kernels_volume_lies_within_its_enclosure() {
    check(0..360, false, 60_000, 1e-4);
}

#[test]
fn the_kernels_volume_lies_within_its_enclosure_at_points_that_are_as_known() {
    check(1_000..1_500, true, 40_000, 1e-4);
}
