//! Friedman's statistic: its exact null distribution for small panels, chi-square for the others.

use statrs::function::gamma::gamma_ur;
use std::collections::BTreeMap;

/// Sums within this of each other are the same: they are whole numbers in quarters.
const SAME: f64 = 1e-6;

/// Most tasters for which the null is worked out, by number of products.
const fn most_tasters(products: usize) -> usize {
    match products {
        2 => 200,
        3 => 15,
        4 => 8,
        _ => 0,
    }
}

/// The statistic of rank sums without ties: 12·Σ(R − mean)²/(J·P·(P + 1)).
pub(super) fn statistic(rank_sums: &[f64], tasters: usize) -> f64 {
    let products = rank_sums.len() as f64;
    12.0 * squares(rank_sums, tasters) / (tasters as f64 * products * (products + 1.0))
}

/// Sum of squares of rank sums about their mean.
fn squares(rank_sums: &[f64], tasters: usize) -> f64 {
    let mean = tasters as f64 * (rank_sums.len() as f64 + 1.0) / 2.0;
    rank_sums.iter().map(|sum| (sum - mean).powi(2)).sum()
}

/// The statistic's values without any difference between products, with their probabilities, from
/// the smallest: every taster's ranks, given in halves, stand in any order alike.
///
/// `None` beyond what is worked out (2 products and 200 tasters, 3 and 15, 4 and 8).
fn null(ballots: &[Vec<u16>]) -> Option<Vec<(f64, f64)>> {
    let (tasters, products) = (ballots.len(), ballots.first()?.len());
    if tasters > most_tasters(products) {
        return None;
    }
    let orders = permutations(products);
    let share = 1.0 / orders.len() as f64;
    // Which product has which sum does not matter, so sums are kept sorted.
    let mut sums: BTreeMap<Vec<u16>, f64> = BTreeMap::from([(vec![0; products], 1.0)]);
    for ballot in ballots {
        let mut next = BTreeMap::new();
        for (before, probability) in &sums {
            for order in &orders {
                let rank = |(sum, place): (&u16, &usize)| sum + ballot[*place];
                let mut after: Vec<u16> = before.iter().zip(order).map(rank).collect();
                after.sort_unstable();
                *next.entry(after).or_insert(0.0) += probability * share;
            }
        }
        sums = next;
    }
    let value = |(halves, probability): (Vec<u16>, f64)| {
        let sums: Vec<f64> = halves.into_iter().map(|sum| f64::from(sum) / 2.0).collect();
        (statistic(&sums, tasters), probability)
    };
    let mut values: Vec<(f64, f64)> = sums.into_iter().map(value).collect();
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    Some(values)
}

/// Ballots without ties, in halves of ranks.
fn untied(products: usize, tasters: usize) -> Vec<Vec<u16>> {
    let small = |rank: usize| u16::try_from(2 * rank).unwrap_or(u16::MAX);
    vec![(1..=products).map(small).collect(); tasters]
}

/// Every order of the places 0 to below `products`.
fn permutations(products: usize) -> Vec<Vec<usize>> {
    let mut orders = vec![Vec::new()];
    for last in 0..products {
        let longer = |order: &Vec<usize>| -> Vec<Vec<usize>> {
            let insert = |place: usize| {
                let mut order = order.clone();
                order.insert(place, last);
                order
            };
            (0..=order.len()).map(insert).collect()
        };
        orders = orders.iter().flat_map(longer).collect();
    }
    orders
}

/// Exact probability of a statistic (not corrected for ties) at least as large, from the mid-ranks of
/// every taster; `None` beyond 2 products and 200 tasters, 3 and 15, or 4 and 8.
pub(super) fn exact_tail_of(ballots: &[Vec<f64>], found: f64) -> Option<f64> {
    let halves = |ballot: &Vec<f64>| ballot.iter().map(|rank| (2.0 * rank) as u16).collect();
    let ballots: Vec<Vec<u16>> = ballots.iter().map(halves).collect();
    Some(tail(&null(&ballots)?, found))
}

/// Sum of the probabilities of values at least as large, of those of all.
fn tail(values: &[(f64, f64)], found: f64) -> f64 {
    let (mut larger, mut all) = (0.0, 0.0);
    for (value, probability) in values.iter().rev() {
        all += probability;
        if *value > found - SAME {
            larger = all;
        }
    }
    larger / all
}

/// Exact probability of a statistic at least as large without ties, by adding one taster's orders
/// after the other; `None` beyond 2 products and 200 tasters, 3 and 15, or 4 and 8.
pub fn exact_tail(products: usize, tasters: usize, found: f64) -> Option<f64> {
    Some(tail(&null(&untied(products, tasters))?, found))
}

/// The smallest value the statistic can take whose exact probability is at most `level`; `None` when
/// there is none or it is not worked out.
pub fn exact_critical(products: usize, tasters: usize, level: f64) -> Option<f64> {
    let values = null(&untied(products, tasters))?;
    let mut critical = None;
    let mut tail = 0.0;
    for group in values.chunk_by(|a, b| b.0 - a.0 < SAME).rev() {
        tail += group
            .iter()
            .map(|(_, probability)| probability)
            .sum::<f64>();
        // Sums of many sixths and twenty-fourths: leave room for their rounding.
        if tail > level * (1.0 + 1e-9) {
            break;
        }
        critical = group.first().map(|(value, _)| *value);
    }
    critical
}

/// Probability of at least `value` under chi-square with `freedom` degrees of freedom, above 0.
pub fn chi_square_tail(value: f64, freedom: f64) -> f64 {
    if value <= 0.0 {
        return 1.0;
    }
    gamma_ur(0.5 * freedom, 0.5 * value)
}
