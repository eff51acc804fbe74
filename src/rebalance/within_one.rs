//! Proposals that land within one noticeable difference and are the best of their kind there.

use super::continuous::NOTICEABLE;
use super::proposal::Kind;
use super::propose::{Search, TIE, settings};
use crate::solver::{GridProblem, GridProblemError, GridSolution, search_fewest};

/// The most robust answer is shown where it expects at most this share of the nearest's squared
/// distance (our convention, no source).
const WORTH_SHOWING: f64 = 0.97;
/// Cheaper is cheaper by this share of what is known of the cost (our convention, no source).
const WORTH_SAVING: f64 = 0.05;

/// Beyond this factor a pour makes another drink (our convention, no source).
const ANOTHER: f64 = 3.0;

/// Room for the rounding of a quotient.
const HAIR: f64 = 1.0e-9;

impl Search<'_> {
    /// The best point of a kind that lies within one noticeable difference of the target.
    pub(super) fn within_one(
        &self,
        kind: Kind,
        nearest: &GridSolution,
    ) -> Result<Option<GridSolution>, GridProblemError> {
        let (strain, effort) = (&self.field.strain, &self.field.effort);
        let reach = Some(NOTICEABLE * NOTICEABLE);
        let problem = match kind {
            Kind::SmallestChange | Kind::FewestPours if self.distance_now > NOTICEABLE => {
                self.field.problem(TIE, reach, |i, place| {
                    strain[i][place] + TIE * effort[i][place]
                })
            }
            Kind::MostRobust if self.field.has_size() && self.is_worth_pouring(nearest) => {
                return self.most_robust(nearest);
            }
            Kind::EasiestToMeasure if self.question.unknowns.iter().any(|u| u.by_jigger) => {
                self.field.problem(TIE, reach, |i, place| {
                    effort[i][place] + TIE * strain[i][place]
                })
            }
            Kind::Cheapest if self.field.has_size() => {
                let Some((scale, prices)) = self.prices() else {
                    return Ok(None);
                };
                self.field.problem(TIE * scale, reach, move |i, place| {
                    prices[i] * self.field.values[i][place] + TIE * scale * strain[i][place]
                })
            }
            _ => return Ok(None),
        };
        if kind == Kind::EasiestToMeasure {
            let easy = self.same_drink(&problem, |i, place| self.field.effort[i][place] < 1.0);
            let found = self.solve(&easy.0, Some(nearest))?;
            if found.best.is_some() {
                // One filling each: no other amounts are easier.
                return Ok(Some(found));
            }
        }
        let (problem, present) = self.same_drink(&problem, |_, _| true);
        if kind == Kind::FewestPours {
            let settings = settings();
            let (_, found) = search_fewest(&problem, &present, &self.smooth, &settings)?;
            return Ok(Some(found));
        }
        let found = self.solve(&problem, Some(nearest))?;
        let worth = kind != Kind::Cheapest || self.is_worth_saving(&found);
        Ok(worth.then_some(found))
    }

    /// The question without amounts that make another drink, and where the present ones then stand.
    ///
    /// A pour left out, or less than a third or more than three times of it, lands near by being
    /// another drink, and nobody who asked for this one pours it.
    fn same_drink<'a>(
        &self,
        problem: &GridProblem<'a>,
        wanted: impl Fn(usize, usize) -> bool,
    ) -> (GridProblem<'a>, Vec<usize>) {
        let mut same = problem.clone();
        let mut present = Vec::with_capacity(problem.len());
        for (i, unknown) in self.question.unknowns.iter().enumerate() {
            let now = unknown.present;
            let (third, thrice) = (now / ANOTHER * (1.0 - HAIR), now * ANOTHER * (1.0 + HAIR));
            let keeps = |x: f64| now <= 0.0 || x >= third && x <= thrice;
            let stays = |place: usize| place == self.field.present[i];
            let places = 0..problem.values[i].len();
            let kept: Vec<usize> = places
                .filter(|&place| {
                    stays(place) || keeps(problem.values[i][place]) && wanted(i, place)
                })
                .collect();
            let at = kept.iter().position(|&place| stays(place));
            present.push(at.unwrap_or(0));
            let pick = |list: &[f64]| kept.iter().map(|&place| list[place]).collect();
            (same.values[i], same.costs[i]) = (pick(&problem.values[i]), pick(&problem.costs[i]));
        }
        (same, present)
    }

    /// Whether a point is cheaper by more than a trifle.
    fn is_worth_saving(&self, found: &GridSolution) -> bool {
        let (Some((scale, prices)), Some(best)) = (self.prices(), &found.best) else {
            return false;
        };
        let pairs = prices
            .iter()
            .zip(self.question.unknowns.iter().zip(&best.x));
        let saved: f64 = pairs.map(|(price, (u, x))| price * (u.present - x)).sum();
        saved > WORTH_SAVING * 100.0 * scale
    }

    /// The least distance to be expected: D and the variance of the balance, to second order about
    /// the volume of the nearest answer. `None` where it gains too little to be worth showing.
    fn most_robust(
        &self,
        nearest: &GridSolution,
    ) -> Result<Option<GridSolution>, GridProblemError> {
        let errors = &self.question.errors;
        let known = nearest
            .best
            .as_ref()
            .and_then(|best| self.blend.served(&best.x));
        let Some(served) = known.filter(|_| !errors.is_empty()) else {
            return Ok(None);
        };
        let per_ml2 = 1.0 / (served.volume_ml * served.volume_ml);
        let values = &self.field.values;
        let spread = |i: usize, place: usize| per_ml2 * errors[i].spread(values[i][place]);
        let problem = self.field.problem(1.0, None, |i, place| {
            spread(i, place) + TIE * self.field.strain[i][place]
        });
        let (problem, _) = self.same_drink(&problem, |_, _| true);
        let found = self.solve(&problem, Some(nearest))?;
        let expected = |solution: &GridSolution| {
            solution.best.as_ref().map_or(f64::INFINITY, |best| {
                let amounts = best.x.iter().zip(errors);
                let variance: f64 = amounts.map(|(x, error)| error.spread(*x)).sum();
                best.distance + per_ml2 * variance
            })
        };
        let gains = expected(&found) < WORTH_SHOWING * expected(nearest);
        Ok(gains.then_some(found))
    }

    /// A hundredth of the drink's cost, and the price of a unit of each unlocked pour, 0 for what is
    /// free; `None` where one of them is not known.
    fn prices(&self) -> Option<(f64, Vec<f64>)> {
        let lines = &self.question.drink.lines;
        let unknowns = self.question.unknowns.iter();
        let prices: Option<Vec<f64>> = unknowns
            .map(|unknown| lines[unknown.line].price_per_unit())
            .collect();
        let prices = prices.filter(|prices| prices.len() > 1)?;
        let whole: f64 = lines
            .iter()
            .filter_map(|line| Some(line.price_per_unit()? * line.amount))
            .sum();
        (whole > 0.0).then_some((0.01 * whole, prices))
    }
}
