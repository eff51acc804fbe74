//! The focus of the keyboard: a ring around it, in sight, from panel to panel.

use crate::larder::{larder, open};
use crate::vision::contrast;
use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Color32, Key, Rect, Shape, StrokeKind, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::store::{Settings, ThemeChoice};

/// The rings painted in the last frame: rectangles with a stroke of two points around them.
fn rings(bench: &Workbench) -> Vec<(Rect, Color32)> {
    let shapes = bench.harness.output().shapes.iter();
    let rings = shapes.filter_map(|clipped| match &clipped.shape {
        Shape::Rect(rect)
            if rect.stroke.width >= 2.0 && rect.stroke_kind == StrokeKind::Outside =>
        {
            Some((rect.rect, rect.stroke.color))
        }
        _ => None,
    });
    rings.collect()
}

/// What has the focus: role, name and place.
fn focused(bench: &Workbench) -> Option<(Role, String, Rect)> {
    let mut nodes = bench.harness.root().children_recursive();
    nodes.find(egui_kittest::Node::is_focused).map(|node| {
        let name = node.accesskit_node().label().unwrap_or_default();
        (node.accesskit_node().role(), name, node.rect())
    })
}

#[test]
fn tab_puts_a_ring_around_every_control_it_reaches() {
    for page in [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5] {
        let mut bench = Workbench::demo();
        bench.chord(CTRL, page);
        for _ in 0..60 {
            bench.press(Key::Tab);
            let Some((role, name, place)) = focused(&bench) else {
                continue;
            };
            let rings = rings(&bench);
            let around = rings.iter().any(|(ring, _)| {
                ring.contains_rect(
                    place
                        .intersect(bench.harness.ctx.content_rect())
                        .shrink(3.0),
                )
            });
            assert!(
                around,
                "{page:?}: no ring around {role:?} {name} at {place}"
            );
        }
    }
}

#[test]
fn the_pointer_leaves_no_ring_and_tab_brings_it_back() {
    let mut bench = Workbench::demo();
    bench.press(Key::Tab);
    assert_eq!(rings(&bench).len(), 1);
    bench.click(Role::TextInput, "Find a classic");
    assert!(rings(&bench).is_empty());
    bench.type_text("neg");
    assert!(rings(&bench).is_empty(), "letters are typed by everybody");
    bench.press(Key::Tab);
    assert_eq!(rings(&bench).len(), 1);
}

#[test]
fn the_letter_f_brings_no_ring() {
    let mut bench = Workbench::demo();
    bench.click(Role::TextInput, "Find a classic");
    bench.press(Key::F);
    assert!(rings(&bench).is_empty(), "a letter like others");
}

#[test]
fn the_ring_stands_out_in_both_themes() {
    for theme in [ThemeChoice::Light, ThemeChoice::Dark] {
        let settings = Settings {
            theme,
            ..Settings::default()
        };
        let mut bench = Workbench::sized(demo(), settings, vec2(1280.0, 800.0));
        bench.press(Key::Tab);
        let page = bench.harness.ctx.global_style().visuals.panel_fill;
        let channels = |color: Color32| [color.r(), color.g(), color.b()];
        let (_, color) = rings(&bench)[0];
        assert!(
            contrast(channels(color), channels(page)) >= 3.0,
            "{theme:?}"
        );
    }
}

#[test]
fn whatever_tab_reaches_is_in_sight() {
    for page in [Key::Num1, Key::Num2, Key::Num4] {
        let mut bench = Workbench::sized(demo(), Settings::default(), vec2(960.0, 600.0));
        bench.chord(CTRL, page);
        let window = bench.harness.ctx.content_rect();
        for _ in 0..110 {
            bench.press(Key::Tab);
            if let Some((role, name, place)) = focused(&bench) {
                let seen = place.intersect(window);
                assert!(
                    seen.is_positive() && rings(&bench).len() == 1,
                    "{page:?}: {role:?} {name} at {place} is out of sight"
                );
            }
        }
    }
}

#[test]
fn one_key_goes_from_panel_to_panel_and_back() {
    let mut bench = Workbench::demo();
    let mut reached = Vec::new();
    for _ in 0..4 {
        bench.chord(CTRL, Key::F6);
        reached.push(focused(&bench).expect("something has the focus").1);
    }
    let mut different = reached.clone();
    different.dedup();
    assert_eq!(different, reached, "every press goes on");
    let expected = [
        "Balance page",
        "Moving one pour: each alone",
        "Axis: Up",
        "Aim at…",
    ];
    assert_eq!(reached, expected, "in reading order");
    bench.chord(CTRL_SHIFT, Key::F6);
    assert_eq!(
        focused(&bench).map(|known| known.1).as_ref(),
        reached.get(2)
    );
    for page in [Key::Num2, Key::Num3, Key::Num4, Key::Num5] {
        bench.chord(CTRL, page);
        let mut names = std::collections::BTreeSet::new();
        for _ in 0..6 {
            bench.chord(CTRL, Key::F6);
            names.extend(focused(&bench).map(|known| known.1));
        }
        // Without a chosen row the editor of the larder holds no control and is passed over.
        let least = if page == Key::Num5 { 2 } else { 3 };
        assert!(names.len() >= least, "{page:?}: {names:?}");
    }
}

/// Presses Tab from nothing on; names in the order they were reached, until one comes twice.
fn order(bench: &mut Workbench) -> Vec<String> {
    let mut names = Vec::new();
    let mut first = None;
    for _ in 0..400 {
        bench.press(Key::Tab);
        let Some((_, name, place)) = focused(bench) else {
            continue;
        };
        let here = (name.clone(), place.min.round());
        match &first {
            None => first = Some(here),
            Some(known) if *known == here => return names,
            Some(_) => {}
        }
        names.push(name);
    }
    panic!("Tab never comes round: {names:?}");
}

/// Where the first control whose name begins so comes.
#[track_caller]
fn first_place(names: &[String], begins: &str) -> usize {
    let place = names.iter().position(|name| name.starts_with(begins));
    place.unwrap_or_else(|| panic!("{begins} is never reached: {names:?}"))
}

#[test]
fn tab_goes_from_pours_to_charts_to_the_target_and_to_notices_last() {
    let mut bench = Workbench::demo();
    let message = "It is said at the bottom.".to_owned();
    bench.harness.state_mut().say(message);
    bench.run();
    let names = order(&mut bench);
    let expected = [
        "Balance page",
        "Amount of caraway spirit",
        "Axis: Up",
        "Aim at…",
        "Dismiss",
    ];
    let places = expected.map(|name| first_place(&names, name));
    assert!(places.is_sorted(), "{places:?} of {names:?}");
}

#[test]
fn tab_reaches_the_table_of_the_larder_before_the_editor() {
    let mut bench = larder();
    open(&mut bench, "agave syrup");
    bench.button("Copy into the document");
    let names = order(&mut bench);
    let [search, field] = ["Search the larder", "Name"].map(|name| first_place(&names, name));
    assert!(search < field, "{names:?}");
}

#[test]
fn a_list_closes_when_an_item_is_taken_by_key_and_has_the_focus_again() {
    for key in [Key::Enter, Key::Space] {
        let mut bench = Workbench::demo();
        reach(&mut bench, "Axis: Across");
        bench.press(key);
        assert!(bench.has(Role::Button, "strength, % vol"), "it opens");
        reach(&mut bench, "strength, % vol");
        bench.press(key);
        assert!(!bench.has(Role::Button, "strength, % vol"), "{key:?}");
        assert_eq!(bench.shown("Axis: Across"), "strength");
        assert_eq!(focused(&bench).expect("a focus").1, "Axis: Across");
    }
}

#[test]
fn escape_closes_a_list_and_leaves_the_focus_at_its_control() {
    let mut bench = Workbench::demo();
    reach(&mut bench, "Axis: Across");
    bench.press(Key::Space);
    reach(&mut bench, "strength, % vol");
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "strength, % vol"));
    assert_eq!(bench.shown("Axis: Across"), "sour");
    assert_eq!(focused(&bench).expect("a focus").1, "Axis: Across");
}

#[track_caller]
fn reach(bench: &mut Workbench, name: &str) {
    for _ in 0..200 {
        bench.press(Key::Tab);
        if focused(bench).is_some_and(|known| known.1 == name) {
            return;
        }
    }
    panic!("Tab never reaches {name}");
}
