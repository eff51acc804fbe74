//! The whole job by keys alone: from a classic to the saved document, without any pointer.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, ViewportCommand, ViewportId, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::Document;
use equipour::store::{Settings, read_text, starter_preparations};
use std::fs;
use std::path::Path;
use std::thread::sleep;
use std::time::Duration;
use tempfile::tempdir;

/// More presses of Tab than any page needs.
const FAR: usize = 400;

/// Somebody without a mouse.
struct Typist {
    bench: Workbench,
}

impl Typist {
    fn chord(&mut self, modifiers: Modifiers, key: Key) {
        self.bench.chord(modifiers, key);
        self.no_pointer();
    }

    fn press(&mut self, key: Key) {
        self.chord(Modifiers::NONE, key);
    }

    fn types(&mut self, text: &str) {
        self.bench.type_text(text);
        self.no_pointer();
    }

    /// Nothing of this walk may come from a mouse.
    fn no_pointer(&self) {
        let pointed = self.bench.harness.ctx.input(|input| {
            input.pointer.has_pointer()
                || input.events.iter().any(|event| {
                    matches!(
                        event,
                        Event::PointerButton { .. }
                            | Event::PointerMoved(_)
                            | Event::AccessKitActionRequest(_)
                    )
                })
        });
        assert!(!pointed, "a pointer was used");
    }

    fn focused(&self) -> Option<(Role, String)> {
        let mut nodes = self.bench.harness.root().children_recursive();
        nodes.find(egui_kittest::Node::is_focused).map(|node| {
            let name = node.accesskit_node().label().unwrap_or_default();
            (node.accesskit_node().role(), name)
        })
    }

    /// Presses Tab until a control has the focus whose name is or begins so.
    #[track_caller]
    fn reach(&mut self, role: Role, name: &str) {
        let mut seen = Vec::new();
        for _ in 0..FAR {
            if let Some((its_role, its_name)) = self.focused() {
                if its_role == role && its_name.starts_with(name) {
                    return;
                }
                seen.push(its_name);
            }
            self.press(Key::Tab);
        }
        seen.dedup();
        panic!("Tab never reaches {role:?} {name}; it went {seen:?}");
    }

    /// Reaches a control and presses it.
    #[track_caller]
    fn go(&mut self, role: Role, name: &str) {
        self.reach(role, name);
        self.press(Key::Space);
    }

    /// Opens a list and takes one of its items.
    #[track_caller]
    fn pick(&mut self, list: &str, item: &str) {
        self.go(Role::ComboBox, list);
        self.go(Role::Button, item);
        let focused = self.focused().expect("something has the focus");
        assert_eq!(
            focused,
            (Role::ComboBox, list.to_owned()),
            "the list is closed"
        );
    }

    /// Reaches a field, writes over it and presses Enter.
    #[track_caller]
    fn fill(&mut self, role: Role, name: &str, text: &str) {
        self.reach(role, name);
        self.chord(CTRL, Key::A);
        self.types(text);
        if role != Role::MultilineTextInput {
            self.press(Key::Enter);
        }
    }

    /// Waits for work that is done beside the window.
    #[track_caller]
    fn until(&mut self, done: impl Fn(&Workbench) -> bool) {
        for _ in 0..3_000 {
            self.bench.harness.step();
            if done(&self.bench) {
                self.bench.run();
                return;
            }
            sleep(Duration::from_millis(10));
        }
        panic!("it never ends");
    }

    fn document(&self) -> &Document {
        self.bench.session().document()
    }

    fn poured(&self) -> usize {
        self.bench
            .session()
            .trial()
            .map_or(0, |trial| trial.pours.len())
    }

    fn name_of(&self, place: usize) -> String {
        let trial = self.bench.session().trial().expect("a trial");
        let settled = self.document().settle(trial, &trial.pours[place]);
        settled.expect("it is known").ingredient.name.clone()
    }
}

/// A document in which nothing stands yet.
fn typist() -> Typist {
    let settings = Settings::default();
    let bench = Workbench::sized(Document::default(), settings, vec2(1440.0, 900.0));
    Typist { bench }
}

/// From a classic to a trial with a locked pour and a proposal in it.
fn the_drink(one: &mut Typist) {
    let before = one.document().specs.len();
    one.chord(CTRL, Key::N);
    one.types("daiq");
    one.press(Key::Enter);
    assert_eq!(one.document().specs.len(), before + 1);
    assert!(one.poured() >= 3);
    // The base is swapped for whatever fits first.
    let base = one.name_of(0);
    one.chord(CTRL, Key::F6);
    one.go(Role::Button, &format!("More for {base}"));
    one.go(Role::Button, "Swap…");
    one.until(|bench| bench.session().swap_progress().is_none());
    one.go(Role::Button, "Choose ");
    one.until(|bench| bench.session().swap_progress().is_none());
    one.go(Role::Button, "Apply the swap");
    assert_ne!(one.name_of(0), base);
    // A pour is moved along its slider, another one is typed, and one is locked.
    let [base, second, third] = [0, 1, 2].map(|place| one.name_of(place));
    let amount = one.bench.amount(1);
    one.reach(Role::Slider, &second);
    one.press(Key::ArrowRight);
    assert!(one.bench.amount(1) > amount);
    one.fill(Role::TextInput, &format!("Amount of {third}"), "24");
    assert!((one.bench.amount(2) - 24.0).abs() < 1.0e-9);
    one.go(Role::CheckBox, &format!("Lock {base}"));
    assert!(one.bench.pour(0).locked);
    // A proposal is taken, and a trial grows with its reason.
    let poured = (one.bench.amount(1), one.bench.amount(2));
    one.chord(CTRL, Key::Enter);
    assert_ne!((one.bench.amount(1), one.bench.amount(2)), poured);
    one.chord(CTRL, Key::T);
    one.go(Role::Button, "Describe the trial");
    one.fill(Role::MultilineTextInput, "Why it was made", "less sugar");
    one.go(Role::Button, "Done");
    let trial = one.bench.session().trial().expect("a trial");
    assert_eq!(
        (trial.reason.as_str(), trial.parent.is_some()),
        ("less sugar", true)
    );
}

/// Something house-made out of a starter, and a figure of a step of it.
fn the_house(one: &mut Typist) {
    one.chord(CTRL, Key::Num2);
    one.go(Role::Button, "From a starter");
    one.go(Role::Button, &starter_preparations()[0].preparation.name);
    one.press(Key::Escape);
    let before = one.document().preparations.clone();
    assert_eq!(before.len(), 1);
    one.go(Role::Button, "Step 1:");
    one.reach(Role::SpinButton, "");
    one.chord(CTRL, Key::A);
    one.types("41");
    one.press(Key::Enter);
    assert_ne!(one.document().preparations, before);
}

/// A tasting of two trials, and one ballot of it.
fn the_tasting(one: &mut Typist) {
    one.chord(CTRL, Key::Num3);
    one.go(Role::Button, "Tastings");
    one.go(Role::Button, "New tasting…");
    one.go(Role::RadioButton, "Ranking");
    let spec = one.bench.session().spec().expect("a drink");
    let drink = spec.name.clone();
    let trial = one.bench.session().trial().expect("a trial");
    let other = spec.trials.iter().find(|other| other.id != trial.id);
    let other = other.expect("there are two").name.clone();
    one.go(Role::CheckBox, &format!("Taste {other} of {drink}"));
    one.fill(Role::MultilineTextInput, "Tasters", "Ada");
    one.go(Role::Button, "Start the tasting");
    one.go(Role::Button, "Answers");
    one.go(Role::Button, "Ballot of Ada");
    one.types("2");
    one.types("1");
    let tasting = one.document().tastings.values().next_back();
    let ranks: Vec<_> = tasting.expect("a tasting").tasters[0]
        .cups
        .iter()
        .map(|cup| cup.rank)
        .collect();
    assert_eq!(ranks, [Some(2), Some(1)]);
}

/// Rules, glass, batch, and the sheet as a file.
fn the_submission(one: &mut Typist, folder: &Path) {
    one.chord(CTRL, Key::Num4);
    one.pick("Rules of the competition", "Harbour Lights Cup");
    let spec = one.bench.session().spec().expect("a drink");
    assert!(spec.entry.rules.is_some());
    one.go(Role::CheckBox, "Looked at: ");
    let spec = one.bench.session().spec().expect("a drink");
    assert_eq!(spec.entry.ticked.len(), 1);
    one.go(Role::Button, "Glass");
    let before = one.bench.session().spec().cloned();
    one.pick("Shape inside the glass", "round bowl");
    assert_ne!(one.bench.session().spec(), before.as_ref());
    one.fill(Role::SpinButton, "Drinks to serve", "40");
    let view = one.bench.session().service();
    let batch = view.batch().expect("a drink").as_ref();
    let batch = batch.expect("it is worked out");
    assert_eq!(batch.serves, 40);
    let spare = one
        .bench
        .session()
        .spec()
        .expect("a drink")
        .service
        .spare_pct;
    let made = 40.0 * (1.0 + spare / 100.0);
    assert!((batch.made - made).abs() < 1.0e-9, "{}", batch.made);
    one.go(Role::Button, "Sheet for judges");
    one.chord(CTRL, Key::E);
    one.pick("Kind of file", "Markdown");
    let path = folder.join("sheet.md").display().to_string();
    one.fill(Role::TextInput, "Path", &path);
    one.until(|bench| bench.says("Written to "));
    assert!(fs::read_to_string(folder.join("sheet.md")).is_ok());
    one.press(Key::Escape);
}

#[test]
fn the_whole_job_is_done_without_a_pointer() {
    let folder = tempdir().expect("a folder");
    let mut one = typist();
    the_drink(&mut one);
    the_house(&mut one);
    the_tasting(&mut one);
    the_submission(&mut one, folder.path());
    one.chord(CTRL_SHIFT, Key::S);
    let path = folder.path().join("job.ron");
    one.fill(Role::TextInput, "Path", &path.display().to_string());
    let text = fs::read_to_string(&path).expect("it is saved");
    let saved = read_text(&text).expect("it reads").document;
    assert!(saved.is_same(one.document()));
    // The press alone: its frame, not that of the release, is what is read.
    one.bench.harness.event(Event::Key {
        key: Key::Q,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: CTRL,
    });
    let mut closed = false;
    for _ in 0..5 {
        one.bench.harness.step();
        let output = &one.bench.harness.output().viewport_output[&ViewportId::ROOT];
        closed |= output.commands.contains(&ViewportCommand::Close);
    }
    assert!(closed, "it quits");
}
