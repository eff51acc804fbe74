//! The field for a number: typed, dragged, stepped, refused in place, reset.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{
    Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, TouchPhase, Vec2, vec2,
};
use egui_kittest::kittest::NodeT as _;

const GLASS: &str = "Glass, ml";

impl Workbench {
    fn glass_ml(&self) -> f64 {
        let spec = self.session().spec().expect("a drink is on screen");
        spec.glass.capacity_ml
    }

    fn number(&self, name: &str) -> Option<f64> {
        let node = self.control(Role::SpinButton, name).accesskit_node();
        node.numeric_value()
    }

    /// Clicks a number and types over it without entering it.
    fn begin_number(&mut self, name: &str, text: &str) {
        self.control(Role::SpinButton, name).scroll_to_me();
        self.wait();
        self.click(Role::SpinButton, name);
        self.type_text(text);
    }

    fn hold(&mut self, modifiers: Modifiers) {
        self.harness.event(Event::ModifiersChanged(modifiers));
        self.run();
    }

    fn drag_number(&mut self, name: &str, by: Vec2) {
        let from = self.place(Role::SpinButton, name).center();
        self.drag(from, from + by);
    }

    fn turn_wheel(&mut self, name: &str, modifiers: Modifiers) {
        self.hover(Role::SpinButton, name);
        self.harness.event(Event::MouseWheel {
            unit: MouseWheelUnit::Line,
            delta: vec2(0.0, 1.0),
            phase: TouchPhase::Move,
            source: MouseWheelSource::Unknown,
            modifiers,
        });
        self.run();
    }
}

#[test]
fn commas_fractions_calculations_and_other_units_are_read() {
    for (text, ml) in [
        ("122,5", 122.5),
        ("45 1/2", 45.5),
        ("=30+45*2", 120.0),
        ("15 cl", 150.0),
        ("0,2 l", 200.0),
        ("4 oz", 120.0),
    ] {
        let mut bench = Workbench::demo();
        bench.begin_number(GLASS, text);
        bench.press(Key::Enter);
        assert!(
            (bench.glass_ml() - ml).abs() < 1.0e-9,
            "{text}: {}",
            bench.glass_ml()
        );
        assert_eq!(bench.steps(), 1, "{text} is one step");
    }
}

#[test]
fn leaving_a_number_by_tab_enters_it() {
    let mut bench = Workbench::demo();
    bench.begin_number(GLASS, "180");
    bench.press(Key::Tab);
    assert_eq!(bench.glass_ml(), 180.0);
}

#[test]
fn escape_gives_the_number_back_that_stood_before() {
    let mut bench = Workbench::demo();
    let before = bench.glass_ml();
    bench.begin_number(GLASS, "180");
    bench.press(Key::Escape);
    assert_eq!(bench.glass_ml(), before);
    assert_eq!(bench.number(GLASS), Some(before));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn escape_in_a_number_leaves_its_dialog_open_and_the_next_closes_it() {
    let mut bench = Workbench::demo();
    bench.button("Weighings…");
    bench.begin_number("Before, g", "77");
    bench.press(Key::Escape);
    assert!(bench.has(Role::SpinButton, "Before, g"), "the dialog stays");
    assert_ne!(bench.number("Before, g"), Some(77.0));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::SpinButton, "Before, g"));
}

#[test]
fn a_number_out_of_range_stays_as_typed_with_its_range_and_changes_nothing() {
    let mut bench = Workbench::demo();
    let before = bench.glass_ml();
    for (text, reason) in [
        ("9000", "must be from 10 to 5000 ml, not 9000 ml"),
        ("9", "must be from 10 to 5000 ml, not 9 ml"),
        ("-40", "must be from 10 to 5000 ml"),
        ("plenty", "plenty"),
        ("5 min", "cannot be turned into ml"),
        ("30+15", "begin one with ="),
    ] {
        bench.begin_number(GLASS, text);
        bench.press(Key::Enter);
        assert_eq!(bench.glass_ml(), before, "{text}");
        assert!(bench.says(reason), "{text}");
        assert!(!bench.description(Role::SpinButton, GLASS).is_empty());
        assert_eq!(bench.painted(text), 1, "{text} stays in the field");
        assert_eq!(bench.steps(), 0, "{text}");
        bench.press(Key::Escape);
        assert!(!bench.says(reason), "{text} is given up");
    }
    bench.enter_number(GLASS, "300");
    assert_eq!(bench.glass_ml(), 300.0);
}

#[test]
fn what_was_refused_is_entered_once_another_field_makes_room() {
    let mut bench = Workbench::demo();
    bench.pick("Dilution", "weighed before and after");
    let before = bench.number("Weight before, grams").expect("a number");
    bench.enter_number("Weight before, grams", "400");
    assert!(bench.says("not 400 g"));
    bench.enter_number("Weight after, grams", "500");
    assert!(!bench.says("not 400 g"));
    assert_eq!(bench.number("Weight before, grams"), Some(400.0));
    assert_ne!(before, 400.0);
}

/// The demo with a glass that is refused.
fn refused() -> Workbench {
    let mut bench = Workbench::demo();
    bench.enter_number(GLASS, "9000");
    assert!(bench.says("not 9000 ml"));
    bench
}

#[test]
fn what_was_refused_is_forgotten_once_it_was_out_of_sight() {
    let mut bench = refused();
    bench.chord(CTRL, Key::Num3);
    bench.chord(CTRL, Key::Num1);
    assert!(!bench.says("not 9000 ml"));
    assert_eq!(bench.painted("9000"), 0);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn what_was_refused_in_one_trial_does_not_stand_in_another() {
    let mut bench = refused();
    let before = bench.session().selection();
    bench.press(Key::F6);
    assert_ne!(bench.session().selection(), before, "another trial");
    assert!(!bench.says("not 9000 ml"));
    bench.press(Key::F6);
    assert!(!bench.says("not 9000 ml"));
}

#[test]
fn arrows_step_and_shift_and_page_keys_step_ten_times_as_far() {
    let mut bench = Workbench::demo();
    bench.enter_number(GLASS, "200");
    let trial = bench.session().selection();
    bench.control(Role::SpinButton, GLASS).focus();
    bench.run();
    bench.press(Key::ArrowUp);
    assert_eq!(bench.glass_ml(), 205.0);
    bench.press(Key::ArrowDown);
    bench.press(Key::ArrowDown);
    assert_eq!(bench.glass_ml(), 195.0);
    bench.chord(Modifiers::SHIFT, Key::ArrowUp);
    assert_eq!(bench.glass_ml(), 245.0);
    bench.press(Key::PageUp);
    assert_eq!(bench.glass_ml(), 295.0);
    bench.press(Key::PageDown);
    bench.press(Key::PageDown);
    assert_eq!(bench.glass_ml(), 195.0);
    assert_eq!(bench.session().selection(), trial, "the trial stays");
    // Steps go on from what is typed, and end at the ends.
    bench.type_text("4990");
    bench.press(Key::PageUp);
    assert_eq!(bench.glass_ml(), 5000.0);
}

#[test]
fn page_keys_on_a_slider_step_it_and_leave_the_trial() {
    let mut bench = Workbench::demo();
    let trial = bench.session().selection();
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    let before = bench.steps();
    bench.press(Key::PageUp);
    assert_eq!(bench.session().selection(), trial);
    assert_eq!(bench.steps(), before + 1);
}

#[test]
fn only_with_ctrl_the_wheel_steps_a_number() {
    let mut bench = Workbench::demo();
    bench.enter_number(GLASS, "200");
    bench.turn_wheel(GLASS, CTRL);
    assert_eq!(bench.glass_ml(), 205.0);
    bench.turn_wheel(GLASS, Modifiers::NONE);
    assert_eq!(bench.glass_ml(), 205.0);
}

#[test]
fn a_drag_is_one_step_fine_with_shift_and_snapped_with_ctrl() {
    let mut bench = Workbench::demo();
    bench.enter_number(GLASS, "201");
    let steps = bench.steps();
    bench.drag_number(GLASS, vec2(40.0, 0.0));
    let coarse = bench.glass_ml() - 201.0;
    assert!(coarse > 20.0, "{coarse}");
    assert_eq!(bench.steps(), steps + 1);
    bench.enter_number(GLASS, "201");
    bench.hold(Modifiers::SHIFT);
    bench.drag_number(GLASS, vec2(40.0, 0.0));
    bench.hold(Modifiers::NONE);
    let fine = bench.glass_ml() - 201.0;
    assert!(fine > 0.0 && fine < coarse / 5.0, "{fine} of {coarse}");
    bench.enter_number(GLASS, "201");
    bench.hold(CTRL);
    bench.drag_number(GLASS, vec2(40.0, 0.0));
    bench.hold(Modifiers::NONE);
    let snapped = bench.glass_ml() / 5.0;
    assert!(snapped > 42.0 && snapped.fract() == 0.0, "{snapped}");
}

#[test]
fn grabbing_a_number_never_moves_it() {
    let mut bench = Workbench::demo();
    bench.begin_number(GLASS, "203.37");
    bench.press(Key::Enter);
    bench.wait();
    let rect = bench.place(Role::SpinButton, GLASS);
    let at = rect.left_center() + vec2(2.0, 0.0);
    let steps = bench.steps();
    bench.press_at(at);
    bench.move_to(at, at + vec2(0.2, 0.0));
    bench.release_at(at);
    assert_eq!(bench.glass_ml(), 203.37);
    assert_eq!(bench.steps(), steps);
}

#[test]
fn a_drag_ends_at_the_ends_of_the_range() {
    let mut bench = Workbench::demo();
    bench.enter_number(GLASS, "20");
    bench.drag_number(GLASS, vec2(-200.0, 0.0));
    assert_eq!(bench.glass_ml(), 10.0);
}

#[test]
fn a_reset_gives_the_usual_value_back_by_dot_and_by_an_emptied_field() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    let name = "Power of the blade, W";
    let usual = bench.number(name).expect("a number");
    let dot = format!("{name}: back to {usual} w");
    assert!(!bench.has(Role::Button, &dot), "nothing to reset");
    bench.enter_number(name, "900");
    bench.click(Role::Button, &dot);
    assert_eq!(bench.number(name), Some(usual));
    bench.enter_number(name, "900");
    bench.wait();
    bench.click(Role::SpinButton, name);
    bench.press(Key::Backspace);
    bench.press(Key::Enter);
    assert_eq!(bench.number(name), Some(usual));
    let chilling = bench.session().trial().expect("a trial").technique.chilling;
    assert_eq!(chilling.blade_watts, None, "nothing of its own is kept");
}

#[test]
fn a_number_tells_readers_its_range_and_step_and_people_its_usual_value() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    let node = bench.control(Role::SpinButton, "Power of the blade, W");
    let node = node.accesskit_node();
    let data = node.data();
    assert_eq!(data.min_numeric_value(), Some(0.0));
    assert_eq!(data.max_numeric_value(), Some(1_500.0));
    assert_eq!(data.numeric_value_step(), Some(10.0));
    bench.hover(Role::SpinButton, "Power of the blade, W");
    bench.wait();
    assert!(bench.says("A number from 0 to 1500 W, in steps of 10; usual"));
}

#[test]
fn limits_of_a_pour_cannot_cross_and_are_not_moved_along() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Notch and limits");
    bench.enter_number("At least", "10");
    bench.enter_number("At most", "5");
    assert!(bench.says("not 5 ml"));
    let lemon = |bench: &Workbench| {
        let trial = bench.session().trial().expect("a trial");
        let mut pours = trial.pours.iter();
        let found = pours.find(|pour| pour.minimum == Some(10.0));
        found.cloned().expect("the limit was set")
    };
    assert_eq!(lemon(&bench).maximum, None);
    bench.enter_number("At most", "20");
    assert_eq!(lemon(&bench).maximum, Some(20.0));
    let steps = bench.steps();
    bench.drag_number("At most", vec2(30.0, 0.0));
    assert!(lemon(&bench).maximum.expect("a limit") > 20.0);
    assert_eq!(bench.steps(), steps + 1, "a drag is one step");
    bench.enter_number("At most", "no limit");
    assert_eq!(lemon(&bench).maximum, None);
}

#[test]
fn dragging_a_price_is_one_step() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Price of a pack");
    let steps = bench.steps();
    bench.drag_number("Price", vec2(60.0, 0.0));
    assert_eq!(bench.steps(), steps + 1);
}

#[test]
fn every_number_of_the_technique_is_one_step_a_drag() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    bench.enter_number("Ice in the glass, percent", "20");
    for name in [
        "Heat of the vessel, kJ per K",
        "Temperature of the ice, °C",
        "Power of the blade, W",
        "Time of the blade, s",
        GLASS,
        "Melt in the glass, g per minute",
        "Ice in the glass, percent",
        "Target sweet",
        "Target sour",
        "Target strength",
    ] {
        let steps = bench.steps();
        let before = bench.number(name);
        bench.control(Role::SpinButton, name).scroll_to_me();
        bench.run();
        bench.drag_number(name, vec2(-40.0, 0.0));
        if bench.number(name) == before {
            bench.drag_number(name, vec2(40.0, 0.0));
        }
        assert_ne!(bench.number(name), before, "{name}");
        assert_eq!(bench.steps(), steps + 1, "{name}");
    }
}
