//! A preparation as a flow: nodes in columns, ribbons as wide as their mass.

use super::Table;
use super::flow_layout::{Link, laid_out};
use super::flow_words::{FlowShare, summary, table, words};
use crate::kitchen::{Flow, Stream};
use crate::model::Preparation;
use std::collections::BTreeMap;

/// Less than this is not drawn, g.
const SEEN_G: f64 = 1.0e-6;

/// What a node of the flow is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlowNodeKind {
    /// What goes in.
    Input,
    /// The step of that place, from 0.
    Step(usize),
    /// A stream that is used.
    Output,
    /// A stream that leaves and is not used.
    Waste,
    /// What leaves as vapour.
    Vapour,
    /// What stays in vessels and on tools.
    Lost,
}

impl FlowNodeKind {
    /// The word for what leaves without being used; empty for the rest.
    pub const fn stub(self) -> &'static str {
        match self {
            Self::Waste => "waste",
            Self::Vapour => "vapour",
            Self::Lost => "loss",
            Self::Input | Self::Step(_) | Self::Output => "",
        }
    }
}

/// A node of the flow.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowNode {
    /// What it is.
    pub kind: FlowNodeKind,
    /// Name beside it.
    pub name: String,
    /// Mass that passes through it, g.
    pub grams: f64,
    /// Left, upper, right and lower edge, in the units of the asked size.
    pub area: [f64; 4],
    /// What hovering reads.
    pub detail: String,
}

/// A stream from one node to another.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowRibbon {
    /// Name of the stream.
    pub name: String,
    /// Where it passes: across, upper and lower edge, from left to right.
    pub path: Vec<[f64; 3]>,
    /// Share of the chosen component in its mass, from 0 to 1.
    pub share: f64,
    /// The node it comes from and the one it goes to.
    pub ends: [usize; 2],
    /// What hovering reads.
    pub detail: String,
}

/// A preparation drawn as a flow.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FlowScene {
    /// One sentence that says what it shows.
    pub summary: String,
    /// Width and height that it takes.
    pub size: [f64; 2],
    /// Least distance between two columns.
    pub column: f64,
    /// Nodes.
    pub nodes: Vec<FlowNode>,
    /// Streams, the widest first.
    pub ribbons: Vec<FlowRibbon>,
    /// The same in rows and columns.
    pub table: Table,
}

/// What is asked of the drawing.
#[derive(Clone, Copy, Debug)]
pub struct FlowAsk<'a> {
    /// The preparation.
    pub made: &'a Preparation,
    /// The preparation worked through.
    pub flow: &'a Flow,
    /// What the colour stands for.
    pub share: FlowShare,
    /// Room across and up; a long preparation takes more across.
    pub size: [f64; 2],
    /// Height of a line of text in the same units.
    pub line: f64,
}

/// What lies at a place of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FlowHit<'a> {
    /// A node.
    Node(&'a FlowNode),
    /// A stream.
    Ribbon(&'a FlowRibbon),
}

impl FlowHit<'_> {
    /// What hovering reads.
    pub fn detail(&self) -> &str {
        match self {
            Self::Node(node) => &node.detail,
            Self::Ribbon(ribbon) => &ribbon.detail,
        }
    }
}

impl FlowScene {
    /// What lies at a place; nodes lie above streams, narrow streams above wide ones.
    pub fn at(&self, [x, y]: [f64; 2], reach: f64) -> Option<FlowHit<'_>> {
        let on_node = |node: &&FlowNode| {
            let [left, top, right, bottom] = node.area;
            (left - reach..=right + reach).contains(&x)
                && (top - reach..=bottom + reach).contains(&y)
        };
        if let Some(node) = self.nodes.iter().find(on_node) {
            return Some(FlowHit::Node(node));
        }
        let on_ribbon = |ribbon: &&FlowRibbon| {
            let edges = ribbon.edges_at(x);
            edges.is_some_and(|(top, bottom)| (top - reach..=bottom + reach).contains(&y))
        };
        let ribbon = self.ribbons.iter().rev().find(on_ribbon)?;
        Some(FlowHit::Ribbon(ribbon))
    }

    /// Room for the name above a node, from its left edge to what else stands at that height or to the
    /// edge of the drawing; `line` is the height of a name.
    pub fn name_room(&self, node: &FlowNode, line: f64) -> f64 {
        let [left, top, ..] = node.area;
        let beside = self.nodes.iter().map(|other| other.area).filter(|area| {
            // Names stand above their nodes, so that these take a line more.
            area[0] > left && area[1] - line < top && area[3] > top - line
        });
        let ends = beside.map(|area| area[0]);
        ends.fold(self.size[0], f64::min) - left
    }

    /// The step that a hit belongs to: the node's own, else the one that makes the stream.
    pub fn step_of(&self, hit: &FlowHit<'_>) -> Option<usize> {
        let step = |kind: FlowNodeKind| match kind {
            FlowNodeKind::Step(place) => Some(place),
            _ => None,
        };
        match hit {
            FlowHit::Node(node) => step(node.kind).or_else(|| {
                // What leaves belongs to the step that it leaves, what goes in to the one that takes it.
                let place = self.nodes.iter().position(|known| known == *node)?;
                let ribbon = self
                    .ribbons
                    .iter()
                    .find(|ribbon| ribbon.ends.contains(&place))?;
                let mut ends = ribbon.ends.iter().filter_map(|end| self.nodes.get(*end));
                ends.find_map(|end| step(end.kind))
            }),
            FlowHit::Ribbon(ribbon) => {
                let mut ends = ribbon
                    .ends
                    .iter()
                    .rev()
                    .filter_map(|end| self.nodes.get(*end));
                ends.find_map(|end| step(end.kind))
            }
        }
    }
}

impl FlowRibbon {
    /// Upper and lower edge at a place across; `None` beyond its ends.
    pub fn edges_at(&self, x: f64) -> Option<(f64, f64)> {
        self.path.windows(2).find_map(|pair| {
            let [[x0, top0, bottom0], [x1, top1, bottom1]] = [*pair.first()?, *pair.last()?];
            if !(x0..=x1).contains(&x) || x1 <= x0 {
                return None;
            }
            let part = eased((x - x0) / (x1 - x0));
            Some((
                top0 + (top1 - top0) * part,
                bottom0 + (bottom1 - bottom0) * part,
            ))
        })
    }
}

/// A smooth way from 0 to 1 that leaves and arrives level.
fn eased(part: f64) -> f64 {
    part * part * (3.0 - 2.0 * part)
}

/// A node before it has a place, with the streams that meet in it.
struct Draft {
    nodes: Vec<FlowNode>,
    links: Vec<Link>,
    streams: Vec<(String, Stream)>,
}

/// Draws a preparation up; empty where nothing flows.
pub fn flow_scene(ask: &FlowAsk<'_>) -> FlowScene {
    let draft = drafted(ask);
    let kinds: Vec<FlowNodeKind> = draft.nodes.iter().map(|node| node.kind).collect();
    let placed = laid_out(&kinds, &draft.links, ask.size, ask.line);
    let mut nodes = draft.nodes;
    for (node, area) in nodes.iter_mut().zip(placed.areas) {
        node.area = area;
    }
    let whole: f64 = ask.flow.inputs_g.values().sum();
    let mut ribbons: Vec<(f64, FlowRibbon)> = draft
        .links
        .iter()
        .zip(placed.paths)
        .zip(&draft.streams)
        .map(|((link, path), (name, stream))| {
            let ribbon = FlowRibbon {
                name: name.clone(),
                path,
                share: ask.share.of(&stream.whole()),
                ends: link.ends,
                detail: words(name, stream, whole),
            };
            (link.grams, ribbon)
        })
        .collect();
    ribbons.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    FlowScene {
        summary: summary(ask.made, ask.flow),
        size: placed.size,
        column: placed.column,
        nodes,
        ribbons: ribbons.into_iter().map(|(_, ribbon)| ribbon).collect(),
        table: table(ask.made, ask.flow),
    }
}

fn drafted(ask: &FlowAsk<'_>) -> Draft {
    let (made, flow) = (ask.made, ask.flow);
    let mut draft = Draft {
        nodes: Vec::new(),
        links: Vec::new(),
        streams: Vec::new(),
    };
    let mut from: BTreeMap<&str, usize> = BTreeMap::new();
    for input in &made.inputs {
        if let Some(stream) = flow.streams.get(&input.name) {
            let node = draft.node(FlowNodeKind::Input, &input.name, stream);
            from.insert(&input.name, node);
        }
    }
    draft.steps(ask, &mut from);
    let leaving = [
        (FlowNodeKind::Output, &flow.outputs),
        (FlowNodeKind::Waste, &flow.waste),
    ];
    for (kind, names) in leaving {
        for name in names {
            if let (Some(maker), Some(stream)) = (from.get(name.as_str()), flow.streams.get(name))
                && stream.mass_g() > SEEN_G
            {
                let node = draft.node(kind, name, stream);
                draft.link(*maker, node, name, stream);
            }
        }
    }
    draft
}

impl Draft {
    /// Every step with what it takes and what leaves it unused.
    fn steps<'a>(&mut self, ask: &FlowAsk<'a>, from: &mut BTreeMap<&'a str, usize>) {
        let (made, flow) = (ask.made, ask.flow);
        for (place, (step, result)) in made.steps.iter().zip(&flow.steps).enumerate() {
            let taken = step.from.iter().filter_map(|name| flow.streams.get(name));
            let whole = taken.fold(Stream::default(), |sum, stream| sum + *stream);
            let name = format!("{} {}", place + 1, step.does.name());
            let node = self.node(FlowNodeKind::Step(place), &name, &whole);
            for name in &step.from {
                if let (Some(maker), Some(stream)) =
                    (from.get(name.as_str()), flow.streams.get(name))
                {
                    self.link(*maker, node, name, stream);
                }
            }
            let vapour = Stream {
                liquid: result.vapour,
                solid: crate::physics::composition::Composition::ZERO,
            };
            self.stub(FlowNodeKind::Vapour, node, &vapour);
            self.stub(FlowNodeKind::Lost, node, &result.lost);
            for name in &step.to {
                from.insert(name, node);
            }
        }
    }

    fn node(&mut self, kind: FlowNodeKind, name: &str, stream: &Stream) -> usize {
        let grams = stream.mass_g();
        let stub = kind.stub();
        self.nodes.push(FlowNode {
            kind,
            name: name.to_owned(),
            grams,
            area: [0.0; 4],
            detail: if stub.is_empty() || stub == name {
                words(name, stream, grams)
            } else {
                words(&format!("{name} ({stub})"), stream, grams)
            },
        });
        self.nodes.len() - 1
    }

    fn link(&mut self, from: usize, to: usize, name: &str, stream: &Stream) {
        let grams = stream.mass_g();
        if grams > SEEN_G {
            self.links.push(Link {
                ends: [from, to],
                grams,
            });
            self.streams.push((name.to_owned(), *stream));
        }
    }

    fn stub(&mut self, kind: FlowNodeKind, from: usize, stream: &Stream) {
        if stream.mass_g() > SEEN_G {
            let node = self.node(kind, kind.stub(), stream);
            self.link(from, node, kind.stub(), stream);
        }
    }
}
