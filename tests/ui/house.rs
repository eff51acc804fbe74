//! What is made in the house: written down, seen as a flow, poured, changed, deleted.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use equipour::model::{Document, Point, Preparation, Source, Target};
use equipour::session::{Edit, HouseEdit, Session, document_as_text};
use equipour::store::Settings;
use std::sync::Arc;

/// The page on the demo without anything made yet.
fn house() -> Workbench {
    let bench = Workbench::on(demo());
    let builtin = Arc::clone(bench.session().builtin());
    let mut session = Session::new(builtin, demo());
    let made: Vec<_> = session.document().preparations.keys().cloned().collect();
    for id in made {
        let edit = Edit::House(HouseEdit::Remove { id, keep: true });
        session.edit(&edit).expect("what pours it keeps the row");
    }
    house_of(Document::clone(session.document()))
}

fn house_of(document: Document) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    bench
}

fn pick(bench: &mut Workbench, search: &str) {
    bench.click(Role::TextInput, "Find an ingredient");
    bench.type_text(search);
    bench.press(Key::Enter);
}

fn take(bench: &mut Workbench, search: &str, name: &str, grams: &str) {
    bench.button("Add an input…");
    pick(bench, search);
    bench.enter_number(&format!("Amount of {name}"), grams);
}

fn step(bench: &mut Workbench, group: &str, process: &str) {
    bench.button("Add a step");
    bench.button(group);
    bench.button(process);
}

fn enter(bench: &mut Workbench, field: &str, text: &str) {
    bench.control(Role::TextInput, field).scroll_to_me();
    bench.run();
    bench.click(Role::TextInput, field);
    bench.chord(CTRL, Key::A);
    bench.type_text(text);
    bench.press(Key::Enter);
}

/// Almonds blended in water and strained through a cloth: milk and pulp, both used.
fn written() -> Workbench {
    let mut bench = house();
    bench.button("New preparation");
    enter(&mut bench, "Name of the preparation", "almond milk");
    take(
        &mut bench,
        "almonds (blanched)",
        "almonds (blanched)",
        "200",
    );
    take(&mut bench, "water", "water", "800");
    step(&mut bench, "Bring together", "blend");
    step(&mut bench, "Separate", "strain");
    enter(&mut bench, "Name of what step 2 makes, 1", "milk");
    enter(&mut bench, "Name of what step 2 makes, 2", "pulp");
    for stream in ["milk", "pulp"] {
        bench
            .control(Role::CheckBox, &format!("Use {stream}"))
            .scroll_to_me();
        bench.run();
        bench.click(Role::CheckBox, &format!("Use {stream}"));
    }
    bench
}

fn made(bench: &Workbench) -> &Preparation {
    let mut all = bench.session().document().preparations.values();
    all.next().expect("one is written down")
}

fn figures(bench: &Workbench) -> Vec<f64> {
    let derived = bench.session().derived().expect("a trial is on screen");
    let point = derived.figures.as_ref().expect("it can be served").point;
    vec![
        point.sweet_g_per_l,
        point.sour_g_per_l,
        point.strength_pct_vol,
    ]
}

/// Pours the almond milk in the trial on screen.
fn poured() -> Workbench {
    let mut bench = written();
    bench.chord(CTRL, Key::Num1);
    bench.chord(CTRL, Key::L);
    pick(&mut bench, "almond milk");
    bench
}

#[test]
fn a_preparation_of_two_outputs_is_written_down_and_its_masses_are_seen() {
    let bench = written();
    let made = made(&bench);
    assert_eq!(made.name, "almond milk");
    assert_eq!(made.outputs.keys().collect::<Vec<_>>(), ["milk", "pulp"]);
    assert_eq!(made.main, "milk");
    let flow = bench.description(Role::Image, "Flow of almond milk");
    assert!(flow.starts_with("1000 g go into almond milk"), "{flow}");
    assert!(flow.contains("g milk") && flow.contains("g pulp"), "{flow}");
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
    let rows = &bench.session().document().ingredients;
    for row in made.outputs.values() {
        assert!(rows[row].allergens.contains("almond"), "{:?}", rows[row]);
    }
}

#[test]
fn the_flow_is_a_table_when_charts_are_tables() {
    let mut bench = written();
    bench.chord(CTRL, Key::D);
    for words in ["almonds (blanched)", "step 2, strain", "output", "mass, g"] {
        assert!(bench.says(words), "{words}");
    }
    assert!(!bench.has(Role::Image, "Flow of almond milk"));
}

#[test]
fn every_tab_says_what_follows() {
    let mut bench = written();
    for (tab, words) in [
        ("Figures", "water activity"),
        ("Card and label", "ALMOND MILK"),
        ("Time", "of work"),
        ("Keeping", "follow the local food code"),
        ("Cost and waste", "Thrown away"),
        ("Cost and waste", "follow the local food code"),
        ("Lots", "Measure a lot"),
        ("Scale", "minutes stay as they are"),
    ] {
        bench.choose(tab);
        let words = words.to_lowercase();
        let said = bench.harness.root().children_recursive().any(|node| {
            let node = node.accesskit_node();
            let holds = |text: Option<String>| {
                text.is_some_and(|text| text.to_lowercase().contains(&words))
            };
            holds(node.label()) || holds(node.value())
        });
        assert!(said, "{tab} says {words}");
    }
}

#[test]
fn what_is_made_is_poured_and_changing_it_moves_the_drink_and_undo_moves_it_back() {
    let mut bench = poured();
    let trial = bench.session().trial().expect("a trial");
    let last = trial.pours.last().expect("a pour");
    assert!(
        matches!(last.source, Source::Preparation { .. }),
        "{last:?}"
    );
    assert!(bench.says("house-made"));
    let before = figures(&bench);
    let text = document_as_text(bench.session());
    bench.chord(CTRL, Key::Num2);
    bench.enter_number("Amount of water", "300");
    let after = figures(&bench);
    assert_ne!(before, after, "the drink follows");
    bench.chord(CTRL, Key::Z);
    assert_eq!(figures(&bench), before);
    assert_eq!(document_as_text(bench.session()), text);
}

#[test]
fn a_preparation_in_use_asks_before_it_goes_and_keeps_what_was_poured() {
    let mut bench = poured();
    let before = figures(&bench);
    bench.chord(CTRL, Key::Num2);
    bench.button("Remove the preparation");
    assert!(bench.says("Used by"));
    bench.button("Leave the preparation");
    assert!(!bench.says("Used by"));
    assert_eq!(bench.session().document().preparations.len(), 1);
    bench.button("Remove the preparation");
    bench.button("Remove and keep its rows");
    assert!(bench.session().document().preparations.is_empty());
    assert_eq!(figures(&bench), before);
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.session().document().preparations.len(), 1);
}

#[test]
fn a_name_that_is_taken_is_refused_beside_its_field_and_stays_as_typed() {
    let mut bench = written();
    enter(&mut bench, "Name of what step 2 makes, 1", "pulp");
    assert!(bench.says("another stream is called \"pulp\""));
    let field = bench.control(Role::TextInput, "Name of what step 2 makes, 1");
    assert_eq!(
        field.value().unwrap_or_default(),
        "pulp",
        "what was typed stays"
    );
    assert!(made(&bench).outputs.contains_key("milk"));
}

#[test]
fn a_step_that_cannot_be_done_says_so_and_keeps_what_was_typed() {
    let mut bench = written();
    bench.button("Step 2: strain");
    bench.button("Step 2: strain");
    bench.button("Step 2 takes purée");
    assert!(bench.messages().is_empty());
    bench.button("Leave it out");
    assert!(bench.says("takes nothing"));
    assert!(bench.says("It cannot be worked out yet"));
    assert_eq!(made(&bench).outputs.len(), 2, "nothing is lost");
    bench.button("Step 2 takes more");
    bench.button("purée");
    assert!(!bench.says("It cannot be worked out yet"));
}

#[test]
fn scaling_changes_every_amount_in_one_step() {
    let mut bench = written();
    let steps = bench.steps();
    bench.choose("Scale");
    bench.enter_number("Amount at hand", "100");
    bench.button("Scale to what is at hand");
    let made = made(&bench);
    let grams = |place: usize| match made.inputs[place].quantity {
        equipour::model::Quantity::Grams(grams) => grams,
        other => panic!("{other:?}"),
    };
    assert_eq!((grams(0), grams(1)), (100.0, 400.0));
    assert_eq!(bench.steps(), steps + 1);
}

#[test]
fn a_starter_is_taken_over_and_can_be_poured() {
    let mut bench = house();
    bench.button("From a starter");
    let starter = &equipour::store::starter_preparations()[0];
    bench.button(&starter.preparation.name);
    assert_eq!(made(&bench).name, starter.preparation.name);
    let shown = format!("Flow of {}", starter.preparation.name);
    assert!(bench.has(Role::Image, &shown));
}

#[test]
fn every_starter_is_shown_without_a_word_of_trouble() {
    for starter in equipour::store::starter_preparations() {
        let mut bench = house();
        bench.button("From a starter");
        bench.button(&starter.preparation.name);
        assert!(bench.messages().is_empty(), "{:?}", bench.messages());
        assert!(
            !bench.says("cannot be worked out"),
            "{}",
            starter.preparation.name
        );
        for place in 0..starter.preparation.steps.len() {
            let name = format!(
                "Step {}: {}",
                place + 1,
                starter.preparation.steps[place].does.name()
            );
            bench.far_button(&name);
        }
    }
}

#[test]
fn an_empty_page_says_what_to_do_next() {
    let mut bench = house();
    assert!(bench.says("Nothing is made in the house yet"));
    bench.button("New preparation");
    assert!(bench.says("Nothing goes in yet"));
    assert!(bench.says("Steps come after the first input"));
    assert!(
        bench
            .harness
            .query_all_by_label("Add an input…")
            .next()
            .is_some()
    );
}

#[test]
fn what_a_drink_wants_of_a_preparation_is_said_and_added_in_one_step() {
    let mut document = demo();
    let place = document
        .specs
        .iter()
        .position(|spec| spec.name == "Kitchen Garden");
    let mut garden = document.specs.remove(place.expect("the demo has it"));
    let wanted = Point {
        sweet_g_per_l: 70.0,
        sour_g_per_l: 7.0,
        strength_pct_vol: 13.0,
        bitter_per_ml: 0.0,
    };
    garden.target = Some(Target::at(wanted, "a livelier one".to_owned()));
    document.specs.push(garden);
    let mut bench = house_of(document);
    let trial = Arc::clone(bench.session().trial().expect("a trial is on screen"));
    let poured = trial.pours.iter().find_map(|pour| match &pour.source {
        Source::Preparation {
            preparation,
            output,
        } => Some((preparation.clone(), output.clone())),
        _ => None,
    });
    let (id, output) = poured.expect("the drink pours something house-made");
    let before = bench.session().document().preparations[&id].clone();
    bench.button(&before.name);
    bench.button("For a drink");
    let now = far(&bench);
    let add = format!("Add what {output} lacks");
    bench.button(&add);
    let after = bench.session().document().preparations[&id].clone();
    assert_eq!(after.steps.len(), before.steps.len() + 1);
    assert!(after.inputs.len() > before.inputs.len());
    let then = far(&bench);
    assert!(then < now, "{then} {now}");
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.session().document().preparations[&id], before);
}

/// How far the drink on screen lies from its target.
fn far(bench: &Workbench) -> f64 {
    let derived = bench.session().derived().expect("a drink is on screen");
    derived.distance.expect("it has a target")
}

#[test]
fn another_preparation_is_shown_with_its_own_flow_at_once() {
    let mut bench = Workbench::sized(demo(), Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    let all = bench.session().document().preparations.values();
    let names: Vec<String> = all.map(|made| made.name.clone()).collect();
    assert!(names.len() > 1, "{names:?}");
    for name in &names {
        bench.button(name);
        let flow = bench.description(Role::Image, &format!("Flow of {name}"));
        assert!(flow.contains(&format!("go into {name}")), "{flow}");
        let made = bench.session().document().preparations.values();
        let made = made
            .clone()
            .find(|made| made.name == *name)
            .expect("it is there");
        // Every node is painted with its name, the first step's above all.
        let first = format!("1 {}", made.steps[0].does.name());
        assert_eq!(bench.painted(&first), 1, "{name}");
        for output in made.outputs.keys() {
            assert!(flow.contains(output.as_str()), "{flow}");
        }
    }
}

#[test]
fn a_new_one_and_a_copy_are_shown_as_soon_as_they_are_there() {
    let mut bench = Workbench::sized(demo(), Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    let count = |bench: &Workbench| bench.session().document().preparations.len();
    let before = count(&bench);
    bench.button("New preparation");
    assert_eq!(count(&bench), before + 1);
    assert!(bench.says("Nothing goes in yet"));
    let all = bench.session().document().preparations.values();
    let name = all
        .map(|made| made.name.clone())
        .max_by_key(|name| name.starts_with("Berry"));
    let name = name.expect("one is there");
    bench.button(&name);
    bench.button("Duplicate the preparation");
    assert_eq!(count(&bench), before + 2);
    let copy = format!("{name}, copy");
    assert!(bench.has(Role::Image, &format!("Flow of {copy}")));
    // The copy's outputs are its own: changing it leaves the first one alone.
    let rows: Vec<_> = bench
        .session()
        .document()
        .preparations
        .values()
        .flat_map(|made| made.outputs.values().cloned())
        .collect();
    let unique: std::collections::BTreeSet<_> = rows.iter().collect();
    assert_eq!(unique.len(), rows.len());
}
