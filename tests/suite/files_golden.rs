//! A file of every format lies here, so that a later program is held to it.

use equipour::store::{FORMAT, document_text, read_document, read_text};
use std::fs;
use std::path::{Path, PathBuf};

fn golden(format: u32) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suite/reference");
    folder.join(format!("format_{format}.ron"))
}

fn text(format: u32) -> String {
    let path = golden(format);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The text without the line that names the program's version, which changes with every release.
fn without_writer(text: &str) -> String {
    let lines = text
        .lines()
        .filter(|line| !line.trim().starts_with("writer:"));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_format_up_to_the_present_one_has_its_file_and_opens() {
    for format in 1..=FORMAT {
        assert!(text(format).contains(&format!("format: {format},")));
        let opened = read_document(&golden(format)).expect("it opens");
        assert_eq!(opened.read_only, None, "format {format}");
        assert!(!opened.document.specs.is_empty(), "format {format}");
    }
    let next = golden(FORMAT + 1);
    assert!(!next.exists(), "{} is not a format yet", next.display());
}

#[test]
fn the_file_of_the_present_format_is_written_again_byte_for_byte() {
    let text = text(FORMAT);
    let document = read_text(&text).expect("it opens").document;
    let again = document_text(&document).expect("it can be written");
    assert_eq!(without_writer(&again), without_writer(&text));
    assert_eq!(read_text(&again).expect("it opens").document, document);
}

#[test]
fn the_file_of_the_present_format_says_all_that_the_format_brought() {
    let text = text(FORMAT);
    for field in [
        "rule_sets:",
        "entry:",
        "service:",
        "stage:",
        "shape:",
        "tastings:",
        "preparations:",
        "lots:",
        "weighings:",
        "target:",
        "bounds:",
        "bin:",
        "photos:",
        "jiggers_ml:",
        "own_dilution:",
    ] {
        assert!(text.contains(field), "{field}");
    }
}
