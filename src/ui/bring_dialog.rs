//! Bring to spec: two readings of today's batch, and what to weigh into it, in large type.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use super::reading_fields;
use super::theme::Tokens;
use crate::measure::{Additions, CAUTION};
use crate::model::{
    Acids, Document, Ingredient, IngredientId, Lot, Measurement, Reading, Role, TrialState,
    WeighedIn, batch_rows,
};
use crate::session::{
    Session, USUAL_TITRATION, aim_of, brought_batch, expected_readings, keep_lot, today,
    weighed_list,
};
use crate::units::{grams_per_litre, number};
use eframe::egui::{Button, ComboBox, FontFamily, FontId, RichText, Ui};

/// Size of the type that is read at arm's length, points.
const LARGE: f32 = 30.0;
/// Size of the fields, points.
const MIDDLE: f32 = 19.0;
/// Batch that the dialog begins with, ml.
const USUAL_BATCH_ML: f64 = 500.0;

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct BringDialog {
    of: Option<IngredientId>,
    brix: Reading,
    sour: Reading,
    titration: Reading,
    ph: Reading,
    batch_ml: f64,
}

impl BringDialog {
    /// Begins with the sour pour of the trial on screen.
    pub(super) fn of(session: &Session) -> Self {
        let document = session.document();
        let sour = session.trial().and_then(|trial| {
            let sour = trial.pours.iter().find(|pour| pour.role == Role::Sour);
            sour.or(trial.pours.first())
                .and_then(|pour| super::pour_origin::plain_ingredient(document, pour))
        });
        let mut dialog = Self {
            of: None,
            brix: Reading::Brix(8.0),
            sour: Reading::Ph(2.5),
            titration: Reading::Ph(2.5),
            ph: Reading::Ph(2.5),
            batch_ml: USUAL_BATCH_ML,
        };
        dialog.choose(document, sour.cloned());
        dialog
    }

    /// Readings begin with what the aim itself would show.
    fn choose(&mut self, document: &Document, of: Option<IngredientId>) {
        self.of = of;
        let Some(aim) = self.of.as_ref().and_then(|of| aim_of(document, of)) else {
            return;
        };
        let (sample_ml, normality) = USUAL_TITRATION;
        self.titration = Reading::Titration {
            sample_ml,
            titrant_ml: 0.0,
            normality,
        };
        for reading in expected_readings(aim.ingredient) {
            match reading {
                Reading::Brix(_) => self.brix = reading,
                _ => self.titration = reading,
            }
        }
        if let Some(ph) = aim.ingredient.ph {
            self.ph = Reading::Ph(ph.typical);
        }
        self.sour = self.titration;
    }

    fn measurements(&self) -> Vec<Measurement> {
        [self.brix, self.sour]
            .into_iter()
            .map(|reading| Measurement {
                reading,
                on: today(),
            })
            .collect()
    }

    /// Shows fields and answer in large type.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let document = session.document();
        ui.style_mut().override_font_id = Some(FontId::new(MIDDLE, FontFamily::Proportional));
        ui.spacing_mut().interact_size.y = 30.0;
        self.ingredient(ui, document);
        let Some(of) = self.of.clone() else {
            ui.label("Pour something first, then its batches can be brought to spec.");
            return;
        };
        if let Some(aim) = aim_of(document, &of) {
            ui.label(RichText::new(format!("to be like: {}", aim.name)).weak());
        }
        ui.horizontal(|ui| {
            ui.label("Refractometer");
            reading_fields::ui(ui, &mut self.brix);
        });
        self.sourness(ui);
        let found = brought_batch(document, &of, &self.measurements(), self.batch_ml);
        ui.add_space(8.0);
        match &found {
            Ok((added, weighed, _)) => answer(ui, added, weighed),
            Err(reason) => {
                ui.label(RichText::new(reason).color(Tokens::of(ui).warn));
            }
        }
        ui.add_space(8.0);
        self.buttons(ui, session, &of, found.ok(), outbox);
        ui.style_mut().override_font_id = None;
        ui.label(RichText::new(CAUTION).small().weak());
    }

    fn ingredient(&mut self, ui: &mut Ui, document: &Document) {
        let shown = self
            .of
            .as_ref()
            .and_then(|of| document.ingredients.get(of))
            .map_or("choose", |item| &item.name)
            .to_owned();
        let mut chosen = None;
        ui.horizontal(|ui| {
            ui.label("Today's");
            let combo = ComboBox::from_id_salt("brought")
                .selected_text(shown)
                .width(230.0)
                .show_ui(ui, |ui| {
                    let lots = batch_rows(document);
                    // What has acid drifts from batch to batch; spirits, salt and gums do not.
                    let drifts = |id: &IngredientId, item: &Ingredient| {
                        !lots.contains(id) && item.acids != Acids::default()
                    };
                    let rows = document.ingredients.iter();
                    for (id, item) in rows.filter(|(id, item)| drifts(id, item)) {
                        let here = self.of.as_ref() == Some(id);
                        if ui.selectable_label(here, &item.name).clicked() {
                            chosen = Some(id.clone());
                        }
                    }
                });
            named(
                combo.response,
                "Ingredient to bring to spec",
                "Whose batch it is",
            );
            let field = NumberField::new("Batch, ml", "How much there is of it", 1.0..=1.0e6);
            let field = field.step(10.0).decimals(1).unit(" ml");
            field.show(ui, &mut self.batch_ml);
        });
        if chosen.is_some() {
            self.choose(document, chosen);
        }
    }

    fn sourness(&mut self, ui: &mut Ui) {
        ui.horizontal(|ui| {
            let by_ph = matches!(self.sour, Reading::Ph(_));
            let titrated = ui.selectable_label(!by_ph, "Titration");
            let teach = "The surer way: sodium hydroxide until pH 8.2";
            if named(titrated, "By titration", teach).clicked() && by_ph {
                self.ph = self.sour;
                self.sour = self.titration;
            }
            let metered = ui.selectable_label(by_ph, "pH");
            let teach = "Rougher: the salts are taken to be as usual, and 0.05 of pH is about a tenth of the acid";
            if named(metered, "By pH", teach).clicked() && !by_ph {
                self.titration = self.sour;
                self.sour = self.ph;
            }
            reading_fields::ui(ui, &mut self.sour);
        });
    }

    fn buttons(
        &self,
        ui: &mut Ui,
        session: &Session,
        of: &IngredientId,
        found: Option<(Additions, WeighedIn, Ingredient)>,
        outbox: &mut Outbox,
    ) {
        let draft = session.trial().is_some_and(|trial| {
            let poured = session.document().pours_of(trial, of).next().is_some();
            trial.state == TrialState::Draft && poured
        });
        let mut keep = None;
        ui.horizontal(|ui| {
            let button = ui.add_enabled(found.is_some(), Button::new("Keep as a lot"));
            let teach = "Keep the batch after these additions as a lot of today";
            if named(button, "Keep as a lot", teach).clicked() {
                keep = Some(false);
            }
            let button = ui.add_enabled(found.is_some() && draft, Button::new("Keep and pour"));
            let teach =
                "Keep it, and let the trial on screen pour this lot, if it pours this ingredient";
            if named(button, "Keep and pour", teach).clicked() {
                keep = Some(true);
            }
            if ui.button("Close").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
        let (Some(pour), Some((_, weighed, ingredient))) = (keep, found) else {
            return;
        };
        let lot = self.lot(of, &ingredient, weighed);
        let pour_in = session.trial().filter(|_| pour).map(|trial| trial.id);
        outbox.edit(keep_lot(session, None, lot, ingredient, pour_in));
        outbox.intent(Intent::CloseDialog);
    }

    fn lot(&self, of: &IngredientId, item: &Ingredient, weighed: WeighedIn) -> Lot {
        let day = today();
        Lot {
            label: format!("{}, {day}, to spec", item.name),
            ingredient: of.clone(),
            of: Some(of.clone()),
            made_on: day,
            best_before: String::new(),
            measurements: self.measurements(),
            weighed_in: Some(weighed).filter(|weighed| !weighed_list(weighed).is_empty()),
            approved: false,
            note: String::new(),
        }
    }
}

/// The answer, one line for each thing to weigh in.
fn answer(ui: &mut Ui, added: &Additions, weighed: &WeighedIn) {
    let large = |text: String| RichText::new(text).size(LARGE).strong();
    let batch_ml = weighed.batch_ml;
    let list = weighed_list(weighed);
    if list.is_empty() {
        ui.label(large("Nothing to add".to_owned()));
        let words = "as far as these readings can tell the two batches apart";
        ui.label(RichText::new(words).weak());
        return;
    }
    for line in &list {
        ui.label(large(format!("+ {line}")));
    }
    let reached = &added.reached;
    let becomes = format!(
        "{} ml become {} ml: sweet {}, sour {}",
        number(batch_ml, 0),
        number(added.final_ml, 0),
        grams_per_litre(reached.sweet_g_per_l),
        grams_per_litre(reached.sour_g_per_l)
    );
    ui.label(becomes);
    if added.is_saturated {
        let words = "More sugar than dissolves at 20 °C: some stays at the bottom.";
        ui.label(RichText::new(words).color(Tokens::of(ui).caution));
    }
}
