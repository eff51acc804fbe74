//! Schedules backwards from the service.

use crate::service_kit::batched;
use crate::service_plan_kit::{
    begin_of, best_of_all_orders, chains, infusion, lawful, planned, service, timed, with,
};
use equipour::kitchen::keeping;
use equipour::model::{Process, SpecId, Step};
use equipour::service::{Because, Clash, Job, JobOf, PlanError, PrepPlan, labels, shopping};
use equipour::store::{DEMO, read_text};
use proptest::prelude::*;
use std::sync::Arc;

fn plan_of(steps: &[Vec<Step>], hands: u32, hours: Option<(&str, &str)>) -> PrepPlan {
    let of = service(hands, hours);
    let plan = planned(&chains(steps), &of, None).expect("it can be planned");
    lawful(&plan, &of);
    plan
}

fn at(plan: &PrepPlan, group: &str, step: usize) -> String {
    let job = plan.jobs.iter().find(|job| {
        job.group == group && matches!(&job.of, JobOf::Step { step: own, .. } if *own == step)
    });
    job.unwrap_or_else(|| panic!("{group} {step}: {plan:#?}"))
        .start
        .to_string()
}

#[test]
fn a_chain_ends_when_the_service_begins() {
    // 20 min of work, a night of 600 min, 30 min of work; service at 19:00.
    let plan = plan_of(
        &[vec![
            timed("", "", 20.0, (400.0, 600.0)),
            timed("", "", 30.0, (0.0, 0.0)),
        ]],
        1,
        None,
    );
    assert_eq!(at(&plan, "a", 1), "2026-05-20T18:30:00");
    assert_eq!(at(&plan, "a", 0), "2026-05-20T08:10:00");
    assert_eq!((plan.hands_on_min, plan.proved), (50, true));
    assert_eq!(plan.critical, [0, 1]);
    assert_eq!(plan.jobs[0].because, Because::Next(1));
    assert_eq!(plan.jobs[1].because, Because::Service);
}

#[test]
fn one_pair_of_hands_takes_one_thing_after_the_other_and_two_take_both() {
    let work = || vec![timed("", "", 60.0, (0.0, 0.0))];
    // Mixing two lines takes 7 min.
    let one = plan_of(&[work(), work()], 1, None);
    assert_eq!(begin_of(&one), 19 * 60 - 7 - 120);
    let two = plan_of(&[work(), work()], 2, None);
    assert_eq!(begin_of(&two), 19 * 60 - 7 - 60);
    assert!(one.proved && two.proved);
}

#[test]
fn work_lies_within_the_hours_and_waits_go_on_over_night() {
    let steps = vec![
        timed("", "", 60.0, (720.0, 720.0)),
        timed("", "", 120.0, (0.0, 0.0)),
    ];
    let plan = plan_of(&[steps], 1, Some(("10:00", "18:00")));
    assert_eq!(at(&plan, "a", 1), "2026-05-20T16:00:00");
    // 12 h before 16:00 nobody works: it is begun at the end of the day before.
    assert_eq!(at(&plan, "a", 0), "2026-05-19T17:00:00");
    assert_eq!(plan.jobs[0].because, Because::Hours(Some(1)));
}

#[test]
fn equipment_is_taken_while_a_step_works_and_waits() {
    let dry = || vec![with("dehydrator", timed("", "", 10.0, (300.0, 300.0)))];
    let of = service(2, None);
    let found = chains(&[dry(), dry()]);
    let one = planned(&found, &of, None).expect("it can be planned");
    lawful(&one, &of);
    assert_eq!(begin_of(&one), 19 * 60 - 7 - 620);
    assert!(matches!(&one.jobs[0].because, Because::Equipment(name, 1) if name == "dehydrator"));
    let mut both = of.clone();
    both.equipment.insert("Dehydrator".to_owned(), 2);
    let plan = planned(&found, &both, None).expect("it can be planned");
    assert_eq!(begin_of(&plan), 19 * 60 - 7 - 310);
}

#[test]
fn what_must_not_wait_longer_goes_on_when_its_longest_wait_is_over() {
    // An infusion of 8 to 16 h, then 60 min of work; open from 10 to 18.
    let steps = vec![
        infusion(30.0, (480.0, 960.0)),
        timed("", "", 60.0, (0.0, 0.0)),
    ];
    let plan = plan_of(&[steps], 1, Some(("10:00", "18:00")));
    // From 17:00 back the longest wait would begin at night, and the evening before lies 23 h back: the
    // wait is the longest that lets both lie within hours.
    let infused = plan
        .jobs
        .iter()
        .find(|job| job.wait_min > 0)
        .expect("it waits");
    assert!((480..=960).contains(&infused.wait_min), "{plan:#?}");
    let next = plan
        .jobs
        .iter()
        .find(|job| job.needs.contains(&0))
        .expect("it goes on");
    assert_eq!(next.start, infused.end);
}

#[test]
fn bottles_are_mixed_filled_and_chilled_before_the_service() {
    let mut of = service(1, None);
    of.bottling.on = true;
    let found = chains(&[vec![timed("", "", 10.0, (0.0, 0.0))]]);
    let plan = planned(&found, &of, None).expect("it can be planned");
    lawful(&plan, &of);
    let last: Vec<&JobOf> = plan.jobs.iter().rev().take(3).map(|job| &job.of).collect();
    assert_eq!(last, [&JobOf::Chill, &JobOf::Bottle, &JobOf::Mix]);
    // Four hours in the fridge.
    assert_eq!(plan.jobs[3].start.to_string(), "2026-05-20T15:00:00");
}

/// A chain of up to three steps: work, wait and equipment of each.
fn some_chain() -> impl Strategy<Value = Vec<Step>> {
    let step = (0_u32..4, 0_u32..5, 0_u32..4).prop_map(|(work, wait, tool)| {
        let wait = f64::from(wait) * 50.0;
        let step = timed("", "", f64::from(work) * 30.0, (wait, wait));
        match tool {
            0 => with("oven", step),
            1 => with("blender", step),
            _ => step,
        }
    });
    prop::collection::vec(step, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_plan_keeps_all_laws(
        steps in prop::collection::vec(some_chain(), 1..5),
        hands in 1_u32..4,
        open in 6_u32..11,
        length in 8_u32..14,
        ovens in 1_u32..3,
    ) {
        let hours = (format!("{open:02}:00"), format!("{:02}:00", (open + length).min(23)));
        let mut of = service(hands, Some((&hours.0, &hours.1)));
        of.equipment.insert("oven".to_owned(), ovens);
        let plan = planned(&chains(&steps), &of, None).expect("it can be planned");
        lawful(&plan, &of);
        let work: f64 = steps.iter().flatten().map(|step| step.hands_on_min).sum();
        let mixing = plan.jobs.iter().filter(|job| job.of == JobOf::Mix);
        let mixing: i64 = mixing.map(|job| job.hands_on_min).sum();
        prop_assert_eq!(plan.hands_on_min, work as i64 + mixing);
    }

    #[test]
    fn a_small_plan_begins_as_late_as_the_best_of_all_orders(
        steps in prop::collection::vec(some_chain(), 1..4),
        hands in 1_u32..3,
        is_open in any::<bool>(),
    ) {
        let count: usize = steps.iter().map(Vec::len).sum();
        prop_assume!(count <= 6);
        let of = service(hands, is_open.then_some(("09:00", "18:00")));
        let plan = planned(&chains(&steps), &of, None).expect("it can be planned");
        prop_assert!(plan.proved, "{plan:#?}");
        prop_assert_eq!(begin_of(&plan), best_of_all_orders(&plan, &of, 1));
    }

    #[test]
    fn a_later_service_never_begins_earlier_and_a_day_later_all_is_a_day_later(
        steps in prop::collection::vec(some_chain(), 1..4),
        later in 0_u32..240,
    ) {
        let found = chains(&steps);
        let mut of = service(1, Some(("08:00", "22:00")));
        let first = planned(&found, &of, None).expect("it can be planned");
        prop_assume!(first.proved);
        of.at = format!("{:02}:{:02}", 19 + later / 60, later % 60);
        let moved = planned(&found, &of, None).expect("it can be planned");
        prop_assume!(moved.proved);
        prop_assert!(moved.begins >= first.begins, "{first:#?} {moved:#?}");
        of.on = "2026-05-21".to_owned();
        let next = planned(&found, &of, None).expect("it can be planned");
        prop_assert_eq!(next.begins.duration_since(moved.begins).as_mins(), 24 * 60);
    }

    #[test]
    fn nothing_is_past_its_life_when_it_is_used(
        made in prop::collection::vec((some_chain(), 1_u32..4), 1..5),
        hands in 1_u32..3,
        closes in 12_u32..19,
    ) {
        let steps: Vec<Vec<Step>> = made.iter().map(|(steps, _)| steps.clone()).collect();
        let mut found = chains(&steps);
        for ((id, preparation), (_, days)) in
            Arc::make_mut(&mut found.0.preparations).iter_mut().zip(&made)
        {
            let own = &mut Arc::make_mut(preparation).keeps_days;
            own.insert(id.0.clone(), f64::from(*days));
        }
        let of = service(hands, Some(("08:00", &format!("{closes}:00"))));
        let plan = match planned(&found, &of, None) {
            Ok(plan) => plan,
            // What keeps for a day only may have no place on it.
            Err(PlanError::Clash(clash)) if matches!(*clash, Clash::Life { .. }) => return Ok(()),
            Err(other) => panic!("{other}"),
        };
        lawful(&plan, &of);
        for (id, preparation) in found.0.preparations.iter() {
            let last = preparation.steps.len() - 1;
            let makes = |job: &&Job| {
                matches!(&job.of, JobOf::Step { preparation, step } if preparation == id && *step == last)
            };
            let place = plan.jobs.iter().position(|job| makes(&job)).expect("a step makes it");
            let there = plan.jobs[place].end;
            // A mix of spirit and sugar keeps by itself: what goes in has to last until then.
            let used = plan.jobs.iter().find(|job| job.needs.contains(&place));
            let used = used.map_or(plan.service, |job| job.start).date().to_string();
            let kept = keeping(&found.0, id).expect("it keeps");
            let until = kept[&id.0].best_before(&there.date().to_string());
            prop_assert!(until.expect("its maker says") >= used, "{id} by {used}: {plan:#?}");
        }
    }

    #[test]
    fn infusions_wait_between_their_shortest_and_their_longest_and_then_go_on(
        chains_of in prop::collection::vec((0_u32..3, 0_u32..6, 0_u32..10, some_chain()), 1..4),
        hands in 1_u32..3,
        is_open in any::<bool>(),
    ) {
        let steps: Vec<Vec<Step>> = chains_of
            .iter()
            .map(|(work, least, more, rest)| {
                let least = f64::from(1 + least) * 60.0;
                let wait = (least, least + f64::from(*more) * 60.0);
                let mut steps = vec![infusion(f64::from(*work) * 20.0, wait)];
                steps.extend(rest.iter().cloned());
                steps
            })
            .collect();
        let of = service(hands, is_open.then_some(("09:00", "20:00")));
        let found = chains(&steps);
        let plan = match planned(&found, &of, None) {
            Ok(plan) => plan,
            // Eleven hours of a day and thirteen between two: some waits fit neither.
            Err(PlanError::Clash(clash)) if is_open && matches!(*clash, Clash::Wait { .. }) => {
                return Ok(());
            }
            Err(other) => panic!("{other}"),
        };
        lawful(&plan, &of);
        for (place, job) in plan.jobs.iter().enumerate() {
            let JobOf::Step { preparation, step } = &job.of else { continue };
            let step = &found.0.preparations[preparation].steps[*step];
            prop_assert!(job.wait_min <= step.wait.most_min as i64);
            if matches!(step.does, Process::Infuse { .. }) {
                prop_assert!(job.wait_min >= step.wait.least_min as i64);
                let next = plan.jobs.iter().find(|next| next.needs.contains(&place));
                prop_assert_eq!(next.expect("something follows").start, job.end);
            } else {
                prop_assert_eq!(job.wait_min, step.wait.most_min as i64);
            }
        }
    }
}

#[test]
fn the_demo_s_house_made_drink_can_be_planned_and_all_lists_be_written() {
    let demo = read_text(DEMO).expect("the demo is sound").document;
    let spec = demo.spec(SpecId(12)).expect("the house-made drink").clone();
    let trial = spec.latest().expect("it has a trial").as_ref().clone();
    let mut of = service(2, Some(("09:00", "23:00")));
    of.bottling.on = true;
    let found = (demo, spec, trial);
    let batch = batched(&found, &of);
    assert!(!batch.needs.preparations.is_empty());
    let plan = planned(&found, &of, None).expect("it can be planned");
    lawful(&plan, &of);
    let steps: usize = batch
        .needs
        .preparations
        .iter()
        .map(|made| found.0.preparations[&made.id].steps.len())
        .sum();
    let of_steps = plan
        .jobs
        .iter()
        .filter(|job| matches!(job.of, JobOf::Step { .. }));
    assert_eq!(of_steps.count(), steps);
    for made in &batch.needs.preparations {
        let kept = keeping(&found.0, &made.id).expect("it keeps");
        for output in made.outputs.iter().filter(|output| output.needed_g > 0.0) {
            let makes = |job: &&Job| {
                let JobOf::Step { preparation, step } = &job.of else {
                    return false;
                };
                let steps = &found.0.preparations[preparation].steps;
                *preparation == made.id && steps[*step].to.contains(&output.output)
            };
            let job = plan.jobs.iter().find(makes).expect("a step makes it");
            // Days of ISO 8601 compare like the days they name.
            let until = kept[&output.output].best_before(&job.end.date().to_string());
            assert!(
                until.is_none_or(|until| of.on <= until),
                "{}",
                output.output
            );
        }
    }
    let list = shopping(&found.0, &batch, &of);
    assert!(
        list.lines
            .iter()
            .all(|line| line.grams > 0.0 && !line.name.is_empty())
    );
    let all = labels(&found.0, &found.1, &batch, (&of, Some(&plan)), "2026-05-20");
    assert!(all.expect("labels").len() >= batch.needs.preparations.len());
}
