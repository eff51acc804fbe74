//! Where the answers of a tasting point, and one button to aim there.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use crate::model::{Sample, Target, Tasting};
use crate::session::{Command, Edit, Session, TastingResults};
use crate::tasting::{Lesson, axis_lesson_words};
use crate::units::{capital, grams_per_litre, percent_vol};
use eframe::egui::{Frame, RichText, Ui};

/// Shows what is suggested for each sample.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    tasting: &Tasting,
    results: &TastingResults,
    outbox: &mut Outbox,
) {
    let samples = tasting.samples.iter().zip(&results.names);
    let mut all: Vec<_> = samples.zip(&results.lessons).enumerate().collect();
    // From what is liked best the way is shortest.
    all.sort_by(|one, other| liked(results, other.0).total_cmp(&liked(results, one.0)));
    let mut begun = false;
    for (_, ((sample, name), lesson)) in all {
        let Some(lesson) = lesson else {
            continue;
        };
        if !begun {
            begun = true;
            ui.add_space(6.0);
            ui.label(RichText::new("Where the answers point, from what is liked best on").strong());
        }
        Frame::group(ui.style()).show(ui, |ui| {
            one(ui, session, (tasting, sample, name), lesson, outbox);
        });
    }
}

/// Mean liking of a sample; what nobody answered for comes last.
fn liked(results: &TastingResults, place: usize) -> f64 {
    let scales = results.scales.as_ref();
    let sample = scales.and_then(|scales| scales.samples.get(place));
    sample.and_then(|sample| sample.liking.mean).unwrap_or(0.0)
}

fn one(
    ui: &mut Ui,
    session: &Session,
    (tasting, sample, name): (&Tasting, &Sample, &str),
    lesson: &Lesson,
    outbox: &mut Outbox,
) {
    let few = lesson.axes.iter().any(|axis| axis.few);
    let kind = if few { "suggestion" } else { "new target" };
    let point = &lesson.point;
    ui.label(format!(
        "From {name}, {kind}: sweet {}, sour {}, strength {}.",
        grams_per_litre(point.sweet_g_per_l),
        grams_per_litre(point.sour_g_per_l),
        percent_vol(point.strength_pct_vol)
    ));
    for axis in &lesson.axes {
        let words = axis_lesson_words(axis).join(" ");
        ui.label(format!("{}: {words}", capital(axis.axis.name())));
    }
    if few {
        let words = "Suggestion: fewer than 12 answers are a hint. Nothing moves by itself.";
        ui.label(RichText::new(words).color(Tokens::of(ui).caution));
    }
    ui.horizontal_wrapped(|ui| aim(ui, session, (tasting, sample, name), lesson, outbox));
}

/// The button that moves the target, and once it lies there the way to the proposals.
fn aim(
    ui: &mut Ui,
    session: &Session,
    (tasting, sample, name): (&Tasting, &Sample, &str),
    lesson: &Lesson,
    outbox: &mut Outbox,
) {
    let point = &lesson.point;
    let aim = ui.button("Aim there");
    let teach = "Moves the target of the drink; undo brings the old one back. Proposals then answer the panel.";
    if named(aim, &format!("Aim where {name} points"), teach).clicked() {
        outbox.edit(Edit::SetTarget {
            spec: sample.spec,
            target: Some(Target::at(*point, tasting.title.as_str())),
        });
    }
    let aimed = session
        .document()
        .spec(sample.spec)
        .and_then(|spec| spec.target.as_ref())
        .is_some_and(|target| target.point == *point);
    if aimed {
        ui.label("The drink aims there.");
        let see = ui.button("See proposals");
        let teach = "The Balance page, with what would bring this drink to the new target";
        if named(see, &format!("See proposals for {name}"), teach).clicked() {
            outbox.intent(Intent::ShowTrial(sample.trial));
            outbox.command(Command::BalanceView);
        }
    }
}
