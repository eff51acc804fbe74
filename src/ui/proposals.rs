//! Proposals: changed pours, where they land, what they give up; hover previews, one click applies.

use super::intent::Outbox;
use super::naming::named;
use super::remedies;
use super::theme::Tokens;
use super::view::View;
use crate::model::{Trial, TrialState};
use crate::rebalance::{Kind, Obstacle, Proposal, Verdict};
use crate::session::{Edit, Session, change_text, verdict_text};
use crate::units::{money, number, percent_vol, steps};
use eframe::egui::{Frame, Margin, RichText, Stroke, Ui};

/// Shows the proposals.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut View, outbox: &mut Outbox) {
    view.hovered_proposal = None;
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
    let said = verdict_text(session.document(), trial, &answer.verdict);
    if !said.is_empty() {
        ui.label(RichText::new(said).color(Tokens::of(ui).caution));
    }
    if let Verdict::OutOfReach {
        obstacle: Obstacle::Locked { pour, .. },
        ..
    } = answer.verdict
        && ui
            .small_button("Unlock it")
            .on_hover_text("Let proposals change this pour")
            .clicked()
    {
        outbox.edit(Edit::SetLocked {
            trial: trial.id,
            pour,
            locked: false,
        });
    }
    remedies::ui(ui, session, trial, outbox);
    if answer.proposals.is_empty() {
        ui.label(if answer.distance_now < 0.05 {
            "On target."
        } else {
            "Nothing to change: no other amounts on these notches come nearer for the change they cost."
        });
    }
    for (index, proposal) in answer.proposals.iter().enumerate() {
        let hovered = card(ui, session, trial, proposal, outbox);
        if hovered {
            view.hovered_proposal = Some(index);
        }
    }
}

fn card(
    ui: &mut Ui,
    session: &Session,
    trial: &Trial,
    proposal: &Proposal,
    outbox: &mut Outbox,
) -> bool {
    let tokens = Tokens::of(ui);
    let title = title(proposal);
    let frame = Frame::new()
        .fill(tokens.card)
        .stroke(Stroke::new(1.0, tokens.line))
        .corner_radius(6)
        .inner_margin(Margin::symmetric(10, 8));
    let shown = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.label(RichText::new(&title).strong()).on_hover_text(
            proposal
                .kinds
                .iter()
                .map(|kind| kind.meaning())
                .collect::<Vec<_>>()
                .join("\n"),
        );
        for change in &proposal.changes {
            ui.label(change_text(session.document(), trial, change));
        }
        ui.label(RichText::new(landing(proposal)).small());
        ui.label(RichText::new(price_of(session, proposal)).small().weak())
            .on_hover_text(format!("Solver: {}", proposal.ending));
        ui.horizontal(|ui| {
            let open = trial.state == TrialState::Draft;
            let apply = ui.add_enabled(open, eframe::egui::Button::new("Apply"));
            let name = format!("Apply: {title}");
            if named(
                apply,
                &name,
                "Take these amounts in this trial; undo takes them back",
            )
            .clicked()
            {
                outbox.edit(Edit::ApplyChanges {
                    trial: trial.id,
                    changes: proposal.changes.clone(),
                    label: title.clone(),
                });
            }
            let keep = ui.button("Keep as new trial");
            let name = format!("Keep as new trial: {title}");
            if named(
                keep,
                &name,
                "Grow a new trial with these amounts and the reason written in",
            )
            .clicked()
            {
                outbox.edit(keep_edit(session, trial, proposal));
            }
        });
    });
    shown.response.contains_pointer()
}

/// The edit that keeps a proposal as a new trial.
pub(super) fn keep_edit(session: &Session, trial: &Trial, proposal: &Proposal) -> Edit {
    let changes: Vec<String> = proposal
        .changes
        .iter()
        .map(|change| change_text(session.document(), trial, change))
        .collect();
    Edit::GrowTrial {
        from: trial.id,
        reason: format!(
            "{}, {} from the target: {}",
            title(proposal).to_lowercase(),
            steps(proposal.distance),
            changes.join("; ")
        ),
        changes: proposal.changes.clone(),
    }
}

/// Names of the kinds a proposal stands for.
pub(super) fn title(proposal: &Proposal) -> String {
    let kinds: Vec<&str> = proposal.kinds.iter().copied().map(Kind::name).collect();
    kinds
        .join(" and ")
        .replace(" and Smallest", " and smallest")
}

fn landing(proposal: &Proposal) -> String {
    format!(
        "lands {} away: sweet {}, sour {} g/L, {}",
        steps(proposal.distance),
        number(proposal.point.sweet_g_per_l, 1),
        number(proposal.point.sour_g_per_l, 2),
        percent_vol(proposal.point.strength_pct_vol)
    )
}

/// Volume, cost and what rounding to the pour steps gives up.
fn price_of(session: &Session, proposal: &Proposal) -> String {
    let document = session.document();
    let mut facts = vec![format!("{} ml served", number(proposal.served_ml, 0))];
    if proposal.cost > 0.0 {
        facts.push(money(proposal.cost, &document.currency));
    }
    let lost = proposal.distance - proposal.distance_unrounded;
    if lost > 0.005 {
        facts.push(format!("rounding to notches costs {}", steps(lost)));
    }
    facts.push(format!(
        "{} notches of change",
        number(proposal.change_steps, 1)
    ));
    facts.join(" · ")
}
