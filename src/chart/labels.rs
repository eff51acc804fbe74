//! Finds places for labels so that none covers another.

/// A label that wants a place, in screen units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelBox {
    /// Where its mark stands.
    pub anchor: [f32; 2],
    /// Width and height of the text.
    pub size: [f32; 2],
    /// Smaller numbers choose first.
    pub rank: u8,
}

/// Distance between a mark and its label.
const GAP: f32 = 7.0;
/// Half the size that a mark itself takes up.
const MARK: f32 = 5.0;

/// Ranks up to this one are named even where marks crowd.
const WEIGHTY: u8 = 1;

type Rect = [f32; 4];

fn overlaps(a: Rect, b: Rect) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

/// The upper left corner for each label, or `None` where there is no room.
///
/// Labels of smaller rank choose first, among six places around their mark; none leaves `bounds`
/// (left, top, right, bottom) or covers another label, and only the two weightiest ranks may cover
/// a mark. A place that is clear of the `lines`, each a box around a piece of one, goes before one
/// that is struck through.
pub fn place_labels(labels: &[LabelBox], lines: &[Rect], bounds: Rect) -> Vec<Option<[f32; 2]>> {
    let mut placed: Vec<Option<[f32; 2]>> = vec![None; labels.len()];
    let mut taken: Vec<Rect> = labels
        .iter()
        .map(|label| {
            let [x, y] = label.anchor;
            [x - MARK, y - MARK, x + MARK, y + MARK]
        })
        .collect();
    let mut order: Vec<usize> = (0..labels.len()).collect();
    order.sort_by_key(|index| labels[*index].rank);
    for index in order {
        let label = labels[index];
        let [x, y] = label.anchor;
        let [w, h] = label.size;
        let corners = [
            [x + GAP, y - h / 2.0],
            [x - GAP - w, y - h / 2.0],
            [x - w / 2.0, y - GAP - h],
            [x - w / 2.0, y + GAP],
            [x + GAP, y - GAP - h],
            [x + GAP, y + GAP],
        ];
        let fits = |corner: &[f32; 2], over_marks: bool| {
            let rect = [corner[0], corner[1], corner[0] + w, corner[1] + h];
            let inside = rect[0] >= bounds[0]
                && rect[1] >= bounds[1]
                && rect[2] <= bounds[2]
                && rect[3] <= bounds[3];
            inside
                && taken.iter().enumerate().all(|(other, taken)| {
                    let mark = other < labels.len();
                    (mark && (over_marks || other == index)) || !overlaps(rect, *taken)
                })
        };
        let struck = |corner: &[f32; 2]| {
            let rect = [corner[0], corner[1], corner[0] + w, corner[1] + h];
            lines.iter().any(|line| overlaps(rect, *line))
        };
        let clean = |corner: &&[f32; 2]| fits(corner, false) && !struck(corner);
        let clear = corners.iter().find(clean);
        let clear = clear.or_else(|| corners.iter().find(|corner| fits(corner, false)));
        let free = clear.or_else(|| {
            let weighty = label.rank <= WEIGHTY;
            corners.iter().find(|corner| weighty && fits(corner, true))
        });
        let free = free.copied();
        if let Some(corner) = free {
            placed[index] = Some(corner);
            taken.push([corner[0], corner[1], corner[0] + w, corner[1] + h]);
        }
    }
    placed
}

/// The upper left corner of a title of that size inside `bounds` (left, top, right, bottom), clear of
/// everything in `taken`: the right end of the top first, then the left end, the middle, and the same
/// below. Where none is clear, the first one that covers least.
pub fn place_title(size: [f32; 2], taken: &[Rect], bounds: Rect) -> [f32; 2] {
    let [w, h] = size;
    let [left, top, right, bottom] = bounds;
    let across = [right - w, left, (left + right - w) / 2.0];
    let corners = [top, bottom - h].map(|y| across.map(|x| [x, y]));
    let covered = |corner: &[f32; 2]| {
        let rect = [corner[0], corner[1], corner[0] + w, corner[1] + h];
        taken.iter().filter(|taken| overlaps(rect, **taken)).count()
    };
    let mut best = (usize::MAX, [right - w, top]);
    for corner in corners.as_flattened() {
        let found = covered(corner);
        if found < best.0 {
            best = (found, *corner);
        }
    }
    best.1
}
