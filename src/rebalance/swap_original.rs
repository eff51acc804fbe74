//! The drink that a swap begins with, and the balance that it is meant to give back.

use super::propose::SolveError;
use super::question::{Question, QuestionError};
use super::swap_difference::Side;
use crate::balance::{Drink, DrinkError, Pantry, figures};
use crate::kitchen::ContentsError;
use crate::model::{Bounds, Document, Method, Point, ScaleRule, Spec, Target, Trial, TrialState};

/// The balance that a swap is meant to give back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum SwapAim {
    /// The balance that the trial has now.
    #[default]
    Trial,
    /// The balance of the trial that it grew from.
    Parent,
    /// The target of the drink.
    Target,
}

impl SwapAim {
    /// Every aim, in menu order.
    pub const ALL: [Self; 3] = [Self::Trial, Self::Parent, Self::Target];

    /// The words on screen, as in "0.3 steps from this trial".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Trial => "this trial",
            Self::Parent => "the parent",
            Self::Target => "the target",
        }
    }
}

/// A swap that cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SwapError {
    /// There is no pour at that place.
    #[error("the trial has no pour {number}")]
    NoPour {
        /// Number of the pour, from 1.
        number: usize,
    },
    /// The recipe gives no amount, or none that can be counted.
    #[error("{name} has no amount that can be counted: give it one first")]
    NoAmount {
        /// What is poured.
        name: String,
    },
    /// One pour is to be replaced by two ingredients.
    #[error("pour {number} is to be replaced twice")]
    Twice {
        /// Number of the pour, from 1.
        number: usize,
    },
    /// A pour is to be split over what it pours already.
    #[error("a pour cannot be split over {name} and the same again")]
    Same {
        /// What is poured.
        name: String,
    },
    /// The trial grew from no other, or from one that cannot be served.
    #[error("this trial has no parent that can be served")]
    NoParent,
    /// A drink cannot be resolved.
    #[error(transparent)]
    Drink(#[from] DrinkError),
    /// The solver cannot be asked.
    #[error(transparent)]
    Question(#[from] QuestionError),
    /// The solver refused the problem.
    #[error("the amounts cannot be worked out: {0}")]
    Solver(#[from] SolveError),
    /// No amounts within the limits make a drink.
    #[error("no amounts within the limits make a drink")]
    Nothing,
}

impl From<ContentsError> for SwapError {
    fn from(error: ContentsError) -> Self {
        Self::Drink(error.into())
    }
}

/// The drink that a swap begins with.
///
/// A tasted trial is compared as it was tasted, and poured with the larder of today: its swap can
/// only become a new trial.
#[derive(Clone, Debug)]
pub struct Original<'a> {
    /// The document it belongs to.
    pub document: &'a Document,
    /// Target, weights and what is held, without any trials.
    pub(super) spec: Spec,
    /// The trial as a draft.
    pub(super) trial: Trial,
    /// The draft resolved.
    pub(super) drink: Drink,
    /// What the swap is compared with.
    pub(super) side: Side,
    /// What stays when one of its limits is let go.
    pub(super) standing: Standing,
}

/// What rules alone ask of a drink: it stays when a person's own limit is let go.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Standing {
    /// Bounds of the drink as a whole.
    pub bounds: Bounds,
    /// Smallest and largest amount of each pour, in its own measure.
    pub pours: Vec<(Option<f64>, Option<f64>)>,
    /// Techniques that it may be made with; any when `None`.
    pub methods: Option<Vec<Method>>,
}

impl Standing {
    /// What is asked of the pour at this place.
    pub(super) fn of_pour(&self, place: usize) -> (Option<f64>, Option<f64>) {
        self.pours.get(place).copied().unwrap_or_default()
    }

    /// Whether it may be made so.
    pub(super) fn allows(&self, method: Method) -> bool {
        let listed = self.methods.as_ref();
        listed.is_none_or(|methods| methods.contains(&method))
    }
}

impl<'a> Original<'a> {
    /// Looks the drink up; `hold` is what stays fixed, at what it is in this trial.
    ///
    /// Fails when the trial cannot be served, when there is no such aim, and when no axis counts.
    pub fn of(
        document: &'a Document,
        spec: &Spec,
        trial: &Trial,
        (aim, hold): (SwapAim, ScaleRule),
        pantry: &mut Pantry,
    ) -> Result<Self, SwapError> {
        let as_it_is = Drink::of_trial(document, trial, pantry)?;
        let found = figures(&as_it_is)?;
        let point = match aim {
            SwapAim::Trial => found.point,
            SwapAim::Parent => parent_point(document, spec, trial, pantry)?,
            SwapAim::Target => spec.target.as_ref().ok_or(QuestionError::NoTarget)?.point,
        };
        if spec.balancing.weights.count_nothing() {
            return Err(QuestionError::NoAxis.into());
        }
        let side = Side::of(document, trial, &as_it_is)?.with_ph(found.ph);
        let draft = as_draft(trial);
        let drink = Drink::of_trial(document, &draft, pantry)?;
        Ok(Self {
            document,
            spec: aimed(spec, point, hold),
            trial: draft,
            drink,
            side,
            standing: Standing::default(),
        })
    }

    /// The same under rules, which stay whatever limit is let go.
    #[must_use]
    pub fn under(mut self, standing: Standing) -> Self {
        self.standing = standing;
        self
    }

    /// What is wrong with the question itself, before any ingredient is tried.
    pub(super) fn can_be_asked(&self) -> Result<(), SwapError> {
        let drink = self.drink.clone();
        Question::of_trial(self.document, &self.spec, &self.trial, drink)?;
        Ok(())
    }

    /// The balance that is to come back.
    pub fn aim(&self) -> Point {
        self.spec
            .target
            .as_ref()
            .map_or_else(Point::default, |target| target.point)
    }

    /// The trial that is poured, as a draft.
    pub fn trial(&self) -> &Trial {
        &self.trial
    }

    /// Name of what a pour pours.
    pub fn name(&self, pour: usize) -> &str {
        name_of(self.document, &self.trial, pour)
    }
}

/// Name of what a pour of a trial pours.
pub(super) fn name_of<'a>(document: &'a Document, trial: &'a Trial, pour: usize) -> &'a str {
    let poured = trial.pours.get(pour);
    poured
        .and_then(|pour| document.settle(trial, pour))
        .map_or("?", |settled| settled.name)
}

/// The spec with another aim and without its trials, which nothing here needs.
fn aimed(spec: &Spec, point: Point, hold: ScaleRule) -> Spec {
    let mut aimed = spec.clone();
    aimed.trials.clear();
    aimed.target = Some(Target::at(point, ""));
    aimed.balancing.scale_rule = hold;
    aimed
}

/// The trial as a new one grown from it would begin.
fn as_draft(trial: &Trial) -> Trial {
    let mut draft = trial.clone();
    draft.state = TrialState::Draft;
    draft.own_dilution = None;
    draft.frozen.clear();
    draft
}

fn parent_point(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    pantry: &mut Pantry,
) -> Result<Point, SwapError> {
    let parent = trial.parent.and_then(|parent| spec.trial(parent));
    let parent = parent.ok_or(SwapError::NoParent)?;
    let served = Drink::of_trial(document, parent, pantry).and_then(|drink| drink.served());
    served
        .map(|served| Point::from(&served))
        .map_err(|_| SwapError::NoParent)
}
