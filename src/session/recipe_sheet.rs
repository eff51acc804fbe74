//! The content of a sheet, worked out from the document for one kind of reader.

use super::derived::Derived;
use super::open_document::Session;
use super::recipe_chart::{balance_chart, chart_words};
use super::recipe_figures::{figure_lines, glass_lines};
use super::recipe_house::{house_cards, preparation_behind};
use super::recipe_method::{garnish_words, method_without_closed};
use super::recipe_service::service_parts;
use super::recipe_sources::source_lines;
use super::recipe_unresolved::pour_waits;
use crate::model::{Added, Amount, Place, Pour, Reader, SheetPart, Spec, Trial};
use crate::sheet::{Recipe, RecipeLine};
use crate::units::{Unit, capital, number, percent, show, show_volume};

/// The trial on screen as a sheet for a reader; `None` without a drink.
///
/// Parts that the reader may not see stay empty.
pub fn recipe(session: &Session, reader: Reader) -> Option<Recipe> {
    let spec = session.spec()?;
    let trial = session.trial()?;
    let derived = session.derived()?;
    let open = |part: SheetPart| spec.entry.open_to(part).lets(reader);
    let mut recipe = Recipe {
        reader,
        title: spec.name.clone(),
        twist_of: twist_of(session, spec),
        family: spec.family.clone(),
        competition: competition(session, spec),
        version: version(trial),
        day: trial.made_on.clone(),
        ..Recipe::default()
    };
    if open(SheetPart::Maker) && !spec.entry.hide_maker && !spec.entry.maker.is_empty() {
        recipe.maker = Some(spec.entry.maker.clone());
    }
    if open(SheetPart::Story) {
        recipe.story = paragraphs(&spec.entry.story);
    }
    if open(SheetPart::Amounts) {
        recipe.lines = lines(session, trial, derived);
        recipe.totals = totals(derived);
    }
    if open(SheetPart::Method) {
        recipe.technique = capital(trial.technique.method.name());
        recipe.method = if spec.entry.method.is_empty() {
            method_without_closed(session, &open)
        } else {
            spec.entry.method.clone()
        };
    }
    if open(SheetPart::Glass) {
        recipe.glass.clone_from(&spec.glass.name);
        recipe.glass_lines = glass_lines(session, spec, derived);
    }
    if open(SheetPart::Garnish) {
        recipe.garnish = garnish_words(session.document(), spec, trial);
    }
    if open(SheetPart::HouseMade) {
        (recipe.house_made, recipe.house_minutes) = house_cards(session.document(), trial);
    }
    if open(SheetPart::Chart) {
        recipe.chart = balance_chart(session, spec, derived);
        recipe.chart_words = chart_words(session, spec, derived);
    }
    if open(SheetPart::Figures) {
        recipe.figures = figure_lines(derived);
    }
    if open(SheetPart::Substitutes) {
        recipe.substitutes.clone_from(&spec.entry.substitutes);
    }
    if open(SheetPart::Sources) {
        let named = open(SheetPart::Amounts);
        recipe.sources = source_lines(session.document(), trial, named);
    }
    let sized = [SheetPart::Amounts, SheetPart::Glass, SheetPart::Figures];
    if let Ok(found) = &derived.figures
        && sized.into_iter().any(open)
    {
        recipe.served_ml = Some(found.served_ml);
    }
    service_parts(session, spec, &open, &mut recipe);
    Some(recipe)
}

fn twist_of(session: &Session, spec: &Spec) -> Option<String> {
    let id = spec.classic.as_ref()?;
    let known = session.references().iter().find(|known| known.id == *id);
    known.map(|known| known.name.clone())
}

fn competition(session: &Session, spec: &Spec) -> Option<String> {
    let id = spec.entry.rules.as_ref()?;
    let rules = session.document().rule_sets.get(id)?;
    Some(rules.name.clone())
}

fn version(trial: &Trial) -> String {
    if trial.made_on.is_empty() {
        trial.name.clone()
    } else {
        format!("{}, {}", trial.name, trial.made_on)
    }
}

/// Parts of a text between blank lines, each on one line.
fn paragraphs(text: &str) -> Vec<String> {
    let mut found = vec![String::new()];
    for line in text.lines().map(str::trim) {
        let last = found.len() - 1;
        if line.is_empty() {
            found.push(String::new());
        } else if found[last].is_empty() {
            line.clone_into(&mut found[last]);
        } else {
            found[last] = format!("{} {line}", found[last]);
        }
    }
    found.retain(|paragraph| !paragraph.is_empty());
    found
}

/// Pours that bring something, and those that still wait to be chosen; what is only laid on the glass
/// is the garnish.
fn lines(session: &Session, trial: &Trial, derived: &Derived) -> Vec<RecipeLine> {
    let pours = trial.pours.iter().enumerate();
    pours
        .filter(|(_, pour)| {
            !matches!(pour.amount, Amount::Words(_)) || pour_waits(session.document(), trial, pour)
        })
        .map(|(place, pour)| {
            let brings = derived.contributions.iter();
            let grams = brings.into_iter().find(|part| part.index == place);
            line(session, trial, (place, pour), grams.map(|part| part.grams))
        })
        .collect()
}

fn line(
    session: &Session,
    trial: &Trial,
    (place, pour): (usize, &Pour),
    grams: Option<f64>,
) -> RecipeLine {
    let document = session.document();
    let measures = &document.measures;
    let value = pour.amount.value().unwrap_or(0.0);
    let ml = match pour.amount {
        Amount::Ml(ml) => Some(ml),
        _ => None,
    };
    RecipeLine {
        name: super::text::pour_name(document, trial, place).to_owned(),
        amount: pour.amount_text(value, measures),
        ml: ml.map_or_else(String::new, |ml| show(ml, Unit::Ml, measures)),
        ounces: ml.map_or_else(String::new, |ml| show(ml, Unit::Oz, measures)),
        grams: grams.map_or_else(String::new, |grams| format!("{} g", number(grams, 1))),
        how: how(pour),
        house_made: preparation_behind(document, &pour.source).is_some(),
    }
}

/// When it is added and where it waits, where that is not the usual; the remark of the line.
fn how(pour: &Pour) -> String {
    let mut words = Vec::new();
    if pour.added != Added::With {
        words.push(pour.added.name().to_owned());
    }
    match pour.place {
        Some(Place::Freezer) => words.push("from the freezer".to_owned()),
        Some(Place::Fridge) => words.push("from the fridge".to_owned()),
        _ => {}
    }
    if !pour.note.is_empty() {
        words.push(pour.note.clone());
    }
    words.join("; ")
}

fn totals(derived: &Derived) -> String {
    let Ok(found) = &derived.figures else {
        return String::new();
    };
    let poured: f64 = derived
        .contributions
        .iter()
        .map(|part| part.volume_ml)
        .sum();
    let measures = crate::units::Measures::default();
    let volume = |ml: f64| show_volume(ml, 0, Unit::Ml, &measures);
    if found.melt_g > 0.0 {
        format!(
            "{} poured, {} g of water from ice ({}), {} served",
            volume(poured),
            number(found.melt_g, 0),
            percent(found.dilution, 0),
            volume(found.served_ml)
        )
    } else {
        format!("{} served", volume(found.served_ml))
    }
}
