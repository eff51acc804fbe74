//! Draws a chart: lines by the plot, marks and labels by us so that nothing collides.

use super::chart_letters::Listening;
use super::chart_marks::paint_mark;
use super::naming::described;
use super::theme::{Tokens, faint};
use super::{chart_copy, chart_cursor, chart_keys, chart_labels};
use crate::chart::{Chart, Mark, MarkKind, SeriesKind};
use eframe::egui::{Align2, Color32, FontId, Id, Pos2, Response, RichText, Stroke, Ui, vec2};
use egui_plot::{
    AxisHints, FilledArea, GridInput, GridMark, Line, LineStyle, Plot, PlotBounds, PlotPoint,
    PlotPoints, PlotTransform, Polygon,
};

/// Reach of hovering, as a share of the frame.
const HOVER_REACH: f64 = 0.035;

/// Room at the right for half of a number at the end of the axis, points.
const LAST_NUMBER: f32 = 10.0;

/// A dash of a line in long dashes, points.
const LONG_DASH: f32 = 14.0;

/// How a chart is shown.
pub(super) struct ChartView<'a> {
    /// Name of the plot, for its memory.
    pub(super) id: &'a str,
    /// Height, points.
    pub(super) height: f32,
    /// Put the frame back to the chart's own.
    pub(super) reframe: bool,
    /// A large chart that is panned and zoomed, with names at its axes.
    pub(super) movable: bool,
    /// A small chart that is panned and zoomed, together with the others that share what runs across.
    pub(super) zooms: bool,
    /// Letters that go to it while it has the pointer or the focus.
    pub(super) letters: Option<Listening>,
    /// What hovering over a mark reads.
    pub(super) read: &'a dyn Fn(&Mark) -> String,
}

/// What a shown chart gives back.
pub(super) struct Shown {
    pub(super) response: Response,
    pub(super) transform: PlotTransform,
}

impl ChartView<'_> {
    /// Shows the chart.
    pub(super) fn show(&self, ui: &mut Ui, chart: &Chart) -> Shown {
        let tokens = Tokens::of(ui);
        let reframe = self.reframe;
        // A small chart has its title inside.
        let y_title = if self.movable {
            chart.y.label()
        } else {
            String::new()
        };
        let bounds =
            PlotBounds::from_min_max([chart.x.from, chart.y.from], [chart.x.to, chart.y.to]);
        let moves = self.movable || self.zooms;
        let pending = chart_keys::pending(ui, self.id);
        let least_step = if chart.x.counts() { 1.0 } else { 0.0 };
        let mut plot = Plot::new(self.id)
            .height(self.height)
            .width(ui.available_width() - LAST_NUMBER)
            .custom_x_axes(vec![axis(AxisHints::new_x(), chart.x.label(), 22.0)])
            .custom_y_axes(vec![
                axis(AxisHints::new_y(), y_title, 12.0).min_thickness(34.0),
            ])
            .x_grid_spacer(move |input| grid_marks(&input, 7.0, least_step))
            .y_grid_spacer(|input| grid_marks(&input, 5.0, 0.0))
            .allow_scroll(false)
            .allow_boxed_zoom(false)
            .allow_double_click_reset(false)
            .allow_drag(moves)
            .allow_zoom(moves)
            .allow_axis_zoom_drag(moves)
            .show_x(false)
            .show_y(false)
            .show_crosshair(false)
            .grid_color(faint(tokens.line, 0.9))
            .label_formatter(|_| None);
        if self.zooms {
            plot = plot.link_axis(Id::unique(("across", chart.x.label())), [true, false]);
        }
        let shown = plot.show(ui, |plot| {
            if let Some(pending) = pending {
                plot.set_plot_bounds(pending);
            } else if reframe || !moves {
                plot.set_plot_bounds(bounds);
            }
            for series in &chart.series {
                add_series(plot, series, tokens);
            }
        });
        let (response, transform) = (shown.response, shown.transform);
        let painter = ui.painter().with_clip_rect(*transform.frame());
        for mark in &chart.marks {
            paint_mark(&painter, tokens, mark, at(&transform, mark.at));
        }
        chart_labels::label(ui, chart, &transform, &painter);
        // What is pointed at is never hidden by the name of something else.
        let ghosts = chart
            .marks
            .iter()
            .filter(|mark| mark.kind == MarkKind::Ghost);
        ghosts.for_each(|mark| paint_mark(&painter, tokens, mark, at(&transform, mark.at)));
        described(&response, &chart.title, &chart.summary);
        if moves {
            chart_keys::listen(ui, self.id, &response, (transform.bounds(), bounds));
        }
        chart_cursor::share(ui, self.id, chart, &response, (&transform, &painter));
        let reading = self.reading(&response, chart, &transform);
        chart_copy::copies(ui, chart, &response, reading.as_deref());
        if let Some(letters) = self.letters {
            letters.hear(ui, response.has_focus() || response.contains_pointer());
        }
        let response = match reading {
            Some(reading) => response.on_hover_ui_at_pointer(|ui| self.tooltip(ui, &reading)),
            None => response,
        };
        Shown {
            response,
            transform,
        }
    }

    /// What is read, and which letters there are.
    fn tooltip(&self, ui: &mut Ui, reading: &str) {
        ui.set_max_width(ui.spacing().tooltip_width);
        ui.label(reading);
        if let Some(letters) = self.letters {
            ui.label(RichText::new(letters.hint()).small().weak());
        }
    }

    /// What the pointer is on: the nearest mark, or the place itself.
    fn reading(
        &self,
        response: &Response,
        chart: &Chart,
        transform: &PlotTransform,
    ) -> Option<String> {
        let place = transform.value_from_position(response.hover_pos()?);
        Some(match chart.nearest_mark([place.x, place.y], HOVER_REACH) {
            Some(mark) => (self.read)(mark),
            None => chart.read_at([place.x, place.y], !self.movable),
        })
    }
}

/// Whether a chart's own frame is another one than when it was shown last, or it was not shown just
/// before: then panning ends.
pub(super) fn is_new_frame(ui: &Ui, id: &str, chart: &Chart) -> bool {
    let frame = [chart.x.from, chart.x.to, chart.y.from, chart.y.to];
    let (kept, pass) = (Id::unique(("frame of", id)), ui.ctx().cumulative_pass_nr());
    let before = ui.data(|data| data.get_temp::<([f64; 4], u64)>(kept));
    ui.data_mut(|data| data.insert_temp(kept, (frame, pass)));
    before.is_none_or(|(known, last)| known != frame || pass > last + 1)
}

/// An axis whose numbers stay, with as many decimals as their spacing needs.
fn axis(hints: AxisHints<'_>, title: String, closest: f32) -> AxisHints<'_> {
    hints
        .label(RichText::new(title).small())
        .label_spacing(closest..=closest + 8.0)
        .formatter(|mark, _| {
            let decimals = (-mark.step_size.log10().floor()).clamp(0.0, 4.0) as usize;
            crate::units::number(mark.value, decimals)
        })
}

/// Round numbers that cut what is seen into about `parts` parts, at least `least` apart.
fn grid_marks(input: &GridInput, parts: f64, least: f64) -> Vec<GridMark> {
    let (from, to) = input.bounds;
    let rough = ((to - from) / parts).max(1.0e-9).max(least);
    let decade = 10_f64.powf(rough.log10().floor());
    let step_size = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|round| round * decade)
        .find(|step| *step >= rough)
        .unwrap_or(rough);
    let first = (from / step_size).ceil() as i64;
    let last = (to / step_size).floor() as i64;
    (first..=last)
        .take(64)
        .map(|place| GridMark {
            value: place as f64 * step_size,
            step_size,
        })
        .collect()
}

pub(super) fn at(transform: &PlotTransform, [x, y]: [f64; 2]) -> Pos2 {
    transform.position_from_point(&PlotPoint::new(x, y))
}

/// A band between two lines over the same places.
fn add_band(plot: &mut egui_plot::PlotUi<'_>, series: &crate::chart::Series, fill: Color32) {
    let (upper, lower) = series.points.split_at(series.points.len() / 2);
    let column = |points: &[[f64; 2]], axis: usize| -> Vec<f64> {
        points.iter().map(|point| point[axis]).collect()
    };
    let (across, low, high) = (column(upper, 0), column(lower, 1), column(upper, 1));
    if across.len() == low.len() {
        let area = FilledArea::new(&series.name, &across, &low, &high).fill_color(fill);
        plot.add(area);
    }
}

fn add_series(plot: &mut egui_plot::PlotUi<'_>, series: &crate::chart::Series, tokens: &Tokens) {
    let points = || PlotPoints::from(series.points.clone());
    let color = tokens.hue(series.hue);
    match series.kind {
        SeriesKind::Area => plot.polygon(
            Polygon::new(&series.name, points())
                .fill_color(faint(color, 0.12))
                .stroke(Stroke::new(1.0, color))
                .allow_hover(false),
        ),
        SeriesKind::Cloud => plot.polygon(
            Polygon::new(&series.name, points())
                .fill_color(faint(color, 0.16))
                .stroke(Stroke::NONE)
                .allow_hover(false),
        ),
        SeriesKind::Band => add_band(plot, series, faint(color, 0.14)),
        SeriesKind::Outline => plot.polygon(
            Polygon::new(&series.name, points())
                .fill_color(faint(color, 0.06))
                .stroke(Stroke::new(1.2, color))
                .allow_hover(false),
        ),
        SeriesKind::Line => plot.line(
            Line::new(&series.name, points())
                .color(color)
                .width(2.0)
                // Stairs are lines, too.
                .allow_band(false)
                .allow_hover(false),
        ),
        SeriesKind::Dashed | SeriesKind::LongDashed | SeriesKind::Dotted => plot.line(
            Line::new(&series.name, points())
                .color(color)
                .width(1.4)
                .style(match series.kind {
                    SeriesKind::LongDashed => LineStyle::Dashed { length: LONG_DASH },
                    SeriesKind::Dotted => LineStyle::dotted_dense(),
                    _ => LineStyle::dashed_dense(),
                })
                .allow_hover(false),
        ),
        SeriesKind::Ray => plot.line(
            Line::new(&series.name, points())
                .color(color)
                .width(0.7)
                .allow_hover(false),
        ),
    }
}

/// A small caption inside the upper left corner of a chart.
pub(super) fn caption(ui: &Ui, shown: &Shown, text: &str) {
    let corner = shown.transform.frame().left_top() + vec2(6.0, 4.0);
    write_caption(ui, (corner, Align2::LEFT_TOP), text);
}

/// A small caption inside the upper right corner, for a chart that begins high at the left.
pub(super) fn caption_at_right(ui: &Ui, shown: &Shown, text: &str) {
    let corner = shown.transform.frame().right_top() + vec2(-6.0, 2.0);
    write_caption(ui, (corner, Align2::RIGHT_TOP), text);
}

fn write_caption(ui: &Ui, (corner, align): (Pos2, Align2), text: &str) {
    let tokens = Tokens::of(ui);
    ui.painter()
        .text(corner, align, text, FontId::proportional(12.0), tokens.weak);
}
