//! The flow of the preparation on screen: drawn, pointed at, and as a table.

use super::chart_table;
use super::house_page::{HousePage, WIDE};
use super::naming::{described, named};
use super::theme::{Tokens, faint};
use crate::chart::{
    FlowAsk, FlowHit, FlowNode, FlowNodeKind, FlowRibbon, FlowScene, FlowShare, flow_scene,
};
use crate::model::{Preparation, PreparationId};
use crate::session::HouseView;
use crate::units::number;
use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    Color32, ComboBox, FontId, Galley, Mesh, Painter, Pos2, Rect, RichText, ScrollArea, Sense,
    Shape, Stroke, StrokeKind, Ui, pos2, vec2,
};
use std::sync::Arc;

/// Height of a line of text, points.
const LINE: f32 = 15.0;
/// Height of the key of colours, points.
const KEY: f32 = 20.0;
/// Size of the strip in the key, points.
const STRIP: [f32; 2] = [90.0, 8.0];
/// Parts in which the bend of a stream is drawn.
const PARTS: usize = 16;
/// Longest name that reaches into sight from a node that is not, points.
const LONGEST: f64 = 400.0;
/// Reach of the pointer, points.
const REACH: f64 = 2.0;
/// Faintest and strongest a stream is drawn.
const OPACITY: (f32, f32) = (0.16, 0.8);

/// What a drawing was made from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SceneKey {
    revision: u64,
    id: PreparationId,
    share: FlowShare,
    size: [u32; 2],
}

/// Shows the flow in the upper part of what is left; in a wide window that is more.
pub(super) fn ui(
    ui: &mut Ui,
    page: &mut HousePage,
    (revision, id, made): (u64, &PreparationId, &Preparation),
    view: &HouseView,
    tables: bool,
) {
    tools(ui, page);
    let wide = ui.ctx().content_rect().width() >= WIDE;
    let share = if wide { 0.66 } else { 0.56 };
    let height = (ui.available_height() * share).max(140.0);
    let Ok(flow) = &view.flow else {
        let wrong = view.wrong().map(ToString::to_string).unwrap_or_default();
        waiting(ui, height, made, &wrong);
        return;
    };
    let size = [ui.available_width(), height].map(|side| side.max(0.0).round());
    let key = SceneKey {
        revision,
        id: id.clone(),
        share: page.share,
        size: size.map(|side| side as u32),
    };
    let known = page.scene.take().filter(|(known, _)| *known == key);
    let ask = FlowAsk {
        made,
        flow,
        share: page.share,
        size: size.map(|side| f64::from(side) - 8.0),
        line: f64::from(LINE),
    };
    let (key, scene) = known.unwrap_or_else(|| (key, flow_scene(&ask)));
    if scene.nodes.is_empty() {
        waiting(ui, height, made, "");
    } else if tables {
        chart_table::plain(ui, "flow table", (&scene.summary, &scene.table), height);
    } else {
        let key = if page.share == FlowShare::Mass {
            0.0
        } else {
            KEY
        };
        drawn(ui, page, made, &scene, height - key);
        if key > 0.0 {
            colour_key(ui, page.share);
        }
    }
    page.scene = Some((key, scene));
}

fn tools(ui: &mut Ui, page: &mut HousePage) {
    ui.horizontal(|ui| {
        ui.heading("Flow");
        ui.label(
            RichText::new("widths are masses; colour shows")
                .small()
                .weak(),
        );
        let combo = ComboBox::from_id_salt("flow colour")
            .selected_text(page.share.name())
            .show_ui(ui, |ui| {
                for share in FlowShare::ALL {
                    ui.selectable_value(&mut page.share, share, share.name());
                }
            });
        let teach = "The stronger the colour of a stream, the larger the share of this in it";
        named(combo.response, "Colour of the flow", teach);
    });
}

/// What is missing before there is a flow.
fn waiting(ui: &mut Ui, height: f32, made: &Preparation, wrong: &str) {
    ui.allocate_ui(vec2(ui.available_width(), height), |ui| {
        ui.set_min_height(height);
        ui.add_space(12.0);
        let words = if made.inputs.is_empty() {
            "Add an input at the right, then a step: the flow is drawn from the first one on."
        } else if wrong.is_empty() {
            "Give the inputs an amount: the flow is drawn from the first gram on."
        } else {
            ui.label(RichText::new("It cannot be worked out yet").strong());
            ui.label(RichText::new(wrong).color(Tokens::of(ui).warn));
            "What was typed stays. Its outputs keep the figures that they had."
        };
        ui.label(RichText::new(words).weak());
    });
}

fn drawn(ui: &mut Ui, page: &mut HousePage, made: &Preparation, scene: &FlowScene, height: f32) {
    ScrollArea::both()
        .id_salt("flow")
        .max_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            let size = vec2(scene.size[0] as f32, scene.size[1] as f32);
            let (rect, response) = ui.allocate_exact_size(size, Sense::click());
            let title = format!("Flow of {}", made.name);
            described(&response, &title, &scene.summary);
            let pointer = response.hover_pos();
            let place = pointer.map(|at| {
                let at = at - rect.min;
                [f64::from(at.x), f64::from(at.y)]
            });
            let hit = place.and_then(|place| scene.at(place, REACH));
            let tokens = Tokens::of(ui);
            let drawing = Drawing {
                painter: ui.painter_at(rect.expand(2.0)),
                tokens,
                corner: rect.min,
                hue: tokens.hue(page.share.hue()),
                by_share: page.share != FlowShare::Mass,
            };
            drawing.all(scene, page.step, hit.as_ref());
            if let Some(hit) = hit {
                if response.clicked() {
                    let step = scene.step_of(&hit);
                    page.reveal = step.is_some();
                    page.step = step.or(page.step);
                }
                response.on_hover_text_at_pointer(hit.detail());
            }
        });
}

/// What the strength of a colour stands for; it grows with the share in a straight line.
fn colour_key(ui: &mut Ui, share: FlowShare) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("0 %").small().weak());
        let [width, height] = STRIP;
        let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        let sentence = "The colour of a stream grows with the share of its mass, from 0 to 100 %";
        described(&response, &format!("Key of {}", share.name()), sentence);
        let hue = Tokens::of(ui).hue(share.hue());
        let mut mesh = Mesh::default();
        for (x, opacity) in [(rect.left(), OPACITY.0), (rect.right(), OPACITY.1)] {
            let color = faint(hue, opacity);
            mesh.colored_vertex(pos2(x, rect.top()), color);
            mesh.colored_vertex(pos2(x, rect.bottom()), color);
        }
        mesh.add_triangle(0, 1, 2);
        mesh.add_triangle(1, 2, 3);
        ui.painter().add(Shape::mesh(mesh));
        let words = format!("100 % {}; grey: none", share.name());
        ui.label(RichText::new(words).small().weak());
    });
}

struct Drawing<'a> {
    painter: Painter,
    tokens: &'a Tokens,
    corner: Pos2,
    hue: Color32,
    by_share: bool,
}

impl Drawing<'_> {
    fn at(&self, x: f64, y: f64) -> Pos2 {
        pos2(self.corner.x + x as f32, self.corner.y + y as f32)
    }

    /// Whether any of what lies between two places across is seen; a long flow is drawn in part.
    fn is_seen(&self, left: f64, right: f64) -> bool {
        let (left, right) = (self.at(left, 0.0).x, self.at(right, 0.0).x);
        let seen = self.painter.clip_rect();
        right >= seen.left() && left <= seen.right()
    }

    fn all(&self, scene: &FlowScene, chosen: Option<usize>, hit: Option<&FlowHit<'_>>) {
        for ribbon in &scene.ribbons {
            let pointed = matches!(hit, Some(FlowHit::Ribbon(known)) if *known == ribbon);
            self.ribbon(scene, ribbon, pointed);
        }
        let nodes = scene.nodes.iter();
        let seen = nodes.filter(|node| self.is_seen(node.area[0], node.area[2] + LONGEST));
        for node in seen.clone() {
            let is_chosen = chosen.is_some_and(|place| node.kind == FlowNodeKind::Step(place));
            let pointed = matches!(hit, Some(FlowHit::Node(known)) if *known == node);
            self.node(node, is_chosen || pointed);
        }
        for node in seen {
            self.name(scene, node);
        }
    }

    /// A stream as a strip whose upper and lower edges bend alike.
    fn ribbon(&self, scene: &FlowScene, ribbon: &FlowRibbon, pointed: bool) {
        let (Some(first), Some(last)) = (ribbon.path.first(), ribbon.path.last()) else {
            return;
        };
        if !self.is_seen(first[0], last[0]) {
            return;
        }
        let end = ribbon.ends.get(1).and_then(|end| scene.nodes.get(*end));
        let leaves = end.is_some_and(|node| !node.kind.stub().is_empty());
        let color = self.color(ribbon.share, leaves, pointed);
        let parts = PARTS * ribbon.path.len().saturating_sub(1).max(1);
        let mut mesh = Mesh::default();
        for part in 0..=parts {
            let x = first[0] + (last[0] - first[0]) * part as f64 / parts as f64;
            let Some((top, bottom)) = ribbon.edges_at(x) else {
                continue;
            };
            let next = mesh.vertices.len() as u32;
            mesh.colored_vertex(self.at(x, top), color);
            mesh.colored_vertex(self.at(x, bottom), color);
            if next >= 2 {
                mesh.add_triangle(next - 2, next - 1, next);
                mesh.add_triangle(next - 1, next, next + 1);
            }
        }
        self.painter.add(Shape::mesh(mesh));
    }

    fn color(&self, share: f64, leaves: bool, pointed: bool) -> Color32 {
        let (least, most) = OPACITY;
        if !self.by_share {
            let base = if leaves { self.tokens.weak } else { self.hue };
            return faint(base, if pointed { 0.55 } else { 0.32 });
        }
        let strength = least + (most - least) * (share.clamp(0.0, 1.0) as f32);
        let color = if share > 0.0 {
            self.hue
        } else {
            self.tokens.weak
        };
        faint(
            color,
            if pointed {
                (strength + 0.2).min(1.0)
            } else {
                strength
            },
        )
    }

    fn node(&self, node: &FlowNode, strong: bool) {
        let [left, top, right, bottom] = node.area;
        let rect = Rect::from_min_max(self.at(left, top), self.at(right, bottom));
        let tokens = self.tokens;
        let fill = match node.kind {
            FlowNodeKind::Step(_) => tokens.text,
            FlowNodeKind::Input => tokens.weak,
            FlowNodeKind::Output => tokens.accent,
            _ => faint(tokens.weak, 0.5),
        };
        self.painter.rect_filled(rect, 2.0, fill);
        if strong {
            let rim = Stroke::new(2.0, tokens.accent);
            self.painter
                .rect_stroke(rect.expand(2.0), 3.0, rim, StrokeKind::Middle);
        }
    }

    /// The name above a node, cut where something else begins; a number at its end, by which two of
    /// one name are told apart, is kept.
    fn name(&self, scene: &FlowScene, node: &FlowNode) {
        let [left, top, ..] = node.area;
        let stub = node.kind.stub();
        let words = match node.kind {
            FlowNodeKind::Step(_) => node.name.clone(),
            FlowNodeKind::Waste => format!("{} g {} ({stub})", number(node.grams, 0), node.name),
            _ => format!("{} g {}", number(node.grams, 0), node.name),
        };
        let color = match node.kind {
            FlowNodeKind::Output | FlowNodeKind::Step(_) => self.tokens.text,
            _ => self.tokens.weak,
        };
        let room = scene.name_room(node, f64::from(LINE)) as f32 - 6.0;
        let end = words.rsplit_once(' ').filter(|(_, end)| {
            end.chars()
                .all(|letter| letter.is_ascii_digit() || letter == '(' || letter == ')')
        });
        let mut parts = vec![self.line(words.clone(), color, room)];
        if let Some((start, end)) = end.filter(|_| parts.iter().any(|part| part.elided)) {
            let end = self.line(format!(" {end}"), color, room);
            parts = vec![self.line(start.to_owned(), color, room - end.size().x), end];
        }
        let mut x = 0.0;
        for part in parts {
            let at = self.at(left, top) + vec2(x, -part.size().y - 1.0);
            x += part.size().x;
            self.painter.galley(at, part, color);
        }
    }

    fn line(&self, words: String, color: Color32, room: f32) -> Arc<Galley> {
        let mut job = LayoutJob::simple_singleline(words, FontId::proportional(12.0), color);
        job.wrap = TextWrapping::truncate_at_width(room.max(0.0));
        self.painter.layout_job(job)
    }
}
