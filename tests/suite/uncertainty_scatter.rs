//! The error of each pour and of the water from ice, and of the pH that follows.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, ml, sour, weighing};
use crate::uncertain_drinks::{Case, grams};
use equipour::balance::{Drink, Pantry, dilution_sigma, figures, pour_sigma};
use equipour::model::{
    Amount, Dilution, Figure, Method, Pour, Precision, Range, Technique, Weighing,
};
use equipour::session::Session;
use equipour::units::Unit;
use std::sync::Arc;

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-12, "{one} {other}");
}

#[test]
fn each_way_of_measuring_has_its_own_error() {
    let usual = Precision::default();
    let pour = |amount: Amount, unit: Unit| Pour {
        amount,
        unit,
        ..ml("lime-juice", 0.0)
    };
    // Half of what the precision states, which is two standard deviations.
    for (amount, unit, expected) in [
        (Amount::Ml(60.0), Unit::Ml, 1.2),
        (Amount::Ml(60.0), Unit::Oz, 1.2),
        (Amount::Ml(60.0), Unit::Cl, 1.2),
        (Amount::Ml(10.0), Unit::FlOz, 0.5),
        (Amount::Ml(5.0), Unit::BarSpoon, 0.5),
        (Amount::Ml(5.0), Unit::Teaspoon, 0.5),
        (Amount::Ml(0.92), Unit::Dash, 0.184),
        (Amount::Ml(0.1), Unit::Drop, 0.02),
        (Amount::Grams(50.0), Unit::Gram, 0.05),
        (Amount::Grams(5.0), Unit::BarSpoon, 0.05),
        (Amount::Pieces(1.0), Unit::Piece, 0.05),
        (Amount::Ml(0.0), Unit::Ml, 0.0),
        (Amount::Grams(0.0), Unit::Gram, 0.0),
        (Amount::Words("5 leaves".to_owned()), Unit::Piece, 0.0),
    ] {
        let value = amount.value().unwrap_or(1.0);
        near(pour_sigma(&usual, &pour(amount, unit), value), expected);
    }
}

#[test]
fn water_scatters_by_the_way_it_is_known() {
    let usual = Precision::default();
    let sigma = |method, dilution| {
        let technique = Technique::new(method, dilution);
        let case = Case {
            technique,
            ..Case::of(sour())
        };
        dilution_sigma(&usual, &[], &case.drink())
    };
    near(sigma(Method::Shaken, Dilution::ByMethod), 0.075);
    near(sigma(Method::Stirred, Dilution::ByMethod), 0.075);
    for method in [
        Method::Built,
        Method::Thrown,
        Method::Swizzled,
        Method::Blended,
    ] {
        near(sigma(method, Dilution::ByMethod), 0.15);
    }
    near(sigma(Method::NoIce, Dilution::ByMethod), 0.0);
    near(sigma(Method::Bottled, Dilution::ByMethod), 0.0);
    near(sigma(Method::Stirred, Dilution::Fraction(0.25)), 0.15);
    near(sigma(Method::Blended, Dilution::IceGrams(100.0)), 0.000_5);
    near(sigma(Method::Blended, Dilution::IceGrams(0.0)), 0.0);
    // 40 g of water over 100 g: both weights are 0.05 g off, the lower one counts 1.4 times.
    let weighed = Dilution::Weighed {
        before_g: 100.0,
        after_g: 140.0,
    };
    let expected = 0.05 * (1.0_f64 + 1.4 * 1.4).sqrt() / 40.0;
    near(sigma(Method::Shaken, weighed), expected);
}

/// 25 % vol, shaken to this weight.
fn shaken_to(after_g: f64) -> Weighing {
    weighing(Method::Shaken, 25.0, after_g)
}

/// Standard deviation of the water of a sour with these weighings, and what they say alone.
fn weighed_sigma(after_g: &[f64], precision: &Precision, technique: Technique) -> (f64, f64) {
    let mut document = document(sour(), technique, None);
    document.weighings = Arc::new(after_g.iter().copied().map(shaken_to).collect());
    let (_, trial) = document.trial(TRIAL).expect("it is there");
    let drink = Drink::of_trial(&document, trial, &mut Pantry::default()).expect("it resolves");
    (
        dilution_sigma(precision, &document.weighings, &drink),
        drink.own_scatter.unwrap_or(f64::NAN),
    )
}

#[test]
fn ones_own_weighings_are_averaged_with_the_usual_scatter() {
    let usual = Precision::default();
    let (found, own) = weighed_sigma(&[150.0, 154.0], &usual, SHAKEN);
    // Three usual weighings beside the one that shows scatter.
    near(found, ((3.0 * 0.075_f64.powi(2) + own * own) / 4.0).sqrt());
    assert!(own > 0.01 && own < found && found < 0.075, "{found} {own}");
    // Wild weighings widen it, and many of them outweigh the usual scatter.
    let (wild, own) = weighed_sigma(&[140.0, 170.0], &usual, SHAKEN);
    assert!(wild > 0.075 && wild < own, "{wild} {own}");
    let many = [140.0, 170.0].repeat(40);
    let (many, own) = weighed_sigma(&many, &usual, SHAKEN);
    assert!((many / own - 1.0).abs() < 0.05, "{many} {own}");
    // One weighing says nothing of the scatter.
    near(weighed_sigma(&[150.0], &usual, SHAKEN).0, 0.075);
    // A fraction of one's own does not rest on them.
    let stated = Technique::new(Method::Shaken, Dilution::Fraction(0.5));
    near(weighed_sigma(&[150.0, 154.0], &usual, stated).0, 0.15);
}

#[test]
fn weighings_that_agree_make_the_water_surer_but_never_certain() {
    let usual = Precision::default();
    let sigma = |count: usize| weighed_sigma(&vec![150.0; count], &usual, SHAKEN).0;
    let mut last = 0.075 + 1.0e-12;
    for count in 1..40 {
        let found = sigma(count);
        assert!(found < last, "{count} weighings: {found} {last}");
        assert!(
            found > 0.075 / (count as f64).sqrt() - 1.0e-12,
            "{count}: {found}"
        );
        last = found;
    }
    // Two equal ones alone say too little: the mean of three usual variances and none.
    near(sigma(2), 0.075 * 0.75_f64.sqrt());
    // However many there are, the scale is off by 0.05 g on 100 g and on 150 g, of 50 g of water.
    let scale = 0.05 * (1.0_f64 + 1.5 * 1.5).sqrt() / 50.0;
    near(sigma(5_000), scale.max(0.075 * (3.0_f64 / 5_002.0).sqrt()));
    let coarse = Precision {
        scale_g: 4.0,
        ..usual
    };
    near(
        weighed_sigma(&[150.0, 150.0, 150.0], &coarse, SHAKEN).0,
        2.0 * (1.0_f64 + 1.5 * 1.5).sqrt() / 50.0,
    );
}

#[test]
fn the_error_of_ph_follows_the_errors_of_acids_and_of_the_ingredients_own_ph() {
    let exact = Case::of(vec![
        ml("gin-london-dry", 60.0),
        ml("lime-juice", 22.5),
        grams("sugar-syrup-1-1", 25.0),
    ])
    .all_exact();
    for (figure, off) in [(Figure::Ph, 0.1), (Figure::Citric, 0.5)] {
        let typical = figure.of(&exact.items[1]).expect("it is stated").typical;
        let range = Range {
            low: typical - off,
            typical,
            high: typical + off,
        };
        let sigma = exact.clone().with_range(1, figure, range).uncertainty();
        let ph = |value: f64| {
            let case = exact.clone().with_range(1, figure, Range::exact(value));
            figures(&case.drink())
                .expect("it is served")
                .ph
                .expect("it has acid")
        };
        let own = (ph(range.high) - ph(range.low)) / 4.0;
        let expected = own.hypot(0.1);
        let found = sigma.ph.expect("it has acid");
        assert!(
            found > 0.1 && own.abs() > 0.005,
            "{figure:?}: {found} {own}"
        );
        let found = (found * found - 0.01).sqrt();
        assert!(
            (found / own.abs() - 1.0).abs() < 0.1,
            "{figure:?}: {found} {expected} {own}"
        );
    }
    let spirit = Case::of(vec![ml("gin-london-dry", 60.0)]);
    assert_eq!(spirit.uncertainty().ph, None, "without acid there is no pH");
}

#[test]
fn the_open_document_hands_its_weighings_to_the_error_of_the_water() {
    let share = |count: usize, set_aside: bool| {
        let mut document = document(sour(), SHAKEN, None);
        document.weighings = vec![shaken_to(150.0); count].into();
        if set_aside {
            document.uncalibrated.insert(Method::Shaken);
        }
        let mut session = Session::new(Arc::clone(builtin()), document);
        session.select_trial(TRIAL);
        session.refresh();
        let derived = session.derived().expect("a trial is on screen");
        let figures = derived.figures.as_ref().expect("it is served");
        derived.uncertainty.as_ref().expect("it is served").dilution / figures.dilution
    };
    let (none, two, many) = (share(0, false), share(2, false), share(100, false));
    assert!(many < two && two < none, "{many} {two} {none}");
    assert!(two > 0.8 * none, "{two} {none}");
    near(share(100, true), none);
}
