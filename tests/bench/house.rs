//! Time of one frame of the house-made page, without a graphics card.

use crate::row;
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use equipour::kitchen::usual_steps;
use equipour::model::{
    Document, IngredientId, Input, Preparation, PreparationId, Quantity, Source,
};
use equipour::session::{Edit, HouseEdit, Session, add_step};
use equipour::store::{Builtin, Settings};
use equipour::ui::Window;
use std::sync::Arc;
use std::time::Instant;

/// Frames measured.
const FRAMES: usize = 400;
/// Steps of the preparation.
const STEPS: [&str; 12] = [
    "blend", "strain", "heat", "rest", "press", "heat", "rest", "clarify", "heat", "divide",
    "rest", "rest",
];

/// Oats and water through twelve steps.
fn twelve_steps() -> Preparation {
    let input = |name: &str, id: &str, grams| Input {
        name: name.to_owned(),
        source: Source::Ingredient(IngredientId::from(id)),
        quantity: Quantity::Grams(grams),
    };
    let mut made = Preparation {
        name: "twelve steps".to_owned(),
        inputs: vec![input("oats", "oats", 100.0), input("water", "water", 900.0)],
        ..Preparation::default()
    };
    let usual = usual_steps();
    for name in STEPS {
        if name == "clarify" {
            made.inputs.push(input("agar", "agar", 2.0));
        }
        let step = usual.iter().find(|step| step.does.name() == name);
        add_step(&mut made, step.expect("such a step"));
    }
    let last = made.steps[11].to[0].clone();
    made.outputs
        .insert(last, IngredientId::from("twelve-steps"));
    made
}

fn set(made: Preparation, builtin: &Builtin) -> Edit {
    let rows = made.inputs.iter().filter_map(|input| match &input.source {
        Source::Ingredient(id) => Some((id.clone(), Arc::clone(builtin.larder.get(id)?))),
        Source::Preparation { .. } | Source::Lot(_) => None,
    });
    Edit::House(HouseEdit::Set {
        id: PreparationId::from("twelve"),
        rows: rows.collect(),
        to: Box::new(made),
        label: "Twelve steps".to_owned(),
        gesture: None,
    })
}

/// Measures frames while nothing moves and while an amount is dragged: every frame brings an edit.
pub(crate) fn measure(document: Document) {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let mut session = Session::new(Arc::clone(&builtin), document);
    let made = twelve_steps();
    session
        .edit(&set(made.clone(), &builtin))
        .expect("it can be written");
    let window = Window::new(session, Settings::default(), None);
    let mut harness = Harness::builder()
        .with_size((1280.0, 800.0))
        .build_ui_state(|ui, window: &mut Window| window.frame(ui), window);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num2);
    harness.run_steps(10);
    for (name, moving) in [("still", false), ("amount moving", true)] {
        let mut times: Vec<f64> = (0..FRAMES)
            .map(|frame| {
                if moving {
                    let mut made = made.clone();
                    made.inputs[0].quantity = Quantity::Grams(90.0 + (frame % 20) as f64);
                    harness.state_mut().ask(set(made, &builtin));
                }
                let start = Instant::now();
                harness.step();
                start.elapsed().as_secs_f64() * 1.0e6
            })
            .collect();
        times.sort_by(f64::total_cmp);
        let worst = times[FRAMES * 99 / 100];
        row(
            &format!("House-made frame, 12 steps, {name} (worst: p99)"),
            times[FRAMES / 2],
            4_000.0,
            Some((worst, 8_000.0)),
        );
    }
}
