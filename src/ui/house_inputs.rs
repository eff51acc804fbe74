//! What goes into the preparation on screen.

use super::house_draft::{HouseDraft, refused};
use super::intent::{Intent, Outbox, PickFor};
use super::naming::named;
use super::number_field::{NumberField, step_near};
use super::word_field::{WordEntered, WordField};
use crate::model::{Document, Input, Quantity, Source};
use crate::session::{At, HouseView, remove_input, rename_stream, same_amounts};
use crate::units::trimmed;
use eframe::egui::{Button, ComboBox, Id, RichText, Ui, vec2};

/// Shows the inputs.
pub(super) fn ui(ui: &mut Ui, view: &HouseView, draft: &mut HouseDraft<'_>, outbox: &mut Outbox) {
    ui.horizontal(|ui| {
        ui.heading("Inputs");
        let add = ui.button("Add an input…");
        let teach = "Choose an ingredient, a lot or something house-made that goes in";
        let add = named(add, "Add an input…", teach);
        if add.clicked() {
            outbox.intent(Intent::Pick(PickFor::Input(draft.id.clone(), None)));
        }
        if draft.was.inputs.is_empty() && was_removed(ui, draft, 0) {
            add.request_focus();
        }
    });
    if draft.was.inputs.is_empty() {
        let words = "Nothing goes in yet: add what is weighed, measured or counted.";
        ui.label(RichText::new(words).weak());
    }
    for (place, input) in draft.was.inputs.iter().enumerate() {
        ui.push_id(("input", place), |ui| {
            row(ui, (view, place, input), draft, outbox);
        });
    }
}

fn row(
    ui: &mut Ui,
    (view, place, input): (&HouseView, usize, &Input),
    draft: &mut HouseDraft<'_>,
    outbox: &mut Outbox,
) {
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.horizontal(|ui| {
        let error = name(ui, place, input, draft);
        amount(ui, place, input, draft);
        source(ui, place, input, draft, outbox);
        let name = format!("Remove {}", input.name);
        let remove = named(ui.small_button("×"), &name, "Take this input out");
        if remove.clicked() {
            remove_input(&mut draft.made, place);
            draft.say(format!("Remove {}", input.name));
            let removed = Removed {
                place,
                of: draft.was.inputs.len(),
            };
            ui.data_mut(|data| data.insert_temp(removed_id(draft), removed));
        }
        if was_removed(ui, draft, place) {
            remove.request_focus();
        }
        error
    })
    .inner
    .into_iter()
    .for_each(|reason| refused(ui, &reason));
    let at = At::Input(input.name.clone());
    let said = draft.reason(ui, &at, |_| true);
    let grams = view
        .flow
        .as_ref()
        .ok()
        .and_then(|flow| flow.inputs_g.get(&input.name));
    if let Some(grams) = grams.filter(|_| !said && !matches!(input.quantity, Quantity::Grams(_))) {
        let words = format!("{} g", trimmed(*grams, 1));
        ui.label(RichText::new(words).small().weak());
    }
}

/// An input that was just taken out: the focus goes on to the one that takes its place.
#[derive(Clone, Copy, Debug)]
struct Removed {
    place: usize,
    /// How many there were with it.
    of: usize,
}

fn removed_id(draft: &HouseDraft<'_>) -> Id {
    Id::unique(("input removed", &draft.id.0))
}

/// Whether an input was taken out in the last frame whose focus goes to that place; says so once.
fn was_removed(ui: &Ui, draft: &HouseDraft<'_>, place: usize) -> bool {
    let (id, now) = (removed_id(draft), draft.was.inputs.len());
    let removed = ui.data(|data| data.get_temp::<Removed>(id));
    let goes_here = removed.is_some_and(|removed| {
        now < removed.of && place == removed.place.min(now.saturating_sub(1))
    });
    if goes_here {
        ui.data_mut(|data| data.remove::<Removed>(id));
    }
    goes_here
}

/// The button that says what an input is and chooses something else.
fn source(ui: &mut Ui, place: usize, input: &Input, draft: &HouseDraft<'_>, outbox: &mut Outbox) {
    let said = source_words(draft.session.document(), &input.source);
    let button = Button::new(RichText::new(&said).small()).truncate();
    let room = (ui.available_width() - 34.0).max(60.0);
    let teach = format!("{said} – click to take something else at this amount");
    let name = format!("Source of {}", input.name);
    if named(ui.add_sized(vec2(room, 22.0), button), &name, &teach).clicked() {
        let pick = PickFor::Input(draft.id.clone(), Some(place));
        outbox.intent(Intent::Pick(pick));
    }
}

fn name(ui: &mut Ui, place: usize, input: &Input, draft: &mut HouseDraft<'_>) -> Option<String> {
    let name = format!("Name of input {}", place + 1);
    let field = WordField {
        name: &name,
        teach: "What the steps call it; a new name goes everywhere in the preparation",
        value: &input.name,
        hint: "name",
        width: 118.0,
    };
    let id = Id::unique(("input name", &draft.id.0, place));
    rename(ui, (&field, id), draft)
}

/// A field that renames a stream; gives the reason when the name cannot stand.
pub(super) fn rename(
    ui: &mut Ui,
    (field, id): (&WordField<'_>, Id),
    draft: &mut HouseDraft<'_>,
) -> Option<String> {
    let rule = |text: &str| {
        let mut tried = draft.was.clone();
        rename_stream(&mut tried, field.value, text).map_err(|error| error.to_string())
    };
    match field.show(ui, id, rule) {
        WordEntered::Words(words) => {
            if rename_stream(&mut draft.made, field.value, &words).is_ok() {
                draft.say(format!("Call {} {words}", field.value));
            }
            None
        }
        WordEntered::Wrong(reason) => Some(reason),
        WordEntered::Nothing => None,
    }
}

fn amount(ui: &mut Ui, place: usize, input: &Input, draft: &mut HouseDraft<'_>) {
    let mut quantity = input.quantity;
    let (value, suffix) = match &mut quantity {
        Quantity::Grams(grams) => (Some(grams), " g"),
        Quantity::Ml(ml) => (Some(ml), " ml"),
        Quantity::Pieces(pieces) => (Some(pieces), " pc"),
        Quantity::AsNeeded => (None, ""),
    };
    if let Some(value) = value {
        let teach = "How much goes in: drag, or click and type; volumes at 20 °C";
        let name = format!("Amount of {}", input.name);
        let field = NumberField::new(&name, teach, 0.0..=1.0e6);
        let field = field.step(step_near(*value)).decimals(3).unit(suffix);
        field.wide(66.0).show(ui, value);
    }
    unit(ui, input, &mut quantity, draft);
    if quantity != input.quantity
        && let Some(held) = draft.made.inputs.get_mut(place)
    {
        held.quantity = quantity;
        let label = format!("Change the amount of {}", input.name);
        draft.dragged(label, format!("input {place}"));
    }
}

/// Units keep the amount where it can be worked out.
fn unit(ui: &mut Ui, input: &Input, quantity: &mut Quantity, draft: &HouseDraft<'_>) {
    let words = |quantity: &Quantity| match quantity {
        Quantity::Grams(_) => "g",
        Quantity::Ml(_) => "ml",
        Quantity::Pieces(_) => "pieces",
        Quantity::AsNeeded => "as needed",
    };
    let combo = ComboBox::from_id_salt("unit")
        .selected_text(words(quantity))
        .width(if *quantity == Quantity::AsNeeded {
            150.0
        } else {
            68.0
        })
        .show_ui(ui, |ui| {
            for choice in same_amounts(draft.session.document(), input) {
                let chosen = words(&choice) == words(quantity);
                if ui.selectable_label(chosen, words(&choice)).clicked() && !chosen {
                    *quantity = choice;
                }
            }
        });
    let teach = "Weighed, measured, counted, or as much as the step that takes it works out";
    named(combo.response, &format!("Unit of {}", input.name), teach);
}

/// The name of what an input is, with what kind of source it is.
pub(super) fn source_words(document: &Document, source: &Source) -> String {
    let name = document
        .row_of(source)
        .and_then(|row| document.ingredients.get(row))
        .map_or("?", |item| item.name.as_str());
    match source {
        Source::Ingredient(_) => name.to_owned(),
        Source::Preparation { .. } => format!("{name} (house-made)"),
        Source::Lot(lot) => document.lots.get(lot).map_or_else(
            || format!("{name} (lot)"),
            |lot| format!("{} (lot)", lot.label),
        ),
    }
}
