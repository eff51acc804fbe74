//! The trials in the order they were made: when, what changed, out of what, why, how it tasted.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use crate::model::Spec;
use crate::session::{Session, TrialHistory, TrialLine, change_words};
use eframe::egui::{Button, Label, RichText, Ui};
use egui_extras::{Column, TableBuilder, TableRow};

/// Height of a row, points.
const ROW: f32 = 22.0;
/// Heads of the columns.
const HEADS: [&str; 6] = [
    "made on",
    "trial",
    "what changed",
    "came out of",
    "why",
    "how it tasted",
];

/// Shows the table, the latest last; only rows in sight are drawn.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    (spec, history): (&Spec, &TrialHistory),
    outbox: &mut Outbox,
) {
    ui.label(RichText::new("One after the other").strong());
    let lines = &history.lines;
    TableBuilder::new(ui)
        .id_salt("timeline")
        .striped(true)
        .vscroll(false)
        .column(Column::exact(78.0))
        .column(Column::exact(140.0).clip(true))
        .columns(
            Column::remainder().at_least(90.0).clip(true),
            HEADS.len() - 2,
        )
        .header(ROW, |mut row| {
            for head in HEADS {
                row.col(|ui| {
                    ui.label(RichText::new(head).small().color(Tokens::of(ui).weak));
                });
            }
        })
        .body(|body| {
            body.rows(ROW, lines.len(), |mut row| {
                if let Some(line) = lines.get(row.index()) {
                    show(&mut row, session, (spec, line), outbox);
                }
            });
        });
}

fn show(
    row: &mut TableRow<'_, '_>,
    session: &Session,
    (spec, line): (&Spec, &TrialLine),
    outbox: &mut Outbox,
) {
    row.col(|ui| {
        ui.label(if line.on.is_empty() { "–" } else { &line.on });
    });
    row.col(|ui| {
        let chosen = session.selection().trial == Some(line.id);
        let button = ui.add(Button::selectable(chosen, &line.name).truncate());
        let name = format!("Show {}", line.name);
        if named(
            button,
            &name,
            "Show this trial here and on the Balance page",
        )
        .clicked()
        {
            outbox.intent(Intent::ShowTrial(line.id));
        }
    });
    let changed = spec.trial(line.id).map_or_else(String::new, |trial| {
        change_words(session.document(), spec, trial)
    });
    for words in [changed.as_str(), &line.made_by, &line.reason, &line.verdict] {
        row.col(|ui| {
            // What is cut is read by pointing at it.
            ui.add(Label::new(words).truncate());
        });
    }
}
