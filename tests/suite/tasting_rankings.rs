//! Rankings against published tables, a published example and formulas of another shape.

use super::reference::rows;
use super::tasting_kit::{near, planned, ranked};
use equipour::model::TastingMethod;
use equipour::tasting::{
    chi_square_tail, exact_critical, exact_tail, least_difference, ranking_result, ranking_words,
};

#[test]
fn critical_values_are_those_of_the_tables() {
    let table = rows("sensory_friedman.csv");
    assert_eq!(table.len(), 80);
    for row in &table {
        let products = row.number("products") as usize;
        let tasters = row.number("assessors") as usize;
        for (ending, level) in [("05", 0.05), ("01", 0.01)] {
            let what = format!("{products} products, {tasters} tasters, {ending}");
            let freedom = products as f64 - 1.0;
            // The exact value lies within half of the last place given.
            let given = row.number(&format!("chi2_{ending}"));
            let [below, above] = [given - 5.1e-4, given + 5.1e-4];
            let tails = [below, above].map(|chi| chi_square_tail(chi, freedom));
            assert!(tails[0] > level && level > tails[1], "{what}: {tails:?}");
            // The table takes z as 1.96 and 2.576, which are off by 7 in 100 000 at most.
            let least = least_difference(products, tasters, level);
            let given = row.number(&format!("lsrd_{ending}"));
            assert!(
                near(least, given, 5.1e-3 + 7e-5 * given),
                "{what}: {least} {given}"
            );
            let worked_out = (products == 3 && tasters <= 15) || (products == 4 && tasters <= 8);
            let found = exact_critical(products, tasters, level);
            let given = row.maybe(&format!("exact_{ending}"));
            match (found, given) {
                (Some(found), Some(given)) => {
                    assert!(
                        worked_out && near(found, given, 1e-6),
                        "{what}: {found} {given}"
                    );
                }
                (None, None) => {}
                other => panic!("{what}: {other:?}"),
            }
        }
    }
}

#[test]
fn two_degrees_of_freedom_fall_as_an_exponential() {
    // Closed form: exp(−x/2).
    for value in [0.0_f64, 0.3, 2.0, 5.991, 30.0] {
        assert!(near(
            chi_square_tail(value, 2.0),
            (-value / 2.0).exp(),
            1e-13
        ));
    }
}

#[test]
fn two_tasters_who_agree_on_three_are_a_chance_of_one_in_six() {
    // Worked by hand: the second taster has six orders, one of them the same.
    let tail = exact_tail(3, 2, 4.0).expect("worked out");
    assert!(near(tail, 1.0 / 6.0, 1e-14));
    assert_eq!(exact_tail(3, 16, 4.0), None);
    assert_eq!(exact_tail(5, 3, 4.0), None);
}

#[test]
fn two_samples_are_a_sign_test() {
    // 9 of 10 rank one first: 2·(1 + 10)/1024, by hand.
    let rows: Vec<&[u8]> = (0..10)
        .map(|place| if place == 0 { &[2, 1][..] } else { &[1, 2] })
        .collect();
    let found = ranking_result(&ranked(&rows)).expect("a ranking");
    assert!(found.exact && near(found.p, 22.0 / 1024.0, 1e-14));
}

/// Ballots made up so that they give the published rank sums.
const PUBLISHED: [&[u8]; 8] = [
    &[1, 4, 5, 2, 3],
    &[3, 4, 2, 5, 1],
    &[1, 4, 5, 3, 2],
    &[3, 5, 4, 1, 2],
    &[2, 1, 5, 4, 3],
    &[1, 5, 3, 2, 4],
    &[4, 5, 3, 2, 1],
    &[2, 3, 5, 4, 1],
];

#[test]
fn the_published_example_gives_its_statistic_and_its_least_difference() {
    // Rank sums 17 31 32 23 17: F = 10.6, least significant difference 12.40 (see the table's head).
    let found = ranking_result(&ranked(&PUBLISHED)).expect("a ranking");
    assert_eq!(found.rank_sums, [17.0, 31.0, 32.0, 23.0, 17.0]);
    assert!(near(found.statistic, 10.6, 1e-12));
    assert!(near(found.least_difference, 12.40, 5e-3));
    assert!(found.significant() && !found.exact && !found.ties);
    let differ = found.pairs.iter().filter(|pair| pair.differs);
    let mut differ: Vec<(usize, usize)> = differ.map(|pair| (pair.better, pair.worse)).collect();
    differ.sort_unstable();
    assert_eq!(differ, [(0, 1), (0, 2), (4, 1), (4, 2)]);
    let said = ranking_words(&found, &["A", "B", "C", "D", "E"].map(str::to_owned)).join(" ");
    assert!(
        said.contains("A before B") && said.contains("other pairs are not told apart"),
        "{said}"
    );
}

#[test]
fn ties_are_corrected_as_an_analysis_of_ranks_is() {
    let rows: [&[u8]; 5] = [&[1, 1, 3], &[1, 2, 2], &[1, 2, 3], &[2, 1, 3], &[1, 1, 1]];
    // Mid-ranks, by hand.
    let ranks = [
        [1.5, 1.5, 3.0],
        [1.0, 2.5, 2.5],
        [1.0, 2.0, 3.0],
        [2.0, 1.0, 3.0],
        [2.0, 2.0, 2.0],
    ];
    let sums: Vec<f64> = (0..3)
        .map(|one| ranks.iter().map(|row| row[one]).sum())
        .collect();
    let between: f64 = sums.iter().map(|sum| (sum - 10.0_f64).powi(2)).sum();
    let all: f64 = ranks
        .iter()
        .flatten()
        .map(|rank| (rank - 2.0_f64).powi(2))
        .sum();
    let wanted = 2.0 * between / all;
    let found = ranking_result(&ranked(&rows)).expect("a ranking");
    assert_eq!(found.rank_sums, sums);
    assert!(found.ties && found.exact);
    assert!(
        near(found.statistic, wanted, 1e-12),
        "{} {wanted}",
        found.statistic
    );
    // All 6⁵ ways in which the five could have put their ranks.
    let orders = [
        [0, 1, 2],
        [0, 2, 1],
        [1, 0, 2],
        [1, 2, 0],
        [2, 0, 1],
        [2, 1, 0],
    ];
    let mut as_far = 0;
    for way in 0..6_usize.pow(5) {
        let mut sums = [0.0_f64; 3];
        for (taster, ranks) in ranks.iter().enumerate() {
            let order = orders[way / 6_usize.pow(u32::try_from(taster).expect("few")) % 6];
            for (sum, place) in sums.iter_mut().zip(order) {
                *sum += ranks[place];
            }
        }
        let apart: f64 = sums.iter().map(|sum| (sum - 10.0).powi(2)).sum();
        as_far += u32::from(apart >= between - 1e-9);
    }
    assert!(
        near(found.p, f64::from(as_far) / 7776.0, 1e-12),
        "{} {as_far}",
        found.p
    );
}

#[test]
fn five_samples_with_ties_are_judged_by_chi_square() {
    let found = ranking_result(&ranked(&[&[1, 1, 3, 4, 5], &[1, 2, 3, 4, 5]])).expect("a ranking");
    assert!(found.ties && !found.exact);
    assert_eq!(found.p, chi_square_tail(found.statistic, 4.0));
}

#[test]
fn tied_ranks_mean_the_same_however_the_next_number_goes_on() {
    let skipping = ranking_result(&ranked(&[&[1, 1, 3], &[2, 1, 3]]));
    let going_on = ranking_result(&ranked(&[&[1, 1, 2], &[2, 1, 3]]));
    assert_eq!(skipping, going_on);
}

#[test]
fn incomplete_ballots_are_left_out_and_counted() {
    let rows: [&[u8]; 4] = [&[1, 2, 3], &[1, 0, 2], &[0, 0, 0], &[1, 3, 2]];
    let found = ranking_result(&ranked(&rows)).expect("a ranking");
    assert_eq!((found.ballots, found.incomplete, found.missing), (2, 1, 1));
    assert_eq!(found.rank_sums, [2.0, 5.0, 5.0]);
}

#[test]
fn no_pair_differs_when_the_whole_test_is_not_significant() {
    // Rank sums 17 24 24 24 31: two lie 14 apart, above 12.40, but F = 12·98/240 = 4.9 is below 9.49.
    let rows: [&[u8]; 8] = [
        &[1, 5, 4, 3, 2],
        &[4, 1, 2, 3, 5],
        &[2, 4, 3, 5, 1],
        &[2, 5, 3, 1, 4],
        &[2, 1, 3, 4, 5],
        &[1, 3, 2, 4, 5],
        &[4, 3, 2, 1, 5],
        &[1, 2, 5, 3, 4],
    ];
    let found = ranking_result(&ranked(&rows)).expect("a ranking");
    assert!(found.pairs[0].difference > found.least_difference);
    assert!(!found.significant() && found.pairs.iter().all(|pair| !pair.differs));
    let said = ranking_words(&found, &[]).join(" ");
    assert!(said.contains("no evidence of any difference"), "{said}");
}

#[test]
fn without_ballots_or_with_all_tied_nothing_is_claimed() {
    let none = ranking_result(&planned(TastingMethod::Ranking, 4, 0)).expect("a ranking");
    assert_eq!((none.ballots, none.p, none.statistic), (0, 1.0, 0.0));
    assert!(!none.significant() && none.least_difference.is_infinite());
    assert_eq!(ranking_words(&none, &[]), ["No complete ballot yet."]);
    let tied = ranking_result(&ranked(&[&[1, 1, 1], &[1, 1, 1]])).expect("a ranking");
    assert_eq!((tied.p, tied.statistic), (1.0, 0.0));
}
