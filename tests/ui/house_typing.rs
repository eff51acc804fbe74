//! The house-made page under a person's hands: slips of the keyboard, the focus, the panel's width.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Preparation, PreparationId, Process, Range, Retained};
use equipour::session::{Edit, HouseEdit, Session, is_taken};
use equipour::store::{Builtin, Settings, starter_preparations};
use std::sync::Arc;

/// The page with a starter on it.
fn starter(fits: impl Fn(&Preparation) -> bool) -> Workbench {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let mut session = Session::new(Arc::clone(&builtin), demo());
    let held: Vec<_> = session.document().preparations.keys().cloned().collect();
    for id in held {
        let edit = Edit::House(HouseEdit::Remove { id, keep: true });
        session.edit(&edit).expect("what pours it keeps the row");
    }
    let mut all = starter_preparations().iter();
    let found = all.find(|starter| fits(&starter.preparation));
    let taken = |name: &str| is_taken(&session, name);
    let start = found.expect("there is one");
    let (made, rows) = start.rows_and_preparation(&builtin, taken);
    let edit = Edit::House(HouseEdit::Set {
        id: PreparationId::from("first"),
        to: Box::new(made),
        rows,
        label: "Begin".to_owned(),
        gesture: None,
    });
    session.edit(&edit).expect("it can be written");
    let document = session.document().as_ref().clone();
    let mut bench = Workbench::sized(document, Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    bench
}

fn made(bench: &Workbench) -> &Preparation {
    let mut all = bench.session().document().preparations.values();
    all.next().expect("one is written down")
}

fn strains(made: &Preparation) -> Option<usize> {
    let mut steps = made.steps.iter();
    steps.position(|step| matches!(step.does, Process::Strain { .. } | Process::Press { .. }))
}

/// A strained starter, its straining open and said by its yield.
fn by_yield() -> (Workbench, usize) {
    let mut bench = starter(|made| strains(made).is_some());
    let place = strains(made(&bench)).expect("one is strained");
    let name = made(&bench).steps[place].does.name();
    bench.far_button(&format!("Step {}: {name}", place + 1));
    let liquid = format!("Liquid of step {}", place + 1);
    if bench.shown(&liquid) != "yield by weight" {
        bench.control(Role::ComboBox, &liquid).scroll_to_me();
        bench.run();
        bench.pick(&liquid, "yield by weight");
    }
    (bench, place)
}

fn range(bench: &Workbench, place: usize) -> Range {
    match &made(bench).steps[place].does {
        Process::Strain {
            retained: Retained::Yield(range),
        }
        | Process::Press {
            retained: Retained::Yield(range),
        } => *range,
        other => panic!("{other:?}"),
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1.0e-9
}

#[test]
fn the_ends_of_a_range_go_with_its_typical_value_and_come_back_with_it() {
    let (mut bench, place) = by_yield();
    let field = format!("Yield of step {}", place + 1);
    bench.enter_number(&field, "40");
    let first = range(&bench, place);
    assert!(first.low < first.typical && first.typical < first.high);
    bench.enter_number(&field, "20");
    let half = range(&bench, place);
    for (half, first) in [
        (half.low, first.low),
        (half.typical, first.typical),
        (half.high, first.high),
    ] {
        assert!(near(2.0 * half, first), "{half} {first}");
    }
    for slip in ["0", "100"] {
        bench.enter_number(&field, slip);
        let squeezed = range(&bench, place);
        assert!(squeezed.low <= squeezed.typical && squeezed.typical <= squeezed.high);
        assert!(squeezed.high <= 1.0);
        bench.enter_number(&field, "40");
        let back = range(&bench, place);
        assert!(near(back.low, first.low), "{back:?} {first:?}");
        assert!(near(back.high, first.high), "{back:?} {first:?}");
    }
}

#[test]
fn a_yield_beyond_the_whole_stays_as_typed_and_is_refused_at_its_field() {
    let (mut bench, place) = by_yield();
    let field = format!("Yield of step {}", place + 1);
    let before = range(&bench, place);
    bench.enter_number(&field, "140");
    assert_eq!(range(&bench, place), before, "nothing is cut silently");
    let shown = |bench: &Workbench| {
        let node = bench.control(Role::SpinButton, &field).accesskit_node();
        node.numeric_value()
    };
    assert_eq!(shown(&bench), Some(140.0), "what was typed stays");
    assert!(bench.says("must be from 0 to 100 %, not 140 %"));
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
    bench.enter_number(&field, "41");
    assert!(near(range(&bench, place).typical, 0.41));
    assert!(!bench.says("not 140 %"));
}

#[test]
fn another_stream_is_taken_in_place_of_one_in_a_single_step() {
    let (mut bench, place) = by_yield();
    let steps = made(&bench).steps[..place].to_vec();
    let spare = format!("Step {} takes more", place + 1);
    assert!(bench.has(Role::Button, &spare));
    // What the first step made is free once nothing else takes it.
    let first = made(&bench).steps[place].from[0].clone();
    bench.button("Add an input…");
    bench.click(Role::TextInput, "Find an ingredient");
    bench.type_text("tequila");
    bench.press(Key::Enter);
    let spare = made(&bench).inputs.last().expect("an input").name.clone();
    let undo = bench.steps();
    let chip = format!("Step {} takes {first}", place + 1);
    bench.far_button(&chip);
    bench.button(&format!("Use {spare} instead"));
    assert_eq!(made(&bench).steps[place].from[0], spare);
    assert_eq!(made(&bench).steps[..place], steps);
    assert_eq!(bench.steps(), undo + 1);
}

#[test]
fn opening_any_step_leaves_the_panel_as_wide_as_it_was() {
    for kind in starter_preparations() {
        let name = &kind.preparation.name;
        let mut bench = starter(|made| made.name == *name);
        let left = |bench: &Workbench| {
            let place = bench.place(Role::TextInput, "Name of the preparation");
            place.left()
        };
        let before = left(&bench);
        for (place, step) in kind.preparation.steps.iter().enumerate() {
            bench.far_button(&format!("Step {}: {}", place + 1, step.does.name()));
            let now = left(&bench);
            assert!(
                (now - before).abs() < 1.0,
                "{name}, {}: {before} {now}",
                place + 1
            );
        }
    }
}

#[test]
fn escape_closes_an_open_menu_and_leaves_the_lot_dialog() {
    let mut bench = starter(|made| strains(made).is_some());
    bench.choose("Lots");
    let main = {
        let (_, row) = made(&bench).main_output().expect("an output");
        bench.session().document().ingredients[row].name.clone()
    };
    bench.button(&format!("Measure a lot of {main}"));
    bench.button("Add a reading");
    assert!(bench.has(Role::Button, "refractometer, °Bx"));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "refractometer, °Bx"));
    assert!(bench.has(Role::Button, "Keep the lot"));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "Keep the lot"));
}

#[test]
fn enter_without_a_hit_keeps_the_focus_in_the_search() {
    let mut bench = starter(|made| strains(made).is_some());
    bench.button("Add an input…");
    bench.click(Role::TextInput, "Find an ingredient");
    bench.type_text("qqqq");
    bench.press(Key::Enter);
    let field = bench.control(Role::TextInput, "Find an ingredient");
    assert!(field.accesskit_node().is_focused());
}

#[test]
fn a_new_preparation_is_named_first_and_a_removed_input_hands_the_focus_on() {
    let mut bench = starter(|made| made.inputs.len() > 1);
    let names: Vec<String> = made(&bench)
        .inputs
        .iter()
        .map(|input| input.name.clone())
        .collect();
    bench.button(&format!("Remove {}", names[0]));
    let next = format!("Remove {}", names[1]);
    let focused = |bench: &Workbench, role: Role, name: &str| {
        bench.control(role, name).accesskit_node().is_focused()
    };
    assert!(focused(&bench, Role::Button, &next));
    bench.button("New preparation");
    bench.type_text("cordial");
    bench.press(Key::Enter);
    let mut all = bench.session().document().preparations.values();
    assert!(all.any(|made| made.name == "cordial"));
}

#[test]
fn the_key_says_what_the_colour_of_the_flow_stands_for() {
    let mut bench = starter(|made| strains(made).is_some());
    assert!(!bench.has(Role::Image, "Key of sugar"));
    bench.pick("Colour of the flow", "sugar");
    assert!(bench.has(Role::Image, "Key of sugar"));
    assert!(bench.says("100 % sugar"));
}

#[test]
fn a_click_on_another_control_of_the_step_takes_the_note_that_was_being_written() {
    let mut bench = starter(|made| !made.steps.is_empty() && made.steps[0].celsius.is_none());
    let name = made(&bench).steps[0].does.name();
    bench.far_button(&format!("Step 1: {name}"));
    bench
        .control(Role::MultilineTextInput, "Note of step 1")
        .scroll_to_me();
    bench.run();
    let note = bench.place(Role::MultilineTextInput, "Note of step 1");
    bench.press_at(note.center());
    bench.release_at(note.center());
    bench.type_text("slowly");
    let tick = bench.place(Role::CheckBox, "Step 1 has a temperature");
    bench.press_at(tick.center());
    bench.release_at(tick.center());
    let step = &made(&bench).steps[0];
    assert!(step.celsius.is_some(), "the tick was hit");
    assert!(step.note.contains("slowly"), "{}", step.note);
}
