//! Paired preferences, triangle and duo-trio tests against tables and exact sums.

use super::reference::rows;
use super::tasting_kit::{answered, near, planned, right};
use equipour::model::{Choice, TastingMethod};
use equipour::tasting::{
    ChoiceTest, choice_result, choice_words, clopper_pearson, least_significant, tasters_needed,
    two_sided_probability, upper_tail,
};
use proptest::prelude::*;

/// P(X ≥ least) as a fraction of whole numbers, for a chance of 1/`one_in`.
fn exact_tail(least: u32, trials: u32, one_in: u128) -> (u128, u128) {
    let mut ways = 1_u128;
    let mut sum = 0;
    for count in 0..=trials {
        if count >= least {
            sum += ways * (one_in - 1).pow(trials - count);
        }
        ways = ways * u128::from(trials - count) / u128::from(count + 1);
    }
    (sum, one_in.pow(trials))
}

#[test]
fn binomial_tails_are_those_of_exact_fractions() {
    for one_in in [2_u128, 3] {
        for trials in 0..=40 {
            for least in 0..=trials + 1 {
                let (part, whole) = exact_tail(least, trials, one_in);
                let wanted = part as f64 / whole as f64;
                let found = upper_tail(least, trials, 1.0 / one_in as f64);
                assert!(
                    near(found, wanted, 1e-13 * wanted),
                    "{least} of {trials}, 1 in {one_in}: {found} {wanted}"
                );
            }
        }
    }
}

#[test]
fn the_ends_of_chance_are_certain() {
    assert_eq!(upper_tail(3, 5, 0.0), 0.0);
    assert_eq!(upper_tail(0, 5, 0.0), 1.0);
    assert_eq!(upper_tail(5, 5, 1.0), 1.0);
    assert_eq!(upper_tail(1, 0, 0.5), 0.0);
}

#[test]
fn critical_numbers_are_those_of_the_tables() {
    // ISO 4120, 10399, 5495 by exact binomial sums, and the published triangle table of FAO.
    let table = rows("sensory_tests.csv");
    assert_eq!(table.len(), 56);
    for row in &table {
        let trials = row.number("n") as u32;
        let check = |column: &str, chance: f64, level: f64| {
            let wanted = row.maybe(column).map(|count| count as u32);
            let found = least_significant(trials, chance, level);
            assert_eq!(found, wanted, "{column}, {trials} tasters");
        };
        for (column, level) in [("triangle_05", 0.05), ("triangle_01", 0.01)] {
            check(column, 1.0 / 3.0, level);
            if row.text("agrees_with_published") == "yes" {
                check(&format!("published_{column}"), 1.0 / 3.0, level);
            }
        }
        for (ending, level) in [("05", 0.05), ("01", 0.01)] {
            check(&format!("duo_trio_{ending}"), 0.5, level);
            check(&format!("paired_one_sided_{ending}"), 0.5, level);
            check(&format!("paired_two_sided_{ending}"), 0.5, level / 2.0);
        }
    }
}

#[test]
fn the_interval_of_a_share_meets_its_closed_forms() {
    // 0 of n: 1 − 0.025^(1/n); 1 of 2: both tails are quadratic.
    let none = clopper_pearson(0, 10, 0.95);
    assert!(none.low == 0.0 && near(none.high, 1.0 - 0.025_f64.powf(0.1), 1e-12));
    let all = clopper_pearson(10, 10, 0.95);
    assert!(all.high == 1.0 && near(all.low, 0.025_f64.powf(0.1), 1e-12));
    let half = clopper_pearson(1, 2, 0.95);
    assert!(near(half.low, 1.0 - 0.975_f64.sqrt(), 1e-12));
    assert!(near(half.high, 0.975_f64.sqrt(), 1e-12));
    let nobody = clopper_pearson(0, 0, 0.95);
    assert_eq!((nobody.low, nobody.high), (0.0, 1.0));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_interval_holds_the_true_share_at_least_as_often_as_it_says(
        trials in 1_u32..40,
        share in 0.0_f64..1.0,
    ) {
        let held: f64 = (0..=trials)
            .filter(|count| clopper_pearson(*count, trials, 0.95).hold(share))
            .map(|count| upper_tail(count, trials, share) - upper_tail(count + 1, trials, share))
            .sum();
        prop_assert!(held >= 0.95 - 1e-9, "{held}");
    }

    #[test]
    fn an_interval_lies_above_guessing_exactly_when_the_test_is_significant(
        tasters in 1_usize..60,
        share in 0.0_f64..1.0,
        third in any::<bool>(),
    ) {
        let method = if third { TastingMethod::Triangle } else { TastingMethod::DuoTrio };
        let right_ones = (share * tasters as f64).round() as usize;
        let made = answered(method, tasters, right_ones, tasters - right_ones);
        let found = choice_result(&made).expect("a test");
        let low = found.share.expect("answers").low;
        prop_assert_eq!(found.significant(), low >= found.test.chance());
        prop_assert_eq!(found.significant(), found.p <= 0.05);
    }

    #[test]
    fn tasters_needed_are_the_first_from_which_power_stays(
        third in any::<bool>(),
        more in 0.15_f64..0.45,
    ) {
        let chance = if third { 1.0 / 3.0 } else { 0.5 };
        let share = chance + more;
        let needed = tasters_needed(chance, share, 0.05, 0.8).expect("a large difference");
        // By terms from factorials, independent of the sums of the program.
        let factorials = factorials();
        let term = |k: u32, n: u32, p: f64| {
            let ways = factorials[n as usize] - factorials[k as usize] - factorials[(n - k) as usize];
            (ways + f64::from(k) * p.ln() + f64::from(n - k) * (1.0 - p).ln()).exp()
        };
        let strong = |trials: u32| {
            let tail = |least: u32, p: f64| (least..=trials).map(|k| term(k, trials, p)).sum::<f64>();
            let least = (0..=trials).find(|k| tail(*k, chance) <= 0.05);
            least.is_some_and(|least| tail(least, share) >= 0.8)
        };
        prop_assert!(!strong(needed - 1));
        for trials in needed..needed + 40 {
            prop_assert!(strong(trials), "{trials} after {needed}");
        }
    }
}

/// ln(n!) up to 300.
fn factorials() -> Vec<f64> {
    let mut found = vec![0.0];
    for number in 1..=300 {
        found.push(found[number - 1] + (number as f64).ln());
    }
    found
}

#[test]
fn nothing_to_see_needs_no_panel() {
    assert_eq!(tasters_needed(0.5, 0.5, 0.025, 0.8), None);
    assert_eq!(tasters_needed(0.5, f64::NAN, 0.025, 0.8), None);
    assert_eq!(tasters_needed(0.5, 0.501, 0.025, 0.8), None);
}

#[test]
fn a_triangle_of_twelve_needs_eight_and_one_of_six_needs_five() {
    for (tasters, needed) in [(12, 8), (6, 5)] {
        let enough = answered(TastingMethod::Triangle, tasters, needed, tasters - needed);
        let found = choice_result(&enough).expect("a triangle");
        assert_eq!(found.needed, Some(needed as u32));
        assert!(found.significant() && found.p <= 0.05);
        let short = answered(
            TastingMethod::Triangle,
            tasters,
            needed - 1,
            tasters + 1 - needed,
        );
        let found = choice_result(&short).expect("a triangle");
        assert!(!found.significant() && found.p > 0.05);
    }
}

#[test]
fn finding_no_difference_counts_as_not_right_and_missing_is_left_out() {
    let mut made = answered(TastingMethod::DuoTrio, 10, 6, 1);
    made.tasters[7].choice = Some(Choice::Neither);
    let found = choice_result(&made).expect("a duo-trio test");
    assert_eq!(found.test, ChoiceTest::DuoTrio);
    assert_eq!((found.count, found.answers), (6, 8));
    assert_eq!((found.neither, found.missing), (1, 2));
    // (1 + 8 + 28) / 256, by hand.
    assert!(near(found.p, 37.0 / 256.0, 1e-15));
    let (told, bounds) = found.discriminators.expect("answers");
    assert!(near(told, 0.5, 1e-15) && bounds.low == 0.0 && bounds.hold(told));
}

#[test]
fn a_duo_trio_answer_is_right_when_its_cup_holds_the_reference() {
    let mut made = planned(TastingMethod::DuoTrio, 2, 1);
    let same = right(&made.tasters[0]);
    made.tasters[0].choice = Some(Choice::Cup(same));
    assert_eq!(choice_result(&made).expect("a test").count, 1);
    made.tasters[0].choice = Some(Choice::Cup(1 - same));
    assert_eq!(choice_result(&made).expect("a test").count, 0);
    made.tasters[0].reference = None;
    assert_eq!(choice_result(&made).expect("a test").missing, 1);
}

fn preferring(first: usize, second: usize, neither: usize, missing: usize) -> Vec<String> {
    let mut made = planned(
        TastingMethod::Preference,
        2,
        first + second + neither + missing,
    );
    for (place, taster) in made.tasters.iter_mut().enumerate() {
        let of = |sample: usize| taster.cups.iter().position(|cup| cup.sample == sample);
        taster.choice = if place < first {
            of(0).map(Choice::Cup)
        } else if place < first + second {
            of(1).map(Choice::Cup)
        } else {
            (place < first + second + neither).then_some(Choice::Neither)
        };
    }
    let found = choice_result(&made).expect("a preference");
    assert_eq!(found.p, two_sided_probability(found.count, found.answers));
    choice_words(&found, &["A".to_owned(), "B".to_owned()])
}

#[test]
fn words_never_claim_more_than_the_numbers() {
    // 2·(1 + 10 + 45 + 120 + 210)/1024 = 0.754, by hand.
    let said = preferring(4, 6, 0, 0);
    let wanted = "6 of 10 prefer B: that is no evidence of a preference (p = 0.75); 9 of 10 would have been.";
    assert_eq!(said[0], wanted);
    assert!(
        said[2].starts_with("If the true share were 60 %, "),
        "{said:?}"
    );
    // 2·(1 + 10)/1024 = 0.021, by hand.
    let said = preferring(9, 1, 0, 0);
    let wanted =
        "9 of 10 prefer A: that is evidence of a preference (p = 0.021); few answers, a hint only.";
    assert_eq!(said[0], wanted);
    let said = preferring(3, 0, 2, 1);
    let wanted = "3 of 3 prefer A: that is no evidence of a preference (p = 0.25); so few answers could not be, however they fall.";
    assert_eq!(said[0], wanted);
    assert!(said.contains(&"2 tasters without a preference left out.".to_owned()));
    assert!(said.contains(&"1 taster without an answer left out.".to_owned()));
    let said = preferring(5, 5, 0, 0);
    assert!(said[0].contains("(p = 1.00)"), "{said:?}");
}

#[test]
fn without_tasters_nothing_is_claimed() {
    for method in [
        TastingMethod::Preference,
        TastingMethod::Triangle,
        TastingMethod::DuoTrio,
    ] {
        let found = choice_result(&planned(method, 2, 0)).expect("a choice");
        assert_eq!((found.answers, found.p, found.share), (0, 1.0, None));
        assert!(!found.significant());
        assert_eq!(choice_words(&found, &[]), ["Nobody has answered yet."]);
    }
    assert_eq!(choice_result(&planned(TastingMethod::Ranking, 3, 2)), None);
}
