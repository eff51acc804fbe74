//! Rules on how much there is: kept, broken, unknown, and at the boundary.

use crate::rules_kit::{entry, one, spec, trial};
use crate::sample_drinks::{SHAKEN, document, lot, ml, sour};
use equipour::model::{
    AlcoholMeasure, Amount, Counted, Document, Method, RuleKind, Source, VolumeOf,
};
use equipour::service::{Act, Field, Finding, RuleVerdict};
use equipour::units::Unit;
use std::sync::Arc;

const GIN: &str = "house gin";

fn gin_sour() -> Document {
    let mut document = document(sour(), SHAKEN, None);
    entry(&mut document)
        .products
        .insert(GIN.to_owned(), "gin-london-dry".into());
    document
}

fn at_least(ml: f64) -> RuleKind {
    RuleKind::ProductAtLeast {
        product: GIN.to_owned(),
        ml,
    }
}

fn at_most(ml: f64) -> RuleKind {
    RuleKind::ProductAtMost {
        product: GIN.to_owned(),
        ml,
    }
}

fn is(found: &Finding, verdict: RuleVerdict) {
    assert_eq!(found.verdict, verdict, "{found:?}");
}

#[test]
fn a_product_at_its_limit_is_kept_and_a_hair_beyond_is_not() {
    let document = gin_sour();
    is(&one(&document, at_least(60.0)), RuleVerdict::Kept);
    is(&one(&document, at_most(60.0)), RuleVerdict::Kept);
    let short = one(&document, at_least(60.01));
    is(&short, RuleVerdict::Broken);
    assert_eq!(short.remedy, "Pour 0.01 ml more of gin (london dry).");
    is(&one(&document, at_most(59.99)), RuleVerdict::Broken);
}

#[test]
fn a_short_product_says_how_much_more_and_one_press_pours_it() {
    let found = one(&gin_sour(), at_least(65.0));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.title, "At least 65 ml of house gin");
    assert_eq!(found.reason, "60 ml of gin (london dry) is poured.");
    assert_eq!(found.remedy, "Pour 5 ml more of gin (london dry).");
    assert_eq!(found.pours, [0]);
    let pour = Act::Pour {
        place: 0,
        amount: 65.0,
    };
    assert_eq!(found.act, Some(pour));
}

#[test]
fn pours_and_lots_of_a_product_add_up() {
    let mut document = gin_sour();
    Arc::make_mut(&mut document.lots).insert(
        "batch".into(),
        lot("Batch 7", "gin-old-tom", "gin-london-dry"),
    );
    let row = crate::sample_drinks::larder()[&"gin-old-tom".into()].clone();
    Arc::make_mut(&mut document.ingredients).insert("gin-old-tom".into(), row);
    let mut more = ml("gin-london-dry", 5.0);
    more.source = Source::Lot("batch".into());
    trial(&mut document).pours.push(more);
    is(&one(&document, at_least(65.0)), RuleVerdict::Kept);
    let found = one(&document, at_most(64.0));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.pours, [0, 3]);
    assert!(found.reason.contains("65 ml"), "{found:?}");
}

#[test]
fn a_product_without_an_ingredient_is_unknown_and_one_of_its_name_is_guessed() {
    let mut document = gin_sour();
    entry(&mut document).products.clear();
    let found = one(&document, at_least(40.0));
    is(&found, RuleVerdict::Unknown);
    assert_eq!(found.act, Some(Act::Go(Field::Products)));
    let by_name = RuleKind::ProductAtLeast {
        product: "Gin (London Dry)".to_owned(),
        ml: 40.0,
    };
    let found = one(&document, by_name);
    is(&found, RuleVerdict::Kept);
    assert!(found.reason.contains("Taken by its name"), "{found:?}");
}

#[test]
fn a_product_that_is_not_poured_breaks_the_least_and_keeps_the_most() {
    let mut document = gin_sour();
    trial(&mut document).pours.remove(0);
    let found = one(&document, at_least(40.0));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.remedy, "Pour 40 ml of gin (london dry).");
    is(&one(&document, at_most(40.0)), RuleVerdict::Kept);
}

#[test]
fn a_product_in_words_is_unknown() {
    let mut document = gin_sour();
    trial(&mut document).pours[0].amount = Amount::Words("a good splash".to_owned());
    is(&one(&document, at_least(40.0)), RuleVerdict::Unknown);
    is(&one(&document, at_most(40.0)), RuleVerdict::Unknown);
}

#[test]
fn alcohol_is_told_in_each_measure() {
    // 60 ml at 40 % vol are 24 ml of ethanol of 0.78924 g/ml (76/766/EEC).
    let document = gin_sour();
    let rule = |measure, most| RuleKind::AlcoholAtMost { measure, most };
    for (measure, holds) in [
        (AlcoholMeasure::PureMl, 24.0),
        (AlcoholMeasure::PureGrams, 24.0 * 0.789_24),
        (AlcoholMeasure::AlcoholicMl, 60.0),
    ] {
        is(
            &one(&document, rule(measure, holds + 1.0e-3)),
            RuleVerdict::Kept,
        );
        is(
            &one(&document, rule(measure, holds - 1.0e-3)),
            RuleVerdict::Broken,
        );
    }
    let found = one(&document, rule(AlcoholMeasure::PureMl, 20.0));
    assert_eq!(found.remedy, "Pour 10 ml less of gin (london dry).");
}

#[test]
fn what_holds_next_to_no_alcohol_is_not_alcoholic() {
    let mut document = gin_sour();
    let mut weak = crate::sample_drinks::larder()[&"lime-juice".into()]
        .as_ref()
        .clone();
    let ingredients = Arc::make_mut(&mut document.ingredients);
    let rule = RuleKind::AlcoholAtMost {
        measure: AlcoholMeasure::AlcoholicMl,
        most: 60.0,
    };
    weak.strength_pct_vol = Some(equipour::model::Range::exact(1.2));
    ingredients.insert("lime-juice".into(), Arc::new(weak.clone()));
    is(&one(&document, rule.clone()), RuleVerdict::Kept);
    weak.strength_pct_vol = Some(equipour::model::Range::exact(1.3));
    Arc::make_mut(&mut document.ingredients).insert("lime-juice".into(), Arc::new(weak));
    is(&one(&document, rule), RuleVerdict::Broken);
}

#[test]
fn strength_and_volume_are_held_against_both_sides() {
    let document = gin_sour();
    let (strength, served) = crate::rules_kit::with_handed(&document, |handed| {
        let figures = handed.figures.expect("it has figures");
        (figures.point.strength_pct_vol, figures.served_ml)
    });
    let strong = |least, most| RuleKind::Strength { least, most };
    is(
        &one(&document, strong(Some(strength), Some(strength))),
        RuleVerdict::Kept,
    );
    is(
        &one(&document, strong(None, Some(strength - 0.1))),
        RuleVerdict::Broken,
    );
    is(
        &one(&document, strong(Some(strength + 0.1), None)),
        RuleVerdict::Broken,
    );
    let volume = |of, least, most| RuleKind::Volume { of, least, most };
    let of = VolumeOf::Served;
    is(
        &one(&document, volume(of, Some(served - 0.1), None)),
        RuleVerdict::Kept,
    );
    is(
        &one(&document, volume(of, Some(served + 0.1), None)),
        RuleVerdict::Broken,
    );
    let of = VolumeOf::Poured;
    is(
        &one(&document, volume(of, Some(105.0), Some(105.0))),
        RuleVerdict::Kept,
    );
    let found = one(&document, volume(of, Some(70.0), Some(100.0)));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.reason, "105 ml poured: 5 ml too much.");
}

#[test]
fn a_trial_without_pours_is_unknown_not_kept() {
    let mut document = gin_sour();
    trial(&mut document).pours.clear();
    for asks in [
        RuleKind::Strength {
            least: None,
            most: Some(20.0),
        },
        RuleKind::Volume {
            of: VolumeOf::Served,
            least: None,
            most: Some(200.0),
        },
        RuleKind::AlcoholAtMost {
            measure: AlcoholMeasure::PureMl,
            most: 40.0,
        },
        RuleKind::Ingredients {
            most: 6,
            counts: Counted::default(),
        },
        measures(&[Unit::Ml], None),
        RuleKind::NoAllergen {
            allergen: "milk".to_owned(),
        },
    ] {
        is(&one(&document, asks), RuleVerdict::Unknown);
    }
}

#[test]
fn what_is_not_counted_keeps_no_cap_for_sure() {
    let mut document = gin_sour();
    let mut splash = ml("orange-liqueur-triple-sec", 0.0);
    splash.amount = Amount::Words("a splash".to_owned());
    let row = crate::sample_drinks::larder()[&"orange-liqueur-triple-sec".into()].clone();
    Arc::make_mut(&mut document.ingredients).insert("orange-liqueur-triple-sec".into(), row);
    trial(&mut document).pours.push(splash);
    let cap = RuleKind::AlcoholAtMost {
        measure: AlcoholMeasure::PureMl,
        most: 40.0,
    };
    is(&one(&document, cap), RuleVerdict::Unknown);
}

fn measures(units: &[Unit], notch_ml: Option<f64>) -> RuleKind {
    RuleKind::Measures {
        units: units.to_vec(),
        drops_for_bitters: true,
        notch_ml,
    }
}

#[test]
fn amounts_in_words_other_units_or_between_notches_are_refused() {
    let mut document = gin_sour();
    is(
        &one(&document, measures(&[Unit::Ml], Some(7.5))),
        RuleVerdict::Kept,
    );
    let found = one(&document, measures(&[Unit::Ml], Some(5.0)));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.pours, [1, 2]);
    is(
        &one(&document, measures(&[Unit::Cl], None)),
        RuleVerdict::Broken,
    );
    trial(&mut document).pours[1].amount = Amount::Words("squeeze of lime".to_owned());
    let found = one(&document, measures(&[Unit::Ml], None));
    is(&found, RuleVerdict::Broken);
    assert!(found.reason.contains("squeeze of lime"), "{found:?}");
}

#[test]
fn dashes_are_for_bitters() {
    let mut document = gin_sour();
    let dash = |id: &str| {
        let mut pour = ml(id, 0.92);
        pour.unit = Unit::Dash;
        pour
    };
    let id = "aromatic-bitters";
    let bitters = crate::sample_drinks::larder().iter();
    let (id, row) = bitters
        .into_iter()
        .find(|(known, item)| known.0 == id || item.kind == "bitters")
        .expect("the larder has bitters");
    Arc::make_mut(&mut document.ingredients).insert(id.clone(), row.clone());
    trial(&mut document).pours.push(dash(&id.0));
    is(
        &one(&document, measures(&[Unit::Ml], None)),
        RuleVerdict::Kept,
    );
    trial(&mut document).pours.push(dash("lime-juice"));
    is(
        &one(&document, measures(&[Unit::Ml], None)),
        RuleVerdict::Broken,
    );
}

#[test]
fn another_technique_is_refused() {
    let document = gin_sour();
    let methods = |allowed: &[Method]| RuleKind::Methods {
        allowed: allowed.to_vec(),
    };
    is(
        &one(&document, methods(&[Method::Shaken, Method::Stirred])),
        RuleVerdict::Kept,
    );
    is(&one(&document, methods(&[])), RuleVerdict::Kept);
    is(
        &one(&document, methods(&[Method::Stirred])),
        RuleVerdict::Broken,
    );
}

#[test]
fn sixty_pours_of_one_ingredient_are_one_ingredient() {
    let mut document = gin_sour();
    let pours = &mut trial(&mut document).pours;
    *pours = (0..60).map(|_| ml("gin-london-dry", 1.0)).collect();
    let most = |most| RuleKind::Ingredients {
        most,
        counts: Counted::default(),
    };
    is(&one(&document, most(1)), RuleVerdict::Kept);
    is(&one(&document, at_least(60.0)), RuleVerdict::Kept);
    spec(&mut document).name.clear();
    is(&one(&document, most(0)), RuleVerdict::Broken);
}
