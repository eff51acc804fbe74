//! A file of format 1 opens and is saved in today's format with nothing lost.

use equipour::store::{document_text, read_document, save_document};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

const OLD: &str = include_str!("reference/format_1.ron");

/// The old file in a folder of its own.
fn old_file() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.ron");
    fs::write(&path, OLD).expect("it can be written");
    (folder, path)
}

/// Every line of a file but its format number, and how often it stands there.
fn lines(text: &str) -> BTreeMap<&str, usize> {
    let mut counted = BTreeMap::new();
    for line in text.lines().map(str::trim) {
        if !line.starts_with("format:") {
            *counted.entry(line).or_insert(0) += 1;
        }
    }
    counted
}

#[test]
fn a_file_of_format_1_opens_to_write_and_keeps_everything() {
    assert!(OLD.contains("format: 1,"));
    let (_folder, path) = old_file();
    let opened = read_document(&path).expect("it opens");
    assert_eq!(opened.read_only, None);
    assert!(opened.notices.is_empty(), "{:?}", opened.notices);
    save_document(&opened.document, &path).expect("it can be saved");
    let saved = fs::read_to_string(&path).expect("it is there");
    assert!(
        saved.contains("format: 3,"),
        "{}",
        saved.lines().nth(1).unwrap_or("")
    );
    let again = read_document(&path).expect("it opens");
    assert_eq!(again.document, opened.document);
    // Every line that was there is still there as often.
    let new = lines(&saved);
    for (line, count) in lines(OLD) {
        let kept = new.get(line).copied().unwrap_or(0);
        assert!(
            kept >= count,
            "{line} stood {count} times and stands {kept} times"
        );
    }
    // The file as it was is kept beside it.
    let before = fs::read_to_string(path.with_extension("ron.bak")).expect("it is kept");
    assert_eq!(before, OLD);
}

#[test]
fn what_format_1_did_not_know_stands_at_its_usual_value() {
    let (_folder, path) = old_file();
    let document = read_document(&path).expect("it opens").document;
    assert!(document.lots.is_empty() && document.weighings.is_empty());
    assert!(document.uncalibrated.is_empty());
    assert_eq!(document.precision, equipour::model::Precision::default());
    let trials = document.specs.iter().flat_map(|spec| &spec.trials);
    for trial in trials {
        assert_eq!(trial.technique.chilling, equipour::model::Chilling::USUAL);
        assert!(trial.pours.iter().all(|pour| pour.place.is_none()));
    }
    let text = document_text(&document).expect("it can be written");
    assert!(!text.contains("chilling") && !text.contains("weighings"));
}
