//! Settings and coming back: what is set and left is there at the next start.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo, session_on};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Theme, vec2};
use egui_kittest::kittest::Queryable as _;
use equipour::model::Document;
use equipour::store::{Folders, Settings, load_layout, load_settings, save_settings};
use equipour::ui::Window;
use std::fs;
use std::thread::sleep;
use std::time::Duration;
use tempfile::{TempDir, tempdir};

fn home() -> (TempDir, Folders) {
    let home = tempdir().expect("a folder");
    let folders = Folders::below(home.path());
    // Without a file the guided start would open.
    save_settings(&Settings::default(), &folders.settings_file()).expect("they can be saved");
    (home, folders)
}

impl Workbench {
    /// The window as it starts with settings and layout of these folders.
    fn started(document: Document, folders: &Folders) -> Self {
        let session = session_on(document);
        let (settings, trouble) = load_settings(&folders.settings_file());
        assert_eq!(trouble, None);
        let mut window = Window::new(session, settings, Some(folders.clone()));
        window.come_back(true);
        Self::with(window, vec2(1280.0, 800.0))
    }

    fn fill(&mut self, name: &str, text: &str) {
        self.wait();
        self.click(Role::TextInput, name);
        self.chord(CTRL, Key::A);
        self.type_text(text);
        self.press(Key::Enter);
    }

    fn command(&mut self, letters: &str) {
        self.chord(CTRL, Key::P);
        self.type_text(letters);
        self.press(Key::Enter);
    }

    /// Lets time pass until the layout is written.
    fn rest(&mut self) {
        for _ in 0..3 {
            self.wait();
        }
    }
}

#[test]
fn everything_set_in_the_dialog_is_there_at_the_next_start() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    bench.chord(CTRL, Key::Comma);
    bench.choose("Dark");
    bench.pick("Size of everything", "150 %");
    bench.click(Role::CheckBox, "Less motion");
    bench.pick("Unit of new drinks", "cl");
    bench.fill("Ounce of new documents", "29.5735");
    bench.fill("Jiggers of new documents", "12.5 40");
    bench.fill("Currency of new documents", "CHF");
    bench.fill("Smallest change of new documents, sweet", "25");
    // No end: a program that is killed keeps them all the same.
    let (kept, said) = load_settings(&folders.settings_file());
    assert_eq!(said, None);
    assert_eq!(kept.beginning.jiggers_ml, [12.5, 40.0]);
    drop(bench);

    let mut bench = Workbench::started(demo(), &folders);
    let ctx = bench.harness.ctx.clone();
    assert_eq!(ctx.theme(), Theme::Dark);
    assert!((ctx.zoom_factor() - 1.5).abs() < 1.0e-6);
    assert_eq!(ctx.style_of(Theme::Dark).animation_time, 0.0);
    assert!(!ctx.style_of(Theme::Dark).visuals.text_cursor.blink);
    assert_eq!(
        **bench.session().document(),
        demo(),
        "the demo is as it was"
    );
    bench.chord(CTRL_SHIFT, Key::N);
    let document = bench.session().document();
    assert_eq!(document.measures.ounce_ml, 29.5735);
    assert_eq!(document.jiggers_ml, [12.5, 40.0]);
    assert_eq!(document.currency, "CHF");
    assert!((document.senses.sweet.weber - 0.25).abs() < 1.0e-12);
    assert_eq!(document.senses.sour, Document::default().senses.sour);
}

#[test]
fn what_cannot_stand_is_refused_by_the_name_of_its_field_and_nothing_is_kept() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    bench.chord(CTRL, Key::Comma);
    bench.fill("Ounce of new documents", "0");
    assert!(bench.says("Ounce: ounce_ml is 0"));
    bench.fill("Jiggers of new documents", "two");
    assert!(bench.says("Jiggers: "));
    let (kept, _) = load_settings(&folders.settings_file());
    assert_eq!(kept.beginning, Settings::default().beginning);
}

#[test]
fn a_setting_goes_into_the_open_document_in_one_step_and_back() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    bench.chord(CTRL, Key::Comma);
    assert!(!bench.has(Role::Button, "Use in this document: currency"));
    bench.fill("Currency of new documents", "CHF");
    assert!(bench.says("this document: EUR"));
    bench.button("Use in this document: currency");
    assert_eq!(bench.session().document().currency, "CHF");
    assert_eq!(bench.steps(), 1);
    assert!(!bench.has(Role::Button, "Use in this document: currency"));
    bench.fill("Ounce of new documents", "28.4");
    bench.button("Take from this document: ounce");
    let (kept, _) = load_settings(&folders.settings_file());
    assert_eq!(kept.beginning.ounce_ml, demo().measures.ounce_ml);
    bench.press(Key::Escape);
    bench.chord(CTRL, Key::Z);
    assert_eq!(**bench.session().document(), demo());
}

#[test]
fn keys_change_the_size_within_its_bounds_and_it_is_kept() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    let zoom = |bench: &Workbench| (bench.harness.ctx.zoom_factor() * 100.0).round();
    bench.chord(CTRL, Key::Minus);
    assert_eq!(zoom(&bench), 100.0);
    bench.chord(CTRL, Key::Plus);
    bench.chord(CTRL, Key::Equals);
    assert_eq!(zoom(&bench), 120.0);
    assert_eq!(load_settings(&folders.settings_file()).0.scale_pct, 120);
    for _ in 0..20 {
        bench.chord(CTRL, Key::Plus);
    }
    assert_eq!(zoom(&bench), 200.0);
    bench.chord(CTRL, Key::Num0);
    assert_eq!(zoom(&bench), 100.0);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn page_charts_and_hidden_panels_come_back_and_the_usual_layout_with_one_command() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    bench.choose("How sure");
    bench.map_key(Key::C);
    bench.press(Key::F7);
    assert!(!bench.has(Role::Slider, "caraway spirit"));
    assert!(bench.says("F7 shows it again"));
    bench.press(Key::F9);
    assert!(!bench.says("What brings what"));
    bench.press(Key::F9);
    bench.chord(CTRL, Key::Num3);
    bench.rest();
    drop(bench);

    let mut bench = Workbench::started(demo(), &folders);
    assert!(bench.says("Side by side"), "the page of trials");
    bench.chord(CTRL, Key::Num1);
    assert!(!bench.has(Role::Slider, "caraway spirit"), "still hidden");
    bench.rest();
    let kept = load_layout(&folders.layout_file());
    assert_eq!(kept.tabs["charts"], "Sureness");
    assert!(!kept.shows["classics"]);
    bench.command("usual layout");
    assert!(bench.has(Role::Slider, "caraway spirit"));
    bench.rest();
    let kept = load_layout(&folders.layout_file());
    assert_eq!(kept.tabs["charts"], "Contributions");
    assert!(kept.shows["classics"]);
    assert!(kept.hidden.is_empty() && kept.widths.is_empty());
    assert_eq!(kept.page, "Balance");
}

#[test]
fn a_panel_is_as_wide_as_it_was_left() {
    let (_home, folders) = home();
    let mut bench = Workbench::started(demo(), &folders);
    let edge = |bench: &Workbench| bench.place(Role::Button, "More for caraway spirit").right();
    let was = edge(&bench);
    let handles = bench
        .harness
        .query_all_by_role_and_label(Role::Splitter, "Resize panel");
    let places = handles.map(|handle| handle.rect().center());
    let first = places.min_by(|a, b| a.x.total_cmp(&b.x));
    let from = first.expect("the panel has an edge to drag");
    bench.drag(from, from + vec2(80.0, 0.0));
    let wider = edge(&bench);
    assert!(wider > was + 60.0, "{was} to {wider}");
    bench.rest();
    drop(bench);
    let mut bench = Workbench::started(demo(), &folders);
    assert!((edge(&bench) - wider).abs() < 1.0);
    bench.command("usual layout");
    assert!((edge(&bench) - was).abs() < 1.0);
}

#[test]
fn a_damaged_layout_is_no_reason_not_to_start() {
    let (_home, folders) = home();
    let file = folders.layout_file();
    fs::create_dir_all(file.parent().expect("a folder")).expect("made");
    for text in [
        "(((",
        "(page: \"Cellar\", tabs: {\"charts\": \"Clouds\"}, axes: Some((Sour, Sour)))",
        "(widths: {\"pours\": 3900.0, \"target\": 21.0}, hidden: [\"nothing left\"])",
    ] {
        fs::write(&file, text).expect("written");
        let bench = Workbench::started(demo(), &folders);
        assert!(bench.has(Role::Slider, "caraway spirit"), "{text}");
        assert_eq!(bench.messages(), [""; 0]);
    }
}

/// Waits for the thread that writes.
#[track_caller]
fn until_said(bench: &mut Workbench, words: &str) {
    for _ in 0..3_000 {
        if bench.says(words) {
            return;
        }
        sleep(Duration::from_millis(10));
        bench.harness.step();
    }
    panic!("never said: {words}");
}

#[test]
fn the_last_sheet_is_written_again_in_one_step_and_another_file_is_left_alone() {
    let (home, folders) = home();
    let path = home.path().join("sheet.md");
    let mut bench = Workbench::started(demo(), &folders);
    bench.chord(CTRL_SHIFT, Key::E);
    assert!(bench.says("No sheet was written yet"));
    bench.pick("Kind of file", "Markdown");
    bench.fill("Path", &path.display().to_string());
    until_said(&mut bench, "Written to ");
    bench.button("Close");
    let first = fs::read_to_string(&path).expect("it is there");
    bench.enter_amount("caraway spirit", "40");
    drop(bench);

    let mut bench = Workbench::started(demo(), &folders);
    bench.enter_amount("caraway spirit", "40");
    bench.chord(CTRL_SHIFT, Key::E);
    until_said(&mut bench, "Written again: ");
    let second = fs::read_to_string(&path).expect("it is there");
    assert_ne!(first, second);
    assert!(second.contains("40 ml"), "{second}");

    fs::write(&path, "somebody else's").expect("written");
    bench.chord(CTRL_SHIFT, Key::E);
    until_said(&mut bench, "Not written: at ");
    assert_eq!(fs::read_to_string(&path).expect("text"), "somebody else's");
}

#[test]
fn another_drink_never_takes_the_place_of_the_last_sheet() {
    let (home, folders) = home();
    let path = home.path().join("sheet.txt");
    let mut bench = Workbench::started(demo(), &folders);
    bench.chord(CTRL, Key::E);
    bench.pick("Kind of file", "plain text");
    bench.fill("Path", &path.display().to_string());
    until_said(&mut bench, "Written to ");
    bench.button("Close");
    let was = fs::read_to_string(&path).expect("it is there");
    let other = demo().specs[0].name.clone();
    assert!(!was.starts_with(&other));
    bench.pick("Drink", &other);
    bench.chord(CTRL_SHIFT, Key::E);
    assert!(bench.says("choose how to write it"));
    assert_eq!(bench.shown("Kind of file"), "plain text");
    assert_eq!(fs::read_to_string(&path).expect("it is there"), was);
}
