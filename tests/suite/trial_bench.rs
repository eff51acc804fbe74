//! What was poured at the bench against what was planned, and the card that is printed for it.

use crate::history::{session, set_amount};
use crate::house_sample::{SYRUP, change, house, output};
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, any_pours, document, ml, point, sour};
use equipour::balance::{Pantry, Steps, steps_between};
use equipour::model::{
    Added, Amount, BenchRun, MadeBy, Senses, SpecId, Trial, TrialId, TrialState, Weights,
};
use equipour::session::{
    Edit, EditError, PouredDifference, Session, TrialEdit, as_planned, as_poured, bench_card,
    blank_spec, no_longer_matches, planned, poured_difference, poured_difference_text, trial_code,
};
use proptest::prelude::*;
use std::collections::BTreeSet;

fn shown(session: &Session) -> &Trial {
    session.trial().expect("a trial is shown")
}

/// A making in which one line came out otherwise; left out where it is `None`.
fn with(trial: &Trial, line: usize, poured: Option<f64>) -> BenchRun {
    let mut run = planned(trial, "2026-05-04");
    let planned = run.lines[line].planned.clone();
    run.lines[line].poured = poured.map(|value| planned.with_value(value));
    run
}

fn record(session: &mut Session, run: BenchRun) -> Result<(), EditError> {
    session.edit(&Edit::Trial(TrialEdit::Record { trial: TRIAL, run }))
}

fn grow_from(session: &mut Session, place: usize) -> Result<(), EditError> {
    session.edit(&Edit::Trial(TrialEdit::GrowFromRun {
        trial: TRIAL,
        place,
    }))
}

#[test]
fn a_making_as_planned_stands_for_the_trial_itself() {
    let session = session();
    let trial = shown(&session);
    let run = planned(trial, "");
    assert_eq!(as_poured(trial, &run).as_ref(), Some(trial));
    let mut pantry = Pantry::default();
    let found = poured_difference(session.document(), trial, &run, &mut pantry);
    let found = found.expect("both can be served");
    assert_eq!(found.distance, 0.0);
    assert_eq!(poured_difference_text(&found), "as planned");
}

#[test]
fn more_juice_than_planned_is_sourer_less_sweet_and_weaker_by_the_points_of_the_two_drinks() {
    let session = session();
    let trial = shown(&session);
    let run = with(trial, 1, Some(30.0));
    let mut pantry = Pantry::default();
    let found = poured_difference(session.document(), trial, &run, &mut pantry);
    let found = found.expect("both can be served");
    let mut more = sour();
    more[1].amount = Amount::Ml(30.0);
    let (poured, planned) = (point(&more, SHAKEN), point(&sour(), SHAKEN));
    let steps = steps_between(&poured, &planned, &Senses::default());
    assert_eq!(found.steps, steps);
    assert_eq!(found.distance, steps.distance(&Weights::default()));
    assert!(steps.sour > 0.5 && steps.sweet < 0.0 && steps.strength < 0.0);
}

#[test]
fn a_plan_that_moved_on_is_compared_with_what_was_planned_then() {
    let mut session = session();
    let run = with(shown(&session), 1, Some(30.0));
    record(&mut session, run.clone()).expect("it is kept");
    let mut pantry = Pantry::default();
    let told = |session: &Session, pantry: &mut Pantry| {
        poured_difference(session.document(), shown(session), &run, pantry)
    };
    let before = told(&session, &mut pantry);
    session
        .edit(&set_amount(1, 30.0))
        .expect("the plan moves on");
    assert_eq!(told(&session, &mut pantry), before);
    let then = as_planned(shown(&session), &run).expect("it matches");
    assert_eq!(then.pours[1].amount, Amount::Ml(22.5));
}

#[test]
fn differences_are_told_per_axis_and_in_all() {
    let text = |sweet, sour, strength| {
        let steps = Steps {
            sweet,
            sour,
            strength,
        };
        let distance = steps.distance(&Weights::default());
        poured_difference_text(&PouredDifference { steps, distance })
    };
    let one = "0.6 noticeable differences sourer than planned";
    assert_eq!(text(0.0, 0.6, 0.0), one);
    let single = "1.0 noticeable difference less sweet than planned";
    assert_eq!(text(-1.02, 0.04, -0.04), single);
    let both = "3.0 noticeable differences sweeter, 4.0 weaker than planned, 5.0 in all";
    assert_eq!(text(3.0, 0.0, -4.0), both);
}

#[test]
fn a_new_trial_as_poured_has_those_amounts_and_nothing_that_was_left_out() {
    let mut session = session();
    let tasted = Edit::SetState {
        trial: TRIAL,
        state: TrialState::Tasted,
    };
    session.edit(&tasted).expect("it was tasted");
    let mut run = with(shown(&session), 1, Some(25.0));
    run.lines[2].poured = None;
    run.note = "heavy hand".to_owned();
    record(&mut session, run).expect("it is kept");
    grow_from(&mut session, 0).expect("it can grow");
    let child = shown(&session);
    assert_eq!(child.state, TrialState::Draft);
    assert!(child.frozen.is_empty() && child.runs.is_empty());
    assert_eq!(
        (child.parent, &child.made_by),
        (Some(TRIAL), &MadeBy::Bench)
    );
    assert_eq!(child.reason, "heavy hand");
    let amounts: Vec<&Amount> = child.pours.iter().map(|pour| &pour.amount).collect();
    assert_eq!(amounts, [&Amount::Ml(60.0), &Amount::Ml(25.0)]);
}

#[test]
fn of_two_lines_of_one_thing_the_first_means_the_first_pour_wherever_they_moved() {
    let mut pours = sour();
    pours.push(ml("lime-juice", 5.0));
    pours[3].added = Added::After;
    let mut trial = Trial::new(TRIAL, "Trial 1", SHAKEN, pours);
    let run = with(&trial, 3, Some(7.0));
    let gin = trial.pours.remove(0);
    trial.pours.push(gin);
    let made = as_poured(&trial, &run).expect("the same things are poured");
    let values: Vec<Option<f64>> = made.pours.iter().map(|pour| pour.amount.value()).collect();
    assert_eq!(values, [Some(22.5), Some(22.5), Some(7.0), Some(60.0)]);
}

#[test]
fn a_trial_that_pours_other_things_by_now_says_so() {
    let mut session = session();
    let run = planned(shown(&session), "");
    record(&mut session, run.clone()).expect("it is kept");
    let swap = Edit::RemovePour {
        trial: TRIAL,
        pour: 1,
    };
    session.edit(&swap).expect("it can be taken out");
    let refused = grow_from(&mut session, 0).expect_err("it does not match");
    let why = "Trial 1 changed since it was made: it no longer pours lime juice";
    assert_eq!(refused.to_string(), why);
    assert_eq!(as_poured(shown(&session), &run), None);
    session.undo();
    let add = Edit::AddPour {
        trial: TRIAL,
        pour: ml("lime-juice", 1.0),
        ingredient: None,
    };
    session.edit(&add).expect("it can be added");
    let told = no_longer_matches(session.document(), shown(&session), &run);
    let why = "Trial 1 changed since it was made: it now pours lime juice, too";
    assert_eq!(told.as_deref(), Some(why));
    session.undo();
    grow_from(&mut session, 0).expect("now it matches");
    let gone = grow_from(&mut session, 7).expect_err("no such making");
    assert_eq!(gone.to_string(), "the making is no longer there");
}

#[test]
fn a_making_that_cannot_stand_is_refused_with_field_and_reason() {
    let mut session = session();
    let mut other = planned(shown(&session), "");
    other.lines[1].poured = Some(Amount::Grams(20.0));
    let mut negative = planned(shown(&session), "");
    negative.lines[0].poured = Some(Amount::Ml(-1.0));
    let undated = planned(shown(&session), "yesterday");
    let runs = "specs[0].trials[0].runs[0]";
    let refused = [
        (
            other,
            "lines[1].poured: is of another measure than what was planned".to_owned(),
        ),
        (negative, format!("{runs}.lines[0].poured: -1 is negative")),
        (
            undated,
            format!("{runs}.on: \"yesterday\" is no day such as 2026-05-04"),
        ),
    ];
    for (run, said) in refused {
        let error = record(&mut session, run).expect_err("it cannot stand");
        assert_eq!(error.to_string(), said);
    }
}

#[test]
fn makings_follow_the_new_name_of_what_was_poured() {
    let mut session = house();
    let run = planned(shown(&session), "");
    record(&mut session, run).expect("it is kept");
    change(&mut session, SYRUP, |made| {
        made.steps[0].to = vec!["sweet milk".to_owned()];
        let row = made.outputs.remove("syrup").expect("it is there");
        made.outputs.insert("sweet milk".to_owned(), row);
    })
    .expect("it can be renamed");
    let line = &shown(&session).runs[0].lines[2];
    assert_eq!(line.source, output(SYRUP, "sweet milk"));
    grow_from(&mut session, 0).expect("it still matches");
}

#[test]
fn no_two_trials_share_a_code_and_throwing_one_away_changes_none() {
    let mut doc = document(sour(), SHAKEN, None);
    let names = ["Sour", "Sour", "Sour 2", "2", "", "Süßer Otto 1", "ß"];
    doc.specs = (0_u32..)
        .zip(names)
        .map(|(place, name)| {
            let trials =
                (0..12).map(|one| Trial::new(TrialId(10 * 12 * place + one), "x", SHAKEN, sour()));
            let mut spec = equipour::model::Spec::new(SpecId(5_000 + place), name, Vec::new());
            spec.trials = trials.map(std::sync::Arc::new).collect();
            spec
        })
        .collect();
    let codes = |doc: &equipour::model::Document| -> Vec<String> {
        let all = doc
            .specs
            .iter()
            .flat_map(equipour::model::Spec::trials_and_bin);
        let mut ids: Vec<TrialId> = all.map(|trial| trial.id).collect();
        ids.sort();
        ids.iter().filter_map(|id| trial_code(doc, *id)).collect()
    };
    let before = codes(&doc);
    let different: BTreeSet<&String> = before.iter().collect();
    assert_eq!(different.len(), 12 * names.len());
    assert!(
        before.iter().all(|code| code.chars().count() <= 9),
        "{before:?}"
    );
    let away = doc.specs[2].trials.remove(3);
    doc.specs[2].bin.push(away);
    assert_eq!(codes(&doc), before);
}

/// The card of the only trial of a document.
fn card(document: &equipour::model::Document, on: &str) -> String {
    bench_card(document, TRIAL, on, &mut Pantry::default()).expect("the trial is there")
}

#[test]
fn the_card_names_every_pour_once_with_amount_weight_and_boxes() {
    let session = session();
    let text = card(session.document(), "2026-05-04");
    let code = trial_code(session.document(), TRIAL).expect("it is there");
    assert!(text.contains(&format!("Cup {code}\n")) && text.contains("Date 2026-05-04\n"));
    for (name, amount) in [
        ("gin", "60 ml"),
        ("lime juice", "22.5 ml"),
        ("syrup", "22.5 ml"),
    ] {
        let mut lines = text.lines().filter(|line| line.contains(name));
        let line = lines.next().expect("it is on the card");
        assert!(lines.next().is_none(), "{name} stands once");
        assert!(
            line.starts_with("[ ] ") && line.ends_with("______"),
            "{line}"
        );
        assert!(line.contains(amount) && line.contains(" g  "), "{line}");
    }
    // Gin of 40 % vol and more weighs 0.93 to 0.95 g/ml (OIML R 22).
    let gin = text.lines().find(|line| line.contains("gin")).expect("gin");
    let grams = gin.split_whitespace().rev().nth(2).expect("a weight");
    let grams: f64 = grams.parse().expect("a number");
    assert!((55.0..57.5).contains(&grams), "{grams}");
    for word in ["Technique", "Shaken", "Glass", "Ice", "Notes"] {
        assert!(text.contains(word), "{word}");
    }
    let blank = card(session.document(), "");
    assert!(blank.contains("Date ____"), "the day can be written in");
    let none = bench_card(session.document(), TrialId(99), "", &mut Pantry::default());
    assert_eq!(none, None);
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_line_of_a_card_is_wider_than_72_characters(
        pours in any_pours(),
        name in "\\PC{0,120}",
        words in any::<String>(),
    ) {
        let mut doc = document(pours, SHAKEN, None);
        name.clone_into(&mut doc.specs[0].name);
        let trial = std::sync::Arc::make_mut(&mut doc.specs[0].trials[0]);
        words.clone_into(&mut trial.name);
        trial.pours[0].amount = Amount::Words(words);
        doc.specs[0].glass.name = name;
        let text = card(&doc, "");
        let boxes = text.lines().filter(|line| line.starts_with("[ ] ")).count();
        prop_assert_eq!(boxes, doc.specs[0].trials[0].poured().count());
        for line in text.lines() {
            prop_assert!(line.chars().count() <= 72, "{line}");
        }
    }
}

#[test]
fn a_drink_without_pours_has_a_card_and_no_difference() {
    let (spec, _) = blank_spec();
    let mut doc = document(Vec::new(), SHAKEN, None);
    doc.specs[0].glass = spec.glass;
    assert_eq!(doc.specs[0].id, SPEC);
    assert!(!card(&doc, "").contains("[ ]"));
    let (_, trial) = doc.trial(TRIAL).expect("it is there");
    let found = poured_difference(&doc, trial, &planned(trial, ""), &mut Pantry::default());
    assert_eq!(found, None);
}
