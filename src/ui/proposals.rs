//! The list of proposals: whether the target can be reached, and a card for each.

use super::intent::Outbox;
use super::proposal_card::ProposalCard;
use super::remedies;
use super::taking::Taking;
use super::theme::Tokens;
use super::view::View;
use crate::model::Trial;
use crate::rebalance::Answer;
use crate::session::{Session, no_proposal_text, verdict_text};
use eframe::egui::{RichText, Ui};

/// Shows the proposals.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut View, outbox: &mut Outbox) {
    let (Some(trial), Some(derived)) = (session.trial(), session.derived()) else {
        return;
    };
    ui.heading("Proposals");
    let answer = match &derived.answer {
        Ok(answer) => answer,
        Err(reason) => {
            ui.label(RichText::new(reason).weak());
            return;
        }
    };
    verdict(ui, session, trial, answer, outbox);
    let cost_now = derived.figures.as_ref().ok().map(|now| now.cost.amount);
    let mut focused = None;
    for (index, proposal) in answer.proposals.iter().enumerate() {
        let taken = view.cards.taken(session, index, proposal);
        let taking = Taking {
            session,
            trial,
            proposal,
            taken: &taken,
        };
        let card = ProposalCard {
            taking,
            index,
            cost_now,
        };
        let pointing = card.ui(ui, &mut view.cards, outbox);
        if pointing.focused {
            focused = Some(index);
        }
        if pointing.hovered || pointing.focused {
            let name = proposal
                .kinds
                .first()
                .map_or("proposal", |kind| kind.name());
            let name = if taking.is_whole() {
                name.to_owned()
            } else {
                format!("{name}, a part")
            };
            view.previewing.point_at(&name, &taken, pointing.hovered);
        }
    }
    view.cards.note_focus(focused);
}

/// Whether the target can be reached, what is in the way, and why there may be no proposal.
fn verdict(ui: &mut Ui, session: &Session, trial: &Trial, answer: &Answer, outbox: &mut Outbox) {
    let said = verdict_text(session.document(), trial, &answer.verdict);
    if !said.is_empty() {
        ui.label(RichText::new(said).color(Tokens::of(ui).caution));
    }
    remedies::ui(ui, session, trial, outbox);
    let held = session.spec().map(|spec| spec.balancing.scale_rule);
    let why = session
        .derived()
        .map(|derived| no_proposal_text(derived, held.unwrap_or_default()));
    if let Some(why) = why.filter(|why| !why.is_empty()) {
        ui.label(why);
    }
}
