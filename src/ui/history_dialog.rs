//! Every step that can be undone or redone, by name.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::overlays::list_height;
use crate::session::Session;
use eframe::egui::{Button, Id, RichText, ScrollArea, Ui, vec2};

/// Height of title and button, and of the space around them, points.
const AROUND: f32 = 160.0;

/// Shows the steps, the oldest at the top; choosing one goes there at once.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let history = session.history();
    let here = history.past().count();
    let labels: Vec<&str> = history.past().chain(history.future()).collect();
    if labels.is_empty() {
        let words =
            "Nothing was changed yet. Every change of the document will stand here by name.";
        ui.label(RichText::new(words).weak());
    }
    let open = session.read_only().is_none();
    let height = list_height(ui, AROUND);
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        let first = (!labels.is_empty()).then_some("Before all of these steps");
        let rows = first.into_iter().chain(labels.iter().copied());
        for (place, label) in rows.enumerate() {
            let shown = RichText::new(label);
            let shown = if place > here { shown.weak() } else { shown };
            let button = Button::selectable(place == here, shown);
            let button = button.min_size(vec2(ui.available_width(), 0.0));
            let (state, teach) = match place {
                _ if place == here => ("now", "The document stands here"),
                _ if place < here => ("done", "Undo everything after this step"),
                _ => ("undone", "Do every step up to this one again"),
            };
            let name = format!("Step {place}, {state}: {label}");
            let response = named(ui.add_enabled(open, button), &name, teach);
            if response.clicked() && place != here {
                outbox.intent(Intent::GoToStep(place));
            }
            if place == here {
                keep_in_sight(ui, &response, here);
            }
        }
    });
    if ui.button("Close").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}

/// Scrolls to the present step when it is another one than in the last frame.
fn keep_in_sight(ui: &Ui, response: &eframe::egui::Response, here: usize) {
    let id = Id::unique("present step of the history");
    let was = ui.data(|data| data.get_temp::<usize>(id));
    if was != Some(here) {
        response.scroll_to_me(None);
        ui.data_mut(|data| data.insert_temp(id, here));
    }
}
