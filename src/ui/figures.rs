//! The figures of the drink as served, with their change against the trial before.

use super::theme::Tokens;
use crate::balance::{Figures, TWO_SIDED, Uncertainty};
use crate::chart::Hue;
use crate::model::{Axis, Document};
use crate::session::{Derived, Preview, cost_text};
use crate::units::{Unit, celsius, number, percent, show_volume, signed};
use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{Color32, FontId, Frame, Label, Margin, Sense, Stroke, Ui, UiBuilder, vec2};

/// Above this share of a standard deviation a shifted mean has a word.
const LEANS: f64 = 0.25;

/// One figure on screen.
struct Item {
    hue: Option<(Hue, &'static str)>,
    name: &'static str,
    value: String,
    /// The value where another one follows it; the value itself when `None`.
    brief: Option<String>,
    /// The value of the proposal that is previewed.
    to: Option<String>,
    /// What 19 of 20 such drinks stay within.
    error: Option<String>,
    change: Option<String>,
    teach: String,
}

/// Shows the strip of figures, volumes in a unit; a previewed proposal's stand behind an arrow.
pub(super) fn ui(
    ui: &mut Ui,
    (document, unit): (&Document, Unit),
    derived: &Derived,
    ghost: Option<&Preview>,
) {
    let Ok(figures) = &derived.figures else {
        return;
    };
    let sure = derived.uncertainty.as_ref();
    let tokens = Tokens::of(ui);
    let pours = derived.contributions.len();
    let all = |figures: &Figures, parent: Option<&Figures>, sure: Option<&Uncertainty>| {
        let first = balance(figures, parent, sure);
        let large = first.len();
        let rest = rest((document, unit, pours), figures, sure);
        let items = first.into_iter().chain(rest);
        (items.collect::<Vec<Item>>(), large)
    };
    let (mut items, large) = all(figures, derived.parent.as_ref(), sure);
    if let Some(ghost) = ghost {
        let (then, _) = all(&ghost.figures, None, ghost.uncertainty.as_ref());
        become_ghosts(&mut items, &then);
    }
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
            rows(&mut inner, &items, large);
        } else {
            let height = rows(ui, &items, large);
            ui.data_mut(|data| data.insert_temp(kept, height));
        }
    });
}

/// Shows figures side by side, the first ones large; gives their height.
fn rows(ui: &mut Ui, items: &[Item], large: usize) -> f32 {
    let shown = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(13.0, 2.0);
        ui.spacing_mut().interact_size.y = 18.0;
        for (place, item) in items.iter().enumerate() {
            show(ui, item, place < large);
        }
    });
    shown.response.rect.height()
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

fn show(ui: &mut Ui, item: &Item, large: bool) {
    let tokens = Tokens::of(ui);
    let mut text = LayoutJob::default();
    let mut part = |words: &str, size: f32, color: Color32| {
        text.append(
            words,
            0.0,
            TextFormat::simple(FontId::proportional(size), color),
        );
    };
    if let Some((hue, glyph)) = item.hue {
        part(&format!("{glyph} "), 12.0, tokens.hue(hue));
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
    // One label each, so that a figure is never torn apart at the end of a row.
    ui.add(Label::new(text).extend()).on_hover_text(&item.teach);
}

fn balance(now: &Figures, before: Option<&Figures>, sure: Option<&Uncertainty>) -> Vec<Item> {
    let item = |hue, glyph, axis: Axis, unit: &str, decimals, was: Option<f64>, teach: &str| {
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
                "{teach}. ± is what 19 of 20 such drinks stay within; the signed number is the change from the trial before{lean}"
            ),
        }
    };
    let b = before.map(|before| before.point);
    let sugar = format!(
        "Sweet as that much sucrose per litre; all sugars weigh {} g/L",
        number(now.sugar_g_per_l, 1)
    );
    let acid = format!(
        "What a titration would find, as citric acid; all acids weigh {} g/L",
        number(now.acid_g_per_l, 2)
    );
    vec![
        item(
            Hue::Sweet,
            "●",
            Axis::Sweet,
            "g/L",
            1,
            b.map(|b| b.sweet_g_per_l),
            &sugar,
        ),
        item(
            Hue::Sour,
            "▲",
            Axis::Sour,
            "g/L",
            2,
            b.map(|b| b.sour_g_per_l),
            &acid,
        ),
        item(
            Hue::Strength,
            "■",
            Axis::Strength,
            "% vol",
            1,
            b.map(|b| b.strength_pct_vol),
            "Alcohol by volume as served, at 20 °C",
        ),
    ]
}

/// A figure without a mark.
fn plain(name: &'static str, value: String, teach: &str) -> Item {
    Item {
        hue: None,
        name,
        value,
        brief: None,
        to: None,
        error: None,
        change: None,
        teach: teach.to_owned(),
    }
}

fn rest(
    (document, unit, pours): (&Document, Unit, usize),
    now: &Figures,
    sure: Option<&Uncertainty>,
) -> Vec<Item> {
    let mut items = served((document, unit), now, sure);
    items.extend(cold(now));
    items.extend(now.ph.map(|ph| Item {
        error: sure
            .and_then(|sure| sure.ph)
            .map(|sigma| number(TWO_SIDED * sigma, 1)),
        ..plain(
            "pH",
            number(ph, 1),
            "From all acids and what binds them, at 25 °C; too low for drinks with milk or egg, whose buffering is not modelled",
        )
    }));
    items.push(plain(
        "alcohol",
        format!("{} g", number(now.alcohol_g, 1)),
        "Pure alcohol in one drink",
    ));
    items.extend(texture(now));
    items.extend(cost(document, pours, now));
    items
}

/// Volume, weight, water from ice and the ratio of sweet to sour.
fn served(
    (document, unit): (&Document, Unit),
    now: &Figures,
    sure: Option<&Uncertainty>,
) -> Vec<Item> {
    let volume = show_volume(now.served_ml, 0, unit, &document.measures);
    let grams = number(now.served_g, 0);
    let (melt, share) = (number(now.melt_g, 0), percent(now.dilution, 0));
    // A share of the volume before ice as grams of water.
    let melt_error = sure.map(|sure| number(TWO_SIDED * sure.dilution * now.chilled_ml, 0));
    let mut items = vec![
        Item {
            error: sure.map(|sure| format!("{} ml", number(TWO_SIDED * sure.volume_ml, 0))),
            brief: Some(volume.clone()),
            ..plain(
                "served",
                format!("{volume}, {grams} g"),
                "Volume at 20 °C and weight, with the water from ice",
            )
        },
        Item {
            error: melt_error.map(|grams| format!("{grams} g")),
            brief: Some(format!("{melt} g")),
            ..plain(
                "from ice",
                format!("{melt} g ({share})"),
                if now.spared_g.abs() < 0.5 {
                    "Water from ice, and its share of the volume before ice"
                } else {
                    "Water from ice, and its share of the volume before ice; cold liquids, vessel or ice spare some"
                },
            )
        },
    ];
    items.extend(now.sugar_to_acid().map(|ratio| {
        plain(
            "sweet to sour",
            format!("{}:1", number(ratio, 1)),
            "Sucrose equivalent over titratable acid",
        )
    }));
    items
}

/// Served temperature where it can be predicted, else the coldest possible.
fn cold(now: &Figures) -> Option<Item> {
    let error = now
        .coldest
        .as_ref()
        .map(|cold| number(cold.error_celsius, 1));
    if let Some(served) = now.served_celsius {
        let icy = now.in_blender.is_some_and(|blender| blender.left_g > 0.5);
        return Some(Item {
            error,
            ..plain(
                if icy {
                    "when the blade stops"
                } else {
                    "served at"
                },
                celsius(served),
                "As it leaves the vessel: a shaken drink reaches its own freezing point within 12 to 15 s, any other follows the heat balance of drink, vessel and ice; what is topped up warms it. Mixing itself warms a real drink by up to 1 °C more; the freezing point itself is good to the ± shown",
            )
        });
    }
    now.coldest.as_ref().map(|cold| Item { error, ..
        plain(
            "coldest possible",
            celsius(cold.celsius),
            "Ice cannot take the drink below this once all of its ice has melted. The error is 0.3 °C for weak drinks and up to 2 °C for strong sweet ones",
        )
    })
}

/// Bitterness, body, gum and fizz, each where there is any.
fn texture(now: &Figures) -> Vec<Item> {
    let mut items = Vec::new();
    if now.point.bitter_per_ml > 0.005 {
        let value = number(now.point.bitter_per_ml, 2) + " per ml";
        let teach = "Your own open-ended scale, per ml; no physics is claimed";
        items.push(Item {
            hue: Some((Hue::Bitter, "◆")),
            ..plain("bitter", value, teach)
        });
    }
    let body = "Fat, protein, fibre, gum and other solids";
    let fizz = "Carbon dioxide poured in, before any is lost";
    for (name, value, least, decimals, unit, teach) in [
        ("body", now.body_g_per_l, 0.05, 1, "g/L", body),
        (
            "gum",
            now.gum_g_per_l,
            0.005,
            2,
            "g/L",
            "Gums and other thickeners",
        ),
        ("fizz", now.co2_g_per_l, 0.05, 1, "g/L CO₂", fizz),
    ] {
        if value > least {
            let value = format!("{} {unit}", number(value, decimals));
            items.push(plain(name, value, teach));
        }
    }
    items
}

fn cost(document: &Document, pours: usize, now: &Figures) -> Option<Item> {
    if now.cost.amount <= 0.0 {
        return None;
    }
    let known = cost_text(&now.cost, pours, &document.currency);
    let teach = match now.cost.unpriced {
        0 => "Every pour has a price",
        _ => "Pours without a price are left out; the menu of a pour takes the price of its pack",
    };
    Some(plain("cost", known, teach))
}
