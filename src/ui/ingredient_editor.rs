//! The chosen row of the larder: its fields, what they come to, what uses it.

use super::ingredient_form::Form;
use super::intent::{Intent, Outbox};
use super::larder_draft::{Draft, OVERTAKEN, keep_or_discard};
use super::larder_page::LarderPage;
use super::naming::named;
use super::theme::Tokens;
use super::{ingredient_figures, ingredient_outcome, ingredient_words};
use crate::model::{Document, Ingredient, IngredientId};
use crate::session::{
    ComesTo, Command, Edit, LarderEdit, LarderPlace, Session, User, comes_to, uses_of,
};
use eframe::egui::{Button, Frame, Label, Margin, Panel, RichText, ScrollArea, Ui};
use std::sync::Arc;

/// What was worked out for the figures in the editor, kept while they stay as they are.
#[derive(Clone, Debug, Default)]
pub(super) struct Known {
    figures: Option<(Ingredient, Result<ComesTo, String>)>,
    users: Option<(u64, IngredientId, Vec<User>)>,
}

impl Known {
    fn comes_to(&mut self, item: &Ingredient) -> &Result<ComesTo, String> {
        let known = self.figures.take().filter(|(known, _)| known == item);
        let fresh = || {
            let found = comes_to(item).map_err(|error| error.to_string());
            (item.clone(), found)
        };
        &self.figures.insert(known.unwrap_or_else(fresh)).1
    }

    fn users(&mut self, session: &Session, id: &IngredientId) -> &[User] {
        let revision = session.revision();
        let known = self.users.take();
        let known = known.filter(|(at, known, _)| *at == revision && known == id);
        let fresh = || (revision, id.clone(), uses_of(session.document(), id));
        &self.users.insert(known.unwrap_or_else(fresh)).2
    }
}

/// Shows the editor.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut LarderPage, outbox: &mut Outbox) {
    let found = page.selected.clone().and_then(|id| {
        let held = session.document().ingredients.get(&id);
        let draft = page.drafts.get(&id).map(|draft| &draft.item);
        let (item, place) = match (draft, held) {
            (Some(item), None) => (item, LarderPlace::Draft),
            (Some(item), Some(_)) => (item, LarderPlace::Document),
            (None, Some(item)) => (&**item, LarderPlace::Document),
            (None, None) => (&**session.builtin().larder.get(&id)?, LarderPlace::BuiltIn),
        };
        Some((id, item.clone(), place))
    });
    let Some((id, mut item, place)) = found else {
        ui.add_space(8.0);
        ui.label(RichText::new("Choose a row to see its figures, or write a new one.").weak());
        return;
    };
    let was_kind = item.kind.clone();
    head(ui, session, page, (&id, &mut item, place), outbox);
    ui.separator();
    Panel::bottom("comes to")
        .resizable(false)
        .frame(Frame::new().inner_margin(Margin::symmetric(0, 4)))
        .show(ui, |ui| outcome(ui, &mut page.comes_to, &item));
    ScrollArea::vertical()
        .id_salt(&id.0)
        .auto_shrink(false)
        .show(ui, |ui| {
            let mut form = Form {
                id: &id,
                generation: page.generation,
                errors: Vec::new(),
            };
            let editable = place != LarderPlace::BuiltIn && session.read_only().is_none();
            // A row that cannot be edited is still read.
            ui.visuals_mut().disabled_alpha = 0.85;
            ui.add_enabled_ui(editable, |ui| {
                fields(ui, &mut form, &mut item, session.document(), &page.kinds);
            });
            page.typing_errors = form.errors;
            ui.separator();
            made_in_house(ui, session.document(), &id, outbox);
            users(ui, page.comes_to.users(session, &id), outbox);
            lots(ui, session.document(), &id, outbox);
        });
    if place == LarderPlace::Draft {
        follow_kind(page, &was_kind, &mut item);
    }
    if place != LarderPlace::BuiltIn {
        take(session, page, id, item);
    }
}

/// A new row has the usual job of its kind until it is given another one.
fn follow_kind(page: &LarderPage, was: &str, item: &mut Ingredient) {
    if item.kind == was {
        return;
    }
    let usual = |kind: &str| page.usual_role(kind.trim()).unwrap_or_default();
    if item.role == usual(was) {
        item.role = usual(&item.kind);
    }
}

/// Keeps what was entered as a draft; a draft that says what the document says is none.
fn take(session: &Session, page: &mut LarderPage, id: IngredientId, item: Ingredient) {
    let held = session.document().ingredients.get(&id);
    // Discarded, kept or begun in this very frame: the next one shows what there is.
    if page.selected.as_ref() != Some(&id) {
        return;
    }
    if held.is_some_and(|held| **held == item) {
        page.drafts.remove(&id);
        return;
    }
    match page.drafts.get_mut(&id) {
        Some(draft) if draft.item == item => {}
        Some(draft) => {
            draft.item = item;
            draft.error = None;
        }
        None => {
            if let Some(held) = held {
                page.drafts
                    .insert(id, Draft::of(item, Some(Arc::clone(held))));
            }
        }
    }
}

fn fields(
    ui: &mut Ui,
    form: &mut Form<'_>,
    item: &mut Ingredient,
    document: &Document,
    kinds: &[String],
) {
    ui.spacing_mut().interact_size.y = 22.0;
    ingredient_words::identity(ui, item, kinds);
    ui.separator();
    ingredient_figures::ui(ui, form, item);
    ui.separator();
    ingredient_words::price(ui, form, item, &document.currency);
    ui.separator();
    ingredient_words::allergens(ui, item);
    ui.add_space(4.0);
    ingredient_words::flavours(ui, form, item);
    ui.add_space(4.0);
    ingredient_words::remarks(ui, item);
}

/// Name, buttons, and why it was not kept.
fn head(
    ui: &mut Ui,
    session: &Session,
    page: &mut LarderPage,
    (id, item, place): (&IngredientId, &mut Ingredient, LarderPlace),
    outbox: &mut Outbox,
) {
    let tokens = Tokens::of(ui);
    let draft = page.drafts.get(id);
    let mut state = place.name().to_owned();
    if item.retired {
        state.push_str(", retired");
    }
    let changed = draft.is_some();
    let mut said: Vec<String> = draft
        .and_then(|draft| draft.error.clone())
        .into_iter()
        .collect();
    if page.is_overtaken(session, id) {
        said.push(OVERTAKEN.to_owned());
    }
    ui.horizontal(|ui| {
        ui.label(RichText::new(state).small().weak());
        if changed {
            ui.label(RichText::new("● not kept yet").small().color(tokens.accent));
        }
    });
    ui.add(Label::new(RichText::new(&item.name).heading()).truncate());
    if place == LarderPlace::BuiltIn {
        let button = ui.button("Copy into the document");
        let teach = "The document gets a row of its own that can be edited";
        if button.on_hover_text(teach).clicked() {
            let row = (id.clone(), Arc::new(item.clone()));
            outbox.edit(Edit::Larder(LarderEdit::Add(vec![row])));
        }
        return;
    }
    ui.horizontal_wrapped(|ui| buttons(ui, session, page, (id, item), outbox));
    said.extend_from_slice(&page.typing_errors);
    for said in said {
        ui.label(RichText::new(said).color(tokens.warn));
    }
}

/// A button that also says why it cannot be pressed.
pub(super) fn press(ui: &mut Ui, enabled: bool, words: &str, teach: &str) -> bool {
    let button = ui.add_enabled(enabled, Button::new(words));
    let button = button.on_hover_text(teach).on_disabled_hover_text(teach);
    button.clicked()
}

fn buttons(
    ui: &mut Ui,
    session: &Session,
    page: &mut LarderPage,
    (id, item): (&IngredientId, &mut Ingredient),
    outbox: &mut Outbox,
) {
    keep_or_discard(ui, session, page, id, outbox);
    ui.separator();
    let teach = "Write a new ingredient that begins as this one";
    if press(ui, true, "Copy", teach) {
        let mut copy = item.clone();
        copy.name = format!("{} (copy)", item.name);
        copy.retired = false;
        page.begin(session, copy);
    }
    if let Some(held) = session.document().ingredients.get(id) {
        let used = !page.comes_to.users(session, id).is_empty();
        let retired = leave(ui, (id, held, used), item, outbox);
        if let Some(retired) = retired
            && let Some(draft) = page.drafts.get_mut(id)
            && !draft.is_overtaken(Some(held))
        {
            draft.began = Some(retired);
        }
    }
}

/// Ways in which a row of the document goes out of use; the row as it was retired or restored.
fn leave(
    ui: &mut Ui,
    (id, held, used): (&IngredientId, &Ingredient, bool),
    item: &mut Ingredient,
    outbox: &mut Outbox,
) -> Option<Arc<Ingredient>> {
    let mut now = None;
    let (words, teach) = if held.retired {
        ("Restore", "Offer it for new pours again")
    } else {
        (
            "Retire",
            "No longer offer it for new pours; drinks that use it stay as they are",
        )
    };
    if press(ui, true, words, teach) {
        let mut other = held.clone();
        other.retired = !held.retired;
        item.retired = other.retired;
        let ingredient = Arc::new(other);
        now = Some(Arc::clone(&ingredient));
        outbox.edit(Edit::SetIngredient {
            id: id.clone(),
            ingredient,
        });
    }
    let teach = if used {
        "Something uses it: retire it instead"
    } else {
        "Take it out of the document; undo brings it back"
    };
    if press(ui, !used, "Remove", teach) {
        outbox.edit(Edit::Larder(LarderEdit::Remove(id.clone())));
        outbox.intent(Intent::DiscardDraft(id.clone()));
    }
    now
}

/// Which preparation works the figures out, with the way there.
fn made_in_house(ui: &mut Ui, document: &Document, id: &IngredientId, outbox: &mut Outbox) {
    let mut all = document.preparations.iter();
    let Some((preparation, made)) =
        all.find(|(_, made)| made.outputs.values().any(|row| row == id))
    else {
        return;
    };
    let words = if made.is_worked_out() {
        "House-made: figures, allergens and price are worked out by its steps and written over; name, kind, job, place, piece, flavour words and remark stay. To say what a batch really is, measure a lot."
    } else {
        "House-made, without steps: the figures are as they stand here."
    };
    ui.label(RichText::new(words).small().weak());
    let link = ui.link(&made.name);
    let teach = "Show its inputs, steps and outputs";
    if named(link, &format!("Open {}", made.name), teach).clicked() {
        outbox.intent(Intent::ShowPreparation(preparation.clone()));
    }
}

/// What the figures come to.
fn outcome(ui: &mut Ui, known: &mut Known, item: &Ingredient) {
    ui.label(RichText::new("What it comes to").strong());
    let found = match known.comes_to(item) {
        Ok(found) => found,
        Err(error) => {
            ui.label(RichText::new(error).color(Tokens::of(ui).warn));
            return;
        }
    };
    ingredient_outcome::ui(ui, found);
}

fn users(ui: &mut Ui, users: &[User], outbox: &mut Outbox) {
    ui.label(RichText::new("Used by").strong());
    if users.is_empty() {
        ui.label(RichText::new("Nothing yet.").weak());
    }
    for user in users {
        match user.trial {
            Some(trial) => {
                let link = ui.link(&user.name);
                if named(link, &user.name, "Show this trial on the Balance page").clicked() {
                    outbox.intent(Intent::ShowTrial(trial));
                    outbox.command(Command::BalanceView);
                }
            }
            None => {
                ui.label(&user.name);
            }
        }
    }
}

fn lots(ui: &mut Ui, document: &Document, id: &IngredientId, outbox: &mut Outbox) {
    ui.add_space(4.0);
    ui.label(RichText::new("Lots").strong());
    let mut any = false;
    for (lot_id, lot) in document.lots_of(id) {
        any = true;
        let day = |words: &str, day: &str| match day {
            "" => String::new(),
            day => format!(" · {words} {day}"),
        };
        let made = day("made", &lot.made_on);
        let best = day("best before", &lot.best_before);
        let words = format!("{}{made}{best}", lot.label);
        let link = ui.link(&words);
        let teach = "Its readings, and how far it is from what was predicted";
        if named(link, &words, teach).clicked() {
            outbox.intent(Intent::MeasureLot {
                of: id.clone(),
                lot: Some(lot_id.clone()),
            });
        }
    }
    if !any {
        ui.label(RichText::new("No measured batch yet.").weak());
    }
    let is_held = document.ingredients.contains_key(id);
    let teach = if is_held {
        "Refractometer, hydrometer, alcoholmeter, titration, pH meter: the batch as it is"
    } else {
        "A lot is measured of a row of the document: copy or keep this one first"
    };
    if press(ui, is_held, "Measure a new lot…", teach) {
        outbox.intent(Intent::MeasureLot {
            of: id.clone(),
            lot: None,
        });
    }
}
