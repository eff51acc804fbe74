//! Files of a later version: shown with what is known of them, never written over.

use crate::files_damaged::{changed, open, refused, sample};
use crate::sample_drinks::{TRIAL, builtin};
use equipour::model::{Document, MadeBy};
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::save_document;
use std::fs;
use std::sync::Arc;

/// The sample as a later version might write it, with fields that nobody knows yet.
fn newer() -> String {
    let (text, _) = changed("format: 6", "format: 7");
    text.replacen("equipour 0.1.0", "equipour 9.0.0", 1)
        .replacen(
            "title:",
            "mood: Blue(1, [\"),(\\\"]\"], {2: 'x'}),\n    title:",
            1,
        )
        .replace(
            "locked: false,",
            "locked: false, garnish: \"mint, (fresh)\",",
        )
}

#[test]
fn a_newer_file_opens_read_only_and_its_unknown_fields_are_named() {
    let opened = open(newer().as_bytes()).expect("what is known can be shown");
    assert_eq!(opened.document, sample());
    let why = "written by \"equipour 9.0.0\" in format 7, newer than this program";
    assert_eq!(opened.read_only.as_deref(), Some(why));
    assert_eq!(
        opened.notices,
        [
            format!("Opened read-only: {why}."),
            "Fields not known here: mood, garnish.".to_owned()
        ]
    );
    let said = refused(newer().replacen("Ml(22.5)", "Ml(-1)", 1));
    assert!(
        said.ends_with("specs[0].trials[0].pours[1].amount: -1 is negative"),
        "{said}"
    );
    let said = refused(newer().replacen("specs: [", "specs: Many [", 1));
    assert!(!said.is_empty());
}

#[test]
fn a_newer_file_is_never_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sour.ron");
    fs::write(&path, newer()).expect("it can be written");
    let error = save_document(&sample(), &path).expect_err("it is newer");
    assert_eq!(
        error.to_string(),
        "is written by \"equipour 9.0.0\" in format 7, newer than this program, so it is left alone"
    );
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it can be looked at");
    let edit = Edit::GrowTrial {
        from: TRIAL,
        reason: String::new(),
        changes: vec![],
        made_by: MadeBy::Hand,
    };
    let error = session.edit(&edit).expect_err("it is read-only");
    assert!(
        error
            .to_string()
            .starts_with("the document is open read-only: written by")
    );
    assert_eq!(
        session.refusal(&edit),
        Some(error),
        "asked before it is done"
    );
    for to in [
        SaveWhere::Same,
        SaveWhere::SameAnyway,
        SaveWhere::At(path.clone()),
    ] {
        assert!(
            matches!(session.save(&to), SaveOutcome::NeedsName),
            "{to:?}"
        );
    }
    // The same file by another path.
    let around = folder
        .path()
        .join(".")
        .join("..")
        .join(folder.path().file_name().expect("it has a name"));
    let outcome = session.save(&SaveWhere::AtAnyway(around.join("sour.ron")));
    assert!(matches!(outcome, SaveOutcome::Failed(_)), "{outcome:?}");
    assert_eq!(fs::read_to_string(&path).expect("it is there"), newer());
    let copy = folder.path().join("copy.ron");
    assert!(matches!(
        session.save(&SaveWhere::At(copy)),
        SaveOutcome::Saved(_)
    ));
    session.edit(&edit).expect("a copy may be changed");
}
