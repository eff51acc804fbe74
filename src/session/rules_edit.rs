//! Edits that mend what a rule found, tick it, and enter a drink under rules.

use super::edit::Edit;
use super::submission_edit::SubmissionEdit;
use crate::model::{Document, Entry, IngredientId, RuleSetId, Spec, Tick, Trial, TrialState};
use crate::service::{Act, Finding, drinks, reason_kept};
use std::sync::Arc;

/// The words of a button and the edit behind it; `None` where only a person can mend it, or where
/// the trial does not change any more.
pub fn mend_rule(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    finding: &Finding,
) -> Option<(String, Edit)> {
    match finding.act? {
        Act::Pour { place, amount } => {
            let pour = trial.pours.get(place)?;
            if trial.state != TrialState::Draft {
                return None;
            }
            let words = format!("Pour {}", pour.amount_text(amount, &document.measures));
            let edit = Edit::SetAmount {
                trial: trial.id,
                pour: place,
                amount: pour.amount.with_value(amount).quantised(),
                unit: pour.unit,
            };
            Some((words, edit))
        }
        Act::Serves(count) => {
            let mut stage = spec.stage.clone();
            Arc::make_mut(&mut stage).serves = count;
            let edit = SubmissionEdit::SetStage {
                spec: spec.id,
                stage,
                what: "Drinks on the stage",
            };
            Some((format!("Make {}", drinks(count)), Edit::Submission(edit)))
        }
        Act::Go(_) => None,
    }
}

fn entered(spec: &Spec, what: &'static str, change: impl FnOnce(&mut Entry)) -> Edit {
    let mut entry = spec.entry.clone();
    change(Arc::make_mut(&mut entry));
    Edit::Submission(SubmissionEdit::SetEntry {
        spec: spec.id,
        entry,
        what,
    })
}

/// Ticks a rule that only a person can judge, as it reads now.
pub fn tick_rule(spec: &Spec, finding: &Finding, by: &str, on: &str) -> Edit {
    entered(spec, "Tick a rule", |entry| {
        let tick = Tick {
            by: by.trim().to_owned(),
            on: on.to_owned(),
            rule: finding.title.clone(),
            reason: Some(reason_kept(&finding.reason).to_owned()),
        };
        entry.ticked.insert(finding.rule.clone(), tick);
    })
}

/// Takes the tick of a rule away.
pub fn untick_rule(spec: &Spec, rule: &str) -> Edit {
    entered(spec, "Untick a rule", |entry| {
        entry.ticked.remove(rule);
    })
}

/// Enters a drink under rules of the document, or under none.
pub fn enter_under(spec: &Spec, rules: Option<RuleSetId>) -> Edit {
    entered(spec, "Choose rules", |entry| entry.rules = rules)
}

/// Says which ingredient a product of the rules is; by its name when `None`.
pub fn choose_product(spec: &Spec, product: &str, id: Option<IngredientId>) -> Edit {
    entered(spec, "Choose the product", |entry| {
        match id {
            Some(id) => entry.products.insert(product.to_owned(), id),
            None => entry.products.remove(product),
        };
    })
}
