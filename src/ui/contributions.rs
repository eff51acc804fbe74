//! Which pour brings how much, and what one notch more of it would do.

use super::naming::described;
use super::pours::place_before;
use super::theme::Tokens;
use super::view::View;
use crate::balance::{Contribution, Steps};
use crate::chart::Hue;
use crate::session::Session;
use crate::units::{number, percent, signed};
use eframe::egui::{
    Align2, Color32, FontId, Grid, Label, Rect, RichText, ScrollArea, Sense, Stroke, Ui, vec2,
};

const HEADS: [(&str, Hue, &str, &str); 4] = [
    ("sweet", Hue::Sweet, "●", "Share of the sweetness"),
    ("sour", Hue::Sour, "▲", "Share of the acid"),
    ("strength", Hue::Strength, "■", "Share of the alcohol"),
    ("bitter", Hue::Bitter, "◆", "Share of the bitterness"),
];

/// Shows the contributions.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &View, height: f32) {
    let Some(derived) = session.derived() else {
        return;
    };
    let parts = &derived.contributions;
    let bitter = parts.iter().any(|part| part.bitter > 0.0);
    let cost = parts.iter().any(|part| part.cost.is_some());
    // Shares and notches need about this much; names take what is left.
    let names = (ui.available_width() - 500.0).clamp(112.0, 260.0);
    let heads = &HEADS[..if bitter { 4 } else { 3 }];
    ScrollArea::both().id_salt("contributions").max_height(height).auto_shrink(false).show(ui, |ui| {
        Grid::new("contributions grid").striped(true).spacing(vec2(6.0, 1.0)).show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 17.0;
            let tokens = Tokens::of(ui);
            ui.label(RichText::new("pour").small().weak());
            for (name, hue, glyph, teach) in heads {
                let text = RichText::new(format!("{glyph} {name}")).small().color(tokens.hue(*hue));
                ui.label(text).on_hover_text(*teach);
            }
            if cost {
                ui.label(RichText::new("cost").small()).on_hover_text("Share of the known cost");
            }
            ui.label(RichText::new("one notch more").small())
                .on_hover_text("Where one notch more of it would move the drink, in noticeable differences: sweet, sour, strength");
            ui.end_row();
            for part in parts {
                let to = view.ghost(session).and_then(|ghost| {
                    let mut parts = ghost.preview.contributions.iter();
                    parts.find(|to| to.index == part.index)
                });
                let was = before(session, part.index);
                row(ui, (part, to, was), (heads.len(), names), cost, view.tables);
            }
        });
    });
}

/// What the pour brought in the trial before.
fn before(session: &Session, pour: usize) -> Option<&Contribution> {
    let trial = session.trial()?;
    let parent = session.spec()?.trial(trial.parent?)?;
    let place = place_before(parent, trial, pour)?;
    let mut parts = session.derived()?.parent_contributions.iter();
    parts.find(|was| was.index == place)
}

/// A share with its ghosts.
#[derive(Clone, Copy)]
struct Share {
    now: f64,
    /// In the proposal that is previewed.
    to: Option<f64>,
    /// In the trial before.
    was: Option<f64>,
}

/// One pour; `to` is what it would bring in the proposal that is previewed, `was` what it brought in
/// the trial before.
fn row(
    ui: &mut Ui,
    (part, to, was): (&Contribution, Option<&Contribution>, Option<&Contribution>),
    (heads, names): (usize, f32),
    cost: bool,
    words_only: bool,
) {
    let tokens = Tokens::of(ui);
    ui.scope(|ui| {
        ui.set_max_width(names);
        ui.add(Label::new(&part.name).truncate());
    });
    let shares = |part: &Contribution| [part.sweet, part.sour, part.strength, part.bitter];
    let now = shares(part);
    let (then, once) = (to.map(shares), was.map(shares));
    for (place, (name, hue, _, _)) in HEADS.iter().enumerate().take(heads) {
        let share = Share {
            now: now[place],
            to: then.map(|then| then[place]),
            was: once.map(|once| once[place]),
        };
        let name = format!("{}: {name}", part.name);
        bar(ui, &name, share, tokens.hue(*hue), words_only);
    }
    if cost {
        match part.cost {
            Some(share) => {
                let share = Share {
                    now: share,
                    to: to.and_then(|to| to.cost),
                    was: was.and_then(|was| was.cost),
                };
                let name = format!("{}: cost", part.name);
                bar(ui, &name, share, tokens.weak, words_only);
            }
            None => {
                ui.label("–");
            }
        }
    }
    ui.label(RichText::new(steps(&part.one_step_more)).small());
    ui.end_row();
}

fn steps(steps: &Steps) -> String {
    let one = |glyph: &str, value: f64| {
        (value.abs() >= 0.005).then(|| format!("{glyph} {}", signed(value, 2)))
    };
    let said: Vec<String> = [("●", steps.sweet), ("▲", steps.sour), ("■", steps.strength)]
        .into_iter()
        .filter_map(|(glyph, value)| one(glyph, value))
        .collect();
    if said.is_empty() {
        "no difference".to_owned()
    } else {
        said.join("  ")
    }
}

/// A share as a bar with its number; a previewed share that differs is marked and takes the number's
/// place, that of the trial before is a thin line.
fn bar(ui: &mut Ui, name: &str, share: Share, color: Color32, words_only: bool) {
    let now = percent(share.now, 0);
    let differs = |other: &f64| percent(*other, 0) != now;
    let share = Share {
        to: share.to.filter(differs),
        was: share.was.filter(differs),
        ..share
    };
    let to = share.to.map(|to| format!(" → {}", percent(to, 0)));
    let was = share.was.map(|was| {
        let change = signed((share.now - was) * 100.0, 0);
        format!(" ({change} since the trial before)")
    });
    let said = format!("{now}{}{}", to.unwrap_or_default(), was.unwrap_or_default());
    if words_only {
        ui.label(said);
        return;
    }
    let (rect, response) = ui.allocate_exact_size(vec2(62.0, 16.0), Sense::hover());
    if share.now.abs() >= 0.005 || share.to.is_some() || share.was.is_some() {
        paint(ui, rect, share, color);
    }
    described(&response, name, &said);
    let was = share.was.map_or_else(String::new, |was| {
        format!(
            "\nThin line: {} % in the trial before",
            number(was * 100.0, 1)
        )
    });
    response.on_hover_text(format!("{name} {} %{was}", number(share.now * 100.0, 1)));
}

fn paint(ui: &Ui, rect: Rect, share: Share, color: Color32) {
    let (tokens, painter) = (Tokens::of(ui), ui.painter());
    let track = vec2(24.0, 8.0);
    let corner = rect.min + vec2(0.0, 4.0);
    let along = |share: f64| track.x * share.clamp(0.0, 1.0) as f32;
    let filled = vec2(along(share.now).max(1.0), track.y);
    let faint = super::theme::faint(color, 0.18);
    painter.rect_filled(Rect::from_min_size(corner, track), 2.0, faint);
    painter.rect_filled(Rect::from_min_size(corner, filled), 2.0, color);
    let at = rect.left_center() + vec2(track.x + 4.0, 0.0);
    let font = FontId::proportional(12.0);
    let (words, ink) = match share.to {
        Some(to) => (format!("→{}", percent(to, 0)), tokens.accent),
        None => (percent(share.now, 0), tokens.text),
    };
    painter.text(at, Align2::LEFT_CENTER, words, font, ink);
    let ghosts = [
        (share.was, Stroke::new(1.0, tokens.weak)),
        (share.to, Stroke::new(2.0, tokens.accent)),
    ];
    for (ghost, mark) in ghosts {
        if let Some(ghost) = ghost {
            let x = corner.x + along(ghost);
            painter.vline(x, corner.y - 2.0..=corner.y + track.y + 2.0, mark);
        }
    }
}
