//! Plans of very many jobs, and jobs that have no place.

use crate::service_kit::batched;
use crate::service_plan_kit::{chains, infusion, lawful, planned, service, timed, with};
use equipour::model::Step;
use equipour::service::{Clash, PlanError, prep_plan};

/// One preparation of so many steps, of hand and oven in turn.
fn long(steps: usize) -> Vec<Step> {
    let one = |place: usize| {
        let step = timed("", "", 1.0, (0.0, 2.0));
        if place.is_multiple_of(3) {
            with("oven", step)
        } else {
            step
        }
    };
    (0..steps).map(one).collect()
}

/// So many preparations of so many steps each.
fn wide(many: usize, steps: usize) -> Vec<Vec<Step>> {
    vec![long(steps); many]
}

#[test]
fn two_hundred_jobs_of_many_preparations_are_planned_and_not_proved() {
    let of = service(2, Some(("09:00", "23:00")));
    let plan = planned(&chains(&wide(20, 10)), &of, None).expect("it can be planned");
    assert_eq!(plan.jobs.len(), 201);
    lawful(&plan, &of);
    assert!(!plan.proved);
}

#[test]
fn two_thousand_jobs_are_planned() {
    let of = service(2, None);
    let plan = planned(&chains(&wide(20, 100)), &of, None).expect("it can be planned");
    assert_eq!(plan.jobs.len(), 2_001);
    assert!(!plan.proved && plan.begins < plan.service);
}

#[test]
fn more_jobs_than_can_be_planned_are_said_to_be_too_many() {
    let found = chains(&wide(20, 201));
    let of = service(1, None);
    let error = prep_plan(&found.0, &batched(&found, &of), &of, None).expect_err("too large");
    let PlanError::Clash(clash) = error else {
        panic!("{error}");
    };
    assert_eq!(*clash, Clash::TooLarge { jobs: 4_021 });
    assert!(clash.to_string().contains("too many"), "{clash}");
}

#[test]
fn a_job_that_would_begin_years_ago_has_no_place() {
    let years = 3.0 * 366.0 * 24.0 * 60.0;
    let found = chains(&[vec![timed("", "", 10.0, (0.0, years))]]);
    let error = planned(&found, &service(1, None), None).expect_err("nowhere");
    let words = error.to_string();
    assert!(words.contains("two years before the service"), "{words}");
    assert!(!words.contains("0 min"), "{words}");
}

#[test]
fn many_jobs_that_must_not_wait_come_to_an_end() {
    let one = |place: usize| {
        let step = infusion(3.0, (0.0, 20.0));
        if place.is_multiple_of(4) {
            with("bath", step)
        } else {
            step
        }
    };
    for steps in [10, 100] {
        let of = service(1, Some(("09:00", "23:00")));
        let found = chains(&vec![(0..steps).map(one).collect(); 20]);
        match planned(&found, &of, None) {
            Ok(plan) => lawful(&plan, &of),
            // It is said that it is too much, not that something is wrong with it.
            Err(PlanError::Clash(clash)) => {
                let jobs = 20 * steps + 1;
                assert_eq!(*clash, Clash::TooLarge { jobs });
            }
            Err(error) => panic!("{error}"),
        }
    }
}
