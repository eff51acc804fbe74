//! How answers to just-about-right scales spread, as bars around just right.

use super::chart_table;
use super::naming::described;
use super::theme::{Tokens, faint};
use crate::chart::Hue;
use crate::model::Tasting;
use crate::session::TastingResults;
use crate::tasting::{ScaleResult, scale_words};
use crate::units::capital;
use eframe::egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, RichText, Sense, Stroke, StrokeKind, Ui, pos2,
    vec2,
};

/// Height of a row and of its bar, points.
const ROW: f32 = 30.0;
const BAR: f32 = 20.0;
/// Room for the name of a scale, and for the words at its ends, points.
const NAME: f32 = 78.0;
const END: f32 = 122.0;
/// Widest room for the bars on either side of the middle, points.
const HALF: f32 = 260.0;
/// Distance between the lines of a pattern, points.
const HATCH: f32 = 5.0;

/// Shows the scales of every sample.
pub(super) fn ui(ui: &mut Ui, tasting: &Tasting, results: &TastingResults) {
    let Some(found) = &results.scales else {
        return;
    };
    let asked = found.samples.iter().any(|sample| !sample.scales.is_empty());
    if !asked {
        return;
    }
    ui.label(RichText::new("How the answers spread").strong());
    if chart_table::is_chosen(ui) {
        for (name, sample) in results.names.iter().zip(&found.samples) {
            ui.label(RichText::new(name).strong());
            sample.scales.iter().for_each(|scale| counts(ui, scale));
        }
        return;
    }
    let words = "Counts of 1 to 5 from left to right, the middle of 3 on the line; striped on the side \
                 of too little, crossed on the side of too much.";
    ui.label(RichText::new(words).small().color(Tokens::of(ui).weak));
    let most = tasting.tasters.len().max(1);
    for (name, sample) in results.names.iter().zip(&found.samples) {
        ui.label(RichText::new(name).strong());
        for scale in &sample.scales {
            row(ui, name, scale, most);
        }
        ui.add_space(4.0);
    }
}

/// What a row of bars says, with its counts.
fn counts(ui: &mut Ui, scale: &ScaleResult) {
    let noun = capital(scale.attribute.name());
    let counts = scale.counts.map(|count| count.to_string()).join(", ");
    let words = scale_words(scale);
    ui.label(format!("{noun}: {words} Counts of 1 to 5: {counts}."));
}

fn row(ui: &mut Ui, sample: &str, scale: &ScaleResult, most: usize) {
    let room = ui.available_width() - NAME - 2.0 * END;
    let half = (room / 2.0).clamp(90.0, HALF);
    let size = vec2(NAME + 2.0 * (END + half), ROW);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let noun = capital(scale.attribute.name());
    let words = scale_words(scale);
    described(&response, &format!("{noun} of {sample}"), &words);
    response.on_hover_text(&words);
    let tokens = Tokens::of(ui);
    let painter = ui.painter();
    let font = FontId::proportional(12.0);
    let middle = rect.center().y;
    let axis = rect.left() + NAME + END + half;
    let text = |at: Pos2, align: Align2, words: &str, color: Color32| {
        painter.text(at, align, words, font.clone(), color);
    };
    text(
        pos2(rect.left(), middle),
        Align2::LEFT_CENTER,
        &noun,
        tokens.text,
    );
    let (low, high) = scale.attribute.ends();
    let left = axis - half - 6.0;
    text(pos2(left, middle), Align2::RIGHT_CENTER, low, tokens.weak);
    let right = axis + half + 6.0;
    text(pos2(right, middle), Align2::LEFT_CENTER, high, tokens.weak);
    if scale.answers() == 0 {
        text(
            pos2(axis, middle),
            Align2::CENTER_CENTER,
            "no answers",
            tokens.weak,
        );
        return;
    }
    // Behind the bars, so that it runs through no count.
    let line = Stroke::new(1.5, tokens.text);
    painter.vline(axis, rect.top() + 2.0..=rect.bottom() - 2.0, line);
    bars(painter, tokens, scale, (axis, middle), half / most as f32);
}

/// The five counts, laid out so that the middle of the just-right ones stands on the axis.
fn bars(
    painter: &Painter,
    tokens: &Tokens,
    scale: &ScaleResult,
    (axis, middle): (f32, f32),
    each: f32,
) {
    let counts = scale.counts.map(|count| count as f32);
    let [far_less, less, right, ..] = counts;
    let mut left = axis - each * (far_less + less + right / 2.0);
    for (place, count) in counts.into_iter().enumerate() {
        if count == 0.0 {
            continue;
        }
        let top = middle - BAR / 2.0;
        let rect = Rect::from_min_size(pos2(left, top), vec2(each * count, BAR));
        left = rect.right();
        let rect = rect.shrink2(vec2(0.75, 0.0));
        fill(painter, tokens, place, rect);
        number(painter, tokens, rect, scale.counts[place]);
    }
}

fn fill(painter: &Painter, tokens: &Tokens, place: usize, rect: Rect) {
    let (hue, opacity) = match place {
        0 => (tokens.hue(Hue::Strength), 0.75),
        1 => (tokens.hue(Hue::Strength), 0.4),
        2 => (tokens.hue(Hue::Quiet), 0.25),
        3 => (tokens.hue(Hue::Sweet), 0.4),
        _ => (tokens.hue(Hue::Sweet), 0.75),
    };
    let stroke = Stroke::new(1.0, tokens.weak);
    painter.rect(rect, 2.0, faint(hue, opacity), stroke, StrokeKind::Inside);
    let hatched = painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    // Full colours are far from the card, pale ones far from the text, in either theme.
    let ink = match place {
        0 | 4 => faint(tokens.card, 0.6),
        _ => faint(tokens.text, 0.35),
    };
    let line = Stroke::new(1.0, ink);
    let count = ((rect.width() + rect.height()) / HATCH) as usize + 1;
    for step in 0..count {
        let x = rect.left() + HATCH * step as f32;
        let up = [pos2(x, rect.top()), pos2(x - rect.height(), rect.bottom())];
        let down = [pos2(x - rect.height(), rect.top()), pos2(x, rect.bottom())];
        match place {
            0 | 1 => {
                hatched.line_segment(up, line);
            }
            3 | 4 => {
                hatched.line_segment(up, line);
                hatched.line_segment(down, line);
            }
            _ => {}
        }
    }
}

/// The count on a plate of its own, so that no pattern runs through it.
fn number(painter: &Painter, tokens: &Tokens, rect: Rect, count: usize) {
    let font = FontId::proportional(12.0);
    let galley = painter.layout_no_wrap(count.to_string(), font, tokens.text);
    if galley.size().x + 4.0 > rect.width() {
        return;
    }
    let at = rect.center() - galley.size() / 2.0;
    let plate = Rect::from_min_size(at, galley.size()).expand2(vec2(3.0, 0.0));
    painter.rect_filled(plate, 3.0, tokens.card);
    painter.galley(at, galley, tokens.text);
}
