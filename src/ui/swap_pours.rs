//! The pours of the trial in a swap: which one is looked for, which are replaced already.

use super::naming::named;
use super::swap_dialog::{SwapDialog, can_be_swapped};
use super::theme::Tokens;
use crate::model::Trial;
use crate::rebalance::Replacement;
use crate::session::Session;
use eframe::egui::{Button, RichText, ScrollArea, Ui};

/// Shows the pours; a click looks for another one and keeps what was chosen so far.
pub(super) fn ui(
    ui: &mut Ui,
    dialog: &mut SwapDialog,
    session: &Session,
    trial: &Trial,
    height: f32,
) {
    ui.vertical(|ui| {
        ui.label(RichText::new("Replace").strong());
        ScrollArea::vertical()
            .id_salt("swap pours")
            .max_height(height - 24.0)
            .auto_shrink(false)
            .show(ui, |ui| {
                for place in 0..trial.pours.len() {
                    pour(ui, dialog, session, trial, place);
                }
            });
    });
}

fn pour(ui: &mut Ui, dialog: &mut SwapDialog, session: &Session, trial: &Trial, place: usize) {
    let (document, Some(pour)) = (session.document(), trial.pours.get(place)) else {
        return;
    };
    let name = document
        .settle(trial, pour)
        .map_or("?", |settled| settled.name);
    let amount = pour.amount.value().unwrap_or(0.0);
    let amount = pour.amount_text(amount, &document.measures);
    let looked_for = dialog.pour == place;
    let words = format!("{name}  {amount}");
    let button = Button::selectable(looked_for, RichText::new(words)).truncate();
    let possible = can_be_swapped(trial, place);
    let teach = if possible {
        format!(
            "{name}, {}: click to look for what can take its place; what is chosen for other pours stays",
            pour.role.name()
        )
    } else {
        "Without an amount there is nothing to weigh a substitute by".to_owned()
    };
    let response = ui.add_enabled(possible, button);
    if named(response, &format!("Replace {name}"), &teach).clicked() && !looked_for {
        look_for(dialog, place);
    }
    chosen(ui, dialog, place, name);
}

/// What a pour is replaced by, with the way back.
fn chosen(ui: &mut Ui, dialog: &mut SwapDialog, place: usize, name: &str) {
    let looked_for = dialog.pour == place;
    let chosen = if looked_for {
        dialog.chosen.as_ref().map(|(_, item)| item.name.clone())
    } else {
        dialog.kept.get(&place).map(|one| one.item.name.clone())
    };
    let Some(chosen) = chosen else {
        return;
    };
    ui.horizontal(|ui| {
        let accent = Tokens::of(ui).accent;
        let verb = if looked_for && dialog.split {
            "with"
        } else {
            "→"
        };
        let words = format!("   {verb} {chosen}");
        ui.label(RichText::new(words).small().color(accent));
        let back = ui.small_button("×");
        let teach = "Keep this pour as it is";
        if named(back, &format!("Keep {name}"), teach).clicked() {
            dialog.kept.remove(&place);
            if looked_for {
                dialog.chosen = None;
                dialog.split = false;
            }
        }
    });
}

/// Looks for another pour; what was chosen stays, but a split is of one pour alone.
fn look_for(dialog: &mut SwapDialog, place: usize) {
    if let Some((id, item)) = dialog.chosen.take() {
        let pour = dialog.pour;
        dialog.kept.insert(pour, Replacement { pour, id, item });
    }
    dialog.split = false;
    dialog.search.clear();
    dialog.pour = place;
    dialog.chosen = dialog.kept.remove(&place).map(|one| (one.id, one.item));
}
