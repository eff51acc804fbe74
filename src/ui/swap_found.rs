//! What can take a pour's place, as a table: how near, how much, what it gives up.

use super::naming::named;
use super::skipped;
use super::swap_dialog::SwapDialog;
use super::swap_sort::SwapSort;
use super::theme::Tokens;
use crate::model::{Ingredient, Role, Trial};
use crate::rebalance::{Candidate, Candidates, role_rule};
use crate::session::{Session, SwapFound};
use crate::units::{number, signed};
use eframe::egui::{
    Align, Button, Key, Label, Layout, PointerButton, Response, RichText, ScrollArea, Sense, Ui,
    vec2,
};
use egui_extras::{Column, TableBody, TableBuilder, TableRow};

/// Height of a row, points.
const ROW: f32 = 22.0;
/// Least width of the table, points.
const LEAST: f32 = 880.0;
/// Height of what stands above and below the rows, points.
const BESIDE_ROWS: f32 = 66.0;
/// What lands farther than this many noticeable differences takes the job, but does not fit (our
/// convention, no source).
const FAR: f64 = 3.0;
/// Smaller differences are left blank: body g/L, bitterness, carbon dioxide g/L.
const WORTH: [f64; 3] = [0.5, 0.05, 0.05];

/// Heads with what they hold, and the order that a click gives; the first column is the name.
const HEADS: [(&str, &str, Option<SwapSort>); 10] = [
    ("ingredient", "What is poured instead", Some(SwapSort::Name)),
    (
        "away, steps",
        "Noticeable differences from the balance that is to come back, on the notches; ≈ before rounding, for what was only screened. Nearest first goes by tenths, then by change, cost and new allergens",
        Some(SwapSort::Near),
    ),
    (
        "change, points",
        "How much of the character changes: a point for each flavour word lost, 10 g/L of body, half a unit of bitterness, 1 g/L of fizz, half a g/L of salt and 10 ml by which other pours move (our convention). Sorted by it, what changes least comes first",
        Some(SwapSort::Character),
    ),
    ("amount", "How much of it, on its notches", None),
    (
        "body, g/L",
        "Fat, protein, gum and other solids, g/L more or less",
        None,
    ),
    ("bitter", "Bitterness more or less, on your own scale", None),
    ("fizz, g/L", "Carbon dioxide more or less, g/L", None),
    (
        "flavour",
        "New words (+), and those that no pour brings any more (−)",
        None,
    ),
    (
        "cost",
        "More or less in the document's currency; blank when a price is missing",
        Some(SwapSort::Cost),
    ),
    (
        "allergens",
        "New ones (+), those that are gone (−), and what nobody states; check every label",
        None,
    ),
];

/// Shows the candidates, or why there are none.
pub(super) fn ui(
    ui: &mut Ui,
    dialog: &mut SwapDialog,
    session: &Session,
    trial: &Trial,
    height: f32,
) {
    let ask = dialog.ask();
    match session.swap_answer(&ask) {
        Some(Ok(SwapFound::Candidates(found))) => {
            let role = trial.pours.get(dialog.pour).map(|pour| pour.role);
            caption(ui, dialog, found, role.unwrap_or_default());
            list(ui, dialog, session, found, height);
        }
        Some(Err(why)) => {
            let warn = Tokens::of(ui).warn;
            ui.label(RichText::new(format!("Nothing to show: {why}.")).color(warn));
        }
        _ => {
            ui.label(RichText::new("Looking through the larder…").weak());
        }
    }
    // The dialog keeps its size while the list changes.
    let left = (height - ui.min_rect().height()).max(0.0);
    ui.add_space(left);
}

/// The rows that fit the search, in order.
fn list(ui: &mut Ui, dialog: &mut SwapDialog, session: &Session, found: &Candidates, height: f32) {
    let list = if dialog.unstated {
        &found.unstated
    } else {
        &found.found
    };
    let mut shown = fitting(list, &dialog.search);
    dialog.sort.arrange(&mut shown);
    if shown.is_empty() {
        ui.label("Nothing fits. Try fewer letters, fewer allergens to leave out, or another job for the pour.");
        return;
    }
    // A narrow window scrolls the table sideways.
    ScrollArea::horizontal()
        .id_salt("swap sideways")
        .max_width(ui.available_width())
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.set_min_width(LEAST);
            table(ui, dialog, session, &shown, height - BESIDE_ROWS);
        });
}

/// Whether a candidate lands too far away to be called a fit, as its distance is shown.
fn is_far(one: &Candidate) -> bool {
    (one.distance * 10.0).round() > FAR * 10.0
}

/// "34 within 3 noticeable differences, 30 farther".
fn how_near(shown: &[&Candidate]) -> String {
    let far = shown.iter().filter(|one| is_far(one)).count();
    let near = shown.len() - far;
    let within = format!("{near} within {} noticeable differences", number(FAR, 0));
    match far {
        0 => within,
        far => format!("{within}, {far} farther"),
    }
}

/// What fits the letters of the search.
fn fitting<'a>(list: &'a [Candidate], search: &str) -> Vec<&'a Candidate> {
    let letters = search.trim().to_lowercase();
    let holds = |text: &str| text.to_lowercase().contains(&letters);
    let fits = |item: &Ingredient| {
        letters.is_empty()
            || holds(&item.name)
            || holds(&item.kind)
            || item.notes.iter().any(|note| holds(note))
    };
    list.iter().filter(|one| fits(&one.item)).collect()
}

/// How many there are, what was left out and why; the list apart.
fn caption(ui: &mut Ui, dialog: &mut SwapDialog, found: &Candidates, role: Role) {
    ui.horizontal_wrapped(|ui| {
        let words = how_near(&fitting(&found.found, &dialog.search));
        let teach = format!(
            "What can take the job and holds the letters of the search. {} Our convention.",
            role_rule(role)
        );
        let button = ui.selectable_label(!dialog.unstated, words);
        if named(button, "Candidates that fit", &teach).clicked() {
            dialog.unstated = false;
        }
        if dialog.without.is_empty() {
            dialog.unstated = false;
        } else {
            let unstated = fitting(&found.unstated, &dialog.search).len();
            let words = format!("{unstated} with allergens not stated");
            let teach = "Nobody says whether these hold what must not be in it: read the label before using one";
            let button = ui.selectable_label(dialog.unstated, words);
            if named(button, "Allergens not stated", teach).clicked() {
                dialog.unstated = true;
            }
            let out = format!("{} left out for what they hold", found.ruled_out);
            ui.label(RichText::new(out).small().weak());
        }
        skipped::ui(ui, &found.skipped);
    });
}

fn table(
    ui: &mut Ui,
    dialog: &mut SwapDialog,
    session: &Session,
    shown: &[&Candidate],
    height: f32,
) {
    ui.spacing_mut().item_spacing = vec2(6.0, 2.0);
    let sought = newly_chosen(dialog, shown);
    let enter = ui.input(|input| input.key_pressed(Key::Enter));
    if enter && !dialog.search.trim().is_empty() && !dialog.fresh {
        let first = shown.first();
        dialog.chosen = first.map(|one| (one.id.clone(), one.item.clone()));
    }
    // Columns in which nothing stands leave their room to the flavours.
    let currency = &session.document().currency;
    let says = |words: &dyn Fn(&Candidate) -> bool| shown.iter().any(|one| words(one));
    let has_cost = says(&|one| !one.difference.cost_in_words(currency).is_empty());
    let has_allergens = says(&|one| !one.difference.allergens_in_words().is_empty());
    let mut builder = TableBuilder::new(ui)
        .id_salt("swap candidates")
        .striped(true)
        .sense(Sense::CLICK)
        .cell_layout(Layout::left_to_right(Align::Center))
        .auto_shrink(false)
        .min_scrolled_height(height.max(60.0))
        .max_scroll_height(height.max(60.0))
        .column(Column::exact(166.0).clip(true))
        .column(Column::exact(76.0).clip(true))
        .column(Column::exact(92.0).clip(true))
        .column(Column::exact(66.0).clip(true))
        .column(Column::exact(56.0).clip(true))
        .column(Column::exact(42.0).clip(true))
        .column(Column::exact(54.0).clip(true))
        .column(Column::remainder().at_least(120.0).clip(true))
        .column(Column::exact(if has_cost { 64.0 } else { 32.0 }).clip(true))
        .column(Column::exact(if has_allergens { 104.0 } else { 60.0 }).clip(true));
    if let Some(row) = sought {
        builder = builder.scroll_to_row(row, None);
    }
    builder
        .header(ROW, |mut row| {
            for head in HEADS {
                row.col(|ui| sort_by(ui, &mut dialog.sort, head));
            }
        })
        .body(|body| rows(body, dialog, session, shown));
}

/// The row of a choice that was not in sight yet: the list gets lower below it for the preview.
fn newly_chosen(dialog: &mut SwapDialog, shown: &[&Candidate]) -> Option<usize> {
    let chosen = dialog.chosen.as_ref().map(|(id, _)| id.clone());
    if dialog.sighted == chosen {
        return None;
    }
    dialog.sighted = chosen;
    let mut rows = shown.iter();
    rows.position(|one| dialog.sighted.as_ref() == Some(&one.id))
}

fn sort_by(ui: &mut Ui, sort: &mut SwapSort, head: (&str, &str, Option<SwapSort>)) {
    let (text, teach, by) = head;
    let text = RichText::new(text).small().strong();
    let Some(by) = by else {
        ui.label(text).on_hover_text(teach);
        return;
    };
    let mark = if *sort == by { " ▲" } else { "" };
    let text = RichText::new(format!("{}{mark}", head.0)).small().strong();
    ui.spacing_mut().button_padding.x = 0.0;
    let button = ui.add(Button::new(text).frame(false).truncate());
    let bare = head.0.split(',').next().unwrap_or_default();
    let name = format!("Order by {bare}");
    if named(button, &name, &format!("{teach}. Click to sort")).clicked() {
        *sort = by;
    }
}

fn rows(body: TableBody<'_>, dialog: &mut SwapDialog, session: &Session, shown: &[&Candidate]) {
    body.rows(ROW, shown.len(), |mut row| {
        let Some(one) = shown.get(row.index()) else {
            return;
        };
        let chosen = dialog.chosen.as_ref().is_some_and(|(id, _)| *id == one.id);
        row.set_selected(chosen);
        let pressed = cells(&mut row, dialog.pour, session, one, chosen);
        if pressed.is_some() {
            dialog.chosen = Some((one.id.clone(), one.item.clone()));
        }
        // Whoever points with the mouse goes on typing in the search.
        if pressed == Some(Pressed::Pointer) {
            dialog.fresh = true;
        }
    });
}

/// What a row was chosen with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Pressed {
    Pointer,
    Key,
}

/// Shows one row; what it was chosen with, if it was.
fn cells(
    row: &mut TableRow<'_, '_>,
    pour: usize,
    session: &Session,
    one: &Candidate,
    chosen: bool,
) -> Option<Pressed> {
    let mut pressed = None;
    row.col(|ui| {
        ui.spacing_mut().button_padding.x = 2.0;
        let button = Button::selectable(chosen, &one.item.name)
            .frame(false)
            .truncate();
        let name = format!("Choose {}", one.item.name);
        let teach = format!("{}, {}", one.item.name, one.item.kind);
        let response = named(ui.add(button), &name, &teach);
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        pressed = response.clicked().then(|| press(&response));
    });
    for text in texts(one, pour, &session.document().currency) {
        row.col(|ui| {
            let words = RichText::new(&text).small();
            let words = if is_far(one) { words.weak() } else { words };
            // The tooltip below says it even where nothing is cut.
            let label = Label::new(words).truncate().show_tooltip_when_elided(false);
            let label = ui.add(label.selectable(false));
            if !text.is_empty() {
                label.on_hover_text(text);
            }
        });
    }
    let whole = row.response();
    pressed.or_else(|| whole.clicked().then(|| press(&whole)))
}

fn press(response: &Response) -> Pressed {
    if response.clicked_by(PointerButton::Primary) {
        Pressed::Pointer
    } else {
        Pressed::Key
    }
}

/// What stands behind the name.
fn texts(one: &Candidate, pour: usize, currency: &str) -> [String; 9] {
    let difference = &one.difference;
    let about = if one.swap.is_some() { "" } else { "≈ " };
    let [body, bitter, fizz] = WORTH;
    [
        format!("{about}{}", number(one.distance, 1)),
        number(difference.points(), 1),
        amount(one, pour),
        worth(difference.body_g_per_l, body, 0),
        worth(difference.bitter_per_ml, bitter, 1),
        worth(difference.co2_g_per_l, fizz, 1),
        flavours(&difference.flavours_lost, &difference.flavours_gained),
        difference.cost_in_words(currency),
        difference.allergens_in_words().join(", "),
    ]
}

/// How much of a candidate is poured; blank while it is only screened.
fn amount(one: &Candidate, pour: usize) -> String {
    let changed = one.swap.iter().flat_map(|swap| &swap.changed);
    let mut own = changed.filter(|changed| changed.pour == pour);
    own.next().map_or_else(String::new, |own| own.now.1.clone())
}

/// "+ oak  − caraway, rye": what is new first, since most candidates lose the same.
fn flavours(lost: &[String], gained: &[String]) -> String {
    let mut parts = Vec::new();
    for (mark, words) in [("+", gained), ("−", lost)] {
        if !words.is_empty() {
            parts.push(format!("{mark} {}", words.join(", ")));
        }
    }
    parts.join("  ")
}

fn worth(value: f64, worth: f64, decimals: usize) -> String {
    if value.abs() < worth {
        return String::new();
    }
    signed(value, decimals)
}
