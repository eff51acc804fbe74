//! Rules on several pours together, shared out among them.

use super::rule_bounds::{Build, End};
use super::rule_pours::{Counts, PourFact};
use super::rule_product::product_of;
use crate::balance::step_of;
use crate::model::{AlcoholMeasure, RuleKind, ScaleRule, VolumeOf};
use crate::units::trimmed;

/// Nothing that anyone could pour, ml.
const NOTHING_ML: f64 = 1.0e-6;

/// What a rule on several pours together asks of each, in its own measure.
pub(super) struct Shares {
    pub(super) end: End,
    /// Place and amount.
    pub(super) amounts: Vec<(usize, f64)>,
    /// Why nothing that moves can keep it, in words that follow the rule's.
    pub(super) impossible: Option<String>,
}

impl Shares {
    /// What a rule asks of pours; nothing for rules of another kind.
    pub(super) fn of(build: &Build<'_>, asks: &RuleKind) -> Vec<Self> {
        let pours = &build.poured.pours;
        match asks {
            RuleKind::ProductAtLeast { product, ml } | RuleKind::ProductAtMost { product, ml } => {
                let end = if matches!(asks, RuleKind::ProductAtLeast { .. }) {
                    End::Least
                } else {
                    End::Most
                };
                let Some(product) = product_of(build.handed, &build.poured, product) else {
                    return Vec::new();
                };
                let of_it = pours.iter().filter(|fact| fact.id == product.id);
                shared(build, &of_it.collect::<Vec<_>>(), end, *ml)
            }
            RuleKind::AlcoholAtMost {
                measure: AlcoholMeasure::AlcoholicMl,
                most,
            } => {
                let alcoholic = pours.iter().filter(|fact| fact.is_alcoholic());
                shared(build, &alcoholic.collect::<Vec<_>>(), End::Most, *most)
            }
            RuleKind::HouseMade {
                most_ml: Some(most),
                ..
            } => {
                let made = build.poured.preparations().into_iter();
                made.flat_map(|id| {
                    let of_it = pours.iter().filter(|fact| fact.made == Some(id));
                    let of_it = of_it.filter(|fact| fact.counts != Counts::Garnish);
                    shared(build, &of_it.collect::<Vec<_>>(), End::Most, *most)
                })
                .collect()
            }
            RuleKind::Volume {
                of: VolumeOf::Poured,
                least,
                most,
            } => {
                let all: Vec<&PourFact<'_>> = pours.iter().collect();
                let ends = [(End::Least, least), (End::Most, most)];
                let stated = ends.into_iter().filter_map(|(end, ml)| Some((end, (*ml)?)));
                stated
                    .filter(|(end, ml)| !is_held_within(build, &all, *end, *ml))
                    .flat_map(|(end, ml)| shared(build, &all, end, ml))
                    .collect()
            }
            _ => Vec::new(),
        }
    }
}

/// Whether what is held keeps the poured total within the rule anyhow.
fn is_held_within(build: &Build<'_>, all: &[&PourFact<'_>], end: End, ml: f64) -> bool {
    if build.handed.spec.balancing.scale_rule != ScaleRule::PouredTotal {
        return false;
    }
    let measures = &build.handed.document.measures;
    let total: f64 = all.iter().filter_map(|fact| fact.ml).sum();
    let steps = all.iter().filter_map(|fact| {
        let step = step_of(fact.pour, measures);
        fact.ml_per_unit.map(|ml| ml * step)
    });
    let slack = steps.fold(0.0, f64::max);
    match end {
        End::Least => total - slack >= ml,
        End::Most => total + slack <= ml,
    }
}

/// A limit of pours together, in proportion to what each pours now; of nothing in equal parts.
///
/// What does not move takes its part first.
fn shared(build: &Build<'_>, pours: &[&PourFact<'_>], end: End, ml: f64) -> Vec<Shares> {
    let (still, free): (Vec<&PourFact<'_>>, Vec<&PourFact<'_>>) = pours
        .iter()
        .partition(|fact| build.is_still(fact.place) || fact.ml_per_unit.is_none());
    let taken: f64 = still.iter().filter_map(|fact| fact.ml).sum();
    let left = ml - taken;
    if pours.is_empty() || end == End::Least && left <= NOTHING_ML {
        return Vec::new();
    }
    let beyond = match end {
        End::Least => free.is_empty(),
        End::Most => left < -NOTHING_ML,
    };
    if beyond {
        return vec![Shares {
            end,
            amounts: Vec::new(),
            impossible: Some(impossible(&still, taken, left.abs())),
        }];
    }
    let all: f64 = free.iter().filter_map(|fact| fact.ml).sum();
    let amounts = free.iter().filter_map(|fact| {
        let per_unit = fact.ml_per_unit.filter(|ml| *ml > 0.0)?;
        let share = if all > NOTHING_ML {
            fact.ml? / all
        } else {
            1.0 / free.len() as f64
        };
        Some((fact.place, left.max(0.0) * share / per_unit))
    });
    vec![Shares {
        end,
        amounts: amounts.collect(),
        impossible: None,
    }]
}

fn impossible(still: &[&PourFact<'_>], taken: f64, apart: f64) -> String {
    let names: Vec<&str> = still.iter().map(|fact| fact.name).collect();
    let (taken, apart) = (trimmed(taken, 2), trimmed(apart, 2));
    format!(
        "but {} is locked or held at {taken} ml: {apart} ml apart. Unlock it.",
        names.join(", ")
    )
}
