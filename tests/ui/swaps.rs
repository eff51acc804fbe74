//! Swaps in the window: looked for, previewed, taken over, undone.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, OutputCommand, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Source, TrialState};
use equipour::store::Settings;
use std::fs;
use std::thread::sleep;
use std::time::Duration;

/// Waits until nothing is looked for any more.
pub(crate) fn found(bench: &mut Workbench) {
    for _ in 0..3_000 {
        bench.harness.step();
        if bench.session().swap_progress().is_none() && bench.session().swap_asked().is_none() {
            // What was found may be asked about in turn.
            bench.run();
            if bench.session().swap_progress().is_none() {
                return;
            }
        }
        sleep(Duration::from_millis(10));
    }
    panic!("the search never ends");
}

/// The swap of a pour, opened by its menu.
pub(crate) fn swap(pour: &str) -> Workbench {
    let mut bench = Workbench::demo();
    bench.button(&format!("More for {pour}"));
    bench.button("Swap…");
    found(&mut bench);
    bench
}

fn choose(bench: &mut Workbench, name: &str) {
    bench.far_button(&format!("Choose {name}"));
    found(bench);
}

/// Brings a candidate of a long list into sight by its letters and takes it.
fn find(bench: &mut Workbench, letters: &str) {
    bench.click(Role::TextInput, "Find a candidate");
    bench.type_text(letters);
    bench.press(Key::Enter);
    found(bench);
}

fn source(bench: &Workbench, place: usize) -> String {
    match &bench.pour(place).source {
        Source::Ingredient(id) => id.0.clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_pour_is_swapped_with_the_balance_given_back_and_undone() {
    let mut bench = swap("lemon juice");
    assert!(
        bench.has(Role::Button, "Choose white vinegar"),
        "a table of candidates"
    );
    choose(&mut bench, "lime juice");
    assert!(bench.says("lemon juice 12.5 ml → lime juice "));
    assert!(bench.says(" steps from this trial: sweet "));
    bench.button("Apply the swap");
    assert!(
        !bench.has(Role::Button, "Apply the swap"),
        "the dialog closes"
    );
    assert_eq!(source(&bench, 2), "lime-juice");
    assert_eq!(bench.steps(), 1);
    assert!(bench.has(Role::Button, "Undo: Swap lemon juice for lime juice"));
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn two_pours_are_swapped_in_one_step() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::R);
    found(&mut bench);
    find(&mut bench, "aquavit");
    bench.button("Replace quince syrup");
    found(&mut bench);
    assert!(bench.says("→ aquavit"), "the first choice stays");
    find(&mut bench, "raspberry syrup");
    bench.button("Apply the swap");
    assert_eq!(source(&bench, 0), "aquavit");
    assert_eq!(source(&bench, 1), "raspberry-syrup");
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn what_was_chosen_first_can_be_applied_while_another_pour_is_looked_at() {
    let mut bench = swap("lemon juice");
    choose(&mut bench, "lime juice");
    bench.button("Replace quince syrup");
    found(&mut bench);
    assert!(bench.says("lemon juice 12.5 ml → lime juice "));
    bench.button("Apply the swap");
    assert_eq!(source(&bench, 1), "quince-syrup");
    assert_eq!(source(&bench, 2), "lime-juice");
}

#[test]
fn a_choice_is_taken_back() {
    let mut bench = swap("lemon juice");
    choose(&mut bench, "lime juice");
    bench.button("Keep lemon juice");
    assert!(bench.says("Choose what is poured instead."));
    let apply = bench.control(Role::Button, "Apply the swap");
    assert!(apply.accesskit_node().is_disabled());
    bench.press(Key::Escape);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn a_swap_is_kept_as_a_new_trial_with_its_reason() {
    let mut bench = swap("lemon juice");
    let parent = bench.session().trial().expect("a trial").clone();
    choose(&mut bench, "lime juice");
    bench.button("Keep the swap as new trial");
    let child = bench.session().trial().expect("a trial").clone();
    assert_eq!(child.parent, Some(parent.id));
    assert!(
        child
            .reason
            .starts_with("swap lemon juice for lime juice, ")
    );
    assert!(child.reason.contains("steps from the parent: "));
    let (_, kept) = bench.session().document().trial(parent.id).expect("there");
    assert_eq!(*kept, parent);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn a_tasted_trial_can_only_grow_another() {
    let mut bench = Workbench::demo();
    bench.press(Key::PageUp);
    assert_eq!(
        bench.session().trial().expect("there").state,
        TrialState::Tasted
    );
    bench.chord(CTRL, Key::R);
    found(&mut bench);
    bench.button("Replace lemon juice");
    found(&mut bench);
    choose(&mut bench, "lime juice");
    let apply = bench.control(Role::Button, "Apply the swap");
    assert!(apply.accesskit_node().is_disabled());
    bench.button("Keep the swap as new trial");
    assert_eq!(
        bench.session().trial().expect("there").state,
        TrialState::Draft
    );
}

#[test]
fn letters_narrow_the_list_and_enter_takes_the_first() {
    let mut bench = swap("lemon juice");
    bench.type_text("vinegar");
    assert!(bench.has(Role::Button, "Choose cider vinegar"));
    assert!(!bench.has(Role::Button, "Choose lime juice"));
    bench.type_text("xyz");
    assert!(bench.says("Nothing fits."));
    bench.chord(CTRL, Key::A);
    bench.type_text("cider");
    bench.press(Key::Enter);
    found(&mut bench);
    assert!(bench.says("→ cider vinegar "));
}

#[test]
fn an_allergen_that_must_not_be_in_it_is_left_out() {
    let mut bench = swap("lemon juice");
    assert!(bench.has(Role::Button, "Choose wine vinegar (red)"));
    bench.button("Without allergens");
    bench.click(Role::CheckBox, "Without sulphites");
    found(&mut bench);
    assert!(!bench.has(Role::Button, "Choose wine vinegar (red)"));
    assert!(bench.has(Role::Button, "Choose lime juice"));
    assert!(bench.says("left out for what they hold"));
    bench.press(Key::Escape);
    bench.button("Allergens not stated");
    assert!(
        bench.says("Nothing fits."),
        "every row of the larder says something"
    );
}

#[test]
fn the_list_can_be_put_in_another_order() {
    let mut bench = swap("caraway spirit");
    let above = |bench: &Workbench, one: &str, other: &str| {
        let top = |name: &str| bench.place(Role::Button, &format!("Choose {name}")).top();
        top(one) < top(other)
    };
    bench.button("Order by change");
    assert!(above(&bench, "aquavit", "brandy (cognac)"));
    bench.button("Order by ingredient");
    assert!(above(&bench, "absinthe", "aquavit"));
}

#[test]
fn a_pour_is_split_over_two_and_undone() {
    let mut bench = swap("lemon juice");
    choose(&mut bench, "lime juice");
    bench.button("Split with the chosen one");
    found(&mut bench);
    assert!(bench.says("The split is "));
    assert!(bench.says("add "));
    bench.click(Role::CheckBox, "Both in the glass");
    found(&mut bench);
    bench.click(Role::CheckBox, "Both in the glass");
    found(&mut bench);
    bench.button("Apply the swap");
    assert_eq!(source(&bench, 2), "lemon-juice");
    assert_eq!(source(&bench, 3), "lime-juice");
    assert!(bench.amount(2) > 0.0 && bench.amount(3) > 0.0);
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn another_aim_and_another_hold_are_asked_anew() {
    let mut bench = swap("caraway spirit");
    choose(&mut bench, "brandy (cognac)");
    bench.pick("Give back", "the target");
    found(&mut bench);
    assert!(bench.says(" steps from the target: sweet "));
    bench.pick("Hold in the swap", "nothing");
    found(&mut bench);
    assert!(bench.says(" steps from the target: sweet "));
}

/// Presses a button and gives the text that it copies.
fn copied(bench: &mut Workbench, button: &str) -> String {
    bench.control(Role::Button, button).click();
    for _ in 0..4 {
        bench.harness.step();
        let commands = &bench.harness.output().platform_output.commands;
        for command in commands {
            if let OutputCommand::CopyText(text) = command {
                return text.clone();
            }
        }
    }
    panic!("nothing was copied");
}

/// The window on the substitution table.
fn table() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("substitution");
    bench.press(Key::Enter);
    bench
}

#[test]
fn the_substitution_table_is_copied_and_saved() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut bench = table();
    found(&mut bench);
    assert!(bench.says("if you do not have"));
    assert!(bench.says("aquavit"));
    let text = copied(&mut bench, "Copy as Markdown");
    assert!(text.starts_with("## Substitutes for Salt Meadow"), "{text}");
    assert!(text.contains("\n| caraway spirit | 45 ml | aquavit | "));
    bench.button("Save as CSV…");
    let path = folder.path().join("instead");
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert!(bench.says("Written to "));
    let path = folder.path().join("instead.csv");
    let text = fs::read_to_string(&path).expect("it is there");
    assert!(text.starts_with("if you do not have,amount,use,pour,"));
    assert!(text.contains("\ncaraway spirit,45 ml,aquavit,"));
    bench.button("Save the table");
    assert!(bench.says("There is a file of that name."));
    bench.button("Replace it");
    assert!(bench.says("Written to "));
    bench.button("Back to the swap");
    found(&mut bench);
    assert!(bench.has(Role::Button, "Apply the swap"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_search_that_takes_long_can_be_cancelled_and_begun_anew() {
    let mut bench = table();
    bench.harness.step();
    bench.button("Cancel the search");
    found(&mut bench);
    assert!(bench.says("Nothing to show: the search was cancelled."));
    bench.button("Look again");
    found(&mut bench);
    assert!(bench.says("aquavit"));
}

#[test]
fn every_button_lies_on_the_window_at_both_sizes() {
    for size in [vec2(1280.0, 800.0), vec2(960.0, 600.0)] {
        let mut bench = Workbench::sized(demo(), Settings::default(), size);
        bench.chord(CTRL, Key::R);
        found(&mut bench);
        find(&mut bench, "gin");
        for name in ["Apply the swap", "Split with the chosen one", "Close"] {
            let place = bench.place(Role::Button, name);
            assert!(
                place.left() >= 0.0 && place.right() <= size.x && place.bottom() <= size.y,
                "{name} at {place} leaves {size}"
            );
        }
        bench.button("Substitution table…");
        found(&mut bench);
        let place = bench.place(Role::Button, "Back to the swap");
        assert!(
            place.left() >= 0.0 && place.bottom() <= size.y,
            "{place} leaves {size}"
        );
    }
}
