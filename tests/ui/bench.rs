//! At the bench: ticking off, saying what was poured, and what is done with trials as a whole.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Amount, MadeBy, Trial};

fn trials() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench
}

fn at_the_bench() -> Workbench {
    let mut bench = trials();
    bench.button("Take it to the bench");
    bench
}

fn trial(bench: &Workbench) -> &Trial {
    bench.session().trial().expect("a trial is shown")
}

fn spec_trials(bench: &Workbench) -> usize {
    bench
        .session()
        .spec()
        .expect("a drink is shown")
        .trials
        .len()
}

#[test]
fn three_taps_keep_what_was_poured_beside_what_was_planned() {
    let mut bench = at_the_bench();
    bench.button("More caraway spirit");
    assert!(
        bench
            .label_starting("0.2 noticeable differences")
            .contains("stronger than planned")
    );
    bench.button("Left out orange bitters");
    bench.button("Keep what was poured");
    let run = &trial(&bench).runs[0];
    assert_eq!(run.lines[0].planned, Amount::Ml(45.0));
    assert_eq!(run.lines[0].poured, Some(Amount::Ml(47.5)));
    assert_eq!(run.lines[5].poured, None);
    // The trial itself is as it was, and the bench starts over.
    assert_eq!(bench.amount(0), 45.0);
    assert!(bench.says("as planned"));
    bench.chord(CTRL, Key::Z);
    assert!(trial(&bench).runs.is_empty());
}

#[test]
fn a_making_becomes_a_trial_with_one_tap_and_says_where_it_comes_from() {
    let mut bench = at_the_bench();
    bench.button("Less lemon juice");
    bench.button("Keep what was poured");
    let parent = trial(&bench).id;
    bench.far_button("New trial from making 1");
    let grown = trial(&bench);
    assert_eq!(grown.parent, Some(parent));
    assert_eq!(grown.made_by, MadeBy::Bench);
    assert_eq!(grown.pours[2].amount, Amount::Ml(10.0));
    assert!(grown.runs.is_empty());
}

#[test]
fn a_weight_that_was_read_off_a_scale_becomes_a_volume() {
    let mut bench = at_the_bench();
    bench.wait();
    bench.click(Role::TextInput, "Poured of lemon juice");
    bench.type_text("10.3 g");
    bench.press(Key::Enter);
    bench.button("Keep what was poured");
    let Some(Amount::Ml(ml)) = trial(&bench).runs[0].lines[2].poured else {
        panic!("it is a volume");
    };
    // Lemon juice is a little denser than water.
    assert!((9.7..10.3).contains(&ml), "{ml}");
}

#[test]
fn ticks_are_taken_off_again_and_never_change_the_document() {
    let mut bench = at_the_bench();
    bench.button("Tick quince syrup");
    assert!(bench.is_on("Tick quince syrup"));
    bench.button("Start over");
    assert!(!bench.is_on("Tick quince syrup"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn pictures_wait_for_a_saved_document() {
    let bench = at_the_bench();
    assert!(bench.says("Save the document first: pictures are kept in a folder beside it."));
}

#[test]
fn a_trial_that_was_thrown_away_comes_back() {
    let mut bench = trials();
    let (before, name) = (spec_trials(&bench), trial(&bench).name.clone());
    bench.button("Throw the trial away");
    assert_eq!(spec_trials(&bench), before - 1);
    assert_ne!(trial(&bench).name, name);
    bench.button("Bin");
    bench.button("Bring back Second round");
    assert_eq!(spec_trials(&bench), before);
}

#[test]
fn trials_put_aside_are_hidden_until_they_are_asked_for() {
    let mut bench = trials();
    bench.button("Star the trial");
    bench.button("Put the trial aside");
    assert!(trial(&bench).starred && trial(&bench).archived);
    assert!(!bench.has(Role::CheckBox, "Compare Second round"));
    bench.click(Role::CheckBox, "Show trials put aside");
    assert!(bench.has(Role::CheckBox, "Compare Second round"));
    bench.click(Role::CheckBox, "Starred trials only");
    assert!(!bench.has(Role::CheckBox, "Compare As published"));
}

#[test]
fn pours_of_two_trials_make_a_third() {
    let mut bench = trials();
    bench.button("Merge into a new trial…");
    assert!(bench.is_disabled(Role::Button, "Make the merged trial"));
    bench.button("Take caraway spirit of B");
    bench.button("Make the merged trial");
    let merged = trial(&bench);
    assert!(matches!(merged.made_by, MadeBy::Merge(_)));
    // The spirit of the second round, all else of the trial before it.
    assert_eq!(merged.pours[0].amount, Amount::Ml(45.0));
    assert_eq!(merged.pours[2].amount, Amount::Ml(10.0));
    assert_eq!(merged.reason, "Quince for honey with pours of Second round");
}

#[test]
fn enter_in_the_remark_keeps_what_was_poured_and_it_says_what_was_otherwise() {
    let mut bench = at_the_bench();
    bench.button("More caraway spirit");
    bench.button("Left out orange bitters");
    bench.click(Role::TextInput, "Remark on this making");
    bench.type_text("a heavy hand");
    bench.press(Key::Enter);
    assert_eq!(trial(&bench).runs[0].note, "a heavy hand");
    assert!(bench.says("47.5 ml caraway spirit, no orange bitters"));
}

#[test]
fn a_remark_that_is_typed_never_comes_into_another_document() {
    let mut bench = at_the_bench();
    bench.click(Role::TextInput, "Remark on this making");
    bench.type_text("only for this one");
    bench.click(Role::CheckBox, "Compare Caraway base");
    assert_eq!(bench.painted("only for this one"), 1);
    // The demo once more: another document whose trials have the same ids.
    bench.chord(CTRL, Key::P);
    bench.type_text("demo");
    bench.press(Key::Enter);
    assert!(bench.has(Role::TextInput, "Remark on this making"));
    assert_eq!(bench.painted("only for this one"), 0);
    let ticked = bench.control(Role::CheckBox, "Compare Caraway base");
    assert_eq!(ticked.accesskit_node().toggled(), Some(Toggled::False));
}
