//! Panels at the sides of a page: hidden and shown again, as wide as they were left.

use super::page::Page;
use super::window::Window;
use crate::session::{Command, shortcut_words};
use eframe::egui::{Context, Id, Panel, Rangef, Rect, ScrollArea, Ui, UiBuilder, vec2};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Where a panel stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// At the left of the page.
    Left,
    /// At the right.
    Right,
    /// Below the map.
    Bottom,
}

/// What is kept of all panels; the toolkit's memory holds it, as it holds their sizes.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Panels {
    /// Widths that were dragged, points, by name.
    pub(super) widths: BTreeMap<String, f32>,
    /// Widths as they were drawn last; contents and the window change them, too.
    pub(super) drawn: BTreeMap<String, f32>,
    /// Hidden ones, by page and side.
    pub(super) hidden: BTreeSet<String>,
    /// Raised to forget what was dragged.
    pub(super) generation: u32,
}

/// Least width of a page between its panels, and of a panel, points.
const LEAST_CENTRE: f32 = 330.0;
const LEAST_PANEL: f32 = 258.0;
/// Least height of a page, points.
const LEAST_HEIGHT: f32 = 440.0;
/// The same where every panel scrolls on its own.
const LEAST_BALANCE: f32 = 220.0;
/// Difference of a width that counts, points.
const SAME: f32 = 0.5;

impl Panels {
    fn key() -> Id {
        Id::unique("panels of pages")
    }

    /// What is kept.
    pub(super) fn of(ctx: &Context) -> Arc<Self> {
        ctx.data(|data| data.get_temp::<Arc<Self>>(Self::key()))
            .unwrap_or_default()
    }

    /// Keeps something else.
    pub(super) fn put(self, ctx: &Context) {
        ctx.data_mut(|data| data.insert_temp(Self::key(), Arc::new(self)));
    }

    /// Whether a page has this panel and shows it.
    pub(super) fn shows(&self, page: Page, side: Side) -> bool {
        has(page, side) && !self.hides(page, side)
    }

    /// Whether the panel of a page is hidden.
    pub(super) fn hides(&self, page: Page, side: Side) -> bool {
        self.hidden.contains(&hidden_name(page, side))
    }
}

/// Whether a page has such a panel at all.
fn has(page: Page, side: Side) -> bool {
    match side {
        Side::Left => page != Page::Larder,
        Side::Right => page != Page::Trials,
        Side::Bottom => page == Page::Balance,
    }
}

fn hidden_name(page: Page, side: Side) -> String {
    format!("{page:?} {side:?}").to_lowercase()
}

/// Shows a panel at the left or right of a page unless it is hidden, as wide as it was left, and
/// says where it stands.
pub(super) fn side(
    ui: &mut Ui,
    (page, side): (Page, Side),
    (name, usual, range): (&str, f32, impl Into<Rangef>),
    contents: impl FnOnce(&mut Ui),
) -> Option<Rect> {
    let panels = Panels::of(ui.ctx());
    if panels.hides(page, side) {
        return None;
    }
    let salt = (name, panels.generation);
    let panel = match side {
        Side::Right => Panel::right(Id::unique(salt)),
        Side::Left | Side::Bottom => Panel::left(Id::unique(salt)),
    };
    let width = panels.widths.get(name).copied().unwrap_or(usual);
    let shown = panel
        .resizable(true)
        .default_size(width)
        .size_range(range)
        .show(ui, contents);
    let now = shown.response.rect.width();
    let drawn = panels.drawn.get(name).copied();
    if drawn.is_none_or(|drawn| (now - drawn).abs() > SAME) {
        let mut panels = Panels::clone(&panels);
        panels.drawn.insert(name.to_owned(), now);
        let dragged = ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
        if drawn.is_some() && dragged {
            panels.widths.insert(name.to_owned(), now);
        }
        panels.put(ui.ctx());
    }
    Some(shown.response.rect)
}

/// Shows a page; where there is too little room for it, as large as it has to be, to be scrolled.
pub(super) fn page_area(ui: &mut Ui, page: Page, contents: impl FnOnce(&mut Ui)) {
    let panels = Panels::of(ui.ctx());
    let has_left = page != Page::Larder && !panels.hides(page, Side::Left);
    let has_right = page != Page::Trials && !panels.hides(page, Side::Right);
    let beside = [has_left, has_right].into_iter().filter(|shown| *shown);
    let width = (beside.count() as f32).mul_add(LEAST_PANEL, LEAST_CENTRE);
    let room = ui.available_size();
    let height = if page == Page::Balance {
        LEAST_BALANCE
    } else {
        LEAST_HEIGHT
    };
    let least = vec2(width, height);
    if room.x >= least.x && room.y >= least.y {
        contents(ui);
        return;
    }
    ScrollArea::both()
        .id_salt("page")
        .auto_shrink(false)
        .show(ui, |ui| {
            let (_, rect) = ui.allocate_space(room.max(least));
            ui.scope_builder(UiBuilder::new().max_rect(rect), contents);
        });
}

impl Window {
    /// Hides a panel of the page on screen, or shows it again.
    pub(super) fn hide_or_show(&mut self, ctx: &Context, command: Command) {
        let page = self.view.page;
        let (side, words) = match command {
            Command::LeftPanel => (Side::Left, "left"),
            Command::RightPanel => (Side::Right, "right"),
            _ => (Side::Bottom, "bottom"),
        };
        if !has(page, side) {
            self.say_in_passing(&format!("This page has no {words} panel."));
            return;
        }
        let mut panels = Panels::clone(&Panels::of(ctx));
        let name = hidden_name(page, side);
        if !panels.hidden.remove(&name) {
            panels.hidden.insert(name);
            let key = shortcut_words(command.info().shortcut);
            self.say_in_passing(&format!(
                "The {words} panel of this page is hidden; {key} shows it again."
            ));
        }
        panels.put(ctx);
    }
}
