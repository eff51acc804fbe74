//! Rules of a competition in the window: chosen, looked at, mended, ticked, changed, undone.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::{IngredientId, RuleKind, RuleSet, Source};
use equipour::service::{Act, Finding, RuleVerdict};
use std::sync::Arc;

const WHICH: &str = "Rules of the competition";

/// The window with the panel of rules open, on the demo's drinks without any rules.
fn open() -> Workbench {
    let mut document = demo();
    Arc::make_mut(&mut document.rule_sets).clear();
    for spec in &mut document.specs {
        let entry = Arc::make_mut(&mut spec.entry);
        entry.rules = None;
        entry.products.clear();
        entry.garnish.clear();
    }
    let mut bench = Workbench::on(document);
    bench.choose("Submission page");
    bench
}

impl Workbench {
    fn enter_under(&mut self, name: &str) {
        self.control(Role::ComboBox, WHICH).scroll_to_me();
        self.run();
        self.pick(WHICH, &format!("{name} (example)"));
    }

    fn findings(&self) -> Vec<Finding> {
        let derived = self.session().derived().expect("derived");
        derived.rules.findings.clone()
    }

    fn set(&self) -> Arc<RuleSet> {
        let document = self.session().document();
        let spec = self.session().spec().expect("a drink");
        let id = spec.entry.rules.as_ref().expect("it is entered");
        Arc::clone(&document.rule_sets[id])
    }

    /// Clicks something of the panel that may lie below its edge.
    fn reach(&mut self, role: Role, name: &str) {
        self.wait();
        self.control(role, name).scroll_to_me();
        self.run();
        self.click(role, name);
    }
}

#[test]
fn without_rules_the_panel_says_so_and_a_set_is_one_choice() {
    let mut bench = open();
    assert!(bench.says("entered under no rules"));
    bench.enter_under("Harbour Lights Cup");
    assert_eq!(bench.set().name, "Harbour Lights Cup");
    assert!(!bench.findings().is_empty());
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert!(bench.says("entered under no rules"));
    assert!(bench.session().document().rule_sets.is_empty());
}

#[test]
fn broken_rules_stand_first_and_among_the_notices() {
    let mut bench = open();
    bench.enter_under("Harbour Lights Cup");
    let broken: Vec<Finding> = bench
        .findings()
        .into_iter()
        .filter(|one| one.verdict == RuleVerdict::Broken)
        .collect();
    let first = broken.first().expect("the demo breaks some");
    assert!(bench.says(&first.title));
    let notices = bench.session().notices().iter();
    let said = notices.filter(|one| one.text.starts_with("Rule broken"));
    assert_eq!(said.count(), broken.len());
}

#[test]
fn a_product_is_chosen_and_what_is_missing_is_poured_with_one_press() {
    let mut bench = open();
    bench.enter_under("Harbour Lights Cup");
    let trial = Arc::clone(bench.session().trial().expect("a trial"));
    let Source::Ingredient(base) = &trial.pours[0].source else {
        panic!("the first pour is an ingredient");
    };
    let base: IngredientId = base.clone();
    let name = bench.session().document().ingredients[&base].name.clone();
    let combo = "Ingredient for caraway spirit";
    bench.control(Role::ComboBox, combo).scroll_to_me();
    bench.run();
    bench.pick(combo, &name);
    let spec = bench.session().spec().expect("a drink");
    assert_eq!(spec.entry.products["caraway spirit"], base);
    // Ask for more than is poured.
    bench.reach(Role::Button, "Change the rules");
    bench.reach(Role::Button, "Change rule 2");
    bench
        .control(Role::SpinButton, "At least of rule 2")
        .scroll_to_me();
    bench.run();
    bench.enter_number("At least of rule 2", "95");
    let RuleKind::ProductAtLeast { ml, .. } = bench.set().rules[1].asks else {
        panic!("it is a product rule");
    };
    assert!((ml - 95.0).abs() < 1.0e-9);
    let found = bench.findings()[1].clone();
    let Some(Act::Pour { place, amount }) = found.act else {
        panic!("{found:?}");
    };
    let pour = &bench.session().trial().expect("a trial").pours[place];
    let measures = bench.session().document().measures;
    let words = format!(
        "Pour {}: {}",
        pour.amount_text(amount, &measures),
        found.title
    );
    bench.reach(Role::Button, &words);
    assert_eq!(bench.findings()[1].verdict, RuleVerdict::Kept);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.findings()[1].verdict, RuleVerdict::Broken);
}

#[test]
fn a_tick_says_who_and_falls_when_the_rule_changes() {
    let mut bench = open();
    bench.enter_under("Harbour Lights Cup");
    bench.reach(Role::TextInput, "Ticked by");
    bench.type_text("Ada");
    let title = "The garnish can be eaten";
    let tick = format!("Looked at: {title}");
    bench.reach(Role::CheckBox, &tick);
    let find = |bench: &Workbench| {
        let all = bench.findings().into_iter();
        all.into_iter()
            .find(|one| one.rule == "garnish")
            .expect("it is there")
    };
    let found = find(&bench);
    assert_eq!(found.verdict, RuleVerdict::Kept);
    let by = found.ticked.map(|tick| tick.by);
    assert_eq!(by.as_deref(), Some("Ada"));
    bench.reach(Role::Button, "Change the rules");
    let place = bench
        .set()
        .rules
        .iter()
        .position(|rule| rule.key == "garnish");
    let number = place.expect("it is there") + 1;
    bench.reach(Role::Button, &format!("Change rule {number}"));
    bench.reach(Role::TextInput, &format!("Question of rule {number}"));
    bench.press(Key::End);
    bench.type_text("The garnish can be eaten whole");
    bench.press(Key::Enter);
    assert_eq!(find(&bench).verdict, RuleVerdict::Asked);
}

#[test]
fn rules_are_added_switched_off_and_removed() {
    let mut bench = open();
    bench.enter_under("Saltmarsh Low Tide Round");
    let before = bench.set().rules.len();
    bench.reach(Role::Button, "Change the rules");
    bench.reach(Role::CheckBox, "Rule 1 on");
    assert!(bench.set().rules[0].off);
    assert_eq!(bench.findings().len(), before - 1);
    bench.reach(Role::Button, "Remove rule 2");
    assert_eq!(bench.set().rules.len(), before - 1);
    bench.reach(Role::Button, "Add a rule");
    bench.click(Role::Button, "Add: Most alcohol");
    assert_eq!(bench.set().rules.len(), before);
    assert!(bench.has(Role::SpinButton, &format!("At most of rule {before}")));
    for _ in 0..3 {
        bench.chord(CTRL, Key::Z);
    }
    assert_eq!(bench.set().rules.len(), before);
    assert!(!bench.set().rules[0].off);
}

#[test]
fn every_kind_of_rule_has_fields_that_can_be_shown() {
    let mut bench = open();
    bench.enter_under("Lantern Street Open");
    bench.reach(Role::Button, "Change the rules");
    for number in 1..=bench.set().rules.len() {
        let before = bench.set();
        bench.reach(Role::Button, &format!("Change rule {number}"));
        assert!(bench.has(Role::TextInput, &format!("Note of rule {number}")));
        assert_eq!(*bench.set(), *before, "showing changes nothing");
    }
}

#[test]
fn rules_go_to_a_file_and_come_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("cup.ron");
    let mut bench = open();
    bench.enter_under("Lantern Street Open");
    bench.reach(Role::TextInput, "Path of the rules");
    bench.type_text(&path.display().to_string());
    bench.reach(Role::Button, "Write the rules");
    assert!(bench.says("Written to"));
    bench.reach(Role::Button, "Write the rules");
    assert!(bench.says("There is a file of that name"));
    bench.reach(Role::Button, "Remove these rules");
    assert!(bench.session().document().rule_sets.is_empty());
    bench.reach(Role::Button, "Read the rules");
    assert_eq!(bench.set().name, "Lantern Street Open");
    std::fs::write(&path, "(format: 6, oops").expect("it is written");
    bench.reach(Role::Button, "Read the rules");
    assert!(bench.says("Not read: line 1"));
}

#[test]
fn more_notices_than_fit_are_counted_and_listed_weightiest_first() {
    let mut bench = open();
    bench.enter_under("Harbour Lights Cup");
    // Far more than the glass holds: a warning that stands above all rules.
    bench.chord(CTRL, Key::Num1);
    bench.enter_amount("lemon juice", "300");
    let texts: Vec<String> = bench
        .session()
        .notices()
        .iter()
        .map(|notice| notice.text.clone())
        .collect();
    assert!(texts.len() > 3, "{texts:?}");
    assert!(texts[0].contains("verflow"), "{texts:?}");
    assert!(bench.says(&texts[2]));
    assert!(!bench.says(&texts[3]));
    let more = format!("{} more…", texts.len() - 3);
    assert_eq!(bench.painted(&more), 1, "{more}");
    bench.button("More notices");
    for text in &texts {
        assert!(bench.says(text), "{text}");
    }
    bench.press(Key::Escape);
    assert!(!bench.says(&texts[3]));
}

#[test]
fn three_notices_below_the_charts_are_drawn_whole() {
    let mut bench = open();
    bench.enter_under("Harbour Lights Cup");
    bench.chord(CTRL, Key::Num1);
    let texts: Vec<String> = bench
        .session()
        .notices()
        .iter()
        .take(3)
        .map(|notice| notice.text.clone())
        .collect();
    for text in texts {
        let drawn = bench.texts(&text);
        let inside = drawn.iter().filter(|one| one.rect.bottom() <= 800.0);
        assert_eq!(inside.count(), 1, "{text}");
    }
}
