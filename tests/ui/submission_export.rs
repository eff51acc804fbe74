//! Sheets that leave by the dialog, and recipes that come in.

use crate::submission::{page, page_on};
use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;
use tempfile::tempdir;

impl Workbench {
    /// Waits for the thread that writes: until it is written, or says why not.
    #[track_caller]
    fn until_said(&mut self, words: &str) {
        for _ in 0..3_000 {
            if self.says(words) {
                return;
            }
            sleep(Duration::from_millis(10));
            self.harness.step();
        }
        panic!("never said: {words}");
    }

    fn type_path(&mut self, path: &Path) {
        self.write_into(Role::TextInput, "Path", &path.display().to_string());
    }
}

/// The dialog that writes the sheet.
fn saving() -> Workbench {
    let mut bench = page();
    bench.chord(CTRL, Key::E);
    assert!(bench.control(Role::TextInput, "Path").is_focused());
    bench
}

#[test]
fn a_kind_changes_the_name_and_the_file_is_written() {
    let folder = tempdir().expect("a folder");
    let mut bench = saving();
    let shown = |bench: &Workbench| bench.control(Role::TextInput, "Path").value();
    assert_eq!(shown(&bench).as_deref(), Some("salt-meadow-judges.pdf"));
    bench.pick("Kind of file", "Markdown");
    assert_eq!(shown(&bench).as_deref(), Some("salt-meadow-judges.md"));
    bench.type_path(&folder.path().join("sheet"));
    bench.until_said("Written to ");
    let text = fs::read_to_string(folder.path().join("sheet.md")).expect("it is there");
    assert!(text.starts_with("# Salt Meadow"));
    bench.button("Close");
    assert!(!bench.has(Role::TextInput, "Path"));
    assert_eq!(
        **bench.session().document(),
        demo(),
        "writing changes nothing"
    );
}

#[test]
fn a_file_that_is_there_is_replaced_only_when_asked_and_stays_as_a_backup() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sheet.txt");
    fs::write(&path, "what was there").expect("written");
    let mut bench = saving();
    bench.pick("Kind of file", "plain text");
    bench.type_path(&path);
    bench.until_said("There is a file of that name.");
    assert_eq!(fs::read_to_string(&path).expect("text"), "what was there");
    bench.button("Replace it");
    bench.until_said("Written to ");
    assert!(
        fs::read_to_string(&path)
            .expect("text")
            .starts_with("Salt Meadow")
    );
    let kept = folder.path().join("sheet.txt.bak");
    assert_eq!(fs::read_to_string(kept).expect("text"), "what was there");
}

#[test]
fn writing_can_be_stopped_and_then_nothing_is_there() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sheet.png");
    let mut bench = saving();
    bench.pick("Kind of file", "pictures (PNG)");
    bench.type_path(&path);
    let stop = |bench: &mut Workbench| {
        let there = bench.has(Role::Button, "Stop writing");
        if there {
            bench.control(Role::Button, "Stop writing").click();
            bench.harness.step();
        }
        there
    };
    while stop(&mut bench) {
        sleep(Duration::from_millis(10));
        bench.harness.step();
    }
    bench.run();
    let written = bench.says("Written to ");
    assert_ne!(written, bench.says("it was stopped"), "one of them is said");
    let there = fs::read_dir(folder.path()).expect("a folder").count();
    assert_eq!(there > 0, written, "a stopped sheet leaves no file");
}

#[test]
fn a_path_that_cannot_be_written_says_why_and_the_dialog_stays() {
    let folder = tempdir().expect("a folder");
    let mut bench = saving();
    bench.type_path(&folder.path().join("no/such/sheet.pdf"));
    bench.until_said("Not written: ");
    assert!(bench.says("does not exist"));
    bench.type_path(&folder.path().join("sheet.pdf"));
    bench.until_said("Written to ");
    let bytes = fs::read(folder.path().join("sheet.pdf")).expect("it is there");
    assert!(bytes.starts_with(b"%PDF-"));
}

#[test]
fn what_cannot_be_made_says_why_and_writes_nothing() {
    let folder = tempdir().expect("a folder");
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    Arc::make_mut(&mut spec.entry).story = "tide ".repeat(10_000);
    let mut bench = page_on(document);
    bench.chord(CTRL, Key::E);
    bench.type_path(&folder.path().join("sheet.pdf"));
    bench.until_said("Not written: the sheet is too long");
    let kind = "prep plan as a calendar (ICS)";
    bench.click(Role::ComboBox, "Kind of file");
    bench.control(Role::Button, kind).scroll_to_me();
    bench.run();
    bench.button(kind);
    bench.button("Write");
    bench.until_said("Not written: no calendar: set the day of the service first");
    assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 0);
}

#[test]
fn a_recipe_comes_in_with_what_is_certain_and_an_open_line() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sour.json");
    let recipe = r#"{"@context":"https://schema.org","@type":"Recipe","name":"Harbour Sour",
        "recipeIngredient":["50 ml caraway spirit","20 ml zyzzywort cordial"],
        "recipeInstructions":["Shake with ice."]}"#;
    fs::write(&path, recipe).expect("written");
    let mut bench = page();
    let was = demo();
    bench.chord(CTRL, Key::P);
    bench.type_text("import a recipe");
    bench.press(Key::Enter);
    assert!(bench.is_disabled(Role::Button, "Start the drink"));
    bench.type_path(&path);
    for words in [
        "Harbour Sour",
        "50 ml caraway spirit",
        "stays open: choose an ingredient",
    ] {
        assert!(bench.says(words), "{words}");
    }
    assert_eq!(**bench.session().document(), was, "nothing is begun yet");
    bench.button("Start the drink");
    assert_eq!(bench.drink().name, "Harbour Sour");
    let trial = bench.session().trial().expect("a trial");
    assert_eq!(trial.pours.len(), 2);
    let notices = bench.session().notices();
    let waits = notices.iter().any(|one| one.text.contains("zyzzywort"));
    assert!(waits, "{notices:?}");
    assert_eq!(bench.steps(), 1);
    bench.all_back(&was);
}

#[test]
fn a_file_that_is_no_recipe_says_so_and_nothing_can_be_begun() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("sour.json");
    fs::write(&path, "{\"@type\":\"Person\"}").expect("written");
    let mut bench = page();
    bench.chord(CTRL, Key::P);
    bench.type_text("import a recipe");
    bench.press(Key::Enter);
    for path in [path, folder.path().join("missing.json")] {
        bench.type_path(&path);
        assert!(bench.says("Not read: "));
        assert!(bench.is_disabled(Role::Button, "Start the drink"));
    }
    bench.button("Cancel");
    assert!(!bench.has(Role::TextInput, "Path"));
}
