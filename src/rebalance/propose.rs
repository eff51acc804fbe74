//! Looks for proposals: continuous first, then the best point of the grid with proof.

use super::binding::{Binding, REACHED, bindings, binds_at};
use super::blend::Blend;
use super::conflict::conflict;
use super::continuous::{NOTICEABLE, distance, solve};
use super::field::Field;
use super::obstacle::{Verdict, verdict};
use super::proposal::{Change, Evidence, Kind, Proposal};
use super::question::Question;
use crate::balance::steps_between;
use crate::solver::{
    GridProblem, GridProblemError, GridSettings, GridSolution, ProblemError, Proof, search_grid,
};

/// Squared noticeable steps that filling a jigger once more must gain: 0.06 of a noticeable
/// difference at the target (our convention, no source).
pub(super) const FILLING: f64 = 0.004;
/// What counts only between otherwise equal answers: squared steps of distance, fillings, changes.
pub(super) const TIE: f64 = 1.0e-3;
/// A drink within one noticeable difference is left as it is unless it comes nearer by this many
/// (our convention, no source).
const WORTH_POURING: f64 = 0.5;
/// Most boxes of one proposal while it has to follow a slider.
const LIVE_NODES: usize = 2_000;

/// What the solver has to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Proposals that change something, best first.
    pub proposals: Vec<Proposal>,
    /// Whether the target can be reached, and what stops it.
    pub verdict: Verdict,
    /// Distance of the drink as it is.
    pub distance_now: f64,
    /// Distance of the nearest point before anything is rounded to the pour steps, with all limits;
    /// infinite where that is not known.
    pub least: f64,
}

/// A question that could not be put to the solver.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The continuous layer refused it.
    #[error(transparent)]
    Continuous(#[from] ProblemError),
    /// The grid refused it.
    #[error(transparent)]
    Grid(#[from] GridProblemError),
    /// A step or a bound of a pour makes no grid.
    #[error("a pour's notch does not fit its limits: make the notch larger or the limits wider")]
    NoGrid,
}

/// Answers a question.
pub fn propose(question: &Question) -> Result<Answer, SolveError> {
    let blend = Blend::new(question);
    let search = Search::new(question, &blend)?;
    let nearest = search.nearest()?;
    if nearest.best.is_none() && (nearest.proof == Proof::Complete || !search.field.can_keep_all())
    {
        return Ok(Answer {
            proposals: Vec::new(),
            verdict: Verdict::Contradiction(conflict(&search.field)),
            distance_now: search.distance_now,
            least: f64::INFINITY,
        });
    }
    let on_grid = nearest
        .best
        .as_ref()
        .map_or(f64::INFINITY, |best| best.distance.sqrt());
    let (verdict, least) = verdict(question, on_grid)?;
    let mut proposals = search.proposals(nearest, &verdict)?;
    let held_back = if least < REACHED {
        Vec::new()
    } else {
        bindings(&search.field, &search.smooth)
    };
    for proposal in &mut proposals {
        search.bind(proposal, &held_back);
    }
    Ok(Answer {
        verdict,
        proposals,
        distance_now: search.distance_now,
        least,
    })
}

/// The best balance alone; it may change nothing. `None` when nothing keeps the
/// limits.
pub fn nearest(question: &Question) -> Result<Option<Proposal>, SolveError> {
    let blend = Blend::new(question);
    let search = Search::new(question, &blend)?;
    let found = search.nearest()?;
    Ok(search.describe(&found, Kind::Nearest))
}

/// Distance against change: from the drink as it is to the nearest, a handful of proposals of which
/// none can come nearer without changing more.
///
/// In order of change; each is the smallest change that comes as near.
pub fn front(question: &Question) -> Result<Vec<Proposal>, SolveError> {
    front_while(question, |_| true)
}

/// The same, asking before each search whether to go on; it is told how many are done, of
/// [`MOST_ON_FRONT`] at most, and what is found so far is the answer once it says no.
pub fn front_while(
    question: &Question,
    mut goes_on: impl FnMut(usize) -> bool,
) -> Result<Vec<Proposal>, SolveError> {
    let blend = Blend::new(question);
    let search = Search::new(question, &blend)?;
    let mut found: Vec<Proposal> = Vec::new();
    let mut reach = search.distance_now;
    for done in 0..MOST_ON_FRONT {
        if !goes_on(done) {
            break;
        }
        reach *= NEARER;
        let solution = search.smallest_within(reach)?;
        let next = search.describe(&solution, Kind::TradeOff);
        let Some(next) = next.filter(|next| !next.changes.is_empty()) else {
            break;
        };
        reach = next.distance.min(reach);
        // A search that was cut short may have missed what changes less.
        found.retain(|before| before.change_steps < next.change_steps);
        found.push(next);
        if reach <= 0.0 {
            break;
        }
    }
    Ok(found)
}

/// Most points of the front.
pub const MOST_ON_FRONT: usize = 8;
/// What share of the distance each point may keep of the one before (our convention, no source).
const NEARER: f64 = 0.75;

/// One question with its continuous answer and its grid.
pub(super) struct Search<'a> {
    pub(super) question: &'a Question,
    pub(super) blend: &'a Blend,
    pub(super) field: Field<'a>,
    /// The answer on the continuum, limits of the whole drink left out.
    pub(super) smooth: Vec<f64>,
    /// How the continuous solver ended.
    ending: &'static str,
    pub(super) distance_now: f64,
}

impl<'a> Search<'a> {
    fn new(question: &'a Question, blend: &'a Blend) -> Result<Self, SolveError> {
        let near = solve(blend, question, question.balancing.reluctance)?;
        Ok(Self {
            field: Field::of(question, blend).ok_or(SolveError::NoGrid)?,
            distance_now: distance(blend, question, &question.present()),
            ending: near.status.text(),
            smooth: near.x,
            question,
            blend,
        })
    }

    /// Every proposal that changes something, best first.
    fn proposals(
        &self,
        mut nearest: GridSolution,
        verdict: &Verdict,
    ) -> Result<Vec<Proposal>, GridProblemError> {
        let mut proposals = Vec::new();
        let mut reachable = if self.is_worth_pouring(&nearest) {
            self.offer(&mut proposals, Kind::Nearest, &nearest)
        } else {
            true
        };
        if !reachable && *verdict == Verdict::Reachable {
            // The cost of change alone may keep it away.
            let within = self.smallest_within(NOTICEABLE)?;
            reachable = within.best.is_some();
            if reachable {
                nearest = within;
            }
        }
        if reachable {
            for kind in [
                Kind::SmallestChange,
                Kind::FewestPours,
                Kind::EasiestToMeasure,
                Kind::Cheapest,
                Kind::MostRobust,
            ] {
                if let Some(found) = self.within_one(kind, &nearest)? {
                    self.offer(&mut proposals, kind, &found);
                }
            }
        }
        proposals.retain(|proposal| !proposal.changes.is_empty());
        Ok(proposals)
    }

    fn nearest(&self) -> Result<GridSolution, GridProblemError> {
        let pull = self.question.balancing.reluctance;
        let problem = self.field.problem(1.0, None, |i, place| {
            pull * self.field.strain[i][place] + FILLING * self.field.effort[i][place]
        });
        self.solve(&problem, None)
    }

    /// Whether a point comes so much nearer that it is worth another pour.
    pub(super) fn is_worth_pouring(&self, found: &GridSolution) -> bool {
        let best = found.best.as_ref();
        let distance = best.map_or(f64::INFINITY, |best| best.distance.sqrt());
        self.distance_now > NOTICEABLE
            || distance < self.distance_now - WORTH_POURING
            || !self.keeps_limits_now()
    }

    /// Whether the drink as it is keeps its own limits.
    fn keeps_limits_now(&self) -> bool {
        let present = self.question.present();
        let Some(served) = self.blend.served(&present) else {
            return false;
        };
        let poured = present.iter().filter(|amount| **amount > 0.0).count();
        let (fewest, most) = self.field.poured;
        if self
            .question
            .unknowns
            .iter()
            .any(|unknown| unknown.must_move)
        {
            return false;
        }
        let counted =
            fewest.is_none_or(|least| poured >= least) && most.is_none_or(|most| poured <= most);
        counted
            && self
                .field
                .limits
                .iter()
                .all(|(_, row)| row.keeps(row.value(&present, served.volume_ml)))
    }

    /// The smallest change, in plain notches, that lands within a distance; of equals the nearest.
    fn smallest_within(&self, distance: f64) -> Result<GridSolution, GridProblemError> {
        let change = &self.field.change;
        // From a drink of nothing everything is near enough.
        let reach = Some(distance * distance).filter(|reach| reach.is_finite());
        let problem = self.field.problem(TIE, reach, |i, place| change[i][place]);
        self.solve(&problem, None)
    }

    pub(super) fn solve(
        &self,
        problem: &GridProblem,
        known: Option<&GridSolution>,
    ) -> Result<GridSolution, GridProblemError> {
        let mut starts = vec![self.smooth.clone()];
        starts.extend(
            known
                .and_then(|known| known.best.as_ref())
                .map(|best| best.x.clone()),
        );
        search_grid(problem, &starts, &settings())
    }

    /// Adds what was found to the list; true if it lies within one noticeable difference.
    fn offer(&self, proposals: &mut Vec<Proposal>, kind: Kind, found: &GridSolution) -> bool {
        let Some(proposal) = self.describe(found, kind) else {
            return false;
        };
        let within = proposal.distance <= NOTICEABLE;
        match proposals
            .iter_mut()
            .find(|known| known.changes == proposal.changes)
        {
            Some(known) => {
                known.kinds.push(kind);
                known.evidence.extend(proposal.evidence);
            }
            None => proposals.push(proposal),
        }
        within
    }

    /// Names the limits that hold a proposal back.
    fn bind(&self, proposal: &mut Proposal, held_back: &[Binding]) {
        let mut x = self.question.present();
        for (amount, unknown) in x.iter_mut().zip(&self.question.unknowns) {
            let changes = &proposal.changes;
            let change = changes.iter().find(|change| change.pour == unknown.pour);
            *amount = change.map_or(*amount, |change| change.to);
        }
        let binds =
            |binding: &&Binding| binds_at(&self.field, binding.limit, &x, proposal.served_ml);
        proposal.binding = held_back.iter().filter(binds).copied().collect();
    }

    /// The proposal of a point, worked out anew by the model.
    fn describe(&self, found: &GridSolution, kind: Kind) -> Option<Proposal> {
        let (question, best) = (self.question, found.best.as_ref()?);
        let served = self.blend.served(&best.x)?;
        let point = (&served).into();
        let steps = steps_between(&point, &question.target, &question.senses);
        let lines = &question.drink.lines;
        let mut amounts: Vec<f64> = lines.iter().map(|line| line.amount).collect();
        let mut changes = Vec::new();
        for (unknown, to) in question.unknowns.iter().zip(&best.x) {
            amounts[unknown.line] = *to;
            if (to - unknown.present).abs() > 1.0e-9 {
                changes.push(Change {
                    pour: unknown.pour,
                    from: unknown.present,
                    to: *to,
                });
            }
        }
        changes.sort_by_key(|change| change.pour);
        let cost = lines.iter().zip(&amounts);
        Some(Proposal {
            kinds: vec![kind],
            changes,
            point,
            steps,
            distance: steps.distance(&question.balancing.weights),
            distance_unrounded: distance(self.blend, question, &self.smooth),
            change_steps: self.field.change_of(found),
            served_ml: served.volume_ml,
            // The sum of nothing is −0.
            cost: cost
                .filter_map(|(line, amount)| Some(line.price_per_unit()? * amount))
                .sum::<f64>()
                + 0.0,
            binding: Vec::new(),
            evidence: vec![Evidence::of(kind, found)],
            ending: self.ending,
        })
    }
}

pub(super) fn settings() -> GridSettings<'static> {
    GridSettings {
        max_nodes: LIVE_NODES,
        ..GridSettings::default()
    }
}
