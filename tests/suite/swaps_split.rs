//! One pour over two ingredients.

use crate::sample_drinks::{SHAKEN, document, locked, ml, point, sour};
use crate::swaps::{close, instead, lands, original, taken};
use equipour::balance::{Drink, Pantry};
use equipour::model::{Document, Point, Role, ScaleRule, Trial};
use equipour::rebalance::{Replacement, Split, SplitRule, SwapAim, SwapError, split, swap};
use proptest::prelude::*;

fn divided(
    document: &Document,
    second: &Replacement,
    (aim, hold): (SwapAim, ScaleRule),
    rule: SplitRule,
) -> Result<Split, SwapError> {
    let original = original(document, aim, hold)?;
    split(&original, second, rule, &mut Pantry::default())
}

const HERE: (SwapAim, ScaleRule) = (SwapAim::Trial, ScaleRule::None);

/// Acid that the pours `places` of a trial bring, g.
fn acid(document: &Document, trial: &Trial, places: &[usize]) -> f64 {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    let lines = drink
        .lines
        .iter()
        .filter(|line| places.contains(&line.index));
    lines.map(|line| line.per_unit.sour_g * line.amount).sum()
}

#[test]
fn both_halves_are_poured_and_bring_the_acid_of_the_whole() {
    let document = document(sour(), SHAKEN, None);
    let found = divided(&document, &instead(1, "lemon-juice"), HERE, SplitRule::Both)
        .expect("it can be split");
    let pours = &found.swap.trial.pours;
    assert_eq!(pours.len(), 4);
    assert_eq!(found.swap.was, [Some(0), Some(1), None, Some(2)]);
    assert_eq!(pours[2].role, Role::Sour);
    assert_eq!(found.swap.title(), "split lime juice with lemon juice");
    for place in [1, 2] {
        let ml = pours[place].amount.value().expect("an amount");
        assert!(ml >= 2.5 && (ml / 2.5).fract() < 1e-9, "{ml} ml");
    }
    let before = acid(&document, &document.specs[0].trials[0], &[1]);
    let (after, trial) = taken(&document, &found.swap.trial, &found.swap);
    let together = acid(&after, &trial, &[1, 2]);
    assert!(
        (together / before - 1.0).abs() < 0.15,
        "{before} became {together}"
    );
    assert!(close(&lands(&after, &trial), &found.swap.point, 1e-9));
    assert!(found.swap.distance < 1.0);
}

#[test]
fn a_locked_pour_is_shared_and_both_parts_are_locked_again() {
    let mut pours = sour();
    pours[1].locked = true;
    pours[1].minimum = Some(20.0);
    let document = document(pours, SHAKEN, None);
    let found = divided(&document, &instead(1, "lemon-juice"), HERE, SplitRule::Both)
        .expect("it can be split");
    let pours = &found.swap.trial.pours;
    assert!(pours[1].locked && pours[2].locked && !pours[0].locked);
    assert_eq!((pours[1].minimum, pours[2].minimum), (None, None));
}

#[test]
fn a_held_base_can_be_split_over_two() {
    let document = document(sour(), SHAKEN, None);
    let held = (SwapAim::Trial, ScaleRule::BasePour);
    let found =
        divided(&document, &instead(0, "mezcal"), held, SplitRule::Both).expect("it can be split");
    let pours = &found.swap.trial.pours;
    let amounts: Vec<f64> = pours
        .iter()
        .filter_map(|pour| pour.amount.value())
        .collect();
    let total: f64 = amounts.iter().sum();
    assert!(amounts[0] > 0.0 && amounts[1] > 0.0);
    assert!((total - 105.0).abs() <= 2.5, "{amounts:?}");
}

#[test]
fn a_split_over_the_same_is_refused() {
    let document = document(sour(), SHAKEN, None);
    let refused = divided(&document, &instead(1, "lime-juice"), HERE, SplitRule::Both);
    let name = "lime juice".to_owned();
    assert_eq!(refused.err(), Some(SwapError::Same { name }));
}

#[test]
fn a_split_comes_nearer_where_neither_alone_can() {
    // Dry vermouth alone is too dry, sweet vermouth alone too sweet; everything else is locked.
    let vermouth = |id: &str, ml_: f64| {
        let mut pour = ml(id, ml_);
        pour.role = Role::Modifier;
        pour
    };
    let aim = [
        locked(ml("gin-london-dry", 60.0)),
        vermouth("vermouth-dry", 15.0),
        vermouth("vermouth-sweet-red", 15.0),
    ];
    let pours = vec![
        locked(ml("gin-london-dry", 60.0)),
        vermouth("vermouth-dry", 30.0),
    ];
    let document = document(pours, SHAKEN, Some(point(&aim, SHAKEN)));
    let target = (SwapAim::Target, ScaleRule::None);
    let found = divided(
        &document,
        &instead(1, "vermouth-sweet-red"),
        target,
        SplitRule::Both,
    )
    .expect("it can be split");
    assert!(found.swap.distance < 0.2, "{}", found.swap.distance);
    assert!(found.gain().expect("both make drinks") > 0.5, "{found:?}");
}

/// A target up to 40 % away on each axis from the sour.
fn any_target() -> impl Strategy<Value = Point> {
    let here = point(&sour(), SHAKEN);
    let off = || (-0.4..0.4_f64).prop_map(f64::exp);
    (off(), off(), off()).prop_map(move |(sweet, sour, strength)| Point {
        sweet_g_per_l: here.sweet_g_per_l * sweet,
        sour_g_per_l: here.sour_g_per_l * sour,
        strength_pct_vol: here.strength_pct_vol * strength,
        ..here
    })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_free_split_is_no_farther_than_the_better_one_alone(
        target in any_target(),
        hold in prop::sample::select(vec![ScaleRule::None, ScaleRule::PouredTotal]),
        second in prop::sample::select(vec![
            (1, "lemon-juice"), (1, "grapefruit-juice"), (1, "cider-vinegar"),
            (2, "honey"), (2, "orange-liqueur-triple-sec"), (0, "vodka"), (0, "sherry-fino"),
        ]),
    ) {
        let document = document(sour(), SHAKEN, Some(target));
        let replacement = instead(second.0, second.1);
        let aim = (SwapAim::Target, hold);
        let found = divided(&document, &replacement, aim, SplitRule::Any).expect("it can be split");
        // The two alone, asked for on their own.
        let asked = original(&document, aim.0, aim.1).expect("it is served");
        let mut pantry = Pantry::default();
        let alone = [vec![], vec![replacement]].map(|replacements| {
            swap(&asked, &replacements, &mut pantry).expect("it makes a drink").distance
        });
        let better = alone[0].min(alone[1]);
        prop_assert!(found.swap.distance <= better + 1e-9, "{} > {better}", found.swap.distance);
        prop_assert!(found.gain().expect("both make drinks") >= -1e-9);
        // Whatever came out at nothing is left out, so that no recipe says "0 ml".
        let pours = &found.swap.trial.pours;
        prop_assert!(pours.len() == 3 || pours[second.0..=second.0 + 1]
            .iter()
            .all(|pour| pour.amount.value().is_some_and(|amount| amount > 0.0)));
    }
}
