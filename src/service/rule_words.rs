//! Rules on words: the story, the name, and what has to be stated.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_garnish::has_garnish;
use super::rule_pours::Counts;
use super::rule_practices::unstated_inside;
use crate::model::{Amount, Reader, Required, SheetPart};

/// Words as Unicode has them: runs of letters and digits, with what joins them inside.
///
/// "Don't" and "well-made" are one word each, a dash between blanks is none.
pub(super) fn words_in(text: &str) -> usize {
    let words = text.split_whitespace();
    words
        .flat_map(|word| word.split(['–', '—', '/']))
        .filter(|word| word.chars().any(char::is_alphanumeric))
        .count()
}

fn counted(words: usize) -> String {
    if words == 1 {
        "1 word".to_owned()
    } else {
        format!("{words} words")
    }
}

pub(super) fn story(ask: &Ask<'_>, least: u32, most: u32) -> Outcome {
    let found = words_in(&ask.handed.spec.entry.story);
    let said = format!("The story has {}.", counted(found));
    let (least, most) = (least as usize, most as usize);
    let remedy = if found < least {
        format!("Write {} more.", counted(least - found))
    } else if found > most {
        format!("Leave out {}.", counted(found - most))
    } else {
        return Outcome::kept(said);
    };
    Outcome::broken(said, remedy).act(Act::Go(Field::Story))
}

fn is_apart(letter: char) -> bool {
    !letter.is_alphanumeric()
}

/// Whether words stand in a text as whole words, whatever their case.
fn holds_words(text: &str, words: &str) -> bool {
    let split = |text: &str| -> Vec<String> {
        let text = text.to_lowercase();
        let parts = text.split(is_apart).filter(|part| !part.is_empty());
        parts.map(str::to_owned).collect()
    };
    let (text, words) = (split(text), split(words));
    !words.is_empty() && text.windows(words.len()).any(|part| *part == *words)
}

pub(super) fn name(ask: &Ask<'_>, banned: &[String]) -> Outcome {
    let name = ask.handed.spec.name.trim();
    if name.is_empty() {
        return Outcome::unknown("The drink has no name.", "Name it.").act(Act::Go(Field::Name));
    }
    let found: Vec<&str> = banned
        .iter()
        .filter(|word| holds_words(name, word))
        .map(String::as_str)
        .collect();
    if !found.is_empty() {
        return Outcome::broken(
            format!("The name says \"{}\".", found.join("\", \"")),
            "Take another name.",
        )
        .act(Act::Go(Field::Name));
    }
    Outcome::asked(
        format!("\"{name}\" holds none of the words; whether it offends anybody, a person says."),
        "Look whether it could offend, or speaks of drugs, abuse, politics or a trade mark. Then tick it.",
    )
}

pub(super) fn stated(ask: &Ask<'_>, required: &[Required]) -> Outcome {
    let missing: Vec<(Required, String)> = required
        .iter()
        .filter_map(|one| Some((*one, missing(ask, *one)?)))
        .collect();
    let closed: Vec<Required> = required
        .iter()
        .copied()
        .filter(|one| is_closed(ask, *one))
        .collect();
    let first = missing.first().map(|(one, _)| *one);
    let Some(first) = first.or(closed.first().copied()) else {
        if let Some(unknown) = inside_unknown(ask, required) {
            return unknown;
        }
        return Outcome::kept(if hidden(ask, required) {
            "All of it is stated; the maker is kept, but left out of the sheet."
        } else {
            "All of it is stated."
        });
    };
    let (mut said, mut remedy) = (Vec::new(), Vec::new());
    if !missing.is_empty() {
        let names: Vec<&str> = missing.iter().map(|(one, _)| one.name()).collect();
        said.extend(missing.iter().map(|(_, said)| said.clone()));
        remedy.push(format!("State: {}.", names.join(", ")));
    }
    if !closed.is_empty() {
        let names: Vec<&str> = closed.iter().map(|one| one.name()).collect();
        let names = names.join(", ");
        said.push(format!("Judges do not read: {names}."));
        remedy.push(format!("On the sheet, open it to judges: {names}."));
    }
    Outcome::broken(said.join(" "), remedy.join(" ")).act(Act::Go(field_of(first)))
}

/// Whether it stands in a part of the sheet that judges do not get.
fn is_closed(ask: &Ask<'_>, one: Required) -> bool {
    let part = match one {
        Required::Name => return false,
        Required::Amounts => SheetPart::Amounts,
        Required::Method => SheetPart::Method,
        Required::Glass => SheetPart::Glass,
        Required::Garnish => SheetPart::Garnish,
        Required::Story => SheetPart::Story,
        Required::Maker => SheetPart::Maker,
        Required::HouseMade => SheetPart::HouseMade,
        Required::Allergens => SheetPart::Allergens,
    };
    !ask.handed.spec.entry.open_to(part).lets(Reader::Judges)
}

/// Allergens are asked for, and those of something in what is made in house are not known.
fn inside_unknown(ask: &Ask<'_>, required: &[Required]) -> Option<Outcome> {
    if !required.contains(&Required::Allergens) {
        return None;
    }
    let inside = unstated_inside(ask).join(", ");
    (!inside.is_empty()).then(|| {
        Outcome::unknown(
            format!("Allergens are not known of: {inside}."),
            format!("Read the label and enter the allergens of: {inside}."),
        )
        .act(Act::Go(Field::Allergens))
    })
}

fn hidden(ask: &Ask<'_>, required: &[Required]) -> bool {
    required.contains(&Required::Maker) && ask.handed.spec.entry.hide_maker
}

const fn field_of(one: Required) -> Field {
    match one {
        Required::Name => Field::Name,
        Required::Amounts => Field::Pours,
        Required::Method => Field::Method,
        Required::Glass => Field::Glass,
        Required::Garnish => Field::Garnish,
        Required::Story => Field::Story,
        Required::Maker => Field::Maker,
        Required::HouseMade => Field::HouseMade,
        Required::Allergens => Field::Allergens,
    }
}

/// What is missing, in a sentence; `None` where it is stated.
fn missing(ask: &Ask<'_>, one: Required) -> Option<String> {
    let (spec, entry) = (ask.handed.spec, &ask.handed.spec.entry);
    let blank = |text: &str, said: &str| text.trim().is_empty().then(|| said.to_owned());
    match one {
        Required::Name => blank(&spec.name, "The drink has no name."),
        Required::Amounts => amounts(ask),
        // A blank method is told by the technique.
        Required::Method => None,
        Required::Glass => blank(&spec.glass.name, "The glass has no name."),
        Required::Garnish => (!has_garnish(ask)).then(|| "No garnish is named.".to_owned()),
        Required::Story => blank(&entry.story, "There is no story."),
        Required::Maker => blank(&entry.maker, "Nobody is named as the maker."),
        Required::HouseMade => house_made(ask),
        Required::Allergens => allergens(ask),
    }
}

fn amounts(ask: &Ask<'_>) -> Option<String> {
    let pours = &ask.poured.pours;
    if pours.is_empty() {
        return Some("Nothing is poured yet.".to_owned());
    }
    // What is laid on needs no number.
    let in_words = pours
        .iter()
        .filter(|fact| fact.counts != Counts::Garnish)
        .filter(|fact| matches!(fact.pour.amount, Amount::Words(_)));
    let names: Vec<&str> = in_words.map(|fact| fact.name).collect();
    (!names.is_empty()).then(|| format!("No number for: {}.", names.join(", ")))
}

fn house_made(ask: &Ask<'_>) -> Option<String> {
    let document = ask.handed.document;
    let all = ask.poured.all_preparations(document);
    let made = all.iter().filter_map(|id| document.preparations.get(*id));
    let blank = made.filter(|made| made.inputs.is_empty() || made.steps.is_empty());
    let names: Vec<&str> = blank.map(|made| made.name.as_str()).collect();
    (!names.is_empty()).then(|| format!("No recipe for: {}.", names.join(", ")))
}

fn allergens(ask: &Ask<'_>) -> Option<String> {
    let pours = ask.poured.pours.iter();
    let blank = pours.filter(|fact| fact.item.allergens.trim().is_empty());
    let garnish = ask.poured.garnish.iter();
    let garnish = garnish.filter(|own| own.item.allergens.trim().is_empty());
    let mut names: Vec<&str> = blank.map(|fact| fact.name).collect();
    names.extend(garnish.map(|own| own.name));
    (!names.is_empty()).then(|| format!("Allergens are not known of: {}.", names.join(", ")))
}
