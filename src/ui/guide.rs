//! The guided start: a card in a corner that leads through the main job and notices what is done.
//!
//! It takes no focus, blocks nothing, and comes by itself only when there are no settings yet.

use super::guide_steps::{Begun, GuideStep};
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::view::View;
use super::window::Window;
use crate::session::{Command, Session};
use eframe::egui::accesskit::Live;
use eframe::egui::{Area, Context, EventFilter, Frame, Id, Key, Order, Response, RichText, Ui};

/// Width of the card, points.
const WIDTH: f32 = 250.0;

/// The guided start, while it goes on.
#[derive(Clone, Debug, Default)]
pub(super) struct Guide {
    step: GuideStep,
    /// How things stood when the step began; nothing before the first frame.
    begun: Option<Begun>,
}

/// Something asked for on its card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum GuideAsk {
    /// Go on without doing this step.
    Skip,
    /// End it.
    Leave,
}

impl Window {
    /// Begins the guided start where there were no settings; it never comes by itself again.
    pub(super) fn greet(&mut self) {
        if self.around.settings.guided {
            return;
        }
        self.around.settings.guided = true;
        self.remember();
        self.view.guide = Some(Guide::default());
    }

    /// Goes on once the present step is done.
    pub(super) fn watch_guide(&mut self, ctx: &Context) {
        let Some(mut guide) = self.view.guide.take() else {
            return;
        };
        let begun = guide.begun.get_or_insert_with(|| Begun::now(&self.session));
        begun.note(&self.view);
        // A drag is watched to its end.
        let busy = ctx.input(|input| input.pointer.any_down());
        let done = !busy && guide.step.is_done(begun, &self.session, &self.view);
        self.view.guide = if done {
            guide.step.next().map(at)
        } else {
            Some(guide)
        };
        if done {
            ctx.request_repaint();
        }
    }

    /// Another document is open: the present step begins anew.
    pub(super) fn restart_guide_step(&mut self) {
        if let Some(guide) = &mut self.view.guide {
            guide.begun = None;
        }
    }

    /// Does what was asked on the card.
    pub(super) fn guide(&mut self, ask: GuideAsk) {
        let guide = self.view.guide.take();
        if ask == GuideAsk::Skip {
            self.view.guide = guide.and_then(|guide| guide.step.next()).map(at);
        }
    }
}

const fn at(step: GuideStep) -> Guide {
    Guide { step, begun: None }
}

/// Shows the card.
pub(super) fn ui(ctx: &Context, session: &Session, view: &View, outbox: &mut Outbox) {
    let Some(step) = view.guide.as_ref().map(|guide| guide.step) else {
        return;
    };
    let (corner, way) = step.corner();
    Area::new(Id::unique("guided start"))
        .order(Order::Middle)
        .anchor(corner, way)
        .show(ctx, |ui| {
            Frame::window(ui.style()).show(ui, |ui| {
                ui.set_width(WIDTH);
                card(ui, session, step, outbox);
            });
        });
}

fn card(ui: &mut Ui, session: &Session, step: GuideStep, outbox: &mut Outbox) {
    let tokens = Tokens::of(ui);
    let count = GuideStep::ALL.len();
    let progress = format!("Guided start, {} of {count}", step.number());
    ui.label(RichText::new(progress).small().weak());
    let title = ui.label(RichText::new(step.title()).strong().color(tokens.accent));
    ui.ctx()
        .accesskit_node_builder(title.id, |node| node.set_live(Live::Polite));
    ui.label(step.words());
    let mut buttons = Vec::new();
    if let Some(lacks) = step.lacks(session) {
        ui.label(RichText::new(lacks).color(tokens.caution));
        let demo = named(
            ui.button("Open the demo as a copy"),
            "Open the demo as a copy",
            "Unsaved work is asked about first; nothing of yours is touched",
        );
        if demo.clicked() {
            outbox.command(Command::OpenDemo);
        }
        buttons.push(demo);
    }
    if step == GuideStep::Own {
        let start = ui.button("Start a drink of your own…");
        let start = named(start, "Start a drink of your own…", "Ctrl+N does the same");
        if start.clicked() {
            outbox.command(Command::Start);
        }
        buttons.push(start);
    }
    ui.horizontal(|ui| {
        if step.next().is_some() {
            let teach = "Go on without doing it";
            let skip = named(ui.button("Skip this step"), "Skip this step", teach);
            if skip.clicked() {
                outbox.intent(Intent::Guide(GuideAsk::Skip));
            }
            buttons.push(skip);
        }
        let teach = "End the guided start; Guided start in the menu Help begins it again";
        let leave = named(ui.button("Leave"), "Leave the guided start", teach);
        if leave.clicked() || is_escaped(ui, &buttons, &leave) {
            outbox.intent(Intent::Guide(GuideAsk::Leave));
        }
    });
}

/// Escape was pressed while a button of the card had the focus.
fn is_escaped(ui: &Ui, buttons: &[Response], last: &Response) -> bool {
    let mut all = buttons.iter().chain(std::iter::once(last));
    let Some(focused) = all.find(|button| button.has_focus()) else {
        return false;
    };
    // Otherwise the toolkit would take the focus away before the key is seen here.
    let filter = EventFilter {
        escape: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(focused.id, filter));
    ui.input(|input| input.key_pressed(Key::Escape))
}
