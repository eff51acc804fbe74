//! The window comes back as it was left.

use super::bottom::BottomTab;
use super::house_tabs::HouseTab;
use super::page::Page;
use super::panels::Panels;
use super::service_panel::ServiceTab;
use super::submission_page::EntryTab;
use super::trials_page::TrialsTab;
use super::view::View;
use super::window::Window;
use crate::chart::Frame;
use crate::model::{SpecId, TrialId};
use crate::session::{LarderColumn, LarderQuery};
use crate::store::{Shown, WindowLayout, load_layout, save_layout};
use eframe::egui::{Context, Pos2, Rect, ViewportCommand, vec2};
use std::collections::BTreeMap;
use std::fmt::Debug;
use std::time::Duration;

/// Seconds between two writings of what changes often, such as a size while it is dragged.
const PAUSE_S: f64 = 2.0;

/// The value that is kept under these words, if there still is one.
fn found<T: Debug + Copy>(all: &[T], kept: Option<&String>) -> Option<T> {
    let kept = kept?;
    all.iter().copied().find(|one| format!("{one:?}") == *kept)
}

/// Every toggle of the charts, by the name it is kept under.
fn toggles(view: &mut View) -> [(&'static str, &mut bool); 6] {
    [
        ("classics", &mut view.show_references),
        ("trail", &mut view.show_trail),
        ("ranges", &mut view.show_regions),
        ("spread", &mut view.show_spread),
        ("tables", &mut view.tables),
        ("steps", &mut view.in_steps),
    ]
}

/// Puts tabs, charts and the order of the larder to what was kept, or to what is usual.
fn put_back(view: &mut View, kept: &WindowLayout) {
    let usual = View::default();
    let tab = |place: &str| kept.tabs.get(place);
    view.bottom = found(&BottomTab::ALL, tab("charts")).unwrap_or_default();
    view.trials.tab = found(&TrialsTab::ALL, tab("trials")).unwrap_or_default();
    view.house.tab = found(&HouseTab::ALL, tab("house")).unwrap_or_default();
    view.submission.entry = found(&EntryTab::ALL, tab("entry")).unwrap_or_default();
    view.submission.service = found(&ServiceTab::ALL, tab("service")).unwrap_or_default();
    view.submission.reader = kept.reader;
    view.show_references = usual.show_references;
    view.show_trail = usual.show_trail;
    view.show_regions = usual.show_regions;
    view.show_spread = usual.show_spread;
    view.tables = usual.tables;
    view.in_steps = usual.in_steps;
    for (name, toggle) in toggles(view) {
        if let Some(on) = kept.shows.get(name) {
            *toggle = *on;
        }
    }
    view.frame = match kept.shows.get("whole field") {
        Some(true) => Frame::WholeField,
        _ => Frame::default(),
    };
    view.axes = kept.axes.filter(|(across, up)| across != up);
    let query = &mut view.larder.query;
    let usual = LarderQuery::default();
    let sorted = found(&LarderColumn::ALL, Some(&kept.sorted_by));
    (query.sort, query.descending) = sorted.map_or((usual.sort, usual.descending), |column| {
        (column, kept.descending)
    });
    view.reframe += 1;
}

impl Window {
    /// Comes back as the window was left. `choose` also shows the drink and the trial that were on
    /// screen, where the document is the one of then.
    pub fn come_back(&mut self, choose: bool) {
        let Some(folders) = &self.around.folders else {
            return;
        };
        let kept = load_layout(&folders.layout_file());
        put_back(&mut self.view, &kept);
        self.view.page = found(&Page::ALL, Some(&kept.page)).unwrap_or_default();
        if let Some(shown) = kept.shown.as_ref().filter(|_| choose)
            && self.session.path() == Some(&shown.path)
        {
            self.session.select_spec(SpecId(shown.spec));
            if let Some(trial) = shown.trial {
                self.session.select_trial(TrialId(trial));
            }
            self.session.refresh();
        }
        self.around.browser.begin_in(kept.folder.clone());
        self.around.layout = kept;
    }

    /// How the window was left.
    pub(super) fn kept_layout(&self) -> &WindowLayout {
        &self.around.layout
    }

    /// Hands kept widths and hidden panels to the toolkit.
    pub(super) fn put_panels(&self, ctx: &Context) {
        Panels {
            widths: self.around.layout.widths.clone(),
            hidden: self.around.layout.hidden.clone(),
            ..Panels::default()
        }
        .put(ctx);
    }

    /// How the window stands now.
    fn layout_now(&mut self, ctx: &Context) -> WindowLayout {
        let mut now = self.around.layout.clone();
        let (zoom, room) = (ctx.zoom_factor(), ctx.content_rect().size());
        let (maximized, outer) = ctx.input(|input| {
            let viewport = input.viewport();
            (viewport.maximized == Some(true), viewport.outer_rect)
        });
        now.maximized = maximized;
        if !maximized {
            now.size = Some([room.x * zoom, room.y * zoom].map(f32::round));
            let corner = outer.map(|rect| [rect.min.x * zoom, rect.min.y * zoom].map(f32::round));
            now.place = corner.or(now.place);
        }
        let panels = Panels::of(ctx);
        now.widths.clone_from(&panels.widths);
        now.hidden.clone_from(&panels.hidden);
        let view = &mut self.view;
        now.page = format!("{:?}", view.page);
        now.tabs = BTreeMap::from([
            ("charts".to_owned(), format!("{:?}", view.bottom)),
            ("trials".to_owned(), format!("{:?}", view.trials.tab)),
            ("house".to_owned(), format!("{:?}", view.house.tab)),
            ("entry".to_owned(), format!("{:?}", view.submission.entry)),
            (
                "service".to_owned(),
                format!("{:?}", view.submission.service),
            ),
        ]);
        let shows = toggles(view).map(|(name, on)| (name.to_owned(), *on));
        now.shows = BTreeMap::from(shows);
        let whole = view.frame == Frame::WholeField;
        now.shows.insert("whole field".to_owned(), whole);
        now.axes = view.axes;
        now.reader = view.submission.reader;
        now.sorted_by = format!("{:?}", view.larder.query.sort);
        now.descending = view.larder.query.descending;
        let selection = self.session.selection();
        let path = self.session.path().zip(selection.spec);
        now.shown = path.map(|(path, spec)| Shown {
            path: path.to_owned(),
            spec: spec.0,
            trial: selection.trial.map(|trial| trial.0),
        });
        now.folder = self.around.browser.folder().map(ToOwned::to_owned);
        now
    }

    /// Keeps how the window stands once it rests, so that a program that breaks off keeps it, too.
    pub(super) fn keep_layout(&mut self, ctx: &Context) {
        if self.around.folders.is_none() || ctx.input(|input| input.pointer.any_down()) {
            return;
        }
        let now = self.layout_now(ctx);
        if now == self.around.layout {
            return;
        }
        let time = ctx.input(|input| input.time);
        if time < self.around.layout_kept_at + PAUSE_S {
            ctx.request_repaint_after(Duration::from_secs_f64(PAUSE_S));
            return;
        }
        self.around.layout_kept_at = time;
        self.around.layout = now;
        self.save_kept_layout();
    }

    /// Keeps it at the end, whatever the time.
    pub(super) fn keep_last_layout(&mut self, ctx: &Context) {
        self.around.layout = self.layout_now(ctx);
        self.save_kept_layout();
    }

    pub(super) fn save_kept_layout(&mut self) {
        let Some(folders) = &self.around.folders else {
            return;
        };
        if let Err(error) = save_layout(&self.around.layout, &folders.layout_file()) {
            self.say(format!("The layout could not be kept: {error}."));
        }
    }

    /// Puts panels, tabs, columns and charts back to how they were at the first start.
    pub(super) fn usual_layout(&mut self, ctx: &Context) {
        put_back(&mut self.view, &WindowLayout::default());
        Panels {
            generation: Panels::of(ctx).generation + 1,
            ..Panels::default()
        }
        .put(ctx);
        self.say_in_passing("Panels, tabs, columns and charts are as at the first start.");
    }

    /// Moves the window onto the screen where its kept place lies outside.
    pub(super) fn stay_on_screen(&mut self, ctx: &Context) {
        if self.around.placed {
            return;
        }
        let (outer, screen) = ctx.input(|input| {
            let viewport = input.viewport();
            (viewport.outer_rect, viewport.monitor_size)
        });
        if let Some((outer, screen)) = outer.zip(screen) {
            self.around.placed = true;
            let whole = Rect::from_min_size(Pos2::ZERO, screen);
            if self.around.layout.place.is_some() && !whole.expand(1.0).contains_rect(outer) {
                let most = (screen - outer.size()).max(vec2(0.0, 0.0));
                let corner = outer.min.clamp(whole.min, most.to_pos2());
                ctx.send_viewport_cmd(ViewportCommand::OuterPosition(corner));
            }
        }
    }
}
