//! What a screen reader is told: every control of every page and dialog by a name of its own, numbers
//! with their range.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use std::collections::BTreeMap;

/// Roles of what can be worked.
const CONTROLS: [Role; 11] = [
    Role::Button,
    Role::CheckBox,
    Role::RadioButton,
    Role::ComboBox,
    Role::TextInput,
    Role::MultilineTextInput,
    Role::SpinButton,
    Role::Slider,
    Role::Link,
    Role::Image,
    Role::ColorWell,
];

/// Pages, as the keys that show them.
const PAGES: [(&str, Key); 5] = [
    ("Balance", Key::Num1),
    ("House-made", Key::Num2),
    ("Trials", Key::Num3),
    ("Submission", Key::Num4),
    ("Larder", Key::Num5),
];

/// Dialogs, as the keys that open them.
const DIALOGS: [(&str, Modifiers, Key); 12] = [
    ("Start a drink", CTRL, Key::N),
    ("Add a pour", CTRL, Key::L),
    ("Swap", CTRL, Key::R),
    ("Bring to spec", CTRL, Key::B),
    ("Aim at", CTRL_SHIFT, Key::G),
    ("Open", CTRL, Key::O),
    ("Save as", CTRL_SHIFT, Key::S),
    ("Save the sheet", CTRL, Key::E),
    ("All commands", CTRL, Key::P),
    ("Keys", Modifiers::NONE, Key::F1),
    ("nothing", CTRL, Key::D),
    ("nothing", CTRL_SHIFT, Key::L),
];

/// Dialogs without a key, by letters that find them among all commands.
const PALETTE: [&str; 5] = [
    "document and assumptions",
    "import ingredients",
    "export ingredients",
    "import a recipe",
    "substitution table",
];

/// What is wrong with the controls on screen.
fn wrong(bench: &Workbench) -> Vec<String> {
    let mut found = Vec::new();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for node in bench.harness.root().children_recursive() {
        let node = node.accesskit_node();
        let data = node.data();
        if !CONTROLS.contains(&node.role()) {
            continue;
        }
        let name = node.label().unwrap_or_default();
        let named = format!("{:?} “{name}”", node.role());
        if name.trim().is_empty() {
            let said = node.value().unwrap_or_default();
            found.push(format!("{named} with {said:?} has no name"));
        }
        let is_number = matches!(node.role(), Role::Slider | Role::SpinButton);
        if is_number && data.numeric_value().is_none() && !node.is_disabled() {
            found.push(format!("{named} has no value"));
        }
        let has_range = data.min_numeric_value().is_some() && data.max_numeric_value().is_some();
        if node.role() == Role::Slider && !has_range {
            found.push(format!("{named} has no range"));
        }
        *seen.entry(named).or_default() += 1;
    }
    let twice = seen.into_iter().filter(|(_, times)| *times > 1);
    found.extend(twice.map(|(named, times)| format!("{named} is there {times} times")));
    found
}

/// Looks at whatever is on screen now.
fn look(bench: &Workbench, place: &str, all: &mut Vec<String>) {
    all.extend(
        wrong(bench)
            .into_iter()
            .map(|what| format!("{place}: {what}")),
    );
}

#[test]
fn every_control_of_every_page_has_a_name_of_its_own() {
    let mut all = Vec::new();
    for tables in [false, true] {
        let mut bench = Workbench::demo();
        if tables {
            bench.chord(CTRL, Key::D);
        }
        for (page, key) in PAGES {
            bench.chord(CTRL, key);
            look(&bench, page, &mut all);
        }
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn every_control_of_every_tab_has_a_name_of_its_own() {
    let mut all = Vec::new();
    let mut bench = Workbench::demo();
    for (key, tabs) in [
        (Key::Num1, &["How sure", "Trade-off", "Flavour notes"][..]),
        (
            Key::Num2,
            &[
                "Card and label",
                "Time",
                "Keeping",
                "Cost and waste",
                "Lots",
                "Scale",
                "For a drink",
            ],
        ),
        (Key::Num3, &["Tastings", "Over the trials", "At the bench"]),
        (
            Key::Num4,
            &[
                "Words",
                "Glass",
                "Readers",
                "Shopping",
                "Prep plan",
                "Stage",
                "Labels",
            ],
        ),
    ] {
        bench.chord(CTRL, key);
        for tab in tabs {
            if !bench.has(Role::Button, tab) {
                all.push(format!("no tab {tab}"));
                continue;
            }
            bench.button(tab);
            look(&bench, tab, &mut all);
        }
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn every_control_of_every_dialog_has_a_name_of_its_own() {
    let mut all = Vec::new();
    for (name, modifiers, key) in DIALOGS {
        let mut bench = Workbench::demo();
        bench.chord(modifiers, key);
        look(&bench, name, &mut all);
    }
    for letters in PALETTE {
        let mut bench = Workbench::demo();
        bench.chord(CTRL, Key::P);
        bench.type_text(letters);
        bench.press(Key::Enter);
        look(&bench, letters, &mut all);
    }
    assert!(all.is_empty(), "{all:#?}");
}
