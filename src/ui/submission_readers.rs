//! Who may read which part of the sheet.

use super::intent::Outbox;
use super::naming::named;
use super::theme::outline_ticks;
use crate::model::{Entry, Openness, PaperSize, SheetPart};
use crate::session::{Edit, Session, SubmissionEdit};
use eframe::egui::{Grid, RichText, Ui};
use std::sync::Arc;

/// Shows paper and parts.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    outline_ticks(ui);
    let mut entry = Entry::clone(&spec.entry);
    let mut what = "Change the paper";
    ui.horizontal(|ui| {
        ui.label(RichText::new("Paper").strong());
        for paper in PaperSize::ALL {
            let chosen = ui.radio_value(&mut entry.paper, paper, paper.name());
            let teach = "Size of the paper that the sheet is laid out on";
            named(chosen, &format!("Paper {}", paper.name()), teach);
        }
    });
    ui.add_space(6.0);
    ui.label(RichText::new("Who may read").strong());
    let words =
        "Public: judges, bar and home. Bar: only the bar's sheet. Private: no sheet at all.";
    ui.label(RichText::new(words).weak());
    Grid::new("readers")
        .num_columns(4)
        .striped(true)
        .show(ui, |ui| {
            for part in SheetPart::ALL {
                ui.label(part.name());
                let now = entry.open_to(part);
                for level in Openness::ALL {
                    let chosen = ui.radio(now == level, level.name());
                    let name = format!("{}: {}", part.name(), level.name());
                    let teach = match level {
                        Openness::Private => "On no sheet",
                        Openness::Bar => "On the bar's sheet only",
                        Openness::Public => "On every sheet",
                    };
                    if named(chosen, &name, teach).clicked() && now != level {
                        what = "Change who reads what";
                        if part.usually() == level {
                            entry.openness.remove(&part);
                        } else {
                            entry.openness.insert(part, level);
                        }
                    }
                }
                ui.end_row();
            }
        });
    if entry != *spec.entry {
        let (spec, entry) = (spec.id, Arc::new(entry));
        let edit = SubmissionEdit::SetEntry { spec, entry, what };
        outbox.edit(Edit::Submission(edit));
    }
}
