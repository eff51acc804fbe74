//! What a closed tasting says: conclusions, charts and tables, what it suggests, and reports of it.

use super::intent::Outbox;
use super::naming::named;
use super::tasting_ballot::set;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use super::{tasting_answers, tasting_bars, tasting_lesson, tasting_tables};
use crate::model::{Tasting, TastingId};
use crate::session::{Session, TastingResults, answer_table, tasting_markdown, tasting_results};
use crate::store::write_plain_table;
use eframe::egui::{CollapsingHeader, Id, RichText, ScrollArea, Ui};

/// Results as they were worked out last, and from what.
#[derive(Debug, Default)]
pub(super) struct ResultsView {
    of: Option<(u64, TastingId)>,
    results: Option<TastingResults>,
}

impl ResultsView {
    /// Shows them; while the tasting is open only that it is.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        tasting: &Tasting,
        outbox: &mut Outbox,
    ) {
        if !tasting.closed {
            ui.label(
                "Results follow once the codes are lifted, so that nobody is told what to find.",
            );
            return;
        }
        let of = Some((session.revision(), tasting.id));
        if self.of != of {
            self.results = Some(tasting_results(session.document(), tasting));
            self.of = of;
        }
        let Some(results) = &self.results else {
            return;
        };
        reports(ui, session, tasting, results);
        ScrollArea::both()
            .id_salt(("results", tasting.id.0))
            .auto_shrink(false)
            .show(ui, |ui| {
                notes(ui, tasting, outbox);
                kept(ui, results);
                ui.label(RichText::new("What it says").strong());
                sentences(ui, &results.said);
                tasting_bars::ui(ui, tasting, results);
                tasting_lesson::ui(ui, session, tasting, results, outbox);
                tasting_tables::ui(ui, tasting, results);
                details(ui, results);
                tasting_answers::ui(ui, tasting, results);
            });
    }
}

fn reports(ui: &mut Ui, session: &Session, tasting: &Tasting, results: &TastingResults) {
    ui.horizontal_wrapped(|ui| {
        let copy = ui.button("Copy the report");
        let teach = "What was tasted, what it says and all answers as Markdown, to send or to file";
        if named(copy, "Copy the report", teach).clicked() {
            let said = [results.said.as_slice(), &results.details].concat();
            let text = tasting_markdown(session.document(), tasting, &said);
            ui.copy_text(text);
        }
        let copy = ui.button("Copy answers as CSV");
        let teach = "Raw answers for a spreadsheet: one row for each taster and cup";
        if named(copy, "Copy answers as CSV", teach).clicked()
            && let Ok(text) = write_plain_table(&answer_table(session.document(), tasting))
        {
            ui.copy_text(text);
        }
    });
}

/// What is to be remembered of the whole tasting; it stands in the report.
fn notes(ui: &mut Ui, tasting: &Tasting, outbox: &mut Outbox) {
    let field = WordField {
        name: "Notes of the tasting",
        teach: "Where, in which glasses, what went wrong: stands in the report",
        value: &tasting.notes,
        hint: "notes",
        width: 620.0,
    };
    let id = Id::unique(("notes of a tasting", tasting.id.0));
    if let WordEntered::Words(notes) = field.show_lines(ui, id, 2) {
        let mut changed = tasting.clone();
        changed.notes = notes;
        set(changed, "Write notes down", outbox);
    }
}

/// Says which trials are no longer what was tasted.
fn kept(ui: &mut Ui, results: &TastingResults) {
    for (name, now) in results.names.iter().zip(&results.now) {
        if let Some(words) = now.words() {
            let words = format!("{name}: {words}");
            ui.label(RichText::new(words).color(Tokens::of(ui).caution));
        }
    }
}

fn sentences(ui: &mut Ui, all: &[String]) {
    for sentence in all {
        ui.label(format!("• {sentence}"));
    }
    ui.add_space(6.0);
}

fn details(ui: &mut Ui, results: &TastingResults) {
    if results.details.is_empty() {
        return;
    }
    ui.add_space(6.0);
    CollapsingHeader::new("Scale by scale, in words")
        .default_open(true)
        .show(ui, |ui| sentences(ui, &results.details));
}
