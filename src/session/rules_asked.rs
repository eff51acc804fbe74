//! The drink on screen as the solver is asked about it under rules, and answers given back without
//! what only the rules had set.

use crate::balance::{Drink, Pantry, figures};
use crate::model::{Document, Pour, RuleSet, Spec, Trial};
use crate::rebalance::{Original, Remedy, RemedyKind, Standing, Swap, SwapAim, SwapError};
use crate::service::{Handed, Ruled, RuledLimit, rules_alone, under_rules};
use std::sync::Arc;

/// The rules that a drink is entered under; `None` without any.
pub fn rules_of<'a>(document: &'a Document, spec: &Spec) -> Option<&'a Arc<RuleSet>> {
    document.rule_sets.get(spec.entry.rules.as_ref()?)
}

/// Works a trial out as it would be handed in, and looks at it.
pub(super) fn handed<T>(
    (document, spec, trial): (&Document, &Spec, &Trial),
    today: Option<&str>,
    pantry: &mut Pantry,
    look: impl FnOnce(&Handed<'_>) -> T,
) -> T {
    let drink = Drink::of_trial(document, trial, pantry).ok();
    let found = drink.as_ref().and_then(|drink| figures(drink).ok());
    look(&Handed {
        document,
        spec,
        trial,
        drink: drink.as_ref(),
        figures: found.as_ref(),
        today,
    })
}

/// A drink with its own limits, and tightened where it is entered under rules.
#[derive(Clone, Debug)]
pub(super) struct UnderRules<'a> {
    own: (&'a Spec, &'a Trial),
    ruled: Option<(Ruled, Standing)>,
}

impl<'a> UnderRules<'a> {
    pub(super) fn of(
        document: &'a Document,
        spec: &'a Spec,
        trial: &'a Trial,
        pantry: &mut Pantry,
    ) -> Self {
        let own = (spec, trial);
        let Some(set) = rules_of(document, spec) else {
            return Self { own, ruled: None };
        };
        let (ruled, standing) = handed((document, spec, trial), None, pantry, |handed| {
            let mut ruled = under_rules(handed, set);
            ruled.spec.trials.clone_from(&spec.trials);
            (ruled, standing(rules_alone(handed, set)))
        });
        Self {
            own,
            ruled: Some((ruled, standing)),
        }
    }

    /// The spec that the question is asked with.
    pub(super) fn spec(&self) -> &Spec {
        let ruled = self.ruled.as_ref();
        ruled.map_or(self.own.0, |(ruled, _)| &ruled.spec)
    }

    /// The trial that the question is asked with.
    pub(super) fn trial(&self) -> &Trial {
        let ruled = self.ruled.as_ref();
        ruled.map_or(self.own.1, |(ruled, _)| &ruled.trial)
    }

    /// What a swap or a remedy begins with.
    pub(super) fn original<'d>(
        &self,
        document: &'d Document,
        how: (SwapAim, crate::model::ScaleRule),
        pantry: &mut Pantry,
    ) -> Result<Original<'d>, SwapError> {
        let original = Original::of(document, self.spec(), self.trial(), how, pantry)?;
        let standing = self.ruled.as_ref().map(|(_, standing)| standing.clone());
        Ok(original.under(standing.unwrap_or_default()))
    }

    /// Takes out of a swap what only the rules had set.
    pub(super) fn give_back(&self, swap: &mut Swap) {
        let Some((ruled, _)) = &self.ruled else {
            return;
        };
        for (pour, was) in swap.trial.pours.iter_mut().zip(&swap.was) {
            let asked = was.and_then(|place| ruled.trial.pours.get(place));
            let own = was.and_then(|place| self.own.1.pours.get(place));
            if let (Some(asked), Some(own)) = (asked, own) {
                give_pour_back(pour, asked, own);
            }
        }
    }

    /// Takes out of a remedy what only the rules had set; what it lets go stays written down, off.
    pub(super) fn give_remedy_back(&self, remedy: &mut Remedy) {
        if self.ruled.is_none() {
            return;
        }
        self.give_back(&mut remedy.swap);
        remedy.bounds = self.own.0.bounds;
        match remedy.kind {
            RemedyKind::Bound(figure) => remedy.bounds.of_mut(figure).on = false,
            RemedyKind::Glass => remedy.bounds.glass = false,
            RemedyKind::PourLimits(place) => {
                let own = self.own.1.pours.get(place);
                let pour = remedy.swap.trial.pours.get_mut(place);
                if let (Some(pour), Some(own)) = (pour, own) {
                    (pour.minimum, pour.maximum, pour.limits_off) =
                        (own.minimum, own.maximum, true);
                }
            }
            _ => {}
        }
    }
}

/// Limits and notch of a pour are the person's again, unless the swap itself changed them.
fn give_pour_back(pour: &mut Pour, asked: &Pour, own: &Pour) {
    if pour.step == asked.step {
        pour.step = own.step;
    }
    let limits = |pour: &Pour| (pour.minimum, pour.maximum, pour.limits_off);
    if limits(pour) == limits(asked) {
        (pour.minimum, pour.maximum, pour.limits_off) = limits(own);
    } else if pour.minimum.is_none() && pour.maximum == asked.maximum {
        // A pour that was split may pour less than before.
        (pour.maximum, pour.limits_off) = (own.maximum, own.limits_off);
    }
}

fn standing(alone: Ruled) -> Standing {
    let pours = alone.trial.pours.iter();
    Standing {
        bounds: alone.spec.bounds,
        pours: pours.map(|pour| (pour.least(), pour.most())).collect(),
        methods: alone.methods,
    }
}

/// The rule behind a limit of a trial, in words: "the rules of Harbour Cup ask for at least 40 ml of
/// caraway spirit"; `None` where the person set it.
pub(super) fn rule_behind(document: &Document, trial: &Trial, limit: RuledLimit) -> Option<String> {
    let (spec, _) = document.trial(trial.id)?;
    let set = rules_of(document, spec)?;
    let handed = Handed {
        document,
        spec,
        trial,
        drink: None,
        figures: None,
        today: None,
    };
    let ruled = under_rules(&handed, set);
    ruled.words_of(limit).map(str::to_owned)
}
