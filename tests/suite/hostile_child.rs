//! A process of its own that opens one hostile file as the program would, and says how much memory it
//! took at most.
#![expect(
    clippy::print_stdout,
    reason = "the process answers the one that started it"
)]

use crate::sample_drinks::builtin;
use equipour::model::Document;
use equipour::session::{Session, document_as_text, house_view};
use equipour::store::{
    guess, import_recipe, ingredients, read_rule_set, read_sheet, recipe_text, table_text,
    thumbnail,
};
use equipour::units::Measures;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

/// The file that the process opens, and as what.
const FILE: &str = "HOSTILE_FILE";
const KIND: &str = "HOSTILE_KIND";
/// What stands before its answer and before its peak, in kB.
const SAID: &str = "said: ";
const PEAK: &str = "VmHWM:";
/// Most that any input may take, kB.
const MOST_KB: u64 = 300 * 1024;

/// What a file is opened as.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    Document,
    Table,
    Recipe,
    Rules,
    Photo,
}

/// What a process of its own says of a file; fails when it breaks down or takes more than 300 MB.
pub(crate) fn opened(kind: Kind, path: &Path) -> String {
    let output = Command::new(std::env::current_exe().expect("these tests"))
        .args(["hostile_child::a_hostile_file_is_opened", "--exact"])
        .args(["--ignored", "--nocapture", "--test-threads=1"])
        .env(FILE, path)
        .env(KIND, format!("{kind:?}"))
        .output()
        .expect("it starts");
    let told = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "{kind:?} broke down: {told}{errors}"
    );
    let after = |mark: &str| {
        told.lines()
            .find_map(|line| Some(line.split_once(mark)?.1.trim()))
    };
    // Where the system does not tell the peak, only the answer is looked at.
    if let Some(peak) = after(PEAK) {
        let kb: u64 = peak.trim_end_matches("kB").trim().parse().expect("kB");
        println!(
            "{kind:?}: {} MB: {}",
            kb / 1024,
            after(SAID).unwrap_or_default()
        );
        assert!(kb < MOST_KB, "{kind:?} took {} MB: {told}", kb / 1024);
    }
    after(SAID).expect("it answers").to_owned()
}

/// The same for a text.
pub(crate) fn told(kind: Kind, text: impl AsRef<[u8]>) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("hostile.ron");
    fs::write(&path, text).expect("it can be written");
    opened(kind, &path)
}

#[test]
#[ignore = "run by other tests, in a process of its own"]
fn a_hostile_file_is_opened() {
    let path = std::env::var_os(FILE).expect("a file");
    let kind = std::env::var(KIND).expect("its kind");
    let said = open(&kind, Path::new(&path)).unwrap_or_else(|error| error);
    println!("\n{SAID}{}", said.replace('\n', " "));
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find(|line| line.starts_with(PEAK));
    println!("{}", peak.unwrap_or_default());
}

fn open(kind: &str, path: &Path) -> Result<String, String> {
    let failed = |error: &dyn std::fmt::Display| error.to_string();
    match kind {
        "Document" => document(path),
        "Table" => {
            let text = table_text(path).map_err(|error| failed(&error))?;
            let sheet = read_sheet(&text, None, None).map_err(|error| failed(&error))?;
            match ingredients(&sheet, &guess(&sheet), &Document::default()) {
                Ok(items) => Ok(format!("{} ingredients", items.len())),
                Err(refusal) => Err(refusal.errors[0].to_string()),
            }
        }
        "Recipe" => {
            let text = recipe_text(path).map_err(|error| failed(&error))?;
            let found = import_recipe(&text, &builtin().larder, &Measures::default());
            let found = found.map_err(|error| failed(&error))?;
            let (lines, steps) = (found.lines.len(), found.method.len());
            Ok(format!("{lines} lines, {steps} steps"))
        }
        "Rules" => {
            let set = read_rule_set(path).map_err(|error| failed(&error))?;
            Ok(format!("{} rules", set.rules.len()))
        }
        _ => {
            let bytes = fs::read(path).map_err(|error| failed(&error))?;
            let small = thumbnail(&bytes, 256).ok_or("no picture that can be shown")?;
            Ok(format!("{} by {}", small.size[0], small.size[1]))
        }
    }
}

/// Opens a document, works out what the window would show first, and one preparation.
fn document(path: &Path) -> Result<String, String> {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(path).map_err(|error| error.to_string())?;
    session.refresh();
    let text = document_as_text(&session);
    let document = session.document();
    if let Some(id) = document.preparations.keys().next() {
        let view = house_view(document, id);
        assert!(view.is_some(), "a preparation without a page");
    }
    let trials: usize = document.specs.iter().map(|spec| spec.trials.len()).sum();
    let made = document.preparations.len();
    assert!(!text.is_empty());
    Ok(format!("{trials} trials, {made} preparations"))
}
