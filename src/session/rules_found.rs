//! What the rules say of the trial on screen.

use super::derived::Deriver;
use super::open_document::Selection;
use super::rules_asked::{handed, rules_of};
use crate::model::{Document, TrialId};
use crate::service::{Finding, FromRule, RuleClash, check_rules, under_rules};

/// What the rules say of one trial.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RulesFound {
    /// One finding for each rule that is on, in the order of the set; empty without rules.
    pub findings: Vec<Finding>,
    /// Limits that proposals keep because of a rule.
    pub limits: Vec<FromRule>,
    /// Rules that proposals cannot keep, because another limit excludes them.
    pub clashes: Vec<RuleClash>,
}

impl Deriver {
    /// What the rules say of the trial that is selected.
    pub(super) fn rules(
        &mut self,
        document: &Document,
        selection: Selection,
        today: &str,
    ) -> RulesFound {
        let found = selection
            .trial
            .map(|id| self.rules_of_trial(document, id, today));
        found.unwrap_or_default()
    }

    /// What the rules say of a trial.
    pub(super) fn rules_of_trial(
        &mut self,
        document: &Document,
        id: TrialId,
        today: &str,
    ) -> RulesFound {
        let Some((spec, trial)) = document.trial(id) else {
            return RulesFound::default();
        };
        let Some(set) = rules_of(document, spec) else {
            return RulesFound::default();
        };
        let handing = (document, spec, &**trial);
        handed(handing, Some(today), &mut self.pantry, |handed| {
            let ruled = under_rules(handed, set);
            RulesFound {
                findings: check_rules(handed, set),
                limits: ruled.from,
                clashes: ruled.clashes,
            }
        })
    }
}
