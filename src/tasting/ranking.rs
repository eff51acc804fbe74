//! What a ranking found: rank sums, Friedman's test, and which samples differ.

use super::SIGNIFICANT;
use super::friedman::{chi_square_tail, exact_tail_of, statistic};
use super::mid_ranks::{mid_ranks, tie_sizes};
use super::student::normal_quantile;
use crate::model::{Taster, Tasting, TastingMethod};

/// Two samples and how far apart their rank sums lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RankPair {
    /// The one ranked better, by place in the tasting.
    pub better: usize,
    /// The one ranked worse.
    pub worse: usize,
    /// Difference of their rank sums, 0 or more.
    pub difference: f64,
    /// True when the whole test is significant and the difference is at least the least significant.
    pub differs: bool,
}

/// Rank sums and what they mean (ISO 8587).
#[derive(Clone, Debug, PartialEq)]
pub struct RankingResult {
    /// Ballots that count: every sample has a rank.
    pub ballots: usize,
    /// Ballots with some ranks, left out.
    pub incomplete: usize,
    /// Ballots without any rank.
    pub missing: usize,
    /// Sum of ranks of every sample, the smallest best; tied samples share the mean of their places.
    pub rank_sums: Vec<f64>,
    /// True when some ballot ties samples.
    pub ties: bool,
    /// Friedman's statistic, corrected for ties; 0 without ballots or when all are tied.
    pub statistic: f64,
    /// Probability of a statistic at least as large without any difference; 1 without ballots.
    pub p: f64,
    /// True when `p` comes from the exact distribution, otherwise from chi-square.
    pub exact: bool,
    /// Difference of rank sums from which two samples differ; infinite without ballots.
    pub least_difference: f64,
    /// Every pair of samples, the largest difference first.
    pub pairs: Vec<RankPair>,
}

impl RankingResult {
    /// True when chance alone explains so uneven sums in at most 5 of 100 tastings.
    pub fn significant(&self) -> bool {
        self.p <= SIGNIFICANT
    }

    /// Places of the samples from the best rank sum to the worst.
    pub fn from_the_best(&self) -> Vec<usize> {
        let mut places: Vec<usize> = (0..self.rank_sums.len()).collect();
        places.sort_by(|a, b| self.rank_sums[*a].total_cmp(&self.rank_sums[*b]));
        places
    }
}

/// Evaluates a ranking; `None` for other methods.
///
/// Whether pairs differ is only asked when the whole test is significant, at z·√(J·P·(P + 1)/6) with
/// J tasters and P samples: with ties that is too large rather than too small.
pub fn ranking_result(tasting: &Tasting) -> Option<RankingResult> {
    if tasting.method != TastingMethod::Ranking {
        return None;
    }
    let samples = tasting.samples.len();
    let ballots: Vec<Ballot> = tasting
        .tasters
        .iter()
        .map(|taster| ballot(taster, samples))
        .collect();
    let complete: Vec<Vec<f64>> = ballots
        .iter()
        .filter_map(Ballot::ranks)
        .map(|ranks| mid_ranks(ranks))
        .collect();
    let counted = complete.len();
    let sum = |sample: usize| complete.iter().map(|ranks| ranks[sample]).sum();
    let rank_sums: Vec<f64> = (0..samples).map(sum).collect();
    let (uncorrected, kept) = uncorrected(&complete, &rank_sums);
    let found = if kept > 0.0 { uncorrected / kept } else { 0.0 };
    let exact = exact_tail_of(&complete, uncorrected);
    let p = exact.unwrap_or_else(|| chi_square_tail(found, samples as f64 - 1.0));
    let least_difference = least_difference(samples, counted, SIGNIFICANT);
    Some(RankingResult {
        ballots: counted,
        incomplete: ballots
            .iter()
            .filter(|one| matches!(one, Ballot::Partly))
            .count(),
        missing: ballots
            .iter()
            .filter(|one| matches!(one, Ballot::Empty))
            .count(),
        ties: kept < 1.0 && counted > 0,
        statistic: found,
        p,
        exact: exact.is_some(),
        least_difference,
        pairs: pairs(&rank_sums, p <= SIGNIFICANT, least_difference),
        rank_sums,
    })
}

/// Difference of rank sums from which two samples differ at a level, with the normal deviate that is
/// exceeded on either side that often; infinite without ballots.
pub fn least_difference(samples: usize, ballots: usize, level: f64) -> f64 {
    if ballots == 0 {
        return f64::INFINITY;
    }
    let (samples, ballots) = (samples as f64, ballots as f64);
    normal_quantile(level) * (ballots * samples * (samples + 1.0) / 6.0).sqrt()
}

/// The statistic before it is corrected for ties, and the share of its largest value that ties leave,
/// 0 when everything is tied.
fn uncorrected(ballots: &[Vec<f64>], rank_sums: &[f64]) -> (f64, f64) {
    if ballots.is_empty() {
        return (0.0, 0.0);
    }
    let products = rank_sums.len() as f64;
    let whole = ballots.len() as f64 * (products.powi(3) - products);
    let tied: f64 = ballots.iter().map(|ranks| tie_loss(ranks)).sum();
    (statistic(rank_sums, ballots.len()), 1.0 - tied / whole)
}

/// Σ(t³ − t) over groups of tied samples.
fn tie_loss(ranks: &[f64]) -> f64 {
    let sizes = tie_sizes(ranks);
    sizes.iter().map(|size| (size.pow(3) - size) as f64).sum()
}

fn pairs(rank_sums: &[f64], significant: bool, least_difference: f64) -> Vec<RankPair> {
    let mut pairs = Vec::new();
    for first in 0..rank_sums.len() {
        for second in first + 1..rank_sums.len() {
            let difference = rank_sums[second] - rank_sums[first];
            let (better, worse) = if difference < 0.0 {
                (second, first)
            } else {
                (first, second)
            };
            let difference = difference.abs();
            pairs.push(RankPair {
                better,
                worse,
                difference,
                differs: significant && difference >= least_difference,
            });
        }
    }
    pairs.sort_by(|a, b| b.difference.total_cmp(&a.difference));
    pairs
}

/// Ranks of one taster by sample.
enum Ballot {
    Whole(Vec<f64>),
    Partly,
    Empty,
}

impl Ballot {
    const fn ranks(&self) -> Option<&Vec<f64>> {
        match self {
            Self::Whole(ranks) => Some(ranks),
            Self::Partly | Self::Empty => None,
        }
    }
}

fn ballot(taster: &Taster, samples: usize) -> Ballot {
    if taster.cups.iter().all(|cup| cup.rank.is_none()) {
        return Ballot::Empty;
    }
    let rank = |sample: usize| {
        let cup = taster.cups.iter().find(|cup| cup.sample == sample)?;
        cup.rank.map(f64::from)
    };
    let ranks: Option<Vec<f64>> = (0..samples).map(rank).collect();
    ranks.map_or(Ballot::Partly, Ballot::Whole)
}
