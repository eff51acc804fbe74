//! What a swap is to give back and what it must keep; how far the search is.

use super::naming::named;
use super::swap_dialog::SwapDialog;
use super::theme::Tokens;
use crate::model::{EU_ALLERGENS, ScaleRule};
use crate::rebalance::SwapAim;
use crate::session::Session;
use crate::units::percent;
use eframe::egui::containers::menu::{MenuButton, MenuConfig};
use eframe::egui::{ComboBox, PopupCloseBehavior, ProgressBar, RichText, TextEdit, Ui};

/// Shows the settings; `search` as well where there is a list to search.
pub(super) fn ui(ui: &mut Ui, dialog: &mut SwapDialog, session: &Session, search: bool) {
    ui.horizontal_wrapped(|ui| {
        if search {
            find(ui, dialog);
        }
        ui.label("Give back");
        let aims = aims(session);
        let combo = ComboBox::from_id_salt("swap aim")
            .selected_text(dialog.aim.name())
            .width(110.0)
            .show_ui(ui, |ui| {
                for aim in aims {
                    ui.selectable_value(&mut dialog.aim, aim, aim.name());
                }
            });
        named(
            combo.response,
            "Give back",
            "The balance that is to come back: that of this trial as it is now, of the trial it grew from, or the target",
        );
        ui.label("Hold");
        let combo = ComboBox::from_id_salt("swap hold")
            .selected_text(dialog.hold.name())
            .width(120.0)
            .show_ui(ui, |ui| {
                for rule in ScaleRule::ALL {
                    ui.selectable_value(&mut dialog.hold, rule, rule.name());
                }
            });
        named(
            combo.response,
            "Hold in the swap",
            "What stays as it is in this trial while the unlocked pours move; nothing held changes fewer pours",
        );
        allergens(ui, dialog);
    });
}

fn find(ui: &mut Ui, dialog: &mut SwapDialog) {
    let field = TextEdit::singleline(&mut dialog.search)
        .hint_text("Name, kind or flavour")
        .desired_width(190.0);
    let field = ui.add(field);
    if dialog.fresh {
        field.request_focus();
        dialog.fresh = false;
    }
    let teach = "Letters of a name, a kind or a flavour word; Enter takes the first row";
    named(field, "Find a candidate", teach);
}

/// Aims that there are.
fn aims(session: &Session) -> Vec<SwapAim> {
    let has = |aim: &SwapAim| match aim {
        SwapAim::Trial => true,
        SwapAim::Parent => session.trial().is_some_and(|trial| trial.parent.is_some()),
        SwapAim::Target => session.spec().is_some_and(|spec| spec.target.is_some()),
    };
    SwapAim::ALL.into_iter().filter(has).collect()
}

fn allergens(ui: &mut Ui, dialog: &mut SwapDialog) {
    let words = match dialog.without.as_slice() {
        [] => "Without…".to_owned(),
        [one] => format!("Without {one}"),
        list => format!("Without {} allergens", list.len()),
    };
    // Several groups are ticked in a row.
    let stays = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
    let (menu, _) = MenuButton::new(words).config(stays).ui(ui, |ui| {
        ui.set_min_width(230.0);
        for group in EU_ALLERGENS {
            let mut without = dialog.without.contains(&group);
            let tick = ui.checkbox(&mut without, group);
            let teach = "Leave out what holds it, for certain or possibly; check every label";
            if named(tick, &format!("Without {group}"), teach).changed() {
                dialog.without.retain(|known| *known != group);
                if without {
                    dialog.without.push(group);
                }
            }
        }
    });
    named(
        menu,
        "Without allergens",
        "Leave out what holds one of the groups of EU 1169/2011; what nobody states stands apart",
    );
}

/// How far the search is; true when it is to stop.
pub(super) fn progress(ui: &mut Ui, progress: Option<f32>) -> bool {
    let Some(progress) = progress else {
        return false;
    };
    ui.horizontal(|ui| {
        let bar = ProgressBar::new(progress).desired_width(180.0);
        let name = format!("Search, {} done", percent(f64::from(progress), 0));
        named(ui.add(bar), &name, "Share of the larder that was tried");
        let cancel = ui.button("Cancel the search");
        named(cancel, "Cancel the search", "Stop looking").clicked()
    })
    .inner
}

/// Why nothing is looked for; true when it is to be looked for again.
pub(super) fn stopped(ui: &mut Ui, why: &str) -> bool {
    ui.horizontal(|ui| {
        let warn = Tokens::of(ui).warn;
        ui.label(RichText::new(format!("Nothing to show: {why}.")).color(warn));
        let again = ui.button("Look again");
        named(again, "Look again", "Begin the search anew").clicked()
    })
    .inner
}
