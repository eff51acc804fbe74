//! Score sheets, worked by hand.

use super::tasting_kit::{cup, near, planned};
use equipour::model::{Criterion, Tasting, TastingMethod, TimeRule};
use equipour::tasting::{score_sheet_result, score_words, time_points};

const RULE: TimeRule = TimeRule {
    allowed_s: 420.0,
    each_s: 30.0,
    points: 2.0,
};

fn sheet() -> TastingMethod {
    let line = |name: &str, most: f64, weight: f64| Criterion {
        name: name.to_owned(),
        most,
        weight,
    };
    TastingMethod::ScoreSheet {
        criteria: vec![
            line("taste", 10.0, 3.0),
            line("look", 5.0, 1.0),
            line("story", 5.0, 0.0),
        ],
        time: Some(RULE),
    }
}

/// Two judges of one drink, a third who leaves a line empty, a fourth who has not begun.
fn judged() -> Tasting {
    let mut made = planned(sheet(), 1, 4);
    for (judge, marks) in [(0, &[8.0, 5.0][..]), (1, &[5.0, 2.5]), (2, &[9.0])] {
        let cup = cup(&mut made.tasters[judge], 0);
        cup.marks = marks.iter().copied().enumerate().collect();
    }
    cup(&mut made.tasters[0], 0).seconds = Some(451.0);
    cup(&mut made.tasters[1], 0).comment.push_str(" bright ");
    made
}

#[test]
fn totals_are_weighted_shares_of_full_marks_less_what_time_cost() {
    let found = score_sheet_result(&judged()).expect("score sheets");
    let score = &found.samples[0];
    // (3·0.8 + 1·1)/4 = 85 less two begun stretches; (3·0.5 + 0.5)/4 = 50.
    assert!(near(score.judges[0].marks.expect("whole"), 85.0, 1e-12));
    assert!(near(score.judges[0].total.expect("whole"), 81.0, 1e-12));
    assert!(near(score.judges[1].total.expect("whole"), 50.0, 1e-12));
    assert_eq!(
        (score.judges[2].total, &score.judges[2].empty),
        (None, &vec![1])
    );
    assert_eq!((score.counted, score.incomplete, score.missing), (2, 1, 1));
    assert!(near(score.mean.expect("two"), 65.5, 1e-12));
    // 31/√2.
    assert!(near(
        score.spread.expect("two"),
        31.0 / 2.0_f64.sqrt(),
        1e-12
    ));
    assert_eq!(score.comments, [(1, "bright".to_owned())]);
    assert!(near(
        score.lines[0].expect("marks"),
        (8.0 + 5.0 + 9.0) / 30.0,
        1e-12
    ));
    assert_eq!(score.lines[2], None);
    let said = score_words(score);
    assert_eq!(
        said[0],
        "65.5 of 100 from 2 judges, 50.0 to 81.0, standard deviation 21.9."
    );
    assert!(
        said.contains(&"1 incomplete sheet left out.".to_owned()),
        "{said:?}"
    );
}

#[test]
fn every_begun_stretch_costs_and_the_end_of_one_does_not_begin_the_next() {
    for (seconds, wanted) in [
        (300.0, 0.0),
        (420.0, 0.0),
        (420.5, 2.0),
        (450.0, 2.0),
        (450.5, 4.0),
        (480.0, 4.0),
    ] {
        assert_eq!(time_points(&RULE, seconds), wanted, "{seconds}");
    }
    // 0.1 + 0.2 is not 0.3 in binary, but three tenths beyond are three stretches.
    let rule = TimeRule {
        allowed_s: 0.0,
        each_s: 0.1,
        points: 1.0,
    };
    assert_eq!(time_points(&rule, 0.1 + 0.2), 3.0);
}

#[test]
fn a_total_never_falls_below_nothing() {
    let mut made = judged();
    cup(&mut made.tasters[1], 0).seconds = Some(4000.0);
    let found = score_sheet_result(&made).expect("score sheets");
    assert_eq!(found.samples[0].judges[1].total, Some(0.0));
}

#[test]
fn without_judges_there_is_no_score() {
    let found = score_sheet_result(&planned(sheet(), 2, 0)).expect("score sheets");
    assert_eq!(
        (found.samples[1].mean, found.samples[1].spread),
        (None, None)
    );
    assert_eq!(
        score_words(&found.samples[1]),
        ["No complete score sheet yet."]
    );
    assert_eq!(
        score_sheet_result(&planned(TastingMethod::Ranking, 2, 0)),
        None
    );
}
