//! Which ingredient at hand a name means.

use super::recipe_import::{LineFound, MatchedBy};
use crate::kitchen::{contents, is_weighed, is_whole};
use crate::model::{Ingredient, IngredientId};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Words beside a name that do not make another thing of it (our choice, no source).
const BESIDE: [&str; 25] = [
    "fresh", "freshly", "squeezed", "pressed", "chilled", "cold", "top", "topped", "with", "up",
    "to", "of", "the", "some", "float", "floated", "good", "quality", "large", "small", "medium",
    "plain", "just", "more", "for",
];
/// Words behind a name that say how or how much, not what (our choice, no source).
const REMARKS: [&str; 24] = [
    "strained",
    "juiced",
    "rinse",
    "rinsed",
    "taste",
    "optional",
    "from",
    "freezer",
    "fridge",
    "room",
    "temperature",
    "on",
    "in",
    "at",
    "glass",
    "last",
    "then",
    "stirred",
    "shaken",
    "drop",
    "dash",
    "splash",
    "pinch",
    "about",
];
/// Most ingredients that are named as near.
const MOST_NEAR: usize = 5;

/// Names at hand, ready to be compared.
#[derive(Debug)]
pub(super) struct Shelf {
    items: Vec<Item>,
}

#[derive(Debug)]
struct Item {
    id: IngredientId,
    figures: Arc<Ingredient>,
    /// Its name, letters and digits of every word, in order.
    spelled: Vec<String>,
    words: BTreeSet<String>,
    /// Words outside of brackets, and within.
    outside: BTreeSet<String>,
    inside: BTreeSet<String>,
}

impl Shelf {
    /// Names of what is still offered.
    pub(super) fn of(larder: &BTreeMap<IngredientId, Arc<Ingredient>>) -> Self {
        let offered = larder.iter().filter(|(_, item)| !item.retired);
        let items = offered.map(|(id, item)| {
            let spelled = words(&item.name);
            let (outside, inside) = parted(&item.name);
            Item {
                id: id.clone(),
                figures: Arc::clone(item),
                words: spelled.iter().cloned().collect(),
                outside: words(&outside).into_iter().collect(),
                inside: words(&inside).into_iter().collect(),
                spelled,
            }
        });
        let items = items.filter(|item| !item.words.is_empty()).collect();
        Self { items }
    }

    /// What a name means: the surest way that leads to one ingredient only.
    pub(super) fn find(&self, name: &str) -> LineFound {
        let asked = Asked::of(name);
        if asked.bare.is_empty() {
            return LineFound::Unresolved { near: Vec::new() };
        }
        for (by, fits) in WAYS {
            let ids: Vec<&IngredientId> = self.ids(|item| fits(&asked, item)).collect();
            match ids.as_slice() {
                [] => {}
                [id] => {
                    let id = (*id).clone();
                    return LineFound::Matched { id, by };
                }
                more => {
                    let near = more.iter().take(MOST_NEAR);
                    return LineFound::Unresolved {
                        near: near.map(|id| (*id).clone()).collect(),
                    };
                }
            }
        }
        let near = self.ids(|item| {
            let bare = &asked.bare;
            let shared = item.words.intersection(bare).count();
            shared > 0 && (shared == bare.len() || item.outside.is_subset(bare))
        });
        LineFound::Unresolved {
            near: near.take(MOST_NEAR).cloned().collect(),
        }
    }

    /// The name of an ingredient on it.
    pub(super) fn name<'a>(&'a self, id: &'a IngredientId) -> &'a str {
        self.item(id).map_or(&id.0, |item| &item.name)
    }

    /// Whether an ingredient on it is weighed: a spoon or a cup of it holds air, too.
    pub(super) fn is_weighed(&self, id: &IngredientId) -> bool {
        self.item(id).is_some_and(|item| {
            is_whole(item) || contents(item).is_ok_and(|contents| is_weighed(item, &contents))
        })
    }

    fn item(&self, id: &IngredientId) -> Option<&Arc<Ingredient>> {
        let found = self.items.iter().find(|item| item.id == *id);
        found.map(|found| &found.figures)
    }

    fn ids(&self, fits: impl Fn(&Item) -> bool) -> impl Iterator<Item = &IngredientId> {
        let found = self.items.iter().filter(move |item| fits(item));
        found.map(|item| &item.id)
    }
}

/// A name as it is looked for.
#[derive(Debug)]
struct Asked {
    spelled: Vec<String>,
    words: BTreeSet<String>,
    /// Words that name something.
    bare: BTreeSet<String>,
}

impl Asked {
    fn of(name: &str) -> Self {
        let spelled = words(name);
        let names = |word: &&String| !BESIDE.contains(&word.as_str());
        Self {
            words: spelled.iter().cloned().collect(),
            bare: spelled.iter().filter(names).cloned().collect(),
            spelled,
        }
    }
}

type Fits = fn(&Asked, &Item) -> bool;

/// Ways of recognising, the surest first.
const WAYS: [(MatchedBy, Fits); 4] = [
    (MatchedBy::Name, |asked, item| item.spelled == asked.spelled),
    (MatchedBy::Words, |asked, item| item.words == asked.words),
    (MatchedBy::Words, |asked, item| item.words == asked.bare),
    // Part of a name may leave out what stands in brackets, or be just that.
    (MatchedBy::Part, |asked, item| {
        asked.bare.is_subset(&item.words)
            && (item.outside.is_subset(&asked.bare) || item.inside == asked.bare)
    }),
];

/// Whether a text only says how or how much, so that the name before it means the same without.
pub(super) fn is_remark(text: &str) -> bool {
    let known = |word: &String| {
        let word = word.as_str();
        let is_number = word.chars().all(char::is_numeric);
        is_number || BESIDE.contains(&word) || REMARKS.contains(&word)
    };
    words(text).iter().all(known)
}

/// What stands outside of brackets, and within.
fn parted(name: &str) -> (String, String) {
    let (mut outside, mut inside) = (String::new(), String::new());
    let mut depth = 0_usize;
    for letter in name.chars() {
        match letter {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            other if depth == 0 => outside.push(other),
            other => inside.push(other),
        }
        if matches!(letter, '(' | ')' | '[' | ']') {
            outside.push(' ');
            inside.push(' ');
        }
    }
    (outside, inside)
}

/// Words in lower case, without accents and plurals.
pub(super) fn words(text: &str) -> Vec<String> {
    let plain: String = text
        .chars()
        .flat_map(char::to_lowercase)
        .filter(|letter| !('\u{0300}'..='\u{036F}').contains(letter))
        .map(without_accent)
        .collect();
    let words = plain.split(|letter: char| !letter.is_alphanumeric());
    let words = words.filter(|word| !word.is_empty());
    words.map(singular).collect()
}

fn singular(word: &str) -> String {
    let stem = word.strip_suffix('s');
    let stem = stem.filter(|stem| stem.len() > 2 && !stem.ends_with('s'));
    stem.unwrap_or(word).to_owned()
}

/// The plain letter of Latin ones with an accent, of those that names of drinks carry.
const fn without_accent(letter: char) -> char {
    match letter {
        'à'..='å' | 'ā' | 'ă' | 'ą' => 'a',
        'ç' | 'ć' | 'č' => 'c',
        'è'..='ë' | 'ē' | 'ę' | 'ě' => 'e',
        'ì'..='ï' | 'ī' => 'i',
        'ñ' | 'ń' | 'ň' => 'n',
        'ò'..='ö' | 'ø' | 'ō' | 'ő' => 'o',
        'ù'..='ü' | 'ū' | 'ů' | 'ű' => 'u',
        'ý' | 'ÿ' => 'y',
        'š' | 'ś' => 's',
        'ž' | 'ź' | 'ż' => 'z',
        'ł' => 'l',
        other => other,
    }
}
