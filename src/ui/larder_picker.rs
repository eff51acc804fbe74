//! The larder to choose from: the document's own ingredients first, then the built-in ones.

use super::intent::{Intent, Outbox, PickFor};
use super::naming::named;
use super::new_pour::new_pour;
use crate::model::{
    Confidence, Ingredient, IngredientId, Preparation, PreparationId, Quantity, Role, Source,
    batch_rows,
};
use crate::session::{Edit, HouseEdit, Session, add_input};
use crate::units::{Unit, trimmed};
use eframe::egui::{ComboBox, Key, Label, RichText, ScrollArea, Sense, TextEdit, Ui};
use std::sync::Arc;

/// A new input of a preparation, g.
const NEW_INPUT_G: f64 = 100.0;

/// State of the larder dialog.
#[derive(Clone, Debug)]
pub(super) struct LarderPicker {
    pub(super) purpose: PickFor,
    search: String,
    role: Option<Role>,
    /// The unit in use.
    unit: Unit,
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
            PickFor::Input(..) => "What goes in",
        }
    }

    /// Shows the list; choosing pushes the edit and closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let field = ui.horizontal(|ui| {
            let field = ui.add(
                TextEdit::singleline(&mut self.search)
                    .hint_text("Name, kind or flavour")
                    .desired_width(260.0),
            );
            if self.fresh {
                field.request_focus();
                self.fresh = false;
            }
            let field = named(
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
            field
        });
        let taken = self.list(ui, session, outbox);
        // Enter took nothing: the letters are there to be mended.
        let field = field.inner;
        if !taken && field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            field.request_focus();
        }
    }

    /// Shows what fits; true when something was chosen.
    fn list(&self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) -> bool {
        let rows = self.rows(session);
        let enter = ui.input(|input| input.key_pressed(Key::Enter));
        let mut chosen = rows
            .first()
            .filter(|_| enter && !self.search.trim().is_empty())
            .cloned();
        let count = match rows.len() {
            1 => "1 ingredient".to_owned(),
            count => format!("{count} ingredients"),
        };
        ui.label(RichText::new(count).small().weak());
        ScrollArea::vertical()
            .max_height(420.0)
            .auto_shrink(false)
            .show(ui, |ui| {
                for offer in &rows {
                    if row(ui, offer, self.teach()) {
                        chosen = Some(offer.clone());
                    }
                }
                if rows.is_empty() {
                    ui.label("Nothing by that name. Try fewer letters or every job.");
                }
            });
        let edit = chosen.and_then(|offer| self.edit(session, offer));
        let taken = edit.is_some();
        if let Some(edit) = edit {
            outbox.edit(edit);
            outbox.intent(Intent::CloseDialog);
        }
        taken
    }

    const fn teach(&self) -> &'static str {
        match self.purpose {
            PickFor::Input(..) => "Take this",
            PickFor::NewPour | PickFor::Swap(_) => "Pour this",
        }
    }

    /// What fits the search: house-made ones first, then own ingredients, then names that begin with it.
    fn rows(&self, session: &Session) -> Vec<Offer> {
        let words = self.search.trim().to_lowercase();
        let fits = |offer: &Offer| {
            let item = &offer.item;
            let holds = |text: &str| text.to_lowercase().contains(&words);
            self.role.is_none_or(|role| item.role == role)
                && (holds(&item.name)
                    || holds(&item.kind)
                    || holds(offer.from.words())
                    || item.notes.iter().any(|note| holds(note)))
        };
        let mut rows = offers(session);
        if let PickFor::Input(maker, _) = &self.purpose {
            rows.extend(lots(session));
            // What a preparation makes cannot go into it.
            rows.retain(|offer| !matches!(&offer.source, Source::Preparation { preparation, .. } if preparation == maker));
        }
        rows.retain(fits);
        let replaced = self.replaced(session);
        rows.sort_by_cached_key(|offer| {
            let name = offer.item.name.to_lowercase();
            let same = replaced.as_ref().map_or((true, true), |(job, kind)| {
                let same_job = offer.item.role == *job;
                (
                    same_job && offer.item.kind.to_lowercase() == *kind,
                    same_job,
                )
            });
            (
                !same.0,
                !name.starts_with(&words),
                !same.1,
                !name.contains(&words),
                offer.from,
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

    /// The edit that takes an offer; `None` where what it was for is gone.
    fn edit(&self, session: &Session, offer: Offer) -> Option<Edit> {
        let Offer { source, item, .. } = offer;
        match &self.purpose {
            PickFor::Swap(pour) => {
                let (trial, pour) = (session.trial()?.id, *pour);
                Some(match source {
                    Source::Ingredient(id) => Edit::Swap {
                        trial,
                        pour,
                        id,
                        ingredient: item,
                    },
                    source => Edit::SetSource {
                        trial,
                        pour,
                        source,
                    },
                })
            }
            PickFor::NewPour => Some(Edit::AddPour {
                trial: session.trial()?.id,
                pour: new_pour(
                    source.clone(),
                    &item,
                    (self.unit, &session.document().measures),
                ),
                ingredient: match source {
                    Source::Ingredient(id) => Some((id, item)),
                    Source::Preparation { .. } | Source::Lot(_) => None,
                },
            }),
            PickFor::Input(id, place) => input_edit(session, (id, *place), source, &item),
        }
    }
}

/// Where an offer comes from, in the order in which they are listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum From {
    House,
    Document,
    Lot,
    BuiltIn,
}

impl From {
    const fn words(self) -> &'static str {
        match self {
            Self::House => "house-made",
            Self::Document => "in this document",
            Self::Lot => "a measured lot",
            Self::BuiltIn => "",
        }
    }
}

/// Something to choose.
#[derive(Clone, Debug)]
struct Offer {
    source: Source,
    item: Arc<Ingredient>,
    from: From,
}

/// Everything there is to choose; retired rows are not, and batches are poured through their lot.
fn offers(session: &Session) -> Vec<Offer> {
    let document = session.document();
    let own = &document.ingredients;
    let made = document.preparations.iter().flat_map(|(id, made)| {
        made.outputs.iter().filter_map(move |(output, row)| {
            Some(Offer {
                source: Source::Preparation {
                    preparation: id.clone(),
                    output: output.clone(),
                },
                item: Arc::clone(own.get(row)?),
                from: From::House,
            })
        })
    });
    let batches = batch_rows(document);
    let is_made = |id: &IngredientId| {
        let mut all = document.preparations.values();
        all.any(|made| made.outputs.values().any(|row| row == id))
    };
    let offer = |(id, item): (&IngredientId, &Arc<Ingredient>), from| Offer {
        source: Source::Ingredient(id.clone()),
        item: Arc::clone(item),
        from,
    };
    let held = own
        .iter()
        .filter(|(id, _)| !batches.contains(id) && !is_made(id))
        .map(|row| offer(row, From::Document));
    let brought = session.builtin().larder.iter();
    let brought = brought
        .filter(|(id, _)| !own.contains_key(*id))
        .map(|row| offer(row, From::BuiltIn));
    made.chain(held)
        .chain(brought)
        .filter(|offer| !offer.item.retired)
        .collect()
}

/// Measured batches, which go into a preparation as they were measured.
fn lots(session: &Session) -> impl Iterator<Item = Offer> {
    let document = session.document();
    document.lots.iter().filter_map(|(id, lot)| {
        let mut item = Ingredient::clone(document.ingredients.get(&lot.ingredient)?);
        item.name.clone_from(&lot.label);
        Some(Offer {
            source: Source::Lot(id.clone()),
            item: Arc::new(item),
            from: From::Lot,
        })
    })
}

/// The edit that lets a preparation take something, as a new input or in place of another.
fn input_edit(
    session: &Session,
    (id, place): (&PreparationId, Option<usize>),
    source: Source,
    item: &Arc<Ingredient>,
) -> Option<Edit> {
    let mut made = Preparation::clone(session.document().preparations.get(id)?);
    let label = format!("Take {}", item.name);
    let rows = match &source {
        Source::Ingredient(id) => vec![(id.clone(), Arc::clone(item))],
        Source::Preparation { .. } | Source::Lot(_) => Vec::new(),
    };
    if let Some(place) = place {
        made.inputs.get_mut(place)?.source = source;
    } else {
        let quantity = match item.piece_g {
            Some(_) => Quantity::Pieces(1.0),
            None => Quantity::Grams(NEW_INPUT_G),
        };
        add_input(&mut made, &item.name, source, quantity);
    }
    Some(Edit::House(HouseEdit::Set {
        id: id.clone(),
        to: Box::new(made),
        rows,
        label,
        gesture: None,
    }))
}

fn row(ui: &mut Ui, offer: &Offer, teach: &str) -> bool {
    let item = &offer.item;
    let mut clicked = false;
    ui.horizontal(|ui| {
        let label = Label::new(RichText::new(&item.name).strong()).sense(Sense::click());
        clicked = ui.add(label).on_hover_text(teach).clicked();
        let mut words = facts(item);
        let from = offer.from.words();
        if !from.is_empty() && item.kind != from {
            words = format!("{from} · {words}");
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
