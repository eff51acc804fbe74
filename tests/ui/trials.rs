//! The page of trials.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::{Trial, TrialId};
use std::sync::Arc;

fn page() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench
}

fn shown(bench: &Workbench) -> String {
    bench
        .session()
        .trial()
        .expect("a trial is shown")
        .name
        .clone()
}

#[test]
fn the_trial_on_screen_stands_beside_its_parent_before_anything_is_ticked() {
    let bench = page();
    assert!(bench.has(Role::Button, "Column A: Quince for honey"));
    assert!(bench.has(Role::Button, "Column B: Second round"));
    assert!(bench.says("10 ml lemon juice"));
    assert!(bench.says("12.5 ml  (+2.5 ml) lemon juice"));
}

#[test]
fn what_changed_between_the_second_and_the_fifth_trial_takes_two_ticks() {
    let mut bench = page();
    bench.click(Role::CheckBox, "Compare Caraway base");
    bench.click(Role::CheckBox, "Compare Second round");
    assert!(bench.has(Role::Button, "Column A: Caraway base"));
    assert!(bench.says("45 ml  (−5 ml) caraway spirit"));
    assert!(bench.says("17.5 ml quince syrup"));
    assert!(bench.says("2 tsp honey syrup 1:1 (by weight)"));
}

#[test]
fn rows_in_which_all_are_alike_can_go() {
    let mut bench = page();
    bench.click(Role::CheckBox, "Compare As published");
    bench.click(Role::CheckBox, "Compare Caraway base");
    assert!(bench.says("22.5 ml lemon juice") && bench.says("52.5 ml gin (london dry)"));
    bench.click(Role::CheckBox, "Only what differs");
    assert!(!bench.says("22.5 ml lemon juice") && bench.says("52.5 ml gin (london dry)"));
}

#[test]
fn a_fifth_trial_cannot_be_ticked_and_a_tick_can_be_taken_back() {
    let mut bench = page();
    for name in [
        "As published",
        "Caraway base",
        "Sea buckthorn",
        "Quince for honey",
    ] {
        bench.click(Role::CheckBox, &format!("Compare {name}"));
    }
    assert!(bench.is_disabled(Role::CheckBox, "Compare Second round"));
    bench.click(Role::CheckBox, "Compare As published");
    assert!(!bench.is_disabled(Role::CheckBox, "Compare Second round"));
    assert!(bench.has(Role::Button, "Column A: Caraway base"));
    bench.button("Clear the comparison");
    assert!(bench.has(Role::Button, "Column B: Second round"));
}

#[test]
fn one_key_flicks_between_two_trials_on_every_page() {
    let mut bench = page();
    assert_eq!(shown(&bench), "Second round");
    bench.press(Key::F6);
    assert_eq!(shown(&bench), "Quince for honey");
    bench.chord(CTRL, Key::Num1);
    bench.press(Key::F6);
    assert_eq!(shown(&bench), "Second round");
    assert_eq!(bench.steps(), 0, "nothing of the document changed");
}

#[test]
fn the_column_compared_with_can_be_another_one() {
    let mut bench = page();
    bench.click(Role::RadioButton, "Compare with Second round");
    assert!(bench.says("10 ml  (−2.5 ml) lemon juice"));
}

#[test]
fn five_thousand_trials_are_listed_without_drawing_them_all() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("there is a drink");
    let last = Trial::clone(spec.trials.last().expect("there is one"));
    for number in 0..5_000 {
        let id = TrialId(document.next_number);
        document.next_number += 1;
        spec.trials.push(Arc::new(Trial {
            id,
            name: format!("Copy {number}"),
            parent: Some(last.id),
            ..last.clone()
        }));
    }
    let mut bench = Workbench::on(document);
    bench.chord(CTRL, Key::Num3);
    assert!(bench.has(Role::CheckBox, "Compare As published"));
    assert!(bench.has(Role::CheckBox, "Compare Copy 3"));
    assert!(!bench.has(Role::CheckBox, "Compare Copy 4000"));
}

#[test]
fn several_trials_chosen_with_ctrl_are_changed_in_one_step() {
    let mut bench = page();
    let on_screen = shown(&bench);
    for name in ["Caraway base", "Sea buckthorn"] {
        bench.control(Role::Button, name).click_modifiers(CTRL);
        bench.run();
    }
    assert_eq!(shown(&bench), on_screen, "choosing shows nothing else");
    // By key one is let go and another one taken.
    bench.control(Role::Button, "Caraway base").focus();
    bench.run();
    bench.chord(CTRL, Key::Space);
    bench.control(Role::Button, "Quince for honey").focus();
    bench.run();
    bench.chord(CTRL, Key::Space);
    bench.button("Star 3 trials");
    let starred = |bench: &Workbench| -> Vec<String> {
        let spec = bench.session().spec().expect("a drink is shown");
        let trials = spec.trials.iter().filter(|trial| trial.starred);
        trials.map(|trial| trial.name.clone()).collect()
    };
    for name in ["Sea buckthorn", "Quince for honey", &on_screen] {
        assert!(starred(&bench).iter().any(|known| known == name), "{name}");
    }
    assert!(!starred(&bench).iter().any(|known| known == "Caraway base"));
    assert_eq!(bench.steps(), 1);
    bench.button("Throw 3 trials away");
    assert_eq!(bench.steps(), 2);
    let spec = bench.session().spec().expect("a drink is shown");
    assert_eq!(spec.bin.len(), 3);
    bench.chord(CTRL, Key::Z);
    // A plain click lets the others go.
    bench.button("Caraway base");
    assert_eq!(shown(&bench), "Caraway base");
    assert!(bench.has(Role::Button, "Star the trial"));
}
