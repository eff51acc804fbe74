//! The slider of a pour, under mouse and keyboard.

use crate::workbench::Workbench;
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, vec2};

/// Lemon juice: 12.5 ml in the demo, 10 ml in the trial before; the pour step is 2.5 ml.
const LEMON: usize = 2;
const STEP_ML: f64 = 2.5;

fn is_multiple(value: f64, step: f64) -> bool {
    (value / step - (value / step).round()).abs() < 1.0e-6
}

#[test]
fn pressing_a_slider_away_from_its_handle_never_jumps() {
    let mut bench = Workbench::demo();
    let rail = bench.place(Role::Slider, "lemon juice");
    bench.press_at(rail.right_center() - vec2(20.0, 0.0));
    assert_eq!(bench.amount(LEMON), 12.5);
    bench.release_at(rail.right_center() - vec2(20.0, 0.0));
    assert_eq!(bench.amount(LEMON), 12.5);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn dragging_a_slider_moves_the_amount_in_pour_steps() {
    let mut bench = Workbench::demo();
    let rail = bench.place(Role::Slider, "lemon juice");
    let from = rail.center();
    bench.press_at(from);
    let mut seen = vec![bench.amount(LEMON)];
    for part in 1..=12 {
        bench.harness.hover_at(from + vec2(10.0 * part as f32, 0.0));
        bench.run();
        seen.push(bench.amount(LEMON));
    }
    bench.release_at(from + vec2(120.0, 0.0));
    assert!(
        seen.iter().all(|amount| is_multiple(*amount, STEP_ML)),
        "{seen:?}"
    );
    assert!(seen.windows(2).all(|pair| pair[1] >= pair[0]), "{seen:?}");
    // The rail stands for 60 ml: 120 points of some 300 are 24 ml, so 37.5 ml to the step.
    assert_eq!(bench.amount(LEMON), 37.5, "{seen:?}");
    assert_eq!(bench.shown_amount("lemon juice"), "37.5 ml");
}

#[test]
fn a_whole_drag_is_one_step_of_undo() {
    let mut bench = Workbench::demo();
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.drag(from, from + vec2(120.0, 0.0));
    assert_eq!(bench.steps(), 1);
    bench.drag(from, from - vec2(50.0, 0.0));
    assert_eq!(bench.steps(), 2, "a second drag is a step of its own");
    bench.button("Undo: lemon juice: 27.5 ml");
    bench.button("Undo: lemon juice: 37.5 ml");
    assert_eq!(bench.amount(LEMON), 12.5);
    assert!(!bench.session().is_dirty());
    bench.button("Redo: lemon juice: 37.5 ml");
    assert_eq!(bench.amount(LEMON), 37.5);
}

#[test]
fn figures_on_screen_follow_while_the_pointer_is_still_down() {
    let mut bench = Workbench::demo();
    let read = |bench: &Workbench| {
        ["● sweet ", "▲ sour ", "■ strength "].map(|figure| bench.label_starting(figure))
    };
    let before = read(&bench);
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.press_at(from);
    bench.move_to(from, from + vec2(120.0, 0.0));
    let during = read(&bench);
    for (was, now) in before.iter().zip(&during) {
        assert_ne!(was, now);
    }
    let figures = bench.session().derived().expect("derived").figures.as_ref();
    let sour = figures.expect("figures").point.sour_g_per_l;
    assert!(during[1].contains(&format!("{sour:.2} g/L")), "{during:?}");
    bench.release_at(from + vec2(120.0, 0.0));
    assert_eq!(read(&bench), during);
}

#[test]
fn shift_makes_a_drag_ten_times_finer() {
    let mut bench = Workbench::demo();
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench
        .harness
        .event(Event::ModifiersChanged(Modifiers::SHIFT));
    bench.drag(from, from + vec2(120.0, 0.0));
    bench
        .harness
        .event(Event::ModifiersChanged(Modifiers::NONE));
    bench.run();
    let moved = bench.amount(LEMON) - 12.5;
    assert!((2.0..=3.0).contains(&moved), "moved {moved} ml");
    assert!(is_multiple(bench.amount(LEMON), STEP_ML / 10.0));
    assert_eq!(bench.steps(), 1);
}

#[test]
fn arrow_keys_step_and_shift_takes_four_steps() {
    let mut bench = Workbench::demo();
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    bench.press(Key::ArrowRight);
    assert_eq!(bench.amount(LEMON), 15.0);
    bench.press(Key::ArrowLeft);
    bench.press(Key::ArrowLeft);
    assert_eq!(bench.amount(LEMON), 10.0);
    bench.chord(Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!(bench.amount(LEMON), 20.0);
    assert!(bench.control(Role::Slider, "lemon juice").is_focused());
    assert_eq!(bench.steps(), 4, "each press can be undone alone");
}

#[test]
fn arrow_keys_go_to_the_next_whole_step_from_between_two() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "13.1");
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    bench.press(Key::ArrowRight);
    assert_eq!(bench.amount(LEMON), 15.0);
    bench.enter_amount("lemon juice", "13.1");
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    bench.press(Key::ArrowLeft);
    assert_eq!(bench.amount(LEMON), 12.5);
}

#[test]
fn arrow_keys_never_go_below_nothing() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "1");
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    bench.press(Key::ArrowLeft);
    bench.press(Key::ArrowLeft);
    assert_eq!(bench.amount(LEMON), 0.0);
}

#[test]
fn a_double_click_returns_to_the_amount_of_the_trial_before() {
    let mut bench = Workbench::demo();
    let slider = bench.control(Role::Slider, "lemon juice");
    slider.click();
    slider.click();
    bench.run();
    assert_eq!(bench.amount(LEMON), 10.0);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn a_screen_reader_can_step_and_set_an_amount() {
    let mut bench = Workbench::demo();
    bench
        .control(Role::Slider, "lemon juice")
        .increment_accesskit();
    bench.run();
    assert_eq!(bench.amount(LEMON), 15.0);
    bench
        .control(Role::Slider, "lemon juice")
        .decrement_accesskit();
    bench.run();
    assert_eq!(bench.amount(LEMON), 12.5);
    bench
        .control(Role::Slider, "lemon juice")
        .set_value_accesskit(21.0);
    bench.run();
    assert_eq!(bench.amount(LEMON), 21.0);
}
