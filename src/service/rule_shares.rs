//! Rules on several pours together, shared out among them.

use super::rule_bounds::End;
use super::rule_build::Build;
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
        match asks {
            RuleKind::ProductAtLeast { product, ml } => of_product(build, product, End::Least, *ml),
            RuleKind::ProductAtMost { product, ml } => of_product(build, product, End::Most, *ml),
            RuleKind::AlcoholAtMost {
                measure: AlcoholMeasure::AlcoholicMl,
                most,
            } => {
                let pours = build.poured.pours.iter();
                let alcoholic: Vec<_> = pours.filter(|fact| fact.is_alcoholic()).collect();
                shared(build, &alcoholic, End::Most, *most)
            }
            RuleKind::HouseMade {
                most_ml: Some(most),
                ..
            } => of_house_made(build, *most),
            RuleKind::Volume {
                of: VolumeOf::Poured,
                least,
                most,
            } => of_poured(build, *least, *most),
            _ => Vec::new(),
        }
    }
}

fn of_product(build: &Build<'_>, product: &str, end: End, ml: f64) -> Vec<Shares> {
    let Some(product) = product_of(build.handed, &build.poured, product) else {
        return Vec::new();
    };
    let pours: Vec<_> = build.poured.of_row(product.id).collect();
    shared(build, &pours, end, ml)
}

/// Each house-made ingredient on its own, garnish aside.
fn of_house_made(build: &Build<'_>, most_ml: f64) -> Vec<Shares> {
    let pours = &build.poured.pours;
    let made = build.poured.preparations().into_iter();
    made.flat_map(|id| {
        let of_it = pours.iter().filter(|fact| fact.made == Some(id));
        let of_it = of_it.filter(|fact| fact.counts != Counts::Garnish);
        shared(build, &of_it.collect::<Vec<_>>(), End::Most, most_ml)
    })
    .collect()
}

/// The volume before ice, unless what is held keeps it anyhow.
fn of_poured(build: &Build<'_>, least: Option<f64>, most: Option<f64>) -> Vec<Shares> {
    let all: Vec<&PourFact<'_>> = build.poured.pours.iter().collect();
    let ends = [(End::Least, least), (End::Most, most)];
    let stated = ends.into_iter().filter_map(|(end, ml)| Some((end, ml?)));
    stated
        .filter(|(end, ml)| !is_held_within(build, &all, *end, *ml))
        .flat_map(|(end, ml)| shared(build, &all, end, ml))
        .collect()
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
    let parts = in_proportion(&free, left.max(0.0));
    let parts = within_own(build, &free, end, left).unwrap_or(parts);
    let amounts = free.iter().zip(parts).filter_map(|(fact, part)| {
        let per_unit = fact.ml_per_unit.filter(|ml| *ml > 0.0)?;
        Some((fact.place, part / per_unit))
    });
    vec![Shares {
        end,
        amounts: amounts.collect(),
        impossible: None,
    }]
}

/// So many ml among pours, in proportion to what they pour now; of nothing in equal parts.
fn in_proportion(pours: &[&PourFact<'_>], ml: f64) -> Vec<f64> {
    let poured = |fact: &PourFact<'_>| fact.ml.unwrap_or(0.0);
    let all: f64 = pours.iter().map(|fact| poured(fact)).sum();
    let even = 1.0 / pours.len().max(1) as f64;
    let share = |fact: &PourFact<'_>| {
        if all > NOTHING_ML {
            poured(fact) / all
        } else {
            even
        }
    };
    pours.iter().map(|fact| ml * share(fact)).collect()
}

/// The same, where pours with limits of their own take no more (or no less) than these leave, and the
/// others make up for it; `None` where that is not enough.
fn within_own(build: &Build<'_>, pours: &[&PourFact<'_>], end: End, ml: f64) -> Option<Vec<f64>> {
    let mut parts: Vec<Option<f64>> = vec![None; pours.len()];
    loop {
        let left = ml - parts.iter().flatten().sum::<f64>();
        let open = |place: &usize| parts[*place].is_none();
        let open: Vec<usize> = (0..pours.len()).filter(open).collect();
        let too_much = end == End::Most && left < -NOTHING_ML;
        let too_little = end == End::Least && open.is_empty() && left > NOTHING_ML;
        if too_much || too_little {
            return None;
        }
        let free: Vec<&PourFact<'_>> = open.iter().map(|place| pours[*place]).collect();
        let shares = in_proportion(&free, left.max(0.0));
        let mut any_cut = false;
        for ((place, fact), share) in open.iter().zip(&free).zip(&shares) {
            if let Some(own) = cut_by(build, fact, end, *share) {
                parts[*place] = Some(own);
                any_cut = true;
            }
        }
        if !any_cut {
            for (place, share) in open.into_iter().zip(shares) {
                parts[place] = Some(share);
            }
            return parts.into_iter().collect();
        }
    }
}

/// The own limit of a pour that its share does not keep, ml.
fn cut_by(build: &Build<'_>, fact: &PourFact<'_>, end: End, share: f64) -> Option<f64> {
    let pour = build.done.trial.pours.get(fact.place)?;
    let own = match end {
        End::Least => pour.maximum,
        End::Most => pour.minimum,
    };
    let own = own? * fact.ml_per_unit?;
    let cuts = match end {
        End::Least => share > own,
        End::Most => share < own,
    };
    cuts.then_some(own)
}

fn impossible(still: &[&PourFact<'_>], taken: f64, apart: f64) -> String {
    let names: Vec<&str> = still.iter().map(|fact| fact.name).collect();
    let (taken, apart) = (trimmed(taken, 2), trimmed(apart, 2));
    format!(
        "but {} is locked or held at {taken} ml: {apart} ml apart. Unlock it.",
        names.join(", ")
    )
}
