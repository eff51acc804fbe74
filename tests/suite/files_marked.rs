//! Documents that are open in two windows.

use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::Document;
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::{Folders, Marking, OpenMarks, SaveError, save_document};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::{TempDir, tempdir};

/// A folder with a document, and the marks of one person.
fn marked() -> (TempDir, PathBuf, OpenMarks) {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sour.ron");
    save_document(&document(sour(), SHAKEN, None), &path).expect("it can be saved");
    let marks = OpenMarks::in_folder(&Folders::below(folder.path()));
    (folder, path, marks)
}

fn window(path: &Path, marks: &OpenMarks) -> (Session, Vec<String>) {
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.mark_with(marks.clone());
    let said = session.open(path).expect("it opens");
    (session, said)
}

fn rename(session: &mut Session, title: &str) {
    let title = title.to_owned();
    session.edit(&Edit::SetTitle { title }).expect("it stands");
}

#[test]
fn a_mark_holds_for_every_way_to_the_file_and_ends_with_its_window() {
    let (folder, path, marks) = marked();
    let mark = marks.mark(&path);
    assert!(matches!(mark, Marking::Here(_)));
    fs::create_dir(folder.path().join("deep")).expect("it can be made");
    let roundabout = folder.path().join("deep/../sour.ron");
    assert!(matches!(marks.mark(&roundabout), Marking::Elsewhere));
    #[cfg(unix)]
    {
        let link = folder.path().join("link.ron");
        std::os::unix::fs::symlink(&path, &link).expect("it can be linked");
        assert!(matches!(marks.mark(&link), Marking::Elsewhere));
    }
    let other = folder.path().join("other.ron");
    assert!(matches!(marks.mark(&other), Marking::Here(_)));
    drop(mark);
    assert!(matches!(marks.mark(&path), Marking::Here(_)));
}

#[test]
fn a_mark_that_a_killed_program_left_is_nobodys() {
    let (folder, path, marks) = marked();
    let mark = marks.mark(&path);
    let left = Folders::below(folder.path()).open_marks();
    let file = fs::read_dir(&left).expect("it can be listed").flatten();
    let file = file.map(|entry| entry.path()).next().expect("a mark");
    drop(mark);
    // The file is there still, and nobody holds its lock.
    fs::write(&file, "").expect("it can be made");
    assert!(matches!(marks.mark(&path), Marking::Here(_)));
}

#[test]
fn the_second_window_is_told_and_its_save_waits_for_a_word() {
    let (_folder, path, marks) = marked();
    let (mut first, said) = window(&path, &marks);
    assert!(said.is_empty());
    let (mut second, said) = window(&path, &marks);
    assert!(
        said[0].starts_with("sour.ron is open in another window"),
        "{said:?}"
    );
    rename(&mut second, "Second");
    let outcome = second.save(&SaveWhere::Same);
    assert!(
        matches!(outcome, SaveOutcome::Contested(_, SaveError::OpenElsewhere)),
        "{outcome:?}"
    );
    rename(&mut first, "First");
    assert!(matches!(
        first.save(&SaveWhere::Same),
        SaveOutcome::Saved(_)
    ));
    // The first window closes: what it saved is not written over unasked either.
    drop(first);
    let outcome = second.save(&SaveWhere::Same);
    assert!(
        matches!(
            outcome,
            SaveOutcome::Contested(_, SaveError::ChangedOutside)
        ),
        "{outcome:?}"
    );
    let outcome = second.save(&SaveWhere::SameAnyway);
    assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
}

#[test]
fn saving_under_another_name_marks_that_one_and_frees_the_first() {
    let (folder, path, marks) = marked();
    let (mut session, _) = window(&path, &marks);
    let other = folder.path().join("other.ron");
    let outcome = session.save(&SaveWhere::At(other.clone()));
    assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
    assert!(matches!(marks.mark(&path), Marking::Here(_)));
    assert!(matches!(marks.mark(&other), Marking::Elsewhere));
    session.take_untitled(Document::default());
    assert!(matches!(marks.mark(&other), Marking::Here(_)));
}
