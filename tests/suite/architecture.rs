//! The layers hold: an arrow may only point down.

use std::fs;
use std::path::{Path, PathBuf};

/// Layers from the ground up, each with the layers it may import.
const LAYERS: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("physics", &["units"]),
    ("solver", &[]),
    ("model", &["units"]),
    ("kitchen", &["units", "physics", "model"]),
    ("balance", &["units", "physics", "model", "kitchen"]),
    (
        "rebalance",
        &["units", "physics", "solver", "model", "kitchen", "balance"],
    ),
    (
        "measure",
        &["units", "physics", "model", "kitchen", "balance"],
    ),
    ("tasting", &["units", "model", "balance"]),
    (
        "service",
        &["units", "physics", "model", "kitchen", "balance"],
    ),
    (
        "chart",
        &[
            "units",
            "physics",
            "model",
            "kitchen",
            "balance",
            "rebalance",
            "measure",
            "tasting",
            "service",
        ],
    ),
    (
        "store",
        &[
            "units",
            "physics",
            "model",
            "kitchen",
            "balance",
            "rebalance",
            "measure",
            "tasting",
            "service",
            "chart",
        ],
    ),
    ("sheet", &["units", "model", "balance", "service", "chart"]),
    (
        "session",
        &[
            "units",
            "physics",
            "model",
            "kitchen",
            "balance",
            "rebalance",
            "measure",
            "tasting",
            "service",
            "chart",
            "store",
            "sheet",
        ],
    ),
    (
        "ui",
        &[
            "units",
            "model",
            "balance",
            "rebalance",
            "measure",
            "tasting",
            "service",
            "chart",
            "store",
            "session",
            "sheet",
        ],
    ),
    (
        "cli",
        &[
            "units",
            "model",
            "balance",
            "rebalance",
            "service",
            "store",
            "session",
            "sheet",
        ],
    ),
];

/// Words that only some places may say.
const KEPT_APART: &[(&str, &[&str])] = &[
    ("egui", &["src/ui/", "src/lib.rs"]),
    ("eframe", &["src/ui/"]),
    ("rfd::", &["src/ui/dialogs.rs"]),
    ("nalgebra::", &["src/solver/"]),
    ("std::fs", &["src/store/"]),
    ("fs::", &["src/store/"]),
    ("Color32::from_", &["src/ui/theme.rs"]),
    ("krilla::", &["src/sheet/"]),
    ("resvg::", &["src/sheet/"]),
    ("rustybuzz::", &["src/sheet/"]),
    (
        "serde_json",
        &["src/cli/", "src/sheet/", "src/store/recipe_"],
    ),
    ("println!", &["src/main.rs"]),
];

/// No file is longer.
const MAX_LINES: usize = 400;

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|kind| kind == "rs") {
            found.push(path);
        }
    }
}

/// Every source file with its path from the package's root.
pub(crate) fn all(folder: &str) -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    sources(&root.join(folder), &mut found);
    found.sort();
    found
        .into_iter()
        .map(|path| {
            let name = path.strip_prefix(root).expect("below the root");
            let name = name.to_string_lossy().replace('\\', "/");
            (name, fs::read_to_string(&path).expect("it is text"))
        })
        .collect()
}

/// The code of a file without comments.
fn code(text: &str) -> String {
    text.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn arrows_between_layers_only_point_down() {
    let mut wrong = Vec::new();
    for (name, text) in all("src") {
        let Some(layer) = name
            .strip_prefix("src/")
            .and_then(|rest| rest.split_once('/'))
        else {
            continue;
        };
        let (_, allowed) = LAYERS
            .iter()
            .find(|(known, _)| *known == layer.0)
            .unwrap_or_else(|| panic!("{name} stands in no known layer"));
        let code = code(&text);
        for (other, _) in LAYERS {
            let uses = code.contains(&format!("crate::{other}::"));
            if uses && *other != layer.0 && !allowed.contains(other) {
                wrong.push(format!("{name} imports {other}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn toolkits_files_and_colours_stay_in_their_places() {
    let mut wrong = Vec::new();
    for (name, text) in all("src") {
        let code = code(&text);
        for (word, places) in KEPT_APART {
            if code.contains(word) && !places.iter().any(|place| name.starts_with(place)) {
                wrong.push(format!("{name} says {word}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn files_stay_short_and_front_pages_hold_no_logic() {
    let mut wrong = Vec::new();
    for (name, text) in all("src").into_iter().chain(all("tests")) {
        let lines = text.lines().count();
        if lines > MAX_LINES {
            wrong.push(format!("{name} has {lines} lines"));
        }
        if name.ends_with("mod.rs") && code(&text).contains("fn ") {
            wrong.push(format!("{name} holds logic"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Names that a front page gives to the outside.
fn public_names(front_page: &str) -> Vec<String> {
    let code = code(front_page);
    let exports = code.split("pub use ").skip(1);
    exports
        .filter_map(|export| export.split_once(';'))
        .flat_map(|(export, _)| {
            let names = export.rsplit("::").next().unwrap_or(export);
            let names = names.trim_matches(|letter| letter == '{' || letter == '}');
            names.split(',').map(str::to_owned).collect::<Vec<_>>()
        })
        .map(|name| {
            name.rsplit(" as ")
                .next()
                .unwrap_or(&name)
                .trim()
                .to_owned()
        })
        .filter(|name| !name.is_empty())
        .collect()
}

#[test]
fn a_public_name_of_model_store_or_session_means_one_thing() {
    let pages = ["src/model/mod.rs", "src/store/mod.rs", "src/session/mod.rs"];
    let mut names: Vec<String> = all("src")
        .iter()
        .filter(|(name, _)| pages.contains(&name.as_str()))
        .flat_map(|(_, text)| public_names(text))
        .collect();
    assert!(names.len() > 60, "{names:?}");
    names.sort();
    let twice = names.windows(2).filter(|pair| pair[0] == pair[1]);
    let twice: Vec<&String> = twice.map(|pair| &pair[0]).collect();
    assert!(twice.is_empty(), "{twice:?}");
}

#[test]
fn the_readme_lists_every_command_with_its_key() {
    let readme = include_str!("../../README.md");
    for info in equipour::session::COMMANDS {
        let Some(shortcut) = info.shortcut else {
            continue;
        };
        let mut keys = String::new();
        if shortcut.command {
            keys.push_str("Ctrl+");
        }
        if shortcut.shift {
            keys.push_str("Shift+");
        }
        keys.push_str(shortcut.key);
        if shortcut.key.len() == 1 && !shortcut.command {
            keys.push_str(" on the map");
        }
        let row = format!("| {keys} | {} |", info.name);
        assert!(readme.contains(&row), "the README lacks: {row}");
    }
}
