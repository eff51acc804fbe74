//! Pours of a trial: swapped, added, removed, moved.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Amount, IngredientId, Source};
use equipour::units::Unit;

const LEMON: usize = 2;
const FIND: &str = "Find an ingredient";

fn sources(bench: &Workbench) -> Vec<String> {
    let trial = bench.session().trial().expect("a trial");
    let pours = trial.pours.iter();
    pours
        .map(|pour| match &pour.source {
            Source::Ingredient(id) => id.to_string(),
            other => format!("{other:?}"),
        })
        .collect()
}

fn open_swap(bench: &mut Workbench, pour: &str) {
    bench.button(&format!("More for {pour}"));
    bench.button("Replace at this amount…");
}

#[test]
fn a_pour_is_swapped_by_typing_letters_and_enter() {
    let mut bench = Workbench::demo();
    open_swap(&mut bench, "lemon juice");
    assert!(bench.control(Role::TextInput, FIND).is_focused());
    bench.type_text("lime ju");
    bench.press(Key::Enter);
    assert!(!bench.has(Role::TextInput, FIND), "the dialog closes");
    assert_eq!(sources(&bench)[LEMON], "lime-juice");
    assert_eq!(bench.amount(LEMON), 12.5, "the amount stays");
    assert!(bench.has(Role::Slider, "lime juice"));
    let own = &bench.session().document().ingredients;
    assert!(own.contains_key(&IngredientId::from("lime-juice")));
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(sources(&bench)[LEMON], "lemon-juice");
    assert!(!bench.session().is_dirty());
}

#[test]
fn clicking_a_row_of_the_larder_takes_it() {
    let mut bench = Workbench::demo();
    open_swap(&mut bench, "lemon juice");
    bench.type_text("lime ju");
    bench.choose("lime juice");
    assert_eq!(sources(&bench)[LEMON], "lime-juice");
}

#[test]
fn the_name_of_a_pour_opens_the_larder_for_a_swap() {
    let mut bench = Workbench::demo();
    let name = bench.place(Role::CheckBox, "Lock lemon juice");
    let at = name.right_center() + eframe::egui::vec2(30.0, 0.0);
    bench.press_at(at);
    bench.release_at(at);
    assert!(bench.has(Role::TextInput, FIND));
}

#[test]
fn enter_takes_the_same_job_and_kind_before_other_rows_of_those_letters() {
    let mut bench = Workbench::demo();
    open_swap(&mut bench, "lemon juice");
    assert!(bench.says("Replace the ingredient"));
    bench.type_text("grape");
    bench.press(Key::Enter);
    let taken = sources(&bench)[LEMON].clone();
    let item = bench.session().document().ingredients[&IngredientId(taken.clone())].clone();
    assert_eq!(item.kind, "juice", "{taken}");
    // A liqueur for a liqueur, although a drink of the plant stands before it in the alphabet.
    let mut bench = Workbench::on(liqueur());
    open_swap(&mut bench, "orange curaçao");
    bench.type_text("almond");
    bench.press(Key::Enter);
    assert_eq!(sources(&bench)[1], "almond-liqueur");
}

/// Gin with a liqueur.
fn liqueur() -> equipour::model::Document {
    let mut document = crate::workbench::demo();
    let builtin = equipour::store::Builtin::load().expect("the tables are sound");
    let id = IngredientId::from("orange-curacao");
    let item = builtin.larder[&id].clone();
    let role = item.role;
    std::sync::Arc::make_mut(&mut document.ingredients).insert(id.clone(), item);
    let spec = document.specs.last_mut().expect("a drink");
    let trial = std::sync::Arc::make_mut(spec.trials.last_mut().expect("a trial"));
    trial.pours[1] = equipour::model::Pour::of(&id, 20.0, role);
    document
}

#[test]
fn a_long_name_is_shown_whole_on_a_second_line() {
    let mut document = liqueur();
    let id = IngredientId::from("orange-curacao");
    let own = std::sync::Arc::make_mut(&mut document.ingredients);
    let mut item = (*own[&id]).clone();
    item.name = "double cream of a very good dairy (36 % fat)".to_owned();
    let name = item.name.clone();
    own.insert(id, std::sync::Arc::new(item));
    let bench = Workbench::on(document);
    let height = |name: &str| {
        let mut nodes = bench.harness.root().children_recursive();
        let found = nodes.find(|node| {
            let node = node.accesskit_node();
            node.role() == Role::Label && node.value().as_deref() == Some(name)
        });
        found.expect("the name is shown").rect().height()
    };
    assert!(height(&name) > 1.8 * height("lemon juice"));
}

#[test]
fn enter_without_letters_takes_nothing() {
    let mut bench = Workbench::demo();
    open_swap(&mut bench, "lemon juice");
    bench.press(Key::Enter);
    assert_eq!(sources(&bench)[LEMON], "lemon-juice");
    bench.press(Key::Escape);
    assert!(!bench.has(Role::TextInput, FIND));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn letters_that_fit_nothing_say_so() {
    let mut bench = Workbench::demo();
    open_swap(&mut bench, "lemon juice");
    bench.type_text("qqq");
    assert!(bench.says("Nothing by that name"));
    bench.press(Key::Enter);
    assert_eq!(sources(&bench)[LEMON], "lemon-juice");
}

#[test]
fn a_pour_is_added_from_the_larder() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::L);
    bench.type_text("vermouth (dry");
    bench.press(Key::Enter);
    assert_eq!(sources(&bench).len(), 7);
    assert_eq!(sources(&bench)[6], "vermouth-dry");
    assert_eq!(bench.pour(6).amount, Amount::Ml(15.0));
    assert!(bench.has(Role::Slider, "vermouth (dry)"));
    assert_eq!(bench.steps(), 1);
}

#[test]
fn bitters_come_by_the_dash_and_locked() {
    let mut bench = Workbench::demo();
    bench.button("Add a pour…");
    bench.type_text("aromatic bit");
    bench.press(Key::Enter);
    assert_eq!(bench.pour(6).unit, Unit::Dash);
    assert!(bench.pour(6).locked);
    assert_eq!(bench.shown_amount("aromatic bitters"), "2 dashes");
}

#[test]
fn a_pour_is_removed_and_undo_brings_it_back_in_its_place() {
    let mut bench = Workbench::demo();
    let before = sources(&bench);
    bench.button("More for lemon juice");
    bench.button("Remove");
    assert!(!sources(&bench).contains(&"lemon-juice".to_owned()));
    assert!(!bench.has(Role::Slider, "lemon juice"));
    bench.button("Undo: Remove lemon juice");
    assert_eq!(sources(&bench), before);
}

#[test]
fn a_pour_is_moved_from_its_menu() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Move up    Alt+↑");
    assert_eq!(sources(&bench)[1], "lemon-juice");
    bench.button("More for lemon juice");
    bench.button("Move down    Alt+↓");
    assert_eq!(sources(&bench)[2], "lemon-juice");
    assert_eq!(bench.steps(), 2);
}

#[test]
fn alt_and_arrows_carry_a_pour_along() {
    let mut bench = Workbench::demo();
    bench.control(Role::Slider, "caraway spirit").focus();
    bench.run();
    bench.chord(Modifiers::ALT, Key::ArrowDown);
    assert_eq!(sources(&bench)[1], "caraway-spirit");
    assert!(bench.control(Role::Slider, "caraway spirit").is_focused());
    bench.chord(Modifiers::ALT, Key::ArrowDown);
    assert_eq!(sources(&bench)[2], "caraway-spirit");
    bench.chord(Modifiers::ALT, Key::ArrowUp);
    assert_eq!(sources(&bench)[1], "caraway-spirit");
    assert_eq!(bench.amount(1), 45.0);
}

#[test]
fn the_first_pour_goes_no_further_up() {
    let mut bench = Workbench::demo();
    let before = sources(&bench);
    bench.control(Role::Slider, "caraway spirit").focus();
    bench.run();
    bench.chord(Modifiers::ALT, Key::ArrowUp);
    assert_eq!(sources(&bench), before);
    assert!(bench.messages().is_empty());
}

#[test]
fn a_pour_is_dragged_onto_another_row() {
    let mut bench = Workbench::demo();
    let from = bench.grip("Move caraway spirit");
    let to = bench.grip("Move lemon juice");
    bench.drag(from, to);
    assert_eq!(sources(&bench)[2], "caraway-spirit");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn limits_keep_proposals_inside_them() {
    let mut bench = Workbench::demo();
    bench.button("More for caraway spirit");
    bench.button("Notch and limits");
    bench.enter_number("At most", "47.5");
    assert_eq!(bench.pour(0).maximum, Some(47.5));
    let derived = bench.session().derived().expect("derived");
    let answer = derived.answer.as_ref().expect("an answer");
    for change in answer.proposals.iter().flat_map(|one| &one.changes) {
        assert!(change.pour != 0 || change.to <= 47.5, "{change:?}");
    }
}

#[test]
fn the_unit_of_a_pour_changes_without_its_amount() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Unit");
    bench.click(Role::RadioButton, "bar spoon of 5 ml (no standard exists)");
    assert_eq!(bench.amount(LEMON), 12.5);
    assert_eq!(bench.shown_amount("lemon juice"), "2½ bar spoons");
}

#[test]
fn the_size_of_a_pack_waits_for_its_price() {
    let mut document = crate::workbench::demo();
    let larder = std::sync::Arc::make_mut(&mut document.ingredients);
    let spirit = larder
        .get_mut(&"caraway-spirit".into())
        .expect("it is there");
    std::sync::Arc::make_mut(spirit).price = None;
    let mut bench = Workbench::on(document);
    bench.button("More for caraway spirit");
    bench.button("Price of a pack");
    bench.enter_number("Size of the pack", "1000");
    bench.enter_number("Price", "30");
    let id = "caraway-spirit".into();
    let price = bench.session().document().ingredients[&id].price.clone();
    let price = price.expect("it has a price");
    assert_eq!((price.pack_price, price.pack_size), (30.0, 1000.0));
}
