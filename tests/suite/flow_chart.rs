//! A preparation drawn as a flow: widths are masses, nothing overlaps, nothing is left out.

use crate::house_sample::{milk, usual};
use crate::sample_drinks::{builtin, larder};
use equipour::chart::{
    FlowAsk, FlowHit, FlowNodeKind, FlowScene, FlowShare, flow_scene, minutes_text,
};
use equipour::kitchen::{Flow, Supplies, flow};
use equipour::model::{Document, Preparation, Quantity};
use equipour::session::add_step;
use equipour::store::starter_preparations;
use std::sync::Arc;

const LINE: f64 = 15.0;
const SIZE: [f64; 2] = [620.0, 380.0];

fn worked(made: &Preparation) -> Flow {
    let document = Document {
        ingredients: Arc::new(larder().clone()),
        ..Document::default()
    };
    let supplies = Supplies::of(&document, made).expect("inputs are known");
    flow(made, &supplies).expect("it flows")
}

fn scene_of(made: &Preparation, share: FlowShare) -> FlowScene {
    flow_scene(&FlowAsk {
        made,
        flow: &worked(made),
        share,
        size: SIZE,
        line: LINE,
    })
}

/// Every starter, oat milk, and a long chain.
fn samples() -> Vec<Preparation> {
    let starters = starter_preparations().iter();
    let mut all: Vec<Preparation> = starters
        .map(|starter| {
            let rows = starter.rows_and_preparation(builtin(), |_| false);
            rows.0
        })
        .collect();
    let mut long = milk();
    for name in [
        "heat", "rest", "divide", "heat", "divide", "rest", "heat", "divide",
    ] {
        add_step(&mut long, &usual(name));
    }
    long.outputs.remove("milk");
    all.extend([milk(), long]);
    all
}

fn thick(path: &[[f64; 3]], place: usize) -> f64 {
    path[place][2] - path[place][1]
}

#[test]
fn streams_are_as_wide_as_their_mass() {
    for made in samples() {
        let found = worked(&made);
        let scene = scene_of(&made, FlowShare::Mass);
        // Nodes are kept visible however little passes through them, so the widest tell the scale.
        let widest = &scene.ribbons[0];
        let per_gram = thick(&widest.path, 0) / found.streams[&widest.name].mass_g();
        for ribbon in &scene.ribbons {
            let Some(stream) = found.streams.get(&ribbon.name) else {
                continue;
            };
            let expected = stream.mass_g() * per_gram;
            for end in [0, ribbon.path.len() - 1] {
                let drawn = thick(&ribbon.path, end);
                let least = 0.2 * LINE;
                assert!(
                    (drawn - expected).abs() < 1.0e-6 * expected || expected < least,
                    "{}, {}: {drawn} is not {expected}",
                    made.name,
                    ribbon.name
                );
            }
        }
    }
}

#[test]
fn nodes_lie_within_the_drawing_and_apart_from_each_other() {
    for made in samples() {
        let scene = scene_of(&made, FlowShare::Mass);
        for (place, node) in scene.nodes.iter().enumerate() {
            let [left, top, right, bottom] = node.area;
            assert!(left >= 0.0 && right <= scene.size[0], "{node:?}");
            // There is room for a name above it.
            assert!(top >= LINE && bottom <= scene.size[1] + 1.0e-6, "{node:?}");
            for other in &scene.nodes[..place] {
                let apart = other.area[2] <= left
                    || right <= other.area[0]
                    || other.area[3] + LINE <= top
                    || bottom + LINE <= other.area[1];
                assert!(apart, "{}: {node:?} and {other:?}", made.name);
            }
        }
    }
}

#[test]
fn the_room_of_a_name_ends_where_another_node_or_its_name_begins() {
    let mut longer = 0;
    for made in samples() {
        let scene = scene_of(&made, FlowShare::Mass);
        let mut widest: f64 = 0.0;
        for node in &scene.nodes {
            let [left, top, ..] = node.area;
            let end = left + scene.name_room(node, LINE);
            assert!(end > left && end <= scene.size[0], "{node:?}");
            widest = widest.max(end - left);
            for other in scene.nodes.iter().filter(|other| *other != node) {
                let [start, above, _, bottom] = other.area;
                let level = above - LINE < top && bottom > top - LINE;
                let covered = level && start > left && start < end;
                assert!(!covered, "{}: {node:?} over {other:?}", made.name);
            }
        }
        // Where a column beside it is empty at its height a name may be longer than one.
        longer += usize::from(widest > scene.column);
    }
    assert!(longer > 1, "{longer} flows have room for long names");
}

#[test]
fn every_stream_leaves_one_node_and_meets_another_to_its_right() {
    for made in samples() {
        let scene = scene_of(&made, FlowShare::Mass);
        for ribbon in &scene.ribbons {
            let [from, to] = ribbon.ends.map(|end| &scene.nodes[end]);
            let (first, last) = (ribbon.path[0], ribbon.path[ribbon.path.len() - 1]);
            assert_eq!(first[0], from.area[2]);
            assert_eq!(last[0], to.area[0]);
            for (point, node) in [(first, from), (last, to)] {
                let within = point[1] >= node.area[1] - 1.0e-6 && point[2] <= node.area[3] + 1.0e-6;
                assert!(within, "{}: {ribbon:?} at {node:?}", made.name);
            }
            assert!(ribbon.path.is_sorted_by_key(|point| point[0]));
        }
    }
}

#[test]
fn what_goes_in_is_what_leaves() {
    for made in samples() {
        let scene = scene_of(&made, FlowShare::Mass);
        let sum = |fits: fn(FlowNodeKind) -> bool| -> f64 {
            let nodes = scene.nodes.iter().filter(|node| fits(node.kind));
            nodes.map(|node| node.grams).sum()
        };
        let put_in = sum(|kind| kind == FlowNodeKind::Input);
        let out = sum(|kind| kind == FlowNodeKind::Output || !kind.stub().is_empty());
        assert!(
            (put_in - out).abs() < 1.0e-6 * put_in,
            "{}: {put_in} {out}",
            made.name
        );
    }
}

#[test]
fn what_is_pointed_at_is_found_and_leads_to_its_step() {
    let made = milk();
    let scene = scene_of(&made, FlowShare::Water);
    for node in &scene.nodes {
        let [left, top, right, bottom] = node.area;
        let middle = [f64::midpoint(left, right), f64::midpoint(top, bottom)];
        let hit = scene.at(middle, 0.0).expect("a node");
        assert_eq!(hit, FlowHit::Node(node));
        assert!(scene.step_of(&hit).is_some(), "{node:?} belongs to a step");
        if let FlowNodeKind::Step(place) = node.kind {
            assert_eq!(scene.step_of(&hit), Some(place));
        }
    }
    for ribbon in &scene.ribbons {
        let x = f64::midpoint(ribbon.path[0][0], ribbon.path[1][0]);
        let (top, bottom) = ribbon.edges_at(x).expect("it passes there");
        let hit = scene
            .at([x, f64::midpoint(top, bottom)], 0.0)
            .expect("a stream");
        assert!(matches!(hit, FlowHit::Ribbon(_)), "{hit:?}");
        assert!(hit.detail().contains(" g"), "{}", hit.detail());
    }
    assert!(scene.at([-50.0, -50.0], 1.0).is_none());
}

#[test]
fn colour_is_the_share_of_the_chosen_component() {
    let made = milk();
    let found = worked(&made);
    for share in FlowShare::ALL {
        for ribbon in scene_of(&made, share).ribbons {
            let Some(stream) = found.streams.get(&ribbon.name) else {
                continue;
            };
            let whole = stream.whole();
            let expected = share.grams(&whole) / whole.mass_g();
            assert!((ribbon.share - expected).abs() < 1.0e-12);
            assert!((0.0..=1.0).contains(&ribbon.share));
        }
    }
}

#[test]
fn the_table_names_every_stream_and_where_it_goes() {
    for made in samples() {
        let scene = scene_of(&made, FlowShare::Mass);
        let named = |name: &str| scene.table.rows.iter().any(|row| row[0] == name);
        for input in &made.inputs {
            assert!(named(&input.name), "{}", input.name);
        }
        for step in &made.steps {
            assert!(step.to.iter().all(|name| named(name)));
        }
        let width = scene.table.columns.len();
        assert!(scene.table.rows.iter().all(|row| row.len() == width));
    }
}

#[test]
fn nothing_that_flows_is_drawn_as_nothing() {
    let scene = scene_of(&Preparation::default(), FlowShare::Mass);
    assert!(scene.nodes.is_empty() && scene.ribbons.is_empty());
    let mut made = milk();
    for input in &mut made.inputs {
        input.quantity = Quantity::Grams(1.0e-9);
    }
    for node in scene_of(&made, FlowShare::Mass).nodes {
        assert!(node.area.iter().all(|edge| edge.is_finite()), "{node:?}");
    }
}

#[test]
fn times_read_in_the_units_of_a_clock() {
    for (minutes, words) in [
        (0.0, "0 min"),
        (7.5, "7.5 min"),
        (59.0, "59 min"),
        (60.0, "1 h"),
        (90.0, "1 h 30 min"),
        (1439.7, "1 d"),
        (1440.0, "1 d"),
        (1470.0, "1 d 1 h"),
        (2879.0, "2 d"),
        (14.0 * 1440.0, "14 d"),
    ] {
        assert_eq!(minutes_text(minutes), words);
    }
}
