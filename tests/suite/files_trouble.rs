//! What file systems do to people: full disks, links, long names, folders in the way.
#![cfg(unix)]

use crate::child;
use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::Document;
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::{
    Autosave, Folders, SaveError, SaveOnto, backup_path, photo_folder, read_document, recoverable,
    save_document, save_unless,
};
use std::fs;
use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _, symlink};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, SystemTime};
use tempfile::{TempDir, tempdir};

fn titled(title: &str) -> Document {
    Document {
        title: title.to_owned(),
        ..document(sour(), SHAKEN, None)
    }
}

fn title_of(path: &Path) -> String {
    read_document(path).expect("it opens").document.title
}

/// A folder with a document that was saved twice.
fn saved() -> (TempDir, PathBuf) {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sour.ron");
    for title in ["First", "Second"] {
        save_document(&titled(title), &path).expect("it can be saved");
    }
    (folder, path)
}

fn count(folder: &Path) -> usize {
    fs::read_dir(folder).expect("it can be listed").count()
}

/// Opens the document, changes it and saves: the session stays as it was, and gives the reason.
fn refused(path: &Path) -> (Session, SaveError) {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(path).expect("it opens");
    let title = "Mine".to_owned();
    session.edit(&Edit::SetTitle { title }).expect("it stands");
    let outcome = session.save(&SaveWhere::Same);
    let SaveOutcome::Failed(error) = outcome else {
        panic!("{outcome:?}");
    };
    assert!(session.is_dirty());
    assert_eq!(session.document().title, "Mine");
    (session, error)
}

#[test]
#[ignore = "a process of its own that another test starts under a limit"]
fn a_disk_that_is_full() {
    let Some(folder) = child::folder() else {
        return;
    };
    let (_session, error) = refused(&folder.join("sour.ron"));
    assert!(error.to_string().starts_with("cannot save: "), "{error}");
    assert!(!error.to_string().contains(".equipour-"), "{error}");
    let autosave = Autosave::start(&Folders::below(&folder.join("home"))).expect("it starts");
    autosave.keep(Arc::new(titled("Unsaved")), None);
    let said = (0..500).find_map(|_| {
        std::thread::sleep(Duration::from_millis(10));
        autosave.failures().pop()
    });
    let said = said.expect("it is said");
    assert!(
        said.starts_with("Unsaved work could not be kept: "),
        "{said}"
    );
}

#[test]
fn a_full_disk_leaves_the_file_its_backup_and_the_work_as_they_were() {
    let (folder, path) = saved();
    // No file may grow beyond one or two KB, which is how a full disk looks to the program.
    let limit = "trap '' XFSZ; ulimit -f 2; exec \"$@\"";
    let wrap = ["sh", "-c", limit, "sh"];
    child::passes(&wrap, "files_trouble::a_disk_that_is_full", folder.path());
    assert_eq!(title_of(&path), "Second");
    assert_eq!(title_of(&backup_path(&path)), "First");
    assert_eq!(count(folder.path()), 3, "the file, its backup, the home");
}

#[test]
fn autosave_goes_on_by_itself_once_the_trouble_is_over() {
    let home = tempdir().expect("a folder");
    let folders = Folders::below(home.path());
    let autosave = Autosave::start(&folders).expect("it starts");
    let lock = fs::read_dir(folders.unsaved()).expect("it can be listed");
    let lock = lock.flatten().next().expect("a lock").path();
    // A folder stands where the work should go.
    let in_the_way = lock.with_extension("ron");
    fs::create_dir(&in_the_way).expect("it can be made");
    autosave.keep(Arc::new(titled("Unsaved")), None);
    std::thread::sleep(Duration::from_millis(300));
    assert_eq!(autosave.failures().len(), 1, "it is said once");
    fs::remove_dir(&in_the_way).expect("it can be removed");
    for _ in 0..1_000 {
        if in_the_way.exists() {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    assert_eq!(autosave.failures(), [""; 0], "the same reason is said once");
    drop(autosave);
    let (found, _) = recoverable(&folders);
    assert_eq!(found[0].document.title, "Unsaved");
}

#[test]
fn giving_up_costs_neither_the_file_nor_the_version_before() {
    let (folder, path) = saved();
    let given_up = AtomicBool::new(true);
    let error = save_unless(&titled("Third"), &path, SaveOnto::AnyDocument, &given_up);
    assert!(matches!(error, Err(SaveError::GivenUp)), "{error:?}");
    assert_eq!(title_of(&path), "Second");
    assert_eq!(title_of(&backup_path(&path)), "First");
    assert_eq!(count(folder.path()), 2, "nothing is left behind");
    given_up.store(false, Ordering::Relaxed);
    save_unless(&titled("Third"), &path, SaveOnto::AnyDocument, &given_up).expect("it saves");
    assert_eq!(title_of(&backup_path(&path)), "Second");
    assert_eq!(count(folder.path()), 2, "nothing is left behind");
}

#[test]
fn a_folder_that_takes_the_place_of_the_file_is_named_and_stays() {
    let (_folder, path) = saved();
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it opens");
    fs::remove_file(&path).expect("it can be removed");
    fs::create_dir(&path).expect("it can be made");
    for to in [SaveWhere::Same, SaveWhere::SameAnyway] {
        let outcome = session.save(&to);
        let SaveOutcome::Failed(error @ SaveError::NotAFile { .. }) = outcome else {
            panic!("{outcome:?}");
        };
        assert!(error.to_string().contains("is not a file"), "{error}");
    }
    assert!(path.is_dir());
}

#[test]
fn a_folder_that_was_deleted_is_named_and_the_work_can_go_elsewhere() {
    let (folder, path) = saved();
    let elsewhere = tempdir().expect("a folder");
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.open(&path).expect("it opens");
    folder.close().expect("it can be removed");
    let outcome = session.save(&SaveWhere::Same);
    let SaveOutcome::Failed(error) = outcome else {
        panic!("{outcome:?}");
    };
    assert!(error.to_string().contains("does not exist"), "{error}");
    let to = elsewhere.path().join("sour.ron");
    let outcome = session.save(&SaveWhere::At(to.clone()));
    assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
    assert_eq!(title_of(&to), "Second");
}

#[test]
fn another_name_of_the_file_keeps_the_version_before() {
    let (folder, path) = saved();
    let other = folder.path().join("other.ron");
    fs::hard_link(&path, &other).expect("it can be linked");
    save_document(&titled("Third"), &path).expect("it can be saved");
    assert_eq!(title_of(&path), "Third");
    assert_eq!(title_of(&other), "Second", "whole, and not half of each");
    assert_eq!(title_of(&backup_path(&path)), "Second");
}

#[test]
fn links_over_links_lead_to_a_file_that_is_not_there_yet() {
    let folder = tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("deep")).expect("it can be made");
    symlink("deep/target.ron", at("second.ron")).expect("it can be linked");
    symlink(at("second.ron"), at("first.ron")).expect("it can be linked");
    save_document(&titled("Through both"), &at("first.ron")).expect("it can be saved");
    assert_eq!(title_of(&at("deep/target.ron")), "Through both");
    for link in ["first.ron", "second.ron"] {
        let facts = fs::symlink_metadata(at(link)).expect("it is there");
        assert!(facts.file_type().is_symlink(), "{link}");
    }
    symlink("no such folder/target.ron", at("lost.ron")).expect("it can be linked");
    let error = save_document(&titled("Nowhere"), &at("lost.ron")).expect_err("no folder");
    assert!(
        error.to_string().contains("no such folder does not exist"),
        "{error}"
    );
}

#[test]
fn links_in_a_circle_are_an_error_and_stay() {
    let folder = tempdir().expect("a folder");
    let (one, other) = (
        folder.path().join("one.ron"),
        folder.path().join("other.ron"),
    );
    symlink(&one, &other).expect("it can be linked");
    symlink(&other, &one).expect("it can be linked");
    read_document(&one).expect_err("it leads nowhere");
    let facts = fs::symlink_metadata(&one).expect("it is there");
    assert!(facts.file_type().is_symlink());
}

#[test]
fn the_longest_names_are_saved_with_their_backups_and_pictures_apart() {
    let folder = tempdir().expect("a folder");
    for letter in ["a", "é", "\u{1f378}"] {
        let long = letter.repeat(251 / letter.len());
        let name = |last: &str| folder.path().join(format!("{long}{last}.ron"));
        // At the limit of 255 bytes, and just below it.
        let spare = 251 - long.len();
        let path = name(&"x".repeat(spare));
        assert_eq!(path.file_name().expect("a name").len(), 255);
        for title in ["First", "Second"] {
            save_document(&titled(title), &path).expect("it can be saved");
        }
        let backup = backup_path(&path);
        assert_eq!(title_of(&backup), "First");
        fs::create_dir(photo_folder(&path)).expect("its name is not too long");
    }
    let twin = |last: char| folder.path().join(format!("{}{last}.ron", "t".repeat(250)));
    assert_ne!(backup_path(&twin('1')), backup_path(&twin('2')));
    assert_ne!(photo_folder(&twin('1')), photo_folder(&twin('2')));
    let short = folder.path().join("sour.ron");
    assert_eq!(backup_path(&short), folder.path().join("sour.ron.bak"));
    let path = folder.path().join(format!("{}.ron", "b".repeat(252)));
    let error = save_document(&titled("Too long"), &path).expect_err("256 bytes");
    assert!(error.to_string().contains("name too long"), "{error}");
}

#[test]
fn a_file_that_was_deleted_meanwhile_is_saved_anew() {
    let (_folder, path) = saved();
    let stamp = read_document(&path).expect("it opens").stamp;
    fs::remove_file(&path).expect("it can be removed");
    let (onto, wanted) = (SaveOnto::Opened(stamp), AtomicBool::new(false));
    save_unless(&titled("Again"), &path, onto, &wanted).expect("it can be saved");
    assert_eq!(title_of(&path), "Again");
}

#[test]
fn group_and_permissions_of_the_file_stay() {
    let (_folder, path) = saved();
    let before = fs::metadata(&path).expect("it is there");
    let is_root = before.uid() == 0;
    if is_root {
        std::os::unix::fs::chown(&path, Some(65_534), Some(12)).expect("root may");
    }
    fs::set_permissions(&path, fs::Permissions::from_mode(0o664)).expect("they can be set");
    save_document(&titled("Third"), &path).expect("it can be saved");
    let facts = fs::metadata(&path).expect("it is there");
    assert_eq!(facts.permissions().mode() & 0o777, 0o664);
    if is_root {
        assert_eq!((facts.uid(), facts.gid()), (65_534, 12));
    } else {
        assert_eq!((facts.uid(), facts.gid()), (before.uid(), before.gid()));
    }
}

#[test]
#[ignore = "a process of its own that another test starts under a mask"]
fn a_person_with_a_mask() {
    let Some(folder) = child::folder() else {
        return;
    };
    save_document(&titled("First"), &folder.join("sour.ron")).expect("it can be saved");
    let folders = Folders::below(&folder.join("home"));
    let autosave = Autosave::start(&folders).expect("it starts");
    autosave.keep(Arc::new(titled("Unsaved")), None);
}

#[test]
fn a_new_document_is_as_open_as_the_mask_allows_and_unsaved_work_is_private() {
    for (mask, mode) in [("022", 0o644), ("077", 0o600), ("002", 0o664)] {
        let folder = tempdir().expect("a folder");
        let wrap = ["sh", "-c", &format!("umask {mask}; exec \"$@\""), "sh"];
        child::passes(&wrap, "files_trouble::a_person_with_a_mask", folder.path());
        let mode_of = |path: &Path| {
            let facts = fs::metadata(path).expect("it is there");
            facts.permissions().mode() & 0o777
        };
        assert_eq!(mode_of(&folder.path().join("sour.ron")), mode, "{mask}");
        let folders = Folders::below(&folder.path().join("home"));
        let (found, _) = recoverable(&folders);
        assert_eq!(mode_of(&found[0].kept_at), 0o600, "{mask}");
    }
}

#[test]
fn only_old_temporaries_that_nobody_holds_are_swept() {
    let (folder, path) = saved();
    let at = |name: &str| folder.path().join(name);
    let old = SystemTime::now() - Duration::from_hours(2);
    for (name, is_old) in [
        (".equipour-AbC123", true),
        (".equipour-held00", true),
        (".equipour-new000", false),
        (".equipour-notes.txt", true),
        ("equipour-AbC123", true),
    ] {
        let file = fs::File::create(at(name)).expect("it can be made");
        if is_old {
            file.set_modified(old).expect("it can be aged");
        }
    }
    let held = fs::File::open(at(".equipour-held00")).expect("it is there");
    held.try_lock().expect("nobody holds it");
    save_document(&titled("Third"), &path).expect("it can be saved");
    assert!(!at(".equipour-AbC123").exists());
    for name in [
        ".equipour-held00",
        ".equipour-new000",
        ".equipour-notes.txt",
        "equipour-AbC123",
    ] {
        assert!(at(name).exists(), "{name}");
    }
}
