//! How far a predicted drink may be off, by drawing every error many times.

use super::drink::{Drink, DrinkError};
use super::inputs::{Assumed, Inputs, UncertainLine};
use super::kernel::{Ice, serve_scattered};
use super::load::Load;
use super::moves::Move;
use super::pantry::Pantry;
use super::report::{Outcome, Report};
use super::split_normal::SplitNormal;
use crate::model::{Point, Senses, Weights};
use core::ops::Range;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use rand_distr::{Distribution, StandardNormal};
use std::num::NonZero;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// Draws that share one stream of random numbers, and between which a stop is heeded.
const BLOCK: usize = 500;

/// A pour as it is drawn.
#[derive(Clone, Debug)]
struct DrawnLine {
    chilled: bool,
    amount: f64,
    sigma: f64,
    per_unit: Load<f64>,
    /// First of its ingredient's figures.
    first_figure: usize,
    /// Its part of all moves, one for each figure.
    moves: Range<usize>,
}

/// A drink ready to be drawn over and over.
///
/// Each draw takes a value for every figure (one for all pours of an ingredient), every amount and
/// the water from ice, and serves that by the whole kernel. What an ingredient holds follows its
/// figures in straight pieces ([`crate::kitchen::Spread`]): for every ingredient of the built-in
/// larder that leaves out less than a tenth of what the figures do, or less than 0.2 g of sweet,
/// sour or ethanol and 4 g of mass in a litre of it (root mean squares). What cold liquids and
/// vessels spare is held, as everywhere in the kernel.
#[derive(Clone, Debug)]
pub struct MonteCarlo {
    figures: Vec<SplitNormal>,
    lines: Vec<DrawnLine>,
    /// Changes of one unit per standard deviation, down and up.
    moves: Vec<[Load<f64>; 2]>,
    ice: Ice,
    dilution_sigma: f64,
    senses: Senses,
    weights: Weights,
    target: Option<Point>,
}

impl MonteCarlo {
    /// Prepares a drink; the draws are compared with `target`, if there is one.
    pub fn prepare(
        assumed: &Assumed<'_>,
        drink: &Drink,
        target: Option<Point>,
        pantry: &mut Pantry,
    ) -> Result<Self, DrinkError> {
        let inputs = Inputs::of(assumed, drink, pantry)?;
        let mut prepared = Self {
            figures: Vec::with_capacity(inputs.figures),
            lines: Vec::with_capacity(inputs.lines.len()),
            moves: Vec::new(),
            ice: inputs.ice,
            dilution_sigma: inputs.dilution_sigma,
            senses: *assumed.senses,
            weights: *assumed.weights,
            target,
        };
        for line in &inputs.lines {
            prepared.add(line);
        }
        Ok(prepared)
    }

    fn add(&mut self, line: &UncertainLine<'_>) {
        let first_move = self.moves.len();
        let scaled = |load: &Load<f64>| load.map(|each| each * line.scale);
        let both = |each: &Move| [scaled(&each.down.load), scaled(&each.up.load)];
        self.moves.extend(line.moves.iter().map(both));
        if line.first_figure == self.figures.len() {
            let figures = line.moves.iter().map(|each| SplitNormal::of(&each.moved));
            self.figures.extend(figures);
        }
        self.lines.push(DrawnLine {
            chilled: line.chilled,
            amount: line.line.amount,
            sigma: line.sigma,
            per_unit: line.line.per_unit,
            first_figure: line.first_figure,
            moves: first_move..self.moves.len(),
        });
    }

    /// Draws on all cores; `None` once `cancel` is set.
    ///
    /// `progress` counts the finished draws, from 0. The same seed gives the same report to the
    /// last bit, whatever the number of cores.
    pub fn run(
        &self,
        draws: usize,
        seed: u64,
        progress: &AtomicUsize,
        cancel: &AtomicBool,
    ) -> Option<Report> {
        let cores = thread::available_parallelism().map_or(1, NonZero::get);
        self.run_on(cores, draws, seed, progress, cancel)
    }

    /// The same on so many threads.
    pub fn run_on(
        &self,
        threads: usize,
        draws: usize,
        seed: u64,
        progress: &AtomicUsize,
        cancel: &AtomicBool,
    ) -> Option<Report> {
        let outcomes = self.outcomes(threads, draws, seed, progress, cancel)?;
        let target = self.target.as_ref();
        Some(Report::of(&outcomes, target, &self.senses, &self.weights))
    }

    /// Every draw, in order, of the report of the same arguments.
    pub fn outcomes(
        &self,
        threads: usize,
        draws: usize,
        seed: u64,
        progress: &AtomicUsize,
        cancel: &AtomicBool,
    ) -> Option<Vec<Outcome>> {
        progress.store(0, Ordering::Relaxed);
        let mut outcomes = vec![Outcome::default(); draws];
        let blocks = Mutex::new((0..).zip(outcomes.chunks_mut(BLOCK)));
        let next = || blocks.lock().unwrap_or_else(PoisonError::into_inner).next();
        let work = || {
            let mut steps = vec![0.0; self.figures.len()];
            while !cancel.load(Ordering::Relaxed) {
                let Some((stream, block)) = next() else {
                    break;
                };
                self.draw_block(seed, stream, &mut steps, block);
                progress.fetch_add(block.len(), Ordering::Relaxed);
            }
        };
        thread::scope(|scope| {
            for _ in 1..threads.min(draws.div_ceil(BLOCK)) {
                scope.spawn(work);
            }
            work();
        });
        (!cancel.load(Ordering::Relaxed)).then_some(outcomes)
    }

    /// Fills one block with draws from its own stream.
    fn draw_block(&self, seed: u64, stream: u64, steps: &mut [f64], block: &mut [Outcome]) {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(stream);
        for outcome in block {
            *outcome = self.draw(&mut random, steps);
        }
    }

    fn draw<R: Rng>(&self, random: &mut R, steps: &mut [f64]) -> Outcome {
        for (step, figure) in steps.iter_mut().zip(&self.figures) {
            *step = figure.draw(random);
        }
        let mut chilled = Load::ZERO;
        let mut after = Load::ZERO;
        for line in &self.lines {
            let normal: f64 = StandardNormal.sample(random);
            let amount = (line.amount + line.sigma * normal).max(0.0);
            let unit = self.unit(line, steps);
            let part = if line.chilled {
                &mut chilled
            } else {
                &mut after
            };
            *part = part.plus_units(amount, &unit);
        }
        let normal: f64 = StandardNormal.sample(random);
        let water = (1.0 + self.dilution_sigma * normal).max(0.0);
        let (chilled, after) = (possible(chilled), possible(after));
        Outcome::of(&serve_scattered(&chilled, &after, &self.ice, Some(water)))
    }

    /// One unit of a line with every figure of its ingredient off by the drawn steps.
    fn unit(&self, line: &DrawnLine, steps: &[f64]) -> Load<f64> {
        let mut unit = line.per_unit;
        let moves = self.moves.get(line.moves.clone()).unwrap_or_default();
        let steps = steps.get(line.first_figure..).unwrap_or_default();
        for ([down, up], step) in moves.iter().zip(steps) {
            let side = if *step < 0.0 { down } else { up };
            unit = unit.plus_units(step.abs(), side);
        }
        unit
    }
}

/// Nothing below zero, where straight pieces went too far.
fn possible(load: Load<f64>) -> Load<f64> {
    Load {
        water_g: load.water_g.max(0.0),
        ethanol_g: load.ethanol_g.max(0.0),
        sucrose_g: load.sucrose_g.max(0.0),
        ..load
    }
}
