//! Themes, sizes and large documents.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Theme, Vec2, vec2};
use egui_kittest::kittest::Queryable as _;
use equipour::model::{Document, TrialId};
use equipour::store::{Settings, ThemeChoice};
use std::sync::Arc;

fn themed(theme: ThemeChoice) -> Settings {
    Settings {
        theme,
        ..Settings::default()
    }
}

/// Goes once through what a session usually does.
fn work(bench: &mut Workbench) {
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.drag(from, from + vec2(60.0, 0.0));
    assert!(bench.amount(2) > 12.5);
    let from = bench.place(Role::Button, "Target").center();
    bench.drag(from, from + vec2(15.0, -10.0));
    assert_eq!(bench.target().label, "");
    for key in [Key::F, Key::D, Key::A, Key::R] {
        bench.press(key);
    }
    bench.chord(CTRL, Key::D);
    bench.chord(CTRL, Key::N);
    bench.press(Key::Escape);
    bench.press(Key::F1);
    bench.press(Key::Escape);
    bench.chord(CTRL, Key::Z);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.amount(2), 12.5);
}

#[test]
fn both_themes_and_all_sizes_work() {
    for theme in [ThemeChoice::Light, ThemeChoice::Dark] {
        for size in [
            vec2(960.0, 600.0),
            vec2(1280.0, 800.0),
            vec2(1920.0, 1080.0),
        ] {
            let mut bench = Workbench::sized(demo(), themed(theme), size);
            let dark = bench.harness.ctx.theme() == Theme::Dark;
            assert_eq!(dark, theme == ThemeChoice::Dark);
            work(&mut bench);
        }
    }
}

/// Every control of the bar and the map lies on the window.
fn inside(size: Vec2) {
    let bench = Workbench::sized(demo(), Settings::default(), size);
    for (role, name) in [
        (Role::Button, "Redo"),
        (Role::Button, "Aim at…"),
        (Role::Button, "Quick aim"),
        (Role::ComboBox, "Axis: Across"),
        (Role::Button, "Layers"),
        (Role::TextInput, "Find a classic"),
        (Role::Button, "Target"),
        (Role::Slider, "caraway spirit"),
        (Role::TextInput, "Amount of caraway spirit"),
        (Role::Button, "More for caraway spirit"),
    ] {
        let place = bench.place(role, name);
        assert!(
            place.right() <= size.x && place.bottom() <= size.y && place.left() >= 0.0,
            "{name} at {place} leaves {size}"
        );
    }
}

#[test]
fn controls_stay_on_the_smallest_window() {
    inside(vec2(960.0, 600.0));
}

#[test]
fn controls_stay_on_a_large_window() {
    inside(vec2(1920.0, 1080.0));
}

#[test]
fn the_controls_of_the_map_stand_in_one_row_on_the_usual_window() {
    let bench = Workbench::demo();
    let axis = bench.place(Role::ComboBox, "Axis: Up");
    let search = bench.place(Role::TextInput, "Find a classic");
    assert!((axis.center().y - search.center().y).abs() < 6.0);
}

#[test]
fn a_smaller_window_keeps_the_panels_apart() {
    let bench = Workbench::sized(demo(), Settings::default(), vec2(960.0, 600.0));
    let pours = bench.place(Role::Button, "More for caraway spirit");
    let axis = bench.place(Role::ComboBox, "Axis: Up");
    let search = bench.place(Role::TextInput, "Find a classic");
    let aim = bench.place(Role::CheckBox, "sweet counts");
    assert!(pours.right() < axis.left());
    assert!(search.right() < aim.left(), "{search} under {aim}");
}

#[test]
fn the_theme_key_goes_through_all_three() {
    let mut bench = Workbench::sized(demo(), themed(ThemeChoice::Light), vec2(1280.0, 800.0));
    assert_eq!(bench.harness.ctx.theme(), Theme::Light);
    bench.chord(CTRL_SHIFT, Key::L);
    assert_eq!(bench.harness.ctx.theme(), Theme::Dark);
    bench.chord(CTRL_SHIFT, Key::L);
    bench.chord(CTRL_SHIFT, Key::L);
    assert_eq!(bench.harness.ctx.theme(), Theme::Light);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_window_may_change_its_size_while_it_is_open() {
    let mut bench = Workbench::demo();
    for size in [vec2(960.0, 600.0), vec2(1920.0, 1080.0), vec2(700.0, 420.0)] {
        bench.harness.set_size(size);
        bench.run();
        assert!(bench.has(Role::Slider, "caraway spirit"), "{size}");
    }
}

#[test]
fn raising_the_notices_on_the_smallest_window_leaves_it_working() {
    let mut bench = Workbench::sized(demo(), Settings::default(), vec2(960.0, 600.0));
    let edges = bench
        .harness
        .query_all_by_role_and_label(Role::Splitter, "Resize panel");
    let lowest = edges.max_by(|a, b| a.rect().center().y.total_cmp(&b.rect().center().y));
    let from = lowest.expect("the edge of the notices").rect().center();
    bench.drag(from, from - vec2(0.0, 400.0));
    assert!(bench.has(Role::Slider, "caraway spirit"));
    assert!(bench.has(Role::ComboBox, "Axis: Up"));
}

/// The demo with many more trials, each with another amount of lemon juice.
fn many_trials() -> Document {
    let mut document = demo();
    let spec = document.specs.len() - 1;
    let model = document.specs[spec].trials.last().expect("a trial").clone();
    while document.specs[spec].trials.len() < 300 {
        let number = document.take_number();
        let mut trial = model.as_ref().clone();
        trial.id = TrialId(number);
        trial.name = format!("Trial {number}");
        trial.pours[2].amount = trial.pours[2].amount.with_value(f64::from(number) * 0.1);
        document.specs[spec].trials.push(Arc::new(trial));
    }
    document
}

#[test]
fn three_hundred_trials_are_no_trouble() {
    let mut bench = Workbench::on(many_trials());
    let derived = bench.session().derived().expect("derived");
    assert_eq!(derived.trail.len(), 300);
    let latest = bench.shown("Trial");
    bench.press(Key::PageUp);
    assert_ne!(bench.shown("Trial"), latest);
    bench.press(Key::PageDown);
    bench.click(Role::ComboBox, "Trial");
    bench.press(Key::Escape);
    let from = bench.place(Role::Slider, "lemon juice").center();
    bench.drag(from, from + vec2(60.0, 0.0));
    assert_eq!(bench.steps(), 1);
    bench.map_key(Key::F);
    bench.chord(CTRL, Key::D);
    assert!(bench.has(Role::Label, "Caraway base"));
}
