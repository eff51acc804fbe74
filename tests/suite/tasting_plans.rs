//! Serving plans: balance by counting, codes, late comers.

use super::tasting_kit::{names, planned, tasting};
use equipour::model::{Attribute, Document, Taster, TastingMethod, check};
use equipour::tasting::{PlanError, more_tasters, plan, quick_form};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

fn order(taster: &Taster) -> Vec<usize> {
    taster.cups.iter().map(|cup| cup.sample).collect()
}

/// Rows of a full block.
fn block(samples: usize) -> usize {
    match samples {
        1 => 1,
        even if even % 2 == 0 => even,
        odd => 2 * odd,
    }
}

/// Every sample as often in every place, and every one as often after every other.
fn assert_balanced(tasters: &[Taster], samples: usize) {
    let mut places = vec![vec![0; samples]; samples];
    let mut follows = vec![vec![0; samples]; samples];
    for taster in tasters {
        let order = order(taster);
        for (place, sample) in order.iter().enumerate() {
            places[place][*sample] += 1;
        }
        for pair in order.windows(2) {
            follows[pair[0]][pair[1]] += 1;
        }
    }
    let each = tasters.len() / samples;
    assert!(
        places.iter().flatten().all(|count| *count == each),
        "{places:?}"
    );
    if samples > 1 {
        let each = tasters.len() / samples;
        for (first, row) in follows.iter().enumerate() {
            for (second, count) in row.iter().enumerate() {
                let wanted = if first == second { 0 } else { each };
                assert_eq!(*count, wanted, "{second} after {first}: {follows:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_full_block_is_balanced_for_place_and_for_what_went_before(
        samples in 1_usize..=12,
        seed in any::<u64>(),
        blocks in 1_usize..4,
    ) {
        let method = TastingMethod::JustRight { attributes: vec![Attribute::Sweet] };
        let tasters = plan(&method, samples, &names(blocks * block(samples)), seed).expect("a plan");
        for part in tasters.chunks(block(samples)) {
            assert_balanced(part, samples);
        }
    }

    #[test]
    fn late_comers_complete_the_block_that_was_begun(
        samples in 2_usize..=12,
        seed in any::<u64>(),
        first in 1_usize..20,
    ) {
        let mut made = tasting(TastingMethod::Ranking, samples);
        made.seed = seed;
        let all = names(first.next_multiple_of(block(samples)));
        made.tasters = plan(&made.method, samples, &all[..first], seed).expect("a plan");
        if first < all.len() {
            let late = more_tasters(&made, &all[first..]).expect("they are new");
            made.tasters.extend(late);
        }
        assert_balanced(&made.tasters, samples);
        assert_codes_part_samples(&made.tasters);
    }

    #[test]
    fn someone_new_gets_the_order_of_someone_taken_out(seed in any::<u64>(), gone in 0_usize..6) {
        let mut made = tasting(TastingMethod::Triangle, 2);
        made.seed = seed;
        made.tasters = plan(&made.method, 2, &names(6), seed).expect("a plan");
        let out = made.tasters.remove(gone);
        let late = more_tasters(&made, &["Late".to_owned()]).expect("a plan");
        prop_assert_eq!(order(&late[0]), order(&out));
    }
}

/// One code never stands for two samples, and no set holds a code twice.
fn assert_codes_part_samples(tasters: &[Taster]) {
    let mut meant: BTreeMap<u16, usize> = BTreeMap::new();
    for taster in tasters {
        let codes: BTreeSet<u16> = taster.cups.iter().map(|cup| cup.code).collect();
        assert_eq!(codes.len(), taster.cups.len(), "{taster:?}");
        for cup in &taster.cups {
            assert!((100..=999).contains(&cup.code));
            assert_eq!(*meant.entry(cup.code).or_insert(cup.sample), cup.sample);
        }
    }
}

#[test]
fn two_hundred_tasters_of_twelve_samples_share_twelve_codes() {
    let made = planned(TastingMethod::Ranking, 12, 200);
    assert_codes_part_samples(&made.tasters);
    let cups = made.tasters.iter().flat_map(|taster| &taster.cups);
    let codes: BTreeSet<u16> = cups.map(|cup| cup.code).collect();
    assert_eq!(codes.len(), 12);
}

#[test]
fn sets_of_two_hundred_tasters_never_share_a_code_wrongly() {
    for method in [TastingMethod::Triangle, TastingMethod::DuoTrio] {
        let made = planned(method, 2, 200);
        assert_codes_part_samples(&made.tasters);
    }
}

#[test]
fn the_six_sets_of_a_triangle_come_once_in_every_six() {
    let made = planned(TastingMethod::Triangle, 2, 60);
    for six in made.tasters.chunks(6) {
        let sets: BTreeSet<Vec<usize>> = six.iter().map(order).collect();
        assert_eq!(sets.len(), 6);
        assert!(
            sets.iter()
                .all(|set| (1..=2).contains(&set.iter().sum::<usize>()))
        );
        assert!(six.iter().all(|taster| taster.reference.is_none()));
    }
}

#[test]
fn either_sample_is_the_reference_once_in_two_and_every_set_once_in_four() {
    let made = planned(TastingMethod::DuoTrio, 2, 40);
    for two in made.tasters.chunks(2) {
        assert_ne!(two[0].reference, two[1].reference);
    }
    for four in made.tasters.chunks(4) {
        let sets: BTreeSet<_> = four.iter().map(|one| (one.reference, order(one))).collect();
        assert_eq!(sets.len(), 4);
    }
}

#[test]
fn in_a_preference_every_two_tasters_get_both_orders() {
    let made = planned(TastingMethod::Preference, 2, 40);
    for two in made.tasters.chunks(2) {
        assert_ne!(order(&two[0]), order(&two[1]));
    }
}

#[test]
fn a_plan_is_what_a_document_accepts() {
    for (method, samples) in [
        (quick_form(), 12),
        (TastingMethod::Preference, 2),
        (TastingMethod::Triangle, 2),
        (TastingMethod::DuoTrio, 2),
        (TastingMethod::Ranking, 5),
    ] {
        let made = planned(method, samples, 200);
        let mut document = Document {
            next_number: 30,
            ..Document::default()
        };
        Arc::make_mut(&mut document.tastings).insert(made.id, Arc::new(made));
        assert_eq!(check(&document).map_err(|error| error.to_string()), Ok(()));
    }
}

#[test]
fn one_seed_is_one_plan_and_another_seed_another() {
    let draw = |seed| plan(&quick_form(), 5, &names(20), seed).expect("a plan");
    assert_eq!(draw(3), draw(3));
    assert_ne!(draw(3), draw(4));
}

#[test]
fn a_late_comer_changes_no_ballot_and_keeps_the_codes() {
    let made = planned(quick_form(), 4, 5);
    let late = more_tasters(&made, &["Zoe".to_owned()]).expect("a plan");
    assert_eq!(late.len(), 1);
    let code = |taster: &Taster| -> BTreeMap<usize, u16> {
        taster
            .cups
            .iter()
            .map(|cup| (cup.sample, cup.code))
            .collect()
    };
    assert_eq!(code(&late[0]), code(&made.tasters[0]));
}

#[test]
fn codes_changed_by_hand_are_kept_and_never_given_to_another_sample() {
    let mut made = planned(TastingMethod::Ranking, 3, 6);
    for taster in &mut made.tasters {
        for cup in &mut taster.cups {
            cup.code = 200 + u16::try_from(cup.sample).expect("small");
        }
    }
    let late = more_tasters(&made, &names(20)[6..]).expect("a plan");
    made.tasters.extend(late);
    assert_codes_part_samples(&made.tasters);
    let cups = made.tasters.iter().flat_map(|taster| &taster.cups);
    assert!(
        cups.into_iter()
            .all(|cup| cup.code == 200 + cup.sample as u16)
    );
}

#[test]
fn codes_that_changed_their_sample_are_not_given_to_the_other_again() {
    for seed in 0..40 {
        let mut made = tasting(TastingMethod::Triangle, 2);
        made.seed = seed;
        made.tasters = plan(&made.method, 2, &names(2), seed).expect("a plan");
        for cup in made.tasters.iter_mut().flat_map(|taster| &mut taster.cups) {
            cup.sample = 1 - cup.sample;
        }
        let late = more_tasters(&made, &names(30)[2..]).expect("a plan");
        made.tasters.extend(late);
        assert_codes_part_samples(&made.tasters);
    }
}

#[test]
fn a_name_that_is_there_is_refused_whatever_its_capitals() {
    let mut made = planned(quick_form(), 2, 2);
    let again = [" taster 2 ".to_owned()];
    let refused = more_tasters(&made, &again).expect_err("it is there");
    assert_eq!(
        refused.to_string(),
        "tasters: taster 2 has a ballot already"
    );
    let twice = ["Ada".to_owned(), "ADA".to_owned()];
    let refused = plan(&made.method, 2, &twice, 1).expect_err("twice");
    assert_eq!(
        refused,
        PlanError::TwoBallots {
            name: "ADA".to_owned()
        }
    );
    let nameless = ["Ada".to_owned(), "  ".to_owned()];
    let refused = plan(&made.method, 2, &nameless, 1).expect_err("no name");
    assert_eq!(refused.to_string(), "tasters: number 2 has no name");
    assert_eq!(plan(&made.method, 2, &[], 1), Err(PlanError::NoTasters));
    let refused = plan(&TastingMethod::Triangle, 3, &twice, 1).expect_err("three");
    assert_eq!(
        refused.to_string(),
        "samples: this method takes 2 to 2, not 3"
    );
    made.closed = true;
    assert_eq!(
        more_tasters(&made, &["Zoe".to_owned()]),
        Err(PlanError::Closed)
    );
}
