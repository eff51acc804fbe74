//! Rules that the trial on screen breaks, and rules that proposals cannot keep.

use super::command::Command;
use super::notices::{Action, Notice, Severity, notice};
use super::rules_edit::mend_rule;
use super::rules_found::RulesFound;
use crate::model::{Document, RuleKind, Spec, Trial};
use crate::service::{Act, Field, Finding, RuleVerdict};

/// One notice a broken rule, and one for each that excludes another limit.
pub(super) fn of_rules(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    found: &RulesFound,
) -> Vec<Notice> {
    let broken = found.findings.iter();
    let broken = broken.filter(|finding| finding.verdict == RuleVerdict::Broken);
    let broken = broken.map(|finding| {
        let text = format!("Rule broken – {}. {}", finding.title, finding.reason);
        Notice {
            action: action(document, spec, trial, finding),
            ..notice(severity(document, spec, finding), text, &finding.remedy)
        }
    });
    let clashes = found.clashes.iter().map(|clash| {
        notice(
            Severity::Caution,
            &clash.words,
            "Proposals leave this rule out until one of the two gives way.",
        )
    });
    broken.chain(clashes).collect()
}

/// What can be mended is a caution; a day that has passed is a warning.
fn severity(document: &Document, spec: &Spec, finding: &Finding) -> Severity {
    let rules = spec.entry.rules.as_ref();
    let set = rules.and_then(|id| document.rule_sets.get(id));
    let mut rules = set.into_iter().flat_map(|set| &set.rules);
    let rule = rules.find(|rule| rule.key == finding.rule);
    match rule.map(|rule| &rule.asks) {
        Some(RuleKind::Deadline { .. }) => Severity::Warning,
        _ => Severity::Caution,
    }
}

fn action(document: &Document, spec: &Spec, trial: &Trial, finding: &Finding) -> Option<Action> {
    if let Some((words, edit)) = mend_rule(document, spec, trial, finding) {
        return Some(Action::Edit(words, Box::new(edit)));
    }
    let command = match finding.act? {
        Act::Go(Field::HouseMade) => Command::HouseView,
        Act::Go(Field::Allergens) => Command::LarderView,
        _ => return None,
    };
    Some(Action::Command(command))
}
