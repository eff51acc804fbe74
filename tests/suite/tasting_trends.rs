//! Liking against figures over several trials.

use super::tasting_kit::near;
use equipour::tasting::{Trend, TrendColumn, student_two_sided, trend_words, trends};
use proptest::prelude::*;

fn one(values: &[f64], liking: &[f64]) -> Trend {
    let column = TrendColumn {
        name: "sweetness".to_owned(),
        values: values.iter().copied().map(Some).collect(),
    };
    let liking: Vec<Option<f64>> = liking.iter().copied().map(Some).collect();
    trends(&[column], &liking).remove(0)
}

#[test]
fn four_in_order_are_two_of_twenty_four_orders() {
    // Worked by hand: only the rising and the falling order are as far from 0.
    let found = one(&[80.0, 85.0, 90.0, 99.0], &[5.0, 6.0, 6.5, 7.0]);
    assert_eq!(found.correlation, Some(1.0));
    assert!(near(found.p.expect("four"), 2.0 / 24.0, 1e-15));
    let said = trend_words(&found);
    assert!(said.starts_with("4 trials: no evidence"), "{said}");
}

#[test]
fn five_in_reverse_order_are_a_hint() {
    let found = one(&[1.0, 2.0, 3.0, 4.0, 5.0], &[9.0, 8.0, 7.0, 3.0, 1.0]);
    assert_eq!(found.correlation, Some(-1.0));
    assert!(near(found.p.expect("five"), 2.0 / 120.0, 1e-15));
    assert_eq!(
        trend_words(&found),
        "5 trials: liking falls with sweetness (rank correlation \u{2212}1.00, p = 0.017): this is a hint, not a proof."
    );
}

#[test]
fn the_exact_probability_of_five_is_that_of_the_published_table() {
    // Sum of squared rank differences 2 of five: 0.9, two-sided 10/120 (Σd² ≤ 2 in 5 of 120 orders, by hand).
    let found = one(&[1.0, 2.0, 3.0, 4.0, 5.0], &[2.0, 1.0, 3.0, 4.0, 5.0]);
    assert!(near(found.correlation.expect("five"), 0.9, 1e-12));
    assert!(near(found.p.expect("five"), 10.0 / 120.0, 1e-15));
}

#[test]
fn nine_or_more_are_judged_by_t() {
    // One exchange of neighbours among nine: 1 − 6·2/(9·80), by hand.
    let values: Vec<f64> = (0..9).map(f64::from).collect();
    let mut liking = values.clone();
    liking.swap(3, 4);
    let found = one(&values, &liking);
    let wanted = 1.0 - 12.0 / 720.0;
    assert!(near(found.correlation.expect("nine"), wanted, 1e-12));
    let t = wanted * (7.0 / (1.0 - wanted * wanted)).sqrt();
    assert!(near(
        found.p.expect("nine"),
        student_two_sided(t, 7.0),
        1e-12
    ));
}

#[test]
fn ties_share_the_mean_of_their_ranks() {
    // Ranks 1.5 1.5 3 4 against 1 2 3 4: 4.5/√(4.5·5), by hand.
    let found = one(&[2.0, 2.0, 5.0, 6.0], &[1.0, 2.0, 3.0, 4.0]);
    assert!(near(
        found.correlation.expect("four"),
        4.5 / 22.5_f64.sqrt(),
        1e-12
    ));
    // As far: the tied pair takes the two lowest or the two highest, 2 + 2 of 24 orders.
    assert!(near(found.p.expect("four"), 4.0 / 24.0, 1e-15));
}

#[test]
fn below_four_trials_there_is_no_number() {
    let found = one(&[1.0, 2.0, 3.0], &[1.0, 2.0, 3.0]);
    assert_eq!((found.trials, found.correlation, found.p), (3, None, None));
    assert!(trend_words(&found).starts_with("3 trials: too few"));
    let none = one(&[], &[]);
    assert_eq!((none.trials, none.correlation), (0, None));
}

#[test]
fn what_never_changes_has_no_trend_and_unknown_figures_are_left_out() {
    let found = one(&[2.0; 5], &[1.0, 2.0, 3.0, 4.0, 5.0]);
    assert_eq!((found.correlation, found.p), (None, None));
    let column = TrendColumn {
        name: "cost".to_owned(),
        values: vec![Some(1.0), None, Some(f64::NAN), Some(2.0)],
    };
    let found = trends(&[column], &[Some(1.0), Some(2.0), Some(3.0), None]);
    assert_eq!(found[0].trials, 1);
}

#[test]
fn many_figures_looked_at_raise_the_probability() {
    let liking: Vec<Option<f64>> = [1.0, 2.0, 3.0, 4.0, 5.0].map(Some).to_vec();
    let column = |values: [f64; 5]| TrendColumn {
        name: "x".to_owned(),
        values: values.map(Some).to_vec(),
    };
    let found = trends(
        &[
            column([1.0, 2.0, 3.0, 4.0, 5.0]),
            column([2.0, 5.0, 1.0, 4.0, 3.0]),
            column([3.0, 3.0, 3.0, 3.0, 3.0]),
        ],
        &liking,
    );
    // Two of the three have a number.
    assert!(near(
        found[0].p_among_all.expect("five"),
        4.0 / 120.0,
        1e-15
    ));
    assert_eq!(found[2].p_among_all, None);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn only_the_order_counts_and_turning_it_round_turns_the_sign(
        values in prop::collection::vec(0.0_f64..50.0, 4..8),
        liking in prop::collection::vec(1_u8..=9, 8),
    ) {
        let liking: Vec<f64> = liking[..values.len()].iter().copied().map(f64::from).collect();
        let found = one(&values, &liking);
        let stretched: Vec<f64> = values.iter().map(|value| value.exp()).collect();
        let turned: Vec<f64> = values.iter().map(|value| -value).collect();
        let (same, other) = (one(&stretched, &liking), one(&turned, &liking));
        prop_assert_eq!(same.correlation, found.correlation);
        match (found.correlation, other.correlation) {
            (Some(a), Some(b)) => prop_assert!(near(a, -b, 1e-12)),
            (a, b) => prop_assert_eq!(a, b),
        }
        prop_assert_eq!(other.p, found.p);
    }
}
