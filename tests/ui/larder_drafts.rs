//! Rows of the larder as they are written: drafts, refusals, what they come to.

use crate::larder::{enter, field, held, larder, open, search};
use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::Range;

fn sweet(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("derived");
    let figures = derived.figures.as_ref().expect("figures");
    figures.point.sweet_g_per_l
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
fn starch_glycerol_and_the_rarer_acids_are_kept_like_any_figure() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "Ascorbic acid, typical", "0,05");
    enter(&mut bench, "Succinic acid, typical", "0.02");
    let more = "Water, fat, protein, starch, gas and bitterness";
    bench.harness.get_by_label(more).scroll_to_me();
    bench.run();
    bench.choose(more);
    enter(&mut bench, "Starch and fibre", "0.3");
    enter(&mut bench, "Glycerol", "0.1");
    bench.button("Keep");
    let item = held(&bench, "lemon-juice").expect("it is there");
    assert_eq!(item.acids.ascorbic, Some(Range::exact(0.05)));
    assert_eq!(item.acids.succinic, Some(Range::exact(0.02)));
    assert_eq!((item.starch_g, item.glycerol_g), (Some(0.3), Some(0.1)));
    enter(&mut bench, "Ascorbic acid, high", "50");
    bench.button("Keep");
    assert!(bench.says("Ascorbic acid, high: 50 is above 35"));
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
