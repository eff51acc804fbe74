//! Run sheets, rehearsals and labels.

use crate::service_kit::{after, batched, ml, near, pour, serving, with_drink};
use crate::service_plan_kit::{chains, planned, service, timed};
use equipour::model::{Amount, Bottling, Entry, Method, Rehearsal, ServicePlan, Stage, StageStep};
use equipour::service::{labels, run_sheet};
use equipour::session::rehearsal_lines;
use std::sync::Arc;

fn stage(
    found: &mut (
        equipour::model::Document,
        equipour::model::Spec,
        equipour::model::Trial,
    ),
    stage: Stage,
) {
    found.1.stage = Arc::new(stage);
}

#[test]
fn the_steps_follow_from_the_method_for_every_drink() {
    let mut found = with_drink(vec![
        ml("gin", 50.0),
        pour("sugar", Amount::Grams(5.0)),
        after(ml("water", 30.0)),
    ]);
    found.1.entry = Arc::new(Entry {
        garnish: "lemon twist".to_owned(),
        ..Entry::default()
    });
    found.2.technique.method = Method::Shaken;
    let sheet = run_sheet(&found.0, &found.1, &found.2, Some(4), Some(5.0));
    assert_eq!(sheet.serves, 4);
    let does: Vec<&str> = sheet.steps.iter().map(|step| step.does.as_str()).collect();
    let order = [
        "Chill",
        "Measure gin",
        "Measure granulated",
        "Add ice",
        "Shake",
        "Strain",
        "Top with water",
        "Garnish: lemon twist",
        "Serve",
    ];
    assert_eq!(does.len(), order.len(), "{does:?}");
    for (does, begin) in does.iter().zip(order) {
        assert!(does.starts_with(begin), "{does} {begin}");
    }
    // Two tins of two drinks each: 24 s of shaking.
    assert_eq!(sheet.steps[4].seconds, 24.0);
    let sum: f64 = sheet.steps.iter().map(|step| step.seconds).sum();
    assert!(near(sheet.total_seconds, sum));
    assert!(near(
        sheet.over_seconds.expect("there is a limit"),
        sum - 300.0
    ));
    assert!(near(
        sheet.steps[8].at_seconds + sheet.steps[8].seconds,
        sum
    ));
    for tool in ["Jigger", "Shaker", "Strainer", "Scale", "Peeler"] {
        assert!(
            sheet.tools.iter().any(|own| own == tool),
            "{tool}: {:?}",
            sheet.tools
        );
    }
    assert!(sheet.spares.iter().any(|spare| spare == "bottle: water"));
}

#[test]
fn written_steps_stand_as_they_are() {
    let mut found = with_drink(vec![ml("gin", 50.0)]);
    let steps = vec![
        StageStep {
            does: "Greet".to_owned(),
            seconds: 20.0,
            says: "Good evening".to_owned(),
        },
        StageStep {
            does: "Pour".to_owned(),
            seconds: 40.0,
            says: String::new(),
        },
    ];
    stage(
        &mut found,
        Stage {
            serves: 3,
            steps,
            tools: vec!["jigger".to_owned(), "Torch".to_owned()],
            ..Stage::default()
        },
    );
    let sheet = run_sheet(&found.0, &found.1, &found.2, Some(4), None);
    assert!(!sheet.worked_out && sheet.serves == 3);
    assert_eq!(
        (sheet.steps[1].at_seconds, sheet.total_seconds),
        (20.0, 60.0)
    );
    assert_eq!(sheet.steps[0].says, "Good evening");
    assert!(sheet.tools.iter().any(|tool| tool == "Torch"));
    let jiggers = sheet
        .tools
        .iter()
        .filter(|tool| tool.to_lowercase() == "jigger")
        .count();
    assert_eq!(jiggers, 1);
}

#[test]
fn rehearsals_have_a_best_a_middle_and_a_trend() {
    let mut found = with_drink(vec![ml("gin", 50.0)]);
    let held = |seconds: f64, serves: u32, spilled_ml: f64| Rehearsal {
        seconds,
        serves,
        spilled_ml,
        ..Rehearsal::default()
    };
    let rehearsals = vec![
        held(400.0, 2, 10.0),
        held(360.0, 2, 0.0),
        held(90.0, 1, 0.0),
        held(350.0, 2, 4.0),
        // Neither a time nor drinks of nothing count.
        held(0.0, 2, 90.0),
        held(30.0, 0, 90.0),
        held(290.0, 2, 2.0),
    ];
    stage(
        &mut found,
        Stage {
            serves: 2,
            rehearsals,
            ..Stage::default()
        },
    );
    let sheet = run_sheet(&found.0, &found.1, &found.2, None, Some(5.5));
    let went = sheet.rehearsed.expect("some were held");
    assert_eq!((went.count, went.of_other_serves), (4, 1));
    assert_eq!(
        (went.best_seconds, went.median_seconds, went.last_seconds),
        (290.0, 355.0, 290.0)
    );
    // Line through 400, 360, 350, 290: Σ(x − x̄)(y − ȳ) = −170, Σ(x − x̄)² = 5.
    assert!(near(went.trend_seconds.expect("four were held"), -34.0));
    assert!(near(went.spilled_ml, 4.0));
    assert!(near(
        went.median_over_seconds.expect("there is a limit"),
        25.0
    ));
    assert_eq!(went.over_the_time, 3);
}

#[test]
fn one_rehearsal_is_told_without_a_best_and_a_middle() {
    let told = |count: usize| {
        let mut found = with_drink(vec![ml("gin", 50.0)]);
        let held = Rehearsal {
            on: "2026-05-04".to_owned(),
            seconds: 250.0,
            serves: 1,
            spilled_ml: 5.0,
            note: String::new(),
        };
        let rehearsals = vec![held; count];
        stage(
            &mut found,
            Stage {
                rehearsals,
                ..Stage::default()
            },
        );
        rehearsal_lines(&run_sheet(&found.0, &found.1, &found.2, None, Some(4.0)))
    };
    assert!(told(0).is_empty());
    let one = [
        "One rehearsal: 4:10.",
        "It is 0:10 over the time.",
        "Spilled or left over: 5 ml.",
    ];
    assert_eq!(told(1), one);
    assert_eq!(
        told(2)[0],
        "2 rehearsals: best 4:10, middle 4:10, last 4:10."
    );
}

#[test]
fn every_preparation_and_every_bottle_has_a_label() {
    let mut found = chains(&[vec![timed("", "", 10.0, (0.0, 0.0))]]);
    found.2.pours.push(ml("gin", 60.0));
    found.2.pours.push(ml("milk", 10.0));
    found.2.pours.push(ml("vinegar", 5.0));
    found.1.entry = Arc::new(Entry {
        maker: "A. Maker".to_owned(),
        ..Entry::default()
    });
    let plan = ServicePlan {
        bottling: Bottling {
            on: true,
            bottle_ml: 500.0,
            ..Bottling::default()
        },
        ..serving(20)
    };
    let batch = batched(&found, &plan);
    let schedule = planned(
        &found,
        &ServicePlan {
            bottling: plan.bottling,
            ..service(1, None)
        },
        None,
    )
    .expect("planned");
    let all = labels(
        &found.0,
        &found.1,
        &batch,
        (&plan, Some(&schedule)),
        "2026-05-01",
    )
    .expect("labels");
    let text = |place: usize| {
        let lines: Vec<&str> = all[place]
            .lines
            .iter()
            .map(|line| line.text.as_str())
            .collect();
        lines.join("\n")
    };
    assert!(text(0).starts_with("a\n200 g"), "{}", text(0));
    // The day of the plan, not the one given.
    assert!(text(0).contains("Made on 2026-05-20"), "{}", text(0));
    let bottle = text(1);
    for words in [
        "Contains alcohol: ",
        "May contain sulphites",
        "Add to each drink: whole milk, 10 ml",
        "Made by A. Maker",
        "Keep at 4.0 °C.",
    ] {
        assert!(bottle.contains(words), "{words}: {bottle}");
    }
    let count: u32 = all[1..].iter().map(|label| label.count).sum();
    assert_eq!(count, batch.bottled.expect("it is bottled").bottles);
    assert!(
        all.iter()
            .flat_map(|label| &label.lines)
            .all(|line| line.size_mm >= 2.0)
    );
}

#[test]
fn a_hidden_maker_is_on_no_label() {
    let mut found = chains(&[vec![timed("", "", 10.0, (0.0, 0.0))]]);
    found.1.entry = Arc::new(Entry {
        maker: "A. Maker".to_owned(),
        hide_maker: true,
        ..Entry::default()
    });
    let plan = serving(5);
    let batch = batched(&found, &plan);
    let all = labels(&found.0, &found.1, &batch, (&plan, None), "2026-05-01").expect("labels");
    assert_eq!(all.len(), 1);
    let lines = all[0].lines.iter();
    assert!(
        lines
            .clone()
            .any(|line| line.text.contains("Made on 2026-05-01"))
    );
    assert!(lines.clone().all(|line| !line.text.contains("Maker")));
    assert!(labels(&found.0, &found.1, &batch, (&plan, None), "in May").is_err());
}

#[test]
fn a_rim_is_made_before_anything_is_poured_and_the_rest_laid_on_last() {
    let mut found = with_drink(vec![ml("gin", 50.0)]);
    found.2.technique.method = Method::Shaken;
    let mut does = |garnish: &str| -> Vec<String> {
        found.1.entry = Arc::new(Entry {
            garnish: garnish.to_owned(),
            ..Entry::default()
        });
        let sheet = run_sheet(&found.0, &found.1, &found.2, None, None);
        sheet.steps.into_iter().map(|step| step.does).collect()
    };
    let both = does("salt rim, lime wheel");
    assert!(both[0].starts_with("Rim the") && both[0].ends_with("salt rim"));
    assert_eq!(both[both.len() - 2], "Garnish: lime wheel");
    let rim = does("Half rim of salt");
    assert!(!rim.iter().any(|words| words.starts_with("Garnish")));
    let laid = does("crisp on the rim");
    assert!(!laid.iter().any(|words| words.starts_with("Rim")));
}
