//! Rules on what is not done and what is not in it: found where the document shows it, asked elsewhere.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_garnish::garnish_in_words;
use super::rule_pours::{Counts, PourFact, is_alcoholic};
use crate::kitchen::{is_egg, is_kind, unstated};
use crate::model::{
    Added, Ingredient, Method, Practice, Preparation, PreparationId, Process, Step, holds_allergen,
    may_hold_allergen, rules_out_allergens,
};
use std::collections::BTreeSet;

/// Words of a method or a garnish that speak of a practice; only hints, so that a person looks.
const HINTS: [(Practice, &[&str]); 6] = [
    (
        Practice::Flame,
        &[
            "flame", "flamed", "flaming", "fire", "torch", "torched", "ignite",
        ],
    ),
    (Practice::Smoke, &["smoke", "smoked", "smoking", "smoker"]),
    (Practice::Cryogens, &["nitrogen", "dry ice"]),
    (
        Practice::Foam,
        &["foam", "air", "pearls", "siphon", "spherified"],
    ),
    (
        Practice::CookedGarnish,
        &["dried", "dehydrated", "candied", "baked", "cooked"],
    ),
    (
        Practice::Machines,
        &["blender", "blend", "sonicator", "siphon", "machine"],
    ),
];

/// What shows that a practice is used.
struct Shown {
    what: String,
    remedy: String,
    places: Vec<usize>,
    field: Field,
}

pub(super) fn banned(ask: &Ask<'_>, practice: Practice) -> Outcome {
    if let Some(shown) = shown(ask, practice) {
        return Outcome::broken(shown.what, shown.remedy)
            .about(shown.places)
            .act(Act::Go(shown.field));
    }
    match practice {
        Practice::RawEgg => not_in_it(ask, "eggs", is_egg),
        Practice::Dairy => not_in_it(ask, "milk", is_dairy),
        _ => {
            let said = match (hint(ask, practice), planned_batch(ask, practice)) {
                (Some(word), _) => format!("The method or the garnish says \"{word}\"."),
                (None, Some(planned)) => planned,
                (None, None) => {
                    "Nothing in the recipe shows it, which does not rule it out.".to_owned()
                }
            };
            let remedy = format!(
                "Look whether there is any: {}. Then tick it.",
                practice.name()
            );
            Outcome::asked(said, remedy)
        }
    }
}

fn is_dairy(item: &Ingredient) -> bool {
    is_kind(item, "dairy") || is_kind(item, "dairy solid")
}

/// A word of the method or the garnish that speaks of it.
fn hint(ask: &Ask<'_>, practice: Practice) -> Option<&'static str> {
    let entry = &ask.handed.spec.entry;
    let text = format!("{} {}", entry.method.join(" "), entry.garnish).to_lowercase();
    let words: BTreeSet<&str> = text
        .split(|letter: char| !letter.is_alphanumeric())
        .collect();
    let known = HINTS.iter().find(|(of, _)| *of == practice)?.1.iter();
    known
        .copied()
        .find(|word| words.contains(word) || word.contains(' ') && text.contains(*word))
}

/// What the service plan mixes for several drinks at once. Every drink has such a plan, and what is
/// handed in need not follow it: so it breaks nothing by itself.
fn planned_batch(ask: &Ask<'_>, practice: Practice) -> Option<String> {
    let plan = &ask.handed.spec.service;
    let mut poured = ask.poured.pours.iter();
    let mixes =
        poured.any(|fact| fact.pour.added == Added::With && !plan.on_the_day.contains(fact.id));
    (practice == Practice::Batching && plan.serves > 1 && mixes).then(|| {
        format!(
            "The service plan mixes {} drinks beforehand, all that keeps; whether this one is made so, it does not say.",
            plan.serves
        )
    })
}

fn shown(ask: &Ask<'_>, practice: Practice) -> Option<Shown> {
    let technique = ask.handed.trial.technique.method;
    let by_technique = |what: &str, remedy: &str| {
        Some(Shown {
            what: what.to_owned(),
            remedy: remedy.to_owned(),
            places: Vec::new(),
            field: Field::Method,
        })
    };
    match practice {
        Practice::Batching if ask.handed.spec.service.bottling.on => Some(Shown {
            what: "The service plan bottles it beforehand.".to_owned(),
            remedy: "Take the bottling out of the plan: make each drink by itself.".to_owned(),
            places: Vec::new(),
            field: Field::Service,
        }),
        Practice::Batching if technique == Method::Bottled => by_technique(
            "It is bottled, with its water poured in.",
            "Make each drink by itself on ice.",
        ),
        Practice::Machines if technique == Method::Blended => {
            by_technique("It is made in a blender.", "Shake it, or use crushed ice.")
        }
        Practice::SpiritInfusion
        | Practice::FatWash
        | Practice::Foam
        | Practice::CookedGarnish
        | Practice::Carbonating => in_house(ask, practice),
        Practice::RawEgg => poured(ask, "Raw egg", is_egg),
        Practice::Dairy => poured(ask, "Milk or cream", |item| {
            is_dairy(item) || holds_allergen(&item.allergens, "milk")
        }),
        _ => None,
    }
}

/// Pours, and garnishes made in house, that are or hold something.
fn poured(ask: &Ask<'_>, what: &str, is: impl Fn(&Ingredient) -> bool) -> Option<Shown> {
    let pours = ask.poured.pours.iter();
    let found: Vec<&PourFact<'_>> = pours.filter(|fact| is(fact.item)).collect();
    let garnish = ask.poured.garnish.iter().filter(|own| is(own.item));
    let mut names: Vec<&str> = found.iter().map(|fact| fact.name).collect();
    names.extend(garnish.map(|own| own.name));
    if names.is_empty() {
        return None;
    }
    let names = names.join(", ");
    Some(Shown {
        what: format!("{what} is in it: {names}."),
        remedy: format!("Swap or leave out: {names}."),
        places: found.iter().map(|fact| fact.place).collect(),
        field: Field::Pours,
    })
}

/// The step of a preparation that does it, of what is poured or goes into it.
fn in_house(ask: &Ask<'_>, practice: Practice) -> Option<Shown> {
    let document = ask.handed.document;
    let all = if practice == Practice::CookedGarnish {
        garnishes(ask)
    } else {
        ask.poured.all_preparations(document)
    };
    all.into_iter().find_map(|id| {
        let made = document.preparations.get(id)?;
        let mut steps = made.steps.iter();
        let step = steps.find(|step| does(ask, made, step, practice))?;
        let (does, name) = (step.does.name(), &made.name);
        let pours = ask.poured.pours.iter();
        let places = pours.filter(|fact| fact.made == Some(id));
        Some(Shown {
            what: format!("A step of {name} is: {does}."),
            remedy: format!("Make {name} without that step, or swap it."),
            places: places.map(|fact| fact.place).collect(),
            field: Field::HouseMade,
        })
    })
}

/// Preparations that garnish the drink.
fn garnishes<'a>(ask: &Ask<'a>) -> BTreeSet<&'a PreparationId> {
    let pours = ask.poured.pours.iter();
    pours
        .filter(|fact| fact.counts == Counts::Garnish)
        .filter_map(|fact| fact.made)
        .chain(ask.poured.garnish.iter().map(|own| own.made))
        .collect()
}

fn does(ask: &Ask<'_>, made: &Preparation, step: &Step, practice: Practice) -> bool {
    match practice {
        Practice::SpiritInfusion => {
            matches!(step.does, Process::Infuse { .. } | Process::Soak { .. })
                && takes_alcohol(ask, made, step)
        }
        Practice::FatWash => {
            matches!(step.does, Process::FatWash { .. }) && takes_alcohol(ask, made, step)
        }
        Practice::Foam => matches!(step.does, Process::Aerate { .. }),
        Practice::CookedGarnish => matches!(
            step.does,
            Process::Heat { .. } | Process::Reduce { .. } | Process::Dehydrate { .. }
        ),
        Practice::Carbonating => matches!(step.does, Process::Carbonate { .. }),
        _ => false,
    }
}

/// Whether a step works on anything that holds alcohol, followed back to what goes in.
fn takes_alcohol(ask: &Ask<'_>, made: &Preparation, step: &Step) -> bool {
    let document = ask.handed.document;
    let mut open: Vec<&str> = step.from.iter().map(String::as_str).collect();
    let mut seen = BTreeSet::new();
    while let Some(stream) = open.pop() {
        if !seen.insert(stream) {
            continue;
        }
        let mut inputs = made.inputs.iter();
        let input = inputs.find(|input| input.name == stream);
        let row = input.and_then(|input| document.row_of(&input.source));
        if let Some(item) = row.and_then(|row| document.ingredients.get(row))
            && is_alcoholic(item)
        {
            return true;
        }
        let makers = made.steps.iter();
        let makers = makers.filter(|step| step.to.iter().any(|name| name == stream));
        open.extend(makers.flat_map(|step| step.from.iter().map(String::as_str)));
    }
    false
}

/// What is known of something that a label would declare: ruled out, or to be looked at.
fn not_in_it(ask: &Ask<'_>, group: &str, by_nature: impl Fn(&Ingredient) -> bool) -> Outcome {
    let pours = ask.poured.pours.iter();
    let is_unsure = |item: &Ingredient, made: Option<&PreparationId>| {
        let is_open = !unstated_in(ask, made).is_empty();
        is_open || by_nature(item) || rules_out(item, group) != Some(true)
    };
    let unsure: Vec<&PourFact<'_>> = pours
        .filter(|fact| is_unsure(fact.item, fact.made))
        .collect();
    let mut names: Vec<&str> = unsure.iter().map(|fact| fact.name).collect();
    let garnish = ask.poured.garnish.iter();
    let garnish = garnish.filter(|own| is_unsure(own.item, Some(own.made)));
    names.extend(garnish.map(|own| own.name));
    if garnish_in_words(ask) {
        names.push("the garnish");
    }
    if names.is_empty() && !ask.poured.pours.is_empty() {
        return Outcome::kept(format!("What is poured holds no {group}."));
    }
    if names.is_empty() {
        return Outcome::unknown("Nothing is poured yet.", "Pour something.")
            .act(Act::Go(Field::Pours));
    }
    Outcome::asked(
        format!("Nothing rules {group} out in: {}.", names.join(", ")),
        "Look at the labels and the recipes. Then tick it.",
    )
    .about(unsure.iter().map(|fact| fact.place).collect())
}

fn rules_out(item: &Ingredient, group: &str) -> Option<bool> {
    rules_out_allergens(&item.allergens, &[group])
}

/// What goes into something worked out of which nobody says whether it holds allergens.
///
/// Its own row names the allergens of what is known and cannot say that something else in it is not.
fn unstated_in(ask: &Ask<'_>, made: Option<&PreparationId>) -> Vec<String> {
    let document = ask.handed.document;
    let known = made.and_then(|id| Some((id, document.preparations.get(id)?)));
    known
        .filter(|(_, made)| made.is_worked_out())
        .map_or_else(Vec::new, |(id, _)| unstated(document, id))
}

/// "coconut water in house cordial" for everything that is poured or named as a garnish.
pub(super) fn unstated_inside(ask: &Ask<'_>) -> Vec<String> {
    let pours = ask.poured.pours.iter().map(|fact| (fact.name, fact.made));
    let garnish = ask.poured.garnish.iter();
    let garnish = garnish.map(|own| (own.name, Some(own.made)));
    let mut found: Vec<String> = Vec::new();
    for (name, made) in pours.chain(garnish) {
        let inside = unstated_in(ask, made).into_iter();
        let words = inside.map(|inside| format!("{inside} in {name}"));
        for words in words {
            if !found.contains(&words) {
                found.push(words);
            }
        }
    }
    found
}

pub(super) fn no_allergen(ask: &Ask<'_>, allergen: &str) -> Outcome {
    let holds = |item: &Ingredient| {
        holds_allergen(&item.allergens, allergen)
            || allergen == "eggs" && is_egg(item)
            || allergen == "milk" && is_dairy(item)
    };
    let what = format!("An allergen, {allergen},");
    if let Some(shown) = poured(ask, &what, holds) {
        return Outcome::broken(shown.what, shown.remedy)
            .about(shown.places)
            .act(Act::Go(Field::Pours));
    }
    let pours = ask.poured.pours.iter();
    let unstated: Vec<&PourFact<'_>> = pours
        .filter(|fact| {
            let possible = may_hold_allergen(&fact.item.allergens, allergen);
            let is_blank = rules_out(fact.item, allergen).is_none();
            !possible && is_blank && unstated_in(ask, fact.made).is_empty()
        })
        .collect();
    let garnish = ask.poured.garnish.iter();
    let garnish = garnish.filter(|own| own.item.allergens.trim().is_empty());
    let mut names: Vec<String> = unstated.iter().map(|fact| fact.name.to_owned()).collect();
    names.extend(garnish.map(|own| own.name.to_owned()));
    names.extend(unstated_inside(ask));
    if !names.is_empty() {
        let names = names.join(", ");
        return Outcome::unknown(
            format!("Allergens are not known of: {names}."),
            format!("Read the label and enter the allergens of: {names}."),
        )
        .about(unstated.iter().map(|fact| fact.place).collect())
        .act(Act::Go(Field::Allergens));
    }
    not_in_it(ask, allergen, |_| false)
}
