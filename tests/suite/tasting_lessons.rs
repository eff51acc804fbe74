//! What tastings of a document suggest for its targets.

use crate::sample_drinks::{SHAKEN, TRIAL, point, sour};
use crate::tasting_documents::{put, started, tasting};
use equipour::model::{Attribute, Ingredient, Range, Tasting};
use equipour::session::{Edit, Session, tasting_results};
use std::sync::Arc;

/// Everybody answers alike to both trials, which are the same drink.
fn answered(session: &mut Session, sweet: u8) {
    let mut changed = Tasting::clone(tasting(session));
    for cup in changed.tasters.iter_mut().flat_map(|one| &mut one.cups) {
        for attribute in [Attribute::Sour, Attribute::Strong, Attribute::Dilution] {
            cup.right.insert(attribute, 3);
        }
        cup.right.insert(Attribute::Sweet, sweet);
        cup.liking = Some(6);
    }
    changed.closed = true;
    put(session, changed).expect("it can stand");
}

#[test]
fn too_sweet_answers_point_to_a_drier_drink_and_just_right_ones_nowhere() {
    let here = point(&sour(), SHAKEN);
    for (sweet, way) in [(5, -1.0), (3, 0.0), (1, 1.0)] {
        let mut session = started();
        answered(&mut session, sweet);
        let found = tasting_results(session.document(), tasting(&session));
        for lesson in &found.lessons {
            let lesson = lesson.as_ref().expect("there are answers");
            let moved = lesson.point.sweet_g_per_l - here.sweet_g_per_l;
            assert!(
                moved * way > 0.0 || (way == 0.0 && moved.abs() < 1e-9),
                "{moved}"
            );
            assert!((lesson.point.sour_g_per_l - here.sour_g_per_l).abs() < 1e-9);
            assert!(
                lesson.axes.iter().all(|axis| axis.few),
                "two answers are a hint"
            );
        }
    }
}

#[test]
fn what_was_tasted_stays_where_it_lay_when_an_ingredient_changes() {
    let mut session = started();
    answered(&mut session, 4);
    let before = tasting_results(session.document(), tasting(&session));
    let lime = session.document().ingredients[&"lime-juice".into()].clone();
    let sweeter = Ingredient {
        sugar_g: Some(Range::exact(30.0)),
        ..Ingredient::clone(&lime)
    };
    session
        .edit(&Edit::SetIngredient {
            id: "lime-juice".into(),
            ingredient: Arc::new(sweeter),
        })
        .expect("another lime");
    let after = tasting_results(session.document(), tasting(&session));
    assert_eq!(after.lessons, before.lessons);
    assert!(session.document().trial(TRIAL).is_some());
}
