//! Files and folders of other people: what may not be written is said and left alone.
#![cfg(unix)]

use crate::child;
use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::Document;
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::{
    Autosave, Folders, Marking, OpenMarks, SaveError, Settings, backup_path, load_settings,
    read_document, save_document, save_settings,
};
use std::fs;
use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::tempdir;

/// The person nobody, who owns nothing.
const NOBODY: u32 = 65_534;
const AS_NOBODY: [&str; 4] = [
    "setpriv",
    "--reuid=65534",
    "--regid=65534",
    "--clear-groups",
];

fn sample() -> Document {
    document(sour(), SHAKEN, None)
}

/// A document of ours in a folder of its own, with their permissions.
fn put(home: &Path, name: &str, folder_mode: u32, file_mode: u32) {
    let folder = home.join(name);
    fs::create_dir(&folder).expect("it can be made");
    let path = folder.join("sour.ron");
    save_document(&sample(), &path).expect("it can be saved");
    let set = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("they can be set");
    };
    set(&path, file_mode);
    set(&folder, folder_mode);
}

/// Opens, changes and saves the document of a folder.
fn saved(home: &Path, name: &str) -> (Session, SaveOutcome) {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&document_in(home, name)).expect("it opens");
    let title = "Mine".to_owned();
    session.edit(&Edit::SetTitle { title }).expect("it stands");
    let outcome = session.save(&SaveWhere::Same);
    (session, outcome)
}

fn document_in(home: &Path, name: &str) -> PathBuf {
    home.join(name).join("sour.ron")
}

#[test]
#[ignore = "a process of its own that another test starts as another person"]
fn a_person_who_owns_nothing() {
    let Some(home) = child::folder() else {
        return;
    };
    // A file that only its owner may write is not replaced, though the folder would allow it.
    for name in ["file of another", "read-only folder and file"] {
        let (session, outcome) = saved(&home, name);
        assert!(
            matches!(
                outcome,
                SaveOutcome::Failed(SaveError::WriteProtected { .. })
            ),
            "{name}: {outcome:?}"
        );
        assert!(session.is_dirty());
    }
    let (mut session, outcome) = saved(&home, "read-only folder");
    let SaveOutcome::Failed(error @ SaveError::Unwritable { .. }) = outcome else {
        panic!("{outcome:?}");
    };
    assert!(error.to_string().contains("Permission denied"), "{error}");
    assert!(!error.to_string().contains(".equipour-"), "{error}");
    // The work can go elsewhere.
    let to = document_in(&home, "open to all").with_file_name("mine.ron");
    let outcome = session.save(&SaveWhere::At(to));
    assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
    let (_, outcome) = saved(&home, "open to all");
    assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
    let error = read_document(&document_in(&home, "unreadable")).expect_err("it may not be read");
    assert!(error.to_string().contains("Permission denied"), "{error}");
    // The system lets nobody rename over a file of another there: the older version stays as well.
    let (_, outcome) = saved(&home, "sticky");
    let SaveOutcome::Failed(error @ SaveError::Unwritable { .. }) = outcome else {
        panic!("{outcome:?}");
    };
    assert!(
        error.to_string().contains("not permitted"),
        "renaming is what failed: {error}"
    );
    // The program's own folders may not be written: that is said, and the rest works.
    let folders = Folders::below(&home.join("read-only folder"));
    let error = Autosave::start(&folders).expect_err("it may not be written");
    assert_eq!(error.kind(), std::io::ErrorKind::PermissionDenied);
    save_settings(&Settings::default(), &folders.settings_file()).expect_err("nor may these");
    assert_eq!(load_settings(&folders.settings_file()).1, None);
    let mark = OpenMarks::in_folder(&folders).mark(&document_in(&home, "open to all"));
    assert!(matches!(mark, Marking::Unknown), "{mark:?}");
}

#[test]
#[expect(clippy::print_stderr, reason = "says why it cannot be tested here")]
fn what_belongs_to_others_is_written_only_where_they_allow_it() {
    let home = tempdir().expect("a folder");
    let mine = fs::metadata(home.path()).expect("it is there").uid();
    if mine != 0 {
        eprintln!("not tested: only root can be another person");
        return;
    }
    let set = fs::set_permissions(home.path(), fs::Permissions::from_mode(0o755));
    set.expect("they can be set");
    put(home.path(), "file of another", 0o777, 0o644);
    put(home.path(), "read-only folder and file", 0o755, 0o644);
    put(home.path(), "read-only folder", 0o755, 0o666);
    put(home.path(), "open to all", 0o777, 0o666);
    put(home.path(), "unreadable", 0o755, 0o600);
    put(home.path(), "sticky", 0o1777, 0o666);
    let older = backup_path(&document_in(home.path(), "sticky"));
    fs::write(&older, "older").expect("written");
    std::os::unix::fs::chown(&older, Some(NOBODY), None).expect("root may");
    let ran = child::run(
        &AS_NOBODY,
        "files_of_others::a_person_who_owns_nothing",
        home.path(),
    );
    if matches!(ran.status.code(), Some(126 | 127)) {
        eprintln!("not tested: another person may not run this program");
        return;
    }
    let said = String::from_utf8_lossy(&ran.stdout).into_owned();
    let errors = String::from_utf8_lossy(&ran.stderr).into_owned();
    assert!(
        ran.status.success() && said.contains("1 passed"),
        "{said}{errors}"
    );
    for name in [
        "file of another",
        "read-only folder and file",
        "read-only folder",
        "unreadable",
    ] {
        let path = document_in(home.path(), name);
        assert_eq!(read_document(&path).expect("it opens").document, sample());
        let folder = fs::read_dir(home.path().join(name)).expect("it can be listed");
        assert_eq!(folder.count(), 1, "{name}: nothing is left behind");
    }
    let path = document_in(home.path(), "sticky");
    assert_eq!(read_document(&path).expect("it opens").document, sample());
    assert_eq!(fs::read_to_string(&older).expect("text"), "older");
    let folder = fs::read_dir(home.path().join("sticky")).expect("it can be listed");
    assert_eq!(folder.count(), 2, "nothing is left behind");
    let path = document_in(home.path(), "open to all");
    let facts = fs::metadata(&path).expect("it is there");
    assert_eq!(facts.permissions().mode() & 0o777, 0o666, "as it was");
    assert_eq!(facts.uid(), NOBODY, "who replaced it");
    assert_eq!(
        read_document(&path).expect("it opens").document.title,
        "Mine"
    );
}
