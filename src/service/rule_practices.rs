//! Rules on what is not done and what is not in it: found where the document shows it, asked elsewhere.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_ingredients::garnish_in_words;
use super::rule_pours::{Counts, PourFact, is_alcoholic};
use crate::kitchen::is_egg;
use crate::model::{
    Ingredient, Method, Practice, Preparation, PreparationId, Process, Step, holds_allergen,
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
            let hint = hint(ask, practice);
            let said = hint.map_or_else(
                || "Nothing in the recipe shows it, which does not rule it out.".to_owned(),
                |word| format!("The method or the garnish says \"{word}\"."),
            );
            let remedy = format!(
                "Look whether there is any: {}. Then tick it.",
                practice.name()
            );
            Outcome::asked(said, remedy)
        }
    }
}

fn is_dairy(item: &Ingredient) -> bool {
    let kind = item.kind.trim().to_lowercase();
    matches!(kind.as_str(), "dairy" | "dairy solid")
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
        Practice::RawEgg => poured(ask, "Raw egg", |fact| is_egg(fact.item)),
        Practice::Dairy => poured(ask, "Milk or cream", |fact| {
            is_dairy(fact.item) || holds_allergen(&fact.item.allergens, "milk")
        }),
        _ => None,
    }
}

/// Pours that are or hold something.
fn poured(ask: &Ask<'_>, what: &str, is: impl Fn(&PourFact<'_>) -> bool) -> Option<Shown> {
    let pours = ask.poured.pours.iter();
    let found: Vec<&PourFact<'_>> = pours.filter(|fact| is(fact)).collect();
    if found.is_empty() {
        return None;
    }
    let names: Vec<&str> = found.iter().map(|fact| fact.name).collect();
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
    let unsure: Vec<&PourFact<'_>> = pours
        .filter(|fact| by_nature(fact.item) || rules_out(fact, group) != Some(true))
        .collect();
    let mut names: Vec<&str> = unsure.iter().map(|fact| fact.name).collect();
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

fn rules_out(fact: &PourFact<'_>, group: &str) -> Option<bool> {
    rules_out_allergens(&fact.item.allergens, &[group])
}

pub(super) fn no_allergen(ask: &Ask<'_>, allergen: &str) -> Outcome {
    let holds = |fact: &PourFact<'_>| {
        holds_allergen(&fact.item.allergens, allergen)
            || allergen == "eggs" && is_egg(fact.item)
            || allergen == "milk" && is_dairy(fact.item)
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
            !possible && rules_out(fact, allergen).is_none()
        })
        .collect();
    if !unstated.is_empty() {
        let names: Vec<&str> = unstated.iter().map(|fact| fact.name).collect();
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
