//! Names of files that are made from what a document says: never paths, devices or too long.

use crate::hostile_names::hostile;
use equipour::store::{PhotoError, file_name_of, read_photo};
use proptest::prelude::*;
use std::path::{Component, PathBuf};

/// A name that stays where it is put, whatever is put behind it.
fn assert_plain(name: &str) {
    let path = PathBuf::from(name);
    let parts: Vec<Component<'_>> = path.components().collect();
    assert!(
        matches!(parts.as_slice(), [Component::Normal(_)]),
        "{name:?}"
    );
    let letters = |letter: char| letter.is_alphanumeric() || letter == '-' || letter == '.';
    assert!(
        name.chars().all(letters) && !name.starts_with(['.', '-']),
        "{name:?}"
    );
    assert_eq!(name.matches('.').count(), 1, "{name:?}");
    assert!(
        path.extension().is_some_and(|ending| ending == "ron"),
        "{name:?}"
    );
    let longest = name.len() + "-9999.photos.damaged.bak".len();
    assert!(longest <= 255, "{name:?}");
    let stem = name.trim_end_matches(".ron").to_uppercase();
    let port = |begin: &str| {
        stem.strip_prefix(begin)
            .is_some_and(|rest| rest.chars().count() == 1)
    };
    let device = ["CON", "PRN", "AUX", "NUL"].contains(&stem.as_str());
    assert!(!device && !port("COM") && !port("LPT"), "{name:?}");
}

#[test]
fn names_of_files_are_never_paths_devices_or_too_long() {
    for title in [
        "",
        "..",
        ".",
        "/",
        "../../etc/passwd",
        "/etc/passwd",
        "C:\\x",
        "\\\\server\\share",
        "CON",
        "nul",
        "Com1",
        "lpt9.txt",
        "com¹",
        "aux",
        "a\0b",
        "-rf",
        "~root",
        "a/b",
        "con.ron",
        "\u{202e}nor.exe",
        "con\u{301}",
    ] {
        assert_plain(&file_name_of(title));
    }
    for text in hostile() {
        assert_plain(&file_name_of(text));
    }
    for letter in ["x", "ü", "酒", "🍸", "İ", "ß", "a b ", "\u{1F88}"] {
        assert_plain(&file_name_of(&letter.repeat(4_000)));
    }
    assert_eq!(
        file_name_of("Salt Meadow – Harbour Lantern Cup"),
        "salt-meadow-harbour-lantern.ron"
    );
}

proptest! {
    #[test]
    fn any_title_makes_a_plain_name(title in any::<String>()) {
        assert_plain(&file_name_of(&title));
    }

    #[test]
    fn words_of_any_letters_make_a_plain_name(title in "([\\PC]{0,80}[ ./\\\\:]){0,6}") {
        assert_plain(&file_name_of(&title));
    }

    #[test]
    fn no_name_of_a_picture_leads_out_of_its_folder(file in "[a-z0-9./\\\\:~\u{0}-]{1,30}") {
        prop_assume!(file.contains(['/', '\\', '\0', ':', '~']) || file.starts_with('.'));
        let folder = tempfile::tempdir().expect("a folder");
        let document = folder.path().join("twist.ron");
        let refused = read_photo(&document, &file);
        prop_assert!(matches!(refused, Err(PhotoError::Missing { .. })), "{refused:?}");
    }
}
