//! Pictures of trials lie beside the document, and none is ever written over or lost.

use crate::history::session;
use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, sour};
use equipour::model::{MAX_PHOTOS, Photo, TrialId, is_plain_file};
use equipour::session::{Edit, PhotoFailure, SaveOutcome, SaveWhere, Session, TrialEdit};
use equipour::store::{MAX_PHOTO_BYTES, PhotoError, keep_photo, photo_folder, read_photo};
use proptest::prelude::*;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::TempDir;

/// A picture by its first bytes; nobody looks at the rest here.
fn png(rest: &[u8]) -> Vec<u8> {
    [b"\x89PNG\r\n\x1a\n", rest].concat()
}

fn jpeg(rest: &[u8]) -> Vec<u8> {
    [b"\xff\xd8\xff\xe0", rest].concat()
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn write(folder: &TempDir, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.path().join(name);
    fs::write(&path, bytes).expect("it can be written");
    path
}

fn save(session: &mut Session, path: &Path) {
    let saved = session.save(&SaveWhere::At(path.to_owned()));
    assert!(matches!(saved, SaveOutcome::Saved(_)), "{saved:?}");
}

/// A saved document with one trial.
fn saved(folder: &TempDir, name: &str) -> (Session, PathBuf) {
    let path = folder.path().join(name);
    let mut session = session();
    save(&mut session, &path);
    (session, path)
}

/// Names of all files of a folder; none when there is no such folder.
fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    let mut names: Vec<String> = names
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn ends_in(name: &str, ending: &str) -> bool {
    Path::new(name)
        .extension()
        .is_some_and(|known| known == ending)
}

fn photos(session: &Session) -> &[Photo] {
    &session
        .document()
        .trial(TRIAL)
        .expect("it is there")
        .1
        .photos
}

/// The bytes of a picture of the document, as the window reads them.
fn bytes_of(session: &Session, file: &str) -> Result<Vec<u8>, PhotoError> {
    read_photo(session.pictures_of().expect("it has a file"), file)
}

/// Names of pictures of the document, those of the bin too, whose files are missing.
fn missing(session: &Session) -> Vec<String> {
    let files = session.document().photo_files();
    let gone = files.filter(|file| {
        let read = bytes_of(session, file);
        matches!(read, Err(PhotoError::Missing { .. }))
    });
    gone.map(str::to_owned).collect()
}

#[test]
fn a_picture_is_copied_beside_the_document_and_read_back_from_there() {
    let here = folder();
    let (mut session, path) = saved(&here, "twist.ron");
    let bytes = jpeg(b"sour");
    let picture = write(&here, "Glas Nr. 3 – Ø.JPEG", &bytes);
    let file = session
        .attach_photo(TRIAL, &picture, "with foam")
        .expect("it is kept");
    assert!(
        file.is_ascii() && file.starts_with("glas-nr-3") && ends_in(&file, "jpg"),
        "{file}"
    );
    assert_eq!(names(&here.path().join("twist.photos")), [file.as_str()]);
    fs::remove_file(&picture).expect("the original may go");
    let photo = photos(&session)[0].clone();
    assert_eq!(
        (photo.file.as_str(), photo.caption.as_str()),
        (file.as_str(), "with foam")
    );
    assert_eq!(bytes_of(&session, &photo.file), Ok(bytes));
    session.undo();
    assert!(photos(&session).is_empty());
    session.redo();
    save(&mut session, &path);
    let mut again = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    again.open(&path).expect("it opens");
    assert_eq!(photos(&again), photos(&session));
    assert!(missing(&again).is_empty());
}

#[test]
fn what_a_picture_is_its_first_bytes_say_and_not_its_name() {
    let here = folder();
    let document = here.path().join("twist.ron");
    let kept = keep_photo(&document, &write(&here, "a.txt", &png(b"x"))).expect("a picture");
    assert!(ends_in(&kept, "png"), "{kept}");
    for bytes in [&b"GIF89a"[..], b"", b"\xff\xd8", b"\x89PNG"] {
        let path = write(&here, "b.png", bytes);
        let refused = keep_photo(&document, &path).expect_err("no picture");
        assert!(
            matches!(refused, PhotoError::NotAPicture { .. }),
            "{refused}"
        );
    }
    assert_eq!(names(&photo_folder(&document)), [kept.as_str()]);
}

#[test]
fn pictures_never_replace_one_another_and_the_same_one_is_kept_once() {
    let here = folder();
    let document = here.path().join("twist.ron");
    let (one, other) = (png(b"one"), png(b"two"));
    let path = write(&here, "glass.png", &one);
    let first = keep_photo(&document, &path).expect("it is kept");
    assert_eq!(keep_photo(&document, &path).as_ref(), Ok(&first));
    write(&here, "glass.png", &other);
    let second = keep_photo(&document, &path).expect("it is kept");
    assert_ne!(first, second);
    // Somebody put another picture under the name that the first one would get.
    let there = photo_folder(&document).join(&first);
    fs::write(&there, &other).expect("it can be written");
    write(&here, "glass.png", &one);
    let third = keep_photo(&document, &path).expect("it is kept");
    assert!(![&first, &second].contains(&&third), "{third}");
    assert_eq!(fs::read(&there).expect("it is there"), other);
    assert_eq!(read_photo(&document, &third), Ok(one));
}

#[test]
fn a_document_without_a_file_a_full_trial_and_a_missing_one_leave_no_file_behind() {
    let here = folder();
    let picture = write(&here, "glass.png", &png(b"x"));
    let mut untitled = session();
    let refused = untitled
        .attach_photo(TRIAL, &picture, "")
        .expect_err("no file yet");
    let said = "save the document first: pictures are kept in a folder beside it";
    assert_eq!(refused.to_string(), said);
    let (mut session, path) = saved(&here, "twist.ron");
    let gone = session
        .attach_photo(TrialId(99), &picture, "")
        .expect_err("no such trial");
    assert_eq!(gone.to_string(), "the trial is no longer there");
    let long = "x".repeat(4_001);
    session
        .attach_photo(TRIAL, &picture, &long)
        .expect_err("a long caption");
    let many = (0..MAX_PHOTOS).map(|number| Photo {
        file: format!("{number}.png"),
        caption: String::new(),
    });
    let full = Edit::Trial(TrialEdit::SetPhotos {
        trial: TRIAL,
        photos: many.collect(),
    });
    session.edit(&full).expect("as many as may be");
    let refused = session
        .attach_photo(TRIAL, &picture, "")
        .expect_err("it is full");
    assert!(matches!(refused, PhotoFailure::TooMany), "{refused}");
    assert!(!photo_folder(&path).exists());
    assert_eq!(missing(&session).len(), MAX_PHOTOS);
}

#[test]
fn pictures_that_are_too_large_or_no_files_are_refused_by_name() {
    let here = folder();
    let document = here.path().join("twist.ron");
    let large = here.path().join("large.png");
    write(&here, "large.png", &png(b""));
    let file = fs::OpenOptions::new()
        .write(true)
        .open(&large)
        .expect("it opens");
    file.set_len(MAX_PHOTO_BYTES).expect("it grows");
    let kept = keep_photo(&document, &large).expect("just small enough");
    file.set_len(MAX_PHOTO_BYTES + 1).expect("it grows");
    let refused = keep_photo(&document, &large).expect_err("one byte too many");
    assert!(
        refused
            .to_string()
            .ends_with("large.png is larger than 12 MB"),
        "{refused}"
    );
    for wrong in [here.path().to_owned(), here.path().join("nowhere.png")] {
        let refused = keep_photo(&document, &wrong).expect_err("no file");
        assert!(
            matches!(refused, PhotoError::Unreadable { .. }),
            "{refused}"
        );
    }
    // Reading back has the same limit.
    let grown = photo_folder(&document).join(&kept);
    let file = fs::OpenOptions::new()
        .write(true)
        .open(grown)
        .expect("it opens");
    file.set_len(MAX_PHOTO_BYTES + 1).expect("it grows");
    let refused = read_photo(&document, &kept).expect_err("one byte too many");
    assert!(matches!(refused, PhotoError::TooLarge { .. }), "{refused}");
}

#[test]
fn a_folder_that_cannot_be_made_is_an_error_that_leaves_nothing_half_done() {
    let here = folder();
    let picture = write(&here, "glass.png", &png(b"x"));
    let nowhere = here.path().join("nowhere").join("twist.ron");
    let refused = keep_photo(&nowhere, &picture).expect_err("no such folder");
    assert!(
        matches!(refused, PhotoError::Unwritable { .. }),
        "{refused}"
    );
    assert!(!here.path().join("nowhere").exists());
    // A file stands where the folder would be.
    write(&here, "twist.photos", b"mine");
    let refused = keep_photo(&here.path().join("twist.ron"), &picture).expect_err("no folder");
    assert!(
        matches!(refused, PhotoError::Unwritable { .. }),
        "{refused}"
    );
    assert_eq!(names(here.path()), ["glass.png", "twist.photos"]);
}

#[test]
fn a_missing_picture_is_told_by_name_and_no_name_leads_out_of_the_folder() {
    let here = folder();
    let (mut session, path) = saved(&here, "twist.ron");
    let picture = write(&here, "glass.png", &png(b"x"));
    let file = session
        .attach_photo(TRIAL, &picture, "")
        .expect("it is kept");
    fs::remove_file(photo_folder(&path).join(&file)).expect("it goes");
    let gone = bytes_of(&session, &photos(&session)[0].file).expect_err("it is gone");
    let named = format!("the picture {file} is missing");
    assert!(gone.to_string().contains(&named), "{gone}");
    assert_eq!(missing(&session), [file.as_str()]);
    save(&mut session, &path);
    session.open(&path).expect("the document itself is sound");
    let out = read_photo(&path, "../glass.png").expect_err("it lies outside");
    assert!(matches!(out, PhotoError::Missing { .. }), "{out}");
}

#[test]
fn a_detached_picture_keeps_its_file() {
    let here = folder();
    let (mut session, path) = saved(&here, "twist.ron");
    let picture = write(&here, "glass.png", &png(b"x"));
    let file = session
        .attach_photo(TRIAL, &picture, "")
        .expect("it is kept");
    session.detach_photo(TRIAL, 0).expect("it can be detached");
    assert!(photos(&session).is_empty());
    assert_eq!(names(&photo_folder(&path)), [file.as_str()]);
    session.undo();
    assert!(missing(&session).is_empty());
    session.detach_photo(TRIAL, 3).expect_err("no such picture");
}

#[test]
fn saving_under_another_name_takes_the_pictures_along_those_of_the_bin_too() {
    let here = folder();
    let (mut session, path) = saved(&here, "twist.ron");
    let picture = write(&here, "glass.png", &png(b"x"));
    let file = session
        .attach_photo(TRIAL, &picture, "")
        .expect("it is kept");
    let grow = Edit::GrowTrial {
        from: TRIAL,
        reason: String::new(),
        changes: Vec::new(),
        made_by: equipour::model::MadeBy::Hand,
    };
    session.edit(&grow).expect("it can grow");
    session
        .edit(&Edit::Trial(TrialEdit::Bin { trial: TRIAL }))
        .expect("it can go");
    let other = here.path().join("other.ron");
    save(&mut session, &other);
    assert_eq!(names(&photo_folder(&path)), [file.as_str()]);
    assert_eq!(names(&photo_folder(&other)), [file.as_str()]);
    assert_eq!(read_photo(&other, &file), Ok(png(b"x")));
}

#[test]
fn another_picture_under_the_same_name_is_left_alone_and_the_document_is_not_saved_there() {
    let here = folder();
    let (mut session, _) = saved(&here, "twist.ron");
    let picture = write(&here, "glass.png", &png(b"x"));
    let file = session
        .attach_photo(TRIAL, &picture, "")
        .expect("it is kept");
    let other = here.path().join("other.ron");
    fs::create_dir(photo_folder(&other)).expect("a folder");
    let there = photo_folder(&other).join(&file);
    fs::write(&there, png(b"theirs")).expect("it can be written");
    let failed = session.save(&SaveWhere::At(other.clone()));
    let SaveOutcome::Failed(error) = failed else {
        panic!("{failed:?}");
    };
    let said = error.to_string();
    assert!(said.contains("holds another picture called"), "{said}");
    assert_eq!(fs::read(&there).expect("it is there"), png(b"theirs"));
    assert!(!other.exists());
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_picture_of_any_name_gets_one_that_a_document_may_hold(
        name in "[^/\\\\\0]{1,50}",
    ) {
        prop_assume!(name != "." && name != "..");
        let here = folder();
        let document = here.path().join("twist.ron");
        let picture = here.path().join(&name);
        prop_assume!(fs::write(&picture, jpeg(b"x")).is_ok());
        let kept = keep_photo(&document, &picture).expect("it is kept");
        prop_assert!(is_plain_file(&kept), "{kept}");
        prop_assert_eq!(read_photo(&document, &kept), Ok(jpeg(b"x")));
    }
}
