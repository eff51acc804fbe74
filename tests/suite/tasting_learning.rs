//! What answers suggest for the target.

use super::tasting_kit::{near, scaled};
use equipour::model::{Attribute, Axis, Learning, Point, Senses};
use equipour::tasting::{
    Lesson, LessonGround, TastedPoint, axis_lesson_words, just_right_result, learn,
    student_quantile,
};

fn point(sweet: f64) -> Point {
    Point {
        sweet_g_per_l: sweet,
        sour_g_per_l: 6.0,
        strength_pct_vol: 16.0,
        bitter_per_ml: 0.0,
    }
}

/// A drink whose answers to one scale are these.
fn tasted(point: Point, attribute: Attribute, answers: &[u8]) -> TastedPoint {
    let rows: Vec<[(u8, u8); 1]> = answers.iter().map(|one| [(*one, 0)]).collect();
    let rows: Vec<&[(u8, u8)]> = rows.iter().map(|row| &row[..]).collect();
    let found = just_right_result(&scaled(attribute, &rows)).expect("scales");
    let scales = found.samples[0].scales.clone();
    TastedPoint { point, scales }
}

fn lesson(all: &[TastedPoint], of: usize) -> Option<Lesson> {
    learn(all, of, None, &Learning::default(), &Senses::default())
}

#[test]
fn twelve_answers_shift_by_two_thirds_of_what_they_say() {
    // Mean +1, 12/(12 + 6): −2/3 of a step.
    let this = tasted(point(95.0), Attribute::Sweet, &[4; 12]);
    let found = lesson(&[this], 0).expect("answers");
    let sweet = found.axes[0];
    assert!(near(sweet.shift_steps, -2.0 / 3.0, 1e-12) && !sweet.few);
    // A step is 20 % above a detection threshold of 5.24 g/L.
    let wanted = 100.24 * 1.2_f64.powf(-2.0 / 3.0) - 5.24;
    assert!(near(found.point.sweet_g_per_l, wanted, 1e-9));
    assert_eq!(found.point.sour_g_per_l, 6.0);
    let back = Senses::default().sweet.steps(sweet.suggested, sweet.tasted);
    assert!(near(back, sweet.shift_steps, 1e-12));
}

#[test]
fn fewer_than_twelve_answers_give_a_direction_without_an_amount() {
    let this = tasted(point(95.0), Attribute::Strong, &[2; 11]);
    let found = lesson(&[this], 0).expect("answers");
    let strong = found.axes[0];
    assert!(strong.axis == Axis::Strength && strong.few && strong.shift_steps > 0.0);
    let said = axis_lesson_words(&strong);
    assert_eq!(
        said[0],
        "11 answers, \u{2212}1.00 from just right on average: try it stronger."
    );
    assert!(
        said.iter().any(|one| one.contains("a direction to try")),
        "{said:?}"
    );
}

#[test]
fn axes_without_answers_stay_at_the_target() {
    let this = tasted(point(95.0), Attribute::Sweet, &[3; 4]);
    let target = Point {
        sour_g_per_l: 7.5,
        ..point(80.0)
    };
    let found = learn(
        &[this],
        0,
        Some(&target),
        &Learning::default(),
        &Senses::default(),
    );
    let found = found.expect("answers").point;
    assert_eq!((found.sweet_g_per_l, found.sour_g_per_l), (95.0, 7.5));
}

#[test]
fn what_moves_no_axis_teaches_nothing() {
    assert_eq!(lesson(&[], 0), None);
    assert_eq!(
        lesson(&[tasted(point(95.0), Attribute::Dilution, &[4; 20])], 0),
        None
    );
    assert_eq!(
        lesson(&[tasted(point(95.0), Attribute::Bitter, &[4; 20])], 0),
        None
    );
    assert_eq!(
        lesson(&[tasted(point(95.0), Attribute::Sweet, &[])], 0),
        None
    );
}

#[test]
fn what_is_not_sour_is_not_made_less_sour() {
    let mild = Point {
        sour_g_per_l: 0.8,
        ..point(40.0)
    };
    let found = lesson(&[tasted(mild, Attribute::Sour, &[5; 12])], 0).expect("answers");
    assert_eq!(found.point.sour_g_per_l, 0.8);
    let near_it = Point {
        sour_g_per_l: 1.6,
        ..point(40.0)
    };
    let found = lesson(&[tasted(near_it, Attribute::Sour, &[5; 12])], 0).expect("answers");
    assert_eq!(found.point.sour_g_per_l, Senses::default().not_sour_g_per_l);
}

/// The sweetness that lies so many steps from 95 g/L.
fn sweet_at(steps: f64) -> f64 {
    Senses::default().sweet.at_steps(steps, 95.0)
}

/// Answers at −2, 0 and +2 steps that follow sweetness but for their scatter.
const FOLLOWING: [(f64, &[u8]); 3] = [
    (-2.0, &[2, 2, 1, 3, 2, 2]),
    (0.0, &[3, 3, 4, 3, 3, 2, 4, 3]),
    (2.0, &[4, 4, 5, 4, 3, 4]),
];

fn several(rows: &[(f64, &[u8])]) -> Vec<TastedPoint> {
    let one = |(steps, answers): &(f64, &[u8])| {
        tasted(point(sweet_at(*steps)), Attribute::Sweet, answers)
    };
    rows.iter().map(one).collect()
}

/// Regression over single answers: (number, mean x, mean y, Σ(x − mean)², slope, variance about it).
fn regression(rows: &[(f64, &[u8])]) -> (f64, f64, f64, f64, f64, f64) {
    let single: Vec<(f64, f64)> = rows
        .iter()
        .flat_map(|(x, answers)| answers.iter().map(|one| (*x, f64::from(*one) - 3.0)))
        .collect();
    let count = single.len() as f64;
    let x = single.iter().map(|one| one.0).sum::<f64>() / count;
    let y = single.iter().map(|one| one.1).sum::<f64>() / count;
    let spread: f64 = single.iter().map(|one| (one.0 - x).powi(2)).sum();
    let slope = single
        .iter()
        .map(|one| (one.0 - x) * (one.1 - y))
        .sum::<f64>()
        / spread;
    let off = single
        .iter()
        .map(|one| (one.1 - y - slope * (one.0 - x)).powi(2));
    let variance = off.sum::<f64>() / (count - 2.0);
    (count, x, y, spread, slope, variance)
}

#[test]
fn three_balances_give_the_crossing_and_an_interval_whose_ends_are_just_significant() {
    let all = several(&FOLLOWING);
    let found = lesson(&all, 1).expect("answers").axes[0];
    assert_eq!(
        (found.ground, found.trials, found.few),
        (LessonGround::Line, 3, false)
    );
    let line = found.line.expect("three balances");
    assert!(!line.uneven);
    let (count, x, y, spread, slope, variance) = regression(&FOLLOWING);
    assert!(near(line.slope, slope, 1e-12));
    let crossing = x - y / slope;
    assert!(near(line.crossing.expect("a slope"), crossing, 1e-12));
    assert!(near(found.suggested, sweet_at(crossing), 1e-9));
    // At either end of the interval the line differs from just right by exactly t standard errors.
    let bounds = line.interval.expect("a slope");
    let t = student_quantile(0.05, count - 2.0);
    for end in [bounds.low, bounds.high] {
        let error = (variance * (1.0 / count + (end - x).powi(2) / spread)).sqrt();
        let fitted = y + slope * (end - x);
        assert!(near(fitted.abs() / error, t, 1e-9), "{end}");
    }
    let [low, middle, high] = found.crossing.expect("a line");
    assert!(low < middle && middle < high);
    let said = axis_lesson_words(&found);
    assert!(
        said[1].starts_with("Over 3 tasted balances of this drink just right lies at "),
        "{said:?}"
    );
}

#[test]
fn the_crossing_is_the_same_balance_whichever_drink_it_is_counted_from() {
    let all = several(&FOLLOWING);
    let from_low = lesson(&all, 0).expect("answers").point.sweet_g_per_l;
    let from_high = lesson(&all, 2).expect("answers").point.sweet_g_per_l;
    assert!(near(from_low, from_high, 1e-9));
}

#[test]
fn answers_that_do_not_follow_the_axis_give_no_interval_and_no_line() {
    let all = several(&[
        (-2.0, &[2, 4, 3, 3]),
        (0.0, &[3, 4, 2, 4]),
        (2.0, &[4, 2, 3, 3]),
    ]);
    let found = lesson(&all, 1).expect("answers").axes[0];
    assert_eq!(found.ground, LessonGround::Answers);
    assert_eq!(found.line.expect("three balances").interval, None);
    let said = axis_lesson_words(&found).join(" ");
    assert!(said.contains("no interval"), "{said}");
}

#[test]
fn answers_that_run_against_the_axis_move_nothing_by_a_line() {
    let all = several(&[
        (-2.0, &[4, 4, 5, 4, 3, 4]),
        (0.0, &[3, 3, 4, 3, 2, 3]),
        (2.0, &[2, 2, 1, 3, 2, 2]),
    ]);
    let found = lesson(&all, 1).expect("answers").axes[0];
    assert_eq!(
        (found.ground, found.crossing),
        (LessonGround::Answers, None)
    );
    assert!(axis_lesson_words(&found).join(" ").contains("run against"));
}

#[test]
fn two_balances_are_no_line_even_when_one_was_tasted_twice() {
    let all = several(&[(-2.0, &[2, 2, 1]), (0.0, &[3, 4, 3]), (0.01, &[3, 3, 4])]);
    let found = lesson(&all, 1).expect("answers").axes[0];
    assert_eq!(
        (found.trials, found.line, found.ground),
        (2, None, LessonGround::Answers)
    );
}

#[test]
fn a_crossing_beyond_what_was_tasted_is_followed_by_one_step_only() {
    let all = several(&[
        (0.0, &[4, 5, 4, 5, 4, 5, 5, 5]),
        (1.0, &[5, 5, 5, 4, 5, 5, 4, 5]),
        (2.0, &[5, 5, 5, 5, 5, 5, 5, 4]),
        (-1.0, &[4, 4, 4, 5, 4, 4, 5, 4]),
    ]);
    let found = lesson(&all, 0).expect("answers").axes[0];
    assert_eq!((found.ground, found.beyond), (LessonGround::Line, true));
    assert!(near(found.shift_steps, -2.0, 1e-9), "{}", found.shift_steps);
}

#[test]
fn balances_that_scatter_more_than_their_answers_count_as_the_unit() {
    // Everybody agrees on each, but the four do not lie on a line.
    let all = several(&[
        (-2.0, &[2, 2, 2, 2, 2, 1]),
        (-1.0, &[4, 4, 4, 4, 4, 5]),
        (1.0, &[2, 2, 2, 2, 2, 3]),
        (2.0, &[5, 5, 5, 5, 5, 4]),
    ]);
    let found = lesson(&all, 1).expect("answers").axes[0];
    let line = found.line.expect("four balances");
    assert!(line.uneven);
    assert_eq!((line.interval, found.ground), (None, LessonGround::Answers));
}
