//! Labels beside marks: over no other label, over no mark, over no line where it can be helped.

use equipour::chart::{LabelBox, line_boxes, place_labels};
use proptest::prelude::*;

#[test]
fn a_label_is_not_struck_through_where_a_clean_place_is_left() {
    let label = LabelBox {
        anchor: [300.0, 150.0],
        size: [60.0, 14.0],
        reach: 5.0,
        rank: 1,
    };
    let bounds = [0.0, 0.0, 600.0, 300.0];
    // The corner of a stair: from above, on to the right.
    let stair = [[299.0, 20.0, 301.0, 150.0], [300.0, 149.0, 600.0, 151.0]];
    let place = |lines: &[[f32; 4]]| place_labels(&[label], lines, bounds)[0].expect("a place");
    let struck = |[x, y]: [f32; 2]| {
        let crosses = |line: &[f32; 4]| {
            line[0] < x + 60.0 && x < line[2] && line[1] < y + 14.0 && y < line[3]
        };
        stair.iter().any(crosses)
    };
    assert!(struck(place(&[])), "without a word of the line it is");
    assert!(!struck(place(&stair)));
    // Where every place is struck through, it is named all the same.
    place(&[[0.0, 0.0, 600.0, 300.0]]);
}

#[test]
fn three_marks_at_one_place_are_named_around_it_over_no_mark_and_no_outline() {
    // The drink on its target, with the trial before below both, as a fresh twist has it.
    let label = |width: f32, reach: f32, rank: u8| LabelBox {
        anchor: [300.0, 150.0],
        size: [width, 14.0],
        reach,
        rank,
    };
    let labels = [
        label(40.0, 8.0, 0),
        label(100.0, 12.0, 1),
        label(70.0, 6.0, 4),
    ];
    let corners = |turn: f32| {
        let angle = std::f32::consts::TAU * turn / 72.0;
        [300.0 + 150.0 * angle.cos(), 150.0 + 40.0 * angle.sin()]
    };
    let outline: Vec<[f32; 2]> = (0..=72_u8).map(|turn| corners(f32::from(turn))).collect();
    let lines = line_boxes(&outline);
    let placed = place_labels(&labels, &lines, [0.0, 0.0, 600.0, 300.0]);
    let mut rects: Vec<[f32; 4]> = vec![[288.0, 138.0, 312.0, 162.0]];
    for (label, corner) in labels.iter().zip(placed) {
        let [x, y] = corner.expect("there is room for all three");
        let rect = [x, y, x + label.size[0], y + label.size[1]];
        for taken in rects.iter().chain(&lines) {
            let apart = rect[2] <= taken[0]
                || taken[2] <= rect[0]
                || rect[3] <= taken[1]
                || taken[3] <= rect[1];
            assert!(apart, "{rect:?} lies over {taken:?}");
        }
        rects.push(rect);
    }
}

#[test]
fn where_there_is_room_for_one_label_the_weightier_has_it_and_unnamed_marks_stay_clear() {
    let label = |y: f32, width: f32, rank: u8| LabelBox {
        anchor: [50.0, y],
        size: [width, 14.0],
        reach: 4.0,
        rank,
    };
    // A frame so narrow that a name fits above or below its mark alone.
    let labels = [
        label(30.0, 90.0, 7),
        label(36.0, 90.0, 5),
        label(8.0, 0.0, 9),
    ];
    let placed = place_labels(&labels, &[], [0.0, 0.0, 100.0, 60.0]);
    assert!(placed[0].is_none() && placed[2].is_none(), "{placed:?}");
    let [_, top] = placed[1].expect("the weightier one");
    assert!(top >= 40.0, "it is below both marks: {top}");
}

proptest! {
    #[test]
    fn labels_never_cover_each_other_and_never_leave_the_frame(
        seeds in prop::collection::vec((0.0_f32..600.0, 0.0_f32..300.0, 20.0_f32..140.0, 0_u8..9), 1..60),
    ) {
        let labels: Vec<LabelBox> = seeds
            .iter()
            .map(|(x, y, width, rank)| LabelBox {
                anchor: [*x, *y],
                size: [*width, 14.0],
                reach: 5.0,
                rank: *rank,
            })
            .collect();
        let placed = place_labels(&labels, &[], [0.0, 0.0, 600.0, 300.0]);
        let rects: Vec<[f32; 4]> = placed
            .iter()
            .zip(&labels)
            .filter_map(|(corner, label)| {
                let [x, y] = (*corner)?;
                Some([x, y, x + label.size[0], y + label.size[1]])
            })
            .collect();
        for (index, a) in rects.iter().enumerate() {
            prop_assert!(a[0] >= 0.0 && a[1] >= 0.0 && a[2] <= 600.0 && a[3] <= 300.0);
            for b in &rects[index + 1..] {
                let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
                prop_assert!(apart, "{a:?} covers {b:?}");
            }
        }
        // No label but the weightiest lies over a mark.
        for (rect, label) in placed.iter().zip(&labels).filter_map(|(corner, label)| {
            let [x, y] = (*corner)?;
            Some(([x, y, x + label.size[0], y + label.size[1]], label))
        }) {
            for mark in &labels {
                let [x, y] = mark.anchor;
                let apart = rect[2] <= x - 5.0 || x + 5.0 <= rect[0]
                    || rect[3] <= y - 5.0 || y + 5.0 <= rect[1];
                prop_assert!(apart || label.rank <= 1, "{rect:?} covers a mark at {x} {y}");
            }
        }
        // The first to choose finds a place if any of its own lies in the frame.
        let first = labels.iter().zip(&placed).min_by_key(|(label, _)| label.rank).expect("one");
        if first.0.anchor[0] > 150.0 && first.0.anchor[0] < 450.0
            && first.0.anchor[1] > 30.0 && first.0.anchor[1] < 270.0 && first.0.rank <= 1 {
            prop_assert!(first.1.is_some());
        }
    }
}
