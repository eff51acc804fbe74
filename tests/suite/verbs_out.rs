//! What the headless verbs write goes where it was asked for, and over nothing that would be lost.

use crate::verbs::{demo, run, text};
use equipour::store::DEMO;
use serde_json::Value;

#[test]
fn output_goes_to_a_file_when_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("figures.json");
    let path = demo();
    let output = run(&[
        "figures",
        &path.to_string_lossy(),
        "--json",
        "--out",
        &out.to_string_lossy(),
    ]);
    assert!(output.status.success() && output.stdout.is_empty());
    let written = std::fs::read_to_string(&out).expect("it was written");
    assert!(serde_json::from_str::<Value>(&written).is_ok());
    let nowhere = folder.path().join("no/such/folder.json");
    let output = run(&[
        "figures",
        &path.to_string_lossy(),
        "--out",
        &nowhere.to_string_lossy(),
    ]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("cannot write"));
}

#[test]
fn output_never_goes_over_the_document_and_keeps_what_else_was_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("twist.txt");
    std::fs::write(&path, DEMO).expect("written");
    let around = folder.path().join(".").join("twist.txt");
    for verb in ["figures", "rebalance", "sheet"] {
        let words = [&*path.to_string_lossy(), "--out", &around.to_string_lossy()];
        let output = run(&[&[verb], words.as_slice()].concat());
        assert_eq!(output.status.code(), Some(1), "{verb}");
        let said = text(&output.stderr);
        assert!(said.contains("it is the document itself"), "{said}");
        assert_eq!(std::fs::read_to_string(&path).expect("it is there"), DEMO);
    }
    let other = folder.path().join("other.ron");
    std::fs::write(&other, "another document").expect("written");
    let words = [&*path.to_string_lossy(), "--out", &other.to_string_lossy()];
    assert!(
        run(&[&["figures"], words.as_slice()].concat())
            .status
            .success()
    );
    let kept = std::fs::read_to_string(folder.path().join("other.ron.bak"));
    assert_eq!(kept.expect("it is kept"), "another document");
}
