//! The target on the map, under mouse and keyboard.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, vec2};
use equipour::rebalance::Change;

fn changes(bench: &Workbench) -> Vec<Change> {
    let derived = bench.session().derived().expect("derived");
    let answer = derived.answer.as_ref().expect("an answer");
    let proposals = answer.proposals.iter();
    proposals.flat_map(|one| one.changes.clone()).collect()
}

#[test]
fn dragging_the_target_moves_it_under_the_pointer() {
    let mut bench = Workbench::demo();
    let before = bench.target().clone();
    assert_eq!(before.label, "bee's knees");
    let from = bench.place(Role::Button, "Target").center();
    let to = from + vec2(60.0, -40.0);
    bench.drag(from, to);
    let after = bench.target().clone();
    assert!(after.point.sour_g_per_l > before.point.sour_g_per_l);
    assert!(after.point.sweet_g_per_l > before.point.sweet_g_per_l);
    assert_eq!(
        after.point.strength_pct_vol, before.point.strength_pct_vol,
        "the axis that is not shown stays"
    );
    let landed = bench.place(Role::Button, "Target").center();
    assert!(landed.distance(to) < 2.0, "{landed} instead of {to}");
}

#[test]
fn a_moved_target_is_no_longer_the_classics() {
    let mut bench = Workbench::demo();
    assert!(bench.says("bee's knees"));
    let from = bench.place(Role::Button, "Target").center();
    bench.drag(from, from + vec2(60.0, -40.0));
    assert_eq!(bench.target().label, "");
    let sour = bench.control(Role::SpinButton, "Target sour").value();
    let expected = format!("{:.2} g/L", bench.target().point.sour_g_per_l);
    assert_eq!(sour.as_deref(), Some(expected.as_str()));
}

#[test]
fn shift_makes_a_drag_of_the_target_fine_and_a_key_go_further() {
    let mut bench = Workbench::demo();
    let before = bench.target().point.sweet_g_per_l;
    let from = bench.place(Role::Button, "Target").center();
    let hold = |bench: &mut Workbench, keys| {
        bench.harness.event(Event::ModifiersChanged(keys));
        bench.run();
    };
    hold(&mut bench, Modifiers::SHIFT);
    bench.drag(from, from + vec2(60.0, -60.0));
    hold(&mut bench, Modifiers::NONE);
    let landed = bench.place(Role::Button, "Target").center();
    assert!(landed.distance(from) < 20.0, "{landed} from {from}");
    assert!(bench.target().point.sweet_g_per_l > before);
    bench.control(Role::Button, "Target").focus();
    bench.run();
    let start = bench.target().point.sweet_g_per_l;
    bench.press(Key::ArrowUp);
    let one = bench.target().point.sweet_g_per_l - start;
    bench.chord(Modifiers::SHIFT, Key::ArrowUp);
    let ten = bench.target().point.sweet_g_per_l - start - one;
    assert!(one > 0.0 && ten > 8.0 * one, "{one} {ten}");
}

#[test]
fn proposals_follow_the_target() {
    let mut bench = Workbench::demo();
    let before = changes(&bench);
    let from = bench.place(Role::Button, "Target").center();
    bench.press_at(from);
    bench.move_to(from, from + vec2(90.0, -60.0));
    let during = changes(&bench);
    assert_ne!(before, during, "while the pointer is still down");
    bench.release_at(from + vec2(90.0, -60.0));
    assert_eq!(changes(&bench), during);
}

#[test]
fn dragging_the_target_is_one_step_and_undo_returns_it() {
    let mut bench = Workbench::demo();
    let before = bench.target().clone();
    let from = bench.place(Role::Button, "Target").center();
    bench.drag(from, from + vec2(60.0, -40.0));
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(*bench.target(), before);
    let back = bench.place(Role::Button, "Target").center();
    assert!(back.distance(from) < 0.5, "the map itself did not move");
}

#[test]
fn arrow_keys_move_the_target_by_a_tenth_of_a_difference() {
    let mut bench = Workbench::demo();
    let before = bench.target().clone();
    bench.control(Role::Button, "Target").focus();
    bench.run();
    bench.press(Key::ArrowUp);
    let up = bench.target().clone();
    // The demo notices a difference of 20 % in sweetness: a tenth of it is some 2 %.
    let ratio = up.point.sweet_g_per_l / before.point.sweet_g_per_l;
    assert!((1.015..1.025).contains(&ratio), "{ratio}");
    assert_eq!(up.point.sour_g_per_l, before.point.sour_g_per_l);
    assert_eq!(up.label, "");
    bench.press(Key::ArrowRight);
    assert!(bench.target().point.sour_g_per_l > before.point.sour_g_per_l);
    assert_eq!(bench.steps(), 2);
    assert!(bench.control(Role::Button, "Target").is_focused());
    bench.chord(CTRL, Key::Z);
    bench.chord(CTRL, Key::Z);
    assert_eq!(*bench.target(), before);
}

#[test]
fn the_target_can_be_typed() {
    let mut bench = Workbench::demo();
    bench.enter_number("Target sweet", "60");
    assert_eq!(bench.target().point.sweet_g_per_l, 60.0);
    assert_eq!(bench.steps(), 1, "however many keys it took");
}

#[test]
fn in_differences_the_target_can_still_be_dragged() {
    let mut bench = Workbench::demo();
    bench.button("Noticeable differences");
    let before = bench.target().clone();
    let from = bench.place(Role::Button, "Target").center();
    bench.drag(from, from + vec2(60.0, -40.0));
    assert!(bench.target().point.sour_g_per_l > before.point.sour_g_per_l);
    assert!(bench.target().point.sweet_g_per_l > before.point.sweet_g_per_l);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn a_classic_can_be_aimed_at_from_the_menu() {
    let mut bench = Workbench::demo();
    bench.button("Quick aim");
    bench.button("The balance on screen");
    assert_eq!(bench.target().label, "Second round");
    bench.button("Quick aim");
    bench.button("Nothing");
    let spec = bench.session().spec().expect("a drink");
    assert_eq!(spec.target, None);
    assert!(bench.says("No target yet"));
    assert!(!bench.has(Role::Button, "Target"));
    bench.button("Quick aim");
    bench.far_button("alexander");
    assert_eq!(bench.target().label, "alexander");
    assert_eq!(bench.steps(), 3);
}

#[test]
fn an_axis_that_does_not_count_leaves_the_distance() {
    let mut bench = Workbench::demo();
    let before = bench.session().derived().expect("derived").distance;
    bench.click(Role::CheckBox, "sweet counts");
    let after = bench.session().derived().expect("derived").distance;
    assert!(after < before, "{after:?} against {before:?}");
    assert_eq!(bench.steps(), 1);
}
