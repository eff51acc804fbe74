//! What a target can be taken from: classics, trials, families' ratios, published ranges.

use super::open_document::Session;
use super::starting::{family_target, family_words};
use crate::balance::{Drink, Pantry};
use crate::model::{Document, Family, Point, Region, Source, SpecId, Target, TrialId};
use crate::rebalance::{LONGEST_NAME, nearest_in_region, part_name};
use crate::store::Builtin;
use crate::units::{Measures, number, percent_vol, trimmed};
use std::collections::HashMap;

/// Where a reference comes from, in the order of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AimGroup {
    /// A trial of the drink on screen.
    ThisDrink,
    /// A built-in classic.
    Classic,
    /// A trial of another drink of the document.
    OtherDrink,
}

/// Something with a balance point that a target may be taken from.
#[derive(Clone, Debug, PartialEq)]
pub struct AimReference {
    /// Name, different from every other reference's.
    pub name: String,
    /// Family or state, and its balance, in words.
    pub facts: String,
    /// Where it comes from.
    pub group: AimGroup,
    /// Balance point.
    pub point: Point,
}

/// A family's ratio as a target.
#[derive(Clone, Debug, PartialEq)]
pub struct FamilyAim {
    /// Name of the family and its ratio.
    pub name: String,
    /// What the ratio was poured with.
    pub poured: String,
    /// The target, computed from that pour.
    pub target: Target,
}

/// A published range as a target.
#[derive(Clone, Debug, PartialEq)]
pub struct RegionAim {
    /// The technique.
    pub technique: String,
    /// The ranges in words.
    pub ranges: String,
    /// The target; `None` without a drink to start from.
    pub target: Option<Target>,
    /// The drink lies in the range already.
    pub is_inside: bool,
}

/// Everything that a target may lie between: trials of the drink on screen, complete classics by
/// name, trials of other drinks; what cannot be served is left out.
pub fn aim_references(session: &mut Session) -> Vec<AimReference> {
    let document = session.document().clone();
    let here = session.selection().spec;
    let mut found = trials(&document, here, session.pantry());
    let complete = session
        .references()
        .iter()
        .filter(|known| known.unstated.is_empty());
    found.extend(complete.map(|known| {
        let reference = AimReference {
            name: part_name(&known.name),
            facts: format!("{} · {}", known.family, balance_words(&known.point)),
            group: AimGroup::Classic,
            point: known.point,
        };
        (reference, None)
    }));
    tell_apart(&mut found);
    let mut found: Vec<AimReference> = found.into_iter().map(|(one, _)| one).collect();
    // Trials stay in the order they were made.
    found.sort_by_cached_key(|known| {
        let is_classic = known.group == AimGroup::Classic;
        let name = is_classic.then(|| known.name.to_lowercase());
        (known.group, name)
    });
    found
}

/// A reference, and its number if it is a trial.
type Numbered = (AimReference, Option<TrialId>);

fn trials(document: &Document, here: Option<SpecId>, pantry: &mut Pantry) -> Vec<Numbered> {
    let mut found = Vec::new();
    for spec in &document.specs {
        for trial in &spec.trials {
            let served = Drink::of_trial(document, trial, pantry).and_then(|drink| drink.served());
            let Ok(served) = served else {
                continue;
            };
            let point = Point::from(&served);
            let reference = AimReference {
                name: part_name(&format!("{} – {}", spec.name, trial.name)),
                facts: format!("{} · {}", trial.state.name(), balance_words(&point)),
                group: if Some(spec.id) == here {
                    AimGroup::ThisDrink
                } else {
                    AimGroup::OtherDrink
                },
                point,
            };
            found.push((reference, Some(trial.id)));
        }
    }
    found
}

/// Trials whose name stands for something else, too, add their stable number to it.
fn tell_apart(found: &mut [Numbered]) {
    let mut times: HashMap<String, usize> = HashMap::new();
    for (known, _) in found.iter() {
        *times.entry(known.name.clone()).or_default() += 1;
    }
    for (known, number) in found {
        let Some(number) = number.filter(|_| times.get(&known.name) > Some(&1)) else {
            continue;
        };
        let number = format!(", no. {number}");
        let room = LONGEST_NAME.saturating_sub(number.chars().count());
        let stem: String = known.name.chars().take(room).collect();
        known.name = format!("{stem}{number}");
    }
}

/// "sweet 62 g/L, sour 8.1 g/L, 16.4 % vol".
fn balance_words(point: &Point) -> String {
    format!(
        "sweet {} g/L, sour {} g/L, {}",
        number(point.sweet_g_per_l, 0),
        number(point.sour_g_per_l, 1),
        percent_vol(point.strength_pct_vol)
    )
}

/// Every family's ratio, poured with its stated ingredients and computed like any drink.
pub fn family_aims(builtin: &Builtin, measures: &Measures, pantry: &mut Pantry) -> Vec<FamilyAim> {
    let families = builtin.families.iter();
    families
        .filter_map(|family| {
            Some(FamilyAim {
                name: family_words(family),
                poured: poured(builtin, family, measures),
                target: family_target(builtin, family, pantry)?,
            })
        })
        .collect()
}

/// "60 ml gin, 30 ml lemon juice, 30 ml syrup; shaken".
fn poured(builtin: &Builtin, family: &Family, measures: &Measures) -> String {
    let pours = family.pours.iter().filter_map(|pour| {
        let Source::Ingredient(id) = &pour.source else {
            return None;
        };
        let amount = pour.amount_text(pour.amount.value()?, measures);
        Some(format!("{amount} {}", builtin.larder.get(id)?.name))
    });
    let pours: Vec<String> = pours.collect();
    format!("{}; {}", pours.join(", "), family.technique.method.name())
}

/// Every published range, and the point of it that lies nearest to the drink.
pub fn region_aims(builtin: &Builtin, drink: Option<&Point>) -> Vec<RegionAim> {
    let regions = builtin.regions.iter();
    regions
        .map(|region| {
            let nearest = drink.map(|drink| nearest_in_region(region, drink));
            RegionAim {
                technique: region.technique.clone(),
                ranges: range_words(region),
                target: nearest.map(|found| Target::at(found.point, region_words(region))),
                is_inside: nearest.is_some_and(|found| found.is_inside),
            }
        })
        .collect()
}

/// "published range: shaken, from memory".
fn region_words(region: &Region) -> String {
    let memory = if region.from_memory {
        ", from memory"
    } else {
        ""
    };
    format!("published range: {}{memory}", region.technique)
}

/// "sweet 50–89, sour 7.6–9.4 g/L, 15–19.7 % vol".
fn range_words(region: &Region) -> String {
    let span = |(from, to): (f64, f64)| {
        if (to - from).abs() < 1.0e-9 {
            trimmed(from, 1)
        } else {
            format!("{}–{}", trimmed(from, 1), trimmed(to, 1))
        }
    };
    format!(
        "sweet {} g/L, sour {} g/L, {} % vol",
        span(region.sugar_g_per_l),
        span(region.acid_g_per_l),
        span(region.strength_pct_vol)
    )
}
