//! Batches of what comes out: measured against what was predicted.

use super::empty;
use super::house_draft::HouseDraft;
use super::house_outputs::{main_first, main_of};
use super::intent::{Intent, Outbox};
use super::naming::named;
use crate::session::{HouseView, YieldSaid};
use crate::units::percent;
use eframe::egui::{RichText, Ui};

/// Shows the lots of every output, and what they say of the yield.
pub(super) fn ui(ui: &mut Ui, view: &HouseView, draft: &mut HouseDraft<'_>, outbox: &mut Outbox) {
    if draft.was.outputs.is_empty() {
        ui.label(RichText::new("Name an output: its batches are measured here.").weak());
    }
    let document = draft.session.document();
    let mut outputs: Vec<_> = draft.was.outputs.clone().into_iter().collect();
    main_first(main_of(view), &mut outputs, |(stream, _)| stream);
    for (stream, row) in outputs {
        let described = document.ingredients.get(&row);
        let output = described.map_or(stream.as_str(), |item| item.name.as_str());
        ui.horizontal(|ui| {
            ui.label(RichText::new(output).strong());
            let add = ui.button("Measure a lot…");
            let teach = "Weigh what came out and read its °Bx, strength, acid or pH: predicted and measured stand side by side";
            if named(add, &format!("Measure a lot of {output}"), teach).clicked() {
                outbox.intent(Intent::MeasureLot {
                    of: row.clone(),
                    lot: None,
                });
            }
        });
        if document.lots_of(&row).next().is_none() {
            empty::say(
                ui,
                "No batch of it was measured yet: its readings will stand beside what was predicted.",
            );
        }
        for (id, lot) in document.lots_of(&row) {
            let made = match lot.made_on.as_str() {
                "" => String::new(),
                day => format!(" · made {day}"),
            };
            let words = format!("{}{made}", lot.label);
            let teach = "Its readings, and how far it is from what was predicted";
            if named(ui.link(&words), &words, teach).clicked() {
                outbox.intent(Intent::MeasureLot {
                    of: row.clone(),
                    lot: Some(id.clone()),
                });
            }
        }
        if let Some(said) = view.yields().get(&stream) {
            yields(ui, said, output, draft);
        }
        ui.add_space(4.0);
    }
}

fn yields(ui: &mut Ui, said: &YieldSaid, output: &str, draft: &mut HouseDraft<'_>) {
    let mut words = format!("yield predicted {}", percent(said.predicted, 1));
    if let Some(mean) = said.mean {
        words = format!("{words}, weighed {} on average", percent(mean, 1));
    }
    ui.label(RichText::new(words).small());
    if !said.words.is_empty() {
        ui.label(RichText::new(&said.words).small().weak());
    }
    let Some(proposal) = &said.proposal else {
        return;
    };
    let button = ui.button("Use this yield");
    let name = format!("Use this yield for {output}");
    let teach = "The step that decides it takes the figure and the range that the lots show; undo takes it back";
    if named(button, &name, teach).clicked()
        && let Some(range) = proposal.figure.of_mut(&mut draft.made)
    {
        *range = proposal.to;
        draft.say(format!("Use the yield of {} lots", proposal.lots));
    }
}
