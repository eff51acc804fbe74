//! The service beside the sheet: for how many and when, shopping, preparation, stage, labels.

use crate::submission::{house_page, page, page_on};
use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;

fn line(bench: &Workbench, name: &str) -> equipour::service::ShoppingLine {
    let view = bench.session().service();
    let list = view.shopping().expect("a list");
    let mut lines = list.lines.iter().filter(|line| line.name == name);
    lines.next().expect("it is bought").clone()
}

#[test]
fn numbers_of_the_service_are_set_and_batch_and_sheet_follow() {
    let mut bench = page();
    let was = demo();
    let before = line(&bench, "quince syrup").grams;
    bench.enter_number("Drinks to serve", "48");
    bench.enter_number("Hands", "3");
    bench.enter_number("Spare", "0");
    let plan = bench.plan();
    assert_eq!((plan.serves, plan.hands), (48, 3));
    assert!(plan.spare_pct.abs() < 1.0e-9);
    assert_eq!(bench.steps(), 3);
    // 24 drinks and a tenth before, 48 without a spare now.
    let now = line(&bench, "quince syrup").grams;
    assert!(
        (now / before - 48.0 / 26.4).abs() < 1.0e-9,
        "{now} {before}"
    );
    bench.click(Role::Button, "Sheet for bar");
    assert!(bench.sheet().contains("For 48 drinks."));
    bench.all_back(&was);
}

#[test]
fn a_day_and_a_time_are_taken_and_what_is_none_is_refused_in_words() {
    let mut bench = page();
    let was = demo();
    bench.write_into(Role::TextInput, "Day of the service", "2999-12-05");
    assert_eq!(bench.plan().on, "2999-12-05");
    assert!(bench.says("24 drinks on 2999-12-05 19:00"));
    bench.write_into(Role::TextInput, "Time of the service", "20:30");
    assert_eq!(bench.plan().at, "20:30");
    for (name, text, said) in [
        (
            "Day of the service",
            "2026-02-30",
            "\"2026-02-30\" is no day such as 2026-12-05",
        ),
        (
            "Time of the service",
            "half past",
            "\"half past\" is no time such as 19:30",
        ),
    ] {
        bench.write_into(Role::TextInput, name, text);
        assert!(bench.says(said), "{said}");
        assert_eq!(
            (bench.plan().on.as_str(), bench.plan().at.as_str()),
            ("2999-12-05", "20:30")
        );
        bench.take(Role::TextInput, name);
        bench.press(Key::Escape);
        assert!(!bench.says(said), "Esc gives the old one back");
    }
    bench.all_back(&was);
}

#[test]
fn working_hours_end_after_they_begin() {
    let mut bench = page();
    let was = demo();
    bench.write_into(Role::TextInput, "Work from", "23:30");
    assert!(bench.says("the end must be later than the begin"));
    assert_eq!(**bench.session().document(), was);
    bench.press(Key::Escape);
    bench.write_into(Role::TextInput, "Work from", "08:15");
    let hours = bench.plan().hours.clone().expect("hours");
    assert_eq!((hours.from.as_str(), hours.to.as_str()), ("08:15", "23:00"));
    bench.take(Role::CheckBox, "Working hours");
    assert_eq!(bench.plan().hours, None);
    bench.all_back(&was);
}

#[test]
fn a_service_in_the_past_is_told_on_the_plan() {
    let mut bench = house_page();
    bench.write_into(Role::TextInput, "Day of the service", "2001-01-01");
    bench.choose("Prep plan");
    assert!(bench.says("No plan: the service was at 2001-01-01"));
}

#[test]
fn a_pour_is_kept_apart_for_the_day() {
    let mut bench = page();
    let was = demo();
    bench.take(Role::CheckBox, "Keep quince syrup for the day");
    let row = "quince-syrup".into();
    assert!(bench.plan().on_the_day.contains(&row));
    bench.click(Role::Button, "Sheet for bar");
    let sheet = bench.sheet();
    let (_, later) = sheet.split_once("On the day:").expect("it is said");
    assert!(later.contains("quince syrup"));
    bench.take(Role::CheckBox, "Keep quince syrup for the day");
    assert!(bench.plan().on_the_day.is_empty());
    bench.all_back(&was);
}

#[test]
fn bottling_is_switched_on_and_its_bottles_are_told() {
    let mut bench = page();
    let was = demo();
    bench.take(Role::CheckBox, "Bottled before the service");
    assert!(bench.says("Bottled with "));
    bench.take(Role::CheckBox, "Own share of water");
    assert_eq!(bench.plan().bottling.dilution, Some(0.25));
    bench.enter_number("Bottle", "500");
    assert!((bench.plan().bottling.bottle_ml - 500.0).abs() < 1.0e-9);
    bench.all_back(&was);
}

#[test]
fn what_is_in_the_house_comes_off_the_list() {
    let mut bench = page();
    let was = demo();
    bench.choose("Shopping");
    let before = line(&bench, "quince syrup");
    let packs = before.packs.expect("it has a price");
    assert!(packs.count >= 1);
    let name = "quince syrup in the house, g";
    bench.write_into(Role::TextInput, name, "100");
    let now = line(&bench, "quince syrup");
    assert!((before.to_buy_g - now.to_buy_g - 100.0).abs() < 1.0e-6);
    assert!(
        (before.grams - now.grams).abs() < 1.0e-9,
        "as much is taken"
    );
    bench.write_into(Role::TextInput, name, "100000");
    assert_eq!(line(&bench, "quince syrup").packs, None);
    assert!(bench.says("enough"));
    bench.write_into(Role::TextInput, name, "plenty");
    assert!(bench.says("\"plenty\" is no plain number"));
    bench.press(Key::Escape);
    bench.all_back(&was);
}

#[test]
fn the_plan_is_drawn_described_and_listed() {
    let mut bench = house_page();
    bench.choose("Prep plan");
    let said = bench.description(Role::Image, "Prep plan");
    let view = bench.session().service();
    let plan = view
        .plan()
        .expect("a plan")
        .as_ref()
        .expect("it can be kept");
    let begin = format!("{} jobs from ", plan.jobs.len());
    assert!(
        said.starts_with(&begin) && said.contains(" of work."),
        "{said}"
    );
    for line in equipour::session::plan_lines(&view, plan) {
        assert!(bench.says(&line), "{line}");
    }
    assert!(bench.says("No day is set"));
}

#[test]
fn steps_of_the_stage_are_written_changed_moved_and_removed() {
    let mut bench = page();
    let was = demo();
    bench.choose("Stage");
    bench.take(Role::Button, "Write the steps down");
    let count = bench.stage().steps.len();
    assert!(count >= 3);
    let first = bench.stage().steps[0].does.clone();
    bench.write_into(Role::TextInput, "Step 1, what is said", "Good evening.");
    assert_eq!(bench.stage().steps[0].says, "Good evening.");
    bench.enter_number("Step 1, seconds", "33");
    assert!((bench.stage().steps[0].seconds - 33.0).abs() < 1.0e-9);
    assert!(bench.is_disabled(Role::Button, "Step 1 up"));
    bench.take(Role::Button, "Step 1 down");
    assert_eq!(bench.stage().steps[1].does, first);
    bench.take(Role::Button, "Step 2 up");
    assert_eq!(bench.stage().steps[0].does, first);
    bench.take(Role::Button, "Remove step 2");
    assert_eq!(bench.stage().steps.len(), count - 1);
    bench.take(Role::Button, "Add a step to the stage");
    assert_eq!(bench.stage().steps.len(), count);
    let name = format!("Step {count}, what is done");
    bench.write_into(Role::TextInput, &name, "Bow");
    assert_eq!(bench.stage().steps[count - 1].does, "Bow");
    bench.take(Role::Button, "Steps as the technique says");
    assert!(bench.stage().steps.is_empty());
    bench.all_back(&was);
}

#[test]
fn rehearsals_are_logged_changed_and_removed() {
    let mut bench = page();
    let was = demo();
    bench.choose("Stage");
    let count = bench.stage().rehearsals.len();
    assert!(bench.says(&format!("{count} rehearsals: best 4:36")));
    bench.take(Role::Button, "Log a rehearsal");
    assert_eq!(bench.stage().rehearsals.len(), count + 1);
    let number = count + 1;
    bench.enter_number(&format!("Rehearsal {number}, seconds"), "200");
    bench.write_into(
        Role::TextInput,
        &format!("Rehearsal {number}, remark"),
        "best yet",
    );
    let held = bench.stage().rehearsals[count].clone();
    assert_eq!((held.seconds, held.note.as_str()), (200.0, "best yet"));
    assert!(equipour::model::is_day(&held.on));
    assert!(bench.says(&format!("{number} rehearsals: best 3:20")));
    bench.take(Role::Button, &format!("Remove rehearsal {number}"));
    assert_eq!(bench.stage().rehearsals.len(), count);
    bench.all_back(&was);
}

#[test]
fn more_tools_and_the_state_of_the_glass_are_words() {
    let mut bench = page();
    let was = demo();
    bench.choose("Stage");
    bench.write_into(Role::MultilineTextInput, "More tools", "tweezers\natomiser");
    assert_eq!(bench.stage().tools, ["tweezers", "atomiser"]);
    bench.write_into(Role::TextInput, "State of the glass", "frosted");
    assert!(bench.sheet().contains("frosted"));
    bench.all_back(&was);
}

#[test]
fn labels_are_shown_for_all_that_is_made() {
    let mut bench = house_page();
    bench.choose("Labels");
    let view = bench.session().service();
    let labels = view.labels().expect("a batch").as_ref().expect("labels");
    assert!(
        labels.len() >= 4,
        "both that are made, and what is left of them"
    );
    for label in labels {
        let copy = format!("Copy the label of {}", label.name);
        assert!(bench.has(Role::Button, &copy), "{copy}");
        for line in &label.lines {
            assert!(bench.says(&line.text), "{}", line.text);
        }
    }
    assert!(bench.says("made today"));
    let mut plain = page();
    plain.choose("Labels");
    assert!(plain.says("Nothing is made or bottled for this service."));
}

#[test]
fn every_tab_works_without_a_pour() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let trial = spec.trials.last_mut().expect("a trial");
    std::sync::Arc::make_mut(trial).pours.clear();
    let mut bench = page_on(document);
    for tab in ["Shopping", "Prep plan", "Stage", "Labels", "Batch"] {
        bench.choose(tab);
    }
    for tab in ["Words", "Glass", "Readers", "Rules"] {
        bench.choose(tab);
    }
}

#[test]
fn a_blank_time_shows_the_time_that_the_plan_takes() {
    let mut bench = page();
    bench.write_into(Role::TextInput, "Time of the service", "");
    bench.click(Role::Button, "Prep plan");
    assert!(bench.says("No time is set: the plan takes 18:00."));
    let service = |bench: &Workbench| {
        let view = bench.session().service();
        let plan = view.plan().expect("a batch").as_ref().expect("a plan");
        (plan.service.hour(), plan.service.minute())
    };
    assert_eq!(service(&bench), (18, 0));
    assert_eq!(bench.painted("18:00"), 1, "the hint");
    bench.write_into(Role::TextInput, "Time of the service", "19:30");
    assert!(!bench.says("No time is set"));
    assert_eq!(service(&bench), (19, 30));
}

#[test]
fn a_pour_of_nothing_is_left_out_of_the_sheet_and_of_the_bench_and_stays_on_balance() {
    let mut bench = page();
    let named = |bench: &Workbench| bench.sheet().matches("quince syrup").count();
    let before = named(&bench);
    bench.chord(CTRL, Key::Num1);
    bench.enter_amount("quince syrup", "0");
    assert!(bench.says("left out"), "in its row");
    let names = |bench: &Workbench| -> Vec<String> {
        let view = bench.session().service();
        let batch = view.made().expect("a batch");
        batch.lines.iter().map(|line| line.name.clone()).collect()
    };
    assert!(!names(&bench).contains(&"quince syrup".to_owned()));
    let text = equipour::session::document_as_text(bench.session());
    assert!(!text.contains("g  quince syrup"), "{text}");
    bench.chord(CTRL, Key::Num4);
    // The words of the entry name it further on as something to replace.
    assert!(named(&bench) < before, "{}", bench.sheet());
}
