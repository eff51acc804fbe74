//! What is asked: which pours may move, how far, in which steps, towards what.

use crate::balance::{
    Assumed, Drink, DrinkError, Line, Pantry, PourError, pour_errors, pour_sigma, step_of,
};
use crate::model::{
    Amount, Balancing, Bounds, Document, Point, Pour, Precision, Role, ScaleRule, Senses, Spec,
    Trial,
};
use crate::units::{Measures, Unit};

/// Two amounts closer than this share of the larger are the same.
const SAME_AMOUNT: f64 = 1.0e-6;

/// An unlocked pour.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// Place among the drink's lines.
    pub line: usize,
    /// Place in the trial's list of pours.
    pub pour: usize,
    /// Smallest amount, in the pour's own measure.
    pub lower: f64,
    /// Largest amount.
    pub upper: f64,
    /// Present amount.
    pub present: f64,
    /// Pour step.
    pub step: f64,
    /// Volume of one unit, ml.
    pub ml_per_unit: f64,
    /// Poured by the jigger: a volume in ml, cl or ounces.
    pub by_jigger: bool,
    /// Kept still by the rule "the base pour", not by its lock.
    pub held: bool,
    /// The present amount cannot stay: it lies beyond a firm limit or between two notches.
    pub must_move: bool,
}

/// A question for the solver.
#[derive(Clone, Debug)]
pub struct Question {
    /// The drink as it is.
    pub drink: Drink,
    /// The pours that may move.
    pub unknowns: Vec<Unknown>,
    /// The balance aimed at.
    pub target: Point,
    /// When a difference is noticed.
    pub senses: Senses,
    /// Weights, scale rule, reluctance.
    pub balancing: Balancing,
    /// What the drink as a whole must keep.
    pub bounds: Bounds,
    /// Room in the glass beside its ice, ml, if the drink has to fit.
    pub glass_ml: Option<f64>,
    /// Sizes of the jiggers at hand, ml.
    pub jiggers_ml: Vec<f64>,
    /// How exactly the unlocked pours are known and poured, in their order; none when it does not
    /// matter.
    pub errors: Vec<UnknownError>,
    /// The present amounts are guesses: no character of the drink to keep.
    pub(super) guessed: bool,
    /// Every line of the drink as an unknown: what a locked pour might do if it were free.
    pub(super) if_free: Vec<Unknown>,
}

/// How exactly an unlocked pour is known and poured.
#[derive(Clone, Debug, PartialEq)]
pub struct UnknownError {
    error: PourError,
    pour: Pour,
    precision: Precision,
}

impl UnknownError {
    /// What an amount adds to the expected squared distance, times the squared volume in ml².
    pub(super) fn spread(&self, amount: f64) -> f64 {
        let sigma = pour_sigma(&self.precision, &self.pour, amount);
        self.error.of_figures * amount * amount + self.error.of_pouring * sigma * sigma
    }
}

/// A question that cannot be asked.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum QuestionError {
    /// The drink itself cannot be resolved.
    #[error(transparent)]
    Drink(#[from] DrinkError),
    /// The spec has no target.
    #[error("no target is set")]
    NoTarget,
    /// Every pour is locked.
    #[error("every pour is locked: unlock at least one")]
    AllLocked,
    /// The base pour is to be held, and no pour is the base.
    #[error("no pour is the base: give one that job, or hold something else")]
    NoBase,
    /// Every axis has weight zero.
    #[error("every axis has weight zero: let at least one count")]
    NoAxis,
}

impl Question {
    /// The question that a trial of a spec asks.
    pub fn of_trial(
        document: &Document,
        spec: &Spec,
        trial: &Trial,
        drink: Drink,
    ) -> Result<Self, QuestionError> {
        let target = spec.target.as_ref().ok_or(QuestionError::NoTarget)?;
        if spec.balancing.weights.count_nothing() {
            return Err(QuestionError::NoAxis);
        }
        // A drink that cannot be served cannot be improved either.
        drink.served()?;
        let base = first_base(spec.balancing.scale_rule, &trial.pours);
        if spec.balancing.scale_rule == ScaleRule::BasePour && base.is_none() {
            return Err(QuestionError::NoBase);
        }
        let if_free = if_free(document, spec, trial, &drink);
        let moves = |free: &&Unknown| !trial.pours[free.pour].locked && base != Some(free.pour);
        let unknowns: Vec<Unknown> = if_free.iter().filter(moves).cloned().collect();
        if unknowns.is_empty() {
            return Err(QuestionError::AllLocked);
        }
        Ok(Self {
            drink,
            unknowns,
            target: Point {
                sour_g_per_l: document.senses.tasted_sour(target.point.sour_g_per_l),
                ..target.point
            },
            senses: document.senses,
            balancing: spec.balancing,
            bounds: spec.bounds,
            glass_ml: spec
                .bounds
                .glass
                .then_some(spec.glass.capacity_ml * (1.0 - spec.glass.ice_share)),
            jiggers_ml: document.jiggers_ml.clone(),
            errors: Vec::new(),
            guessed: false,
            if_free,
        })
    }

    /// The question with the errors of its pours, so that the most robust answer can be looked for.
    #[must_use]
    pub fn with_errors(mut self, assumed: &Assumed, pantry: &mut Pantry) -> Self {
        // Without errors there is no most robust answer, and everything else stands.
        let Ok(found) = pour_errors(assumed, &self.drink, pantry) else {
            return self;
        };
        let of = |unknown: &Unknown| {
            Some(UnknownError {
                error: found.get(unknown.line).copied().unwrap_or_default(),
                pour: assumed.pours.get(unknown.pour)?.clone(),
                precision: *assumed.precision,
            })
        };
        let errors: Option<Vec<UnknownError>> = self.unknowns.iter().map(of).collect();
        self.errors = errors.unwrap_or_default();
        self
    }

    /// Present amounts of the unknowns.
    pub fn present(&self) -> Vec<f64> {
        self.unknowns
            .iter()
            .map(|unknown| unknown.present)
            .collect()
    }
}

/// Every line of the drink as an unknown, whatever its lock says.
fn if_free(document: &Document, spec: &Spec, trial: &Trial, drink: &Drink) -> Vec<Unknown> {
    let base = first_base(spec.balancing.scale_rule, &trial.pours);
    let lines = drink.lines.iter().enumerate();
    let poured = lines.filter(|(_, line)| line.grams_per_unit > 0.0);
    poured
        .filter_map(|(place, line)| {
            let pour = trial.pours.get(line.index)?;
            let free = Unknown {
                held: base == Some(line.index) && !pour.locked,
                ..unknown(place, pour, line, &document.measures)
            };
            Some(firmly(free, pour, &spec.bounds))
        })
        .collect()
}

/// The pour that the rule "the base pour" holds.
fn first_base(rule: ScaleRule, pours: &[Pour]) -> Option<usize> {
    (rule == ScaleRule::BasePour)
        .then(|| pours.iter().position(|pour| pour.role == Role::Base))
        .flatten()
}

/// The largest amount that may be proposed, in the pour's own measure: what is stated, or what
/// anybody would still pour (our convention, no source): four dashes, twelve drops, four pieces, else
/// four times the present amount, and 20 g or 90 ml at least.
pub(super) fn most(pour: &Pour, present: f64, measures: &Measures) -> f64 {
    let usual = match (&pour.amount, pour.unit) {
        (_, Unit::Dash) => 4.0 * measures.dash_ml,
        (_, Unit::Drop) => 12.0 * measures.drop_ml,
        (Amount::Grams(_), _) => (present * 4.0).max(20.0),
        (Amount::Pieces(_), _) => 4.0,
        _ => (present * 4.0).max(90.0),
    };
    pour.most().unwrap_or(usual).max(present)
}

fn unknown(place: usize, pour: &Pour, line: &Line, measures: &Measures) -> Unknown {
    let present = line.amount;
    // The present amount is always legal, so an amount beyond a stated bound may come back from it
    // but go no further; a held total is reachable then, too.
    let lower = pour.least().unwrap_or(0.0).min(present);
    let upper = most(pour, present, measures);
    Unknown {
        line: place,
        pour: line.index,
        lower,
        upper,
        present,
        step: step_of(pour, measures),
        ml_per_unit: line.grams_per_unit / line.contents.density_g_per_ml,
        by_jigger: matches!(pour.amount, Amount::Ml(_))
            && matches!(pour.unit, Unit::Ml | Unit::Cl | Unit::Oz | Unit::FlOz),
        held: false,
        must_move: false,
    }
}

/// A pour under rules: its limits hold whatever its present amount is.
fn firmly(unknown: Unknown, pour: &Pour, bounds: &Bounds) -> Unknown {
    let mut firm = unknown;
    if bounds.firm {
        firm.lower = pour.least().unwrap_or(firm.lower);
        firm.upper = pour.most().unwrap_or(firm.upper).max(firm.lower);
    }
    let room = SAME_AMOUNT * firm.present.max(1.0);
    let beyond = firm.present < firm.lower - room || firm.present > firm.upper + room;
    let notches = firm.present / firm.step;
    let between = (notches - notches.round()).abs() * firm.step > room;
    firm.must_move = beyond || bounds.on_notch && firm.by_jigger && between;
    firm
}
