//! Everything that may be changed one at a time to bring a drink nearer to its target.

use super::remedy::RemedyKind;
use super::swap_original::Original;
use crate::balance::{Drink, Pantry};
use crate::model::{Added, Bounded, Dilution, Method, Pour, ScaleRule, Spec, Technique, Trial};

/// A drink with one thing changed, before its amounts are looked for.
#[derive(Clone, Debug)]
pub(super) struct Try {
    pub(super) kind: RemedyKind,
    pub(super) spec: Spec,
    pub(super) trial: Trial,
    pub(super) drink: Drink,
}

impl Try {
    pub(super) const fn of(kind: RemedyKind, spec: Spec, trial: Trial, drink: Drink) -> Self {
        Self {
            kind,
            spec,
            trial,
            drink,
        }
    }
}

/// Every lock, limit and technique of a drink, each changed alone.
pub(super) fn tries(original: &Original<'_>, pantry: &mut Pantry) -> Vec<Try> {
    let mut all = of_pours(original);
    all.extend(of_limits(original));
    all.extend(of_techniques(original, pantry));
    all
}

/// The drink as it is with its pours or its spec changed; amounts and ice stay.
fn changed(
    original: &Original<'_>,
    kind: RemedyKind,
    change: impl FnOnce(&mut Spec, &mut Trial),
) -> Try {
    let (mut spec, mut trial) = (original.spec.clone(), original.trial.clone());
    change(&mut spec, &mut trial);
    Try::of(kind, spec, trial, original.drink.clone())
}

/// Locked pours unlocked, limited ones let go.
fn of_pours(original: &Original<'_>) -> Vec<Try> {
    let has_limits = |pour: &Pour| pour.least().is_some() || pour.most().is_some();
    let pours = original.trial.pours.iter().enumerate();
    let tries = pours.filter_map(|(place, pour)| {
        let ruled = original.standing.of_pour(place);
        let kind = if pour.locked {
            RemedyKind::Unlock(place)
        } else if has_limits(pour) && (pour.least(), pour.most()) != ruled {
            RemedyKind::PourLimits(place)
        } else {
            return None;
        };
        Some(changed(original, kind, |_, trial| {
            let Some(pour) = trial.pours.get_mut(place) else {
                return;
            };
            match kind {
                RemedyKind::Unlock(_) => pour.locked = false,
                _ if ruled == (None, None) => pour.limits_off = true,
                _ => (pour.minimum, pour.maximum) = ruled,
            }
        }))
    });
    tries.collect()
}

/// Limits of the drink as a whole and what is held.
fn of_limits(original: &Original<'_>) -> Vec<Try> {
    let spec = &original.spec;
    let bounds = Bounded::ALL.into_iter();
    let mut all: Vec<Try> = bounds
        .filter(|figure| {
            let bound = spec.bounds.of(*figure);
            bound.binds() && bound != original.standing.bounds.of(*figure)
        })
        .map(|figure| {
            let ruled = *original.standing.bounds.of(figure);
            changed(original, RemedyKind::Bound(figure), |spec, _| {
                let bound = spec.bounds.of_mut(figure);
                if ruled.binds() {
                    *bound = ruled;
                } else {
                    bound.on = false;
                }
            })
        })
        .collect();
    if spec.bounds.glass {
        all.push(changed(original, RemedyKind::Glass, |spec, _| {
            spec.bounds.glass = false;
        }));
    }
    let rule = spec.balancing.scale_rule;
    if rule != ScaleRule::None {
        all.push(changed(original, RemedyKind::Hold(rule), |spec, _| {
            spec.balancing.scale_rule = ScaleRule::None;
        }));
    }
    all
}

/// Every other technique, with its usual dilution; a blender keeps the ice that is measured. Vessel
/// and places stay. Nobody shakes, stirs, throws or blends what is carbonated.
fn of_techniques(original: &Original<'_>, pantry: &mut Pantry) -> Vec<Try> {
    let now = original.trial.technique;
    let lines = original.drink.lines.iter();
    let fizzes = lines
        .filter(|line| line.added == Added::With && line.amount > 0.0)
        .any(|line| line.contents.per_gram.co2_g > 0.0);
    let methods = Method::ALL.into_iter();
    let allowed = methods.filter(|method| original.standing.allows(*method));
    let others = allowed.filter(|method| *method != now.method && !(fizzes && is_rough(*method)));
    let tries = others.filter_map(|method| {
        let dilution = match (method, now.dilution) {
            (Method::Blended, Dilution::IceGrams(grams)) => Dilution::IceGrams(grams),
            _ => Dilution::ByMethod,
        };
        let mut trial = original.trial.clone();
        trial.technique = Technique {
            method,
            dilution,
            ..now
        };
        // What makes no drink is no remedy.
        let drink = Drink::of_trial(original.document, &trial, pantry).ok()?;
        let kind = RemedyKind::Technique(now.method);
        Some(Try::of(kind, original.spec.clone(), trial, drink))
    });
    tries.collect()
}

/// Whether a technique drives the gas out of a drink.
const fn is_rough(method: Method) -> bool {
    matches!(
        method,
        Method::Shaken | Method::Stirred | Method::Thrown | Method::Blended
    )
}
