//! Newer figures of the built-in larder are offered, and never against what a person wrote.

use crate::history::set_amount;
use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::{Density, Ingredient, IngredientId, Origin, Range};
use equipour::session::{Action, Edit, Session, kept_as_own};
use std::sync::Arc;

const LIME: &str = "lime-juice";

/// The sour, whose lime juice was copied from an older larder with less sugar, and then changed.
fn session(change: impl FnOnce(&mut Ingredient)) -> Session {
    let mut document = document(sour(), SHAKEN, None);
    let held = Arc::make_mut(&mut document.ingredients);
    let lime = Arc::make_mut(
        held.get_mut(&IngredientId::from(LIME))
            .expect("it is poured"),
    );
    lime.origin = Origin::BuiltIn { larder_version: 1 };
    lime.sugar_g = Some(Range::exact(1.0));
    change(lime);
    Session::new(Arc::clone(builtin()), document)
}

/// The row that is offered, if one is.
fn offered(session: &Session) -> Option<Arc<Ingredient>> {
    let found = session
        .notices()
        .iter()
        .find(|notice| notice.text.starts_with("The larder has newer figures"))?;
    let Some(Action::Edit(_, edit)) = &found.action else {
        panic!("nothing can be done");
    };
    let Edit::SetIngredient { ingredient, .. } = &**edit else {
        panic!("{edit:?}");
    };
    Some(Arc::clone(ingredient))
}

#[test]
fn newer_figures_are_offered_with_the_name_and_the_flavours_that_were_given() {
    let session = session(|lime| {
        lime.name = "lime, pressed here".to_owned();
        lime.notes = vec!["zest".to_owned()];
    });
    let offered = offered(&session).expect("newer figures");
    assert_eq!(offered.name, "lime, pressed here");
    assert_eq!(offered.notes, ["zest"]);
    let factory = &builtin().larder[&IngredientId::from(LIME)];
    assert_eq!(offered.sugar_g, factory.sugar_g);
    assert_ne!(offered.sugar_g, Some(Range::exact(1.0)));
}

#[test]
fn a_retired_row_is_offered_nothing() {
    assert!(offered(&session(|_| {})).is_some());
    assert!(offered(&session(|lime| lime.retired = true)).is_none());
}

#[test]
fn words_alone_are_no_news() {
    let factory = &builtin().larder[&IngredientId::from(LIME)];
    let session = session(|lime| {
        lime.sugar_g = factory.sugar_g;
        lime.name = "lime, pressed here".to_owned();
        lime.notes = vec!["zest".to_owned()];
    });
    assert!(offered(&session).is_none());
}

#[test]
fn a_row_whose_figures_a_person_changed_is_their_own() {
    let factory = &builtin().larder[&IngredientId::from(LIME)];
    let changed = |change: fn(&mut Ingredient)| {
        let mut item = Ingredient::clone(factory);
        change(&mut item);
        kept_as_own(factory, item).origin
    };
    for change in [
        (|item| item.sugar_g = Some(Range::exact(3.0))) as fn(&mut Ingredient),
        |item| item.ph = None,
        |item| item.allergens = "milk".to_owned(),
        |item| {
            item.density = Some(Density {
                g_per_ml: 1.1,
                measured: true,
            });
        },
    ] {
        assert_eq!(changed(change), Origin::Own);
    }
    for change in [
        (|item| item.name = "lime".to_owned()) as fn(&mut Ingredient),
        |item| item.notes.push("zest".to_owned()),
        |item| item.retired = true,
        |_| {},
    ] {
        assert_eq!(changed(change), factory.origin);
    }
}

#[test]
fn moving_an_amount_works_no_offer_out_again() {
    let mut session = session(|_| {});
    let before = offered(&session).expect("newer figures");
    session.edit(&set_amount(0, 50.0)).expect("it can be set");
    session.refresh();
    let after = offered(&session).expect("newer figures");
    assert!(Arc::ptr_eq(&before, &after), "it is the row of before");
    // And taking it ends the offer.
    let edit = Edit::SetIngredient {
        id: LIME.into(),
        ingredient: after,
    };
    session.edit(&edit).expect("it can be taken");
    session.refresh();
    assert!(offered(&session).is_none());
    session.undo();
    session.refresh();
    assert!(offered(&session).is_some());
}
