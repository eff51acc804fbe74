//! What would help when the target is out of reach: one lock, limit, technique or ingredient.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::skipped;
use super::taking::KEPT;
use super::theme::Tokens;
use super::window::Window;
use crate::model::{Trial, TrialId, TrialState};
use crate::rebalance::{Addition, Additions, Remedies, Remedy, RemedyKind, Verdict};
use crate::session::{
    Derived, Session, grow_remedy, remedy_details, remedy_row_text, remedy_text, take_remedy,
};
use crate::units::{money, percent, steps};
use eframe::egui::containers::menu::MenuButton;
use eframe::egui::{Button, Context, Label, ProgressBar, RichText, Ui};

/// Remedies that need no other ingredient which are shown.
const SHOWN: usize = 3;
/// Ingredients of the ranked list which are shown.
const LISTED: usize = 12;
/// Width of the distance behind an ingredient, points.
const AWAY: f32 = 56.0;

/// Shows the remedies; nothing when the target can be reached.
pub(super) fn ui(ui: &mut Ui, session: &Session, trial: &Trial, outbox: &mut Outbox) {
    let derived = session.derived();
    let Some(remedies) = derived.and_then(|derived| derived.remedies.as_ref()) else {
        return;
    };
    // While they wait they are those from before the drag.
    let wait = derived.is_some_and(|derived| derived.remedies_wait);
    ui.add_enabled_ui(!wait, |ui| {
        all(ui, (session, trial), (remedies, derived), outbox);
    });
}

fn all(
    ui: &mut Ui,
    (session, trial): (&Session, &Trial),
    (remedies, derived): (&Remedies, Option<&Derived>),
    outbox: &mut Outbox,
) {
    ui.add_space(2.0);
    ui.label(RichText::new(heading(remedies, derived)).strong())
        .on_hover_text(
            "Each alone, with the amounts on your notches that belong to it, worked out anew by the model",
        );
    for remedy in remedies.found.iter().take(SHOWN) {
        line(ui, session, trial, remedy, outbox);
    }
    match session.additions_of(trial.id) {
        Some(Ok(found)) => listed(ui, session, trial, found, outbox),
        Some(Err(why)) => {
            let warn = Tokens::of(ui).warn;
            ui.label(RichText::new(format!("Nothing to show: {why}.")).color(warn));
        }
        None => asking(ui, session, trial.id, outbox),
    }
    ui.add_space(4.0);
}

/// How near the drink comes as it is, and whether anything single helps.
fn heading(remedies: &Remedies, derived: Option<&Derived>) -> String {
    let answer = derived.and_then(|derived| derived.answer.as_ref().ok());
    let said = match answer.map(|answer| &answer.verdict) {
        Some(Verdict::OutOfReach { nearest, .. }) => steps(*nearest),
        _ => String::new(),
    };
    let now = match remedies.present {
        // What the sentence above says already.
        Some(present) if steps(present) == said => String::new(),
        Some(present) => format!("On your notches {} away. ", steps(present)),
        None => "No amounts keep the limits. ".to_owned(),
    };
    if remedies.found.is_empty() {
        format!("{now}No single lock, limit or technique helps.")
    } else {
        format!("{now}One change would help:")
    }
}

/// One remedy in one line; what changes besides stands in its tooltip and in its menu.
fn line(ui: &mut Ui, session: &Session, trial: &Trial, remedy: &Remedy, outbox: &mut Outbox) {
    let document = session.document();
    let mut teach = vec![remedy_row_text(document, trial, remedy)];
    teach.extend(remedy_details(document, trial, remedy));
    teach.push(format!("{}. Click to take it", meaning(remedy.kind)));
    let shown = remedy_text(document, trial, remedy);
    entry(
        ui,
        session,
        trial,
        (remedy, &shown, &teach.join("\n")),
        outbox,
    );
}

/// A remedy as a button with its distance; a press opens a menu with all of it and the ways to take
/// it.
fn entry(
    ui: &mut Ui,
    session: &Session,
    trial: &Trial,
    (remedy, shown, teach): (&Remedy, &str, &str),
    outbox: &mut Outbox,
) {
    let name = remedy_text(session.document(), trial, remedy);
    ui.horizontal(|ui| {
        let room = ui.available_width() - AWAY;
        let button = ui.scope(|ui| {
            ui.set_max_width(room);
            MenuButton::from_button(Button::new(shown).truncate()).ui(ui, |ui| {
                ui.set_max_width(300.0);
                row(ui, session, trial, remedy, outbox);
            })
        });
        named(button.inner.0, &name, teach);
        let away = steps(remedy.distance());
        ui.label(RichText::new(away).small().weak());
    });
}

/// One remedy with what changes besides and its two buttons.
fn row(ui: &mut Ui, session: &Session, trial: &Trial, remedy: &Remedy, outbox: &mut Outbox) {
    let document = session.document();
    ui.add(Label::new(remedy_row_text(document, trial, remedy)).wrap())
        .on_hover_text(meaning(remedy.kind));
    let details = remedy_details(document, trial, remedy);
    if !details.is_empty() {
        let words = RichText::new(details.join(" · ")).small().weak();
        ui.add(Label::new(words).wrap());
    }
    let title = remedy_text(document, trial, remedy);
    ui.horizontal(|ui| {
        let open = trial.state == TrialState::Draft;
        let apply = ui.add_enabled(open, Button::new("Apply").small());
        let teach = "Take it with its amounts in this trial, in one step; undo takes it back";
        let apply = apply.on_disabled_hover_text(KEPT);
        if named(apply, &format!("Apply: {title}"), teach).clicked() {
            outbox.edit(take_remedy(document, trial, remedy));
        }
        let keep = ui.small_button("Keep as new trial");
        let teach = keep_teaches(remedy.kind);
        if named(keep, &format!("Keep as new trial: {title}"), teach).clicked() {
            outbox.edit(grow_remedy(document, trial, remedy));
        }
    });
}

/// What a remedy of a kind is, for tooltips.
const fn meaning(kind: RemedyKind) -> &'static str {
    match kind {
        RemedyKind::Unlock(_) => "Lets proposals change this pour, and takes the nearest amounts",
        RemedyKind::PourLimits(_) | RemedyKind::Bound(_) | RemedyKind::Glass => {
            "Switches the limit off, keeps its numbers for later, and takes the nearest amounts"
        }
        RemedyKind::Hold(_) => "The drink may grow or shrink; takes the nearest amounts",
        RemedyKind::Technique(_) => {
            "Makes it another way, with the usual dilution of that way; vessel and places stay"
        }
        RemedyKind::Add(_) => "One pour more, with the amounts of the others that fit it",
    }
}

const fn keep_teaches(kind: RemedyKind) -> &'static str {
    match kind {
        RemedyKind::Bound(_) | RemedyKind::Glass | RemedyKind::Hold(_) => {
            "Grow a new trial with it and the reason written in; limits and what is held belong to the drink, so it changes for all trials"
        }
        _ => "Grow a new trial with it and the reason written in; this trial stays as it is",
    }
}

/// The button that looks through the larder, or how far that is.
fn asking(ui: &mut Ui, session: &Session, trial: TrialId, outbox: &mut Outbox) {
    let Some(progress) = session.additions_progress() else {
        let ask = ui.button("Which ingredient would help?");
        let teach = "Tries everything in the larder that is not poured yet as one pour more: how much of it, and how near the drink comes";
        if named(ask, "Which ingredient would help?", teach).clicked() {
            outbox.intent(Intent::AskAdditions(trial));
        }
        return;
    };
    ui.horizontal(|ui| {
        let bar = ProgressBar::new(progress).desired_width(110.0);
        let name = format!("Search, {} done", percent(f64::from(progress), 0));
        named(ui.add(bar), &name, "Share of the larder that was tried");
        let cancel = ui.button("Cancel the search");
        if named(cancel, "Cancel the search", "Stop looking").clicked() {
            outbox.intent(Intent::CancelAdditions);
        }
    });
}

/// Ingredients that help, the nearest first.
fn listed(ui: &mut Ui, session: &Session, trial: &Trial, found: &Additions, outbox: &mut Outbox) {
    let landed = found.found.iter().filter(|one| one.remedy.is_some());
    let total = found.found.len();
    let words = match total {
        0 => "No single ingredient of the larder helps.".to_owned(),
        _ => format!("{} of {total} ingredients that help:", LISTED.min(total)),
    };
    ui.label(RichText::new(words).strong()).on_hover_text(
        "Nearest first, by tenths; then what the document holds already, the smaller amount, the lower cost, fewer new allergens",
    );
    skipped::ui(ui, &found.skipped);
    for one in landed.take(LISTED) {
        addition(ui, session, trial, one, outbox);
    }
}

/// One ingredient: its row opens a menu with what can be done.
fn addition(ui: &mut Ui, session: &Session, trial: &Trial, one: &Addition, outbox: &mut Outbox) {
    let Some(remedy) = &one.remedy else {
        return;
    };
    let document = session.document();
    let words = remedy_text(document, trial, remedy);
    let away = steps(remedy.distance());
    let added = remedy.swap.changed.iter().find(|pour| pour.was.is_none());
    let shown = added.map_or_else(String::new, |pour| format!("{} {}", pour.now.1, pour.now.0));
    let own = if one.is_own { ", in this document" } else { "" };
    let teach = format!(
        "{words}: {away} away{own}{}. Click for the other amounts and to take it",
        brings(one, &document.currency)
    );
    entry(ui, session, trial, (remedy, &shown, &teach), outbox);
    // Allergens are not left to a tooltip.
    let allergens = remedy.swap.difference.allergens_in_words();
    if !allergens.is_empty() {
        let words = RichText::new(allergens.join(" · ")).small().weak();
        ui.add(Label::new(words).wrap());
    }
}

/// What an ingredient brings besides, for its tooltip.
fn brings(one: &Addition, currency: &str) -> String {
    let mut words = String::new();
    if let Some(cost) = one.cost.filter(|cost| *cost >= 0.005) {
        words = format!(", {}", money(cost, currency));
    }
    if one.allergens.is_empty() {
        words
    } else {
        format!("{words}, holds {}", one.allergens.join(", "))
    }
}

impl Window {
    /// Begins to look for ingredients that help; what cannot begin is said.
    pub(super) fn ask_additions(&mut self, ctx: &Context, trial: TrialId) {
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        if let Err(error) = self.session.ask_additions(trial, wake) {
            self.say(format!("Nothing was looked for: {error}."));
        }
    }
}
