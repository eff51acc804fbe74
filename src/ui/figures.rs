//! The figures of the drink as served, with their change against the trial before.

use super::figures_more::rest;
use super::theme::Tokens;
use crate::balance::{Figures, TWO_SIDED, Uncertainty};
use crate::chart::Hue;
use crate::model::{Axis, Document, FigureGroup};
use crate::session::{Derived, Preview};
use crate::units::{Unit, number, signed};
use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{Color32, FontId, Frame, Label, Margin, Sense, Stroke, Ui, UiBuilder, vec2};

/// Most rows that the card takes where its figures can be set closer for it.
const MOST_ROWS: usize = 3;
/// Gaps between figures, points: the wide one where all finds room with it.
const GAPS: [f32; 2] = [13.0, 8.0];
/// Height of a row, points.
const ROW: f32 = 20.0;
/// What hovering over the legend reads.
const LEGEND: &str = "± is what 19 of 20 such drinks stay within; a signed number is the change from the trial before, in the unit of its figure";
/// Longest name of a trial in the legend, letters.
const LONGEST: usize = 24;

/// Above this share of a standard deviation a shifted mean has a word.
const LEANS: f64 = 0.25;

/// One figure on screen.
pub(super) struct Item {
    pub(super) hue: Option<(Hue, &'static str)>,
    pub(super) name: &'static str,
    pub(super) value: String,
    /// The value where another one follows it; the value itself when `None`.
    pub(super) brief: Option<String>,
    /// The value of the proposal that is previewed.
    pub(super) to: Option<String>,
    /// What 19 of 20 such drinks stay within.
    pub(super) error: Option<String>,
    /// Difference to the trial before, with its sign.
    pub(super) change: Option<String>,
    pub(super) teach: String,
}

/// Which sources stand behind a figure, in a sentence.
pub(super) type Drawn<'a> = &'a dyn Fn(FigureGroup) -> String;

/// Shows the strip of figures, volumes in a unit; a previewed proposal's stand behind an arrow;
/// `before` names the trial that changes are told against.
pub(super) fn ui(
    ui: &mut Ui,
    (document, unit, drawn): (&Document, Unit, Drawn<'_>),
    (derived, before): (&Derived, Option<&str>),
    ghost: Option<&Preview>,
) {
    let Ok(figures) = &derived.figures else {
        return;
    };
    let sure = derived.uncertainty.as_ref();
    let tokens = Tokens::of(ui);
    let all = |figures: &Figures, parent: Option<&Figures>, sure: Option<&Uncertainty>| {
        let first = balance(figures, parent, (sure, drawn));
        let large = first.len();
        let rest = rest((document, unit), (figures, parent), (sure, drawn));
        let items = first.into_iter().chain(rest);
        (items.collect::<Vec<Item>>(), large)
    };
    let (mut items, large) = all(figures, derived.parent.as_ref(), sure);
    if let Some(ghost) = ghost {
        let (then, _) = all(&ghost.figures, None, ghost.uncertainty.as_ref());
        become_ghosts(&mut items, &then);
    }
    let legends = legends(sure.is_some(), before.filter(|_| derived.parent.is_some()));
    let card = Frame::new()
        .fill(tokens.card)
        .stroke(Stroke::new(1.0, tokens.line))
        .corner_radius(6)
        .inner_margin(Margin::symmetric(10, 6));
    let kept = ui.scope_id().with("height of the figures");
    let height = ui.data(|data| data.get_temp::<f32>(kept));
    card.show(ui, |ui| {
        ui.set_width(ui.available_width());
        if let Some(height) = height.filter(|_| ghost.is_some()) {
            // A preview leaves everything below in its place: what is pointed at must not move away.
            let size = vec2(ui.available_width(), height);
            let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
            let mut inner = ui.new_child(UiBuilder::new().max_rect(rect));
            inner.set_clip_rect(rect.intersect(ui.clip_rect()));
            rows(&mut inner, &items, (large, &legends));
        } else {
            let height = rows(ui, &items, (large, &legends));
            ui.data_mut(|data| data.insert_temp(kept, height));
        }
    });
}

/// What the numbers behind a figure are, in full and in brief: "± how sure · + − against Opening
/// round"; nothing where there are none.
fn legends(sure: bool, before: Option<&str>) -> Vec<String> {
    let change = before.map(|name| {
        let short: String = name.chars().take(LONGEST).collect();
        let cut = if short.len() < name.len() { "…" } else { "" };
        format!("+ − against {short}{cut}")
    });
    match (sure, change) {
        (true, Some(change)) => vec![
            format!("± how sure · {change}"),
            "± how sure · + − change".to_owned(),
        ],
        (true, None) => vec!["± how sure".to_owned()],
        (false, Some(change)) => vec![change],
        (false, None) => Vec::new(),
    }
}

/// Shows figures side by side, the first ones large, and what the numbers behind them are; gives
/// their height.
fn rows(ui: &mut Ui, items: &[Item], (large, legends): (usize, &[String])) -> f32 {
    let tokens = Tokens::of(ui);
    let figures = items.iter().enumerate();
    let figures: Vec<LayoutJob> = figures
        .map(|(place, item)| text(tokens, item, place < large))
        .collect();
    let small = TextFormat::simple(FontId::proportional(11.0), tokens.weak);
    let legend = |words: &String| LayoutJob::single_section(words.clone(), small.clone());
    let wide = |job: &LayoutJob| ui.painter().layout_job(job.clone()).size().x;
    let widths: Vec<f32> = figures.iter().map(wide).collect();
    let room = ui.available_width();
    let fits = |gap: f32, words: Option<&String>| {
        let last = words.map(|words| wide(&legend(words)));
        let all: Vec<f32> = widths.iter().copied().chain(last).collect();
        row_count(&all, gap, room) <= MOST_ROWS
    };
    // The legend gets shorter, and goes to the tooltips, before a row is added for it.
    let mut ways = legends.iter().map(Some).chain([None]);
    let way = ways.find_map(|words| Some((GAPS.into_iter().find(|gap| fits(*gap, words))?, words)));
    let (gap, words) = way.unwrap_or((GAPS[1], None));
    let legend = words.map(|words| (legend(words), LEGEND));
    ui.spacing_mut().interact_size.y = ROW;
    let shown = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(gap, 2.0);
        let teach = items.iter().map(|item| item.teach.as_str());
        for (text, teach) in figures.into_iter().zip(teach).chain(legend) {
            // One label each, so that a figure is never torn apart at the end of a row.
            ui.add(Label::new(text).extend()).on_hover_text(teach);
        }
    });
    shown.response.rect.height()
}

/// How many rows such widths take, side by side with gaps between them.
fn row_count(widths: &[f32], gap: f32, room: f32) -> usize {
    let (mut rows, mut taken) = (1, 0.0);
    for width in widths {
        if taken > 0.0 && taken + gap + width > room {
            rows += 1;
            taken = 0.0;
        }
        taken += width + if taken > 0.0 { gap } else { 0.0 };
    }
    rows
}

/// Puts what a preview comes to behind the figures that differ; what no longer is as it was loses
/// its error and its change, so that a figure hardly gets longer.
fn become_ghosts(items: &mut [Item], then: &[Item]) {
    for item in items {
        let Some(then) = then.iter().find(|then| then.name == item.name) else {
            continue;
        };
        if then.value != item.value {
            let brief = then.brief.clone().filter(|_| item.hue.is_none());
            item.to = Some(brief.unwrap_or_else(|| then.value.clone()));
            if let Some(brief) = item.brief.take() {
                item.value = brief;
            }
            item.error = None;
            item.change = None;
        }
    }
}

/// A figure with its error and its change.
fn text(tokens: &Tokens, item: &Item, large: bool) -> LayoutJob {
    let mut text = LayoutJob::default();
    let mut part = |words: &str, size: f32, color: Color32| {
        text.append(
            words,
            0.0,
            TextFormat::simple(FontId::proportional(size), color),
        );
    };
    if let Some((hue, glyph)) = item.hue {
        part(&format!("{glyph} "), 12.0, tokens.words(hue));
    }
    part(&format!("{} ", item.name), 12.0, tokens.weak);
    part(&item.value, if large { 16.0 } else { 13.0 }, tokens.text);
    if let Some(to) = &item.to {
        part(&format!(" → {to}"), 12.0, tokens.accent);
    }
    if let Some(error) = &item.error {
        part(&format!(" ± {error}"), 12.0, tokens.text);
    }
    if let Some(change) = &item.change {
        part(&format!(" {change}"), 12.0, tokens.weak);
    }
    text
}

fn balance(
    now: &Figures,
    before: Option<&Figures>,
    (sure, drawn): (Option<&Uncertainty>, Drawn<'_>),
) -> Vec<Item> {
    let item = |hue,
                glyph,
                axis: Axis,
                unit: &str,
                decimals,
                was: Option<f64>,
                (teach, from): (&str, &str)| {
        let value = now.point.on(axis);
        let change = was
            .map(|was| value - was)
            .filter(|change| change.abs() > 0.5 * 0.1_f64.powf(decimals as f64));
        // Ranges that reach further to one side pull the mean there.
        let lean = sure
            .map(|sure| (sure.shift(axis), sure.sigma(axis)))
            .filter(|(shift, sigma)| shift.abs() > LEANS * sigma)
            .map_or_else(String::new, |(shift, _)| {
                let mean = number(value + shift, decimals);
                format!(". Uneven ranges put the mean of such drinks at {mean}")
            });
        Item {
            hue: Some((hue, glyph)),
            name: axis.name(),
            value: format!("{} {unit}", number(value, decimals)),
            brief: Some(number(value, decimals)),
            to: None,
            error: sure.map(|sure| number(TWO_SIDED * sure.sigma(axis), decimals)),
            change: change.map(|change| signed(change, decimals)),
            teach: format!(
                "{teach}. ± is what 19 of 20 such drinks stay within; the signed number is the change from the trial before{lean}.{from}"
            ),
        }
    };
    let b = before.map(|before| before.point);
    let from = |group| format!("\nComputed from every pour. {}", drawn(group));
    let sugar = format!(
        "Sweet as that much sucrose per litre; all sugars weigh {} g/L",
        number(now.sugar_g_per_l, 1)
    );
    let acid = format!(
        "What a titration would find, as citric acid; all acids weigh {} g/L",
        number(now.acid_g_per_l, 2)
    );
    let (sweet, sour) = (from(FigureGroup::Sugar), from(FigureGroup::Acid));
    let strong = from(FigureGroup::Strength);
    vec![
        item(
            Hue::Sweet,
            "●",
            Axis::Sweet,
            "g/L",
            1,
            b.map(|b| b.sweet_g_per_l),
            (&sugar, &sweet),
        ),
        item(
            Hue::Sour,
            "▲",
            Axis::Sour,
            "g/L",
            2,
            b.map(|b| b.sour_g_per_l),
            (&acid, &sour),
        ),
        item(
            Hue::Strength,
            "■",
            Axis::Strength,
            "% vol",
            1,
            b.map(|b| b.strength_pct_vol),
            ("Alcohol by volume as served, at 20 °C", &strong),
        ),
    ]
}
