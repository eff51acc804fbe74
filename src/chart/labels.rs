//! Finds places for labels so that none covers another.

/// A label that wants a place, in screen units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelBox {
    /// Where its mark stands.
    pub anchor: [f32; 2],
    /// Width and height of the text; a mark without a name has none of either.
    pub size: [f32; 2],
    /// How far its mark reaches to every side; 0 for a place without a mark.
    pub reach: f32,
    /// Smaller numbers choose first.
    pub rank: u8,
}

/// Distances between a mark and its label, the near one first.
const GAPS: [f32; 2] = [2.5, 11.0];

/// Ranks up to this one are named even where marks crowd, each by a label of its own.
const WEIGHTY: u8 = 1;

/// Longest piece of a line that is taken as a box: a long slant would fill a large one.
const LONGEST_PIECE: f32 = 12.0;
/// Half the width that a line takes up.
const LINE: f32 = 1.0;

type Rect = [f32; 4];

fn overlaps(a: Rect, b: Rect) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

impl LabelBox {
    /// What its mark takes up.
    fn mark(&self) -> Rect {
        let ([x, y], reach) = (self.anchor, self.reach);
        [x - reach, y - reach, x + reach, y + reach]
    }

    /// The text with its upper left corner there.
    fn at(&self, [x, y]: [f32; 2]) -> Rect {
        [x, y, x + self.size[0], y + self.size[1]]
    }

    /// Upper left corners of the places around the mark, the better ones first.
    fn corners(&self) -> impl Iterator<Item = [f32; 2]> {
        let ([x, y], [w, h], reach) = (self.anchor, self.size, self.reach);
        GAPS.into_iter().flat_map(move |gap| {
            let (near, slant) = (reach + gap, 0.7 * (reach + gap));
            let (right, left) = (x + near, x - near - w);
            let (above, below) = (y - near - h, y + near);
            let (middle, level) = (x - w / 2.0, y - h / 2.0);
            [
                [right, level],
                [left, level],
                [middle, above],
                [middle, below],
                [x + slant, y - slant - h],
                [x + slant, y + slant],
                [x - slant - w, y - slant - h],
                [x - slant - w, y + slant],
            ]
        })
    }
}

/// Whether a label of that rank is never joined with the names of other marks at its place.
pub const fn stands_alone(rank: u8) -> bool {
    rank <= WEIGHTY
}

/// Thin boxes around the pieces of a line through `points`.
pub fn line_boxes(points: &[[f32; 2]]) -> Vec<Rect> {
    let piece = |from: [f32; 2], to: [f32; 2]| {
        [
            from[0].min(to[0]) - LINE,
            from[1].min(to[1]) - LINE,
            from[0].max(to[0]) + LINE,
            from[1].max(to[1]) + LINE,
        ]
    };
    let parts = |pair: &[[f32; 2]]| -> Vec<Rect> {
        let &[from, to] = pair else {
            return Vec::new();
        };
        let long = (to[0] - from[0]).hypot(to[1] - from[1]);
        let count = (long / LONGEST_PIECE).ceil().clamp(1.0, 400.0);
        let along =
            |part: f32| [0, 1].map(|axis| from[axis] + (to[axis] - from[axis]) * part / count);
        (0..count as u16)
            .map(|part| piece(along(f32::from(part)), along(f32::from(part) + 1.0)))
            .collect()
    };
    points.windows(2).flat_map(parts).collect()
}

/// The upper left corner for each label, or `None` where there is no room.
///
/// Labels of smaller rank choose first, among eight places close to their mark and eight a little
/// farther off; none leaves `bounds` (left, top, right, bottom) or covers another label, and only the
/// two weightiest ranks may cover a mark, where no place is free. A free place that is clear of the
/// `lines` goes before one that is struck through.
pub fn place_labels(labels: &[LabelBox], lines: &[Rect], bounds: Rect) -> Vec<Option<[f32; 2]>> {
    let mut placed: Vec<Option<[f32; 2]>> = vec![None; labels.len()];
    let marks: Vec<Rect> = labels.iter().map(LabelBox::mark).collect();
    let mut taken: Vec<Rect> = Vec::new();
    let mut order: Vec<usize> = (0..labels.len()).collect();
    order.sort_by_key(|index| labels[*index].rank);
    for index in order {
        let label = labels[index];
        if label.size[0] <= 0.0 {
            continue;
        }
        let inside = |rect: Rect| {
            rect[0] >= bounds[0]
                && rect[1] >= bounds[1]
                && rect[2] <= bounds[2]
                && rect[3] <= bounds[3]
        };
        let clear_of = |corner: [f32; 2], others: &[Rect]| {
            let rect = label.at(corner);
            others.iter().all(|other| !overlaps(rect, *other))
        };
        let open = |corner: &[f32; 2]| inside(label.at(*corner)) && clear_of(*corner, &taken);
        let corners: Vec<[f32; 2]> = label.corners().filter(open).collect();
        let free = |corner: &&[f32; 2]| clear_of(**corner, &marks);
        let clean = |corner: &&[f32; 2]| free(corner) && clear_of(**corner, lines);
        let found = corners.iter().find(clean);
        let found = found.or_else(|| corners.iter().find(free));
        let weighty = corners.first().filter(|_| stands_alone(label.rank));
        if let Some(corner) = found.or(weighty) {
            placed[index] = Some(*corner);
            taken.push(label.at(*corner));
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
