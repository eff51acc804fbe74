//! Rules on which and how many ingredients there are.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_garnish::garnish_in_words;
use super::rule_pours::{Counts, PourFact, batch_of, made_by, makers};
use super::rule_product::no_product;
use super::rule_title::in_ml;
use crate::model::{Counted, Document, IngredientId, PreparationId, RuleKind};
use std::collections::BTreeSet;

/// What counts as an ingredient under a rule, by name, each once.
pub(super) fn counted<'a>(ask: &'a Ask<'a>, counts: Counted) -> (Vec<&'a str>, Vec<usize>) {
    let mut seen = BTreeSet::new();
    let (mut names, mut places) = (Vec::new(), Vec::new());
    let pours = ask.poured.pours.iter();
    for fact in pours.filter(|fact| does_count(fact.counts, counts)) {
        if seen.insert(fact.id) {
            names.push(fact.name);
        }
        places.push(fact.place);
    }
    if counts.garnish {
        names.extend(ask.poured.garnish.iter().map(|own| own.name));
        // Words beside a garnish that is known may say more of it, or name another one.
        let is_known = pours_garnish(ask) || !ask.poured.garnish.is_empty();
        if !is_known && garnish_in_words(ask) {
            names.push("the garnish");
        }
    }
    (names, places)
}

/// Whether a pour counts as an ingredient.
pub(super) const fn does_count(what: Counts, counts: Counted) -> bool {
    match what {
        Counts::Measured => true,
        Counts::Drops => counts.drops,
        Counts::Garnish => counts.garnish,
        Counts::Solid => counts.solids,
        Counts::Water => counts.water,
    }
}

fn pours_garnish(ask: &Ask<'_>) -> bool {
    let mut pours = ask.poured.pours.iter();
    pours.any(|fact| fact.counts == Counts::Garnish)
}

pub(super) fn ingredients(ask: &Ask<'_>, most: u32, counts: Counted) -> Outcome {
    let (names, places) = counted(ask, counts);
    if names.is_empty() && ask.handed.trial.pours.is_empty() {
        return Outcome::unknown("Nothing is poured yet.", "Pour something.")
            .act(Act::Go(Field::Pours));
    }
    let listed = names.join(", ");
    let said = match names.len() {
        0 => "Nothing that is poured counts.".to_owned(),
        1 => format!("1 counts: {listed}."),
        found => format!("{found} count: {listed}."),
    };
    let over = names.len().saturating_sub(most as usize);
    if over == 0 {
        let is_counted = names.contains(&"the garnish");
        let may_be_more = counts.garnish && !is_counted && garnish_in_words(ask);
        if may_be_more && names.len() == most as usize {
            return Outcome::asked(
                format!("{said} The words of the garnish may name another one."),
                "Look whether the garnish is all counted. Then tick it.",
            )
            .about(places);
        }
        return Outcome::kept(said).about(places);
    }
    let which = if over == 1 {
        format!("Drop one of: {listed}.")
    } else {
        format!("Drop {over} of: {listed}.")
    };
    Outcome::broken(format!("{said} That is {over} too many."), which)
        .about(places)
        .act(Act::Go(Field::Pours))
}

pub(super) fn only_of_its_kind(ask: &Ask<'_>, word: &str) -> Outcome {
    let Some(product) = ask.product(word) else {
        return no_product(word);
    };
    let kind = product.item.kind.trim().to_lowercase();
    if kind.is_empty() {
        return Outcome::unknown(
            format!("{} has no kind in the larder.", product.item.name),
            format!(
                "Give {} a kind, such as \"base spirit\".",
                product.item.name
            ),
        )
        .act(Act::Go(Field::Allergens));
    }
    let pours = ask.poured.pours.iter();
    let others: Vec<&PourFact<'_>> = pours
        .filter(|fact| fact.id != product.id && fact.item.kind.trim().to_lowercase() == kind)
        .collect();
    let guess = product.guess_words();
    if others.is_empty() {
        return of_its_kind_in_house(ask, product.id, &kind)
            .unwrap_or_else(|| Outcome::kept(format!("No other {kind} is poured.{guess}")));
    }
    let mut names: Vec<&str> = others.iter().map(|fact| fact.name).collect();
    names.dedup();
    let names = names.join(", ");
    Outcome::broken(
        format!("{kind} beside {}: {names}.{guess}", product.item.name),
        format!("Leave out or swap: {names}."),
    )
    .about(others.iter().map(|fact| fact.place).collect())
    .act(Act::Go(Field::Pours))
}

/// Another one of a kind in what is made in house, or something made of nobody knows what.
fn of_its_kind_in_house(ask: &Ask<'_>, product: &IngredientId, kind: &str) -> Option<Outcome> {
    let document = ask.handed.document;
    let mut unknown = Vec::new();
    for id in ask.poured.all_preparations(document) {
        let Some(made) = document.preparations.get(id) else {
            continue;
        };
        if made.inputs.is_empty() {
            unknown.push(made.name.as_str());
        }
        let other = parts(document, id).into_iter().find_map(|row| {
            let item = document.ingredients.get(row)?;
            let is_other = row != product && item.kind.trim().to_lowercase() == kind;
            is_other.then_some(&item.name)
        });
        if let Some(other) = other {
            let name = &made.name;
            return Some(
                Outcome::broken(
                    format!("{other} is another {kind}, and goes into {name}."),
                    format!("Make {name} without {other}."),
                )
                .act(Act::Go(Field::HouseMade)),
            );
        }
    }
    let names = unknown.join(", ");
    (!unknown.is_empty()).then(|| {
        Outcome::unknown(
            format!("Nothing says what it is made with: {names}."),
            format!("Write the inputs down of: {names}."),
        )
        .act(Act::Go(Field::HouseMade))
    })
}

/// Every ingredient that a preparation is made with, through nested ones, each once.
fn parts<'a>(document: &'a Document, id: &'a PreparationId) -> BTreeSet<&'a IngredientId> {
    let makers = makers(document);
    let (mut seen, mut found) = (BTreeSet::new(), BTreeSet::new());
    let mut open = vec![id];
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let inputs = document.preparations.get(id).into_iter();
        for input in inputs.flat_map(|made| &made.inputs) {
            match made_by(document, &makers, &input.source) {
                Some(nested) => open.push(nested),
                // A batch is one of what it is a batch of.
                None => found.extend(
                    batch_of(document, &input.source).or_else(|| document.row_of(&input.source)),
                ),
            }
        }
    }
    found
}

/// A preparation that is poured or garnishes the drink, with the pours of it.
struct House<'a> {
    id: &'a PreparationId,
    name: &'a str,
    pours: Vec<&'a PourFact<'a>>,
}

fn houses<'a>(ask: &'a Ask<'a>, garnish_counts: bool) -> Vec<House<'a>> {
    let named: BTreeSet<&PreparationId> = ask.poured.garnish.iter().map(|own| own.made).collect();
    let mut ids = ask.poured.preparations();
    ids.extend(&named);
    ids.into_iter()
        .filter_map(|id| {
            let pours = ask.poured.pours.iter();
            let pours: Vec<&PourFact<'_>> = pours
                .filter(|fact| fact.made == Some(id))
                .filter(|fact| garnish_counts || fact.counts != Counts::Garnish)
                .collect();
            let known = ask.handed.document.preparations.get(id)?;
            let is_named = garnish_counts && named.contains(&id);
            (is_named || !pours.is_empty()).then_some(House {
                id,
                name: &known.name,
                pours,
            })
        })
        .collect()
}

pub(super) fn house_made(ask: &Ask<'_>, asks: &RuleKind) -> Outcome {
    let RuleKind::HouseMade {
        most,
        most_ml,
        most_parts,
        garnish_counts,
    } = asks
    else {
        return Outcome::kept("");
    };
    let all = houses(ask, *garnish_counts);
    let names: Vec<&str> = all.iter().map(|house| house.name).collect();
    let places = all.iter().flat_map(|house| &house.pours);
    let places: Vec<usize> = places.map(|fact| fact.place).collect();
    let listed = names.join(", ");
    let said = match all.len() {
        0 => "Nothing poured is made in house.".to_owned(),
        _ => format!("Made in house: {listed}."),
    };
    let over = all.len().saturating_sub(*most as usize);
    if over > 0 {
        let remedy = format!("Buy, or drop, {over} of: {listed}.");
        return Outcome::broken(format!("{said} That is {over} too many."), remedy)
            .about(places)
            .act(Act::Go(Field::Pours));
    }
    let mut each = all.iter();
    let wrong = each.find_map(|house| one_house(ask.handed.document, house, *most_ml, *most_parts));
    if let Some(wrong) = wrong {
        return wrong;
    }
    if *garnish_counts && garnish_in_words(ask) {
        return Outcome::asked(
            format!("{said} Whether the garnish in words is made in house is not known."),
            "Look whether the garnish is made in house, and within the rule. Then tick it.",
        )
        .about(places);
    }
    Outcome::kept(said).about(places)
}

/// What is wrong with one house-made ingredient.
fn one_house(
    document: &Document,
    house: &House<'_>,
    most_ml: Option<f64>,
    most_parts: Option<u32>,
) -> Option<Outcome> {
    let places: Vec<usize> = house.pours.iter().map(|fact| fact.place).collect();
    let name = house.name;
    let poured = house
        .pours
        .iter()
        .filter(|fact| fact.counts != Counts::Garnish);
    if let Some(most) = most_ml {
        let ml: f64 = poured.clone().filter_map(|fact| fact.ml).sum();
        if ml > most + super::rule_amounts::ROUNDING {
            let (found, over) = (super::rule_amounts::apart(ml, most), in_ml(ml - most));
            let outcome = Outcome::broken(
                format!("{found} ml of {name} is poured."),
                format!("Pour {over} less of {name}."),
            );
            let act = match house.pours.as_slice() {
                [only] => Act::Pour {
                    place: only.place,
                    amount: only.pour.amount.value()? * most / ml,
                },
                _ => Act::Go(Field::Pours),
            };
            return Some(outcome.about(places).act(act));
        }
        if poured.clone().any(|fact| fact.ml.is_none()) {
            let outcome = Outcome::unknown(
                format!("How much of {name} is poured is not known in ml."),
                format!("Give {name} an amount in ml."),
            );
            return Some(outcome.about(places).act(Act::Go(Field::Pours)));
        }
    }
    let most = most_parts? as usize;
    let parts = parts(document, house.id);
    let names: Vec<&str> = parts
        .iter()
        .map(|id| document.ingredients.get(*id).map_or("?", |item| &item.name))
        .collect();
    let outcome = if parts.is_empty() {
        Outcome::unknown(
            format!("Nothing says what {name} is made with."),
            format!("Write the inputs of {name} down."),
        )
    } else if parts.len() > most {
        Outcome::broken(
            format!("{name} has {} parts: {}.", parts.len(), names.join(", ")),
            format!("Make {name} with {} fewer.", parts.len() - most),
        )
    } else {
        return None;
    };
    Some(outcome.about(places).act(Act::Go(Field::HouseMade)))
}
