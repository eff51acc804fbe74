//! Saving and opening: nothing is lost, nothing is half written.

use crate::random_edits::any_draws;
use crate::sample_drinks::{SHAKEN, builtin, document, point, sour};
use equipour::model::Document;
use equipour::session::{SaveOutcome, SaveWhere, Session};
use equipour::store::{SaveError, document_text, read_document, read_text, save_document};
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::TempDir;

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn sample() -> Document {
    document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)))
}

/// The sample under another title.
fn titled(title: &str) -> Document {
    Document {
        title: title.to_owned(),
        ..sample()
    }
}

/// A folder with the sample saved in it.
fn saved() -> (TempDir, PathBuf) {
    let folder = folder();
    let path = folder.path().join("sour.ron");
    save_document(&sample(), &path).expect("it can be saved");
    (folder, path)
}

/// Names of everything in a folder, in order.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("it can be listed");
    let mut names: Vec<String> = entries
        .map(|entry| {
            entry
                .expect("it is there")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_saved_document_opens_as_it_was_and_saves_to_the_same_bytes(draws in any_draws(40)) {
        let mut session = Session::new(Arc::clone(builtin()), sample());
        for draw in &draws {
            let edit = draw.edit(session.document());
            // Edits that must be refused are drawn as well.
            let _refused = session.edit(&edit).is_err();
        }
        let folder = folder();
        let path = folder.path().join("twist.ron");
        save_document(session.document(), &path).expect("it can be saved");
        let opened = read_document(&path).expect("it can be opened");
        prop_assert_eq!(&opened.document, &**session.document());
        prop_assert!(opened.read_only.is_none() && opened.notices.is_empty());
        let bytes = fs::read(&path).expect("it is there");
        let again = document_text(&opened.document).expect("it can be written");
        prop_assert_eq!(String::from_utf8(bytes).expect("UTF-8"), again);
    }
}

#[test]
fn an_empty_document_and_one_without_pours_open_again() {
    let folder = folder();
    for document in [Document::default(), document(Vec::new(), SHAKEN, None)] {
        let path = folder.path().join(format!("{}.ron", document.title));
        save_document(&document, &path).expect("it can be saved");
        assert_eq!(read_document(&path).expect("it opens").document, document);
    }
}

#[test]
fn saving_keeps_the_previous_version_and_leaves_nothing_else_behind() {
    let (folder, path) = saved();
    assert_eq!(names(folder.path()), ["sour.ron"]);
    let first = fs::read(&path).expect("it is there");
    save_document(&titled("Second"), &path).expect("it can be saved");
    assert_eq!(names(folder.path()), ["sour.ron", "sour.ron.bak"]);
    assert_eq!(
        fs::read(path.with_extension("ron.bak")).expect("it is there"),
        first
    );
    let second = fs::read(&path).expect("it is there");
    save_document(&titled("Third"), &path).expect("it can be saved");
    assert_eq!(
        fs::read(path.with_extension("ron.bak")).expect("it is there"),
        second
    );
    assert_eq!(names(folder.path()).len(), 2);
}

#[test]
fn a_document_that_could_not_be_read_back_is_not_saved() {
    let (folder, path) = saved();
    let before = fs::read(&path).expect("it is there");
    let mut document = sample();
    document.senses.sour.weber = f64::NAN;
    let error = save_document(&document, &path).expect_err("it cannot be saved");
    assert_eq!(
        error.to_string(),
        "the document cannot be saved: senses.sour.weber: is not a finite number"
    );
    assert_eq!(fs::read(&path).expect("it is there"), before);
    assert_eq!(names(folder.path()), ["sour.ron"]);
}

#[test]
fn a_file_changed_by_somebody_else_is_not_written_over_unasked() {
    let (_folder, path) = saved();
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it opens");
    let theirs = document_text(&titled("Theirs, with a longer title")).expect("it can be written");
    fs::write(&path, &theirs).expect("it can be written");
    let title = "Mine".to_owned();
    session
        .edit(&equipour::session::Edit::SetTitle { title })
        .expect("it can be renamed");
    let outcome = session.save(&SaveWhere::Same);
    let SaveOutcome::Contested(_, error @ SaveError::ChangedOutside) = outcome else {
        panic!("{outcome:?}");
    };
    assert_eq!(
        error.to_string(),
        "was changed by someone else since it was opened"
    );
    assert_eq!(fs::read_to_string(&path).expect("it is there"), theirs);
    assert!(session.is_dirty());
    assert!(matches!(
        session.save(&SaveWhere::SameAnyway),
        SaveOutcome::Saved(_)
    ));
    assert_eq!(
        read_document(&path).expect("it opens").document.title,
        "Mine"
    );
    let backup = fs::read_to_string(path.with_extension("ron.bak")).expect("it is kept");
    assert_eq!(backup, theirs);
    assert!(!session.is_dirty());
}

#[test]
fn a_file_that_is_no_document_is_not_written_over() {
    let folder = folder();
    let path = folder.path().join("diary.txt");
    fs::write(&path, "Dear diary,\ntoday I shook a sour.\n").expect("it can be written");
    let before = fs::read(&path).expect("it is there");
    let error = save_document(&sample(), &path).expect_err("it is left alone");
    assert!(matches!(error, SaveError::WouldLose(_)), "{error:?}");
    assert!(
        error.to_string().starts_with(
            "holds something that could not be read, so it is left alone: line 1, column "
        ),
        "{error}"
    );
    assert_eq!(fs::read(&path).expect("it is there"), before);
    assert_eq!(names(folder.path()), ["diary.txt"]);
}

#[test]
fn a_folder_that_is_missing_or_in_the_way_is_named() {
    let folder = folder();
    let missing = folder.path().join("no such folder").join("sour.ron");
    let error = save_document(&sample(), &missing).expect_err("there is no folder");
    let said = error.to_string();
    assert!(said.starts_with("cannot save: "), "{said}");
    assert!(said.contains("no such folder does not exist"), "{said}");
    assert!(said.contains(&missing.display().to_string()), "{said}");
    assert_eq!(names(folder.path()), [""; 0]);
    let error = save_document(&sample(), folder.path()).expect_err("it is a folder");
    assert!(error.to_string().contains("is not a file"), "{error}");
}

#[test]
fn an_untitled_document_asks_for_a_name() {
    let mut session = Session::new(Arc::clone(builtin()), sample());
    for to in [SaveWhere::Same, SaveWhere::SameAnyway] {
        assert!(matches!(session.save(&to), SaveOutcome::NeedsName));
    }
}

#[test]
fn a_failed_save_leaves_the_session_as_it_was() {
    let (folder, path) = saved();
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it opens");
    let title = "Mine".to_owned();
    session
        .edit(&equipour::session::Edit::SetTitle { title })
        .expect("it can be renamed");
    let missing = folder.path().join("gone").join("sour.ron");
    assert!(matches!(
        session.save(&SaveWhere::At(missing)),
        SaveOutcome::Failed(_)
    ));
    assert!(session.is_dirty());
    assert_eq!(session.path(), Some(&path));
    let error = session
        .open(&folder.path().join("nothing.ron"))
        .expect_err("it is not there");
    assert!(error.to_string().contains("nothing.ron"), "{error}");
    assert_eq!(session.document().title, "Mine");
}

#[test]
fn text_that_says_the_same_in_another_layout_opens_as_the_same_document() {
    let text = document_text(&sample()).expect("it can be written");
    let folded: String = text.lines().map(str::trim).collect::<Vec<_>>().join(" ");
    let opened = read_text(&folded).expect("layout does not matter");
    assert_eq!(opened.document, sample());
    let noted = text.replacen("title:", "// a remark of mine\n    title:", 1);
    assert_eq!(
        read_text(&noted).expect("remarks do not matter").document,
        sample()
    );
}

#[cfg(unix)]
mod on_unix {
    use super::{folder, names, sample, saved, titled};
    use equipour::store::{read_document, save_document};
    use std::fs;
    use std::os::unix::fs::{PermissionsExt as _, symlink};

    #[test]
    fn permissions_stay_as_they_were() {
        let (_folder, path) = saved();
        for mode in [0o600, 0o640, 0o664] {
            fs::set_permissions(&path, fs::Permissions::from_mode(mode)).expect("they can be set");
            save_document(&titled("Again"), &path).expect("it can be saved");
            let facts = fs::metadata(&path).expect("it is there");
            assert_eq!(facts.permissions().mode() & 0o777, mode);
        }
    }

    #[test]
    fn a_link_keeps_pointing_at_its_file() {
        let (folder, path) = saved();
        let elsewhere = super::folder();
        let link = elsewhere.path().join("link.ron");
        symlink(&path, &link).expect("it can be linked");
        save_document(&titled("Through the link"), &link).expect("it can be saved");
        let facts = fs::symlink_metadata(&link).expect("it is there");
        assert!(facts.file_type().is_symlink());
        let title = read_document(&path).expect("it opens").document.title;
        assert_eq!(title, "Through the link");
        assert_eq!(names(folder.path()), ["sour.ron"]);
    }

    #[test]
    fn a_link_to_a_file_that_is_gone_is_not_replaced() {
        let folder = folder();
        let (target, link) = (
            folder.path().join("target.ron"),
            folder.path().join("link.ron"),
        );
        symlink(&target, &link).expect("it can be linked");
        save_document(&sample(), &link).expect("it can be saved");
        assert!(
            fs::symlink_metadata(&link)
                .expect("it is there")
                .file_type()
                .is_symlink()
        );
        assert_eq!(read_document(&target).expect("it opens").document, sample());
    }

    #[test]
    fn a_write_protected_document_is_left_alone() {
        let (folder, path) = saved();
        let before = fs::read(&path).expect("it is there");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).expect("they can be set");
        let error = save_document(&titled("Once"), &path).expect_err("it is protected");
        let said = error.to_string();
        assert!(said.starts_with("the file is write-protected; "), "{said}");
        assert!(said.contains("save under another name"), "{said}");
        assert_eq!(fs::read(&path).expect("it is there"), before);
        assert_eq!(names(folder.path()), ["sour.ron"]);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o644)).expect("they can be set");
        for title in ["Once", "Twice"] {
            save_document(&titled(title), &path).expect("it may be written");
        }
        assert_eq!(
            read_document(&path).expect("it opens").document.title,
            "Twice"
        );
    }
}
