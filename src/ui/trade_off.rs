//! The trade-off: distance against change, to point at, to choose from, or as a table.

use super::chart_table::rows;
use super::chart_view::{ChartView, Shown, caption_at_right};
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::taking::{KEPT, Taking};
use super::view::View;
use crate::chart::{Chart, TradeOffAsk, TradeOffPoint, trade_off_chart};
use crate::model::{Trial, TrialState};
use crate::rebalance::Proposal;
use crate::session::{Session, TradeOff, change_size_text, change_text, proof_text};
use crate::units::{percent, steps};
use eframe::egui::accesskit::Role;
use eframe::egui::{
    Align, Button, Layout, ProgressBar, Rect, Response, RichText, ScrollArea, Sense, Ui,
    WidgetInfo, vec2,
};
use egui_plot::PlotPoint;

/// Width of what stands beside the chart, points.
const ASIDE: f32 = 236.0;

/// Shows the trade-off in `height` points.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    view: &mut View,
    height: f32,
    outbox: &mut Outbox,
) {
    let Some(trial) = session.trial() else {
        return;
    };
    let earlier = session.earlier_trade_off();
    let (found, is_current) = match (session.trade_off(), earlier) {
        (Some(Ok(found)), _) => (found, true),
        (None, Some(earlier)) => (earlier, false),
        (Some(Err(reason)), _) => {
            ui.label(RichText::new(reason).weak());
            return;
        }
        (None, None) => {
            awaited(ui, session, outbox);
            return;
        }
    };
    let tab = Tab {
        session,
        trial,
        found,
        is_current,
    };
    let of = (session.revision(), session.selection());
    let chosen = view.traded.filter(|(known, _)| is_current && *known == of);
    let chosen = chosen.map(|(_, place)| place);
    let points = tab.points();
    let chart = trade_off_chart(&TradeOffAsk {
        distance_now: found.distance_now,
        points: &points,
        chosen,
    });
    let downwards = Layout::top_down(Align::LEFT);
    ui.horizontal_top(|ui| {
        let size = vec2((ui.available_width() - ASIDE - 8.0).max(160.0), height);
        let picked = ui.allocate_ui_with_layout(size, downwards, |ui| {
            if view.tables {
                tab.table(ui, &chart, height, view)
            } else {
                tab.chart(ui, &chart, height, view)
            }
        });
        if let Some(place) = picked.inner {
            view.traded = Some((of, place));
            ui.ctx().request_repaint();
        }
        let size = vec2(ui.available_width(), height);
        ui.allocate_ui_with_layout(size, downwards, |ui| {
            ScrollArea::vertical()
                .id_salt("trade-off choice")
                .max_height(height)
                .auto_shrink(false)
                .show(ui, |ui| tab.aside(ui, chosen, outbox));
        });
    });
}

/// How far it is, with a way to stop it; or that it was stopped, with a way to go on.
fn awaited(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    ui.horizontal_wrapped(|ui| {
        if session.is_trade_off_stopped() {
            ui.label(RichText::new("Stopped.").weak());
            let again = ui.button("Work it out");
            let teach = "Look for changes between none and the nearest after all";
            if named(again, "Work the trade-off out", teach).clicked() {
                outbox.intent(Intent::ResumeTradeOff);
            }
            return;
        }
        let progress = session.trade_off_progress().unwrap_or(0.0);
        ui.label(RichText::new("Working it out…").weak());
        let bar = ui.add(ProgressBar::new(progress).desired_width(90.0));
        let name = format!("Trade-off, {} done", percent(f64::from(progress), 0));
        named(bar, &name, "Share of the searches done; it may end sooner");
        let stop = ui.button("Cancel");
        let teach = "Stop looking; the drink stays as it is";
        if named(stop, "Cancel the trade-off", teach).clicked() {
            outbox.intent(Intent::StopTradeOff);
        }
    });
}

/// What the tab reads.
#[derive(Clone, Copy)]
struct Tab<'a> {
    session: &'a Session,
    trial: &'a Trial,
    found: &'a TradeOff,
    /// It belongs to the document as it is; else it can only be looked at.
    is_current: bool,
}

impl Tab<'_> {
    fn points(&self) -> Vec<TradeOffPoint> {
        let document = self.session.document();
        let words = |proposal: &Proposal| {
            let changes = proposal.changes.iter();
            changes
                .map(|change| change_text(document, self.trial, change))
                .collect()
        };
        let points = self.found.points.iter().map(|proposal| TradeOffPoint {
            change_steps: proposal.change_steps,
            distance: proposal.distance,
            pours: proposal.changes.len(),
            changes: words(proposal),
        });
        points.collect()
    }

    /// The chart; gives the point that was chosen in it.
    fn chart(&self, ui: &mut Ui, chart: &Chart, height: f32, view: &mut View) -> Option<usize> {
        if !self.is_current {
            ui.set_opacity(0.5);
        }
        let shown = ChartView {
            id: "trade-off",
            height,
            reframe: true,
            movable: false,
            zooms: false,
            letters: None,
            read: &|mark| mark.detail.clone(),
        }
        .show(ui, chart);
        caption_at_right(ui, &shown, "Distance from the target, steps");
        if !self.is_current {
            return None;
        }
        let places = 0..self.found.points.len();
        places
            .filter(|place| self.point(ui, &shown, *place, view))
            .last()
    }

    /// One point, to point at and to press; true when it was pressed.
    fn point(&self, ui: &Ui, shown: &Shown, place: usize, view: &mut View) -> bool {
        let proposal = &self.found.points[place];
        let at = PlotPoint::new(proposal.change_steps, proposal.distance);
        let at = shown.transform.position_from_point(&at);
        let rect = Rect::from_center_size(at, vec2(18.0, 18.0));
        let id = shown.response.id.with(("point", place));
        let response = ui.interact(rect, id, Sense::click());
        let name = format!("Trade-off {}", place + 1);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        self.preview(&response, place, view);
        self.describe(response, place).clicked()
    }

    /// Says what a point is, to a screen reader and in its tooltip.
    fn describe(&self, response: Response, place: usize) -> Response {
        let proposal = &self.found.points[place];
        let gist = format!(
            "{} away for {}",
            steps(proposal.distance),
            change_size_text(proposal.change_steps, proposal.changes.len())
        );
        let document = self.session.document();
        let changes = proposal.changes.iter();
        let words: Vec<String> = changes
            .map(|change| change_text(document, self.trial, change))
            .collect();
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_description(gist.clone());
        });
        response.on_hover_text(format!("{gist}\n{}", words.join("\n")))
    }

    /// Previews a point while it is pointed at.
    fn preview(&self, response: &Response, place: usize, view: &mut View) {
        if response.contains_pointer() || response.has_focus() {
            let name = format!("Trade-off {}", place + 1);
            let changes = &self.found.points[place].changes;
            let by_pointer = response.contains_pointer();
            view.previewing.point_at(&name, changes, by_pointer);
        }
    }

    /// The same in rows; gives the point that was chosen in it.
    fn table(&self, ui: &mut Ui, chart: &Chart, height: f32, view: &mut View) -> Option<usize> {
        let mut picked = None;
        rows(ui, "trade-off table", chart, height, |ui, line, cell| {
            // The first row is the drink as it is.
            match line.checked_sub(1).filter(|_| self.is_current) {
                Some(place) if self.cell(ui, cell, place, view) => picked = Some(place),
                Some(_) => {}
                None => {
                    ui.label(cell);
                }
            }
        });
        picked
    }

    /// The first cell of a row, which chooses it; true when it was pressed.
    fn cell(&self, ui: &mut Ui, words: &str, place: usize, view: &mut View) -> bool {
        let button = ui.small_button(words);
        self.preview(&button, place, view);
        let name = format!("Trade-off {}", place + 1);
        named(button, &name, "Choose this one").clicked()
    }

    /// The chosen point and what can be done with it.
    fn aside(&self, ui: &mut Ui, chosen: Option<usize>, outbox: &mut Outbox) {
        ui.spacing_mut().item_spacing.y = 3.0;
        if !self.is_current {
            ui.label(RichText::new("As it was before the last change.").weak());
            awaited(ui, self.session, outbox);
            return;
        }
        let Some(proposal) = chosen.and_then(|place| self.found.points.get(place)) else {
            let words = if self.found.points.is_empty() {
                "No change brings it nearer to the target."
            } else {
                "Each mark changes as little as possible to come so near. Point at one to preview it, click it to choose it; then apply it or keep it as a new trial."
            };
            ui.label(RichText::new(words).small().weak());
            return;
        };
        let taking = Taking {
            session: self.session,
            trial: self.trial,
            proposal,
            taken: &proposal.changes,
        };
        let document = self.session.document();
        let far = format!("Lands {} away", steps(proposal.distance));
        ui.label(RichText::new(far).strong());
        for change in &proposal.changes {
            ui.label(change_text(document, self.trial, change));
        }
        let size = change_size_text(proposal.change_steps, proposal.changes.len());
        let proof = proof_text(proposal, &document.currency);
        ui.label(RichText::new(format!("{size} · {proof}")).small().weak());
        self.buttons(ui, &taking, outbox);
    }

    fn buttons(&self, ui: &mut Ui, taking: &Taking<'_>, outbox: &mut Outbox) {
        ui.horizontal(|ui| {
            let open = self.trial.state == TrialState::Draft;
            let apply = ui.add_enabled(open, Button::new("Apply"));
            let teach = "Take these amounts in this trial; undo takes them back";
            let apply = apply.on_disabled_hover_text(KEPT);
            if named(apply, "Apply the trade-off", teach).clicked() {
                outbox.edit(taking.apply());
            }
            let keep = ui.button("Keep as new trial");
            let teach = "Grow a new trial with these amounts and the reason written in";
            if named(keep, "Keep the trade-off as new trial", teach).clicked() {
                outbox.edit(taking.keep());
            }
        });
    }
}
