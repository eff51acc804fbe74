//! Limits that proposals keep: ticked, typed, emptied, undone.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Bound, Bounded, Document};
use equipour::session::{Severity, bounded_value};
use equipour::store::Settings;
use std::sync::Arc;

const MOST: &str = "Served volume at most";
const LEAST: &str = "Served volume at least";

/// The window with the section open.
fn open(document: Document) -> Workbench {
    let mut bench = Workbench::on(document);
    let title = bench.label_of_section();
    bench.click(Role::DisclosureTriangle, &title);
    bench
}

impl Workbench {
    fn label_of_section(&self) -> String {
        let mut nodes = self.harness.root().children_recursive();
        let title = nodes.find_map(|node| {
            let node = node.accesskit_node();
            let label = node
                .label()
                .filter(|_| node.role() == Role::DisclosureTriangle)?;
            label.starts_with("Limits (").then_some(label)
        });
        title.expect("the section has a title")
    }

    fn bound(&self, figure: Bounded) -> Bound {
        *self.session().spec().expect("a drink").bounds.of(figure)
    }

    fn now(&self, figure: Bounded) -> f64 {
        let derived = self.session().derived().expect("derived");
        bounded_value(derived, figure).expect("it has figures")
    }

    /// Clicks a field and writes over what stands in it; nothing empties it.
    fn write_limit(&mut self, name: &str, text: &str) {
        self.wait();
        self.click(Role::TextInput, name);
        if text.is_empty() {
            self.press(Key::Backspace);
        } else {
            self.type_text(text);
        }
        self.press(Key::Enter);
    }

    fn ticked(&self, name: &str) -> bool {
        let node = self.control(Role::CheckBox, name).accesskit_node();
        node.toggled() == Some(Toggled::True)
    }

    fn text_in(&self, name: &str) -> String {
        let node = self.control(Role::TextInput, name);
        node.value().unwrap_or_default()
    }
}

#[test]
fn the_section_is_closed_at_first_and_says_how_many_limits_are_on() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    spec.bounds.glass = true;
    spec.bounds.cost = Bound {
        on: true,
        least: None,
        most: Some(9.0),
    };
    let mut bench = Workbench::on(document);
    assert!(!bench.has(Role::CheckBox, "Limit served volume"));
    bench.click(Role::DisclosureTriangle, "Limits (2 on)");
    assert!(bench.has(Role::CheckBox, "Limit served volume"));
    bench.click(Role::CheckBox, "Limit to the glass");
    assert_eq!(bench.label_of_section(), "Limits (1 on)");
    bench.click(Role::CheckBox, "Limit cost");
    assert_eq!(bench.label_of_section(), "Limits (none on)");
    assert!(
        bench.has(Role::CheckBox, "Limit cost"),
        "it stays open under its new title"
    );
}

#[test]
fn ticking_a_blank_row_takes_the_drink_on_screen_as_the_most() {
    let mut bench = open(demo());
    for figure in Bounded::ALL {
        let tick = format!("Limit {}", figure.name());
        bench.control(Role::CheckBox, &tick).scroll_to_me();
        bench.run();
        bench.click(Role::CheckBox, &tick);
        let bound = bench.bound(figure);
        let most = bound.most.expect("it has a most");
        let now = bench.now(figure);
        assert!(bound.on && bound.least.is_none());
        assert!((now..now + 1.0).contains(&most), "{most} for {now}");
    }
    assert!(!bench.says("your limit"), "the drink keeps all of them");
    assert_eq!(bench.label_of_section(), "Limits (5 on)");
    assert_eq!(bench.steps(), 5);
    for _ in 0..5 {
        bench.chord(CTRL, Key::Z);
    }
    assert!(bench.session().spec().expect("a drink").bounds.is_blank());
}

#[test]
fn a_limit_is_typed_emptied_and_typed_again() {
    let mut bench = open(demo());
    assert_eq!(bench.text_in(MOST), "");
    bench.write_limit(MOST, "200,5");
    assert_eq!(bench.bound(Bounded::ServedVolume).most, Some(200.5));
    assert!(
        bench.ticked("Limit served volume"),
        "a number switches it on"
    );
    assert_eq!(bench.text_in(MOST), "200.5");
    bench.write_limit(LEAST, "50");
    bench.write_limit(MOST, "");
    let bound = bench.bound(Bounded::ServedVolume);
    assert_eq!(
        (bound.on, bound.least, bound.most),
        (true, Some(50.0), None)
    );
    bench.write_limit(LEAST, "");
    assert_eq!(bench.bound(Bounded::ServedVolume), Bound::default());
    assert!(
        !bench.ticked("Limit served volume"),
        "nothing is left to keep"
    );
    bench.write_limit(MOST, "180");
    assert_eq!(bench.text_in(MOST), "180");
    assert_eq!(bench.steps(), 5, "each entry is one step");
    bench.chord(CTRL, Key::Z);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.text_in(LEAST), "50");
}

#[test]
fn a_field_left_for_the_tick_of_another_row_is_entered_as_well() {
    let mut bench = open(demo());
    bench.click(Role::TextInput, MOST);
    bench.type_text("150");
    bench.click(Role::CheckBox, "Limit strength");
    assert_eq!(bench.bound(Bounded::ServedVolume).most, Some(150.0));
    assert!(bench.bound(Bounded::Strength).most.is_some());
}

#[test]
fn a_field_left_for_its_own_tick_is_entered_and_ticked_once() {
    let mut bench = open(demo());
    bench.click(Role::TextInput, MOST);
    bench.type_text("150");
    let tick = bench.place(Role::CheckBox, "Limit served volume").center();
    bench.press_at(tick);
    bench.release_at(tick);
    let bound = bench.bound(Bounded::ServedVolume);
    assert_eq!((bound.on, bound.most), (true, Some(150.0)));
}

#[test]
fn unticking_keeps_the_numbers_and_binds_nothing() {
    let mut bench = open(demo());
    bench.write_limit(MOST, "60");
    let broken = |bench: &Workbench| {
        let mut said = bench.session().notices().iter();
        said.any(|one| one.text.contains("your limit") && one.severity == Severity::Caution)
    };
    assert!(broken(&bench) && bench.says("above your limit of 60 ml"));
    bench.click(Role::CheckBox, "Limit served volume");
    let bound = bench.bound(Bounded::ServedVolume);
    assert_eq!((bound.on, bound.most), (false, Some(60.0)));
    assert!(!broken(&bench) && !bench.says("above your limit of 60 ml"));
    bench.write_limit(MOST, "70");
    assert!(
        !bench.ticked("Limit served volume"),
        "another number keeps it off"
    );
    bench.click(Role::CheckBox, "Limit served volume");
    assert_eq!(
        bench.bound(Bounded::ServedVolume).most,
        Some(70.0),
        "not the present value"
    );
}

#[test]
fn the_row_and_a_notice_say_what_is_broken_with_both_values() {
    let mut bench = open(demo());
    bench.write_limit(MOST, "120");
    let now = bench.now(Bounded::ServedVolume);
    let said = format!("{now:.0} ml, above your limit of 120 ml");
    assert_eq!(bench.painted(&format!("◆ {said}")), 1, "in the row");
    assert_eq!(bench.painted(&format!("Served {said}")), 1, "as a notice");
}

#[test]
fn a_least_above_the_most_waits_in_its_field_until_there_is_room() {
    let mut bench = open(demo());
    bench.write_limit(MOST, "100");
    bench.write_limit(LEAST, "120");
    let crossed = "at least 120 ml lies above at most 100 ml";
    assert!(bench.says(crossed));
    assert_eq!(bench.bound(Bounded::ServedVolume).least, None);
    assert_eq!(bench.text_in(LEAST), "120", "what was typed stays");
    assert!(bench.messages().is_empty());
    bench.write_limit(MOST, "150");
    let bound = bench.bound(Bounded::ServedVolume);
    assert_eq!((bound.least, bound.most), (Some(120.0), Some(150.0)));
    assert!(!bench.says("lies above"));
}

#[test]
fn what_cannot_be_a_limit_says_why_beside_its_field() {
    let mut bench = open(demo());
    for (field, text, why) in [
        ("Strength at most", "101", "101 % vol is above 100 % vol"),
        (
            "Number of pours at most",
            "4.5",
            "4.5 is no whole number of pours",
        ),
        ("Cost at most", "cheap", "no plain number"),
    ] {
        bench.control(Role::TextInput, field).scroll_to_me();
        bench.run();
        bench.write_limit(field, text);
        assert!(bench.says(why), "{field}");
        bench.press(Key::Escape);
        assert!(!bench.says(why), "{field} is left by Esc");
    }
    assert_eq!(bench.steps(), 0);
}

#[test]
fn a_drink_larger_than_its_glass_breaks_the_limit_of_the_glass() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    spec.glass.capacity_ml = 100.0;
    spec.glass.ice_share = 0.0;
    let mut bench = open(document);
    let over = bench.now(Bounded::ServedVolume) - 100.0;
    let said = format!("{over:.1} ml too large for its glass");
    assert!(!bench.says(&said), "nobody asked for it yet");
    bench
        .control(Role::CheckBox, "Limit to the glass")
        .scroll_to_me();
    bench.run();
    bench.click(Role::CheckBox, "Limit to the glass");
    assert!(bench.session().spec().expect("a drink").bounds.glass);
    assert!(bench.says(&said));
    bench.chord(CTRL, Key::Z);
    assert!(!bench.session().spec().expect("a drink").bounds.glass);
}

/// The demo with limits on its lemon juice.
fn with_limited_lemon() -> Document {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = Arc::make_mut(spec.trials.last_mut().expect("a trial"));
    trial.pours[2].minimum = Some(15.0);
    trial.pours[2].maximum = Some(25.0);
    document
}

#[test]
fn limits_of_a_pour_stand_below_and_are_switched_off_there() {
    let mut bench = open(with_limited_lemon());
    assert_eq!(bench.label_of_section(), "Limits (1 on)");
    assert!(!bench.has(Role::CheckBox, "Limits of caraway spirit"));
    assert!(bench.says("15 ml to 25 ml"));
    assert!(bench.says("12.5 ml, below your limit of 15 ml"));
    bench
        .control(Role::CheckBox, "Limits of lemon juice")
        .scroll_to_me();
    bench.run();
    bench.click(Role::CheckBox, "Limits of lemon juice");
    let pour = bench.pour(2);
    assert_eq!((pour.minimum, pour.least()), (Some(15.0), None));
    assert_eq!(pour.step, None, "the notch is left alone");
    assert!(!bench.says("below your limit"));
    assert_eq!(bench.label_of_section(), "Limits (none on)");
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.pour(2).least(), Some(15.0));
}

#[test]
fn the_menu_of_a_pour_has_the_same_tick() {
    let mut bench = Workbench::on(with_limited_lemon());
    bench.button("More for lemon juice");
    bench.button("Notch and limits");
    assert!(bench.ticked("Keep these limits"));
    bench.click(Role::CheckBox, "Keep these limits");
    let pour = bench.pour(2);
    assert!(pour.limits_off && pour.step.is_none());
    assert_eq!((pour.minimum, pour.maximum), (Some(15.0), Some(25.0)));
    bench.enter_number("At most", "20");
    assert!(bench.pour(2).limits_off, "another number keeps it off");
}

#[test]
fn what_is_held_is_named_among_the_limits() {
    let mut bench = open(demo());
    let derived = bench.session().derived().expect("derived");
    let within = derived.held_within_ml.expect("the poured total is held");
    // Half of the largest notch of what may move: 2.5 ml.
    assert!((within - 1.25).abs() < 1e-6, "{within}");
    assert!(bench.says("Held as well: the poured total, within ±1.3 ml."));
    bench.pick("Hold", "nothing");
    assert!(!bench.says("Held as well"));
}

#[test]
fn limits_can_be_set_without_a_target() {
    let mut document = demo();
    document.specs.last_mut().expect("a drink").target = None;
    let mut bench = open(document);
    bench.write_limit(MOST, "200");
    assert_eq!(bench.bound(Bounded::ServedVolume).most, Some(200.0));
}

#[test]
fn the_open_section_stays_within_the_window() {
    for size in [vec2(1280.0, 800.0), vec2(960.0, 600.0)] {
        let mut bench = Workbench::sized(with_limited_lemon(), Settings::default(), size);
        bench.click(Role::DisclosureTriangle, "Limits (1 on)");
        bench.write_limit(MOST, "120");
        for figure in Bounded::ALL {
            let mut name = figure.name().to_owned();
            name[..1].make_ascii_uppercase();
            let least = bench.place(Role::TextInput, &format!("{name} at least"));
            let most = bench.place(Role::TextInput, &format!("{name} at most"));
            assert!(least.right() < most.left(), "{name}");
            assert!(most.right() < size.x - 20.0, "{name} has room for its unit");
        }
        let aim = bench.place(Role::CheckBox, "sweet counts");
        let most = bench.place(Role::TextInput, MOST);
        assert!(
            aim.left() > size.x - 320.0,
            "the panel is as wide as before"
        );
        assert!(most.left() > aim.left());
    }
}

#[test]
fn the_served_volume_is_limited_in_the_unit_of_the_drink() {
    let mut bench = open(demo());
    bench.chord(CTRL, Key::U);
    assert_eq!(bench.pour(0).unit, equipour::units::Unit::Cl);
    bench.write_limit(MOST, "15");
    let most = bench.bound(Bounded::ServedVolume).most;
    assert!((most.expect("it is set") - 150.0).abs() < 1e-9, "{most:?}");
    assert_eq!(bench.text_in(MOST), "15");
    let now = bench.session().derived().expect("derived").figures.clone();
    let ml = now.expect("figures").served_ml;
    assert!(bench.says(&format!("now {:.1} cl", ml / 10.0)));
}
