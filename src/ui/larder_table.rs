//! The table of the larder: searched, sorted, and only as many rows drawn as are in sight.

use super::finding;
use super::intent::Outbox;
use super::larder_page::LarderPage;
use super::larder_several;
use super::naming::named;
use super::theme::Tokens;
use crate::model::Ingredient;
use crate::session::{LarderColumn, LarderPlace, LarderQuery, LarderRow, Session};
use crate::units::{number, trimmed};
use eframe::egui::{
    Align, Button, Checkbox, ComboBox, Label, Layout, Panel, RichText, ScrollArea, Sense, TextEdit,
    Ui, vec2,
};
use egui_extras::{Column, TableBuilder, TableRow};

/// Height of a row, points.
const ROW: f32 = 22.0;
/// Space between a column of figures and one of words, points.
const GAP: f32 = 4.0;
/// Space between the last column and the scroll bar, points.
const BAR: f32 = 2.0;
/// Least width of the allergens, points.
const ALLERGENS: f32 = 76.0;
/// Least width of the table; a narrower page scrolls sideways.
const LEAST: f32 = 820.0;

/// Shows search and table.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut LarderPage, outbox: &mut Outbox) {
    tools(ui, session, page);
    // Below the table, so that the rows stay where they are when the first one is ticked.
    if !page.ticked.is_empty() {
        Panel::bottom("several rows")
            .resizable(false)
            .show(ui, |ui| larder_several::ui(ui, session, page, outbox));
    }
    ui.add_space(2.0);
    if page.shown.is_empty() {
        ui.label("No ingredient fits. Try fewer letters, or look everywhere.");
        let all = ui.button("Show all ingredients");
        if named(
            all,
            "Show all ingredients",
            "Clear the search and every filter",
        )
        .clicked()
        {
            page.query = LarderQuery::default();
        }
        return;
    }
    ScrollArea::horizontal()
        .id_salt("larder sideways")
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.set_min_width(LEAST);
            table(ui, page);
        });
}

fn tools(ui: &mut Ui, session: &Session, page: &mut LarderPage) {
    ui.horizontal_wrapped(|ui| {
        let query = &mut page.query;
        let field = TextEdit::singleline(&mut query.search)
            .hint_text("Name, kind, flavour or allergen")
            .desired_width(230.0);
        named(
            finding::follow(ui.add(field)),
            "Search the larder",
            "Letters of a name, a kind, a note, a flavour or an allergen",
        );
        let shown = query.place.map_or("everywhere", LarderPlace::name);
        let combo = ComboBox::from_id_salt("larder place")
            .selected_text(shown)
            .width(140.0)
            .show_ui(ui, |ui| {
                ui.selectable_value(&mut query.place, None, "everywhere");
                for place in [LarderPlace::Document, LarderPlace::BuiltIn] {
                    ui.selectable_value(&mut query.place, Some(place), place.name());
                }
            });
        let teach = "Rows of this document, rows that the program brings along, or both";
        named(combo.response, "Look in", teach);
        ui.checkbox(&mut query.retired, "retired")
            .on_hover_text("Show rows that are no longer offered for new pours");
        if ui
            .button("New")
            .on_hover_text("Write an ingredient of your own")
            .clicked()
        {
            let item = Ingredient {
                name: "new ingredient".to_owned(),
                ..Ingredient::default()
            };
            page.begin(session, item);
        }
        let currency = &session.document().currency;
        let count = format!(
            "{} of {} · sugar and acid in g per 100 ml, prices in {currency}",
            page.shown.len(),
            page.rows.len()
        );
        ui.add(Label::new(RichText::new(count).small().weak()).extend());
    });
}

fn table(ui: &mut Ui, page: &mut LarderPage) {
    ui.spacing_mut().item_spacing = vec2(6.0, 3.0);
    let ctx = ui.ctx().clone();
    // The bar at the right keeps a strip of its own.
    let bar = ui.spacing().scroll.allocated_width();
    let columns = columns(ui.available_width() - bar);
    let mut builder = TableBuilder::new(ui)
        .id_salt("larder table")
        .striped(true)
        // Rows take clicks, but only their names take the focus of the keyboard.
        .sense(Sense::CLICK)
        .cell_layout(Layout::left_to_right(Align::Center))
        .auto_shrink(false);
    for column in columns {
        builder = builder.column(column);
    }
    if let Some(row) = page.revealed() {
        builder = builder.scroll_to_row(row, Some(Align::Center));
    }
    builder
        .header(ROW, |mut row| {
            for column in LarderColumn::ALL {
                row.col(|ui| head(ui, page, column));
            }
        })
        .body(|body| {
            body.rows(ROW, page.shown.len(), |mut row| {
                let place = page.shown.get(row.index()).copied();
                let Some(shown) = place.and_then(|place| page.rows.get(place)) else {
                    return;
                };
                let id = shown.id.clone();
                match cells(&mut row, page, shown) {
                    Some(Asked::Open) => page.selected = Some(id),
                    Some(Asked::Tick) if !page.ticked.remove(&id) => {
                        page.ticked.insert(id);
                    }
                    Some(Asked::Tick) => {}
                    None => return,
                }
                // The editor and the bar were drawn before the table.
                ctx.request_repaint();
            });
        });
}

/// Columns of a table that is this wide, points.
fn columns(whole: f32) -> [Column; LarderColumn::ALL.len()] {
    // Names first take what the other columns leave, then allergens.
    let fixed = LarderColumn::ALL
        .into_iter()
        .map(|column| width(column) + 6.0);
    let names = (whole - fixed.sum::<f32>()).clamp(150.0, 300.0);
    LarderColumn::ALL.map(|column| match column {
        LarderColumn::Name => Column::exact(names).clip(true),
        LarderColumn::Allergens => Column::remainder().at_least(ALLERGENS).clip(true),
        other => Column::initial(width(other))
            .at_least(36.0)
            .clip(true)
            .resizable(true),
    })
}

const fn width(column: LarderColumn) -> f32 {
    match column {
        LarderColumn::Kind => 90.0,
        LarderColumn::Place => 100.0,
        LarderColumn::Name => 0.0,
        LarderColumn::Allergens => ALLERGENS,
        LarderColumn::Price => 64.0,
        LarderColumn::Confidence => 52.0,
        LarderColumn::Strength | LarderColumn::Density | LarderColumn::Sugar => 46.0,
        LarderColumn::Acid => 40.0,
        LarderColumn::Uses => 48.0,
        LarderColumn::Ph => 34.0,
    }
}

/// Words of a head, its accessible name and what it holds.
const fn words(column: LarderColumn) -> (&'static str, &'static str, &'static str) {
    match column {
        LarderColumn::Name => (
            "name",
            "name",
            "Name; ● marks changes that are not kept yet",
        ),
        LarderColumn::Kind => ("kind", "kind", "Group in the larder"),
        LarderColumn::Place => ("where", "where", "In this document, or built in"),
        LarderColumn::Strength => ("% vol", "strength", "Strength, % vol at 20 °C"),
        LarderColumn::Sugar => ("sugar", "sugar", "All sugars, g per 100 ml"),
        LarderColumn::Acid => ("acid", "acid", "All acids, g per 100 ml"),
        LarderColumn::Ph => ("pH", "pH", "pH at 25 °C"),
        LarderColumn::Density => (
            "g/ml",
            "density",
            "Density at 20 °C: measured, or worked out from the composition",
        ),
        LarderColumn::Price => (
            "price",
            "price",
            "Price of a litre or a kilogram, as it is sold",
        ),
        LarderColumn::Allergens => (
            "allergens",
            "allergens",
            "As worded for EU 1169/2011; blank where the row says that there are none, ? where it says nothing; check every label",
        ),
        LarderColumn::Confidence => ("trust", "confidence", "How far the figures can be trusted"),
        LarderColumn::Uses => (
            "used",
            "used by",
            "How many trials, preparations and lots use it",
        ),
    }
}

fn is_figure(column: LarderColumn) -> bool {
    use LarderColumn as C;
    matches!(
        column,
        C::Strength | C::Sugar | C::Acid | C::Ph | C::Density | C::Price | C::Uses
    )
}

fn head(ui: &mut Ui, page: &mut LarderPage, column: LarderColumn) {
    let (text, name, teach) = words(column);
    let query = &mut page.query;
    let sorted = query.sort == column;
    let mark = match (sorted, query.descending) {
        (false, _) => "",
        (true, false) => " ▲",
        (true, true) => " ▼",
    };
    let layout = if is_figure(column) {
        Layout::right_to_left(Align::Center)
    } else {
        Layout::left_to_right(Align::Center)
    };
    ui.with_layout(layout, |ui| {
        ui.spacing_mut().button_padding.x = 0.0;
        match column {
            LarderColumn::Name => {}
            LarderColumn::Uses => {
                ui.add_space(BAR);
            }
            other if is_figure(other) => {}
            _ => {
                ui.add_space(GAP);
            }
        }
        let text = RichText::new(format!("{text}{mark}")).small().strong();
        let button = ui.add(Button::new(text).frame(false).truncate());
        let teach = format!("{teach}. Click to sort, again to reverse");
        if named(button, &format!("Sort by {name}"), &teach).clicked() {
            query.descending = sorted && !query.descending;
            query.sort = column;
        }
    });
}

/// What was asked of a row.
#[derive(Clone, Copy)]
enum Asked {
    Open,
    Tick,
}

/// Shows one row.
fn cells(row: &mut TableRow<'_, '_>, page: &LarderPage, shown: &LarderRow) -> Option<Asked> {
    let chosen = page.selected.as_ref() == Some(&shown.id);
    row.set_selected(chosen);
    let mut asked = None;
    for column in LarderColumn::ALL {
        row.col(|ui| match column {
            LarderColumn::Name => {
                asked = asked.or(tick(ui, page, shown));
                asked = asked.or(name(ui, page, shown, chosen));
            }
            other if is_figure(other) => {
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    if other == LarderColumn::Uses {
                        ui.add_space(BAR);
                    }
                    ui.add(Label::new(RichText::new(figure(shown, other)).small()).truncate());
                });
            }
            other => {
                let text = shown.words(other);
                ui.add_space(GAP);
                let small = RichText::new(&text).small();
                let own = other == LarderColumn::Place && shown.place != LarderPlace::BuiltIn;
                let small = if own { small } else { small.weak() };
                ui.add(Label::new(small).truncate().selectable(false));
            }
        });
    }
    asked.or(row.response().clicked().then_some(Asked::Open))
}

/// The box of a row of the document; other rows keep its room free.
fn tick(ui: &mut Ui, page: &LarderPage, shown: &LarderRow) -> Option<Asked> {
    if shown.place != LarderPlace::Document {
        ui.add_space(ui.spacing().icon_width + ui.spacing().item_spacing.x);
        return None;
    }
    let mut ticked = page.ticked.contains(&shown.id);
    let tick = ui.add(Checkbox::without_text(&mut ticked));
    let name = format!("Tick {}", shown.item.name);
    let teach = "Tick several rows to change them in one step";
    named(tick, &name, teach).changed().then_some(Asked::Tick)
}

fn name(ui: &mut Ui, page: &LarderPage, shown: &LarderRow, chosen: bool) -> Option<Asked> {
    ui.spacing_mut().button_padding.x = 2.0;
    let draft = page.drafts.get(&shown.id);
    if draft.is_some() {
        let mark = RichText::new("●").small().color(Tokens::of(ui).accent);
        ui.label(mark)
            .on_hover_text("Changes that are not kept yet");
    }
    let item = draft.map_or(&*shown.item, |draft| &draft.item);
    let words = if item.name.trim().is_empty() {
        "no name yet"
    } else {
        &item.name
    };
    let mut text = RichText::new(words);
    if shown.item.retired {
        text = text.weak().italics();
    }
    let button = Button::selectable(chosen, text).frame(false).truncate();
    let response = named(ui.add(button), words, words);
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response.clicked().then_some(Asked::Open)
}

fn figure(row: &LarderRow, column: LarderColumn) -> String {
    let Some(value) = row.figure(column) else {
        return "–".to_owned();
    };
    match column {
        LarderColumn::Density => number(value, 3),
        LarderColumn::Acid => trimmed(value, 2),
        LarderColumn::Price => {
            let by_weight = row
                .item
                .price
                .as_ref()
                .is_some_and(|price| price.pack_is_mass);
            format!(
                "{}/{}",
                number(value, 2),
                if by_weight { "kg" } else { "L" }
            )
        }
        LarderColumn::Uses if value == 0.0 => String::new(),
        _ => trimmed(value, 1),
    }
}
