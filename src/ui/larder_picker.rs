//! The larder to choose from: the document's own ingredients first, then the built-in ones.

use super::intent::{Intent, Outbox, PickFor};
use super::naming::named;
use crate::model::{
    Added, Amount, Confidence, Ingredient, IngredientId, Pour, Role, Trial, batch_rows,
};
use crate::session::{Edit, Session, starts_locked};
use crate::units::{Measures, Unit, trimmed};
use eframe::egui::{ComboBox, Key, Label, RichText, ScrollArea, Sense, TextEdit, Ui};
use std::sync::Arc;

/// Amount of a new pour, ml.
const NEW_POUR_ML: f64 = 15.0;
/// A new pour of bitters, ml: two dashes.
const NEW_DASHES: f64 = 2.0;

/// State of the larder dialog.
#[derive(Clone, Debug)]
pub(super) struct LarderPicker {
    pub(super) purpose: PickFor,
    /// The unit in use.
    unit: Unit,
    search: String,
    role: Option<Role>,
    fresh: bool,
}

impl LarderPicker {
    pub(super) fn new(purpose: PickFor, unit: Unit) -> Self {
        Self {
            purpose,
            unit,
            search: String::new(),
            role: None,
            fresh: true,
        }
    }

    /// What the dialog is for.
    pub(super) const fn title(&self) -> &'static str {
        match self.purpose {
            PickFor::NewPour => "Add a pour from the larder",
            PickFor::Swap(_) => "Replace the ingredient",
        }
    }

    /// Shows the list; choosing pushes the edit and closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let Some(trial) = session.trial() else {
            return;
        };
        ui.horizontal(|ui| {
            let field = ui.add(
                TextEdit::singleline(&mut self.search)
                    .hint_text("Name, kind or flavour")
                    .desired_width(260.0),
            );
            if self.fresh {
                field.request_focus();
                self.fresh = false;
            }
            named(
                field,
                "Find an ingredient",
                "Letters of a name, a kind or a flavour; Enter takes the first row",
            );
            let shown = self.role.map_or("every job", Role::name);
            let combo = ComboBox::from_id_salt("larder role")
                .selected_text(shown)
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut self.role, None, "every job");
                    for role in Role::ALL {
                        ui.selectable_value(&mut self.role, Some(role), role.name());
                    }
                });
            named(
                combo.response,
                "Job",
                "Only ingredients with this usual job",
            );
        });
        let rows = self.rows(session);
        let enter = ui.input(|input| input.key_pressed(Key::Enter));
        let mut chosen = rows
            .first()
            .filter(|_| enter && !self.search.trim().is_empty())
            .map(|row| (row.0.clone(), Arc::clone(&row.1)));
        ui.label(
            RichText::new(format!("{} ingredients", rows.len()))
                .small()
                .weak(),
        );
        ScrollArea::vertical()
            .max_height(420.0)
            .auto_shrink(false)
            .show(ui, |ui| {
                for (id, item, own) in &rows {
                    if row(ui, item, *own) {
                        chosen = Some((id.clone(), Arc::clone(item)));
                    }
                }
                if rows.is_empty() {
                    ui.label("Nothing by that name. Try fewer letters or every job.");
                }
            });
        if let Some((id, item)) = chosen {
            let measures = &session.document().measures;
            outbox.edit(self.edit((trial, measures), id, item));
            outbox.intent(Intent::CloseDialog);
        }
    }

    /// What fits the search: own ingredients first, then names that begin with it.
    fn rows(&self, session: &Session) -> Vec<(IngredientId, Arc<Ingredient>, bool)> {
        let words = self.search.trim().to_lowercase();
        let own = &session.document().ingredients;
        let fits = |item: &Ingredient| {
            self.role.is_none_or(|role| item.role == role)
                && (item.name.to_lowercase().contains(&words)
                    || item.kind.to_lowercase().contains(&words)
                    || item
                        .notes
                        .iter()
                        .any(|note| note.to_lowercase().contains(&words)))
        };
        // Batches are poured through their lot, retired rows not at all.
        let batches = batch_rows(session.document());
        let mut rows: Vec<(IngredientId, Arc<Ingredient>, bool)> = own
            .iter()
            .filter(|(id, item)| !item.retired && !batches.contains(id))
            .map(|(id, item)| (id.clone(), Arc::clone(item), true))
            .chain(
                session
                    .builtin()
                    .larder
                    .iter()
                    .filter(|(id, _)| !own.contains_key(*id))
                    .map(|(id, item)| (id.clone(), Arc::clone(item), false)),
            )
            .filter(|(_, item, _)| fits(item))
            .collect();
        let replaced = self.replaced(session);
        rows.sort_by_key(|(_, item, own)| {
            let name = item.name.to_lowercase();
            let same = replaced.as_ref().map_or((true, true), |(job, kind)| {
                let same_job = item.role == *job;
                (same_job && item.kind.to_lowercase() == *kind, same_job)
            });
            (
                !same.0,
                !name.starts_with(&words),
                !same.1,
                !name.contains(&words),
                !*own,
                name,
            )
        });
        rows
    }

    /// Job and kind of what is replaced: what shares both comes first, whatever the letters, so that
    /// Enter takes another liqueur for a liqueur.
    fn replaced(&self, session: &Session) -> Option<(Role, String)> {
        let PickFor::Swap(place) = self.purpose else {
            return None;
        };
        let trial = session.trial()?;
        let pour = trial.pours.get(place)?;
        let settled = session.document().settle(trial, pour)?;
        Some((pour.role, settled.ingredient.kind.to_lowercase()))
    }

    fn edit(
        &self,
        (trial, measures): (&Trial, &Measures),
        id: IngredientId,
        ingredient: Arc<Ingredient>,
    ) -> Edit {
        match self.purpose {
            PickFor::Swap(pour) => Edit::Swap {
                trial: trial.id,
                pour,
                id,
                ingredient,
            },
            PickFor::NewPour => Edit::AddPour {
                trial: trial.id,
                pour: new_pour(&id, &ingredient, (self.unit, measures)),
                ingredient: Some((id, ingredient)),
            },
        }
    }
}

/// A pour as it usually begins: bitters by the dash and locked, solids by weight, length on top.
fn new_pour(id: &IngredientId, item: &Ingredient, (unit, measures): (Unit, &Measures)) -> Pour {
    // On a notch of the unit in use.
    let step = unit.default_step(measures);
    let usual = (NEW_POUR_ML / step).round() * step;
    let mut pour = Pour::of(id, usual, item.role);
    pour.unit = unit;
    pour.locked = starts_locked(item);
    if item.piece_g.is_some() {
        pour.unit = Unit::Piece;
        pour.amount = Amount::Pieces(1.0);
        return pour;
    }
    match item.kind.trim().to_lowercase().as_str() {
        "bitters" => {
            pour.unit = Unit::Dash;
            pour.amount = Amount::Ml(NEW_DASHES * 0.92);
            pour.locked = true;
        }
        "sugar" | "acid powder" | "hydrocolloid" | "nut" | "grain" | "spice" | "herb" | "fruit"
        | "dairy solid" => {
            pour.unit = Unit::Gram;
            pour.amount = Amount::Grams(2.0);
        }
        "soda" => pour.added = Added::After,
        _ => {}
    }
    pour
}

fn row(ui: &mut Ui, item: &Ingredient, own: bool) -> bool {
    let mut clicked = false;
    ui.horizontal(|ui| {
        let label = Label::new(RichText::new(&item.name).strong()).sense(Sense::click());
        clicked = ui.add(label).on_hover_text("Pour this").clicked();
        let mut words = facts(item);
        if own {
            words = format!("in this document · {words}");
        }
        let facts = Label::new(RichText::new(&words).small().weak()).truncate();
        ui.add(facts).on_hover_text(words);
    });
    clicked
}

/// Figures of an ingredient in one line.
fn facts(item: &Ingredient) -> String {
    let mut facts = vec![item.kind.clone()];
    if let Some(strength) = item.strength_pct_vol {
        facts.push(format!("{} % vol", trimmed(strength.typical, 1)));
    }
    let basis = match item.basis {
        crate::model::Basis::Per100Ml => "100 ml",
        crate::model::Basis::Per100G => "100 g",
    };
    if let Some(sugar) = item.sugar_g.filter(|sugar| sugar.typical > 0.0) {
        facts.push(format!("sugar {} g per {basis}", trimmed(sugar.typical, 1)));
    }
    if let Some(acid) = item.acids.typical_g().filter(|acid| *acid > 0.0) {
        facts.push(format!("acid {} g per 100 ml", trimmed(acid, 2)));
    }
    let allergens: Vec<&str> = item.allergen_terms().collect();
    if !allergens.is_empty() {
        facts.push(allergens.join(", "));
    }
    if item.confidence == Confidence::Low {
        facts.push("an estimate".to_owned());
    }
    facts.join(" · ")
}
