//! The Submission page: words, glass, readers, the sheet on screen, and what leads to a field.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::{
    Document, Entry, GlassShape, Openness, PaperSize, ServicePlan, SheetPart, Spec, SpecId, Stage,
};
use equipour::service::Act;
use equipour::store::Settings;
use std::sync::Arc;

/// The drink whose ingredients are made in house.
const HOUSE: SpecId = SpecId(12);
const ROOMY: Vec2 = vec2(1900.0, 1500.0);

/// The page on a document.
pub(crate) fn page_on(document: Document) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), ROOMY);
    bench.chord(CTRL, Key::Num4);
    bench
}

/// The page on the demo's drink with a story.
pub(crate) fn page() -> Workbench {
    page_on(demo())
}

/// The page on the demo's drink whose ingredients are made in house.
pub(crate) fn house_page() -> Workbench {
    let mut document = demo();
    document.specs.retain(|spec| spec.id == HOUSE);
    page_on(document)
}

impl Workbench {
    pub(crate) fn drink(&self) -> &Spec {
        self.session().spec().expect("a drink is on screen")
    }

    pub(crate) fn entry(&self) -> &Entry {
        &self.drink().entry
    }

    pub(crate) fn plan(&self) -> &ServicePlan {
        &self.drink().service
    }

    pub(crate) fn stage(&self) -> &Stage {
        &self.drink().stage
    }

    /// Brings a control into view and presses it.
    #[track_caller]
    pub(crate) fn take(&mut self, role: Role, name: &str) {
        self.wait();
        self.control(role, name).scroll_to_me();
        self.run();
        self.click(role, name);
    }

    /// Types over all of a field and leaves it by Enter, or by a press elsewhere where Enter begins a line.
    #[track_caller]
    pub(crate) fn write_into(&mut self, role: Role, name: &str, text: &str) {
        self.take(role, name);
        self.chord(CTRL, Key::A);
        if text.is_empty() {
            self.press(Key::Delete);
        } else {
            self.type_text(text);
        }
        if role == Role::MultilineTextInput {
            self.click(Role::Button, "Sheet for judges");
        } else {
            self.press(Key::Enter);
        }
    }

    /// What the sheet on screen says.
    #[track_caller]
    pub(crate) fn sheet(&self) -> String {
        let nodes = self.harness.query_all_by_role(Role::Image);
        let mut pages = nodes.filter(|node| {
            let name = node.accesskit_node().label().unwrap_or_default();
            name.starts_with("Page 1 of ")
        });
        let page = pages.next().expect("a page is shown");
        let node = page.accesskit_node();
        node.data().description().unwrap_or_default().to_owned()
    }

    /// Takes back every step: the document is what it was.
    #[track_caller]
    pub(crate) fn all_back(&mut self, was: &Document) {
        for _ in 0..self.steps() {
            self.chord(CTRL, Key::Z);
        }
        assert_eq!(**self.session().document(), *was);
    }
}

#[test]
fn the_page_shows_rules_the_sheet_and_the_service() {
    let bench = page();
    for name in [
        "Rules",
        "Words",
        "Glass",
        "Readers",
        "Batch",
        "Shopping",
        "Prep plan",
        "Stage",
        "Labels",
    ] {
        assert!(bench.has(Role::Button, name), "{name}");
    }
    let sheet = bench.sheet();
    for words in [
        "Salt Meadow",
        "Ingredients",
        "caraway spirit",
        "by Ilka Morvan",
    ] {
        assert!(sheet.contains(words), "{words}");
    }
}

#[test]
fn a_story_is_written_counted_shown_and_taken_back() {
    let mut bench = page();
    let was = demo();
    bench.choose("Words");
    bench.write_into(
        Role::MultilineTextInput,
        "Story",
        "Salt, caraway, and a door.",
    );
    assert_eq!(bench.entry().story, "Salt, caraway, and a door.");
    assert!(bench.says("5 words"));
    assert!(bench.sheet().contains("Salt, caraway, and a door."));
    assert_eq!(bench.steps(), 1);
    bench.all_back(&was);
    assert!(bench.sheet().contains("At low tide"));
}

#[test]
fn every_field_of_words_is_one_step_and_stands_on_the_sheet() {
    let mut bench = page();
    let was = demo();
    bench.choose("Words");
    let several = Role::MultilineTextInput;
    for (role, name, text) in [
        (Role::TextInput, "Maker", "Ada Quill"),
        (several, "Method", "Shake it.\nPour it."),
        (Role::TextInput, "Garnish", "a mint leaf"),
        (several, "Substitutes", "salt: none"),
        (Role::TextInput, "Menu line", "Dune and tide"),
        (Role::TextInput, "Price on the menu", "99,5"),
    ] {
        let before = bench.steps();
        bench.write_into(role, name, text);
        assert_eq!(bench.steps(), before + 1, "{name}");
    }
    let sheet = bench.sheet();
    for words in [
        "by Ada Quill",
        "2. Pour it.",
        "a mint leaf",
        "salt: none",
        "Dune and tide",
        "99.50 EUR",
    ] {
        assert!(sheet.contains(words), "{words}: {sheet}");
    }
    bench.write_into(Role::TextInput, "Price on the menu", "cheap");
    assert!(bench.says("\"cheap\" is no plain number"));
    assert_eq!(bench.entry().price, Some(99.5));
    bench.press(Key::Escape);
    bench.all_back(&was);
}

#[test]
fn the_method_of_the_technique_is_taken_over_to_be_changed() {
    let mut bench = page();
    let was = demo();
    bench.choose("Words");
    let before = bench.sheet();
    bench.take(Role::Button, "Write the method down");
    assert!(bench.entry().method.len() >= 4);
    assert_eq!(bench.sheet(), before, "the sheet says the same");
    bench.all_back(&was);
}

#[test]
fn the_maker_is_left_out_everywhere_on_screen() {
    let mut bench = page();
    let was = demo();
    bench.choose("Words");
    assert!(bench.sheet().contains("Ilka Morvan"));
    bench.take(Role::CheckBox, "Leave the maker out");
    for reader in ["judges", "bar", "home"] {
        bench.click(Role::Button, &format!("Sheet for {reader}"));
        assert!(!bench.sheet().contains("Ilka Morvan"), "{reader}");
    }
    bench.all_back(&was);
}

#[test]
fn each_reader_sees_what_is_open_to_them() {
    let mut bench = page();
    let was = demo();
    assert!(!bench.sheet().contains("Mixed beforehand"));
    bench.click(Role::Button, "Sheet for bar");
    assert!(bench.sheet().contains("Mixed beforehand"));
    bench.choose("Readers");
    bench.take(Role::RadioButton, "batch: private");
    assert!(!bench.sheet().contains("Mixed beforehand"));
    let level = bench.entry().openness.get(&SheetPart::Batch);
    assert_eq!(level, Some(&Openness::Private));
    bench.take(Role::RadioButton, "batch: bar");
    assert_eq!(*bench.session().document().specs, *was.specs, "as usual");
    bench.take(Role::RadioButton, "cost: public");
    bench.click(Role::Button, "Sheet for home");
    assert!(bench.sheet().contains("a drink with spares"));
    bench.all_back(&was);
}

#[test]
fn paper_and_card_can_be_chosen() {
    let mut bench = page();
    let was = demo();
    bench.choose("Readers");
    bench.take(Role::RadioButton, "Paper Letter");
    assert_eq!(bench.entry().paper, PaperSize::Letter);
    bench.click(Role::Button, "Card for a phone");
    assert!(bench.is_on("Card for a phone"));
    assert!(bench.sheet().contains("Salt Meadow"));
    bench.all_back(&was);
}

#[test]
fn a_wash_line_is_told_once_the_glass_is_known() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    spec.glass.form.shape = GlassShape::Unknown;
    let was = document.clone();
    let mut bench = page_on(document);
    bench.choose("Glass");
    assert!(!bench.sheet().contains("wash line"));
    bench.pick("Shape inside the glass", GlassShape::Bowl.name());
    let words = bench.label_starting("wash line");
    assert!(words.contains("mm below the rim"), "{words}");
    let flat = bench
        .sheet()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(flat.contains(&words), "{flat}");
    // In a narrower glass the same drink stands higher.
    let below = |words: &str| -> f64 {
        let mut parts = words.split_whitespace();
        parts
            .find_map(|part| part.parse().ok())
            .expect("millimetres")
    };
    let capacity = bench.drink().glass.capacity_ml;
    bench.enter_number("Brimful of the glass", &format!("{}", capacity + 40.0));
    let lower = bench.label_starting("wash line");
    assert!(below(&lower) > below(&words), "{lower} {words}");
    bench.all_back(&was);
}

#[test]
fn a_story_that_is_too_long_is_told_and_can_be_shortened_at_once() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    Arc::make_mut(&mut spec.entry).story = "tide ".repeat(10_000).trim().to_owned();
    let mut bench = page_on(document);
    assert!(bench.says("No sheet: it is too long for 2 pages by about"));
    bench.choose("Words");
    assert!(bench.says("10000 words"));
    bench.write_into(Role::MultilineTextInput, "Story", "Short.");
    assert!(bench.sheet().contains("Short."));
}

#[test]
fn a_finding_leads_to_where_its_field_is_entered() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let entry = Arc::make_mut(&mut spec.entry);
    entry.maker.clear();
    entry.garnish.clear();
    let mut bench = page_on(document);
    let derived = bench.session().derived().expect("derived");
    let found = derived.rules.findings.iter().find_map(|finding| {
        let Some(Act::Go(field)) = finding.act else {
            return None;
        };
        Some(format!("{}: {}", field.name(), finding.title))
    });
    let name = found.expect("what is not stated is found");
    bench.take(Role::Button, &name);
    assert!(bench.has(Role::TextInput, "Maker"), "{name}");
}

#[test]
fn a_document_without_a_drink_says_what_to_do() {
    let bench = page_on(Document::default());
    assert!(bench.says("The sheet of a drink stands here as it prints."));
    assert!(bench.has(Role::Button, "Start a drink…"));
}

#[test]
fn whoever_is_led_to_a_field_of_words_can_write_at_once() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    Arc::make_mut(&mut spec.entry).garnish.clear();
    let mut bench = page_on(document);
    let derived = bench.session().derived().expect("derived");
    let finding = derived
        .rules
        .findings
        .iter()
        .find(|finding| finding.act == Some(Act::Go(equipour::service::Field::Garnish)));
    let title = finding.expect("no garnish is stated").title.clone();
    bench.take(Role::Button, &format!("Go to the garnish: {title}"));
    bench.wait();
    assert!(bench.control(Role::TextInput, "Garnish").is_focused());
    bench.type_text("lemon twist");
    assert_eq!(bench.entry().garnish, "lemon twist");
}
