//! Menus of the bar: as tall as the window, with ticks, and where things are looked for.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Key, Rect};
use egui_kittest::kittest::NodeT as _;
use equipour::session::{COMMANDS, licence_lines};

/// Where the item that begins so stands, and whether it is on.
#[track_caller]
fn item(bench: &Workbench, name: &str) -> (Rect, Option<Toggled>) {
    let found = bench.harness.root().children_recursive().filter(|node| {
        let node = node.accesskit_node();
        let label = node.label().unwrap_or_default();
        node.role() == Role::Button && (label == name || label.starts_with(&format!("{name} ")))
    });
    // Beside what the page itself calls so, the menu lies lowest in the tree.
    let last = found.last().unwrap_or_else(|| panic!("no {name}"));
    (last.rect(), last.accesskit_node().toggled())
}

#[test]
fn a_menu_shows_all_its_commands_where_the_window_has_room() {
    for menu in ["File", "Edit", "Drink", "Help"] {
        let mut bench = Workbench::demo();
        let shown = bench.harness.ctx.content_rect();
        bench.topmost_button(menu);
        for info in COMMANDS.iter().filter(|info| info.menu == menu) {
            if info.name == "Undo" || info.name == "Redo" {
                continue;
            }
            let (place, _) = item(&bench, info.name);
            assert!(shown.contains_rect(place), "{menu}: {} {place}", info.name);
            assert!(
                bench.painted(info.name) > 0,
                "{menu}: {} is painted",
                info.name
            );
        }
    }
}

#[test]
fn the_longest_menu_goes_down_to_the_foot_of_the_window() {
    let mut bench = Workbench::demo();
    bench.topmost_button("Show");
    let names = COMMANDS.iter().filter(|info| info.menu == "Show");
    let painted = names.filter(|info| {
        let texts = bench.texts(info.name);
        texts
            .iter()
            .any(|text| text.rect.bottom() < 800.0 && text.rect.top() > 30.0)
    });
    let all = COMMANDS.iter().filter(|info| info.menu == "Show").count();
    assert!(painted.count() + 3 >= all, "of {all}");
}

#[test]
fn what_is_shown_is_ticked() {
    let mut bench = Workbench::demo();
    bench.topmost_button("Show");
    assert_eq!(item(&bench, "Charts as tables").1, Some(Toggled::False));
    assert_eq!(item(&bench, "Trail of trials").1, Some(Toggled::True));
    assert_eq!(item(&bench, "Left panel").1, Some(Toggled::True));
    bench.press(Key::Escape);
    bench.chord(CTRL, Key::D);
    bench.press(Key::F7);
    bench.topmost_button("Show");
    assert_eq!(item(&bench, "Charts as tables").1, Some(Toggled::True));
    assert_eq!(item(&bench, "Left panel").1, Some(Toggled::False));
}

#[test]
fn settings_stand_at_the_end_of_edit() {
    let last = COMMANDS.iter().rfind(|info| info.menu == "Edit");
    assert_eq!(last.expect("commands").name, "Settings…");
}

#[test]
fn words_that_people_look_for_find_looks_and_trials() {
    for (word, name) in [
        ("theme", "Light or dark"),
        ("dark", "Light or dark"),
        ("parent", "Previous trial"),
        ("license", "Licences…"),
    ] {
        let mut bench = Workbench::demo();
        bench.chord(CTRL, Key::P);
        bench.type_text(word);
        let (place, _) = item(&bench, name);
        assert!(place.height() > 0.0, "{word}");
    }
}

#[test]
fn the_licences_are_read_in_the_window() {
    let mut bench = Workbench::demo();
    bench.topmost_button("Help");
    bench.button("Licences…");
    let first = licence_lines().iter().find(|line| !line.is_empty());
    assert!(bench.says(first.expect("a line")));
    let drawn = bench.harness.root().children_recursive().count();
    assert!(drawn < 2_000, "only what is in sight: {drawn}");
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "Copy the licences as text"));
}

#[test]
fn one_key_goes_to_the_search_of_the_page() {
    for (page, search) in [
        (Key::Num1, "Find a classic"),
        (Key::Num3, "Search the trials"),
        (Key::Num5, "Search the larder"),
    ] {
        let mut bench = Workbench::demo();
        bench.chord(CTRL, page);
        bench.chord(CTRL, Key::F);
        assert!(
            bench.control(Role::TextInput, search).is_focused(),
            "{search}"
        );
    }
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num4);
    bench.chord(CTRL, Key::F);
    let field = bench.control(Role::TextInput, "Find a command");
    assert!(field.is_focused(), "a page without a search");
}

#[test]
fn the_sheet_of_keys_uses_the_height_of_the_window() {
    let mut bench = Workbench::demo();
    bench.press(Key::F1);
    let close = bench.place(Role::Button, "Close");
    assert!(close.top() > 640.0, "{close}");
    assert!(close.bottom() < 800.0, "{close}");
}
