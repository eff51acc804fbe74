//! Plans that cannot be kept: both sides are named, and by how long.

use crate::house_made::{input, larder, make, preparation, put_preparation, step};
use crate::service_kit::{drink, made_in_house};
use crate::service_plan_kit::{chains, infusion, lawful, planned, service, timed, with};
use equipour::model::{Amount, Process, Quantity, ServicePlan, Step};
use equipour::service::{Clash, PlanError, lasting};

fn clash(found: Result<equipour::service::PrepPlan, PlanError>) -> Clash {
    match found.expect_err("it cannot be kept") {
        PlanError::Clash(clash) => *clash,
        other @ PlanError::Service(_) => panic!("{other}"),
    }
}

#[test]
fn a_service_in_the_past_is_told() {
    let found = chains(&[vec![timed("", "", 10.0, (0.0, 0.0))]]);
    let clash = clash(planned(&found, &service(1, None), Some("2026-05-21T20:00")));
    assert_eq!(clash.by_min(), 25 * 60);
    assert!(clash.to_string().contains("1 d 1 h ago"), "{clash}");
}

#[test]
fn what_should_have_begun_says_when() {
    // Three days of waiting, a service in two.
    let found = chains(&[vec![timed("", "", 60.0, (4320.0, 4320.0))]]);
    let clash = clash(planned(&found, &service(1, None), Some("2026-05-18T19:00")));
    let words = clash.to_string();
    assert_eq!(
        words,
        "\"a\" needs 3 d 1 h but the service is in 2 d: it should have begun 1 d 1 h ago"
    );
    assert_eq!(clash.by_min(), 25 * 60);
    // With time enough there is a plan.
    assert!(planned(&found, &service(1, None), Some("2026-05-17T18:00")).is_ok());
}

#[test]
fn two_that_want_the_same_equipment_are_both_named() {
    let dry = || vec![with("dehydrator", timed("", "", 10.0, (590.0, 590.0)))];
    let found = chains(&[dry(), dry()]);
    // 20 h and 7 min are needed, 16 h are left.
    let clash = clash(planned(&found, &service(2, None), Some("2026-05-20T03:00")));
    let words = clash.to_string();
    for part in [
        "dehydrator",
        "combine: a",
        "combine: b",
        "4 h 7 min too long",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
}

#[test]
fn work_that_is_longer_than_a_day_is_told() {
    let found = chains(&[vec![timed("", "", 600.0, (0.0, 0.0))]]);
    let clash = clash(planned(&found, &service(1, Some(("10:00", "18:00"))), None));
    assert_eq!(clash.by_min(), 120);
    assert!(
        clash.to_string().contains("\"combine: a\" is 10 h of work"),
        "{clash}"
    );
}

#[test]
fn a_wait_that_ends_when_nobody_works_names_what_has_to_follow() {
    // Within a day there are 8 h, from one day to the next 16 h: never 9 to 12 h.
    let steps = vec![
        infusion(10.0, (540.0, 720.0)),
        timed("", "", 10.0, (0.0, 0.0)),
    ];
    let found = chains(std::slice::from_ref(&steps));
    let clash = clash(planned(&found, &service(1, Some(("10:00", "18:00"))), None));
    let words = clash.to_string();
    for part in ["\"infuse: a-1\"", "\"combine: a\"", "12 h", "4 h too long"] {
        assert!(words.contains(part), "{part}: {words}");
    }
    assert!(planned(&found, &service(1, Some(("10:00", "22:00"))), None).is_ok());
}

/// Milk and water: to be kept cold, seven days.
fn milky(
    extra: Vec<Step>,
) -> (
    equipour::model::Document,
    equipour::model::Spec,
    equipour::model::Trial,
) {
    let mut document = larder();
    let inputs = vec![
        input("milk", Quantity::Grams(100.0)),
        input("water", Quantity::Grams(50.0)),
    ];
    let steps = vec![step(Process::Combine, &["milk", "water"], &["milk drink"])];
    put_preparation(
        &mut document,
        "milky",
        preparation("Milky", inputs, steps, &["milk drink"]),
    );
    make(&mut document, "milky");
    let inputs = vec![crate::house_made::from_preparation(
        "milky",
        "milk drink",
        Quantity::Grams(100.0),
    )];
    let mut streams = vec!["milk drink".to_owned()];
    streams.extend((0..extra.len()).map(|place| format!("stage {place}")));
    let last = streams.last().cloned().expect("one at least");
    let steps: Vec<Step> = extra
        .into_iter()
        .enumerate()
        .map(|(place, step)| Step {
            from: vec![streams[place].clone()],
            to: vec![streams[place + 1].clone()],
            ..step
        })
        .collect();
    put_preparation(
        &mut document,
        "aged",
        preparation("Aged", inputs, steps, &[last.as_str()]),
    );
    make(&mut document, "aged");
    let (spec, trial) = drink(
        &mut document,
        vec![made_in_house("aged", &last, Amount::Grams(30.0))],
    );
    (document, spec, trial)
}

#[test]
fn a_life_shorter_than_the_work_that_follows_is_told() {
    // The milk drink keeps seven days; it then waits for nine.
    let found = milky(vec![timed("", "", 10.0, (9.0 * 1440.0, 9.0 * 1440.0))]);
    let clash = clash(planned(&found, &service(1, None), None));
    let Clash::Life {
        output,
        days,
        over_days,
        ..
    } = &clash
    else {
        panic!("{clash}");
    };
    assert_eq!((output.as_str(), *days), ("milk drink", 7));
    // Made on day 1 it may be used on day 7; nine days later is three too many, a tenth minute before.
    assert_eq!(*over_days, 3, "{clash}");
    assert!(clash.to_string().contains("Test drink"), "{clash}");
}

#[test]
fn nothing_is_past_its_life_when_it_is_used() {
    let found = milky(vec![timed("", "", 10.0, (5.0 * 1440.0, 5.0 * 1440.0))]);
    let of = service(1, Some(("10:00", "18:00")));
    let plan = planned(&found, &of, None).expect("five days are within seven");
    lawful(&plan, &of);
    let made = plan
        .jobs
        .iter()
        .find(|job| job.group == "Milky")
        .expect("it is made");
    let days = plan
        .service
        .date()
        .duration_since(made.end.date())
        .as_hours()
        / 24;
    assert!((5..=6).contains(&days), "{days}");
}

#[test]
fn a_plan_without_a_day_or_a_time_is_refused() {
    let found = chains(&[vec![timed("", "", 10.0, (0.0, 0.0))]]);
    for (on, at, field) in [
        ("", "19:00", "service day"),
        ("2026-05-20", "", "service time"),
    ] {
        let of = ServicePlan {
            on: on.to_owned(),
            at: at.to_owned(),
            ..service(1, None)
        };
        let error = planned(&found, &of, None).expect_err("it says no time");
        assert!(error.to_string().starts_with(field), "{error}");
    }
}

#[test]
fn minutes_read_as_days_hours_and_minutes() {
    for (minutes, words) in [
        (0, "0 min"),
        (45, "45 min"),
        (60, "1 h"),
        (1560, "1 d 2 h"),
        (4381, "3 d 1 h 1 min"),
    ] {
        assert_eq!(lasting(minutes), words);
    }
}
