//! Parts of a sheet that come from the service: allergens, alcohol, batch, preparation, cost.

use super::cost_words::cost_lines;
use super::open_document::Session;
use super::service_words::{alcohol_lines, batch_lines, plan_summary};
use crate::kitchen::CAUTION as SHELF;
use crate::model::{GlassShape, SheetPart, Spec};
use crate::service::{AlcoholFacts, wash_line};
use crate::sheet::Recipe;
use crate::units::{capital, money};

/// Fills those parts in that may be read.
pub(super) fn service_parts(
    session: &Session,
    spec: &Spec,
    open: &dyn Fn(SheetPart) -> bool,
    recipe: &mut Recipe,
) {
    let view = session.service();
    let facts = view.alcohol();
    if open(SheetPart::Allergens) {
        allergens(facts, recipe);
        if !recipe.house_made.is_empty() {
            recipe.cautions.push(capital(SHELF));
        }
    }
    let energy = view.energy();
    if open(SheetPart::Alcohol) {
        recipe.kcal = energy.map(|energy| energy.kcal);
        recipe.alcohol = alcohol_lines(facts, energy);
    }
    // Batch and plan name what is in the drink and how much of it.
    if open(SheetPart::Batch) && open(SheetPart::Amounts) {
        recipe.batch = batch_lines(&view);
    }
    if open(SheetPart::Prep)
        && let Some(Ok(plan)) = view.plan()
        && !plan.jobs.is_empty()
    {
        // The papers of the service have every job.
        recipe.prep = vec![plan_summary(&view, plan)];
    }
    if open(SheetPart::Method) {
        let run = view.run_sheet();
        recipe.seconds = run.map(|run| run.total_seconds / f64::from(run.serves.max(1)));
    }
    let currency = &session.document().currency;
    if let Some(cost) = view.cost().filter(|_| open(SheetPart::Cost)) {
        recipe.cost = cost_lines(cost, currency, open(SheetPart::Amounts));
    }
    if open(SheetPart::Menu) {
        recipe.menu = menu(spec, currency);
    }
}

/// Allergens for certain and possibly, in whatever words they are known; what is not known is said.
fn allergens(facts: Option<&AlcoholFacts>, recipe: &mut Recipe) {
    let Some(facts) = facts else {
        let words = "Allergens could not be worked out: check every ingredient.";
        recipe.cautions.push(words.to_owned());
        return;
    };
    let possible = facts.possible.iter().map(|own| format!("possibly {own}"));
    recipe.allergens = facts
        .allergens
        .iter()
        .map(|own| (*own).to_owned())
        .collect();
    recipe.allergens.extend(possible);
    recipe.allergens.extend(facts.other_words.iter().cloned());
    recipe.cautions.clone_from(&facts.statements);
    if !facts.unstated.is_empty() {
        let names = facts.unstated.join(", ");
        let words = format!("Nobody states the allergens of {names}: check the bottle.");
        recipe.cautions.insert(0, words);
    } else if recipe.allergens.is_empty() {
        recipe
            .allergens
            .push("none stated (EU 1169/2011 Annex II): check every label".to_owned());
    }
}

/// The line of the menu with its price; blank without either.
fn menu(spec: &Spec, currency: &str) -> String {
    let line = capital(spec.entry.menu_line.trim());
    let price = spec.entry.price.map(|price| money(price, currency));
    match (line.is_empty(), price) {
        (_, None) => line,
        (true, Some(price)) => price,
        (false, Some(price)) => format!("{line}  ·  {price}"),
    }
}

impl Session {
    /// The wash line in words; blank when the glass is not known.
    pub fn wash_line_text(&self) -> String {
        let Some((spec, trial)) = self.spec().zip(self.trial()) else {
            return String::new();
        };
        let known = spec.glass.form.shape != GlassShape::Unknown && spec.glass.form.rim_mm > 0.0;
        let line = wash_line(self.document(), spec, trial).ok();
        let told = line.filter(|line| known || line.overflow_ml > 0.0);
        told.map_or_else(String::new, |line| match line.below_rim_mm {
            Some(_) if line.overflow_ml <= 0.0 => format!("wash line {}", line.words()),
            _ => line.words(),
        })
    }
}
