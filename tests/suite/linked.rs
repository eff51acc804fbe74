//! Pours that move together: the total stays, ratios stay, and what is held is said.

use crate::history::session;
use crate::sample_drinks::TRIAL;
use equipour::model::Amount;
use equipour::rebalance::Change;
use equipour::session::{Edit, LinkedPour, Linking, move_linked};
use equipour::units::Unit;
use proptest::prelude::*;

const TINY: f64 = 1.0e-6;

fn pour(amount: f64) -> LinkedPour {
    LinkedPour {
        amount: Some(amount),
        ml_per_unit: Some(1.0),
        notch: 2.5,
        least: 0.0,
        most: f64::INFINITY,
        locked: false,
        fills: true,
    }
}

fn amounts(pours: &[LinkedPour], lead: usize, to: f64, linking: Linking) -> Vec<f64> {
    let moved = move_linked(pours, lead, to, linking);
    moved.amounts.into_iter().flatten().collect()
}

prop_compose! {
    fn any_pour()(
        places in 0_u32..40,
        between in prop::bool::weighted(0.3),
        notch in prop::sample::select(vec![0.5, 1.0, 2.5, 5.0]),
        least in prop::option::weighted(0.3, 0.0_f64..15.0),
        room in prop::option::weighted(0.3, 0.0_f64..30.0),
        locked in prop::bool::weighted(0.2),
        fills in prop::bool::weighted(0.8),
    ) -> LinkedPour {
        let amount = f64::from(places) * notch + if between { 0.3 * notch } else { 0.0 };
        LinkedPour {
            amount: Some(amount),
            ml_per_unit: Some(1.0),
            notch,
            least: least.unwrap_or(0.0).min(amount),
            most: room.map_or(f64::INFINITY, |room| amount + room),
            locked,
            fills,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 512,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn locked_pours_stay_and_the_others_keep_to_their_limits(
        pours in prop::collection::vec(any_pour(), 2..9),
        share in 0.0_f64..2.5,
        ratio in any::<bool>(),
    ) {
        let to = pours[0].amount.unwrap_or(0.0) * share;
        let linking = if ratio { Linking::Ratio } else { Linking::Total };
        let moved = move_linked(&pours, 0, to, linking);
        prop_assert_eq!(moved.amounts[0], Some(to), "the hand decides about its own pour");
        for (was, now) in pours.iter().zip(&moved.amounts).skip(1) {
            let (before, now) = (was.amount.unwrap_or(0.0), now.unwrap_or(f64::NAN));
            if was.locked || before == 0.0 {
                prop_assert_eq!(now, before);
            }
            prop_assert!(now >= was.least - TINY && now <= was.most + TINY, "{now} of {was:?}");
        }
    }

    #[test]
    fn the_poured_total_stays_within_a_notch_or_no_single_notch_brings_it_nearer(
        pours in prop::collection::vec(any_pour(), 2..9),
        share in 0.0_f64..2.5,
    ) {
        let to = pours[0].amount.unwrap_or(0.0) * share;
        let moved = move_linked(&pours, 0, to, Linking::Total);
        let now: Vec<f64> = moved.amounts.iter().copied().flatten().collect();
        let was: f64 = pours.iter().filter_map(|pour| pour.amount).sum();
        let off = now.iter().sum::<f64>() - was;
        prop_assert!((off - moved.off_ml).abs() < TINY, "said {} but {off}", moved.off_ml);
        let free = |place: &usize| {
            let pour = &pours[*place];
            *place != 0 && !pour.locked && pour.fills && pour.amount != Some(0.0)
        };
        let can_give = |place: usize| {
            let step = if off > 0.0 { -pours[place].notch } else { pours[place].notch };
            let next = now[place] + step;
            next >= pours[place].least - TINY && next <= pours[place].most + TINY
        };
        for place in (0..pours.len()).filter(free).filter(|place| can_give(*place)) {
            prop_assert!(
                off.abs() <= pours[place].notch / 2.0 + TINY,
                "{off} ml off though {:?} at {} could move", pours[place], now[place]
            );
        }
    }

    #[test]
    fn ratios_stay_within_half_a_notch_unless_a_limit_holds(
        pours in prop::collection::vec(any_pour(), 2..9),
        share in 0.0_f64..2.5,
    ) {
        let from = pours[0].amount.unwrap_or(0.0);
        prop_assume!(from > 0.0);
        let moved = move_linked(&pours, 0, from * share, Linking::Ratio);
        for (place, (was, now)) in pours.iter().zip(&moved.amounts).enumerate().skip(1) {
            let (before, now) = (was.amount.unwrap_or(0.0), now.unwrap_or(f64::NAN));
            if was.locked || before == 0.0 {
                continue;
            }
            let off = (now - before * share).abs();
            let held = moved.held_back.contains(&place);
            prop_assert_eq!(off > was.notch / 2.0 + 1.0e-8, held, "{} off for {:?}", off, was);
        }
    }

    #[test]
    fn going_back_to_where_it_began_brings_everything_back(
        pours in prop::collection::vec(any_pour(), 2..9),
        ratio in any::<bool>(),
    ) {
        let linking = if ratio { Linking::Ratio } else { Linking::Total };
        let from = pours[0].amount.unwrap_or(0.0);
        let was: Vec<f64> = pours.iter().filter_map(|pour| pour.amount).collect();
        prop_assert_eq!(amounts(&pours, 0, from, linking), was);
    }
}

#[test]
fn the_others_give_in_proportion_to_what_they_pour() {
    let pours = [pour(40.0), pour(20.0), pour(10.0), pour(30.0)];
    let now = amounts(&pours, 0, 55.0, Linking::Total);
    // 15 ml of 60 ml: a quarter of each, 5, 2.5 and 7.5 ml.
    assert_eq!(now, [55.0, 15.0, 7.5, 22.5]);
}

#[test]
fn what_a_limit_leaves_over_is_given_by_the_others() {
    let held = LinkedPour {
        least: 20.0,
        ..pour(20.0)
    };
    let moved = move_linked(&[pour(40.0), held, pour(20.0)], 0, 50.0, Linking::Total);
    assert_eq!(moved.amounts, [Some(50.0), Some(20.0), Some(10.0)]);
    assert!(moved.held_back.is_empty() && moved.off_ml.abs() < TINY);
}

#[test]
fn a_total_that_cannot_be_kept_says_by_how_much_and_who_is_in_the_way() {
    let held = LinkedPour {
        least: 15.0,
        ..pour(20.0)
    };
    let moved = move_linked(&[pour(40.0), held], 0, 60.0, Linking::Total);
    assert_eq!(moved.amounts, [Some(60.0), Some(15.0)]);
    assert_eq!((moved.off_ml, moved.held_back), (15.0, vec![1]));
}

#[test]
fn what_is_dashed_or_weighed_takes_no_part_in_the_total_and_all_in_the_ratio() {
    let dashed = LinkedPour {
        notch: 0.92,
        fills: false,
        ..pour(1.84)
    };
    let pours = [pour(40.0), pour(20.0), dashed];
    assert_eq!(amounts(&pours, 0, 50.0, Linking::Total), [50.0, 10.0, 1.84]);
    assert_eq!(amounts(&pours, 0, 80.0, Linking::Ratio), [80.0, 40.0, 3.68]);
}

#[test]
fn a_pour_of_nothing_has_no_ratio_and_moves_alone() {
    let moved = move_linked(&[pour(0.0), pour(20.0)], 0, 10.0, Linking::Ratio);
    assert_eq!(moved.amounts, [Some(10.0), Some(20.0)]);
    assert_eq!(moved.held_back, [0]);
}

#[test]
fn pours_moved_together_in_one_gesture_are_one_step() {
    let mut session = session();
    let was = session.document().clone();
    for ml in [45.0, 50.0, 55.0] {
        let edit = Edit::MoveTogether {
            trial: TRIAL,
            pour: 0,
            amount: Amount::Ml(ml),
            unit: Unit::Ml,
            others: vec![Change {
                pour: 1,
                from: 0.0,
                to: ml / 2.0,
            }],
        };
        session.edit(&edit).expect("they can be moved");
    }
    session.settle();
    let trial = session.trial().expect("it is shown");
    assert_eq!(trial.pours[0].amount, Amount::Ml(55.0));
    assert_eq!(trial.pours[1].amount.value(), Some(27.5));
    assert_eq!(session.history().past().count(), 1);
    session.undo();
    assert_eq!(*session.document(), was);
}
