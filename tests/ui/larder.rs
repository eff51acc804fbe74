//! The larder as a page: searched, sorted, edited.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::{Document, Ingredient, IngredientId, Lot, LotId, Range};
use equipour::store::Settings;
use std::sync::Arc;

const SEARCH: &str = "Search the larder";
const PICK: &str = "Find an ingredient";

/// The window on the larder.
fn larder() -> Workbench {
    larder_of(demo(), vec2(1280.0, 800.0))
}

fn larder_of(document: Document, size: Vec2) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), size);
    bench.chord(CTRL, Key::Num5);
    bench
}

fn search(bench: &mut Workbench, words: &str) {
    bench.click(Role::TextInput, SEARCH);
    bench.chord(CTRL, Key::A);
    bench.type_text(words);
}

/// Finds a row by its whole name and shows it in the editor.
fn open(bench: &mut Workbench, name: &str) {
    search(bench, name);
    bench.wait();
    bench.button(name);
}

/// Types over a figure of the row in the editor.
fn enter(bench: &mut Workbench, field: &str, text: &str) {
    bench.wait();
    bench.control(Role::TextInput, field).scroll_to_me();
    bench.run();
    bench.click(Role::TextInput, field);
    bench.type_text(text);
    bench.press(Key::Enter);
}

fn field(bench: &Workbench, name: &str) -> String {
    let node = bench.control(Role::TextInput, name);
    node.value().unwrap_or_default()
}

fn held<'a>(bench: &'a Workbench, id: &str) -> Option<&'a Arc<Ingredient>> {
    let ingredients = &bench.session().document().ingredients;
    ingredients.get(&IngredientId::from(id))
}

fn sweet(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("derived");
    derived
        .figures
        .as_ref()
        .expect("figures")
        .point
        .sweet_g_per_l
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
    let own = bench.session().document().ingredients.len();
    assert_eq!(rows(&bench).len(), own);
}

#[test]
fn a_built_in_row_is_copied_edited_and_brought_back_by_undo() {
    let mut bench = larder();
    open(&mut bench, "agave syrup");
    assert!(!bench.has(Role::Button, "Keep"), "it is read-only");
    bench.button("Copy into the document");
    assert!(held(&bench, "agave-syrup").is_some());
    bench.chord(CTRL, Key::L);
    bench.type_text("agave syrup");
    bench.press(Key::Enter);
    let before = sweet(&bench);
    enter(&mut bench, "Sugar, typical", "20");
    assert_eq!(sweet(&bench), before, "a draft moves no drink");
    bench.button("Keep");
    let sugar = held(&bench, "agave-syrup").and_then(|item| item.sugar_g);
    assert_eq!(sugar.expect("sugar").typical, 20.0);
    assert!(sweet(&bench) < before - 1.0);
    bench.chord(CTRL, Key::Num1);
    let shown = format!("{:.1} g/L", sweet(&bench));
    assert!(bench.says(&shown), "the Balance page says {shown}");
    bench.chord(CTRL, Key::Z);
    assert_eq!(sweet(&bench), before);
}

#[test]
fn a_low_figure_above_the_typical_one_is_refused_by_name() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    let before = bench.session().document().clone();
    enter(&mut bench, "Citric acid, low", "30");
    bench.button("Keep");
    assert!(bench.says("Citric acid: low 30 is above typical"));
    assert_eq!(*bench.session().document(), before);
    assert_eq!(field(&bench, "Citric acid, low"), "30", "the draft stays");
    bench.button("Discard");
    assert_ne!(field(&bench, "Citric acid, low"), "30");
    assert!(!bench.says("is above typical"));
}

#[test]
fn words_in_a_figure_are_refused_where_they_stand() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "pH, typical", "sour");
    assert!(bench.says("pH, typical: \"sour\" is no plain number"));
    enter(&mut bench, "pH, typical", "2,4");
    assert!(!bench.says("is no plain number"));
    bench.button("Keep");
    let ph = held(&bench, "lemon-juice").and_then(|item| item.ph);
    assert_eq!(ph.expect("pH").typical, 2.4);
}

#[test]
fn a_draft_waits_while_another_row_is_looked_at() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "Sugar, typical", "3,5");
    open(&mut bench, "agave syrup");
    search(&mut bench, "lemon juice");
    assert_eq!(bench.painted("●"), 1, "the row is marked");
    bench.button("lemon juice");
    assert_eq!(field(&bench, "Sugar, typical"), "3.5");
    assert!(bench.says("not kept yet"));
    assert_eq!(bench.steps(), 0);
    bench.chord(CTRL, Key::Q);
    assert!(bench.says("Changes in the larder are not kept yet"));
    bench.button("Cancel");
    bench.button("Keep");
    assert_eq!(bench.steps(), 1);
    assert_eq!(bench.painted("●"), 0);
}

#[test]
fn a_new_ingredient_is_kept_under_a_name_of_its_own() {
    let mut bench = larder();
    bench.button("New");
    bench.click(Role::TextInput, "Name");
    bench.chord(CTRL, Key::A);
    bench.type_text("lemon juice");
    enter(&mut bench, "Sugar, typical", "2");
    bench.button("Keep");
    let kept = held(&bench, "lemon-juice-2").expect("the new row");
    assert_eq!(kept.name, "lemon juice");
    assert_eq!(kept.sugar_g, Some(Range::exact(2.0)));
    assert!(held(&bench, "lemon-juice").expect("the old row").sugar_g != kept.sugar_g);
    assert_eq!(bench.steps(), 1);
    bench.button("Remove");
    assert!(held(&bench, "lemon-juice-2").is_none());
}

#[test]
fn a_row_without_a_name_is_not_kept() {
    let mut bench = larder();
    bench.button("New");
    bench.click(Role::TextInput, "Name");
    bench.chord(CTRL, Key::A);
    bench.press(Key::Backspace);
    bench.button("Keep");
    assert!(bench.says("Name: is empty"));
    assert_eq!(bench.steps(), 0);
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

#[test]
fn rows_of_lots_are_offered_neither_in_the_picker_nor_in_the_table() {
    let mut document = demo();
    let of = IngredientId::from("lemon-juice");
    let mut own = Ingredient::clone(&document.ingredients[&of]);
    own.name = "lemon juice of Monday".to_owned();
    let id = IngredientId::from("lemon-juice-monday");
    Arc::make_mut(&mut document.ingredients).insert(id.clone(), Arc::new(own));
    let lot = Lot {
        label: "Monday".to_owned(),
        ingredient: id,
        of: Some(of),
        made_on: "2026-05-04".to_owned(),
        best_before: String::new(),
        measurements: Vec::new(),
        approved: false,
        note: String::new(),
    };
    document.lots.insert(LotId::from("monday"), lot);
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
fn a_measured_density_that_contradicts_the_composition_says_by_how_much() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "Density", "1,2");
    if bench
        .control(Role::CheckBox, "measured")
        .accesskit_node()
        .toggled()
        != Some(eframe::egui::accesskit::Toggled::True)
    {
        bench.click(Role::CheckBox, "measured");
    }
    assert!(bench.says("1.2000 g/ml"));
    assert!(bench.says("the measured one is used"));
}

#[test]
fn ticking_an_allergen_is_kept_beside_the_words_that_were_there() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    let name = "Allergen: milk";
    bench.control(Role::CheckBox, name).scroll_to_me();
    bench.run();
    bench.click(Role::CheckBox, name);
    bench.button("Keep");
    assert_eq!(held(&bench, "lemon-juice").expect("it").allergens, "milk");
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
