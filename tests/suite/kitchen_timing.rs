//! Time with one pair of hands.

use crate::house_made::{
    combined, from_preparation, input, larder, preparation, put_preparation, step,
};
use equipour::kitchen::{Minutes, Timing, ready_between, start_between, timing};
use equipour::model::{Document, Process, Quantity, Step, Wait};
use proptest::prelude::*;

fn timed(from: &[&str], to: &str, hands_on_min: f64, (least_min, most_min): (f64, f64)) -> Step {
    Step {
        hands_on_min,
        wait: Wait {
            least_min,
            most_min,
        },
        ..step(Process::Combine, from, &[to])
    }
}

fn document(steps: Vec<Step>, output: &str) -> Document {
    let mut document = larder();
    let inputs = ["water", "sugar", "gin"].map(|row| input(row, Quantity::Grams(100.0)));
    let made = preparation("Timed", inputs.to_vec(), steps, &[output]);
    put_preparation(&mut document, "timed", made);
    document
}

fn of(document: &Document) -> Timing {
    timing(document, &"timed".into()).expect("it is known")
}

#[test]
fn work_is_done_while_another_step_waits() {
    // Steep: 10 min of work, then 100 to 200 min. Syrup: 20 min. Both together: 5 min.
    let steps = vec![
        timed(&["water"], "steeped", 10.0, (100.0, 200.0)),
        timed(&["sugar"], "syrup", 20.0, (0.0, 0.0)),
        timed(&["steeped", "syrup"], "done", 5.0, (0.0, 0.0)),
    ];
    let timing = of(&document(steps, "done"));
    assert_eq!(timing.hands_on_min, 35.0);
    assert_eq!(
        (timing.total_min.least, timing.total_min.most),
        (115.0, 215.0)
    );
    // The syrup begins as soon as the hands are free, not before.
    assert_eq!(timing.bars[1].start_min.least, 10.0);
    assert_eq!(timing.bars[1].end_min().most, 30.0);
    assert_eq!(timing.critical, [0, 2]);
    let ready = timing.ready_min["done"];
    assert_eq!((ready.least, ready.most), (115.0, 215.0));
}

#[test]
fn the_step_that_most_waits_for_is_begun_first_wherever_it_is_written() {
    let steps = vec![
        timed(&["sugar"], "syrup", 20.0, (0.0, 0.0)),
        timed(&["water"], "steeped", 10.0, (100.0, 100.0)),
        timed(&["steeped", "syrup"], "done", 5.0, (0.0, 0.0)),
    ];
    assert_eq!(of(&document(steps, "done")).total_min.least, 115.0);
}

#[test]
fn one_pair_of_hands_does_one_thing_at_a_time() {
    let steps = vec![
        timed(&["water"], "a", 30.0, (0.0, 0.0)),
        timed(&["sugar"], "b", 30.0, (0.0, 0.0)),
        timed(&["gin"], "c", 30.0, (0.0, 0.0)),
        timed(&["a", "b", "c"], "done", 0.0, (0.0, 0.0)),
    ];
    assert_eq!(of(&document(steps, "done")).total_min.least, 90.0);
}

#[test]
fn a_preparation_below_is_listed_apart() {
    let steps = vec![timed(
        &["water", "sugar", "gin"],
        "done",
        15.0,
        (60.0, 90.0),
    )];
    let mut document = document(steps, "done");
    let inputs = vec![from_preparation("timed", "done", Quantity::Grams(10.0))];
    put_preparation(&mut document, "on-top", combined("On top", inputs, "top"));
    let timing = timing(&document, &"on-top".into()).expect("it is known");
    assert_eq!(timing.total_min, Minutes::default());
    let before = &timing.before[0];
    assert_eq!((before.name.as_str(), before.hands_on_min), ("Timed", 15.0));
    assert_eq!(
        (before.total_min.least, before.total_min.most),
        (75.0, 105.0)
    );
}

#[test]
fn clock_times_run_over_midnight_and_leap_days() {
    let total = Minutes {
        least: 90.0,
        most: 36.0 * 60.0,
    };
    let ready = ready_between("2028-02-28 23:00", total).expect("it is a time");
    assert_eq!(ready.earliest, "2028-02-29 00:30");
    assert_eq!(ready.latest, "2028-03-01 11:00");
    let start = start_between("2026-03-01 08:00", total).expect("it is a time");
    assert_eq!(start.earliest, "2026-02-27 20:00");
    assert_eq!(start.latest, "2026-03-01 06:30");
    for text in ["", "soon", "2026-02-30 10:00", "2026-01-01 25:00"] {
        assert_eq!(ready_between(text, total), None, "{text}");
    }
    let never = Minutes {
        least: 0.0,
        most: f64::INFINITY,
    };
    assert_eq!(ready_between("2026-01-01 10:00", never), None);
}

/// Steps over the streams made before; each takes one or two of those that are left, or water.
fn any_steps() -> impl Strategy<Value = Vec<Step>> {
    let one = (
        any::<u32>(),
        any::<bool>(),
        0.0..60.0_f64,
        0.0..300.0_f64,
        0.0..300.0_f64,
    );
    prop::collection::vec(one, 1..25).prop_map(|made| {
        let mut open: Vec<String> = ["water", "sugar", "gin"].map(str::to_owned).to_vec();
        let mut steps = Vec::new();
        for (place, (pick, two, hands, wait, more)) in made.into_iter().enumerate() {
            let first = open.remove(pick as usize % open.len());
            let mut from = vec![first];
            if two && !open.is_empty() {
                from.push(open.remove((pick / 7) as usize % open.len()));
            }
            let from: Vec<&str> = from.iter().map(String::as_str).collect();
            let to = format!("s{place}");
            let hands = if pick % 4 == 0 { 0.0 } else { hands.round() };
            steps.push(timed(
                &from,
                &to,
                hands,
                (wait.round(), (wait + more).round()),
            ));
            open.push(to);
        }
        steps
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_plan_beats_its_longest_path_or_its_hands_and_none_is_slower_than_step_by_step(
        steps in any_steps(),
    ) {
        let document = document(steps.clone(), "s0");
        let timing = of(&document);
        let hands: f64 = steps.iter().map(|step| step.hands_on_min).sum();
        let one_by_one = hands + steps.iter().map(|step| step.wait.least_min).sum::<f64>();
        prop_assert!(timing.total_min.least >= hands - 1e-9);
        prop_assert!(timing.total_min.least <= one_by_one + 1e-9);
        prop_assert!(timing.total_min.most >= timing.total_min.least - 1e-9);
        for (bar, step) in timing.bars.iter().zip(&steps) {
            for (other, made) in timing.bars.iter().zip(&steps) {
                if step.from.contains(&made.to[0]) {
                    prop_assert!(bar.start_min.least >= other.end_min().least - 1e-9);
                    prop_assert!(bar.start_min.most >= other.end_min().most - 1e-9);
                }
                let both_work = bar.hands_on_min > 0.0 && other.hands_on_min > 0.0;
                if bar.step != other.step && both_work {
                    for end in [|m: Minutes| m.least, |m: Minutes| m.most] {
                        let (a, b) = (end(bar.start_min), end(other.start_min));
                        let apart = a + bar.hands_on_min <= b + 1e-9 || b + other.hands_on_min <= a + 1e-9;
                        prop_assert!(apart, "steps {} and {} overlap", bar.step, other.step);
                    }
                }
            }
        }
    }
}

#[test]
fn bars_reach_as_far_as_the_longest_total_says() {
    // 12 h to 2 d, then 12 h to 1 d, then 1 to 7 d: 2 d to 10 d in all.
    let (hour, day) = (60.0, 1440.0);
    let steps = vec![
        timed(
            &["water"],
            "steeped",
            5.0,
            (12.0 * hour - 5.0, 2.0 * day - 5.0),
        ),
        timed(&["steeped"], "sour", 5.0, (12.0 * hour - 5.0, day - 5.0)),
        timed(&["sour"], "done", 5.0, (day - 5.0, 7.0 * day - 5.0)),
    ];
    let timing = of(&document(steps, "done"));
    let line = equipour::chart::time_line(&timing);
    assert!(line.summary.contains("2 d to 10 d"), "{}", line.summary);
    assert!((line.end_min - 10.0 * day).abs() < 1e-9, "{}", line.end_min);
    let ends: Vec<[f64; 2]> = line.bars.iter().map(|bar| bar.waits_until).collect();
    assert_eq!(ends[1], [day, 3.0 * day]);
    for (bar, drawn) in timing.bars.iter().zip(&ends) {
        assert_eq!(*drawn, [bar.end_min().least, bar.end_min().most]);
    }
}
