//! The chosen swap: which pours change, where it lands, what it gives up; take it or grow a trial.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::swap_dialog::SwapDialog;
use super::theme::Tokens;
use crate::model::{Trial, TrialState};
use crate::rebalance::{Candidate, Replacement, Split, SplitRule, Swap, SwapAim};
use crate::session::{Session, SwapAsk, SwapFound, SwapWhat, grow_swap, take_swap};
use crate::units::{number, percent_vol, signed, steps};
use eframe::egui::{Button, RichText, ScrollArea, Ui};

/// What the preview needs beyond the list; `None` when the list answers it or nothing is chosen.
pub(super) fn ask(dialog: &SwapDialog, session: &Session) -> Option<SwapAsk> {
    let ask = chosen(dialog)?;
    if dialog.split || dialog.chosen.is_none() {
        return Some(ask);
    }
    // The list says first whether it answers it.
    session.swap_answer(&dialog.ask())?.ok()?;
    listed(dialog, session).is_none().then_some(ask)
}

/// The question that everything chosen comes to; `None` when nothing is.
fn chosen(dialog: &SwapDialog) -> Option<SwapAsk> {
    let own = dialog.chosen.clone().map(|(id, item)| Replacement {
        pour: dialog.pour,
        id,
        item,
    });
    if dialog.split {
        return Some(dialog.asking(SwapWhat::Split(own?, dialog.rule)));
    }
    let mut all: Vec<Replacement> = dialog.kept.values().cloned().collect();
    all.extend(own);
    (!all.is_empty()).then(|| dialog.asking(SwapWhat::These(all)))
}

/// The chosen candidate's swap from the list.
fn listed<'s>(dialog: &SwapDialog, session: &'s Session) -> Option<&'s Swap> {
    let (id, _) = dialog.chosen.as_ref()?;
    let Some(Ok(SwapFound::Candidates(found))) = session.swap_answer(&dialog.ask()) else {
        return None;
    };
    let mut all = found.found.iter().chain(&found.unstated);
    let own = |one: &&Candidate| one.id == *id;
    all.find(own)?.swap.as_ref()
}

/// What is chosen, worked out; a reason where it cannot be.
enum Shown<'s> {
    Nothing,
    Waiting,
    Refused(&'s str),
    Swap(&'s Swap),
    Split(&'s Split),
}

fn shown<'s>(dialog: &SwapDialog, session: &'s Session) -> Shown<'s> {
    let Some(ask) = chosen(dialog) else {
        return Shown::Nothing;
    };
    if !dialog.split
        && let Some(swap) = listed(dialog, session)
    {
        return Shown::Swap(swap);
    }
    match session.swap_answer(&ask) {
        None => Shown::Waiting,
        Some(Err(why)) => Shown::Refused(why),
        Some(Ok(SwapFound::These(swap))) => Shown::Swap(swap),
        Some(Ok(SwapFound::Split(split))) => Shown::Split(split),
        Some(Ok(_)) => Shown::Nothing,
    }
}

/// Shows the preview and what can be done with it.
pub(super) fn ui(
    ui: &mut Ui,
    dialog: &mut SwapDialog,
    session: &Session,
    trial: &Trial,
    height: f32,
    outbox: &mut Outbox,
) {
    let shown = shown(dialog, session);
    ScrollArea::vertical()
        .id_salt("swap preview")
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink(false)
        .show(ui, |ui| match &shown {
            Shown::Nothing => {
                ui.label(RichText::new("Choose what is poured instead.").weak());
            }
            Shown::Waiting => {
                ui.label(RichText::new("Working it out…").weak());
            }
            Shown::Refused(why) => {
                let warn = Tokens::of(ui).warn;
                ui.label(RichText::new(format!("This cannot be poured: {why}.")).color(warn));
            }
            Shown::Swap(swap) => preview(ui, session, swap, dialog.aim),
            Shown::Split(split) => {
                preview(ui, session, &split.swap, dialog.aim);
                ui.label(RichText::new(gain(split)).small());
            }
        });
    let swap = match &shown {
        Shown::Swap(swap) => Some(*swap),
        Shown::Split(split) => Some(&split.swap),
        _ => None,
    };
    ui.horizontal(|ui| buttons(ui, dialog, session, trial, swap, outbox));
}

fn preview(ui: &mut Ui, session: &Session, swap: &Swap, aim: SwapAim) {
    let tokens = Tokens::of(ui);
    ui.horizontal_wrapped(|ui| {
        if swap.changed.is_empty() {
            ui.label("Nothing changes.");
        }
        for (place, one) in swap.changed.iter().enumerate() {
            if place > 0 {
                ui.label(RichText::new("·").weak());
            }
            let words = RichText::new(one.words());
            ui.label(if one.other { words.strong() } else { words });
        }
    });
    let point = &swap.point;
    let by = |moved: f64| format!("{} steps", signed(moved, 1));
    ui.label(format!(
        "Lands {} from {}: sweet {} g/L ({}), sour {} g/L ({}), {} ({}); {} ml served",
        steps(swap.distance),
        aim.name(),
        number(point.sweet_g_per_l, 1),
        by(swap.steps.sweet),
        number(point.sour_g_per_l, 2),
        by(swap.steps.sour),
        percent_vol(point.strength_pct_vol),
        by(swap.steps.strength),
        number(swap.figures.served_ml, 0),
    ))
    .on_hover_text("In brackets: how far it is on each axis, in steps of a noticeable difference");
    let difference = &swap.difference;
    let mut facts = difference.figures_in_words();
    facts.extend(difference.flavours_in_words());
    let cost = difference.cost_in_words(&session.document().currency);
    if !cost.is_empty() {
        facts.push(cost);
    }
    if !facts.is_empty() {
        ui.label(RichText::new(facts.join(" · ")).small().color(tokens.weak));
    }
    let allergens = difference.allergens_in_words();
    if !allergens.is_empty() {
        let words = format!("Allergens: {}", allergens.join(", "));
        ui.label(RichText::new(words).small().color(tokens.caution));
    }
}

/// What a split gains over the better one alone, in a sentence.
fn gain(split: &Split) -> String {
    let alone = |distance: Option<f64>| distance.map_or_else(|| "no drink".to_owned(), steps);
    let both = format!(
        "the first alone {}, the second alone {}",
        alone(split.first_alone),
        alone(split.second_alone)
    );
    match split.gain() {
        Some(gain) if gain >= 0.05 => format!("The split is {} nearer: {both}.", steps(gain)),
        Some(gain) if gain <= -0.05 => format!("The split is {} farther: {both}.", steps(-gain)),
        _ => format!("The split is as near as the better one: {both}."),
    }
}

fn buttons(
    ui: &mut Ui,
    dialog: &mut SwapDialog,
    session: &Session,
    trial: &Trial,
    swap: Option<&Swap>,
    outbox: &mut Outbox,
) {
    let open = trial.state == TrialState::Draft;
    let apply = ui.add_enabled(open && swap.is_some(), Button::new("Apply"));
    let teach = if open {
        "Take these pours in this trial, in one step that undo takes back"
    } else {
        "This trial was tasted: keep the swap as a new trial"
    };
    let apply = apply.on_disabled_hover_text(teach);
    let apply = named(apply, "Apply the swap", teach).clicked();
    let keep = ui.add_enabled(swap.is_some(), Button::new("Keep as new trial"));
    let teach = "Grow a new trial with these pours and the reason written in";
    let keep = named(keep, "Keep the swap as new trial", teach).clicked();
    if let Some(swap) = swap {
        if apply {
            outbox.edit(take_swap(trial.id, swap));
        } else if keep {
            outbox.edit(grow_swap(trial.id, swap, dialog.aim));
        }
        if apply || keep {
            outbox.intent(Intent::CloseDialog);
        }
    }
    ui.separator();
    split_buttons(ui, dialog);
    ui.separator();
    let table = ui.button("Substitution table…");
    let teach = "The best substitutes for every pour, to copy into the recipe or save as a table";
    if named(table, "Substitution table…", teach).clicked() {
        dialog.show_table(session);
    }
    if ui.button("Close").clicked() {
        outbox.intent(Intent::CloseDialog);
    }
}

fn split_buttons(ui: &mut Ui, dialog: &mut SwapDialog) {
    let name = dialog.chosen.as_ref().map(|(_, item)| item.name.clone());
    let words = name.as_ref().map_or_else(
        || "Split with…".to_owned(),
        |name| format!("Split with {name}"),
    );
    let possible = name.is_some() && dialog.kept.is_empty();
    let button = Button::new(words).selected(dialog.split);
    let button = ui.add_enabled(possible, button);
    let teach = if dialog.kept.is_empty() {
        "Pour both: the amounts of the two are free, and what the split gains is said"
    } else {
        "One pour is split at a time: keep the other pours as they are first"
    };
    if named(button, "Split with the chosen one", teach).clicked() {
        dialog.split = !dialog.split;
    }
    if dialog.split {
        let mut both = dialog.rule == SplitRule::Both;
        let tick = ui.checkbox(&mut both, "both in the glass");
        let teach = "Unticked, either may go down to nothing where that comes nearer";
        named(tick, "Both in the glass", teach);
        dialog.rule = if both {
            SplitRule::Both
        } else {
            SplitRule::Any
        };
    }
}
