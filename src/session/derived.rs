//! Everything worked out from the document, kept with the revision it came from.

use super::open_document::Selection;
use super::references::Reference;
use super::rules_asked::UnderRules;
use super::rules_found::RulesFound;
use crate::balance::{
    Assumed, Contribution, Drink, DrinkError, Figures, Pantry, PathPoint, Steps, Uncertainty,
    contributions, figures, gentlest_pours, nearest, step_of, steps_between, strength_path,
};
use crate::model::{Document, Point, Spec, Trial, TrialId, TrialState};
use crate::physics::dilution::MELT_WATER_G_PER_ML;
use crate::physics::ice::Warm;
use crate::rebalance::{
    Answer, Question, Remedies, SwapAim, Verdict, held_within_ml, propose, remedies,
};
use std::collections::HashMap;
use std::sync::Arc;

/// Parts of the strength path.
const PATH_PARTS: usize = 48;
/// Nearest classics that are named.
const NEAREST: usize = 5;
/// Minutes on ice in the glass that the strips mark.
const MINUTES_ON_ICE: [f64; 2] = [5.0, 10.0];
/// Above this many remembered points those of forgotten trials are dropped.
const TIDY_ABOVE: usize = 4_096;

/// An earlier trial on the map.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialPoint {
    /// Which trial.
    pub id: TrialId,
    /// Its name.
    pub name: String,
    /// Draft, tasted or submitted.
    pub state: TrialState,
    /// Where it lies.
    pub point: Point,
}

/// A classic that lies near, with the steps from it to the drink.
#[derive(Clone, Debug, PartialEq)]
pub struct Near {
    /// Name.
    pub name: String,
    /// Distance, noticeable steps.
    pub distance: f64,
    /// Steps per axis.
    pub steps: Steps,
}

/// Everything worked out for the trial on screen.
#[derive(Clone, Debug)]
pub struct Derived {
    /// Figures of the trial, or why there are none.
    pub figures: Result<Figures, DrinkError>,
    /// How far the figures may be off.
    pub uncertainty: Option<Uncertainty>,
    /// Figures of its parent.
    pub parent: Option<Figures>,
    /// Strength and coldest temperature of its parent over dilution.
    pub parent_path: Vec<PathPoint>,
    /// What each pour of its parent brings.
    pub parent_contributions: Vec<Contribution>,
    /// Steps from the target to the trial.
    pub from_target: Option<Steps>,
    /// Weighted distance from the target.
    pub distance: Option<f64>,
    /// What each pour brings.
    pub contributions: Vec<Contribution>,
    /// Strength and coldest temperature over dilution.
    pub path: Vec<PathPoint>,
    /// The pour order that is gentlest to protein; empty when nothing curdles.
    pub gentlest: Vec<usize>,
    /// Minutes on ice in the glass, and the dilution then; empty for a glass without ice.
    pub on_ice: Vec<(f64, f64)>,
    /// What is chilled, in its vessel; `None` when nothing is.
    pub warm: Option<Warm>,
    /// All trials of the spec that can be served, in order.
    pub trail: Vec<TrialPoint>,
    /// Nearest classics.
    pub nearest: Vec<Near>,
    /// Proposals, or why there are none.
    pub answer: Result<Answer, String>,
    /// Within how many ml of the held size proposals land; `None` where none is held or none is asked for.
    pub held_within_ml: Option<f64>,
    /// What one change would do when the target is out of reach; `None` when it can be reached.
    pub remedies: Option<Remedies>,
    /// The remedies are those from before a drag: they are worked out again at its end.
    pub remedies_wait: bool,
    /// What the rules say of it that it is entered under.
    pub rules: RulesFound,
}

/// The answer to a question, and within how many ml it holds the size.
type Asked = (Result<Answer, String>, Option<f64>);

pub(super) type Seen = (Arc<Trial>, Option<Point>);

/// Works out derived values and remembers the points of trials that did not change.
#[derive(Clone, Debug, Default)]
pub(super) struct Deriver {
    pub(super) pantry: Pantry,
    pub(super) points: HashMap<usize, Seen>,
}

impl Deriver {
    /// Forgets the points of all trials, after an ingredient changed.
    pub(super) fn forget_points(&mut self) {
        self.points.clear();
    }

    /// Works out everything but the remedies for the selected trial; `None` when nothing is selected.
    pub(super) fn derive(
        &mut self,
        document: &Document,
        selection: Selection,
        references: &[Reference],
    ) -> Option<Derived> {
        let (spec, trial) = document.trial(selection.trial?)?;
        let drink = Drink::of_trial(document, trial, &mut self.pantry);
        let found = drink.as_ref().map_err(Clone::clone).and_then(figures);
        let before = self.parent_of(document, spec, trial);
        let point = found.as_ref().ok().map(|figures| figures.point);
        let from_target = point
            .zip(spec.target.as_ref())
            .map(|(point, target)| steps_between(&point, &target.point, &document.senses));
        let served = drink.as_ref().ok().zip(found.as_ref().ok());
        let uncertainty = served.and_then(|(drink, found)| {
            let assumed = assumed(document, spec, trial);
            Uncertainty::of(&assumed, drink, found.ph, &mut self.pantry).ok()
        });
        let on_ice = on_ice(spec, found.as_ref().ok());
        let contributions = contributions_of(document, trial, drink.as_ref().ok());
        let path = path_of(served, &on_ice);
        let gentlest = gentlest(served);
        let warm = drink.as_ref().ok().map(Drink::warm);
        let (answer, held_within_ml) = match self.answer(document, spec, trial, drink) {
            Ok((answer, within)) => (answer, within),
            Err(error) => (Err(error), None),
        };
        Some(Derived {
            uncertainty,
            gentlest,
            from_target,
            distance: from_target.map(|steps| steps.distance(&spec.balancing.weights)),
            contributions,
            path,
            on_ice,
            warm,
            trail: self.trail(document, spec),
            nearest: near(document, point, references),
            answer,
            held_within_ml,
            remedies: None,
            remedies_wait: true,
            rules: RulesFound::default(),
            figures: found,
            parent_path: path_of(before.as_ref().map(|before| (&before.1, &before.2)), &[]),
            parent_contributions: before.as_ref().map_or_else(Vec::new, |(parent, drink, _)| {
                contributions_of(document, parent, Some(drink))
            }),
            parent: before.map(|(_, _, found)| found),
        })
    }

    /// Works out the remedies that wait.
    pub(super) fn remedy(
        &mut self,
        document: &Document,
        selection: Selection,
        derived: &mut Derived,
    ) {
        let found = selection.trial.and_then(|trial| document.trial(trial));
        derived.remedies =
            found.and_then(|(spec, trial)| self.remedies(document, spec, trial, &derived.answer));
        derived.remedies_wait = false;
    }

    /// The trial that this one grew from, its drink and its figures.
    fn parent_of<'a>(
        &mut self,
        document: &Document,
        spec: &'a Spec,
        trial: &Trial,
    ) -> Option<(&'a Trial, Drink, Figures)> {
        let parent = spec.trial(trial.parent?)?;
        let drink = Drink::of_trial(document, parent, &mut self.pantry).ok()?;
        let found = figures(&drink).ok()?;
        Some((parent, drink, found))
    }

    fn trail(&mut self, document: &Document, spec: &Spec) -> Vec<TrialPoint> {
        if self.points.len() > TIDY_ABOVE {
            self.points
                .retain(|_, (kept, _)| Arc::strong_count(kept) > 1);
        }
        spec.trials
            .iter()
            .filter_map(|trial| {
                let point = self.point_of(document, trial)?;
                Some(TrialPoint {
                    id: trial.id,
                    name: trial.name.clone(),
                    state: trial.state,
                    point,
                })
            })
            .collect()
    }

    /// Proposals for a trial, or why there are none; with how near it would come without notches where
    /// nothing is proposed. Beside it how exactly the size is held.
    fn answer(
        &mut self,
        document: &Document,
        spec: &Spec,
        trial: &Trial,
        drink: Result<Drink, DrinkError>,
    ) -> Result<Asked, String> {
        let assumed = assumed(document, spec, trial);
        let under = UnderRules::of(document, spec, trial, &mut self.pantry);
        let question = question_of(document, &under, drink)?;
        let question = question.with_errors(&assumed, &mut self.pantry);
        let answer = propose(&question).map_err(|error| error.to_string());
        Ok((answer, held_within_ml(&question)))
    }

    /// What would help a trial that cannot reach its target.
    fn remedies(
        &mut self,
        document: &Document,
        spec: &Spec,
        trial: &Trial,
        answer: &Result<Answer, String>,
    ) -> Option<Remedies> {
        let answer = answer.as_ref().ok()?;
        if answer.verdict == Verdict::Reachable {
            return None;
        }
        let how = (SwapAim::Target, spec.balancing.scale_rule);
        let under = UnderRules::of(document, spec, trial, &mut self.pantry);
        let original = under.original(document, how, &mut self.pantry).ok()?;
        let mut found = remedies(&original, &mut self.pantry).ok()?;
        for remedy in &mut found.found {
            under.give_remedy_back(remedy);
        }
        Some(found)
    }

    fn point_of(&mut self, document: &Document, trial: &Arc<Trial>) -> Option<Point> {
        let place = Arc::as_ptr(trial).addr();
        if let Some((_, point)) = self.points.get(&place) {
            return *point;
        }
        let point = Drink::of_trial(document, trial, &mut self.pantry)
            .and_then(|drink| drink.served())
            .ok()
            .map(|served| Point::from(&served));
        self.points.insert(place, (Arc::clone(trial), point));
        point
    }
}

impl Derived {
    /// With the remedies of what was there before, where they may still help.
    pub(super) fn with_remedies_of(mut self, before: Option<Self>) -> Self {
        let reached = matches!(&self.answer, Ok(answer) if answer.verdict == Verdict::Reachable);
        if !reached {
            self.remedies = before.and_then(|before| before.remedies);
        }
        self
    }
}

/// The gentlest order, where something curdles in a cold drink.
fn gentlest(served: Option<(&Drink, &Figures)>) -> Vec<usize> {
    let curdles = |found: &Figures| found.curdling.iter().any(|one| one.band.curdles_cold);
    served
        .filter(|(_, found)| curdles(found))
        .map_or_else(Vec::new, |(drink, _)| gentlest_pours(drink))
}

/// What the errors of a trial are taken from and judged by.
pub(super) fn assumed<'a>(document: &'a Document, spec: &'a Spec, trial: &'a Trial) -> Assumed<'a> {
    Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: if document.uncalibrated.contains(&trial.technique.method) {
            &[]
        } else {
            &document.weighings
        },
        senses: &document.senses,
        weights: &spec.balancing.weights,
    }
}

pub(super) fn contributions_of(
    document: &Document,
    trial: &Trial,
    drink: Option<&Drink>,
) -> Vec<Contribution> {
    let step = |pour: usize| {
        let pour = trial.pours.get(pour);
        pour.map_or(0.0, |pour| step_of(pour, &document.measures))
    };
    drink
        .and_then(|drink| contributions(drink, &document.senses, step).ok())
        .unwrap_or_default()
}

/// The path runs half as far again as the served dilution, so that melting in the glass shows.
pub(super) fn path_of(served: Option<(&Drink, &Figures)>, on_ice: &[(f64, f64)]) -> Vec<PathPoint> {
    let Some((drink, found)) = served else {
        return Vec::new();
    };
    let last = on_ice.last().map_or(0.0, |(_, dilution)| dilution * 1.08);
    let most = (found.dilution * 1.6).max(0.3).max(last);
    strength_path(drink, most, PATH_PARTS).unwrap_or_default()
}

fn near(document: &Document, point: Option<Point>, references: &[Reference]) -> Vec<Near> {
    let Some(point) = point else {
        return Vec::new();
    };
    let complete = references.iter().filter(|known| known.unstated.is_empty());
    let known = complete.map(|known| (known.name.as_str(), known.point));
    nearest(&point, known, &document.senses, NEAREST)
        .into_iter()
        .map(|found| Near {
            name: found.name.to_owned(),
            distance: found.distance,
            steps: found.steps,
        })
        .collect()
}

/// The question that a trial asks under its rules, or why it cannot be asked.
pub(super) fn question_of(
    document: &Document,
    under: &UnderRules<'_>,
    drink: Result<Drink, DrinkError>,
) -> Result<Question, String> {
    let drink = drink.map_err(|error| error.to_string())?;
    Question::of_trial(document, under.spec(), under.trial(), drink)
        .map_err(|error| error.to_string())
}

/// How ice in the glass goes on watering the drink, by the glass's assumed melt per minute.
pub(super) fn on_ice(spec: &Spec, found: Option<&Figures>) -> Vec<(f64, f64)> {
    let Some(found) = found.filter(|found| spec.glass.ice_share > 0.0 && found.chilled_ml > 0.0)
    else {
        return Vec::new();
    };
    let per_minute = spec.glass.melt_g_per_min / MELT_WATER_G_PER_ML / found.chilled_ml;
    MINUTES_ON_ICE
        .map(|minutes| (minutes, found.dilution + per_minute * minutes))
        .to_vec()
}
