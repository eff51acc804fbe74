//! Rules on words, days, times and what a person has to look at.

use crate::rules_kit::{entry, found, one, rules, spec, trial, with_handed};
use crate::sample_drinks::{SHAKEN, document, sour};
use equipour::model::{
    Document, Practice, Rehearsal, Required, RuleKind, StageStep, Tick, TrialState,
};
use equipour::service::{
    Act, Field, Finding, Handed, RuleVerdict, check_rules, findings_summary, rule_title,
};
use std::sync::Arc;

fn drink() -> Document {
    document(sour(), SHAKEN, None)
}

fn is(found: &Finding, verdict: RuleVerdict) {
    assert_eq!(found.verdict, verdict, "{found:?}");
}

fn story(least: u32, most: u32) -> RuleKind {
    RuleKind::StoryWords { least, most }
}

#[test]
fn a_story_is_counted_in_words_whatever_their_script() {
    let mut document = drink();
    for (text, words) in [
        ("", 0),
        ("  \n ", 0),
        ("It's a well-made drink.", 4),
        ("Kümmel – crème de cassis", 4),
        ("напиток за морем", 3),
        ("3 parts, 2 parts/1 part", 6),
        ("one—two", 2),
        ("***", 0),
    ] {
        text.clone_into(&mut entry(&mut document).story);
        is(&one(&document, story(words, words)), RuleVerdict::Kept);
        is(&one(&document, story(words + 1, 900)), RuleVerdict::Broken);
    }
}

#[test]
fn a_story_that_is_far_too_long_says_how_much_to_leave_out() {
    let mut document = drink();
    entry(&mut document).story = "word ".repeat(10_000);
    let found = one(&document, story(0, 300));
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.remedy, "Leave out 9700 words.");
    assert_eq!(found.act, Some(Act::Go(Field::Story)));
}

#[test]
fn a_banned_word_in_the_name_is_found_whole_and_in_any_case() {
    let mut document = drink();
    let rule = || RuleKind::NameWords {
        banned: vec!["drunk".to_owned(), "last call".to_owned()],
    };
    for (name, verdict) in [
        ("Drunkard's Walk", RuleVerdict::Asked),
        ("The DRUNK sailor", RuleVerdict::Broken),
        ("Last  Call, please", RuleVerdict::Broken),
        ("Last recall", RuleVerdict::Asked),
        ("", RuleVerdict::Unknown),
    ] {
        name.clone_into(&mut spec(&mut document).name);
        is(&one(&document, rule()), verdict);
    }
}

#[test]
fn a_tick_counts_only_while_the_rule_reads_as_it_did() {
    let mut document = drink();
    let asks = RuleKind::Asked {
        words: "The garnish can be eaten".to_owned(),
    };
    is(&one(&document, asks.clone()), RuleVerdict::Asked);
    let tick = Tick {
        by: "Ada".to_owned(),
        on: "2026-11-20".to_owned(),
        rule: rule_title(&asks),
        reason: None,
    };
    entry(&mut document).ticked.insert("r0".to_owned(), tick);
    let found = one(&document, asks);
    is(&found, RuleVerdict::Kept);
    assert_eq!(found.ticked.map(|tick| tick.by), Some("Ada".to_owned()));
    let other = RuleKind::Asked {
        words: "The garnish can be eaten whole".to_owned(),
    };
    let found = one(&document, other);
    is(&found, RuleVerdict::Asked);
    assert!(found.ticked.is_none());
}

#[test]
fn no_practice_passes_in_silence() {
    // What the recipe cannot show is asked, what is ruled out by labels is kept.
    let document = drink();
    for practice in Practice::ALL {
        let found = one(&document, RuleKind::Banned { practice });
        let shown_by_labels = matches!(practice, Practice::RawEgg | Practice::Dairy);
        let expected = if shown_by_labels {
            RuleVerdict::Kept
        } else {
            RuleVerdict::Asked
        };
        assert_eq!(found.verdict, expected, "{practice:?}: {found:?}");
    }
}

#[test]
fn what_must_be_stated_is_named_where_it_is_missing() {
    let mut document = drink();
    let rule = || RuleKind::Stated {
        required: Required::ALL.to_vec(),
    };
    spec(&mut document).glass.name.clear();
    let missing = one(&document, rule());
    is(&missing, RuleVerdict::Broken);
    assert_eq!(missing.remedy, "State: glass, garnish, story, maker.");
    spec(&mut document).glass.name = "coupe".to_owned();
    let stated = entry(&mut document);
    stated.garnish = "lime wheel".to_owned();
    stated.story = "Once upon a bar.".to_owned();
    stated.maker = "Ada".to_owned();
    is(&one(&document, rule()), RuleVerdict::Kept);
}

#[test]
fn days_are_counted_to_the_last_one_and_beyond() {
    let mut document = drink();
    "2027-01-10".clone_into(&mut trial(&mut document).made_on);
    let rule = |on: &str, locked_days| RuleKind::Deadline {
        on: on.to_owned(),
        locked_days,
    };
    let at = |today: Option<&str>, asks| {
        with_handed(&document, |handed| {
            let handed = Handed { today, ..*handed };
            check_rules(&handed, &rules([asks])).remove(0)
        })
    };
    // 28 days of February in 2027, 29 in 2028.
    for (today, said) in [
        ("2027-02-27", "2 days left."),
        ("2028-02-27", "Over by 363 days."),
        ("2027-03-01", "Today is the last day."),
        ("2027-03-02", "Over by 1 day."),
    ] {
        assert_eq!(at(Some(today), rule("2027-03-01", 0)).reason, said);
    }
    is(
        &at(Some("2027-03-01"), rule("2027-03-01", 0)),
        RuleVerdict::Kept,
    );
    is(
        &at(Some("2027-03-02"), rule("2027-03-01", 0)),
        RuleVerdict::Broken,
    );
    is(&at(None, rule("2027-03-01", 0)), RuleVerdict::Unknown);
    assert_eq!(
        at(Some("2027-02-20"), rule("2027-03-01", 14)).reason,
        "9 days left; the recipe has been locked for 5 days."
    );
    assert_eq!(
        at(Some("2027-02-01"), rule("2027-03-01", 14)).reason,
        "28 days left, 14 days until the recipe is locked."
    );
}

#[test]
fn a_trial_made_after_the_lock_is_another_recipe() {
    let mut document = drink();
    let rule = || RuleKind::Deadline {
        on: "2027-03-15".to_owned(),
        locked_days: 14,
    };
    for (made, verdict) in [
        ("2027-02-28", RuleVerdict::Kept),
        // It is locked from that day on.
        ("2027-03-01", RuleVerdict::Broken),
        ("2027-03-02", RuleVerdict::Broken),
        // Today nothing is locked yet, so whatever is there was made in time.
        ("", RuleVerdict::Kept),
    ] {
        made.clone_into(&mut trial(&mut document).made_on);
        is(&one(&document, rule()), verdict);
    }
    trial(&mut document).state = TrialState::Submitted;
    is(&one(&document, rule()), RuleVerdict::Kept);
    let locked = with_handed(&document, |handed| {
        let handed = Handed {
            today: Some("2027-03-01"),
            ..*handed
        };
        check_rules(&handed, &rules([rule()])).remove(0)
    });
    is(&locked, RuleVerdict::Unknown);
}

#[test]
fn a_step_or_a_rehearsal_of_no_time_proves_nothing() {
    let mut document = drink();
    let rule = |set_up| RuleKind::StageTime {
        minutes: 5.0,
        set_up,
    };
    let run = |seconds, serves| Rehearsal {
        seconds,
        serves,
        ..Rehearsal::default()
    };
    let step = |seconds| StageStep {
        does: "everything".to_owned(),
        seconds,
        says: String::new(),
    };
    for (steps, rehearsals, verdict) in [
        (vec![step(0.0)], vec![], RuleVerdict::Unknown),
        (vec![step(60.0), step(0.0)], vec![], RuleVerdict::Unknown),
        (vec![step(301.0), step(0.0)], vec![], RuleVerdict::Broken),
        (vec![], vec![run(0.0, 1)], RuleVerdict::Unknown),
        (vec![], vec![run(200.0, 0)], RuleVerdict::Unknown),
        (vec![step(0.0)], vec![run(200.0, 1)], RuleVerdict::Kept),
        // The last one counts, and an untimed one is none.
        (
            vec![],
            vec![run(400.0, 1), run(0.0, 1)],
            RuleVerdict::Broken,
        ),
        (vec![step(60.0)], vec![], RuleVerdict::Kept),
    ] {
        let stage = Arc::make_mut(&mut spec(&mut document).stage);
        (stage.steps, stage.rehearsals) = (steps, rehearsals);
        is(&one(&document, rule(0.0)), verdict);
    }
    // Whether the time to set up is enough, no step and no rehearsal says.
    is(&one(&document, rule(2.0)), RuleVerdict::Asked);
}

#[test]
fn time_on_the_stage_is_read_from_steps_and_full_rehearsals() {
    let mut document = drink();
    let rule = || RuleKind::StageTime {
        minutes: 5.0,
        set_up: 0.0,
    };
    // The same figure as the stage shows, and that it is a plan.
    let planned = one(&document, rule());
    is(&planned, RuleVerdict::Unknown);
    assert!(
        planned.reason.contains("of 5:00 min allowed"),
        "{planned:?}"
    );
    assert!(planned.reason.contains("not rehearsed"), "{planned:?}");
    let own = spec(&mut document).clone();
    let run = equipour::service::run_sheet(&document, &own, &own.trials[0], None, Some(5.0));
    let seconds = run.total_seconds.round() as u64;
    let clock = format!("Planned {}:{:02} min", seconds / 60, seconds % 60);
    assert!(planned.reason.contains(&clock), "{planned:?} {clock}");
    let stage = Arc::make_mut(&mut spec(&mut document).stage);
    stage.serves = 3;
    let run = |seconds, serves| Rehearsal {
        seconds,
        serves,
        ..Rehearsal::default()
    };
    stage.rehearsals = vec![run(100.0, 1)];
    is(&one(&document, rule()), RuleVerdict::Unknown);
    let stage = Arc::make_mut(&mut spec(&mut document).stage);
    stage.rehearsals = vec![run(280.0, 3), run(300.0, 3), run(900.0, 1)];
    is(&one(&document, rule()), RuleVerdict::Kept);
    let stage = Arc::make_mut(&mut spec(&mut document).stage);
    stage.steps = vec![StageStep {
        does: "everything".to_owned(),
        seconds: 301.0,
        says: String::new(),
    }];
    let found = one(&document, rule());
    is(&found, RuleVerdict::Broken);
    assert!(found.remedy.contains("0:01 min"), "{found:?}");
}

#[test]
fn the_number_of_drinks_is_set_with_one_press() {
    let mut document = drink();
    let rule = || RuleKind::Serves { count: 3 };
    is(&one(&document, rule()), RuleVerdict::Kept);
    Arc::make_mut(&mut spec(&mut document).stage).serves = 2;
    let found = one(&document, rule());
    is(&found, RuleVerdict::Broken);
    assert_eq!(found.act, Some(Act::Serves(3)));
}

#[test]
fn a_switched_off_rule_is_not_looked_at_and_the_rest_is_summed_up() {
    let document = drink();
    let mut set = rules([
        RuleKind::Serves { count: 2 },
        story(1, 300),
        RuleKind::Banned {
            practice: Practice::Smoke,
        },
        RuleKind::StageTime {
            minutes: 5.0,
            set_up: 0.0,
        },
    ]);
    let all = found(&document, &set);
    assert_eq!(
        findings_summary(&all),
        "1 kept, 1 broken, 1 to look at, 1 not known"
    );
    for rule in &mut set.rules {
        rule.off = true;
    }
    assert!(found(&document, &set).is_empty());
    assert_eq!(findings_summary(&[]), "no rules");
}
