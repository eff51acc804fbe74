//! The verbs `sheet` and `prep`: every kind of file, and what happens when one cannot be written.

use equipour::cli::{Arguments, parse, run_verb};
use image::GenericImageView as _;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/demo.ron");
const DRINK: [&str; 2] = ["--spec", "Kitchen Garden"];

fn asked(verb: &str, file: &str, more: &[&str]) -> Arguments {
    let words = [&[verb, file], more].concat();
    let words = words.into_iter().map(Into::into);
    parse(words).expect("it makes sense")
}

fn verb(verb: &str, more: &[&str]) -> Result<String, String> {
    let more = [&DRINK, more].concat();
    run_verb(&asked(verb, DEMO, &more)).map_err(|error| error.to_string())
}

/// Writes a file by a verb; gives its bytes.
fn written(by: &str, path: &Path, more: &[&str]) -> Vec<u8> {
    let text = path.display().to_string();
    let said = verb(by, &[&["--out", text.as_str()], more].concat()).expect("it is written");
    assert_eq!(said, "", "nothing to say of one file");
    fs::read(path).expect("it is there")
}

fn names_in(folder: &Path) -> Vec<String> {
    let files = fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> = files
        .map(|file| {
            file.expect("a file")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

/// The program itself, with folders of its own.
fn program(words: &[&str]) -> Output {
    let home = tempfile::tempdir().expect("a folder");
    Command::new(env!("CARGO_BIN_EXE_equipour"))
        .args(words)
        .env("EQUIPOUR_HOME", home.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .expect("the program starts")
}

#[test]
fn every_extension_writes_its_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    for (extension, begins) in [
        ("pdf", &b"%PDF-"[..]),
        ("md", b"# Kitchen Garden"),
        ("txt", b"Kitchen Garden\n===="),
        ("json", b"{"),
        ("csv", b"ingredient,amount,ml,oz,g,how,house-made"),
        ("svg", b"<svg"),
        ("TXT", b"Kitchen Garden\n===="),
    ] {
        let path = folder.path().join(format!("sheet.{extension}"));
        let bytes = written("sheet", &path, &[]);
        assert!(bytes.starts_with(begins), "{extension}");
    }
    let json = fs::read(folder.path().join("sheet.json")).expect("it is there");
    let found: Value = serde_json::from_slice(&json).expect("it is JSON");
    assert_eq!(found["name"], "Kitchen Garden");
}

#[test]
fn pictures_are_one_a_page_and_each_is_named() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.png");
    let said = verb(
        "sheet",
        &["--for", "bar", "--out", &path.display().to_string()],
    );
    let said = said.expect("it is written");
    let paths: Vec<PathBuf> = said.lines().map(PathBuf::from).collect();
    let names = ["sheet-1.png", "sheet-2.png"];
    assert_eq!(names_in(folder.path()), names);
    assert_eq!(paths, names.map(|name| folder.path().join(name)));
    for path in paths {
        let page = image::open(path).expect("a picture");
        // A4 at 200 dots per inch.
        let (width, height) = page.dimensions();
        assert!(width.abs_diff(1_654) <= 1 && height.abs_diff(2_339) <= 1);
    }
}

#[test]
fn preparation_is_a_calendar_a_pdf_a_table_or_text() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name);
    let text = verb("prep", &[]).expect("text");
    for words in [
        "For 24 drinks",
        "To buy",
        "[ ] raspberry",
        "Berry shrub, infuse",
        "10 days before",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(written("prep", &path("a.pdf"), &[]).starts_with(b"%PDF-"));
    assert!(written("prep", &path("a.csv"), &[]).starts_with(b"what,for,taken"));
    let out = path("a.ics").display().to_string();
    let refused = verb("prep", &["--out", &out]).expect_err("no day is set");
    assert_eq!(refused, "no calendar: set the day of the service first");
    assert!(!path("a.ics").exists());
    let whole = fs::read_to_string(DEMO).expect("the demo");
    let dated = whole.replace("at: \"19:00\"", "on: \"2999-12-05\",\nat: \"19:00\"");
    assert_ne!(whole, dated);
    let document = path("dated.ron");
    fs::write(&document, dated).expect("written");
    let words = [&DRINK[..], &["--out", &out]].concat();
    let asked = asked("prep", &document.display().to_string(), &words);
    assert_eq!(run_verb(&asked).expect("it is written"), "");
    let calendar = fs::read_to_string(path("a.ics")).expect("it is there");
    assert!(calendar.starts_with("BEGIN:VCALENDAR\r\n"));
    assert!(calendar.matches("BEGIN:VEVENT").count() >= 9);
}

#[test]
fn readers_get_their_own_sheets_and_json_is_the_recipe() {
    let judges = verb("sheet", &[]).expect("text");
    let bar = verb("sheet", &["--for", "bar"]).expect("text");
    assert!(bar.contains("Mixed beforehand") && !judges.contains("Mixed beforehand"));
    assert_eq!(verb("sheet", &["--for", "judges"]), Ok(judges));
    let json = verb("sheet", &["--json"]).expect("JSON");
    let found: Value = serde_json::from_str(&json).expect("it is JSON");
    assert_eq!(found["@type"], "Recipe");
    assert_eq!(found["recipeIngredient"].as_array().map(Vec::len), Some(3));
}

#[test]
fn an_unknown_kind_of_file_names_the_known_ones_once() {
    for (by, path, known) in [
        (
            "sheet",
            "a.docx",
            ".pdf, .png, .md, .txt, .json, .csv, .svg, .ics",
        ),
        (
            "sheet",
            "noextension",
            ".pdf, .png, .md, .txt, .json, .csv, .svg, .ics",
        ),
        ("prep", "a.md", ".ics, .pdf, .csv"),
    ] {
        let refused = verb(by, &["--out", path]).expect_err("it is unknown");
        assert!(
            refused.starts_with(path) && refused.ends_with(known),
            "{refused}"
        );
        assert!(!Path::new(path).exists());
    }
}

#[test]
fn a_path_that_cannot_be_written_is_named_with_its_reason() {
    let folder = tempfile::tempdir().expect("a folder");
    let missing = folder.path().join("no/such/sheet.pdf");
    let taken = folder.path().join("folder.pdf");
    fs::create_dir(&taken).expect("a folder");
    for (path, reason) in [(&missing, "does not exist"), (&taken, "is not a file")] {
        let path = path.display().to_string();
        for by in ["sheet", "prep"] {
            let refused = verb(by, &["--out", &path]).expect_err("it cannot be written");
            assert!(refused.starts_with("cannot write") && refused.contains(&path));
            assert!(refused.contains(reason), "{refused}");
        }
    }
    assert_eq!(
        names_in(folder.path()),
        ["folder.pdf"],
        "nothing half-written"
    );
}

#[cfg(unix)]
#[test]
fn a_device_behind_a_link_is_refused_and_stays_a_device() {
    use std::os::unix::fs::{FileTypeExt as _, symlink};
    let folder = tempfile::tempdir().expect("a folder");
    let link = folder.path().join("full.pdf");
    symlink("/dev/full", &link).expect("a link");
    let refused = verb("sheet", &["--out", &link.display().to_string()]);
    let refused = refused.expect_err("a device is no file");
    assert!(refused.contains("is not a file"), "{refused}");
    assert_eq!(names_in(folder.path()), ["full.pdf"]);
    let facts = fs::metadata("/dev/full").expect("it is there");
    assert!(facts.file_type().is_char_device());
}

#[cfg(unix)]
#[test]
fn in_a_folder_that_may_not_be_written_nothing_is_left() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let set = |mode| fs::set_permissions(folder.path(), fs::Permissions::from_mode(mode));
    set(0o555).expect("set");
    // Whoever may write everywhere, as in a container, cannot be refused.
    let may_write = fs::write(folder.path().join("probe"), "").is_ok();
    let path = folder.path().join("sheet.md").display().to_string();
    let done = verb("sheet", &["--out", &path]);
    set(0o755).expect("set");
    if !may_write {
        let refused = done.expect_err("it may not");
        assert!(refused.starts_with("cannot write"), "{refused}");
        assert_eq!(names_in(folder.path()), Vec::<String>::new());
    }
}

#[test]
fn what_was_there_stays_beside_as_a_backup() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.md");
    fs::write(&path, "what was there").expect("written");
    let bytes = written("sheet", &path, &[]);
    assert!(bytes.starts_with(b"# Kitchen Garden"));
    assert_eq!(names_in(folder.path()), ["sheet.md", "sheet.md.bak"]);
    let kept = fs::read_to_string(folder.path().join("sheet.md.bak")).expect("it is there");
    assert_eq!(kept, "what was there");
}

#[test]
fn letters_that_the_font_lacks_are_told_of_pages_and_kept_in_texts() {
    let folder = tempfile::tempdir().expect("a folder");
    let whole = fs::read_to_string(DEMO).expect("the demo");
    let document = folder.path().join("han.ron").display().to_string();
    fs::write(&document, whole.replace("Kitchen Garden", "Kitchen 庭")).expect("written");
    let write = |name: &str| {
        let path = folder.path().join(name).display().to_string();
        let asked = asked(
            "sheet",
            &document,
            &["--spec", "Kitchen 庭", "--out", &path],
        );
        run_verb(&asked).expect("it is written")
    };
    assert!(write("a.pdf").contains("庭 (U+5EAD): marked in the sheet."));
    assert_eq!(write("a.md"), "");
    let text = fs::read_to_string(folder.path().join("a.md")).expect("it is there");
    assert!(text.starts_with("# Kitchen 庭"));
}

#[test]
fn exit_codes_part_wrong_input_from_a_wrong_command_line() {
    let output = program(&["sheet", DEMO, "--for", "bar"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(String::from_utf8_lossy(&output.stdout).contains("Ingredients"));
    for words in [
        &["sheet", DEMO, "--out", "a.docx"][..],
        &["sheet", "/no/such.ron"],
        &["prep", DEMO, "--spec", "Nobody"],
    ] {
        let output = program(words);
        assert_eq!(output.status.code(), Some(1), "{words:?}");
        assert!(output.stdout.is_empty() && !output.stderr.is_empty());
    }
    for (words, said) in [
        (&["sheet"][..], "equipour sheet FILE"),
        (&["prep"], "equipour prep FILE"),
        (
            &["sheet", DEMO, "--for", "everybody"],
            "judges, bar or home",
        ),
        (&["figures", DEMO, "--for", "bar"], "--for goes with sheet"),
        (&["prep", DEMO, "--json"], "--json goes with"),
        (
            &["sheet", DEMO, "--hold", "base"],
            "--hold goes with rebalance",
        ),
    ] {
        let output = program(words);
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        let first = String::from_utf8_lossy(&output.stderr).into_owned();
        let first = first.lines().next().unwrap_or_default();
        assert!(first.contains(said), "{words:?}: {first}");
        assert!(output.stdout.is_empty());
    }
}
