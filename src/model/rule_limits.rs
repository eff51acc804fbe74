//! What rules may say.

use super::allergens::EU_ALLERGENS;
use super::document::Document;
use super::field_path::FieldPath;
use super::limits::{Checked, FieldError, count, day, number, optional, refuse, text};
use super::rule::{Rule, RuleKind, RuleSet};
use std::collections::BTreeSet;

/// Most sets of rules of one document.
const MAX_SETS: usize = 100;
/// Most rules of one set.
const MAX_RULES: usize = 200;
/// Most words of a list within one rule.
const MAX_WORDS: usize = 500;

pub(super) fn check_rule_sets(document: &Document) -> Checked {
    let at = FieldPath::root("rule_sets");
    count(&at, document.rule_sets.len(), MAX_SETS)?;
    for (id, set) in document.rule_sets.iter() {
        text(&at, &id.0)?;
        check_set(&at.key(&id.0), set)?;
    }
    Ok(())
}

/// Checks one set of rules on its own and names the first field that cannot stand.
pub fn check_one_rule_set(set: &RuleSet) -> Result<(), FieldError> {
    check_set(&FieldPath::root("rules"), set)
}

fn check_set(at: &FieldPath<'_>, set: &RuleSet) -> Checked {
    text(&at.field("name"), &set.name)?;
    text(&at.field("note"), &set.note)?;
    let rules = at.field("rules");
    count(&rules, set.rules.len(), MAX_RULES)?;
    let mut keys = BTreeSet::new();
    for (place, rule) in set.rules.iter().enumerate() {
        let at = rules.index(place);
        if !keys.insert(rule.key.as_str()) {
            let reason = format!("\"{}\" is used twice", rule.key);
            return refuse(&at.field("key"), reason);
        }
        check_rule(&at, rule)?;
    }
    Ok(())
}

fn check_rule(at: &FieldPath<'_>, rule: &Rule) -> Checked {
    text(&at.field("key"), &rule.key)?;
    if rule.key.is_empty() {
        return refuse(&at.field("key"), "is empty");
    }
    text(&at.field("note"), &rule.note)?;
    check_asked(&at.field("asks"), &rule.asks)
}

fn check_asked(at: &FieldPath<'_>, asks: &RuleKind) -> Checked {
    match asks {
        RuleKind::ProductAtLeast { product, ml } | RuleKind::ProductAtMost { product, ml } => {
            named(&at.field("product"), product)?;
            number(&at.field("ml"), *ml)
        }
        RuleKind::OnlyOfItsKind { product } => named(&at.field("product"), product),
        RuleKind::AlcoholAtMost { most, .. } => number(&at.field("most"), *most),
        RuleKind::Strength { least, most } | RuleKind::Volume { least, most, .. } => {
            optional(&at.field("least"), *least)?;
            optional(&at.field("most"), *most)?;
            if least.unwrap_or(0.0) > most.unwrap_or(f64::INFINITY) {
                return refuse(&at.field("least"), "is above the most");
            }
            Ok(())
        }
        RuleKind::HouseMade { most_ml, .. } => optional(&at.field("most_ml"), *most_ml),
        RuleKind::Measures {
            units, notch_ml, ..
        } => {
            count(&at.field("units"), units.len(), MAX_WORDS)?;
            optional(&at.field("notch_ml"), *notch_ml)?;
            if notch_ml.is_some_and(|notch| notch < 0.001) {
                return refuse(&at.field("notch_ml"), "must be 0.001 ml or more");
            }
            Ok(())
        }
        RuleKind::Methods { allowed } => count(&at.field("allowed"), allowed.len(), MAX_WORDS),
        RuleKind::StageTime { minutes, set_up } => {
            number(&at.field("minutes"), *minutes)?;
            number(&at.field("set_up"), *set_up)
        }
        RuleKind::PreparationTime { minutes } => number(&at.field("minutes"), *minutes),
        RuleKind::NoAllergen { allergen } => {
            if EU_ALLERGENS.contains(&allergen.as_str()) {
                return Ok(());
            }
            let reason = format!("\"{allergen}\" is no allergen of EU Annex II");
            refuse(&at.field("allergen"), reason)
        }
        RuleKind::StoryWords { least, most } => {
            if least > most {
                return refuse(&at.field("least"), "is above the most");
            }
            Ok(())
        }
        RuleKind::NameWords { banned } => {
            let at = at.field("banned");
            count(&at, banned.len(), MAX_WORDS)?;
            banned.iter().try_for_each(|word| text(&at, word))
        }
        RuleKind::Stated { required } => count(&at.field("required"), required.len(), MAX_WORDS),
        RuleKind::Deadline { on, .. } => day(&at.field("on"), on),
        RuleKind::Asked { words } => named(&at.field("words"), words),
        RuleKind::Ingredients { .. } | RuleKind::Serves { .. } | RuleKind::Banned { .. } => Ok(()),
    }
}

fn named(at: &FieldPath<'_>, words: &str) -> Checked {
    text(at, words)?;
    if words.trim().is_empty() {
        return refuse(at, "is empty");
    }
    Ok(())
}
