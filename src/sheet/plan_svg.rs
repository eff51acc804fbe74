//! A plan's bars as a drawing for print.

use super::block::Block;
use super::chart_svg::PX_PER_MM;
use super::ink::Ink;
use super::svg_text::{Anchor, Paint, SvgText, text_width};
use crate::chart::{TimeBar, TimeLine};

/// Height of a bar with its space, px.
const ROW_PX: f64 = 18.0;
/// Size of text, px.
const TEXT_PX: f64 = 11.0;
/// Share of the width that names may take.
const NAMES: f64 = 0.36;

/// The bars as a block as wide as a column, mm; its height follows from their number.
pub fn plan_block(bars: &TimeLine, width_mm: f64) -> Block {
    let width = width_mm * PX_PER_MM;
    let height = ROW_PX * (bars.bars.len() as f64 + 1.4);
    let mut svg = SvgText::new();
    draw(&mut svg, bars, [width, height]);
    let lacks = svg.lacks.iter().copied().collect();
    Block::Figure {
        svg: svg.finish(
            [width, height],
            0.0,
            ["Preparation over time", &bars.summary],
        ),
        lacks,
        width_mm,
        height_mm: height / PX_PER_MM,
        alt: bars.summary.clone(),
    }
}

fn draw(svg: &mut SvgText, bars: &TimeLine, [width, _]: [f64; 2]) {
    let left = width * NAMES;
    let right = width - 34.0;
    let scale = (right - left) / bars.end_min.max(1.0);
    let across = |minutes: f64| left + minutes * scale;
    let floor = ROW_PX * bars.bars.len() as f64;
    let (line, weak) = (Ink::Line.hex(), Ink::Weak.hex());
    for (at, words) in &bars.marks {
        let x = across(*at);
        svg.path(
            &[[x, 0.0], [x, floor]],
            false,
            &Paint::lined(&line, 0.8, 1.0),
        );
        let words = svg.drawable(words);
        svg.text(
            [x, floor + TEXT_PX + 3.0],
            &words,
            (TEXT_PX, &weak, Anchor::Middle),
        );
    }
    for (place, bar) in bars.bars.iter().enumerate() {
        one(svg, bar, (ROW_PX * place as f64, left), &across);
    }
}

fn one(svg: &mut SvgText, bar: &TimeBar, (top, left): (f64, f64), across: &dyn Fn(f64) -> f64) {
    let ink = if bar.is_critical {
        Ink::Accent
    } else {
        Ink::Weak
    }
    .hex();
    let text = if bar.is_critical {
        Ink::Text
    } else {
        Ink::Weak
    }
    .hex();
    let name = svg.drawable(&fitting(&bar.name, left - 8.0));
    svg.text(
        [0.0, top + TEXT_PX + 1.0],
        &name,
        (TEXT_PX, &text, Anchor::Start),
    );
    let part = |from: f64, to: f64| {
        let (from, to) = (across(from), across(to));
        [from, top + 3.0, to.max(from + 1.2), top + ROW_PX - 5.0]
    };
    let [_, until] = bar.waits_until;
    if until > bar.work[1] {
        svg.rect(part(bar.work[1], until), &Paint::filled(&ink, 0.28));
    }
    if bar.work[1] > bar.work[0] {
        svg.rect(part(bar.work[0], bar.work[1]), &Paint::filled(&ink, 1.0));
    }
}

/// A name that fits; the list beside the bars has it whole.
fn fitting(name: &str, width: f64) -> String {
    if text_width(name, TEXT_PX) <= width {
        return name.to_owned();
    }
    let mut letters: Vec<char> = name.chars().collect();
    while letters.pop().is_some() {
        let shorter: String = letters.iter().chain(&['…']).collect();
        if text_width(&shorter, TEXT_PX) <= width {
            return shorter;
        }
    }
    String::new()
}
