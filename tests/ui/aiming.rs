//! The dialog in which a target is aimed between references, at a ratio or into a range.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::NodeT as _;
use equipour::model::{Point, TargetPart};

const FIND: &str = "Find a reference";

/// The demo with the dialog open.
fn opened() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL_SHIFT, Key::G);
    bench
}

/// Types letters and ticks the first row that holds them.
fn tick(bench: &mut Workbench, letters: &str) {
    bench.type_text(letters);
    bench.press(Key::Enter);
}

fn classic(bench: &Workbench, name: &str) -> Point {
    let mut known = bench.session().references().iter();
    known.find(|one| one.name == name).expect("a classic").point
}

fn parts(bench: &Workbench) -> Vec<(String, f64)> {
    let part = |part: &TargetPart| (part.name.clone(), part.weight);
    bench.target().parts.iter().map(part).collect()
}

fn is_off(bench: &Workbench, name: &str) -> bool {
    let button = bench.control(Role::Button, name);
    button.accesskit_node().is_disabled()
}

#[test]
fn the_dialog_opens_by_key_and_by_button_with_the_present_aim_ticked() {
    let mut bench = opened();
    assert!(bench.control(Role::TextInput, FIND).is_focused());
    bench.type_text("bee");
    let weight = bench.control(Role::SpinButton, "Weight of bee's knees");
    assert_eq!(weight.value().as_deref(), Some("1"));
    bench.press(Key::Escape);
    assert!(!bench.has(Role::TextInput, FIND));
    bench.button("Aim at…");
    assert!(bench.has(Role::TextInput, FIND));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn what_is_ticked_stands_first_and_is_counted() {
    let mut bench = opened();
    assert!(bench.says("Aim at"));
    tick(&mut bench, "whiskey s");
    assert!(bench.says("Aim between 2"));
    let top = |name: &str| bench.place(Role::CheckBox, name).top();
    let (one, other) = (top("bee's knees"), top("whiskey sour"));
    assert!(one.max(other) < top("manhattan"), "above all others");
}

#[test]
fn two_references_are_weighed_by_keys_alone_and_undo_returns_the_old_aim() {
    let mut bench = opened();
    let before = bench.target().clone();
    tick(&mut bench, "whiskey s");
    assert!(
        bench.control(Role::TextInput, FIND).is_focused(),
        "on to the next"
    );
    assert!(bench.says("between bee's knees and whiskey sour"));
    assert_eq!(*bench.target(), before, "seen before it is taken");
    bench.button("Aim");
    assert!(!bench.has(Role::TextInput, FIND), "the dialog closes");
    assert_eq!(bench.target().label, "between bee's knees and whiskey sour");
    let (one, other) = (
        classic(&bench, "bee's knees"),
        classic(&bench, "whiskey sour"),
    );
    let point = bench.target().point;
    // Halfway in steps: the geometric mean above the threshold of 5.24 g/L.
    let sweet = ((one.sweet_g_per_l + 5.24) * (other.sweet_g_per_l + 5.24)).sqrt() - 5.24;
    assert!(
        (point.sweet_g_per_l - sweet).abs() < 1.0e-3,
        "{point:?} {sweet}"
    );
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(*bench.target(), before);
}

#[test]
fn weights_are_typed_and_come_back_when_the_dialog_is_opened_again() {
    let mut bench = opened();
    tick(&mut bench, "whiskey s");
    bench.type_text("zzz");
    assert!(bench.says("Nothing by that name"));
    bench.enter_number("Weight of whiskey sour", "2.5");
    assert!(bench.says("between whiskey sour (2.5) and bee's knees"));
    bench.button("Aim");
    let expected = [
        ("bee's knees".to_owned(), 1.0),
        ("whiskey sour".to_owned(), 2.5),
    ];
    assert_eq!(parts(&bench), expected);
    bench.chord(CTRL_SHIFT, Key::G);
    bench.type_text("zzz");
    let weight = bench.control(Role::SpinButton, "Weight of whiskey sour");
    assert_eq!(weight.value().as_deref(), Some("2.5"));
    let target = bench.target().clone();
    bench.button("Aim");
    assert_eq!(*bench.target(), target);
    assert_eq!(bench.steps(), 1, "the same aim again is no step");
}

#[test]
fn a_trial_of_the_drink_is_a_reference_too() {
    let mut bench = opened();
    bench.button("Untick all");
    tick(&mut bench, "quince for");
    bench.button("Aim");
    assert_eq!(bench.target().label, "Salt Meadow – Quince for honey");
    let derived = bench.session().derived().expect("derived");
    let mut trail = derived.trail.iter();
    let trial = trail.find(|trial| trial.name == "Quince for honey");
    let (there, here) = (trial.expect("the trial").point, bench.target().point);
    assert!((there.sour_g_per_l - here.sour_g_per_l).abs() < 1.0e-5);
}

#[test]
fn without_a_reference_there_is_nothing_to_take_and_it_says_why() {
    let mut bench = opened();
    assert!(!is_off(&bench, "Aim"));
    bench.button("Untick all");
    assert!(is_off(&bench, "Aim"));
    assert!(bench.says("No reference is chosen"));
    assert!(is_off(&bench, "Untick all"));
    bench.button("Cancel");
    assert_eq!(bench.target().label, "bee's knees");
    assert_eq!(bench.steps(), 0);
}

#[test]
fn more_references_than_a_target_remembers_are_refused() {
    let mut bench = opened();
    for letters in [
        "alex",
        "aviat",
        "bramb",
        "margar",
        "white l",
        "sidecar",
        "pisco",
        "paper",
        "manhat",
        "negro",
        "hemingway",
        "whiskey s",
    ] {
        tick(&mut bench, letters);
    }
    assert!(bench.says("13 references are chosen: at most 12"));
    assert!(is_off(&bench, "Aim"));
}

#[test]
fn moving_the_target_forgets_what_it_lay_between() {
    let mut bench = opened();
    tick(&mut bench, "whiskey s");
    bench.button("Aim");
    assert_eq!(parts(&bench).len(), 2);
    bench.enter_number("Target sweet", "60");
    assert_eq!(parts(&bench), []);
    assert_eq!(bench.target().label, "");
    bench.chord(CTRL, Key::Z);
    assert_eq!(parts(&bench).len(), 2);
    let from = bench.place(Role::Button, "Target").center();
    bench.drag(from, from + vec2(40.0, -20.0));
    assert_eq!(parts(&bench), []);
}

#[test]
fn a_part_that_is_no_longer_there_is_named() {
    let mut document = demo();
    let spec = document.specs.last_mut().expect("a drink");
    let target = spec.target.as_mut().expect("a target");
    target.label = "between two".to_owned();
    target.parts = ["whiskey sour", "a drink of old"]
        .map(|name| TargetPart {
            name: name.to_owned(),
            weight: 1.0,
        })
        .to_vec();
    let mut bench = Workbench::on(document);
    bench.chord(CTRL_SHIFT, Key::G);
    assert!(bench.says("No longer there: a drink of old."));
    bench.button("Aim");
    assert_eq!(parts(&bench), [("whiskey sour".to_owned(), 1.0)]);
}

#[test]
fn a_familys_ratio_is_aimed_at() {
    let mut bench = opened();
    bench.button("A family's ratio");
    assert!(is_off(&bench, "Aim"));
    bench.click(Role::RadioButton, "sour, 2 : 1 : 0.75");
    assert!(bench.says("60 ml gin (london dry), 30 ml lemon juice, 22.5 ml"));
    assert!(bench.says("The drink on screen lies "));
    bench.button("Aim");
    assert_eq!(bench.target().label, "sour, 2 : 1 : 0.75");
    // About a third of the acid of lemon juice (6 % in 30 of 112.5 ml, watered by half).
    let sour = bench.target().point.sour_g_per_l;
    assert!((8.0..13.0).contains(&sour), "{sour}");
    bench.chord(CTRL_SHIFT, Key::G);
    assert!(
        bench.has(Role::RadioButton, "sour, 2 : 1 : 0.75"),
        "the same way again"
    );
}

#[test]
fn a_published_range_moves_only_what_lies_outside() {
    let mut bench = opened();
    bench.button("A published range");
    assert!(bench.says("recalled from memory"));
    bench.click(Role::RadioButton, "shaken");
    bench.button("Aim");
    let target = bench.target().clone();
    assert_eq!(target.label, "published range: shaken, from memory");
    let derived = bench.session().derived().expect("derived");
    let here = derived.figures.as_ref().expect("figures").point;
    // Shaken: 50–89 g/L of sugar, 7.6–9.4 g/L of acid, 15–19.7 % vol.
    assert!(here.sweet_g_per_l > 89.0 && here.strength_pct_vol < 15.0);
    assert_eq!(target.point.sweet_g_per_l, 89.0);
    assert_eq!(target.point.strength_pct_vol, 15.0);
    assert!((7.6..9.4).contains(&here.sour_g_per_l));
    assert!((target.point.sour_g_per_l - here.sour_g_per_l).abs() < 1.0e-5);
}

#[test]
fn a_drink_inside_a_range_is_aimed_at_as_it_is() {
    let mut bench = Workbench::demo();
    // Stronger and drier than the demo, as the range of shaken drinks wants it.
    bench.enter_amount("caraway spirit", "80");
    bench.enter_amount("quince syrup", "20");
    bench.enter_amount("sea buckthorn juice", "2.5");
    bench.enter_amount("lemon juice", "30");
    let derived = bench.session().derived().expect("derived");
    let here = derived.figures.as_ref().expect("figures").point;
    bench.chord(CTRL_SHIFT, Key::G);
    bench.button("A published range");
    bench.click(Role::RadioButton, "shaken");
    assert!(bench.says("lies in this range already"), "{here:?}");
    bench.button("Aim");
    let target = bench.target().point;
    assert!((target.sweet_g_per_l - here.sweet_g_per_l).abs() < 1.0e-5);
    assert!((target.strength_pct_vol - here.strength_pct_vol).abs() < 1.0e-5);
}

#[test]
fn a_drink_without_pours_can_aim_at_references_but_into_no_range() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::N);
    bench.button("Start from nothing");
    bench.chord(CTRL_SHIFT, Key::G);
    bench.button("A published range");
    bench.click(Role::RadioButton, "stirred");
    assert!(bench.says("add a pour"));
    assert!(is_off(&bench, "Aim"));
    bench.button("Between references");
    tick(&mut bench, "margar");
    assert!(bench.says("No drink on screen to compare it with yet"));
    bench.button("Aim");
    assert_eq!(bench.target().label, "margarita");
}

#[test]
fn a_free_axis_shows_as_free_beside_the_target() {
    let mut bench = Workbench::demo();
    assert!(!bench.has(Role::Label, "free"));
    bench.click(Role::CheckBox, "sweet counts");
    assert!(bench.says("sweet is free · bee's knees"));
    assert_eq!(bench.painted("free"), 1);
    assert_eq!(
        bench.painted("target: bee's knees, sweet free"),
        1,
        "named apart from the trial that lies there"
    );
    bench.click(Role::CheckBox, "sour counts");
    bench.click(Role::CheckBox, "strength counts");
    assert!(bench.says("no axis counts, so no drink is nearer than another"));
    assert!(!bench.says("on target"));
    bench.click(Role::CheckBox, "strength counts");
    assert!(bench.says("sweet and sour are free"));
}

#[test]
fn the_tick_of_an_axis_explains_what_leaving_it_free_means() {
    let mut bench = Workbench::demo();
    let tooltip = |bench: &mut Workbench| {
        let at = bench.place(Role::CheckBox, "sour counts").center();
        bench.harness.hover_at(at + vec2(0.0, 200.0));
        bench.run();
        bench.harness.hover_at(at);
        bench.run();
        bench.wait();
    };
    tooltip(&mut bench);
    assert!(bench.says("Untick to leave it free"));
    bench.click(Role::CheckBox, "sour counts");
    tooltip(&mut bench);
    assert!(bench.says("sour is free: proposals do not care"));
}
