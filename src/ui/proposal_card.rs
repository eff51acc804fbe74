//! One proposal: pours changed, where it lands, what it costs, what is proved of it.

use super::cards::Cards;
use super::intent::Outbox;
use super::naming::named;
use super::proposal_why;
use super::taking::Taking;
use super::theme::Tokens;
use crate::chart::Hue;
use crate::model::{Axis, Point, TrialState};
use crate::session::{
    also_text, change_text, held_back_text, pours_text, proof_text, proposal_title,
};
use crate::units::{Unit, money, number, show_volume, signed, steps};
use eframe::egui::accesskit::Role;
use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{
    Align, Button, FontId, Frame, Galley, Id, Label, Layout, Margin, Response, RichText, Sense,
    Shape, Stroke, TextStyle, TextWrapMode, Ui, WidgetInfo, WidgetText, pos2, vec2,
};
use std::sync::Arc;

/// Room for the mark that says whether a card is open, points.
const MARK: f32 = 12.0;
/// Size of the title, points.
const TITLE: f32 = 13.5;
/// Size of what changes, points.
const SAID: f32 = 13.0;

/// Whether a card is pointed at.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pointing {
    /// By the pointer.
    pub(super) hovered: bool,
    /// Something in it has the focus.
    pub(super) focused: bool,
}

/// Where what is taken lands.
struct Landing {
    point: Point,
    distance: f64,
    served_ml: f64,
    cost: f64,
}

/// One card.
pub(super) struct ProposalCard<'a> {
    pub(super) taking: Taking<'a>,
    /// Place in the list.
    pub(super) index: usize,
    /// Cost of the drink as it is.
    pub(super) cost_now: Option<f64>,
}

impl ProposalCard<'_> {
    /// Shows the card.
    pub(super) fn ui(&self, ui: &mut Ui, cards: &mut Cards, outbox: &mut Outbox) -> Pointing {
        let tokens = Tokens::of(ui);
        let proposal = self.taking.proposal;
        let open = cards.is_open(self.index, proposal);
        let mut pointing = Pointing::default();
        let frame = Frame::new()
            .fill(tokens.card)
            .stroke(Stroke::new(1.0, tokens.line))
            .corner_radius(6)
            .inner_margin(Margin::symmetric(7, if open { 7 } else { 3 }));
        let shown = frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            let header = self.header(ui, open);
            if cards.wants_focus(self.index) {
                header.request_focus();
                header.scroll_to_me(None);
            }
            pointing.focused |= header.has_focus();
            if header.clicked() || header.has_focus() {
                cards.open(proposal);
            }
            if open {
                self.body(ui, cards, &mut pointing, outbox);
            }
        });
        pointing.hovered = shown.response.contains_pointer();
        if pointing.hovered && !open && cards.rests(ui, self.index) {
            cards.open(proposal);
            ui.ctx().request_repaint();
        }
        pointing
    }

    /// What three or more kinds add to the title; it gets a line of its own.
    fn also(&self) -> Option<String> {
        also_text(&self.taking.proposal.kinds).filter(|_| self.taking.is_whole())
    }

    fn title(&self) -> String {
        self.taking.title()
    }

    /// What is taken, worked out; `None` until the part is.
    fn landing(&self) -> Option<Landing> {
        let Taking {
            session,
            proposal,
            taken,
            ..
        } = self.taking;
        if self.taking.is_whole() {
            return Some(Landing {
                point: proposal.point,
                distance: proposal.distance,
                served_ml: proposal.served_ml,
                cost: proposal.cost,
            });
        }
        let part = session.previewed(taken)?;
        Some(Landing {
            point: part.figures.point,
            distance: part.distance?,
            served_ml: part.figures.served_ml,
            cost: part.figures.cost.amount,
        })
    }

    /// Title, distance, and how many pours change: a button that opens the card.
    fn header(&self, ui: &mut Ui, open: bool) -> Response {
        let tokens = Tokens::of(ui);
        let far = self
            .landing()
            .map_or_else(|| "…".to_owned(), |found| steps(found.distance));
        let (title, facts) = self.header_words(ui, open, &far);
        let size = vec2(ui.available_width(), title.size().y.max(18.0));
        let (_, rect) = ui.allocate_space(size);
        let id = Id::unique(("proposal", self.taking.proposal.kinds.first()));
        let response = ui.interact(rect, id, Sense::click());
        let line = title.rows.first().map_or(18.0, |row| row.size.y);
        let right = pos2(
            rect.right() - facts.size().x,
            rect.top() + line - facts.size().y - 1.0,
        );
        paint_mark(ui, pos2(rect.left() + 4.0, rect.top() + line / 2.0), open);
        let painter = ui.painter();
        painter.galley(rect.left_top() + vec2(MARK, 0.0), title, tokens.text);
        painter.galley(right, facts, tokens.weak);
        self.name_header(response, open, &far)
    }

    /// The title and what stands at its right.
    fn header_words(&self, ui: &Ui, open: bool, far: &str) -> (Arc<Galley>, Arc<Galley>) {
        let facts = if open {
            far.to_owned()
        } else {
            let pours = pours_text(self.taking.taken.len());
            format!("{far} · {pours}")
        };
        let lay = |text: RichText, wrap: TextWrapMode, room: f32| {
            WidgetText::from(text).into_galley(ui, Some(wrap), room, TextStyle::Body)
        };
        let facts = RichText::new(facts).small().color(Tokens::of(ui).weak);
        let facts = lay(facts, TextWrapMode::Extend, f32::INFINITY);
        let room = ui.available_width() - MARK - facts.size().x - 4.0;
        let title = match self.also().filter(|_| open) {
            Some(_) => proposal_title(&self.taking.proposal.kinds[..1]),
            None => self.title(),
        };
        let title = RichText::new(title).strong().size(TITLE);
        (lay(title, TextWrapMode::Wrap, room), facts)
    }

    fn name_header(&self, response: Response, open: bool, far: &str) -> Response {
        let count = self.taking.taken.len();
        let name = format!("Proposal: {}", self.title());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_expanded(open);
            node.set_description(format!("lands {far} away, changes {}", pours_text(count)));
        });
        // A tooltip would cover what the pointer previews: what the kinds mean stands under "Why…".
        response
    }

    fn body(&self, ui: &mut Ui, cards: &mut Cards, pointing: &mut Pointing, outbox: &mut Outbox) {
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.spacing_mut().interact_size.y = 19.0;
        if let Some(also) = self.also() {
            ui.label(RichText::new(also).small());
        }
        self.changes(ui, cards, pointing);
        self.lands(ui);
        let Taking {
            session,
            trial,
            proposal,
            ..
        } = self.taking;
        let document = session.document();
        let held_back = held_back_text(document, trial, &proposal.binding);
        if !held_back.is_empty() {
            ui.label(RichText::new(held_back).small().weak());
        }
        ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
            pointing.focused |= proposal_why::ui(ui, &self.taking).has_focus();
            ui.with_layout(Layout::top_down(Align::LEFT), |ui| {
                let proof = if self.taking.is_whole() {
                    proof_text(proposal, &document.currency)
                } else {
                    "a part: nothing is proved of it".to_owned()
                };
                ui.label(RichText::new(proof).small().weak())
                    .on_hover_text("What the search on your notches could rule out");
            });
        });
        self.buttons(ui, pointing, outbox);
    }

    /// A tick for each changed pour.
    fn changes(&self, ui: &mut Ui, cards: &mut Cards, pointing: &mut Pointing) {
        let Taking {
            session,
            trial,
            proposal,
            ..
        } = self.taking;
        let document = session.document();
        for change in &proposal.changes {
            let mut taken = !cards.leaves_out(self.index, change.pour);
            let said = change_text(document, trial, change);
            let tick = ui.checkbox(&mut taken, RichText::new(&said).size(SAID));
            pointing.focused |= tick.has_focus();
            let settled = trial
                .pours
                .get(change.pour)
                .and_then(|pour| document.settle(trial, pour));
            let name = settled.map_or("?", |settled| settled.name);
            let teach = format!(
                "{said}\nUntick to leave this pour as it is; the card says where the rest lands"
            );
            if named(tick, &format!("Take {name}"), &teach).changed() {
                cards.take(self.index, change.pour, taken);
                ui.ctx().request_repaint();
            }
        }
    }

    /// Where it lands, and what it costs.
    fn lands(&self, ui: &mut Ui) {
        if self.taking.taken.is_empty() {
            ui.label(RichText::new("Nothing is ticked: the drink stays as it is.").small());
            return;
        }
        let Some(found) = self.landing() else {
            ui.label(RichText::new("…").small());
            return;
        };
        ui.add(Label::new(landing_job(ui, &found.point)));
        let currency = &self.taking.session.document().currency;
        let unit = self.taking.trial.unit().unwrap_or(Unit::Ml);
        let measures = &self.taking.session.document().measures;
        let mut facts = vec![show_volume(found.served_ml, 0, unit, measures)];
        if found.cost > 0.0 {
            let now = self.cost_now.unwrap_or(found.cost);
            let change = signed(found.cost - now, 2);
            facts.push(format!("{} ({change})", money(found.cost, currency)));
        }
        facts.push(format!("{} changed", pours_text(self.taking.taken.len())));
        ui.label(RichText::new(facts.join(" · ")).small().weak())
            .on_hover_text("Served volume, cost of the pours whose price is known with its difference from now, and how many pours change");
    }

    fn buttons(&self, ui: &mut Ui, pointing: &mut Pointing, outbox: &mut Outbox) {
        let title = self.title();
        let something = !self.taking.taken.is_empty();
        ui.horizontal(|ui| {
            ui.spacing_mut().interact_size.y = 24.0;
            let open = self.taking.trial.state == TrialState::Draft;
            let apply = ui.add_enabled(open && something, Button::new("Apply"));
            pointing.focused |= apply.has_focus();
            let teach = if open {
                "Take the ticked amounts in this trial; undo takes them back"
            } else {
                "This trial is tasted or submitted: its amounts are kept. Keep the proposal as a new trial instead"
            };
            let apply = apply.on_disabled_hover_text(teach);
            if named(apply, &format!("Apply: {title}"), teach).clicked() {
                outbox.edit(self.taking.apply());
            }
            let keep = ui.add_enabled(something, Button::new("Keep as new trial"));
            pointing.focused |= keep.has_focus();
            let teach = "Grow a new trial with the ticked amounts and the reason written in";
            if named(keep, &format!("Keep as new trial: {title}"), teach).clicked() {
                outbox.edit(self.taking.keep());
            }
        });
    }
}

/// A small triangle: to the right while closed, downwards while open.
fn paint_mark(ui: &Ui, middle: eframe::egui::Pos2, open: bool) {
    let points = if open {
        vec![vec2(-3.5, -2.0), vec2(3.5, -2.0), vec2(0.0, 3.0)]
    } else {
        vec![vec2(-2.0, -3.5), vec2(3.0, 0.0), vec2(-2.0, 3.5)]
    };
    let points = points.into_iter().map(|offset| middle + offset).collect();
    let color = Tokens::of(ui).weak;
    ui.painter()
        .add(Shape::convex_polygon(points, color, Stroke::NONE));
}

/// "lands at ● 55.1 g/L ▲ 8.05 g/L ■ 13.8 % vol", each mark in its colour.
fn landing_job(ui: &Ui, point: &Point) -> LayoutJob {
    let tokens = Tokens::of(ui);
    let mut job = LayoutJob::default();
    let font = || FontId::proportional(12.0);
    job.append("lands at", 0.0, TextFormat::simple(font(), tokens.text));
    for (axis, hue, glyph, decimals, unit) in [
        (Axis::Sweet, Hue::Sweet, "●", 1, " g/L"),
        (Axis::Sour, Hue::Sour, "▲", 2, " g/L"),
        (Axis::Strength, Hue::Strength, "■", 1, " % vol"),
    ] {
        let color = tokens.words(hue);
        job.append(glyph, 6.0, TextFormat::simple(font(), color));
        let value = format!(" {}{unit}", number(point.on(axis), decimals));
        job.append(&value, 0.0, TextFormat::simple(font(), tokens.text));
    }
    job
}
