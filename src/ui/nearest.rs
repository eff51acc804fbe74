//! The nearest classics: find one on the map, aim at it, or start a twist on it.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::target::aim_at;
use super::view::View;
use crate::balance::Pantry;
use crate::session::{Near, Session, spec_from_classic};
use crate::units::{signed, steps};
use eframe::egui::{RichText, Ui};

/// Shows the nearest classics.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut View, outbox: &mut Outbox) {
    let Some(derived) = session.derived() else {
        return;
    };
    ui.heading("Nearest classics");
    for near in &derived.nearest {
        ui.horizontal(|ui| {
            let menu = ui.menu_button(&near.name, |ui| choices(ui, session, view, near, outbox));
            let teach = format!(
                "Compared with it, in noticeable differences: sweet {}, sour {}, strength {}. Click for more",
                signed(near.steps.sweet, 1),
                signed(near.steps.sour, 1),
                signed(near.steps.strength, 1)
            );
            named(menu.response, &near.name, &teach);
            ui.label(RichText::new(steps(near.distance)).small().weak());
        });
    }
}

fn choices(ui: &mut Ui, session: &Session, view: &mut View, near: &Near, outbox: &mut Outbox) {
    if ui.button("Find it on the map").clicked() {
        view.search.clone_from(&near.name);
        ui.close();
    }
    let known = session
        .references()
        .iter()
        .find(|known| known.name == near.name);
    if let (Some(known), Some(spec)) = (known, session.spec())
        && ui.button("Aim at it").clicked()
    {
        outbox.edit(aim_at(spec, known));
        ui.close();
    }
    let builtin = session.builtin();
    let classic = builtin
        .classics
        .iter()
        .find(|classic| classic.name == near.name);
    if let Some(classic) = classic
        && ui.button("Start a twist on it").clicked()
    {
        let start = spec_from_classic(builtin, classic, &mut Pantry::default());
        outbox.intent(Intent::StartWith(Box::new(start)));
        ui.close();
    }
}
