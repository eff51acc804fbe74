//! The sizes of the jiggers, typed as one list.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::NodeT as _;

/// The window with the dialog open and these sizes typed.
fn typed(sizes: &str) -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("assumptions");
    bench.press(Key::Enter);
    bench.click(Role::TextInput, "Jiggers");
    bench.chord(CTRL, Key::A);
    bench.type_text(sizes);
    bench
}

fn sizes(bench: &Workbench) -> &[f64] {
    &bench.session().document().jiggers_ml
}

#[test]
fn sizes_in_ml_and_ounces_are_taken_and_undone() {
    let mut bench = typed("20 40 3/4 oz 1 1/2 oz");
    bench.button("Done");
    assert_eq!(sizes(&bench), [20.0, 22.5, 40.0, 45.0]);
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(sizes(&bench).len(), 8);
    assert!(!bench.session().is_dirty());
}

#[test]
fn sizes_that_cannot_be_read_say_why_and_keep_the_dialog_open() {
    for (text, why) in [
        (
            "20 forty",
            "Jiggers: “20 forty”: “forty” is not a known unit",
        ),
        ("20 40 g", "Jiggers: “40 g” is no volume"),
        ("0 20", "Jiggers: must be above 0."),
        ("20 2000", "Jiggers: 2000 ml is above 1000 ml."),
    ] {
        let mut bench = typed(text);
        assert!(bench.says(why), "{text}");
        let done = bench.control(Role::Button, "Done");
        assert!(done.accesskit_node().is_disabled(), "{text}");
        bench.click(Role::TextInput, "Jiggers");
        bench.chord(CTRL, Key::A);
        bench.type_text("25 50");
        assert!(!bench.says("Jiggers:"), "{text} is mended");
        bench.button("Done");
        assert_eq!(sizes(&bench), [25.0, 50.0]);
    }
}

#[test]
fn done_without_a_change_of_the_sizes_is_no_step() {
    let mut bench = typed("60 45 30 25 20 15 10 5 5");
    bench.button("Done");
    assert_eq!(bench.steps(), 0, "the same sizes in another order");
}

#[test]
fn usual_values_bring_the_usual_jiggers_back() {
    let mut bench = typed("7");
    bench.button("Done");
    assert_eq!(sizes(&bench), [7.0]);
    bench.chord(CTRL, Key::P);
    bench.type_text("assumptions");
    bench.press(Key::Enter);
    bench.button("Usual values");
    bench.button("Done");
    assert_eq!(
        sizes(&bench),
        equipour::model::Document::default().jiggers_ml
    );
}

#[test]
fn all_amounts_are_written_in_another_unit_among_the_measures_and_taken_back() {
    let mut bench = Workbench::demo();
    let was = bench.session().document().clone();
    let ml = bench.amount(0);
    bench.chord(CTRL, Key::P);
    bench.type_text("assumptions");
    bench.press(Key::Enter);
    bench.pick("Write all amounts in", "cl");
    bench.button("Done");
    assert_eq!(bench.pour(0).unit, equipour::units::Unit::Cl);
    assert_eq!(bench.amount(0), ml, "how much is poured stays");
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(*bench.session().document(), was);
}
