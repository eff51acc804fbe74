//! The crates of the program and their licences, as cargo and the crates themselves tell them.

use serde_json::Value;
use spdx::{Expression, ParseMode};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The target that is handed out.
const TARGET: &str = "x86_64-unknown-linux-gnu";

/// Licences under which anything may be used here (names of SPDX).
const ALLOWED: [&str; 13] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "0BSD",
    "Zlib",
    "ISC",
    "BSL-1.0",
    "CC0-1.0",
    "Unicode-3.0",
    "OFL-1.1",
    "Ubuntu-font-1.0",
];
/// What one crate may have besides: MPL-2.0 asks for the source of that crate alone, which is named.
const EXCEPTIONS: [(&str, &str); 1] = [("option-ext", "MPL-2.0")];
/// Crates whose manifest names a file instead of a licence, and what stands in it.
const READ_BY_HAND: [(&str, &str); 1] = [("ical", "Apache-2.0")];

/// A crate that the program or its tests are built from.
#[derive(Clone, Debug)]
pub(crate) struct Crate {
    pub(crate) name: String,
    pub(crate) version: String,
    /// Expression of SPDX; blank where the manifest has none.
    pub(crate) licence: String,
    /// Authors without their addresses.
    pub(crate) authors: String,
    pub(crate) source: String,
    folder: PathBuf,
    /// Whether it is part of the program, not only of its building and testing.
    pub(crate) shipped: bool,
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

impl Crate {
    fn of(package: &Value, shipped: bool) -> Self {
        let name = text(&package["name"]);
        let by_hand = READ_BY_HAND.iter().find(|(known, _)| *known == name);
        let licence = match package["license"].as_str() {
            Some(said) => said.to_owned(),
            None => by_hand.map_or_else(String::new, |(_, licence)| (*licence).to_owned()),
        };
        let authors = package["authors"].as_array().into_iter().flatten();
        let authors: Vec<String> = authors
            .map(|author| {
                let author = text(author);
                author.split('<').next().unwrap_or("").trim().to_owned()
            })
            .collect();
        let manifest = PathBuf::from(text(&package["manifest_path"]));
        Self {
            version: text(&package["version"]),
            licence,
            authors: authors.join(", "),
            source: text(&package["repository"]),
            folder: manifest.parent().expect("it has a folder").to_owned(),
            shipped,
            name,
        }
    }

    /// The licence as an expression; old manifests put a slash for "or".
    fn expression(&self) -> Option<Expression> {
        Expression::parse_mode(&self.licence, ParseMode::LAX).ok()
    }

    fn may_have(&self, licence: &str) -> bool {
        ALLOWED.contains(&licence) || EXCEPTIONS.contains(&(self.name.as_str(), licence))
    }

    /// Whether one of the ways that its licence leaves open is allowed here.
    pub(crate) fn is_allowed(&self) -> bool {
        self.expression().is_some_and(|expression| {
            expression.evaluate(|asked| {
                let id = asked.license.id();
                id.is_some_and(|id| self.may_have(id.name)) && asked.addition.is_none()
            })
        })
    }

    /// The texts that it comes with, and the standard ones where its first folder has none.
    pub(crate) fn texts(&self) -> Vec<String> {
        let top = files(&self.folder, is_licence);
        let mut found: Vec<String> = top.iter().map(|path| read(path)).collect();
        if found.is_empty() {
            found = self.standard_texts();
        }
        for below in ["LICENSES", "licenses", "fonts"] {
            let all = files(&self.folder.join(below), |name| {
                !name.contains(".ttf") && !name.contains(".otf")
            });
            found.extend(all.iter().map(|path| read(path)));
        }
        found
    }

    fn standard_texts(&self) -> Vec<String> {
        let expression = self.expression().expect("it has a licence");
        let asked = expression.requirements().filter_map(|asked| {
            let id = asked.req.license.id()?;
            (self.may_have(id.name) && asked.req.addition.is_none()).then_some(id)
        });
        let holder = format!("the authors of {}: {}", self.name, self.authors);
        asked
            .map(|id| id.text().replace("<year> <copyright holders>", &holder))
            .collect()
    }
}

fn is_licence(name: &str) -> bool {
    let name = name.to_uppercase();
    let begins = [
        "LICENSE",
        "LICENCE",
        "COPYING",
        "COPYRIGHT",
        "NOTICE",
        "UNLICENSE",
    ];
    begins.iter().any(|word| name.starts_with(word)) && !name.contains("GPL")
}

/// Files of a folder by name; none where there is no such folder.
fn files(folder: &Path, wanted: impl Fn(&str) -> bool) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.is_file())
        .filter(|path| wanted(&path.file_name().unwrap_or_default().to_string_lossy()))
        .collect();
    found.sort();
    found
}

fn read(path: &Path) -> String {
    let bytes = std::fs::read(path).expect("it can be read");
    let text = String::from_utf8_lossy(&bytes).replace('\r', "");
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    lines.join("\n").trim_matches('\n').to_owned()
}

/// Every crate for the target but the program itself, by name and version.
pub(crate) fn crates() -> Vec<Crate> {
    let output = Command::new(env!("CARGO"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .args(["--filter-platform", TARGET])
        .output()
        .expect("cargo runs");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    let told: Value = serde_json::from_slice(&output.stdout).expect("it is JSON");
    let root = text(&told["resolve"]["root"]);
    let shipped = reached(&told, &root);
    let packages = told["packages"].as_array().expect("a list");
    let mut found: Vec<Crate> = packages
        .iter()
        .filter(|package| package["id"] != root.as_str())
        .map(|package| Crate::of(package, shipped.contains(&text(&package["id"]))))
        .collect();
    found.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    found
}

/// What the program needs to run, not only to be built and tested.
fn reached(told: &Value, root: &str) -> BTreeSet<String> {
    let nodes = told["resolve"]["nodes"].as_array().expect("a list");
    let needs: BTreeMap<String, Vec<String>> = nodes
        .iter()
        .map(|node| {
            let deps = node["deps"].as_array().into_iter().flatten();
            let normal = deps.filter(|dep| {
                let mut kinds = dep["dep_kinds"].as_array().into_iter().flatten();
                kinds.any(|kind| kind["kind"].is_null())
            });
            (
                text(&node["id"]),
                normal.map(|dep| text(&dep["pkg"])).collect(),
            )
        })
        .collect();
    let mut found = BTreeSet::new();
    let mut open = vec![root.to_owned()];
    while let Some(id) = open.pop() {
        if found.insert(id.clone()) {
            open.extend(needs[&id].iter().cloned());
        }
    }
    found
}
