//! The list of steps and the log of messages.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, OutputCommand};

/// What is put on the clipboard within the next frames.
fn copied(bench: &mut Workbench) -> Option<String> {
    (0..4).find_map(|_| {
        bench.harness.step();
        let commands = &bench.harness.output().platform_output.commands;
        commands.iter().find_map(|command| match command {
            OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        })
    })
}

/// The demo with three steps in its past.
fn with_steps() -> Workbench {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.enter_amount("quince syrup", "10");
    bench.chord(CTRL, Key::T);
    bench
}

#[test]
fn the_list_says_that_nothing_was_changed_yet() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::H);
    assert!(bench.says("Nothing was changed yet."));
    bench.button("Close");
}

#[test]
fn choosing_a_step_goes_there_in_one_action_and_back() {
    let mut bench = with_steps();
    let end = bench.session().document().clone();
    bench.chord(CTRL, Key::H);
    assert!(bench.is_on("Step 3, now: New trial from Second round"));
    bench.button("Step 1, done: lemon juice: 20 ml");
    assert_eq!((bench.amount(2), bench.amount(1)), (20.0, 17.5));
    assert!(bench.is_on("Step 1, now: lemon juice: 20 ml"));
    bench.button("Step 0, done: Before all of these steps");
    assert_eq!(bench.amount(2), 12.5);
    assert_eq!(bench.steps(), 0);
    bench.button("Step 3, undone: New trial from Second round");
    assert!(bench.session().document().is_same(&end));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::Button, "Step 3, now: New trial from Second round"));
}

#[test]
fn undo_keeps_the_page_and_what_is_chosen_on_it() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.chord(CTRL, Key::Num4);
    bench.button("Shopping");
    let selection = bench.session().selection();
    bench.chord(CTRL, Key::Z);
    bench.chord(CTRL_SHIFT, Key::Z);
    bench.chord(CTRL, Key::Z);
    assert!(bench.is_on("Submission page"));
    assert!(bench.is_on("Shopping"));
    assert_eq!(bench.session().selection(), selection);
    assert_eq!(bench.amount(2), 12.5);
}

#[test]
fn a_step_taken_back_out_of_sight_is_said() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "20");
    bench.press(Key::PageUp);
    bench.chord(CTRL, Key::Z);
    assert!(bench.says("Undone: lemon juice: 20 ml."));
    bench.press(Key::PageDown);
    assert_eq!(bench.amount(2), 12.5);
    assert!(!bench.says("Undone: lemon juice"));
}

#[test]
fn messages_are_kept_after_they_are_dismissed() {
    let mut bench = Workbench::demo();
    bench.topmost_button("Help");
    bench.button("Messages of this run…");
    assert!(bench.says("Nothing was said yet."));
    bench.button("Close");
    let words = "The larder is on holiday.";
    bench.harness.state_mut().say(words.to_owned());
    bench.run();

    bench.wait();
    bench.button("Dismiss");

    assert!(!bench.says(words));
    bench.chord(CTRL, Key::P);
    bench.type_text("messages");
    bench.press(Key::Enter);
    assert!(bench.says(words));
    bench
        .control(Role::Button, "Copy the messages as text")
        .click();
    let copied = copied(&mut bench).expect("something is copied");
    assert!(copied.ends_with(&format!("  {words}\n")), "{copied}");
}

#[test]
fn a_word_in_passing_is_kept_as_well() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    bench.chord(CTRL, Key::G);
    let words = "There is no balance to aim at: pour something first.";
    bench.chord(CTRL, Key::U);
    assert!(!bench.says(words));
    bench.topmost_button("Help");
    bench.button("Messages of this run…");
    assert!(bench.says(words));
}
