//! A measured lot: its readings, what they make of it, and what that does to the drink.

use super::field_words::refusal;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::reading_fields::{self, KINDS};
use super::theme::Tokens;
use crate::measure::Compared;
use crate::model::{Document, IngredientId, Lot, LotId, Measurement, TrialId, TrialState};
use crate::session::{
    Edit, LarderEdit, LotOutcome, Session, keep_lot, lot_outcome, today, weighed_text,
};
use crate::units::{number, signed, steps};
use eframe::egui::{Button, Grid, RichText, ScrollArea, TextEdit, Ui, vec2};

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct LotDialog {
    of: IngredientId,
    id: Option<LotId>,
    lot: Lot,
    /// As it was when the dialog opened.
    was: Lot,
}

impl LotDialog {
    /// A lot as it was kept, or a new one of an ingredient.
    pub(super) fn of(document: &Document, of: IngredientId, id: Option<LotId>) -> Option<Self> {
        let name = &document.ingredients.get(&of)?.name;
        let kept = id.as_ref().and_then(|id| document.lots.get(id)).cloned();
        let day = today();
        let lot = kept.unwrap_or_else(|| Lot {
            label: format!("{name}, {day}"),
            ingredient: of.clone(),
            of: Some(of.clone()),
            made_on: day,
            best_before: String::new(),
            measurements: Vec::new(),
            weighed_in: None,
            approved: false,
            note: String::new(),
        });
        let was = lot.clone();
        Some(Self { of, id, lot, was })
    }

    /// Whether something was written that is not kept yet.
    pub(super) fn is_begun(&self) -> bool {
        self.lot != self.was
    }

    /// Shows the lot; keeping it pushes the edits and closes the dialog.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        self.head(ui);
        ui.add_space(6.0);
        ui.label(RichText::new("Readings").strong());
        self.readings(ui);
        self.weighed_in(ui);
        ui.add_space(6.0);
        let trial = session.trial().map(|trial| &**trial);
        let found = lot_outcome(session.document(), trial, &self.of, &self.lot);
        match &found {
            Ok(found) => outcome(ui, found),
            Err(reason) => {
                ui.label(RichText::new(reason).color(Tokens::of(ui).warn));
            }
        }
        ui.add_space(6.0);
        let found = found.ok();
        let refused = found.as_ref().and_then(|found| {
            let edit = self.keeping(session, found, None);
            session.refusal(&edit)
        });
        if let Some(error) = &refused {
            ui.label(RichText::new(refusal(error)).color(Tokens::of(ui).warn));
        }
        let found = found.filter(|_| refused.is_none());
        self.buttons(ui, session, found, outbox);
    }

    fn head(&mut self, ui: &mut Ui) {
        let lot = &mut self.lot;
        Grid::new("lot").num_columns(4).show(ui, |ui| {
            for (row, pair) in [
                [
                    ("Label", "What stands on the bottle", &mut lot.label),
                    ("Note", "Whatever matters of this batch", &mut lot.note),
                ],
                [
                    ("Made on", "Day, such as 2026-05-04", &mut lot.made_on),
                    (
                        "Best before",
                        "Last day it should be used, such as 2026-05-06; follow the local food code",
                        &mut lot.best_before,
                    ),
                ],
            ]
            .into_iter()
            .enumerate()
            {
                for (name, teach, text) in pair {
                    ui.label(name);
                    let width = if row == 0 { 220.0 } else { 110.0 };
                    let field = TextEdit::singleline(text);
                    let field = ui.add_sized(vec2(width, 22.0), field);
                    named(field, &format!("{name} of the lot"), teach);
                }
                ui.end_row();
            }
        });
        let tick = ui.checkbox(&mut lot.approved, "the recipe was approved with this lot");
        named(
            tick,
            "Approved lot",
            "Later batches are brought to the approved one, so that the recipe stands",
        );
    }

    fn readings(&mut self, ui: &mut Ui) {
        let mut removed = None;
        ScrollArea::vertical()
            .id_salt("readings")
            .max_height(150.0)
            .show(ui, |ui| {
                for (place, measurement) in self.lot.measurements.iter_mut().enumerate() {
                    ui.push_id(place, |ui| {
                        ui.horizontal(|ui| {
                            let name = format!("Remove reading {}", place + 1);
                            let teach = "Take this reading back";
                            if named(ui.small_button("×"), &name, teach).clicked() {
                                removed = Some(place);
                            }
                            ui.label(measurement.reading.instrument());
                            reading_fields::ui(ui, &mut measurement.reading);
                            let field = TextEdit::singleline(&mut measurement.on);
                            let teach = "Day it was read, such as 2026-05-04";
                            let name = format!("Day of reading {}", place + 1);
                            let field = ui.add_sized(vec2(92.0, 22.0), field.hint_text("day"));
                            named(field, &name, teach);
                        });
                    });
                }
            });
        if let Some(place) = removed {
            self.lot.measurements.remove(place);
        }
        let menu = ui.menu_button("Add a reading", |ui| {
            for (words, reading) in KINDS {
                if ui.button(words).clicked() {
                    self.lot.measurements.push(Measurement {
                        reading,
                        on: today(),
                    });
                    ui.close();
                }
            }
        });
        named(
            menu.response,
            "Add a reading",
            "Of readings of one kind the last one counts",
        );
    }

    /// What was weighed in after the readings, and the way to take that back.
    fn weighed_in(&mut self, ui: &mut Ui) {
        let Some(weighed) = &self.lot.weighed_in else {
            return;
        };
        let words = format!("Weighed in after the readings: {}", weighed_text(weighed));
        let mut remove = false;
        ui.horizontal(|ui| {
            let teach = "Take the additions back: the lot is then what the readings say";
            remove = named(ui.small_button("×"), "Remove what was weighed in", teach).clicked();
            ui.label(words);
        });
        if remove {
            self.lot.weighed_in = None;
        }
    }

    fn keeping(&self, session: &Session, found: &LotOutcome, pour_in: Option<TrialId>) -> Edit {
        let (id, lot) = (self.id.as_ref(), self.lot.clone());
        keep_lot(session, id, lot, found.ingredient.clone(), pour_in)
    }

    fn buttons(
        &self,
        ui: &mut Ui,
        session: &Session,
        found: Option<LotOutcome>,
        outbox: &mut Outbox,
    ) {
        let poured = session.trial().is_some_and(|trial| {
            trial.state == TrialState::Draft
                && found
                    .as_ref()
                    .is_some_and(|found| !found.effects.is_empty())
        });
        let mut keep = None;
        ui.horizontal(|ui| {
            let can = found.is_some() && !self.lot.label.trim().is_empty();
            let button = ui.add_enabled(can, Button::new("Keep the lot"));
            if named(button, "Keep the lot", "Write it into the document").clicked() {
                keep = Some(false);
            }
            let button = ui.add_enabled(can && poured, Button::new("Keep it and pour it"));
            let teach = "Keep it, and let the trial on screen pour this lot";
            if named(button, "Keep it and pour it", teach).clicked() {
                keep = Some(true);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
            if let Some(id) = &self.id {
                let remove = ui.button("Remove the lot");
                let teach = "Only a lot that nothing pours can go; undo brings it back";
                if named(remove, "Remove the lot", teach).clicked() {
                    outbox.edit(Edit::Larder(LarderEdit::RemoveLot(id.clone())));
                    outbox.intent(Intent::CloseDialog);
                }
            }
        });
        let (Some(pour), Some(found)) = (keep, found) else {
            return;
        };
        let pour_in = session.trial().filter(|_| pour).map(|trial| trial.id);
        outbox.edit(self.keeping(session, &found, pour_in));
        outbox.intent(Intent::CloseDialog);
    }
}

/// Predicted beside measured, what the readings do not say, what it does to the drink.
fn outcome(ui: &mut Ui, found: &LotOutcome) {
    Grid::new("compared")
        .num_columns(4)
        .striped(true)
        .show(ui, |ui| {
            for words in ["", "predicted", "this lot", "difference"] {
                ui.label(RichText::new(words).small().weak());
            }
            ui.end_row();
            for row in &found.rows {
                compared(ui, row);
            }
        });
    for (name, effect) in &found.effects {
        let all = effect.distance(&crate::model::Weights::default());
        let words = format!(
            "In the drink on screen ({name}): sweet {}, sour {}, strength {} – {} in all.",
            signed(effect.sweet, 2),
            signed(effect.sour, 2),
            signed(effect.strength, 2),
            steps(all)
        );
        ui.label(RichText::new(words).strong());
    }
    for remark in &found.remarks {
        ui.label(RichText::new(remark).small().color(Tokens::of(ui).caution));
    }
}

fn compared(ui: &mut Ui, row: &Compared) {
    let text = |value: Option<f64>| {
        value.map_or_else(|| "–".to_owned(), |value| number(value, row.decimals))
    };
    let name = if row.unit.is_empty() {
        row.name.to_owned()
    } else {
        format!("{}, {}", row.name, row.unit)
    };
    ui.label(name);
    ui.label(text(row.predicted));
    ui.label(RichText::new(text(row.measured)).strong());
    ui.label(row.difference().map_or_else(
        || "–".to_owned(),
        |difference| signed(difference, row.decimals),
    ));
    ui.end_row();
}
