//! Settings and unsaved work: kept apart from documents, never lost without a word.

use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::Document;
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::{
    Autosave, Folders, Settings, ThemeChoice, load_settings, recoverable, save_document,
    save_settings,
};
use equipour::units::Unit;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::TempDir;

fn home() -> (TempDir, Folders) {
    let home = tempfile::tempdir().expect("a folder");
    let folders = Folders::below(home.path());
    (home, folders)
}

fn sample() -> Document {
    document(sour(), SHAKEN, None)
}

fn renamed(title: &str) -> Edit {
    Edit::SetTitle {
        title: title.to_owned(),
    }
}

fn files_in(folder: &Path) -> usize {
    fs::read_dir(folder).map_or(0, Iterator::count)
}

/// Keeps the sample under a path and ends, as a program does that crashed after that.
fn keep_and_end(folders: &Folders, path: Option<PathBuf>) {
    let autosave = Autosave::start(folders).expect("it starts");
    autosave.keep(Arc::new(sample()), path);
    drop(autosave);
}

#[test]
fn settings_come_back_as_they_were() {
    let (_home, folders) = home();
    let file = folders.settings_file();
    let first = Settings {
        guided: false,
        ..Settings::default()
    };
    assert_eq!(load_settings(&file), (first, None), "none are no fault");
    let mut settings = Settings {
        theme: ThemeChoice::Dark,
        unit: Unit::Oz,
        ..Settings::default()
    };
    for number in 0..20 {
        settings.remember(Path::new(&format!("/bar/caffè {number} \"x\".ron")));
    }
    settings.remember(Path::new("/bar/caffè 15 \"x\".ron"));
    assert_eq!(settings.recent.len(), 12);
    assert_eq!(settings.recent[0], Path::new("/bar/caffè 15 \"x\".ron"));
    assert_eq!(settings.recent[1], Path::new("/bar/caffè 19 \"x\".ron"));
    save_settings(&settings, &file).expect("they can be saved");
    assert_eq!(load_settings(&file), (settings, None));
    assert_eq!(files_in(file.parent().expect("a folder")), 1);
}

#[test]
fn only_a_first_run_is_guided() {
    let (_home, folders) = home();
    let file = folders.settings_file();
    assert!(!load_settings(&file).0.guided, "there are no settings yet");
    fs::create_dir_all(file.parent().expect("a folder")).expect("it can be made");
    fs::write(&file, "(theme: Dark, unit: Oz)").expect("it can be written");
    let (settings, said) = load_settings(&file);
    assert_eq!((settings.guided, said), (true, None), "settings of before");
}

#[test]
fn damaged_settings_are_set_aside_and_not_written_over() {
    for damage in [
        &b"(theme: Darkest)"[..],
        b"(theme: Dark",
        b"\xff\xfe(\0",
        b"(colour: 3)",
    ] {
        let (_home, folders) = home();
        let file = folders.settings_file();
        fs::create_dir_all(file.parent().expect("a folder")).expect("it can be made");
        fs::write(&file, damage).expect("it can be written");
        let (settings, said) = load_settings(&file);
        assert_eq!(settings, Settings::default());
        let said = said.expect("it is reported");
        let aside = file.with_extension("ron.damaged");
        assert!(
            said.starts_with("Settings could not be read (line 1"),
            "{said}"
        );
        assert!(
            said.contains(&format!("kept as {}", aside.display())),
            "{said}"
        );
        // What could not be read is never written over, not even where it could not be set aside.
        fs::write(&file, damage).expect("it can be written");
        save_settings(&settings, &file).expect_err("they are left alone");
        assert_eq!(fs::read(&file).expect("it is there"), damage);
        let (_, again) = load_settings(&file);
        let second = file.with_extension("ron.damaged-2");
        let kept = format!("kept as {}", second.display());
        assert!(again.is_some_and(|said| said.contains(&kept)));
        assert_eq!(fs::read(&second).expect("it is kept"), damage);
        save_settings(&settings, &file).expect("new ones can be saved");
        assert_eq!(fs::read(&aside).expect("it is kept"), damage);
        assert_eq!(load_settings(&file).1, None);
    }
}

#[test]
fn kept_work_of_an_ended_program_is_offered_and_can_be_thrown_away() {
    let (_home, folders) = home();
    assert!(recoverable(&folders).0.is_empty());
    let path = PathBuf::from("/bar/sour \u{1f378}.ron");
    keep_and_end(&folders, Some(path.clone()));
    let (found, damaged) = recoverable(&folders);
    assert_eq!(damaged, [""; 0]);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].path, Some(path));
    assert_eq!(found[0].document, sample());
    assert!(found[0].kept_at.starts_with(folders.unsaved()));
    found[0].discard().expect("it can be thrown away");
    assert!(recoverable(&folders).0.is_empty());
    assert_eq!(files_in(&folders.unsaved()), 0, "nothing is left behind");
    found[0].discard().expect("twice does no harm");
}

#[test]
fn work_of_a_running_program_is_not_offered_to_another() {
    let (_home, folders) = home();
    let running = Autosave::start(&folders).expect("it starts");
    running.keep(Arc::new(sample()), None);
    keep_and_end(&folders, Some(PathBuf::from("/bar/ended.ron")));
    // The first is written by its own thread: wait until it is there.
    for _ in 0..500 {
        if files_in(&folders.unsaved()) == 3 {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
    }
    assert_eq!(
        files_in(&folders.unsaved()),
        3,
        "two documents and the lock of the one that runs"
    );
    let (found, _) = recoverable(&folders);
    let paths: Vec<_> = found.iter().map(|one| one.path.clone()).collect();
    assert_eq!(paths, [Some(PathBuf::from("/bar/ended.ron"))]);
    assert_eq!(running.failures(), [""; 0]);
    drop(running);
    drop(found);
    assert_eq!(recoverable(&folders).0.len(), 2, "now it has ended as well");
}

#[test]
fn of_two_windows_that_start_together_only_one_is_offered_what_a_third_left() {
    let (_home, folders) = home();
    keep_and_end(&folders, None);
    let (mut first, _) = recoverable(&folders);
    assert_eq!(first.len(), 1);
    let (second, damaged) = recoverable(&folders);
    assert!(second.is_empty() && damaged.is_empty(), "the first asks");
    // Restored work stays with the window that took it, until its kept copy goes.
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    let taken = first.remove(0);
    session.restore(&taken);
    assert!(recoverable(&folders).0.is_empty());
    // That window breaks off before anything is saved: the next one is asked again.
    drop(taken);
    let (third, _) = recoverable(&folders);
    assert_eq!(third.len(), 1);
    assert_eq!(third[0].document, sample());
    third[0].discard().expect("it can be thrown away");
    drop(third);
    assert_eq!(files_in(&folders.unsaved()), 0, "nothing is left behind");
}

#[test]
fn work_that_was_saved_is_kept_no_longer() {
    let (_home, folders) = home();
    let autosave = Autosave::start(&folders).expect("it starts");
    autosave.keep(Arc::new(sample()), None);
    autosave.forget();
    drop(autosave);
    assert!(recoverable(&folders).0.is_empty());
    assert_eq!(files_in(&folders.unsaved()), 0);
}

#[test]
fn damaged_unsaved_work_is_named_and_left() {
    let (_home, folders) = home();
    keep_and_end(&folders, None);
    let file = folders.unsaved().join("old.ron");
    fs::write(&file, "(path: None, file: (format: 1, writer").expect("it can be written");
    let (found, damaged) = recoverable(&folders);
    assert_eq!(found.len(), 1);
    assert_eq!(damaged.len(), 1);
    assert!(
        damaged[0].starts_with(&format!("{}: ", file.display())),
        "{damaged:?}"
    );
    assert!(file.exists());
}

#[test]
fn a_session_keeps_what_is_not_saved_and_forgets_what_is() {
    let (home, folders) = home();
    let path = home.path().join("sour.ron");
    save_document(&sample(), &path).expect("it can be saved");
    let session = |edit: Option<&str>, saves: bool| {
        let mut session = Session::new(Arc::clone(builtin()), Document::default());
        session.keep_with(Autosave::start(&folders).expect("it starts"));
        session.open(&path).expect("it opens");
        if let Some(title) = edit {
            session.edit(&renamed(title)).expect("it can be renamed");
        }
        session.settle();
        if saves {
            assert!(matches!(
                session.save(&SaveWhere::Same),
                SaveOutcome::Saved(_)
            ));
        }
    };
    session(None, false);
    assert!(recoverable(&folders).0.is_empty(), "nothing was changed");
    session(Some("Saved"), true);
    assert!(recoverable(&folders).0.is_empty(), "it was saved");
    session(Some("Unsaved"), false);
    let (found, _) = recoverable(&folders);
    assert_eq!(found.len(), 1);
    assert_eq!(
        (found[0].document.title.as_str(), &found[0].path),
        ("Unsaved", &Some(path.clone()))
    );
}

#[test]
fn restored_work_counts_as_changed_until_it_is_saved() {
    let (home, folders) = home();
    let path = home.path().join("sour.ron");
    for path in [None, Some(path.clone()), Some(home.path().join("gone.ron"))] {
        if let Some(path) = path.as_ref().filter(|path| !path.ends_with("gone.ron")) {
            let saved = Document {
                title: "Before".to_owned(),
                ..sample()
            };
            save_document(&saved, path).expect("it can be saved");
        }
        keep_and_end(&folders, path.clone());
        let (found, _) = recoverable(&folders);
        let mut session = Session::new(Arc::clone(builtin()), Document::default());
        session.restore(&found[0]);
        found[0].discard().expect("it was taken over");
        assert_eq!(**session.document(), sample());
        assert!(session.is_dirty());
        assert_eq!(session.path(), path.as_ref());
        let to = path.map_or_else(
            || SaveWhere::At(home.path().join("new.ron")),
            |_| SaveWhere::Same,
        );
        let outcome = session.save(&to);
        assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
        assert!(!session.is_dirty());
    }
}

#[test]
fn restored_work_stays_kept_until_it_is_saved() {
    let (_home, folders) = home();
    keep_and_end(&folders, None);
    let (found, _) = recoverable(&folders);
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.keep_with(Autosave::start(&folders).expect("it starts"));
    session.restore(&found[0]);
    found[0].discard().expect("it was taken over");
    // The second program ends without saving, too.
    drop(session);
    let (again, _) = recoverable(&folders);
    assert_eq!(again.len(), 1);
    assert_eq!(again[0].document, sample());
}

#[cfg(unix)]
#[test]
fn a_path_that_is_no_text_does_not_keep_work_from_being_kept() {
    use std::os::unix::ffi::OsStrExt as _;
    let (_home, folders) = home();
    let path = PathBuf::from(std::ffi::OsStr::from_bytes(b"/bar/caf\xe9.ron"));
    let autosave = Autosave::start(&folders).expect("it starts");
    autosave.keep(Arc::new(sample()), Some(path.clone()));
    drop(autosave);
    assert_eq!(
        recoverable(&folders).0.len(),
        1,
        "the document matters more than its path"
    );
    let mut settings = Settings::default();
    settings.remember(&path);
    settings.unit = Unit::Cl;
    save_settings(&settings, &folders.settings_file()).expect("the rest can be saved");
    assert_eq!(load_settings(&folders.settings_file()).0.unit, Unit::Cl);
}

#[test]
fn restored_work_never_writes_over_a_file_that_was_damaged_or_replaced_meanwhile() {
    let newer = "(format: 99, writer: \"later\", document: ())";
    for there in ["(format: 1, wri", newer] {
        let (home, folders) = home();
        let path = home.path().join("sour.ron");
        fs::write(&path, there).expect("written");
        keep_and_end(&folders, Some(path.clone()));
        let (found, _) = recoverable(&folders);
        let mut session = Session::new(Arc::clone(builtin()), Document::default());
        session.restore(&found[0]);
        for to in [SaveWhere::Same, SaveWhere::SameAnyway] {
            assert!(matches!(session.save(&to), SaveOutcome::NeedsName));
        }
        let outcome = session.save(&SaveWhere::AtAnyway(path.clone()));
        assert!(matches!(outcome, SaveOutcome::Failed(_)), "{outcome:?}");
        assert_eq!(fs::read_to_string(&path).expect("it is there"), there);
    }
}

#[test]
fn kept_work_that_the_file_may_hold_already_is_said_to_be_older() {
    let (home, folders) = home();
    let path = home.path().join("sour.ron");
    save_document(&sample(), &path).expect("it can be saved");
    // Clocks of file systems are coarse: what came before is made a minute old.
    let age = |file: &Path| {
        let then = std::time::SystemTime::now() - std::time::Duration::from_mins(1);
        let file = fs::File::options().append(true).open(file);
        file.and_then(|file| file.set_modified(then))
            .expect("it can be aged");
    };
    keep_and_end(&folders, Some(path.clone()));
    age(&path);
    assert!(!recoverable(&folders).0[0].is_older);
    save_document(&sample(), &path).expect("it can be saved");
    age(&recoverable(&folders).0[0].kept_at);
    assert!(recoverable(&folders).0[0].is_older);
}
