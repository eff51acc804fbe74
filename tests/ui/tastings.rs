//! The tab of tastings: set up, served, filled in by keyboard without names, closed and read.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Vec2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::{Attribute, Choice, Tasting, TrialState};
use equipour::store::Settings;
use std::sync::Arc;

/// The tab on the demo without its tasting.
fn tab_of(size: Vec2) -> Workbench {
    let mut document = demo();
    document.tastings = Arc::default();
    let mut bench = Workbench::sized(document, Settings::default(), size);
    bench.chord(CTRL, Key::Num3);
    bench.choose("Tastings");
    bench
}

fn tab() -> Workbench {
    tab_of(vec2(1440.0, 900.0))
}

fn write(bench: &mut Workbench, role: Role, field: &str, text: &str) {
    bench.control(role, field).scroll_to_me();
    bench.run();
    bench.click(role, field);
    bench.chord(CTRL, Key::A);
    bench.type_text(text);
}

fn tick(bench: &mut Workbench, name: &str) {
    bench.control(Role::CheckBox, name).scroll_to_me();
    bench.run();
    bench.click(Role::CheckBox, name);
}

/// The name of the drink on screen, and of two of its trials that are not.
pub(crate) fn drink_and_two(bench: &Workbench) -> (String, [String; 2]) {
    let spec = bench.session().spec().expect("a drink is on screen");
    let shown = bench.session().selection().trial;
    let others = spec.trials.iter().filter(|one| Some(one.id) != shown);
    let mut names = others.map(|one| one.name.clone());
    let two = [names.next(), names.next()].map(|name| name.expect("there are two others"));
    (spec.name.clone(), two)
}

/// A tasting of two trials by two tasters, just started.
pub(crate) fn started(method: &str) -> Workbench {
    let mut bench = tab();
    begin(&mut bench, method);
    bench
}

fn begin(bench: &mut Workbench, method: &str) {
    let (drink, two) = drink_and_two(bench);
    let shown = bench.session().trial().expect("a trial").name.clone();
    bench.button("New tasting…");
    bench.click(Role::RadioButton, method);
    tick(bench, &format!("Taste {shown} of {drink}"));
    for name in &two {
        tick(bench, &format!("Taste {name} of {drink}"));
    }
    write(bench, Role::MultilineTextInput, "Tasters", "Ada\nBen");
    bench.button("Start the tasting");
}

pub(crate) fn tasting(bench: &Workbench) -> &Tasting {
    let mut all = bench.session().document().tastings.values();
    all.next_back().expect("there is a tasting")
}

fn codes(bench: &Workbench, taster: usize) -> Vec<u16> {
    let cups = &tasting(bench).tasters[taster].cups;
    cups.iter().map(|cup| cup.code).collect()
}

fn value(bench: &Workbench, name: &str) -> String {
    let node = bench.control(Role::Button, name).accesskit_node();
    node.value().unwrap_or_default()
}

/// Fills the ballot whose first cell has the focus: digits go on by themselves.
pub(crate) fn type_ballot(bench: &mut Workbench, answers: &[&str]) {
    for digit in answers {
        bench.type_text(digit);
    }
}

/// Two cups of sweetness, sourness, strength, dilution and liking.
pub(crate) const ADA: [&str; 10] = ["3", "4", "3", "2", "7", "5", "3", "3", "3", "4"];
pub(crate) const BEN: [&str; 10] = ["2", "4", "4", "3", "8", "3", "3", "1", "3", "6"];

#[test]
fn an_empty_tab_says_what_to_do_next() {
    let mut bench = tab();
    assert!(bench.says("No tasting yet"));
    assert!(bench.says("Press “New tasting…”"));
    bench.button("New tasting…");
    assert!(bench.is_disabled(Role::Button, "Start the tasting"));
    assert!(bench.says("name at least one taster"));
    bench.click(Role::RadioButton, "Triangle test");
    assert!(bench.says("choose 1 more: triangle test takes exactly 2 trials"));
    bench.button("Leave the set-up");
    assert!(bench.says("No tasting yet"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn starting_marks_trials_opens_the_serving_plan_and_undoes_in_one_step() {
    let mut bench = tab();
    let before = bench.session().document().clone();
    let (drink, _) = drink_and_two(&bench);
    let name = bench.session().trial().expect("a trial").name.clone();
    bench.button("New tasting…");
    assert!(bench.says(&format!(
        "Starting marks as tasted, so that its figures are kept: {name}."
    )));
    write(&mut bench, Role::MultilineTextInput, "Tasters", "3");
    bench.button("Start the tasting");
    assert_eq!(tasting(&bench).title, format!("Tasting of {drink}"));
    assert_eq!(tasting(&bench).tasters.len(), 3);
    let trial = bench.session().trial().expect("a trial");
    assert_eq!(trial.state, TrialState::Tasted);
    assert!(bench.says("For the person who pours, not for tasters"));
    let code = tasting(&bench).tasters[0].cups[0].code;
    assert!(bench.says(&format!("{code}: {name}")));
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert!(bench.session().document().is_same(&before));
    assert!(bench.says("No tasting yet"));
}

#[test]
fn ballots_are_filled_by_keyboard_alone() {
    let mut bench = started("Just-about-right scales");
    bench.choose("Answers");
    bench.button("Ballot of Ada, 0 of 10 answered");
    // A big-button form for two tasters asks the same: switch to the table.
    bench.click(Role::CheckBox, "Big buttons");
    bench.button("Ballot of Ada, 0 of 10 answered");
    type_ballot(&mut bench, &ADA);
    // Enter went on to the next ballot.
    type_ballot(&mut bench, &BEN);
    let right = |taster: usize, cup: usize, attribute| {
        tasting(&bench).tasters[taster].cups[cup].right[&attribute]
    };
    assert_eq!(right(0, 0, Attribute::Sour), 4);
    assert_eq!(right(0, 1, Attribute::Sweet), 5);
    assert_eq!(right(1, 1, Attribute::Strong), 1);
    let liking = |taster: usize, cup: usize| tasting(&bench).tasters[taster].cups[cup].liking;
    assert_eq!([liking(0, 0), liking(0, 1)], [Some(7), Some(4)]);
    assert_eq!([liking(1, 0), liking(1, 1)], [Some(8), Some(6)]);
    assert!(bench.says("Every ballot is filled"));
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
}

#[test]
fn digits_beyond_the_scale_do_nothing_and_backspace_clears_in_a_step_each() {
    let mut bench = started("Just-about-right scales");
    bench.choose("Answers");
    bench.click(Role::CheckBox, "Big buttons");
    bench.button("Ballot of Ada, 0 of 10 answered");
    let name = format!("Sweetness of cup {}", codes(&bench, 0)[0]);
    let steps = bench.steps();
    bench.type_text("7");
    assert_eq!(value(&bench, &name), "–");
    assert_eq!(bench.steps(), steps);
    bench.type_text("4");
    assert_eq!(value(&bench, &name), "4");
    bench.press(Key::Backspace);
    assert_eq!(value(&bench, &name), "–");
    assert_eq!(bench.steps(), steps + 2);
    bench.chord(CTRL, Key::Z);
    assert_eq!(value(&bench, &name), "4");
}

#[test]
fn nothing_names_a_trial_while_answers_are_entered() {
    let mut bench = started("Just-about-right scales");
    let (_, two) = drink_and_two(&bench);
    let names: Vec<&String> = two.iter().collect();
    bench.choose("Answers");
    for big in [true, false] {
        for name in &names {
            assert!(!bench.says(name), "{name} is said, big buttons: {big}");
        }
        for code in codes(&bench, 0) {
            assert!(bench.says(&code.to_string()), "{code}");
        }
        bench.click(Role::CheckBox, "Big buttons");
    }
    bench.choose("Results");
    for name in &names {
        assert!(
            !bench.says(name),
            "{name} is said before the codes are lifted"
        );
    }
    bench.button("Lift the codes");
    bench.button("Close all the same");
    for name in &names {
        assert!(bench.says(name), "{name} is named after that");
    }
}

#[test]
fn closing_warns_of_missing_ballots_and_can_be_taken_back() {
    let mut bench = started("Just-about-right scales");
    bench.choose("Answers");
    bench.click(Role::CheckBox, "Big buttons");
    bench.button("Ballot of Ada, 0 of 10 answered");
    type_ballot(&mut bench, &ADA);
    bench.button("Lift the codes");
    assert!(bench.says("1 of 2 ballots is not complete: Ben."));
    assert!(!tasting(&bench).closed);
    bench.button("Go on tasting");
    assert!(!bench.has(Role::Button, "Close all the same"));
    bench.button("Lift the codes");
    bench.button("Close all the same");
    assert!(tasting(&bench).closed);
    bench.choose("Answers");
    assert!(bench.says("Reopen the tasting to change an answer"));
    bench.button("Reopen the tasting");
    assert!(!tasting(&bench).closed);
    bench.chord(CTRL, Key::Z);
    assert!(tasting(&bench).closed);
    bench.chord(CTRL, Key::Z);
    assert!(!tasting(&bench).closed);
}

#[test]
fn late_tasters_get_a_ballot_once() {
    let mut bench = started("Ranking");
    bench.choose("Answers");
    for name in ["Cleo", "cleo"] {
        bench.click(Role::TextInput, "Late taster");
        bench.type_text(name);
        bench.press(Key::Enter);
    }
    assert_eq!(tasting(&bench).tasters.len(), 3);
    assert!(bench.says("Cleo has a ballot already"));
    assert!(bench.has(Role::Button, "Ballot of Cleo, 0 of 2 answered"));
}

#[test]
fn arrows_choose_the_taster() {
    let mut bench = started("Ranking");
    bench.choose("Answers");
    bench
        .control(Role::Button, "Ballot of Ada, 0 of 2 answered")
        .focus();
    bench.run();
    bench.press(Key::ArrowDown);
    bench.press(Key::Enter);
    type_ballot(&mut bench, &["2", "1"]);
    let ranks = |taster: usize| {
        let cups = &tasting(&bench).tasters[taster].cups;
        cups.iter().map(|cup| cup.rank).collect::<Vec<_>>()
    };
    assert_eq!(ranks(1), [Some(2), Some(1)]);
    assert_eq!(ranks(0), [None, None]);
}

#[test]
fn a_triangle_is_answered_by_code_or_by_none() {
    let mut bench = started("Triangle test");
    bench.choose("Answers");
    assert!(bench.says("Which cup is the odd one?"));
    let second = codes(&bench, 0)[1];
    bench.button(&format!("Choice: {second}"));
    assert_eq!(tasting(&bench).tasters[0].choice, Some(Choice::Cup(1)));
    // The tap went on to the next taster, whose ballot takes keys.
    bench.type_text("0");
    assert_eq!(tasting(&bench).tasters[1].choice, Some(Choice::Neither));
    assert_eq!(value(&bench, "Choice"), "no difference");
}

#[test]
fn marks_above_full_marks_are_refused_beside_the_field() {
    let mut bench = started("Score sheet");
    bench.choose("Answers");
    let name = format!("Aroma of cup {}", codes(&bench, 0)[0]);
    for (text, mark) in [("11", None), ("7.5", Some(7.5))] {
        bench.click(Role::TextInput, &name);
        bench.chord(CTRL, Key::A);
        bench.type_text(text);
        bench.press(Key::Enter);
        assert_eq!(
            tasting(&bench).tasters[0].cups[0].marks.get(&1).copied(),
            mark
        );
        assert_eq!(bench.says("11 is above full marks, 10"), mark.is_none());
    }
}

#[test]
fn comments_are_kept_with_their_cup() {
    let mut bench = started("Ranking");
    bench.choose("Answers");
    let name = format!("Comment on cup {}", codes(&bench, 0)[1]);
    bench.click(Role::TextInput, &name);
    bench.type_text("thin at the end");
    bench.press(Key::Enter);
    assert_eq!(
        tasting(&bench).tasters[0].cups[1].comment,
        "thin at the end"
    );
}

#[test]
fn five_taps_fill_a_quick_form() {
    let mut bench = started("Quick form");
    bench.choose("Answers");
    let code = codes(&bench, 0)[0];
    for (noun, words) in [
        ("Sweetness", "5 too sweet"),
        ("Sourness", "3 just right"),
        ("Strength", "1 too weak"),
        ("Dilution", "3 just right"),
        ("Liking", "6"),
    ] {
        bench.button(&format!("{noun} of cup {code}: {words}"));
    }
    let cup = &tasting(&bench).tasters[0].cups[0];
    assert_eq!(cup.right[&Attribute::Sweet], 5);
    assert_eq!(cup.right[&Attribute::Strong], 1);
    assert_eq!((cup.right.len(), cup.liking), (4, Some(6)));
}

#[test]
fn everything_of_a_set_up_is_within_reach_of_a_small_window() {
    let mut bench = tab_of(vec2(1280.0, 800.0));
    begin(&mut bench, "Score sheet");
    assert_eq!(tasting(&bench).samples.len(), 2);
    let right = bench.harness.ctx.content_rect().right();
    for name in ["Lift the codes", "Remove the tasting"] {
        assert!(bench.place(Role::Button, name).right() <= right, "{name}");
    }
    let list = bench.harness.query_all_by_role(Role::Button);
    assert!(list.count() > 0);
}

/// The demo with its tasting of another drink than the one on screen, chosen in the list.
pub(crate) fn of_another_drink() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench.choose("Tastings");
    let name = other_tasting(&bench);
    bench.button(&name);
    bench
}

/// Name of the tasting of another drink in the list.
fn other_tasting(bench: &Workbench) -> String {
    let buttons = bench.harness.query_all_by_role(Role::Button);
    let mut names = buttons.filter_map(|node| node.accesskit_node().label());
    let name = names.find(|name| name.contains("other drink"));
    name.expect("it is in the list")
}

#[test]
fn a_drink_without_tastings_is_not_shown_those_of_another_one() {
    let mut bench = Workbench::demo();
    let drink = bench.session().spec().expect("a drink").name.clone();
    bench.chord(CTRL, Key::Num3);
    bench.choose("Tastings");
    assert!(bench.says(&format!("No tasting of {drink} yet")));
    // Those of other drinks are shown once they are chosen.
    let mut bench = of_another_drink();
    assert!(!bench.says("No tasting of"));
    assert!(bench.is_on(&other_tasting(&bench)));
    bench.chord(CTRL, Key::N);
    bench.type_text("margarita");
    bench.press(Key::Enter);
    assert!(bench.says("No tasting of Twist on margarita yet"));
}

#[test]
fn tastings_open_with_one_of_the_drink_on_screen() {
    let mut bench = Workbench::demo();
    let tasting = bench.session().document().tastings.values().next();
    let spec = tasting.expect("the demo's").samples[0].spec;
    let spec = bench.session().document().spec(spec).expect("its drink");
    let name = spec.name.clone();
    bench.pick("Drink", &name);
    bench.chord(CTRL, Key::Num3);
    bench.choose("Tastings");
    assert!(!bench.says("No tasting of"));
    assert!(bench.has(Role::Button, "Remove the tasting"));
}
