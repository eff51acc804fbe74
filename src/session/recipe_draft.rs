//! A drink begun from a recipe from elsewhere.

use super::edit::Edit;
use super::recipe_unresolved::{is_unresolved, unresolved, unresolved_name};
use super::recipe_words::fitted;
use super::starting::starts_locked;
use crate::model::{
    Added, Amount, Dilution, Document, Ingredient, IngredientId, Method, Pour, Source, Spec,
    SpecId, Technique, Trial, TrialId, batch_rows, free_name,
};
use crate::store::{Builtin, ImportedLine, ImportedRecipe, LineFound, MatchedBy};
use crate::units::Unit;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Longest remark on a pour, in characters.
const MAX_NOTE: usize = 1_000;

/// A drink begun from a recipe, not yet in the document.
#[derive(Clone, Debug)]
pub struct RecipeDraft {
    /// Adds the drink with the ingredients it needs, in one step.
    pub edit: Edit,
    /// What the reader should know: what the import said, and what the draft decided.
    pub notices: Vec<String>,
}

/// Ingredients among which an import looks: the document's own, then those of the built-in larder
/// that the document has nothing of the same name for.
///
/// Rows of batches and ingredients that wait to be chosen are left out.
pub fn import_larder(
    document: &Document,
    builtin: &Builtin,
) -> BTreeMap<IngredientId, Arc<Ingredient>> {
    let batches = batch_rows(document);
    let own = document.ingredients.iter();
    let own = own.filter(|(id, item)| !batches.contains(id) && !is_unresolved(item));
    let mut all: BTreeMap<IngredientId, Arc<Ingredient>> = own
        .map(|(id, item)| (id.clone(), Arc::clone(item)))
        .collect();
    let names: BTreeSet<String> = all.values().map(|item| item.name.to_lowercase()).collect();
    for (id, item) in &builtin.larder {
        if !document.ingredients.contains_key(id) && !names.contains(&item.name.to_lowercase()) {
            all.insert(id.clone(), Arc::clone(item));
        }
    }
    all
}

/// A drink with one trial from an imported recipe.
///
/// What was not recognised becomes an ingredient that waits to be chosen, its amount kept in words:
/// it brings nothing into the figures, and a notice says so, rather than counting as water.
pub fn recipe_draft(
    document: &Document,
    builtin: &Builtin,
    imported: &ImportedRecipe,
) -> RecipeDraft {
    let mut notices = imported.notices.clone();
    let mut needed = Needed {
        document,
        builtin,
        items: BTreeMap::new(),
    };
    let pours: Vec<Pour> = imported
        .lines
        .iter()
        .map(|line| needed.pour(line))
        .collect();
    let open = pours.iter().filter(|pour| needed.waits(pour)).count();
    if open > 0 {
        notices.push(format!(
            "{open} of {} ingredients wait to be chosen: the figures leave them out until then",
            pours.len()
        ));
    }
    let technique = technique(&imported.method, &mut notices);
    notices.extend(servings(&imported.makes));
    let trial = Trial {
        reason: "imported recipe".to_owned(),
        ..Trial::new(TrialId(1), "As imported", technique, pours)
    };
    let (name, entry) = fitted(imported, &mut notices);
    let spec = Spec {
        entry: Arc::new(entry),
        ..Spec::new(SpecId(0), name, vec![Arc::new(trial)])
    };
    let edit = Edit::AddSpec {
        spec: Box::new(spec),
        ingredients: needed.items.into_iter().collect(),
    };
    RecipeDraft { edit, notices }
}

/// Ingredients that the draft brings along.
struct Needed<'a> {
    document: &'a Document,
    builtin: &'a Builtin,
    items: BTreeMap<IngredientId, Arc<Ingredient>>,
}

impl Needed<'_> {
    fn pour(&mut self, line: &ImportedLine) -> Pour {
        let known = match &line.found {
            LineFound::Matched { id, by } => self.item(id).map(|item| (id.clone(), item, *by)),
            LineFound::Unresolved { .. } => None,
        };
        let Some((id, item, by)) = known else {
            return self.waiting(line);
        };
        let mut pour = Pour {
            source: self.source(&id),
            amount: line.amount.quantised(),
            unit: line.unit,
            added: added(line, &item),
            locked: starts_locked(&item) || matches!(line.unit, Unit::Dash | Unit::Drop),
            ..Pour::of(&id, 0.0, item.role)
        };
        if by != MatchedBy::Name || !line.how.is_empty() {
            pour.note = as_written(&line.text);
        }
        self.items.entry(id).or_insert(item);
        pour
    }

    /// A pour of an ingredient that waits to be chosen.
    fn waiting(&mut self, line: &ImportedLine) -> Pour {
        let name = unresolved_name(&line.name);
        let same = |(id, item): (&IngredientId, &Arc<Ingredient>)| {
            (item.name == name && is_unresolved(item)).then(|| (id.clone(), Arc::clone(item)))
        };
        let known = self.document.ingredients.iter().find_map(same);
        let known = known.or_else(|| self.items.iter().find_map(same));
        let (id, item) = known.unwrap_or_else(|| {
            let taken = |id: &str| self.item(&IngredientId::from(id)).is_some();
            let id = IngredientId(free_name(&format!("unresolved {}", line.name), taken));
            (id, Arc::new(unresolved(&line.name)))
        });
        let words = match (&line.amount, line.amount.value()) {
            (Amount::Words(words), _) => words.clone(),
            (amount, value) => {
                let shown = Pour {
                    amount: amount.clone(),
                    unit: line.unit,
                    ..Pour::of(&id, 0.0, item.role)
                };
                shown.amount_text(value.unwrap_or(0.0), &self.document.measures)
            }
        };
        let pour = Pour {
            amount: Amount::Words(words),
            unit: line.unit,
            added: added(line, &Ingredient::default()),
            note: as_written(&line.text),
            ..Pour::of(&id, 0.0, item.role)
        };
        self.items.entry(id).or_insert(item);
        pour
    }

    fn item(&self, id: &IngredientId) -> Option<Arc<Ingredient>> {
        let given = self.items.get(id);
        let own = given.or_else(|| self.document.ingredients.get(id));
        own.or_else(|| self.builtin.larder.get(id)).cloned()
    }

    /// What is made in the house is poured as such.
    fn source(&self, id: &IngredientId) -> Source {
        let made = self
            .document
            .preparations
            .iter()
            .find_map(|(preparation, made)| {
                let (output, _) = made.outputs.iter().find(|(_, row)| *row == id)?;
                Some(Source::Preparation {
                    preparation: preparation.clone(),
                    output: output.clone(),
                })
            });
        made.unwrap_or_else(|| Source::Ingredient(id.clone()))
    }

    fn waits(&self, pour: &Pour) -> bool {
        let Source::Ingredient(id) = &pour.source else {
            return false;
        };
        self.items.get(id).is_some_and(|item| is_unresolved(item))
    }
}

fn as_written(text: &str) -> String {
    let short: String = text.chars().take(MAX_NOTE).collect();
    format!("as written: {short}")
}

/// When it meets the rest, by the words beside the name; soda comes on top.
fn added(line: &ImportedLine, item: &Ingredient) -> Added {
    let has = |text: &str, wanted: &str| {
        let text = text.to_lowercase();
        let mut words = text.split(|letter: char| !letter.is_alphanumeric());
        words.any(|word| word == wanted)
    };
    let says = |wanted: &[&str]| {
        let mut wanted = wanted.iter();
        wanted.any(|word| has(&line.text, word) && !has(&item.name, word))
    };
    if says(&["rinse", "rinsed"]) {
        Added::Rinse
    } else if says(&["top", "topped", "float", "floated"]) || item.kind.trim() == "soda" {
        Added::After
    } else {
        Added::With
    }
}

/// Words of a method and the way of putting a drink together that they mean.
const WAYS: [(&str, Method); 7] = [
    ("shak", Method::Shaken),
    ("stir", Method::Stirred),
    ("blend", Method::Blended),
    ("swizzl", Method::Swizzled),
    ("crushed ice", Method::Swizzled),
    ("throw", Method::Thrown),
    ("build", Method::Built),
];

/// The way that the method names first.
fn technique(method: &[String], notices: &mut Vec<String>) -> Technique {
    let text = method.join("\n").to_lowercase();
    let named = WAYS
        .iter()
        .filter_map(|(word, way)| Some((text.find(word)?, *way)));
    let first = named.min_by_key(|(place, _)| *place);
    let technique = first.map_or_else(Technique::default, |(_, way)| {
        Technique::new(way, Dilution::ByMethod)
    });
    let why = if first.is_some() {
        "by the first word of the method that names one"
    } else {
        "because the method names none"
    };
    notices.push(format!("technique: {}, {why}", technique.method.name()));
    technique
}

/// Says for how many the amounts are; they stay as written.
fn servings(makes: &str) -> Option<String> {
    let digits = makes.trim_start_matches(|letter: char| !letter.is_ascii_digit());
    let end = digits.find(|letter: char| !(letter.is_ascii_digit() || ".,/–-".contains(letter)));
    let many = &digits[..end.unwrap_or(digits.len())];
    if makes.is_empty() || many == "1" {
        return None;
    }
    let makes: String = makes.chars().take(100).collect();
    Some(format!(
        "the recipe says it makes “{makes}”: its amounts are taken as written, for one drink"
    ))
}
