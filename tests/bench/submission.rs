//! Sheets and services: what a change costs while the page is on screen.

use crate::row;
use equipour::model::Reader;
use equipour::session::{Session, sheet_view};
use equipour::sheet::{paint, pdf};
use equipour::store::{Builtin, DEMO, read_text};
use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

/// Nobody set a hold for these.
const NO_HOLD: f64 = f64::INFINITY;

/// Readings per row: each takes milliseconds.
const READINGS: usize = 21;

fn median_us(mut work: impl FnMut()) -> f64 {
    let mut readings: Vec<f64> = (0..READINGS)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1.0e6
        })
        .collect();
    readings.sort_by(f64::total_cmp);
    readings[READINGS / 2]
}

/// The sheet of the demo laid out, written and painted; batch and plan of its house-made drink.
pub(crate) fn measure() {
    let builtin = Arc::new(Builtin::load().expect("the tables read"));
    let demo = read_text(DEMO).expect("the demo reads").document;
    let mut session = Session::new(builtin, demo.clone());
    let house = demo.specs.iter().find(|spec| !spec.entry.story.is_empty());
    session.select_spec(house.expect("it has an entry").id);
    session.refresh();
    let view = sheet_view(&session, Reader::Judges).expect("there is a drink");
    let laid = view.laid.expect("it fits");
    let sheet = median_us(|| {
        black_box(sheet_view(&session, Reader::Judges));
    });
    row(
        "sheet of the demo, content and two layouts",
        sheet,
        NO_HOLD,
        None,
    );
    let written = median_us(|| {
        black_box(pdf(&laid).expect("it can be written"));
    });
    row("the same as PDF", written, NO_HOLD, None);
    let painted = median_us(|| {
        black_box(paint(&laid.pages[0], 4.0).expect("it can be painted"));
    });
    row("a page painted, 4 points a mm", painted, NO_HOLD, None);
    let service = median_us(|| {
        let mut again = Session::new(Arc::clone(session.builtin()), demo.clone());
        again.select_spec(session.selection().spec.expect("a drink"));
        let view = again.service();
        black_box(view.plan().is_some());
    });
    row(
        "session, batch and plan of nine jobs",
        service,
        NO_HOLD,
        None,
    );
}
