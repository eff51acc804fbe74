//! What was tasted stays as it was.

use crate::history::{session, set_amount};
use crate::sample_drinks::{TRIAL, larder, ml};
use equipour::balance::{Drink, Figures, Pantry, figures};
use equipour::model::{Ingredient, MadeBy, Range, Role, TrialId, TrialState};
use equipour::rebalance::Change;
use equipour::session::{Edit, Session};
use std::sync::Arc;

/// Figures of a trial as the document has it.
fn figures_of(session: &Session, id: TrialId) -> Figures {
    let document = session.document();
    let (_, trial) = document.trial(id).expect("it is there");
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it can be served")
}

/// A session whose trial was tasted.
fn tasted() -> Session {
    let mut session = session();
    let state = TrialState::Tasted;
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state,
        })
        .expect("it can be tasted");
    session
}

#[test]
fn a_tasted_trial_refuses_to_be_poured_differently() {
    let mut session = tasted();
    let lemon = larder()[&"lemon-juice".into()].clone();
    let changes = vec![Change {
        pour: 0,
        from: 60.0,
        to: 50.0,
    }];
    let refused = [
        set_amount(0, 50.0),
        Edit::SetAdded {
            trial: TRIAL,
            pour: 0,
            added: equipour::model::Added::After,
        },
        Edit::AddPour {
            trial: TRIAL,
            pour: ml("lime-juice", 1.0),
            ingredient: None,
        },
        Edit::RemovePour {
            trial: TRIAL,
            pour: 0,
        },
        Edit::MovePour {
            trial: TRIAL,
            from: 0,
            to: 1,
        },
        Edit::Swap {
            trial: TRIAL,
            pour: 1,
            id: "lemon-juice".into(),
            ingredient: lemon,
        },
        Edit::ApplyChanges {
            trial: TRIAL,
            changes,
            label: "Nearest".to_owned(),
        },
        Edit::SetTechnique {
            trial: TRIAL,
            technique: equipour::model::Technique::default(),
        },
    ];
    let before = Arc::clone(session.document());
    for edit in refused {
        let error = session.edit(&edit).expect_err("it was tasted");
        assert_eq!(
            error.to_string(),
            "Trial 1 was tasted: its figures are kept. Start a new trial from it"
        );
        assert!(Arc::ptr_eq(&before, session.document()));
    }
    // What changes no figure may still change.
    let role = Role::Other;
    session
        .edit(&Edit::SetRole {
            trial: TRIAL,
            pour: 0,
            role,
        })
        .expect("a role is no figure");
    session
        .edit(&Edit::SetState {
            trial: TRIAL,
            state: TrialState::Draft,
        })
        .expect("it may become a draft again");
    session
        .edit(&set_amount(0, 50.0))
        .expect("and then it moves");
}

#[test]
fn a_tasted_trial_keeps_its_figures_when_an_ingredient_changes() {
    let mut session = tasted();
    let grow = Edit::GrowTrial {
        from: TRIAL,
        reason: "weaker gin".to_owned(),
        changes: vec![],
        made_by: MadeBy::Hand,
    };
    session.edit(&grow).expect("it can grow");
    let child = session.selection().trial.expect("the new trial is shown");
    let before = figures_of(&session, TRIAL);
    assert_eq!(figures_of(&session, child).point, before.point);
    let gin = Ingredient {
        strength_pct_vol: Some(Range::exact(30.0)),
        ..Ingredient::clone(&larder()[&"gin-london-dry".into()])
    };
    let id = "gin-london-dry".into();
    session
        .edit(&Edit::SetIngredient {
            id,
            ingredient: Arc::new(gin),
        })
        .expect("it stands");
    assert_eq!(figures_of(&session, TRIAL), before);
    let weaker = figures_of(&session, child).point.strength_pct_vol;
    assert!(weaker < before.point.strength_pct_vol - 1.0, "{weaker}");
    session.refresh();
    let derived = session.derived().expect("a trial is shown");
    assert_eq!(derived.trail[0].point, before.point, "the map keeps it too");
    assert!((derived.trail[1].point.strength_pct_vol - weaker).abs() < 1e-12);
}
