//! The title inside a small chart, where neither a line nor a mark crosses it.

use super::chart_view::Shown;
use super::theme::Tokens;
use crate::chart::{Chart, SeriesKind, place_title};
use eframe::egui::{FontId, Rect, Ui, pos2, vec2};
use egui_plot::PlotPoint;

/// Distance from the frame, points.
const INSIDE: [f32; 2] = [6.0, 3.0];
/// Half of the room that a mark takes with the name beside it, points.
const MARK: [f32; 2] = [64.0, 16.0];

/// Writes it.
pub(super) fn title(ui: &Ui, shown: &Shown, chart: &Chart, text: &str) {
    let tokens = Tokens::of(ui);
    let painter = ui.painter();
    let font = FontId::proportional(12.0);
    let galley = painter.layout_no_wrap(text.to_owned(), font, tokens.weak);
    let inside = shown.transform.frame().shrink2(INSIDE.into());
    let size = galley.size();
    let [x, y] = place_title([size.x, size.y], &taken(shown, chart), sides(inside));
    painter.galley(pos2(x, y), galley, tokens.weak);
}

/// Boxes around every piece of a line and around every mark, in points.
fn taken(shown: &Shown, chart: &Chart) -> Vec<[f32; 4]> {
    let at = |[x, y]: [f64; 2]| {
        let point = PlotPoint::new(x, y);
        shown.transform.position_from_point(&point)
    };
    let lines = chart
        .series
        .iter()
        .filter(|series| series.kind.is_curve() || series.kind == SeriesKind::Ray);
    let pieces = lines.flat_map(|series| series.points.windows(2));
    let pieces = pieces.filter_map(|pair| {
        let (from, to) = (*pair.first()?, *pair.last()?);
        Some(Rect::from_two_pos(at(from), at(to)).expand(2.0))
    });
    let marks = chart.marks.iter();
    let marks = marks.map(|mark| Rect::from_center_size(at(mark.at), 2.0 * vec2(MARK[0], MARK[1])));
    pieces.chain(marks).map(sides).collect()
}

fn sides(rect: Rect) -> [f32; 4] {
    [rect.left(), rect.top(), rect.right(), rect.bottom()]
}
