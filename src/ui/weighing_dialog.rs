//! Own dilution: weighings before and after ice, over the usual curve.

use super::chart_table::table;
use super::chart_view::{ChartView, caption};
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use crate::balance::{WeighedPoint, calibrate, usual_curve};
use crate::chart::dilution_chart;
use crate::model::{Document, Method, Weighing, is_day};
use crate::session::{Edit, LarderEdit, Session, today};
use crate::units::{number, percent, trimmed};
use eframe::egui::{Button, ComboBox, Grid, RichText, ScrollArea, TextEdit, Ui, vec2};

/// Height of the chart, points.
const CHART_HEIGHT: f32 = 190.0;

/// State of the dialog: the weighing being entered.
#[derive(Clone, Debug)]
pub(super) struct WeighingDialog {
    entry: Weighing,
    /// As it was when the dialog opened, or added last.
    was: Weighing,
}

impl WeighingDialog {
    /// Begins with the drink on screen.
    pub(super) fn of(session: &Session) -> Self {
        let figures = session
            .derived()
            .and_then(|derived| derived.figures.as_ref().ok());
        let method = session
            .trial()
            .map(|trial| trial.technique.method)
            .filter(|method| usual_curve(*method).is_some())
            .unwrap_or_default();
        let rounded = |value: f64| (value * 10.0).round() / 10.0;
        let (grams, spared, strength, density) = figures.map_or((100.0, 0.0, 30.0, 1.0), |found| {
            let density = found.chilled_g / found.chilled_ml.max(1.0e-9);
            (
                found.chilled_g,
                found.spared_g,
                found.chilled_pct_vol,
                density,
            )
        });
        let entry = Weighing {
            method,
            before_g: rounded(grams),
            // What the scale shows is for the person to say.
            after_g: rounded(grams),
            spared_g: rounded(spared),
            strength_pct_vol: rounded(strength),
            density_g_per_ml: (density * 1.0e4).round() / 1.0e4,
            ice_g: None,
            seconds: None,
            on: today(),
            note: String::new(),
        };
        let was = entry.clone();
        Self { entry, was }
    }

    /// Whether something was entered that is not added yet; the technique alone is nothing entered.
    pub(super) fn is_begun(&self) -> bool {
        let was = Weighing {
            method: self.entry.method,
            ..self.was.clone()
        };
        self.entry != was
    }

    /// Shows the entry, the chart and what is weighed so far.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        document: &Document,
        tables: bool,
        outbox: &mut Outbox,
    ) {
        ui.label("Weigh the drink before ice and after straining. The usual curve is then fitted to your hands, with the scatter that is left.");
        self.method(ui, document, outbox);
        self.entry_fields(ui);
        let gained = self.entry.after_g > self.entry.before_g;
        let dated = self.entry.on.is_empty() || is_day(&self.entry.on);
        let add = ui.add_enabled(gained && dated, Button::new("Add this weighing"));
        let teach = "Strength and density before ice come from the drink on screen; correct them for another";
        if named(add, "Add this weighing", teach).clicked() {
            outbox.edit(Edit::Larder(LarderEdit::AddWeighing(self.entry.clone())));
            self.was = self.entry.clone();
        }
        if !gained {
            let words = "After straining it must weigh more than before";
            ui.label(RichText::new(words).small().weak());
        }
        if !dated {
            let words = "The day is written like 2026-05-04";
            ui.label(RichText::new(words).small().color(Tokens::of(ui).warn));
        }
        ui.separator();
        self.chart(ui, document, tables);
        self.list(ui, document, outbox);
        if ui.button("Done").clicked() {
            outbox.intent(Intent::CloseDialog);
        }
    }

    fn method(&mut self, ui: &mut Ui, document: &Document, outbox: &mut Outbox) {
        ui.horizontal(|ui| {
            let combo = ComboBox::from_id_salt("weighed method")
                .selected_text(self.entry.method.name())
                .show_ui(ui, |ui| {
                    let iced = |method: &Method| usual_curve(*method).is_some();
                    for method in Method::ALL.into_iter().filter(iced) {
                        ui.selectable_value(&mut self.entry.method, method, method.name());
                    }
                });
            named(combo.response, "Technique weighed", "How it was chilled");
            let method = self.entry.method;
            let mut on = !document.uncalibrated.contains(&method);
            let tick = ui.checkbox(&mut on, "use my weighings");
            let teach = "Off: they are kept, and the usual curve is used";
            if named(tick, "Use my weighings", teach).changed() {
                outbox.edit(Edit::Larder(LarderEdit::SetCalibrated { method, on }));
            }
        });
    }

    fn entry_fields(&mut self, ui: &mut Ui) {
        let entry = &mut self.entry;
        Grid::new("weighing").num_columns(4).show(ui, |ui| {
            let mut field = |name: &str, unit: &str, value: &mut f64, decimals, teach: &str| {
                ui.label(name);
                let name = format!("{name},{unit}");
                let field = NumberField::new(&name, teach, 0.0..=50_000.0);
                field.decimals(decimals).unit(unit).show(ui, value);
            };
            field("Before", " g", &mut entry.before_g, 1, "Liquids before ice");
            field("After", " g", &mut entry.after_g, 1, "After straining");
            ui.end_row();
            let mut field = |name: &str, unit: &str, value: &mut f64, decimals, teach: &str| {
                ui.label(name);
                let name = format!("{name},{unit}");
                let field = NumberField::new(&name, teach, 0.0..=100.0);
                let field = field.step(0.1_f64.powf(decimals as f64));
                field.decimals(decimals).unit(unit).show(ui, value);
            };
            let strength = &mut entry.strength_pct_vol;
            field("Strength", " % vol", strength, 1, "Before ice");
            let density = &mut entry.density_g_per_ml;
            field("Density", " g/ml", density, 4, "Before ice, at 20 °C");
            ui.end_row();
            ui.label("Spared");
            let teach = "Melt that cold liquids, vessel or ice spared, by the heat balance of the drink on screen; 0 with all at room temperature and wet ice";
            let field = NumberField::new("Spared, g", teach, 0.0..=50_000.0);
            field.decimals(1).unit(" g").show(ui, &mut entry.spared_g);
            ui.end_row();
            optional(ui, "Ice", (" g", 200.0), &mut entry.ice_g);
            optional(ui, "Time", (" s", 12.0), &mut entry.seconds);
            ui.end_row();
            for (name, teach, text) in [
                (
                    "Day",
                    "When it was weighed, such as 2026-05-04",
                    &mut entry.on,
                ),
                (
                    "Note",
                    "Ice, shaker, hands: whatever matters",
                    &mut entry.note,
                ),
            ] {
                ui.label(name);
                let field = ui.add_sized(vec2(140.0, 22.0), TextEdit::singleline(text));
                named(field, &format!("{name} of the weighing"), teach);
            }
            ui.end_row();
        });
    }

    fn chart(&self, ui: &mut Ui, document: &Document, tables: bool) {
        let method = self.entry.method;
        let own = calibrate(&document.weighings, method);
        let Some(chart) = dilution_chart(method, &document.weighings, own.as_ref()) else {
            return;
        };
        ui.label(&chart.summary);
        if tables {
            table(ui, "own dilution", &chart, CHART_HEIGHT);
            return;
        }
        let shown = ChartView {
            id: "own dilution",
            height: CHART_HEIGHT,
            reframe: true,
            movable: false,
            zooms: false,
            letters: None,
            read: &|mark| mark.detail.clone(),
        }
        .show(ui, &chart);
        caption(ui, &shown, &chart.y.label());
    }

    fn list(&self, ui: &mut Ui, document: &Document, outbox: &mut Outbox) {
        let method = self.entry.method;
        ScrollArea::vertical()
            .id_salt("weighings")
            .max_height(110.0)
            .show(ui, |ui| {
                for (place, weighing) in document.weighings.iter().enumerate() {
                    if weighing.method == method {
                        row(ui, place, weighing, outbox);
                    }
                }
            });
    }
}

fn optional(ui: &mut Ui, name: &str, (unit, first): (&str, f64), value: &mut Option<f64>) {
    ui.label(name);
    ui.horizontal(|ui| {
        let mut known = value.is_some();
        let tick = ui.checkbox(&mut known, "");
        if named(
            tick,
            &format!("{name} is known"),
            "Leave blank what was not noted",
        )
        .changed()
        {
            *value = known.then_some(first);
        }
        if let Some(value) = value {
            let name = format!("{name},{unit}");
            let field = NumberField::new(&name, "As it was", 0.0..=50_000.0);
            field.unit(unit).show(ui, value);
        }
    });
}

fn row(ui: &mut Ui, place: usize, weighing: &Weighing, outbox: &mut Outbox) {
    let point = WeighedPoint::of(weighing);
    let mut facts = vec![
        format!(
            "{} → {} g at {} % vol",
            trimmed(weighing.before_g, 1),
            trimmed(weighing.after_g, 1),
            number(weighing.strength_pct_vol, 1)
        ),
        format!("{} of water", percent(point.fraction, 0)),
    ];
    facts.extend(
        weighing
            .ice_g
            .map(|grams| format!("{} g ice", trimmed(grams, 0))),
    );
    facts.extend(
        weighing
            .seconds
            .map(|time| format!("{} s", trimmed(time, 0))),
    );
    for text in [&weighing.on, &weighing.note] {
        if !text.is_empty() {
            facts.push(text.clone());
        }
    }
    ui.horizontal(|ui| {
        let name = format!("Remove weighing {}", place + 1);
        if named(
            ui.small_button("×"),
            &name,
            "Take this weighing back; undo brings it again",
        )
        .clicked()
        {
            outbox.edit(Edit::Larder(LarderEdit::RemoveWeighing(place)));
        }
        ui.label(RichText::new(facts.join(" · ")).small());
    });
}
