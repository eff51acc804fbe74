//! For how many, when, and with what a drink is served.

use super::house_fields::Figure;
use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::service_panel::trouble;
use super::word_field::{WordEntered, WordField};
use crate::model::{Bottling, Hours, ServicePlan, SpecId, is_day, minute_of_day};
use crate::session::{Edit, SERVICE_AT, Session, SubmissionEdit, equipment_needed};
use eframe::egui::{ComboBox, Grid, Id, RichText, Ui};
use std::sync::Arc;

/// Most drinks and most people.
const MOST_SERVES: u32 = 100_000;
const MOST_HANDS: u32 = 50;

/// Shows the fields of the plan of the drink on screen.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    let mut plan = ServicePlan::clone(&spec.service);
    let mut refused = Vec::new();
    Grid::new("service").num_columns(2).show(ui, |ui| {
        ui.label("Drinks");
        ui.horizontal(|ui| {
            let teach = "Drinks that are served; batch, shopping and plan follow";
            let most = f64::from(MOST_SERVES);
            NumberField::new("Drinks to serve", teach, 1.0..=most).show(ui, &mut plan.serves);
            ui.label("and");
            let teach = "More to make than is served, for spills and tasting, %";
            percent(ui, "Spare", teach, &mut plan.spare_pct);
            ui.label("spare");
        });
        ui.end_row();
        ui.label("Service");
        ui.horizontal(|ui| when(ui, spec.id, &mut plan, &mut refused));
        ui.end_row();
        ui.label("Hands");
        let teach = "People who prepare at once; each does one thing at a time";
        let most = f64::from(MOST_HANDS);
        NumberField::new("Hands", teach, 1.0..=most).show(ui, &mut plan.hands);
        ui.end_row();
        ui.label("Hours");
        ui.horizontal(|ui| hours(ui, spec.id, &mut plan, &mut refused));
        ui.end_row();
        equipment(ui, session, &mut plan);
        ui.label("Standard drink of");
        country(ui, &mut plan);
        ui.end_row();
    });
    for reason in refused {
        trouble(ui, &format!("Not taken: {reason}."));
    }
    if plan != *spec.service {
        let (spec, service, what) = (spec.id, Arc::new(plan), "Change the service");
        outbox.edit(Edit::Submission(SubmissionEdit::SetService {
            spec,
            service,
            what,
        }));
    }
}

/// A figure in per cent that is kept as it is shown.
fn percent(ui: &mut Ui, name: &str, teach: &str, value: &mut f64) {
    let field = Figure {
        name,
        teach,
        unit: " % ",
        most: 100.0,
        decimals: 1,
    };
    field.show(ui, value);
}

fn when(ui: &mut Ui, spec: SpecId, plan: &mut ServicePlan, refused: &mut Vec<String>) {
    let day = WordField {
        name: "Day of the service",
        teach: "Year, month and day, such as 2026-12-05; the preparation is planned backwards from it",
        value: &plan.on.clone(),
        hint: "no day yet",
        width: 92.0,
    };
    let rule = |text: &str| {
        let known = text.is_empty() || is_day(text);
        let wrong = || format!("\"{text}\" is no day such as 2026-12-05");
        known.then_some(()).ok_or_else(wrong)
    };
    match day.show(ui, Id::unique(("service day", spec.0)), rule) {
        WordEntered::Words(text) => plan.on = text,
        WordEntered::Wrong(reason) => refused.push(reason),
        WordEntered::Nothing => {}
    }
    ui.label("at");
    let time = WordField {
        name: "Time of the service",
        teach: &format!(
            "Hours and minutes of the first drink, such as 19:30; while it is blank, the plan takes {SERVICE_AT}"
        ),
        value: &plan.at.clone(),
        hint: SERVICE_AT,
        width: 58.0,
    };
    let entered = time.show(ui, Id::unique(("service time", spec.0)), |text| {
        time_or_nothing(text)
    });
    match entered {
        WordEntered::Words(text) => plan.at = text,
        WordEntered::Wrong(reason) => refused.push(reason),
        WordEntered::Nothing => {}
    }
}

fn time_or_nothing(text: &str) -> Result<(), String> {
    let known = text.is_empty() || minute_of_day(text).is_some();
    let wrong = || format!("\"{text}\" is no time such as 19:30");
    known.then_some(()).ok_or_else(wrong)
}

fn hours(ui: &mut Ui, spec: SpecId, plan: &mut ServicePlan, refused: &mut Vec<String>) {
    let mut limited = plan.hours.is_some();
    let tick = ui.checkbox(&mut limited, "only from");
    let teach =
        "Hours in which somebody may work, each day; what waits by itself goes on overnight";
    if named(tick, "Working hours", teach).changed() {
        plan.hours = limited.then(|| Hours {
            from: "10:00".to_owned(),
            to: "23:00".to_owned(),
        });
    }
    let Some(hours) = &mut plan.hours else {
        return;
    };
    for (name, value) in [("Work from", 0), ("Work until", 1)] {
        let (own, other) = if value == 0 {
            (hours.from.clone(), hours.to.clone())
        } else {
            (hours.to.clone(), hours.from.clone())
        };
        let field = WordField {
            name,
            teach: "Hours and minutes, such as 10:00",
            value: &own,
            hint: "10:00",
            width: 58.0,
        };
        let rule = |text: &str| {
            let minute = minute_of_day(text)
                .ok_or_else(|| format!("\"{text}\" is no time such as 10:00"))?;
            let other = minute_of_day(&other).unwrap_or(0);
            let in_order = if value == 0 {
                minute < other
            } else {
                minute > other
            };
            in_order
                .then_some(())
                .ok_or_else(|| "the end must be later than the begin".to_owned())
        };
        let id = Id::unique(("service hours", spec.0, value));
        match field.show(ui, id, rule) {
            WordEntered::Words(text) if value == 0 => hours.from = text,
            WordEntered::Words(text) => hours.to = text,
            WordEntered::Wrong(reason) => refused.push(reason),
            WordEntered::Nothing => {}
        }
        if value == 0 {
            ui.label("to");
        }
    }
}

/// How many there are of everything that the preparations need; one of each unless said.
fn equipment(ui: &mut Ui, session: &Session, plan: &mut ServicePlan) {
    let needed = equipment_needed(session);
    if needed.is_empty() {
        return;
    }
    ui.label("Equipment");
    let teach = "How many there are of each; one unless you say more";
    let menu = ui.menu_button("how many of each", |ui| {
        Grid::new("equipment").num_columns(2).show(ui, |ui| {
            for name in &needed {
                ui.label(name);
                let mut many = plan.equipment.get(name).copied().unwrap_or(1);
                let words = format!("How many: {name}");
                let field = NumberField::new(&words, teach, 1.0..=1_000.0).usual(1.0);
                if field.show(ui, &mut many) {
                    if many == 1 {
                        plan.equipment.remove(name);
                    } else {
                        plan.equipment.insert(name.clone(), many);
                    }
                }
                ui.end_row();
            }
        });
    });
    named(menu.response, "Equipment at hand", teach);
    ui.end_row();
}

fn country(ui: &mut Ui, plan: &mut ServicePlan) {
    let list = ComboBox::from_id_salt("standard drink")
        .selected_text(&plan.country)
        .show_ui(ui, |ui| {
            for country in crate::session::countries() {
                ui.selectable_value(&mut plan.country, country.clone(), &country);
            }
        });
    let teach = "Whose standard drink is told: countries differ between 8 and 20 g of pure alcohol";
    named(list.response, "Country of the standard drink", teach);
}

/// Shows how the drink is bottled.
pub(super) fn bottling(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    let mut bottling = spec.service.bottling;
    let tick = ui.checkbox(&mut bottling.on, "Bottled before the service");
    let teach = "Mixed with its water and bottled; poured without ice. Check the rules: many forbid batching";
    named(tick, "Bottled before the service", teach);
    if bottling.on {
        Grid::new("bottling")
            .num_columns(4)
            .show(ui, |ui| bottles(ui, &mut bottling));
        let words = "Water as the drink takes up from ice, unless you say otherwise.";
        ui.label(RichText::new(words).small().weak());
    }
    if bottling != spec.service.bottling {
        let mut service = ServicePlan::clone(&spec.service);
        service.bottling = bottling;
        let (spec, service, what) = (spec.id, Arc::new(service), "Change the bottling");
        outbox.edit(Edit::Submission(SubmissionEdit::SetService {
            spec,
            service,
            what,
        }));
    }
}

fn bottles(ui: &mut Ui, bottling: &mut Bottling) {
    ui.label("Bottle");
    let teach = "Size of a bottle, ml";
    Figure::of("Bottle", teach, " ml", 100_000.0).show(ui, &mut bottling.bottle_ml);
    bottling.bottle_ml = bottling.bottle_ml.max(1.0);
    ui.label("Room above");
    let teach = "Room left above the drink, % of the bottle: it grows when it warms up";
    percent(
        ui,
        "Room above the drink",
        teach,
        &mut bottling.headspace_pct,
    );
    bottling.headspace_pct = bottling.headspace_pct.min(90.0);
    ui.end_row();
    for (label, name, teach, value) in [
        (
            "Filled at",
            "Filled at",
            "Temperature at which bottles are filled, °C",
            &mut bottling.fill_celsius,
        ),
        (
            "Kept at",
            "Kept at",
            "Where the bottles wait, °C; a freezer is about −18",
            &mut bottling.keep_celsius,
        ),
    ] {
        ui.label(label);
        let field = NumberField::new(name, teach, -40.0..=60.0);
        field.decimals(1).unit(" °C").show(ui, value);
    }
    ui.end_row();
    ui.label("Water");
    let mut own = bottling.dilution.is_some();
    let tick = ui.checkbox(&mut own, "own share");
    let teach = "Water over the volume before ice, when it is not that of the trial";
    if named(tick, "Own share of water", teach).changed() {
        bottling.dilution = own.then_some(0.25);
    }
    if let Some(dilution) = &mut bottling.dilution {
        Figure::share("Share of water", teach).show(ui, dilution);
    }
    ui.end_row();
}
