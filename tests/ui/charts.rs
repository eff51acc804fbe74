//! The map and the strips: axes, frame, scale, layers, and the same as tables.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Pos2, Rect, Shape};
use egui_kittest::kittest::NodeT as _;

/// The demo with its charts as tables.
fn tables() -> Workbench {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::D);
    bench
}

fn start(bench: &mut Workbench, letters: &str, classic: &str) {
    bench.chord(CTRL, Key::N);
    bench.type_text(letters);
    bench.choose(classic);
}

#[test]
fn charts_as_tables_show_rows_instead_of_pictures() {
    let mut bench = Workbench::demo();
    assert!(bench.has(Role::Image, "sweet against sour"));
    assert!(!bench.says("sour, g/L"));
    bench.chord(CTRL, Key::D);
    assert!(!bench.has(Role::Image, "sweet against sour"));
    assert!(!bench.has(Role::Button, "Target"));
    for column in ["drink", "sweet, g/L", "sour, g/L", "strength, % vol"] {
        assert!(bench.has(Role::Label, column), "{column}");
    }
    for row in ["target", "Second round", "whiskey sour"] {
        assert!(bench.has(Role::Label, row), "{row}");
    }
    let target = bench.target().point;
    assert!(bench.has(Role::Label, &format!("{:.2}", target.sour_g_per_l)));
    bench.chord(CTRL, Key::D);
    assert!(bench.has(Role::Image, "sweet against sour"));
}

#[test]
fn tables_follow_the_pours() {
    let mut bench = tables();
    let read = |bench: &Workbench| {
        let derived = bench.session().derived().expect("derived");
        let sour = derived
            .figures
            .as_ref()
            .expect("figures")
            .point
            .sour_g_per_l;
        format!("{sour:.2}")
    };
    let before = read(&bench);
    assert!(bench.has(Role::Label, &before));
    bench.enter_amount("lemon juice", "30");
    let after = read(&bench);
    assert_ne!(before, after);
    assert!(bench.has(Role::Label, &after));
}

#[test]
fn a_chart_tells_its_gist_to_a_screen_reader() {
    let bench = Workbench::demo();
    let map = bench.control(Role::Image, "sweet against sour");
    let gist = map.accesskit_node().data().description().map(str::to_owned);
    let gist = gist.expect("a sentence");
    assert!(gist.starts_with("Second round lies at sweet "), "{gist}");
    assert!(gist.contains("from the target"), "{gist}");
    assert!(bench.has(Role::Image, "Strength"));
    assert!(bench.has(Role::Image, "Temperature"));
}

#[test]
fn axes_are_chosen_from_combos() {
    let mut bench = Workbench::demo();
    bench.pick("Axis: Across", "strength, % vol");
    assert_eq!(bench.shown("Axis: Across"), "strength");
    assert!(bench.has(Role::Image, "sweet against strength"));
    bench.pick("Axis: Up", "sour, g/L");
    assert!(bench.has(Role::Image, "sour against strength"));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn one_axis_is_never_shown_against_itself() {
    let mut bench = Workbench::demo();
    bench.pick("Axis: Across", "sweet, g/L");
    assert_ne!(bench.shown("Axis: Across"), bench.shown("Axis: Up"));
}

#[test]
fn the_key_for_axes_goes_round() {
    let mut bench = Workbench::demo();
    let mut seen = Vec::new();
    for _ in 0..5 {
        seen.push((bench.shown("Axis: Up"), bench.shown("Axis: Across")));
        bench.map_key(Key::A);
    }
    assert_eq!(seen[0], ("sweet".to_owned(), "sour".to_owned()));
    assert_eq!(seen[4], seen[0]);
    for (place, pair) in seen[..4].iter().enumerate() {
        assert!(!seen[..place].contains(pair), "{pair:?} twice");
    }
}

#[test]
fn the_whole_field_brings_the_other_families() {
    let mut bench = tables();
    assert!(!bench.has(Role::Label, "negroni"));
    bench.map_key(Key::F);
    assert!(bench.is_on("Whole field"));
    assert!(bench.has(Role::Label, "negroni"));
    bench.button("Whole field");
    assert!(!bench.is_on("Whole field"));
    assert!(!bench.has(Role::Label, "negroni"));
}

#[test]
fn a_classic_that_is_searched_for_comes_onto_the_map() {
    let mut bench = tables();
    bench.click(Role::TextInput, "Find a classic");
    bench.type_text("negro");
    assert!(bench.has(Role::Label, "negroni"));
}

#[test]
fn hidden_classics_leave_the_map() {
    let mut bench = tables();
    bench.map_key(Key::F);
    bench.map_key(Key::C);
    assert!(!bench.has(Role::Label, "negroni"));
    assert!(
        bench.has(Role::Label, "bee's knees"),
        "its own classic stays"
    );
}

#[test]
fn hidden_trials_leave_the_map_but_the_parent_stays() {
    let mut bench = tables();
    assert!(bench.has(Role::Label, "Caraway base"));
    bench.map_key(Key::T);
    assert!(!bench.has(Role::Label, "Caraway base"));
    assert!(bench.has(Role::Label, "Quince for honey"));
}

#[test]
fn published_ranges_are_marked_as_recalled_from_memory() {
    let mut bench = Workbench::demo();
    let words = "areas: published ranges, from memory";
    assert_eq!(bench.painted(words), 0);
    bench.map_key(Key::R);
    assert_eq!(bench.painted(words), 1);
    bench.map_key(Key::R);
    assert_eq!(bench.painted(words), 0);
}

#[test]
fn the_scale_of_differences_puts_the_target_at_the_origin() {
    let mut bench = Workbench::demo();
    assert!(bench.painted("sour, g/L") > 0);
    bench.map_key(Key::D);
    assert!(bench.is_on("Noticeable differences"));
    assert_eq!(bench.painted("sour, g/L"), 0);
    let before = bench.place(Role::Button, "Target").center();
    bench.enter_number("Target sweet", "60");
    let after = bench.place(Role::Button, "Target").center();
    assert!(before.distance(after) < 0.5, "{before} to {after}");
}

#[test]
fn a_drink_without_acid_opens_on_sweet_against_strength() {
    for (letters, classic) in [("manhat", "manhattan"), ("rusty", "rusty nail")] {
        let mut bench = Workbench::demo();
        start(&mut bench, letters, classic);
        assert_eq!(bench.shown("Axis: Up"), "sweet", "{classic}");
        assert_eq!(bench.shown("Axis: Across"), "strength", "{classic}");
        assert!(bench.has(Role::Image, "sweet against strength"));
        assert!(bench.has(Role::Button, "Target"));
    }
}

#[test]
fn going_back_to_a_sour_shows_its_acid_again() {
    let mut bench = Workbench::demo();
    start(&mut bench, "manhat", "manhattan");
    bench.pick("Drink", "Salt Meadow");
    assert_eq!(bench.shown("Axis: Across"), "sour");
}

/// Every piece of the solid lines that were painted, as pairs of places.
fn pieces(shape: &Shape, found: &mut Vec<[Pos2; 2]>) {
    match shape {
        Shape::Path(path) if !path.closed && path.stroke.width >= 2.0 => {
            found.extend(path.points.windows(2).map(|pair| [pair[0], pair[1]]));
        }
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| pieces(shape, found)),
        _ => {}
    }
}

#[test]
fn no_curve_crosses_the_title_of_a_strip_in_any_drink_of_the_demo() {
    let mut bench = Workbench::demo();
    let document = bench.session().document();
    let names: Vec<String> = document
        .specs
        .iter()
        .map(|spec| spec.name.clone())
        .collect();
    assert!(names.len() > 2, "{names:?}");
    for name in &names {
        if bench.shown("Drink") != *name {
            bench.pick("Drink", name);
        }
        let mut lines = Vec::new();
        for shape in &bench.harness.output().shapes {
            pieces(&shape.shape, &mut lines);
        }
        assert!(lines.len() > 20, "{name}: the curves are painted");
        for title in ["Strength, % vol", "Temperature, °C"] {
            let found = bench.texts(title);
            assert_eq!(found.len(), 1, "{name}: {title}");
            let rect = found[0].rect;
            let crossed = lines
                .iter()
                .any(|[from, to]| rect.intersects(Rect::from_two_pos(*from, *to)));
            assert!(!crossed, "{name}: {title} at {rect}");
        }
    }
}

/// Where the target stands on the map, as a share of the map's height and width.
fn target_share(bench: &Workbench) -> [f32; 2] {
    let map = bench.place(Role::Image, "sweet against sour");
    let at = bench.place(Role::Button, "Target").center() - map.min;
    [at.x / map.width(), at.y / map.height()]
}

fn apart(one: [f32; 2], other: [f32; 2]) -> f32 {
    (one[0] - other[0]).hypot(one[1] - other[1])
}

#[test]
fn the_map_is_framed_anew_when_an_undone_pour_leaves_its_marks_in_a_corner() {
    let mut bench = Workbench::demo();
    let before = target_share(&bench);
    bench.enter_amount("lemon juice", "9999");
    let during = target_share(&bench);
    assert!(apart(before, during) > 0.1, "{before:?} {during:?}");
    bench.chord(CTRL, Key::Z);
    let after = target_share(&bench);
    assert!(apart(before, after) < 0.01, "{before:?} {after:?}");
}

#[test]
fn a_map_moved_by_hand_stays_until_it_is_asked_to_frame_anew() {
    let mut bench = Workbench::demo();
    let whole = target_share(&bench);
    bench.control(Role::Image, "sweet against sour").focus();
    bench.run();
    bench.press(Key::Minus);
    bench.run();
    let zoomed = target_share(&bench);
    assert!(apart(whole, zoomed) > 0.01, "{whole:?} {zoomed:?}");
    bench.enter_amount("lemon juice", "9999");
    bench.chord(CTRL, Key::Z);
    assert!(apart(zoomed, target_share(&bench)) < 0.01);
    bench.control(Role::Image, "sweet against sour").focus();
    bench.run();
    bench.press(Key::Home);
    bench.run();
    assert!(apart(whole, target_share(&bench)) < 0.01);
    bench.enter_amount("lemon juice", "9999");
    assert!(apart(whole, target_share(&bench)) > 0.1, "it follows again");
}
