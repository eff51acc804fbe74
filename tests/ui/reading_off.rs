//! Reading charts off: one cursor, values on the clipboard, panning by keys, sources.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, OutputCommand, Pos2, Shape, vec2};
use egui_kittest::kittest::Queryable as _;
use equipour::model::Trial;

/// What was put on the clipboard in the last frame.
fn copied(bench: &Workbench) -> Option<String> {
    let commands = bench.harness.output().platform_output.commands.iter();
    commands.rev().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    })
}

/// Ctrl+C as the desktop sends it.
fn copy(bench: &mut Workbench) -> Option<String> {
    bench.harness.event(Event::Copy);
    bench.harness.step();
    copied(bench)
}

fn middle(bench: &Workbench, chart: &str) -> Pos2 {
    bench.place(Role::Image, chart).center()
}

#[test]
fn the_strips_share_one_cursor() {
    let mut bench = Workbench::demo();
    let degrees = |bench: &Workbench| {
        let texts = bench.texts("−");
        texts.len()
    };
    let before = degrees(&bench);
    let at = middle(&bench, "Strength");
    bench.harness.hover_at(at);
    bench.run();
    assert_eq!(
        degrees(&bench),
        before + 1,
        "the temperature is read at the same dilution"
    );
    bench.harness.hover_at(middle(&bench, "Temperature"));
    bench.run();
    assert_eq!(degrees(&bench), before, "now the strength is");
    bench.harness.remove_cursor();
    bench.run();
    assert_eq!(degrees(&bench), before);
}

#[test]
fn the_values_under_the_pointer_are_copied_by_key() {
    let mut bench = Workbench::demo();
    let at = bench.place(Role::Image, "Strength");
    bench
        .harness
        .hover_at(at.center() + vec2(at.width() * 0.3, 0.0));
    bench.run();
    let text = copy(&mut bench).expect("something is copied");
    assert!(
        text.starts_with("dilution ") && text.contains("% vol"),
        "{text}"
    );
    assert!(text.contains("strength"), "{text}");
}

#[test]
fn while_a_text_is_typed_the_key_belongs_to_the_text() {
    let mut bench = Workbench::demo();
    bench.click(Role::TextInput, "Amount of lemon juice");
    let at = middle(&bench, "Strength");
    bench.harness.hover_at(at);
    bench.run();
    let text = copy(&mut bench).unwrap_or_default();
    assert!(!text.contains("dilution"), "{text}");
}

#[test]
fn a_chart_with_the_focus_is_copied_as_a_whole() {
    let mut bench = Workbench::demo();
    bench.control(Role::Image, "Strength").focus();
    bench.run();
    let text = copy(&mut bench).expect("something is copied");
    assert!(text.contains("dilution, %\tstrength, % vol"), "{text}");
    assert!(text.lines().count() > 5, "{text}");
}

#[test]
fn the_chart_under_the_pointer_is_copied_rather_than_that_with_the_focus() {
    // Whichever of the two is drawn first.
    for (focused, pointed) in [("Strength", "Temperature"), ("Temperature", "Strength")] {
        let mut bench = Workbench::demo();
        bench.control(Role::Image, focused).focus();
        bench.run();
        let at = middle(&bench, pointed);
        bench.harness.hover_at(at);
        bench.run();
        bench.harness.event(Event::Copy);
        bench.harness.step();
        let commands = bench.harness.output().platform_output.commands.iter();
        let copied: Vec<&str> = commands
            .filter_map(|command| match command {
                OutputCommand::CopyText(text) => Some(text.as_str()),
                _ => None,
            })
            .collect();
        assert_eq!(copied.len(), 1, "{copied:?}");
        assert!(copied[0].starts_with("dilution "), "{copied:?}");
        assert!(!copied[0].contains('\t'), "the reading: {copied:?}");
    }
}

#[test]
fn the_values_are_copied_from_the_menu_of_the_chart() {
    let mut bench = Workbench::demo();
    let at = bench.place(Role::Image, "Strength").center();
    bench.harness.hover_at(at);
    bench.control(Role::Image, "Strength").click_secondary();
    bench.run();
    bench.control(Role::Button, "Copy the values").click();
    bench.harness.step();
    let mut text = copied(&bench);
    for _ in 0..3 {
        bench.harness.step();
        text = text.or_else(|| copied(&bench));
    }
    assert!(text.expect("copied").contains("% vol"));
}

/// Middles of the discs of the drink on screen, as painted.
fn map_marks(bench: &Workbench) -> Vec<Pos2> {
    fn find(shape: &Shape, found: &mut Vec<Pos2>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| find(shape, found)),
            Shape::Circle(circle) if circle.radius > 6.9 && circle.radius < 7.1 => {
                found.push(circle.center);
            }
            _ => {}
        }
    }
    let mut found = Vec::new();
    for shape in &bench.harness.output().shapes {
        find(&shape.shape, &mut found);
    }
    found
}

#[test]
fn the_map_is_panned_zoomed_and_framed_anew_by_keys() {
    let mut bench = Workbench::demo();
    let whole = map_marks(&bench);
    assert!(!whole.is_empty(), "the drink is on the map");
    bench.control(Role::Image, "sweet against sour").focus();
    bench.run();
    bench.chord(Modifiers::ALT, Key::ArrowRight);
    let panned = map_marks(&bench);
    assert!(panned[0].x < whole[0].x - 5.0, "{panned:?} {whole:?}");
    assert!((panned[0].y - whole[0].y).abs() < 0.5);
    bench.press(Key::Home);
    let back = map_marks(&bench);
    assert!(back[0].distance(whole[0]) < 0.5);
    let middle = bench.place(Role::Image, "sweet against sour").center();
    bench.press(Key::Minus);
    let out = map_marks(&bench);
    assert!(out[0].distance(middle) < whole[0].distance(middle) + 1.0);
    bench.press(Key::Plus);
    assert!(map_marks(&bench)[0].distance(whole[0]) < 0.5);
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_place_on_the_map_stays_while_two_trials_are_flicked() {
    let mut bench = Workbench::demo();
    bench.press(Key::F6);
    bench.control(Role::Image, "sweet against sour").focus();
    bench.run();
    bench.press(Key::Minus);
    let zoomed = map_marks(&bench);
    bench.press(Key::F6);
    bench.press(Key::F6);
    assert!(map_marks(&bench)[0].distance(zoomed[0]) < 0.5);
}

#[test]
fn charts_of_the_comparison_are_zoomed() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    let spread = |bench: &Workbench| {
        let a = bench.texts("A Quince for honey");
        a.iter()
            .map(|text| text.rect.center().x)
            .fold(f32::MIN, f32::max)
    };
    let before = spread(&bench);
    let charts: Vec<Pos2> = {
        let nodes = bench.harness.query_all_by_role(Role::Image);
        nodes.map(|node| node.rect().center()).collect()
    };
    assert_eq!(charts.len(), 2);
    bench.drag(charts[1], charts[1] + vec2(-40.0, 0.0));
    assert!(
        (spread(&bench) - before).abs() > 5.0,
        "{before} {}",
        spread(&bench)
    );
}

#[test]
fn the_sources_of_a_pour_stand_in_one_place() {
    let mut bench = Workbench::demo();
    bench.button("More for lemon juice");
    bench.button("Where its figures come from…");
    assert!(bench.says("citric acid, g per 100 ml"));
    assert!(bench.says("4.8 (4.4 to 7.4)"));
    assert!(bench.says("PEN08: ") && bench.says("Confidence high"));
    assert!(bench.says("The built-in larder, version 1"));
    bench.button("Copy where it comes from");
    bench.button("Close");
    assert!(!bench.says("Confidence high"));
}

#[test]
fn a_tasted_trial_tells_its_sources_too() {
    let mut bench = Workbench::demo();
    let spec = bench.session().spec().expect("a drink");
    let tasted = |trial: &&std::sync::Arc<Trial>| trial.name == "Quince for honey";
    assert!(spec.trials.iter().any(|trial| tasted(&trial)));
    bench.press(Key::PageUp);
    bench.button("More for lemon juice");
    bench.button("Where its figures come from…");
    assert!(bench.says("as they were when the trial was tasted"));
}

#[test]
fn figures_say_how_they_were_computed_and_from_which_sources() {
    let mut bench = Workbench::demo();
    let at = bench.texts("▲ sour ")[0].rect.center();
    bench.harness.hover_at(at + vec2(0.0, 200.0));
    bench.run();
    bench.harness.hover_at(at);
    bench.run();
    bench.wait();
    assert!(bench.says("Computed from every pour. Sources: "));
    assert!(bench.says("Penniston et al. 2008 ("));
}
