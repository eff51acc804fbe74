//! The larder as a page: searched, sorted, edited.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::{Document, Ingredient, IngredientId, Lot, LotId};
use equipour::store::Settings;
use std::sync::Arc;

const SEARCH: &str = "Search the larder";
const PICK: &str = "Find an ingredient";

/// The window on the larder.
pub(crate) fn larder() -> Workbench {
    larder_of(demo(), vec2(1280.0, 800.0))
}

fn larder_of(document: Document, size: Vec2) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), size);
    bench.chord(CTRL, Key::Num5);
    bench
}

pub(crate) fn search(bench: &mut Workbench, words: &str) {
    bench.click(Role::TextInput, SEARCH);
    bench.chord(CTRL, Key::A);
    bench.type_text(words);
}

/// Finds a row by its whole name and shows it in the editor.
pub(crate) fn open(bench: &mut Workbench, name: &str) {
    search(bench, name);
    bench.wait();
    bench.button(name);
}

/// Types over a figure of the row in the editor.
pub(crate) fn enter(bench: &mut Workbench, field: &str, text: &str) {
    bench.wait();
    bench.control(Role::TextInput, field).scroll_to_me();
    bench.run();
    bench.click(Role::TextInput, field);
    bench.type_text(text);
    bench.press(Key::Enter);
}

pub(crate) fn field(bench: &Workbench, name: &str) -> String {
    let node = bench.control(Role::TextInput, name);
    node.value().unwrap_or_default()
}

pub(crate) fn held<'a>(bench: &'a Workbench, id: &str) -> Option<&'a Arc<Ingredient>> {
    let ingredients = &bench.session().document().ingredients;
    ingredients.get(&IngredientId::from(id))
}

/// Names of the rows in sight, from the top.
fn rows(bench: &Workbench) -> Vec<String> {
    let known: Vec<String> = everything(bench).map(|item| item.name.clone()).collect();
    let mut found: Vec<(f32, String)> = bench
        .harness
        .query_all_by_role(Role::Button)
        .filter_map(|node| {
            let name = node.accesskit_node().label()?;
            known.contains(&name).then(|| (node.rect().top(), name))
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, name)| name).collect()
}

/// Every ingredient of the document, and the built-in ones that it has no copy of.
fn everything(bench: &Workbench) -> impl Iterator<Item = &Arc<Ingredient>> {
    let own = &bench.session().document().ingredients;
    let brought = bench.session().builtin().larder.iter();
    let brought = brought.filter(|(id, _)| !own.contains_key(*id));
    own.iter().chain(brought).map(|(_, item)| item)
}

fn in_picker(bench: &mut Workbench, words: &str) -> bool {
    bench.chord(CTRL, Key::L);
    assert!(bench.has(Role::TextInput, PICK));
    bench.type_text(words);
    let there = !bench.says("Nothing by that name");
    bench.press(Key::Escape);
    there
}

#[test]
fn keys_and_labels_go_from_page_to_page() {
    let mut bench = larder();
    assert!(bench.has(Role::TextInput, SEARCH));
    assert!(!bench.has(Role::Slider, "lemon juice"));
    bench.chord(CTRL, Key::Num1);
    assert!(bench.has(Role::Slider, "lemon juice"));
    bench.button("Larder page");
    assert!(bench.has(Role::TextInput, SEARCH));
    bench.button("Balance page");
    assert!(bench.has(Role::Slider, "lemon juice"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_search_looks_in_names_kinds_flavours_and_allergens() {
    let mut bench = larder();
    search(&mut bench, "hydrocolloid");
    let kind = rows(&bench);
    let expected = everything(&bench).filter(|item| item.kind == "hydrocolloid");
    assert_eq!(kind.len(), expected.count());
    search(&mut bench, "walnut");
    assert!(rows(&bench).iter().any(|name| name.contains("walnut")));
    search(&mut bench, "soybeans");
    for name in rows(&bench) {
        let item = everything(&bench).find(|item| item.name == name);
        assert!(
            item.expect("a row").allergens.contains("soybeans"),
            "{name}"
        );
    }
    search(&mut bench, "qqqq");
    assert!(bench.says("No ingredient fits"));
}

#[test]
fn a_head_sorts_by_its_column_and_once_more_the_other_way() {
    let mut bench = larder();
    let strength = |bench: &Workbench| -> Vec<f64> {
        let found = rows(bench).into_iter().map(|name| {
            let item = everything(bench).find(|item| item.name == name);
            let strength = item.expect("a row").strength_pct_vol;
            strength.map_or(-1.0, |range| range.typical)
        });
        found.collect()
    };
    let mut known: Vec<f64> = everything(&bench)
        .filter_map(|item| Some(item.strength_pct_vol?.typical))
        .collect();
    known.sort_by(f64::total_cmp);
    bench.button("Sort by strength");
    let up = strength(&bench);
    assert!(up.len() > 10);
    assert_eq!(up, known[..up.len()]);
    bench.button("Sort by strength");
    let down = strength(&bench);
    known.reverse();
    assert_eq!(down, known[..down.len()]);
    // By keyboard as well.
    bench.control(Role::Button, "Sort by name").focus();
    bench.run();
    bench.press(Key::Enter);
    let names = rows(&bench);
    assert!(
        names.is_sorted_by_key(|name| name.to_lowercase()),
        "{names:?}"
    );
}

#[test]
fn only_rows_of_the_document_are_shown_when_asked_for() {
    let mut bench = larder();
    bench.pick("Look in", "in this document");
    let document = bench.session().document();
    let own = document.ingredients.len() - document.lots.len();
    assert_eq!(rows(&bench).len(), own);
}

#[test]
fn what_is_retired_is_no_longer_offered() {
    let mut bench = larder();
    open(&mut bench, "quince syrup");
    assert!(in_picker(&mut bench, "quince syrup"));
    bench.button("Retire");
    assert!(held(&bench, "quince-syrup").expect("it stays").retired);
    assert!(!in_picker(&mut bench, "quince syrup"));
    search(&mut bench, "quince syrup");
    assert!(rows(&bench).is_empty());
    bench.click(Role::CheckBox, "retired");
    assert_eq!(rows(&bench), ["quince syrup"]);
    bench.button("Restore");
    assert!(in_picker(&mut bench, "quince syrup"));
}

/// The demo with a lot of lemon juice whose own row is "lemon juice of Monday".
fn with_monday(of: Option<IngredientId>) -> Document {
    let mut document = demo();
    let lemon = IngredientId::from("lemon-juice");
    let mut own = Ingredient::clone(&document.ingredients[&lemon]);
    "lemon juice of Monday".clone_into(&mut own.name);
    let id = IngredientId::from("lemon-juice-monday");
    Arc::make_mut(&mut document.ingredients).insert(id.clone(), Arc::new(own));
    let lot = Lot {
        label: "Monday".to_owned(),
        ingredient: id,
        of,
        made_on: "2026-05-04".to_owned(),
        best_before: String::new(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId::from("monday"), lot);
    document
}

#[test]
fn the_row_of_a_lot_that_names_no_parent_is_offered_as_before() {
    let mut bench = larder_of(with_monday(None), vec2(1280.0, 800.0));
    assert!(in_picker(&mut bench, "lemon juice of Monday"));
    search(&mut bench, "lemon juice of");
    assert_eq!(rows(&bench), ["lemon juice of Monday"]);
}

#[test]
fn rows_of_lots_are_offered_neither_in_the_picker_nor_in_the_table() {
    let document = with_monday(Some(IngredientId::from("lemon-juice")));
    let mut bench = larder_of(document, vec2(1280.0, 800.0));
    assert!(!in_picker(&mut bench, "lemon juice of Monday"));
    search(&mut bench, "lemon juice of");
    assert!(rows(&bench).is_empty());
    open(&mut bench, "lemon juice");
    assert!(bench.says("Monday · made 2026-05-04"));
    assert!(bench.says("lot Monday"), "and the lot uses it");
}

#[test]
fn a_trial_that_uses_a_row_is_shown_on_the_balance_page() {
    let mut bench = larder();
    open(&mut bench, "caraway spirit");
    let document = bench.session().document();
    let (spec, first) = document
        .specs
        .iter()
        .find_map(|spec| {
            Some((
                spec,
                spec.trials.iter().find(|trial| {
                    Some(trial.id) != bench.session().selection().trial
                        && trial.pours.iter().any(|pour| {
                            document
                                .settle(trial, pour)
                                .is_some_and(|settled| settled.name == "caraway spirit")
                        })
                })?,
            ))
        })
        .expect("another trial pours it");
    let (name, id) = (format!("{}, {}", spec.name, first.name), first.id);
    bench.control(Role::Link, &name).scroll_to_me();
    bench.run();
    bench.click(Role::Link, &name);
    assert_eq!(bench.session().selection().trial, Some(id));
    assert!(bench.has(Role::Slider, "caraway spirit"));
}

#[test]
fn two_thousand_rows_are_no_trouble() {
    let mut document = demo();
    let model = document.ingredients[&IngredientId::from("lemon-juice")].clone();
    let larder = Arc::make_mut(&mut document.ingredients);
    for number in 0..2_000 {
        let mut item = Ingredient::clone(&model);
        item.name = format!("juice {number:04}");
        larder.insert(IngredientId(format!("juice-{number:04}")), Arc::new(item));
    }
    let mut bench = larder_of(document, vec2(1920.0, 1080.0));
    bench.button("Sort by name");
    bench.button("Sort by name");
    assert!(rows(&bench).len() < 60, "only rows in sight are drawn");
    open(&mut bench, "juice 1999");
    assert_eq!(rows(&bench), ["juice 1999"]);
    assert_eq!(field(&bench, "Name"), "juice 1999");
}

#[test]
fn ticked_rows_are_retired_together_in_one_step() {
    let mut bench = larder();
    let ids: Vec<IngredientId> = bench
        .session()
        .document()
        .ingredients
        .keys()
        .take(2)
        .cloned()
        .collect();
    for id in &ids {
        let name = held(&bench, &id.0).expect("a row").name.clone();
        search(&mut bench, &name);
        bench.wait();
        bench.click(Role::CheckBox, &format!("Tick {name}"));
    }
    bench.button("Retire the ticked rows");
    let retired = |bench: &Workbench| {
        let rows = ids.iter().filter_map(|id| held(bench, &id.0));
        rows.filter(|row| row.retired).count()
    };
    assert_eq!(retired(&bench), 2);
    bench.chord(CTRL, Key::Z);
    assert_eq!(retired(&bench), 0, "one step takes both back");
    bench.button("Tick none");
    assert!(!bench.has(Role::Button, "Tick none"));
}

#[test]
fn the_table_stays_where_it_is_when_the_first_row_is_ticked() {
    let mut bench = larder();
    search(&mut bench, "juice");
    let first = "Tick lemon juice";
    let place = bench.place(Role::CheckBox, first);
    bench.click(Role::CheckBox, first);
    assert!(bench.says("1 ticked"));
    assert_eq!(bench.place(Role::CheckBox, first), place);
    // The same spot again takes the tick off and opens nothing.
    bench.wait();
    bench.press_at(place.center());
    bench.release_at(place.center());
    assert!(!bench.says("1 ticked"));
    assert!(!bench.has(Role::TextInput, "Kind"));
}

#[test]
fn a_new_row_is_scrolled_to_and_marked_when_it_is_begun_and_when_it_is_kept() {
    let mut bench = larder();
    bench.button("New");
    assert!(bench.has(Role::Button, "new ingredient"), "among the rows");
    assert!(bench.is_on("new ingredient"));
    bench.click(Role::TextInput, "Name");
    bench.chord(CTRL, Key::A);
    bench.type_text("zzz last of all");
    bench.button("Keep");
    assert!(bench.is_on("zzz last of all"));
    let row = bench.place(Role::Button, "zzz last of all");
    assert!(row.top() > 90.0 && row.bottom() < 800.0, "{row}");
}

#[test]
fn a_new_row_has_the_usual_job_of_its_kind() {
    let mut bench = larder();
    bench.button("New");
    assert_eq!(bench.shown("Usual job"), "other");
    bench.click(Role::TextInput, "Kind");
    for letter in ["s", "y", "r", "u", "p"] {
        bench.type_text(letter);
    }
    assert_eq!(bench.shown("Usual job"), "sweet");
    bench.pick("Usual job", "body");
    bench.click(Role::TextInput, "Kind");
    bench.chord(CTRL, Key::A);
    bench.type_text("juice");
    assert_eq!(bench.shown("Usual job"), "body", "as it was chosen");
}

#[test]
fn the_last_column_of_the_table_is_in_sight_on_a_usual_window() {
    let bench = larder();
    let used = bench.texts("used");
    assert_eq!(used.len(), 1);
    let name = bench.place(Role::Button, "Sort by name");
    let field = bench.place(Role::TextInput, SEARCH);
    assert_eq!(name.left(), field.left());
    // The editor begins where the table ends.
    let editor = bench.texts("Choose a row to see its figures");
    assert!(
        used[0].rect.right() < editor[0].rect.left() - 16.0,
        "{used:?}"
    );
}
