//! Trials against each other: ghosts of the trial before, letters, starred ones, pours taken over.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Color32, Key, Shape};
use equipour::model::Amount;
use equipour::session::{Edit, TrialEdit};
use std::sync::Arc;

fn trial_named(bench: &Workbench, name: &str) -> equipour::model::TrialId {
    let spec = bench.session().spec().expect("a drink");
    let trial = spec.trials.iter().find(|trial| trial.name == name);
    trial.expect("it is in the demo").id
}

fn shown(bench: &Workbench) -> String {
    bench.session().trial().expect("a trial").name.clone()
}

/// Places of upright lines of that length, points.
fn upright(shape: &Shape, length: f32, found: &mut Vec<(f32, Color32)>) {
    match shape {
        Shape::Vec(shapes) => shapes
            .iter()
            .for_each(|shape| upright(shape, length, found)),
        Shape::LineSegment { points, stroke } => {
            let [from, to] = points;
            if (from.x - to.x).abs() < 0.1 && ((to.y - from.y).abs() - length).abs() < 0.1 {
                found.push((from.x, stroke.color));
            }
        }
        _ => {}
    }
}

#[test]
fn a_slider_marks_where_the_trial_before_stood() {
    let bench = Workbench::demo();
    let rail = bench.place(Role::Slider, "lemon juice");
    let mut found = Vec::new();
    for shape in &bench.harness.output().shapes {
        upright(&shape.shape, 16.0, &mut found);
    }
    // 10 ml of the 60 ml that the rail stands for, within the radius of the handle at either end.
    let track = rail.shrink2(eframe::egui::vec2(6.5, 0.0));
    let at = track.left() + track.width() * 10.0 / 60.0;
    assert!(
        found.iter().any(|(x, _)| (x - at).abs() < 1.0),
        "{at} not in {found:?}"
    );
}

#[test]
fn figures_tell_their_signed_difference_to_the_trial_before() {
    let mut bench = Workbench::demo();
    bench.enter_amount("lemon juice", "25");
    let derived = bench.session().derived().expect("derived");
    let now = derived.figures.as_ref().expect("figures").clone();
    let was = derived.parent.clone().expect("it has a parent");
    for (figure, change, decimals) in [
        ("served ", now.served_ml - was.served_ml, 0),
        ("alcohol ", now.alcohol_g - was.alcohol_g, 1),
        ("cost ", now.cost.amount - was.cost.amount, 2),
    ] {
        let said = bench.label_starting(figure);
        let size = format!("{:.decimals$}", change.abs());
        assert!(
            size.parse::<f64>().expect("a number") > 0.0,
            "{figure} does not differ"
        );
        let sign = if change > 0.0 { "+" } else { "−" };
        assert!(
            said.contains(&format!(" {sign}{size}")),
            "{said} without {sign}{size}"
        );
    }
}

#[test]
fn the_strips_and_the_shares_tell_of_the_trial_before() {
    let bench = Workbench::demo();
    let said = bench.description(Role::Image, "Strength");
    assert!(
        said.contains("The trial before, Quince for honey: "),
        "{said}"
    );
    let said = bench.description(Role::Image, "Temperature");
    assert!(
        said.contains("The trial before, Quince for honey: "),
        "{said}"
    );
    let said = bench.description(Role::Image, "lemon juice: sour");
    assert!(said.contains("since the trial before"), "{said}");
}

#[test]
fn flicking_says_which_of_the_two_is_on_screen() {
    let mut bench = Workbench::demo();
    assert!(!bench.has(Role::Button, "A: Quince for honey"));
    bench.press(Key::F6);
    assert_eq!(shown(&bench), "Quince for honey");
    assert!(bench.is_on("A: Quince for honey") && !bench.is_on("B: Second round"));
    bench.press(Key::F6);
    assert!(bench.is_on("B: Second round"));
    bench.button("A: Quince for honey");
    assert_eq!(shown(&bench), "Quince for honey");
}

#[test]
fn all_pours_of_one_trial_go_into_another_in_one_step() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench.click(Role::CheckBox, "Compare Caraway base");
    bench.click(Role::CheckBox, "Compare Second round");
    bench.button("Take over all pours…");
    bench.button("All pours of A into B");
    let caraway = trial_named(&bench, "Caraway base");
    let (_, from) = bench.session().document().trial(caraway).expect("it stays");
    let trial = bench.session().trial().expect("it is on screen");
    assert_eq!(trial.name, "Second round");
    assert_eq!(trial.pours, from.pours);
    assert_eq!(bench.steps(), 1);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.amount(0), 45.0);
}

#[test]
fn a_pour_is_copied_by_keys_from_its_cell() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench.click(Role::CheckBox, "Compare Caraway base");
    bench.click(Role::CheckBox, "Compare Second round");
    bench.control(Role::Label, "50 ml caraway spirit").focus();
    bench.run();
    bench.press(Key::Enter);
    bench.button("Copy 50 ml caraway spirit to Second round");
    assert_eq!(bench.pour(0).amount, Amount::Ml(50.0));
    assert_eq!(bench.steps(), 1);
}

/// The demo with its second trial of the sour starred.
fn starred() -> Workbench {
    let mut document = demo();
    for spec in &mut document.specs {
        for trial in &mut spec.trials {
            if trial.name == "Caraway base" {
                Arc::make_mut(trial).starred = true;
            }
        }
    }
    Workbench::on(document)
}

#[test]
fn a_starred_trial_is_a_reference_on_the_map_even_without_the_trail() {
    let mut bench = starred();
    bench.map_key(Key::T);
    assert!(
        bench.painted("Caraway base") >= 2,
        "in the strip and on the map"
    );
    let with = bench.painted("Caraway base");
    bench.map_key(Key::S);
    assert_eq!(bench.painted("Caraway base"), with - 1);
    bench.map_key(Key::S);
    assert_eq!(bench.painted("Caraway base"), with);
}

#[test]
fn a_starred_trial_is_shown_or_compared_by_one_click() {
    let mut bench = starred();
    bench.button("Compare Caraway base with the trial on screen");
    assert!(bench.has(Role::Button, "Column A: Caraway base"));
    assert!(bench.has(Role::Button, "Column B: Second round"));
    bench.chord(CTRL, Key::Num1);
    bench.button("Starred: Caraway base");
    assert_eq!(shown(&bench), "Caraway base");
    assert_eq!(bench.steps(), 0);
}

#[test]
fn without_a_star_or_a_pair_no_strip_takes_room() {
    let bench = Workbench::demo();
    assert!(!bench.says("starred"));
    let mut starred = starred();
    assert!(starred.says("starred"));
    let trial = trial_named(&starred, "Caraway base");
    let edit = Edit::Trial(TrialEdit::Star { trial, on: false });
    starred.harness.state_mut().ask(edit);
    starred.run();
    assert!(!starred.says("starred"));
}
