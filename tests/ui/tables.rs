//! Ingredients from a table and to a table.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Document, Origin};
use std::fs;
use std::path::Path;
use tempfile::tempdir;

const TABLE: &str = "Product;ABV;Sugar;Shelf\nQuince liqueur;24,5;31,25;2\nPear brandy;40,5;;3\n";

/// The window after a command was asked for by its letters.
fn ask(document: Document, letters: &str) -> Workbench {
    let mut bench = Workbench::on(document);
    bench.chord(CTRL, Key::P);
    bench.type_text(letters);
    bench.press(Key::Enter);
    bench
}

fn import(path: &Path) -> Workbench {
    import_into(demo(), path)
}

fn import_into(document: Document, path: &Path) -> Workbench {
    let mut bench = ask(document, "import ingredients");
    assert!(bench.control(Role::TextInput, "Path").is_focused());
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    bench
}

fn names(bench: &Workbench) -> Vec<String> {
    let items = bench.session().document().ingredients.values();
    items.map(|item| item.name.clone()).collect()
}

#[test]
fn a_table_is_shown_with_its_columns_and_imported_in_one_step() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    fs::write(&path, TABLE).expect("written");
    let mut bench = import(&path);
    assert_eq!(bench.shown("Delimiter"), "semicolon");
    assert_eq!(bench.shown("Decimal mark"), "comma");
    assert_eq!(bench.shown("Column 1: Product"), "name");
    assert_eq!(bench.shown("Column 2: ABV"), "strength typical (% vol)");
    assert_eq!(bench.shown("Column 4: Shelf"), "not used");
    assert!(bench.says("2 rows, 2 good."));
    assert_eq!(names(&bench).len(), demo().ingredients.len(), "nothing yet");
    bench.button("Import 2 ingredients");
    assert!(!bench.has(Role::TextInput, "Path"), "the dialog closes");
    assert!(names(&bench).contains(&"Quince liqueur".to_owned()));
    let liqueur = &bench.session().document().ingredients[&"quince-liqueur".into()];
    let strength = liqueur.strength_pct_vol.expect("a strength");
    assert_eq!(strength.typical, 24.5);
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
    bench.chord(CTRL_SHIFT, Key::Z);
    assert!(names(&bench).contains(&"Pear brandy".to_owned()));
}

#[test]
fn rows_that_cannot_stand_are_listed_and_nothing_can_be_imported() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    fs::write(&path, "name,ABV\nGood,40\nBad,forty\nWorse,140\n").expect("written");
    let mut bench = import(&path);
    assert!(bench.says("3 rows, 1 good; 2 to put right"));
    for words in [
        "row 3",
        "\"forty\" is no number",
        "row 4",
        "140 is above 100, % vol",
    ] {
        assert!(bench.says(words), "{words}");
    }
    let button = bench.control(Role::Button, "Import 0 ingredients");
    assert!(button.accesskit_node().is_disabled());
    bench.button("Cancel");
    assert_eq!(**bench.session().document(), demo());
    assert_eq!(bench.steps(), 0);
}

#[test]
fn another_meaning_or_decimal_mark_is_checked_at_once() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    fs::write(&path, TABLE).expect("written");
    let mut bench = import(&path);
    bench.pick("Decimal mark", "point");
    assert!(bench.says("is no number with a decimal point"));
    bench.pick("Decimal mark", "comma");
    assert!(bench.says("2 rows, 2 good."));
    bench.pick("Column 1: Product", "not used");
    assert!(bench.says("no column is chosen for the name"));
    bench.pick("Column 1: Product", "name");
    bench.pick("Delimiter", "tab");
    assert!(bench.says("no column is chosen for the name"));
    bench.pick("Delimiter", "semicolon");
    assert!(bench.has(Role::Button, "Import 2 ingredients"));
}

#[test]
fn a_file_that_is_no_table_is_named_and_the_dialog_stays() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    fs::write(&path, "name,ABV\nA,\"40\n").expect("written");
    let mut bench = import(&path);
    assert!(bench.says("row 2: a quote (\") is opened and never closed"));
    assert!(bench.says("larder.csv"));
    let long = format!("name,ABV\n{}", "Gin,40\n".repeat(200_000));
    fs::write(&path, long).expect("written");
    bench.button("Read");
    assert!(bench.says("has more than 5000 rows"));
    assert!(!bench.has(Role::ComboBox, "Delimiter"));
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn an_export_is_written_and_replaced_only_when_asked() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder");
    let mut bench = ask(demo(), "export ingredients");
    assert!(bench.control(Role::TextInput, "Path").is_focused());
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    assert!(bench.says("Written to "));
    let path = folder.path().join("larder.csv");
    let written = fs::read_to_string(&path).expect("it is there");
    assert_eq!(written.lines().count(), 1 + demo().ingredients.len());
    bench.button("Export");
    assert!(bench.says("There is a file of that name."));
    bench.button("Replace it");
    assert!(bench.says("Written to "));
    assert!(folder.path().join("larder.csv.bak").exists());
    fs::write(&path, "something else").expect("written");
    bench.button("Export");
    bench.button("Replace it");
    assert!(bench.says("Not written: the file there is no table"));
    assert_eq!(fs::read_to_string(&path).expect("text"), "something else");
    bench.button("Close");
    assert!(!bench.has(Role::TextInput, "Path"));
}

#[test]
fn what_was_exported_is_imported_into_another_document_with_every_figure() {
    let folder = tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    let mut bench = ask(demo(), "export ingredients");
    bench.type_text(&path.display().to_string());
    bench.press(Key::Enter);
    let mut bench = import_into(Document::default(), &path);
    let cancel = bench.place(Role::Button, "Cancel");
    assert!(
        cancel.bottom() < 800.0 && cancel.right() < 1280.0,
        "{cancel:?}"
    );
    bench.button(&format!("Import {} ingredients", demo().ingredients.len()));
    let mut sent: Vec<_> = demo()
        .ingredients
        .values()
        .map(|item| (**item).clone())
        .collect();
    let mut got: Vec<_> = bench
        .session()
        .document()
        .ingredients
        .values()
        .map(|item| (**item).clone())
        .collect();
    for list in [&mut sent, &mut got] {
        list.sort_by(|a, b| a.name.cmp(&b.name));
        for item in list {
            item.origin = Origin::Own;
        }
    }
    assert_eq!(got, sent);
}
