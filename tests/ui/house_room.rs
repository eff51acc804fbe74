//! The house-made page: room for words and steps, the clock, drinks to go to, colours of cautions.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Vec2, vec2};
use equipour::model::{
    Document, Input, Preparation, PreparationId, Process, Quantity, Source, Step, TrialState, Wait,
};
use equipour::session::{Edit, HouseEdit, Session};
use equipour::store::{Builtin, Settings};
use std::sync::Arc;

fn sized(document: Document, size: Vec2) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), size);
    bench.chord(CTRL, Key::Num2);
    bench
}

fn page() -> Workbench {
    sized(demo(), vec2(1440.0, 900.0))
}

fn made<'b>(bench: &'b Workbench, name: &str) -> &'b Preparation {
    let mut all = bench.session().document().preparations.values();
    let found = all.find(|made| made.name == name);
    found.expect("it is in the demo")
}

/// The demo with one more preparation of so many rests, one after the other.
fn rested(steps: usize) -> Document {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let mut session = Session::new(Arc::clone(&builtin), demo());
    let water = equipour::model::IngredientId::from("water");
    let row = Arc::clone(builtin.larder.get(&water).expect("there is water"));
    let rest = |place: usize| Step {
        does: Process::Rest,
        from: vec![format!("rested {place}")],
        to: vec![format!("rested {}", place + 1)],
        lost: 0.0,
        hands_on_min: 0.0,
        wait: Wait::default(),
        celsius: None,
        equipment: Vec::new(),
        note: String::new(),
    };
    let to = Preparation {
        name: "long rest".to_owned(),
        inputs: vec![Input {
            name: "rested 0".to_owned(),
            source: Source::Ingredient(water.clone()),
            quantity: Quantity::Grams(1000.0),
        }],
        steps: (0..steps).map(rest).collect(),
        ..Preparation::default()
    };
    let edit = Edit::House(HouseEdit::Set {
        id: PreparationId::from("long-rest"),
        to: Box::new(to),
        rows: vec![(water, row)],
        label: "Begin".to_owned(),
        gesture: None,
    });
    session.edit(&edit).expect("it can be written");
    Document::clone(session.document())
}

#[test]
fn a_click_on_a_step_of_the_flow_opens_it_in_the_list() {
    let mut bench = page();
    assert!(!bench.has(Role::TextInput, "Note of step 3"));
    let named = bench.texts("3 press");
    let name = named.iter().find(|text| text.rect.right() < 1000.0);
    let name = name.expect("the step is painted with its name").rect;
    // The node hangs below its name, from its left edge on.
    let node = name.left_bottom() + vec2(4.0, 40.0);
    bench.press_at(node);
    bench.release_at(node);
    assert!(bench.has(Role::MultilineTextInput, "Note of step 3"));
    let place = bench.place(Role::MultilineTextInput, "Note of step 3");
    assert!(place.bottom() <= 900.0, "it was scrolled to: {place}");
}

#[test]
fn ten_thousand_rests_are_opened_and_drawn() {
    let mut bench = sized(rested(10_000), vec2(1440.0, 900.0));
    bench.button("long rest");
    let flow = bench.description(Role::Image, "Flow of long rest");
    assert!(flow.starts_with("1000 g go into long rest"), "{flow}");
    assert_eq!(bench.painted("1 rest"), 1, "in the flow");
    assert!(bench.has(Role::Button, "Step 1: rest"));
}

#[test]
fn a_note_takes_several_lines_and_esc_gives_the_old_one_back() {
    let mut bench = page();
    let name = "Berry shrub";
    bench.button(name);
    let field = "Note of the preparation";
    bench.click(Role::MultilineTextInput, field);
    bench.chord(CTRL, Key::A);
    bench.type_text("first line");
    let low = bench.place(Role::MultilineTextInput, field);
    bench.press(Key::Enter);
    bench.press(Key::Enter);
    bench.type_text("third line");
    let high = bench.place(Role::MultilineTextInput, field);
    assert!(high.height() > low.height(), "it grows");
    bench.click(Role::TextInput, "Name of the preparation");
    assert_eq!(made(&bench, name).note, "first line\n\nthird line");
    bench.click(Role::MultilineTextInput, field);
    bench.type_text("no");
    bench.press(Key::Escape);
    assert_eq!(made(&bench, name).note, "first line\n\nthird line");
}

#[test]
fn a_wide_window_gives_the_steps_more_and_says_their_heads_whole() {
    for size in [vec2(1600.0, 900.0), vec2(1920.0, 1080.0)] {
        let bench = sized(demo(), size);
        let left = bench
            .place(Role::TextInput, "Name of the preparation")
            .left();
        assert!(size.x - left > size.x / 3.0, "{left} of {}", size.x);
        let heads = bench.texts("3 press: fruit in vinegar → ");
        assert_eq!(heads.len(), 1);
        assert!(heads.iter().all(|head| !head.is_cut), "{heads:?}");
    }
}

#[test]
fn the_main_output_stands_first() {
    let bench = page();
    let top = |name: &str| bench.place(Role::CheckBox, name).top();
    let shrub = made(&bench, "Berry shrub");
    let (main, _) = shrub.main_output().expect("an output");
    for other in shrub.outputs.keys().filter(|other| *other != main) {
        assert!(top(&format!("Use {main}")) < top(&format!("Use {other}")));
    }
}

#[test]
fn whole_numbers_stand_without_decimals_and_halves_keep_theirs() {
    let mut bench = page();
    bench.far_button("Step 3: press");
    let field = "Work in step 3, min";
    for typed in ["5", "2.5", "40"] {
        bench.enter_number(field, typed);
        let shown = bench.control(Role::SpinButton, field).value();
        assert_eq!(shown, Some(format!("{typed} min")));
    }
}

/// Types over what stands in a field.
fn write(bench: &mut Workbench, field: &str, text: &str) {
    bench.click(Role::TextInput, field);
    bench.chord(CTRL, Key::A);
    bench.type_text(text);
}

#[test]
fn a_start_says_when_it_is_ready_and_a_need_says_when_to_start() {
    let mut bench = page();
    bench.choose("Time");
    assert!(!bench.says("ready between"));
    write(&mut bench, "Start at", "2028-02-27 08:00");
    write(&mut bench, "Needed by", "2028-03-10 20:00");
    let (id, _) = bench
        .session()
        .document()
        .preparations
        .iter()
        .find(|(_, made)| made.name == "Berry shrub")
        .expect("the demo has it");
    let view = equipour::session::house_view(bench.session().document(), id);
    let view = view.expect("it is there");
    let total = view.timing().expect("it has steps").total_min;
    let ready = equipour::session::ready_between("2028-02-27 08:00", total).expect("a time");
    let start = equipour::session::start_between("2028-03-10 20:00", total).expect("a time");
    for (what, found) in [("ready", ready), ("start", start)] {
        let words = format!("{what} between {} and {}", found.earliest, found.latest);
        assert!(bench.says(&words), "{words}");
    }
}

#[test]
fn what_is_no_day_and_time_is_refused_beside_its_field() {
    let mut bench = page();
    bench.choose("Time");
    for (field, typed, said) in [
        ("Start at", "tomorrow", "Start at: \"tomorrow\" is no day"),
        ("Needed by", "2027-02-29 10:00", "Needed by: \"2027-02-29"),
        ("Needed by", "2028-02-29", "Needed by: say the time of day"),
        ("Start at", "9999-12-31 23:00", "Start at: from 9999-12-31"),
    ] {
        write(&mut bench, field, typed);
        assert!(bench.says(said), "{typed}");
        assert!(!bench.says("ready between"));
        write(&mut bench, field, "");
    }
}

#[test]
fn a_preparation_that_the_drink_lacks_lists_the_drinks_that_pour_it() {
    let mut bench = page();
    let document = bench.session().document();
    let spec = document
        .specs
        .iter()
        .find(|spec| spec.name == "Kitchen Garden");
    let spec = spec.expect("the demo has it");
    let pours = spec.trials.iter().flat_map(|trial| &trial.pours);
    let poured = pours.clone().find_map(|pour| match &pour.source {
        Source::Preparation { preparation, .. } => Some(preparation.clone()),
        _ => None,
    });
    let poured = document.preparations[&poured.expect("it pours one")]
        .name
        .clone();
    assert_ne!(
        bench.session().spec().map(|spec| &spec.name),
        Some(&spec.name)
    );
    bench.button(&poured);
    bench.choose("For a drink");
    bench.button("Work it out for Kitchen Garden");
    let shown = bench.session().spec().expect("a drink is on screen");
    assert_eq!(shown.name, "Kitchen Garden");
    assert!(bench.says("For Kitchen Garden"));
    assert!(!bench.says("The drink on screen does not pour it"));
}

#[test]
fn a_preparation_that_no_drink_pours_says_what_to_do_next() {
    let mut bench = page();
    bench.button("Duplicate the preparation");
    bench.choose("For a drink");
    assert!(bench.says("No drink of this document pours"));
    bench.button("Go to the Balance page");
    assert!(bench.has(Role::Button, "Add a pour…"));
}

#[test]
fn only_what_asks_for_action_has_the_colour_of_a_caution() {
    let mut bench = page();
    bench.choose("Keeping");
    let caution = bench.harness.ctx.global_style().visuals.warn_fg_color;
    let shown = bench.texts("shrub: pH");
    assert!(!shown.is_empty(), "it keeps by its acid");
    assert!(shown.iter().all(|text| text.color != caution));
    let fresh = bench.texts("spent fruit: pH");
    assert!(fresh.iter().all(|text| text.color == caution));
    assert!(!fresh.is_empty(), "fresh pulp is to be chilled at once");
}

#[test]
fn an_output_is_poured_in_the_drink_on_screen_from_here() {
    let mut bench = Workbench::demo();
    let trial = bench.session().trial().expect("a trial is shown").clone();
    assert_eq!(trial.state, TrialState::Draft);
    bench.chord(CTRL, Key::Num2);
    bench.choose("For a drink");
    let words = format!(
        "Pour raspberry shrub, house-made in Salt Meadow, {}",
        trial.name
    );
    bench.button(&words);
    let now = bench.session().trial().expect("a trial is shown");
    assert_eq!((now.id, now.pours.len()), (trial.id, trial.pours.len() + 1));
    let source = now.pours.last().map(|pour| &pour.source);
    assert!(matches!(source, Some(Source::Preparation { output, .. }) if output == "shrub"));
}

#[test]
fn a_tasted_trial_grows_a_new_one_that_pours_the_output() {
    let mut bench = Workbench::demo();
    bench.press(Key::PageUp);
    let tasted = bench.session().trial().expect("a trial is shown").clone();
    assert_eq!(tasted.state, TrialState::Tasted);
    bench.chord(CTRL, Key::Num2);
    bench.choose("For a drink");
    bench.button("Pour raspberry shrub, house-made in a new trial of Salt Meadow");
    let now = bench.session().trial().expect("a trial is shown");
    assert_eq!(
        (now.parent, now.pours.len()),
        (Some(tasted.id), tasted.pours.len() + 1)
    );
}
