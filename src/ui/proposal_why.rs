//! Why a proposal is as it is: proofs, limits that bind, what the notches cost.

use super::naming::named;
use super::taking::Taking;
use crate::session::{
    binding_text, boxes_text, change_size_text, ending_text, evidence_text, limit_text,
    rounding_text,
};
use crate::units::capital;
use eframe::egui::containers::menu::MenuButton;
use eframe::egui::{Align, Button, Layout, Response, RichText, Ui};

/// Widest the words get, points.
const WIDTH: f32 = 320.0;

/// Shows a small button that opens the reasons.
pub(super) fn ui(ui: &mut Ui, taking: &Taking<'_>) -> Response {
    let button = Button::new(RichText::new("Why…").small()).small();
    let (response, _) = MenuButton::from_button(button).ui(ui, |ui| {
        ui.set_max_width(WIDTH);
        // Menus justify their text; a sentence reads better ragged.
        ui.with_layout(Layout::top_down(Align::LEFT), |ui| reasons(ui, taking));
    });
    let name = format!("Why: {}", taking.title());
    let teach =
        "What it means, what was proved, which limits hold it back, and what the notches cost";
    named(response, &name, teach)
}

fn reasons(ui: &mut Ui, taking: &Taking<'_>) {
    let Taking {
        session,
        trial,
        proposal,
        ..
    } = taking;
    let document = session.document();
    if !taking.is_whole() {
        ui.label("Of the whole proposal:");
    }
    for evidence in &proposal.evidence {
        let proved = evidence_text(evidence, proposal.distance, &document.currency);
        let words = format!(
            "{}: {proved} ({})",
            evidence.kind.name(),
            boxes_text(evidence)
        );
        ui.label(words);
        ui.label(RichText::new(evidence.kind.meaning()).small().weak());
    }
    let size = change_size_text(proposal.change_steps, proposal.changes.len());
    ui.label(format!("Size: {size}."));
    for binding in &proposal.binding {
        let Some(said) = binding_text(document, trial, binding) else {
            continue;
        };
        let limit = capital(&limit_text(document, trial, binding.limit));
        ui.label(format!("{limit} holds it back: {said}."))
            .on_hover_text("Before the amounts are rounded to notches, to first order");
    }
    if let Some(lost) = rounding_text(proposal) {
        ui.label(lost);
    }
    ui.label(RichText::new(ending_text(proposal)).small().weak());
}
