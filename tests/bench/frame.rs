//! Time of one frame of the window, without a graphics card.

use crate::row;
use eframe::egui::{Key, Modifiers, Pos2};
use egui_kittest::Harness;
use equipour::model::Document;
use equipour::session::{Edit, Session};
use equipour::store::{Builtin, Settings};
use equipour::ui::Window;
use std::sync::Arc;
use std::time::Instant;

/// Frames measured.
const FRAMES: usize = 400;

/// Where nothing listens to the pointer: the line below the bar.
const IDLE: Pos2 = Pos2::new(700.0, 38.0);

/// Pages with the key that shows each, together with Ctrl.
pub(crate) const PAGES: [(&str, Option<Key>); 5] = [
    ("Balance", None),
    ("House-made", Some(Key::Num2)),
    ("Trials", Some(Key::Num3)),
    ("Submission", Some(Key::Num4)),
    ("Larder", Some(Key::Num5)),
];

/// Measures frames while a slider moves: every frame brings an edit.
///
/// `page` is the key that shows the page, together with Ctrl; the Balance page without one.
pub(crate) fn measure(document: Document, page: Option<Key>, what: &str) {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let session = Session::new(builtin, document);
    let window = Window::new(session, Settings::default(), None);
    let mut harness = Harness::builder()
        .with_size((1280.0, 800.0))
        .build_ui_state(|ui, window: &mut Window| window.frame(ui), window);
    if let Some(key) = page {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
    }
    harness.run_steps(10);
    let still = times(&mut harness, |_, _| {});
    // A drag: the button is held, on words that do nothing.
    harness.drag_at(IDLE);
    let moving = times(&mut harness, |window, frame| {
        let Some(trial) = window.session().trial().cloned() else {
            return;
        };
        let value = 40.0 + (frame % 9) as f64 * 2.5;
        window.ask(Edit::SetAmount {
            trial: trial.id,
            pour: 0,
            amount: trial.pours[0].amount.with_value(value),
            unit: trial.pours[0].unit,
        });
    });
    for (name, times) in [("still", &still), ("moving", &moving)] {
        let mut drawn: Vec<f64> = times.iter().map(|times| times.0).collect();
        let mut cut: Vec<f64> = times.iter().map(|times| times.1).collect();
        for (how, times) in [("", &mut drawn), (", cut", &mut cut)] {
            times.sort_by(f64::total_cmp);
            row(
                &format!("{what}, {name}{how}"),
                times[FRAMES / 2],
                4_000.0,
                Some((times[FRAMES * 99 / 100], 8_000.0)),
            );
        }
    }
}

/// Microseconds without and with tessellation.
fn times(
    harness: &mut Harness<'_, Window>,
    mut before: impl FnMut(&mut Window, usize),
) -> Vec<(f64, f64)> {
    (0..FRAMES)
        .map(|frame| {
            before(harness.state_mut(), frame);
            let start = Instant::now();
            harness.step();
            let drawn = start.elapsed();
            let output = harness.output();
            let shapes = output.shapes.clone();
            let pixels = output.pixels_per_point;
            let start = Instant::now();
            std::hint::black_box(harness.ctx.tessellate(shapes, pixels));
            let cut: std::time::Duration = start.elapsed();
            (
                drawn.as_secs_f64() * 1.0e6,
                (drawn + cut).as_secs_f64() * 1.0e6,
            )
        })
        .collect()
}
