//! The content of a sheet, worked out from the document for one kind of reader.

use super::derived::Derived;
use super::open_document::Session;
use super::recipe_chart::{balance_chart, chart_words};
use super::recipe_figures::{figure_lines, glass_lines};
use super::recipe_house::{house_cards, preparation_behind};
use super::recipe_method::{garnish_words, is_laid_on, method_without_closed};
use super::recipe_service::service_parts;
use super::recipe_sources::source_lines;
use crate::kitchen::ALCOHOLIC_ABOVE_PCT_VOL;
use crate::model::{Added, Amount, Place, Pour, Reader, SheetPart, Spec, Trial};
use crate::sheet::{Recipe, RecipeLine};
use crate::units::{Unit, capital, number, percent, show, show_volume, trimmed};

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
        version: version(trial, reader),
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
        recipe.lines = lines(session, trial, derived, reader);
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
        (recipe.house_made, recipe.house_minutes) =
            house_cards(session.document(), spec, trial, derived);
    }
    if open(SheetPart::Chart) {
        recipe.chart = balance_chart(session, spec, derived, reader == Reader::Bar);
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

/// Name and day of the trial for the bar; others learn the day only, since names are working notes.
fn version(trial: &Trial, reader: Reader) -> String {
    let name = Some(&trial.name).filter(|_| reader == Reader::Bar);
    let parts = [name, Some(&trial.made_on)].into_iter().flatten();
    let parts: Vec<&str> = parts
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(", ")
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

/// Pours and what is added in words; what is only laid on the glass is the garnish.
fn lines(session: &Session, trial: &Trial, derived: &Derived, reader: Reader) -> Vec<RecipeLine> {
    trial
        .poured()
        .filter(|(_, pour)| !is_laid_on(session.document(), trial, pour))
        .map(|(place, pour)| {
            let brings = derived.contributions.iter();
            let grams = brings.into_iter().find(|part| part.index == place);
            line(
                session,
                (trial, reader),
                (place, pour),
                grams.map(|part| part.grams),
            )
        })
        .collect()
}

fn line(
    session: &Session,
    (trial, reader): (&Trial, Reader),
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
        how: [told(session, trial, pour), how(pour, reader)]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect::<Vec<_>>()
            .join("; "),
        house_made: preparation_behind(document, &pour.source).is_some(),
    }
}

/// Strength of what is strong, and under which name the card of a house-made one stands.
fn told(session: &Session, trial: &Trial, pour: &Pour) -> String {
    let document = session.document();
    let Some(settled) = document.settle(trial, pour) else {
        return String::new();
    };
    if let Some(made) = preparation_behind(document, &pour.source)
        .and_then(|id| document.preparations.get(id))
        .filter(|made| {
            let name = settled.name.to_lowercase();
            !name.starts_with(&made.name.to_lowercase())
        })
    {
        return format!("see {}", made.name);
    }
    let strength = settled
        .ingredient
        .strength_pct_vol
        .map(|range| range.typical);
    let strong = strength.filter(|strength| *strength > ALCOHOLIC_ABOVE_PCT_VOL);
    strong.map_or_else(String::new, |strength| {
        format!("{} % vol", trimmed(strength, 1))
    })
}

/// When it is added and where it waits, where that is not the usual; for the bar its remark.
fn how(pour: &Pour, reader: Reader) -> String {
    let mut words = Vec::new();
    if pour.added != Added::With {
        words.push(pour.added.name().to_owned());
    }
    match pour.place {
        Some(Place::Freezer) => words.push("from the freezer".to_owned()),
        Some(Place::Fridge) => words.push("from the fridge".to_owned()),
        _ => {}
    }
    // Remarks are the maker's own; the bar that pours it needs them.
    if !pour.note.is_empty() && reader == Reader::Bar {
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
