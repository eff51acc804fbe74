//! Files of earlier formats open and are saved in today's format with nothing lost.

use equipour::model::Document;
use equipour::store::{document_text, read_document, save_document};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

const FORMAT_1: &str = include_str!("reference/format_1.ron");
const FORMAT_2: &str = include_str!("reference/format_2.ron");
const FORMAT_3: &str = include_str!("reference/format_3.ron");
const FORMAT_4: &str = include_str!("reference/format_4.ron");
const FORMAT_5: &str = include_str!("reference/format_5.ron");

/// The old file in a folder of its own.
fn old_file(old: &str) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.ron");
    fs::write(&path, old).expect("it can be written");
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

/// Opens it, saves it, opens it again: every line is still there.
fn keeps_everything(old: &str) {
    let (_folder, path) = old_file(old);
    let opened = read_document(&path).expect("it opens");
    assert_eq!(opened.read_only, None);
    assert!(opened.notices.is_empty(), "{:?}", opened.notices);
    save_document(&opened.document, &path).expect("it can be saved");
    let saved = fs::read_to_string(&path).expect("it is there");
    assert!(
        saved.contains("format: 6,"),
        "{}",
        saved.lines().nth(1).unwrap_or("")
    );
    let again = read_document(&path).expect("it opens");
    assert_eq!(again.document, opened.document);
    // Every line that was there is still there as often.
    let new = lines(&saved);
    for (line, count) in lines(old) {
        let kept = new.get(line).copied().unwrap_or(0);
        assert!(
            kept >= count,
            "{line} stood {count} times and stands {kept} times"
        );
    }
    // The file as it was is kept beside it.
    let before = fs::read_to_string(path.with_extension("ron.bak")).expect("it is kept");
    assert_eq!(before, old);
}

#[test]
fn a_file_of_format_1_opens_to_write_and_keeps_everything() {
    assert!(FORMAT_1.contains("format: 1,"));
    keeps_everything(FORMAT_1);
}

#[test]
fn a_file_of_format_2_opens_to_write_and_keeps_everything() {
    assert!(FORMAT_2.contains("format: 2,"));
    keeps_everything(FORMAT_2);
}

#[test]
fn a_file_of_format_5_opens_to_write_and_keeps_everything() {
    assert!(FORMAT_5.contains("format: 5,"));
    keeps_everything(FORMAT_5);
}

#[test]
fn a_file_of_format_3_opens_to_write_and_keeps_everything() {
    assert!(FORMAT_3.contains("format: 3,"));
    keeps_everything(FORMAT_3);
}

#[test]
fn a_file_of_format_4_opens_to_write_and_keeps_everything() {
    assert!(FORMAT_4.contains("format: 4,"));
    keeps_everything(FORMAT_4);
}

#[test]
fn what_format_1_did_not_know_stands_at_its_usual_value() {
    let (_folder, path) = old_file(FORMAT_1);
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

#[test]
fn what_format_2_did_not_know_stands_at_its_usual_value() {
    let (_folder, path) = old_file(FORMAT_2);
    let document = read_document(&path).expect("it opens").document;
    assert_eq!(document.jiggers_ml, Document::default().jiggers_ml);
    for spec in &document.specs {
        assert!(spec.bounds.is_blank());
        let target = spec.target.as_ref();
        assert!(target.is_none_or(|target| target.parts.is_empty()));
        let pours = spec.trials.iter().flat_map(|trial| &trial.pours);
        assert!(pours.into_iter().all(|pour| !pour.limits_off));
    }
    let text = document_text(&document).expect("it can be written");
    for new in ["jiggers_ml:", "bounds:", "parts:", "limits_off:"] {
        assert!(!text.contains(new), "{new}");
    }
}

#[test]
fn what_format_3_did_not_know_stands_at_its_usual_value() {
    let (_folder, path) = old_file(FORMAT_3);
    let document = read_document(&path).expect("it opens").document;
    assert!(document.preparations.is_empty());
    for item in document.ingredients.values() {
        assert_eq!((item.starch_g, item.glycerol_g), (None, None));
        assert_eq!((item.acids.ascorbic, item.acids.succinic), (None, None));
    }
    for lot in document.lots.values() {
        let added = lot.weighed_in.unwrap_or_default();
        assert_eq!((added.ascorbic_g, added.succinic_g), (0.0, 0.0));
    }
    let text = document_text(&document).expect("it can be written");
    for new in ["preparations:", "starch_g:", "glycerol_g:", "ascorbic:"] {
        assert!(!text.contains(new), "{new}");
    }
}

#[test]
fn a_preparation_of_an_old_file_has_the_outputs_that_were_written_and_no_steps() {
    for old in [FORMAT_1, FORMAT_2, FORMAT_3] {
        // All that earlier formats could say of a preparation: its name and its outputs.
        let old = old.replacen(
            "    specs: [",
            "    preparations: {
      \"syrup\": (
        name: \"House syrup\",
        outputs: {
          \"syrup\": \"quince-syrup\",
          \"by hand\": \"quince-syrup\",
        },
      ),
    },
    specs: [",
            1,
        );
        keeps_everything(&old);
        let (_folder, path) = old_file(&old);
        let document = read_document(&path).expect("it opens").document;
        let made = &document.preparations[&"syrup".into()];
        assert_eq!(made.name, "House syrup");
        assert_eq!(made.outputs["by hand"], "quince-syrup".into());
        assert!(!made.is_worked_out() && made.inputs.is_empty());
        assert_eq!(
            made.main_output(),
            Some(("by hand", &"quince-syrup".into()))
        );
    }
}
