//! House-made ingredients: a list of preparations, the chosen one as a flow, and its steps to edit.

use super::house_clock::HouseClock;
use super::house_draft::HouseDraft;
use super::house_scale::HouseScale;
use super::house_stock::HouseStock;
use super::house_tabs::HouseTab;
use super::intent::Outbox;
use super::naming::named;
use super::page::Page;
use super::panel_jump;
use super::panels::{self, Side};
use super::theme::Tokens;
use super::{empty, house_flow, house_inputs, house_list, house_outputs, house_steps, house_tabs};
use crate::chart::{FlowScene, FlowShare};
use crate::model::{Preparation, PreparationId};
use crate::session::{
    Action, Command, FlowError, HouseView, Session, house_failures, house_view, open_streams,
};
use eframe::egui::{Button, CentralPanel, RichText, ScrollArea, Ui};
use std::collections::BTreeMap;
use std::ops::RangeInclusive;
use std::sync::Arc;

/// From this width of the window on there is room for whole heads of steps, points.
pub(super) const WIDE: f32 = 1600.0;
/// Share of a wide window that the steps take.
const WIDE_SHARE: f32 = 0.36;

/// View state of the house-made page.
#[derive(Debug, Default)]
pub(super) struct HousePage {
    /// The preparation on screen.
    pub(super) selected: Option<PreparationId>,
    /// The preparation that was asked for in the last frame, to be shown once it is there.
    pub(super) wanted: Option<PreparationId>,
    /// The one asked for is new: its name is typed first.
    pub(super) naming: bool,
    /// The step that is open in the list.
    pub(super) step: Option<usize>,
    /// The open step is to be scrolled to.
    pub(super) reveal: bool,
    /// What the colours of the flow stand for.
    pub(super) share: FlowShare,
    /// What stands below the flow.
    pub(super) tab: HouseTab,
    /// What was typed to scale by.
    pub(super) scale: HouseScale,
    /// When it is begun or needed.
    pub(super) clock: HouseClock,
    /// What the drink on screen wants of it.
    pub(super) stock: HouseStock,
    /// The preparation to be removed, until the person says how.
    pub(super) asked: Option<PreparationId>,
    /// The flow as it was drawn last, and what it was drawn from.
    pub(super) scene: Option<(house_flow::SceneKey, FlowScene)>,
    /// What cannot be worked out, by preparation.
    pub(super) failures: BTreeMap<PreparationId, FlowError>,
    /// Everything worked out for the chosen one, and at which revision.
    view: Option<(u64, PreparationId, HouseView)>,
    /// Streams of it that no step takes; with very many steps they are not looked for in every frame.
    open: Vec<String>,
    failed_at: u64,
}

impl HousePage {
    /// Shows another preparation from its beginning.
    pub(super) fn choose(&mut self, id: PreparationId) {
        if self.selected.as_ref() != Some(&id) {
            self.selected = Some(id);
            self.step = None;
            self.asked = None;
        }
    }

    /// Brings what was worked out up to date; cheap when nothing changed.
    fn refresh(&mut self, session: &Session) {
        let document = session.document();
        let held = |id: &PreparationId| document.preparations.contains_key(id);
        if !self.selected.as_ref().is_some_and(held) {
            self.selected = document.preparations.keys().next().cloned();
            self.step = None;
        }
        if self.asked.as_ref().is_some_and(|id| !held(id)) {
            self.asked = None;
        }
        let revision = session.revision();
        if self.failed_at != revision {
            self.failures = house_failures(document);
            self.failed_at = revision;
        }
        let Some(id) = &self.selected else {
            self.view = None;
            return;
        };
        let fresh = matches!(&self.view, Some((at, known, _)) if *at == revision && known == id);
        if !fresh {
            self.view = house_view(document, id).map(|view| (revision, id.clone(), view));
            let made = document.preparations.get(id);
            let open = made.map_or_else(Vec::new, |made| open_streams(made));
            self.open = open.into_iter().map(str::to_owned).collect();
        }
    }
}

/// Shows the page.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    (page, tables): (&mut HousePage, bool),
    outbox: &mut Outbox,
) {
    let is_held = |id: &PreparationId| session.document().preparations.contains_key(id);
    if let Some(id) = page.wanted.take().filter(is_held) {
        page.choose(id);
    }
    page.refresh(session);
    panels::side(
        ui,
        (Page::House, Side::Left),
        ("preparations", 196.0, 160.0..=340.0),
        |ui| {
            panel_jump::panel(ui, "preparations");
            house_list::ui(ui, session, page, outbox);
        },
    );
    // Another one may have been chosen just now: nothing of the last one is drawn as its own.
    page.refresh(session);
    let Some((id, made)) = chosen(session, page) else {
        CentralPanel::default().show(ui, |ui| nothing(ui, session, outbox));
        return;
    };
    let Some((at, known, view)) = page.view.take() else {
        return;
    };
    let mut draft = HouseDraft::of(session, &id, &made, view.wrong());
    let room = ui.ctx().content_rect().width();
    panels::side(ui, (Page::House, Side::Right), right(room), |ui| {
        panel_jump::panel(ui, "steps");
        editor(ui, page, &view, &mut draft, outbox);
    });
    CentralPanel::default().show(ui, |ui| {
        panel_jump::panel(ui, "flow");
        outdated(ui, session, outbox);
        house_flow::ui(ui, page, (at, &id, &made), &view, tables);
        ui.separator();
        house_tabs::ui(ui, page, &view, (&mut draft, tables), outbox);
    });
    draft.push(outbox);
    page.view = Some((at, known, view));
}

/// The panel of steps. Each kind of window remembers its own width, so that a panel pulled narrow in a
/// small one does not stay so in a large one.
fn right(room: f32) -> (&'static str, f32, RangeInclusive<f32>) {
    if room < WIDE {
        ("steps", 428.0, 380.0..=640.0)
    } else {
        ("wide steps", room * WIDE_SHARE, 380.0..=room * 0.5)
    }
}

/// Says that rows were worked out by other figures, and offers to work them out again.
fn outdated(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let Some(notice) = session.outdated() else {
        return;
    };
    ui.horizontal_wrapped(|ui| {
        let color = Tokens::of(ui).caution;
        ui.label(RichText::new("◆").color(color))
            .on_hover_text(notice.severity.name());
        ui.label(RichText::new(&notice.text).color(color))
            .on_hover_text(&notice.reason);
        if let Some(Action::Edit(words, edit)) = &notice.action {
            let open = session.read_only().is_none();
            let button = ui.add_enabled(open, Button::new(words).small());
            if named(button, words, &notice.reason).clicked() {
                outbox.edit(Box::as_ref(edit).clone());
            }
        }
    });
    ui.separator();
}

fn chosen(session: &Session, page: &HousePage) -> Option<(PreparationId, Arc<Preparation>)> {
    let id = page.selected.clone()?;
    let made = session.document().preparations.get(&id)?;
    Some((id, Arc::clone(made)))
}

fn nothing(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    ui.add_space(24.0);
    ui.vertical_centered(|ui| {
        ui.heading("Nothing is made in the house yet");
        ui.label(
            RichText::new(
                "Syrups, juices, washes, milks and garnishes are written down here as inputs and steps. \
                 Press New to begin with nothing, or From a starter to change one that is there.",
            )
            .weak(),
        );
        if empty::is_blank(session) {
            empty::way(ui, Command::OpenDemo, outbox);
        }
    });
}

fn editor(
    ui: &mut Ui,
    page: &mut HousePage,
    view: &HouseView,
    draft: &mut HouseDraft<'_>,
    outbox: &mut Outbox,
) {
    ui.spacing_mut().interact_size.y = 22.0;
    ScrollArea::vertical()
        .id_salt(("steps of", &draft.id.0))
        .auto_shrink(false)
        .show(ui, |ui| {
            let open = draft.session.read_only().is_none();
            ui.visuals_mut().disabled_alpha = 0.85;
            ui.add_enabled_ui(open, |ui| {
                // In the frame of the click the old one is still on screen.
                let naming = page.wanted.is_none()
                    && std::mem::take(&mut page.naming)
                    && draft.session.read_only().is_none();
                house_list::name_and_note(ui, naming, draft);
                house_inputs::ui(ui, view, draft, outbox);
                ui.separator();
                house_steps::ui(ui, page, view, draft, outbox);
                ui.separator();
                house_outputs::ui(ui, (view, &page.open), draft, outbox);
            });
        });
}
