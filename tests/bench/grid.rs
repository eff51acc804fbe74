//! The optimum on the pour steps with its proof, beside other ways to look for it.

use super::problems::{Seeds, stepped};
use super::{best_us, row};
use equipour::balance::steps_between;
use equipour::model::Point;
use equipour::rebalance::{Question, nearest};
use equipour::solver::{ExchangeSettings, Grid, Proof, round_to_grid};
use std::hint::black_box;
use std::time::Instant;

/// Seeded questions per row.
const QUESTIONS: usize = 100;
/// Questions that other ways are compared on.
const PROBLEMS: usize = 20;
/// Values of each pour in the questions that are searched exhaustively.
const VALUES: usize = 16;

/// Times, boxes and how many proofs are complete.
struct Proved {
    times: Vec<f64>,
    nodes: Vec<usize>,
    complete: usize,
}

fn prove(unlocked: usize, step: f64, count: usize) -> Proved {
    let mut seeds = Seeds::new(20_261_125);
    let mut found = Proved {
        times: Vec::new(),
        nodes: Vec::new(),
        complete: 0,
    };
    for _ in 0..count {
        let asked = stepped(&mut seeds, unlocked, Some(step));
        let answer = nearest(&asked).expect("it is sound").expect("there is one");
        found.nodes.push(answer.evidence[0].nodes);
        found.complete += usize::from(answer.evidence[0].proof == Proof::Complete);
        found.times.push(best_us(|| {
            black_box(nearest(&asked).expect("it is sound"));
        }));
    }
    found.times.sort_by(f64::total_cmp);
    found.nodes.sort_unstable();
    found
}

/// Prints the rows of the grid.
pub(crate) fn measure() {
    for (unlocked, step, median, worst) in [
        (8, 2.5, 100.0, 1_000.0),
        (12, 2.5, 200.0, 3_000.0),
        (8, 1.0, 2_000.0, 25_000.0),
        (12, 1.0, 2_000.0, 25_000.0),
    ] {
        let found = prove(unlocked, step, QUESTIONS);
        let last = found.times.len() - 1;
        row(
            &format!("nearest with proof, {unlocked} pours, {step} ml steps"),
            found.times[last / 2],
            median,
            Some((found.times[last], worst)),
        );
        println!(
            "    boxes: median {}, worst {}; complete proofs: {} of {QUESTIONS}",
            found.nodes[last / 2],
            found.nodes[last],
            found.complete
        );
    }
    compare();
}

/// What the nearest proposal makes small, by the kernel alone.
fn objective(question: &Question, x: &[f64]) -> Option<f64> {
    let mut drink = question.drink.clone();
    let mut change = 0.0;
    for (unknown, amount) in question.unknowns.iter().zip(x) {
        drink.lines[unknown.line].amount = *amount;
        change += (amount - unknown.present).abs() / unknown.step;
    }
    let point = Point::from(&drink.served().ok()?);
    let away = steps_between(&point, &question.target, &question.senses)
        .distance(&question.balancing.weights);
    Some(away * away + question.balancing.reluctance * change)
}

/// Whether the poured total is held but for half the largest step.
fn is_held(question: &Question, x: &[f64]) -> bool {
    let pairs = question.unknowns.iter().zip(x);
    let total: f64 = pairs.map(|(u, x)| (x - u.present) * u.ml_per_unit).sum();
    total.abs() <= 1.25 + 1e-9
}

/// Ratios of time to exhaustive search and to rounding with exchanged steps from several starts.
fn compare() {
    let mut seeds = Seeds::new(7);
    let (mut proof, mut exhaustive, mut exchanged, mut missed) = (0.0, 0.0, 0.0, 0);
    for _ in 0..PROBLEMS {
        let mut asked = stepped(&mut seeds, 4, Some(2.5));
        for unknown in &mut asked.unknowns {
            let first = (unknown.present / 2.5 - (VALUES / 2) as f64).max(0.0);
            unknown.lower = 2.5 * first;
            unknown.upper = 2.5 * (first + (VALUES - 1) as f64);
        }
        proof += best_us(|| {
            black_box(nearest(&asked).expect("it is sound"));
        });
        let began = Instant::now();
        let best = search_all(&asked);
        exhaustive += began.elapsed().as_secs_f64() * 1.0e6;
        let began = Instant::now();
        let found = exchange(&asked);
        exchanged += began.elapsed().as_secs_f64() * 1.0e6;
        missed += usize::from(found > best + 1e-9);
    }
    println!(
        "    4 pours, {} points each: exhaustive search takes {:.0} times as long as the proof; exchanging steps from five starts {:.1} times, and misses the optimum in {missed} of {PROBLEMS}",
        VALUES.pow(4),
        exhaustive / proof,
        exchanged / proof
    );
}

fn search_all(question: &Question) -> f64 {
    let mut best = f64::INFINITY;
    let lower: Vec<f64> = question.unknowns.iter().map(|u| u.lower).collect();
    for number in 0..VALUES.pow(4) {
        let x: Vec<f64> = (0..4)
            .map(|i| lower[i] + 2.5 * (number / VALUES.pow(i as u32) % VALUES) as f64)
            .collect();
        if is_held(question, &x) {
            best = best.min(objective(question, &x).unwrap_or(f64::INFINITY));
        }
    }
    best
}

fn exchange(question: &Question) -> f64 {
    let grids: Vec<Grid> = question
        .unknowns
        .iter()
        .map(|u| Grid::new(u.step, u.lower, u.upper, u.present).expect("it is a grid"))
        .collect();
    let mut worth = |x: &[f64]| {
        is_held(question, x)
            .then(|| objective(question, x))
            .flatten()
    };
    let present = question.present();
    let starts = [1.0, 0.6, 0.8, 1.25, 1.6]
        .map(|factor| -> Vec<f64> { present.iter().map(|amount| amount * factor).collect() });
    starts
        .iter()
        .filter_map(|start| round_to_grid(&mut worth, &grids, start, &ExchangeSettings::default()))
        .map(|found| found.objective)
        .fold(f64::INFINITY, f64::min)
}
