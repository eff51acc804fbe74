//! Trials are starred, put aside, thrown away and brought back, and none is ever lost.

use crate::history::{session, set_amount};
use crate::house_sample::{SYRUP, house, id as made, output};
use crate::random_edits::any_draws;
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, sour};
use equipour::balance::{Drink, Figures, Pantry, figures};
use equipour::model::{Document, MadeBy, Spec, Trial, TrialId, TrialState, check};
use equipour::session::{Edit, HouseEdit, LarderEdit, Session, TrialEdit};
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;

fn edit(session: &mut Session, edit: TrialEdit) {
    session.edit(&Edit::Trial(edit)).expect("it can be done");
}

fn grow(session: &mut Session, from: TrialId) -> TrialId {
    let edit = Edit::GrowTrial {
        from,
        reason: String::new(),
        changes: Vec::new(),
        made_by: MadeBy::Hand,
    };
    session.edit(&edit).expect("it can grow");
    session.selection().trial.expect("the new one is shown")
}

/// A drink with so many trials, each grown from the one before.
fn of_trials(count: usize) -> (Session, Vec<TrialId>) {
    let mut session = session();
    let mut all = vec![TRIAL];
    while all.len() < count {
        all.push(grow(&mut session, *all.last().expect("one is there")));
    }
    (session, all)
}

fn spec(session: &Session) -> &Spec {
    session.document().spec(SPEC).expect("the drink is there")
}

fn live(session: &Session) -> Vec<TrialId> {
    spec(session).trials.iter().map(|trial| trial.id).collect()
}

fn figures_of(session: &Session, id: TrialId) -> Figures {
    let (_, trial) = session.document().trial(id).expect("it is there");
    let drink = Drink::of_trial(session.document(), trial, &mut Pantry::default());
    figures(&drink.expect("it resolves")).expect("it can be served")
}

/// Trials of every drink, those in the bin too.
fn held(document: &Document) -> BTreeSet<TrialId> {
    let all = document.specs.iter().flat_map(Spec::trials_and_bin);
    all.map(|trial| trial.id).collect()
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn nothing_but_removing_a_drink_loses_a_trial(draws in any_draws(40)) {
        let mut session = session();
        for draw in &draws {
            let before = Arc::clone(session.document());
            let edit = draw.edit(&before);
            if session.edit(&edit).is_ok() && !matches!(edit, Edit::RemoveSpec { .. }) {
                prop_assert!(held(session.document()).is_superset(&held(&before)), "{edit:?}");
                check(session.document()).expect("it is sound");
            }
        }
    }

    #[test]
    fn whatever_is_thrown_away_in_whatever_order_comes_back_as_it_was(
        count in 2..8_usize,
        order in Just((0..7_usize).collect::<Vec<_>>()).prop_shuffle(),
        back in Just((0..7_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let (mut session, all) = of_trials(count);
        let begin = Arc::clone(session.document());
        let within = |order: &[usize]| -> Vec<TrialId> {
            let places = order.iter().filter(|place| **place < count);
            places.map(|place| all[*place]).collect()
        };
        let away = &within(&order)[..count - 1];
        for trial in away {
            edit(&mut session, TrialEdit::Bin { trial: *trial });
            let selected = session.selection().trial.expect("one is shown");
            prop_assert!(live(&session).contains(&selected));
            check(session.document()).expect("children keep their parents");
        }
        for trial in within(&back).iter().filter(|trial| away.contains(trial)) {
            edit(&mut session, TrialEdit::Restore { trial: *trial });
            check(session.document()).expect("parents stand before their children");
        }
        prop_assert_eq!(&live(&session), &all);
        prop_assert_eq!(&**session.document(), &*begin);
    }
}

#[test]
fn the_last_trial_of_a_drink_cannot_be_thrown_away() {
    let (mut session, all) = of_trials(2);
    edit(&mut session, TrialEdit::Bin { trial: all[0] });
    let last = Edit::Trial(TrialEdit::Bin { trial: all[1] });
    let refused = session.edit(&last).expect_err("one stays").to_string();
    let reason = "Trial 2 is the only trial of Sour: start another one first";
    assert_eq!(refused, reason);
    let gone = Edit::Trial(TrialEdit::Bin { trial: all[0] });
    assert!(session.edit(&gone).is_err(), "it is away already");
    let there = Edit::Trial(TrialEdit::Restore { trial: all[1] });
    assert!(session.edit(&there).is_err(), "it was never away");
}

#[test]
fn when_the_trial_on_screen_is_thrown_away_the_one_beside_it_is_shown() {
    let (mut session, all) = of_trials(5);
    edit(
        &mut session,
        TrialEdit::Archive {
            trial: all[2],
            on: true,
        },
    );
    session.select_trial(all[1]);
    edit(&mut session, TrialEdit::Bin { trial: all[1] });
    assert_eq!(session.selection().trial, Some(all[3]), "not one put aside");
    session.select_trial(all[4]);
    edit(&mut session, TrialEdit::Bin { trial: all[4] });
    assert_eq!(session.selection().trial, Some(all[3]));
    session.select_trial(all[0]);
    edit(&mut session, TrialEdit::Bin { trial: all[3] });
    assert_eq!(session.selection().trial, Some(all[0]), "it is still there");
    edit(&mut session, TrialEdit::Bin { trial: all[0] });
    assert_eq!(
        session.selection().trial,
        Some(all[2]),
        "nothing else is left"
    );
}

#[test]
fn a_trial_in_the_bin_cannot_be_changed_until_it_is_back() {
    let (mut session, _) = of_trials(2);
    edit(&mut session, TrialEdit::Bin { trial: TRIAL });
    assert!(session.edit(&set_amount(0, 10.0)).is_err());
    edit(&mut session, TrialEdit::Restore { trial: TRIAL });
    session.edit(&set_amount(0, 10.0)).expect("it moves again");
}

#[test]
fn a_trial_that_comes_back_is_written_in_the_unit_of_the_others() {
    let (mut session, _) = of_trials(2);
    edit(&mut session, TrialEdit::Bin { trial: TRIAL });
    let unit = equipour::units::Unit::Oz;
    session
        .edit(&Edit::SetUnit { unit })
        .expect("it can be set");
    edit(&mut session, TrialEdit::Restore { trial: TRIAL });
    let units = spec(&session).trials.iter().map(|trial| trial.unit());
    assert_eq!(units.collect::<Vec<_>>(), [Some(unit); 2]);
}

#[test]
fn what_a_thrown_away_trial_pours_stays_in_the_larder() {
    let (mut session, all) = of_trials(2);
    for _ in 0..3 {
        let pour = Edit::RemovePour {
            trial: all[1],
            pour: 0,
        };
        session.edit(&pour).expect("it can be taken out");
    }
    edit(&mut session, TrialEdit::Bin { trial: TRIAL });
    let remove = Edit::Larder(LarderEdit::Remove("lime-juice".into()));
    let refused = session.edit(&remove).expect_err("it is poured").to_string();
    assert_eq!(refused, "it is used by Sour, Trial 1; retire it instead");
    let before = figures_of_binned(&session);
    edit(&mut session, TrialEdit::Restore { trial: TRIAL });
    assert_eq!(figures_of(&session, TRIAL), before);
}

fn figures_of_binned(session: &Session) -> Figures {
    let trial = spec(session).bin.first().expect("it is in the bin");
    let drink = Drink::of_trial(session.document(), trial, &mut Pantry::default());
    figures(&drink.expect("it resolves")).expect("it can be served")
}

#[test]
fn a_trial_that_comes_back_after_its_preparation_was_taken_out_keeps_its_figures() {
    let mut session = house();
    let before = figures_of(&session, TRIAL);
    grow(&mut session, TRIAL);
    edit(&mut session, TrialEdit::Bin { trial: TRIAL });
    let remove = |keep| {
        Edit::House(HouseEdit::Remove {
            id: made(SYRUP),
            keep,
        })
    };
    session.edit(&remove(false)).expect_err("it is poured");
    session.edit(&remove(true)).expect("its rows stay");
    edit(&mut session, TrialEdit::Restore { trial: TRIAL });
    assert_eq!(figures_of(&session, TRIAL), before);
    let (_, trial) = session.document().trial(TRIAL).expect("it is back");
    assert_ne!(trial.pours[2].source, output(SYRUP, "syrup"));
}

#[test]
fn stars_and_making_a_trial_change_no_figure_of_a_tasted_one() {
    let mut session = session();
    let tasted = Edit::SetState {
        trial: TRIAL,
        state: TrialState::Tasted,
    };
    session.edit(&tasted).expect("it was tasted");
    let before = figures_of(&session, TRIAL);
    edit(
        &mut session,
        TrialEdit::Star {
            trial: TRIAL,
            on: true,
        },
    );
    edit(
        &mut session,
        TrialEdit::Archive {
            trial: TRIAL,
            on: true,
        },
    );
    let trial = session.trial().expect("it is shown");
    assert!(trial.starred && trial.archived);
    let run = equipour::session::planned(trial, "2026-05-04");
    edit(&mut session, TrialEdit::Record { trial: TRIAL, run });
    assert_eq!(figures_of(&session, TRIAL), before);
    for _ in 0..3 {
        session.undo();
    }
    let trial = session.trial().expect("it is shown");
    assert!(!trial.starred && !trial.archived && trial.runs.is_empty());
    let name = &session.trial().expect("it is shown").name;
    let star = format!("Star {name}");
    assert_eq!(session.history().redo_label(), Some(star.as_str()));
}

#[test]
fn a_trial_of_an_untidy_file_comes_back_behind_its_parent_and_before_its_children() {
    let trial = |number: u32, parent: Option<u32>| {
        Arc::new(Trial {
            parent: parent.map(TrialId),
            ..Trial::new(TrialId(number), number.to_string(), SHAKEN, sour())
        })
    };
    let mut untidy = document(sour(), SHAKEN, None);
    untidy.next_number = 20;
    let order = [(9, None), (4, Some(9)), (3, Some(4)), (7, None)];
    untidy.specs[0].trials = order.map(|(id, parent)| trial(id, parent)).to_vec();
    check(&untidy).expect("it is sound");
    for (away, _) in order {
        let mut session = Session::new(Arc::clone(builtin()), untidy.clone());
        let trial = TrialId(away);
        edit(&mut session, TrialEdit::Bin { trial });
        edit(&mut session, TrialEdit::Restore { trial });
        assert_eq!(live(&session).len(), 4, "{away}");
        check(session.document()).expect("parents stand before their children");
    }
}

#[test]
fn new_trials_say_what_made_them_and_when_and_older_ones_keep_their_day() {
    let mut session = session();
    session.set_day(Some("2026-05-04".to_owned()));
    let first = grow(&mut session, TRIAL);
    session.set_day(Some("2026-06-01".to_owned()));
    let words = "best balance".to_owned();
    let proposed = Edit::GrowTrial {
        from: first,
        reason: String::new(),
        changes: Vec::new(),
        made_by: MadeBy::Proposal(words),
    };
    session.edit(&proposed).expect("it can grow");
    let trials = &spec(&session).trials;
    let days: Vec<&str> = trials.iter().map(|trial| trial.made_on.as_str()).collect();
    assert_eq!(days, ["", "2026-05-04", "2026-06-01"]);
    assert_eq!(trials[2].made_by.words(), "proposal: best balance");
    // A day that is none leaves it to the calendar of today.
    session.set_day(Some("soon".to_owned()));
    let (spec, ingredients) = equipour::session::blank_spec();
    let add = Edit::AddSpec {
        spec: Box::new(spec),
        ingredients,
    };
    session.edit(&add).expect("a second drink");
    let day = &session.trial().expect("it is shown").made_on;
    assert!(equipour::model::is_day(day), "{day}");
}

#[test]
fn a_drink_that_is_added_keeps_its_parents_in_the_bin_and_what_was_merged() {
    let (mut session, all) = of_trials(3);
    let merge = TrialEdit::Merge {
        from: all[2],
        other: all[0],
        pours: vec![(all[2], 0), (all[0], 1)],
        reason: String::new(),
    };
    edit(&mut session, merge);
    edit(&mut session, TrialEdit::Bin { trial: all[1] });
    let add = Edit::AddSpec {
        spec: Box::new(spec(&session).clone()),
        ingredients: Vec::new(),
    };
    session.edit(&add).expect("a second drink of that kind");
    let copy = session.document().specs.last().expect("it is there");
    let (trials, bin) = (&copy.trials, &copy.bin);
    assert_eq!(trials[1].parent, Some(bin[0].id));
    assert_eq!(bin[0].parent, Some(trials[0].id));
    assert_eq!(trials[2].made_by, MadeBy::Merge(trials[0].id));
    let fresh: BTreeSet<TrialId> = copy.trials_and_bin().map(|trial| trial.id).collect();
    assert!(fresh.is_disjoint(&all.iter().copied().collect()));
}
