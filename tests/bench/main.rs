//! `cargo bench`: the numbers to hold, in one table.
//!
//! Machines are noisy: medians and the worst of a hundred seeded problems, with a plain loop of
//! multiplications beside them to compare machines by.
#![expect(clippy::print_stdout, reason = "a bench prints its table")]

mod frame;
mod grid;
mod house;
mod problems;
mod remedies;
mod submission;
mod swaps;
mod window;

use eframe::egui::Key;
use equipour::balance::{Assumed, Drink, MonteCarlo, Pantry, Uncertainty, figures, serve};
use equipour::model::{Document, Spec, Trial};
use equipour::rebalance::{Question, continuous, propose};
use problems::{Seeds, as_on_screen, demo, question, twelve_pours};
use std::hint::black_box;
use std::sync::atomic::{AtomicBool, AtomicUsize};
use std::time::Instant;

/// How the rows of frames and of the window come about.
const FOOT: &str = "
Frames are drawn without a graphics card: median and 99th of 100 of 400 frames; \"cut\" with the tessellation into triangles.
The first frame is from the start of the program to more than 15 colours on the screen of Xvfb, read every 2 ms from its
memory; five starts without settings, median and worst. At rest nothing moves and no pointer is there: utime and stime of
/proc/PID/stat over 10 s, 4 s after the start. The tour presses Ctrl+2 to Ctrl+5 and Ctrl+1, 4 s each.";

/// Calls per reading.
const CALLS: u32 = 20;
/// Readings per row.
const READINGS: usize = 51;

/// Median microseconds of one call.
fn median_us(mut work: impl FnMut()) -> f64 {
    let mut readings: Vec<f64> = (0..READINGS)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..CALLS {
                work();
            }
            start.elapsed().as_secs_f64() * 1.0e6 / f64::from(CALLS)
        })
        .collect();
    readings.sort_by(f64::total_cmp);
    readings[READINGS / 2]
}

/// Microseconds of one call, the least of several: what the work itself takes.
fn best_us(mut work: impl FnMut()) -> f64 {
    (0..20)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1.0e6
        })
        .fold(f64::INFINITY, f64::min)
}

fn row(what: &str, median: f64, median_limit: f64, worst: Option<(f64, f64)>) {
    let mark = |value: f64, limit: f64| if value <= limit { "ok" } else { "ABOVE" };
    let worst = worst.map_or_else(
        || format!("{:>10} {:>10} {:>5}", "", "", ""),
        |(value, limit)| format!("{value:>10.2} {limit:>10.2} {:>5}", mark(value, limit)),
    );
    println!(
        "{what:<52} {median:>10.3} {median_limit:>10.3} {:>5} {worst}",
        mark(median, median_limit)
    );
}

/// A row for what this machine cannot measure.
fn not_measured(what: &str, reason: &str) {
    println!("{what:<52} not measured: {reason}");
}

fn hundred(
    asked: fn(&mut Seeds, usize) -> Question,
    unlocked: usize,
    work: impl Fn(&Question),
) -> (f64, f64) {
    let mut seeds = Seeds::new(20_261_125);
    let mut times: Vec<f64> = (0..100)
        .map(|_| {
            let asked = asked(&mut seeds, unlocked);
            best_us(|| work(&asked))
        })
        .collect();
    times.sort_by(f64::total_cmp);
    (times[times.len() / 2], times[times.len() - 1])
}

/// How far the twelve-pour drink may be off; its ingredients carry the ranges of the larder.
fn errors(document: &Document, spec: &Spec, trial: &Trial, drink: &Drink, pantry: &mut Pantry) {
    let assumed = Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: &document.weighings,
        senses: &document.senses,
        weights: &spec.balancing.weights,
    };
    row(
        "all figures and linear uncertainty, 12 pours",
        median_us(|| {
            let found = figures(black_box(drink)).expect("it is served");
            let uncertainty = Uncertainty::of(&assumed, drink, found.ph, pantry);
            black_box((found, uncertainty.expect("it is served")));
        }),
        10.0,
        None,
    );
    let drawn = MonteCarlo::prepare(&assumed, drink, None, pantry).expect("it is served");
    let (progress, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    row(
        "Monte Carlo, 10 000 draws, 12 pours, all cores",
        median_us(|| {
            black_box(drawn.run(10_000, 1, &progress, &cancel));
        }),
        60_000.0,
        None,
    );
}

/// Prints the row of all proposals, asked for as the window does.
fn proposals() {
    let (median, worst) = hundred(as_on_screen, 8, |asked| {
        black_box(propose(asked).expect("it is a sound question"));
    });
    row(
        "all six kinds of proposals, 8 unlocked pours",
        median,
        3_000.0,
        Some((worst, 30_000.0)),
    );
}

fn main() {
    println!(
        "{:<52} {:>10} {:>10} {:>5} {:>10} {:>10} {:>5}",
        "microseconds, one thread", "median", "hold", "", "worst", "hold", ""
    );
    if std::env::args().any(|word| word == "grid") {
        grid::measure();
        proposals();
        return;
    }
    if std::env::args().any(|word| word == "frames") {
        frames();
        return;
    }
    let mut x = 1.0_f64;
    let calibration = median_us(|| {
        for _ in 0..1000 {
            x = black_box(x * 1.000_000_1);
        }
    });
    row(
        "calibration: 1000 dependent multiplications",
        calibration,
        f64::INFINITY,
        None,
    );

    let (document, spec, trial) = twelve_pours();
    let mut pantry = Pantry::default();
    let drink = Drink::of_trial(&document, &trial, &mut pantry).expect("it resolves");
    let (chilled, after) = drink.loads();
    let ice = drink.ice;
    row(
        "served point, 12 pours, aggregates built",
        median_us(|| {
            black_box(serve(black_box(&chilled), black_box(&after), &ice));
        }),
        0.15,
        None,
    );
    row(
        "served point, 12 pours, from the document",
        median_us(|| {
            let drink = Drink::of_trial(&document, &trial, &mut pantry).expect("it resolves");
            black_box(drink.served().expect("it is served"));
        }),
        3.0,
        None,
    );
    row(
        "all figures with pH and coldest temperature",
        median_us(|| {
            black_box(figures(black_box(&drink)).expect("it is served"));
        }),
        10.0,
        None,
    );
    errors(&document, &spec, &trial, &drink, &mut pantry);
    drop((document, spec, trial));

    let (median, worst) = hundred(question, 8, |asked| {
        black_box(continuous(asked).expect("it is a sound question"));
    });
    row(
        "continuous rebalance, 8 unlocked pours",
        median,
        10.0,
        Some((worst, 100.0)),
    );
    grid::measure();
    proposals();

    swaps::measure();
    remedies::measure();

    for (what, document) in [("the demo", demo()), ("crowded", problems::crowded(300))] {
        let mut session = problems::session(document);
        let mut number = 0;
        let time = median_us(|| {
            number += 1;
            problems::move_first_pour(&mut session, number);
        });
        row(
            &format!("an edit, and everything derived from it, {what}"),
            time,
            4_000.0,
            None,
        );
    }
    house::measure(demo());
    submission::measure();
    frames();
    window::measure();
    println!("{FOOT}");
}

/// The frames of every page without a graphics card.
fn frames() {
    for (page, key) in frame::PAGES {
        frame::measure(demo(), key, &format!("{page} frame, the demo"));
        let what = format!("{page} frame, 300 trials, 2000 rows");
        frame::measure(problems::crowded(300), key, &what);
    }
    frame::measure(
        problems::crowded(5_000),
        Some(Key::Num3),
        "Trials frame, 5000 trials, 2000 rows",
    );
}
