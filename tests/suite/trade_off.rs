//! Distance against change: worked out beside the document, and as a chart.

use equipour::balance::Pantry;
use equipour::chart::{MarkKind, SeriesKind, TradeOffAsk, TradeOffPoint, trade_off_chart};
use equipour::rebalance::Kind;
use equipour::session::{Edit, Session, spec_from_classic};
use equipour::store::{Builtin, DEMO, read_text};
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

fn session() -> Session {
    let builtin = Builtin::load().expect("the tables are sound");
    let document = read_text(DEMO).expect("the demo is sound").document;
    Session::new(Arc::new(builtin), document)
}

/// Waits until nothing is being worked out any more.
fn wait(session: &mut Session) {
    while session.is_trading_off() {
        sleep(Duration::from_millis(2));
        session.take_trade_off();
    }
}

#[test]
fn nothing_is_worked_out_until_it_is_wanted() {
    let mut session = session();
    assert!(session.trade_off().is_none() && !session.is_trading_off());
    session.want_trade_off(|| {});
    assert!(session.is_trading_off());
    wait(&mut session);
    let found = session.trade_off().expect("an answer").expect("a target");
    assert!(found.points.len() > 1);
    let now = session.derived().expect("derived").distance;
    assert_eq!(Some(found.distance_now), now);
    session.want_trade_off(|| {});
    assert!(!session.is_trading_off(), "it is known already");
}

#[test]
fn every_point_comes_nearer_for_more_change() {
    let mut session = session();
    session.want_trade_off(|| {});
    wait(&mut session);
    let found = session
        .trade_off()
        .expect("an answer")
        .expect("a target")
        .clone();
    let mut before = (0.0, found.distance_now);
    for point in &found.points {
        assert!(point.change_steps > before.0 && point.distance < before.1);
        before = (point.change_steps, point.distance);
        // The model agrees with the solver.
        let preview = session.preview(&point.changes).expect("it is served");
        let distance = preview.distance.expect("a target");
        assert!((distance - point.distance).abs() < 1.0e-9);
    }
}

#[test]
fn its_last_point_is_as_near_as_the_nearest_card() {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let factors = [
        0.4, 0.45, 0.5, 0.55, 0.65, 0.7, 0.75, 1.25, 1.35, 1.45, 1.55, 1.7, 1.8, 1.9,
    ];
    let mut added = 0;
    for (name, factor) in ["piña colada", "margarita", "whiskey sour"]
        .into_iter()
        .flat_map(|name| factors.map(|factor| (name, factor)))
    {
        let mut session = session();
        let mut classics = builtin.classics.iter();
        let classic = classics.find(|one| one.name == name).expect("a classic");
        let (mut spec, ingredients) = spec_from_classic(&builtin, classic, &mut Pantry::default());
        let trial = Arc::make_mut(spec.trials.last_mut().expect("a trial"));
        let amount = trial.pours[1].amount.clone();
        trial.pours[1].amount = amount.with_value(factor * amount.value().expect("a number"));
        let spec = Box::new(spec);
        session
            .edit(&Edit::AddSpec { spec, ingredients })
            .expect("it begins");
        session.refresh();
        session.want_trade_off(|| {});
        wait(&mut session);
        let found = session.trade_off().expect("an answer").expect("a target");
        let answer = session.derived().expect("derived").answer.as_ref();
        let cards = answer.expect("cards").proposals.iter();
        let nearest = cards
            .map(|card| card.distance)
            .fold(f64::INFINITY, f64::min);
        if nearest.is_infinite() {
            // It is near enough to be left alone.
            continue;
        }
        let last = found.points.last().expect("a point");
        added += usize::from(last.kinds != [Kind::TradeOff]);
        assert!(
            last.distance <= nearest,
            "{name}: {} over {nearest}",
            last.distance
        );
        for pair in found.points.windows(2) {
            assert!(pair[0].change_steps < pair[1].change_steps, "{name}");
            assert!(pair[0].distance > pair[1].distance, "{name}");
        }
    }
    assert!(added > 0, "one of them ends with a card");
}

#[test]
fn an_answer_that_was_overtaken_is_dropped() {
    let mut session = session();
    session.want_trade_off(|| {});
    let trial = session.trial().expect("a trial").clone();
    let edit = Edit::SetAmount {
        trial: trial.id,
        pour: 0,
        amount: trial.pours[0].amount.with_value(60.0),
        unit: trial.pours[0].unit,
    };
    session.edit(&edit).expect("the trial is a draft");
    session.refresh();
    wait(&mut session);
    assert!(session.trade_off().is_none());
    assert!(
        session.earlier_trade_off().is_none(),
        "nothing was kept of it"
    );
    session.want_trade_off(|| {});
    wait(&mut session);
    assert!(session.trade_off().is_some());
}

#[test]
fn an_earlier_answer_can_only_be_looked_at() {
    let mut session = session();
    session.want_trade_off(|| {});
    wait(&mut session);
    session.undo();
    let spec = session.spec().expect("a drink").id;
    let edit = Edit::RenameSpec {
        spec,
        name: "Another".to_owned(),
    };
    session.edit(&edit).expect("a name");
    session.refresh();
    assert!(session.trade_off().is_none());
    assert!(session.earlier_trade_off().is_some());
}

#[test]
fn one_that_is_given_up_leaves_nothing_behind() {
    let mut session = session();
    session.want_trade_off(|| {});
    session.forget_trade_off();
    assert!(!session.is_trading_off());
    session.take_trade_off();
    assert!(session.trade_off().is_none());
}

#[test]
fn without_a_target_the_reason_is_said() {
    let mut session = session();
    let spec = session.spec().expect("a drink").id;
    session
        .edit(&Edit::SetTarget { spec, target: None })
        .expect("it goes");
    session.refresh();
    session.want_trade_off(|| {});
    assert_eq!(session.trade_off(), Some(Err("no target is set")));
}

fn points() -> Vec<TradeOffPoint> {
    let point = |change_steps, distance, pours| TradeOffPoint {
        change_steps,
        distance,
        pours,
        changes: vec!["lime juice 20 ml → 25 ml".to_owned(); pours],
    };
    vec![point(2.0, 1.8, 1), point(5.0, 0.9, 2), point(9.5, 0.2, 4)]
}

#[test]
fn the_stair_falls_where_a_proposal_stands_and_nowhere_else() {
    let points = points();
    let chart = trade_off_chart(&TradeOffAsk {
        distance_now: 3.0,
        points: &points,
        chosen: None,
    });
    let stair = chart
        .series
        .iter()
        .find(|line| line.kind == SeriesKind::Line);
    let stair = &stair.expect("a stair").points;
    assert_eq!(stair.first(), Some(&[0.0, 3.0]), "from the drink as it is");
    for pair in stair.windows(2) {
        let ([x0, y0], [x1, y1]) = (pair[0], pair[1]);
        assert!(x1 >= x0 && y1 <= y0);
        if y1 < y0 {
            assert_eq!(x0, x1, "it falls straight down");
            let foot = points.iter().find(|point| point.change_steps == x1);
            assert_eq!(foot.expect("a proposal").distance, y1);
        }
    }
    let one = chart
        .series
        .iter()
        .find(|line| line.kind == SeriesKind::Dashed);
    assert!(one.expect("a line").points.iter().all(|at| at[1] == 1.0));
}

#[test]
fn every_proposal_is_marked_with_its_pours_and_stands_in_the_table() {
    let points = points();
    let chart = trade_off_chart(&TradeOffAsk {
        distance_now: 3.0,
        points: &points,
        chosen: Some(1),
    });
    let names: Vec<&str> = chart.marks.iter().map(|mark| mark.name.as_str()).collect();
    assert_eq!(names, ["as it is", "1 pour", "2 pours", "4 pours"]);
    assert_eq!(chart.marks[2].kind, MarkKind::Reading, "the chosen one");
    for (mark, point) in chart.marks[1..].iter().zip(&points) {
        assert_eq!(mark.at, [point.change_steps, point.distance]);
        assert!(mark.detail.contains("lime juice"));
    }
    assert_eq!(chart.table.rows.len(), 4);
    assert_eq!(chart.table.rows[3][..3], ["9.5", "0.20", "4"]);
    let all = chart.marks.iter().chain(&chart.marks);
    for mark in all {
        assert!((chart.x.from..=chart.x.to).contains(&mark.at[0]));
        assert!((chart.y.from..=chart.y.to).contains(&mark.at[1]));
    }
    assert!(chart.summary.contains("5 notches in 2 pours are enough"));
}

#[test]
fn one_notch_is_told_as_one() {
    let points = [TradeOffPoint {
        change_steps: 1.0,
        ..points()[1].clone()
    }];
    let chart = trade_off_chart(&TradeOffAsk {
        distance_now: 3.0,
        points: &points,
        chosen: None,
    });
    let told = "1 notch of change brings it to 0.9 steps. 1 notch in 2 pours is enough";
    assert!(chart.summary.contains(told), "{}", chart.summary);
    assert!(chart.marks[1].detail.contains("for 1 notch of change in"));
}

#[test]
fn with_nothing_to_gain_the_chart_says_so() {
    let chart = trade_off_chart(&TradeOffAsk {
        distance_now: 0.1,
        points: &[],
        chosen: None,
    });
    assert_eq!(chart.marks.len(), 1);
    assert!(chart.summary.starts_with("No change"));
}

#[test]
fn what_was_stopped_is_not_worked_out_until_it_is_wanted_again() {
    let mut session = session();
    session.want_trade_off(|| {});
    let progress = session.trade_off_progress().expect("it runs");
    assert!((0.0..=1.0).contains(&progress));
    session.stop_trade_off();
    assert!(session.is_trade_off_stopped());
    session.want_trade_off(|| {});
    assert!(!session.is_trading_off() && session.trade_off_progress().is_none());
    assert!(session.trade_off().is_none());
    session.resume_trade_off();
    session.want_trade_off(|| {});
    wait(&mut session);
    assert!(session.trade_off().is_some());
}

#[test]
fn a_stop_belongs_to_the_trial_as_it_was() {
    let mut session = session();
    session.want_trade_off(|| {});
    session.stop_trade_off();
    let trial = session.trial().expect("a trial");
    let edit = Edit::SetLocked {
        trial: trial.id,
        pour: 0,
        locked: !trial.pours[0].locked,
    };
    session.edit(&edit).expect("it can be locked");
    session.refresh();
    assert!(!session.is_trade_off_stopped());
    session.want_trade_off(|| {});
    assert!(session.is_trading_off());
    wait(&mut session);
}
