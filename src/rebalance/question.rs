//! What is asked: which pours may move, how far, in which steps, towards what.

use crate::balance::{Drink, DrinkError, step_of};
use crate::model::{
    Amount, Balancing, Document, Point, Pour, Role, ScaleRule, Senses, Spec, Trial, Weights,
};
use crate::units::Measures;

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
        let Weights {
            sweet,
            sour,
            strength,
        } = spec.balancing.weights;
        if sweet + sour + strength <= 0.0 {
            return Err(QuestionError::NoAxis);
        }
        // A drink that cannot be served cannot be improved either.
        drink.served()?;
        let base = first_base(spec.balancing.scale_rule, &trial.pours);
        let unknowns: Vec<Unknown> = drink
            .lines
            .iter()
            .enumerate()
            .filter(|(_, line)| {
                !trial.pours[line.index].locked
                    && base != Some(line.index)
                    && line.grams_per_unit > 0.0
            })
            .map(|(place, line)| {
                let pour = &trial.pours[line.index];
                unknown(place, pour, line.index, line.amount, &document.measures, {
                    line.grams_per_unit / line.contents.density_g_per_ml
                })
            })
            .collect();
        if unknowns.is_empty() {
            return Err(QuestionError::AllLocked);
        }
        Ok(Self {
            drink,
            unknowns,
            target: target.point,
            senses: document.senses,
            balancing: spec.balancing,
        })
    }

    /// Present amounts of the unknowns.
    pub fn present(&self) -> Vec<f64> {
        self.unknowns
            .iter()
            .map(|unknown| unknown.present)
            .collect()
    }
}

/// The pour that the rule "the base pour" holds.
fn first_base(rule: ScaleRule, pours: &[Pour]) -> Option<usize> {
    (rule == ScaleRule::BasePour)
        .then(|| pours.iter().position(|pour| pour.role == Role::Base))
        .flatten()
}

fn unknown(
    line: usize,
    pour: &Pour,
    index: usize,
    present: f64,
    measures: &Measures,
    ml_per_unit: f64,
) -> Unknown {
    let lower = pour.minimum.unwrap_or(0.0).min(present);
    // Without a stated maximum a pour may quadruple, or reach what anybody would still call a pour.
    let roomy = match pour.amount {
        Amount::Grams(_) => 20.0,
        Amount::Pieces(_) => 4.0,
        _ => 90.0,
    };
    let upper = pour
        .maximum
        .unwrap_or_else(|| (present * 4.0).max(roomy))
        .max(present);
    Unknown {
        line,
        pour: index,
        lower,
        upper,
        present,
        step: step_of(pour, measures),
        ml_per_unit,
    }
}
