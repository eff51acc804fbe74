//! What can be done with several ticked rows of the larder at once, each as one step.

use super::intent::Outbox;
use super::larder_page::LarderPage;
use super::naming::named;
use crate::model::{EU_ALLERGENS, IngredientId};
use crate::session::{Edit, LarderEdit, LarderPlace, RowsChange, Session};
use eframe::egui::{ScrollArea, Ui};

/// Height of a menu's list, points.
const LIST: f32 = 260.0;

/// Shows the bar; nothing while no row is ticked.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut LarderPage, outbox: &mut Outbox) {
    if page.ticked.is_empty() {
        return;
    }
    let rows: Vec<IngredientId> = page.ticked.iter().cloned().collect();
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        ui.label(format!("{} ticked", rows.len()));
        all_shown(ui, page);
        let none = ui.button("Tick none");
        if named(none, "Tick none", "Let all ticked rows go").clicked() {
            page.ticked.clear();
        }
        kinds(ui, page, &mut asked);
        allergens(ui, &mut asked);
        retire(ui, session, &rows, &mut asked);
        let remove = ui.button("Remove");
        let teach = "Take the ticked rows out of the document; refused where something uses one of them. Undo brings them back";
        if named(remove, "Remove the ticked rows", teach).clicked() {
            asked = Some(RowsChange::Remove);
        }
    });
    if let Some(change) = asked {
        outbox.edit(Edit::Larder(LarderEdit::ChangeRows { rows, change }));
    }
}

fn all_shown(ui: &mut Ui, page: &mut LarderPage) {
    let button = ui.button("Tick all shown");
    let teach = "Tick every row of this document that the search shows";
    if named(button, "Tick all shown", teach).clicked() {
        let rows = page.shown.iter().filter_map(|place| page.rows.get(*place));
        let own = rows.filter(|row| row.place == LarderPlace::Document);
        page.ticked.extend(own.map(|row| row.id.clone()));
    }
}

fn kinds(ui: &mut Ui, page: &LarderPage, asked: &mut Option<RowsChange>) {
    let menu = ui.menu_button("Kind", |ui| {
        ScrollArea::vertical().max_height(LIST).show(ui, |ui| {
            for kind in &page.kinds {
                if ui.button(kind).clicked() {
                    *asked = Some(RowsChange::Kind(kind.clone()));
                    ui.close();
                }
            }
        });
    });
    let teach = "Put the ticked rows into a group of the larder";
    named(menu.response, "Kind of the ticked rows", teach);
}

fn allergens(ui: &mut Ui, asked: &mut Option<RowsChange>) {
    let menu = ui.menu_button("Allergen", |ui| {
        ScrollArea::vertical().max_height(LIST).show(ui, |ui| {
            for group in EU_ALLERGENS {
                ui.horizontal(|ui| {
                    for (words, held) in [("holds", true), ("takes off", false)] {
                        let button = ui.button(words);
                        let name = format!("{words} {group}");
                        let teach = "As the labels say: check every one of them";
                        if named(button, &name, teach).clicked() {
                            let group = group.to_owned();
                            *asked = Some(RowsChange::Allergen { group, held });
                            ui.close();
                        }
                    }
                    ui.label(group);
                });
            }
        });
    });
    let teach =
        "Say of the ticked rows that they hold a group of EU 1169/2011, or take it off them";
    named(menu.response, "Allergen of the ticked rows", teach);
}

/// Retires rows that are offered; offers them again when all are retired.
fn retire(ui: &mut Ui, session: &Session, rows: &[IngredientId], asked: &mut Option<RowsChange>) {
    let held = &session.document().ingredients;
    let offered = rows
        .iter()
        .any(|id| held.get(id).is_some_and(|row| !row.retired));
    let (words, teach) = if offered {
        ("Retire", "No longer offer the ticked rows for new pours")
    } else {
        ("Offer again", "Offer the ticked rows for new pours again")
    };
    let button = ui.button(words);
    if named(button, &format!("{words} the ticked rows"), teach).clicked() {
        *asked = Some(RowsChange::Retired(offered));
    }
}
