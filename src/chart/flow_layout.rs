//! Where the nodes and ribbons of a flow lie: columns by depth, little crossing, no overlap.

use super::flow::FlowNodeKind;

/// Width of a node, in lines of text.
const NODE_LINES: f64 = 0.8;
/// Least distance between two columns, in lines of text: room for a short name.
const COLUMN_LINES: f64 = 6.0;
/// Room for the names right of the last column, in lines of text.
const NAME_LINES: f64 = 7.0;
/// Room above a node, for its name, in lines of text.
const ABOVE_LINES: f64 = 1.6;
/// Room above a stream that passes a column, in lines of text.
const PASSING_LINES: f64 = 0.6;
/// Least thickness of anything, in lines of text.
const THIN_LINES: f64 = 0.12;
/// Least room for thicknesses in a column, in lines of text.
const LEAST_LINES: f64 = 4.0;
/// Rounds in which the order within columns, then the heights settle.
const ROUNDS: usize = 6;

/// A stream between two nodes, by place; it runs from an earlier to a later one.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    pub(super) ends: [usize; 2],
    pub(super) grams: f64,
}

/// Where everything lies.
#[derive(Clone, Debug, Default)]
pub(super) struct Placed {
    /// Left, upper, right and lower edge of each node.
    pub(super) areas: Vec<[f64; 4]>,
    /// Across, upper and lower edge along each link.
    pub(super) paths: Vec<Vec<[f64; 3]>>,
    /// Width and height that all of it takes.
    pub(super) size: [f64; 2],
    /// Distance between two columns.
    pub(super) column: f64,
}

/// A node, or a stream that passes a column.
#[derive(Clone, Copy, Debug)]
struct Slot {
    column: usize,
    grams: f64,
    above: f64,
    thick: f64,
    top: f64,
}

impl Slot {
    fn middle(&self) -> f64 {
        self.top + self.thick / 2.0
    }
}

struct Layout {
    /// Nodes first, then passing streams.
    slots: Vec<Slot>,
    /// Slots of each column, from the top.
    columns: Vec<Vec<usize>>,
    /// Slots that each link goes through, its nodes included.
    ways: Vec<Vec<usize>>,
    /// For each slot those in the column before, and those in the one after, that it hangs together with.
    before: Vec<Vec<usize>>,
    after: Vec<Vec<usize>>,
    height: f64,
}

/// Lays a flow out in `size`, which grows where it is too small; `line` is the height of text.
pub(super) fn laid_out(
    kinds: &[FlowNodeKind],
    links: &[Link],
    size: [f64; 2],
    line: f64,
) -> Placed {
    if kinds.is_empty() {
        return Placed::default();
    }
    let depths = depths(kinds, links);
    let mut layout = Layout::of(&depths, links, line);
    layout.order();
    layout.thicken(links, size[1], line);
    layout.settle();
    let width = NODE_LINES * line;
    let gaps = layout.columns.len().saturating_sub(1).max(1) as f64;
    let room = size[0] - width - NAME_LINES * line;
    let column = (room / gaps).max(COLUMN_LINES * line);
    let across = |slot: &Slot| slot.column as f64 * column;
    let area = |slot: &Slot| {
        let left = across(slot);
        [left, slot.top, left + width, slot.top + slot.thick]
    };
    let areas = layout.slots.iter().take(kinds.len()).map(area).collect();
    Placed {
        areas,
        paths: layout.paths(links, width, column),
        size: [
            (gaps * column + width + NAME_LINES * line).max(size[0]),
            layout.height,
        ],
        column,
    }
}

/// The column of each node: inputs just before what takes them, outputs in the last one.
fn depths(kinds: &[FlowNodeKind], links: &[Link]) -> Vec<usize> {
    let mut depths = vec![0_usize; kinds.len()];
    for link in links {
        let [from, to] = link.ends;
        depths[to] = depths[to].max(depths[from] + 1);
    }
    let last = depths.iter().copied().max().unwrap_or(0);
    let mut first_taken: Vec<Option<usize>> = vec![None; kinds.len()];
    for link in links {
        let [from, to] = link.ends;
        let known = first_taken[from].unwrap_or(usize::MAX);
        first_taken[from] = Some(known.min(depths[to]));
    }
    for (place, kind) in kinds.iter().enumerate() {
        match kind {
            FlowNodeKind::Input => {
                depths[place] = first_taken[place].unwrap_or(1).saturating_sub(1);
            }
            FlowNodeKind::Output => depths[place] = last,
            _ => {}
        }
    }
    depths
}

impl Layout {
    fn of(depths: &[usize], links: &[Link], line: f64) -> Self {
        let slot = |column, above| Slot {
            column,
            grams: 0.0,
            above: above * line,
            thick: 0.0,
            top: 0.0,
        };
        let mut slots: Vec<Slot> = depths
            .iter()
            .map(|depth| slot(*depth, ABOVE_LINES))
            .collect();
        let mut ways = Vec::with_capacity(links.len());
        for link in links {
            let [from, to] = link.ends;
            let mut way = vec![from];
            for column in depths[from] + 1..depths[to] {
                way.push(slots.len());
                slots.push(Slot {
                    grams: link.grams,
                    ..slot(column, PASSING_LINES)
                });
            }
            way.push(to);
            ways.push(way);
        }
        let last = depths.iter().copied().max().unwrap_or(0);
        let mut columns = vec![Vec::new(); last + 1];
        for (place, slot) in slots.iter().enumerate() {
            columns[slot.column].push(place);
        }
        let mut before = vec![Vec::new(); slots.len()];
        let mut after = vec![Vec::new(); slots.len()];
        for pair in ways.iter().flat_map(|way| way.windows(2)) {
            if let [from, to] = *pair {
                before[to].push(from);
                after[from].push(to);
            }
        }
        Self {
            slots,
            columns,
            ways,
            before,
            after,
            height: 0.0,
        }
    }

    /// Neighbours of a slot in the column before or after.
    fn neighbours(&self, slot: usize, before: bool) -> &[usize] {
        let side = if before { &self.before } else { &self.after };
        side.get(slot).map_or(&[], Vec::as_slice)
    }

    /// Sorts each column by where its neighbours stand, to and fro.
    fn order(&mut self) {
        let mut ranks = vec![0.0; self.slots.len()];
        for round in 0..=ROUNDS {
            let before = round % 2 == 1;
            let count = self.columns.len();
            for step in 0..count {
                let column = if before { step } else { count - 1 - step };
                let mut sorted: Vec<(f64, usize)> = self.columns[column]
                    .iter()
                    .enumerate()
                    .map(|(rank, slot)| {
                        let near = self.neighbours(*slot, before);
                        let sum: f64 = near.iter().map(|slot| ranks[*slot]).sum();
                        let own = rank as f64 / self.columns[column].len() as f64;
                        if near.is_empty() || round == 0 {
                            (own, *slot)
                        } else {
                            (sum / near.len() as f64, *slot)
                        }
                    })
                    .collect();
                sorted.sort_by(|(a, _), (b, _)| a.total_cmp(b));
                let places = sorted.len() as f64;
                for (rank, (_, slot)) in sorted.iter().enumerate() {
                    ranks[*slot] = (rank as f64 + 0.5) / places;
                }
                self.columns[column] = sorted.into_iter().map(|(_, slot)| slot).collect();
            }
        }
    }

    /// One scale for all, so that the fullest column just has room.
    fn thicken(&mut self, links: &[Link], height: f64, line: f64) {
        // What leaves a node, and what meets in it: it is as thick as the larger of the two.
        let mut met = vec![[0.0; 2]; self.slots.len()];
        for link in links {
            for (side, end) in link.ends.into_iter().enumerate() {
                met[end][side] += link.grams;
            }
        }
        for (slot, [leaves, meets]) in self.slots.iter_mut().zip(met) {
            slot.grams = slot.grams.max(leaves).max(meets);
        }
        let above = |column: &Vec<usize>| -> f64 {
            column.iter().map(|slot| self.slots[*slot].above).sum()
        };
        let fullest = self.columns.iter().map(above).fold(0.0, f64::max);
        self.height = height.max(fullest + LEAST_LINES * line);
        let scales = self.columns.iter().map(|column| {
            let grams: f64 = column.iter().map(|slot| self.slots[*slot].grams).sum();
            let thin = column.len() as f64 * THIN_LINES * line;
            let room = (self.height - above(column) - thin - 0.3 * line).max(line);
            if grams > 0.0 {
                room / grams
            } else {
                f64::INFINITY
            }
        });
        let scale = scales.fold(f64::INFINITY, f64::min);
        let scale = if scale.is_finite() { scale } else { 0.0 };
        for slot in &mut self.slots {
            slot.thick = (slot.grams * scale).max(THIN_LINES * line);
        }
    }

    /// Moves everything level with its neighbours, as far as there is room.
    fn settle(&mut self) {
        for column in 0..self.columns.len() {
            self.place(column, &|_| None);
        }
        for round in 0..ROUNDS * 2 {
            let before = round % 2 == 0;
            let count = self.columns.len();
            for step in 0..count {
                let column = if before { step } else { count - 1 - step };
                let wished: Vec<(usize, f64)> = self.columns[column]
                    .iter()
                    .filter_map(|slot| {
                        let near = self.neighbours(*slot, before);
                        let weight = |slot: &usize| self.slots[*slot].thick.max(1.0e-9);
                        let all: f64 = near.iter().map(weight).sum();
                        let sum: f64 = near
                            .iter()
                            .map(|slot| self.slots[*slot].middle() * weight(slot))
                            .sum();
                        (!near.is_empty()).then(|| (*slot, sum / all))
                    })
                    .collect();
                self.place(column, &|slot| {
                    let found = wished.iter().find(|(known, _)| *known == slot);
                    found.map(|(_, middle)| *middle)
                });
            }
        }
    }

    /// Stacks a column in its order, each slot as near to its wish as the ones around it let it.
    fn place(&mut self, column: usize, wish: &dyn Fn(usize) -> Option<f64>) {
        let order = self.columns[column].clone();
        let mut free = 0.0;
        // How far those that were pushed lie below their wishes, by thickness.
        let (mut below, mut weight) = (0.0, 0.0);
        for slot in &order {
            let held = &mut self.slots[*slot];
            let wished = wish(*slot).map(|middle| middle - held.thick / 2.0);
            held.top = wished.unwrap_or(held.top).max(free + held.above);
            free = held.top + held.thick;
            if let Some(wished) = wished {
                below += (held.top - wished) * held.thick;
                weight += held.thick;
            }
        }
        // All of them share the push, as far as there is room above the first.
        let first = order.first().map(|slot| self.slots[*slot]);
        let room = first.map_or(0.0, |first| first.top - first.above);
        let shift = if weight > 0.0 { below / weight } else { 0.0 };
        for slot in &order {
            self.slots[*slot].top -= shift.clamp(0.0, room.max(0.0));
        }
        let mut floor = self.height;
        for slot in order.iter().rev() {
            let held = &mut self.slots[*slot];
            held.top = held.top.min(floor - held.thick);
            floor = held.top - held.above;
        }
    }

    /// The way of each link, leaving and meeting nodes in the order of where it comes from or goes to.
    fn paths(&self, links: &[Link], width: f64, column: f64) -> Vec<Vec<[f64; 3]>> {
        let ports = [self.ports(links, 0), self.ports(links, 1)];
        self.ways
            .iter()
            .enumerate()
            .map(|(place, way)| {
                let mut path = Vec::with_capacity(way.len() * 2);
                for (step, slot) in way.iter().enumerate() {
                    let slot = &self.slots[*slot];
                    let left = slot.column as f64 * column;
                    let (first, last) = (step == 0, step + 1 == way.len());
                    let (top, thick) = match (first, last) {
                        (true, _) => ports[0][place],
                        (_, true) => ports[1][place],
                        _ => (slot.top, slot.thick),
                    };
                    if !first {
                        path.push([left, top, top + thick]);
                    }
                    if !last {
                        path.push([left + width, top, top + thick]);
                    }
                }
                path
            })
            .collect()
    }

    /// Upper edge and thickness of each link where it leaves (side 0) or meets (side 1) its node.
    fn ports(&self, links: &[Link], side: usize) -> Vec<(f64, f64)> {
        let mut ports = vec![(0.0, 0.0); links.len()];
        let mut order: Vec<usize> = (0..links.len()).collect();
        let next = |link: usize| {
            let way = &self.ways[link];
            let place = if side == 0 {
                1
            } else {
                way.len().saturating_sub(2)
            };
            way.get(place)
                .map_or(0.0, |slot| self.slots[*slot].middle())
        };
        order.sort_by(|a, b| next(*a).total_cmp(&next(*b)));
        let mut used: Vec<f64> = self.slots.iter().map(|slot| slot.top).collect();
        for link in order {
            let end = links[link].ends[side];
            let slot = &self.slots[end];
            let share = if slot.grams > 0.0 {
                links[link].grams / slot.grams
            } else {
                1.0
            };
            let thick = slot.thick * share;
            ports[link] = (used[end], thick);
            used[end] += thick;
        }
        ports
    }
}
