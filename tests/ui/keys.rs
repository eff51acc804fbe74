//! Shortcuts, the palette and help.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::session::COMMANDS;

const PALETTE: &str = "Find a command";
/// Plain keys that change what the map shows.
const PLAIN: [(Key, &str); 6] = [
    (Key::F, "f"),
    (Key::A, "a"),
    (Key::D, "d"),
    (Key::C, "c"),
    (Key::T, "t"),
    (Key::R, "r"),
];

/// What the plain keys change, as it stands on screen.
fn shown(bench: &mut Workbench) -> Vec<String> {
    let mut shown = vec![bench.shown("Axis: Up"), bench.shown("Axis: Across")];
    let toggles = ["Whole field", "Noticeable differences"];
    shown.extend(toggles.map(|name| format!("{name} {}", bench.is_on(name))));
    bench.button("Layers");
    let layers = ["Classics", "Trail of trials", "Published ranges"];
    shown.extend(layers.map(|name| format!("{name} {}", bench.is_on(name))));
    bench.press(Key::Escape);
    shown
}

impl Workbench {
    /// Presses a key while the pointer rests on the map, drawn or as a table.
    #[track_caller]
    pub(crate) fn map_key(&mut self, key: Key) {
        let mut drawn = self.harness.query_all_by_role(Role::Image);
        let map = drawn.find(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.contains(" against "))
        });
        let place = map.map(|node| node.rect().left_top() + vec2(12.0, 12.0));
        drop(drawn);
        let place = place.unwrap_or_else(|| self.place(Role::Label, "drink").center());
        self.harness.hover_at(place);
        self.run();
        self.press(key);
        self.harness.remove_cursor();
        self.run();
    }
}

/// Rests the pointer on the map.
fn point_at_map(bench: &mut Workbench) {
    let name = format!(
        "{} against {}",
        bench.shown("Axis: Up"),
        bench.shown("Axis: Across")
    );
    let map = bench.place(Role::Image, &name);
    bench.harness.hover_at(map.left_top() + vec2(12.0, 12.0));
    bench.run();
}

/// A key as a keyboard sends it: the press, its letter, the release.
fn type_key(bench: &mut Workbench, key: Key, letter: &str) {
    bench.harness.key_down(key);
    bench.type_text(letter);
    bench.harness.key_up(key);
    bench.run();
}

#[test]
fn undo_and_redo_have_their_keys() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.enter_amount("quince syrup", "10");
    bench.chord(CTRL, Key::Z);
    assert_eq!((bench.amount(2), bench.amount(1)), (20.0, 17.5));
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.amount(2), 12.5);
    bench.chord(CTRL, Key::Z);
    bench.chord(CTRL_SHIFT, Key::Z);
    bench.chord(CTRL_SHIFT, Key::Z);
    assert_eq!((bench.amount(2), bench.amount(1)), (20.0, 10.0));
    bench.chord(CTRL_SHIFT, Key::Z);
    assert_eq!(bench.steps(), 2);
}

#[test]
fn undo_while_typing_takes_back_letters_and_no_step() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.click(Role::TextInput, "Find a classic");
    bench.type_text("neg");
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.amount(2), 20.0);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn letters_do_nothing_while_no_chart_has_the_pointer_or_the_focus() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    type_key(&mut bench, Key::E, "e");
    bench.press(Key::Tab);
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    assert_eq!(shown(&mut bench), before);
    assert!(bench.harness.state().view().shows_spread());
}

#[test]
fn letters_change_the_map_while_it_has_the_focus() {
    let mut bench = Workbench::demo();
    for _ in 0..200 {
        bench.press(Key::Tab);
        if bench
            .control(Role::Image, "sweet against sour")
            .is_focused()
        {
            type_key(&mut bench, Key::D, "d");
            assert!(bench.is_on("Noticeable differences"));
            return;
        }
    }
    panic!("Tab never reaches the map");
}

#[test]
fn pointing_at_a_strip_takes_its_own_letter_and_no_other() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    bench.hover(Role::Image, "Strength");
    bench.wait();
    assert!(bench.says("Keys: E how far it may be off"));
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    type_key(&mut bench, Key::E, "e");
    assert!(!bench.harness.state().view().shows_spread());
    assert_eq!(shown(&mut bench), before);
}

#[test]
fn plain_keys_change_the_map() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    point_at_map(&mut bench);
    bench.wait();
    let hint = "Keys: F whole field, A other axes, D noticeable differences";
    assert!(
        bench
            .label_starting(hint)
            .ends_with("E how far it may be off")
    );
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    let after = shown(&mut bench);
    let same: Vec<_> = before.iter().filter(|was| after.contains(was)).collect();
    assert_eq!(same, ["sweet"], "{before:?} became {after:?}");
    assert_eq!(bench.steps(), 0, "and nothing in the document");
}

#[test]
fn plain_keys_do_nothing_while_a_text_field_has_the_focus() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    bench.click(Role::TextInput, "Find a classic");
    point_at_map(&mut bench);
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    let typed = bench.control(Role::TextInput, "Find a classic").value();
    assert_eq!(typed.as_deref(), Some("fadctr"));
    assert_eq!(shown(&mut bench), before);
}

#[test]
fn plain_keys_do_nothing_while_an_amount_is_typed() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    bench.click(Role::TextInput, "Amount of lemon juice");
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    bench.press(Key::Escape);
    assert_eq!(shown(&mut bench), before);
}

#[test]
fn plain_keys_do_nothing_while_a_number_is_typed() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    bench.click(Role::SpinButton, "Target sweet");
    for (key, letter) in PLAIN {
        type_key(&mut bench, key, letter);
    }
    bench.press(Key::Escape);
    assert_eq!(shown(&mut bench), before);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn plain_keys_do_nothing_below_an_open_dialog() {
    let mut bench = Workbench::demo();
    let before = shown(&mut bench);
    bench.press(Key::F1);
    for (key, _) in PLAIN {
        bench.press(key);
    }
    bench.button("Close");
    assert_eq!(shown(&mut bench), before);
}

#[test]
fn help_lists_every_command_with_a_key() {
    let mut bench = Workbench::demo();
    bench.press(Key::F1);
    for info in COMMANDS.iter().filter(|info| info.shortcut.is_some()) {
        assert!(bench.says(info.explain), "{} is missing", info.name);
    }
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "Close"));
}

#[test]
fn the_palette_finds_a_command_by_letters() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    assert!(bench.control(Role::TextInput, PALETTE).is_focused());
    bench.type_text("charts as");
    bench.press(Key::Enter);
    assert!(!bench.has(Role::TextInput, PALETTE), "it closes");
    assert!(bench.says("sour, g/L"), "the charts are tables now");
}

#[test]
fn the_palette_opens_dialogs_of_other_commands() {
    for (letters, field) in [
        ("start a drink", "Find a starting point"),
        ("add a pour", "Find an ingredient"),
        ("save as", "Path"),
    ] {
        let mut bench = Workbench::demo();
        bench.chord(CTRL, Key::P);
        bench.type_text(letters);
        bench.press(Key::Enter);
        assert!(bench.has(Role::TextInput, field), "{letters}");
    }
}

#[test]
fn a_click_in_the_palette_runs_the_command() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("new trial");
    bench.button("New trial Ctrl+T");
    assert_eq!(bench.shown("Trial"), "Trial 6");
}

#[test]
fn letters_of_no_command_run_nothing() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("zzz");
    bench.press(Key::Enter);
    assert_eq!(bench.steps(), 0);
    assert!(bench.messages().is_empty());
}

#[test]
fn every_command_stands_in_its_menu() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    for menu in ["File", "Edit", "Drink", "Show", "Help"] {
        bench.topmost_button(menu);
        for info in COMMANDS.iter().filter(|info| info.menu == menu) {
            assert!(bench.says(info.name), "{} in {menu}", info.name);
        }
        bench.press(Key::Escape);
    }
}

#[test]
fn tab_reaches_the_first_slider_and_goes_on() {
    let mut bench = Workbench::demo();
    let mut reached = false;
    for _ in 0..40 {
        bench.press(Key::Tab);
        if bench.control(Role::Slider, "caraway spirit").is_focused() {
            reached = true;
            break;
        }
    }
    assert!(reached);
    bench.press(Key::Tab);
    assert!(!bench.control(Role::Slider, "caraway spirit").is_focused());
}
