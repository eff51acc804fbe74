//! Thousands of trials in one drink: what is not touched stays shared.

use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, ml, sour};
use equipour::model::{
    Amount, Document, Ingredient, MadeBy, Point, Trial, TrialId, check, check_since,
};
use equipour::session::{Edit, Session, TrialEdit};
use equipour::units::Unit;
use std::sync::Arc;

const MANY: u32 = 5_000;

/// So many trials with amounts of their own, each grown from the one before.
fn many(target: Option<Point>) -> Document {
    let mut doc = document(sour(), SHAKEN, target);
    let trials = (0..MANY).map(|place| {
        let mut pours = sour();
        pours[1].amount = Amount::Ml(15.0 + f64::from(place) * 0.002);
        let id = TrialId(TRIAL.0 + place);
        Arc::new(Trial {
            parent: (place > 0).then(|| TrialId(id.0 - 1)),
            ..Trial::new(id, format!("Trial {}", place + 1), SHAKEN, pours)
        })
    });
    doc.specs[0].trials = trials.collect();
    doc.next_number = TRIAL.0 + MANY;
    doc
}

fn trials(document: &Document) -> &[Arc<Trial>] {
    &document.spec(SPEC).expect("the drink is there").trials
}

/// How many trials two documents do not share.
fn apart(one: &Document, other: &Document) -> usize {
    let known: std::collections::BTreeSet<*const Trial> =
        trials(one).iter().map(Arc::as_ptr).collect();
    let new = trials(other).iter();
    new.filter(|trial| !known.contains(&Arc::as_ptr(trial)))
        .count()
}

#[test]
fn an_edit_among_thousands_of_trials_touches_one_and_undo_gives_the_very_same_ones_back() {
    let mut session = Session::new(Arc::clone(builtin()), many(None));
    let middle = TrialId(TRIAL.0 + MANY / 2);
    session.select_trial(middle);
    session.refresh();
    let derived = session.derived().expect("a trial is shown");
    assert_eq!(derived.trail.len(), MANY as usize);
    let amount = Edit::SetAmount {
        trial: middle,
        pour: 0,
        amount: Amount::Ml(55.0),
        unit: Unit::Ml,
    };
    let edits = [
        (amount, 1),
        (
            Edit::Trial(TrialEdit::Star {
                trial: middle,
                on: true,
            }),
            1,
        ),
        (Edit::Trial(TrialEdit::Bin { trial: middle }), 0),
        (Edit::Trial(TrialEdit::Restore { trial: middle }), 1),
        (
            Edit::GrowTrial {
                from: middle,
                reason: String::new(),
                changes: Vec::new(),
                made_by: MadeBy::Hand,
            },
            1,
        ),
    ];
    for (edit, changed) in edits {
        let before = Arc::clone(session.document());
        session.edit(&edit).expect("it can be done");
        session.settle();
        assert_eq!(apart(&before, session.document()), changed, "{edit:?}");
        session.undo();
        assert!(Arc::ptr_eq(&before, session.document()));
        session.redo();
        check(session.document()).expect("it is sound");
    }
    session.refresh();
    let derived = session.derived().expect("a trial is shown");
    assert_eq!(derived.trail.len(), MANY as usize + 1);
}

#[test]
fn a_trial_that_cannot_stand_is_found_wherever_a_neighbour_left() {
    let sound = many(None);
    let mut next = sound.clone();
    let away = next.specs[0].trials.remove(10);
    next.specs[0].bin.push(away);
    check_since(&next, &sound).expect("it is sound");
    for place in [0, 9, 10, 11, 4_000] {
        let mut wrong = next.clone();
        Arc::make_mut(&mut wrong.specs[0].trials[place]).pours[0].amount = Amount::Ml(-1.0);
        let error = check_since(&wrong, &sound).expect_err("it is negative");
        let field = format!("specs[0].trials[{place}].pours[0].amount");
        assert_eq!(error.field, field);
    }
}

/// Points of all trials on the map, worked out by a session that knew nothing before.
fn fresh_trail(session: &Session) -> Vec<Point> {
    let mut fresh = Session::new(Arc::clone(builtin()), Document::clone(session.document()));
    fresh.select_trial(session.selection().trial.expect("one is shown"));
    fresh.refresh();
    trail(&fresh)
}

fn trail(session: &Session) -> Vec<Point> {
    let derived = session.derived().expect("a trial is shown");
    derived.trail.iter().map(|one| one.point).collect()
}

#[test]
fn points_on_the_map_are_those_of_a_fresh_look_after_every_edit_undo_and_redo() {
    let mut doc = document(sour(), SHAKEN, None);
    doc.specs[0].trials = trials(&many(None))[..5].to_vec();
    doc.next_number = 9_000;
    let mut session = Session::new(Arc::clone(builtin()), doc);
    session.select_trial(TRIAL);
    let gin = equipour::model::IngredientId::from("gin-london-dry");
    let stronger = Ingredient {
        strength_pct_vol: Some(equipour::model::Range::exact(57.0)),
        ..Ingredient::clone(&session.document().ingredients[&gin])
    };
    let lemon = equipour::model::IngredientId::from("lemon-juice");
    let edits = [
        Edit::SetIngredient {
            id: gin,
            ingredient: Arc::new(stronger),
        },
        Edit::AddPour {
            trial: TRIAL,
            pour: ml("lemon-juice", 10.0),
            ingredient: Some((
                lemon.clone(),
                Arc::clone(&crate::sample_drinks::larder()[&lemon]),
            )),
        },
        Edit::Trial(TrialEdit::Bin {
            trial: TrialId(TRIAL.0 + 2),
        }),
    ];
    for edit in &edits {
        session.edit(edit).expect("it can be done");
        session.settle();
        session.refresh();
        assert_eq!(trail(&session), fresh_trail(&session), "{edit:?}");
    }
    for _ in &edits {
        session.undo();
        session.refresh();
        assert_eq!(trail(&session), fresh_trail(&session));
    }
    for _ in &edits {
        session.redo();
        session.refresh();
        assert_eq!(trail(&session), fresh_trail(&session));
    }
}
