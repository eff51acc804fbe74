//! The guided start: it comes once, notices what is done, and can be left.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Rect, vec2};
use equipour::model::Document;
use equipour::store::Settings;

const SKIP: &str = "Skip this step";
const LEAVE: &str = "Leave the guided start";

fn first_run(document: Document) -> Workbench {
    let settings = Settings {
        guided: false,
        ..Settings::default()
    };
    Workbench::sized(document, settings, vec2(1280.0, 800.0))
}

#[track_caller]
fn at(bench: &Workbench, number: usize) {
    let words = format!("Guided start, {number} of 8");
    assert!(bench.says(&words), "not at step {number}");
}

fn is_there(bench: &Workbench) -> bool {
    bench.has(Role::Button, LEAVE)
}

/// The card, from its title to its buttons.
fn card(bench: &Workbench, number: usize) -> Rect {
    let words = format!("Guided start, {number} of 8");
    let head = bench.texts(&words);
    head[0].rect.union(bench.place(Role::Button, LEAVE))
}

/// Does the step of that number as a person would.
fn step(bench: &mut Workbench, number: usize) {
    match number {
        1 => {
            bench.control(Role::Slider, "lemon juice").focus();
            bench.run();
            bench.press(Key::ArrowRight);
        }
        2 => bench.press(Key::F3),
        3 => bench.chord(CTRL, Key::Enter),
        4 => bench.chord(CTRL, Key::Z),
        5 => {
            bench.chord(CTRL, Key::T);
            at(bench, 5);
            bench.button("Describe the trial…");
            bench.click(Role::MultilineTextInput, "Why it was made");
            bench.type_text("less sour");
            bench.button("Done");
        }
        6 => {
            bench.chord(CTRL, Key::Num2);
            at(bench, 6);
            bench.chord(CTRL, Key::Num1);
        }
        7 => {
            bench.chord(CTRL, Key::Num4);
            bench.chord(CTRL, Key::E);
            at(bench, 8);
            bench.press(Key::Escape);
        }
        _ => bench.button("Start a drink of your own…"),
    }
}

#[test]
fn every_step_is_noticed_when_it_is_done() {
    let mut bench = first_run(demo());
    for number in 1..=8 {
        at(&bench, number);
        step(&mut bench, number);
    }
    assert!(!is_there(&bench), "it ends with a drink of one's own");
    assert!(bench.has(Role::TextInput, "Find a starting point"));
}

#[test]
fn the_mouse_does_its_first_steps_as_well() {
    let mut bench = first_run(demo());
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.press_at(from);
    bench.move_to(from, from + vec2(40.0, 0.0));
    at(&bench, 1);
    bench.release_at(from + vec2(40.0, 0.0));
    at(&bench, 2);
    let first = first_proposal(&bench);
    bench.hover(Role::Button, &first);
    at(&bench, 3);
    bench.button(&first);
    at(&bench, 4);
}

/// The name of the button that takes the topmost proposal.
fn first_proposal(bench: &Workbench) -> String {
    use egui_kittest::kittest::{NodeT as _, Queryable as _};
    let mut buttons = bench.harness.query_all_by_role(Role::Button);
    let name = buttons.find_map(|node| {
        let label = node.accesskit_node().label()?;
        label.starts_with("Apply: ").then_some(label)
    });
    name.expect("a proposal")
}

#[test]
fn it_takes_no_focus_and_covers_nothing_that_it_speaks_of() {
    let mut bench = first_run(demo());
    assert!(!bench.control(Role::Button, SKIP).is_focused());
    assert!(!bench.control(Role::Button, LEAVE).is_focused());
    let one = card(&bench, 1);
    for name in ["caraway spirit", "quince syrup", "lemon juice"] {
        assert!(!one.intersects(bench.place(Role::Slider, name)), "{name}");
    }
    assert!(!one.intersects(bench.place(Role::Button, "Target")));
    step(&mut bench, 1);
    let first = first_proposal(&bench);
    for number in [2, 3] {
        let place = bench.place(Role::Button, &first);
        assert!(!card(&bench, number).intersects(place));
        step(&mut bench, number);
    }
}

#[test]
fn every_step_can_be_skipped() {
    let mut bench = first_run(demo());
    for number in 1..8 {
        at(&bench, number);
        bench.button(SKIP);
    }
    at(&bench, 8);
    assert!(!bench.has(Role::Button, SKIP));
    bench.button(LEAVE);
    assert!(!is_there(&bench));
    assert_eq!(bench.steps(), 0, "nothing was changed");
}

#[test]
fn escape_leaves_it_only_while_its_card_has_the_focus() {
    let mut bench = first_run(demo());
    bench.press(Key::Escape);
    at(&bench, 1);
    bench.control(Role::Button, SKIP).focus();
    bench.run();
    bench.press(Key::Escape);
    assert!(!is_there(&bench));
}

#[test]
fn it_is_reached_by_tab() {
    let mut bench = first_run(demo());
    bench.control(Role::Button, SKIP).focus();
    bench.run();
    bench.press(Key::Tab);
    assert!(bench.control(Role::Button, LEAVE).is_focused());
    bench.press(Key::Enter);
    assert!(!is_there(&bench));
}

#[test]
fn left_or_not_it_never_comes_back_by_itself() {
    let mut bench = first_run(demo());
    bench.button(LEAVE);
    for _ in 0..3 {
        bench.chord(CTRL, Key::Num2);
        bench.chord(CTRL, Key::Num1);
    }
    assert!(!is_there(&bench));
    assert!(
        !is_there(&Workbench::demo()),
        "nor where there are settings"
    );
}

#[test]
fn the_menu_begins_it_again() {
    let mut bench = first_run(demo());
    bench.button(SKIP);
    bench.button(LEAVE);
    bench.topmost_button("Help");
    bench.button("Guided start");
    at(&bench, 1);
}

#[test]
fn where_a_step_cannot_be_done_the_demo_is_offered() {
    let mut bench = first_run(Document::default());
    assert!(bench.says("No trial that may change is on screen."));
    bench.lowest_button("Open the demo as a copy");
    assert_eq!(bench.session().document().title, demo().title);
    at(&bench, 1);
    step(&mut bench, 1);
    at(&bench, 2);
}
