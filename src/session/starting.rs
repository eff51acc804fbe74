//! Starting points: a twist on a classic, a family's ratio, or nothing.

use super::references::drink_of;
use crate::balance::{Pantry, figures};
use crate::kitchen::is_egg;
use crate::model::{
    Classic, Family, Glass, Ingredient, IngredientId, Pour, Spec, SpecId, Target, Technique, Trial,
    TrialId,
};
use crate::store::Builtin;
use crate::units::Unit;
use std::sync::Arc;

/// A spec with the ingredients that it needs.
pub type Start = (Spec, Vec<(IngredientId, Arc<Ingredient>)>);

/// A twist: the classic as published or as remembered, a first trial grown from it, and its point as the target.
pub fn spec_from_classic(builtin: &Builtin, classic: &Classic, pantry: &mut Pantry) -> Start {
    let name = if classic.is_from_memory() {
        "As remembered"
    } else {
        "As published"
    };
    let published = trial(1, name, classic.technique, &classic.pours);
    let mut twist = trial(2, "Trial 2", classic.technique, &classic.pours);
    twist.parent = Some(published.id);
    "first twist".clone_into(&mut twist.reason);
    let name = format!("Twist on {}", classic.name);
    let trials = vec![Arc::new(published), Arc::new(twist)];
    let spec = Spec {
        family: classic.family.clone(),
        classic: Some(classic.id.clone()),
        glass: Glass {
            name: classic.glass.clone(),
            capacity_ml: classic.glass_ml,
            ice_share: if classic.glass.contains("with ice") {
                0.4
            } else {
                0.0
            },
            ..Glass::default()
        },
        target: target(
            builtin,
            &classic.pours,
            classic.technique,
            &classic.name,
            pantry,
        ),
        ..Spec::new(SpecId(0), name, trials)
    };
    let needed = builtin.ingredients_of(&classic.pours);
    (spec, needed.into_iter().collect())
}

/// A neutral start: a family's ratio, poured with stated ingredients, as trial and target.
pub fn spec_from_family(builtin: &Builtin, family: &Family, pantry: &mut Pantry) -> Start {
    let first = trial(1, "Trial 1", family.technique, &family.pours);
    let name = format!("New {}", family.name);
    let spec = Spec {
        family: family.name.clone(),
        glass: Glass {
            name: family.glass.clone(),
            ..Glass::default()
        },
        target: family_target(builtin, family, pantry),
        ..Spec::new(SpecId(0), name, vec![Arc::new(first)])
    };
    let needed = builtin.ingredients_of(&family.pours);
    (spec, needed.into_iter().collect())
}

/// A start from nothing.
pub fn blank_spec() -> Start {
    let first = trial(1, "Trial 1", Technique::default(), &[]);
    let spec = Spec::new(SpecId(0), "New drink", vec![Arc::new(first)]);
    (spec, Vec::new())
}

/// A start with its jiggered pours written in a unit.
#[must_use]
pub fn in_unit((mut spec, ingredients): Start, unit: Unit) -> Start {
    for trial in &mut spec.trials {
        Arc::make_mut(trial).show_in(unit);
    }
    (spec, ingredients)
}

fn trial(number: u32, name: &str, technique: Technique, pours: &[Pour]) -> Trial {
    Trial::new(TrialId(number), name, technique, pours.to_vec())
}

/// "sour, 2 spirit : 1 sour : 1 sweet (1:1 syrup)".
pub(super) fn family_words(family: &Family) -> String {
    format!("{}, {}", family.name, family.parts)
}

/// The target that a family's ratio stands for: its balance poured with the stated ingredients.
pub(super) fn family_target(
    builtin: &Builtin,
    family: &Family,
    pantry: &mut Pantry,
) -> Option<Target> {
    let label = family_words(family);
    target(builtin, &family.pours, family.technique, &label, pantry)
}

fn target(
    builtin: &Builtin,
    pours: &[Pour],
    technique: Technique,
    label: &str,
    pantry: &mut Pantry,
) -> Option<Target> {
    let drink = drink_of(builtin, pours, technique, pantry)?;
    Some(Target::at(figures(&drink).ok()?.point, label.to_owned()))
}

/// Whether a new pour of an ingredient starts locked: egg comes by the piece.
pub fn starts_locked(item: &Ingredient) -> bool {
    is_egg(item)
}
