//! 100 to 200 %: small rooms in points keep every page usable.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Rect, Vec2, pos2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::session::COMMANDS;
use equipour::store::Settings;

/// 1280 × 800 and 1920 × 1080 px at 200 %.
const SMALL: [Vec2; 2] = [vec2(640.0, 400.0), vec2(960.0, 540.0)];
const PAGES: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];
/// Buttons of the bar.
const BAR: [&str; 9] = [
    "Balance page",
    "House-made page",
    "Trials page",
    "Submission page",
    "Larder page",
    "New trial",
    "Describe the trial…",
    "Undo",
    "Redo",
];

fn small(size: Vec2) -> Workbench {
    Workbench::sized(demo(), Settings::default(), size)
}

#[test]
fn every_page_draws_in_a_small_room_and_its_bar_stays_inside() {
    for size in SMALL {
        let mut bench = small(size);
        bench.harness.set_pixels_per_point(2.0);
        for key in PAGES {
            bench.chord(CTRL, key);
            let window = Rect::from_min_size(pos2(0.0, 0.0), size).expand(1.0);
            for name in BAR {
                let place = bench.place(Role::Button, name);
                assert!(
                    window.contains_rect(place),
                    "{name} at {place} leaves {size}"
                );
            }
            for menu in ["File", "Edit", "Drink", "Show", "Help"] {
                let buttons = bench
                    .harness
                    .query_all_by_role_and_label(Role::Button, menu);
                let mut places = buttons.map(|button| button.rect());
                assert!(places.any(|place| window.contains_rect(place)), "{menu}");
            }
        }
    }
}

#[test]
fn controls_of_the_bar_never_lie_on_each_other() {
    for size in SMALL {
        let bench = small(size);
        let bar: Vec<Rect> = BAR
            .map(|name| bench.place(Role::Button, name))
            .into_iter()
            .chain(["Drink", "Trial"].map(|name| bench.place(Role::ComboBox, name)))
            .collect();
        for (place, one) in bar.iter().enumerate() {
            for other in &bar[place + 1..] {
                let both = one.intersect(*other);
                assert!(!both.is_positive(), "{one} and {other} at {size}");
            }
        }
    }
}

#[test]
fn every_command_of_a_long_menu_can_be_reached_in_a_low_window() {
    let mut bench = small(SMALL[0]);
    bench.topmost_button("Show");
    let last = COMMANDS.iter().rfind(|info| info.menu == "Show");
    let last = last.expect("the menu has commands").name;
    let found = |bench: &Workbench| {
        let nodes = bench.harness.root().children_recursive();
        let mut buttons = nodes.filter(|node| {
            let label = node.accesskit_node().label().unwrap_or_default();
            label.starts_with(last)
        });
        buttons.next().map(|node| node.rect())
    };
    let place = found(&bench).expect("the last command is there");
    assert!(place.bottom() > SMALL[0].y, "it fits without scrolling");
    bench.harness.hover_at(pos2(400.0, 200.0));
    for _ in 0..30 {
        bench.harness.event(eframe::egui::Event::MouseWheel {
            unit: eframe::egui::MouseWheelUnit::Point,
            source: eframe::egui::MouseWheelSource::Wheel,
            delta: vec2(0.0, -100.0),
            phase: eframe::egui::TouchPhase::Move,
            modifiers: eframe::egui::Modifiers::NONE,
        });
        bench.run();
    }
    let place = found(&bench).expect("it is still there");
    assert!(place.bottom() <= SMALL[0].y, "{place}");
}

#[test]
fn a_hidden_panel_gives_its_room_to_the_map() {
    for size in [SMALL[0], SMALL[1], vec2(1280.0, 800.0)] {
        let mut bench = small(size);
        let width = |bench: &Workbench| {
            let images = bench.harness.root().children_recursive().filter(|node| {
                let node = node.accesskit_node();
                node.role() == Role::Image
            });
            images.map(|node| node.rect().width()).fold(0.0, f32::max)
        };
        let right = |bench: &Workbench| bench.place(Role::Button, "Quick aim").right();
        let (was, scrolled) = (width(&bench), right(&bench) > size.x);
        bench.press(Key::F7);
        // Where the page was scrolled, all of it is in sight now; else the map is wider.
        if scrolled {
            assert!(
                right(&bench) <= size.x && width(&bench) > was - 60.0,
                "{size}: {was}"
            );
        } else {
            assert!(width(&bench) > was + 60.0, "{size}: {was}");
        }
        bench.press(Key::F8);
        assert!(!bench.has(Role::CheckBox, "sweet counts"), "{size}");
        bench.press(Key::F7);
        bench.press(Key::F8);
        assert!(bench.has(Role::CheckBox, "sweet counts"), "{size}");
        // Shown again, it is drawn from what was kept, and stays so however often it is hidden.
        let again = width(&bench);
        assert!((again - was).abs() < 2.0, "{size}: {was} to {again}");
        for key in [Key::F7, Key::F7, Key::F8, Key::F8] {
            bench.press(key);
        }
        assert_eq!(width(&bench), again, "{size}");
    }
}

#[test]
fn dialogs_fit_into_a_low_window_and_their_last_button_can_be_pressed() {
    let mut bench = small(SMALL[0]);
    bench.chord(CTRL, Key::Comma);
    let close = bench.control(Role::Button, "Close");
    close.scroll_to_me();
    bench.run();
    let place = bench.place(Role::Button, "Close");
    assert!(
        place.bottom() <= SMALL[0].y && place.right() <= SMALL[0].x,
        "{place}"
    );
    bench.button("Close");
    assert!(!bench.has(Role::ComboBox, "Size of everything"));
    for key in [Key::N, Key::L, Key::R, Key::B, Key::P, Key::E, Key::O] {
        bench.chord(CTRL, key);
        let title = bench.texts("").len();
        assert!(title > 0);
        bench.press(Key::Escape);
    }
}
