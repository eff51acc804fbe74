//! The nearest proposal against every point of a small grid.

use crate::rebalance::{is_held, objective, question};
use crate::sample_drinks::{SHAKEN, document, ml, point};
use equipour::model::{Document, Pour, ScaleRule};
use equipour::rebalance::{Question, nearest};

/// Multiples of 5 ml up to 60 ml.
const STEP_ML: f64 = 5.0;
const VALUES: usize = 13;

fn coarse(id: &str, amount: f64) -> Pour {
    Pour {
        step: Some(STEP_ML),
        maximum: Some(STEP_ML * (VALUES - 1) as f64),
        ..ml(id, amount)
    }
}

/// Drinks of three pours on the grid, each aiming at the balance of another.
fn documents() -> impl Iterator<Item = Document> {
    let drinks = [
        ("gin-london-dry", "lime-juice", "sugar-syrup-1-1"),
        ("rum-white", "lemon-juice", "honey-syrup-1-1"),
        ("tequila", "orange-liqueur-triple-sec", "lime-juice"),
    ];
    let from = [(60.0, 20.0, 20.0), (40.0, 35.0, 10.0), (20.0, 5.0, 45.0)];
    let to = [
        (50.0, 25.0, 15.0),
        (45.0, 22.0, 33.0),
        (60.0, 12.0, 8.0),
        (30.0, 30.0, 30.0),
        (55.0, 45.0, 3.0),
    ];
    let rules = [
        ScaleRule::PouredTotal,
        ScaleRule::None,
        ScaleRule::ServedVolume,
    ];
    drinks.into_iter().flat_map(move |(base, one, other)| {
        from.into_iter().flat_map(move |from| {
            to.into_iter().flat_map(move |to| {
                rules.into_iter().map(move |rule| {
                    let target = [ml(base, to.0), ml(one, to.1), ml(other, to.2)];
                    let pours = vec![
                        coarse(base, from.0),
                        coarse(one, from.1),
                        coarse(other, from.2),
                    ];
                    let mut document = document(pours, SHAKEN, Some(point(&target, SHAKEN)));
                    document.specs[0].balancing.scale_rule = rule;
                    document
                })
            })
        })
    })
}

/// The best objective of all points of the grid that the scale rule allows.
fn best_of_grid(question: &Question) -> f64 {
    let amount = |place: usize| STEP_ML * place as f64;
    let mut best = f64::INFINITY;
    for place in 1..VALUES.pow(3) {
        let (a, b, c) = (
            place / VALUES / VALUES,
            place / VALUES % VALUES,
            place % VALUES,
        );
        let x = [amount(a), amount(b), amount(c)];
        // Without anything poured there is no drink; everything else counts.
        if is_held(question, &x) {
            best = best.min(objective(question, &x));
        }
    }
    best
}

#[expect(
    clippy::print_stderr,
    reason = "the figures to quote, shown when the tests run with their output"
)]
#[test]
fn the_nearest_proposal_is_the_best_point_of_a_small_grid() {
    let (mut questions, mut equal, mut largest) = (0, 0, 0.0_f64);
    for document in documents() {
        let question = question(&document);
        let nearest = nearest(&question).expect("the question is sound");
        let mut amounts = question.present();
        for change in nearest.iter().flat_map(|nearest| &nearest.changes) {
            amounts[change.pour] = change.to;
        }
        let gap = objective(&question, &amounts) - best_of_grid(&question);
        assert!(gap > -1e-9, "a proposal off the grid: {amounts:?}");
        questions += 1;
        equal += usize::from(gap < 1e-9);
        largest = largest.max(gap);
    }
    eprintln!("nearest against a grid: {equal} of {questions} equal, largest gap {largest:.6}");
    assert_eq!(questions, 135);
    assert!(
        equal * 100 >= questions * 95,
        "only {equal} of {questions} are optimal"
    );
    assert!(largest < 0.05, "a gap of {largest} squared steps");
}
