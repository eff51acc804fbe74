//! Drinks under rules, for tests.

use crate::sample_drinks::{SPEC, TRIAL};
use equipour::balance::{Drink, Pantry, figures};
use equipour::model::{Document, Entry, Rule, RuleKind, RuleSet, RuleSetId, Spec, Trial};
use equipour::service::{Finding, Handed, Ruled, check_rules, under_rules};
use std::sync::Arc;

/// The day of every test.
pub(crate) const TODAY: &str = "2026-11-26";

pub(crate) fn rule(key: &str, asks: RuleKind) -> Rule {
    Rule {
        key: key.to_owned(),
        asks,
        note: String::new(),
        off: false,
    }
}

/// Rules named by their places.
pub(crate) fn rules(all: impl IntoIterator<Item = RuleKind>) -> RuleSet {
    let all = all.into_iter().enumerate();
    RuleSet {
        name: "Test Cup".to_owned(),
        note: String::new(),
        rules: all.map(|(n, asks)| rule(&format!("r{n}"), asks)).collect(),
    }
}

/// The same document with its drink entered under rules.
pub(crate) fn entered(mut document: Document, set: RuleSet) -> Document {
    let id = RuleSetId::from("test-cup");
    Arc::make_mut(&mut document.rule_sets).insert(id.clone(), Arc::new(set));
    entry(&mut document).rules = Some(id);
    document
}

pub(crate) fn spec(document: &mut Document) -> &mut Spec {
    document.spec_mut(SPEC).expect("it is there")
}

pub(crate) fn entry(document: &mut Document) -> &mut Entry {
    Arc::make_mut(&mut spec(document).entry)
}

pub(crate) fn trial(document: &mut Document) -> &mut Trial {
    document.trial_mut(TRIAL).expect("it is there")
}

/// The drink of a document as it would be handed in.
pub(crate) fn with_handed<T>(document: &Document, read: impl FnOnce(&Handed<'_>) -> T) -> T {
    let (spec, trial) = document.trial(TRIAL).expect("it is there");
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).ok();
    let found = drink.as_ref().and_then(|drink| figures(drink).ok());
    read(&Handed {
        document,
        spec,
        trial,
        drink: drink.as_ref(),
        figures: found.as_ref(),
        today: Some(TODAY),
    })
}

/// What a set of rules says of a document's drink.
pub(crate) fn found(document: &Document, set: &RuleSet) -> Vec<Finding> {
    with_handed(document, |handed| check_rules(handed, set))
}

/// What one rule says of a document's drink.
pub(crate) fn one(document: &Document, asks: RuleKind) -> Finding {
    let mut all = found(document, &rules([asks]));
    assert_eq!(all.len(), 1);
    all.remove(0)
}

/// A document's drink as the solver is asked about it.
pub(crate) fn ruled(document: &Document, asks: impl IntoIterator<Item = RuleKind>) -> Ruled {
    with_handed(document, |handed| under_rules(handed, &rules(asks)))
}
